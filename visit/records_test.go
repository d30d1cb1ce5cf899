package visit

import (
	"strings"
	"testing"

	"curvewright/attendance"
	"curvewright/units"
)

// unbroken makes usual spaces of those that keep a value with its unit.
var unbroken = strings.NewReplacer("\u00a0", " ")

func visitWith(t *testing.T, rest string) *attendance.Visit {
	t.Helper()
	v, err := attendance.Read([]byte("curvewright: 1\nvisit: 2026-11-25\nconditions: {outdoor: 20 °F}\n" + rest))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestWhatALineEnteredOtherwiseLeadsTo: consequences follow from the figures of the house.
func TestWhatALineEnteredOtherwiseLeadsTo(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	slab := ""
	for _, c := range h.plan.Sheet.Circuits {
		if strings.EqualFold(c.Name, "slab") {
			slab = unbroken.Replace(c.Limit.Text(units.US))
		}
	}
	if slab == "" {
		t.Fatal("the example has no slab")
	}
	for _, c := range []struct {
		line, value string
		verdict     Verdict
		stop        bool
		says        string
	}{
		{"cut-off", "40 °F", Wrong, false, "Heating stops at 40 °F"},
		{"cut-off", "40", Wrong, false, "Heating stops at 40 °F"}, // the unit of the line
		{"cut-off", "72 °F", Doubtful, false, "run for nobody"},
		{"output-limit", "15 kBtu/h", Wrong, false, "below about"},
		{"output-limit", "100 %", Doubtful, false, "shorter runs"},
		{"hot-water.setpoint", "115 °F", Wrong, false, "Legionella"},
		{"hot-water.setpoint", "130 °F", Doubtful, false, "140 °F"},
		{"hot-water.setpoint", "150 °F", Right, false, "1.5 seconds"},
		{"slab.max-supply", "160 °F", Wrong, true, slab},
		{"frost.outdoor", "28 °F", Wrong, false, "frozen before its pump"},
		{"frost.outdoor", "45 °F", Right, false, "mild nights"},
		{"rest", "1 min", Doubtful, false, ""},
	} {
		if _, known := h.line(c.line); !known {
			t.Errorf("%s: no such line", c.line)
			continue
		}
		got := h.Consequences(visitWith(t, "entered: [{line: "+c.line+", as: otherwise, value: '"+c.value+"'}]"))
		if len(got) != 1 || got[0].Verdict != c.verdict || got[0].Stop != c.stop || !strings.Contains(unbroken.Replace(got[0].Says), c.says) || got[0].Says == "" {
			t.Errorf("%s %s: %+v", c.line, c.value, got)
		}
	}
}

// TestALineOfACurveMovesTheCurve: and a curve that cannot be is told.
func TestALineOfACurveMovesTheCurve(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	v := visitWith(t, "entered: [{line: house.cold-supply, as: otherwise, value: '165'}]")
	if found := h.AsEntered(v); len(found) != 1 || !strings.Contains(found[0].Says, "hotter") {
		t.Errorf("%+v", found)
	}
	if got := h.Consequences(v); len(got) != 0 {
		t.Errorf("the sheet's words of another step stand beside it: %+v", got)
	}
	v = visitWith(t, "curves: [{circuit: House, cold_outdoor: 70 °F}]")
	if got := h.Consequences(v); len(h.AsEntered(v)) != 0 || len(got) != 1 || got[0].Verdict != Wrong || !strings.Contains(got[0].Says, "not colder") {
		t.Errorf("%+v", got)
	}
}

func TestTheRecordsAreHeldAgainstTheSheet(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	site := h.plan.Site
	if !site.Filled || site.Content <= 0 {
		t.Fatal("the example has no pressures")
	}
	good := "water: {filled: 40 gal, ph: 8.4, precharge: " + site.Precharge.Text(units.US) + ", fill: " + site.Fill.Text(units.US) + "}"
	for _, c := range []struct {
		record, what string
		verdict      Verdict
		says         string
	}{
		{good, "Water filled in", Right, "within three times"},
		{good, "pH", Right, "within 8.2"},
		{good, "Precharge", Right, "As the sheet"},
		{good, "Cold fill", Right, "As the sheet"},
		{"water: {hardness: 40 gpg}", "Hardness", Wrong, "scale"},
		{"water: {hardness: 0.1 gpg}", "Hardness", Right, ""},
		{"water: {ph: 6.1, conductivity: 1900 µS/cm}", "pH", Wrong, "outside"},
		{"water: {ph: 6.1, conductivity: 1900 µS/cm}", "Conductivity", Wrong, "salt"},
		{"water: {precharge: 3 psi}", "Precharge", Wrong, "too low"},
		{"water: {precharge: 30 psi, fill: 15 psi}", "Cold fill", Wrong, "below the precharge"},
		{"water: {antifreeze: 30 %}", "Antifreeze", Wrong, "should stand"},
		{"pressure_test: {with: water, start: 60 psi, end: 60 psi, for: 2 h}", "Pressure drop", Right, "held"},
		{"pressure_test: {with: water, start: 60 psi, end: 58 psi, for: 2 h}", "Pressure drop", Doubtful, "stretches"},
		{"pressure_test: {with: water, start: 60 psi, end: 40 psi, for: 2 h, held: yes}", "Pressure drop", Wrong, "The record says"},
		{"pressure_test: {with: water, start: 60 psi, end: 64 psi, for: 2 h}", "Pressure drop", Doubtful, "rose"},
		{"pressure_test: {with: water, start: 60 psi, end: 60 psi, for: 20 min}", "Time of the test", Doubtful, "slow leak"},
		// 293 K · 20 kPa/(200 kPa + 101.3 kPa) = 19.5 K
		{"pressure_test: {with: air, start: 2 bar, end: 1.8 bar, for: 1 h}", "Pressure drop", Doubtful, "35 °F"},
		{"pressure_test: {with: water, start: 15 psi, end: 15 psi, for: 2 h}", "Test pressure", Doubtful, "1.3 times"},
		{"loops: [{name: a, wanted: 0.6 gpm, set: 0.63 gpm}]", "Flow", Right, ""},
		{"loops: [{name: a, wanted: 0.6 gpm, set: 0.52 gpm}]", "Flow", Doubtful, "too little"},
		{"loops: [{name: a, wanted: 0.6 gpm, set: 0.9 gpm}]", "Flow", Wrong, "50 % too much"},
	} {
		v := visitWith(t, c.record)
		var all []Checked
		if v.Water != nil {
			water, err := h.JudgeWater(*v.Water)
			if err != nil {
				t.Errorf("%s: %v", c.record, err)
			}
			all = append(all, water...)
		}
		if v.Pressure != nil {
			all = append(all, h.JudgePressureTest(*v.Pressure)...)
		}
		all = append(all, h.JudgeLoops(v.Loops)...)
		found := false
		for _, got := range all {
			if got.What == c.what {
				found = true
				if got.Verdict != c.verdict || !strings.Contains(unbroken.Replace(got.Says), c.says) {
					t.Errorf("%s: %+v", c.record, got)
				}
			}
		}
		if !found {
			t.Errorf("%s: nothing about %s in %+v", c.record, c.what, all)
		}
	}
}

// TestTheMeterIsThatOfTheHouse: a turn of the dial takes as long in whatever units it is
// told.
func TestTheMeterIsThatOfTheHouse(t *testing.T) {
	us, si := example(t, "ridge-house", units.US), example(t, "ridge-house", units.SI)
	if a, b := us.meterTime(), si.meterTime(); !(a > 0) || a != b {
		t.Errorf("%g s and %g s", a, b)
	}
}
