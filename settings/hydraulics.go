package settings

import (
	"fmt"
	"math"

	"curvewright/boiler"
	"curvewright/fluid"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// Which water really reaches the circuits, and which comes back to the boiler, once the
// boiler's pump, a separator and mixing valves have had their say?

const (
	// mixedAbove is by how much the boiler is kept hotter than a mixed circuit, so that the
	// valve has something to mix (common practice).
	mixedAbove = units.Difference(3)
	// mattersFrom is the offset or lift at a separator that is worth a sentence: 1 K (2 °F),
	// common practice.
	mattersFrom = units.Difference(1)
	// streamAt is the temperature at which flows of volume in the boiler room are told.
	streamAt = units.Temperature(60 + 273.15)
	// idleStream keeps a closed mixing valve's branch above no flow at all, W/K.
	idleStream = units.LossCoefficient(0.01)
	// fullyOpen is how far a mixing valve should open at most (common practice).
	fullyOpen = units.Fraction(0.9)
	// beforeValve is the pressure of the pipes between header and mixing valve where nobody
	// measured it: common practice, short pipes.
	beforeValve = units.Pressure(3000)
	// wantedAuthority is what a new mixing valve is chosen for (common practice).
	wantedAuthority = units.Fraction(0.5)
	// chokingAuthority is more than control needs: the open valve takes more than three times
	// what the pipes before it do, and with it the pump's head (common practice).
	chokingAuthority = units.Fraction(0.75)
	// usualGlycol is the share by volume where the survey names antifreeze but no share
	// (common practice).
	usualGlycol = units.Fraction(0.30)
)

// fluid is the fill of the system.
func (m *model) fluid() fluid.Mixture { return m.fill }

// readFill finds the fill: water, or the antifreeze of the survey.
func (m *model) readFill() error {
	s := m.job.System
	kind, ok := map[string]fluid.Kind{"propylene glycol": fluid.PropyleneGlycol, "ethylene glycol": fluid.EthyleneGlycol}[s.Antifreeze]
	if !ok {
		m.fill = fluid.Water()
		return nil
	}
	var err error
	if !s.Share.Set && s.FrostTarget.Set {
		g, err := pipework.GlycolFor(kind, s.FrostTarget.Value)
		if err != nil {
			return fmt.Errorf("system › frost_target: %w", err)
		}
		m.fill = g.Mixture
		return nil
	}
	if m.fill, err = fluid.GlycolByVolume(kind, s.Share.Or(usualGlycol).Value); err != nil {
		return fmt.Errorf("system › antifreeze_share: %w", err)
	}
	return nil
}

// couplings are the separators of the survey in the words of package pipework.
var couplings = map[string]pipework.Coupling{
	"low-loss header": pipework.LowLossHeader, "closely spaced tees": pipework.CloselySpacedTees,
	"two-pipe buffer": pipework.TwoPipeBuffer, "three-pipe buffer": pipework.ThreePipeBuffer, "four-pipe buffer": pipework.FourPipeBuffer,
}

// streams is the water between boiler and circuits over the season.
type streams struct {
	coupling  pipework.Coupling
	separated bool
	sensor    bool                             // the control sees the supply behind the separator
	boiler    job.Given[units.LossCoefficient] // of the boiler's own pump; only if separated
	carries   units.VolumetricHeat             // of the fill, to tell heat capacity flows as flows
	verdict   pipework.CouplingVerdict         // only if separated
	states    []streamState                    // by outdoor temperature of the curves
	found     streamState                      // the design day with the boiler held at the circuits' curve
}

// streamState is the water at one outdoor temperature.
type streamState struct {
	wanted   units.Temperature // at the circuits, by the hottest of them
	boiler   units.Temperature // leaving the boiler
	pumped   units.LossCoefficient
	drawn    units.LossCoefficient // by all circuits
	mixed    pipework.Mixed
	circuits []FlowCircuit
}

func (s *streams) flow(w units.LossCoefficient) units.Flow {
	return units.Flow(float64(w) / float64(s.carries))
}

// couple works out the streams of every outdoor temperature of the curves.
func (m *model) couple(solved []solvedCircuit) error {
	s := &m.streams
	sep := m.job.Separator
	s.coupling, s.separated = couplings[sep.Kind]
	if !s.separated {
		s.coupling = pipework.Direct
	}
	s.sensor = s.separated && (sep.Sensor == "at the boiler" || sep.Sensor == "on a module")
	var err error
	if s.carries, err = m.fluid().HeatFactor(streamAt); err != nil {
		return fmt.Errorf("system › antifreeze: %w", err)
	}
	if s.separated {
		if err := m.boilerStream(solved); err != nil {
			return fmt.Errorf("separator › boiler_flow: %w", err)
		}
	}
	operations := make([]pipework.Operation, len(m.outdoor))
	for k := range m.outdoor {
		state, err := m.stream(solved, k)
		if err != nil {
			return fmt.Errorf("separator: %w", err)
		}
		s.states = append(s.states, state)
		operations[k] = pipework.Operation{Name: "point", Boiler: state.pumped, System: state.drawn, Heat: max(0, state.mixed.SystemHeat)}
	}
	if !s.separated {
		return nil
	}
	if s.verdict, err = pipework.JudgeCoupling(s.coupling, operations...); err != nil {
		return fmt.Errorf("separator: %w", err)
	}
	if !s.sensor && s.verdict.Offset > mattersFrom {
		if s.found, err = m.settle(solved, 0, s.states[0].wanted); err != nil {
			return fmt.Errorf("separator: %w", err)
		}
	}
	return nil
}

// boilerStream is the flow of the boiler's own pump; without one in the survey it is
// taken to match what the circuits draw on the design day.
func (m *model) boilerStream(solved []solvedCircuit) error {
	given := m.job.Separator.Flow
	if !given.Set {
		_, _, drawn, err := m.draws(solved, 0, m.wanted(solved, 0))
		m.streams.boiler = m.streams.boiler.Or(drawn)
		return err
	}
	w := units.LossCoefficient(float64(given.Value) * float64(m.streams.carries))
	if w < 1 {
		return fmt.Errorf("%s moves no heat", m.say(given.Value))
	}
	m.streams.boiler = job.Says(w, given.How())
	return nil
}

// wanted is the supply that the hottest circuit asks for, and that the boiler keeps.
func (m *model) wanted(solved []solvedCircuit, k int) units.Temperature {
	b := m.job.Boiler
	t := b.MinSupply.Value
	t = max(t, m.keptHot())
	for i := range m.circuits {
		set := solved[i].out.Points[k].Set
		if m.circuits[i].kind() == "mixed" {
			set = set.Add(mixedAbove)
		}
		t = max(t, set)
	}
	if b.MaxSupply.Set {
		t = min(t, b.MaxSupply.Value)
	}
	return t
}

// draws is what each circuit takes of a common supply: a direct one all its water, a
// mixed one the share that its valve lets in.
func (m *model) draws(solved []solvedCircuit, k int, supply units.Temperature) ([]FlowCircuit, []pipework.Draw, units.LossCoefficient, error) {
	circuits, draws := make([]FlowCircuit, len(m.circuits)), make([]pipework.Draw, len(m.circuits))
	sum := units.LossCoefficient(0)
	for i := range m.circuits {
		c, p := &m.circuits[i], solved[i].out.Points[k]
		out := FlowCircuit{Name: c.job.Name, Mixed: c.kind() == "mixed", Supply: p.Set, Return: p.Return, Flow: c.runs, Hot: 1}
		d := pipework.Draw{Name: c.job.Name, Flow: c.solve.Flow}
		switch {
		case out.Mixed && supply > p.Set:
			hot, err := pipework.HotShares(pipework.MixPoint{Outdoor: p.Outdoor, Supply: p.Set, Return: p.Return, Boiler: supply})
			if err != nil {
				return nil, nil, 0, err
			}
			out.Hot = hot[0].Hot
			d.Flow = max(idleStream, units.LossCoefficient(out.Hot)*c.solve.Flow)
		case math.Abs(float64(supply-p.Set)) > 0.005:
			out.Supply, out.Return = supply, m.returnsAt(c, solved[i].at[k].Outdoor, supply)
		}
		d.Return = out.Return
		circuits[i], draws[i] = out, d
		sum += d.Flow
	}
	return circuits, draws, sum, nil
}

// stream is the water at one outdoor temperature with the settings of the sheet: the
// boiler as hot as it must be for the circuits to get their supply, by a sensor behind the
// separator or by the offset of the sheet.
func (m *model) stream(solved []solvedCircuit, k int) (streamState, error) {
	s := &m.streams
	wanted := m.wanted(solved, k)
	if !s.separated {
		return m.settleAt(solved, k, wanted, wanted)
	}
	_, draws, _, err := m.draws(solved, k, wanted)
	if err != nil {
		return streamState{}, err
	}
	mixed, err := pipework.Couple(s.coupling, s.boiler.Value, wanted, draws...)
	if err != nil {
		return streamState{}, err
	}
	hot := wanted
	if mixed.Recirculated > 0 {
		hot = mixed.SystemReturn + (wanted-mixed.SystemReturn)/units.Temperature(1-mixed.Recirculated)
	}
	if top := max(wanted, m.boilerTop()); hot > top {
		return m.settle(solved, k, top)
	}
	return m.settleAt(solved, k, hot, wanted)
}

// boilerTop is the hottest that the boiler can be set to send.
func (m *model) boilerTop() units.Temperature {
	return m.job.Boiler.MaxSupply.Or(m.control.limit.To).Value
}

// settleAt mixes the streams with the supply at the circuits known.
func (m *model) settleAt(solved []solvedCircuit, k int, hot, supply units.Temperature) (streamState, error) {
	s := &m.streams
	out := streamState{wanted: m.wanted(solved, k), boiler: hot}
	circuits, draws, drawn, err := m.draws(solved, k, supply)
	if err != nil {
		return out, err
	}
	out.circuits, out.drawn, out.pumped = circuits, drawn, drawn
	if s.separated {
		out.pumped = s.boiler.Value
	}
	out.mixed, err = pipework.Couple(s.coupling, out.pumped, hot, draws...)
	return out, err
}

// settle finds the supply at the circuits that a boiler supply leads to: cooler water
// makes mixing valves open and draw more, which cools it further.
func (m *model) settle(solved []solvedCircuit, k int, hot units.Temperature) (streamState, error) {
	supply := hot
	for range 50 {
		out, err := m.settleAt(solved, k, hot, supply)
		if err != nil {
			return out, err
		}
		if math.Abs(float64(out.mixed.Supply-supply)) < 0.01 {
			return out, nil
		}
		supply = out.mixed.Supply
	}
	return m.settleAt(solved, k, hot, supply)
}

// flowPoints tells the streams for the drawing.
func (m *model) flowPoints() []FlowPoint {
	var out []FlowPoint
	for k, s := range m.streams.states {
		out = append(out, FlowPoint{Outdoor: m.outdoor[k], BoilerSupply: s.boiler, BoilerReturn: s.mixed.BoilerReturn,
			BoilerFlow: m.streams.flow(s.pumped), Separated: m.streams.separated, Secondary: s.mixed.Supply, Circuits: s.circuits})
	}
	return out
}

// separatorLine says whether a sensor behind the separator is needed.
func (m *model) separatorLine() Line {
	sep, s := m.job.Separator, &m.streams
	l := Line{ID: "separator-sensor", Label: "Separator sensor", Value: "none",
		Why:     "No separator: the boiler's own sensor sees what the circuits get.",
		Working: practice("Separator sensor", "the sensor that steers the boiler belongs where the circuits draw")}
	if !s.separated {
		return l
	}
	l.Working = m.couplingWorking()
	offset := s.verdict.Offset
	switch {
	case !s.boiler.Set:
		l.Why = "The boiler's flow is not surveyed; wherever the circuits draw more, they run cooler than the boiler."
	case s.verdict.NeedsSensor:
		l.Why = fmt.Sprintf("The circuits draw %s, the boiler sends %s: they get up to %s less than it sends.",
			m.say(s.flow(s.states[0].drawn)), m.say(s.flow(s.boiler.Value)), m.roughly(m.mostOffset()))
	default:
		l.Why = fmt.Sprintf("The boiler sends %s, the circuits draw %s: its own sensor sees what they get.",
			m.say(s.flow(s.boiler.Value)), m.say(s.flow(s.states[0].drawn)))
	}
	l.TooHigh = "A sensor said to be there but not connected: the control shows a fault or steers by the boiler."
	l.TooLow = "Said to be absent though it is there: the boiler holds its own temperature, and the circuits run cool when they draw more than it sends."
	if s.sensor {
		l.Value = sep.Sensor
		l.Also = SeparatorSensorWords(sep.Sensor)
		if offset > mattersFrom {
			l.TooLow = fmt.Sprintf("Said to be absent though it is there: on the design day the circuits get %s less than their curve.", m.roughly(offset))
		}
		return l
	}
	switch {
	case s.verdict.NeedsSensor:
		l.Instead = "Fit one in the common supply of the circuits, behind the " + sep.Kind + ". Until then match the flows, or enter the separator offset."
	case !s.boiler.Set:
		l.Instead = "Without the sensor, compare the supply before and behind the separator in steady cold. If the circuits are cooler, match the flows; do not raise the boiler."
	default:
		l.Instead = "Not needed with these flows. Compare the supply before and behind the separator in steady cold to be sure."
	}
	return l
}

func (m *model) mostOffset() units.Difference {
	most := units.Difference(0)
	for _, st := range m.streams.verdict.States {
		most = max(most, st.Offset)
	}
	return most
}

// offsetLine is what to add to the boiler's set-point where no sensor sees the circuits'
// supply.
func (m *model) offsetLine(solved []solvedCircuit) Line {
	s := &m.streams
	states := s.verdict.States
	l := Line{ID: "separator-offset", Label: "Separator offset", Value: "none", Working: m.couplingWorking(),
		TooHigh: "The circuits get hotter water than their curve, and the return rises.", TooLow: "The circuits get cooler water than their curve."}
	offset := units.Difference(0)
	if !s.sensor {
		offset = s.verdict.Offset
	}
	switch {
	case s.sensor && s.verdict.NeedsSensor:
		l.Why = fmt.Sprintf("The sensor sees what the circuits get; the boiler runs up to %s hotter by itself.", m.roughly(m.mostOffset()))
	case s.sensor:
		l.Why = "The sensor behind the separator sees what the circuits get."
	case !s.boiler.Set:
		l.Why = "The boiler's flow is not surveyed and taken to match the circuits' " + m.say(s.flow(s.boiler.Value)) + "; measure it."
	case offset <= mattersFrom:
		l.Why = "The circuits get the boiler's supply as it comes."
	default:
		l.Value = m.difference(m.enteredOffset())
		middle, last := len(states)/2, len(states)-1
		l.Why = fmt.Sprintf("At %s outdoors; %s at %s, %s where heating ends: raise the curve's cold end.",
			m.say(m.outdoor[0]), m.roughly(states[middle].Offset), m.say(m.outdoor[middle]), m.roughly(states[last].Offset))
		if first := s.states[0]; first.mixed.Supply < first.wanted.Add(-0.25) {
			l.Why = fmt.Sprintf("The boiler ends at %s. On the design day the circuits then get %s instead of %s.",
				m.say(max(first.wanted, m.boilerTop())), m.say(first.mixed.Supply), m.say(first.wanted))
			if m.enteredOffset() <= 0 {
				l.Value = "none"
			}
		}
		if low, room := m.coolest(solved); room != "" {
			l.TooLow = fmt.Sprintf("With nothing added %s reaches only %s on the design day.", room, m.say(low))
		}
		l.Instead = "Rather match the flows, or fit the sensor: an offset makes the boiler hotter to cure a pump."
		for i := range m.circuits {
			if c := &m.circuits[i]; l.Value != "none" && c.kind() != "mixed" && (c.family == "floor" || hasFloor(c)) {
				l.Caution = "A floor without a mixing valve gets the hotter water undiluted once zones shut: fit a limit of its own that stops its pump."
			}
		}
	}
	return l
}

// coolest is the room that suffers most on the design day if the boiler holds the
// circuits' curve in front of the separator.
func (m *model) coolest(solved []solvedCircuit) (reaches units.Temperature, room string) {
	worst := units.Difference(0.25)
	for i, f := range m.streams.found.circuits {
		c := &m.circuits[i].solve
		if f.Supply > solved[i].out.Points[0].Set.Add(-0.25) {
			continue
		}
		for k, r := range c.Rooms {
			t := c.Reaches(k, f.Supply, m.design)
			if short := r.Setpoint.Sub(t); short > worst {
				worst, reaches, room = short, t, r.Name
			}
		}
	}
	return reaches, room
}

func (m *model) couplingWorking() []working.Step {
	s := &m.streams
	design := s.verdict.States[0]
	known := string(s.boiler.How())
	drawn := working.Step{Name: "Water that the circuits draw on the design day", Formula: "W = Σ x·W_i; direct x = 1, mixed x = (Tm − Tr)/(Ts − Tr)",
		Result: working.Input{Symbol: "ΣW", Meaning: "of all circuits, heat per degree", Value: s.states[0].drawn},
		Range:  "steady; boiler and circuits with pumps of their own", Source: "mixing balance with constant specific heat"}
	for i, c := range s.states[0].circuits {
		drawn.Inputs = append(drawn.Inputs, working.Input{Symbol: "W_i", Meaning: "water of " + c.Name, Value: m.circuits[i].solve.Flow, Known: string(m.circuits[i].flowHow)},
			working.Input{Symbol: "x", Meaning: "share of hot water in it", Value: c.Hot})
	}
	offset := working.Step{Name: "Offset and lift at the " + m.job.Separator.Kind, Formula: "offset = Q · max(0, 1/W_b − 1/ΣW); lift = Q · max(0, 1/ΣW − 1/W_b)",
		Inputs: []working.Input{
			{Symbol: "Q", Meaning: "heat of all circuits on the design day", Value: design.Heat},
			{Symbol: "W_b", Meaning: "water of the boiler's pump, heat per degree", Value: s.boiler.Value, Known: known},
			{Symbol: "flow", Meaning: "the same as a flow", Value: s.flow(s.boiler.Value), Known: known},
			{Symbol: "ΣW", Meaning: "water of all circuits, heat per degree", Value: s.states[0].drawn},
			{Symbol: "lift", Meaning: "boiler return above the circuits'", Value: design.ReturnLift},
		},
		Result: working.Input{Symbol: "offset", Meaning: "boiler supply above the circuits'", Value: design.Offset},
		Range:  "steady, no loss", Source: ownFirst(s.verdict.Source, m.sys)}
	if !s.boiler.Set {
		offset.Note = "the boiler's flow is not in the survey: taken to match the circuits on the design day"
	}
	return append([]working.Step{drawn, offset}, m.carriesStep(m.fluid(), streamAt)...)
}

// addFlows writes the lines of the water between boiler and emitters: separator, mixing
// valves, pumps. A plain direct circuit without pipes in the survey has none.
func (m *model) addFlows(s *Sheet, solved []solvedCircuit, b burner) error {
	var out []Line
	if m.streams.separated {
		out = append(out, m.offsetLine(solved))
	}
	driven := make([]*drive, len(m.circuits)) // by circuit, with its place on the pump
	place := make([]int, len(m.circuits))
	for _, d := range m.drives() {
		if err := m.readDrive(&d); err != nil {
			return err
		}
		for k, i := range d.circuits {
			driven[i], place[i] = &d, k
		}
	}
	for i := range m.circuits {
		c, d, k := &m.circuits[i], driven[i], place[i]
		p := d.pipes[k]
		if endless := d.endless[k]; endless != nil {
			m.findings = append(m.findings, endless.finding(c))
		}
		if p.known {
			out = append(out, m.flowLine(c, solved[i], p))
		}
		if c.kind() == "mixed" {
			out = append(out, m.valveLine(i, solved[i], p), m.hotShareLine(i))
		}
		lines, err := m.pipeLines(d, k)
		if err != nil {
			return fmt.Errorf("circuit %q: %w", c.job.Name, err)
		}
		out = append(out, lines...)
		if lines, err = m.plannedLoops(c, solved[i]); err != nil {
			return fmt.Errorf("circuit %q: %w", c.job.Name, err)
		}
		out = append(out, lines...)
	}
	m.streamFindings(solved, b)
	if len(out) > 0 {
		s.Sections = append(s.Sections, Section{Title: "Flows and pumps", Part: BoilerRoom, Lines: out})
	}
	return nil
}

// valveLine is the mixing valve of a circuit.
func (m *model) valveLine(i int, solved solvedCircuit, p *piping) Line {
	c := &m.circuits[i]
	v := p.valve
	first := m.streams.states[0].circuits[i]
	needs, err := pipework.BoilerForMix(first.Supply, min(first.Return, first.Supply), fullyOpen)
	if err != nil {
		needs = first.Supply.Add(mixedAbove)
	}
	needs = max(needs, first.Supply.Add(mixedAbove))
	l := Line{ID: c.key + ".valve", Circuit: c.job.Name, Label: m.of("Mixing valve", c), Value: m.say(v.kv),
		TooHigh: "Too large: it hunts near its seat and does nothing over the rest of its travel.",
		TooLow:  "Too small: it takes the pump's head, and the last rooms get too little water.",
		Caution: "A floor needs a high limit of its own that stops its pump, for the day the valve sticks."}
	if c.family != "floor" && !hasFloor(c) {
		l.Caution = ""
	}
	switch {
	case v.none:
		l.Value = "the smallest made"
		l.Why = fmt.Sprintf("%s is less than usual valves are made for. The boiler must send %s or more.", m.say(c.flow), m.say(needs))
	case v.given:
		l.Why = fmt.Sprintf("As found: its authority is %.2f. The boiler must send %s or more on the design day.", float64(v.authority), m.say(needs))
	default:
		l.Why = fmt.Sprintf("To choose for %s: open it takes %s. The boiler must send %s or more.",
			m.say(c.flow), m.head(v.drop), m.say(needs))
	}
	if v.given && !v.judgement.Fits {
		cure := "a smaller valve"
		if v.choose > 0 && v.choose < v.kv {
			cure += ": " + m.say(v.choose)
		}
		l.Instead = upper(cure) + "."
		m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
			"The mixing valve of %s is too large: open it takes %s, an authority of %.2f, and so controls only near its seat.",
			c.job.Name, m.head(v.drop), float64(v.authority)),
			Cures: []string{cure, "its stroke limited, if its drive can"}})
	}
	if v.chokes() {
		m.chokingValve(c, v, p.head, &l)
	}
	share := working.Step{Name: "Share of boiler water through the valve of " + c.job.Name, Formula: "x = (Tm − Tr)/(Ts − Tr); the boiler at least Tr + (Tm − Tr)/0.9 and " + m.say(mixedAbove) + " above Tm",
		Result: working.Input{Symbol: "Ts", Meaning: "least supply of the boiler on the design day", Value: needs},
		Range:  "steady", Source: "mixing balance with constant specific heat; at most nine tenths open: common practice"}
	for _, k := range []int{0, len(m.streams.states) / 2, len(m.streams.states) - 1} {
		share.Inputs = append(share.Inputs, working.Input{Symbol: "x", Meaning: "at " + m.say(m.outdoor[k]) + " outdoors", Value: m.streams.states[k].circuits[i].Hot})
	}
	size := working.Step{Name: "Size of the mixing valve", Formula: "Δp_valve = (V̇/kv)²·ρ; authority = Δp_valve/(Δp_valve + Δp_before)",
		Inputs: []working.Input{
			{Symbol: "V̇", Meaning: "water of the circuit", Value: c.flow, Known: string(c.flowHow)},
			{Symbol: "Δp_before", Meaning: "pipes between header and valve, whose flow the valve changes", Value: beforeValve, Known: string(job.Assumed)},
			{Symbol: "Δp_valve", Meaning: "the open valve", Value: v.drop},
			{Symbol: "kv", Meaning: "of the valve", Value: v.kv, Known: string(c.job.Valve.How())},
		},
		Result: working.Input{Symbol: "a", Meaning: "authority", Value: v.authority},
		Range:  "turbulent flow in the valve", Source: "IEC 60534-2-1; 0.3 at least, 0.5 better, above 0.75 a valve that chokes: common practice"}
	l.Working = []working.Step{share, size}
	return l
}

// hotShareLine is the share of boiler water through a mixing valve over the season: what a
// valve should be seen to do, and how far it opens.
func (m *model) hotShareLine(i int) Line {
	c, states := &m.circuits[i], m.streams.states
	step := working.Step{Name: "Hot water through the valve of " + c.job.Name, Formula: "x = (Tm − Tr)/(Ts − Tr)",
		Range: "steady", Source: "mixing balance with constant specific heat"}
	const shown = 5
	last := -1
	for k := range shown {
		at := k * (len(states) - 1) / (shown - 1)
		if at == last {
			continue
		}
		last = at
		st := states[at].circuits[i]
		in := working.Input{Symbol: "x", Meaning: fmt.Sprintf("at %s outdoors: boiler %s, circuit %s, return %s", m.say(m.outdoor[at]), m.say(states[at].mixed.Supply), m.say(st.Supply), m.say(st.Return)), Value: st.Hot}
		if k == shown-1 {
			step.Result = in
			break
		}
		step.Inputs = append(step.Inputs, in)
	}
	share := func(k int) string {
		return fmt.Sprintf("%.0f\u00a0%% at %s", 100*float64(states[k].circuits[i].Hot), m.say(m.outdoor[k]))
	}
	l := Line{ID: c.key + ".valve-share", Circuit: c.job.Name, Label: m.of("Hot water through the valve", c),
		Value:   share(0) + ", " + share(len(states)-1),
		Why:     "Of the circuit's water; the rest is its own return. Supply, return and boiler in steady weather give it.",
		TooHigh: "Near 100 % the valve is open for good and the boiler too cool.", TooLow: "Below 10 % on the design day it works near its seat and hunts: a smaller valve, or a cooler boiler.",
		Working: []working.Step{step}}
	return l
}

// chokes tells a valve as found that is too small for its circuit.
func (v mixer) chokes() bool {
	return v.given && v.authority > chokingAuthority && v.choose > v.kv
}

// chokingValve reports such a valve: its authority is high only because it takes the
// pump's head.
func (m *model) chokingValve(c *circuit, v mixer, head units.Pressure, l *Line) {
	cure := "a larger valve: " + m.say(v.choose) + " or more"
	l.Instead = upper(cure) + "."
	l.Why = fmt.Sprintf("Too small: open it takes %s at %s, an authority of %.2f only because it chokes.", m.head(v.drop), m.say(c.flow), float64(v.authority))
	text := fmt.Sprintf("The mixing valve of %s is too small: open it takes %s at %s.", c.job.Name, m.head(v.drop), m.say(c.flow))
	if head > v.drop {
		text += fmt.Sprintf(" That is %.0f %% of the %s that the whole circuit takes.", 100*float64(v.drop/head), m.head(head))
	}
	m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name,
		Text:  text + " Its authority is high only because it chokes the pump.",
		Cures: []string{cure, "less water with a larger drop, if the emitters allow it"}})
}

// streamFindings says where pumps that do not match cost warmth or condensing, and where
// a direct circuit gets what another one asks for.
func (m *model) streamFindings(solved []solvedCircuit, b burner) {
	s := &m.streams
	m.tooHotFindings(solved)
	if !s.separated || !s.boiler.Set {
		return
	}
	design := s.verdict.States[0]
	sends, draws := m.say(s.flow(s.boiler.Value)), m.say(s.flow(s.states[0].drawn))
	if top := s.states[0]; top.mixed.Supply < top.wanted.Add(-0.25) {
		m.findings = append(m.findings, Finding{Severity: "short", Text: fmt.Sprintf(
			"The boiler's pump moves too little: it sends %s, the circuits draw %s. Even with the boiler at %s they get %s instead of %s on the design day.",
			sends, draws, m.say(top.boiler), m.say(top.mixed.Supply), m.say(top.wanted)),
			Cures: []string{"a boiler pump for " + draws, "less water in the circuits, with a larger drop"}, Working: m.couplingWorking()})
	} else if !s.sensor && design.Offset > mattersFrom {
		text := fmt.Sprintf("The circuits draw %s and the boiler sends %s: on the design day they get water %s cooler than the boiler's", draws, sends, m.roughly(design.Offset))
		if low, room := m.coolest(solved); room != "" {
			text += fmt.Sprintf(", and %s would reach only %s", room, m.say(low))
		}
		m.findings = append(m.findings, Finding{Severity: "note", Text: text + ". No sensor sees it.",
			Cures: []string{"a sensor in the common supply of the circuits, behind the " + m.job.Separator.Kind,
				"match the flows: the boiler's pump at " + draws + ", if the boiler allows it",
				"the separator offset of this sheet"}, Working: m.couplingWorking()})
	}
	m.liftFinding(b, sends, draws)
}

// liftFinding weighs what the boiler's own water, gone straight back, costs in condensing.
func (m *model) liftFinding(b burner, sends, draws string) {
	s := &m.streams
	lift, at := units.Difference(0), 0
	for k, st := range s.verdict.States {
		if st.ReturnLift > lift {
			lift, at = st.ReturnLift, k
		}
	}
	if lift <= mattersFrom || m.job.Boiler.Kind == "non-condensing" {
		return
	}
	with, without := make([]boiler.Weather, len(s.states)), make([]boiler.Weather, len(s.states))
	for k, st := range s.states {
		with[k] = boiler.Weather{Outdoor: m.outdoor[k], Time: m.hours[k], Load: max(0, st.mixed.SystemHeat), Return: st.mixed.BoilerReturn}
		without[k] = with[k]
		without[k].Return = st.mixed.SystemReturn
	}
	text := fmt.Sprintf("The boiler's pump moves %s and the circuits draw %s: at %s outdoors %.0f %% of its water goes straight back and warms its return by %s.",
		sends, draws, m.say(m.outdoor[at]), 100*float64(s.verdict.States[at].Bypassed), m.roughly(lift))
	is, err := b.gas.CondensingShare(with, atReturn)
	could, err2 := b.gas.CondensingShare(without, atReturn)
	if err == nil && err2 == nil && could.ByHeat-is.ByHeat > 0.005 {
		text += fmt.Sprintf(" With matched flows %.0f %% of the season's heat would condense instead of %.0f %%.", 100*float64(could.ByHeat), 100*float64(is.ByHeat))
	}
	m.findings = append(m.findings, Finding{Severity: "note", Text: text,
		Cures: []string{"slow the boiler's pump to about " + draws + ", not below the boiler's least flow, which outranks this",
			"a boiler pump that follows the temperatures", "more water in the circuits only if their rooms need it"},
		Working: m.couplingWorking()})
}

// tooHotFindings warns where a direct circuit gets the hotter water of another one.
func (m *model) tooHotFindings(solved []solvedCircuit) {
	if len(m.circuits) < 2 {
		return
	}
	for i, f := range m.streams.states[0].circuits {
		c, set := &m.circuits[i], solved[i].out.Points[0].Set
		if f.Mixed || f.Supply.Sub(set) < 3 {
			continue
		}
		found := Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
			"%s has no mixing valve and gets what the hottest circuit asks for: %s on the design day instead of %s.", c.job.Name, m.say(f.Supply), m.say(set)),
			Cures: []string{"a mixing valve on " + c.job.Name, "room valves that hold it back, at the price of a warmer return"}}
		if top := c.limits[0]; f.Supply > top.supply.Add(0.5) && (c.family == "floor" || hasFloor(c)) {
			found.Severity = "stop"
			found.Text += fmt.Sprintf(" That is above its limit of %s (%s).", m.say(top.supply), top.why)
			found.Cures = []string{"a mixing valve on " + c.job.Name + ", with a limit thermostat that stops its pump"}
		}
		m.findings = append(m.findings, found)
	}
}
