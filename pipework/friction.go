package pipework

// How much pressure does a flow lose in a tube? Darcy and Weisbach with Colebrook's
// friction factor; laminar flow by Poiseuille.

import (
	"cmp"
	"math"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// Liquid is what runs in the pipes, at one temperature. Make one with [NewLiquid].
type Liquid struct {
	Fill fluid.Mixture
	At   units.Temperature

	density, viscosity, heat float64 // kg/m³, Pa·s, J/(m³·K)
}

// NewLiquid looks up what a fill is like at a temperature.
//
// Units: temperature in K.
// Range: water 0 °C to 110 °C; glycol from its freezing point to 100 °C, to 60 % by mass.
// Source: package fluid: IAPWS R7-97, R12-08; Melinder 2010.
// Errors: a temperature or mixture outside the range.
func NewLiquid(fill fluid.Mixture, at units.Temperature) (Liquid, error) {
	density, err := fill.Density(at)
	if err != nil {
		return Liquid{}, err
	}
	viscosity, err := fill.Viscosity(at)
	if err != nil {
		return Liquid{}, err
	}
	heat, err := fill.HeatFactor(at)
	if err != nil {
		return Liquid{}, err
	}
	return Liquid{Fill: fill, At: at, density: float64(density), viscosity: float64(viscosity), heat: float64(heat)}, nil
}

func (l Liquid) check() error {
	if l.density > 0 {
		return nil
	}
	return &refuse.Error{What: "water in the pipes", Given: "nothing", Accept: "water or a glycol mixture and its temperature"}
}

// flowFor is the flow that carries a heat with a drop; both have been checked.
func (l Liquid) flowFor(heat units.Power, drop units.Difference) units.Flow {
	return units.Flow(float64(heat) / (l.heat * float64(drop)))
}

const (
	laminarTo     = 2300.0 // Reynolds number
	turbulentFrom = 4000.0
)

// Reynolds gives the ratio of inertia to friction that decides how a flow runs.
//
//	Re = v·D·ρ/µ
//
// Units: flow in m³/s; a plain figure.
// Range: flow from zero to 1 m³/s.
// Source: definition.
// Errors: a flow outside the range, a tube without a bore, no liquid.
func Reynolds(p Pipe, flow units.Flow, l Liquid) (units.Number, error) {
	if err := cmp.Or(p.check(), within("flow in "+p.String(), flow, 0, mostFlow), l.check()); err != nil {
		return 0, err
	}
	return units.Number(float64(p.Velocity(flow)) * float64(p.Bore) * l.density / l.viscosity), nil
}

// FrictionFactor gives Darcy's friction factor.
//
//	Re ≤ 2300: f = 64/Re
//	Re ≥ 4000: 1/√f = −2·lg(ε/(3.7·D) + 2.51/(Re·√f))
//	between:   a straight line in Re from the one to the other
//
// The flow between 2300 and 4000 flips between both laws; the line keeps the pressure
// rising steadily with the flow, so that every circuit has one operating point.
//
// Units: plain figures.
// Range: Re above 0 to 1e9; ε/D 0 to 0.05.
// Source: Poiseuille; Colebrook 1939 with the constants 2.51 and 3.7; bounds of the
// transition and the line across it: common practice.
// Errors: a figure outside the range.
func FrictionFactor(reynolds, relativeRoughness units.Number) (units.Number, error) {
	if err := cmp.Or(above("Reynolds number", reynolds, 1e9), within("relative roughness", relativeRoughness, 0, 0.05)); err != nil {
		return 0, err
	}
	return units.Number(friction(float64(reynolds), float64(relativeRoughness))), nil
}

// friction is FrictionFactor for figures that have been checked.
func friction(re, relative float64) float64 {
	switch {
	case re <= laminarTo:
		return 64 / re
	case re < turbulentFrom:
		share := (re - laminarTo) / (turbulentFrom - laminarTo)
		return 64/laminarTo*(1-share) + colebrook(turbulentFrom, relative)*share
	}
	return colebrook(re, relative)
}

// colebrook solves for x = 1/√f by Newton's method. x + 2·lg(a + b·x) rises and is
// concave, so after the first step every other comes from below and none overshoots.
func colebrook(re, relative float64) float64 {
	a, b, x := relative/3.7, 2.51/re, 7.0
	for range 12 {
		inside := a + b*x
		step := (x + 2/math.Ln10*math.Log(inside)) / (1 + 2/math.Ln10*b/inside)
		x -= step
		if math.Abs(step) < 1e-9 { // the next step would be the square of this
			break
		}
	}
	return 1 / (x * x)
}

// Gradient gives the pressure that a length of straight tube takes.
//
//	Δp/L = f/D·ρ·v²/2
//
// Units: flow in m³/s; Pa/m.
// Range: flow from zero to 1 m³/s.
// Source: Darcy–Weisbach; friction factor as [FrictionFactor].
// Errors: a flow outside the range, a tube without a bore, no liquid.
func Gradient(p Pipe, flow units.Flow, l Liquid) (units.PressureGradient, error) {
	if err := cmp.Or(p.check(), within("flow in "+p.String(), flow, 0, mostFlow), l.check()); err != nil {
		return 0, err
	}
	return units.PressureGradient(run(p, 1, 0, l).drop(float64(flow))), nil
}

// MinorLoss gives the pressure that a fitting takes.
//
//	Δp = K·ρ·v²/2
//
// Units: K a plain figure, on the velocity in the tube; velocity in m/s; Pa.
// Range: K 0 to 10,000; velocity 0 to 20 m/s.
// Source: definition of the loss coefficient.
// Errors: a figure outside the range, no liquid.
func MinorLoss(k units.Number, velocity units.Velocity, l Liquid) (units.Pressure, error) {
	if err := cmp.Or(within("loss coefficient K", k, 0, mostK), within("velocity", velocity, 0, 20), l.check()); err != nil {
		return 0, err
	}
	return units.Pressure(float64(k) * l.density * float64(velocity) * float64(velocity) / 2), nil
}

// Fitting is a fitting with its loss coefficient.
type Fitting struct {
	Name string
	K    units.Number
}

// Fittings gives usual loss coefficients, on the velocity in the tube; they vary with
// size and make by about a third.
//
// Units: plain figures.
// Range: sizes 1/2 to 2 in.
// Source: ASHRAE Handbook Fundamentals, pipe sizing, and Crane TP-410, from memory.
func Fittings() []Fitting {
	return []Fitting{
		{"sharp entrance", 0.5}, {"exit into a tank", 1.0}, {"elbow, threaded", 1.5}, {"elbow, long radius", 0.7},
		{"tee, straight through", 0.9}, {"tee, branch", 1.8}, {"gate valve, open", 0.2}, {"ball valve, full bore", 0.05}, {"globe valve, open", 10},
	}
}

// KvDrop gives the pressure that a valve takes.
//
//	Δp = (V̇/kv)²·ρ/1000 bar, V̇ in m³/h
//
// Units: kv in m³/h at 1 bar; flow in m³/s; Pa.
// Range: kv above 0; flow 0 to 1 m³/s; water-thin liquids, to about 50 % glycol.
// Source: IEC 60534-2-1, turbulent flow, from memory.
// Errors: a figure outside the range, no liquid.
func KvDrop(kv units.FlowCoefficient, flow units.Flow, l Liquid) (units.Pressure, error) {
	if err := cmp.Or(within("flow coefficient of the valve", kv, leastKv, mostKv), within("flow through the valve", flow, 0, mostFlow), l.check()); err != nil {
		return 0, err
	}
	return units.Pressure(kvFactor(float64(kv), l) * float64(flow) * float64(flow)), nil
}

// KvFor gives the flow coefficient that takes a pressure at a flow.
//
//	kv = V̇·√(ρ/1000/Δp), V̇ in m³/h, Δp in bar
//
// Units: flow in m³/s; Pa; kv in m³/h at 1 bar.
// Range: flow and pressure above 0 (from 10⁻⁸ m³/s and 0.1 Pa).
// Source: IEC 60534-2-1, turbulent flow, from memory.
// Errors: a figure outside the range, no liquid.
func KvFor(flow units.Flow, drop units.Pressure, l Liquid) (units.FlowCoefficient, error) {
	if err := cmp.Or(within("flow through the valve", flow, leastFlow, mostFlow), within("pressure across the valve", drop, leastDrop, mostPressure), l.check()); err != nil {
		return 0, err
	}
	return kvFor(flow, drop, l), nil
}

func kvFor(flow units.Flow, drop units.Pressure, l Liquid) units.FlowCoefficient {
	return units.FlowCoefficient(flow.CubicMetresPerHour() * math.Sqrt(l.density/1000/drop.Bar()))
}

// kvFactor is Δp over the square of the flow, Pa/(m³/s)².
func kvFactor(kv float64, l Liquid) float64 {
	perHour := 3600 / kv
	return 1e5 * l.density / 1000 * perHour * perHour
}
