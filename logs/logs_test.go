package logs

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"
)

// table makes a log of some days in a maker's manner.
func table(heading string, rows int, row func(i int) string) string {
	var b strings.Builder
	b.WriteString(heading)
	for i := range rows {
		b.WriteString(row(i))
	}
	return b.String()
}

func comma(x float64, digits int) string {
	return strings.Replace(fmt.Sprintf("%.*f", digits, x), ".", ",", 1)
}

// Outdoor, supply, return and room of a plain winter day, °C.
func winter(i, perHour int) (out, supply, back, room float64) {
	h := float64(i) / float64(perHour)
	out = -2 + 4*math.Sin(h*math.Pi/12) + 0.01*float64(i%7)
	supply = 55 - 1.1*out + 0.3*float64(i%3)
	return out, supply, supply - 9, 20.5 + 0.4*math.Sin(h*math.Pi/12+1)
}

func f(c float64) float64 { return c*1.8 + 32 }

func TestRecognisesWhatLoggersWrite(t *testing.T) {
	at := func(i int) (h, m, d int) { return i / 12 % 24, i % 12 * 5, 13 + i/288 }
	for _, c := range []struct {
		name, text string
		delimiter  string
		comma      bool
		times      Layout
		roles      string // in order
		units      string
	}{
		{"plain, °F", table("Time,Outdoor (°F),Supply (°F),Return (°F),Living room (°F),Burner\n", 600, func(i int) string {
			o, s, b, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("2026-01-%d %02d:%02d:00,%.1f,%.1f,%.1f,%.1f,%d\n", d, h, m, f(o), f(s), f(b), f(r), i/4%2)
		}), ",", false, YearFirst, "time outdoor supply return room burner", "- °F °F °F °F 0/1"},
		{"German, semicolon, comma, no units", table("Datum;Uhrzeit;Außentemperatur;Vorlauftemperatur;Rücklauftemperatur;Wohnzimmer;Brenner\r\n", 600, func(i int) string {
			o, s, b, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("%d.01.2026;%02d:%02d;%s;%s;%s;%s;%d\r\n", d, h, m, comma(o, 1), comma(s, 1), comma(b, 1), comma(r, 1), i/4%2)
		}), ";", true, DayFirst, "time clock outdoor supply return room burner", "- - °C °C °C °C 0/1"},
		{"US, AM and PM, gas meter", table("logger 7\nsite: Elm Street\n\nDate/Time\tOAT F\tSWT F\tBoiler on\tGas meter (ccf)\n", 600, func(i int) string {
			o, s, _, _ := winter(i, 12)
			h, m, d := at(i)
			half := "AM"
			if h >= 12 {
				half = "PM"
			}
			return fmt.Sprintf("1/%d/2026 %d:%02d %s\t%.1f\t%.1f\t%s\t%.3f\n", d, (h+11)%12+1, m, half, f(o), f(s), []string{"Off", "On"}[i/4%2], 812+float64(i)*0.003)
		}), "\t", false, MonthFirst, "time outdoor supply burner fuel meter", "- °F °F 0/1 ccf"},
		{"French, heat meter", table("Horodatage;Température extérieure [°C];Départ [°C];Retour [°C];Salon [°C];Compteur chaleur [kWh]\n", 600, func(i int) string {
			o, s, b, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("%d/01/2026 %02d:%02d;%s;%s;%s;%s;%s\n", d, h, m, comma(o, 2), comma(s, 2), comma(b, 2), comma(r, 2), comma(9000+float64(i)*0.2, 1))
		}), ";", true, DayFirst, "time outdoor supply return room heat meter", "- °C °C °C °C kWh"},
		{"Spanish", table("fecha,exterior_C,impulsion_C,retorno_C,dormitorio_C,caudal (L/min)\n", 600, func(i int) string {
			o, s, b, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("2026/01/%d %02d:%02d,%.1f,%.1f,%.1f,%.1f,%.1f\n", d, h, m, o, s, b, r, 14.0)
		}), ",", false, YearFirst, "time outdoor supply return room water flow", "- °C °C °C °C L/min"},
		{"epoch, underscored, power", table("timestamp,t_outdoor_c,t_supply_c,t_return_c,heat_output_kw\n", 600, func(i int) string {
			o, s, b, _ := winter(i, 12)
			return fmt.Sprintf("%d,%.2f,%.2f,%.2f,%.2f\n", 1768262400+i*300, o, s, b, 8-0.2*o)
		}), ",", false, Seconds, "time outdoor supply return heat", "- °C °C °C kW"},
		{"zone in the time, units in a line of their own", table("time,outside,flow temp,kitchen\n,°C,°C,°C\n", 600, func(i int) string {
			o, s, _, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("2026-01-%dT%02d:%02d:00+01:00,%.1f,%.1f,%.1f\n", d, h, m, o, s, r)
		}), ",", false, YearFirst, "time outdoor supply room", "- °C °C °C"},
		{"no heading at all", table("", 600, func(i int) string {
			o, s, b, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("2026-01-%d %02d:%02d,%.1f,%.1f,%.1f,%.1f,%d\n", d, h, m, f(o), f(s), f(b), f(r), i/4%2)
		}), ",", false, YearFirst, "time outdoor supply return room burner", "- °F °F °F °F 0/1"},
		{"°F under a heading of °C", table("Time,Outdoor °C,Living room °C\n", 600, func(i int) string {
			o, _, _, r := winter(i, 12)
			h, m, d := at(i)
			return fmt.Sprintf("2026-01-%d %02d:%02d,%.1f,%.1f\n", d, h, m, f(o)+14, f(r))
		}), ",", false, YearFirst, "time outdoor room", "- °C °F"},
	} {
		got, err := Recognise(strings.NewReader(c.text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		var roles, unitNames []string
		for _, k := range got.Columns {
			roles = append(roles, string(k.Role))
			if k.Unit == "" {
				unitNames = append(unitNames, "-")
			} else {
				unitNames = append(unitNames, k.Unit)
			}
		}
		if got.Delimiter != c.delimiter || got.Comma != c.comma || got.Times != c.times {
			t.Errorf("%s: delimiter %q, comma %v, times %q; want %q, %v, %q", c.name, got.Delimiter, got.Comma, got.Times, c.delimiter, c.comma, c.times)
		}
		if strings.Join(roles, " ") != c.roles || strings.Join(unitNames, " ") != c.units {
			t.Errorf("%s: %s / %s\nwant %s / %s\n%+v", c.name, strings.Join(roles, " "), strings.Join(unitNames, " "), c.roles, c.units, got.Columns)
		}
		if got.Step != 300 {
			t.Errorf("%s: step %d s, want 300", c.name, got.Step)
		}
		l, err := Read(context.Background(), strings.NewReader(c.text), got.Mapping, Options{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if len(l.Stamps) != 600 || l.Step != 300 {
			t.Errorf("%s: %d rows every %d s", c.name, len(l.Stamps), l.Step)
		}
		if out, ok := l.First(Outdoor); ok && c.units[2:5] == "°F" && math.Abs(out.Values[0]-zero+2) > 0.1 {
			t.Errorf("%s: outdoors %.2f °C, want -2", c.name, out.Values[0]-zero)
		}
	}
}

// Home automation writes a row for each reading of each sensor, one sensor after another.
func TestReadsATableOfSingleReadings(t *testing.T) {
	for name, bySensor := range map[string]bool{"by time": false, "by sensor": true} {
		var parts [3]strings.Builder
		text := "entity_id,state,last_changed\n"
		for i := range 900 {
			o, s, _, r := winter(i, 12)
			at := Clock(1768262400 + int64(i)*300).Format("2006-01-02T15:04:05.000Z")
			rows := [3]string{fmt.Sprintf("sensor.outdoor_temperature,%.1f,%s\n", f(o), at), fmt.Sprintf("sensor.boiler_supply,%.1f,%s\n", f(s), at), fmt.Sprintf("sensor.kitchen_temperature,%.1f,%s\n", f(r), at)}
			if i == 40 {
				rows[1] = "sensor.boiler_supply,unavailable," + at + "\n"
			}
			for k, row := range rows {
				if bySensor {
					parts[k].WriteString(row)
				} else {
					text += row
				}
			}
		}
		for k := range parts {
			text += parts[k].String()
		}
		if bySensor {
			r, err := Recognise(strings.NewReader(text))
			if err != nil || r.Key != 1 || r.Value != 2 {
				t.Errorf("%s: %+v, %v", name, r, err)
			}
		}
		l := read(t, text, Options{})
		if len(l.Stamps) != 900 || l.Step != 300 || len(l.Series) != 3 || l.Series[0].Role != Outdoor || l.Series[1].Role != Boiler || l.Series[2].Role != Room || kindsFound(l) != "" {
			t.Errorf("%s: %d rows every %d s, %q, %+v", name, len(l.Stamps), l.Step, kindsFound(l), l.Findings)
			continue
		}
		if !math.IsNaN(l.Series[1].Values[40]) || math.Abs(l.Series[0].Values[0]-zero+2) > 0.1 {
			t.Errorf("%s: %v", name, l.Series[0].Values[0]-zero)
		}
	}
}

// What is not in the first half megabyte is seen all the same.
func TestLooksFurtherIntoALongFile(t *testing.T) {
	var b strings.Builder
	b.WriteString("sensor,value,time\n")
	for _, sensor := range []string{"outdoor °C", "supply °C", "bedroom °C"} {
		for i := range 40000 {
			at := 1767225600 + int64(i)*60
			o, s, _, r := winter(i, 60)
			v := map[string]float64{"outdoor °C": o, "supply °C": s, "bedroom °C": r}[sensor]
			fmt.Fprintf(&b, "%s,%.1f,%s\n", sensor, v, Clock(at).Format("02/01/2006 15:04"))
		}
	}
	file := strings.NewReader(b.String())
	sample, err := Sample(file, file.Size())
	if err != nil {
		t.Fatal(err)
	}
	r, err := Recognise(sample)
	if err != nil {
		t.Fatal(err)
	}
	if r.Times != DayFirst || len(r.Keys) != 3 || r.Keys[1].Role != Supply || r.Keys[2].Role != Room {
		t.Fatalf("%s, %+v", r.Times, r.Keys)
	}
	l, err := Read(context.Background(), strings.NewReader(b.String()), r.Mapping, Options{})
	if err != nil || len(l.Stamps) != 40000 || l.Step != 60 {
		t.Fatalf("%v, %d rows every %d s", err, len(l.Stamps), l.Step)
	}
}

func TestReadsDatesInManyForms(t *testing.T) {
	const want = "2026-01-31 13:05"
	for text, l := range map[string]Layout{
		"2026-01-31 13:05": YearFirst, "2026-01-31T13:05:00.123": YearFirst, "2026/1/31 1:05 PM": YearFirst, "20260131 1305": YearFirst, "20260131130500": YearFirst, "2026-01-31 13:05:00 UTC": YearFirst,
		"1/31/2026 1:05 PM": MonthFirst, "01/31/26 13:05": MonthFirst, "Jan 31, 2026 1:05 pm": MonthFirst, "Sat Jan 31 13:05:00 2026": MonthFirst, "31 Jan 2026 13:05": DayFirst,
		"sam. 31/01/2026 13:05": DayFirst, "Samstag, 31.01.2026 13:05": DayFirst, "mar. 31/01/2026 13:05": DayFirst, "2026-01-31T13:05:00+01:00[Europe/Vienna]": YearFirst, "2026-01-31 13:05:00 -0500 EST": YearFirst,
		"31.1.2026 13:05": DayFirst, "31.01.26 13:05:59": DayFirst, "31-01-2026 13:05": DayFirst, "31. Januar 2026 13:05 Uhr": DayFirst, "31 janv. 2026 13:05": DayFirst, "31/01/2026 13h05": DayFirst,
		"1769864700": Seconds, "1769864700000": Millis, "46053.545139": SerialDay,
	} {
		m, ok := parseTime([]byte(text), nil, l)
		if !ok || Say(m.at) != want {
			t.Errorf("%q: %s, %v", text, Say(m.at), ok)
		}
	}
}

func read(t *testing.T, text string, o Options) *Log {
	t.Helper()
	r, err := Recognise(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	l, err := Read(context.Background(), strings.NewReader(text), r.Mapping, o)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func kindsFound(l *Log) string {
	var k []string
	for _, f := range l.Findings {
		k = append(k, f.Kind)
	}
	return strings.Join(k, " ")
}

func TestFindsWhatIsWrong(t *testing.T) {
	line := func(i int, o, s, b, r float64) string {
		return fmt.Sprintf("%s,%.2f,%.2f,%.2f,%.2f\n", Say(1768262400+int64(i)*300), o, s, b, r)
	}
	const heading = "time,outdoor °C,supply °C,return °C,kitchen °C\n"
	for _, c := range []struct {
		name string
		row  func(i int) string
		o    Options
		want string
	}{
		{"in order", func(i int) string { o, s, b, r := winter(i, 12); return line(i, o, s, b, r) }, Options{}, ""},
		{"gap", func(i int) string {
			if i > 100 && i < 160 {
				return ""
			}
			o, s, b, r := winter(i, 12)
			return line(i, o, s, b, r)
		}, Options{}, "gap"},
		{"repeated rows", func(i int) string {
			o, s, b, r := winter(i, 12)
			if i == 300 {
				return line(i, o, s, b, r) + line(i, o, s, b, r)
			}
			return line(i, o, s, b, r)
		}, Options{}, "repeated"},
		{"newest first", func(i int) string { o, s, b, r := winter(999-i, 12); return line(999-i, o, s, b, r) }, Options{}, "newest first"},
		{"a wire loose", func(i int) string {
			o, s, b, r := winter(i, 12)
			if i%90 == 5 {
				o = -127.3
			}
			return line(i, o, s, b, r)
		}, Options{}, "outliers"},
		{"a spike", func(i int) string {
			o, s, b, r := winter(i, 12)
			if i == 500 {
				r = 45
			}
			return line(i, o, s, b, r)
		}, Options{}, "outliers"},
		{"stuck outdoors", func(i int) string {
			o, s, b, r := winter(i, 12)
			if i > 400 && i < 700 {
				o = 3
			}
			return line(i, o, s, b, r)
		}, Options{}, "stuck"},
		{"supply and return exchanged, which the mapping mends", func(i int) string { o, s, b, r := winter(i, 12); return line(i, o, b, s, r) }, Options{}, ""},
		{"room and outdoors exchanged", func(i int) string { o, s, b, r := winter(i, 12); return line(i, r, s, b, o) }, Options{}, "swapped"},
		{"to come", func(i int) string { o, s, b, r := winter(i, 12); return line(i, o, s, b, r) }, Options{Now: 1700000000}, "wrong year"},
	} {
		l := read(t, table(heading, 1000, c.row), c.o)
		if kindsFound(l) != c.want {
			t.Errorf("%s: %q, want %q", c.name, kindsFound(l), c.want)
		}
	}
}

// Whoever insists on columns that are exchanged is told.
func TestInsistedOnExchangedColumns(t *testing.T) {
	text := table("time,outdoor °C,supply °C,return °C\n", 400, func(i int) string {
		o, s, b, _ := winter(i, 12)
		return fmt.Sprintf("%s,%.1f,%.1f,%.1f\n", Say(1768262400+int64(i)*300), o, b, s)
	})
	r, err := Recognise(strings.NewReader(text))
	if err != nil || r.Columns[2].Role != Return || r.Columns[3].Role != Supply || !strings.Contains(strings.Join(r.Doubts, " "), "exchanged") {
		t.Fatalf("%+v, %v", r, err)
	}
	m := r.Mapping
	if err := m.Assign("3=supply,4=return"); err != nil {
		t.Fatal(err)
	}
	l, err := Read(context.Background(), strings.NewReader(text), m, Options{})
	if err != nil || kindsFound(l) != "swapped" {
		t.Errorf("%v, %+v", err, l)
	}
}

// The clock of a house in summer time is set back on a Sunday in autumn and forward in
// spring; on standard time every step is alike.
func TestSummerTimeIsTakenOut(t *testing.T) {
	for _, c := range []struct {
		name    string
		begin   int64 // local standard time
		change  int64
		forward bool
		step    int64
	}{
		{"back, five minutes", 1761955200, 1762048800, false, 300},  // 2025-11-02 02:00 summer time
		{"back, hourly", 1761955200, 1762048800, false, 3600},       // the hour comes twice
		{"forward, ten minutes", 1772841600, 1772935200, true, 600}, // 2026-03-08 02:00
	} {
		text := table("time,outdoor °C,room °C\n", int(3*day/c.step), func(i int) string {
			at := c.begin + int64(i)*c.step
			o, _, _, r := winter(i, int(3600/c.step))
			if (at >= c.change) == c.forward {
				at += 3600
			}
			return fmt.Sprintf("%s,%.2f,%.2f\n", Say(at), o, r)
		})
		l := read(t, text, Options{})
		if kindsFound(l) != "clock changed" {
			t.Errorf("%s: found %q", c.name, kindsFound(l))
		}
		for i, s := range l.Stamps {
			if want := c.begin + int64(i)*c.step; s != want {
				t.Errorf("%s: row %d at %s, want %s", c.name, i, Say(s), Say(want))
				break
			}
		}
	}
}

func TestTextInOtherEncodings(t *testing.T) {
	text := table("Zeit;Außen °C;Küche °C\n", 200, func(i int) string {
		o, _, _, r := winter(i, 12)
		return fmt.Sprintf("%s;%.1f;%.1f\n", Say(1768262400+int64(i)*300), o, r)
	})
	wide := func(big bool) []byte {
		out := []byte{0xff, 0xfe}
		if big {
			out = []byte{0xfe, 0xff}
		}
		for _, u := range utf16.Encode([]rune(text)) {
			if big {
				out = append(out, byte(u>>8), byte(u))
			} else {
				out = append(out, byte(u), byte(u>>8))
			}
		}
		return out
	}
	latin := make([]byte, 0, len(text))
	for _, r := range text {
		latin = append(latin, byte(r))
	}
	for name, data := range map[string][]byte{"UTF-8 with mark": append([]byte("\xef\xbb\xbf"), text...), "UTF-16 little": wide(false), "UTF-16 big": wide(true), "Latin-1": latin} {
		r, err := Recognise(bytes.NewReader(data))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r.Columns[1].Role != Outdoor || r.Columns[2].Role != Room || r.Columns[2].Name != "Küche" || r.Columns[2].Unit != "°C" {
			t.Errorf("%s: %+v", name, r.Columns)
		}
	}
}

func TestRefusesInSentences(t *testing.T) {
	good := table("time,outdoor °C\n", 50, func(i int) string { return fmt.Sprintf("%s,%d\n", Say(1768262400+int64(i)*300), i%9) })
	r, err := Recognise(strings.NewReader(good))
	if err != nil {
		t.Fatal(err)
	}
	ended, end := context.WithCancel(context.Background())
	end()
	for _, c := range []struct {
		name string
		do   func() error
		want string
	}{
		{"empty", func() error { _, err := Recognise(strings.NewReader("")); return err }, "empty"},
		{"no table", func() error { _, err := Recognise(strings.NewReader(strings.Repeat("hello there\n", 50))); return err }, "no column of dates"},
		{"packed", func() error { _, err := Recognise(strings.NewReader("PK\x03\x04....")); return err }, "packed"},
		{"one endless line", func() error {
			_, err := Recognise(strings.NewReader(strings.Repeat("x", 600000)))
			return err
		}, "longer than"},
		{"too many rows", func() error {
			_, err := Read(context.Background(), strings.NewReader(good), r.Mapping, Options{MostRows: 10})
			return err
		}, "more than 10 rows"},
		{"too large", func() error {
			_, err := Read(context.Background(), strings.NewReader(strings.Repeat(good[17:], 3000)), r.Mapping, Options{MostBytes: 1 << 20})
			return err
		}, "larger than 1 MB"},
		{"cancelled", func() error {
			_, err := Read(ended, strings.NewReader(strings.Repeat(good[17:], 300)), r.Mapping, Options{})
			return err
		}, context.Canceled.Error()},
		{"another form of times", func() error {
			m := r.Mapping
			m.Times = DayFirst
			_, err := Read(context.Background(), strings.NewReader(good), m, Options{})
			return err
		}, "cannot be read as"},
		{"no such role", func() error { m := r.Mapping; return m.Assign("2=warmth") }, "is no role"},
		{"no such column", func() error { m := r.Mapping; return m.Assign("7=room") }, "does not name a column"},
	} {
		err := c.do()
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

func TestMappingIsKept(t *testing.T) {
	text := table("time,a,b\n", 50, func(i int) string { return fmt.Sprintf("%s,%d,%d\n", Say(1768262400+int64(i)*300), 30+i%9, 70) })
	r, err := Recognise(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	m := r.Mapping
	if err := m.Assign("2=outdoor °F, b=room Den °F"); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := m.Write(&b); err != nil {
		t.Fatal(err)
	}
	again, err := ReadMapping(b.Bytes())
	if err != nil || again.Columns[2].Name != "Den" || again.Columns[1].Unit != "°F" {
		t.Fatalf("%+v, %v", again, err)
	}
	if _, err := ReadMapping([]byte(`{"delimiter":",","colour":"red"}`)); err == nil {
		t.Error("an unknown field was taken")
	}
}

func yearOfMinutes() []byte {
	var b bytes.Buffer
	b.WriteString("time,outdoor (°F),supply (°F),return (°F),kitchen (°F),bedroom (°F),flow (gpm),gas meter (ft3),burner\n")
	for i := range 525600 {
		o, s, k, r := winter(i, 60)
		fmt.Fprintf(&b, "%s,%.1f,%.1f,%.1f,%.1f,%.1f,%.2f,%.2f,%d\n", Say(1767225600+int64(i)*60), f(o), f(s), f(k), f(r), f(r)-3, 5.25, 1000+float64(i)*0.03, i/12%2)
	}
	return b.Bytes()
}

func BenchmarkYearOfMinutes(b *testing.B) {
	data := yearOfMinutes()
	r, err := Recognise(bytes.NewReader(data))
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		l, err := Read(context.Background(), bytes.NewReader(data), r.Mapping, Options{})
		if err != nil || len(l.Stamps) != 525600 || len(l.Series) != 8 {
			b.Fatal(err, len(l.Stamps), len(l.Series))
		}
	}
}

func FuzzRecognise(f *testing.F) {
	f.Add([]byte("time;outdoor\n1.1.2026 1:00;1,5\n1.1.2026 2:00;1,7\n1.1.2026 3:00;1,9\n1.1.2026 4:00;1,9\n"))
	f.Add([]byte("1768262400,1\n1768262460,2\n1768262520,3\n1768262580,3\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Recognise(bytes.NewReader(data))
		if err != nil {
			return
		}
		if err := r.Check(); err != nil && !strings.Contains(err.Error(), "columns of times") {
			t.Fatalf("its own proposal is refused: %v", err)
		}
		l, err := Read(context.Background(), bytes.NewReader(data), r.Mapping, Options{})
		if err != nil {
			return
		}
		for i := 1; i < len(l.Stamps); i++ {
			if l.Stamps[i] <= l.Stamps[i-1] {
				t.Fatal("stamps do not ascend")
			}
		}
		for _, s := range l.Series {
			for _, v := range s.Values {
				if math.IsInf(v, 0) {
					t.Fatal("an infinite value")
				}
			}
		}
	})
}
