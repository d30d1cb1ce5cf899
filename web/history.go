package web

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/store"
	"curvewright/web/words"
)

// What was changed, in the reader's language. The store keeps the sentence in which it was
// saved; where that is the English one that the changes themselves make, it is made anew
// from them.

// saved is a save as the history tells it. What one person types saves itself every few
// seconds; such revisions in a row are one save. The store keeps them all, so that two who
// type at the same time never overwrite each other, and each can be undone by itself.
type saved struct {
	store.Revision     // the last of them
	From           int // number of the first of them
}

// together is how far apart the first and the last revision of one save may lie.
const together = 5 * time.Minute

// joined makes one save of revisions that belong together; the newest are first. The oldest
// save may have begun before the revisions at hand.
func joined(revisions []store.Revision) []saved {
	var list []saved
	for i := 0; i < len(revisions); {
		last := revisions[i]
		k := i + 1
		for k < len(revisions) && last.Typed && revisions[k].Typed && revisions[k].By == last.By && last.When.Sub(revisions[k].When) <= together {
			k++
		}
		list = append(list, saved{last, revisions[k-1].Number})
		i = k
	}
	return list
}

// historyPart is how many revisions are read at once: what a page shows needs no more as a
// rule, however long a job has been worked on.
const historyPart = 60

// past reads the saves of a document below a revision, of about historyPart revisions. None
// of them is cut in two: revisions at hand are those below it, the newest first.
func (s *server) past(ctx context.Context, id string, revisions []store.Revision) ([]saved, error) {
	for {
		list := joined(revisions)
		switch {
		case len(list) == 0 || list[len(list)-1].From == 1:
			return list, nil
		case len(list) > 1:
			return list[:len(list)-1], nil // where the last begins is not known yet
		}
		older, err := s.store.History(ctx, id, revisions[len(revisions)-1].Number, historyPart)
		if err != nil {
			return nil, err
		}
		revisions = append(revisions, older...)
	}
}

// changed says what a save changed.
func (s *server) changed(ctx context.Context, id string, r saved) string {
	l := words.Of(ctx)
	said, known := retold(ctx, r.What, nil, nil)
	if one := r.From == r.Number; r.From < 2 || one && (r.What == "" || l.Plain() == words.English && !known) {
		return said
	}
	var jobs [2]*job.Job
	for i, number := range []int{r.From - 1, r.Number} {
		revision, err := s.store.ReadRevision(ctx, id, number)
		if err != nil {
			return said
		}
		if jobs[i], _ = job.Draft(revision.Document); jobs[i] == nil {
			return said
		}
	}
	differences := changes.Between(jobs[0], jobs[1])
	switch {
	case r.From < r.Number && len(differences) == 0:
		return words.Say(ctx, "history.nothing")
	case r.From == r.Number:
		said, _ := retold(ctx, r.What, jobs[0], jobs[1])
		return said
	case l.Plain() == words.English:
		return changes.Sentence(differences)
	}
	return toldChanges(ctx, differences, jobs[0], jobs[1])
}

// mostNamed is how many differences a sentence names, as in English.
const mostNamed = 3

func toldChanges(ctx context.Context, differences []changes.Difference, before, after *job.Job) string {
	var parts []string
	for i, d := range differences {
		if i == mostNamed {
			parts = append(parts, words.Say(ctx, "history.more", len(differences)-i))
			break
		}
		of := after
		if d.Sort == changes.Removed {
			of = before
		}
		name, was, is := spotWords(ctx, of, d.Path), valueWords(ctx, d.Was), valueWords(ctx, d.Is)
		switch {
		case d.Sort == changes.Added:
			parts = append(parts, words.Say(ctx, "history.added", name))
		case d.Sort == changes.Removed:
			parts = append(parts, words.Say(ctx, "history.removed", name))
		case d.Sort == changes.Moved:
			parts = append(parts, words.Say(ctx, "history.moved", name, d.Was, d.Is))
		case d.Sort == changes.Renamed:
			parts = append(parts, words.Say(ctx, "history.renamed", d.Was, d.Is))
		case d.Was == "":
			parts = append(parts, words.Say(ctx, "history.filled", name, is))
		case d.Is == "":
			parts = append(parts, words.Say(ctx, "history.emptied", name, was))
		default:
			parts = append(parts, name+" "+was+" → "+is)
		}
	}
	return capital(strings.Join(parts, words.Of(ctx).Semicolon()))
}

// spotWords is a place of a job in the words of the form: from the entry of a list inwards,
// by its name.
func spotWords(ctx context.Context, j *job.Job, path string) string {
	parts := strings.Split(path, ".")
	var said []string
	for i, part := range parts {
		at := strings.Join(parts[:i+1], ".")
		list, number, isEntry := strings.Cut(part, "[")
		switch {
		case isEntry:
			entry := words.Label(ctx, patternOf(at))
			if name, ok := job.At(j, at+".name"); ok && name.Text() != "" {
				entry += " “" + name.Text() + "”"
			} else if n, err := strconv.Atoi(strings.TrimSuffix(number, "]")); err == nil {
				entry += " " + strconv.Itoa(n+1)
			}
			said = append(said, entry)
		case i == len(parts)-1 || !slices.Contains([]string{"house", "site"}, list):
			said = append(said, words.Label(ctx, patternOf(at)))
		}
	}
	return strings.Join(said, " › ")
}

// valueWords is a value as it was written, or a word of the survey as the reader calls it.
func valueWords(ctx context.Context, value string) string {
	if figure, known, found := strings.Cut(value, " ("); found {
		return figure + " (" + words.Engine(ctx, strings.TrimSuffix(known, ")")) + ")"
	}
	return words.Choice(ctx, value)
}

// told are the saves of some revisions, each with what it changed in the reader's language.
func (s *server) told(ctx context.Context, id string, revisions []store.Revision) ([]saved, error) {
	list, err := s.past(ctx, id, revisions)
	for i := range list {
		list[i].What = s.changed(ctx, id, list[i])
	}
	return list, err
}

// history tells a part of a document's history: the saves below a revision, from the newest
// if none is named.
func (s *server) history(ctx context.Context, h *house, below string) error {
	number, _ := strconv.Atoi(below)
	revisions, err := s.store.History(ctx, h.ID, max(0, number), historyPart)
	if err != nil {
		return err
	}
	if h.Past, err = s.told(ctx, h.ID, revisions); err != nil {
		return err
	}
	if n := len(h.Past); n > 0 && h.Past[n-1].From > 1 {
		h.Older = h.Past[n-1].From
	}
	return nil
}

// single is a revision told by itself.
func single(r store.Revision) saved { return saved{r, r.Number} }
