package weather

// A year of weather hour by hour, in the one form in which every reader leaves it.

import (
	"fmt"
	"math"

	"curvewright/units"
)

// Place is where the weather was. Angles are in degrees, north and east positive.
type Place struct {
	Name      string
	Latitude  float64 // degrees
	Longitude float64 // degrees
	Elevation units.Length
	UTCOffset float64 // hours of local standard time ahead of UTC; no summer time
	Located   bool    // latitude, longitude and UTC offset are known
}

// Origin says where a year's hours come from.
type Origin string

// The kinds of origin.
const (
	FromEPW     Origin = "EPW file"
	FromTMY3    Origin = "TMY3 CSV file"
	FromISDLite Origin = "NOAA ISD-Lite file"
	FromISD     Origin = "NOAA ISD file"
	FromGHCNh   Origin = "NOAA GHCN-hourly file"
	FromCSV     Origin = "CSV file"
	FromMonths  Origin = "made up from monthly means"
)

// Year is a year of hours in local standard time. Hour 0 runs from midnight to one
// o'clock on 1 January: temperatures and wind are those at its end, radiation is the
// mean over it. A series that the source lacks is nil; none has a gap.
type Year struct {
	Place    Place
	Origin   Origin
	DryBulb  []float64 // °C
	DewPoint []float64 // °C
	Global   []float64 // W/m², on the horizontal
	Direct   []float64 // W/m², on a surface facing the sun
	Diffuse  []float64 // W/m², from the sky on the horizontal
	Wind     []float64 // m/s
	Quoted   Quoted
	Report   Report
}

// Quoted holds the design temperatures that a file's heading quotes from a handbook.
// They stand for decades; the file's own hours for one typical year, which is milder.
type Quoted struct {
	Source     string // as the file names it; empty where it quotes none
	Heating99  units.Temperature
	Heating996 units.Temperature
}

// MadeUp tells whether nobody ever measured these hours.
//
// Range: every year.
// Source: the year's own origin.
func (y *Year) MadeUp() bool { return y.Origin == FromMonths }

const (
	commonHours = 8760
	leapHours   = 8784
	// leapDayStart is the first hour of 29 February.
	leapDayStart = (31 + 28) * 24
)

var (
	daysOfMonth = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	monthNames  = [12]string{"January", "February", "March", "April", "May", "June", "July",
		"August", "September", "October", "November", "December"}
)

// monthDays gives the days of a month counted from 0.
func monthDays(month int, leap bool) int {
	if month == 1 && leap {
		return 29
	}
	return daysOfMonth[month]
}

// dayOf gives the month, counted from 0, and the day of the month of an hour.
func dayOf(hour int, leap bool) (month, day int) {
	d := hour / 24
	for month < 11 && d >= monthDays(month, leap) {
		d -= monthDays(month, leap)
		month++
	}
	return month, d + 1
}

// dateText writes "3 March, 05:00" for the start of an hour.
func dateText(hour int, leap bool) string {
	m, d := dayOf(hour, leap)
	return fmt.Sprintf("%d %s, %02d:00", d, monthNames[m], hour%24)
}

func (y *Year) leap() bool { return len(y.DryBulb) == leapHours }

// column is one series of a year.
type column int

const (
	dryBulb column = iota
	dewPoint
	global
	direct
	diffuse
	wind
	columns
)

// limits are what a column can be at all. Far outside the records, they exist to catch
// missing marks, slipped units and swapped columns.
var limits = [columns]struct {
	name     string
	unit     string
	min, max float64
}{
	dryBulb:  {"dry bulb", "°C", -70, 60},
	dewPoint: {"dew point", "°C", -80, 40},
	global:   {"global radiation", "W/m²", 0, 1500},
	direct:   {"direct radiation", "W/m²", 0, 1400},
	diffuse:  {"diffuse radiation", "W/m²", 0, 1000},
	wind:     {"wind", "m/s", 0, 60},
}

func (c column) radiation() bool { return c == global || c == direct || c == diffuse }

// series gives the place of a column in the year.
func (y *Year) series(c column) *[]float64 {
	return [columns]*[]float64{&y.DryBulb, &y.DewPoint, &y.Global, &y.Direct, &y.Diffuse, &y.Wind}[c]
}

// ColumnReport says what was missing in one column and how it was bridged.
type ColumnReport struct {
	Name      string
	Hours     int // of the year
	Missing   int // hours without a usable value
	Longest   int // hours in a row
	Marked    int // values that were a mark for missing, such as −999
	Outside   int // values that the quantity cannot have; counted as missing
	Example   float64
	Unit      string
	Straight  int  // hours bridged by a straight line
	Neighbour int  // hours taken from the same hour of neighbouring days
	LeftOut   bool // too little was there: the column is not in the year
}

// Report is what a reader found about its file.
type Report struct {
	Rows     int // rows with a time that could be read
	Columns  []ColumnReport
	Findings []string // sentences on what looks wrong or was decided
}

// Gaps tells whether any hour was missing.
//
// Range: every report.
// Source: the counts of the columns.
func (r Report) Gaps() bool {
	for _, c := range r.Columns {
		if c.Missing > 0 {
			return true
		}
	}
	return false
}

// Text says in a sentence what was missing in a column.
func (c ColumnReport) Text() string {
	s := c.Name + ": "
	switch {
	case c.Missing == 0:
		return s + "complete"
	case c.LeftOut:
		s += fmt.Sprintf("left out, %d of %d hours missing, %d in a row", c.Missing, c.Hours, c.Longest)
	default:
		s += fmt.Sprintf("%d of %d hours missing, at most %d in a row", c.Missing, c.Hours, c.Longest)
		if c.Straight > 0 {
			s += fmt.Sprintf("; %d bridged by a straight line", c.Straight)
		}
		if c.Neighbour > 0 {
			s += fmt.Sprintf("; %d taken from the same hour of neighbouring days", c.Neighbour)
		}
	}
	if c.Marked > 0 {
		s += fmt.Sprintf("; %d values were a mark for missing", c.Marked)
	}
	if c.Outside > 0 {
		s += fmt.Sprintf("; %d values that it cannot have, the first %s %s", c.Outside, plainNumber(c.Example), c.Unit)
	}
	return s
}

func plainNumber(x float64) string { return units.Number(math.Round(x*100) / 100).Text(units.SI) }
