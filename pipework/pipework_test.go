package pipework

import (
	"errors"
	"math"
	"strings"
	"testing"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"

	"pgregory.net/rapid"
)

func near(t testing.TB, what string, got, want, rel, abs float64) {
	t.Helper()
	if !(math.Abs(got-want) <= math.Max(rel*math.Abs(want), abs)) {
		t.Errorf("%s: %.10g, want %.10g", what, got, want)
	}
}

// good gives a value whose making cannot fail in the test.
func good[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func water(at float64) Liquid { return good(NewLiquid(fluid.Water(), units.Celsius(at))) }

func gpm(v float64) units.Flow { return units.GallonsPerMinute(v) }

// refused wants an error of the package or of fluid that says one of the words.
func refused(t *testing.T, what string, err error, says string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "NaN") {
		t.Errorf("%s: %v; should say %q", what, err, says)
	}
}

func TestTubeTablesAddUp(t *testing.T) {
	for _, table := range Tables() {
		last := units.Length(0)
		if table.Source == "" || len(table.Pipes) < 7 {
			t.Errorf("%s has no source or few sizes", table.Standard)
		}
		for _, p := range table.Pipes {
			// Bores are printed to a thousandth of an inch or a tenth of a millimetre.
			near(t, p.String()+" bore", float64(p.Bore), float64(p.Outside-2*p.Wall), 0, 1e-9)
			if p.Outside < last || p.Wall <= 0 || p.Roughness <= 0 {
				t.Errorf("%s is out of order", p)
			}
			last = p.Outside
			if again, err := Find(table.Standard, p.Size); err != nil || again != p {
				t.Errorf("%s is not found again: %v", p, err)
			}
		}
	}
	for i, p := range Tables()[4].Pipes {
		if largest := Tables()[5].Pipes[i]; largest.Size != p.Size || largest.Bore <= p.Bore || largest.Outside != p.Outside {
			t.Errorf("%s against %s", p, largest)
		}
	}
	for _, same := range []string{"1-1/4", "1 1/4", "1 1/4 in", `1-1/4"`} {
		if p, err := Find(CopperL, same); err != nil || p.Size != "1-1/4" {
			t.Errorf("%q: %v", same, err)
		}
	}
	if p, err := Find(PEXMetric, "16 × 2 mm"); err != nil || p.Bore != units.Millimetres(12) {
		t.Errorf("16 × 2 mm: %v %v", p, err)
	}
	_, err := Find(CopperL, "7/8")
	refused(t, "unknown size", err, "3/4, 1")
	_, err = Find("copper", "1/2")
	refused(t, "unknown table", err, "copper type L")
}

func TestVolumeOfTube(t *testing.T) {
	for _, r := range []struct {
		standard Standard
		size     string
		want     float64 // US gal/100 ft
		abs      float64
		source   string
	}{
		{PEX, "3/8", 0.50, 0.005, "published PEX chart"},
		{PEX, "1/2", 0.92, 0.005, "published PEX chart"},
		{PEX, "5/8", 1.34, 0.006, "published PEX chart"},
		{PEX, "3/4", 1.83, 0.008, "published PEX chart"},
		{PEX, "1", 3.03, 0.006, "published PEX chart"},
		{PEXLargest, "1/2", 0.960, 0.001, "geometry"},
		{CopperL, "1/2", 1.212, 0.001, "ASTM B88, geometry"}, {CopperL, "3/4", 2.514, 0.001, "ASTM B88, geometry"},
		{CopperL, "1", 4.287, 0.001, "ASTM B88, geometry"}, {CopperL, "1-1/4", 6.529, 0.001, "ASTM B88, geometry"},
		{CopperM, "1/2", 1.321, 0.001, "ASTM B88, geometry"}, {CopperM, "3/4", 2.683, 0.001, "ASTM B88, geometry"},
		{CopperM, "1", 4.541, 0.001, "ASTM B88, geometry"}, {CopperM, "1-1/4", 6.800, 0.001, "ASTM B88, geometry"},
	} {
		near(t, string(r.standard)+" "+r.size+": "+r.source, good(Find(r.standard, r.size)).Volume(units.Feet(100)).Gallons(), r.want, 0, r.abs)
	}
}

func TestFrictionFactor(t *testing.T) {
	for _, r := range []struct {
		re, relative, want, tol float64
		source                  string
	}{
		{1e5, 1e-4, 0.018513866077, 1e-9, "test file of an open fluid-mechanics library, Colebrook"},
		{1e5, 0, 0.017989773, 1e-7, "the same"},
		{1e4, 0, 0.030883, 2e-5, "Colebrook by hand"},
		{1e4, 1e-3, 0.032382, 2e-5, "Colebrook by hand"},
		{4e3, 0, 0.039907, 2e-5, "Colebrook by hand"},
		{1e5, 1e-3, 0.022175, 3e-5, "Colebrook by hand"},
		{1e5, 1e-2, 0.038504, 2e-5, "Colebrook by hand"},
		{1e6, 1e-4, 0.013441, 4e-5, "Colebrook by hand"},
		{1e7, 0.05, 0.071553, 1e-5, "Colebrook by hand"},
		{1000, 0.01, 0.064, 1e-12, "64/Re"},
		{128, 0, 0.5, 1e-12, "64/Re, test file of an open fluid-mechanics library"},
		{1e4, 0, 0.03164, 0.03, "Blasius"},
	} {
		f, err := FrictionFactor(units.Number(r.re), units.Number(r.relative))
		if err != nil {
			t.Fatal(err)
		}
		near(t, r.source, float64(f), r.want, r.tol, 0)
	}
	for _, bad := range [][2]units.Number{{0, 0}, {-1, 0}, {units.Number(math.NaN()), 0}, {1e4, 0.06}, {1e4, -1}, {2e9, 0}} {
		if f, err := FrictionFactor(bad[0], bad[1]); err == nil || f != 0 {
			t.Errorf("%v is taken: %v", bad, f)
		}
	}
	// The library's whole drop: 10 kg/s of 1000 kg/m³ and 1e-5 Pa·s in 1 m of 0.1 m, smooth.
	s := run(Pipe{Bore: 0.1}, 1, 0, Liquid{density: 1000, viscosity: 1e-5})
	near(t, "drop of the library", s.drop(0.01), 63.434473211, 1e-9, 0)
}

func TestWorkedDrops(t *testing.T) {
	for _, r := range []struct {
		standard                      Standard
		size                          string
		flow, fps, re, gradient, feet float64
	}{ // Darcy–Weisbach with Colebrook by hand, water at 60 °C
		{CopperL, "3/4", 4, 2.65, 33995, 370.8, 3.85},
		{CopperL, "1", 8, 3.11, 52070, 355.0, 3.68},
		{PEXLargest, "1/2", 1, 1.74, 13756, 320.3, 3.32},
		{PEXLargest, "1/2", 0.5, 0.87, 6878, 96.0, 0.995},
	} {
		p, l := good(Find(r.standard, r.size)), water(60)
		g := good(Gradient(p, gpm(r.flow), l))
		near(t, p.String()+" gradient", float64(g), r.gradient, 0.002, 0)
		near(t, p.String()+" head of its own water", float64(g)*30.48/l.density/gravity/0.3048, r.feet, 0.002, 0)
		near(t, p.String()+" velocity", p.Velocity(gpm(r.flow)).FeetPerSecond(), r.fps, 0, 0.006)
		near(t, p.String()+" Reynolds", float64(good(Reynolds(p, gpm(r.flow), l))), r.re, 0.0005, 0)
	}
	near(t, "minor loss", float64(good(MinorLoss(1.5, 1, water(60)))), 737.4, 0, 0.1)
	near(t, "kv 1 at 1 m³/h", float64(good(KvDrop(1, units.CubicMetresPerHour(1), water(5)))), 1e5, 0.001, 0)
	near(t, "Cv 1 at 1 gpm", good(KvDrop(units.Cv(1), gpm(1), water(5))).PSI(), 1, 0.001, 0)
}

func TestKvThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flow := units.Flow(rapid.Float64Range(1e-6, 0.1).Draw(t, "flow"))
		drop := units.Pressure(rapid.Float64Range(100, 1e5).Draw(t, "drop"))
		kv, err := KvFor(flow, drop, water(40))
		if err != nil {
			t.Fatal(err)
		}
		if back, err := KvDrop(kv, flow, water(40)); err == nil && math.Abs(float64(back/drop-1)) > 1e-9 {
			t.Fatalf("%v, want %v", back, drop)
		}
	})
}

func anyPath(t *rapid.T, l Liquid) Path {
	all := Tables()
	pipes := all[rapid.IntRange(0, len(all)-1).Draw(t, "table")].Pipes
	elements := []Element{Run{
		Pipe:   pipes[rapid.IntRange(0, len(pipes)-1).Draw(t, "size")],
		Length: units.Length(rapid.Float64Range(0.1, 200).Draw(t, "length")), K: units.Number(rapid.Float64Range(0, 30).Draw(t, "K")),
	}}
	if rapid.Bool().Draw(t, "valve") {
		elements = append(elements, Valve{Kv: units.FlowCoefficient(rapid.Float64Range(0.1, 40).Draw(t, "kv"))})
	}
	if rapid.Bool().Draw(t, "appliance") {
		elements = append(elements, Rated{Flow: units.Flow(rapid.Float64Range(1e-5, 1e-3).Draw(t, "rated flow")),
			Drop: units.Pressure(rapid.Float64Range(500, 3e4).Draw(t, "rated drop")), Exponent: units.Number(rapid.Float64Range(1, 2).Draw(t, "exponent"))})
	}
	p, err := NewPath(l, elements...)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestDropRisesAndTurnsRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPath(t, water(rapid.Float64Range(5, 90).Draw(t, "°C")))
		a := rapid.Float64Range(1e-7, 5e-3).Draw(t, "flow")
		if p.Drop(units.Flow(a)) >= p.Drop(units.Flow(1.01*a)) {
			t.Fatalf("the drop does not rise at %v", a)
		}
		drop := p.Drop(units.Flow(a))
		if drop > mostPressure {
			return
		}
		back, err := p.FlowAt(drop)
		if err != nil || math.Abs(float64(back)/a-1) > 1e-8 {
			t.Fatalf("%v, want %v (%v)", back, a, err)
		}
	})
}

func TestFrictionIsUnbroken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(0, 8).Draw(t, "lg Re"))
		relative := rapid.Float64Range(0, 0.05).Draw(t, "relative")
		a, b := friction(re, relative), friction(re*(1+1e-9), relative)
		if !(a > 0 && math.Abs(a-b) < 1e-7*a) {
			t.Fatalf("jump from %v to %v", a, b)
		}
		if x := 1 / math.Sqrt(a); re >= turbulentFrom && math.Abs(x+2*math.Log10(relative/3.7+2.51*x/re)) > 1e-9 {
			t.Fatal("Colebrook's equation does not hold")
		}
	})
}

func TestPathsAddUp(t *testing.T) {
	l := water(60)
	tube := Run{Pipe: good(Find(CopperL, "3/4")), Length: 20, K: 6}
	valve, boiler := Valve{Name: "zone valve", Kv: units.Cv(3.5)}, Rated{Name: "boiler", Flow: gpm(8), Drop: units.FeetOfWater(6)}
	whole := good(NewPath(l, tube, valve, boiler))
	flow := gpm(4)
	sum := 20*float64(good(Gradient(tube.Pipe, flow, l))) + float64(good(MinorLoss(6, tube.Pipe.Velocity(flow), l))) +
		float64(good(KvDrop(units.Cv(3.5), flow, l))) + 0.25*float64(units.FeetOfWater(6))
	near(t, "sum", float64(whole.Drop(flow)), sum, 1e-12, 0)
	more := good(good(NewPath(l, tube)).And(valve, boiler))
	near(t, "And", float64(more.Drop(flow)), sum, 1e-12, 0)
	near(t, "volume", whole.Volume().Litres(), tube.Pipe.Volume(20).Litres(), 1e-12, 0)
	if whole.Drop(0) != 0 || whole.Drop(units.Flow(math.NaN())) != 0 {
		t.Error("still water takes pressure")
	}
	js := good(whole.Judge(flow))
	if len(js) != 3 || !js[0].Fits || !js[2].Fits {
		t.Errorf("%+v", js)
	}
	glycol := good(fluid.GlycolByMass(fluid.PropyleneGlycol, 0.4))
	if thick := good(NewPath(good(NewLiquid(glycol, units.Celsius(60))), tube, valve, boiler)); thick.Drop(flow) <= whole.Drop(flow) {
		t.Error("glycol takes no more pressure than water")
	}
}

func TestPathsRefuse(t *testing.T) {
	l, tube := water(60), good(Find(CopperL, "3/4"))
	for _, c := range []struct {
		what     string
		l        Liquid
		elements []Element
		says     string
	}{
		{"nothing", l, nil, "at least one length"},
		{"no liquid", Liquid{}, []Element{Run{Pipe: tube, Length: 1}}, "water or a glycol"},
		{"nil part", l, []Element{nil}, "part 1"},
		{"no resistance", l, []Element{Run{Pipe: tube}}, "takes pressure"},
		{"negative length", l, []Element{Run{Pipe: tube, Length: -1}}, "length of 3/4 copper type L"},
		{"no bore", l, []Element{Run{Length: 1}}, "bore"},
		{"no kv", l, []Element{Valve{Name: "check valve"}}, "flow coefficient of check valve"},
		{"no rated flow", l, []Element{Rated{Name: "boiler", Drop: 1000}}, "rated flow of boiler"},
		{"steep appliance", l, []Element{Rated{Flow: 1e-4, Drop: 1000, Exponent: 3}}, "exponent"},
	} {
		_, err := NewPath(c.l, c.elements...)
		refused(t, c.what, err, c.says)
	}
	_, err := Path{}.FlowAt(100)
	refused(t, "empty path", err, "at least one length")
	_, err = good(NewPath(l, Run{Pipe: tube, Length: 1})).FlowAt(units.Pressure(math.Inf(1)))
	refused(t, "endless pressure", err, "no number")
	_, err = NewLiquid(good(fluid.GlycolByMass(fluid.PropyleneGlycol, 0.3)), units.Celsius(-20))
	refused(t, "frozen glycol", err, "not known")
	_, err = NewLiquid(fluid.Mixture{Kind: fluid.PropyleneGlycol, Mass: 0.7}, units.Celsius(40))
	refused(t, "glycol beyond the correlation", err, "60%")
	_, err = JudgeVelocity(tube, 0, l)
	refused(t, "no flow", err, "above zero")
	_, err = OwnPipe("odd", 0.02, 0.0095, 0)
	refused(t, "no bore left", err, "bore of tube odd")
	var r *refuse.Error
	if !errors.As(err, &r) || r.Accept == "" {
		t.Errorf("%v is no refuse.Error", err)
	}
}

func TestVelocityIsJudged(t *testing.T) {
	l := water(70)
	for _, c := range []struct {
		standard Standard
		size     string
		flow     float64
		fits     []bool
	}{
		{CopperL, "3/4", 4, []bool{true, true, true}},    // 2.65 ft/s
		{CopperL, "3/4", 5, []bool{true, false, true}},   // 3.3 ft/s
		{CopperL, "3/4", 8, []bool{false, false, true}},  // 5.3 ft/s
		{PEX, "1/2", 0.5, []bool{true, false}},           // 0.9 ft/s
		{SteelSchedule40, "3", 150, []bool{false, true}}, // by the gradient
		{SteelSchedule40, "2", 45, []bool{false, true}},  // by the velocity
	} {
		js := good(JudgeVelocity(good(Find(c.standard, c.size)), gpm(c.flow), l))
		for i, j := range js {
			if len(js) != len(c.fits) || j.Fits != c.fits[i] || j.Text == "" || j.Source == "" {
				t.Errorf("%s %s at %v gpm: %+v", c.standard, c.size, c.flow, js)
				break
			}
		}
	}
}

func TestFloorLoops(t *testing.T) {
	l, half := water(35), good(Find(PEX, "1/2"))
	length := good(LoopLength(units.SquareFeet(200), units.Inches(9), units.Feet(20)))
	near(t, "200 sq ft at 9 in", float64(length)/0.3048, 286.7, 0, 0.05)
	loops := good(DesignLoops(l,
		Loop{Name: "bath", Pipe: half, Length: units.Feet(120), Heat: units.BtuPerHour(2400), Drop: units.FahrenheitDifference(10)},
		Loop{Name: "living", Pipe: half, Length: length, Heat: units.BtuPerHour(5700), Drop: units.FahrenheitDifference(10)},
		Loop{Name: "hall", Pipe: half, Length: units.Feet(350), Heat: units.BtuPerHour(3000), Drop: units.FahrenheitDifference(10), Allowance: 0.1, Manifold: []Element{Valve{Kv: 1.2}}},
	))
	if loops.Governing != 1 {
		t.Errorf("loop %d governs", loops.Governing)
	}
	near(t, "flow of the living room", loops.Each[1].Flow.GallonsPerMinute(), 5700/(496.8*10), 0.002, 0)
	near(t, "sum", float64(loops.Flow), float64(loops.Each[0].Flow+loops.Each[1].Flow+loops.Each[2].Flow), 1e-12, 0)
	if j := loops.Each[2].Judgement; j[len(j)-1].Fits || !strings.Contains(j[len(j)-1].Text, "split it") {
		t.Errorf("%+v", j)
	}
	longest := good(LongestLoop(half, l, 30, 5, 15e3, 0.1))
	again := good(DesignLoops(l, Loop{Pipe: half, Length: longest, Heat: units.Power(30 * float64(longest)), Drop: 5, Allowance: 0.1}))
	near(t, "the longest loop takes the head", float64(again.Pressure), 15e3, 1e-4, 0)
	near(t, "no head but 2 km", float64(good(LongestLoop(good(Find(PEX, "2")), l, 1, 30, 2e5, 0))), 2000, 0, 0)

	_, err := DesignLoops(l)
	refused(t, "no loop", err, "one or more")
	_, err = DesignLoops(l, Loop{Name: "attic", Pipe: half, Length: 10, Drop: 5})
	refused(t, "no heat", err, "heat of attic")
	_, err = DesignLoops(l, Loop{Pipe: half, Length: 10, Heat: 500})
	refused(t, "no drop", err, "drop from supply to return of loop 1")
	_, err = LongestLoop(half, l, 30, 5, 0, 0)
	refused(t, "no head", err, "head for the loop")
	_, err = LoopLength(10, 0, 0)
	refused(t, "no spacing", err, "tube spacing")
}

// TestSteelByNominalDiameter: ISO 6708, DN 25 is 1 in.
func TestSteelByNominalDiameter(t *testing.T) {
	for dn, inches := range map[string]string{"DN 25": "1", "dn40": "1-1/2", "DN80": "3"} {
		for _, standard := range []Standard{SteelMetric, SteelSchedule40} {
			got, err := Find(standard, dn)
			want, _ := Find(standard, inches)
			if err != nil || got != want {
				t.Errorf("%s of %s: %v, %v", dn, standard, got, err)
			}
		}
	}
	if _, err := Find(CopperL, "DN 25"); err == nil {
		t.Error("copper by DN")
	}
}
