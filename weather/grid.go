package weather

// From rows with a date to a year without gaps: every reader drops its rows into a
// grid of hours, and the grid counts, bridges or refuses what is missing.

import (
	"fmt"
	"math"
)

const (
	// straightHours is the longest gap bridged by a straight line; neighbourHours the
	// longest filled from neighbouring days. Longer ones are refused. Common practice.
	straightHours  = 6
	neighbourHours = 72
	// outsideShare is the share of impossible values above which a column is not what
	// its heading says.
	outsideShare = 0.05
)

// grid collects values by month, day and hour. Whatever their years, typical years are
// made of months from different ones.
type grid struct {
	sum     [columns][]float64
	count   [columns][]uint16
	year    []int32 // of the first row in each hour, +1
	years   [2]int  // the first and the last
	rows    int
	again   int // rows for an hour that has one
	other   int // of these, in another year
	marked  [columns]int
	outside [columns]int
	example [columns]float64
	notes   []string
}

func newGrid(has ...column) *grid {
	g := &grid{year: make([]int32, leapHours)}
	for _, c := range has {
		g.sum[c] = make([]float64, leapHours)
		g.count[c] = make([]uint16, leapHours)
	}
	return g
}

// hourIndex gives the place of an hour, counted from 0, in a leap year; month and day
// count from 1.
func hourIndex(month, day, hour int) (int, bool) {
	if month < 1 || month > 12 || day < 1 || day > monthDays(month-1, true) || hour < 0 || hour > 23 {
		return 0, false
	}
	days := day - 1
	for m := range month - 1 {
		days += monthDays(m, true)
	}
	return days*24 + hour, true
}

// before gives the hour that ends when this one begins, within the year as a ring. In
// a common year the hour before 1 March is the last of 28 February.
func before(i int, leap bool) int {
	i = (i + leapHours - 1) % leapHours
	if !leap && i == leapDayStart+23 {
		i = leapDayStart - 1
	}
	return i
}

func isLeap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// row opens an hour for values of the given year.
func (g *grid) row(i, year int) {
	year = min(max(year, 0), 9999) // some files leave it out
	if g.rows == 0 {
		g.years = [2]int{year, year}
	}
	g.years = [2]int{min(g.years[0], year), max(g.years[1], year)}
	g.rows++
	switch g.year[i] {
	case 0:
		g.year[i] = int32(year) + 1
		return
	case int32(year) + 1:
	default:
		g.other++
	}
	g.again++
}

// put adds a value to an hour. Several values in one hour are averaged.
func (g *grid) put(i int, c column, v float64) {
	if g.sum[c] == nil {
		return
	}
	l := &limits[c]
	if c.radiation() && v < 0 && v >= -20 {
		v = 0 // pyranometers read a little below zero on a clear night
	}
	switch {
	case v >= l.min && v <= l.max:
		if g.count[c][i] < math.MaxUint16 {
			g.sum[c][i] += v
			g.count[c][i]++
		}
	case math.IsNaN(v) || isMark(v):
		g.marked[c]++
	default:
		if g.outside[c] == 0 {
			g.example[c] = v
		}
		g.outside[c]++
	}
}

// isMark tells the usual marks for missing. It is asked only about values that the
// column cannot have: 999 W/m² of sun is one that it can.
func isMark(v float64) bool {
	switch v {
	case -9999, -9900, -999, -999.9, -99.9, -99.99, -999.99, -9999.9, 999, 999.9, 9999, 9999.9, 99999, 99.9, 99.99:
		return true
	}
	return false
}

func (g *grid) note(format string, a ...any) { g.notes = append(g.notes, fmt.Sprintf(format, a...)) }

// finish makes the year.
func (g *grid) finish(at Place, origin Origin) (*Year, error) {
	if g.rows == 0 {
		return nil, fmt.Errorf("the %s has no hours that could be read", origin)
	}
	if g.other > 48 && g.other*50 > g.rows {
		return nil, fmt.Errorf("the %s holds more than one year (%d to %d): %d hours occur again in another year; give one year",
			origin, g.years[0], g.years[1], g.other)
	}
	y := &Year{Place: at, Origin: origin, Report: Report{Rows: g.rows}}
	leapRows := 0
	for i := leapDayStart; i < leapDayStart+24; i++ {
		if g.year[i] != 0 {
			leapRows++
		}
	}
	leap := leapRows >= 12
	n := commonHours
	switch {
	case leap:
		n = leapHours
		g.note("29 February is in the file: the year has %d hours", leapHours)
	case leapRows > 0:
		g.note("29 February has only %d hours and was left out", leapRows)
	}
	if g.again > 0 {
		g.note("%d rows fall in an hour that has one already; their mean was taken", g.again)
	}
	for c := range columns {
		if g.sum[c] == nil {
			continue
		}
		x := g.means(c, leap, n)
		r := ColumnReport{Name: limits[c].name, Unit: limits[c].unit, Hours: n,
			Marked: g.marked[c], Outside: g.outside[c], Example: g.example[c]}
		err := r.fill(x, c, leap)
		if float64(r.Outside) > outsideShare*float64(g.rows) {
			err = fmt.Errorf("%s: %d of %d values are not between %s and %s %s, the first is %s; columns may be swapped or in another unit",
				r.Name, r.Outside, g.rows, plainNumber(limits[c].min), plainNumber(limits[c].max), r.Unit, plainNumber(r.Example))
		}
		if err != nil && c == dryBulb {
			return nil, fmt.Errorf("the %s cannot be used: %w", origin, err)
		}
		if err != nil {
			r.LeftOut = true
			if r.Missing < n {
				g.note("%v: the column was left out", err)
			}
		} else {
			*y.series(c) = x
		}
		y.Report.Columns = append(y.Report.Columns, r)
	}
	y.Report.Findings = append(g.notes, y.suspicions()...)
	return y, nil
}

// means gives the hours of a column, missing ones as NaN.
func (g *grid) means(c column, leap bool, n int) []float64 {
	x := make([]float64, 0, n)
	for i := range leapHours {
		if !leap && i >= leapDayStart && i < leapDayStart+24 {
			continue
		}
		v := math.NaN()
		if k := g.count[c][i]; k > 0 {
			v = g.sum[c][i] / float64(k)
		}
		x = append(x, v)
	}
	return x
}

// stretch is a run of missing hours.
type stretch struct{ start, length int }

// stretches lists the runs of NaN, taking the year as a ring; one run over the whole
// year if nothing is there.
func stretches(x []float64) []stretch {
	first := 0
	for first < len(x) && math.IsNaN(x[first]) {
		first++
	}
	if first == len(x) {
		return []stretch{{0, len(x)}}
	}
	var out []stretch
	for k := 1; k <= len(x); k++ {
		if i := (first + k) % len(x); math.IsNaN(x[i]) {
			if last := len(out) - 1; last >= 0 && (out[last].start+out[last].length)%len(x) == i {
				out[last].length++
			} else {
				out = append(out, stretch{i, 1})
			}
		}
	}
	return out
}

// fill bridges the gaps of a column in place and counts them. Temperatures and wind are
// bridged by a straight line up to 6 h; longer gaps, and all of radiation, which a line
// would carry into the night, take the mean of the same hour one to three days before
// and after.
func (r *ColumnReport) fill(x []float64, c column, leap bool) error {
	n := len(x)
	gaps := stretches(x)
	worst := stretch{}
	for _, s := range gaps {
		r.Missing += s.length
		if s.length > worst.length {
			worst = s
		}
	}
	r.Longest = worst.length
	switch {
	case r.Missing == n:
		return fmt.Errorf("no hour has a %s", r.Name)
	case worst.length > neighbourHours:
		return fmt.Errorf("%d of %d hours have no %s, %d of them in a row from %s; up to %d in a row are bridged",
			r.Missing, n, r.Name, worst.length, dateText(worst.start, leap), neighbourHours)
	}
	was := x
	if len(gaps) > 0 {
		was = append([]float64(nil), x...)
	}
	for _, s := range gaps {
		if s.length <= straightHours && !c.radiation() {
			from, to := was[(s.start+n-1)%n], was[(s.start+s.length)%n]
			for k := range s.length {
				x[(s.start+k)%n] = from + (to-from)*float64(k+1)/float64(s.length+1)
			}
			r.Straight += s.length
			continue
		}
		for k := range s.length {
			i := (s.start + k) % n
			v, ok := neighbours(was, i)
			if !ok {
				return fmt.Errorf("at %s there is no %s, nor at the same hour of the three days before and after",
					dateText(i, leap), r.Name)
			}
			x[i] = v
		}
		r.Neighbour += s.length
	}
	return nil
}

// neighbours gives the mean of the same hour on the nearest earlier and later day.
func neighbours(x []float64, i int) (float64, bool) {
	sum, found := 0.0, 0.0
	for _, step := range []int{-24, 24} {
		for k := 1; k <= neighbourHours/24; k++ {
			if v := x[((i+k*step)%len(x)+len(x))%len(x)]; !math.IsNaN(v) {
				sum, found = sum+v, found+1
				break
			}
		}
	}
	return sum / found, found > 0
}
