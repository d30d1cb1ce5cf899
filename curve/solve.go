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
			a.Needs[i] = needs.supply(i, q, r.Setpoint)
			if a.Needs[i] > a.Supply {
				a.Supply, a.Leads = a.Needs[i], i
			}
			lower := r.Setpoint.Add(-tolerance)
			least := needs.supply(i, r.Load(to, lower), lower)
			a.Least = max(a.Least, least)
		}
		out[k] = a
	}
	return out, nil
}

// needs answers many questions for the supply of one circuit. A room's heat at a
// fixed room temperature depends on the supply alone, not on the weather, so in a
// series loop, where one answer costs a walk through all emitters, each room's heat
// is tabulated once and read backwards.
type needs struct {
	circuit Circuit
	tables  map[tableKey][]float64
}

type tableKey struct {
	room   int
	inside units.Temperature
}

// tableStep is fine enough that a straight line between two supplies misses a power
// law of exponent 1.4 by less than 0.02 K.
const tableStep = 1.0

func (c Circuit) needs() *needs {
	return &needs{circuit: c, tables: make(map[tableKey][]float64)}
}

func (n *needs) supply(i int, q units.Power, inside units.Temperature) units.Temperature {
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
	key := tableKey{i, inside}
	table, ok := n.tables[key]
	if !ok {
		steps := int(float64(Hottest-inside)/tableStep) + 1
		table = make([]float64, 0, steps+1)
		for s := 0; s <= steps; s++ {
			t := min(inside+units.Temperature(float64(s)*tableStep), Hottest)
			table = append(table, float64(n.circuit.heat(i, t, inside)))
		}
		n.tables[key] = table
	}
	return readBackwards(table, float64(q), inside)
}

func readBackwards(table []float64, q float64, inside units.Temperature) units.Temperature {
	lo, hi := 0, len(table)-1
	if q >= table[hi] {
		return Hottest
	}
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if table[mid] <= q {
			lo = mid
		} else {
			hi = mid
		}
	}
	f := 0.0
	if d := table[hi] - table[lo]; d > 0 {
		f = (q - table[lo]) / d
	}
	return min(inside+units.Temperature((float64(lo)+f)*tableStep), Hottest)
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
	if len(c.Loop) > 0 {
		t := supply
		for _, s := range c.Loop {
			h := c.Rooms[s.Room].Emitters[s.Emitter].Output(t, c.Flow, c.Rooms[s.Room].Setpoint)
			water, rooms, t = water+h.Water, rooms+h.Room, h.Return
		}
		return water, rooms
	}
	for i := range c.Rooms {
		r := &c.Rooms[i]
		for k, e := range r.Emitters {
			h := e.Output(supply, r.Flows[k], r.Setpoint)
			water, rooms = water+h.Water, rooms+h.Room
		}
	}
	return water, rooms
}
