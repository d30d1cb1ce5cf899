package job_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/units"
)

const radiatorHouse = `curvewright: 1
job: a house
site: {design_outdoor: -10 °C}
house: {floor_area: 120 m², era: 1946-1979}
circuits:
  - {name: panels, emitters: [{radiator: {RADIATOR}}]}
`

func TestRadiatorsAreRatedAsTheirDataSheetsHaveIt(t *testing.T) {
	for _, c := range []struct {
		name, radiator string
		output, excess float64 // W, K
		source         string
	}{
		{"as a whole", "output: 1200 W", 1200, 50, "EN 442-2, 75/65/20 °C"},
		{"per metre", "per_length: 1120 W/m, length: 1.4 m, exponent: 1.33", 1568, 50, "EN 442-2"},
		{"per section", "per_section: 128 W, sections: 10, excess: 50 K", 1280, 50, "EN 442-2"},
		{"by average water", "per_length: 900 Btu/h·ft, length: 5 ft, at: 180 °F, air: 65 °F", 4500 / 3.412142, 115 / 1.8, "definition"},
		{"by average water alone", "output: 1000 W, at: 82 °C", 1000, 62, "definition, air 20 °C"},
	} {
		j, err := job.Read([]byte(strings.Replace(radiatorHouse, "RADIATOR", c.radiator, 1)))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		r := j.Circuits[0].Emitters[0].Radiator
		if got := float64(r.Rated().Value); !r.Rated().Set || math.Abs(got-c.output) > 0.01 {
			t.Errorf("%s (%s): %.2f W, want %.2f", c.name, c.source, got, c.output)
		}
		if got := float64(r.RatedExcess().Value); math.Abs(got-c.excess) > 0.01 {
			t.Errorf("%s (%s): %.2f K, want %.2f", c.name, c.source, got, c.excess)
		}
	}
	if (job.Radiator{PerLength: job.Says(units.LinearPower(900), job.Drawings)}).Rated().Set {
		t.Error("an output per length alone is an output")
	}
}

func TestHalfARadiatorIsRefused(t *testing.T) {
	for radiator, want := range map[string]string{
		"exponent: 1.3":        "radiator.output is missing",
		"per_length: 1120 W/m": "radiator.length is missing",
		"per_section: 128 W":   "radiator.sections is missing",
		"output: 900 W, per_length: 1120 W/m, length: 1 m":           "radiator.per_length beside the output",
		"output: 900 W, per_section: 128 W, sections: 4":             "radiator.per_section beside the output",
		"per_length: 1000 W/m, length: 1 m, per_section: 128 W":      "radiator.per_section",
		"per_length: 1120 W/m, length: 90 m":                         "radiator.length",
		"per_length: 1120 W/m, length: 1 m, at: 25 °C":               "radiator.at excess",
		"per_length: 1120 W/m, length: 1 m, at: 70 °C, excess: 50 K": "radiator.at beside the excess",
	} {
		_, err := job.Read([]byte(strings.Replace(radiatorHouse, "RADIATOR", radiator, 1)))
		var faults *job.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s is taken: %v", radiator, err)
			continue
		}
		told := ""
		for _, f := range faults.List {
			told += f.Path + " " + f.Problem + "\n"
		}
		path, problem, _ := strings.Cut(want, " ")
		if !strings.Contains(told, path) || !strings.Contains(told, problem) {
			t.Errorf("%s: %s, want %s", radiator, told, want)
		}
	}
}
