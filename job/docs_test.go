package job

import (
	"bytes"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

const manual = "../docs/job.md"

// The examples of the manual, in their order, are one job; those marked "instead"
// replace the blocks of the same name.
func TestTheManualsExamplesAreRead(t *testing.T) {
	text, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	var whole, instead []string
	for _, m := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		if strings.HasPrefix(m[1], "# instead\n") {
			instead = append(instead, m[1])
		} else {
			whole = append(whole, m[1])
		}
	}
	document := strings.Join(whole, "")
	if _, err := Read([]byte(document)); err != nil {
		t.Error(err)
	}
	for _, block := range instead {
		var base, change yaml.Node
		if err := yaml.Unmarshal([]byte(document), &base); err != nil {
			t.Fatal(err)
		}
		if err := yaml.Unmarshal([]byte(block), &change); err != nil {
			t.Fatal(err)
		}
		// A block with nothing after its name is left out.
		for i := 0; i < len(change.Content[0].Content); i += 2 {
			name, value := change.Content[0].Content[i].Value, change.Content[0].Content[i+1]
			fields := base.Content[0].Content
			for k := 0; k < len(fields); k += 2 {
				if fields[k].Value != name {
					continue
				}
				if value.Tag == "!!null" {
					base.Content[0].Content = append(fields[:k:k], fields[k+2:]...)
					break
				}
				fields[k+1] = value
			}
		}
		changed, err := yaml.Marshal(&base)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Read(changed); err != nil {
			t.Errorf("%s%v", block, err)
		}
	}
}

// Every block of the document has an example of its own in the manual, and every field of
// the boiler room stands in one.
func TestTheManualShowsEveryBlock(t *testing.T) {
	text, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	var examples strings.Builder
	for _, m := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		examples.WriteString(m[1])
	}
	for _, f := range layouts[reflect.TypeFor[Job]()] {
		if !regexp.MustCompile(`(?m)^` + f.name + `:`).MatchString(examples.String()) {
			t.Errorf("the manual has no example of %s", f.name)
		}
	}
	for _, group := range []reflect.Type{reflect.TypeFor[Boiler](), reflect.TypeFor[RatedPoint](), reflect.TypeFor[Separator](), reflect.TypeFor[HotWater](),
		reflect.TypeFor[TankCoil](), reflect.TypeFor[System](), reflect.TypeFor[Sensor](), reflect.TypeFor[TableShape]()} {
		for _, f := range layouts[group] {
			if !strings.Contains(examples.String(), f.name+":") {
				t.Errorf("no example of the manual has the field %s of %s", f.name, group.Name())
			}
		}
	}
}

// The list of fields at the end of the manual is made from the struct tags.
func TestTheManualListsAllFields(t *testing.T) {
	text, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	prose, _, found := bytes.Cut(text, []byte("## All fields\n"))
	if !found {
		t.Fatal("the manual has no list of fields")
	}
	want := string(prose) + "## All fields\n" + fieldTables()
	if *update {
		if err := os.WriteFile(manual, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if string(text) != want {
		t.Error("the list of fields is not current; run the test with -update")
	}
}

func fieldTables() string {
	var b strings.Builder
	seen := map[reflect.Type]bool{}
	var table func(t reflect.Type, title string)
	table = func(t reflect.Type, title string) {
		if seen[t] {
			return
		}
		seen[t] = true
		fmt.Fprintf(&b, "\n### %s\n\n| field | holds | meaning |\n|---|---|---|\n", title)
		for _, f := range layouts[t] {
			needed := ""
			if f.need {
				needed = " (needed)"
			}
			fmt.Fprintf(&b, "| `%s`%s | %s | %s |\n", f.name, needed, holding(t.Field(f.index).Type, f), f.doc)
		}
		for _, f := range layouts[t] {
			inner := t.Field(f.index).Type
			for inner.Kind() == reflect.Pointer || inner.Kind() == reflect.Slice {
				inner = inner.Elem()
			}
			if layouts[inner] == nil {
				continue
			}
			name := f.name
			if isSpan(inner) && inner.Name() != "CutOff" {
				name = strings.ReplaceAll(snake(inner.Name()), "_", " ")
			}
			table(inner, name)
		}
	}
	table(reflect.TypeFor[Job](), "job")
	return b.String()
}

// holding says in a few words what a field takes.
func holding(t reflect.Type, f field) string {
	switch {
	case isInput(t):
		return "`" + strings.ReplaceAll(accepted(reflect.New(t).Interface().(input)), ", ", "`, `") + "`"
	case len(f.words) > 0:
		return "`" + strings.Join(f.words, "`, `") + "`"
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.String:
		return "list of texts"
	case t.Kind() == reflect.Slice:
		return "list"
	case t.Kind() == reflect.Int:
		return "whole number"
	case t.Kind() == reflect.String:
		return "text"
	case isSpan(t):
		return "range, or one value"
	}
	return "group"
}
