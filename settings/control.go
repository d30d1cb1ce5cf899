package settings

import (
	"math"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/units"
)

// control is the described control with everything left out filled in by what is
// common among controls (common practice), so that the rest of the package need not
// ask again.
type control struct {
	scale     units.System
	step      units.Step
	roomStep  units.Step
	limit     curve.Span[units.Temperature] // of any supply
	cutOff    *curve.Span[units.Temperature]
	cutStep   units.Step
	clock     string
	points    int
	room      bool
	frostBy   []string
	limitBy   string
	perLimit  bool // each circuit has a highest supply of its own
	asksKind  bool
	asksSep   bool
	described bool // whether a curve shape was described at all
}

func readControl(c job.Control, sys units.System) control {
	out := control{scale: sys.In(units.Temperatures), clock: c.Clock, points: c.PointsPerDay,
		room: c.RoomSensor == "yes", frostBy: c.FrostBy, limitBy: c.OutputLimit,
		perLimit: c.SlabLimit != "no", asksKind: c.EmitterKinds == "yes", asksSep: c.SensorAsked != "no"}
	switch c.Scale {
	case "fahrenheit":
		out.scale = units.US
	case "celsius":
		out.scale = units.SI
	}
	if out.clock == "" {
		out.clock = "24 hour"
		if out.scale == units.US {
			out.clock = "12 hour"
		}
	}
	usual, low, high := units.Kelvins(0.5), units.Celsius(10), units.Celsius(90)
	if out.scale == units.US {
		usual, low, high = units.FahrenheitDifference(1), units.Fahrenheit(50), units.Fahrenheit(194)
	}
	out.step = stepOn(out.scale, c.Step.Or(usual).Value)
	out.roomStep = stepOn(out.scale, c.RoomStep.Or(usual).Value)
	out.limit = curve.Span[units.Temperature]{From: c.MinSupply.Or(low).Value, To: c.MaxSupply.Or(high).Value}
	if c.CutOff != nil {
		out.cutOff = &curve.Span[units.Temperature]{
			From: c.CutOff.From.Or(units.Celsius(10)).Value, To: c.CutOff.To.Or(units.Celsius(30)).Value}
		out.cutStep = stepOn(out.scale, c.CutOff.Step.Or(usual).Value)
	}
	s := c.Curve
	out.described = s.TwoPoints != nil || s.SlopeShift != nil || s.Bent != nil || s.Table != nil
	return out
}

func stepOn(scale units.System, d units.Difference) units.Step {
	size := float64(d)
	if scale == units.US {
		size = d.Fahrenheit()
	}
	return units.Step{System: scale, Size: math.Round(size*1000) / 1000}
}

// shape is the described curve for one circuit whose supply may move within limit.
func (c control) shape(s job.Shapes, limit curve.Span[units.Temperature]) curve.Shape {
	out := curve.Shape{Step: c.step, Limit: limit}
	cold := curve.Span[units.Temperature]{From: units.Celsius(-40), To: units.Celsius(10)}
	mild := curve.Span[units.Temperature]{From: units.Celsius(5), To: units.Celsius(25)}
	set := c.limit
	switch {
	case s.SlopeShift != nil:
		out.Kind = curve.SlopeShift
		out.Slope = numbers(s.SlopeShift.Slope, curve.Grid{From: 0.1, To: 4, Step: 0.1})
		shift := s.SlopeShift.Shift
		out.Shift = curve.Grid{From: float64(shift.From.Or(units.Kelvins(-15)).Value),
			To: float64(shift.To.Or(units.Kelvins(15)).Value), Step: float64(shift.Step.Or(out.Step.Difference()).Value)}
	case s.Bent != nil:
		out.Kind = curve.Bent
		b := s.Bent
		out.ColdOutdoor, out.MildOutdoor = span(b.ColdOutdoor, cold), span(b.MildOutdoor, mild)
		out.ColdSupply, out.MildSupply = span(b.ColdSupply, set), span(b.MildSupply, set)
		out.Exponent = numbers(b.Exponent, curve.Grid{From: 1, To: 2, Step: 0.1})
		out.Holds = b.Beyond == "holds"
	case s.Table != nil:
		out.Kind = curve.Table
		t := s.Table
		out.Points = t.Points
		out.ColdOutdoor = span(t.Outdoor, curve.Span[units.Temperature]{From: cold.From, To: mild.To})
		out.ColdSupply = span(t.Supply, set)
	default:
		out.Kind = curve.TwoPoints
		t := s.TwoPoints
		if t == nil {
			t = &job.TwoPoints{}
		}
		out.ColdOutdoor, out.MildOutdoor = span(t.ColdOutdoor, cold), span(t.MildOutdoor, mild)
		out.ColdSupply, out.MildSupply = span(t.ColdSupply, set), span(t.MildSupply, set)
		out.Holds = t.Beyond == "holds"
	}
	// No point that is entered lies above what the circuit may see.
	out.ColdSupply.To, out.MildSupply.To = min(out.ColdSupply.To, limit.To), min(out.MildSupply.To, limit.To)
	out.ColdSupply.From, out.MildSupply.From = min(out.ColdSupply.From, out.ColdSupply.To), min(out.MildSupply.From, out.MildSupply.To)
	return out
}

func span(r job.Range, usual curve.Span[units.Temperature]) curve.Span[units.Temperature] {
	return curve.Span[units.Temperature]{From: r.From.Or(usual.From).Value, To: r.To.Or(usual.To).Value}
}

func numbers(r job.NumberRange, usual curve.Grid) curve.Grid {
	return curve.Grid{From: float64(r.From.Or(units.Number(usual.From)).Value),
		To: float64(r.To.Or(units.Number(usual.To)).Value), Step: float64(r.Step.Or(units.Number(usual.Step)).Value)}
}
