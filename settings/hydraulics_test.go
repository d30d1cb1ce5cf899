package settings_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// behindHeader is a house on a separator: radiators direct, a floor behind a valve.
const behindHeader = `curvewright: 1
job: Behind a header
display: si
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {floor_area: 150 m², load: 9 kW, setpoint: 21 °C}
circuits:
  - name: Radiators
    kind: direct
    flow: %s
    share: 70 %%
    %s
    emitters:
      - radiator: {output: 9 kW}
  - name: Floor
    kind: mixed
    drop: 5 K
    %s
    emitters:
      - floor: {construction: wet slab, area: 50 m², spacing: 150 mm, covering_kind: tile%s}
boiler: {kind: condensing, fuel: natural gas, output: 15 kW}
separator: {%s}
%s
control: {scale: celsius, curve: {two_points: {}}}
`

type header struct{ flow, radiators, floor, loops, separator, more string }

func (h header) document() string {
	if h.flow == "" {
		h.flow = "10 L/min"
	}
	if h.separator == "" {
		h.separator = "kind: low-loss header, sensor: at the boiler"
	}
	return fmt.Sprintf(behindHeader, h.flow, h.radiators, h.floor, h.loops, h.separator, h.more)
}

func hydraulicLine(s *settings.Sheet, id string) *settings.Line {
	for i := range s.Sections {
		for k := range s.Sections[i].Lines {
			if l := &s.Sections[i].Lines[k]; l.ID == id {
				return l
			}
		}
	}
	return nil
}

func finding(s *settings.Sheet, part string) *settings.Finding {
	for i := range s.Findings {
		if strings.Contains(s.Findings[i].Text, part) {
			return &s.Findings[i]
		}
	}
	return nil
}

// heats are the heat that leaves the boiler and the heat that reaches the circuits.
func heats(s *settings.Sheet, p settings.FlowPoint) (boiler, circuits float64) {
	boiler = float64(p.BoilerFlow) * float64(p.BoilerSupply-p.BoilerReturn)
	for _, c := range p.Circuits {
		circuits += float64(c.Flow) * float64(c.Supply-c.Return)
	}
	return boiler, circuits
}

// TestHeatIsKept: whatever the separator mixes, the boiler sends the heat that the
// circuits take, no circuit gets hotter water than the boiler sends, and the boiler's
// return lies between the coolest return and its supply.
func TestHeatIsKept(t *testing.T) {
	kinds := []string{"kind: none", "kind: low-loss header", "kind: closely spaced tees", "kind: two-pipe buffer", "kind: three-pipe buffer", "kind: four-pipe buffer"}
	rapid.Check(t, func(t *rapid.T) {
		sep := rapid.SampledFrom(kinds).Draw(t, "separator")
		if sep != "kind: none" {
			sep += fmt.Sprintf(", boiler_flow: %.1f L/min", rapid.Float64Range(4, 40).Draw(t, "boiler"))
			sep += rapid.SampledFrom([]string{"", ", sensor: none", ", sensor: on a module"}).Draw(t, "sensor")
		}
		more := rapid.SampledFrom([]string{"", "system: {antifreeze: propylene glycol, antifreeze_share: 30 %}"}).Draw(t, "fill")
		h := header{flow: fmt.Sprintf("%.1f L/min", rapid.Float64Range(5, 25).Draw(t, "flow")), separator: sep, more: more}
		j, err := job.Read([]byte(h.document()))
		if err != nil {
			t.Fatal(err)
		}
		s, err := settings.Solve(j, settings.Options{System: units.SI})
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Flows) != len(s.Circuits[0].Points) {
			t.Fatalf("%d flow points for %d outdoor temperatures", len(s.Flows), len(s.Circuits[0].Points))
		}
		for k, p := range s.Flows {
			// Volume flows of circuits count at other temperatures than the boiler's.
			if boiler, circuits := heats(s, p); math.Abs(boiler-circuits) > 0.02*circuits+1e-9 {
				t.Errorf("%v: boiler %g, circuits %g", p.Outdoor, boiler, circuits)
			}
			coolest := units.Temperature(1000)
			for i, c := range p.Circuits {
				coolest = min(coolest, c.Return)
				if c.Supply > p.Secondary+0.02 || p.Secondary > p.BoilerSupply+1e-6 {
					t.Errorf("%v: %s gets %v of %v of %v", p.Outdoor, c.Name, c.Supply, p.Secondary, p.BoilerSupply)
				}
				if c.Hot < 0 || c.Hot > 1 || (!c.Mixed && c.Hot != 1) {
					t.Errorf("%v: %s takes %v of hot water", p.Outdoor, c.Name, c.Hot)
				}
				if set := s.Circuits[i].Points[k].Set; c.Mixed && c.Supply < set-0.01 && finding(s, "moves too little") == nil {
					t.Errorf("%v: %s gets %v instead of %v and nothing says so", p.Outdoor, c.Name, c.Supply, set)
				}
			}
			if p.BoilerReturn < coolest-1e-6 || p.BoilerReturn > p.BoilerSupply+1e-6 {
				t.Errorf("%v: the boiler's return is %v, the coolest %v, its supply %v", p.Outdoor, p.BoilerReturn, coolest, p.BoilerSupply)
			}
			if s.Boiler.Points[k].Return != p.BoilerReturn {
				t.Errorf("%v: the season reckons with %v and the drawing shows %v", p.Outdoor, s.Boiler.Points[k].Return, p.BoilerReturn)
			}
		}
	})
}

// TestSeparatorBothWays: a boiler pump too slow cools the supply, one too fast warms the
// return; each is said with its cure, and matched flows say nothing.
func TestSeparatorBothWays(t *testing.T) {
	for _, c := range []struct {
		name, separator string
		offset          string // value of the line begins so
		says, cure      string
		instead         string // of the sensor's line contains
	}{
		{"slow, no sensor", "kind: low-loss header, sensor: none, boiler_flow: 7 L/min", "+", "cooler than the boiler's", "sensor in the common supply", "Fit one"},
		{"slow, with sensor", "kind: low-loss header, sensor: at the boiler, boiler_flow: 7 L/min", "none", "", "", ""},
		{"fast, no sensor", "kind: closely spaced tees, boiler_flow: 25 L/min", "none", "goes straight back", "slow the boiler's pump", "Not needed"},
		{"fast, with sensor", "kind: four-pipe buffer, sensor: on a module, boiler_flow: 25 L/min", "none", "goes straight back", "slow the boiler's pump", ""},
		{"not surveyed", "kind: low-loss header, sensor: none", "none", "", "", "compare the supply before and behind"},
		{"far too slow", "kind: low-loss header, sensor: at the boiler, boiler_flow: 2 L/min", "none", "moves too little", "a boiler pump for", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, read(t, header{separator: c.separator}.document()))
			l := hydraulicLine(s, "separator-offset")
			if l == nil || !strings.HasPrefix(l.Value, c.offset) {
				t.Fatalf("offset: %+v", l)
			}
			if sensor := hydraulicLine(s, "separator-sensor"); !strings.Contains(sensor.Instead, c.instead) || (c.instead == "" && sensor.Instead != "") {
				t.Errorf("sensor: %+v", sensor)
			}
			said := false
			for _, part := range []string{"cooler than the boiler's", "goes straight back", "moves too little"} {
				f := finding(s, part)
				said = said || f != nil
				if (f != nil) != (part == c.says) {
					t.Errorf("finding with %q: %+v", part, f)
				}
				if f != nil && !strings.Contains(strings.Join(f.Cures, "; "), c.cure) {
					t.Errorf("cures %q, want %q", f.Cures, c.cure)
				}
			}
			if said == (c.says == "") {
				t.Errorf("said %v", said)
			}
		})
	}
}

// TestOffsetIsTheBalance: the offset is what mass and energy ask for.
func TestOffsetIsTheBalance(t *testing.T) {
	s := solve(t, read(t, header{separator: "kind: low-loss header, sensor: none, boiler_flow: 7 L/min"}.document()))
	p := s.Flows[0]
	drawn := 0.0
	for _, c := range p.Circuits {
		drawn += float64(c.Flow) * float64(c.Hot)
	}
	// Q·(1/W_b − 1/ΣW) with Q = W_b·(Tb − Tbr).
	want := float64(p.BoilerSupply-p.BoilerReturn) * (1 - float64(p.BoilerFlow)/drawn)
	if got := float64(p.BoilerSupply - p.Secondary); math.Abs(got-want) > 0.1 || got < 1 {
		t.Errorf("offset %.2f K, by the balance %.2f K", got, want)
	}
	if f := s.Flows[len(s.Flows)-1]; f.BoilerSupply-f.Secondary >= p.BoilerSupply-p.Secondary {
		t.Errorf("the offset does not follow the load: %v on the design day, %v when mild", p.BoilerSupply-p.Secondary, f.BoilerSupply-f.Secondary)
	}
}

// TestFastBoilerPumpCostsCondensing: more bypass, a warmer return, less condensing.
func TestFastBoilerPumpCostsCondensing(t *testing.T) {
	condensing, last := 2.0, 0.0
	for _, flow := range []float64{11, 16, 25, 40} {
		s := solve(t, read(t, header{separator: fmt.Sprintf("kind: low-loss header, sensor: at the boiler, boiler_flow: %g L/min", flow)}.document()))
		if c := float64(s.Boiler.Condensing); c > condensing+1e-9 {
			t.Errorf("at %g L/min %.3f of the season condenses, more than with a slower pump", flow, c)
		} else {
			condensing = c
		}
		if r := float64(s.Flows[0].BoilerReturn); r < last-1e-9 {
			t.Errorf("at %g L/min the return is %.2f K, cooler than with a slower pump", flow, r)
		} else {
			last = r
		}
	}
}

// TestDirectCircuitsShareOneBoiler: a direct floor beside radiators is stopped.
func TestDirectCircuitsShareOneBoiler(t *testing.T) {
	document := strings.Replace(header{separator: "kind: none"}.document(), "kind: mixed", "kind: direct", 1)
	s := solve(t, read(t, document))
	if f := finding(s, "no mixing valve"); f == nil || f.Severity != "stop" || f.Circuit != "Floor" {
		t.Errorf("a floor on radiator water: %+v", f)
	}
	if p := s.Flows[0]; p.Circuits[1].Supply != p.BoilerSupply {
		t.Errorf("the floor is said to get %v of %v", p.Circuits[1].Supply, p.BoilerSupply)
	}
	if s.Flows[0].Separated {
		t.Error("no separator is surveyed and one is drawn")
	}
}

// TestMixingValve: chosen where none is given, judged where one is.
func TestMixingValve(t *testing.T) {
	for _, c := range []struct {
		name, floor string
		why         string
		bad         bool
	}{
		{"to choose", "", "To choose for", false},
		{"right", "valve: kv 2.5", "As found", false},
		{"too large", "valve: kv 16", "As found", true},
	} {
		s := solve(t, read(t, header{floor: c.floor}.document()))
		l := hydraulicLine(s, "floor.valve")
		if l == nil || !strings.Contains(l.Why, c.why) || (l.Instead != "") != c.bad || (finding(s, "valve of Floor is too large") != nil) != c.bad {
			t.Errorf("%s: %+v", c.name, l)
		}
		if hydraulicLine(s, "radiators.valve") != nil {
			t.Error("a direct circuit has a mixing valve")
		}
		for _, p := range s.Flows {
			if p.BoilerSupply < p.Circuits[1].Supply+2.9 && p.Circuits[1].Supply > p.Circuits[1].Return+0.1 {
				t.Errorf("%v: the boiler's %v leaves the valve nothing to mix for %v", p.Outdoor, p.BoilerSupply, p.Circuits[1].Supply)
			}
		}
	}
}

const (
	tube  = `{tube: copper EN 1057, size: 22x1, length: 30 m, bends: 8, valves: 2}`
	curve = `points: [{flow: 0 L/min, head: 60 kPa}, {flow: 15 L/min, head: 45 kPa}, {flow: 30 L/min, head: 5 kPa}]`
)

// TestPumps: what to dial in by mode; too weak and too strong are said.
func TestPumps(t *testing.T) {
	for _, c := range []struct {
		name, flow, radiators string
		value, says           string
	}{
		{"no pump surveyed", "", "pipes: [" + tube + "]", "kPa", ""},
		{"mode alone", "", "pipes: [" + tube + "]\n    pump: {mode: constant pressure}", "kPa", ""},
		{"fixed speed", "", "pipes: [{tube: copper EN 1057, size: 15x1, length: 30 m, bends: 8}]\n    pump: {" + curve + "}", "speed", ""},
		{"constant pressure", "", "pipes: [" + tube + "]\n    pump: {mode: constant pressure, " + curve + "}", "constant", ""},
		{"proportional pressure", "", "pipes: [" + tube + "]\n    pump: {mode: proportional pressure, " + curve + "}", "proportional", ""},
		{"too weak", "", "pipes: [{tube: copper EN 1057, size: 12x1, length: 60 m, bends: 20}]\n    pump: {" + curve + "}", "full speed", "too weak"},
		{"beyond its curve", "34 L/min", "pipes: [" + tube + "]\n    pump: {" + curve + "}", "full speed", "beyond the end"},
		{"too strong", "", "pipes: [{tube: copper EN 1057, size: 42x1.2, length: 5 m}]\n    pump: {" + curve + "}", "lowest speed", "larger than its circuit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, read(t, header{flow: c.flow, radiators: c.radiators}.document()))
			l := hydraulicLine(s, "radiators.pump")
			if l == nil || !strings.Contains(l.Value, c.value) {
				t.Fatalf("pump: %+v", l)
			}
			if hydraulicLine(s, "radiators.flow") == nil {
				t.Error("no flow to set")
			}
			for _, part := range []string{"too weak", "beyond the end", "larger than its circuit"} {
				if want := part == c.says || (part == "too weak" && c.says == "beyond the end"); (finding(s, part) != nil) != want {
					t.Errorf("finding %q: %+v", part, finding(s, part))
				}
			}
		})
	}
}

// TestTubes: too fast is a finding with a size that is not; branches get their valves.
func TestTubes(t *testing.T) {
	s := solve(t, read(t, header{radiators: "pipes: [{tube: copper EN 1057, size: 12x1, length: 20 m}]"}.document()))
	if f := finding(s, "may be heard"); f == nil || !strings.Contains(strings.Join(f.Cures, ";"), "22x1 copper EN 1057 in its place") && !strings.Contains(strings.Join(f.Cures, ";"), "copper EN 1057 in its place") {
		t.Errorf("2 m/s in a house: %+v", f)
	}
	s = solve(t, read(t, header{radiators: "pipes:\n      - " + tube + "\n      - {tube: multilayer, size: 20x2, length: 40 m, share: 60 %}\n      - {tube: multilayer, size: 20x2, length: 16 m, share: 40 %}"}.document()))
	l := hydraulicLine(s, "radiators.balance")
	if l == nil || !strings.Contains(l.Value, "run 2 open") || !strings.Contains(l.Value, "run 3 kv") {
		t.Fatalf("balance: %+v", l)
	}
	// Shares that do not make up the whole are one way, not branches.
	s = solve(t, read(t, header{radiators: "pipes:\n      - " + tube + "\n      - {tube: multilayer, size: 20x2, length: 40 m, share: 60 %}\n      - {tube: multilayer, size: 16x2, length: 16 m, share: 20 %}"}.document()))
	if hydraulicLine(s, "radiators.balance") != nil || hydraulicLine(s, "radiators.pump") == nil {
		t.Error("a way to the last radiator is balanced against itself")
	}
}

// TestLongerPipesTakeMoreHead is a law of the pump line's working.
func TestLongerPipesTakeMoreHead(t *testing.T) {
	last := 0.0
	for _, length := range []int{5, 20, 60, 200} {
		s := solve(t, read(t, header{radiators: fmt.Sprintf("pipes: [{tube: copper EN 1057, size: 22x1, length: %d m}]", length)}.document()))
		head := reflect.ValueOf(hydraulicLine(s, "radiators.pump").Working[0].Result.Value).Float()
		if head <= last {
			t.Errorf("%d m take %g Pa, shorter ones %g", length, head, last)
		}
		last = head
	}
}

// TestFloorLoops: what is not surveyed is worked out and said; a long loop is a finding.
func TestFloorLoops(t *testing.T) {
	for _, c := range []struct {
		name, loops string
		value, note string
	}{
		{"nothing known", "", "4 or more, each up to 91.4 m", ""},
		{"count alone", ", loops: 4", "4, the longest 87.3", ""},
		{"length alone", ", loop_length: 90 m", "4, the longest 90", ""},
		{"both", ", loops: 5, loop_length: 75 m", "5, the longest 75", ""},
		{"one", ", loops: 1, loop_length: 120 m", "1 of 120", "too long"},
		{"too long", ", loops: 2, loop_length: 170 m", "2, the longest 170", "too long"},
	} {
		s := solve(t, read(t, header{loops: c.loops}.document()))
		l := hydraulicLine(s, "floor.loops")
		if (l == nil) != (c.value == "") {
			t.Errorf("%s: %+v", c.name, l)
			continue
		}
		if l != nil && !strings.HasPrefix(strings.ReplaceAll(l.Value, "\u00a0", " "), c.value) {
			t.Errorf("%s: %q, want %q", c.name, l.Value, c.value)
		}
		if (finding(s, "too long") != nil) != (c.note != "") {
			t.Errorf("%s: finding %+v", c.name, finding(s, "too long"))
		}
	}
}

// TestAntifreezeMovesMoreWater: the same heat and drop want more of a mixture, and more
// head; a share that nobody gave is assumed, one out of range is refused.
func TestAntifreezeMovesMoreWater(t *testing.T) {
	with := func(more string) *settings.Sheet {
		return solve(t, read(t, header{floor: "pipes: [{tube: pe-rt, size: 20x2, length: 20 m}]", more: more}.document()))
	}
	water, glycol := with(""), with("system: {antifreeze: ethylene glycol, antifreeze_share: 40 %}")
	if a, b := water.Circuits[1].Flow, glycol.Circuits[1].Flow; b < a*1.05 || b > a*1.25 {
		t.Errorf("water %v, glycol %v", a, b)
	}
	if a, b := hydraulicLine(water, "floor.pump"), hydraulicLine(glycol, "floor.pump"); reflect.ValueOf(a.Working[0].Result.Value).Float() >= reflect.ValueOf(b.Working[0].Result.Value).Float() {
		t.Errorf("head with water %v, with glycol %v", a.Value, b.Value)
	}
	if s := with("system: {antifreeze: propylene glycol}"); s.Circuits[1].Flow <= water.Circuits[1].Flow {
		t.Error("antifreeze of unknown share counts as water")
	}
	if s := with("system: {antifreeze: propylene glycol, frost_target: -15 °C}"); s.Circuits[1].Flow <= water.Circuits[1].Flow {
		t.Error("antifreeze for -15 °C counts as water")
	}
	j := read(t, header{}.document())
	j.System = job.System{Antifreeze: "propylene glycol", Share: job.Says(units.Fraction(0.8), "")}
	if _, err := settings.Solve(j, settings.Options{}); err == nil || !strings.Contains(err.Error(), "system › antifreeze_share") {
		t.Errorf("80 %% glycol: %v", err)
	}
}

// TestRefusals: a job built without the reader's checks gives sentences too.
func TestHydraulicRefusals(t *testing.T) {
	run := job.PipeRun{Tube: "copper L", Size: "7/8", Length: job.Says(units.Length(3), "")}
	good := job.PipeRun{Tube: "copper L", Size: "3/4", Length: job.Says(units.Length(3), "")}
	for _, c := range []struct {
		name string
		with func(*job.Job)
		want string
	}{
		{"size", func(j *job.Job) { j.Circuits[0].Pipes = []job.PipeRun{run} }, `circuit "Radiators": pipes: run 1`},
		{"length", func(j *job.Job) { r := good; r.Length.Value = -3; j.Circuits[0].Pipes = []job.PipeRun{r} }, "pipes: run 1"},
		{"valve", func(j *job.Job) { j.Circuits[1].Valve = job.Says(units.FlowCoefficient(-1), "") }, `circuit "Floor": valve`},
		{"two points", func(j *job.Job) {
			j.Circuits[0].Pipes = []job.PipeRun{good}
			j.Circuits[0].Pump = &job.Pump{Points: make([]job.PumpPoint, 2)}
		}, "pump: points"},
		{"boiler flow", func(j *job.Job) { j.Separator.Flow = job.Says(units.Flow(0), "") }, "separator › boiler_flow"},
		{"loop", func(j *job.Job) {
			j.Circuits[1].Emitters[0].Floor.LoopLength = job.Says(units.Length(5000), "")
		}, "floor loops"},
	} {
		j := read(t, header{}.document())
		c.with(j)
		if _, err := settings.Solve(j, settings.Options{System: units.US}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// TestFlowSheetReadsWell: short reasons, working everywhere, no empty field, in both
// systems, whatever the survey.
func TestFlowSheetReadsWell(t *testing.T) {
	documents := []header{{}, {separator: "kind: none"}, {separator: "kind: low-loss header, boiler_flow: 7 L/min"},
		{separator: "kind: low-loss header, boiler_flow: 25 L/min"}, {separator: "kind: low-loss header, boiler_flow: 2 L/min", floor: "valve: kv 16"},
		{flow: "34 L/min", radiators: "pipes: [" + tube + "]\n    pump: {" + curve + "}", loops: ", loops: 1, loop_length: 200 m"},
		{radiators: "pipes: [" + tube + "]\n    pump: {" + curve + "}", floor: "pipes: [" + tube + "]", loops: ", loops: 4, loop_length: 85 m"},
		{radiators: "pipes: [" + tube + ", {tube: multilayer, size: 16x2, length: 40 m, share: 50 %}, {tube: multilayer, size: 20x2, length: 16 m, share: 50 %}]"}}
	for n, h := range documents {
		for _, system := range []units.System{units.US, units.SI} {
			s, err := settings.Solve(read(t, h.document()), settings.Options{System: system})
			if err != nil {
				t.Fatal(err)
			}
			finite(t, fmt.Sprint(n), reflect.ValueOf(s))
			for _, sec := range s.Sections {
				if sec.Title != "Flows and pumps" {
					continue
				}
				if sec.Part != settings.BoilerRoom {
					t.Error("flows and pumps belong to the boiler room")
				}
				for _, l := range append(sec.Lines, *hydraulicLine(s, "separator-sensor")) {
					if utf8.RuneCountInString(l.Why) > 110 || utf8.RuneCountInString(l.Caution) > 115 {
						t.Errorf("%d: %s: too long: %q %q", n, l.ID, l.Why, l.Caution)
					}
					if l.Value == "" || l.Why == "" || len(l.Working) == 0 {
						t.Errorf("%d: %s: empty: %+v", n, l.ID, l)
					}
					for _, w := range l.Working {
						if w.Name == "" || w.Formula == "" || w.Range == "" || w.Source == "" {
							t.Errorf("%d: %s: a step lacks something: %+v", n, l.ID, w)
						}
					}
				}
			}
		}
	}
	if s := solve(t, example(t, "short-survey")); hydraulicLine(s, "separator-offset") != nil || len(s.Flows) == 0 {
		t.Error("a direct circuit without pipes has a separator, or no flows to draw")
	}
}
