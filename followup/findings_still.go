package followup

// What shows while nothing should flow: water that moves by itself, thermometers that
// disagree, and frost.

import (
	"math"
	"slices"

	"curvewright/logs"
	"curvewright/units"
)

const (
	ghostExcess = 8.3      // K, 15 °F, of a resting pipe over the room an hour after
	leastRests  = 5        // rests of a circuit before its pipe is judged
	tankLoses   = 1.5      // K an hour at night, in quiet hours: usual tanks lose a quarter of that
	apartMost   = 1.5      // K between two sensors that ought to agree
	coldPipe    = 5.0      // °C, 40 °F
	coldRoom    = 7.0      // °C, 45 °F
	coldFor     = 1800.0   // s
	lockedFor   = 3        // h without fire in the cold
	quietRest   = 6 * 3600 // s after which pipes have the temperature of the room
)

// rest is a stretch in which nothing is called for.
type rest struct{ from, to int } // rows, the last one included

// rests are the stretches with the pump, or the flow, and the fire off. Charges of the tank
// and the hour after them are none.
func (in *inspection) rests() []rest {
	f := in.f
	moves := f.pump
	if moves == nil {
		moves = f.flow
	}
	if moves == nil {
		return nil
	}
	var out []rest
	from, next := -1, 0
	for i, s := range f.l.Stamps {
		for next < len(f.charges) && f.charges[next].to+hour < s {
			next++
		}
		charged := next < len(f.charges) && f.charges[next].from <= s
		still := moves[i] < 1e-5 && !(f.burner != nil && f.burner[i] > burning) && !charged && (i == 0 || float64(s-f.l.Stamps[i-1]) <= f.hold)
		switch {
		case still && from < 0:
			from = i
		case !still && from >= 0:
			out = append(out, rest{from, i - 1})
			from = -1
		}
	}
	if from >= 0 {
		out = append(out, rest{from, len(f.l.Stamps) - 1})
	}
	return out
}

// roomOf is the mean of the rooms in the hour of a row.
func (in *inspection) roomOf(i int) float64 {
	k := int((in.f.l.Stamps[i] - in.f.hours.begin) / hour)
	if in.f.hours.room == nil || k >= len(in.f.hours.room) || math.IsNaN(in.f.hours.room[k]) {
		return zero + 20
	}
	return in.f.hours.room[k]
}

// ghost looks for water that goes round by itself: a pipe that stays warm though its pump
// rests, and a tank that cools at night though nobody draws.
func (in *inspection) ghost() {
	f := in.f
	if f.supply != nil {
		warm, judged := 0, 0
		var from, to int64
		for _, r := range in.rests() {
			var excess []float64
			for i := r.from; i <= r.to; i++ {
				if f.l.Stamps[i]-f.l.Stamps[r.from] >= hour && !math.IsNaN(f.supply[i]) {
					excess = append(excess, f.supply[i]-in.roomOf(i))
				}
			}
			if len(excess) == 0 || f.l.Stamps[r.to]-f.l.Stamps[r.from] < 2*hour {
				continue
			}
			if judged++; median(excess) > ghostExcess {
				if warm++; warm == 1 {
					from, to = f.l.Stamps[r.from], f.l.Stamps[r.to]
				}
			}
		}
		if judged >= leastRests && warm*2 > judged {
			in.add(Hydraulics, "water circulates by itself", from, to, warm, "a check valve or flow-check on the circuit; close it by hand and look whether the pipe cools",
				"an hour after its pump has stopped the supply is still %s and more above the rooms, in %d of %d rests", in.r.roughly(ghostExcess), warm, judged)
		}
	}
	in.leakingTank()
}

func (in *inspection) leakingTank() {
	hs := &in.f.hours
	tank := in.f.hourly(len(hs.out), in.f.tank)
	if tank == nil || len(hs.out) == 0 {
		return
	}
	var falls []float64
	for k := 1; k < len(tank); k++ {
		at := hs.begin + int64(k)*hour
		if h := in.f.hourOfDay(k); h < 1 || h > 5 || in.charging(at-2*hour, at+hour) || math.IsNaN(tank[k]) || math.IsNaN(tank[k-1]) {
			continue
		}
		falls = append(falls, tank[k-1]-tank[k])
	}
	if len(falls) < 20 {
		return
	}
	slices.Sort(falls)
	if quiet := falls[len(falls)/4]; quiet > tankLoses { // in three hours of four it falls faster
		from, to := in.span()
		in.add(TankAndTaps, "tank cools at night", from, to, len(falls), "a check valve in the circulation and a trap in the tank's pipes; a timer for the circulation pump, hygiene first; insulation",
			"in quiet hours of the night the tank falls by %s an hour and more", in.r.roughly(quiet))
	}
}

// disagree looks for sensors that are off by a steady amount: two outdoors, or supply and
// return after a long rest, when both have the temperature of the room.
func (in *inspection) disagree() {
	f := in.f
	from, to := in.span()
	if out := f.l.All(logs.Outdoor); len(out) > 1 {
		var d []float64
		for i, s := range f.l.Stamps {
			if h := logs.Clock(s).Hour(); h >= 6 && h < 22 {
				continue
			}
			if x := out[0].Values[i] - out[1].Values[i]; !math.IsNaN(x) {
				d = append(d, x)
			}
		}
		if off, steady := steadyOffset(d); steady {
			in.add(Sensors, "outdoor sensors disagree", from, to, len(d), "hold a shaded thermometer beside the control's sensor; move it away from wall, vent and window, or correct it in the control",
				"at night the two outdoor sensors differ by a steady %s: heat from a wall or a vent, or a wrong sensor", in.r.roughly(math.Abs(off)))
		}
	}
	if f.supply == nil || f.back == nil {
		return
	}
	var d []float64
	for _, r := range in.rests() {
		for i := r.from; i <= r.to; i++ {
			if f.l.Stamps[i]-f.l.Stamps[r.from] < quietRest {
				continue
			}
			if x := f.supply[i] - f.back[i]; !math.IsNaN(x) {
				d = append(d, x)
			}
		}
	}
	if off, steady := steadyOffset(d); steady {
		in.add(Sensors, "pipe sensors disagree", from, to, len(d), "swap the two sensors, or hold both in one glass of water, and take the difference off",
			"after hours without flow supply and return still differ by a steady %s: what the log says of flow and heat is off by as much", in.r.roughly(math.Abs(off)))
	}
}

// steadyOffset is the middle of differences that hardly change.
func steadyOffset(d []float64) (off float64, steady bool) {
	if len(d) < 50 {
		return 0, false
	}
	slices.Sort(d)
	n := len(d)
	off = d[n/2]
	return off, math.Abs(off) > apartMost && d[n*3/4]-d[n/4] < math.Abs(off)/2
}

// frost looks for pipes and rooms close to freezing, and for a boiler that stops when it is
// coldest.
func (in *inspection) frost() {
	for _, role := range []logs.Role{logs.Supply, logs.Return, logs.Boiler, logs.BoilerBack} {
		if from, to, lowest, found := in.coldest(column(in.f.l, role), coldPipe); found {
			in.add(FlowAndAir, "pipe close to freezing", from, to, 1, "let the frost protection start the pump first; insulate or move the pipe, or fill with as much glycol as is needed and correct flow and curve for it",
				"a water pipe falls to %s", in.r.say(units.Temperature(lowest)))
			break
		}
	}
	for _, room := range in.f.rooms {
		if from, to, lowest, found := in.coldest(room.values, coldRoom); found {
			in.add(FlowAndAir, "room close to freezing", from, to, 1, "a lowest room temperature of 7 to 10 °C (45 to 50 °F) in the control, and heat for that room",
				"%s falls to %s", room.name, in.r.say(units.Temperature(lowest)))
		}
	}
	in.locked()
}

// coldest finds the first stretch below a bound that lasts.
func (in *inspection) coldest(x []float64, bound float64) (from, to int64, lowest float64, found bool) {
	begin := int64(-1)
	for i, v := range x {
		at := in.f.l.Stamps[i]
		switch {
		case math.IsNaN(v):
		case v < zero+bound && v > zero-30:
			if begin < 0 {
				begin, lowest = at, v
			}
			lowest = math.Min(lowest, v)
			if float64(at-begin) >= coldFor {
				from, to, found = begin, at, true
			}
		case found:
			return from - hour, to + hour, lowest, true
		default:
			begin = -1
		}
	}
	return from - hour, to + hour, lowest, found
}

// locked looks for hours without fire when it is coldest, in which the water and the rooms
// cool: a drain of condensate that is frozen, a lock-out. Hours of the day in which the fire
// rests on other cold days as well are a programme.
func (in *inspection) locked() {
	hs := &in.f.hours
	if hs.on == nil || hs.out == nil || hs.room == nil {
		return
	}
	var outs []float64
	for _, v := range hs.out {
		if !math.IsNaN(v) {
			outs = append(outs, v)
		}
	}
	if len(outs) < 24*7 {
		return
	}
	slices.Sort(outs)
	border := math.Min(zero, outs[len(outs)/4])
	var off, all [24]int
	for k, v := range hs.on {
		if hs.out[k] < border && !math.IsNaN(v) {
			h := in.f.hourOfDay(k)
			all[h]++
			if v < 0.01 {
				off[h]++
			}
		}
	}
	for k := 1; k+lockedFor < len(hs.on); k++ {
		n := 0
		for k+n < len(hs.on) && hs.on[k+n] < 0.01 && hs.out[k+n] < border {
			n++
		}
		h := in.f.hourOfDay(k + n/2)
		if n < lockedFor || off[h]*4 > all[h] || !(hs.on[k-1] > 0.01) {
			k += n
			continue
		}
		fall := hs.room[k-1] - hs.room[k+n-1]
		cooled := hs.supply == nil || hs.supply[k+n-1] < hs.room[k+n-1]+8
		if fall > 0.7 && cooled {
			at := hs.begin + int64(k)*hour
			in.add(FlowAndAir, "boiler stops in the cold", at-2*hour, at+int64(n+2)*hour, 1, "look at the lock-outs that the boiler remembers, and for a condensate drain that freezes outdoors: indoors, or 30 mm (1 1/4 in) wide, short and insulated",
				"in the cold the fire stays off for %d hours, and the rooms fall by %s", n, in.r.roughly(fall))
			return
		}
		k += n
	}
}
