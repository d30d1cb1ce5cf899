package changes

import (
	"errors"
	"slices"
	"strings"

	"curvewright/job"
)

// Two people worked on one job at the same time, or a change is to be taken back after
// others were made: both are a merge of three versions.

// Conflict is a place where two versions cannot both be had.
type Conflict struct {
	Path               string // in the merged job; of an entry that it has not, its list
	Label              string // the place in words
	Base, Ours, Theirs string // what stands there in each version; empty: nothing
	Why                string // where the parts do not fit together: what is wrong

	theirs job.Spot
}

// Merge brings two changes of one job together, field by field; what both changed alike
// is no conflict. Where they differ the merged job holds ours. What cannot be so
// according to [job.Check], and was so in neither version, is a conflict as well.
//
// Units: values are kept as they were written.
// Range: any three jobs, finished or not.
// Source: three-way merge, common practice.
func Merge(base, ours, theirs *job.Job) (*job.Job, []Conflict) {
	m := merge{merged: job.Clone(ours)}
	b, o, t := job.Whole(base), job.Whole(m.merged), job.Whole(theirs)
	if settled(b, o, t) {
		return m.merged, nil
	}
	m.group(b, o, t)
	for _, n := range references {
		m.follow(n, renames(base, ours, n.list), renames(base, theirs, n.list))
	}
	for i, c := range m.conflicts {
		if s, found := job.At(m.merged, c.Path); found && s.Pattern == c.theirs.Pattern {
			m.conflicts[i].Label = label(s) // entries may have moved since
		}
	}
	m.check(ours, theirs)
	return m.merged, m.conflicts
}

// Undo takes back the change that led from before to after, and leaves in newest what
// was changed besides.
//
// Units: values are kept as they were written.
// Range: any three jobs, finished or not.
// Source: three-way merge, common practice.
func Undo(newest, before, after *job.Job) (*job.Job, []Conflict) { return Merge(after, newest, before) }

// TakeTheirs decides a conflict for the other version: it changes the merged job.
//
// Units: values are kept as they were written.
// Range: conflicts of a merge, in the job that it gave; of several, the last first where
// they lie in one list.
// Source: the format is our own.
// Errors: a conflict about parts that do not fit together, or of another job.
func (c Conflict) TakeTheirs(merged *job.Job) error {
	if c.Why != "" {
		return errors.New(c.Label + ": " + c.Why + "; change one of the parts")
	}
	s, found := job.At(merged, c.Path)
	switch {
	case !found:
		return nowhere(c.Path)
	case s.Pattern == c.theirs.Pattern && s.Kind == c.theirs.Kind:
		if s.OneOf && !c.theirs.Empty() {
			if err := Add(merged, c.Path); err != nil { // the kind that was there goes
				return err
			}
		}
		s.Put(c.theirs)
		return nil
	case s.Kind == job.ListSpot: // an entry that the merged job has not
		return s.Arrange(append(s.Within(), c.theirs))
	}
	return Remove(merged, c.Path) // an entry that theirs has not
}

type merge struct {
	merged    *job.Job
	conflicts []Conflict
}

// settled brings three spots together where at most one side changed, or both alike:
// ours then holds the result.
func settled(base, ours, theirs job.Spot) bool {
	switch {
	case theirs.Same(base) || theirs.Same(ours):
		return true
	case ours.Same(base):
		ours.Put(theirs)
		return true
	}
	return false
}

func (m *merge) conflict(base, ours, theirs job.Spot) {
	m.conflicts = append(m.conflicts, Conflict{
		Path: ours.Path, Label: label(ours), Base: gist(base), Ours: gist(ours), Theirs: gist(theirs), theirs: theirs,
	})
}

// gist is what stands at a spot of whatever kind.
func gist(s job.Spot) string {
	if s.Kind == job.GroupSpot && !s.Span || s.Kind == job.ListSpot {
		return brief(s)
	}
	return said(s)
}

// group merges three groups that are there.
func (m *merge) group(base, ours, theirs job.Spot) {
	b, o, t := base.Within(), ours.Within(), theirs.Within()
	for i := range o {
		if !o[i].OneOf && !t[i].OneOf {
			m.spot(b[i], o[i], t[i])
		}
	}
	m.kinds(b, o, t)
}

// kinds merges what can be of one kind only: an emitter, the shape of a curve.
func (m *merge) kinds(b, o, t []job.Spot) {
	was, ours, theirs := kindOf(b), kindOf(o), kindOf(t)
	switch {
	case ours == theirs:
		if ours >= 0 {
			m.spot(b[ours], o[ours], t[ours])
		}
	case theirs == was && (was < 0 || t[was].Same(b[was])):
		// Ours changed the kind; theirs did nothing.
	case ours == was && (was < 0 || o[was].Same(b[was])):
		become(o, t, theirs)
	default:
		at := theirs
		if at < 0 {
			at = ours
		}
		m.conflicts = append(m.conflicts, Conflict{
			Path: o[at].Path, Label: label(o[at]), Base: ofKind(b, was), Ours: ofKind(o, ours), Theirs: ofKind(t, theirs), theirs: t[at],
		})
	}
}

// kindOf is the index of the kind that is there, or -1.
func kindOf(inner []job.Spot) int {
	return slices.IndexFunc(inner, func(s job.Spot) bool { return s.CanBeAbsent() && s.OneOf && !s.Absent })
}

// become gives ours the kind that theirs has, or none.
func become(o, t []job.Spot, theirs int) {
	for i := range o {
		if o[i].OneOf && i != theirs {
			o[i].Put(o[i].Blank())
		}
	}
	if theirs >= 0 {
		o[theirs].Put(t[theirs])
	}
}

// ofKind tells a kind with what it holds.
func ofKind(inner []job.Spot, kind int) string {
	if kind < 0 {
		return ""
	}
	return strings.TrimSpace(inWords(lastOf(inner[kind].Path)) + " " + brief(inner[kind]))
}

// spot merges three fields.
func (m *merge) spot(b, o, t job.Spot) {
	switch {
	case settled(b, o, t):
	case o.Kind == job.ListSpot:
		m.list(b, o, t)
	case o.Kind == job.WordsSpot:
		m.texts(b, o, t)
	case o.Kind != job.GroupSpot:
		if !sameMeaning(o, t) {
			m.conflict(b, o, t)
		}
	case o.Absent || t.Absent:
		m.conflict(b, o, t)
	case b.Absent: // both made it
		b = b.Blank()
		if b.Make() == nil {
			m.group(b, o, t)
		}
	default:
		m.group(b, o, t)
	}
}

// sameMeaning tells whether two quantities are the same, though perhaps not written so.
func sameMeaning(o, t job.Spot) bool {
	a, how, _ := o.Value()
	b, known, _ := t.Value()
	return o.Kind == job.QuantitySpot && a == b && how == known
}

// texts merges lists of texts as sets: what either side added is in, what either side
// removed is out.
func (m *merge) texts(base, ours, theirs job.Spot) {
	b, o, t := base.Texts(), ours.Texts(), theirs.Texts()
	var merged []string
	for _, text := range o {
		if slices.Contains(t, text) || !slices.Contains(b, text) {
			merged = append(merged, text)
		}
	}
	for _, text := range t {
		if !slices.Contains(o, text) && !slices.Contains(b, text) {
			merged = append(merged, text)
		}
	}
	if err := ours.SetTexts(merged); err != nil {
		m.conflict(base, ours, theirs)
	}
}

// follow lets references go with entries that one side renamed.
func (m *merge) follow(n named, ours, theirs map[string]string) {
	list, _ := job.At(m.merged, n.list)
	for _, e := range list.Within() {
		for _, names := range []map[string]string{ours, theirs} {
			for before, after := range names {
				if after == e.Name() {
					n.follow(m.merged, before, field(e, "name"))
				}
			}
		}
	}
	// Where both sides gave an entry another name, ours stays, and what refers to it
	// keeps to that: the name is the one conflict.
	for before, wanted := range theirs {
		kept := ours[before]
		if kept == "" || kept == wanted {
			continue
		}
		at := slices.IndexFunc(list.Within(), func(e job.Spot) bool { return e.Name() == kept })
		if at >= 0 {
			n.follow(m.merged, wanted, field(list.Within()[at], "name"))
		}
		m.conflicts = slices.DeleteFunc(m.conflicts, func(c Conflict) bool {
			of, is := refersTo(c.theirs.Pattern)
			return is && of.list == n.list && c.Ours == kept && c.Theirs == wanted
		})
	}
}

// check tells what does not fit together any more.
func (m *merge) check(ours, theirs *job.Job) {
	var found, had, other *job.Faults
	if !errors.As(job.Check(m.merged), &found) {
		return
	}
	known := map[string]bool{}
	for _, v := range []struct {
		version *job.Job
		faults  **job.Faults
	}{{ours, &had}, {theirs, &other}} {
		if errors.As(job.Check(v.version), v.faults) {
			for _, f := range (*v.faults).List {
				known[f.Place+f.Problem] = true
			}
		}
	}
	for _, f := range found.List {
		if known[f.Place+f.Problem] {
			continue
		}
		why := f.Problem
		if f.Accept != "" {
			why += "; accepted: " + f.Accept
		}
		m.conflicts = append(m.conflicts, Conflict{Path: f.Path, Label: inWords(f.Place), Ours: f.Given, Why: why})
	}
}
