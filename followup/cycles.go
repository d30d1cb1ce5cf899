package followup

// The burner's runs, the water it gets back, and what hot water takes from the house.

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"curvewright/units"
)

// Cycles is how the burner runs.
type Cycles struct {
	StartsPerDay Estimate[units.Number]
	MedianRun    Estimate[units.Time]
	ShortRuns    Estimate[units.Fraction] // of the runs: under five minutes
	BurningCold  Estimate[units.Fraction] // share of the time on the coldest days
	Condensing   Estimate[units.Fraction] // of the burning time, by the return
	DewPoint     units.Temperature
	Runs         int
	starts       []int64
	lengths      []float64
}

// HotWater is what the tank's charges do to the house.
type HotWater struct {
	Charges Estimate[units.Number] // a day
	Lasts   Estimate[units.Time]   // in the middle
	Longest units.Time
	Drop    Estimate[units.Difference] // of the rooms during a charge of more than 20 min
	events  []charge
}

type charge struct {
	from, to int64
	drop     float64
}

const (
	shortRun    = 300.0
	burning     = 0.02   // of the burner's position
	sensorTrust = 1.0    // K, of a thermometer on a pipe
	tankRises   = 1.5    // K in a quarter of an hour: a charge
	chargeGap   = 900.0  // s between two stretches of one charge
	tankNoise   = 0.35   // K by which a sensor may waver at one temperature
	longCharge  = 1200.0 // s
)

// byDay is the mean of daily figures with its interval.
func byDay(values []float64) (mean, half float64) {
	mean = average(values)
	if len(values) < 3 {
		return mean, math.Inf(1)
	}
	sum := 0.0
	for _, v := range values {
		sum += (v - mean) * (v - mean)
	}
	n := float64(len(values))
	rho := math.Min(0.8, math.Max(0, lagged(values)))
	widen := (1 + rho) / (1 - rho)
	return mean, quantileT(n/widen-1) * math.Sqrt(sum/(n-1)/n*widen)
}

// readCycles counts starts and runs.
func readCycles(f *frame, dew units.Temperature) Cycles {
	c := Cycles{DewPoint: dew}
	why := ""
	switch {
	case f.burner == nil:
		why = "these data cannot tell: no column says when the burner is on"
	case f.rowStep > 900:
		why = fmt.Sprintf("these data cannot tell: a row every %.0f min is too seldom for runs of the burner", f.rowStep/60)
	}
	if why != "" {
		c.StartsPerDay, c.MedianRun, c.ShortRuns, c.BurningCold, c.Condensing = unknown[units.Number](why), unknown[units.Time](why), unknown[units.Fraction](why), unknown[units.Fraction](why), unknown[units.Fraction](why)
		return c
	}
	c.count(f)
	c.burningCold(f)
	c.condensing(f)
	return c
}

func (c *Cycles) count(f *frame) {
	on, began := false, int64(0)
	single, changes, changed := 0.0, 0.0, int64(0) // states that lasted for one row only
	covered := map[int64]float64{}
	starts := map[int64]float64{}
	for i, b := range f.burner {
		at := f.l.Stamps[i]
		if math.IsNaN(b) || i > 0 && float64(at-f.l.Stamps[i-1]) > 5*f.rowStep {
			on, began = false, 0 // what happened meanwhile is not known
			if math.IsNaN(b) {
				continue
			}
			on = b > burning
			continue
		}
		covered[at/daily] += f.rowStep
		if b > burning != on {
			if changes++; changed > 0 && float64(at-changed) < 1.5*f.rowStep {
				single++
			}
			changed = at
		}
		switch {
		case b > burning && !on:
			on, began = true, at
			starts[at/daily]++
			c.starts = append(c.starts, at)
		case b <= burning && on:
			on = false
			if began > 0 {
				c.lengths = append(c.lengths, float64(at-began))
			}
		}
	}
	c.Runs = len(c.lengths)
	var perDay []float64
	for _, d := range slices.Sorted(maps.Keys(covered)) {
		if s := covered[d]; s > 0.8*daily {
			perDay = append(perDay, starts[d]*daily/s)
		}
	}
	how := fmt.Sprintf("%d runs", c.Runs)
	if f.rowStep > 120 {
		how += fmt.Sprintf("; a row every %.0f min misses the shortest", f.rowStep/60)
	}
	if len(perDay) < 3 {
		c.StartsPerDay = unknown[units.Number]("these data cannot tell: fewer than three whole days")
	} else {
		mean, half := byDay(perDay)
		// Where many runs or pauses lasted for one row, as many again fell between two.
		missed := 0.0
		if f.rowStep > 60 {
			missed = mean * single / math.Max(1, changes)
		}
		c.StartsPerDay = estimate[units.Number](mean+missed/2, math.Max(0, mean-half), mean+half+missed, how)
	}
	if c.Runs < 10 {
		why := fmt.Sprintf("these data cannot tell: %d whole runs of the burner", c.Runs)
		c.MedianRun, c.ShortRuns = unknown[units.Time](why), unknown[units.Fraction](why)
		return
	}
	sorted := slices.Sorted(slices.Values(c.lengths))
	n := float64(len(sorted))
	// The interval of a median by the order of the values (binomial, normal form).
	reach := 1.645 * math.Sqrt(n) / 2
	at := func(k float64) float64 { return sorted[int(math.Max(0, math.Min(n-1, k)))] }
	c.MedianRun = estimate[units.Time](at(n/2), at(n/2-reach)-f.rowStep/2, at(n/2+reach)+f.rowStep/2, how)
	if 2*f.rowStep > shortRun {
		c.ShortRuns = unknown[units.Fraction](fmt.Sprintf("these data cannot tell: a row every %.0f min is too seldom for runs under 5 min", f.rowStep/60))
		return
	}
	short := 0.0
	for _, l := range sorted {
		if l < shortRun {
			short++
		}
	}
	p := short / n
	half := 1.645*math.Sqrt(p*(1-p)/n) + 1/n
	c.ShortRuns = estimate[units.Fraction](p, math.Max(0, p-half), math.Min(1, p+half), how)
}

// burningCold is the share of the time with the fire on, on the coldest tenth of the
// days, three at least.
func (c *Cycles) burningCold(f *frame) {
	c.BurningCold = unknown[units.Fraction]("these data cannot tell: no cold days with weather")
	days := slices.Clone(f.days)
	days = slices.DeleteFunc(days, func(d day) bool { return math.IsNaN(d.out) })
	if len(days) < 10 {
		return
	}
	slices.SortFunc(days, func(a, b day) int {
		if a.out < b.out {
			return -1
		}
		return 1
	})
	var shares []float64
	for _, d := range days[:max(3, len(days)/10)] {
		k := int((d.at - f.hours.begin) / hour)
		if m := dayMean(f.hours.on, k); !math.IsNaN(m) {
			shares = append(shares, m)
		}
	}
	if len(shares) < 3 {
		return
	}
	mean, half := byDay(shares)
	c.BurningCold = estimate[units.Fraction](mean, math.Max(0, mean-half), math.Min(1, mean+half), fmt.Sprintf("the %d coldest days", len(shares)))
}

// condensing is the share of the fire's time with a return below the dew point. Its
// interval holds what a thermometer on a pipe may be off.
func (c *Cycles) condensing(f *frame) {
	back := f.back
	if s := column(f.l, "boiler return"); s != nil {
		back = s
	}
	if back == nil || c.DewPoint == 0 {
		c.Condensing = unknown[units.Fraction]("these data cannot tell: no column gives the return")
		return
	}
	days := map[int64]*[4]float64{} // on, below, below less trust, below and trust
	for i, b := range f.burner {
		if !(b > burning) || math.IsNaN(back[i]) {
			continue
		}
		d := days[f.l.Stamps[i]/daily]
		if d == nil {
			d = &[4]float64{}
			days[f.l.Stamps[i]/daily] = d
		}
		d[0]++
		for k, off := range []float64{0, -sensorTrust, sensorTrust} {
			if back[i] < float64(c.DewPoint)+off {
				d[1+k]++
			}
		}
	}
	var sum [4]float64
	for _, d := range days {
		for k := range sum {
			sum[k] += d[k]
		}
	}
	if sum[0] < 100 || len(days) < 3 {
		c.Condensing = unknown[units.Fraction]("these data cannot tell: the fire is hardly on")
		return
	}
	p := sum[1] / sum[0]
	// A ratio over days: what each day is off, squared.
	spread := 0.0
	for _, d := range days {
		e := d[1] - p*d[0]
		spread += e * e
	}
	n := float64(len(days))
	half := quantileT(n-1) * math.Sqrt(spread*n/(n-1)) / sum[0]
	low := math.Hypot(half, p-sum[2]/sum[0])
	high := math.Hypot(half, sum[3]/sum[0]-p)
	c.Condensing = estimate[units.Fraction](p, math.Max(0, p-low), math.Min(1, p+high), fmt.Sprintf("return below %.0f °C while the fire is on", float64(c.DewPoint)-zero))
}

// readHotWater finds charges in the tank's temperature.
func readHotWater(f *frame) HotWater {
	var w HotWater
	why := ""
	if f.tank == nil {
		why = "these data cannot tell: no column gives the tank's temperature"
	} else if f.rowStep > 900 {
		why = "these data cannot tell: the rows are too far apart for charges of the tank"
	}
	if why == "" {
		w.events = slices.Clone(f.charges)
		for k := range w.events {
			e := &w.events[k]
			e.drop = f.roomAt(e.from) - f.roomAt(e.to)
		}
		if days := float64(f.l.Stamps[len(f.l.Stamps)-1]-f.l.Stamps[0]) / daily; days < 3 || len(w.events) < 3 {
			why = fmt.Sprintf("these data cannot tell: %d charges in %.1f days", len(w.events), days)
		}
	}
	if why != "" {
		w.Charges, w.Lasts, w.Drop = unknown[units.Number](why), unknown[units.Time](why), unknown[units.Difference](why)
		return w
	}
	perDay := map[int64]float64{}
	for d := f.l.Stamps[0]/daily + 1; d < f.l.Stamps[len(f.l.Stamps)-1]/daily; d++ {
		perDay[d] = 0
	}
	var lasts, drops []float64
	for _, e := range w.events {
		if _, whole := perDay[e.from/daily]; whole {
			perDay[e.from/daily]++
		}
		lasts = append(lasts, float64(e.to-e.from))
		if float64(e.to-e.from) > longCharge && !math.IsNaN(e.drop) {
			drops = append(drops, e.drop)
		}
	}
	var counts []float64
	for _, d := range slices.Sorted(maps.Keys(perDay)) {
		counts = append(counts, perDay[d])
	}
	how := fmt.Sprintf("%d charges of the tank", len(w.events))
	mean, half := byDay(counts)
	w.Charges = estimate[units.Number](mean, math.Max(0, mean-half), mean+half, how)
	mean, half = byDay(lasts)
	w.Lasts = estimate[units.Time](mean, math.Max(0, mean-half), mean+half, how)
	w.Longest = units.Time(slices.Max(lasts))
	w.Drop = unknown[units.Difference]("these data cannot tell: too few long charges with a room beside them")
	if len(drops) >= 4 {
		mean, half = byDay(drops)
		w.Drop = estimate[units.Difference](mean, mean-half, mean+half, fmt.Sprintf("%d charges of more than 20 min", len(drops)))
	}
	return w
}

// charges finds when the tank is charged: rows in which it has risen within a quarter of
// an hour, joined.
func charges(f *frame) []charge {
	if f.tank == nil || f.rowStep > 900 {
		return nil
	}
	var out []charge
	reach := max(1, int(900/f.rowStep))
	for i := reach; i < len(f.tank); i++ {
		from, to := f.l.Stamps[i-reach], f.l.Stamps[i]
		if float64(to-from) > 2*900+f.rowStep || !(f.tank[i]-f.tank[i-reach] > tankRises) {
			continue
		}
		if n := len(out); n > 0 && float64(from-out[n-1].to) < chargeGap {
			out[n-1].to = to
			continue
		}
		out = append(out, charge{from: from, to: to})
	}
	for i := range out {
		out[i] = f.tighten(out[i])
	}
	return out
}

// tighten lets a charge begin at the last row that is as cool as its coolest, and end at
// the first that is as hot as its hottest: the quarters of an hour by which it was found
// reach beyond it on both sides, and what the house gets there is the house's.
func (f *frame) tighten(c charge) charge {
	first, _ := slices.BinarySearch(f.l.Stamps, c.from)
	end, _ := slices.BinarySearch(f.l.Stamps, c.to+1)
	low, high := math.Inf(1), math.Inf(-1)
	for i := first; i < end; i++ {
		if v := f.tank[i]; !math.IsNaN(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	for i := first; i < end && f.l.Stamps[i] < c.to; i++ {
		if f.tank[i] >= high-tankNoise {
			c.to = f.l.Stamps[i]
			break
		}
	}
	for i := first; i < end && f.l.Stamps[i] < c.to; i++ {
		if f.tank[i] <= low+tankNoise {
			c.from = f.l.Stamps[i]
		}
	}
	return c
}

// roomAt is the mean of the rooms at a time.
func (f *frame) roomAt(at int64) float64 {
	i, _ := slices.BinarySearch(f.l.Stamps, at)
	sum, n := 0.0, 0.0
	for _, r := range f.rooms {
		if i < len(r.values) && !math.IsNaN(r.values[i]) {
			sum, n = sum+r.values[i], n+1
		}
	}
	return sum / n
}
