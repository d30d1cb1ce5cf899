package web

import (
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/units"
	"curvewright/visit"
	"curvewright/web/words"
)

// TestEveryCauseIsSaidInEveryLanguage judges readings so that every fault is weighed with its
// figure, and finds the sentences about it that nobody put into another language.
func TestEveryCauseIsSaidInEveryLanguage(t *testing.T) {
	for _, e := range examples.List() {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		for _, system := range []units.System{units.US, units.SI} {
			h, err := visit.New(j, system)
			if err != nil {
				t.Fatal(err)
			}
			for _, state := range []visit.State{visit.Steady, visit.Settled} {
				circuits := j.Circuits
				c := visit.Conditions{Outdoor: units.Celsius(0), State: state, Calling: []string{circuits[0].Name}}
				if state == visit.Settled {
					c.Calling = nil
				}
				judged, err := h.Judge(c, []visit.Measured{{Reading: visit.Reading{Measure: visit.BoilerSupply}, Value: 273.15 + 70}, {Reading: visit.Reading{Measure: visit.BoilerReturn}, Value: 273.15 + 30}})
				if err != nil {
					t.Fatal(err)
				}
				for _, cause := range judged.Causes {
					for _, text := range []string{cause.Name(), cause.Says, cause.Remedy} {
						for _, l := range []words.Language{words.French, words.Spanish, words.German} {
							if l.Engine(text) == text {
								t.Errorf("%s: %q stays English in %s", e.Name, text, l.Name())
							}
						}
					}
				}
			}
		}
	}
}
