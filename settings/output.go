package settings

import (
	"math"

	"curvewright/boiler"
	"curvewright/job"
	"curvewright/units"
)

// What can the boiler give where it stands, how low can its fire go, and how long should
// it rest? Output limit, hot water, starts and the year all ask here.

// available is the highest output that the altitude leaves of the boiler's rating; without
// a rating in the survey it is not set.
func (m *model) available() job.Given[units.Power] {
	out := m.job.Boiler.Output
	out.Value = units.Power(float64(out.Value) * float64(m.altitudeLeaves()))
	return out
}

// altitudeRuleEnds is where the trade's rule ends.
const altitudeRuleEnds = units.Length(10000 * 0.3048)

// altitudeLeaves is what the trade's rule leaves of a burner's rating. Above the rule's end
// it is what the rule leaves there: more cannot be, and only the maker knows how much less.
// An output that is the maker's own for the altitude keeps all of itself, and so does an oil
// burner's: the rule is for gas, and its maker sets it for the altitude.
func (m *model) altitudeLeaves() units.Fraction {
	if m.job.Boiler.AtSite == "yes" || m.job.Boiler.Fuel == "heating oil" {
		return 1
	}
	if remains, err := boiler.AltitudeUS.Remains(min(m.job.Site.Elevation.Value, altitudeRuleEnds)); err == nil {
		return remains
	}
	return 1
}

// outputWords names that output where the altitude takes some of it.
func (m *model) outputWords(output string) string {
	if m.altitudeLeaves() < 1 {
		return output + " at this altitude"
	}
	return output
}

// leastOutput is the lowest fire: as surveyed; of a burner for oil, or of a boiler that must
// stay dry, the full one, since these mostly know only on and off (common practice). Of any
// other burner it is not known.
func (m *model) leastOutput() job.Given[units.Power] {
	b, top := m.job.Boiler, m.available()
	switch {
	case b.MinOutput.Set:
		least := b.MinOutput
		if top.Set {
			least.Value = min(least.Value, top.Value)
		}
		return least
	case top.Set && (b.Fuel == "heating oil" || b.Kind == "non-condensing"):
		return job.Says(top.Value, job.Assumed)
	}
	return job.Given[units.Power]{}
}

// onOff tells a burner that has one fire only: nothing can be held down there.
func (m *model) onOff() bool {
	top, least := m.available(), m.leastOutput()
	return top.Set && least.Set && least.Value >= 0.98*top.Value
}

// calmStarts is the most starts an hour that the pause between two runs allows for with
// hardly any load (common practice).
const calmStarts = units.Frequency(6.0 / 3600)

// shortestPause is the pause of the sheet, in whole minutes.
func shortestPause() units.Time {
	pause, err := boiler.AntiCyclingTime(1, 4, calmStarts)
	if err != nil {
		return 0
	}
	return units.Time(60 * math.Ceil(float64(pause)/60-1e-9))
}

// BufferText tells the water that is missing for the shortest run, in two figures and not
// less than it.
//
// Range: any season.
// Source: none: words only.
func (s BoilerSeason) BufferText(sys units.System) string {
	return rounded(s.Buffer, sys, 2, func(x float64) float64 { return math.Ceil(x - 1e-9) })
}

// StartsText tells the starts of the season to two figures: more would promise too much.
//
// Range: any season.
// Source: none: words only.
func (s BoilerSeason) StartsText(sys units.System) string {
	if !(s.Starts > 0) || math.IsInf(float64(s.Starts), 0) {
		return "no"
	}
	return units.Number(twoFigures(float64(s.Starts))).Text(sys)
}

// WaterStartsText tells the starts for hot water in a year to two figures.
//
// Range: any season.
// Source: none: words only.
func (s BoilerSeason) WaterStartsText(sys units.System) string {
	return BoilerSeason{Starts: s.WaterStarts}.StartsText(sys)
}
