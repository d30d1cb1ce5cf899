package web

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"curvewright/job"
	"curvewright/units"
	"curvewright/web/words"
)

// The numbers of a job that are worth a field of their own: those a person tries out
// first. The rest is in the document.

// group is a set of fields under a heading.
type group struct {
	ID     string
	Title  string
	Folded bool // shown on request: many fields, seldom needed at once
	Fields []field
}

// field is one value of the job as the page shows it.
type field struct {
	Path     string // of the value in the document
	Label    string
	Before   string // of the unit, where it stands before the figure: R-
	Figure   string // what stands in the field
	Shown    string // what the page has put there: Figure, unless that is wrong
	Unit     string
	UnitIn   [2]string // where the page lets the reader choose: the unit in US customary and in SI, if they differ
	Also     string    // the value as written in the document, where that says it otherwise
	Fault    string
	Words    []string // to choose from; empty: a value to type
	Optional bool
	Signed   bool // may be below zero: needs a keyboard with a minus

	Help     string // what it means
	Accepts  string // what may be typed
	Choices  []pick // to choose from, in the reader's words
	Quantity bool   // a value with a unit, of which is said how it is known
	Known    string // how
	Asked    bool   // whether the page asks for that
	Text     bool   // any text
	Long     bool   // of several lines
	Pictures *readingPictures

	set   func(text string) error
	clear func()
}

// pick is one word to choose, and what the reader calls it.
type pick struct{ Word, Label string }

// called is what the reader calls the field. In English the page of examples has names of
// its own, with the room's where there are several.
func (f field) called(ctx context.Context) string {
	label := words.Label(ctx, patternOf(f.Path))
	if words.Of(ctx).Plain() == words.English || label == patternOf(f.Path) {
		return f.Label
	}
	if room, _, found := strings.Cut(f.Label, ": "); found {
		return room + words.Of(ctx).Colon() + label
	}
	return label
}

// groupTitle is the heading of a group of fields: one of ours, or one with a name in it.
func groupTitle(ctx context.Context, title string) string {
	kind, name, named := strings.Cut(title, ": ")
	if said := words.Engine(ctx, kind); named {
		return said + words.Of(ctx).Colon() + name
	} else {
		return said
	}
}

// ID is the field's name for the page.
func (f field) ID() string { return "f-" + idOf(f.Path) }

// fieldsOf lists the fields of a job; each writes into that job.
func fieldsOf(j *job.Job, s units.System) []group {
	house := group{ID: "house", Title: "House"}
	house.add(
		value("site.design_outdoor", "Design outdoor temperature", &j.Site.DesignOutdoor, s).needed().signed(),
		value("house.setpoint", "Room set-point", &j.House.Setpoint, s),
	)
	if len(j.Rooms) == 0 {
		house.add(shortWay(j, s)...)
	}
	groups := []group{house}
	for i := range j.Circuits {
		groups = append(groups, circuitFields(j, i, s))
	}
	if rooms := roomFields(j, s); len(rooms.Fields) > 0 {
		groups = append(groups, rooms)
	}
	groups = append(groups, boilerFields(j, s))
	if tap := hotWaterFields(j, s); len(tap.Fields) > 0 {
		groups = append(groups, tap)
	}
	night := group{ID: "night", Title: "Night"}
	night.add(programFields(j, s)...)
	return append(groups, night)
}

func (g *group) add(fields ...field) { g.Fields = append(g.Fields, fields...) }

// shortWay is what the load of the house comes from where there are no rooms.
func shortWay(j *job.Job, s units.System) []field {
	h := &j.House
	fields := []field{value("house.floor_area", "Heated floor area", &h.FloorArea, s).needed()}
	switch {
	case h.Load.Set:
		return append(fields, value("house.load", "Heat load, design day", &h.Load, s).needed())
	case h.Fuel != nil:
		if h.Fuel.Volume.Set {
			fields = append(fields, value("house.fuel.volume", "Fuel in a year", &h.Fuel.Volume, s).needed())
		} else {
			fields = append(fields, value("house.fuel.energy", "Fuel in a year", &h.Fuel.Energy, s).needed())
		}
		return append(fields, value("house.fuel.degree_days", "Degree-days of that year", &h.Fuel.DegreeDays, s).needed())
	}
	return append(fields,
		choice("house.era", "Built", &h.Era, "before 1946", "1946-1979", "1980-1999", "2000-2011", "2012 on"),
		choice("house.insulation", "Insulation today", &h.Insulation, "as built", "improved", "well insulated"),
		choice("house.glazing", "Most windows", &h.Glazing, "single", "double", "double low-e", "triple"),
		choice("house.tightness", "Draughts", &h.Tightness, "leaky", "average", "tight"),
	)
}

func circuitFields(j *job.Job, i int, s units.System) group {
	c := &j.Circuits[i]
	at := fmt.Sprintf("circuits[%d]", i)
	g := group{ID: fmt.Sprintf("circuit-%d", i), Title: "Circuit: " + c.Name}
	for k := range c.Emitters {
		g.add(emitterFields(fmt.Sprintf("%s.emitters[%d]", at, k), c.Emitters[k].Name, &c.Emitters[k], s)...)
	}
	if c.Flow.Set {
		g.add(value(at+".flow", "Water flow", &c.Flow, s))
	} else {
		g.add(value(at+".drop", "Supply minus return", &c.Drop, s))
	}
	g.add(value(at+".max_supply", "Highest supply", &c.MaxSupply, s))
	return g
}

// roomFields are the sizes of what heats each room.
func roomFields(j *job.Job, s units.System) group {
	g := group{ID: "rooms", Title: "Emitters, room by room", Folded: true}
	for i := range j.Rooms {
		r := &j.Rooms[i]
		for k := range r.Emitters {
			g.add(emitterFields(fmt.Sprintf("rooms[%d].emitters[%d]", i, k), r.Name, &r.Emitters[k], s)...)
		}
	}
	return g
}

// emitterFields are the figures that make an emitter large or small.
func emitterFields(at, name string, e *job.Emitter, s units.System) []field {
	called := func(what string) string {
		if name == "" {
			return what
		}
		return capital(name) + ": " + strings.ToLower(what[:1]) + what[1:]
	}
	switch {
	case e.FinTube != nil:
		return []field{value(at+".fin_tube.length", called("Finned length"), &e.FinTube.Length, s).needed()}
	case e.CastIron != nil:
		return []field{value(at+".cast_iron.edr", called("Cast iron"), &e.CastIron.EDR, s).needed()}
	case e.Radiator != nil && e.Radiator.PerLength.Set:
		return []field{value(at+".radiator.length", called("Length"), &e.Radiator.Length, s).needed()}
	case e.Radiator != nil && e.Radiator.PerSection.Set:
		return []field{count(at+".radiator.sections", called("Sections"), &e.Radiator.Sections)}
	case e.Radiator != nil:
		return []field{value(at+".radiator.output", called("Rated output"+each(e)), &e.Radiator.Output, s).needed()}
	case e.TowelRail != nil:
		return []field{value(at+".towel_rail.output", called("Rated output"+each(e)), &e.TowelRail.Output, s).needed()}
	case e.Floor != nil:
		return []field{
			value(at+".floor.area", called("Floor area"), &e.Floor.Area, s).needed(),
			value(at+".floor.spacing", called("Tube spacing"), &e.Floor.Spacing, s),
			value(at+".floor.covering", called("Covering"), &e.Floor.Covering, s),
		}
	case e.FanCoil != nil:
		return []field{value(at+".fan_coil.output", called("Rated output"+each(e)), &e.FanCoil.Output, s).needed()}
	case e.Sized != nil:
		return []field{value(at+".sized.supply", called("Sized for a supply of"), &e.Sized.Supply, s)}
	}
	return nil
}

func each(e *job.Emitter) string {
	if e.Count > 1 {
		return fmt.Sprintf(", each of %d", e.Count)
	}
	return ""
}

// boilerFields are the boiler's figures, and its own pump's where it is separated from
// the circuits.
func boilerFields(j *job.Job, s units.System) group {
	b := &j.Boiler
	g := group{ID: "boiler", Title: "Boiler"}
	g.add(
		value("boiler.output", "Highest output", &b.Output, s),
		value("boiler.min_output", "Lowest output", &b.MinOutput, s),
		value("boiler.differential", "Burner’s stop to start", &b.Differential, s),
		water("boiler.water", "Water always in flow", &b.Water, s),
	)
	if kind := j.Separator.Kind; kind != "" && kind != "none" {
		g.add(value("separator.boiler_flow", "Flow of the boiler’s pump", &j.Separator.Flow, s))
	}
	return g
}

func hotWaterFields(j *job.Job, s units.System) group {
	h := &j.HotWater
	g := group{ID: "hot-water", Title: "Hot water"}
	if h.By == "" || h.By == "none" {
		return g
	}
	if h.By != "combi" {
		g.add(water("hot_water.tank", "Volume of the tank", &h.Tank, s))
	}
	g.add(count("hot_water.people", "People", &h.People))
	return g
}

func programFields(j *job.Job, s units.System) []field {
	p := &j.Program
	wishes := []string{"hold", "night"}
	if p.Leave != "" || p.Return != "" || p.Wish == "away" {
		wishes = append(wishes, "away")
	}
	fields := []field{choice("program.wish", "Wish", &p.Wish, wishes...)}
	if p.Wish == "night" || p.Wish == "away" {
		fields = append(fields, value("program.lower", "Room temperature then", &p.Lower, s))
	}
	return fields
}

// value is a field for a quantity, shown in the reader's units.
func value[T units.Readable](path, label string, g *job.Given[T], s units.System) field {
	kind, _ := units.KindOf(g.Value)
	return printed(path, label, g, s, kind, T.Text)
}

// water is a field for a volume of water, which is gallons where other volumes are
// cubic feet.
func water(path, label string, g *job.Given[units.Volume], s units.System) field {
	return printed(path, label, g, s, units.Waters, units.Volume.WaterText)
}

func printed[T units.Readable](path, label string, g *job.Given[T], s units.System, kind units.Kind, print func(T, units.System) string) field {
	f := field{Path: path, Label: label, Optional: true}
	f.Before, _, f.Unit = parts(print(g.Value, s))
	if g.Set {
		printed := print(g.Value, s)
		f.Before, f.Figure, f.Unit = parts(printed)
		if before, figure, unit, ok := asWritten(g.Text, kind, f.Before+f.Unit, s); ok {
			f.Before, f.Figure, f.Unit = before, figure, unit
		} else if g.Text != "" && !strings.EqualFold(g.Text, spaced(printed)) {
			f.Also = g.Text
		}
	}
	f.Shown = f.Figure
	before, unit := f.Before, f.Unit
	f.clear = func() { *g = job.Given[T]{} }
	f.set = func(text string) error {
		full := text
		if bareFigure.MatchString(text) {
			full = before + text // the field says in which unit it is meant
			if unit != "" {
				full += " " + unit
			}
		}
		v, err := units.Parse[T](full)
		if err != nil {
			return err
		}
		g.Value, g.Text, g.Set = v, typedSigns.Replace(full), true
		return nil
	}
	return f
}

// choice is a field for one of several words.
func choice(path, label string, word *string, words ...string) field {
	f := field{Path: path, Label: label, Figure: *word, Shown: *word, Words: words, Optional: true}
	f.clear = func() { *word = "" }
	f.set = func(text string) error {
		if !slices.Contains(words, text) {
			return fmt.Errorf("not one of the words for this. Accepted: %s", strings.Join(words, ", "))
		}
		*word = text
		return nil
	}
	return f
}

// count is a field for a number of people; none is as good as not said.
func count(path, label string, n *int) field {
	f := field{Path: path, Label: label, Optional: true}
	if *n > 0 {
		f.Figure = strconv.Itoa(*n)
	}
	f.Shown = f.Figure
	f.clear = func() { *n = 0 }
	f.set = func(text string) error {
		v, err := strconv.Atoi(text)
		if err != nil || v < 1 || v > 99 {
			return errors.New("not a number of people. Accepted: 1 to 99")
		}
		*n = v
		return nil
	}
	return f
}

func (f field) needed() field { f.Optional = false; return f }
func (f field) signed() field { f.Signed = true; return f }

// put writes a typed text into the job, nothing if the field was emptied.
func (f field) put(text string) error {
	switch {
	case text != "":
		return f.set(text)
	case !f.Optional:
		return errors.New("this value is needed")
	}
	f.clear()
	return nil
}

var (
	bareFigure = regexp.MustCompile(`^[-−+]?[0-9][0-9.,/ \x{a0}\x{202f}]*$|^[-−+]?[.,][0-9]+$`)
	written    = regexp.MustCompile(`^([^0-9−-]*)([-−]?[0-9][0-9.,]*)[ \x{a0}]?(.*)$`)
	prefixed   = regexp.MustCompile(`^([RU]-|RSI[ \x{a0}]|[kC]v[ \x{a0}])([0-9.,]+)$`)
	typedSigns = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "−", "-")
)

// parts takes a printed value apart: what stands before the figure, the figure, the unit.
func parts(text string) (before, figure, unit string) {
	if m := prefixed.FindStringSubmatch(text); m != nil {
		return m[1], m[2], ""
	}
	if m := written.FindStringSubmatch(text); m != nil && m[1] == "" {
		return "", typedSigns.Replace(m[2]), m[3]
	}
	return "", text, ""
}

// asWritten takes a value apart as a person wrote it, if that is one figure in a unit
// of the reader's system; where a unit was chosen for the quantity, in that unit.
func asWritten(text string, kind units.Kind, own string, s units.System) (before, figure, unit string, ok bool) {
	before, figure, unit = parts(text)
	unit = strings.TrimSpace(unit)
	known := familiar[s.In(kind)]
	if s.Chosen(kind) != "" || kind == units.Lengths && s.Chosen(units.Pipes) != "" {
		known = []string{own}
	}
	for _, u := range known {
		if strings.EqualFold(u, before+unit) {
			return before, figure, unit, true
		}
	}
	return "", "", "", false
}

// familiar are the units in which a reader of each system may have written a value and
// expects to find it again.
var familiar = map[units.System][]string{
	units.US: {"°F", "F", "in", "ft", "ft²", "sq ft", "Btu/h", "kBtu/h", "MBH", "Btu/h·ft", "gpm", "gal", "R-", "°F·d", "therms", "ft/s", "psi", "ft w.c.", "kBtu", "MMBtu", "EDR", "%"},
	units.SI: {"°C", "C", "K", "mm", "cm", "m", "m²", "m2", "W", "kW", "kWh", "MWh", "W/m", "L/min", "L/h", "m³/h", "L", "m³", "m²K/W", "K·d", "m/s", "bar", "mbar", "kPa", "m w.c.", "MJ", "GJ", "EDR", "%"},
}

func spaced(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }
