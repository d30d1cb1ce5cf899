package job

import (
	"errors"
	"strings"
	"testing"
)

// Hot water as it stands in a survey.
const wateredInOrder = small + `hot_water: {by: tank with own pump, tank: 50 gal, setpoint: 140 °F, mixing_valve: yes, recirculation: yes, priority: no, people: 4, pattern: US high,
  cold: 45 °F, coil: {output: "112,000 Btu/h", supply: 180 °F, flow: 8 gpm, tank: 95 °F}, standing_loss: 310 Btu/h, loop_length: 80 ft, loop_tube: 7/8 in, loop_insulation: 0 in}
`

func TestHotWaterIsChecked(t *testing.T) {
	j, err := Read([]byte(wateredInOrder))
	if err != nil {
		t.Fatal(err)
	}
	if j.HotWater.Coil == nil || !j.HotWater.LoopCover.Set {
		t.Fatalf("%+v", j.HotWater)
	}
	for _, c := range []struct{ name, old, new, path, words string }{
		{"a kettle", "tank: 50 gal", "tank: 1 gal", "hot_water.tank", "not the size of a tank|2.64"},
		{"a swimming pool", "tank: 50 gal", "tank: 5000 gal", "hot_water.tank", "not the size of a tank"},
		{"a lukewarm tank", "setpoint: 140 °F", "setpoint: 80 °F", "hot_water.setpoint", "not a hot water temperature|86 °F"},
		{"steam", "setpoint: 140 °F", "setpoint: 210 °F", "hot_water.setpoint", "194 °F"},
		{"warm cold water", "cold: 45 °F", "cold: 90 °F", "hot_water.cold", "cold water|84 °F"},
		{"a hotel", "people: 4", "people: 300", "hot_water.people", "up to 40"},
		{"a strange pattern", "pattern: US high", "pattern: US hihg", "hot_water.pattern", "did you mean"},
		{"no priority behind a valve", "by: tank with own pump", "by: tank with three-way valve", "hot_water.priority", "heating gets nothing"},
		{"a coil for a hospital", `output: "112,000 Btu/h"`, `output: "1,120,000 Btu/h"`, "hot_water.coil.output", "not the output of a tank's coil"},
		{"more heat than its flow carries", "flow: 8 gpm", "flow: 1 gpm", "hot_water.coil.output", "more than its flow carries"},
		{"a coil without flow", "flow: 8 gpm", "flow: 0 gpm", "hot_water.coil.flow", "flow"},
		{"a coil colder than its tank", "supply: 180 °F", "supply: 96 °F", "hot_water.coil.supply", "not warmer than the tank"},
		{"a coil of steam", "supply: 180 °F", "supply: 230 °F", "hot_water.coil.supply", "221 °F"},
		{"a boiling tank in the rating", "tank: 95 °F", "tank: 200 °F", "hot_water.coil.tank", "176 °F"},
		{"a rating without output", `output: "112,000 Btu/h", `, "", "hot_water.coil.output", "missing"},
		{"a stove", "standing_loss: 310 Btu/h", "standing_loss: 31000 Btu/h", "hot_water.standing_loss", "what a tank loses"},
		{"a street of pipe", "loop_length: 80 ft", "loop_length: 8000 ft", "hot_water.loop_length", "984 ft"},
		{"a drain", "loop_tube: 7/8 in", "loop_tube: 8 in", "hot_water.loop_tube", "2.36 in"},
		{"a mattress", "loop_insulation: 0 in", "loop_insulation: 8 in", "hot_water.loop_insulation", "pipe insulation"},
		{"a loop that is not there", "recirculation: yes", "recirculation: no", "hot_water.loop_length", "only with recirculation: yes"},
		{"its tube", "recirculation: yes", "recirculation: no", "hot_water.loop_tube", "only with recirculation: yes"},
		{"its insulation", "recirculation: yes", "recirculation: no", "hot_water.loop_insulation", "only with recirculation: yes"},
		{"a combi with a coil", "by: tank with own pump", "by: combi", "hot_water.coil", "only with by: tank"},
		{"a combi with a loss", "by: tank with own pump", "by: combi", "hot_water.standing_loss", "only with by: tank"},
		{"a combi without priority", "by: tank with own pump", "by: combi", "hot_water.priority", "heating gets nothing"},
		{"a pattern without hot water", "by: tank with own pump", "by: none", "hot_water.pattern", "only with hot water"},
	} {
		t.Run(c.name, func(t *testing.T) {
			document := strings.Replace(wateredInOrder, c.old, c.new, 1)
			if document == wateredInOrder {
				t.Fatal("nothing was replaced")
			}
			_, err := Read([]byte(document))
			var faults *Faults
			if !errors.As(err, &faults) {
				t.Fatalf("read: %v", err)
			}
			for _, f := range faults.List {
				if f.Path == c.path && holds(f.Error(), c.words) {
					return
				}
			}
			t.Errorf("want %s with %q, got\n%v", c.path, c.words, err)
		})
	}
}
