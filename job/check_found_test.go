package job_test

import (
	"strings"
	"testing"

	"curvewright/job"
)

// TestAControlAsFoundSaysOneThing: a curve in one way and whole, for a circuit that there is.
func TestAControlAsFoundSaysOneThing(t *testing.T) {
	const house = "curvewright: 1\njob: x\nsite: {design_outdoor: -6 °F}\nhouse: {floor_area: \"1,500 ft²\", load: \"30,000 Btu/h\"}\n" +
		"circuits: [{name: A, emitters: [{sized: {like: fin-tube}}]}]\n"
	for _, c := range []struct{ name, found, want string }{
		{"nothing", "", ""},
		{"two points", "curves: [{cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 110 °F, exponent: 1.3}]", ""},
		{"a slope below the usual", "curves: [{circuit: A, slope: 0.4, shift: -5 K}]", ""},
		{"preset", "curves: [{preset: radiators}]", ""},
		{"a table", "curves: [{points: [{outdoor: -20 °C, supply: 70 °C}, {outdoor: 20 °C, supply: 30 °C}]}]", ""},
		{"all else", "{cut_off: 70 °F, lower: 60 °F, lowered_from: 22:00, lowered_to: 06:00, differential: 5 °F, least_rest: 3 min, hot_water: 130 °F, priority: no, frost_outdoor: 36 °F, frost_room: 45 °F}", ""},
		{"no curve", "curves: [{circuit: A}]", "does not say what made the supply"},
		{"two ways", "curves: [{held: 160 °F, slope: 1}]", "in more than one way"},
		{"half a point", "curves: [{cold_outdoor: 0 °F, cold_supply: 180 °F}]", "mild_outdoor"},
		{"points the wrong way round", "curves: [{cold_outdoor: 60 °F, cold_supply: 180 °F, mild_outdoor: 0 °F, mild_supply: 110 °F}]", "is not colder than the mild point"},
		{"no such circuit", "curves: [{circuit: B, held: 160 °F}]", "is not the name of a circuit"},
		{"twice", "curves: [{circuit: A, held: 160 °F}, {held: 150 °F}]", "has a curve already"},
		{"one point", "curves: [{points: [{outdoor: -20 °C, supply: 70 °C}]}]", "2 to 12"},
		{"table the wrong way round", "curves: [{points: [{outdoor: 20 °C, supply: 30 °C}, {outdoor: -20 °C, supply: 70 °C}]}]", "is not colder than the point after it"},
		{"shift alone", "curves: [{held: 160 °F, shift: 5 K}]", "slope"},
		{"lowered, but when", "lower: 60 °F", "lowered_from"},
		{"times of what", "lowered_from: 22:00", "lower"},
		{"no time", "{lower: 60 °F, lowered_from: ten, lowered_to: 06:00}", "is not a time of day"},
		{"hot water of ice", "hot_water: 50 °F", "is not a hot water temperature"},
		{"a cut-off in the arctic", "cut_off: -40 °F", "is not a temperature for this"},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := ""
			if c.found != "" {
				found = "as_found:\n  " + c.found + "\n"
			}
			_, err := job.Read([]byte(house + found))
			switch {
			case c.want == "" && err != nil:
				t.Error(err)
			case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
				t.Errorf("%q is missing: %v", c.want, err)
			}
		})
	}
}
