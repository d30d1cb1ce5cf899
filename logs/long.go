package logs

// Tables with one reading of one sensor in each row, as home automation exports them.

import (
	"math"
	"slices"
)

const (
	mostKeys   = 64
	leastKeys  = 2
	longBucket = 60 // s: readings of one minute make one row
)

// long looks for a column that names sensors and one that holds their readings, and
// proposes a meaning for each sensor.
func (r *Recognised) long(f *layoutFound, headings [][]byte) bool {
	key, value := -1, -1
	var names []string
	for i := range r.Columns {
		if i == f.stamp || i == f.clock {
			continue
		}
		switch found := distinct(f.rows, i, r.Comma); {
		case found == nil && value < 0 && mostlyNumbers(f.rows, i, r.Comma):
			value = i
		case found == nil && mostlyNumbers(f.rows, i, r.Comma):
			return false // several columns of numbers: a table with a row for each time
		case len(found) >= leastKeys && (key < 0 || len(found) > len(names)):
			key, names = i, found
		}
	}
	if key < 0 || value < 0 || len(f.rows) < 4*len(names) {
		return false
	}
	for i := range r.Columns {
		if c := &r.Columns[i]; c.Role != Time && c.Role != TimeOfDay {
			*c = Column{Heading: c.Heading, Role: Leave, Confidence: 0.8}
		}
	}
	r.Columns[key].Reason, r.Columns[value].Reason = "names the sensor of each row", "holds its reading"
	r.Key, r.Value = key+1, value+1
	// The sensors as if each had its own column.
	wide := &layoutFound{columns: len(names), stamp: -1, clock: -1, layout: f.layout, step: f.step, ambiguous: f.ambiguous, utc: f.utc, said24: f.said24}
	for _, row := range f.rows {
		if key >= len(row) || value >= len(row) {
			continue
		}
		k := slices.Index(names, clip(row[key]))
		if k < 0 {
			continue
		}
		cells := make([][]byte, len(names))
		cells[k] = row[value]
		wide.rows = append(wide.rows, cells)
	}
	inner := &Recognised{Step: f.step}
	inner.Comma = r.Comma
	inner.Columns = make([]Column, len(names))
	for k, name := range names {
		inner.Columns[k].Heading = name
		inner.Columns[k].guess("", wide.sample(k, r.Comma))
	}
	inner.settle(wide)
	r.Keys, r.Doubts = inner.Columns, inner.Doubts
	return true
}

// distinct gives the texts of a column, if they are few and no numbers.
func distinct(rows [][][]byte, i int, comma bool) []string {
	var names []string
	for _, row := range rows {
		if i >= len(row) || len(row[i]) == 0 {
			continue
		}
		if _, number := figure(row[i], comma); number {
			return nil
		}
		if name := clip(row[i]); !slices.Contains(names, name) {
			if names = append(names, name); len(names) > mostKeys {
				return nil
			}
		}
	}
	return names
}

func mostlyNumbers(rows [][][]byte, i int, comma bool) bool {
	n := 0
	for _, row := range rows {
		if i < len(row) {
			if _, ok := reading(row[i], comma); ok {
				n++
			}
		}
	}
	return n*2 > len(rows)
}

// longRow takes one reading of one sensor.
func (t *taking) longRow(cells [][]byte, at int64) {
	k, v := -1, math.NaN()
	if t.m.Key <= len(cells) && t.m.Value <= len(cells) {
		if i, ok := t.keys[clip(cells[t.m.Key-1])]; ok {
			if x, ok := reading(cells[t.m.Value-1], t.m.Comma); ok && !isMark(x) {
				k, v = i, x*t.units[i].Factor+t.units[i].Offset
			}
		}
	}
	if k < 0 {
		return // a sensor that is left out, or one that said nothing
	}
	at -= at % longBucket
	if n := len(t.stamps); n == 0 || t.stamps[n-1] != at {
		t.stamps = append(t.stamps, at)
		for i := range t.values {
			t.values[i] = append(t.values[i], math.NaN())
		}
	}
	t.values[k][len(t.stamps)-1] = v
}
