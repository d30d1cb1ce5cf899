// Package words holds what the pages say, in each of the languages they speak. The
// four wordings of a message stand side by side, so that none can be forgotten, and
// a test finds messages that nobody says and those that are said but not here.
package words

import (
	"context"
	"fmt"
	"strings"
)

// Language is one that the pages speak, with the decimal sign of its reader.
type Language int

const (
	English Language = iota
	French
	Spanish
	German
)

// A language may be read with the decimal sign of others: these stand above its number.
const (
	withPoint Language = 4 << iota
	withComma
)

// Writes is the language with a decimal sign: point or comma; its own for any other word.
func (l Language) Writes(sign string) Language {
	l = l.Plain()
	switch sign {
	case "point":
		return l | withPoint
	case "comma":
		return l | withComma
	}
	return l
}

// Plain is the language without a decimal sign chosen: the one to compare.
func (l Language) Plain() Language { return l &^ (withPoint | withComma) }

// Comma tells whether a comma stands before the decimals.
func (l Language) Comma() bool {
	return l&withComma != 0 || l != English && l&withPoint == 0
}

// Languages lists them all, each under its own name.
func Languages() []Language { return []Language{English, French, Spanish, German} }

var (
	tags  = [...]string{"en", "fr", "es", "de"}
	names = [...]string{"English", "Français", "Español", "Deutsch"}
)

// Tag is the language for a browser: en, fr, es, de (BCP 47).
func (l Language) Tag() string { return tags[l.Plain()] }

// Name is what the language calls itself.
func (l Language) Name() string { return names[l.Plain()] }

// Tagged finds a language by its tag.
func Tagged(tag string) (Language, bool) {
	for i, t := range tags {
		if strings.EqualFold(t, tag) {
			return Language(i), true
		}
	}
	return English, false
}

// Wanted reads the languages that a browser says its reader prefers (RFC 9110,
// Accept-Language, whose order is taken as the preference) and gives the first that is
// spoken here.
func Wanted(header string) Language {
	for _, part := range strings.Split(header, ",") {
		tag, _, _ := strings.Cut(strings.TrimSpace(part), ";")
		tag, _, _ = strings.Cut(tag, "-")
		if l, ok := Tagged(tag); ok {
			return l
		}
	}
	return English
}

// entry is one message in every language, in their order. A message with one count
// holds its wording for one and for more, parted by " || ".
type entry [4]string

type languageKey struct{}

// In gives a context whose pages speak a language.
func In(ctx context.Context, l Language) context.Context {
	return context.WithValue(ctx, languageKey{}, l)
}

// Of is the language of a context.
func Of(ctx context.Context) Language {
	l, _ := ctx.Value(languageKey{}).(Language)
	return l
}

// Say is a message in the language of the context, with its figures put in.
func Say(ctx context.Context, key string, args ...any) string {
	return Of(ctx).Say(key, args...)
}

// Say is a message in a language. A key that is not known is given back, for the tests
// to find.
func (l Language) Say(key string, args ...any) string {
	e, ok := catalogue[key]
	if !ok {
		return key
	}
	text := l.typeset(e[l.Plain()])
	if len(args) == 0 {
		return text
	}
	return fmt.Sprintf(text, args...)
}

// Count is a message about a number of things: the wording for one or for more, with
// the number first among its figures.
func Count(ctx context.Context, key string, n int, args ...any) string {
	l := Of(ctx)
	e, ok := catalogue[key]
	if !ok {
		return key
	}
	one, more, _ := strings.Cut(l.typeset(e[l.Plain()]), " || ")
	text := more
	if n == 1 || (n == 0 && l.Plain() == French) { // French counts nothing in the singular (CLDR plural rules)
		text = one
	}
	return fmt.Sprintf(text, append([]any{n}, args...)...)
}

// catalogue is every message by its key.
var catalogue = gather(places, survey, rooms, visits, household, follow, decided, library, help, curveWords, answers, results, plantWords, yearWords, yearAskWords, records)

func gather(parts ...map[string]entry) map[string]entry {
	all := map[string]entry{}
	for _, part := range parts {
		for key, e := range part {
			if _, twice := all[key]; twice {
				panic("words: " + key + " is said twice")
			}
			all[key] = e
		}
	}
	return all
}

// Label is the name of a field of a job, by its pattern: rooms[].emitters[].count.
func Label(ctx context.Context, pattern string) string {
	if rest, ok := strings.CutPrefix(pattern, "visit."); ok {
		if e, known := visitFields[rest]; known {
			return e[Of(ctx).Plain()]
		}
		return rest
	}
	if f, ok := fields[pattern]; ok {
		return f.label[Of(ctx).Plain()]
	}
	return pattern
}

// Help is the sentence that explains a field; doc is what the document itself says of
// it, in English.
func Help(ctx context.Context, pattern, doc string) string {
	if l := Of(ctx).Plain(); l != English {
		if strings.HasPrefix(pattern, "visit.") {
			return l.Engine(doc)
		}
		if f, ok := fields[pattern]; ok && f.help[l-1] != "" {
			return l.typeset(f.help[l-1])
		}
	}
	return doc
}

// field is a field of the job: what it is called, and its explanation in the languages
// other than English, whose explanation the document carries.
type field struct {
	label entry
	help  [3]string
}

// Choice is a word that a field accepts, as the reader calls it.
func Choice(ctx context.Context, word string) string {
	if e, ok := choices[word]; ok {
		return e[Of(ctx).Plain()]
	}
	return Engine(ctx, word)
}

// Engine says a sentence of the engine in the language of the context.
func Engine(ctx context.Context, text string) string { return Of(ctx).Engine(text) }

// Given is a name that somebody gave, which stays as it is; what the short way calls its
// only room is said.
func Given(ctx context.Context, name string) string {
	if name == "the house" {
		return Engine(ctx, name)
	}
	return name
}

// Figure writes a number with the decimal sign and the thousands of the language. The
// reader takes those of all, so that nothing changes when the language does.
func Figure(ctx context.Context, figure string) string {
	return Of(ctx).figures(figure)
}
