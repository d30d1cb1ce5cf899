package job

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"curvewright/units"
)

// small is the least that is a job; the tests replace parts of it.
const small = `curvewright: 1
job: Quillon house
site:
  design_outdoor: -6 °F
house:
  floor_area: 1,850 ft²
  era: 1946-1979
circuits:
  - name: Baseboards
    emitters:
      - fin_tube:
          length: 118 ft
`

// byRooms is a small job with rooms.
const byRooms = `curvewright: 1
job: Marchbanks house
site: {design_outdoor: -6 °F}
house: {setpoint: 70 °F}
constructions:
  - {name: Old wall, u: U-0.09}
rooms:
  - name: Parlour
    area: 224 ft²
    elements:
      - {name: walls, area: 207 ft², construction: Old wall}
    emitters:
      - circuit: House
        cast_iron: {edr: 50 EDR}
  - name: Study
    area: 180 ft²
    load: 4000 Btu/h
    emitters:
      - circuit: Slab
        floor: {construction: wet slab, area: 170 ft²}
circuits:
  - {name: House, kind: direct}
  - {name: Slab, kind: mixed, max_supply: 125 °F}
`

func examples(t testing.TB) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	for _, pattern := range []string{"../examples/*.yaml", "testdata/versions/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("no documents at %s: %v", pattern, err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "-visit.yaml") {
				continue // another kind of document
			}
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			all[filepath.Base(file)] = data
		}
	}
	all["small"], all["by rooms"] = []byte(small), []byte(byRooms)
	return all
}

func TestExamplesAreRead(t *testing.T) {
	for name, data := range examples(t) {
		if _, err := Read(data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestValuesAreReadWithTextAndTrust(t *testing.T) {
	j, err := Read(examples(t)["short-survey.yaml"])
	if err != nil {
		t.Fatal(err)
	}
	if got := j.House.FloorArea; got.Text != "1,850 ft²" || got.Known != Drawings || got.Value.SquareFeet() < 1849.99 || got.Value.SquareFeet() > 1850.01 {
		t.Errorf("floor area %+v", got)
	}
	if got := j.Site.DesignOutdoor; got.How() != Estimated || got.Text != "-6 °F" {
		t.Errorf("design outdoor %+v", got)
	}
	if j.OutdoorSensor.Fitted != "yes" {
		t.Errorf("fitted %q", j.OutdoorSensor.Fitted)
	}
}

func TestOneValueIsARangeWithoutWidth(t *testing.T) {
	for _, given := range []string{`5 °F`, `{from: 5 °F, to: 5 °F}`, `{value: 5 °F}`} {
		j, err := Read([]byte(small + "control: {curve: {two_points: {cold_outdoor: " + given + "}}}\n"))
		if err != nil {
			t.Fatal(err)
		}
		r := j.Control.Curve.TwoPoints.ColdOutdoor
		if r.From != r.To || r.From.Value != units.Fahrenheit(5) {
			t.Errorf("%s: %+v", given, r)
		}
	}
}

func TestTrueAndFalseAreYesAndNo(t *testing.T) {
	for given, want := range map[string]string{"true": "yes", "false": "no", "yes": "yes", "no": "no", "planned": "planned"} {
		j, err := Read([]byte(small + "outdoor_sensor: {fitted: " + given + "}\n"))
		if err != nil {
			t.Fatal(err)
		}
		if got := j.OutdoorSensor.Fitted; got != want {
			t.Errorf("%s: read as %q", given, got)
		}
	}
	j, err := Read([]byte(strings.Replace(byRooms, "    area: 224", "    wet_room: true\n    area: 224", 1)))
	if err != nil || !j.Rooms[0].Wet {
		t.Error("wet room", err)
	}
}

func TestJSONIsReadLikeYAML(t *testing.T) {
	text := `{"curvewright":1,"job":"Quillon \"house\"","site":{"design_outdoor":"-6 °F"},
	"house":{"floor_area":{"value":"1,850 ft²","known":"drawings"},"era":"1946-1979"},
	"circuits":[{"name":"Baseboards","share":0.9,"emitters":[{"radiator":{"output":"2 kW","exponent":1.3}}]}],
	"outdoor_sensor":{"fitted":true}}`
	if !json.Valid([]byte(text)) {
		t.Fatal("not JSON")
	}
	j, err := Read([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if j.Name != `Quillon "house"` || j.Circuits[0].Emitters[0].Radiator.Exponent.Value != 1.3 || j.Circuits[0].Share.Value != 0.9 {
		t.Errorf("%+v", j)
	}
	var indented any
	if err := json.Unmarshal([]byte(text), &indented); err != nil {
		t.Fatal(err)
	}
	for _, indent := range []string{"  ", "\t"} {
		data, err := json.MarshalIndent(indented, "", indent)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(data)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(j, again) {
			t.Errorf("indent %q changes the job", indent)
		}
	}
}

func TestJSONPairsOfEscapesAreOneLetter(t *testing.T) {
	j, err := Read([]byte(`{"curvewright":1,"job":"\ud83d\ude00 \\ud83d","site":{"design_outdoor":"-6 °F"},
	"house":{"floor_area":"95 m²","load":"4 kW"},"circuits":[{"name":"a","emitters":[{"cast_iron":{"edr":"30 EDR"}}]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if j.Name != "\U0001F600 \\ud83d" {
		t.Errorf("%q", j.Name)
	}
}

// A document made to be slow is refused about as fast as any other.
func TestLargeNonsenseIsRefused(t *testing.T) {
	for _, nonsense := range []string{"lengthy: 1\n", "- [[[[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]]]\n", "- &a *a\n", "a: {b: {c: 1}}\n"} {
		document := strings.Repeat(nonsense, maxDocument/len(nonsense))
		if j, err := Read([]byte(document)); err == nil || j != nil || len(err.Error()) > 1<<15 {
			t.Errorf("%.200v", err)
		}
	}
}

func TestRefusals(t *testing.T) {
	replace := func(document, old, new string) string {
		if !strings.Contains(document, old) {
			t.Fatalf("no %q in the document", old)
		}
		return strings.Replace(document, old, new, 1)
	}
	in := func(old, new string) string { return replace(small, old, new) }
	rooms := func(old, new string) string { return replace(byRooms, old, new) }
	table := []struct {
		refused  string
		document string
		path     string
		line     int    // 0: not asked
		words    string // expected in the message, separated by |
	}{
		// How the document is written.
		{"nothing", "", "", 0, "empty"},
		{"only a comment", "# nothing\n", "", 0, "empty"},
		{"a list", "- a\n", "", 1, "a list, not a group of fields"},
		{"one word", "job", "", 1, "not a group"},
		{"no space after the only colon", "job:Quillon", "", 1, "not a group|space after the colon"},
		{"no space after a colon", in("job: Quillon", "job:Quillon"), "", 2, "no space after the colon|name: value"},
		{"a tab", in("  design_outdoor", "\tdesign_outdoor"), "", 4, "tab|spaces"},
		{"a quote left open", in("job: Quillon house", `job: "Quillon house`), "", 0, "quote"},
		{"a bracket left open", in("site:\n  design_outdoor: -6 °F", "site: {design_outdoor: -6 °F"), "", 0, "bracket"},
		{"a colon in a text", in("job: Quillon house", "job: Quillon: house"), "", 2, "colon"},
		{"wrong indentation", in("  era:", " era:"), "", 0, "column"},
		{"a reserved sign", in("job: Quillon", "job: @Quillon"), "", 0, "quotes"},
		{"bad letters", in("Quillon", "Qu\xff\xfeillon"), "", 0, "UTF-8"},
		{"two documents", small + "---\n" + small, "", 13, "second document"},
		{"too large", small + strings.Repeat("# padding\n", maxDocument/10), "", 0, "too large|1024 kB"},
		{"too deep", small + "notes: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", "", 13, "nested too deeply"},
		{"too deep for the parser", strings.Repeat("[", 20000), "", 0, "nested too deeply"},
		{"an anchor", in("job: Quillon house", "job: &name Quillon"), "", 2, "&name|written where it belongs"},
		{"an alias", in("job: Quillon house", "job: &a x\nby: *a"), "", 3, "refers to another place"},
		{"a merge", in("house:\n", "house:\n  <<: {storeys: 2}\n"), "", 6, "merges"},
		{"a type", in("job: Quillon", "job: !!str Quillon"), "", 2, "sets a type"},
		{"a type of one's own", in("job: Quillon", "job: !house Quillon"), "", 2, "sets a type"},

		// Fields.
		{"an unknown field", in("length:", "lenght:"), "circuits[0].emitters[0].fin_tube.lenght", 12, `"lenght" is not a field here|length, output, at|did you mean "length"?|circuit 1 "Baseboards" › emitter 1 › fin_tube`},
		{"a field in capitals", in("era:", "Era:"), "house.Era", 7, `did you mean "era"?`},
		{"a field nothing like any", in("era:", "zzz:"), "house.zzz", 7, "not a field here|floor_area"},
		{"a field twice", in("  era:", "  floor_area: 3 m²\n  era:"), "house.floor_area", 7, "given twice, first in line 6"},
		{"a field that is a list", in("  era:", "  ? [a]\n  : b\n  era:"), "house", 7, "name of a field"},
		{"a field without name", in("  era:", "  \"\": b\n  era:"), "house", 7, "name of a field"},
		{"a comma in brackets", in("site:\n  design_outdoor: -6 °F", "site: {design_outdoor: -6 °F, elevation: 2,150 ft}"), "site.150 ft", 3, "quotes around a number"},
		{"no version", in("curvewright: 1\n", ""), "curvewright", 1, "missing"},
		{"no name", in("job: Quillon house\n", ""), "job", 1, "missing|name of the job"},
		{"no site", in("site:\n  design_outdoor: -6 °F\n", ""), "site", 1, "missing"},
		{"no design temperature", in("design_outdoor: -6 °F", "elevation: 2 ft"), "site.design_outdoor", 4, "missing|design day"},
		{"no circuits", "curvewright: 1\njob: x\nsite: {design_outdoor: -6 °F}\n", "circuits", 1, "missing"},
		{"an empty list of circuits", "curvewright: 1\njob: x\nsite: {design_outdoor: -6 °F}\ncircuits: []\n", "circuits", 4, "empty list"},
		{"a length left out", in("length: 118 ft", "at: 180 °F"), "circuits[0].emitters[0].fin_tube.length", 12, "missing|finned length"},
		{"a list where a group belongs", in("  floor_area: 1,850 ft²\n  era: 1946-1979", "  - floor_area"), "house", 6, "has a list here|a group of fields"},
		{"a group where a list belongs", in("  - name: Baseboards\n    emitters:\n      - fin_tube:\n          length: 118 ft", "  name: Baseboards"), "circuits", 9, "has a group of fields here|dash"},
		{"a group where text belongs", in("job: Quillon house", "job: {a: b}"), "job", 2, "a group of fields here"},
		{"a list where a value belongs", in("118 ft", "[118 ft]"), "circuits[0].emitters[0].fin_tube.length", 12, "has a list here|12 ft 6 in"},
		{"text where a group belongs", in("        length: 118 ft", "        118 ft"), "circuits[0].emitters[0].fin_tube", 12, `the text "118 ft"|length`},
		{"text where a list belongs", small + "frost: {pipes_outside: garage}\n", "frost.pipes_outside", 13, `the text "garage"|a list`},
		{"nothing after a field", in("era: 1946-1979", "era:"), "house.era", 7, "nothing after it|1946-1979"},
		{"nothing after a value", in("118 ft", ""), "circuits[0].emitters[0].fin_tube.length", 12, "nothing after it|12 ft 6 in"},
		{"nothing after a group", small + "boiler:\n", "boiler", 13, "nothing after it|min_output"},
		{"an empty text", in("job: Quillon house", `job: ""`), "job", 2, "is empty"},

		// Values and words.
		{"no unit", in("118 ft", "118"), "circuits[0].emitters[0].fin_tube.length", 12, `"118" has no unit|12 ft 6 in`},
		{"no unit for a temperature", in("-6 °F", "-6"), "site.design_outdoor", 4, `"-6" has no unit|70 °F`},
		{"the unit of something else", in("118 ft", "118 °F"), "circuits[0].emitters[0].fin_tube.length", 12, "not a unit of a length"},
		{"a value in another wrapping", in("118 ft", "{ft: 118}"), "circuits[0].emitters[0].fin_tube.length.ft", 12, "not a field here|value, known"},
		{"a wrapping without value", in("118 ft", "{known: measured}"), "circuits[0].emitters[0].fin_tube.length.value", 12, "missing"},
		{"a wrapped list", in("118 ft", "{value: [118 ft]}"), "circuits[0].emitters[0].fin_tube.length.value", 12, "has a list here"},
		{"a wrong way of knowing", in("118 ft", "{value: 118 ft, known: measurd}"), "circuits[0].emitters[0].fin_tube.length.known", 12, `did you mean "measured"?|drawings`},
		{"assumed", in("118 ft", "{value: 118 ft, known: assumed}"), "circuits[0].emitters[0].fin_tube.length.known", 12, "measured, drawings, bills, estimated"},
		{"a wrong word", in("era: 1946-1979", "era: 1950s"), "house.era", 7, `"1950s" is not one of the words|before 1946`},
		{"a word in capitals", small + "boiler: {fuel: Natural Gas}\n", "boiler.fuel", 13, `did you mean "natural gas"?`},
		{"a word nearly right", small + "boiler: {kind: condesing}\n", "boiler.kind", 13, `did you mean "condensing"?`},
		{"a wrong word in a list", small + "control: {frost_by: [outdor]}\n", "control.frost_by[0]", 13, `did you mean "outdoor"?`},
		{"a count with a unit", in("  era:", "  storeys: 2 floors\n  era:"), "house.storeys", 7, "whole number"},
		{"a broken count", in("  era:", "  storeys: 1.5\n  era:"), "house.storeys", 7, "whole number"},
		{"a figure with a unit", small + "control: {curve: {slope_shift: {slope: 2 K}}}\n", "control.curve.slope_shift.slope", 13, "not a plain number|1.3"},
		{"not a number", small + "control: {curve: {slope_shift: {slope: .nan}}}\n", "control.curve.slope_shift.slope", 13, "not a plain number"},
		{"neither yes nor no", byRoomsWet, "rooms[0].wet_room", 9, "yes, no"},

		// Versions.
		{"a newer version", in("curvewright: 1", "curvewright: 99"), "curvewright", 1, "newer version"},
		{"version nought", in("curvewright: 1", "curvewright: 0"), "curvewright", 1, "not a version"},
		{"a version that is a word", in("curvewright: 1", "curvewright: one"), "curvewright", 1, "whole number"},

		// Single values that make no sense.
		{"an area of nothing", in("1,850 ft²", "0 ft²"), "house.floor_area", 6, "not more than zero"},
		{"a negative count", in("  era:", "  storeys: -2\n  era:"), "house.storeys", 7, "0 to 1000"},
		{"a share above one", in("    emitters:", "    share: 150 %\n    emitters:"), "circuits[0].share", 10, "more than the whole|100 %"},
		{"a design day on the moon", in("-6 °F", "-100 °C"), "site.design_outdoor", 4, "-76 °F|68 °F"},
		{"negative gains", in("  era:", "  gains: -3 W\n  era:"), "house.gains", 7, "less than zero"},
		{"a house in orbit", in("design_outdoor: -6 °F", "design_outdoor: -6 °F\n  elevation: 90 km"), "site.elevation", 5, "height"},

		// Sense across fields.
		{"a year colder than its design day", in("design_outdoor: -6 °F", "design_outdoor: -6 °F\n  annual_mean: -10 °F"), "site.annual_mean", 5, "not warmer than the design day|-6 °F"},
		{"a bad day", in("site:", "surveyed: 2026-13-40\nsite:"), "surveyed", 3, "2026-11-25"},
		{"a hot room", in("  era:", "  setpoint: 110 °F\n  era:"), "house.setpoint", 7, "41 °F|95 °F"},
		{"a room colder than the day", in("-6 °F", "60 °F\nprogram: {lower: 55 °F}"), "program.lower", 5, "not warmer than the design day"},
		{"no floor area", in("  floor_area: 1,850 ft²\n", ""), "house.floor_area", 6, "missing|no rooms"},
		{"no way to a load", in("  era: 1946-1979\n", ""), "house", 6, "load, or fuel, or era, or rooms"},
		{"a low ceiling", in("  era:", "  ceiling_height: 8 in\n  era:"), "house.ceiling_height", 7, "height of a room"},
		{"bills to trust and none there", in("  era:", "  trust: bills\n  era:"), "house.trust", 7, "only with fuel"},
		{"fuel twice", in("  era:", "  fuel: {fuel: propane, energy: 900 therm, volume: 900 gal, degree_days: 7000 HDD}\n  era:"), "house.fuel", 7, "both energy and volume"},
		{"fuel without amount", in("  era:", "  fuel: {fuel: propane, degree_days: 7000 HDD}\n  era:"), "house.fuel", 7, "neither energy nor volume"},
		{"more other uses than fuel", in("  era:", "  fuel: {fuel: propane, energy: 900 therm, other_uses: 901 therm, degree_days: 7000 HDD}\n  era:"), "house.fuel.other_uses", 7, "nothing for heating"},
		{"a circuit without emitters", in("    emitters:\n      - fin_tube:\n          length: 118 ft\n", ""), "circuits[0].emitters", 9, "missing|no rooms"},
		{"an emitter of no kind", in("fin_tube:\n          length: 118 ft", "count: 2"), "circuits[0].emitters[0]", 11, "does not say what it is|fin_tube, cast_iron"},
		{"an emitter of two kinds", in("length: 118 ft", "length: 118 ft\n        cast_iron: {edr: 3 EDR}"), "circuits[0].emitters[0]", 11, "fin_tube, cast_iron|together"},
		{"an emitter under another circuit", in("- fin_tube:", "- circuit: Floor\n        fin_tube:"), "circuits[0].emitters[0].circuit", 11, "Baseboards"},
		{"circuits of one name", small + "  - {name: baseboards, emitters: [{cast_iron: {edr: 3 EDR}}], share: 10 %}\n", "circuits[1].name", 13, "name of another"},
		{"shares above the whole", in("    emitters:", "    share: 80 %\n    emitters:") + "  - {name: B, share: 30 %, emitters: [{cast_iron: {edr: 3 EDR}}]}\n", "circuits", 9, "add up to|100 %"},
		{"areas above the whole", in("    emitters:", "    area: 1800 ft²\n    emitters:") + "  - {name: B, area: 300 ft², emitters: [{cast_iron: {edr: 3 EDR}}]}\n", "circuits", 9, "add up to"},
		{"share and area", in("    emitters:", "    area: 1800 ft²\n    share: 30 %\n    emitters:"), "circuits[0]", 9, "both share and area"},
		{"no shares", small + "  - {name: B, emitters: [{cast_iron: {edr: 3 EDR}}]}\n", "circuits", 9, "how they share"},
		{"a limit below the rooms", in("  era:", "  setpoint: 70 °F\n  era:") + "    max_supply: 65 °F\n", "circuits[0].max_supply", 14, "not warmer than the rooms|70 °F"},
		{"a large drop", in("    emitters:", "    drop: 200 °F\n    emitters:"), "circuits[0].drop", 10, "more than water loses"},
		{"a flat exponent", in("fin_tube:\n          length: 118 ft", "radiator: {output: 2 kW, exponent: 0.3}"), "circuits[0].emitters[0].radiator.exponent", 11, "1 to 1.6"},
		{"a strange excess", in("fin_tube:\n          length: 118 ft", "towel_rail: {output: 2 kW, excess: 5 K}"), "circuits[0].emitters[0].towel_rail.excess", 11, "excess"},
		{"a cold rating", in("length: 118 ft", "length: 118 ft\n          at: 70 °F"), "circuits[0].emitters[0].fin_tube.at", 13, "rated"},
		{"a coil cooler than its air", in("fin_tube:\n          length: 118 ft", "fan_coil: {output: 2 kW, entering_water: 60 °F, entering_air: 70 °F, water_flow: 2 gpm, air_flow: 200 cfm}"), "circuits[0].emitters[0].fan_coil.entering_water", 11, "not warmer than the entering air"},
		{"a wide spacing", in("fin_tube:\n          length: 118 ft", "floor: {construction: wet slab, area: 9 m², spacing: 2 m}"), "circuits[0].emitters[0].floor.spacing", 11, "tube spacing"},
		{"a tube without bore", in("fin_tube:\n          length: 118 ft", "floor: {construction: wet slab, area: 9 m², tube: 16 mm, tube_wall: 8 mm}"), "circuits[0].emitters[0].floor.tube_wall", 11, "no bore"},
		{"a cool sizing", in("fin_tube:\n          length: 118 ft", "sized: {like: fin-tube, supply: 60 °F}"), "circuits[0].emitters[0].sized.supply", 11, "too cool"},

		{"rooms of one name", rooms("name: Study", "name: parlour"), "rooms[1].name", 15, "name of another"},
		{"a room without load", rooms("    load: 4000 Btu/h\n", ""), "rooms[1]", 15, "no way to find its heat load"},
		{"a room without area", replace(rooms("    area: 180 ft²\n    load: 4000 Btu/h\n", ""), "{setpoint", "{load: 9 kW, setpoint"), "rooms[1].area", 15, "share of the house"},
		{"load and elements", rooms("    elements:", "    load: 3 kW\n    elements:"), "rooms[0]", 8, "both load and elements"},
		{"u and construction", rooms("construction: Old wall}", "u: U-0.1, construction: Old wall}"), "rooms[0].elements[0]", 11, "both u and construction"},
		{"neither u nor construction", rooms(", construction: Old wall}", "}"), "rooms[0].elements[0]", 11, "neither u nor construction"},
		{"a construction that is not there", rooms("construction: Old wall}", "construction: Old wal}"), "rooms[0].elements[0].construction", 11, `did you mean "Old wall"?`},
		{"constructions of one name", rooms("rooms:", "  - {name: old wall, u: U-0.1}\nrooms:"), "constructions[1].name", 7, "name of another"},
		{"a construction of nothing", rooms("{name: Old wall, u: U-0.09}", "{name: Old wall}"), "constructions[0]", 6, "neither u nor layers"},
		{"half a layer", rooms("u: U-0.09", "layers: [{thickness: 3 in}]"), "constructions[0].layers[0]", 6, "no thermal resistance"},
		{"half a bridge", rooms("u: U-0.09", "layers: [{resistance: R-11, bridge_share: 20 %}]"), "constructions[0].layers[0]", 6, "half of what bridges"},
		{"a bridge without thickness", rooms("u: U-0.09", "layers: [{resistance: R-11, bridge_share: 20 %, bridged_by: 0.1 W/mK}]"), "constructions[0].layers[0]", 6, "no thickness"},
		{"a layer told twice", rooms("u: U-0.09", "layers: [{resistance: R-11, thickness: 3 in, conductivity: 0.1 W/mK}]"), "constructions[0].layers[0]", 6, "both resistance and conductivity"},
		{"no room behind", rooms("construction: Old wall}", "construction: Old wall, to: room}"), "rooms[0].elements[0].room", 11, "missing|room behind"},
		{"a room behind that is not there", rooms("construction: Old wall}", "construction: Old wall, to: room, room: Studdy}"), "rooms[0].elements[0].room", 11, `did you mean "Study"?`},
		{"itself behind", rooms("construction: Old wall}", "construction: Old wall, to: room, room: Parlour}"), "rooms[0].elements[0].room", 11, "this room itself"},
		{"a perimeter in the air", rooms("construction: Old wall}", "construction: Old wall, perimeter: 9 m}"), "rooms[0].elements[0].perimeter", 11, "only with to: ground"},
		{"a reduction outdoors", rooms("construction: Old wall}", "construction: Old wall, reduction: 40 %}"), "rooms[0].elements[0].reduction", 11, "only with to: unheated"},
		{"a small slab", rooms("construction: Old wall}", "to: ground, perimeter: 9 m, slab_area: 3 m²}"), "rooms[0].elements[0].slab_area", 11, "smaller than the part"},
		{"no circuit named", rooms("circuit: House\n        ", ""), "rooms[0].emitters[0].circuit", 13, "missing|House, Slab"},
		{"a circuit that is not there", rooms("circuit: House", "circuit: Hose"), "rooms[0].emitters[0].circuit", 13, `did you mean "House"?`},
		{"a circuit that feeds nothing", byRooms + "  - {name: Garage}\n", "circuits[2]", 24, "feeds nothing"},
		{"emitters twice", rooms("kind: direct}", "kind: direct, emitters: [{cast_iron: {edr: 3 EDR}}]}"), "circuits[0].emitters", 22, "here and in the rooms"},
		{"a share beside rooms", rooms("kind: direct}", "kind: direct, share: 30 %}"), "circuits[0]", 22, "share of the load"},
		{"more floor than room", rooms("area: 170 ft²", "area: 190 ft²"), "rooms[1].emitters[0].floor.area", 20, "more than the floor of the room|180 ft²"},
		{"more carried than there is", rooms("      - circuit: House\n        cast_iron: {edr: 50 EDR}", "      - {circuit: House, carries: 70 %, cast_iron: {edr: 50 EDR}}\n      - {circuit: House, carries: 70 %, cast_iron: {edr: 50 EDR}}"), "rooms[0].emitters", 13, "carry together"},

		{"a boiler upside down", small + "boiler: {output: 10 kW, min_output: 12 kW}\n", "boiler.min_output", 13, "less than the highest output|10"},
		{"a load of hardly anything", rooms("load: 4000 Btu/h", "load: 1.85 W"), "rooms[1].load", 17, "not the heat load of a room of this size"},
		{"a boiler of no output", small + "boiler: {output: 100 Btu/h}\n", "boiler.output", 13, "not the output of a house's boiler"},
		{"a burner that turns down to nothing", small + "boiler: {output: 30 kW, min_output: 6 W}\n", "boiler.min_output", 13, "less than any burner turns down to|205"},
		{"boiler limits upside down", small + "boiler: {min_supply: 60 °C, max_supply: 50 °C}\n", "boiler.min_supply", 13, "not below the highest supply"},
		{"a sensor without separator", small + "separator: {kind: none, sensor: on a module}\n", "separator.sensor", 13, "sensor without a separator"},
		{"a combi with a tank", small + "hot_water: {by: combi, tank: 40 gal}\n", "hot_water.tank", 13, "only with by: tank"},
		{"a set-point without hot water", small + "hot_water: {by: none, setpoint: 50 °C}\n", "hot_water.setpoint", 13, "only with hot water"},
		{"a strange time", small + "program: {wake_up: 6 am}\n", "program.wake_up", 13, "06:30"},
		{"a time without nought", small + "program: {wake_up: 6:30}\n", "program.wake_up", 13, "06:30"},
		{"leaving without being away", small + "program: {wish: night, leave: 08:00}\n", "program.leave", 13, "only with wish: away"},
		{"a lower temperature that is higher", in("  era:", "  setpoint: 68 °F\n  era:") + "program: {lower: 70 °F}\n", "program.lower", 14, "not lower"},

		{"control limits upside down", small + "control: {min_supply: 60 °C, max_supply: 50 °C}\n", "control.min_supply", 13, "not below the highest supply"},
		{"many switching points", small + "control: {points_per_day: 13}\n", "control.points_per_day", 13, "0 to 12"},
		{"a coarse step", small + "control: {step: 15 K}\n", "control.step", 13, "too coarse"},
		{"a step of nothing", small + "control: {step: 0 K}\n", "control.step", 13, "not more than zero"},
		{"two shapes", small + "control: {curve: {table: {points: 3}, bent: {exponent: 1.3}}}\n", "control.curve", 13, "bent, table|together"},
		{"one point", small + "control: {curve: {table: {points: 1}}}\n", "control.curve.table.points", 13, "2 to 12"},
		{"a range upside down", small + "control: {curve: {table: {points: 3, supply: {from: 80 °C, to: 20 °C}}}}\n", "control.curve.table.supply.from", 13, "above the other end|20 °C"},
		{"half a range", small + "control: {curve: {table: {points: 3, supply: {from: 80 °C}}}}\n", "control.curve.table.supply", 13, "one end only"},
		{"points upside down", small + "control: {curve: {two_points: {cold_outdoor: 60 °F, mild_outdoor: 0 °F}}}\n", "control.curve.two_points.cold_outdoor", 13, "nowhere colder"},
		{"supplies upside down", small + "control: {curve: {bent: {cold_supply: 90 °F, mild_supply: 120 °F}}}\n", "control.curve.bent.mild_supply", 13, "nowhere cooler"},
		{"a strange bend", small + "control: {curve: {bent: {exponent: 9}}}\n", "control.curve.bent.exponent.from", 13, "0.5 to 3"},
		{"a strange slope", small + "control: {curve: {slope_shift: {slope: {from: -1, to: 3}}}}\n", "control.curve.slope_shift.slope.from", 13, "0 to 10"},
	}
	for _, row := range table {
		t.Run(row.refused, func(t *testing.T) {
			j, err := Read([]byte(row.document))
			var faults *Faults
			if j != nil || !errors.As(err, &faults) {
				t.Fatalf("read: %v", err)
			}
			for _, f := range faults.List {
				if f.Path == row.path && (row.line == 0 || f.Line == row.line) && holds(f.Error(), row.words) {
					return
				}
			}
			t.Errorf("want %s in line %d with %q, got\n%v\n%+v", row.path, row.line, row.words, err, faults.List)
		})
	}
}

var byRoomsWet = strings.Replace(byRooms, "    area: 224 ft²", "    wet_room: perhaps\n    area: 224 ft²", 1)

// holds compares without regard to the sort of space and minus.
func holds(text, words string) bool {
	plain := strings.NewReplacer("\u00a0", " ", "−", "-")
	for _, w := range strings.Split(words, "|") {
		if !strings.Contains(plain.Replace(text), plain.Replace(w)) {
			return false
		}
	}
	return true
}

func TestAllFaultsAreToldAtOnce(t *testing.T) {
	_, err := Read([]byte(`curvewright: 1
job: Quillon house
site:
  design_outdoor: -6
house:
  floor_area: 1,850 ft²
  era: 1950s
circuits:
  - name: Baseboards
    emitters:
      - fin_tube:
          lenght: 118 ft
`))
	want := `3 things to put right in the job
line 4: site › design_outdoor: "-6" has no unit for a temperature; accepted: 70 °F, 21.1 °C, 294 K
    4 |   design_outdoor: -6
line 7: house › era: "1950s" is not one of the words for this; accepted: before 1946, 1946-1979, 1980-1999, 2000-2011, 2012 on
    7 |   era: 1950s
line 12: circuit 1 "Baseboards" › emitter 1 › fin_tube › lenght: "lenght" is not a field here; accepted: length, output, at, rated_flow, heating_effect, air_at_floor; did you mean "length"?
    12 |           lenght: 118 ft`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestFaultsAreBounded(t *testing.T) {
	_, err := Read([]byte(small + strings.Repeat("x: 1\n", 1000)))
	var faults *Faults
	if !errors.As(err, &faults) || len(faults.List) != maxFaults || !faults.More || !strings.HasPrefix(err.Error(), "more than 50 things") {
		t.Errorf("%.200v", err)
	}
}

func TestCheckJudgesWhatWasNotRead(t *testing.T) {
	j, err := Read([]byte(small))
	if err != nil {
		t.Fatal(err)
	}
	if err := Check(j); err != nil {
		t.Fatal(err)
	}
	nan := units.Number(0)
	for words, spoil := range map[string]func(*Job){
		"version":                  func(j *Job) { j.Version = 7 },
		"job: is missing":          func(j *Job) { j.Name = "" },
		"site: is missing":         func(j *Job) { j.Site = Site{} },
		"design_outdoor: is missi": func(j *Job) { j.Site = Site{AnnualMean: Says(units.Celsius(5), "")} },
		"words for this":           func(j *Job) { j.House.Era = "old" },
		"way of knowing":           func(j *Job) { j.House.FloorArea.Known = Assumed },
		"not a number":             func(j *Job) { j.House.Height = Says(units.Length(nan/nan), "") },
		"does not say what it is":  func(j *Job) { j.Circuits[0].Emitters = []Emitter{{}} },
	} {
		j, _ := Read([]byte(small))
		spoil(j)
		if err := Check(j); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("want %q, got %v", words, err)
		}
	}
}

func TestMeantFindsTheNearWord(t *testing.T) {
	for _, row := range []struct{ given, want string }{
		{"lenght", "length"}, {"Length", "length"}, {"rated flow", "rated_flow"}, {"output_rated", "output"}, {"qqqqqq", ""}, {"", ""},
	} {
		got := meant(row.given, []string{"length", "output", "rated_flow", "at"})
		if want := ""; row.want != "" {
			want = `did you mean "` + row.want + `"?`
			if got != want {
				t.Errorf("%q: %s", row.given, got)
			}
		} else if got != "" {
			t.Errorf("%q: %s", row.given, got)
		}
	}
}
