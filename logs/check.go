package logs

// What is wrong with the readings, although every one could be read.

import (
	"fmt"
	"math"
	"slices"
)

// Bounds beyond which a reading is none, and patience before a sensor counts as stuck:
// own choice, wide enough for any house.
var believable = map[Role][2]float64{
	Outdoor: {zero - 60, zero + 55}, Room: {zero - 20, zero + 50}, Supply: {zero - 20, zero + 130}, Return: {zero - 20, zero + 130},
	Wanted: {zero - 20, zero + 130}, Boiler: {zero - 20, zero + 140}, BoilerBack: {zero - 20, zero + 140}, Tank: {zero - 20, zero + 110},
	WaterFlow: {0, 0.02}, Heat: {-2e5, 1e6}, Fuel: {0, 1e6}, Burner: {-0.05, 1.3}, Pump: {-0.05, 1.3}, Water: {-1e5, 2e6}, Sun: {-20, 1600},
}

var stuckAfter = map[Role]int64{Outdoor: 12 * hour, Room: 3 * day, Supply: 3 * day, Return: 3 * day}

const (
	gapSteps   = 3   // a gap is longer than so many steps …
	gapSeconds = 900 // … and than so long
	jumpOut    = 8.0 // K from one row to the next and back again: a reading from elsewhere
	shownGaps  = 5   // that are told one by one
	yearAhead  = 2 * day
	yearBehind = 12 * 366 * day
)

// check looks the columns over, takes out what no sensor can have read, and says so.
func (l *Log) check(empty []int, o Options) {
	l.gaps()
	first, last := l.Stamps[0], l.Stamps[len(l.Stamps)-1]
	if o.Now > 0 && last > o.Now+yearAhead {
		l.find("wrong year", "", 1, first, last, fmt.Sprintf("the log ends at %s, which is still to come: the logger's clock or the order of day and month is wrong", Say(last)))
	}
	if o.Now > 0 && last < o.Now-yearBehind || first < 946684800 {
		l.find("wrong year", "", 1, first, last, fmt.Sprintf("the log begins at %s: was the logger's clock ever set?", Say(first)))
	}
	for k := range l.Series {
		s := &l.Series[k]
		if n := len(s.Values); empty[k]*20 > n { // a table of single readings has none
			l.find("empty cells", s.Heading, empty[k], first, last, fmt.Sprintf("column %q has no number in %d of %d rows", s.Heading, empty[k], l.Rows))
		}
		l.outliers(s)
		l.stuck(s)
		if s.Role == HeatMeter || s.Role == FuelMeter {
			l.meter(s)
		}
	}
	l.seasons()
	l.swapped()
}

func (l *Log) gaps() {
	count, uneven, missing := 0, 0, int64(0)
	for i := 1; i < len(l.Stamps); i++ {
		d := l.Stamps[i] - l.Stamps[i-1]
		if d > gapSteps*l.Step && d > gapSeconds {
			if count++; count <= shownGaps {
				l.find("gap", "", 1, l.Stamps[i-1], l.Stamps[i], fmt.Sprintf("nothing from %s to %s (%.1f h)", Say(l.Stamps[i-1]), Say(l.Stamps[i]), float64(d)/hour))
			}
			missing += d - l.Step
		} else if d < l.Step-max(2, l.Step/10) || d > l.Step+max(2, l.Step/10) {
			uneven++
		}
	}
	if count > shownGaps {
		l.find("gaps", "", count, l.Stamps[0], l.Stamps[len(l.Stamps)-1], fmt.Sprintf("%d gaps, %.0f h of %.0f h", count, float64(missing)/hour, float64(l.Stamps[len(l.Stamps)-1]-l.Stamps[0])/hour))
	}
	if uneven*20 > len(l.Stamps) {
		l.find("uneven steps", "", uneven, l.Stamps[0], l.Stamps[len(l.Stamps)-1], fmt.Sprintf("%d of %d steps are not %s", uneven, len(l.Stamps)-1, lasting(l.Step)))
	}
}

// outliers takes out values beyond belief, and single rows that jump there and back.
func (l *Log) outliers(s *Series) {
	bounds, bounded := believable[s.Role]
	if !bounded {
		return
	}
	jumps := kinds[s.Role][0] == Temperature && (s.Role == Outdoor || s.Role == Room)
	count, from, to := 0, int64(0), int64(0)
	out := func(i int) {
		if s.Values[i] = math.NaN(); count == 0 {
			from = l.Stamps[i]
		}
		to = l.Stamps[i]
		count++
	}
	for i, v := range s.Values {
		if v < bounds[0] || v > bounds[1] {
			out(i)
		}
	}
	for i := 1; jumps && i+1 < len(s.Values); i++ {
		if l.Step > hour || l.Stamps[i+1]-l.Stamps[i-1] > 4*l.Step {
			continue
		}
		a, b, c := s.Values[i-1], s.Values[i], s.Values[i+1]
		if math.Abs(b-a) > jumpOut && math.Abs(b-c) > jumpOut && math.Abs(a-c) < jumpOut/2 {
			out(i)
		}
	}
	if count > 0 {
		l.find("outliers", s.Heading, count, from, to, fmt.Sprintf("column %q has %d readings that cannot be true; they were left out", s.Heading, count))
	}
}

func (l *Log) stuck(s *Series) {
	patience, watched := stuckAfter[s.Role]
	if !watched {
		return
	}
	stretches, hours, from, to := 0, 0.0, int64(0), int64(0)
	begin := 0
	for i := 1; i <= len(s.Values); i++ {
		if i < len(s.Values) && s.Values[i] == s.Values[begin] {
			continue
		}
		if d := l.Stamps[i-1] - l.Stamps[begin]; d > patience {
			if stretches == 0 {
				from, to = l.Stamps[begin], l.Stamps[i-1]
			}
			stretches++
			hours += float64(d) / hour
			for k := begin; k < i && s.Role == Outdoor; k++ {
				s.Values[k] = math.NaN()
			}
		}
		begin = i
	}
	if stretches > 0 {
		l.find("stuck", s.Heading, stretches, from, to, fmt.Sprintf("column %q does not move for %.0f h in all, first from %s", s.Heading, hours, Say(from)))
	}
}

// meter takes out single readings that fall and are made up for at once, and tells
// whether a counter falls for good: reset, exchanged, or no counter at all.
func (l *Log) meter(s *Series) {
	l.glitches(s)
	falls, at, last := 0, int64(0), math.NaN()
	for i, v := range s.Values {
		if math.IsNaN(v) {
			continue
		}
		if v < last {
			if falls++; falls == 1 {
				at = l.Stamps[i]
			}
		}
		last = v
	}
	if falls > 0 {
		l.find("meter fell", s.Heading, falls, at, at, fmt.Sprintf("column %q falls %d times, first at %s; a meter only rises: it was reset or exchanged there", s.Heading, falls, Say(at)))
	}
}

// glitches takes out readings of a meter below the one before, if the next is at the old
// level again: nothing was read, and nought was written.
func (l *Log) glitches(s *Series) {
	count, from, to := 0, int64(0), int64(0)
	last, before := -1, -1 // places of the last two readings
	for i, v := range s.Values {
		if math.IsNaN(v) {
			continue
		}
		if before >= 0 && s.Values[last] < s.Values[before] && v >= s.Values[before] {
			if count++; count == 1 {
				from = l.Stamps[last]
			}
			to = l.Stamps[last]
			s.Values[last] = math.NaN()
			last = before
		}
		before, last = last, i
	}
	if count > 0 {
		l.find("outliers", s.Heading, count, from, to, fmt.Sprintf("column %q has %d readings that cannot be true; they were left out", s.Heading, count))
	}
}

// seasons holds the outdoor temperature against the calendar of the northern and the
// southern half of the world.
func (l *Log) seasons() {
	s, ok := l.First(Outdoor)
	if !ok {
		return
	}
	var sum [12]float64
	var n [12]float64
	all, count := 0.0, 0.0
	for i, v := range s.Values {
		if !math.IsNaN(v) {
			m := int(Clock(l.Stamps[i]).Month()) - 1
			sum[m], n[m], all, count = sum[m]+v, n[m]+1, all+v, count+1
		}
	}
	if count == 0 {
		return
	}
	mean := all/count - zero
	if mean > 33 {
		l.find("unit", s.Heading, int(count), l.Stamps[0], l.Stamps[len(l.Stamps)-1], fmt.Sprintf("the mean outdoor temperature is %.0f °C: is column %q in °F?", mean, s.Heading))
	}
	per := float64(day) / float64(max(1, l.Step))
	if n[0] > 10*per && n[6] > 10*per && sum[0]/n[0] > sum[6]/n[6]+3 {
		l.find("seasons", s.Heading, 1, l.Stamps[0], l.Stamps[len(l.Stamps)-1], "January is warmer than July in this log: a house in the south of the world, or day and month exchanged")
	}
}

// swapped compares columns that stand in a fixed order to each other.
func (l *Log) swapped() {
	first, last := l.Stamps[0], l.Stamps[len(l.Stamps)-1]
	above := func(a, b Series, least float64) (share float64, n int) {
		over := 0
		for i := range a.Values {
			if d := a.Values[i] - b.Values[i]; math.Abs(d) > least {
				n++
				if d < 0 {
					over++
				}
			}
		}
		return float64(over) / float64(max(1, n)), n
	}
	for _, pair := range [][2]Role{{Supply, Return}, {Boiler, BoilerBack}} {
		a, okA := l.First(pair[0])
		b, okB := l.First(pair[1])
		if !okA || !okB {
			continue
		}
		if share, n := above(a, b, 2); n > 50 && share > 0.7 {
			l.find("swapped", a.Heading, n, first, last, fmt.Sprintf("%q is cooler than %q in %.0f %% of the rows in which they differ: the two are exchanged", a.Heading, b.Heading, 100*share))
		}
	}
	out, ok := l.First(Outdoor)
	if !ok {
		return
	}
	swing := spreadOf(out.Values)
	for _, r := range l.All(Room) {
		if share, n := above(r, out, 2); n > 50 && share > 0.7 && swing < spreadOf(r.Values) {
			l.find("swapped", r.Heading, n, first, last, fmt.Sprintf("%q is colder than %q outdoors in %.0f %% of the rows and moves more: the two are exchanged", r.Heading, out.Heading, 100*share))
		}
	}
	if s, ok := l.First(Supply); ok {
		if share, n := above(s, out, 2); n > 50 && share > 0.8 {
			l.find("swapped", s.Heading, n, first, last, fmt.Sprintf("supply %q is colder than outdoors %q in %.0f %% of the rows: the columns are exchanged, or one is in another unit", s.Heading, out.Heading, 100*share))
		}
	}
}

// spreadOf is the range of the middle nine tenths.
func spreadOf(x []float64) float64 {
	v := make([]float64, 0, len(x)/7+1)
	for i := 0; i < len(x); i += 7 {
		if !math.IsNaN(x[i]) {
			v = append(v, x[i])
		}
	}
	if len(v) < 10 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)*95/100] - v[len(v)*5/100]
}
