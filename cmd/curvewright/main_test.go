package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the agreed output anew; look at the difference")

// call runs the program as a person does in a terminal.
func call(args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

func examplePath(name string) string { return filepath.Join("..", "..", "examples", name+".yaml") }

var exampleNames = []string{"short-survey", "ridge-house", "combi-slab", "bills-house"}

// TestSettingsAreWhatWasAgreed holds the printed sheet of every example, so that any
// change of a figure shows in the history.
func TestSettingsAreWhatWasAgreed(t *testing.T) {
	for _, name := range exampleNames {
		status, out, errs := call("settings", examplePath(name))
		if status != 0 || errs != "" {
			t.Fatalf("%s: status %d, %s", name, status, errs)
		}
		golden := filepath.Join("testdata", name+".txt")
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(golden, []byte(out), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if out != string(want) {
			t.Errorf("%s: the sheet differs from %s; look at it, then run with -update", name, golden)
		}
	}
}

func TestFormats(t *testing.T) {
	for _, name := range exampleNames {
		status, out, errs := call("settings", examplePath(name), "--format", "json", "--units", "us")
		var sheet map[string]any
		if err := json.Unmarshal([]byte(out), &sheet); status != 0 || err != nil {
			t.Fatalf("%s: json: status %d, %v: %s", name, status, err, errs)
		}
	}
	dir := t.TempDir()
	for _, paper := range []string{"a4", "letter"} {
		file := filepath.Join(dir, paper+".pdf")
		if status, out, errs := call("settings", examplePath("ridge-house"), "--format", "pdf", "--paper", paper, "-o", file); status != 0 || !strings.Contains(out, file) {
			t.Fatalf("pdf: status %d, %s%s", status, out, errs)
		}
		data, err := os.ReadFile(file)
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
			t.Fatalf("pdf: %v", err)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".curvewright-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	file := filepath.Join(dir, "sheet.txt")
	if status, _, errs := call("settings", examplePath("short-survey"), "-o", file); status != 0 {
		t.Fatal(errs)
	}
	_, printed, _ := call("settings", examplePath("short-survey"))
	written, _ := os.ReadFile(file)
	if printed != string(written) {
		t.Error("the file and the terminal differ")
	}
}

// TestRefusals: each says what, where and what would be accepted, on standard error,
// and leaves a non-zero status.
func TestRefusals(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	faulty := write("faulty.yaml", "curvewright: 1\njob: Faulty\nsite: {design_outdor: -6 °F}\ncircuits:\n  - name: A\n    drop: 20\n")
	kept := write("kept.txt", "what was there")
	for _, c := range []struct {
		args   []string
		status int
		want   []string
	}{
		{[]string{"settings", faulty}, 1, []string{"design_outdoor", "drop", "20 °F, 11 K"}},
		{[]string{"settings", faulty, "-o", kept}, 1, []string{"design_outdoor"}},
		{[]string{"check", faulty}, 1, []string{faulty, "design_outdoor"}},
		{[]string{"settings", filepath.Join(dir, "none.yaml")}, 1, []string{"cannot open", "no such file"}},
		{[]string{"settings", examplePath("ridge-house"), "--format", "pdf"}, 1, []string{"-o ridge-house.pdf"}},
		{[]string{"settings", examplePath("ridge-house"), "-o", filepath.Join(dir, "no", "such", "folder.txt")}, 1, []string{"cannot write"}},
		{[]string{"settings", examplePath("ridge-house"), "--samples=-3"}, 1, []string{"--samples -3"}},
		{[]string{"settings", examplePath("ridge-house"), "--format", "docx"}, 2, []string{"text", "json", "pdf"}},
		{[]string{"settings"}, 2, []string{"<file>"}},
		{[]string{"why", examplePath("ridge-house"), "house.cold-suply"}, 1, []string{"no line \"house.cold-suply\"", "house.cold-supply"}},
		{[]string{"settle", "x"}, 2, []string{"settle"}},
	} {
		status, _, errs := call(c.args...)
		if status != c.status {
			t.Errorf("%v: status %d, want %d: %s", c.args, status, c.status, errs)
		}
		for _, w := range c.want {
			if !strings.Contains(errs, w) {
				t.Errorf("%v: says %q, want %q in it", c.args, errs, w)
			}
		}
	}
	if data, _ := os.ReadFile(kept); string(data) != "what was there" {
		t.Error("a refused job overwrote the file")
	}
}

func TestWhyShowsTheWorking(t *testing.T) {
	status, out, errs := call("why", examplePath("ridge-house"))
	if status != 0 || !strings.Contains(out, "house.cold-supply") {
		t.Fatalf("status %d: %s%s", status, out, errs)
	}
	for line := range strings.Lines(out) {
		id, _, ok := strings.Cut(strings.TrimSpace(line), " ")
		if !ok || id == "curvewright" {
			continue
		}
		status, working, errs := call("why", examplePath("ridge-house"), id)
		if status != 0 || !strings.Contains(working, "source") {
			t.Errorf("why %s: status %d: %s%s", id, status, working, errs)
		}
	}
}

func TestCheckProofSchemaVersion(t *testing.T) {
	args := []string{"check"}
	for _, name := range exampleNames {
		args = append(args, examplePath(name))
	}
	if status, out, errs := call(args...); status != 0 || strings.Count(out, "in order") != len(exampleNames) {
		t.Errorf("check: status %d: %s%s", status, out, errs)
	}
	for _, format := range []string{"text", "markdown", "json"} {
		status, out, errs := call("proof", "--format", format)
		if status != 0 {
			t.Errorf("proof %s: status %d: %s", format, status, errs)
		}
		if format == "json" && !json.Valid([]byte(out)) {
			t.Error("proof --format json is not JSON")
		}
	}
	if status, out, _ := call("schema"); status != 0 || !json.Valid([]byte(out)) {
		t.Errorf("schema: status %d", status)
	}
	if status, out, _ := call("version"); status != 0 || !strings.Contains(out, version) {
		t.Errorf("version: status %d: %s", status, out)
	}
	if status, out, _ := call(); status != 0 || !strings.Contains(out, "settings") {
		t.Errorf("no arguments: status %d: %s", status, out)
	}
}

// TestServe starts the real server on a free port, asks it for the page, and ends it.
func TestServe(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	jobs := filepath.Join(t.TempDir(), "jobs.sqlite")
	said, saying := io.Pipe()
	done := make(chan error, 1)
	go func() {
		done <- serveCommand{Listen: "127.0.0.1:0", Jobs: jobs, Demo: true}.serve(ctx, &program{out: saying, errs: io.Discard})
	}()
	buf := make([]byte, 200)
	n, err := said.Read(buf)
	if err != nil {
		t.Fatal(err)
	}
	_, url, found := strings.Cut(strings.TrimSpace(string(buf[:n])), "open at ")
	if !found {
		t.Fatalf("it says %q", buf[:n])
	}
	client := http.Client{Timeout: 10 * time.Second}
	res, err := client.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	body, _ := io.ReadAll(res.Body)
	res.Body.Close()
	if res.StatusCode != http.StatusOK || !bytes.Contains(body, []byte("Marchbanks house")) {
		t.Errorf("status %d, page of %d bytes", res.StatusCode, len(body))
	}
	host, _, _ := strings.Cut(strings.TrimPrefix(url, "http://"), "/")
	second := serveCommand{Listen: host, Jobs: jobs}
	if err := second.serve(ctx, &program{out: io.Discard, errs: io.Discard}); err == nil || !strings.Contains(err.Error(), "in use") {
		t.Errorf("a second server on the same port: %v", err)
	}
	stop()
	if err := <-done; err != nil {
		t.Errorf("it ended with %v", err)
	}
}

// TestSettingsByARealYear: with the hours of a real cold place the sheet is another, and
// a file that is no weather is refused.
func TestSettingsByARealYear(t *testing.T) {
	file := filepath.Join("..", "..", "..", "shared", "weather", "USA_MN_Duluth.727450_TMY3.epw.gz")
	if _, err := os.Stat(file); err != nil {
		t.Skip("no typical year beside the project: the settings weighed by one are left out")
	}
	status, real, errs := call("settings", examplePath("short-survey"), "--weather", file, "--format", "json")
	if status != 0 {
		t.Fatal(errs)
	}
	_, made, _ := call("settings", examplePath("short-survey"), "--format", "json")
	if real == made {
		t.Error("the hours of Duluth and the made-up ones give the same sheet")
	}
	if status, _, errs := call("settings", examplePath("short-survey"), "--weather", examplePath("short-survey")); status != 1 || !strings.Contains(errs, "short-survey.yaml") {
		t.Errorf("a job as weather: status %d: %s", status, errs)
	}
}

// TestYear plays an example and refuses what cannot be played.
func TestYear(t *testing.T) {
	status, out, errs := call("year", examplePath("combi-slab"), "--against", "preset")
	if status != 0 || !strings.Contains(out, "the sheet") || !strings.Contains(out, "preset") || strings.Contains(out, "constant supply") {
		t.Fatalf("status %d: %s%s", status, out, errs)
	}
	if status, alone, _ := call("year", examplePath("combi-slab"), "--against", "none", "--units", "us"); status != 0 || strings.Contains(alone, "preset") || !strings.Contains(alone, "therm") {
		t.Errorf("alone: status %d: %s", status, alone)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--against", "guess"}, "accepted: preset, fixed, as-found"},
		{[]string{"--weather", examplePath("combi-slab")}, "combi-slab.yaml"},
	} {
		if status, _, errs := call(append([]string{"year", examplePath("combi-slab")}, c.args...)...); status != 1 || !strings.Contains(errs, c.want) {
			t.Errorf("%v: status %d: %s", c.args, status, errs)
		}
	}
}
