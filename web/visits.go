package web

import (
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/store"
	"curvewright/units"
	"curvewright/visit"
	"curvewright/web/words"
)

// The visit: a walk in the order of the work, made from the job. Every answer is saved as
// it is given, beside the job, until the visit is signed; then it no longer changes.

// visitParts are the fields of the visit's document that belong to a section of the walk.
var visitParts = map[string][]string{
	"before-power":   {"water", "pressure_test", "loops"},
	"first-firing":   {"combustion", "instruments.analyser"},
	"readings":       {"conditions", "readings.outdoor_shown", "readings.boiler", "readings.separator", "readings.circuits", "readings.rooms", "readings.sensors", "instruments.thermometer"},
	"hot-water":      {"readings.tank_charge"},
	"sign-off":       {"reason", "follow_up", "notes"},
	"settings":       nil,
	"safety-devices": nil,
}

// Names of the walk's fields.
const (
	donePrefix     = "c." // a step: yes, no, does not apply
	doneWasPrefix  = "d."
	notePrefix     = "n."
	noteWasPrefix  = "m."
	linePrefix     = "l." // a line of the sheet: sheet, otherwise, not there
	lineWasPrefix  = "j."
	valuePrefix    = "v." // what was entered instead
	valueWasPrefix = "u."
)

// attended is a visit as its pages show it.
type attended struct {
	store.Entry
	Visit    *attendance.Visit
	House    *visit.House
	Sections []visit.Section
	At       int // of the sections
	Blocks   []*block
	Judged   *visit.Judgement
	Expected *visit.Expectation
	Found    []visit.Found
	Sensors  []visit.SensorReading
	Flue     *visit.CombustionRecord
	Trouble  []string // why there is no judgement

	Otherwise []visit.Consequence // what lines entered otherwise lead to
	Water     []visit.Checked
	Tested    []visit.Checked // the pressure test
	Balanced  []visit.Checked
	Photos    []photograph

	Sealed   bool
	Unsigned []string             // why the signature was not taken
	Signing  attendance.Signature // as typed
	Faults   map[string]answerFault
}

// prefix is what the names of the fields on the page begin with.
func (p *page) prefix() string {
	if p.House != nil && p.House.Visit != nil {
		return "visit."
	}
	return ""
}

// slug names a section in the address.
func slug(title string) string { return fileName(title) }

// at is the address of a section of the visit.
func (a *attended) at(h *house, section string) string {
	return h.at("visit/" + a.ID + "/" + section)
}

func (a *attended) section() visit.Section { return a.Sections[a.At] }

// progress counts the steps of a section that are answered.
func (a *attended) progress(s visit.Section) (done, all int) {
	for _, step := range s.Steps {
		all++
		if step.Line && a.entered(step.Name).As != "" || !step.Line && a.check(step.Name).Done != "" {
			done++
		}
	}
	return done, all
}

// reads tells whether thermometers are read in the section.
func (a *attended) reads() bool {
	at := slug(a.section().Title)
	return at == "readings" || at == "hot-water"
}

func (a *attended) check(step string) attendance.Check {
	for _, c := range a.Visit.Checks {
		if c.Step == step {
			return c
		}
	}
	return attendance.Check{}
}

func (a *attended) entered(line string) attendance.Entered {
	for _, e := range a.Visit.Entered {
		if e.Line == line {
			return e
		}
	}
	return attendance.Entered{}
}

// visits lists the visits of a job, the newest first.
func (s *server) visits(ctx context.Context, id string) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: store.Visit, Parent: id, Sort: store.ByCreated, Limit: 200})
	return list, err
}

// signed tells which of the visits no longer change.
func (s *server) signed(ctx context.Context, list []store.Entry) (map[string]bool, error) {
	signed := map[string]bool{}
	for _, e := range list {
		_, revision, err := s.store.Read(ctx, e.ID)
		if err != nil {
			return nil, err
		}
		if v, _ := job.DraftDocument[attendance.Visit](revision.Document, "visit"); v != nil {
			signed[e.ID] = v.Sealed != ""
		}
	}
	return signed, nil
}

// today is the day that is written into documents.
func (s *server) today() string {
	if s.config.Today != nil {
		return s.config.Today()
	}
	return time.Now().Format(time.DateOnly)
}

// beginVisit begins one, with a line for every circuit and room.
func (s *server) beginVisit(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "visit", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	v := &attendance.Visit{Version: attendance.Version, Date: s.today(), Job: p.job.Name, By: readerOf(ctx).Name}
	for _, c := range p.job.Circuits {
		v.Readings.Circuits = append(v.Readings.Circuits, attendance.Circuit{Name: c.Name})
	}
	for _, room := range p.job.Rooms {
		v.Readings.Rooms = append(v.Readings.Rooms, attendance.Room{Name: room.Name})
	}
	if corrects := r.PostFormValue("corrects"); corrects != "" {
		v.Reason, v.Corrects = "correction", corrects
	}
	if log := r.PostFormValue("log"); log != "" {
		v.Reason = "return visit"
		if v.Notes, err = s.noteFor(ctx, p, log); err != nil {
			s.trouble(w, r, err)
			return
		}
	}
	document, err := attendance.Write(v)
	if err == nil {
		var entry store.Entry
		entry, err = s.store.Create(ctx, store.Entry{Kind: store.Visit, Parent: p.House.ID, Title: v.Date, About: v.By}, document, v.By, words.Say(ctx, "history.begun"))
		if err == nil {
			http.Redirect(w, r, p.House.at("visit/"+entry.ID), http.StatusSeeOther)
			return
		}
	}
	s.trouble(w, r, err)
}

// openVisit reads the job and the visit of a request.
func (s *server) openVisit(r *http.Request) (*page, error) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "visit", noDoubt)
	if err != nil {
		return nil, err
	}
	entry, revision, err := s.kept(ctx, store.Visit, r.PathValue("visit"))
	if err == nil && entry.Parent != p.House.ID {
		err = store.NotFound
	}
	if err != nil {
		return nil, err
	}
	v, err := job.DraftDocument[attendance.Visit](revision.Document, "visit")
	if v == nil {
		return nil, err
	}
	p.House.Visit = &attended{Entry: entry, Visit: v, Sealed: v.Sealed != ""}
	p.House.Visit.Photos = s.photographs(ctx, p.House.Visit)
	if p.Sheet == nil {
		return p, nil
	}
	return p, p.walk(r.PathValue("section"))
}

// walk lays out the walk and goes to a section of it.
func (p *page) walk(section string) error {
	a := p.House.Visit
	h, err := visit.New(p.job, p.System)
	if err != nil {
		return err
	}
	a.House, a.Sections, a.At = h, h.Walk(), 0
	for i, s := range a.Sections {
		if slug(s.Title) == section {
			a.At = i
			return nil
		}
	}
	if section != "" {
		return store.NotFound
	}
	return nil
}

// visitPage shows a section of a visit.
func (s *server) visitPage(w http.ResponseWriter, r *http.Request) {
	p, err := s.openVisit(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	if p.Sheet != nil {
		p.judge(r.Context())
		p.askVisit(r.Context())
	}
	s.write(w, r, http.StatusOK, inHouse(p, s.framed(r)))
}

// askVisit sets the fields of a section.
func (p *page) askVisit(ctx context.Context) {
	a := p.House.Visit
	part := surveyPart{"visit", visitParts[slug(a.section().Title)]}
	if len(part.roots) > 0 {
		a.Blocks = blocksIn(ctx, job.WholeOf(a.Visit), "visit.", part, p.System, p.visitNames)
		a.Blocks = p.fitting(a.Blocks)
		p.showPhotos(a.Blocks)
	}
}

// visitNames are the names of the job that a visit may refer to.
func (p *page) visitNames(pattern string) []string {
	var names []string
	switch pattern {
	case "loops[].circuit", "readings.rooms[].circuit":
		for _, c := range p.job.Circuits {
			names = append(names, c.Name)
		}
	case "readings.sensors[].name":
		for _, s := range p.job.Sensors {
			names = append(names, s.Name)
		}
	}
	return names
}

// judge works out what should be read, and holds against it what was.
func (p *page) judge(ctx context.Context) {
	a := p.House.Visit
	a.Found, a.Otherwise = a.House.AsEntered(a.Visit), a.House.Consequences(a.Visit)
	a.hold()
	if a.Visit.Combustion != nil {
		if record, err := a.House.Combustion(*a.Visit.Combustion); err == nil {
			a.Flue = &record
		}
	}
	if !a.Visit.Conditions.Outdoor.Set {
		a.Trouble = append(a.Trouble, words.Say(ctx, "visit.outdoor"))
		return
	}
	v := *a.Visit
	v.Readings.Sensors = nil // they are judged on their own
	if err := v.Check(); err != nil {
		a.Trouble = append(a.Trouble, strings.Split(err.Error(), "\n")...)
		return
	}
	conditions, measured, err := a.House.FromDocument(&v)
	if err != nil {
		a.Trouble = append(a.Trouble, capital(err.Error()))
		return
	}
	expected, err := a.House.Expect(conditions)
	if err != nil {
		a.Trouble = append(a.Trouble, capital(err.Error()))
		return
	}
	a.Expected = &expected
	if len(measured) > 0 {
		if judged, err := a.House.Judge(conditions, measured); err == nil {
			a.Judged = &judged
		} else {
			a.Trouble = append(a.Trouble, capital(err.Error()))
		}
	}
	if len(a.Visit.Readings.Sensors) > 0 {
		if sensors, err := a.House.JudgeSensors(a.Visit); err == nil {
			a.Sensors = sensors
		}
	}
}

// takeVisit puts the answers of a form into a visit.
func (p *page) takeVisit(ctx context.Context, v *attendance.Visit, values url.Values, s units.System) map[string]answerFault {
	faults := map[string]answerFault{}
	for _, spot := range job.WholeOf(v).All() {
		text, sent := values[typedPrefix+spot.Path]
		if !sent || spot.Path == "sealed" {
			continue
		}
		typed, was := strings.TrimSpace(text[0]), values.Get(shownPrefix+spot.Path)
		if typed == was {
			continue
		}
		now := fieldIn(ctx, spot, "visit.", s)
		if now.Figure != was && now.Figure != typed {
			faults[spot.Path] = answerFault{Typed: typed, Other: now.Figure, Problem: words.Say(ctx, "survey.elsewhere", now.Figure)}
			continue
		}
		full, problem := withUnit(ctx, typed, now)
		if problem == "" {
			if err := spot.Take(full); err != nil {
				problem = sentence(words.Of(ctx), err)
			}
		}
		if problem != "" {
			faults[spot.Path] = answerFault{Typed: typed, Problem: problem}
		}
	}
	for _, step := range p.House.Visit.section().Steps {
		if step.Line {
			takeLine(v, step, values)
		} else {
			takeStep(v, step.Name, values)
		}
	}
	return faults
}

func takeStep(v *attendance.Visit, step string, values url.Values) {
	i := slices.IndexFunc(v.Checks, func(c attendance.Check) bool { return c.Step == step })
	var c attendance.Check
	if i >= 0 {
		c = v.Checks[i]
	}
	before := c
	c.Step = step
	if done := values.Get(donePrefix + step); done != "" && done != values.Get(doneWasPrefix+step) && slices.Contains([]string{"yes", "no", "does not apply"}, done) {
		c.Done = done
	}
	if note, sent := values[notePrefix+step]; sent && note[0] != values.Get(noteWasPrefix+step) {
		c.Note = strings.TrimSpace(note[0])
		if c.Done == "" {
			c.Done = "no"
		}
	}
	switch {
	case c.Done == "" || c == before:
	case i >= 0:
		v.Checks[i] = c
	default:
		v.Checks = append(v.Checks, c)
	}
}

func takeLine(v *attendance.Visit, step visit.Step, values url.Values) {
	i := slices.IndexFunc(v.Entered, func(e attendance.Entered) bool { return e.Line == step.Name })
	var e attendance.Entered
	if i >= 0 {
		e = v.Entered[i]
	}
	before := e
	e.Line, e.Sheet = step.Name, step.Value
	if as := values.Get(linePrefix + step.Name); as != "" && as != values.Get(lineWasPrefix+step.Name) && slices.Contains([]string{"sheet", "otherwise", "not there"}, as) {
		e.As = as
	}
	if value, sent := values[valuePrefix+step.Name]; sent && value[0] != values.Get(valueWasPrefix+step.Name) {
		if e.Value = strings.TrimSpace(value[0]); e.Value != "" {
			e.As = "otherwise"
		}
	}
	if e.As != "otherwise" {
		e.Value = ""
	}
	switch {
	case e.As == "" || e == before || before.As == "" && e.As == "":
	case i >= 0:
		v.Entered[i] = e
	default:
		v.Entered = append(v.Entered, e)
	}
}

// doVisit changes the shape of a visit's document.
func doVisit(v *attendance.Visit, what string) error {
	verb, path, _ := strings.Cut(what, " ")
	spot, ok := job.WholeOf(v).Find(strings.TrimSuffix(path, lastEntry(path)))
	if !ok {
		return errors.New("that part of the visit is not there any more")
	}
	switch verb {
	case "make":
		return spot.Make()
	case "drop":
		return spot.Drop()
	case "add":
		fresh, err := spot.Another()
		if err != nil {
			return err
		}
		return spot.Arrange(append(spot.Within(), fresh))
	case "remove", "duplicate":
		n, err := strconv.Atoi(strings.Trim(lastEntry(path), "[]"))
		entries := spot.Within()
		if err != nil || n < 0 || n >= len(entries) {
			return errors.New("that entry is not there any more")
		}
		if verb == "remove" {
			return spot.Arrange(slices.Delete(entries, n, n+1))
		}
		return spot.Arrange(slices.Insert(entries, n+1, entries[n]))
	}
	return errors.New("the page asked for something that is not known")
}

// lastEntry is the number in brackets at the end of a path, with its brackets.
func lastEntry(path string) string {
	if i := strings.LastIndex(path, "["); i >= 0 && strings.HasSuffix(path, "]") {
		return path[i:]
	}
	return ""
}

// errSigned is why a signed visit is not changed.
var errSigned = errors.New("this visit is signed and stays as it is; begin a new one that corrects it")

// changeVisit saves a change to the newest state of a visit.
func (s *server) changeVisit(ctx context.Context, id string, alter func(v *attendance.Visit) error) error {
	return settle(func() error {
		entry, revision, err := s.kept(ctx, store.Visit, id)
		if err != nil {
			return err
		}
		v, err := job.DraftDocument[attendance.Visit](revision.Document, "visit")
		if v == nil {
			return err
		}
		if v.Sealed != "" {
			return errSigned
		}
		if err := alter(v); err != nil {
			return err
		}
		document, err := attendance.Write(v)
		if err != nil || string(document) == string(revision.Document) {
			return err
		}
		_, err = s.store.Save(ctx, id, entry.Revision, store.Change{Title: v.Date, About: v.By, Document: document, By: readerOf(ctx).by(), What: words.Say(ctx, "visit.saved")})
		return err
	})
}

// visitAnswers takes the answers of a section.
func (s *server) visitAnswers(w http.ResponseWriter, r *http.Request) {
	values, _, err := formOf(r)
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	ctx := r.Context()
	p, err := s.openVisit(r)
	if err != nil || p.Sheet == nil {
		s.trouble(w, r, cmpError(err, store.NotFound))
		return
	}
	system, _ := systemNamed(values.Get("units"))
	var faults map[string]answerFault
	var refused error
	alter := func(v *attendance.Visit) error {
		faults = p.takeVisit(ctx, v, values, system)
		if what := values.Get("do"); what != "" {
			refused = doVisit(v, what)
		}
		return nil
	}
	live := r.URL.Query().Get("live")
	if live == "try" {
		err = alter(p.House.Visit.Visit)
	} else if err = s.changeVisit(ctx, p.House.Visit.ID, alter); err == nil {
		p, err = s.openVisit(r)
	}
	if err == nil && p.Sheet == nil {
		err = store.NotFound
	}
	switch {
	case errors.Is(err, errSigned):
		s.write(w, r, http.StatusConflict, failed(err.Error(), s.framed(r)))
		return
	case err != nil:
		s.trouble(w, r, err)
		return
	}
	p.System = system
	p.judge(ctx)
	p.askVisit(ctx)
	p.House.Blocks = p.House.Visit.Blocks
	p.House.told(faults)
	p.FieldFaults = len(faults)
	if refused != nil {
		p.Trouble = refusal(ctx, refused.Error())
	}
	switch {
	case live != "":
		s.write(w, r, http.StatusOK, visitWork(p))
	case len(faults) > 0 || refused != nil:
		s.write(w, r, http.StatusUnprocessableEntity, inHouse(p, s.framed(r)))
	case values.Get("next") != "":
		http.Redirect(w, r, p.House.Visit.at(p.House, values.Get("next")), http.StatusSeeOther)
	default:
		http.Redirect(w, r, p.House.Visit.at(p.House, slug(p.House.Visit.section().Title)), http.StatusSeeOther)
	}
}

func cmpError(err, otherwise error) error {
	if err != nil {
		return err
	}
	return otherwise
}

// maxSignature bounds the picture of a signature.
const maxSignature = 200 << 10

// sign adds a signature, and seals the visit where that is wished.
func (s *server) sign(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	ctx := r.Context()
	p, err := s.openVisit(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	who, as := strings.TrimSpace(r.PostFormValue("who")), r.PostFormValue("as")
	file := ""
	if data, found := strings.CutPrefix(r.PostFormValue("picture"), "data:image/png;base64,"); found && who != "" {
		picture, err := base64.StdEncoding.DecodeString(data)
		if err == nil && len(picture) > 8 && len(picture) <= maxSignature && string(picture[1:4]) == "PNG" {
			file, err = s.store.PutFile(ctx, p.House.Visit.ID, store.File{Name: "signature.png", Type: "image/png", Data: picture})
		}
		if err != nil {
			s.trouble(w, r, fmt.Errorf("the signature could not be kept: %w", err))
			return
		}
	}
	_, revision, err := s.store.Read(ctx, p.House.ID)
	if err == nil {
		err = s.changeVisit(ctx, p.House.Visit.ID, func(v *attendance.Visit) error {
			if who != "" {
				v.Signatures = append(v.Signatures, attendance.Signature{Who: who, As: as, On: s.today(), File: file})
			}
			if r.PostFormValue("seal") == "" {
				return nil
			}
			sealed, err := v.Seal(s.config.Version, revision.Document)
			if err == nil {
				*v = sealed
			}
			return err
		})
	}
	if err != nil {
		s.notSigned(w, r, err)
		return
	}
	http.Redirect(w, r, p.House.Visit.at(p.House, "sign-off"), http.StatusSeeOther)
}

// notSigned says at the form why a visit was not signed or closed.
func (s *server) notSigned(w http.ResponseWriter, r *http.Request, why error) {
	ctx := r.Context()
	r.SetPathValue("section", "sign-off")
	p, err := s.openVisit(r)
	if err != nil || p.Sheet == nil || p.House.Visit.Sealed {
		s.write(w, r, http.StatusUnprocessableEntity, failed(why.Error(), s.framed(r)))
		return
	}
	a := p.House.Visit
	a.Signing = attendance.Signature{Who: strings.TrimSpace(r.PostFormValue("who")), As: r.PostFormValue("as")}
	if a.Signing.Who == "" && len(a.Visit.Signatures) == 0 {
		a.Unsigned = []string{words.Say(ctx, "visit.unsigned")}
	} else {
		a.Unsigned = []string{words.Say(ctx, "visit.notclosed")}
		for line := range strings.SplitSeq(why.Error(), "\n") {
			a.Unsigned = append(a.Unsigned, refusal(ctx, line))
		}
	}
	p.judge(ctx)
	p.askVisit(ctx)
	s.write(w, r, http.StatusUnprocessableEntity, inHouse(p, s.framed(r)))
}

// visitFile gives a visit as a document.
func (s *server) visitFile(w http.ResponseWriter, r *http.Request) {
	p, err := s.openVisit(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	document, err := attendance.Write(p.House.Visit.Visit)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name+" "+p.House.Visit.Visit.Date)+`.yaml"`)
	_, _ = w.Write(document)
}

// visitPicture gives a signature or a photograph.
func (s *server) visitPicture(w http.ResponseWriter, r *http.Request) {
	p, err := s.openVisit(withoutSection(r))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	file, err := s.beside(r.Context(), p.House.Visit.ID, r.PathValue("file"))
	if err != nil || !strings.HasPrefix(file.Type, "image/") {
		s.notFound(w, r)
		return
	}
	w.Header().Set("Content-Security-Policy", paperPolicy)
	w.Header().Set("Content-Type", file.Type)
	_, _ = w.Write(file.Data)
}

func withoutSection(r *http.Request) *http.Request {
	r.SetPathValue("section", "")
	return r
}

// verdictWords say whether a reading is right.
func verdictWords(ctx context.Context, v visit.Verdict) string {
	return words.Say(ctx, "verdict."+string(v))
}

// hold holds the records of water, pressure and balancing against the sheet.
func (a *attended) hold() {
	if a.Visit.Water != nil {
		if checked, err := a.House.JudgeWater(*a.Visit.Water); err == nil {
			a.Water = checked
		} else {
			a.Trouble = append(a.Trouble, capital(err.Error()))
		}
	}
	if t := a.Visit.Pressure; t != nil && t.Start.Set && t.End.Set {
		a.Tested = a.House.JudgePressureTest(*t)
	}
	a.Balanced = a.House.JudgeLoops(a.Visit.Loops)
}

// judgedRows are the readings with their verdicts, those that are wrong first.
func (a *attended) judgedRows() []visit.Judged {
	list := slices.Clone(a.Judged.Readings)
	rank := map[visit.Verdict]int{visit.Wrong: 0, visit.Doubtful: 1, visit.Right: 2}
	slices.SortStableFunc(list, func(x, y visit.Judged) int { return rank[x.Verdict] - rank[y.Verdict] })
	return list
}

// causes are those worth naming.
func (a *attended) causes() []visit.Cause {
	var list []visit.Cause
	for _, c := range a.Judged.Causes {
		if c.Fault != visit.Nothing && c.Share >= 0.02 && len(list) < 4 {
			list = append(list, c)
		}
	}
	return list
}

// count says how many steps of a section are answered.
func (a *attended) count(s visit.Section) string {
	done, all := a.progress(s)
	return fmt.Sprintf("%d/%d", done, all)
}

// orNothing prints a quantity, or says that there would be no such reading.
func (p *page) orNothing(ctx context.Context, q units.Quantity) string {
	if q == nil {
		return words.Say(ctx, "visit.noreading")
	}
	return p.quantity(q)
}

// verdict heads the judgement. It follows the readings: where some are off, though no fault
// is called for it, nobody is told that they fit.
func (a *attended) verdict(ctx context.Context) string {
	if !a.Judged.Sound {
		return words.Say(ctx, "visit.unsound")
	}
	switch off, _ := a.Judged.Again(); off {
	case visit.Wrong:
		return words.Say(ctx, "visit.wrong")
	case visit.Doubtful:
		return words.Say(ctx, "visit.doubtful")
	}
	return words.Say(ctx, "visit.sound")
}

// remeasure names what to measure again where no fault is called; empty where all is right.
func (a *attended) remeasure(ctx context.Context) string {
	_, again := a.Judged.Again()
	if !a.Judged.Sound || len(again) == 0 {
		return ""
	}
	var list []string
	for _, r := range again {
		list = append(list, words.Engine(ctx, r.String()))
	}
	return words.Say(ctx, "visit.remeasure", strings.Join(list, "; "))
}

// answered counts the steps of the whole walk.
func (a *attended) answered() (done, all int) {
	for _, s := range a.Sections {
		d, n := a.progress(s)
		done, all = done+d, all+n
	}
	return done, all
}

// answeredWords say how much of the walk is answered, beside the button that closes it.
func (a *attended) answeredWords(ctx context.Context) string {
	done, all := a.answered()
	said := words.Say(ctx, "visit.answered", done, all)
	if done == 0 {
		said += ". " + words.Say(ctx, "visit.answered.none")
	}
	return said
}

// visitSpoken says what the readings come to, for those who hear the page.
func (p *page) visitSpoken(ctx context.Context) string {
	a := p.House.Visit
	switch {
	case a.Judged == nil:
		return ""
	case a.Judged.Sound:
		return a.verdict(ctx)
	}
	said := a.verdict(ctx)
	for _, c := range a.causes() {
		return said + words.Of(ctx).Colon() + words.Engine(ctx, c.Name())
	}
	return said
}

// cautions are those of the expected readings, each once.
func (a *attended) cautions() []string {
	list := slices.Clone(a.Expected.Cautions)
	for _, item := range a.Expected.Items {
		if item.Caution != "" && !slices.Contains(list, item.Caution) {
			list = append(list, item.Caution)
		}
	}
	return list
}
