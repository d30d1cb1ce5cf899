package pipework

// How far does a mixing valve open, how hot must the boiler be for it, and which valve
// is the right size?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// HotShare gives the share of boiler water in the mix.
//
//	x = (Tm − Tr)/(Th − Tr)
//
// Units: temperatures in K; a share of one.
// Range: boiler supply at least 2 K above the return, the mix between both.
// Source: mixing balance with constant specific heat.
// Errors: temperatures out of order.
func HotShare(mix, ret, hot units.Temperature) (units.Fraction, error) {
	return mixShare("mixed supply", mix, "return", ret, "boiler supply", hot)
}

// MixPoint is one hour, or one outdoor temperature, of a mixed circuit.
type MixPoint struct {
	Outdoor units.Temperature
	Supply  units.Temperature // wanted after the valve
	Return  units.Temperature
	Boiler  units.Temperature // supply of the boiler
}

// MixState is what the valve does there.
type MixState struct {
	MixPoint
	Hot   units.Fraction // share of boiler water, 1 where the boiler is too cool
	Short bool           // the boiler is cooler than the supply wanted
	Idle  bool           // no heat is wanted: supply not above the return
}

// HotShares gives the share of boiler water over a season.
//
//	x = (Tm − Tr)/(Th − Tr), held between 0 and 1
//
// Units: temperatures in K; shares of one.
// Range: temperatures −60 to 150 °C.
// Source: mixing balance with constant specific heat.
// Errors: a temperature outside the range.
func HotShares(points ...MixPoint) ([]MixState, error) {
	var out []MixState
	for i, p := range points {
		name := fmt.Sprintf(" of point %d", i+1)
		if err := cmp.Or(within("mixed supply"+name, p.Supply, coldest, hottest), within("return"+name, p.Return, coldest, hottest), within("boiler supply"+name, p.Boiler, coldest, hottest)); err != nil {
			return nil, err
		}
		s := MixState{MixPoint: p, Idle: p.Supply <= p.Return}
		switch {
		case s.Idle:
		case p.Boiler <= p.Supply:
			s.Hot, s.Short = 1, p.Boiler < p.Supply
		default:
			s.Hot = units.Fraction((p.Supply - p.Return) / (p.Boiler - p.Return))
		}
		out = append(out, s)
	}
	return out, nil
}

// BoilerForMix gives the boiler supply that a mixing valve needs so that it opens no
// further than a share.
//
//	Th = Tr + (Tm − Tr)/x
//
// Units: temperatures in K; share of one.
// Range: mix at or above the return; share 0.1 to 1. A share of 0.8 to 0.9 leaves the
// valve room to control (common practice).
// Source: mixing balance with constant specific heat.
// Errors: temperatures out of order, a share outside the range, an answer above 150 °C.
func BoilerForMix(mix, ret units.Temperature, share units.Fraction) (units.Temperature, error) {
	if err := cmp.Or(within("share of boiler water", share, 0.1, 1), within("return", ret, coldest, hottest), within("mixed supply", mix, ret, hottest)); err != nil {
		return 0, err
	}
	hot := ret + (mix-ret)/units.Temperature(share)
	if err := within("supply that the boiler would need", hot, coldest, hottest); err != nil {
		return 0, err
	}
	return hot, nil
}

// Authority gives how much of the pressure in the part of the circuit whose flow the
// valve changes stands across the valve itself when open.
//
//	a = Δp_valve/(Δp_valve + Δp_circuit)
//
// Units: Pa; a share of one.
// Range: valve drop above 0, circuit drop from 0; to 20 bar. The circuit is that of
// varying flow only: for a three-port mixing valve, from the boiler or header to the
// valve, not the emitters.
// Source: definition, valve practice.
// Errors: a figure outside the range.
func Authority(valve, circuit units.Pressure) (units.Fraction, error) {
	if err := cmp.Or(above("pressure across the open valve", valve, mostPressure), within("pressure of the circuit of varying flow", circuit, 0, mostPressure)); err != nil {
		return 0, err
	}
	return units.Fraction(valve / (valve + circuit)), nil
}

// leastAuthority and goodAuthority are common practice.
const (
	leastAuthority = units.Fraction(0.3)
	goodAuthority  = units.Fraction(0.5)
)

// JudgeAuthority says what an authority means for control.
//
// Units: a share of one.
// Range: 0 to 1.
// Source: 0.3 at least, 0.5 and more for good control: common practice.
func JudgeAuthority(a units.Fraction) Judgement {
	j := Judgement{Subject: "valve authority", Fits: a >= leastAuthority, Source: "common practice"}
	switch {
	case !j.Fits:
		j.Text = fmt.Sprintf("an authority of %s is too little: the valve does nothing over most of its travel and everything near its seat; take a smaller valve (0.3 at least, 0.5 better)", tell(a))
	case a < goodAuthority:
		j.Text = fmt.Sprintf("an authority of %s will do; 0.5 and more controls better", tell(a))
	default:
		j.Text = fmt.Sprintf("an authority of %s controls well; more than needed costs pump head", tell(a))
	}
	return j
}

// series is the usual steps of kv for control valves, tenfold repeated (preferred
// numbers; common practice).
var series = []float64{0.25, 0.4, 0.63, 1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100}

// ValveChoice is a valve for a flow and circuit.
type ValveChoice struct {
	Least     units.Pressure        // that the open valve should take
	Wanted    units.FlowCoefficient // exactly that
	Choose    units.FlowCoefficient // the next usual size below
	Drop      units.Pressure        // of the chosen valve, open
	Authority units.Fraction        // of the chosen valve
	Judgement Judgement
	Cautions  []string
}

// ValveFor gives the control valve for a flow and an authority.
//
//	Δp_valve = Δp_circuit·a/(1 − a), at least 3 kPa; kv = V̇·√(ρ/1000/Δp_valve)
//
// Units: flow in m³/s; Pa; share of one; kv in m³/h at 1 bar.
// Range: flow above 0 with a kv of 0.25 to 100 m³/h; circuit drop 0 to 2 bar; authority
// 0.3 to 0.8.
// Source: definition of authority; IEC 60534-2-1; the step below, usual steps and 3 kPa
// (0.4 psi) at least: common practice.
// Errors: a figure outside the range, no liquid.
func ValveFor(flow units.Flow, circuit units.Pressure, authority units.Fraction, l Liquid) (ValveChoice, error) {
	if err := cmp.Or(within("flow through the valve", flow, leastFlow, mostFlow), within("pressure of the circuit of varying flow", circuit, 0, 2e5),
		within("valve authority", authority, leastAuthority, 0.8), l.check()); err != nil {
		return ValveChoice{}, err
	}
	c := ValveChoice{Least: max(circuit*units.Pressure(authority/(1-authority)), 3000)}
	c.Wanted = kvFor(flow, c.Least, l)
	for _, kv := range series {
		if kv <= float64(c.Wanted)*(1+1e-9) {
			c.Choose = units.FlowCoefficient(kv)
		}
	}
	if c.Choose == 0 || float64(c.Wanted) > 2*series[len(series)-1] {
		return ValveChoice{}, &refuse.Error{What: "flow coefficient for the valve", Given: tell(c.Wanted), Accept: "kv 0.25 to 200, the sizes of control valves in houses"}
	}
	c.Drop = units.Pressure(kvFactor(float64(c.Choose), l) * math.Pow(float64(flow), 2))
	c.Authority = units.Fraction(c.Drop / (c.Drop + circuit))
	c.Judgement, c.Cautions = JudgeAuthority(c.Authority), []string{CautionHighLimit}
	return c, nil
}
