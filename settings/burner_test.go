package settings_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"curvewright/units"
)

const burnerJob = `curvewright: 1
job: Burner
display: us
site:
  design_outdoor: -6 °F
  annual_mean: 43 °F
  elevation: %s
house:
  floor_area: 1,900 ft²
  load: 45,000 Btu/h
  setpoint: 70 °F
circuits:
  - name: Radiators
    drop: 20 °F
    emitters:
      - cast_iron: {edr: 400 sq ft EDR}
boiler: {%s}
control: {scale: fahrenheit, curve: {two_points: {}}}
`

// TestBurnerFacts holds the burner's lines against figures of the trade.
func TestBurnerFacts(t *testing.T) {
	for _, c := range []struct {
		name, elevation, boiler, id string
		want                        []string
	}{
		// 1 − 0.04 · 6 = 0.76: NFPA 54/Z223.1 as quoted; the AGA table has .76 from 5501 to 6500 ft.
		{"altitude", "6,000 ft", `kind: condensing, fuel: natural gas, output: "80,000 Btu/h"`, "altitude", []string{"76", "60,800"}},
		{"beyond the rule", "11,000 ft", `kind: condensing, fuel: natural gas, output: "80,000 Btu/h"`, "altitude", []string{"ask the maker"}},
		// Pure methane at 25 % has 9.1 % CO2 and 4.6 % O2; ethane and propane lift it a little.
		{"flue gas", "0 ft", `kind: condensing, fuel: natural gas, excess_air: 25 %`, "flue-gas", []string{"9.3 % CO2, 4.6 % O2"}},
		{"a boiler that must stay dry", "0 ft", `kind: non-condensing, fuel: natural gas`, "least-return", []string{"138 °F"}},
		{"oil has no gas meter", "0 ft", `kind: condensing, fuel: heating oil, output: "80,000 Btu/h"`, "meter", nil},
		{"low altitude takes nothing", "2,000 ft", `kind: condensing, fuel: natural gas, output: "80,000 Btu/h"`, "altitude", nil},
		{"no fuel, no flue gas", "0 ft", `kind: condensing`, "flue-gas", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, read(t, fmt.Sprintf(burnerJob, c.elevation, c.boiler)))
			l, there := lineOf(s, c.id)
			if there != (c.want != nil) {
				t.Fatalf("line %q there: %v", c.id, there)
			}
			text := l.Value + " " + l.Also
			for _, w := range c.want {
				if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), w) {
					t.Errorf("%q lacks %q", text, w)
				}
			}
			if there && (l.Caution == "" || len(l.Working) == 0) {
				t.Errorf("without caution or working: %+v", l)
			}
		})
	}
}

// TestMeterTurn: 1 ft³ of 1000 Btu/ft³ in 36 s is 100,000 Btu/h (published clocking
// table); the line works backwards from the output by its own efficiency and pressure.
func TestMeterTurn(t *testing.T) {
	s := solve(t, read(t, fmt.Sprintf(burnerJob, "0 ft", `kind: condensing, fuel: natural gas, output: "90,000 Btu/h", heating_value: "1,000 Btu/ft³"`)))
	l, ok := lineOf(s, "meter")
	if !ok {
		t.Fatal("no line for the meter")
	}
	var seconds float64
	if _, err := fmt.Sscanf(l.Value, "%f s for 1", &seconds); err != nil {
		t.Fatalf("%q: %v", l.Value, err)
	}
	input := 0.0
	for _, in := range l.Working[0].Inputs {
		if in.Symbol == "Q" {
			input = in.Value.(units.Power).BtuPerHour()
		}
	}
	correction := (101325 + 7*249.08891) / (14.73 * 6894.757)
	if want := 3600 * 1000 * correction / input; math.Abs(seconds-want) > 0.6 {
		t.Errorf("%.0f s for %.0f Btu/h, want %.1f s", seconds, input, want)
	}
	if input < 95000 || input > 108000 {
		t.Errorf("90,000 Btu/h of heat from %.0f Btu/h of gas", input)
	}
}

// TestDryBoilerOnALowCurveIsStopped: a return far below the dew point in a boiler that
// must not condense is no matter of comfort.
func TestDryBoilerOnALowCurveIsStopped(t *testing.T) {
	document := strings.Replace(fmt.Sprintf(burnerJob, "0 ft", `kind: non-condensing, fuel: natural gas`), "drop: 20 °F", "kind: mixed\n    drop: 20 °F", 1)
	s := solve(t, read(t, document))
	for _, f := range s.Findings {
		if f.Severity == "stop" && strings.Contains(f.Text, "must stay dry") && len(f.Cures) > 0 {
			return
		}
	}
	t.Errorf("no stop among %d findings", len(s.Findings))
}

// TestWhatCouldHurtIsStopped: each of these must not pass without a word.
func TestWhatCouldHurtIsStopped(t *testing.T) {
	base := fmt.Sprintf(burnerJob, "%s", `kind: condensing, fuel: natural gas, output: "80,000 Btu/h", max_supply: 185 °F`)
	for _, c := range []struct{ name, elevation, more, want string }{
		{"combi hotter than a hand bears", "0 ft", "hot_water: {by: combi, setpoint: 140 °F}\n", "the taps would scald"},
		{"ethylene glycol in the tank's coil", "0 ft", "hot_water: {by: tank with own pump, mixing_valve: yes}\nsystem: {antifreeze: ethylene glycol, antifreeze_share: 40 %}\n", "poisonous"},
		{"tank hotter than the boiler", "0 ft", "hot_water: {by: tank with own pump, mixing_valve: yes, setpoint: 185 °F}\n", "cannot bring the tank"},
	} {
		s := solve(t, read(t, fmt.Sprintf(base, c.elevation)+c.more))
		found := false
		for _, f := range s.Findings {
			if strings.Contains(f.Text, c.want) {
				found = true
				if strings.Contains(strings.Join(f.Cures, " "), "212") {
					t.Errorf("%s: advises boiling water: %q", c.name, f.Cures)
				}
			}
		}
		if !found {
			t.Errorf("%s: no finding with %q", c.name, c.want)
		}
	}
	if _, there := lineOf(solve(t, read(t, fmt.Sprintf(base, "12,000 ft"))), "meter"); there {
		t.Error("a time for the gas meter though no rule reaches this altitude")
	}
}
