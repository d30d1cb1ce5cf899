package job

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"unicode"
)

// Schema gives the published JSON Schema of the document (draft 2020-12), for
// editors and other programs. It is made from the same tags as the reader, and
// stored as docs/job.schema.json. The reader knows more: names that must exist, and
// sense across fields.
//
// Units: none.
// Range: documents of version [Version].
// Source: JSON Schema draft 2020-12.
func Schema() []byte {
	s := schema{definitions: map[string]any{}}
	root := s.group(reflect.TypeFor[Job]())
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["$id"] = "urn:curvewright:job:1"
	root["title"] = "Curvewright job"
	root["$defs"] = s.definitions
	properties := root["properties"].(object)
	properties["curvewright"] = object{"const": Version, "description": properties["curvewright"].(object)["description"]}

	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(root); err != nil {
		panic(err) // the schema depends on nothing but the types above
	}
	return out.Bytes()
}

type object = map[string]any

type schema struct{ definitions map[string]any }

// group describes a struct.
func (s *schema) group(t reflect.Type) object {
	properties := object{}
	var required []string
	for _, f := range layouts[t] {
		p := s.field(t.Field(f.index).Type, f)
		if f.doc != "" {
			p["description"] = f.doc
		}
		properties[f.name] = p
		if f.need {
			required = append(required, f.name)
		}
	}
	g := object{"type": "object", "properties": properties, "additionalProperties": false}
	if required != nil {
		g["required"] = required
	}
	if kinds := choices(t); kinds != nil {
		var one []any
		for _, k := range kinds {
			one = append(one, object{"required": []string{k}})
		}
		g["oneOf"] = one
	}
	return g
}

// field describes what a field accepts.
func (s *schema) field(t reflect.Type, f field) object {
	if isInput(t) {
		return ref(s.input(t))
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.field(t.Elem(), f)
	case reflect.Struct:
		return ref(s.structure(t))
	case reflect.Slice:
		list := object{"type": "array", "items": s.field(t.Elem(), f)}
		if f.need {
			list["minItems"] = 1
		}
		return list
	case reflect.Int:
		return object{"type": "integer", "minimum": 0, "maximum": 1000}
	case reflect.Bool:
		return words(f.words)
	}
	if f.words != nil {
		return words(f.words)
	}
	// A name of digits, or a date, is text to the reader with or without quotes.
	return object{"type": []string{"string", "number"}, "minLength": 1}
}

// words describes a text of a few words. Where yes and no are among them, true and
// false will do.
func words(words []string) object {
	enum := []any{}
	yes := false
	for _, w := range words {
		enum = append(enum, w)
		yes = yes || w == "yes"
	}
	if yes {
		enum = append(enum, true, false)
	}
	return object{"enum": enum}
}

func ref(name string) object { return object{"$ref": "#/$defs/" + name} }

// structure defines a struct once and gives its name.
func (s *schema) structure(t reflect.Type) string {
	name := snake(t.Name())
	if s.definitions[name] != nil {
		return name
	}
	s.definitions[name] = object{} // taken, should it refer to itself
	definition := s.group(t)
	if isSpan(t) {
		definition = object{"oneOf": []any{ref(s.input(t.Field(0).Type)), definition}}
	}
	s.definitions[name] = definition
	return name
}

// input defines a value with its unit, alone or with how it is known.
func (s *schema) input(t reflect.Type) string {
	in := reflect.New(t).Interface().(input)
	value, _, _ := in.entry()
	name := snake(reflect.TypeOf(value).Name())
	if s.definitions[name] != nil {
		return name
	}
	plain := object{"type": "string", "description": accepted(in)}
	switch name {
	case "number":
		plain["type"], plain["pattern"] = []string{"number", "string"}, plainNumber.String()
	case "fraction":
		plain["type"], plain["pattern"] = []string{"number", "string"}, `[0-9]`
	case "electric_resistance": // what a meter shows when the line is open or shorted, too
		plain["type"], plain["pattern"] = []string{"number", "string"}, `^0$|[0-9].*[A-Za-zΩΩ]|^[A-Za-z.∞ ]+$`
		plain["minimum"], plain["maximum"] = 0, 0 // as a plain number, nothing else
	default: // a number, and a unit after or before it
		plain["pattern"] = `[0-9].*[A-Za-z°'"%′″’”℃℉º˚ΩΩ]|[A-Za-z].*[0-9]`
	}
	if name != "number" {
		plain["examples"] = strings.Split(accepted(in), ", ")
	}
	s.definitions[name+"_value"] = plain
	s.definitions[name] = object{"oneOf": []any{
		ref(name + "_value"),
		object{
			"type": "object", "additionalProperties": false, "required": []string{"value"},
			"properties": object{
				"value": ref(name + "_value"),
				"known": object{"enum": knownWords, "description": "how the value is known"},
			},
		},
	}}
	return name
}

// snake spells a type's name as the fields of the document are spelt.
func snake(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
