package weather

// TMY3: two lines of heading, then a row for each hour; columns are found by name.

import (
	"fmt"
	"strings"
)

// ParseTMY3 reads a typical year of the US National Solar Radiation Data Base in its own
// CSV form.
//
// Units: as the format has them: °C, W/m², m/s; degrees, metres and hours in the
// heading.
// Range: 8,760 hours. Gaps up to 72 h are bridged and counted in the report.
// Source: Wilcox & Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156: time
// 01:00 to 24:00 is the end of the hour in local standard time; −9900 stands for
// missing (from memory).
// Errors: no such heading, a missing column, a place that cannot be, gaps that are too
// long.
func ParseTMY3(data []byte) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	const form = "TMY3 CSV file"
	first, text := nextLine(text)
	buf := cells(first, ',', nil)
	if len(buf) < 7 {
		return nil, fmt.Errorf("%s, line 1: %d fields, not 7 (station, name, state, UTC offset, latitude, longitude, elevation)", form, len(buf))
	}
	at := Place{Name: placeName(buf[1], buf[2])}
	if err := at.located(number(buf[4]), number(buf[5]), number(buf[6]), number(buf[3])); err != nil {
		return nil, fmt.Errorf("%s, line 1: %w", form, err)
	}
	heading, text := nextLine(text)
	where := map[string]int{}
	for i, name := range cells(heading, ',', nil) {
		where[strings.ToLower(name)] = i
	}
	wanted := [columns]string{dryBulb: "dry-bulb (c)", dewPoint: "dew-point (c)", global: "ghi (w/m^2)", direct: "dni (w/m^2)", diffuse: "dhi (w/m^2)", wind: "wspd (m/s)"}
	last := 0
	find := func(name string) (int, error) {
		i, ok := where[name]
		if !ok {
			return 0, fmt.Errorf("%s, line 2: no column %q", form, name)
		}
		last = max(last, i)
		return i, nil
	}
	var place [columns]int
	for c, name := range wanted {
		if place[c], err = find(name); err != nil {
			return nil, err
		}
	}
	date, err := find("date (mm/dd/yyyy)")
	if err != nil {
		return nil, err
	}
	clock, err := find("time (hh:mm)")
	if err != nil {
		return nil, err
	}
	g := newGrid(dryBulb, dewPoint, global, direct, diffuse, wind)
	g.offsetMeridian(at)
	for line := 3; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if strings.TrimSpace(s) == "" {
			continue
		}
		buf = cells(s, ',', buf)
		if len(buf) <= last {
			return nil, fmt.Errorf("%s, line %d: %d columns, at least %d are needed", form, line, len(buf), last+1)
		}
		month, rest, _ := strings.Cut(buf[date], "/")
		day, year, _ := strings.Cut(rest, "/")
		hour, _, _ := strings.Cut(buf[clock], ":")
		i, ok := hourIndex(whole(month), whole(day), whole(hour)-1)
		if !ok {
			return nil, fmt.Errorf("%s, line %d: %s %s is no hour of a year (hours run from 01:00 to 24:00)", form, line, clip(buf[date]), clip(buf[clock]))
		}
		g.row(i, whole(year))
		for c, k := range place {
			g.put(i, column(c), number(buf[k]))
		}
	}
	return g.finish(at, FromTMY3)
}
