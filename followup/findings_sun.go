package followup

// Does the sun reach the outdoor sensor, and is it the one that the control goes by? One
// column is enough to see a wall being lit; whether the supply goes with it tells whose
// sensor it is.

import (
	"fmt"
	"math"
	"slices"

	"curvewright/units"
)

const (
	sunJump   = 3.0  // K above the hours about it: sun on a sensor, not weather
	sunRise   = 4.0  // K in two hours, if the sun stays on it for long …
	sunSudden = 3.0  // … and so much more than in the two before and the two after
	sunDays   = 0.12 // share of days on which it shows
	sunNoon   = 0.30 // the same about noon, when the air is warmest anyway
	sunHours  = 3    // of the clock that count as one: the sun's way changes with the season
	clearFrom = 5.0  // K from the coldest to the warmest hour of a day in which the sun may have shone
	leastSun  = 4    // days with it, and without, before the supply is asked
	goesWith  = 0.3  // share of the curve's answer that tells the control's own sensor
)

// sunEvent is an hour in which the outdoor temperature shows more than the air.
type sunEvent struct {
	k     int     // of the hours
	above float64 // K, over what it would have been
}

// outdoorSensor looks for sun at the sensor.
func (in *inspection) outdoorSensor() {
	in.r.Sunned = in.sunned()
	in.dips()
}

// sunned gives the share of days on which the sun reaches the sensor, and adds a finding
// if it does.
func (in *inspection) sunned() Estimate[units.Fraction] {
	hs := &in.f.hours
	days := len(in.f.days)
	switch {
	case hs.out == nil:
		return unknown[units.Fraction]("these data cannot tell: no column gives the outdoor temperature")
	case days < leastDays:
		return unknown[units.Fraction](fmt.Sprintf("these data cannot tell: %d whole days; %d are needed", days, leastDays))
	case in.f.rowStep > hour:
		return unknown[units.Fraction]("these data cannot tell: rows are more than an hour apart")
	}
	at, events := in.lit()
	n := len(events)
	least := sunDays
	if at >= 12 && at <= 15 {
		least = sunNoon
	}
	if n < 2 || float64(n) <= least*float64(days) {
		bright := 0
		for _, d := range in.f.days {
			if d.swing > clearFrom {
				bright++
			}
		}
		if bright < leastSun {
			return unknown[units.Fraction]("these data cannot tell: hardly a day was clear enough to show it")
		}
		return estimate[units.Fraction](0, 0, 1-math.Pow(1-confidence, 1/float64(bright)), fmt.Sprintf("nothing sudden at one time of day on %d days that may have been clear", bright))
	}
	in.sunFinding(at, events)
	low, high := wilson(n, days)
	return estimate[units.Fraction](float64(n)/float64(days), low, high, fmt.Sprintf("%d of %d days", n, days))
}

// lit finds the hours of the clock at which the outdoor temperature jumps on the most
// days, and the jump of each of those days.
func (in *inspection) lit() (at int, events []sunEvent) {
	hs := &in.f.hours
	var byHour [24]map[int64]sunEvent
	for k := 3; k+3 < len(hs.out); k++ {
		e, jumps := jump(hs.out, k)
		h := in.f.hourOfDay(e.k)
		if !jumps || h < 5 || h > 20 {
			continue
		}
		if byHour[h] == nil {
			byHour[h] = map[int64]sunEvent{}
		}
		if day := (hs.begin + int64(e.k)*hour) / daily; e.above > byHour[h][day].above {
			byHour[h][day] = e
		}
	}
	most := 0.0
	for h := range byHour {
		found := map[int64]sunEvent{}
		for d := h - sunHours/2; d <= h+sunHours/2; d++ {
			for day, e := range byHour[(d+24)%24] {
				if e.above > found[day].above {
					found[day] = e
				}
			}
		}
		sum := 0.0
		for _, e := range found {
			sum += e.above
		}
		if len(found) > len(events) || len(found) == len(events) && sum > most {
			at, events, most = h, nil, sum
			for _, e := range found {
				events = append(events, e)
			}
		}
	}
	slices.SortFunc(events, func(a, b sunEvent) int { return a.k - b.k })
	return at, events
}

// jump tells an hour that is lit: for an hour or three, or from then on for longer. Air
// warms over a whole morning, and a front comes at any hour.
func jump(out []float64, k int) (e sunEvent, jumps bool) {
	around := (out[k-3] + out[k+3]) / 2
	if out[k]-around > sunJump && out[k]-math.Max(out[k-3], out[k+3]) > sunJump*0.7 {
		return sunEvent{k, out[k] - around}, true
	}
	rise, before, after := out[k+1]-out[k-1], out[k-1]-out[k-3], out[k+3]-out[k+1]
	if sudden := rise - math.Max(before, after); rise > sunRise && sudden > sunSudden {
		return sunEvent{k + 1, sudden}, true
	}
	return sunEvent{k, 0}, false
}

// sunFinding says what is seen, and whether the supply goes with it.
func (in *inspection) sunFinding(at int, events []sunEvent) {
	side := "south"
	switch {
	case at < 12:
		side = "east"
	case at >= 15:
		side = "west"
	}
	n, days := len(events), len(in.f.days)
	begin := in.f.hours.begin + int64(events[0].k)*hour
	const move = "move the sensor to the north wall, out of the sun and 1.2 m (4 ft) from vents; until then expect a cool house on clear days"
	falls, low, high, known := in.answers(events)
	switch expected := in.answerOf(events); {
	case known && low > goesWith*expected:
		in.add(Sensors, "sun on the outdoor sensor", begin-2*hour, begin+3*hour, n, move,
			"about %02d:00 the outdoor temperature jumps up on %d of %d days: the sensor sees the sun from the %s, and the supply goes down with it by %s (%s to %s): it is the control's", at, n, days, side, in.r.roughly(falls), in.r.roughly(low), in.r.roughly(high))
	case known && high < goesWith*expected:
		in.add(LogItself, "sun on the logger's sensor", begin-2*hour, begin+3*hour, n, "shade the logger's outdoor sensor for the next log; the control's needs nothing",
			"about %02d:00 the outdoor temperature jumps up on %d of %d days: the sensor sees the sun from the %s, but the supply does not go with it: it is the logger's, and the control's hangs elsewhere", at, n, days, side)
	default:
		in.add(Sensors, "sun on the outdoor sensor", begin-2*hour, begin+3*hour, n, "look where the control's outdoor sensor hangs; if it is the one of the log, move it to the north wall, out of the sun and 1.2 m (4 ft) from vents",
			"about %02d:00 the outdoor temperature jumps up on %d of %d days: the sensor sees the sun from the %s; whether it is the control's these data cannot tell", at, n, days, side)
	}
}

// answerOf is what the curve would answer to the jumps, K of supply.
func (in *inspection) answerOf(events []sunEvent) float64 {
	sum := 0.0
	for _, e := range events {
		sum += e.above / float64(len(events))
	}
	return math.Max(0, float64(in.r.Curve.Slope.Value)) * sum
}

// answers is by how much the supply lies lower in and after the jumps than at the same
// hours of other days, each against the curve at the temperature before the jump.
func (in *inspection) answers(events []sunEvent) (falls, low, high float64, known bool) {
	c, hs := in.r.Curve, &in.f.hours
	if !c.Follows || len(events) < leastSun {
		return 0, 0, 0, false
	}
	warm := map[int64]float64{} // residuals of the hours at the warm level
	outs := map[int64]float64{}
	for _, h := range c.Hours {
		if h.Level == Warm && !in.charging(h.At, h.At+hour) {
			warm[h.At], outs[h.At] = float64(h.Supply), float64(h.Outdoor)
		}
	}
	lit, clock := map[int64]bool{}, map[int64]bool{}
	var with, without []float64
	for _, e := range events {
		at := hs.begin + int64(e.k)*hour
		lit[at/daily], clock[at%daily] = true, true
		sum, n := 0.0, 0.0
		for _, t := range []int64{at, at + hour} {
			if y, ok := warm[t]; ok {
				sum, n = sum+y-c.supplyAt(outs[at]-e.above), n+1
			}
		}
		if n > 0 && outs[at] > 0 {
			with = append(with, sum/n)
		}
	}
	for t, y := range warm {
		if clock[t%daily] && !lit[t/daily] {
			without = append(without, y-c.supplyAt(outs[t]))
		}
	}
	if len(with) < leastSun || len(without) < leastSun { // as a rule for charges of the tank at that time
		return 0, 0, 0, false
	}
	slices.Sort(without) // a map has no order, and sums depend on it
	a, b := average(with), average(without)
	half := quantileT(float64(min(len(with), len(without)))-1) * math.Sqrt(variance(with, a)/float64(len(with))+variance(without, b)/float64(len(without)))
	return b - a, b - a - half, b - a + half, true
}

func variance(x []float64, mean float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return sum / math.Max(1, float64(len(x)-1))
}

// wilson is the interval of a share that was seen n times of many (Wilson 1927).
func wilson(n, many int) (low, high float64) {
	const z = 1.645
	p, m := float64(n)/float64(many), float64(many)
	middle := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return middle - half, middle + half
}
