package units

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// kind is one type of the package, laid open for the tests that run over all.
type kind struct {
	name  string
	dim   *dimension
	parse func(string) (float64, error)
	text  func(float64, System) string
	exact func(float64) string
}

func of[T quantity](name string) kind {
	var zero T
	return kind{
		name:  name,
		dim:   zero.dimension(),
		parse: func(s string) (float64, error) { v, err := Parse[T](s); return float64(v), err },
		text:  func(v float64, s System) string { return T(v).Text(s) },
		exact: func(v float64) string { return Exact(T(v)) },
	}
}

var kinds = []kind{
	of[Temperature]("Temperature"), of[Difference]("Difference"), of[Power]("Power"), of[Energy]("Energy"),
	of[Length]("Length"), of[Area]("Area"), of[Volume]("Volume"), of[Flow]("Flow"), of[Pressure]("Pressure"),
	of[Transmittance]("Transmittance"), of[Resistance]("Resistance"), of[Conductivity]("Conductivity"),
	of[LossCoefficient]("LossCoefficient"), of[Flux]("Flux"), of[LinearPower]("LinearPower"),
	of[AirChange]("AirChange"), of[DegreeDays]("DegreeDays"), of[Time]("Time"), of[Fraction]("Fraction"),
	of[RadiatorArea]("RadiatorArea"), of[Number]("Number"), of[Density]("Density"), of[SpecificHeat]("SpecificHeat"),
	of[HeatingValue]("HeatingValue"), of[SpecificEnergy]("SpecificEnergy"), of[MassFlow]("MassFlow"), of[Frequency]("Frequency"), of[Concentration]("Concentration"),
	of[VolumetricHeat]("VolumetricHeat"), of[Viscosity]("Viscosity"), of[KinematicViscosity]("KinematicViscosity"), of[ElectricResistance]("ElectricResistance"),
	of[FlowCoefficient]("FlowCoefficient"), of[Velocity]("Velocity"), of[PressureGradient]("PressureGradient"),
	of[Hardness]("Hardness"), of[ElectricalConductivity]("ElectricalConductivity"),
}

func near(a, b, rel float64) bool { return math.Abs(a-b) <= rel*math.Max(math.Abs(a), math.Abs(b)) }

// spaces makes the no-break space of printed text readable in a table.
func spaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestEverySpellingIsRead(t *testing.T) {
	for _, k := range kinds {
		for i, u := range k.dim.units {
			for _, spelling := range append([]string{u.name}, u.spellings...) {
				for _, form := range []string{"0.01 " + spelling, "0.01" + spelling, "0.01 " + strings.ToUpper(spelling), "0.01 " + strings.ReplaceAll(spelling, "·", "-")} {
					if len(form) > 4 && form[4] >= '0' && form[4] <= '9' {
						continue // "0.01" and "1/h" run together
					}
					if u.prefix {
						form = strings.TrimSuffix(spelling, "-") + "-0.01"
					}
					got, err := k.parse(form)
					if want := u.from(0.01); err != nil || !near(got, want, 1e-14) {
						t.Errorf("%s %q: %v (%v), want %v", k.name, form, got, err, want)
					}
				}
				if at := k.dim.lookup[foldUnit(spelling)]; at != i {
					t.Errorf("%s: %q belongs to both %s and %s", k.name, spelling, u.name, k.dim.units[at].name)
				}
			}
		}
		for _, ladder := range [][]rung{k.dim.si, k.dim.us} {
			if len(ladder) == 0 {
				t.Fatalf("%s has no unit to print", k.name)
			}
			for _, r := range ladder {
				if _, known := k.dim.lookup[foldUnit(r.unit)]; !known {
					t.Errorf("%s prints in %q, which it does not know", k.name, r.unit)
				}
			}
		}
		if b := k.dim.base(); b.scale != 1 || b.offset != 0 || b.prefix {
			t.Errorf("%s has no SI unit to be exact in", k.name)
		}
		for _, example := range strings.Split(k.dim.example, ", ") {
			if _, err := k.parse(example); err != nil {
				t.Errorf("%s does not accept its own example: %v", k.name, err)
			}
		}
	}
}

func TestConversions(t *testing.T) {
	for _, c := range []struct {
		got    float64
		want   float64
		rel    float64
		source string // all from memory
	}{
		{must[Energy](t, "1 Btu"), 1055.05585262, 1e-12, "NIST SP 811 B.8, International Table Btu"},
		{must[Energy](t, "1 therm"), 105.5056e6, 1e-6, "NIST SP 811 B.8, therm (EC)"},
		{must[Energy](t, "1 kWh"), 3.6e6, 0, "definition"},
		{must[Power](t, "1 Btu/h"), 0.2930711, 2e-7, "NIST SP 811 B.8"},
		{must[Power](t, "12,000 Btu/h"), 3516.853, 1e-6, "NIST SP 811 B.8, ton of refrigeration"},
		{must[Pressure](t, "1 psi"), 6894.757, 1e-7, "NIST SP 811 B.8"},
		{must[Pressure](t, "1 ft w.c."), 2989.067, 1e-6, "NIST SP 811 B.8, foot of water, 4 °C"},
		{must[Pressure](t, "1 bar"), 1e5, 0, "definition"},
		{must[Volume](t, "1 gal"), 3.785411784e-3, 1e-12, "NIST SP 811 B.8, gallon (US)"},
		{must[Volume](t, "1 ft³"), 0.028316846592, 1e-12, "NIST SP 811 B.8"},
		{must[HeatingValue](t, "1 Btu/ft³"), 3.725895e4, 1e-6, "NIST SP 811 B.8"},
		{must[SpecificEnergy](t, "1 Btu/lb"), 2326, 1e-9, "NIST SP 811 B.8, exact"},
		{must[MassFlow](t, "1 lb/h"), 1.259979e-4, 1e-6, "NIST SP 811 B.8"},
		{must[Concentration](t, "50 ppm"), 50e-6, 1e-14, "definition"},
		{must[Frequency](t, "24 /d"), 1.0 / 3600, 1e-12, "definition"},
		{must[Flow](t, "1 gpm"), 6.309020e-5, 1e-7, "NIST SP 811 B.8"},
		{must[Flow](t, "1 cfm"), 4.719474e-4, 1e-7, "NIST SP 811 B.8"},
		{must[Length](t, "1 ft"), 0.3048, 1e-15, "NIST SP 811 B.8"},
		{must[Area](t, "1 ft²"), 0.09290304, 1e-12, "NIST SP 811 B.8"},
		{must[Resistance](t, "R-1"), 0.1761102, 2e-7, "NIST SP 811 B.8"},
		{must[Transmittance](t, "1 Btu/h·ft²·°F"), 5.678263, 2e-7, "NIST SP 811 B.8"},
		{must[Conductivity](t, "1 Btu/h·ft·°F"), 1.730735, 2e-7, "NIST SP 811 B.8"},
		{must[Conductivity](t, "1 Btu·in/h·ft²·°F"), 0.1442279, 2e-7, "NIST SP 811 B.8"},
		{must[Flux](t, "1 Btu/h·ft²"), 3.154591, 2e-7, "NIST SP 811 B.8"},
		{must[LinearPower](t, "1 Btu/h·ft"), 0.961519, 1e-6, "worked out: 0.2930711/0.3048"},
		{must[LossCoefficient](t, "1 Btu/h·°F"), 0.5275279, 2e-7, "NIST SP 811 B.8"},
		{must[SpecificHeat](t, "1 Btu/lb·°F"), 4186.8, 1e-9, "NIST SP 811 B.8, exact by the definition of the International Table Btu"},
		{must[Density](t, "1 lb/ft³"), 16.01846, 1e-6, "NIST SP 811 B.8"},
		{must[Viscosity](t, "1 cP"), 1e-3, 1e-15, "NIST SP 811 B.8"},
		{must[Temperature](t, "32 °F"), 273.15, 1e-15, "definition"},
		{must[Temperature](t, "70 °F"), 294.2611, 1e-7, "definition"},
		{must[Difference](t, "20 °F"), 11.11111, 1e-6, "definition"},
		{must[DegreeDays](t, "7,200 °F·d"), 4000 * 86400, 1e-12, "definition"},
		{must[VolumetricHeat](t, "500 Btu/h·gpm·°F"), 4.18094e6, 1e-4, "worked out: 500 · 0.2930711 · 9/5 / 6.309020e-5"},
		{float64(Celsius(20)), 293.15, 0, "definition"},
		{Fahrenheit(212).Celsius(), 100, 1e-14, "definition"},
		{BtuPerHour(38000).BtuPerHour(), 38000, 1e-15, "reverse"},
		{GallonsPerMinute(4.5).GallonsPerMinute(), 4.5, 1e-15, "reverse"},
		{RValue(13).RValue(), 13, 1e-15, "reverse"},
		{BtuPerHourFoot(560).BtuPerHourFoot(), 560, 1e-15, "reverse"},
		{PerHour(0.5).PerHour(), 0.5, 1e-15, "reverse"},
		{SquareFeet(1850).SquareFeet(), 1850, 1e-15, "reverse"},
		{FahrenheitDifference(20).Fahrenheit(), 20, 1e-15, "reverse"},
		{Gallons(50).Gallons(), 50, 1e-15, "reverse"},
		{Litres(200).Litres(), 200, 1e-15, "reverse"},
		{float64(Gallons(1)), 3.785411784e-3, 1e-12, "NIST SP 811 B.8, gallon (US)"},
		{float64(Minutes(1.5)), 90, 0, "definition"},
		{float64(Kiloohms(12.3)), 12300, 1e-15, "definition"},
		{float64(Ohms(1078)), 1078, 0, "definition"},
		{must[ElectricResistance](t, "12.3 kΩ"), 12300, 1e-15, "definition"},
	} {
		if !near(c.got, c.want, c.rel) {
			t.Errorf("%v, want %v (%s)", c.got, c.want, c.source)
		}
	}
}

func TestWaterAndHeatOfADay(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Litres(200).WaterText(SI), "200 L"}, {Litres(200).WaterText(US), "52.83 gal"},
		{KilowattHours(2.87).HeatText(SI), "2.87 kWh"}, {KilowattHours(2.87).HeatText(US), "9,793 Btu"},
		{Volume(math.NaN()).WaterText(US), "no value"},
	} {
		if spaces(c.got) != c.want {
			t.Errorf("printed %q, want %q", c.got, c.want)
		}
	}
}

func must[T quantity](t *testing.T, text string) float64 {
	t.Helper()
	v, err := Parse[T](text)
	if err != nil {
		t.Error(err)
	}
	return float64(v)
}

func TestTextIsReadAsPeopleWriteIt(t *testing.T) {
	for _, c := range []struct {
		kind string
		text string
		want float64 // SI
	}{
		{"Length", "12 ft 6 in", 3.81}, {"Length", `12'6"`, 3.81}, {"Length", `12'-6"`, 3.81}, {"Length", `12' - 6"`, 3.81},
		{"Length", "12 ft-6 in", 3.81}, {"Length", "12ft 6in", 3.81}, {"Length", "12′ 6″", 3.81}, {"Length", `12’6”`, 3.81},
		{"Length", "-12 ft 6 in", -3.81}, {"Length", "−12 ft 6 in", -3.81}, {"Length", "12 ft 6 1/2 in", 3.8227},
		{"Length", "3/4 in", 0.01905}, {"Length", "¾ in", 0.01905}, {"Length", "1 1/2 in", 0.0381}, {"Length", "1-1/2 in", 0.0381},
		{"Length", "1½ in", 0.0381}, {"Length", `1½"`, 0.0381}, {"Length", "3⁄4 in", 0.01905}, {"Length", "2,4 m", 2.4},
		{"Length", "1 m 5 cm", 1.05}, {"Length", "+3 m", 3},
		{"Power", "38,000 Btu/h", 11136.7007}, {"Power", "38000btu/hr", 11136.7007}, {"Power", "38 000 Btu/h", 11136.7007}, {"Power", "38\u202f000,5 W", 38000.5}, {"Power", "1\u00a0250\u00a0000.25 W", 1250000.25}, {"Power", "38 MBH", 11136.7007},
		{"Power", "38 kBtu/h", 11136.7007}, {"Power", "1,250,000 Btu/h", 366338.8377}, {"Power", "11.137kW", 11137},
		{"Power", "1.1137e4 W", 11137}, {"Power", "11137E+0 W", 11137}, {"Power", "-2 kW", -2000}, {"Power", "0,500 kW", 500},
		{"Power", "\t900\u00a0W\n", 900}, {"Power", ".5 kW", 500}, {"Power", "38,000.5 W", 38000.5},
		{"Transmittance", "0.35 W/m²K", 0.35}, {"Transmittance", "0.35 W/(m²·K)", 0.35}, {"Transmittance", "0.35 W/m2K", 0.35},
		{"Transmittance", "0.35 W/m^2.K", 0.35}, {"Transmittance", "0.35 W/m2-K", 0.35}, {"Transmittance", "0.35 W/m² K", 0.35},
		{"Transmittance", "0.06 Btu/hr-ft²-°F", 0.3406958005}, {"Transmittance", "0.06 Btu/(h ft2 F)", 0.3406958005},
		{"Transmittance", "U-0.06", 0.3406958005}, {"Transmittance", "U 0.06", 0.3406958005}, {"Transmittance", "u0.06", 0.3406958005},
		{"Resistance", "R-13", 2.28943239}, {"Resistance", "R13", 2.28943239}, {"Resistance", "R 13", 2.28943239},
		{"Resistance", "R‑13", 2.28943239}, {"Resistance", "R−13", 2.28943239}, {"Resistance", "RSI 2.3", 2.3}, {"Resistance", "2.3 m²·K/W", 2.3},
		{"Temperature", "70 °F", 294.2611111}, {"Temperature", "70F", 294.2611111}, {"Temperature", "70 deg F", 294.2611111},
		{"Temperature", "70 º F", 294.2611111}, {"Temperature", "-40 °C", 233.15}, {"Temperature", "–40 °F", 233.15}, {"Temperature", "294 K", 294},
		{"AirChange", "0.5 /h", 0.5 / 3600}, {"AirChange", "0.5/h", 0.5 / 3600}, {"AirChange", "0.5 h-1", 0.5 / 3600},
		{"AirChange", "0.5 h⁻¹", 0.5 / 3600}, {"AirChange", "7 1/h", 7.0 / 3600}, {"AirChange", "7 ACH", 7.0 / 3600},
		{"Fraction", "85%", 0.85}, {"Fraction", "85 %", 0.85}, {"Fraction", "0.85", 0.85}, {"Fraction", "3/4", 0.75},
		{"Number", "1.3", 1.3}, {"Time", "1 h 30 min", 5400}, {"Time", "2 d 4 h", 187200}, {"Time", "10min", 600},
		{"Area", "1,850 sq ft", 171.870624}, {"Area", "172 m2", 172}, {"RadiatorArea", "45 EDR", 45},
		{"Viscosity", "466 μPa·s", 466e-6}, {"Viscosity", "466 uPa s", 466e-6},
		{"ElectricResistance", "12.3 kOhm", 12300}, {"ElectricResistance", "12.3k", 12300}, {"ElectricResistance", "842.7 \u2126", 842.7},
		{"ElectricResistance", "5 MΩ", 5e6}, {"ElectricResistance", "2.2 megohm", 2.2e6}, {"ElectricResistance", "1.5Mohm", 1.5e6}, {"ElectricResistance", "0", 0},
	} {
		got, err := named(c.kind).parse(c.text)
		if err != nil || !near(got, c.want, 1e-8) {
			t.Errorf("%s %q: %v (%v), want %v", c.kind, c.text, got, err, c.want)
		}
	}
}

func named(name string) kind {
	for _, k := range kinds {
		if k.name == name {
			return k
		}
	}
	panic("no type " + name)
}

func TestRefusedTextSaysWhy(t *testing.T) {
	for _, c := range []struct{ kind, text, says string }{
		{"Temperature", "", "is empty"},
		{"Temperature", "   ", "is empty"},
		{"Temperature", "20", "has no unit for a temperature"},
		{"Temperature", "20 Btu/h", "is not a unit of a temperature"},
		{"Temperature", "70-75 F", "has no unit"},
		{"Temperature", "20 K 3 K", "do not add up"},
		{"Temperature", "20 °C 3 K", "do not add up"},
		{"Temperature", "-300 °C", "is outside what a temperature can be"},
		{"Temperature", "F 70", "is not written the way"},
		{"Temperature", "about 70 F", "has text after its number"},
		{"Temperature", "warm", "has no number"},
		{"Temperature", "NaN °C", "has no number"},
		{"Temperature", "°C", "has no number"},
		{"Temperature", "٢٠ °C", "has no number"},
		{"Temperature", "1e999 K", "is not a number that can be used"},
		{"Temperature", strings.Repeat("9", 70) + " K", "is too long"},
		{"Temperature", "--5 °C", "has no number"},
		{"Length", "12 ft -6 in", "do not add up"},
		{"Length", "6 in 12 ft", "do not add up"},
		{"Length", "1 ft 2 ft", "do not add up"},
		{"Length", "1 m 2 cm 3 mm 4 mm", "too many numbers"},
		{"Length", "1/0 in", "divides by zero"},
		{"Length", "12 ft, 6 in", `has the unit "ft,"`},
		{"Power", "38 MBH 2 kW", "do not add up"},
		{"Power", "38,00,0 W", "neither thousands nor a decimal sign"},
		{"Power", "1.2.3 W", "more than one decimal point"},
		{"Power", "1.234,5 W", "mixes decimal point and comma"},
		{"Power", "12, W", "sign of punctuation"},
		{"Power", "12. W", "sign of punctuation"},
		{"Resistance", "13 R", "is not written the way"},
		{"Resistance", "R--13", "outside"},
		{"Area", "-5 m²", "outside"},
		{"Number", "1.3 W", "is not a unit of a number"},
		{"Difference", "ΔT 20 F", "has no number"},
	} {
		got, err := named(c.kind).parse(c.text)
		var pe *ParseError
		if got != 0 || !errors.As(err, &pe) || !strings.Contains(err.Error(), c.says) || pe.Accept == "" {
			t.Errorf("%s %q: %v, %v; should say %q", c.kind, c.text, got, err, c.says)
		}
	}
}

func TestPrinting(t *testing.T) {
	for _, c := range []struct {
		value  Quantity
		si, us string
	}{
		{Celsius(21.1), "21.1 °C", "70 °F"},
		{Celsius(50), "50.0 °C", "122 °F"},
		{Celsius(-0.01), "0.0 °C", "32 °F"},
		{Celsius(-17.78), "−17.8 °C", "0 °F"},
		{Kelvins(11.11), "11 K", "20 °F"},
		{Number(1e12), "1,000,000,000,000", "1,000,000,000,000"}, {Number(-0.00001), "0", "0"},
		{Kelvins(2.78), "2.8 K", "5 °F"},
		{FahrenheitDifference(2.5), "1.4 K", "2.5 °F"},
		{Kelvins(9.96), "10 K", "18 °F"},
		{Kelvins(-11.11), "−11 K", "−20 °F"},
		{Power(900), "900 W", "3,070 Btu/h"},
		{Power(999.7), "1 kW", "3,410 Btu/h"},
		{BtuPerHour(38000), "11.1 kW", "38,000 Btu/h"},
		{Power(-0.0000001), "0 W", "0 Btu/h"},
		{Power(4.446e-5), "0.000044 W", "0.000152 Btu/h"},
		{Power(1e-9), "0 W", "0 Btu/h"},
		{Therms(900), "26,380 kWh", "900 therm"},
		{Length(0.016), "16 mm", "0.63 in"},
		{Inches(0.75), "19 mm", "0.75 in"},
		{Length(0.0999), "99.9 mm", "3.93 in"},
		{Length(0.1), "0.1 m", "3.94 in"},
		{Inches(11.9999), "0.305 m", "1 ft"},
		{Feet(1), "0.305 m", "1 ft"},
		{Feet(12.5), "3.81 m", "12.5 ft"},
		{SquareFeet(1850), "171.9 m²", "1,850 ft²"},
		{Fraction(0.85), "85%", "85%"},
		{RValue(13), "2.29 m²K/W", "R-13"},
		{Transmittance(0.35), "0.35 W/m²K", "0.0616 Btu/h·ft²·°F"},
		{GallonsPerMinute(4.5), "17 L/min", "4.5 gpm"},
		{Pressure(1.5e5), "1.50 bar", "21.8 psi"},
		{PerHour(0.5), "0.50 /h", "0.50 /h"},
		{Time(90), "1.5 min", "1.5 min"},
		{Hours(60), "60 h", "60 h"},
		{KelvinDays(4000), "4,000 K·d", "7,200 °F·d"},
		{RadiatorArea(45), "45 sq ft EDR", "45 sq ft EDR"},
		{BtuPerHourFoot(560), "538 W/m", "560 Btu/h·ft"},
		{Number(1.30), "1.3", "1.3"},
		{Number(-0.00001), "0", "0"},
		{Number(12345.678), "12,345.678", "12,345.678"},
		{SpecificHeat(4182.5), "4.183 kJ/kgK", "0.999 Btu/lb·°F"},
		{Density(983.25), "983.2 kg/m³", "61.38 lb/ft³"},
		{Viscosity(466.1e-6), "0.4661 mPa·s", "0.4661 cP"},
		{Ohms(842.707), "842.7 Ω", "842.7 Ω"},
		{Kiloohms(12.3), "12.3 kΩ", "12.3 kΩ"},
		{Ohms(999.97), "1 kΩ", "1 kΩ"},
		{BtuPerCubicFoot(1037), "38.64 MJ/m³", "1,037 Btu/ft³"},
		{HeatingValue(38.6e9), "38.6 MJ/L", "138,500 Btu/gal"},
		{SpecificEnergy(45.6e6), "45.6 MJ/kg", "19,600 Btu/lb"},
		{MassFlow(1.0 / 3600), "1 kg/h", "2.2 lb/h"},
		{StartsPerHour(2.344), "2.34 /h", "2.34 /h"},
		{PartsPerMillion(65.7), "65.7 ppm", "65.7 ppm"},
		{Temperature(math.NaN()), "no value", "no value"},
		{Power(math.Inf(-1)), "no value", "no value"},
		{Number(math.NaN()), "no value", "no value"},
	} {
		if si, us := spaces(c.value.Text(SI)), spaces(c.value.Text(US)); si != c.si || us != c.us {
			t.Errorf("%v prints %q and %q, want %q and %q", c.value, si, us, c.si, c.us)
		}
	}
	if !strings.Contains(Celsius(20).Text(SI), "\u00a0") {
		t.Error("a value may part from its unit at the end of a line")
	}
}

// drawn gives a type and a value that it can have. A little is left at both ends of
// the range, since a value printed may round beyond them.
func drawn(t *rapid.T) (kind, float64) {
	k := kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")]
	top := k.dim.max
	if rapid.Bool().Draw(t, "of common size") {
		top = math.Min(top, 1000)
	}
	low := math.Max(k.dim.min, -top)
	if k.name == "Temperature" {
		low = 1
	}
	return k, 0.99 * rapid.Float64Range(low, top).Draw(t, "value")
}

// system is a family, and as often some units chosen apart from it.
func system(t *rapid.T) System {
	s := System(rapid.IntRange(0, 1).Draw(t, "system"))
	if !rapid.Bool().Draw(t, "mixed") {
		return s
	}
	for _, k := range Kinds() {
		unit := rapid.SampledFrom(append([]string{""}, k.Units()...)).Draw(t, k.Word())
		s, _ = s.With(k, unit)
	}
	return s
}

func TestPrintedTextReadsBackWithinItsRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, v := drawn(t)
		s := system(t)
		text := k.text(v, s)
		got, err := k.parse(text)
		if err != nil {
			t.Fatal(err)
		}
		u := k.dim.printed(v, s)
		x, step := math.Abs(u.to(v)), 0.0
		switch {
		case k.name == "Number":
			step = 1e-4
		case u.figures > 0:
			step = math.Max(math.Pow(10, math.Ceil(math.Log10(x+1e-300))-float64(u.figures)), 1e-6)
		case u.wholeFrom > 0 && x > u.wholeFrom-1:
			step = 1
		default:
			step = math.Pow(10, -float64(u.decimals))
		}
		if math.Abs(got-v) > step*u.scale*0.500001+1e-12*math.Abs(v) {
			t.Fatalf("%s %v prints %q and reads back %v", k.name, v, text, got)
		}
	})
}

func TestSwitchingUnitsDoesNotDrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, v := drawn(t)
		s := system(t)
		shown := k.text(v, s)
		again, err := k.parse(shown)
		if err != nil {
			t.Fatal(err)
		}
		k.text(again, 1-s) // looked at in the other units, which changes nothing
		if back := k.text(again, s); back != shown {
			t.Fatalf("%s: entered as %q, shown as %q", k.name, shown, back)
		}
	})
}

func TestExactTextReadsBackToTheSameNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")]
		v := rapid.Float64Range(k.dim.min, k.dim.max).Draw(t, "value")
		text := k.exact(v)
		got, err := k.parse(text)
		if err != nil || math.Float64bits(got) != math.Float64bits(v+0) {
			t.Fatalf("%s %v is written %q and reads back %v (%v)", k.name, v, text, got, err)
		}
	})
	for _, c := range []struct{ got, want string }{
		{Exact(Celsius(21)), "294.15 K"}, {Exact(Power(11137)), "11137 W"}, {Exact(Fraction(0.85)), "0.85"},
		{Exact(Flow(1e-5)), "1e-05 m³/s"}, {Exact(Power(math.Copysign(0, -1))), "0 W"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if _, err := Parse[Power](Exact(Power(math.NaN()))); err == nil {
		t.Error("what is not a number reads back as one")
	}
}

func TestStep(t *testing.T) {
	for _, c := range []struct {
		step              Step
		at                Temperature
		down, nearest, up string
	}{
		{Step{US, 1}, Fahrenheit(149.6), "149 °F", "150 °F", "150 °F"},
		{Step{US, 2}, Fahrenheit(150), "150 °F", "150 °F", "150 °F"},
		{Step{US, 5}, Celsius(65), "145 °F", "150 °F", "150 °F"},
		{Step{SI, 0.5}, Celsius(-3.3), "−3.5 °C", "−3.5 °C", "−3.0 °C"},
		{Step{SI, 0.25}, Celsius(20.3), "20.25 °C", "20.25 °C", "20.50 °C"},
		{Step{SI, 0}, Celsius(20.3), "20 °C", "20 °C", "21 °C"}, // no size is one degree
		{Step{SI, 1}, Celsius(-0.2), "−1 °C", "0 °C", "0 °C"},
	} {
		down, nearest, up := spaces(c.step.Text(c.step.Down(c.at))), spaces(c.step.Text(c.step.Nearest(c.at))), spaces(c.step.Text(c.step.Up(c.at)))
		if down != c.down || nearest != c.nearest || up != c.up {
			t.Errorf("%v at %v: %s, %s, %s", c.step, c.at, down, nearest, up)
		}
	}
	if got := (Step{US, 2}).Difference(); got != FahrenheitDifference(2) {
		t.Error(got)
	}
	if got := (Step{SI, 1}).Text(Temperature(math.NaN())); got != noValue {
		t.Error(got)
	}
}

func TestStepsStayOnTheGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Step{system(t), rapid.SampledFrom([]float64{0.1, 0.25, 0.5, 1, 2, 5, 10}).Draw(t, "size")}
		at := Temperature(rapid.Float64Range(200, 500).Draw(t, "at"))
		slack := Temperature(2e-6 * float64(s.Difference()))
		down, nearest, up := s.Down(at), s.Nearest(at), s.Up(at)
		if down > at+slack || up < at-slack || down > nearest || nearest > up {
			t.Fatalf("%v: %v, %v, %v", at, down, nearest, up)
		}
		if up-down > Temperature(s.Difference())*(1+1e-9) || math.Abs(float64(nearest-at)) > float64(s.Difference())/2*(1+1e-9) {
			t.Fatalf("%v moved by more than a step: %v, %v, %v", at, down, nearest, up)
		}
		for _, g := range []Temperature{down, nearest, up} {
			if s.Down(g) != g || s.Nearest(g) != g || s.Up(g) != g {
				t.Fatalf("%v is not on its own grid", g)
			}
		}
	})
}

func TestTemperatureAndDifference(t *testing.T) {
	supply := Fahrenheit(150).Add(FahrenheitDifference(20))
	if got := supply.Fahrenheit(); !near(got, 170, 1e-14) {
		t.Error(got)
	}
	if got := supply.Sub(Fahrenheit(150)).Fahrenheit(); !near(got, 20, 1e-12) {
		t.Error(got)
	}
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"38,000 Btu/h", "11137 W", "11.1 kW"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Parse[Power](text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("12 ft 6 in", func(b *testing.B) {
		for b.Loop() {
			if _, err := Parse[Length]("12 ft 6 in"); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkText(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = BtuPerHour(38000).Text(US)
	}
}

func BenchmarkExact(b *testing.B) {
	for b.Loop() {
		_ = Exact(BtuPerHour(38000))
	}
}
