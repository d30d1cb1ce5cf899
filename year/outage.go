package year

// The boiler stands still on the coldest night: how long until the rooms, and the pipes
// in them, are in danger?

import (
	"cmp"
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
	Spaces  []PipeSpace       // where pipes run outside the heated shell
	Notice  units.Time        // that an alarm should leave; 0 means 12 hours
}

// PipeSpace is a garage, a crawl space, an attic with heating pipes in it.
type PipeSpace struct {
	Name string
	// Colder is by which share of the difference between house and outdoors it is colder
	// than the house: 1 for outdoors.
	Colder units.Fraction
	// Follows is the time constant with which standing water in its pipes follows its air.
	Follows units.Time
}

// RoomOutage is what becomes of a room.
type RoomOutage struct {
	Name    string
	Start   units.Temperature // when the burner stopped
	Chilly  units.Time        // until 5 °C (41 °F): pipes in outer walls are in danger
	Freezes units.Time        // until 0 °C (32 °F)
	// Whether it came so far at all within the time.
	IsChilly, IsFrozen bool
	// Alarm is what an alarm there must be set to for the notice asked for before 5 °C is
	// reached; Start where even that is too late.
	Alarm units.Temperature
}

const (
	chilly      = zeroCelsius + 5
	freezing    = zeroCelsius
	longestLook = 10 * 24 // h
	settleDays  = 21
	usualNotice = 12 * hour
)

// Fail plays steady cold weather until the house has settled, stops the burner, and
// tells when each room and then each pipe space reaches 5 °C and 0 °C. There is no sun.
// Of a pipe space it is the water in the pipe: while a pump runs, what returns to the
// boiler; then it follows the air of the space,
//
//	T_space = To + (1 − colder)·(T_house − To), dT/dt = (T_space − T)/τ
//
// with the house at the mean of its rooms by their losses.
//
// Water that stands in outer walls, in corners and in unheated spaces freezes before the
// air of its room does.
//
// Units: K and s.
// Range: outdoors −60 to 15 °C, up to 60 days; otherwise as [Run].
// Source: as [Run]; temperature of unheated spaces by a reduction factor, EN 12831. 5 °C
// as the limit for pipes: common practice.
// Errors: as [Run].
func Fail(h House, p Plant, s Settings, f Outage) ([]RoomOutage, error) {
	hours := longestLook
	if f.Longest != 0 {
		hours = int(float64(f.Longest)/hour + 0.5)
	}
	if hours < 1 || hours > 60*24 {
		return nil, fmt.Errorf("outage: %s to look at given; accepted: 1 hour to 60 days", refuse.Both(f.Longest))
	}
	if f.Notice == 0 {
		f.Notice = usualNotice
	}
	if err := f.check(); err != nil {
		return nil, fmt.Errorf("outage: %w", err)
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
	c := m.newCooling(h, f)
	for i := range hours {
		trace.Rows = 0
		t.playHour(i, true)
		for row := range trace.Rows {
			c.note(trace.Values[row*columns : (row+1)*columns])
		}
	}
	return c.places, nil
}

func (f Outage) check() error {
	err := cmp.Or(refuse.Within("outdoor temperature", f.Outdoor, units.Celsius(-60), units.Celsius(15)), refuse.Within("notice", f.Notice, 0, mostTime))
	for _, s := range f.Spaces {
		if e := cmp.Or(refuse.Within("share by which it is colder", s.Colder, 0, 1), refuse.Within("time constant of its pipes", s.Follows, 60, mostTime)); e != nil {
			err = cmp.Or(err, fmt.Errorf("pipe space %q: %w", s.Name, e))
		}
	}
	return err
}

// cooling watches a house without heat, minute by minute.
type cooling struct {
	f       Outage
	places  []RoomOutage // rooms, then pipe spaces
	weight  []float64    // of each room in the house's mean
	history [][]float64  // of every place, from the moment when the burner stopped
}

func (m *model) newCooling(h House, f Outage) *cooling {
	c := &cooling{f: f}
	add := func(name string, start float64) {
		c.places = append(c.places, RoomOutage{Name: name, Start: units.Temperature(start), Alarm: units.Temperature(start)})
		c.history = append(c.history, []float64{start})
	}
	sum := 0.0
	for i, r := range h.Rooms {
		add(r.Name, m.rooms[i].air)
		loss := float64(r.Loss.Coefficient())
		for _, fabric := range r.Fabric {
			loss += float64(fabric.Loss.Coefficient())
		}
		c.weight = append(c.weight, loss)
		sum += loss
	}
	for i := range c.weight {
		if c.weight[i] /= sum; sum == 0 {
			c.weight[i] = 1 / float64(len(c.weight))
		}
	}
	for _, s := range f.Spaces {
		add(s.Name, m.boiler.back)
	}
	return c
}

// note takes a row of the trace: the next minute.
func (c *cooling) note(row []float64) {
	rooms := row[len(row)-len(c.weight):]
	house := 0.0
	for i, w := range c.weight {
		house += w * rooms[i]
	}
	outdoor, back := row[0], row[2]
	for k := range c.places {
		before := c.history[k][len(c.history[k])-1]
		now := back
		switch space := k - len(rooms); {
		case space < 0:
			now = rooms[k]
		case !c.f.Pumps:
			s := c.f.Spaces[space]
			air := outdoor + (1-float64(s.Colder))*(house-outdoor)
			now = before + part(minute, float64(s.Follows))*(air-before)
		}
		c.history[k] = append(c.history[k], now)
		c.pass(k, before, now)
	}
}

// pass notes when a place went through a limit in the minute that was noted last.
func (c *cooling) pass(k int, from, to float64) {
	p, h := &c.places[k], c.history[k]
	through := func(limit float64) units.Time {
		share := 0.0
		if from > limit {
			share = (from - limit) / (from - to)
		}
		return units.Time((float64(len(h)-2) + share) * minute)
	}
	if !p.IsChilly && to <= chilly {
		p.IsChilly, p.Chilly = true, through(chilly)
		if ahead := int(float64(p.Chilly-c.f.Notice) / minute); ahead >= 0 {
			p.Alarm = units.Temperature(h[ahead])
		}
	}
	if !p.IsFrozen && to <= freezing {
		p.IsFrozen, p.Freezes = true, through(freezing)
	}
}
