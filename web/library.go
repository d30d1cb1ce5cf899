package web

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"curvewright/catalogue"
	"curvewright/changes"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// The library: constructions and emitters to choose from in a survey. What is usual comes
// with the program; what the installer adds from a data sheet is kept as documents in the
// words of a job, each with one entry in it, so that the survey's own form edits them.

// Names of the fields with which a survey takes an entry.
const (
	entryPrefix     = "lib."
	entrySizePrefix = "lib-size."
	ownPrefix       = "own " // of the ID of an entry of the installer's own
)

// Where the one entry of a kept document stands.
const (
	ownConstruction = "constructions[0]"
	ownEmitter      = "circuits[0].emitters[0]"
)

// constructionWord says of a kept document that it holds a construction; one with an
// emitter says of which kind.
const constructionWord = "construction"

// ownKinds are what can be added to the library.
var ownKinds = []string{constructionWord, "fin_tube", "cast_iron", "radiator", "towel_rail", "floor", "fan_coil"}

// ownKindLabel is what the pages call such a kind.
func ownKindLabel(ctx context.Context, kind string) string {
	if kind == constructionWord {
		return words.Label(ctx, "constructions[]")
	}
	return kindLabel(ctx, kind)
}

// systemOf are the units of a page that belongs to no job.
func systemOf(ctx context.Context) units.System {
	who := readerOf(ctx)
	if !who.Chosen && words.Of(ctx).Plain() != words.English {
		return who.System.On(units.SI)
	}
	return who.System
}

// entryName is what an entry is called, its figures in the reader's units.
func entryName(ctx context.Context, e catalogue.Entry, s units.System) string {
	if strings.HasPrefix(e.ID, ownPrefix) {
		return e.Kind
	}
	figures := slices.Clone(e.Figures)
	for i, f := range figures {
		if l, ok := f.(units.Length); ok {
			figures[i] = fmt.Sprintf("%.0f mm", float64(l)*1000)
			if s.In(units.Pipes) == units.US {
				figures[i] = fmt.Sprintf("%.0f in", float64(l)/float64(units.Inches(1)))
			}
		}
	}
	return words.Say(ctx, "library.entry."+e.Kind, figures...)
}

// entryFigure is the one figure by which an entry is judged.
func entryFigure(ctx context.Context, e catalogue.Entry, s units.System) string {
	text := ""
	switch {
	case e.Construction != nil:
		u, err := settings.Construction(*e.Construction)
		if err != nil {
			return ""
		}
		text = "U " + u.Text(s)
	case e.Emitter.FinTube != nil && e.Emitter.FinTube.Output.Set:
		text = e.Emitter.FinTube.Output.Value.Text(s)
	case e.Emitter.CastIron != nil:
		text = e.Emitter.CastIron.EDR.Value.Text(s)
		if e.Measure == catalogue.BySection {
			text = words.Say(ctx, "library.section", text)
		}
	case e.Emitter.Radiator != nil && e.Emitter.Radiator.PerLength.Set:
		text = e.Emitter.Radiator.PerLength.Value.Text(s)
	case e.Emitter.Radiator != nil && e.Emitter.Radiator.PerSection.Set:
		text = words.Say(ctx, "library.section", e.Emitter.Radiator.PerSection.Value.Text(s))
	case e.Emitter.Radiator != nil && e.Measure == catalogue.ByLength:
		text = units.LinearPower(e.Emitter.Radiator.Output.Value).Text(s)
	case e.Emitter.Radiator != nil && e.Emitter.Radiator.Output.Set:
		text = e.Emitter.Radiator.Output.Value.Text(s)
	case e.Emitter.TowelRail != nil:
		text = e.Emitter.TowelRail.Output.Value.Text(s)
	case e.Emitter.Floor != nil && e.Emitter.Floor.Spacing.Set:
		text = e.Emitter.Floor.Spacing.Value.Text(s)
	case e.Emitter.FanCoil != nil:
		text = e.Emitter.FanCoil.Output.Value.Text(s)
	}
	return words.Figure(ctx, text)
}

// offer is a heading with entries to choose from.
type offer struct {
	Title string
	Picks []pick
}

// offers are the constructions or the emitters to choose from: the installer's own first.
func (p *page) offers(ctx context.Context, constructions bool) []offer {
	var list []offer
	own := offer{Title: words.Say(ctx, "library.own")}
	for _, e := range p.House.Library {
		if (e.About == constructionWord) == constructions {
			own.Picks = append(own.Picks, pick{ownPrefix + e.ID, e.Title})
		}
	}
	if len(own.Picks) > 0 {
		list = append(list, own)
	}
	groups := catalogue.EmitterGroups
	if constructions {
		groups = catalogue.ConstructionGroups
	}
	all := catalogue.List()
	for _, g := range groups {
		o := offer{Title: words.Say(ctx, "library.group."+string(g))}
		for _, e := range all {
			if e.Group == g {
				o.Picks = append(o.Picks, pick{e.ID, entryName(ctx, e, p.System) + words.Of(ctx).Colon() + entryFigure(ctx, e, p.System)})
			}
		}
		list = append(list, o)
	}
	return list
}

// takes is the list into which the library's entries go beneath a list of the survey; empty
// where the library has nothing to give.
func (p *page) takes(b *block) string {
	if p.House.Kind != store.Job {
		return ""
	}
	switch b.Pattern {
	case "constructions", "rooms[].elements":
		return "constructions"
	case "rooms[].emitters":
		return b.Path
	case "circuits[].emitters":
		if len(p.job.Rooms) == 0 {
			return b.Path
		}
	}
	return ""
}

// keeps tells whether an entry of the survey can be kept in the library.
func (p *page) keeps(b *block) bool {
	return p.House.Kind == store.Job && slices.Contains([]string{"constructions[]", "rooms[].emitters[]", "circuits[].emitters[]"}, b.Pattern)
}

// fieldRefusal is why something was not done, at the field to put right.
type fieldRefusal struct{ Path, Problem string }

func (f *fieldRefusal) Error() string { return f.Problem }

// atFields puts a refusal at its field, if it has one.
func atFields(faults map[string]answerFault, refused error) (map[string]answerFault, error) {
	var at *fieldRefusal
	if !errors.As(refused, &at) {
		return faults, refused
	}
	if faults == nil {
		faults = map[string]answerFault{}
	}
	faults[at.Path] = answerFault{Problem: at.Problem}
	return faults, nil
}

// entryOf finds an entry, among the usual ones or the installer's own.
func (s *server) entryOf(ctx context.Context, id string) (catalogue.Entry, error) {
	kept, own := strings.CutPrefix(id, ownPrefix)
	if !own {
		if e, ok := catalogue.Find(id); ok {
			return e, nil
		}
		return catalogue.Entry{}, store.NotFound
	}
	_, revision, err := s.kept(ctx, store.Library, kept)
	if err != nil {
		return catalogue.Entry{}, err
	}
	j, err := job.Draft(revision.Document)
	if j == nil {
		return catalogue.Entry{}, err
	}
	return ownEntry(id, j), nil
}

// ownEntry is the entry that a kept document holds.
func ownEntry(id string, j *job.Job) catalogue.Entry {
	e := catalogue.Entry{ID: id, Kind: j.Name}
	switch {
	case len(j.Constructions) > 0:
		e.Construction = &j.Constructions[0]
	case len(j.Circuits) > 0 && len(j.Circuits[0].Emitters) > 0:
		e.Emitter = &j.Circuits[0].Emitters[0]
		e.Measure = catalogue.MeasureOf(*e.Emitter)
	}
	return e
}

var emitterList = regexp.MustCompile(`^(rooms|circuits)\[(\d{1,4})\]\.emitters$`)

// takeEntry brings an entry of the library into a list of the job.
func (s *server) takeEntry(ctx context.Context, j *job.Job, list string, values url.Values) error {
	id := values.Get(entryPrefix + list)
	if id == "" {
		return &fieldRefusal{entryPrefix + list, words.Say(ctx, "library.choose")}
	}
	e, err := s.entryOf(ctx, id)
	if err != nil {
		return err
	}
	system, _ := systemNamed(values.Get("units"))
	if list == "constructions" {
		if e.Construction == nil {
			return store.NotFound
		}
		return addConstruction(ctx, j, e, system)
	}
	at := emitterList.FindStringSubmatch(list)
	if at == nil || e.Emitter == nil {
		return store.NotFound
	}
	var into *[]job.Emitter
	i, _ := strconv.Atoi(at[2])
	switch {
	case at[1] == "rooms" && i < len(j.Rooms):
		into = &j.Rooms[i].Emitters
	case at[1] == "circuits" && i < len(j.Circuits):
		into = &j.Circuits[i].Emitters
	default:
		return errors.New("that part of the survey is not there any more")
	}
	size, problem := sizeOf(ctx, strings.TrimSpace(values.Get(entrySizePrefix+list)), e.Measure, system)
	if size == (catalogue.Size{}) && problem == "" && (!strings.HasPrefix(id, ownPrefix) || e.Emitter.Radiator != nil) {
		problem = map[catalogue.Measure]string{
			catalogue.ByLength: words.Say(ctx, "library.nolength"), catalogue.ByArea: words.Say(ctx, "library.noarea"), catalogue.BySection: words.Say(ctx, "library.nosections"),
		}[e.Measure]
	}
	if problem != "" {
		return &fieldRefusal{entrySizePrefix + list, problem}
	}
	if strings.HasPrefix(id, ownPrefix) && size == (catalogue.Size{}) {
		*into = append(*into, *e.Emitter) // as it is kept; what it lacks is asked for
	} else {
		made, err := e.Sized(size)
		if err != nil {
			return &fieldRefusal{entrySizePrefix + list, sentence(words.Of(ctx), err)}
		}
		*into = append(*into, made)
	}
	made := &(*into)[len(*into)-1]
	made.Name = entryName(ctx, e, system)
	if at[1] == "rooms" && len(j.Circuits) > 1 {
		made.Circuit = j.Circuits[0].Name
		if len(*into) > 1 && (*into)[0].Circuit != "" {
			made.Circuit = (*into)[0].Circuit
		}
	}
	return nil
}

// addConstruction adds one to those of the job, under a name of its own.
func addConstruction(ctx context.Context, j *job.Job, e catalogue.Entry, system units.System) error {
	c := *e.Construction
	c.Name = entryName(ctx, e, system)
	if !strings.HasPrefix(e.ID, ownPrefix) {
		c.Layers = slices.Clone(c.Layers)
		for i := range c.Layers {
			c.Layers[i].Material = words.Say(ctx, "library.material."+c.Layers[i].Material)
		}
	}
	named := func(name string) int {
		return slices.IndexFunc(j.Constructions, func(c job.Construction) bool { return strings.EqualFold(c.Name, name) })
	}
	name := c.Name
	for n := 2; named(c.Name) >= 0; n++ {
		if there := j.Constructions[named(c.Name)]; alike(there, c) {
			return &fieldRefusal{entryPrefix + "constructions", words.Say(ctx, "library.there", c.Name)}
		}
		c.Name = name + " " + strconv.Itoa(n)
	}
	j.Constructions = append(j.Constructions, c)
	return nil
}

// alike tells whether two constructions say the same.
func alike(a, b job.Construction) bool {
	one, err := job.WriteDocument(&a)
	other, err2 := job.WriteDocument(&b)
	return err == nil && err2 == nil && bytes.Equal(one, other)
}

// sizeOf reads how much there is of an emitter. A bare figure is meant in the reader's
// units.
func sizeOf(ctx context.Context, typed string, m catalogue.Measure, system units.System) (size catalogue.Size, problem string) {
	if typed == "" {
		return size, ""
	}
	_, unit := units.UnitFor(units.Length(1), system)
	if m == catalogue.ByArea {
		_, unit = units.UnitFor(units.Area(1), system)
	}
	full, problem := withUnit(ctx, typed, field{Quantity: true, Unit: unit})
	if problem != "" {
		return size, problem
	}
	var err error
	switch m {
	case catalogue.ByLength:
		size.Length, err = units.Parse[units.Length](full)
	case catalogue.ByArea:
		size.Area, err = units.Parse[units.Area](full)
	default:
		if size.Pieces, err = strconv.Atoi(typed); err != nil || size.Pieces < 1 || size.Pieces > 100 {
			return size, words.Say(ctx, "library.pieces", typed)
		}
	}
	if err != nil {
		return size, sentence(words.Of(ctx), err)
	}
	return size, ""
}

var entryPath = regexp.MustCompile(`^(constructions|rooms|circuits)\[(\d{1,4})\](?:\.emitters\[(\d{1,4})\])?$`)

// keepEntry keeps a construction or an emitter of a job in the library.
func (s *server) keepEntry(ctx context.Context, j *job.Job, path string) error {
	gone := errors.New("that part of the survey is not there any more")
	at := entryPath.FindStringSubmatch(path)
	if at == nil {
		return gone
	}
	i, _ := strconv.Atoi(at[2])
	k, err := strconv.Atoi(at[3])
	own := job.Clone(j)
	kept := &job.Job{Version: job.Version, Display: j.Display}
	emitters := func(list []job.Emitter) {
		if err == nil && k < len(list) {
			kept.Circuits = ownCircuit(list[k])
		}
	}
	switch {
	case at[1] == "constructions" && at[3] == "" && i < len(own.Constructions):
		kept.Constructions = own.Constructions[i : i+1]
	case at[1] == "rooms" && i < len(own.Rooms):
		emitters(own.Rooms[i].Emitters)
	case at[1] == "circuits" && i < len(own.Circuits):
		emitters(own.Circuits[i].Emitters)
	}
	if kept.Constructions == nil && kept.Circuits == nil {
		return gone
	}
	_, err = s.keepOwn(ctx, kept)
	return err
}

// ownCircuit holds an emitter in a kept document, without what belongs to one house only.
func ownCircuit(e job.Emitter) []job.Circuit {
	e.Circuit, e.Count, e.Carries = "", 0, job.Given[units.Fraction]{}
	if e.Radiator != nil && !e.Radiator.Output.Set { // how much there is of it belongs to the house
		bare := *e.Radiator
		bare.Length, bare.Sections = job.Given[units.Length]{}, 0
		e.Radiator = &bare
	}
	return []job.Circuit{{Name: libraryCircuit, Emitters: []job.Emitter{e}}}
}

// libraryCircuit is the name under which a kept document holds its emitter.
const libraryCircuit = "library"

// nameOwn calls a kept document as its entry is called.
func nameOwn(ctx context.Context, j *job.Job) {
	j.Name = ""
	if len(j.Constructions) > 0 {
		j.Name = j.Constructions[0].Name
	} else if len(j.Circuits) > 0 && len(j.Circuits[0].Emitters) > 0 {
		j.Name = j.Circuits[0].Emitters[0].Name
	}
	j.Name = cmp.Or(strings.TrimSpace(j.Name), words.Say(ctx, "library.unnamed"))
}

// aboutOwn says what a kept document holds.
func aboutOwn(j *job.Job) string {
	if len(j.Constructions) > 0 || len(j.Circuits) == 0 || len(j.Circuits[0].Emitters) == 0 {
		return constructionWord
	}
	switch e := j.Circuits[0].Emitters[0]; {
	case e.FinTube != nil:
		return "fin_tube"
	case e.CastIron != nil:
		return "cast_iron"
	case e.TowelRail != nil:
		return "towel_rail"
	case e.Floor != nil:
		return "floor"
	case e.FanCoil != nil:
		return "fan_coil"
	}
	return "radiator"
}

// keepOwn keeps an entry as a document of its own.
func (s *server) keepOwn(ctx context.Context, j *job.Job) (store.Entry, error) {
	nameOwn(ctx, j)
	document, err := job.Write(j)
	if err != nil {
		return store.Entry{}, err
	}
	return s.store.Create(ctx, store.Entry{Kind: store.Library, Title: j.Name, About: aboutOwn(j)}, document, readerOf(ctx).by(), words.Say(ctx, "history.begun"))
}

// ownEntries are those of the library, by name.
func (s *server) ownEntries(ctx context.Context, state store.State) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: store.Library, State: state, Sort: store.ByTitle, Limit: 500})
	return list, err
}

// libraryShown is what the library's page shows.
type libraryShown struct {
	Own, Trash []store.Entry
	System     units.System
}

// library lists the installer's own entries and the usual ones.
func (s *server) library(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	shown := libraryShown{System: systemOf(ctx)}
	var err error
	if shown.Own, err = s.ownEntries(ctx, store.Active); err == nil {
		shown.Trash, err = s.ownEntries(ctx, store.Trashed)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	s.write(w, r, http.StatusOK, libraryPage(shown, s.framed(r)))
}

// usual are the entries of a group.
func (l libraryShown) usual(g catalogue.Group) []catalogue.Entry {
	return slices.DeleteFunc(catalogue.List(), func(e catalogue.Entry) bool { return e.Group != g })
}

// groupsShown are all groups in their order.
func groupsShown() []catalogue.Group {
	return slices.Concat(catalogue.ConstructionGroups, catalogue.EmitterGroups)
}

// takeLibrary begins an entry, copies a usual one, or takes entries in from a file.
func (s *server) takeLibrary(w http.ResponseWriter, r *http.Request) {
	values, file, err := formOf(r)
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read, or its file is larger than 1 MB. Nothing was changed", s.framed(r)))
		return
	}
	ctx := r.Context()
	var fresh []*job.Job
	switch {
	case file != "":
		from, err := job.Draft([]byte(file))
		if from != nil {
			fresh = ownOf(from)
		}
		if len(fresh) == 0 {
			err = cmpError(err, errors.New(words.Say(ctx, "library.empty")))
			s.write(w, r, http.StatusUnprocessableEntity, refusedFile(err, s.framed(r)))
			return
		}
	case values.Get("copy") != "":
		e, ok := catalogue.Find(values.Get("copy"))
		if !ok {
			s.notFound(w, r)
			return
		}
		fresh = append(fresh, copied(ctx, e, systemOf(ctx)))
	default:
		j, err := begunOwn(values.Get("kind"), strings.TrimSpace(values.Get("name")), systemOf(ctx))
		if err != nil {
			s.trouble(w, r, err)
			return
		}
		fresh = append(fresh, j)
	}
	var entry store.Entry
	for _, j := range fresh {
		if entry, err = s.keepOwn(ctx, j); err != nil {
			s.trouble(w, r, err)
			return
		}
	}
	if len(fresh) == 1 {
		http.Redirect(w, r, "/library/"+entry.ID, http.StatusSeeOther)
		return
	}
	http.Redirect(w, r, "/library", http.StatusSeeOther)
}

// begunOwn is an entry of a kind with nothing said of it yet.
func begunOwn(kind, name string, system units.System) (*job.Job, error) {
	if !slices.Contains(ownKinds, kind) {
		return nil, store.NotFound
	}
	j := &job.Job{Version: job.Version, Display: system.String()}
	if kind == constructionWord {
		j.Constructions = []job.Construction{{Name: name, Facing: "wall"}}
		return j, nil
	}
	j.Circuits = ownCircuit(job.Emitter{Name: name})
	return j, changes.Add(j, ownEmitter+"."+kind)
}

// copied makes a usual entry one of the installer's own.
func copied(ctx context.Context, e catalogue.Entry, system units.System) *job.Job {
	j := &job.Job{Version: job.Version, Display: system.String()}
	if e.Construction != nil {
		_ = addConstruction(ctx, j, e, system) // an empty list has no name that is taken
		return j
	}
	made := *e.Emitter
	made.Name = entryName(ctx, e, system)
	j.Circuits = ownCircuit(made)
	return j
}

// mostOwn bounds how many entries a file may bring.
const mostOwn = 200

// ownOf makes a document of each construction and of each emitter of a file: one that the
// library gave, or a whole job, of whose rooms only named emitters count.
func ownOf(from *job.Job) []*job.Job {
	var list []*job.Job
	for _, c := range from.Constructions {
		list = append(list, &job.Job{Version: job.Version, Display: from.Display, Constructions: []job.Construction{c}})
	}
	emitter := func(e job.Emitter) {
		if e.Name == "" || e.Sized != nil {
			return
		}
		list = append(list, &job.Job{Version: job.Version, Display: from.Display, Circuits: ownCircuit(e)})
	}
	for _, k := range from.Circuits {
		for _, e := range k.Emitters {
			emitter(e)
		}
	}
	for _, r := range from.Rooms {
		for _, e := range r.Emitters {
			emitter(e)
		}
	}
	return list[:min(len(list), mostOwn)]
}

// ownPart is the page that asks for an entry.
func ownPart(j *job.Job) surveyPart {
	if len(j.Constructions) > 0 {
		return surveyPart{"library", []string{ownConstruction}}
	}
	return surveyPart{"library", []string{ownEmitter}}
}

// pruneOwn leaves out what belongs to one house only.
func (p *page) pruneOwn() { pruned(p.House.Blocks) }

// ofAHouse are the fields of an emitter that say where it is, or how much of it there is.
var ofAHouse = []string{".circuit", ".count", ".carries", ".radiator.length", ".radiator.sections"}

func pruned(blocks []*block) {
	for _, b := range blocks {
		b.Entry = false
		for _, list := range []*[]field{&b.Fields, &b.Seldom} {
			*list = slices.DeleteFunc(*list, func(f field) bool {
				rest, emitter := strings.CutPrefix(f.Path, ownEmitter)
				return emitter && slices.Contains(ofAHouse, rest)
			})
		}
		b.Kinds = slices.DeleteFunc(b.Kinds, func(k kind) bool { return strings.HasSuffix(k.Path, ".sized") })
		if b.Path == ownEmitter+".radiator" { // a data sheet says most of it
			b.Fields, b.Seldom = append(b.Fields, b.Seldom...), nil
		}
		pruned(b.Blocks)
	}
}

// ownPage shows the questions about one entry.
func (s *server) ownPage(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Library, r.PathValue("id"), "survey", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.ask(r.Context(), ownPart(p.job), -1)
	s.write(w, r, http.StatusOK, inHouse(p, s.framed(r)))
}

// describeOwn takes the answers.
func (s *server) describeOwn(w http.ResponseWriter, r *http.Request) {
	_, revision, err := s.kept(r.Context(), store.Library, r.PathValue("id"))
	var j *job.Job
	if err == nil {
		j, err = job.Draft(revision.Document)
	}
	if j == nil {
		s.trouble(w, r, err)
		return
	}
	s.answers(w, r, store.Library, ownPart(j))
}

// aHouse stands around an entry of the library, so that it can be checked as in a job.
const aHouse = `curvewright: 1
job: a house
site: {design_outdoor: -10 °C}
house: {floor_area: 120 m², era: 1946-1979}
circuits:
  - {name: library, emitters: [{sized: {like: fin-tube}}]}
`

// ownGaps are the things that an entry still lacks.
func ownGaps(ctx context.Context, j *job.Job) []gap {
	whole, err := job.Read([]byte(aHouse))
	if err != nil {
		return nil // it is read in the tests
	}
	whole.Display = j.Display
	prefix := ownEmitter
	if len(j.Constructions) > 0 {
		whole.Constructions, prefix = j.Constructions, ownConstruction
	} else if len(j.Circuits) > 0 {
		whole.Circuits[0].Emitters = j.Circuits[0].Emitters
	}
	return slices.DeleteFunc(gapsOf(ctx, whole), func(g gap) bool {
		// How much there is of it belongs to each house.
		size := slices.Contains([]string{ownEmitter + ".fin_tube.length", ownEmitter + ".floor.area", ownEmitter + ".radiator.length", ownEmitter + ".radiator.sections"}, g.Path)
		return !strings.HasPrefix(g.Path, prefix) || size
	})
}

// ownResult is the figure by which the page's entry is judged.
func (p *page) ownResult(ctx context.Context) string {
	e := ownEntry(ownPrefix, p.job)
	if e.Construction == nil && e.Emitter == nil {
		return ""
	}
	return entryFigure(ctx, e, p.System)
}

// ownFile gives one entry to be shared.
func (s *server) ownFile(w http.ResponseWriter, r *http.Request) {
	s.file(w, r, store.Library)
}

// libraryFile gives all own entries as one file.
func (s *server) libraryFile(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	list, err := s.ownEntries(ctx, store.Active)
	all := &job.Job{Version: job.Version, Name: words.Say(ctx, "library.title"), Circuits: []job.Circuit{{Name: libraryCircuit}}}
	for _, entry := range list {
		var e catalogue.Entry
		if e, err = s.entryOf(ctx, ownPrefix+entry.ID); err != nil {
			break
		}
		switch {
		case e.Construction != nil:
			all.Constructions = append(all.Constructions, *e.Construction)
		case e.Emitter != nil:
			all.Circuits[0].Emitters = append(all.Circuits[0].Emitters, *e.Emitter)
		}
	}
	if len(all.Circuits[0].Emitters) == 0 {
		all.Circuits = nil
	}
	var document []byte
	if err == nil {
		document, err = job.Write(all)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	sendDocument(w, "library", document)
}

func sendDocument(w http.ResponseWriter, name string, document []byte) {
	w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(name)+`.yaml"`)
	_, _ = bytes.NewReader(document).WriteTo(w) // a reader who went away is no fault of ours
}

// moveOwn copies an entry, puts it away, brings it back or erases it.
func (s *server) moveOwn(w http.ResponseWriter, r *http.Request) {
	s.move(w, r, store.Library, []string{"trash", "restore", "erase"}, "/library", func(j *job.Job, title string) (string, error) {
		name := words.Say(r.Context(), "jobs.copyof", title)
		if len(j.Constructions) > 0 {
			j.Constructions[0].Name = name
		} else if len(j.Circuits) > 0 && len(j.Circuits[0].Emitters) > 0 {
			j.Circuits[0].Emitters[0].Name = name
		}
		_, err := s.keepOwn(r.Context(), j)
		return "/library", err
	})
}

// wrong tells whether the answer of a field was refused.
func (h *house) wrong(name string) bool {
	_, wrong := h.Faults[name]
	return wrong
}

// noted ties a field to the remark beneath it.
func noted(wrong bool, remark string) templ.Attributes {
	a := templ.Attributes{"aria-describedby": remark}
	if wrong {
		a["aria-invalid"] = "true"
	}
	return a
}
