package settings

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"curvewright/curve"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// What does the circuit's water cost in pressure, what must its pump be set to, and are
// tubes and floor loops the right size for it?

// Loss coefficients of fittings, as package pipework lists them.
const (
	bendK  = 0.7  // elbow, long radius
	teeK   = 1.8  // tee, branch
	valveK = 0.05 // ball valve, full bore
)

// loopTail is the tube from a floor to its manifold and back where nobody measured it
// (common practice).
const loopTail = units.Length(4)

// piping is a circuit's pipework made ready to calculate with.
type piping struct {
	known    bool // pipes or loops are in the survey
	liquid   pipework.Liquid
	runs     []pipeRun
	branches *pipework.Balanced // where the pipes split the flow between them
	beside   []pipework.Path    // these pipes
	common   []pipework.Element // what all their water runs through
	open     *pipework.Shared   // what they take from the pump as dialled with no valve set; nil if not known
	floors   []floorLoops
	governs  int // of floors
	valve    mixer
	path     pipework.Path
	head     units.Pressure // at the circuit's flow
}

type pipeRun struct {
	name   string
	pipe   pipework.Pipe
	share  float64
	flow   units.Flow
	drop   units.Pressure
	path   pipework.Path
	branch bool
}

// floorLoops are the loops of one heated floor, told by the longest.
type floorLoops struct {
	room   string
	count  int
	length units.Length
	known  job.Known
	pipe   pipework.Pipe
	design pipework.LoopDesign
	heat   units.Power // of the longest loop
}

// mixer is the mixing valve of a circuit: given, or to be chosen.
type mixer struct {
	given, none bool
	kv, choose  units.FlowCoefficient
	drop        units.Pressure
	authority   units.Fraction
	judgement   pipework.Judgement
}

// readPiping reads the pipes, loops and valve of a circuit. A circuit that has none of
// them in the survey costs nothing and is not known.
func (m *model) readPiping(c *circuit) (*piping, error) {
	p := &piping{}
	laid := m.laidLoops(c)
	p.known = len(c.job.Pipes) > 0 || len(laid) > 0
	if !p.known && c.kind() != "mixed" {
		return p, nil
	}
	low, high, err := m.fluid().Range()
	if err != nil {
		return nil, err
	}
	if p.liquid, err = pipework.NewLiquid(m.fluid(), max(low, min(high, c.pipesAt))); err != nil {
		return nil, err
	}
	if c.kind() == "mixed" {
		if err := p.readValve(c); err != nil {
			return nil, fmt.Errorf("valve: %w", err)
		}
	}
	if !p.known {
		return p, nil
	}
	elements, err := p.readRuns(c)
	if err != nil {
		return nil, fmt.Errorf("pipes: %w", err)
	}
	if len(laid) > 0 {
		loops, err := m.designLoops(p, c, laid)
		var endless *endlessLoop
		if errors.As(err, &endless) {
			return &piping{liquid: p.liquid, valve: p.valve}, err // what is left stands without the loops
		}
		if err != nil {
			return nil, fmt.Errorf("floor loops: %w", err)
		}
		elements, p.common = append(elements, loops), append(p.common, loops)
	}
	if p.valve.kv > 0 {
		valve := pipework.Valve{Name: "the mixing valve", Kv: p.valve.kv}
		elements, p.common = append(elements, valve), append(p.common, valve)
	}
	if p.path, err = pipework.NewPath(p.liquid, elements...); err != nil {
		return nil, fmt.Errorf("pipes: %w", err)
	}
	p.head = p.path.Drop(c.flow)
	return p, nil
}

func (p *piping) readValve(c *circuit) error {
	choice, err := pipework.ValveFor(c.flow, beforeValve, wantedAuthority, p.liquid)
	v := mixer{kv: choice.Choose, choose: choice.Choose, drop: choice.Drop, authority: choice.Authority, judgement: choice.Judgement}
	if v.none = err != nil; v.none {
		v = mixer{none: true}
	}
	if c.job.Valve.Set {
		v.given, v.none, v.kv = true, false, c.job.Valve.Value
		if v.drop, err = pipework.KvDrop(v.kv, c.flow, p.liquid); err != nil {
			return err
		}
		if v.authority, err = pipework.Authority(v.drop, beforeValve); err != nil {
			return err
		}
		v.judgement = pipework.JudgeAuthority(v.authority)
	}
	p.valve = v
	return nil
}

// readRuns makes the pipes. Runs that carry a share count one after another, unless
// their shares add up to the whole: then they are branches side by side, and the one that
// takes most pressure counts.
func (p *piping) readRuns(c *circuit) ([]pipework.Element, error) {
	shares, parts := 0.0, 0
	for i, r := range c.job.Pipes {
		pipe, err := r.Pipe()
		if err != nil {
			return nil, fmt.Errorf("run %d: %w", i+1, err)
		}
		share := float64(r.Share.Or(1).Value)
		run := pipeRun{name: fmt.Sprintf("%s, %d", pipe, i+1), pipe: pipe, share: share, flow: units.Flow(share) * c.flow}
		elements := []pipework.Element{pipework.Run{Pipe: pipe, Length: r.Length.Value,
			K: units.Number(bendK*float64(r.Bends) + teeK*float64(r.Tees) + valveK*float64(r.Valves))}}
		if r.Extra.Set {
			elements = append(elements, pipework.Rated{Name: "what else is in it", Flow: run.flow, Drop: r.Extra.Value})
		}
		if run.path, err = pipework.NewPath(p.liquid, elements...); err != nil {
			return nil, fmt.Errorf("run %d: %w", i+1, err)
		}
		run.drop = run.path.Drop(run.flow)
		if share < 1 {
			shares, parts = shares+share, parts+1
		}
		p.runs = append(p.runs, run)
	}
	beside := parts > 1 && math.Abs(shares-1) < 0.03
	var out []pipework.Element
	var branches []pipework.Branch
	for i := range p.runs {
		r := &p.runs[i]
		if r.branch = beside && r.share < 1; r.branch {
			branches = append(branches, pipework.Branch{Name: r.name, Flow: r.flow, Path: r.path})
			continue
		}
		out = append(out, similar(r.name, r.path, r.flow, c.flow))
	}
	if beside {
		balanced, err := pipework.Balance(0, branches...)
		if err != nil {
			return nil, err
		}
		p.branches = &balanced
		for _, b := range branches {
			p.beside = append(p.beside, b.Path)
		}
		p.common = append(p.common, out...)
		index := branches[balanced.Index]
		out = append(out, similar(index.Name, index.Path, index.Flow, c.flow))
	}
	return out, nil
}

// similar stands for a path that sees a part of the circuit's flow: its drop at the
// design flow, and how that grows with the flow, from half the flow up.
func similar(name string, path pipework.Path, flow, whole units.Flow) pipework.Rated {
	drop := path.Drop(flow)
	n := math.Log2(float64(drop) / float64(path.Drop(flow/2)))
	return pipework.Rated{Name: name, Flow: whole, Drop: max(drop, 0.1), Exponent: units.Number(math.Max(1, math.Min(2, n)))}
}

// laidFloor is a floor of the circuit with loops in the survey.
type laidFloor struct {
	room string
	feed feed
	flow units.LossCoefficient
}

func (m *model) laidLoops(c *circuit) []laidFloor {
	var out []laidFloor
	for i, feeds := range c.feeds {
		for k, f := range feeds {
			if f.floor != nil && (f.laid.Loops > 0 || f.laid.LoopLength.Set) {
				out = append(out, laidFloor{room: c.solve.Rooms[i].Name, feed: f, flow: c.solve.Rooms[i].Flows[k] * units.LossCoefficient(c.flow/c.runs)})
			}
		}
	}
	return out
}

// designLoops designs the longest loop of each floor and gives the one that governs.
func (m *model) designLoops(p *piping, c *circuit, laid []laidFloor) (pipework.Element, error) {
	worst := units.Pressure(-1)
	var governing pipework.Rated
	for _, l := range laid {
		s := l.feed.survey
		f := floorLoops{room: l.room, count: l.feed.laid.Loops * l.feed.count, length: l.feed.laid.LoopLength.Value, known: l.feed.laid.LoopLength.How()}
		tube := units.Length(float64(s.Area) / float64(s.Spacing))
		switch {
		case f.count == 0:
			f.count = max(1, int(math.Round(float64(tube)/math.Max(1, float64(f.length-loopTail)))))
		case f.length == 0:
			length, err := pipework.LoopLength(s.Area/units.Area(f.count), s.Spacing, loopTail)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", l.room, err)
			}
			f.length, f.known = length, job.Assumed
		}
		// The longest loop has its part of the tube, and so of the heat.
		part := math.Max(1/float64(f.count), math.Min(1, float64(f.length)/float64(tube+units.Length(f.count)*loopTail)))
		f.heat = units.Power(part * float64(l.flow) * float64(c.drop))
		var err error
		if f.pipe, err = m.floorPipe(s); err != nil {
			return nil, fmt.Errorf("%s: %w", l.room, err)
		}
		loops, err := pipework.DesignLoops(p.liquid, pipework.Loop{Name: l.room, Pipe: f.pipe, Length: f.length, Heat: f.heat, Drop: c.drop})
		if err != nil {
			return nil, err
		}
		f.design = loops.Each[0]
		if f.design.Pressure > 10*mostPumpHead {
			return nil, &endlessLoop{room: l.room, tells: fmt.Sprintf("%s of %s tube with %s in it would take %s", m.say(f.length), f.pipe.Size, m.say(f.design.Flow), m.head(f.design.Pressure))}
		}
		if f.design.Pressure > worst {
			worst, p.governs = f.design.Pressure, len(p.floors)
			governing = similar("floor loop in "+l.room, f.design.Path, f.design.Flow, c.flow)
		}
		p.floors = append(p.floors, f)
	}
	return governing, nil
}

// head writes a pressure as pumps are told: feet of water, metres and kilopascals, or one
// of those that the reader chose.
func (m *model) head(p units.Pressure) string {
	feet := p.FeetOfWater()
	switch m.sys.Chosen(units.Heads) {
	case "kPa":
		return short(float64(p)/1000) + "\u00a0kPa"
	case "mbar":
		return short(float64(p)/100) + "\u00a0mbar"
	}
	if m.sys.In(units.Heads) == units.US {
		return short(feet) + "\u00a0ft of head"
	}
	return short(feet*0.3048) + "\u00a0m (" + short(float64(p)/1000) + "\u00a0kPa)"
}

// short keeps two figures, and one decimal at most.
func short(x float64) string {
	if math.Abs(x) < 0.995 {
		return fmt.Sprintf("%.2f", x)
	}
	if math.Abs(x) < 9.95 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}

// of names the circuit where there are several.
func (m *model) of(label string, c *circuit) string {
	if len(m.circuits) > 1 {
		label += ", " + c.job.Name
	}
	return label
}

// flowLine is the flow to set in a circuit.
func (m *model) flowLine(c *circuit, s solvedCircuit, p *piping) Line {
	design, last := s.out.Points[0], s.out.Points[len(s.out.Points)-1]
	l := Line{ID: c.key + ".flow", Circuit: c.job.Name, Label: m.of("Water flow", c), Value: m.say(c.runs),
		Why:     fmt.Sprintf("Check it by the drop in steady cold: %s on the design day, less in proportion when mild.", m.roughly(design.Set.Sub(design.Return))),
		TooHigh: "A smaller drop: noise, pump power and a warmer return for no more heat.",
		TooLow:  "A larger drop: the last rooms cool, the first do not.",
		Working: []working.Step{{Name: "Flow and drop of " + c.job.Name, Formula: "V̇ = Q/(ρ·cp·ΔT)",
			Inputs: []working.Input{
				{Symbol: "Q", Meaning: m.takenWords(c), Value: c.taken},
				{Symbol: "ΔT", Meaning: "drop on the design day", Value: c.drop, Known: string(c.flowHow)},
				{Symbol: "ΔT", Meaning: "as the settings give it there, with what floors lose below", Value: design.Set.Sub(design.Return)},
				{Symbol: "ΔT", Meaning: "where heating ends", Value: last.Set.Sub(last.Return)},
			},
			Result: working.Input{Symbol: "V̇", Meaning: "water flow", Value: c.flow},
			Range:  m.fluid().String(), Source: "heat balance of the water"}}}
	l.Working = append(l.Working, m.carriesStep(m.fluid(), c.flowAt)...)
	if c.weak != nil {
		l.Why = fmt.Sprintf("All that its pump gives; %s is wanted. See the findings.", m.say(c.flow))
		l.Working = append(l.Working, m.weakStep(c)...)
	}
	var slow []string
	for _, r := range p.runs {
		if v := r.pipe.Velocity(r.flow); v < airCarried {
			slow = append(slow, r.pipe.String())
		}
	}
	if len(slow) > 0 {
		l.TooLow += fmt.Sprintf(" In %s the water runs slower than %s and leaves air behind: vents at high points, flush faster when filling.",
			slow[0], m.say(airCarried))
	}
	m.barePipes(c, (design.Set+design.Return)/2, p, &l)
	return l
}

// barePipes says what the pipes may lose, since load and curve count none of it: how much
// of it is lost to the house nobody surveyed.
func (m *model) barePipes(c *circuit, water units.Temperature, p *piping, l *Line) {
	var runs []hotwater.Run
	length := units.Length(0)
	for i, r := range p.runs {
		if i < len(c.job.Pipes) {
			runs = append(runs, hotwater.Run{Outside: r.pipe.Outside, Material: loopFoam, Length: c.job.Pipes[i].Length.Value, Around: usualAround})
			length += c.job.Pipes[i].Length.Value
		}
	}
	loss, err := hotwater.LoopLoss(runs, water)
	if len(runs) == 0 || err != nil || loss <= 0 {
		return
	}
	l.Instead = fmt.Sprintf("Heat lost by the pipes is not counted in load and curve: bare, %s of them lose up to %s on the design day. Insulate what runs outside heated rooms.",
		m.say(length), m.say(loss))
	l.Working = append(l.Working, working.Step{Name: "What the pipes lose if they are bare", Formula: "Q = Σ L·π·d·h·(T − Ta)",
		Inputs: []working.Input{
			{Symbol: "L", Meaning: "all runs", Value: length},
			{Symbol: "T", Meaning: "mean water on the design day", Value: water},
			{Symbol: "Ta", Meaning: "around the pipes", Value: usualAround, Known: string(job.Assumed)},
			{Symbol: "h", Meaning: "to the air", Value: hotwater.Film, Known: string(job.Assumed)},
		},
		Result: working.Input{Symbol: "Q", Meaning: "lost, not counted elsewhere", Value: loss},
		Range:  "bare pipes in still air; floor loops not among them", Source: "cylinder, ISO 12241; h = 10 W/m²K common practice"})
}

// airCarried is the velocity from which water takes air along: ASHRAE Handbook
// Fundamentals, from memory.
const airCarried = units.Velocity(2 * 0.3048)

// pipeLines are pump, branches and loops of a circuit.
func (m *model) pipeLines(d *drive, k int) ([]Line, error) {
	c, p := &m.circuits[d.circuits[k]], d.pipes[k]
	if k == 0 {
		m.pipesMissing(d)
	}
	if !p.known {
		return nil, nil
	}
	if err := m.velocityFindings(c, p); err != nil {
		return nil, err
	}
	var out []Line
	if k == 0 && d.known {
		out = append(out, m.pumpLine(d))
		if len(d.circuits) > 1 {
			out = append(out, m.sideBySideLine(d))
		}
	}
	if p.branches != nil {
		out = append(out, m.balanceLine(c, p))
	}
	if len(p.floors) > 0 {
		out = append(out, m.loopsLine(c, p, d.spare(k)))
	}
	return out, nil
}

func (m *model) headWorking(c *circuit, p *piping) working.Step {
	step := working.Step{Name: "Head that " + c.job.Name + " takes", Formula: "Δp = Σ (f·L/D + K)·ρ·v²/2 + loops + valve",
		Inputs: []working.Input{{Symbol: "V̇", Meaning: "water flow", Value: c.flow, Known: string(c.flowHow)}},
		Result: working.Input{Symbol: "Δp", Meaning: "of the circuit at that flow", Value: p.head},
		Range:  p.liquid.Fill.String() + " at " + m.say(p.liquid.At), Source: "Darcy–Weisbach, Colebrook; fittings: ASHRAE Handbook Fundamentals, from memory",
		Note: "emitters and boiler count only where the survey gives their drop as extra"}
	for _, r := range p.runs {
		name := r.name
		if r.branch {
			name += ", a branch"
		}
		step.Inputs = append(step.Inputs, working.Input{Symbol: "v", Meaning: name, Value: r.pipe.Velocity(r.flow)},
			working.Input{Symbol: "Δp", Meaning: name, Value: r.drop})
	}
	if len(p.floors) > 0 {
		f := p.floors[p.governs]
		step.Inputs = append(step.Inputs, working.Input{Symbol: "Δp", Meaning: "longest loop in " + f.room, Value: f.design.Pressure})
	}
	if p.valve.kv > 0 {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "Δp", Meaning: "mixing valve", Value: p.valve.drop, Known: string(c.job.Valve.Or(0).How())})
	}
	return step
}

// pumpLine is what to dial in at a pump.
func (m *model) pumpLine(d *drive) Line {
	c := &m.circuits[d.circuits[0]]
	l := Line{ID: c.key + ".pump", Circuit: c.job.Name, Label: m.of("Pump", c), Value: m.head(d.head),
		Why:     fmt.Sprintf("What the circuit takes at %s; the survey has no pump curve, so set it by the drop.", m.say(d.flow)),
		TooHigh: "Noise in valves, pump power, a small drop and a warm return.", TooLow: "Too little water: a large drop, the last rooms cool.",
		Working: m.driveWorking(d)}
	if len(d.circuits) > 1 {
		l.Label = "Pump, " + m.names(d)
		l.Why = fmt.Sprintf("What its circuits take at %s; the survey has no pump curve, so set it by the drop.", m.say(d.flow))
	}
	if len(d.points) == 0 {
		for k, i := range d.circuits {
			m.beyondPumps(&m.circuits[i], d.pipes[k], &l)
		}
		return l
	}
	step := working.Step{Name: "Pump of " + m.names(d), Formula: "H_pump(V̇) = Δp(V̇); fixed speed s: H = s²·H_full(V̇/s)",
		Inputs: []working.Input{
			{Symbol: "Δp", Meaning: "wanted at the circuit's flow", Value: d.head},
			{Symbol: "H", Meaning: "that the pump makes there at full speed", Value: d.able(), Known: string(d.points[0].Head.How())},
		},
		Range: "inside the points of the pump's curve", Source: "balance of pressures; affinity laws of pumps"}
	if c.weak != nil {
		m.tooWeak(d, &l, &step)
	} else {
		mode := pipework.PumpMode(c.job.Pump.Mode)
		if mode == "" {
			mode = pipework.FixedSpeed
		}
		m.dial(d, mode, &l, &step)
	}
	l.Working = append(l.Working, step)
	return l
}

// dial writes the setting that gives the circuits their flow.
func (m *model) dial(d *drive, mode pipework.PumpMode, l *Line, step *working.Step) {
	name, several := m.names(d), len(d.circuits) > 1
	want := pipework.PumpPoint{Flow: d.flow, Head: d.head}
	set, err := d.curve.Dial(mode, want)
	if err != nil && mode == pipework.ProportionalPressure {
		// A flat curve there: only constant pressure holds the head.
		mode = pipework.ConstantPressure
		set, err = d.curve.Dial(mode, want)
	}
	if err != nil {
		l.Value = "lowest speed"
		l.Why = fmt.Sprintf("Even there the pump makes more than the %s that the circuit takes at %s.", m.head(d.head), m.say(d.flow))
		l.Instead = "Throttle at a balancing valve until the drop is right; a smaller pump when this one is replaced."
		text := fmt.Sprintf("The pump of %s is larger than its circuit: %s at %s is less than its curve goes down to.", name, m.head(d.head), m.say(d.flow))
		if several {
			l.Why = fmt.Sprintf("Even there the pump makes more than the %s that its circuits take at %s.", m.head(d.head), m.say(d.flow))
			text = fmt.Sprintf("The pump of %s is larger than its circuits: %s at %s is less than its curve goes down to.", name, m.head(d.head), m.say(d.flow))
		}
		m.findings = append(m.findings, Finding{Severity: "note", Circuit: l.Circuit, Text: text,
			Cures: []string{"its lowest speed and a balancing valve", "a smaller pump when this one is replaced"}, Working: l.Working})
		return
	}
	if pump, err := d.curve.Set(set); err == nil && several {
		d.openCircuits(pump)
	} else if err == nil {
		d.pipes[0].shareOpen(pump)
	}
	step.Result = working.Input{Symbol: "H", Meaning: "head to set", Value: set.Head}
	switch mode {
	case pipework.FixedSpeed:
		step.Result = working.Input{Symbol: "s", Meaning: "speed", Value: set.Speed}
		l.Value = fmt.Sprintf("speed %.0f %%", 100*float64(set.Speed))
		if set.Speed > 0.995 {
			l.Value = "full speed"
		}
		l.Why = fmt.Sprintf("Gives %s against %s. With steps, the next above, and throttle.", m.say(d.flow), m.head(d.head))
	case pipework.ProportionalPressure:
		l.Value = "proportional, " + m.head(set.Head)
		l.Why = fmt.Sprintf("Gives %s against %s where valves are open, less head when they close.", m.say(d.flow), m.head(d.head))
	default:
		l.Value = "constant, " + m.head(set.Head)
		l.Why = fmt.Sprintf("Gives %s against what the circuit takes, and holds it when valves close.", m.say(d.flow))
		if several {
			l.Why = fmt.Sprintf("Gives %s against what its circuits take, and holds it when valves close.", m.say(d.flow))
		}
	}
}

// tooWeak says what a pump that cannot give its circuits their flow comes to.
func (m *model) tooWeak(d *drive, l *Line, step *working.Step) {
	first := &m.circuits[d.circuits[0]]
	wants, takes, makes := m.say(d.flow), m.head(d.head), m.head(d.able())
	l.Value = "full speed"
	l.Why = fmt.Sprintf("The pump is too weak: %s takes %s.", wants, takes)
	text := fmt.Sprintf("The pump of %s is too weak: %s takes %s and it makes %s there.", m.names(d), wants, takes, makes)
	if d.beyond() {
		text = fmt.Sprintf("The pump of %s is too weak: %s is beyond the end of its curve.", m.names(d), wants)
	}
	runs := units.Flow(0)
	for _, i := range d.circuits {
		runs += m.circuits[i].runs
	}
	step.Result = working.Input{Symbol: "V̇", Meaning: "flow at full speed", Value: runs}
	for _, i := range d.circuits {
		c := &m.circuits[i]
		if len(d.circuits) == 1 {
			text += fmt.Sprintf(" At full speed it gives %s, with a drop of %s on the design day.", m.say(c.runs), m.say(c.cools()))
		} else {
			text += fmt.Sprintf(" At full speed %s gets %s of the %s wanted, with a drop of %s on the design day.", c.job.Name, m.say(c.runs), m.say(c.flow), m.say(c.cools()))
		}
		text += m.rightPump(c)
		l.Working = append(l.Working, m.weakStep(c)...)
	}
	index := d.pipes[d.balanced.Index]
	var cures []string
	if d.head <= mostPumpHead {
		cures = append(cures, fmt.Sprintf("a pump that makes %s at %s", takes, wants))
	}
	if r := index.steepest(); r != nil && r.drop > d.head/3 {
		cures = append(cures, "a larger tube in place of "+r.pipe.String()+", which takes "+m.head(r.drop))
	}
	if len(index.floors) > 0 && index.floors[index.governs].design.Pressure > d.head/3 {
		cures = append(cures, "the longest floor loop split in two")
	}
	if index.valve.chokes() {
		cures = append(cures, "a larger mixing valve: "+m.say(index.valve.choose)+" or more")
	}
	m.findings = append(m.findings, Finding{Severity: "short", Circuit: first.job.Name, Text: text,
		Cures: append(cures, "less water with a larger drop, if the emitters allow it"), Working: append(l.Working[:len(l.Working):len(l.Working)], *step)})
}

// rightPump says what the flow that is missing costs a circuit in supply.
func (m *model) rightPump(c *circuit) string {
	rooms := c.solve
	needs, could := rooms.Ideal([]units.Temperature{m.design})[0], c.weak.right.at[0].Supply
	switch {
	case could >= curve.Hottest:
		return ""
	case needs >= curve.Hottest:
		return fmt.Sprintf(" With that no water of a house is hot enough for %s; with the flow wanted %s would be.", c.job.Name, m.say(could))
	case needs.Sub(could) < 0.5:
		return fmt.Sprintf(" The supply that %s needs hardly rises by it.", c.job.Name)
	}
	return fmt.Sprintf(" With that %s needs %s of supply on the design day instead of %s.", c.job.Name, m.say(needs), m.say(could))
}

// steepest is the run that takes most pressure.
func (p *piping) steepest() *pipeRun {
	var out *pipeRun
	for i := range p.runs {
		if out == nil || p.runs[i].drop > out.drop {
			out = &p.runs[i]
		}
	}
	return out
}

// quietTo is the velocity above which water is heard in house tubes: ASHRAE Handbook
// Fundamentals, from memory.
const quietTo = units.Velocity(4 * 0.3048)

// velocityFindings reports tubes in which the water is too fast.
func (m *model) velocityFindings(c *circuit, p *piping) error {
	for _, r := range p.runs {
		judged, err := pipework.JudgeVelocity(r.pipe, r.flow, p.liquid)
		if err != nil {
			return fmt.Errorf("pipes: %w", err)
		}
		for _, j := range judged[:len(judged)-1] { // the last is about air, which the flow line tells
			if j.Fits {
				continue
			}
			v := r.pipe.Velocity(r.flow)
			m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name,
				Text:    fmt.Sprintf("%s of %s carries %s: %s.", upper(r.pipe.String()), c.job.Name, m.say(r.flow), j.Text),
				Cures:   m.slower(c, r, v),
				Working: []working.Step{m.headWorking(c, p)}})
			break
		}
	}
	return nil
}

func (m *model) slower(c *circuit, r pipeRun, v units.Velocity) []string {
	out := []string{"a larger tube"}
	for _, t := range pipework.Tables() {
		if t.Standard != r.pipe.Standard {
			continue
		}
		for _, larger := range t.Pipes {
			if larger.Bore > r.pipe.Bore && larger.Velocity(r.flow) <= quietTo*0.75 {
				out[0] = larger.String() + " in its place"
				break
			}
		}
	}
	if v > quietTo {
		out = append(out, fmt.Sprintf("less water: a drop of %s instead of %s", m.roughly(c.drop*units.Difference(v/quietTo)), m.roughly(c.drop)))
	}
	return out
}

// shareOpen works out how the branches share the pump's water if nobody balances them.
func (p *piping) shareOpen(pump pipework.Pump) {
	if p.branches == nil {
		return
	}
	var common *pipework.Path
	if len(p.common) > 0 {
		path, err := pipework.NewPath(p.liquid, p.common...)
		if err != nil {
			return
		}
		common = &path
	}
	if shared, err := pipework.Solve(pump, common, p.beside...); err == nil {
		p.open = &shared
	}
}

// balanceLine is what the balancing valves of parallel branches have to take.
func (m *model) balanceLine(c *circuit, p *piping) Line {
	l := Line{ID: c.key + ".balance", Circuit: c.job.Name, Label: m.of("Balancing valves", c),
		Why:     "Each branch takes what the hardest one takes; that one stays fully open.",
		TooHigh: "A valve too far open takes the water of the others.", TooLow: "A valve too far closed starves its own branch."}
	step := working.Step{Name: "Balance of " + c.job.Name, Formula: "Δp_valve = max(Δp) − Δp; kv = V̇·√(ρ/1000/Δp_valve)",
		Result: working.Input{Symbol: "Δp", Meaning: "across all branches", Value: p.branches.Head},
		Range:  "turbulent flow in the valves", Source: "balance of pressures; IEC 60534-2-1"}
	var set []string
	k := 0
	for i, r := range p.runs {
		if !r.branch {
			continue
		}
		v := p.branches.Valves[k]
		k++
		position := "open"
		if v.Kv > 0 {
			position = m.say(v.Kv)
		}
		set = append(set, fmt.Sprintf("run %d %s", i+1, position))
		step.Inputs = append(step.Inputs, working.Input{Symbol: "V̇", Meaning: fmt.Sprintf("run %d", i+1), Value: r.flow},
			working.Input{Symbol: "Δp_valve", Meaning: fmt.Sprintf("run %d", i+1), Value: v.Throttle})
	}
	l.Value = strings.Join(set, ", ")
	l.Working = []working.Step{step}
	if p.open != nil {
		m.openBranches(p, &l)
	}
	return l
}

// openBranches says what the branches take if their valves are left open.
func (m *model) openBranches(p *piping, l *Line) {
	step := working.Step{Name: "Branches left open", Formula: "Δp_i(V̇_i) equal for all; H(ΣV̇_i) = Δp_common(ΣV̇_i) + Δp",
		Result: working.Input{Symbol: "V̇", Meaning: "of all together", Value: p.open.Total},
		Range:  "the pump as it is set on this sheet", Source: "balance of pressures and of flow"}
	var takes []string
	k := 0
	for i, r := range p.runs {
		if !r.branch {
			continue
		}
		flow := p.open.Flows[k]
		k++
		takes = append(takes, fmt.Sprintf("run %d %s", i+1, m.say(flow)))
		step.Inputs = append(step.Inputs, working.Input{Symbol: "V̇", Meaning: fmt.Sprintf("run %d", i+1), Value: flow},
			working.Input{Symbol: "V̇", Meaning: fmt.Sprintf("run %d wants", i+1), Value: r.flow})
	}
	l.Instead = "With no valve set, the pump as dialled gives " + strings.Join(takes, ", ") + "."
	l.Working = append(l.Working, step)
}
