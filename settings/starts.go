package settings

import (
	"fmt"
	"math"
	"slices"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/hotwater"
	"curvewright/units"
	"curvewright/working"
)

// How often does the burner start in a year in which people live there? Valves close,
// thermostats let go, circuits are lowered at night, hot water is drawn: then the boiler
// warms little more than itself, and starts far more often than with all its water moving.

// What a boiler stores besides its surveyed water, and one of which nothing is known, J/K
// (common practice).
const (
	boilerMetal  = 25e3
	usualBoiler  = 60e3
	pipesShare   = 0.2   // of a circuit's water, in pipes near the boiler
	leastPipes   = 2e4   // J/K
	houseStores  = 177e3 // for a square metre of floor: medium weight, air and furniture
	wholeDrop    = 1.8   // water leaves an emitter about as far below its mean as it came in above
	leastOpen    = 0.05
	mostCallers  = 6
	rareTogether = 1e-3
	idle         = 0.05        // share of the time without any call, from which on calls are counted
	slowCalls    = 1.0 / 86400 // of a thermostat on a heated floor, 1/s
	heavyCalls   = 2.0 / 86400 // of one on cast iron
	quickCalls   = 5.0 / 86400 // of one on other emitters
)

// boilerStores is what the boiler's water and metal take up for a kelvin.
func (m *model) boilerStores() building.HeatCapacity {
	switch b, own := m.job.Boiler.Water, m.job.System.BoilerWater; {
	case b.Set: // all that moves with the burner, as the survey has it
		return building.HeatCapacity(float64(b.Value) * float64(m.streams.carries))
	case own.Set:
		return building.HeatCapacity(boilerMetal + float64(own.Value)*float64(m.streams.carries))
	}
	return usualBoiler
}

// caller is a circuit at one outdoor temperature, as the boiler feels it.
type caller struct {
	share    float64 // of the day in which it calls
	by       float64 // the same at night, where it is lowered
	near     float64 // J/K, pipes
	far      float64 // J/K, emitters
	exchange float64 // W/K, that its water carries
	takes    float64 // W, while it calls
	name     string
	mixed    bool
	stirred  bool    // its water moves while others call, by the frost guard
	calls    float64 // 1/s, at most
}

// callers are the circuits that want heat at outdoor temperature k, and the share of the
// day in which those without valves of their own rest because they are lowered.
func (m *model) callers(k int, solved []solvedCircuit, water float64) (list []caller, resting float64) {
	total := 0.0
	for i := range m.circuits {
		total += float64(m.circuits[i].load)
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		taken, given := c.solve.Water(solved[i].out.Points[k].Set)
		need := m.livedIn(c, m.outdoor[k])
		if given <= 0 || need <= 0 {
			continue
		}
		open := math.Min(1, need/float64(given))
		store := water * float64(c.load) / total
		x := caller{name: c.job.Name, share: open, by: open, near: math.Max(leastPipes, pipesShare*store), far: (1 - pipesShare) * store, exchange: float64(c.solve.Flow), takes: float64(taken), calls: quickCalls}
		for _, feeds := range c.feeds {
			for _, f := range feeds {
				if f.survey != nil { // half of the cover lies with the tube
					x.far += 1e6 * float64(f.survey.Area) * float64(f.survey.Cover)
				}
			}
		}
		if x.mixed = c.kind() == "mixed"; x.mixed {
			x.exchange *= math.Max(leastOpen, float64(m.streams.states[k].circuits[i].Hot))
		}
		if c.family != "floor" {
			x.exchange *= wholeDrop
		}
		switch {
		case len(c.solve.Loop) == 0 && (c.family == "radiators" || c.family == "towel rail"):
			// Thermostatic valves let through what the room wants, all the time.
			x.share, x.by = 1, 1
			x.takes *= open
			x.exchange *= math.Max(leastOpen, open)
		case c.family == "floor":
			x.calls = slowCalls
		default:
			if c.family == "cast iron" {
				x.calls = heavyCalls
			}
			if r := m.restsAtNight(c, m.outdoor[k]); r > 0 {
				x.by, resting = 0, r
			}
		}
		list = append(list, x)
	}
	if len(list) > mostCallers { // the smallest call with the largest of them
		slices.SortFunc(list, func(a, b caller) int { return int(math.Copysign(1, b.takes-a.takes)) })
		last := &list[mostCallers-1]
		for _, x := range list[mostCallers:] {
			last.near, last.far, last.exchange, last.takes = last.near+x.near, last.far+x.far, last.exchange+x.exchange, last.takes+x.takes
		}
		list = list[:mostCallers]
	}
	return list, resting
}

// livedIn is what a circuit's rooms need with the gains of a lived-in day, W.
func (m *model) livedIn(c *circuit, outdoor units.Temperature) float64 {
	need := 0.0
	for n, r := range c.solve.Rooms {
		whole := &m.rooms[c.rooms[n]]
		share := 1.0
		if h := whole.loss.Coefficient(); h > 0 {
			share = float64(r.Loss.Coefficient() / h)
		}
		more := math.Max(0, float64(building.AverageGains+building.SeasonSun)*float64(whole.area)-float64(whole.gains))
		need += math.Max(0, float64(r.Load(outdoor, r.Setpoint))-share*more)
	}
	return need
}

// restsAtNight is the share of the day in which a lowered circuit waits for its rooms to
// cool.
func (m *model) restsAtNight(c *circuit, outdoor units.Temperature) float64 {
	p, _ := m.sheetProgram(m.commonRoom())
	if len(p.Warm) == 0 || p.Lower <= 0 || outdoor < m.design.Add(holdAbove) {
		return 0
	}
	lowered := 86400.0
	for _, w := range p.Warm {
		lowered -= math.Mod(float64(w.To-w.From)+86400, 86400)
	}
	stores, loses := 0.0, 0.0
	for n, r := range c.solve.Rooms {
		stores += houseStores * float64(m.rooms[c.rooms[n]].area)
		loses += float64(r.Loss.Coefficient())
	}
	if warm := float64(c.setpoint - outdoor); stores > 0 && loses > 0 && warm > float64(p.Lower) {
		lowered = math.Min(lowered, stores/loses*math.Log(warm/(warm-float64(p.Lower))))
	}
	return math.Max(0, lowered) / 86400
}

// starting is the burner at one outdoor temperature: starts and burning in a second, each
// as a mean over who calls.
type starting struct{ starts, burning float64 }

func (m *model) startsWith(list []caller, night bool, buffer float64, b *burner) (starting, error) {
	var sum starting
	nobody, calls := 1.0, 0.0
	for _, x := range list {
		share := x.share
		if night {
			share = x.by
		}
		nobody *= 1 - share
		calls = max(calls, x.calls)
	}
	for calling := 1; calling < 1<<len(list); calling++ {
		p, near, far, exchange, load := 1.0, float64(m.boilerStores()), 0.0, 0.0, 0.0
		for i, x := range list {
			share := x.share
			if night {
				share = x.by
			}
			if calling>>i&1 == 0 {
				p *= 1 - share
				if !x.stirred {
					continue
				}
			} else {
				p *= share
			}
			near, far, exchange, load = near+x.near, far+x.far, exchange+x.exchange, load+x.takes
		}
		if p < rareTogether {
			continue
		}
		if m.streams.separated && m.streams.boiler.Value > 0 {
			exchange = math.Min(exchange, float64(m.streams.boiler.Value))
		}
		near += buffer
		factor, err := b.cycling.Fluid.HeatFactor(b.cycling.At)
		if err != nil {
			return sum, err
		}
		c := b.cycling
		c.Water = units.Volume((near + far) / float64(factor))
		cycle, err := c.Apart(units.Volume(near/float64(factor)), units.LossCoefficient(math.Max(1, exchange)), units.Power(load))
		if err != nil {
			return sum, err
		}
		sum.starts += p * float64(cycle.Starts)
		sum.burning += p * float64(cycle.Share)
	}
	if nobody > idle && nobody < 1-idle { // each call begins with a start
		sum.starts = max(sum.starts, calls)
	}
	return sum, nil
}

// yearStarts adds up the starts for heating over the year's weather, and those for hot
// water.
func (m *model) yearStarts(s *BoilerSeason, b *burner, solved []solvedCircuit) error {
	buffer := 0.0
	if v := m.job.Separator.Volume; v.Set {
		buffer = float64(v.Value) * float64(m.streams.carries)
	}
	water := math.Max(0, float64(m.content().Value-m.job.System.BoilerWater.Value)*float64(m.streams.carries)-buffer)
	burning, guard := 0.0, m.pumpsBelow()
	for k, p := range s.Points {
		b.cycling.At = (p.Supply + p.Return) / 2
		list, resting := m.callers(k, solved, water)
		for i := range list {
			list[i].stirred = m.outdoor[k] < guard && !list[i].mixed
		}
		day, err := m.startsWith(list, false, buffer, b)
		if err != nil {
			return fmt.Errorf("boiler: %w", err)
		}
		mean := day
		if resting > 0 {
			night, err := m.startsWith(list, true, buffer, b)
			if err != nil {
				return fmt.Errorf("boiler: %w", err)
			}
			mean = starting{(1-resting)*day.starts + resting*night.starts, (1-resting)*day.burning + resting*night.burning}
		}
		s.Starts += units.Number(mean.starts * float64(m.hours[k]))
		burning += mean.burning * float64(m.hours[k])
		if hour := units.Number(3600 * mean.starts); hour > s.Worst {
			s.Worst, s.WorstAt, s.WorstRun = hour, p.Outdoor, units.Time(mean.burning/mean.starts)
		}
	}
	s.WaterStarts = m.waterStarts(burning / (365 * 86400))
	return m.aloneBuffer(s, b, solved, water, buffer)
}

// aloneBuffer finds the water that is missing for the run wanted while one circuit calls
// without the others, in the mildest weather in which it does.
func (m *model) aloneBuffer(s *BoilerSeason, b *burner, solved []solvedCircuit, water, buffer float64) error {
	if len(m.circuits) < 2 {
		return nil
	}
	factor, err := b.cycling.Fluid.HeatFactor(b.cycling.At)
	if err != nil {
		return err
	}
	seen := map[string]bool{}
	for k := len(s.Points) - 1; k >= 0; k-- { // from mild to cold
		list, _ := m.callers(k, solved, water)
		for _, x := range list {
			if seen[x.name] || units.Power(x.takes) >= b.cycling.Least {
				continue
			}
			seen[x.name] = true
			near := (float64(m.boilerStores()) + buffer + x.near) / float64(factor)
			missing, err := m.missing(b, units.Volume(near), units.Volume(x.far/float64(factor)), x)
			if err != nil {
				return fmt.Errorf("boiler: %w", err)
			}
			if missing > s.AloneBuffer {
				s.Alone, s.AloneBuffer = x.name, missing
			}
		}
	}
	return nil
}

// missing is the water that a caller's runs lack at the boiler, to half a litre: between
// none and what would do if its emitters held none.
func (m *model) missing(b *burner, near, far units.Volume, x caller) (units.Volume, error) {
	load, exchange := units.Power(math.Max(1, x.takes)), units.LossCoefficient(math.Max(1, x.exchange))
	if m.streams.separated && m.streams.boiler.Value > 0 {
		exchange = min(exchange, m.streams.boiler.Value)
	}
	total, err := boiler.Buffer(b.run.Value, b.cycling.Least, load, b.swing.Value, m.fluid(), b.cycling.At)
	if err != nil {
		return 0, err
	}
	const litres = units.Volume(0.0005)
	low, high := units.Volume(0), max(0, total-near)
	for added := low; high-low > litres; added = (low + high) / 2 {
		c := b.cycling
		c.Water = near + added + far
		cycle, err := c.Apart(near+added, exchange, load)
		switch {
		case err != nil:
			return 0, err
		case cycle.On >= b.run.Value:
			high = added
		default:
			low = added
		}
	}
	return high, nil
}

// pumpsBelow is the outdoor temperature below which the sheet's frost guard runs every
// pump; 0 without such a guard.
func (m *model) pumpsBelow() units.Temperature {
	kept := slices.Clone(m.findings) // they are reported where frost is
	defer func() { m.findings = kept }()
	if f := m.readFrost(); f.choose(m.design).outdoor {
		return m.control.step.Up(frostOutdoor)
	}
	return 0
}

// waterStarts are those of a year's hot water: charges of the tank, or draws from a combi,
// each of which also interrupts a burner that is heating.
func (m *model) waterStarts(heating float64) units.Number {
	by := hotwater.Arrangement(m.job.HotWater.By)
	if by != hotwater.OwnPump && by != hotwater.ThreeWay && by != hotwater.Combi {
		return 0
	}
	kept := slices.Clone(m.findings) // they are reported where hot water is
	defer func() { m.findings = kept }()
	h, _, err := m.readHotWater()
	if err != nil || !m.job.Boiler.Output.Set || m.readPattern(&h) != nil {
		return 0
	}
	if by == hotwater.Combi {
		return units.Number(365 * float64(len(h.pattern.Draws)) * (1 + heating))
	}
	timeline, err := h.pattern.Timeline()
	if err != nil {
		return 0
	}
	day, err := hotwater.TankDay(timeline, h.setup())
	if err != nil {
		return 0
	}
	return units.Number(365 * len(day.Charges))
}

// waterWords tell the starts for hot water.
func (m *model) waterWords(s *BoilerSeason) string {
	if !(s.WaterStarts > 0) {
		return ""
	}
	return fmt.Sprintf(" Hot water takes about %s more a year.", s.WaterStartsText(m.sys))
}

func (m *model) startsWorking(s *BoilerSeason, b burner) working.Step {
	return working.Step{Name: "Starts of a year", Formula: "Σ N(who calls, load) · share of the time · hours; C1·dT1/dt = Q − G·(T1 − T2), C2·dT2/dt = G·(T1 − T2) − Q_load",
		Inputs: []working.Input{
			{Symbol: "C1", Meaning: "boiler, without the pipes of its circuits", Value: m.boilerStores()},
			{Symbol: "Q", Meaning: "least output", Value: b.cycling.Least, Known: string(b.least.How())},
			{Symbol: "ΔT", Meaning: "differential", Value: b.swing.Value, Known: string(b.swing.How())},
			{Symbol: "To", Meaning: "weather with the most starts", Value: s.WorstAt},
			{Symbol: "N", Meaning: "starts an hour there", Value: s.Worst},
			{Symbol: "hot water", Meaning: "starts for it in a year", Value: s.WaterStarts},
		},
		Result: working.Input{Symbol: "starts", Meaning: "for heating in a year", Value: s.Starts},
		Range:  "valves and thermostats let through what the rooms need, people and sun counted, lowered as on this sheet; mostly within a factor of two of the year played minute by minute",
		Source: "heat balance of boiler and emitters; shares and calls common practice"}
}
