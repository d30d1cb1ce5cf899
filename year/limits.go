package year

// The widest figures that a house can have. Outside them a key slipped.

import (
	"cmp"

	"curvewright/building"
	"curvewright/refuse"
	"curvewright/units"
)

const (
	coldest = units.Temperature(203.15) // −70 °C
	hottest = units.Temperature(383.15) // 110 °C, of heating water
	warmest = units.Temperature(333.15) // 60 °C, of air

	leastCapacity = building.HeatCapacity(500)  // half a quart of water
	mostCapacity  = building.HeatCapacity(1e10) // J/K
	mostLoss      = units.LossCoefficient(1e5)
	mostPower     = units.Power(1e7)
	mostArea      = units.Area(1e4)
	mostTime      = units.Time(30 * 86400)
	mostWattage   = units.Power(1e4) // of a pump or a fan
	mostInflow    = units.LossCoefficient(1e6)

	mostRooms    = 100
	mostCircuits = 20
	mostEmitters = 400
	mostFacades  = 64
	mostExchange = units.Fraction(1.8) // beyond, tube and cover are of different floors
)

func checkLoss(what string, l building.Loss) error {
	err := cmp.Or(refuse.Within(what+" to outdoors", l.Outdoor, 0, mostLoss), refuse.Within(what+" to a steady place", l.Fixed, 0, mostLoss))
	if err == nil && l.Fixed > 0 {
		err = refuse.Within(what+": temperature of the steady place", l.FixedAt, coldest, warmest)
	}
	return err
}
