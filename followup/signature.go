package followup

// The energy signature: heat of a day against the cold of that day.

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"curvewright/units"
)

// Signature is the house as its days show it.
type Signature struct {
	Loss     Estimate[units.LossCoefficient] // towards outdoors
	Balance  Estimate[units.Temperature]     // outdoors, above which no heat is needed
	Base     Estimate[units.Power]           // that does not depend on the weather: hot water, standing losses
	Aperture Estimate[units.Area]            // that takes in the sun as measured
	Days     int
	CVRMSE   units.Fraction // of the days' heat
	NMBE     units.Fraction
	Points   []SignaturePoint
	Source   string // of the heat
	fit      Fit
}

// SignaturePoint is a day.
type SignaturePoint struct {
	At       int64
	Outdoor  units.Temperature
	Room     units.Temperature // 0 if none is logged
	Heat     units.Power
	Fitted   units.Power
	Residual units.Power
}

const (
	leastDays   = 10
	leastSpread = 3.0  // K of outdoor temperature between cold and mild days, else no slope can be told
	worstLoss   = 0.60 // half of the interval as a share: beyond that the data cannot tell
	flatDays    = 6    // mild days needed to see a base load
)

// signature fits the days.
//
//	Q = base + H·max(0, Ti − To − d) − A·S + C·dTi/dt
//
// Without a logged room Ti is taken as steady. d is where heating begins; it is looked
// for when there are days without heating need, otherwise base is taken as nothing and
// d comes from the intercept.
func signature(f *frame, roomGuess float64) Signature {
	s := Signature{Source: f.source.words}
	why := ""
	switch {
	case f.heat == nil:
		why = "these data cannot tell: no column gives heat or fuel"
	case f.out == nil:
		why = "these data cannot tell: no column gives the outdoor temperature"
	}
	rooms := false
	var use []day
	for _, d := range f.days {
		if !math.IsNaN(d.out) && !math.IsNaN(d.heat) {
			use = append(use, d)
			rooms = rooms || !math.IsNaN(d.room)
		}
	}
	if rooms { // days without a room say less than they blur
		kept := use[:0]
		for _, d := range use {
			if !math.IsNaN(d.room) {
				kept = append(kept, d)
			}
		}
		use = kept
	}
	s.Days = len(use)
	if why == "" && len(use) < leastDays {
		why = fmt.Sprintf("these data cannot tell: %d whole days with heat and weather; %d are needed", len(use), leastDays)
	}
	if why != "" {
		s.refuse(why)
		return s
	}
	t := newSignatureTable(use, rooms, roomGuess)
	if t.spread() < leastSpread {
		s.refuse(fmt.Sprintf("these data cannot tell: the days differ by only %.1f K outdoors", t.spread()))
		return s
	}
	s.estimate(t, f)
	return s
}

func (s *Signature) refuse(why string) {
	s.Loss, s.Balance, s.Base, s.Aperture = unknown[units.LossCoefficient](why), unknown[units.Temperature](why), unknown[units.Power](why), unknown[units.Area](why)
}

// signatureTable is the days as regressors.
type signatureTable struct {
	days         []day
	y, x         []float64 // heat; room less outdoors
	sun, rise    []float64
	swing        []float64
	room         float64 // mean
	hasSun, hasR bool
}

func newSignatureTable(days []day, rooms bool, roomGuess float64) *signatureTable {
	t := &signatureTable{days: days, hasSun: true, hasR: rooms}
	n := float64(len(days))
	for _, d := range days {
		room := roomGuess
		if rooms {
			room = d.room
		}
		t.room += room / n
		t.y = append(t.y, d.heat)
		t.x = append(t.x, room-d.out)
		t.sun = append(t.sun, d.sun)
		t.hasSun = t.hasSun && !math.IsNaN(d.sun)
		rise := d.rise / daily
		if math.IsNaN(rise) {
			rise = 0
		}
		t.rise = append(t.rise, rise)
		t.swing = append(t.swing, math.Sqrt(math.Max(0, d.swing)))
	}
	return t
}

func (t *signatureTable) spread() float64 {
	v := append([]float64{}, t.x...)
	median(v) // sorts
	return v[len(v)*9/10] - v[len(v)/10]
}

// fitAt fits with heating beginning at a difference d; −∞ means that all days heat. The
// warmth stored and the sun count on days that heat.
func (t *signatureTable) fitAt(d float64, sun, rise, swing bool) (Fit, error) {
	x := make([]float64, len(t.x))
	heats := make([]float64, len(t.x))
	for i, v := range t.x {
		if math.IsInf(d, -1) {
			x[i], heats[i] = v, 1
		} else if v > d {
			x[i], heats[i] = v-d, 1
		}
	}
	with := [][]float64{x}
	add := func(c []float64) {
		out := make([]float64, len(c))
		for i := range c {
			out[i] = c[i] * heats[i]
		}
		with = append(with, out)
	}
	if sun {
		add(t.sun)
	}
	if rise {
		add(t.rise)
	}
	if swing {
		add(t.swing)
	}
	return Regress(t.y, with, true)
}

// information is Akaike's, corrected for few readings: less is better.
func information(f Fit, extra int) float64 {
	n, k := float64(len(f.Residuals)), float64(len(f.Coefficients)+1+extra)
	if n-k-1 <= 0 {
		return math.Inf(1)
	}
	return -2*f.loglik + 2*k + 2*k*(k+1)/(n-k-1)
}

// estimate chooses the form and writes the figures.
func (s *Signature) estimate(t *signatureTable, f *frame) {
	enough := len(t.y) >= 14
	sun, rise := t.hasSun && enough, t.hasR && enough
	best, err := t.fitAt(math.Inf(-1), sun, rise, false)
	if err != nil {
		best, err = t.fitAt(math.Inf(-1), false, false, false)
		sun, rise = false, false
	}
	if err != nil {
		s.refuse("these data cannot tell: " + err.Error())
		return
	}
	swing := false
	if !sun && len(t.y) >= 18 {
		if with, err := t.fitAt(math.Inf(-1), false, rise, true); err == nil && information(with, 0) < information(best, 0)-4 {
			best, swing = with, true
		}
	}
	begins, low, high, base := t.begins(best, sun, rise, swing)
	at := math.Inf(-1)
	if base {
		at = begins
		best, _ = t.fitAt(begins, sun, rise, swing)
	}
	s.fit = best
	loss := best.Coefficients[1]
	l, h := best.Interval(1)
	// The scale of the meter is one more doubt, independent of the scatter.
	scale := distuv.UnitNormal.Quantile(0.5+confidence/2) * math.Hypot(f.source.doubt, unseen(sun, t.hasR)) * loss
	half := math.Hypot((h-l)/2, scale)
	s.CVRMSE, s.NMBE = units.Fraction(best.CVRMSE), units.Fraction(best.NMBE)
	how := fmt.Sprintf("%d days of heat from the %s", len(t.y), f.source.words)
	if !t.hasR {
		how += "; no room is logged, so it was taken as steady"
	}
	s.points(t, best)
	if !(loss > 0) || half > worstLoss*loss {
		s.refuse("these data cannot tell: the heat of the days hardly follows the cold")
		return
	}
	s.Loss = estimate[units.LossCoefficient](loss, loss-half, loss+half, how)
	s.balance(t, best, base, at, low, high, sun, swing)
	if base {
		l, h := best.Interval(0)
		s.Base = estimate[units.Power](best.Coefficients[0], l, h, "days on which nothing is heated")
	} else {
		s.Base = unknown[units.Power]("these data cannot tell: there are no days without heating")
	}
	s.Aperture = unknown[units.Area]("these data cannot tell: the sun is not logged")
	if sun {
		l, h := best.Interval(2)
		if h > 0 {
			s.Aperture = unknown[units.Area]("these data cannot tell: the heat of the days hardly follows the sun")
		} else {
			s.Aperture = estimate[units.Area](-best.Coefficients[2], -h, -l, "how much less was heated on sunny days")
		}
	}
}

// SignatureBand is the signature at one outdoor temperature, with the heat between which
// nine of ten days lie.
type SignatureBand struct {
	Outdoor         units.Temperature
	Heat, Low, High units.Power
}

// Band gives the signature as a line over the weather of its days, with the band in which
// nine of ten of them lie.
//
//	Q = base + H·max(0, balance − To); band: the 5th and the 95th of a hundred residuals
//
// Units: K and W.
// Range: a signature with loss and balance; else nothing.
// Source: EN 15603 Annex B for the line, from memory; the band is the days' own.
func (s Signature) Band() []SignatureBand {
	if !s.Loss.Known || !s.Balance.Known || len(s.Points) < leastDays {
		return nil
	}
	base := 0.0
	if s.Base.Known {
		base = float64(s.Base.Value)
	}
	line := func(out float64) float64 {
		return base + float64(s.Loss.Value)*math.Max(0, float64(s.Balance.Value)-out)
	}
	var off []float64
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range s.Points {
		out := float64(p.Outdoor)
		off = append(off, float64(p.Heat)-line(out))
		low, high = math.Min(low, out), math.Max(high, out)
	}
	slices.Sort(off)
	n := len(off) - 1
	below, above := off[int(0.05*float64(n)+0.5)], off[int(0.95*float64(n)+0.5)]
	at := []float64{low, high}
	if b := float64(s.Balance.Value); b > low && b < high {
		at = []float64{low, b, high}
	}
	var out []SignatureBand
	for _, t := range at {
		q := line(t)
		out = append(out, SignatureBand{units.Temperature(t), units.Power(q), units.Power(q + below), units.Power(q + above)})
	}
	return out
}

// unseen is the doubt, as a share of the loss, about what no column shows: sun that comes
// with cold days, people, rooms without a thermometer. Own choice; the houses of
// docs/followup.md bear it out.
func unseen(sun, rooms bool) float64 {
	d := 0.018
	if !sun {
		d = 0.045
	}
	if !rooms {
		d = math.Hypot(d, 0.04)
	}
	return d
}

// begins looks for the difference at which heating begins, by the least squares along a
// grid, and for its interval by the likelihood there.
func (t *signatureTable) begins(line Fit, sun, rise, swing bool) (best, low, high float64, found bool) {
	v := append([]float64{}, t.x...)
	median(v)
	least := math.Inf(1)
	type point struct{ d, sum float64 }
	var profile []point
	var chosen Fit
	for d := v[0]; d < v[len(v)-1]-leastSpread; d += 0.25 {
		f, err := t.fitAt(d, sun, rise, swing)
		if err != nil || f.Coefficients[1] <= 0 {
			continue
		}
		sum := robustSum(f)
		profile = append(profile, point{d, sum})
		if sum < least {
			least, best, chosen = sum, d, f
		}
	}
	if profile == nil {
		return 0, 0, 0, false
	}
	flat := 0
	for _, x := range t.x {
		if x <= best {
			flat++
		}
	}
	if flat < flatDays || information(chosen, 1) > information(line, 0)-4 {
		return 0, 0, 0, false
	}
	limit := least * (1 + distuv.F{D1: 1, D2: math.Max(3, chosen.Freedom)}.Quantile(confidence)/math.Max(3, chosen.Freedom))
	low, high = best, best
	for _, p := range profile {
		if p.sum <= limit {
			low, high = math.Min(low, p.d), math.Max(high, p.d)
		}
	}
	return best, low - 0.25, high + 0.25, true
}

// robustSum is the sum that Huber's rule makes least.
func robustSum(f Fit) float64 {
	s := 0.0
	for i, e := range f.Residuals {
		s += f.weights[i] * e * e
	}
	return s
}

// balance writes the outdoor temperature at which heating ends.
func (s *Signature) balance(t *signatureTable, f Fit, base bool, at, low, high float64, sun, swing bool) {
	if base {
		s.Balance = estimate[units.Temperature](t.room-at, t.room-high, t.room-low, "where the days' heat begins to rise")
		return
	}
	// The line's zero at the mean sun; its error is that of the line there.
	mean := 0.0
	switch {
	case sun:
		mean = f.Coefficients[2] * average(t.sun)
	case swing:
		mean = f.Coefficients[len(f.Coefficients)-1] * average(t.swing)
	}
	d := -(f.Coefficients[0] + mean) / f.Coefficients[1]
	err := math.Hypot(f.Errors[0], f.Errors[1]*d) / f.Coefficients[1] // without their covariance: too wide rather than too narrow
	half := quantileT(f.Freedom) * err
	if half > 6 {
		s.Balance = unknown[units.Temperature]("these data cannot tell: no mild days, and the line is too uncertain to be carried on to them")
		return
	}
	s.Balance = estimate[units.Temperature](t.room-d, t.room-d-half, t.room-d+half, "the days' line carried on to where no heat is needed; hot water in the heat makes it too high")
}

func average(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v / float64(len(x))
	}
	return s
}

func (s *Signature) points(t *signatureTable, f Fit) {
	for i, d := range t.days {
		p := SignaturePoint{At: d.at, Outdoor: units.Temperature(d.out), Heat: units.Power(d.heat), Residual: units.Power(f.Residuals[i]), Fitted: units.Power(d.heat - f.Residuals[i])}
		if !math.IsNaN(d.room) {
			p.Room = units.Temperature(d.room)
		}
		s.Points = append(s.Points, p)
	}
}
