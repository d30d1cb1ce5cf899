package hotwater

// How a figure that cannot be meant is refused, in words for the person who entered
// it.

import (
	"cmp"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
	"curvewright/working"
)

const subject = "hot water"

// within refuses a value that is no number or lies outside low to high.
func within[T refuse.Quantity](what string, v, low, high T) error {
	return refuse.Words[T]{Subject: subject, Tell: tell}.Within(what, v, low, high)
}

// tell prints in both systems, a volume as water.
func tell(v units.Quantity) string {
	if volume, ok := v.(units.Volume); ok {
		return refuse.Both(working.Water(volume))
	}
	return refuse.Both(v)
}

// The widest figures that a house's hot water can have. Outside them a key slipped.
const (
	coldest      = units.Temperature(273.15)      // water at its freezing point
	hottest      = units.Temperature(273.15 + 95) // hot water and tanks
	hottestPlant = units.Temperature(273.15 + 110)
	largestPower = units.Power(1e6)
	largestFlow  = units.LossCoefficient(1e5) // W/K, about 24 L/s of water
	largestDraw  = units.Flow(5e-3)           // 300 L/min
	smallestTank = units.Volume(1e-3)
	largestTank  = units.Volume(10)
)

func checkWater(what string, t units.Temperature) error { return within(what, t, coldest, hottest) }

func checkRoom(t units.Temperature) error {
	return within("temperature around the tank", t, units.Celsius(-30), units.Celsius(60))
}

// checkRise refuses a hot temperature that is not above the cold one.
func checkRise(cold, hot units.Temperature) error {
	err := cmp.Or(checkWater("cold water", cold), checkWater("hot water", hot))
	if err != nil {
		return err
	}
	if hot-cold < 0.1 {
		return &refuse.Error{Subject: subject, What: "hot water", Given: tell(hot), Accept: "above the cold water at " + tell(cold)}
	}
	return nil
}

// perVolume is the heat of one volume of water per degree, J/(m³·K), at the mean of
// two temperatures that have been checked to lie between 0 and 110 °C.
func perVolume(a, b units.Temperature) float64 {
	k, err := fluid.Water().HeatFactor(a + (b-a)/2)
	if err != nil {
		panic("hot water: a temperature was not checked: " + err.Error())
	}
	return float64(k)
}
