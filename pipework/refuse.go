package pipework

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
	What   string // the figure: "fill pressure"
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
	return &RangeError{What: what, Given: tell(v), Accept: tell(low) + " to " + tell(high)}
}

// above refuses zero as well: what must flow, or be there at all.
func above[T quantity](what string, v, high T) error {
	if v > 0 && v <= high {
		return nil
	}
	return &RangeError{What: what, Given: tell(v), Accept: "above zero, to " + tell(high)}
}

// tell prints in SI and US, since an engine does not know who reads.
func tell[T quantity](v T) string {
	if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		return "no number"
	}
	si, us := v.Text(units.SI), v.Text(units.US)
	switch q := any(v).(type) {
	case units.Volume:
		si, us = q.WaterText(units.SI), q.WaterText(units.US)
	case units.Pressure:
		if math.Abs(float64(q)) < 0.995e5 { // heads of pumps and drops of pipes
			return fmt.Sprintf("%.3g\u00a0kPa (%.3g\u00a0ft of water)", float64(q)/1e3, q.FeetOfWater())
		}
	}
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

// The widest figures that a heating system can have. Outside them a key slipped.
const (
	mostFlow     = units.Flow(1)              // m³/s
	mostLength   = units.Length(10e3)         // m
	mostPressure = units.Pressure(2e6)        // Pa
	mostCapacity = units.LossCoefficient(1e7) // W/K
	mostPower    = units.Power(1e8)           // W
	mostVolume   = units.Volume(1e4)          // m³
	leastDrop    = units.Pressure(0.1)
	leastFlow    = units.Flow(1e-8) // m³/s, a drop now and then
	leastKv      = units.FlowCoefficient(1e-3)
	leastStream  = units.LossCoefficient(1e-3)    // W/K
	mostKv       = units.FlowCoefficient(1e5)     // m³/h
	mostK        = units.Number(1e4)              // minor losses on one run
	coldest      = units.Temperature(273.15 - 60) // of any water or mixture
	hottest      = units.Temperature(423.15)      // 150 °C
)

// Judgement is what common practice says about a figure, in a sentence.
type Judgement struct {
	Subject string // "velocity in 3/4 copper type L"
	Fits    bool
	Text    string
	Source  string
}
