package settings_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

// TestBoilerFlowIsWeighedAgainstItsOutput: 15 kW warm 60 L/min by 3.6 K and 5 L/min by 43 K.
func TestBoilerFlowIsWeighedAgainstItsOutput(t *testing.T) {
	for _, c := range []struct{ flow, words, cure string }{
		{"3 L/min", "and stop on its own limit", "larger boiler pump: about 19"},
		{"12 L/min", "", ""},
		{"40 L/min", "", ""},
		{"60 L/min", "would warm that by only 3.6 K. Usual are 4 K to 35 K", "slower pump: about 19"},
		{"250 L/min", "far too large", "measure supply and return"},
	} {
		s := solve(t, read(t, header{separator: "kind: low-loss header, sensor: on a module, boiler_flow: " + c.flow}.document()))
		found := said(s, "The boiler's pump is said to move")
		if (len(found) == 1) != (c.words != "") {
			t.Errorf("%s: %+v", c.flow, found)
			continue
		}
		if c.words != "" && (!strings.Contains(plain(found[0].Text), c.words) || !strings.Contains(plain(strings.Join(found[0].Cures, "; ")), c.cure) || len(found[0].Working) == 0) {
			t.Errorf("%s: %q %q", c.flow, plain(found[0].Text), found[0].Cures)
		}
	}
	s := solve(t, read(t, header{flow: "120 L/min"}.document()))
	if len(said(s, "far more water than the rooms need")) != 1 {
		t.Error("120 L/min through the radiators of a house are nothing to speak of")
	}
}

// TestABufferCalmsTheBurner: its water is in the system and in the runs.
func TestABufferCalmsTheBurner(t *testing.T) {
	const boiler = "output: 15 kW, min_output: 4 kW}"
	with := func(separator string) *settings.Sheet {
		document := strings.Replace(header{separator: separator}.document(), "output: 15 kW}", boiler, 1)
		return solve(t, read(t, document+"system: {height: 6 m}\n"))
	}
	without := with("kind: four-pipe buffer, sensor: on a module")
	if len(said(without, "does not say how much water the four-pipe buffer holds")) != 1 {
		t.Error("nobody asks for the buffer's volume")
	}
	for _, kind := range []string{"two-pipe buffer", "three-pipe buffer", "four-pipe buffer"} {
		last := without
		for _, litres := range []float64{50, 200} {
			s := with(fmt.Sprintf("kind: %s, sensor: on a module, volume: %g L", kind, litres))
			if s.Boiler.Starts >= last.Boiler.Starts || s.Boiler.WorstRun <= last.Boiler.WorstRun || s.Boiler.Buffer >= last.Boiler.Buffer && last.Boiler.Buffer > 0 {
				t.Errorf("%s of %g L: %v starts, runs of %v, lacks %v; less water: %v, %v, %v", kind, litres,
					s.Boiler.Starts, s.Boiler.WorstRun, s.Boiler.Buffer, last.Boiler.Starts, last.Boiler.WorstRun, last.Boiler.Buffer)
			}
			if more := result(t, s, "content", "Water in the system") - result(t, without, "content", "Water in the system"); math.Abs(more-litres/1000) > 1e-9 {
				t.Errorf("%s of %g L: the system holds %g m³ more", kind, litres, more)
			}
			if s.Plant.BufferVolume != units.Litres(litres) || len(said(s, "holds: runs and starts")) > 0 {
				t.Errorf("%s of %g L: plant %v", kind, litres, s.Plant.BufferVolume)
			}
			last = s
		}
	}
}

// TestLoopsTooLongHaveNoPump: a loop of 300 m is no matter of a pump's setting.
func TestLoopsTooLongHaveNoPump(t *testing.T) {
	const long = ", loops: 1, loop_length: 300 m"
	s := solve(t, read(t, header{loops: long}.document()))
	f := finding(s, "too long")
	if f == nil || f.Severity != "short" || !strings.Contains(plain(f.Text), "more than any circulator for houses makes") || !strings.Contains(plain(f.Text), "a loop of this tube may have") && !strings.Contains(plain(f.Text), "is the usual most") {
		t.Fatalf("finding %+v", f)
	}
	if len(f.Cures) == 0 || !strings.HasPrefix(f.Cures[0], "split it into") {
		t.Errorf("cures %q", f.Cures)
	}
	if pump := hydraulicLine(s, "floor.pump"); pump == nil || pump.Value != "none for houses makes it" || pump.Instead == "" {
		t.Errorf("pump %+v", pump)
	}
	// Pipes can be too much for any pump as well.
	s = solve(t, read(t, header{radiators: "pipes: [{tube: multilayer, size: 16x2, length: 90 m}]"}.document()))
	if f := finding(s, "No circulator for houses drives Radiators"); f == nil || f.Severity != "short" || !strings.Contains(f.Cures[0], "a larger tube in place of") {
		t.Errorf("10 L/min through 90 m of 16x2: %+v, %+v", f, hydraulicLine(s, "radiators.pump"))
	}
	// A pump that is there and too weak: no cure asks for one that nobody makes.
	s = solve(t, read(t, header{loops: long, floor: "pump: {" + curve + "}"}.document()))
	if weak := finding(s, "too weak"); weak == nil || strings.Contains(strings.Join(weak.Cures, "; "), "a pump that makes") {
		t.Errorf("weak pump: %+v", weak)
	}
	// Every floor circuit says how long its loops may be, surveyed or not.
	for _, loops := range []string{"", ", loops: 4"} {
		s := solve(t, read(t, header{loops: loops}.document()))
		l := hydraulicLine(s, "floor.loops")
		if l == nil || plain(l.Allowed) != "loops up to 91.4 m" || len(l.Working) == 0 || finding(s, "too long") != nil {
			t.Errorf("%q: %+v", loops, l)
		}
	}
}

// TestGasByItsComposition: pure methane by its published figures, and a line for it.
func TestGasByItsComposition(t *testing.T) {
	with := func(gas string) *settings.Sheet {
		return solve(t, read(t, strings.Replace(header{}.document(), "output: 15 kW}", "output: 15 kW, excess_air: 1 %, gas: {"+gas+"}}", 1)))
	}
	s := with("methane: 100 %")
	l := hydraulicLine(s, "fuel-gas")
	if l == nil || l.Value != "CO2 11.7 % at most" || !strings.Contains(plain(l.Why), "takes 9.5 volumes of air") || !strings.Contains(plain(l.Why), "Dew point 60") {
		t.Fatalf("methane: %+v", l)
	}
	blend := with("methane: 80 %, hydrogen: 20 %")
	if !(blend.Boiler.DewPoint > s.Boiler.DewPoint) {
		t.Errorf("hydrogen makes more water: dew point %v, methane alone %v", blend.Boiler.DewPoint, s.Boiler.DewPoint)
	}
	if hydraulicLine(solve(t, read(t, header{}.document())), "fuel-gas") != nil {
		t.Error("a line for a gas that nobody surveyed")
	}
}
