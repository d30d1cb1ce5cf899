package units

import (
	"errors"
	"math"
	"os"
	"testing"
)

// seeds are texts from which the search for a crash starts: one of each way of
// writing, and what once went wrong.
var seeds = []string{
	"70 °F", "21.1 °C", "-40F", "38,000 Btu/h", "38 000 Btu/h", "38 MBH", "12,5 kW", "1.1137e4 W", "12 ft 6 in", `12'-6"`, "1-1/2 in", "¾ in",
	"R-13", "RSI 2.3", "U-0.06", "0.35 W/(m²·K)", "0.5 h-1", "7 1/h", "85%", "3/4", "1 h 30 min", "45 sq ft EDR", "−5 K", "",
	"1/0 in", "--5 °C", "1e999 K", "0,000,000 W", "\xff 1 W", "1 \u0130", "9/8 7/6 in", "1e-", "+ - W", ",", "1 1/", "R-", "1 m-1",
}

func TestSeedsOfTheFuzzerExist(t *testing.T) {
	if len(seeds) == 0 {
		t.Error("no seeds in the test")
	}
	kept, err := os.ReadDir("testdata/fuzz/FuzzParse")
	if err != nil || len(kept) == 0 {
		t.Errorf("no seeds kept in testdata: %v", err)
	}
}

// FuzzParse holds over every type: no crash, nothing but zero with an error, and
// what is read is finite, possible, and can be written exactly.
func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, k := range kinds {
			v, err := k.parse(text)
			if err != nil {
				var pe *ParseError
				if v != 0 || !errors.As(err, &pe) || err.Error() == "" {
					t.Fatalf("%s %q: %v with %v", k.name, text, v, err)
				}
				continue
			}
			if math.IsNaN(v) || v < k.dim.min || v > k.dim.max {
				t.Fatalf("%s %q: %v is not possible", k.name, text, v)
			}
			if back, err := k.parse(k.exact(v)); err != nil || back != v {
				t.Fatalf("%s %q: %v is written %q and read as %v (%v)", k.name, text, v, k.exact(v), back, err)
			}
			if k.text(v, SI) == "" || k.text(v, US) == "" {
				t.Fatalf("%s %q: nothing printed", k.name, text)
			}
		}
	})
}
