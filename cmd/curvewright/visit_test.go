package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func visitFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "visit.yaml")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestExpect prints what every example should read, as text and as JSON, and shows a
// working.
func TestExpect(t *testing.T) {
	for _, name := range exampleNames {
		status, out, errs := call("expect", examplePath(name), "--outdoor", "35 °F")
		if status != 0 || !strings.Contains(out, "Boiler supply") || !strings.Contains(out, "±") {
			t.Errorf("%s: status %d, %s%s", name, status, out, errs)
		}
		var got struct {
			Format   string
			Expected struct{ Items []map[string]any }
		}
		status, out, errs = call("expect", examplePath(name), "--outdoor", "35 °F", "--json", "--units", "si")
		if err := json.Unmarshal([]byte(out), &got); status != 0 || err != nil || got.Format != "curvewright.expected/1" || len(got.Expected.Items) < 8 {
			t.Errorf("%s: json: status %d, %v, %s", name, status, err, errs)
		}
	}
	if status, out, errs := call("expect", examplePath("ridge-house"), "--outdoor", "35 °F", "--why", "return of House"); status != 0 || !strings.Contains(out, "Tr = Ts − Q/C") {
		t.Errorf("why: status %d, %s%s", status, out, errs)
	}
	if status, out, _ := call("expect", examplePath("combi-slab"), "--outdoor", "20 °F", "--state", "fresh", "--since", "2 h", "--start", "55 °F"); status != 0 || !strings.Contains(out, "Look again") {
		t.Errorf("fresh: status %d, %s", status, out)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--outdoor", "35"}, "--outdoor"},
		{[]string{"--outdoor", "35 °F", "--state", "fresh"}, "--since"},
		{[]string{"--outdoor", "35 °F", "--calling", "Attic"}, "House, Slab"},
		{[]string{"--outdoor", "35 °F", "--why", "luck"}, "luck"},
	} {
		if status, _, errs := call(append([]string{"expect", examplePath("ridge-house")}, c.args...)...); status == 0 || !strings.Contains(errs, c.want) {
			t.Errorf("%v: status %d, %s", c.args, status, errs)
		}
	}
}

// TestJudge ends with 0 for a sound plant, with 1 where something is likely wrong, and says
// what to read next.
func TestJudge(t *testing.T) {
	const sound = `curvewright: 1
visit: 2026-11-25
conditions: {outdoor: 35 °F}
readings:
  boiler: {supply: 118 °F, return: 111 °F}
  circuits:
    - {name: House, wanted: 118 °F, supply: 117 °F, return: 109 °F}
    - {name: Slab, wanted: 86 °F, supply: 86 °F, return: 81 °F}
`
	status, out, errs := call("judge", examplePath("ridge-house"), visitFile(t, sound))
	if status != 0 || !strings.Contains(out, "fit a sound plant") {
		t.Errorf("sound: status %d, %s%s", status, out, errs)
	}
	hot := strings.Replace(sound, "supply: 86 °F, return: 81 °F", "supply: 117 °F, return: 104 °F", 1)
	status, out, errs = call("judge", examplePath("ridge-house"), visitFile(t, hot))
	if status != 1 || !strings.Contains(out, "ixing valve") || !strings.Contains(out, "apart") || errs != "" {
		t.Errorf("stuck: status %d, %s%s", status, out, errs)
	}
	var got struct {
		Judged struct{ Judgement struct{ Sound bool } }
	}
	if status, out, _ = call("judge", examplePath("ridge-house"), visitFile(t, hot), "--json"); status != 1 || json.Unmarshal([]byte(out), &got) != nil || got.Judged.Judgement.Sound {
		t.Errorf("json: status %d, %s", status, out)
	}
	if status, out, _ = call("judge", examplePath("ridge-house"), filepath.Join("..", "..", "attendance", "testdata", "ridge.yaml")); status != 1 || !strings.Contains(out, "excess air") || !strings.Contains(out, "no clearance") {
		t.Errorf("whole visit: status %d, %s", status, out)
	}
	if status, _, errs = call("judge", examplePath("ridge-house"), visitFile(t, strings.Replace(sound, "House", "Barn", 1))); status != 1 || !strings.Contains(errs, "Barn") {
		t.Errorf("a circuit that is not there: status %d, %s", status, errs)
	}
}
