package sensor

import (
	"curvewright/refuse"
	"curvewright/units"
)

const subject = "sensor"

// within refuses a value that is no number or lies outside low to high.
func within[T refuse.Quantity](what string, v, low, high T) error {
	return refuse.Words[T]{Subject: subject}.Within(what, v, low, high)
}

// The widest figures that a sensor of a heating system can have.
const (
	least = units.ElectricResistance(1)
	most  = units.ElectricResistance(1e7)
)
