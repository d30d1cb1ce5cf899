package emitter

// Which supply temperature does a given heat need? Closed where the emitter's law
// can be turned round, by a bounded search where emitters are combined.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// invertible is an emitter that can answer the question itself.
type invertible interface {
	SupplyFor(q units.Power, flow units.LossCoefficient, room units.Temperature) (units.Temperature, error)
}

// SupplyFor gives the supply temperature at which an emitter gives the room the heat
// q, in closed form for [PowerLaw] and [Coil], else by halving the interval between
// the room and 150 °C until it is closed to a millionth of a kelvin. Where the
// output jumps past q the upper side of the jump is given, so the room never gets
// too little.
//
// Units: q in W, flow in W/K, room in K; result in K.
// Range: q from 0; flow above 0; answers to 150 °C (302 °F).
// Source: inverse of the emitter's own law; no range given by a standard.
// Errors: no emitter, a negative heat, no flow, a supply above 150 °C.
func SupplyFor(e Emitter, q units.Power, flow units.LossCoefficient, room units.Temperature) (units.Temperature, error) {
	if e == nil {
		return 0, fmt.Errorf("supply temperature: there is no emitter; enter the radiator, baseboard or floor first")
	}
	if own, ok := e.(invertible); ok {
		return own.SupplyFor(q, flow, room)
	}
	if err := checkDemand(q, flow, room); err != nil || q == 0 {
		return room, err
	}
	low, high := room, highestSupply
	if e.Output(high, flow, room).Room < q {
		return withinHouse(high+1, q, flow)
	}
	for high-low > 1e-6 {
		middle := low + (high-low)/2
		if e.Output(middle, flow, room).Room < q {
			low = middle
		} else {
			high = middle
		}
	}
	return high, nil
}

// SupplyForExcess gives the supply temperature that belongs to a mean water excess
// and a drop between supply and return: with a floor's limit excess, the hottest
// supply that the floor may see.
//
//	Ts = ti + D/(1 − e^(−D/M)); at D = 0 it is ti + M
//
// Units: mean and drop in K, room in K; result in K.
// Range: mean above 0, drop from 0.
// Source: inverse of the logarithmic mean; EN 1264-2 uses it for Δθ_H.
// Errors: a mean that is not above zero, a negative drop.
func SupplyForExcess(mean, drop units.Difference, room units.Temperature) (units.Temperature, error) {
	switch {
	case !(mean > 0 && mean <= largestExcess):
		return 0, fmt.Errorf("supply temperature: a mean water excess of %s is not usable; accepted: above 0 K", refuse.Both(mean))
	case !(drop >= 0 && drop <= largestExcess):
		return 0, fmt.Errorf("supply temperature: a drop of %s between supply and return is not usable; accepted: 0 K or more", refuse.Both(drop))
	case !finite(float64(room)):
		return 0, fmt.Errorf("supply temperature: the room has no temperature; give one, for example 20 °C or 68 °F")
	}
	return room + units.Temperature(inletExcess(float64(mean), float64(drop))), nil
}

// inletExcess turns the logarithmic mean round: the excess at the inlet from mean and drop.
func inletExcess(mean, drop float64) float64 {
	ratio, _ := inletRatio(drop / mean)
	return mean * ratio
}

func checkDemand(q units.Power, flow units.LossCoefficient, room units.Temperature) error {
	switch {
	case !(q >= 0) || math.IsInf(float64(q), 0):
		return fmt.Errorf("supply temperature: a heat of %s cannot be given; accepted: 0 W or more", refuse.Both(q))
	case q > 0 && !(flow > 0 && flow <= largestFlow):
		return fmt.Errorf("supply temperature: a flow of %s carries no heat; a flow above 0 is needed", refuse.Both(flow))
	case !(room > 200 && room < highestSupply):
		return fmt.Errorf("supply temperature: a room at %s is not usable; give its temperature, for example 20 °C or 68 °F", refuse.Both(room))
	}
	return nil
}

func withinHouse(supply units.Temperature, q units.Power, flow units.LossCoefficient) (units.Temperature, error) {
	if !(supply <= highestSupply) {
		return 0, fmt.Errorf("supply temperature: %s at a flow of %s would need water above %s; accepted: less heat, more flow or a larger emitter", refuse.Both(q), refuse.Both(flow), refuse.Both(highestSupply))
	}
	return supply, nil
}
