package web

import (
	"context"

	"curvewright/report"
	"curvewright/web/words"
	"curvewright/year"
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
			return p.drawn(report.YearLoadSVG(sheet, y.trace, y.trial.Plant.Boiler.Least, s.width, s.height))
		}},
		{words.Say(ctx, "year.week"), func(s size) string {
			return p.drawn(report.YearWeekSVG(sheet, result, y.trace, s.width, s.height+12*float64(len(result.Rooms))))
		}},
	}
	if room := coldest(result); room != "" {
		list = append(list, yearPlot{words.Say(ctx, "year.carpet", words.Given(ctx, room)), func(s size) string {
			return p.drawn(report.YearCarpetSVG(sheet, room, y.trace, s.width, s.height))
		}})
	}
	return list
}

// coldest is the room that was too cold for longest; empty if there is none.
func coldest(r year.Result) string {
	worst := 0
	for i, room := range r.Rooms {
		if room.Below > r.Rooms[worst].Below {
			worst = i
		}
	}
	if len(r.Rooms) == 0 {
		return ""
	}
	return r.Rooms[worst].Name
}

// yearFailure says what happens when the boiler stops on the design night; nothing if it
// cannot be played.
func (p *page) yearFailure() []string {
	return p.Year.failure
}
