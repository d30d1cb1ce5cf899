package settings

import (
	"math"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/units"

	"curvewright/examples"
)

func exampleJob(t *testing.T, name string) *job.Job {
	t.Helper()
	e, ok := examples.Find(name)
	if !ok {
		t.Fatalf("no example %s", name)
	}
	j, err := job.Read([]byte(e.Document))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// More loss asks for hotter water, more emitter for cooler; both by the same factor
// leave the curve where it is, but for the flow and the gains.
func TestLearnedFactorsMoveTheCurve(t *testing.T) {
	j := exampleJob(t, "short-survey")
	solve := func(l *Learned) *Plan {
		p, err := Prepare(j, Options{System: units.SI, Learned: l})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	none := solve(nil)
	more := solve(&Learned{Loss: 1.2, LossDoubt: 0.05})
	larger := solve(&Learned{Loss: 1, LossDoubt: 0.05, Emitters: []units.Fraction{1.2}, EmitterDoubt: []units.Fraction{0.05}})
	both := solve(&Learned{Loss: 1.2, LossDoubt: 0.05, Emitters: []units.Fraction{1.2}, EmitterDoubt: []units.Fraction{0.05}})
	cold := func(p *Plan) float64 { return float64(p.Circuits[0].Setting.At(p.Design)) }
	if r := float64(more.Sheet.Load.Total) / float64(none.Sheet.Load.Total); math.Abs(r-1.2) > 1e-9 {
		t.Errorf("the load grew by %.4f, want 1.2", r)
	}
	if !(cold(more) > cold(none)+3 && cold(larger) < cold(none)-3) {
		t.Errorf("supply on the design day %.1f, with more loss %.1f, with larger emitters %.1f", cold(none), cold(more), cold(larger))
	}
	if math.Abs(cold(both)-cold(none)) > 4 {
		t.Errorf("supply on the design day %.1f, with both %.1f", cold(none), cold(both))
	}
	if again := solve(nil); cold(again) != cold(none) {
		t.Error("what was learned stays behind in the job")
	}
}

func TestLearnedFactorsHaveBounds(t *testing.T) {
	j := exampleJob(t, "short-survey")
	for _, l := range []Learned{{Loss: 0}, {Loss: 9}, {Loss: units.Fraction(math.NaN())}, {Loss: 1, Emitters: []units.Fraction{0.01}}} {
		if _, err := Solve(j, Options{Learned: &l}); err == nil || !strings.Contains(err.Error(), "learned factor") {
			t.Errorf("%+v: %v", l, err)
		}
	}
}

// What stands in the job counts as if it had been handed over; what is handed over counts
// in its place.
func TestAJobKeepsWhatWasLearned(t *testing.T) {
	j := exampleJob(t, "short-survey")
	l := &Learned{Loss: 1.2, LossDoubt: 0.05, Emitters: []units.Fraction{0.9}, EmitterDoubt: []units.Fraction{0.07}}
	solve := func(l *Learned) *Plan {
		t.Helper()
		p, err := Prepare(j, Options{System: units.SI, Learned: l})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	handed := solve(l)
	j.Learned = &job.Learned{Until: "2027-02-14", Loss: job.Says(units.Number(1.2), job.Measured), LossDoubt: job.Says(units.Fraction(0.05), job.Measured),
		Emitters: []job.LearnedEmitters{{Circuit: j.Circuits[0].Name, Factor: job.Says(units.Number(0.9), job.Measured), Doubt: job.Says(units.Fraction(0.07), job.Measured)}}}
	kept := solve(nil)
	at := units.Celsius(-5)
	if a, b := handed.Circuits[0].Setting.At(at), kept.Circuits[0].Setting.At(at); math.Abs(float64(a-b)) > 1e-9 {
		t.Errorf("handed over %v, kept in the job %v", a, b)
	}
	if kept.Site.Doubts.House != 0.05 || kept.Site.Doubts.Emitters[0] != 0.07 {
		t.Errorf("doubts %+v", kept.Site.Doubts)
	}
	if a, b := solve(&Learned{Loss: 1, LossDoubt: 0.05}).Circuits[0].Setting.At(at), kept.Circuits[0].Setting.At(at); math.Abs(float64(a-b)) < 0.5 {
		t.Errorf("what is handed over does not count: %v, %v", a, b)
	}
}
