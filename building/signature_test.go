package building

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func TestDegreeDayEnergy(t *testing.T) { // definition of degree-days; Buffalo, ASHRAE Handbook 2013
	got := ok[units.Energy](t)(FuelForLoss(200, units.KelvinDays(3616), 1, 0))
	near(t, "kWh", float64(got/units.KilowattHours(1)), 17357, 0.5)
}

func TestBillsGiveBackTheHouse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := units.LossCoefficient(rapid.Float64Range(40, 800).Draw(t, "H"))
		days := units.KelvinDays(rapid.Float64Range(1500, 7000).Draw(t, "days"))
		η := units.Fraction(rapid.Float64Range(0.6, 0.98).Draw(t, "efficiency"))
		base := units.KilowattHours(rapid.Float64Range(0, 2000).Draw(t, "baseload"))
		fuel, err := FuelForLoss(h, days, η, base)
		if err != nil {
			t.Fatal(err)
		}
		if base > fuel*9/10 {
			t.Skip("no heating to speak of")
		}
		s, err := Bills{Fuel: fuel, BaseLoad: base, Efficiency: η, DegreeDays: days, Base: units.Fahrenheit(65)}.Signature()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(s.Loss.Outdoor/h)-1) > 1e-9 {
			t.Fatalf("%v comes back as %v", h, s.Loss.Outdoor)
		}
	})
}

// TestBillsAtTheHousesOwnBalance: fuel reckoned with the degree-days to the house's own
// balance gives the house back, whatever base the year's degree-days were told in. Those of
// the place fall with the square of the distance here, as they roughly do.
func TestBillsAtTheHousesOwnBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := func(base units.Temperature) units.DegreeDays {
			return units.KelvinDays(6 * math.Pow(max(0, base.Celsius()+10), 2))
		}
		h := units.LossCoefficient(rapid.Float64Range(60, 800).Draw(t, "H"))
		room := units.Celsius(rapid.Float64Range(16, 24).Draw(t, "room"))
		gains := units.Power(float64(h) * rapid.Float64Range(0, 9).Draw(t, "kelvins that the gains carry"))
		colder := rapid.Float64Range(0.8, 1.2).Draw(t, "that year against the place")
		own := Loss{Outdoor: h}.BalanceOutdoor(room, gains)
		fuel, err := FuelForLoss(h, place(own)*units.DegreeDays(colder), 0.85, 0)
		if err != nil {
			t.Fatal(err)
		}
		base := units.Celsius(rapid.Float64Range(12, 20).Draw(t, "base"))
		b := Bills{Fuel: fuel, Efficiency: 0.85, DegreeDays: place(base) * units.DegreeDays(colder), Base: base}
		s, err := b.AtOwnBalance(room, gains, place)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(s.Loss.Outdoor/h)-1) > 1e-6 || math.Abs(float64(s.Base-own)) > 1e-4 {
			t.Fatalf("%v with a balance of %v comes back as %v with %v", h, own, s.Loss.Outdoor, s.Base)
		}
		if plain, err := b.Signature(); err != nil || own < base-0.01 && plain.Loss.Outdoor >= s.Loss.Outdoor {
			t.Fatalf("a balance of %v below the base of %v does not make the loss larger: %v, %v", own, base, plain.Loss.Outdoor, err)
		}
	})
	if _, err := (Bills{Fuel: units.KilowattHours(20000), Efficiency: 0.85, DegreeDays: units.KelvinDays(3600), Base: units.Celsius(18)}).AtOwnBalance(
		units.Celsius(21), 500, func(units.Temperature) units.DegreeDays { return 0 }); err == nil {
		t.Error("a place that is never cold is accepted")
	}
}

func TestSignatureOfAHouse(t *testing.T) {
	gas := ok[Fuel](t)(FuelByKey("gas-therm"))
	fuel := ok[units.Energy](t)(gas.Energy(900))
	water := ok[units.Energy](t)(HotWaterFuel(3, 0.6))
	near(t, "hot water kWh", float64(water/units.KilowattHours(1)), 4562.5, 0.1)
	s := ok[Signature](t)(Bills{Fuel: fuel, BaseLoad: water, Efficiency: 0.85, DegreeDays: units.KelvinDays(3616), Base: units.Fahrenheit(65)}.Signature())
	near(t, "W/K", float64(s.Loss.Outdoor), (900*29.3071-4562.5)*0.85/(3616*24)*1000, 0.1)

	// Combined in quadrature from the five inputs, GUM.
	share := 4562.5 / (900*29.3071 - 4562.5)
	want := math.Sqrt(math.Pow(0.03*(1+share), 2) + math.Pow(0.3*share, 2) + 0.06*0.06 + 0.04*0.04 + 0.1*0.1)
	near(t, "relative error", float64(s.Error), want, 1e-4)

	load, low, high, err := s.DesignLoad(units.Fahrenheit(70), units.Fahrenheit(5))
	if err != nil {
		t.Fatal(err)
	}
	if !(low < load && load < high) {
		t.Errorf("load %v outside its band %v to %v", load, low, high)
	}
}

func TestBadBillsAreRefusedInWords(t *testing.T) {
	good := Bills{Fuel: units.Therms(900), Efficiency: 0.85, DegreeDays: units.KelvinDays(3616), Base: units.Fahrenheit(65)}
	cases := []struct {
		words string
		spoil func(*Bills)
	}{
		{"hot water and cooking", func(b *Bills) { b.BaseLoad = b.Fuel }},
		{"seasonal efficiency", func(b *Bills) { b.Efficiency = 85 }},
		{"base of the degree-days", func(b *Bills) { b.Base = 0 }},
		{"degree-days", func(b *Bills) { b.DegreeDays = 0 }},
		{"year's fuel", func(b *Bills) { b.Fuel = units.Energy(math.NaN()) }},
		{"relative error", func(b *Bills) { b.Doubts.Weather = -1 }},
		{"check the units", func(b *Bills) { b.Fuel, b.DegreeDays = units.KilowattHours(101), units.KelvinDays(11000) }},
	}
	for _, c := range cases {
		b := good
		c.spoil(&b)
		if _, err := b.Signature(); err == nil || !strings.Contains(err.Error(), c.words) {
			t.Errorf("error %v does not say %q", err, c.words)
		}
	}
}

func TestFuels(t *testing.T) {
	for _, f := range Fuels() {
		if f.Gross <= 0 || f.Source == "" {
			t.Errorf("%s has no heat content or source", f.Key)
		}
	}
	oil, litre := ok[Fuel](t)(FuelByKey("oil-gal")), ok[Fuel](t)(FuelByKey("oil-L"))
	near(t, "litres in a gallon", float64(oil.Gross/litre.Gross), 3.785411784, 1e-9)
	near(t, "MJ per litre of oil", float64(litre.Gross)/1e6, 38.6, 0.1) // from memory
	if _, err := FuelByKey("coal"); err == nil || !strings.Contains(err.Error(), "gas-therm") {
		t.Errorf("error %v does not list the fuels", err)
	}
	if _, err := oil.Energy(-1); err == nil {
		t.Error("a negative amount is accepted")
	}
}
