package job

import (
	"reflect"
	"strings"
)

// field is one field of the document, as its struct tags describe it.
type field struct {
	name  string   // in the document
	doc   string   // the sentence shown to a person
	need  bool     // may not be left out
	words []string // that a text accepts; empty: any text
	apart bool     // a group that may be there beside others like it
	index int      // within its struct
}

// layouts holds the fields of every struct of the document. It is filled once and
// never changes.
var layouts = layOut(map[reflect.Type][]field{}, reflect.TypeFor[Job]())

// fieldsOf gives the fields of a struct: of the job, or of another document of ours.
func fieldsOf(t reflect.Type) []field {
	if fields, ok := layouts[t]; ok {
		return fields
	}
	return layOut(map[reflect.Type][]field{}, t)[t]
}

func layOut(into map[reflect.Type][]field, t reflect.Type) map[reflect.Type][]field {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || isInput(t) || into[t] != nil {
		return into
	}
	var fields []field
	for i := range t.NumField() {
		tag := t.Field(i).Tag
		f := field{name: tag.Get("yaml"), doc: tag.Get("doc"), need: tag.Get("need") == "yes", apart: tag.Get("apart") == "yes", index: i}
		if words := tag.Get("oneof"); words != "" {
			f.words = strings.Split(words, ",")
		}
		fields = append(fields, f)
	}
	into[t] = fields
	for i := range t.NumField() {
		layOut(into, t.Field(i).Type)
	}
	return into
}

func names(fields []field) []string {
	all := make([]string, len(fields))
	for i, f := range fields {
		all[i] = f.name
	}
	return all
}

var inputType = reflect.TypeFor[input]()

// isInput tells a Given from the structs of the document.
func isInput(t reflect.Type) bool { return reflect.PointerTo(t).Implements(inputType) }

// isSpan tells the ranges, which a document may give as one value if they are fixed.
func isSpan(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && !isInput(t) && t.NumField() >= 2 &&
		t.Field(0).Name == "From" && t.Field(1).Name == "To"
}

// choices are the fields of which a struct holds one: the kinds of emitter, the
// shapes of curve. They are the structs with several pointers, but for those groups that are said to
// stand apart: the records of a visit do not exclude each other.
func choices(t reflect.Type) []string {
	var kinds []string
	for _, f := range fieldsOf(t) {
		if t.Field(f.index).Type.Kind() == reflect.Pointer && !f.apart {
			kinds = append(kinds, f.name)
		}
	}
	if len(kinds) < 2 {
		return nil
	}
	return kinds
}
