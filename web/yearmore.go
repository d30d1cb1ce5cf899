package web

import (
	"context"

	"curvewright/report"
	"curvewright/web/words"
)

// Further plots of a year, and the night on which the boiler fails.

// yearPlot is one plot with what it shows.
type yearPlot struct {
	about string
	draw  func(size) string
}

// yearPlots are load duration, worst week and the carpet of the room that was cold longest.
func (p *page) yearPlots(ctx context.Context) []yearPlot {
	y := p.Year
	sheet, result := y.trial.Plan.Sheet, y.results[0]
	list := []yearPlot{
		{words.Say(ctx, "year.load"), func(s size) string {
			return report.YearLoadSVG(sheet, y.trace, y.trial.Plant.Boiler.Least, s.width, s.height)
		}},
		{words.Say(ctx, "year.week"), func(s size) string {
			return report.YearWeekSVG(sheet, result, y.trace, s.width, s.height+12*float64(len(result.Rooms)))
		}},
	}
	worst := 0
	for i, r := range result.Rooms {
		if r.Below > result.Rooms[worst].Below {
			worst = i
		}
	}
	if len(result.Rooms) > 0 {
		room := result.Rooms[worst].Name
		list = append(list, yearPlot{words.Say(ctx, "year.carpet", room), func(s size) string {
			return report.YearCarpetSVG(sheet, room, y.trace, s.width, s.height)
		}})
	}
	return list
}

// yearFailure says what happens when the boiler stops on the design night; nothing if it
// cannot be played.
func (p *page) yearFailure() []string {
	failure, err := p.Year.trial.Fail()
	if err != nil {
		return nil
	}
	return failure.Words(p.System)
}
