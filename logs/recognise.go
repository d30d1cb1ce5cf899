package logs

// What kind of table is it, and where do the readings begin?

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
)

// Recognised is a proposal that a person confirms.
type Recognised struct {
	Mapping
	Step    int64      // seconds from row to row, the most common
	First   int64      // stamp of the first row
	Preview [][]string // the first rows as they stand
	Doubts  []string   // what to look at, in sentences
}

// How much of a file is looked at.
const (
	sampleBytes = 768 << 10
	sampleRows  = 6000
	previewRows = 8
	headLines   = 80 // before which the readings must begin
)

// Recognise looks at the beginning of a log and proposes how to read it.
//
// The delimiter is the one that cuts the most lines into the same number of cells; the
// form of the times the one under which the steps are the most even; a column's meaning
// comes from its heading, or where that says nothing from its values.
//
// Units: none.
// Range: text in UTF-8, UTF-16 or Latin-1, up to 256 columns; at least three rows
// within the first 80 lines.
// Source: own method; words in English, German, French and Spanish.
// Errors: what is not a table with a column of times, in a sentence.
func Recognise(r io.Reader) (*Recognised, error) {
	b, err := plain(io.LimitReader(r, sampleBytes))
	if err != nil {
		return nil, err
	}
	var sample [][]byte
	in := &lines{from: b}
	for len(sample) < sampleRows {
		line, err := in.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		sample = append(sample, bytes.Clone(line))
	}
	if in.bytes >= sampleBytes-1 && len(sample) > 3 {
		sample = sample[:len(sample)-1] // cut off in its middle
	}
	return recognise(sample)
}

func recognise(sample [][]byte) (*Recognised, error) {
	formulas := 0
	var best *layoutFound
	for _, delimiter := range []byte(";\t,| ") {
		if f := findLayout(sample, delimiter); f != nil && (best == nil || f.score > best.score*1.05) {
			best = f
		}
	}
	for _, line := range sample {
		if bytes.Contains(line, []byte(unworked)) {
			formulas++
		}
	}
	switch {
	case best == nil && formulas*2 > len(sample):
		return nil, errors.New("the spreadsheet's formulas were saved without their values: open it in a spreadsheet program, save it, and send it again")
	case best != nil && best.commaTwice(sample):
		return nil, errors.New("commas stand between the columns and before the decimals, so that nobody can tell one from the other: export with semicolons or tabs, or with decimal points")
	}
	if best == nil {
		return nil, errors.New("no column of dates and times was found in the first lines; accepted: a table with a row for each reading, its date and time as 2026-01-31 13:00, 1/31/2026 1:00 PM, 31.1.2026 13:00 or seconds since 1970")
	}
	return best.propose(sample), nil
}

// layoutFound is one way to read the sample.
type layoutFound struct {
	delimiter     byte
	score         float64
	line          int // of the first row, from 0
	columns       int
	stamp, clock  int // columns
	layout        Layout
	ambiguous     bool // day and month could change places
	step          int64
	first         int64
	utc, said24   bool
	comma, points int
	threes        int // commas before three digits: thousands or thousandths
	numbers       int
	rows          [][][]byte
}

// findLayout tries a delimiter.
func findLayout(sample [][]byte, delimiter byte) *layoutFound {
	var best *layoutFound
	usual := usualCells(sample, delimiter)
	for start := 0; start < min(len(sample), headLines); start++ {
		if len(bytes.TrimSpace(sample[start])) == 0 {
			continue
		}
		first := cells(sample[start], delimiter, nil)
		if len(first) < max(2, usual) {
			continue // a line before the table, even if it has a date
		}
		for stamp := 0; stamp < min(len(first), 4); stamp++ {
			for _, l := range layouts {
				f := tryLayout(sample, start, delimiter, stamp, l)
				if f == nil || best != nil && f.score < best.score-1e-9 {
					continue
				}
				if best != nil && math.Abs(f.score-best.score) < 1e-9 && (best.layout == MonthFirst || best.layout == DayFirst) && f.layout != best.layout {
					best.ambiguous = true
					if f.layout == DayFirst && bytes.IndexByte(first[stamp], '.') > 0 {
						f.ambiguous = false // dots go with the day first
						best = f
					}
					continue
				}
				best = f
			}
		}
		if best != nil {
			return best // the readings begin where the first of them can be read
		}
	}
	return best
}

// usualCells is the most common number of cells in a line.
func usualCells(sample [][]byte, delimiter byte) int {
	var count [mostCells + 1]int
	var buf [][]byte
	for _, line := range sample[:min(len(sample), 4*headLines)] {
		buf = cells(line, delimiter, buf)
		count[len(buf)]++
	}
	best := 0
	for n := 2; n < len(count); n++ {
		if count[n] > count[best] || best == 0 && count[n] > 0 {
			best = n
		}
	}
	return best
}

// commaTwice tells a table with commas between its columns and before its decimals: its
// rows have nearly twice the cells of its heading.
func (f *layoutFound) commaTwice(sample [][]byte) bool {
	if f.delimiter != ',' || f.line == 0 {
		return false
	}
	heading := len(cells(bytes.TrimRight(sample[f.line-1], ", "), ',', nil))
	return heading > 2 && 5*(f.columns-1) >= 8*(heading-1)
}

// tryLayout reads the sample with one delimiter and one form of times. The score grows
// with the rows that can be read, their numbers, and the evenness of the steps.
func tryLayout(sample [][]byte, start int, delimiter byte, stamp int, l Layout) *layoutFound {
	f := &layoutFound{delimiter: delimiter, line: start, stamp: stamp, clock: -1, layout: l}
	var stamps []int64
	read, missed, numbers := 0, 0, 0
	var buf [][]byte
	for n, line := range sample[start:] {
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		buf = cells(line, delimiter, buf)
		if n == 0 {
			f.columns = len(buf)
			f.clock = clockColumn(buf, stamp, l)
		}
		m, ok := f.timeOf(buf)
		if !ok {
			if n == 0 {
				return nil
			}
			missed++
			continue
		}
		read++
		f.utc = f.utc || m.offset == 0 && l != Seconds && l != Millis
		f.said24 = f.said24 || m.hour24
		if len(stamps) < sampleRows {
			stamps = append(stamps, m.at)
		}
		if len(f.rows) < sampleRows {
			row := make([][]byte, len(buf))
			copy(row, buf)
			f.rows = append(f.rows, row)
		}
		for i, c := range buf {
			if i == stamp || i == f.clock {
				continue
			}
			switch at := bytes.IndexByte(c, ','); {
			case at < 0:
			case commaNumber(c):
				f.comma++
			case at > 0 && threeDigits(c[at+1:]):
				f.threes++
			}
			if bytes.IndexByte(c, '.') >= 0 {
				f.points++
			}
			_, a := figure(c, false)
			_, b := figure(c, true)
			if a || b {
				numbers++
			}
		}
	}
	if read < 3 || missed > read/5+2 || numbers < read/3 {
		return nil
	}
	f.first = stamps[0]
	even := 0.0
	f.step, even = commonStep(stamps)
	if f.step <= 0 {
		return nil
	}
	f.numbers = numbers
	perRow := math.Min(float64(numbers)/float64(read), 20)
	f.score = float64(read) / float64(read+missed) * (0.2 + even) * (1 + perRow)
	return f
}

// commaNumber tells whether a cell is a number with a decimal comma.
func commaNumber(c []byte) bool {
	i := bytes.IndexByte(c, ',')
	if i < 0 {
		return false
	}
	_, ok := figure(c, true)
	return ok && (!threeDigits(c[i+1:]) || string(bytes.TrimLeft(c[:i], "+-")) == "0")
}

// clockColumn finds the time of day beside a bare date.
func clockColumn(first [][]byte, stamp int, l Layout) int {
	if l == Seconds || l == Millis || l == SerialDay || bytes.IndexByte(dayAlone(first[stamp]), ':') >= 0 {
		return -1
	}
	for _, i := range []int{stamp + 1, stamp - 1} {
		if i < 0 || i >= len(first) {
			continue
		}
		next := clockAlone(first[i])
		s := scan{offset: noOffset}
		if bytes.IndexByte(next, ':') > 0 && s.take(next) && s.count >= 2 && s.count <= 4 && s.n[0] <= 24 {
			return i
		}
	}
	return -1
}

func (f *layoutFound) timeOf(row [][]byte) (moment, bool) {
	if f.stamp >= len(row) {
		return moment{}, false
	}
	var clock []byte
	if f.clock >= 0 {
		if f.clock >= len(row) {
			return moment{}, false
		}
		clock = row[f.clock]
	}
	return parseTime(row[f.stamp], clock, f.layout)
}

// commonStep gives the most common step, and the share of steps that are it.
func commonStep(stamps []int64) (int64, float64) {
	count := map[int64]int{}
	for i := 1; i < len(stamps); i++ {
		d := stamps[i] - stamps[i-1]
		if d < 0 {
			d = -d // newest first
		}
		count[d]++
	}
	delete(count, 0)
	best, most := int64(0), 0
	for d, n := range count {
		if n > most || n == most && d < best {
			best, most = d, n
		}
	}
	near := 0
	for d, n := range count {
		if d >= best-max(2, best/50) && d <= best+max(2, best/50) {
			near += n
		}
	}
	return best, float64(near) / float64(max(1, len(stamps)-1))
}

// propose makes the mapping from a layout.
func (f *layoutFound) propose(sample [][]byte) *Recognised {
	r := &Recognised{Step: f.step, First: f.first}
	r.Delimiter, r.DataLine, r.Times = string(f.delimiter), f.line+1, f.layout
	r.Comma = f.comma > f.points || f.comma > 0 && f.delimiter != ',' || f.threes > 0 && f.points == 0 && f.threes*3 > f.numbers
	r.Ending = f.said24
	headings, under := f.headings(sample)
	r.Columns = make([]Column, f.columns)
	for i := range r.Columns {
		c := &r.Columns[i]
		if i < len(headings) {
			c.Heading = clip(mended(headings[i]))
		}
		switch i {
		case f.stamp:
			*c = Column{Heading: c.Heading, Role: Time, Confidence: 0.99, Reason: fmt.Sprintf("dates, %s, every %s", f.layout, lasting(f.step))}
		case f.clock:
			*c = Column{Heading: c.Heading, Role: TimeOfDay, Confidence: 0.99, Reason: "times of day beside the date"}
		default:
			unit := ""
			if i < len(under) {
				unit = clip(mended(under[i]))
			}
			c.guess(unit, f.sample(i, r.Comma))
		}
	}
	if !r.long(f) {
		r.settle(f)
	}
	for i, row := range f.rows {
		if i == previewRows {
			break
		}
		texts := make([]string, len(row))
		for k, cell := range row {
			texts[k] = clip(cell)
		}
		r.Preview = append(r.Preview, texts)
	}
	return r
}

// headings gives the line with the names of the columns, and one with units below it.
func (f *layoutFound) headings(sample [][]byte) (names, under [][]byte) {
	for line := f.line - 1; line >= 0 && line >= f.line-6; line-- {
		c := cells(bytes.TrimLeft(sample[line], "# "), f.delimiter, nil)
		if len(c) < max(2, f.columns-1) {
			continue
		}
		inUnits, filled := 0, 0
		for _, cell := range c {
			if len(cell) == 0 {
				continue
			}
			filled++
			if _, ok := UnitNamed(bracketless(cell)); ok {
				inUnits++
			}
		}
		if under == nil && filled > 0 && inUnits*2 >= filled && line > 0 {
			under = c
			continue
		}
		return c, under
	}
	return nil, under
}

func bracketless(c []byte) string {
	return string(bytes.Trim(bytes.TrimSpace([]byte(clip(c))), "[]()"))
}

// sample gives the numbers of a column.
func (f *layoutFound) sample(i int, comma bool) []float64 {
	out := make([]float64, 0, len(f.rows))
	for _, row := range f.rows {
		v := math.NaN()
		if i < len(row) {
			if x, ok := reading(row[i], comma); ok && !isMark(x) {
				v = x
			}
		}
		out = append(out, v)
	}
	return out
}

// reading is a number, or a contact in words.
func reading(c []byte, comma bool) (float64, bool) {
	if v, ok := figure(c, comma); ok {
		return v, true
	}
	if len(c) > 12 {
		return 0, false
	}
	switch string(bytes.ToLower(c)) {
	case "on", "true", "yes", "ein", "an", "ja", "marche", "oui", "vrai", "encendido", "si", "sí", "active", "running", "heat", "heating":
		return 1, true
	case "off", "false", "no", "aus", "nein", "arrêt", "arret", "non", "faux", "apagado", "inactive", "idle", "stopped", "standby":
		return 0, true
	}
	// A number with its unit behind it: "68.5 °F", "45%".
	i := len(c)
	for i > 0 && (c[i-1] >= 'a' && c[i-1] <= 'z' || c[i-1] >= 'A' && c[i-1] <= 'Z' || c[i-1] >= 0x80 || c[i-1] == '%' || c[i-1] == ' ') {
		i--
	}
	if i == len(c) {
		return 0, false
	}
	return figure(c[:i], comma)
}

func lasting(seconds int64) string {
	switch {
	case seconds%hour == 0 && seconds >= hour:
		return plural(seconds/hour, "hour")
	case seconds%60 == 0 && seconds >= 60:
		return plural(seconds/60, "minute")
	}
	return plural(seconds, "second")
}

func plural(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
