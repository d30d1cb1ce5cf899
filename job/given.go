package job

import "curvewright/units"

// Known says how an input came to be known. The order of trust is measured,
// drawings, bills, estimated; an input that says nothing counts as estimated.
type Known string

// The words a document may use after "known:".
const (
	Measured  Known = "measured"
	Drawings  Known = "drawings"
	Bills     Known = "bills"
	Estimated Known = "estimated"
	// Assumed marks a value that nobody entered. A document cannot say it.
	Assumed Known = "assumed"
)

// Given is one input: its value, the text it was written as, and how it is known.
// The zero Given is an input that was left out.
type Given[T units.Quantity] struct {
	Value T
	Text  string // as written, so that a document goes back out unchanged
	Known Known  // empty: not said
	Set   bool
}

// Says makes an input as if it had been written in the document.
func Says[T units.Quantity](value T, known Known) Given[T] {
	return Given[T]{Value: value, Known: known, Set: true}
}

// Or gives the input itself, or an assumed value where it was left out.
func (g Given[T]) Or(assumed T) Given[T] {
	if g.Set {
		return g
	}
	return Given[T]{Value: assumed, Known: Assumed}
}

// How is how the input is known, with the unsaid counted as estimated.
func (g Given[T]) How() Known {
	if g.Set && g.Known == "" {
		return Estimated
	}
	return g.Known
}
