package building

import "curvewright/units"

// Loss is how a room or a house loses heat: in proportion to the outdoor cold, and
// beside that towards places whose temperature does not follow the day (the ground,
// a cellar, a neighbour's rooms).
type Loss struct {
	Outdoor units.LossCoefficient // towards outdoor air, W/K
	Fixed   units.LossCoefficient // towards places of steady temperature, W/K
	FixedAt units.Temperature     // their mean temperature, weighted by coefficient
}
