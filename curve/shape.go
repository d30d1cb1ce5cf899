package curve

import (
	"fmt"
	"math"

	"curvewright/units"
)

// Kind is the family of curves that a control holds.
type Kind int

// The four families.
const (
	TwoPoints  Kind = iota // a straight line through a cold point and a mild point
	SlopeShift             // slope and parallel shift about the room set-point
	Bent                   // bent by an exponent between a cold and a mild point
	Table                  // a table of points, straight between them
)

// Span is a range that can be set.
type Span[T ~float64] struct{ From, To T }

func (s Span[T]) clamp(v T) T { return max(s.From, min(s.To, v)) }

// Grid is a range of plain figures with a step.
type Grid struct{ From, To, Step float64 }

// values lists the grid, never more than limit of them.
func (g Grid) values(limit int) []float64 {
	if !(g.Step > 0) || g.To <= g.From {
		return []float64{g.From}
	}
	n := int(math.Floor((g.To-g.From)/g.Step+1e-9)) + 1
	n = min(n, limit)
	out := make([]float64, n)
	for i := range out {
		out[i] = g.From + float64(i)*g.Step
	}
	return out
}

// up gives the first value of the grid not below v, and whether there is one.
func (g Grid) up(v float64) (float64, bool) {
	if !(g.Step > 0) {
		return g.From, v <= g.From+1e-9
	}
	k := math.Ceil((v-g.From)/g.Step - 1e-9)
	x := g.From + max(0, k)*g.Step
	return x, x <= g.To+1e-9
}

// Shape is what a control can hold: its family, ranges and steps. Supplies move in
// whole steps.
type Shape struct {
	Kind        Kind
	Step        units.Step
	ColdOutdoor Span[units.Temperature] // TwoPoints, Bent, Table
	MildOutdoor Span[units.Temperature]
	ColdSupply  Span[units.Temperature]
	MildSupply  Span[units.Temperature]
	Holds       bool                    // colder than the cold point the curve holds its supply
	Exponent    Grid                    // Bent
	Slope       Grid                    // SlopeShift
	Shift       Grid                    // SlopeShift, in kelvin
	Points      int                     // Table
	Limit       Span[units.Temperature] // minimum and maximum supply that will be set
}

// Point is a supply temperature at an outdoor temperature.
type Point struct{ Outdoor, Supply units.Temperature }

// Setting is a curve as set in a control.
type Setting struct {
	Kind     Kind
	Cold     Point   // TwoPoints, Bent
	Mild     Point   // TwoPoints, Bent
	Exponent float64 // Bent
	Slope    float64 // SlopeShift
	Shift    units.Difference
	Room     units.Temperature // set-point that SlopeShift turns about
	Points   []Point           // Table, ascending in outdoor temperature
	Holds    bool
	Limit    Span[units.Temperature] // minimum and maximum supply
	Lowered  units.Difference        // by how much the targets had to be lowered for the control's ranges; 0 if it can hold them
}

// At gives the supply temperature that the control makes at an outdoor temperature.
//
//	two points:      Ts = Tm + (Tc − Tm)·x,        x = (Om − To)/(Om − Oc)
//	bent:            Ts = Tm + (Tc − Tm)·x^(1/e),  x not below 0
//	slope and shift: Ts = Tr + shift + slope·(Tr − To)
//	table:           straight between its points, held beyond them
//
// and in every case held between the minimum and the maximum supply.
//
// Units: kelvin.
// Range: any outdoor temperature.
// Source: definitions of the shapes; the bent one is the characteristic heating curve
// Ts ∝ load^(1/n) with the exponent set by hand.
func (s Setting) At(outdoor units.Temperature) units.Temperature {
	var t units.Temperature
	switch s.Kind {
	case SlopeShift:
		t = s.Room.Add(s.Shift) + units.Temperature(s.Slope*float64(s.Room-outdoor))
	case Table:
		t = alongPoints(s.Points, outdoor)
	default:
		t = s.Mild.Supply + units.Temperature(float64(s.Cold.Supply-s.Mild.Supply)*s.share(outdoor))
	}
	return s.Limit.clamp(t)
}

func (s Setting) share(outdoor units.Temperature) float64 {
	x := float64(s.Mild.Outdoor-outdoor) / float64(s.Mild.Outdoor-s.Cold.Outdoor)
	if s.Holds {
		x = math.Min(x, 1)
	}
	if s.Kind == TwoPoints {
		return x
	}
	return math.Pow(math.Max(x, 0), 1/s.Exponent)
}

func alongPoints(p []Point, outdoor units.Temperature) units.Temperature {
	if outdoor <= p[0].Outdoor {
		return p[0].Supply
	}
	for i := 1; i < len(p); i++ {
		if outdoor <= p[i].Outdoor {
			a, b := p[i-1], p[i]
			f := float64(outdoor-a.Outdoor) / float64(b.Outdoor-a.Outdoor)
			return a.Supply + units.Temperature(f*float64(b.Supply-a.Supply))
		}
	}
	return p[len(p)-1].Supply
}

// Check tells whether a shape can be fitted at all.
//
// Units: none.
// Range: ranges in order, cold point colder than mild point, 2 to 12 table points,
// exponent 1 to 3.
// Source: own requirement.
// Errors: a sentence with the figures that exclude each other.
func (s Shape) Check() error {
	for _, r := range []struct {
		name string
		span Span[units.Temperature]
		used bool
	}{
		{"cold outdoor temperature", s.ColdOutdoor, s.Kind != SlopeShift},
		{"mild outdoor temperature", s.MildOutdoor, s.Kind == TwoPoints || s.Kind == Bent},
		{"supply at the cold point", s.ColdSupply, s.Kind != SlopeShift},
		{"supply at the mild point", s.MildSupply, s.Kind == TwoPoints || s.Kind == Bent},
		{"supply limits", s.Limit, true},
	} {
		if r.used && !(r.span.From <= r.span.To) {
			return fmt.Errorf("the %s runs from %s to %s, which leaves nothing to set", r.name, s.Step.Text(r.span.From), s.Step.Text(r.span.To))
		}
	}
	switch s.Kind {
	case TwoPoints, Bent:
		if !(s.ColdOutdoor.From < s.MildOutdoor.To) {
			return fmt.Errorf("the cold point at %s or above is not colder than the mild point at %s or below",
				s.Step.Text(s.ColdOutdoor.From), s.Step.Text(s.MildOutdoor.To))
		}
		if s.Kind == Bent && !(s.Exponent.From >= 1 && s.Exponent.To <= 3) {
			return fmt.Errorf("the exponent %g to %g is not between 1 and 3", s.Exponent.From, s.Exponent.To)
		}
	case SlopeShift:
		if !(s.Slope.From >= 0 && s.Slope.From <= s.Slope.To && s.Slope.To <= 10) {
			return fmt.Errorf("the slope %g to %g is not between 0 and 10", s.Slope.From, s.Slope.To)
		}
		if !(s.Shift.From <= s.Shift.To) {
			return fmt.Errorf("the shift runs from %g to %g, which leaves nothing to set", s.Shift.From, s.Shift.To)
		}
	case Table:
		if s.Points < 2 || s.Points > 12 {
			return fmt.Errorf("a table of %d points; 2 to 12 can be used", s.Points)
		}
	}
	return nil
}
