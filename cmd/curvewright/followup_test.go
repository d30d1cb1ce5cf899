package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// writeLog makes an hourly log of some winter weeks: a house of 280 W/K on a curve of
// slope 1.2.
func writeLog(t *testing.T, heading string, days int) string {
	t.Helper()
	var b strings.Builder
	b.WriteString(heading + "\n")
	for i := range days * 24 {
		h := float64(i)
		out := -6 + 7*math.Sin(h/150) + 4*math.Sin((h-9)*math.Pi/12) + 0.4*math.Sin(h*1.7)
		supply := 46 - 1.2*out + 0.4*math.Sin(h*2.3)
		heat := 0.280*(20.5-out) - 0.4 + 0.1*math.Sin(h*0.9)
		day := i / 24
		month, dom := 1, day+1
		if day >= 31 {
			month, dom = 2, day-30
		}
		fmt.Fprintf(&b, "2026-%02d-%02d %02d:00,%.1f,%.1f,%.1f,%.3f,%.1f,%d\n", month, dom, i%24, out*1.8+32, supply*1.8+32, (supply-9)*1.8+32, heat, (20.5+0.2*math.Sin(h/5))*1.8+32, 1)
	}
	name := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(name, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

const logHeading = "time,outdoor (°F),supply (°F),return (°F),heat (kW),hall (°F),burner"

func TestFollowupLearnsFromALog(t *testing.T) {
	log := writeLog(t, logHeading, 35)
	status, out, errs := call("followup", examplePath("short-survey"), log)
	if status != 0 || errs != "" {
		t.Fatalf("status %d, %s", status, errs)
	}
	for _, want := range []string{"heat loss towards outdoors", "slope of the curve", "these data cannot tell", "Findings, in the order of repair", "set now", "For the household", "as it runs"} {
		if !strings.Contains(out, want) {
			t.Errorf("the output has no %q:\n%s", want, out)
		}
	}
	status, out, errs = call("followup", examplePath("short-survey"), log, "--json", "--quick", "--units", "si")
	var r struct {
		Estimates []struct {
			Name, Text string
			Known      bool
		}
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil || status != 0 || errs != "" {
		t.Fatalf("%v, %s", err, errs)
	}
	found := map[string]string{}
	for _, e := range r.Estimates {
		found[e.Name] = e.Text
	}
	if !strings.HasPrefix(found["heat loss towards outdoors"], "28") || !strings.HasPrefix(found["slope of the curve"], "1.2") && !strings.HasPrefix(found["slope of the curve"], "1.1") {
		t.Errorf("%v", found)
	}
}

func TestFollowupKeepsItsMapping(t *testing.T) {
	log := writeLog(t, "a,b,c,d,e,f,g", 20)
	kept := filepath.Join(t.TempDir(), "mapping.json")
	columns := "2=outdoor °F,3=supply °F,4=return °F,5=heat kW,6=room Hall °F,7=burner 0/1"
	status, out, errs := call("followup", examplePath("short-survey"), log, "--preview", "--columns", columns, "--keep", kept)
	if status != 0 || errs != "" || !strings.Contains(out, "room Hall °F") {
		t.Fatalf("status %d, %s\n%s", status, errs, out)
	}
	status, out, errs = call("followup", examplePath("short-survey"), log, "--mapping", kept, "--quick")
	if status != 0 || errs != "" || !strings.Contains(out, "Hall, mean") {
		t.Fatalf("status %d, %s\n%s", status, errs, out)
	}
}

func TestFollowupRefusesInSentences(t *testing.T) {
	log := writeLog(t, logHeading, 20)
	prose := filepath.Join(t.TempDir(), "prose.csv")
	if err := os.WriteFile(prose, []byte(strings.Repeat("not a table\n", 40)), 0o600); err != nil {
		t.Fatal(err)
	}
	sheet := filepath.Join(t.TempDir(), "log.xlsx")
	if err := os.WriteFile(sheet, []byte("hello"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ log, columns, want string }{
		{"nowhere.csv", "", "cannot be opened"},
		{prose, "", "no column of dates and times"},
		{sheet, "", "no spreadsheet"},
		{log, "2=warmth", "is no role"},
		{log, "2=outdoor kW", "accepted"},
		{log, "12=outdoor", "does not name a column"},
	} {
		status, _, errs := call("followup", examplePath("short-survey"), c.log, "--columns", c.columns)
		if status != 1 || !strings.Contains(errs, c.want) {
			t.Errorf("%s %s: status %d, %q, want %q", filepath.Base(c.log), c.columns, status, errs, c.want)
		}
	}
}
