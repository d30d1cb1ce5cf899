// Package attendance holds the document of a visit: when, by whom, under which conditions,
// what was read, what was entered differently from the sheet, which checks were done, and
// the records of combustion, water, pressure and balancing.
//
// A document is YAML or JSON with units in its values, read as strictly as a job; package
// job says how. [Read] and [Write] bring it in and out, [Visit.Seal] makes a signed one
// that no longer changes: a correction is a new visit that names the one it corrects.
//
// What the readings mean is worked out by package visit, each time anew; a signed visit
// keeps the engine's version and the job's fingerprint that it was judged against.
package attendance
