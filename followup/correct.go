package followup

// The survey corrected by the readings, and the curve that follows.

import (
	"fmt"
	"math"
	"strings"

	"curvewright/settings"
	"curvewright/units"
)

// Correction is what the readings make of the survey and of the settings.
type Correction struct {
	Known   bool
	Why     string                   // what it rests on, or why there is none
	Loss    Estimate[units.Fraction] // factor on the survey's loss, survey and readings together
	Emitter Estimate[units.Fraction] // factor on the logged circuit's emitters
	Learned *settings.Learned        // for settings.Solve and trial.New
	Circuit int
	Old     *settings.Plan // by the survey alone
	New     *settings.Plan // by survey and readings
	Points  []CorrectionPoint
	First   string // what must be mended before the curve is touched; empty if nothing
	Message string // to the household
}

// CorrectionPoint is the logged circuit at one outdoor temperature.
type CorrectionPoint struct {
	Outdoor units.Temperature
	Runs    units.Temperature // what the control runs now; 0 where the log does not show it
	Sheet   units.Temperature // what the survey alone asked for
	Set     units.Temperature // what to set now
}

// belief is a pair of logarithms, of the factor on the loss and of that on the emitters,
// with their spread: normal, and narrowed by each reading (Bayes; the form of one step
// of a Kalman filter).
type belief struct {
	mean   [2]float64
	spread two
}

// see takes a reading of a·loss + b·emitter with its standard deviation.
func (b *belief) see(a, c, value, deviation float64) {
	s0, s1 := b.spread[0]*a+b.spread[1]*c, b.spread[2]*a+b.spread[3]*c
	v := a*s0 + c*s1 + deviation*deviation
	e := value - a*b.mean[0] - c*b.mean[1]
	b.mean[0] += s0 / v * e
	b.mean[1] += s1 / v * e
	p := b.spread
	b.spread = two{p[0] - s0*s0/v, p[1] - s0*s1/v, p[2] - s1*s0/v, p[3] - s1*s1/v}
}

func (b *belief) factor(i int, how string) Estimate[units.Fraction] {
	m, half := b.mean[i], 1.645*math.Sqrt(math.Max(0, b.spread[3*i]))
	return estimate[units.Fraction](math.Exp(m), math.Exp(m-half), math.Exp(m+half), how)
}

const (
	leastDoubt  = 0.04 // left on the loss: the weather of one season is not that of all
	roomBalance = 0.12 // of the ratio of loss to emitters as rooms show it, one standard deviation
)

// correct updates the survey and solves it again.
func correct(in *inspection, o Options) Correction {
	c := Correction{Circuit: in.circuit, Old: in.plan}
	for _, f := range in.r.Findings {
		if f.Name == "another house" || f.Name == "weather of elsewhere" {
			c.Why = "no correction: " + f.Text
			return c
		}
		if c.First == "" && f.Group > LogItself && f.Group < TheCurve {
			c.First = f.Group.String() + ": " + f.Name
		}
	}
	b, why := in.believe()
	if len(why) == 0 {
		c.Why = "no correction: the log shows neither the house's loss nor what the rooms make of the water"
		return c
	}
	if z := in.strain(); z > 2 { // where they contradict each other, together they know less
		b.spread[0] *= squared(z / 2)
	}
	c.Why = strings.Join(why, "; ")
	c.Loss, c.Emitter = b.factor(0, c.Why), b.factor(1, c.Why)
	known := settings.LearnedOf(in.job)
	if known == nil {
		known = &settings.Learned{Loss: 1}
	}
	l := &settings.Learned{Loss: clampFactor(float64(known.Loss) * math.Exp(b.mean[0])), LossDoubt: units.Fraction(math.Max(leastDoubt, math.Sqrt(b.spread[0])))}
	for i := range in.plan.Circuits {
		f, d := units.Fraction(1), in.plan.Site.Doubts.Emitters[i]
		if i < len(known.Emitters) {
			f = known.Emitters[i]
		}
		if i == in.circuit {
			f, d = clampFactor(float64(f)*math.Exp(b.mean[1])), units.Fraction(math.Sqrt(math.Max(1e-4, b.spread[3])))
		}
		l.Emitters, l.EmitterDoubt = append(l.Emitters, f), append(l.EmitterDoubt, d)
	}
	fresh, err := settings.Prepare(in.job, settings.Options{System: o.System, Samples: 100, Seed: 1, Learned: l})
	if err != nil {
		c.Why = "no correction: " + err.Error()
		return c
	}
	c.Known, c.Learned, c.New = true, l, fresh
	for _, p := range fresh.Sheet.Circuits[in.circuit].Points {
		point := CorrectionPoint{Outdoor: p.Outdoor, Sheet: in.plan.Circuits[in.circuit].Setting.At(p.Outdoor), Set: p.Set}
		if in.r.Curve.Slope.Known {
			point.Runs = units.Temperature(in.r.Curve.supplyAt(float64(p.Outdoor)))
		}
		c.Points = append(c.Points, point)
	}
	c.Message = in.message(&c)
	return c
}

func clampFactor(f float64) units.Fraction { return units.Fraction(math.Min(4.9, math.Max(0.21, f))) }

// believe begins with the survey and takes in what the log shows.
func (in *inspection) believe() (belief, []string) {
	d := in.plan.Site.Doubts
	b := belief{spread: two{squared(math.Max(0.08, float64(d.House))), 0, 0, squared(math.Max(0.05, float64(d.Emitters[in.circuit])))}}
	var why []string
	own := 0.0
	for _, r := range in.plan.Rooms {
		own += float64(r.Loss.Outdoor)
	}
	if l := in.r.Signature.Loss; l.Known && own > 0 {
		half := math.Max(float64(l.High-l.Value), float64(l.Value-l.Low)) / float64(l.Value)
		b.see(1, 0, math.Log(float64(l.Value)/own), math.Hypot(half/1.645, leastDoubt))
		why = append(why, fmt.Sprintf("the days' heat shows %s where the survey has %s", in.r.say(l.Value), in.r.say(units.LossCoefficient(own))))
	}
	if e := in.r.Capacity; e.Known {
		half := float64(e.High-e.Low) / 2 / float64(e.Value)
		b.see(0, 1, math.Log(float64(e.Value)), half/1.645)
		why = append(why, fmt.Sprintf("steady hours show emitters of %.0f %% of the survey's", 100*float64(e.Value)))
	}
	if ratio, n := in.balance(); n > 0 {
		b.see(-1, 1, math.Log(ratio), roomBalance)
		why = append(why, fmt.Sprintf("rooms with open valves settle as emitters of %.0f %% of the survey's would make them, on %d cold days", 100*ratio, n))
	}
	return b, why
}

// balance is the ratio of emitters to loss that explains where the rooms settle: from
// cold days on which valves cannot be what holds them back, since the rooms are short,
// or on a loop that has none.
func (in *inspection) balance() (ratio float64, days int) {
	pc := in.plan.Circuits[in.circuit]
	if len(in.plan.Circuits) > 1 || !in.r.Curve.Slope.Known || in.f.hours.room == nil {
		return 0, 0
	}
	set := 0.0
	for _, r := range in.r.Rooms {
		set += float64(r.Set) / float64(len(in.r.Rooms))
	}
	var all []float64
	for _, d := range in.f.days {
		if math.IsNaN(d.room) || math.IsNaN(d.out) || d.room-d.out < 12 || !pc.Series && d.room > set-0.6 {
			continue
		}
		k := int((d.at - in.f.hours.begin) / hour)
		supply := dayMean(in.f.hours.supply, k)
		if math.IsNaN(supply) || supply < d.room+5 {
			continue
		}
		need := needAt(in.plan, in.circuit, d.room, d.out)
		gives := givesAt(in.plan, in.circuit, supply, d.room)
		if need > 100 && gives > 100 {
			all = append(all, need/gives)
		}
	}
	if len(all) < 4 {
		return 0, 0
	}
	return median(all), len(all)
}

// needAt is what the circuit's rooms lose at one temperature of all, less their gains.
func needAt(p *settings.Plan, circuit int, room, out float64) float64 {
	sum := 0.0
	for _, i := range roomsOf(p, circuit) {
		r := p.Rooms[i]
		sum += math.Max(0, float64(r.Loss.At(units.Temperature(room), units.Temperature(out))-r.Gains))
	}
	return sum
}

func roomsOf(p *settings.Plan, circuit int) []int {
	var out []int
	seen := map[int]bool{}
	for _, e := range p.Circuits[circuit].Emitters {
		if !seen[e.Room] {
			seen[e.Room] = true
			out = append(out, e.Room)
		}
	}
	return out
}

// givesAt is what the circuit's emitters give to rooms of one temperature with every
// valve open.
func givesAt(p *settings.Plan, circuit int, supply, room float64) float64 {
	sum, ts := 0.0, supply
	for _, e := range p.Circuits[circuit].Emitters {
		h := e.Emitter.Output(units.Temperature(ts), e.Flow, units.Temperature(room))
		sum += float64(h.Room)
		if p.Circuits[circuit].Series {
			ts = float64(h.Return)
		}
	}
	return sum
}

// settles is the temperature at which the circuit's rooms settle together.
func settles(p *settings.Plan, circuit int, supply, out float64) float64 {
	low, high := math.Min(out, supply), math.Max(out+60, supply)
	for range 50 {
		mid := (low + high) / 2
		if needAt(p, circuit, mid, out) < givesAt(p, circuit, supply, mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// supplyFor is the supply at which the circuit's rooms settle at a temperature.
func supplyFor(p *settings.Plan, circuit int, room, out float64) float64 {
	low, high := room, zero+115.0
	for range 50 {
		mid := (low + high) / 2
		if settles(p, circuit, mid, out) < room {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// message tells the household in plain words what is changed and what they will notice.
func (in *inspection) message(c *Correction) string {
	cold, mild := c.ends()
	if cold == nil || c.First != "" {
		return "We have looked at the readings of your heating. Before its settings are changed, something else should be put right; we will be in touch about a visit."
	}
	a, b := cold.step(), mild.step()
	if c.Fits() {
		return "We have looked at the readings of your heating. Its settings fit your house, and nothing needs to be changed."
	}
	out := "We have looked at the readings of your heating and would like to change two numbers. "
	if a == b {
		out += fmt.Sprintf("The water in your heating will be %s in all weather.", a)
	} else {
		out += fmt.Sprintf("The water in your heating will be %s on cold days and %s on mild ones.", a, b)
	}
	if a == "cooler" || b == "cooler" {
		out += " Radiators and floors will feel less hot; the rooms should be as warm as before, and you will use less fuel."
	}
	return out + " Please leave the room thermostats as they are for some days after the change, and tell us the day, the hour and the room if one is too cold or too warm."
}

// ends are the points at which the curve as it runs is known, in the cold and in mild
// weather; nil if it is known nowhere.
func (c *Correction) ends() (cold, mild *CorrectionPoint) {
	for i := range c.Points {
		if c.Points[i].Runs > 0 {
			if cold == nil {
				cold = &c.Points[i]
			}
			mild = &c.Points[i]
		}
	}
	return cold, mild
}

const sameSupply = 1.5 // K of supply that nobody feels

func (p *CorrectionPoint) step() string {
	switch d := float64(p.Set - p.Runs); {
	case d > sameSupply:
		return "warmer"
	case d < -sameSupply:
		return "cooler"
	}
	return "the same"
}

// Fits tells whether the curve as it runs can stay: at both its ends nobody would feel
// the correction.
//
// Range: any correction; false where the curve as it runs is not known.
// Source: own choice of 1.5 K.
func (c *Correction) Fits() bool {
	cold, mild := c.ends()
	return cold != nil && cold.step() == "the same" && mild.step() == "the same"
}
