package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"curvewright/units"
)

// A form asks for the fields of a document without knowing each of them: it walks
// through the spots at which something stands or could stand.

// SpotKind says what kind of answer a spot takes.
type SpotKind int

const (
	QuantitySpot SpotKind = iota // a value with its unit, and how it is known
	WordSpot                     // one of a few words
	TextSpot                     // any text
	CountSpot                    // a whole number
	YesSpot                      // yes, or nothing
	ListSpot                     // a list of groups
	WordsSpot                    // a list of texts
	GroupSpot                    // a group of fields; Optional if it can be absent as a whole
)

// Spot is one field of a document, filled or not.
type Spot struct {
	Path    string // rooms[2].emitters[0].fin_tube.length
	Pattern string // the same without the numbers: rooms[].emitters[].fin_tube.length
	Doc     string // the sentence shown to a person
	Kind    SpotKind
	Need    bool     // may not be left out
	Words   []string // that a word accepts
	Absent  bool     // of a group that can be absent as a whole: it is
	OneOf   bool     // of such a group: its siblings exclude it
	Span    bool     // of a group: a range, which may be one fixed value
	Items   int      // of a list: how many there are

	value  reflect.Value
	parent reflect.Value // the group that it belongs to
	entry  bool          // of a list
	place  *place
}

// Spots lists the fields of a job in the order of the document, each group before its
// fields. What is absent is listed without its fields.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
func Spots(j *Job) []Spot { return Whole(j).All() }

// All lists the fields beneath a group in the order of the document, each group before
// its fields. What is absent is listed without its fields.
//
// Units: none.
// Range: any group.
// Source: the format is our own.
func (s Spot) All() []Spot {
	var list []Spot
	var walk func(s Spot)
	walk = func(s Spot) {
		for _, inner := range s.Within() {
			if !inner.entry {
				list = append(list, inner)
			}
			walk(inner)
		}
	}
	walk(s)
	return list
}

// Find finds the spot of a path beneath a group.
//
// Units: none.
// Range: any path; what is absent has no spots beneath it.
// Source: the format is our own.
func (s Spot) Find(path string) (Spot, bool) {
	for _, inner := range s.All() {
		if inner.Path == path {
			return inner, true
		}
	}
	return Spot{}, false
}

// WholeOf is a document of another kind as one group, which has no path.
//
// Units: none.
// Range: documents that [ReadDocument] reads, finished or not.
// Source: the format is our own.
func WholeOf[T any](document *T) Spot {
	return Spot{Kind: GroupSpot, value: reflect.ValueOf(document).Elem()}
}

// Whole is a job as one group, which has no path.
//
// Units: none.
// Range: any job, finished or not.
// Source: the format is our own.
func Whole(j *Job) Spot { return Spot{Kind: GroupSpot, value: reflect.ValueOf(j).Elem()} }

// Within are the fields of a group, or the entries of a list of groups, each a group.
//
// Units: none.
// Range: any spot; nothing for one that holds no others.
// Source: the format is our own.
func (s Spot) Within() []Spot {
	v := s.value
	switch {
	case s.Kind == ListSpot:
		entries := make([]Spot, v.Len())
		for i := range entries {
			entries[i] = s.entryAt(i, v.Index(i))
		}
		return entries
	case s.Kind != GroupSpot || s.CanBeAbsent() && v.IsNil():
		return nil
	case s.CanBeAbsent():
		v = v.Elem()
	}
	fields := fieldsOf(v.Type())
	kinds := choices(v.Type())
	inner := make([]Spot, len(fields))
	for i, f := range fields {
		inner[i] = Spot{
			Path: join(s.Path, f.name), Pattern: join(s.Pattern, f.name), Doc: f.doc, Need: f.need, Words: f.words,
			value: v.Field(f.index), parent: v, place: s.place.at(f.name),
		}
		inner[i].describe(kinds != nil)
	}
	return inner
}

// entryAt makes the spot of one entry of a list.
func (s Spot) entryAt(i int, v reflect.Value) Spot {
	return Spot{
		Path: fmt.Sprintf("%s[%d]", s.Path, i), Pattern: s.Pattern + "[]", Doc: s.Doc, Kind: GroupSpot,
		value: v, entry: true, place: s.place.entry(i, nameOf(v)),
	}
}

// describe tells of a field what its type says.
func (s *Spot) describe(oneOfSeveral bool) {
	switch t := s.value.Type(); {
	case isInput(t):
		s.Kind = QuantitySpot
	case t.Kind() == reflect.Struct:
		s.Kind, s.Span = GroupSpot, isSpan(t)
	case t.Kind() == reflect.Pointer:
		s.Kind, s.Absent, s.OneOf = GroupSpot, s.value.IsNil(), oneOfSeveral
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.String:
		s.Kind, s.Items = WordsSpot, s.value.Len()
	case t.Kind() == reflect.Slice:
		s.Kind, s.Items = ListSpot, s.value.Len()
	case t.Kind() == reflect.Int:
		s.Kind = CountSpot
	case t.Kind() == reflect.Bool:
		s.Kind = YesSpot
	case s.Words != nil:
		s.Kind = WordSpot
	default:
		s.Kind = TextSpot
	}
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// Value is the quantity of a spot, whether one was given, and how it is known. A
// quantity that was not given is the zero of its kind, for its unit.
//
// Units: SI inside, as all quantities.
// Range: any spot; nothing for one that takes no quantity.
// Source: the format is our own.
func (s Spot) Value() (q units.Quantity, known Known, given bool) {
	if s.Kind != QuantitySpot {
		return nil, "", false
	}
	value, known, given := s.value.Addr().Interface().(input).entry()
	return value.(units.Quantity), known, given
}

// Text is what stands at a spot, as it was written; nothing if it was left out.
func (s Spot) Text() string {
	switch s.Kind {
	case QuantitySpot:
		in := s.value.Addr().Interface().(input)
		if _, _, given := in.entry(); given {
			return in.text()
		}
	case WordSpot, TextSpot:
		return s.value.String()
	case CountSpot:
		if n := s.value.Int(); n != 0 {
			return fmt.Sprint(n)
		}
	case YesSpot:
		if s.value.Bool() {
			return "yes"
		}
	}
	return ""
}

// Texts is what stands in a list of texts.
//
// Units: none.
// Range: any spot; nothing for one that holds no list of texts.
// Source: the format is our own.
func (s Spot) Texts() []string {
	if s.Kind != WordsSpot {
		return nil
	}
	return append([]string(nil), s.value.Interface().([]string)...)
}

// Accepts says what a quantity accepts, in the words of its reader.
//
// Units: none.
// Range: any spot; nothing for one that takes no quantity.
// Source: the format is our own.
func (s Spot) Accepts() string {
	if s.Kind != QuantitySpot {
		return ""
	}
	fresh := reflect.New(s.value.Type())
	return accepted(fresh.Interface().(input))
}

// Say notes how a quantity is known; what was left out is known in no way.
//
// Units: none.
// Range: quantities.
// Source: the format is our own.
// Errors: a word that a document cannot say.
func (s Spot) Say(known Known) error {
	if s.Kind != QuantitySpot {
		return fmt.Errorf("%s: only a quantity says how it is known", s.Path)
	}
	if known != "" && !slices.Contains(knownWords, string(known)) {
		return fmt.Errorf("%s: %q is no way of knowing; accepted: %s", s.Path, shorten(string(known)), list(knownWords))
	}
	in := s.value.Addr().Interface().(input)
	if _, _, given := in.entry(); given {
		in.say(known)
	}
	return nil
}

// Make puts a group there that can be absent as a whole, empty. Where it is one of
// several kinds, the kind that was there goes.
//
// Units: none.
// Range: groups that can be absent; one that is there stays as it is.
// Source: the format is our own.
// Errors: any other spot.
func (s Spot) Make() error {
	if !s.CanBeAbsent() {
		return fmt.Errorf("%s: is always there", s.Path)
	}
	if !s.value.IsNil() {
		return nil
	}
	if s.OneOf {
		for _, f := range layouts[s.parent.Type()] {
			if other := s.parent.Field(f.index); other.Kind() == reflect.Pointer {
				other.SetZero()
			}
		}
	}
	s.value.Set(reflect.New(s.value.Type().Elem()))
	return nil
}

// CanBeAbsent tells the groups that can be absent as a whole.
//
// Units: none.
// Range: any spot.
// Source: the format is our own.
func (s Spot) CanBeAbsent() bool { return s.Kind == GroupSpot && s.value.Kind() == reflect.Pointer }

// Drop takes a group away that can be absent as a whole.
//
// Units: none.
// Range: groups that can be absent.
// Source: the format is our own.
// Errors: any other spot.
func (s Spot) Drop() error {
	if !s.CanBeAbsent() {
		return fmt.Errorf("%s: is always there", s.Path)
	}
	s.value.SetZero()
	return nil
}

// At finds the spot of a path.
//
// Units: none.
// Range: any path; what is absent has no spots beneath it.
// Source: the format is our own.
func At(j *Job, path string) (Spot, bool) {
	s := Whole(j)
	for s.Path != path {
		inner := s.Within()
		i := slices.IndexFunc(inner, func(s Spot) bool { return s.Leads(path) })
		if i < 0 {
			return Spot{}, false
		}
		s = inner[i]
	}
	return s, true
}

// Leads tells whether a path ends at a spot or beneath it.
//
// Units: none.
// Range: any spot and path.
// Source: the format is our own.
func (s Spot) Leads(path string) bool {
	rest, found := strings.CutPrefix(path, s.Path)
	return found && (s.Path == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}
