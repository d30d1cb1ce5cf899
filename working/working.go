// Package working holds how a number came about: the formula, the figures that
// were put in, the range in which it holds and where it comes from. Every figure
// on a settings sheet leads to a chain of these, so that an installer, or an
// engineer who doubts, can follow it with a pencil.
package working

import "curvewright/units"

// Step is one calculation with its figures.
type Step struct {
	Name    string  // what was calculated: "Supply temperature on the design day"
	Formula string  // in plain text, with the symbols of Inputs: "Q = H · (Ti − To)"
	Inputs  []Input // the figures put in
	Result  Input   // what came out
	Range   string  // where the formula holds
	Source  string  // standard with clause, handbook, or "common practice"
	Note    string  // an assumption or caution that belongs to this step
}

// Input is one figure with its symbol and, for what a person entered, how it is
// known.
type Input struct {
	Symbol  string
	Meaning string
	Value   units.Quantity
	Known   string // measured, drawings, bills, estimated, assumed; empty for a computed figure
}
