package followup

// What is wrong, in the order of repair: tuning the curve over a fault of the flow hides
// it.

import (
	"fmt"
	"math"
	"slices"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// Group is a step in the order of repair.
type Group int

// The order.
const (
	LogItself Group = iota
	FlowAndAir
	Hydraulics
	Sensors
	TheCurve
	Programs
	TankAndTaps
)

// String names the step.
func (g Group) String() string {
	return [...]string{"the log", "flow and air", "hydraulics", "sensors", "curve", "programs", "hot water"}[g]
}

// Finding is something wrong, with the stretch of the log that shows it.
type Finding struct {
	Group    Group
	Name     string // short and stable, as "short cycling"
	Room     string
	Text     string // what was seen
	Remedy   string
	From, To int64 // stretch that shows it best
	Times    int   // how often it was seen
}

// inspection is what the findings are looked for in.
type inspection struct {
	f       *frame
	plan    *settings.Plan
	job     *job.Job
	circuit int
	r       *Result
	found   []Finding
}

func (in *inspection) add(g Group, name string, from, to int64, times int, remedy, format string, a ...any) {
	in.found = append(in.found, Finding{Group: g, Name: name, From: from, To: to, Times: times, Remedy: remedy, Text: fmt.Sprintf(format, a...)})
}

// findings looks through everything.
func (in *inspection) findings() []Finding {
	in.whose()
	if c := in.r.Curve; !c.Slope.Known || float64(c.Slope.High) >= -0.1 {
		in.output()
	}
	in.water()
	in.frost()
	in.mixing()
	in.ghost()
	in.outdoorSensor()
	in.disagree()
	in.reset()
	in.follows()
	in.height()
	in.rooms()
	in.limit()
	in.summer()
	in.cycling()
	in.returns()
	in.setback()
	in.afternoon()
	in.tank()
	slices.SortStableFunc(in.found, func(a, b Finding) int { return int(a.Group) - int(b.Group) })
	return in.found
}

// span is the whole log.
func (in *inspection) span() (int64, int64) { return in.r.From, in.r.To }

// whose asks whether the log can be of this house, and of this year.
func (in *inspection) whose() {
	from, to := in.span()
	own := 0.0
	for _, r := range in.plan.Rooms {
		own += float64(r.Loss.Outdoor)
	}
	if l := in.r.Signature.Loss; l.Known && own > 0 && (float64(l.Low) > 2.5*own || float64(l.High) < 0.4*own) {
		in.add(LogItself, "another house", from, to, 1, "see that log and job belong together, and that heat and outdoors are in the right units",
			"the house of the log loses %s, that of the survey %s: they can hardly be one house", in.r.say(l.Value), in.r.say(units.LossCoefficient(own)))
	}
	if z := in.strain(); z > 3 && len(in.found) == 0 {
		in.add(LogItself, "survey and log disagree", from, to, 1, "see that log and job belong together; then look for what the survey has left out, and for the scale of the heat",
			"the log's house loses %s, the survey's %s: more apart than the doubts of both allow", in.r.say(in.r.Signature.Loss.Value), in.r.say(units.LossCoefficient(own)))
	}
	if in.f.hours.out == nil {
		return
	}
	design := float64(in.plan.Design)
	low, warm, cold := math.Inf(1), 0, 0
	for _, v := range in.f.hours.out {
		if math.IsNaN(v) {
			continue
		}
		low = math.Min(low, v)
		if v > zero+45 {
			warm++
		}
		if v < design-15 {
			cold++
		}
	}
	if warm > 3 || cold > 12 {
		in.add(LogItself, "weather of elsewhere", from, to, warm+cold, "look at the unit and the column of the outdoor temperature",
			"outdoors lies beyond what the job's place knows in %d hours (design day %s)", warm+cold, in.r.say(in.plan.Design))
	}
	supply := in.f.hours.supply
	if supply == nil {
		return
	}
	// Wanted neither by the cold nor by the water: supply rises with the weather.
	if c := in.r.Curve; c.Slope.Known && float64(c.Slope.High) < -0.1 && !in.output() {
		in.add(LogItself, "another house", from, to, 1, "see that supply and outdoors are of one house and of one time",
			"the supply rises when it gets warmer outdoors (slope %.2f): supply and weather do not belong together, or the times are shifted", float64(c.Slope.Value))
	}
}

// strain is how many standard deviations survey and log lie apart.
func (in *inspection) strain() float64 {
	l := in.r.Signature.Loss
	own := 0.0
	for _, r := range in.plan.Rooms {
		own += float64(r.Loss.Outdoor)
	}
	if !l.Known || own <= 0 {
		return 0
	}
	seen := math.Hypot(l.half()/1.645, leastDoubt)
	before := math.Max(0.08, float64(in.plan.Site.Doubts.House))
	return math.Abs(math.Log(float64(l.Value)/own)) / math.Hypot(seen, before)
}

// drop is supply less return in steady, warm hours of the coldest third.
func (in *inspection) drop() (middle float64, heat float64, hours int) {
	hs := &in.f.hours
	if hs.supply == nil || hs.back == nil || hs.out == nil {
		return math.NaN(), math.NaN(), 0
	}
	warm := in.levelAt()
	var outs []float64
	for k, o := range hs.out {
		if !math.IsNaN(o) && warm[hs.begin+int64(k)*hour] == Warm {
			outs = append(outs, o)
		}
	}
	if len(outs) < leastHours {
		return math.NaN(), math.NaN(), 0
	}
	slices.Sort(outs)
	border := outs[len(outs)/3]
	var d, q []float64
	for k, o := range hs.out {
		x := hs.supply[k] - hs.back[k]
		if !(o <= border) || warm[hs.begin+int64(k)*hour] != Warm || math.IsNaN(x) || hs.on != nil && hs.on[k] < 0.5 {
			continue
		}
		d = append(d, x)
		if hs.heat != nil && !math.IsNaN(hs.heat[k]) {
			q = append(q, hs.heat[k])
		}
	}
	if len(d) < leastHours/3 {
		return math.NaN(), math.NaN(), 0
	}
	heat = math.NaN()
	if len(q) > len(d)/2 {
		heat = median(q)
	}
	return median(d), heat, len(d)
}

// levelAt gives the level of each hour.
func (in *inspection) levelAt() map[int64]LevelKind {
	out := make(map[int64]LevelKind, len(in.r.Curve.Hours))
	for _, h := range in.r.Curve.Hours {
		out[h.At] = h.Level
	}
	return out
}

// water looks at the flow and the pressure.
func (in *inspection) water() {
	from, to := in.span()
	in.pressure()
	middle, heat, hours := in.drop()
	if hours == 0 {
		return
	}
	pc := in.plan.Circuits[in.circuit]
	load := float64(in.plan.Sheet.Circuits[in.circuit].Load)
	want := load / math.Max(1, float64(pc.Flow))
	if !math.IsNaN(heat) && len(in.plan.Circuits) == 1 {
		want *= math.Min(1.2, heat/load)
	} else {
		want *= 0.6 // the coldest third of a winter is not the design day
	}
	switch {
	case middle < 0.45*want && middle < 4:
		in.add(FlowAndAir, "flow too high", from, to, hours, "balance to equal returns with all valves open, slow the pump, then judge the curve anew",
			"supply and return differ by %s in the cold, where the survey's flow makes %s: too much water, and no balance that could hold", in.r.roughly(middle), in.r.roughly(want))
	case middle > 1.8*want && middle > 12:
		in.add(FlowAndAir, "flow too low", from, to, hours, "look for air, a dirty filter, closed valves and a pump that is too small or at its lowest speed",
			"supply and return differ by %s in the cold, where the survey's flow makes %s: too little water passes", in.r.roughly(middle), in.r.roughly(want))
	}
	in.silting()
}

// silting compares the drop month by month.
func (in *inspection) silting() {
	hs := &in.f.hours
	var days, d []float64
	warm := in.levelAt()
	for k := range hs.supply {
		if x := hs.supply[k] - hs.back[k]; warm[hs.begin+int64(k)*hour] == Warm && x > 1 && hs.heat != nil && hs.heat[k] > 500 && (hs.on == nil || hs.on[k] > 0.9) {
			days, d = append(days, float64(k)/24), append(d, math.Log(x/hs.heat[k]))
		}
	}
	if len(d) < 400 || days[len(days)-1]-days[0] < 60 {
		return
	}
	fit, err := Regress(d, [][]float64{days}, true)
	if err != nil {
		return
	}
	if low, _ := fit.Interval(1); low*30 > 0.04 {
		from, to := in.span()
		in.add(FlowAndAir, "flow is going down", from, to, len(d), "clean the filter, look for topping-up and air, treat the water",
			"for the same heat supply and return part by %.0f %% more each month: dirt or air is taking the flow", 100*(math.Exp(30*fit.Coefficients[1])-1))
	}
}

// pressure looks at a logged water pressure.
func (in *inspection) pressure() {
	p := column(in.f.l, "water pressure")
	if p == nil {
		return
	}
	var v []float64
	lowest, at := math.Inf(1), in.r.From
	for i, x := range p {
		if !math.IsNaN(x) {
			if v = append(v, x); x < lowest {
				lowest, at = x, in.f.l.Stamps[i]
			}
		}
	}
	if len(v) < 100 {
		return
	}
	slices.Sort(v)
	low, high := v[len(v)/50], v[len(v)-1-len(v)/50]
	const lowest50 = 0.5e5
	if low < lowest50 {
		in.add(FlowAndAir, "water pressure too low", at, at+daily, 1, "find the leak, set the vessel's precharge without water pressure on it, then fill",
			"the water pressure falls to %s: air gets in, and upper rooms stay cold", in.r.say(units.Pressure(lowest)))
	}
	if high-low > 0.7e5 {
		in.add(FlowAndAir, "water pressure swings", at, at+daily, 1, "check size and precharge of the expansion vessel",
			"the water pressure swings by %s between cold and hot: the vessel has too little air or is too small", in.r.say(units.Pressure(high-low)))
	}
}

// mixing looks for a separator that sends water the wrong way.
func (in *inspection) mixing() {
	bs, br := column(in.f.l, "boiler supply"), column(in.f.l, "boiler return")
	s, r := column(in.f.l, "supply"), column(in.f.l, "return")
	if s == nil || r == nil || br == nil && bs == nil {
		return
	}
	forward, backward, n, share := 0, 0, 0, 0.0
	from, to := int64(0), int64(0)
	for i := range s {
		if !(s[i]-r[i] > 2) || in.f.burner != nil && !(in.f.burner[i] > burning) {
			continue
		}
		n++
		switch {
		case br != nil && br[i] > r[i]+3:
			forward++
			if bs != nil && bs[i]-r[i] > 2 {
				share += (br[i] - r[i]) / (bs[i] - r[i])
			}
			from, to = stretch(from, to, in.f.l.Stamps[i])
		case bs != nil && s[i] < bs[i]-3 && (br == nil || math.Abs(br[i]-r[i]) < 2) && !in.plan.Circuits[in.circuit].Mixed:
			backward++
			from, to = stretch(from, to, in.f.l.Stamps[i])
		}
	}
	switch {
	case n > 200 && forward > n/2:
		in.add(Hydraulics, "separator sends supply back", from, to, forward, "slow the boiler's pump until its return is little warmer than the circuit's, within its least flow",
			"the boiler's return is warmer than the circuit's in %.0f %% of the firing time; about %.0f %% of the boiler's water goes straight back", 100*float64(forward)/float64(n), 100*share/float64(max(1, forward)))
	case n > 200 && backward > n/2:
		in.add(Hydraulics, "separator mixes return in", from, to, backward, "put the leading sensor behind the separator and match the flows; do not raise the boiler for it",
			"the circuit's supply is cooler than the boiler's in %.0f %% of the firing time though the returns are alike: the circuits pump more than the boiler", 100*float64(backward)/float64(n))
	}
}

// stretch keeps the first day that shows something.
func stretch(from, to, at int64) (int64, int64) {
	if from == 0 {
		return at, at
	}
	if at-from < daily {
		return from, at
	}
	return from, to
}
