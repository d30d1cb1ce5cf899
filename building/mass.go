package building

// How fast does the house cool when the heat is off, and how long does it take to
// warm again?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// HeatCapacity is the heat that a house takes up per kelvin, in J/K.
type HeatCapacity float64

// Text prints the value with its unit for a reader of the system.
func (c HeatCapacity) Text(s units.System) string {
	if s.In(units.Losses) == units.US {
		return fmt.Sprintf("%.0f\u00a0Btu/°F", float64(c)*5/9/1055.05585262)
	}
	return fmt.Sprintf("%.1f\u00a0MJ/K", float64(c)/1e6)
}

// MassClass is how heavily a house is built, by what its rooms can feel of it.
type MassClass string

// The classes with their heat capacity per floor area (ISO 13790 table 12, from
// memory).
const (
	VeryLight MassClass = "very light" // 80 kJ/m²K: boards and insulation, carpet
	Light     MassClass = "light"      // 110: timber frame, gypsum board
	Medium    MassClass = "medium"     // 165: some masonry, or screed floors
	Heavy     MassClass = "heavy"      // 260: masonry walls, concrete floors
	VeryHeavy MassClass = "very heavy" // 370: thick masonry throughout
)

// Capacity gives a house's heat capacity from its class and heated floor area.
//
//	C = c · A; c = 80, 110, 165, 260, 370 kJ/m²K
//
// Units: an area; the result in J/K.
// Range: floor area 1 to 100,000 m².
// Source: ISO 13790 table 12, daily swing, from memory.
// Errors: a class that is not in the table or an area outside the range.
func Capacity(class MassClass, floor units.Area) (HeatCapacity, error) {
	if err := refuse.Within("heated floor area", floor, 1, largestArea); err != nil {
		return 0, err
	}
	var perArea HeatCapacity
	switch class {
	case VeryLight:
		perArea = 80e3
	case Light:
		perArea = 110e3
	case Medium:
		perArea = 165e3
	case Heavy:
		perArea = 260e3
	case VeryHeavy:
		perArea = 370e3
	default:
		return 0, &refuse.Error{What: "class of building mass", Given: fmt.Sprintf("%q", string(class)),
			Accept: "very light, light, medium, heavy or very heavy"}
	}
	return perArea * HeatCapacity(floor), nil
}

// TimeConstant gives the time in which a house left alone loses 63 % of its warmth
// above outdoors.
//
//	τ = C / H
//
// Units: J/K and the house's loss; the result is a time.
// Range: C 10 kJ/K to 100 GJ/K, H 0.001 W/K to 1 MW/K.
// Source: ISO 13790 clause 12.2.1.3, one capacity.
// Errors: a figure outside the range.
func TimeConstant(c HeatCapacity, l Loss) (units.Time, error) {
	err := cmp.Or(
		refuse.Within("heat capacity of the house", c, 1e4, 1e11),
		refuse.Within("loss coefficient of the house", l.Coefficient(), 0.001, largestLoss),
	)
	if err != nil {
		return 0, err
	}
	return units.Time(float64(c) / float64(l.Coefficient())), nil
}

// FreeCooling gives the room temperature some time after the heating stopped.
//
//	T = T∞ + (T0 − T∞)·e^(−t/τ); T∞ is where the gains alone hold the house
//
// Units: a loss, times, temperatures, a power.
// Range: time constant 1 min to 10,000 h, time 0 to 10,000 h, temperatures −70 to
// 60 °C, gains 0 to 1 MW; steady weather. A single capacity misses the quick first
// drop of the air.
// Source: solution of C·dT/dt = gains − H·(T − To), as ISO 13790.
// Errors: a figure outside the range.
func FreeCooling(l Loss, constant units.Time, start, outdoor units.Temperature, gains units.Power, after units.Time) (units.Temperature, error) {
	err := cmp.Or(
		checkConstant(constant),
		checkTemperature("room temperature at the start", start),
		checkTemperature("outdoor temperature", outdoor),
		refuse.Within("gains", gains, 0, 1e6),
		refuse.Within("time without heating", after, 0, units.Hours(1e4)),
	)
	if err != nil {
		return 0, err
	}
	end, err := l.RoomWith(gains, outdoor)
	if err != nil {
		return 0, err
	}
	decay := math.Exp(-float64(after / constant))
	return end + (start-end)*units.Temperature(decay), nil
}

func checkConstant(constant units.Time) error {
	return refuse.Within("time constant", constant, units.Hours(1.0/60), units.Hours(1e4))
}

// Reheat gives the time that a constant heat needs to bring the room to a target.
//
//	t = τ · ln((T∞ − T0)/(T∞ − T)); T∞ is where that heat would hold the house
//
// Units: a loss, temperatures, a power; the result is a time.
// Range: time constant 1 min to 10,000 h, temperatures −70 to 60 °C, heat 0 to
// 1 MW. One capacity: the air is warm sooner than the walls.
// Source: solution of C·dT/dt = P − H·(T − To), as ISO 13790.
// Errors: a figure outside the range, or a heat with which the target is never
// reached. A target at or below the start takes no time.
func Reheat(l Loss, constant units.Time, start, target, outdoor units.Temperature, heat units.Power) (units.Time, error) {
	err := cmp.Or(
		checkConstant(constant),
		checkTemperature("room temperature at the start", start),
		checkTemperature("target room temperature", target),
		checkTemperature("outdoor temperature", outdoor),
		refuse.Within("heat put in", heat, 0, 1e6),
	)
	if err != nil {
		return 0, err
	}
	if target <= start {
		return 0, nil
	}
	end, err := l.RoomWith(heat, outdoor)
	if err != nil {
		return 0, err
	}
	if target >= end-1e-6 {
		return 0, &refuse.Error{What: "target room temperature", Given: refuse.Both(target),
			Accept: "below " + refuse.Both(end) + ", which " + refuse.Both(heat) + " can hold at " + refuse.Both(outdoor) + " outdoors"}
	}
	return constant * units.Time(math.Log(float64(end-start)/float64(end-target))), nil
}
