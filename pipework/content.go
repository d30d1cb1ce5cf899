package pipework

// How much water is in the system?

import (
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Heats names what a system heats with, for an estimate of its content.
type Heats string

// The kinds of system.
const (
	FinTubeSystem  Heats = "fin-tube or convectors"
	PanelSystem    Heats = "panel radiators"
	CastIronSystem Heats = "cast-iron radiators"
	ColumnSystem   Heats = "steel column radiators"
	FloorSystem    Heats = "heated floors"
	FanCoilSystem  Heats = "fan coils"
)

// Content is an estimate of the water with the band in which it may lie.
type Content struct {
	Likely, Low, High units.Volume
	Source            string
}

// perKilowatt is litres for each kW of design output, emitters with their pipes.
var perKilowatt = []struct {
	heats  Heats
	litres float64
}{{FinTubeSystem, 6}, {PanelSystem, 10}, {CastIronSystem, 14}, {ColumnSystem, 18}, {FloorSystem, 20}, {FanCoilSystem, 6}}

// EstimateContent guesses the water of a system from its output; boiler, buffer and
// separator come on top.
//
//	fin-tube and fan coils 6, panels 10, cast iron 14, columns 18, floors 20 litres per kW
//
// Units: W; m³.
// Range: output above 0 to 10 MW; within −40 % and +60 %.
// Source: common practice; large old systems hold more. Measure with a meter when filling.
// Errors: an unknown kind, an output outside the range.
func EstimateContent(heats Heats, output units.Power) (Content, error) {
	if err := above("output of the system", output, 1e7); err != nil {
		return Content{}, err
	}
	for _, k := range perKilowatt {
		if k.heats == heats {
			likely := units.Litres(k.litres * float64(output) / 1000)
			return Content{Likely: likely, Low: 0.6 * likely, High: 1.6 * likely, Source: "common practice, litres per kilowatt"}, nil
		}
	}
	return Content{}, &refuse.Error{What: "what the system heats with", Given: fmt.Sprintf("%q", heats), Accept: "fin-tube or convectors, panel radiators, cast-iron radiators, steel column radiators, heated floors, fan coils"}
}
