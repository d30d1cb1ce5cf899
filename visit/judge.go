package visit

import (
	"cmp"
	"math"
	"slices"

	"curvewright/units"
)

// Does the house read as it should, and what is likeliest wrong if it does not?

// Measured is one reading taken.
type Measured struct {
	Reading
	Value    float64 // SI: K, W/W, s, m³/s, kg/s, Pa
	Accuracy float64 // of the instrument, the same unit; 0 for the usual one
}

// Verdict is what a reading is.
type Verdict string

// The verdicts: within two standard errors, within three, beyond.
const (
	Right    Verdict = "right"
	Doubtful Verdict = "doubtful"
	Wrong    Verdict = "wrong"
)

// Judgement is what the readings come to.
type Judgement struct {
	Readings []Judged
	Sound    bool    // no fault is three times as likely as none
	Causes   []Cause // likeliest first, with [Nothing] among them
	Next     *Next   // nil if nothing more can be read
	Cautions []string
}

// Judged is a reading beside what was expected of it.
type Judged struct {
	Reading
	Measured  units.Quantity
	Expected  units.Quantity // nil if this state has no such reading
	Tolerance units.Quantity
	Off       units.Quantity // measured less expected
	Deviation units.Number   // in standard errors
	Verdict   Verdict
	Caution   string
}

// Cause is one thing that may be wrong.
type Cause struct {
	Fault    Fault
	Circuit  string
	Room     string
	Share    units.Fraction // of the belief, over all causes
	Size     string         // the figure that explains best, in words; empty where there is none
	Says     string         // a sentence
	Remedy   string
	Order    int // of repair, 1 first
	Explains []Explained

	values []float64
}

// Explained is a reading under a cause, with the doubtful figures of the survey moved as
// all readings together ask.
type Explained struct {
	Reading
	Measured  units.Quantity
	Predicted units.Quantity // nil if under this cause there would be no such reading
	Deviation units.Number   // what is left of the deviation, in the reading's own standard errors
}

// Next is what to read next.
type Next struct {
	Reading
	First, Second string         // the two likeliest causes
	IfFirst       units.Quantity // what it reads then; nil for no reading at all
	IfSecond      units.Quantity
	Apart         units.Number // in standard errors
}

// StopLicensed stands wherever a gas or flue reading is off: no arithmetic replaces it.
const StopLicensed = "Stop: leave the burner as it is, or shut it off if in doubt. Gas rate and combustion are for a licensed person with a calibrated analyser, by the maker's instructions."

const (
	rightTo    = 2.0
	doubtfulTo = 3.0
	// missed is what a reading counts that a cause does not have at all, in standard errors.
	missed = 5.0
)

// Judge holds readings against what is expected, and ranks what may be wrong.
//
// Each fault is played through the plant with its figure free; it is as likely as all
// readings together make it:
//
//	p = prior · mean over the free figure of e^(−½·rᵀS⁻¹r)/√|S|; r = measured − predicted
//	S = Σ of what each doubtful figure of the survey moves, squared, + plant² + instrument²
//
// The mean makes a fault pay for a figure that had to be chosen. A reading is right within
// two standard errors of what a sound plant shows, doubtful within three.
//
// Units: readings in SI; values typed.
// Range: as [House.Expect]; at least one reading; faults one at a time.
// Source: Bayes' rule with normal errors, faults weighed by their evidence; weights before
// anything is read: common practice.
// Errors: as [House.Expect]; a reading that the house does not have, or that is no number.
func (h *House) Judge(c Conditions, readings []Measured) (Judgement, error) {
	s, err := h.prepare(c)
	if err != nil {
		return Judgement{}, err
	}
	e, err := h.evidence(&s, h.withMeanFire(readings))
	if err != nil {
		return Judgement{}, err
	}
	j := Judgement{Readings: h.judged(e)}
	j.Causes = h.rank(&s, e)
	j.Sound = j.sound()
	j.Next = h.next(e, j.Causes)
	for _, r := range j.Readings {
		if r.Caution != "" && !slices.Contains(j.Cautions, r.Caution) {
			j.Cautions = append(j.Cautions, r.Caution)
		}
	}
	return j, nil
}

// oddsToCall is by how much a fault must outweigh a sound plant before it is called: nobody
// takes a plant apart on an even bet (common practice).
const oddsToCall = 3

func (j *Judgement) sound() bool {
	for _, c := range j.Causes {
		if c.Fault == Nothing {
			return oddsToCall*c.Share >= j.Causes[0].Share
		}
	}
	return false
}

// Again tells what to measure again where readings are off though no fault is called: the
// gravest verdict of all readings, and those that have it. What is reckoned from others
// stands by these.
//
// Range: a judgement of [House.Judge]; none where every reading is right.
// Source: verdicts of the judgement.
func (j Judgement) Again() (Verdict, []Reading) {
	gravest := Right
	for _, r := range j.Readings {
		if r.Verdict == Wrong || r.Verdict == Doubtful && gravest == Right {
			gravest = r.Verdict
		}
	}
	if gravest == Right {
		return Right, nil
	}
	var list []Reading
	add := func(r Reading) {
		if !slices.Contains(list, r) {
			list = append(list, r)
		}
	}
	for _, r := range j.Readings {
		switch {
		case r.Verdict != gravest:
		case r.Measure == MeanFire:
			add(Reading{Measure: BurnerRun})
			add(Reading{Measure: BurnerPause})
		default:
			add(r.Reading)
		}
	}
	return gravest, list
}

// withMeanFire adds what run and pause of the burner say together, at the rate that was
// read, or at its least where none was. Each alone hangs on how much water and metal swing,
// and ceases where the burner begins to run through; their proportion does not.
func (h *House) withMeanFire(readings []Measured) []Measured {
	run, pause, rate := -1.0, -1.0, h.plant.least/h.plant.rated
	for _, m := range readings {
		switch m.Measure {
		case BurnerRun:
			run = m.Value
		case BurnerPause:
			pause = m.Value
		case FiringRate:
			if m.Value > 0 { // none is shown while it rests
				rate = m.Value
			}
		case MeanFire:
			return readings
		}
	}
	if !(run > 0 && pause >= 0) {
		return readings
	}
	return append(slices.Clone(readings), Measured{Reading: Reading{Measure: MeanFire}, Value: rate * run / (run + pause)})
}

// counts tells whether a reading weighs causes.
func (r *reading) counts() bool { return r.Measure != BurnerRun && r.Measure != BurnerPause }

func (h *House) judged(e *evidence) []Judged {
	var out []Judged
	for a, i := range e.index {
		r := &h.readings[i]
		j := Judged{Reading: r.Reading, Measured: r.kind.quantity(e.measured[a]), Tolerance: r.kind.width(rightTo * e.errors[i]), Verdict: Wrong, Deviation: missed}
		if v := e.sound[i]; !math.IsNaN(v) {
			off := e.measured[a] - v
			j.Expected, j.Off, j.Deviation = r.kind.quantity(v), r.kind.width(off), units.Number(off/e.errors[i])
			switch z := math.Abs(float64(j.Deviation)); {
			case z <= rightTo:
				j.Verdict = Right
			case z <= doubtfulTo:
				j.Verdict = Doubtful
			}
		} else if r.Measure == BurnerRun || r.Measure == BurnerPause {
			j.Verdict = Doubtful // near where it begins to run through; the mean fire decides
		}
		if j.Verdict != Right && (r.Measure == MeterTime || r.Measure == FlueGas || r.Measure == Condensate) {
			j.Caution = StopLicensed
		}
		out = append(out, j)
	}
	return out
}

// weighedTwice is how many of the likeliest causes are weighed again with the doubts as
// they are under the cause itself: what moves nothing in a sound plant may move much in a
// faulty one.
const weighedTwice = 8

// rank weighs all causes.
func (h *House) rank(s *state, e *evidence) []Cause {
	list := h.causes(s)
	fitting := *s
	whole, s := s, &fitting
	s.unheard = !slices.ContainsFunc(e.index, func(i int) bool { return !h.readings[i].counts() || h.readings[i].Measure == MeanFire })
	fits := make([]fitted, len(list))
	order := make([]int, len(list))
	for i := range list {
		fits[i], order[i] = h.fit(s, &list[i], e, &e.base), i
		fits[i].evidence += math.Log(list[i].prior)
	}
	likeliest := func(a, b int) int { return cmp.Compare(fits[b].evidence, fits[a].evidence) }
	slices.SortStableFunc(order, likeliest)
	for _, i := range order[:min(weighedTwice, len(order))] {
		if list[i].fault == Nothing {
			continue
		}
		d := h.plant.asDrawn()
		list[i].apply(&d, fits[i].x)
		by := e.scale(h.errorsOf(s, e, &d, fits[i].values))
		fits[i] = h.fit(s, &list[i], e, &by)
		fits[i].evidence += math.Log(list[i].prior)
	}
	slices.SortStableFunc(order, likeliest)
	total := 0.0
	for i := range fits {
		total += math.Exp(fits[i].evidence - fits[order[0]].evidence)
	}
	out := make([]Cause, len(list))
	for k, i := range order {
		if k < 2 && s.unheard { // between these the next reading decides
			d := h.plant.asDrawn()
			list[i].apply(&d, fits[i].x)
			fits[i].values = h.predict(whole, &d)
		}
		out[k] = h.tell(&list[i], fits[i].x, fits[i].values)
		out[k].Explains = h.explained(e, &fits[i])
		out[k].Share = units.Fraction(math.Exp(fits[i].evidence-fits[order[0]].evidence) / total)
	}
	return out
}

const (
	gridPoints = 12
	narrowings = 4
	narrowTo   = 0.35
)

// fitted is a cause with the figure that explains best.
type fitted struct {
	x, misfit float64
	values    []float64
	evidence  float64 // ln of the mean likelihood over the figure's ranges
	by        *scale
}

// fit finds the figure with which a cause explains the readings best: a grid over its
// ranges, narrowed about the best. The evidence is the likelihood averaged over the
// ranges: a figure that must be just so counts for less than one that follows from the
// fault itself.
func (h *House) fit(s *state, c *cause, e *evidence, by *scale) fitted {
	best := fitted{misfit: math.Inf(1), by: by}
	try := func(at float64) float64 {
		d := h.plant.asDrawn()
		c.apply(&d, at)
		v := h.predict(s, &d)
		m := e.misfit(v, by)
		if m < best.misfit || best.values == nil {
			best.x, best.misfit, best.values = at, m, v
		}
		return m
	}
	if len(c.ranges) == 0 {
		best.evidence = -(try(0) + by.logDet) / 2
		return best
	}
	tried := make([][][2]float64, len(c.ranges)) // figure and misfit
	for k, r := range c.ranges {
		for n := range gridPoints + 1 {
			x := r[0] + (r[1]-r[0])*float64(n)/gridPoints
			tried[k] = append(tried[k], [2]float64{x, try(x)})
			if r[0] == r[1] {
				break
			}
		}
	}
	for k, r := range c.ranges {
		if best.x < r[0] || best.x > r[1] || r[0] == r[1] {
			continue
		}
		step := (r[1] - r[0]) / gridPoints
		for range narrowings {
			middle := best.x
			for _, by := range []float64{-0.67, -0.33, 0.33, 0.67} {
				if x := middle + by*step; x > r[0] && x < r[1] {
					tried[k] = append(tried[k], [2]float64{x, try(x)})
				}
			}
			step *= narrowTo
		}
	}
	best.evidence = math.Log(meanLikelihood(tried, best.misfit)) - (best.misfit+by.logDet)/2
	return best
}

// meanLikelihood averages the likelihood over the ranges by trapezoids, against the best.
func meanLikelihood(tried [][][2]float64, least float64) float64 {
	sum, width, points := 0.0, 0.0, 0.0
	for _, t := range tried {
		slices.SortFunc(t, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		likelihood := func(k int) float64 { return math.Exp((least - t[k][1]) / 2) }
		if len(t) == 1 {
			points += likelihood(0)
			continue
		}
		for k := 1; k < len(t); k++ {
			sum += (t[k][0] - t[k-1][0]) * (likelihood(k) + likelihood(k-1)) / 2
		}
		width += t[len(t)-1][0] - t[0][0]
	}
	if width == 0 {
		return points / float64(len(tried))
	}
	return math.Max(sum/width, 1e-300)
}

func (h *House) explained(e *evidence, f *fitted) []Explained {
	left := e.left(f.values, f.by)
	var out []Explained
	for a, i := range e.index {
		r := &h.readings[i]
		x := Explained{Reading: r.Reading, Measured: r.kind.quantity(e.measured[a])}
		v := f.values[i]
		switch {
		case math.IsNaN(v):
			x.Deviation = missed
		case !e.counts[a]:
			x.Predicted, x.Deviation = r.kind.quantity(v), units.Number((e.measured[a]-v)/e.errors[i])
		default:
			x.Predicted = r.kind.quantity(e.measured[a] - left[a]*f.by.own[a]*e.errors[i])
			x.Deviation = units.Number(left[a])
		}
		out = append(out, x)
	}
	return out
}

// next finds the reading not yet taken that tells the two likeliest causes apart best.
func (h *House) next(e *evidence, causes []Cause) *Next {
	if len(causes) < 2 {
		return nil
	}
	a, b := &causes[0], &causes[1]
	var best *Next
	for i := range h.readings {
		va, vb := a.values[i], b.values[i]
		if e.taken[i] || h.readings[i].Measure == MeanFire || math.IsNaN(va) && math.IsNaN(vb) {
			continue
		}
		apart := math.Abs(va-vb) / e.errors[i]
		if math.IsNaN(apart) {
			apart = missed
		}
		if best != nil && apart <= float64(best.Apart) {
			continue
		}
		r := &h.readings[i]
		best = &Next{Reading: r.Reading, First: a.name(), Second: b.name(), Apart: units.Number(apart)}
		if !math.IsNaN(va) {
			best.IfFirst = r.kind.quantity(va)
		}
		if !math.IsNaN(vb) {
			best.IfSecond = r.kind.quantity(vb)
		}
	}
	if best != nil && best.Apart < 1 {
		return nil // nothing that can still be read tells them apart
	}
	return best
}
