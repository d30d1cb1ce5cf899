package settings

import (
	"strings"
	"testing"

	"curvewright/job"
)

// A radiator rated per length or per section gives the sheet of one that is rated as a
// whole, and its working says how much there is of it.
func TestARadiatorRatedPerLengthIsThatOfTheWhole(t *testing.T) {
	sheet := func(radiator string) *Sheet {
		t.Helper()
		j, err := job.Read([]byte(`curvewright: 1
job: a house
site: {design_outdoor: -10 °C}
house: {floor_area: 120 m², load: 7 kW}
circuits:
  - {name: panels, emitters: [{radiator: {` + radiator + `}}]}
`))
		if err != nil {
			t.Fatal(err)
		}
		s, err := Solve(j, Options{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	whole := sheet("output: 11.2 kW, exponent: 1.33").Circuits[0].Points
	for name, radiator := range map[string]string{
		"per length":  "per_length: 1120 W/m, length: 10 m, exponent: 1.33",
		"per section": "per_section: 112 W, sections: 100, exponent: 1.33",
		"by water":    "per_length: 1120 W/m, length: 10 m, exponent: 1.33, at: 70 °C, air: 20 °C",
	} {
		s := sheet(radiator)
		for i, p := range s.Circuits[0].Points {
			if d := p.Set.Sub(whole[i].Set); d > 0.01 || d < -0.01 {
				t.Errorf("%s: %v at %v outdoors, the whole %v", name, p.Set, p.Outdoor, whole[i].Set)
			}
		}
		found := false
		for _, section := range s.Sections {
			for _, l := range section.Lines {
				for _, step := range l.Working {
					found = found || strings.Contains(step.Formula, "q ·") && strings.Contains(step.Formula, "ΔT_log")
				}
			}
		}
		if !found {
			t.Errorf("%s: no working says how much there is of it", name)
		}
	}
}
