package curve_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/curve"
	"curvewright/units"
)

var celsius = units.Step{System: units.SI, Size: 0.5}

func between(low, high float64) curve.Span[units.Temperature] {
	return curve.Span[units.Temperature]{From: units.Celsius(low), To: units.Celsius(high)}
}

func shapes() map[string]curve.Shape {
	points := curve.Shape{Step: celsius, ColdOutdoor: between(-30, 0), MildOutdoor: between(10, 20.2),
		ColdSupply: between(20.3, 70), MildSupply: between(15, 40), Exponent: curve.Grid{From: 1, To: 2, Step: 0.1}, Limit: between(20, 70)}
	bent, table := points, points
	bent.Kind, table.Kind, table.Points, table.ColdOutdoor = curve.Bent, curve.Table, 4, between(-30, 20)
	return map[string]curve.Shape{"two points": points, "bent": bent, "table": table, "slope and shift": {Kind: curve.SlopeShift, Step: celsius,
		Slope: curve.Grid{From: 0.2, To: 3.5, Step: 0.1}, Shift: curve.Grid{From: -10, To: 10, Step: 1}, Limit: between(20, 70)}}
}

// What a control holds already, it holds unchanged; and what it is given it brings into
// its ranges.
func TestSnappingTwiceIsSnappingOnce(t *testing.T) {
	for name, shape := range shapes() {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				temperature := rapid.Float64Range(-60, 150)
				point := func(label string) curve.Point {
					return curve.Point{Outdoor: units.Celsius(temperature.Draw(rt, label)), Supply: units.Celsius(temperature.Draw(rt, label))}
				}
				given := curve.Setting{Cold: point("cold"), Mild: point("mild"), Exponent: temperature.Draw(rt, "exponent"),
					Slope: temperature.Draw(rt, "slope"), Shift: units.Kelvins(temperature.Draw(rt, "shift")), Room: units.Celsius(20), Limit: shape.Limit}
				for range 4 {
					given.Points = append(given.Points, point("point"))
				}
				once, err := shape.Snap(given)
				if err != nil {
					if shape.Kind != curve.Table || !strings.Contains(err.Error(), "milder than") {
						rt.Fatal(err)
					}
					return
				}
				twice, err := shape.Snap(once)
				if err != nil {
					rt.Fatal(err)
				}
				for _, to := range outdoors(-30, 20, 2.5) {
					if a, b := once.At(to), twice.At(to); math.Abs(float64(a-b)) > 1e-6 {
						rt.Fatalf("at %v: %v, then %v", to, a, b)
					}
					if at := once.At(to); at < shape.Limit.From || at > shape.Limit.To {
						rt.Fatalf("at %v: %v is beyond the limits", to, at)
					}
				}
				if once.Kind != shape.Kind {
					rt.Fatalf("another kind of curve: %v", once.Kind)
				}
				if s := shape.ColdSupply; shape.Kind == curve.TwoPoints && (once.Cold.Supply < s.From || once.Cold.Supply > s.To) {
					rt.Fatalf("cold supply %v is out of its range", once.Cold.Supply)
				}
			})
		})
	}
}

func TestFiguresThatMakeNoCurveAreRefused(t *testing.T) {
	s := shapes()
	cold, mild := curve.Point{Outdoor: units.Celsius(-10), Supply: units.Celsius(50)}, curve.Point{Outdoor: units.Celsius(15), Supply: units.Celsius(25)}
	none := curve.Point{Outdoor: units.Temperature(math.NaN()), Supply: units.Celsius(25)}
	for _, c := range []struct {
		shape string
		set   curve.Setting
		want  string
	}{
		{"two points", curve.Setting{Cold: none, Mild: mild}, "needs an outdoor temperature"},
		{"bent", curve.Setting{Cold: cold, Mild: mild, Exponent: math.Inf(1)}, "exponent"},
		{"slope and shift", curve.Setting{Slope: math.NaN()}, "numbers"},
		{"table", curve.Setting{Points: []curve.Point{cold, mild}}, "the control's table has 4"},
		{"table", curve.Setting{Points: []curve.Point{cold, mild, cold, mild}}, "milder than the one before"},
	} {
		if _, err := s[c.shape].Snap(c.set); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.shape, err, c.want)
		}
	}
}
