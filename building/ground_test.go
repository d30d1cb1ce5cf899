package building

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

// A floor with P/A = 1/ratio, of 100 m², clay, 0.3 m walls, as the tables of the
// Building Regulations, appendix C.
func tableSlab(pa, floor float64) Slab {
	return Slab{Area: 100, Perimeter: units.Length(100 * pa), Wall: 0.3, Ground: ClayOrSilt, Floor: units.Resistance(floor)}
}

var solidFloors = []struct { // Building Regulations appendix C, table C1
	pa float64
	u  [5]float64 // R_f 0, 0.5, 1.0, 1.5, 2.0
}{
	{.05, [5]float64{.13, .11, .10, .09, .08}}, {.10, [5]float64{.22, .18, .16, .14, .13}},
	{.15, [5]float64{.30, .24, .21, .18, .17}}, {.20, [5]float64{.37, .29, .25, .22, .19}},
	{.25, [5]float64{.44, .34, .28, .24, .22}}, {.30, [5]float64{.49, .38, .31, .27, .23}},
	{.35, [5]float64{.55, .41, .34, .29, .25}}, {.40, [5]float64{.60, .44, .36, .30, .26}},
	{.45, [5]float64{.65, .47, .38, .32, .27}}, {.50, [5]float64{.70, .50, .40, .33, .28}},
	{.55, [5]float64{.74, .52, .41, .34, .28}}, {.60, [5]float64{.78, .55, .43, .35, .29}},
	{.65, [5]float64{.82, .57, .44, .35, .30}}, {.70, [5]float64{.86, .59, .45, .36, .30}},
	{.75, [5]float64{.89, .61, .46, .37, .31}}, {.80, [5]float64{.93, .62, .47, .37, .32}},
	{.85, [5]float64{.96, .64, .47, .38, .32}}, {.90, [5]float64{.99, .65, .48, .39, .32}},
	{.95, [5]float64{1.02, .66, .49, .39, .33}}, {1.0, [5]float64{1.05, .68, .50, .40, .33}},
}

func TestSolidFloorsTableC1(t *testing.T) {
	for _, row := range solidFloors {
		for i, want := range row.u {
			got := ok[units.Transmittance](t)(tableSlab(row.pa, 0.5*float64(i)).Transmittance())
			near(t, "U of a solid floor", float64(got), want, 0.0051)
		}
	}
}

func TestBasementFloorsTableC5(t *testing.T) {
	table := [10][5]float64{ // P/A 0.1 … 1.0; depth 0.5 … 2.5 m
		{.20, .19, .18, .17, .16}, {.34, .31, .29, .27, .26}, {.44, .41, .38, .35, .33}, {.53, .48, .44, .41, .38},
		{.61, .55, .50, .46, .43}, {.68, .61, .55, .50, .46}, {.74, .65, .59, .53, .49}, {.79, .70, .62, .56, .51},
		{.84, .73, .65, .58, .53}, {.89, .77, .68, .60, .54},
	}
	for i, row := range table {
		for j, want := range row {
			b := Basement{Area: 100, Perimeter: units.Length(10 * (i + 1)), Depth: units.Length(0.5 * float64(j+1)), Wall: 0.3, Ground: ClayOrSilt}
			near(t, "U of a basement floor", float64(ok[BasementU](t)(b.Transmittance()).Floor), want, 0.0051)
		}
	}
}

func TestEdgeInsulationTablesC2C3(t *testing.T) {
	table := []struct {
		vertical bool
		width    float64
		factor   [4]float64 // R_n 0.5, 1, 1.5, 2
	}{
		{false, 0.5, [4]float64{.13, .18, .21, .22}}, {false, 1, [4]float64{.20, .27, .32, .34}}, {false, 1.5, [4]float64{.23, .33, .39, .42}},
		{true, .25, [4]float64{.13, .18, .21, .22}}, {true, .5, [4]float64{.20, .27, .32, .34}},
		{true, .75, [4]float64{.23, .33, .39, .42}}, {true, 1, [4]float64{.26, .37, .43, .48}},
	}
	const pa = 0.4
	bare := ok[units.Transmittance](t)(tableSlab(pa, 0).Transmittance())
	for _, row := range table {
		for i, want := range row.factor {
			s := tableSlab(pa, 0)
			s.Edge = Edge{Vertical: row.vertical, Width: units.Length(row.width), Thickness: units.Length(0.04 * 0.5 * float64(i+1)), Conductivity: 0.04}
			u := ok[units.Transmittance](t)(s.Transmittance())
			near(t, "edge insulation factor", float64(bare-u)/pa, want, 0.01)
		}
	}
}

func TestSuspendedFloors(t *testing.T) {
	table := []struct{ pa, few, many float64 }{ // Building Regulations appendix C, table C4
		{.1, .25, .26}, {.2, .40, .42}, {.3, .51, .53}, {.4, .59, .62}, {.5, .66, .70}, {.6, .72, .76}, {.8, .82, .86}, {1, .89, .93},
	}
	for _, row := range table {
		for vents, want := range map[units.Length]float64{0.0015: row.few, 0.003: row.many} {
			// The table does not print its wind and low walls; these reproduce every cell.
			s := SuspendedFloor{Area: 100, Perimeter: units.Length(100 * row.pa), Wall: 0.3, Ground: ClayOrSilt, Floor: 0.2,
				Height: 0.3, LowWall: 1.7, Vents: vents, Wind: 3, Shelter: 0.05}
			near(t, "U of a suspended floor", float64(ok[units.Transmittance](t)(s.Transmittance())), want, 0.0051)
		}
	}
	dwelling := SuspendedFloor{Area: 40, Perimeter: 26, Wall: 0.25, Ground: ClayOrSilt, Floor: 0.2,
		Height: 0.3, LowWall: 1.5, Vents: 0.003, Wind: 5, Shelter: 0.05}
	near(t, "U of a suspended floor, national method", float64(ok[units.Transmittance](t)(dwelling.Transmittance())), 0.827, 0.001)
	dwelling.Floor += 2
	near(t, "the same with R 2", float64(ok[units.Transmittance](t)(dwelling.Transmittance())), 0.312, 0.001)
}

func TestGroundWorkedExamples(t *testing.T) {
	cases := []struct {
		ground units.Conductivity
		r      units.Resistance
		want   float64
	}{ // ISO 13370:2007 clause 9.1, worked
		{2.0, 0, 0.8214}, {2.0, 2.5, 0.2580}, {1.5, 0, 0.6515}, {1.5, 2.5, 0.2349},
	}
	for _, c := range cases {
		u := ok[units.Transmittance](t)(Slab{Area: 80, Perimeter: 36, Wall: 0.3, Ground: c.ground, Floor: c.r}.Transmittance())
		near(t, "slab", float64(u), c.want, 0.0001)
	}
	b := ok[BasementU](t)(Basement{Area: 80, Perimeter: 36, Depth: 2, Wall: 0.3, Ground: 2, BelowGrade: 0.3}.Transmittance())
	near(t, "basement floor", float64(b.Floor), 0.5637, 0.0001)
	near(t, "basement wall", float64(b.Wall), 0.8220, 0.0001)
	near(t, "basement loss", float64(b.Coefficient), 80*0.5637+72*0.8220, 0.02)
}

func TestEquivalentFloor(t *testing.T) {
	cases := []struct{ dimension, u, want float64 }{ // EN 12831-1:2017, worked, z = 0
		{4, 2, .648}, {4, 1, .487}, {4, .5, .332}, {4, .25, .208},
		{8, 2, .445}, {8, 1, .361}, {8, .5, .266}, {8, .25, .179},
		{20, 2, .243}, {20, 1, .214}, {20, .5, .174}, {20, .25, .130}, {4.444, .35, .257},
	}
	for _, c := range cases {
		got := ok[units.Transmittance](t)(EquivalentFloor(units.Length(c.dimension), 0, units.Transmittance(c.u)))
		near(t, "equivalent U", float64(got), c.want, 0.001)
	}
	for dimension := 2.0; dimension <= 50; dimension += 2 {
		for depth := 0.0; depth <= 5; depth++ {
			for u := 0.1; u <= 3; u += 0.29 {
				got := ok[units.Transmittance](t)(EquivalentFloor(units.Length(dimension), units.Length(depth), units.Transmittance(u)))
				if got <= 0 || got > units.Transmittance(u) {
					t.Errorf("B' %g, z %g, U %g: equivalent %v is not between 0 and U", dimension, depth, u, got)
				}
			}
		}
	}
}

func TestGroundLossFollowsTheAnnualMean(t *testing.T) {
	l := ok[Loss](t)(GroundLoss(20, 0.25, units.Celsius(9), false))
	near(t, "ground loss", float64(l.At(units.Celsius(20), units.Celsius(-12))), 1.45*20*0.25*11, 1e-9)
	wet := ok[Loss](t)(GroundLoss(20, 0.25, units.Celsius(9), true))
	near(t, "with ground water near", float64(wet.Fixed/l.Fixed), 1.15, 1e-12)
}

func TestMoreInsulationNeverRaisesGroundU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Slab{Area: units.Area(rapid.Float64Range(20, 400).Draw(t, "area")), Wall: 0.3, Ground: SandOrGravel,
			Perimeter: units.Length(rapid.Float64Range(8, 80).Draw(t, "perimeter")),
			Floor:     units.Resistance(rapid.Float64Range(0, 6).Draw(t, "R"))}
		more := s
		more.Floor += units.Resistance(rapid.Float64Range(0.01, 4).Draw(t, "more"))
		a, err1 := s.Transmittance()
		b, err2 := more.Transmittance()
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		// The two formulas of the standard meet with a step of under 0.02 %.
		if float64(b) > float64(a)*1.0002 {
			t.Fatalf("U rose from %v to %v", a, b)
		}
	})
}

func TestBadGroundIsRefusedInWords(t *testing.T) {
	slab := tableSlab(0.4, 0)
	noEdge, nan, edge := slab, slab, slab
	noEdge.Perimeter = 0
	nan.Floor = units.Resistance(math.NaN())
	edge.Edge = Edge{Width: 1, Thickness: 0.05, Conductivity: 3}
	for _, c := range []struct {
		s     Slab
		words string
	}{{noEdge, "exposed perimeter"}, {nan, "no number"}, {edge, "conductivity of the edge insulation"}} {
		if _, err := c.s.Transmittance(); err == nil || !strings.Contains(err.Error(), c.words) {
			t.Errorf("error %v does not say %q", err, c.words)
		}
	}
	if _, err := (Basement{Area: 80, Perimeter: 36, Depth: 9, Wall: 0.3, Ground: 2}).Transmittance(); err == nil || !strings.Contains(err.Error(), "depth of the basement") {
		t.Errorf("a basement 9 m deep: %v", err)
	}
	if _, err := EquivalentFloor(1, 0, 0.3); err == nil {
		t.Error("B' of 1 m is accepted")
	}
	if _, err := GroundLoss(10, 0.3, 0, false); err == nil {
		t.Error("an annual mean of 0 K is accepted")
	}
}
