package visit

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"curvewright/trial"
	"curvewright/units"
	"curvewright/year"
)

// played is what the minute-by-minute simulation of the same job settles to in weather
// that does not change: the mean of its last day.
type played struct {
	boiler, back float64
	burner       float64
	circuits     [][3]float64 // wanted, supply, return
	rooms        []float64
	starts       int
	swings       float64 // of the boiler's supply, K
	on           float64 // s of the day
}

// play plays a house for weeks. With valves the radiators' thermostatic ones work. What is
// wrong, if anything, is done to the plant and its settings first.
func play(h *House, outdoor units.Temperature, valves bool, wrong func(*trial.Trial, *year.Settings)) (played, error) {
	tr, err := trial.New(h.job, trial.Options{System: units.SI})
	if err != nil {
		return played{}, err
	}
	for i := range tr.House.Rooms {
		for k := range tr.House.Rooms[i].Gains {
			tr.House.Rooms[i].Gains[k] = tr.Plan.Rooms[i].Gains
		}
		tr.House.Rooms[i].Open, tr.House.Rooms[i].Airing, tr.House.Rooms[i].Shade = 0, year.Airing{}, year.Shade{}
	}
	for i := range tr.Plant.Circuits {
		c := &tr.Plant.Circuits[i]
		c.Thermostat = 0
		for k := range c.Radiators {
			if !valves {
				c.Radiators[k].Valve = year.Valve{}
			}
		}
		for k := range c.Slabs {
			c.Slabs[k].Valve = year.Valve{}
		}
	}
	tr.Plant.Boiler.Standby, tr.Plant.Boiler.Most, tr.Plant.Tank = 0, tr.Plan.Most, nil
	set := tr.Settings[0]
	set.CutOff, set.Frost = year.CutOff{}, 0
	for i := range set.Circuits {
		set.Circuits[i].Program, set.Circuits[i].Influence = nil, 0
	}
	if wrong != nil {
		wrong(tr, &set)
	}
	const days, aDay = 6, 1440
	columns := year.Columns(tr.House, tr.Plant)
	trace := year.Trace{Every: 60, Values: make([]float64, days*aDay*len(columns))}
	r, err := year.Run(tr.House, tr.Plant, set, year.Steady(outdoor, days, 4), year.Options{Trace: &trace})
	if err != nil {
		return played{}, err
	}
	mean := func(k int) float64 {
		sum := 0.0
		for row := trace.Rows - aDay; row < trace.Rows; row++ {
			sum += trace.At(row, k)
		}
		return sum / aDay
	}
	out := played{boiler: mean(1), back: mean(2), burner: mean(3), starts: r.StartsPerDay[days-1]}
	low, high := math.Inf(1), math.Inf(-1)
	for row := trace.Rows - aDay; row < trace.Rows; row++ {
		low, high = math.Min(low, trace.At(row, 1)), math.Max(high, trace.At(row, 1))
	}
	out.swings = high - low
	if out.starts > 0 { // the burning of the last day is that of all days less that of all but one
		before, err := year.Run(tr.House, tr.Plant, set, year.Steady(outdoor, days-1, 4), year.Options{})
		if err != nil {
			return played{}, err
		}
		out.on = float64(r.Burning - before.Burning)
	}
	k := 4
	for range tr.Plant.Circuits {
		out.circuits = append(out.circuits, [3]float64{mean(k), mean(k + 1), mean(k + 2)})
		k += 3
	}
	for i := range tr.House.Rooms {
		out.rooms = append(out.rooms, mean(len(columns)-len(tr.House.Rooms)+i))
	}
	return out, nil
}

// agrees compares every thermometer.
func agrees(h *House, p played, out *at, most float64) error {
	check := func(what string, ours, theirs float64) error {
		if math.Abs(ours-theirs) > most {
			return fmt.Errorf("%s: %.2f °C expected, %.2f °C in the simulation", what, ours-273.15, theirs-273.15)
		}
		return nil
	}
	if err := check("boiler supply", out.boiler, p.boiler); err != nil {
		return err
	}
	if err := check("boiler return", out.back, p.back); err != nil {
		return err
	}
	for i := range out.circuits {
		c, name := &out.circuits[i], h.plant.circuits[i].name
		for k, v := range []float64{c.wanted, c.supply, c.back} {
			if err := check([]string{"wanted of ", "supply of ", "return of "}[k]+name, v, p.circuits[i][k]); err != nil {
				return err
			}
		}
	}
	for i := range out.rooms {
		if err := check(h.plant.rooms[i].name, out.rooms[i].air, p.rooms[i]); err != nil {
			return err
		}
	}
	return nil
}

// TestSteadyWeatherAgreesWithTheSimulation: in weather that does not change every
// thermometer of a drawn house must read within 0.5 K of what the year's simulation of
// the same job settles to, with the valves open and, where nothing but radiators heats,
// with thermostatic valves holding the rooms. The boilers can fire low enough to run
// through; the few that start and stop or hunt all the same are left out, and boilers at their
// limit in houses with heated floors: a slab of the simulation gives what its rating says
// to 3 % only, which a boiler without reserve turns into kelvins.
func TestSteadyWeatherAgreesWithTheSimulation(t *testing.T) {
	// Houses on which the two once fell apart, each with what was wrong.
	for name, c := range map[string]struct {
		seed   uint64
		above  units.Difference
		valves bool
	}{
		"eight baseboards on one loop, a ripple from step to step grew in the simulation": {0x1d11, 1, false},
	} {
		t.Run(name, func(t *testing.T) {
			if compared, err := agree(t, c.seed, c.above, c.valves); !compared || err != nil {
				t.Errorf("compared: %v, %v", compared, err)
			}
		})
	}
	compared, left := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		valves := rapid.IntRange(0, 3).Draw(t, "valves in one of four") == 0
		seed := rapid.Uint64Range(1, 1e6).Draw(t, "seed")
		same, err := agree(t, seed, units.Difference(rapid.Float64Range(0, 14).Draw(t, "above the design day")), valves)
		if err != nil {
			t.Fatal(err)
		}
		if same {
			compared++
		} else {
			left++
		}
	})
	if compared < left/2 {
		t.Errorf("only %d houses compared, %d left out", compared, left)
	}
}

// agree plays a drawn house and tells whether it could be compared, and where the two do not agree.
func agree(t fataler, seed uint64, above units.Difference, valves bool) (compared bool, err error) {
	h := drawn(t, seed, 0.02, !valves)
	outdoor := h.plan.Design.Add(above)
	s, err := h.prepare(Conditions{Outdoor: outdoor, State: map[bool]State{true: Held, false: Settled}[valves]})
	if err != nil {
		return false, err
	}
	h.plant.offset, h.plant.maxSupply = 0, 273.15+95 // the simulation knows neither offset nor the highest supply
	none := h.plant.asDrawn()
	out := h.plant.run(&s, &none)
	p, err := play(h, outdoor, valves, nil)
	if err != nil {
		return false, nil
	}
	if p.starts > 0 || p.swings > 1 || valves && (h.plant.throttled(&out) || !h.plant.tamed()) || out.heat > 0.98*h.plant.most && h.plant.heatsFloors() {
		return false, nil
	}
	if err := agrees(h, p, &out, 0.5); err != nil {
		return true, fmt.Errorf("valves %v, %.1f °C outdoors: %w", valves, outdoor.Celsius(), err)
	}
	return true, nil
}

// throttled tells whether a valve is less than half open. The simulation's radiator is one
// node, right to a tenth of a kelvin only while its water does not cool to the room.
func (p *plant) throttled(out *at) bool {
	for i := range p.circuits {
		for _, e := range p.circuits[i].emitters {
			if e.tamed && opening(p.rooms[e.room].set, out.rooms[e.room].air) < 0.5 {
				return true
			}
		}
	}
	return false
}

func (p *plant) heatsFloors() bool {
	for i := range p.circuits {
		for _, e := range p.circuits[i].emitters {
			if e.slab != nil {
				return true
			}
		}
	}
	return false
}

// tamed tells whether every emitter has a valve of its own.
func (p *plant) tamed() bool {
	for i := range p.circuits {
		for _, e := range p.circuits[i].emitters {
			if !e.tamed {
				return false
			}
		}
	}
	return true
}

const (
	// patternBand is by how much starts and runs differ from those of the simulation in nine houses
	// of ten, patternMost in any.
	patternBand, patternMost = 0.3, 1.5
	// nearLeast is the share of the least output beyond which runs grow without bound.
	nearLeast = 0.75
)

// TestBurnerPatternAgreesWithTheSimulation: where a drawn house takes up to three quarters
// of the least output, starts of a day, length of a run and of a pause must be those of the year's
// simulation within three tenths in nine houses of ten, and within a factor of two and a half in
// all: what a quick control does in the minutes after a start hangs on every litre.
func TestBurnerPatternAgreesWithTheSimulation(t *testing.T) {
	near, compared, left := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64Range(1, 1e6).Draw(t, "seed")
		off, err := patternOff(t, seed, units.Difference(rapid.Float64Range(1, 16).Draw(t, "below the cut-off")))
		switch {
		case err != nil:
			t.Fatal(err)
		case math.IsNaN(off):
			left++
		case off <= patternBand:
			near, compared = near+1, compared+1
		case off <= patternMost:
			compared++
		default:
			t.Fatalf("starts, run or pause of the burner are %.0f %% away from those of the simulation", 100*off)
		}
	})
	if compared < left/3 || float64(near) < 0.9*float64(compared) {
		t.Errorf("%d houses compared, %d left out; %d within %.0f %%", compared, left, near, 100*patternBand)
	}
}

// patternOff plays a drawn house in mild weather and tells by how much starts, run or
// pause of its burner are off; no number where the house takes too much or nothing.
func patternOff(t fataler, seed uint64, below units.Difference) (float64, error) {
	h := drawn(t, seed, 0, true)
	outdoor := h.plan.CutOff.Add(-below)
	s, err := h.prepare(Conditions{Outdoor: outdoor, State: Settled})
	if err != nil {
		return 0, err
	}
	h.plant.offset, h.plant.maxSupply = 0, 273.15+95
	none := h.plant.asDrawn()
	out := h.plant.run(&s, &none)
	if out.heat < 100 || out.heat > nearLeast*h.plant.least {
		return math.NaN(), nil
	}
	p, err := play(h, outdoor, false, func(_ *trial.Trial, s *year.Settings) { s.Rest = h.plan.Year.Rest })
	if err != nil {
		return math.NaN(), nil
	}
	run, rest, ok := h.plant.cycle(&s, &none, &out)
	if !ok || p.starts == 0 {
		return 0, fmt.Errorf("%.1f °C outdoors, %.0f %% of the least output: cycles %v, the simulation starts %d times", outdoor.Celsius(), 100*out.heat/h.plant.least, ok, p.starts)
	}
	starts, off := float64(p.starts), 0.0
	for _, ratio := range []float64{86400 / (run + rest) / starts, run / (p.on / starts), rest / ((86400 - p.on) / starts)} {
		off = max(off, ratio-1, 1/ratio-1)
	}
	return off, nil
}
