package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// budget is the most that the page may weigh as WebAssembly, before compression, which
// makes a quarter of it. It weighed 13.8 MB before it played a year and 14.8 after: of
// those, net/http and templ are 5.5, reading documents and the engine 5.5, charts, drawing
// and what the PDF leaves behind 1.5, the page itself 1.3, and 0.9 the year: playing it,
// reading files of weather, unpacking them, its charts.
const budget = 15_200_000

func TestPageCompilesForABrowserWithinItsBudget(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the whole page for another machine")
	}
	out := filepath.Join(t.TempDir(), "page.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	file, err := os.Stat(out)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes", file.Size())
	if file.Size() > budget {
		t.Errorf("%d bytes, %d at most", file.Size(), budget)
	}
}
