package followup

// The curve that the control really runs, read after its levels are told apart: warm
// by day, lowered at night, a boost in the morning, off.

import (
	"fmt"
	"math"
	"slices"

	"curvewright/logs"
	"curvewright/units"
)

// LevelKind is what the control does at some hours of the day.
type LevelKind string

// The levels.
const (
	Warm    LevelKind = "warm"
	Lowered LevelKind = "lowered"
	Boosted LevelKind = "boosted"
	Off     LevelKind = "off"
	// Broken is an hour of the day in which something else, as a rule hot water, breaks in.
	Broken LevelKind = "interrupted"
)

// Level is a level with the hours of the day at which it runs.
type Level struct {
	Kind   LevelKind
	Hours  string           // "22:00–05:00"
	Offset units.Difference // of the supply from the warm level
	Share  units.Fraction   // of the time
}

// Curve is what the control was seen to do on one circuit.
type Curve struct {
	Circuit   string                      // of the job
	Slope     Estimate[units.Number]      // supply for each degree outdoors
	Shift     Estimate[units.Difference]  // parallel, about the room's set-point
	Room      units.Temperature           // that set-point
	At        []CurvePoint                // the line within the weather of the log
	Highest   Estimate[units.Temperature] // limit that was reached
	Lowest    Estimate[units.Temperature]
	CutOff    Estimate[units.Temperature] // of a day's mean outdoors
	Levels    []Level
	Scatter   units.Difference // of the hours about it
	Follows   bool             // whether the supply follows the weather at all
	FromWants bool             // read from what the control wants, not from the pipe
	Hours     []CurveHour      // for the plot
	fit       Fit
	middle    float64 // outdoors, K

	differential float64
	doubt        float64 // K, of the line's height beside its scatter
	bend         float64 // of a curve that is no line, K/K²
	from, to     float64 // outdoors, from the middle: where the bend was seen
	rests        float64 // share of hours of the line in which the burner rests
	coarse       bool    // rows are too far apart to show its peaks
}

// CurvePoint is the line at one outdoor temperature.
type CurvePoint struct {
	Outdoor units.Temperature
	Supply  Estimate[units.Temperature]
}

// CurveHour is one hour of the log.
type CurveHour struct {
	At      int64
	Outdoor units.Temperature
	Supply  units.Temperature
	Level   LevelKind
}

const (
	leastHours   = 60
	offExcess    = 3.0   // K over the room: less means that nothing is heated
	apart        = 2.0   // K of supply between two levels
	sensorOffset = 0.35  // K, one standard deviation, of a thermometer on a pipe
	leastLimit   = 36    // hours beyond it before a limit is believed
	leastBend    = 0.5   // K between curve and line: less does not matter
	bandOfSlope  = 0.018 // of the slope: fire's band and lag of the outdoor sensor, one standard deviation
	plainLevel   = 1.2   // K within which hours of the day are one level
	coarsest     = 1200  // s from row to row that still show the peaks of the supply

	restsTooOften = 0.3 // share of hours in which the burner rests, of which such rows tell no peak
)

// curveHour is an hour used for the curve.
type curveHour struct {
	at       int64
	out, y   float64
	off      bool
	cycles   bool // the burner rests within the hour
	full     bool // the fire gives all it has: the supply may fall short of what is wanted
	level    LevelKind
	class    int
	residual float64
}

// readCurve finds line, limits and levels.
//
// Where the burner rests within an hour, its mean supply says little of what the control
// wants: it stops half its differential above that, and so much is taken off the hour's
// peak. Rows further apart than that show no peak: their mean is taken, with a doubt.
func readCurve(f *frame, room units.Temperature, circuit string, differential units.Difference) Curve {
	c := Curve{Circuit: circuit, Room: room, differential: float64(differential), coarse: f.rowStep > coarsest}
	if why := c.cannot(f); why != "" {
		c.refuse(why)
		return c
	}
	all := curveHours(f, float64(room), &c)
	on := heated(all)
	if len(on) < leastHours {
		c.refuse(fmt.Sprintf("these data cannot tell: the circuit is warm in %d hours with weather; %d are needed", len(on), leastHours))
		return c
	}
	line := robustLine(on)
	for range 3 {
		classify(all, line)
		line = robustLine(warmOnly(all))
	}
	hours := warmOnly(all)
	if free := notFull(hours); len(free) >= 2*leastHours {
		hours = free
	}
	c.rests = resting(hours)
	if c.coarse && c.rests > restsTooOften {
		c.refuse(fmt.Sprintf("these data cannot tell: with a row every %.0f min the supply is mixed with that of a burner at rest in %.0f %% of the hours; log every 10 min, or what the control wants", f.rowStep/60, 100*c.rests))
		return c
	}
	c.limitsAndLine(hours)
	c.levels(all)
	c.cutOff(f, all)
	for _, h := range all {
		c.Hours = append(c.Hours, CurveHour{h.at, units.Temperature(h.out), units.Temperature(h.y), h.level})
	}
	return c
}

func (c *Curve) cannot(f *frame) string {
	switch {
	case f.out == nil:
		return "these data cannot tell: no column gives the outdoor temperature"
	case f.supply == nil && f.wanted == nil:
		return "these data cannot tell: no column gives the supply"
	}
	return ""
}

func (c *Curve) refuse(why string) {
	c.Slope, c.Shift, c.CutOff = unknown[units.Number](why), unknown[units.Difference](why), unknown[units.Temperature](why)
	c.Highest, c.Lowest = unknown[units.Temperature](why), unknown[units.Temperature](why)
}

// curveHours lists the hours with supply and weather. An hour in which nothing is heated
// is kept as off.
func curveHours(f *frame, room float64, c *Curve) []curveHour {
	hs := &f.hours
	y := hs.supply
	if hs.wanted != nil {
		y, c.FromWants = hs.wanted, true
	}
	full := fullFire(hs)
	var out []curveHour
	for k := range y {
		if math.IsNaN(y[k]) || math.IsNaN(hs.out[k]) {
			continue
		}
		at := hs.begin + int64(k)*hour
		h := curveHour{at: at, out: hs.out[k], y: y[k], level: Warm}
		warm := room
		if hs.room != nil && !math.IsNaN(hs.room[k]) {
			warm = hs.room[k]
		}
		h.off = y[k] < warm+offExcess
		if hs.run != nil && !math.IsNaN(hs.run[k]) {
			h.off = hs.run[k] < 0.5
		} else if !c.FromWants && hs.back != nil && !math.IsNaN(hs.back[k]) {
			h.off = h.off || y[k]-hs.back[k] < 0.5
		}
		if !c.FromWants && hs.on != nil && !math.IsNaN(hs.on[k]) {
			switch on := hs.on[k]; {
			case on < 0.02:
				if !h.off {
					continue // coasting: the pipes are warm, the control wants less
				}
			case on < 0.97:
				if h.cycles = true; !c.coarse {
					h.y = hs.peak[k] - c.differential/2
				}
			default:
				h.full = hs.heat != nil && hs.heat[k] > full
			}
		}
		t := logs.Clock(at)
		h.class = t.Hour()
		if d := t.Weekday(); d == 0 || d == 6 {
			h.class += 24
		}
		out = append(out, h)
	}
	return out
}

func heated(all []curveHour) []curveHour {
	var out []curveHour
	for _, h := range all {
		if !h.off {
			out = append(out, h)
		}
	}
	return out
}

// fullFire is the heat above which the fire gives all that it has.
func fullFire(hs *hours) float64 {
	var v []float64
	for k := range hs.heat {
		if hs.on != nil && hs.on[k] > 0.97 && !math.IsNaN(hs.heat[k]) {
			v = append(v, hs.heat[k])
		}
	}
	if len(v) < leastHours {
		return math.Inf(1)
	}
	median(v)
	return 0.96 * v[len(v)*49/50]
}

func notFull(hs []curveHour) []curveHour {
	return slices.DeleteFunc(slices.Clone(hs), func(h curveHour) bool { return h.full })
}

func warmOnly(all []curveHour) []curveHour {
	var out []curveHour
	for _, h := range all {
		if !h.off && h.level == Warm {
			out = append(out, h)
		}
	}
	return out
}

// resting is the share of hours within which the burner rests.
func resting(hs []curveHour) float64 {
	n := 0.0
	for _, h := range hs {
		if h.cycles {
			n++
		}
	}
	return n / math.Max(1, float64(len(hs)))
}

// straight is a line y = a + b·out.
type straight struct{ a, b float64 }

func (s straight) at(x float64) float64 { return s.a + s.b*x }

// robustLine is the median of the slopes of pairs of hours that differ outdoors, and the
// median of what remains (Theil 1950, Sen 1968).
func robustLine(hs []curveHour) straight {
	step := max(1, len(hs)/300)
	var some []curveHour
	for i := 0; i < len(hs); i += step {
		some = append(some, hs[i])
	}
	var slopes []float64
	for i := range some {
		for k := i + 1; k < len(some); k++ {
			if d := some[k].out - some[i].out; math.Abs(d) > 1.5 {
				slopes = append(slopes, (some[k].y-some[i].y)/d)
			}
		}
	}
	s := straight{}
	if len(slopes) > 20 {
		s.b = median(slopes)
	}
	rest := make([]float64, len(hs))
	for i, h := range hs {
		rest[i] = h.y - s.b*h.out
	}
	s.a = median(rest)
	return s
}

// classify gives every hour of the day, on working days and at week-ends, its level: the
// level of the most hours is the warm one.
func classify(all []curveHour, line straight) {
	var rest [48][]float64
	var offs, count [48]float64
	for i := range all {
		h := &all[i]
		h.residual = h.y - line.at(h.out)
		count[h.class]++
		if h.off {
			offs[h.class]++
			continue
		}
		rest[h.class] = append(rest[h.class], h.residual)
	}
	var mid [48]float64
	for k := range mid {
		mid[k] = math.NaN()
		if len(rest[k]) >= 2 {
			mid[k] = median(rest[k])
		}
	}
	// Week-ends are few; where they are not clearly different they follow the week.
	for k := 24; k < 48; k++ {
		if math.IsNaN(mid[k]) || math.Abs(mid[k]-mid[k-24]) < apart || len(rest[k]) < 4 {
			mid[k] = mid[k-24]
		}
	}
	center := mainLevel(mid[:], count[:])
	alone := func(class int) bool { // its neighbours are on the warm level
		h, base := class%24, class/24*24
		before, after := mid[base+(h+23)%24]-center, mid[base+(h+1)%24]-center
		return math.Abs(before) <= apart && math.Abs(after) <= apart
	}
	for i := range all {
		h := &all[i]
		m := mid[h.class] - center
		switch {
		case h.off || offs[h.class] > 0.6*count[h.class]:
			h.level = Off
		case math.Abs(m) > apart && alone(h.class):
			h.level = Broken
		case m < -apart:
			h.level = Lowered
		case m > apart:
			h.level = Boosted
		default:
			h.level = Warm
		}
	}
}

// mainLevel finds the value about which the most hours lie.
func mainLevel(mid, count []float64) float64 {
	best, most := 0.0, -1.0
	for _, c := range mid {
		if math.IsNaN(c) {
			continue
		}
		weight, sum := 0.0, 0.0
		for k, m := range mid {
			if math.Abs(m-c) <= plainLevel {
				weight += count[k]
				sum += count[k] * m
			}
		}
		// Two levels of like length: the warmer one is the day's.
		if weight > most*1.1 || weight > most*0.9 && sum/weight > best {
			best, most = sum/weight, math.Max(most, weight)
		}
	}
	return best
}

// limitsAndLine looks for a highest and a lowest supply, and fits what lies between.
func (c *Curve) limitsAndLine(hs []curveHour) {
	if len(hs) < leastHours {
		c.refuse(fmt.Sprintf("these data cannot tell: %d hours at one level; %d are needed", len(hs), leastHours))
		return
	}
	from, to := follows(hs)
	c.Highest, c.Lowest = unknown[units.Temperature]("not reached in this log"), unknown[units.Temperature]("not reached in this log")
	var x, y []float64
	var high, low []curveHour
	for _, h := range hs {
		switch {
		case h.out < from:
			high = append(high, h)
		case h.out > to:
			low = append(low, h)
		default:
			x, y = append(x, h.out), append(y, h.y)
		}
	}
	slope := robustLine(hs).b
	limit := func(beyond []curveHour, where string) Estimate[units.Temperature] {
		if len(beyond) < leastLimit {
			return unknown[units.Temperature]("not reached in this log")
		}
		if !flat(beyond, slope) {
			return unknown[units.Temperature]("these data cannot tell: " + where + " the supply leaves its curve, but not for one temperature")
		}
		var v []float64
		for _, h := range beyond {
			v = append(v, h.y)
		}
		m := median(v)
		return estimate[units.Temperature](m, m-1, m+1, fmt.Sprintf("%d hours at one supply while the weather changed", len(v)))
	}
	c.Highest, c.Lowest = limit(high, "in the cold"), limit(low, "in mild weather")
	c.middle = median(slices.Clone(x))
	centered := make([]float64, len(x))
	for i := range x {
		centered[i] = x[i] - c.middle
	}
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	if n := len(sorted); n < leastHours || sorted[n*19/20]-sorted[n/20] < leastSpread {
		c.refuse("these data cannot tell: the outdoor temperature hardly changes while the circuit is warm")
		return
	}
	fit, err := Regress(y, [][]float64{centered}, true)
	if err != nil {
		c.refuse("these data cannot tell: " + err.Error())
		return
	}
	c.fit = fit
	c.bendOf(y, centered, sorted)
	c.Scatter = units.Kelvins(medianScale(slices.Clone(fit.Residuals)))
	c.describe(sorted)
}

// describe writes slope, shift and points of the line.
func (c *Curve) describe(outs []float64) {
	f := c.fit
	t := quantileT(f.Freedom)
	slope, errSlope := -f.Coefficients[1], t*f.Errors[1]
	offset := 1.645 * sensorOffset
	span := outs[len(outs)*19/20] - outs[len(outs)/20]
	if c.FromWants {
		offset = 0
	}
	// How far a burner shoots over before it stops, and how much of a peak falls between
	// two rows, is not known.
	if c.rests > 0 {
		offset = math.Hypot(offset, 1.645*c.differential/16*(1+c.rests))
		errSlope = math.Hypot(errSlope, 1.645*c.differential/16*c.rests/span)
	}
	if c.coarse && c.rests == 0 { // and no burner is logged: the mean of an hour lies somewhere within the differential
		offset = math.Hypot(offset, 1.645*c.differential/4)
		errSlope = math.Hypot(errSlope, 1.645*c.differential/4/span)
	}
	if errSlope > math.Max(0.5, 0.6*math.Abs(slope)) {
		c.refuse("these data cannot tell: the supply scatters too widely about any line")
		return
	}
	how := fmt.Sprintf("%d warm hours", len(f.Residuals))
	errSlope = math.Hypot(errSlope, 1.645*bandOfSlope*slope)
	c.Slope = estimate[units.Number](slope, slope-errSlope, slope+errSlope, how)
	c.doubt = offset
	at := c.lineAt
	// About the room's set-point the line is far carried on; what holds there is what
	// holds in the middle of the weather, carried on with the slope.
	room := float64(c.Room)
	mid := at(c.middle)
	shift := float64(mid.Value) - room - slope*(room-c.middle)
	half := math.Hypot(float64(mid.High-mid.Low)/2, errSlope*(room-c.middle))
	c.Shift = estimate[units.Difference](shift, shift-half, shift+half, how)
	n := len(outs)
	for _, out := range []float64{outs[n/20], outs[n/2], outs[n*19/20]} {
		out = math.Round(out-zero) + zero
		if len(c.At) == 0 || c.At[len(c.At)-1].Outdoor < units.Temperature(out) {
			c.At = append(c.At, CurvePoint{units.Temperature(out), at(out)})
		}
	}
	// A line that the weather explains less than half, and that is flat, is none.
	c.Follows = slope > 0.15 && float64(c.Slope.Low) > 0
}

// lineAt gives the line at an outdoor temperature with its interval.
func (c *Curve) lineAt(out float64) Estimate[units.Temperature] {
	f := c.fit
	v := c.free(out)
	half := math.Hypot(quantileT(f.Freedom)*math.Hypot(f.Errors[0], f.Errors[1]*(out-c.middle)), c.doubt)
	return estimate[units.Temperature](v, v-half, v+half, c.Slope.Why)
}

// supplyAt gives the line at an outdoor temperature, within the limits that were seen.
func (c *Curve) supplyAt(out float64) float64 {
	v := c.free(out)
	if c.Highest.Known {
		v = math.Min(v, float64(c.Highest.Value))
	}
	if c.Lowest.Known {
		v = math.Max(v, float64(c.Lowest.Value))
	}
	return v
}
