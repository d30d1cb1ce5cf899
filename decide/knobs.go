package decide

// Which figures may be turned, and in which steps?

import (
	"cmp"
	"math"
	"slices"

	"curvewright/curve"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// raises are the excesses of supply over the rooms that are tried, against the sheet's.
var raises = []units.Fraction{-0.15, -0.10, -0.05, 0, 0.05, 0.10, 0.15, 0.25}

// knobs are all figures that may be turned, each with what it can be set to.
type knobs struct {
	c        Case
	curves   [][]level // by circuit
	lowers   []units.Difference
	preheats []units.Time
	influ    []units.Number
	cutOffs  []units.Temperature
	differ   []units.Difference
	rests    []units.Time
}

// level is a curve as far above or below the sheet's as the control's steps allow.
type level struct {
	raised  units.Fraction
	setting curve.Setting
}

// turned says where each knob stands: for each circuit its level, for each whether it is
// lowered, then the common ones.
type turned struct {
	levels  []int
	lowered []bool
	lower, preheat, influ,
	cutOff, differ, rest int
}

func (t turned) copy() turned {
	t.levels, t.lowered = slices.Clone(t.levels), slices.Clone(t.lowered)
	return t
}

// newKnobs lays out what can be turned, and where the sheet stands.
func newKnobs(c Case) (*knobs, turned) {
	k, t := &knobs{c: c}, turned{}
	y := c.Plan.Year
	for i, s := range c.Base.Circuits {
		levels, at := raised(y.Circuits[i], s)
		k.curves, t.levels = append(k.curves, levels), append(t.levels, at)
		t.lowered = append(t.lowered, len(s.Program) > 0)
	}
	warm := len(y.Wanted.Warm) > 0 && y.Points >= 2
	if warm {
		step := max(y.RoomStep, 0.5)
		for _, d := range []units.Difference{1, 2, 3, 4, 6} {
			k.lowers = append(k.lowers, min(units.Difference(math.Round(float64(d/step)))*step, y.Wanted.Lower))
		}
		k.lowers = append(k.lowers, y.Program.Lower)
		k.lowers = usable(k.lowers, func(d units.Difference) bool { return d > 0 })
		t.lower = max(0, slices.Index(k.lowers, y.Program.Lower))
		k.preheats = []units.Time{0, 3600, 2 * 3600, 3 * 3600, 5 * 3600}
		t.preheat = 2
	}
	k.influ = []units.Number{0}
	if y.RoomInfluence {
		k.influ = usable([]units.Number{0, 1, 2, 4, y.Influence}, func(units.Number) bool { return true })
		t.influ = slices.Index(k.influ, c.Base.Circuits[0].Influence)
	}
	k.cutOffs = []units.Temperature{c.Base.CutOff.Above}
	if y.CutOff.To > 0 && c.Base.CutOff.Above > 0 {
		for _, d := range []units.Difference{-4, -2, 2} {
			k.cutOffs = append(k.cutOffs, c.Base.CutOff.Above.Add(d))
		}
		k.cutOffs = usable(k.cutOffs, func(x units.Temperature) bool {
			return x >= y.CutOff.From && x <= y.CutOff.To || x == c.Base.CutOff.Above
		})
	}
	t.cutOff = slices.Index(k.cutOffs, c.Base.CutOff.Above)
	k.differ = usable([]units.Difference{c.Base.Differential, 5, 8, 12}, func(d units.Difference) bool { return d >= c.Base.Differential })
	t.differ = slices.Index(k.differ, c.Base.Differential)
	k.rests = usable([]units.Time{c.Base.Rest, 300, 600, 900}, func(units.Time) bool { return true })
	t.rest = slices.Index(k.rests, c.Base.Rest)
	return k, t
}

// usable sorts what is accepted, each figure once.
func usable[T cmp.Ordered](list []T, accepted func(T) bool) []T {
	list = slices.DeleteFunc(list, func(x T) bool { return !accepted(x) })
	slices.Sort(list)
	return slices.Compact(list)
}

// raised fits the control to the circuit's need with more and with less excess over the
// rooms. Levels that come to the same figures in the control are one; a circuit that the
// control cannot set otherwise keeps the sheet's.
func raised(p settings.PlanShape, base year.CircuitSettings) (levels []level, at int) {
	for _, r := range raises {
		l := level{r, base.Curve}
		if r != 0 {
			targets := slices.Clone(p.Targets)
			for i := range targets {
				g := &targets[i]
				up := units.Difference(float64(r) * float64(g.Ideal-p.Room))
				g.Ideal, g.Least = g.Ideal.Add(up), min(g.Least.Add(up), g.Ideal.Add(up))
			}
			s, err := curve.Fit(p.Shape, p.Room, targets)
			if err != nil || base.Held != 0 {
				continue
			}
			// A limit that is meant for the sheet's curve moves with it, as far as the circuit
			// allows.
			s.Limit = base.Curve.Limit
			s.Limit.To = min(max(s.Limit.To, s.Limit.To.Add(units.Difference(float64(r)*float64(s.Limit.To-p.Room)))), p.Shape.Limit.To)
			l.setting = s
		}
		if n := len(levels); n > 0 && same(levels[n-1].setting, l.setting) {
			if r == 0 {
				levels[n-1] = l
				at = n - 1
			}
			continue
		}
		if r == 0 {
			at = len(levels)
		}
		levels = append(levels, l)
	}
	return levels, at
}

// same tells whether two settings make the same water in all weathers.
func same(a, b curve.Setting) bool {
	for t := units.Celsius(-40); t <= units.Celsius(20); t += 5 {
		if math.Abs(float64(a.At(t)-b.At(t))) > 0.01 {
			return false
		}
	}
	return true
}

// settings makes the settings of a stand of the knobs.
func (k *knobs) settings(t turned) (year.Settings, Choice) {
	s, y := k.c.Base, k.c.Plan.Year
	s.Circuits = slices.Clone(s.Circuits)
	choice := Choice{Influence: k.influ[t.influ], CutOff: k.cutOffs[t.cutOff], Differential: k.differ[t.differ], Rest: k.rests[t.rest]}
	if k.lowers != nil && slices.Contains(t.lowered, true) {
		choice.Lower, choice.Preheat = k.lowers[t.lower], k.preheats[t.preheat]
	}
	for i := range s.Circuits {
		c := &s.Circuits[i]
		l := k.curves[i][t.levels[i]]
		c.Curve = l.setting
		c.Influence = choice.Influence
		c.InfluenceLimit = max(c.InfluenceLimit, influenceLimit)
		if choice.Influence == 0 {
			c.InfluenceLimit = 0
		}
		c.Program, c.HoldBelow = nil, 0
		if t.lowered[i] && choice.Lower > 0 {
			c.Program, c.HoldBelow = lowered(y, choice.Lower, choice.Preheat), y.HoldBelow
		}
		choice.Circuits = append(choice.Circuits, CircuitChoice{Name: k.c.Plan.Circuits[i].Name, Raised: l.raised, Lowered: c.Program != nil})
	}
	s.CutOff.Above, s.Differential, s.Rest = choice.CutOff, choice.Differential, choice.Rest
	return s, choice
}

// influenceLimit is the most by which a room moves its circuit's supply (common practice).
const influenceLimit = units.Difference(5)

// lowered is the household's day with the warm times begun earlier, with no more switching
// points than the control has.
func lowered(y settings.PlanYear, lower units.Difference, preheat units.Time) []year.Switch {
	warm := y.Wanted.Warm
	if 2*len(warm) > y.Points {
		warm = []settings.PlanTimes{{From: warm[0].From, To: warm[len(warm)-1].To}}
	}
	var day []year.Switch
	for _, w := range warm {
		from := units.Time(math.Mod(float64(w.From-preheat)+86400, 86400))
		day = append(day, year.Switch{From: from}, year.Switch{From: w.To, Lower: lower})
	}
	return year.EveryDay(day)
}

// axes lists every stand that differs from t in one knob, knob by knob.
func (k *knobs) axes(t turned) [][]turned {
	var out [][]turned
	axis := func(n int, set func(*turned, int)) {
		var list []turned
		for v := range n {
			one := t.copy()
			set(&one, v)
			list = append(list, one)
		}
		if n > 1 {
			out = append(out, list)
		}
	}
	for i := range t.levels {
		axis(len(k.curves[i]), func(t *turned, v int) { t.levels[i] = v })
	}
	if k.lowers != nil {
		for i := range t.lowered {
			axis(2, func(t *turned, v int) { t.lowered[i] = v == 1 })
		}
		if slices.Contains(t.lowered, true) {
			axis(len(k.lowers), func(t *turned, v int) { t.lower = v })
			axis(len(k.preheats), func(t *turned, v int) { t.preheat = v })
		}
	}
	axis(len(k.influ), func(t *turned, v int) { t.influ = v })
	axis(len(k.cutOffs), func(t *turned, v int) { t.cutOff = v })
	axis(len(k.differ), func(t *turned, v int) { t.differ = v })
	axis(len(k.rests), func(t *turned, v int) { t.rest = v })
	return out
}

// around lists stands with all curves a little lower, and raised as far as they go, each
// with and without lowering: what the trade-off is drawn from.
func (k *knobs) around(t turned) []turned {
	var out []turned
	for d := -3; d < len(raises); d++ {
		for _, lower := range []bool{true, false} {
			one := t.copy()
			for i := range one.levels {
				one.levels[i] = min(max(0, t.levels[i]+d), len(k.curves[i])-1)
				one.lowered[i] = one.lowered[i] && lower
			}
			out = append(out, one)
		}
	}
	return out
}
