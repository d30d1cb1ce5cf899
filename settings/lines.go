package settings

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// This file writes the sheet in the order in which a person meets the questions at a
// control. Each function is one heading.

func (m *model) sections(s *Sheet, solved []solvedCircuit, b burner) ([]Section, error) {
	out := []Section{
		{Title: "Clock and units", Lines: m.clockLines()},
		{Title: "Circuits", Lines: m.circuitLines()},
		{Title: "Connect first", Lines: m.sensorLines()},
	}
	hotWater, delivery := m.hotWaterSections()
	out = append(out, Section{Title: "Hot water", Lines: hotWater})
	for i := range m.circuits {
		title := "Heating curve"
		if len(m.circuits) > 1 {
			title += ": " + m.circuits[i].job.Name
		}
		out = append(out, Section{Title: title, Lines: m.curveLines(&m.circuits[i], solved[i])})
	}
	burner, err := m.burnerFacts(&s.Boiler, b)
	if err != nil {
		return nil, err
	}
	frost, holds := m.frostLines()
	out = append(out,
		Section{Title: "Warm weather", Lines: m.cutOffLines(solved)},
		Section{Title: "Rooms and times", Lines: m.roomLines()},
		Section{Title: "Frost protection", Lines: frost},
		Section{Title: "Boiler", Lines: append(m.boilerLines(s), m.burnerLines(&s.Boiler, b)...)},
	)
	for _, beside := range []Section{
		{Title: "Burner", Lines: burner},
		{Title: "If the heat fails", Lines: holds},
		{Title: "Hot water delivery", Lines: delivery},
	} {
		if len(beside.Lines) > 0 {
			beside.Part = BoilerRoom
			out = append(out, beside)
		}
	}
	return out, nil
}

// temperature writes a temperature as the control shows it, and the same in the
// reader's degrees where these differ.
func (m *model) temperature(l *Line, t units.Temperature) {
	l.Value = m.control.step.Text(t)
	if m.control.scale != m.sys {
		l.Also = m.say(t)
	}
}

// given is the range as the survey has it; where it has none, what controls usually hold,
// and says so.
func (m *model) given(s curve.Span[units.Temperature], surveyed bool) string {
	if surveyed {
		return m.allowed(s)
	}
	return "usually " + m.allowed(s)
}

func surveyed(r job.Range) bool { return r.From.Set && r.To.Set }

func (m *model) allowed(s curve.Span[units.Temperature]) string {
	if s.From == s.To {
		return "fixed"
	}
	return m.control.step.Text(s.From) + " to " + m.control.step.Text(s.To)
}

func (m *model) clockLines() []Line {
	scale := "°C"
	if m.control.scale == units.US {
		scale = "°F"
	}
	lines := []Line{{ID: "clock", Label: "Date and time", Value: m.control.clock,
		Why:     "Programs, hot-water hours and the fault log hang on it.",
		TooHigh: "", TooLow: "An hour wrong shows as a house that is cold at breakfast; see whether the clock changes to summer time by itself."},
		{ID: "scale", Label: "Degrees", Value: scale,
			Why: "All values here are in the control's own degrees and steps."}}
	for i := range lines {
		lines[i].Working = practice(lines[i].Label, lines[i].Why)
	}
	return lines
}

// practice is the working of a line that rests on a rule of the trade and no figure.
func practice(name, rule string) []working.Step {
	return []working.Step{{Name: name, Formula: rule, Range: "houses with hydronic heating", Source: "common practice"}}
}

func (m *model) circuitLines() []Line {
	var out []Line
	for i := range m.circuits {
		c := &m.circuits[i]
		l := Line{ID: c.key + ".assign", Circuit: c.job.Name, Label: fmt.Sprintf("Circuit %d", i+1),
			Value: c.job.Name + ", " + c.kind(),
			Why: fmt.Sprintf("%s on the design day, about %s of water, %s drop.",
				m.say(c.load), m.say(c.runs), m.say(c.cools()))}
		if c.kind() == "mixed" {
			l.Why += " Needs a sensor behind its valve."
		}
		l.TooHigh, l.TooLow = "", "A pump or valve wired to the wrong output heats the wrong rooms: run each alone and feel the pipes."
		l.Working = []working.Step{{Name: "Water flow of " + c.job.Name, Formula: "C = Q / (Ts − Tr)",
			Inputs: []working.Input{
				{Symbol: "Q", Meaning: m.takenWords(c), Value: c.taken},
				{Symbol: "Ts − Tr", Meaning: "drop", Value: c.drop, Known: string(c.flowHow)},
			},
			Result: working.Input{Symbol: "flow", Meaning: "water flow", Value: c.flow},
			Range:  m.fluid().String(), Source: "heat balance of the water"}}
		l.Working = append(l.Working, m.carriesStep(m.fluid(), c.flowAt)...)
		l.Working = append(l.Working, m.weakStep(c)...)
		out = append(out, l)
	}
	return out
}

// takenWords names the heat that the water of a circuit gives off.
func (m *model) takenWords(c *circuit) string {
	if c.taken > c.load {
		return "taken from the water on the design day, with what the floor loses below"
	}
	return "load of the circuit on the design day"
}

func (m *model) sensorLines() []Line {
	o := m.job.OutdoorSensor
	place := o.Place
	if place == "" || place == "not known" {
		place = "north wall"
	}
	l := Line{ID: "outdoor-sensor", Label: "Outdoor sensor", Value: "connected, " + place,
		Why:     "Reset is offered only with it. Shaded north wall, " + m.apart() + " from vents and windows, above the snow.",
		TooHigh: "A sensor that reads too warm (sun, a vent, a warm wall) starves the house.",
		TooLow:  "One that reads too cold overheats it and spoils condensing.",
		Caution: "Electricity: switch off and lock out before wiring sensors, pumps or valves; follow local code.",
		Working: practice("Outdoor sensor first", "no sensor, no outdoor reset; shaded north side")}
	if o.Fitted == "no" || o.Fitted == "" || o.Fitted == "planned" {
		l.Value = "connect it, " + place
		if o.Fitted == "no" {
			l.Instead = "Until it is connected run the circuits at a constant supply, the value for the design day, and say so on the sheet: it keeps the house warm and wastes fuel."
			m.findings = append(m.findings, Finding{Severity: "stop",
				Text:  "No outdoor sensor is connected. The control cannot run outdoor reset without it; connect it before entering a curve.",
				Cures: []string{"fit the sensor on the " + place + ", out of the sun and away from vents"}})
		}
	}
	switch o.Place {
	case "south wall", "east wall", "west wall":
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"The outdoor sensor is on the %s and will see the sun: the supply falls for an hour or more on clear days when the rooms still need it.", o.Place),
			Cures: []string{"move it to the north wall, or the north-west", "shade it without boxing it in"}})
	}
	return append([]Line{l}, m.separatorLine())
}

// apart is how far an outdoor sensor stays from vents and windows: 4 ft, common practice.
func (m *model) apart() string {
	if m.sys.In(units.Lengths) == units.US {
		return m.say(units.Feet(4))
	}
	return m.say(units.Length(1.2))
}

// curveLines are the heart of the sheet: one circuit's curve in the control's shape.
func (m *model) curveLines(c *circuit, s solvedCircuit) []Line {
	steps := m.curveWorking(c, s)
	lead := c.solve.Rooms[s.at[0].Leads]
	set := s.setting.At(m.design)
	need := m.say(s.at[0].Supply)
	if s.at[0].Supply >= curve.Hottest {
		need = "more than " + need
	}
	lines := []Line{{ID: c.key + ".emitters", Circuit: c.job.Name, Label: "Kind of emitters", Value: strings.Join(c.families, " and "),
		Why:     "It only picks presets; the figures below replace them.",
		TooHigh: "A preset for radiators on a floor circuit runs it far too hot.", TooLow: "A preset for floors leaves radiators lukewarm in the cold.",
		Working: practice("Kind of emitters", "as surveyed")}}
	if !m.control.asksKind {
		lines[0].Instead = "If the control does not ask, there is nothing to enter."
	}
	design := Line{ID: c.key + ".design-supply", Circuit: c.job.Name, Label: "Supply at " + m.control.step.Text(m.design) + " outdoors",
		Why: fmt.Sprintf("%s needs %s to hold %s, the hottest of the circuit.",
			upper(lead.Name), need, m.say(lead.Setpoint)),
		Allowed: m.given(c.shape.Limit, m.job.Control.MaxSupply.Set || m.job.Boiler.MaxSupply.Set || c.job.MaxSupply.Set || hasFloor(c)), Band: s.bands.cold, Working: steps}
	m.temperature(&design, m.control.step.Nearest(set))
	design.TooHigh, design.TooLow = m.eitherWay(c, s)
	if c.family == "floor" || hasFloor(c) {
		design.Caution = slabCaution
	}
	if m.mustStayHot(c) && m.dryFloor(c, m.design) > s.at[0].Supply.Add(0.5) {
		design.Instead = fmt.Sprintf("Raised above that to bring back %s: the boiler must stay dry.", m.say(m.dry.least.Value))
	}
	if m.mustStayHot(c) && m.dryFloor(c, m.design) > set.Add(-units.FahrenheitDifference(5)) {
		design.TooLow += " " + condensateFollows
	}
	lines = append(lines, design)
	lines = append(lines, m.shapeLines(c, s, steps, design)...)
	lines = append(lines, m.limitLines(c, s)...)
	if c.withheld {
		m.withhold(c, lines)
	}
	return lines
}

const (
	stuffyMild  = "Stuffy in mild weather, needless fuel."
	tooCoolMild = "Cool in spring and autumn though warm in deep cold."
)

// tooWarmMild is what too high a mild end does.
func (m *model) tooWarmMild() string {
	if m.dry.must {
		return stuffyMild
	}
	return "Stuffy in spring and autumn, and a return too warm to condense."
}

const slabCaution = "Floors: above 130 °F (54 °C) slabs crack. Fit a separate limit that stops the pump; makers' limits first."

// eitherWay works out what a wrong cold end does, instead of only naming it.
func (m *model) eitherWay(c *circuit, s solvedCircuit) (high, low string) {
	lead := s.at[0].Leads
	r := c.solve.Rooms[lead]
	step := units.Difference(3)
	if m.sys.In(units.Temperatures) == units.US {
		step = units.FahrenheitDifference(5)
	}
	set := s.setting.At(m.design)
	up, down := c.solve.Reaches(lead, set.Add(step), m.design), c.solve.Reaches(lead, set.Add(-step), m.design)
	high = fmt.Sprintf("%s more makes %s settle at %s with its valves open; valves throttle, the return rises and the boiler condenses less.",
		m.say(step), r.Name, m.say(up))
	if m.dry.must {
		high = fmt.Sprintf("%s more makes %s settle at %s with its valves open; valves throttle.", m.say(step), r.Name, m.say(up))
	}
	low = fmt.Sprintf("%s less leaves %s at %s on the design day.", m.say(step), r.Name, m.say(down))
	if r.Setpoint.Sub(down) < 0.3 {
		low = fmt.Sprintf("%s less is hardly felt: %s still reaches %s on the design day.", m.say(step), r.Name, m.say(down))
	}
	return high, low
}

// shapeLines are the figures of the curve in the control's own shape.
func (m *model) shapeLines(c *circuit, s solvedCircuit, steps []working.Step, design Line) []Line {
	set := s.setting
	line := func(id, label, why, allowed string) Line {
		return Line{ID: c.key + "." + id, Circuit: c.job.Name, Label: label, Why: why, Allowed: allowed, Working: steps}
	}
	point := func(id, label string, t units.Temperature, why string, span curve.Span[units.Temperature], known bool) Line {
		l := line(id, label, why, m.given(span, known))
		m.temperature(&l, t)
		return l
	}
	switch set.Kind {
	case curve.SlopeShift:
		slope := line("slope", "Slope", "Degrees of supply for each degree that it gets colder.",
			fmt.Sprintf("%g to %g", c.shape.Slope.From, c.shape.Slope.To))
		slope.Value = decimals(set.Slope, c.shape.Slope.Step)
		slope.Band = s.bands.slope
		slope.TooHigh, slope.TooLow = "Right in spring, too hot in deep cold.", "Right in spring, too cold in deep cold."
		shift := line("shift", "Parallel shift", "Lifts or lowers the whole curve alike.",
			m.difference(units.Difference(c.shape.Shift.From))+" to "+m.difference(units.Difference(c.shape.Shift.To)))
		shift.Value = m.difference(set.Shift)
		shift.TooHigh, shift.TooLow = "Too warm at every outdoor temperature.", "Too cool at every outdoor temperature."
		return []Line{slope, shift}
	case curve.Table:
		var out []Line
		for i, p := range set.Points {
			l := point(fmt.Sprintf("point-%d", i+1), fmt.Sprintf("Point %d: at %s", i+1, m.control.step.Text(p.Outdoor)), p.Supply,
				"The control runs straight from point to point.", c.shape.ColdSupply, surveyed(m.job.Control.Curve.Table.Supply))
			switch i {
			case 0:
				l.TooHigh, l.TooLow = design.TooHigh, design.TooLow
				if near(p.Outdoor, m.design) {
					l.Band = design.Band
				}
			case len(set.Points) - 1:
				if near(p.Outdoor, s.cutOff) {
					l.Band = s.bands.mild
				}
				l.TooHigh, l.TooLow = m.tooWarmMild(), tooCoolMild
			default:
				l.TooHigh, l.TooLow = "Too warm about there.", "Too cool about there."
			}
			out = append(out, l)
		}
		return out
	}
	var ranges job.TwoPoints
	switch shapes := m.job.Control.Curve; {
	case shapes.Bent != nil:
		ranges = job.TwoPoints{ColdOutdoor: shapes.Bent.ColdOutdoor, MildOutdoor: shapes.Bent.MildOutdoor, ColdSupply: shapes.Bent.ColdSupply, MildSupply: shapes.Bent.MildSupply}
	case shapes.TwoPoints != nil:
		ranges = *shapes.TwoPoints
	}
	coldWhy := "No room is short between here and the mild point."
	if set.Lowered > 0 || s.out.WorstShort > tolerance+0.1 {
		coldWhy = "As near as limits and steps allow; see which room falls short."
	}
	out := []Line{
		point("cold-outdoor", "Cold point, outdoors", set.Cold.Outdoor, "The design day, or as near as the control goes.", c.shape.ColdOutdoor, surveyed(ranges.ColdOutdoor)),
		point("cold-supply", "Cold point, supply", set.Cold.Supply, coldWhy, c.shape.ColdSupply, surveyed(ranges.ColdSupply)),
		point("mild-outdoor", "Mild point, outdoors", set.Mild.Outdoor, "Heating ends about here.", c.shape.MildOutdoor, surveyed(ranges.MildOutdoor)),
		point("mild-supply", "Mild point, supply", set.Mild.Supply, "What the emitters still need when it is mild.", c.shape.MildSupply, surveyed(ranges.MildSupply)),
	}
	out[1].TooHigh, out[1].TooLow = design.TooHigh, design.TooLow
	if near(set.Cold.Outdoor, m.design) {
		out[1].Band = design.Band
	}
	if set.Cold.Outdoor > m.design+2 {
		out[0].Why = "From here down the supply stands at its limit."
	}
	if near(set.Mild.Outdoor, s.cutOff) {
		out[3].Band = s.bands.mild
	}
	out[3].TooHigh, out[3].TooLow = m.tooWarmMild(), tooCoolMild
	if last := s.at[len(s.at)-1]; m.mustStayHot(c) && m.dryFloor(c, last.Outdoor) > last.Supply.Add(0.5) {
		out[3].Why = fmt.Sprintf("Brings back %s: the boiler must stay dry.", m.say(m.dry.least.Value))
		out[3].TooLow = condensateFollows
	}
	if c.shape.ColdOutdoor.From > m.design && set.Holds {
		out[0].Instead = fmt.Sprintf("The control's cold point ends at %s and holds its supply beyond: it is set as if that were the design day of %s.",
			m.control.step.Text(c.shape.ColdOutdoor.From), m.say(m.design))
	}
	if set.Kind == curve.Bent {
		e := line("exponent", "Exponent", "The bend of the emitters: above 1 the curve bulges upward.",
			fmt.Sprintf("%g to %g", c.shape.Exponent.From, c.shape.Exponent.To))
		e.Value = decimals(set.Exponent, c.shape.Exponent.Step)
		e.TooHigh, e.TooLow = "Too warm between the two points.", "Too cool between the two points."
		out = append(out, e)
	}
	return out
}

// near tells whether a band that was worked out at one outdoor temperature fits a point
// at another.
func near(a, b units.Temperature) bool { return math.Abs(float64(a-b)) < 1.5 }

// difference writes a temperature difference in the control's degrees.
func (m *model) difference(d units.Difference) string {
	x, unit := float64(d), "K"
	if m.control.scale == units.US {
		x, unit = d.Fahrenheit(), "°F"
	}
	s := fmt.Sprintf("%+.1f", x)
	s = strings.TrimSuffix(s, ".0")
	if s == "+0" || s == "-0" {
		s = "0"
	}
	return strings.Replace(s, "-", "−", 1) + "\u00a0" + unit
}

func decimals(x, step float64) string {
	for d := range 4 {
		p := math.Pow(10, float64(d))
		if s := step * p; math.Abs(s-math.Round(s)) < 1e-9 {
			return fmt.Sprintf("%.*f", d, x)
		}
	}
	return fmt.Sprintf("%.3f", x)
}

func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// limitLines are the lowest and the highest supply of a circuit.
func (m *model) limitLines(c *circuit, s solvedCircuit) []Line {
	top := c.limits[0]
	low := Line{ID: c.key + ".min-supply", Circuit: c.job.Name, Label: "Lowest supply", Allowed: m.allowed(c.shape.Limit),
		Why:     "The curve's own end; a higher one overheats in mild weather.",
		TooHigh: stuffyMild, TooLow: "No harm to the rooms; the curve is above it anyway.",
		Working: practice("Lowest supply", "the curve at the heating limit, not below what boiler and control can hold")}
	if s.minSet > s.atCutOff+1 {
		low.Why = "Boiler and control go no lower; in mild weather the rooms' valves hold it back."
	}
	if m.mustStayHot(c) && s.minSet >= m.dry.least.Value {
		low.Why = fmt.Sprintf("This boiler must not condense: %s of return, and the drop at that load.", m.say(m.dry.least.Value))
		low.Caution = rotsCaution
		low.TooLow = condensateFollows
		m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name,
			Text:  fmt.Sprintf("The boiler must not condense, so %s can be reset no lower than %s; in mild weather the rooms rely on their valves.", c.job.Name, m.control.step.Text(s.minSet)),
			Cures: []string{"a mixing valve on the circuit and return protection at the boiler, which is then kept at " + m.say(m.dry.least.Value.Add(usualRise)) + " or more"}})
	}
	m.temperature(&low, s.minSet)
	high := Line{ID: c.key + ".max-supply", Circuit: c.job.Name, Label: "Highest supply",
		Allowed: "up to " + m.control.step.Text(m.control.step.Down(top.supply)),
		Why: fmt.Sprintf("Serves a night %s colder than the design day, no more.",
			m.say(beyondDesign)),
		TooHigh: "A stuck valve or a wrong curve is no longer held by it.", TooLow: "The curve is cut off in deep cold and the rooms cool.",
		Working: append(top.working, working.Step{Name: "Highest supply", Formula: "the curve at design − " + m.say(beyondDesign) + ", not above the limit",
			Inputs: []working.Input{
				{Symbol: "Ts", Meaning: "curve there", Value: s.setting.At(m.design)},
				{Symbol: "limit", Meaning: top.why, Value: top.supply},
			},
			Result: working.Input{Symbol: "Ts,max", Meaning: "highest supply to set", Value: s.maxSet},
			Range:  "any circuit", Source: "common practice"})}
	switch {
	case s.maxSet >= m.control.step.Down(top.supply):
		high.Why = "Held by " + top.why + "."
	case s.setting.Holds && s.setting.Cold.Outdoor >= m.design:
		high.Why = "The control holds its supply beyond the cold point; no more is ever asked."
	default:
		if end, supply, ends := curveEnds(s.setting); ends && end > m.design.Add(-beyondDesign+0.05) {
			high.Why = fmt.Sprintf("The curve ends at %s outdoors and holds %s below: a colder night gets no hotter water.",
				m.control.step.Text(end), m.control.step.Text(min(supply, s.maxSet)))
		}
	}
	if c.family == "floor" || hasFloor(c) {
		high.Caution = slabCaution
	}
	if !m.control.perLimit && len(m.circuits) > 1 {
		high.Instead = "The control has one limit for all circuits: hold this circuit by a limit thermostat on its supply that stops the pump."
	}
	m.temperature(&high, s.maxSet)
	return []Line{low, high}
}

// curveEnds is the coldest point of a curve that holds its supply beyond it: a table always
// does, the other shapes only in some controls.
func curveEnds(s curve.Setting) (outdoor, supply units.Temperature, ends bool) {
	switch {
	case s.Kind == curve.Table:
		return s.Points[0].Outdoor, s.Points[0].Supply, true
	case s.Holds:
		return s.Cold.Outdoor, s.Cold.Supply, true
	}
	return 0, 0, false
}

// withhold takes the figures out of the lines of a circuit that may not see the boiler's
// water at all: entered, they would make a boiler condense that must stay dry.
func (m *model) withhold(c *circuit, lines []Line) {
	for i := range lines {
		l := &lines[i]
		switch l.ID {
		case c.key + ".emitters":
			continue
		case c.key + ".max-supply":
			l.Instead = "On a limit thermostat of its own that stops the pump, not at the boiler: the boiler would be held below its dew point."
			continue
		}
		l.Value, l.Also, l.Allowed, l.Band, l.Instead = "not yet", "", "", Band{}, ""
		l.Why = fmt.Sprintf("No figure until a mixing valve stands in front of %s; see the stop. Then say so in the survey.", c.job.Name)
		l.TooHigh, l.TooLow = "Too hot for the floor.", "The boiler condenses: rust, soot, carbon monoxide."
		l.Caution = "Cold return rots a boiler not built to condense and soots its flue: carbon monoxide."
	}
}

// curveWorking is the chain behind a curve: the governing room's need, and the fit.
func (m *model) curveWorking(c *circuit, s solvedCircuit) []working.Step {
	a := s.at[0]
	fit := working.Step{Name: "Curve that the control can hold: " + shapeWords(c.shape.Kind), Formula: fitFormula(c.shape.Kind),
		Inputs: []working.Input{
			{Symbol: "ideal", Meaning: "supply needed on the design day", Value: a.Supply},
			{Symbol: "step", Meaning: "of the control", Value: m.control.step.Difference()},
			{Symbol: "tolerance", Meaning: "room temperature that may be missing", Value: tolerance},
		},
		Result: working.Input{Symbol: "Ts", Meaning: "supply set on the design day", Value: s.setting.At(m.design)},
		Range:  "design day to heating limit",
		Source: "least squares over the hours of a year; no room short by more than the tolerance",
		Note:   s.out.Lost}
	fit.Inputs = append(curveInputs(s.setting, m.design), fit.Inputs...)
	return append(m.needWorking(c, s, a.Leads), fit)
}

// needWorking is the chain behind a room's need: its loss, the heat it asks of this
// circuit, its emitters, and the supply at which they give it.
func (m *model) needWorking(c *circuit, s solvedCircuit, i int) []working.Step {
	r := c.solve.Rooms[i]
	mr := m.rooms[c.rooms[i]]
	var steps []working.Step
	if len(m.job.Rooms) == 0 || mr.source == "share of the house" {
		steps = append(steps, m.house.working...)
	}
	steps = append(steps, mr.working...)
	q := r.Load(m.design, r.Setpoint)
	load := working.Step{Name: "Heat that " + r.Name + " needs of this circuit on the design day", Formula: "Q = H · (Ti − To) + Hf · (Ti − Tf) − gains",
		Inputs: []working.Input{
			{Symbol: "H", Meaning: "loss towards outdoors", Value: r.Loss.Outdoor},
			{Symbol: "Ti", Meaning: "room temperature", Value: r.Setpoint},
			{Symbol: "To", Meaning: "design outdoor temperature", Value: m.design, Known: string(m.job.Site.DesignOutdoor.How())},
		},
		Result: working.Input{Symbol: "Q", Meaning: "heat needed", Value: q},
		Range:  "steady cold", Source: "EN 12831-1:2017 heat balance; gains at night 2 W/m², common practice"}
	if r.Loss.Fixed != 0 {
		load.Inputs = append(load.Inputs, working.Input{Symbol: "Hf", Meaning: "loss towards ground and neighbours", Value: r.Loss.Fixed},
			working.Input{Symbol: "Tf", Meaning: "their temperature", Value: r.Loss.FixedAt})
	}
	load.Inputs = append(load.Inputs, working.Input{Symbol: "gains", Meaning: "heat that can be relied on at night", Value: r.Gains})
	steps = append(steps, load)
	for _, f := range c.feeds[i] {
		steps = append(steps, f.working)
	}
	steps = append(steps, m.weakStep(c)...)
	note := ""
	if len(c.solve.Loop) > 0 {
		note = "on a loop: the supply is that at its beginning; the emitters before this one cool the water on its way, with their rooms at their set-points"
	}
	return append(steps, working.Step{Name: "Supply that " + r.Name + " needs on the design day", Note: note,
		Formula: "Σ output(Ts) = Q; for one emitter Ts = Ti + D·e^(D/M)/(e^(D/M) − 1), M = (Q/K)^(1/n), D = Q/C",
		Inputs: []working.Input{
			{Symbol: "Q", Meaning: "heat needed", Value: q},
			{Symbol: "C", Meaning: "water through the first emitter, heat per degree", Value: r.Flows[0], Known: string(c.flowHow)},
			{Symbol: "Ti", Meaning: "room temperature", Value: r.Setpoint},
		},
		Result: working.Input{Symbol: "Ts", Meaning: "supply needed", Value: s.at[0].Needs[i]},
		Range:  "supply up to " + m.say(curve.Hottest), Source: "EN 442-2 output law with the logarithmic excess; handbooks' characteristic heating curve"})
}

func fitFormula(k curve.Kind) string {
	switch k {
	case curve.SlopeShift:
		return "Ts = Tr + shift + slope · (Tr − To)"
	case curve.Bent:
		return "Ts = Tm + (Tc − Tm) · ((Om − To)/(Om − Oc))^(1/e)"
	case curve.Table:
		return "straight between the points of the table"
	}
	return "Ts = Tm + (Tc − Tm) · (Om − To)/(Om − Oc)"
}
