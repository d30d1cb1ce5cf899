package followup

import (
	"math"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

// A gas meter counts volumes: without the heat in them a log shows no heat at all.
func TestAVolumeOfFuelHoldsHeat(t *testing.T) {
	ridge := readExample(t, "ridge-house")
	cubicFoot := float64(units.BtuPerCubicFoot(1))
	for _, c := range []struct {
		name, fuel string
		plan       *settings.Plan
		want       float64 // J/m³
		source     string
	}{
		{"ridge house", "natural gas", planOf(t, ridge), 1030 * 0.931 * cubicFoot, "usual gas at 2,400 ft and 7 in of water: 13.71 of 14.73 psi (ICAO standard atmosphere)"},
		{"nothing known of the meter", "natural gas", &settings.Plan{}, 1030 * cubicFoot, "usual gas, from memory"},
		{"nothing known of the fuel", "", &settings.Plan{}, 1030 * cubicFoot, "usual gas, from memory"},
		{"propane", "propane", &settings.Plan{}, 2520 * cubicFoot, "from memory"},
		{"oil", "heating oil", &settings.Plan{}, 146e6 / float64(units.Gallons(1)), "138,500 Btu/gal, common practice"},
	} {
		j := *ridge
		j.Boiler.Fuel = c.fuel
		if got := float64(heatInVolume(c.plan, &j)); math.Abs(got/c.want-1) > 0.03 {
			t.Errorf("%s: %.4g J/m³, want %.4g (%s)", c.name, got, c.want, c.source)
		}
	}
}
