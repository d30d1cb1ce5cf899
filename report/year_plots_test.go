package report

import (
	"slices"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// plotsFixture is the made-up year with heat from the boiler, by how cold it is.
func plotsFixture(sheet *settings.Sheet) (year.Result, year.Trace) {
	r, t := yearFixture(sheet)
	heat := slices.IndexFunc(t.Columns, func(c year.Column) bool { return c.Name == year.HeatColumn })
	for row := range t.Rows {
		t.Values[row*len(t.Columns)+heat] = max(0, 200*(289-t.At(row, 0)))
	}
	return r, t
}

func yearPlots(sheet *settings.Sheet, r year.Result, t year.Trace, width, height float64) map[string]string {
	return map[string]string{
		"carpet": YearCarpetSVG(sheet, r.Rooms[0].Name, t, width, height*0.8),
		"load":   YearLoadSVG(sheet, t, 2500, width, height),
		"week":   YearWeekSVG(sheet, r, t, width, height+80),
	}
}

func TestYearPlotsAreWhatWasAgreed(t *testing.T) {
	us, si := fixture(units.US), fixture(units.SI)
	r, trace := plotsFixture(us)
	for name, svg := range yearPlots(us, r, trace, 340, 300) {
		golden(t, "year-"+name+"-phone.svg", svg)
	}
	for name, svg := range yearPlots(us, r, trace, 1100, 420) {
		golden(t, "year-"+name+"-wide.svg", svg)
	}
	golden(t, "year-load-si-wide.svg", YearLoadSVG(si, trace, 2500, 720, 390))
}

// TestYearPlotsOfNothing: whatever is missing, the image says so.
func TestYearPlotsOfNothing(t *testing.T) {
	sheet := fixture(units.US)
	r, trace := plotsFixture(sheet)
	few := trace
	few.Rows = 20
	quarter := trace
	quarter.Every = 900
	cold := trace
	cold.Values = make([]float64, len(trace.Values))
	for name, svg := range map[string]string{
		"no such room":      YearCarpetSVG(sheet, "Dungeon", trace, 340, 300),
		"carpet, no sheet":  YearCarpetSVG(nil, r.Rooms[0].Name, trace, 340, 300),
		"carpet, few hours": YearCarpetSVG(sheet, r.Rooms[0].Name, few, 340, 300),
		"carpet, quarters":  YearCarpetSVG(sheet, r.Rooms[0].Name, quarter, 340, 300),
		"no trace":          YearLoadSVG(sheet, year.Trace{}, 0, 340, 300),
		"no heat":           YearLoadSVG(sheet, cold, 2500, 340, 300),
		"load, no sheet":    YearLoadSVG(nil, trace, 2500, 340, 300),
		"week, few hours":   YearWeekSVG(sheet, r, few, 340, 300),
		"week, no rooms":    YearWeekSVG(sheet, year.Result{}, trace, 340, 300),
		"week, no heat":     YearWeekSVG(sheet, r, cold, 340, 300),
	} {
		if strings.Contains(svg, "polyline") || strings.Contains(svg, "NaN") || !strings.Contains(svg, "</svg>") {
			t.Errorf("%s: %s", name, svg)
		}
	}
}

// TestTheWorstWeekStaysWithinTheYear at both ends of it.
func TestTheWorstWeekStaysWithinTheYear(t *testing.T) {
	sheet := fixture(units.US)
	r, trace := plotsFixture(sheet)
	for day, want := range map[int]string{0: "January 1 to January 7", 364: "December 25 to December 31"} {
		r.WorstDay = day
		if svg := YearWeekSVG(sheet, r, trace, 720, 390); !strings.Contains(svg, want) {
			t.Errorf("day %d: the week is not %s", day, want)
		}
	}
}
