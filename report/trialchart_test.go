package report

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"curvewright/curve"
	"curvewright/settings"
	"curvewright/units"
)

func trialOf(from, to float64) curve.Setting {
	return curve.Setting{Kind: curve.TwoPoints, Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: units.Celsius(90)},
		Cold: curve.Point{Outdoor: units.Celsius(-20), Supply: units.Celsius(from)}, Mild: curve.Point{Outdoor: units.Celsius(18), Supply: units.Celsius(to)}}
}

var trialNames = TrialWords{Title: "A <trial>", Tried: "tried", Recommended: "recommended", Found: "found", Need: "need"}

func TestTrialChartShowsWhatIsComparedAndWhereItLies(t *testing.T) {
	sheet := fixture(units.SI)
	found := trialOf(75, 40)
	for _, width := range []float64{300, 680} {
		trial := Trial{Tried: trialOf(50, 25), Recommended: trialOf(60, 28), Words: trialNames}
		alone, field := TrialSVG(sheet, 0, trial, width, 300)
		trial.Found = &found
		all, wider := TrialSVG(sheet, 0, trial, width, 300)
		wellFormed(t, alone)
		wellFormed(t, all)
		if strings.Contains(alone, `class="found"`) || !strings.Contains(all, `<polyline class="found"`) {
			t.Error("the curve as found is drawn if, and only if, it is known")
		}
		if !strings.Contains(all, `<polyline class="recommended"`) || !strings.Contains(all, `<polyline class="supply"`) || !strings.Contains(all, `<polyline class="ideal"`) {
			t.Error("tried, recommended and needed belong on the chart")
		}
		if field.Left <= 0 || field.Right >= width || field.Cold >= units.Celsius(-20) || field.Mild <= units.Celsius(18) {
			t.Errorf("the points of the curve lie outside of the field %+v", field)
		}
		if wider.High < units.Celsius(75) {
			t.Errorf("the curve as found leaves the field: %+v", wider)
		}
		trial.Tried, trial.Found = trial.Recommended, nil
		same, _ := TrialSVG(sheet, 0, trial, width, 300)
		if strings.Contains(same, `<polyline class="recommended"`) || strings.Contains(same, ">tried<") {
			t.Error("the recommended curve tried as it is needs one line, not two")
		}
	}
}

// While a point moves within the field, the field stays.
func TestFieldStaysWhileAPointIsDragged(t *testing.T) {
	sheet := fixture(units.SI)
	trial := Trial{Tried: trialOf(60, 28), Recommended: trialOf(60, 28), Words: trialNames}
	_, first := TrialSVG(sheet, 0, trial, 680, 390)
	for supply := first.Low.Celsius() + 1; supply < first.High.Celsius()-1; supply += 2 {
		trial.Tried = trialOf(supply, 28)
		trial.Tried.Limit.From = 0
		trial.Tried.Mild.Supply = min(trial.Tried.Mild.Supply, trial.Tried.Cold.Supply)
		if _, now := TrialSVG(sheet, 0, trial, 680, 390); now != first {
			t.Fatalf("at %.0f °C the field moves from %+v to %+v", supply, first, now)
		}
	}
}

func TestNoCircuitIsNoTrial(t *testing.T) {
	for _, sheet := range []*settings.Sheet{nil, {}} {
		svg, field := TrialSVG(sheet, 0, Trial{Tried: trialOf(50, 30)}, 300, 300)
		wellFormed(t, svg)
		if field != (TrialField{}) || !strings.Contains(svg, "No curve") {
			t.Error("a circuit that is not there has a chart")
		}
	}
	wellFormed(t, RoomBandSVG(settings.RoomVerdict{}, 0, 0, 200, 26))
}

func wellFormed(t *testing.T, svg string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatalf("%v: %.200s", err, svg)
		}
	}
}
