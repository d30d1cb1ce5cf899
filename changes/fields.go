package changes

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"curvewright/job"
)

// Single fields and entries, by their path.

// After the path of a quantity, either part of it as a document may write them.
const (
	knownPart = ".known"
	valuePart = ".value"
)

// Get gives what stands at a path: a value as it was written, a word, a count, yes, a
// list of texts with commas between. After a quantity's path, ".known" asks how it is
// known.
//
// Units: a quantity is given with its unit.
// Range: any job and path; what was left out is an empty text.
// Source: the format is our own.
// Errors: none; ok is false if the path leads nowhere or to several fields.
func Get(j *job.Job, path string) (text string, ok bool) {
	err := reach(job.Whole(j), path, false, func(s job.Spot) error {
		switch {
		case path == s.Path+knownPart:
			_, known, _ := s.Value()
			text = string(known)
		case s.Span && !s.Absent:
			text = spanText(s)
		case s.Kind == job.GroupSpot || s.Kind == job.ListSpot:
			return nowhere(path)
		default:
			text = textOf(s)
		}
		return nil
	})
	return text, err == nil
}

// Set puts text at a path, read as in a document: quantities in any unit, with how they
// are known left as it is. Nothing at all clears the field. A group that is absent on the
// way is made, unless it is one of several kinds and another kind is there. A circuit,
// room or construction that gets another name keeps what refers to it.
//
// Units: a quantity is read with its unit.
// Range: any job, finished or not; whether it makes sense is for [job.Check].
// Source: the format is our own.
// Errors: a [job.Fault] for text that cannot be read, or a path that leads nowhere; the
// job is then unchanged.
func Set(j *job.Job, path, text string) error {
	return reach(job.Whole(j), path, strings.TrimSpace(text) != "", func(s job.Spot) error {
		if path == s.Path+knownPart {
			return s.Say(job.Known(strings.TrimSpace(text)))
		}
		before := textOf(s)
		if err := s.Take(text); err != nil {
			return err
		}
		if list, renamed := referredTo(s.Pattern); renamed {
			list.follow(j, before, s)
		}
		return nil
	})
}

// Add adds an empty entry at the end of a list, or an empty group where it can be absent;
// of several kinds, the one that was there goes.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
// Errors: a path that leads nowhere or to a field that is always there.
func Add(j *job.Job, path string) error {
	return reach(job.Whole(j), path, true, func(s job.Spot) error {
		if s.Kind != job.ListSpot {
			return s.Make()
		}
		another, err := s.Another()
		if err != nil {
			return err
		}
		return s.Arrange(append(s.Within(), another))
	})
}

// Remove takes an entry out of a list, takes away a group that can be absent, or clears
// anything else. What referred to it is left, for [job.Check] to tell.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
// Errors: a path that leads nowhere.
func Remove(j *job.Job, path string) error {
	if list, i, is := entry(j, path); is {
		entries := list.Within()
		return list.Arrange(slices.Delete(entries, i, i+1))
	}
	return reach(job.Whole(j), path, false, func(s job.Spot) error {
		s.Put(s.Blank())
		return nil
	})
}

// Move puts an entry of a list at another place of it, counted from zero.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
// Errors: a path that leads to no entry of a list, or a place that the list has not.
func Move(j *job.Job, path string, to int) error {
	list, i, is := entry(j, path)
	if !is {
		return nowhere(path)
	}
	entries := list.Within()
	if to < 0 || to >= len(entries) {
		return fmt.Errorf("%s cannot be moved to place %d; accepted: 1 to %d", inWords(list.Place()), to+1, len(entries))
	}
	moved := entries[i]
	return list.Arrange(slices.Insert(slices.Delete(entries, i, i+1), to, moved))
}

// Duplicate puts a copy of an entry behind it, under a name that is not taken.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
// Errors: a path that leads to no entry of a list.
func Duplicate(j *job.Job, path string) error {
	list, i, is := entry(j, path)
	if !is {
		return nowhere(path)
	}
	entries := list.Within()
	if err := list.Arrange(slices.Insert(entries, i+1, entries[i])); err != nil {
		return err
	}
	if name := entries[i].Name(); name != "" {
		return field(list.Within()[i+1], "name").Take(freeName(name, entries))
	}
	return nil
}

// freeName counts on from a name until it is not taken: Bedroom, Bedroom 2.
func freeName(name string, entries []job.Spot) string {
	taken := map[string]bool{}
	for _, e := range entries {
		taken[strings.ToLower(e.Name())] = true
	}
	stem, n := name, 1
	if space := strings.LastIndexByte(name, ' '); space > 0 {
		if number, err := strconv.Atoi(name[space+1:]); err == nil && number > 0 && number < 1000 {
			stem, n = name[:space], number
		}
	}
	for {
		n++
		if free := fmt.Sprintf("%s %d", stem, n); !taken[strings.ToLower(free)] {
			return free
		}
	}
}

// reach walks to the spot of a path and does something with it. With make, groups that
// are absent on the way are there afterwards, if what was to be done succeeded.
func reach(s job.Spot, path string, make bool, do func(job.Spot) error) error {
	rest, leads := strings.CutPrefix(path, s.Path)
	switch {
	case !leads:
		return nowhere(path)
	case rest == "" && path != "", s.Kind == job.QuantitySpot && (rest == knownPart || rest == valuePart):
		return do(s)
	case s.Absent && !make:
		return nothingThere(s, path, do)
	case s.Absent:
		fresh := s.Blank()
		if err := fresh.Make(); err != nil {
			return err
		}
		fresh.Absent = false
		if err := reach(fresh, path, make, do); err != nil {
			return err
		}
		s.Put(fresh)
		return nil
	}
	inner := s.Within()
	i := slices.IndexFunc(inner, func(s job.Spot) bool { return s.Leads(path) })
	if i < 0 {
		return nowhere(path)
	}
	// Beneath a kind that is absent, nothing can be put beside the kind that is there.
	// The kind itself can be: that is a change of kind.
	if next := inner[i]; make && next.OneOf && next.Absent && next.Path != path {
		if other, is := chosen(inner); is {
			return fmt.Errorf("%s: is %s at present; change its kind first", inWords(next.Place()), inWords(lastOf(other.Path)))
		}
	}
	return reach(inner[i], path, make, do)
}

// nothingThere does something with a field of an absent group: it may be looked at and
// cleared, which changes nothing.
func nothingThere(s job.Spot, path string, do func(job.Spot) error) error {
	fresh := s.Blank()
	if err := fresh.Make(); err != nil {
		return err
	}
	fresh.Absent = false
	return reach(fresh, path, false, do)
}

// chosen is the kind that is there, of several of which there can be one.
func chosen(inner []job.Spot) (job.Spot, bool) {
	i := slices.IndexFunc(inner, func(s job.Spot) bool { return s.OneOf && !s.Absent })
	if i < 0 {
		return job.Spot{}, false
	}
	return inner[i], true
}

// entry finds the list that an entry belongs to.
func entry(j *job.Job, path string) (list job.Spot, index int, is bool) {
	open := strings.LastIndexByte(path, '[')
	if open < 0 || !strings.HasSuffix(path, "]") {
		return job.Spot{}, 0, false
	}
	list, found := job.At(j, path[:open])
	index, err := strconv.Atoi(path[open+1 : len(path)-1])
	if !found || err != nil || list.Kind != job.ListSpot || index < 0 || index >= list.Items || path != fmt.Sprintf("%s[%d]", list.Path, index) {
		return job.Spot{}, 0, false
	}
	return list, index, true
}

// field is a field of a group by its name; package job gives the names.
func field(group job.Spot, name string) job.Spot {
	inner := group.Within()
	return inner[slices.IndexFunc(inner, func(s job.Spot) bool { return lastOf(s.Path) == name })]
}

// lastOf is the last name of a path.
func lastOf(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

func nowhere(path string) error {
	return job.Fault{Path: path, Given: short(path), Problem: "is no place in this job; perhaps it was removed in the meantime"}
}

// short makes what came from outside fit to stand in a message.
func short(text string) string {
	if runes := []rune(text); len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return text
}
