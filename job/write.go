package job

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// Write writes a job as YAML: values with the text that they were read from, and
// what was left out left out. Reading it again gives the same job. Comments of the
// document that it was read from are not kept.
//
// Units: values that have no text of their own are written in SI.
// Range: any job, finished or not; it is not checked.
// Source: the format is our own.
// Errors: text that is not UTF-8, or a way of knowing that a document cannot say.
func Write(j *Job) ([]byte, error) {
	newest := *j
	newest.Version = Version
	return encode(reflect.ValueOf(&newest).Elem())
}

func encode(document reflect.Value) ([]byte, error) {
	w := writer{}
	root := w.group(document, nil)
	if w.err != nil {
		return nil, w.err
	}
	var out bytes.Buffer
	encoder := yaml.NewEncoder(&out)
	encoder.SetIndent(2)
	if err := encoder.Encode(root); err != nil {
		return nil, fmt.Errorf("job: %w", err)
	}
	return out.Bytes(), nil
}

type writer struct{ err error }

// group writes what a struct holds.
func (w *writer) group(v reflect.Value, p *place) *yaml.Node {
	group := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	for _, f := range fieldsOf(v.Type()) {
		if value := w.value(v.Field(f.index), p.at(f.name), f); value != nil {
			group.Content = append(group.Content, w.text(f.name, p), value)
		}
	}
	if len(group.Content) == 0 {
		group.Style = yaml.FlowStyle
	}
	return group
}

// value writes a field, or gives nil if there is nothing to write.
func (w *writer) value(v reflect.Value, p *place, f field) *yaml.Node {
	if isInput(v.Type()) {
		return w.input(v.Addr().Interface().(input), p)
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return w.structure(v.Elem(), p)
	case reflect.Struct:
		if node := w.structure(v, p); node.Kind == yaml.ScalarNode || len(node.Content) > 0 {
			return node
		}
	case reflect.Slice:
		if v.Len() == 0 {
			return nil
		}
		list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
		for i := range v.Len() {
			at := p.entry(i, nameOf(v.Index(i)))
			if v.Index(i).Kind() == reflect.String {
				list.Style = yaml.FlowStyle
				list.Content = append(list.Content, w.text(v.Index(i).String(), at))
				continue
			}
			list.Content = append(list.Content, w.group(v.Index(i), at))
		}
		return list
	case reflect.String:
		if v.String() != "" {
			return w.text(v.String(), p)
		}
	case reflect.Int:
		if v.Int() != 0 {
			return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.FormatInt(v.Int(), 10)}
		}
	case reflect.Bool:
		if v.Bool() {
			return w.text("yes", p)
		}
	}
	return nil
}

// structure writes a struct, a range without width as its one value.
func (w *writer) structure(v reflect.Value, p *place) *yaml.Node {
	if isSpan(v.Type()) && v.Field(0).Interface() == v.Field(1).Interface() && rest(v) {
		if node := w.input(v.Field(0).Addr().Interface().(input), p); node != nil {
			return node
		}
	}
	return w.group(v, p)
}

// rest tells whether a range holds nothing beside its ends.
func rest(v reflect.Value) bool {
	for i := 2; i < v.NumField(); i++ {
		if !v.Field(i).IsZero() {
			return false
		}
	}
	return true
}

func (w *writer) input(in input, p *place) *yaml.Node {
	value, known, set := in.entry()
	if !set {
		return nil
	}
	if number := reflect.ValueOf(value).Float(); math.IsNaN(number) || math.IsInf(number, 0) {
		w.fail(p, "", "is not a number")
		return nil
	}
	node := w.text(in.text(), p)
	if plainNumber.MatchString(node.Value) && !strings.ContainsAny(node.Value, ",−+") {
		node.Tag, node.Style = "", 0 // a figure without a unit needs no quotes
	}
	if known == "" {
		return node
	}
	if !slices.Contains(knownWords, string(known)) {
		w.fail(p, string(known), "is not a way of knowing that a document can say")
	}
	return &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: yaml.FlowStyle, Content: []*yaml.Node{
		w.text("value", p), node, w.text("known", p), w.text(string(known), p),
	}}
}

func (w *writer) text(text string, p *place) *yaml.Node {
	if !utf8.ValidString(text) {
		w.fail(p, text, "is not text in UTF-8")
	}
	node := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
	switch {
	case blockText(text):
		node.Style = yaml.LiteralStyle
	case strings.ContainsFunc(text, fussy):
		node.Style = yaml.DoubleQuotedStyle
	}
	return node
}

// blockText tells text of several lines that a block holds as it stands.
func blockText(text string) bool {
	lines := strings.Split(text, "\n")
	for _, line := range lines {
		if line == "" || strings.ContainsFunc(line, fussy) || line != strings.TrimSpace(line) {
			return false
		}
	}
	return len(lines) > 1
}

// fussy tells the letters that plain or block text in YAML may lose.
func fussy(r rune) bool {
	return r < ' ' || r >= 0x7f && r < 0xa0 || r == '\u2028' || r == '\u2029' || r == '\ufeff'
}

func (w *writer) fail(p *place, given, problem string) {
	if w.err == nil {
		w.err = &Faults{List: []Fault{{Path: p.path(), Place: p.words(), Given: shorten(given), Problem: problem}}}
	}
}
