package catalogue

import (
	"fmt"
	"strconv"

	"curvewright/job"
	"curvewright/units"
)

// Emitters by their kind and size.

func emitters() []Entry {
	list := finTubes()
	list = append(list, castIron()...)
	list = append(list, panels()...)
	list = append(list, towelRails()...)
	return append(list, heatedFloors()...)
}

// finTubes are rated with 1 gpm at an average water temperature of 180 °F, the
// heating-effect allowance of 15 % in it, as baseboard is sold in North America.
func finTubes() []Entry {
	var list []Entry
	for _, r := range []struct {
		id     string
		output float64 // Btu/h·ft
	}{
		{"fin-tube-half", 500},
		{"fin-tube-usual", 560},
		{"fin-tube-high", 750},
	} {
		list = append(list, Entry{ID: r.id, Kind: r.id, Group: FinTubes, Source: UsualFin, Measure: ByLength, Emitter: &job.Emitter{
			FinTube: &job.FinTube{
				Output:        job.Says(units.BtuPerHourFoot(r.output), job.Estimated),
				At:            job.Says(units.Fahrenheit(180), job.Estimated),
				HeatingEffect: "included",
			},
		}})
	}
	return list
}

// castIron are radiators by the EDR of one section.
func castIron() []Entry {
	var list []Entry
	for _, r := range []struct {
		kind  string
		parts int     // columns or tubes
		high  int     // in
		edr   float64 // sq ft of a section
	}{
		{"columns", 1, 38, 3}, {"columns", 1, 32, 2.5}, {"columns", 1, 26, 2}, {"columns", 1, 20, 1.5},
		{"columns", 2, 45, 5}, {"columns", 2, 38, 4}, {"columns", 2, 32, 10. / 3}, {"columns", 2, 26, 8. / 3}, {"columns", 2, 20, 2},
		{"columns", 3, 45, 6}, {"columns", 3, 38, 5}, {"columns", 3, 32, 4.5}, {"columns", 3, 26, 3.75}, {"columns", 3, 22, 3}, {"columns", 3, 18, 2.25},
		{"columns", 4, 45, 10}, {"columns", 4, 38, 8}, {"columns", 4, 32, 6.5}, {"columns", 4, 26, 5}, {"columns", 4, 22, 4}, {"columns", 4, 18, 3},
		{"tubes", 3, 36, 3.5}, {"tubes", 3, 30, 3}, {"tubes", 3, 26, 7. / 3}, {"tubes", 3, 20, 1.75},
		{"tubes", 4, 37, 4.25}, {"tubes", 4, 32, 3.5}, {"tubes", 4, 26, 2.75}, {"tubes", 4, 20, 2.25},
		{"tubes", 5, 37, 5}, {"tubes", 5, 32, 13. / 3}, {"tubes", 5, 26, 3.5}, {"tubes", 5, 20, 8. / 3},
		{"tubes", 6, 37, 6}, {"tubes", 6, 32, 5}, {"tubes", 6, 26, 4}, {"tubes", 6, 20, 3},
	} {
		list = append(list, Entry{
			ID:   fmt.Sprintf("cast-iron-%d-%s-%d", r.parts, r.kind, r.high),
			Kind: "cast-iron-" + r.kind, Figures: []any{r.parts, units.Inches(float64(r.high))},
			Group: CastIron, Source: EDRTable, Measure: BySection,
			Emitter: &job.Emitter{CastIron: &job.CastIron{EDR: job.Says(units.RadiatorArea(r.edr), job.Estimated)}},
		})
	}
	return list
}

// panels are flat steel radiators by the output of a metre at 75/65/20 °C.
func panels() []Entry {
	heights := []int{300, 400, 500, 600, 900} // mm
	var list []Entry
	for _, r := range []struct {
		kind int
		watt []float64 // per metre, in the order of the heights
	}{
		{11, []float64{560, 720, 870, 1010, 1400}},
		{21, []float64{770, 970, 1150, 1330, 1810}},
		{22, []float64{1000, 1260, 1490, 1710, 2330}},
		{33, []float64{1430, 1790, 2120, 2440, 3290}},
	} {
		for i, high := range heights {
			list = append(list, Entry{
				ID:   "panel-" + strconv.Itoa(r.kind) + "-" + strconv.Itoa(high),
				Kind: "panel", Figures: []any{r.kind, units.Millimetres(float64(high))},
				Group: Panels, Source: UsualPanel, Measure: ByLength,
				Emitter: &job.Emitter{Radiator: &job.Radiator{Kind: "panel", Output: job.Says(units.Power(r.watt[i]), job.Estimated)}},
			})
		}
	}
	return list
}

// towelRails are straight rails by height and width, at 75/65/20 °C.
func towelRails() []Entry {
	var list []Entry
	for _, r := range []struct {
		high, wide int // mm
		watt       float64
	}{
		{800, 500, 360}, {1200, 500, 550}, {1200, 600, 640}, {1800, 500, 830}, {1800, 600, 970},
	} {
		list = append(list, Entry{
			ID:   fmt.Sprintf("towel-rail-%d-%d", r.high, r.wide),
			Kind: "towel-rail", Figures: []any{units.Millimetres(float64(r.high)), units.Millimetres(float64(r.wide))},
			Group: TowelRail, Source: UsualRail, Measure: ByPiece,
			Emitter: &job.Emitter{TowelRail: &job.Radiator{Output: job.Says(units.Power(r.watt), job.Estimated)}},
		})
	}
	return list
}

// heatedFloors are floors as they are usually laid, without their covering, which each
// room has its own of.
func heatedFloors() []Entry {
	var list []Entry
	for _, r := range []struct {
		id, construction, material string
		spacing, tube, wall, cover float64            // mm
		conductivity               units.Conductivity // of the cover
		below                      units.Resistance
	}{
		{"floor-screed-100", "wet slab", "pex", 100, 16, 2, 45, 1.2, 1.25},
		{"floor-screed-150", "wet slab", "pex", 150, 16, 2, 45, 1.2, 1.25},
		{"floor-screed-200", "wet slab", "pex", 200, 16, 2, 45, 1.2, 1.25},
		{"floor-slab-300", "wet slab", "pex", 300, 16, 2, 60, 1.4, 1.76},
		{"floor-plates-200", "dry plates", "pex", 200, 16, 2, 20, 0.23, 1.5},
		{"floor-deck-plates-200", "under deck with plates", "pex", 200, 16, 2, 19, 0.13, 3.3},
		{"floor-deck-200", "under deck", "pex", 200, 16, 2, 19, 0.13, 3.3},
	} {
		list = append(list, Entry{ID: r.id, Kind: r.id, Group: Heated, Source: UsualHeating, Measure: ByArea, Emitter: &job.Emitter{
			Floor: &job.Floor{
				Construction: r.construction, Material: r.material,
				Spacing:      job.Says(units.Millimetres(r.spacing), job.Estimated),
				Tube:         job.Says(units.Millimetres(r.tube), job.Estimated),
				Wall:         job.Says(units.Millimetres(r.wall), job.Estimated),
				Cover:        job.Says(units.Millimetres(r.cover), job.Estimated),
				Conductivity: job.Says(r.conductivity, job.Estimated),
				Under:        job.Says(r.below, job.Estimated),
			},
		}})
	}
	return list
}
