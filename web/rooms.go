package web

import (
	"context"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/words"
)

// The rooms as a table: one line for each, with what heats it, so that a house of twenty
// rooms is entered in minutes, by the keyboard or from a spreadsheet.

// Names of the table's fields that stand for more than one field of the document.
const (
	kindPrefix    = "e." // what heats the room
	kindWasPrefix = "y." // what the page had put there
	sizePrefix    = "s." // how large it is
	sizeWasPrefix = "z."
	pasteField    = "paste"
	pasteAtField  = "paste-at"
)

// blankRows wait below the rooms that are there.
const blankRows = 1

// emitterKind is a kind of emitter that one figure describes well enough to begin with.
type emitterKind struct {
	field string // of the emitter, which is also what the table calls it
	size  string // the figure
	also  [2]string
}

var emitterKinds = []emitterKind{
	{"fin_tube", "length", [2]string{}},
	{"cast_iron", "edr", [2]string{}},
	{"radiator", "output", [2]string{}},
	{"towel_rail", "output", [2]string{}},
	{"floor", "area", [2]string{"construction", "wet slab"}},
}

// sizeOf is the figure that makes an emitter large or small: of a radiator, that by which
// its output is rated.
func (k emitterKind) sizeOf(e *job.Emitter) string {
	switch r := e.Radiator; {
	case r != nil && k.field == "radiator" && r.PerLength.Set:
		return "length"
	case r != nil && k.field == "radiator" && r.PerSection.Set:
		return "sections"
	}
	return k.size
}

// roomRow is one line of the table.
type roomRow struct {
	Index                       int
	Path                        string
	Name, Area, Setpoint, Load  field
	Kind, KindWas               string
	Size                        field
	Circuit                     *field
	Blank, Faulty, More, Loaded bool
	Notes                       []field // those with a fault
}

// roomRows are the lines of the table, with blank ones below.
func roomRows(ctx context.Context, j *job.Job, s units.System) []roomRow {
	grown := *j
	grown.Rooms = slices.Clone(j.Rooms)
	for range blankRows {
		grown.Rooms = append(grown.Rooms, job.Room{})
	}
	var rows []roomRow
	at := map[string]job.Spot{}
	for _, spot := range job.Spots(&grown) {
		if strings.HasPrefix(spot.Path, "rooms[") {
			at[spot.Path] = spot
		}
	}
	for i := range grown.Rooms {
		path := "rooms[" + strconv.Itoa(i) + "]"
		in := func(name string) field { return fieldAt(ctx, at[path+"."+name], s) }
		r := roomRow{Index: i, Path: path, Name: in("name"), Area: in("area"), Setpoint: in("setpoint"), Load: in("load"), Blank: i >= len(j.Rooms)}
		r.Loaded = len(grown.Rooms[i].Elements) > 0
		emitters := grown.Rooms[i].Emitters
		r.More = len(emitters) > 1
		if len(emitters) > 0 {
			for _, k := range emitterKinds {
				if spot, ok := at[path+".emitters[0]."+k.field]; ok && !spot.Absent {
					r.Kind = k.field
					r.Size = in("emitters[0]." + k.field + "." + k.sizeOf(&emitters[0]))
				}
			}
			if r.Kind == "" {
				r.Kind = otherKind(&emitters[0])
			}
			if len(j.Circuits) > 1 {
				f := in("emitters[0].circuit")
				f.choose(namesFor(j, "rooms[].emitters[].circuit"))
				r.Circuit = &f
			}
		}
		r.KindWas = r.Kind
		rows = append(rows, r)
	}
	return rows
}

// otherKind is what heats a room if the table has no column for its figures.
func otherKind(e *job.Emitter) string {
	switch {
	case e.FanCoil != nil:
		return "fan_coil"
	case e.Sized != nil:
		return "sized"
	}
	return ""
}

// kindLabel is what the table calls a kind of emitter.
func kindLabel(ctx context.Context, kind string) string {
	return words.Label(ctx, "rooms[].emitters[]."+kind)
}

// kindPicks are the kinds to choose from on a line: those with one figure, and what is
// there already.
func kindPicks(ctx context.Context, now string) []pick {
	var list []pick
	for _, k := range emitterKinds {
		list = append(list, pick{k.field, kindLabel(ctx, k.field)})
	}
	if now != "" && !slices.ContainsFunc(list, func(p pick) bool { return p.Word == now }) {
		list = append(list, pick{now, kindLabel(ctx, now)})
	}
	return list
}

// grow adds the rooms that were typed into blank lines.
func grow(j *job.Job, values url.Values) {
	for range 200 {
		path := "rooms[" + strconv.Itoa(len(j.Rooms)) + "]"
		filled := false
		for name, v := range values {
			for _, prefix := range []string{typedPrefix, kindPrefix, sizePrefix} {
				filled = filled || strings.HasPrefix(name, prefix+path) && strings.TrimSpace(v[0]) != ""
			}
		}
		if !filled {
			return
		}
		if err := changes.Add(j, "rooms"); err != nil {
			return
		}
	}
}

// emitters puts what the table says of emitters into the job.
func (t *taken) emitters(ctx context.Context, values url.Values, s units.System) {
	for i := range t.job.Rooms {
		path := "rooms[" + strconv.Itoa(i) + "]"
		kind, sent := values[kindPrefix+path]
		if !sent {
			continue
		}
		was := values.Get(kindWasPrefix + path)
		if kind[0] != was {
			if problem := setKind(t.job, path, kind[0]); problem != nil {
				t.faults[path+".emitters"] = answerFault{Typed: kind[0], Problem: sentence(words.Of(ctx), problem)}
				continue
			}
			t.changed = true
		}
		size, sizeWas := strings.TrimSpace(values.Get(sizePrefix+path)), values.Get(sizeWasPrefix+path)
		for _, k := range emitterKinds {
			if k.field != kind[0] || (size == sizeWas && kind[0] == was) || size == "" {
				continue
			}
			at := path + ".emitters[0]." + k.field + "." + k.sizeOf(&t.job.Rooms[i].Emitters[0])
			spot, ok := job.At(t.job, at)
			if !ok {
				continue
			}
			full, problem := withUnit(ctx, size, fieldAt(ctx, spot, s))
			if problem == "" {
				if err := changes.Set(t.job, at, full); err != nil {
					problem = sentence(words.Of(ctx), err)
				}
			}
			if problem != "" {
				t.faults[at] = answerFault{Typed: size, Problem: problem}
				continue
			}
			t.changed = true
		}
	}
}

// setKind makes the first emitter of a room one of a kind.
func setKind(j *job.Job, room, kind string) error {
	if kind == "" {
		return changes.Remove(j, room+".emitters[0]")
	}
	forgetGuesses(j)
	if spot, ok := job.At(j, room+".emitters"); ok && spot.Items == 0 {
		if err := changes.Add(j, room+".emitters"); err != nil {
			return err
		}
		if len(j.Circuits) > 1 {
			if err := changes.Set(j, room+".emitters[0].circuit", j.Circuits[0].Name); err != nil {
				return err
			}
		}
	}
	at := room + ".emitters[0]." + kind
	spot, ok := job.At(j, at)
	if !ok {
		return nil
	}
	if err := spot.Make(); err != nil {
		return err
	}
	for _, k := range emitterKinds {
		if k.field == kind && k.also[0] != "" {
			return changes.Set(j, at+"."+k.also[0], k.also[1])
		}
	}
	return nil
}

// forgetGuesses takes the emitters of no known size off the circuits, with the share of the
// house that they were taken to carry: the short way put them there until somebody would
// go through the rooms.
func forgetGuesses(j *job.Job) {
	for i := range j.Circuits {
		k := &j.Circuits[i]
		if len(k.Emitters) > 0 && !slices.ContainsFunc(k.Emitters, func(e job.Emitter) bool { return e.Sized == nil }) {
			k.Emitters = nil
			k.Share, k.Area = job.Given[units.Fraction]{}, job.Given[units.Area]{}
		}
	}
}

// columns of the table, in the order in which a spreadsheet is pasted into it.
var columns = []string{"name", "area", "setpoint", "load", "kind", "size"}

// pasted spreads the cells of a spreadsheet over a form: lines into rooms, cells into
// columns, from the cell that was pasted into. A first line of headings is left out.
func pasted(ctx context.Context, j *job.Job, text, at string, s units.System) url.Values {
	row, column := len(j.Rooms), 0
	if r, c, ok := strings.Cut(at, ","); ok {
		if n, err := strconv.Atoi(r); err == nil && n >= 0 && n <= len(j.Rooms) {
			row = n
		}
		if n, err := strconv.Atoi(c); err == nil && n >= 0 && n < len(columns) {
			column = n
		}
	}
	values := url.Values{}
	lines := strings.Split(strings.TrimRight(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n"), "\n")
	if len(lines) > 1 && column == 0 && heading(lines[0]) && !heading(lines[1]) {
		lines = lines[1:]
	}
	if column == 0 {
		lines = slices.DeleteFunc(lines, noRoom)
	}
	for i, line := range lines[:min(len(lines), 200)] {
		cells := strings.Split(line, "\t")
		if len(cells) == 1 && strings.Contains(line, ";") {
			cells = strings.Split(line, ";")
		}
		path := "rooms[" + strconv.Itoa(row+i) + "]"
		for k, cell := range cells {
			cell = strings.TrimSpace(cell)
			if column+k >= len(columns) || cell == "" {
				continue
			}
			switch name := columns[column+k]; name {
			case "kind":
				if kind := kindNamed(ctx, cell); kind != "" {
					values.Set(kindPrefix+path, kind)
				}
			case "size":
				values.Set(sizePrefix+path, cell)
			default:
				values.Set(typedPrefix+path+"."+name, cell)
			}
		}
	}
	// What stands there now is what is replaced.
	for _, r := range roomRows(ctx, j, s) {
		if r.Blank {
			continue
		}
		for _, f := range []field{r.Name, r.Area, r.Setpoint, r.Load} {
			values.Set(shownPrefix+f.Path, f.Shown)
		}
		values.Set(kindWasPrefix+r.Path, r.Kind)
		values.Set(sizeWasPrefix+r.Path, r.Size.Shown)
		if values.Get(sizePrefix+r.Path) != "" && values.Get(kindPrefix+r.Path) == "" {
			values.Set(kindPrefix+r.Path, r.Kind)
		}
	}
	return values
}

// heading tells a line without a single figure.
func heading(line string) bool {
	return strings.ContainsAny(line, "\t;") && !strings.ContainsAny(line, "0123456789")
}

// noRoom tells the lines of a spreadsheet that are none: empty ones, and the sum below.
func noRoom(line string) bool {
	if strings.Trim(line, "\t; ") == "" {
		return true
	}
	name, _, _ := strings.Cut(strings.ReplaceAll(line, ";", "\t"), "\t")
	name = strings.ToLower(strings.Trim(name, ": "))
	return slices.Contains([]string{"total", "totals", "sum", "somme", "suma", "summe", "gesamt"}, name)
}

// kindNamed finds a kind of emitter by what a spreadsheet calls it, in any of the
// languages.
func kindNamed(ctx context.Context, cell string) string {
	cell = strings.ToLower(cell)
	for _, k := range emitterKinds {
		if cell == strings.ToLower(kindLabel(ctx, k.field)) || cell == k.field {
			return k.field
		}
	}
	for _, hint := range []struct{ part, kind string }{
		{"baseboard", "fin_tube"}, {"fin", "fin_tube"}, {"plinth", "fin_tube"}, {"plint", "fin_tube"}, {"zócalo", "fin_tube"}, {"sockel", "fin_tube"},
		{"cast", "cast_iron"}, {"fonte", "cast_iron"}, {"fundi", "cast_iron"}, {"guss", "cast_iron"},
		{"towel", "towel_rail"}, {"serviette", "towel_rail"}, {"toall", "towel_rail"}, {"handtuch", "towel_rail"},
		{"floor", "floor"}, {"slab", "floor"}, {"plancher", "floor"}, {"suelo", "floor"}, {"boden", "floor"},
		{"radiat", "radiator"}, {"panel", "radiator"}, {"heizk", "radiator"},
	} {
		if strings.Contains(cell, hint.part) {
			return hint.kind
		}
	}
	return ""
}

// shareLoad gives every room without a heat load or surfaces its part of the house's
// load, by floor area. It says how much was shared out.
func shareLoad(j *job.Job) error {
	whole := *j
	whole.Rooms = nil
	whole.Circuits = []job.Circuit{{Name: "all", Kind: "direct", Emitters: []job.Emitter{{Sized: &job.Sized{Like: emitterWords[0]}}}}}
	o := settings.DefaultOptions(&whole)
	o.Samples = 0
	sheet, err := settings.Solve(&whole, o)
	if err != nil {
		return err
	}
	area := 0.0
	for _, r := range j.Rooms {
		area += float64(r.Area.Value)
	}
	if whole.House.FloorArea.Set && float64(whole.House.FloorArea.Value) > area {
		area = float64(whole.House.FloorArea.Value)
	}
	for i := range j.Rooms {
		r := &j.Rooms[i]
		if r.Load.Set || len(r.Elements) > 0 || !r.Area.Set || area <= 0 {
			continue
		}
		share := units.Power(float64(sheet.Load.Total) * float64(r.Area.Value) / area)
		text := strings.NewReplacer("\u00a0", " ").Replace(share.Text(o.System))
		if rounded, err := units.Parse[units.Power](text); err == nil {
			r.Load = job.Given[units.Power]{Value: rounded, Text: text, Known: job.Estimated, Set: true}
		}
	}
	return nil
}
