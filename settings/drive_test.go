package settings_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// scaled are the points of the tests' pump with their heads scaled.
func scaled(f float64) string {
	return fmt.Sprintf("points: [{flow: 0 L/min, head: %.4f kPa}, {flow: 15 L/min, head: %.4f kPa}, {flow: 30 L/min, head: %.4f kPa}]", 60*f, 45*f, 5*f)
}

// longPipe is a pipe of the radiators with their pump.
func longPipe(length float64, pump string) string {
	return fmt.Sprintf("pipes: [{tube: copper EN 1057, size: 15x1, length: %.1f m, bends: 12}]\n    pump: {%s}", length, pump)
}

// TestWeakerPumpsNeedHotterWater: a weaker pump never lowers the supply that the rooms need,
// never moves more water, and what it moves carries the heat that the rooms take.
func TestWeakerPumpsNeedHotterWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(20, 120).Draw(t, "length")
		flow := rapid.Float64Range(6, 25).Draw(t, "flow")
		strong := rapid.Float64Range(0.05, 2).Draw(t, "strong")
		weak := strong * rapid.Float64Range(0.3, 1).Draw(t, "weak")
		solve := func(pump string) *settings.Plan {
			h := header{flow: fmt.Sprintf("%.1f L/min", flow), radiators: longPipe(length, pump), separator: "kind: none"}
			j, err := job.Read([]byte(h.document()))
			if err != nil {
				t.Fatal(err)
			}
			p, err := settings.Prepare(j, settings.Options{System: units.SI})
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		a, b := solve(scaled(strong)), solve(scaled(weak))
		right := solve("mode: fixed speed") // of no curve: takes the flow of the survey
		if a.Circuits[0].Flow > right.Circuits[0].Flow*(1+1e-9) || b.Circuits[0].Flow > a.Circuits[0].Flow*(1+1e-6) {
			t.Fatalf("flows %v, weaker %v, wanted %v", a.Circuits[0].Flow, b.Circuits[0].Flow, right.Circuits[0].Flow)
		}
		for k, p := range a.Sheet.Circuits[0].Points {
			if q := b.Sheet.Circuits[0].Points[k]; q.Ideal < p.Ideal-1e-3 {
				t.Errorf("%v: the weaker pump needs %v, the stronger %v", p.Outdoor, q.Ideal, p.Ideal)
			}
		}
		short := b.Circuits[0].Flow < right.Circuits[0].Flow*(1-1e-5)
		if said := finding(b.Sheet, "too weak") != nil; short && !said {
			t.Errorf("%v instead of %v, and nothing says so", b.Circuits[0].Flow, right.Circuits[0].Flow)
		}
		for _, plan := range []*settings.Plan{a, b} {
			balance(t, plan)
		}
	})
}

// balance asks that the water of the radiators carries the heat that their rooms take, in
// the sheet, the drawing, and what year and visit are given alike.
func balance(t interface{ Errorf(string, ...any) }, plan *settings.Plan) {
	c, room := plan.Circuits[0], plan.Rooms[0]
	sum := units.LossCoefficient(0)
	for _, e := range c.Emitters {
		sum += e.Flow
	}
	if math.Abs(float64(sum/c.Flow)-1) > 1e-9 {
		t.Errorf("the emitters get %v of %v", sum, c.Flow)
	}
	sheet := plan.Sheet.Circuits[0]
	for k, p := range sheet.Points {
		inside := min(room.Setpoint, p.Rooms[0].Reaches)
		takes := max(0, room.Loss.At(inside, p.Outdoor)-room.Gains)
		carries := units.Power(float64(c.Flow) * float64(p.Set-p.Return))
		if math.Abs(float64(carries-takes)) > 0.002*float64(takes)+1 {
			t.Errorf("%v: the water carries %v, the rooms take %v", p.Outdoor, carries, takes)
		}
		if drawn := plan.Sheet.Flows[k].Circuits[0]; drawn.Flow != sheet.Flow {
			t.Errorf("%v: the drawing shows %v, the sheet %v", p.Outdoor, drawn.Flow, sheet.Flow)
		}
	}
}

// TestWeakPumpIsReckonedWith: the curve is that of the water that passes, the working says
// which and why, and the finding says what a right pump would allow.
func TestWeakPumpIsReckonedWith(t *testing.T) {
	right := solve(t, read(t, header{radiators: longPipe(60, scaled(2))}.document()))
	weak := solve(t, read(t, header{radiators: longPipe(60, scaled(0.1))}.document()))
	if finding(right, "too weak") != nil || math.Abs(float64(right.Circuits[0].Flow/units.LitresPerMinute(10))-1) > 1e-9 {
		t.Fatalf("a strong pump gives %v, findings %v", right.Circuits[0].Flow, right.Findings)
	}
	f := finding(weak, "too weak")
	if f == nil {
		t.Fatal("nothing says that the pump is too weak")
	}
	for _, part := range []string{weak.Circuits[0].Flow.Text(units.SI), "of supply on the design day instead of " + right.Circuits[0].Points[0].Ideal.Text(units.SI)} {
		if !strings.Contains(f.Text, part) {
			t.Errorf("the finding lacks %q: %s", part, f.Text)
		}
	}
	if a, b := right.Circuits[0].Points[0], weak.Circuits[0].Points[0]; b.Set <= a.Set || b.Return >= a.Return {
		t.Errorf("supply %v and return %v with too little water, %v and %v with enough", b.Set, b.Return, a.Set, a.Return)
	}
	for _, id := range []string{"radiators.design-supply", "radiators.flow", "radiators.assign"} {
		said := false
		for _, w := range hydraulicLine(weak, id).Working {
			said = said || strings.Contains(w.Note, "the pump is too weak")
		}
		if !said {
			t.Errorf("%s: the working does not say which flow was used", id)
		}
	}
	// Twice the pump's last point: nothing is known behind it.
	beyond := solve(t, read(t, header{flow: "34 L/min", radiators: "pipes: [{tube: copper EN 1057, size: 42x1.2, length: 5 m}]\n    pump: {" + scaled(1) + "}"}.document()))
	if got := beyond.Circuits[0].Flow; math.Abs(float64(got/units.LitresPerMinute(30))-1) > 1e-6 {
		t.Errorf("beyond its curve the pump is taken to give %v", got)
	}
	// Where no pump is given, nothing changes.
	none := solve(t, read(t, header{radiators: "pipes: [{tube: copper EN 1057, size: 15x1, length: 60 m, bends: 12}]"}.document()))
	if a, b := right.Circuits[0].Points[0], none.Circuits[0].Points[0]; a.Set != b.Set || a.Return != b.Return {
		t.Errorf("without a pump %v and %v, with a right one %v and %v", b.Set, b.Return, a.Set, a.Return)
	}
}

// twoOnOne is a house with two direct circuits on one pump.
const twoOnOne = `curvewright: 1
job: Two on one
display: si
site: {design_outdoor: -12 °C, annual_mean: 8 °C}
house: {floor_area: 140 m², load: 8 kW, setpoint: 21 °C}
circuits:
  - name: Bath
    share: 20 %%
    flow: 2 L/min
    pump_of: Radiators
    emitters: [{radiator: {output: 2.4 kW}}]
    %s
  - name: Radiators
    flow: 8 L/min
    emitters: [{radiator: {output: 9 kW}}]
    pipes: [{tube: copper EN 1057, size: 15x1, length: 40 m, bends: 12}]
    %s
boiler: {kind: condensing, fuel: natural gas, output: 15 kW}
control: {scale: celsius, curve: {two_points: {}}}
`

// TestSeveralCircuitsOnOnePump: one pump line for both, set for the flow of both and the head
// of the harder, and a valve for the easier.
func TestSeveralCircuitsOnOnePump(t *testing.T) {
	bath := "pipes: [{tube: copper EN 1057, size: 12x1, length: 16 m, bends: 6}]"
	sheet := func(bath, pump string) *settings.Sheet { return solve(t, read(t, fmt.Sprintf(twoOnOne, bath, pump))) }
	s := sheet(bath, "pump: {mode: constant pressure, "+curve+"}")
	pump, valves := hydraulicLine(s, "radiators.pump"), hydraulicLine(s, "radiators.circuits")
	if pump == nil || valves == nil || hydraulicLine(s, "bath.pump") != nil {
		t.Fatalf("pump %+v, valves %+v", pump, valves)
	}
	if pump.Label != "Pump, Radiators + Bath" || !strings.Contains(pump.Why, "Gives 10\u00a0L/min") {
		t.Errorf("pump: %+v", pump)
	}
	if !strings.HasPrefix(valves.Value, "open for Radiators, kv") || !strings.HasSuffix(valves.Value, " for Bath") || !strings.Contains(valves.Instead, "With no valve set Bath gets ") {
		t.Errorf("valves: %+v", valves)
	}
	alone := solve(t, read(t, strings.Replace(fmt.Sprintf(twoOnOne, bath, "pump: {mode: constant pressure, "+curve+"}"), "    pump_of: Radiators\n", "", 1)))
	if a := hydraulicLine(alone, "radiators.pump"); !strings.HasSuffix(pump.Value, strings.TrimPrefix(a.Value, "constant, ")) {
		t.Errorf("the harder circuit takes %s, both together %s", a.Value, pump.Value)
	}
	if got := s.Plant.Circuits[0].PumpOf; got != "Radiators" {
		t.Errorf("the drawing does not know whose pump drives Bath: %q", got)
	}

	weak := sheet(bath, "pump: {"+scaled(0.2)+"}")
	f := finding(weak, "The pump of Radiators + Bath is too weak")
	if f == nil || !strings.Contains(f.Text, "Bath gets") || !strings.Contains(f.Text, "Radiators gets") {
		t.Fatalf("findings: %v", weak.Findings)
	}
	for i, c := range weak.Circuits {
		if r := float64(c.Flow / s.Circuits[i].Flow); r > 0.95 || r < 0.2 {
			t.Errorf("%s: %.2f of its flow", c.Name, r)
		}
		if c.Points[0].Ideal <= s.Circuits[i].Points[0].Ideal {
			t.Errorf("%s: with less water it needs %v, with enough %v", c.Name, c.Points[0].Ideal, s.Circuits[i].Points[0].Ideal)
		}
	}
	if s := sheet("", "pump: {"+curve+"}"); finding(s, "The pump of Radiators + Bath cannot be set") == nil || hydraulicLine(s, "radiators.pump") != nil {
		t.Errorf("without the pipes of Bath: %v", s.Findings)
	}
	if s := sheet(bath, ""); !strings.Contains(hydraulicLine(s, "radiators.pump").Why, "What its circuits take at 10\u00a0L/min") {
		t.Errorf("no curve: %+v", hydraulicLine(s, "radiators.pump"))
	}
	wide := strings.NewReplacer("15x1, length: 40 m, bends: 12", "42x1.2, length: 5 m", "12x1, length: 16 m, bends: 6", "42x1.2, length: 5 m")
	if s := solve(t, read(t, wide.Replace(fmt.Sprintf(twoOnOne, bath, "pump: {"+curve+"}")))); finding(s, "is larger than its circuits") == nil {
		t.Errorf("too strong: %v", s.Findings)
	}
}

// TestThePumpGivesAllItsCircuits: whatever pipes and pump, the flows of circuits on one pump
// are those that its curve gives: each no more than wanted, and the heads meet.
func TestThePumpGivesAllItsCircuits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bath := fmt.Sprintf("pipes: [{tube: copper EN 1057, size: 12x1, length: %.1f m}]", rapid.Float64Range(2, 80).Draw(t, "bath"))
		pump := "pump: {" + scaled(rapid.Float64Range(0.02, 2).Draw(t, "pump")) + "}"
		j, err := job.Read([]byte(fmt.Sprintf(twoOnOne, bath, pump)))
		if err != nil {
			t.Fatal(err)
		}
		p, err := settings.Prepare(j, settings.Options{System: units.SI})
		if err != nil {
			t.Fatal(err)
		}
		a, b := p.Site.Heads[0], p.Site.Heads[1]
		if math.Abs(float64(a-b)) > 0.002*float64(b)+2 {
			t.Errorf("heads %v and %v on one pump", a, b)
		}
		for i, wants := range []units.Flow{units.LitresPerMinute(2), units.LitresPerMinute(8)} {
			if got := p.Sheet.Circuits[i].Flow; !(got > 0) || got > wants*(1+1e-9) {
				t.Errorf("%s gets %v of %v", p.Sheet.Circuits[i].Name, got, wants)
			}
			if c := p.Circuits[i]; len(c.Beside) != 1 || c.Borrows != (c.Name == "Bath") {
				t.Errorf("%s: beside %v, on a pump of its own %v", c.Name, c.Beside, !c.Borrows)
			}
		}
	})
}
