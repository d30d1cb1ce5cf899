package changes

import (
	"fmt"
	"slices"
	"strings"

	"curvewright/job"
)

// Merging the entries of lists.

// row is an entry of the merged list.
type row struct {
	spot         job.Spot
	ours, theirs int // where it stands in either list, or -1
}

// list merges three lists: what either side added is in, what either side removed is
// out, unless the other side changed it.
func (m *merge) list(base, ours, theirs job.Spot) {
	b, o, t := base.Within(), ours.Within(), theirs.Within()
	toOurs, toTheirs := match(b, o), match(b, t)
	earlier := len(m.conflicts)
	var rows []row
	used := make([]bool, len(t))
	for k, entry := range o {
		i := slices.Index(toOurs, k)
		switch {
		case i < 0:
			same := addedByBoth(entry, t, toTheirs, used)
			if same >= 0 {
				used[same] = true
				if another, err := base.Another(); err == nil {
					m.spot(another, entry, t[same])
				}
			}
			rows = append(rows, row{entry, k, same})
		case toTheirs[i] >= 0:
			used[toTheirs[i]] = true
			m.spot(b[i], entry, t[toTheirs[i]])
			rows = append(rows, row{entry, k, toTheirs[i]})
		case !entry.Same(b[i]): // theirs removed what ours changed
			m.conflicts = append(m.conflicts, Conflict{Path: entry.Path, Label: label(entry), Base: brief(b[i]), Ours: edits(b[i], entry)})
			rows = append(rows, row{entry, k, -1})
		}
	}
	for k, entry := range t {
		i := slices.Index(toTheirs, k)
		switch {
		case used[k]:
		case i < 0:
			rows = append(rows, row{entry, -1, k})
		case !entry.Same(b[i]): // ours removed what theirs changed
			m.conflicts = append(m.conflicts, Conflict{Path: ours.Path, Label: label(entry), Base: brief(b[i]), Theirs: edits(b[i], entry), theirs: entry})
		}
	}
	m.arrange(ours, rows, earlier, order(toOurs, toTheirs))
}

// edits says what one side did to an entry that the other removed.
func edits(before, after job.Spot) string {
	var c comparison
	c.entry(before, after)
	return Sentence(c.found)
}

// addedByBoth finds what theirs added that is what ours added too: of the same name, or
// alike to the letter.
func addedByBoth(entry job.Spot, t []job.Spot, toTheirs []int, used []bool) int {
	for k := range t {
		named := entry.Name() != "" && entry.Name() == t[k].Name()
		if !used[k] && !slices.Contains(toTheirs, k) && (named || entry.Same(t[k])) {
			return k
		}
	}
	return -1
}

// sequence says whose order a merged list takes.
type sequence int

const (
	ofOurs sequence = iota
	ofTheirs
	inDispute // ours stands
)

// order judges whose order of the entries that all three have is new.
func order(toOurs, toTheirs []int) sequence {
	var o, t []int
	for i := range toOurs {
		if toOurs[i] >= 0 && toTheirs[i] >= 0 {
			o, t = append(o, toOurs[i]), append(t, toTheirs[i])
		}
	}
	switch {
	case slices.IsSorted(t):
		return ofOurs
	case slices.IsSorted(o):
		return ofTheirs
	case slices.Equal(ranks(o), ranks(t)):
		return ofOurs
	}
	return inDispute
}

// ranks numbers figures by their size.
func ranks(of []int) []int {
	sorted := slices.Sorted(slices.Values(of))
	all := make([]int, len(of))
	for i, v := range of {
		all[i], _ = slices.BinarySearch(sorted, v)
	}
	return all
}

// arrange puts the rows in order into the merged list. Conflicts told since earlier are
// told by the places that the entries then have.
func (m *merge) arrange(list job.Spot, rows []row, earlier int, by sequence) {
	first, second := func(r row) int { return r.ours }, func(r row) int { return r.theirs }
	if by == ofTheirs {
		first, second = second, first
	}
	merged := inTurn(rows, first)
	// What only the second side has goes behind what it stands behind there.
	behind := 0
	for _, r := range inTurn(rows, second) {
		if first(r) < 0 {
			merged = slices.Insert(merged, behind, r)
			behind++
			continue
		}
		behind = 1 + slices.IndexFunc(merged, func(other row) bool { return first(other) == first(r) })
	}
	entries := make([]job.Spot, len(merged))
	for at, r := range merged {
		entries[at] = r.spot
	}
	for i := earlier; i < len(m.conflicts); i++ {
		m.conflicts[i].Path = newPlace(m.conflicts[i].Path, list.Path, merged)
	}
	if by == inDispute {
		m.conflicts = append(m.conflicts, Conflict{Path: list.Path, Label: label(list), Why: "was put in another order by both; ours stands"})
	}
	if err := list.Arrange(entries); err != nil {
		panic(err) // it is a list, or there were no rows
	}
}

// inTurn lists the rows that one side has, in its order.
func inTurn(rows []row, side func(row) int) []row {
	var has []row
	for _, r := range rows {
		if side(r) >= 0 {
			has = append(has, r)
		}
	}
	slices.SortFunc(has, func(a, b row) int { return side(a) - side(b) })
	return has
}

// newPlace is a path after the entries of ours went to their places.
func newPlace(path, list string, merged []row) string {
	for at, r := range merged {
		before := fmt.Sprintf("%s[%d]", list, r.ours)
		if rest, found := strings.CutPrefix(path, before); found && r.ours >= 0 {
			return fmt.Sprintf("%s[%d]%s", list, at, rest)
		}
	}
	return path
}
