package report

import (
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

// A chart is copied from as well as the lines: one that must not be set says so itself.
func TestAChartThatIsNotToBeSetSaysSo(t *testing.T) {
	sheet := &settings.Sheet{System: units.US, Circuits: []settings.Circuit{{Name: "Slab", Withheld: true, Points: []settings.Point{
		{Outdoor: units.Fahrenheit(-6), Ideal: units.Fahrenheit(105), Set: units.Fahrenheit(107), Return: units.Fahrenheit(97)},
		{Outdoor: units.Fahrenheit(64), Ideal: units.Fahrenheit(75), Set: units.Fahrenheit(76), Return: units.Fahrenheit(75)},
	}}}}
	for _, width := range []float64{360, 760} {
		svg := CurveSVG(sheet, 0, width, 320)
		if strings.Contains(svg, "set supply") || strings.Count(svg, "Not to be set: no mixing valve") < 2 {
			t.Errorf("%.0f wide: not marked", width)
		}
		sheet.Circuits[0].Withheld = false
		if svg = CurveSVG(sheet, 0, width, 320); strings.Contains(strings.ToLower(svg), "not to be set") {
			t.Errorf("%.0f wide: marked without need", width)
		}
		sheet.Circuits[0].Withheld = true
	}
}
