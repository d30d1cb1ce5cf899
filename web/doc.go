// Package web is Curvewright as a page: choose an example or bring a job, change its
// main numbers, see the settings and the curve follow.
//
// [New] gives an http.Handler that keeps nothing: the document travels with every
// request, and each answer is worked out from it again. The page is a plain form that
// works without script; a small script (folder ui) makes it answer while typing.
//
// The handlers need the engine, templ and net/http, no files, no clock and no
// database, so that the same handlers can be compiled to WebAssembly.
package web

//go:generate go tool templ generate
