package year

// What does the control do in this step?

const (
	frostWidth  = 2.0         // K above the guard before it lets go
	frostSupply = 273.15 + 30 // at least, while the guard heats: common practice
	limitReset  = 5.0         // K below the boiler's limit before it may fire again
	sleepWidth  = 0.25        // K about the lowered set-point at which a circuit wakes and sleeps
	weekSeconds = 7 * 86400.0 // of the program
	leastOpen   = 0.01        // a valve less open than this is shut
)

// look is what the control does every five minutes: it reads the sensors, and sets
// supplies and the valves that move in proportion.
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
	for i := range m.circuits {
		c := &m.circuits[i]
		if c.isTank {
			continue
		}
		if c.program != nil {
			c.follow(now)
		}
		if m.frost > 0 {
			c.guard(m.frost)
		}
		c.wanted = (m.season || c.frost) && !c.sleeps()
		if !c.wanted {
			continue
		}
		c.moveInProportion()
		c.set = c.supplyFor(m.sensed)
		for k := range c.radiators {
			c.radiators[k].findPhi()
		}
	}
}

// decide is what is done at once: room thermostats, tank, pumps, and what the boiler is
// asked for.
func (m *model) decide() {
	tank := &m.tank
	if tank.n > 0 {
		tank.decide(m.dt)
	}
	b := &m.boiler
	b.call, b.set = false, 0
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
		c.on = c.wanted
		if c.on && c.zones {
			c.openZones()
		}
		c.on = c.on && c.flow > 0 && !(tank.charging && tank.priority)
		if c.on {
			b.ask(c.set + c.above)
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

// follow takes the switching point in force.
func (c *circuitNode) follow(now float64) {
	if now >= c.since && now < c.next {
		return
	}
	// Before the week's first point last week's last one holds.
	p := &c.program[len(c.program)-1]
	c.since, c.next = 0, weekSeconds
	for i := range c.program {
		from := float64(c.program[i].From)
		if from > now {
			c.next = from
			break
		}
		p, c.since = &c.program[i], from
	}
	c.lower, c.off = float64(p.Lower), p.Off
	c.asleep = p.Off
	for _, r := range c.rooms {
		r.lower = c.lower
	}
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

// moveInProportion sets the thermostatic valves by their rooms.
func (c *circuitNode) moveInProportion() {
	if !c.moves {
		return // its flow never changes
	}
	sum := 0.0
	for i := range c.radiators {
		r := &c.radiators[i]
		if r.valve == Thermostatic {
			r.open = min((r.room.set+r.band-r.room.air)/r.band, 1)
			if r.open < leastOpen {
				r.open = 0
			}
		}
		sum += r.flow * r.open
	}
	for i := range c.slabs {
		sum += c.slabs[i].flow * c.slabs[i].open
	}
	c.setFlow(sum)
}

// openZones asks the room thermostats.
func (c *circuitNode) openZones() {
	sum := 0.0
	for i := range c.radiators {
		r := &c.radiators[i]
		if r.valve == OnOff {
			r.open = zone(r.open, r.room, r.band)
		}
		sum += r.flow * r.open
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
