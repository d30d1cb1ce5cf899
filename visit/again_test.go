package visit

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
)

// TestTheHeadingFollowsTheReadings: where no fault is called, what is off is said all the same.
func TestTheHeadingFollowsTheReadings(t *testing.T) {
	row := func(m Measure, v Verdict) Judged {
		return Judged{Reading: Reading{Measure: m}, Measured: units.Celsius(40), Tolerance: units.Difference(1), Verdict: v}
	}
	sound := []Cause{{Fault: Nothing, Share: 1, Explains: make([]Explained, 3)}}
	for name, c := range map[string]struct {
		readings []Judged
		off      Verdict
		again    string
		says     string
	}{
		"all right":     {[]Judged{row(BoilerSupply, Right), row(BoilerReturn, Right), row(OutdoorShown, Right)}, Right, "", "fit a sound plant"},
		"only doubtful": {[]Judged{row(BoilerSupply, Right), row(BoilerReturn, Doubtful), row(OutdoorShown, Right)}, Doubtful, "boiler return", "doubtful, and none points to a fault"},
		"one wrong":     {[]Judged{row(BoilerSupply, Doubtful), row(BoilerReturn, Wrong), row(OutdoorShown, Right)}, Wrong, "boiler return", "wrong, and no single known fault"},
		"reckoned":      {[]Judged{row(MeanFire, Wrong), row(BurnerRun, Wrong), row(BoilerReturn, Doubtful)}, Wrong, "burner run, burner pause", "wrong, and no single known fault"},
	} {
		j := Judgement{Readings: c.readings, Sound: true, Causes: sound}
		off, again := j.Again()
		if off != c.off || names(again) != c.again {
			t.Errorf("%s: %s, measure again %q", name, off, names(again))
		}
		var b strings.Builder
		if err := j.WriteText(&b, "House", units.SI); err != nil || !strings.Contains(b.String(), c.says) || !strings.Contains(b.String(), c.again) {
			t.Errorf("%s: %v\n%s", name, err, b.String())
		}
	}
}

// TestMeanFire: mean fire = rate × run/(run + pause), at the rate that was read; definition
// of a mean.
func TestMeanFire(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	least := h.plant.least / h.plant.rated
	for name, c := range map[string]struct {
		rate, run, pause, want float64
	}{
		"4.5 of 13.5 min at 35 %":      {0.35, 270, 540, 0.35 / 3},
		"half of the time at full":     {1, 300, 300, 0.5},
		"no rate was read":             {-1, 270, 540, least / 3},
		"the control showed its pause": {0, 270, 540, least / 3},
		"it runs through":              {0.4, 600, 0, 0.4},
	} {
		list := []Measured{{Reading: Reading{Measure: BurnerRun}, Value: c.run}, {Reading: Reading{Measure: BurnerPause}, Value: c.pause}}
		if c.rate >= 0 {
			list = append(list, Measured{Reading: Reading{Measure: FiringRate}, Value: c.rate})
		}
		all := h.withMeanFire(list)
		if got := all[len(all)-1]; got.Measure != MeanFire || math.Abs(got.Value-c.want) > 1e-12 {
			t.Errorf("%s: %s %v, not %v", name, got.String(), got.Value, c.want)
		}
	}
	// What is expected of it agrees with what is expected of rate, run and pause.
	seen := false
	for outdoor := -10.0; outdoor <= 14; outdoor += 2 {
		s, err := h.prepare(Conditions{Outdoor: units.Celsius(outdoor)})
		if err != nil {
			t.Fatal(err)
		}
		none := h.plant.asDrawn()
		values, at := h.predict(&s, &none), map[Measure]float64{}
		for i, r := range h.readings {
			at[r.Measure] = values[i]
		}
		if math.IsNaN(at[BurnerRun]) {
			continue
		}
		seen = true
		if want := at[FiringRate] * at[BurnerRun] / (at[BurnerRun] + at[BurnerPause]); math.Abs(at[MeanFire]-want) > 1e-9 {
			t.Errorf("at %v °C: expected %v of rate, run and pause, %v of itself", outdoor, want, at[MeanFire])
		}
	}
	if !seen {
		t.Error("the burner never rests")
	}
}
