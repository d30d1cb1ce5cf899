package building

// How much heat does a house or a room lose at a given outdoor temperature?

import (
	"cmp"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Loss is how a room or a house loses heat: in proportion to the outdoor cold, and
// beside that towards places whose temperature does not follow the day (the ground,
// a cellar, a neighbour's rooms).
type Loss struct {
	Outdoor units.LossCoefficient // towards outdoor air, W/K
	Fixed   units.LossCoefficient // towards places of steady temperature, W/K
	FixedAt units.Temperature     // their mean temperature, weighted by coefficient
}

// At gives the heat lost at a room and an outdoor temperature; it is negative when
// the surroundings warm the room.
//
//	Q = Outdoor · (Ti − To) + Fixed · (Ti − FixedAt)
//
// Units: temperatures; the result is a power.
// Range: any temperatures; steady state, without gains.
// Source: heat balance of a room, as in EN 12831-1:2017.
func (l Loss) At(room, outdoor units.Temperature) units.Power {
	toOutdoor := float64(l.Outdoor) * float64(room-outdoor)
	toFixed := float64(l.Fixed) * float64(room-l.FixedAt)
	return units.Power(toOutdoor + toFixed)
}

// Plus adds two losses of the same room or house.
//
//	FixedAt = (F1·T1 + F2·T2) / (F1 + F2)
//
// Units: losses in W/K.
// Range: coefficients not negative; with no fixed part FixedAt is left at zero,
// which no result depends on.
// Source: heat balance: the sum loses at any temperature what both lose.
func (l Loss) Plus(other Loss) Loss {
	sum := Loss{Outdoor: l.Outdoor + other.Outdoor, Fixed: l.Fixed + other.Fixed}
	if sum.Fixed != 0 {
		weighted := float64(l.Fixed)*float64(l.FixedAt) + float64(other.Fixed)*float64(other.FixedAt)
		sum.FixedAt = units.Temperature(weighted / float64(sum.Fixed))
	}
	return sum
}

// Scale gives a share of the loss, such as a room's share of its house.
//
//	coefficients times f, temperatures unchanged
//
// Units: a share of one.
// Range: f not negative.
// Source: heat balance.
func (l Loss) Scale(f units.Fraction) Loss {
	l.Outdoor *= units.LossCoefficient(f)
	l.Fixed *= units.LossCoefficient(f)
	return l
}

// Coefficient gives both parts together: what one degree in the room costs.
//
//	H = Outdoor + Fixed
//
// Units: W/K.
// Range: any.
// Source: heat balance.
func (l Loss) Coefficient() units.LossCoefficient { return l.Outdoor + l.Fixed }

// BalanceOutdoor gives the outdoor temperature below which the gains no longer
// carry the loss, so that heating must begin.
//
//	To = Ti − (gains − Fixed·(Ti − FixedAt)) / Outdoor
//
// Units: temperatures and a power.
// Range: Outdoor above zero; a loss that does not feel the outdoor air has no
// balance and the room temperature is returned. Never below 0 K.
// Source: balance temperature, as ISO 15927-6 and degree-day practice.
func (l Loss) BalanceOutdoor(room units.Temperature, gains units.Power) units.Temperature {
	if l.Outdoor <= 0 {
		return room
	}
	left := float64(gains) - float64(l.Fixed)*float64(room-l.FixedAt)
	return units.Temperature(math.Max(0, float64(room)-left/float64(l.Outdoor)))
}

// RoomWith gives the room temperature at which the heat put in is just lost.
//
//	Ti = (Outdoor·To + Fixed·FixedAt + Q) / (Outdoor + Fixed)
//
// Units: a temperature and a power.
// Range: a loss coefficient above zero; steady state.
// Source: heat balance.
// Errors: a loss coefficient that is zero or negative.
func (l Loss) RoomWith(heat units.Power, outdoor units.Temperature) (units.Temperature, error) {
	if err := refuse.Within("loss coefficient", l.Coefficient(), 0.001, largestLoss); err != nil {
		return 0, err
	}
	sum := float64(l.Outdoor)*float64(outdoor) + float64(l.Fixed)*float64(l.FixedAt) + float64(heat)
	return units.Temperature(sum / float64(l.Coefficient())), nil
}

// Toward makes a loss towards a place of known temperature: a neighbour's rooms, a
// cellar whose temperature was measured, a room kept at another set-point (a warmer
// one gives heat).
//
// Units: W/K and a temperature.
// Range: a coefficient that is not negative; the place keeps its temperature
// whatever the weather.
// Source: EN 12831-1:2017, transmission to adjacent rooms, in our own split.
func Toward(coefficient units.LossCoefficient, at units.Temperature) Loss {
	return Loss{Fixed: coefficient, FixedAt: at}
}

// FromDesign turns a load calculated for the design day into a loss, all of it
// towards the outdoor air.
//
//	Outdoor = load / (Ti − To)
//
// Units: a power and two temperatures.
// Range: load 10 W to 1000 kW; room at least 1 K above outdoor. The ground's share
// is taken to follow the weather, which overstates the load in deep cold and
// understates it in mild weather a little.
// Source: definition of the heat loss coefficient, ISO 13789.
// Errors: a load or a pair of temperatures outside the range.
func FromDesign(load units.Power, room, outdoor units.Temperature) (Loss, error) {
	err := cmp.Or(
		refuse.Within("design load", load, 10, 1e6),
		checkTemperature("room temperature", room),
		checkTemperature("design outdoor temperature", outdoor),
		refuse.Within("room above design outdoor temperature", room.Sub(outdoor), 1, 130),
	)
	if err != nil {
		return Loss{}, err
	}
	return Loss{Outdoor: units.LossCoefficient(float64(load) / float64(room-outdoor))}, nil
}

// Extra heat through the joints of a building, added to the U-value of every
// surface to the outdoors when nothing better is known (EN 12831-1:2017, default
// table of ΔU_TB).
const (
	BridgesBestPractice units.Transmittance = 0.02 // new, joints designed to best practice
	BridgesNew          units.Transmittance = 0.05 // new
	BridgesOther        units.Transmittance = 0.10 // any other
	BridgesBrokenInside units.Transmittance = 0.15 // insulation inside, broken by solid ceilings
)

// OutsideLoss gives the loss through a surface to the outdoor air.
//
//	H = A · (U + ΔU)
//
// Units: an area and two U-values; the result in W/K.
// Range: area 0.01 to 100,000 m², U and ΔU 0 to 10 W/m²K.
// Source: EN 12831-1:2017, transmission to the outside, with f_U = f_ie = 1.
// Errors: a figure outside the range.
func OutsideLoss(area units.Area, u, bridges units.Transmittance) (Loss, error) {
	err := cmp.Or(
		checkArea("surface area", area),
		refuse.Within("U-value", u, 0, largestU),
		refuse.Within("extra U-value for thermal bridges", bridges, 0, largestU),
	)
	if err != nil {
		return Loss{}, err
	}
	return Loss{Outdoor: through(area, u+bridges)}, nil
}

func through(area units.Area, u units.Transmittance) units.LossCoefficient {
	return units.LossCoefficient(float64(area) * float64(u))
}
