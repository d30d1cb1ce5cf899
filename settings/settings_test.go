package settings_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

func read(t testing.TB, document string) *job.Job {
	t.Helper()
	j, err := job.Read([]byte(document))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func example(t testing.TB, name string) *job.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return read(t, string(data))
}

func solve(t testing.TB, j *job.Job) *settings.Sheet {
	t.Helper()
	o := settings.DefaultOptions(j)
	o.Samples = 100
	s, err := settings.Solve(j, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// largeHouse is twelve rooms on three circuits: radiators in parallel, a loop of
// baseboard, and floors.
func largeHouse() string {
	var b strings.Builder
	b.WriteString(`curvewright: 1
job: Twelve rooms
display: us
site:
  design_outdoor: -6 °F
  annual_mean: 43 °F
house:
  setpoint: 70 °F
  blower_door: 8 /h
constructions:
  - name: wall
    layers:
      - {material: siding, thickness: 0.5 in, conductivity: 0.13 W/mK}
      - {material: wool, thickness: 5.5 in, conductivity: 0.04 W/mK, bridged_by: 0.13 W/mK, bridge_share: 20 %}
      - {material: board, thickness: 0.5 in, conductivity: 0.21 W/mK}
circuits:
  - {name: Radiators, kind: direct, drop: 20 °F}
  - {name: Baseboards, kind: direct, layout: series, drop: 15 °F}
  - {name: Floors, kind: mixed, drop: 10 °F}
boiler: {output: "100,000 Btu/h", min_output: "12,000 Btu/h"}
control:
  scale: fahrenheit
  curve: {bent: {}}
rooms:
`)
	emitters := []string{
		"{circuit: Radiators, cast_iron: {edr: 40 sq ft EDR}}",
		"{circuit: Baseboards, fin_tube: {length: 16 ft}}",
		"{circuit: Floors, floor: {construction: wet slab, area: 150 ft², spacing: 9 in, covering_kind: tile}}",
	}
	for i := range 12 {
		fmt.Fprintf(&b, `  - name: Room %d
    area: %d ft²
    elements:
      - {name: wall, area: %d ft², construction: wall}
      - {name: window, area: 24 ft², u: U-0.32}
      - {name: ceiling, area: %d ft², u: U-0.03}
    emitters:
      - %s
`, i+1, 150+5*i, 180+4*i, 150+5*i, emitters[i%3])
	}
	return b.String()
}

// TestEveryFigureIsANumber walks the whole sheet of every example: no NaN, no
// infinity, no empty value on a line.
func TestEveryFigureIsANumber(t *testing.T) {
	for _, name := range []string{"short-survey", "ridge-house", "combi-slab", "bills-house"} {
		s := solve(t, example(t, name))
		finite(t, name, reflect.ValueOf(s))
		ids := map[string]bool{}
		for _, sec := range s.Sections {
			for _, l := range sec.Lines {
				if l.ID == "" || ids[l.ID] || l.Value == "" || l.Why == "" || l.Label == "" {
					t.Errorf("%s: line %q: empty or twice: %+v", name, l.ID, l)
				}
				if len(l.Working) == 0 {
					t.Errorf("%s: line %q has no working", name, l.ID)
				}
				for _, w := range l.Working {
					if w.Name == "" || w.Formula == "" || w.Range == "" || w.Source == "" {
						t.Errorf("%s: line %q: a step of its working lacks name, formula, range or source: %+v", name, l.ID, w)
					}
				}
				ids[l.ID] = true
			}
		}
		for _, c := range s.Circuits {
			if len(c.Points) < 5 || len(c.Band) < 3 {
				t.Errorf("%s: circuit %s has %d points and %d band points", name, c.Name, len(c.Points), len(c.Band))
			}
		}
	}
}

func finite(t *testing.T, path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Errorf("%s is %v", path, v.Float())
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			finite(t, path, v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.String:
		if s := v.String(); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") || strings.Contains(s, "%!") || strings.Contains(s, "no value") {
			t.Errorf("%s reads %q", path, s)
		}
	}
}

// TestUnitsChangeNoValue: solved for a reader of °F and for one of °C the control is
// set the same.
func TestUnitsChangeNoValue(t *testing.T) {
	for _, name := range []string{"short-survey", "ridge-house", "combi-slab", "bills-house"} {
		j := example(t, name)
		if j.Control.Scale == "" {
			t.Fatalf("%s: the example should say the control's scale", name)
		}
		us, err := settings.Solve(j, settings.Options{System: units.US})
		if err != nil {
			t.Fatal(err)
		}
		si, err := settings.Solve(j, settings.Options{System: units.SI})
		if err != nil {
			t.Fatal(err)
		}
		if us.Load.Total != si.Load.Total {
			t.Errorf("%s: load %v and %v", name, us.Load.Total, si.Load.Total)
		}
		for i := range us.Circuits {
			a, b := us.Circuits[i].Points[0], si.Circuits[i].Points[0]
			if a.Ideal != b.Ideal {
				t.Errorf("%s: %s needs %v and %v", name, us.Circuits[i].Name, a.Ideal, b.Ideal)
			}
			// The grids of outdoor temperatures differ, so the fit may move by a step.
			if d := math.Abs(float64(a.Set - b.Set)); d > 1.2 {
				t.Errorf("%s: %s is set to %v and %v", name, us.Circuits[i].Name, a.Set, b.Set)
			}
		}
	}
}

// supplyOf is the ideal supply on the design day of the first circuit.
func supplyOf(t *rapid.T, document string) (float64, bool) {
	j, err := job.Read([]byte(document))
	if err != nil {
		t.Fatal(err)
	}
	s, err := settings.Solve(j, settings.Options{System: units.SI})
	if err != nil {
		return 0, false
	}
	return s.Circuits[0].Points[0].Ideal.Celsius(), true
}

const simple = `curvewright: 1
job: Simple
site: {design_outdoor: %.1f °C, annual_mean: 7 °C}
house: {floor_area: 150 m², load: %.0f W, setpoint: %.1f °C}
circuits:
  - name: Radiators
    flow: 12 L/min
    emitters:
      - radiator: {output: %.0f W}
control: {scale: celsius, curve: {two_points: {}}}
`

// TestLawsOfTheSheet: more load needs hotter water, more radiator cooler, a warmer
// room hotter. A colder design day asks for more only where the house is the same, so
// it is not among them.
func TestLawsOfTheSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := rapid.Float64Range(3000, 12000).Draw(t, "load")
		size := load * rapid.Float64Range(1, 3).Draw(t, "size")
		room := rapid.Float64Range(17, 22).Draw(t, "room")
		design := rapid.Float64Range(-30, -5).Draw(t, "design")
		base, ok := supplyOf(t, fmt.Sprintf(simple, design, load, room, size))
		if !ok {
			return
		}
		for _, c := range []struct {
			what             string
			load, room, size float64
			sign             float64
		}{
			{"more load", load * 1.1, room, size, 1},
			{"more radiator", load, room, size * 1.2, -1},
			{"a warmer room, same loss", load * (room + 1 - design) / (room - design), room + 1, size, 1},
		} {
			got, ok := supplyOf(t, fmt.Sprintf(simple, design, c.load, c.room, c.size))
			if ok && (got-base)*c.sign <= 0 {
				t.Errorf("%s: supply goes from %.2f to %.2f °C", c.what, base, got)
			}
		}
	})
}

// TestRoomsHoldTheirSetpoint: at the set curve every room of every example reaches its
// set-point within the tolerance, or the sheet says that it does not.
func TestRoomsHoldTheirSetpoint(t *testing.T) {
	documents := map[string]*job.Job{"large": read(t, largeHouse())}
	for _, name := range []string{"short-survey", "ridge-house", "combi-slab", "bills-house"} {
		documents[name] = example(t, name)
	}
	for name, j := range documents {
		s := solve(t, j)
		for _, c := range s.Circuits {
			for _, p := range c.Points {
				for i, r := range p.Rooms {
					short := float64(c.Rooms[i].Setpoint - r.Reaches)
					if short <= 0.6 {
						continue
					}
					said := false
					for _, f := range s.Findings {
						said = said || (f.Severity == "short" && f.Room == c.Rooms[i].Name)
					}
					if !said {
						t.Errorf("%s: %s on %s is %.1f K short at %v and no finding says so", name, c.Rooms[i].Name, c.Name, short, p.Outdoor.Text(units.SI))
					}
				}
			}
		}
	}
}

// TestCuresCure takes the finding at its word: with the remedy the room is warm.
func TestCuresCure(t *testing.T) {
	document := `curvewright: 1
job: Too little
display: si
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 100 m², load: 8 kW, setpoint: 21 °C, gains: 0 W}
circuits:
  - name: Radiators
    flow: 12 L/min
    max_supply: 60 °C
    emitters:
      - radiator: {output: %.0f W}
control: {scale: celsius, curve: {bent: {}}}
`
	s := solve(t, read(t, fmt.Sprintf(document, 9000.0)))
	var short *settings.Finding
	for i := range s.Findings {
		if s.Findings[i].Severity == "short" {
			short = &s.Findings[i]
		}
	}
	if short == nil {
		t.Fatal("a house with too little radiator has no finding")
	}
	var percent float64
	for _, c := range short.Cures {
		if strings.Contains(c, "more emitter") {
			if _, err := fmt.Sscanf(c, "%f", &percent); err != nil {
				t.Fatalf("cure %q: %v", c, err)
			}
		}
	}
	if percent <= 0 {
		t.Fatalf("no cure by more emitter among %q", short.Cures)
	}
	for _, c := range []struct {
		factor float64
		warm   bool
	}{{1 + percent/100, true}, {1 + (percent-8)/100, false}} {
		s := solve(t, read(t, fmt.Sprintf(document, 9000*c.factor)))
		worst := float64(s.Circuits[0].Setpoint - s.Circuits[0].Points[0].Rooms[0].Reaches)
		if (worst <= 0.2) != c.warm {
			t.Errorf("with %.0f %% more emitter the room is %.2f K short", 100*(c.factor-1), worst)
		}
	}
}

// TestImpossibleJobs: each gives a sentence that names the place, never NaN.
func TestImpossibleJobs(t *testing.T) {
	base := `curvewright: 1
job: Impossible
site: {design_outdoor: %s, annual_mean: 6 °C}
house: {floor_area: 100 m², load: 6 kW, setpoint: 21 °C}
circuits:
  - name: Radiators
    %s
    emitters:
      - %s
boiler: {%s}
control: {scale: celsius, curve: {%s}}
`
	good := []any{"-20 °C", "drop: 10 K", "radiator: {output: 9 kW}", "kind: condensing", "two_points: {}"}
	for _, c := range []struct {
		name  string
		place int
		with  string
		want  string
	}{
		{"design above the mean", 0, "4 °C", "annual mean"},
		{"set-point below design", 0, "22 °C", "design_outdoor"},
		{"emitter with next to no output", 2, "radiator: {output: 1 W}", ""},
		{"limit below the room", 1, "max_supply: 20 °C", "max_supply"},
		{"limits exclude each other", 3, "min_supply: 70 °C, max_supply: 71 °C, kind: condensing", ""},
		{"non-condensing boiler on a cool limit", 3, "kind: non-condensing, max_supply: 55 °C", ""},
		{"ranges too low for the house", 4, "two_points: {cold_supply: {from: 20 °C, to: 30 °C}}", ""},
		{"points that leave no curve", 4, "two_points: {cold_outdoor: -10 °C, mild_outdoor: -8 °C}", ""},
		{"no flow", 1, "flow: 0 L/min", "flow"},
	} {
		t.Run(c.name, func(t *testing.T) {
			args := append([]any{}, good...)
			args[c.place] = c.with
			j, err := job.Read([]byte(fmt.Sprintf(base, args...)))
			var s *settings.Sheet
			if err == nil {
				s, err = settings.Solve(j, settings.Options{System: units.US, Samples: 20})
			}
			if c.want == "" {
				if err != nil {
					t.Fatal(err)
				}
				finite(t, c.name, reflect.ValueOf(s))
				return
			}
			if err == nil {
				t.Fatalf("solved, with %d findings; want an error about %q", len(s.Findings), c.want)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want a sentence with %q", err, c.want)
			}
		})
	}
}

// TestDryBoilerStraightIntoAFloorIsStopped: boiler water of 140 °F may not enter a floor;
// the sheet says so and goes on with what the floor may see.
func TestDryBoilerStraightIntoAFloorIsStopped(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Floor on a dry boiler
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 100 m², load: 5 kW, setpoint: 21 °C}
circuits:
  - name: Floor
    emitters:
      - floor: {construction: wet slab, area: 90 m², spacing: 150 mm, covering_kind: tile}
boiler: {kind: non-condensing, fuel: natural gas}
control: {scale: celsius, curve: {two_points: {}}}
`))
	for _, f := range s.Findings {
		if f.Severity == "stop" && strings.Contains(f.Text, "must not go into it directly") && strings.Contains(strings.Join(f.Cures, ""), "mixing valve") {
			return
		}
	}
	t.Errorf("not stopped: %+v", s.Findings)
}

// TestLoopTellsWhoGetsTooMuch: what the first radiators of a loop give too much is said,
// and the boiler is not limited below it.
func TestLoopTellsWhoGetsTooMuch(t *testing.T) {
	document := `curvewright: 1
job: Loop
display: si
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {setpoint: 21 °C}
rooms:
  - {name: First, area: 10 m², load: 500 W, gains: 0 W, emitters: [{radiator: {output: 4 kW}}]}
  - {name: Last, area: 20 m², load: 1500 W, gains: 0 W, emitters: [{radiator: {output: 2 kW}}]}
circuits:
  - {name: Loop, layout: series, flow: 3 L/min}
boiler: {output: 20 kW}
control: {scale: celsius, output_limit: power, curve: {bent: {}}}
`
	s := solve(t, read(t, document))
	// By hand: 85 °C in, the first radiator gives 4.4 kW, the second 1.5 kW; 208 W/K of
	// water come back at about 56.5 °C.
	p := s.Circuits[0].Points[0]
	if math.Abs(p.Ideal.Celsius()-85) > 1.5 || math.Abs(p.Return.Celsius()-56.5) > 2 {
		t.Errorf("supply %.1f °C, return %.1f °C", p.Ideal.Celsius(), p.Return.Celsius())
	}
	said := false
	for _, f := range s.Findings {
		said = said || strings.Contains(f.Text, "First (")
	}
	if !said {
		t.Errorf("nobody says that the first room gets too much: %+v", s.Findings)
	}
	l, _ := lineOf(s, "output-limit")
	if !strings.HasPrefix(l.Value, "6.") {
		t.Errorf("output limit %s, want a tenth above 5.9 kW", l.Value)
	}
}

// TestTooSmallEmitterIsAFinding: nothing a house can have is hot enough, and the sheet
// says so in words.
func TestTooSmallEmitterIsAFinding(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Tiny
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 100 m², load: 6 kW, setpoint: 21 °C}
circuits:
  - name: Radiators
    emitters:
      - radiator: {output: 300 W}
control: {scale: celsius, curve: {table: {points: 4}}}
`))
	text := ""
	for _, f := range s.Findings {
		text += f.Text
	}
	if !strings.Contains(text, "falls short") || !strings.Contains(text, "no water of a house is hot enough") {
		t.Errorf("findings: %q", text)
	}
}

// TestWishedSetbackOnSlab and its like: what the control cannot do, or the house should
// not, is said on the line.
func TestWhatCannotBeIsSaid(t *testing.T) {
	line := func(s *settings.Sheet, id string) settings.Line {
		for _, sec := range s.Sections {
			for _, l := range sec.Lines {
				if l.ID == id {
					return l
				}
			}
		}
		t.Fatalf("no line %q", id)
		return settings.Line{}
	}
	base := func(change func(*job.Job)) *settings.Sheet {
		j := example(t, "ridge-house")
		change(j)
		return solve(t, j)
	}
	if l := line(base(func(j *job.Job) { j.Control.PointsPerDay = 0; j.Program.Wish = "night" }), "program"); l.Instead == "" || !strings.HasPrefix(l.Value, "hold") {
		t.Errorf("setback without a program: %+v", l)
	}
	if l := line(base(func(j *job.Job) { j.Control.CutOff = nil }), "cut-off"); l.Instead == "" {
		t.Errorf("no cut-off: %+v", l)
	}
	if l := line(base(func(j *job.Job) { j.Separator.Sensor = "none" }), "separator-sensor"); l.Instead == "" || l.Value != "none" {
		t.Errorf("separator without sensor: %+v", l)
	}
	if l := line(base(func(j *job.Job) { j.OutdoorSensor.Fitted = "no" }), "outdoor-sensor"); l.Instead == "" {
		t.Errorf("no outdoor sensor: %+v", l)
	}
	if l := line(base(func(j *job.Job) { j.Control.FrostBy = []string{"room"} }), "frost"); l.Instead == "" {
		t.Errorf("pipes outside and a frost function that sees only the room: %+v", l)
	}
	if l := line(base(func(j *job.Job) { j.Control.SlabLimit = "no" }), "slab.max-supply"); l.Instead == "" {
		t.Errorf("slab without a limit of its own: %+v", l)
	}
	slab := example(t, "combi-slab")
	slab.Program.Wish, slab.Control.PointsPerDay = "night", 6
	if l := line(solve(t, slab), "program"); !strings.HasPrefix(l.Value, "hold") || !strings.Contains(l.Why, "floor follows") {
		t.Errorf("night setback on a slab: %+v", l)
	}
	if l := line(solve(t, example(t, "combi-slab")), "slab.design-supply"); !strings.Contains(l.Caution, "130 °F") {
		t.Errorf("no caution beside a slab's supply: %+v", l)
	}
	tank := base(func(j *job.Job) { j.HotWater.Mixing = "no" })
	said := false
	for _, f := range tank.Findings {
		said = said || (f.Severity == "stop" && strings.Contains(f.Text, "scald"))
	}
	if !said {
		t.Error("a hot tank without a mixing valve is not stopped")
	}
}

// TestBandNarrowsWithKnowledge: what was measured is surer than what was guessed, the
// seed fixes the band, and the named measurement is the one that matters.
func TestBandNarrowsWithKnowledge(t *testing.T) {
	document := `curvewright: 1
job: Known
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 100 m², load: {value: 6 kW, known: %s}, setpoint: 21 °C}
circuits:
  - name: Radiators
    flow: {value: 9 L/min, known: measured}
    emitters:
      - radiator: {output: {value: 9 kW, known: measured}}
control: {scale: celsius, curve: {two_points: {}}}
`
	width := func(known string) (float64, *settings.Sheet) {
		s := solve(t, read(t, fmt.Sprintf(document, known)))
		b := s.Circuits[0].Band[0]
		if !(b.Low < b.Median && b.Median < b.High) {
			t.Fatalf("band %v", b)
		}
		return float64(b.High - b.Low), s
	}
	measured, _ := width("measured")
	drawings, _ := width("drawings")
	estimated, s := width("estimated")
	if !(measured < drawings && drawings < estimated) {
		t.Errorf("bands: measured %.1f K, drawings %.1f K, estimated %.1f K", measured, drawings, estimated)
	}
	if len(s.Surer) == 0 || !strings.Contains(s.Surer[0].What, "heat loss of the house") {
		t.Errorf("to be surer: %+v", s.Surer)
	}
	again, _ := width("estimated")
	if again != estimated {
		t.Errorf("the same seed gives %.3f and %.3f K", estimated, again)
	}
}

// TestTheDocumentIsNotChanged: solving reads, it does not write.
func TestTheDocumentIsNotChanged(t *testing.T) {
	j := example(t, "ridge-house")
	before, err := job.Write(j)
	if err != nil {
		t.Fatal(err)
	}
	solve(t, j)
	after, err := job.Write(j)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(before, after) {
		t.Error("solving changed the job")
	}
}

// FuzzReadAndSolve: whatever the text, either faults in sentences or a sheet of
// numbers.
func FuzzReadAndSolve(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("..", "examples", "*.yaml"))
	if err != nil || len(files) == 0 {
		f.Fatal("no examples to start from")
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(largeHouse()))
	f.Add([]byte(fmt.Sprintf(simple, -20.0, 6000.0, 21.0, 9000.0)))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := job.Read(data)
		if err != nil {
			var faults *job.Faults
			if !errors.As(err, &faults) || j != nil {
				t.Fatalf("refused without faults: %v", err)
			}
			return
		}
		s, err := settings.Solve(j, settings.Options{System: units.US, Samples: 5, Seed: 1})
		if err != nil {
			if err.Error() == "" || s != nil {
				t.Fatal("refused without a sentence")
			}
			return
		}
		finite(t, "sheet", reflect.ValueOf(s))
	})
}

func BenchmarkSolve(b *testing.B) {
	j := read(b, largeHouse())
	for _, samples := range []int{0, 500} {
		b.Run(fmt.Sprintf("rooms=12/circuits=3/samples=%d", samples), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := settings.Solve(j, settings.Options{System: units.US, Samples: samples, Seed: 1}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkReadDocument(b *testing.B) {
	data := []byte(largeHouse())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := job.Read(data); err != nil {
			b.Fatal(err)
		}
	}
}

// TestReturnBalancesWhereARoomFallsShort: the water gives up what the room loses where
// it settles, not what it would at a set-point that it never reaches.
func TestReturnBalancesWhereARoomFallsShort(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Short
display: si
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 100 m², load: 8 kW, setpoint: 21 °C, gains: 0 W}
circuits:
  - name: Radiators
    flow: 12 L/min
    max_supply: 55 °C
    emitters:
      - radiator: {output: 9 kW}
control: {scale: celsius, curve: {two_points: {}}}
`))
	p := s.Circuits[0].Points[0]
	reaches := p.Rooms[0].Reaches
	if reaches >= units.Celsius(20) {
		t.Fatalf("the house is not short: %.1f °C", reaches.Celsius())
	}
	lost := 8000.0 / 41 * (reaches.Celsius() + 20)
	carried := float64(p.Set-p.Return) * 12.0 / 60000 * 4.11e6
	if math.Abs(lost-carried) > 0.02*lost {
		t.Errorf("the house loses %.0f W at %.1f °C, the water gives %.0f W", lost, reaches.Celsius(), carried)
	}
}

// TestTrickleIsRefused: a flow that no house has is named as such.
func TestTrickleIsRefused(t *testing.T) {
	j := read(t, fmt.Sprintf(simple, -20.0, 6000.0, 21.0, 9000.0))
	j.Circuits[0].Flow = job.Says(units.LitresPerMinute(0.5), job.Measured)
	if _, err := settings.Solve(j, settings.Options{}); err == nil || !strings.Contains(err.Error(), "too little") {
		t.Errorf("half a litre a minute: %v", err)
	}
}
