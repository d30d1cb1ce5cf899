package hotwater

// When and how much hot water does a household draw in a day? The draw patterns by
// which water heaters are rated, as data.

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Draw is one opening of a tap.
type Draw struct {
	At     units.Time // after midnight
	Energy units.Energy
	Volume units.Volume // at the tap, at Wanted
	Flow   units.Flow   // at the tap
	Wanted units.Temperature
}

// Pattern is a day of draws. Energy and volume belong together at the pattern's own
// cold water; with colder water the same volumes take more heat.
type Pattern struct {
	Name   string
	Cold   units.Temperature
	Draws  []Draw
	Source string
}

// Energy gives the day's sum of the draws.
//
// Range: every pattern.
// Source: sum of the draws.
func (p Pattern) Energy() units.Energy {
	sum := units.Energy(0)
	for _, d := range p.Draws {
		sum += d.Energy
	}
	return sum
}

// Volume gives the day's sum of the draws at the taps.
//
// Range: every pattern.
// Source: sum of the draws.
func (p Pattern) Volume() units.Volume {
	sum := units.Volume(0)
	for _, d := range p.Draws {
		sum += d.Volume
	}
	return sum
}

// The European patterns: kinds of draw by energy, with flow and rise at the tap.
type tapping struct {
	kWh    float64
	litres float64 // per minute
	rise   float64 // K above 10 °C
}

var (
	small  = tapping{0.105, 3, 30}
	wash   = tapping{0.315, 4, 45} // dish-washing by hand
	dishes = tapping{0.735, 4, 45}
	shower = tapping{1.4, 6, 30}
	long   = tapping{1.82, 6, 30} // a long shower
	bath   = tapping{3.605, 10, 30}
	deep   = tapping{4.42, 10, 30} // a large bath
)

type european struct {
	clock string
	tapping
}

const europeanSource = "Regulation (EU) 812/2013 Annex VII table 3 and EN 16147: times, energies and flows; rise 30 K, for dishes 45 K, above 10 °C"

func europeanPattern(name string, draws []european) Pattern {
	const cold = units.Temperature(273.15 + 10)
	p := Pattern{Name: name, Cold: cold, Source: europeanSource, Draws: make([]Draw, len(draws))}
	for i, d := range draws {
		wanted := cold + units.Temperature(d.rise)
		energy := units.KilowattHours(d.kWh)
		p.Draws[i] = Draw{At: clock(d.clock), Energy: energy, Flow: units.LitresPerMinute(d.litres), Wanted: wanted,
			Volume: units.Volume(float64(energy) / (perVolume(cold, wanted) * d.rise))}
	}
	return p
}

// clock reads the times of the tables in this file.
func clock(hhmm string) units.Time {
	var h, m int
	if n, err := fmt.Sscanf(hhmm, "%d:%d", &h, &m); n != 2 || err != nil {
		panic("hot water: a table holds the time " + hhmm)
	}
	return units.Time(h*3600 + m*60)
}

// EUMedium gives the European pattern M: 5.845 kWh in 23 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 10 °C.
// Source: EU 812/2013 Annex VII table 3; EN 16147.
func EUMedium() Pattern {
	return europeanPattern("EU M", []european{
		{"7:00", small}, {"7:05", shower}, {"7:30", small}, {"8:01", small}, {"8:15", small}, {"8:30", small}, {"8:45", small},
		{"9:00", small}, {"9:30", small}, {"10:30", small}, {"11:30", small}, {"11:45", small}, {"12:45", wash}, {"14:30", small},
		{"15:30", small}, {"16:30", small}, {"18:00", small}, {"18:15", small}, {"18:30", small}, {"19:00", small},
		{"20:30", dishes}, {"21:15", small}, {"21:30", shower},
	})
}

// EULarge gives the European pattern L: 11.655 kWh in 24 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 10 °C.
// Source: EU 812/2013 Annex VII table 3; EN 16147.
func EULarge() Pattern {
	return europeanPattern("EU L", []european{
		{"7:00", small}, {"7:05", shower}, {"7:30", small}, {"7:45", small}, {"8:05", bath}, {"8:25", small}, {"8:30", small},
		{"8:45", small}, {"9:00", small}, {"9:30", small}, {"10:30", small}, {"11:30", small}, {"11:45", small}, {"12:45", wash},
		{"14:30", small}, {"15:30", small}, {"16:30", small}, {"18:00", small}, {"18:15", small}, {"18:30", small}, {"19:00", small},
		{"20:30", dishes}, {"21:00", bath}, {"21:30", small},
	})
}

// EUExtraLarge gives the European pattern XL: 19.07 kWh in 30 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 10 °C.
// Source: EU 812/2013 Annex VII table 3; EN 16147.
func EUExtraLarge() Pattern {
	return europeanPattern("EU XL", []european{
		{"7:00", small}, {"7:15", long}, {"7:26", small}, {"7:45", deep}, {"8:01", small}, {"8:15", small}, {"8:30", small},
		{"8:45", small}, {"9:00", small}, {"9:30", small}, {"10:00", small}, {"10:30", small}, {"11:00", small}, {"11:30", small},
		{"11:45", small}, {"12:45", dishes}, {"14:30", small}, {"15:00", small}, {"15:30", small}, {"16:00", small}, {"16:30", small},
		{"17:00", small}, {"18:00", small}, {"18:15", small}, {"18:30", small}, {"19:00", small}, {"20:30", dishes}, {"20:46", deep},
		{"21:15", small}, {"21:30", deep},
	})
}

// american is one draw of the US patterns.
type american struct {
	clock   string
	gallons float64
	gpm     float64
}

const americanSource = "10 CFR 430 subpart B appendix E, from memory; confirm the edition. Cold water 58 °F, outlet 125 °F"

func americanPattern(name string, draws []american) Pattern {
	cold, wanted := units.Fahrenheit(58), units.Fahrenheit(125)
	perDegree := perVolume(cold, wanted)
	p := Pattern{Name: name, Cold: cold, Source: americanSource, Draws: make([]Draw, len(draws))}
	for i, d := range draws {
		volume := units.Gallons(d.gallons)
		p.Draws[i] = Draw{At: clock(d.clock), Volume: volume, Flow: units.GallonsPerMinute(d.gpm), Wanted: wanted,
			Energy: units.Energy(float64(volume) * perDegree * float64(wanted-cold))}
	}
	return p
}

// USLow gives the US draw pattern for low use: 38 gal in 11 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 58 °F, delivered at 125 °F.
// Source: 10 CFR 430 subpart B appendix E, from memory.
func USLow() Pattern {
	return americanPattern("US low", []american{
		{"0:00", 15, 1.7}, {"0:30", 2, 1}, {"1:00", 1, 1}, {"10:30", 6, 1.7}, {"11:30", 4, 1.7}, {"12:00", 1, 1}, {"12:45", 1, 1},
		{"12:50", 1, 1}, {"16:15", 2, 1}, {"16:45", 2, 1.7}, {"17:00", 3, 1.7},
	})
}

// USMedium gives the US draw pattern for medium use: 55 gal in 12 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 58 °F, delivered at 125 °F.
// Source: 10 CFR 430 subpart B appendix E, from memory.
func USMedium() Pattern {
	return americanPattern("US medium", []american{
		{"0:00", 15, 1.7}, {"0:30", 2, 1}, {"1:40", 9, 1.7}, {"10:30", 9, 1.7}, {"11:30", 5, 1.7}, {"12:00", 1, 1}, {"12:45", 1, 1},
		{"12:50", 1, 1}, {"16:00", 1, 1}, {"16:15", 2, 1}, {"16:45", 2, 1.7}, {"17:00", 7, 1.7},
	})
}

// USHigh gives the US draw pattern for high use: 84 gal in 14 draws.
//
// Units: energies, volumes, flows, temperatures as their types.
// Range: cold water of 58 °F, delivered at 125 °F.
// Source: 10 CFR 430 subpart B appendix E, from memory.
func USHigh() Pattern {
	return americanPattern("US high", []american{
		{"0:00", 27, 3}, {"0:30", 2, 1}, {"0:40", 1, 1}, {"1:40", 9, 1.7}, {"10:30", 15, 3}, {"11:30", 5, 1.7}, {"12:00", 1, 1},
		{"12:45", 1, 1}, {"12:50", 1, 1}, {"16:00", 2, 1}, {"16:15", 2, 1}, {"16:30", 2, 1.7}, {"16:45", 2, 1.7}, {"17:00", 14, 3},
	})
}

// Patterns gives all patterns, the smallest first within each continent.
//
// Range: the six patterns of this package.
// Source: EU 812/2013; 10 CFR 430 subpart B appendix E, from memory.
func Patterns() []Pattern {
	return []Pattern{EUMedium(), EULarge(), EUExtraLarge(), USLow(), USMedium(), USHigh()}
}

// minutesOfDay is how finely a day is played.
const minutesOfDay = 1440

// Timeline is a pattern spread over the minutes of a day. Make one with
// [Pattern.Timeline] and keep it: a day can be played on it any number of times.
type Timeline struct {
	volume [minutesOfDay]float64 // at the taps, m³
	wanted [minutesOfDay]float64 // K, weighted by volume where two taps run
	open   [minutesOfDay]float64 // share of the minute in which a tap runs
}

// Timeline spreads the draws over the minutes of the day; a draw that runs past
// midnight ends in the morning of the same pattern. Where two taps run in one minute,
// the temperature wanted is the mean weighted by volume, and the longer one counts.
//
// Units: as [Draw].
// Range: 1 to 1000 draws of 0.01 L to 1 m³, flow to 300 L/min, wanted up to 95 °C and
// above the cold water.
// Source: the draws, minute by minute.
// Errors: a draw outside the range.
func (p Pattern) Timeline() (*Timeline, error) {
	if len(p.Draws) == 0 || len(p.Draws) > 1000 {
		return nil, &refuse.Error{Subject: subject, What: "draws of the pattern " + p.Name, Given: fmt.Sprint(len(p.Draws)), Accept: "1 to 1000"}
	}
	t := &Timeline{}
	for _, d := range p.Draws {
		err := cmp.Or(
			within("time of a draw", d.At, 0, 86400-1),
			within("volume of a draw", d.Volume, 1e-5, 1),
			within("flow of a draw", d.Flow, units.LitresPerMinute(0.1), largestDraw),
			checkRise(p.Cold, d.Wanted),
			within("length of a draw", units.Time(float64(d.Volume)/float64(d.Flow)), 0, 86400),
		)
		if err != nil {
			return nil, err
		}
		t.add(d)
	}
	return t, nil
}

func (t *Timeline) add(d Draw) {
	begin := float64(d.At) / minute
	end := begin + float64(d.Volume)/float64(d.Flow)/minute
	for i := int(begin); float64(i) < end; i++ {
		share := min(end, float64(i+1)) - max(begin, float64(i))
		volume := share * minute * float64(d.Flow)
		m := i % minutesOfDay
		t.wanted[m] = (t.wanted[m]*t.volume[m] + float64(d.Wanted)*volume) / (t.volume[m] + volume)
		t.volume[m] += volume
		t.open[m] = max(t.open[m], share)
	}
}
