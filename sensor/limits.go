package sensor

import (
	"fmt"

	"curvewright/units"
)

// RangeError says which figure was refused, what was given and what would be
// accepted.
type RangeError struct {
	What   string // the figure: "resistance at 25 °C"
	Given  string // as given, with its unit
	Accept string // what would be accepted
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("sensor: %s: %s given; accepted: %s", e.What, e.Given, e.Accept)
}

type quantity interface {
	~float64
	units.Quantity
}

// within refuses a value that is no number or lies outside low to high.
func within[T quantity](what string, v, low, high T) error {
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{What: what, Given: tell(v), Accept: tell(low) + " to " + tell(high)}
}

// tell prints in SI and US, since an engine does not know who reads.
func tell(v units.Quantity) string {
	si, us := v.Text(units.SI), v.Text(units.US)
	if si == us {
		return si
	}
	return si + " (" + us + ")"
}

// first gives the first of several checks that failed.
func first(checks ...error) error {
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}

// The widest figures that a sensor of a heating system can have.
const (
	least = units.ElectricResistance(1)
	most  = units.ElectricResistance(1e7)
)
