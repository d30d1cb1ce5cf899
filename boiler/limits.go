package boiler

// How a figure that cannot be meant is refused, in words for the person who entered it.

import "curvewright/units"

// The widest figures that a house's boiler room can have. Outside them a key slipped.
const (
	leastPower  = units.Power(100)
	mostPower   = units.Power(1e7)
	coldestAir  = units.Temperature(203.15) // −70 °C
	warmestAir  = units.Temperature(333.15) // 60 °C
	mostExcess  = units.Fraction(4)
	mostVolume  = units.Volume(100)
	hottestLoop = units.Temperature(393.15) // 120 °C
)
