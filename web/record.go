package web

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"rsc.io/qr"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/visit"
	"curvewright/web/words"
	"curvewright/working"
)

// The record and the household's sheet on paper: the same words as on their pages, handed
// to whatever prints them.

// pictures gives the picture that a document names; nothing if there is none.
type pictures func(name string) []byte

// picturesOf are those beside a visit in the store.
func (s *server) picturesOf(ctx context.Context, p *page) pictures {
	return func(name string) []byte {
		if p.House.Visit == nil {
			return nil
		}
		file, err := s.beside(ctx, p.House.Visit.ID, name)
		if err != nil {
			return nil
		}
		return file.Data
	}
}

// recordPDF sends the record.
func (s *server) recordPDF(w http.ResponseWriter, r *http.Request) {
	s.handed(w, r, func(p *page) {
		if p.Sheet == nil {
			http.Redirect(w, r, p.House.at("handover"), http.StatusSeeOther)
			return
		}
		s.sendPDF(w, r, p, "record", func(out io.Writer, o report.PDFOptions) error {
			return s.config.Record(out, p.paperwork(r.Context(), s.picturesOf(r.Context(), p)), o)
		})
	})
}

// householdPDF sends the household's sheet.
func (s *server) householdPDF(w http.ResponseWriter, r *http.Request, p *page) {
	if p.Sheet == nil {
		http.Redirect(w, r, p.House.at("handover"), http.StatusSeeOther)
		return
	}
	s.sendPDF(w, r, p, "household-"+p.Language.Tag(), func(out io.Writer, o report.PDFOptions) error {
		return s.config.Household(out, p.forHousehold(r.Context()), o)
	})
}

// sendPDF prints on the reader's paper.
func (s *server) sendPDF(w http.ResponseWriter, r *http.Request, p *page, name string, print func(io.Writer, report.PDFOptions) error) {
	o := report.PDFOptions{Paper: paperFor(r, p.System), Date: p.handedOn(s.today()), Version: s.config.Version, Day: func(iso string) string { return dated(r.Context(), iso) }}
	var out bytes.Buffer
	if err := print(&out, o); err != nil {
		s.trouble(w, r, fmt.Errorf("the file could not be written: %w", err))
		return
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+"-"+name+`.pdf"`)
	_, _ = out.WriteTo(w)
}

// paperFor is the paper that is asked for, preferred, or usual with the units.
func paperFor(r *http.Request, s units.System) report.Paper {
	paper := cmp.Or(r.URL.Query().Get("paper"), readerOf(r.Context()).Paper)
	if paper == "letter" || paper == "" && s.Family() == units.US {
		return report.Letter
	}
	return report.A4
}

// handedOn is the day of the visit, so that the same visit prints the same; else today.
func (p *page) handedOn(today string) string {
	if p.House.Visit != nil {
		return p.House.Visit.Visit.Date
	}
	return today
}

// forHousehold is the household's sheet in the language of the page.
func (p *page) forHousehold(ctx context.Context) *report.HouseholdSheet {
	say := p.say
	sheet := &report.HouseholdSheet{Title: say("home.title"), House: p.job.Name, Lang: p.Language.Tag(), Lead: say("home.colder")}
	days := p.threeDays()
	for i, d := range days {
		warmth := d.tenths() / 10
		if p.onlyFloor() { // whose warmest water is lukewarm to a radiator
			warmth = min(1, 2.4*warmth)
		}
		day := report.HouseholdDay{Outdoors: say("home.outside", d.Outdoor), Cold: 1 - float64(i)/float64(max(1, len(days)-1)), Warmth: warmth, Floor: p.onlyFloor()}
		if len(d.Waters) == 1 {
			day.Waters = []string{say("home.water") + "\u00a0" + d.Waters[0]}
		} else {
			day.Waters = append([]string{say("home.water")}, d.Waters...)
		}
		sheet.Days = append(sheet.Days, day)
	}
	add := func(part report.HouseholdPart) { sheet.Parts = append(sheet.Parts, part) }
	lukewarm := report.HouseholdPart{Title: say("home.lukewarm"), Text: []string{p.lukewarm(ctx)}}
	if p.hasFloor() {
		lukewarm.Text, lukewarm.Spare = append(lukewarm.Text, say("home.floor")), 1
	}
	add(lukewarm)
	warmth := p.warmth(ctx)
	add(report.HouseholdPart{Title: say("home.program"), Text: warmth, Spare: len(warmth) - 1})
	add(report.HouseholdPart{Title: say("home.touch"), Text: []string{p.mayTurn(ctx)}})
	add(report.HouseholdPart{Title: say("home.leave"), Text: []string{say("home.leave.p")}})
	if p.job.HotWater.By != "" && p.job.HotWater.By != "none" {
		add(report.HouseholdPart{Title: say("home.tap"), Text: []string{say("home.scald")}, Care: true})
	}
	cold := report.HouseholdPart{Title: say("home.cold"), Text: []string{say("home.cold.1"), say("home.cold.2")}, Numbered: true}
	if fill := p.coldFill(); fill != "" {
		cold.Text = append(cold.Text, say("home.cold.3", p.engine(fill)))
	}
	cold.Text = append(cold.Text, say("home.cold.4"))
	add(cold)
	add(report.HouseholdPart{Title: say("home.away"), Text: []string{say("home.away.p")}})
	add(report.HouseholdPart{Title: say("home.danger"), Text: []string{say("home.danger.p")}, Danger: true})
	sheet.Call = report.HouseholdPart{Title: say("home.call"), Text: []string{say("home.call.line", p.installer(ctx)) + " ______________________________"}}
	return sheet
}

// tenths reads how high the bar of a day stands.
func (w weatherWords) tenths() float64 {
	n, _ := strconv.ParseFloat(strings.TrimPrefix(w.Tenths, "height-"), 64)
	return n
}

// paperwork is the record in the language of the page: content as EN 14336, from memory.
func (p *page) paperwork(ctx context.Context, seen pictures) *report.Paperwork {
	work := &report.Paperwork{Title: p.say("handover.record"), Job: p.job.Name, Place: p.job.Place, Author: p.job.By, Lang: p.Language.Tag(),
		Subject: p.say("record.subject"), Lead: []string{p.say("record.content")}, PageOf: p.say("record.page")}
	w := paperWriter{page: p, ctx: ctx, work: work}
	a := p.House.Visit
	if a == nil {
		work.Lead = append(work.Lead, p.say("handover.novisit"))
	} else {
		w.attendance(a)
	}
	w.lines("")
	if a != nil {
		w.otherwise(a)
		w.judged(a)
		w.combustion(a)
		w.checked("water", a.Visit.Water != nil, a.Water)
		w.checked("pressure_test", a.Visit.Pressure != nil, a.Tested)
		w.checked("loops", len(a.Visit.Loops) > 0, a.Balanced)
		w.steps(a)
	}
	w.lines(settings.BoilerRoom)
	if len(report.BoilerRoomOutdoors(p.Sheet)) > 0 {
		w.add(report.PaperPart{Title: p.say("handover.drawing"), Drawing: &report.PaperDrawing{Sheet: p.Sheet, Say: p.Language.Writing}})
	}
	if a != nil {
		w.photos(a, seen)
		w.signatures(a, seen)
	}
	var cautions []string
	for _, c := range p.Sheet.Cautions {
		cautions = append(cautions, p.engine(c))
	}
	if len(cautions) > 0 {
		w.add(report.PaperPart{Title: p.say("record.cautions"), Cautions: cautions})
	}
	if code, err := qr.Encode(p.squareText(), qr.L); err == nil {
		w.add(report.PaperPart{Title: p.say("record.square"), Square: &report.PaperSquare{Side: code.Size, Black: code.Black, Text: p.say("handover.qr")}})
	}
	return work
}

// paperWriter puts parts together.
type paperWriter struct {
	*page
	ctx  context.Context
	work *report.Paperwork
}

func (w *paperWriter) add(part report.PaperPart) { w.work.Parts = append(w.work.Parts, part) }

func plain(text string) report.PaperCell { return report.PaperCell{Text: text} }
func bold(text string) report.PaperCell  { return report.PaperCell{Text: text, Bold: true} }

// pairRows are a name and a value, those without a value left out.
func pairRows(pairs ...string) [][]report.PaperCell {
	var rows [][]report.PaperCell
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			rows = append(rows, []report.PaperCell{plain(pairs[i]), bold(pairs[i+1])})
		}
	}
	return rows
}

var pairWidths = []float64{2, 3}

// fields are the answers of a visit under a field of its document, in the document's order.
func (w *paperWriter) fields(v *attendance.Visit, under ...string) []string {
	var pairs []string
	for _, spot := range job.WholeOf(v).All() {
		if spot.Kind == job.GroupSpot || spot.Kind == job.ListSpot || !slices.ContainsFunc(under, func(u string) bool {
			return spot.Path == u || strings.HasPrefix(spot.Path, u+".") || strings.HasPrefix(spot.Path, u+"[")
		}) {
			continue
		}
		text := spot.Text()
		if spot.Kind == job.QuantitySpot {
			text = w.asRead(spot)
		} else if spot.Kind == job.WordSpot {
			text = words.Choice(w.ctx, text)
		} else if spot.Kind == job.WordsSpot {
			text = strings.Join(spot.Texts(), ", ")
		}
		pairs = append(pairs, words.Label(w.ctx, "visit."+spot.Pattern), text)
	}
	return pairs
}

// asRead is a figure as it was written down, in the reader's unit before it if that is another.
func (w *paperWriter) asRead(spot job.Spot) string {
	written := spot.Text()
	q, _, given := spot.Value()
	if !given {
		return w.engine(written)
	}
	if v, ofWater := q.(units.Volume); ofWater {
		q = working.Water(v)
	}
	before, _, unit := parts(w.quantity(q))
	if b, _, u := parts(spaced(written)); b == before && strings.EqualFold(u, unit) {
		return w.engine(written)
	}
	return w.quantity(q) + " (" + w.engine(written) + ")"
}

// attendance says when, by whom, why, and under which conditions.
func (w *paperWriter) attendance(a *attended) {
	v := a.Visit
	pairs := []string{w.say("record.date"), dated(w.ctx, v.Date), w.say("record.by"), v.By}
	pairs = append(pairs, w.fields(v, "reason", "corrects", "conditions", "instruments", "notes")...)
	pairs = append(pairs, words.Label(w.ctx, "visit.follow_up"), dated(w.ctx, v.Again), w.say("record.engine"), v.Engine,
		w.say("record.against.job"), shortPrint(v.Against), w.say("record.seal"), shortPrint(v.Sealed))
	part := report.PaperPart{Title: w.say("record.visit"), Rows: pairRows(pairs...), Widths: pairWidths}
	if a.Sealed {
		part.Text = append(part.Text, w.say("visit.sealed"))
		if !v.Intact() {
			part.Cautions = append(part.Cautions, w.say("visit.broken"))
		}
	}
	w.add(part)
}

// shortPrint is enough of a fingerprint to compare by eye.
func shortPrint(sum string) string { return sum[:min(len(sum), 16)] }

// lines are the settings of a part of the sheet, with what was entered.
func (w *paperWriter) lines(part string) {
	title := w.say("places.settings")
	if part != "" {
		title = w.say("places.boiler-room")
	}
	for _, s := range w.part(part) {
		out := report.PaperPart{Title: title + " – " + w.engine(s.Title), Widths: []float64{3, 3, 2}}
		if part == "" {
			out.Columns = []string{"", w.say("visit.sheet"), w.say("visit.entered")}
		}
		for _, l := range s.Lines {
			row := []report.PaperCell{plain(w.engine(l.Label)), bold(w.engine(l.Value)), {}}
			if w.House.Visit != nil && part == "" {
				switch e := w.House.Visit.entered(l.ID); e.As {
				case "":
				case "otherwise":
					row[2] = report.PaperCell{Text: e.Value, Loud: true}
				default:
					row[2] = plain(w.say("visit.as." + slug(e.As)))
				}
			}
			out.Rows = append(out.Rows, row)
		}
		w.add(out)
	}
}

// otherLabel is what a line is called, with its circuit.
func (p *page) otherLabel(c visit.Consequence) string {
	if c.Circuit == "" || strings.Contains(c.Label, c.Circuit) {
		return p.engine(c.Label)
	}
	return c.Circuit + ", " + p.engine(c.Label)
}

// otherwise is what was entered otherwise and what it leads to.
func (w *paperWriter) otherwise(a *attended) {
	if len(a.differs()) > 0 || len(a.Otherwise) > 0 {
		part := report.PaperPart{Title: w.say("handover.differ"), Columns: []string{"", w.say("visit.sheet"), w.say("visit.entered"), w.say("record.leads")}, Widths: []float64{2.2, 1.2, 1.2, 4}}
		told := map[string]bool{}
		for _, c := range a.Otherwise {
			told[c.Line] = true
			says := strings.TrimSpace(w.engine(c.Says) + " " + a.entered(c.Line).Why)
			if c.Stop {
				says = w.say("record.stop") + " " + says
			}
			part.Rows = append(part.Rows, []report.PaperCell{plain(w.otherLabel(c)), plain(w.engine(c.Sheet)), bold(c.Entered), {Text: says, Bold: c.Stop}})
			if c.Caution != "" && !slices.Contains(part.Cautions, w.engine(c.Caution)) {
				part.Cautions = append(part.Cautions, w.engine(c.Caution))
			}
		}
		for _, e := range a.differs() {
			if !told[e.Line] {
				part.Rows = append(part.Rows, []report.PaperCell{plain(w.engine(w.label(e.Line))), plain(w.engine(e.Sheet)), bold(e.Value), plain(e.Why)})
			}
		}
		w.add(part)
	}
	for _, f := range a.Found {
		part := report.PaperPart{Title: w.say("visit.otherwise", f.Circuit), Text: []string{w.engine(f.Says)}, Widths: []float64{1, 1, 1, 2},
			Columns: []string{w.say("visit.outdoors"), w.say("visit.sheet"), w.say("visit.entered"), w.say("visit.worst")}}
		for _, at := range f.Points {
			row := []report.PaperCell{plain(temperature(w.System, at.Outdoor)), plain(temperature(w.System, at.Sheet)), bold(temperature(w.System, at.Found)), {}}
			if at.Worst != "" {
				row[3] = plain(at.Worst + " " + temperature(w.System, at.Reaches))
			}
			part.Rows = append(part.Rows, row)
		}
		w.add(part)
	}
}

// judged are the readings with their verdicts, and what they say together.
func (w *paperWriter) judged(a *attended) {
	if a.Judged == nil {
		if rows := pairRows(w.fields(a.Visit, "readings")...); len(rows) > 0 {
			part := report.PaperPart{Title: w.say("visit.readings"), Rows: rows, Widths: pairWidths}
			for _, t := range a.Trouble {
				part.Text = append(part.Text, w.engine(t))
			}
			w.add(part)
		}
		return
	}
	part := report.PaperPart{Title: w.say("visit.readings"), Widths: []float64{4, 2, 3, 1.5},
		Columns: []string{w.say("visit.reading"), w.say("visit.measured"), w.say("visit.shouldbe"), w.say("record.verdict")}}
	for _, j := range a.judgedRows() {
		row := []report.PaperCell{plain(w.engine(j.Reading.String())), bold(w.quantity(j.Measured)), {}, w.verdict(j.Verdict)}
		if j.Expected != nil {
			row[2] = plain(w.quantity(j.Expected) + " ± " + w.quantity(j.Tolerance))
		}
		part.Rows = append(part.Rows, row)
	}
	for _, room := range a.Visit.Readings.Rooms { // which are judged only where a house holds itself
		if room.Air.Set && !slices.ContainsFunc(a.Judged.Readings, func(j visit.Judged) bool {
			return j.Reading == visit.Reading{Measure: visit.Air, Room: room.Name}
		}) {
			part.Rows = append(part.Rows, []report.PaperCell{plain(w.engine("air in " + room.Name)), bold(w.quantity(room.Air.Value)), {}, {}})
		}
	}
	for _, s := range a.Sensors {
		part.Text = append(part.Text, s.Name+w.Language.Colon()+w.engine(s.Text(w.System)))
	}
	w.add(part)
	verdict := report.PaperPart{Title: w.say("record.judgement"), Text: []string{a.verdict(w.ctx)}}
	if again := a.remeasure(w.ctx); again != "" {
		verdict.Text = append(verdict.Text, again)
	}
	if !a.Judged.Sound {
		verdict.Widths, verdict.Columns = []float64{2.4, 1.3, 3.2, 3.2}, []string{w.say("record.cause"), w.say("record.share"), w.say("visit.explains"), w.say("visit.remedy")}
		for _, c := range a.causes() {
			verdict.Rows = append(verdict.Rows, []report.PaperCell{bold(w.engine(capital(c.Name()))), plain(share(c.Share)), plain(w.engine(c.Says)), plain(w.engine(c.Remedy))})
		}
	}
	for _, c := range a.Judged.Cautions {
		verdict.Cautions = append(verdict.Cautions, w.engine(c))
	}
	w.add(verdict)
}

func (w *paperWriter) verdict(v visit.Verdict) report.PaperCell {
	return report.PaperCell{Text: verdictWords(w.ctx, v), Loud: v == visit.Wrong, Bold: v == visit.Doubtful}
}

// combustion is the slip, what it comes to, and that it is no clearance.
func (w *paperWriter) combustion(a *attended) {
	if a.Visit.Combustion == nil {
		return
	}
	part := report.PaperPart{Title: w.say("visit.combustion"), Rows: pairRows(w.fields(a.Visit, "combustion.fuel", "combustion.fire", "combustion.oxygen", "combustion.co2", "combustion.co", "combustion.flue", "combustion.air")...), Widths: pairWidths, Cautions: []string{w.engine(visit.StopUnlessLicensed)}}
	if r := a.Flue; r != nil {
		part.Rows = append(part.Rows, pairRows(w.say("visit.excess"), w.quantity(r.Gas.Excess))...)
		if r.Known {
			part.Rows = append(part.Rows, pairRows(w.say("visit.loss"), w.quantity(r.LossGross))...)
		}
		for _, l := range r.Against {
			said := w.say("visit.within")
			if !l.Kept {
				said = w.say("visit.outside")
			}
			limit := "≥ " + w.quantity(l.From)
			if l.To != nil {
				limit = "≤ " + w.quantity(l.To)
			}
			part.Rows = append(part.Rows, pairRows(w.engine(capital(l.What)), w.quantity(l.Value)+", "+said+" ("+limit+")")...)
		}
		for _, m := range r.Remarks {
			part.Text = append(part.Text, w.engine(capital(m)))
		}
	}
	w.add(part)
}

// checked is a record as it was written down, and held against the sheet.
func (w *paperWriter) checked(field string, there bool, rows []visit.Checked) {
	if !there {
		return
	}
	title := words.Label(w.ctx, "visit."+field)
	if field != "loops" {
		if pairs := pairRows(w.fields(w.House.Visit.Visit, field)...); len(pairs) > 0 {
			w.add(report.PaperPart{Title: title, Rows: pairs, Widths: pairWidths})
		}
	}
	if len(rows) == 0 {
		return
	}
	part := report.PaperPart{Title: title + " – " + w.say("record.held"), Widths: []float64{2.2, 1.5, 1.5, 1.2, 4},
		Columns: []string{w.say("visit.reading"), w.say("visit.measured"), w.say("record.against"), w.say("record.verdict"), ""}}
	for _, c := range rows {
		what := c.Of
		if what == "" {
			what = w.engine(c.What)
		}
		part.Rows = append(part.Rows, []report.PaperCell{plain(what), bold(w.quantity(c.Measured)), plain(w.quantity(c.Wanted)), w.verdict(c.Verdict), plain(w.engine(c.Says))})
	}
	w.add(part)
}

// steps are the steps of the walk that were answered.
func (w *paperWriter) steps(a *attended) {
	if len(a.Visit.Checks) == 0 {
		return
	}
	part := report.PaperPart{Title: w.say("handover.checks"), Widths: []float64{4, 1.4, 2.6}}
	for _, c := range a.Visit.Checks {
		part.Rows = append(part.Rows, []report.PaperCell{plain(w.engine(a.stepWords(c.Step))), {Text: w.say("visit.done." + slug(c.Done)), Loud: c.Done == "no", Bold: true}, plain(c.Note)})
	}
	w.add(part)
}

func (w *paperWriter) photos(a *attended, seen pictures) {
	var list []report.PaperPicture
	for _, photo := range a.Visit.Photos {
		picture := report.PaperPicture{Data: seen(photo.File), Caption: cmp.Or(w.caption(w.ctx, photo), photo.File)}
		if len(picture.Data) == 0 {
			picture.Caption += " (" + w.say("record.nopicture") + ")"
		}
		list = append(list, picture)
	}
	if len(list) > 0 {
		w.add(report.PaperPart{Title: w.say("record.photos"), Pictures: list})
	}
}

func (w *paperWriter) signatures(a *attended, seen pictures) {
	part := report.PaperPart{Title: w.say("handover.signed")}
	if len(a.Visit.Signatures) == 0 {
		part.Text = append(part.Text, w.say("handover.unsigned"))
	}
	for _, g := range a.Visit.Signatures {
		picture := report.PaperPicture{Caption: g.Who + ", " + w.say("visit.role."+g.As) + ", " + dated(w.ctx, g.On), Small: true}
		if g.File != "" {
			picture.Data = seen(g.File)
		}
		part.Pictures = append(part.Pictures, picture)
	}
	if a.Visit.Again != "" {
		part.Text = append(part.Text, w.say("handover.follow", dated(w.ctx, a.Visit.Again)))
	}
	w.add(part)
}

// readingsBook sends the readings of all visits as a spreadsheet: judged on its first
// sheet, all that was written down on the second.
func (s *server) readingsBook(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "handover", noDoubt)
	var list []store.Entry
	if err == nil {
		list, err = s.visits(ctx, p.House.ID)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	b := newBook(p)
	for _, e := range list {
		_, revision, err := s.store.Read(ctx, e.ID)
		if err != nil {
			continue
		}
		if v, _ := job.DraftDocument[attendance.Visit](revision.Document, "visit"); v != nil {
			p.House.Visit = &attended{Entry: e, Visit: v, Sealed: v.Sealed != ""}
			b.add(ctx)
		}
	}
	var out bytes.Buffer
	if err := report.Spreadsheet(&out, b.judged, b.all); err != nil {
		s.trouble(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+`-readings.xlsx"`)
	_, _ = out.WriteTo(w)
}

// book is a spreadsheet of readings in the making.
type book struct {
	page        *page
	judged, all report.Table
}

func newBook(p *page) *book {
	heads := func(keys ...string) []report.TableCell {
		var row []report.TableCell
		for _, k := range keys {
			row = append(row, report.TextCell(p.say(k)))
		}
		return row
	}
	return &book{page: p,
		judged: report.Table{Name: p.say("visit.readings"), Widths: []float64{12, 34, 12, 10, 14, 10, 12},
			Rows: [][]report.TableCell{heads("record.date", "visit.reading", "visit.measured", "record.unit", "visit.shouldbe", "record.tolerance", "record.verdict")}},
		all: report.Table{Name: p.say("record.all"), Widths: []float64{12, 40, 34, 18, 10},
			Rows: [][]report.TableCell{heads("record.date", "record.field", "visit.reading", "record.value", "record.unit")}}}
}

// add puts the page's visit into the book.
func (b *book) add(ctx context.Context) {
	a, p := b.page.House.Visit, b.page
	date := report.TextCell(a.Visit.Date)
	if p.Sheet != nil && p.walk("") == nil {
		p.judge(ctx)
	}
	if a.Judged != nil {
		for _, j := range a.Judged.Readings {
			is, unit := p.number(j.Measured)
			wanted, _ := p.number(j.Expected)
			tolerance, _ := p.number(j.Tolerance)
			b.judged.Rows = append(b.judged.Rows, []report.TableCell{date, report.TextCell(p.engine(j.Reading.String())), is, report.TextCell(unit), wanted, tolerance, report.TextCell(verdictWords(ctx, j.Verdict))})
		}
	}
	for _, spot := range job.WholeOf(a.Visit).All() {
		if spot.Kind == job.GroupSpot || spot.Kind == job.ListSpot || spot.Text() == "" {
			continue
		}
		value, unit := report.TextCell(spot.Text()), ""
		if q, _, given := spot.Value(); given {
			value, unit = p.number(q)
		}
		b.all.Rows = append(b.all.Rows, []report.TableCell{date, report.TextCell(spot.Path), report.TextCell(words.Label(ctx, "visit."+spot.Pattern)), value, report.TextCell(unit)})
	}
}

var figureAndUnit = regexp.MustCompile(`^([−+-]?[0-9][0-9,]*(?:\.[0-9]+)?)[\s\x{a0}]*(.*)$`)

// number parts a quantity into its figure and its unit, so that a spreadsheet can reckon
// with it; what has no single figure stays text.
func (p *page) number(q units.Quantity) (report.TableCell, string) {
	if q == nil {
		return report.TextCell(""), ""
	}
	text := q.Text(p.System)
	if m := figureAndUnit.FindStringSubmatch(text); m != nil && !strings.ContainsAny(m[2], "0123456789") {
		if x, err := strconv.ParseFloat(strings.NewReplacer("−", "-", ",", "").Replace(m[1]), 64); err == nil {
			return report.NumberCell(x), m[2]
		}
	}
	return report.TextCell(text), ""
}
