package followup

// The same weeks of the same house as twoscore loggers and hands would have left them in a
// file: what is recognised must tell the same as the clean log, or a sentence says why not.

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"curvewright/job"
	"curvewright/logs"
	"curvewright/units"
)

// row is a line of the clean log; a reading that is missing is NaN. °C, kWh.
type row struct {
	at                           int64
	out, supply, back, meter, on float64
	rooms                        []float64
}

// reading is one of its columns.
type reading struct {
	german, french, spanish, english, unit string
	of                                     func(r row) float64
}

func readingsOf(rooms []string) []reading {
	all := []reading{
		{"Außentemperatur", "Température extérieure", "Temperatura exterior", "outdoor", "°C", func(r row) float64 { return r.out }},
		{"Vorlauf", "Départ", "Ida", "supply", "°C", func(r row) float64 { return r.supply }},
		{"Rücklauf", "Retour", "Retorno", "return", "°C", func(r row) float64 { return r.back }},
		{"Wärmezähler", "Compteur de chaleur", "Contador de calor", "heat meter", "kWh", func(r row) float64 { return r.meter }},
		{"Brenner", "Brûleur", "Quemador", "burner", "", func(r row) float64 { return r.on }},
	}
	for i, name := range rooms {
		all = append(all, reading{"Raum " + name, "Pièce " + name, "Habitación " + name, "room " + name, "°C", func(r row) float64 { return r.rooms[i] }})
	}
	return all
}

// rowsOf takes the clean log apart again.
func rowsOf(t *testing.T, csv string) ([]row, []string) {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(csv), "\n")
	var rooms []string
	for _, h := range strings.Split(lines[0], ",")[6:] {
		rooms = append(rooms, strings.TrimSuffix(strings.TrimPrefix(h, "room "), " °C"))
	}
	l := take(t, csv)
	var rows []row
	get := func(role logs.Role, i int) float64 {
		s, ok := l.First(role)
		if !ok {
			t.Fatalf("no %s", role)
		}
		return s.Values[i]
	}
	for i, at := range l.Stamps {
		r := row{at: at, out: get(logs.Outdoor, i) - zero, supply: get(logs.Supply, i) - zero, back: get(logs.Return, i) - zero, meter: get(logs.HeatMeter, i) / 3.6e6, on: get(logs.Burner, i)}
		for _, s := range l.All(logs.Room) {
			r.rooms = append(r.rooms, s.Values[i]-zero)
		}
		rows = append(rows, r)
	}
	return rows, rooms
}

// style is how a file is written.
type style struct {
	cut      string
	head     func(r reading) string // of a column
	time     string                 // heading of the times
	stamp    func(at int64) string
	value    func(r reading, v float64) string
	missing  string
	before   string // lines
	under    func(r reading) string
	after    string
	every    func(i int) string // a line put in before row i, or none
	end      string
	backward bool
}

func (s style) write(rows []row, all []reading) string {
	var b strings.Builder
	end := s.end
	if end == "" {
		end = "\n"
	}
	b.WriteString(s.before)
	b.WriteString(s.time)
	for _, r := range all {
		b.WriteString(s.cut + s.head(r))
	}
	b.WriteString(end)
	head := b.String()[len(s.before):]
	if s.under != nil {
		for _, r := range all {
			b.WriteString(s.cut + s.under(r))
		}
		b.WriteString(end)
	}
	for i := range rows {
		r := rows[i]
		if s.backward {
			r = rows[len(rows)-1-i]
		}
		if s.every != nil {
			switch line := s.every(i); line {
			case "":
			case "head":
				b.WriteString(head)
			default:
				b.WriteString(line + end)
			}
		}
		b.WriteString(s.stamp(r.at))
		for _, c := range all {
			v := c.of(r)
			text := s.missing
			if !math.IsNaN(v) {
				text = s.value(c, v)
			}
			b.WriteString(s.cut + text)
		}
		b.WriteString(end)
	}
	b.WriteString(s.after)
	return b.String()
}

func (s style) with(change func(s *style)) style {
	change(&s)
	return s
}

func spell(layout string) func(int64) string {
	return func(at int64) string { return logs.Clock(at).Format(layout) }
}

func tenths(_ reading, v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

func commas(r reading, v float64) string { return strings.Replace(tenths(r, v), ".", ",", 1) }

// fahrenheit is what a reading is in °F, and a meter in therms.
func fahrenheit(r reading, v float64) string {
	switch r.unit {
	case "°C":
		return strconv.FormatFloat(v*1.8+32, 'f', 1, 64)
	case "kWh":
		return strconv.FormatFloat(v/29.3071, 'f', 3, 64)
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

// grouped writes thousands apart.
func grouped(apart, point string) func(r reading, v float64) string {
	return func(r reading, v float64) string {
		whole, rest, _ := strings.Cut(tenths(r, v), ".")
		if n := len(whole); n > 3 {
			whole = whole[:n-3] + apart + whole[n-3:]
		}
		return whole + point + rest
	}
}

func latin(text string) string {
	b := make([]byte, 0, len(text))
	for _, r := range text {
		b = append(b, byte(r))
	}
	return string(b)
}

func wide(text string, big bool) string {
	var b bytes.Buffer
	for _, u := range utf16.Encode([]rune("\ufeff" + text)) {
		if big {
			b.Write([]byte{byte(u >> 8), byte(u)})
		} else {
			b.Write([]byte{byte(u), byte(u >> 8)})
		}
	}
	return b.String()
}

// summerTime puts a clock forward on 30 March 2025 at 2:00 and back on 26 October at 3:00.
func summerTime(at int64) int64 {
	if at >= 1743300000 && at < 1761444000 {
		return at + hour
	}
	return at
}

// ugly is a file and what must come of it.
type ugly struct {
	name   string
	file   string
	sheet  bool
	offset float64 // of the house from UTC, told by a person
	shift  int64   // of the stamps against the clean log
	within float64 // of loss and slope, as shares; 0 for one in a hundred
	says   string  // a doubt, a finding or a refusal that must be there
	refuse bool
	holds  bool // of loss and slope the intervals must hold the clean log's figures, no more
}

func uglies(rows []row, rooms []string) []ugly {
	all := readingsOf(rooms)
	english := func(r reading) string { return strings.TrimSpace(r.english + " " + r.unit) }
	bare := func(r reading) string { return r.english }
	plain := style{cut: ",", time: "time", head: english, stamp: spell("2006-01-02 15:04"), value: tenths}
	german := style{cut: ";", time: "Zeit", head: func(r reading) string { return strings.TrimSpace(r.german + " " + r.unit) }, stamp: spell("02.01.2006 15:04"), value: commas}
	american := plain.with(func(s *style) {
		s.head, s.stamp, s.value = func(r reading) string {
			return map[string]string{"°C": r.english + " (F)", "kWh": r.english + " (therms)", "": r.english}[r.unit]
		}, spell("1/2/2006 3:04 PM"), fahrenheit
	})
	moved := func(by int64) []row {
		out := make([]row, len(rows))
		for i, r := range rows {
			r.at += by
			out[i] = r
		}
		return out
	}
	missing := func(mark string) string {
		thin := make([]row, len(rows))
		for i, r := range rows {
			if i%11 == 3 {
				r.out, r.supply = math.NaN(), math.NaN()
			}
			if i%13 == 5 {
				r.meter = math.NaN()
			}
			thin[i] = r
		}
		return plain.with(func(s *style) { s.missing = mark }).write(thin, all)
	}
	meters := func(change func(i int, v float64) float64) []row {
		out := make([]row, len(rows))
		for i, r := range rows {
			r.meter = change(i, r.meter)
			out[i] = r
		}
		return out
	}
	half := len(rows) / 2
	exchanged := append([]reading{}, all...)
	exchanged[1].of, exchanged[2].of = all[2].of, all[1].of
	days := func(at int64) float64 { return float64(at+25569*daily) / daily }
	april := int64(1743292800-14*daily) - rows[0].at/daily*daily // so that a Sunday of March's end lies inside
	october := int64(1761436800-14*daily) - rows[0].at/daily*daily
	hourly := func() []row {
		var out []row
		var of []row
		for _, r := range rows {
			if of = append(of, r); r.at%hour == 0 {
				out = append(out, mean(of))
				of = nil
			}
		}
		return out
	}

	return []ugly{
		{name: "semicolons and decimal commas", file: german.write(rows, all)},
		{name: "tabs", file: plain.with(func(s *style) { s.cut = "\t" }).write(rows, all)},
		{name: "bars", file: plain.with(func(s *style) { s.cut = " | " }).write(rows, all)},
		{name: "UTF-16, little end first", file: wide(german.write(rows, all), false)},
		{name: "UTF-16, big end first", file: wide(german.write(rows, all), true)},
		{name: "Latin-1", file: latin(german.write(rows, all))},
		{name: "signs lost on the way", file: strings.NewReplacer("ß", "\ufffd", "ü", "\ufffd", "ä", "\ufffd", "°", "\ufffd").Replace(german.write(rows, all))},
		{name: "UTF-8 taken for Latin-1 and written again", file: strings.NewReplacer("ß", "Ã\u009f", "ü", "Ã¼", "ä", "Ã¤", "°", "Â°").Replace(german.write(rows, all))},
		{name: "lines ended by carriage returns alone", file: plain.with(func(s *style) { s.end = "\r" }).write(rows, all)},
		{name: "carriage return and line feed, each line ended by its delimiter", file: plain.with(func(s *style) { s.end = ",\r\n" }).write(rows, all)},
		{name: "three lines before the heading", file: plain.with(func(s *style) {
			s.before = "Logger 0815, firmware 3.1\nSite: Elm Street 7\n2025-03-01 10:00,exported\n\n"
		}).write(rows, all)},
		{name: "sep= first", file: german.with(func(s *style) { s.before = "sep=;\n" }).write(rows, all)},
		{name: "heading in a remark", file: "# made by a script\n#" + plain.write(rows, all)},
		{name: "units in a line of their own", file: plain.with(func(s *style) {
			s.head, s.under = bare, func(r reading) string { return "[" + r.unit + "]" }
		}).write(rows, all)},
		{name: "date and time in two columns", file: german.with(func(s *style) { s.time, s.stamp = "Datum;Uhrzeit", spell("02.01.2006;15:04:05") }).write(rows, all)},
		{name: "date with midnight and time in two columns", file: german.with(func(s *style) { s.time, s.stamp = "Datum;Uhrzeit", spell("02.01.2006 00:00:00;15:04:05") }).write(rows, all)},
		{name: "time before the date", file: plain.with(func(s *style) { s.time, s.stamp = "clock,day", spell("15:04:05,2006-01-02") }).write(rows, all)},
		{name: "weekday and day month year", file: plain.with(func(s *style) {
			s.stamp = func(at int64) string {
				c := logs.Clock(at)
				return []string{"dim.", "lun.", "mar.", "mer.", "jeu.", "ven.", "sam."}[c.Weekday()] + c.Format(" 02/01/2006 15:04")
			}
		}).write(rows, all)},
		{name: "American", file: american.write(rows, all)},
		{name: "°F without a word of it", file: american.with(func(s *style) {
			s.head = func(r reading) string { return strings.Replace(r.english, "meter", "meter (therms)", 1) }
		}).write(rows, all)},
		{name: "ISO 8601 in UTC", offset: -5, file: plain.with(func(s *style) {
			s.stamp = func(at int64) string { return logs.Clock(at + 5*hour).Format("2006-01-02T15:04:05.000Z") }
		}).write(rows, all), says: "UTC"},
		{name: "ISO 8601 with an offset that changes in summer", shift: april, file: plain.with(func(s *style) {
			s.stamp = func(at int64) string {
				offset := "+01:00"
				if summerTime(at) != at {
					offset = "+02:00"
				}
				return logs.Clock(summerTime(at)).Format("2006-01-02T15:04:05") + offset
			}
		}).write(moved(april), all)},
		{name: "offset without a colon, zone behind it", file: plain.with(func(s *style) {
			s.stamp = func(at int64) string { return spell("2006-01-02 15:04:05")(at) + " +0100 CET" }
		}).write(rows, all)},
		{name: "zone in brackets", file: plain.with(func(s *style) {
			s.stamp = func(at int64) string { return spell("2006-01-02T15:04:05")(at) + "+01:00[Europe/Vienna]" }
		}).write(rows, all)},
		{name: "seconds since 1970", offset: 1, file: plain.with(func(s *style) { s.stamp = func(at int64) string { return fmt.Sprint(at - hour) } }).write(rows, all), says: "UTC"},
		{name: "milliseconds since 1970", offset: 1, file: plain.with(func(s *style) { s.stamp = func(at int64) string { return fmt.Sprint((at - hour) * 1000) } }).write(rows, all), says: "UTC"},
		{name: "days of a spreadsheet", file: plain.with(func(s *style) { s.stamp = func(at int64) string { return fmt.Sprintf("%.6f", days(at)) } }).write(rows, all)},
		{name: "days of a spreadsheet with a comma", file: german.with(func(s *style) {
			s.stamp = func(at int64) string { return strings.Replace(fmt.Sprintf("%.8f", days(at)), ".", ",", 1) }
		}).write(rows, all)},
		{name: "clock set forward", shift: april, file: german.with(func(s *style) { s.stamp = func(at int64) string { return spell("02.01.2006 15:04")(summerTime(at)) } }).write(moved(april), all), says: "set forward"},
		{name: "clock set back", shift: october, file: german.with(func(s *style) { s.stamp = func(at int64) string { return spell("02.01.2006 15:04")(summerTime(at)) } }).write(moved(october), all), says: "set back"},
		{name: "hour-ending stamps up to 24:00", holds: true, within: 0.04, shift: -hour, file: plain.with(func(s *style) {
			s.stamp = func(at int64) string {
				if c := logs.Clock(at); c.Hour() == 0 {
					return logs.Clock(at-daily).Format("2006-01-02") + " 24:00"
				}
				return spell("2006-01-02 15:04")(at)
			}
		}).write(hourly(), all)},
		{name: "meter that is reset", file: plain.write(meters(func(i int, v float64) float64 {
			if i >= half {
				return v - rows[half-1].meter
			}
			return v
		}), all), says: "falls"},
		{name: "meter that rolls over", file: plain.write(meters(func(_ int, v float64) float64 { return math.Mod(v-rows[0].meter+99500, 100000) }), all), says: "falls"},
		{name: "meter that is nothing now and then", file: plain.write(meters(func(i int, v float64) float64 {
			if i%700 == 350 {
				return 0
			}
			return v
		}), all)},
		{within: 0.04, name: "missing: empty", file: missing("")},
		{within: 0.04, name: "missing: NaN", file: missing("NaN")},
		{within: 0.04, name: "missing: -999", file: missing("-999")},
		{within: 0.04, name: "missing: -999.00", file: missing("-999.00")},
		{within: 0.04, name: "missing: ---", file: missing("---")},
		{within: 0.04, name: "missing: #N/A", file: missing("#N/A")},
		{within: 0.04, name: "missing: null in quotes", file: missing(`"null"`)},
		{name: "changes only", within: 0.04, file: changesOnly(plain, rows, all)},
		{name: "one reading in each row", file: single(rows, all, func(r row, c reading, v string) string {
			return logs.Say(r.at) + ";" + english(c) + ";" + v
		}, "timestamp;name;value")},
		{name: "one reading in each row, device, quantity and unit apart", file: single(rows, all, func(r row, c reading, v string) string {
			device, quantity := "boiler room", c.english
			if strings.HasPrefix(c.english, "room ") {
				device, quantity = c.english, "temperature"
			}
			return logs.Say(r.at) + "," + device + "," + quantity + "," + v + "," + c.unit
		}, "time,device,quantity,value,unit")},
		{name: "heading again in the middle", file: plain.with(func(s *style) {
			s.every = func(i int) string {
				if i > 0 && i%2000 == 0 {
					return "head"
				}
				return ""
			}
		}).write(rows, all), says: "no time that can be read"},
		{name: "sums at the end", file: german.with(func(s *style) {
			s.after = "\nMittelwert;4,3;41,0;35,2;;0,4\nMaximum;15,0;61,0;48,0;;1\nEnde des Berichts\n"
		}).write(rows, all), says: "no time that can be read"},
		{name: "thousands by points", file: german.with(func(s *style) { s.value = grouped(".", ",") }).write(rows, all)},
		{name: "thousands by commas in quotes", file: plain.with(func(s *style) {
			s.value = func(r reading, v float64) string { return `"` + grouped(",", ".")(r, v) + `"` }
		}).write(rows, all)},
		{name: "thousands by blanks that do not break", file: german.with(func(s *style) { s.value = grouped("\u00a0", ",") }).write(rows, all)},
		{name: "thousands by narrow blanks", file: german.with(func(s *style) { s.value = grouped("\u202f", ",") }).write(rows, all)},
		{name: "thousands by apostrophes", file: german.with(func(s *style) { s.value = grouped("’", ".") }).write(rows, all)},
		{name: "thousands by blanks in Latin-1", file: latin(german.with(func(s *style) { s.value = grouped("\u00a0", ",") }).write(rows, all))},
		{name: "decimal commas, three digits each", file: german.with(func(s *style) {
			s.value = func(_ reading, v float64) string { return strings.Replace(fmt.Sprintf("%.3f", v), ".", ",", 1) }
		}).write(rows, all)},
		{name: "headings with line breaks in quotes", file: plain.with(func(s *style) {
			s.head = func(r reading) string {
				return fmt.Sprintf("\"%s\n(called \"\"%s, %s\"\")\"", english(r), r.english, r.unit)
			}
		}).write(rows, all)},
		{name: "a remark with line breaks in quotes", file: remarks(plain.write(rows, all))},
		{name: "French", file: german.with(func(s *style) {
			s.head, s.stamp = func(r reading) string { return strings.TrimSpace(r.french + " (" + r.unit + ")") }, spell("02/01/2006 15:04:05")
		}).write(rows, all)},
		{name: "Spanish", file: german.with(func(s *style) { s.head, s.stamp = func(r reading) string { return r.spanish }, spell("2/1/2006 15:04") }).write(rows, all)},
		{name: "supply and return exchanged", file: plain.write(rows, exchanged), says: "exchanged"},
		{name: "tenths of °C as whole numbers", file: plain.with(func(s *style) {
			s.head, s.value = bare, func(r reading, v float64) string {
				if r.unit == "°C" {
					return fmt.Sprintf("%.0f", 10*v)
				}
				return tenths(r, v)
			}
		}).write(rows, all), says: "tenths"},
		{name: "tenths under a heading of °C", file: plain.with(func(s *style) {
			s.value = func(r reading, v float64) string {
				if r.unit == "°C" {
					return fmt.Sprintf("%.0f", 10*v)
				}
				return tenths(r, v)
			}
		}).write(rows, all), says: "tenths"},
		{name: "kelvin", file: plain.with(func(s *style) {
			s.head, s.value = bare, func(r reading, v float64) string {
				if r.unit == "°C" {
					v += zero
				}
				return fmt.Sprintf("%.2f", v)
			}
		}).write(rows, all)},
		{name: "units behind the numbers", file: german.with(func(s *style) {
			s.head, s.value = func(r reading) string { return r.german }, func(r reading, v float64) string { return commas(r, v) + " " + r.unit }
		}).write(rows, all)},
		{name: "newest first", file: plain.with(func(s *style) { s.backward = true }).write(rows, all), says: "newest"},
		{name: "rows counted, without a heading for it", file: counted(plain.write(rows, all))},
		{name: "everything in quotes", file: quoted(german.write(rows, all))},
		{name: "spreadsheet with formulas", sheet: true, file: workbook(rows, all, true)},
		{name: "spreadsheet whose formulas were never worked out", sheet: true, file: workbook(rows, all, false), says: "formula", refuse: true},
		{name: "spreadsheet with a cover before the log", sheet: true, file: covered(rows, all)},
		{name: "comma for decimals and for columns", file: german.with(func(s *style) { s.cut = "," }).write(rows, all), says: "comma", refuse: true},
		{name: "nothing", file: "", says: "empty", refuse: true},
		{name: "blank lines", file: "\n\n  \r\n", says: "no column of dates", refuse: true},
		{name: "heading alone", file: "time,outdoor,supply\n", says: "no column of dates", refuse: true},
		{name: "binary rubbish", file: rubbish(1), says: "not plain text", refuse: true},
		{name: "rubbish without noughts", file: strings.ReplaceAll(rubbish(2), "\x00", "x"), says: "", refuse: true},
		{name: "a page of the web", file: "<!DOCTYPE html>\n<html><head><title>Log</title></head>\n<body><p>Please sign in</p>\n</body></html>\n", says: "web", refuse: true},
		{name: "JSON", file: "{\"readings\": [\n {\"time\": \"2025-01-01 00:00\", \"outdoor\": 1},\n {\"time\": \"2025-01-01 00:05\", \"outdoor\": 2},\n {\"time\": \"2025-01-01 00:10\", \"outdoor\": 2}\n]}\n", says: "JSON", refuse: true},
	}
}

// mean is an hour's row, at its end.
func mean(of []row) row {
	last := of[len(of)-1]
	m := row{at: last.at, meter: last.meter, rooms: make([]float64, len(last.rooms))}
	over := func(get func(r row) float64) float64 {
		sum, n := 0.0, 0.0
		for _, r := range of {
			if v := get(r); !math.IsNaN(v) {
				sum, n = sum+v, n+1
			}
		}
		return sum / n // of nothing: none
	}
	m.out, m.supply, m.back, m.on = over(func(r row) float64 { return r.out }), over(func(r row) float64 { return r.supply }), over(func(r row) float64 { return r.back }), over(func(r row) float64 { return r.on })
	for i := range m.rooms {
		m.rooms[i] = over(func(r row) float64 { return r.rooms[i] })
	}
	return m
}

func changesOnly(s style, rows []row, all []reading) string {
	last := make([]float64, len(all))
	var thin []row
	kept := make([]reading, len(all))
	copy(kept, all)
	present := map[[2]int]bool{}
	for i, r := range rows {
		any := false
		for k, c := range all {
			v := c.of(r)
			if math.IsNaN(v) || i > 0 && math.Abs(v-last[k]) < map[string]float64{"°C": 0.35, "kWh": 0.05}[c.unit] && i%18 != 0 || i > 0 && c.unit == "" && v == last[k] && i%18 != 0 {
				continue
			}
			last[k], any = v, true
			present[[2]int{len(thin), k}] = true
		}
		if any {
			r.at += int64(i*37%240) - 120 // whenever it was
			thin = append(thin, r)
		}
	}
	n := 0
	for k := range kept {
		of := all[k].of
		kept[k].of = func(r row) float64 {
			if present[[2]int{n, k}] {
				return of(r)
			}
			return math.NaN()
		}
	}
	var b strings.Builder
	s.every = nil
	whole := s
	whole.stamp = spell("2006-01-02 15:04:05")
	text := whole.with(func(s *style) {}).write(nil, kept)
	b.WriteString(text)
	for i := range thin {
		n = i
		line := whole.write(thin[i:i+1], kept)
		b.WriteString(line[len(text):])
	}
	return b.String()
}

func single(rows []row, all []reading, line func(r row, c reading, v string) string, head string) string {
	var b strings.Builder
	b.WriteString(head + "\n")
	for _, r := range rows {
		for _, c := range all {
			if v := c.of(r); !math.IsNaN(v) {
				b.WriteString(line(r, c, tenths(c, v)) + "\n")
			}
		}
	}
	return b.String()
}

func eachLine(text string, change func(i int, line string) string) string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	for i := range lines {
		lines[i] = change(i, lines[i])
	}
	return strings.Join(lines, "\n") + "\n"
}

func remarks(text string) string {
	return eachLine(text, func(i int, line string) string {
		switch {
		case i == 0:
			return line + ",remark"
		case i%400 == 7:
			return line + ",\"filter cleaned,\nthen \"\"bled\"\"\n\""
		}
		return line + ","
	})
}

func counted(text string) string {
	return eachLine(text, func(i int, line string) string {
		if i == 0 {
			return "," + line
		}
		return fmt.Sprintf("%d,%s", 40000+i, line)
	})
}

func quoted(text string) string {
	return eachLine(text, func(_ int, line string) string { return `"` + strings.ReplaceAll(line, ";", `";"`) + `"` })
}

func rubbish(seed uint64) string {
	b := make([]byte, 40000)
	x := seed*0x9e3779b97f4a7c15 + 1
	for i := range b {
		x ^= x << 13
		x ^= x >> 7
		x ^= x << 17
		b[i] = byte(x >> 33)
	}
	return string(b)
}

// sheetOf writes rows as a spreadsheet does: formulas for the times and the supply, with
// or without the value that they had.
func sheetOf(rows []row, all []reading, worked bool) string {
	var b strings.Builder
	b.WriteString(`<worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>time</t></is></c>`)
	name := func(k int) string { return string(rune('A' + k)) }
	for k, c := range all {
		fmt.Fprintf(&b, `<c r="%s1" t="inlineStr"><is><t>%s %s</t></is></c>`, name(k+1), c.english, c.unit)
	}
	b.WriteString("</row>")
	for i, r := range rows {
		n := i + 2
		value := func(text string) string {
			if worked {
				return "<v>" + text + "</v>"
			}
			return ""
		}
		fmt.Fprintf(&b, `<row r="%d"><c r="A%d" s="1"><f>A%d+TIME(0,5,0)</f>%s</c>`, n, n, n-1, value(fmt.Sprintf("%.9f", float64(r.at+25569*daily)/daily)))
		for k, c := range all {
			v := c.of(r)
			switch {
			case math.IsNaN(v):
				fmt.Fprintf(&b, `<c r="%s%d" t="e"><v>#N/A</v></c>`, name(k+1), n)
			case k == 1:
				fmt.Fprintf(&b, `<c r="%s%d"><f>C%d+D%d</f>%s</c>`, name(k+1), n, n, n, value(tenths(c, v)))
			default:
				fmt.Fprintf(&b, `<c r="%s%d"><v>%s</v></c>`, name(k+1), n, tenths(c, v))
			}
		}
		b.WriteString("</row>")
	}
	b.WriteString("</sheetData></worksheet>")
	return b.String()
}

func packed(parts map[string]string) string {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range parts {
		w, err := z.Create(name)
		if err == nil {
			_, err = io.WriteString(w, text)
		}
		if err != nil {
			panic(err) // of a writer into memory
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.String()
}

const bookStyles = `<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="22"/></cellXfs></styleSheet>`

func workbook(rows []row, all []reading, worked bool) string {
	return packed(map[string]string{
		"xl/workbook.xml":            `<workbook xmlns:r="urn:r"><sheets><sheet name="Log" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/styles.xml":              bookStyles, "xl/worksheets/sheet1.xml": sheetOf(rows, all, worked),
	})
}

func covered(rows []row, all []reading) string {
	return packed(map[string]string{
		"xl/workbook.xml":            `<workbook xmlns:r="urn:r"><sheets><sheet name="About" sheetId="1" r:id="rId1"/><sheet name="Log" sheetId="2" r:id="rId2"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Target="worksheets/sheet2.xml"/></Relationships>`,
		"xl/styles.xml":              bookStyles,
		"xl/worksheets/sheet1.xml":   `<worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Readings of the winter</t></is></c></row></sheetData></worksheet>`,
		"xl/worksheets/sheet2.xml":   sheetOf(rows, all, true),
	})
}

// read goes the way of the command and the page.
func (u ugly) read(t *testing.T) (*logs.Recognised, *logs.Log, error) {
	t.Helper()
	open := func() (io.Reader, error) {
		if !u.sheet {
			return strings.NewReader(u.file), nil
		}
		return logs.Sheet(strings.NewReader(u.file), int64(len(u.file)))
	}
	in, err := open()
	if err != nil {
		return nil, nil, err
	}
	if !u.sheet {
		if in, err = logs.Sample(strings.NewReader(u.file), int64(len(u.file))); err != nil {
			return nil, nil, err
		}
	}
	r, err := logs.Recognise(in)
	if err != nil {
		return nil, nil, err
	}
	r.Mapping.Offset = u.offset
	if in, err = open(); err != nil {
		return r, nil, err
	}
	l, err := logs.Read(t.Context(), in, r.Mapping, logs.Options{})
	return r, l, err
}

func TestUglyLogsTellTheSame(t *testing.T) {
	s := play(t, 2, wish{days: 21, first: 10})
	rows, rooms := rowsOf(t, s.csv)
	whole := take(t, s.csv)
	clean := judge(t, whole, s.job)
	if !clean.Signature.Loss.Known || !clean.Curve.Slope.Known {
		t.Fatal("the clean log tells nothing")
	}
	for _, u := range uglies(rows, rooms) {
		t.Run(u.name, func(t *testing.T) {
			r, l, err := u.read(t)
			said := ""
			if err != nil {
				said = err.Error()
			}
			if r != nil {
				said += strings.Join(r.Doubts, "\n")
			}
			if l != nil {
				for _, f := range l.Findings {
					said += "\n" + f.Text
				}
			}
			if !strings.Contains(said, u.says) {
				t.Errorf("%q is not said: %s", u.says, said)
			}
			if u.refuse {
				if err == nil {
					t.Errorf("taken for a log: %+v", r.Mapping)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if u.within == 0 && len(l.Stamps) != len(rows) {
				t.Errorf("%d rows, not %d", len(l.Stamps), len(rows))
			}
			if at, want := l.Stamps[0]-u.shift, rows[0].at; math.Abs(float64(at-want)) > hour/2 && u.within == 0 {
				t.Errorf("begins at %s, not at %s", logs.Say(at), logs.Say(want))
			}
			within := u.within
			if within == 0 {
				within = 0.01
			}
			switch {
			case u.holds:
				got := judge(t, l, s.job)
				holds(t, "loss", got.Signature.Loss, clean.Signature.Loss)
				holds(t, "slope", got.Curve.Slope, clean.Curve.Slope)
			case !alikeRows(l, whole):
				same(t, judge(t, l, s.job), clean, within)
			}
			if t.Failed() {
				t.Logf("%+v\n%s", r.Mapping, said)
			}
		})
	}
}

func holds[T Quantity](t *testing.T, what string, got, want Estimate[T]) {
	t.Helper()
	if got.Known && (got.Low > want.Value || got.High < want.Value) {
		t.Errorf("%s: %v to %v, not %v", what, float64(got.Low), float64(got.High), float64(want.Value))
	}
}

// alikeRows tells whether two logs hold the same readings at the same times of the day,
// so that they tell the same.
func alikeRows(a, b *logs.Log) bool {
	if len(a.Stamps) != len(b.Stamps) || len(a.Series) != len(b.Series) || (a.Stamps[0]-b.Stamps[0])%daily != 0 {
		return false
	}
	for k, s := range a.Series {
		if s.Role != b.Series[k].Role {
			return false
		}
		for i, v := range s.Values {
			w := b.Series[k].Values[i]
			if a.Stamps[i]-a.Stamps[0] != b.Stamps[i]-b.Stamps[0] || math.IsNaN(v) != math.IsNaN(w) || math.Abs(v-w) > 1e-6*(1+math.Abs(w)) {
				return false
			}
		}
	}
	return true
}

func judge(t *testing.T, l *logs.Log, j *job.Job) *Result {
	t.Helper()
	r, err := Analyse(t.Context(), l, j, Options{System: units.SI, Cheap: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func same(t *testing.T, got, want *Result, within float64) {
	t.Helper()
	alike(t, "loss", got.Signature.Loss, want.Signature.Loss, within)
	alike(t, "slope", got.Curve.Slope, want.Curve.Slope, within)
	if len(got.Rooms) != len(want.Rooms) {
		t.Errorf("%d rooms, not %d", len(got.Rooms), len(want.Rooms))
	}
	if g, w := got.Cycles.StartsPerDay, want.Cycles.StartsPerDay; within == 0.01 {
		alike(t, "starts", g, w, 0.05)
	}
}

func alike[T Quantity](t *testing.T, what string, got, want Estimate[T], within float64) {
	t.Helper()
	if !got.Known || math.Abs(float64(got.Value/want.Value)-1) > within {
		t.Errorf("%s: %v %s, not %v", what, float64(got.Value), got.Why, float64(want.Value))
	}
}
