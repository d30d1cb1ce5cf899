package curve

import (
	"fmt"
	"math"

	"curvewright/units"
)

// At is a circuit's need at one outdoor temperature.
type At struct {
	Outdoor units.Temperature
	Hours   units.Time          // of the year, the weight of this temperature
	Needs   []units.Temperature // supply that each room needs
	Supply  units.Temperature   // the hottest of them: the ideal curve
	Leads   int                 // the governing room
	Least   units.Temperature   // supply that leaves every room within the tolerance
	Load    units.Power         // of all rooms
}

// Solve gives the ideal curve of the circuit over a list of outdoor temperatures.
//
// For every room the supply is found at which its emitters just balance its load; the
// room that needs the hottest water governs. Least is the same with every set-point
// lowered by the tolerance.
// On a series loop a room is reckoned with its neighbours on the loop at their own
// set-points.
//
// Units: kelvin.
// Range: outdoor temperatures below the set-points. A load that no water temperature
// can meet gives [Hottest] as the need.
// Source: steady balance; the form is the characteristic heating curve of the
// handbooks, Ts = Ti + ΔT·φ^(1/n) for one emitter.
// Errors: a circuit that heats nothing ([Circuit.Check]).
func (c Circuit) Solve(outdoor []units.Temperature, tolerance units.Difference) ([]At, error) {
	if err := c.Check(); err != nil {
		return nil, fmt.Errorf("circuit %q: %w", c.Name, err)
	}
	out := make([]At, len(outdoor))
	all := make([]units.Temperature, len(outdoor)*len(c.Rooms))
	needs := c.needs()
	for k, to := range outdoor {
		a := At{Outdoor: to, Needs: all[k*len(c.Rooms) : (k+1)*len(c.Rooms)]}
		for i := range c.Rooms {
			r := &c.Rooms[i]
			q := r.Load(to, r.Setpoint)
			a.Load += q
			a.Needs[i] = needs.supply(i, q, 0)
			if a.Needs[i] > a.Supply {
				a.Supply, a.Leads = a.Needs[i], i
			}
			q = r.Load(to, r.Setpoint.Add(-tolerance))
			a.Least = max(a.Least, needs.supply(i, q, tolerance))
		}
		out[k] = a
	}
	return out, nil
}

// needs answers many questions for the supply of one circuit. On a series loop one
// answer costs a walk through all emitters; but the heat of a room at a fixed room
// temperature depends on the supply alone, not on the weather, so the rooms' heat is
// tabulated once, all rooms in one walk, and read backwards.
type needs struct {
	circuit Circuit
	tables  map[units.Difference]table // by how far the rooms are below their set-points
}

// table holds the heat of every room at rising supplies.
type table struct {
	from units.Temperature
	heat [][]float64 // by room, in W
}

// tableStep is fine enough that a straight line between two supplies misses a power
// law of exponent 1.4 by less than 0.02 K where a house heats.
const tableStep = 1.0

func (c Circuit) needs() *needs {
	return &needs{circuit: c, tables: make(map[units.Difference]table)}
}

// supply is what room i needs to get the heat q while the rooms are below their
// set-points by the given difference.
func (n *needs) supply(i int, q units.Power, below units.Difference) units.Temperature {
	inside := n.circuit.Rooms[i].Setpoint.Add(-below)
	if q <= 0 {
		return inside
	}
	if len(n.circuit.Loop) == 0 {
		t, err := n.circuit.Need(i, q, inside)
		if err != nil {
			return Hottest
		}
		return t
	}
	t, ok := n.tables[below]
	if !ok {
		t = n.circuit.tabulate(below)
		n.tables[below] = t
	}
	return t.readBackwards(i, float64(q))
}

func (c Circuit) tabulate(below units.Difference) table {
	t := table{from: c.Rooms[0].Setpoint, heat: make([][]float64, len(c.Rooms))}
	for _, r := range c.Rooms {
		t.from = min(t.from, r.Setpoint)
	}
	t.from = t.from.Add(-below)
	steps := int(float64(Hottest-t.from)/tableStep) + 1
	all := make([]float64, len(c.Rooms)*(steps+1))
	for i := range t.heat {
		t.heat[i] = all[i*(steps+1) : (i+1)*(steps+1)]
	}
	for s := 0; s <= steps; s++ {
		water := t.at(float64(s))
		for _, stop := range c.Loop {
			r := &c.Rooms[stop.Room]
			h := r.Emitters[stop.Emitter].Output(water, c.Flow, r.Setpoint.Add(-below))
			t.heat[stop.Room][s] += float64(h.Room)
			water = h.Return
		}
	}
	return t
}

func (t table) at(step float64) units.Temperature {
	return min(t.from+units.Temperature(step*tableStep), Hottest)
}

func (t table) readBackwards(i int, q float64) units.Temperature {
	heat := t.heat[i]
	lo, hi := 0, len(heat)-1
	if q >= heat[hi] {
		return Hottest
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if heat[mid] <= q {
			lo = mid
		} else {
			hi = mid
		}
	}
	f := 0.0
	if d := heat[hi] - heat[lo]; d > 0 {
		f = (q - heat[lo]) / d
	}
	return t.at(float64(lo) + f)
}

// Return gives the temperature of the water coming back from the circuit while it
// delivers a load at a supply temperature.
//
//	Tr = Ts − Q/C
//
// Units: W, W/K, kelvin.
// Range: the flow of the whole circuit, with losses of emitters to the back or below
// counted in water; not below the coldest room.
// Source: heat balance of the water.
func (c Circuit) Return(supply units.Temperature, water units.Power) units.Temperature {
	if c.Flow <= 0 {
		return supply
	}
	floor := units.Temperature(math.Inf(1))
	for _, r := range c.Rooms {
		floor = min(floor, r.Setpoint)
	}
	return max(supply-units.Temperature(float64(water)/float64(c.Flow)), min(floor, supply))
}

// Water gives the heat taken from the water and the heat given to the rooms with
// every room at its set-point and every valve open.
//
// Units: W; kelvin.
// Range: any supply.
// Source: emitter laws of package emitter.
func (c Circuit) Water(supply units.Temperature) (water, rooms units.Power) {
	inside := make([]units.Temperature, len(c.Rooms))
	for i, r := range c.Rooms {
		inside[i] = r.Setpoint
	}
	water, by := c.WaterAt(supply, inside)
	for _, q := range by {
		rooms += q
	}
	return water, rooms
}

// WaterAt gives the heat taken from the water and the heat given to each room with every
// room at a temperature of its own and every valve open.
//
// Units: W; kelvin.
// Range: any supply; one temperature for each room.
// Source: emitter laws of package emitter.
func (c Circuit) WaterAt(supply units.Temperature, inside []units.Temperature) (water units.Power, rooms []units.Power) {
	rooms = make([]units.Power, len(c.Rooms))
	if len(c.Loop) > 0 {
		t := supply
		for _, s := range c.Loop {
			h := c.Rooms[s.Room].Emitters[s.Emitter].Output(t, c.Flow, inside[s.Room])
			water, t = water+h.Water, h.Return
			rooms[s.Room] += h.Room
		}
		return water, rooms
	}
	for i := range c.Rooms {
		w, q := c.RoomAt(i, supply, inside[i])
		water, rooms[i] = water+w, q
	}
	return water, rooms
}

// RoomAt gives the heat that the emitters of one room take from the water and give to the
// room at a temperature, with its valves open.
//
// Units: W; kelvin.
// Range: any supply; a parallel circuit, where each emitter has its own stream.
// Source: emitter laws of package emitter.
func (c Circuit) RoomAt(i int, supply, inside units.Temperature) (water, room units.Power) {
	for k, e := range c.Rooms[i].Emitters {
		h := e.Output(supply, c.Rooms[i].Flows[k], inside)
		water, room = water+h.Water, room+h.Room
	}
	return water, room
}

// Ideal gives the supply that the governing room needs at each outdoor temperature:
// [Circuit.Solve] without its particulars, for when it is asked for a thousand times.
//
// Units: kelvin.
// Range: a circuit that passes [Circuit.Check].
// Source: as [Circuit.Solve].
func (c Circuit) Ideal(outdoor []units.Temperature) []units.Temperature {
	out := make([]units.Temperature, len(outdoor))
	needs := c.needs()
	for k, to := range outdoor {
		for i := range c.Rooms {
			r := &c.Rooms[i]
			out[k] = max(out[k], needs.supply(i, r.Load(to, r.Setpoint), 0))
		}
	}
	return out
}
