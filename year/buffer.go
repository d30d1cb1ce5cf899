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
// The boiler's pump runs with the burner. The burner starts when the top is cool, stops
// when the bottom is warm (of a stirred one there is only one temperature), and meanwhile keeps its own supply above what is asked for by
// half the differential. Water that one side moves more than the other goes through the
// buffer, downwards or upwards.
func (m *model) advanceBuffered() {
	b, f, dt := &m.boiler, &m.buffer, m.plantDt
	var supply, returned float64
	for range m.plantSteps {
		drawn, carried := 0.0, 0.0
		for _, c := range m.active {
			w := c.flow * c.share
			drawn += w
			carried += w * c.back
		}
		back := f.bottom
		if drawn > 0 {
			back = carried / drawn
		}
		pumped := 0.0
		if b.burning {
			pumped = f.flow
			m.ranFor += dt
		}
		var intoTop, intoBottom float64 // W
		supply, returned, intoTop, intoBottom = f.exchange(b.t, back, pumped, drawn)
		for _, c := range m.active {
			inlet := c.back + c.share*(supply-c.back)
			c.supply = inlet
			c.inletSum += inlet
			if c.mixed {
				c.moveValve(supply, dt)
			}
			c.back += c.renewed * (c.constant + c.slope*inlet - c.back)
		}
		starts, stops, over := f.top-b.set, f.bottom-b.set+b.differential, b.t-b.set-b.differential/2
		if f.stirred {
			stops = starts
		}
		output := b.fire(&m.sums, b.t, starts, stops, over, returned, dt)
		stream := pumped * (b.t - returned)
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
