package web

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/store"
	"curvewright/web/words"
)

// What was changed, in the reader's language. The store keeps the sentence in which it was
// saved; where that is the English one that the changes themselves make, it is made anew
// from them.

// mostTold bounds how many revisions of a history are told anew; those before stay as they
// were written.
const mostTold = 60

// changed says what a revision changed.
func (s *server) changed(ctx context.Context, id string, r store.Revision) string {
	l := words.Of(ctx)
	for _, other := range words.Languages() {
		if r.What == other.Say("history.begun") {
			return l.Say("history.begun")
		}
	}
	if l == words.English || r.Number < 2 || r.What == "" {
		return r.What
	}
	var jobs [2]*job.Job
	for i := range jobs {
		revision, err := s.store.ReadRevision(ctx, id, r.Number-1+i)
		if err != nil {
			return r.What
		}
		if jobs[i], _ = job.Draft(revision.Document); jobs[i] == nil {
			return r.What
		}
	}
	differences := changes.Between(jobs[0], jobs[1])
	if changes.Sentence(differences) != r.What {
		return r.What
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
	return capital(strings.Join(parts, "; "))
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
