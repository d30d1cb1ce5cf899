package trial

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// What stands in the control: the sheet's figures, and what they are played against.

// Against is what the sheet's settings are played against.
type Against string

// The others.
const (
	// Preset is what controls commonly hold before anyone thinks: 167 °F at 14 °F for
	// radiators and baseboards, 113 °F at 14 °F for floors (common practice).
	Preset Against = "preset"
	// Fixed holds the supply of the design day all year.
	Fixed Against = "fixed"
	// AsFound is what stood in the control before: as the job says, or as somebody typed.
	AsFound Against = "as-found"
)

// ParseFound reads a circuit as a person writes it down: "House: 180 °F at 0 °F, 110 °F at
// 60 °F" for a curve, supply first, or "House: 160 °F" for one that is held.
//
// Units: each temperature with its own.
// Range: one temperature or two points.
// Source: own notation.
// Errors: what cannot be read, and how it is written.
func ParseFound(text string) (settings.FoundCircuit, error) {
	wrong := fmt.Errorf("as found: %q given; accepted: \"House: 180 °F at 0 °F, 110 °F at 60 °F\", or \"House: 160 °F\" for a held supply", text)
	name, rest, named := strings.Cut(text, ":")
	if !named || strings.TrimSpace(name) == "" {
		return settings.FoundCircuit{}, wrong
	}
	f := settings.FoundCircuit{Name: strings.TrimSpace(name)}
	parts := strings.Split(rest, ",")
	if len(parts) == 1 && !strings.Contains(rest, " at ") {
		held, err := units.Parse[units.Temperature](strings.TrimSpace(rest))
		if err != nil {
			return f, errors.Join(wrong, err)
		}
		f.Curve = settings.HeldAt(held)
		return f, nil
	}
	var points []curve.Point
	for _, part := range parts {
		supply, outdoor, both := strings.Cut(part, " at ")
		if !both {
			return f, wrong
		}
		s, err := units.Parse[units.Temperature](strings.TrimSpace(supply))
		o, err2 := units.Parse[units.Temperature](strings.TrimSpace(outdoor))
		if err = cmp.Or(err, err2); err != nil {
			return f, errors.Join(wrong, err)
		}
		points = append(points, curve.Point{Outdoor: o, Supply: s})
	}
	if len(points) != 2 || points[0].Outdoor == points[1].Outdoor {
		return f, wrong
	}
	slices.SortFunc(points, func(a, b curve.Point) int { return cmp.Compare(a.Outdoor, b.Outdoor) })
	f.Curve = settings.Through(points[0], points[1], units.Celsius(20), units.Celsius(95))
	return f, nil
}

// usualRest is the burner's pause of a control as it came, and usualCutOff where a
// household switches the heating off by itself (both common practice).
const usualRest = units.Time(300)

var usualCutOff = units.Fahrenheit(70)

// sheet is what the settings sheet says.
func (t *Trial) sheet() year.Settings {
	s := t.common("the sheet")
	y := t.Plan.Year
	s.Rest, s.Frost, s.FrostOutdoor = y.Rest, y.FrostRoom, y.FrostOutdoor
	for i, c := range t.Plan.Circuits {
		cs := year.CircuitSettings{Curve: c.Setting, Reference: reference(t.Plan, i)}
		if y.Influence > 0 {
			cs.Influence, cs.InfluenceLimit = y.Influence, influenceLimit
		}
		if !c.Floor {
			cs.Program, cs.HoldBelow = week(y.Program), y.HoldBelow
		}
		s.Circuits = append(s.Circuits, cs)
	}
	s.CutOff = year.CutOff{Above: t.Plan.CutOff, Width: 2, Damping: units.Hours(24)}
	return s
}

// influenceLimit is the most by which a room moves its circuit's supply (common practice).
const influenceLimit = units.Difference(5)

// reference is the room that governs a circuit: a room sensor or thermostat in any other
// leaves that one cold.
func reference(p *settings.Plan, circuit int) int {
	for _, r := range p.Sheet.Circuits[circuit].Rooms {
		if !r.Governs {
			continue
		}
		for i := range p.Rooms {
			if p.Rooms[i].Name == r.Name {
				return i
			}
		}
	}
	return p.Circuits[circuit].Emitters[0].Room
}

// common is what stays the same whatever the curve.
func (t *Trial) common(name string) year.Settings {
	s := year.Settings{Name: name, Differential: t.Plan.Differential, Rest: usualRest, HeatingLimit: t.Plan.Most, AboveMixed: t.Plan.Site.Above, Beyond: t.Plan.Beyond}
	if tank := t.Plan.Site.Tank; t.Plant.Tank != nil {
		s.Tank = year.TankSettings{Set: tank.Set, Differential: tank.Differential, Supply: min(tank.Charge.Supply, t.Plant.Boiler.Hottest), Priority: tank.Priority, Limit: t.Plan.Year.PriorityLimit}
	}
	return s
}

func (t *Trial) against(a Against, typed *settings.Found) (year.Settings, error) {
	s := t.common(string(a))
	s.CutOff = cutOffAt(usualCutOff)
	switch a {
	case Preset:
		for _, c := range t.Plan.Circuits {
			s.Circuits = append(s.Circuits, year.CircuitSettings{Curve: settings.Preset(c.Floor)})
		}
	case Fixed:
		for _, c := range t.Plan.Circuits {
			s.Circuits = append(s.Circuits, year.CircuitSettings{Held: c.Setting.At(t.Plan.Design)})
		}
	case AsFound:
		return t.asFound(s, typed)
	default:
		return s, fmt.Errorf("played against %q; accepted: %s, %s, %s", string(a), Preset, Fixed, AsFound)
	}
	return s, nil
}

// cutOffAt is a warm-weather cut-off as controls have it (common practice).
func cutOffAt(above units.Temperature) year.CutOff {
	if above == 0 {
		return year.CutOff{}
	}
	return year.CutOff{Above: above, Width: 2, Damping: units.Hours(24)}
}

// asFound is the control as the job says that it was found, and over that what somebody
// typed. What neither of them says is as in common.
func (t *Trial) asFound(s year.Settings, typed *settings.Found) (year.Settings, error) {
	f := t.Plan.Found
	surveyed := len(f.Circuits) > 0
	if typed != nil {
		f.Circuits = append(slices.Clone(typed.Circuits), f.Circuits...)
		f.CutOff = cmp.Or(typed.CutOff, f.CutOff)
	}
	if len(f.Circuits) == 0 {
		return s, fmt.Errorf("played against %q, but nothing says how the control was found; accepted: its curves, one for each circuit", string(AsFound))
	}
	for i, c := range t.Plan.Circuits {
		set, known := f.Curve(c.Name)
		if !known {
			return s, fmt.Errorf("as found: nothing is given for circuit %q; accepted: a curve or a held supply for every circuit", c.Name)
		}
		s.Circuits = append(s.Circuits, year.CircuitSettings{Curve: set, Reference: reference(t.Plan, i), Program: week(f.Program)})
	}
	s.CutOff = cutOffAt(f.CutOff)
	s.Differential, s.Rest = cmp.Or(f.Differential, s.Differential), cmp.Or(f.Rest, s.Rest)
	s.Frost, s.FrostOutdoor = f.FrostRoom, f.FrostOutdoor
	if surveyed { // whoever wrote the curves down would have seen a limit
		s.HeatingLimit = 0
		if f.Limit > 0 {
			s.HeatingLimit = max(f.Limit, t.Plant.Boiler.Least)
		}
	}
	if tank := &s.Tank; t.Plant.Tank != nil {
		if f.Tank > 0 {
			tank.Supply = min(tank.Supply.Add(f.Tank.Sub(tank.Set)), t.Plant.Boiler.Hottest)
			tank.Set = min(f.Tank, tank.Supply-1)
		}
		tank.Differential = cmp.Or(f.TankDrop, tank.Differential)
		if f.Priority != "" {
			tank.Priority = f.Priority == "yes"
		}
	}
	return s, nil
}

// Usual is what a sheet is played against when nobody says otherwise: what was found, if
// the job or somebody says it, and what might have stood there.
//
// Range: any job; typed may be nil.
// Source: own choice.
func Usual(j *job.Job, typed *settings.Found) []Against {
	if typed != nil || KnowsFound(j) {
		return []Against{AsFound, Preset, Fixed}
	}
	return []Against{Preset, Fixed}
}

// KnowsFound tells whether a job says of every circuit how its control was found.
//
// Range: any job.
// Source: the survey.
func KnowsFound(j *job.Job) bool {
	for _, c := range j.Circuits {
		known := slices.ContainsFunc(j.Found.Curves, func(k job.FoundCurve) bool {
			return k.Circuit == c.Name || k.Circuit == "" && len(j.Circuits) == 1
		})
		if !known {
			return false
		}
	}
	return len(j.Circuits) > 0
}

// week makes switching points of a day's program, none if it never lowers.
func week(p settings.PlanProgram) []year.Switch {
	if len(p.Warm) == 0 || p.Lower <= 0 {
		return nil
	}
	var day []year.Switch
	for _, w := range p.Warm {
		day = append(day, year.Switch{From: w.From}, year.Switch{From: w.To, Lower: p.Lower})
	}
	return year.EveryDay(day)
}
