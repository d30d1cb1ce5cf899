package weather_test

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"curvewright/weather"

	"pgregory.net/rapid"
)

func steady(c float64) *weather.Year {
	y := &weather.Year{DryBulb: make([]float64, 8760)}
	for i := range y.DryBulb {
		y.DryBulb[i] = c
	}
	return y
}

func TestDegreeDaysOfADay(t *testing.T) {
	for _, c := range []struct {
		base, mean, want float64
		source           string
	}{
		{18, 15.5, 2.5, "Canadian climate service, definition"},
		{18, 20.5, 0, "Canadian climate service, definition"},
		{18, 10, 8, "Dutch practice, base 18 °C"},
		{18, -4, 22, "Dutch practice, base 18 °C"},
		{18, 20, 0, "Dutch practice, base 18 °C"},
	} {
		within(t, c.source, kelvinDays(steady(c.mean).DegreeDays(units.Celsius(c.base)))/365, c.want, 1e-9)
	}
	// A day whose mean differs from the middle of its ends.
	y := steady(10)
	for i := 0; i < 8760; i += 24 {
		y.DryBulb[i] = 0
	}
	within(t, "mean of hours", kelvinDays(y.DegreeDays(units.Celsius(18)))/365, 18-10*23.0/24, 1e-9)
	within(t, "mean of maximum and minimum", kelvinDays(y.DegreeDaysMaxMin(units.Celsius(18)))/365, 13, 1e-9)
}

func TestDesignHoursOfTheYear(t *testing.T) {
	y := steady(0)
	for i := range y.DryBulb {
		y.DryBulb[(i*7)%8760] = float64(i) / 1000
	}
	below := func(share units.Fraction) float64 {
		return inHours(y.HoursBetween(units.Celsius(-1), y.DesignTemperature(share)))
	}
	within(t, "hours colder than 99 %", below(weather.Design99), 87, 0)
	within(t, "hours colder than 99.6 %", below(weather.Design996), 35, 0)
	within(t, "hours colder than the coldest", below(1), 0, 0)
}

func TestLawsOfStatistics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := steady(0)
		hour := rapid.SliceOfN(rapid.Float64Range(-45, 45), 50, 50).Draw(t, "hours")
		for i := range y.DryBulb {
			y.DryBulb[i] = hour[(i*i+i/24)%50]
		}
		width := units.Kelvins(rapid.Float64Range(0.1, 20).Draw(t, "width"))
		bins, err := y.Bins(units.Celsius(0), width)
		if err != nil {
			t.Fatal(err)
		}
		total := 0.0
		for i, b := range bins {
			total += inHours(b.Hours)
			if i > 0 && math.Abs(float64(b.From-bins[i-1].To)) > 1e-9 {
				t.Fatal("the classes do not join")
			}
			if direct := y.HoursBetween(b.From, b.To); direct != b.Hours && !onEdge(hour, float64(width)) {
				t.Fatalf("class from %v holds %v, counted %v", b.From, b.Hours, direct)
			}
		}
		if total != 8760 {
			t.Fatalf("the classes hold %v hours", total)
		}
		low, high := y.Extremes()
		cold, colder := y.DesignTemperature(weather.Design99), y.DesignTemperature(weather.Design996)
		if colder > cold || colder < low || cold > high || y.ColdestDay().Mean < low || y.ColdestDay().Mean > y.Mean() {
			t.Fatalf("lowest %v, 99.6 %% %v, 99 %% %v, highest %v", low, colder, cold, high)
		}
		base := units.Celsius(rapid.Float64Range(5, 25).Draw(t, "base"))
		less, more := y.DegreeDays(base), y.DegreeDays(base+1)
		if more < less || float64(more-less) > 365*86400+1e-3 {
			t.Fatalf("degree-days %v, a kelvin higher %v", less, more)
		}
	})
}

// onEdge tells whether a temperature lies so near the edge of a class that the last bit
// decides.
func onEdge(hours []float64, width float64) bool {
	for _, c := range hours {
		if math.Abs(c/width-math.Round(c/width)) < 1e-6 {
			return true
		}
	}
	return false
}

func TestMonthsAndColdestDay(t *testing.T) {
	y := steady(5)
	for i := range 24 {
		y.DryBulb[24*(31+9)+i] = -20 + float64(i) // 10 February
	}
	if d := y.ColdestDay(); d.Month != 2 || d.Day != 10 {
		t.Errorf("coldest day %+v, want 10 February", d)
	}
	within(t, "February", y.MonthlyMeans()[1].Celsius(), (27*5-8.5)/28, 1e-9)
	within(t, "January", y.MonthlyMeans()[0].Celsius(), 5, 1e-9)
	within(t, "range of February", float64(y.DailyRanges()[1]), 23.0/28, 1e-9)
	if _, err := y.Bins(0, 0); err == nil || !strings.Contains(err.Error(), "width") {
		t.Errorf("classes without width: %v", err)
	}
}
