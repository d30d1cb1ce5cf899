package job

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Fault is one thing to put right in a document.
type Fault struct {
	Path    string // for programs: rooms[2].emitters[0].fin_tube.length
	Place   string // for people: room 3 "Parlour" › emitter 1 › fin_tube › length
	Line    int    // 1 is the first; 0 if the job did not come from text
	Column  int
	Excerpt string // the line as it stands in the document
	Given   string // what was given, if anything
	Problem string // what is wrong with it: "has no unit for a length"
	Accept  string // what would be accepted
	Hint    string // what was probably meant
}

// Error says the fault in one sentence.
func (f Fault) Error() string {
	var b strings.Builder
	if f.Line > 0 {
		fmt.Fprintf(&b, "line %d: ", f.Line)
	}
	if f.Place != "" {
		b.WriteString(f.Place + ": ")
	}
	if f.Given != "" {
		fmt.Fprintf(&b, "%q ", f.Given)
	}
	b.WriteString(f.Problem)
	if f.Accept != "" {
		b.WriteString("; accepted: " + f.Accept)
	}
	if f.Hint != "" {
		b.WriteString("; " + f.Hint)
	}
	return b.String()
}

// Faults are all the things to put right in a document, in its order.
type Faults struct {
	List []Fault
	More bool   // there were more than are listed
	What string // kind of document; a job if empty
}

// Error lists the faults, each with the line of the document it stands in.
func (f *Faults) Error() string {
	var b strings.Builder
	what := cmp.Or(f.What, "job")
	switch {
	case f.More:
		fmt.Fprintf(&b, "more than %d things to put right in the %s", len(f.List), what)
	case len(f.List) == 1:
		b.WriteString("1 thing to put right in the " + what)
	default:
		fmt.Fprintf(&b, "%d things to put right in the %s", len(f.List), what)
	}
	for _, fault := range f.List {
		b.WriteString("\n" + fault.Error())
		if fault.Excerpt != "" {
			fmt.Fprintf(&b, "\n    %d | %s", fault.Line, fault.Excerpt)
		}
	}
	return b.String()
}

// maxFaults bounds the list: nobody puts a hundred things right from one message.
const maxFaults = 50

func (f *Faults) add(fault Fault) {
	if len(f.List) == maxFaults {
		f.More = true
		return
	}
	f.List = append(f.List, fault)
}

// err gives the faults as an error, or nil if there are none.
func (f *Faults) err() error {
	if len(f.List) == 0 {
		return nil
	}
	return f
}

// place is a spot in the document: a field, or an entry of a list, within its
// parent. The nil place is the document.
type place struct {
	parent *place
	field  string
	listed bool // an entry of a list: it has an index and no field
	index  int
	name   string // of an entry, if it has one
}

func (p *place) at(field string) *place { return &place{parent: p, field: field} }

func (p *place) entry(index int, name string) *place {
	return &place{parent: p, listed: true, index: index, name: name}
}

// steps lists the places from the document inwards.
func (p *place) steps() []*place {
	if p == nil {
		return nil
	}
	return append(p.parent.steps(), p)
}

// path is the place for programs.
func (p *place) path() string {
	var b strings.Builder
	for i, s := range p.steps() {
		switch {
		case s.listed:
			b.WriteString("[" + strconv.Itoa(s.index) + "]")
		case i > 0:
			b.WriteString("." + s.field)
		default:
			b.WriteString(s.field)
		}
	}
	return b.String()
}

// words is the place for people, who count from one: rooms[2] is room 3.
func (p *place) words() string {
	var parts []string
	for _, s := range p.steps() {
		if !s.listed {
			parts = append(parts, shorten(s.field))
			continue
		}
		word := strings.TrimSuffix(parts[len(parts)-1], "s") + " " + strconv.Itoa(s.index+1)
		if s.name != "" {
			word += fmt.Sprintf(" %q", shorten(s.name))
		}
		parts[len(parts)-1] = word
	}
	return strings.Join(parts, " › ")
}

// shorten makes text from a document fit to stand in a message: one line, no
// control characters, not too long.
func shorten(text string) string {
	const most = 60
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == utf8.RuneError {
			return ' '
		}
		return r
	}, text)
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return text
}

// list joins words for a message.
func list(words []string) string { return strings.Join(words, ", ") }

// meant is the hint "did you mean …" for a word that is not among those accepted,
// or nothing if none is near.
func meant(given string, words []string) string {
	if best := nearest(given, words); best != "" {
		return fmt.Sprintf("did you mean %q?", best)
	}
	return ""
}

// nearest is the word that was probably meant, if any.
func nearest(given string, words []string) string {
	best, least := "", 0
	given = foldWord(given)
	if given == "" || len(given) > 64 {
		return ""
	}
	for _, word := range words {
		folded := foldWord(word)
		distance := editDistance(given, folded)
		// Half of the letters wrong is another word, unless one begins the other.
		near := distance*5 <= 2*max(len(given), len(folded)) ||
			(len(given) >= 3 && (strings.HasPrefix(folded, given) || strings.HasPrefix(given, folded)))
		if near && (best == "" || distance < least) {
			best, least = word, distance
		}
	}
	return best
}

// foldWord makes spellings of one word alike: Fin-Tube, fin tube, fin_tube.
func foldWord(word string) string {
	return strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(strings.TrimSpace(word)))
}

// editDistance counts the letters to insert, delete, replace or swap with their
// neighbour to get from a to b.
func editDistance(a, b string) int {
	from, to := []rune(a), []rune(b)
	before, last, row := make([]int, len(to)+1), make([]int, len(to)+1), make([]int, len(to)+1)
	for j := range last {
		last[j] = j
	}
	for i := range from {
		row[0] = i + 1
		for j := range to {
			cost := 1
			if from[i] == to[j] {
				cost = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+cost)
			if i > 0 && j > 0 && from[i] == to[j-1] && from[i-1] == to[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(to)]
}
