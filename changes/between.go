package changes

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"curvewright/job"
)

// What differs between two versions of a job, and how to say it.

// Sort says what happened at a place.
type Sort string

// What can happen at a place.
const (
	Changed Sort = "changed" // a value, also one filled in or left out
	Renamed Sort = "renamed" // an entry of a list
	Added   Sort = "added"   // an entry, or a group that was absent
	Removed Sort = "removed"
	Moved   Sort = "moved" // an entry to another place of its list
)

// Difference is one thing that differs.
type Difference struct {
	Path    string // in the later version; of what was removed, in the earlier
	Pattern string // the path without its numbers, to look up words in another language
	Sort    Sort
	Label   string // the place in words: room "Parlour" › emitter 1 › fin tube: length
	Was, Is string // as written; places of a list counted from 1
}

// Between lists what differs from one job to another, in the order of the document.
//
// Units: values are told as they were written.
// Range: any two jobs, finished or not.
// Source: the format is our own.
func Between(a, b *job.Job) []Difference {
	c := comparison{renamed: map[string]map[string]string{}}
	for _, n := range references {
		c.renamed[n.list] = renames(a, b, n.list)
	}
	c.group(job.Whole(a), job.Whole(b))
	return c.found
}

// renames lists which entries have another name, by the one before.
func renames(a, b *job.Job, list string) map[string]string {
	before, _ := job.At(a, list)
	after, _ := job.At(b, list)
	if before.Same(after) {
		return nil
	}
	names := map[string]string{}
	was, is := before.Within(), after.Within()
	for i, k := range match(was, is) {
		if k >= 0 && was[i].Name() != is[k].Name() {
			names[was[i].Name()] = is[k].Name()
		}
	}
	return names
}

type comparison struct {
	found   []Difference
	renamed map[string]map[string]string // by list: the name before, and after
}

func (c *comparison) add(s job.Spot, sort Sort, was, is string) {
	c.found = append(c.found, Difference{Path: s.Path, Pattern: s.Pattern, Sort: sort, Label: label(s), Was: was, Is: is})
}

// group compares the fields of two groups that are both there.
func (c *comparison) group(a, b job.Spot) {
	was, is := a.Within(), b.Within()
	for i := range was {
		if !was[i].Same(is[i]) {
			c.spot(was[i], is[i])
		}
	}
}

// spot compares two fields that are not the same.
func (c *comparison) spot(a, b job.Spot) {
	switch {
	case a.Absent:
		c.add(b, Added, "", brief(b))
	case b.Absent:
		c.add(a, Removed, brief(a), "")
	case a.Span:
		c.add(b, Changed, said(a), said(b))
	case a.Kind == job.GroupSpot:
		c.group(a, b)
	case a.Kind == job.ListSpot:
		c.list(a, b)
	default:
		if n, is := refersTo(a.Pattern); is && c.renamed[n.list][a.Text()] == b.Text() && b.Text() != "" {
			return // it goes with what it refers to
		}
		c.add(b, Changed, said(a), said(b))
	}
}

// list compares two lists.
func (c *comparison) list(a, b job.Spot) {
	before, after := a.Within(), b.Within()
	to := match(before, after)
	from := make([]int, len(after))
	for k := range from {
		from[k] = slices.Index(to, k)
	}
	kept := inOrder(from)
	for k, i := range from {
		if i < 0 {
			c.add(after[k], Added, "", brief(after[k]))
			continue
		}
		if !kept[k] {
			c.add(after[k], Moved, strconv.Itoa(i+1), strconv.Itoa(k+1))
		}
		c.entry(before[i], after[k])
	}
	for i, k := range to {
		if k < 0 {
			c.add(before[i], Removed, brief(before[i]), "")
		}
	}
}

// entry compares two entries that are one and the same thing.
func (c *comparison) entry(a, b job.Spot) {
	if was, is := a.Name(), b.Name(); was != is {
		sort := Renamed
		if was == "" || is == "" {
			sort = Changed
		}
		name := field(b, "name")
		c.found = append(c.found, Difference{Path: name.Path, Pattern: name.Pattern, Sort: sort, Label: label(a), Was: was, Is: is})
		if sort == Changed {
			c.found[len(c.found)-1].Label = label(name)
		}
	}
	was, is := a.Within(), b.Within()
	for i := range was {
		if lastOf(is[i].Path) != "name" && !was[i].Same(is[i]) {
			c.spot(was[i], is[i])
		}
	}
}

// label is a place in words. The fields at the top of a document are told by what they
// are, since their names alone say too little.
func label(s job.Spot) string {
	parts := strings.Split(inWords(s.Place()), " › ")
	last := len(parts) - 1
	group := s.Kind == job.GroupSpot && !s.Span || s.Kind == job.ListSpot
	switch {
	case last == 0 && !group:
		return strings.TrimSpace(strings.FieldsFunc(s.Doc, func(r rune) bool { return r == ';' || r == ',' })[0])
	case last == 0 || group:
		return strings.Join(parts, " › ")
	}
	return strings.Join(parts[:last], " › ") + ": " + parts[last]
}

// inWords is a place as people write it, who need no number beside a name.
func inWords(place string) string {
	return numbered.ReplaceAllString(strings.ReplaceAll(place, "_", " "), `$1 "`)
}

var numbered = regexp.MustCompile(`((?:^|› )[a-z ]+) \d+ "`)

// textOf is what stands at a spot, lists of texts with commas between.
func textOf(s job.Spot) string {
	if s.Kind == job.WordsSpot {
		return strings.Join(s.Texts(), ", ")
	}
	return s.Text()
}

// said is what stands at a spot as it is told: with a true minus, and how it is known.
func said(s job.Spot) string {
	if s.Span {
		return spanSaid(s)
	}
	text := textOf(s)
	if s.Kind != job.QuantitySpot {
		return oneLine(text)
	}
	text = trueMinus(text)
	if _, known, _ := s.Value(); known != "" {
		text += " (" + string(known) + ")"
	}
	return text
}

func trueMinus(text string) string {
	if digits, negative := strings.CutPrefix(text, "-"); negative {
		return "−" + digits
	}
	return text
}

// oneLine makes text fit to stand in a sentence.
func oneLine(text string) string { return short(strings.Join(strings.Fields(text), " ")) }

// spanSaid tells a range: 70 °F to 195 °F, step 1 °F.
func spanSaid(s job.Spot) string {
	ends := s.Within()
	from, to := said(ends[0]), said(ends[1])
	text := from
	switch {
	case from == to:
	case from == "":
		text = "up to " + to
	case to == "":
		text = "from " + from
	default:
		text = from + " to " + to
	}
	for _, more := range ends[2:] {
		if !more.Empty() {
			text += ", " + lastOf(more.Path) + " " + said(more)
		}
	}
	return text
}

// spanText is a range as [Set] takes it, if it is one fixed value.
func spanText(s job.Spot) string {
	ends := s.Within()
	for _, more := range ends[2:] {
		if !more.Empty() {
			return ""
		}
	}
	if !ends[0].Same(ends[1]) {
		return ""
	}
	return ends[0].Text()
}

// brief is a group in a few words: its name, or the first of what it holds.
func brief(s job.Spot) string {
	if name := s.Name(); name != "" {
		return oneLine(name)
	}
	const most = 3
	var parts []string
	leaves(s, func(s job.Spot) {
		if len(parts) < most {
			parts = append(parts, said(s))
		}
	})
	return strings.Join(parts, ", ")
}

// mostNamed is how many differences a sentence names.
const mostNamed = 3

// Sentence says in a line what changed: the first few things by name, of the others how
// many. It is empty if there are none.
//
// Units: values are told as they were written.
// Range: any differences.
// Source: the wording is our own.
func Sentence(differences []Difference) string {
	var parts []string
	place := ""
	for i, d := range differences {
		if i == mostNamed && len(differences) > mostNamed {
			parts = append(parts, fmt.Sprintf("and %d more", len(differences)-i))
			break
		}
		at, what := d.told()
		if at != "" && at != place {
			what = at + ": " + what
		}
		place = at
		parts = append(parts, what)
	}
	return capital(strings.Join(parts, "; "))
}

// told is a difference in words, apart from where it happened.
func (d Difference) told() (place, what string) {
	place, name, isField := strings.Cut(d.Label, ": ")
	if !isField {
		place, name = "", d.Label
	}
	switch d.Sort {
	case Added:
		return place, name + " added"
	case Removed:
		return place, name + " removed"
	case Moved:
		return place, fmt.Sprintf("%s moved from place %s to %s", name, d.Was, d.Is)
	case Renamed:
		return place, fmt.Sprintf("%s renamed to %q", name, d.Is)
	}
	switch {
	case d.Was == "":
		return place, name + " " + d.Is
	case d.Is == "":
		return place, name + " left out, was " + d.Was
	}
	return place, name + " " + d.Was + " → " + d.Is
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}
