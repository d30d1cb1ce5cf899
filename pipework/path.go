package pipework

// What does a run of pipes, fittings, valves and appliances cost in pressure at a
// flow, and which flow does a pressure push through it?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Element is one part of a [Path]: a [Run], a [Valve] or a [Rated] appliance.
type Element interface {
	section(Liquid) (section, error)
}

// Run is a length of tube with its fittings.
type Run struct {
	Pipe   Pipe
	Length units.Length
	K      units.Number // sum of the fittings' loss coefficients, on the velocity here
}

// Valve is a valve, or anything else known by its flow coefficient.
type Valve struct {
	Name string
	Kv   units.FlowCoefficient
}

// Rated is an appliance known by one drop at one flow: a boiler, an emitter, a coil, a
// heat meter.
type Rated struct {
	Name     string
	Flow     units.Flow
	Drop     units.Pressure
	Exponent units.Number // of the flow; zero: 2
}

// section is an element made ready for one liquid.
type section struct {
	// A tube; area zero if none.
	area, bore, relative, lengths, k float64
	density, viscosity               float64
	coefficient, exponent, quadratic float64 // Δp = coefficient·V̇^exponent, or quadratic·V̇²
}

// drop is the pressure taken at a flow above zero.
func (s *section) drop(flow float64) float64 {
	switch {
	case s.area > 0 && flow > 0:
		v := flow / s.area
		f := friction(v*s.bore*s.density/s.viscosity, s.relative)
		return (f*s.lengths + s.k) * s.density * v * v / 2
	case s.exponent > 0:
		return s.coefficient * math.Pow(flow, s.exponent)
	}
	return s.quadratic * flow * flow
}

func run(p Pipe, length, k float64, l Liquid) *section {
	bore := float64(p.Bore)
	return &section{area: p.area(), bore: bore, relative: float64(p.Roughness) / bore, lengths: length / bore, k: k, density: l.density, viscosity: l.viscosity}
}

func (r Run) section(l Liquid) (section, error) {
	name := r.Pipe.String()
	if err := cmp.Or(r.Pipe.check(), within("length of "+name, r.Length, 0, mostLength), within("loss coefficient K on "+name, r.K, 0, mostK)); err != nil {
		return section{}, err
	}
	return *run(r.Pipe, float64(r.Length), float64(r.K), l), nil
}

func (v Valve) section(l Liquid) (section, error) {
	if err := within("flow coefficient of "+named(v.Name, "the valve"), v.Kv, leastKv, mostKv); err != nil {
		return section{}, err
	}
	return section{quadratic: kvFactor(float64(v.Kv), l)}, nil
}

func (r Rated) section(Liquid) (section, error) {
	name := named(r.Name, "the appliance")
	exponent := r.Exponent
	if exponent == 0 {
		exponent = 2
	}
	if err := cmp.Or(within("rated flow of "+name, r.Flow, leastFlow, mostFlow), within("pressure drop of "+name+" at its rated flow", r.Drop, leastDrop, mostPressure), within("flow exponent of "+name, exponent, 1, 2)); err != nil {
		return section{}, err
	}
	if exponent == 2 {
		return section{quadratic: float64(r.Drop) / float64(r.Flow*r.Flow)}, nil
	}
	return section{coefficient: float64(r.Drop) / math.Pow(float64(r.Flow), float64(exponent)), exponent: float64(exponent)}, nil
}

func named(name, otherwise string) string {
	if name == "" {
		return otherwise
	}
	return name
}

// Path is a run of elements one after another in one liquid. Make one with [NewPath].
type Path struct {
	liquid   Liquid
	elements []Element
	sections []section
}

// NewPath joins elements one after another.
//
// Units: as the elements say.
// Range: as the elements say; at least one that takes pressure.
// Source: pressures in a row add up.
// Errors: no element, an element outside its range, elements without any resistance,
// no liquid.
func NewPath(l Liquid, elements ...Element) (Path, error) {
	if err := l.check(); err != nil {
		return Path{}, err
	}
	p := Path{liquid: l}
	for i, e := range elements {
		if e == nil {
			return Path{}, &refuse.Error{What: fmt.Sprintf("part %d of the run", i+1), Given: "nothing", Accept: "a length of tube, a valve or an appliance"}
		}
		s, err := e.section(l)
		if err != nil {
			return Path{}, err
		}
		p.elements, p.sections = append(p.elements, e), append(p.sections, s)
	}
	// At a brisk flow a part without resistance shows; zero drop would mean endless flow.
	if !(p.drop(1e-3) > 0) {
		return Path{}, &refuse.Error{What: "run of pipes", Given: "no part that takes pressure", Accept: "at least one length of tube, valve or appliance"}
	}
	return p, nil
}

// And gives the path with more elements behind it.
//
// Units: as the elements say.
// Range: as [NewPath].
// Source: pressures in a row add up.
// Errors: as [NewPath].
func (p Path) And(elements ...Element) (Path, error) {
	return NewPath(p.liquid, append(append([]Element(nil), p.elements...), elements...)...)
}

// Drop gives the pressure that the path takes at a flow.
//
//	Δp = Σ (f·L/D + K)·ρ·v²/2 + Σ (V̇/kv)²·ρ/1000 bar + Σ Δp_rated·(V̇/V̇_rated)^n
//
// Units: flow in m³/s; Pa.
// Range: flow to 1 m³/s; 0 for none or less.
// Source: Darcy–Weisbach with [FrictionFactor]; IEC 60534-2-1; similarity.
func (p Path) Drop(flow units.Flow) units.Pressure {
	if !(flow > 0) {
		return 0
	}
	return units.Pressure(p.drop(math.Min(float64(flow), float64(mostFlow))))
}

func (p Path) drop(flow float64) float64 {
	sum := 0.0
	for i := range p.sections {
		sum += p.sections[i].drop(flow)
	}
	return sum
}

// FlowAt gives the flow that a pressure pushes through the path: the reverse of Drop.
//
// Units: Pa; m³/s.
// Range: pressure 0 to 20 bar.
// Source: inverse of [Path.Drop], by bracketed search to a billionth.
// Errors: a pressure outside the range, a path not made by NewPath.
func (p Path) FlowAt(drop units.Pressure) (units.Flow, error) {
	if len(p.sections) == 0 {
		return 0, &refuse.Error{What: "run of pipes", Given: "nothing", Accept: "at least one length of tube, valve or appliance"}
	}
	if err := within("pressure across the run", drop, 0, mostPressure); err != nil {
		return 0, err
	}
	return units.Flow(p.flowAt(float64(drop), 1e-4)), nil
}

// flowAt searches near a guess. In the square root of the pressure the characteristic
// is almost a straight line, which the search likes.
func (p Path) flowAt(drop, guess float64) float64 {
	if drop <= 0 {
		return 0
	}
	want := math.Sqrt(drop)
	miss := func(flow float64) float64 { return math.Sqrt(p.drop(flow)) - want }
	low, high := guess, guess
	missLow := miss(guess)
	missHigh := missLow
	for range 200 {
		if missLow <= 0 {
			break
		}
		high, missHigh = low, missLow
		low, missLow = low/1.5, miss(low/1.5)
	}
	for range 200 {
		if missHigh >= 0 {
			break
		}
		low, missLow = high, missHigh
		high, missHigh = high*1.5, miss(high*1.5)
	}
	flow, _ := root(miss, low, high, missLow, missHigh, 1e-10*high)
	return flow
}

// Volume gives the water in the tubes of the path; valves and appliances count
// nothing.
//
// Units: m³.
// Range: as the elements.
// Source: geometry.
func (p Path) Volume() units.Volume {
	sum := units.Volume(0)
	for _, e := range p.elements {
		if r, ok := e.(Run); ok {
			sum += r.Pipe.Volume(r.Length)
		}
	}
	return sum
}

// Judge holds the velocity in every tube of the path against [JudgeVelocity].
//
// Units: flow in m³/s.
// Range: as [JudgeVelocity].
// Source: as [JudgeVelocity].
// Errors: as [JudgeVelocity].
func (p Path) Judge(flow units.Flow) ([]Judgement, error) {
	var all []Judgement
	for _, e := range p.elements {
		if r, ok := e.(Run); ok {
			js, err := JudgeVelocity(r.Pipe, flow, p.liquid)
			if err != nil {
				return nil, err
			}
			all = append(all, js...)
		}
	}
	return all, nil
}
