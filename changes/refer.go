package changes

import (
	"slices"

	"curvewright/job"
)

// Names by which one part of a job refers to another.

// named is a list whose entries are referred to by their name.
type named struct {
	list string   // the pattern of the list
	from []string // the patterns of the fields that refer to it
}

// references are all the lists whose entries are referred to.
var references = []named{
	{"circuits", []string{"rooms[].emitters[].circuit", "circuits[].emitters[].circuit", "learned.emitters[].circuit"}},
	{"rooms", []string{"rooms[].elements[].room"}},
	{"constructions", []string{"rooms[].elements[].construction"}},
}

// referredTo gives the list of which a pattern is the name of the entries.
func referredTo(pattern string) (named, bool) {
	for _, n := range references {
		if pattern == n.list+"[].name" {
			return n, true
		}
	}
	return named{}, false
}

// refersTo gives the list that the fields of a pattern refer to.
func refersTo(pattern string) (named, bool) {
	for _, n := range references {
		if slices.Contains(n.from, pattern) {
			return n, true
		}
	}
	return named{}, false
}

// follow lets what refers to a name refer to the entry that has another one now, unless
// some entry still has the first.
func (n named) follow(j *job.Job, before string, now job.Spot) {
	if before == "" || now.Text() == "" || hasName(j, n.list, before) {
		return
	}
	for _, s := range job.Spots(j) {
		if slices.Contains(n.from, s.Pattern) && s.Text() == before {
			s.Put(now)
		}
	}
}

func hasName(j *job.Job, list, name string) bool {
	s, _ := job.At(j, list)
	return slices.ContainsFunc(s.Within(), func(e job.Spot) bool { return e.Name() == name })
}
