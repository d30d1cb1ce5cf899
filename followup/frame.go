package followup

// The log on an even grid: hours and days, and where the heat is read from.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/fluid"
	"curvewright/logs"
	"curvewright/units"
)

const (
	minute  = 60
	hour    = 3600
	daily   = 86400
	zero    = 273.15
	coverOf = 0.6 // share of an hour that must be covered by readings
)

// frame is a log made ready.
type frame struct {
	l       *logs.Log
	out     []float64 // columns of the log by role, nil where there is none
	supply  []float64
	back    []float64
	wanted  []float64
	tank    []float64
	sun     []float64
	burner  []float64 // 0 to 1
	pump    []float64
	flow    []float64
	own     []float64 // W of the logged circuit by its own flow, where several share the boiler
	rooms   []roomColumn
	heat    []float64 // W to the water, by row
	source  heatSource
	charges []charge // of the tank
	hours   hours
	days    []day
	rowStep float64
	hold    float64 // s for which a row stands at most
}

type roomColumn struct {
	name   string
	values []float64
}

// heatSource says where the heat comes from, and how far its scale may be off.
type heatSource struct {
	words  string
	doubt  float64 // of its scale, one standard deviation
	fuel   bool    // hot water is in it whatever the pipes do
	hidden bool    // hot water is in it because nothing separates it
}

// hours are means of each hour; NaN where it is not covered.
type hours struct {
	begin                     int64
	out, supply, back, wanted []float64
	room, sun, heat, on, run  []float64 // on: share of the hour with the burner on; run: with the circuit's pump or flow
	peak                      []float64 // of the supply
}

// day is a calendar day on standard time.
type day struct {
	at                   int64
	out, room, heat, sun float64
	rise                 float64 // of the rooms from the day's begin to its end
	swing                float64 // warmest less coldest hour outdoors
}

func column(l *logs.Log, role logs.Role) []float64 {
	if s, ok := l.First(role); ok {
		return held(l.Stamps, s.Values)
	}
	return nil
}

const (
	holdFor    = 2 * hour // that a reading stands where a logger writes only what changes
	sparse     = 0.05     // share of empty cells from which it does
	unevenFrom = 0.30     // share of steps that are not the common one
	hollowFrom = 0.25     // share of empty cells in the temperatures together
)

// held fills empty cells with the last reading, where there are so many of them that the
// logger must write changes only.
func held(stamps []int64, x []float64) []float64 {
	empty := 0
	for _, v := range x {
		if math.IsNaN(v) {
			empty++
		}
	}
	if float64(empty) < sparse*float64(len(x)) || empty == len(x) {
		return x
	}
	out := append([]float64{}, x...)
	last := -1
	for i, v := range out {
		if !math.IsNaN(v) {
			last = i
		} else if last >= 0 && stamps[i]-stamps[last] <= holdFor {
			out[i] = x[last]
		}
	}
	return out
}

// uneven is the share of steps that are not the common one.
func uneven(l *logs.Log) float64 {
	n := 0
	for i := 1; i < len(l.Stamps); i++ {
		if d := l.Stamps[i] - l.Stamps[i-1]; d*2 < l.Step || d*2 > 3*l.Step {
			n++
		}
	}
	return float64(n) / float64(max(1, len(l.Stamps)-1))
}

// hollow tells a log whose rows hold only what changed: most of its temperatures are empty
// in more rows than a wire would lose.
func hollow(l *logs.Log) bool {
	empty, n := 0, 0
	for _, role := range []logs.Role{logs.Outdoor, logs.Supply, logs.Return, logs.Room} {
		if s, ok := l.First(role); ok {
			for _, v := range s.Values {
				if n++; math.IsNaN(v) {
					empty++
				}
			}
		}
	}
	return float64(empty) > hollowFrom*float64(n)
}

// newFrame picks the columns and the source of heat.
func newFrame(l *logs.Log, h household) *frame {
	f := &frame{l: l, out: column(l, logs.Outdoor), supply: column(l, logs.Supply), back: column(l, logs.Return), wanted: column(l, logs.Wanted),
		tank: column(l, logs.Tank), sun: column(l, logs.Sun), burner: column(l, logs.Burner), pump: column(l, logs.Pump), flow: column(l, logs.WaterFlow), rowStep: float64(max(1, l.Step))}
	if f.hold = 3 * f.rowStep; uneven(l) > unevenFrom || hollow(l) {
		f.hold = math.Max(f.hold, holdFor)
	}
	if f.supply == nil {
		f.supply = column(l, logs.Boiler)
	}
	if f.back == nil {
		f.back = column(l, logs.BoilerBack)
	}
	for _, s := range l.All(logs.Room) {
		f.rooms = append(f.rooms, roomColumn{s.Name, held(l.Stamps, s.Values)})
	}
	f.findOwn(h)
	f.findHeat(h)
	f.charges = charges(f)
	if f.source.hidden {
		f.leaveOutCharges()
	}
	f.toHours(h)
	f.toDays()
	return f
}

// household is what of the job the readings are understood by.
type household struct {
	heatingValue units.HeatingValue // of the gas
	efficiency   float64            // of the season, gross
	most         units.Power        // of the burner
	least        units.Power
	fill         fluid.Mixture
	weights      map[string]float64 // of rooms by name: their share of the loss
	hotWater     bool               // the boiler makes it
	circuits     []string           // their plain names
	logged       int                // the one whose supply is in the log
}

// findHeat takes the best source: a heat meter, then flow and temperatures, then fuel,
// then the burner.
func (f *frame) findHeat(h household) {
	if s, ok := f.l.First(logs.HeatMeter); ok {
		f.heat, f.source = f.rate(s.Values), heatSource{words: fmt.Sprintf("heat meter %q", s.Heading), doubt: 0.015, hidden: h.hotWater}
		return
	}
	if s, ok := f.l.First(logs.Heat); ok {
		f.heat, f.source = s.Values, heatSource{words: fmt.Sprintf("heat %q", s.Heading), doubt: 0.02, hidden: h.hotWater}
		return
	}
	if f.flow != nil && f.supply != nil && f.back != nil && f.own == nil {
		f.heat = f.carried(h)
		f.source = heatSource{words: "flow and the temperatures of supply and return", doubt: 0.06}
		return
	}
	doubt := 0.03
	if s, ok := f.l.First(logs.FuelMeter); ok {
		rate := f.rate(s.Values)
		u, _ := logs.UnitNamed(s.Unit)
		value := 1.0
		if u.Kind == logs.Volume {
			value, doubt = float64(h.heatingValue), 0.035
		}
		f.heat, f.source = scaled(rate, value*h.efficiency), heatSource{words: fmt.Sprintf("fuel meter %q at %.0f %% of its gross heat", s.Heading, 100*h.efficiency), doubt: doubt, fuel: true, hidden: h.hotWater}
		return
	}
	if s, ok := f.l.First(logs.Fuel); ok {
		u, _ := logs.UnitNamed(s.Unit)
		value := 1.0
		if u.Kind == logs.Flow {
			value, doubt = float64(h.heatingValue), 0.035
		}
		f.heat, f.source = scaled(s.Values, value*h.efficiency), heatSource{words: fmt.Sprintf("fuel %q at %.0f %% of its gross heat", s.Heading, 100*h.efficiency), doubt: doubt, fuel: true, hidden: h.hotWater}
		return
	}
	if f.burner != nil && h.most > 0 {
		f.heat = make([]float64, len(f.burner))
		two := contact(f.burner)
		for i, b := range f.burner {
			f.heat[i] = b * float64(h.most)
			if two && h.least > 0 && h.least < h.most*9/10 {
				f.heat[i] = math.NaN() // on, but nobody knows how much
			}
		}
		f.source = heatSource{words: "the burner's position times its highest output", doubt: 0.08, fuel: true, hidden: h.hotWater}
		if two && h.least > 0 && h.least < h.most*9/10 {
			f.heat, f.source = nil, heatSource{}
		}
	}
}

// carried is the heat that the logged flow carries from supply to return.
func (f *frame) carried(h household) []float64 {
	heat := make([]float64, len(f.flow))
	for i := range heat {
		heat[i] = math.NaN()
		mean := units.Temperature((f.supply[i] + f.back[i]) / 2)
		if mean > 273 && mean < 390 {
			if c, err := h.fill.HeatFactor(mean); err == nil {
				heat[i] = f.flow[i] * float64(c) * (f.supply[i] - f.back[i])
			}
		}
	}
	return heat
}

// findOwn takes the flow for that of one circuit, where several share the boiler and its
// heading names the one whose supply is logged.
func (f *frame) findOwn(h household) {
	s, ok := f.l.First(logs.WaterFlow)
	if !ok || len(h.circuits) < 2 || f.supply == nil || f.back == nil {
		return
	}
	if name := h.circuits[h.logged]; name != "" && strings.Contains(plainName(s.Heading)+" "+plainName(s.Name), name) {
		f.own = f.carried(h)
	}
}

// leaveOutCharges takes the heat that goes into the tank out of the heat for the house.
func (f *frame) leaveOutCharges() {
	f.heat = append([]float64{}, f.heat...)
	for _, c := range f.charges {
		i, _ := slices.BinarySearch(f.l.Stamps, c.from)
		for ; i < len(f.heat) && f.l.Stamps[i] < c.to; i++ { // a row stands for what follows it
			if !math.IsNaN(f.heat[i]) {
				f.heat[i] = 0
			}
		}
	}
}

func scaled(x []float64, by float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = x[i] * by
	}
	return out
}

// contact tells a column that is only on and off.
func contact(x []float64) bool {
	for _, v := range x {
		if v > 0.02 && v < 0.98 {
			return false
		}
	}
	return true
}

// rate turns a meter into what went through it per second: the rise between two of its
// steps is spread evenly over the time between them.
func (f *frame) rate(x []float64) []float64 {
	out := make([]float64, len(x))
	for i := range out {
		out[i] = math.NaN()
	}
	from := -1
	for i, v := range x {
		if math.IsNaN(v) {
			continue
		}
		if from < 0 {
			from = i
			continue
		}
		d := v - x[from]
		span := float64(f.l.Stamps[i] - f.l.Stamps[from])
		switch {
		case d == 0 && span < 2*daily:
			continue // between two steps of the meter
		case d < 0 || span > 3*daily:
			// Reset, exchanged, or too long to be shared out.
		default:
			for k := from; k < i; k++ {
				out[k] = d / span
			}
		}
		from = i
	}
	return out
}

// toHours averages.
func (f *frame) toHours(h household) {
	first := f.l.Stamps[0] / hour * hour
	n := int((f.l.Stamps[len(f.l.Stamps)-1]-first)/hour) + 1
	hs := &f.hours
	hs.begin = first
	hs.out, hs.supply, hs.back, hs.wanted = f.hourly(n, f.out), f.hourly(n, f.supply), f.hourly(n, f.back), f.hourly(n, f.wanted)
	hs.heat, hs.sun = f.hourly(n, f.heat), f.hourly(n, f.sun)
	hs.room = f.meanRoom(n, h)
	on := make([]float64, len(f.burner))
	for i, b := range f.burner {
		switch {
		case math.IsNaN(b) || f.rowStep > coarsest: // a row of an hour holds the share of it
			on[i] = b
		case b > 0.02:
			on[i] = 1
		}
	}
	hs.on = f.hourly(n, on)
	moves := f.pump
	if moves == nil && f.flow != nil {
		moves = make([]float64, len(f.flow))
		for i, v := range f.flow {
			if moves[i] = 0; v > 1e-5 {
				moves[i] = 1
			} else if math.IsNaN(v) {
				moves[i] = v
			}
		}
	}
	hs.run = f.hourly(n, moves)
	hs.peak = f.highest(n, f.supply)
}

// meanRoom is the mean of all rooms, weighted by their losses where the job knows them.
func (f *frame) meanRoom(n int, h household) []float64 {
	if len(f.rooms) == 0 {
		return nil
	}
	sum, weight := make([]float64, n), make([]float64, n)
	for _, r := range f.rooms {
		w := 1.0
		if known, ok := h.weights[plainName(r.name)]; ok && len(h.weights) > 1 {
			w = known
		}
		for i, v := range f.hourly(n, r.values) {
			if !math.IsNaN(v) {
				sum[i] += w * v
				weight[i] += w
			}
		}
	}
	for i := range sum {
		if weight[i] > 0 {
			sum[i] /= weight[i]
		} else {
			sum[i] = math.NaN()
		}
	}
	return sum
}

// place gives the hour of a row, and how long the row stands for.
func (f *frame) place(i int) (int, float64) {
	span := f.rowStep
	if i+1 < len(f.l.Stamps) {
		if d := float64(f.l.Stamps[i+1] - f.l.Stamps[i]); d < f.hold {
			span = d
		}
	}
	return int((f.l.Stamps[i] - f.hours.begin) / hour), span
}

func (f *frame) hourly(n int, x []float64) []float64 {
	if x == nil {
		return nil
	}
	sum, covered := make([]float64, n), make([]float64, n)
	for i, v := range x {
		if math.IsNaN(v) {
			continue
		}
		k, left := f.place(i)
		room := float64(f.hours.begin + int64(k+1)*hour - f.l.Stamps[i]) // until the hour is over
		for left > 0 && k < n {
			part := math.Min(left, room)
			sum[k] += v * part
			covered[k] += part
			left -= part
			room = hour
			k++
		}
	}
	for k := range sum {
		if sum[k] /= covered[k]; covered[k] < coverOf*hour {
			sum[k] = math.NaN()
		}
	}
	return sum
}

// highest gives the highest reading of each hour.
func (f *frame) highest(n int, x []float64) []float64 {
	if x == nil {
		return nil
	}
	high := make([]float64, n)
	for k := range high {
		high[k] = math.NaN()
	}
	for i, v := range x {
		if k, _ := f.place(i); v > high[k] || math.IsNaN(high[k]) {
			high[k] = v
		}
	}
	return high
}

// toDays averages the hours of each calendar day with at least twenty of them.
func (f *frame) toDays() {
	hs := &f.hours
	n := len(hs.out)
	if n == 0 {
		n = len(hs.supply)
	}
	first := int((daily - hs.begin%daily) % daily / hour)
	for k := first; k+24 <= n; k += 24 {
		d := day{at: hs.begin + int64(k)*hour, out: dayMean(hs.out, k), room: dayMean(hs.room, k), heat: dayMean(hs.heat, k), sun: dayMean(hs.sun, k)}
		d.rise = edge(hs.room, k+24) - edge(hs.room, k)
		low, high := math.Inf(1), math.Inf(-1)
		for i := k; i < k+24 && hs.out != nil; i++ {
			if !math.IsNaN(hs.out[i]) {
				low, high = math.Min(low, hs.out[i]), math.Max(high, hs.out[i])
			}
		}
		d.swing = high - low
		f.days = append(f.days, d)
	}
}

func dayMean(x []float64, k int) float64 {
	if x == nil {
		return math.NaN()
	}
	sum, n := 0.0, 0.0
	for _, v := range x[k:min(k+24, len(x))] {
		if !math.IsNaN(v) {
			sum, n = sum+v, n+1
		}
	}
	if n < 20 {
		return math.NaN()
	}
	return sum / n
}

// edge is the mean of the hours before and after the beginning of hour k.
func edge(x []float64, k int) float64 {
	if x == nil || k < 1 || k >= len(x) {
		return math.NaN()
	}
	return (x[k-1] + x[k]) / 2
}
