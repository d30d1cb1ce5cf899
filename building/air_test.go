package building

import (
	"testing"

	"curvewright/units"
)

func TestAir(t *testing.T) {
	l := ok[Loss](t)(AirLoss(50, units.PerHour(0.5), 0))
	near(t, "0.34·0.5·50", float64(l.Outdoor), 8.5, 1e-9) // EN 12831-1:2017
	// 12×14×8 ft, 0.4 per hour, 70/5 °F with 0.018 Btu/ft³°F; 0.34 Wh/m³K is 1.4 % more.
	ip := ok[Loss](t)(AirLoss(units.Volume(float64(units.Feet(12)*units.Feet(14)*units.Feet(8))), units.PerHour(0.4), 0))
	near(t, "Btu/h", ip.At(units.Fahrenheit(70), units.Fahrenheit(5)).BtuPerHour(), 629.0, 629*0.015)
	recovered := ok[Loss](t)(RecoveredAirLoss(l, 0.8))
	near(t, "with recovery", float64(recovered.Outdoor), 1.7, 1e-9)
}

func TestAirIsThinnerHighUp(t *testing.T) {
	// ICAO standard atmosphere: 101325 Pa, 89875 Pa at 1000 m, 79495 at 2000, 70109 at 3000.
	for h, p := range map[units.Length]float64{0: 101325, 1000: 89875, 2000: 79495, 3000: 70109} {
		near(t, "pressure ratio", float64(ok[units.Fraction](t)(AirDensityRatio(h))), p/101325, 0.0002)
	}
	for _, h := range []units.Length{-501, 5001} {
		if _, err := AirDensityRatio(h); err == nil {
			t.Errorf("an altitude of %v m is accepted", float64(h))
		}
	}
}

func TestBlowerDoor(t *testing.T) {
	for n50, want := range map[float64]float64{3: 0.15, 6: 0.30, 10: 0.50} { // rule of twenty
		got := ok[Infiltration](t)(InfiltrationFromN50(units.PerHour(n50)))
		near(t, "n50/20", got.Likely.PerHour(), want, 1e-12)
		near(t, "low", got.Low.PerHour(), want/2, 1e-12)
		near(t, "high", got.High.PerHour(), want*2, 1e-12)
	}
	n := ok[units.AirChange](t)(BlowerDoor(units.Flow(1200.0/3600), 400))
	near(t, "1200 m³/h in 400 m³", n.PerHour(), 3, 1e-12)

	f := LeakageFactors{Climate: 18, Storeys: 2, Shelter: 1, Leaks: 1}
	refined := ok[Infiltration](t)(InfiltrationRefined(units.PerHour(2.75), f))
	near(t, "2.75/14.4", refined.Likely.PerHour(), 2.75/14.4, 1e-9)
	f.Storeys = 5
	if _, err := InfiltrationRefined(units.PerHour(2.75), f); err == nil {
		t.Error("five storeys are accepted")
	}
	if _, err := InfiltrationFromN50(units.PerHour(-1)); err == nil {
		t.Error("a negative reading is accepted")
	}
}

func TestDesignInfiltration(t *testing.T) {
	cases := []struct { // EN 12831:2003 annex D, from memory
		s      Shielding
		walls  int
		height units.Length
		want   float64 // per hour at n50 6
	}{
		{ShieldingNone, 1, 5, 0.36}, {ShieldingModerate, 1, 5, 0.24}, {ShieldingHeavy, 1, 5, 0.12},
		{ShieldingNone, 2, 5, 0.60}, {ShieldingModerate, 3, 5, 0.36}, {ShieldingHeavy, 2, 5, 0.24},
		{ShieldingNone, 0, 5, 0}, {ShieldingNone, 1, 20, 0.432}, {ShieldingNone, 1, 40, 0.54},
	}
	for _, c := range cases {
		got := ok[units.AirChange](t)(DesignInfiltration(units.PerHour(6), c.s, c.walls, c.height))
		near(t, "design infiltration", got.PerHour(), c.want, 1e-9)
	}
	n := ok[units.AirChange](t)(DesignInfiltration(units.PerHour(6), ShieldingNone, 1, 3))
	near(t, "50 m³", float64(ok[Loss](t)(AirLoss(50, n, 0)).Outdoor), 6.12, 0.001)
	if _, err := DesignInfiltration(units.PerHour(6), Shielding(9), 1, 3); err == nil {
		t.Error("an unknown shielding is accepted")
	}
	if _, err := DesignInfiltration(units.PerHour(6), ShieldingNone, -1, 3); err == nil {
		t.Error("a negative count of walls is accepted")
	}
}
