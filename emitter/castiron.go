package emitter

// What does an old cast-iron radiator give with water instead of steam? It is sized
// in square feet of equivalent direct radiation (EDR), a rating on steam.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// steamExcess is the excess at the EDR rating: steam at 215 °F, air at 70 °F.
const (
	steamExcess   = 145.0 // °F
	steamEmission = 240.0 // Btu/h per sq ft EDR
	castIronPower = 1.3
)

// CastIron makes the law of cast-iron radiators from their EDR. Published tables for
// water follow the straight line 2·(t − 95) Btu/h per sq ft with t in °F, which meets
// this law from 140 to 215 °F but falls to nothing at 95 °F, where a real radiator
// still heats: 17 % low at 120 °F, 33 % at 110 °F. Hence the law and not the line.
//
//	q = EDR · 240 Btu/h · (ΔT/145 °F)^1.3
//
// Units: EDR in sq ft.
// Range: above 0 to 10,000 sq ft EDR.
// Source: definition of the square foot EDR (240 Btu/h, steam at 215 °F, air at
// 70 °F); exponent from handbooks for EN 442, from memory.
// Errors: an EDR outside the range.
func CastIron(edr units.RadiatorArea) (PowerLaw, error) {
	if err := checkEDR(edr); err != nil {
		return PowerLaw{}, err
	}
	rated := float64(units.BtuPerHour(steamEmission * float64(edr)))
	excess := float64(units.FahrenheitDifference(steamExcess))
	return PowerLaw{Coefficient: rated / math.Pow(excess, castIronPower), Exponent: castIronPower}, nil
}

// CastIronTable gives what the published emission table says for an average water
// temperature and a room at 70 °F, for the record beside [CastIron].
//
//	q = EDR · 2·(t − 95) Btu/h, t in °F
//
// Units: EDR in sq ft, average water in K; result in W.
// Range: average water 120 to 215 °F; below 140 °F the table reads too low.
// Source: published emission-rate tables for cast-iron radiators on hot water.
// Errors: an EDR or a water temperature outside the range.
func CastIronTable(edr units.RadiatorArea, averageWater units.Temperature) (units.Power, error) {
	if err := checkEDR(edr); err != nil {
		return 0, err
	}
	t := averageWater.Fahrenheit()
	if !(t >= 120-1e-9 && t <= 215+1e-9) {
		return 0, fmt.Errorf("cast-iron table: average water at %s is not in the table; accepted: 120 °F to 215 °F", refuse.Both(averageWater))
	}
	return units.BtuPerHour(float64(edr) * 2 * (t - 95)), nil
}

func checkEDR(edr units.RadiatorArea) error {
	if !(edr > 0 && edr <= 1e4) {
		return fmt.Errorf("cast-iron radiator: a rating of %s is not usable; accepted: above 0 to 10,000 sq ft EDR", refuse.Both(edr))
	}
	return nil
}
