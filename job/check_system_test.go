package job

import (
	"errors"
	"strings"
	"testing"

	"curvewright/sensor"
	"curvewright/units"
)

// A closed system and sensors as they stand in a survey.
const inOrder = small + `system: {content: 40 gal, height: 20 ft, vessel: 4.4 gal, precharge: 0 psi, relief: 30 psi, hardness: 0 gpg, boiler_water: 1 gal,
  aluminium: yes, antifreeze: propylene glycol, antifreeze_share: 30 %, frost_target: -6 °F}
frost: {glycol: yes}
sensors:
  - {name: outdoor, type: thermistor, r25: 10 kΩ, b: 3977, reads: 0 Ω, beside: -3 °F}
  - {name: supply, type: Pt1000}
  - name: tank
    type: table
    points: [{at: 0 °C, resistance: 32 kΩ}, {at: 50 °C, resistance: 3.6 kΩ}, {at: 25 °C, resistance: 10 kΩ}]
    reads: 10 kΩ
    beside: 25 °C
`

func TestSystemAndSensorsAreChecked(t *testing.T) {
	j, err := Read([]byte(inOrder))
	if err != nil {
		t.Fatal(err)
	}
	if len(j.Sensors) != 3 || !j.Sensors[0].Beside.Set || !j.System.Precharge.Set {
		t.Fatalf("%+v", j.Sensors)
	}
	for _, c := range []struct{ name, old, new, path, words string }{
		{"a thimble of water", "content: 40 gal", "content: 1 gal", "system.content", "not the water of a house|1.32"},
		{"a lake", "content: 40 gal", "content: 40000 gal", "system.content", "not the water of a house"},
		{"a cellar without bottom", "height: 20 ft", "height: 200 ft", "system.height", "148 ft"},
		{"no vessel", "vessel: 4.4 gal", "vessel: 0 gal", "system.vessel", "not more than zero"},
		{"a vessel like a house", "vessel: 4.4 gal", "vessel: 4400 gal", "system.vessel", "expansion vessel"},
		{"a precharge above the relief valve", "precharge: 0 psi", "precharge: 31 psi", "system.precharge", "not below the relief valve|30.0 psi"},
		{"a precharge like a tyre of a lorry", "precharge: 0 psi, relief: 30 psi", "precharge: 200 psi", "system.precharge", "precharge of an expansion vessel"},
		{"a relief valve for steam", "relief: 30 psi", "relief: 15 psi", "system.relief", "21.8 psi"},
		{"a relief valve of a boiler ship", "relief: 30 psi", "relief: 300 psi", "system.relief", "145.0 psi"},
		{"water like rock", "hardness: 0 gpg", "hardness: 200 gpg", "system.hardness", "hardness of tap water"},
		{"a boiler that holds all", "boiler_water: 1 gal", "boiler_water: 40 gal", "system.boiler_water", "less than 40 gal"},
		{"too much antifreeze", "antifreeze_share: 30 %", "antifreeze_share: 80 %", "system.antifreeze_share", "59%"},
		{"too much ethylene glycol", "antifreeze: propylene glycol, antifreeze_share: 30 %", "antifreeze: ethylene glycol, antifreeze_share: 58 %", "system.antifreeze_share", "57%"},
		{"no antifreeze with a share", "antifreeze: propylene glycol", "antifreeze: none", "system.antifreeze_share", "only with antifreeze"},
		{"none, yet glycol", "antifreeze: propylene glycol, antifreeze_share: 30 %", "antifreeze: none", "system.antifreeze", "contradicts"},
		{"glycol, yet no glycol", "glycol: yes", "glycol: no", "system.antifreeze", "contradicts"},
		{"frost on the moon", "frost_target: -6 °F", "frost_target: -80 °F", "system.frost_target", "-54"},
		{"frost in summer", "frost_target: -6 °F", "frost_target: 50 °F", "system.frost_target", "32 °F"},
		{"a word for aluminium", "aluminium: yes", "aluminium: maybe", "system.aluminium", "yes, no"},
		{"a thermistor without B", ", b: 3977", "", "sensors[0].b", "missing|type: table"},
		{"a thermistor without resistance", "r25: 10 kΩ, ", "", "sensors[0].r25", "missing|25 °C"},
		{"a B of nothing", "b: 3977", "b: 39", "sensors[0].b", "1,500"},
		{"an r25 of nothing", "r25: 10 kΩ", "r25: 1 Ω", "sensors[0].r25", "10"},
		{"half a reading", "reads: 0 Ω, beside: -3 °F", "reads: 12 kΩ", "sensors[0]", "half of a reading"},
		{"the other half", "reads: 0 Ω, ", "", "sensors[0]", "half of a reading"},
		{"a thermometer in the fire", "beside: -3 °F", "beside: 900 °F", "sensors[0].beside", "302"},
		{"a platinum sensor with a B", "type: Pt1000", "type: Pt1000, b: 3000", "sensors[1].b", "only with type: thermistor"},
		{"a reading that is a word", "reads: 0 Ω", "reads: dunno", "sensors[0].reads", "accepted: 12.3 kΩ"},
		{"thousandths of an ohm", "reads: 0 Ω", "reads: 5 mΩ", "sensors[0].reads", "write MΩ for millions"},
		{"an open line for a rating", "r25: 10 kΩ", "r25: OL", "sensors[0].r25", "not the resistance of a thermistor"},
		{"coefficients beside a B", "b: 3977", "b: 3977, coefficients: {a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8}", "sensors[0]", "both coefficients and r25 or b"},
		{"coefficients of nothing", "r25: 10 kΩ, b: 3977", "coefficients: {a: 1.129148, b: 2.34125, c: 8.76741}", "sensors[0].coefficients", "powers of ten"},
		{"two coefficients", "r25: 10 kΩ, b: 3977", "coefficients: {a: 1.129148e-3, b: 2.34125e-4}", "sensors[0].coefficients.c", "missing"},
		{"platinum with coefficients", "type: Pt1000", "type: Pt1000, coefficients: {a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8}", "sensors[1].coefficients", "only with type: thermistor"},
		{"two tables", "    reads: 10 kΩ", "    sheet: 0 °C = 32 kΩ\n    reads: 10 kΩ", "sensors[2]", "both points and sheet"},
		{"a sheet of one row", "    points: [{at: 0 °C, resistance: 32 kΩ}, {at: 50 °C, resistance: 3.6 kΩ}, {at: 25 °C, resistance: 10 kΩ}]", "    sheet: 0 °C = 32 kΩ", "sensors[2].sheet", "2 to 1000"},
		{"a sheet of words", "    points: [{at: 0 °C, resistance: 32 kΩ}, {at: 50 °C, resistance: 3.6 kΩ}, {at: 25 °C, resistance: 10 kΩ}]", "    sheet: cold and warm", "sensors[2].sheet", "line 1"},
		{"sensors of one name", "name: supply", "name: Outdoor", "sensors[1].name", "another"},
		{"a table of one row", "[{at: 0 °C, resistance: 32 kΩ}, {at: 50 °C, resistance: 3.6 kΩ}, {at: 25 °C, resistance: 10 kΩ}]", "[{at: 0 °C, resistance: 32 kΩ}]", "sensors[2].points", "2 to 1000"},
		{"a table that turns back", "resistance: 10 kΩ}]", "resistance: 50 kΩ}]", "sensors[2].points[2].resistance", "turns back"},
		{"a temperature twice", "{at: 25 °C, ", "{at: 50 °C, ", "sensors[2].points[2].at", "twice"},
		{"a row of nothing", "resistance: 32 kΩ", "resistance: 0 Ω", "sensors[2].points[0].resistance", "not more than zero"},
		{"beyond the table", "beside: 25 °C", "beside: 60 °C", "sensors[2].beside", "32 °F"},
		{"a table that is none", "type: table", "type: Pt100", "sensors[2].points", "only with type: table"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(inOrder, c.old) {
				t.Fatalf("no %q in the document", c.old)
			}
			j, err := Read([]byte(strings.Replace(inOrder, c.old, c.new, 1)))
			var faults *Faults
			if j != nil || !errors.As(err, &faults) {
				t.Fatalf("read, with %v", err)
			}
			if got := strings.TrimSpace(faults.List[0].Path); got != c.path {
				t.Errorf("path %q, want %q: %v", got, c.path, err)
			}
			said := strings.ReplaceAll(strings.ReplaceAll(err.Error(), "\u00a0", " "), "−", "-")
			for _, w := range strings.Split(c.words, "|") {
				if !strings.Contains(said, w) {
					t.Errorf("says %q, want %q in it", said, w)
				}
			}
		})
	}
}

// What a meter shows at a broken or shorted line is a reading, and needs no thermometer.
func TestOpenAndShortedLinesAreReadings(t *testing.T) {
	for text, want := range map[string]units.ElectricResistance{"OL": sensor.NoEnd, "open": sensor.NoEnd, "short": 0, "0": 0, "0 Ω": 0, "5 MΩ": 5e6} {
		j, err := Read([]byte(strings.Replace(inOrder, "reads: 0 Ω, beside: -3 °F", "reads: "+text, 1)))
		if err != nil || j.Sensors[0].Reads.Value != want || j.Sensors[0].Reads.Text != text {
			t.Errorf("%s: %v", text, err)
			continue
		}
		again, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		if j, err := Read(again); err != nil || j.Sensors[0].Reads.Value != want {
			t.Errorf("%s, written anew: %v", text, err)
		}
		if err := compiledSchema(t).Validate(asJSON(t, again)); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func TestSensorsByCoefficientsAndBySheet(t *testing.T) {
	for old, new := range map[string]string{
		"r25: 10 kΩ, b: 3977": "coefficients: {a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8}",
		"    points: [{at: 0 °C, resistance: 32 kΩ}, {at: 50 °C, resistance: 3.6 kΩ}, {at: 25 °C, resistance: 10 kΩ}]": "    sheet: |\n      °C kΩ\n      0  32\n      25  10\n      50  3.6",
	} {
		j, err := Read([]byte(strings.Replace(inOrder, old, new, 1)))
		if err != nil {
			t.Errorf("%s: %v", new, err)
			continue
		}
		again, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		if other, err := Read(again); err != nil || other.Sensors[2].Sheet != j.Sensors[2].Sheet || other.Sensors[0].Coefficients != nil && other.Sensors[0].Coefficients.C.Value != 8.76741e-8 {
			t.Errorf("%s, written anew: %v\n%s", new, err, again)
		}
		if err := compiledSchema(t).Validate(asJSON(t, again)); err != nil {
			t.Errorf("%s: %v", new, err)
		}
	}
}
