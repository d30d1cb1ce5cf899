package settings_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

func withSensors(t testing.TB, sensors string) *settings.Sheet {
	t.Helper()
	return solve(t, read(t, fmt.Sprintf(boilerRoom, panels, "sensors:\n"+sensors)))
}

func TestSensorsAreJudged(t *testing.T) {
	const ntc = "type: thermistor, r25: 10 kΩ, b: 3977"
	for _, c := range []struct {
		sensor, value, why, finding, cure string
	}{
		{"name: outdoor, " + ntc, "", "", "", ""},
		{"name: outdoor, " + ntc + ", reads: 32.7 kΩ, beside: 0 °C", "right", "by its curve", "", ""},
		{"name: outdoor, " + ntc + ", reads: 29 kΩ, beside: 0 °C", "doubtful", "too warm", "", ""},
		{"name: outdoor, " + ntc + ", reads: 18 kΩ, beside: 0 °C", "wrong", "12 K too warm", "in the sun, over a vent", "read again at night"},
		{"name: outdoor, " + ntc + ", reads: 70 kΩ, beside: 0 °C", "wrong", "too cold", "bad contact", "terminals"},
		{"name: tank, " + ntc + ", reads: 1.7 kΩ, beside: 60 °C", "wrong", "too warm", "something warmer", "at one place"},
		{"name: tank, " + ntc + ", reads: 3.9 kΩ, beside: 60 °C", "wrong", "too cold", "push it home", "push it home"},
		{"name: tank, " + ntc + ", reads: 10 kΩ, beside: 60 °C", "wrong", "too cold", "too far off for sun", "two may be crossed"},
		{"name: outdoor, " + ntc + ", reads: 8.3 kΩ, beside: 0 °C", "wrong", "too warm", "wires of two sensors are crossed", "two may be crossed"},
		{"name: outdoor, " + ntc + ", reads: 15.6 kΩ, beside: 0 °C", "wrong", "too warm", "fits NTC 5 kΩ", "set the control to NTC 5 kΩ"},
		{"name: outdoor, " + ntc + ", reads: OL", "wrong", "broken wire", "Open circuit", "sensor from cable"},
		{"name: outdoor, " + ntc + ", reads: OL, beside: 0 °C", "wrong", "no end of resistance", "Open circuit", "sensor from cable"},
		{"name: outdoor, " + ntc + ", reads: short", "wrong", "wires that touch", "Short circuit", "sensor from cable"},
		{"name: outdoor, " + ntc + ", reads: 5 MΩ", "wrong", "5 MΩ is an open circuit", "Open circuit", "sensor from cable"},
		{"name: outdoor, type: thermistor, coefficients: {a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8}, reads: 32.65 kΩ, beside: 0 °C", "right", "by its curve", "", ""},
		{"name: tank, " + ntc + ", reads: 1.4 kΩ, beside: 60 °C", "wrong", "too warm", "too far off", "two may be crossed"},
		{"name: tank, " + ntc + ", reads: 1232 Ω, beside: 60 °C", "wrong", "", "fits Pt1000", "set the control to Pt1000"},
		{"name: tank, " + ntc + ", reads: 5000 kΩ, beside: 60 °C", "wrong", "open circuit", "Open circuit", "sensor from cable"},
		{"name: tank, " + ntc + ", reads: 0 Ω, beside: 60 °C", "wrong", "short circuit", "Short circuit", "sensor from cable"},
		{"name: tank, " + ntc + ", reads: 900 kΩ, beside: 60 °C", "wrong", "no temperature of this sensor", "too high: look for a corroded terminal", "splices"},
		{"name: tank, " + ntc + ", reads: 20 Ω, beside: 60 °C", "wrong", "no temperature of this sensor", "damp", "dry it"},
		{"name: supply, type: Pt1000, reads: 1194 Ω, beside: 50 °C", "right", "by its curve", "", ""},
		{"name: supply, type: Pt100, reads: 138.5 Ω, beside: 100 °C", "right", "by its curve", "", ""},
		{"name: supply, type: table, points: [{at: 0 °C, resistance: 1000 Ω}, {at: 100 °C, resistance: 1385 Ω}], reads: 1385 Ω, beside: 100 °C", "right", "by its curve", "", ""},
		{"name: supply, type: table, sheet: \"°C Ω\\n0 1000\\n100 1385\", reads: 1385 Ω, beside: 100 °C", "right", "by its curve", "", ""},
	} {
		t.Run(c.sensor, func(t *testing.T) {
			s := withSensors(t, "  - {"+c.sensor+"}")
			if len(s.Sensors) != 1 || len(s.Sensors[0].Rows) < 10 || s.Sensors[0].Kind == "" {
				t.Fatalf("table %+v", s.Sensors)
			}
			name := strings.TrimSuffix(strings.Fields(c.sensor)[1], ",")
			l, room := lineOf(s, "sensor."+name)
			if l.Value != c.value || c.value != "" && !room || !strings.Contains(plain(l.Why), c.why) {
				t.Errorf("%q: %q", l.Value, l.Why)
			}
			found := said(s, upperFirst(name)+" sensor")
			if (len(found) > 0) != (c.finding != "") || c.finding != "" && (!strings.Contains(plain(found[0].Text), c.finding) || !strings.Contains(strings.Join(found[0].Cures, "; "), c.cure)) {
				t.Errorf("findings %+v, want %q and %q", found, c.finding, c.cure)
			}
			for _, sec := range s.Sections {
				if sec.Title == "Sensors" {
					shortSentences(t, sec)
				}
			}
		})
	}
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// TestSensorNamesKeepTheirLines: names that differ in signs only have lines of their own.
func TestSensorNamesKeepTheirLines(t *testing.T) {
	s := withSensors(t, "  - {name: tank 1, type: Pt100, reads: 100 Ω, beside: 0 °C}\n  - {name: tank-1, type: Pt100, reads: 100 Ω, beside: 0 °C}")
	for _, id := range []string{"sensor.tank-1", "sensor.tank-1-2"} {
		if _, ok := lineOf(s, id); !ok {
			t.Errorf("no line %q", id)
		}
	}
}

// TestTablesOfSensors: round temperatures of the reader, resistances that fall or rise
// throughout, and each within its own band.
func TestTablesOfSensors(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := job.Sensor{Name: rapid.SampledFrom([]string{"outdoor", "tank"}).Draw(rt, "name"), Type: rapid.SampledFrom([]string{"Pt100", "Pt1000", "thermistor", "table"}).Draw(rt, "type")}
		s.R25 = job.Says(units.Ohms(rapid.Float64Range(500, 5e5).Draw(rt, "r25")), "")
		s.B = job.Says(units.Number(rapid.Float64Range(2500, 4500).Draw(rt, "b")), "")
		low := rapid.Float64Range(-50, 90).Draw(rt, "low")
		for i := range rapid.IntRange(2, 8).Draw(rt, "rows") {
			s.Points = append(s.Points, job.SensorPoint{At: job.Says(units.Celsius(low+5*float64(i)), ""), Resistance: job.Says(units.Ohms(1e5/float64(2+i)), "")})
		}
		for _, sys := range []units.System{units.SI, units.US} {
			table, err := settings.TableOf(s, sys)
			if err != nil {
				rt.Fatal(err)
			}
			if len(table.Rows) == 0 {
				rt.Fatalf("no rows: %+v", s)
			}
			for i, r := range table.Rows {
				if !(r.Low > 0 && r.Low <= r.Resistance*(1+1e-9) && r.Resistance <= r.High*(1+1e-9)) {
					rt.Errorf("%s: %v outside %v to %v", table.Kind, r.Resistance, r.Low, r.High)
				}
				if i == 0 {
					continue
				}
				before := table.Rows[i-1]
				if rising := r.Resistance > before.Resistance; !(r.At > before.At) || rising != strings.HasPrefix(s.Type, "Pt") {
					rt.Errorf("%s: %v at %v after %v at %v", table.Kind, r.Resistance, r.At, before.Resistance, before.At)
				}
			}
		}
	})
}
