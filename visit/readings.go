package visit

import (
	"math"
	"slices"
	"strings"

	"curvewright/boiler"
	"curvewright/pipework"
	"curvewright/units"
)

// What can be read in this house, and what would it say with the plant in a state?

// Measure is what is read.
type Measure string

// The measures. Of a circuit or a room where one is named.
const (
	OutdoorShown    Measure = "outdoor temperature shown"
	BoilerSupply    Measure = "boiler supply"
	BoilerReturn    Measure = "boiler return"
	BoilerShown     Measure = "boiler supply shown"
	SecondarySupply Measure = "supply behind the separator"
	SecondaryReturn Measure = "return before the separator"
	FiringRate      Measure = "firing rate"
	BurnerRun       Measure = "burner run"
	BurnerPause     Measure = "burner pause"
	MeanFire        Measure = "mean fire" // of full, from run and pause
	MeterTime       Measure = "meter time at full fire"
	FlueGas         Measure = "flue gas"
	Condensate      Measure = "condensate"
	Pressure        Measure = "system pressure"
	TankCharge      Measure = "tank charge"
	Wanted          Measure = "supply wanted" // shown by the control
	Supply          Measure = "supply"
	SupplyShown     Measure = "supply shown" // by the control's own sensor
	Return          Measure = "return"
	Flow            Measure = "flow"
	BranchReturn    Measure = "branch return" // of a room's emitters
	PumpHead        Measure = "pump head"
	FilterDrop      Measure = "pressure drop of the filter"
	Air             Measure = "air" // of a room
)

// Reading names a reading: what, and of which circuit and room.
type Reading struct {
	Measure Measure
	Circuit string
	Room    string
}

// String is the reading in words.
func (r Reading) String() string {
	switch {
	case r.Measure == Air:
		return "air in " + r.Room
	case r.Measure == BranchReturn:
		return "return of " + r.Room + " on " + r.Circuit
	case r.Circuit != "":
		return string(r.Measure) + " of " + r.Circuit
	}
	return string(r.Measure)
}

// kind is what sort of quantity a reading is.
type kind int

const (
	temperature kind = iota
	fraction
	duration
	flow
	massFlow
	pressure
)

// reading is a reading of this house.
type reading struct {
	Reading
	kind          kind
	circuit, room int
	// accuracy is what an instrument may be off in nine cases of ten or better, model what
	// the plant as drawn may be: a steady part and a share of the value.
	accuracy, accuracyShare float64
	model, modelShare       float64
}

// What instruments and the model may be off, as two standard deviations; all common
// practice. Clamp-on thermometers: 2 °F.
const (
	clampOn     = 1.1  // K
	display     = 0.6  // K: whole degrees
	roomAir     = 1.0  // K
	meterShare  = 0.02 // of a flow meter, beside the survey's doubt
	flowShare   = 0.10
	trickle     = 5e-6 // m³/s, 0.3 L/min
	rateShown   = 0.05 // of the full fire
	watch       = 15.0 // s
	stopwatch   = 0.5  // s
	gauge       = 1e4  // Pa, 0.1 bar
	jug         = 0.15 // share
	analyser    = 2.0  // K
	pipesLose   = 1.0  // K: what pipes and mixing leave open
	fireModel   = 0.2  // share: what start and purge leave of a run
	cycleModel  = 0.5  // share: how far pipes and emitters swing, and how the burner starts
	flueModel   = 8.0  // K
	jugModel    = 0.5  // share
	gasModel    = 0.06 // share: heat in the gas, its pressure and temperature
	rateModel   = 0.10 // of the full fire
	chargeModel = 0.25 // share: layers in the tank
	fillModel   = 2e4  // Pa: how warm the whole of the water is
	heldModel   = 0.8  // K: what a valve or thermostat holds
	headGauge   = 2e3  // Pa, of two gauges or of what the pump shows
	headModel   = 0.35 // share: pipes as surveyed, and a pump that makes more head against less flow
	cleanFilter = 0.10 // of the head, what a clean filter takes
	filterModel = 0.5  // share
	filterLeast = 1e3  // Pa
)

// list lists the readings of the house.
func (h *House) list() []reading {
	s := h.plan.Site
	out := []reading{
		{Reading: Reading{Measure: OutdoorShown}, accuracy: display, model: 1.5},
		{Reading: Reading{Measure: BoilerSupply}, accuracy: clampOn, model: pipesLose},
		{Reading: Reading{Measure: BoilerShown}, accuracy: display, model: 1.5},
		{Reading: Reading{Measure: BoilerReturn}, accuracy: clampOn, model: pipesLose},
		{Reading: Reading{Measure: FlueGas}, accuracy: analyser, model: flueModel},
	}
	if h.plant.coupling != pipework.Direct {
		out = append(out, reading{Reading: Reading{Measure: SecondarySupply}, accuracy: clampOn, model: pipesLose},
			reading{Reading: Reading{Measure: SecondaryReturn}, accuracy: clampOn, model: pipesLose})
	}
	if s.Known {
		out = append(out, reading{Reading: Reading{Measure: FiringRate}, kind: fraction, accuracy: rateShown, model: rateModel})
	}
	if s.Cycles {
		out = append(out, reading{Reading: Reading{Measure: BurnerRun}, kind: duration, accuracy: watch, modelShare: cycleModel},
			reading{Reading: Reading{Measure: BurnerPause}, kind: duration, accuracy: watch, modelShare: cycleModel},
			reading{Reading: Reading{Measure: MeanFire}, kind: fraction, accuracy: 0.02, modelShare: fireModel})
	}
	if s.Meter != nil {
		out = append(out, reading{Reading: Reading{Measure: MeterTime}, kind: duration, accuracy: stopwatch, modelShare: gasModel})
	}
	if s.Condenses {
		out = append(out, reading{Reading: Reading{Measure: Condensate}, kind: massFlow, accuracyShare: jug, modelShare: jugModel, model: 5e-5})
	}
	if s.Filled {
		out = append(out, reading{Reading: Reading{Measure: Pressure}, kind: pressure, accuracy: gauge, model: fillModel})
	}
	if h.plant.head() > 0 {
		out = append(out, reading{Reading: Reading{Measure: FilterDrop}, kind: pressure, accuracy: headGauge, model: filterLeast, modelShare: filterModel})
	}
	if h.plant.tank != nil {
		out = append(out, reading{Reading: Reading{Measure: TankCharge}, kind: duration, accuracy: 60, modelShare: chargeModel})
	}
	for i, c := range h.plant.circuits {
		of := func(m Measure) Reading { return Reading{Measure: m, Circuit: c.name} }
		out = append(out, reading{Reading: of(Wanted), circuit: i, accuracy: display},
			reading{Reading: of(Supply), circuit: i, accuracy: clampOn, model: pipesLose})
		if c.mixed {
			out = append(out, reading{Reading: of(SupplyShown), circuit: i, accuracy: display, model: 1.5})
		}
		out = append(out, reading{Reading: of(Return), circuit: i, accuracy: clampOn, model: pipesLose},
			reading{Reading: of(Flow), kind: flow, circuit: i, accuracy: trickle, accuracyShare: flowShare, modelShare: meterShare})
		if c.head > 0 {
			out = append(out, reading{Reading: of(PumpHead), kind: pressure, circuit: i, accuracy: headGauge, modelShare: headModel})
		}
		if c.series {
			continue
		}
		var seen []int
		for _, e := range c.emitters {
			if !slices.Contains(seen, e.room) {
				seen = append(seen, e.room)
				r := of(BranchReturn)
				r.Room = h.plant.rooms[e.room].name
				out = append(out, reading{Reading: r, circuit: i, room: e.room, accuracy: clampOn, model: pipesLose})
			}
		}
	}
	for r, n := range h.plant.rooms {
		out = append(out, reading{Reading: Reading{Measure: Air, Room: n.name}, room: r, accuracy: roomAir, model: heldModel})
	}
	return out
}

// Reads tells whether the house has such a reading.
//
// Range: any reading.
// Source: definition.
func (h *House) Reads(r Reading) bool {
	return slices.ContainsFunc(h.readings, func(x reading) bool {
		return x.Measure == r.Measure && strings.EqualFold(x.Circuit, r.Circuit) && (x.Measure == BranchReturn || strings.EqualFold(x.Room, r.Room))
	})
}

var nothing = math.NaN() // a reading that there is not in this state

// values gives every reading of the house in a state, NaN where there is none.
func (h *House) values(s *state, d *change, out *at) []float64 {
	values := make([]float64, len(h.readings))
	if h.plan.Site.Cycles && !s.unheard {
		out.run, out.rest, out.cycles = h.plant.cycle(s, d, out)
	}
	for i := range h.readings {
		values[i] = h.value(&h.readings[i], s, d, out)
	}
	return values
}

// predict settles the plant and reads it.
func (h *House) predict(s *state, d *change) []float64 {
	out := h.plant.run(s, d)
	return h.values(s, d, &out)
}

func (h *House) value(r *reading, s *state, d *change, out *at) float64 {
	p := &h.plant
	switch r.Measure {
	case OutdoorShown:
		return s.outdoor + d.outdoor
	case BoilerSupply:
		return out.boiler
	case BoilerReturn:
		return out.back
	case BoilerShown:
		if d.turned {
			return out.back
		}
		return out.boiler
	case SecondarySupply:
		return out.supply
	case SecondaryReturn:
		return out.systemReturn
	case FiringRate, BurnerRun, BurnerPause, MeanFire, FlueGas, Condensate:
		return h.burner(r.Measure, d, out)
	case MeterTime:
		return h.meterTime() / d.gas
	case Pressure:
		return h.pressure(d, out)
	case FilterDrop:
		if !out.heating {
			return nothing
		}
		// What dirt takes is missing to the circuits: their drop goes with the square of the flow.
		return h.plant.head() * (1 - (1-cleanFilter)*d.filter*d.filter)
	case TankCharge:
		if !s.Tank && !d.priority {
			return nothing
		}
		t, err := chargeTime(p.tank, d.gas, d.coil)
		if err != nil {
			return nothing
		}
		return float64(t)
	case Air:
		if s.State != Settled && s.State != Held {
			return nothing
		}
		return out.rooms[r.room].air
	}
	return h.ofCircuit(r, d, out)
}

func (h *House) ofCircuit(r *reading, d *change, out *at) float64 {
	c, n := &out.circuits[r.circuit], &h.plant.circuits[r.circuit]
	switch r.Measure {
	case Wanted:
		if c.wanted == 0 {
			return nothing
		}
		return c.wanted
	case Supply:
		return c.supply
	case SupplyShown:
		if d.circuits[r.circuit].swap {
			return c.back
		}
		return c.supply
	case Return:
		return c.back
	case Flow:
		return c.flow / float64(h.plan.Site.Carries)
	case PumpHead:
		if !c.on {
			return nothing
		}
		return n.head * d.circuits[r.circuit].head
	case BranchReturn:
		sum, count := 0.0, 0.0
		for k, e := range n.emitters {
			if e.room == r.room {
				sum += c.branches[k]
				count++
			}
		}
		return sum / count
	}
	return nothing
}

// head is the largest of the circuits' heads, 0 where none is known.
func (p *plant) head() float64 {
	most := 0.0
	for i := range p.circuits {
		most = math.Max(most, p.circuits[i].head)
	}
	return most
}

// burner gives what the burner shows.
func (h *House) burner(m Measure, d *change, out *at) float64 {
	p := &h.plant
	full, least := p.rated*d.gas, p.least*d.gas
	if !out.heating || out.heat <= 1 {
		return nothing
	}
	rate := math.Max(float64(p.model.LeastRate), math.Min(1, out.heat/full))
	back := units.Temperature(math.Max(float64(units.Celsius(5)), math.Min(float64(units.Celsius(110)), out.back)))
	switch m {
	case FiringRate:
		return math.Max(math.Min(least, full), math.Min(full, out.heat)) / full
	case MeanFire:
		if out.cycles { // as it is reckoned from run and pause
			return out.run / (out.run + out.rest) * p.least / p.rated
		}
		return math.Min(1, out.heat/full)
	case BurnerRun, BurnerPause:
		switch {
		case !out.cycles:
			return nothing // it runs through, or for longer than anybody stands beside it
		case m == BurnerRun:
			return out.run
		}
		return out.rest
	case FlueGas:
		t, err := p.model.ExitGas(back, units.Fraction(rate))
		if err != nil {
			return nothing
		}
		return float64(t)
	}
	q, err := h.condensate(back, units.Fraction(rate), units.Power(out.heat))
	if err != nil {
		return nothing
	}
	return float64(q)
}

// condensate is the mean rate at which water drips.
func (h *House) condensate(back units.Temperature, rate units.Fraction, heat units.Power) (units.MassFlow, error) {
	exit, err := h.plant.model.ExitGas(back, rate)
	if err != nil {
		return 0, err
	}
	balance, err := h.plant.model.FlueGas().Leaving(exit)
	if err != nil {
		return 0, err
	}
	efficiency, err := h.plant.model.Efficiency(back, rate, boiler.Gross)
	if err != nil {
		return 0, err
	}
	return balance.Condensate(heat / units.Power(max(0.5, efficiency)))
}

// meterTime is how long the dial should take at full fire with the return of the design day.
func (h *House) meterTime() float64 {
	s := h.plan.Site
	back := h.plan.Sheet.Boiler.Points[0].Return
	efficiency, err := h.plant.model.Efficiency(back, 1, boiler.Gross)
	if err != nil || s.Meter == nil {
		return nothing
	}
	t, err := s.Meter.RevolutionTime(s.FullFire/units.Power(max(0.5, efficiency)), s.HeatingValue)
	if err != nil {
		return nothing
	}
	return float64(t)
}

// The cold water of a fill and the hot of the vessel's sizing stand for the ends; between
// them the pressure is taken to rise in a straight line.
const coldFill = 273.15 + 10

func (h *House) pressure(d *change, out *at) float64 {
	s := h.plan.Site
	mean := (out.boiler + out.back) / 2
	hot := float64(h.hottest())
	rise := math.Max(0, math.Min(1, (mean-coldFill)/math.Max(10, hot-coldFill)))
	return d.pressure*float64(s.Fill) + rise*float64(s.Hot-s.Fill)
}

// hottest is the hottest water that the settings allow.
func (h *House) hottest() units.Temperature {
	top := units.Celsius(40)
	for i := range h.plant.circuits {
		top = max(top, h.plant.circuits[i].curve.Limit.To)
	}
	return top
}

// quantity is a value of a kind with its type.
func (k kind) quantity(v float64) units.Quantity {
	switch k {
	case fraction:
		return units.Fraction(v)
	case duration:
		return units.Time(v)
	case flow:
		return units.Flow(v)
	case massFlow:
		return units.MassFlow(v)
	case pressure:
		return units.Pressure(v)
	}
	return units.Temperature(v)
}

// width is a tolerance of a kind with its type.
func (k kind) width(v float64) units.Quantity {
	if k == temperature {
		return units.Difference(v)
	}
	return k.quantity(v)
}
