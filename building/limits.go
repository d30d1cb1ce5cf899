package building

// How a figure that cannot be meant is refused, in words for the person who
// entered it.

import (
	"fmt"
	"math"

	"curvewright/units"
)

// RangeError says which figure was refused, what was given and what would be
// accepted.
type RangeError struct {
	What   string // the figure: "wall area"
	Given  string // as given, with its unit
	Accept string // what would be accepted
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s: %s given; accepted: %s", e.What, e.Given, e.Accept)
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
	return &RangeError{What: what, Given: bothSystems(v), Accept: bothSystems(low) + " to " + bothSystems(high)}
}

// bothSystems prints in SI and US, since an engine does not know who reads.
func bothSystems[T quantity](v T) string {
	if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		return "no number"
	}
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

// The widest figures that a house or a site can have. Outside them a key slipped.
const (
	smallestArea = units.Area(0.01)
	largestArea  = units.Area(1e5)
	coldest      = units.Temperature(203.15) // −70 °C
	warmest      = units.Temperature(333.15) // 60 °C
	largestU     = units.Transmittance(10)
	largestR     = units.Resistance(50)
	largestLoss  = units.LossCoefficient(1e6)
)

func checkTemperature(what string, t units.Temperature) error {
	return within(what, t, coldest, warmest)
}

func checkArea(what string, a units.Area) error {
	return within(what, a, smallestArea, largestArea)
}
