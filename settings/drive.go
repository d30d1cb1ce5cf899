package settings

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/job"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// Which water does each pump really move, through the one circuit or the several behind it,
// and what curve do the circuits need if it moves less than they want?

// drive is a pump with the circuits whose water it moves.
type drive struct {
	circuits []int        // of the model; the first has the pump
	flow     units.Flow   // wanted by all
	wants    []units.Flow // by each
	known    bool         // the pipes of all are in the survey
	pipes    []*piping
	endless  []*endlessLoop     // by circuit; nil where its loops can be
	balanced pipework.Balanced  // the circuits side by side
	paths    []pipework.Path    // each with its balancing valve
	head     units.Pressure     // across all at the wanted flow
	points   []job.PumpPoint    // of the pump, as surveyed
	curve    pipework.PumpCurve // only with points
	full     pipework.Pump      // at full speed, only with points
	reach    units.Flow         // last of the points
	open     *pipework.Shared   // with the pump as dialled and no valve set; nil if not known
}

// weakPump is what a pump that is too weak comes to for a circuit.
type weakPump struct {
	beyond bool          // the flow wanted lies beyond the last point of its curve
	right  solvedCircuit // the curve with the flow that is wanted
}

// slow gives the circuit the flow that really passes. Its limits stay those of the flow that
// is wanted: they must hold on the day a right pump is put in.
func (c *circuit) slow(flow units.Flow) {
	ratio := units.LossCoefficient(flow / c.runs)
	c.runs = flow
	c.solve.Flow *= ratio
	for i := range c.solve.Rooms {
		for k := range c.solve.Rooms[i].Flows {
			c.solve.Rooms[i].Flows[k] *= ratio
		}
	}
}

// cools is the drop on the design day with the flow that really passes.
func (c *circuit) cools() units.Difference { return c.drop * units.Difference(c.flow/c.runs) }

// drives are the pumps of the house's circuits.
func (m *model) drives() []drive {
	var out []drive
	for i := range m.circuits {
		if m.circuits[i].job.PumpOf != "" {
			continue
		}
		d := drive{circuits: []int{i}}
		for k := range m.circuits {
			if m.circuits[k].job.PumpOf == m.circuits[i].job.Name {
				d.circuits = append(d.circuits, k)
			}
		}
		out = append(out, d)
	}
	return out
}

// names are those of the circuits on a pump.
func (m *model) names(d *drive) string {
	var out []string
	for _, i := range d.circuits {
		out = append(out, m.circuits[i].job.Name)
	}
	return strings.Join(out, " + ")
}

// readDrive reads pump and pipes, and balances circuits that lie side by side.
func (m *model) readDrive(d *drive) error {
	d.known, d.flow, d.wants, d.pipes, d.endless, d.paths = true, 0, nil, nil, nil, nil
	var branches []pipework.Branch
	for _, i := range d.circuits {
		c := &m.circuits[i]
		p, err := m.readPiping(c)
		var endless *endlessLoop
		if errors.As(err, &endless) {
			err = nil
		}
		if err != nil {
			return fmt.Errorf("circuit %q: %w", c.job.Name, err)
		}
		d.pipes, d.endless = append(d.pipes, p), append(d.endless, endless)
		d.known = d.known && p.known
		d.flow, d.wants = d.flow+c.flow, append(d.wants, c.flow)
		branches = append(branches, pipework.Branch{Name: c.job.Name, Flow: c.flow, Path: p.path})
	}
	if !d.known {
		return nil
	}
	owner := &m.circuits[d.circuits[0]]
	if err := d.readPump(owner.job.Pump); err != nil {
		return fmt.Errorf("circuit %q: pump: %w", owner.job.Name, err)
	}
	var err error
	if d.balanced, err = pipework.Balance(0, branches...); err != nil {
		return fmt.Errorf("circuit %q: pipes: %w", owner.job.Name, err)
	}
	d.head = d.balanced.Head
	for k, v := range d.balanced.Valves {
		path := branches[k].Path
		if v.Throttle > 1 { // less than a pascal is no valve
			if path, err = path.And(pipework.Rated{Name: "its balancing valve", Flow: branches[k].Flow, Drop: v.Throttle}); err != nil {
				return fmt.Errorf("circuit %q: pipes: %w", v.Name, err)
			}
		}
		d.paths = append(d.paths, path)
	}
	return nil
}

// readPump makes the pump's curve, if the survey has its points.
func (d *drive) readPump(j *job.Pump) error {
	if j == nil || len(j.Points) == 0 {
		return nil
	}
	d.points = j.Points
	points := make([]pipework.PumpPoint, len(j.Points))
	for i, q := range j.Points {
		points[i] = pipework.PumpPoint{Flow: q.Flow.Value, Head: q.Head.Value}
	}
	d.reach = points[len(points)-1].Flow
	var err error
	if d.curve, err = pipework.NewPumpCurve(points...); err != nil {
		return fmt.Errorf("points: %w", err)
	}
	d.full, err = d.curve.Set(pipework.PumpSetting{Mode: pipework.FixedSpeed, Speed: 1})
	return err
}

// beyond tells a flow that lies behind the last point of the pump's curve.
func (d *drive) beyond() bool { return d.flow > d.reach }

// able is the head that the pump makes at full speed at the flow that is wanted.
func (d *drive) able() units.Pressure { return d.full.Head(d.flow) }

// weak tells a pump that cannot give its circuits their flow.
func (d *drive) weak() bool {
	return d.known && len(d.points) > 0 && (d.beyond() || d.able() < d.head*(1-1e-6))
}

// spare is the head that the pump could give a circuit beyond what that takes, below zero if
// it gives less, none if the pump is not known.
func (d *drive) spare(k int) units.Pressure {
	switch {
	case !d.known || len(d.points) == 0:
		return 0
	case d.weak():
		return min(-1, d.able()-d.head)
	}
	return d.able() - d.head + d.balanced.Valves[k].Throttle
}

// gives are the flows at full speed. Behind the last point of its curve nothing is known of
// a pump: it is then taken to give no more than there.
func (d *drive) gives() []units.Flow {
	if shared, err := pipework.Solve(d.full, nil, d.paths...); err == nil {
		return shared.Flows
	}
	var out []units.Flow
	for _, wants := range d.wants {
		out = append(out, wants*min(1, d.reach/d.flow))
	}
	return out
}

// openCircuits works out how the circuits share the pump's water if nobody balances them.
func (d *drive) openCircuits(pump pipework.Pump) {
	var paths []pipework.Path
	for _, p := range d.pipes {
		paths = append(paths, p.path)
	}
	if shared, err := pipework.Solve(pump, nil, paths...); err == nil {
		d.open = &shared
	}
}

// pumped gives every circuit the flow that its pump makes of it, and solves those again that
// get less than they want: less water cools further, so its mean is cooler and the supply
// that the rooms need is hotter.
func (m *model) pumped(solved []solvedCircuit) error {
	for _, d := range m.drives() {
		m.waterAt(&d, func(i int) (supply, back units.Temperature) {
			p := solved[i].out.Points[0]
			return p.Set, p.Return
		})
		if err := m.readDrive(&d); err != nil {
			return err
		}
		if d.weak() {
			if err := m.weaken(&d, solved); err != nil {
				return err
			}
		}
	}
	return nil
}

// waterAt keeps the mean water on the design day, for which the pipes are reckoned: that of
// the circuits on a pump together.
func (m *model) waterAt(d *drive, water func(i int) (supply, back units.Temperature)) {
	sum, weight := 0.0, 0.0
	for _, i := range d.circuits {
		supply, back := water(i)
		sum += float64(m.circuits[i].runs) * float64((supply+back)/2)
		weight += float64(m.circuits[i].runs)
	}
	mean := units.Temperature(sum / weight)
	if len(d.circuits) == 1 {
		supply, back := water(d.circuits[0])
		mean = (supply + back) / 2
	}
	for _, i := range d.circuits {
		m.circuits[i].pipesAt = mean
	}
}

// weaken finds flow and curve of circuits whose pump is too weak. The flow hangs a little on
// how thin the water is, and that on the curve: the two are found in turn.
func (m *model) weaken(d *drive, solved []solvedCircuit) error {
	right := slices.Clone(solved)
	for range 20 {
		moved := 0.0
		for k, flow := range d.gives() {
			i := d.circuits[k]
			c := &m.circuits[i]
			flow = min(flow, c.flow)
			moved = math.Max(moved, math.Abs(float64(flow/c.runs)-1))
			c.slow(flow)
			c.weak = &weakPump{beyond: d.beyond(), right: right[i]}
			var err error
			if solved[i], err = m.curveOf(c, solved[i].cutOff); err != nil {
				return fmt.Errorf("circuit %q: %w", c.job.Name, err)
			}
		}
		if moved < 1e-5 {
			return nil
		}
		// What the rooms need and not what a control's steps make of it: steps would jump.
		m.waterAt(d, func(i int) (supply, back units.Temperature) {
			c := &m.circuits[i]
			supply = min(solved[i].at[0].Supply, c.limits[0].supply)
			return supply, m.returnsAt(c, m.design, supply)
		})
		if err := m.readDrive(d); err != nil {
			return err
		}
	}
	return nil
}

// weakStep says which flow a circuit with too weak a pump was reckoned with, and why.
func (m *model) weakStep(c *circuit) []working.Step {
	if c.weak == nil {
		return nil
	}
	step := working.Step{Name: "Water that the pump really gives " + c.job.Name, Formula: "H_pump(ΣV̇) = Δp(ΣV̇) at full speed",
		Inputs: []working.Input{
			{Symbol: "V̇", Meaning: "water wanted", Value: c.flow, Known: string(c.flowHow)},
			{Symbol: "ΔT", Meaning: "drop with the water that passes", Value: c.cools()},
		},
		Result: working.Input{Symbol: "V̇", Meaning: "flow at full speed", Value: c.runs},
		Range:  "inside the points of the pump's curve", Source: "balance of pressures; affinity laws of pumps",
		Note: "the pump is too weak: needs, curve, return and condensing are reckoned with this water"}
	if c.weak.beyond {
		step.Note += "; the pump is taken to give no more than at the last point of its curve"
	}
	return []working.Step{step}
}

// driveWorking is what the circuits of a pump take, and their balance if there are several.
func (m *model) driveWorking(d *drive) []working.Step {
	var out []working.Step
	for k, i := range d.circuits {
		out = append(out, m.headWorking(&m.circuits[i], d.pipes[k]))
	}
	if len(d.circuits) > 1 {
		out = append(out, m.sideBySideStep(d))
	}
	return out
}

func (m *model) sideBySideStep(d *drive) working.Step {
	step := working.Step{Name: "Balance of " + m.names(d), Formula: "Δp_valve = max(Δp) − Δp; kv = V̇·√(ρ/1000/Δp_valve)",
		Result: working.Input{Symbol: "Δp", Meaning: "across all circuits on the pump", Value: d.head},
		Range:  "turbulent flow in the valves", Source: "balance of pressures; IEC 60534-2-1"}
	for k, v := range d.balanced.Valves {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "V̇", Meaning: "water of " + v.Name, Value: d.wants[k]},
			working.Input{Symbol: "Δp", Meaning: "of " + v.Name + " itself", Value: v.Own},
			working.Input{Symbol: "Δp_valve", Meaning: "for the valve of " + v.Name, Value: v.Throttle})
	}
	return step
}

// sideBySideLine is what the balancing valves of circuits on one pump have to take.
func (m *model) sideBySideLine(d *drive) Line {
	c := &m.circuits[d.circuits[0]]
	l := Line{ID: c.key + ".circuits", Circuit: c.job.Name, Label: "Balancing valves, " + m.names(d),
		Why:     "One pump drives these circuits: each takes what the hardest takes, and that one stays fully open.",
		TooHigh: "A valve too far open takes the water of the other circuit.", TooLow: "A valve too far closed starves its own circuit.",
		Working: []working.Step{m.sideBySideStep(d)}}
	var set []string
	for _, v := range d.balanced.Valves {
		position := "open"
		if v.Kv > 0 {
			position = m.say(v.Kv)
		}
		set = append(set, position+" for "+v.Name)
	}
	l.Value = strings.Join(set, ", ")
	if d.open == nil {
		return l
	}
	step := working.Step{Name: "Circuits left open", Formula: "Δp_i(V̇_i) equal for all; H(ΣV̇_i) = Δp",
		Result: working.Input{Symbol: "V̇", Meaning: "of all together", Value: d.open.Total},
		Range:  "the pump as it is set on this sheet", Source: "balance of pressures and of flow"}
	var takes []string
	for k, v := range d.balanced.Valves {
		takes = append(takes, fmt.Sprintf("With no valve set %s gets %s instead of %s.", v.Name, m.say(d.open.Flows[k]), m.say(d.wants[k])))
		step.Inputs = append(step.Inputs, working.Input{Symbol: "V̇", Meaning: "water of " + v.Name, Value: d.open.Flows[k]},
			working.Input{Symbol: "V̇", Meaning: "that " + v.Name + " wants", Value: d.wants[k]})
	}
	l.Instead = strings.Join(takes, " ")
	l.Working = append(l.Working, step)
	return l
}

// pipesMissing says which pipes the survey lacks to set a pump of several circuits.
func (m *model) pipesMissing(d *drive) {
	if d.known || len(d.circuits) == 1 {
		return
	}
	var cures []string
	for k, i := range d.circuits {
		if name := m.circuits[i].job.Name; d.endless[k] == nil && !d.pipes[k].known {
			cures = append(cures, "the pipes of "+name+" in the survey")
		}
	}
	if len(cures) == 0 {
		return // loops that cannot be have a finding of their own
	}
	m.findings = append(m.findings, Finding{Severity: "note", Circuit: m.circuits[d.circuits[0]].job.Name,
		Text: fmt.Sprintf("The pump of %s cannot be set: not all of their pipes are in the survey.", m.names(d)), Cures: cures})
}
