package followup

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"curvewright/logs"
	"curvewright/units"
)

// Whatever columns a log lacks and whatever is in those that it has, there is an answer
// in words and never a figure that is none.
func TestAnyLogGivesAnAnswer(t *testing.T) {
	s := play(t, 2, wish{days: 16, first: 20, sun: true, tank: true})
	whole := take(t, s.csv)
	rng := rand.New(rand.NewPCG(5, 9))
	for n := range 60 {
		l := &logs.Log{Stamps: slices.Clone(whole.Stamps), Step: whole.Step, Rows: whole.Rows}
		for _, column := range whole.Series {
			if rng.Float64() < 0.4 {
				continue
			}
			c := logs.Series{Column: column.Column, Values: slices.Clone(column.Values)}
			switch rng.IntN(8) {
			case 0:
				for i := range c.Values {
					c.Values[i] = math.NaN()
				}
			case 1:
				for i := range c.Values {
					c.Values[i] = c.Values[0]
				}
			case 2:
				for i := range c.Values {
					c.Values[i] *= 1e3
				}
			case 3:
				rng.Shuffle(len(c.Values), func(a, b int) { c.Values[a], c.Values[b] = c.Values[b], c.Values[a] })
			case 4:
				for i := range c.Values {
					c.Values[i] = -c.Values[i]
				}
			}
			if rng.IntN(4) == 0 {
				c.Role = logs.Roles()[3+rng.IntN(len(logs.Roles())-3)]
			}
			l.Series = append(l.Series, c)
		}
		if rng.IntN(3) == 0 { // short
			k := 3 + rng.IntN(200)
			l.Stamps = l.Stamps[:k]
			for i := range l.Series {
				l.Series[i].Values = l.Series[i].Values[:k]
			}
		}
		r, err := Analyse(t.Context(), l, s.job, Options{System: units.System(n % 2), Cheap: n%6 != 0})
		if err != nil {
			continue
		}
		var text, data bytes.Buffer
		if err := r.WriteText(&text); err != nil {
			t.Fatal(err)
		}
		if err := r.WriteJSON(&data); err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"NaN", "Inf", "no value", "%!"} {
			if strings.Contains(text.String(), bad) {
				t.Fatalf("log %d: %q in\n%s", n, bad, text.String())
			}
		}
	}
}

func TestAnalyseCanBeEnded(t *testing.T) {
	s := play(t, 1, wish{days: 12, first: 20})
	ctx, end := context.WithCancel(t.Context())
	end()
	if _, err := Analyse(ctx, take(t, s.csv), s.job, Options{}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// The same log gives the same answer.
func TestAnalyseIsRepeatable(t *testing.T) {
	s := play(t, 1, wish{days: 20, first: 20, tank: true})
	var first string
	for n := range 2 {
		r, err := Analyse(t.Context(), take(t, s.csv), s.job, Options{System: units.SI})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := r.WriteText(&b); err != nil {
			t.Fatal(err)
		}
		if n == 0 {
			first = b.String()
		} else if b.String() != first {
			t.Error("two runs differ")
		}
	}
}

func BenchmarkYearOfMinutes(b *testing.B) {
	s := play(b, 1, wish{days: 365, first: 0, sun: true, tank: true})
	l := take(b, s.csv)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Analyse(b.Context(), l, s.job, Options{System: units.SI}); err != nil {
			b.Fatal(err)
		}
	}
}

// A logger that writes a sensor only when it changes tells the same as one that writes
// every row.
func TestChangesOnlyTellTheSame(t *testing.T) {
	s := play(t, 4, wish{days: 28, first: 20})
	whole := take(t, s.csv)
	thin := &logs.Log{Stamps: slices.Clone(whole.Stamps), Step: whole.Step, Rows: whole.Rows}
	for _, c := range whole.Series {
		values := slices.Clone(c.Values)
		last := math.NaN()
		for i, v := range values {
			if c.Role != logs.HeatMeter && math.Abs(v-last) < 0.4 && i%20 != 0 {
				values[i] = math.NaN()
				continue
			}
			last = v
		}
		thin.Series = append(thin.Series, logs.Series{Column: c.Column, Values: values})
	}
	a, err := Analyse(t.Context(), whole, s.job, Options{Cheap: true})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Analyse(t.Context(), thin, s.job, Options{Cheap: true})
	if err != nil {
		t.Fatal(err)
	}
	if d := float64(b.Signature.Loss.Value)/float64(a.Signature.Loss.Value) - 1; !b.Signature.Loss.Known || math.Abs(d) > 0.04 {
		t.Errorf("loss %v against %v", b.Signature.Loss, a.Signature.Loss)
	}
	if d := float64(b.Curve.Slope.Value - a.Curve.Slope.Value); !b.Curve.Slope.Known || math.Abs(d) > 0.08 {
		t.Errorf("slope %v against %v", b.Curve.Slope, a.Curve.Slope)
	}
}
