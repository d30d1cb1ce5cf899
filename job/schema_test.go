package job

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

var update = flag.Bool("update", false, "write the stored schema anew")

const storedSchema = "../docs/job.schema.json"

func TestStoredSchemaIsCurrent(t *testing.T) {
	if *update {
		if err := os.WriteFile(storedSchema, Schema(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	stored, err := os.ReadFile(storedSchema)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(stored, Schema()) {
		t.Error("the stored schema is not current; run the test with -update and look at the difference")
	}
}

func compiledSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("job.json", document); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("job.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// asJSON turns YAML into what a JSON Schema judges.
func asJSON(t *testing.T, data []byte) any {
	t.Helper()
	var document any
	if err := yaml.Unmarshal(data, &document); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return value
}

func TestExamplesFitTheSchema(t *testing.T) {
	schema := compiledSchema(t)
	for name, data := range examples(t) {
		if err := schema.Validate(asJSON(t, data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		j, err := Read(data)
		if err != nil {
			t.Fatal(err)
		}
		written, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(asJSON(t, written)); err != nil {
			t.Errorf("%s, written anew: %v", name, err)
		}
	}
}

func TestTheSchemaRefusesWhatTheReaderRefuses(t *testing.T) {
	schema := compiledSchema(t)
	for _, row := range []struct{ old, new string }{
		{"length:", "lenght:"},
		{"118 ft", "118"},
		{"118 ft", "{value: 118 ft, known: assumed}"},
		{"118 ft", "{known: measured}"},
		{"1946-1979", "1950s"},
		{"curvewright: 1", "curvewright: 2"},
		{"job: Quillon house\n", ""},
		{"fin_tube:\n          length: 118 ft", "count: 1"},
		{"length: 118 ft", "length: 118 ft\n        cast_iron: {edr: 3 EDR}"},
		{"  era: 1946-1979", "  storeys: -1"},
	} {
		document := strings.Replace(small, row.old, row.new, 1)
		if document == small {
			t.Fatalf("no %q in the document", row.old)
		}
		if schema.Validate(asJSON(t, []byte(document))) == nil {
			t.Errorf("the schema accepts %q", row.new)
		}
		if j, err := Read([]byte(document)); err == nil || j != nil {
			t.Errorf("the reader accepts %q", row.new)
		}
	}
}
