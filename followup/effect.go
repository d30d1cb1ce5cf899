package followup

import (
	"slices"

	"curvewright/curve"
	"curvewright/units"
	"curvewright/year"
)

// AsItRuns gives the settings of a year with the logged circuit's curve as the log shows
// it, so that a simulation can hold them beside the corrected ones.
//
// Units: those of the settings.
// Range: a result whose curve is known; settings of the same job's circuits.
// Source: the line through two points of the curve that was read.
func (r *Result) AsItRuns(s year.Settings) year.Settings {
	s.Name = "as it runs"
	s.Circuits = slices.Clone(s.Circuits)
	k := r.Correction.Circuit
	if k >= len(s.Circuits) || !r.Curve.Slope.Known {
		return s
	}
	at := func(out units.Temperature) curve.Point {
		return curve.Point{Outdoor: out, Supply: units.Temperature(r.Curve.free(float64(out)))}
	}
	old := s.Circuits[k].Curve.Limit
	if r.Curve.Highest.Known {
		old.To = r.Curve.Highest.Value
	}
	s.Circuits[k].Held = 0
	s.Circuits[k].Curve = curve.Setting{Kind: curve.TwoPoints, Cold: at(units.Celsius(-10)), Mild: at(units.Celsius(15)),
		Limit: curve.Span[units.Temperature]{From: min(old.From, units.Celsius(20)), To: old.To}}
	if r.Curve.CutOff.Known {
		s.CutOff.Above = r.Curve.CutOff.Value
	}
	return s
}
