package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"curvewright/units"
	"curvewright/weather"
)

type weatherCommand struct {
	File      string   `arg:"" help:"Weather file: EPW, TMY3 CSV, NOAA ISD-Lite, ISD or GHCN-hourly, or CSV with named columns; also packed as .gz. - reads from standard input."`
	Base      string   `default:"65 °F" placeholder:"TEMPERATURE" help:"Base of the degree-days, with its unit (65 °F)."`
	Units     string   `enum:"both,us,si" default:"both" help:"us, si or both."`
	Latitude  *float64 `placeholder:"DEGREES" help:"Latitude, north positive, for a file that does not say."`
	Longitude *float64 `placeholder:"DEGREES" help:"Longitude, east positive, for a file that does not say."`
	UTC       *float64 `name:"utc" placeholder:"HOURS" help:"Hours of local standard time ahead of UTC (−5), for a file that does not say."`
}

// largestWeather is far above a year of any kind, with every column.
const largestWeather = 64 << 20

// Run prints what the file says and the lines for a job.
func (c weatherCommand) Run(p *program) error {
	base, err := units.Parse[units.Temperature](c.Base)
	if err != nil {
		return fmt.Errorf("--base: %w", err)
	}
	at, err := c.place()
	if err != nil {
		return err
	}
	data, err := readWeather(c.File)
	if err != nil {
		return err
	}
	y, err := weather.Parse(data, at)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	var b bytes.Buffer
	c.print(&b, y, base)
	_, err = b.WriteTo(p.out)
	return err
}

func (c weatherCommand) place() (weather.Place, error) {
	given := 0
	for _, v := range []*float64{c.Latitude, c.Longitude, c.UTC} {
		if v != nil {
			given++
		}
	}
	switch {
	case given == 0:
		return weather.Place{}, nil
	case given < 3:
		return weather.Place{}, errors.New("a place needs all three: --latitude, --longitude and --utc")
	case !(*c.Latitude >= -90 && *c.Latitude <= 90):
		return weather.Place{}, fmt.Errorf("--latitude %g cannot be used; accepted: −90 to 90", *c.Latitude)
	case !(*c.Longitude >= -180 && *c.Longitude <= 180):
		return weather.Place{}, fmt.Errorf("--longitude %g cannot be used; accepted: −180 to 180", *c.Longitude)
	case !(*c.UTC >= -12 && *c.UTC <= 14):
		return weather.Place{}, fmt.Errorf("--utc %g cannot be used; accepted: −12 to 14", *c.UTC)
	}
	return weather.Place{Latitude: *c.Latitude, Longitude: *c.Longitude, UTCOffset: *c.UTC, Located: true}, nil
}

// readWeather reads a file and unpacks it if it is packed.
func readWeather(name string) ([]byte, error) {
	in := io.Reader(os.Stdin)
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			var p *os.PathError
			if errors.As(err, &p) {
				return nil, fmt.Errorf("cannot open %s: %w", name, p.Err)
			}
			return nil, err
		}
		defer f.Close()
		in = f
	}
	data, err := readAtMost(in)
	if err == nil && bytes.HasPrefix(data, []byte{0x1f, 0x8b}) {
		var z *gzip.Reader
		if z, err = gzip.NewReader(bytes.NewReader(data)); err == nil {
			data, err = readAtMost(z)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, err)
	}
	return data, nil
}

func readAtMost(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, largestWeather+1))
	if err == nil && len(data) > largestWeather {
		err = fmt.Errorf("it is larger than %d MB", largestWeather>>20)
	}
	return data, err
}

// text prints a quantity in the systems asked for, with plain spaces for a terminal.
func (c weatherCommand) text(q units.Quantity) string {
	us, si := q.Text(units.US), q.Text(units.SI)
	s := us + " (" + si + ")"
	switch {
	case c.Units == "us":
		s = us
	case c.Units == "si" || us == si:
		s = si
	}
	return strings.ReplaceAll(s, "\u00a0", " ")
}

func (c weatherCommand) print(b *bytes.Buffer, y *weather.Year, base units.Temperature) {
	place := y.Place.Name
	if place == "" {
		place = "place not named"
	}
	fmt.Fprintf(b, "%s\n%s, %d hours", place, y.Origin, len(y.DryBulb))
	if p := y.Place; p.Located {
		fmt.Fprintf(b, ", latitude %.2f°, longitude %.2f°, elevation %s, UTC offset %g h", p.Latitude, p.Longitude, c.text(p.Elevation), p.UTCOffset)
	}
	b.WriteString("\n\nWhat the file holds\n")
	for _, r := range y.Report.Columns {
		fmt.Fprintf(b, "  %s\n", r.Text())
	}
	for _, f := range y.Report.Findings {
		fmt.Fprintf(b, "  Note: %s\n", f)
	}

	line := func(what, value string) { fmt.Fprintf(b, "  %-42s %s\n", what, value) }
	b.WriteString("\nDesign temperatures\n")
	line("99 % of the hours are warmer than", c.text(y.DesignTemperature(weather.Design99)))
	line("99.6 %", c.text(y.DesignTemperature(weather.Design996)))
	design, how := y.DesignTemperature(weather.Design99), "99 % of this file's hours"
	if y.Quoted.Source != "" {
		line("99 % quoted in the file", c.text(y.Quoted.Heating99))
		line("99.6 % quoted in the file", c.text(y.Quoted.Heating996))
		line("quoted from", y.Quoted.Source)
		design, how = y.Quoted.Heating99, "99 % as quoted in the file"
	}
	low, high := y.Extremes()
	line("lowest and highest hour", c.text(low)+" and "+c.text(high))
	cold := y.ColdestDay()
	line(fmt.Sprintf("coldest day, %d/%d (month/day), mean", cold.Month, cold.Day), c.text(cold.Mean))
	b.WriteString("  One typical year is milder than the record of decades: prefer a published\n  design temperature, or the local code's.\n")

	fmt.Fprintf(b, "\nDegree-days below %s\n", c.text(base))
	line("from the mean of each day's hours", c.text(y.DegreeDays(base)))
	line("from each day's maximum and minimum", c.text(y.DegreeDaysMaxMin(base)))

	b.WriteString("\nMonths                          mean   daily range\n")
	ranges := y.DailyRanges()
	names := strings.Fields("January February March April May June July August September October November December")
	for m, t := range y.MonthlyMeans() {
		fmt.Fprintf(b, "  %-12s %22s   %s\n", names[m], c.text(t), c.text(ranges[m]))
	}
	fmt.Fprintf(b, "  %-12s %22s\n", "Year", c.text(y.Mean()))
	if y.Global != nil {
		sun := units.Energy(y.SunOfYear())
		fmt.Fprintf(b, "\nSun on level ground: %.0f kWh/m² in the year\n", float64(sun)/3.6e6)
	}

	c.printBins(b, y)
	b.WriteString("\nFor a job")
	fmt.Fprintf(b, " (design temperature: %s)\nsite:\n  design_outdoor: %s\n  annual_mean: %s\n", how, c.entry(design), c.entry(y.Mean()))
	if y.Place.Located && y.Place.Elevation != 0 {
		fmt.Fprintf(b, "  elevation: %s\n", c.entry(y.Place.Elevation))
	}
}

// printBins takes classes of 5 °F, or of 2 K where only SI is asked for.
func (c weatherCommand) printBins(b *bytes.Buffer, y *weather.Year) {
	edge, width := units.Fahrenheit(0), units.FahrenheitDifference(5)
	if c.Units == "si" {
		edge, width = units.Celsius(0), units.Kelvins(2)
	}
	bins, err := y.Bins(edge, width)
	if err != nil {
		return // these widths are always accepted
	}
	b.WriteString("\nHours by outdoor temperature\n")
	most := 1.0
	for _, bin := range bins {
		most = max(most, float64(bin.Hours))
	}
	for _, bin := range bins {
		bar := strings.Repeat("#", int(30*float64(bin.Hours)/most+0.5))
		fmt.Fprintf(b, "  %20s to %-20s %5.0f h  %s\n", c.text(bin.From), c.text(bin.To), float64(bin.Hours)/3600, bar)
	}
}

// entry writes a value as a job document takes it.
func (c weatherCommand) entry(q units.Quantity) string {
	s := q.Text(units.US)
	if c.Units == "si" {
		s = q.Text(units.SI)
	}
	s = strings.NewReplacer("\u00a0", " ", "−", "-").Replace(s)
	if strings.ContainsAny(s, ",") {
		return `"` + s + `"`
	}
	return s
}
