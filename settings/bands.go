package settings

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/units"
)

// The survey is never exact. Each of its uncertain inputs becomes a factor about one
// with a normal spread; a Latin hypercube of samples runs all of them at once through
// the same engine, and the spread of the supply that comes out is the band.

// factor is one uncertain input.
type factor struct {
	what  string
	how   string // how to measure it
	doubt float64
	apply func(*sampled, float64)
}

// sampled is one house of the sample.
type sampled struct {
	house, gains float64
	rooms        []float64
	emitters     []float64 // by circuit
	flows        []float64 // by circuit
}

func (m *model) factors() []factor {
	out := []factor{
		{"the heat loss of the house", "a year's fuel with degree-days, or a blower door and the U-values from drawings", m.house.doubt,
			func(s *sampled, f float64) { s.house = f }},
		{"heat from people and appliances", "the electricity meter over a quiet night", 0.30,
			func(s *sampled, f float64) { s.gains = f }},
	}
	for i, r := range m.rooms {
		out = append(out, factor{"the heat loss of " + r.name, "areas, U-values and draughts of " + r.name, r.doubt,
			func(s *sampled, f float64) { s.rooms[i] = f }})
	}
	for i, c := range m.circuits {
		out = append(out, factor{"the output of the emitters on " + c.job.Name, emitterMeasure(c.family), c.doubt,
			func(s *sampled, f float64) { s.emitters[i] = f }})
		d := 0.15
		if c.flowHow == "measured" {
			d = 0.05
		}
		out = append(out, factor{"the water flow of " + c.job.Name, "supply and return temperatures in steady cold, or a flow meter", d,
			func(s *sampled, f float64) { s.flows[i] = f }})
	}
	return slices.DeleteFunc(out, func(f factor) bool { return f.doubt == 0 })
}

func emitterMeasure(family string) string {
	switch family {
	case "fin-tube":
		return "measure the finned length, not the cover, and find the table of its make"
	case "cast iron":
		return "count the sections and columns and measure the height for the EDR"
	case "floor":
		return "tube spacing, depth and the covering's resistance, from drawings or a lifted corner"
	case "fan coil":
		return "the coil's data sheet at one water temperature and flow"
	}
	return "type, length and height of each for its rated output"
}

// bands samples the survey's uncertainty and writes the spread of the needed supply
// into the circuits and the inputs that it comes from into the sheet.
func (m *model) bands(s *Sheet, solved []solvedCircuit, o Options) {
	factors := m.factors()
	draws := latinHypercube(o.Samples, len(factors), o.Seed)
	at := make([][]units.Temperature, len(solved))
	supplies := make([][][]float64, len(solved)) // circuit, outdoor, sample
	for ci := range solved {
		at[ci] = everyThird(solved[ci].at)
		supplies[ci] = make([][]float64, len(at[ci]))
		for k := range supplies[ci] {
			supplies[ci][k] = make([]float64, o.Samples)
		}
	}
	loads, cutOffs := make([]float64, o.Samples), make([]float64, o.Samples)
	one := sampled{rooms: make([]float64, len(m.rooms)), emitters: make([]float64, len(m.circuits)), flows: make([]float64, len(m.circuits))}
	for n := range o.Samples {
		one.reset()
		for k, f := range factors {
			// Held within three spreads and away from zero: a factor is a size.
			f.apply(&one, math.Max(0.2, 1+f.doubt*draws[k][n]))
		}
		loads[n], cutOffs[n] = m.variedHouse(one)
		for ci := range m.circuits {
			c := m.varied(ci, one)
			for k, a := range c.Ideal(at[ci]) {
				supplies[ci][k][n] = float64(a)
			}
		}
	}
	shares := make(map[string]float64)
	for ci := range solved {
		for k, x := range supplies[ci] {
			if k == 0 {
				m.attribute(shares, factors, draws, x)
			}
			sorted := slices.Clone(x)
			slices.Sort(sorted)
			s.Circuits[ci].Band = append(s.Circuits[ci].Band, BandPoint{Outdoor: at[ci][k],
				Low: quantile(sorted, 0.05), Median: quantile(sorted, 0.50), High: quantile(sorted, 0.95)})
		}
		solved[ci].bands = m.curveBands(s.Circuits[ci].Band, supplies[ci])
	}
	for n, load := range loads { // the limit rests on what the circuits take beyond their rooms, too
		loads[n] = load + spareOutput*float64(m.beyondRooms(s))
	}
	m.loadBand = m.powerBand(loads)
	m.cutOffBand = m.temperatureBand(cutOffs, 4, 8)
	m.surer(s, factors, shares, len(solved))
}

func (s *sampled) reset() {
	s.house, s.gains = 1, 1
	for _, x := range [][]float64{s.rooms, s.emitters, s.flows} {
		for i := range x {
			x[i] = 1
		}
	}
}

// varied is a circuit as one house of the sample has it.
func (m *model) varied(ci int, s sampled) curve.Circuit {
	c := m.circuits[ci].solve
	rooms := make([]curve.Room, len(c.Rooms))
	for i, r := range c.Rooms {
		f := s.house * s.rooms[m.circuits[ci].rooms[i]]
		r.Loss = r.Loss.Scale(units.Fraction(f))
		r.Gains *= units.Power(s.gains)
		es, fs := make([]emitter.Emitter, len(r.Emitters)), make([]units.LossCoefficient, len(r.Flows))
		for k, e := range r.Emitters {
			es[k] = emitter.Scaled(e, units.Fraction(s.emitters[ci]))
			fs[k] = r.Flows[k] * units.LossCoefficient(s.flows[ci])
		}
		r.Emitters, r.Flows = es, fs
		rooms[i] = r
	}
	c.Rooms = rooms
	c.Flow *= units.LossCoefficient(s.flows[ci])
	return c
}

// attribute adds, for each factor, the share of the spread that goes with it: the
// square of its correlation with the supply on the design day.
func (m *model) attribute(shares map[string]float64, factors []factor, draws [][]float64, x []float64) {
	for k, f := range factors {
		r := correlation(draws[k], x)
		shares[f.what] += r * r
	}
}

func (m *model) surer(s *Sheet, factors []factor, shares map[string]float64, circuits int) {
	for _, f := range factors {
		share := shares[f.what] / float64(circuits)
		if share < 0.08 {
			continue
		}
		s.Surer = append(s.Surer, Measurement{What: f.what, How: f.how, Share: units.Fraction(share)})
	}
	slices.SortStableFunc(s.Surer, func(a, b Measurement) int { return cmpFloat(float64(b.Share), float64(a.Share)) })
	if len(s.Surer) > 3 {
		s.Surer = s.Surer[:3]
	}
}

// curveBands are the bands of a circuit's figures: the supply on the design day and in
// mild weather, and the steepness between them.
type curveBands struct{ cold, mild, slope Band }

func (m *model) curveBands(points []BandPoint, supplies [][]float64) curveBands {
	last := len(points) - 1
	slopes := make([]float64, len(supplies[0]))
	for n := range slopes {
		slopes[n] = (supplies[0][n] - supplies[last][n]) / float64(points[last].Outdoor-points[0].Outdoor)
	}
	low, high := spread(slopes)
	return curveBands{cold: m.temperatureBand(supplies[0], 6, 14), mild: m.temperatureBand(supplies[last], 3, 6),
		slope: Band{Known: true, Low: fmt.Sprintf("%.1f", low), High: fmt.Sprintf("%.1f", high), Words: grade((high-low)/(high+low), 0.15, 0.3)}}
}

// temperatureBand is the middle nine tenths of a sample of temperatures, graded by its
// width in kelvin.
func (m *model) temperatureBand(x []float64, good, fair float64) Band {
	low, high := spread(x)
	c := m.control.step
	return Band{Known: true, Low: c.Text(c.Nearest(units.Temperature(low))), High: c.Text(c.Nearest(units.Temperature(high))),
		Words: grade(high-low, good, fair)}
}

func (m *model) powerBand(x []float64) Band {
	low, high := spread(x)
	return Band{Known: true, Low: m.say(units.Power(low * spareOutput)), High: m.say(units.Power(high * spareOutput)),
		Words: grade((high-low)/(high+low), 0.12, 0.25)}
}

func spread(x []float64) (low, high float64) {
	sorted := slices.Sorted(slices.Values(x))
	return float64(quantile(sorted, 0.05)), float64(quantile(sorted, 0.95))
}

func grade(width, good, fair float64) string {
	switch {
	case width <= good:
		return "good"
	case width <= fair:
		return "fair"
	}
	return "rough"
}

// variedHouse is the design load and the balance temperature of one house of the
// sample.
func (m *model) variedHouse(s sampled) (load, balance float64) {
	rooms := make([]room, len(m.rooms))
	for i, r := range m.rooms {
		r.loss = r.loss.Scale(units.Fraction(s.house * s.rooms[i]))
		rooms[i] = r
		load += float64(r.loss.At(r.setpoint, m.design))
	}
	return load, float64(balanceOf(rooms, s.gains))
}

func everyThird(at []curve.At) []units.Temperature {
	var out []units.Temperature
	for k := range at {
		if k == 0 || k == len(at)-1 || k%3 == 0 {
			out = append(out, at[k].Outdoor)
		}
	}
	return out
}

// latinHypercube gives n standard normal draws for each of d factors: each factor's
// draws fall one into each of n equally likely slices, in an order of their own.
//
//	x = Φ⁻¹((rank + u)/n)
//
// Source: McKay, Beckman and Conover 1979, Technometrics 21.
func latinHypercube(n, d int, seed uint64) [][]float64 {
	rng := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	out := make([][]float64, d)
	for k := range out {
		out[k] = make([]float64, n)
		for i, rank := range rng.Perm(n) {
			p := (float64(rank) + rng.Float64()) / float64(n)
			z := math.Sqrt2 * math.Erfinv(2*p-1)
			out[k][i] = math.Max(-3, math.Min(3, z))
		}
	}
	return out
}

func quantile(sorted []float64, p float64) units.Temperature {
	x := p * float64(len(sorted)-1)
	i := int(x)
	if i+1 >= len(sorted) {
		return units.Temperature(sorted[len(sorted)-1])
	}
	return units.Temperature(sorted[i] + (x-float64(i))*(sorted[i+1]-sorted[i]))
}

func correlation(x, y []float64) float64 {
	n := float64(len(x))
	var sx, sy, sxx, syy, sxy float64
	for i := range x {
		sx += x[i]
		sy += y[i]
		sxx += x[i] * x[i]
		syy += y[i] * y[i]
		sxy += x[i] * y[i]
	}
	d := (sxx - sx*sx/n) * (syy - sy*sy/n)
	if d <= 1e-12 {
		return 0
	}
	return (sxy - sx*sy/n) / math.Sqrt(d)
}
