package building

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.5g, want %.5g within %g", what, got, want, tolerance)
	}
}

func ok[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

var (
	plasterboard = Layer{Name: "plasterboard", Thickness: 0.0125, Conductivity: 0.21}
	cavity       = Layer{Name: "cavity", Resistance: 0.18}
	brick        = Layer{Name: "brick", Thickness: 0.102, Conductivity: 0.77}
)

func TestPublishedWallsAreReproduced(t *testing.T) {
	cases := []struct {
		a               Assembly
		upper, lower, u float64
		source          string
	}{
		{Assembly{Name: "timber frame", Layers: []Layer{plasterboard,
			{Name: "wool", Thickness: 0.140, Conductivity: 0.04, Bridges: []Bridge{{Name: "studs", Share: 0.15, Conductivity: 0.12}}},
			{Name: "sheathing", Thickness: 0.009, Conductivity: 0.13}, cavity, brick}},
			3.435, 3.304, 0.297, "Scottish building-standards guidance 6.B.2"},
		{Assembly{Name: "masonry, lined", Layers: []Layer{plasterboard,
			{Name: "wool", Thickness: 0.089, Conductivity: 0.038, Bridges: []Bridge{{Name: "timber", Share: 0.118, Conductivity: 0.13}}},
			{Name: "block", Thickness: 0.125, Conductivity: 0.11, Bridges: []Bridge{{Name: "mortar", Share: 0.067, Conductivity: 0.88}}},
			cavity, brick}},
			3.617, 3.136, 0.296, "Scottish building-standards guidance 6.B.3"},
		{Assembly{Name: "solid brick", Layers: []Layer{{Thickness: 0.013, Conductivity: 0.57}, {Thickness: 0.220, Conductivity: 0.77}}},
			1 / 2.090, 1 / 2.090, 2.090, "ISO 6946, worked"},
		{Assembly{Name: "cavity wall", Layers: []Layer{{Thickness: 0.013, Conductivity: 0.57}, {Thickness: 0.1, Conductivity: 0.56}, cavity, brick}},
			1 / 1.462, 1 / 1.462, 1.462, "ISO 6946, worked"},
	}
	for _, c := range cases {
		got := ok[UValue](t)(c.a.Transmittance())
		near(t, c.a.Name+" upper limit, "+c.source, float64(got.Upper), c.upper, 0.002)
		near(t, c.a.Name+" lower limit, "+c.source, float64(got.Lower), c.lower, 0.002)
		near(t, c.a.Name+" U, "+c.source, float64(got.Transmittance), c.u, 0.002)
		if got.Beyond {
			t.Errorf("%s is flagged beyond the method", c.a.Name)
		}
	}
}

func TestSurfacesAndCavities(t *testing.T) {
	for flow, want := range map[HeatFlow]float64{Upward: 0.10, Horizontal: 0.13, Downward: 0.17} {
		near(t, "inner surface", float64(InsideSurface(flow)), want, 0)
	}
	cases := []struct {
		mm   float64
		flow HeatFlow
		want float64
	}{
		{25, Upward, 0.16}, {25, Horizontal, 0.18}, {50, Horizontal, 0.18}, {25, Downward, 0.19},
		{300, Downward, 0.23}, {5, Horizontal, 0.11}, {20, Horizontal, 0.175},
	}
	for _, c := range cases { // ISO 6946 table 8
		got := ok[units.Resistance](t)(CavityResistance(units.Length(c.mm/1000), c.flow))
		near(t, "cavity", float64(got), c.want, 1e-9)
	}
	for _, mm := range []float64{0, -5, 301, math.NaN()} {
		if _, err := CavityResistance(units.Length(mm/1000), Upward); err == nil {
			t.Errorf("a cavity of %g mm is accepted", mm)
		}
	}
}

func TestMetalStudsAreFlagged(t *testing.T) {
	a := Assembly{Layers: []Layer{plasterboard, {Thickness: 0.14, Conductivity: 0.04,
		Bridges: []Bridge{{Name: "steel", Share: 0.02, Conductivity: 50}}}}}
	if got := ok[UValue](t)(a.Transmittance()); !got.Beyond {
		t.Errorf("limits %v and %v are not flagged", got.Upper, got.Lower)
	}
}

func TestMoreInsulationNeverRaisesU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := units.Fraction(rapid.Float64Range(0.001, 0.9).Draw(t, "share"))
		stud := units.Conductivity(rapid.Float64Range(0.05, 5).Draw(t, "stud"))
		thin := units.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "thin"))
		more := units.Length(rapid.Float64Range(0.001, 0.3).Draw(t, "more"))
		wall := func(d units.Length) UValue {
			u, err := Assembly{Layers: []Layer{plasterboard, {Thickness: d, Conductivity: 0.04,
				Bridges: []Bridge{{Share: share, Conductivity: stud}}}}}.Transmittance()
			if err != nil {
				t.Fatal(err)
			}
			return u
		}
		a, b := wall(thin), wall(thin+more)
		if b.Transmittance >= a.Transmittance {
			t.Fatalf("U rose from %v to %v", a.Transmittance, b.Transmittance)
		}
		if a.Lower > a.Upper*(1+1e-12) {
			t.Fatalf("lower limit %v above upper %v", a.Lower, a.Upper)
		}
	})
}

func TestBadConstructionsAreRefusedInWords(t *testing.T) {
	cases := []struct {
		a     Assembly
		words string
	}{
		{Assembly{Name: "north wall"}, "north wall: no layers"},
		{Assembly{Layers: []Layer{{Name: "wool", Thickness: 0.1}}}, "layer 1 from inside (wool), conductivity"},
		{Assembly{Layers: []Layer{{Thickness: -0.1, Conductivity: 1}}}, "thickness"},
		{Assembly{Layers: []Layer{{Resistance: units.Resistance(math.NaN())}}}, "no number"},
		{Assembly{Layers: []Layer{{Resistance: 1, Bridges: []Bridge{{Share: 0.6, Resistance: 1}, {Share: 0.6, Resistance: 1}}}}}, "share left"},
		{Assembly{Layers: []Layer{{Resistance: 1, Bridges: []Bridge{{Name: "stud", Share: 0.1}}}}}, "bridge stud"},
	}
	for _, c := range cases {
		if _, err := c.a.Transmittance(); err == nil || !strings.Contains(err.Error(), c.words) {
			t.Errorf("error %v does not say %q", err, c.words)
		}
	}
}
