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
func (r *Recognised) long(f *layoutFound) bool {
	key, value, named := -1, -1, 0
	var texts []int // columns of few words
	for i := range r.Columns {
		if i == f.stamp || i == f.clock {
			continue
		}
		switch found := distinct(f.rows, i, r.Comma); {
		case found == nil && value < 0 && mostlyNumbers(f.rows, i, r.Comma):
			value = i
		case found == nil && mostlyNumbers(f.rows, i, r.Comma):
			return false // several columns of numbers: a table with a row for each time
		case len(found) > 0:
			texts = append(texts, i)
			if len(found) >= leastKeys && len(found) > named {
				key, named = i, len(found)
			}
		}
	}
	if key < 0 || value < 0 {
		return false
	}
	r.Key, r.Value, r.Beside = key+1, value+1, r.beside(f, key, named, texts)
	var names []string
	for _, row := range f.rows {
		if name := r.keyOf(row); name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(f.rows) < 4*len(names) {
		r.Key, r.Value, r.Beside = 0, 0, 0
		return false
	}
	for i := range r.Columns {
		if c := &r.Columns[i]; c.Role != Time && c.Role != TimeOfDay {
			*c = Column{Heading: c.Heading, Role: Leave, Confidence: 0.8}
		}
	}
	r.Columns[key].Reason, r.Columns[value].Reason = "names the sensor of each row", "holds its reading"
	if r.Beside > 0 {
		r.Columns[r.Beside-1].Reason = "says what it measures"
	}
	r.sensors(f, names, unitColumn(f.rows, texts))
	return true
}

// beside looks for a column that parts the names further: what a device measures. It
// gives 0 if there is none, else the column from 1.
func (r *Recognised) beside(f *layoutFound, key, named int, texts []int) int {
	best, most := 0, named
	for _, i := range texts {
		if i == key {
			continue
		}
		seen := map[string]bool{}
		units := 0
		for _, row := range f.rows {
			if key < len(row) && i < len(row) {
				seen[clip(row[key])+"\t"+clip(row[i])] = true
				if _, unit := UnitNamed(clip(row[i])); unit {
					units++
				}
			}
		}
		if len(seen) > most && len(seen) <= mostKeys && units*2 < len(f.rows) && !changing(f.rows, key, i) {
			best, most = i+1, len(seen)
		}
	}
	return best
}

// changing tells a column that says how a sensor is, as good or bad, from one that says
// what it measures: one of its words has nearly all rows of each name.
func changing(rows [][][]byte, key, i int) bool {
	count, total := map[string]map[string]int{}, map[string]int{}
	for _, row := range rows {
		if key >= len(row) || i >= len(row) {
			continue
		}
		name := string(row[key])
		if count[name] == nil {
			count[name] = map[string]int{}
		}
		count[name][string(row[i])]++
		total[name]++
	}
	for name, words := range count {
		most := 0
		for _, n := range words {
			most = max(most, n)
		}
		if len(words) > 1 && most*10 < total[name]*9 {
			return false
		}
	}
	return true
}

// unitColumn finds the column that says the unit of each reading, or -1.
func unitColumn(rows [][][]byte, texts []int) int {
	for _, i := range texts {
		n := 0
		for _, row := range rows {
			if i < len(row) {
				if _, ok := UnitNamed(clip(row[i])); ok {
					n++
				}
			}
		}
		if n*2 > len(rows) {
			return i
		}
	}
	return -1
}

// keyOf is the name of the sensor of a row.
func (m *Mapping) keyOf(row [][]byte) string {
	if m.Key > len(row) || m.Beside > len(row) {
		return ""
	}
	name := clip(row[m.Key-1])
	if m.Beside > 0 && len(row[m.Beside-1]) > 0 {
		name += " " + clip(row[m.Beside-1])
	}
	return name
}

// sensors proposes a meaning for each sensor, as if each had its own column.
func (r *Recognised) sensors(f *layoutFound, names []string, unit int) {
	wide := &layoutFound{columns: len(names), stamp: -1, clock: -1, layout: f.layout, step: f.step, ambiguous: f.ambiguous, utc: f.utc, said24: f.said24}
	under, quantity := make([]string, len(names)), make([]string, len(names))
	for _, row := range f.rows {
		k := slices.Index(names, r.keyOf(row))
		if k < 0 || r.Value > len(row) {
			continue
		}
		if r.Beside > 0 {
			quantity[k] = clip(row[r.Beside-1])
		}
		if unit >= 0 && unit < len(row) {
			under[k] = clip(row[unit])
		}
		cells := make([][]byte, len(names))
		cells[k] = row[r.Value-1]
		wide.rows = append(wide.rows, cells)
	}
	inner := &Recognised{Step: f.step}
	inner.Comma = r.Comma
	inner.Columns = make([]Column, len(names))
	for k, name := range names {
		c := &inner.Columns[k]
		values := wide.sample(k, r.Comma)
		if c.Heading = quantity[k]; c.Heading != "" { // a supply is one in whatever room its device is
			c.guess(under[k], values)
		}
		if c.Role == "" || c.Role == Leave {
			*c = Column{Heading: name}
			c.guess(under[k], values)
		}
		c.Heading = name
	}
	inner.settle(wide)
	r.Keys, r.Doubts = inner.Columns, inner.Doubts
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
	if t.m.Value <= len(cells) {
		if i, ok := t.keys[t.m.keyOf(cells)]; ok {
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
