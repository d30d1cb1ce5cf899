package weather_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"curvewright/units"
	"curvewright/weather"

	"pgregory.net/rapid"
)

// climateOf takes from a real year what a climate table would give.
func climateOf(y *weather.Year) weather.Climate {
	return weather.Climate{Place: y.Place, Monthly: y.MonthlyMeans(), Range: y.DailyRanges(), Design: y.DesignTemperature(weather.Design99)}
}

func TestMadeUpAgainstTypicalYears(t *testing.T) {
	for _, c := range typical {
		t.Run(c.file, func(t *testing.T) {
			real := readTypical(t, c.file)
			// The allowances state how far a made-up year is from a real one, as shares.
			degreeDays, freezing, class, sun := 0.04, 0.18, 0.05, 0.12
			if c.origin == weather.FromTMY3 { // an island: its winter lies at freezing
				degreeDays, freezing, class, sun = 0.01, 0.34, 0.08, 0.16
			}
			for seed := range uint64(8) {
				y, err := climateOf(real).MakeUp(seed)
				if err != nil {
					t.Fatal(err)
				}
				base, zero := units.Celsius(18.333), units.Celsius(0)
				want := kelvinDays(real.DegreeDays(base))
				within(t, "degree-days", kelvinDays(y.DegreeDays(base)), want, degreeDays*want)
				want = inHours(real.HoursBetween(units.Celsius(-80), zero))
				within(t, "hours below freezing", inHours(y.HoursBetween(units.Celsius(-80), zero)), want, freezing*want)
				for c := -40.0; c < 40; c += 5 {
					from, to := units.Celsius(c), units.Celsius(c+5)
					within(t, "hours of a class", inHours(y.HoursBetween(from, to)), inHours(real.HoursBetween(from, to)), class*8760)
				}
				within(t, "99.6 %", float64(y.DesignTemperature(weather.Design996)), float64(real.DesignTemperature(weather.Design996)), 5)
				within(t, "sun", y.SunOfYear(), real.SunOfYear(), sun*real.SunOfYear())
			}
		})
	}
}

var duluthLike = weather.Climate{
	Place:   weather.Place{Name: "Tamarack Hollow", Latitude: 46.5, Longitude: -91.5, UTCOffset: -6, Located: true},
	Monthly: celsius(-12, -9, -3, 4, 11, 16, 19, 18, 13, 6, -2, -10),
	Range:   kelvins(10, 10, 10, 11, 12, 12, 11, 11, 10, 9, 8, 9),
	Design:  units.Celsius(-26),
}

func celsius(x ...float64) (out [12]units.Temperature) {
	for i, v := range x {
		out[i] = units.Celsius(v)
	}
	return out
}

func kelvins(x ...float64) (out [12]units.Difference) {
	for i, v := range x {
		out[i] = units.Kelvins(v)
	}
	return out
}

func TestMadeUpYearMeetsItsClimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := duluthLike
		warmer := rapid.Float64Range(-5, 15).Draw(t, "warmer")
		for m := range c.Monthly {
			c.Monthly[m] = c.Monthly[m].Add(units.Kelvins(warmer + rapid.Float64Range(-2, 2).Draw(t, "month")))
			c.Range[m] = units.Kelvins(rapid.Float64Range(9, 14).Draw(t, "range"))
		}
		c.Design = slices.Min(c.Monthly[:]).Add(units.Kelvins(rapid.Float64Range(-14, -11).Draw(t, "design")))
		y, err := c.MakeUp(rapid.Uint64().Draw(t, "seed"))
		if err != nil {
			t.Fatal(err)
		}
		if !y.MadeUp() || len(y.Report.Findings) == 0 || !strings.Contains(y.Report.Findings[0], "made up") {
			t.Fatal("the year does not say that it is made up")
		}
		for m, got := range y.MonthlyMeans() {
			if d := math.Abs(float64(got - c.Monthly[m])); d > 0.05 {
				t.Errorf("mean of month %d is %.3f K off", m+1, d)
			}
		}
		for m, got := range y.DailyRanges() {
			if d := math.Abs(float64(got - c.Range[m])); d > 0.5 {
				t.Errorf("daily range of month %d is %.2f K off", m+1, d)
			}
		}
		if d := math.Abs(float64(y.DesignTemperature(weather.Design99) - c.Design)); d > 0.3 {
			t.Errorf("design temperature is %.2f K off", d)
		}
		sound(t, y)
	})
}

func TestMadeUpYearFollowsItsSeedAlone(t *testing.T) {
	one, err := duluthLike.MakeUp(7)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := duluthLike.MakeUp(7)
	other, _ := duluthLike.MakeUp(8)
	if !slices.Equal(one.DryBulb, again.DryBulb) || !slices.Equal(one.Global, again.Global) {
		t.Error("the same seed gave another year")
	}
	if slices.Equal(one.DryBulb, other.DryBulb) {
		t.Error("another seed gave the same year")
	}
	// Cold spells last: a day tells something of the next, not of next month.
	within(t, "correlation of one day with the next", dayCorrelation(one, 1), 0.7, 0.15)
	within(t, "correlation over a month", dayCorrelation(one, 30), 0, 0.2)
}

// dayCorrelation is that of the days' departures from a smooth season.
func dayCorrelation(y *weather.Year, apart int) float64 {
	var days, rest []float64
	for d := range slices.Chunk(y.DryBulb, 24) {
		days = append(days, average(d))
	}
	for i := range days {
		season := 0.0
		for k := -20; k <= 20; k++ {
			season += days[(i+k+365)%365] / 41
		}
		rest = append(rest, days[i]-season)
	}
	same, both := 0.0, 0.0
	for i, v := range rest {
		same += v * v
		both += v * rest[(i+apart)%365]
	}
	return both / same
}

func TestMadeUpRefusals(t *testing.T) {
	for _, c := range []struct {
		change func(*weather.Climate)
		want   string
	}{
		{func(c *weather.Climate) { c.Monthly[1] = units.Celsius(60) }, "mean of February 140 °F (60.0 °C)"},
		{func(c *weather.Climate) { c.Monthly[11] = units.Temperature(math.NaN()) }, "mean of December"},
		{func(c *weather.Climate) { c.Range[3] = 0 }, "daily range of April"},
		{func(c *weather.Climate) { c.Design = units.Celsius(-5) }, "does not fit the monthly means"},
		{func(c *weather.Climate) { c.Design = units.Celsius(-69) }, "does not fit the monthly means"},
		{func(c *weather.Climate) { c.Design = units.Celsius(-80) }, "is not between"},
		{func(c *weather.Climate) { c.Place.Latitude = 460 }, "latitude 460 is not between"},
	} {
		climate := duluthLike
		c.change(&climate)
		y, err := climate.MakeUp(1)
		if err == nil || y != nil || !strings.Contains(spaced(err.Error()), c.want) {
			t.Errorf("got %v, want a sentence with %q", err, c.want)
		}
	}
	nowhere := duluthLike
	nowhere.Place = weather.Place{}
	y, err := nowhere.MakeUp(1)
	if err != nil || y.Global != nil {
		t.Errorf("without a place there must be a year without sun: %v", err)
	}
}

func spaced(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func BenchmarkMakeUpYear(b *testing.B) {
	for b.Loop() {
		if _, err := duluthLike.MakeUp(1); err != nil {
			b.Fatal(err)
		}
	}
}
