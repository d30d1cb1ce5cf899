package boiler

import (
	"math"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

// Ideal condensing limit of methane, gross basis, 25 °C, no jacket loss, dry air at
// 25 °C, worked by hand from element and energy balance.
func TestCondensingLimitOfMethane(t *testing.T) {
	exits := []float64{30, 35, 40, 45, 50, 55, 60, 70, 80}
	for _, c := range []struct {
		excess    units.Fraction
		gross     []float64
		condensed []float64
	}{
		{0.2, []float64{97.5, 96.5, 95.2, 93.7, 91.7, 89.2, 88.6, 88.2, 87.8}, []float64{77, 69, 59, 45, 27, 4, 0, 0, 0}},
		{0.3, []float64{97.3, 96.2, 94.8, 93.1, 91.0, 88.7, 88.5, 88.0, 87.6}, nil},
	} {
		g := ok[FlueGas](t)(fuel(t, "methane").Burn(c.excess, dryAir(25)))
		for i, exit := range exits {
			b := ok[Balance](t)(g.Leaving(units.Celsius(exit)))
			near(t, "gross efficiency", 100*float64(b.Gross), c.gross[i], 0.06)
			if c.condensed != nil {
				near(t, "condensed", 100*float64(b.Condensed), c.condensed[i], 0.5)
			}
		}
	}
}

func TestCondensateOfMethane(t *testing.T) {
	g := ok[FlueGas](t)(fuel(t, "methane").Burn(0, dryAir(25)))
	b := ok[Balance](t)(g.Leaving(units.Celsius(5)))
	all := ok[units.MassFlow](t)(b.Condensate(1000))
	// 2 · 18.015 g for 890.63 kJ
	near(t, "kg for a kWh, all of it", float64(all)*3600/float64(b.Condensed), 0.14564, 1e-4)
	_, err := b.Condensate(-1)
	refused(t, "negative input", err, "firing rate")
}

func TestHeatIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGas(t)
		at := units.Celsius(rapid.Float64Range(5, 400).Draw(t, "exit"))
		b, err := g.Leaving(at)
		if err != nil {
			t.Fatal(err)
		}
		if d := float64(b.Gross + b.Sensible + b.Latent - 1 - b.FromAir); math.Abs(d) > 1e-12 {
			t.Fatalf("%v of the heat is lost", d)
		}
		all := (g.water + g.moisture) * latentMolar / g.Fuel.gross
		if math.Abs(float64(b.Latent+b.LatentGain)-all) > 1e-12 {
			t.Fatalf("latent heat %v + %v, want %v", b.Latent, b.LatentGain, all)
		}
		if math.Abs(float64(b.Net)/float64(b.Gross)-float64(g.Fuel.GrossToNet())) > 1e-9 {
			t.Fatalf("net %v of gross %v", b.Net, b.Gross)
		}
		if b.Condensing != (at < g.DewPoint && b.Condensed > 0) || b.Condensed < 0 || b.Condensed > 1 {
			t.Fatalf("condensing %v, %v at %v with dew point %v", b.Condensing, b.Condensed, at, g.DewPoint)
		}
		hotter, err := g.Leaving(at + 1)
		if err == nil && hotter.Gross >= b.Gross {
			t.Fatalf("efficiency rises from %v to %v with hotter gas", b.Gross, hotter.Gross)
		}
	})
}

// Formula and balance are two ways to one loss above the dew point.
func TestBalanceAgreesWithSiegert(t *testing.T) {
	for _, key := range []string{"natural-gas", "propane", "oil"} {
		f := fuel(t, key)
		for _, gas := range []float64{70, 120, 180, 240} {
			for _, oxygen := range []units.Fraction{0.02, 0.04, 0.07} {
				e := ok[units.Fraction](t)(f.ExcessFromOxygen(oxygen))
				g := ok[FlueGas](t)(f.Burn(e, dryAir(20)))
				b := ok[Balance](t)(g.Leaving(units.Celsius(gas)))
				s := ok[units.Fraction](t)(f.Siegert.LossByOxygen(units.Celsius(gas), units.Celsius(20), oxygen))
				near(t, key, 1-float64(b.Net), float64(s), 0.05*float64(s))
			}
		}
	}
}

func TestSiegertFormsAgree(t *testing.T) { // 1. BImSchV, annex 2, from memory
	for _, c := range []struct {
		fuel             string
		byOxygen, byCO2  float64
		oxygen, expected float64
	}{
		{"natural-gas", 4.78, 4.74, 0.04, 9.63},
		{"propane", 4.51, 4.53, 0.04, 11.25},
		{"oil", 4.70, 4.71, 0.04, 12.47},
	} {
		s := fuel(t, c.fuel).Siegert
		a := ok[units.Fraction](t)(s.LossByOxygen(units.Celsius(120), units.Celsius(20), units.Fraction(c.oxygen)))
		co2 := ok[units.Fraction](t)(s.CO2At(units.Fraction(c.oxygen)))
		b := ok[units.Fraction](t)(s.LossByCO2(units.Celsius(120), units.Celsius(20), co2))
		near(t, c.fuel+" by O2", 100*float64(a), c.byOxygen, 0.01)
		near(t, c.fuel+" by CO2", 100*float64(b), c.byCO2, 0.01)
		near(t, c.fuel+" CO2", 100*float64(co2), c.expected, 0.01)
	}
	for _, c := range []struct {
		output units.Power
		want   units.Fraction
	}{{4e3, 0.11}, {25e3, 0.11}, {25001, 0.10}, {50e3, 0.10}, {50001, 0.09}} {
		if got := ok[units.Fraction](t)(StackLossLimit(c.output)); got != c.want {
			t.Errorf("limit at %v is %v, want %v", c.output, got, c.want)
		}
	}
}

func TestStackLossIsRefusedWhereItDoesNotHold(t *testing.T) {
	s := fuel(t, "natural-gas").Siegert
	_, err := s.LossByOxygen(units.Celsius(50), units.Celsius(20), 0.04)
	refused(t, "condensing gas", err, "may condense|50.0 °C (122 °F)|heat balance")
	_, err = s.LossByOxygen(units.Celsius(120), units.Celsius(20), 0.209)
	refused(t, "plain air", err, "oxygen|20.9%|18%")
	_, err = s.LossByCO2(units.Celsius(120), units.Celsius(20), 0.15)
	refused(t, "too much CO2", err, "carbon dioxide")
	_, err = Siegert{}.LossByOxygen(units.Celsius(120), units.Celsius(20), 0.04)
	refused(t, "no coefficients", err, "no published coefficients")
	_, err = Siegert{}.CO2At(0.04)
	refused(t, "no coefficients", err, "no published coefficients")
	_, err = StackLossLimit(1000)
	refused(t, "small boiler", err, "rated output")
	_, err = FlueGas{Fuel: fuel(t, "methane")}.Leaving(units.Celsius(60))
	refused(t, "gas that was not burnt", err, "burn one first")
	g := ok[FlueGas](t)(fuel(t, "methane").Burn(0.2, CellarAir()))
	_, err = g.Leaving(units.Celsius(700))
	refused(t, "hot gas", err, "flue-gas temperature")
}

func BenchmarkBurn(b *testing.B) {
	f, air := fuel(b, "natural-gas"), CellarAir()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Burn(0.25, air); err != nil {
			b.Fatal(err)
		}
	}
}
