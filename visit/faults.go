package visit

import (
	"fmt"
	"math"

	"curvewright/pipework"
	"curvewright/units"
)

// What can be wrong? Each fault is a change of the plant, with at most one figure that is
// free within a range; what it does to the thermometers follows from the plant alone.

// Fault names what is wrong.
type Fault string

// The faults.
const (
	Nothing           Fault = "nothing wrong"
	LowPressure       Fault = "pressure too low"
	PumpOff           Fault = "circulator not running"
	AirInCircuit      Fault = "air in the circuit"
	BranchShut        Fault = "no flow through a room's emitters"
	DirtyFilter       Fault = "blocked filter"
	PumpSlow          Fault = "pump on too low a speed"
	PumpFast          Fault = "pump on too high a speed"
	BoilerPumpSlow    Fault = "boiler pump moves too little"
	BoilerPumpFast    Fault = "boiler pump moves too much"
	GhostFlow         Fault = "flow through a circuit at rest"
	ValveReversed     Fault = "mixing valve reversed"
	ValveStuck        Fault = "mixing valve stuck"
	BoilerSensorsSwap Fault = "boiler sensors swapped"
	SensorsSwapped    Fault = "supply and return sensors swapped"
	SensorUnused      Fault = "sensor behind the separator not used"
	WarmOutdoorSensor Fault = "outdoor sensor in the sun or in warm air"
	WrongOutdoor      Fault = "outdoor sensor of another kind, or broken"
	CurvesSwapped     Fault = "curves of two circuits exchanged"
	WrongCurve        Fault = "another curve entered"
	LowLimit          Fault = "supply limit too low"
	LowOutput         Fault = "output limit too low"
	LowCutOff         Fault = "cut-off too low"
	SetBack           Fault = "lowered by the program"
	WeakEmitters      Fault = "emitters give less than rated"
	SmallEmitter      Fault = "emitter of a room too small"
	RoomLosesMore     Fault = "room loses more than reckoned"
	PriorityStuck     Fault = "hot-water priority stuck"
	PoorCoil          Fault = "tank takes up too little"
	GasRate           Fault = "gas rate off the rating plate"
)

// Faults lists all but [Nothing].
//
// Range: no arguments.
// Source: what goes wrong with outdoor reset in houses: common practice.
func Faults() []Fault {
	var out []Fault
	for _, k := range faultKinds {
		out = append(out, k.fault)
	}
	return out
}

// faultKind is what all causes of a fault share.
type faultKind struct {
	fault Fault
	prior float64 // weight before anything is read (common practice), of all its places together
	order int     // of repair: 1 flow and air, 2 hydraulics, 3 sensors, 4 curve and limits, 5 program, 6 emitters and rooms, 7 hot water, 8 gas
}

// The order of repair: tuning a curve over a hydraulic fault hides it (common practice).
var faultKinds = []faultKind{
	{LowPressure, 1.5, 1}, {PumpOff, 1.5, 1}, {AirInCircuit, 1.5, 1}, {BranchShut, 1.5, 1}, {DirtyFilter, 1, 1},
	{PumpSlow, 1.5, 2}, {PumpFast, 1.5, 2}, {BoilerPumpSlow, 1, 2}, {BoilerPumpFast, 1, 2}, {GhostFlow, 1, 2}, {ValveReversed, 1, 2}, {ValveStuck, 1, 2},
	{BoilerSensorsSwap, 0.5, 3}, {SensorsSwapped, 0.7, 3}, {SensorUnused, 0.7, 3}, {WarmOutdoorSensor, 2, 3}, {WrongOutdoor, 1, 3},
	{CurvesSwapped, 0.7, 4}, {WrongCurve, 2, 4}, {LowLimit, 1, 4}, {LowOutput, 1, 4}, {LowCutOff, 1, 4},
	{SetBack, 1, 5}, {WeakEmitters, 1, 6}, {SmallEmitter, 1, 6}, {RoomLosesMore, 1, 6},
	{PriorityStuck, 0.7, 7}, {PoorCoil, 1, 7}, {GasRate, 1, 8},
}

// nothingPrior is the weight of a sound plant: of five visits to a new plant one finds a
// fault that a thermometer shows (common practice).
const nothingPrior = 0.8

// cause is a fault at a place, with its free figure.
type cause struct {
	fault         Fault
	circuit, room int // −1 where it has none
	other         int // second circuit of an exchange
	prior         float64
	order         int
	ranges        [][2]float64 // of the free figure; none for a fault without one
	apply         func(c *change, x float64)
	says          func(x float64) string // the figure in words
}

// causes lists all that could be wrong under these conditions.
func (h *House) causes(s *state) []cause {
	none := h.plant.asDrawn()
	sound := h.plant.run(s, &none)
	var out []cause
	for _, k := range faultKinds {
		list := h.places(k.fault, s, &sound)
		for i := range list {
			list[i].fault, list[i].order = k.fault, k.order
			list[i].prior = k.prior / float64(len(list))
		}
		out = append(out, list...)
	}
	total := 0.0
	for _, c := range out {
		total += c.prior
	}
	for i := range out {
		out[i].prior *= (1 - nothingPrior) / total
	}
	return append(out, cause{fault: Nothing, circuit: -1, room: -1, prior: nothingPrior, apply: func(*change, float64) {}, says: func(float64) string { return "" }})
}

func span(low, high float64) [][2]float64 { return [][2]float64{{low, high}} }

// below and above begin a range where the survey's own doubt ends, at two standard errors:
// nearer to one it is the survey that is off, and no fault.
func below(low, high float64, doubt units.Fraction) [][2]float64 {
	return span(low, math.Max(low+0.1, math.Min(high, 1-2*float64(doubt))))
}

func above(low, high float64, doubt units.Fraction) [][2]float64 {
	return span(math.Min(high-0.3, math.Max(low, 1+2*float64(doubt))), high)
}

// places gives a fault wherever it can be in this plant.
func (h *House) places(f Fault, s *state, sound *at) []cause {
	p := &h.plant
	kelvin := func(x float64) string { return "by " + units.Difference(x).Text(h.system) }
	share := func(x float64) string { return fmt.Sprintf("to %.0f %%", 100*x) }
	once := func(ranges [][2]float64, says func(float64) string, apply func(c *change, x float64)) []cause {
		return []cause{{circuit: -1, room: -1, ranges: ranges, apply: apply, says: says}}
	}
	quiet := func(float64) string { return "" }
	separated := p.coupling != pipework.Direct
	switch f {
	case LowPressure:
		if h.plan.Site.Filled {
			return once(span(0, 0.75), share, func(c *change, x float64) { c.pressure = x })
		}
	case DirtyFilter:
		return once(span(0.3, 0.8), share, func(c *change, x float64) { c.filter = x })
	case BoilerPumpSlow:
		if separated {
			return once(below(0.2, 0.75, h.plan.Site.Doubts.Boiler), share, func(c *change, x float64) { c.boilerFlow = x })
		}
	case BoilerPumpFast:
		if separated {
			return once(above(1.35, 3, h.plan.Site.Doubts.Boiler), share, func(c *change, x float64) { c.boilerFlow = x })
		}
	case BoilerSensorsSwap:
		return once(nil, quiet, func(c *change, _ float64) { c.turned = true })
	case SensorUnused:
		if separated && p.beyond {
			return once(nil, quiet, func(c *change, _ float64) { c.ignored = true })
		}
	case WarmOutdoorSensor:
		return once(span(2, 9), kelvin, func(c *change, x float64) { c.outdoor = x })
	case WrongOutdoor:
		return once([][2]float64{{-40, -2.5}, {5, 40}}, kelvin, func(c *change, x float64) { c.outdoor = x })
	case LowOutput:
		if sound.heat > 100 {
			return once(span(0.2, 0.9), func(x float64) string { return "to " + units.Power(x*sound.heat).Text(h.system) },
				func(c *change, x float64) { c.output = x * sound.heat / p.most })
		}
	case LowCutOff:
		if s.outdoor > float64(units.Celsius(-2)) {
			return once(nil, quiet, func(c *change, _ float64) { c.summer = true })
		}
	case SetBack:
		return once(span(2, 8), kelvin, func(c *change, x float64) { c.setback = x })
	case PriorityStuck:
		if p.tank != nil {
			return once(nil, quiet, func(c *change, _ float64) { c.priority = true })
		}
	case PoorCoil:
		if p.tank != nil && s.Tank {
			return once(span(0.25, 0.75), share, func(c *change, x float64) { c.coil = x })
		}
	case GasRate:
		return once([][2]float64{{0.6, 0.92}, {1.08, 1.4}}, share, func(c *change, x float64) { c.gas = x })
	case CurvesSwapped:
		return h.exchanges()
	case BranchShut, SmallEmitter, RoomLosesMore:
		return h.inRooms(f, s)
	default:
		return h.inCircuits(f, s, sound)
	}
	return nil
}

func (h *House) exchanges() []cause {
	var out []cause
	n := len(h.plant.circuits)
	for i := range n {
		for k := i + 1; k < n; k++ {
			curves := make([]int, n)
			for m := range curves {
				curves[m] = m
			}
			curves[i], curves[k] = k, i
			out = append(out, cause{circuit: i, room: -1, other: k, apply: func(c *change, _ float64) { c.curves = curves }, says: func(float64) string { return "" }})
		}
	}
	return out
}

// inCircuits gives the faults that sit in one circuit.
func (h *House) inCircuits(f Fault, s *state, sound *at) []cause {
	share := func(x float64) string { return fmt.Sprintf("to %.0f %%", 100*x) }
	kelvin := func(x float64) string { return "by " + units.Difference(x).Text(h.system) }
	quiet := func(float64) string { return "" }
	doubts := h.plan.Site.Doubts
	var out []cause
	for i := range h.plant.circuits {
		n := &h.plant.circuits[i]
		c := cause{circuit: i, room: -1, says: share}
		on := sound.circuits[i].on
		flow := func(c *change, x float64) { c.circuits[i].flow = x }
		// Pumps: flow goes with the speed, head with its square; in all circuits on the pump.
		pump := func(c *change, flow, head float64) {
			for _, on := range append([]int{i}, h.plan.Circuits[i].Beside...) {
				c.circuits[on].flow, c.circuits[on].head = flow, head
			}
		}
		speed := func(c *change, x float64) { pump(c, x, x*x) }
		if h.plan.Circuits[i].Borrows && (f == PumpOff || f == PumpSlow || f == PumpFast) {
			continue // the pump is told with the circuit that has it
		}
		switch f {
		case PumpOff:
			c.says, c.apply = quiet, func(c *change, _ float64) { pump(c, 0.01, 0) }
		case AirInCircuit:
			c.ranges, c.apply = span(0.06, 0.45), flow
		case PumpSlow:
			c.ranges, c.apply = below(0.45, 0.85, doubts.Flows[i]), speed
		case PumpFast:
			c.ranges, c.apply = above(1.2, 2.5, doubts.Flows[i]), speed
		case GhostFlow:
			on = !on && !n.mixed && sound.heating
			c.ranges, c.apply = span(0.03, 0.4), func(c *change, x float64) { c.circuits[i].ghost = x }
		case ValveReversed:
			on = on && n.mixed
			c.ranges, c.apply = [][2]float64{{1, 1}, {0, 0}}, func(c *change, x float64) { c.circuits[i].stuck = x }
			c.says = func(x float64) string {
				if x > 0.5 {
					return "it ends fully open to the boiler"
				}
				return "it ends shut"
			}
		case ValveStuck:
			on = on && n.mixed
			c.ranges, c.apply = span(0, 1), func(c *change, x float64) { c.circuits[i].stuck = x }
			c.says = func(x float64) string { return "at " + units.Fraction(x).Text(h.system) + " of hot water" }
		case SensorsSwapped:
			on = on && n.mixed
			c.says, c.apply = quiet, func(c *change, _ float64) { c.circuits[i].swap = true }
		case WrongCurve:
			c.ranges, c.says, c.apply = [][2]float64{{-25, -1.5}, {1.5, 25}}, kelvin, func(c *change, x float64) { c.circuits[i].curve = x }
		case LowLimit:
			wanted := sound.circuits[i].wanted
			c.ranges, c.apply = span(2, 30), func(c *change, x float64) { c.circuits[i].limit = max(283, wanted-x) }
			c.says = func(x float64) string { return "at " + units.Temperature(wanted-x).Text(h.system) }
		case WeakEmitters:
			c.ranges, c.apply = below(0.35, 0.8, doubts.Emitters[i]), func(c *change, x float64) { c.circuits[i].gives = x }
		default:
			on = false
		}
		if on {
			out = append(out, c)
		}
	}
	return out
}

// inRooms gives the faults that sit in one room.
func (h *House) inRooms(f Fault, s *state) []cause {
	share := func(x float64) string { return fmt.Sprintf("to %.0f %%", 100*x) }
	doubts := h.plan.Site.Doubts
	var out []cause
	for r := range h.plant.rooms {
		circuit, alone, loop := -1, 0, false
		for i := range h.plant.circuits {
			for _, e := range h.plant.circuits[i].emitters {
				if e.room == r && s.calls[i] {
					circuit, loop = i, h.plant.circuits[i].series
				}
			}
		}
		if circuit < 0 {
			continue
		}
		for _, e := range h.plant.circuits[circuit].emitters {
			if e.room != r {
				alone++
			}
		}
		c := cause{circuit: circuit, room: r, says: share}
		switch {
		case f == BranchShut && alone > 0 && !loop: // the only room's branch is the circuit itself
			c.says, c.apply = func(float64) string { return "" }, func(c *change, _ float64) { c.rooms[r].flow = 0 }
		case f == SmallEmitter:
			c.ranges, c.apply = below(0.25, 0.75, doubts.Emitters[circuit]), func(c *change, x float64) { c.rooms[r].gives = x }
		case f == RoomLosesMore && (s.State == Settled || s.State == Held):
			doubt := units.Fraction(math.Hypot(float64(doubts.Rooms[r]), float64(doubts.House)))
			c.ranges, c.apply = above(1.3, 2.5, doubt), func(c *change, x float64) { c.rooms[r].loss = x }
		default:
			continue
		}
		out = append(out, c)
	}
	return out
}
