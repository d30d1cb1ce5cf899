package logs

// The whole file, row by row, into columns.

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"sort"
)

// Log is what was read: columns in SI units over the time of the house.
type Log struct {
	// Stamps are seconds since 1970 began on a clock of the house that stays on standard
	// time, ascending. Each marks the beginning of what its row describes.
	Stamps   []int64
	Series   []Series
	Step     int64 // the most common, s
	Rows     int   // of the file
	Findings []Finding
}

// Series is one column in SI units; NaN where the row has no reading.
type Series struct {
	Column
	Values []float64
}

// Finding is something about the file that its reader should know.
type Finding struct {
	Kind   string // "gap", "repeated", "stuck", "outliers" and so on
	Column string // its heading; empty for the file
	Count  int
	From   int64 // stretch of the log that shows it
	To     int64
	Text   string
}

// Options bound a reading. The zero value takes the usual bounds.
type Options struct {
	MostBytes int64             // 0 means 1 GiB
	MostRows  int               // 0 means 4 million
	Progress  func(bytes int64) // told now and then; may be nil
	Now       int64             // stamp of today, to notice a wrong year; 0 for not known
}

const (
	usualBytes = 1 << 30
	usualRows  = 4_000_000
	lookEvery  = 4096 // rows between two looks at the context
)

// First gives the first column with a role.
//
// Range: any role.
// Source: definition.
func (l *Log) First(role Role) (Series, bool) {
	for _, s := range l.Series {
		if s.Role == role {
			return s, true
		}
	}
	return Series{}, false
}

// All gives every column with a role.
//
// Range: any role.
// Source: definition.
func (l *Log) All(role Role) []Series {
	var out []Series
	for _, s := range l.Series {
		if s.Role == role {
			out = append(out, s)
		}
	}
	return out
}

// Read reads a log by its mapping.
//
// Rows are kept in the order of their times; of rows with the same time the first one
// counts. Local times are brought to standard time where the clock was seen to change.
//
// Units: SI; K for temperatures.
// Range: text as for [Recognise]; bytes and rows as [Options] allow.
// Source: own method.
// Errors: what the mapping refuses; a file beyond the bounds; a file in which more than
// a fifth of the rows cannot be read; the context's error if it ends first.
func Read(ctx context.Context, r io.Reader, m Mapping, o Options) (*Log, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	if o.MostBytes <= 0 {
		o.MostBytes = usualBytes
	}
	if o.MostRows <= 0 {
		o.MostRows = usualRows
	}
	b, err := plain(r)
	if err != nil {
		return nil, err
	}
	t, err := newTaking(m, o)
	if err != nil {
		return nil, err
	}
	in := &lines{from: b}
	var buf [][]byte
	for {
		line, err := in.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		if in.count < m.DataLine {
			continue
		}
		if in.count%lookEvery == 0 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if o.Progress != nil {
				o.Progress(in.bytes)
			}
		}
		if in.bytes > o.MostBytes {
			return nil, fmt.Errorf("the log is larger than %d MB; export a year or less, or a row a minute instead of every second", o.MostBytes>>20)
		}
		buf = cells(line, m.Delimiter[0], buf)
		if err := t.row(buf, in.count); err != nil {
			return nil, err
		}
	}
	return t.log()
}

// taking is a log while it is read.
type taking struct {
	m            Mapping
	o            Options
	stamp, clock int
	columns      []int
	units        []Unit
	share        []bool // a contact or a share: words count as well
	stamps       []int64
	offsets      map[int]int
	values       [][]float64
	rows         int
	unread       int
	firstUnread  int
	empty        []int          // cells without a number, by column
	keys         map[string]int // of a long table: the column of each sensor
}

func newTaking(m Mapping, o Options) (*taking, error) {
	t := &taking{m: m, o: o, stamp: -1, clock: -1, offsets: map[int]int{}}
	for i := range len(m.Columns) + len(m.Keys) {
		c := *m.at(i)
		if i >= len(m.Columns) && c.Role != Leave {
			if t.keys == nil {
				t.keys = map[string]int{}
			}
			t.keys[c.Heading] = len(t.columns)
		} else if m.Key > 0 && c.Role != Time && c.Role != TimeOfDay {
			continue
		}
		switch c.Role {
		case Time:
			t.stamp = i
		case TimeOfDay:
			t.clock = i
		case Leave:
		default:
			u, _ := UnitNamed(c.Unit)
			t.columns, t.units, t.share = append(t.columns, i), append(t.units, u), append(t.share, u.Kind == Share)
		}
	}
	if len(t.columns) == 0 {
		return nil, errors.New("no column of the log has a meaning; name at least one, as 3=outdoor")
	}
	t.values, t.empty = make([][]float64, len(t.columns)), make([]int, len(t.columns))
	return t, nil
}

func (t *taking) row(cells [][]byte, line int) error {
	if len(cells) == 1 && len(cells[0]) == 0 {
		return nil
	}
	t.rows++
	if len(t.stamps) >= t.o.MostRows {
		return fmt.Errorf("the log has more than %d rows; export a shorter time, or longer steps", t.o.MostRows)
	}
	var clock []byte
	if t.clock >= 0 && t.clock < len(cells) {
		clock = cells[t.clock]
	}
	var at moment
	ok := t.stamp < len(cells)
	if ok {
		at, ok = parseTime(cells[t.stamp], clock, t.m.Times)
	}
	if !ok {
		if t.unread++; t.unread == 1 {
			t.firstUnread = line
		}
		return nil
	}
	if at.offset != noOffset {
		at.at -= int64(at.offset) // to UTC
		t.offsets[at.offset]++
	}
	if t.m.Key > 0 {
		t.longRow(cells, at.at)
		return nil
	}
	t.stamps = append(t.stamps, at.at)
	for k, i := range t.columns {
		v := math.NaN()
		if i < len(cells) {
			x, ok := figure(cells[i], t.m.Comma)
			if !ok {
				x, ok = reading(cells[i], t.m.Comma)
			}
			if ok && !(isMark(x) && (x < 0 || t.units[k].Kind != Energy && t.units[k].Kind != Volume)) {
				v = x*t.units[k].Factor + t.units[k].Offset
			} else {
				t.empty[k]++
			}
		} else {
			t.empty[k]++
		}
		t.values[k] = append(t.values[k], v)
	}
	return nil
}

// isMark tells a number that stands for no reading: what loggers write for a broken
// wire or a silent bus. 85 °C and -127 °C are those of a common digital thermometer at
// power-up and when it is not found.
func isMark(x float64) bool {
	switch x {
	case -999, -9999, 9999, 999.9, -999.9, -99.9, 32767, -32768, 65535, -127, 6553.5, 3276.7, -3276.8:
		return true
	}
	return false
}

// log puts the rows in order and looks them over.
func (t *taking) log() (*Log, error) {
	switch {
	case t.rows == 0:
		return nil, fmt.Errorf("there is nothing from line %d on", t.m.DataLine)
	case t.unread*5 > t.rows:
		return nil, fmt.Errorf("%d of %d rows have a time that cannot be read as %q, the first in line %d; look at the form of the times", t.unread, t.rows, t.m.Times, t.firstUnread)
	case len(t.stamps) < 3:
		return nil, fmt.Errorf("the log has %d readable rows; accepted: 3 and more", len(t.stamps))
	}
	l := &Log{Stamps: t.stamps, Rows: t.rows}
	for k, i := range t.columns {
		l.Series = append(l.Series, Series{*t.m.at(i), t.values[k]})
	}
	if t.unread > 0 {
		l.find("unread rows", "", t.unread, 0, 0, fmt.Sprintf("%d of %d rows have no time that can be read, the first in line %d", t.unread, t.rows, t.firstUnread))
	}
	t.toHouse(l)
	if l.Stamps[0] > l.Stamps[len(l.Stamps)-1] {
		l.reverse()
	}
	l.Step, _ = commonStep(l.Stamps[:min(len(l.Stamps), 20000)])
	l.summerTime(len(t.offsets) > 0 || t.m.Key > 0)
	long := t.m.Key > 0
	l.order(long)
	if long {
		l.Step, _ = commonStep(l.Stamps[:min(len(l.Stamps), 20000)])
	}
	if t.m.Ending && l.Step > 0 {
		for i := range l.Stamps {
			l.Stamps[i] -= l.Step
		}
	}
	l.check(t.empty, t.o)
	return l, nil
}

// toHouse brings times that name their distance from UTC to the house's standard time:
// the smaller of the offsets seen, or the one that was given for UTC.
func (t *taking) toHouse(l *Log) {
	if len(t.offsets) == 0 {
		return
	}
	standard := math.MaxInt
	for o := range t.offsets {
		standard = min(standard, o)
	}
	if standard == 0 {
		standard = int(t.m.Offset * hour)
	}
	for i := range l.Stamps {
		l.Stamps[i] += int64(standard)
	}
}

func (l *Log) reverse() {
	slices.Reverse(l.Stamps)
	for _, s := range l.Series {
		slices.Reverse(s.Values)
	}
	l.find("newest first", "", len(l.Stamps), l.Stamps[0], l.Stamps[len(l.Stamps)-1], "the newest row stands first; the rows were turned round")
}

// summerTime finds where the clock was set back or forward: a step that is an hour too
// short or too long, on a Sunday at night. Times in summer are moved to standard time.
func (l *Log) summerTime(known bool) {
	if known || l.Step <= 0 || l.Step > hour {
		return
	}
	type change struct {
		row  int
		back bool
	}
	var changes []change
	for i := 1; i < len(l.Stamps); i++ {
		d := l.Stamps[i] - l.Stamps[i-1]
		at := Clock(l.Stamps[i])
		if at.Weekday() != 0 || at.Hour() > 4 {
			continue
		}
		switch d {
		case l.Step - hour:
			changes = append(changes, change{i, true})
		case l.Step + hour:
			if m := at.Month(); m == 3 || m == 4 || m == 9 || m == 10 {
				changes = append(changes, change{i, false})
			}
		}
	}
	if len(changes) == 0 || len(changes) > 40 {
		return
	}
	// An hour that is missing, with no hour that comes twice, may be a mere gap; but at
	// that hour of that night it hardly is.
	summer := changes[0].back
	from := 0
	shift := func(to int) {
		if summer {
			for i := from; i < to; i++ {
				l.Stamps[i] -= hour
			}
		}
		from = to
	}
	for _, c := range changes {
		shift(c.row)
		summer = !c.back
		word := "forward"
		if c.back {
			word = "back"
		}
		l.find("clock changed", "", 1, l.Stamps[c.row], l.Stamps[c.row], fmt.Sprintf("the clock was set %s an hour at %s; summer's times were brought to standard time", word, Say(l.Stamps[c.row])))
	}
	shift(len(l.Stamps))
}

// order sorts rows whose times go back, and drops those whose time was there before.
func (l *Log) order(long bool) {
	back := 0
	for i := 1; i < len(l.Stamps); i++ {
		if l.Stamps[i] < l.Stamps[i-1] {
			back++
		}
	}
	if back > 0 {
		l.sort()
	}
	if back > 0 && !long { // sensor after sensor is the order of such a table
		l.find("out of order", "", back, 0, 0, fmt.Sprintf("in %d places the time goes back; the rows were sorted by their times", back))
	}
	kept, repeated, first := 0, 0, int64(0)
	for i := range l.Stamps {
		if i > 0 && l.Stamps[i] == l.Stamps[kept-1] {
			if repeated++; repeated == 1 {
				first = l.Stamps[i]
			}
			for _, s := range l.Series { // a later row may fill what the first left open
				if math.IsNaN(s.Values[kept-1]) {
					s.Values[kept-1] = s.Values[i]
				}
			}
			continue
		}
		l.Stamps[kept] = l.Stamps[i]
		for _, s := range l.Series {
			s.Values[kept] = s.Values[i]
		}
		kept++
	}
	l.Stamps = l.Stamps[:kept]
	for k := range l.Series {
		l.Series[k].Values = l.Series[k].Values[:kept]
	}
	if repeated > 0 && !long {
		l.find("repeated", "", repeated, first, first, fmt.Sprintf("%d rows have a time that was there before, first at %s; the first of each counts", repeated, Say(first)))
	}
}

func (l *Log) sort() {
	index := make([]int32, len(l.Stamps))
	for i := range index {
		index[i] = int32(i)
	}
	sort.SliceStable(index, func(a, b int) bool { return l.Stamps[index[a]] < l.Stamps[index[b]] })
	stamps := make([]int64, len(index))
	for i, k := range index {
		stamps[i] = l.Stamps[k]
	}
	l.Stamps = stamps
	for n := range l.Series {
		values := make([]float64, len(index))
		for i, k := range index {
			values[i] = l.Series[n].Values[k]
		}
		l.Series[n].Values = values
	}
}

func (l *Log) find(kind, column string, count int, from, to int64, text string) {
	l.Findings = append(l.Findings, Finding{Kind: kind, Column: column, Count: count, From: from, To: to, Text: text})
}
