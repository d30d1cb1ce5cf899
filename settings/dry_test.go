package settings_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

// TestDryBoilerIsKeptByItsReturn: an ordinary drop of 20 °F brings no stop, since the supply
// follows from the least return and the drop, and the return of every outdoor temperature
// keeps it. The maker's figure outranks common practice.
func TestDryBoilerIsKeptByItsReturn(t *testing.T) {
	for _, c := range []struct {
		boiler string
		least  float64 // °F
	}{
		{"fuel: natural gas", 138},                      // dew point of 25 % excess air, 132 °F, and 3 K
		{"fuel: heating oil", 130},                      // common practice; its dew point is far below
		{"fuel: natural gas, burner: atmospheric", 133}, // 50 % in the boiler: 127 °F and 3 K
		{"fuel: heating oil, least_return: 110 °F", 110},
		{"fuel: natural gas, least_return: 150 °F", 150},
	} {
		s := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", "kind: non-condensing, "+c.boiler)))
		if finds(s, "stop", "stay dry") || finds(s, "note", "stay dry") {
			t.Errorf("%s: %v", c.boiler, s.Findings)
		}
		says(t, s, "least-return", fmt.Sprintf("%.0f °F|comes back at", c.least))
		low, atDesign := 1000.0, s.Circuits[0].Points[0]
		for _, p := range s.Circuits[0].Points {
			low = min(low, p.Return.Fahrenheit())
		}
		if low < c.least-1 {
			t.Errorf("%s: the return falls to %.1f °F", c.boiler, low)
		}
		if atDesign.Set.Fahrenheit() < c.least+19 {
			t.Errorf("%s: %.1f °F on the design day leave no room for the drop", c.boiler, atDesign.Set.Fahrenheit())
		}
	}
}

// TestColdStartOfADryBoiler: 100 gal from 64.4 to 130 °F (65.6 °F) take 65.6 · 100 · 8.25
// Btu, 54,100 Btu; at 60,000 Btu/h that is 54 min if no emitter takes heat, and more with them.
func TestColdStartOfADryBoiler(t *testing.T) {
	const dry = `kind: non-condensing, fuel: heating oil, output: "%s"`
	s := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", fmt.Sprintf(dry, "60,000 Btu/h"))+"system: {content: 100 gal}\n"))
	l, _ := lineNamed(s, "cold-start")
	took := l.Working[0].Result.Value.(units.Time)
	if took < 54*60 || took > 90*60 {
		t.Errorf("%v for 100 gal", took)
	}
	if !finds(s, "note", "After a cold start the boiler condenses") {
		t.Errorf("findings: %v", s.Findings)
	}
	s = solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", fmt.Sprintf(dry, "20,000 Btu/h"))))
	says(t, s, "cold-start", "never warm enough")
	s = solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", fmt.Sprintf(dry, "90,000 Btu/h"))+"system: {content: 12 gal}\n"))
	if finds(s, "note", "cold start") {
		t.Error("a small system is warm soon")
	}
}

// TestProtectionSaysWhatItNeeds: the bypass of the line, mixed with the return that the
// settings leave, gives the least return.
func TestProtectionSaysWhatItNeeds(t *testing.T) {
	s := solve(t, read(t, strings.Replace(fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: heating oil`), "drop: 20 °F", "kind: mixed\n    drop: 20 °F", 1)))
	says(t, s, "least-return", "Not reached|straight back lifts the return to 130 °F")
	l, _ := lineNamed(s, "least-return")
	step := l.Working[len(l.Working)-1]
	var supply, share float64
	for _, in := range step.Inputs {
		switch in.Meaning {
		case "supply of the boiler with a bypass":
			supply = float64(in.Value.(units.Temperature))
		case "share of the boiler's water that goes straight back":
			share = float64(in.Value.(units.Fraction))
		}
	}
	back := float64(step.Result.Value.(units.Temperature))
	if mixed := back + share*(supply-back); math.Abs(mixed-float64(units.Fahrenheit(130))) > 0.01 {
		t.Errorf("%.0f %% at %.1f K on %.1f K give %.1f K", 100*share, supply, back, mixed)
	}
}

// TestWithheldCircuitIsMarked: what stays on the sheet of a circuit that may not see the
// boiler's water says so.
func TestWithheldCircuitIsMarked(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Slab
site: {design_outdoor: -12 °C}
house: {floor_area: 150 m², load: 7 kW}
circuits: [{name: Slab, kind: direct, emitters: [{floor: {construction: wet slab, area: 120 m², loops: 8, loop_length: 80 m}}]}]
boiler: {kind: non-condensing, fuel: heating oil, output: 24 kW}
control: {scale: celsius, curve: {two_points: {}}}
`))
	if !s.Circuits[0].Withheld {
		t.Error("not withheld")
	}
	for _, id := range []string{"slab.flow", "slab.pump", "slab.loops"} {
		says(t, s, id, "Only once a mixing valve stands in front of Slab")
	}
	says(t, s, "differential", "Reckoned as if Slab had its mixing valve")
}

// TestWeakPumpStandsBesideTheFigures: curve and return are reckoned with the flow that the
// pump gives, and what a right one would allow stands beside them.
func TestWeakPumpStandsBesideTheFigures(t *testing.T) {
	s := solve(t, read(t, strings.Replace(wateredHouse(output, ""), "    kind: direct\n", `    kind: direct
    pipes: [{tube: copper EN 1057, size: 15x1, length: 60 m, bends: 30}]
    pump: {points: [{flow: 0 L/min, head: 5 kPa}, {flow: 5 L/min, head: 4 kPa}, {flow: 10 L/min, head: 1 kPa}]}
`, 1)))
	if !finds(s, "short", "too weak") {
		t.Fatalf("findings: %v", s.Findings)
	}
	says(t, s, "radiators.design-supply", "Reckoned with|all that its pump gives|it could be 63.0 °C")
	says(t, s, "radiators.flow", "All that its pump gives|11.4 L/min is wanted")
	says(t, s, "condensing", "Reckoned with|all that its pump gives")
}

// TestBurnerKindAndOilAltitude: excess air by the kind of burner, and no rule for gas on oil.
func TestBurnerKindAndOilAltitude(t *testing.T) {
	gas := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: natural gas, burner: atmospheric`)))
	says(t, gas, "flue-gas", "Behind the draught hood, at 90%")
	fan := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: condensing, fuel: natural gas, burner: premix`)))
	says(t, fan, "flue-gas", "At 25% excess air")
	diluted := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: natural gas, burner: atmospheric, excess_air: 250 %`)))
	says(t, diluted, "flue-gas", "at 250%")
	oil := solve(t, read(t, fmt.Sprintf(burnerJob, "8,000 ft", `kind: non-condensing, fuel: heating oil, output: "80,000 Btu/h"`)))
	says(t, oil, "altitude", "ask the maker|no rule for gas is applied")
	says(t, oil, "boiler-size", "1.8 times")
}

// TestHouseShareWithoutPriority: what the house takes on the design day is missing in every
// time of the tank, as it is in the day that is played.
func TestHouseShareWithoutPriority(t *testing.T) {
	heat := func(priority, output string) (*settings.Sheet, units.Time) {
		s := solve(t, read(t, strings.Replace(wateredHouse("kind: condensing, fuel: natural gas, output: "+output, "hot_water: {by: tank with own pump, tank: 200 L, mixing_valve: yes, priority: "+priority+"}\n"), "kind: direct", "kind: mixed", 1)))
		l, ok := lineNamed(s, "hot-water.heat-up")
		if !ok {
			t.Fatalf("no line; findings %v", s.Findings)
		}
		return s, l.Working[0].Result.Value.(units.Time)
	}
	_, waits := heat("yes", "15 kW")
	s, goesOn := heat("no", "15 kW")
	if goesOn < waits*5/4 {
		t.Errorf("%v without priority, %v with it", goesOn, waits)
	}
	if finds(s, "short", "Without priority") {
		t.Error("6 kW are left")
	}
	if s, _ = heat("no", "9 kW"); !finds(s, "short", "next to nothing is left") {
		t.Errorf("findings: %v", s.Findings)
	}
}

// TestTubeAsSold: the size on the tube and its diameter say the same floor, and a diameter
// that is also a size says what it was taken for.
func TestTubeAsSold(t *testing.T) {
	const house = `curvewright: 1
job: Floor
display: us
site: {design_outdoor: -12 °C}
house: {floor_area: 150 m², load: 7 kW}
circuits:
  - {name: Floor, kind: mixed, emitters: [{floor: {construction: wet slab, area: 120 m², %s, loops: 8, loop_length: 90 m}}]}
control: {scale: celsius, curve: {two_points: {}}}
`
	need := func(tube string) (units.Temperature, *settings.Sheet) {
		s := solve(t, read(t, fmt.Sprintf(house, tube)))
		return s.Circuits[0].Points[0].Ideal, s
	}
	sold, s := need("tube_size: 1/2")
	measured, _ := need("tube: 5/8 in, tube_wall: 0.075 in")
	if math.Abs(float64(sold-measured)) > 0.001 || finds(s, "note", "measured outside") {
		t.Errorf("sold as 1/2 wants %v, 5/8 in outside %v", sold, measured)
	}
	if metric, _ := need("tube_size: 16x2"); math.Abs(float64(metric-measured)) > 0.3 {
		t.Errorf("16x2 wants %v, 5/8 in %v", metric, measured)
	}
	if _, s = need("tube: 1/2 in"); !finds(s, "note", "tube sold as 3/8") {
		t.Errorf("findings: %v", s.Findings)
	}
	if _, s = need("tube: 5/8 in"); finds(s, "note", "measured outside") {
		t.Error("5/8 in is what the commonest tube measures")
	}
}

// TestHotShareOverTheSeason: the shares of the line mix boiler and return to the supply.
func TestHotShareOverTheSeason(t *testing.T) {
	s := solve(t, read(t, strings.Replace(wateredHouse(output, ""), "kind: direct", "kind: mixed", 1)))
	l, _ := lineNamed(s, "radiators.valve-share")
	if n := len(l.Working[0].Inputs) + 1; n != 5 || !strings.Contains(l.Value, "% at ") {
		t.Errorf("%d shares, %q", n, l.Value)
	}
	for _, f := range s.Flows {
		c := f.Circuits[0]
		if mixed := c.Return + units.Temperature(c.Hot)*(f.Secondary-c.Return); math.Abs(float64(mixed-c.Supply)) > 0.05 {
			t.Errorf("at %v: %v instead of %v", f.Outdoor, mixed, c.Supply)
		}
	}
}
