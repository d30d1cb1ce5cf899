package weather

// A year where no file is at hand: made up from what any climate table gives, twelve
// monthly means with their daily ranges and a design temperature.

import (
	"fmt"
	"math"
	"math/rand/v2"

	"curvewright/units"
)

// Climate is what a climate table gives for a place.
type Climate struct {
	Place   Place
	Monthly [12]units.Temperature // mean of each month
	Range   [12]units.Difference  // mean of the days' highest less lowest hour, each month
	Design  units.Temperature     // exceeded in 99 % of the hours
}

// The weather of a made-up year. Chosen on typical years of cold stations (Wilcox &
// Marion, NREL/TP-581-43156), against which the tests compare it.
const (
	// persistence is how much of a day's departure from the season is left the next day.
	persistence = 0.65
	// winterShare is by how much days scatter more in the coldest than in the warmest
	// month: (1 + winterShare)/(1 − winterShare).
	winterShare = 0.30
	// coldTail bends the scatter of winter days: cold ones lie farther out than warm.
	coldTail = 0.16
	// clearPersistence and clearScatter are the same of the sky's clearness.
	clearPersistence = 0.30
	clearScatter     = 0.35
	// The hours of the day's lowest and highest temperature.
	lowestHour, highestHour = 6.0, 15.0
)

// MakeUp makes a year of 8,760 hours whose months have the means and daily ranges of
// the climate and whose coldest 87 hours lie below its design temperature. The same
// seed gives the same year. Nobody measured it: its cold spells come on days of its own.
//
//	T(hour) = season + scatter·x(day) + range/2·wave(hour of day)
//	x(day) = 0.65·x(day before) + N(0, 1)·√(1 − 0.65²), bent towards cold
//
// The scatter, larger by winter, is found so that the 99 % temperature is the design
// temperature; season and range so that the months' means and ranges are met. The
// radiation is that above the air times a clearness 0.16·√range, which differs from day
// to day and is split by [Decompose]; without a located place there is none.
//
// Units: kelvin; degrees for the place.
// Range: months −50 to 45 °C, ranges 1 to 30 K; design colder than season and daily
// range alone make it. Means are met to 0.05 K, the design temperature to 0.3 K and
// ranges to 0.5 K, unless the days' scatter alone makes them larger. Against five inland
// typical years degree-days come within 4 %, the hours below freezing within 18 %, the
// hours of a class of 5 K within 5 % of the year and the sun within 12 %. On an island
// whose winter lies at freezing, the hours below freezing come out up to a third too many.
// Source: first-order autoregression of daily means, common practice for made-up years;
// clearness by Hargreaves & Samani, Applied Engineering in Agriculture 1 (1985) 96–99,
// inland; the day's wave of two half cosines is common practice.
// Errors: figures outside the range; a design temperature too mild or too cold for the
// months.
func (c Climate) MakeUp(seed uint64) (*Year, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	m := newMaker(c, rand.New(rand.NewPCG(seed, 0)))
	const widest = 12 // K
	calm, wild := m.design(0), m.design(widest)
	want := c.Design.Celsius()
	if want > calm-0.3 || want < wild {
		return nil, fmt.Errorf("design temperature %s does not fit the monthly means and daily ranges: with them it can lie between %s and %s",
			both(c.Design), both(units.Celsius(wild)), both(units.Celsius(calm-0.3)))
	}
	low, high := 0.0, float64(widest)
	for high-low > 0.004 { // K; the design temperature moves by two or three times that
		mid := (low + high) / 2
		if m.design(mid) > want {
			low = mid
		} else {
			high = mid
		}
	}
	y := &Year{Place: c.Place, Origin: FromMonths, DryBulb: m.hours((low + high) / 2)}
	if got := y.DesignTemperature(Design99).Celsius(); math.Abs(got-want) > 0.3 {
		return nil, fmt.Errorf("design temperature %s cannot be met: the year came to %s; try another seed", both(c.Design), both(units.Celsius(got)))
	}
	y.Report.Findings = []string{"this year is made up from monthly means, daily ranges and a design temperature: nobody measured it"}
	if c.Place.Located {
		y.shine(c, rand.New(rand.NewPCG(seed, 1)))
	}
	return y, nil
}

func (c Climate) check() error {
	for m, t := range c.Monthly {
		if !(t.Celsius() >= -50 && t.Celsius() <= 45) {
			return fmt.Errorf("mean of %s %s is not between %s and %s", monthNames[m], both(t), both(units.Celsius(-50)), both(units.Celsius(45)))
		}
		if r := c.Range[m]; !(r >= 1 && r <= 30) {
			return fmt.Errorf("daily range of %s %s is not between %s and %s", monthNames[m], bothOf(r), bothOf(1), bothOf(30))
		}
	}
	if !(c.Design.Celsius() >= -70 && c.Design.Celsius() <= 30) {
		return fmt.Errorf("design temperature %s is not between %s and %s", both(c.Design), both(units.Celsius(-70)), both(units.Celsius(30)))
	}
	if p := c.Place; p.Located {
		return (&p).located(p.Latitude, p.Longitude, float64(p.Elevation), p.UTCOffset)
	}
	return nil
}

// maker holds what stays the same while the scatter is sought.
type maker struct {
	Climate
	days   [365]float64 // departure of each day, as a share of the scatter
	wave   [24]float64  // of the hours of a day
	season [commonHours]between
}

// between says which two months an hour's middle lies between, and how near to the later.
type between struct {
	month, from, to uint8
	share           float64
}

func newMaker(c Climate, r *rand.Rand) *maker {
	m := &maker{Climate: c}
	coldest, warmest := math.Inf(1), math.Inf(-1)
	for _, t := range c.Monthly {
		coldest, warmest = math.Min(coldest, float64(t)), math.Max(warmest, float64(t))
	}
	x := r.NormFloat64()
	for d := range m.days {
		x = persistence*x + math.Sqrt(1-persistence*persistence)*r.NormFloat64()
		month, _ := dayOf(24*d, false)
		cold := 0.0 // −1 in the warmest month, 1 in the coldest
		if warmest > coldest {
			cold = 1 - 2*(float64(c.Monthly[month])-coldest)/(warmest-coldest)
		}
		m.days[d] = (1 + winterShare*cold) * (x - coldTail*math.Max(0, cold)*(x*x-1))
	}
	for h := range m.wave {
		m.wave[h] = dayWave(float64(h) + 0.5)
	}
	for h := range m.season {
		at := (float64(h)+0.5)/commonHours*12 - 0.5
		k := math.Floor(at)
		month, _ := dayOf(h, false)
		m.season[h] = between{uint8(month), uint8(int(k)+12) % 12, uint8(int(k)+1) % 12, at - k}
	}
	return m
}

func (m *maker) design(scatter float64) float64 {
	y := Year{DryBulb: m.hours(scatter)}
	return y.DesignTemperature(Design99).Celsius()
}

// hours makes the year for one scatter. What the days' scatter does to the months'
// means and ranges is taken back, in a few rounds.
func (m *maker) hours(scatter float64) []float64 {
	const rounds = 10
	var means, ranges [12]float64
	for i := range means {
		means[i], ranges[i] = m.Monthly[i].Celsius(), float64(m.Range[i])
	}
	y := Year{DryBulb: make([]float64, commonHours)}
	for round := 0; ; round++ {
		for h := range y.DryBulb {
			b := &m.season[h]
			mean := means[b.from] + (means[b.to]-means[b.from])*b.share
			span := ranges[b.from] + (ranges[b.to]-ranges[b.from])*b.share
			y.DryBulb[h] = mean + scatter*m.departure(h) + span/2*m.wave[h%24]
		}
		got, spans := y.monthlyMeans(), y.DailyRanges()
		if round == rounds {
			// What is left, some hundredths, is taken off each month as a whole.
			for h := range y.DryBulb {
				k := m.season[h].month
				y.DryBulb[h] += m.Monthly[k].Celsius() - got[k]
			}
			return y.DryBulb
		}
		for i := range means {
			means[i] += m.Monthly[i].Celsius() - got[i]
			ranges[i] = math.Max(0, ranges[i]+0.7*float64(m.Range[i]-spans[i]))
		}
	}
}

// departure runs straight from noon to noon of the days' departures.
func (m *maker) departure(hour int) float64 {
	at := (float64(hour)+0.5)/24 - 0.5
	d := math.Floor(at)
	from, to := m.days[(int(d)+365)%365], m.days[(int(d)+1)%365]
	return from + (to-from)*(at-d)
}

// dayWave goes from −1 at the lowest hour to 1 at the highest and back.
func dayWave(hour float64) float64 {
	const rise = highestHour - lowestHour
	if hour >= lowestHour && hour < highestHour {
		return -math.Cos(math.Pi * (hour - lowestHour) / rise)
	}
	since := math.Mod(hour-highestHour+24, 24)
	return math.Cos(math.Pi * since / (24 - rise))
}

// shine gives the year its sun.
func (y *Year) shine(c Climate, r *rand.Rand) {
	n := len(y.DryBulb)
	y.Global, y.Direct, y.Diffuse = make([]float64, n), make([]float64, n), make([]float64, n)
	x := 0.0
	for h := range n {
		if h%24 == 0 {
			x = clearPersistence*x + math.Sqrt(1-clearPersistence*clearPersistence)*r.NormFloat64()
		}
		month, _ := dayOf(h, false)
		k := 0.16 * math.Sqrt(float64(c.Range[month])) * (1 + clearScatter*x)
		sun := y.Sun(h)
		up := cosDegrees(sun.Zenith)
		if up <= 0 {
			continue
		}
		y.Global[h] = math.Max(0.05, math.Min(0.78, k)) * sun.Extraterrestrial() * up
		y.Direct[h], y.Diffuse[h] = Decompose(sun, y.Global[h])
	}
}

func bothOf(d units.Difference) string { return d.Text(units.US) + " (" + d.Text(units.SI) + ")" }
