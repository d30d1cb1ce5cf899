package settings

import (
	"math"

	"curvewright/boiler"
	"curvewright/fluid"
	"curvewright/hotwater"
	"curvewright/units"
)

// What does someone with a thermometer in the boiler room need beside the plan: what is
// entered at the control, how the meter counts, how long the tank takes, and by how much
// each figure of the survey may be off?

// PlanSite is the part of a [Plan] for judging readings on site.
type PlanSite struct {
	Offset    units.Difference  // entered at the control: the boiler above the circuits' curve
	Above     units.Difference  // the boiler above a mixed circuit
	MinSupply units.Temperature // least of the boiler
	MaxSupply units.Temperature
	Water     units.Volume // that warms and cools with the burner
	Fluid     fluid.Mixture
	Cycles    bool // whether the least output is known, so that runs and pauses can be told
	Condenses bool
	Known     bool        // whether the boiler's output is surveyed
	Rated     units.Power // of the boiler, before any limit
	Carries   units.VolumetricHeat

	Meter        *boiler.Meter // nil where the boiler burns no gas from a meter, or its output is not known
	HeatingValue units.HeatingValue
	FullFire     units.Power // output at full fire, after altitude

	Tank *PlanTank // nil without a tank, or where it could not be worked out

	Content   units.Volume   // water of the whole system
	Filled    bool           // whether the pressures could be worked out
	Fill, Hot units.Pressure // cold, and with the hottest water
	Precharge units.Pressure // of the vessel

	Heads []units.Pressure // that each circuit takes at its flow, with its balancing valve; 0 where its pipes are not surveyed

	Doubts PlanDoubts
}

// PlanTank is the hot-water tank with what charges it.
type PlanTank struct {
	Tank         hotwater.Tank
	Charge       hotwater.Charge
	Set          units.Temperature
	Differential units.Difference
	Cold         units.Temperature
	Priority     bool
}

// PlanDoubts are relative standard errors of what was surveyed.
type PlanDoubts struct {
	House    units.Fraction
	Rooms    []units.Fraction // beside the house's
	Emitters []units.Fraction // by circuit
	Flows    []units.Fraction // by circuit
	Boiler   units.Fraction   // the boiler pump's flow
}

// flowDoubt is the relative standard error of a flow by how it is known.
func flowDoubt(measured bool) units.Fraction {
	if measured {
		return 0.05
	}
	return 0.15
}

// site fills in that part.
func (m *model) site(s *Sheet, solved []solvedCircuit, b burner) (PlanSite, error) {
	j := m.job
	p := PlanSite{Offset: m.enteredOffset(), Above: mixedAbove, MinSupply: j.Boiler.MinSupply.Value, MaxSupply: j.Boiler.MaxSupply.Or(m.control.limit.To).Value,
		Water: b.water.Value, Fluid: m.fluid(), Cycles: s.Boiler.Cycles, Condenses: j.Boiler.Kind != "non-condensing",
		Known: j.Boiler.Output.Set, Rated: j.Boiler.Output.Value, Carries: m.streams.carries}
	if !p.Condenses {
		p.MinSupply = max(p.MinSupply, m.keptHot())
	}
	if _, high := boiler.AltitudeUS.Remains(j.Site.Elevation.Value); p.Known && j.Boiler.Fuel != "" && !b.gas.Fuel.Liquid() && high == nil {
		g, err := m.gasMeter(b)
		if err != nil {
			return p, err
		}
		p.Meter, p.HeatingValue, p.FullFire = &g.meter, g.value.Value, g.full
	}
	if by := hotwater.Arrangement(j.HotWater.By); by == hotwater.OwnPump || by == hotwater.ThreeWay {
		if h, _, err := m.readHotWater(); err == nil && h.tank.charge.Supply > 0 {
			p.Tank = &PlanTank{Tank: h.tank.Tank, Charge: h.tank.charge, Set: h.set.Value, Differential: h.advice.Differential, Cold: h.cold.Value, Priority: h.waits}
		}
	}
	if j.System.Height.Set {
		if a, err := m.readAntifreeze(); err == nil {
			if v, err := m.readVessel(a, solved); err == nil {
				p.Filled, p.Fill, p.Hot, p.Precharge = true, v.fill, v.top, v.precharge
			}
		}
	}
	p.Heads = make([]units.Pressure, len(m.circuits))
	for _, d := range m.drives() {
		if err := m.readDrive(&d); err == nil && d.known {
			for k, i := range d.circuits {
				p.Heads[i] = d.paths[k].Drop(m.circuits[i].runs)
			}
		}
	}
	p.Content = m.content().Value
	p.Doubts = PlanDoubts{House: units.Fraction(m.house.doubt), Boiler: flowDoubt(m.streams.boiler.How() == "measured")}
	for _, r := range m.rooms {
		p.Doubts.Rooms = append(p.Doubts.Rooms, units.Fraction(r.doubt))
	}
	for _, c := range m.circuits {
		p.Doubts.Emitters = append(p.Doubts.Emitters, units.Fraction(c.doubt))
		p.Doubts.Flows = append(p.Doubts.Flows, flowDoubt(c.flowHow == "measured"))
	}
	return p, nil
}

// enteredOffset is what the line of the separator offset says, in the control's steps.
func (m *model) enteredOffset() units.Difference {
	s := &m.streams
	if !s.separated || s.sensor || !s.boiler.Set || s.verdict.Offset <= mattersFrom {
		return 0
	}
	step := float64(m.control.step.Difference())
	offset := math.Round(float64(s.verdict.Offset)/step) * step
	// No more than the boiler can be set to above what the circuits want.
	spare := math.Floor(float64(m.boilerTop().Sub(s.states[0].wanted))/step+1e-9) * step
	return units.Difference(max(0, min(offset, spare)))
}
