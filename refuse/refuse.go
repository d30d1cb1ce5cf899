// Package refuse says how a figure that cannot be meant is refused, in words for the
// person who entered it: which figure, what was given, what would be accepted.
//
// Most packages need [Within] and [Both]. One that names its subject in each refusal,
// or prints a quantity in its own way, has [Words] of its own. Of several checks the
// first that failed is told, with [cmp.Or].
package refuse

import (
	"math"

	"curvewright/units"
)

// Error says which figure was refused, what was given and what would be accepted.
type Error struct {
	Subject string // what the figure belongs to, where What alone does not tell: "hot water"; may be empty
	What    string // the figure: "wall area"
	Given   string // as given, with its unit
	Accept  string // what would be accepted
}

func (e *Error) Error() string {
	text := e.What + ": " + e.Given + " given; accepted: " + e.Accept
	if e.Subject != "" {
		return e.Subject + ": " + text
	}
	return text
}

// Quantity is a figure that has ends to lie between and can be told.
type Quantity interface {
	~float64
	units.Quantity
}

// Within refuses a value that is no number or lies outside low to high.
func Within[T Quantity](what string, v, low, high T) error {
	return Words[T]{}.Within(what, v, low, high)
}

// Both prints in SI and US, since an engine does not know who reads.
func Both(v units.Quantity) string {
	si, us := v.Text(units.SI), v.Text(units.US)
	if si == us {
		return si
	}
	return si + " (" + us + ")"
}

// Words are a package's own way to refuse. Without any, it is that of [Within].
type Words[T Quantity] struct {
	Subject string                      // of each refusal; may be empty
	Tell    func(units.Quantity) string // prints a value; nil for [Both]
}

// Within refuses a value that is no number or lies outside low to high.
func (w Words[T]) Within(what string, v, low, high T) error {
	if v >= low && v <= high {
		return nil
	}
	return w.refusal(what, v, w.tell(low)+" to "+w.tell(high))
}

// Above refuses zero as well: what must flow, or be there at all.
func (w Words[T]) Above(what string, v, high T) error {
	if v > 0 && v <= high {
		return nil
	}
	return w.refusal(what, v, "above zero, to "+w.tell(high))
}

func (w Words[T]) refusal(what string, v T, accept string) error {
	return &Error{Subject: w.Subject, What: what, Given: w.tell(v), Accept: accept}
}

func (w Words[T]) tell(v T) string {
	switch {
	case math.IsNaN(float64(v)) || math.IsInf(float64(v), 0):
		return "no number"
	case w.Tell == nil:
		return Both(v)
	}
	return w.Tell(v)
}
