package logs

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func minutes(n int) *Log {
	l := &Log{Step: 60, Rows: n, Series: []Series{{Column: Column{Role: Outdoor}, Values: make([]float64, n)}, {Column: Column{Role: Supply}, Values: make([]float64, n)}}}
	for i := range n {
		l.Stamps = append(l.Stamps, 1767225600+int64(i)*60)
		l.Series[0].Values[i], l.Series[1].Values[i] = 273+10*math.Sin(float64(i)/300), 310
	}
	return l
}

// However narrow the screen, the highest and the lowest reading are on it.
func TestAWindowLosesNoPeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5000).Draw(t, "rows")
		l := minutes(n)
		l.Series[1].Values[rapid.IntRange(0, n-1).Draw(t, "at")] = 360
		a, b := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		a, b = min(a, b), max(a, b)
		w := l.Window(l.Stamps[a], l.Stamps[b], rapid.IntRange(1, 900).Draw(t, "parts"))
		for k, s := range l.Series {
			low, high := math.Inf(1), math.Inf(-1)
			for i := a; i <= b; i++ {
				low, high = math.Min(low, s.Values[i]), math.Max(high, s.Values[i])
			}
			seenLow, seenHigh := math.Inf(1), math.Inf(-1)
			for _, v := range w.Values[k] {
				seenLow, seenHigh = math.Min(seenLow, v), math.Max(seenHigh, v)
			}
			if seenLow != low || seenHigh != high {
				t.Fatalf("series %d: %g to %g on the screen, %g to %g in the log", k, seenLow, seenHigh, low, high)
			}
			if len(w.Values[k]) != len(w.Stamps) {
				t.Fatalf("%d values at %d times", len(w.Values[k]), len(w.Stamps))
			}
		}
		for i := 1; i < len(w.Stamps); i++ {
			if w.Stamps[i] < w.Stamps[i-1] {
				t.Fatal("times run backwards")
			}
		}
	})
}

func TestAWindowShowsGapsAndHoldsReadings(t *testing.T) {
	l := minutes(600)
	for i := 100; i < 150; i++ { // within two hours: the logger wrote changes only
		l.Series[1].Values[i] = math.NaN()
	}
	for i := 400; i < 600; i++ { // and a day without a row
		l.Stamps[i] += 86400
	}
	for _, parts := range []int{1000, 150} {
		w := l.Window(l.Stamps[0], l.Stamps[599], parts)
		torn := 0
		for _, v := range w.Values[1] {
			if math.IsNaN(v) {
				torn++
			}
		}
		if torn == 0 || parts == 1000 && torn != 1 {
			t.Errorf("%d parts: %d empty points", parts, torn)
		}
	}
	if w := l.Window(0, 10, 5); len(w.Stamps) != 0 || len(w.Values) != 2 {
		t.Errorf("a stretch without rows has %d points", len(w.Stamps))
	}
}

func BenchmarkWindowOfAYear(b *testing.B) {
	l := minutes(525_600)
	for len(l.Series) < 8 {
		l.Series = append(l.Series, l.Series[0])
	}
	b.ReportAllocs()
	for b.Loop() {
		l.Window(l.Stamps[0], l.Stamps[len(l.Stamps)-1], 1400)
	}
}
