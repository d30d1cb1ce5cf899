package housekeeping

import (
	"go/ast"
	"os"
	"path"
	"strings"
	"testing"
)

// The search for a crash starts from kept seeds, and what it once found stays among
// them, where every run of the tests repeats it.
func TestEveryFuzzTargetHasSeeds(t *testing.T) {
	targets := 0
	for _, s := range sources(t) {
		if !s.test {
			continue
		}
		for _, d := range s.file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv != nil || !strings.HasPrefix(f.Name.Name, "Fuzz") {
				continue
			}
			targets++
			folder := path.Join(s.pkg, "testdata/fuzz", f.Name.Name)
			if kept, err := os.ReadDir(path.Join(root, folder)); err != nil || len(kept) == 0 {
				t.Errorf("%s: %s has no seeds in %s", s.at(f), f.Name.Name, folder)
			}
		}
	}
	if targets == 0 {
		t.Error("no fuzz target was found: the test looks in the wrong place")
	}
}
