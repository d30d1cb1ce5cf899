package examples

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"curvewright/attendance"
	"curvewright/units"
	"curvewright/visit"
)

// ridgeHouseVisit is the visit with its house.
func ridgeHouseVisit(t *testing.T) (*attendance.Visit, *visit.House) {
	t.Helper()
	v, err := attendance.Read(RidgeHouseVisit)
	if err != nil {
		t.Fatal(err)
	}
	h, err := visit.New(ridgeHouse(t), units.US)
	if err != nil {
		t.Fatal(err)
	}
	return v, h
}

// TestTheVisitIsSealed: with the job as it is here. go test ./examples -update seals it
// anew after either was changed.
func TestTheVisitIsSealed(t *testing.T) {
	house, _ := Find("ridge-house")
	v, _ := ridgeHouseVisit(t)
	if *update {
		engine := v.Engine
		v.Engine, v.Against, v.Sealed = "", "", ""
		sealed, err := v.Seal(engine, []byte(house.Document))
		if err != nil {
			t.Fatal(err)
		}
		text := string(RidgeHouseVisit)
		for name, value := range map[string]string{"judged_against": sealed.Against, "sealed": sealed.Sealed} {
			text = regexp.MustCompile(`(?m)^`+name+`: .*$`).ReplaceAllString(text, name+": "+value)
		}
		if err := os.WriteFile("ridge-house-visit.yaml", []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return
	}
	if !v.Intact() || v.Against != attendance.Fingerprint([]byte(house.Document)) {
		t.Error("visit or job were changed; go test ./examples -update seals the visit anew")
	}
}

// TestTheVisitIsWalkedToItsEnd: every step and every line of the sheet has its answer.
func TestTheVisitIsWalkedToItsEnd(t *testing.T) {
	v, h := ridgeHouseVisit(t)
	answered := map[string]bool{}
	for _, e := range v.Entered {
		answered["line "+e.Line] = true
	}
	for _, c := range v.Checks {
		answered["step "+c.Step] = true
	}
	all := 0
	for _, section := range h.Walk() {
		for _, step := range section.Steps {
			kind := "step "
			if step.Line {
				kind = "line "
			}
			all++
			if !answered[kind+step.Name] {
				t.Errorf("%s: %s%s has no answer", section.Title, kind, step.Name)
			}
		}
	}
	if all != len(answered) {
		t.Errorf("%d answers to %d questions", len(answered), all)
	}
}

// TestTheVisitHasOneFinding: the mixing valve of the slab, and nothing else is off.
func TestTheVisitHasOneFinding(t *testing.T) {
	v, h := ridgeHouseVisit(t)
	conditions, readings, err := h.FromDocument(v)
	if err != nil {
		t.Fatal(err)
	}
	j, err := h.Judge(conditions, readings)
	if err != nil {
		t.Fatal(err)
	}
	if j.Sound || !strings.Contains(strings.ToLower(j.Causes[0].Name()), "mixing valve stuck: slab") || j.Causes[0].Share < 0.95 {
		t.Errorf("likeliest %s, %v", j.Causes[0].Name(), j.Causes[0].Share)
	}
	for _, r := range j.Readings {
		ofSlab := strings.Contains(r.String(), "Slab") && !strings.Contains(r.String(), "wanted")
		if (r.Verdict == visit.Right) == ofSlab {
			t.Errorf("%s: %s", r.String(), r.Verdict)
		}
	}
}
