package followup

import (
	"math"
	"testing"

	"curvewright/curve"
	"curvewright/trial"
	"curvewright/units"
)

// A bent curve is read where the weather was, not as the line through it.
func TestReadsABentCurve(t *testing.T) {
	for _, exponent := range []float64{1.3, 1.6, 2.2} {
		readsBent(t, exponent)
	}
}

func readsBent(t *testing.T, exponent float64) {
	t.Helper()
	var set curve.Setting
	s := play(t, 4, wish{days: 60, first: 30, edit: func(t *trial.Trial) {
		c := &t.Settings[0].Circuits[0].Curve
		set = curve.Setting{Kind: curve.Bent, Exponent: exponent, Cold: curve.Point{Outdoor: units.Celsius(-22), Supply: units.Celsius(70)},
			Mild: curve.Point{Outdoor: units.Celsius(18), Supply: units.Celsius(24)}, Limit: c.Limit}
		*c = set
	}})
	p := planOf(t, s.job)
	c := readCurve(newFrame(take(t, s.csv), householdOf(p, s.job)), p.Sheet.Circuits[0].Setpoint, "", p.Differential)
	if !c.Slope.Known || c.Highest.Known || exponent > 2 && c.bend >= 0 {
		t.Errorf("exponent %.1f: slope %v, bend %.4f, highest %v", exponent, c.Slope, c.bend, c.Highest)
	}
	for _, out := range []float64{-12, -5, 0, 5} {
		if got, want := c.supplyAt(zero+out)-zero, set.At(units.Celsius(out)).Celsius(); math.Abs(got-want) > 1.5 {
			t.Errorf("exponent %.1f: at %.0f °C: %.1f °C, set %.1f °C", exponent, out, got, want)
		}
	}
}
