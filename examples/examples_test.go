package examples

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/settings"
)

func TestEveryExampleIsListedAndSolved(t *testing.T) {
	files, err := filepath.Glob("*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	files = slices.DeleteFunc(files, func(name string) bool { return strings.HasSuffix(name, "-visit.yaml") })
	list := List()
	if len(list) != len(files) {
		t.Errorf("%d examples listed, %d in the folder", len(list), len(files))
	}
	for _, e := range list {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Errorf("%s: %v", e.Name, err)
			continue
		}
		if e.Title != j.Name || e.About == "" {
			t.Errorf("%s: title %q, about %q", e.Name, e.Title, e.About)
		}
		if _, err := settings.Solve(j, settings.DefaultOptions(j)); err != nil {
			t.Errorf("%s: %v", e.Name, err)
		}
	}
	if _, ok := Find("no such house"); ok {
		t.Error("found an example that is not there")
	}
}
