package visit

import (
	"math"

	"curvewright/pipework"
)

// How does a burner run and rest that gives more at its least than the house takes? What
// swings with it is the boiler and what hangs on it without a valve: a mixing valve that
// holds its supply keeps emitters and slab out of it.

const (
	burnerAnswer = 90.0  // s in which its control takes out a deviation (common practice)
	travel       = 120.0 // s of a mixing valve from end to end (common practice)
	pipesShare   = 0.2   // of a circuit's water, in pipes near the boiler (common practice)
	leastPipes   = 20e3  // J/K
	leastStored  = 5e3   // J/K, of emitters
	emitterMetal = 1.2   // times the emitters' water (common practice)
	wholeDrop    = 1.8   // water leaves an emitter about as far below its mean as it came in above
	loopDrop     = 1.4   // along a loop water is changed for new before its end warms
	rising       = 1.3   // beside that in proportion: the power law of an emitter
	cycleStep    = 20.0  // s, at most
	cycleSteps   = 8.0   // in the quickest body's time constant
	cyclesToSee  = 3     // after the first, until they repeat
	longestLook  = 21600 // s
	settledAfter = 14400 // s, until emitters swing about the same mean
	// longestRun is the longest that is told apart from running through.
	longestRun = 7200.0
)

// body is a circuit, or the tank's coil, as the boiler feels it.
type body struct {
	flow        float64 // W/K
	mixed       bool    // and lets no more pass than
	top         float64 // K
	pipes       float64 // J/K
	exchange    float64 // W/K, water to emitters
	stores      float64 // J/K, of the emitters
	heat, rises float64 // W in steady flow at a mean of
	about       float64 // K; and W/K away from it
	back, mean  float64 // K, of pipes and emitters
	share       float64 // of hot water
}

// bodies are all that draw from the boiler.
func (p *plant) bodies(s *state, d *change, out *at) []body {
	var list []body
	rest := out.heat
	for i := range p.circuits {
		n, c := &p.circuits[i], &out.circuits[i]
		if c.flow <= 2*idle || c.heat <= 0 {
			continue
		}
		b := body{flow: c.flow, top: c.supply, mixed: n.mixed && d.circuits[i].stuck < 0, pipes: math.Max(leastPipes, pipesShare*n.water), heat: c.heat, back: c.back}
		slabs, exchange, drop := 0.0, 0.0, wholeDrop
		if n.series {
			drop = loopDrop
		}
		for _, e := range n.emitters {
			if e.slab != nil {
				slabs += float64(e.slab.Layers[e.slab.Tube].Capacity)
				exchange += e.flow / n.flow * math.Min(1, float64(e.slab.Exchange))
			}
		}
		if slabs > 0 {
			b.exchange, b.stores = c.flow*exchange, slabs
		} else {
			b.exchange, b.stores = c.flow*drop, math.Max(leastStored, emitterMetal*(1-pipesShare)*n.water)
		}
		b.about = c.supply - c.heat/b.exchange
		if slabs == 0 {
			b.rises = p.rises(n, c, (c.supply+c.back)/2, s, out)
		}
		b.mean, b.share = b.about, b.wants(out.supply)
		list, rest = append(list, b), rest-c.heat
	}
	if tank := p.tankMean(); p.charging(s, d) && rest > 0 && out.supply > tank+1 {
		list = append(list, body{flow: p.tankFlow, top: out.supply, pipes: leastPipes, exchange: rest / (out.supply - tank), stores: math.Inf(1), heat: rest,
			about: tank, mean: tank, share: 1, back: out.supply - rest/p.tankFlow})
	}
	return list
}

// rises is by how much a circuit takes more for each kelvin of its emitters' mean. In a house left to
// itself for days the rooms follow.
func (p *plant) rises(n *circuitNode, c *circuitAt, mean float64, s *state, out *at) float64 {
	loses, air := 0.0, 0.0
	for _, e := range n.emitters {
		loses += float64(p.rooms[e.room].loss.Coefficient())
		air += out.rooms[e.room].air / float64(len(n.emitters))
	}
	given := rising * c.heat / math.Max(2, mean-air)
	if s.State == Settled || s.State == Held {
		return given * loses / (given + loses)
	}
	return given
}

// cycle follows the burner until its runs and rests repeat. It fails where the burner runs
// through, or for so long that nobody waits for its end.
//
//	C·dT/dt = Q_burner − Σ W·(T − T_back); each circuit's water and emitters likewise
//	Q_burner = Q_least, more by C/90 s for each kelvin below the set-point
//	on half the differential below the set-point after the shortest pause, off half above
func (p *plant) cycle(s *state, d *change, out *at) (run, rest float64, ok bool) {
	least := p.least * d.gas
	if !out.heating || out.heat <= 1 || out.heat >= least {
		return 0, 0, false
	}
	most := math.Max(least, math.Min(p.most*d.output, p.rated)*d.gas)
	list := p.bodies(s, d, out)
	dt, all := cycleStep, 0.0
	for i := range list {
		b := &list[i]
		dt = min(dt, b.pipes/b.flow/cycleSteps, b.stores/b.exchange/cycleSteps)
		all += b.flow
	}
	dt = min(dt, p.stores/math.Max(1, all)/cycleSteps)
	half, gain := p.differential/2, p.stores/burnerAnswer
	boiler, burning, since, base := out.boiler, true, 0.0, least
	runs, rests := -1, 0
	settled := float64(steadyAfter)
	if s.State == Settled || s.State == Held {
		settled = settledAfter
	}
	for t := 0.0; t < settled+longestLook && rests < cyclesToSee; t += dt {
		stream, common, back := p.mixes(list, boiler, d)
		for i := range list {
			list[i].step(common, dt)
		}
		sensed := boiler
		switch {
		case d.turned:
			sensed = back
		case p.beyond && !d.ignored:
			sensed = common
		}
		over, fire := sensed-out.target, 0.0
		if burning {
			base = math.Max(least, math.Min(most, base-gain/(2*burnerAnswer)*over*dt))
			fire = math.Max(least, math.Min(most, base-gain*over))
		}
		boiler += dt / p.stores * (fire - stream)
		since += dt
		switch {
		case burning && over > half:
			if t > settled {
				if runs++; runs > 0 { // the one under way was not seen whole
					run += since
				}
			}
			burning, since = false, 0
		case !burning && over <= -half && since >= p.pause:
			if runs > 0 {
				rest, rests = rest+since, rests+1
			}
			burning, since, base = true, 0, least
		}
	}
	if rests == 0 {
		return 0, 0, false
	}
	run, rest = run/float64(runs), rest/float64(rests)
	return run, rest, run < longestRun
}

// mixes gives the heat that leaves the boiler, the supply of the circuits, and the boiler's return.
func (p *plant) mixes(list []body, boiler float64, d *change) (stream, common, back float64) {
	drawn, carried := 0.0, 0.0
	for i := range list {
		w := list[i].flow * list[i].share
		drawn, carried = drawn+w, carried+w*list[i].back
	}
	if drawn <= 0 {
		return 0, boiler, boiler
	}
	back = carried / drawn
	pumped := drawn
	if p.coupling != pipework.Direct {
		pumped = math.Max(p.boilerFlow*d.boilerFlow, idle)
	}
	passes := math.Min(drawn, pumped)
	stream = passes * (boiler - back)
	return stream, back + stream/drawn, boiler - stream/pumped
}

// wants is the share of hot water that makes a circuit's supply.
func (b *body) wants(supply float64) float64 {
	if !b.mixed || supply-b.back < 0.1 {
		return 1
	}
	return math.Max(0, math.Min(1, (b.top-b.back)/(supply-b.back)))
}

// step lets a circuit take its heat from a supply.
func (b *body) step(supply, dt float64) {
	inlet := b.back + b.share*(supply-b.back)
	if b.mixed {
		most := dt / travel
		b.share = math.Max(b.share-most, math.Min(b.share+most, b.wants(supply)))
	}
	taken := b.exchange * (inlet - b.mean)
	b.back += dt * b.flow / b.pipes * (inlet - taken/b.flow - b.back)
	b.mean += dt / b.stores * (taken - b.heat - b.rises*(b.mean-b.about))
}
