package changes

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
)

// house reads one of the examples.
func house(t testing.TB, name string) *job.Job {
	t.Helper()
	for _, e := range examples.List() {
		if e.Name == name {
			j, err := job.Read([]byte(e.Document))
			if err != nil {
				t.Fatal(err)
			}
			return j
		}
	}
	t.Fatalf("no example %s", name)
	return nil
}

func ridge(t testing.TB) *job.Job { return house(t, "ridge-house") }

// with is a copy of a job after some edits: a path and a text, or a verb and a path.
func with(t testing.TB, j *job.Job, edits ...string) *job.Job {
	t.Helper()
	j = job.Clone(j)
	for i := 0; i < len(edits); i += 2 {
		var err error
		switch verb, path := edits[i], edits[i+1]; verb {
		case "add":
			err = Add(j, path)
		case "remove":
			err = Remove(j, path)
		case "duplicate":
			err = Duplicate(j, path)
		case "to front":
			err = Move(j, path, 0)
		default:
			err = Set(j, verb, path)
		}
		if err != nil {
			t.Fatalf("%s %s: %v", edits[i], edits[i+1], err)
		}
	}
	return j
}

func equal(t testing.TB, got, want *job.Job) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("differs: %+v", Between(want, got))
	}
}

func get(t testing.TB, j *job.Job, path string) string {
	t.Helper()
	text, ok := Get(j, path)
	if !ok {
		t.Errorf("there is no %s", path)
	}
	return text
}

func TestSet(t *testing.T) {
	for _, c := range []struct{ path, text, reads, known string }{
		{"site.design_outdoor", "-20 °C", "-20 °C", ""},
		{"site.design_outdoor.value", " 4 F ", "4 F", ""},
		{"rooms[0].area", "20 m²", "20 m²", "measured"},
		{"house.storeys", "3", "3", ""},
		{"house.era", "1946-1979", "1946-1979", ""},
		{"rooms[1].wet_room", "yes", "yes", ""},
		{"rooms[1].wet_room", "true", "yes", ""},
		{"rooms[1].wet_room", "no", "", ""},
		{"notes", "two\nlines", "two\nlines", ""},
		{"frost.pipes_outside", "garage, attic\n crawl space", "garage, attic, crawl space", ""},
		{"hot_water.coil.flow", "", "", ""},
		{"house.fuel.volume", "900 gal", "900 gal", ""}, // the group was absent
		{"control.curve.bent.cold_outdoor", "-10 °C", "-10 °C", ""},
	} {
		j := with(t, ridge(t), c.path, c.text)
		if got := get(t, j, c.path); got != c.reads {
			t.Errorf("%s: %q reads %q", c.path, c.text, got)
		}
		if strings.HasPrefix(c.path, "rooms[0].area") && get(t, j, c.path+".known") != c.known {
			t.Errorf("%s is known by %q", c.path, get(t, j, c.path+".known"))
		}
	}
	j := with(t, ridge(t), "rooms[0].area.known", "drawings")
	if got := get(t, j, "rooms[0].area.known"); got != "drawings" || get(t, j, "rooms[0].area") != get(t, ridge(t), "rooms[0].area") {
		t.Errorf("known by %q", got)
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ path, text, says string }{
		{"site.design_outdoor", "20", "has no unit"},
		{"site.design_outdoor", "3 ft", "not a unit of a temperature"},
		{"house.storeys", "two", "is not a whole number"},
		{"house.era", "1950s", "is not one of the words"},
		{"house.glazing", "doubel", `did you mean "double"?`},
		{"frost.frost_by", "x", "is no place in this job"},
		{"control.frost_by", "indoors", "is not one of the words"},
		{"rooms[99].area", "20 m²", "is no place in this job"},
		{"rooms[0]", "Kitchen", "several fields belong"},
		{"rooms", "Kitchen", "several fields belong"},
		{"rooms[0].area.known", "guessed", "accepted: measured"},
		{"rooms[0].emitters[0].floor.area", "20 m²", "change its kind first"},
		{"notes", "\xff", "UTF-8"},
		{"", "x", "is no place in this job"},
		{"rooms[00].area", "20 m²", "is no place in this job"},
		{"site.design_outdoor.value.value", "20 °F", "is no place in this job"},
	} {
		j := ridge(t)
		err := Set(j, c.path, c.text)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s = %q: %v", c.path, c.text, err)
		}
		equal(t, j, ridge(t))
	}
}

func TestARenamedCircuitKeepsItsEmitters(t *testing.T) {
	j := with(t, ridge(t), "circuits[0].name", "Radiators", "constructions[0].name", "Stone wall")
	if err := job.Check(j); err != nil {
		t.Error(err)
	}
	if got := get(t, j, "rooms[0].emitters[0].circuit"); got != "Radiators" {
		t.Errorf("the emitter hangs on %q", got)
	}
	said := Sentence(Between(ridge(t), j))
	for _, part := range []string{`ircuit "House" renamed to "Radiators"`, `renamed to "Stone wall"`} {
		if !strings.Contains(said, part) || strings.Contains(said, "more") {
			t.Errorf("said as %s", said)
		}
	}
}

func TestEntries(t *testing.T) {
	j := with(t, ridge(t), "add", "rooms", "duplicate", "rooms[0]", "duplicate", "rooms[0]")
	n := len(ridge(t).Rooms)
	if len(j.Rooms) != n+3 || j.Rooms[n+2].Name != "" {
		t.Fatalf("%d rooms", len(j.Rooms))
	}
	first := j.Rooms[0].Name
	if j.Rooms[1].Name != first+" 3" || j.Rooms[2].Name != first+" 2" {
		t.Errorf("the copies are called %s and %s", j.Rooms[1].Name, j.Rooms[2].Name)
	}
	j.Rooms[1].Elements[0].Name = "changed"
	if j.Rooms[0].Elements[0].Name == "changed" {
		t.Error("a copy shares what is in it")
	}
	j = with(t, j, "remove", "rooms[1]", "remove", "rooms[1]", "remove", "rooms[11]")
	equal(t, j, ridge(t))
	if err := Move(j, "rooms[2]", 4); err != nil || j.Rooms[4].Name != ridge(t).Rooms[2].Name {
		t.Errorf("moved: %v", err)
	}
	// Another kind of emitter takes the place of the one that was there.
	j = with(t, ridge(t), "add", "rooms[0].emitters[0].radiator")
	if e := j.Rooms[0].Emitters[0]; e.Radiator == nil || e.FinTube != nil || e.CastIron != nil || e.Circuit == "" {
		t.Errorf("the emitter is %+v", e)
	}
	j = with(t, ridge(t), "remove", "circuits[0].pump", "add", "circuits[0].pump.points")
	if p := j.Circuits[0].Pump; p == nil || len(p.Points) != 1 {
		t.Errorf("the pump is %+v", p)
	}
	for what, err := range map[string]error{
		"move past the end": Move(j, "rooms[0]", n), "move nothing": Move(j, "rooms[99]", 0), "move a field": Move(j, "site", 0),
		"remove nothing": Remove(j, "rooms[99]"), "copy a field": Duplicate(j, "site.elevation"), "add a field": Add(j, "site.elevation"),
		"add nowhere": Add(j, "cellar"), "remove beneath nothing": Remove(j, "rooms[99].area"),
	} {
		if err == nil {
			t.Errorf("%s was granted", what)
		}
	}
}

func TestBetweenSaysWhatChanged(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  string
	}{
		{nil, ""},
		{[]string{"site.design_outdoor", "-5 °F"}, "Site: design outdoor −6 °F → −5 °F"},
		{[]string{"site.annual_mean", "9 °C"}, "Site: annual mean 42 °F → 9 °C"},
		{[]string{"job", "Ridge"}, "Name of the job Marchbanks house → Ridge"},
		{[]string{"house.storeys", "", "house.gains", "500 W"}, "House: storeys left out, was 2; gains 500 W"},
		{[]string{"remove", "rooms[1]"}, `Room "Kitchen" removed`},
		{[]string{"to front", "rooms[5]"}, `Room "Main bedroom" moved from place 6 to 1`},
		{[]string{"rooms[1].name", "Galley"}, `Room "Kitchen" renamed to "Galley"`},
		{[]string{"duplicate", "rooms[1]"}, `Room "Kitchen 2" added`},
		{[]string{"remove", "circuits[0].pipes[0]"}, `Circuit "House" › pipe 1 removed`},
		{[]string{"circuits[0].pipes[1].bends", "15"}, `Circuit "House" › pipe 2: bends 14 → 15`},
		{[]string{"control.curve.bent.cold_outdoor.to", "30 °F"}, `Control › curve › bent: cold outdoor −30 °F to 32 °F → −30 °F to 30 °F`},
		{[]string{"remove", "hot_water.coil"}, `Hot water › coil removed`},
		{[]string{"frost.pipes_outside", "garage, attic"}, `Frost: pipes outside garage → garage, attic`},
		{
			[]string{"site.elevation", "9 m", "house.storeys", "3", "boiler.kind", "non-condensing", "boiler.fuel", "propane", "program.bed", "23:00"},
			"Site: elevation 2,400 ft → 9 m; house: storeys 2 → 3; boiler: kind condensing → non-condensing; and 2 more",
		},
	} {
		if got := Sentence(Between(ridge(t), with(t, ridge(t), c.edits...))); got != c.want {
			t.Errorf("%v is told as\n%s, not\n%s", c.edits, got, c.want)
		}
	}
}

func TestMergeTakesBoth(t *testing.T) {
	base := ridge(t)
	for _, c := range []struct {
		claim              string
		ours, theirs, want []string
	}{
		{"different fields", []string{"site.elevation", "9 m"}, []string{"boiler.fuel", "propane"}, []string{"site.elevation", "9 m", "boiler.fuel", "propane"}},
		{"the same change", []string{"boiler.fuel", "propane"}, []string{"boiler.fuel", "propane"}, []string{"boiler.fuel", "propane"}},
		{"a room moved by one, measured by the other", []string{"to front", "rooms[5]"}, []string{"rooms[5].area", "10 m²"}, []string{"rooms[5].area", "10 m²", "to front", "rooms[5]"}},
		{"a room measured by one, moved by the other", []string{"rooms[5].area", "10 m²"}, []string{"to front", "rooms[5]"}, []string{"rooms[5].area", "10 m²", "to front", "rooms[5]"}},
		{"a room removed by one, another measured", []string{"remove", "rooms[0]"}, []string{"rooms[1].area", "10 m²"}, []string{"rooms[1].area", "10 m²", "remove", "rooms[0]"}},
		{"a room measured, another removed", []string{"rooms[1].area", "10 m²"}, []string{"remove", "rooms[0]"}, []string{"rooms[1].area", "10 m²", "remove", "rooms[0]"}},
		{"a room renamed by one, measured by the other", []string{"rooms[1].name", "Galley"}, []string{"rooms[1].area", "10 m²"}, []string{"rooms[1].name", "Galley", "rooms[1].area", "10 m²"}},
		{"a circuit renamed by one, a room added by the other", []string{"circuits[0].name", "Radiators"}, []string{"duplicate", "rooms[1]"}, []string{"duplicate", "rooms[1]", "circuits[0].name", "Radiators"}},
		{"a room added by one, a circuit renamed by the other", []string{"duplicate", "rooms[1]"}, []string{"circuits[0].name", "Radiators"}, []string{"duplicate", "rooms[1]", "circuits[0].name", "Radiators"}},
		{"rooms added by both", []string{"duplicate", "rooms[1]"}, []string{"duplicate", "rooms[4]"}, []string{"duplicate", "rooms[4]", "duplicate", "rooms[1]"}},
		{"the same room added by both", []string{"duplicate", "rooms[1]"}, []string{"duplicate", "rooms[1]"}, []string{"duplicate", "rooms[1]"}},
		{"pipes removed and edited", []string{"remove", "circuits[0].pipes[0]"}, []string{"circuits[0].pipes[1].bends", "15"}, []string{"circuits[0].pipes[1].bends", "15", "remove", "circuits[0].pipes[0]"}},
		{"texts added by both", []string{"frost.pipes_outside", "garage, attic"}, []string{"frost.pipes_outside", "crawl space"}, []string{"frost.pipes_outside", "attic, crawl space"}},
		{"a kind changed by one, the emitter named by the other", []string{"add", "rooms[5].emitters[0].radiator", "rooms[5].emitters[0].radiator.output", "900 W"}, []string{"rooms[5].emitters[0].name", "window"}, []string{"rooms[5].emitters[0].name", "window", "add", "rooms[5].emitters[0].radiator", "rooms[5].emitters[0].radiator.output", "900 W"}},
		{"the other way round", []string{"rooms[5].emitters[0].name", "window"}, []string{"add", "rooms[5].emitters[0].radiator", "rooms[5].emitters[0].radiator.output", "900 W"}, []string{"rooms[5].emitters[0].name", "window", "add", "rooms[5].emitters[0].radiator", "rooms[5].emitters[0].radiator.output", "900 W"}},
		{"a group made by both", []string{"house.fuel.fuel", "propane", "house.fuel.degree_days", "5,500 °F·day"}, []string{"house.fuel.volume", "900 gal"}, []string{"house.fuel.fuel", "propane", "house.fuel.degree_days", "5,500 °F·day", "house.fuel.volume", "900 gal"}},
	} {
		merged, conflicts := Merge(base, with(t, base, c.ours...), with(t, base, c.theirs...))
		if len(conflicts) > 0 {
			t.Errorf("%s: %+v", c.claim, conflicts)
		}
		if want := with(t, base, c.want...); !reflect.DeepEqual(merged, want) {
			t.Errorf("%s: what is merged differs by %+v", c.claim, Between(want, merged))
		}
	}
	equal(t, base, ridge(t))
}

func TestMergeReportsConflicts(t *testing.T) {
	base := ridge(t)
	for _, c := range []struct {
		claim        string
		ours, theirs []string
		want         []Conflict
		after        []string // theirs taken
	}{
		{
			"one field",
			[]string{"site.elevation", "9 m"},
			[]string{"site.elevation", "8 m"},
			[]Conflict{{Path: "site.elevation", Label: "site: elevation", Base: "2,400 ft", Ours: "9 m", Theirs: "8 m"}},
			[]string{"site.elevation", "8 m"},
		},
		{
			"a room measured by both, and moved",
			[]string{"rooms[5].area", "9 m²"},
			[]string{"rooms[5].area", "8 m²", "to front", "rooms[5]"},
			[]Conflict{{Path: "rooms[0].area", Label: `room "Main bedroom": area`, Base: "224 ft² (measured)", Ours: "9 m² (measured)", Theirs: "8 m² (measured)"}},
			[]string{"rooms[5].area", "8 m²", "to front", "rooms[5]"},
		},
		{
			"a room removed by one, measured by the other",
			[]string{"remove", "rooms[9]"},
			[]string{"rooms[9].area", "8 m²"},
			[]Conflict{{Path: "rooms", Label: `room "Landing"`, Base: "Landing", Theirs: `Room "Landing": area 234 ft² (measured) → 8 m² (measured)`}},
			nil,
		},
		{
			"a room measured by one, removed by the other",
			[]string{"rooms[9].area", "8 m²"},
			[]string{"remove", "rooms[9]"},
			[]Conflict{{Path: "rooms[9]", Label: `room "Landing"`, Base: "Landing", Ours: `Room "Landing": area 234 ft² (measured) → 8 m² (measured)`}},
			[]string{"remove", "rooms[9]"},
		},
		{
			"a circuit renamed by both",
			[]string{"circuits[0].name", "Radiators"},
			[]string{"circuits[0].name", "Old house"},
			[]Conflict{{Path: "circuits[0].name", Label: `circuit "Radiators": name`, Base: "House", Ours: "Radiators", Theirs: "Old house"}},
			nil,
		},
		{
			"two kinds of emitter",
			[]string{"add", "rooms[5].emitters[0].radiator", "rooms[5].emitters[0].radiator.output", "900 W"},
			[]string{"rooms[5].emitters[0].fin_tube.length", "10 ft"},
			[]Conflict{{Path: "rooms[5].emitters[0].fin_tube", Label: `room "Main bedroom" › emitter 1 › fin tube`,
				Base: "fin tube 17 ft (measured), 560 Btu/h·ft, 180 °F", Ours: "radiator 900 W", Theirs: "fin tube 10 ft (measured), 560 Btu/h·ft, 180 °F"}},
			[]string{"rooms[5].emitters[0].fin_tube.length", "10 ft"},
		},
		{
			"what belongs together apart",
			[]string{"constructions[0].u", "U-0.1", "remove", "constructions[0].layers"},
			[]string{"duplicate", "constructions[0].layers[0]"},
			nil, nil,
		},
	} {
		ours, theirs := with(t, base, c.ours...), with(t, base, c.theirs...)
		merged, conflicts := Merge(base, ours, theirs)
		if len(conflicts) == 0 {
			t.Errorf("%s: no conflict", c.claim)
		}
		if c.want == nil {
			continue
		}
		after := job.Clone(merged)
		for i := range conflicts {
			if err := conflicts[i].TakeTheirs(after); err != nil {
				t.Errorf("%s: %v", c.claim, err)
			}
			conflicts[i].theirs = job.Spot{}
		}
		if !reflect.DeepEqual(conflicts, c.want) {
			t.Errorf("%s:\n%+v, not\n%+v", c.claim, conflicts, c.want)
		}
		if c.after != nil {
			equal(t, after, with(t, base, c.after...))
		}
		if err := job.Check(merged); err != nil {
			t.Errorf("%s: %v", c.claim, err)
		}
	}
}

// One takes a circuit away while the other hangs a room on it: each is in order, and
// both together are not.
func TestMergeTellsWhatDoesNotFitTogether(t *testing.T) {
	base := with(t, ridge(t), "add", "circuits", "circuits[2].name", "Attic", "circuits[2].kind", "direct")
	ours := with(t, base, "remove", "circuits[2]")
	theirs := with(t, base, "rooms[5].emitters[0].circuit", "Attic")
	merged, conflicts := Merge(base, ours, theirs)
	if len(conflicts) == 0 || !slices.ContainsFunc(conflicts, func(c Conflict) bool {
		return strings.Contains(c.Why, "is not the name of a circuit") && c.Path == "rooms[5].emitters[0].circuit"
	}) {
		t.Errorf("%+v", conflicts)
	}
	for _, c := range conflicts {
		if err := c.TakeTheirs(merged); (err == nil) != (c.Why == "") {
			t.Errorf("%+v: %v", c, err)
		}
	}
	var faults *job.Faults
	if !errors.As(job.Check(merged), &faults) {
		t.Error("the merged job passes")
	}
}

func TestUndo(t *testing.T) {
	before := ridge(t)
	after := with(t, before, "site.elevation", "9 m", "remove", "rooms[1]")
	newest := with(t, after, "boiler.fuel", "propane", "rooms[1].area", "10 m²")
	undone, conflicts := Undo(newest, before, after)
	if len(conflicts) > 0 {
		t.Errorf("%+v", conflicts)
	}
	equal(t, undone, with(t, before, "boiler.fuel", "propane", "rooms[2].area", "10 m²"))
	again, conflicts := Undo(undone, newest, undone)
	if len(conflicts) > 0 {
		t.Errorf("%+v", conflicts)
	}
	equal(t, again, newest)
}
