package pipework

// Which flow does a pump make in a circuit, and what has to be dialled in for the flow
// that is wanted?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// PumpPoint is one point of a pump's chart.
type PumpPoint struct {
	Flow units.Flow
	Head units.Pressure
}

// PumpCurve is head over flow at full speed. Make one with [NewPumpCurve].
type PumpCurve struct {
	flow, head, slope []float64
}

// NewPumpCurve draws a curve through points read from a chart: a cubic between each two
// that never leaves the range of the two heads. A parabola fitted through the points
// would be smoother, but misses what was entered and may rise where the chart falls.
//
// Units: m³/s and Pa.
// Range: 3 to 50 points, the first at no flow, flows rising, heads never rising and none
// below zero; flows to 1 m³/s, heads to 20 bar.
// Source: Fritsch and Butland, SIAM Journal on Scientific and Statistical Computing 5,
// 1984: monotone cubic interpolation, from memory.
// Errors: too few points, points out of order, rising heads, a figure outside the range.
func NewPumpCurve(points ...PumpPoint) (PumpCurve, error) {
	n := len(points)
	if n < 3 || n > 50 {
		return PumpCurve{}, &refuse.Error{What: "pump curve", Given: fmt.Sprintf("%d points", n), Accept: "3 to 50 points, the first at no flow: read them from the pump's chart"}
	}
	var c PumpCurve
	for i, p := range points {
		name := fmt.Sprintf("point %d of the pump curve", i+1)
		if err := cmp.Or(within("flow of "+name, p.Flow, 0, mostFlow), within("head of "+name, p.Head, 0, mostPressure)); err != nil {
			return PumpCurve{}, err
		}
		switch {
		case i == 0 && p.Flow != 0:
			return PumpCurve{}, &refuse.Error{What: "flow of " + name, Given: tell(p.Flow), Accept: "no flow: begin where the chart's curve meets the axis of heads"}
		case i > 0 && p.Flow <= points[i-1].Flow:
			return PumpCurve{}, &refuse.Error{What: "flow of " + name, Given: tell(p.Flow), Accept: "more than " + tell(points[i-1].Flow) + ", the point before"}
		case i > 0 && p.Head > points[i-1].Head:
			return PumpCurve{}, &refuse.Error{What: "head of " + name, Given: tell(p.Head), Accept: "no more than " + tell(points[i-1].Head) + ", the point before: a head that rises with the flow gives no steady operation"}
		}
		c.flow, c.head = append(c.flow, float64(p.Flow)), append(c.head, float64(p.Head))
	}
	if c.head[0] <= 0 {
		return PumpCurve{}, &refuse.Error{What: "head of point 1 of the pump curve", Given: tell(points[0].Head), Accept: "above zero"}
	}
	c.slope = monotoneSlopes(c.flow, c.head)
	return c, nil
}

// monotoneSlopes gives the slope of the curve at each point: the weighted harmonic mean
// of the chords beside it, none where a chord is flat.
func monotoneSlopes(x, y []float64) []float64 {
	n := len(x)
	chord := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	slope := make([]float64, n)
	for i := 1; i < n-1; i++ {
		before, after := chord(i-1), chord(i)
		if before < 0 && after < 0 {
			h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
			slope[i] = 3 * (h0 + h1) / ((2*h1+h0)/before + (h1+2*h0)/after)
		}
	}
	// At the ends, the parabola through three points, held between flat and three chords.
	end := func(h0, h1, near, far float64) float64 {
		return math.Max(3*near, math.Min(0, ((2*h0+h1)*near-h0*far)/(h0+h1)))
	}
	slope[0] = end(x[1]-x[0], x[2]-x[1], chord(0), chord(1))
	slope[n-1] = end(x[n-1]-x[n-2], x[n-2]-x[n-3], chord(n-2), chord(n-3))
	return slope
}

// at gives the head; beyond the last point the head stays, and callers say so.
func (c PumpCurve) at(flow float64) float64 {
	n := len(c.flow)
	if flow <= 0 {
		return c.head[0]
	}
	if flow >= c.flow[n-1] {
		return c.head[n-1]
	}
	i := 1
	for c.flow[i] < flow {
		i++
	}
	h := c.flow[i] - c.flow[i-1]
	t := (flow - c.flow[i-1]) / h
	u := 1 - t
	head := u*u*(1+2*t)*c.head[i-1] + t*t*(1+2*u)*c.head[i] + h*t*u*(u*c.slope[i-1]-t*c.slope[i])
	return math.Max(c.head[i], math.Min(c.head[i-1], head)) // not past them by rounding
}

func (c PumpCurve) reach() float64 { return c.flow[len(c.flow)-1] }

// flowAt is the largest flow at which the pump still makes a head, or its reach.
func (c PumpCurve) flowAt(head float64) float64 {
	i := len(c.flow) - 1
	for i > 0 && c.head[i] < head {
		i--
	}
	if i == len(c.flow)-1 {
		return c.flow[i]
	}
	flow, _ := root(func(v float64) float64 { return c.at(v) - head }, c.flow[i], c.flow[i+1], c.head[i]-head, c.head[i+1]-head, 1e-14*c.reach())
	return flow
}

// PumpMode is how a pump keeps its head.
type PumpMode string

// The modes.
const (
	FixedSpeed           PumpMode = "fixed speed"
	ConstantPressure     PumpMode = "constant pressure"
	ProportionalPressure PumpMode = "proportional pressure" // the head falls with the flow, to a share at no flow
)

// usualFoot is the share of the head that proportional pressure keeps at no flow.
const usualFoot = 0.5

// PumpSetting is what is dialled in.
type PumpSetting struct {
	Mode  PumpMode
	Speed units.Fraction // fixed speed, of full speed
	Head  units.Pressure // constant: the head; proportional: where its line meets full speed
	Foot  units.Fraction // proportional: share of the head kept at no flow; zero: one half
}

// Pump is a pump with its setting. Make one with [PumpCurve.Set].
type Pump struct {
	curve   PumpCurve
	setting PumpSetting
	full    float64 // flow at which proportional pressure meets full speed
}

// Set gives the pump with a setting.
//
//	fixed speed s: H = s²·H_full(V̇/s)
//	constant:      H = min(H_set, H_full(V̇))
//	proportional:  H = min(H_set·(foot + (1 − foot)·V̇/V̇_set), H_full(V̇)), H_full(V̇_set) = H_set
//
// Units: speed as a share of one; head in Pa.
// Range: speed 0.1 to 1; head above 0 to that at no flow; foot 0 to 1.
// Source: affinity laws of pumps; proportional line with half the head at no flow: common
// practice, makers differ.
// Errors: a curve not made by NewPumpCurve, an unknown mode, a figure outside the range.
func (c PumpCurve) Set(s PumpSetting) (Pump, error) {
	if len(c.flow) == 0 {
		return Pump{}, &refuse.Error{What: "pump curve", Given: "none", Accept: "3 to 50 points read from the pump's chart"}
	}
	p := Pump{curve: c, setting: s}
	switch s.Mode {
	case FixedSpeed:
		if err := within("speed of the pump", s.Speed, 0.1, 1); err != nil {
			return Pump{}, err
		}
		return p, nil
	case ConstantPressure, ProportionalPressure:
		if p.setting.Foot == 0 {
			p.setting.Foot = usualFoot
		}
		if err := cmp.Or(above("head set at the pump", s.Head, units.Pressure(c.head[0])), within("share of the head at no flow", p.setting.Foot, 0, 1)); err != nil {
			return Pump{}, err
		}
		// A head set at the shut-off head meets full speed at no flow: keep the line upright.
		p.full = math.Max(c.flowAt(float64(s.Head)), 1e-9*c.reach())
		return p, nil
	}
	return Pump{}, &refuse.Error{What: "mode of the pump", Given: fmt.Sprintf("%q", s.Mode), Accept: "fixed speed, constant pressure or proportional pressure"}
}

// Head gives the head that the pump makes at a flow.
//
// Units: m³/s; Pa.
// Range: flow from zero to the last point of the curve; beyond it the last head, which
// [Operate] and [Solve] refuse to use.
// Source: as [PumpCurve.Set].
func (p Pump) Head(flow units.Flow) units.Pressure {
	if len(p.curve.flow) == 0 {
		return 0
	}
	return units.Pressure(p.at(math.Max(0, float64(flow))))
}

func (p Pump) at(flow float64) float64 {
	switch s := p.setting; s.Mode {
	case FixedSpeed:
		speed := float64(s.Speed)
		return speed * speed * p.curve.at(flow/speed)
	case ProportionalPressure:
		line := float64(s.Head) * (float64(s.Foot) + float64(1-s.Foot)*math.Min(1, flow/p.full))
		return math.Min(line, p.curve.at(flow))
	default:
		return math.Min(float64(s.Head), p.curve.at(flow))
	}
}

func (p Pump) reach() float64 {
	if p.setting.Mode == FixedSpeed {
		return p.curve.reach() * float64(p.setting.Speed)
	}
	return p.curve.reach()
}

// Operate gives the point at which a pump works in a circuit: where its head is the
// pressure that the circuit takes.
//
// Units: m³/s and Pa.
// Range: inside the points of the curve.
// Source: balance of pressures, by bracketed search to a billionth.
// Errors: a pump not made by Set, a path not made by NewPath, a flow beyond the curve.
func Operate(p Pump, path Path) (PumpPoint, error) {
	if len(p.curve.flow) == 0 {
		return PumpPoint{}, &refuse.Error{What: "pump", Given: "none", Accept: "a pump curve with a setting"}
	}
	if len(path.sections) == 0 {
		return PumpPoint{}, &refuse.Error{What: "circuit of the pump", Given: "nothing", Accept: "at least one length of tube, valve or appliance"}
	}
	surplus := func(flow float64) float64 { return p.at(flow) - path.drop(flow) }
	reach := p.reach()
	end := surplus(reach)
	if end > 0 {
		return PumpPoint{}, beyondCurve(reach, p.at(reach))
	}
	flow, _ := root(surplus, 0, reach, p.at(0), end, 1e-11*reach)
	return PumpPoint{Flow: units.Flow(flow), Head: units.Pressure(p.at(flow))}, nil
}

func beyondCurve(reach, head float64) error {
	return &refuse.Error{What: "pump curve", Given: fmt.Sprintf("up to %s, where the pump still has %s to spare for less resistance", tell(units.Flow(reach)), tell(units.Pressure(head))),
		Accept: "more points, a lower setting or a valve that takes pressure"}
}

// Dial gives the setting of a mode that makes a wanted flow against the pressure that
// the circuit takes at it.
//
// Units: m³/s and Pa.
// Range: a point on or below the full-speed curve.
// Source: as [PumpCurve.Set], solved for the setting; foot one half.
// Errors: a curve not made by NewPumpCurve, an unknown mode, a point that the pump cannot
// make, or one that lies below its lowest known speed.
func (c PumpCurve) Dial(mode PumpMode, want PumpPoint) (PumpSetting, error) {
	if len(c.flow) == 0 {
		return PumpSetting{}, &refuse.Error{What: "pump curve", Given: "none", Accept: "3 to 50 points read from the pump's chart"}
	}
	if err := cmp.Or(within("flow wanted from the pump", want.Flow, leastFlow, units.Flow(c.reach())), within("head wanted from the pump", want.Head, leastDrop, mostPressure)); err != nil {
		return PumpSetting{}, err
	}
	flow, head := float64(want.Flow), float64(want.Head)
	if able := c.at(flow); head > able*(1+1e-9) {
		return PumpSetting{}, &refuse.Error{What: "head wanted from the pump at " + tell(want.Flow), Given: tell(want.Head), Accept: "up to " + tell(units.Pressure(able)) + ", what it makes there at full speed"}
	}
	switch mode {
	case FixedSpeed:
		low := math.Max(0.1, flow/c.reach())
		surplus := func(speed float64) float64 { return speed*speed*c.at(flow/speed) - head }
		least, most := surplus(low), surplus(1)
		if least > 0 {
			return PumpSetting{}, &refuse.Error{What: "head wanted from the pump at " + tell(want.Flow), Given: tell(want.Head), Accept: "at least " + tell(units.Pressure(least+head)) + ", as far down as the curve is known; set it and close a valve, or take a smaller pump"}
		}
		if most <= 0 {
			return PumpSetting{Mode: mode, Speed: 1}, nil
		}
		speed, _ := root(surplus, low, 1, least, most, 1e-9)
		return PumpSetting{Mode: mode, Speed: units.Fraction(speed)}, nil
	case ConstantPressure:
		return PumpSetting{Mode: mode, Head: want.Head}, nil
	case ProportionalPressure:
		surplus := func(set float64) float64 { return set*(usualFoot+(1-usualFoot)*flow/c.flowAt(set)) - head }
		high := c.at(flow)
		least, most := surplus(head), surplus(high)
		set := head // on the curve itself, where the line meets it
		switch {
		case most < -1e-6*head: // a curve that is flat there: the line meets it far behind
			return PumpSetting{}, &refuse.Error{What: "head wanted from the pump at " + tell(want.Flow), Given: tell(want.Head), Accept: "up to " + tell(units.Pressure(head+most)) + " with proportional pressure; constant pressure makes more"}
		case least < 0 && most > 0:
			set, _ = root(surplus, head, high, least, most, 1e-14*high)
		case least < 0:
			set = high
		}
		return PumpSetting{Mode: mode, Head: units.Pressure(set), Foot: usualFoot}, nil
	}
	return PumpSetting{}, &refuse.Error{What: "mode of the pump", Given: fmt.Sprintf("%q", mode), Accept: "fixed speed, constant pressure or proportional pressure"}
}
