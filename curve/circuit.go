package curve

import (
	"errors"
	"fmt"
	"math"

	"curvewright/building"
	"curvewright/emitter"
	"curvewright/units"
)

// Hottest is the supply temperature at which the search for a room's need ends:
// above the boiling point at the pressure of a house there is nothing to set.
var Hottest = units.Celsius(115)

// Room is a room as one circuit sees it: the part of its loss that the circuit
// carries, and what heats it.
type Room struct {
	Name     string
	Setpoint units.Temperature
	Loss     building.Loss // the part carried by this circuit
	Gains    units.Power   // the part credited to this circuit
	Emitters []emitter.Emitter
	Flows    []units.LossCoefficient // heat capacity flow through each emitter
}

// Load gives the heat that the circuit has to bring into the room.
//
//	Q = H·(Ti − To) + Hf·(Ti − Tf) − gains, not below zero
//
// Units: W; temperatures in kelvin.
// Range: any outdoor temperature.
// Source: steady heat balance, EN 12831-1:2017 without reheat.
func (r Room) Load(outdoor, inside units.Temperature) units.Power {
	return max(0, r.Loss.At(inside, outdoor)-r.Gains)
}

// Circuit is rooms on one supply temperature. In a series circuit one stream passes
// through the emitters in the order of Loop; otherwise each emitter has its own.
type Circuit struct {
	Name  string
	Rooms []Room
	Flow  units.LossCoefficient // heat capacity flow of the whole circuit
	Loop  []Stop                // order of a series circuit; empty for a parallel one
}

// Stop is one emitter on a series loop.
type Stop struct{ Room, Emitter int }

// Check tells whether the circuit can be solved at all.
//
// Units: none.
// Range: at least one room; every room with an emitter that gives heat and a flow.
// Source: own requirement.
// Errors: a sentence naming the room and what is missing.
func (c Circuit) Check() error {
	if len(c.Rooms) == 0 {
		return errors.New("it heats no room")
	}
	for i, r := range c.Rooms {
		if len(r.Emitters) == 0 || len(r.Emitters) != len(r.Flows) {
			return fmt.Errorf("room %q has no emitter with a flow on it", r.Name)
		}
		if q := c.heat(i, Hottest, r.Setpoint); !(q > 0) {
			return fmt.Errorf("the emitters of room %q give no heat even with water at %s", r.Name, Hottest.Text(units.US))
		}
	}
	return nil
}

// heat is what room i gets from the circuit at a supply temperature when it is at
// the given temperature and every other room is at its set-point.
func (c Circuit) heat(i int, supply, inside units.Temperature) units.Power {
	r := c.Rooms[i]
	sum := units.Power(0)
	if len(c.Loop) == 0 {
		for k, e := range r.Emitters {
			sum += e.Output(supply, r.Flows[k], inside).Room
		}
		return sum
	}
	water := supply
	for _, s := range c.Loop {
		at := c.Rooms[s.Room].Setpoint
		if s.Room == i {
			at = inside
		}
		h := c.Rooms[s.Room].Emitters[s.Emitter].Output(water, c.Flow, at)
		if s.Room == i {
			sum += h.Room
		}
		water = h.Return
	}
	return sum
}

// Need gives the supply temperature at which room i just gets the heat q while it is
// at the given temperature.
//
// It brackets the supply between the room temperature and [Hottest] and closes in by
// the secant rule kept inside the bracket, since the output of every emitter rises
// with its supply.
//
// Units: W; kelvin.
// Range: q from 0 to the output at [Hottest]; in a series circuit the other rooms are
// taken at their set-points.
// Source: emitter laws of package emitter, solved for the supply.
// Errors: q beyond what the emitters give at [Hottest].
func (c Circuit) Need(i int, q units.Power, inside units.Temperature) (units.Temperature, error) {
	if q <= 0 {
		return inside, nil
	}
	r := c.Rooms[i]
	if len(c.Loop) == 0 && len(r.Emitters) == 1 {
		t, err := emitter.SupplyFor(r.Emitters[0], q, r.Flows[0], inside)
		if err == nil && t > Hottest {
			err = errors.New("beyond the hottest supply")
		}
		if err != nil {
			return 0, c.tooWeak(i, q, inside)
		}
		return t, nil
	}
	lo, hi := float64(inside), float64(Hottest)
	fHi := float64(c.heat(i, Hottest, inside) - q)
	if fHi < 0 {
		return 0, c.tooWeak(i, q, inside)
	}
	return units.Temperature(falsePosition(lo, -float64(q), hi, fHi, float64(q)*1e-7, func(x float64) float64 {
		return float64(c.heat(i, units.Temperature(x), inside) - q)
	})), nil
}

func (c Circuit) tooWeak(i int, q units.Power, inside units.Temperature) error {
	r := c.Rooms[i]
	return fmt.Errorf("room %q needs %s but its emitters give only %s with water at %s",
		r.Name, q.Text(units.US), c.heat(i, Hottest, inside).Text(units.US), Hottest.Text(units.US))
}

// Reaches gives the temperature at which room i settles when its valves are open,
// the water is at the given supply and it is so cold outside.
//
// Units: kelvin.
// Range: in a series circuit the other rooms are taken at their set-points. The answer
// lies between the outdoor temperature and the warmer of supply and balance without heat.
// Source: steady heat balance of loss, gains and emitter output.
func (c Circuit) Reaches(i int, supply, outdoor units.Temperature) units.Temperature {
	r := c.Rooms[i]
	short := func(x float64) float64 {
		in := units.Temperature(x)
		return float64(r.Loss.At(in, outdoor) - r.Gains - c.heat(i, supply, in))
	}
	// The balance rises with the room temperature. Start at the set-point, where it
	// mostly ends, and widen until it changes sign.
	at := float64(r.Setpoint)
	f := short(at)
	step := 2.0
	if f > 0 {
		step = -step
	}
	a, fa := at, f
	for range 40 {
		b := a + step
		fb := short(b)
		if (fb > 0) != (fa > 0) || fb == 0 {
			if a > b {
				a, fa, b, fb = b, fb, a, fa
			}
			return units.Temperature(falsePosition(a, fa, b, fb, math.Max(1e-6*math.Abs(f), 1e-4), short))
		}
		a, fa = b, fb
		step *= 1.6
	}
	return units.Temperature(a)
}

// falsePosition finds the zero of a rising function inside a bracket by the secant
// rule with the Illinois correction, to a residual of tol. It is bounded: fifty
// evaluations end it at the best point found, which a halving bracket could not better.
func falsePosition(a, fa, b, fb, tol float64, f func(float64) float64) float64 {
	x := b
	for n := range 50 {
		x = b - fb*(b-a)/(fb-fa)
		if !(x > math.Min(a, b) && x < math.Max(a, b)) || n%8 == 7 {
			x = (a + b) / 2
		}
		fx := f(x)
		if math.Abs(fx) <= tol || math.Abs(b-a) < 1e-9 {
			return x
		}
		if (fx > 0) != (fb > 0) {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = x, fx
	}
	return x
}
