package decide

// Does a recommendation hold if the house is not quite what the survey says?

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"

	"curvewright/units"
	"curvewright/year"
)

// Sure is how a candidate fared in houses that differ from the survey.
type Sure struct {
	Played  int
	Keeping int            // of them with comfort kept
	Share   units.Fraction // Keeping of Played; 0 if none was played
	Holds   bool           // in nine of ten
	Fails   []Failing      // rooms that were cold too long, most often first
	// Least and Most are the fuel of nine in ten houses.
	Least, Most units.Energy
}

// Failing is a room that is cold too long in some of the sampled houses.
type Failing struct {
	Room    string
	Houses  int
	Longest units.Time
}

// surest tries candidates in sampled houses, from the best one up the ladder, until one is
// sure: that is recommended. If none is, the best stays and the one that holds in most
// houses stands beside it. A limit of the heating output is fitted to the surveyed load and
// is lifted for all but the first.
func (s *search) surest(a *Answer, ladder []Candidate) {
	best := a.Best
	if s.o.Samples == 0 || s.err != nil || s.ctx.Err() != nil {
		return
	}
	list := []Candidate{best}
	for _, one := range ladder {
		if !one.Keeps {
			continue
		}
		one.Settings.HeatingLimit, one.Choice.FullOutput = 0, true
		list = append(list, one)
	}
	houses := s.sampled()
	s.budget = s.runs + len(houses)*(1+bits.Len(uint(len(list)-1)))
	// The higher, the surer: so the first that is sure lies between the last known not to be
	// and the first known to be.
	tried := make([]*Sure, len(list))
	try := func(i int) *Sure {
		if tried[i] == nil {
			got := s.tried(list[i], houses)
			tried[i] = &got
		}
		return tried[i]
	}
	if a.Sure = *try(0); a.Sure.Holds || a.Sure.Played < len(houses) {
		return
	}
	low, high := 0, len(list)
	for high-low > 1 {
		middle := (low + high) / 2
		if low == 0 && high == len(list) {
			middle = len(list) - 1 // is any sure at all?
		}
		got := try(middle)
		if got.Played < len(houses) { // stopped
			return
		}
		if got.Holds {
			high = middle
		} else {
			low = middle
		}
	}
	chosen := 0
	for i, got := range tried {
		if got != nil && got.Keeping > tried[chosen].Keeping {
			chosen = i
		}
	}
	if high < len(list) {
		chosen = high
	}
	if chosen == 0 {
		return
	}
	one := list[chosen]
	s.years(1, func(int) (year.House, year.Plant, year.Settings) { return s.c.House, s.c.Plant, one.Settings }, func(_ int, r year.Result) {
		judged := s.c.judge(r, s.comfort)
		judged.Settings, judged.Choice = one.Settings, one.Choice
		one = judged
	})
	if high < len(list) {
		a.Best, a.Sure = one, *tried[chosen]
		return
	}
	a.Surer, a.SurerIn = &one, *tried[chosen]
}

// tried plays a candidate in all houses.
func (s *search) tried(one Candidate, houses []sampledHouse) Sure {
	var out Sure
	rooms := map[string]*Failing{}
	var fuels []units.Energy
	s.years(len(houses), func(i int) (year.House, year.Plant, year.Settings) {
		return houses[i].house, houses[i].plant, one.Settings
	}, func(_ int, r year.Result) {
		out.Played++
		fuels = append(fuels, r.Fuel)
		if s.c.judge(r, s.comfort).Keeps {
			out.Keeping++
			return
		}
		for _, room := range r.Rooms {
			if room.Below <= s.comfort.Hours {
				continue
			}
			f := rooms[room.Name]
			if f == nil {
				f = &Failing{Room: room.Name}
				rooms[room.Name] = f
			}
			f.Houses++
			f.Longest = max(f.Longest, room.Below)
		}
	})
	if out.Played == 0 {
		return out
	}
	out.Share = units.Fraction(out.Keeping) / units.Fraction(out.Played)
	out.Holds = out.Share >= sure
	slices.Sort(fuels)
	out.Least, out.Most = fuels[len(fuels)/20], fuels[len(fuels)-1-len(fuels)/20]
	for _, room := range s.c.House.Rooms {
		if f := rooms[room.Name]; f != nil {
			out.Fails = append(out.Fails, *f)
		}
	}
	slices.SortStableFunc(out.Fails, func(a, b Failing) int { return b.Houses - a.Houses })
	return out
}

// sampledHouse is the house as it may be.
type sampledHouse struct {
	house year.House
	plant year.Plant
}

// sampled makes the houses: a Latin hypercube over the doubts of the survey, each a factor
// e^(σ·z) with z normal.
func (s *search) sampled() []sampledHouse {
	d, n := s.c.Plan.Site.Doubts, s.o.Samples
	random := rand.New(rand.NewPCG(s.o.Seed, 5))
	column := func(doubt units.Fraction) []float64 {
		out := make([]float64, n)
		for i, k := range random.Perm(n) {
			out[i] = math.Exp(float64(doubt) * normal((float64(k)+0.5)/float64(n)))
		}
		return out
	}
	of := func(list []units.Fraction, i int) []float64 {
		if i < len(list) {
			return column(list[i])
		}
		return column(0)
	}
	house, gains := column(d.House), column(gainsDoubt)
	var rooms, emitters, flows [][]float64
	for i := range s.c.House.Rooms {
		rooms = append(rooms, of(d.Rooms, i))
	}
	for i := range s.c.Plant.Circuits {
		emitters, flows = append(emitters, of(d.Emitters, i)), append(flows, of(d.Flows, i))
	}
	out := make([]sampledHouse, n)
	for i := range out {
		out[i] = s.vary(house[i], gains[i], func(room int) float64 { return rooms[room][i] }, func(c int) (float64, float64) { return emitters[c][i], flows[c][i] })
	}
	return out
}

// gainsDoubt is how far the heat of people and appliances may be off (common practice).
const gainsDoubt = units.Fraction(0.3)

// vary makes one house.
func (s *search) vary(house, gains float64, room func(int) float64, circuit func(int) (emitter, flow float64)) sampledHouse {
	h, p := s.c.House, s.c.Plant
	h.Rooms, p.Circuits = slices.Clone(h.Rooms), slices.Clone(p.Circuits)
	for i := range h.Rooms {
		r, f := &h.Rooms[i], units.Fraction(house*room(i))
		r.Loss = r.Loss.Scale(f)
		r.Fabric = slices.Clone(r.Fabric)
		for k := range r.Fabric {
			r.Fabric[k].Loss = r.Fabric[k].Loss.Scale(f)
		}
		for k := range r.Gains {
			r.Gains[k] *= units.Power(gains)
		}
	}
	for i := range p.Circuits {
		c := &p.Circuits[i]
		emitter, flow := circuit(i)
		c.Radiators, c.Slabs = slices.Clone(c.Radiators), slices.Clone(c.Slabs)
		for k := range c.Radiators {
			c.Radiators[k].Law.Coefficient *= emitter
			c.Radiators[k].Flow *= units.LossCoefficient(flow)
		}
		for k := range c.Slabs {
			c.Slabs[k].Up *= units.LossCoefficient(emitter)
			c.Slabs[k].Flow *= units.LossCoefficient(flow)
		}
	}
	return sampledHouse{h, p}
}

// normal is the value below which a share of a normal spread lies.
func normal(share float64) float64 { return math.Sqrt2 * math.Erfinv(2*share-1) }
