package followup

// Sensors and the curve: is what the control believes true, and does it do what it should?

import (
	"math"
	"slices"

	"curvewright/units"
)

const (
	dip       = 4.0 // K of supply below the curve at one time of day
	curveOff  = 4.0 // K between what runs and what the sheet says
	followOff = 4.0 // K between wanted and had
)

// dips looks for a supply that falls at the same time of day on some days only, and at
// no other time: sun or warm air at the sensor makes the control believe in spring.
func (in *inspection) dips() {
	c := in.r.Curve
	if !c.Slope.Known || float64(c.Scatter) > 2 {
		return
	}
	var low, all [24]int
	var at [24]int64
	for _, h := range c.Hours {
		if h.Level != Warm || in.charging(h.At, h.At+hour) {
			continue
		}
		k := int(h.At / hour % 24)
		all[k]++
		if float64(h.Supply)-c.supplyAt(float64(h.Outdoor)) < -dip {
			if low[k]++; at[k] == 0 {
				at[k] = h.At
			}
		}
	}
	worst, others, rest := -1, 0, 0
	for k := 7; k <= 18; k++ {
		if all[k] >= 10 && low[k] >= 5 && (worst < 0 || low[k] > low[worst]) {
			worst = k
		}
	}
	if worst < 0 {
		return
	}
	for k := range low { // beyond its neighbours
		if d := min((k-worst+24)%24, (worst-k+24)%24); d > 2 {
			others, rest = others+low[k], rest+all[k]
		}
	}
	share := float64(low[worst]) / float64(all[worst])
	if share < 0.25 || share > 0.75 || rest == 0 || share < 5*float64(others)/float64(rest) {
		return
	}
	in.add(Sensors, "supply dips at one time of day", at[worst]-hour, at[worst]+2*hour, low[worst], "look whether sun or warm air reaches the control's outdoor sensor then; else whether hot water is made at that time",
		"about %02d:00 the supply lies %s or more below its curve on %d of %d days", worst, in.r.roughly(dip), low[worst], all[worst])
}

// charging tells whether the tank is charged within a stretch.
func (in *inspection) charging(from, to int64) bool {
	for _, e := range in.f.charges {
		if e.from < to && e.to > from {
			return true
		}
	}
	return false
}

// reset asks whether the supply moves with the weather at all.
func (in *inspection) reset() {
	c := in.r.Curve
	from, to := in.span()
	if c.Slope.Known && math.Abs(float64(c.Slope.Value)) < 0.12 && float64(c.Slope.High) < 0.3 && len(c.At) > 1 {
		in.add(Sensors, "no reset", from, to, len(c.fit.Residuals), "see that the outdoor sensor is connected and of the right kind, and that the control is not set to a constant or an emergency supply",
			"the supply stays at %s between %s and %s outdoors: the control does not follow the weather", in.r.say(c.At[0].Supply.Value), in.r.say(c.At[0].Outdoor), in.r.say(c.At[len(c.At)-1].Outdoor))
	}
}

// follows compares what the control wants, or what the hours scatter about, with what is
// in the pipe.
func (in *inspection) follows() {
	hs, c := &in.f.hours, in.r.Curve
	from, to := in.span()
	if hs.wanted != nil && hs.supply != nil {
		below, above, n := 0, 0, 0
		var at int64
		warm := in.levelAt()
		for k := range hs.wanted {
			d := hs.supply[k] - hs.wanted[k]
			stamp := hs.begin + int64(k)*hour
			if math.IsNaN(d) || warm[stamp] == Off || warm[stamp] == Broken {
				continue
			}
			n++
			if d < -followOff {
				if below++; at == 0 {
					at = stamp
				}
			} else if d > followOff {
				if above++; at == 0 {
					at = stamp
				}
			}
		}
		switch {
		case n > leastHours && below*5 > n:
			in.add(TheCurve, "supply short of what is wanted", at, at+6*hour, below, "look at the burner's output limit, at the mixing valve and at the flow before anything is raised",
				"the supply lies more than %s below what the control wants in %.0f %% of the hours", in.r.roughly(followOff), 100*float64(below)/float64(n))
		case n > leastHours && above*5 > n:
			in.add(TheCurve, "supply above what is wanted", at, at+6*hour, above, "look for a mixing valve that does not shut and for a boiler that cannot fire so low",
				"the supply lies more than %s above what the control wants in %.0f %% of the hours", in.r.roughly(followOff), 100*float64(above)/float64(n))
		}
	}
	if c.Slope.Known && c.Follows && float64(c.Scatter) > 4 {
		in.add(TheCurve, "control does not keep to a curve", from, to, len(c.fit.Residuals), "look for hot water, room influence and hand settings; read the control's wanted supply along with the next log",
			"about the best line the supply scatters by %s", in.r.roughly(float64(c.Scatter)))
	}
}

// height compares the curve that runs with the sheet's.
func (in *inspection) height() {
	c := in.r.Curve
	if !c.Slope.Known || !c.Follows {
		return
	}
	set := in.plan.Circuits[in.circuit].Setting
	from, to := in.span()
	worst, at := 0.0, units.Temperature(0)
	for _, p := range c.At {
		d := float64(p.Supply.Value - set.At(p.Outdoor))
		out := math.Abs(d) > curveOff && (float64(p.Supply.Low) > float64(set.At(p.Outdoor)) || float64(p.Supply.High) < float64(set.At(p.Outdoor)))
		if out && math.Abs(d) > math.Abs(worst) {
			worst, at = d, p.Outdoor
		}
	}
	word := "above"
	if worst < 0 {
		word = "below"
	}
	if worst != 0 && in.asFound() {
		in.add(TheCurve, "still as found", from, to, len(c.fit.Residuals), "enter the sheet's curve; judge the rooms by what is recorded after that",
			"at %s outdoors the supply lies %s %s what the settings sheet says (%s); it follows the curve that was found in the control", in.r.say(at), in.r.roughly(math.Abs(worst)), word, in.r.say(set.At(at)))
		return
	}
	if worst != 0 {
		in.add(TheCurve, "not the sheet's curve", from, to, len(c.fit.Residuals), "enter the sheet's curve; judge the rooms by what is recorded after that",
			"at %s outdoors the supply lies %s %s what the settings sheet says (%s)", in.r.say(at), in.r.roughly(math.Abs(worst)), word, in.r.say(set.At(at)))
	}
}

// asFound tells whether what runs is the curve that the survey found.
func (in *inspection) asFound() bool {
	was, known := in.plan.Found.Curve(in.plan.Circuits[in.circuit].Name)
	for _, p := range in.r.Curve.At {
		at := was.At(p.Outdoor)
		if known && math.Abs(float64(p.Supply.Value-at)) > curveOff && (p.Supply.Low > at || p.Supply.High < at) {
			return false
		}
	}
	return known && len(in.r.Curve.At) > 0
}

// output asks whether the fire, and not the curve, is what the cold runs into.
func (in *inspection) output() bool {
	on, c := in.f.hours.on, in.r.Curve
	if on == nil {
		return false
	}
	full, n, short := 0, 0, 0
	var at int64
	for _, h := range c.Hours {
		k := int((h.At - in.f.hours.begin) / hour)
		if math.IsNaN(on[k]) || h.Level == Off {
			continue
		}
		if n++; on[k] > 0.98 {
			if full++; at == 0 {
				at = h.At
			}
		}
	}
	for _, r := range in.r.Rooms {
		if r.Cold.Known && float64(r.Cold.High) < float64(r.Set)-0.5 {
			short++
		}
	}
	if n < leastHours || full*5 < n*3 || short == 0 {
		return false
	}
	in.add(Hydraulics, "fire at its limit", at, at+daily, full, "look at the output limit in the control, the burner's setting and the flow through the boiler; then at the house's loss",
		"the fire burns without a pause in %.0f %% of the hours, and %d logged rooms stay short: the curve is not what holds them back", 100*float64(full)/float64(n), short)
	return true
}

// limit asks whether a limit of the supply leaves rooms cold.
func (in *inspection) limit() {
	c := in.r.Curve
	if !c.Highest.Known {
		return
	}
	cold := 0
	for _, r := range in.r.Rooms {
		if r.Cold.Known && float64(r.Cold.High) < float64(r.Set)-0.5 {
			cold++
		}
	}
	if cold == 0 {
		return
	}
	from, to := in.span()
	at, lowest := from, math.Inf(1)
	for _, h := range c.Hours {
		if float64(h.Outdoor) < lowest {
			lowest, at = float64(h.Outdoor), h.At
		}
	}
	in.add(TheCurve, "supply limit reached", at-6*hour, min(to, at+6*hour), cold, "raise the limit if floor, boiler and pipes allow it; else the rooms need more emitter or less loss",
		"in the cold the supply stops at %s, and %d logged rooms stay short then", in.r.say(c.Highest.Value), cold)
}

// rooms judges warmth: all rooms the curve, one room its emitter or its flow.
func (in *inspection) rooms() {
	from, to := in.span()
	var short, over, shortCold, overMild, shortMild, overCold []string
	judged := 0
	for _, r := range in.r.Rooms {
		if !r.Cold.Known || !r.Mild.Known {
			continue
		}
		judged++
		set := float64(r.Set)
		isShort := func(e Estimate[units.Temperature]) bool {
			return float64(e.High) < set-0.3 && float64(e.Value) < set-0.7
		}
		isOver := func(e Estimate[units.Temperature]) bool { return float64(e.Low) > set+0.5 && float64(e.Value) > set+1 }
		switch {
		case isShort(r.Cold) && isShort(r.Mild):
			short = append(short, r.Name)
		case isShort(r.Cold):
			shortCold = append(shortCold, r.Name)
		case isShort(r.Mild):
			shortMild = append(shortMild, r.Name)
		}
		switch {
		case isOver(r.Cold) && isOver(r.Mild):
			over = append(over, r.Name)
		case isOver(r.Mild):
			overMild = append(overMild, r.Name)
		case isOver(r.Cold):
			overCold = append(overCold, r.Name)
		}
	}
	if judged == 0 {
		return
	}
	most := func(names []string) bool { return len(names)*3 >= judged*2 }
	switch {
	case most(shortCold):
		in.add(TheCurve, "short in the cold", from, to, len(shortCold), "raise the cold end only: more slope, less shift", "%s: short on the coldest days, warm enough on mild ones", listOf(shortCold))
	case most(shortMild):
		in.add(TheCurve, "short in mild weather", from, to, len(shortMild), "raise the mild end: more shift, less slope; look at the cut-off", "%s: short on mild days, warm enough in the cold", listOf(shortMild))
	case most(short):
		in.add(TheCurve, "curve too low", from, to, len(short), "raise the shift", "%s: short whatever the weather", listOf(short))
	}
	switch {
	case most(overMild):
		in.add(TheCurve, "too warm in mild weather", from, to, len(overMild), "lower the mild end: less shift, more slope", "%s: too warm on mild days, not in the cold", listOf(overMild))
	case most(overCold):
		in.add(TheCurve, "too warm in the cold", from, to, len(overCold), "lower the cold end: less slope", "%s: too warm on the coldest days, not on mild ones", listOf(overCold))
	case most(over):
		in.add(TheCurve, "curve too high", from, to, len(over), "lower the shift in steps of 2 to 3 K (3 to 5 °F) with the leading room's valves open", "%s: too warm whatever the weather", listOf(over))
	}
	few := slices.Concat(short, shortCold)
	if len(few) > 0 && !most(few) && !most(short) && !most(shortCold) {
		in.add(Hydraulics, "one room short", from, to, len(few), "balance first: more flow to it and less to the others; then its valve, air, emitter; not the curve", "%s: short while other rooms are warm", listOf(few))
	}
}

func listOf(names []string) string {
	out := ""
	for i, n := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			out += " and "
		default:
			out += ", "
		}
		out += n
	}
	return out
}

// summer asks whether heat is made without need.
func (in *inspection) summer() {
	const noNeed = zero + 18.0
	warm := in.levelAt()
	days, on := 0, 0
	var first int64
	for _, d := range in.f.days {
		if math.IsNaN(d.out) || d.out < noNeed {
			continue
		}
		days++
		heated := 0
		for k := int64(0); k < 24; k++ {
			if l, ok := warm[d.at+k*hour]; ok && l != Off {
				heated++
			}
		}
		if heated >= 6 {
			if on++; on == 1 {
				first = d.at
			}
		}
	}
	if on >= 3 && on*4 > days {
		in.add(TheCurve, "heating in summer", first, first+daily, on, "set the warm-weather cut-off near the house's own balance temperature, on the averaged outdoor temperature",
			"the circuit is warm on %d of %d days with a mean above %s outdoors", on, days, in.r.say(units.Temperature(noNeed)))
	}
}
