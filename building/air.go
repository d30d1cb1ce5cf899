package building

// How much heat does the air take that goes through a house, and how much air is it?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// airHeat is the heat that a cubic metre of air carries per kelvin at sea level,
// J/(m³·K): 0.34 Wh/(m³·K), EN 12831-1:2017. North American practice takes
// 0.018 Btu/(ft³·°F), 1.4 % less.
const airHeat = 0.34 * 3600

// Least air change that a load calculation should count with, for the people's
// sake, whatever the tightness (EN 12831:2003 annex D, from memory).
var (
	LeastAirChange    = units.PerHour(0.5) // dwelling rooms
	LeastAirChangeWet = units.PerHour(1.5) // kitchen or bathroom with a window
)

// AirDensityRatio gives the density of the air at an altitude as a share of that at
// sea level, at the same temperature.
//
//	(1 − 2.25577·10⁻⁵ · h)^5.2559, h in m
//
// Units: a length; the result is a share of one.
// Range: −500 to 5000 m.
// Source: ICAO standard atmosphere (ISO 2533), pressure ratio.
// Errors: an altitude outside the range.
func AirDensityRatio(altitude units.Length) (units.Fraction, error) {
	if err := refuse.Within("altitude", altitude, -500, 5000); err != nil {
		return 0, err
	}
	return units.Fraction(math.Pow(1-2.25577e-5*float64(altitude), 5.2559)), nil
}

// AirLoss gives the loss by air that enters at the outdoor temperature.
//
//	H = 0.34 · (density ratio) · n · V, in W/K with n per hour and V in m³
//
// Units: a volume, an air change, an altitude; the result in W/K.
// Range: volume 0 to 100,000 m³, air change 0 to 30 per hour, altitude −500 to
// 5000 m.
// Source: EN 12831-1:2017, ventilation; altitude by the ICAO standard atmosphere.
// Errors: a figure outside the range.
func AirLoss(volume units.Volume, change units.AirChange, altitude units.Length) (Loss, error) {
	ratio, err := AirDensityRatio(altitude)
	if err == nil {
		err = cmp.Or(
			refuse.Within("heated air volume", volume, 0, 1e5),
			refuse.Within("air change", change, 0, units.PerHour(30)),
		)
	}
	if err != nil {
		return Loss{}, err
	}
	return Loss{Outdoor: units.LossCoefficient(airHeat * float64(ratio) * float64(change) * float64(volume))}, nil
}

// RecoveredAirLoss gives the loss by air from a ventilator that warms the fresh air
// with the stale.
//
//	H = (1 − η) · H_air
//
// Units: a loss from AirLoss and a share of one.
// Range: η 0 to 0.98; infiltration is not recovered and must be added.
// Source: EN 12831-1:2017, ventilation with heat recovery.
// Errors: a share outside the range.
func RecoveredAirLoss(air Loss, recovery units.Fraction) (Loss, error) {
	if err := refuse.Within("heat recovery of the ventilator", recovery, 0, 0.98); err != nil {
		return Loss{}, err
	}
	return air.Scale(1 - recovery), nil
}

// BlowerDoor gives the air change at 50 Pa from the flow measured by a blower door.
//
//	n50 = V̇50 / V
//
// Units: a flow and a volume; the result per time.
// Range: volume 10 to 100,000 m³, result up to 60 per hour.
// Source: ISO 9972.
// Errors: a figure outside the range.
func BlowerDoor(at50 units.Flow, volume units.Volume) (units.AirChange, error) {
	if err := refuse.Within("house volume", volume, 10, 1e5); err != nil {
		return 0, err
	}
	n := units.AirChange(float64(at50) / float64(volume))
	return n, checkN50(n)
}

func checkN50(n units.AirChange) error {
	return refuse.Within("air change at 50 Pa (n50, ACH50)", n, 0, units.PerHour(60))
}

// Infiltration is an estimate of the air change in heating weather with the band in
// which it may lie.
type Infiltration struct {
	Likely    units.AirChange
	Low, High units.AirChange
}

// InfiltrationFromN50 gives the season's air change from a blower-door reading by
// the rule of twenty.
//
//	n = n50/20, within −50 % and +100 %
//
// Units: air changes.
// Range: n50 0 to 60 per hour. A season's mean, not a windy design day.
// Source: Kronvall–Persily rule, discussed in "Estimation of infiltration from
// leakage and climate indicators", Energy and Buildings 10, 1986; band: common
// practice.
// Errors: a reading outside the range.
func InfiltrationFromN50(n50 units.AirChange) (Infiltration, error) {
	return infiltration(n50, 20)
}

func infiltration(n50 units.AirChange, divisor float64) (Infiltration, error) {
	if err := checkN50(n50); err != nil {
		return Infiltration{}, err
	}
	likely := n50 / units.AirChange(divisor)
	return Infiltration{Likely: likely, Low: likely / 2, High: likely * 2}, nil
}

// LeakageFactors refine the rule of twenty. Each is from memory of the correction
// factors published with it.
type LeakageFactors struct {
	Climate units.Number // 14 in a cold windy region to 26 in a mild one
	Storeys units.Number // 1, 1.5, 2 or 3: a taller house draws harder
	Shelter units.Number // 1.2 well sheltered, 1.0 normal, 0.9 exposed
	Leaks   units.Number // 1.4 small cracks, 1.0 normal, 0.7 large holes
}

// InfiltrationRefined gives the season's air change from a blower-door reading by
// region, height, shelter and kind of leak.
//
//	n = n50/N, N = C·H·S·L, within −50 % and +100 %;
//	H = 1.0, 0.9, 0.8, 0.7 for 1, 1.5, 2, 3 storeys
//
// Units: air changes and plain factors.
// Range: C 14 to 26; storeys 1, 1.5, 2 or 3; S 0.9 to 1.2; L 0.7 to 1.4.
// Source: leakage-to-infiltration correction factors of North American
// weatherization practice, from memory.
// Errors: a factor outside the range, or another number of storeys.
func InfiltrationRefined(n50 units.AirChange, f LeakageFactors) (Infiltration, error) {
	err := cmp.Or(
		refuse.Within("climate factor", f.Climate, 14, 26),
		refuse.Within("shelter factor", f.Shelter, 0.9, 1.2),
		refuse.Within("leak factor", f.Leaks, 0.7, 1.4),
	)
	if err != nil {
		return Infiltration{}, err
	}
	height, err := heightFactor(f.Storeys)
	if err != nil {
		return Infiltration{}, err
	}
	return infiltration(n50, float64(f.Climate*height*f.Shelter*f.Leaks))
}

func heightFactor(storeys units.Number) (units.Number, error) {
	switch storeys {
	case 1:
		return 1.0, nil
	case 1.5:
		return 0.9, nil
	case 2:
		return 0.8, nil
	case 3:
		return 0.7, nil
	}
	return 0, &refuse.Error{What: "storeys for the leakage correction", Given: refuse.Both(storeys), Accept: "1, 1.5, 2 or 3"}
}

// Shielding is how a building stands to the wind.
type Shielding int

// The classes of shielding.
const (
	ShieldingNone     Shielding = iota // open land, high among low buildings
	ShieldingModerate                  // suburb, trees and other buildings round it
	ShieldingHeavy                     // town centre, woods
)

// DesignInfiltration gives the air change of one room on the design day from n50.
//
//	n = 2 · n50 · e · ε; e = 0.03, 0.02, 0.01 with one wall of openings to the wind,
//	0.05, 0.03, 0.02 with several, for no, moderate, heavy shielding (0 with no such
//	wall); ε = 1.0 to 10 m, 1.2 to 30 m, 1.5 above
//
// Units: air changes; height of the room's middle above ground as a length.
// Range: n50 0 to 60 per hour, height −5 to 150 m.
// Source: EN 12831:2003, infiltration; coefficients of its annex D, from memory.
// Errors: a figure outside the range.
func DesignInfiltration(n50 units.AirChange, s Shielding, exposedWalls int, height units.Length) (units.AirChange, error) {
	err := cmp.Or(
		checkN50(n50),
		refuse.Within("height of the room above ground", height, -5, 150),
	)
	if err != nil {
		return 0, err
	}
	if exposedWalls < 0 {
		return 0, &refuse.Error{What: "walls with openings to the wind", Given: fmt.Sprint(exposedWalls), Accept: "0 or more"}
	}
	var one, several float64
	switch s {
	case ShieldingNone:
		one, several = 0.03, 0.05
	case ShieldingModerate:
		one, several = 0.02, 0.03
	case ShieldingHeavy:
		one, several = 0.01, 0.02
	default:
		return 0, &refuse.Error{What: "shielding from wind", Given: fmt.Sprint(int(s)), Accept: "none, moderate or heavy"}
	}
	e := several
	switch exposedWalls {
	case 0:
		e = 0
	case 1:
		e = one
	}
	ε := 1.5
	switch {
	case height <= 10:
		ε = 1.0
	case height <= 30:
		ε = 1.2
	}
	return units.AirChange(2 * float64(n50) * e * ε), nil
}
