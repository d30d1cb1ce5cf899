package settings

import (
	"fmt"
	"math"
	"testing"

	"curvewright/job"
	"curvewright/units"
)

// Does the table of expected readings stay true where the supply is limited?

// limitedBath is a bathroom whose circuit may not see the water that it would need.
const limitedBath = `curvewright: 1
job: Limited bath
display: si
site: {design_outdoor: -14 °C}
house: {floor_area: 100 m²}
rooms:
  - {name: Bath, area: 6 m², setpoint: 24 °C, load: 502 W, wet_room: yes, emitters: [{circuit: Bath, %s}]}
  - {name: Hall, area: 6 m², setpoint: 20 °C, load: 200 W, emitters: [{circuit: Bath, %s}]}
circuits:
  - {name: Bath, kind: mixed, %s max_supply: 42 °C}
boiler: {kind: condensing, output: 20 kW, min_output: 4 kW}
control: {scale: celsius, curve: {two_points: {}}}
`

// TestALimitedSupplyShowsWhatTheEmittersGive: in a row of a circuit that falls short the
// heat is what the emitters give where the room settles, and the water loses just what they
// take from it.
func TestALimitedSupplyShowsWhatTheEmittersGive(t *testing.T) {
	const (
		floor    = "floor: {area: 4 m², construction: wet slab, spacing: 150 mm, covering_kind: tile}"
		radiator = "radiator: {output: 500 W}"
	)
	for _, x := range []struct{ name, bath, hall, layout string }{
		{"floors", floor, floor, ""},
		{"floor and radiator", floor, radiator, ""},
		{"radiators", radiator, radiator, ""},
		{"radiators in a loop", radiator, radiator, "layout: series,"},
	} {
		j, err := job.Read(fmt.Appendf(nil, limitedBath, x.bath, x.hall, x.layout))
		if err != nil {
			t.Fatal(err)
		}
		s, m, _, _, err := work(j, DefaultOptions(j))
		if err != nil {
			t.Fatal(err)
		}
		e, c, p := s.Expected[0], m.circuits[0].solve, s.Circuits[0].Points[0]
		if short := c.Rooms[0].Setpoint.Sub(p.Rooms[0].Reaches); short < 1 {
			t.Fatalf("%s: the bath is only %v short", x.name, short)
		}
		full, water, given := 0.0, 0.0, 0.0
		in := e.Supply
		for i, r := range c.Rooms {
			inside := min(r.Setpoint, p.Rooms[i].Reaches)
			full += float64(r.Load(e.Outdoor, r.Setpoint))
			if len(c.Loop) > 0 {
				h := r.Emitters[0].Output(in, c.Flow, inside)
				water, given, in = water+float64(h.Water), given+float64(h.Room), h.Return
				continue
			}
			h := r.Emitters[0].Output(e.Supply, r.Flows[0], inside)
			open := min(1, float64(r.Load(e.Outdoor, inside)/h.Room))
			water, given = water+open*float64(h.Water), given+open*float64(h.Room)
		}
		lost := float64(e.Supply-e.Return) * float64(c.Flow)
		t.Logf("%s: %.0f W of %.0f W, %s → %s", x.name, float64(e.Heat), full, e.Supply.Text(units.SI), e.Return.Text(units.SI))
		if math.Abs(lost-water) > 0.5 {
			t.Errorf("%s: the water loses %.1f W, the emitters take %.1f W", x.name, lost, water)
		}
		if math.Abs(float64(e.Heat)-given) > 0.5 || float64(e.Heat) > full-20 {
			t.Errorf("%s: %.1f W listed; the emitters give %.1f W of %.1f W", x.name, float64(e.Heat), given, full)
		}
	}
}

// TestAnAssumedRoomIsRoundInTheJobsUnits, whoever reads it.
func TestAnAssumedRoomIsRoundInTheJobsUnits(t *testing.T) {
	for display, want := range map[string]units.Temperature{"si": units.Celsius(21), "us": units.Fahrenheit(70)} {
		j, err := job.Read([]byte("curvewright: 1\njob: House\ndisplay: " + display + "\nsite: {design_outdoor: -14 °C}\nhouse: {load: 8 kW, floor_area: 120 m²}\n" +
			"circuits: [{name: House, emitters: [{radiator: {output: 9 kW}}]}]\nboiler: {kind: condensing, output: 20 kW}\n"))
		if err != nil {
			t.Fatal(err)
		}
		for _, reader := range []units.System{units.US, units.SI} {
			s, err := Solve(j, Options{System: reader})
			if err != nil {
				t.Fatal(err)
			}
			if got := s.Circuits[0].Setpoint; math.Abs(float64(got-want)) > 1e-9 {
				t.Errorf("%s: %v, want %v", display, got, want)
			}
		}
	}
}

// TestASupplyReadsAsItIsEntered: in the step of the control where the reader has its degrees.
func TestASupplyReadsAsItIsEntered(t *testing.T) {
	for _, x := range []struct {
		scale, reader units.System
		step          float64
		want          string
	}{
		{units.SI, units.SI, 0.5, "71.5"}, {units.SI, units.SI, 1, "71"}, {units.SI, units.SI, 5, "71"},
		{units.SI, units.US, 0.5, "161"}, {units.US, units.US, 1, "161"}, {units.US, units.SI, 1, "71"},
	} {
		s := Sheet{Scale: x.scale, step: units.Step{System: x.scale, Size: x.step}}
		if got := s.SupplyText(x.reader, units.Celsius(71.45)); got != x.want {
			t.Errorf("%+v: %s", x, got)
		}
	}
}
