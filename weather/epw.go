package weather

// EPW: eight lines of heading, then a row for each hour with its columns in a fixed
// order.

import (
	"fmt"
	"slices"
	"strings"

	"curvewright/units"
)

// ParseEPW reads an EPW weather file.
//
// Units: as the format has them: °C, Wh/m² in the hour, m/s; degrees, metres and hours
// in the heading.
// Range: one record an hour; 8,760 or 8,784 hours. Gaps up to 72 h are bridged and
// counted in the report.
// Source: the format's data dictionary: columns 7, 8, 14, 15, 16 and 22, missing from
// 99.9, 9999 and 999; hour 1 ends at one o'clock, local standard time.
// Errors: no EPW heading, a place that cannot be, several records an hour, gaps that
// are too long.
func ParseEPW(data []byte) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	const form = "EPW file"
	var buf []string
	var at Place
	var quoted Quoted
	for line := 1; line <= 8; line++ {
		var s string
		s, text = nextLine(text)
		buf = cells(s, ',', buf)
		switch strings.ToUpper(buf[0]) {
		case "LOCATION":
			if len(buf) < 10 {
				return nil, fmt.Errorf("%s, line %d: LOCATION has %d fields, not 10", form, line, len(buf))
			}
			at.Name = placeName(buf[1], buf[2], buf[3])
			if err := at.located(number(buf[6]), number(buf[7]), number(buf[9]), number(buf[8])); err != nil {
				return nil, fmt.Errorf("%s, line %d: %w", form, line, err)
			}
		case "DESIGN CONDITIONS":
			quoted = quotedDesign(buf)
		case "DATA PERIODS":
			if len(buf) > 2 && whole(buf[2]) > 1 {
				return nil, fmt.Errorf("%s, line %d: %s records an hour; accepted: one", form, line, clip(buf[2]))
			}
		}
		if line == 1 && !at.Located {
			return nil, fmt.Errorf("%s, line 1: it begins with %q, not with LOCATION", form, clip(buf[0]))
		}
	}
	g := newGrid(dryBulb, dewPoint, global, direct, diffuse, wind)
	g.offsetMeridian(at)
	const fewest = 22
	for line := 9; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if strings.TrimSpace(s) == "" {
			continue
		}
		buf = cells(s, ',', buf)
		if len(buf) < fewest {
			return nil, fmt.Errorf("%s, line %d: %d columns, at least %d are needed", form, line, len(buf), fewest)
		}
		i, ok := hourIndex(whole(buf[1]), whole(buf[2]), whole(buf[3])-1)
		if !ok {
			return nil, fmt.Errorf("%s, line %d: month %s, day %s, hour %s is no hour of a year (hours run from 1 to 24)",
				form, line, clip(buf[1]), clip(buf[2]), clip(buf[3]))
		}
		g.row(i, whole(buf[0]))
		g.put(i, dryBulb, number(buf[6]))
		g.put(i, dewPoint, number(buf[7]))
		g.put(i, global, number(buf[13]))
		g.put(i, direct, number(buf[14]))
		g.put(i, diffuse, number(buf[15]))
		g.put(i, wind, number(buf[21]))
	}
	y, err := g.finish(at, FromEPW)
	if err == nil {
		y.Quoted = quoted
	}
	return y, err
}

// quotedDesign takes the heating design temperatures from the heading, where they stand
// after the word Heating and the coldest month, 99.6 % before 99 %.
func quotedDesign(fields []string) Quoted {
	at := slices.Index(fields, "Heating")
	if at < 3 || at+3 >= len(fields) {
		return Quoted{}
	}
	t996, t99 := number(fields[at+2]), number(fields[at+3])
	l := limits[dryBulb]
	if !(t996 >= l.min && t996 <= t99 && t99 <= l.max) {
		return Quoted{}
	}
	return Quoted{Source: clip(fields[2]), Heating99: units.Celsius(t99), Heating996: units.Celsius(t996)}
}

// placeName joins what a heading gives for a place.
func placeName(parts ...string) string {
	var said []string
	for _, p := range parts {
		if p = clip(p); p != "" && p != "-" {
			said = append(said, p)
		}
	}
	return strings.Join(said, ", ")
}
