package visit

import (
	"testing"

	"curvewright/job"
	"curvewright/units"
)

// onOnePump is a house with two direct circuits on the pump of one.
const onOnePump = `curvewright: 1
job: Two on one
site: {design_outdoor: -12 °C, annual_mean: 8 °C}
house: {setpoint: 21 °C}
rooms:
  - {name: Spa, area: 12 m², load: 1.6 kW, emitters: [{circuit: Bath, radiator: {output: 2.4 kW}}]}
  - {name: Hall, area: 90 m², load: 6.4 kW, emitters: [{circuit: Radiators, radiator: {output: 9 kW}}]}
circuits:
  - {name: Bath, flow: 2 L/min, pump_of: Radiators, pipes: [{tube: copper EN 1057, size: 12x1, length: 16 m}]}
  - {name: Radiators, flow: 8 L/min, pipes: [{tube: copper EN 1057, size: 18x1, length: 40 m}]}
boiler: {kind: condensing, fuel: natural gas, output: 15 kW, min_output: 3 kW}
separator: {kind: low-loss header, boiler_flow: 12 L/min}
control: {scale: celsius, curve: {two_points: {}}}
`

// TestAPumpThatStandsIsOneFault: both circuits behind it are cold, and the pump is named once,
// by the circuit that has it.
func TestAPumpThatStandsIsOneFault(t *testing.T) {
	j, err := job.Read([]byte(onOnePump))
	if err != nil {
		t.Fatal(err)
	}
	h, err := New(j, units.SI)
	if err != nil {
		t.Fatal(err)
	}
	of := func(m Measure, circuit string, v float64) Measured {
		return Measured{Reading: Reading{Measure: m, Circuit: circuit}, Value: v}
	}
	var taken []Measured
	for _, circuit := range []string{"Bath", "Radiators"} {
		taken = append(taken, of(Flow, circuit, 0), of(PumpHead, circuit, 0), of(Return, circuit, float64(units.Celsius(24))))
	}
	judged, err := h.Judge(Conditions{Outdoor: units.Celsius(-5)}, taken)
	if err != nil {
		t.Fatal(err)
	}
	if first := judged.Causes[0]; first.Fault != PumpOff || first.Circuit != "Radiators" {
		t.Errorf("first comes %s", first.Name())
	}
	for _, c := range judged.Causes {
		if c.Circuit == "Bath" && (c.Fault == PumpOff || c.Fault == PumpSlow || c.Fault == PumpFast) {
			t.Errorf("Bath has no pump, and %s is weighed", c.Name())
		}
	}
}
