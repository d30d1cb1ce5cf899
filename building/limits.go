package building

// How a figure that cannot be meant is refused, in words for the person who
// entered it.

import (
	"curvewright/refuse"
	"curvewright/units"
)

// The widest figures that a house or a site can have. Outside them a key slipped.
const (
	smallestArea = units.Area(0.01)
	largestArea  = units.Area(1e5)
	coldest      = units.Temperature(203.15) // −70 °C
	warmest      = units.Temperature(333.15) // 60 °C
	largestU     = units.Transmittance(10)
	largestR     = units.Resistance(50)
	largestLoss  = units.LossCoefficient(1e6)
)

func checkTemperature(what string, t units.Temperature) error {
	return refuse.Within(what, t, coldest, warmest)
}

func checkArea(what string, a units.Area) error {
	return refuse.Within(what, a, smallestArea, largestArea)
}
