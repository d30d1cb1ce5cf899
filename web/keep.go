package web

import (
	"context"
	"errors"
	"net/url"
	"regexp"
	"slices"
	"strings"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// Answers go into the job field by field: what a person changed is compared with what
// the page had shown, so that two people, or two tabs, who answer different questions
// of one job never overwrite each other. Where both changed the same one, the later
// answer waits for a decision.

// More names of the form.
const (
	knownPrefix    = "k." // how a field is known
	knownWasPrefix = "x." // what the page had put there
)

// answerFault is what is wrong with one answer.
type answerFault struct {
	Typed   string
	Problem string
	Other   string // what somebody else answered meanwhile
}

// taken is a job with answers put into it.
type taken struct {
	job     *job.Job
	faults  map[string]answerFault
	changed bool
}

// take puts the answers of a form into a job. Answers that cannot be read stay out, and
// are told.
func take(ctx context.Context, j *job.Job, values url.Values, s units.System) taken {
	t := taken{job: j, faults: map[string]answerFault{}}
	grow(j, values)
	for _, spot := range job.Spots(j) {
		text, sent := values[typedPrefix+spot.Path]
		if sent {
			t.answer(ctx, spot.Path, strings.TrimSpace(strings.ReplaceAll(text[0], "\r\n", "\n")), values.Get(shownPrefix+spot.Path), s)
		}
		if known, sent := values[knownPrefix+spot.Path]; sent && known[0] != values.Get(knownWasPrefix+spot.Path) {
			if now, ok := job.At(t.job, spot.Path); ok && now.Text() != "" && now.Say(job.Known(known[0])) == nil {
				t.changed = true
			}
		}
	}
	t.emitters(ctx, values, s)
	return t
}

// answer puts one text into its place.
func (t *taken) answer(ctx context.Context, path, typed, was string, s units.System) {
	if typed == was {
		return
	}
	spot, there := job.At(t.job, path)
	if !there {
		return // its group went away meanwhile
	}
	now := fieldAt(ctx, spot, s)
	switch {
	case typed == now.Figure:
		return // somebody else gave the same answer
	case now.Figure != was:
		t.faults[path] = answerFault{Typed: typed, Other: now.Figure, Problem: words.Say(ctx, "survey.elsewhere", now.Figure)}
		return
	}
	full, problem := withUnit(ctx, typed, now)
	if problem == "" {
		if err := changes.Set(t.job, path, full); err != nil {
			problem = sentence(words.Of(ctx), err)
		}
	}
	if problem != "" {
		t.faults[path] = answerFault{Typed: typed, Problem: problem}
		return
	}
	t.changed = true
}

// spacedThousands are parted by spaces, as most languages do.
var spacedThousands = regexp.MustCompile(`^[-−+]?[0-9]{1,3}([ \x{a0}\x{202f}][0-9]{3})+([.,][0-9]+)?$`)

var thousands = regexp.MustCompile(`^[-−+]?[0-9]{1,3}(\.[0-9]{3})+$`)

// withUnit is a typed figure with the unit in which the field asks for it, and with the
// decimal sign of the reader's language read as one.
func withUnit(ctx context.Context, typed string, f field) (full, problem string) {
	if !f.Quantity || typed == "" {
		return typed, ""
	}
	if spacedThousands.MatchString(typed) {
		typed = strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "").Replace(typed)
	}
	if words.Of(ctx).Comma() {
		if thousands.MatchString(typed) {
			plain := strings.ReplaceAll(typed, ".", "")
			return "", words.Say(ctx, "survey.ambiguous", typed, plain, strings.Replace(typed, ".", ",", 1))
		}
		if strings.Count(typed, ",") == 1 {
			typed = strings.Replace(typed, ",", ".", 1)
		}
	}
	if !bareFigure.MatchString(typed) {
		return typed, ""
	}
	full = f.Before + typed
	if f.Unit != "" {
		full += " " + f.Unit
	}
	return full, ""
}

// nameTheCircuit says which circuit feeds the emitters of the rooms, before there is more than
// one and nobody can tell any more.
func nameTheCircuit(j *job.Job) {
	if len(j.Circuits) != 1 {
		return
	}
	for r := range j.Rooms {
		for e := range j.Rooms[r].Emitters {
			if k := &j.Rooms[r].Emitters[e].Circuit; *k == "" {
				*k = j.Circuits[0].Name
			}
		}
	}
}

// do changes the shape of the document: an entry more or less, another kind of thing.
func do(j *job.Job, what string) error {
	verb, path, _ := strings.Cut(what, " ")
	switch verb {
	case "share":
		return shareLoad(j)
	case "add":
		if path == "circuits" {
			nameTheCircuit(j)
		}
		return changes.Add(j, path)
	case "remove":
		return changes.Remove(j, path)
	case "duplicate":
		return changes.Duplicate(j, path)
	case "make", "drop":
		spot, ok := job.At(j, path)
		if !ok {
			return errors.New("that part of the survey is not there any more")
		}
		if verb == "drop" {
			return spot.Drop()
		}
		return spot.Make()
	}
	return errors.New("the page asked for something that is not known")
}

// attempts bounds how often a save begins again because somebody else saved meanwhile.
const attempts = 5

// settle saves, and begins again where somebody else saved at the same moment.
func settle(save func() error) error {
	for range attempts {
		err := save()
		var conflict *store.Conflict
		if !errors.As(err, &conflict) {
			return err
		}
	}
	return store.Busy
}

// kept reads a document of a kind. One of another kind is not here: the address of a job
// must not lead to a visit, which once signed no longer changes.
func (s *server) kept(ctx context.Context, kind store.Kind, id string) (store.Entry, store.Revision, error) {
	entry, revision, err := s.store.Read(ctx, id)
	if err == nil && entry.Kind != kind {
		err = store.NotFound
	}
	if err != nil {
		return store.Entry{}, store.Revision{}, err
	}
	return entry, revision, nil
}

// change reads the newest job, lets it be changed, and saves it as one more revision.
// If somebody saves at the same moment, it begins again from what they saved. What saves
// itself while somebody types is marked so.
func (s *server) change(ctx context.Context, kind store.Kind, id string, typed bool, alter func(*job.Job) (what string, err error)) (entry store.Entry, after *job.Job, err error) {
	err = settle(func() error {
		var revision store.Revision
		if entry, revision, err = s.kept(ctx, kind, id); err != nil {
			return err
		}
		before, _ := job.Draft(revision.Document)
		if after, err = job.Draft(revision.Document); after == nil {
			return err
		}
		what, err := alter(after)
		if err != nil {
			return err
		}
		differences := changes.Between(before, after)
		if len(differences) == 0 {
			return nil
		}
		if what == "" {
			what = changes.Sentence(differences)
		}
		entry, err = s.keep(ctx, entry, after, store.Change{What: what, Typed: typed})
		return err
	})
	return entry, after, err
}

// save writes a job as the next revision.
func (s *server) save(ctx context.Context, entry store.Entry, j *job.Job, what string, undoes int) (store.Entry, error) {
	return s.keep(ctx, entry, j, store.Change{What: what, Undoes: undoes})
}

// keep writes a job as the next revision, which a change says more of.
func (s *server) keep(ctx context.Context, entry store.Entry, j *job.Job, c store.Change) (store.Entry, error) {
	document, err := job.Write(j)
	if err != nil {
		return entry, err
	}
	about := inALine(j)
	if entry.Kind == store.Library {
		about = aboutOwn(j)
	}
	c.Title, c.About, c.Document, c.By = j.Name, about, document, readerOf(ctx).by()
	return s.store.Save(ctx, entry.ID, entry.Revision, c)
}

// inALine is a job in a line, for the list.
func inALine(j *job.Job) string {
	var parts []string
	if j.Place != "" {
		parts = append(parts, j.Place)
	}
	for _, c := range j.Circuits {
		if c.Name != "" && len(parts) < 5 {
			parts = append(parts, c.Name)
		}
	}
	return strings.Join(parts, " · ")
}

// step says which revision an undo takes back, or a redo brings again: those of the
// history that were undone are left out, like a stack. More is wanted where the history at
// hand does not go back far enough to say so.
func step(history []store.Revision, redo bool) (found store.Revision, ok, more bool) {
	if len(history) == 0 {
		return store.Revision{}, false, false
	}
	oldest := history[len(history)-1].Number
	var done, undone []store.Revision
	for _, r := range slices.Backward(history) { // oldest first
		switch {
		case r.Undoes == 0:
			done, undone = append(done, r), nil
		case r.Undoes < oldest:
			return store.Revision{}, false, true
		case len(done) > 0 && done[len(done)-1].Number == r.Undoes:
			done, undone = done[:len(done)-1], append(undone, r)
		case len(undone) > 0 && undone[len(undone)-1].Number == r.Undoes:
			done, undone = append(done, r), undone[:len(undone)-1]
		default:
			done, undone = append(done, r), nil
		}
	}
	if redo {
		if len(undone) == 0 {
			return store.Revision{}, false, false
		}
		return undone[len(undone)-1], true, false
	}
	if len(done) == 0 || done[len(done)-1].Number == 1 {
		return store.Revision{}, false, oldest > 1 // the first revision is how it came to be
	}
	return done[len(done)-1], true, false
}

// stepOf reads as much of the history as it takes to find a step.
func (s *server) stepOf(ctx context.Context, id string, history []store.Revision, redo bool) (found store.Revision, ok bool, err error) {
	for {
		found, ok, more := step(history, redo)
		if !more {
			return found, ok, nil
		}
		older, err := s.store.History(ctx, id, history[len(history)-1].Number, len(history))
		if err != nil || len(older) == 0 {
			return store.Revision{}, false, err
		}
		history = append(slices.Clip(history), older...)
	}
}

// takeBack undoes the newest change that stands, or brings the newest undone one again,
// without touching what was changed elsewhere since.
func (s *server) takeBack(ctx context.Context, kind store.Kind, id string, redo bool) error {
	return settle(func() error {
		entry, revision, err := s.kept(ctx, kind, id)
		if err != nil {
			return err
		}
		history, err := s.store.History(ctx, id, 0, historyPart)
		if err != nil {
			return err
		}
		target, ok, err := s.stepOf(ctx, id, history, redo)
		if err != nil || !ok {
			return err
		}
		return s.undo(ctx, entry, revision, target)
	})
}

func (s *server) undo(ctx context.Context, entry store.Entry, newest, target store.Revision) error {
	after, err := s.store.ReadRevision(ctx, entry.ID, target.Number)
	if err != nil {
		return err
	}
	before, err := s.store.ReadRevision(ctx, entry.ID, target.Number-1)
	if err != nil {
		return err
	}
	var jobs [3]*job.Job
	for i, document := range [][]byte{newest.Document, before.Document, after.Document} {
		j, err := job.Draft(document)
		if j == nil {
			return err
		}
		jobs[i] = j
	}
	back, _ := changes.Undo(jobs[0], jobs[1], jobs[2])
	what := words.Say(ctx, "history.takenback", target.What)
	_, err = s.save(ctx, entry, back, what, target.Number)
	return err
}
