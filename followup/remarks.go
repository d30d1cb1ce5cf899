package followup

// What the household says, and which cause it speaks for.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// Felt is what is wrong, in the household's eyes.
type Felt string

// What is felt.
const (
	TooCold    Felt = "too cold"
	TooWarm    Felt = "too warm"
	NoHotWater Felt = "no hot water"
	Noise      Felt = "noise"
	HighBills  Felt = "high bills"
)

// When is the part of the day.
type When string

// The parts of a day.
const (
	AllDay    When = ""
	Morning   When = "morning"
	Afternoon When = "afternoon"
	Evening   When = "evening"
	Night     When = "night"
)

// Remark is one thing the household says.
type Remark struct {
	Date    string            `json:"date,omitempty"` // as 2026-01-17; may be empty
	Room    string            `json:"room,omitempty"` // empty for the whole house
	Felt    Felt              `json:"felt"`
	When    When              `json:"when,omitempty"`
	Outdoor units.Temperature `json:"outdoor,omitempty"` // about so cold it was, K; 0 if nobody knows
	Often   int               `json:"often,omitempty"`   // times in a week; 0 counts as once
	By      units.Difference  `json:"by,omitempty"`      // too cold or too warm by so much, K; 0 if nobody measured
	Shower  bool              `json:"shower,omitempty"`  // while hot water was drawn or made
	Sunny   bool              `json:"sunny,omitempty"`
}

// Check asks whether a remark can be.
//
// Range: outdoors −60 °C to 50 °C, off by 15 K at most.
// Source: own choice.
// Errors: what is not one of the things felt; a temperature that cannot be.
func (r Remark) Check() error {
	if !slices.Contains([]Felt{TooCold, TooWarm, NoHotWater, Noise, HighBills}, r.Felt) {
		return fmt.Errorf("%q given; accepted: %s, %s, %s, %s, %s", string(r.Felt), TooCold, TooWarm, NoHotWater, Noise, HighBills)
	}
	if r.Outdoor != 0 && !(r.Outdoor > units.Celsius(-60) && r.Outdoor < units.Celsius(50)) || !(math.Abs(float64(r.By)) <= 15) {
		return errors.New("a temperature that cannot be")
	}
	return nil
}

// Cause is what may be behind remarks.
type Cause string

// The causes.
const (
	SlopeLow    Cause = "slope too low"
	SlopeHigh   Cause = "slope too high"
	ShiftLow    Cause = "shift too low"
	ShiftHigh   Cause = "shift too high"
	RoomShort   Cause = "one room short"
	SetbackDeep Cause = "setback too deep"
	CutOffLow   Cause = "warm-weather cut-off too low"
	TankFirst   Cause = "hot-water priority too long"
	FlowFault   Cause = "flow fault or air"
	StoredHeat  Cause = "sun and stored heat"
	TankFault   Cause = "hot water set or charged wrongly"
)

// Suspect is a cause with its likelihood.
type Suspect struct {
	Cause  Cause
	Chance units.Fraction
	Do     string
}

// Advice is what the remarks come to.
type Advice struct {
	Suspects []Suspect // likeliest first
	Change   *Change   // of the curve; nil where the curve is not the likeliest
	Text     string
}

// Change is the smallest correction of the curve that the control can hold.
type Change struct {
	Circuit  string
	Old, New curve.Setting
	Words    string
	Points   []ChangePoint
}

// ChangePoint is what it does at one outdoor temperature.
type ChangePoint struct {
	Outdoor  units.Temperature
	Old, New units.Temperature
	Rooms    units.Difference // by so much the rooms of the circuit change with their valves open
}

// suspects are how often each cause is met before anybody has said anything, and cure what
// to do. Common practice, no single source.
var suspects = []struct {
	cause  Cause
	before float64
	cure   string
}{
	{SlopeLow, 0.13, "raise the cold end of the curve"},
	{SlopeHigh, 0.10, "lower the cold end of the curve"},
	{ShiftLow, 0.10, "raise the curve as a whole"},
	{ShiftHigh, 0.13, "lower the curve as a whole"},
	{RoomShort, 0.13, "balance; then that room's valve, air and emitter"},
	{SetbackDeep, 0.12, "lower less at night, or begin earlier in the morning"},
	{CutOffLow, 0.06, "raise the warm-weather cut-off"},
	{TankFirst, 0.05, "limit the priority in time, charge before the morning's peak"},
	{FlowFault, 0.08, "vent, look at pressure, filter and pump"},
	{StoredHeat, 0.07, "room influence or a valve in that room; shade"},
	{TankFault, 0.03, "look at the tank's set-point, sensor and charging temperature"},
}

// says is how likely one remark is under a cause, up to a factor that is the same for
// all causes. Each question has three answers: speaks for it, says nothing, speaks
// against it. The weights 3, 1 and 0.3 are own choice.
//
// A cold morning speaks for the set-back; in a house without one it speaks for the end of
// the night, when it is coldest outdoors and neither sun nor people help: for the slope.
func says(c Cause, r Remark, w weather, lowered bool) float64 {
	const speaks, against = 3.0, 0.3
	p := 1.0
	ask := func(for_, contra bool) {
		if for_ {
			p *= speaks
		} else if contra {
			p *= against
		}
	}
	oneRoom := r.Room != ""
	known := r.Outdoor > 0
	cold, mild := known && r.Outdoor < w.coldBelow, known && r.Outdoor > w.mildAbove
	tooCold, tooWarm := r.Felt == TooCold, r.Felt == TooWarm
	switch c {
	case SlopeLow:
		ask(tooCold, !tooCold)
		ask(cold, mild)
		ask(!lowered && !oneRoom && (r.When == Morning || r.When == Night), oneRoom || lowered && r.When == Morning || r.Shower)
	case SlopeHigh:
		ask(tooWarm || r.Felt == HighBills, tooCold || r.Felt == NoHotWater)
		ask(cold, mild)
		ask(false, oneRoom || r.Sunny)
	case ShiftLow:
		ask(tooCold, !tooCold)
		ask(mild, cold)
		ask(false, oneRoom || lowered && r.When == Morning || r.Shower)
	case ShiftHigh:
		ask(tooWarm || r.Felt == HighBills, tooCold || r.Felt == NoHotWater)
		ask(mild, cold)
		ask(false, oneRoom || r.Sunny)
	case RoomShort:
		ask(tooCold, !tooCold)
		ask(oneRoom, !oneRoom)
		ask(cold, false)
	case SetbackDeep:
		ask(tooCold, !tooCold)
		ask(r.When == Morning, r.When == Evening || r.When == Afternoon)
		ask(cold, mild)
	case CutOffLow:
		ask(tooCold, !tooCold)
		ask(mild, cold)
		ask(r.When == Evening || r.When == Morning, oneRoom)
	case TankFirst:
		ask(tooCold, tooWarm || r.Felt == Noise)
		ask(r.Shower, known && !r.Shower && !cold)
		ask(r.When == Morning || r.When == Evening, !r.Shower)
	case FlowFault:
		ask(tooCold || r.Felt == Noise, tooWarm)
		ask(r.Felt == Noise || oneRoom, false)
	case StoredHeat:
		ask(tooWarm, !tooWarm)
		ask(r.Sunny || r.When == Afternoon, r.When == Morning || r.When == Night)
	case TankFault:
		ask(r.Felt == NoHotWater, r.Felt != NoHotWater)
		ask(r.Shower, false)
	}
	return p
}

// possible tells whether a cause can exist in this house at all.
func possible(c Cause, p *settings.Plan, j *job.Job) bool {
	switch c {
	case RoomShort:
		return len(j.Rooms) != 1 // without rooms the house was surveyed as a whole
	case SetbackDeep:
		return lowers(p)
	case CutOffLow:
		return p.Year.CutOff.To > 0 || p.Found.CutOff > 0
	case TankFirst:
		return strings.HasPrefix(j.HotWater.By, "tank") && (j.HotWater.Priority != "no" || p.Found.Priority == "yes")
	case TankFault:
		return j.HotWater.By != "none"
	}
	return true
}

// lowers tells whether a program lowers the rooms, on the sheet or in the control as it
// was found.
func lowers(p *settings.Plan) bool {
	return p.Year.Program.Lower > 0 || p.Found.Program.Lower > 0
}

// cureOf is what to do about a cause in this house.
func cureOf(c Cause, usual string, j *job.Job) string {
	if c == TankFault && !strings.HasPrefix(j.HotWater.By, "tank") {
		return "look at the hot-water set-point, its sensor, the cold-water filter and scale in the heat exchanger"
	}
	return usual
}

// weather says what counts as cold and as mild at the job's place: the outer thirds of
// the way from the design day to the end of heating.
type weather struct{ coldBelow, mildAbove units.Temperature }

func weatherOf(p *settings.Plan) weather {
	span := p.CutOff.Sub(p.Design)
	return weather{p.Design.Add(span / 2), p.Design.Add(span * 2 / 3)}
}

// Weigh turns remarks into likely causes and, where it is the curve, into the smallest
// correction that the control can hold.
//
//	P(cause) ∝ before · Π P(remark | cause)^weight, weight = √(times a week), at most 2
//
// A cause that cannot exist in the job, as a set-back that is too deep where nothing is
// lowered, has no part in it.
//
// Units: those of the plan.
// Range: 1 to 200 remarks.
// Source: Bayes' rule with independent remarks; chances before and weights are common
// practice and own choice.
// Errors: no remark, too many, one that cannot be.
func Weigh(p *settings.Plan, j *job.Job, circuit int, remarks []Remark) (Advice, error) {
	var a Advice
	if len(remarks) < 1 || len(remarks) > 200 {
		return a, fmt.Errorf("remarks: %d given; accepted: 1 to 200", len(remarks))
	}
	if circuit < 0 || circuit >= len(p.Circuits) {
		return a, fmt.Errorf("circuit: number %d given; accepted: 0 to %d", circuit, len(p.Circuits)-1)
	}
	for i, r := range remarks {
		if err := r.Check(); err != nil {
			return a, fmt.Errorf("remark %d: %w", i+1, err)
		}
	}
	if len(j.Rooms) == 1 { // its room is the house
		remarks = slices.Clone(remarks)
		for i := range remarks {
			remarks[i].Room = ""
		}
	}
	w, lowered := weatherOf(p), lowers(p)
	total := 0.0
	for _, s := range suspects {
		if !possible(s.cause, p, j) {
			continue
		}
		chance := s.before
		for _, r := range remarks {
			weight := math.Min(2, math.Sqrt(math.Max(1, float64(r.Often))))
			chance *= math.Pow(says(s.cause, r, w, lowered), weight)
		}
		total += chance
		a.Suspects = append(a.Suspects, Suspect{s.cause, units.Fraction(chance), cureOf(s.cause, s.cure, j)})
	}
	for i := range a.Suspects {
		a.Suspects[i].Chance /= units.Fraction(total)
	}
	slices.SortStableFunc(a.Suspects, func(x, y Suspect) int {
		switch {
		case x.Chance > y.Chance:
			return -1
		case x.Chance < y.Chance:
			return 1
		}
		return 0
	})
	first := a.Suspects[0]
	switch first.Cause {
	case SlopeLow, SlopeHigh, ShiftLow, ShiftHigh:
		c, err := change(p, circuit, remarks)
		if err != nil {
			return a, err
		}
		a.Change = c
		if words := c.moves(); words != "" {
			a.Suspects[0].Do = words
		}
		a.Text = fmt.Sprintf("Most likely %s (%.0f %%). %s", first.Cause, 100*float64(first.Chance), c.Words)
	default:
		a.Text = fmt.Sprintf("Most likely %s (%.0f %%), so the curve is left alone: %s.", first.Cause, 100*float64(first.Chance), first.Do)
	}
	return a, nil
}

// moves says which end of the curve the change moves, so that the words agree with its
// table; empty where it turns the curve the other way at its other end, or moves neither.
func (c *Change) moves() string {
	const felt = 0.5 // K of supply that a control can be set to
	way := func(p ChangePoint) int {
		switch d := float64(p.New - p.Old); {
		case d > felt:
			return 1
		case d < -felt:
			return -1
		}
		return 0
	}
	return map[[2]int]string{
		{1, 1}: "raise the curve as a whole", {1, 0}: "raise the cold end of the curve", {0, 1}: "raise the mild end of the curve",
		{-1, -1}: "lower the curve as a whole", {-1, 0}: "lower the cold end of the curve", {0, -1}: "lower the mild end of the curve",
	}[[2]int{way(c.Points[0]), way(c.Points[len(c.Points)-1])}]
}

const (
	asItIs         = 0.5 // weight of leaving the curve where nobody complains, against one of a remark
	usualComplaint = 1.0 // K, where nobody measured: what people begin to mention
)

// change finds the correction: where remarks say so the rooms by so much warmer or
// cooler, elsewhere as they are; then what the control's shape can hold of it.
func change(p *settings.Plan, circuit int, remarks []Remark) (*Change, error) {
	pc := p.Circuits[circuit]
	room := p.Sheet.Circuits[circuit].Setpoint
	w := weatherOf(p)
	var targets []curve.Target
	for t := p.Design; t < p.CutOff.Add(-1); t = t.Add(2) {
		shift, weight := 0.0, asItIs
		for _, r := range remarks {
			sign := 0.0
			switch r.Felt {
			case TooCold:
				sign = 1
			case TooWarm:
				sign = -1
			}
			if sign == 0 || r.Room != "" && len(p.Rooms) > 1 && len(remarks) == 1 {
				continue
			}
			at := r.Outdoor
			if at == 0 {
				at = (w.coldBelow + w.mildAbove) / 2
			}
			by := math.Abs(float64(r.By))
			if by == 0 {
				by = usualComplaint
			}
			near := math.Exp(-squared(float64(t-at) / 5))
			shift += sign * by * near
			weight += near
		}
		old := pc.Setting.At(t)
		wish := float64(old)
		if math.Abs(shift) > 0.02 {
			n := math.Max(1, weight-asItIs)
			base := settles(p, circuit, wish, float64(t))
			wish = supplyFor(p, circuit, base+shift/n, float64(t))
			wish = math.Max(float64(old)-15, math.Min(float64(old)+15, wish))
		}
		targets = append(targets, curve.Target{Outdoor: t, Ideal: units.Temperature(wish), Least: units.Temperature(wish - 1.5), Weight: weight})
	}
	if len(targets) < 2 {
		return nil, fmt.Errorf("the design day and the end of heating lie too close for a curve")
	}
	fit, err := curve.Fit(pc.Shape, room, targets)
	if err != nil {
		return nil, fmt.Errorf("circuit %q: %w", pc.Name, err)
	}
	fit.Limit = pc.Setting.Limit
	c := &Change{Circuit: pc.Name, Old: pc.Setting, New: fit}
	for _, t := range []units.Temperature{p.Design, p.Design.Add(p.CutOff.Sub(p.Design) / 3), p.Design.Add(p.CutOff.Sub(p.Design) * 2 / 3), p.CutOff.Add(-1)} {
		before, after := pc.Setting.At(t), fit.At(t)
		c.Points = append(c.Points, ChangePoint{t, before, after, units.Kelvins(settles(p, circuit, float64(after), float64(t)) - settles(p, circuit, float64(before), float64(t)))})
	}
	s := p.Sheet.System
	first, last := c.Points[0], c.Points[len(c.Points)-1]
	c.Words = fmt.Sprintf("Set %s in place of %s at %s outdoors and %s in place of %s at %s.", first.New.Text(s), first.Old.Text(s), first.Outdoor.Text(s), last.New.Text(s), last.Old.Text(s), last.Outdoor.Text(s))
	return c, nil
}
