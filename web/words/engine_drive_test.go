package words

import (
	"fmt"
	"testing"

	"curvewright/report"
	"curvewright/units"
)

// onOnePump is a house with two direct circuits on one pump.
const onOnePump = `curvewright: 1
job: Two on one
site: {design_outdoor: -12 °C, annual_mean: 8 °C}
house: {setpoint: 21 °C}
rooms:
  - {name: Spa, area: 12 m², load: 1.6 kW, emitters: [{circuit: Bath, radiator: {output: 2.4 kW}}]}
  - {name: Hall, area: 90 m², load: 6.4 kW, emitters: [{circuit: Radiators, radiator: {output: 9 kW}}]}
circuits:
  - name: Bath
    flow: 2 L/min
    pump_of: Radiators
    %s
  - name: Radiators
    flow: %s
    pipes: [{tube: copper EN 1057, %s}]
    %s
boiler: {kind: condensing, fuel: natural gas, output: 15 kW}
outdoor_sensor: {fitted: yes, place: north wall}
control: {scale: celsius, curve: {two_points: {}}}
`

// Whatever a pump is found to be, every sentence about it and its circuits is known.
func TestPumpsOfSeveralCircuitsAreSaidInEveryLanguage(t *testing.T) {
	pump := func(f float64) string {
		return fmt.Sprintf("pump: {mode: constant pressure, points: [{flow: 0 L/min, head: %g kPa}, {flow: 15 L/min, head: %g kPa}, {flow: 30 L/min, head: %g kPa}]}", 60*f, 45*f, 5*f)
	}
	const bath, long, wide = "pipes: [{tube: copper EN 1057, size: 12x1, length: 16 m}]", "size: 15x1, length: 40 m, bends: 12", "size: 28x1, length: 5 m"
	for name, document := range map[string]string{
		"right":         fmt.Sprintf(onOnePump, bath, "8 L/min", long, pump(1)),
		"no curve":      fmt.Sprintf(onOnePump, bath, "8 L/min", long, ""),
		"weak":          fmt.Sprintf(onOnePump, bath, "8 L/min", long, pump(0.3)),
		"hardly weak":   fmt.Sprintf(onOnePump, bath, "8 L/min", long, pump(0.78)),
		"far too weak":  fmt.Sprintf(onOnePump, bath, "8 L/min", long, pump(0.02)),
		"beyond":        fmt.Sprintf(onOnePump, "pipes: [{tube: copper EN 1057, size: 28x1, length: 5 m}]", "34 L/min", wide, pump(1)),
		"strong":        fmt.Sprintf(onOnePump, "pipes: [{tube: copper EN 1057, size: 28x1, length: 5 m}]", "8 L/min", wide, "pump: {points: [{flow: 0 L/min, head: 60 kPa}, {flow: 15 L/min, head: 45 kPa}, {flow: 30 L/min, head: 5 kPa}]}"),
		"pipes missing": fmt.Sprintf(onOnePump, "", "8 L/min", long, pump(1)),
	} {
		for _, system := range []units.System{units.US, units.SI} {
			sheet := sheetOf(t, document, system)
			if sheet == nil {
				t.Fatalf("%s cannot be solved", name)
			}
			all := texts(sheet)
			for _, l := range []Language{French, Spanish, German} {
				for _, told := range all {
					if said, ok := l.Understand(told.text); !ok {
						t.Errorf("%s: %s is not known in %s: %q", name, told.field, l.Name(), told.text)
					} else if english.MatchString(said) {
						t.Errorf("%s: %q is half said in %s: %q", name, told.text, l.Name(), said)
					}
				}
			}
			if report.BoilerRoomSVG(sheet, 0, 360, 0) == "" {
				t.Error("no drawing")
			}
		}
	}
}
