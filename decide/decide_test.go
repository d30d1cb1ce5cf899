package decide_test

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"curvewright/decide"
	"curvewright/examples"
	"curvewright/job"
	"curvewright/trial"
	"curvewright/units"
)

// caseOf makes an example ready, on the first days of its made-up year.
func caseOf(t testing.TB, name string, days int) decide.Case {
	t.Helper()
	for _, e := range examples.List() {
		if e.Name != name {
			continue
		}
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		tr, err := trial.New(j, trial.Options{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		w := tr.Weather
		w.Outdoor = w.Outdoor[:24*days]
		w.Sun = append([][]float64{}, w.Sun...)
		for i := range w.Sun {
			w.Sun[i] = w.Sun[i][:24*days]
		}
		return decide.Case{Plan: tr.Plan, House: tr.House, Plant: tr.Plant, Base: tr.Settings[0], Weather: w, Wanted: tr.Wanted}
	}
	t.Fatalf("no example %q", name)
	return decide.Case{}
}

// TestASearchFindsNoWorseThanTheSheet on the coldest weeks of every example.
func TestASearchFindsNoWorseThanTheSheet(t *testing.T) {
	for _, e := range examples.List() {
		c := caseOf(t, e.Name, 42)
		a, err := decide.Search(context.Background(), c, decide.Options{Samples: -1, Runs: 120})
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		t.Logf("%s: %d runs; sheet %.0f kWh, %.1f h cold in %q; best %.0f kWh, %.1f h; %+v", e.Name, a.Runs, float64(a.Sheet.Fuel)/3.6e6, float64(a.Sheet.ColdFor)/3600, a.Sheet.ColdRoom,
			float64(a.Best.Fuel)/3.6e6, float64(a.Best.ColdFor)/3600, a.Best.Choice)
		for _, line := range a.Advice(units.US) {
			t.Log(line)
		}
		switch {
		case !a.Complete:
			t.Errorf("%s: not complete", e.Name)
		case a.Sheet.Keeps && !a.Best.Keeps, a.Sheet.Keeps && a.Best.Fuel > a.Sheet.Fuel*1.001:
			t.Errorf("%s: from %+v to %+v", e.Name, a.Sheet, a.Best)
		case !a.Sheet.Keeps && !a.Best.Keeps && a.Best.Cold > a.Sheet.Cold:
			t.Errorf("%s: colder than the sheet: %+v", e.Name, a.Best)
		}
		for i := 1; i < len(a.Front); i++ {
			if a.Front[i].Fuel < a.Front[i-1].Fuel || a.Front[i].Cold >= a.Front[i-1].Cold {
				t.Errorf("%s: the front bends back at %d", e.Name, i)
			}
		}
	}
}

// TestTheSameAnswerOnAnyNumberOfCores, down to every figure.
func TestTheSameAnswerOnAnyNumberOfCores(t *testing.T) {
	c := caseOf(t, "combi-slab", 14)
	var answers []decide.Answer
	for _, workers := range []int{1, 3} {
		a, err := decide.Search(context.Background(), c, decide.Options{Workers: workers, Runs: 40, Samples: 6, Seed: 3})
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, a)
	}
	if !reflect.DeepEqual(answers[0], answers[1]) {
		t.Errorf("one worker:\n%+v\nthree:\n%+v", answers[0].Best, answers[1].Best)
	}
}

// TestAStoppedSearchKeepsWhatItHas: progress counts up, and a stop leaves a partial answer.
func TestAStoppedSearchKeepsWhatItHas(t *testing.T) {
	c := caseOf(t, "ridge-house", 14)
	ctx, stop := context.WithCancel(context.Background())
	last := 0
	a, err := decide.Search(ctx, c, decide.Options{Workers: 2, Progress: func(done, of int) {
		if done <= last || of < done {
			t.Errorf("progress: %d of %d after %d", done, of, last)
		}
		if last = done; done == 12 {
			stop()
		}
	}})
	if err != nil || a.Complete || a.Runs > 14 || len(a.Front) == 0 || a.Best.Fuel == 0 {
		t.Errorf("%v, complete %v, %d runs, %d on the front", err, a.Complete, a.Runs, len(a.Front))
	}
	if words := a.Advice(units.SI); !strings.Contains(words[0], "Stopped early") {
		t.Error(words)
	}
	none, err := decide.Search(ctx, c, decide.Options{})
	if err != nil || none.Complete || none.Sheet.Fuel != 0 {
		t.Errorf("stopped at once: %v %+v", err, none)
	}
}

// TestRecommendationsAreTriedInOtherHouses: what keeps comfort in the surveyed house only
// just is not sure in others, and the more is allowed the surer it is.
func TestRecommendationsAreTriedInOtherHouses(t *testing.T) {
	c := caseOf(t, "short-survey", 21)
	before := units.Fraction(-1)
	for _, allowed := range []float64{5, 200} {
		a, err := decide.Search(context.Background(), c, decide.Options{Runs: 40, Samples: 12, Comfort: decide.Comfort{Hours: units.Hours(allowed)}})
		if err != nil {
			t.Fatal(err)
		}
		u := a.Sure
		t.Logf("%g h allowed: %d of %d, %v", allowed, u.Keeping, u.Played, u.Fails)
		if u.Played != 12 || u.Share < before || u.Holds != (u.Share >= 0.9) || u.Most < u.Least {
			t.Errorf("%+v", u)
		}
		if !u.Holds && len(u.Fails) == 0 {
			t.Error("it fails and nobody knows where")
		}
		before = u.Share
	}
}

// TestNothingIsRecommendedThatNeverKeepsComfort: a house whose emitters are too small is told
// so, with the reason and what to do.
func TestNothingIsRecommendedThatNeverKeepsComfort(t *testing.T) {
	c := caseOf(t, "short-survey", 21)
	if a, err := decide.Search(context.Background(), c, decide.Options{Runs: 40, Samples: 8, Comfort: decide.Comfort{Hours: units.Hours(400)}}); err != nil || !a.Recommended() {
		t.Errorf("a sound house: recommended %v, %v (%v)", a.Recommended(), a.Sure, err)
	}
	small := c
	small.Plant.Circuits = slices.Clone(c.Plant.Circuits)
	for i := range small.Plant.Circuits {
		one := &small.Plant.Circuits[i]
		one.Radiators = slices.Clone(one.Radiators)
		for k := range one.Radiators {
			one.Radiators[k].Law.Coefficient *= 0.3
		}
	}
	a, err := decide.Search(context.Background(), small, decide.Options{Runs: 40, Samples: 8})
	if err != nil {
		t.Fatal(err)
	}
	said := strings.Join(a.Advice(units.SI), " ")
	if a.Recommended() || a.Sure.Keeping != 0 {
		t.Errorf("recommended %v, kept in %d of %d", a.Recommended(), a.Sure.Keeping, a.Sure.Played)
	}
	for _, want := range []string{"Not recommended: no setting in range keeps comfort", "emitters there are too small", a.Best.ColdRoom, "larger emitters"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
}

func TestRefusals(t *testing.T) {
	c := caseOf(t, "combi-slab", 7)
	for _, x := range []struct {
		bend func(*decide.Case, *decide.Options)
		want string
	}{
		{func(c *decide.Case, _ *decide.Options) { c.Plan = nil }, "no plan"},
		{func(c *decide.Case, _ *decide.Options) { c.Base.Circuits = nil }, "circuits"},
		{func(_ *decide.Case, o *decide.Options) { o.Runs = -1 }, "runs"},
		{func(_ *decide.Case, o *decide.Options) { o.Samples = 5000 }, "sampled houses"},
		{func(_ *decide.Case, o *decide.Options) { o.Workers = -2 }, "workers"},
		{func(_ *decide.Case, o *decide.Options) { o.Comfort.Band = 9 }, "comfort"},
		{func(c *decide.Case, _ *decide.Options) { c.Weather.Outdoor = c.Weather.Outdoor[:30] }, "whole days"},
	} {
		one, o := c, decide.Options{}
		x.bend(&one, &o)
		if _, err := decide.Search(context.Background(), one, o); err == nil || !strings.Contains(err.Error(), x.want) {
			t.Errorf("got %v, want a sentence with %q", err, x.want)
		}
	}
}

// BenchmarkSearch plays 300 whole years: the search and the sampled houses.
func BenchmarkSearch(b *testing.B) {
	c := caseOf(b, "ridge-house", 365)
	for b.Loop() {
		begin := time.Now()
		a, err := decide.Search(context.Background(), c, decide.Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(a.Runs), "years")
		b.ReportMetric(time.Since(begin).Seconds()/float64(a.Runs)*300, "s/300years")
		if testing.Verbose() {
			fmt.Println(strings.Join(a.Advice(units.US), "\n"), a.Best.Choice)
		}
	}
}
