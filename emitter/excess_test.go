package emitter

import (
	"math"
	"testing"

	"curvewright/units"
)

func celsius(v float64) units.Temperature { return units.Celsius(v) }

func near(t *testing.T, what string, got, want, abs float64) {
	t.Helper()
	if !(math.Abs(got-want) <= abs) {
		t.Errorf("%s: got %.6g, want %.6g ± %.2g", what, got, want, abs)
	}
}

// Arithmetic against logarithmic, n = 1.3, each against its own rating.
func TestExcessMeansAndTheirRatings(t *testing.T) {
	const source = "EN 442-2 characteristic equation, worked by hand"
	for _, c := range []struct {
		supply, ret, room           float64
		arith, log, c, fArith, fLog float64
		mean                        Mean
		source                      string
	}{
		{75, 65, 20, 50.0, 49.833, .818, 1.0000, 1.0000, Arithmetic, source},
		{90, 70, 20, 60.0, 59.440, .714, 1.2675, 1.2576, Arithmetic, source},
		{80, 60, 20, 50.0, 49.326, .667, 1.0000, 0.9868, Logarithmic, source},
		{70, 55, 20, 42.5, 42.055, .700, 0.8096, 0.8020, Arithmetic, source},
		{70, 50, 20, 40.0, 39.152, .600, 0.7482, 0.7308, Logarithmic, source},
		{75, 65, 24, 46.0, 45.818, .804, 0.8973, 0.8966, Arithmetic, source},
		{60, 40, 20, 30.0, 28.854, .500, 0.5148, 0.4915, Logarithmic, source},
		{55, 45, 20, 30.0, 29.720, .714, 0.5148, 0.5107, Arithmetic, source},
		{55, 35, 20, 25.0, 23.604, .429, 0.4061, 0.3785, Logarithmic, source},
		{50, 40, 20, 25.0, 24.663, .667, 0.4061, 0.4008, Logarithmic, source},
		{45, 35, 20, 20.0, 19.576, .600, 0.3039, 0.2968, Logarithmic, source},
		{45, 40, 20, 22.5, 22.407, .800, 0.3541, 0.3538, Arithmetic, source},
		{35, 30, 20, 12.5, 12.332, .667, 0.1649, 0.1628, Logarithmic, source},
		{35, 28, 20, 11.5, 11.136, .533, 0.1480, 0.1425, Logarithmic, source},
		{70, 30, 20, 30.0, 24.853, .200, 0.5148, 0.4048, Logarithmic, source},
	} {
		s, r, i := celsius(c.supply), celsius(c.ret), celsius(c.room)
		arith := float64(ArithmeticExcess(s, r, i))
		logged, err := LogarithmicExcess(s, r, i)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "arithmetic", arith, c.arith, 0.001)
		near(t, "logarithmic", float64(logged), c.log, 0.001)
		near(t, "c", float64((r-i)/(s-i)), c.c, 0.0006)
		near(t, "F arithmetic", math.Pow(arith/50, 1.3), c.fArith, 0.0003)
		law, err := Radiator(1000, RatedAtExcess(50), 1.3)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "F logarithmic", float64(law.AtExcess(logged, 100))/1000, c.fLog, 0.0003)
		chosen, mean, err := Excess(s, r, i)
		if err != nil || mean != c.mean {
			t.Errorf("%v/%v/%v: chose %s (%v), want %s", c.supply, c.ret, c.room, mean, err, c.mean)
		}
		want := c.arith
		if c.mean == Logarithmic {
			want = c.log
		}
		near(t, "chosen", float64(chosen), want, 0.001)
	}
}

func TestLogarithmicExcessAtEqualTemperatures(t *testing.T) {
	for _, drop := range []float64{0, 1e-13, 1e-9, 1e-6, 1e-3} {
		got, err := LogarithmicExcess(celsius(50+drop), celsius(50), celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "supply = return", float64(got), 30+drop/2, 1e-6)
	}
}

func TestExcessRefusesWhatHasNoMean(t *testing.T) {
	for _, c := range [][3]float64{{50, 20, 20}, {50, 15, 20}, {40, 45, 20}, {math.NaN(), 40, 20}, {math.Inf(1), 40, 20}} {
		if _, err := LogarithmicExcess(celsius(c[0]), celsius(c[1]), celsius(c[2])); err == nil {
			t.Errorf("%v: accepted", c)
		}
		if _, _, err := Excess(celsius(c[0]), celsius(c[1]), celsius(c[2])); err == nil {
			t.Errorf("%v: accepted", c)
		}
	}
}
