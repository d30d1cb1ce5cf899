package web

import (
	"context"
	"strconv"
	"strings"

	"curvewright/changes"
	"curvewright/job"
	"curvewright/web/words"
)

// A save keeps what it was said to do in the language of the person who saved. For a reader
// of another it is said again, by the wording it was put into.

// retellings are the wordings of saves with one figure or name in them.
var retellings = []string{"history.takenback", "history.restored", "history.copied", "follow.learned"}

// retold says in the reader's language what a save was said to do in any; before and after
// are the job around it, or nil where they are not at hand. What is in none of the wordings
// is not known.
func retold(ctx context.Context, what string, before, after *job.Job) (said string, known bool) {
	if before != nil && after != nil {
		if d := changes.Between(before, after); changes.Sentence(d) == what && words.Of(ctx).Plain() != words.English {
			return toldChanges(ctx, d, before, after), true
		}
	}
	for _, l := range words.Languages() {
		if what == l.Say("history.begun") {
			return words.Say(ctx, "history.begun"), true
		}
		for _, key := range retellings {
			inner, ok := filledIn(l.Say(key), what)
			if !ok {
				continue
			}
			switch key {
			case "history.takenback": // it went the other way
				if again, ok := retold(ctx, inner, after, before); ok {
					inner = again
				}
			case "history.restored":
				n, err := strconv.Atoi(inner)
				if err != nil {
					continue
				}
				return words.Say(ctx, key, n), true
			}
			return words.Say(ctx, key, inner), true
		}
	}
	return what, false
}

// filledIn is what stands in the one hole of a wording, if a text was made of it. Spaces
// that do not break count as others do.
func filledIn(wording, text string) (string, bool) {
	loose := strings.NewReplacer("\u00a0", " ", "\u202f", " ")
	before, after, _ := strings.Cut(loose.Replace(wording), "%")
	if after == "" {
		return "", false
	}
	rest, ok := strings.CutPrefix(loose.Replace(text), before)
	if !ok {
		return "", false
	}
	return strings.CutSuffix(rest, after[1:])
}
