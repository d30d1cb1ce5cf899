package boiler

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, tolerance)
	}
}

func ok[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// refused wants an error with all the words, parted by bars.
func refused(t *testing.T, what string, err error, words string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s is accepted", what)
		return
	}
	for _, w := range strings.Split(words, "|") {
		if !strings.Contains(strings.ReplaceAll(err.Error(), "\u00a0", " "), w) {
			t.Errorf("%s: error %q does not say %q", what, err, w)
		}
	}
}

func fuel(t testing.TB, key string) Fuel {
	t.Helper()
	return ok[Fuel](t)(FuelByKey(key))
}

func dryAir(celsius float64) Air { return Air{Temperature: units.Celsius(celsius)} }

// drawFuel draws a fuel of the list or a gas of its own.
func drawFuel(t *rapid.T) Fuel {
	list := Fuels()
	if i := rapid.IntRange(0, len(list)).Draw(t, "fuel"); i < len(list) {
		return list[i]
	}
	parts := []Part{{Methane, 0}, {Ethane, 0}, {Propane, 0}, {Butane, 0}, {Hydrogen, 0}, {Nitrogen, 0}, {CarbonDioxide, 0}}
	sum := units.Fraction(0)
	for i := range parts {
		top := 1.0
		if m, _ := parts[i].Component.molecule(); m.gross == 0 {
			top = 0.3
		}
		parts[i].Share = units.Fraction(rapid.Float64Range(0.01, top).Draw(t, string(parts[i].Component)))
		sum += parts[i].Share
	}
	for i := range parts {
		parts[i].Share /= sum
	}
	f, err := GasOf("drawn gas", parts...)
	if err != nil {
		t.Skip(err)
	}
	return f
}

func drawAir(t *rapid.T) Air {
	return Air{
		Temperature: units.Celsius(rapid.Float64Range(-40, 40).Draw(t, "air")),
		Humidity:    units.Fraction(rapid.Float64Range(0, 1).Draw(t, "humidity")),
		Altitude:    units.Length(rapid.Float64Range(-100, 4000).Draw(t, "altitude")),
	}
}

func drawGas(t *rapid.T) FlueGas {
	f := drawFuel(t)
	g, err := f.Burn(units.Fraction(rapid.Float64Range(0, 4).Draw(t, "excess")), drawAir(t))
	if err != nil {
		t.Fatal(err)
	}
	return g
}
