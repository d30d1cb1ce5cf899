package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// The list of jobs, and how one is begun.

// pageOfJobs is how many jobs a page of the list shows.
const pageOfJobs = 50

// list is what the list of jobs shows.
type list struct {
	Text    string
	State   store.State
	Sort    store.Order
	Offset  int
	Entries []store.Entry
	All     int
}

// address is that of the list from another place in it.
func (l list) address(offset int) string {
	v := url.Values{}
	if l.Text != "" {
		v.Set("text", l.Text)
	}
	if l.State != store.Active {
		v.Set("state", string(l.State))
	}
	if l.Sort != store.ByChanged {
		v.Set("sort", string(l.Sort))
	}
	if offset > 0 {
		v.Set("from", strconv.Itoa(offset))
	}
	if len(v) == 0 {
		return "/"
	}
	return "/?" + v.Encode()
}

func (s *server) listOf(r *http.Request) (list, error) {
	q := r.URL.Query()
	l := list{Text: strings.TrimSpace(q.Get("text")), State: store.Active, Sort: store.ByChanged}
	switch state := store.State(q.Get("state")); state {
	case store.Archived, store.Trashed:
		l.State = state
	}
	switch order := store.Order(q.Get("sort")); order {
	case store.ByTitle, store.ByCreated:
		l.Sort = order
	}
	if n, err := strconv.Atoi(q.Get("from")); err == nil && n > 0 && n < 1e6 {
		l.Offset = n
	}
	var err error
	l.Entries, l.All, err = s.store.List(r.Context(), store.Query{
		Kind: store.Job, State: l.State, Text: l.Text, Sort: l.Sort, Limit: pageOfJobs, Offset: l.Offset,
	})
	return l, err
}

// jobs shows the list; asked with live, only what the search changes.
func (s *server) jobs(w http.ResponseWriter, r *http.Request) {
	l, err := s.listOf(r)
	switch {
	case err != nil:
		s.trouble(w, r, err)
	case r.URL.Query().Get("live") != "":
		s.write(w, r, http.StatusOK, jobList(l))
	default:
		s.write(w, r, http.StatusOK, jobsPage(l, s.framed(r)))
	}
}

// verbs are what can be done with a job as a whole.
func verbs(state store.State) []string {
	switch state {
	case store.Archived:
		return []string{"restore", "duplicate", "trash"}
	case store.Trashed:
		return []string{"restore", "erase"}
	}
	return []string{"duplicate", "archive", "trash"}
}

// moment is a time in the reader's order of dates and on their clock.
func moment(ctx context.Context, t time.Time) string {
	t = t.Local()
	return day(ctx, t) + " " + clock(ctx, t)
}

// day is a date in the reader's order.
func day(ctx context.Context, t time.Time) string {
	order := readerOf(ctx).Dates
	if order == "" {
		order = map[words.Language]string{words.French: "dmy", words.Spanish: "dmy", words.German: "dmy"}[words.Of(ctx).Plain()]
	}
	switch order {
	case "dmy":
		if words.Of(ctx).Plain() == words.German {
			return t.Format("02.01.2006")
		}
		return t.Format("02/01/2006")
	case "mdy":
		return t.Format("01/02/2006")
	}
	return t.Format(time.DateOnly)
}

// shortDay is a day without its year.
func shortDay(ctx context.Context, t time.Time) string {
	whole := day(ctx, t)
	for _, year := range []string{t.Format("2006-"), t.Format("/2006"), t.Format("2006")} {
		whole = strings.Replace(whole, year, "", 1)
	}
	return whole
}

// dated writes a day of a document, 2026-11-25, in the reader's order.
func dated(ctx context.Context, iso string) string {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return day(ctx, t)
}

// clock is a time of day on the reader's clock.
func clock(ctx context.Context, t time.Time) string {
	if readerOf(ctx).Clock == "12" {
		return t.Format("3:04 pm")
	}
	return t.Format("15:04")
}

// newJob is the short form with what was typed into it.
type newJob struct {
	Fields []field
	Faults int
	System units.System
}

// Names of the short form's own questions; the others are fields of the document.
const (
	heatsField = "heats"
	alsoField  = "also"
	shapeField = "shape"
	scaleField = "control.scale"
)

// shortFields are the fields of the document that the short form asks for, in order.
var shortFields = []string{
	"job", "place", "site.design_outdoor", "house.floor_area", "house.era", "house.insulation", "house.glazing", "house.tightness",
	"boiler.output", "boiler.min_output", "hot_water.by",
}

// emitterWords are the kinds of emitter that can be chosen before anybody measured one.
var emitterWords = []string{"fin-tube", "cast-iron", "panel radiators", "heated slab", "fan coil"}

// questions are the short form for a job that is being begun.
func questions(ctx context.Context, j *job.Job, s units.System, values url.Values) newJob {
	n := newJob{System: s}
	choose := func(path, key string, words_ []string, usual string) field {
		f := field{Path: path, Label: words.Say(ctx, key), Help: words.Say(ctx, key+".help"), Figure: usual, Optional: path != heatsField && path != shapeField}
		if typed, sent := values[typedPrefix+path]; sent {
			f.Figure = typed[0]
		}
		for _, w := range words_ {
			f.Choices = append(f.Choices, pick{w, words.Choice(ctx, w)})
		}
		return f
	}
	for _, path := range shortFields {
		spot, ok := job.At(j, path)
		if !ok {
			continue
		}
		f := fieldAt(ctx, spot, s)
		f.Shown = ""
		// The unit beside the field follows the choice above it, without a round trip: a
		// figure is never read in another unit than the one it was typed beside.
		f.UnitIn = [2]string{fieldAt(ctx, spot, s.On(units.US)).Unit, fieldAt(ctx, spot, s.On(units.SI)).Unit}
		// In the survey these stand under the headings of boiler and hot water; here alone.
		switch path {
		case "boiler.output", "boiler.min_output", "hot_water.by":
			f.Label = words.Say(ctx, "new."+path)
		}
		switch path {
		case "site.design_outdoor", "house.floor_area":
			f.Optional = false
		}
		if typed, sent := values[typedPrefix+path]; sent {
			f.Figure = typed[0]
		}
		n.Fields = append(n.Fields, f)
		if path == "house.tightness" {
			n.Fields = append(n.Fields, choose(heatsField, "new.heats", emitterWords, ""), choose(alsoField, "new.also", emitterWords, ""))
		}
	}
	f := choose(shapeField, "new.shape", nil, shapes[0].id)
	for _, sh := range shapes {
		f.Choices = append(f.Choices, pick{sh.id, words.Say(ctx, "shape."+sh.id)})
	}
	n.Fields = append(n.Fields, f)
	return n
}

// short shows the short form.
func (s *server) short(w http.ResponseWriter, r *http.Request) {
	system := readerOf(r.Context()).System
	if chosen, ok := systemNamed(r.URL.Query().Get("units")); ok {
		system = chosen
	} else if !readerOf(r.Context()).Chosen && words.Of(r.Context()).Plain() != words.English {
		system = system.On(units.SI)
	}
	s.write(w, r, http.StatusOK, newPage(questions(r.Context(), &job.Job{}, system, nil), s.framed(r)))
}

// begin makes a job from the answers of the short form.
func (s *server) begin(w http.ResponseWriter, r *http.Request, values url.Values) {
	ctx := r.Context()
	system, _ := systemNamed(values.Get("units"))
	j := &job.Job{Version: job.Version, Display: system.String()}
	n := questions(ctx, j, system, values)
	wrong := map[string]string{}
	for _, f := range n.Fields {
		typed := strings.TrimSpace(f.Figure)
		if typed == "" {
			if !f.Optional {
				wrong[f.Path] = words.Say(ctx, "survey.needed")
			}
			continue
		}
		spot, ok := job.At(j, f.Path)
		if !ok {
			continue // a question of the form's own
		}
		full, problem := withUnit(ctx, typed, fieldAt(ctx, spot, system))
		if problem == "" {
			if err := changes.Set(j, f.Path, full); err != nil {
				problem = sentence(words.Of(ctx), err)
			}
		}
		if problem != "" {
			wrong[f.Path] = problem
		}
	}
	if j.Name == "" {
		j.Name = words.Say(ctx, "new.unnamed")
		if j.Place != "" {
			j.Name = words.Say(ctx, "new.named", j.Place)
		}
		delete(wrong, "job")
	}
	j.Circuits = circuitsFor(ctx, values.Get(typedPrefix+heatsField), values.Get(typedPrefix+alsoField))
	j.Boiler.Kind = "condensing"
	j.OutdoorSensor.Fitted = "yes"
	if err := shapeNamed(values.Get(typedPrefix+shapeField)).into(&j.Control, system); err != nil {
		wrong[shapeField] = words.Engine(ctx, capital(err.Error()))
	}
	if len(wrong) == 0 {
		for _, g := range gapsOf(ctx, j) {
			text := words.Engine(ctx, g.Problem)
			if g.Accept != "" {
				text += ". " + words.Say(ctx, "survey.accepted") + " " + words.Engine(ctx, g.Accept)
			}
			path := g.Path
			if !asked(n, path) {
				path = "job"
				text = g.Place + words.Of(ctx).Colon() + text
			}
			wrong[path] = capital(text)
		}
	}
	if len(wrong) > 0 {
		for i := range n.Fields {
			n.Fields[i].Fault = wrong[n.Fields[i].Path]
		}
		n.Faults = len(wrong)
		s.write(w, r, http.StatusUnprocessableEntity, newPage(n, s.framed(r)))
		return
	}
	s.keepNew(w, r, j, words.Say(ctx, "history.begun"))
}

func asked(n newJob, path string) bool {
	for _, f := range n.Fields {
		if f.Path == path {
			return true
		}
	}
	return false
}

// circuitsFor are the circuits of a house whose emitters nobody has measured: one, or
// two where part of it is heated in another way. A floor beside radiators is mixed down.
func circuitsFor(ctx context.Context, heats, also string) []job.Circuit {
	one := func(like string) job.Circuit {
		return job.Circuit{Name: words.Choice(ctx, like), Kind: "direct", Emitters: []job.Emitter{{Sized: &job.Sized{Like: like}}}}
	}
	if heats == "" {
		heats = emitterWords[0]
	}
	list := []job.Circuit{one(heats)}
	if also != "" && also != heats {
		list = append(list, one(also))
		for i := range list {
			half, _ := units.Parse[units.Fraction]("50 %")
			list[i].Share = job.Given[units.Fraction]{Value: half, Text: "50 %", Set: true}
			if list[i].Emitters[0].Sized.Like == "heated slab" {
				list[i].Kind = "mixed"
			}
		}
	}
	return list
}

// preferences shows and saves how the reader wants to read.
func (s *server) preferences(w http.ResponseWriter, r *http.Request) {
	p, _, err := s.preferred(r.Context())
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	_, _, unknown := p.system()
	s.write(w, r, http.StatusOK, preferencesPage(p, unknown, r.URL.Query().Has("saved"), s.framed(r)))
}

func (s *server) setPreferences(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	v := r.PostForm
	text := func(name string) string {
		t := strings.TrimSpace(v.Get(name))
		return t[:min(len(t), 120)]
	}
	p := preferences{
		Name: text("name"), Language: text("language"), Units: text("units"), Clock: text("clock"), Dates: text("dates"),
		Paper: text("paper"), Decimal: text("decimal"), Price: text("price"), Currency: text("currency"), Carbon: text("carbon"),
	}
	for _, k := range units.Kinds() {
		if unit := text(unitField(k)); unit != "" {
			if p.Quantities == nil {
				p.Quantities = map[string]string{}
			}
			p.Quantities[k.Word()] = unit
		}
	}
	if _, _, unknown := p.system(); len(unknown) > 0 {
		s.write(w, r, http.StatusUnprocessableEntity, failed(capital(unknown[0].Error()), s.framed(r)))
		return
	}
	for _, figure := range []string{p.Price, p.Carbon} {
		if figure == "" {
			continue
		}
		if x, err := strconv.ParseFloat(strings.Replace(figure, ",", ".", 1), 64); err != nil || !(x >= 0 && x < 1000) {
			s.write(w, r, http.StatusUnprocessableEntity, failed(fmt.Sprintf("%q is no price or factor; accepted: a figure such as 0.12", figure), s.framed(r)))
			return
		}
	}
	if err := s.keepPreferences(r.Context(), p); err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/preferences?saved", http.StatusSeeOther)
}

func languagePicks(context.Context) []pick {
	var list []pick
	for _, l := range words.Languages() {
		list = append(list, pick{l.Tag(), l.Name()})
	}
	return list
}

// knownWays are the ways of knowing a figure, the surest first.
var knownWays = []string{string(job.Measured), string(job.Drawings), string(job.Bills), string(job.Estimated)}

// open counts what a page of the survey still lacks.
func (h *house) open(part string) int {
	n := 0
	for _, g := range h.Gaps {
		if g.Part == part {
			n++
		}
	}
	return n
}

// capitals says how a telephone's keyboard begins.
func (f field) capitals() string {
	if f.Text {
		return "sentences"
	}
	return "off"
}
