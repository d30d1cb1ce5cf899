package job

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"curvewright/units"
)

func TestWhatIsReadGoesBackOutUnchanged(t *testing.T) {
	for name, data := range examples(t) {
		first, err := Read(data)
		if err != nil {
			t.Fatal(name, err)
		}
		written, err := Write(first)
		if err != nil {
			t.Fatal(name, err)
		}
		second, err := Read(written)
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, written)
		}
		if !reflect.DeepEqual(first, second) {
			t.Errorf("%s changes on its way out and in:\n%s", name, written)
		}
	}
}

func TestWrittenAsAPersonWould(t *testing.T) {
	j, err := Read([]byte(small))
	if err != nil {
		t.Fatal(err)
	}
	j.Notes = "one\ntwo"
	j.House.Load = Says(units.Power(12000), Measured)
	j.Control.CutOff = &CutOff{From: Says(units.Celsius(18), ""), To: Says(units.Celsius(18), "")}
	j.Control.Curve.TwoPoints = &TwoPoints{}
	got, err := Write(j)
	if err != nil {
		t.Fatal(err)
	}
	want := `curvewright: 1
job: Quillon house
notes: |-
  one
  two
site:
  design_outdoor: -6 °F
house:
  floor_area: 1,850 ft²
  era: 1946-1979
  load: {value: 12 kW, known: measured}
circuits:
  - name: Baseboards
    emitters:
      - fin_tube:
          length: 118 ft
control:
  curve:
    two_points: {}
  cut_off: 18.0 °C
`
	if plain := strings.ReplaceAll(string(got), "\u00a0", " "); plain != want {
		t.Errorf("got\n%s", plain)
	}
}

// stripText takes away what inputs were written as, as if another program had made
// the job.
func stripText(v reflect.Value) {
	switch {
	case isInput(v.Type()):
		v.FieldByName("Text").SetString("")
	case v.Kind() == reflect.Pointer && !v.IsNil():
		stripText(v.Elem())
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			stripText(v.Field(i))
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			stripText(v.Index(i))
		}
	}
}

func TestValuesWithoutTextAreWrittenExactly(t *testing.T) {
	for name, data := range examples(t) {
		j, err := Read(data)
		if err != nil {
			t.Fatal(name, err)
		}
		stripText(reflect.ValueOf(j).Elem())
		written, err := Write(j)
		if err != nil {
			t.Fatal(name, err)
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, written)
		}
		stripText(reflect.ValueOf(again).Elem())
		if !reflect.DeepEqual(j, again) {
			t.Errorf("%s loses a value:\n%s", name, written)
		}
	}
}

func TestAnyJobSurvivesWritingAndReading(t *testing.T) {
	words := rapid.StringMatching(`[A-Za-z0-9äß°²"':#,&*!|>%@{}\[\] -]{1,20}`).Filter(func(s string) bool { return s == strings.TrimSpace(s) && s != "" })
	known := rapid.SampledFrom([]Known{"", Measured, Drawings, Bills, Estimated})
	rapid.Check(t, func(t *rapid.T) {
		draw := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		setpoint := draw(280, 300, "set-point")
		j := &Job{
			Version: Version, Name: words.Draw(t, "name"), Place: words.Draw(t, "place"),
			Notes: strings.Join(rapid.SliceOfN(words, 1, 3).Draw(t, "notes"), "\n"),
			Site:  Site{DesignOutdoor: Says(units.Temperature(draw(220, 270, "outdoor")), known.Draw(t, "known"))},
			House: House{
				FloorArea: Says(units.Area(draw(20, 400, "area")), known.Draw(t, "known")),
				Load:      Says(units.Power(draw(500, 40000, "load")), known.Draw(t, "known")),
				Setpoint:  Says(units.Temperature(setpoint), ""),
				Gains:     Says(units.Power(draw(0, 500, "gains")), ""),
			},
			Circuits: []Circuit{{
				Name: words.Draw(t, "circuit"), Drop: Says(units.Difference(draw(1, 30, "drop")), ""),
				Flow: Says(units.Flow(draw(1e-5, 1e-3, "flow")), ""),
				Emitters: []Emitter{
					{Radiator: &Radiator{Output: Says(units.Power(draw(100, 4000, "output")), ""), Exponent: Says(units.Number(draw(1, 1.6, "exponent")), Drawings)}},
					{FinTube: &FinTube{Length: Says(units.Length(draw(0.3, 40, "length")), Measured)}},
				},
			}},
			HotWater: HotWater{By: "tank with own pump", Tank: Says(units.Volume(draw(0.05, 0.5, "tank")), "")},
			Frost:    Frost{PipesOutside: rapid.SliceOfN(words, 1, 3).Draw(t, "pipes")},
			Control:  Control{Curve: Shapes{SlopeShift: &SlopeShift{Slope: NumberRange{From: Says(units.Number(0.1), ""), To: Says(units.Number(draw(0.1, 9, "slope")), "")}}}},
		}
		written, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("%v\n%s", err, written)
		}
		stripText(reflect.ValueOf(again).Elem())
		if !reflect.DeepEqual(j, again) {
			t.Fatalf("a value is lost:\n%s\n%+v\n%+v", written, j, again)
		}
	})
}

func TestAnyTextSurvivesWritingAndReading(t *testing.T) {
	text := rapid.String().Filter(func(s string) bool { return s == strings.TrimSpace(s) && s != "" })
	rapid.Check(t, func(t *rapid.T) {
		j, err := Read([]byte(small))
		if err != nil {
			t.Fatal(err)
		}
		j.Name, j.Notes, j.Frost.PipesOutside = text.Draw(t, "name"), text.Draw(t, "notes"), []string{text.Draw(t, "pipes")}
		written, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("%v\n%s", err, written)
		}
		if !reflect.DeepEqual(j, again) {
			t.Fatalf("text is lost:\n%s\n%+v\n%+v", written, j, again)
		}
	})
}

func TestATextThatNoLongerFitsItsValueIsNotWritten(t *testing.T) {
	j, err := Read([]byte(small))
	if err != nil {
		t.Fatal(err)
	}
	j.House.FloorArea.Value = units.Area(100)
	written, err := Write(j)
	if err != nil || !strings.Contains(strings.ReplaceAll(string(written), "\u00a0", " "), "floor_area: 100 m²") {
		t.Errorf("%v\n%s", err, written)
	}
}

func TestWhatADocumentCannotSayIsNotWritten(t *testing.T) {
	for words, spoil := range map[string]func(*Job){
		"is not text":       func(j *Job) { j.Name = "\xff" },
		"way of knowing":    func(j *Job) { j.House.FloorArea.Known = Assumed },
		"load: is not a nu": func(j *Job) { j.House.Load = Says(units.Power(math.NaN()), "") },
	} {
		j, err := Read([]byte(small))
		if err != nil {
			t.Fatal(err)
		}
		spoil(j)
		if data, err := Write(j); err == nil || data != nil || !strings.Contains(err.Error(), words) {
			t.Errorf("want %q, got %v", words, err)
		}
	}
}
