package weather_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"curvewright/units"
	"curvewright/weather"

	"pgregory.net/rapid"
)

// record is an hour of a file under test, before it is spoilt.
type record struct {
	when                                  time.Time // start of the hour
	dry, dew, global, direct, diffuse, wd float64
}

// records is a smooth year: the coldest at the start, the day's wave of 4 K.
func records(year int) []record {
	var out []record
	at := weather.Place{Latitude: 44.5, Longitude: -73.2}
	for t := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC); t.Year() == year; t = t.Add(time.Hour) {
		day := float64(t.YearDay())
		dry := 8 - 14*math.Cos(2*math.Pi*day/365) - 4*math.Cos(2*math.Pi*float64(t.Hour()-3)/24)
		r := record{when: t, dry: math.Round(dry*10) / 10, wd: 3}
		r.dew = r.dry - 5
		sun := weather.SunAt(t.Add(5*time.Hour+30*time.Minute), at)
		if up := math.Cos(sun.Zenith * math.Pi / 180); up > 0.02 {
			r.global = math.Round(600 * up)
			r.direct, r.diffuse = weather.Decompose(sun, r.global)
		}
		out = append(out, r)
	}
	return out
}

const epwHeading = `LOCATION,Tamarack Hollow,VT,USA,TMY3,000000,44.5,-73.2,-5.0,101.0
DESIGN CONDITIONS,1,Climate Design Data,,Heating,1,-22.4,-19.7,-27.4
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,none
COMMENTS 2,none
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
`

func asEPW(rows []record) string {
	var b strings.Builder
	b.WriteString(epwHeading)
	for _, r := range rows {
		fmt.Fprintf(&b, "%d,%d,%d,%d,60,?9,%.1f,%.1f,80,100000,0,0,250,%.0f,%.1f,%.1f,0,0,0,0,200,%.1f,5,5\r\n",
			r.when.Year(), r.when.Month(), r.when.Day(), r.when.Hour()+1, r.dry, r.dew, r.global, r.direct, r.diffuse, r.wd)
	}
	return b.String()
}

// sound fails unless a year is whole: one length, no gap, nothing impossible.
func sound(t interface{ Fatalf(string, ...any) }, y *weather.Year) {
	n := len(y.DryBulb)
	if n != 8760 && n != 8784 {
		t.Fatalf("%d hours", n)
	}
	for name, x := range map[string][]float64{"dry bulb": y.DryBulb, "dew point": y.DewPoint, "global": y.Global, "direct": y.Direct, "diffuse": y.Diffuse, "wind": y.Wind} {
		if x != nil && len(x) != n {
			t.Fatalf("%s has %d hours of %d", name, len(x), n)
		}
		for i, v := range x {
			if !(v >= -80 && v <= 1500) {
				t.Fatalf("%s of hour %d is %v", name, i, v)
			}
		}
	}
}

func TestSoundFileIsNotSuspected(t *testing.T) {
	y, err := weather.Parse([]byte(asEPW(records(2001))), weather.Place{})
	if err != nil {
		t.Fatal(err)
	}
	sound(t, y)
	if len(y.Report.Findings) > 0 || y.Report.Gaps() {
		t.Errorf("%v", y.Report)
	}
}

// Bad files are named, counted, and refused or bridged where it can be seen.
func TestBadInput(t *testing.T) {
	each := func(change func(i int, r *record)) func([]record) []record {
		return func(rows []record) []record {
			for i := range rows {
				change(i, &rows[i])
			}
			return rows
		}
	}
	for _, c := range []struct {
		name   string
		year   int
		spoil  func([]record) []record
		refuse string // part of the error
		column string // part of a column's sentence
		find   string // part of a finding
	}{
		{name: "three hours missing", spoil: func(r []record) []record { return append(r[:100:100], r[103:]...) },
			column: "dry bulb: 3 of 8760 hours missing, at most 3 in a row; 3 bridged by a straight line"},
		{name: "ten hours missing", spoil: func(r []record) []record { return append(r[:100:100], r[110:]...) },
			column: "dry bulb: 10 of 8760 hours missing, at most 10 in a row; 10 taken from the same hour of neighbouring days"},
		{name: "four days missing", spoil: func(r []record) []record { return append(r[:1000:1000], r[1100:]...) },
			refuse: "100 of 8760 hours have no dry bulb, 100 of them in a row from 11 February, 16:00"},
		{name: "wrong length", spoil: func(r []record) []record { return r[:7000] },
			refuse: "1760 of 8760 hours have no dry bulb"},
		{name: "gap over the turn of the year", spoil: func(r []record) []record { return r[2:8757] },
			column: "dry bulb: 5 of 8760 hours missing, at most 5 in a row"},
		{name: "leap year", year: 2004, spoil: each(func(int, *record) {}), find: "29 February is in the file: the year has 8784 hours"},
		{name: "part of 29 February", year: 2004, spoil: func(r []record) []record { return append(r[:59*24+3:59*24+3], r[60*24:]...) },
			find: "29 February has only 3 hours and was left out"},
		{name: "marks of −999", spoil: each(func(i int, r *record) {
			if i%50 == 0 {
				r.dry = -999
			}
		}), column: "dry bulb: 176 of 8760 hours missing, at most 1 in a row; 176 bridged by a straight line; 176 values were a mark for missing"},
		{name: "values that cannot be", spoil: each(func(i int, r *record) {
			if i == 77 {
				r.dry = 75
			}
		}), column: "1 values that it cannot have, the first 75 °C"},
		{name: "wind left out", spoil: each(func(i int, r *record) {
			if i < 200 {
				r.wd = 999
			}
		}), column: "wind: left out, 200 of 8760 hours missing", find: "the column was left out"},
		{name: "°F under °C", spoil: each(func(_ int, r *record) { r.dry, r.dew = r.dry*1.8+32, r.dew*1.8+32 }),
			refuse: "columns may be swapped or in another unit"},
		{name: "°F in one month", spoil: each(func(i int, r *record) {
			if i >= 2000 && i < 2700 {
				r.dry = r.dry*1.8 + 32
			}
		}), find: "are °C and °F mixed?"},
		{name: "dew point and dry bulb swapped", spoil: each(func(_ int, r *record) { r.dry, r.dew = r.dew, r.dry }), find: "are the two columns swapped?"},
		{name: "global and diffuse swapped", spoil: each(func(_ int, r *record) { r.global, r.diffuse = r.diffuse, r.global }), find: "global, direct and diffuse radiation differ by"},
		{name: "pressure as dry bulb", spoil: each(func(_ int, r *record) { r.dry = 1013 }), refuse: "8760 of 8760 values are not between −70 and 60 °C"},
		{name: "shifted by hours", spoil: func(r []record) []record {
			for i := range r {
				r[i].global, r[i].direct, r[i].diffuse = r[(i+6)%len(r)].global, 0, 0
			}
			return r
		}, find: "the sun shines in"},
		{name: "southern year", spoil: each(func(_ int, r *record) { r.dry, r.dew = 16-r.dry, 11-r.dry }), find: "is the latitude's sign right"},
		{name: "stuck sensor", spoil: each(func(i int, r *record) {
			if i >= 3000 && i < 3100 {
				r.dry = 10
			}
		}), find: "the dry bulb does not change for 100 hours"},
		{name: "two years", spoil: func(r []record) []record { return append(r, records(2002)...) }, refuse: "more than one year (2001 to 2002)"},
		{name: "a row twice", spoil: func(r []record) []record { return append(r, r[5]) }, find: "1 rows fall in an hour that has one already"},
		{name: "nothing", spoil: func([]record) []record { return nil }, refuse: "has no hours that could be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.year == 0 {
				c.year = 2001
			}
			y, err := weather.ParseEPW([]byte(asEPW(c.spoil(records(c.year)))))
			if c.refuse != "" {
				if err == nil || !strings.Contains(err.Error(), c.refuse) {
					t.Fatalf("got %v, want a refusal with %q", err, c.refuse)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			sound(t, y)
			var said []string
			for _, col := range y.Report.Columns {
				said = append(said, col.Text())
			}
			if all := strings.Join(said, "\n"); !strings.Contains(all, c.column) {
				t.Errorf("got\n%s\nwant %q", all, c.column)
			}
			if all := strings.Join(y.Report.Findings, "\n"); !strings.Contains(all, c.find) {
				t.Errorf("got %q, want a finding with %q", all, c.find)
			}
		})
	}
}

func TestHeadingsOfEPWAndTMY3(t *testing.T) {
	epw := asEPW(records(2001)[:30])
	for _, c := range []struct{ data, want string }{
		{"", "the file is empty"},
		{"\x1f\x8b\x08", "unpack it first"},
		{"PK\x03\x04 more", "unpack it first"},
		{"LOCATION\x00,", "not plain text"},
		{"LOCATION,somewhere", "line 1: LOCATION has 2 fields"},
		{strings.Replace(epw, "44.5", "144.5", 1), "line 1: latitude 144.5 is not between"},
		{strings.Replace(epw, "-73.2", "x", 1), "longitude that cannot be read"},
		{strings.Replace(epw, ",-5.0,", ",-15,", 1), "UTC offset −15 is not between"},
		{strings.Replace(epw, "PERIODS,1,1", "PERIODS,1,4", 1), "line 8: 4 records an hour"},
		{strings.Replace(epw, "2001,1,1,5,", "2001,1,1,25,", 1), "line 13: month 1, day 1, hour 25 is no hour"},
		{epw + "2001,1,2\n", "line 39: 3 columns"},
		{"703165,\"SAND POINT\",AK\nDate (MM/DD/YYYY),Time (HH:MM)\n", "line 1: 3 fields, not 7"},
		{"703165,\"SAND POINT\",AK,-9.0,55.3,-160.5,7\nDate (MM/DD/YYYY),Time (HH:MM)\n", "line 2: no column \"dry-bulb (c)\""},
	} {
		if y, err := weather.Parse([]byte(c.data), weather.Place{}); err == nil || y != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want a sentence with %q", err, c.want)
		}
	}
}

func TestUTCOffsetThatDoesNotFitTheLongitude(t *testing.T) {
	data := strings.Replace(asEPW(records(2001)), "-73.2", "73.2", 1)
	y, err := weather.Parse([]byte(data), weather.Place{})
	if err != nil || !strings.Contains(strings.Join(y.Report.Findings, " "), "does not fit longitude 73.2°: is a sign wrong?") {
		t.Errorf("%v: %v", err, y.Report.Findings)
	}
}

// Bridging leaves what is there as it is, and stays between what it bridges.
func TestLawsOfBridging(t *testing.T) {
	smooth := records(2001)
	whole, err := weather.ParseEPW([]byte(asEPW(smooth)))
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		rows := slices.Clone(smooth)
		gone := map[int]bool{}
		for range rapid.IntRange(1, 20).Draw(t, "gaps") {
			start, length := rapid.IntRange(0, 8759).Draw(t, "start"), rapid.IntRange(1, 24).Draw(t, "length")
			for k := range length {
				gone[(start+k)%8760] = true
			}
		}
		for i := range gone {
			rows[i].dry = 99.9
		}
		y, err := weather.ParseEPW([]byte(asEPW(rows)))
		if err != nil {
			if strings.Contains(err.Error(), "in a row") || strings.Contains(err.Error(), "three days") {
				return // gaps that happened to join
			}
			t.Fatal(err)
		}
		if got := y.Report.Columns[0]; got.Missing != len(gone) || got.Straight+got.Neighbour != len(gone) || got.Marked != len(gone) {
			t.Fatalf("%d hours gone, reported %+v", len(gone), got)
		}
		for i, v := range y.DryBulb {
			if !gone[i] && v != whole.DryBulb[i] {
				t.Fatalf("hour %d was there and changed", i)
			}
			if gone[i] && math.Abs(v-whole.DryBulb[i]) > 9 {
				t.Fatalf("hour %d bridged with %v, was %v", i, v, whole.DryBulb[i])
			}
		}
	})
}

func TestObservationsAreMovedToLocalTime(t *testing.T) {
	at := weather.Place{Name: "Tamarack Hollow", Latitude: 44.5, Longitude: -73.2, UTCOffset: -5, Located: true}
	var lite, full, hourly strings.Builder
	hourly.WriteString("Station_ID|Station_name|Year|Month|Day|Hour|Minute|Latitude|Longitude|Elevation|temperature|temperature_Quality_Code|dew_point_temperature|dew_point_temperature_Quality_Code|wind_speed|wind_speed_Quality_Code\n")
	rows := records(2001)
	for i, r := range rows {
		// The value at the end of a local hour stands at the full hour in UTC.
		seen := rows[(i+8760-6)%8760]
		u := r.when
		if i%97 != 0 {
			fmt.Fprintf(&lite, "%s %s %s %s %5.0f %5.0f %5d %5d %5.0f %5d %5d %5d\n", u.Format("2006"), u.Format("01"), u.Format("02"), u.Format("15"),
				seen.dry*10, seen.dew*10, 10132, 270, seen.wd*10, -9999, -9999, -9999)
		}
		early := u.Add(-7 * time.Minute)
		if i == 0 {
			early = u
		}
		quality, dry := "1", seen.dry
		if i%211 == 0 {
			quality, dry = "3", 40
		}
		fmt.Fprintf(&full, "013072617014742%s%s4+44500-073200FM-15+0101KBTV V030270%sN%04.0f12200019N0160931N1%+05.0f%s%+05.0f1101325\n", early.Format("20060102"), early.Format("1504"), "1", seen.wd*10, dry*10, quality, seen.dew*10)
		fmt.Fprintf(&hourly, "USW00014742|BURLINGTON|%d|%d|%d|%d|%d|44.5|-73.2|101|%.1f|%s|%.1f|1|%.1f|1\n", early.Year(), early.Month(), early.Day(), early.Hour(), early.Minute(), dry, quality, seen.dew, seen.wd)
	}
	for _, c := range []struct {
		data   string
		origin weather.Origin
		at     weather.Place
		find   string
	}{
		{lite.String(), weather.FromISDLite, at, "were moved by −5 h to local standard time"},
		{full.String()[1:], weather.FromISD, weather.Place{}, "taken from the longitude"},
		{hourly.String(), weather.FromGHCNh, weather.Place{}, "42 values are marked as suspect or wrong"},
	} {
		if c.origin == weather.FromISD {
			c.data = full.String()
		}
		y, err := weather.Parse([]byte(c.data), c.at)
		if err != nil {
			t.Errorf("%s: %v", c.origin, err)
			continue
		}
		sound(t, y)
		if y.Origin != c.origin || !y.Place.Located || y.Place.UTCOffset != -5 || !strings.Contains(strings.Join(y.Report.Findings, "\n"), c.find) {
			t.Errorf("%s: %+v, %q", y.Origin, y.Place, y.Report.Findings)
		}
		off, worst := 0, 0.0
		for i, r := range rows {
			if d := math.Abs(y.DryBulb[i] - r.dry); d > 1e-9 {
				off, worst = off+1, math.Max(worst, d)
			}
		}
		if off > 100 || worst > 1.5 || y.Wind[4000] != 3 || math.Abs(y.DewPoint[4000]-rows[4000].dew) > 1e-9 {
			t.Errorf("%s: %d hours differ, by up to %.2f K; %s", c.origin, off, worst, y.Report.Columns[0].Text())
		}
	}
	y, err := weather.ParseISDLite([]byte(lite.String()), weather.Place{})
	if err != nil || !strings.Contains(strings.Join(y.Report.Findings, " "), "left in UTC") {
		t.Errorf("without a place: %v", err)
	}
	for _, c := range []struct{ data, want string }{
		{"2001 01 01 00   -33   -94", "line 1: 25 characters"},
		{"2001 13 01 00   -33   -94 10132   270    31 -9999 -9999 -9999\n", "line 1: \"2001 13 01 00\" is no hour"},
	} {
		if _, err := weather.ParseISDLite([]byte(c.data), at); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q", err, c.want)
		}
	}
	if _, err := weather.ParseISD([]byte("short"), at); err == nil || !strings.Contains(err.Error(), "at least 99") {
		t.Errorf("got %v", err)
	}
	if _, err := weather.ParseGHCNh([]byte("a|b\n"), at); err == nil || !strings.Contains(err.Error(), `no column "temperature"`) {
		t.Errorf("got %v", err)
	}
}

// The same year in the ways in which people write tables.
func TestTablesOfManyKinds(t *testing.T) {
	rows := records(2001)
	write := func(heading string, row func(r record) string) string {
		var b strings.Builder
		b.WriteString(heading + "\n")
		for _, r := range rows {
			b.WriteString(row(r) + "\n")
		}
		return b.String()
	}
	comma := func(x float64) string { return strings.Replace(fmt.Sprintf("%.1f", x), ".", ",", 1) }
	for _, c := range []struct {
		name, data string
		within     float64
		find       string
	}{
		{"ISO times in °C", write("time,outdoor temperature (°C),dew point (°C),global (W/m²),wind (m/s)", func(r record) string {
			return fmt.Sprintf("%s,%.1f,%.1f,%.0f,%.1f", r.when.Format("2006-01-02 15:04"), r.dry, r.dew, r.global, r.wd)
		}), 1e-9, ""},
		{"US dates, °F and mph", write("Date,Time,Outdoor Temp (°F),Wind Speed (mph)", func(r record) string {
			return fmt.Sprintf("%s,%s,%.2f,%.2f", r.when.Format("1/2/2006"), r.when.Format("3:04 PM"), r.dry*1.8+32, r.wd/0.44704)
		}), 0.003, ""},
		{"decimal comma, day first", write("Datum/date;temp_C;wind [km/h]", func(r record) string {
			return fmt.Sprintf("%s;%s;%s", r.when.Format("02.01.2006 15:04"), comma(r.dry), comma(r.wd*3.6))
		}), 1e-9, ""},
		{"hours 1 to 24", write("year\tmonth\tday\thour\tdry bulb [°C]", func(r record) string {
			return fmt.Sprintf("%d\t%d\t%d\t%d\t%.1f", r.when.Year(), r.when.Month(), r.when.Day(), r.when.Hour()+1, r.dry)
		}), 1e-9, ""},
		{"24:00", write("date,hour,dry bulb (C)", func(r record) string {
			return fmt.Sprintf("%s,%d,%.1f", r.when.Format("2006-01-02"), r.when.Hour()+1, r.dry)
		}), 1e-9, ""},
		{"rows alone", write("temperature (K)", func(r record) string { return fmt.Sprintf("%.2f", r.dry+273.15) }), 1e-9, ""},
		{"twelve months across two years", write("time,temp (C)", func(r record) string {
			if r.when.Month() < 7 {
				r.when = r.when.AddDate(1, 0, 0)
			}
			return fmt.Sprintf("%s,%.1f", r.when.Format(time.RFC3339), r.dry)
		}), 1e-9, "file's hours are UTC"},
		{"every ten minutes", write("time,temp (C)", func(r record) string {
			var out []string
			for k := range 6 {
				out = append(out, fmt.Sprintf("%s,%.1f", r.when.Add(time.Duration(k)*10*time.Minute).Format("2006-01-02T15:04"), r.dry))
			}
			return strings.Join(out, "\n")
		}), 1e-9, "43800 rows fall in an hour that has one already"},
		{"lines before the heading", write("# Place: Tamarack Hollow\nlatitude: 44.5\nlongitude; -73.2\nutc offset = -5\n\ntime,temp (C)", func(r record) string {
			return fmt.Sprintf("%s,%.1f", r.when.Format("2006-01-02T15:04"), r.dry)
		}), 1e-9, ""},
		{"UTC of a known place", write("latitude: 44.5\nlongitude: -73.2\nutc offset: -5\ntime UTC,temp (C)", func(r record) string {
			when := r.when.Add(5 * time.Hour)
			return fmt.Sprintf("%s,%.1f", when.Format("2006-01-02T15:04"), r.dry)
		}), 1e-9, "were moved by −5 h"},
		{"some times that cannot be read, some marks", write("time,temp (F),pressure (hPa),wind", func(r record) string {
			if r.when.Hour() == 5 && r.when.Day() == 3 {
				return "??,12.0,1013,3"
			}
			if r.when.Hour() == 9 && r.when.Day() == 3 {
				return r.when.Format("2006-01-02 15:04") + ",-999,1013,3"
			}
			return fmt.Sprintf("%s,%.2f,1013,3", r.when.Format("2006-01-02 15:04"), r.dry*1.8+32)
		}), 0.5, "12 rows have a time that cannot be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			y, err := weather.Parse([]byte(c.data), weather.Place{})
			if err != nil {
				t.Fatal(err)
			}
			sound(t, y)
			if y.Origin != weather.FromCSV {
				t.Errorf("taken for a %s", y.Origin)
			}
			for i, r := range rows {
				if math.Abs(y.DryBulb[i]-r.dry) > c.within {
					t.Fatalf("hour %d is %v, want %v; %q", i, y.DryBulb[i], r.dry, y.Report.Findings)
				}
			}
			if y.Wind != nil {
				within(t, "wind", y.Wind[5000], 3, 0.01)
			}
			if got := strings.Join(y.Report.Findings, "\n"); !strings.Contains(got, c.find) || (c.find == "" && got != "") {
				t.Errorf("findings %q, want %q", got, c.find)
			}
		})
	}
}

func TestTablesThatCannotBeRead(t *testing.T) {
	line := "\n2001-01-01 00:00,5\n"
	for _, c := range []struct{ data, want string }{
		{"time,humidity (%)" + line, "no heading with an outdoor temperature"},
		{"time,temp" + line, `column "temp" has no unit: write it as "temp (°F)"`},
		{"time,outdoor temperature (W)" + line, "not one of temperature"},
		{"time,temp (C)" + line, "8759 of 8760 hours have no dry bulb"},
		{"temp (C)\n5\n6\n", "no column of times and 2 rows; accepted: 8760 or 8784"},
		{"time,temp (C)\nnever,5\nneither,6\n", "2 of 2 rows have a time that cannot be read, the first in line 2"},
		{"date;temp (C)\n2001-01-01;5,5\n2001-01-02;5.5\n", "1 values have a decimal comma and 1 a decimal point"},
		{"date,temp (C)\n13/01/2001,5\n01/13/2001,6\n", "some dates begin with the day and some with the month"},
		{"latitude: 200\nlongitude: 3\ntime,temp (C)" + line, "latitude 200 is not between"},
		{"time,temp (C)" + strings.Repeat(",x", 500) + line, "columns; accepted: up to 400"},
	} {
		y, err := weather.Parse([]byte(c.data), weather.Place{})
		if err == nil || y != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want a sentence with %q", err, c.want)
		}
	}
}

// A table survives being written with any unit, separator and decimal sign.
func TestTableRoundTrip(t *testing.T) {
	smooth := records(2001)
	rapid.Check(t, func(t *rapid.T) {
		rows := slices.Clone(smooth)
		unit := rapid.SampledFrom([]string{"°C", "F", "K"}).Draw(t, "unit")
		sep := rapid.SampledFrom([]string{";", "\t", "|"}).Draw(t, "separator")
		comma := rapid.Bool().Draw(t, "decimal comma")
		shift := rapid.Float64Range(-20, 10).Draw(t, "shift")
		var b strings.Builder
		fmt.Fprintf(&b, "when: ignored\ndate%stemp (%s)\n", sep, unit)
		for _, r := range rows {
			v := units.Celsius(r.dry + shift)
			x := map[string]float64{"°C": v.Celsius(), "F": v.Fahrenheit(), "K": float64(v)}[unit]
			s := fmt.Sprintf("%.4f", x)
			if comma {
				s = strings.Replace(s, ".", ",", 1)
			}
			fmt.Fprintf(&b, "%s%s%s\n", r.when.Format("2006-01-02 15:04"), sep, s)
		}
		y, err := weather.ParseCSV([]byte(b.String()), weather.Place{})
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range rows {
			if math.Abs(y.DryBulb[i]-r.dry-shift) > 1e-4 {
				t.Fatalf("hour %d: %v, want %v", i, y.DryBulb[i], r.dry+shift)
			}
		}
	})
}
