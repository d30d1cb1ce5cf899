package followup

// What the emitters give, against what the survey says of them.

import (
	"fmt"
	"math"

	"curvewright/settings"
	"curvewright/units"
)

const (
	leastSteady  = 40
	ownDoubt     = 0.06 // of the heat by flow and temperatures, one standard deviation
	storageDoubt = 0.05 // of the heat, one standard deviation: emitters are never quite steady
)

// capacity compares the heat of warm, steady hours with what the surveyed emitters give
// at the supply, the flow and the rooms of that hour.
//
//	scale = median of Q / ΣQ(surveyed emitters at Ts and the flow Q/(Ts − Tr))
//
// Valves that throttle make it too small: a room at its set-point takes no more than it
// needs. The figure is therefore taken from hours in which the rooms are not too warm.
func capacity(f *frame, p *settings.Plan, circuit int, c Curve) Estimate[units.Fraction] {
	cannot := func(why string) Estimate[units.Fraction] {
		return unknown[units.Fraction]("these data cannot tell: " + why)
	}
	rows, doubt, hidden := f.heat, f.source.doubt, f.source.hidden && f.tank == nil && f.source.fuel
	if f.own != nil {
		rows, doubt, hidden = f.own, ownDoubt, false
	}
	switch {
	case len(p.Circuits) > 1 && f.own == nil:
		return cannot("several circuits share the heat, and no flow that bears the circuit's name is logged")
	case rows == nil:
		return cannot("no column gives heat or fuel")
	case f.hours.supply == nil || f.hours.back == nil:
		return cannot("supply and return are not both logged")
	case f.hours.room == nil:
		return cannot("no room is logged")
	case hidden:
		return cannot("the fuel is that of hot water as well")
	}
	hs, heat := &f.hours, f.hours.heat
	if f.own != nil {
		heat = f.hourly(len(hs.supply), rows)
	}
	cycling := map[int64]LevelKind{}
	for _, h := range c.Hours {
		cycling[h.At] = h.Level
	}
	var ratio []float64
	for k := 1; k < len(hs.supply); k++ {
		at := hs.begin + int64(k)*hour
		if cycling[at] != Warm || cycling[at-hour] != Warm {
			continue
		}
		ts, tr, ti, q := hs.supply[k], hs.back[k], hs.room[k], heat[k]
		if hs.on != nil && hs.on[k] < 0.9 || !(ts-tr > 2) || !(q > 300) || !(ti > 0) || math.Abs(ts-hs.supply[k-1]) > 1.5 {
			continue
		}
		given := surveyed(p, circuit, ts, tr, ti, q)
		if given > 100 {
			ratio = append(ratio, q/given)
		}
	}
	if len(ratio) < leastSteady {
		return cannot(fmt.Sprintf("%d steady hours; %d are needed", len(ratio), leastSteady))
	}
	mid := median(append([]float64{}, ratio...))
	rest := make([]float64, len(ratio))
	for i := range ratio {
		rest[i] = ratio[i] - mid
	}
	rho := math.Min(0.95, math.Max(0, lagged(ratio)))
	err := 1.25 * medianScale(rest) / math.Sqrt(float64(len(ratio))*(1-rho)/(1+rho))
	half := 1.645 * math.Hypot(err, mid*math.Hypot(doubt, math.Hypot(storageDoubt, excessDoubt(hs.supply, hs.room))))
	return estimate[units.Fraction](mid, mid-half, mid+half, fmt.Sprintf("%d steady hours; throttled valves make it smaller", len(ratio)))
}

// excessDoubt is what a kelvin of a pipe thermometer comes to at the usual excess.
func excessDoubt(supply, room []float64) float64 {
	var d []float64
	for k := range supply {
		if x := supply[k] - room[k]; x > 3 {
			d = append(d, x)
		}
	}
	if len(d) == 0 {
		return 1
	}
	return 1.2 * sensorOffset / median(d)
}

// surveyed is the heat of all emitters of a circuit, each with its share of the flow.
func surveyed(p *settings.Plan, circuit int, ts, tr, ti, q float64) float64 {
	pc := p.Circuits[circuit]
	total := 0.0
	for _, e := range pc.Emitters {
		total += float64(e.Flow)
	}
	stream := q / (ts - tr)
	sum, supply := 0.0, ts
	for _, e := range pc.Emitters {
		flow := stream * float64(e.Flow) / math.Max(total, 1)
		if pc.Series {
			flow = stream
		}
		heat := e.Emitter.Output(units.Temperature(supply), units.LossCoefficient(flow), units.Temperature(ti))
		sum += float64(heat.Water)
		if pc.Series && flow > 0 {
			supply -= float64(heat.Water) / flow
		}
	}
	return sum
}
