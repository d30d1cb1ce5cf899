package followup

// The burner, the programs and the tank.

import (
	"math"

	"curvewright/logs"
)

const (
	manyStarts = 40.0
	hotReturn  = 54.0 // °C, above which natural gas hardly condenses
)

// cycling asks whether runs are too short, and whether the boiler is too large.
func (in *inspection) cycling() {
	c := in.r.Cycles
	if c.StartsPerDay.Known && c.MedianRun.Known && float64(c.StartsPerDay.Low) > manyStarts && float64(c.MedianRun.Value) < 8*60 {
		from, n := busiest(c.starts)
		in.add(Hydraulics, "short cycling", from, from+daily, n, "lower the heating output limit, widen the differential, lengthen the shortest rest; small zones together; then a buffer",
			"%.0f starts a day with runs of %.0f min; on the busiest day %d", float64(c.StartsPerDay.Value), float64(c.MedianRun.Value)/60, n)
	}
	if c.BurningCold.Known && c.StartsPerDay.Known && float64(c.BurningCold.High) < 0.6 && float64(c.StartsPerDay.Value) > 15 {
		from, to := in.span()
		in.add(Hydraulics, "boiler too large", from, to, c.Runs, "set the output limit to the load and a tenth; the next boiler smaller",
			"on the coldest days the fire is on for only %.0f %% of the time", 100*float64(c.BurningCold.Value))
	}
}

// busiest gives the day with the most starts.
func busiest(starts []int64) (day int64, n int) {
	count := map[int64]int{}
	for _, s := range starts {
		d := s / daily
		count[d]++
		if count[d] > n || count[d] == n && d*daily < day {
			day, n = d*daily, count[d]
		}
	}
	return day, n
}

// returns asks whether a condensing boiler condenses, and whether another must not.
func (in *inspection) returns() {
	c := in.r.Cycles.Condensing
	if !c.Known {
		return
	}
	from, to := in.span()
	if in.job.Boiler.Kind == "non-condensing" {
		if float64(c.Low) > 0.3 {
			in.add(Hydraulics, "return too cool for this boiler", from, to, 1, "protect the return with a valve or pump of its own and reset by mixing behind the boiler",
				"the return lies below the dew point for %.0f %% of the firing time, and the boiler must not condense", 100*float64(c.Value))
		}
		return
	}
	if float64(c.High) < 0.3 {
		in.add(TheCurve, "hardly condenses", from, to, 1, "too much water, a separator that sends supply back, or a curve too high: mend in that order",
			"the return lies below the dew point for only %.0f %% of the firing time", 100*float64(c.Value))
	}
}

// setback asks whether the rooms are warm again two hours after they should be.
func (in *inspection) setback() {
	room := in.f.hours.room
	if room == nil || len(in.r.Rooms) == 0 {
		return
	}
	set := 0.0
	for _, r := range in.r.Rooms {
		set += float64(r.Set) / float64(len(in.r.Rooms))
	}
	days, short, boosted, hot := 0, 0, 0, 0
	var first, firstHot int64
	kind := in.levelAt()
	for k := 1; k+3 < len(room); k++ {
		at := in.f.hours.begin + int64(k)*hour
		if h := logs.Clock(at).Hour(); h < 3 || h > 11 {
			continue
		}
		before, now := kind[at-hour], kind[at]
		if before != Lowered && before != Off || now != Warm && now != Boosted {
			continue
		}
		if math.IsNaN(room[k+2]) || math.IsNaN(in.f.hours.out[k]) || in.f.hours.out[k] > zero+10 {
			continue
		}
		days++
		later := 0.0
		for i := k + 5; i < min(k+14, len(room)); i++ {
			later = math.Max(later, room[i])
		}
		if room[k+2] < math.Min(set, later)-0.7 {
			if short++; short == 1 {
				first = at
			}
		}
		if back := in.f.hours.back; back != nil && now == Boosted {
			boosted++
			if back[k] > zero+hotReturn {
				if hot++; hot == 1 {
					firstHot = at
				}
			}
		}
	}
	if days >= 5 && short*2 > days {
		in.add(Programs, "setback never recovers", first-2*hour, first+4*hour, short, "lower by 1 to 2 K (2 to 4 °F) or not at all, begin earlier, and cancel the setback in severe cold; on a slab none",
			"two hours after the morning's start the rooms are still short on %d of %d days", short, days)
	}
	if boosted >= 5 && hot*2 > boosted {
		in.add(Programs, "boost spoils condensing", firstHot-hour, firstHot+3*hour, hot, "begin earlier and limit the boost in temperature and time",
			"the morning's boost drives the return above %.0f °C on %d of %d days", hotReturn, hot, boosted)
	}
}

// afternoon looks for rooms that overshoot late in the day on some days: stored heat and
// sun.
func (in *inspection) afternoon() {
	var rooms []string
	var first int64
	most := 0
	for _, r := range in.r.Rooms {
		days, hot := 0, 0
		var at int64
		for _, d := range in.f.days {
			k := int((d.at - in.f.hours.begin) / hour)
			if k < 0 || k+24 > len(r.hourly) || math.IsNaN(d.out) || d.out > zero+15 {
				continue
			}
			night, noon := r.hourly[k+6], math.Inf(-1)
			if math.IsNaN(night) {
				continue
			}
			for i := k + 12; i < k+20; i++ {
				if r.hourly[i] > noon {
					noon = r.hourly[i]
				}
			}
			days++
			if noon > night+1.7 && noon > float64(r.Set)+1.5 {
				if hot++; hot == 1 {
					at = d.at
				}
			}
		}
		if days < 10 || hot*5 < days {
			continue
		}
		if rooms = append(rooms, r.Name); first == 0 {
			first = at
		}
		most = max(most, hot)
	}
	if len(rooms) == 0 {
		return
	}
	remedy := "an earlier room influence or a valve in these rooms; shade; the curve no higher than the leading room needs"
	if in.plan.Circuits[in.circuit].Floor {
		remedy = "the lowest supply that still holds, so that a slab regulates itself; a long averaging of the outdoor temperature; room influence"
	}
	in.add(Programs, "overheats in the afternoon", first+10*hour, first+22*hour, most, remedy, "too warm in the afternoon, on up to %d of %d days: %s", most, len(in.f.days), listOf(rooms))
}

// tank judges charges.
func (in *inspection) tank() {
	w := in.r.HotWater
	if !w.Lasts.Known {
		return
	}
	longest := w.events[0]
	for _, e := range w.events {
		if e.to-e.from > longest.to-longest.from {
			longest = e
		}
	}
	if float64(w.Lasts.Low) > 45*60 {
		in.add(TankAndTaps, "charges take too long", longest.from-hour, longest.to+hour, len(w.events), "raise the charge's supply to 15 K (27 °F) above the tank, full output for hot water, flush the coil",
			"a charge of the tank lasts %.0f min", float64(w.Lasts.Value)/60)
	}
	if w.Drop.Known && float64(w.Drop.Low) > 0.3 && float64(w.Drop.Value) > 0.6 {
		in.add(TankAndTaps, "house starves under hot water", longest.from-hour, longest.to+hour, len(w.events), "limit the priority in time, charge before the morning's peak",
			"the rooms fall by %s in a long charge", in.r.roughly(float64(w.Drop.Value)))
	}
	bs := column(in.f.l, "boiler supply")
	if bs == nil {
		return
	}
	hot, n := 0, 0
	for i := 0; i < len(bs); i += max(1, len(bs)/5000) {
		if in.f.burner == nil || !(in.f.burner[i] > burning) || math.IsNaN(bs[i]) || in.charging(in.f.l.Stamps[i]-900, in.f.l.Stamps[i]+600) {
			continue
		}
		if n++; bs[i] > zero+65 && in.f.supply != nil && bs[i] > in.f.supply[i]+15 {
			hot++
		}
	}
	if n > 100 && hot*2 > n {
		from, to := in.span()
		in.add(TankAndTaps, "boiler kept hot for the tank", from, to, hot, "a temperature of its own for hot water, and back to the curve afterwards",
			"while no tank is charged the boiler is %.0f %% of the firing time far hotter than the circuit needs", 100*float64(hot)/float64(n))
	}
}
