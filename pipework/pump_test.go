package pipework

import (
	"fmt"
	"math"
	"testing"

	"curvewright/units"

	"pgregory.net/rapid"
)

// houseCirculator is a made-up pump of the size used in houses.
func houseCirculator() PumpCurve {
	return good(NewPumpCurve(
		PumpPoint{0, units.FeetOfWater(19)}, PumpPoint{gpm(4), units.FeetOfWater(17.5)}, PumpPoint{gpm(8), units.FeetOfWater(14)},
		PumpPoint{gpm(12), units.FeetOfWater(9)}, PumpPoint{gpm(16), units.FeetOfWater(2)},
	))
}

func anyCurve(t *rapid.T) PumpCurve {
	n := rapid.IntRange(3, 8).Draw(t, "points")
	flow, head := 0.0, rapid.Float64Range(1e4, 1e5).Draw(t, "shut-off")
	var points []PumpPoint
	for i := range n {
		points = append(points, PumpPoint{units.Flow(flow), units.Pressure(head)})
		flow += rapid.Float64Range(1e-5, 5e-4).Draw(t, "step")
		head *= rapid.SampledFrom([]float64{0.98, 0.8, 0.4}).Draw(t, fmt.Sprint("fall ", i))
		if i == 0 && rapid.Bool().Draw(t, "flat top") {
			head = float64(points[0].Head)
		}
	}
	c, err := NewPumpCurve(points...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestPumpCurveGoesThroughItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		for i, v := range c.flow {
			if math.Abs(c.at(v)-c.head[i]) > 1e-9*c.head[0] {
				t.Fatalf("point %d: %v, want %v", i, c.at(v), c.head[i])
			}
		}
		a, b := rapid.Float64Range(0, c.reach()).Draw(t, "a"), rapid.Float64Range(0, c.reach()).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		if c.at(a) < c.at(b)-1e-9*c.head[0] {
			t.Fatalf("the head rises from %v to %v", c.at(a), c.at(b))
		}
	})
	// On a straight line, the curve is the line.
	line := good(NewPumpCurve(PumpPoint{0, 3e4}, PumpPoint{1e-3, 2e4}, PumpPoint{2e-3, 1e4}))
	near(t, "line", line.at(0.7e-3), 2.3e4, 1e-12, 0)
}

func TestPumpCurveRefuses(t *testing.T) {
	for _, c := range []struct {
		points []PumpPoint
		says   string
	}{
		{nil, "0 points"},
		{[]PumpPoint{{0, 3e4}, {1e-3, 1e4}}, "3 to 50 points"},
		{[]PumpPoint{{1e-4, 3e4}, {1e-3, 2e4}, {2e-3, 1e4}}, "no flow"},
		{[]PumpPoint{{0, 3e4}, {1e-3, 3.1e4}, {2e-3, 1e4}}, "rises"},
		{[]PumpPoint{{0, 3e4}, {1e-3, 2e4}, {1e-3, 1e4}}, "more than"},
		{[]PumpPoint{{0, 0}, {1e-3, 0}, {2e-3, 0}}, "above zero"},
		{[]PumpPoint{{0, units.Pressure(math.NaN())}, {1e-3, 0}, {2e-3, 0}}, "no number"},
		{[]PumpPoint{{0, 3e4}, {1e-3, 2e4}, {2e-3, -1}}, "head of point 3"},
	} {
		_, err := NewPumpCurve(c.points...)
		refused(t, c.says, err, c.says)
	}
	_, err := houseCirculator().Set(PumpSetting{Mode: "automatic"})
	refused(t, "mode", err, "constant pressure")
	_, err = houseCirculator().Set(PumpSetting{Mode: ConstantPressure, Head: units.FeetOfWater(30)})
	refused(t, "head", err, "head set at the pump")
	_, err = houseCirculator().Set(PumpSetting{Mode: FixedSpeed})
	refused(t, "speed", err, "speed of the pump")
	_, err = PumpCurve{}.Set(PumpSetting{Mode: FixedSpeed, Speed: 1})
	refused(t, "no curve", err, "chart")
	_, err = PumpCurve{}.Dial(FixedSpeed, PumpPoint{1e-4, 1e4})
	refused(t, "no curve", err, "chart")
	_, err = Operate(Pump{}, Path{})
	refused(t, "no pump", err, "pump curve")
	full := good(houseCirculator().Set(PumpSetting{Mode: FixedSpeed, Speed: 1}))
	_, err = Operate(full, Path{})
	refused(t, "no path", err, "circuit of the pump")
	_, err = Operate(full, good(NewPath(water(60), Valve{Kv: 100})))
	refused(t, "end of the curve", err, "more points")
	_, err = houseCirculator().Dial(ConstantPressure, PumpPoint{gpm(8), units.FeetOfWater(15)})
	refused(t, "too weak", err, "at full speed")
	_, err = houseCirculator().Dial(FixedSpeed, PumpPoint{gpm(15), units.FeetOfWater(0.5)})
	refused(t, "too strong", err, "smaller pump")
	_, err = good(NewPumpCurve(PumpPoint{0, 1e4}, PumpPoint{1e-3, 1e4}, PumpPoint{2e-3, 1e4})).Dial(ProportionalPressure, PumpPoint{2e-4, 8e3})
	refused(t, "flat curve", err, "constant pressure makes more")
	_, err = houseCirculator().Dial("eco", PumpPoint{gpm(4), units.FeetOfWater(5)})
	refused(t, "mode", err, "mode of the pump")
}

func TestAffinity(t *testing.T) {
	c := houseCirculator()
	half := good(c.Set(PumpSetting{Mode: FixedSpeed, Speed: 0.5}))
	near(t, "half speed", float64(half.Head(gpm(4))), float64(units.FeetOfWater(14))/4, 1e-12, 0)
	constant := good(c.Set(PumpSetting{Mode: ConstantPressure, Head: units.FeetOfWater(9)}))
	near(t, "held", constant.Head(gpm(3)).FeetOfWater(), 9, 1e-12, 0)
	near(t, "spent", constant.Head(gpm(16)).FeetOfWater(), 2, 1e-12, 0)
	proportional := good(c.Set(PumpSetting{Mode: ProportionalPressure, Head: units.FeetOfWater(9)}))
	near(t, "no flow", proportional.Head(0).FeetOfWater(), 4.5, 1e-12, 0)
	near(t, "half way", proportional.Head(gpm(6)).FeetOfWater(), 6.75, 1e-9, 0)
	near(t, "its end", proportional.Head(gpm(12)).FeetOfWater(), 9, 1e-9, 0)
}

// A quadratic circuit on a straight pump curve has a closed answer.
func TestOperatingPointByHand(t *testing.T) {
	c := good(NewPumpCurve(PumpPoint{0, 4e4}, PumpPoint{1e-3, 2e4}, PumpPoint{2e-3, 0}))
	path := good(NewPath(water(60), Rated{Flow: 1e-3, Drop: 2e4})) // Δp = 2e10·V²
	// 4e4 − 2e7·V = 2e10·V²: V = 1e-3.
	p := good(Operate(good(c.Set(PumpSetting{Mode: FixedSpeed, Speed: 1})), path))
	near(t, "flow", float64(p.Flow), 1e-3, 1e-9, 0)
	near(t, "head", float64(p.Head), 2e4, 1e-9, 0)
}

func TestDialledInComesOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCurve(t)
		path := anyPath(t, water(50))
		flow := units.Flow(rapid.Float64Range(0.05, 0.95).Draw(t, "share") * c.reach())
		want := PumpPoint{flow, path.Drop(flow)}
		for _, mode := range []PumpMode{FixedSpeed, ConstantPressure, ProportionalPressure} {
			setting, err := c.Dial(mode, want)
			if err != nil {
				if mode == ConstantPressure && want.Head >= leastDrop && float64(want.Head) <= c.at(float64(flow)) {
					t.Fatal(err)
				}
				continue
			}
			pump, err := c.Set(setting)
			if err != nil {
				t.Fatal(err)
			}
			got, err := Operate(pump, path)
			if err != nil {
				t.Fatalf("%+v: %v", setting, err)
			}
			if math.Abs(float64(got.Flow/flow-1)) > 1e-5 {
				t.Fatalf("%+v gives %v, want %v", setting, got, want)
			}
		}
	})
}

func radiatorBranches(l Liquid) []Branch {
	tube := good(Find(CopperMetric, "15x1"))
	var out []Branch
	for i, length := range []units.Length{8, 14, 20, 26, 34, 45} {
		out = append(out, Branch{
			Name: fmt.Sprintf("radiator %d", i+1), Flow: units.LitresPerMinute(1.5 + 0.4*float64(i)),
			Path: good(NewPath(l, Run{Pipe: tube, Length: length, K: 8}, Valve{Kv: 1.1}, Rated{Flow: units.LitresPerMinute(3), Drop: 900, Exponent: 1.8})),
		})
	}
	return out
}

func TestBalancedBranchesGetTheirWater(t *testing.T) {
	l := water(60)
	branches := radiatorBranches(l)
	balanced := good(Balance(3000, branches...))
	if balanced.Index != 5 || !balanced.Valves[5].Index {
		t.Errorf("index %d", balanced.Index)
	}
	var set []Path
	for i, v := range balanced.Valves {
		near(t, v.Name, float64(v.Own+v.Throttle), float64(balanced.Head), 1e-12, 0)
		set = append(set, good(branches[i].Path.And(Valve{Kv: v.Kv})))
	}
	common := good(NewPath(l, Run{Pipe: good(Find(CopperMetric, "28x1.5")), Length: 12, K: 10}))
	curve := good(NewPumpCurve(PumpPoint{0, 5e4}, PumpPoint{5e-4, 3.5e4}, PumpPoint{1e-3, 1e4}))
	setting := good(curve.Dial(ConstantPressure, PumpPoint{balanced.Flow, balanced.Head + common.Drop(balanced.Flow)}))
	shared := good(Solve(good(curve.Set(setting)), &common, set...))
	for i, flow := range shared.Flows {
		near(t, "balanced "+branches[i].Name, float64(flow), float64(branches[i].Flow), 1e-7, 0)
	}
	free := []Path{}
	for _, b := range branches {
		free = append(free, b.Path)
	}
	unbalanced := good(Solve(good(curve.Set(setting)), &common, free...))
	if unbalanced.Flows[0] < 1.3*branches[0].Flow {
		t.Error("the nearest radiator takes no more than its share without balancing")
	}

	alone := good(Balance(0, branches...))
	if alone.Valves[5].Kv != 0 || alone.Valves[5].Throttle != 0 {
		t.Errorf("the index branch is throttled: %+v", alone.Valves[5])
	}
	_, err := Balance(0)
	refused(t, "no branch", err, "1 to 200")
	_, err = Balance(0, Branch{Name: "bath", Path: branches[0].Path})
	refused(t, "no flow", err, "flow of bath")
	_, err = Balance(0, Branch{Name: "bath", Flow: 1e-5})
	refused(t, "no path", err, "pipes of bath")
	_, err = Balance(0, branches[0], Branch{Name: "bath", Flow: 1e-5, Path: radiatorBranches(water(40))[0].Path})
	refused(t, "two liquids", err, "one liquid")
	_, err = Solve(Pump{}, nil, free...)
	refused(t, "no pump", err, "pump curve")
	_, err = Solve(good(curve.Set(setting)), nil)
	refused(t, "no branch", err, "open")
	_, err = Solve(good(curve.Set(setting)), nil, Path{})
	refused(t, "no path", err, "branch 1")
	_, err = Solve(good(curve.Set(PumpSetting{Mode: FixedSpeed, Speed: 1})), nil, good(NewPath(l, Valve{Kv: 50})))
	refused(t, "end of the curve", err, "more points")
}

func TestSharedWaterObeysBothLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := water(55)
		curve := anyCurve(t)
		head := units.Pressure(rapid.Float64Range(0.2, 0.95).Draw(t, "head") * curve.head[0])
		pump := good(curve.Set(rapid.SampledFrom([]PumpSetting{
			{Mode: FixedSpeed, Speed: 0.8}, {Mode: FixedSpeed, Speed: 1}, {Mode: ConstantPressure, Head: head}, {Mode: ProportionalPressure, Head: head},
		}).Draw(t, "setting")))
		var branches []Path
		for range rapid.IntRange(1, 8).Draw(t, "branches") {
			branches = append(branches, anyPath(t, l))
		}
		common := anyPath(t, l)
		s, err := Solve(pump, &common, branches...)
		if err != nil {
			return // beyond the curve
		}
		sum := units.Flow(0)
		for i, v := range s.Flows {
			sum += v
			if math.Abs(float64(branches[i].Drop(v)/s.Across-1)) > 1e-6 {
				t.Fatalf("branch %d takes %v across %v", i, branches[i].Drop(v), s.Across)
			}
		}
		if math.Abs(float64(sum/s.Total-1)) > 1e-9 || math.Abs(float64(s.Head-s.Across-common.Drop(s.Total))) > 1e-6*float64(s.Head) {
			t.Fatalf("%+v, sum %v, common %v", s, sum, common.Drop(s.Total))
		}
	})
}

func TestRootStaysInItsBracket(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zero := rapid.Float64Range(0.001, 0.999).Draw(t, "zero")
		power := rapid.Float64Range(0.2, 9).Draw(t, "power")
		calls := 0
		f := func(x float64) float64 {
			calls++
			if x < 0 || x > 1 {
				t.Fatalf("asked at %v", x)
			}
			return math.Pow(x, power) - math.Pow(zero, power)
		}
		x, ok := root(f, 0, 1, f(0), f(1), 1e-12)
		if !ok || math.Abs(x-zero) > 1e-11 || calls > 100 {
			t.Fatalf("%v, want %v, after %d calls", x, zero, calls)
		}
	})
	if _, ok := root(func(float64) float64 { return 1 }, 0, 1, 1, 1, 1e-9); ok {
		t.Error("a root where there is none")
	}
}

func BenchmarkDrop(b *testing.B) {
	path := radiatorBranches(water(60))[3].Path
	for b.Loop() {
		path.Drop(5e-5)
	}
}

func BenchmarkOperate(b *testing.B) {
	pump := good(houseCirculator().Set(PumpSetting{Mode: ProportionalPressure, Head: units.FeetOfWater(9)}))
	path := radiatorBranches(water(60))[3].Path
	for b.Loop() {
		if _, err := Operate(pump, path); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSolveSixCircuits is to stay under a millisecond.
func BenchmarkSolveSixCircuits(b *testing.B) {
	l := water(60)
	var paths []Path
	for _, r := range radiatorBranches(l) {
		paths = append(paths, r.Path)
	}
	common := good(NewPath(l, Run{Pipe: good(Find(CopperMetric, "28x1.5")), Length: 12, K: 10}))
	pump := good(houseCirculator().Set(PumpSetting{Mode: FixedSpeed, Speed: 1}))
	for b.Loop() {
		if _, err := Solve(pump, &common, paths...); err != nil {
			b.Fatal(err)
		}
	}
}
