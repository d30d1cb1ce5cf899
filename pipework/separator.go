package pipework

// What reaches the circuits, and what comes back to the boiler, when each side has a
// pump of its own? Separator, closely spaced tees and buffer tank obey one balance; the
// control must know which temperature it holds.

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Coupling is how boiler and circuits are joined.
type Coupling string

// The couplings.
const (
	Direct            Coupling = "direct" // one stream, or a bypass valve for what the circuits leave over
	LowLossHeader     Coupling = "low-loss header"
	CloselySpacedTees Coupling = "closely spaced tees" // one pair; several in a row: TeesInRow
	TwoPipeBuffer     Coupling = "buffer tank, two pipes"
	ThreePipeBuffer   Coupling = "buffer tank, three pipes"
	FourPipeBuffer    Coupling = "buffer tank, four pipes" // layered
	StirredBuffer     Coupling = "buffer tank, four pipes, stirred"
)

// Draw is a circuit beyond the coupling, known by its return.
type Draw struct {
	Name   string
	Flow   units.LossCoefficient // heat capacity flow
	Return units.Temperature
}

// Demand is a circuit beyond the coupling, known by its heat.
type Demand struct {
	Name string
	Flow units.LossCoefficient // heat capacity flow
	Heat units.Power
}

// Mixed is what the streams come to.
type Mixed struct {
	Supply       units.Temperature // reaches the circuits
	SystemReturn units.Temperature // of all circuits together
	BoilerReturn units.Temperature
	Recirculated units.Fraction // share of the circuits' water that is their own return
	Bypassed     units.Fraction // share of the boiler's water that goes straight back
	BoilerHeat   units.Power
	SystemHeat   units.Power
}

// shares gives Recirculated and Bypassed for two flows.
func (c Coupling) shares(boiler, system float64) (recirculated, bypassed float64, err error) {
	switch c {
	case LowLossHeader, CloselySpacedTees, TwoPipeBuffer, ThreePipeBuffer, FourPipeBuffer:
		return math.Max(0, 1-boiler/system), math.Max(0, 1-system/boiler), nil
	case StirredBuffer: // both leave at the temperature of the tank
		return system / (boiler + system), boiler / (boiler + system), nil
	case Direct:
		if system > boiler*(1+1e-9) {
			return 0, 0, &refuse.Error{What: "flow of the circuits", Given: tell(units.LossCoefficient(system)), Accept: "no more than " + tell(units.LossCoefficient(boiler)) + ", the boiler's: joined directly, all their water runs through it"}
		}
		return 0, math.Max(0, 1-system/boiler), nil
	}
	return 0, 0, &refuse.Error{What: "coupling of boiler and circuits", Given: fmt.Sprintf("%q", c), Accept: "direct, low-loss header, closely spaced tees, a buffer tank with two, three or four pipes"}
}

// Couple mixes the boiler's stream with those of the circuits, from their returns.
//
//	Tr = Σ W_i·Tr_i/ΣW_i
//	ΣW > W_b: Ts = (W_b·Tb + (ΣW − W_b)·Tr)/ΣW, Tbr = Tr
//	ΣW < W_b: Ts = Tb, Tbr = (ΣW·Tr + (W_b − ΣW)·Tb)/W_b
//	stirred:  Ts = Tbr = (W_b·Tb + ΣW·Tr)/(W_b + ΣW)
//
// A buffer with two or three pipes, or a layered one with four, follows the separator's
// balance once its charge no longer changes; while it charges or drains, the boiler's
// return is cooler or warmer by the heat that goes in or out.
//
// Units: flows as heat capacity flows in W/K; temperatures in K; heat in W.
// Range: flows from 0.001 to 1e7 W/K; temperatures 0 to 150 °C; steady, no loss.
// Source: balance of mass and energy with constant specific heat.
// Errors: no circuit, a figure outside the range, direct circuits that want more than the
// boiler's flow.
func Couple(c Coupling, boiler units.LossCoefficient, supply units.Temperature, draws ...Draw) (Mixed, error) {
	if err := checkBoilerSide(boiler, supply); err != nil {
		return Mixed{}, err
	}
	if len(draws) == 0 {
		return Mixed{}, noCircuit
	}
	system, carried := 0.0, 0.0
	for i, d := range draws {
		if err := d.check(i); err != nil {
			return Mixed{}, err
		}
		system += float64(d.Flow)
		// Below the boiler's supply, so that nothing is lost to the size of kelvins.
		carried += float64(d.Flow) * float64(d.Return-supply)
	}
	return mix(c, float64(boiler), system, supply, supply+units.Temperature(carried/system))
}

var noCircuit error = &refuse.Error{What: "circuits beyond the boiler", Given: "none", Accept: "one or more with a flow"}

func checkBoilerSide(boiler units.LossCoefficient, supply units.Temperature) error {
	return cmp.Or(within("flow of the boiler's pump", boiler, leastStream, mostCapacity), within("supply temperature of the boiler", supply, units.Celsius(0), hottest))
}

func (d Draw) check(i int) error {
	name := named(d.Name, fmt.Sprintf("circuit %d", i+1))
	return cmp.Or(within("flow of "+name, d.Flow, leastStream, mostCapacity), within("return temperature of "+name, d.Return, units.Celsius(0), hottest))
}

func mix(c Coupling, boiler, system float64, supply, ret units.Temperature) (Mixed, error) {
	recirculated, bypassed, err := c.shares(boiler, system)
	if err != nil {
		return Mixed{}, err
	}
	span := supply - ret
	m := Mixed{
		Supply: supply - span*units.Temperature(recirculated), SystemReturn: ret, BoilerReturn: ret + span*units.Temperature(bypassed),
		Recirculated: units.Fraction(recirculated), Bypassed: units.Fraction(bypassed),
	}
	m.BoilerHeat = units.Power(boiler * (1 - bypassed) * float64(span))
	m.SystemHeat = units.Power(system * (1 - recirculated) * float64(span))
	return m, nil
}

// CoupleForHeat mixes the streams from the heat that each circuit takes, and gives each
// circuit's return.
//
//	Tb − Tr = ΣQ/(W_b·(1 − bypassed)); Ts as [Couple]; Tr_i = Ts − Q_i/W_i
//
// Units: flows in W/K; temperatures in K; heat in W.
// Range: as [Couple]; heat 0 to 100 MW; returns not below 0 °C.
// Source: balance of mass and energy with constant specific heat.
// Errors: as [Couple]; heat that would need a return below freezing.
func CoupleForHeat(c Coupling, boiler units.LossCoefficient, supply units.Temperature, demands ...Demand) (Mixed, []units.Temperature, error) {
	if err := checkBoilerSide(boiler, supply); err != nil {
		return Mixed{}, nil, err
	}
	if len(demands) == 0 {
		return Mixed{}, nil, noCircuit
	}
	system, heat := 0.0, 0.0
	for i, d := range demands {
		name := named(d.Name, fmt.Sprintf("circuit %d", i+1))
		if err := cmp.Or(within("flow of "+name, d.Flow, leastStream, mostCapacity), within("heat of "+name, d.Heat, 0, mostPower)); err != nil {
			return Mixed{}, nil, err
		}
		system, heat = system+float64(d.Flow), heat+float64(d.Heat)
	}
	_, bypassed, err := c.shares(float64(boiler), system)
	if err != nil {
		return Mixed{}, nil, err
	}
	stream := float64(boiler) * (1 - bypassed)
	if able := stream * float64(supply-units.Celsius(0)); heat > able {
		return Mixed{}, nil, &refuse.Error{What: "heat of all circuits", Given: tell(units.Power(heat)), Accept: "up to " + tell(units.Power(able)) + ", where their return would freeze: raise the boiler's flow or supply"}
	}
	m, err := mix(c, float64(boiler), system, supply, supply-units.Temperature(heat/stream))
	if err != nil {
		return Mixed{}, nil, err
	}
	var returns []units.Temperature
	for i, d := range demands {
		ret := m.Supply - units.Temperature(float64(d.Heat)/float64(d.Flow))
		if ret < units.Celsius(0) {
			name := named(d.Name, fmt.Sprintf("circuit %d", i+1))
			return Mixed{}, nil, &refuse.Error{What: "heat of " + name, Given: tell(d.Heat) + " from " + tell(d.Flow), Accept: "up to " + tell(units.Power(float64(d.Flow)*float64(m.Supply-units.Celsius(0)))) + ", where its return would freeze: raise the flow"}
		}
		returns = append(returns, ret)
	}
	return m, returns, nil
}

// TeesInRow mixes the circuits of several pairs of closely spaced tees on one boiler
// loop, in the order of flow: each takes what the pairs before have left.
//
// Units: flows in W/K; temperatures in K. The supplies are those of the circuits in order.
// Range: as [Couple].
// Source: balance of mass and energy with constant specific heat, pair by pair.
// Errors: as [Couple].
func TeesInRow(boiler units.LossCoefficient, supply units.Temperature, draws ...Draw) ([]units.Temperature, Mixed, error) {
	if len(draws) == 0 {
		return nil, Mixed{}, noCircuit
	}
	total := Mixed{BoilerReturn: supply}
	var supplies []units.Temperature
	flow, carried := 0.0, 0.0
	for _, d := range draws {
		m, err := Couple(CloselySpacedTees, boiler, total.BoilerReturn, d)
		if err != nil {
			return nil, Mixed{}, err
		}
		supplies = append(supplies, m.Supply)
		total.BoilerReturn = m.BoilerReturn
		total.BoilerHeat += m.BoilerHeat
		total.SystemHeat += m.SystemHeat
		flow, carried = flow+float64(d.Flow), carried+float64(d.Flow)*float64(d.Return)
	}
	total.Supply, total.SystemReturn = supplies[0], units.Temperature(carried/flow)
	return supplies, total, nil
}

// Operation is one state of a plant: the design day, or a mild one.
type Operation struct {
	Name   string
	Boiler units.LossCoefficient // flow of the boiler's pump
	System units.LossCoefficient // flow of all circuits
	Heat   units.Power
}

// CouplingState is what one operation comes to.
type CouplingState struct {
	Operation
	Offset       units.Difference // boiler supply above the circuits' supply
	ReturnLift   units.Difference // boiler return above the circuits' return
	Recirculated units.Fraction
	Bypassed     units.Fraction
}

// CouplingVerdict says whether the control needs a sensor beyond the coupling.
type CouplingVerdict struct {
	NeedsSensor bool
	Place       string           // of the sensor that should lead
	Offset      units.Difference // at the first operation: to add to the boiler's set-point if no sensor can be had
	States      []CouplingState
	Sentences   []string
	Source      string
}

// tellable is the offset below which a sensor would not tell the difference, K.
const tellable = 1.0

// JudgeCoupling gives the offset that the boiler's supply needs above the circuits', and
// the lift of its return, for the design day and any part loads after it; and says whether
// the circuits' supply needs a sensor of its own.
//
//	offset = Q·max(0, 1/W_b − 1/ΣW); stirred tank: Q/W_b
//	lift   = Q·max(0, 1/ΣW − 1/W_b); stirred tank: Q/ΣW
//
// Units: flows in W/K, heat in W; K.
// Range: 1 to 100 operations, the first the design day; flows above 0; heat 0 to 100 MW.
// Source: balance of mass and energy; a sensor from 1 K (2 °F) of offset up: common
// practice.
// Errors: no operation, a figure outside the range, an unknown coupling, direct circuits
// that want more than the boiler's flow.
func JudgeCoupling(c Coupling, operations ...Operation) (CouplingVerdict, error) {
	if len(operations) == 0 || len(operations) > 100 {
		return CouplingVerdict{}, &refuse.Error{What: "operations to judge", Given: fmt.Sprint(len(operations)), Accept: "1 to 100, the design day first"}
	}
	out := CouplingVerdict{Source: "balance of mass and energy; threshold of 1 K (2 °F): common practice"}
	least, most, lift := math.Inf(1), 0.0, 0.0
	var lifted CouplingState
	for i, o := range operations {
		name := named(o.Name, fmt.Sprintf("operation %d", i+1))
		if err := cmp.Or(within("flow of the boiler's pump, "+name, o.Boiler, leastStream, mostCapacity), within("flow of the circuits, "+name, o.System, leastStream, mostCapacity), within("heat, "+name, o.Heat, 0, mostPower)); err != nil {
			return CouplingVerdict{}, err
		}
		recirculated, bypassed, err := c.shares(float64(o.Boiler), float64(o.System))
		if err != nil {
			return CouplingVerdict{}, err
		}
		// Q = W_b·(1 − bypassed)·span, span between boiler supply and circuits' return.
		span := float64(o.Heat) / (float64(o.Boiler) * (1 - bypassed))
		s := CouplingState{Operation: o, Offset: units.Difference(span * recirculated), ReturnLift: units.Difference(span * bypassed),
			Recirculated: units.Fraction(recirculated), Bypassed: units.Fraction(bypassed)}
		s.Name = name
		least, most = math.Min(least, float64(s.Offset)), math.Max(most, float64(s.Offset))
		if float64(s.ReturnLift) > lift {
			lift, lifted = float64(s.ReturnLift), s
		}
		out.States = append(out.States, s)
	}
	out.Offset = out.States[0].Offset
	out.NeedsSensor = most > tellable
	switch {
	case c == Direct:
		out.Place = "in the boiler: its supply is the circuits' supply"
	case out.NeedsSensor:
		out.Place = "in the common supply of the circuits, after the " + string(c)
	default:
		out.Place = "in the boiler: the circuits get its supply as it comes"
	}
	design := out.States[0]
	if out.NeedsSensor {
		out.Sentences = append(out.Sentences, fmt.Sprintf("the circuits draw more than the boiler sends, and %s of their water is return again: %s cooler than the boiler's supply at %s", tell(design.Recirculated), tell(design.Offset), design.Name))
		if c == StirredBuffer {
			out.Sentences[0] = fmt.Sprintf("the tank mixes supply and return: the circuits get water %s cooler than the boiler's supply at %s", tell(design.Offset), design.Name)
		}
		out.Sentences = append(out.Sentences, "put the sensor that the control holds to its curve "+out.Place+", or match the flows; do not cure it by a hotter boiler if either can be done")
		if most-least > tellable {
			out.Sentences = append(out.Sentences, fmt.Sprintf("without a sensor a fixed offset is wrong at one end: it would have to go from %s to %s over these operations; a steeper curve at the boiler follows the load, a parallel shift does not", tell(units.Difference(least)), tell(units.Difference(most))))
		} else {
			out.Sentences = append(out.Sentences, "without a sensor, add "+tell(design.Offset)+" to the boiler's set-point")
		}
	} else {
		out.Sentences = append(out.Sentences, "no offset: the circuits get the boiler's supply within "+tell(units.Difference(tellable)))
	}
	if lift > tellable {
		out.Sentences = append(out.Sentences, fmt.Sprintf("%s of the boiler's water goes straight back at %s and lifts its return by %s, which costs condensing: slow the boiler's pump as far as its least flow allows", tell(lifted.Bypassed), lifted.Name, tell(lifted.ReturnLift)), CautionFlowMinimum)
	}
	return out, nil
}

// BoilerSupplyFor gives the boiler's supply that a coupling needs for a supply wanted at
// the circuits.
//
//	Tb = Ts + offset, as [JudgeCoupling]
//
// Units: temperatures in K; flows in W/K; heat in W.
// Range: as [JudgeCoupling]; answers to 150 °C.
// Source: balance of mass and energy.
// Errors: as [JudgeCoupling]; a supply above 150 °C.
func BoilerSupplyFor(c Coupling, wanted units.Temperature, o Operation) (units.Temperature, error) {
	v, err := JudgeCoupling(c, o)
	if err != nil {
		return 0, err
	}
	if err := within("supply wanted at the circuits", wanted, units.Celsius(0), hottest); err != nil {
		return 0, err
	}
	supply := wanted.Add(v.Offset)
	if err := within("supply that the boiler would need", supply, units.Celsius(0), hottest); err != nil {
		return 0, err
	}
	return supply, nil
}

// BypassedShare tells from three thermometers how much of the boiler's water goes straight
// back through the separator.
//
//	share = (Tbr − Tr)/(Tb − Tr)
//
// Units: temperatures in K; a share of one.
// Range: boiler supply at least 2 K above the circuits' return, boiler return between
// both; clamp-on thermometers make it good to about 1 K in the span.
// Source: mixing balance.
// Errors: temperatures out of order.
func BypassedShare(boilerSupply, boilerReturn, systemReturn units.Temperature) (units.Fraction, error) {
	return mixShare("boiler return", boilerReturn, "circuits' return", systemReturn, "boiler supply", boilerSupply)
}

// RecirculatedShare tells from three thermometers how much of the circuits' water is their
// own return.
//
//	share = (Tb − Ts)/(Tb − Tr)
//
// Units: temperatures in K; a share of one.
// Range: boiler supply at least 2 K above the circuits' return, their supply between both.
// Source: mixing balance.
// Errors: temperatures out of order.
func RecirculatedShare(boilerSupply, systemSupply, systemReturn units.Temperature) (units.Fraction, error) {
	hot, err := mixShare("circuits' supply", systemSupply, "circuits' return", systemReturn, "boiler supply", boilerSupply)
	if err != nil {
		return 0, err
	}
	return 1 - hot, nil
}

// mixShare is the share of the hot stream in a mix.
func mixShare(mixName string, mix units.Temperature, coldName string, cold units.Temperature, hotName string, hot units.Temperature) (units.Fraction, error) {
	if err := cmp.Or(within(coldName, cold, coldest, hottest), within(hotName, hot, coldest, hottest)); err != nil {
		return 0, err
	}
	if hot-cold < 2 {
		return 0, &refuse.Error{What: hotName, Given: tell(hot), Accept: "at least " + tell(units.Kelvins(2)) + " above the " + coldName + " of " + tell(cold) + ", or the thermometers cannot tell a share"}
	}
	if err := within(mixName, mix, cold, hot); err != nil {
		return 0, err
	}
	return units.Fraction((mix - cold) / (hot - cold)), nil
}
