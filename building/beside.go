package building

// What lies beside a heated room and is not heated: attic, cellar, garage, crawl
// space.

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// UnheatedPlace is a kind of unheated space beside heated rooms.
type UnheatedPlace string

// The kinds of unheated space.
const (
	AtticVentilated     UnheatedPlace = "ventilated attic"            // air flows freely under the covering
	AtticPlain          UnheatedPlace = "attic, roof not insulated"   // closed covering
	AtticInsulated      UnheatedPlace = "attic, roof insulated"       //
	CellarClosed        UnheatedPlace = "cellar without openings"     // no windows or outside doors
	CellarOpen          UnheatedPlace = "cellar with openings"        // windows or an outside door
	CrawlSpace          UnheatedPlace = "crawl space"                 //
	BesideOneOuterWall  UnheatedPlace = "room with one outer wall"    //
	BesideTwoOuterWalls UnheatedPlace = "room with two outer walls"   // without outside door
	BesideOuterDoor     UnheatedPlace = "room with an outside door"   // two outer walls, as a garage
	BesideThreeOuter    UnheatedPlace = "room with three outer walls" // an outer staircase
)

// ReductionFactor gives the usual share b of the room-to-outdoor difference that
// lies between a heated room and an unheated space.
//
//	b = (Ti − Tu) / (Ti − To)
//
// Units: a share of one: 0 as warm as the room, 1 as cold as outdoors.
// Range: the kinds of space listed.
// Source: EN 12831:2003 annex D, table of b_u, from memory.
// Errors: a kind of space that is not in the table.
func (p UnheatedPlace) ReductionFactor() (units.Fraction, error) {
	switch p {
	case AtticVentilated:
		return 1.0, nil
	case AtticPlain:
		return 0.9, nil
	case AtticInsulated:
		return 0.7, nil
	case CellarClosed:
		return 0.5, nil
	case CellarOpen, CrawlSpace, BesideThreeOuter:
		return 0.8, nil
	case BesideOneOuterWall:
		return 0.4, nil
	case BesideTwoOuterWalls:
		return 0.5, nil
	case BesideOuterDoor:
		return 0.6, nil
	}
	return 0, &refuse.Error{What: "unheated space", Given: fmt.Sprintf("%q", string(p)),
		Accept: "an attic, cellar, crawl space or unheated room as listed"}
}

// UnheatedLoss gives the loss through surfaces to an unheated space whose
// temperature follows the weather in part.
//
//	H = b · H_surfaces
//
// Units: W/K and a share of one.
// Range: coefficient 0 to 1,000,000 W/K; b 0 to 1.
// Source: EN 12831-1:2017, transmission to unheated spaces; ISO 13789.
// Errors: a figure outside the range. If the space's temperature was measured, use
// Toward instead.
func UnheatedLoss(surfaces units.LossCoefficient, b units.Fraction) (Loss, error) {
	err := cmp.Or(
		refuse.Within("heat loss per degree to the unheated space", surfaces, 0, largestLoss),
		refuse.Within("reduction factor b of the unheated space", b, 0, 1),
	)
	if err != nil {
		return Loss{}, err
	}
	return Loss{Outdoor: surfaces * units.LossCoefficient(b)}, nil
}

// ReductionFactorFromLosses gives b from what flows into an unheated space and out
// of it.
//
//	b = H_ue / (H_iu + H_ue)
//
// Units: two coefficients in W/K, ventilation of the space within H_ue.
// Range: both 0 to 1,000,000 W/K and not both zero.
// Source: ISO 13789.
// Errors: a coefficient outside the range, or both zero.
func ReductionFactorFromLosses(fromHouse, toOutdoor units.LossCoefficient) (units.Fraction, error) {
	err := cmp.Or(
		refuse.Within("heat loss per degree from the house to the unheated space", fromHouse, 0, largestLoss),
		refuse.Within("heat loss per degree from the unheated space to outdoors", toOutdoor, 0, largestLoss),
		refuse.Within("both heat losses per degree of the unheated space together", fromHouse+toOutdoor, 0.001, 2*largestLoss),
	)
	if err != nil {
		return 0, err
	}
	return units.Fraction(toOutdoor / (fromHouse + toOutdoor)), nil
}

// ReductionFactorFromTemperatures gives b from a temperature measured in the
// unheated space.
//
//	b = (Ti − Tu) / (Ti − To)
//
// Units: three temperatures.
// Range: the room at least 5 K warmer than outdoors, the space between the two;
// with less difference the reading says nothing.
// Source: EN 12831-1:2017, transmission to unheated spaces; the 5 K are common practice.
// Errors: temperatures outside the range.
func ReductionFactorFromTemperatures(room, space, outdoor units.Temperature) (units.Fraction, error) {
	err := cmp.Or(
		checkTemperature("room temperature", room),
		checkTemperature("outdoor temperature", outdoor),
		refuse.Within("room above outdoor temperature", room.Sub(outdoor), 5, 130),
		refuse.Within("temperature of the unheated space", space, outdoor, room),
	)
	if err != nil {
		return 0, err
	}
	return units.Fraction((room - space) / (room - outdoor)), nil
}
