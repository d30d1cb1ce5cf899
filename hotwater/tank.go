package hotwater

// How long does a tank take to heat, what does it deliver, and what does it lose
// while it stands?

import (
	"cmp"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Tank is a hot-water tank.
type Tank struct {
	Volume units.Volume
	Loss   units.LossCoefficient // to its surroundings, W/K
	Room   units.Temperature     // of the surroundings; needed with a loss
}

func (t Tank) check() error {
	err := cmp.Or(
		within("tank volume", t.Volume, smallestTank, largestTank),
		within("heat loss of the tank", t.Loss, 0, 100),
	)
	if err == nil && t.Loss > 0 {
		err = checkRoom(t.Room)
	}
	return err
}

// Heating is the heating of a tank from one temperature to another.
type Heating struct {
	Time  units.Time
	Heat  units.Energy // from the primary water
	Lost  units.Energy // to the surroundings meanwhile
	Begin Charging
	End   Charging
}

// heatingSteps divides a heating; where the limit passes from boiler to coil the heat
// has a kink, and Simpson's rule is then exact to about 1e-5.
const heatingSteps = 400

// HeatUp gives the time to heat the whole tank, mixed, from one temperature to
// another.
//
//	t = ∫ V·ρ·c/(Q(T) − H·(T − T_room)) dT
//
// Units: as the types.
// Range: tank 1 L to 10 m³, 0 to 95 °C; the charge as [Charge.At]. Water at the mean
// of both temperatures. A stratified tank is hot at the top sooner.
// Source: heat balance of a mixed tank.
// Errors: a figure outside the range, an end not above the start, a charge that never
// reaches the end.
func (t Tank) HeatUp(c Charge, from, to units.Temperature) (Heating, error) {
	p, err := c.prepare()
	if err == nil {
		err = t.check()
	}
	if err == nil {
		err = checkRise(from, to)
	}
	if err != nil {
		return Heating{}, err
	}
	capacity := float64(t.Volume) * perVolume(from, to)
	net := func(at units.Temperature) (q, lost float64) {
		return float64(p.at(at).Heat), float64(t.Loss) * float64(at-t.Room)
	}
	if q, lost := net(to); q-lost <= 1 {
		return Heating{}, &refuse.Error{Subject: subject, What: "tank temperature to reach", Given: tell(to),
			Accept: "what a primary of " + tell(c.Supply) + " can reach: raise it to the tank's target + 15 K (27 °F)"}
	}
	step := float64(to-from) / heatingSteps
	out := Heating{Begin: p.at(from), End: p.at(to)}
	for i := 0; i <= heatingSteps; i++ {
		weight := 2.0
		switch {
		case i == 0 || i == heatingSteps:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		q, lost := net(from + units.Temperature(float64(i)*step))
		out.Time += units.Time(weight * step / 3 * capacity / (q - lost))
		out.Lost += units.Energy(weight * step / 3 * capacity * lost / (q - lost))
	}
	out.Heat = units.Energy(capacity*float64(to-from)) + out.Lost
	return out, nil
}

// Recovery gives the flow of hot water that a heat makes without end.
//
//	V̇ = Q/(ρ·c·(T_hot − T_cold)), ρ·c at the mean of both
//
// Units: a power and temperatures; the result is a flow.
// Range: heat 0 to 1 MW; cold and hot 0 to 95 °C.
// Source: heat balance of a stream; the trade's figure in gallons per hour takes 8.25
// or 8.33 lb/gal and lies within 1 %.
// Errors: a figure outside the range, hot not above cold.
func Recovery(heat units.Power, cold, hot units.Temperature) (units.Flow, error) {
	err := cmp.Or(within("heat for hot water", heat, 0, largestPower), checkRise(cold, hot))
	if err != nil {
		return 0, err
	}
	return units.Flow(float64(heat) / (perVolume(cold, hot) * float64(hot-cold))), nil
}

// Continuous gives the flow of hot water that a charge keeps up without end: the
// coil works against water that enters cold and leaves hot.
//
//	Q = charge at (T_cold + T_hot)/2; V̇ = Q/(ρ·c·(T_hot − T_cold))
//
// Units: temperatures; the result is a flow with the charge behind it.
// Range: as [Charge.At] and [Recovery].
// Source: heat balance; mean of cold and hot beside the coil as in [NewCoil].
// Errors: as Charge.At and Recovery.
func (c Charge) Continuous(cold, hot units.Temperature) (units.Flow, Charging, error) {
	if err := checkRise(cold, hot); err != nil {
		return 0, Charging{}, err
	}
	out, err := c.At(cold + (hot-cold)/2)
	if err != nil {
		return 0, Charging{}, err
	}
	flow, err := Recovery(out.Heat, cold, hot)
	return flow, out, err
}

// UsableShare is the part of a full tank that leaves it hot before the cold water
// below has mixed in (common practice; from memory the share of the first-hour rule).
const UsableShare = units.Fraction(0.7)

// FirstHour gives the hot water that a charged tank delivers in its first hour.
//
//	V = s·V_tank + V̇·1 h
//
// Units: a volume, a share, a flow; the result is a volume.
// Range: tank 1 L to 10 m³, share 0.3 to 1, flow 0 to 300 L/min.
// Source: first-hour rule with s = 0.7, common practice.
// Errors: a figure outside the range.
func (t Tank) FirstHour(usable units.Fraction, recovery units.Flow) (units.Volume, error) {
	err := cmp.Or(
		t.check(),
		within("usable share of the tank", usable, 0.3, 1),
		within("recovery", recovery, 0, largestDraw),
	)
	if err != nil {
		return 0, err
	}
	return t.Volume*units.Volume(usable) + units.Volume(float64(recovery)*3600), nil
}

// LossFromRating gives a tank's loss per degree from a standing loss at rated
// temperatures.
//
//	H = P/(T_store − T_room)
//
// Units: a power and temperatures; result in W/K.
// Range: loss 0 to 5 kW; store at least 5 K above the room.
// Source: definition; European sheets rate at 65 °C in 20 °C (EN 12897, from memory).
// Errors: a figure outside the range.
func LossFromRating(loss units.Power, store, room units.Temperature) (units.LossCoefficient, error) {
	err := cmp.Or(
		within("standing loss of the tank", loss, 0, 5000),
		checkWater("tank temperature of the rating", store),
		checkRoom(room),
		within("tank above room in the rating", store.Sub(room), 5, 125),
	)
	if err != nil {
		return 0, err
	}
	return units.LossCoefficient(float64(loss) / float64(store-room)), nil
}

// LossFromCooling gives a tank's loss per degree from how it cooled without draw and
// without charge.
//
//	H = V·ρ·c·ln((T1 − T_room)/(T2 − T_room))/t
//
// Units: a volume, temperatures, a time; result in W/K.
// Range: 10 min to 14 d; the end below the start and at least 2 K above the room. The
// readings stand for the whole tank.
// Source: solution of C·dT/dt = −H·(T − T_room).
// Errors: a figure outside the range.
func LossFromCooling(volume units.Volume, start, end, room units.Temperature, after units.Time) (units.LossCoefficient, error) {
	err := cmp.Or(
		within("tank volume", volume, smallestTank, largestTank),
		checkRoom(room),
		checkRise(end, start),
		within("tank above room at the end", end.Sub(room), 2, 125),
		within("time of cooling", after, 600, 14*86400),
	)
	if err != nil {
		return 0, err
	}
	capacity := float64(volume) * perVolume(start, end)
	return units.LossCoefficient(capacity * math.Log(float64(start-room)/float64(end-room)) / float64(after)), nil
}

// After gives the temperature of a mixed tank that stood without draw and charge.
//
//	T = T_room + (T0 − T_room)·e^(−H·t/(V·ρ·c))
//
// Units: a temperature and a time; the result is a temperature.
// Range: tank 0 to 95 °C, 0 to 14 d.
// Source: solution of C·dT/dt = −H·(T − T_room), water at the mean of start and room.
// Errors: a figure outside the range, a tank that would freeze.
func (t Tank) After(start units.Temperature, stood units.Time) (units.Temperature, error) {
	err := cmp.Or(t.check(), checkWater("tank temperature", start), within("time the tank stood", stood, 0, 14*86400))
	if err != nil {
		return 0, err
	}
	if t.Loss == 0 {
		return start, nil
	}
	capacity := float64(t.Volume) * perVolume(start, max(t.Room, coldest))
	end := t.Room + (start-t.Room)*units.Temperature(math.Exp(-float64(t.Loss)*float64(stood)/capacity))
	if end < coldest {
		return 0, &refuse.Error{Subject: subject, What: "time the tank stood", Given: tell(stood), Accept: "less: around it are " + tell(t.Room) + ", and the tank freezes"}
	}
	return end, nil
}

// StandingLoss gives the heat that a tank loses while it stands at a temperature.
//
//	P = H·(T − T_room)
//
// Units: a temperature; result in W.
// Range: tank 0 to 95 °C.
// Source: heat balance.
// Errors: a figure outside the range.
func (t Tank) StandingLoss(at units.Temperature) (units.Power, error) {
	if err := cmp.Or(t.check(), checkWater("tank temperature", at)); err != nil {
		return 0, err
	}
	return units.Power(float64(t.Loss) * float64(at-t.Room)), nil
}
