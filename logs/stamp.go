package logs

// Dates and times as loggers write them. Nothing here knows a time zone of the machine:
// a time is what the clock on the wall showed, as seconds since 1970 began on it.

import (
	"bytes"
	"slices"
	"strings"
	"time"
)

// Layout is the form of the times.
type Layout string

// The forms of time.
const (
	YearFirst   Layout = "year first"   // 2026-01-31 13:00, also 20260131 1300
	MonthFirst  Layout = "month first"  // 1/31/2026 1:00 PM
	DayFirst    Layout = "day first"    // 31.1.2026 13:00
	Seconds     Layout = "seconds"      // since 1970 in UTC
	Millis      Layout = "milliseconds" // since 1970 in UTC
	SerialDay   Layout = "serial days"  // of a spreadsheet, since 1899-12-30
	noOffset           = -1 << 30
	day                = 86400
	hour               = 3600
	serialEpoch        = -25569 * day // 1899-12-30
)

var layouts = []Layout{YearFirst, MonthFirst, DayFirst, Seconds, Millis, SerialDay}

// months by the first letters of their names in English, German, French, Spanish.
var months = []struct {
	word  string
	month int
}{
	{"jan", 1}, {"jän", 1}, {"ene", 1}, {"feb", 2}, {"fév", 2}, {"fev", 2}, {"mar", 3}, {"mär", 3}, {"mae", 3}, {"mrz", 3}, {"apr", 4}, {"avr", 4}, {"abr", 4},
	{"may", 5}, {"mai", 5}, {"jun", 6}, {"juin", 6}, {"juil", 7}, {"jul", 7}, {"aug", 8}, {"aoû", 8}, {"aou", 8}, {"ago", 8}, {"sep", 9},
	{"oct", 10}, {"okt", 10}, {"nov", 11}, {"dec", 12}, {"dez", 12}, {"déc", 12}, {"dic", 12},
}

func monthNamed(word []byte) int {
	w := strings.ToLower(string(word))
	for _, m := range months {
		if strings.HasPrefix(w, m.word) {
			return m.month
		}
	}
	return 0
}

// moment is a time read from a row.
type moment struct {
	at     int64 // seconds of the clock that wrote it
	offset int   // of that clock from UTC in seconds, noOffset if it was not said
	hour24 bool  // 24:00 was written
}

// scan holds the numbers of a written time.
type scan struct {
	n      [8]int
	digits [8]int
	count  int
	month  int // by its name
	pm, am bool
	offset int
}

// take adds the numbers of a text.
func (s *scan) take(b []byte) bool {
	for i := 0; i < len(b); {
		c := b[i]
		switch {
		case c >= '0' && c <= '9':
			begin, v := i, 0
			for i < len(b) && b[i] >= '0' && b[i] <= '9' && i-begin < 14 {
				v = v*10 + int(b[i]-'0')
				i++
			}
			if s.count == len(s.n) {
				return false
			}
			s.n[s.count], s.digits[s.count] = v, i-begin
			s.count++
		case (c == '+' || c == '-') && s.count >= 5 && i+2 < len(b) && b[i+1] >= '0' && b[i+1] <= '9':
			return s.zone(b[i:])
		case c == 'Z' || c == 'z':
			s.offset = 0
			i++
		case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80:
			begin := i
			for i < len(b) && (b[i] >= 'a' && b[i] <= 'z' || b[i] >= 'A' && b[i] <= 'Z' || b[i] >= 0x80) {
				i++
			}
			if !s.word(b[begin:i]) {
				return false
			}
		case bytes.IndexByte([]byte(" -/.:,'_\t"), c) >= 0:
			i++
		default:
			return false
		}
	}
	return true
}

func (s *scan) word(w []byte) bool {
	switch lower := strings.ToLower(string(w)); lower {
	case "t", "h", "uhr", "at", "de", "st", "nd", "rd", "th", "min", "s":
	case "am", "a", "m":
		s.am = s.am || lower != "m"
	case "pm", "p":
		s.pm = true
	case "utc", "gmt":
		s.offset = 0
	case "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "montag", "dienstag", "mittwoch", "donnerstag", "freitag", "samstag", "sonnabend", "sonntag",
		"lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche", "lunes", "martes", "miércoles", "miercoles", "jueves", "viernes", "sábado", "sabado", "domingo", "thurs", "tues":
	case "mo", "di", "mi", "do", "fr", "sa", "so", "mon", "tue", "wed", "thu", "fri", "sat", "sun", "lun", "mié", "jue", "vie", "sáb", "dom", "mer", "jeu", "ven", "sam", "dim",
		"est", "edt", "cst", "cdt", "mst", "mdt", "pst", "pdt", "cet", "cest", "mez", "mesz", "bst":
		s.named(lower)
	default:
		m := monthNamed(w)
		if m == 0 {
			return false
		}
		s.month = m
	}
	return true
}

// named takes an offset from the short name of a zone.
func (s *scan) named(zone string) {
	for name, hours := range map[string]int{"est": -5, "edt": -4, "cst": -6, "cdt": -5, "mst": -7, "mdt": -6, "pst": -8, "pdt": -7, "cet": 1, "mez": 1, "cest": 2, "mesz": 2, "bst": 1} {
		if zone == name {
			s.offset = hours * hour
		}
	}
}

// zone reads +01:00, -0500, +01.
func (s *scan) zone(b []byte) bool {
	sign := 1
	if b[0] == '-' {
		sign = -1
	}
	v, digits := 0, 0
	for _, c := range b[1:] {
		switch {
		case c >= '0' && c <= '9' && digits < 4:
			v, digits = v*10+int(c-'0'), digits+1
		case c == ':' || c == ' ':
		case digits >= 2 && (c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c == '(' || c == ')'):
			// The zone's name behind its offset adds nothing.
		default:
			return false
		}
	}
	if digits <= 2 {
		v *= 100
	}
	h, m := v/100, v%100
	if h > 14 || m > 59 {
		return false
	}
	s.offset = sign * (h*hour + m*60)
	return true
}

// parseTime reads a time in one form. The time of day may stand in a cell of its own.
func parseTime(date, clock []byte, l Layout) (moment, bool) {
	switch l {
	case Seconds, Millis, SerialDay:
		v, ok := figure(date, bytes.IndexByte(date, ',') >= 0)
		switch {
		case !ok:
			return moment{}, false
		case l == Seconds && v > 1e8 && v < 5e9:
			return moment{at: int64(v), offset: 0}, true
		case l == Millis && v > 1e11 && v < 5e12:
			return moment{at: int64(v / 1000), offset: 0}, true
		case l == SerialDay && v > 20000 && v < 80000:
			if c, ok := figure(clock, bytes.IndexByte(clock, ',') >= 0); ok && c >= 0 && c <= 1 {
				v += c
			}
			return moment{at: serialEpoch + int64(v*day+0.5), offset: noOffset}, true
		}
		return moment{}, false
	}
	if name := bytes.IndexByte(date, '['); name > 0 { // 2026-01-31T13:00+01:00[Europe/Vienna]
		date = date[:name]
	}
	if len(clock) > 0 {
		date, clock = dayAlone(date), clockAlone(clock)
	}
	s := scan{offset: noOffset}
	if len(date) < 6 || len(date) > 48 || len(clock) > 24 || !s.take(date) || len(clock) > 0 && !s.take(clock) {
		return moment{}, false
	}
	return s.moment(l)
}

// dayAlone takes away the midnight that some programs write behind a bare date.
func dayAlone(date []byte) []byte {
	i := bytes.IndexAny(date, " T")
	if i < 6 || bytes.ContainsAny(date[i+1:], "123456789") || bytes.IndexByte(date[i+1:], ':') < 0 {
		return date
	}
	return date[:i]
}

// clockAlone takes away the day of nothing that spreadsheets write before a bare time.
func clockAlone(clock []byte) []byte {
	for _, nothing := range []string{"1899-12-30", "1900-01-00", "1899-12-31", "30.12.1899", "12/30/1899", "30/12/1899"} {
		if rest, ok := bytes.CutPrefix(clock, []byte(nothing)); ok {
			return bytes.TrimLeft(rest, " T")
		}
	}
	return clock
}

func (s *scan) moment(l Layout) (moment, bool) {
	n, d := s.n[:s.count], s.digits[:s.count]
	var y, mo, dy int
	switch {
	case len(n) >= 1 && d[0] == 8 && l == YearFirst: // 20260131
		y, mo, dy = n[0]/10000, n[0]/100%100, n[0]%100
		n, d = n[1:], d[1:]
	case len(n) >= 1 && d[0] == 14 && l == YearFirst: // 20260131130000
		v := n[0]
		return clockAt(v/10000000000, v/100000000%100, v/1000000%100, v/10000%100, v/100%100, v%100, s)
	case s.month > 0 && len(n) >= 2 && !(len(n) >= 3 && d[0] <= 2 && d[1] <= 2 && d[2] == 4): // a month by name: the year has four digits or comes last
		mo = s.month
		last := len(n) - 1
		if d[0] == 4 {
			y, dy = n[0], n[1]
		} else if len(n) >= 4 && d[1] != 4 && d[last] == 4 { // Tue Jan 13 00:05:00 2026
			y, dy = n[last], n[0]
			n, d = slices.Insert(slices.Clone(n[1:last]), 0, 0, 0), slices.Insert(slices.Clone(d[1:last]), 0, 2, 2)
		} else {
			dy, y = n[0], n[1]
		}
		n, d = n[2:], d[2:]
	case len(n) >= 3:
		switch {
		case l == YearFirst && d[0] == 4:
			y, mo, dy = n[0], n[1], n[2]
		case l == MonthFirst && d[0] <= 2 && (d[2] == 4 || d[2] == 2):
			mo, dy, y = n[0], n[1], n[2]
		case l == DayFirst && d[0] <= 2 && (d[2] == 4 || d[2] == 2):
			dy, mo, y = n[0], n[1], n[2]
		default:
			return moment{}, false
		}
		n, d = n[3:], d[3:]
	default:
		return moment{}, false
	}
	if y < 100 {
		y += 2000
	}
	h, m, sec := 0, 0, 0
	switch {
	case len(n) == 0:
	case len(n) == 1 && d[0] == 4:
		h, m = n[0]/100, n[0]%100
	case len(n) == 1 && d[0] == 6:
		h, m, sec = n[0]/10000, n[0]/100%100, n[0]%100
	default:
		h = n[0]
		if len(n) > 1 {
			m = n[1]
		}
		if len(n) > 2 {
			sec = n[2]
		}
	}
	return clockAt(y, mo, dy, h, m, sec, s)
}

func clockAt(y, mo, dy, h, m, sec int, s *scan) (moment, bool) {
	if (s.pm || s.am) && (h < 1 || h > 12) {
		s.pm, s.am = false, false // 13:00 PM: the letters add nothing
	}
	if s.pm && h < 12 {
		h += 12
	} else if s.am && h == 12 {
		h = 0
	}
	if y < 1990 || y > 2100 || mo < 1 || mo > 12 || dy < 1 || dy > daysOf(y, mo) || h > 24 || m > 59 || sec > 60 || h == 24 && (m > 0 || sec > 0) {
		return moment{}, false
	}
	return moment{at: daysSince1970(y, mo, dy)*day + int64(h*hour+m*60+sec), offset: s.offset, hour24: h == 24}, true
}

func daysOf(y, mo int) int {
	switch mo {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// daysSince1970 counts days of the Gregorian calendar: years begin in March, so that the
// leap day comes last.
func daysSince1970(y, mo, dy int) int64 {
	if mo <= 2 {
		y--
		mo += 12
	}
	return int64(365*y + y/4 - y/100 + y/400 + (153*(mo-3)+2)/5 + dy - 719469)
}

// Clock gives a stamp as the date and time of the wall it was written at.
//
// Units: s since 1970 began on that clock.
// Range: any.
// Source: definition.
func Clock(stamp int64) time.Time { return time.Unix(stamp, 0).UTC() }

// Say writes a stamp as date and time.
//
// Range: any.
// Source: ISO 8601 without the T.
func Say(stamp int64) string { return Clock(stamp).Format("2006-01-02 15:04") }
