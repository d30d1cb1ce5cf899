//go:build !js

package web

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"

	"curvewright/report"
	"curvewright/store"
	"curvewright/trial"
	"curvewright/web/words"
	"curvewright/year"
)

// The year as files: its hours as a table, and all of it on paper. Nothing of a year is
// kept, so that it is played again for them.

func (s *server) yearRoutes(mux *http.ServeMux) {
	if s.config.Year == nil {
		return
	}
	mux.HandleFunc("GET /jobs/{id}/year.csv", s.yearTable)
	if s.config.Record != nil {
		mux.HandleFunc("GET /jobs/{id}/year.pdf", s.yearPDF)
	}
}

// again plays the year of a job for a file.
func (s *server) again(w http.ResponseWriter, r *http.Request, send func(p *page)) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "year", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	if p.Sheet == nil {
		http.Redirect(w, r, p.House.at("year"), http.StatusSeeOther)
		return
	}
	if p.Year = s.play(p, r); p.Year.Refused != "" {
		s.write(w, r, http.StatusUnprocessableEntity, inHouse(p, s.framed(r)))
		return
	}
	send(p)
}

// yearTable sends the hours under the sheet's settings.
func (s *server) yearTable(w http.ResponseWriter, r *http.Request) {
	s.again(w, r, func(p *page) {
		var out bytes.Buffer
		if err := trial.WriteCSV(&out, p.Year.trace, p.System); err != nil {
			s.trouble(w, r, err)
			return
		}
		w.Header().Set("Content-Type", "text/csv; charset=utf-8")
		w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+`-year.csv"`)
		_, _ = out.WriteTo(w)
	})
}

// yearPDF sends the year on paper.
func (s *server) yearPDF(w http.ResponseWriter, r *http.Request) {
	s.again(w, r, func(p *page) {
		s.sendPDF(w, r, p, "year", func(out io.Writer, o report.PDFOptions) error {
			o.Date = s.today()
			return s.config.Record(out, p.yearPaper(r.Context()), o)
		})
	})
}

// YearPaper is a year that was played, as a document in a language: what was compared, the
// plots of the first settings, and what was assumed. The trace has a row an hour.
func YearPaper(l words.Language, t *trial.Trial, results []year.Result, trace year.Trace) *report.Paperwork {
	p := &page{Language: l, System: t.Plan.Sheet.System, Sheet: t.Plan.Sheet, Year: &PlayedYear{trial: t, results: results, trace: trace}}
	if failure, err := t.Fail(); err == nil {
		p.Year.failure = failure.Words(p.System)
	}
	return p.yearPaper(words.In(context.Background(), l))
}

// plotHigh are the heights of plots on paper, in points.
const (
	plotHigh = 190.0
	lowPlot  = 130.0
	roomHigh = 8.0 // more for each room of a chart with its name
)

func (p *page) yearPaper(ctx context.Context) *report.Paperwork {
	y := p.Year
	sheet, result := y.trial.Plan.Sheet, y.results[0]
	work := &report.Paperwork{Title: p.say("played.title"), Job: sheet.Job, Place: sheet.Place, Author: sheet.By, Lang: p.Language.Tag(),
		Subject: p.say("year.subject"), Lead: []string{p.yearWeather(), p.say("played.bounds", p.quantity(trial.ComfortBand))}, PageOf: p.say("record.page")}
	plot := func(of report.Plot, high float64, caption string) report.PaperPlot {
		return report.PaperPlot{Plot: of, High: high, Caption: caption, Say: p.Language.Writing}
	}
	rooms := roomHigh * float64(len(result.Rooms))

	compared := report.PaperPart{Title: p.say("played.compared"), Columns: []string{""}, Widths: []float64{2.4}}
	for _, r := range y.results {
		compared.Columns, compared.Widths = append(compared.Columns, p.engine(capital(r.Settings))), append(compared.Widths, 1)
	}
	for _, row := range p.yearRows() {
		cells := []report.PaperCell{plain(p.engine(capital(row.Name)))}
		for _, c := range row.Cells {
			cells = append(cells, plain(p.engine(c)))
		}
		compared.Rows = append(compared.Rows, cells)
	}
	work.Parts = append(work.Parts, compared)

	notes := report.PaperPart{Title: p.say("played.notes")}
	for _, text := range p.yearNotes() {
		notes.Text = append(notes.Text, p.engine(text))
	}
	work.Parts = append(work.Parts, notes)

	plots := report.PaperPart{Title: p.say("year.plots")}
	for i, c := range sheet.Circuits {
		plots.Plots = append(plots.Plots, plot(report.YearCurvePlot(sheet, i, y.trace), plotHigh, p.say("played.curve", words.Given(ctx, c.Name))))
	}
	plots.Plots = append(plots.Plots,
		plot(report.YearLoadPlot(sheet, y.trace, y.trial.Plant.Boiler.Least), plotHigh, p.say("year.load")),
		plot(report.YearStartsPlot(result), lowPlot, p.yearStartsWords()),
		plot(report.YearWeekPlot(sheet, result, y.trace), plotHigh+rooms, p.say("year.week")),
		plot(report.YearDayPlot(sheet, result), plotHigh+rooms, p.yearDayWords()))
	if room := coldest(result); room != "" {
		plots.Plots = append(plots.Plots, plot(report.YearCarpetPlot(sheet, room, y.trace), lowPlot, p.say("year.carpet", words.Given(ctx, room))))
	}
	work.Parts = append(work.Parts, plots)

	table := report.PaperPart{Title: p.say("played.rooms"), Widths: []float64{2, 1, 1.2, 1.2, 1, 1},
		Columns: []string{p.say("played.room"), p.say("played.coldest"), p.say("played.heated"), p.say("played.warmest"), p.say("played.cold"), p.say("played.warm")}}
	for _, r := range result.Rooms {
		table.Rows = append(table.Rows, []report.PaperCell{bold(words.Given(ctx, r.Name)), plain(p.quantity(r.Low)), plain(p.quantity(r.HighHeated)), plain(p.quantity(r.High)),
			plain(p.engine(trial.Hours(r.Below))), plain(p.engine(trial.Hours(r.Above)))})
	}
	work.Parts = append(work.Parts, table)
	if len(y.failure) > 0 {
		failing := report.PaperPart{Title: p.say("year.fail")}
		for _, text := range y.failure {
			failing.Text = append(failing.Text, p.engine(text))
		}
		work.Parts = append(work.Parts, failing)
	}
	assumed := report.PaperPart{Title: p.say("played.assumed")}
	for _, text := range y.trial.Assumed {
		assumed.Text = append(assumed.Text, fmt.Sprintf("– %s", p.engine(capital(text)+".")))
	}
	work.Parts = append(work.Parts, assumed)
	return work
}
