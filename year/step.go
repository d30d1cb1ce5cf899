package year

// One step: the control decides, water carries heat, rooms take it up.
//
// Four step lengths are nested. Fabric and slabs move in the longest; the air of the
// rooms and the tank in the step that was asked for; radiators, which hold less, in an
// equal or shorter one; boiler and pipes in a shorter one still. Whoever waits for a
// longer step gets the sum of what came meanwhile, so nothing is lost between them.
// Beside that the control looks at slow sensors every five minutes.

import "math"

// step plays the step that begins at a time of the week, with one outdoor temperature.
func (m *model) step(now, outdoor float64) {
	if m.slow {
		m.look(now, outdoor)
	}
	if m.minuteBegins && m.combi.draws != nil {
		m.tap()
	}
	m.decide()
	for range m.emitterSteps {
		m.advanceWater()
	}
	if m.tank.n > 0 {
		m.advanceTank()
	}
	m.advanceAir(outdoor)
	if m.sinceMass++; m.sinceMass == m.massEvery {
		m.sinceMass = 0
		m.advanceMass(outdoor)
		m.hold()
	}
}

// advanceWater moves radiators, pipes and boiler by one step of the radiators.
func (m *model) advanceWater() {
	m.active = m.active[:0]
	for i := range m.circuits {
		c := &m.circuits[i]
		if !c.on {
			// Radiators that cool have time: they move with the mass of the house.
			if c.waited += m.emitterDt; c.waited >= m.coolDt {
				m.cool(c)
			}
			continue
		}
		if c.waited > 0 {
			m.cool(c)
		}
		c.describeReturn(m)
		c.inletSum = 0
		c.renewed = m.plantDt * c.inv * c.flow
		m.active = append(m.active, c)
	}
	if len(m.active) == 0 {
		m.restBoiler(m.emitterDt)
		return
	}
	if m.buffer.inv > 0 {
		m.advanceBuffered()
	} else {
		m.ranFor += m.emitterDt
		m.advancePlant()
	}
	for _, c := range m.active {
		m.advanceEmitters(c)
	}
}

// describeReturn writes the return of all emitters of a running circuit as a straight
// line over its inlet. It holds for one step of the radiators.
//
// A radiator is one node at the logarithmic mean of its water. With N transfer units
// (N = K·M^(n−1)/W) its outlet lies
//
//	Tout = Tm − φ·(Tin − Tm), φ = (1 − x·coth x + x)/(x·coth x + x − 1), x = N/2
//
// which is exact where nothing changes, so that a steady radiator gives what its law
// gives. While it warms, water leaves no cooler than the room: the warm water comes as a
// plug. While it cools, water leaves at the mean.
//
// Tm is that of the middle of the step (see sample): with that of its beginning every
// emitter of a loop would hand on more than its share of a ripple from step to step, and
// eight of them in a row would make a swing of it.
func (c *circuitNode) describeReturn(m *model) {
	if c.isTank {
		c.constant, c.slope = (1+m.tank.phi)*m.tank.coilMean, -m.tank.phi
		return
	}
	if c.series {
		constant, slope := 0.0, 1.0
		for i := range c.radiators {
			r := &c.radiators[i]
			r.sample(r.flow, m.emitterDt)
			constant, slope = (1+r.phi)*r.seen-r.phi*constant, -r.phi*slope
		}
		c.constant, c.slope = constant, slope
		return
	}
	constant, slope := 0.0, 0.0
	for i := range c.radiators {
		r := &c.radiators[i]
		if r.open > 0 {
			w := r.flow * r.open
			r.sample(w, m.emitterDt)
			constant += r.intake * r.seen
			slope -= w * r.phi
		}
	}
	for i := range c.slabs {
		s := &c.slabs[i]
		w := s.flow * s.open
		constant += w * (1 + s.phi) * s.t[s.tube]
		slope -= w * s.phi
	}
	c.constant, c.slope = constant*c.flowInv, slope*c.flowInv
}

// sample readies the exchange with a flow w, W/K, for a step. With Tm in its middle,
// Tm = T + dt/(2·C)·(w·(1+φ)·(Tin − Tm) − P), the emitter takes intake·(Tin − seen) and
// lets out (1+φ')·seen − φ'·Tin, where seen = T − dt/(2·C)·P, P what it gave last, and
// 1+φ' = (1+φ)/(1 + dt·w·(1+φ)/(2·C)).
func (r *radiatorNode) sample(w, dt float64) {
	r.limitPhi()
	half := 0.5 * dt * r.inv
	r.seen = r.t - half*r.gave
	r.phi = (1+r.phi)/(1+half*w*(1+r.phi)) - 1
	r.intake = w * (1 + r.phi)
}

// limitPhi takes φ as it was found last, or less where water would leave too cool.
func (r *radiatorNode) limitPhi() {
	over := r.inlet - r.t
	if over <= 0 {
		r.phi = 0
		return
	}
	r.phi = r.freePhi
	if room := r.room.air - r.offset; r.phi*over > r.t-room {
		r.phi = max(0, r.t-room) / over
	}
}

// findPhi works φ out for the water and the valve of the moment. It moves slowly enough
// to be left alone until the control looks again.
func (r *radiatorNode) findPhi() {
	if r.open <= 0 {
		return
	}
	x := r.halfPer / r.open * r.law.at(math.Abs(r.t-r.room.air+r.offset))
	xx := x * x
	// x·coth x − 1 = x²·(35 + x²)/(105 + 10·x²), within 0.1 % up to x = 2.
	even, odd := 105+10*xx, x*(35+xx)
	r.freePhi = max(0, (even-odd)/(even+odd))
}

// at gives M^(n−1), beyond 255 K on the last line.
func (p *powers) at(excess float64) float64 {
	x := excess * perKelvin
	if x > excessSteps {
		x = excessSteps
	}
	line := &p[uint(x)&excessSteps]
	return line.at0 + line.slope*excess
}

// advancePlant moves boiler and pipes by one step of the radiators, in steps of its own.
func (m *model) advancePlant() {
	b := &m.boiler
	dt, t, perJoule := m.plantDt, b.t, b.inv
	flow, flowInv, direct := b.flow, b.flowInv, b.direct
	delivered, standby := 0.0, 0.0
	var supply, returned, before, part float64
	for range m.plantSteps {
		// What the circuits draw, and what of it comes back.
		drawn, carried := 0.0, 0.0
		for _, c := range m.active {
			w := c.flow * c.share
			drawn += w
			carried += w * c.back
		}
		stream := 0.0
		supply, returned = t, t
		if drawn > 0 {
			if drawn != before { // valves at rest draw the same again
				before, part = drawn, 1/drawn
			}
			back := carried * part
			span := t - back
			switch {
			case direct && drawn >= flow: // all water runs through the boiler
				stream, returned = drawn*span, back
			case drawn > flow:
				stream, returned = flow*span, back
				supply = back + stream*part
			default:
				stream = drawn * span
				returned = t - stream*flowInv
			}
		}
		for _, c := range m.active {
			inlet := c.back + c.share*(supply-c.back)
			c.supply = inlet
			c.inletSum += inlet
			if c.mixed {
				c.moveValve(supply, dt)
			}
			c.back += c.renewed * (c.constant + c.slope*inlet - c.back)
		}
		over := t - b.set
		if b.beyond {
			over = supply - b.set
		}
		output := b.fire(&m.sums, t, over, over, over, returned, dt)
		if !b.burning {
			lost := b.standby * (t - b.room)
			standby += dt * lost
			output -= lost
		}
		t += dt * perJoule * (output - stream)
		delivered += dt * stream
	}
	b.t, b.supply, b.back = t, supply, returned
	m.sums.delivered += delivered
	m.sums.standby += standby
}

// moveValve lets the mixing valve go towards where it makes the supply wanted, as fast
// as its motor can.
func (c *circuitNode) moveValve(supply, dt float64) {
	goal := 1.0
	if span := supply - c.back; span > 0.1 {
		goal = between((c.set-c.back)/span, 0, 1)
	}
	most := c.move * dt
	c.share = between(goal, c.share-most, c.share+most)
}

// restBoiler lets the boiler stand without flow.
func (m *model) restBoiler(dt float64) {
	b := &m.boiler
	over := b.t - b.set
	output := b.fire(&m.sums, b.t, over, over, over, b.t, dt)
	if !b.burning {
		lost := b.standby * (b.t - b.room)
		m.sums.standby += dt * lost
		output -= lost
	}
	b.t += dt * b.inv * output
	b.supply, b.back = b.t, b.t
	if m.buffer.inv > 0 {
		m.buffer.lose(&m.sums, dt)
	}
}

// fire is the burner's own control: start and stop about the set-point, a proportional
// and integral band in between, a shortest rest, and the boiler's limit. It gives the
// output at a boiler temperature and return, with how far the sensors by which it starts,
// stops and modulates lie above the set-point: one and the same, but with a buffer.
func (b *boilerNode) fire(s *sums, t, starts, stops, over, back, dt float64) float64 {
	if t >= b.hottest {
		b.blocked = true
	} else if t < b.hottest-limitReset {
		b.blocked = false
	}
	if b.burning {
		if !b.call || b.blocked || b.dead || stops > b.differential/2 {
			b.burning = false
			b.rested = 0
			s.endRun(b.ran)
		}
	} else {
		b.rested += dt
		if b.call && !b.blocked && !b.dead && starts <= -b.differential/2 && b.rested >= b.rest {
			b.burning = true
			b.ran = 0
			b.base = b.least
			s.starts++
			s.startsToday++
		}
	}
	if !b.burning {
		b.output = 0
		return 0
	}
	b.base = between(b.base-b.integral*over*dt, b.least, b.limit)
	b.output = between(b.base-b.gain*over, b.least, b.limit)
	b.ran += dt
	b.burnt += b.output * dt
	b.burnFor += dt
	b.backSum += back * dt
	return b.output
}

// between holds x within bounds; shorter than min and max, which also sort what is no
// number.
func between(x, low, high float64) float64 {
	if x < low {
		return low
	}
	if x > high {
		return high
	}
	return x
}

// advanceEmitters gives every emitter of a running circuit what its water brought in this
// step of the radiators, and the rooms what the radiators give.
func (m *model) advanceEmitters(c *circuitNode) {
	dt := m.emitterDt
	inlet := c.inletSum / float64(m.plantSteps)
	c.runs += dt
	c.blown += dt * c.fans
	if c.isTank {
		m.tank.heat += dt * c.flow * (1 + m.tank.phi) * (inlet - m.tank.coilMean)
		return
	}
	for i := range c.radiators {
		r := &c.radiators[i]
		taken := 0.0
		if r.open > 0 {
			taken = r.intake * (inlet - r.seen)
			r.inlet = inlet
			if c.series {
				inlet = r.seen - r.phi*(inlet-r.seen)
			}
		}
		r.give(&m.sums, taken, dt)
	}
	for i := range c.slabs {
		s := &c.slabs[i]
		s.heat += dt * s.flow * s.open * (1 + s.phi) * (inlet - s.t[s.tube])
	}
}

// cool lets the radiators of a resting circuit cool for the time that they have waited.
func (m *model) cool(c *circuitNode) {
	for i := range c.radiators {
		c.radiators[i].give(&m.sums, 0, c.waited)
	}
	c.waited = 0
}

// give hands a radiator's heat to its room, in W what it takes from the water.
func (r *radiatorNode) give(s *sums, taken, dt float64) {
	excess := r.t - (r.room.air - r.offset)
	given := r.factor * excess * r.law.at(math.Abs(excess))
	r.gave = given
	if r.leaks && excess > 0 {
		behind := max(0, r.behind*given+r.behindG*(r.room.air-r.behindT))
		s.behind += dt * behind
		r.gave += behind
	}
	r.t += dt * r.inv * (taken - r.gave)
	given *= dt
	r.room.radiated += given * r.radiant
	r.room.convected += given * r.airShare
}

// advanceAir moves the air of the rooms. The mass stands still until its own step comes;
// it then gets what the air's mean temperature gave it meanwhile.
func (m *model) advanceAir(outdoor float64) {
	dt := m.dt
	lost := 0.0
	for i := range m.rooms {
		r := &m.rooms[i]
		air := r.air
		loss := r.airBoth*air - r.airOut*outdoor - r.airHeld
		if air > r.airingAbove && outdoor < air {
			loss += r.airingMost * between((air-r.airingAbove)/airingBand, 0, 1) * (air - outdoor)
		}
		lost += loss
		r.airSum += air
		r.air = air + r.airInv*(dt*(r.airGain+r.held-r.toMass*air-loss)+r.convected)
		r.convected = 0
		if r.ideal && (r.air < r.idealHeat || r.air > r.idealCool) {
			r.keepWithin(&m.sums)
		}
	}
	m.sums.lost += dt * lost
}

// keepWithin lets the ideal heater or cooler bring the air to its limit.
func (r *roomNode) keepWithin(s *sums) {
	limit := between(r.air, r.idealHeat, r.idealCool)
	heat := (limit - r.air) / r.airInv
	r.air = limit
	if heat > 0 {
		r.stat.heated += heat
		s.heated += heat
	} else {
		r.stat.cooled -= heat
		s.cooled -= heat
	}
}

// advanceMass moves fabric and slabs through the time since it was last called.
func (m *model) advanceMass(outdoor float64) {
	dt := m.massDt
	lost := 0.0
	for i := range m.rooms {
		r := &m.rooms[i]
		nearLoss := r.nearOut*(r.near-outdoor) + r.nearFix*r.near - r.nearHeld
		farLoss := r.farOut*(r.far-outdoor) + r.farFix*r.far - r.farHeld
		across := r.nearFar * (r.near - r.far)
		lost += nearLoss + farLoss
		r.airMean = r.airSum / float64(m.massEvery)
		toNear, toFar := r.airNear*(r.airMean-r.near), r.airFar*(r.airMean-r.far)
		r.near += r.nearInv * (dt*(r.nearGain-nearLoss+toNear-across) + r.nearPart*r.radiated)
		r.far += r.farInv * (dt*(r.farGain-farLoss+toFar+across) + r.farPart*r.radiated)
		r.radiated, r.airSum = 0, 0
	}
	m.sums.lost += dt * lost
	for i := range m.circuits {
		for k := range m.circuits[i].slabs {
			m.advanceSlab(&m.circuits[i].slabs[k], outdoor)
		}
	}
}

func (m *model) advanceSlab(s *slabNode, outdoor float64) {
	dt := m.massDt
	last := s.n - 1
	down := s.downOut*(s.t[last]-outdoor) + s.downFix*s.t[last] - s.downHeld
	m.sums.behind += dt * down
	var flux [mostLayers]float64
	above := s.up * (s.room.airMean - s.t[0]) // into the layer from above
	for i := range last {
		through := s.g[i] * (s.t[i] - s.t[i+1])
		flux[i] = above - through
		above = through
	}
	flux[last] = above - down
	for i := range s.n {
		s.t[i] += dt * s.inv[i] * flux[i]
	}
	s.t[s.tube] += s.inv[s.tube] * s.heat
	s.heat = 0
}

// hold sets what comes into the air from the mass at 0 K of its own, and from room to
// room, until the mass moves again.
func (m *model) hold() {
	for i := range m.rooms {
		r := &m.rooms[i]
		r.held = r.airNear*r.near + r.airFar*r.far
	}
	if m.open > 0 {
		mean := 0.0
		for i := range m.rooms {
			mean += m.rooms[i].open * m.rooms[i].air
		}
		mean /= m.open
		for i := range m.rooms {
			r := &m.rooms[i]
			r.held += r.open * (mean - r.air)
		}
	}
	for i := range m.doors {
		d := &m.doors[i]
		q := d.g * (d.a.air - d.b.air)
		d.a.held -= q
		d.b.held += q
	}
	for i := range m.circuits {
		for k := range m.circuits[i].slabs {
			s := &m.circuits[i].slabs[k]
			s.room.held += s.up * s.t[0]
		}
	}
}
