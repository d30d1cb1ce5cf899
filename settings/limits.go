package settings

import (
	"fmt"
	"math"
	"slices"

	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/units"
	"curvewright/working"
)

const (
	// screedMost keeps a wet slab's supply below 130 °F to spare the concrete (common
	// practice; EN 1264-4 has 55 °C around the pipe, from memory).
	screedMost = units.Temperature(54 + 273.15)
	// plateMost is the usual limit for tube under wood or gypsum board (EN 1264-4, 50 °C
	// for gypsum board).
	plateMost = units.Temperature(50 + 273.15)
	// mildRoom is what must be left of a curve between its lowest and its highest supply.
	mildRoom = units.Difference(1)
)

// limitSupply collects what holds a circuit's supply down and sets the range in which
// its curve may move.
func (m *model) limitSupply(c *circuit) error {
	add := func(l limit) { c.limits = append(c.limits, l) }
	own := "the control's own range"
	if !m.job.Control.MaxSupply.Set {
		own = "what controls usually hold; the survey gives no range"
	}
	add(limit{supply: m.control.limit.To, why: own})
	if b := m.job.Boiler.MaxSupply; b.Set {
		add(limit{supply: b.Value, why: "the boiler's own range"})
	}
	if c.job.MaxSupply.Set {
		add(limit{supply: c.job.MaxSupply.Value, why: "the limit that the survey gives for this circuit"})
	}
	for i, feeds := range c.feeds {
		for k, f := range feeds {
			if f.floor == nil {
				continue
			}
			if err := m.limitFloor(c, i, k, f, add); err != nil {
				return err
			}
		}
	}
	if c.family == "floor" && !hasFloor(c) {
		add(limit{supply: screedMost, why: "the slab, to spare the concrete"})
	}
	slices.SortStableFunc(c.limits, func(a, b limit) int { return cmpFloat(float64(a.supply), float64(b.supply)) })
	low := m.control.limit.From
	if b := m.job.Boiler.MinSupply; b.Set && c.job.Kind != "mixed" {
		low = max(low, b.Value)
	}
	top := m.control.step.Down(c.limits[0].supply)
	if m.dry.must && c.job.Kind != "mixed" {
		if floor := m.dryFloor(c, m.cutOff()); floor < top.Add(-mildRoom) {
			low = max(low, floor)
		} else {
			c.withheld = true
			m.findings = append(m.findings, Finding{Severity: "stop", Circuit: c.job.Name, Text: fmt.Sprintf(
				"The boiler must be kept at %s or more to stay dry, and %s may see no more than %s (%s): boiler water must not go into it directly.",
				m.say(floor), c.job.Name, m.say(c.limits[0].supply), c.limits[0].why),
				Cures: []string{"a mixing valve on " + c.job.Name + " with a sensor of its own and a limit that stops its pump"}})
		}
	}
	low = m.control.step.Up(low)
	if top <= c.setpoint {
		return fmt.Errorf("its highest supply of %s (%s) is not above the room temperature %s, so it can heat nothing",
			m.say(c.limits[0].supply), c.limits[0].why, m.say(c.setpoint))
	}
	if low >= top {
		return fmt.Errorf("its lowest supply of %s and its highest of %s (%s) exclude each other",
			m.say(low), m.say(top), c.limits[0].why)
	}
	c.shape = m.control.shape(m.job.Control.Curve, curve.Span[units.Temperature]{From: low, To: top})
	return nil
}

func hasFloor(c *circuit) bool {
	for _, feeds := range c.feeds {
		for _, f := range feeds {
			if f.floor != nil {
				return true
			}
		}
	}
	return false
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// limitFloor adds the two limits of a floor: what its surface may reach, and what its
// build may carry.
func (m *model) limitFloor(c *circuit, i, k int, f feed, add func(limit)) error {
	r := m.rooms[f.room]
	switch f.survey.Construction {
	case emitter.WetSlab:
		add(limit{supply: screedMost, room: r.name,
			why: fmt.Sprintf("the slab in %s, to spare the concrete", r.name)})
	default:
		add(limit{supply: plateMost, room: r.name,
			why: fmt.Sprintf("the floor build in %s, boards and plates", r.name)})
	}
	supply, err := floorSupply(f, c.solve.Rooms[i].Flows[k], r)
	if err != nil {
		return nil // the floor cannot reach its surface limit with any water of a house
	}
	l := f.floor.Limit
	what := "the floor's surface"
	if f.survey.CoveringLimit > 0 && l.Surface == f.survey.CoveringLimit {
		what = "the floor covering"
	}
	add(limit{supply: supply, room: r.name,
		why: fmt.Sprintf("%s in %s, %s at most", what, r.name, m.say(l.Surface)),
		working: []working.Step{{
			Name: "Highest supply for the floor in " + r.name, Formula: "q_G = φ · B_G · (Δθ_H/φ)^nG; the supply at which K_H · Δθ_H = q_G",
			Inputs: []working.Input{
				{Symbol: "θ_F,max", Meaning: "highest surface temperature", Value: l.Surface},
				{Symbol: "θ_i", Meaning: "room temperature", Value: r.setpoint},
				{Symbol: "q_G", Meaning: "highest heat per area", Value: l.Flux},
				{Symbol: "Δθ_H,G", Meaning: "mean water above the room at that heat", Value: l.Excess},
			},
			Result: working.Input{Symbol: "Ts", Meaning: "highest supply", Value: supply},
			Range:  "EN 1264-2 table limits", Source: "EN 1264-2 / ISO 11855-2 limit curves", Note: l.Note,
		}}})
	return nil
}

// cures finds what would let a room that falls short be warm at a supply: each remedy
// alone, worked out and not guessed.
func (m *model) cures(c *circuit, i int, supply units.Temperature) []string {
	r := c.solve.Rooms[i]
	need := r.Load(m.design, r.Setpoint)
	var out []string
	heat := units.Power(0)
	for k, e := range r.Emitters {
		heat += e.Output(supply, r.Flows[k], r.Setpoint).Room
	}
	enough := func(f, flow float64) bool {
		q := units.Power(0)
		for k, e := range r.Emitters {
			q += emitter.Scaled(e, units.Fraction(f)).Output(supply, units.LossCoefficient(float64(r.Flows[k])*flow), r.Setpoint).Room
		}
		return q >= need
	}
	floorRoom := false
	for _, f := range c.feeds[i] {
		floorRoom = floorRoom || f.floor != nil
	}
	for _, f := range c.feeds[i] {
		// Nobody heats a living room to 24 °C.
		if f.survey != nil && f.survey.Zone == emitter.Occupied && r.Setpoint >= units.Celsius(23.5) {
			out = append(out, fmt.Sprintf("saying in the survey that %s is a bathroom, if it is: its floor may then reach %s", r.Name, m.say(emitter.Bathroom.SurfaceLimit())))
			break
		}
	}
	if f, ok := least(enough, 1, 6, false); ok && !floorRoom {
		out = append(out, fmt.Sprintf("%.0f %% more emitter in %s", math.Ceil(20*(f-1)-1e-9)*5, r.Name))
	} else if ok {
		out = append(out, fmt.Sprintf("another emitter in %s beside the floor, for about %s", r.Name, m.say(need-heat)))
	}
	if f, ok := least(enough, 1, 2.5, true); ok {
		out = append(out, fmt.Sprintf("%.0f %% more water through %s", math.Ceil(20*(f-1)-1e-9)*5, r.Name))
	}
	if need > 0 && heat < need {
		if cut := 1 - float64((heat+r.Gains)/(need+r.Gains)); cut < 0.6 {
			out = append(out, fmt.Sprintf("%.0f %% less heat loss of %s: insulation, windows, draughts", math.Ceil(100*cut), r.Name))
		}
	}
	for k, f := range c.feeds[i] {
		if cover, ok := f.coveringCure(need, supply, r.Flows[k], r.Setpoint); ok && f.survey.Covering > cover {
			out = append(out, fmt.Sprintf("a floor covering of %s or less in %s in place of %s", m.say(cover), r.Name, m.say(f.survey.Covering)))
		}
	}
	if len(out) == 0 {
		out = append(out, fmt.Sprintf("no single remedy is enough for %s: more emitter and less loss together", r.Name))
	}
	return out
}

// least finds the smallest factor on the emitter, or on the flow, that is enough.
func least(enough func(f, flow float64) bool, from, to float64, flow bool) (float64, bool) {
	try := func(x float64) bool {
		if flow {
			return enough(1, x)
		}
		return enough(x, 1)
	}
	if !try(to) {
		return 0, false
	}
	for range 30 {
		if mid := (from + to) / 2; try(mid) {
			to = mid
		} else {
			from = mid
		}
	}
	return to, true
}
