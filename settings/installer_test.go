package settings_test

import (
	"fmt"
	"strings"
	"testing"

	"curvewright/units"
)

// TestAnInstallerIsNotMisled: what one place of the sheet says must hold beside the others,
// and a remedy must be one that can be done.
func TestAnInstallerIsNotMisled(t *testing.T) {
	const tank = "hot_water: {by: tank with three-way valve, tank: 200 L, "
	for _, c := range []struct {
		name, boiler, rest string
		id, says, not      string // of a line
		severity, finds    string
		cure, noCure       string // of that finding
	}{
		{name: "a tank below 60 °C is not called hot", boiler: output, rest: tank + "setpoint: 50 °C, mixing_valve: yes}\n",
			id: "hot-water.setpoint", says: "keeps legionella down", not: "Hot against", severity: "note", finds: "below 60 °C (140 °F) legionella", cure: "once a week"},
		{name: "no valve, so no safe tap", boiler: output, rest: tank + "setpoint: 60 °C}\n",
			id: "hot-water.setpoint", says: "only a mixing valve makes it safe", not: "taps get"},
		{name: "a combi hotter than a hand", boiler: output, rest: "hot_water: {by: combi, setpoint: 65 °C}\n",
			id: "hot-water.setpoint", says: "is enough at any tap", severity: "stop", finds: "taps would scald"},
		{name: "no remedy that the boiler cannot do", boiler: "output: 24 kW, max_supply: 60 °C", rest: tank + "setpoint: 45 °C}\n",
			severity: "note", finds: "cannot heat it out", cure: "a higher limit of the boiler", noCure: "once a week"},
		{name: "a tank out of reach keeps its valve", boiler: "output: 24 kW, max_supply: 60 °C", rest: tank + "setpoint: 65 °C, mixing_valve: yes}\n",
			id: "hot-water.mixing-valve", says: "49 °C (120 °F) at most|Scald", severity: "short", finds: "The charge has no end", noCure: "lower set-point"},
		{name: "the valve hangs on no output", boiler: "kind: condensing", rest: tank + "setpoint: 60 °C, mixing_valve: yes}\n",
			id: "hot-water.mixing-valve", says: "49 °C (120 °F) at most"},
		{name: "a combi has no tank for its loop", boiler: output, rest: "hot_water: {by: combi, setpoint: 48 °C, recirculation: yes}\n",
			severity: "note", finds: "circulation comes back", cure: "no loop", noCure: "tank's"},
		{name: "hard water under antifreeze", boiler: output, rest: "system: {content: 150 L, hardness: 20 °dH, antifreeze: propylene glycol, antifreeze_share: 40 %}\n",
			id: "fill-water", says: "demineralised water", severity: "note", finds: "too hard", cure: "mixed with the antifreeze", noCure: "soften"},
		{name: "one share for pipes and target", boiler: output, rest: "system: {antifreeze: propylene glycol, antifreeze_share: 15 %, frost_target: -25 °C}\nfrost: {pipes_outside: [attic]}\n",
			id: "antifreeze", says: "asks for 44%", severity: "note", finds: "too thin for the pipes in attic", cure: "44% of it by volume"},
		{name: "the vessel if the boiler can do more", boiler: "output: 24 kW", rest: "system: {content: 150 L, vessel: 12 L}\n",
			id: "vessel", says: "can be set to 80.0 °C"},
		{name: "the vessel of a boiler that is known", boiler: output, rest: "system: {content: 150 L}\n", id: "vessel", says: "swelling up to 80.0 °C", not: "can be set to"},
		{name: "little water is no old pipe", boiler: output, rest: "system: {content: 20 L}\n", id: "content", says: "too little makes the vessel too small", not: "old pipes"},
		{name: "poison behind the wall of a combi", boiler: output, rest: "hot_water: {by: combi}\nsystem: {antifreeze: ethylene glycol, antifreeze_share: 40 %}\n",
			severity: "stop", finds: "poisonous", cure: "propylene glycol"},
		{name: "a tank like a boiler", boiler: "output: 24 kW, max_supply: 95 °C", rest: tank + "setpoint: 80 °C, mixing_valve: yes}\n",
			severity: "note", finds: "burns in less than a second", cure: "rating plates"},
		{name: "a relief valve of the wrong kind", boiler: output, rest: "system: {content: 150 L, relief: 6 bar}\n",
			severity: "note", finds: "protects nothing", cure: "must not open above the least"},
		{name: "an outdoor sensor that is cut", boiler: output, rest: "sensors:\n  - {name: outdoor, type: Pt1000, reads: OL}\n",
			severity: "short", finds: "no curve works"},
		{name: "a gas for another burner", boiler: "fuel: natural gas, gas: {methane: 60 %, hydrogen: 20 %, carbon_dioxide: 20 %}",
			severity: "note", finds: "does not burn the other safely"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, read(t, wateredHouse(c.boiler, c.rest)))
			if c.id != "" {
				says(t, s, c.id, c.says)
				l, _ := lineNamed(s, c.id)
				if text := l.Value + l.Why + l.Instead; c.not != "" && strings.Contains(text, c.not) {
					t.Errorf("%q still says %q", text, c.not)
				}
			}
			if c.finds == "" {
				return
			}
			for _, f := range s.Findings {
				if f.Severity != c.severity || !strings.Contains(plainly(f.Text), c.finds) {
					continue
				}
				cures := plainly(strings.Join(f.Cures, "; "))
				if !strings.Contains(cures, c.cure) || (c.noCure != "" && strings.Contains(cures, c.noCure)) {
					t.Errorf("remedies %q, want %q, not %q", cures, c.cure, c.noCure)
				}
				return
			}
			t.Errorf("no %s with %q in %v", c.severity, c.finds, s.Findings)
		})
	}
}

// TestOutputLimitLeavesTimeForHotWater: where hot water has the boiler for hours of the
// design day, the rest of it must be enough for the day's heat.
func TestOutputLimitLeavesTimeForHotWater(t *testing.T) {
	s := solve(t, read(t, wateredHouse("output: 18 kW, min_output: 3 kW, max_supply: 75 °C",
		"hot_water: {by: tank with three-way valve, tank: 120 L, mixing_valve: yes, recirculation: yes, people: 6, loop_length: 80 m, loop_insulation: 5 mm}\n")))
	l, ok := lineNamed(s, "output-limit")
	if !ok {
		t.Fatal("no limit")
	}
	var pauses units.Time
	var want units.Power
	for _, in := range l.Working[0].Inputs {
		if in.Symbol == "pauses" {
			pauses = in.Value.(units.Time)
		}
	}
	want = l.Working[0].Result.Value.(units.Power)
	if pauses < units.Hours(2.2) {
		t.Fatalf("pauses of %v", pauses)
	}
	if made, needed := float64(want)*(86400-float64(pauses)), 9000*86400.0; made < needed*(1-1e-9) {
		t.Errorf("in the rest of the day %.0f W make %.0f of %.0f J", float64(want), made, needed)
	}
}

// TestOutputOfTheSite: nothing is taken off an output that is the maker's own for the
// altitude, and the gas meter is told for it.
func TestOutputOfTheSite(t *testing.T) {
	const boiler = `kind: condensing, fuel: natural gas, output: "80,000 Btu/h", heating_value: "830 Btu/ft³", output_at_site: %s`
	for _, c := range []struct{ elevation, counted, id, says string }{
		{"8,000 ft", "yes", "altitude", "80,000 Btu/h|own figure"},
		{"8,000 ft", "no", "altitude", "68% of the rating|output_at_site"},
		{"8,000 ft", "no", "meter", "If the supplier gives it for this altitude"},
		{"11,000 ft", "yes", "meter", "80,000 Btu/h"},
		{"11,000 ft", "no", "altitude", "ask the maker|48,000 Btu/h"},
	} {
		s := solve(t, read(t, fmt.Sprintf(burnerJob, c.elevation, fmt.Sprintf(boiler, c.counted))))
		says(t, s, c.id, c.says)
	}
}

// TestDryBoilerFindings: a return above the dew point is no stop, and a curve that cannot
// go lower is not blamed on the control.
func TestDryBoilerFindings(t *testing.T) {
	s := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: natural gas, output: "60,000 Btu/h", water: 30 gal, excess_air: 75 %`)))
	if finds(s, "note", "cannot follow") || finds(s, "note", "no cooler water") {
		t.Error("the control is blamed for what the dry boiler does")
	}
	if finds(s, "stop", "must stay dry") || finds(s, "note", "begins to condense") {
		t.Errorf("findings: %v", s.Findings)
	}
	// The boiler's own range leaves the return above the dew point and below what is usual.
	s = solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: natural gas, output: "60,000 Btu/h", excess_air: 75 %, max_supply: 143 °F`)))
	if finds(s, "stop", "must stay dry") || !finds(s, "note", "begins to condense") {
		t.Errorf("findings: %v", s.Findings)
	}
}

// TestTubesAreNamedAsSold: whoever writes 1/2 in for tube sold as 1/2 sees on the sheet that
// it was taken as the outside diameter.
func TestTubesAreNamedAsSold(t *testing.T) {
	const house = `curvewright: 1
job: Floor
display: %s
site: {design_outdoor: -12 °C}
house: {floor_area: 150 m², load: 7 kW}
circuits:
  - {name: Floor, kind: mixed, emitters: [{floor: {construction: wet slab, area: 120 m², tube: %s, loops: %d, loop_length: 90 m}}]}
control: {scale: celsius, curve: {two_points: {}}}
`
	for _, c := range []struct{ display, tube, want string }{
		{"us", "1/2 in", "3/8 (0.5 in outside)"},
		{"us", "5/8 in", "1/2 (0.625 in outside)"},
		{"us", "16 mm", "1/2 (0.625 in outside)"},
		{"us", "14 mm", "0.55 in (outside)"},
		{"si", "16 mm", "16 × 2 mm"},
	} {
		s := solve(t, read(t, fmt.Sprintf(house, c.display, c.tube, 8)))
		l, _ := lineNamed(s, "floor.loops")
		if text := fmt.Sprint(l.Working); !strings.Contains(text, c.want) {
			t.Errorf("%s: %q is not in %s", c.tube, c.want, text)
		}
	}
	// A loop that no pump of any kind drives is a finding, not the end of the sheet.
	s := solve(t, read(t, fmt.Sprintf(house, "si", "10 mm", 1)))
	if !finds(s, "short", "cannot be so") {
		t.Errorf("findings: %v", s.Findings)
	}
	if _, there := lineNamed(s, "floor.pump"); there {
		t.Error("a pump setting for loops that cannot be")
	}
}

// TestPipesLoseHeat: 10 m of 22 mm copper with water of the design day, by π·d·h·ΔT.
func TestPipesLoseHeat(t *testing.T) {
	s := solve(t, read(t, strings.Replace(wateredHouse(output, ""), "    kind: direct\n", "    kind: direct\n    pipes: [{tube: copper EN 1057, size: 22x1, length: 10 m}]\n", 1)))
	l, _ := lineNamed(s, "radiators.flow")
	step := l.Working[len(l.Working)-1]
	water := step.Inputs[1].Value.(units.Temperature)
	want := 10 * 3.14159265 * 0.022 * 10 * float64(water-units.Celsius(18))
	if got := float64(step.Result.Value.(units.Power)); got < 0.999*want || got > 1.001*want {
		t.Errorf("%.1f W, want %.1f W", got, want)
	}
}

// TestWithheldCircuitHasNoReadings: boiler water of 60 °C runs into the slab whatever the
// curve says.
func TestWithheldCircuitHasNoReadings(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Slab
site: {design_outdoor: -12 °C}
house: {floor_area: 150 m², load: 7 kW}
circuits: [{name: Slab, kind: direct, emitters: [{floor: {construction: wet slab, area: 120 m²}}]}]
boiler: {kind: non-condensing, fuel: heating oil, output: 24 kW}
control: {scale: celsius, curve: {two_points: {}}}
`))
	if len(s.Expected) != 0 || !strings.Contains(s.Circuits[0].Lost, "Not to be set") {
		t.Errorf("%d readings, %q", len(s.Expected), s.Circuits[0].Lost)
	}
}

// TestOffsetIntoAFloor: the hotter water of an offset reaches a floor without a valve.
func TestOffsetIntoAFloor(t *testing.T) {
	s := solve(t, read(t, `curvewright: 1
job: Slab
site: {design_outdoor: -12 °C}
house: {floor_area: 150 m², load: 7 kW}
circuits: [{name: Slab, kind: direct, drop: 5 K, emitters: [{floor: {construction: wet slab, area: 130 m²}}]}]
boiler: {kind: condensing, fuel: natural gas, output: 15 kW, min_output: 3 kW}
separator: {kind: low-loss header, sensor: none, boiler_flow: 10 L/min}
control: {scale: celsius, curve: {two_points: {}}}
`))
	says(t, s, "separator-offset", "undiluted once zones shut")
}

// TestBoilerSize: 24 kW on a load of 9 kW, and the loss up the flue of a dry boiler by
// Siegert's coefficients.
func TestBoilerSize(t *testing.T) {
	s := solve(t, read(t, wateredHouse(output, "")))
	says(t, s, "boiler-size", "2.7 times the load|Much larger than needed")
	says(t, solve(t, read(t, wateredHouse("kind: condensing", ""))), "boiler-size", "")
	says(t, solve(t, read(t, wateredHouse("kind: non-condensing, fuel: heating oil, output: 15 kW", ""))), "boiler-size", "1.7 times the load|one fire cannot be held down")
	dry := solve(t, read(t, wateredHouse("kind: non-condensing, fuel: natural gas, output: 15 kW", "")))
	l, _ := lineNamed(dry, "flue-gas")
	if text := fmt.Sprint(l.Working); !strings.Contains(text, "Siegert") || !strings.Contains(text, "full balance") {
		t.Errorf("no loss up the flue: %s", text)
	}
}

// TestFrostOfARoomSensorAlone: it does not say that pipes are inside that are not.
func TestFrostOfARoomSensorAlone(t *testing.T) {
	s := solve(t, read(t, fmt.Sprintf(watered, "direct", output, "room")+"frost: {pipes_outside: [garage], room_sensor: yes}\n"))
	says(t, s, "frost", "watches nothing else|cannot see the pipes in garage")
}

// TestFloorsAskTheBoilerForWhatTheyLoseBelow: the limit of the boiler's output is a tenth
// above what the floors take from the water, not above what the rooms get of it; and a
// room at 24 °C that falls short by the surface of its floor is asked whether it is a bath.
func TestFloorsAskTheBoilerForWhatTheyLoseBelow(t *testing.T) {
	document := func(zone string) string {
		return `curvewright: 1
job: Slabs
display: si
site: {design_outdoor: -14 °C}
rooms:
  - {name: Living, setpoint: 21 °C, area: 42 m², load: 1850 W, emitters: [{circuit: Low, floor: {construction: wet slab, area: 38 m²}}]}
  - {name: Bath, setpoint: 24 °C, area: 9 m², load: 520 W, emitters: [{circuit: Warm, floor: {construction: wet slab, area: 6 m²` + zone + `}}]}
circuits:
  - {name: Low, kind: mixed}
  - {name: Warm, kind: mixed}
boiler: {kind: condensing, output: 24 kW, min_output: 2 kW}
control: {scale: celsius, output_limit: power, curve: {bent: {}}}
`
	}
	s := solve(t, read(t, document("")))
	taken := 0.0 // by hand: what the water leaves behind in both circuits
	for _, c := range s.Circuits {
		taken += float64(c.Points[0].Set-c.Points[0].Return) * float64(c.Flow) * 4.15e6 // J/(m³·K)
	}
	l, _ := lineNamed(s, "output-limit")
	if limit, err := units.Parse[units.Power](plainly(l.Value)); err != nil || float64(limit) < 1.09*taken || float64(limit) < 1.15*float64(s.Load.Total) {
		t.Errorf("limit %s for %.0f W taken from the water (%v)", l.Value, taken, err)
	}
	if !strings.Contains(plainly(l.Why), "floors lose below") {
		t.Errorf("%q", l.Why)
	}
	const asks = "saying in the survey that Bath is a bathroom, if it is: its floor may then reach 33.0 °C"
	for zone, want := range map[string]bool{"": true, ", zone: bathroom": false} {
		asked := false
		for _, f := range solve(t, read(t, document(zone))).Findings {
			asked = asked || strings.Contains(plainly(strings.Join(f.Cures, "; ")), asks)
		}
		if asked != want {
			t.Errorf("%q: asked %v", zone, asked)
		}
	}
}
