package job

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

// Every version that was ever written has a document here, and it must open.
func TestDocumentsOfEveryVersionOpen(t *testing.T) {
	for version := 1; version <= Version; version++ {
		data, err := os.ReadFile(fmt.Sprintf("testdata/versions/v%d.yaml", version))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(data), fmt.Sprintf("curvewright: %d\n", version)) {
			t.Errorf("the stored document is not of version %d", version)
		}
		j, err := Read(data)
		if err != nil {
			t.Fatal(err)
		}
		if j.Version != Version {
			t.Errorf("version %d opens as %d", version, j.Version)
		}
	}
	if len(steps) != Version-1 {
		t.Errorf("%d steps lead to version %d", len(steps), Version)
	}
}

func TestStepsLiftADocumentToTheNewestVersion(t *testing.T) {
	// Made-up history: version 2 renamed a field, version 3 added one.
	history := []step{
		{from: 1, apply: func(document *yaml.Node) {
			for _, n := range document.Content {
				if n.Value == "title" {
					n.Value = "job"
				}
			}
		}},
		{from: 2, apply: func(document *yaml.Node) {
			document.Content = append(document.Content,
				&yaml.Node{Kind: yaml.ScalarNode, Value: "by"}, &yaml.Node{Kind: yaml.ScalarNode, Value: "unknown"})
		}},
	}
	for _, row := range []struct{ document, want string }{
		{"curvewright: 1\ntitle: x\n", "curvewright: 3\njob: x\nby: unknown\n"},
		{"curvewright: 2\njob: x\n", "curvewright: 3\njob: x\nby: unknown\n"},
		{"curvewright: 3\njob: x\n", "curvewright: 3\njob: x\n"},
		{"job: x\n", "job: x\n"},
	} {
		var document yaml.Node
		if err := yaml.Unmarshal([]byte(row.document), &document); err != nil {
			t.Fatal(err)
		}
		if fault := lift(document.Content[0], history, 3); fault != nil {
			t.Fatal(fault)
		}
		got, err := yaml.Marshal(document.Content[0])
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != row.want {
			t.Errorf("%q became %q", row.document, got)
		}
	}
	var newer yaml.Node
	if err := yaml.Unmarshal([]byte("curvewright: 4\n"), &newer); err != nil {
		t.Fatal(err)
	}
	if fault := lift(newer.Content[0], history, 3); fault == nil || !strings.Contains(fault.Error(), "newer") {
		t.Errorf("version 4 of 3: %v", fault)
	}
}
