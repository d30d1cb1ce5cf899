package curve

import (
	"errors"
	"fmt"
	"math"

	"curvewright/units"
)

// A person who tries a curve of their own types or drags it roughly. What the control
// would make of it is this file's.

// Snap moves a setting to the nearest one that the shape can hold: every temperature to a
// step within its range, slope, shift and exponent likewise. The limits of the setting and
// the room that slope and shift turn about stay as given.
//
// Units: kelvin.
// Range: any finite figures; points in order of rising outdoor temperature.
// Source: definitions of the shapes.
// Errors: a figure that is none; points that change places once they are on their steps; a
// table with another number of points than the shape has.
func (s Shape) Snap(c Setting) (Setting, error) {
	out := Setting{Kind: s.Kind, Holds: s.Holds, Limit: c.Limit, Room: c.Room}
	switch s.Kind {
	case SlopeShift:
		if !finite(c.Slope) || !finite(float64(c.Shift)) {
			return out, errors.New("slope and shift are to be numbers")
		}
		out.Slope, out.Shift = s.Slope.nearest(c.Slope), units.Difference(s.Shift.nearest(float64(c.Shift)))
		return out, nil
	case Table:
		if len(c.Points) != s.Points {
			return out, fmt.Errorf("%d points are given; the control's table has %d", len(c.Points), s.Points)
		}
		for _, p := range c.Points {
			q, err := s.snapPoint(p, s.ColdOutdoor, s.ColdSupply)
			if err != nil {
				return out, err
			}
			out.Points = append(out.Points, q)
		}
		return out, s.inOrder(out.Points)
	}
	var err error
	if out.Cold, err = s.snapPoint(c.Cold, s.ColdOutdoor, s.ColdSupply); err != nil {
		return out, err
	}
	if out.Mild, err = s.snapPoint(c.Mild, s.MildOutdoor, s.MildSupply); err != nil {
		return out, err
	}
	if s.Kind == Bent {
		if !finite(c.Exponent) {
			return out, errors.New("the exponent is to be a number")
		}
		out.Exponent = s.Exponent.nearest(c.Exponent)
	}
	return out, s.inOrder([]Point{out.Cold, out.Mild})
}

func (s Shape) snapPoint(p Point, outdoor, supply Span[units.Temperature]) (Point, error) {
	if !finite(float64(p.Outdoor)) || !finite(float64(p.Supply)) {
		return Point{}, errors.New("a point needs an outdoor temperature and a supply temperature")
	}
	return Point{s.step(p.Outdoor, outdoor), s.step(p.Supply, supply)}, nil
}

// step is the nearest step within a range; a range without any keeps its lower end.
func (s Shape) step(t units.Temperature, within Span[units.Temperature]) units.Temperature {
	low, high := s.Step.Up(within.From), s.Step.Down(within.To)
	if low > high {
		return within.From
	}
	return max(low, min(s.Step.Nearest(within.clamp(t)), high))
}

func (s Shape) inOrder(points []Point) error {
	for i := 1; i < len(points); i++ {
		if points[i].Outdoor <= points[i-1].Outdoor {
			return fmt.Errorf("the point at %s outdoors has to be milder than the one before it at %s",
				s.Step.Text(points[i].Outdoor), s.Step.Text(points[i-1].Outdoor))
		}
	}
	return nil
}

// nearest is the value of the grid that lies closest.
func (g Grid) nearest(v float64) float64 {
	if !(g.Step > 0) || g.To <= g.From {
		return g.From
	}
	last := math.Floor((g.To-g.From)/g.Step + 1e-9)
	return g.From + g.Step*max(0, min(math.Round((v-g.From)/g.Step), last))
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
