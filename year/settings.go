package year

// Which figures stand in the control?

import (
	"cmp"
	"fmt"
	"slices"

	"curvewright/curve"
	"curvewright/refuse"
	"curvewright/units"
)

// Settings are the figures in a control.
type Settings struct {
	Name         string
	Circuits     []CircuitSettings // in the order of [Plant.Circuits]
	CutOff       CutOff
	Differential units.Difference // of the burner, from start to stop, the set-point in the middle
	Rest         units.Time       // anti-cycling time: the shortest rest of the burner
	HeatingLimit units.Power      // of the output while no tank is charged; 0 for none
	AboveMixed   units.Difference // boiler above what a mixed circuit asks for
	// Beyond puts the sensor that leads the burner into the common supply of the circuits,
	// beyond the coupling, and not into the boiler.
	Beyond bool
	// Frost lets a circuit run while a room or its return is colder than this, whatever
	// else forbids it; 0 for no guard.
	Frost units.Temperature
	// FrostOutdoor guards the pipes: colder outdoors than that, by the sensor, the pump of
	// every circuit runs, also where nobody calls for heat; 0 for no guard.
	FrostOutdoor units.Temperature
	// FrostSupply is what the boiler then holds for such a circuit; 0 for the pump alone.
	FrostSupply units.Temperature
	Tank        TankSettings
}

// CutOff is the outdoor temperature above which nothing heats. The zero value heats all
// year.
type CutOff struct {
	Above   units.Temperature
	Width   units.Difference // from off to on again
	Damping units.Time       // time constant of the mean outdoor temperature that it goes by
}

// CircuitSettings are those of one circuit.
type CircuitSettings struct {
	Curve curve.Setting
	Held  units.Temperature // supply held whatever the weather, in place of the curve; 0 for the curve

	Reference      int              // room whose sensor is read for Influence and for switching off
	Influence      units.Number     // supply in kelvin for each kelvin that the reference room is short
	InfluenceLimit units.Difference // at most so much up or down

	Program []Switch // of a week; none for warm all the time
	// HoldBelow is the outdoor temperature below which the program is left out, so that
	// nobody waits for a cold house in the coldest weather; 0 for never.
	HoldBelow units.Temperature
}

// Switch is a switching point: from this time on the rooms of the circuit are to be
// lower by so much. A room on two circuits is judged by the one that switched last.
type Switch struct {
	From  units.Time       // after Monday 0:00
	Lower units.Difference // below the set-points
	// Off stops the circuit until the reference room has cooled so far; otherwise the
	// curve is shifted at once.
	Off bool
}

// Night gives a program that is the same every day: lowered from one time to another.
//
// Units: times after midnight.
// Range: 0 to 24 h each, over midnight or within the day.
// Source: definition.
func Night(from, to units.Time, lower units.Difference, off bool) []Switch {
	return EveryDay([]Switch{{From: from, Lower: lower, Off: off}, {From: to}})
}

// EveryDay gives the program of a week in which every day has the same switching points.
//
// Units: times after midnight.
// Range: 0 to 24 h each, in any order.
// Source: definition.
func EveryDay(day []Switch) []Switch {
	day = slices.Clone(day)
	slices.SortStableFunc(day, func(a, b Switch) int { return cmp.Compare(a.From, b.From) })
	out := make([]Switch, 0, 7*len(day))
	for d := range 7 {
		for _, s := range day {
			s.From += units.Time(d) * 86400
			out = append(out, s)
		}
	}
	return out
}

// TankSettings are those of the hot water.
type TankSettings struct {
	Set          units.Temperature
	Differential units.Difference  // a charge starts so far below Set
	Supply       units.Temperature // of the boiler during the charge
	Priority     bool              // the circuits stand still meanwhile
	Limit        units.Time        // after so long they have their turn for as long; 0 for no limit
}

func (s CircuitSettings) check(rooms int) error {
	if s.Held != 0 {
		if err := refuse.Within("supply held", s.Held, units.Celsius(10), hottest); err != nil {
			return err
		}
	} else if !(s.Curve.Limit.From <= s.Curve.Limit.To) || s.Curve.Limit.To <= 0 {
		return fmt.Errorf("curve: it has no lowest and highest supply; accepted: both, in order")
	} else if s.Curve.Kind == curve.Table && len(s.Curve.Points) == 0 {
		return fmt.Errorf("curve: its table holds no point; accepted: 2 to 12")
	} else {
		for t := curveFrom; t <= curveTo; t += 10 {
			if err := refuse.Within("curve at "+refuse.Both(t)+" outdoors", s.Curve.At(t), units.Celsius(0), hottest); err != nil {
				return err
			}
		}
	}
	if s.Reference < 0 || s.Reference >= rooms {
		return fmt.Errorf("reference room: %d given; accepted: 0 to %d", s.Reference, rooms-1)
	}
	err := cmp.Or(
		refuse.Within("room influence", s.Influence, 0, 20),
		refuse.Within("limit of the room influence", s.InfluenceLimit, 0, 40),
	)
	if s.HoldBelow != 0 {
		err = cmp.Or(err, refuse.Within("outdoor temperature below which the program is left out", s.HoldBelow, coldest, units.Celsius(20)))
	}
	return cmp.Or(err, checkWeek(s.Program))
}

func checkWeek(program []Switch) error {
	var err error
	for i, w := range program {
		err = cmp.Or(err, refuse.Within("switching point", w.From, 0, 7*86400), refuse.Within("lowering", w.Lower, 0, 15))
		if i > 0 && w.From < program[i-1].From {
			err = cmp.Or(err, fmt.Errorf("switching point %d: before the one ahead of it; accepted: in the order of the week", i+1))
		}
	}
	return err
}

func (s Settings) check(p Plant, rooms int) error {
	if len(s.Circuits) != len(p.Circuits) {
		return fmt.Errorf("circuits: settings for %d given, but the plant has %d", len(s.Circuits), len(p.Circuits))
	}
	for i, c := range s.Circuits {
		if err := c.check(rooms); err != nil {
			return fmt.Errorf("circuit %q: %w", p.Circuits[i].Name, err)
		}
	}
	err := cmp.Or(
		refuse.Within("differential of the burner", s.Differential, 0.5, 40),
		refuse.Within("shortest rest of the burner", s.Rest, 0, 7200),
		refuse.Within("boiler above a mixed circuit", s.AboveMixed, 0, 40),
	)
	if s.HeatingLimit != 0 {
		err = cmp.Or(err, refuse.Within("limit of the heating output", s.HeatingLimit, p.Boiler.Least, mostPower))
	}
	if s.CutOff.Above != 0 {
		err = cmp.Or(err, refuse.Within("warm-weather cut-off", s.CutOff.Above, units.Celsius(-10), units.Celsius(40)),
			refuse.Within("width of the cut-off", s.CutOff.Width, 0, 10), refuse.Within("damping of the cut-off", s.CutOff.Damping, 0, mostTime))
	}
	if s.Frost != 0 {
		err = cmp.Or(err, refuse.Within("frost guard", s.Frost, units.Celsius(0), units.Celsius(15)))
	}
	if s.FrostOutdoor != 0 {
		err = cmp.Or(err, refuse.Within("frost guard outdoors", s.FrostOutdoor, units.Celsius(-30), units.Celsius(20)))
	}
	if s.FrostSupply != 0 {
		err = cmp.Or(err, refuse.Within("supply of the frost guard", s.FrostSupply, units.Celsius(5), hottest))
	}
	if p.Tank == nil {
		return err
	}
	t := s.Tank
	err = cmp.Or(err,
		refuse.Within("tank set-point", t.Set, p.Tank.Cold+1, units.Celsius(95)),
		refuse.Within("differential of the tank", t.Differential, 0.5, 30),
		refuse.Within("boiler supply for the tank", t.Supply, t.Set+1, hottest),
		refuse.Within("time limit of the priority", t.Limit, 0, 86400),
	)
	if err == nil && t.Supply > p.Boiler.Hottest {
		err = fmt.Errorf("boiler supply for the tank: %s given; accepted: up to the boiler's limit of %s", refuse.Both(t.Supply), refuse.Both(p.Boiler.Hottest))
	}
	return err
}
