package emitter

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func coil(t testing.TB) Coil {
	t.Helper()
	c, err := NewCoil(coilRating())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func coilRating() CoilRating {
	return CoilRating{Output: 4000, EnteringWater: celsius(60), EnteringAir: celsius(20), WaterFlow: units.LitresPerMinute(6), AirFlow: units.Flow(600.0 / 3600)}
}

func ratedFloor(t testing.TB) PowerLaw {
	t.Helper()
	f := wet(.15, .016, .045, 1.2, .10)
	f.Below = celsius(8)
	rated, err := f.Rate(celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	return rated.Emitter
}

func parallel(t testing.TB) Parallel {
	t.Helper()
	p, err := NewParallel(Branch{radiator(t, 1.3), 0.4}, Branch{ratedFloor(t), 0.6})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// every is one emitter of each kind.
func every(t testing.TB) map[string]Emitter {
	return map[string]Emitter{
		"radiator":  radiator(t, 1.3),
		"straight":  PowerLaw{Coefficient: 25, Exponent: 1},
		"fin tube":  finTube(t),
		"floor":     ratedFloor(t),
		"warm base": PowerLaw{Coefficient: 33, Exponent: 1, Down: Behind{PerRoom: 0.2, Conductance: 10, Temperature: celsius(25)}},
		"odd":       PowerLaw{Coefficient: 4, Exponent: 1.4, AirOffset: 2, Down: Behind{PerRoom: 0.1, Conductance: 3, Temperature: celsius(5)}},
		"coil":      coil(t),
		"series":    Series{radiator(t, 1.3), finTube(t), ratedFloor(t)},
		"parallel":  parallel(t),
	}
}

func drawRoom(r *rapid.T) units.Temperature {
	return celsius(rapid.Float64Range(5, 30).Draw(r, "room °C"))
}

func drawFlow(r *rapid.T) units.LossCoefficient {
	return units.LossCoefficient(math.Exp(rapid.Float64Range(math.Log(0.01), math.Log(1e5)).Draw(r, "ln flow")))
}

// The water gives what it loses; the room gets part of it; the return lies between.
func TestEnergyBalance(t *testing.T) {
	for name, e := range every(t) {
		t.Run(name, rapid.MakeCheck(func(r *rapid.T) {
			room, flow := drawRoom(r), drawFlow(r)
			supply := room + units.Temperature(rapid.Float64Range(1e-6, 120).Draw(r, "excess"))
			h := e.Output(supply, flow, room)
			balance := float64(flow) * float64(supply-h.Return)
			// The return is a temperature near 300 K: its last digit times the flow.
			rounding := float64(flow) * 1e-12
			if math.Abs(float64(h.Water)-balance) > 1e-6*balance+rounding {
				r.Fatalf("water %v, balance %v", h.Water, balance)
			}
			if !(h.Room >= 0 && h.Water >= h.Room*(1-1e-9) && h.Return <= supply && h.Return > room-16) {
				r.Fatalf("%+v at supply %v room %v", h, supply, room)
			}
		}))
	}
}

// The law itself holds at the solution, over all shapes of law.
func TestPowerLawHoldsAtTheSolution(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		law := PowerLaw{
			Coefficient: math.Exp(rapid.Float64Range(-3, 8).Draw(r, "ln K")),
			Exponent:    units.Number(rapid.Float64Range(1, 2).Draw(r, "n")),
			Down: Behind{
				PerRoom:     units.Fraction(rapid.Float64Range(0, 2).Draw(r, "share")),
				Conductance: units.LossCoefficient(rapid.Float64Range(0, 50).Draw(r, "G")),
				Temperature: celsius(rapid.Float64Range(-10, 35).Draw(r, "below")),
			},
		}
		room, flow := drawRoom(r), drawFlow(r)
		supply := room + units.Temperature(rapid.Float64Range(0.01, 120).Draw(r, "excess"))
		// The slow way: the number of transfer units, by halving its interval until what
		// the water gives up is what room and floor take.
		loss := func(q float64) float64 {
			return math.Max(0, float64(law.Down.PerRoom)*q+law.steadyLoss(room))
		}
		inlet, q := float64(supply-room), 0.0
		low, high := 0.0, 1e15
		for range 300 {
			n := (low + high) / 2
			drop := -inlet * math.Expm1(-n)
			q = float64(law.AtExcess(units.Difference(drop/n), flow))
			if q+loss(q) > float64(flow)*drop {
				low = n
			} else {
				high = n
			}
		}
		h := law.Output(supply, flow, room)
		if math.Abs(float64(h.Room)-q) > 1e-6*q+1e-6*loss(q)+1e-5+1e-9*float64(flow) {
			r.Fatalf("room gets %v, the slow way gives %v", h.Room, q)
		}
		if math.Abs(float64(h.Water)-q-loss(q)) > 1e-6*(q+loss(q))+1e-5+1e-9*float64(flow) && float64(flow)*inlet > loss(0) {
			r.Fatalf("water loses %v, the slow way gives %v", h.Water, q+loss(q))
		}
	})
}

func TestMoreSupplyOrFlowNeverGivesLess(t *testing.T) {
	for name, e := range every(t) {
		t.Run(name, rapid.MakeCheck(func(r *rapid.T) {
			room, flow := drawRoom(r), drawFlow(r)
			supply := room + units.Temperature(rapid.Float64Range(0.01, 100).Draw(r, "excess"))
			h := e.Output(supply, flow, room)
			warmer := e.Output(supply+units.Temperature(rapid.Float64Range(0, 30).Draw(r, "warmer")), flow, room)
			faster := e.Output(supply, flow*units.LossCoefficient(rapid.Float64Range(1, 3).Draw(r, "faster")), room)
			slack := 1e-8*h.Room + 1e-9
			if warmer.Room < h.Room-slack {
				r.Fatalf("warmer water: %v after %v", warmer.Room, h.Room)
			}
			if faster.Room < h.Room-slack {
				r.Fatalf("more flow: %v after %v", faster.Room, h.Room)
			}
		}))
	}
}

func TestSupplyForRoundTrip(t *testing.T) {
	for name, e := range every(t) {
		t.Run(name, rapid.MakeCheck(func(r *rapid.T) {
			room := drawRoom(r)
			flow := units.LossCoefficient(rapid.Float64Range(20, 2000).Draw(r, "flow"))
			supply := room + units.Temperature(rapid.Float64Range(6, 90).Draw(r, "excess"))
			q := e.Output(supply, flow, room).Room
			got, err := SupplyFor(e, q, flow, room)
			if err != nil {
				r.Fatal(err)
			}
			if q > 0 && math.Abs(float64(got-supply)) > 2e-5 {
				r.Fatalf("%v W: supply %v, want %v", q, got, supply)
			}
		}))
	}
}

func TestSearchAgreesWithTheClosedForm(t *testing.T) {
	law := radiator(t, 1.3)
	for _, q := range []units.Power{1, 100, 900, 2000} {
		closed, err := law.SupplyFor(q, 100, celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		searched, err := SupplyFor(Series{law}, q, 100, celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "search", float64(searched), float64(closed), 2e-6)
	}
}

func TestSupplyForSaysWhyNot(t *testing.T) {
	for name, e := range map[string]Emitter{"closed": radiator(t, 1.3), "search": Series{radiator(t, 1.3)}, "coil": coil(t)} {
		for what, c := range map[string]struct {
			q    units.Power
			flow units.LossCoefficient
			room units.Temperature
		}{
			"too much":     {1e5, 100, celsius(20)},
			"negative":     {-1, 100, celsius(20)},
			"no flow":      {100, 0, celsius(20)},
			"not a number": {units.Power(math.NaN()), 100, celsius(20)},
			"no room":      {100, 100, 0},
		} {
			if supply, err := SupplyFor(e, c.q, c.flow, c.room); err == nil {
				t.Errorf("%s, %s: accepted as %v", name, what, supply)
			}
		}
		if supply, err := SupplyFor(e, 0, 100, celsius(20)); err != nil || supply != celsius(20) {
			t.Errorf("%s: no heat needs %v (%v), want the room", name, supply, err)
		}
	}
	if _, err := SupplyFor(nil, 100, 100, celsius(20)); err == nil {
		t.Error("no emitter accepted")
	}
	if _, err := SupplyFor(Coil{}, 100, 100, celsius(20)); err == nil {
		t.Error("empty coil accepted")
	}
}

func TestNoHeatWithoutWarmWaterOrFlow(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, e := range every(t) {
		for _, c := range [][3]float64{
			{20, 100, 20}, {15, 100, 20}, {60, 0, 20}, {60, -5, 20}, {nan, 100, 20}, {60, nan, 20}, {60, 100, nan}, {inf, 100, 20}, {60, inf, 20}, {60, 100, inf}, {-inf, 100, 20}, {60, 100, -inf}, {nan, nan, nan},
		} {
			h := e.Output(celsius(c[0]), units.LossCoefficient(c[1]), celsius(c[2]))
			if h.Room != 0 || h.Water != 0 || !finite(float64(h.Return)) {
				t.Errorf("%s at %v: %+v", name, c, h)
			}
		}
	}
	for _, bad := range []Emitter{PowerLaw{}, PowerLaw{Coefficient: -1, Exponent: 1.3}, PowerLaw{Coefficient: nan, Exponent: 1.3}, PowerLaw{Coefficient: 5, Exponent: 0.5}, PowerLaw{Coefficient: 5, Exponent: 1, Down: Behind{Conductance: units.LossCoefficient(nan)}}, Coil{}, Series{}, Series{nil}, Parallel{}} {
		if h := bad.Output(celsius(60), 100, celsius(20)); h != (Heat{Return: celsius(60)}) {
			t.Errorf("%+v gives %+v", bad, h)
		}
	}
}

// A cold cellar can take more than little warm water carries: the room then gets
// nothing and the water leaves at room temperature, without a jump on the way there.
func TestSteadyLossTakesAllOfALittleWater(t *testing.T) {
	law := ratedFloor(t)
	h := law.Output(celsius(21), 1, celsius(20))
	if h.Room != 0 || math.Abs(float64(h.Return-celsius(20))) > 1e-9 {
		t.Errorf("%+v", h)
	}
	last := 0.0
	for excess := 0.01; excess < 80; excess += 0.01 {
		q := float64(law.Output(celsius(20+excess), 1, celsius(20)).Room)
		if q < last || q-last > 0.02 {
			t.Fatalf("at %v K the heat jumps from %v to %v", excess, last, q)
		}
		last = q
	}
}

func TestSeriesFeedsTheNextWithTheReturn(t *testing.T) {
	a, b := radiator(t, 1.3), finTube(t)
	first := a.Output(celsius(70), 120, celsius(20))
	second := b.Output(first.Return, 120, celsius(20))
	h := Series{a, b}.Output(celsius(70), 120, celsius(20))
	if h.Return != second.Return || h.Room != first.Room+second.Room {
		t.Errorf("%+v, want %+v then %+v", h, first, second)
	}
}

// Two halves of a radiator side by side at half the flow each are the radiator.
func TestParallelHalvesMakeTheWhole(t *testing.T) {
	whole := radiator(t, 1.3)
	half := whole
	half.Coefficient /= 2
	p, err := NewParallel(Branch{half, 0.5}, Branch{half, 0.5})
	if err != nil {
		t.Fatal(err)
	}
	a, b := whole.Output(celsius(60), 80, celsius(20)), p.Output(celsius(60), 80, celsius(20))
	near(t, "room", float64(b.Room), float64(a.Room), 1e-9)
	near(t, "return", float64(b.Return), float64(a.Return), 1e-9)
	near(t, "in a row too", float64(Series{half, half}.Output(celsius(60), 80, celsius(20)).Room), float64(a.Room), 0.01*float64(a.Room))
	for name, branches := range map[string][]Branch{
		"none": nil, "short": {{half, 0.5}}, "too much": {{half, 0.7}, {half, 0.7}}, "negative": {{half, -0.5}, {half, 1.5}}, "empty": {{nil, 1}}, "not a number": {{half, units.Fraction(math.NaN())}},
	} {
		if _, err := NewParallel(branches...); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestCoilReturnsItsRating(t *testing.T) {
	r := coilRating()
	c := coil(t)
	flow := units.LossCoefficient(float64(r.WaterFlow) * waterHeatCapacity)
	near(t, "rated output", float64(c.Output(r.EnteringWater, flow, r.EnteringAir).Room), 4000, 1e-6)
	near(t, "straight in the temperature difference", float64(c.Output(celsius(40), flow, celsius(20)).Room), 2000, 1e-6)
	for _, n := range []struct {
		ntu, ratio, want, abs float64
		source                string
	}{
		{1, 0, 1 - math.Exp(-1), 1e-9, "effectiveness without capacity ratio: 1 − e^(−N)"},
		{1, 1e-5, 1 - math.Exp(-1), 1e-5, "continuous there"},
		{1, 1, 0.469, 0.001, "relation by hand: 1 − exp(exp(−1) − 1)"},
		{2, 0.5, 0.739, 0.001, "relation by hand"},
	} {
		near(t, n.source, crossflow(n.ntu, n.ratio), n.want, n.abs)
	}
	for name, change := range map[string]func(*CoilRating){
		"output": func(r *CoilRating) { r.Output = 0 }, "too much": func(r *CoilRating) { r.Output = 20000 }, "water": func(r *CoilRating) { r.WaterFlow = 0 },
		"air": func(r *CoilRating) { r.AirFlow = 0 }, "cold": func(r *CoilRating) { r.EnteringWater = celsius(10) },
	} {
		bad := coilRating()
		change(&bad)
		if _, err := NewCoil(bad); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

// An error must name what, the value with its unit, and what would be accepted.
func TestErrorsSpeakToAnInstaller(t *testing.T) {
	_, err := wet(.7, .016, .045, 1.2, .1).Factors()
	for _, part := range []string{"floor: tube spacing of 0.7", "2.3", "outside the range; accepted: 50 mm to 600 mm (2 in to 24 in)"} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%v does not say %q", err, part)
		}
	}
}

var kept Heat

func BenchmarkOutput(b *testing.B) {
	for name, e := range every(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			supply := celsius(55)
			for i := 0; b.Loop(); i++ {
				kept = e.Output(supply+units.Temperature(i&15), 60, celsius(20))
			}
		})
	}
}

var keptSupply units.Temperature

func BenchmarkSupplyFor(b *testing.B) {
	for name, e := range every(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				keptSupply, _ = SupplyFor(e, 400, 60, celsius(20))
			}
		})
	}
}
