// Package building gives the heat that a house or a room loses, how fast it cools,
// and how sure those figures are.
//
// Everything ends in a [Loss]: a part towards the outdoor air and a part towards
// places of steady temperature. It can come from a year of fuel bills ([Bills]),
// from ten answers about the house ([Survey]), from a load that someone else
// calculated ([FromDesign]), or from the parts of a room ([OutsideLoss],
// [AirLoss], [UnheatedLoss], [GroundLoss], [Toward]) added with Plus.
//
// What the package does not do: solar gains by orientation, moisture, two- or
// three-dimensional heat bridges, mechanical fasteners and air gaps in insulation,
// and flowing ground water.
package building
