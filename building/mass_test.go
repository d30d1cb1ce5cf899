package building

import (
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func TestTimeConstant(t *testing.T) { // τ = C/H, ISO 13790
	for _, c := range []struct{ mj, h, hours float64 }{{16.5, 200, 22.92}, {26, 200, 36.11}, {11, 150, 20.37}, {37, 100, 102.78}} {
		got := ok[units.Time](t)(TimeConstant(HeatCapacity(c.mj*1e6), Loss{Outdoor: units.LossCoefficient(c.h)}))
		near(t, "hours", float64(got/units.Hours(1)), c.hours, 0.01)
	}
	for class, perArea := range map[MassClass]float64{VeryLight: 80e3, Light: 110e3, Medium: 165e3, Heavy: 260e3, VeryHeavy: 370e3} {
		near(t, string(class), float64(ok[HeatCapacity](t)(Capacity(class, 100))), perArea*100, 0)
	}
	if _, err := Capacity("stone", 100); err == nil {
		t.Error("an unknown class is accepted")
	}
	if HeatCapacity(16.5e6).Text(units.SI) != "16.5\u00a0MJ/K" || HeatCapacity(16.5e6).Text(units.US) != "8688\u00a0Btu/°F" {
		t.Errorf("prints %s and %s", HeatCapacity(16.5e6).Text(units.SI), HeatCapacity(16.5e6).Text(units.US))
	}
}

func TestCoolingAndReheat(t *testing.T) { // exponential solution, one capacity
	l := Loss{Outdoor: 200}
	for _, c := range []struct{ constant, outdoor, gains, want float64 }{
		{22.92, 0, 0, 14.11}, {36.11, 0, 0, 16.03}, {102.78, 0, 0, 18.50}, {22.92, -10, 400, 11.75},
	} {
		got := ok[units.Temperature](t)(FreeCooling(l, units.Hours(c.constant), units.Celsius(20), units.Celsius(c.outdoor), units.Power(c.gains), units.Hours(8)))
		near(t, "after 8 h", got.Celsius(), c.want, 0.01)
	}
	got := ok[units.Time](t)(Reheat(l, units.Hours(22.92), units.Celsius(16), units.Celsius(20), units.Celsius(0), 6000))
	near(t, "reheat hours", float64(got/units.Hours(1)), 7.71, 0.01)

	_, err := Reheat(l, units.Hours(22.92), units.Celsius(16), units.Celsius(20), units.Celsius(0), 4000)
	if err == nil || !strings.Contains(err.Error(), "20.0\u00a0°C") {
		t.Errorf("a heat that just holds the target: %v", err)
	}
	if got := ok[units.Time](t)(Reheat(l, units.Hours(20), units.Celsius(20), units.Celsius(18), units.Celsius(0), 0)); got != 0 {
		t.Errorf("a target below the start takes %v", got)
	}
	if _, err := FreeCooling(l, 0, units.Celsius(20), units.Celsius(0), 0, units.Hours(8)); err == nil {
		t.Error("a time constant of zero is accepted")
	}
}

func TestReheatUndoesCooling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLoss(t, "l")
		l.Outdoor += 20
		constant := units.Hours(rapid.Float64Range(5, 200).Draw(t, "constant"))
		start := units.Celsius(rapid.Float64Range(5, 18).Draw(t, "start"))
		heat := l.At(units.Celsius(25), units.Celsius(-10))
		if heat < 0 {
			t.Skip("the surroundings hold the room")
		}
		took, err := Reheat(l, constant, start, units.Celsius(20), units.Celsius(-10), heat)
		if err != nil {
			t.Fatal(err)
		}
		back, err := FreeCooling(l, constant, start, units.Celsius(-10), heat, took)
		if err != nil {
			t.Fatal(err)
		}
		if d := back.Sub(units.Celsius(20)); d > 1e-6 || d < -1e-6 {
			t.Fatalf("after the reheat time the room is %v off", d)
		}
	})
}
