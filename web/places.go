package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// The places of a job: survey, settings, boiler room, year, history. Each is a page of
// its own with an address of its own.

// jobPlaces are the places in the order of the work.
var jobPlaces = []string{"survey", "settings", "curve", "boiler-room", "year", "visit", "handover", "follow-up", "papers", "history"}

// house is a job as its pages show it: the page's content, and where it is kept.
type house struct {
	store.Entry
	Place  string // one of jobPlaces
	Part   surveyPart
	Blocks []*block
	Room   int       // of the rooms' details; -1 for the table of all
	Rows   []roomRow // of that table
	Gaps   []gap
	Faults map[string]answerFault
	Undo   string // what an undo would take back; empty if there is nothing
	Redo   string
	Past   []saved // a part of the history
	Older  int     // the revision below which the history goes on; 0: it is told to its end

	Controls []store.Entry // that are kept, where one can be used
	Library  []store.Entry // of the installer's own, to be used in the survey
	Typed    url.Values    // what a form sent, for fields that are of no document
	Told     string        // what was done besides saving
	Visits   []store.Entry // of the job
	Signed   map[string]bool
	Papers   *paperList    // beside the job
	Logs     []store.Entry // of the job
	Visit    *attended     // the one that is open
}

// gap is an answer that is missing or does not fit, with the page that asks for it.
type gap struct {
	Part, Path, Place, Problem, Accept string
}

// open reads the job of a request with its results.
func (s *server) open(ctx context.Context, kind store.Kind, id, place string, d doubt) (*page, error) {
	entry, revision, err := s.kept(ctx, kind, id)
	if err != nil {
		return nil, err
	}
	return s.show(ctx, entry, revision.Document, place, d)
}

// show makes the page of a job from its document.
func (s *server) show(ctx context.Context, entry store.Entry, document []byte, place string, d doubt) (*page, error) {
	j, err := job.Draft(document)
	if j == nil {
		return nil, err
	}
	p := s.paged(ctx, entry, j, place)
	p.Document = string(document)
	p.finish(ctx, d, err)
	if kept, err := s.keptControls(ctx); err == nil && entry.Kind == store.Job && place == "survey" {
		p.House.Controls = kept
	}
	if place == "year" {
		if p.House.Papers, err = s.papers(ctx, entry.ID); err != nil {
			return nil, err
		}
	}
	if own, err := s.ownEntries(ctx, store.Active); err == nil && entry.Kind == store.Job && place == "survey" {
		p.House.Library = own
	}
	if place != "survey" {
		return p, nil
	}
	history, err := s.store.History(ctx, entry.ID, 0, historyPart)
	if err != nil {
		return nil, err
	}
	if r, ok, err := s.stepOf(ctx, entry.ID, history, false); err == nil && ok {
		p.House.Undo = s.changed(ctx, entry.ID, single(r))
	}
	if r, ok, err := s.stepOf(ctx, entry.ID, history, true); err == nil && ok {
		p.House.Redo = s.changed(ctx, entry.ID, single(r))
	}
	return p, nil
}

// paged is the page of a job before it is worked out.
func (s *server) paged(ctx context.Context, entry store.Entry, j *job.Job, place string) *page {
	who := readerOf(ctx)
	p := &page{job: j, House: &house{Entry: entry, Place: place}, System: who.System, Language: words.Of(ctx), Prints: s.config.Print != nil, NoYear: s.config.Year == nil}
	if !who.Chosen {
		p.System = who.System.On(settings.DefaultOptions(j).System)
	}
	return p
}

// finish judges the job by what reading it found wrong, and works it out if it is whole.
func (p *page) finish(ctx context.Context, d doubt, found error) {
	if p.House.Kind == store.Library {
		p.House.Gaps = ownGaps(ctx, p.job)
		return
	}
	p.House.Gaps = gapsIn(ctx, found)
	if p.House.Kind == store.Control {
		// A control on its own is in no house: only what is said of itself can be wrong.
		p.House.Gaps = slices.DeleteFunc(p.House.Gaps, func(g gap) bool { return g.Part != "control" })
		return
	}
	if len(p.House.Gaps) == 0 {
		p.solve(d)
	}
}

// gapsOf are the things that keep a job from being worked out.
func gapsOf(ctx context.Context, j *job.Job) []gap { return gapsIn(ctx, readAgain(j)) }

// readAgain is what reading a job would find wrong that was changed since it was read.
func readAgain(j *job.Job) error {
	document, err := job.Write(j)
	if err == nil {
		_, err = job.Read(document)
	}
	return err
}

// gapsIn are the gaps that reading a job found.
func gapsIn(ctx context.Context, found error) []gap {
	var faults *job.Faults
	if !errors.As(found, &faults) {
		if found != nil {
			return []gap{{Part: surveyParts[1].ID, Problem: found.Error()}}
		}
		return nil
	}
	var list []gap
	for _, f := range faults.List {
		problem := f.Problem
		if f.Given != "" {
			problem = "“" + f.Given + "” " + problem
		}
		list = append(list, gap{Part: partOf(f.Path), Path: f.Path, Place: wordsOf(ctx, f), Problem: problem, Accept: f.Accept})
	}
	return list
}

// wordsOf says where a fault is in the words of the form. An entry of the library is in a
// circuit that nobody sees.
func wordsOf(ctx context.Context, f job.Fault) string {
	place := words.Place(ctx, f.Place)
	if strings.Contains(f.Place, strconv.Quote(libraryCircuit)+" › ") {
		_, place, _ = strings.Cut(place, " › ")
	}
	return place
}

// base is the address of the job, or of the control that is described on its own.
func (h *house) base() string {
	switch h.Kind {
	case store.Control:
		return "/controls/" + h.ID
	case store.Library:
		return "/library/" + h.ID
	}
	return "/jobs/" + h.ID
}

// alone tells a control or an entry of the library from a job.
func (h *house) alone() bool { return h.Kind == store.Control || h.Kind == store.Library }

// at is the address of one of the job's places.
func (h *house) at(place string) string { return h.base() + "/" + place }

func (h *house) part(id string) string {
	if h.alone() {
		return h.base()
	}
	return h.at("survey/" + id)
}

// answer puts what a save found into the fields.
func (h *house) told(faults map[string]answerFault) {
	h.Faults = faults
	for i := range h.Rows {
		r := &h.Rows[i]
		for _, f := range []*field{&r.Name, &r.Area, &r.Setpoint, &r.Load, &r.Size} {
			if fault, wrong := faults[f.Path]; wrong && f.Path != "" {
				f.Figure, f.Fault = fault.Typed, fault.Problem
				r.Notes = append(r.Notes, *f)
			}
		}
		if fault, wrong := faults[r.Path+".emitters"]; wrong {
			r.Notes = append(r.Notes, field{Label: r.Name.Figure, Fault: fault.Problem})
		}
	}
	var walk func(blocks []*block) bool
	walk = func(blocks []*block) bool {
		some := false
		for _, b := range blocks {
			mine := walk(b.Blocks)
			for _, list := range [][]field{b.Fields, b.Seldom} {
				for i := range list {
					if fault, wrong := faults[list[i].Path]; wrong {
						list[i].Figure, list[i].Fault, mine = fault.Typed, fault.Problem, true
					}
				}
			}
			b.Open = b.Open || mine
			some = some || mine
		}
		return some
	}
	walk(h.Blocks)
}

// trouble answers a request that the store could not serve.
func (s *server) trouble(w http.ResponseWriter, r *http.Request, err error) {
	status := http.StatusInternalServerError
	switch {
	case errors.Is(err, store.NotFound):
		s.notFound(w, r)
		return
	case errors.Is(err, store.Busy):
		status = http.StatusServiceUnavailable
	case errors.Is(err, store.Full):
		status = http.StatusInsufficientStorage
	}
	s.write(w, r, status, failed(err.Error(), s.framed(r)))
}

// surveyPage shows one page of the survey.
func (s *server) surveyPage(w http.ResponseWriter, r *http.Request) {
	part, known := partNamed(r.PathValue("part"))
	if !known {
		if r.PathValue("part") != "" {
			s.notFound(w, r)
			return
		}
		part = surveyParts[0]
	}
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "survey", fullDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.ask(r.Context(), part, roomOf(r))
	s.write(w, r, http.StatusOK, inHouse(p, s.framed(r)))
}

// ask sets the fields of a page of the survey.
func (p *page) ask(ctx context.Context, part surveyPart, room int) {
	p.House.Part, p.House.Room = part, -1
	if part.ID == "rooms" {
		if room < 0 || room >= len(p.job.Rooms) {
			p.House.Rows = roomRows(ctx, p.job, p.System)
			return
		}
		p.House.Room = room
		part.roots = []string{fmt.Sprintf("rooms[%d]", room)}
	}
	p.House.Blocks = blocksOf(ctx, p.job, part, p.System)
	if p.House.Kind == store.Library {
		p.pruneOwn()
	}
}

// roomOf is the room whose details are asked for; -1 for the table of all.
func roomOf(r *http.Request) int {
	if n, err := strconv.Atoi(r.URL.Query().Get("room")); err == nil {
		return n
	}
	return -1
}

// formAt is where the survey's form goes.
func (h *house) formAt() string {
	if h.Part.ID == "rooms" && h.Room >= 0 {
		return h.part("rooms") + "?room=" + strconv.Itoa(h.Room)
	}
	return h.part(h.Part.ID)
}

// survey takes answers. Asked with live=try it only says what they would lead to; with
// live=save it saves and answers with the changed page; else it saves and shows the page
// anew.
func (s *server) survey(w http.ResponseWriter, r *http.Request) {
	if part, known := partNamed(r.PathValue("part")); known {
		s.answers(w, r, store.Job, part)
		return
	}
	s.notFound(w, r)
}

// answers takes the answers of one page of a survey.
func (s *server) answers(w http.ResponseWriter, r *http.Request, kind store.Kind, part surveyPart) {
	values, _, err := formOf(r)
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		s.write(w, r, http.StatusRequestEntityTooLarge, failed(tooLargeFor(large.Limit), s.framed(r)))
		return
	}
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again.", s.framed(r)))
		return
	}
	live := r.URL.Query().Get("live")
	ctx, id := r.Context(), r.PathValue("id")
	system, _ := systemNamed(values.Get("units"))
	what := values.Get("do")

	var faults map[string]answerFault
	var refused error
	alter := func(j *job.Job) (string, error) {
		if what == "paste" {
			text := values.Get(pasteField)
			values := pasted(ctx, j, text, values.Get(pasteAtField), system)
			faults = take(ctx, j, values, system).faults
			return "", nil
		}
		t := take(ctx, j, values, system)
		faults = t.faults
		if what != "" {
			faults, refused = atFields(faults, s.reshape(ctx, j, what, values))
		}
		if kind == store.Library {
			nameOwn(ctx, j)
		}
		return "", nil
	}
	var p *page
	if live == "try" {
		p, err = s.tried(ctx, kind, id, system, alter)
	} else {
		var entry store.Entry
		var j *job.Job
		if entry, j, err = s.change(ctx, kind, id, live == "save" && what == "", alter); err == nil {
			document, _ := job.Write(j) // it was written a moment ago
			p, err = s.show(ctx, entry, document, "survey", fullDoubt)
		}
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.System = system
	p.ask(ctx, part, roomOf(r))
	p.House.told(faults)
	p.FieldFaults = len(faults)
	if verb, _, _ := strings.Cut(what, " "); verb == "keep-entry" && refused == nil {
		p.House.Told = words.Say(ctx, "library.kept")
	} else if verb != "library" || len(faults) > 0 {
		p.House.Typed = values
	}
	if refused != nil {
		p.Trouble = refusal(ctx, refused.Error())
	}
	p.open = map[string]bool{}
	for _, id := range values[openField] {
		p.open[id] = true
	}
	switch {
	case live != "":
		s.write(w, r, http.StatusOK, surveyWork(p))
	case len(faults) > 0 || refused != nil:
		s.write(w, r, http.StatusUnprocessableEntity, inHouse(p, s.framed(r)))
	default:
		http.Redirect(w, r, p.House.formAt()+landing(what), http.StatusSeeOther)
	}
}

// landing is the spot of the page to look at after the shape of the document changed.
func landing(what string) string {
	verb, path, _ := strings.Cut(what, " ")
	switch verb {
	case "add", "make", "duplicate", "library":
		return "#b-" + idOf(path)
	}
	return ""
}

// tried works out what answers would lead to, without keeping them.
func (s *server) tried(ctx context.Context, kind store.Kind, id string, system units.System, alter func(*job.Job) (string, error)) (*page, error) {
	entry, revision, err := s.kept(ctx, kind, id)
	if err != nil {
		return nil, err
	}
	j, err := job.Draft(revision.Document)
	if j == nil {
		return nil, err
	}
	if _, err := alter(j); err != nil {
		return nil, err
	}
	p := s.paged(ctx, entry, j, "survey")
	p.System = system
	p.brief = true
	p.finish(ctx, quickDoubt, readAgain(j))
	return p, nil
}

// settingsPage, plantPage and the others show results.
func (s *server) placePage(place string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		d := fullDoubt
		if place == "curve" {
			d = quickDoubt // as while something is dragged, so that no figure jumps then
		}
		p, err := s.open(r.Context(), store.Job, r.PathValue("id"), place, d)
		if err != nil {
			s.trouble(w, r, err)
			return
		}
		p.Outdoors, p.weather = readWeather(p.Language, r.URL.Query().Get(weatherField))
		if place == "curve" {
			p.try(r.Context(), r.URL.Query())
		}
		if place == "history" {
			if err := s.history(r.Context(), p.House, r.URL.Query().Get("below")); err != nil {
				s.trouble(w, r, err)
				return
			}
		}
		if place == "visit" {
			if p.House.Visits, err = s.visits(r.Context(), p.House.ID); err == nil {
				p.House.Signed, err = s.signed(r.Context(), p.House.Visits)
			}
			if err != nil {
				s.trouble(w, r, err)
				return
			}
		}
		s.write(w, r, http.StatusOK, inHouse(p, s.framed(r)))
	}
}

// back takes the newest change back, or brings it again.
func (s *server) back(kind store.Kind, redo bool) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := s.takeBack(r.Context(), kind, r.PathValue("id"), redo); err != nil {
			s.trouble(w, r, err)
			return
		}
		http.Redirect(w, r, returnTo(r, path.Dir(r.URL.Path)), http.StatusSeeOther)
	}
}

// returnTo is where a button wants its reader back: a path of ours, or the usual place.
func returnTo(r *http.Request, usual string) string {
	to := r.PostFormValue("to")
	if u, err := url.Parse(to); err == nil && u.Host == "" && u.Scheme == "" && strings.HasPrefix(to, "/") && !strings.HasPrefix(to, "//") && !strings.HasPrefix(to, "/\\") {
		return to
	}
	return usual
}

// revive makes an earlier revision the newest again.
func (s *server) revive(w http.ResponseWriter, r *http.Request) {
	ctx, id := r.Context(), r.PathValue("id")
	number, err := strconv.Atoi(r.PathValue("number"))
	if err != nil {
		s.notFound(w, r)
		return
	}
	old, err := s.store.ReadRevision(ctx, id, number)
	if err == nil {
		_, _, err = s.change(ctx, store.Job, id, false, func(j *job.Job) (string, error) {
			earlier, err := job.Draft(old.Document)
			if earlier == nil {
				return "", err
			}
			*j = *earlier
			return words.Say(ctx, "history.restored", number), nil
		})
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/jobs/"+id+"/history", http.StatusSeeOther)
}

// sheet sends one of the files that a job gives.
func (s *server) sheet(ending string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "settings", fullDoubt)
		if err != nil {
			s.trouble(w, r, err)
			return
		}
		if p.Sheet == nil && ending != "yaml" {
			http.Redirect(w, r, p.House.at("settings"), http.StatusSeeOther)
			return
		}
		var out bytes.Buffer
		kind := "application/json"
		switch ending {
		case "yaml":
			kind = "application/yaml; charset=utf-8"
			out.WriteString(p.Document)
		case "json":
			err = report.SheetJSON(&out, p.Sheet)
		case "pdf":
			kind = "application/pdf"
			err = s.printSheet(&out, p, r)
		}
		if err != nil {
			s.trouble(w, r, fmt.Errorf("the file could not be written: %w", err))
			return
		}
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+"."+ending+`"`)
		_, _ = out.WriteTo(w)
	}
}

// printSheet prints a sheet on the reader's paper.
func (s *server) printSheet(out io.Writer, p *page, r *http.Request) error {
	o := report.PDFOptions{Paper: report.A4, Date: p.Sheet.Surveyed, Version: s.config.Version, Say: p.Language.Writing, Lang: p.Language.Tag(), Day: func(iso string) string { return dated(r.Context(), iso) }}
	paper := r.URL.Query().Get("paper")
	if paper == "" {
		paper = readerOf(r.Context()).Paper
	}
	if paper == "letter" || (paper == "" && p.System.Family() == units.US) {
		o.Paper = report.Letter
	}
	if s.config.Today != nil {
		o.Date = s.config.Today()
	}
	return s.config.Print(out, p.Sheet, o)
}

// takeIn begins a job from an example, from a file, or from the short form.
func (s *server) takeIn(w http.ResponseWriter, r *http.Request) {
	values, file, err := formOf(r)
	if r.MultipartForm != nil {
		defer r.MultipartForm.RemoveAll()
	}
	if large := (*http.MaxBytesError)(nil); errors.As(err, &large) && large.Limit == maxArchive {
		s.write(w, r, http.StatusRequestEntityTooLarge, failed(fmt.Sprintf("The file is larger than a file with everything may be: %d MB. Nothing was changed.", maxArchive>>20), s.framed(r)))
		return
	}
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read, or its file is larger than 1 MB. Nothing was changed.", s.framed(r)))
		return
	}
	if packed, size, ok := archiveOf(r); ok {
		defer packed.Close()
		s.takeArchive(w, r, packed, size)
		return
	}
	ctx := r.Context()
	what := words.Say(ctx, "history.begun")
	document := []byte(file)
	if e, ok := examples.Find(values.Get("example")); ok {
		document = []byte(e.Document)
	}
	if len(document) == 0 {
		s.begin(w, r, values)
		return
	}
	j, err := job.Read(document)
	if err != nil {
		s.write(w, r, http.StatusUnprocessableEntity, refusedFile(err, s.framed(r)))
		return
	}
	s.keepNew(w, r, j, what)
}

// keepNew keeps a new job and goes there.
func (s *server) keepNew(w http.ResponseWriter, r *http.Request, j *job.Job, what string) {
	entry, err := s.begunWith(r.Context(), j, what)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/jobs/"+entry.ID+"/survey", http.StatusSeeOther)
}

// begunWith keeps a new job.
func (s *server) begunWith(ctx context.Context, j *job.Job, what string) (store.Entry, error) {
	document, err := job.Write(j)
	if err != nil {
		return store.Entry{}, err
	}
	return s.store.Create(ctx, store.Entry{Kind: store.Job, Title: j.Name, About: inALine(j)}, document, readerOf(ctx).by(), what)
}

// moveJob copies a job, or puts it away, or brings it back.
func (s *server) moveJob(w http.ResponseWriter, r *http.Request) {
	s.move(w, r, store.Job, []string{"archive", "trash", "restore", "erase"}, returnTo(r, "/"), func(j *job.Job, title string) (string, error) {
		j.Name = words.Say(r.Context(), "jobs.copyof", title)
		entry, err := s.begunWith(r.Context(), j, words.Say(r.Context(), "history.copied", title))
		return "/jobs/" + entry.ID + "/survey", err
	})
}

// move does with a document as a whole what its list offers, and goes to the list, or to
// the copy where copying leads there.
func (s *server) move(w http.ResponseWriter, r *http.Request, kind store.Kind, offered []string, list string, copied func(j *job.Job, title string) (to string, err error)) {
	ctx, verb := r.Context(), r.PathValue("verb")
	if verb != "duplicate" && !slices.Contains(offered, verb) {
		s.notFound(w, r)
		return
	}
	entry, revision, err := s.kept(ctx, kind, r.PathValue("id"))
	to := list
	if err == nil {
		switch verb {
		case "duplicate":
			var j *job.Job
			if j, err = job.Draft(revision.Document); j != nil {
				to, err = copied(j, entry.Title)
			}
		case "archive":
			err = s.store.SetState(ctx, entry.ID, store.Archived)
		case "trash":
			err = s.store.SetState(ctx, entry.ID, store.Trashed)
		case "restore":
			err = s.store.SetState(ctx, entry.ID, store.Active)
		case "erase":
			err = s.store.Erase(ctx, entry.ID)
		}
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// topPlaces are the places beside the jobs.
var topPlaces = []pick{{"/", "jobs.title"}, {"/controls", "controls.title"}, {"/library", "library.title"}, {"/preferences", "prefs.title"}, {"/help", "help.title"}}

// surveyFirst sends the plain address of a job to its survey.
func (s *server) surveyFirst(w http.ResponseWriter, r *http.Request) {
	http.Redirect(w, r, "/jobs/"+url.PathEscape(r.PathValue("id"))+"/survey", http.StatusSeeOther)
}

// jobDrawing answers the script with the drawing of a kept job alone.
func (s *server) jobDrawing(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "boiler-room", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.Outdoors, p.weather = readWeather(p.Language, r.URL.Query().Get(weatherField))
	switch {
	case p.weather != nil:
		s.write(w, r, http.StatusUnprocessableEntity, noDrawing(p.weather.Error()))
	case p.Sheet == nil:
		s.write(w, r, http.StatusUnprocessableEntity, noDrawing(p.Trouble))
	default:
		s.write(w, r, http.StatusOK, plantDrawing(p))
	}
}

// jobYear plays the year of a kept job: for the script its section alone, else a page.
func (s *server) jobYear(section bool) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if _, _, err := formOf(r); err != nil {
			s.write(w, r, http.StatusRequestEntityTooLarge, failed(tooLargeFor(maxYear), s.framed(r)))
			return
		}
		p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "year", fullDoubt)
		if err != nil {
			s.trouble(w, r, err)
			return
		}
		status := http.StatusUnprocessableEntity
		if p.Sheet != nil {
			if p.Year = s.play(p, r); p.Year.Refused == "" {
				status = http.StatusOK
			}
		}
		if section {
			s.write(w, r, status, yearOf(p))
			return
		}
		s.write(w, r, status, inHouse(p, s.framed(r)))
	}
}
