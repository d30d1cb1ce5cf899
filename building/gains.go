package building

import (
	"cmp"

	"curvewright/refuse"
	"curvewright/units"
)

// Heat that people, cooking and appliances give per heated floor area (common
// practice).
const (
	// DependableGains are there on the coldest night, when nobody cooks: refrigerator,
	// standing losses, sleepers. A curve's design point may count on no more.
	DependableGains units.Flux = 2
	// AverageGains are the mean of a lived-in day without sun, for a year's energy and
	// for balance temperatures.
	AverageGains units.Flux = 5
	// SeasonSun is what comes through the windows in heating weather, mean of the day.
	SeasonSun units.Flux = 3
)

// Gains gives the heat for a floor area.
//
//	Q = q · A
//
// Units: W/m² and an area; the result is a power.
// Range: 0 to 50 W/m²; floor area 1 to 100,000 m².
// Source: definition; figures for dwellings: common practice.
// Errors: a figure outside the range.
func Gains(perArea units.Flux, floor units.Area) (units.Power, error) {
	err := cmp.Or(
		refuse.Within("gains per floor area", perArea, 0, 50),
		refuse.Within("heated floor area", floor, 1, largestArea),
	)
	if err != nil {
		return 0, err
	}
	return units.Power(float64(perArea) * float64(floor)), nil
}
