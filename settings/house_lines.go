package settings

import (
	"fmt"
	"math"
	"strings"

	"curvewright/building"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// Lines that concern the whole house: warm weather, rooms and times, frost, boiler.

func (m *model) cutOffLines(solved []solvedCircuit) []Line {
	balance := solved[0].cutOff
	var loss building.Loss
	var gains units.Power
	for _, r := range m.rooms {
		loss = loss.Plus(r.loss)
		gains += units.Power(float64(building.AverageGains) * float64(r.area))
	}
	l := Line{ID: "cut-off", Label: "Warm-weather cut-off",
		Why:     fmt.Sprintf("Above about %s people, appliances and some sun carry the house. Use the day's average if the control can.", m.say(balance)),
		TooHigh: "Pumps and burner run on mild days when nobody needs heat.",
		TooLow:  "The house is cool on grey mild days.",
		Working: []working.Step{{Name: "Balance temperature of the house", Formula: "To = Ti − gains/H, held between " + m.pair("50 and 66 °F", "10 and 19 °C"),
			Inputs: []working.Input{
				{Symbol: "gains", Meaning: "average day without much sun, 5 W/m²", Value: gains, Known: string(job.Assumed)},
				{Symbol: "H", Meaning: "heat loss of all rooms", Value: loss.Coefficient()},
			},
			Result: working.Input{Symbol: "To", Meaning: "balance temperature", Value: balance},
			Range:  "lived-in houses", Source: "steady heat balance; British homes begin to heat below 15.4 °C in the median (Buildings and Cities, doi 10.5334/bc.670)"}}}
	if gains > 0 { // without floor areas there are no gains to be unsure of
		l.Band = m.cutOffBand
	}
	if m.control.cutOff == nil {
		l.Value = m.control.step.Text(m.control.step.Nearest(balance))
		l.Instead = "The control describes no cut-off: switch the heating off by hand above this temperature, or by its summer setting."
		return []Line{l}
	}
	span := *m.control.cutOff
	l.Allowed = m.allowed(span)
	t := max(span.From, min(span.To, m.control.cutStep.Nearest(balance)))
	m.temperature(&l, t)
	if off := float64(t - balance); math.Abs(off) > 1.5 {
		l.Instead = "The control cannot be set nearer: by hand, switch heating off above " + m.say(balance) + " in spring."
		if off < 0 {
			l.Instead = "The control cannot be set nearer: the house may be cool between there and " + m.say(balance) + "."
		}
	}
	return []Line{l}
}

func (m *model) roomLines() []Line {
	setpoint := m.control.roomStep.Nearest(m.commonRoom())
	influence := Line{ID: "room-influence", Label: "Room influence", Value: "none",
		Why:     "One room cannot speak for all; its sun or stove would cool the rest.",
		TooHigh: "One sunny or closed room steers the whole house; the supply hunts.", TooLow: "Gains are left to the room valves, which is their work.",
		Working: practice("Room influence", "none for several equal rooms; slight where one open room stands for the circuit")}
	if len(m.rooms) <= 2 && m.control.room {
		influence.Value = "slight"
		influence.Why = "The room stands for the circuit; keep its valves fully open."
	}
	if !m.control.room {
		influence.Why = "The control cannot correct by a room sensor; the curve alone decides."
	}
	set := Line{ID: "room-setpoint", Label: "Room set-point", Why: "The curve is worked out for it; cooler rooms are throttled.",
		TooHigh: "Each degree lifts the whole curve and costs about 3 to 6 % more fuel.", TooLow: "Each degree lowers the whole curve; the coldest room is felt first.",
		Working: practice("Room set-point", "as surveyed; 70 °F held without program is usual with outdoor reset")}
	m.temperature(&set, setpoint)
	return []Line{influence, set, m.programLine(setpoint)}
}

// commonRoom is the set-point of the circuit that carries most.
func (m *model) commonRoom() units.Temperature {
	best := &m.circuits[0]
	for i := range m.circuits {
		if m.circuits[i].load > best.load {
			best = &m.circuits[i]
		}
	}
	return best.setpoint
}

// deepestNight is how far a radiator house may be lowered at night: a reset boiler
// makes only the heat the house loses and has little to catch up with (common
// practice, 2 to 4 °F).
const deepestNight = units.Difference(4 * 5.0 / 9)

func (m *model) programLine(setpoint units.Temperature) Line {
	p := m.job.Program
	l := Line{ID: "program", Label: "Held or program", Value: "hold " + m.control.roomStep.Text(setpoint),
		Why:     "A reset boiler makes only what the house loses; a night's saving is paid back with hotter water.",
		TooHigh: "A deep setback is cold at breakfast and drives the boiler to its limit.", TooLow: "Held day and night costs little: on supply setback a monitored building saved nothing that could be seen.",
		Working: []working.Step{{Name: "Held or program", Formula: "slabs: hold; radiators: none or 2 to 4 °F; none below a chosen outdoor temperature",
			Range: "houses on outdoor reset", Source: "common practice; no effect of supply setback: US DOE Building America, boiler control replacement, Cambridge MA (OSTI 1220374)"}}}
	var slabs []string
	for i := range m.circuits {
		if m.circuits[i].family == "floor" {
			slabs = append(slabs, m.circuits[i].job.Name)
		}
	}
	if p.Wish == "" || p.Wish == "hold" {
		return l
	}
	if len(slabs) == len(m.circuits) {
		l.Why = "A setback was wished, but a floor follows a day late: coldest in mid-morning. " + l.Why
		return l
	}
	if m.control.points < 2 {
		l.Instead = "A setback was wished; the control has no program, so hold one temperature or lower rooms at their own valves."
		return l
	}
	program, deep := m.sheetProgram(setpoint)
	var points []string
	for _, w := range program.Warm {
		points = append(points, m.clockAt(w.From)+" "+m.control.roomStep.Text(setpoint), m.clockAt(w.To)+" "+m.control.roomStep.Text(setpoint.Add(-program.Lower)))
	}
	l.Value = "every day " + strings.Join(points, ", ")
	l.Why = fmt.Sprintf("%d of %d points a day. Warming begins 2 h early; below %s outdoors hold instead.",
		len(points), m.control.points, m.say(m.design.Add(holdAbove)))
	if deep {
		l.Why += " The deeper setback that was wished is held to " + m.say(deepestNight) + "."
	}
	if len(slabs) > 0 {
		l.Why += " " + strings.Join(slabs, " and ") + ": hold, no program."
	}
	return l
}

// clockText moves a time of day by minutes and writes it as the control shows time.
func (m *model) clockText(hhmm string, add int) string {
	var h, mi int
	if n, err := fmt.Sscanf(hhmm, "%d:%d", &h, &mi); n != 2 || err != nil {
		return hhmm
	}
	t := ((h*60+mi+add)%1440 + 1440) % 1440
	if m.control.clock == "12 hour" {
		half := "am"
		if t >= 720 {
			half = "pm"
		}
		return fmt.Sprintf("%d:%02d %s", (t/60+11)%12+1, t%60, half)
	}
	return fmt.Sprintf("%02d:%02d", t/60, t%60)
}

// spareOutput is the share above the design load to which a boiler's heating output
// is limited: common practice, load × 1.1.
const spareOutput = 1.1

// wantedOutput is the limit to set: a tenth above the load, or what makes up in the rest
// of the design day for the time in which hot water has the boiler.
func (m *model) wantedOutput(s *Sheet) units.Power {
	load, day := float64(s.Load.Total+m.beyondRooms(s)), float64(units.Hours(24))
	rest := math.Max(day/4, day-float64(m.pauses)) // with less left the finding about hot water speaks
	return units.Power(load * math.Max(spareOutput, day/rest))
}

func (m *model) boilerLines(s *Sheet) []Line {
	b, top := m.job.Boiler, m.available()
	m.tooSmallBoiler(s, top)
	if m.onOff() {
		return nil // its one fire cannot be held down
	}
	want := m.wantedOutput(s)
	l := Line{ID: "output-limit", Label: "Heating output limit", Value: m.say(want), Band: m.loadBand,
		Why: fmt.Sprintf("A tenth above the %s of the design day; hot water may use all.",
			m.say(s.Load.Total)),
		TooHigh: "Short runs, many starts, a hot return.", TooLow: "The house cools on the coldest nights.",
		Caution: "Gas, carbon monoxide: only a licensed person with an analyser, as maker and local code say.",
		Working: []working.Step{{Name: "Heating output limit", Formula: "Q_max = 1.1 · Q_design",
			Inputs: []working.Input{{Symbol: "Q_design", Meaning: "load of all rooms on the design day, " + s.Load.Source, Value: s.Load.Total}},
			Result: working.Input{Symbol: "Q_max", Meaning: "heating output", Value: want},
			Range:  "houses without deep setback; heat lost by pipes outside heated rooms not counted", Source: "common practice; oversizing above three times costs 6 to 9 % (Bennett and Elwell 2020, doi 10.1177/0143624420927352)"}}}
	if beyond := m.beyondRooms(s); beyond > s.Load.Total/100 {
		l.Why = fmt.Sprintf("A tenth above the %s of the design day and the %s that floors lose below or loops give too much; hot water may use all.",
			m.say(s.Load.Total), m.say(beyond))
		l.Working[0].Formula = "Q_max = 1.1 · (Q_design + Q_beyond)"
		l.Working[0].Inputs = append(l.Working[0].Inputs, working.Input{Symbol: "Q_beyond", Meaning: "what floors lose below and loops give too much", Value: beyond})
	}
	if tenth := units.Power(float64(s.Load.Total+m.beyondRooms(s)) * spareOutput); want > tenth {
		l.Why = fmt.Sprintf("Makes the day's heat of %s in the time that %s of hot water leave on the design day; hot water may use all.",
			m.dayHeat(units.Energy(float64(s.Load.Total)*86400)), minutes(m.pauses))
		l.Working[0].Formula = "Q_max = Q_design · 24 h/(24 h − pauses), at least 1.1 · Q_design"
		l.Working[0].Inputs = append(l.Working[0].Inputs, working.Input{Symbol: "pauses", Meaning: "of the heating for hot water", Value: m.pauses})
	}
	if b.Output.Set {
		l.Allowed = "up to " + m.say(top.Value)
		if b.MinOutput.Set {
			l.Allowed = m.say(m.leastOutput().Value) + " to " + m.say(top.Value)
		}
		l.Working[0].Inputs = append(l.Working[0].Inputs, working.Input{Symbol: "Q", Meaning: m.outputWords("highest output of the boiler"), Value: top.Value, Known: string(top.How())})
		m.fitOutput(&l, want, s)
	}
	switch m.control.limitBy {
	case "none":
		l.Instead = "The control has no such limit: see whether the boiler itself has one, or lengthen its pause between starts."
	case "percent":
		if !b.Output.Set {
			l.Instead = "The control counts in percent of the boiler's highest output, which the survey does not give: divide by it."
		}
	}
	return []Line{l}
}

// beyondRooms is what the circuits take on the design day beyond the load of their rooms: what
// heated floors lose below themselves, and what loops without valves give too much. The
// boiler has to make it all the same, or the coldest nights are short.
func (m *model) beyondRooms(s *Sheet) units.Power {
	sum := units.Power(0)
	for i := range m.circuits {
		c := &m.circuits[i]
		if len(c.solve.Loop) == 0 && !c.heatsFloor() {
			continue
		}
		p := s.Circuits[i].Points[0]
		sum += max(0, units.Power(float64(p.Set-p.Return)*float64(c.solve.Flow))-c.load)
	}
	return sum
}

// heatsFloor tells a circuit with a heated floor on it.
func (c *circuit) heatsFloor() bool {
	for _, feeds := range c.feeds {
		for _, f := range feeds {
			if f.floor != nil {
				return true
			}
		}
	}
	return false
}

// tooSmallBoiler reports a boiler that cannot carry the design day where it stands.
func (m *model) tooSmallBoiler(s *Sheet, top job.Given[units.Power]) {
	if !top.Set || s.Load.Total <= top.Value {
		return
	}
	f := Finding{Severity: "short", Text: fmt.Sprintf("The house needs %s on the design day and the boiler gives %s: it falls short by %s.",
		m.say(s.Load.Total), m.say(top.Value), m.say(s.Load.Total-top.Value)),
		Cures: []string{"check the load: paper loads are mostly too high", "reduce the loss", "a second heat source for the coldest days"}}
	if m.altitudeLeaves() < 1 {
		f.Text = fmt.Sprintf("The house needs %s on the design day, and of its %s the boiler keeps about %s at this altitude: it falls short by %s.",
			m.say(s.Load.Total), m.say(m.job.Boiler.Output.Value), m.say(top.Value), m.say(s.Load.Total-top.Value))
		f.Cures = append([]string{"the maker's own altitude table"}, f.Cures...)
	}
	m.findings = append(m.findings, f)
}

// fitOutput holds the wanted limit against what the boiler can do.
func (m *model) fitOutput(l *Line, want units.Power, s *Sheet) {
	least, top := m.leastOutput(), m.available().Value
	if s.Load.Total > top {
		l.Value = "no limit"
		l.Why = fmt.Sprintf("The boiler gives less than the %s of the design day.", m.say(s.Load.Total))
		return
	}
	set := max(least.Value, min(want, top))
	l.Value = m.say(set)
	if m.control.limitBy == "percent" {
		pct := math.Min(100, math.Ceil(20*float64(set/top)-1e-9)*5)
		l.Value = fmt.Sprintf("%.0f %%", pct)
		l.Also = m.say(units.Power(pct / 100 * float64(top)))
	}
	if !least.Set || s.Load.Total > least.Value {
		return
	}
	m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
		"Even on the design day the house takes no more than the boiler's lowest fire of %s: the burner cycles all winter.", m.say(least.Value)),
		Cures: []string{"a buffer tank", "a wider switching differential and a longer pause between starts", "a smaller boiler when this one is replaced"}})
}

func (m *model) cautions() []string {
	out := []string{
		"This sheet gives settings, not permission: local code, the maker's instructions and licensed practice come first, above all for gas, flue, pressure, electricity and hot water.",
	}
	if m.job.Boiler.Kind == "" {
		out = append(out, "The survey does not say what kind of boiler this is; it is taken as condensing. One that must not condense needs its return kept warm: say boiler › kind.")
	}
	if m.job.Boiler.Kind != "non-condensing" {
		out = append(out, "Condensate must drain freely and must not freeze; neutralise it where local code asks.")
	}
	return out
}
