package refuse

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/units"
)

var (
	nan  = math.NaN()
	more = math.Inf(1)
	less = math.Inf(-1)
)

func spaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestBothTellsEachSystem(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Both(units.Celsius(20)), "20.0 °C (68 °F)"},
		{Both(units.Celsius(0)), "0.0 °C (32 °F)"},
		{Both(units.Fraction(0.5)), "50%"}, // the same in both: told once
		{Both(units.Number(3)), "3"},
		{Both(units.Temperature(nan)), "no value"},
		{Both(units.Power(more)), "no value"},
		{Both(units.Number(less)), "no value"},
	} {
		if spaces(c.got) != c.want {
			t.Errorf("%q, want %q", spaces(c.got), c.want)
		}
	}
}

func TestRefusalsAreSentences(t *testing.T) {
	hot := units.Celsius(100)
	cups := func(v units.Quantity) string { return v.Text(units.US) + " cups" }
	for _, c := range []struct {
		err  error
		want string // empty: accepted
	}{
		{Within("supply", units.Celsius(0), units.Celsius(0), hot), ""},
		{Within("supply", hot, units.Celsius(0), hot), ""},
		{Within("supply", units.Celsius(-10), units.Celsius(0), hot), "supply: −10.0 °C (14 °F) given; accepted: 0.0 °C (32 °F) to 100.0 °C (212 °F)"},
		{Within("supply", units.Celsius(120), units.Celsius(0), hot), "supply: 120.0 °C (248 °F) given; accepted: 0.0 °C (32 °F) to 100.0 °C (212 °F)"},
		{Within("count", units.Number(nan), 1, 3), "count: no number given; accepted: 1 to 3"},
		{Within("count", units.Number(more), 1, 3), "count: no number given; accepted: 1 to 3"},
		{Within("count", units.Number(less), 1, 3), "count: no number given; accepted: 1 to 3"},
		{Words[units.Number]{}.Above("count", 3, 3), ""},
		{Words[units.Number]{}.Above("count", 0, 3), "count: 0 given; accepted: above zero, to 3"},
		{Words[units.Number]{}.Above("count", 4, 3), "count: 4 given; accepted: above zero, to 3"},
		{Words[units.Number]{}.Above("count", units.Number(nan), 3), "count: no number given; accepted: above zero, to 3"},
		{Words[units.Number]{Subject: "kitchen"}.Within("sugar", 9, 0, 2), "kitchen: sugar: 9 given; accepted: 0 to 2"},
		{Words[units.Number]{Tell: cups}.Within("sugar", units.Number(nan), 0, 2), "sugar: no number given; accepted: 0 cups to 2 cups"},
		{Words[units.Number]{Tell: cups}.Within("sugar", 9, 0, 2), "sugar: 9 cups given; accepted: 0 cups to 2 cups"},
		{Words[units.Number]{Subject: "kitchen", Tell: cups}.Above("sugar", 0, 2), "kitchen: sugar: 0 cups given; accepted: above zero, to 2 cups"},
	} {
		var refused *Error
		switch {
		case c.want == "" && c.err != nil:
			t.Errorf("refused: %v", c.err)
		case c.want == "":
		case c.err == nil:
			t.Errorf("accepted; want %q", c.want)
		case spaces(c.err.Error()) != c.want:
			t.Errorf("%q, want %q", spaces(c.err.Error()), c.want)
		case !errors.As(fmt.Errorf("circuit 1: %w", c.err), &refused) || refused.What == "" || refused.Given == "" || refused.Accept == "":
			t.Errorf("%v does not name figure, given and accepted", c.err)
		}
	}
}

// Checks stand in the inner loops of the engine.
func TestAcceptingTakesNoMemory(t *testing.T) {
	words := Words[units.Power]{Subject: "pump", Tell: Both}
	if n := testing.AllocsPerRun(100, func() {
		_ = cmp.Or(Within("power", units.Power(5), 0, 9), words.Within("power", 5, 0, 9), words.Above("power", 5, 9))
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestTheFirstRefusalIsTold(t *testing.T) {
	none := Within("a", units.Number(1), 0, 2)
	one, two := Within("b", units.Number(3), 0, 2), Within("c", units.Number(3), 0, 2)
	if err := cmp.Or(none, none); err != nil {
		t.Errorf("refused: %v", err)
	}
	if err := cmp.Or(none, one, two); err != one {
		t.Errorf("told %v, want %v", err, one)
	}
}

// What is accepted is a number between the ends; what is refused is not.
func TestWithinAcceptsWhatLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const most = 1e12 // beyond anything that can be entered
		low := rapid.Float64Range(-most, most).Draw(t, "low")
		high := rapid.Float64Range(low, most).Draw(t, "high")
		v := rapid.OneOf(rapid.Float64Range(-most, most), rapid.SampledFrom([]float64{low, high, nan, more, less})).Draw(t, "value")
		err := Within("value", units.Number(v), units.Number(low), units.Number(high))
		if between := !math.IsNaN(v) && low <= v && v <= high; between != (err == nil) {
			t.Fatalf("%g in %g to %g: %v", v, low, high, err)
		}
		if err != nil && (strings.Contains(err.Error(), "NaN") || strings.Contains(err.Error(), "Inf")) {
			t.Fatalf("says %q", err)
		}
	})
}
