package job

import (
	"strings"
	"testing"
)

// TestBurnerAndTubeAreJudged: what only some boilers can have, and a tube said twice.
func TestBurnerAndTubeAreJudged(t *testing.T) {
	const document = "curvewright: 1\njob: B\nsite: {design_outdoor: -10 °C}\nhouse: {floor_area: 150 m², load: 9 kW}\n" +
		"circuits: [{name: A, emitters: [{floor: {construction: wet slab, area: 90 m², TUBE}}]}]\nboiler: {BOILER}\n"
	for _, c := range []struct{ tube, boiler, path, accept string }{
		{"tube_size: 1/2 in", "kind: non-condensing, fuel: natural gas, burner: atmospheric, excess_air: 180 %", "", ""},
		{"tube_size: 16 x 2 mm, tube_material: multilayer", "kind: non-condensing, least_return: 130 °F", "", ""},
		{"tube_size: 1/2, tube: 5/8 in", "kind: condensing", "circuits[0].emitters[0].floor.tube", "one of the two"},
		{"tube_size: 7/16", "kind: condensing", "circuits[0].emitters[0].floor.tube_size", "3/8, 1/2"},
		{"tube_size: 2", "kind: condensing", "circuits[0].emitters[0].floor.tube_size", "outside"},
		{"spacing: 20 cm", "excess_air: 450 %", "boiler.excess_air", "400%"},
		{"spacing: 20 cm", "kind: condensing, burner: atmospheric", "boiler.burner", "premix"},
		{"spacing: 20 cm", "kind: non-condensing, fuel: heating oil, burner: atmospheric", "boiler.burner", "forced draught"},
		{"spacing: 20 cm", "kind: condensing, least_return: 130 °F", "boiler.least_return", "non-condensing"},
		{"spacing: 20 cm", "kind: non-condensing, least_return: 190 °F", "boiler.least_return", ""},
	} {
		_, err := Read([]byte(strings.NewReplacer("TUBE", c.tube, "BOILER", c.boiler).Replace(document)))
		switch faults, _ := err.(*Faults); {
		case c.path == "" && err != nil:
			t.Errorf("%s, %s: %v", c.tube, c.boiler, err)
		case c.path == "":
		case faults == nil || len(faults.List) != 1 || faults.List[0].Path != c.path || !strings.Contains(faults.List[0].Accept, c.accept):
			t.Errorf("%s, %s: %v", c.tube, c.boiler, err)
		}
	}
}
