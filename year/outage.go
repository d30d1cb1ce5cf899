package year

// The boiler stands still on the coldest night: how long until the rooms, and the pipes
// in them, are in danger?

import (
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Outage is a burner that does not start again.
type Outage struct {
	Outdoor units.Temperature // all the while, and long before
	Longest units.Time        // when to stop looking; 0 means 10 days
	Pumps   bool              // they still run; otherwise the power is out as well
	Gains   bool              // people and appliances go on
}

// RoomOutage is what becomes of a room.
type RoomOutage struct {
	Name    string
	Start   units.Temperature // when the burner stopped
	Chilly  units.Time        // until 5 °C (41 °F): pipes in outer walls are in danger
	Freezes units.Time        // until 0 °C (32 °F)
	// Whether it came so far at all within the time.
	IsChilly, IsFrozen bool
}

const (
	chilly      = zeroCelsius + 5
	freezing    = zeroCelsius
	longestLook = 10 * 24 // h
	settleDays  = 21
)

// Fail plays steady cold weather until the house has settled, stops the burner, and
// tells when each room reaches 5 °C and 0 °C. There is no sun.
//
// Water that stands in outer walls, in corners and in unheated spaces freezes before the
// air of its room does.
//
// Units: K and s.
// Range: outdoors −60 to 15 °C, up to 60 days; otherwise as [Run].
// Source: as [Run]. 5 °C as the limit for pipes: common practice.
// Errors: as [Run].
func Fail(h House, p Plant, s Settings, f Outage) ([]RoomOutage, error) {
	hours := longestLook
	if f.Longest != 0 {
		hours = int(float64(f.Longest)/hour + 0.5)
	}
	if hours < 1 || hours > 60*24 {
		return nil, fmt.Errorf("outage: %s to look at given; accepted: 1 hour to 60 days", refuse.Both(f.Longest))
	}
	if err := refuse.Within("outage: outdoor temperature", f.Outdoor, units.Celsius(-60), units.Celsius(15)); err != nil {
		return nil, err
	}
	facades := 0
	for _, r := range h.Rooms {
		for _, window := range r.Windows {
			facades = max(facades, window.Facade+1)
		}
	}
	w := Steady(f.Outdoor, 1, min(facades, mostFacades))
	columns := len(Columns(h, p))
	trace := Trace{Every: minute, Values: make([]float64, 60*columns)}
	o := Options{Step: minute, Trace: &trace}
	if err := check(h, p, s, w, o); err != nil {
		return nil, err
	}
	m, err := newModel(h, p, s, minute)
	if err != nil {
		return nil, err
	}
	o.Band = usualBand
	t := newTape(m, h, p, w, o)
	m.settleAt(w.Outdoor[0] + zeroCelsius)
	m.restart()
	for i := -settleDays * dayHours; i < 0; i++ {
		t.playHour(i, false)
	}
	m.boiler.dead, m.unpowered = true, !f.Pumps
	if !f.Gains {
		clear(m.gains)
	}
	out := make([]RoomOutage, len(h.Rooms))
	before := make([]float64, len(h.Rooms))
	for i := range out {
		before[i] = m.rooms[i].air
		out[i] = RoomOutage{Name: h.Rooms[i].Name, Start: units.Temperature(before[i])}
	}
	for i := range hours {
		trace.Rows = 0
		t.playHour(i, true)
		for row := range trace.Rows {
			for k := range out {
				now := trace.At(row, columns-len(out)+k)
				out[k].pass(before[k], now, float64(i)*hour+float64(row)*minute)
				before[k] = now
			}
		}
	}
	return out, nil
}

// pass notes when a room's air went through a limit in the minute after a time.
func (r *RoomOutage) pass(from, to, at float64) {
	through := func(limit float64) units.Time {
		share := 0.0
		if from > limit {
			share = (from - limit) / (from - to)
		}
		return units.Time(at + share*minute)
	}
	if !r.IsChilly && to <= chilly {
		r.IsChilly, r.Chilly = true, through(chilly)
	}
	if !r.IsFrozen && to <= freezing {
		r.IsFrozen, r.Freezes = true, through(freezing)
	}
}
