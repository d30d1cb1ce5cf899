package visit

import (
	"math"

	"curvewright/pipework"
	"curvewright/units"
)

// Where do water and rooms settle? The unknown is the supply behind the boiler's
// coupling: every stream follows from it. It is raised until the control's sensor sees
// what it wants, or the boiler can give no more.

// at is the plant in one steady state.
type at struct {
	boiler, back         float64 // supply and return of the boiler
	supply, systemReturn float64 // behind the coupling
	pumped, drawn        float64 // heat capacity flows on both sides
	heat                 float64 // into the boiler's water
	limited              bool    // by the output
	cycles               bool    // the burner starts and stops
	run, rest            float64 // s, if it does
	heating              bool    // whether anything draws heat
	target               float64 // that the control holds
	circuits             []circuitAt
	rooms                []roomAt
}

type circuitAt struct {
	on           bool
	wanted       float64 // by the control; 0 if it wants none
	supply, back float64
	flow         float64
	hot          float64 // share of hot water
	heat         float64
	branches     []float64 // return of each emitter
}

type roomAt struct{ air float64 }

const (
	// ambient is the air around pipes and boiler (common practice).
	ambient = 273.15 + 19
	// tamedBand is the band of a thermostatic valve, K (common practice).
	tamedBand = 1.0
	// idle keeps a branch without flow above nothing at all, W/K.
	idle = 0.01
	// mostRounds is how often rooms and water are worked out in turn; a few do it.
	mostRounds = 60
	settledTo  = 2e-3 // K
)

// run settles the plant.
func (p *plant) run(s *state, d *change) at {
	out := at{circuits: make([]circuitAt, len(p.circuits)), rooms: make([]roomAt, len(p.rooms))}
	for i := range p.rooms {
		out.rooms[i].air = p.rooms[i].set
		if s.air[i] != 0 && s.State != Settled && s.State != Held {
			out.rooms[i].air = s.air[i]
		}
	}
	for i := range p.circuits {
		out.circuits[i].branches = make([]float64, len(p.circuits[i].emitters))
	}
	p.control(s, d, &out)
	if s.State == Fresh {
		p.warmRooms(s, d, &out)
	}
	if s.State != Settled && s.State != Held {
		p.water(s, d, &out)
		return out
	}
	for range mostRounds {
		p.water(s, d, &out)
		if p.settleRooms(s, d, &out) < settledTo {
			break
		}
	}
	p.water(s, d, &out)
	return out
}

// control is what the control wants.
func (p *plant) control(s *state, d *change, out *at) {
	sensed := units.Temperature(s.outdoor + d.outdoor)
	waits := d.priority || s.Tank && p.tank != nil && p.tank.Priority
	target := p.minSupply
	for i := range p.circuits {
		c, n := &out.circuits[i], &p.circuits[i]
		set := n.curve
		if d.curves != nil {
			set = p.circuits[d.curves[i]].curve
			set.Limit = n.curve.Limit
		}
		lower := units.Difference(d.setback)
		wanted := float64(set.At(sensed.Add(lower)).Add(-lower)) + d.circuits[i].curve
		if d.setback > 0 {
			wanted = math.Max(wanted, float64(set.Limit.From))
		}
		if l := d.circuits[i].limit; l > 0 {
			wanted = math.Min(wanted, l)
		}
		if d.summer {
			continue
		}
		c.wanted = wanted
		c.on = s.calls[i] && !waits
		if !c.on {
			continue
		}
		out.heating = true
		above := wanted
		if n.mixed {
			above += p.above
		}
		target = math.Max(target, above)
	}
	if p.charging(s, d) {
		out.heating = true
		target = math.Max(target, float64(p.tank.Charge.Supply))
	}
	if !p.beyond && p.boilerFlow > 0 || d.ignored {
		target += p.offset
	}
	out.target = math.Min(target, p.maxSupply)
}

// charging tells whether the tank's pump runs.
func (p *plant) charging(s *state, d *change) bool {
	return p.tank != nil && p.tank.Charge.Coil.Known() && (s.Tank || d.priority)
}

// water finds the streams with the rooms as warm as they are.
func (p *plant) water(s *state, d *change, out *at) {
	if !out.heating {
		p.atRest(s, d, out)
		return
	}
	most := p.most * d.output
	if d.output == 1 {
		most = p.most
	}
	most = math.Min(most, p.rated) * d.gas
	over := func(common float64) float64 {
		p.streams(common, s, d, out)
		held := out.boiler - out.target
		switch {
		case d.turned:
			held = out.back - out.target
		case p.beyond && !d.ignored:
			held = math.Max(common-out.target, out.boiler-p.maxSupply)
		}
		if d.turned {
			held = math.Max(held, out.boiler-p.maxSupply)
		}
		out.limited = (out.heat-most)/math.Max(out.drawn, 1) > held
		return math.Max(held, (out.heat-most)/math.Max(out.drawn, 1))
	}
	// Mostly the circuits get what the control wants.
	high := out.target
	if d.turned {
		high = p.maxSupply
	}
	if over(high) <= 1e-6 {
		return
	}
	p.root(math.Min(ambient-10, high-5), high, over)
}

// root leaves the plant where a rising function of the common supply is zero.
func (p *plant) root(low, high float64, f func(float64) float64) float64 {
	return bracket(low, f(low), high, f(high), f)
}

// bracket finds the zero of a rising function by the secant rule kept inside the bracket.
func bracket(a, fa, b, fb float64, f func(float64) float64) float64 {
	if fa >= 0 {
		f(a)
		return a
	}
	if fb <= 0 {
		f(b)
		return b
	}
	x := b
	for n := range 60 {
		x = b - fb*(b-a)/(fb-fa)
		if !(x > math.Min(a, b) && x < math.Max(a, b)) || n%6 == 5 {
			x = (a + b) / 2
		}
		fx := f(x)
		if math.Abs(fx) < 1e-5 || math.Abs(b-a) < 1e-7 {
			return x
		}
		if (fx > 0) != (fb > 0) {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = x, fx
	}
	return x
}

// streams follows the water from the supply behind the coupling.
func (p *plant) streams(common float64, s *state, d *change, out *at) {
	drawn, carried := 0.0, 0.0
	for i := range p.circuits {
		p.circuit(i, common, s, d, out)
		c := &out.circuits[i]
		w := c.flow * c.hot
		drawn += w
		carried += w * (c.back - common)
	}
	if p.charging(s, d) {
		w := p.tankFlow
		back := coilReturn(p.tank, common, w*d.coil, p.tankMean())
		drawn += w
		carried += w * d.coil * (back - common)
	}
	drawn = math.Max(drawn, idle)
	back := common + carried/drawn
	pumped := drawn
	if p.coupling != pipework.Direct {
		pumped = math.Max(p.boilerFlow*d.boilerFlow, idle)
	}
	out.supply, out.systemReturn, out.drawn, out.pumped = common, back, drawn, pumped
	out.heat = drawn * (common - back)
	if drawn > pumped {
		out.boiler = back + (common-back)*drawn/pumped
		out.back = back
		return
	}
	out.boiler = common
	out.back = (drawn*back + (pumped-drawn)*common) / pumped
}

// circuit follows one circuit from the common supply.
func (p *plant) circuit(i int, common float64, s *state, d *change, out *at) {
	n, c, dc := &p.circuits[i], &out.circuits[i], &d.circuits[i]
	factor := dc.flow * d.filter
	if !c.on {
		c.supply, c.back, c.flow, c.hot, c.heat = ambient, ambient, 0, 0, 0
		for k := range c.branches {
			c.branches[k] = ambient
		}
		if dc.ghost == 0 || n.mixed {
			return
		}
		factor = dc.ghost
	}
	c.hot = 1
	inlet := common
	switch {
	case !n.mixed:
	case dc.stuck >= 0:
		low := p.coolest(n, out)
		f := func(x float64) float64 { p.emit(i, x, factor, s, d, out); return x - c.back - dc.stuck*(common-c.back) }
		inlet = bracket(low, f(low), math.Max(common, low+0.01), f(math.Max(common, low+0.01)), f)
		c.hot = dc.stuck
	case dc.swap: // the valve opens until the return is as warm as the supply should be
		f := func(x float64) float64 { p.emit(i, x, factor, s, d, out); return c.back - c.wanted }
		if f(common) > 0 {
			low := math.Min(c.wanted, common)
			inlet = bracket(low, f(low), common, f(common), f)
		}
	default:
		inlet = math.Min(common, c.wanted)
	}
	p.emit(i, inlet, factor, s, d, out)
	c.supply = inlet
	if n.mixed && dc.stuck < 0 {
		c.hot = 1
		if span := common - c.back; span > 0.01 {
			c.hot = math.Min(1, math.Max(0, (inlet-c.back)/span))
		}
	}
}

// coolest is the coolest room of a circuit.
func (p *plant) coolest(n *circuitNode, out *at) float64 {
	low := math.Inf(1)
	for _, e := range n.emitters {
		low = math.Min(low, out.rooms[e.room].air)
	}
	return low
}

// emit lets a circuit's emitters take their heat from an inlet.
func (p *plant) emit(i int, inlet, factor float64, s *state, d *change, out *at) {
	n, c := &p.circuits[i], &out.circuits[i]
	c.flow, c.heat = 0, 0
	carried := 0.0
	water := inlet
	for k := range n.emitters {
		e := &n.emitters[k]
		r := &d.rooms[e.room]
		w := e.flow * factor
		if !n.series {
			w *= r.flow * p.opens(e, s, out)
		}
		w = math.Max(w, idle)
		from := inlet
		if n.series {
			from = water
		}
		back, _ := p.give(i, e, from, w, s, d, out)
		c.branches[k] = back
		water = back
		c.heat += w * (from - back)
		if n.series {
			c.flow, carried = w, w*back
			continue
		}
		c.flow += w
		carried += w * back
	}
	c.back = carried / c.flow
}

// opens is how far a thermostatic valve stands open.
func (p *plant) opens(e *emitterNode, s *state, out *at) float64 {
	if s.State != Held || !e.tamed {
		return 1
	}
	return opening(p.rooms[e.room].set, out.rooms[e.room].air)
}

func opening(set, air float64) float64 {
	return math.Max(0, math.Min(1, (set+tamedBand-air)/tamedBand))
}

// give is what one emitter does to its water: the return, and the heat to the room.
func (p *plant) give(i int, e *emitterNode, from, w float64, s *state, d *change, out *at) (back, heat float64) {
	air := out.rooms[e.room].air
	f := d.circuits[i].gives * d.rooms[e.room].gives
	if s.State == Fresh && e.slab != nil {
		return p.charge(e, from, w, s, air), 0
	}
	// More emitter on the same water is the same emitter on less of it.
	q := e.law.Output(units.Temperature(from), units.LossCoefficient(w/f), units.Temperature(air))
	return float64(q.Return), f * float64(q.Room)
}

// settleRooms moves every room to where its heat and its loss meet, and tells how far the
// one that moved most went.
func (p *plant) settleRooms(s *state, d *change, out *at) float64 {
	moved := 0.0
	for r := range p.rooms {
		n := &p.rooms[r]
		loss := n.loss.Scale(units.Fraction(d.rooms[r].loss))
		short := func(x float64) float64 {
			out.rooms[r].air = x
			return float64(loss.At(units.Temperature(x), units.Temperature(s.outdoor))) - n.gains - p.given(r, s, d, out)
		}
		before := out.rooms[r].air
		low, high := before-0.5, before+0.5
		fl, fh := short(low), short(high)
		for range 12 {
			if fl <= 0 && fh >= 0 {
				break
			}
			if span := high - low; fl > 0 {
				low, high, fh = low-2*span, low, fl
				fl = short(low)
			} else {
				low, high, fl = high, high+2*span, fh
				fh = short(high)
			}
		}
		scale := math.Max(1, float64(loss.Coefficient()))
		x := bracket(low, fl/scale, high, fh/scale, func(x float64) float64 { return short(x) / scale })
		if s.State == Held && p.zoned(r, out) {
			x = math.Min(x, n.set)
		}
		out.rooms[r].air = x
		moved = math.Max(moved, math.Abs(x-before))
	}
	return moved
}

// zoned tells whether a thermostat keeps a room from being warmed beyond its set-point.
func (p *plant) zoned(room int, out *at) bool {
	for i := range p.circuits {
		for _, e := range p.circuits[i].emitters {
			if e.room == room && e.zoned && out.circuits[i].on {
				return true
			}
		}
	}
	return false
}

// given is the heat that a room gets from all circuits at its present temperature, with
// the water entering as it was last found.
func (p *plant) given(room int, s *state, d *change, out *at) float64 {
	sum := 0.0
	for i := range p.circuits {
		n, c := &p.circuits[i], &out.circuits[i]
		if c.flow == 0 {
			continue
		}
		factor := d.circuits[i].flow * d.filter
		if !c.on {
			factor = d.circuits[i].ghost
		}
		water := c.supply
		for k := range n.emitters {
			e := &n.emitters[k]
			w := e.flow * factor
			if !n.series {
				w *= d.rooms[e.room].flow * p.opens(e, s, out)
			}
			w = math.Max(w, idle)
			if e.room == room {
				back, q := p.give(i, e, water, w, s, d, out)
				sum += q
				if n.series {
					water = back
				}
				continue
			}
			if n.series {
				water = c.branches[k]
			}
		}
	}
	return sum
}

// atRest is the plant with nothing called for: every pipe goes towards the air about it.
func (p *plant) atRest(s *state, d *change, out *at) {
	out.boiler, out.back, out.supply, out.systemReturn = ambient, ambient, ambient, ambient
	out.pumped, out.drawn, out.heat = 0, 0, 0
	for i := range out.circuits {
		c := &out.circuits[i]
		c.supply, c.back, c.flow, c.hot, c.heat = ambient, ambient, 0, 0, 0
		for k := range c.branches {
			c.branches[k] = ambient
		}
	}
}
