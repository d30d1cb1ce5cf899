package boiler

// How a figure that cannot be meant is refused, in words for the person who entered it.

import (
	"fmt"
	"math"

	"curvewright/units"
)

type quantity interface {
	~float64
	units.Quantity
}

// within refuses a value that is no number or lies outside low to high.
func within[T quantity](what string, v, low, high T) error {
	if v >= low && v <= high {
		return nil
	}
	return fmt.Errorf("%s: %s given; accepted: %s to %s", what, both(v), both(low), both(high))
}

// both prints in SI and US, since an engine does not know who reads.
func both[T quantity](v T) string {
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

// The widest figures that a house's boiler room can have. Outside them a key slipped.
const (
	leastPower  = units.Power(100)
	mostPower   = units.Power(1e7)
	coldestAir  = units.Temperature(203.15) // −70 °C
	warmestAir  = units.Temperature(333.15) // 60 °C
	mostExcess  = units.Fraction(4)
	mostVolume  = units.Volume(100)
	hottestLoop = units.Temperature(393.15) // 120 °C
)
