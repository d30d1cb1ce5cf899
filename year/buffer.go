package year

// A buffer between boiler and circuits: how it fills, empties, and lets the burner rest.

import (
	"cmp"

	"curvewright/pipework"
	"curvewright/refuse"
	"curvewright/units"
)

// bufferNode is a buffer as its upper and its lower half. One over the capacity of a half
// is 0 where there is none.
type bufferNode struct {
	top, bottom float64
	inv         float64
	loss, room  float64 // of a half
	flow        float64 // of the boiler's pump
	through     bool    // the circuits' supply runs through the buffer, not past it
	returns     bool    // and their return
	stirred     bool
	passed      bool    // a tank draws from the boiler itself
	set         float64 // what the circuits ask for
	wants       bool    // beside such a tank: its pump runs with the burner
}

func isBuffer(c pipework.Coupling) bool {
	switch c {
	case pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer:
		return true
	}
	return false
}

func (b Buffer) check() error {
	err := cmp.Or(refuse.Within("capacity", b.Water, 2*leastCapacity, mostCapacity), refuse.Within("heat loss", b.Loss, 0, 100))
	if err == nil && b.Loss > 0 {
		err = refuse.Within("surroundings", b.Room, units.Celsius(-20), units.Celsius(60))
	}
	return err
}

func makeBuffer(b Buffer, c pipework.Coupling, flow float64) bufferNode {
	return bufferNode{
		inv: 2 / float64(b.Water), loss: float64(b.Loss) / 2, room: float64(b.Room), flow: flow,
		through: c == pipework.FourPipeBuffer || c == pipework.StirredBuffer, returns: c != pipework.TwoPipeBuffer, stirred: c == pipework.StirredBuffer,
	}
}

// advanceBuffered moves boiler, buffer and pipes by one step of the radiators.
//
// The boiler's pump runs with the burner. The burner starts when the top is three quarters
// of the differential below what is asked for, and stops when the bottom is within a quarter
// of it (of a stirred one there is only one temperature: it goes by it as without a buffer).
// Meanwhile it keeps its own supply above what is asked for by a quarter. So the whole
// buffer swings by half the differential and more, and the circuits get what they ask for in
// the mean. Water that one side moves more than the other goes through the
// buffer, downwards or upwards.
//
// A tank that draws from the boiler itself has a pump of its own: while it is charged the
// burner goes by the boiler's water, and the buffer takes of it what it is short of.
func (m *model) advanceBuffered() {
	b, f, dt := &m.boiler, &m.buffer, m.plantDt
	var supply, returned float64
	circuits, tank := m.active, (*circuitNode)(nil)
	if last := len(circuits) - 1; f.passed && circuits[last].isTank {
		circuits, tank = circuits[:last], circuits[last]
	}
	for range m.plantSteps {
		drawn, carried := 0.0, 0.0
		for _, c := range circuits {
			w := c.flow * c.share
			drawn += w
			carried += w * c.back
		}
		back := f.bottom
		if drawn > 0 {
			back = carried / drawn
		}
		starts, stops, over := f.top-b.set+b.differential/4, f.bottom-b.set+b.differential*3/4, b.t-b.set-b.differential/4
		if f.stirred {
			starts = f.top - b.set
			stops = starts
		}
		if tank == nil {
			f.wants = b.burning
		} else {
			f.settle(b.differential)
			starts = b.t - b.set
			stops, over = starts, starts
		}
		pumped := 0.0
		if b.burning && f.wants {
			pumped = f.flow
			m.ranFor += dt
		}
		var intoTop, intoBottom float64 // W
		supply, returned, intoTop, intoBottom = f.exchange(b.t, back, pumped, drawn)
		for _, c := range circuits {
			inlet := c.back + c.share*(supply-c.back)
			c.supply = inlet
			c.inletSum += inlet
			if c.mixed {
				c.moveValve(supply, dt)
			}
			c.back += c.renewed * (c.constant + c.slope*inlet - c.back)
		}
		stream := pumped * (b.t - returned)
		if tank != nil {
			charge := tank.flow * (b.t - tank.back)
			returned = (pumped*returned + tank.flow*tank.back) / (pumped + tank.flow)
			stream += charge
			tank.supply = b.t
			tank.inletSum += b.t
			tank.back += tank.renewed * (tank.constant + tank.slope*b.t - tank.back)
		}
		output := b.fire(&m.sums, b.t, starts, stops, over, returned, dt)
		m.sums.delivered += dt * stream
		if !b.burning {
			lost := b.standby * (b.t - b.room)
			m.sums.standby += dt * lost
			output -= lost
		}
		b.t += dt * b.inv * (output - stream)
		f.top += dt * f.inv * intoTop
		f.bottom += dt * f.inv * intoBottom
		f.lose(&m.sums, dt)
	}
	b.supply, b.back = supply, returned
}

// settle decides whether the buffer is short of heat, about what the circuits ask for.
func (f *bufferNode) settle(differential float64) {
	switch {
	case f.set == 0 || f.bottom > f.set-differential/4:
		f.wants = false
	case f.top < f.set-differential*3/4:
		f.wants = true
	}
}

// exchange gives the supply of the circuits, the return of the boiler and the heat that
// enters each half, for the boiler's supply and stream and the circuits' return and
// stream. Boiler less circuits is what both halves get.
func (f *bufferNode) exchange(hot, back, pumped, drawn float64) (supply, returned, intoTop, intoBottom float64) {
	down, up := max(0, pumped-drawn), max(0, drawn-pumped)
	if f.through {
		return f.top, f.bottom, pumped*(hot-f.top) + up*(f.bottom-f.top), drawn*(back-f.bottom) + down*(f.top-f.bottom)
	}
	supply = hot
	if drawn > pumped {
		supply = (pumped*hot + up*f.top) / drawn
	}
	intoTop = down*(hot-f.top) + up*(f.bottom-f.top)
	if f.returns {
		return supply, f.bottom, intoTop, drawn*(back-f.bottom) + down*(f.top-f.bottom)
	}
	returned = back
	if pumped > drawn {
		returned = (drawn*back + down*f.bottom) / pumped
	}
	return supply, returned, intoTop, up*(back-f.bottom) + down*(f.top-f.bottom)
}

// lose takes the heat through the buffer's coat, and mixes what is stirred or upside down.
func (f *bufferNode) lose(s *sums, dt float64) {
	top, bottom := dt*f.loss*(f.top-f.room), dt*f.loss*(f.bottom-f.room)
	f.top -= f.inv * top
	f.bottom -= f.inv * bottom
	s.standby += top + bottom
	if f.stirred || f.bottom > f.top {
		mean := (f.top + f.bottom) / 2
		f.top, f.bottom = mean, mean
	}
}
