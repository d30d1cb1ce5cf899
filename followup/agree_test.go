package followup

import (
	"slices"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/units"
)

// What is said of slope and shift agrees with the table of supplies beside it.
func TestRemediesAgreeWithTheCorrectedCurve(t *testing.T) {
	kelvins := func(cold, mild float64) Correction {
		runs := units.Celsius(40)
		return Correction{Known: true, Points: []CorrectionPoint{
			{Outdoor: units.Celsius(-15), Runs: runs, Set: runs.Add(units.Kelvins(cold))},
			{Outdoor: units.Celsius(18), Runs: runs, Set: runs.Add(units.Kelvins(mild))}}}
	}
	for _, c := range []struct {
		name       string
		findings   []string
		correction Correction
		want       []string // words of each remedy
	}{
		{"all of it warmer", []string{"curve too low"}, kelvins(5, 4), []string{"raise the shift"}},
		{"the same on mild days", []string{"curve too low"}, kelvins(6, 0), []string{"raise the cold end only"}},
		{"warmer on mild days only", []string{"short in the cold"}, kelvins(0, 4), []string{"raise the mild end"}},
		{"turned", []string{"short in the cold"}, kelvins(4, -4), []string{"raise the cold end and lower the mild one"}},
		{"short, yet no warmer", []string{"curve too low"}, kelvins(0, 0), []string{"no warmer"}},
		{"too warm, cooler in the cold", []string{"curve too high"}, kelvins(-4, 0), []string{"lower the cold end"}},
		{"too warm, yet warmer", []string{"curve too high"}, kelvins(4, 4), []string{"no cooler"}},
		{"as found", []string{"still as found", "curve too low"}, kelvins(6, 0), []string{"enter the sheet's curve as this log corrects it", "the sheet's curve first"}},
		{"not the sheet's", []string{"not the sheet's curve", "curve too high"}, kelvins(-6, -6), []string{"enter the sheet's curve as", "the sheet's curve first"}},
		{"not the sheet's, and good", []string{"not the sheet's curve", "curve too low"}, kelvins(1, -1), []string{"leave it", "no warmer"}},
		{"as found, no correction", []string{"still as found", "curve too low"}, Correction{}, []string{"enter the sheet's curve;", "the sheet's curve first"}},
		{"no correction", []string{"curve too low"}, Correction{}, []string{"raise the shift"}},
	} {
		in := &inspection{}
		for _, name := range c.findings {
			remedy := "raise the shift"
			if slices.Contains(strays, name) {
				remedy = "enter the sheet's curve; judge the rooms by what is recorded after that"
			}
			in.add(TheCurve, name, 0, 0, 1, remedy, "")
		}
		in.agree(&c.correction)
		for i, f := range in.found {
			if !strings.Contains(f.Remedy, c.want[i]) {
				t.Errorf("%s: %s: %q, want %q", c.name, f.Name, f.Remedy, c.want[i])
			}
		}
	}
}

// The words of a whole log: where the control does not run the sheet's curve, nothing on
// the page tells to shift what runs, and the household reads what the table says.
func TestALogOfAnotherCurveSpeaksWithOneVoice(t *testing.T) {
	for _, c := range []struct{ cold, mild float64 }{{-22, -9}, {14, 12}} {
		s := play(t, 4, wish{days: 35, first: 350, edit: lift(c.cold, c.mild)})
		r, err := Analyse(t.Context(), take(t, s.csv), s.job, Options{System: units.SI, Cheap: true})
		if err != nil {
			t.Fatal(err)
		}
		said, entered := 0, false
		for _, f := range r.Findings {
			if f.Name == "not the sheet's curve" {
				entered = strings.HasPrefix(f.Remedy, "enter the sheet's curve")
			}
			if _, room := roomsSay[f.Name]; room {
				if said++; !entered || f.Remedy != "the sheet's curve first; then judge the rooms by what is recorded with it" {
					t.Errorf("lifted by %v: %s: %s", c, f.Name, f.Remedy)
				}
			}
		}
		if !entered || said == 0 && c.cold < 0 { // too warm a curve is what valves hold back
			t.Errorf("lifted by %v: %v", c, r.Findings)
		}
		cold, mild := r.Correction.ends()
		if r.Correction.First == "" && !strings.Contains(r.Correction.Message, cold.step()) && !strings.Contains(r.Correction.Message, mild.step()) {
			t.Errorf("lifted by %v: %s", c, r.Correction.Message)
		}
	}
}

// A cause that cannot exist in a house is not among its causes.
func TestCausesThatCannotBeAreLeftOut(t *testing.T) {
	morning := []Remark{{Felt: TooCold, When: Morning, Often: 5}}
	combi := readExample(t, "combi-slab")
	plan := planOf(t, combi)
	has := func(a Advice, c Cause) bool {
		return slices.ContainsFunc(a.Suspects, func(s Suspect) bool { return s.Cause == c })
	}
	weigh := func() Advice {
		t.Helper()
		a, err := Weigh(plan, combi, 0, morning)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, s := range a.Suspects {
			sum += float64(s.Chance)
		}
		if sum < 1-1e-9 || sum > 1+1e-9 {
			t.Errorf("chances add up to %f", sum)
		}
		return a
	}
	a := weigh()
	if has(a, SetbackDeep) || has(a, TankFirst) {
		t.Errorf("held by a combi: %v", a.Suspects)
	}
	if a.Suspects[0].Cause != SlopeLow {
		t.Errorf("a cold morning where nothing is lowered: %v", a.Suspects[:3])
	}
	was := *plan
	plan.Found.Program.Lower = units.Kelvins(4)
	if a := weigh(); a.Suspects[0].Cause != SetbackDeep {
		t.Errorf("a set-back was found in the control: %v", a.Suspects[:3])
	}
	*plan = was
	plan.Year.CutOff.From, plan.Year.CutOff.To, plan.Found.CutOff = 0, 0, 0
	combi.Rooms = make([]job.Room, 1)
	combi.HotWater.By = "none"
	for _, c := range []Cause{CutOffLow, RoomShort, TankFault, TankFirst, SetbackDeep} {
		if possible(c, plan, combi) {
			t.Errorf("one room, no hot water, no cut-off: %s", c)
		}
	}
}
