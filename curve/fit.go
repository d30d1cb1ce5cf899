package curve

import (
	"errors"
	"math"

	"curvewright/units"
)

// Target is what a setting should do at one outdoor temperature.
type Target struct {
	Outdoor units.Temperature
	Ideal   units.Temperature // supply that just holds the governing room
	Least   units.Temperature // supply below which a room is short beyond the tolerance
	Weight  float64           // hours of the year
}

// shortPenalty is how much worse a supply below the ideal counts than one above it:
// a room slightly cool is noticed, water slightly warm is not. It only orders
// settings that all keep the tolerance.
const shortPenalty = 4

// slack keeps rounding from refusing a setting that is right to a millikelvin.
const slack = 1e-3

// Fit chooses the setting of a shape that comes closest to the ideal curve.
//
// For every value of one free figure (mild supply, slope, exponent) the other is the
// lowest step that keeps each target's Least; among these the one with the smallest
// Σ w·(set − ideal)² is taken, with shortages weighted fourfold. Targets above the
// maximum supply are lowered to it first: what the limit costs is not the fit's to
// mend. Where the ranges of the shape cannot keep them, all targets are lowered by the
// least amount that lets one setting through, and the setting says by how much.
//
// Units: kelvin.
// Range: at least two targets, ascending in outdoor temperature. room is the set-point
// that slope and shift turn about.
// Source: own method; least squares over the hours of the year.
// Errors: a shape that cannot be set ([Shape.Check]), or whose ranges hold no curve for
// these outdoor temperatures at all.
func Fit(s Shape, room units.Temperature, targets []Target) (Setting, error) {
	if err := s.Check(); err != nil {
		return Setting{}, err
	}
	if len(targets) < 2 {
		return Setting{}, errors.New("a curve needs at least two outdoor temperatures")
	}
	capped := make([]Target, len(targets))
	for i, t := range targets {
		t.Least = s.Limit.clamp(t.Least)
		t.Ideal = s.Limit.clamp(t.Ideal)
		capped[i] = t
	}
	if set, ok := search(s, room, capped, 0); ok {
		return set, nil
	}
	lo, hi := units.Difference(0), units.Difference(Hottest-units.Celsius(0))
	set, ok := search(s, room, capped, hi)
	if !ok {
		return Setting{}, errors.New("no setting within the control's ranges gives a curve from the design day to mild weather; look at the outdoor temperatures of its points and at their steps")
	}
	for hi-lo > 0.05 {
		mid := (lo + hi) / 2
		if better, ok := search(s, room, capped, mid); ok {
			set, hi = better, mid
		} else {
			lo = mid
		}
	}
	return set, nil
}

// search tries the settings of a shape with every target lowered by an amount.
func search(s Shape, room units.Temperature, targets []Target, lowered units.Difference) (Setting, bool) {
	if lowered > 0 {
		lower := make([]Target, len(targets))
		for i, t := range targets {
			t.Least = s.Limit.clamp(t.Least.Add(-lowered))
			lower[i] = t
		}
		targets = lower
	}
	f := fitter{shape: s, room: room, targets: targets, best: math.Inf(1)}
	switch s.Kind {
	case SlopeShift:
		f.slopeShift()
	case Table:
		f.table()
	case Bent:
		for _, e := range s.Exponent.values(60) {
			f.twoPoints(e)
		}
	default:
		f.twoPoints(1)
	}
	f.setting.Lowered = lowered
	return f.setting, !math.IsInf(f.best, 1)
}

type fitter struct {
	shape   Shape
	room    units.Temperature
	targets []Target
	best    float64
	setting Setting
}

// offer keeps a candidate if it keeps every room and is closer than the best so far.
func (f *fitter) offer(c Setting) {
	f.weigh(c, func(i int) units.Temperature { return c.At(f.targets[i].Outdoor) })
}

// weigh is offer with the candidate's supply at each target worked out by the caller.
func (f *fitter) weigh(c Setting, supply func(int) units.Temperature) {
	sum := 0.0
	for i, t := range f.targets {
		set := supply(i)
		if set < t.Least-slack {
			return
		}
		d := float64(set - t.Ideal)
		if d < 0 {
			d *= math.Sqrt(shortPenalty)
		}
		sum += t.Weight * d * d
		if sum >= f.best {
			return
		}
	}
	f.best, f.setting = sum, c
}

func (f *fitter) coldest() units.Temperature { return f.targets[0].Outdoor }
func (f *fitter) mildest() units.Temperature { return f.targets[len(f.targets)-1].Outdoor }

// twoPoints tries the cold points that make sense: the coldest target, and where a limit
// cuts the curve off, the outdoor temperatures about that knee, since a line drawn to the
// design day through a limit would run far too hot above it.
func (f *fitter) twoPoints(exponent float64) {
	f.throughColdPoint(exponent, f.coldest())
	knee := 0
	for knee < len(f.targets) && f.targets[knee].Ideal >= f.shape.Limit.To-slack {
		knee++
	}
	if knee == 0 {
		return
	}
	for _, i := range []int{knee - 1, knee, knee + 1} {
		if i > 0 && i < len(f.targets)-1 {
			f.throughColdPoint(exponent, f.targets[i].Outdoor)
		}
	}
}

// throughColdPoint tries every mild supply; the cold supply follows from the target that
// asks most of it.
func (f *fitter) throughColdPoint(exponent float64, outdoor units.Temperature) {
	s := f.shape
	kind := s.Kind
	c := Setting{Kind: kind, Exponent: exponent, Holds: s.Holds, Limit: s.Limit}
	c.Cold.Outdoor = s.ColdOutdoor.clamp(s.Step.Down(outdoor))
	c.Mild.Outdoor = s.MildOutdoor.clamp(s.Step.Up(f.mildest()))
	if c.Cold.Outdoor >= c.Mild.Outdoor {
		return
	}
	shares := make([]float64, len(f.targets))
	for i, t := range f.targets {
		shares[i] = c.share(t.Outdoor)
	}
	last := f.targets[len(f.targets)-1]
	from, to := s.Step.Up(s.MildSupply.From), s.Step.Down(s.MildSupply.To)
	for mild := from; mild <= to+slack; mild = mild.Add(s.Step.Difference()) {
		c.Mild.Supply = s.Step.Nearest(mild)
		// At the mild end the set supply is at least the mild supply: once that alone
		// costs more than the best found, every hotter one does.
		if over := float64(c.Mild.Supply - last.Ideal); over > 0 && last.Weight*over*over >= f.best {
			break
		}
		need := float64(max(s.ColdSupply.From, c.Mild.Supply))
		possible := true
		for i, t := range f.targets {
			least := float64(t.Least)
			if least <= float64(s.Limit.From)+slack {
				continue // the minimum supply already gives it
			}
			if shares[i] > 1e-9 {
				need = math.Max(need, float64(c.Mild.Supply)+(least-slack-float64(c.Mild.Supply))/shares[i])
			} else if float64(c.Mild.Supply) < least-slack {
				possible = false
			}
		}
		if !possible {
			continue
		}
		lowest := s.Step.Up(units.Temperature(need))
		// The lowest possible is not always the closest: a few steps more may follow
		// the ideal better where the bend differs.
		for k := range 6 {
			cold := s.Step.Nearest(lowest + units.Temperature(float64(k)*float64(s.Step.Difference())))
			if cold > s.ColdSupply.To+slack {
				break
			}
			c.Cold.Supply = cold
			// The shares hold the powers of the bend, which would cost most if taken anew.
			f.weigh(c, func(i int) units.Temperature {
				return s.Limit.clamp(c.Mild.Supply + units.Temperature(float64(cold-c.Mild.Supply)*shares[i]))
			})
		}
	}
}

// slopeShift tries every slope; the shift follows.
func (f *fitter) slopeShift() {
	s := f.shape
	for _, slope := range s.Slope.values(400) {
		need := s.Shift.From
		for _, t := range f.targets {
			if t.Least <= s.Limit.From+slack {
				continue
			}
			need = math.Max(need, float64(t.Least)-slack-float64(f.room)-slope*float64(f.room-t.Outdoor))
		}
		shift, ok := s.Shift.up(need)
		for k := 0; ok && k < 4; k++ {
			f.offer(Setting{Kind: SlopeShift, Slope: slope, Shift: units.Difference(shift), Room: f.room, Limit: s.Limit})
			shift, ok = s.Shift.up(shift + s.Shift.Step)
			if !(s.Shift.Step > 0) {
				break
			}
		}
	}
}

// table spreads the points over the outdoor range, lifts each until straight lines
// between them keep every target, then lowers what can be lowered.
func (f *fitter) table() {
	s := f.shape
	cold := s.ColdOutdoor.clamp(s.Step.Down(f.coldest()))
	mild := s.ColdOutdoor.clamp(s.Step.Up(f.mildest()))
	if cold >= mild {
		return
	}
	c := Setting{Kind: Table, Limit: s.Limit, Points: make([]Point, s.Points)}
	for i := range c.Points {
		share := float64(i) / float64(s.Points-1)
		to := s.Step.Nearest(cold + units.Temperature(share*float64(mild-cold)))
		c.Points[i] = Point{to, s.ColdSupply.clamp(s.Step.Up(f.idealAt(to)))}
	}
	for i := 1; i < len(c.Points); i++ {
		if c.Points[i].Outdoor <= c.Points[i-1].Outdoor {
			return // more points than steps between cold and mild
		}
	}
	one := units.Temperature(s.Step.Difference())
	for range 200 {
		short := f.shortest(c)
		if short < 0 {
			break
		}
		to := f.targets[short].Outdoor
		i := 1
		for i < len(c.Points)-1 && c.Points[i].Outdoor < to {
			i++
		}
		near, far := i, i-1
		if to-c.Points[i-1].Outdoor < c.Points[i].Outdoor-to {
			near, far = far, near
		}
		if c.Points[near].Supply+one > s.ColdSupply.To+slack {
			near = far
		}
		if c.Points[near].Supply+one > s.ColdSupply.To+slack {
			return
		}
		c.Points[near].Supply += one
	}
	f.offer(c.clone())
	for changed := true; changed; {
		changed = false
		for i := range c.Points {
			for _, d := range []units.Temperature{-one, one} {
				t := c.clone()
				t.Points[i].Supply = s.Step.Nearest(t.Points[i].Supply + d)
				if t.Points[i].Supply != s.ColdSupply.clamp(t.Points[i].Supply) {
					continue
				}
				before := f.best
				if f.offer(t); f.best < before {
					c, changed = t, true
				}
			}
		}
	}
}

func (s Setting) clone() Setting {
	s.Points = append([]Point(nil), s.Points...)
	return s
}

// shortest gives the first target that a setting leaves short, or -1.
func (f *fitter) shortest(c Setting) int {
	for i, t := range f.targets {
		if c.At(t.Outdoor) < t.Least-slack {
			return i
		}
	}
	return -1
}

// idealAt reads the ideal curve between its points.
func (f *fitter) idealAt(outdoor units.Temperature) units.Temperature {
	points := make([]Point, len(f.targets))
	for i, t := range f.targets {
		points[i] = Point{t.Outdoor, t.Ideal}
	}
	return alongPoints(points, outdoor)
}
