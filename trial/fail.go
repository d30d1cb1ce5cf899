package trial

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"curvewright/units"
	"curvewright/year"
)

// The boiler stops on the design night: how much time is there, and what must watch?

// spaces says how much colder than the house the usual pipe spaces are (reduction factors
// of EN 12831:2003, table D.4, from memory; a garage door and a vented attic are as cold as
// outdoors but for a little).
var spaces = map[string]units.Fraction{"garage": 0.8, "crawl space": 0.8, "attic": 0.9, "basement": 0.5, "cellar": 0.5, "porch": 0.9}

const (
	otherSpace = units.Fraction(0.8)
	// barePipe is how fast water in a bare 3/4 in copper pipe follows still air: 1.6 kJ/K
	// and 0.7 W/K for a metre, with 10 W/m²K at its surface (common practice).
	barePipe = units.Time(2250)
	callOut  = units.Time(12 * 3600) // from an alarm until somebody has heat again (common practice)
)

// Failure is a boiler that stops on the design night, with power and without.
type Failure struct {
	Outdoor    units.Temperature
	Burner     []year.RoomOutage // only the burner fails: the pumps go on
	Power      []year.RoomOutage // nothing moves any more
	Notice     units.Time        // that the alarm leaves
	Alarm      units.Temperature // of the room in danger first, 0 if none is
	AlarmRoom  string
	FrostGuard units.Temperature // of a room sensor

	rooms int // how many of the places are rooms
}

// Fail plays both failures under the sheet's settings. Rooms come first, then the places
// outside the heated shell that the job names.
//
// Units: as year.Fail.
// Range: as year.Fail.
// Source: year.Fail; spaces by EN 12831:2003 as far as remembered. The alarm leaves 12
// hours before 41 °F (5 °C): common practice.
// Errors: as year.Fail.
func (t *Trial) Fail() (Failure, error) {
	f := Failure{Outdoor: t.Plan.Design, Notice: callOut, FrostGuard: units.Celsius(7), rooms: len(t.House.Rooms)}
	o := year.Outage{Outdoor: t.Plan.Design, Pumps: true, Notice: callOut}
	for _, name := range t.Plan.Year.Pipes {
		colder, known := spaces[strings.ToLower(name)]
		if !known {
			colder = otherSpace
		}
		o.Spaces = append(o.Spaces, year.PipeSpace{Name: name, Colder: colder, Follows: barePipe})
	}
	var err error
	if f.Burner, err = year.Fail(t.House, t.Plant, t.Settings[0], o); err != nil {
		return f, err
	}
	o.Pumps = false
	if f.Power, err = year.Fail(t.House, t.Plant, t.Settings[0], o); err != nil {
		return f, err
	}
	first := units.Time(0)
	for _, r := range f.Power[:f.rooms] {
		if r.IsChilly && (f.Alarm == 0 || r.Chilly < first) {
			first, f.Alarm, f.AlarmRoom = r.Chilly, r.Alarm, r.Name
		}
	}
	return f, nil
}

// WriteText prints the hours until each place is in danger, and what that asks for.
//
// Units: those of the system.
// Range: an outcome of [Trial.Fail].
// Source: own layout.
// Errors: a failure of w.
func (f Failure) WriteText(w io.Writer, s units.System) error {
	var b strings.Builder
	chilly, ice := units.Celsius(5), units.Celsius(0)
	fmt.Fprintf(&b, "No heat from a steady %s outdoors on, nobody at home\n\n  %-24s%10s%28s%28s\n  %-24s%10s", f.Outdoor.Text(s), "", "", "burner fails, pumps run", "power fails", "", "begins at")
	for range 2 {
		fmt.Fprintf(&b, "%14s%14s", chilly.Text(s), ice.Text(s))
	}
	b.WriteByte('\n')
	for i, r := range f.Burner {
		fmt.Fprintf(&b, "  %-24s%10s", r.Name, r.Start.Text(s))
		for _, one := range []year.RoomOutage{r, f.Power[i]} {
			fmt.Fprintf(&b, "%14s%14s", when(one.Chilly, one.IsChilly), when(one.Freezes, one.IsFrozen))
		}
		b.WriteByte('\n')
	}
	b.WriteByte('\n')
	for _, line := range f.Words(s) {
		b.WriteString(line + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Words tells what the failure asks for.
//
// Units: those of the system.
// Range: an outcome of [Trial.Fail].
// Source: common practice; water stands colder in outer walls than the air of its room.
func (f Failure) Words(s units.System) []string {
	var out []string
	if f.Alarm == 0 {
		out = append(out, fmt.Sprintf("No room reaches %s within ten days.", units.Celsius(5).Text(s)))
	} else {
		first := f.Power[slices.IndexFunc(f.Power, func(r year.RoomOutage) bool { return r.Name == f.AlarmRoom })]
		line := fmt.Sprintf("An alarm in %s at %s, which calls somebody, leaves %s until %s there.", f.AlarmRoom, f.Alarm.Text(s), Hours(f.Notice), units.Celsius(5).Text(s))
		if first.Chilly < f.Notice {
			line = fmt.Sprintf("%s reaches %s after %s already: no alarm leaves %s. Antifreeze, or water shut off and drained when leaving.", f.AlarmRoom, units.Celsius(5).Text(s), Hours(first.Chilly), Hours(f.Notice))
		}
		out = append(out, line)
	}
	out = append(out, fmt.Sprintf("Frost guard by a room sensor: %s. It helps while power and fuel last, and not when the burner is locked out.", f.FrostGuard.Text(s)))
	for _, p := range f.Power[f.rooms:] {
		if p.IsFrozen && p.Freezes < 24*3600 {
			out = append(out, fmt.Sprintf("Plain water that stands in a bare pipe in %s freezes after %s without power: antifreeze that stands the design day, or a heating cable on a supply of its own, as local code allows.", p.Name, when(p.Freezes, true)))
		}
	}
	return append(out, "Water in outer walls, corners and far from the sensor freezes before the air of its room does.")
}

func when(t units.Time, comes bool) string {
	switch {
	case !comes:
		return "never"
	case t < 3600:
		return fmt.Sprintf("%.0f\u00a0min", float64(t)/60)
	case t < 10*3600:
		return fmt.Sprintf("%.1f\u00a0h", float64(t)/3600)
	}
	return Hours(t)
}
