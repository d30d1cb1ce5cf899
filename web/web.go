package web

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/a-h/templ"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// Config is what the page is told by the program that serves it.
type Config struct {
	Version string        // of the engine, for the foot of the page and of the print
	Today   func() string // the day to print on a sheet, as 2026-11-25; nil: the day of the survey
	Print   Print         // pdf.Sheet; nil: the page offers no print
	// pdf.Paperwork and pdf.Household; nil: the record and the household's sheet are pages only
	Record    func(io.Writer, *report.Paperwork, report.PDFOptions) error
	Household func(io.Writer, *report.HouseholdSheet, report.PDFOptions) error
	Year      Year        // PlayYear; nil: the page plays no year
	Store     store.Store // where jobs are kept
}

// Print writes a settings sheet as a PDF. It is handed in, since with its typefaces it
// is half as large as all the rest, which matters to a page that runs in a browser.
type Print func(io.Writer, *settings.Sheet, report.PDFOptions) error

// maxRequest is the most that a request may hold: a document of the largest size
// that is read at all would not leave room for the rest of the form.
const maxRequest = 1 << 20

// contentPolicy lets the page load its own files and nothing else. Styles and scripts
// within the page are refused.
const contentPolicy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; " +
	"manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// mostLog is the most that a request with a log may hold.
const mostLog = 96 << 20

// most is what a request may hold: only one for a year brings a file of weather.
func most(r *http.Request) int64 {
	if strings.HasSuffix(r.URL.Path, "/logs") {
		return mostLog
	}
	if r.Method == http.MethodPost && strings.HasPrefix(r.URL.Path, "/jobs/") && (strings.HasSuffix(r.URL.Path, "/papers") || strings.HasSuffix(r.URL.Path, "/photos")) {
		return maxUpload
	}
	if r.URL.Path == "/jobs" {
		return maxArchive // a job may come with its photographs and papers
	}
	if strings.HasSuffix(r.URL.Path, "/year") || strings.HasSuffix(r.URL.Path, "/year/section") {
		return maxYear
	}
	return maxRequest
}

type server struct {
	config Config
	store  store.Store
	assets assets

	yearTurn chan struct{} // one year at a time
	searches *searches     // for settings, with years
	read     *readLogs     // the newest, so that a look at another stretch is quick
}

// New gives the handler of the whole page.
//
// Errors: files of the page that cannot be read, which is a fault of the build.
func New(config Config) (http.Handler, error) {
	files, err := readAssets()
	if err != nil {
		return nil, fmt.Errorf("files of the page: %w", err)
	}
	s := &server{yearTurn: make(chan struct{}, 1), config: config, store: config.Store, assets: files}
	mux := http.NewServeMux()
	s.routes(mux)
	mux.HandleFunc("GET /try", s.start)
	mux.HandleFunc("POST /try", s.workOut)
	mux.HandleFunc("POST /solve", s.solve)
	mux.HandleFunc("POST /drawing", s.drawing)
	if config.Year != nil {
		mux.HandleFunc("POST /year", s.year)
		mux.HandleFunc("POST /year/section", s.yearSection)
	}
	if config.Print != nil {
		mux.HandleFunc("POST /pdf", s.pdf)
	}
	mux.HandleFunc("POST /json", s.json)
	mux.HandleFunc("POST /document", s.document)
	mux.HandleFunc("GET /assets/{path...}", s.asset)
	mux.HandleFunc("GET /favicon.ico", s.icon)
	mux.HandleFunc("/", s.notFound)
	return secured(http.NewCrossOriginProtection().Handler(s.known(mux))), nil
}

// routes are the pages of jobs that are kept.
func (s *server) routes(mux *http.ServeMux) {
	mux.HandleFunc("GET /{$}", s.jobs)
	mux.HandleFunc("GET /new", s.short)
	mux.HandleFunc("POST /jobs", s.takeIn)
	mux.HandleFunc("GET /preferences", s.preferences)
	mux.HandleFunc("POST /preferences", s.setPreferences)
	mux.HandleFunc("GET /jobs/{id}", s.surveyFirst)
	mux.HandleFunc("GET /jobs/{id}/survey", s.surveyPage)
	mux.HandleFunc("GET /jobs/{id}/survey/{part}", s.surveyPage)
	mux.HandleFunc("POST /jobs/{id}/survey/{part}", s.survey)
	mux.HandleFunc("GET /jobs/{id}/handover", s.handoverPage)
	mux.HandleFunc("GET /jobs/{id}/record", s.recordPage)
	if s.config.Record != nil {
		mux.HandleFunc("GET /jobs/{id}/record.pdf", s.recordPDF)
	}
	mux.HandleFunc("GET /jobs/{id}/readings.xlsx", s.readingsBook)
	mux.HandleFunc("POST /jobs/{id}/visit/{visit}/photos", s.takePhotos)
	mux.HandleFunc("GET /jobs/{id}/household/{language}", s.householdPage)
	mux.HandleFunc("GET /jobs/{id}/return.ics", s.calendar)
	mux.HandleFunc("GET /jobs/{id}/readings.csv", s.readingsTable)
	mux.HandleFunc("GET /jobs/{id}/everything.zip", s.everything)
	for _, place := range jobPlaces[1:] {
		if place == "handover" || place == "follow-up" || place == "papers" {
			continue
		}
		mux.HandleFunc("GET /jobs/{id}/"+place, s.placePage(place))
	}
	mux.HandleFunc("GET /jobs/{id}/papers", s.papersPage)
	mux.HandleFunc("POST /jobs/{id}/papers", s.takePapers)
	mux.HandleFunc("GET /jobs/{id}/papers/{file}", s.paper)
	mux.HandleFunc("POST /jobs/{id}/papers/{file}", s.changePaper)
	mux.HandleFunc("POST /jobs/{id}/curve/try", s.tryCurve)
	mux.HandleFunc("GET /jobs/{id}/drawing", s.jobDrawing)
	if s.config.Year != nil {
		mux.HandleFunc("POST /jobs/{id}/year", s.jobYear(false))
		mux.HandleFunc("POST /jobs/{id}/year/section", s.jobYear(true))
	}
	mux.HandleFunc("POST /jobs/{id}/undo", s.back(store.Job, false))
	mux.HandleFunc("POST /jobs/{id}/redo", s.back(store.Job, true))
	mux.HandleFunc("POST /jobs/{id}/history/{number}", s.revive)
	mux.HandleFunc("GET /jobs/{id}/job.yaml", s.sheet("yaml"))
	mux.HandleFunc("GET /jobs/{id}/sheet.json", s.sheet("json"))
	if s.config.Print != nil {
		mux.HandleFunc("GET /jobs/{id}/sheet.pdf", s.sheet("pdf"))
	}
	mux.HandleFunc("POST /jobs/{id}/{verb}", s.moveJob)
	mux.HandleFunc("POST /jobs/{id}/visits", s.beginVisit)
	mux.HandleFunc("GET /jobs/{id}/visit/{visit}", s.visitPage)
	mux.HandleFunc("GET /jobs/{id}/visit/{visit}/{section}", s.visitPage)
	mux.HandleFunc("POST /jobs/{id}/visit/{visit}/{section}", s.visitAnswers)
	mux.HandleFunc("POST /jobs/{id}/visit/{visit}/sign", s.sign)
	mux.HandleFunc("GET /jobs/{id}/visit/{visit}/visit.yaml", s.visitFile)
	mux.HandleFunc("GET /jobs/{id}/visit/{visit}/files/{file}", s.visitPicture)
	s.followRoutes(mux)
	s.decideRoutes(mux)
	s.yearRoutes(mux)
	mux.HandleFunc("GET /controls", s.controls)
	mux.HandleFunc("POST /controls", s.takeControl)
	mux.HandleFunc("GET /controls/{id}", s.controlPage)
	mux.HandleFunc("POST /controls/{id}", s.describe)
	mux.HandleFunc("GET /controls/{id}/control.yaml", s.controlFile)
	mux.HandleFunc("POST /controls/{id}/undo", s.back(store.Control, false))
	mux.HandleFunc("POST /controls/{id}/redo", s.back(store.Control, true))
	mux.HandleFunc("POST /controls/{id}/{verb}", s.moveControl)
	mux.HandleFunc("GET /library", s.library)
	mux.HandleFunc("POST /library", s.takeLibrary)
	mux.HandleFunc("GET /library/library.yaml", s.libraryFile)
	mux.HandleFunc("GET /library/{id}", s.ownPage)
	mux.HandleFunc("POST /library/{id}", s.describeOwn)
	mux.HandleFunc("GET /library/{id}/entry.yaml", s.ownFile)
	mux.HandleFunc("POST /library/{id}/undo", s.back(store.Library, false))
	mux.HandleFunc("POST /library/{id}/redo", s.back(store.Library, true))
	mux.HandleFunc("POST /library/{id}/{verb}", s.moveOwn)
	mux.HandleFunc("GET /help", s.help)
	mux.HandleFunc("POST /help/tour", s.beginTour)
}

// secured sets what every answer carries and bounds every request.
func secured(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store") // a job is nobody else's business
		r.Body = http.MaxBytesReader(w, r.Body, most(r))
		next.ServeHTTP(w, r)
	})
}

// start shows an example, the first one if none is named.
func (s *server) start(w http.ResponseWriter, r *http.Request) {
	name := r.URL.Query().Get("example")
	if name == "" {
		name = examples.List()[0].Name
	}
	example, ok := examples.Find(name)
	if !ok {
		s.notFound(w, r)
		return
	}
	system, chosen := systemNamed(r.URL.Query().Get("units"))
	if !chosen {
		system, chosen = readerOf(r.Context()).System, readerOf(r.Context()).Chosen
	}
	p := readDocument(words.Of(r.Context()), example.Document, system, chosen)
	p.Example = example.Name
	p.solve(fullDoubt)
	s.page(w, r, http.StatusOK, p)
}

// workOut answers the form with a whole page.
func (s *server) workOut(w http.ResponseWriter, r *http.Request) {
	p, status := readForm(r, fullDoubt)
	s.page(w, r, status, p)
}

// solve answers the script with the parts of the page that change. Its status is 200
// even for a faulty document, since what it answers is what is wrong with it; too
// large a request is the exception, which the script tells by itself.
func (s *server) solve(w http.ResponseWriter, r *http.Request) {
	d := fullDoubt
	if r.URL.Query().Get("doubt") == "quick" {
		d = quickDoubt
	}
	p, status := readForm(r, d)
	if status == http.StatusUnprocessableEntity {
		status = http.StatusOK
	}
	p.Prints, p.NoYear = s.config.Print != nil, s.config.Year == nil
	s.write(w, r, status, work(p))
}

func (s *server) page(w http.ResponseWriter, r *http.Request, status int, p *page) {
	p.Prints, p.NoYear = s.config.Print != nil, s.config.Year == nil
	s.write(w, r, status, whole(p, s.framed(r)))
}

func (s *server) write(w http.ResponseWriter, r *http.Request, status int, c templ.Component) {
	var out bytes.Buffer
	if err := c.Render(r.Context(), &out); err != nil {
		http.Error(w, "the page could not be written", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = out.WriteTo(w) // a reader who went away is no fault of ours
}

// pdf prints the sheet.
func (s *server) pdf(w http.ResponseWriter, r *http.Request) {
	s.download(w, r, "application/pdf", ".pdf", func(out io.Writer, p *page) error {
		o := report.PDFOptions{Paper: report.A4, Date: p.Sheet.Surveyed, Version: s.config.Version, Say: p.Language.Writing, Lang: p.Language.Tag(), Day: func(iso string) string { return dated(r.Context(), iso) }}
		if r.URL.Query().Get("paper") == "letter" {
			o.Paper = report.Letter
		}
		if s.config.Today != nil {
			o.Date = s.config.Today()
		}
		return s.config.Print(out, p.Sheet, o)
	})
}

// json gives the sheet to another program.
func (s *server) json(w http.ResponseWriter, r *http.Request) {
	s.download(w, r, "application/json", ".json", func(out io.Writer, p *page) error {
		return report.SheetJSON(out, p.Sheet)
	})
}

// document gives the job back with all that was changed on the page.
func (s *server) document(w http.ResponseWriter, r *http.Request) {
	s.download(w, r, "application/yaml; charset=utf-8", ".yaml", func(out io.Writer, p *page) error {
		_, err := io.WriteString(out, p.Document)
		return err
	})
}

// download sends a file, or the page with what stands in its way.
func (s *server) download(w http.ResponseWriter, r *http.Request, kind, ending string, write func(io.Writer, *page) error) {
	p, status := readForm(r, fullDoubt)
	if p.Sheet == nil || p.FieldFaults > 0 {
		if status == http.StatusOK {
			status = http.StatusUnprocessableEntity
		}
		s.page(w, r, status, p)
		return
	}
	var out bytes.Buffer
	if err := write(&out, p); err != nil {
		p.Trouble = "The file could not be written: " + err.Error()
		s.page(w, r, http.StatusUnprocessableEntity, p)
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.Sheet.Job)+ending+`"`)
	_, _ = out.WriteTo(w)
}

// fileName makes a name of plain letters from the name of a job.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	if name = strings.Trim(b.String(), "-"); name == "" {
		return "settings"
	}
	return name
}

func (s *server) notFound(w http.ResponseWriter, r *http.Request) {
	s.write(w, r, http.StatusNotFound, missing(s.framed(r)))
}

// readDocument reads a job.
func readDocument(l words.Language, document string, system units.System, chosen bool) *page {
	p := &page{Document: document, System: system, Language: l}
	j, err := job.Read([]byte(document))
	if err != nil {
		p.refuse(err)
		return p
	}
	if !chosen {
		p.System = system.On(settings.DefaultOptions(j).System)
	}
	p.job = j
	p.Groups = fieldsOf(j, p.System)
	return p
}

// refuse notes why there is no job.
func (p *page) refuse(err error) {
	if p.Faults, p.MoreFaults = faultsIn(err); len(p.Faults) == 0 {
		p.Trouble = err.Error()
	}
}

// faultsIn are the things to put right in a document, if that is what an error lists, and
// whether there are more.
func faultsIn(err error) (list []job.Fault, more bool) {
	var faults *job.Faults
	if errors.As(err, &faults) {
		return faults.List, faults.More
	}
	return nil, false
}

// doubt says how well the spread of the results is worked out, which takes nearly all
// of the time.
type doubt int

const (
	fullDoubt  doubt = iota
	quickDoubt       // while somebody types: its ends move by a degree or so; the answer is brief
	noDoubt          // for what does not show it
)

// quickSamples are enough for a spread that is looked at for half a second.
const quickSamples = 80

// solve works out the sheet of the page's job, if there is one, in the reader's units.
func (p *page) solve(d doubt) {
	if p.job == nil {
		return
	}
	o := settings.DefaultOptions(p.job)
	o.System = p.System
	switch d {
	case quickDoubt:
		o.Samples = quickSamples
	case noDoubt:
		o.Samples = 0
	}
	judge, err := settings.NewJudge(p.job, o)
	if err != nil {
		p.Trouble = "This house cannot be worked out yet: " + err.Error() + "."
		return
	}
	p.curves, p.Sheet = judge, judge.Sheet
}

// systemNamed reads the choice of units.
func systemNamed(word string) (system units.System, chosen bool) {
	system, err := units.SystemNamed(word)
	return system, err == nil
}
