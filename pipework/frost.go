package pipework

// How much glycol does a frost want, and what does the glycol cost in flow and head?

import (
	"cmp"
	"fmt"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// GlycolFill is a mixture that keeps from freezing.
type GlycolFill struct {
	Mixture  fluid.Mixture
	ByVolume units.Fraction // share of pure glycol in what is poured together
	Freezes  units.Temperature
	Notes    []string
}

// leanGlycol is the share by volume below which inhibitors get too thin and germs grow,
// common practice.
const leanGlycol = 0.25

// GlycolFor gives the least glycol that keeps a fill from freezing at a temperature.
//
// Units: temperature in K; shares of one.
// Range: 0 °C down to −48 °C.
// Source: inverse of the freezing points of Melinder 2010, package fluid; inhibitors and
// the supplier's table come first.
// Errors: no glycol named, a temperature outside the range.
func GlycolFor(kind fluid.Kind, protectTo units.Temperature) (GlycolFill, error) {
	if kind == fluid.PureWater {
		return GlycolFill{}, &refuse.Error{What: "frost protection", Given: "water", Accept: "propylene glycol or ethylene glycol"}
	}
	if err := within("temperature to be protected to", protectTo, units.Celsius(-48), units.Celsius(0)); err != nil {
		return GlycolFill{}, err
	}
	// By volume, up to the 60 % by mass at which the polynomials end.
	low, high := units.Fraction(0), units.Fraction(0.59)
	if kind == fluid.EthyleneGlycol {
		high = 0.573
	}
	var out GlycolFill
	for range 40 {
		middle := (low + high) / 2
		m, err := fluid.GlycolByVolume(kind, middle)
		if err != nil {
			return GlycolFill{}, err
		}
		freezes, err := m.FreezePoint()
		if err != nil {
			return GlycolFill{}, err
		}
		if freezes > protectTo {
			low = middle
		} else {
			high = middle
			out = GlycolFill{Mixture: m, ByVolume: middle, Freezes: freezes}
		}
	}
	if out.Mixture.Mass == 0 {
		return GlycolFill{}, &refuse.Error{What: "temperature to be protected to", Given: tell(protectTo), Accept: "what 60 % of glycol by mass reaches, about −48 °C (−54 °F)"}
	}
	if out.ByVolume < leanGlycol {
		out.Notes = append(out.Notes, fmt.Sprintf("%s by volume keeps from freezing, but under %s inhibitors get too thin and germs may grow (common practice): ask the supplier for its least share", tell(out.ByVolume), tell(units.Fraction(leanGlycol))))
	}
	out.Notes = append(out.Notes, "no more than needed: every percent costs flow and pump head", CautionFreezeBurst, CautionGlycol, CautionGlycolWaste)
	return out, nil
}

// Price is what a glycol mixture costs against water, at the same heat and drop.
type Price struct {
	WaterFlow, Flow         units.Flow
	WaterPressure, Pressure units.Pressure
	FlowRatio               units.Number
	PressureRatio           units.Number
	PowerRatio              units.Number // of the water's power, flow times head
}

// GlycolCost gives flow and pressure of a circuit with glycol against water.
//
//	V̇ = Q/(ρ·cp·ΔT); Δp as [Path.Drop] of the same elements
//
// Units: heat in W, drop in K, temperature in K, that of the mean water; ratios are plain
// figures.
// Range: heat above 0 to 100 MW; drop 1 to 40 K; a temperature at which water is liquid.
// Source: properties of package fluid; Darcy–Weisbach. Emitters also give a little less
// with glycol at the same flow, which is not in these ratios.
// Errors: a figure outside the range, elements without resistance.
func GlycolCost(mixture fluid.Mixture, heat units.Power, drop units.Difference, at units.Temperature, elements ...Element) (Price, error) {
	if err := cmp.Or(above("heat of the circuit", heat, mostPower), within("drop from supply to return", drop, 1, 40)); err != nil {
		return Price{}, err
	}
	with := func(fill fluid.Mixture) (units.Flow, units.Pressure, error) {
		l, err := NewLiquid(fill, at)
		if err != nil {
			return 0, 0, err
		}
		path, err := NewPath(l, elements...)
		if err != nil {
			return 0, 0, err
		}
		flow := l.flowFor(heat, drop)
		if err := above("flow that the heat needs", flow, mostFlow); err != nil {
			return 0, 0, err
		}
		return flow, path.Drop(flow), nil
	}
	var p Price
	var err error
	if p.WaterFlow, p.WaterPressure, err = with(fluid.Water()); err != nil {
		return Price{}, err
	}
	if p.Flow, p.Pressure, err = with(mixture); err != nil {
		return Price{}, err
	}
	p.FlowRatio = units.Number(p.Flow / p.WaterFlow)
	p.PressureRatio = units.Number(p.Pressure / p.WaterPressure)
	p.PowerRatio = p.FlowRatio * p.PressureRatio
	return p, nil
}
