package settings_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	curves "curvewright/curve"
	"curvewright/examples"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

func judge(t testing.TB, j *job.Job, samples int) *settings.Judge {
	t.Helper()
	o := settings.DefaultOptions(j)
	o.Samples = samples
	g, err := settings.NewJudge(j, o)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func recommended(g *settings.Judge) []curves.Setting {
	var set []curves.Setting
	for _, c := range g.Circuits {
		set = append(set, c.Recommended)
	}
	return set
}

func verdict(t testing.TB, g *settings.Judge, set []curves.Setting) *settings.Verdict {
	t.Helper()
	v, err := g.Curves(set, true)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The recommended curve, judged like any other, does what the sheet says of it.
func TestRecommendedCurveIsJudgedAsTheSheetHasIt(t *testing.T) {
	for _, e := range examples.List() {
		g := judge(t, read(t, e.Document), 40)
		v := verdict(t, g, recommended(g))
		if d := math.Abs(float64(v.Boiler.Condensing - g.Sheet.Boiler.Condensing)); d > 0.01 {
			t.Errorf("%s: %v of the heat condensing, the sheet has %v", e.Name, v.Boiler.Condensing, g.Sheet.Boiler.Condensing)
		}
		for i, c := range v.Circuits {
			for k, p := range c.Circuit.Points {
				if d := float64(p.Set - g.Sheet.Circuits[i].Points[k].Set); math.Abs(d) > 0.01 {
					t.Errorf("%s, %s at %v: set %v, the sheet has %v", e.Name, c.Circuit.Name, p.Outdoor, p.Set, g.Sheet.Circuits[i].Points[k].Set)
				}
			}
			for _, r := range c.Rooms {
				if !(r.Low <= r.Design.Add(0.01) && r.Design <= r.High.Add(0.01)) && r.High-r.Low > 0.1 {
					t.Errorf("%s, %s: %v lies outside of %v to %v", e.Name, r.Name, r.Design, r.Low, r.High)
				}
				if r.Coolest > r.Design || r.Warmest < r.Design {
					t.Errorf("%s, %s: the season from %v to %v leaves out the design night's %v", e.Name, r.Name, r.Coolest, r.Warmest, r.Design)
				}
			}
			for _, l := range c.Limits {
				if l.Kind == settings.RunsBeyond {
					t.Errorf("%s, %s: the recommended curve runs beyond %v (%s)", e.Name, c.Circuit.Name, l.Supply, l.Why)
				}
			}
		}
	}
}

// Hotter water cools no room and never makes the boiler condense more.
func TestHotterCurveWarmsEveryRoom(t *testing.T) {
	g := judge(t, example(t, "ridge-house"), 0)
	before := verdict(t, g, recommended(g))
	rapid.Check(t, func(rt *rapid.T) {
		set := recommended(g)
		for i := range set {
			by := units.Temperature(rapid.Float64Range(0, 12).Draw(rt, "hotter"))
			set[i].Cold.Supply += by
			set[i].Mild.Supply += by
			set[i].Shift += units.Difference(by)
			for k := range set[i].Points {
				set[i].Points[k].Supply += by
			}
		}
		after, err := g.Curves(set, true)
		if err != nil {
			rt.Fatal(err)
		}
		for i, c := range after.Circuits {
			for k, r := range c.Rooms {
				if was := before.Circuits[i].Rooms[k]; r.Design < was.Design.Add(-0.01) || r.Warmest < was.Warmest.Add(-0.01) {
					rt.Fatalf("%s: %v to %v with hotter water, %v to %v before", r.Name, r.Design, r.Warmest, was.Design, was.Warmest)
				}
			}
			if c.Short > before.Circuits[i].Short+0.01 {
				rt.Fatalf("%s is shorter: %v", c.Circuit.Name, c.Short)
			}
		}
	})
}

func TestLimitsThatACurveMeetsAreNamed(t *testing.T) {
	g := judge(t, example(t, "combi-slab"), 0)
	c := g.Circuits[0]
	hot := c.Recommended
	hot.Cold.Supply, hot.Mild.Supply = units.Celsius(80), units.Celsius(60)
	hot.Slope, hot.Shift = 3, 20
	kinds := func(s curves.Setting) map[settings.LimitKind]settings.LimitVerdict {
		met := map[settings.LimitKind]settings.LimitVerdict{}
		for _, l := range verdict(t, g, []curves.Setting{s}).Circuits[0].Limits {
			met[l.Kind] = l
		}
		return met
	}
	held := kinds(hot)
	if l, ok := held[settings.HeldDown]; !ok || l.Why == "" || l.Supply != c.Shape.Limit.To {
		t.Errorf("a curve far too hot meets %+v, want the circuit's own limit", held)
	}
	if _, beyond := held[settings.RunsBeyond]; beyond {
		t.Error("a curve that is held to the limit does not run beyond it")
	}
	hot.Limit = c.Own.Limit
	if l, ok := kinds(hot)[settings.RunsBeyond]; !ok || l.Why == "" {
		t.Error("as found, without the slab's limit, the curve runs beyond it")
	}
	cool := c.Recommended
	cool.Cold.Supply, cool.Mild.Supply, cool.Slope, cool.Shift = units.Celsius(15), units.Celsius(10), 0.1, -15
	v := verdict(t, g, []curves.Setting{cool})
	if _, ok := kinds(cool)[settings.HeldUp]; !ok {
		t.Error("a curve below the lowest supply is held up to it")
	}
	if v.Circuits[0].Short <= 0 {
		t.Error("a curve that hardly warms the water leaves a room short")
	}
	if _, err := g.Curves(nil, false); err == nil || !strings.Contains(err.Error(), "0 curves for 1 circuits") {
		t.Errorf("no curve at all: %v", err)
	}
}

func BenchmarkCurves(b *testing.B) {
	g := judge(b, read(b, largeHouse()), 80)
	set := recommended(g)
	for b.Loop() {
		verdict(b, g, set)
	}
}
