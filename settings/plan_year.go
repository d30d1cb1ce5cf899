package settings

import (
	"math"

	"curvewright/curve"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/units"
)

// What does a simulation of the year need beside the plan: what the control can hold,
// what the household wants, and what else the sheet sets?

// PlanYear is the part of a [Plan] for playing and for searching settings.
type PlanYear struct {
	Circuits []PlanShape // in the order of [Plan.Circuits]

	Wanted  PlanProgram // by the household; nothing lowered if it wants to hold
	Program PlanProgram // on the sheet
	// HoldBelow is the outdoor temperature below which the sheet says not to lower.
	HoldBelow units.Temperature
	Points    int              // switching points a day that the control has
	RoomStep  units.Difference // of a set-point in the control

	RoomInfluence bool         // whether the control can correct by a room sensor
	Influence     units.Number // that the sheet sets, kelvin of supply for each kelvin in the room

	CutOff     curve.Span[units.Temperature] // what the control can hold, both 0 if it has none
	CutOffStep units.Difference

	Rest      units.Time        // shortest pause of the burner on the sheet
	FrostRoom units.Temperature // the sheet's frost guard by a room, 0 without
	// FrostOutdoor is its guard by the outdoor sensor, which runs the pumps; 0 without.
	FrostOutdoor units.Temperature
	Pipes        []string // places outside the heated shell with heating pipes

	Draws         hotwater.Pattern  // of a usual day; no draws where they are not known
	Cold          units.Temperature // of the cold water
	PriorityLimit units.Time
}

// PlanShape is what a control can hold for one circuit, and what the circuit needs.
type PlanShape struct {
	Shape   curve.Shape
	Room    units.Temperature // set-point that a slope turns about
	Targets []curve.Target
}

// PlanProgram is a day with times at which the house is warm and a lowering between
// them. Without times it is warm all day.
type PlanProgram struct {
	Lower units.Difference
	Warm  []PlanTimes
}

// PlanTimes is from one time of day to another.
type PlanTimes struct{ From, To units.Time }

// slight is the room influence that the sheet calls so, kelvin of supply for each kelvin
// in the room (common practice, 1 to 3).
const slight = units.Number(2)

// usualPause is the shortest pause of a burner of which nothing is known (common
// practice).
const usualPause = units.Time(300)

// preheat is how long before waking a lowered house begins to warm (common practice).
const preheat = units.Time(2 * 3600)

// holdAbove is how far above the design day nothing is lowered any more.
const holdAbove = units.Difference(15)

// yearly fills in that part.
func (m *model) yearly(solved []solvedCircuit, b burner) PlanYear {
	y := PlanYear{
		Wanted: m.wantedProgram(m.commonRoom()), HoldBelow: m.design.Add(holdAbove), Points: m.control.points, RoomStep: m.control.roomStep.Difference(),
		RoomInfluence: m.control.room, Pipes: m.job.Frost.PipesOutside, Rest: usualPause,
	}
	y.Program, _ = m.sheetProgram(m.commonRoom())
	if len(y.Program.Warm) == 0 {
		y.HoldBelow = 0
	}
	if m.control.room && len(m.rooms) <= 2 {
		y.Influence = slight
	}
	if c := m.control.cutOff; c != nil {
		y.CutOff, y.CutOffStep = *c, m.control.cutStep.Difference()
	}
	if b.cycling.LeastOff > 0 {
		y.Rest = b.cycling.LeastOff
	}
	f := m.readFrost()
	if f.choose(m.design).room {
		y.FrostRoom = m.control.roomStep.Up(frostRoom)
	}
	y.FrostOutdoor = m.pumpsBelow()
	for i, s := range solved {
		c := &m.circuits[i]
		p := PlanShape{Shape: c.shape, Room: c.setpoint}
		p.Targets = m.targets(c, s.at)
		y.Circuits = append(y.Circuits, p)
	}
	if by := hotwater.Arrangement(m.job.HotWater.By); by == hotwater.OwnPump || by == hotwater.ThreeWay || by == hotwater.Combi {
		if h, _, err := m.readHotWater(); err == nil && m.readPattern(&h) == nil {
			y.Draws, y.Cold, y.PriorityLimit = h.pattern, h.cold.Value, h.advice.Limit
		}
	}
	return y
}

// wantedProgram is what the household asks for.
func (m *model) wantedProgram(setpoint units.Temperature) PlanProgram {
	p := m.job.Program
	if p.Wish == "" || p.Wish == "hold" {
		return PlanProgram{}
	}
	out := PlanProgram{Lower: max(0, setpoint.Sub(p.Lower.Or(setpoint.Add(-deepestNight)).Value))}
	out.Warm = warmTimes(p, 0)
	return out
}

// warmTimes are the times of day at which somebody is up and at home, each begun earlier
// by so much.
func warmTimes(p job.Program, earlier units.Time) []PlanTimes {
	before := func(t units.Time) units.Time { return units.Time(math.Mod(float64(t-earlier)+86400, 86400)) }
	wake, bed := before(timeOfDay(p.WakeUp, "06:30")), timeOfDay(p.Bed, "22:30")
	if p.Wish == "away" {
		return []PlanTimes{{wake, timeOfDay(p.Leave, "08:00")}, {before(timeOfDay(p.Return, "17:00")), bed}}
	}
	return []PlanTimes{{wake, bed}}
}

// sheetProgram is what the sheet sets of it, and whether the wish was for more.
func (m *model) sheetProgram(setpoint units.Temperature) (PlanProgram, bool) {
	wanted := m.wantedProgram(setpoint)
	floors := 0
	for i := range m.circuits {
		if m.circuits[i].family == "floor" {
			floors++
		}
	}
	if len(wanted.Warm) == 0 || floors == len(m.circuits) || m.control.points < 2 {
		return PlanProgram{}, false
	}
	p := m.job.Program
	if m.control.points < 4 {
		p.Wish = "night"
	}
	lower := m.control.roomStep.Nearest(setpoint.Add(-min(wanted.Lower, deepestNight)))
	return PlanProgram{Lower: setpoint.Sub(lower), Warm: warmTimes(p, preheat)}, wanted.Lower > deepestNight+0.01
}
