package boiler

import (
	"cmp"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Boiler and emitters are one body of water only where much water runs between them.
// Where valves close and one small circuit calls alone, the boiler swings by itself.

// How long runs and rests are followed until they repeat, and how many steps the quicker
// body gets until it has gone its way.
const (
	apartFor   = 8 * 3600.0
	apartSteps = 6
	apartLong  = 30.0 // s, the longest step
)

// Apart gives the mean cycle under a load where only a part of the water is at the boiler
// and the rest lies in emitters, to which the flow carries heat.
//
//	C1·dT1/dt = Q_burner − G·(T1 − T2), C2·dT2/dt = G·(T1 − T2) − Q_load
//
// The burner stops half the differential above the set-point and starts half of it below,
// when its rest is over. With a great flow it is [Cycling.Under].
//
// Units: exchange and load in W/K and W; times in s, starts per second.
// Range: as [Cycling.Under]; water at the boiler from 0.1 L to nine tenths of all, exchange
// 1 W/K to 1 MW/K.
// Source: heat balance of two bodies, followed for eight hours in steps.
// Errors: a figure outside the range.
func (c Cycling) Apart(near units.Volume, exchange units.LossCoefficient, load units.Power) (Cycle, error) {
	capacity, err := c.capacity()
	err = cmp.Or(err,
		refuse.Within("water at the boiler", near, 1e-4, c.Water),
		refuse.Within("heat that the flow carries", exchange, 1, 1e6),
		refuse.Within("heat load", load, 0, mostPower),
	)
	if err != nil {
		return Cycle{}, err
	}
	share := min(0.9, float64(near/c.Water))
	if load >= c.Least || float64(load) < float64(c.Least)*1e-6 {
		return c.Under(load)
	}
	q1, q2, g, half := 1/(capacity*share), 1/(capacity*(1-share)), float64(exchange), float64(c.Differential)/2
	dt := min(apartLong, 1/(g*(q1+q2))/apartSteps, half/(float64(c.Least)*q1))
	t1, t2 := 0.0, -float64(load)/g // at the boiler's set-point, the emitters as much cooler as the load asks
	burning, rested, ran, starts, high, low := true, 0.0, 0.0, 0, 0.0, 0.0
	for range int(apartFor / dt) {
		fire := 0.0
		if burning {
			fire = float64(c.Least)
			ran += dt
		}
		carried := g * (t1 - t2)
		t1 += dt * q1 * (fire - carried)
		t2 += dt * q2 * (carried - float64(load))
		high, low = math.Max(high, t1), math.Min(low, t1)
		if burning {
			if t1 > half {
				burning, rested = false, 0
			}
			continue
		}
		if rested += dt; t1 <= -half && rested >= float64(c.LeastOff) {
			burning = true
			starts++
		}
	}
	if starts == 0 { // one cycle takes longer than was followed: then the bodies move together
		return c.Under(load)
	}
	each := apartFor / float64(starts)
	on := ran / float64(starts)
	return Cycle{On: units.Time(on), Off: units.Time(each - on), Starts: units.Frequency(1 / each),
		Share: units.Fraction(ran / apartFor), Swing: units.Difference(high - low)}, nil
}
