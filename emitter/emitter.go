// Package emitter gives the heat that radiators, fin-tube baseboards, cast iron,
// heated floors, fan coils and towel rails deliver for a water temperature and
// flow, and the water temperature that they need for a given heat.
//
// Everything an installer can find in a house becomes an [Emitter]. Radiators,
// fin-tube and floors share one law, a power of the logarithmic excess temperature
// ([PowerLaw]); fan coils follow effectiveness and transfer units ([Coil]). Several
// of them on one stream of water combine into [Series], side by side into
// [Parallel], and both are emitters again.
package emitter

import "curvewright/units"

// Heat is what an emitter does under one condition.
type Heat struct {
	Room   units.Power       // given to the room
	Water  units.Power       // taken from the water: Room and what is lost behind or below
	Return units.Temperature // water leaving
}

// Emitter gives heat from water to a room. Flow is the heat capacity flow of the
// water, mass flow times specific heat, in W/K.
type Emitter interface {
	// Output gives the heat at a supply temperature, a heat capacity flow and a room
	// temperature. Water no warmer than the room, or no flow, gives no heat: the
	// answer is zero, never negative.
	Output(supply units.Temperature, flow units.LossCoefficient, room units.Temperature) Heat
}
