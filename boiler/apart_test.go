package boiler_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"curvewright/boiler"
	"curvewright/units"
)

// TestApartMeetsTheFormula: with much flow between them, boiler and emitters swing as one;
// with none to speak of, the boiler swings as if it were alone.
func TestApartMeetsTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := boiler.Cycling{Water: units.Litres(rapid.Float64Range(30, 200).Draw(t, "water")), At: units.Celsius(45), Least: units.Power(rapid.Float64Range(2000, 8000).Draw(t, "least")), Differential: 5}
		load := c.Least * units.Power(rapid.Float64Range(0.2, 0.8).Draw(t, "share"))
		whole, err := c.Under(load)
		if err != nil {
			t.Fatal(err)
		}
		together, err := c.Apart(c.Water/10, 20_000, load)
		if err != nil {
			t.Fatal(err)
		}
		// Eight hours hold few of the longest cycles.
		if each := float64(whole.On + whole.Off); each < 4000 && math.Abs(float64(together.On+together.Off)/each-1) > 0.25 {
			t.Fatalf("together %v, as one %v", together, whole)
		}
		apart, err := c.Apart(c.Water/10, units.LossCoefficient(float64(load)/20), load)
		if err != nil {
			t.Fatal(err)
		}
		if float64(apart.Starts) < 0.95*float64(together.Starts) {
			t.Fatalf("apart it starts less often: %v, together %v", apart.Starts, together.Starts)
		}
	})
}

func TestApartRefuses(t *testing.T) {
	c := boiler.Cycling{Water: units.Litres(50), At: units.Celsius(45), Least: 3000, Differential: 5}
	for name, f := range map[string]func() (boiler.Cycle, error){
		"no water at the boiler": func() (boiler.Cycle, error) { return c.Apart(0, 500, 1000) },
		"more than there is":     func() (boiler.Cycle, error) { return c.Apart(units.Litres(60), 500, 1000) },
		"no flow":                func() (boiler.Cycle, error) { return c.Apart(units.Litres(5), 0, 1000) },
		"a load of nothing":      func() (boiler.Cycle, error) { return c.Apart(units.Litres(5), 500, units.Power(math.NaN())) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	if cycle, err := c.Apart(units.Litres(5), 500, 4000); err != nil || !cycle.Continuous {
		t.Errorf("more load than the least output: %v, %v", cycle, err)
	}
}
