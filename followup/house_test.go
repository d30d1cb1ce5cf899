package followup

// Houses with a known truth: an example's survey, varied, played by the year's
// simulation, and read by a logger that is no better than real ones.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"curvewright/building"
	"curvewright/curve"
	"curvewright/examples"
	"curvewright/job"
	"curvewright/logs"
	"curvewright/settings"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/year"
)

// truth is what a log does not say.
type truth struct {
	loss       float64 // towards outdoors, W/K
	slope      float64 // of the logged circuit's curve, K/K
	cold       float64 // supply that it wants at −5 °C, K
	lowered    bool    // at night
	starts     float64 // of the burner, a day
	condensing float64
	house      year.House
	plant      year.Plant
	settings   year.Settings
}

// sample is a log with its truth.
type sample struct {
	csv   string
	job   *job.Job
	truth truth
}

type wish struct {
	days  int
	first int                  // day of the year; below 0 for a day of winter by chance
	bare  bool                 // no noise and no gaps
	edit  func(t *trial.Trial) // what is wrong with the house
	sun   bool                 // logged
	tank  bool                 // logged
	fuel  bool                 // a gas meter in place of the heat meter
}

var sampleJobs = []string{"bills-house", "short-survey", "ridge-house"}

func readExample(tb testing.TB, name string) *job.Job {
	tb.Helper()
	e, ok := examples.Find(name)
	if !ok {
		tb.Fatalf("no example %s", name)
	}
	j, err := job.Read([]byte(e.Document))
	if err != nil {
		tb.Fatal(err)
	}
	return j
}

// play makes one house and its log.
func play(tb testing.TB, seed uint64, w wish) sample {
	tb.Helper()
	rng := rand.New(rand.NewPCG(seed, 77))
	j := readExample(tb, sampleJobs[int(seed)%len(sampleJobs)])
	t, err := trial.New(j, trial.Options{System: units.SI, Seed: seed})
	if err != nil {
		tb.Fatal(err)
	}
	vary := func(s float64) float64 { return math.Exp(s * rng.NormFloat64()) }
	tr := truth{}
	loss, mass, glass, gains := vary(0.25), vary(0.35), vary(0.35), vary(0.4)
	for i := range t.House.Rooms {
		r := &t.House.Rooms[i]
		r.Loss = r.Loss.Scale(units.Fraction(loss * vary(0.08)))
		for k := range r.Fabric {
			r.Fabric[k].Capacity *= building.HeatCapacity(mass)
		}
		for k := range r.Windows {
			r.Windows[k].Aperture *= units.Area(glass)
		}
		r.Airing = year.Airing{} // whoever opens windows in winter has another house
		for h := range r.Gains {
			r.Gains[h] *= units.Power(gains)
		}
	}
	s := &t.Settings[0]
	for i := range s.Circuits {
		old := s.Circuits[i].Curve
		cold := old.At(units.Celsius(-15)).Add(units.Kelvins((loss - 1) * 12)).Add(units.Kelvins(2 * rng.NormFloat64()))
		mild := old.At(units.Celsius(15)).Add(units.Kelvins(1.5 * rng.NormFloat64()))
		s.Circuits[i].Curve = curve.Setting{Kind: curve.TwoPoints, Cold: curve.Point{Outdoor: units.Celsius(-15), Supply: cold},
			Mild: curve.Point{Outdoor: units.Celsius(15), Supply: mild}, Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: units.Celsius(88)}}
		s.Circuits[i].Program, s.Circuits[i].Influence, s.Circuits[i].HoldBelow = nil, 0, 0
		if seed%2 == 1 {
			tr.lowered = true
			s.Circuits[i].Program = year.Night(units.Hours(22), units.Hours(5), 3, false)
		}
	}
	t.Plant.Boiler.Most = max(t.Plant.Boiler.Most, units.Power(float64(t.Plant.Boiler.Most)*loss))
	if w.edit != nil {
		w.edit(t)
	}
	tr.loss = effective(tb, t, *s)
	c := s.Circuits[0].Curve
	tr.slope = float64(c.At(units.Celsius(-5)).Sub(c.At(units.Celsius(5)))) / 10
	tr.cold = float64(c.At(units.Celsius(-5)))
	first := w.first
	if first < 0 {
		first = (310 + rng.IntN(110)) % 365
	}
	sky := year.Weather{Outdoor: window(t.Weather.Outdoor, first, w.days), Sun: make([][]float64, len(t.Weather.Sun))}
	for i := range sky.Sun {
		sky.Sun[i] = window(t.Weather.Sun[i], first, w.days)
	}
	trace := year.Trace{Every: 60, Values: make([]float64, w.days*1440*len(year.Columns(t.House, t.Plant)))}
	result, err := year.Run(t.House, t.Plant, *s, sky, year.Options{Trace: &trace})
	if err != nil {
		tb.Fatal(err)
	}
	tr.starts = float64(result.Starts) / float64(w.days)
	tr.condensing = float64(result.Condensing) / float64(max(1, result.Burning))
	tr.house, tr.plant, tr.settings = t.House, t.Plant, *s
	return sample{csv: logged(t, trace, sky, float64(result.Fuel)/float64(max(1, result.Heat)), first, w, rng), job: j, truth: tr}
}

func window(x []float64, first, days int) []float64 {
	out := make([]float64, 24*days)
	for i := range out {
		out[i] = x[(first*24+i)%len(x)]
	}
	return out
}

// logged writes what a logger writes every five minutes.
func logged(t *trial.Trial, trace year.Trace, sky year.Weather, fuelPerHeat float64, first int, w wish, rng *rand.Rand) string {
	var b strings.Builder
	b.WriteString("time,outdoor °C,supply °C,return °C,")
	if w.fuel {
		b.WriteString("gas meter kWh,")
	} else {
		b.WriteString("heat meter kWh,")
	}
	b.WriteString("burner")
	tank := -1
	for i, c := range trace.Columns {
		if c.Name == "tank, top" && w.tank {
			tank = i
			b.WriteString(",tank °C")
		}
	}
	if w.sun {
		b.WriteString(",solar W/m²")
	}
	rooms := len(trace.Columns) - len(t.House.Rooms)
	for _, r := range t.House.Rooms {
		b.WriteString(",room " + r.Name + " °C")
	}
	b.WriteString("\n")
	offset := make([]float64, len(trace.Columns))
	scale := 1.0
	if !w.bare {
		for i := range offset {
			offset[i] = 0.3 * rng.NormFloat64() // thermometers on pipes and walls
		}
		scale = 1 + 0.015*rng.NormFloat64()
	}
	begin := int64(1735689600) + int64(first)*86400 // 2025
	gapFrom, gapTo := -1, -1
	meter := 12000.0
	for i := range trace.Rows {
		power := trace.At(i, 3)
		if w.fuel {
			power *= fuelPerHeat
		}
		meter += scale * power * 60 / 3.6e6
		if (i+1)%5 != 0 {
			continue
		}
		if !w.bare && rng.Float64() < 0.0004 {
			gapFrom, gapTo = i, i+rng.IntN(900)
		}
		if i > gapFrom && i < gapTo {
			continue
		}
		cell := func(column int) string {
			v := trace.At(i, column) - zero
			if !w.bare {
				if v += offset[column] + 0.1*rng.NormFloat64(); rng.Float64() < 0.003 {
					return ""
				}
			}
			return fmt.Sprintf("%.1f", v)
		}
		on := 0
		if trace.At(i, 3) > 0 {
			on = 1
		}
		fmt.Fprintf(&b, "%s,%s,%s,%s,%.1f,%d", logs.Say(begin+int64(i+1)*60), cell(0), cell(5), cell(6), meter, on)
		if tank >= 0 {
			b.WriteString("," + cell(tank))
		}
		if w.sun {
			sum := 0.0
			for f := range sky.Sun {
				sum += sky.Sun[f][i/60]
			}
			fmt.Fprintf(&b, ",%.0f", sum/float64(len(sky.Sun)))
		}
		for k := range t.House.Rooms {
			b.WriteString("," + cell(rooms+k))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func take(tb testing.TB, csv string) *logs.Log {
	tb.Helper()
	r, err := logs.Recognise(strings.NewReader(csv))
	if err != nil {
		tb.Fatal(err)
	}
	l, err := logs.Read(tb.Context(), strings.NewReader(csv), r.Mapping, logs.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

func planOf(tb testing.TB, j *job.Job) *settings.Plan {
	tb.Helper()
	p, err := settings.Prepare(j, settings.Options{System: units.SI})
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// effective is what the boiler has to give for each kelvin: the rooms' losses towards
// outdoors and what is lost behind emitters and below slabs.
func effective(tb testing.TB, t *trial.Trial, s year.Settings) float64 {
	tb.Helper()
	s.Circuits = append([]year.CircuitSettings{}, s.Circuits...)
	for i := range s.Circuits {
		s.Circuits[i].Program, s.Circuits[i].Influence, s.Circuits[i].HoldBelow = nil, 0, 0
	}
	var heat, excess [2]float64
	for i, out := range []float64{-8, 2} {
		r, err := year.Run(t.House, t.Plant, s, year.Steady(units.Celsius(out), 4, len(t.Weather.Sun)), year.Options{WarmUp: units.Hours(24 * 20)})
		if err != nil {
			tb.Fatal(err)
		}
		heat[i] = float64(r.Heat) / float64(r.Time)
		total := 0.0
		for k, room := range r.Rooms {
			w := float64(t.House.Rooms[k].Loss.Coefficient())
			excess[i] += w * (float64(room.Mean) - zero - out)
			total += w
		}
		excess[i] /= total
	}
	return (heat[0] - heat[1]) / (excess[0] - excess[1])
}

// coolsIn is the time in which the rooms of a house that was heated evenly for long cool
// by 1 − 1/e of the way to outdoors, s: rooms' air and fabric as one network, the rooms by
// their losses.
func coolsIn(h year.House) float64 {
	index := map[[2]int]int{}
	for i, r := range h.Rooms {
		index[[2]int{i, 0}] = len(index)
		for k := range r.Fabric {
			index[[2]int{i, k + 1}] = len(index)
		}
	}
	g, c := mat.NewDense(len(index), len(index), nil), make([]float64, len(index))
	join := func(a, b int, w float64) {
		g.Set(a, a, g.At(a, a)+w)
		g.Set(b, b, g.At(b, b)+w)
		g.Set(a, b, g.At(a, b)-w)
		g.Set(b, a, g.At(b, a)-w)
	}
	warm, weight := make([]float64, len(index)), make([]float64, len(index))
	total := 0.0
	for i, r := range h.Rooms {
		air := index[[2]int{i, 0}]
		c[air], warm[air] = float64(r.Air), 1
		g.Set(air, air, g.At(air, air)+float64(r.Loss.Coefficient()))
		for k, f := range r.Fabric {
			node := index[[2]int{i, k + 1}]
			c[node] = float64(f.Capacity)
			g.Set(node, node, g.At(node, node)+float64(f.Loss.Coefficient()))
			join(air, node, float64(f.ToAir))
			inner, outer := float64(f.ToAir), float64(f.Loss.Coefficient())
			warm[node] = inner / (inner + outer)
			weight[air] += inner * outer / (inner + outer)
		}
		weight[air] += float64(r.Loss.Coefficient())
		total += weight[air]
	}
	for _, d := range h.Doors {
		join(index[[2]int{d.A, 0}], index[[2]int{d.B, 0}], float64(d.Loss))
	}
	// The modes of √C·T, each with what it has of the beginning and of the rooms' mean.
	a := mat.NewSymDense(len(c), nil)
	for i := range c {
		for k := i; k < len(c); k++ {
			a.SetSym(i, k, g.At(i, k)/math.Sqrt(c[i]*c[k]))
		}
	}
	var e mat.EigenSym
	e.Factorize(a, true)
	var v mat.Dense
	e.VectorsTo(&v)
	rates := e.Values(nil)
	share := make([]float64, len(c))
	for m := range share {
		begin, mean := 0.0, 0.0
		for i := range c {
			begin += v.At(i, m) * math.Sqrt(c[i]) * warm[i]
			mean += v.At(i, m) / math.Sqrt(c[i]) * weight[i] / total
		}
		share[m] = begin * mean
	}
	low, high := 0.0, 20/rates[0]
	for range 80 {
		mid, left := (low+high)/2, 0.0
		for m, r := range rates {
			left += share[m] * math.Exp(-r*mid)
		}
		if left > 1/math.E {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
