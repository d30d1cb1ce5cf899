// Package housekeeping holds the tests that keep the repository's own habits: which
// package may import which, that every formula says where it holds and where it comes
// from, that pages and examples are listed, and what must not stand in any file. It
// has no code beside its tests.
package housekeeping
