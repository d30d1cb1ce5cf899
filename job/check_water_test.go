package job_test

import (
	"testing"

	"curvewright/job"
)

// TestHardWintersAreAccepted: mains of cold places come with 35 °F, and the strongest fills
// that can be worked out may be said.
func TestHardWintersAreAccepted(t *testing.T) {
	const house = "curvewright: 1\njob: x\nsite: {design_outdoor: -40 °F}\nhouse: {floor_area: \"1,500 ft²\", load: \"30,000 Btu/h\"}\n" +
		"circuits: [{name: A, emitters: [{sized: {like: fin-tube}}]}]\n"
	for _, c := range []struct{ name, rest string }{
		{"cold main", "hot_water: {by: combi, cold: 35 °F}\n"},
		{"most ethylene glycol", "system: {antifreeze: ethylene glycol, antifreeze_share: 57 %}\n"},
		{"most propylene glycol", "system: {antifreeze: propylene glycol, antifreeze_share: 59 %}\n"},
		{"output of the maker's altitude table", "boiler: {output: 24 kW, output_at_site: yes}\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := job.Read([]byte(house + c.rest)); err != nil {
				t.Error(err)
			}
		})
	}
}
