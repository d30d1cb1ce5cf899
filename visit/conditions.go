package visit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"curvewright/refuse"
	"curvewright/units"
)

// Under which conditions is read?

// State is how long the house has been as it is.
type State string

// The states.
const (
	// Steady is the usual one: every room thermostat and valve turned fully up, the same
	// calls for half an hour. The rooms are as warm as measured, or at their set-points.
	Steady State = "steady"
	// Settled is the same for days: each room is where the water leaves it.
	Settled State = "settled"
	// Held is a house left to itself for days, its valves and thermostats holding the rooms.
	Held State = "held"
	// Fresh is a house or a slab just switched on.
	Fresh State = "fresh"
)

// Conditions are what whoever reads knows without reading the plant.
type Conditions struct {
	Outdoor units.Temperature // by a thermometer in the shade
	State   State             // empty for Steady
	Calling []string          // circuits that call, by name; nil for all of them
	Tank    bool              // the hot-water tank calls too
	Rooms   []RoomAir         // measured; the others are taken at their set-points
	// Since and Start belong to Fresh: how long it has been on, and how warm rooms and
	// slabs were then.
	Since units.Time
	Start units.Temperature
}

// RoomAir is how warm a room is.
type RoomAir struct {
	Room string
	Air  units.Temperature
}

// How long the same calls must have lasted for the water to be steady: common practice.
const steadyAfter = units.Time(1800)

// state is the conditions made ready.
type state struct {
	Conditions
	outdoor float64
	calls   []bool    // by circuit
	air     []float64 // by room; 0 where not measured
	// unheard leaves out run and pause of the burner, which take longest to work out and are
	// not always among what is asked.
	unheard bool
}

// prepare checks the conditions.
func (h *House) prepare(c Conditions) (state, error) {
	if c.State == "" {
		c.State = Steady
	}
	if !slices.Contains([]State{Steady, Settled, Held, Fresh}, c.State) {
		return state{}, &refuse.Error{What: "state of the house", Given: fmt.Sprintf("%q", string(c.State)), Accept: "steady, settled, held or fresh"}
	}
	s := state{Conditions: c, outdoor: float64(c.Outdoor), calls: make([]bool, len(h.plant.circuits)), air: make([]float64, len(h.plant.rooms))}
	err := refuse.Within("outdoor temperature", c.Outdoor, units.Celsius(-50), units.Celsius(40))
	if c.State == Fresh {
		err = cmp.Or(err, refuse.Within("time since it was switched on", c.Since, 0, units.Hours(24*30)),
			refuse.Within("temperature when it was switched on", c.Start, units.Celsius(-10), units.Celsius(35)))
	}
	if c.Tank && h.plant.tank == nil {
		err = cmp.Or(err, fmt.Errorf("calling: the tank is said to call, but the job has no hot-water tank that could be worked out"))
	}
	for i := range s.calls {
		s.calls[i] = c.Calling == nil
	}
	for _, name := range c.Calling {
		i := slices.IndexFunc(h.plant.circuits, func(n circuitNode) bool { return strings.EqualFold(n.name, name) })
		if i < 0 {
			err = cmp.Or(err, fmt.Errorf("calling: there is no circuit %q; accepted: %s", name, strings.Join(h.circuitNames(), ", ")))
			continue
		}
		s.calls[i] = true
	}
	for _, r := range c.Rooms {
		i := slices.IndexFunc(h.plant.rooms, func(n roomNode) bool { return strings.EqualFold(n.name, r.Room) })
		if i < 0 {
			err = cmp.Or(err, fmt.Errorf("rooms: there is no room %q; accepted: %s", r.Room, strings.Join(h.roomNames(), ", ")))
			continue
		}
		err = cmp.Or(err, refuse.Within("air in "+r.Room, r.Air, units.Celsius(-10), units.Celsius(45)))
		s.air[i] = float64(r.Air)
	}
	return s, err
}

func (h *House) circuitNames() []string {
	var names []string
	for _, c := range h.plant.circuits {
		names = append(names, c.name)
	}
	return names
}

func (h *House) roomNames() []string {
	var names []string
	for _, r := range h.plant.rooms {
		names = append(names, r.name)
	}
	return names
}
