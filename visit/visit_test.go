package visit

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"

	"curvewright/attendance"
	"curvewright/examples"
	"curvewright/job"
	"curvewright/trial"
	"curvewright/units"
)

func example(t testing.TB, name string, s units.System) *House {
	t.Helper()
	for _, e := range examples.List() {
		if e.Name != name {
			continue
		}
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		h, err := New(j, s)
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	t.Fatalf("no example %s", name)
	return nil
}

func itemOf(t *testing.T, e Expectation, name string) Item {
	t.Helper()
	for _, i := range e.Items {
		if i.String() == name {
			return i
		}
	}
	t.Fatalf("nothing is expected of %q", name)
	return Item{}
}

// TestEveryExampleSaysWhatToExpect: every state of every example gives figures that are
// numbers, with a tolerance and a working, and the sheet's supply.
func TestEveryExampleSaysWhatToExpect(t *testing.T) {
	for _, e := range examples.List() {
		h := example(t, e.Name, units.US)
		for _, c := range []Conditions{
			{Outdoor: h.plan.Design}, {Outdoor: units.Fahrenheit(35), State: Settled}, {Outdoor: units.Fahrenheit(50), State: Held},
			{Outdoor: units.Fahrenheit(20), State: Fresh, Since: units.Hours(2), Start: units.Fahrenheit(55)},
			{Outdoor: units.Fahrenheit(35), Calling: []string{}, Tank: h.plant.tank != nil},
		} {
			x, err := h.Expect(c)
			if err != nil {
				t.Fatalf("%s, %s: %v", e.Name, c.State, err)
			}
			for _, i := range x.Items {
				v, ok := i.Value.(interface{ Text(units.System) string })
				text := v.Text(units.US)
				if !ok || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || len(i.Working) == 0 || i.Working[0].Formula == "" || i.Working[0].Source == "" {
					t.Errorf("%s, %s: %s is %s with working %+v", e.Name, c.State, i.Label, text, i.Working)
				}
			}
			var b bytes.Buffer
			if err := x.WriteText(&b, e.Name, units.US); err != nil || !strings.Contains(b.String(), "CAUTION") {
				t.Errorf("%s: text %v", e.Name, err)
			}
		}
		x, err := h.Expect(Conditions{Outdoor: h.plan.Design})
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range h.plan.Sheet.Circuits {
			want := c.Points[0].Set
			if got := itemOf(t, x, "supply wanted of "+h.plant.circuits[i].name).Value.(units.Temperature); math.Abs(float64(got-want)) > 0.01 {
				t.Errorf("%s: %s wants %v, the sheet says %v", e.Name, c.Name, got, want)
			}
		}
	}
}

// TestTheFourTemperaturesOfASeparator: energy and mass balance on both sides, whichever
// pump moves more.
func TestTheFourTemperaturesOfASeparator(t *testing.T) {
	h := example(t, "ridge-house", units.SI)
	for _, factor := range []float64{0.3, 1, 3} {
		s, err := h.prepare(Conditions{Outdoor: units.Celsius(0)})
		if err != nil {
			t.Fatal(err)
		}
		d := h.plant.asDrawn()
		d.boilerFlow = factor
		out := h.plant.run(&s, &d)
		primary, secondary := out.pumped*(out.boiler-out.back), out.drawn*(out.supply-out.systemReturn)
		if math.Abs(primary-secondary) > 1e-3*secondary {
			t.Errorf("factor %g: the boiler gives %.1f W, the circuits take %.1f W", factor, primary, secondary)
		}
		switch {
		case out.drawn > out.pumped && math.Abs(out.back-out.systemReturn) > 1e-6:
			t.Errorf("factor %g: returns %.3f and %.3f, alike where the circuits draw more", factor, out.back, out.systemReturn)
		case out.drawn < out.pumped && math.Abs(out.boiler-out.supply) > 1e-6:
			t.Errorf("factor %g: supplies %.3f and %.3f, alike where the boiler sends more", factor, out.boiler, out.supply)
		}
	}
}

// TestAFreshSlabWarmsAsInTheSimulation: its return over the first hours, against the
// layers of the minute-by-minute simulation.
func TestAFreshSlabWarmsAsInTheSimulation(t *testing.T) {
	h := example(t, "combi-slab", units.SI)
	tr, err := trial.New(h.job, trial.Options{System: units.SI})
	if err != nil {
		t.Fatal(err)
	}
	slab := tr.Plant.Circuits[0].Slabs[0]
	law := &h.plant.circuits[0].emitters[0]
	const supply, room, start = 308.15, 293.15, 288.15
	w := law.flow
	top, low := start, start
	for minute := 0; minute <= 12*60; minute++ {
		if minute%120 == 0 && minute > 0 {
			s := &state{Conditions: Conditions{State: Fresh, Since: units.Minutes(float64(minute)), Start: units.Temperature(start)}}
			ours := h.plant.charge(law, supply, w, s, room)
			theirs := supply - min(1, float64(slab.Exchange))*(supply-low)
			if math.Abs(ours-theirs) > 1.5 {
				t.Errorf("after %d min: return %.2f °C, the layers say %.2f °C", minute, ours-273.15, theirs-273.15)
			}
		}
		for range 60 {
			in := w * float64(slab.Exchange) * (supply - low)
			up := float64(slab.Layers[0].Below) * (low - top)
			out := float64(slab.Up) * (top - room)
			down := float64(slab.Down.At(units.Temperature(low), units.Celsius(0)))
			low += (in - up - down) / float64(slab.Layers[1].Capacity)
			top += (up - out) / float64(slab.Layers[0].Capacity)
		}
	}
	x, err := h.Expect(Conditions{Outdoor: units.Celsius(0), State: Fresh, Since: units.Hours(1), Start: units.Celsius(12)})
	if err != nil {
		t.Fatal(err)
	}
	if x.Slabs < units.Hours(0.5) || x.Slabs > units.Hours(60) || !strings.Contains(strings.Join(x.Notes, " "), "Look again") {
		t.Errorf("look again in %v: %v", x.Slabs, x.Notes)
	}
	later, err := h.Expect(Conditions{Outdoor: units.Celsius(0), State: Fresh, Since: units.Hours(40), Start: units.Celsius(12)})
	if err != nil {
		t.Fatal(err)
	}
	if early, late := itemOf(t, x, "return of Slab").Value.(units.Temperature), itemOf(t, later, "return of Slab").Value.(units.Temperature); early >= late {
		t.Errorf("the return falls while the slab warms: %v, then %v", early, late)
	}
}

// TestADocumentIsJudged: a whole visit of an example, with a mixing valve that does not
// mix.
func TestADocumentIsJudged(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	data, err := os.ReadFile("../attendance/testdata/ridge.yaml")
	if err != nil {
		t.Fatal(err)
	}
	v, err := attendance.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	c, readings, err := h.FromDocument(v)
	if err != nil {
		t.Fatal(err)
	}
	j, err := h.Judge(c, readings)
	if err != nil {
		t.Fatal(err)
	}
	if j.Sound || j.Causes[0].Circuit != "Slab" || j.Causes[0].Fault != ValveStuck && j.Causes[0].Fault != ValveReversed && j.Causes[0].Fault != SensorsSwapped {
		t.Errorf("first: %s", j.Causes[0].Name())
	}
	total := units.Fraction(0)
	for _, x := range j.Causes {
		total += x.Share
		if x.Says == "" || x.Remedy == "" || len(x.Explains) != len(readings) {
			t.Errorf("%s: says %q, remedy %q, explains %d of %d", x.Name(), x.Says, x.Remedy, len(x.Explains), len(readings))
		}
	}
	if math.Abs(float64(total)-1) > 1e-9 {
		t.Errorf("shares add up to %v", total)
	}
	found, err := h.AsFound(v.Curves[0])
	if err != nil || len(found.Points) == 0 || !strings.Contains(found.Says, "hotter") {
		t.Errorf("curve as found: %v, %q", err, found.Says)
	}
}

// TestGasIsForALicensedPerson: whatever is likeliest, a gas or flue reading that is off
// brings the stop.
func TestGasIsForALicensedPerson(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	meter := h.meterTime()
	for _, m := range []Measured{{Reading: Reading{Measure: MeterTime}, Value: 0.75 * meter}, {Reading: Reading{Measure: FlueGas}, Value: float64(units.Celsius(120))}} {
		j, err := h.Judge(Conditions{Outdoor: units.Fahrenheit(20)}, []Measured{m})
		if err != nil {
			t.Fatal(err)
		}
		if j.Readings[0].Verdict == Right || len(j.Cautions) == 0 || j.Cautions[0] != StopLicensed {
			t.Errorf("%s: %s, cautions %v", m.String(), j.Readings[0].Verdict, j.Cautions)
		}
		for _, c := range j.Causes {
			if c.Fault == GasRate && c.Remedy != StopLicensed {
				t.Errorf("the gas rate has the remedy %q", c.Remedy)
			}
		}
	}
}

// TestCombustionRecords against published and hand-worked figures.
func TestCombustionRecords(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	given := func(f units.Fraction) job.Given[units.Fraction] { return job.Says(f, "") }
	at := func(c float64) job.Given[units.Temperature] { return job.Says(units.Celsius(c), "") }
	for _, c := range []struct {
		source            string
		record            attendance.Combustion
		excess, free, net float64 // percent, ppm, percent; 0 where not told
		within            float64
	}{
		{"element balance of methane, natural gas beside it: 10 % excess makes 2.1 % oxygen", attendance.Combustion{Oxygen: given(0.021)}, 10, 0, 0, 0.6},
		{"the same by carbon dioxide: 10.5 % (methane) lies within the composition's doubt", attendance.Combustion{CO2: given(0.105)}, 11, 0, 0, 2.5},
		{"US appliance standards' form: 50 ppm at 5.0 % oxygen make 65.7 ppm air-free", attendance.Combustion{Oxygen: given(0.05), Monoxide: job.Says(units.PartsPerMillion(50), "")}, 0, 65.7, 0, 0.2},
		{"1. BImSchV, annex 2: gas, 120/20 °C, 4 % oxygen lose 4.78 % of net heat", attendance.Combustion{Oxygen: given(0.04), Flue: at(120), Air: at(20)}, 0, 0, 4.78, 0.5},
	} {
		r, err := h.Combustion(c.record)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		if c.excess > 0 && math.Abs(100*float64(r.Gas.Excess)-c.excess) > c.within {
			t.Errorf("%s: %.2f %% excess air", c.source, 100*float64(r.Gas.Excess))
		}
		if c.free > 0 && math.Abs(r.AirFree.PartsPerMillion()-c.free) > c.within {
			t.Errorf("%s: %.1f ppm", c.source, r.AirFree.PartsPerMillion())
		}
		if c.net > 0 && math.Abs(100*float64(r.LossNet)-c.net) > c.within {
			t.Errorf("%s: %.2f %% of net heat lost", c.source, 100*float64(r.LossNet))
		}
		if r.Cautions[len(r.Cautions)-1] != StopUnlessLicensed {
			t.Errorf("%s: reads as a clearance", c.source)
		}
	}
	out, err := h.Combustion(attendance.Combustion{Oxygen: given(0.07), Limits: attendance.Limits{OxygenTo: given(0.055)}})
	if err != nil || out.Within || out.Cautions[0] != StopLicensed {
		t.Errorf("beyond the maker's limit: %v, within %v, %v", err, out.Within, out.Cautions)
	}
	if _, err := h.Combustion(attendance.Combustion{}); err == nil {
		t.Error("a record without a gas is worked out")
	}
}

// TestTheWalkAsksOnlyWhatThereIs: a house without a slab hears nothing of slabs, one
// without hot water nothing of tanks.
func TestTheWalkAsksOnlyWhatThereIs(t *testing.T) {
	names := func(h *House) string {
		var b strings.Builder
		for _, s := range h.Walk() {
			for _, step := range s.Steps {
				b.WriteString(s.Title + ": " + step.Name + "\n")
				if step.Do == "" {
					t.Errorf("step %s says nothing", step.Name)
				}
			}
		}
		return b.String()
	}
	if slab := names(example(t, "combi-slab", units.US)); !strings.Contains(slab, "loops.Slab") || strings.Contains(slab, "Readings: separator") {
		t.Errorf("combi-slab:\n%s", slab)
	}
	if short := names(example(t, "short-survey", units.US)); strings.Contains(short, "loops.") || strings.Contains(short, "mixing.") {
		t.Errorf("short-survey:\n%s", short)
	}
	ridge := names(example(t, "ridge-house", units.US))
	for _, want := range []string{"Before power: mixing.Slab", "First firing: meter", "Readings: separator", "Hot water: charge", "Safety devices: frost", "Settings: "} {
		if !strings.Contains(ridge, want) {
			t.Errorf("ridge-house lacks %q:\n%s", want, ridge)
		}
	}
}

func TestRefusals(t *testing.T) {
	h := example(t, "ridge-house", units.US)
	for _, c := range []struct {
		c    Conditions
		want string
	}{
		{Conditions{Outdoor: units.Fahrenheit(20), State: "sunny"}, "steady, settled, held or fresh"},
		{Conditions{Outdoor: units.Fahrenheit(200)}, "outdoor temperature"},
		{Conditions{Outdoor: units.Temperature(math.NaN())}, "no number"},
		{Conditions{Outdoor: units.Fahrenheit(20), Calling: []string{"Attic"}}, "House, Slab"},
		{Conditions{Outdoor: units.Fahrenheit(20), Rooms: []RoomAir{{Room: "Attic", Air: units.Celsius(20)}}}, "Parlour"},
	} {
		if _, err := h.Expect(c.c); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: got %v, want a sentence with %q", c.c, err, c.want)
		}
	}
	for _, m := range [][]Measured{nil, {{Reading: Reading{Measure: "luck"}}}, {{Reading: Reading{Measure: BoilerSupply}, Value: math.NaN()}},
		{{Reading: Reading{Measure: BoilerSupply}, Value: 330}, {Reading: Reading{Measure: BoilerSupply}, Value: 330}}} {
		if _, err := h.Judge(Conditions{Outdoor: units.Fahrenheit(20)}, m); err == nil {
			t.Errorf("%v: judged", m)
		}
	}
}
