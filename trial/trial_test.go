package trial_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/year"
)

func read(t testing.TB, document []byte) *job.Job {
	t.Helper()
	j, err := job.Read(document)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// TestSteadyColdIsWhatTheSheetSays plays the design day for weeks, with every valve open
// and only the gains that the sheet counts on: each room must settle where the sheet
// says it does.
func TestSteadyColdIsWhatTheSheetSays(t *testing.T) {
	for _, e := range examples.List() {
		tr, err := trial.New(read(t, []byte(e.Document)), trial.Options{})
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		for i := range tr.House.Rooms {
			tr.House.Rooms[i].Open = 0
			for h := range tr.House.Rooms[i].Gains {
				tr.House.Rooms[i].Gains[h] = tr.Plan.Rooms[i].Gains
			}
			tr.House.Rooms[i].Airing, tr.House.Rooms[i].Shade = year.Airing{}, year.Shade{}
		}
		for i := range tr.Plant.Circuits {
			c := &tr.Plant.Circuits[i]
			c.Thermostat = 0
			for k := range c.Radiators {
				c.Radiators[k].Valve = year.Valve{}
			}
			for k := range c.Slabs {
				c.Slabs[k].Valve = year.Valve{}
			}
		}
		// A boiler without limit and without hot water, nothing lowered, no room sensor: what
		// is tested is the house.
		tr.Plant.Boiler.Most *= 2
		tr.Plant.Tank, tr.Plant.Combi, tr.Settings[0].HeatingLimit = nil, nil, 0
		for i := range tr.Settings[0].Circuits {
			tr.Settings[0].Circuits[i].Program, tr.Settings[0].Circuits[i].Influence = nil, 0
		}
		r, err := year.Run(tr.House, tr.Plant, tr.Settings[0], year.Steady(tr.Plan.Design, 14, 4), year.Options{})
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		want := map[string]units.Temperature{}
		for _, c := range tr.Plan.Sheet.Circuits {
			for i, room := range c.Rooms {
				want[room.Name] = c.Points[0].Rooms[i].Reaches
			}
		}
		for _, room := range r.Rooms {
			if d := float64(room.Mean - want[room.Name]); math.Abs(d) > 0.5 {
				t.Errorf("%s: %s settles at %.2f °C, the sheet says %.2f °C", e.Name, room.Name, room.Mean.Celsius(), want[room.Name].Celsius())
			}
		}
	}
}

// TestAYearOfEveryExample: heat is conserved, nobody freezes under the sheet, and what
// it is played against costs more fuel.
func TestAYearOfEveryExample(t *testing.T) {
	for _, e := range examples.List() {
		tr, err := trial.New(read(t, []byte(e.Document)), trial.Options{Seed: 1, Against: []trial.Against{trial.Preset, trial.Fixed}})
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		results, err := tr.Run(nil)
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		for i, r := range results {
			if r.Balance.OpenShare > 1e-9 {
				t.Errorf("%s, %s: %g of the heat is missing", e.Name, r.Settings, float64(r.Balance.OpenShare))
			}
			// Where a room thermostat holds a floor back and everything condenses, the curve
			// saves next to nothing.
			if i > 0 && r.Fuel < 0.995*results[0].Fuel {
				t.Errorf("%s: %s takes %v, the sheet %v", e.Name, r.Settings, r.Fuel, results[0].Fuel)
			}
		}
		for _, room := range results[0].Rooms {
			set := tr.House.Rooms[0].Set
			if room.Low < set.Add(-4) {
				t.Errorf("%s: %s falls to %.1f °C under the sheet", e.Name, room.Name, room.Low.Celsius())
			}
		}
		var b bytes.Buffer
		if err := tr.WriteText(&b, results, units.US); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"made-up year", "preset", "fixed", "Assumed", results[0].Rooms[0].Name} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: the text lacks %q", e.Name, want)
			}
		}
	}
}

// TestARealYear plays Duluth, if it lies beside the project.
func TestARealYear(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "shared", "weather", "USA_MN_Duluth.727450_TMY3.epw.gz"))
	if err != nil {
		t.Skip("no typical year beside the project: a trial on one is left out")
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	y, err := weather.Parse(data, weather.Place{})
	if err != nil {
		t.Fatal(err)
	}
	tr, err := trial.New(read(t, []byte(examples.List()[0].Document)), trial.Options{Weather: y})
	if err != nil {
		t.Fatal(err)
	}
	results, err := tr.Run(nil)
	if err != nil {
		t.Fatal(err)
	}
	if tr.MadeUp || results[0].Fuel <= 0 {
		t.Errorf("made up %v, fuel %v", tr.MadeUp, results[0].Fuel)
	}
}

// TestATraceChangesNothing: written down or not, the year is the same.
func TestATraceChangesNothing(t *testing.T) {
	tr, err := trial.New(read(t, []byte(examples.List()[0].Document)), trial.Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	alone, err := tr.Run(nil)
	if err != nil {
		t.Fatal(err)
	}
	traced, trace, err := tr.Traced(units.Hours(1))
	if err != nil {
		t.Fatal(err)
	}
	if traced.Fuel != alone[0].Fuel || traced.Starts != alone[0].Starts || traced.Rooms[0] != alone[0].Rooms[0] {
		t.Errorf("traced: %v and %d starts; alone: %v and %d", traced.Fuel, traced.Starts, alone[0].Fuel, alone[0].Starts)
	}
	if want := len(tr.Weather.Outdoor); trace.Rows != want || trace.Rows*len(trace.Columns) != len(trace.Values) {
		t.Errorf("%d rows of %d columns in %d values, want %d rows", trace.Rows, len(trace.Columns), len(trace.Values), want)
	}
	for i, outdoor := range tr.Weather.Outdoor {
		if got := units.Temperature(trace.At(i, 0)).Celsius(); math.Abs(got-outdoor) > 1e-6 {
			t.Fatalf("hour %d: %g °C outdoors, the weather has %g", i+1, got, outdoor)
		}
	}
	for _, every := range []units.Time{0, -60, 59, 90, units.Time(math.NaN())} {
		if _, _, err := tr.Traced(every); err == nil || !strings.Contains(err.Error(), "whole minutes") {
			t.Errorf("a row every %g s: %v", float64(every), err)
		}
	}
}

func TestRefusals(t *testing.T) {
	const document = `curvewright: 1
job: Refused
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {%s load: 6 kW, setpoint: 21 °C}
circuits:
  - name: A
    emitters:
      - %s
%scontrol: {scale: celsius, curve: {two_points: {}}}
`
	good := []any{"floor_area: 100 m²,", "radiator: {output: 9 kW}", ""}
	for _, c := range []struct {
		place      int
		with, want string
	}{
		{2, "separator: {kind: two-pipe buffer}\n", "has no volume"},
	} {
		args := append([]any{}, good...)
		args[c.place] = c.with
		_, err := trial.New(read(t, []byte(fmt.Sprintf(document, args...))), trial.Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want a sentence with %q", c.with, err, c.want)
		}
	}
	if _, err := trial.New(read(t, []byte(fmt.Sprintf(document, good...))), trial.Options{Against: []trial.Against{"guess"}}); err == nil || !strings.Contains(err.Error(), "accepted: preset, fixed, as-found") {
		t.Errorf("an unknown opponent: %v", err)
	}
}

// TestFanCoilsSettleWhereTheSheetSays plays fan coils in steady cold with their fans always
// on: the room ends where the sheet says it does.
func TestFanCoilsSettleWhereTheSheetSays(t *testing.T) {
	tr, err := trial.New(read(t, []byte(`curvewright: 1
job: Fan coils
site: {design_outdoor: -15 °C, annual_mean: 7 °C}
house: {floor_area: 120 m², load: 6 kW, setpoint: 21 °C}
circuits:
  - name: Coils
    emitters:
      - {count: 3, fan_coil: {output: 4 kW, entering_water: 60 °C, entering_air: 20 °C, water_flow: 6 L/min, air_flow: 600 m³/h}}
boiler: {kind: condensing, fuel: natural gas, output: 20 kW, min_output: 3 kW}
control: {scale: celsius, curve: {two_points: {}}}
`)), trial.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if v := tr.Plant.Circuits[0].Radiators[0].Valve.Kind; v != year.OnOff {
		t.Errorf("a fan coil has valve %v, want its own thermostat", v)
	}
	for i := range tr.Plant.Circuits[0].Radiators {
		tr.Plant.Circuits[0].Radiators[i].Valve = year.Valve{}
	}
	room := &tr.House.Rooms[0]
	room.Airing, room.Shade = year.Airing{}, year.Shade{}
	for h := range room.Gains {
		room.Gains[h] = tr.Plan.Rooms[0].Gains
	}
	tr.Settings[0].HeatingLimit = 0
	r, err := year.Run(tr.House, tr.Plant, tr.Settings[0], year.Steady(tr.Plan.Design, 14, 4), year.Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := tr.Plan.Sheet.Circuits[0].Points[0].Rooms[0].Reaches
	if d := float64(r.Rooms[0].Mean - want); math.Abs(d) > 0.5 {
		t.Errorf("the room settles at %.2f °C, the sheet says %.2f °C", r.Rooms[0].Mean.Celsius(), want.Celsius())
	}
}
