package job

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"curvewright/units"
)

const (
	maxDocument = 1 << 20 // bytes; a house of a hundred rooms needs a tenth of it
	maxDepth    = 16      // lists and groups within each other; a job needs half of it
)

// Read reads a job from YAML or JSON, strictly: unknown fields, missing units and
// values that make no sense are refused, all of them at once.
//
// Units: every value carries its own; inside they are SI.
// Range: documents up to 1 MB of version 1 to [Version].
// Source: the format is our own; YAML 1.2 and JSON carry it.
// Errors: [*Faults], each fault with its place, what was given and what would be
// accepted. With an error there is no job.
func Read(data []byte) (*Job, error) {
	r := &reader{lines: bytes.Split(data, []byte("\n"))}
	j := r.read(data)
	if len(r.faults.List) > 0 {
		slices.SortStableFunc(r.faults.List, func(a, b Fault) int { return a.Line - b.Line })
		return nil, &r.faults
	}
	return j, nil
}

// Draft reads a job that may be unfinished, as a form keeps it between two answers:
// the job as far as it can be read, beside what is still to be put right.
//
// Units: every value carries its own; inside they are SI.
// Range: as [Read].
// Source: the format is our own.
// Errors: [*Faults]. The job is nil only if the document is no document of ours at all.
func Draft(data []byte) (*Job, error) {
	r := &reader{lines: bytes.Split(data, []byte("\n")), draft: true}
	j := r.read(data)
	if len(r.faults.List) > 0 {
		slices.SortStableFunc(r.faults.List, func(a, b Fault) int { return a.Line - b.Line })
		return j, &r.faults
	}
	return j, nil
}

type reader struct {
	draft  bool   // what can be read is given although something is missing
	what   string // kind of document; a job if empty
	faults Faults
	lines  [][]byte
}

// root gives the root of a document that is safe to read, lifted to the newest version.
func (r *reader) root(data []byte) *yaml.Node {
	if len(data) > maxDocument {
		r.faults.add(Fault{
			Given: strconv.Itoa(len(data)>>10) + " kB", Problem: "is too large for a " + r.kind(),
			Accept: strconv.Itoa(maxDocument>>10) + " kB at most",
		})
		return nil
	}
	root := r.parse(data)
	if root == nil {
		return nil
	}
	if r.guard(root, 0); len(r.faults.List) > 0 {
		return nil
	}
	if fault := lift(root, steps, Version); fault != nil {
		fault.Excerpt = r.excerpt(fault.Line)
		r.faults.add(*fault)
		return nil
	}
	return root
}

func (r *reader) kind() string { return cmp.Or(r.what, "job") }

func (r *reader) read(data []byte) *Job {
	root := r.root(data)
	if root == nil {
		return nil
	}
	j := new(Job)
	r.group(reflect.ValueOf(j).Elem(), root, nil)
	if len(r.faults.List) > 0 {
		if r.draft {
			return j
		}
		return nil
	}
	var senseless *Faults
	if errors.As(check(j, func(p *place) (int, int) { return locate(root, p) }), &senseless) {
		for _, fault := range senseless.List {
			if fault.Given != "" {
				fault.Excerpt = r.excerpt(fault.Line)
			}
			r.faults.add(fault)
		}
		r.faults.More = senseless.More
	}
	return j
}

// parse gives the root of the document, which is a group of fields.
func (r *reader) parse(data []byte) (root *yaml.Node) {
	// The parser is not ours. Should it ever stumble over a document, that is a
	// fault of the document to whoever sent it, and no reason to fall over.
	defer func() {
		if recover() != nil {
			r.faults.add(Fault{Problem: "the document cannot be read as YAML or JSON"})
			root = nil
		}
	}()
	if json.Valid(data) {
		data = pairs.ReplaceAllFunc(data, joinPair)
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var document yaml.Node
	err := decoder.Decode(&document)
	switch {
	case errors.Is(err, io.EOF), err == nil && document.IsZero():
		r.faults.add(Fault{Problem: "the document is empty", Accept: "a " + r.kind() + ", beginning with curvewright: 1"})
		return nil
	case err != nil:
		r.faults.add(r.syntax(err))
		return nil
	}
	var second yaml.Node
	if err := decoder.Decode(&second); err == nil {
		r.fault(&second, nil, Fault{Problem: "a second document begins here", Accept: "one " + r.kind() + " in one document"})
		return nil
	} else if !errors.Is(err, io.EOF) {
		r.faults.add(r.syntax(err))
		return nil
	}
	root = document.Content[0]
	if root.Kind != yaml.MappingNode {
		r.fault(root, nil, Fault{
			Problem: "the document is " + kindOf(root) + ", not a group of fields",
			Accept:  "a " + r.kind() + ", beginning with curvewright: 1", Hint: r.gapHint(root.Line),
		})
		return nil
	}
	return root
}

// JSON may write a letter beyond the first 65,536 as a pair of escapes, which YAML
// does not know. Escaped backslashes are matched so that they are not taken for the
// beginning of an escape.
var pairs = regexp.MustCompile(`\\\\|\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}`)

func joinPair(escaped []byte) []byte {
	var letter string
	if len(escaped) != 12 || json.Unmarshal([]byte(`"`+string(escaped)+`"`), &letter) != nil {
		return escaped
	}
	return []byte(letter)
}

// guard refuses what YAML can do and a job has no use for: references from one
// place to another, types, and nesting without end.
func (r *reader) guard(n *yaml.Node, depth int) {
	const plain = "every value written where it belongs"
	switch {
	case r.faults.More:
		return
	case depth > maxDepth:
		r.fault(n, nil, Fault{Problem: "lists and groups are nested too deeply here", Accept: fmt.Sprintf("%d levels at most", maxDepth)})
		return
	case n.Kind == yaml.AliasNode:
		r.fault(n, nil, Fault{Given: "*" + shorten(n.Value), Problem: "refers to another place of the document", Accept: plain, Hint: "put quotes around text that begins with *"})
		return
	case n.Anchor != "":
		r.fault(n, nil, Fault{Given: "&" + shorten(n.Anchor), Problem: "marks a place to refer to", Accept: plain, Hint: "put quotes around text that begins with &"})
		return
	case n.Tag == "!!merge":
		r.fault(n, nil, Fault{Given: "<<", Problem: "merges one group into another", Accept: plain})
		return
	case n.Style&yaml.TaggedStyle != 0:
		r.fault(n, nil, Fault{Given: shorten(n.Tag), Problem: "sets a type", Accept: "the value alone", Hint: "put quotes around text that begins with !"})
		return
	}
	for _, c := range n.Content {
		r.guard(c, depth+1)
	}
}

// fault adds a fault found at a node, with its line.
func (r *reader) fault(n *yaml.Node, p *place, f Fault) {
	f.Path, f.Place, f.Line, f.Column = p.path(), p.words(), n.Line, n.Column
	f.Excerpt = r.excerpt(n.Line)
	r.faults.add(f)
}

// excerpt is a line of the document, fit to stand in a message.
func (r *reader) excerpt(line int) string {
	if line < 1 || line > len(r.lines) {
		return ""
	}
	return strings.TrimRight(shorten(string(r.lines[line-1])), " ")
}

// enough tells whether there is enough to put right for one message. A draft is read to
// its end all the same, since what is not read is lost.
func (r *reader) enough() bool { return r.faults.More && !r.draft }

// value reads a node into a field, whatever kind of field it is.
func (r *reader) value(v reflect.Value, n *yaml.Node, p *place, f field) {
	if r.enough() {
		return
	}
	if n.Tag == "!!null" {
		r.fault(n, p, Fault{Problem: "has nothing after it", Accept: acceptFor(v, f), Hint: "leave the field out if it is not known"})
		return
	}
	if isInput(v.Type()) {
		r.input(v.Addr().Interface().(input), n, p)
		return
	}
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch v.Kind() {
	case reflect.Struct:
		if isSpan(v.Type()) && (n.Kind == yaml.ScalarNode || fieldOf(n, "value") != nil) {
			r.fixed(v, n, p)
			return
		}
		r.group(v, n, p)
	case reflect.Slice:
		r.list(v, n, p, f)
	case reflect.String:
		if text, ok := r.word(n, p, f); ok {
			v.SetString(text)
		}
	case reflect.Int:
		r.count(v, n, p)
	case reflect.Bool:
		if text, ok := r.word(n, p, f); ok {
			v.SetBool(text == "yes")
		}
	}
}

// group reads a mapping into a struct.
func (r *reader) group(v reflect.Value, n *yaml.Node, p *place) {
	fields := fieldsOf(v.Type())
	if n.Kind != yaml.MappingNode {
		r.wrongKind(n, p, "a group of fields: "+list(names(fields)))
		return
	}
	seen := make(map[string]int, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if !r.key(key, value, n, p, seen, names(fields)) {
			continue
		}
		f := fields[slices.IndexFunc(fields, func(f field) bool { return f.name == key.Value })]
		r.value(v.Field(f.index), value, p.at(f.name), f)
	}
	for _, f := range fields {
		if _, given := seen[f.name]; !r.enough() && f.need && !given && !misspelt(f.name, n, names(fields)) {
			r.missing(n, p.at(f.name), f.doc)
		}
	}
}

// key judges the name of a field: known, and not there twice.
func (r *reader) key(key, value, group *yaml.Node, p *place, seen map[string]int, names []string) bool {
	name := key.Value
	if r.enough() {
		return false
	}
	if key.Kind != yaml.ScalarNode || name == "" {
		r.fault(key, p, Fault{Problem: "has " + kindOf(key) + " where the name of a field belongs", Accept: list(names)})
		return false
	}
	if line, twice := seen[name]; twice {
		r.fault(key, p.at(name), Fault{Given: shorten(name), Problem: fmt.Sprintf("is given twice, first in line %d", line), Accept: "each field once"})
		return false
	}
	seen[name] = key.Line
	if slices.Contains(names, name) {
		return true
	}
	hint := meant(name, names)
	if hint == "" && group.Style&yaml.FlowStyle != 0 && value.Tag == "!!null" {
		hint = "inside { } a comma ends a value: put quotes around a number that has one"
	}
	r.fault(key, p.at(name), Fault{Given: shorten(name), Problem: "is not a field here", Accept: list(names), Hint: hint})
	return false
}

// misspelt tells whether a field is there under a name that is nearly right; that
// name is a fault already.
func misspelt(name string, group *yaml.Node, names []string) bool {
	for i := 0; i+1 < len(group.Content); i += 2 {
		key := group.Content[i].Value
		if !slices.Contains(names, key) && nearest(key, names) == name {
			return true
		}
	}
	return false
}

func (r *reader) missing(n *yaml.Node, p *place, doc string) {
	f := Fault{Problem: "is missing", Accept: doc}
	f.Path, f.Place, f.Line, f.Column = p.path(), p.words(), n.Line, n.Column
	r.faults.add(f)
}

// list reads a sequence into a slice. An empty list is the same as none.
func (r *reader) list(v reflect.Value, n *yaml.Node, p *place, f field) {
	if n.Kind != yaml.SequenceNode {
		r.wrongKind(n, p, "a list: each entry on a line of its own that begins with a dash")
		return
	}
	if len(n.Content) == 0 {
		if f.need {
			r.fault(n, p, Fault{Problem: "is an empty list", Accept: "at least one entry"})
		}
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
	for i, entry := range n.Content {
		name := ""
		if node := fieldOf(entry, "name"); node != nil {
			name = node.Value
		}
		r.value(v.Index(i), entry, p.entry(i, name), f)
	}
}

// word reads a text, one of the field's words if it has any.
func (r *reader) word(n *yaml.Node, p *place, f field) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		r.wrongKind(n, p, acceptText(f.words))
		return "", false
	}
	text := strings.TrimSpace(n.Value)
	if n.Tag == "!!bool" && slices.Contains(f.words, "yes") {
		text = map[bool]string{true: "yes", false: "no"}[strings.EqualFold(text, "true")]
	}
	switch {
	case len(f.words) > 0 && !slices.Contains(f.words, text):
		r.fault(n, p, Fault{Given: shorten(n.Value), Problem: "is not one of the words for this", Accept: list(f.words), Hint: meant(text, f.words)})
		return "", false
	case text == "":
		r.fault(n, p, Fault{Problem: "is empty", Accept: acceptText(nil), Hint: "leave the field out if it is not known"})
		return "", false
	}
	return text, true
}

// count reads a whole number.
func (r *reader) count(v reflect.Value, n *yaml.Node, p *place) {
	if n.Kind != yaml.ScalarNode {
		r.wrongKind(n, p, acceptCount)
		return
	}
	number, err := strconv.Atoi(n.Value)
	if err != nil || n.Tag != "!!int" {
		r.fault(n, p, Fault{Given: shorten(n.Value), Problem: "is not a whole number", Accept: acceptCount})
		return
	}
	v.SetInt(int64(number))
}

// input reads a value with its unit: the value alone, or with how it is known.
func (r *reader) input(in input, n *yaml.Node, p *place) {
	switch n.Kind {
	case yaml.ScalarNode:
		r.take(in, n, p)
	case yaml.MappingNode:
		names := []string{"value", "known"}
		seen := map[string]int{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			key, value := n.Content[i], n.Content[i+1]
			if !r.key(key, value, n, p, seen, names) {
				continue
			}
			switch {
			case key.Value == "known":
				if known, ok := r.word(value, p.at("known"), field{words: knownWords}); ok {
					in.say(Known(known))
				}
			case value.Kind != yaml.ScalarNode || value.Tag == "!!null":
				r.wrongKind(value, p.at("value"), accepted(in))
			default:
				r.take(in, value, p.at("value"))
			}
		}
		if _, given := seen["value"]; !given {
			r.missing(n, p.at("value"), accepted(in))
		}
	default:
		r.wrongKind(n, p, accepted(in))
	}
}

func (r *reader) take(in input, n *yaml.Node, p *place) {
	err := in.take(n.Value)
	var fault *units.ParseError
	switch {
	case errors.As(err, &fault):
		r.fault(n, p, Fault{Given: shorten(fault.Given), Problem: fault.Reason, Accept: fault.Accept})
	case err != nil:
		r.fault(n, p, Fault{Given: shorten(n.Value), Problem: err.Error()})
	}
}

// fixed reads one value into a range that has no width.
func (r *reader) fixed(v reflect.Value, n *yaml.Node, p *place) {
	r.input(v.Field(0).Addr().Interface().(input), n, p)
	v.Field(1).Set(v.Field(0))
}

func (r *reader) wrongKind(n *yaml.Node, p *place, accept string) {
	r.fault(n, p, Fault{Problem: "has " + kindOf(n) + " here", Accept: accept})
}

func kindOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "a group of fields"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Tag == "!!null":
		return "nothing"
	}
	return "the text " + strconv.Quote(strings.TrimSpace(shorten(n.Value)))
}

const acceptCount = "a whole number, as 2"

func acceptText(words []string) string {
	if len(words) == 0 {
		return "text"
	}
	return list(words)
}

// acceptFor says what a field accepts, for one that has nothing after it.
func acceptFor(v reflect.Value, f field) string {
	switch {
	case isInput(v.Type()):
		return accepted(reflect.New(v.Type()).Interface().(input))
	case v.Kind() == reflect.String || v.Kind() == reflect.Bool:
		return acceptText(f.words)
	case v.Kind() == reflect.Int:
		return acceptCount
	case v.Kind() == reflect.Slice:
		return "a list"
	}
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return "a group of fields: " + list(names(fieldsOf(t)))
}

// locate finds line and column of a place, or of the nearest one around it.
func locate(root *yaml.Node, p *place) (line, column int) {
	n := root
	for _, s := range p.steps() {
		next := fieldOf(n, s.field)
		if s.listed && n.Kind == yaml.SequenceNode && s.index < len(n.Content) {
			next = n.Content[s.index]
		}
		if next == nil {
			break
		}
		n = next
	}
	return n.Line, n.Column
}

var (
	parserLine = regexp.MustCompile(`line (\d+): `)
	noSpace    = regexp.MustCompile(`^\s*(- )?[a-z_]+:[^\s"']`)
)

// syntax turns the parser's complaint into words for someone who has never heard of
// YAML. What the parser notices often comes a line after what was mistyped.
func (r *reader) syntax(err error) Fault {
	message := strings.TrimPrefix(err.Error(), "yaml: ")
	f := Fault{Line: 1, Problem: "the document breaks off or is not laid out as YAML or JSON"}
	if m := parserLine.FindStringSubmatch(message); m != nil {
		f.Line, _ = strconv.Atoi(m[1])
	}
	f.Line = min(max(f.Line, 1), len(r.lines))
	for _, line := range []int{f.Line, f.Line + 1, f.Line - 1} {
		if tabbed(r.excerptRaw(line)) && strings.Contains(message, "cannot start any token") {
			f.Line, f.Problem, f.Accept = line, "the line begins with a tab", "spaces: two more for each level"
			f.Excerpt = r.excerpt(line)
			return f
		}
	}
	for _, line := range []int{f.Line, f.Line - 1, f.Line + 1} {
		if hint := r.gapHint(line); hint != "" {
			f.Line, f.Problem, f.Hint = line, "there is no space after the colon", hint
			f.Excerpt = r.excerpt(line)
			return f
		}
	}
	for _, known := range complaints {
		if strings.Contains(message, known.parser) {
			f.Problem, f.Hint = known.problem, known.hint
			break
		}
	}
	f.Excerpt = r.excerpt(f.Line)
	return f
}

// complaints are the parser's words and ours.
var complaints = []struct{ parser, problem, hint string }{
	{"mapping values are not allowed", "a colon stands where no field can begin", "look for a line that is indented too far, or put quotes around text with a colon in it"},
	{"could not find expected ':'", "a field has no colon", "write name: value"},
	{"did not find expected key", "the line does not fit the ones above", "fields of one group begin in the same column; quotes and brackets must be closed"},
	{"did not find expected '-'", "the line does not fit the list above", "entries of one list begin with a dash in the same column"},
	{"did not find expected ',' or", "a bracket is not closed, or a comma is missing", "inside [ ] and { } commas stand between the entries"},
	{"unexpected end of stream", "a quote is opened and not closed", "close it with the same sign"},
	{"cannot start any token", "a value begins with a sign that has a meaning of its own", "put quotes around it"},
	{"unknown escape character", "a backslash stands where it has no meaning", "write it twice, or use single quotes"},
	{"block sequence entries are not allowed", "a list begins where it cannot", "begin it on the line after its name"},
	{"control characters", "there is a control character in the document", "save it as plain text"},
	{"UTF-8", "the document is not plain text in UTF-8", "save it as UTF-8"},
	{"UTF-16", "the document is not plain text in UTF-8", "save it as UTF-8"},
	{"max depth", "lists and groups are nested too deeply", ""},
}

// gapHint notices the space left out after a colon.
func (r *reader) gapHint(line int) string {
	if noSpace.Match(r.excerptRaw(line)) {
		return "write name: value, with a space after the colon"
	}
	return ""
}

func (r *reader) excerptRaw(line int) []byte {
	if line < 1 || line > len(r.lines) {
		return nil
	}
	return r.lines[line-1]
}

func tabbed(line []byte) bool {
	return bytes.HasPrefix(bytes.TrimLeft(line, " "), []byte("\t"))
}
