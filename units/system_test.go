package units

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A unit chosen for a quantity is that in which it is printed, and no other quantity
// changes.
func TestAUnitChosenForAQuantityIsPrinted(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		unit string
		of   func(System) string
		want string
	}{
		{Temperatures, "°F", Celsius(20).Text, "68 °F"},
		{Temperatures, "°C", Celsius(20).Text, "20.0 °C"},
		{Temperatures, "°F", Kelvins(10).Text, "18 °F"},
		{Temperatures, "°C", Kelvins(10).Text, "10 K"},
		{Temperatures, "°F", KelvinDays(4000).Text, "7,200 °F·d"},
		{Powers, "Btu/h", Power(11137).Text, "38,000 Btu/h"},
		{Powers, "MBH", Power(11137).Text, "38 MBH"},
		{Powers, "kW", Power(350).Text, "0.35 kW"},
		{Powers, "W", Power(11137).Text, "11,100 W"},
		{Losses, "Btu/h·°F", LossCoefficient(180).Text, "341 Btu/h·°F"},
		{Transmittances, "W/m²K", Transmittance(0.35).Text, "0.35 W/m²K"},
		{Transmittances, "Btu/h·ft²·°F", Conductivity(1.2).Text, "0.693 Btu/h·ft·°F"},
		{Resistances, "R-", Resistance(2.2894).Text, "R-13"},
		{Resistances, "RSI", Resistance(2.3).Text, "RSI 2.3"},
		{Fluxes, "Btu/h·ft²", Flux(60).Text, "19 Btu/h·ft²"},
		{LinearPowers, "W/m", LinearPower(540).Text, "540 W/m"},
		{Energies, "therm", Therms(900).Text, "900 therm"},
		{Energies, "MWh", KilowattHours(14000).Text, "14 MWh"},
		{Energies, "GJ", KilowattHours(14000).Text, "50.4 GJ"},
		{Energies, "GJ", KilowattHours(2).HeatText, "7.2 MJ"},
		{Energies, "therm", KilowattHours(2).HeatText, "6,824 Btu"},
		{HeatingValues, "kWh/m³", HeatingValue(38.6e6).Text, "10.72 kWh/m³"},
		{Flows, "gpm", LitresPerMinute(5).Text, "1.32 gpm"},
		{Flows, "L/min", LitresPerMinute(5).Text, "5 L/min"},
		{Flows, "L/h", LitresPerMinute(5).Text, "300 L/h"},
		{Flows, "m³/h", LitresPerMinute(5).Text, "0.3 m³/h"},
		{Heads, "ft", FeetOfWater(8).HeadText, "8 ft w.c."},
		{Heads, "m", FeetOfWater(10).HeadText, "3.05 m w.c."},
		{Heads, "kPa", Pressure(25000).HeadText, "25 kPa"},
		{Heads, "mbar", Pressure(25000).HeadText, "250 mbar"},
		{Pressures, "psi", PSI(18).Text, "18.0 psi"},
		{Pressures, "kPa", Bar(1.2).Text, "120 kPa"},
		{PipeDrops, "mbar/m", PressureGradient(150).Text, "1.5 mbar/m"},
		{Velocities, "ft/s", FeetPerSecond(2.5).Text, "2.5 ft/s"},
		{Valves, "Cv", Cv(3).Text, "Cv 3"},
		{Pipes, "in", Inches(0.75).Text, "0.75 in"},
		{Pipes, "cm", Length(0.15).Text, "15 cm"},
		{Pipes, "mm", Length(0.015).Text, "15 mm"},
		{Lengths, "ft", Feet(12).Text, "12 ft"},
		{Lengths, "m", Length(3).Text, "3 m"},
		{Areas, "ft²", SquareFeet(1850).Text, "1,850 ft²"},
		{Spaces, "m³", Volume(400).Text, "400 m³"},
		{Waters, "gal", Gallons(40).WaterText, "40 gal"},
		{Waters, "L", Litres(200).WaterText, "200 L"},
		{Hardnesses, "°fH", GermanDegrees(5.6).Text, "10 °fH"},
	} {
		for _, family := range []System{SI, US} {
			s, err := family.With(c.kind, c.unit)
			if err != nil {
				t.Fatalf("%s %s: %v", c.kind.Word(), c.unit, err)
			}
			if got := spaces(c.of(s)); got != c.want {
				t.Errorf("%s in %s: %q, want %q", c.kind.Word(), c.unit, got, c.want)
			}
			for _, k := range Kinds() {
				if k != c.kind && s.In(k) != family {
					t.Errorf("%s in %s changes %s", c.kind.Word(), c.unit, k.Word())
				}
			}
		}
	}
}

// Every unit that can be chosen is known to the quantities of its kind, and stands in the
// unit that is said.
func TestEveryUnitToChooseIsOneOfItsQuantities(t *testing.T) {
	for _, kind := range kinds {
		d := kind.dim
		if d.kind == noKind || d == lengthDimension {
			continue
		}
		if len(d.chosen) != len(kindChoices[d.kind]) {
			t.Errorf("%s has %d ladders for %d units", d.name, len(d.chosen), len(kindChoices[d.kind]))
		}
		for i, ladder := range d.chosen {
			for _, r := range ladder {
				if _, known := d.lookup[foldUnit(r.unit)]; !known {
					t.Errorf("%s does not know %q, choice %d", d.name, r.unit, i)
				}
			}
		}
	}
	for _, k := range Kinds() {
		if n := len(k.Units()); n < 2 || n > maskOfKind {
			t.Errorf("%s has %d units to choose from", k.Word(), n)
		}
	}
	if last := (lastKind - 1).shift() + bitsOfKind; last > 64 {
		t.Errorf("the choices take %d bits", last)
	}
}

func TestASystemsWordReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := system(t)
		back, err := SystemNamed(s.Word())
		if err != nil || back != s {
			t.Fatalf("%s reads back as %s, %v", s.Word(), back.Word(), err)
		}
		if s.On(US).On(SI) != s.On(SI) || s.Family() != s&1 {
			t.Fatalf("%s does not keep its choices on another family", s.Word())
		}
	})
}

func TestAnUnknownUnitIsRefusedWithoutLosingTheOthers(t *testing.T) {
	s, err := SystemNamed("si;flow=gpm;head=furlong;colour=red;pipe=in")
	if err == nil || !strings.Contains(err.Error(), "furlong") || !strings.Contains(err.Error(), "accepted: ft, m, kPa, mbar") {
		t.Errorf("error %v", err)
	}
	if s.Chosen(Flows) != "gpm" || s.Chosen(Pipes) != "in" || s.Chosen(Heads) != "" || s.Family() != SI {
		t.Errorf("kept %s", s.Word())
	}
	for _, word := range []string{"", "imperial", "us,flow=gpm", "SI"} {
		if _, err := SystemNamed(word); err == nil {
			t.Errorf("%q is read", word)
		}
	}
	if _, err := US.With(Flows, "furlong"); err == nil {
		t.Error("a flow in furlongs")
	}
	if _, err := KindNamed(""); err == nil {
		t.Error("a quantity without a name")
	}
	if slices.Contains(kindWords[1:], "") {
		t.Error("a quantity without a word")
	}
}

func TestScalesAreInTheReadersUnit(t *testing.T) {
	mixed, _ := SI.With(Powers, "MBH")
	if size, name := UnitFor(Power(1e4), mixed); name != "MBH" || !near(float64(size), 293.0711, 1e-5) {
		t.Errorf("%v %s", float64(size), name)
	}
	if size, name := UnitFor(Power(1e4), SI); name != "kW" || size != 1000 {
		t.Errorf("%v %s", float64(size), name)
	}
}
