package job

import (
	"errors"
	"strings"
	"testing"
)

// Pipes, pump, valve, loops and separator as they stand in a survey.
const piped = `curvewright: 1
job: Marchbanks house
site: {design_outdoor: -6 °F}
house: {floor_area: 1850 ft², load: 40000 Btu/h}
circuits:
  - name: House
    share: 70 %
    flow: 4 gpm
    emitters: [{fin_tube: {length: 100 ft}}]
    pipes:
      - {tube: copper M, size: "1", length: 60 ft, bends: 12, tees: 2, valves: 4, extra: 1 ft of head}
      - {tube: pex ASTM F876, size: 3/4 in, length: 90 ft, share: 50 %}
    pump:
      mode: constant pressure
      points: [{flow: 0 gpm, head: 19 ft of head}, {flow: 5 gpm, head: 16 ft of head}, {flow: 15 gpm, head: 0 ft of head}]
  - name: Slab
    kind: mixed
    emitters: [{floor: {construction: wet slab, area: 270 ft², loops: 2, loop_length: 200 ft}}]
    valve: kv 1.6
separator: {kind: low-loss header, boiler_flow: 6.5 gpm}
`

// onePump is a house whose bath hangs on the pump of the radiators.
const onePump = `curvewright: 1
job: One pump
site: {design_outdoor: -6 °F}
house: {floor_area: 1850 ft², load: 40000 Btu/h}
circuits:
  - {name: House, share: 60 %, emitters: [{fin_tube: {length: 100 ft}}]}
  - {name: Bath, share: 20 %, pump_of: House, emitters: [{fin_tube: {length: 30 ft}}]}
  - {name: Slab, kind: mixed, emitters: [{floor: {construction: wet slab, area: 270 ft²}}]}
`

// TestACircuitOnThePumpOfAnother: it must be there, direct, and have a pump of its own.
func TestACircuitOnThePumpOfAnother(t *testing.T) {
	if j, err := Read([]byte(onePump)); err != nil || j.Circuits[1].PumpOf != "House" {
		t.Fatalf("%v, %v", j, err)
	}
	for _, c := range []struct{ name, old, new, path, words string }{
		{"no such circuit", "pump_of: House", "pump_of: Hose", "circuits[1].pump_of", "is not the name of a circuit"},
		{"its own", "pump_of: House", "pump_of: Bath", "circuits[1].pump_of", "is the circuit itself"},
		{"a pump behind a valve", "pump_of: House", "pump_of: Slab", "circuits[1].pump_of", "whose pump stands behind its valve"},
		{"a mixed circuit", "kind: mixed,", "kind: mixed, pump_of: House,", "circuits[2].pump_of", "behind its valve it has a pump of its own"},
		{"a pump beside it", "pump_of: House,", "pump_of: House, pump: {mode: fixed speed},", "circuits[1].pump", "one of the two"},
		{"one behind the other", "kind: mixed,", "pump_of: Bath,", "circuits[2].pump_of", "has no pump of its own"},
		{"in a ring", "share: 60 %,", "share: 60 %, pump_of: Bath,", "circuits[0].pump_of", "has no pump of its own"},
	} {
		_, err := Read([]byte(strings.Replace(onePump, c.old, c.new, 1)))
		var faults *Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		said := false
		for _, f := range faults.List {
			said = said || f.Path == c.path && strings.Contains(f.Error(), c.words)
		}
		if !said {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestPipeworkIsChecked(t *testing.T) {
	j, err := Read([]byte(piped))
	if err != nil {
		t.Fatal(err)
	}
	pipe, err := j.Circuits[0].Pipes[1].Pipe()
	if err != nil || pipe.String() != "3/4 PEX SDR9" {
		t.Fatalf("%v, %v", pipe, err)
	}
	for _, c := range []struct{ name, old, new, path, words string }{
		{"still water", "flow: 4 gpm", "flow: 0 gpm", "circuits[0].flow", "not more than zero"},
		{"a size that is not made", `size: "1"`, "size: 7/8", "circuits[0].pipes[0].size", "not a size of copper M|3/4"},
		{"a size of another tube", "size: 3/4 in", "size: 22x1", "circuits[0].pipes[1].size", "not a size of pex ASTM F876"},
		{"a tube of wood", "tube: copper M", "tube: wood", "circuits[0].pipes[0].tube", "not one of the words"},
		{"a very long pipe", "length: 60 ft", "length: 60000 ft", "circuits[0].pipes[0].length", "not a length of tube"},
		{"a maze", "bends: 12", "bends: 300", "circuits[0].pipes[0].bends", "0 to 200"},
		{"a filter like a wall", "extra: 1 ft of head", "extra: 100 psi", "circuits[0].pipes[0].extra", "not the drop"},
		{"a share of nothing", "share: 50 %", "share: 0.1 %", "circuits[0].pipes[1].share", "not the share"},
		{"a pump of two points", "{flow: 5 gpm, head: 16 ft of head}, ", "", "circuits[0].pump.points", "3 to 50 points"},
		{"a curve that begins late", "flow: 0 gpm", "flow: 1 gpm", "circuits[0].pump.points[0].flow", "begins"},
		{"a curve that turns back", "flow: 5 gpm", "flow: 20 gpm", "circuits[0].pump.points[2].flow", "more than 20 gpm"},
		{"a curve that rises", "head: 16 ft of head", "head: 25 ft of head", "circuits[0].pump.points[1].head", "up to 19 ft of head"},
		{"a curve without head", "head: 19 ft of head", "head: 0 ft of head", "circuits[0].pump.points[0].head", "more than zero"},
		{"a fire engine", "head: 19 ft of head", "head: 300 psi", "circuits[0].pump.points[0].head", "not the head"},
		{"a river", "flow: 15 gpm", "flow: 15000 gpm", "circuits[0].pump.points[2].flow", "not the flow"},
		{"a pump of no kind", "mode: constant pressure", "mode: sometimes", "circuits[0].pump.mode", "not one of the words"},
		{"a valve on a direct circuit", "kind: mixed", "kind: direct", "circuits[1].valve", "only with kind: mixed"},
		{"a valve like a gate", "valve: kv 1.6", "valve: kv 900", "circuits[1].valve", "not the flow coefficient"},
		{"a floor of loops", "loops: 2", "loops: 90", "circuits[1].emitters[0].floor.loops", "1 to 60"},
		{"a loop without end", "loop_length: 200 ft", "loop_length: 2000 ft", "circuits[1].emitters[0].floor.loop_length", "not the length"},
		{"a boiler that stands still", "boiler_flow: 6.5 gpm", "boiler_flow: 0 gpm", "separator.boiler_flow", "not more than zero"},
		{"a boiler like a mill", "boiler_flow: 6.5 gpm", "boiler_flow: 6500 gpm", "separator.boiler_flow", "not the flow"},
		{"a flow without a separator", "kind: low-loss header, ", "", "separator.boiler_flow", "only with a kind of separator"},
		{"a sensor without a separator", "kind: low-loss header, boiler_flow: 6.5 gpm", "kind: none, sensor: at the boiler", "separator.sensor", "without a separator"},
	} {
		if strings.Count(piped, c.old) != 1 {
			t.Fatalf("%s: %q stands %d times in the document", c.name, c.old, strings.Count(piped, c.old))
		}
		_, err := Read([]byte(strings.Replace(piped, c.old, c.new, 1)))
		var faults *Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		said := c.path == ""
		for _, f := range faults.List {
			if f.Path != c.path {
				continue
			}
			said = true
			for _, w := range strings.Split(c.words, "|") {
				said = said && strings.Contains(strings.ReplaceAll(f.Problem+" "+f.Accept, "\u00a0", " "), w)
			}
			if said {
				break
			}
		}
		if !said {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
