package hotwater

// What does the coil of a tank give at another primary temperature, flow or tank
// temperature than its data sheet shows, and what else may hold it back?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// Coil is the heat exchanger inside a tank. Make one with [NewCoil]; the zero value
// is a coil of which nothing is known.
type Coil struct {
	transmission float64 // UA, W/K
}

// CoilRating is one rated point of a tank's coil.
type CoilRating struct {
	Output units.Power
	Supply units.Temperature // of the primary water
	Flow   units.Flow        // of the primary water, measured at Supply
	Cold   units.Temperature // water entering the tank; equal to Hot for a rating at one tank temperature
	Hot    units.Temperature // water leaving the tank
}

// NewCoil makes a coil from one rated point by finding the heat transmission UA that
// gives it. The tank's water beside the coil counts as one temperature: the tank's,
// or for a rating with water running through, the mean of cold and hot. UA is then
// kept: far from the rated point the real coil gives less (a much smaller primary
// flow) or more (much hotter water) than this; near it the difference is small.
//
//	ε = Q/(C·(Ts − Tt)); UA = −C·ln(1 − ε)
//
// Units: as [CoilRating].
// Range: ε above 0 to 0.98; primary 20 to 110 °C; tank 0 to 95 °C; output to 1 MW.
// Source: effectiveness of an exchanger with one side at a single temperature,
// heat-transfer textbooks (Incropera and DeWitt, chapter on heat exchangers), from
// memory.
// Errors: a figure outside the range, a primary no hotter than the tank, or more
// heat than the primary water carries.
func NewCoil(r CoilRating) (Coil, error) {
	err := cmp.Or(
		within("rated output of the coil", r.Output, 1, largestPower),
		within("rated primary supply", r.Supply, units.Celsius(20), hottestPlant),
		checkWater("cold water of the coil's rating", r.Cold),
		checkWater("hot water of the coil's rating", r.Hot),
	)
	if err != nil {
		return Coil{}, err
	}
	flow, err := primary(fluid.Water(), r.Flow, r.Supply)
	if err != nil {
		return Coil{}, err
	}
	tank := r.Cold + (r.Hot-r.Cold)/2
	if r.Supply-tank < 0.5 || r.Hot < r.Cold {
		return Coil{}, &refuse.Error{Subject: subject, What: "rated point of the coil", Given: "primary at " + tell(r.Supply) + ", cold " + tell(r.Cold) + ", hot " + tell(r.Hot),
			Accept: "hot not below cold, and the primary above their mean"}
	}
	share := float64(r.Output) / (float64(flow) * float64(r.Supply-tank))
	if share > 0.98 {
		return Coil{}, &refuse.Error{Subject: subject, What: "rated output of the coil", Given: tell(r.Output),
			Accept: "up to 98% of what the primary flow carries, " + tell(units.Power(0.98*float64(r.Output)/share)) + "; check flow and temperatures"}
	}
	return Coil{transmission: -float64(flow) * math.Log1p(-share)}, nil
}

// primary turns a primary flow into the heat it carries per degree.
func primary(fill fluid.Mixture, flow units.Flow, supply units.Temperature) (units.LossCoefficient, error) {
	if !(flow > 0) {
		return 0, &refuse.Error{Subject: subject, What: "primary flow", Given: tell(flow), Accept: "more than none, for example 15 L/min (4 gpm)"}
	}
	c, err := fill.CapacityFlow(flow, supply)
	if err != nil {
		return 0, fmt.Errorf("hot water: primary flow: %w", err)
	}
	return c, within("heat carried by the primary flow", c, 1, largestFlow)
}

// Known tells whether the coil has a rated point.
//
// Range: every coil.
// Source: made by NewCoil or not.
func (c Coil) Known() bool { return c.transmission > 0 }

// Transmission gives the coil's UA.
//
// Range: above 0 for a coil made by NewCoil.
// Source: the rated point, see [NewCoil].
func (c Coil) Transmission() units.LossCoefficient { return units.LossCoefficient(c.transmission) }

// Output gives the heat of the coil and the primary return.
//
//	Q = C·(1 − e^(−UA/C))·(Ts − Tt); Tr = Ts − Q/C
//
// Units: temperatures in K, flow in W/K; result in W and K.
// Range: primary above the tank and a flow above 0; otherwise no heat. No heat
// either from a coil without a rated point.
// Source: effectiveness and transfer units, as [NewCoil].
func (c Coil) Output(supply units.Temperature, flow units.LossCoefficient, tank units.Temperature) (units.Power, units.Temperature) {
	if !(supply > tank && supply <= hottestPlant && tank >= coldest && flow > 0 && flow <= largestFlow) || !c.Known() {
		return 0, supply
	}
	q := c.perKelvin(float64(flow)) * float64(supply-tank)
	return units.Power(q), supply - units.Temperature(q/float64(flow))
}

// perKelvin is ε·C, the heat for each kelvin between primary supply and tank.
func (c Coil) perKelvin(flow float64) float64 { return -flow * math.Expm1(-c.transmission/flow) }

// Charge is what charges a tank: boiler, primary water and coil.
type Charge struct {
	Boiler units.Power       // heat that the boiler gives to hot water
	Supply units.Temperature // primary supply temperature during the charge
	Flow   units.Flow        // primary flow, measured at Supply
	Drop   units.Difference  // largest supply − return that boiler and pump are run with; zero for no such limit
	Fill   fluid.Mixture     // of the primary, water if left out; a coil's rating is one with water
	Coil   Coil              // a coil of which nothing is known does not limit, and then Drop is needed
}

// Limit is what holds the charging of a tank back.
type Limit string

// The three that can.
const (
	ByBoiler Limit = "the boiler's output"
	ByCoil   Limit = "the coil at this primary temperature"
	ByPump   Limit = "the primary flow times its drop"
)

// Charging is the heat that reaches the tank.
type Charging struct {
	Heat   units.Power
	Limit  Limit
	Supply units.Temperature // primary supply that really arises: below the wanted one where the boiler is the limit
	Return units.Temperature
}

// At gives the heat into a tank at a temperature: the least of what the boiler makes,
// the coil passes on and the pump carries.
//
//	Q = min(Q_boiler, ε·C·(Ts − Tt), C·Drop)
//
// Units: a temperature; result in W and K.
// Range: boiler 1 W to 1 MW; supply 20 to 110 °C; drop 0 to 60 K; tank 0 to 95 °C. A
// tank at or above the primary supply gets nothing.
// Source: heat balance of a charge in series: each part passes on what the others
// give; coil as [NewCoil].
// Errors: a figure outside the range; neither coil nor drop known.
func (c Charge) At(tank units.Temperature) (Charging, error) {
	if err := checkWater("tank temperature", tank); err != nil {
		return Charging{}, err
	}
	p, err := c.prepare()
	if err != nil {
		return Charging{}, err
	}
	return p.at(tank), nil
}

// prepared is a charge that has been checked, with its limits as plain figures, so
// that a day can ask it 1440 times.
type prepared struct {
	supply    float64 // K
	flow      float64 // W/K
	boiler    float64 // W
	pump      float64 // W, +Inf without a limit
	perKelvin float64 // ε·C, W/K
	coil      bool
}

func (c Charge) prepare() (prepared, error) {
	err := cmp.Or(
		within("boiler output for hot water", c.Boiler, 1, largestPower),
		within("primary supply", c.Supply, units.Celsius(20), hottestPlant),
		within("drop of the primary water", c.Drop, 0, 60),
	)
	if err != nil {
		return prepared{}, err
	}
	flow, err := primary(c.Fill, c.Flow, c.Supply)
	if err != nil {
		return prepared{}, err
	}
	p := prepared{supply: float64(c.Supply), flow: float64(flow), boiler: float64(c.Boiler), pump: math.Inf(1), coil: c.Coil.Known()}
	switch {
	case c.Drop > 0:
		p.pump = p.flow * float64(c.Drop)
	case !p.coil:
		return prepared{}, &refuse.Error{Subject: subject, What: "coil of the tank", Given: "nothing", Accept: "one rated point of the coil, or the drop of the primary water during a charge"}
	}
	p.perKelvin = p.flow // without a coil the water could give all its heat
	if p.coil {
		p.perKelvin = c.Coil.perKelvin(p.flow)
	}
	return p, nil
}

func (p prepared) at(tank units.Temperature) Charging {
	span := p.supply - float64(tank)
	if span <= 0 {
		return Charging{Limit: ByCoil, Supply: units.Temperature(p.supply), Return: units.Temperature(p.supply)}
	}
	out := Charging{Heat: units.Power(p.perKelvin * span), Limit: ByCoil}
	if !p.coil {
		out.Limit = ByPump
	}
	if p.pump < float64(out.Heat) {
		out.Heat, out.Limit = units.Power(p.pump), ByPump
	}
	if p.boiler < float64(out.Heat) {
		out.Heat, out.Limit = units.Power(p.boiler), ByBoiler
	}
	// What the coil is not offered, it does not take: the primary settles where the
	// coil passes on just what arrives.
	out.Supply = tank + units.Temperature(float64(out.Heat)/p.perKelvin)
	out.Return = out.Supply - units.Temperature(float64(out.Heat)/p.flow)
	return out
}
