package settings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/fluid"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// What could freeze, what watches it, how much time is there, and what stays unwatched
// whatever is set?

// Thresholds of frost protection, common practice: outdoors above freezing by what a
// sensor may err and what wind takes from a pipe; in the room by what corners and pipes
// in outer walls are colder than the sensor.
const (
	frostOutdoor = units.Temperature(276.15) // 3 °C
	frostRoom    = units.Temperature(280.15) // 7 °C
	endangered   = units.Temperature(278.15) // 5 °C in the room: pipes in outer walls are near freezing
	freezing     = units.Temperature(273.15)
	// soon is how fast a house must cool to want the room watched beside the pipes.
	soon = units.Time(24 * 3600)
)

// frost is what the choice rests on.
type frost struct {
	places  string // where heating pipes run outside the heated shell
	outdoor bool   // whether the control can watch the outdoor sensor
	room    bool   // and a room, with a sensor in it
	fill    string // antifreeze in words
	covered bool   // whether the fill stands the design day
	alone   bool
	house   leftCold
	first   leftCold // the room that freezes first
	cools   bool     // whether there was enough to work out the cooling
}

func (m *model) readFrost() frost {
	j := m.job.Frost
	offers := m.control.frostBy
	if len(offers) == 0 {
		offers = []string{"outdoor"}
	}
	f := frost{places: strings.Join(j.PipesOutside, ", "), outdoor: slices.Contains(offers, "outdoor"),
		room: j.RoomSensor == "yes" && slices.Contains(offers, "room"), alone: j.LeftAlone == "yes"}
	f.fill, f.covered = m.antifreeze(f.places)
	var err error
	if f.house, err = m.houseCools(); err != nil {
		return f // the lines go without times
	}
	f.cools, f.first = true, f.house
	earliest := units.Time(math.Inf(1))
	for _, r := range m.rooms {
		c, err := m.cools(r.name, r.loss, r.setpoint, r.area)
		if err != nil {
			continue // a room that loses nothing does not freeze
		}
		if t, freezes := c.reaches(freezing, m.design); freezes && t < earliest {
			earliest, f.first = t, c
		}
	}
	return f
}

// antifreeze says what the fill stands, and whether that is colder than the design day.
func (m *model) antifreeze(places string) (words string, covered bool) {
	s := m.job.System
	if s.Antifreeze == "" || s.Antifreeze == "none" {
		if m.job.Frost.Glycol == "yes" && s.Antifreeze == "" {
			return "Glycol of unknown strength: measure it, and its pH, every year.", false
		}
		return "", false
	}
	if !s.Share.Set {
		return upper(s.Antifreeze) + " of unknown strength: measure it, and its pH, every year.", false
	}
	kind := fluid.PropyleneGlycol
	if s.Antifreeze == "ethylene glycol" {
		kind = fluid.EthyleneGlycol
	}
	point, err := freezePoint(kind, s.Share.Value)
	if err != nil {
		return upper(s.Antifreeze) + ": " + err.Error() + ".", false
	}
	if covered = point <= m.design; !covered && places != "" {
		m.weakFill(kind, s.Share.Value, point, places)
	}
	return fmt.Sprintf("The fill's first ice comes at %s.", m.say(point)), covered
}

func freezePoint(kind fluid.Kind, share units.Fraction) (units.Temperature, error) {
	mix, err := fluid.GlycolByVolume(kind, share)
	if err != nil {
		return 0, err
	}
	return mix.FreezePoint()
}

// weakFill names the share that would stand the design day, or the frost target where
// that is colder.
func (m *model) weakFill(kind fluid.Kind, share units.Fraction, point units.Temperature, places string) {
	f := Finding{Severity: "note", Text: fmt.Sprintf(
		"The antifreeze is too thin for the pipes in %s: its first ice comes at %s and the design day has %s.", places, m.say(point), m.say(m.design)),
		Cures: []string{"frost protection by the outdoor sensor, as on this sheet"}}
	target := m.design
	if t := m.job.System.FrostTarget; t.Set {
		target = min(target, t.Value)
	}
	if need, err := pipework.GlycolFor(kind, target); err == nil && need.ByVolume > share {
		f.Cures = append([]string{fmt.Sprintf("%s of it by volume, which stands %s", m.say(leastGlycol(need)), m.say(target))}, f.Cures...)
	}
	m.findings = append(m.findings, f)
}

// frostChoice is what to set and what that leaves.
type frostChoice struct {
	outdoor, room             bool
	value, why, left, instead string
}

func (f *frost) choose(design units.Temperature) frostChoice {
	pipes := f.places != "" && !f.covered
	quick := false
	if f.cools {
		t, gets := f.house.reaches(endangered, design)
		quick = gets && t < soon
	}
	c := frostChoice{left: "Unprotected: water pipes in outer walls, and rooms far from the sensor or shut off."}
	switch {
	case pipes && f.outdoor && f.room && (f.alone || quick):
		c.outdoor, c.room, c.value = true, true, "outdoor and room"
		c.why = "For the pipes in " + f.places + ", and for a house that cools."
	case f.outdoor && (pipes || !f.room):
		c.outdoor, c.value = true, "outdoor"
		c.why = "No room sensor watches the house, so this one must."
		if pipes {
			c.why = "It alone knows when pipes in " + f.places + " are in danger."
		}
		c.left = "Unprotected: rooms that cool by a fault in mild weather, shut-off rooms, water pipes in outer walls."
	case f.room:
		c.room, c.value = true, "room"
		c.why = "All pipes are inside the heated shell."
		switch {
		case pipes:
			c.why = "The control watches nothing else."
		case f.places != "":
			c.why = "The fill stands the design day; the room is left."
		}
	default:
		c.value, c.why = "connect a room sensor first", "The control can watch only a room, and no room sensor is connected."
		c.left = "Unprotected: everything."
		c.instead = "Until a room sensor is connected, leave the heating on in winter and never on standby."
	}
	if pipes && !c.outdoor {
		c.left = "Unprotected: the pipes in " + f.places + "."
		c.instead = "A room sensor cannot see the pipes in " + f.places + ": insulate and heat-trace them, or fill with antifreeze, as local code allows."
	}
	return c
}

// frostLines are what is set against frost, and what belongs beside it: how long the
// house holds when the heat fails.
func (m *model) frostLines() (lines, beside []Line) {
	f := m.readFrost()
	c := f.choose(m.design)
	first := Line{ID: "frost", Label: "Frost protection", Value: c.value, Why: c.why, TooLow: c.left, Instead: c.instead,
		Caution: "Frost: works only while power and fuel last; guards no water pipe and no outdoor condensate drain.",
		Working: practice("Frost protection", "pipes outside the heated shell: outdoor; a house left alone or quick to cool: room as well; pump before burner; antifreeze that stands the design day: room")}
	if f.fill != "" {
		first.Why += " " + f.fill
	}
	lines = []Line{first}
	if c.outdoor {
		lines = append(lines, Line{ID: "frost.outdoor", Label: "Frost, outdoors below", Value: m.control.step.Text(m.control.step.Up(frostOutdoor)),
			Why:     "Above freezing: sensors err, and wind chills a pipe.",
			TooHigh: "Pumps run through mild nights.", TooLow: "A pipe freezes before anything stirs.",
			Working: practice("Frost threshold outdoors", m.pair("37 °F", "3 °C")+": 2 K for the sensor, 1 K for wind")})
	}
	if c.room {
		lines = append(lines, Line{ID: "frost.room", Label: "Frost, room below", Value: m.control.roomStep.Text(m.control.roomStep.Up(frostRoom)),
			Why:     "Corners and outer walls are colder than the sensor.",
			TooHigh: "An empty house burns fuel for nobody.", TooLow: "The coldest corner freezes first.",
			Working: practice("Frost threshold in the room", "7 °C (45 °F); 45 to 50 °F is usual")})
	}
	if f.cools {
		hours := m.frostHours(f)
		beside = append(beside, hours)
		m.emptyHouse(f, hours)
	}
	if c.instead != "" && f.places != "" && !f.covered {
		m.findings = append(m.findings, Finding{Severity: "note",
			Text:  "Nothing watches the heating pipes in " + f.places + ": they can freeze and burst while the house is warm.",
			Cures: []string{"antifreeze that stands the design day, as local code allows", "insulation and a heating cable", "moving the pipes into the heated shell"}})
	}
	return lines, beside
}

// frostHours says how much time there is when the heat fails on the design day.
func (m *model) frostHours(f frost) Line {
	l := Line{ID: "frost.hours", Label: "Without heat", Value: m.coldAfter(f.house),
		Why:    "Design day, boiler off.",
		TooLow: "An empty house without an alarm has only this long before pipes burst."}
	if t, freezes := f.first.reaches(freezing, m.design); freezes && f.first.name != f.house.name && len(m.rooms) > 1 {
		l.Why += fmt.Sprintf(" %s: %s in %s.", f.first.name, m.say(freezing), hours(t))
	}
	end, _ := f.house.loss.RoomWith(0, m.design)
	l.Working = []working.Step{f.house.working(), {Name: "Cooling of the house without heat", Formula: "T = T∞ + (T0 − T∞)·e^(−t/τ), solved for t",
		Inputs: []working.Input{
			{Symbol: "T0", Meaning: "rooms at the start", Value: f.house.start},
			{Symbol: "T∞", Meaning: "where the house ends up, nobody in it", Value: end},
			{Symbol: "τ", Meaning: "time constant", Value: f.house.constant},
		},
		Result: working.Input{Symbol: "T", Meaning: l.Value, Value: freezing},
		Range:  "steady weather of the design day, no sun; one capacity, rooms by themselves", Source: "solution of C·dT/dt = −H·(T − To), as ISO 13790"}}
	return l
}

// coldAfter writes when it comes near freezing and when it freezes.
func (m *model) coldAfter(c leftCold) string {
	near, nears := c.reaches(endangered, m.design)
	ice, freezes := c.reaches(freezing, m.design)
	switch {
	case !nears:
		return "stays above " + m.say(endangered)
	case !freezes:
		return m.say(endangered) + " in " + hours(near) + ", never " + m.say(freezing)
	}
	return m.say(endangered) + " in " + hours(near) + ", " + m.say(freezing) + " in " + hours(ice)
}

// hours writes a time as a person would who has to drive there.
func hours(t units.Time) string {
	h := float64(t) / 3600
	switch {
	case h < 1:
		return "less than 1\u00a0h"
	case h < 96:
		return fmt.Sprintf("%.0f\u00a0h", h)
	}
	return fmt.Sprintf("%.0f\u00a0days", h/24)
}

// emptyHouse warns where nobody would notice a boiler that stopped.
func (m *model) emptyHouse(f frost, l Line) {
	t, freezes := f.first.reaches(freezing, m.design)
	if !f.alone || !freezes || t > units.Hours(72) {
		return
	}
	cures := []string{"an alarm that calls somebody at " + m.say(frostRoom), "water shut off and drained when leaving"}
	if f.fill == "" {
		cures = append(cures, "antifreeze in the heating, as local code allows")
	}
	m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
		"The house stands empty for days. If boiler or power fails on the design day it reaches %s.", l.Value), Cures: cures, Working: l.Working})
}
