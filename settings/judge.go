package settings

import (
	"fmt"
	"slices"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/units"
)

// What would a curve do that somebody sets by hand, or that was found in the control: is
// any room short, which limits does it meet, does the boiler still condense?

// Judge holds a solved house, ready to be asked about other curves.
type Judge struct {
	Sheet    *Sheet // with the recommended curves
	Circuits []Choice
	Readings []Reading // workings of Sheet.Expected, in its order
	Found    Found     // the control as it was found, as far as the survey says
	model    *model
	solved   []solvedCircuit
	options  Options
}

// Choice is what can be set for a circuit.
type Choice struct {
	Shape curve.Shape // of the control, within all limits of the circuit
	Own   curve.Shape // of the control, for somebody who knows of no limit but its own
	// Recommended is the curve on the sheet, held by the circuit's limits alone: the lowest
	// and highest supply of the sheet belong to that curve, not to another.
	Recommended curve.Setting
}

// Verdict is what a house makes of one curve for each of its circuits.
type Verdict struct {
	Circuits []CurveVerdict
	Boiler   BoilerSeason
	// CondensingHours is the share of the season's heating hours with a return below the
	// dew point; the share of its heat is in Boiler.
	CondensingHours units.Fraction
}

// CurveVerdict is what the rooms of a circuit make of its curve.
type CurveVerdict struct {
	Circuit Circuit // as on the sheet, with this curve set
	Rooms   []RoomVerdict
	Coldest int              // index of the room that is shortest on the design night
	Short   units.Difference // that it is short; 0 if none is
	Excess  units.Difference // that the leading room would be too warm in the mildest weather, valves open
	Limits  []LimitVerdict
}

// RoomVerdict is how warm a room gets with its valves open.
type RoomVerdict struct {
	Name             string
	Setpoint         units.Temperature
	Need             units.Temperature // supply that the room needs on the design night
	Design           units.Temperature // where it settles on the design night
	Low, High        units.Temperature // that, in nine cases of ten; equal without samples
	Coolest, Warmest units.Temperature // over the season
}

// LimitVerdict is a limit that a curve meets.
type LimitVerdict struct {
	Kind    LimitKind
	Supply  units.Temperature
	Why     string            // what sets the limit; empty for a lowest supply
	Outdoor units.Temperature // where it begins to count: below this, or above it for a lowest supply
}

// LimitKind says what a limit does to a curve.
type LimitKind int

const (
	HeldDown   LimitKind = iota // the supply stays at the limit though the curve asks for more
	HeldUp                      // the supply stays at the lowest that boiler or control hold
	RunsBeyond                  // the curve sends hotter water than the limit allows
)

// NewJudge solves a job and keeps it for trying other curves.
//
// Units: those of the job.
// Range: as [Solve].
// Source: as [Solve].
// Errors: as [Solve].
func NewJudge(j *job.Job, o Options) (*Judge, error) {
	s, m, solved, _, err := work(j, o)
	if err != nil {
		return nil, err
	}
	g := &Judge{Sheet: s, Readings: m.readings(s, solved), Found: m.found(), model: m, solved: solved, options: o}
	own := m.control.shape(j.Control.Curve, m.control.limit)
	for i, c := range m.circuits {
		recommended := solved[i].setting
		recommended.Limit = c.shape.Limit
		g.Circuits = append(g.Circuits, Choice{Shape: c.shape, Own: own, Recommended: recommended})
	}
	return g, nil
}

// Curves judges one curve for each circuit, as Solve judges the recommended ones: where
// each room settles with its valves open, what comes back to the boiler, which limits are
// met. Asked for it, it spreads the doubt of the survey over the rooms' temperatures on
// the design night, with the same draws each time.
//
// Units: kelvin, W.
// Range: as [Solve]; any curve of the control's shape ([curve.Shape.Snap]).
// Source: as [Solve].
// Errors: another number of curves than circuits; a boiler that cannot be worked out with
// these curves.
func (g *Judge) Curves(set []curve.Setting, doubt bool) (*Verdict, error) {
	if len(set) != len(g.solved) {
		return nil, fmt.Errorf("%d curves for %d circuits", len(set), len(g.solved))
	}
	m := *g.model
	m.streams, m.findings = streams{}, nil
	tried := slices.Clone(g.solved)
	v := &Verdict{}
	for i := range tried {
		tried[i].setting = set[i]
		tried[i].out = m.describe(&m.circuits[i], tried[i])
		v.Circuits = append(v.Circuits, m.verdict(&m.circuits[i], tried[i]))
	}
	if doubt {
		g.doubt(v, set)
	}
	if err := m.couple(tried); err != nil {
		return nil, err
	}
	var err error
	if v.Boiler, _, err = m.boilerSeason(tried); err != nil {
		return nil, err
	}
	if m.job.Boiler.Kind != "non-condensing" {
		v.CondensingHours = m.condensingHours(v.Boiler)
	}
	return v, nil
}

// verdict sums up a circuit whose curve has been described.
func (m *model) verdict(c *circuit, s solvedCircuit) CurveVerdict {
	v := CurveVerdict{Circuit: s.out, Limits: m.limitsMet(c, s)}
	points := s.out.Points
	shortest := units.Difference(0)
	for i, r := range s.out.Rooms {
		first := points[0].Rooms[i]
		room := RoomVerdict{Name: r.Name, Setpoint: r.Setpoint, Need: first.Need, Design: first.Reaches,
			Low: first.Reaches, High: first.Reaches, Coolest: first.Reaches, Warmest: first.Reaches}
		for _, p := range points {
			room.Coolest, room.Warmest = min(room.Coolest, p.Rooms[i].Reaches), max(room.Warmest, p.Rooms[i].Reaches)
		}
		v.Rooms = append(v.Rooms, room)
		if short := r.Setpoint.Sub(room.Design); i == 0 || short > shortest {
			v.Coldest, shortest = i, short
		}
	}
	v.Short = max(0, shortest)
	mild := points[len(points)-1]
	v.Excess = max(0, mild.Rooms[mild.Leads].Reaches.Sub(s.out.Rooms[mild.Leads].Setpoint))
	return v
}

// limitsMet finds the limits that hold a curve, and those that it runs beyond.
func (m *model) limitsMet(c *circuit, s solvedCircuit) []LimitVerdict {
	const slack = 0.05
	free := s.setting
	free.Limit = curve.Span[units.Temperature]{To: curve.Hottest.Add(1000)}
	var out []LimitVerdict
	down := LimitVerdict{Kind: HeldDown, Supply: s.setting.Limit.To, Why: "the highest supply that was set"}
	if s.setting.Limit.To >= c.shape.Limit.To {
		down.Why = c.limits[0].why
	}
	up := LimitVerdict{Kind: HeldUp, Supply: s.setting.Limit.From}
	held, lifted := false, false
	for _, to := range m.outdoor { // from cold to mild
		if free.At(to) > s.setting.Limit.To+slack {
			down.Outdoor, held = to, true
		}
		if !lifted && free.At(to) < s.setting.Limit.From-slack {
			up.Outdoor, lifted = to, true
		}
	}
	if held {
		out = append(out, down)
	}
	if lifted {
		out = append(out, up)
	}
	for i, l := range c.limits { // lowest first
		if i > 0 && l.supply < c.limits[i-1].supply+slack {
			continue // one reason is enough for one limit
		}
		beyond := LimitVerdict{Kind: RunsBeyond, Supply: l.supply, Why: l.why}
		over := false
		for _, to := range m.outdoor {
			if s.setting.At(to) > l.supply+slack {
				beyond.Outdoor, over = to, true
			}
		}
		if over {
			out = append(out, beyond)
		}
	}
	return out
}

// doubt spreads the survey's doubt over where each room settles on the design night.
func (g *Judge) doubt(v *Verdict, set []curve.Setting) {
	m, n := g.model, g.options.Samples
	if n <= 0 {
		return
	}
	factors := m.factors()
	draws := latinHypercube(n, len(factors), g.options.Seed)
	reach := make([][][]float64, len(set)) // circuit, room, sample
	for i := range set {
		reach[i] = make([][]float64, len(v.Circuits[i].Rooms))
	}
	one := sampled{rooms: make([]float64, len(m.rooms)), emitters: make([]float64, len(m.circuits)), flows: make([]float64, len(m.circuits))}
	for k := range n {
		one.reset()
		for f := range factors {
			factors[f].apply(&one, max(0.2, 1+factors[f].doubt*draws[f][k]))
		}
		for i := range set {
			c, supply := m.varied(i, one), set[i].At(m.design)
			for r := range reach[i] {
				reach[i][r] = append(reach[i][r], float64(c.Reaches(r, supply, m.design)))
			}
		}
	}
	for i := range set {
		for r := range reach[i] {
			low, high := spread(reach[i][r])
			v.Circuits[i].Rooms[r].Low, v.Circuits[i].Rooms[r].High = units.Temperature(low), units.Temperature(high)
		}
	}
}

// condensingHours is the share of the heating hours with a return below the dew point.
func (m *model) condensingHours(b BoilerSeason) units.Fraction {
	wet, all := 0.0, 0.0
	for k, p := range b.Points {
		if p.Load <= 0 {
			continue
		}
		all += float64(m.hours[k])
		if p.Return < b.DewPoint {
			wet += float64(m.hours[k])
		}
	}
	if all <= 0 {
		return 0
	}
	return units.Fraction(wet / all)
}
