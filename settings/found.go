package settings

// The control as it was found, in figures: what a year is played with beside the sheet,
// what the page of the curve draws, and what a log is held against.

import (
	"math"

	"curvewright/curve"
	"curvewright/units"
)

// Found is the control as it was found. What nobody wrote down is zero.
type Found struct {
	Circuits     []FoundCircuit
	CutOff       units.Temperature // 0 for none
	Program      PlanProgram
	Limit        units.Power // of the heating output, 0 for none
	Differential units.Difference
	Rest         units.Time
	Tank         units.Temperature
	TankDrop     units.Difference // a charge began so far below Tank
	Priority     string           // "yes", "no" or not said
	FrostOutdoor units.Temperature
	FrostRoom    units.Temperature
}

// FoundCircuit is the curve of a circuit; a supply that was held is a level one.
type FoundCircuit struct {
	Name  string
	Curve curve.Setting
}

// Curve finds the curve of a circuit by its name.
//
// Range: any name.
// Source: the survey.
func (f Found) Curve(circuit string) (curve.Setting, bool) {
	for _, c := range f.Circuits {
		if c.Name == circuit {
			return c.Curve, true
		}
	}
	return curve.Setting{}, false
}

// Temperatures between which a curve runs where no limits were written down (common
// practice: no control sends cooler or hotter water).
var (
	foundLeast = units.Celsius(20)
	foundMost  = units.Celsius(95)
)

// Preset is the curve with which controls commonly come.
//
//	radiators and baseboards: 75 °C at −10 °C; heated floors: 45 °C at −10 °C; 20 °C at 20 °C
//
// Units: kelvin.
// Range: circuits of radiators and baseboards, or of heated floors.
// Source: common practice.
func Preset(floor bool) curve.Setting {
	cold, most := units.Fahrenheit(167), units.Celsius(85)
	if floor {
		cold, most = units.Fahrenheit(113), units.Fahrenheit(118)
	}
	return Through(curve.Point{Outdoor: units.Fahrenheit(14), Supply: cold}, curve.Point{Outdoor: units.Fahrenheit(68), Supply: units.Fahrenheit(68)}, foundLeast, most)
}

// Through is the straight curve through two points.
//
// Units: kelvin.
// Range: the cold point colder than the mild one.
// Source: definition.
func Through(cold, mild curve.Point, least, most units.Temperature) curve.Setting {
	return curve.Setting{Kind: curve.TwoPoints, Cold: cold, Mild: mild, Limit: curve.Span[units.Temperature]{From: least, To: most}}
}

// HeldAt is a supply that is held whatever the weather, as a level curve.
//
// Units: kelvin.
// Range: any supply.
// Source: definition.
func HeldAt(supply units.Temperature) curve.Setting {
	return Through(curve.Point{Outdoor: units.Celsius(-20), Supply: supply}, curve.Point{Outdoor: units.Celsius(20), Supply: supply}, min(foundLeast, supply), supply)
}

// found reads the survey's.
func (m *model) found() Found {
	j := m.job.Found
	f := Found{CutOff: j.CutOff.Value, Limit: j.OutputLimit.Value, Differential: j.Differential.Value, Rest: j.Rest.Value,
		Tank: j.HotWater.Value, TankDrop: j.HotWaterDrop.Value, Priority: j.Priority, FrostOutdoor: j.FrostOutdoor.Value, FrostRoom: j.FrostRoom.Value}
	if j.Lower.Set {
		f.Program = PlanProgram{Lower: max(0, m.commonRoom().Sub(j.Lower.Value)),
			Warm: []PlanTimes{{timeOfDay(j.LoweredTo, "06:00"), timeOfDay(j.LoweredFrom, "22:00")}}}
	}
	for _, k := range j.Curves {
		for i := range m.circuits {
			c := &m.circuits[i]
			if k.Circuit != c.job.Name && !(k.Circuit == "" && len(m.circuits) == 1) {
				continue
			}
			out := FoundCircuit{Name: c.job.Name}
			limit := curve.Span[units.Temperature]{From: k.MinSupply.Or(foundLeast).Value, To: k.MaxSupply.Or(foundMost).Value}
			limit.From = min(limit.From, limit.To)
			switch {
			case k.Preset != "":
				out.Curve = Preset(k.Preset == "floor")
				out.Curve.Limit.To = k.MaxSupply.Or(out.Curve.Limit.To).Value
				out.Curve.Limit.From = min(k.MinSupply.Or(out.Curve.Limit.From).Value, out.Curve.Limit.To)
			case k.Held.Set:
				out.Curve = HeldAt(k.Held.Value)
			case k.Slope.Set:
				out.Curve = curve.Setting{Kind: curve.SlopeShift, Slope: float64(k.Slope.Value), Shift: k.Shift.Value, Room: c.setpoint, Limit: limit}
			case len(k.Points) > 0:
				out.Curve = curve.Setting{Kind: curve.Table, Limit: limit}
				for _, p := range k.Points {
					out.Curve.Points = append(out.Curve.Points, curve.Point{Outdoor: p.Outdoor.Value, Supply: p.Supply.Value})
				}
			default:
				out.Curve = Through(curve.Point{Outdoor: k.ColdOutdoor.Value, Supply: k.ColdSupply.Value}, curve.Point{Outdoor: k.MildOutdoor.Value, Supply: k.MildSupply.Value}, limit.From, limit.To)
				if k.Exponent.Set {
					out.Curve.Kind, out.Curve.Exponent = curve.Bent, float64(k.Exponent.Value)
				}
				out.Curve.Holds = m.holdsBeyond()
			}
			f.Circuits = append(f.Circuits, out)
		}
	}
	return f
}

// holdsBeyond tells whether the control holds its supply beyond the cold point.
func (m *model) holdsBeyond() bool {
	return m.control.shape(m.job.Control.Curve, m.control.limit).Holds
}

// Alike tells whether two curves give the same supply, but for a difference, from one
// outdoor temperature to another.
//
// Units: kelvin.
// Range: any curves.
// Source: definition.
func Alike(a, b curve.Setting, from, to units.Temperature, within units.Difference) bool {
	for t := from; t <= to; t++ {
		if math.Abs(float64(a.At(t).Sub(b.At(t)))) > float64(within) {
			return false
		}
	}
	return true
}
