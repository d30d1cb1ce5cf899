package boiler

import (
	"math"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func model(t testing.TB, condensing bool) Model {
	t.Helper()
	return ok[Model](t)(NewModel(fuel(t, "natural-gas"), 0.25, CellarAir(), condensing, 0.1))
}

func TestEfficiencyFallsWithTheReturn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Model{
			Approach:  units.Difference(rapid.Float64Range(0, 200).Draw(t, "approach")),
			Exponent:  units.Number(rapid.Float64Range(0, 2).Draw(t, "exponent")),
			Jacket:    units.Fraction(rapid.Float64Range(0, 0.05).Draw(t, "jacket")),
			LeastRate: 0.05, gas: drawGas(t),
		}
		back := units.Celsius(rapid.Float64Range(5, 109).Draw(t, "return"))
		rate := units.Fraction(rapid.Float64Range(0.05, 1).Draw(t, "rate"))
		cool, err := m.Efficiency(back, rate, Gross)
		if err != nil {
			t.Fatal(err)
		}
		warm, err := m.Efficiency(back+1, rate, Gross)
		if err != nil || warm > cool || warm == cool && cool > 0 {
			t.Fatalf("%v at %v, %v one kelvin above (%v)", cool, back, warm, err)
		}
		m.Jacket = 0
		full, _ := m.Efficiency(back, 1, Gross)
		low, _ := m.Efficiency(back, rate, Gross)
		if low < full-1e-12 {
			t.Fatalf("without jacket loss %v at full fire, %v at %v", full, low, rate)
		}
	})
}

func TestEfficiencyBendsAtTheDewPoint(t *testing.T) {
	m := model(t, true)
	kink := m.FlueGas().DewPoint.Add(-m.Approach)
	slope := func(from, to units.Temperature) float64 {
		a := ok[units.Fraction](t)(m.Efficiency(from, 1, Gross))
		b := ok[units.Fraction](t)(m.Efficiency(to, 1, Gross))
		return float64(a-b) / float64(to-from)
	}
	wet, dry := slope(kink-3, kink-0.01), slope(kink+0.01, kink+3)
	if ratio := wet / dry; ratio < 6 || ratio > 14 {
		t.Errorf("falls %.1f times as fast below the dew point as above", ratio)
	}
}

// Orders of magnitude of trade press and state energy offices: 180/160 °F at most about
// 89 %, 120/100 °F 93 % and more, about 87 % where condensing starts.
func TestEfficiencyIsThatOfTheTrade(t *testing.T) {
	m := model(t, true)
	hot := ok[units.Fraction](t)(m.Efficiency(units.Fahrenheit(160), 1, Gross))
	cool := ok[units.Fraction](t)(m.Efficiency(units.Fahrenheit(100), 1, Gross))
	start := ok[units.Fraction](t)(m.Efficiency(units.Fahrenheit(130), 1, Gross))
	if hot > 0.89 || hot < 0.85 || cool < 0.93 || cool > 0.98 {
		t.Errorf("%v at 160 °F, %v at 100 °F", hot, cool)
	}
	near(t, "at 130 °F", float64(start), 0.87, 0.015)
	old := ok[units.Fraction](t)(model(t, false).Efficiency(units.Fahrenheit(160), 1, Gross))
	near(t, "not condensing", float64(old), 0.82, 0.02)
	net := ok[units.Fraction](t)(m.Efficiency(units.Fahrenheit(100), 1, Net))
	near(t, "net to gross", float64(net/cool), float64(fuel(t, "natural-gas").GrossToNet()), 1e-9)
}

func TestCalibrationFindsTheBoiler(t *testing.T) {
	returns := []float64{30, 50, 60, 30, 50, 60}
	rates := []units.Fraction{1, 1, 1, 0.2, 0.2, 0.2}
	for _, truth := range []struct {
		approach units.Difference
		exponent units.Number
		jacket   units.Fraction
	}{{4, 1, 0.003}, {15, 0.5, 0.01}, {1, 0, 0}, {60, 1.5, 0.02}, {250, 2, 0.05}} {
		real := model(t, true)
		real.Approach, real.Exponent, real.Jacket = truth.approach, truth.exponent, truth.jacket
		var points []RatedPoint
		for i := range returns {
			p := RatedPoint{Return: units.Celsius(returns[i]), Rate: rates[i], Basis: Basis(i % 2)}
			p.Efficiency = ok[units.Fraction](t)(real.Efficiency(p.Return, p.Rate, p.Basis))
			points = append(points, p)
		}
		got, fit, err := model(t, true).Calibrated(points)
		if err != nil {
			t.Fatal(truth, err)
		}
		if fit.Worst > 0.001 || fit.Mean > fit.Worst {
			t.Errorf("%v: fit %+v", truth, fit)
		}
		for _, at := range []float64{25, 40, 55, 70} {
			want := ok[units.Fraction](t)(real.Efficiency(units.Celsius(at), 0.5, Gross))
			have := ok[units.Fraction](t)(got.Efficiency(units.Celsius(at), 0.5, Gross))
			near(t, "between the points", float64(have), float64(want), 0.006)
		}
	}
}

func TestCalibrationKeepsWhatThePointsDoNotSay(t *testing.T) {
	m := model(t, true)
	m.Exponent = 0.8
	got, _, err := m.Calibrated([]RatedPoint{{Return: units.Celsius(30), Rate: 1, Efficiency: 0.955}, {Return: units.Celsius(60), Rate: 1, Efficiency: 0.875}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exponent", float64(got.Exponent), 0.8, 1e-3)
	near(t, "efficiency", float64(ok[units.Fraction](t)(got.Efficiency(units.Celsius(30), 1, Gross))), 0.955, 0.003)
}

func TestCalibrationStaysWithinBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Model{Approach: UsualApproach, Exponent: 1, Jacket: UsualJacket, LeastRate: 0.1, gas: drawGas(t)}
		var points []RatedPoint
		for range rapid.IntRange(1, 4).Draw(t, "points") {
			points = append(points, RatedPoint{
				Return:     units.Celsius(rapid.Float64Range(20, 80).Draw(t, "return")),
				Rate:       units.Fraction(rapid.Float64Range(0.1, 1).Draw(t, "rate")),
				Efficiency: units.Fraction(rapid.Float64Range(0.6, 1.1).Draw(t, "efficiency")),
			})
		}
		got, fit, err := m.Calibrated(points)
		if err == nil && (got.check() != nil || fit.Worst > doubtfulFit) {
			t.Fatalf("%+v %v", fit, got.check())
		}
		if math.IsNaN(float64(fit.Mean)) {
			t.Fatal("no number")
		}
	})
}

func TestBadBoilersAreRefused(t *testing.T) {
	m := model(t, true)
	_, _, err := m.Calibrated(nil)
	refused(t, "no points", err, "0 points")
	_, _, err = m.Calibrated([]RatedPoint{{Return: units.Celsius(30), Rate: 1, Efficiency: 1.08}})
	refused(t, "net as gross", err, "108%|gross or net")
	_, _, err = m.Calibrated([]RatedPoint{{Return: units.Celsius(30), Rate: 0.01, Efficiency: 0.9}})
	refused(t, "rate", err, "point 1|firing rate|10%")
	_, err = m.Efficiency(units.Celsius(200), 1, Gross)
	refused(t, "return", err, "return temperature|200.0 °C (392 °F)|110")
	_, err = m.Efficiency(units.Celsius(40), units.Fraction(math.NaN()), Gross)
	refused(t, "no rate", err, "no number")
	_, err = Model{}.Efficiency(units.Celsius(40), 1, Gross)
	refused(t, "no fuel", err, "no fuel")
	_, err = NewModel(fuel(t, "methane"), 0.2, CellarAir(), true, 0)
	refused(t, "least rate", err, "least firing rate")
	exit := ok[units.Temperature](t)(m.ExitGas(units.Celsius(40), 0.5))
	near(t, "exit gas", exit.Celsius(), 44, 1e-9)
}

func BenchmarkEfficiency(b *testing.B) {
	m := model(b, true)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := m.Efficiency(units.Celsius(30+float64(i&31)), 0.4, Gross); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCalibrated(b *testing.B) {
	m := model(b, true)
	points := []RatedPoint{{units.Celsius(30), 1, 0.955, Gross}, {units.Celsius(60), 1, 0.875, Gross}, {units.Celsius(30), 0.3, 0.975, Gross}}
	for b.Loop() {
		if _, _, err := m.Calibrated(points); err != nil {
			b.Fatal(err)
		}
	}
}
