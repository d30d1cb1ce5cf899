package curve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/units"
)

func radiator(t testing.TB, watts float64, n units.Number) emitter.PowerLaw {
	t.Helper()
	law, err := emitter.Radiator(units.Power(watts), emitter.RatedAtExcess(50), n)
	if err != nil {
		t.Fatal(err)
	}
	return law
}

// house is a circuit of rooms with the given loads at −20 °C and radiators of the
// given outputs at ΔT50, in parallel or as one loop.
func house(t testing.TB, series bool, loads, outputs []float64) curve.Circuit {
	t.Helper()
	c := curve.Circuit{Name: "test"}
	for i := range loads {
		loss, err := building.FromDesign(units.Power(loads[i]), units.Celsius(21), units.Celsius(-20))
		if err != nil {
			t.Fatal(err)
		}
		flow := units.LossCoefficient(loads[i] / 10)
		c.Flow += flow
		c.Rooms = append(c.Rooms, curve.Room{Name: fmt.Sprintf("room %d", i), Setpoint: units.Celsius(21), Loss: loss,
			Emitters: []emitter.Emitter{radiator(t, outputs[i], 1.3)}, Flows: []units.LossCoefficient{flow}})
		if series {
			c.Loop = append(c.Loop, curve.Stop{Room: i})
		}
	}
	return c
}

func outdoors(from, to, step float64) []units.Temperature {
	var out []units.Temperature
	for t := from; t <= to+1e-9; t += step {
		out = append(out, units.Celsius(t))
	}
	return out
}

// TestNeedBalances puts the need back into the emitters: they must give the load.
func TestNeedBalances(t *testing.T) {
	for _, series := range []bool{false, true} {
		rapid.Check(t, func(rt *rapid.T) {
			n := rapid.IntRange(1, 5).Draw(rt, "rooms")
			loads, outputs := make([]float64, n), make([]float64, n)
			for i := range loads {
				loads[i] = rapid.Float64Range(200, 3000).Draw(rt, "load")
				outputs[i] = loads[i] * rapid.Float64Range(0.8, 3).Draw(rt, "size")
			}
			c := house(t, series, loads, outputs)
			at, err := c.Solve(outdoors(-20, 15, 5), 0.5)
			if err != nil {
				rt.Fatal(err)
			}
			for _, a := range at {
				for i, r := range c.Rooms {
					if a.Needs[i] >= curve.Hottest {
						continue // too weak for any water
					}
					want := float64(r.Load(a.Outdoor, r.Setpoint))
					// Where the room settles at its need is its set-point.
					settles := c.Reaches(i, a.Needs[i], a.Outdoor)
					if d := math.Abs(float64(settles - r.Setpoint)); d > 0.03 {
						rt.Fatalf("series %v, room %d at %v: at its need of %.2f °C it settles %.3f K off (load %.0f W)", series, i, a.Outdoor.Celsius(), a.Needs[i].Celsius(), d, want)
					}
				}
			}
		})
	}
}

// TestNeedFallsWithMildness is the law of every heating curve: the milder it is, the
// cooler the water; and the tolerance never asks for more than the ideal.
func TestNeedFallsWithMildness(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		size := rapid.Float64Range(0.7, 4).Draw(rt, "size")
		series := rapid.Bool().Draw(rt, "series")
		c := house(t, series, []float64{1000, 1500, 700}, []float64{1000 * size, 1400 * size, 1200 * size})
		at, err := c.Solve(outdoors(-20, 20, 2), 0.5)
		if err != nil {
			rt.Fatal(err)
		}
		for k, a := range at {
			if a.Least > a.Supply+1e-6 {
				rt.Fatalf("at %v the tolerance asks for %v, above the ideal %v", a.Outdoor.Celsius(), a.Least, a.Supply)
			}
			if k > 0 && a.Supply > at[k-1].Supply+1e-6 {
				rt.Fatalf("supply rises from %v to %v though it is milder", at[k-1].Supply, a.Supply)
			}
		}
	})
}

// TestBulgesUpward: with an exponent above one the curve lies above the straight line
// between its ends; with one it is that line (plant of the handbooks).
func TestBulgesUpward(t *testing.T) {
	for _, n := range []units.Number{1.0, 1.1, 1.3, 1.4} {
		c := house(t, false, []float64{1000}, []float64{2000})
		c.Rooms[0].Emitters[0] = radiator(t, 2000, n)
		at, err := c.Solve(outdoors(-20, 20, 1), 0.5)
		if err != nil {
			t.Fatal(err)
		}
		first, last := at[0], at[len(at)-1]
		for _, a := range at[1 : len(at)-1] {
			f := float64(a.Outdoor-first.Outdoor) / float64(last.Outdoor-first.Outdoor)
			chord := float64(first.Supply) + f*float64(last.Supply-first.Supply)
			bulge := float64(a.Supply) - chord
			if n == 1 && math.Abs(bulge) > 1e-6 {
				t.Errorf("n 1: %.4f K off the straight line at %v °C", bulge, a.Outdoor.Celsius())
			}
			if n > 1 && bulge <= 0 {
				t.Errorf("n %g: not above the straight line at %v °C", float64(n), a.Outdoor.Celsius())
			}
		}
	}
}

// TestSeriesStarvesTheLast: alike rooms on one loop need the hotter water the later
// they stand, and a parallel house needs less than the last of them.
func TestSeriesStarvesTheLast(t *testing.T) {
	loads, outputs := []float64{1000, 1000, 1000, 1000}, []float64{2000, 2000, 2000, 2000}
	loop := house(t, true, loads, outputs)
	at, err := loop.Solve(outdoors(-20, -20, 1), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < 4; i++ {
		if at[0].Needs[i] <= at[0].Needs[i-1] {
			t.Errorf("emitter %d on the loop needs %v, the one before %v", i, at[0].Needs[i], at[0].Needs[i-1])
		}
	}
	if at[0].Leads != 3 {
		t.Errorf("room %d governs, want the last", at[0].Leads)
	}
	side := house(t, false, loads, outputs)
	beside, err := side.Solve(outdoors(-20, -20, 1), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	if beside[0].Supply >= at[0].Supply {
		t.Errorf("parallel needs %v, the loop %v", beside[0].Supply, at[0].Supply)
	}
}

// TestIdealIsSolve holds the quick road against the long one.
func TestIdealIsSolve(t *testing.T) {
	for _, series := range []bool{false, true} {
		c := house(t, series, []float64{900, 1500}, []float64{1500, 2500})
		to := outdoors(-20, 15, 3)
		at, err := c.Solve(to, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		for k, s := range c.Ideal(to) {
			if s != at[k].Supply {
				t.Errorf("series %v: %v by Ideal, %v by Solve", series, s, at[k].Supply)
			}
		}
	}
}

// TestWaterBalances: what leaves the water is what the drop carries.
func TestWaterBalances(t *testing.T) {
	for _, series := range []bool{false, true} {
		c := house(t, series, []float64{900, 1500}, []float64{1500, 2500})
		supply := units.Celsius(60)
		water, rooms := c.Water(supply)
		if math.Abs(float64(water-rooms)) > 1e-6*float64(water) {
			t.Errorf("radiators lose nothing behind: water %v, rooms %v", water, rooms)
		}
		back := float64(supply - units.Temperature(float64(water)/float64(c.Flow)))
		if got := float64(c.Return(supply, water)); math.Abs(got-back) > 1e-9 {
			t.Errorf("return %v, want %v", got, back)
		}
	}
}

func control(kind curve.Kind) curve.Shape {
	span := func(a, b float64) curve.Span[units.Temperature] {
		return curve.Span[units.Temperature]{From: units.Celsius(a), To: units.Celsius(b)}
	}
	return curve.Shape{Kind: kind, Step: units.Step{System: units.SI, Size: 0.5}, ColdOutdoor: span(-40, 20), MildOutdoor: span(5, 25),
		ColdSupply: span(20, 90), MildSupply: span(20, 90), Exponent: curve.Grid{From: 1, To: 2, Step: 0.1},
		Slope: curve.Grid{From: 0.1, To: 4, Step: 0.05}, Shift: curve.Grid{From: -15, To: 15, Step: 0.5}, Points: 5, Limit: span(20, 90)}
}

var kinds = map[string]curve.Kind{"two points": curve.TwoPoints, "slope and shift": curve.SlopeShift, "bent": curve.Bent, "table": curve.Table}

func targets(at []curve.At) []curve.Target {
	var out []curve.Target
	for _, a := range at {
		out = append(out, curve.Target{Outdoor: a.Outdoor, Ideal: a.Supply, Least: a.Least, Weight: 100})
	}
	return out
}

// TestFitKeepsEveryRoom: whatever the house and the shape, no target is left short,
// every figure stands on the control's steps, and the curve falls with mildness.
func TestFitKeepsEveryRoom(t *testing.T) {
	for name, kind := range kinds {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				size := rapid.Float64Range(1, 5).Draw(rt, "size")
				n := rapid.Float64Range(1, 1.45).Draw(rt, "n")
				c := house(t, rapid.Bool().Draw(rt, "series"), []float64{1000, 1400}, []float64{1000 * size, 1500 * size})
				for i := range c.Rooms {
					c.Rooms[i].Emitters[0] = radiator(t, 1200*size, units.Number(n))
				}
				at, err := c.Solve(outdoors(-20, 17, 2.5), 0.5)
				if err != nil {
					rt.Fatal(err)
				}
				shape := control(kind)
				shape.Step.Size = rapid.SampledFrom([]float64{0.5, 1, 2}).Draw(rt, "step")
				set, err := curve.Fit(shape, units.Celsius(21), targets(at))
				if err != nil {
					if at[0].Least > shape.Limit.To {
						return
					}
					rt.Fatal(err)
				}
				for k, a := range at {
					if least := min(a.Least, shape.Limit.To); set.At(a.Outdoor) < least-0.002 {
						rt.Fatalf("at %v °C set %v, least %v", a.Outdoor.Celsius(), set.At(a.Outdoor).Celsius(), least.Celsius())
					}
					if k > 0 && set.At(a.Outdoor) > set.At(at[k-1].Outdoor)+1e-6 {
						rt.Fatal("the set curve rises with mildness")
					}
				}
				for _, p := range append([]curve.Point{set.Cold, set.Mild}, set.Points...) {
					if p.Supply != 0 && shape.Step.Nearest(p.Supply) != p.Supply {
						rt.Fatalf("%v °C is not on the control's steps of %g", p.Supply.Celsius(), shape.Step.Size)
					}
				}
			})
		})
	}
}

// TestFitIsTheBest holds the fit against trying every setting there is.
func TestFitIsTheBest(t *testing.T) {
	c := house(t, false, []float64{1000}, []float64{2000})
	at, err := c.Solve(outdoors(-20, 17.5, 2.5), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	cost := func(s curve.Setting) float64 {
		sum := 0.0
		for _, a := range at {
			d := float64(s.At(a.Outdoor) - a.Supply)
			if s.At(a.Outdoor) < a.Least-1e-3 {
				return math.Inf(1)
			}
			if d < 0 {
				d *= 2
			}
			sum += 100 * d * d
		}
		return sum
	}
	shape := control(curve.TwoPoints)
	shape.Step.Size = 1
	got, err := curve.Fit(shape, units.Celsius(21), targets(at))
	if err != nil {
		t.Fatal(err)
	}
	best := math.Inf(1)
	for cold := 20.0; cold <= 90; cold++ {
		for mild := 20.0; mild <= cold; mild++ {
			s := got
			s.Cold.Supply, s.Mild.Supply = units.Celsius(cold), units.Celsius(mild)
			best = math.Min(best, cost(s))
		}
	}
	if cost(got) > best*(1+1e-9) {
		t.Errorf("two points: the fit costs %g, the best of all settings %g", cost(got), best)
	}

	shape = control(curve.SlopeShift)
	got, err = curve.Fit(shape, units.Celsius(21), targets(at))
	if err != nil {
		t.Fatal(err)
	}
	best = math.Inf(1)
	for slope := 0.1; slope <= 4; slope += 0.05 {
		for shift := -15.0; shift <= 15; shift += 0.5 {
			s := got
			s.Slope, s.Shift = slope, units.Difference(shift)
			best = math.Min(best, cost(s))
		}
	}
	if cost(got) > best*(1+1e-6) {
		t.Errorf("slope and shift: the fit costs %g, the best of all settings %g", cost(got), best)
	}
}

// TestBentFollowsRadiators: a control that can bend comes closer than one that cannot.
func TestBentFollowsRadiators(t *testing.T) {
	c := house(t, false, []float64{1000}, []float64{1500})
	at, err := c.Solve(outdoors(-20, 17.5, 2.5), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	worst := func(kind curve.Kind) float64 {
		s, err := curve.Fit(control(kind), units.Celsius(21), targets(at))
		if err != nil {
			t.Fatal(err)
		}
		w := 0.0
		for _, a := range at {
			w = math.Max(w, math.Abs(float64(s.At(a.Outdoor)-a.Supply)))
		}
		return w
	}
	line, bent := worst(curve.TwoPoints), worst(curve.Bent)
	if bent > 0.7 || bent > line/2 {
		t.Errorf("worst distance from the ideal: bent %.2f K, line %.2f K", bent, line)
	}
}

func TestRefusals(t *testing.T) {
	good := control(curve.TwoPoints)
	change := func(f func(*curve.Shape)) curve.Shape { s := good; f(&s); return s }
	ts := []curve.Target{{Outdoor: units.Celsius(-20), Ideal: units.Celsius(60), Least: units.Celsius(59), Weight: 1},
		{Outdoor: units.Celsius(15), Ideal: units.Celsius(25), Least: units.Celsius(24), Weight: 1}}
	for _, c := range []struct {
		name  string
		shape curve.Shape
		ts    []curve.Target
		want  string
	}{
		{"limits turned round", change(func(s *curve.Shape) { s.Limit.From, s.Limit.To = s.Limit.To, s.Limit.From }), ts, "supply limits"},
		{"cold above mild", change(func(s *curve.Shape) { s.ColdOutdoor.From, s.ColdOutdoor.To = units.Celsius(25), units.Celsius(26) }), ts, "not colder than the mild point"},
		{"exponent", change(func(s *curve.Shape) { s.Kind = curve.Bent; s.Exponent = curve.Grid{From: 0.5, To: 1, Step: 0.1} }), ts, "exponent"},
		{"slope", change(func(s *curve.Shape) { s.Kind = curve.SlopeShift; s.Slope.From = -1 }), ts, "slope"},
		{"shift", change(func(s *curve.Shape) { s.Kind = curve.SlopeShift; s.Shift = curve.Grid{From: 5, To: -5, Step: 1} }), ts, "shift"},
		{"table of one", change(func(s *curve.Shape) { s.Kind = curve.Table; s.Points = 1 }), ts, "table of 1 points"},
		{"no room between the points", change(func(s *curve.Shape) { s.MildOutdoor.From, s.MildOutdoor.To = units.Celsius(-38), units.Celsius(-38) }), ts, "no setting within the control's ranges"},
		{"one target", good, ts[:1], "at least two"},
	} {
		_, err := curve.Fit(c.shape, units.Celsius(21), c.ts)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want a sentence with %q", c.name, err, c.want)
		}
	}
	if err := (curve.Circuit{}).Check(); err == nil {
		t.Error("a circuit without rooms passes")
	}
	weak := house(t, false, []float64{1000}, []float64{2000})
	weak.Rooms[0].Flows[0] = 0
	if _, err := weak.Solve(outdoors(-20, 0, 5), 0.5); err == nil || !strings.Contains(err.Error(), "give no heat") {
		t.Errorf("a room without flow: %v", err)
	}
	small := house(t, false, []float64{9000}, []float64{500})
	if _, err := small.Need(0, 9000, units.Celsius(21)); err == nil || !strings.Contains(err.Error(), "give only") {
		t.Errorf("an emitter far too small: %v", err)
	}
}

// TestHoldsBeyondTheColdPoint: a control whose cold point ends above the design day
// and holds beyond it must be set higher, not leave the house short.
func TestHoldsBeyondTheColdPoint(t *testing.T) {
	c := house(t, false, []float64{1000}, []float64{2000})
	at, err := c.Solve(outdoors(-20, 15, 5), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	s := control(curve.TwoPoints)
	s.ColdOutdoor = curve.Span[units.Temperature]{From: units.Celsius(-10), To: units.Celsius(-10)}
	s.Holds = true
	set, err := curve.Fit(s, units.Celsius(21), targets(at))
	if err != nil {
		t.Fatal(err)
	}
	if set.At(units.Celsius(-20)) != set.At(units.Celsius(-10)) {
		t.Error("the curve goes on beyond a cold point that holds")
	}
	if set.At(units.Celsius(-20)) < at[0].Least-0.002 {
		t.Errorf("short on the design day: %v, least %v", set.At(units.Celsius(-20)), at[0].Least)
	}
}

// TestRangesTooLowAreSaid: a control that cannot go as high as the house needs gets
// the best it can hold, and the setting says what is missing.
func TestRangesTooLowAreSaid(t *testing.T) {
	c := house(t, false, []float64{1000}, []float64{1500})
	at, err := c.Solve(outdoors(-20, 15, 5), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	for name, kind := range kinds {
		s := control(kind)
		s.ColdSupply.To, s.Slope.To, s.Shift.To = units.Celsius(45), 0.4, 2
		set, err := curve.Fit(s, units.Celsius(21), targets(at))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		missing := float64(at[0].Least - set.At(at[0].Outdoor))
		if set.Lowered <= 0 || missing <= 0 || missing > float64(set.Lowered)+0.01 {
			t.Errorf("%s: the design day misses %.2f K, the setting says %.2f K", name, missing, float64(set.Lowered))
		}
	}
}

// TestLimitedCurveBendsAtItsKnee: where a limit cuts the curve off, the cold point moves
// to where it begins, and mild weather pays nothing for it.
func TestLimitedCurveBendsAtItsKnee(t *testing.T) {
	c := house(t, false, []float64{1000}, []float64{1100})
	at, err := c.Solve(outdoors(-20, 15, 2.5), 0.5)
	if err != nil {
		t.Fatal(err)
	}
	s := control(curve.TwoPoints)
	s.Limit.To = at[0].Supply - 15
	s.ColdSupply.To = s.Limit.To // nobody enters a point that the circuit may not see
	set, err := curve.Fit(s, units.Celsius(21), targets(at))
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range at {
		if over := float64(set.At(a.Outdoor) - min(a.Supply, s.Limit.To)); over > 5 {
			t.Errorf("%.1f K too hot at %g °C", over, a.Outdoor.Celsius())
		}
	}
	if set.Cold.Outdoor <= at[0].Outdoor {
		t.Errorf("the cold point stays at %g °C", set.Cold.Outdoor.Celsius())
	}
}

func benchHouse(b *testing.B, rooms int, series bool) curve.Circuit {
	loads, outputs := make([]float64, rooms), make([]float64, rooms)
	for i := range loads {
		loads[i] = 800 + 100*float64(i)
		outputs[i] = loads[i] * 1.6
	}
	return house(b, series, loads, outputs)
}

func BenchmarkSolve(b *testing.B) {
	for _, rooms := range []int{1, 12} {
		for _, series := range []bool{false, true} {
			b.Run(fmt.Sprintf("rooms=%d/series=%v", rooms, series), func(b *testing.B) {
				c := benchHouse(b, rooms, series)
				to := outdoors(-20, 17.5, 2.5)
				b.ReportAllocs()
				for b.Loop() {
					if _, err := c.Solve(to, 0.5); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func BenchmarkFit(b *testing.B) {
	c := benchHouse(b, 3, false)
	at, err := c.Solve(outdoors(-20, 17.5, 2.5), 0.5)
	if err != nil {
		b.Fatal(err)
	}
	for name, kind := range kinds {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			shape, ts := control(kind), targets(at)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := curve.Fit(shape, units.Celsius(21), ts); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
