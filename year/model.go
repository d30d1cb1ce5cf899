package year

// From the description to the nodes: what is walked through in every step is laid out
// once, and the steps are made so short that no node can overshoot.

import (
	"fmt"
	"math"

	"curvewright/boiler"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/fluid"
	"curvewright/pipework"
	"curvewright/refuse"
	"curvewright/units"
)

// The curve is tabulated once over these outdoor temperatures.
const (
	curveFrom = coldest
	curveTo   = warmest
	curveSpan = 130 // K
)

// model is a house with its plant and control in the middle of a run.
type model struct {
	rooms    []roomNode
	doors    []doorNode
	open     float64 // of all rooms to their common mean, W/K
	circuits []circuitNode
	boiler   boilerNode
	tank     tankNode
	buffer   bufferNode
	combi    combiNode
	burner   *burnerTable

	dt, emitterDt, plantDt   float64
	massDt                   float64
	coolDt                   float64 // of radiators at rest
	massEvery, sinceMass     int     // steps
	emitterSteps, plantSteps int
	active                   []*circuitNode // those whose pump runs
	ranFor                   float64        // s, since it was booked
	minute                   int            // of the day
	minuteBegins             bool           // with this step
	slow                     bool           // the control looks in this step

	sensorPart, sensorOffset float64
	dampPart                 float64
	sensed, damped           float64
	cutOff, cutOffWidth      float64
	season                   bool
	frost                    float64
	frostOutdoor             float64
	frostSupply              float64
	freezing                 bool // outdoors, by the frost guard
	unpowered                bool // nothing moves

	boilerPump, fan, always float64
	suns                    [][]sunlit // by room: what falls in by each façade
	gains                   [][24]float64
	gainsRadiant            []float64
	sunRadiant              []float64

	sums sums
}

// sunlit is a room's window towards a façade.
type sunlit struct {
	facade   int
	aperture float64
}

// stepShare is the most of its distance to its surroundings that a node may go in a step.
const stepShare = 0.5

// burnerAnswer is the time in which the burner's control takes out a deviation, s.
const burnerAnswer = 90.0

// mostDivisions is into how many parts a step is divided at most; below it lies a node
// that stores next to nothing.
const mostDivisions = 240

func newModel(h House, p Plant, s Settings, step float64) (*model, error) {
	m := &model{
		sensorOffset: float64(p.Sensor.Offset),
		cutOff:       float64(s.CutOff.Above), cutOffWidth: float64(s.CutOff.Width), season: true, frost: float64(s.Frost),
		frostOutdoor: float64(s.FrostOutdoor), frostSupply: float64(s.FrostSupply),
		boilerPump: float64(p.Boiler.Pump), fan: float64(p.Boiler.Fan), always: float64(p.Boiler.Always),
	}
	m.addRooms(h)
	if err := m.addPlant(p, s); err != nil {
		return nil, err
	}
	if err := m.divide(step); err != nil {
		return nil, err
	}
	m.sensorPart, m.dampPart = part(lookEvery*minute, float64(p.Sensor.Lag)), part(lookEvery*minute, float64(s.CutOff.Damping))
	return m, nil
}

// part is by how much of its distance a sensor with a lag goes in a step.
func part(dt, lag float64) float64 {
	if lag <= 0 {
		return 1
	}
	return -math.Expm1(-dt / lag)
}

func (m *model) addRooms(h House) {
	m.rooms = make([]roomNode, len(h.Rooms))
	m.suns, m.gains = make([][]sunlit, len(h.Rooms)), make([][24]float64, len(h.Rooms))
	m.gainsRadiant, m.sunRadiant = make([]float64, len(h.Rooms)), make([]float64, len(h.Rooms))
	for i, r := range h.Rooms {
		n := &m.rooms[i]
		*n = roomNode{
			set: float64(r.Set), airInv: 1 / float64(r.Air),
			airOut: float64(r.Loss.Outdoor), airFix: float64(r.Loss.Fixed), airHeld: float64(r.Loss.Fixed) * float64(r.Loss.FixedAt),
			nearFar: float64(r.Between), open: float64(r.Open), airingAbove: math.Inf(1), shadeAbove: math.Inf(1), idealHeat: math.Inf(-1), idealCool: math.Inf(1),
		}
		n.ideal = r.Ideal != (Ideal{})
		if r.Shade.Above != 0 {
			n.shadeAbove, n.shadeLeaves = float64(r.Shade.Above), float64(r.Shade.Leaves)
		}
		if r.Ideal.Heat != 0 {
			n.idealHeat = float64(r.Ideal.Heat)
		}
		if r.Ideal.Cool != 0 {
			n.idealCool = float64(r.Ideal.Cool)
		}
		if r.Airing.airingSet() {
			n.airingAbove, n.airingMost = float64(r.Airing.Above), float64(r.Airing.Most)
		}
		n.airBoth = n.airOut + n.airFix
		part := r.radiant()
		n.airPart, n.nearPart, n.farPart = part[0], part[1], part[2]
		if len(r.Fabric) > 0 {
			f := r.Fabric[0]
			n.nearInv, n.airNear = 1/float64(f.Capacity), float64(f.ToAir)
			n.nearOut, n.nearFix, n.nearHeld = float64(f.Loss.Outdoor), float64(f.Loss.Fixed), float64(f.Loss.Fixed)*float64(f.Loss.FixedAt)
		}
		if len(r.Fabric) > 1 {
			f := r.Fabric[1]
			n.farInv, n.airFar = 1/float64(f.Capacity), float64(f.ToAir)
			n.farOut, n.farFix, n.farHeld = float64(f.Loss.Outdoor), float64(f.Loss.Fixed), float64(f.Loss.Fixed)*float64(f.Loss.FixedAt)
		}
		for _, w := range r.Windows {
			m.suns[i] = append(m.suns[i], sunlit{w.Facade, float64(w.Aperture)})
		}
		for k, g := range r.Gains {
			m.gains[i][k] = float64(g)
		}
		m.gainsRadiant[i], m.sunRadiant[i] = float64(r.GainsShare), float64(r.SunRadiant)
	}
	for i := range m.rooms {
		m.open += m.rooms[i].open
	}
	for _, d := range h.Doors {
		m.doors = append(m.doors, doorNode{&m.rooms[d.A], &m.rooms[d.B], float64(d.Loss)})
	}
}

func (m *model) addPlant(p Plant, s Settings) error {
	b := p.Boiler
	capacity := float64(b.Capacity)
	gain := capacity / burnerAnswer
	m.boiler = boilerNode{
		inv: 1 / capacity, flow: float64(b.Flow), direct: p.Coupling == pipework.Direct, standby: float64(b.Standby), room: float64(b.Room),
		least: float64(b.Least), most: float64(b.Most), hottest: float64(b.Hottest), differential: float64(s.Differential), rest: float64(s.Rest),
		gain: gain, integral: gain / (2 * burnerAnswer), beyond: s.Beyond, rested: math.Inf(1), heating: float64(b.Most), limit: float64(b.Most),
	}
	if s.HeatingLimit != 0 {
		m.boiler.heating = min(float64(s.HeatingLimit), float64(b.Most))
	}
	if b.Flow > 0 {
		m.boiler.flowInv = 1 / float64(b.Flow)
	}
	if p.Buffer != nil {
		m.buffer = makeBuffer(*p.Buffer, p.Coupling, m.boiler.flow)
		m.buffer.passed = p.Tank != nil && !p.Tank.AtBuffer
	}
	var err error
	if m.burner, err = tabulate(b.Model); err != nil {
		return fmt.Errorf("boiler: %w", err)
	}
	m.sums.startFuel = float64(b.Start)
	for i := range m.rooms {
		m.rooms[i].toMass = m.rooms[i].airNear + m.rooms[i].airFar
	}
	laws := map[units.Number]*powers{}
	for i, c := range p.Circuits {
		m.circuits = append(m.circuits, m.makeCircuit(c, s.Circuits[i], float64(s.AboveMixed), laws))
	}
	m.active = make([]*circuitNode, 0, len(m.circuits)+1)
	if p.Combi != nil {
		if m.combi, err = makeCombi(*p.Combi); err != nil {
			return err
		}
	}
	if p.Tank == nil {
		return nil
	}
	d, err := spread(p.Tank.Draws)
	if err != nil {
		return fmt.Errorf("tank: %w", err)
	}
	perVolume, err := fluid.Water().HeatFactor(p.Tank.Cold + (s.Tank.Set-p.Tank.Cold)/2)
	if err != nil {
		return fmt.Errorf("tank: %w", err)
	}
	m.tank = makeTank(*p.Tank, s.Tank, d, perVolume)
	m.circuits = append(m.circuits, circuitNode{isTank: true, share: 1, flow: float64(p.Tank.Flow), inv: 1 / float64(p.Tank.Water), pump: float64(p.Tank.Pump)})
	return nil
}

func (m *model) makeCircuit(c Circuit, s CircuitSettings, above float64, laws map[units.Number]*powers) circuitNode {
	n := circuitNode{
		series: c.Series, mixed: c.Mixed, share: 1, inv: 1 / float64(c.Water), pump: float64(c.Pump), thermostat: float64(c.Thermostat),
		reference: &m.rooms[s.Reference], influence: float64(s.Influence), limit: float64(s.InfluenceLimit), program: weekly{points: s.Program}, holdBelow: float64(s.HoldBelow),
	}
	if c.Mixed {
		n.share, n.move, n.above = 0, 1/float64(c.Travel), above
	}
	if s.Held != 0 {
		n.held, n.least, n.most = float64(s.Held), 0, float64(s.Held)
	} else {
		n.curve, n.least, n.most = tabulateCurve(s.Curve), float64(s.Curve.Limit.From), float64(s.Curve.Limit.To)
	}
	served := map[int]bool{}
	serve := func(room int) *roomNode {
		r := &m.rooms[room]
		if !served[room] {
			served[room] = true
			n.rooms = append(n.rooms, r)
		}
		return r
	}
	for _, r := range c.Radiators {
		law := laws[r.Law.Exponent]
		if law == nil {
			law = tabulatePowers(float64(r.Law.Exponent))
			laws[r.Law.Exponent] = law
		}
		// What the law gives at 1 K of excess is its factor, its flow effect included.
		factor := float64(r.Law.AtExcess(1, r.Flow))
		n.radiators = append(n.radiators, radiatorNode{
			room: serve(r.Room), inv: 1 / float64(r.Capacity), factor: factor, law: law, offset: float64(r.Law.AirOffset),
			flow: float64(r.Flow), open: 1, halfPer: factor * (1 + float64(r.Law.Down.PerRoom)) / (2 * float64(r.Flow)), airShare: 1 - float64(r.Radiant)*(1-m.rooms[r.Room].airPart), radiant: float64(r.Radiant),
			behind: float64(r.Law.Down.PerRoom), behindG: float64(r.Law.Down.Conductance), behindT: float64(r.Law.Down.Temperature),
			valve: r.Valve.Kind, band: float64(r.Valve.Band), fan: float64(r.Fan),
			leaks: r.Law.Down != (emitter.Behind{}),
		})
		n.moves = n.moves || r.Valve.Kind != Open
		n.fans += float64(r.Fan)
		if !c.Series || n.flow == 0 {
			n.flow += float64(r.Flow)
		}
	}
	for _, s := range c.Slabs {
		node := slabNode{
			room: serve(s.Room), n: len(s.Layers), tube: s.Tube, up: float64(s.Up), flow: float64(s.Flow), open: 1,
			downOut: float64(s.Down.Outdoor), downFix: float64(s.Down.Fixed), downHeld: float64(s.Down.Fixed) * float64(s.Down.FixedAt),
			phi: float64(s.Exchange) - 1, valve: s.Valve.Kind, band: float64(s.Valve.Band),
		}
		for i, l := range s.Layers {
			node.inv[i], node.g[i] = 1/float64(l.Capacity), float64(l.Below)
		}
		n.slabs = append(n.slabs, node)
		node.room.toMass += node.up
		n.moves = n.moves || s.Valve.Kind != Open
		n.flow += float64(s.Flow)
	}
	n.flowInv = 1 / n.flow
	return n
}

func tabulateCurve(s curve.Setting) *supplyCurve {
	c := &supplyCurve{}
	for i := range c {
		c[i] = float64(s.At(curveFrom + units.Temperature(i)/4))
	}
	return c
}

func tabulatePowers(n float64) *powers {
	p := &powers{}
	for i := range p {
		from, to := float64(i)/perKelvin, float64(i+1)/perKelvin
		low, high := math.Pow(from, n-1), math.Pow(to, n-1)
		p[i].slope = (high - low) / (to - from)
		p[i].at0 = low - p[i].slope*from
	}
	return p
}

// mostMassSteps is how many steps fabric and slabs may wait: 5, 4, 3, 2 or 1, all of
// which divide an hour.
const mostMassSteps = 5

// divide finds the steps: the longest in which no node goes more than half its way.
func (m *model) divide(step float64) error {
	r := m.quickest()
	held := 1
	for n := mostMassSteps; n > 1; n-- {
		if float64(n)*step*max(r.mass.rate, r.held.rate) <= stepShare {
			held = n
			break
		}
	}
	outer := quicker(r.air, r.tank)
	if held == 1 {
		outer = quicker(outer, quicker(r.mass, r.held))
	}
	for _, q := range []quick{outer, r.radiators, r.plant} {
		if q.rate*step > stepShare*mostDivisions {
			return fmt.Errorf("steps: %s stores so little heat for what passes through that steps of %.2g s would be needed; accepted: heat capacities that allow %.2g s; enter the real water and metal, or air and furniture",
				q.name, stepShare/q.rate, step/mostDivisions)
		}
	}
	cut := func(dt, rate float64) int { return max(1, int(math.Ceil(dt*rate/stepShare-1e-9))) }
	parts := cut(step, outer.rate)
	m.dt = step / float64(parts)
	m.massEvery = 1
	if held > 1 {
		m.massEvery = held * parts
	}
	m.massDt = float64(m.massEvery) * m.dt
	m.emitterSteps = cut(m.dt, r.radiators.rate)
	m.emitterDt = m.dt / float64(m.emitterSteps)
	m.coolDt = m.emitterDt
	if m.massDt*r.resting.rate <= stepShare {
		m.coolDt = m.massDt
	}
	m.plantSteps = cut(m.emitterDt, r.plant.rate)
	m.plantDt = m.emitterDt / float64(m.plantSteps)
	return nil
}

// quick is the quickest node of a kind: all its conductances over its capacity, 1/s.
type quick struct {
	rate float64
	name string
}

func quicker(a, b quick) quick {
	if b.rate > a.rate {
		return b
	}
	return a
}

// stepRates holds the quickest node for each step length; held is air by what comes from
// other rooms, which is held with the mass; resting is radiators without flow, and air by
// what they give.
type stepRates struct{ air, held, mass, tank, radiators, resting, plant quick }

func (m *model) quickest() stepRates {
	var r stepRates
	note := func(worst *quick, name string, rate float64) { *worst = quicker(*worst, quick{rate, name}) }
	held, quickly := map[*roomNode]float64{}, map[*roomNode]float64{} // what else touches a room's air
	for _, d := range m.doors {
		held[d.a] += d.g
		held[d.b] += d.g
	}
	for i := range m.rooms {
		held[&m.rooms[i]] += m.rooms[i].open
	}
	flow := 0.0
	for _, c := range m.circuits {
		flow += c.flow
		note(&r.plant, "the water in the pipes of a circuit", c.flow*c.inv)
		for _, e := range c.radiators {
			own := e.factor * e.law.at(50) * (1 + e.behind)
			quickly[e.room] += own
			note(&r.radiators, "the water in a radiator", (e.flow+own)*e.inv)
			note(&r.resting, "the water in a radiator", own*e.inv)
		}
		for _, s := range c.slabs {
			for i := range s.n {
				note(&r.mass, "a layer of a slab", s.touches(i)*s.inv[i])
			}
		}
	}
	for i := range m.rooms {
		n := &m.rooms[i]
		note(&r.resting, "the air of a room", n.airInv*quickly[n])
		own := n.airOut + n.airFix + n.airingMost + n.toMass + quickly[n]
		note(&r.air, "the air of a room", n.airInv*(own+held[n]))
		note(&r.held, "the air of a room", n.airInv*held[n])
		note(&r.mass, "the fabric of a room", n.nearInv*(n.nearOut+n.nearFix+n.airNear+n.nearFar))
		note(&r.mass, "the fabric of a room", n.farInv*(n.farOut+n.farFix+n.airFar+n.nearFar))
	}
	if t := &m.tank; t.n > 0 {
		coil := m.circuits[len(m.circuits)-1].flow * (1 + t.phi) / float64(t.coil)
		note(&r.tank, "the water in the tank", t.inv*(t.loss+coil))
	}
	switch b := &m.boiler; {
	case m.buffer.inv > 0:
		note(&r.plant, "the water in the buffer", m.buffer.inv*(flow+b.flow+m.buffer.loss))
		flow = b.flow
		if m.tank.n > 0 {
			flow += m.circuits[len(m.circuits)-1].flow
		}
	case !b.direct:
		flow = min(flow, b.flow)
	}
	note(&r.plant, "the water in the boiler", m.boiler.inv*(flow+m.boiler.gain+m.boiler.standby))
	return r
}

// touches adds up the conductances at a layer.
func (s *slabNode) touches(i int) float64 {
	g := s.up
	if i > 0 {
		g = s.g[i-1]
	}
	if i == s.n-1 {
		g += s.downOut + s.downFix
	} else {
		g += s.g[i]
	}
	if i == s.tube {
		g += s.flow * (1 + s.phi)
	}
	return g
}

// burnerTable is a boiler's efficiency and dew line, by firing rate and return.
type burnerTable struct {
	least float64 // firing rate
	eta   [rates][returns]float64
	dew   [rates]float64 // return below which it condenses, K
}

const (
	rates       = 9
	returns     = 106 // one for each kelvin …
	firstReturn = 278.15
)

// tabulate asks a boiler's model once for every return and some firing rates.
func tabulate(b boiler.Model) (*burnerTable, error) {
	t := &burnerTable{least: float64(b.LeastRate)}
	for i := range rates {
		rate := units.Fraction(t.least + (1-t.least)*float64(i)/(rates-1))
		for k := range returns {
			back := units.Temperature(firstReturn + float64(k))
			eta, err := b.Efficiency(back, min(rate, 1), boiler.Gross)
			if err != nil {
				return nil, err
			}
			if eta < 0.1 {
				return nil, fmt.Errorf("efficiency: %s at a return of %s; accepted: 10 %% or more", refuse.Both(eta), refuse.Both(back))
			}
			t.eta[i][k] = float64(eta)
		}
		exit, err := b.ExitGas(firstReturn, min(rate, 1))
		if err != nil {
			return nil, err
		}
		t.dew[i] = firstReturn + float64(b.FlueGas().DewPoint-exit)
	}
	return t, nil
}

// at gives the efficiency and whether the flue gas condenses. Returns beyond the table
// take its end.
func (t *burnerTable) at(back, rate float64) (eta float64, condenses bool) {
	x := 0.0
	if t.least < 1 {
		x = min(max((rate-t.least)/(1-t.least), 0), 1) * (rates - 1)
	}
	i := min(int(x), rates-2)
	fx := x - float64(i)
	y := min(max(back-firstReturn, 0), returns-1)
	k := min(int(y), returns-2)
	fy := y - float64(k)
	low := t.eta[i][k] + fy*(t.eta[i][k+1]-t.eta[i][k])
	high := t.eta[i+1][k] + fy*(t.eta[i+1][k+1]-t.eta[i+1][k])
	return low + fx*(high-low), back < t.dew[i]+fx*(t.dew[i+1]-t.dew[i])
}

// settleAt puts every node where it would be after long in an outdoor temperature with
// the rooms at their set-points, the water as warm as the rooms.
func (m *model) settleAt(outdoor float64) {
	for i := range m.rooms {
		r := &m.rooms[i]
		r.air = r.set
		r.near, r.far = r.fabricAt(outdoor)
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		c.back = m.rooms[0].air
		if c.isTank {
			c.back = m.tank.coilMean
		}
		for k := range c.radiators {
			c.radiators[k].t = c.radiators[k].room.air
			c.radiators[k].inlet = c.radiators[k].t
		}
		for k := range c.slabs {
			s := &c.slabs[k]
			for l := range s.n {
				s.t[l] = s.room.air
			}
		}
	}
	m.boiler.t = m.rooms[0].air
	m.buffer.top, m.buffer.bottom = m.boiler.t, m.boiler.t
	m.boiler.supply, m.boiler.back = m.boiler.t, m.boiler.t
	m.sensed = outdoor + m.sensorOffset
	m.damped = m.sensed
	m.hold()
}

// fabricAt gives where both fabrics settle while air and outdoors stay:
//
//	(g + across)·T − across·T' = q, for each
func (r *roomNode) fabricAt(outdoor float64) (near, far float64) {
	gNear, gFar := r.airNear+r.nearOut+r.nearFix, r.airFar+r.farOut+r.farFix
	qNear := r.airNear*r.air + r.nearOut*outdoor + r.nearHeld
	qFar := r.airFar*r.air + r.farOut*outdoor + r.farHeld
	a, d, b := gNear+r.nearFar, gFar+r.nearFar, r.nearFar
	det := a*d - b*b
	switch {
	case det > 0:
		return (qNear*d + b*qFar) / det, (a*qFar + b*qNear) / det
	case a > 0:
		return qNear / a, r.air
	}
	return r.air, r.air
}

// stored gives the heat in all nodes above 0 K, J.
func (m *model) stored() float64 {
	sum := 0.0
	add := func(t, inv float64) {
		if inv > 0 {
			sum += (t - zeroCelsius) / inv
		}
	}
	for i := range m.rooms {
		r := &m.rooms[i]
		add(r.air, r.airInv)
		add(r.near, r.nearInv)
		add(r.far, r.farInv)
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		add(c.back, c.inv)
		for k := range c.radiators {
			add(c.radiators[k].t, c.radiators[k].inv)
		}
		for k := range c.slabs {
			for l := range c.slabs[k].n {
				add(c.slabs[k].t[l], c.slabs[k].inv[l])
			}
		}
	}
	add(m.boiler.t, m.boiler.inv)
	add(m.buffer.top, m.buffer.inv)
	add(m.buffer.bottom, m.buffer.inv)
	for i := range m.tank.n {
		add(m.tank.t[i], m.tank.inv)
	}
	return sum
}
