package job

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// What programs that change a job need of its spots: to read an answer into one, to
// compare and copy what they hold, and to arrange the entries of a list. Package changes
// builds on it.

// Take reads text into a spot as a document would, and nothing at all to clear it. How a
// quantity is known stays. A list of texts takes them with commas or on lines of their
// own, a range one fixed value.
//
// Units: a quantity is read with its unit.
// Range: every spot that holds a value; lists and groups are arranged instead.
// Source: the format is our own.
// Errors: a [Fault]; the job is then unchanged.
func (s Spot) Take(text string) error {
	if s.Kind == ListSpot || s.Kind == GroupSpot && !s.Span {
		return s.faulty(text, "is where several fields belong", "a value for one of its fields")
	}
	if text = strings.TrimSpace(text); text == "" {
		s.value.SetZero()
		return nil
	}
	if !utf8.ValidString(text) {
		return s.faulty(text, "is not text in UTF-8", "text")
	}
	fresh := reflect.New(s.value.Type()).Elem()
	if s.Kind == QuantitySpot {
		fresh.Set(s.value) // with how it is known
	}
	r := reader{}
	f := field{doc: s.Doc, need: s.Need, words: s.Words}
	if s.Kind == WordsSpot {
		r.value(fresh, textsNode(text), s.place, f)
	} else {
		r.value(fresh, textNode(text), s.place, f)
	}
	if len(r.faults.List) > 0 {
		return r.faults.List[0]
	}
	s.value.Set(fresh)
	return nil
}

func (s Spot) faulty(given, problem, accept string) error {
	return Fault{Path: s.Path, Place: s.place.words(), Given: shorten(given), Problem: problem, Accept: accept}
}

// textNode is a text as the reader meets it in a document.
func textNode(text string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
	if _, err := strconv.Atoi(text); err == nil {
		n.Tag = "!!int"
	}
	if strings.EqualFold(text, "true") || strings.EqualFold(text, "false") {
		n.Tag = "!!bool"
	}
	return n
}

func textsNode(text string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == '\n' }) {
		if part = strings.TrimSpace(part); part != "" {
			n.Content = append(n.Content, textNode(part))
		}
	}
	return n
}

// Name is what an entry of a list is called; nothing if it has no name.
//
// Units: none.
// Range: any spot.
// Source: the format is our own.
func (s Spot) Name() string {
	if s.entry {
		return nameOf(s.value)
	}
	return ""
}

// Place says for people where a spot is: room 3 "Parlour" › emitter 1 › fin_tube.
//
// Units: none.
// Range: any spot; nothing for the job as a whole.
// Source: the format is our own.
func (s Spot) Place() string { return s.place.words() }

// Same tells whether two spots hold the same, to the letter.
//
// Units: none.
// Range: any two spots.
// Source: the format is our own.
func (s Spot) Same(other Spot) bool {
	return reflect.DeepEqual(s.value.Interface(), other.value.Interface())
}

// Empty tells whether nothing stands at a spot.
//
// Units: none.
// Range: any spot.
// Source: the format is our own.
func (s Spot) Empty() bool { return s.value.IsZero() }

// Put makes a spot hold a copy of what another one of its kind holds.
//
// Units: none.
// Range: two spots of one pattern.
// Source: the format is our own.
func (s Spot) Put(other Spot) { s.value.Set(copied(other.value)) }

// Blank is the spot with nothing in it, apart from its job.
//
// Units: none.
// Range: any spot.
// Source: the format is our own.
func (s Spot) Blank() Spot {
	s.value = reflect.New(s.value.Type()).Elem()
	s.parent, s.OneOf, s.Items, s.Absent = reflect.Value{}, false, 0, s.CanBeAbsent()
	return s
}

// Another is an entry that a list could have beside those it has, apart from its job and
// empty.
//
// Units: none.
// Range: lists of groups.
// Source: the format is our own.
// Errors: any other spot.
func (s Spot) Another() (Spot, error) {
	if s.Kind != ListSpot {
		return Spot{}, s.faulty("", "is no list of groups", "a list")
	}
	return s.entryAt(s.value.Len(), reflect.New(s.value.Type().Elem()).Elem()), nil
}

// Arrange makes a list hold copies of the entries given, in their order.
//
// Units: none.
// Range: lists of groups; entries of this list or of one of the same pattern.
// Source: the format is our own.
// Errors: any other spot.
func (s Spot) Arrange(entries []Spot) error {
	if s.Kind != ListSpot {
		return s.faulty("", "is no list of groups", "a list")
	}
	if len(entries) == 0 {
		s.value.SetZero()
		return nil
	}
	list := reflect.MakeSlice(s.value.Type(), len(entries), len(entries))
	for i, entry := range entries {
		list.Index(i).Set(copied(entry.value))
	}
	s.value.Set(list)
	return nil
}

// SetTexts makes a list of texts hold those given.
//
// Units: none.
// Range: lists of texts.
// Source: the format is our own.
// Errors: any other spot.
func (s Spot) SetTexts(texts []string) error {
	if s.Kind != WordsSpot {
		return s.faulty("", "is no list of texts", "a list")
	}
	if len(texts) == 0 {
		texts = nil
	}
	s.value.Set(reflect.ValueOf(slices.Clone(texts)))
	return nil
}

// Clone copies a job; neither changes with the other.
//
// Units: none.
// Range: any job.
// Source: the format is our own.
func Clone(j *Job) *Job {
	clone := new(Job)
	Whole(clone).Put(Whole(j))
	return clone
}

// copied copies a value with all that it points to.
func copied(v reflect.Value) reflect.Value {
	switch {
	case isInput(v.Type()):
		return v
	case v.Kind() == reflect.Pointer && !v.IsNil():
		clone := reflect.New(v.Type().Elem())
		clone.Elem().Set(copied(v.Elem()))
		return clone
	case v.Kind() == reflect.Slice && v.Len() > 0:
		clone := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			clone.Index(i).Set(copied(v.Index(i)))
		}
		return clone
	case v.Kind() == reflect.Struct:
		clone := reflect.New(v.Type()).Elem()
		for i := range v.NumField() {
			clone.Field(i).Set(copied(v.Field(i)))
		}
		return clone
	}
	return v
}
