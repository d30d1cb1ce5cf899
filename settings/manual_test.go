package settings_test

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// TestTheManualsJobIsSolved: the examples of the manual, in their order, are a job that
// has a sheet, and their readings are judged as the manual means them.
func TestTheManualsJobIsSolved(t *testing.T) {
	text, err := os.ReadFile("../docs/job.md")
	if err != nil {
		t.Fatal(err)
	}
	var whole strings.Builder
	for _, m := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		if !strings.HasPrefix(m[1], "# instead\n") {
			whole.WriteString(m[1])
		}
	}
	s := solve(t, read(t, whole.String()))
	if !s.Boiler.Known || !s.Boiler.Cycles || len(s.Sensors) != 5+1 {
		t.Errorf("boiler %+v, %d sensors", s.Boiler, len(s.Sensors))
	}
	for id, want := range map[string]string{"sensor.outdoor": "right", "sensor.boiler-supply": "right", "sensor.garage": "wrong"} {
		if l, room := lineOf(s, id); !room || l.Value != want {
			t.Errorf("%s: %+v", id, l)
		}
	}
	for _, f := range s.Findings {
		if strings.Contains(f.Text, "said to move") || strings.Contains(f.Text, "too long") {
			t.Errorf("the manual's own job has a finding: %s", f.Text)
		}
	}
}
