package visit

import (
	"math"
	"math/rand/v2"
	"testing"

	"curvewright/curve"
	"curvewright/pipework"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/year"
)

// inSimulation puts a fault into the simulated year's plant. False where the house has no
// place for it.
func inSimulation(f Fault, h *House, heat float64) (func(*trial.Trial, *year.Settings), bool) {
	flows := func(factor float64) func(*trial.Trial, *year.Settings) {
		return func(t *trial.Trial, _ *year.Settings) {
			for k := range t.Plant.Circuits[0].Radiators {
				t.Plant.Circuits[0].Radiators[k].Flow *= units.LossCoefficient(factor)
			}
		}
	}
	boilerFlow := func(factor float64) func(*trial.Trial, *year.Settings) {
		return func(t *trial.Trial, _ *year.Settings) { t.Plant.Boiler.Flow *= units.LossCoefficient(factor) }
	}
	gives := func(all bool) func(*trial.Trial, *year.Settings) {
		return func(t *trial.Trial, _ *year.Settings) {
			for k := range t.Plant.Circuits[0].Radiators {
				if r := &t.Plant.Circuits[0].Radiators[k]; all || r.Room == 0 {
					r.Law.Coefficient *= 0.5
				}
			}
		}
	}
	separated := h.plant.coupling != pipework.Direct
	switch f {
	case Nothing:
		return nil, true
	case WarmOutdoorSensor:
		return func(t *trial.Trial, _ *year.Settings) { t.Plant.Sensor.Offset = 6 }, true
	case WrongCurve:
		return func(_ *trial.Trial, s *year.Settings) {
			c := &s.Circuits[0].Curve
			c.Cold.Supply, c.Mild.Supply, c.Shift = c.Cold.Supply-8, c.Mild.Supply-8, c.Shift-8
			c.Limit = curve.Span[units.Temperature]{From: units.Celsius(20), To: c.Limit.To}
		}, true
	case PumpSlow:
		return flows(0.5), true
	case PumpFast:
		return flows(2.2), true
	case BoilerPumpSlow:
		return boilerFlow(0.35), separated
	case BoilerPumpFast:
		return boilerFlow(2.6), separated
	case WeakEmitters:
		return gives(true), true
	case SmallEmitter:
		return gives(false), true
	case RoomLosesMore:
		return func(t *trial.Trial, _ *year.Settings) { t.House.Rooms[0].Loss = t.House.Rooms[0].Loss.Scale(2) }, true
	case LowOutput:
		return func(t *trial.Trial, s *year.Settings) { s.HeatingLimit = units.Power(0.6 * heat) }, true
	case SensorUnused:
		return func(_ *trial.Trial, s *year.Settings) { s.Beyond = false }, separated && h.plant.beyond
	}
	return nil, false
}

// TestFaultsOfTheSimulationAreFound plays faults minute by minute in package year, which
// knows nothing of this one, and judges its thermometers. The true cause is among the first
// three in 85 % and more, and sound houses are called sound in 95 %.
func TestFaultsOfTheSimulationAreFound(t *testing.T) {
	found, played, sound, healthy := 0, 0, 0, 0
	for _, f := range []Fault{Nothing, WarmOutdoorSensor, WrongCurve, PumpSlow, PumpFast, BoilerPumpSlow, BoilerPumpFast, WeakEmitters, SmallEmitter, RoomLosesMore, LowOutput, SensorUnused} {
		ours, tries := 0, 0
		for seed := uint64(1); seed < 60 && tries < 4; seed++ {
			r := rand.New(rand.NewPCG(seed, 17))
			h := drawn(t, 4000+seed, 0.02, true)
			if len(h.plant.circuits[0].emitters) == 0 || h.plant.circuits[0].emitters[0].slab != nil || h.plant.circuits[0].series {
				continue
			}
			h.plant.offset, h.plant.maxSupply = 0, 273.15+95
			c := Conditions{Outdoor: h.plan.Design.Add(units.Difference(4 + 8*r.Float64())), State: Settled}
			s, err := h.prepare(c)
			if err != nil {
				t.Fatal(err)
			}
			none := h.plant.asDrawn()
			out := h.plant.run(&s, &none)
			wrong, ok := inSimulation(f, h, out.heat)
			if !ok || out.limited {
				continue
			}
			p, err := play(h, c.Outdoor, false, wrong)
			if err != nil || p.starts > 0 || p.swings > 1 {
				continue
			}
			readings := h.fromSimulation(&p, f, c.Outdoor, r)
			j, err := h.Judge(c, readings)
			if err != nil {
				t.Fatal(err)
			}
			shows := false
			for _, x := range j.Readings {
				shows = shows || math.Abs(float64(x.Deviation)) > 3
			}
			if f != Nothing && !shows {
				continue // nothing to find
			}
			tries++
			if f == Nothing {
				healthy++
				if j.Sound {
					sound++
				}
				continue
			}
			for k := range 3 {
				if j.Causes[k].Fault == f {
					ours++
					break
				}
			}
		}
		if f == Nothing {
			continue
		}
		if tries == 0 {
			t.Errorf("%s: no house shows it", f)
		}
		t.Logf("%s: %d of %d", f, ours, tries)
		found, played = found+ours, played+tries
	}
	if float64(sound) < 0.95*float64(healthy) || healthy == 0 {
		t.Errorf("sound houses: %d of %d called sound", sound, healthy)
	}
	if float64(found) < 0.85*float64(played) {
		t.Errorf("true cause among the first three in %d of %d", found, played)
	}
}

// fromSimulation reads the simulation's thermometers with real instruments.
func (h *House) fromSimulation(p *played, f Fault, outdoor units.Temperature, r *rand.Rand) []Measured {
	var out []Measured
	add := func(m Measure, circuit, room string, v, error float64) {
		out = append(out, Measured{Reading: Reading{Measure: m, Circuit: circuit, Room: room}, Value: v + error*r.NormFloat64()})
	}
	shown := float64(outdoor)
	if f == WarmOutdoorSensor {
		shown += 6
	}
	add(OutdoorShown, "", "", shown, display/2)
	add(BoilerSupply, "", "", p.boiler, clampOn/2)
	add(BoilerReturn, "", "", p.back, clampOn/2)
	add(FiringRate, "", "", p.burner/h.plant.rated, rateShown/2)
	for i, c := range h.plant.circuits {
		add(Wanted, c.name, "", p.circuits[i][0], display/2)
		add(Supply, c.name, "", p.circuits[i][1], clampOn/2)
		add(Return, c.name, "", p.circuits[i][2], clampOn/2)
	}
	for i, n := range h.plant.rooms {
		add(Air, "", n.name, p.rooms[i], roomAir/2)
	}
	return out
}
