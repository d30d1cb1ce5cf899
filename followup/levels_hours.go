package followup

// The hours of the levels, and where heating ends.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/logs"
	"curvewright/units"
)

// levels writes what was told apart, with its hours on working days.
func (c *Curve) levels(all []curveHour) {
	var kindOf [24]map[LevelKind]int
	offset := map[LevelKind][]float64{}
	count := map[LevelKind]int{}
	for _, h := range all {
		if kindOf[h.class%24] == nil {
			kindOf[h.class%24] = map[LevelKind]int{}
		}
		kindOf[h.class%24][h.level]++
		count[h.level]++
		if c.Slope.Known && !h.off {
			offset[h.level] = append(offset[h.level], h.y-c.supplyAt(h.out))
		}
	}
	var main [24]LevelKind
	for k := range main {
		most := 0
		for _, kind := range levelKinds() {
			if n := kindOf[k][kind]; n > most {
				main[k], most = kind, n
			}
		}
	}
	for h, kind := range main { // a single hour at rest among others is a valve or a thermostat, no program
		if before, after := main[(h+23)%24], main[(h+1)%24]; kind == Off && before == after {
			main[h] = before
		}
	}
	for _, kind := range levelKinds() {
		words := spans(main, kind)
		if words == "" {
			continue
		}
		l := Level{Kind: kind, Hours: words, Share: units.Fraction(float64(count[kind]) / float64(max(1, len(all))))}
		if o := offset[kind]; len(o) > 0 && kind != Off {
			l.Offset = units.Kelvins(median(o))
		}
		c.Levels = append(c.Levels, l)
	}
}

func levelKinds() []LevelKind { return []LevelKind{Warm, Lowered, Boosted, Off, Broken} }

// spans writes the hours of the day that have a level.
func spans(main [24]LevelKind, kind LevelKind) string {
	n := 0
	for _, k := range main {
		if k == kind {
			n++
		}
	}
	switch n {
	case 0:
		return ""
	case 24:
		return "all day"
	}
	var out []string
	for h := range 24 {
		if main[h] == kind && main[(h+23)%24] != kind {
			end := h
			for main[end%24] == kind {
				end++
			}
			out = append(out, fmt.Sprintf("%02d:00–%02d:00", h, end%24))
		}
	}
	return strings.Join(out, ", ")
}

// cutOff finds the day's mean outdoors above which the circuit rests: the border that
// the fewest days are on the wrong side of.
func (c *Curve) cutOff(f *frame, all []curveHour) {
	type oneDay struct {
		out float64
		on  bool
	}
	on := map[int64]int{}
	for _, h := range all {
		if !h.off && logs.Clock(h.at).Hour() >= 6 {
			on[h.at/daily]++
		}
	}
	var days []oneDay
	resting := 0
	for _, d := range f.days {
		if !math.IsNaN(d.out) {
			heats := on[d.at/daily] >= 3
			days = append(days, oneDay{d.out, heats})
			if !heats {
				resting++
			}
		}
	}
	if resting < 3 || len(days)-resting < 3 {
		c.CutOff = unknown[units.Temperature]("these data cannot tell: the log does not reach from heating into resting")
		return
	}
	slices.SortFunc(days, func(a, b oneDay) int {
		if a.out < b.out {
			return -1
		}
		return 1
	})
	// Moving the border past a day puts it on the heating side.
	best, from, to := math.MaxInt, 0.0, 0.0
	errors := 0
	for _, d := range days {
		if d.on {
			errors++
		}
	}
	for i := 0; i < len(days); i++ {
		if days[i].on {
			errors--
		} else {
			errors++
		}
		next := days[i].out + 1
		if i+1 < len(days) {
			next = days[i+1].out
		}
		switch {
		case errors < best:
			best, from, to = errors, days[i].out, next
		case errors == best:
			to = next
		}
	}
	if best > len(days)/6 {
		c.CutOff = unknown[units.Temperature]("these data cannot tell: heating and resting days are not parted by the weather")
		return
	}
	c.CutOff = estimate[units.Temperature]((from+to)/2, from-1, to+1, fmt.Sprintf("%d days heated, %d at rest", len(days)-resting, resting))
}
