package decide

// How are the settings found?

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"curvewright/units"
	"curvewright/year"
)

// Answer is what came of a search.
type Answer struct {
	Sheet    Candidate   // as the search began
	Least    Candidate   // least fuel that keeps comfort in the surveyed house
	Best     Candidate   // least fuel that keeps comfort, sure in sampled houses if possible
	Front    []Candidate // least fuel first; each costs more and is less cold than the one ahead
	Sure     Sure        // of Best
	Surer    *Candidate  // where Best is not sure and nothing is, what holds in more houses; may be nil
	SurerIn  Sure        // of Surer
	Slabs    []Slab      // one for each heated floor
	Runs     int         // years played
	Complete bool        // false if it was stopped before its end
	Comfort  Comfort     // that was asked for
}

// Slab says what lowering a heated floor for the night would come to.
type Slab struct {
	Circuit string
	Saved   units.Fraction // of the fuel; below 0 if it costs
	Colder  units.Time     // more hours that the coldest room is cold
	Hold    bool           // not worth it: held day and night
}

// worthLowering is what lowering a floor must save to be worth it (own choice).
const worthLowering = units.Fraction(0.01)

// Search finds the settings that take the least fuel and keep everybody warm, within what
// the control can hold.
//
// From the sheet on it turns one figure after the other through all its steps and keeps the
// best, until none is better or the runs are used up. Around what it found it plays all
// curves together a little higher and lower. The recommendation is then raised as far as it
// must be to keep comfort in nine of ten sampled houses.
//
// A context that ends stops the search within a day of the years that are being played;
// what is known by then is the answer, with Complete false.
//
// Units: as the types.
// Range: as package year.
// Source: own method; coordinate search, dominance by Pareto. A start of the burner counts
// as 0.02 kWh.
// Errors: as year.Run, for the settings of the sheet; figures outside their range.
func Search(ctx context.Context, c Case, o Options) (Answer, error) {
	if err := c.check(o); err != nil {
		return Answer{}, err
	}
	s := newSearch(ctx, c, o)
	k, at := newKnobs(c)
	s.knobs = k
	first := s.play([]turned{at})
	if s.err != nil {
		return Answer{}, s.err
	}
	if first[0] == nil {
		return Answer{Comfort: s.comfort}, nil
	}
	a := Answer{Sheet: *first[0], Comfort: s.comfort}
	at, best := s.descend(at, first[0])
	s.play(k.around(at))
	a.Slabs = s.slabs(at, best)
	a.Front = s.front()
	a.Least, a.Best = *best, *best
	s.surest(&a, s.ladder(at))
	a.Runs, a.Complete = s.runs, ctx.Err() == nil
	return a, s.err
}

// search is a search on its way.
type search struct {
	ctx     context.Context
	c       Case
	o       Options
	comfort Comfort
	knobs   *knobs
	workers int
	played  map[string]*Candidate
	order   []*Candidate
	stands  []turned // of order
	runs    int
	budget  int // years of the whole search, for the progress
	err     error
}

func newSearch(ctx context.Context, c Case, o Options) *search {
	s := &search{ctx: ctx, c: c, o: o, comfort: o.Comfort, workers: o.Workers, played: map[string]*Candidate{}}
	if s.comfort.Band == 0 {
		s.comfort.Band = usualBand
	}
	if s.comfort.Hours == 0 {
		s.comfort.Hours = units.Time(usualShare * 3600 * float64(len(c.Weather.Outdoor)))
	}
	if s.workers == 0 {
		s.workers = runtime.GOMAXPROCS(0)
	}
	if s.o.Runs == 0 {
		s.o.Runs = usualRuns
	}
	if s.o.Samples == 0 {
		s.o.Samples = usualSamples
	}
	s.o.Samples = max(0, s.o.Samples)
	s.budget = s.o.Runs + s.o.Samples
	return s
}

// years plays n years side by side and hands each result to take, in the order of their
// numbers. A year that was stopped is not handed over.
func (s *search) years(n int, what func(i int) (year.House, year.Plant, year.Settings), take func(i int, r year.Result)) {
	results, errs := make([]year.Result, n), make([]error, n)
	next := make(chan int)
	var wait sync.WaitGroup
	var telling sync.Mutex
	for range min(s.workers, n) {
		wait.Go(func() {
			for i := range next {
				h, p, set := what(i)
				r, err := year.Compare(h, p, []year.Settings{set}, s.c.Weather, year.Options{Band: s.comfort.Band, Wanted: s.c.Wanted}, 1, nil, func() bool { return s.ctx.Err() != nil })
				if errs[i] = err; err == nil {
					results[i] = r[0]
				}
				telling.Lock()
				s.runs++
				if s.o.Progress != nil {
					s.o.Progress(s.runs, max(s.runs, s.budget))
				}
				telling.Unlock()
			}
		})
	}
	for i := range n {
		if s.ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wait.Wait()
	for i := range n {
		if errs[i] != nil && s.err == nil {
			s.err = errs[i]
		}
		if errs[i] == nil && results[i].Time > 0 {
			take(i, results[i])
		}
	}
}

// play plays what was not played yet, as far as the runs last, and gives the candidates;
// nil for one that was not played.
func (s *search) play(stands []turned) []*Candidate {
	out := make([]*Candidate, len(stands))
	keys := make([]string, len(stands))
	type job struct {
		key    string
		stand  turned
		set    year.Settings
		choice Choice
	}
	var jobs []job
	queued := map[string]bool{}
	for i, t := range stands {
		set, choice := s.knobs.settings(t)
		keys[i] = fmt.Sprint(choice)
		if s.played[keys[i]] != nil || queued[keys[i]] || s.runs+len(jobs) >= s.o.Runs {
			continue
		}
		queued[keys[i]] = true
		jobs = append(jobs, job{keys[i], t, set, choice})
	}
	s.years(len(jobs), func(i int) (year.House, year.Plant, year.Settings) { return s.c.House, s.c.Plant, jobs[i].set }, func(i int, r year.Result) {
		one := s.c.judge(r, s.comfort)
		one.Settings, one.Choice = jobs[i].set, jobs[i].choice
		s.played[jobs[i].key] = &one
		s.order, s.stands = append(s.order, &one), append(s.stands, jobs[i].stand)
	})
	for i, key := range keys {
		out[i] = s.played[key]
	}
	return out
}

// descend turns one knob after the other until none makes it better.
func (s *search) descend(at turned, best *Candidate) (turned, *Candidate) {
	for better := true; better && s.err == nil; {
		better = false
		for n := range s.knobs.axes(at) {
			list := s.knobs.axes(at) // anew: an earlier one may have moved
			if n >= len(list) {
				break
			}
			for i, one := range s.play(list[n]) {
				if one != nil && one.better(*best) {
					at, best, better = list[n][i], one, true
				}
			}
		}
	}
	return at, best
}

// ladder is the recommendation with all curves raised step by step as far as they go, and
// at last without lowering.
func (s *search) ladder(at turned) []Candidate {
	var stands []turned
	one := at.copy()
	for moved := true; moved; {
		stands = append(stands, one.copy())
		moved = false
		for i := range one.levels {
			if one.levels[i] < len(s.knobs.curves[i])-1 {
				one.levels[i]++
				moved = true
			}
		}
	}
	for i := range one.lowered {
		one.lowered[i] = false
	}
	s.o.Runs += len(stands) + 1 // these are worth a run beyond the search's own
	var out []Candidate
	for _, c := range s.play(append(stands, one)) {
		if c != nil {
			out = append(out, *c)
		}
	}
	return out
}

// front is what nothing else beats in both fuel and cold, least fuel first, as far as it
// is less cold by a tenth than the one ahead.
func (s *search) front() []Candidate {
	all := slices.Clone(s.order)
	slices.SortStableFunc(all, func(a, b *Candidate) int {
		return cmp.Or(cmp.Compare(a.Fuel, b.Fuel), cmp.Compare(a.Cold, b.Cold))
	})
	var out []Candidate
	for _, one := range all {
		if len(out) == 0 || one.Cold < out[len(out)-1].Cold*leastGain {
			out = append(out, *one)
		}
	}
	return out
}

// slabs tells for each heated floor what lowering it would come to.
func (s *search) slabs(at turned, best *Candidate) []Slab {
	var out []Slab
	if s.knobs.lowers == nil {
		return nil
	}
	for i, c := range s.c.Plan.Circuits {
		if !c.Floor {
			continue
		}
		held, low := at.copy(), at.copy()
		held.lowered[i], low.lowered[i] = false, true
		if !slices.Contains(at.lowered, true) {
			low.lower, low.preheat = len(s.knobs.lowers)-1, len(s.knobs.preheats)-1
		}
		s.o.Runs += 2 // these are worth a run beyond the search's own
		r := s.play([]turned{held, low})
		if r[0] == nil || r[1] == nil {
			continue
		}
		one := Slab{Circuit: c.Name, Saved: units.Fraction(1 - r[1].Fuel/r[0].Fuel), Colder: r[1].ColdFor - r[0].ColdFor}
		one.Hold = one.Saved < worthLowering || !r[1].Keeps && r[0].Keeps
		out = append(out, one)
	}
	return out
}
