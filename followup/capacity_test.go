package followup

import (
	"math"
	"slices"
	"strings"
	"testing"

	"curvewright/logs"
	"curvewright/units"
)

// With several circuits the emitters of one are told from a flow that bears its name, and
// from nothing else.
func TestEmittersOfOneCircuitAmongSeveral(t *testing.T) {
	j := readExample(t, "combi-slab")
	p := planOf(t, j)
	if len(p.Circuits) < 2 {
		t.Skip("the example has one circuit")
	}
	const scale = 0.8
	k := 0
	name := p.Circuits[k].Name
	l := &logs.Log{Step: 600}
	out, supply, back, flow, room := []float64{}, []float64{}, []float64{}, []float64{}, []float64{}
	stream := 0.0
	for _, e := range p.Circuits[k].Emitters {
		stream += float64(e.Flow)
	}
	for i := range 6 * 24 * 30 {
		l.Stamps = append(l.Stamps, 1767225600+int64(i)*600)
		o := zero + 2 + 6*math.Sin(float64(i)/700) + 1.5*math.Sin(float64(i)/23)
		ti := zero + 20.0
		ts := float64(p.Circuits[k].Setting.At(units.Temperature(o)))
		q := 0.0
		for range 30 { // return and heat belong together
			q = scale * surveyed(p, k, ts, ts-math.Max(0.5, q/stream), ti, math.Max(50, q))
		}
		c, err := householdOf(p, j).fill.HeatFactor(units.Temperature(ts - q/stream/2))
		if err != nil {
			t.Fatal(err)
		}
		out, supply, back, room = append(out, o), append(supply, ts), append(back, ts-q/stream), append(room, ti)
		flow = append(flow, stream/float64(c))
	}
	l.Rows = len(l.Stamps)
	column := func(role logs.Role, heading string, v []float64) logs.Series {
		return logs.Series{Column: logs.Column{Role: role, Heading: heading, Name: ""}, Values: v}
	}
	l.Series = []logs.Series{column(logs.Outdoor, "outdoor", out), column(logs.Supply, name+" supply", supply), column(logs.Return, name+" return", back),
		column(logs.WaterFlow, name+" flow", flow), column(logs.Room, "room", room)}
	r, err := Analyse(t.Context(), l, j, Options{System: units.SI, Cheap: true})
	if err != nil {
		t.Fatal(err)
	}
	if e := r.Capacity; !e.Known || math.Abs(float64(e.Value)/scale-1) > 0.1 {
		t.Errorf("emitters at %v of the survey's, want %g: %s", e.Value, scale, e.Why)
	}
	if r.Signature.Loss.Known {
		t.Error("one circuit's flow was taken for the heat of the house")
	}
	l.Series[slices.IndexFunc(l.Series, func(s logs.Series) bool { return s.Role == logs.WaterFlow })].Heading = "flow"
	if r, err = Analyse(t.Context(), l, j, Options{System: units.SI, Cheap: true}); err != nil || r.Capacity.Known || !strings.Contains(r.Capacity.Why, "name") {
		t.Errorf("told without a name: %v %v", r.Capacity, err)
	}
}
