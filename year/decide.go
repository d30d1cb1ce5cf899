package year

// What does the control do in this step?

const (
	frostWidth  = 2.0         // K above the guard before it lets go
	frostSupply = 273.15 + 30 // at least, while the guard heats: common practice
	limitReset  = 5.0         // K below the boiler's limit before it may fire again
	sleepWidth  = 0.25        // K about the lowered set-point at which a circuit wakes and sleeps
	weekSeconds = 7 * 86400.0 // of the program
	leastOpen   = 0.01        // a valve less open than this is shut
	holdWidth   = 2.0         // K milder than where lowering is given up before it begins again
)

// look is what the control does every five minutes: it reads the sensors, and sets
// supplies and the rooms' valves.
func (m *model) look(now, outdoor float64) {
	m.sensed += m.sensorPart * (outdoor + m.sensorOffset - m.sensed)
	m.damped += m.dampPart * (m.sensed - m.damped)
	if m.cutOff > 0 {
		switch {
		case m.damped > m.cutOff:
			m.season = false
		case m.damped < m.cutOff-m.cutOffWidth:
			m.season = true
		}
	}
	if m.frostOutdoor > 0 {
		m.freezing = m.sensed < m.frostOutdoor || m.freezing && m.sensed < m.frostOutdoor+frostWidth
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		if c.isTank {
			continue
		}
		if c.program.points != nil {
			c.follow(now, m.sensed)
		}
		if m.frost > 0 {
			c.guard(m.frost)
		}
		c.wanted = (m.season || c.frost) && !c.sleeps()
		if c.wanted && c.thermostat > 0 {
			c.ask()
			c.wanted = c.calls > 0 || c.frost
		}
		c.stirred = m.freezing && !c.wanted
		switch {
		case c.stirred:
			c.moveValves()
			c.set = max(m.frostSupply, c.back) // as warm as its own water: a mixing valve shuts
		case c.wanted:
			c.moveValves()
			c.set = c.supplyFor(m.sensed)
		default:
			continue
		}
		for k := range c.radiators {
			c.radiators[k].findPhi()
		}
	}
}

// decide is what is done at once: tank, pumps, and what the boiler is asked for.
func (m *model) decide() {
	tank := &m.tank
	if tank.n > 0 {
		tank.decide(m.dt)
	}
	b := &m.boiler
	b.call, b.set, b.limit = false, 0, b.heating
	m.buffer.set = 0
	if tank.charging {
		b.limit = b.most
	}
	if m.unpowered {
		for i := range m.circuits {
			m.circuits[i].on = false
		}
		return
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		if c.isTank {
			if c.on = tank.charging; c.on {
				b.ask(tank.supply)
			}
			continue
		}
		c.on = (c.wanted || c.stirred) && c.flow > 0 && !(tank.charging && tank.priority) && !m.combi.drawing
		if c.on {
			set := c.set
			if c.stirred {
				set = m.frostSupply
			}
			if set > 0 {
				b.ask(set + c.above)
				m.buffer.set = max(m.buffer.set, set+c.above)
			}
			continue
		}
		c.supply = c.back
		if c.mixed {
			c.share = between(c.share-c.move*m.dt, 0, 1)
		}
	}
}

// ask wants a supply of at least so much from the boiler.
func (b *boilerNode) ask(supply float64) {
	b.call = true
	if supply > b.set {
		b.set = supply
	}
}

// sleeps tells whether a circuit stands still until its reference room has cooled.
func (c *circuitNode) sleeps() bool {
	if !c.off {
		return false
	}
	switch over := c.reference.air - (c.reference.set - c.lower); {
	case over < -sleepWidth:
		c.asleep = false
	case over > sleepWidth:
		c.asleep = true
	}
	return c.asleep && !c.frost
}

// supplyFor gives the supply wanted. Everything lower by so much is the same house in
// weather milder by so much, so a lowered curve is read there.
func (c *circuitNode) supplyFor(outdoor float64) float64 {
	set := c.held - c.lower
	if c.curve != nil {
		set = c.curve.at(outdoor+c.lower) - c.lower
	}
	if c.influence > 0 {
		short := c.influence * (c.reference.set - c.lower - c.reference.air)
		set += min(max(short, -c.limit), c.limit)
	}
	if c.frost {
		set = max(set, frostSupply)
	}
	return min(max(set, c.least), c.most)
}

// follow takes the switching point in force, unless it is so cold that nothing is
// lowered.
func (c *circuitNode) follow(now, outdoor float64) {
	moved := c.program.moves(now)
	if held := outdoor < c.holdBelow || c.holding && outdoor < c.holdBelow+holdWidth; held != c.holding {
		c.holding, moved = held, true
	}
	if !moved {
		return
	}
	c.lower, c.off = float64(c.program.now.Lower), c.program.now.Off
	if c.holding {
		c.lower, c.off = 0, false
	}
	c.asleep = c.off
	for _, r := range c.rooms {
		r.lower = c.lower
	}
}

// weekly walks through the switching points of a week.
type weekly struct {
	points      []Switch
	now         *Switch
	since, next float64 // of the point in force, s after Monday 0:00
}

// moves takes the point in force at a time of the week, and tells whether it is another
// one than before.
func (w *weekly) moves(at float64) bool {
	if w.now != nil && at >= w.since && at < w.next {
		return false
	}
	// Before the week's first point last week's last one holds.
	w.now = &w.points[len(w.points)-1]
	w.since, w.next = 0, weekSeconds
	for i := range w.points {
		from := float64(w.points[i].From)
		if from > at {
			w.next = from
			break
		}
		w.now, w.since = &w.points[i], from
	}
	return true
}

// guard keeps water and rooms from freezing.
func (c *circuitNode) guard(least float64) {
	coldest := c.back
	for _, r := range c.rooms {
		coldest = min(coldest, r.air)
	}
	if coldest < least {
		c.frost = true
	} else if coldest > least+frostWidth {
		c.frost = false
	}
}

// moveValves sets thermostatic valves and asks room thermostats, each by its room.
func (c *circuitNode) moveValves() {
	if !c.moves {
		return // its flow never changes
	}
	sum := 0.0
	c.fans = 0
	for i := range c.radiators {
		r := &c.radiators[i]
		switch r.valve {
		case Thermostatic:
			r.open = min((r.room.set+r.band-r.room.air)/r.band, 1)
			if r.open < leastOpen {
				r.open = 0
			}
		case OnOff:
			r.open = zone(r.open, r.room, r.band)
		}
		sum += r.flow * r.open
		if r.open > 0 {
			c.fans += r.fan
		}
	}
	for i := range c.slabs {
		s := &c.slabs[i]
		if s.valve == OnOff {
			s.open = zone(s.open, s.room, s.band)
		}
		sum += s.flow * s.open
	}
	c.setFlow(sum)
}

// ask asks the thermostats by which the whole circuit runs.
func (c *circuitNode) ask() {
	for _, r := range c.rooms {
		if zone(c.calls, r, c.thermostat) > 0 {
			c.calls = 1
			return
		}
	}
	c.calls = 0
}

func (c *circuitNode) setFlow(flow float64) {
	c.flow = flow
	if flow > 0 {
		c.flowInv = 1 / flow
	}
}

// zone is a room thermostat: full or nothing, about the set-point of the hour.
func zone(open float64, r *roomNode, band float64) float64 {
	switch want := r.set - r.lower; {
	case r.air < want-band/2:
		return 1
	case r.air > want+band/2:
		return 0
	}
	return open
}

func (t *tankNode) decide(dt float64) {
	switch seen := t.t[t.sensor]; {
	case seen >= t.set:
		t.wants = false
	case seen < t.low:
		t.wants = true
	}
	t.charging = false
	switch {
	case t.rests > 0:
		t.rests -= dt
	case !t.wants:
		t.ran = 0
	case t.priority && t.limit > 0 && t.ran >= t.limit:
		t.ran, t.rests = 0, t.limit-dt
	default:
		t.ran += dt
		t.charging = true
	}
}
