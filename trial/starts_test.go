package trial_test

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"curvewright/examples"
	"curvewright/trial"
)

// startsBand is by what factor the sheet's starts of a year may be off those of the year
// that is played.
const startsBand = 2.0

// TestStartsOfSheetAndYear holds the sheet's estimate against years played minute by minute:
// the examples, and houses that are made up.
func TestStartsOfSheetAndYear(t *testing.T) {
	houses := map[string]string{}
	for _, e := range examples.List() {
		houses[e.Name] = e.Document
	}
	r := rand.New(rand.NewPCG(5, 17))
	for i := range 24 {
		houses[fmt.Sprintf("made up %d", i+1)] = madeUpHouse(r)
	}
	logs, n := 0.0, 0
	for _, name := range slices.Sorted(maps.Keys(houses)) {
		document := houses[name]
		tr, err := trial.New(read(t, []byte(document)), trial.Options{Seed: 1})
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, document)
		}
		results, err := tr.Run(nil)
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, document)
		}
		b := tr.Plan.Sheet.Boiler
		sheet, played := float64(b.Starts+b.WaterStarts), float64(results[0].Starts)
		ratio := sheet / played
		if ratio > startsBand || ratio < 1/startsBand {
			t.Errorf("%s: %.0f starts on the sheet, %.0f in the year\n%s", name, sheet, played, document)
		}
		logs, n = logs+math.Log(ratio), n+1
	}
	if mean := math.Exp(logs / float64(n)); mean > 1.25 || mean < 0.8 {
		t.Errorf("in the mean the sheet says %.2f times the starts of the year; accepted: 0.8 to 1.25 times", mean)
	}
}

// madeUpHouse is a short survey with plant of every kind.
func madeUpHouse(r *rand.Rand) string {
	pick := func(from ...string) string { return from[r.IntN(len(from))] }
	area := 80 + 160*r.Float64()
	load := area * (35 + 45*r.Float64()) / 1000
	spare := 1.0 + 0.8*r.Float64()
	var emitters, kind, layout string
	switch r.IntN(4) {
	case 0:
		emitters = fmt.Sprintf("- radiator: {output: %.2f kW, exponent: 1.3, kind: panel}", 2.1*spare*load)
	case 1:
		emitters = fmt.Sprintf("- cast_iron: {edr: %.0f EDR}", 15*spare*load)
	case 2:
		emitters, layout = fmt.Sprintf("- fin_tube: {length: %.0f ft}", 6.5*spare*load), "\n    layout: "+pick("series", "parallel")
	case 3:
		emitters = fmt.Sprintf("- floor: {construction: wet slab, area: %.0f m², spacing: 150 mm, cover: 50 mm, covering: 0.05 m²K/W, zone: occupied}", 0.85*area)
		kind = "\n    kind: " + pick("mixed", "direct")
	}
	output := max(9, load*(1.2+1.8*r.Float64()))
	return fmt.Sprintf(`curvewright: 1
job: Made up
display: si
site: {design_outdoor: %.0f °C, annual_mean: 7 °C}
house: {floor_area: %.0f m², load: %.1f kW, setpoint: 20 °C}
circuits:
  - name: A%s%s
    emitters:
      %s
boiler: {kind: condensing, fuel: natural gas, output: %.1f kW, min_output: %.1f kW}
separator: {kind: %s}
system: {boiler_water: %.0f L}
hot_water: {by: %s, people: %d}
program: {wish: %s, lower: 17 °C}
control: {scale: celsius, points_per_day: 6, curve: {two_points: {}}}
`, -18+10*r.Float64(), area, load, kind, layout, emitters, output, output*(0.12+0.3*r.Float64()), pick("none", "low-loss header"), 1+6*r.Float64(), pick("none", "tank with own pump, tank: 160 L", "combi"), 1+r.IntN(5), pick("hold", "night"))
}
