package followup

// What each room makes of the curve.

import (
	"fmt"
	"math"

	"curvewright/logs"
	"curvewright/units"
)

// Room is a logged room.
type Room struct {
	Name       string
	Set        units.Temperature // of the survey's room of that name, else of the house
	Surveyed   bool              // the survey has a room of that name
	Mean       Estimate[units.Temperature]
	Cold       Estimate[units.Temperature] // its mean on the coldest fifth of the heated days
	Mild       Estimate[units.Temperature] // on the mildest fifth
	PerOutdoor Estimate[units.Number]      // how much it follows outdoors
	Below      units.Fraction              // of the warm hours: more than a kelvin below the set-point
	Above      units.Fraction              // more than a kelvin above
	Points     []RoomPoint                 // days
	hourly     []float64
}

// RoomPoint is a day of a room.
type RoomPoint struct {
	At      int64
	Outdoor units.Temperature
	Room    units.Temperature
}

const comfort = 1.0 // K about the set-point before anyone says so: common practice

// readRooms looks at rooms on days with heating.
func readRooms(f *frame, c Curve, setOf func(name string) (units.Temperature, bool)) []Room {
	var out []Room
	warm := map[int64]bool{}
	for _, h := range c.Hours {
		if h.Level == Warm || h.Level == Boosted {
			warm[h.At] = true
		}
	}
	n := len(f.hours.out)
	if n == 0 {
		n = len(f.hours.supply)
	}
	for _, column := range f.rooms {
		if n == 0 {
			break
		}
		r := Room{Name: column.name, hourly: f.hourly(n, column.values)}
		r.Set, r.Surveyed = setOf(column.name)
		r.judge(f, warm)
		out = append(out, r)
	}
	return out
}

func (r *Room) judge(f *frame, warm map[int64]bool) {
	below, above, count := 0.0, 0.0, 0.0
	for k, v := range r.hourly {
		at := f.hours.begin + int64(k)*hour
		if math.IsNaN(v) || len(warm) > 0 && !warm[at] {
			continue
		}
		count++
		if v < float64(r.Set)-comfort {
			below++
		} else if v > float64(r.Set)+comfort {
			above++
		}
	}
	if count > 0 {
		r.Below, r.Above = units.Fraction(below/count), units.Fraction(above/count)
	}
	var outs, rooms []float64
	for _, d := range f.days {
		k := int((d.at - f.hours.begin) / hour)
		m := dayMean(r.hourly, k)
		if math.IsNaN(m) || math.IsNaN(d.out) || d.out > float64(r.Set)-4 {
			continue
		}
		outs, rooms = append(outs, d.out), append(rooms, m)
		r.Points = append(r.Points, RoomPoint{d.at, units.Temperature(d.out), units.Temperature(m)})
	}
	how := fmt.Sprintf("%d heated days", len(rooms))
	if len(rooms) < 6 {
		why := "these data cannot tell: fewer than six heated days"
		r.Mean, r.Cold, r.Mild, r.PerOutdoor = unknown[units.Temperature](why), unknown[units.Temperature](why), unknown[units.Temperature](why), unknown[units.Number](why)
		return
	}
	mean, half := byDay(rooms)
	half = math.Hypot(half, 1.645*roomSensor)
	r.Mean = estimate[units.Temperature](mean, mean-half, mean+half, how)
	r.Cold, r.Mild = fifth(outs, rooms, false), fifth(outs, rooms, true)
	r.PerOutdoor = unknown[units.Number]("these data cannot tell: the weather hardly changes")
	if fit, err := Regress(rooms, [][]float64{outs}, true); err == nil {
		if low, high := fit.Interval(1); high-low < 0.6 {
			r.PerOutdoor = estimate[units.Number](fit.Coefficients[1], low, high, how)
		}
	}
}

const roomSensor = 0.3 // K, one standard deviation

// fifth is the mean of the rooms on the coldest or the mildest fifth of the days.
func fifth(outs, rooms []float64, mild bool) Estimate[units.Temperature] {
	sorted := append([]float64{}, outs...)
	median(sorted)
	n := len(sorted)
	border := sorted[n/5]
	if mild {
		border = sorted[n-1-n/5]
	}
	var v []float64
	for i := range outs {
		if !mild && outs[i] <= border || mild && outs[i] >= border {
			v = append(v, rooms[i])
		}
	}
	mean, half := byDay(v)
	if math.IsInf(half, 0) {
		half = 1
	}
	half = math.Hypot(half, 1.645*roomSensor)
	return estimate[units.Temperature](mean, mean-half, mean+half, fmt.Sprintf("%d days", len(v)))
}

// hourOfDay gives the clock's hour of hour k.
func (f *frame) hourOfDay(k int) int { return logs.Clock(f.hours.begin + int64(k)*hour).Hour() }
