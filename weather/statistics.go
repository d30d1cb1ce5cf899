package weather

// What an installer asks of a year: how cold it gets, how much of it is cold, and what
// its months are like.

import (
	"fmt"
	"math"
	"slices"

	"curvewright/units"
)

// The usual design conditions of heating: shares of the year's hours that are warmer.
const (
	Design99  units.Fraction = 0.99
	Design996 units.Fraction = 0.996
)

// DesignTemperature gives the temperature that a share of the year's hours exceeds.
//
//	the hours in order, the coldest first: the one after (1 − share)·hours
//
// Units: kelvin.
// Range: share 0 to 1; of a year of 8,760 h, 99 % leaves 87 h colder, 99.6 % 35 h. A
// typical year is no record of decades: published design temperatures of the stations
// in the tests lie up to 5 K (99 %) and 6 K (99.6 %) colder. Prefer those.
// Source: ASHRAE Handbook Fundamentals, climatic design conditions (definition).
func (y *Year) DesignTemperature(share units.Fraction) units.Temperature {
	sorted := slices.Sorted(slices.Values(y.DryBulb))
	i := int((1 - math.Max(0, math.Min(1, float64(share)))) * float64(len(sorted)) * (1 + 1e-12))
	return units.Celsius(sorted[min(i, len(sorted)-1)])
}

// DegreeDays gives the sum of daily shortfalls below a base, with the day's mean from
// its 24 hours.
//
//	DD = Σ max(0, base − mean of the day)
//
// Units: kelvin; the result in kelvin seconds.
// Range: every base.
// Source: ASHRAE Handbook Fundamentals, degree-days (definition).
func (y *Year) DegreeDays(base units.Temperature) units.DegreeDays {
	return y.degreeDays(base, average)
}

// DegreeDaysMaxMin is [Year.DegreeDays] with the day's mean halfway between its highest
// and its lowest hour, as the US weather service counts.
//
// Units: kelvin; the result in kelvin seconds.
// Range: every base.
// Source: US National Weather Service, degree-days to 65 °F (mean of maximum and
// minimum, from memory).
func (y *Year) DegreeDaysMaxMin(base units.Temperature) units.DegreeDays {
	return y.degreeDays(base, func(day []float64) float64 { return (slices.Max(day) + slices.Min(day)) / 2 })
}

func (y *Year) degreeDays(base units.Temperature, mean func([]float64) float64) units.DegreeDays {
	sum := 0.0
	for day := range slices.Chunk(y.DryBulb, 24) {
		sum += math.Max(0, base.Celsius()-mean(day))
	}
	return units.KelvinDays(sum)
}

// HoursBetween gives the hours of the year with an outdoor temperature from one
// temperature up to, but not including, another.
//
// Units: kelvin; the result in seconds.
// Range: any pair; an interval turned round gives zero.
// Source: count.
func (y *Year) HoursBetween(from, to units.Temperature) units.Time {
	n := 0
	for _, t := range y.DryBulb {
		if k := units.Celsius(t); k >= from && k < to {
			n++
		}
	}
	return units.Hours(float64(n))
}

// Bin is the time with an outdoor temperature from From up to, but not including, To.
type Bin struct {
	From, To units.Temperature
	Hours    units.Time
}

// Bins divides the year into classes of temperature, from the coldest that has an hour
// to the warmest. One edge lies on the temperature given: 0 °F with 5 °F, or 0 °C with
// 1 K.
//
// Units: kelvin; the result in seconds.
// Range: width 0.1 to 50 K.
// Source: bin method, ASHRAE Handbook Fundamentals.
// Errors: a width outside the range.
func (y *Year) Bins(edge units.Temperature, width units.Difference) ([]Bin, error) {
	if !(width >= 0.1 && width <= 50) {
		return nil, fmt.Errorf("width %s of the classes is not between %s and %s", width.Text(units.SI),
			units.Difference(0.1).Text(units.SI), units.Difference(50).Text(units.SI))
	}
	// Values on a class's edge must not fall below it by the rounding of the last bit.
	class := func(t float64) int {
		return int(math.Floor(float64(units.Celsius(t).Sub(edge)/width) + 1e-9))
	}
	first := class(slices.Min(y.DryBulb))
	count := make([]int, class(slices.Max(y.DryBulb))-first+1)
	for _, t := range y.DryBulb {
		count[class(t)-first]++
	}
	out := make([]Bin, len(count))
	for i, n := range count {
		from := edge.Add(width * units.Difference(first+i))
		out[i] = Bin{From: from, To: edge.Add(width * units.Difference(first+i+1)), Hours: units.Hours(float64(n))}
	}
	return out, nil
}

// Mean gives the year's mean outdoor temperature.
//
// Units: kelvin.
// Range: every year.
// Source: mean of the hours.
func (y *Year) Mean() units.Temperature { return units.Celsius(average(y.DryBulb)) }

// MonthlyMeans gives the mean outdoor temperature of each month.
//
// Units: kelvin.
// Range: every year.
// Source: mean of the hours.
func (y *Year) MonthlyMeans() [12]units.Temperature {
	var out [12]units.Temperature
	for m, t := range y.monthlyMeans() {
		out[m] = units.Celsius(t)
	}
	return out
}

func (y *Year) monthlyMeans() [12]float64 {
	var out [12]float64
	from := 0
	for m := range out {
		to := from + 24*monthDays(m, y.leap())
		out[m] = average(y.DryBulb[from:to])
		from = to
	}
	return out
}

// DailyRanges gives, for each month, the mean of its days' highest less lowest hour.
//
// Units: kelvin.
// Range: every year.
// Source: mean over the days of the month.
func (y *Year) DailyRanges() [12]units.Difference {
	var out [12]units.Difference
	hour := 0
	for m := range out {
		days := monthDays(m, y.leap())
		for range days {
			day := y.DryBulb[hour : hour+24]
			out[m] += units.Difference((slices.Max(day) - slices.Min(day)) / float64(days))
			hour += 24
		}
	}
	return out
}

// Day is a day of the year with its mean outdoor temperature.
type Day struct {
	Month, Day int // counted from 1
	Mean       units.Temperature
}

// ColdestDay gives the day with the lowest mean.
//
// Units: kelvin.
// Range: every year.
// Source: mean of the day's hours.
func (y *Year) ColdestDay() Day {
	coldest, at := math.Inf(1), 0
	for i := 0; i < len(y.DryBulb); i += 24 {
		if m := average(y.DryBulb[i : i+24]); m < coldest {
			coldest, at = m, i
		}
	}
	month, day := dayOf(at, y.leap())
	return Day{Month: month + 1, Day: day, Mean: units.Celsius(coldest)}
}

// Extremes gives the lowest and the highest hour.
//
// Units: kelvin.
// Range: every year.
// Source: the hours themselves.
func (y *Year) Extremes() (lowest, highest units.Temperature) {
	return units.Celsius(slices.Min(y.DryBulb)), units.Celsius(slices.Max(y.DryBulb))
}

// SunOfYear gives the global radiation on a square metre of level ground in the year;
// 0 where the year has none.
//
// Units: J/m².
// Range: every year.
// Source: sum of the hours.
func (y *Year) SunOfYear() float64 {
	sum := 0.0
	for _, g := range y.Global {
		sum += g * 3600
	}
	return sum
}

func average(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}
