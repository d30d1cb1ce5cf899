package emitter

// How far is the water above the air? Every rating of a radiator rests on one of two
// means of that excess. They differ by a third of a percent at 75/65/20 °C and by a
// quarter at low flow, so which one was used belongs with the number.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Mean says which mean of the excess temperature was taken.
type Mean string

// The two means.
const (
	Arithmetic  Mean = "arithmetic"
	Logarithmic Mean = "logarithmic"
)

// steepCooling is the ratio (return − room)/(supply − room) below which the
// arithmetic mean reads too high.
const steepCooling = 0.7

// ArithmeticExcess gives the mean of supply and return above the room.
//
//	ΔT = (tV + tR)/2 − ti
//
// Units: temperatures in K; result in K.
// Range: any temperatures; it over-reads once the return falls below 0.7 of the
// supply's excess (see [Excess]).
// Source: EN 442-1, definition of the excess temperature.
func ArithmeticExcess(supply, ret, room units.Temperature) units.Difference {
	return units.Difference((supply+ret)/2 - room)
}

// LogarithmicExcess gives the logarithmic mean of the water's excess over the room,
// exact for a constant heat transmission along the water's way.
//
//	ΔT = (tV − tR)/ln((tV − ti)/(tR − ti)); at tV = tR it is tV − ti
//
// Units: temperatures in K; result in K.
// Range: supply ≥ return > room.
// Source: physics; EN 1264-2 and ISO 11855-2 Annex A define floor ratings by it.
// Errors: a return at or below the room, or a supply below the return.
func LogarithmicExcess(supply, ret, room units.Temperature) (units.Difference, error) {
	if err := checkCooling(supply, ret, room); err != nil {
		return 0, err
	}
	return logMean(float64(supply-room), float64(ret-room)), nil
}

// Excess gives the mean excess by the mean that suits the cooling of the water, and
// says which it was. Compare it only with a rating taken by the same mean: at
// 75/65/20 °C that is 50 K arithmetic but 49.833 K logarithmic.
//
//	c = (tR − ti)/(tV − ti); c < 0.7 → logarithmic, else arithmetic
//
// Units: temperatures in K; result in K.
// Range: supply ≥ return > room.
// Source: design rule to EN 442, from memory; national rules differ, and a
// supplement to DS 469 takes the logarithmic mean throughout.
// Errors: a return at or below the room, or a supply below the return.
func Excess(supply, ret, room units.Temperature) (units.Difference, Mean, error) {
	if err := checkCooling(supply, ret, room); err != nil {
		return 0, "", err
	}
	// The slack keeps 70/55/20, which is 0.7 on paper, on the arithmetic side.
	if float64(ret-room) < (steepCooling-1e-9)*float64(supply-room) {
		return logMean(float64(supply-room), float64(ret-room)), Logarithmic, nil
	}
	return ArithmeticExcess(supply, ret, room), Arithmetic, nil
}

func checkCooling(supply, ret, room units.Temperature) error {
	switch {
	case !finite(float64(supply), float64(ret), float64(room)):
		return fmt.Errorf("excess temperature: supply, return and room must be real temperatures, for example 75 °C, 65 °C and 20 °C")
	case ret <= room:
		return fmt.Errorf("excess temperature: the return of %s is not above the room at %s; a return warmer than the room is needed", refuse.Both(ret), refuse.Both(room))
	case supply < ret:
		return fmt.Errorf("excess temperature: the supply of %s is below the return of %s; a supply at or above the return is needed", refuse.Both(supply), refuse.Both(ret))
	}
	return nil
}

// logMean takes the excess at inlet and outlet, inlet ≥ outlet > 0. Log1p keeps the
// digits as the two run together, where the plain form becomes 0/0.
func logMean(inlet, outlet float64) units.Difference {
	drop := inlet - outlet
	if drop == 0 {
		return units.Difference(inlet)
	}
	return units.Difference(drop / math.Log1p(drop/outlet))
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
