package settings_test

import (
	"math"
	"testing"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

const foundHouse = "curvewright: 1\njob: x\nsite: {design_outdoor: -6 °F}\nhouse: {floor_area: \"1,500 ft²\", load: \"30,000 Btu/h\", setpoint: 70 °F}\n" +
	"circuits: [{name: A, emitters: [{sized: {like: fin-tube}}]}]\n"

// TestCurvesAsFound reads each way of saying what made the supply.
func TestCurvesAsFound(t *testing.T) {
	for _, c := range []struct {
		curve          string
		outdoor, wants float64 // °F
	}{
		{"cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 120 °F", 30, 150},
		{"cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 120 °F, max_supply: 140 °F", 30, 140},
		{"cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 120 °F, min_supply: 130 °F", 60, 130},
		{"cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 120 °F, exponent: 2", 45, 120 + 60*0.5}, // (15/60)^(1/2)
		{"slope: 1.5, shift: 9 °F", 30, 70 + 9 + 60},
		{"held: 160 °F", -10, 160},
		{"held: 160 °F", 60, 160},
		{"preset: radiators", 14, 167},
		{"preset: floor", 14, 113},
		{"points: [{outdoor: 0 °F, supply: 170 °F}, {outdoor: 60 °F, supply: 110 °F}]", 30, 140},
	} {
		j, err := job.Read([]byte(foundHouse + "as_found: {curves: [{" + c.curve + "}]}\n"))
		if err != nil {
			t.Fatalf("%s: %v", c.curve, err)
		}
		p, err := settings.Prepare(j, settings.Options{})
		if err != nil {
			t.Fatal(err)
		}
		got, known := p.Found.Curve("A")
		if at := got.At(units.Fahrenheit(c.outdoor)).Fahrenheit(); !known || math.Abs(at-c.wants) > 1e-6 {
			t.Errorf("%s: %.2f °F at %g °F, not %g °F", c.curve, at, c.outdoor, c.wants)
		}
	}
}

// TestWhatNobodyFoundIsNotKnown keeps jobs without such words as they were.
func TestWhatNobodyFoundIsNotKnown(t *testing.T) {
	j, err := job.Read([]byte(foundHouse))
	if err != nil {
		t.Fatal(err)
	}
	p, err := settings.Prepare(j, settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if _, known := p.Found.Curve("A"); known || p.Found.CutOff != 0 || len(p.Found.Program.Warm) != 0 {
		t.Errorf("something was found where nothing was said: %+v", p.Found)
	}
}
