package weather

// Observations as the US weather archive keeps them: hours in UTC, reports missing
// rather than marked, no radiation.

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"
)

// observe drops an observation at a moment in UTC into the hour that ends nearest to it.
// Local hours beyond the ends of the UTC year come round to its other end.
func (g *grid) observe(year, month, day, hour, minute int, utc float64, put func(i int)) bool {
	if month < 1 || month > 12 || day < 1 || day > monthDays(month-1, isLeap(year)) || hour < 0 || hour > 24 || minute < 0 || minute > 59 || year < 1700 || year > 2400 {
		return false
	}
	t := time.Date(year, time.Month(month), day, hour, minute+30, 0, 0, time.UTC).Add(time.Duration(utc * float64(time.Hour)))
	i, ok := hourIndex(int(t.Month()), t.Day(), t.Hour())
	if !ok {
		return false
	}
	i = before(i, isLeap(t.Year()))
	g.row(i, year)
	put(i)
	return true
}

// observed tells in the report what reading a UTC file decided.
func (g *grid) observed(at Place) {
	switch {
	case !at.Located:
		g.note("the file's hours are UTC and the place is not known: the hours were left in UTC, days begin and end with it")
	case at.UTCOffset != 0:
		g.note("the file's hours are UTC and were moved by %s h to local standard time; the hours moved past the end of the year stand at its other end", plainNumber(at.UTCOffset))
	}
	g.offsetMeridian(at)
}

// ParseISDLite reads one station and year of NOAA ISD-Lite. The file does not say where
// the station is: the place comes with it.
//
// Units: °C, m/s, after the format's scaling by 10; the place in degrees and hours.
// Range: one year. A value is an observation near the full hour; hours without a report
// are gaps, bridged up to 72 h and counted in the report.
// Source: NOAA, ISD-Lite format documentation (2006): year in 1–4, month 6–7, day 9–10,
// hour 12–13, then fields of six from 14; −9999 for missing. The day's and the dew
// point's positions are misprinted there.
// Errors: lines that are no such record, several years, gaps that are too long.
func ParseISDLite(data []byte, at Place) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	g := newGrid(dryBulb, dewPoint, wind)
	g.observed(at)
	for line := 1; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if strings.TrimSpace(s) == "" {
			continue
		}
		if len(s) < 43 {
			return nil, fmt.Errorf("ISD-Lite file, line %d: %d characters, at least 43 are needed", line, len(s))
		}
		tenths := func(from, to int) float64 {
			v := number(strings.TrimSpace(s[from:to]))
			if v == -9999 {
				return math.NaN()
			}
			return v / 10
		}
		ok := g.observe(whole(s[0:4]), whole(s[5:7]), whole(s[8:10]), whole(s[11:13]), 0, at.UTCOffset, func(i int) {
			g.put(i, dryBulb, tenths(13, 19))
			g.put(i, dewPoint, tenths(19, 25))
			g.put(i, wind, tenths(37, 43))
		})
		if !ok {
			return nil, fmt.Errorf("ISD-Lite file, line %d: %q is no hour", line, clip(s[:13]))
		}
	}
	return g.finish(at, FromISDLite)
}

// ParseISD reads one station and year of NOAA's full Integrated Surface Data in its
// fixed-width form. Several reports in an hour are averaged.
//
// Units: °C, m/s, after the format's scaling by 10.
// Range: one year; values that the archive marks as suspect or wrong are left out. The
// file has no UTC offset: it is taken from the place given, or from the longitude.
// Source: NOAA, Federal Climate Complex data documentation for ISD: date 16–23, time
// 24–27 UTC, latitude 29–34, longitude 35–41, elevation 47–51, wind 66–70, air 88–93,
// dew point 94–99; 9999 for missing from memory.
// Errors: lines that are no such record, several years, gaps that are too long.
func ParseISD(data []byte, at Place) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	g := newGrid(dryBulb, dewPoint, wind)
	doubted := 0
	for line := 1; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if strings.TrimSpace(s) == "" {
			continue
		}
		if len(s) < 99 {
			return nil, fmt.Errorf("ISD file, line %d: %d characters, at least 99 are needed", line, len(s))
		}
		if g.rows == 0 {
			at = stationPlace(at, s[4:15], number(s[28:34])/1000, number(s[34:41])/1000, number(s[46:51]), g)
			g.observed(at)
		}
		scaled := func(from, to int, missing float64) float64 {
			v := number(s[from:to])
			switch quality := s[to]; {
			case v == missing:
				return math.NaN()
			case strings.IndexByte("2367", quality) >= 0:
				doubted++
				return math.NaN()
			}
			return v / 10
		}
		ok := g.observe(whole(s[15:19]), whole(s[19:21]), whole(s[21:23]), whole(s[23:25]), whole(s[25:27]), at.UTCOffset, func(i int) {
			g.put(i, dryBulb, scaled(87, 92, 9999))
			g.put(i, dewPoint, scaled(93, 98, 9999))
			g.put(i, wind, scaled(65, 69, 9999))
		})
		if !ok {
			return nil, fmt.Errorf("ISD file, line %d: %q is no moment", line, clip(s[15:27]))
		}
	}
	g.doubt(doubted)
	return g.finish(at, FromISD)
}

// ParseGHCNh reads one station and year of NOAA's GHCN-hourly, values between upright
// strokes under a line of names. Several reports in an hour are averaged.
//
// Units: °C and m/s.
// Range: one year; values that failed the archive's checks are left out. The file has
// no UTC offset: it is taken from the place given, or from the longitude.
// Source: NOAA, GHCN-hourly documentation, from memory: columns Year, Month, Day, Hour,
// Minute or DATE (UTC), temperature, dew_point_temperature and wind_speed, each with a
// Quality_Code; a letter or one of 2, 3, 6, 7 is a value in doubt.
// Errors: no such heading, rows without a moment, several years, gaps that are too long.
func ParseGHCNh(data []byte, at Place) (*Year, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	heading, text := nextLine(text)
	where := map[string]int{}
	for i, name := range cells(heading, '|', nil) {
		where[strings.ToLower(name)] = i
	}
	if _, ok := where["temperature"]; !ok {
		return nil, errors.New("GHCN-hourly file, line 1: no column \"temperature\"")
	}
	var buf []string
	cell := func(name string) string {
		if i, ok := where[name]; ok && i < len(buf) {
			return buf[i]
		}
		return ""
	}
	g := newGrid(dryBulb, dewPoint, wind)
	doubted := 0
	value := func(name string) float64 {
		v := number(cell(name))
		if q := cell(name + "_quality_code"); q != "" && !strings.Contains("01459", q) {
			if !math.IsNaN(v) {
				doubted++
			}
			return math.NaN()
		}
		return v
	}
	for line := 2; text != ""; line++ {
		var s string
		s, text = nextLine(text)
		if strings.TrimSpace(s) == "" {
			continue
		}
		buf = cells(s, '|', buf)
		if g.rows == 0 {
			name := cell("station_name")
			if name == "" {
				name = cell("station_id")
			}
			at = stationPlace(at, name, number(cell("latitude")), number(cell("longitude")), number(cell("elevation")), g)
			g.observed(at)
		}
		year, month, day, hour, minute := whole(cell("year")), whole(cell("month")), whole(cell("day")), whole(cell("hour")), whole(cell("minute"))
		if when, err := time.Parse("2006-01-02T15:04:05", strings.TrimSuffix(cell("date"), "Z")); err == nil {
			year, month, day, hour, minute = when.Year(), int(when.Month()), when.Day(), when.Hour(), when.Minute()
		}
		ok := g.observe(year, month, day, hour, max(0, minute), at.UTCOffset, func(i int) {
			g.put(i, dryBulb, value("temperature"))
			g.put(i, dewPoint, value("dew_point_temperature"))
			g.put(i, wind, value("wind_speed"))
		})
		if !ok {
			return nil, fmt.Errorf("GHCN-hourly file, line %d: no moment can be read", line)
		}
	}
	g.doubt(doubted)
	return g.finish(at, FromGHCNh)
}

func (g *grid) doubt(n int) {
	if n > 0 {
		g.note("%d values are marked as suspect or wrong by the archive and were left out", n)
	}
}

// stationPlace takes what the caller knows of the place, then what the file says.
func stationPlace(at Place, name string, latitude, longitude, elevation float64, g *grid) Place {
	if at.Name == "" {
		at.Name = clip(name)
	}
	if at.Located {
		return at
	}
	if !(elevation >= -450 && elevation <= 9000) {
		elevation = 0
	}
	utc := math.Round(longitude / 15)
	if err := at.located(latitude, longitude, elevation, utc); err == nil {
		g.note("the UTC offset %s h was taken from the longitude; the place's own may differ by an hour", plainNumber(utc))
	}
	return at
}
