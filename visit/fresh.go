package visit

import (
	"math"

	"curvewright/units"
)

// How does a house warm that was just switched on? A slab takes hours, walls take days;
// both go towards their end as an exponential.

const (
	// fabricPerArea is the heat that a house of medium weight stores for a square metre of
	// floor, J/(m²·K): ISO 13790 table 12, from memory.
	fabricPerArea = 165e3
	// most of an exponential's way is gone after three time constants: 95 %.
	constants = 3
	usualArea = 15.0 // m², of a room without a floor area
)

// warmRooms puts the rooms where they are by now on their way to the set-points.
func (p *plant) warmRooms(s *state, d *change, out *at) {
	for r := range p.rooms {
		if s.air[r] != 0 {
			continue // measured
		}
		n := &p.rooms[r]
		left := math.Exp(-float64(s.Since) / float64(n.constant(d.rooms[r].loss)))
		start := float64(s.Start)
		out.rooms[r].air = n.set + (start-n.set)*left
	}
}

// constant is the time constant of a room.
func (n *roomNode) constant(loss float64) units.Time {
	area := n.area
	if area <= 0 {
		area = usualArea
	}
	return units.Time(fabricPerArea * area / math.Max(0.1, float64(n.loss.Coefficient())*loss))
}

// slabConstant gives the time constant of a heated floor under an inlet, and the
// temperature about the tube at which it ends.
//
//	q = W·ε·(Tin − Tt); τ = ΣC/(W·ε + q/(Tt − Ti))
func (e *emitterNode) slabConstant(from, w, air float64) (tau, end float64) {
	q := e.law.Output(units.Temperature(from), units.LossCoefficient(w), units.Temperature(air))
	exchange := w * math.Min(1, float64(e.slab.Exchange))
	capacity := 0.0
	for _, l := range e.slab.Layers {
		capacity += float64(l.Capacity)
	}
	end = from - float64(q.Water)/exchange
	outward := 0.0
	if end > air+0.1 {
		outward = float64(q.Water) / (end - air)
	}
	return capacity / (exchange + outward), end
}

// charge gives the return of a floor that is still warming.
func (p *plant) charge(e *emitterNode, from, w float64, s *state, air float64) float64 {
	if from <= air {
		return from
	}
	tau, end := e.slabConstant(from, w, air)
	about := end + (float64(s.Start)-end)*math.Exp(-float64(s.Since)/tau)
	return from - math.Min(1, float64(e.slab.Exchange))*(from-about)
}

// lookAgain tells when a fresh house will have come nearly to its end: slab by slab, and
// the rooms.
func (h *House) lookAgain(s *state, out *at) (slabs, rooms units.Time) {
	none := h.plant.asDrawn()
	for i := range h.plant.circuits {
		if !out.circuits[i].on {
			continue
		}
		for k := range h.plant.circuits[i].emitters {
			e := &h.plant.circuits[i].emitters[k]
			if e.slab == nil {
				continue
			}
			tau, _ := e.slabConstant(out.circuits[i].supply, math.Max(idle, e.flow), out.rooms[e.room].air)
			slabs = max(slabs, units.Time(constants*tau))
		}
	}
	for r := range h.plant.rooms {
		rooms = max(rooms, constants*h.plant.rooms[r].constant(none.rooms[r].loss))
	}
	return max(0, slabs-s.Since), max(0, rooms-s.Since)
}
