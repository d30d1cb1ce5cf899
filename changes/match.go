package changes

import (
	"cmp"
	"slices"

	"curvewright/job"
)

// Which entry of one list is which entry of another.

// alike is the least share of what two entries hold that must be the same for one to be
// the other under a new name.
const alike = 0.5

// match gives for each entry of before its index in after, or -1 if it is not there.
func match(before, after []job.Spot) []int {
	m := matching{before: before, after: after, to: make([]int, len(before)), taken: make([]bool, len(after))}
	for i := range m.to {
		m.to[i] = -1
	}
	was, is := namesOf(before), namesOf(after)
	m.pair(func(i, k int) bool { return was[i] != "" && was[i] == is[k] })
	m.pair(func(i, k int) bool { return before[i].Same(after[k]) })
	if !slices.Contains(m.to, -1) || !slices.Contains(m.taken, false) {
		return m.to // nobody is left who could be somebody else
	}
	m.holds, m.held = contents(before), contents(after)
	if len(before) == len(after) { // no entry more or less: what stands in the same place was edited
		m.pair(func(i, k int) bool { return i == k && (was[i] == "" || m.likeness(i, k) >= alike) })
	}
	m.byLikeness()
	return m.to
}

func namesOf(entries []job.Spot) []string {
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = e.Name()
	}
	return names
}

type matching struct {
	before, after []job.Spot
	to            []int
	taken         []bool
	holds, held   []map[string]string
}

// pair matches the entries left over that are the same by some measure, in their order.
func (m *matching) pair(same func(i, k int) bool) {
	for i := range m.before {
		for k := 0; k < len(m.after) && m.to[i] < 0; k++ {
			if !m.taken[k] && same(i, k) {
				m.to[i], m.taken[k] = k, true
			}
		}
	}
}

// byLikeness matches the entries left over, those first that have most in common.
func (m *matching) byLikeness() {
	type couple struct {
		i, k     int
		likeness float64
	}
	var couples []couple
	for i := range m.before {
		for k := range m.after {
			if m.to[i] < 0 && !m.taken[k] {
				if l := m.likeness(i, k); l >= alike {
					couples = append(couples, couple{i, k, l})
				}
			}
		}
	}
	slices.SortStableFunc(couples, func(a, b couple) int { return cmp.Compare(b.likeness, a.likeness) })
	for _, c := range couples {
		if m.to[c.i] < 0 && !m.taken[c.k] {
			m.to[c.i], m.taken[c.k] = c.k, true
		}
	}
}

// likeness is the share of what two entries hold, beside their names, that is the same.
func (m *matching) likeness(i, k int) float64 {
	a, b := m.holds[i], m.held[k]
	if len(a) == 0 && len(b) == 0 {
		return 1
	}
	same := 0
	for path, text := range a {
		if b[path] == text {
			same++
		}
	}
	return float64(same) / float64(max(len(a), len(b)))
}

// contents are the fields of entries by their place within the entry, without its name.
func contents(entries []job.Spot) []map[string]string {
	all := make([]map[string]string, len(entries))
	for i, e := range entries {
		all[i] = map[string]string{}
		leaves(e, func(s job.Spot) {
			if within := s.Path[len(e.Path):]; within != ".name" {
				all[i][within] = textOf(s)
			}
		})
	}
	return all
}

// leaves visits the fields beneath a spot in which something stands.
func leaves(s job.Spot, visit func(job.Spot)) {
	for _, inner := range s.Within() {
		switch {
		case inner.Kind == job.GroupSpot || inner.Kind == job.ListSpot:
			leaves(inner, visit)
		case !inner.Empty():
			visit(inner)
		}
	}
}

// inOrder tells which entries have kept their order among each other: of the indexes
// given, the longest run that rises. Those that are -1 are not among them.
func inOrder(to []int) []bool {
	best, before := make([]int, len(to)), make([]int, len(to)) // the longest run that ends here
	last := -1
	for i, k := range to {
		before[i] = -1
		if k < 0 {
			continue
		}
		best[i] = 1
		for h := range i {
			if to[h] >= 0 && to[h] < k && best[h]+1 > best[i] {
				best[i], before[i] = best[h]+1, h
			}
		}
		if last < 0 || best[i] > best[last] {
			last = i
		}
	}
	kept := make([]bool, len(to))
	for ; last >= 0; last = before[last] {
		kept[last] = true
	}
	return kept
}
