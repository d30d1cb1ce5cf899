package pipework

// How a figure that cannot be meant is refused, in words for the person who
// entered it.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
	"curvewright/working"
)

// within refuses a value that is no number or lies outside low to high.
func within[T refuse.Quantity](what string, v, low, high T) error {
	return refuse.Words[T]{Tell: tell}.Within(what, v, low, high)
}

// above refuses zero as well: what must flow, or be there at all.
func above[T refuse.Quantity](what string, v, high T) error {
	return refuse.Words[T]{Tell: tell}.Above(what, v, high)
}

// tell prints in both systems, a volume as water and a small pressure as a head.
func tell(v units.Quantity) string {
	switch q := v.(type) {
	case units.Volume:
		return refuse.Both(working.Water(q))
	case units.Pressure:
		if math.Abs(float64(q)) < 0.995e5 { // heads of pumps and drops of pipes
			return fmt.Sprintf("%.3g\u00a0kPa (%.3g\u00a0ft of water)", float64(q)/1e3, q.FeetOfWater())
		}
	}
	return refuse.Both(v)
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
