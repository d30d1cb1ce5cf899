package settings

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/building"
	"curvewright/curve"
	"curvewright/job"
	"curvewright/units"
)

// Options say how a job is solved.
type Options struct {
	System  units.System // of the sentences
	Samples int          // of the survey's uncertainty; 0 leaves the bands out
	Seed    uint64       // of the sampling
	Hours   Hours        // of the place's own year; nil takes a made-up one
	Learned *Learned     // what the running house has taught; nil for what the job says of it
}

// Hours is a year's outdoor temperatures: *weather.Year and weather.Spread are such.
type Hours interface {
	HoursBetween(from, to units.Temperature) units.Time
}

// DefaultOptions are those of the command line and of the page: the job's own units
// and enough samples for a steady band.
//
// Units: none.
// Range: any job.
// Source: own choice; with 500 samples a 90 % band moves by under 3 % from seed to seed.
func DefaultOptions(j *job.Job) Options {
	o := Options{System: units.US, Samples: 500, Seed: 1}
	if j.Display == "si" {
		o.System = units.SI
	}
	return o
}

// tolerance is how far below its set-point a setting may leave a room, so that a
// control's coarse steps need not always be rounded up: half a kelvin, about 1 °F.
const tolerance = units.Difference(0.5)

// beyondDesign is how much colder than the design day the highest supply still serves.
const beyondDesign = units.Difference(5)

// Solve computes the settings sheet of a job.
//
// The design load and the loss of every room, the supply that each needs from the
// design day to the heating limit, the governing room, the best curve within the
// control's shape, steps and limits, and the sentences around them.
//
// Units: those of the job; sentences in Options.System.
// Range: design outdoor temperature 5 to 60 K below the annual mean; room set-points
// above it.
// Source: packages building, emitter and curve, each with its own.
// Errors: a sentence naming the block of the job and the remedy, if the job cannot
// be solved at all. A room that falls short is no error but a [Finding].
func Solve(j *job.Job, o Options) (*Sheet, error) {
	s, _, _, _, err := work(j, o)
	return s, err
}

// work solves a job and keeps what the sheet was made from.
func work(j *job.Job, o Options) (*Sheet, *model, []solvedCircuit, burner, error) {
	var b burner
	fail := func(err error) (*Sheet, *model, []solvedCircuit, burner, error) { return nil, nil, nil, b, err }
	m, err := newModel(j, o.System)
	if err != nil {
		return fail(err)
	}
	if o.Learned == nil {
		o.Learned = LearnedOf(j)
	}
	if err := m.learn(o.Learned); err != nil {
		return fail(err)
	}
	s := &Sheet{Job: j.Name, Place: j.Place, Surveyed: j.Date, By: j.By, System: o.System,
		Scale: m.control.scale, step: m.control.step, Design: m.design}
	if o.Hours != nil {
		m.year = o.Hours
	}
	s.Load = m.loadSummary()
	cutOff := m.cutOff()
	m.outdoor = m.outdoors(cutOff)
	m.hours = make([]units.Time, len(m.outdoor))
	for k := range m.outdoor {
		m.hours[k] = m.hoursNear(m.outdoor, k)
	}
	solved := make([]solvedCircuit, len(m.circuits))
	for i := range m.circuits {
		if solved[i], err = m.curveOf(&m.circuits[i], cutOff); err != nil {
			return fail(fmt.Errorf("circuit %q: %w", m.circuits[i].job.Name, err))
		}
	}
	if err = m.pumped(solved); err != nil {
		return fail(err)
	}
	for i := range m.circuits {
		m.shortfalls(&m.circuits[i], &solved[i])
		m.surpluses(&m.circuits[i], &solved[i])
		s.Circuits = append(s.Circuits, solved[i].out)
		s.Expected = append(s.Expected, m.expected(&m.circuits[i], solved[i])...)
	}
	if o.Samples > 0 {
		m.bands(s, solved, o)
	}
	m.hungriest(s)
	if err = m.couple(solved); err != nil {
		return fail(err)
	}
	s.Flows = m.flowPoints()
	if s.Boiler, b, err = m.boilerSeason(solved); err != nil {
		return fail(err)
	}
	s.CondensesBelow = 0
	if m.job.Boiler.Kind != "non-condensing" {
		s.CondensesBelow = s.Boiler.DewPoint
	}
	for i := range s.Expected {
		for _, p := range s.Boiler.Points {
			if p.Outdoor == s.Expected[i].Outdoor {
				s.Expected[i].Condensing = p.Return < s.CondensesBelow
			}
		}
	}
	s.Plant = m.plant()
	m.plantFindings()
	if s.Sections, err = m.sections(s, solved, b); err != nil {
		return fail(err)
	}
	if err := m.addFlows(s, solved, b); err != nil {
		return fail(err)
	}
	if err := m.addSystemWater(s, solved); err != nil {
		return fail(err)
	}
	if err := m.addSensors(s); err != nil {
		return fail(err)
	}
	m.besideTheFigures(s)
	s.Figures = m.figures(s, solved)
	s.Findings = gravestFirst(m.findings)
	s.Cautions = m.cautions()
	s.ownUnitsFirst()
	return s, m, solved, b, nil
}

// gravestFirst puts what must be mended before what may be noted; within a severity the
// order of the work stays.
func gravestFirst(findings []Finding) []Finding {
	order := []string{"stop", "short", "note"}
	slices.SortStableFunc(findings, func(a, b Finding) int {
		return cmp.Compare(slices.Index(order, a.Severity), slices.Index(order, b.Severity))
	})
	return findings
}

// solvedCircuit is a circuit with its curve.
type solvedCircuit struct {
	at       []curve.At
	setting  curve.Setting
	out      Circuit
	maxSet   units.Temperature // highest supply to set
	minSet   units.Temperature // lowest supply to set
	atCutOff units.Temperature // of the curve, before that limit
	cutOff   units.Temperature
	bands    curveBands
}

// cutOff is the outdoor temperature at which people, appliances and a little sun
// carry the house, held between 50 and 66 °F (10 and 19 °C).
func (m *model) cutOff() units.Temperature { return balanceOf(m.rooms, 1) }

func balanceOf(rooms []room, gainsFactor float64) units.Temperature {
	var loss building.Loss
	gains, setpoint, weight := 0.0, 0.0, 0.0
	for _, r := range rooms {
		loss = loss.Plus(r.loss)
		gains += gainsFactor * float64(building.AverageGains) * float64(r.area)
		w := float64(r.loss.Coefficient())
		setpoint += w * float64(r.setpoint)
		weight += w
	}
	inside := units.Temperature(setpoint / weight)
	balance := loss.BalanceOutdoor(inside, units.Power(gains))
	return max(units.Celsius(10), min(balance, units.Celsius(19), inside.Add(-1)))
}

func (m *model) loadSummary() Load {
	l := Load{Source: m.house.source, Billed: m.house.billed, Estimate: m.house.rough, Balance: m.cutOff()}
	for _, r := range m.rooms {
		q := r.loss.At(r.setpoint, m.design)
		l.Total += q
		l.Rooms = append(l.Rooms, RoomLoad{Name: r.name, Setpoint: r.setpoint, Load: q, Source: r.source})
	}
	if m.house.area > 0 {
		l.PerArea = units.Flux(float64(l.Total) / float64(m.house.area))
	}
	return l
}

// outdoors lists the outdoor temperatures of a curve: the design day, then round
// figures of the reader's scale up to the heating limit.
func (m *model) outdoors(cutOff units.Temperature) []units.Temperature {
	grid := units.Step{System: units.SI, Size: 2}
	if m.sys.In(units.Temperatures) == units.US {
		grid = units.Step{System: units.US, Size: 5}
	}
	out := []units.Temperature{m.design}
	for t := grid.Up(m.design.Add(0.8)); t < cutOff.Add(-0.8); t = t.Add(grid.Difference()) {
		out = append(out, grid.Nearest(t))
	}
	return append(out, cutOff)
}

// curveOf finds the ideal curve of a circuit, fits the control to it and says what is
// lost.
func (m *model) curveOf(c *circuit, cutOff units.Temperature) (solvedCircuit, error) {
	var s solvedCircuit
	s.cutOff = cutOff
	var err error
	if s.at, err = c.solve.Solve(m.outdoor, tolerance); err != nil {
		return s, err
	}
	for k := range s.at {
		s.at[k].Hours = m.hours[k]
	}
	if s.setting, err = curve.Fit(c.shape, c.setpoint, m.targets(c, s.at)); err != nil {
		return s, fmt.Errorf("control: %w", err)
	}
	m.chooseLimits(c, &s)
	s.out = m.describe(c, s)
	return s, nil
}

// targets are what a control's curve is fitted to: what the rooms need, and more where the
// boiler would condense that must stay dry.
func (m *model) targets(c *circuit, at []curve.At) []curve.Target {
	out := make([]curve.Target, len(at))
	for k, a := range at {
		out[k] = curve.Target{Outdoor: a.Outdoor, Ideal: a.Supply, Least: a.Least, Weight: math.Max(float64(a.Hours), 3600)}
		if m.mustStayHot(c) {
			floor := m.dryFloor(c, a.Outdoor)
			out[k].Ideal, out[k].Least = max(a.Supply, floor), max(a.Least, floor)
		}
	}
	return out
}

func (m *model) hoursNear(outdoors []units.Temperature, k int) units.Time {
	from, to := units.Celsius(-80), (outdoors[k]+outdoors[min(k+1, len(outdoors)-1)])/2
	if k > 0 {
		from = (outdoors[k-1] + outdoors[k]) / 2
	}
	return m.year.HoursBetween(from, to)
}

// chooseLimits picks the minimum and maximum supply to set. The maximum leaves room
// for nights colder than the design day, the minimum lets the curve run down to the
// heating limit.
func (m *model) chooseLimits(c *circuit, s *solvedCircuit) {
	open := s.setting
	s.maxSet = min(c.shape.Limit.To, max(m.control.step.Up(open.At(m.design.Add(-beyondDesign))), m.control.step.Up(open.At(m.design))))
	free := open
	free.Limit.From = 0
	s.atCutOff = free.At(s.cutOff)
	s.minSet = max(c.shape.Limit.From, min(m.control.step.Down(open.At(s.cutOff)), s.maxSet.Add(-m.control.step.Difference())))
	s.setting.Limit = curve.Span[units.Temperature]{From: s.minSet, To: s.maxSet}
}

// describe writes down a solved circuit for the sheet, the charts and the tables.
func (m *model) describe(c *circuit, s solvedCircuit) Circuit {
	out := Circuit{Name: c.job.Name, Kind: c.kind(), Flow: c.runs, Load: c.load, Shape: shapeWords(c.shape.Kind),
		Setpoint: c.setpoint, Limit: c.limits[0].supply, LimitedBy: c.limits[0].why, CutOff: s.cutOff}
	design := s.at[0]
	for i, r := range c.solve.Rooms {
		cr := CircuitRoom{Name: r.Name, Setpoint: r.Setpoint, Need: design.Needs[i], Governs: i == design.Leads}
		for k, f := range c.feeds[i] {
			if k > 0 {
				cr.Emitters += "; "
			}
			cr.Emitters += f.words
		}
		cr.Condition = "governs"
		if cr.Need >= curve.Hottest {
			cr.Condition = "out of reach of any water"
		}
		if !cr.Governs && cr.Need < curve.Hottest {
			cr.Condition = m.roughly(design.Supply.Sub(design.Needs[i])) + " to spare"
		}
		out.Rooms = append(out.Rooms, cr)
	}
	lost, hours := 0.0, 0.0
	for _, a := range s.at {
		set := s.setting.At(a.Outdoor)
		p := Point{Outdoor: a.Outdoor, Hours: a.Hours, Ideal: a.Supply, Set: set, Leads: a.Leads}
		for i, r := range c.solve.Rooms {
			reach := c.solve.Reaches(i, set, a.Outdoor)
			p.Rooms = append(p.Rooms, RoomPoint{Need: a.Needs[i], Reaches: reach})
			out.WorstShort = max(out.WorstShort, r.Setpoint.Sub(reach))
			if i == a.Leads {
				out.WorstOver = max(out.WorstOver, reach.Sub(r.Setpoint))
			}
		}
		back, heat := m.carried(c, p)
		p.Return = back
		for _, q := range heat {
			p.Heat += q
		}
		lost += float64(a.Hours) * math.Max(0, float64(set-a.Supply))
		hours += float64(a.Hours)
		out.Points = append(out.Points, p)
	}
	if hours > 0 {
		out.LostMean = units.Difference(lost / hours)
	}
	out.Lost = fmt.Sprintf("Against the ideal the water is %s hotter in the mean; the leading room gets at most %s too warm, no room more than %s too cool.",
		m.roughly(out.LostMean), m.roughly(out.WorstOver), m.roughly(max(0, out.WorstShort)))
	if out.Withheld = c.withheld; c.withheld {
		out.Lost = "Not to be set: this is the curve behind a mixing valve, which is not there yet; boiler water must not go in."
	}
	return out
}

// carried is what a circuit brings in one weather: the water coming back and the heat to
// each room. Valves or thermostats hold back what a room does not need. A room that falls
// short takes all that its emitters give where it settles, and the water carries just that.
func (m *model) carried(c *circuit, p Point) (back units.Temperature, heat []units.Power) {
	n := len(c.solve.Rooms)
	inside, heat := make([]units.Temperature, n), make([]units.Power, n)
	short, coldest, sum := false, p.Set, units.Power(0)
	for i, r := range c.solve.Rooms {
		inside[i] = min(r.Setpoint, p.Rooms[i].Reaches)
		short = short || r.Setpoint.Sub(p.Rooms[i].Reaches) > tolerance+0.05
		heat[i], coldest = r.Load(p.Outdoor, inside[i]), min(coldest, inside[i])
		sum += heat[i]
	}
	water, rooms := c.solve.Water(p.Set)
	switch {
	case len(c.solve.Loop) > 0 && short:
		water, heat = c.solve.WaterAt(p.Set, inside)
	case len(c.solve.Loop) > 0: // a loop has no valves that could hold anything back
		return c.solve.Return(p.Set, water), heat
	case short:
		water = 0
		for i := range heat {
			if taken, given := c.solve.RoomAt(i, p.Set, inside[i]); given > 0 {
				water += units.Power(float64(taken) * min(1, float64(heat[i])/float64(given)))
			}
		}
	case rooms <= 0:
		return p.Set, heat
	default:
		water = units.Power(float64(sum) * float64(water) / float64(rooms))
	}
	// A room that falls far short cools the water below its set-point, but not below itself.
	return max(coldest, p.Set-units.Temperature(float64(water)/float64(c.solve.Flow))), heat
}

// returnsAt is the water coming back at a supply that is not the set one.
func (m *model) returnsAt(c *circuit, outdoor, supply units.Temperature) units.Temperature {
	back, _ := m.carriedAt(c, outdoor, supply)
	return back
}

func (m *model) carriedAt(c *circuit, outdoor, supply units.Temperature) (units.Temperature, []units.Power) {
	p := Point{Outdoor: outdoor, Set: supply}
	for i := range c.solve.Rooms {
		p.Rooms = append(p.Rooms, RoomPoint{Reaches: c.solve.Reaches(i, supply, outdoor)})
	}
	return m.carried(c, p)
}

func (c *circuit) kind() string {
	if c.job.Kind == "mixed" {
		return "mixed"
	}
	return "direct"
}

func shapeWords(k curve.Kind) string {
	switch k {
	case curve.SlopeShift:
		return "slope and parallel shift"
	case curve.Bent:
		return "curve bent by an exponent between two points"
	case curve.Table:
		return "table of points"
	}
	return "straight line through two points"
}

// shortfalls reports every room that the curve cannot keep warm, why, and what would
// cure it.
func (m *model) shortfalls(c *circuit, s *solvedCircuit) {
	top := c.limits[0]
	if s.setting.Lowered > 0 {
		top = limit{why: "the ranges of the control's curve"}
	}
	for i, r := range c.solve.Rooms {
		first := s.out.Points[0].Rooms[i]
		short := r.Setpoint.Sub(first.Reaches)
		if short <= tolerance+0.1 {
			continue
		}
		below := m.design
		for k, p := range s.out.Points {
			if r.Setpoint.Sub(p.Rooms[i].Reaches) > tolerance+0.05 {
				below = s.at[k].Outdoor
				if k+1 < len(s.at) {
					below = s.at[k+1].Outdoor
				}
			}
		}
		need := "it would need " + m.say(first.Need)
		if first.Need >= curve.Hottest {
			need = "no water of a house is hot enough for it"
		}
		m.findings = append(m.findings, Finding{
			Severity: "short", Circuit: c.job.Name, Room: r.Name,
			Text: fmt.Sprintf("%s falls short below about %s outdoors: on the design day it reaches %s instead of %s, since the supply is held at %s by %s, and %s.",
				upper(r.Name), m.say(below), m.say(first.Reaches), m.say(r.Setpoint), m.say(s.setting.At(m.design)), top.why, need),
			Cures:   m.cures(c, i, s.setting.At(m.design)),
			Working: top.working,
		})
	}
}

// hungriest warns where the survey's doubt pulls one way: the neediest of many
// uncertain rooms asks for more than the one that governs on paper.
func (m *model) hungriest(s *Sheet) {
	for i, c := range s.Circuits {
		if len(c.Band) == 0 || len(c.Rooms) < 3 {
			continue
		}
		likely := c.Band[0].Median
		if likely.Sub(c.Points[0].Ideal) < 3 {
			continue
		}
		m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.Name, Text: fmt.Sprintf(
			"Any of the %d rooms on %s may turn out the hungriest. On paper %s needs %s on the design day; the likeliest is %s. Begin with the sheet and raise only on evidence.",
			len(c.Rooms), m.circuits[i].job.Name, c.Rooms[c.Points[0].Leads].Name, m.say(c.Points[0].Ideal), m.say(likely))})
	}
}

// surpluses reports what a loop without valves, or a control too coarse, makes of the
// rooms that need less than the curve gives.
func (m *model) surpluses(c *circuit, s *solvedCircuit) {
	first := s.out.Points[0]
	if len(c.solve.Loop) > 0 {
		var hot []string
		for i, r := range c.solve.Rooms {
			if first.Rooms[i].Reaches.Sub(r.Setpoint) > 2 {
				hot = append(hot, fmt.Sprintf("%s (%s)", r.Name, m.say(first.Rooms[i].Reaches)))
			}
		}
		if len(hot) > 0 {
			m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
				"On the loop %s gets water hotter than it needs and would settle, on the design day with dampers open, too warm: %s. The last emitters get what these leave.",
				c.job.Name, strings.Join(hot, ", ")),
				Cures: []string{"dampers or covers on the emitters of these rooms", "more emitter in the room that governs, and a lower curve", "splitting the loop"}})
		}
		return
	}
	if s.out.WorstOver > 3 {
		worst := first
		for _, p := range s.out.Points {
			if p.Set-p.Ideal > worst.Set-worst.Ideal {
				worst = p
			}
		}
		if m.mustStayHot(c) && worst.Set < m.dryFloor(c, worst.Outdoor).Add(3) {
			return // the finding about the dry boiler says it
		}
		if low := c.shape.Limit.From; worst.Set <= low.Add(0.05) {
			m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
				"Boiler or control send %s no cooler water than %s: in mild weather the leading room would get up to %s too warm with its valves open.",
				c.job.Name, m.say(low), m.roughly(s.out.WorstOver)),
				Cures: []string{"room valves or thermostats that hold it back", "a mixing valve on " + c.job.Name}})
			return
		}
		m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
			"The control cannot follow %s closely: at some outdoor temperatures the leading room would get up to %s too warm with its valves open, and the boiler runs %s hotter than needed in the mean.",
			c.job.Name, m.roughly(s.out.WorstOver), m.roughly(s.out.LostMean)),
			Cures: []string{"room valves or thermostats that hold it back", "a control with finer steps or another shape of curve"}})
	}
}

// expected lists what the thermometers should read, from the design day to mild.
// A circuit without figures has none either: boiler water runs into it as it is.
func (m *model) expected(c *circuit, s solvedCircuit) []Expected {
	if c.withheld {
		return nil
	}
	var out []Expected
	for k, p := range s.out.Points {
		if m.sys.In(units.Temperatures) == units.SI && k > 0 && k+1 < len(s.out.Points) && math.Abs(math.Remainder(p.Outdoor.Celsius(), 4)) > 0.01 {
			continue // every second of the round figures is enough to read off
		}
		out = append(out, Expected{Circuit: c.job.Name, Outdoor: p.Outdoor, Supply: p.Set, Return: p.Return,
			Heat: p.Heat})
	}
	return out
}

// roughly writes a difference to the whole degree Fahrenheit or half kelvin: more
// figures would claim what the survey cannot know.
func (m *model) roughly(d units.Difference) string {
	if m.sys.In(units.Temperatures) == units.US {
		return units.FahrenheitDifference(math.Round(d.Fahrenheit())).Text(m.sys)
	}
	return units.Kelvins(math.Round(2*float64(d)) / 2).Text(m.sys)
}
