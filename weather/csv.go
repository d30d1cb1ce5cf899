package weather

// Plain CSV with named columns: what a logger, a spreadsheet or a weather service
// exports. Names and units are taken from the heading; separator, decimal comma and the
// order of day and month are found out.

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"curvewright/units"
)

// ParseCSV reads hours from a text table with a heading such as
//
//	time; outdoor temperature (°F); dew point (°F); global (W/m²); wind (mph)
//
// Lines before the heading may give the place: "latitude: 44.5" and so on; what they
// leave out is taken from the place given. Rows closer than an hour are averaged.
//
// Units: as the heading names them; a temperature without a unit is refused.
// Range: one year, or twelve months across two; times as "2025-01-31 13:00", "1/31/2025
// 1:00 PM" or "31.1.2025 13:00", or columns for year, month, day and hour. A value
// belongs to the hour in which its time lies; where hours run to 24:00, to the one that
// ends then. Without a time there must be 8,760 or 8,784 rows, 1 January first.
// Source: common practice.
// Errors: no heading with a temperature, a temperature without a unit, times that
// cannot be read, several years, gaps that are too long.
func ParseCSV(data []byte, at Place) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	t, err := findTable(text, &at)
	if err != nil {
		return nil, err
	}
	return t.read(at)
}

// table is the layout of a CSV file.
type table struct {
	rest      string // the lines after the heading
	line      int    // of the first of them
	separator byte
	comma     bool // decimal comma
	places    [columns]int
	units     [columns]scale
	stamp     int // column of date and time or of the date; -1 without
	clock     int // column of the time of day; -1 without
	parts     [4]int
	utc       bool
	dayFirst  bool
	ending    bool // hours run from 1 to 24
	rows      int
	notes     []string
}

// scale turns a written value into that of the column.
type scale struct{ factor, offset float64 }

// the longest heading and the most lines before it.
const (
	mostLinesBefore = 60
	mostColumns     = 400
)

func findTable(text string, at *Place) (*table, error) {
	place := map[string]string{}
	var wrong error // of a line that is a heading but for its unit, or only looks like one
	for line := 1; line <= mostLinesBefore && text != ""; line++ {
		var s string
		s, text = nextLine(text)
		s = strings.TrimSpace(strings.TrimLeft(s, "# "))
		t := &table{rest: text, line: line + 1, separator: separatorOf(s)}
		names := cells(s, t.separator, nil)
		if len(names) > mostColumns {
			return nil, fmt.Errorf("CSV file, line %d: %d columns; accepted: up to %d", line, len(names), mostColumns)
		}
		found, err := t.heading(names)
		if found {
			return t, at.said(place)
		}
		if err != nil && wrong == nil {
			wrong = fmt.Errorf("CSV file, line %d: %w", line, err)
		}
		if i := strings.IndexAny(s, ":=;,\t"); i > 0 {
			place[strings.ToLower(strings.TrimSpace(s[:i]))] = strings.Trim(s[i+1:], " ;,\t\"")
		}
	}
	if wrong != nil {
		return nil, wrong
	}
	return nil, errors.New(`the CSV file has no heading with an outdoor temperature: name a column such as "outdoor temperature (°F)" in a line of its own`)
}

// said takes a place from the lines before the heading.
func (p *Place) said(lines map[string]string) error {
	for _, word := range []string{"place", "station", "name"} {
		if v, ok := lines[word]; ok {
			p.Name = clip(v)
			break
		}
	}
	value := func(words ...string) (float64, bool) {
		for _, w := range words {
			if v, ok := lines[w]; ok {
				return number(strings.TrimSpace(strings.TrimSuffix(strings.Replace(v, ",", ".", 1), "m"))), true
			}
		}
		return 0, false
	}
	latitude, a := value("latitude", "lat")
	longitude, b := value("longitude", "lon", "long")
	if !a || !b {
		return nil
	}
	utc, c := value("utc offset", "utc", "time zone", "timezone")
	if !c {
		utc = math.Round(longitude / 15)
	}
	elevation, _ := value("elevation", "altitude")
	if err := p.located(latitude, longitude, elevation, utc); err != nil {
		return fmt.Errorf("CSV file: %w", err)
	}
	return nil
}

// separatorOf takes what a line holds most of; a comma only where nothing else is.
func separatorOf(s string) byte {
	for _, c := range []byte{';', '\t', '|'} {
		if strings.IndexByte(s, c) >= 0 {
			return c
		}
	}
	return ','
}

// heading finds the columns by their names.
func (t *table) heading(names []string) (found bool, wrong error) {
	t.stamp, t.clock, t.parts = -1, -1, [4]int{-1, -1, -1, -1}
	for c := range t.places {
		t.places[c] = -1
	}
	for i, name := range names {
		plain := fold(name)
		for k, part := range []string{"year", "month", "day", "hour"} {
			if plain == part && t.parts[k] < 0 {
				t.parts[k] = i
			}
		}
		switch {
		case strings.Contains(plain, "date") || strings.Contains(plain, "timestamp") || plain == "datetime":
			if t.stamp < 0 {
				t.stamp, t.utc = i, strings.Contains(plain, "utc") || strings.Contains(plain, "gmt")
			}
		case plain == "time" || strings.HasPrefix(plain, "time "):
			if t.clock < 0 {
				t.clock = i
				t.utc = t.utc || strings.Contains(plain, "utc") || strings.Contains(plain, "gmt")
			}
		default:
			c, ok := columnNamed(plain)
			if !ok || t.places[c] >= 0 {
				continue
			}
			unit, bracketed := unitOf(name)
			s, ok := scaleOf(c, unit)
			switch {
			case ok:
				t.places[c], t.units[c] = i, s
			case c == dryBulb && !bracketed:
				wrong = fmt.Errorf("column %q has no unit: write it as \"%s (°F)\" or \"%s (°C)\"", clip(name), clip(name), clip(name))
			case c == dryBulb:
				wrong = fmt.Errorf("column %q has a unit that is not one of temperature; accepted: °F, °C, K", clip(name))
			default:
				t.notes = append(t.notes, fmt.Sprintf("column %q was left out: its unit is missing or not known", clip(name)))
			}
		}
	}
	if t.stamp < 0 && t.clock >= 0 {
		t.stamp, t.clock = t.clock, -1
	}
	if t.stamp >= 0 && t.clock < 0 && fold(names[t.stamp]) == "date" {
		t.clock = t.parts[3]
	}
	return t.places[dryBulb] >= 0, wrong
}

// fold makes a heading's name plain: small letters, words apart.
func fold(name string) string {
	name, _, _ = strings.Cut(strings.ToLower(name), "(")
	name, _, _ = strings.Cut(name, "[")
	return strings.Join(strings.FieldsFunc(name, func(r rune) bool {
		return r == ' ' || r == '_' || r == '-' || r == '.' || r == '/' || r == '&' || r == ':'
	}), " ")
}

// columnNamed tells which column a folded name means.
func columnNamed(name string) (column, bool) {
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("source", "uncert", "quality", "flag", "direction", " dir", "gust", "indoor", "inside", "room", "supply", "return", "soil", "ground", "wet bulb", "illum", "humid", "pressure",
		"rain", "snow", "feels", "chill", "index", "max", "min"):
		return 0, false
	case has("dew"):
		return dewPoint, true
	case has("diffuse", "dhi"):
		return diffuse, true
	case has("direct", "dni", "beam"):
		return direct, true
	case has("global", "ghi", "solar"):
		return global, true
	case has("wind", "wspd"):
		return wind, true
	case has("dry bulb", "drybulb", "temp", "outdoor", "outside"):
		return dryBulb, true
	}
	return 0, false
}

// unitOf takes the unit from "Wind (mph)", "Wind [mph]", "wind_mph" or "Wind, mph". Out
// of brackets it may be just the name's last word.
func unitOf(name string) (unit string, bracketed bool) {
	if open := strings.LastIndexAny(name, "(["); open >= 0 {
		if end := strings.IndexAny(name[open:], ")]"); end > 1 {
			return strings.TrimSpace(name[open+1 : open+end]), true
		}
	}
	if last := strings.LastIndexAny(name, " _,."); last >= 0 {
		return strings.TrimSpace(name[last+1:]), false
	}
	return "", false
}

// Speeds of weather reports, which package units does not print.
var windUnits = map[string]float64{
	"m/s": 1, "mps": 1, "mph": 0.44704, "mi/h": 0.44704, "km/h": 1 / 3.6, "kmh": 1 / 3.6, "kph": 1 / 3.6, "kn": 1852.0 / 3600, "kt": 1852.0 / 3600, "knots": 1852.0 / 3600,
}

func scaleOf(c column, unit string) (scale, bool) {
	switch {
	case unit == "":
		return scale{}, false
	case c == dryBulb || c == dewPoint:
		zero, err := units.Parse[units.Temperature]("500 " + unit)
		high, err2 := units.Parse[units.Temperature]("600 " + unit)
		factor := float64(high-zero) / 100
		return scale{factor, zero.Celsius() - 500*factor}, err == nil && err2 == nil
	case c == wind:
		f, ok := windUnits[strings.ToLower(unit)]
		return scale{f, 0}, ok
	}
	// An energy in an hour is a mean power over it.
	unit = strings.Replace(unit, "Wh/", "W/", 1)
	one, err := units.Parse[units.Flux]("1 " + strings.ReplaceAll(unit, "^", ""))
	return scale{float64(one), 0}, err == nil
}

func (t *table) read(at Place) (*Year, error) {
	if err := t.look(); err != nil {
		return nil, err
	}
	var has []column
	for c, i := range t.places {
		if i >= 0 {
			has = append(has, column(c))
		}
	}
	g := newGrid(has...)
	g.notes = append(g.notes, t.notes...)
	if t.utc {
		g.observed(at)
	} else {
		g.offsetMeridian(at)
	}
	var buf []string
	rows, unread, firstUnread := 0, 0, 0
	for text, line := t.rest, t.line; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if blank(s, t.separator) {
			continue
		}
		buf = cells(s, t.separator, buf)
		rows++
		i, year, ok := t.hour(buf, rows-1, at)
		if !ok {
			if unread++; unread == 1 {
				firstUnread = line
			}
			continue
		}
		g.row(i, year)
		for _, c := range has {
			if k := t.places[c]; k < len(buf) {
				g.put(i, c, t.value(c, buf[k]))
			} else {
				g.put(i, c, math.NaN())
			}
		}
	}
	switch {
	case !t.timed() && rows != commonHours && rows != leapHours:
		return nil, fmt.Errorf("the CSV file has no column of times and %d rows; accepted: %d or %d, or a column \"time\"", rows, commonHours, leapHours)
	case unread*10 > rows:
		return nil, fmt.Errorf("CSV file: %d of %d rows have a time that cannot be read, the first in line %d; accepted: 2025-01-31 13:00, 1/31/2025 1:00 PM, 31.1.2025 13:00", unread, rows, firstUnread)
	case unread > 0:
		g.note("%d rows have a time that cannot be read, the first in line %d", unread, firstUnread)
	}
	return g.finish(at, FromCSV)
}

func blank(s string, separator byte) bool {
	return strings.Trim(s, " \t\""+string(rune(separator))) == ""
}

func (t *table) timed() bool {
	return t.stamp >= 0 || (t.parts[1] >= 0 && t.parts[2] >= 0 && t.parts[3] >= 0)
}

// value reads a cell in the column's own unit. A mark such as −999 is one before it is
// taken for degrees Fahrenheit.
func (t *table) value(c column, s string) float64 {
	if t.comma {
		s = strings.Replace(s, ",", ".", 1)
	}
	written := number(strings.Replace(s, "−", "-", 1))
	v := written*t.units[c].factor + t.units[c].offset
	if !(v >= limits[c].min && v <= limits[c].max) && isMark(written) {
		return math.NaN()
	}
	return v
}

// look runs over the rows once, to find out what only the whole file tells: whether
// the day or the month comes first, whether hours run to 24, and the decimal comma.
func (t *table) look() error {
	if t.timed() && t.stamp < 0 && t.parts[0] < 0 {
		t.notes = append(t.notes, "the rows have no year")
	}
	var buf []string
	first, second, points, commas := 0, 0, 0, 0
	midnight := false
	for text := t.rest; text != ""; {
		var s string
		s, text = nextLine(text)
		if blank(s, t.separator) {
			continue
		}
		t.rows++
		buf = cells(s, t.separator, buf)
		for _, k := range t.places {
			if k < 0 || k >= len(buf) {
				continue
			}
			if strings.Contains(buf[k], ",") {
				commas++
			}
			if strings.Contains(buf[k], ".") {
				points++
			}
		}
		if t.stamp < 0 {
			if t.timed() && t.parts[3] < len(buf) {
				h := whole(buf[t.parts[3]])
				t.ending, midnight = t.ending || h == 24, midnight || h == 0
			}
			continue
		}
		date, clock := t.split(buf)
		if h, _, ok := clockOf(clock); ok {
			t.ending, midnight = t.ending || h == 24, midnight || h == 0
		}
		if strings.HasSuffix(clock, "Z") {
			t.utc = true
		}
		if n := numbersOf(date); n[2] >= 0 && n[0] < 100 {
			first, second = max(first, n[0]), max(second, n[1])
			if strings.Contains(date, ".") {
				t.dayFirst = true
			}
		}
	}
	if midnight {
		t.ending = false
	}
	t.comma = commas > 0 && points == 0
	switch {
	case commas > 0 && points > 0:
		return fmt.Errorf("CSV file: %d values have a decimal comma and %d a decimal point; accepted: one of the two", commas, points)
	case first > 12 && second > 12:
		return errors.New("CSV file: some dates begin with the day and some with the month; accepted: one of the two")
	case first > 12:
		t.dayFirst = true
	case first > 0 && second <= 12 && !t.dayFirst:
		t.notes = append(t.notes, "whether day or month comes first cannot be told from the dates; the month was taken")
	}
	return nil
}

// split gives date and time of day of a row.
func (t *table) split(buf []string) (date, clock string) {
	if t.stamp >= len(buf) {
		return "", ""
	}
	date = buf[t.stamp]
	if t.clock >= 0 && t.clock < len(buf) {
		return date, buf[t.clock]
	}
	if i := strings.IndexAny(date, "T "); i >= 0 {
		return date[:i], strings.TrimSpace(date[i+1:])
	}
	return date, "00:00"
}

// hour gives the place of a row in the grid.
func (t *table) hour(buf []string, row int, at Place) (i, year int, ok bool) {
	if !t.timed() {
		// A common year's rows skip 29 February; the length is checked at the end.
		if row >= leapDayStart && t.rows != leapHours {
			row += 24
		}
		return row, 0, row < leapHours
	}
	var month, day, hour, minute int
	if t.stamp >= 0 {
		date, clock := t.split(buf)
		n := numbersOf(date)
		switch {
		case n[2] < 0:
			return 0, 0, false
		case n[0] > 99:
			year, month, day = n[0], n[1], n[2]
		case t.dayFirst:
			day, month, year = n[0], n[1], n[2]
		default:
			month, day, year = n[0], n[1], n[2]
		}
		if year < 100 {
			year += 2000
		}
		if hour, minute, ok = clockOf(clock); !ok {
			return 0, 0, false
		}
	} else {
		cell := func(k int) int {
			if k < 0 || k >= len(buf) {
				return -1
			}
			return whole(buf[k])
		}
		year, month, day, hour = cell(t.parts[0]), cell(t.parts[1]), cell(t.parts[2]), cell(t.parts[3])
	}
	if _, real := hourIndex(month, day, 0); !real || hour < 0 || hour > 24 || year > 9999 {
		return 0, 0, false
	}
	year = max(year, 4) // rows without a year may be those of a leap year
	if day > monthDays(month-1, isLeap(year)) {
		return 0, 0, false
	}
	// 24:00 begins the next day; where hours end at their time, a minute less stands in
	// the right one.
	when := time.Date(year, time.Month(month), day, hour, minute, 0, 0, time.UTC)
	said := when.Year()
	if t.ending {
		when = when.Add(-time.Minute)
	}
	if t.utc {
		when = when.Add(time.Duration(at.UTCOffset * float64(time.Hour)))
	} else {
		said = when.Year()
	}
	i, ok = hourIndex(int(when.Month()), when.Day(), when.Hour())
	return i, said, ok
}

// numbersOf reads the three numbers of a date, -1 where there is none.
func numbersOf(date string) [3]int {
	out := [3]int{-1, -1, -1}
	parts := strings.FieldsFunc(date, func(r rune) bool { return r == '-' || r == '/' || r == '.' })
	if len(parts) == 3 {
		for i, p := range parts {
			out[i] = whole(p)
		}
	}
	return out
}

// clockOf reads a time of day: "13:00", "1:00 PM", "13:00:00Z".
func clockOf(s string) (hour, minute int, ok bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	afternoon, morning := strings.HasSuffix(s, "pm"), strings.HasSuffix(s, "am")
	s = strings.TrimRight(s, "apmz ")
	if i := strings.IndexAny(s, "+"); i > 0 {
		s = s[:i]
	}
	h, rest, _ := strings.Cut(s, ":")
	m, _, _ := strings.Cut(rest, ":")
	hour, minute = whole(h), 0
	if m != "" {
		minute = whole(m)
	}
	switch {
	case afternoon && hour < 12:
		hour += 12
	case morning && hour == 12:
		hour = 0
	}
	return hour, minute, hour >= 0 && hour <= 24 && minute >= 0 && minute < 60
}
