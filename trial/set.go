package trial

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"curvewright/curve"
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
	// AsFound is what stood in the control before, see [Found].
	AsFound Against = "as-found"
)

// Found is the control as somebody found it.
type Found struct {
	Circuits []FoundCircuit
	CutOff   units.Temperature // 0 for none
}

// FoundCircuit is a held supply, or a curve through two points.
type FoundCircuit struct {
	Name       string
	Held       units.Temperature
	Cold, Mild curve.Point
}

// ParseFound reads a circuit as a person writes it down: "House: 180 °F at 0 °F, 110 °F at
// 60 °F" for a curve, supply first, or "House: 160 °F" for one that is held.
//
// Units: each temperature with its own.
// Range: one temperature or two points.
// Source: own notation.
// Errors: what cannot be read, and how it is written.
func ParseFound(text string) (FoundCircuit, error) {
	wrong := fmt.Errorf("as found: %q given; accepted: \"House: 180 °F at 0 °F, 110 °F at 60 °F\", or \"House: 160 °F\" for a held supply", text)
	name, rest, named := strings.Cut(text, ":")
	if !named || strings.TrimSpace(name) == "" {
		return FoundCircuit{}, wrong
	}
	f := FoundCircuit{Name: strings.TrimSpace(name)}
	parts := strings.Split(rest, ",")
	if len(parts) == 1 && !strings.Contains(rest, " at ") {
		held, err := units.Parse[units.Temperature](strings.TrimSpace(rest))
		if err != nil {
			return f, errors.Join(wrong, err)
		}
		f.Held = held
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
	f.Cold, f.Mild = points[0], points[1]
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
	s.Rest, s.Frost = y.Rest, y.FrostRoom
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

func (t *Trial) against(a Against, found *Found) (year.Settings, error) {
	s := t.common(string(a))
	cutOff := usualCutOff
	switch a {
	case Preset:
		for _, c := range t.Plan.Circuits {
			cold, top := units.Fahrenheit(167), units.Celsius(85)
			if c.Floor {
				cold, top = units.Fahrenheit(113), units.Fahrenheit(118)
			}
			s.Circuits = append(s.Circuits, year.CircuitSettings{Curve: through(
				curve.Point{Outdoor: units.Fahrenheit(14), Supply: cold}, curve.Point{Outdoor: units.Fahrenheit(68), Supply: units.Fahrenheit(68)}, top)})
		}
	case Fixed:
		for _, c := range t.Plan.Circuits {
			s.Circuits = append(s.Circuits, year.CircuitSettings{Held: c.Setting.At(t.Plan.Design)})
		}
	case AsFound:
		if found == nil {
			return s, fmt.Errorf("played against %q, but nothing says how the control was found; accepted: its curves, one for each circuit", string(a))
		}
		cutOff = found.CutOff
		for _, c := range t.Plan.Circuits {
			cs, err := found.circuit(c.Name)
			if err != nil {
				return s, err
			}
			s.Circuits = append(s.Circuits, cs)
		}
	default:
		return s, fmt.Errorf("played against %q; accepted: %s, %s, %s", string(a), Preset, Fixed, AsFound)
	}
	if cutOff != 0 {
		s.CutOff = year.CutOff{Above: cutOff, Width: 2, Damping: units.Hours(24)}
	}
	return s, nil
}

// through is a straight curve through two points.
func through(cold, mild curve.Point, top units.Temperature) curve.Setting {
	return curve.Setting{Kind: curve.TwoPoints, Cold: cold, Mild: mild, Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: top}}
}

func (f *Found) circuit(name string) (year.CircuitSettings, error) {
	for _, c := range f.Circuits {
		if c.Name != name {
			continue
		}
		if c.Held != 0 {
			return year.CircuitSettings{Held: c.Held}, nil
		}
		return year.CircuitSettings{Curve: through(c.Cold, c.Mild, units.Celsius(95))}, nil
	}
	return year.CircuitSettings{}, fmt.Errorf("as found: nothing is given for circuit %q; accepted: a curve or a held supply for every circuit", name)
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
