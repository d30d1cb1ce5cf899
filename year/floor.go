package year

// How does a heated floor that was rated by the standard become layers that store heat?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/building"
	"curvewright/emitter"
	"curvewright/refuse"
	"curvewright/units"
)

// MasonryHeat is the heat that screed, concrete or stone takes up by volume, 2.0 MJ/m³K;
// a wooden deck has about half of it. Common practice.
const MasonryHeat = units.VolumetricHeat(2.0e6)

// surfaceResistance is that of the warm surface in the floor's rating, m²K/W.
const surfaceResistance = 1 / 10.8

// FloorSlab makes the layers of a heated floor so that in steady state it gives what its
// rating says, and stores what its cover weighs.
//
//	room – 1/10.8 + R_B + s/4λ – upper half of the cover – 3s/4λ – lower half – R_down – below
//	N = K_H·A·(1 + down per up)/W, ε = (1 − e^(−N))/(1 − (1 − e^(−N))·W·R_o/(A·(1 + down per up)))
//
// ε is the share of the water's excess over the lower half that it gives up. It follows
// from the rating, whose excess is over the room. It may lie above one: the cover is
// cooler than its mean where the water leaves.
//
// Units: as the types; flow in W/K.
// Range: as [emitter.Floor.Check]; heat by volume 0.2 to 4 MJ/m³K; the rating must leave a
// resistance between water and cover.
// Source: transmission K_H and downward loss of EN 1264-2, resistances in series; two
// nodes for the cover: own choice.
// Errors: a floor that cannot be rated, a figure outside the range.
func FloorSlab(room int, f emitter.Floor, heat units.VolumetricHeat, flow units.LossCoefficient) (Slab, error) {
	rated, err := f.Factors()
	if err != nil {
		return Slab{}, err
	}
	if err := cmp.Or(refuse.Within("heat of the cover by volume", heat, 0.2e6, 4e6), refuse.Within("flow through the floor", flow, 0.1, mostInflow)); err != nil {
		return Slab{}, err
	}
	area, stream := float64(f.Area), float64(flow)
	cover := float64(f.Cover) / float64(f.Conductivity)
	outer := surfaceResistance + float64(f.Covering) + cover/4
	upward := outer + 0.75*cover
	downPerUp := upward / float64(f.Down)
	given := -math.Expm1(-float64(rated.Transmission) * area * (1 + downPerUp) / stream)
	exchange := given / (1 - given*stream*upward/(area*(1+downPerUp)))
	if !(exchange > 0 && exchange <= float64(mostExchange)) {
		return Slab{}, fmt.Errorf("floor: its rating of %s leaves no resistance between water and cover; check cover, covering and spacing", refuse.Both(rated.Transmission))
	}
	half := building.HeatCapacity(float64(heat) * area * float64(f.Cover) / 2)
	return Slab{
		Room: room, Up: units.LossCoefficient(area / outer), Tube: 1, Exchange: units.Fraction(exchange), Flow: flow,
		Layers: []Layer{{Capacity: half, Below: units.LossCoefficient(area / (0.75 * cover))}, {Capacity: half}},
		Down:   building.Toward(units.LossCoefficient(area/float64(f.Down)), f.Below),
	}, nil
}
