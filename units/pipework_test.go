package units

import "testing"

func TestConversionsOfPipework(t *testing.T) {
	for _, c := range []struct {
		got, want, rel float64
		source         string
	}{
		{must[FlowCoefficient](t, "Cv 1"), 0.8650, 1e-4, "IEC 60534-1, Kv = 0.865 Cv, from memory"},
		{must[FlowCoefficient](t, "kv 2.5"), 2.5, 0, "definition"},
		{must[FlowCoefficient](t, "2.5 m³/h"), 2.5, 0, "definition"},
		{must[FlowCoefficient](t, "2.5 gpm"), 2.1625, 1e-4, "IEC 60534-1, from memory"},
		{must[Velocity](t, "4 ft/s"), 1.2192, 1e-12, "definition of the foot"},
		{must[PressureGradient](t, "4 ft/100 ft"), 392.3, 1e-4, "worked out: 4 · 2989.067 Pa / 30.48 m"},
		{must[Hardness](t, "16.8 °dH"), 3.0, 1e-12, "VDI 2035 sheet 1 as quoted, 3.0 mol/m³ = 16.8 °dH"},
		{must[Hardness](t, "10 °fH"), 1, 1e-12, "VDI 2035 sheet 1 as quoted"},
		{must[Hardness](t, "100.1 mg/L"), 1, 2e-4, "molar mass of calcium carbonate"},
		{must[Hardness](t, "1 gpg"), 17.12 / 100.09, 2e-4, "1 grain per US gallon = 17.12 mg/L, from memory"},
		{must[Hardness](t, "5 gpg"), 0.8552, 1e-3, "the same"},
		{must[ElectricalConductivity](t, "100 µS/cm"), 0.01, 1e-12, "definition"},
		{must[ElectricalConductivity](t, "0.1 mS/cm"), 0.01, 1e-12, "definition"},
		{Cv(2.9).Cv(), 2.9, 1e-15, "reverse"},
		{float64(Kv(4)), 4, 0, "definition"},
		{FeetPerSecond(4).FeetPerSecond(), 4, 1e-15, "reverse"},
		{GermanDegrees(11.2).GermanDegrees(), 11.2, 1e-15, "reverse"},
		{float64(MicrosiemensPerCentimetre(1500)), 0.15, 1e-15, "definition"},
		{float64(Millimetres(16)), 0.016, 1e-15, "definition"},
		{Litres(200).Litres(), 200, 1e-15, "reverse"},
		{Gallons(40).Gallons(), 40, 1e-15, "reverse"},
		{Gallons(1).Litres(), 3.785411784, 1e-12, "NIST SP 811 B.8, gallon (US)"},
		{CubicMetresPerHour(2).CubicMetresPerHour(), 2, 1e-15, "reverse"},
		{PSI(12).PSI(), 12, 1e-15, "reverse"},
		{PSI(14.7).Bar(), 1.01353, 1e-5, "NIST SP 811 B.8"},
		{Bar(1.5).Bar(), 1.5, 1e-15, "reverse"},
		{FeetOfWater(12).FeetOfWater(), 12, 1e-15, "reverse"},
	} {
		if !near(c.got, c.want, c.rel) {
			t.Errorf("%v, want %v (%s)", c.got, c.want, c.source)
		}
	}
}

func TestPrintingOfPipework(t *testing.T) {
	for _, c := range []struct {
		value  Quantity
		si, us string
	}{
		{Kv(2.5), "kv 2.5", "Cv 2.89"},
		{FeetPerSecond(4), "1.22 m/s", "4 ft/s"},
		{PressureGradient(150), "150 Pa/m", "1.53 ft/100 ft"},
		{GermanDegrees(11.2), "2 mol/m³", "11.7 gpg"},
		{MicrosiemensPerCentimetre(100), "100 µS/cm", "100 µS/cm"},
	} {
		if si, us := spaces(c.value.Text(SI)), spaces(c.value.Text(US)); si != c.si || us != c.us {
			t.Errorf("%q and %q, want %q and %q", si, us, c.si, c.us)
		}
	}
}
