package sensor

import (
	"math"
	"testing"

	"curvewright/units"
)

// FuzzParseTable holds for any text: no crash, nothing made with an error, and a table
// that was read goes back and forth.
func FuzzParseTable(f *testing.F) {
	for _, text := range []string{
		"0 °C\t30 kΩ\n10 °C\t20 kΩ\n", "°C kΩ\n0 30\n10 20", "# note\n32 °F ; 30,000 ohm\n50 °F | 20k", "0 30", "°C\n", "\x00;=|", "C ohm\n0,5 1\n0,5 2",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseTable("sheet", text)
		if err != nil {
			if s.law != nil {
				t.Fatal("a sensor comes with an error")
			}
			return
		}
		for _, share := range []units.Temperature{0, 0.3, 1} {
			at := s.Low + share*(s.High-s.Low)
			reads, err := s.Resistance(at)
			if err != nil {
				t.Fatal(err)
			}
			back, err := s.Temperature(reads)
			if err != nil {
				t.Fatal(err)
			}
			// Two rows may be almost alike; the way back is then as unsure as that slope.
			unsure := 1e-8 + 1e-14/math.Abs(s.law.slope(float64(at)))
			if math.Abs(float64(back-at)) > unsure {
				t.Fatalf("%v becomes %v", at, back)
			}
		}
	})
}

// FuzzParseReading holds for any text: no crash, and what was read is a resistance that a
// sensor can be judged by.
func FuzzParseReading(f *testing.F) {
	for _, text := range []string{"12.3 kΩ", "1,2 kΩ", "OL", " o.l. ", "short", "0", "5 MΩ", "10k ohm", "-3 Ω", "1e309 Ω", "∞", "NaN Ω", "0x1p-2 Ω", "12"} {
		f.Add(text)
	}
	pt, err := Platinum("Pt1000", 1000)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseReading(text)
		if err != nil {
			if r != 0 {
				t.Fatalf("%q: %v comes with the error %v", text, r, err)
			}
			return
		}
		if !(r >= 0) || math.IsInf(float64(r), 0) {
			t.Fatalf("%q is read as %v", text, float64(r))
		}
		if j, err := Judge(pt, Reading{Reads: r, True: units.Celsius(20)}); err == nil && j.Verdict == "" {
			t.Fatalf("%q is judged without a word", text)
		}
	})
}
