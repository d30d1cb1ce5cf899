package weather

// What looks wrong in a year although every single value could be true: swapped or
// shifted columns, a wrong hemisphere, a stuck or jumping sensor.

import (
	"fmt"
	"math"
)

// Where suspicion begins. Common practice of reading such files; each bound lies well
// beyond what the typical years of the tests show.
const (
	dewAbove      = 0.5  // K by which the dew point may stand above the dry bulb
	dewAboveShare = 0.02 // share of hours
	nightSun      = 30.0 // W/m² with the sun's centre 6° below the horizon
	nightShare    = 0.005
	sunApart      = 0.15 // of the year's global radiation
	stuckHours    = 60   // without any change of the dry bulb
	jump          = 20.0 // K from one hour to the next
	hotMean       = 35.0 // °C, hotter than any place lived in
)

func (y *Year) suspicions() []string {
	var out []string
	say := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	n := len(y.DryBulb)

	if y.DewPoint != nil {
		above := 0
		for i, t := range y.DryBulb {
			if y.DewPoint[i] > t+dewAbove {
				above++
			}
		}
		if float64(above) > dewAboveShare*float64(n) {
			say("the dew point stands above the dry bulb in %d hours: are the two columns swapped?", above)
		}
	}

	jumps, stuck, run := 0, 0, 1
	for i := 1; i < n; i++ {
		d := math.Abs(y.DryBulb[i] - y.DryBulb[i-1])
		if d > jump {
			jumps++
		}
		if d == 0 {
			run++
			stuck = max(stuck, run)
		} else {
			run = 1
		}
	}
	if jumps > 0 {
		say("the dry bulb jumps by more than %g K from one hour to the next in %d places: are °C and °F mixed?", jump, jumps)
	}
	if stuck >= stuckHours {
		say("the dry bulb does not change for %d hours", stuck)
	}
	if m := average(y.DryBulb); m > hotMean {
		say("the mean of the year is %.1f °C: is the dry bulb in °F?", m)
	}
	if y.Place.Located && math.Abs(y.Place.Latitude) > 23.5 {
		if m := y.monthlyMeans(); (m[6] < m[0]) == (y.Place.Latitude > 0) {
			say("July is %.1f K warmer than January at latitude %.1f°: is the latitude's sign right, or do the rows begin in another month?",
				m[6]-m[0], y.Place.Latitude)
		}
	}
	return append(out, y.sunSuspicions()...)
}

func (y *Year) sunSuspicions() []string {
	if y.Global == nil || !y.Place.Located {
		return nil
	}
	night, dark, total, apart := 0, 0, 0.0, 0.0
	for i, g := range y.Global {
		sun := y.Sun(i)
		if sun.Zenith > 96 {
			dark++
			if g > nightSun {
				night++
			}
			continue
		}
		total += g
		if y.Direct != nil && y.Diffuse != nil && sun.Zenith < 85 {
			apart += math.Abs(g - y.Diffuse[i] - y.Direct[i]*cosDegrees(sun.Zenith))
		}
	}
	var out []string
	if float64(night) > nightShare*float64(dark) {
		out = append(out, fmt.Sprintf("the sun shines in %d hours of night: are hours or columns shifted, or is the longitude's sign or the UTC offset wrong?", night))
	}
	if apart > sunApart*total && total > 0 {
		out = append(out, fmt.Sprintf("global, direct and diffuse radiation differ by %.0f %% of the year's sum: are columns swapped?", 100*apart/total))
	}
	return out
}
