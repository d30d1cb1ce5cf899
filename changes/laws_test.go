package changes

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/examples"
	"curvewright/job"
)

// aJob draws one of the examples.
func aJob(t *rapid.T) *job.Job {
	e := rapid.SampledFrom(examples.List()).Draw(t, "example")
	j, err := job.Read([]byte(e.Document))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// text draws something that a spot could be asked to hold; most of it can be read.
func text(t *rapid.T, s job.Spot) string {
	switch s.Kind {
	case job.QuantitySpot:
		return rapid.SampledFrom(append(strings.Split(s.Accepts(), ", "), "", "7 m", "20 °C", "1.5")).Draw(t, "quantity")
	case job.WordSpot, job.YesSpot:
		return rapid.SampledFrom(append([]string{"", "yes"}, s.Words...)).Draw(t, "word")
	case job.CountSpot:
		return rapid.SampledFrom([]string{"", "1", "2", "12", "-3", "two"}).Draw(t, "count")
	}
	return rapid.SampledFrom([]string{"", "Attic", "Kitchen", "House", "tank", "a, b", "-", "Ostübli 2"}).Draw(t, "text")
}

// edit changes a job somewhere. It may fail, which must change nothing.
func edit(t *rapid.T, j *job.Job) {
	spots := job.Spots(j)
	s := rapid.SampledFrom(spots).Draw(t, "spot")
	before := job.Clone(j)
	var err error
	switch what := rapid.IntRange(0, 9).Draw(t, "what"); {
	case s.Kind == job.ListSpot && s.Items > 0:
		i := rapid.IntRange(0, s.Items-1).Draw(t, "entry")
		path := s.Within()[i].Path
		switch what {
		case 0, 1:
			err = Remove(j, path)
		case 2, 3:
			err = Duplicate(j, path)
		case 4:
			err = Add(j, s.Path)
		default:
			err = Move(j, path, rapid.IntRange(0, s.Items-1).Draw(t, "to"))
		}
	case s.Kind == job.ListSpot || s.Kind == job.GroupSpot && s.Absent:
		err = Add(j, s.Path)
	case s.Kind == job.GroupSpot && s.CanBeAbsent() && what < 3:
		err = Remove(j, s.Path)
	case s.Kind == job.QuantitySpot && what < 2:
		err = Set(j, s.Path+".known", rapid.SampledFrom([]string{"measured", "estimated", "", "guessed"}).Draw(t, "known"))
	default:
		err = Set(j, s.Path, text(t, s))
	}
	if err != nil && !reflect.DeepEqual(before, j) {
		t.Fatalf("%v, and changed: %+v", err, Between(before, j))
	}
}

// edited is a copy of a job after a few edits.
func edited(t *rapid.T, j *job.Job) *job.Job {
	j = job.Clone(j)
	for range rapid.IntRange(1, 5).Draw(t, "edits") {
		edit(t, j)
	}
	return j
}

func mustEqual(t *rapid.T, claim string, got, want *job.Job) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("%s: %+v", claim, Between(want, got))
	}
}

func TestMergeWithoutAnotherChangeIsThatChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := aJob(t)
		kept := job.Clone(base)
		change := edited(t, base)
		for _, m := range []struct {
			claim        string
			ours, theirs *job.Job
		}{{"ours alone", change, base}, {"theirs alone", base, change}, {"both alike", change, job.Clone(change)}} {
			merged, conflicts := Merge(base, m.ours, m.theirs)
			if len(conflicts) > 0 {
				t.Fatalf("%s: %+v", m.claim, conflicts)
			}
			mustEqual(t, m.claim, merged, change)
		}
		mustEqual(t, "the base", base, kept)
		if same := Between(base, change); (len(same) == 0) != reflect.DeepEqual(base, change) {
			t.Fatalf("told as %+v", same)
		}
	})
}

// Two people who each change one field, and not the same, get the same job whoever
// saves first.
func TestMergeOfDifferentFieldsCommutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := aJob(t)
		var fields []job.Spot
		for _, s := range job.Spots(base) {
			if s.Kind != job.ListSpot && s.Kind != job.GroupSpot && !strings.HasSuffix(s.Path, "name") {
				fields = append(fields, s)
			}
		}
		one, other := rapid.SampledFrom(fields).Draw(t, "one"), rapid.SampledFrom(fields).Draw(t, "other")
		if one.Path == other.Path {
			return
		}
		a, b, both := job.Clone(base), job.Clone(base), job.Clone(base)
		first, second := text(t, one), text(t, other)
		if Set(a, one.Path, first) != nil || Set(b, other.Path, second) != nil || Set(both, one.Path, first) != nil || Set(both, other.Path, second) != nil {
			return
		}
		ab, conflicts := Merge(base, a, b)
		ba, _ := Merge(base, b, a)
		for _, c := range conflicts {
			if c.Why == "" {
				t.Fatalf("%+v", c)
			}
		}
		mustEqual(t, "theirs into ours", ab, both)
		mustEqual(t, "ours into theirs", ba, both)
	})
}

// Whatever two people did: nothing falls over, what is merged can be written and read
// again, and it is in order or somebody is told why not.
func TestMergeOfAnythingIsAJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := aJob(t)
		ours, theirs := edited(t, base), edited(t, base)
		kept := job.Clone(ours)
		merged, conflicts := Merge(base, ours, theirs)
		mustEqual(t, "ours", ours, kept)
		if job.Check(ours) == nil && job.Check(theirs) == nil && job.Check(merged) != nil && len(conflicts) == 0 {
			t.Fatalf("nobody is told of %v", job.Check(merged))
		}
		document, err := job.Write(merged)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := job.Draft(document); again == nil {
			t.Fatal(err)
		}
		for i := len(conflicts) - 1; i >= 0; i-- {
			if c := conflicts[i]; c.Label == "" || c.Why == "" && c.TakeTheirs(merged) != nil {
				t.Fatalf("cannot be decided: %+v", c)
			}
		}
		Sentence(Between(ours, merged))
	})
}

func TestUndoAfterAnEditRestores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := aJob(t)
		after := edited(t, before)
		undone, conflicts := Undo(after, before, after)
		if len(conflicts) > 0 {
			t.Fatalf("%+v", conflicts)
		}
		mustEqual(t, "undone", undone, before)
	})
}

// What Get gives, Set takes, at every path of every example.
func TestGetAndSetAgree(t *testing.T) {
	for _, e := range examples.List() {
		j := house(t, e.Name)
		for _, s := range job.Spots(j) {
			text, ok := Get(j, s.Path)
			if group := s.Kind == job.ListSpot || s.Kind == job.GroupSpot && (!s.Span || s.Absent); group == ok {
				t.Errorf("%s: %s can be asked for: %v", e.Name, s.Path, ok)
			}
			if !ok || text == "" {
				continue
			}
			if err := Set(j, s.Path, text); err != nil {
				t.Errorf("%s: %s: %v", e.Name, s.Path, err)
			}
			if s.Kind == job.QuantitySpot {
				known, ok := Get(j, s.Path+".known")
				if err := Set(j, s.Path+".known", known); err != nil || !ok {
					t.Errorf("%s: %s.known: %v", e.Name, s.Path, err)
				}
			}
		}
		equal(t, j, house(t, e.Name))
	}
}

// Whatever path and text come from a form: nothing falls over, a refusal changes
// nothing, and what was set is there.
func FuzzSet(f *testing.F) {
	if seeds, err := os.ReadDir("testdata/fuzz/FuzzSet"); err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	base := ridge(f)
	for _, s := range job.Spots(base) {
		f.Add(s.Path, textOf(s))
	}
	f.Fuzz(func(t *testing.T, path, text string) {
		j := job.Clone(base)
		if err := Set(j, path, text); err != nil {
			if err.Error() == "" {
				t.Error("refused without a word")
			}
			equal(t, j, base)
			return
		}
		got, ok := Get(j, path)
		if !ok || (got == "") != (strings.TrimSpace(text) == "") && got != "" {
			t.Errorf("%q set to %q gives %q, %v", path, text, got, ok)
		}
		if err := Set(j, path, got); err != nil {
			t.Errorf("%q does not take its own %q: %v", path, got, err)
		}
		if _, err := job.Write(j); err != nil {
			t.Errorf("%q set to %q cannot be written: %v", path, text, err)
		}
		shaped := job.Clone(base)
		for _, err := range []error{Add(shaped, path), Duplicate(shaped, path), Move(shaped, path, 0), Remove(shaped, path)} {
			if err != nil && err.Error() == "" {
				t.Error("refused without a word")
			}
		}
	})
}

func BenchmarkMerge(b *testing.B) {
	base := ridge(b)
	ours, theirs := with(b, base, "rooms[1].area", "10 m²", "to front", "rooms[3]"), with(b, base, "rooms[2].area", "12 m²", "duplicate", "rooms[4]")
	for b.Loop() {
		Merge(base, ours, theirs)
	}
}

func BenchmarkBetween(b *testing.B) {
	base := ridge(b)
	after := with(b, base, "rooms[1].area", "10 m²", "to front", "rooms[3]")
	for b.Loop() {
		Sentence(Between(base, after))
	}
}

func BenchmarkSet(b *testing.B) {
	j := ridge(b)
	for b.Loop() {
		if err := Set(j, "rooms[8].elements[1].area", "12 m²"); err != nil {
			b.Fatal(err)
		}
	}
}
