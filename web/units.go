package web

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"curvewright/units"
	"curvewright/web/words"
)

// The units that a reader chose: a set to begin from, and for single quantities a unit
// apart from it.

// unitSet is a set to begin from.
type unitSet struct {
	word   string
	family units.System
	apart  map[units.Kind]string // from the family
	paper  string                // of its country, where the family does not say
}

// unitSets are those of the trade. In Canada the house is measured in metric units, its
// pipes, pumps and boilers are sold in those of the United States.
var unitSets = []unitSet{
	{"us", units.US, nil, ""},
	{"si", units.SI, nil, ""},
	{"ca", units.SI, map[units.Kind]string{
		units.Powers: "Btu/h", units.LinearPowers: "Btu/h·ft", units.Resistances: "RSI", units.Flows: "gpm", units.Heads: "ft", units.Pressures: "psi",
		units.PipeDrops: "ft/100 ft", units.Velocities: "ft/s", units.Valves: "Cv", units.Pipes: "in", units.Waters: "gal",
	}, "letter"},
}

// system is the set as a system.
func (u unitSet) system() units.System {
	s := u.family
	for k, unit := range u.apart {
		s, _ = s.With(k, unit) // a test tries them all
	}
	return s
}

// setNamed finds a set; none follows the job.
func setNamed(word string) (unitSet, bool) {
	for _, u := range unitSets {
		if u.word == word {
			return u, true
		}
	}
	return unitSet{}, false
}

// system is how the preferences want to be read, whether that settles the family, and
// which stored choices are not known here: those are left out, and told.
func (p preferences) system() (s units.System, chosen bool, unknown []error) {
	s = units.US
	if set, ok := setNamed(p.Units); ok {
		s, chosen = set.system(), true
	} else if p.Units != "" {
		unknown = append(unknown, fmt.Errorf("%q is no set of units; accepted: us, si, ca", p.Units))
	}
	for _, word := range slices.Sorted(maps.Keys(p.Quantities)) {
		unit := p.Quantities[word]
		kind, err := units.KindNamed(word)
		if err == nil {
			var with units.System
			if with, err = s.With(kind, unit); err == nil {
				s = with
			}
		}
		if err != nil {
			unknown = append(unknown, err)
		}
	}
	return s, chosen, unknown
}

// unitField is the name of the field that asks for the unit of a quantity.
func unitField(k units.Kind) string { return "unit." + k.Word() }

// ofTheSet says which unit a quantity has by the set, if the set is settled.
func ofTheSet(ctx context.Context, k units.Kind, p preferences) string {
	set, ok := setNamed(p.Units)
	if !ok {
		return words.Say(ctx, "prefs.by.set")
	}
	unit := set.system().Chosen(k)
	for _, u := range k.Units() {
		if s, err := units.SI.With(k, u); unit == "" && err == nil && s.In(k) == set.family {
			unit = u
		}
	}
	return words.Say(ctx, "prefs.ofset", unitLabel(unit))
}

// unitLabel is a unit as one reads it alone.
func unitLabel(unit string) string { return strings.TrimSuffix(unit, "-") }

// decimalSign is the reader's, for the script.
func decimalSign(ctx context.Context) string {
	if words.Of(ctx).Comma() {
		return ","
	}
	return "."
}
