package settings

import (
	"fmt"
	"math"

	"curvewright/emitter"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// How long may the loops of a heated floor be, how long are they, and is there a pump for
// them at all?

const (
	// mostPumpHead is what the stronger circulators for houses make, about 27 ft (common
	// practice): no setting above it is of use.
	mostPumpHead = units.Pressure(80e3)
	// usualLoopHead is what floor loops are laid out for where no pump is surveyed, about
	// 8 ft (common practice).
	usualLoopHead = units.Pressure(25e3)
	// leastLoopHead keeps the search for the longest loop where a weak pump leaves nothing.
	leastLoopHead = units.Pressure(1000)
)

// floorPipe is the tube of a floor.
func (m *model) floorPipe(s *emitter.Floor) (pipework.Pipe, error) {
	return pipework.OwnPipe(m.tubeName(s.TubeDiameter, s.TubeWall), s.TubeDiameter, s.TubeWall, pipework.DrawnRoughness)
}

// tubeName names a floor's tube as it is sold: by its outside diameter and wall in
// millimetres, in North America by its nominal size, which is an eighth of an inch less
// than its outside.
func (m *model) tubeName(outside, wall units.Length) string {
	if m.sys.In(units.Pipes) != units.US {
		return fmt.Sprintf("%.3g × %.2g mm", 1000*float64(outside), 1000*float64(wall))
	}
	if size, inches, ok := soldAs(outside, 0.012); ok {
		return fmt.Sprintf("%s (%.3g in outside)", size, inches)
	}
	return fmt.Sprintf("%.2f in (outside)", float64(outside)/0.0254)
}

// soldAs is the nominal size of a tube by its outside diameter: an eighth of an inch less.
func soldAs(outside units.Length, within float64) (size string, inches float64, ok bool) {
	x := float64(outside) / 0.0254
	for _, t := range []struct {
		nominal string
		outside float64
	}{{"3/8", 0.5}, {"1/2", 0.625}, {"5/8", 0.75}, {"3/4", 0.875}, {"1", 1.125}} {
		if math.Abs(x-t.outside) < within {
			return t.nominal, t.outside, true
		}
	}
	return "", 0, false
}

// nominal are the sizes under which tube for floors is sold, in inches. One of them as an
// outside diameter is easily meant as the size that is printed on the tube; not so 5/8, the
// outside of the commonest.
var nominal = map[string]float64{"3/8": 0.375, "1/2": 0.5, "3/4": 0.75, "1": 1}

// tubeFinding says what a tube was taken for whose outside diameter is a nominal size.
func (m *model) tubeFinding(tube job.Given[units.Length]) {
	if !tube.Set {
		return
	}
	for _, printed := range []string{"3/8", "1/2", "3/4", "1"} {
		if math.Abs(float64(tube.Value)/0.0254-nominal[printed]) > 1e-6 {
			continue
		}
		is := "a tube sold in no usual size"
		if size, _, ok := soldAs(tube.Value, 1e-6); ok {
			is = "tube sold as " + size
		}
		m.once(Finding{Severity: "note", Text: fmt.Sprintf(
			"A floor's tube of %s is taken as measured outside, which is %s. Tube sold as %s measures an eighth of an inch more.", m.say(tube.Value), is, printed),
			Cures: []string{"tube_size: " + printed + " in place of tube, if that is printed on it"}})
	}
}

// tubeWords names a tube's diameter, in North America with the size under which it is sold.
func (m *model) tubeWords(outside units.Length) string {
	if size, _, ok := soldAs(outside, 0.012); ok && m.sys.In(units.Pipes) == units.US {
		return "tube outside, sold as " + size
	}
	return "tube outside"
}

// tubeKnown is how the tube of a floor is known.
func tubeKnown(t job.Floor) job.Known {
	if t.Sold != "" {
		return job.Estimated // as an entry without a word on it
	}
	return t.Tube.How()
}

// endlessLoop is a loop whose water no pump of any kind would drive: the survey of it is
// wrong, or the floor cannot work.
type endlessLoop struct{ room, tells string }

func (e *endlessLoop) Error() string { return e.room + ": " + e.tells }

func (e *endlessLoop) finding(c *circuit) Finding {
	return Finding{Severity: "short", Circuit: c.job.Name, Room: e.room, Text: fmt.Sprintf(
		"The floor loops in %s cannot be so: %s. Pump and loops go without figures.", e.room, e.tells),
		Cures: []string{"count the loops at the manifold and read the length printed on the tube", "the size of the tube: sold as 1/2 in it measures 5/8 in (16 mm) outside", "more and shorter loops side by side"}}
}

// loopLimit is the longest loop of a tube.
type loopLimit struct {
	length  units.Length
	byHead  units.Length // what the head serves
	usual   units.Length // what is laid
	head    units.Pressure
	ofPump  bool // the head is what the surveyed pump leaves
	perTube units.LinearPower
}

// longestLoop finds how long a loop may be: the head must serve it, and longer than usual
// no one lays them. Longer loops carry more heat and more water.
func (m *model) longestLoop(pipe pipework.Pipe, l pipework.Liquid, perTube units.LinearPower, drop units.Difference, head units.Pressure, ofPump bool) (loopLimit, error) {
	out := loopLimit{usual: pipework.UsualLoop(pipe.Bore), head: max(leastLoopHead, min(mostPumpHead, head)), ofPump: ofPump, perTube: max(1, perTube)}
	var err error
	if out.byHead, err = pipework.LongestLoop(pipe, l, out.perTube, drop, out.head, 0); err != nil {
		return out, err
	}
	out.length = min(out.byHead, out.usual)
	return out, nil
}

func (m *model) limitWorking(pipe pipework.Pipe, limit loopLimit, drop units.Difference) working.Step {
	known := "assumed"
	if limit.ofPump {
		known = ""
	}
	return working.Step{Name: "Longest loop of " + pipe.Size + " tube", Formula: "L where L·Δp/L = H at V̇ = q·L/(ρ·cp·ΔT); not above the usual length",
		Inputs: []working.Input{
			{Symbol: "q", Meaning: "heat for a length of tube", Value: limit.perTube},
			{Symbol: "ΔT", Meaning: "drop", Value: drop},
			{Symbol: "H", Meaning: "head for the loop", Value: limit.head, Known: known},
			{Symbol: "L", Meaning: "that this head serves", Value: limit.byHead},
			{Symbol: "L", Meaning: "that is usual for the tube at most", Value: limit.usual},
		},
		Result: working.Input{Symbol: "L_max", Meaning: "longest loop", Value: limit.length},
		Range:  "loops of equal heat per length", Source: "heat balance; Darcy–Weisbach; head of 25 kPa and usual lengths: common practice"}
}

// loopsLine is the floor loops of a circuit: what to set at the manifold, and whether
// they are too long. Spare is what the pump has left over; 0 where it is not known.
func (m *model) loopsLine(c *circuit, p *piping, spare units.Pressure) Line {
	f := p.floors[p.governs]
	count := 0
	for _, g := range p.floors {
		count += g.count
	}
	l := Line{ID: c.key + ".loops", Circuit: c.job.Name, Label: m.of("Floor loops", c),
		Value:   fmt.Sprintf("%d, the longest %s", count, m.say(f.length)),
		TooHigh: "A loop set too far open takes the water of the longest.", TooLow: "Too little water: a cool end of the floor."}
	if count == 1 {
		l.Value = "1 of " + m.say(f.length)
	}
	l.Why = fmt.Sprintf("Longest, in %s: %s, which takes %s. Others in proportion.", f.room, m.say(f.design.Flow), m.head(f.design.Pressure))
	if count == 1 {
		l.Why = fmt.Sprintf("Set %s: it takes %s at the drop of %s.", m.say(f.design.Flow), m.head(f.design.Pressure), m.say(c.drop))
	}
	step := working.Step{Name: "Longest floor loop, in " + f.room, Formula: "V̇ = Q/(ρ·cp·ΔT); Δp = L·Δp/L",
		Inputs: []working.Input{
			{Symbol: "L", Meaning: "length with its tails", Value: f.length, Known: string(f.known)},
			{Symbol: "Q", Meaning: "heat of this loop on the design day", Value: f.heat},
			{Symbol: "V̇", Meaning: "its water", Value: f.design.Flow},
			{Symbol: "v", Meaning: "in " + f.pipe.Size + " tube", Value: f.design.Velocity},
		},
		Result: working.Input{Symbol: "Δp", Meaning: "of the loop", Value: f.design.Pressure},
		Range:  p.liquid.Fill.String() + " at " + m.say(p.liquid.At), Source: "heat balance; Darcy–Weisbach; usual lengths: common practice"}
	for i, g := range p.floors {
		if i != p.governs {
			step.Inputs = append(step.Inputs, working.Input{Symbol: "V̇", Meaning: "longest loop in " + g.room, Value: g.design.Flow})
		}
	}
	l.Working = append([]working.Step{step}, m.carriesStep(p.liquid.Fill, p.liquid.At)...)
	head := usualLoopHead
	if spare != 0 {
		head = f.design.Pressure + spare
	}
	limit, err := m.longestLoop(f.pipe, p.liquid, units.LinearPower(float64(f.heat)/float64(f.length)), c.drop, head, spare != 0)
	if err != nil {
		return l // a floor with so little heat has no longest loop
	}
	l.Working = append(l.Working, m.limitWorking(f.pipe, limit, c.drop))
	l.Allowed = "loops up to " + m.say(limit.length)
	if f.length > limit.length*1.02 {
		l.Instead = "Longer than this tube serves: it sets the pump's head for all. See the findings."
		m.longLoopFinding(c, f, limit, l.Working)
	}
	return l
}

// longLoopFinding says that a loop is too long, how long it may be, and what to do.
func (m *model) longLoopFinding(c *circuit, f floorLoops, limit loopLimit, steps []working.Step) {
	found := Finding{Severity: "note", Circuit: c.job.Name, Room: f.room, Working: steps}
	takes := m.say(f.design.Flow) + " takes " + m.head(f.design.Pressure)
	switch {
	case f.design.Pressure > mostPumpHead:
		found.Severity = "short"
		takes += ", more than any circulator for houses makes"
	case f.length > limit.byHead && limit.ofPump:
		found.Severity = "short"
		takes += ", more than its pump leaves for it"
	case f.length > limit.usual:
		takes += " and sets the head of the pump for all loops"
	default:
		takes += ", more than floor loops are laid out for"
	}
	found.Text = fmt.Sprintf("The longest floor loop in %s is too long: %s of %s tube; its %s.", f.room, m.say(f.length), f.pipe.Size, takes)
	if limit.byHead < limit.usual {
		found.Text += fmt.Sprintf(" With %s and a drop of %s a loop of this tube may have %s at most.", m.head(limit.head), m.roughly(c.drop), m.say(limit.length))
	} else {
		found.Text += fmt.Sprintf(" Of this tube %s is the usual most.", m.say(limit.length))
	}
	parts := int(math.Ceil(float64(f.length) / float64(limit.length)))
	found.Cures = []string{fmt.Sprintf("split it into %d loops of about %s", parts, m.say(f.length/units.Length(parts)))}
	if f.length <= 2*limit.length {
		found.Cures = append(found.Cures, "a larger drop in it, if the floor's far end may be cooler")
	}
	m.findings = append(m.findings, found)
}

// beyondPumps takes the setting away where no circulator makes the head that a circuit
// would take.
func (m *model) beyondPumps(c *circuit, p *piping, l *Line) {
	if p.head <= mostPumpHead {
		return
	}
	l.Value = "none for houses makes it"
	l.Why = fmt.Sprintf("%s would take %s. Circulators for houses make up to about %s.", m.say(c.flow), m.head(p.head), m.head(mostPumpHead))
	l.Instead = "Mend the pipework first; see the findings."
	if len(p.floors) > 0 && p.floors[p.governs].design.Pressure > mostPumpHead {
		return // the finding about the loop says it
	}
	f := Finding{Severity: "short", Circuit: c.job.Name, Working: l.Working, Text: fmt.Sprintf(
		"No circulator for houses drives %s: %s would take %s, and they make up to about %s.", c.job.Name, m.say(c.flow), m.head(p.head), m.head(mostPumpHead))}
	if r := p.steepest(); r != nil && r.drop > p.head/3 {
		f.Cures = append(f.Cures, "a larger tube in place of "+r.pipe.String()+", which takes "+m.head(r.drop))
	}
	if len(p.floors) > 0 && p.floors[p.governs].design.Pressure > p.head/3 {
		f.Cures = append(f.Cures, "shorter floor loops, side by side")
	}
	if p.valve.given && p.valve.drop > p.head/3 {
		f.Cures = append(f.Cures, "a larger mixing valve, which takes "+m.head(p.valve.drop))
	}
	f.Cures = append(f.Cures, "less water with a larger drop, if the emitters allow it")
	m.findings = append(m.findings, f)
}

// plannedLoops says how many loops the floors of a circuit need where the survey has none.
func (m *model) plannedLoops(c *circuit, s solvedCircuit) ([]Line, error) {
	if len(m.laidLoops(c)) > 0 || (c.family != "floor" && !hasFloor(c)) {
		return nil, nil
	}
	low, high, err := m.fluid().Range()
	if err != nil {
		return nil, err
	}
	design := s.out.Points[0]
	liquid, err := pipework.NewLiquid(m.fluid(), max(low, min(high, (design.Set+design.Return)/2)))
	if err != nil {
		return nil, err
	}
	l := Line{ID: c.key + ".loops", Circuit: c.job.Name, Label: m.of("Floor loops", c),
		TooHigh: "More and shorter loops do no harm but cost a larger manifold.", TooLow: "Fewer and longer loops: more head for the pump, a cool end of the floor."}
	count, shortest := 0, units.Length(math.Inf(1))
	var tube string
	for i, feeds := range c.feeds {
		for k, f := range feeds {
			if f.survey == nil {
				continue
			}
			pipe, err := m.floorPipe(f.survey)
			if err != nil {
				return nil, fmt.Errorf("floor loops: %s: %w", c.solve.Rooms[i].Name, err)
			}
			length := units.Length(float64(f.survey.Area) / float64(f.survey.Spacing))
			heat := units.Power(float64(c.solve.Rooms[i].Flows[k]) * float64(c.cools()) / float64(max(1, f.count)))
			limit, err := m.longestLoop(pipe, liquid, units.LinearPower(float64(heat)/float64(length)), c.drop, usualLoopHead, false)
			if err != nil {
				continue // a floor with so little heat, or so large a drop, that nothing limits it
			}
			count += max(1, f.count) * int(math.Ceil(float64(length)/math.Max(1, float64(limit.length-loopTail))))
			if limit.length < shortest {
				shortest, tube = limit.length, pipe.Size
			}
			l.Working = append(l.Working, m.limitWorking(pipe, limit, c.drop))
		}
	}
	if count == 0 {
		return nil, nil
	}
	l.Value = fmt.Sprintf("%d or more, each up to %s", count, m.say(shortest))
	if count == 1 {
		l.Value = "1 will do, up to " + m.say(shortest)
	}
	l.Allowed = "loops up to " + m.say(shortest)
	l.Why = fmt.Sprintf("None in the survey. Longer ones of %s tube want more than %s. Count them.", tube, m.head(usualLoopHead))
	return []Line{l}, nil
}
