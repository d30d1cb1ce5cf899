package words

import (
	"context"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Where in a document something is: house › setpoint, room 3 "Parlour" › emitter 1. The
// names of fields are said as the pages call them, and the names that somebody gave stay.

// Place is where in a document something is: the names of its parts, from the outer to the
// inner, each in the reader's words where it is one of ours.
func Place(ctx context.Context, place string) string {
	said, _ := phrasebook().where(Of(ctx), place, 0)
	return said
}

// entryShape is one entry of a list: room 3 "Parlour".
var entryShape = regexp.MustCompile(`^([a-z_]+) (\d+)(?: "(.*)")?$`)

// where says a place, and whether all of it is known.
func (b *book) where(l Language, place string, depth int) (string, bool) {
	parts, at, all := strings.Split(place, " › "), "", true
	named := false // an entry of a list follows, by its name
	for i, part := range parts {
		if m := entryShape.FindStringSubmatch(part); m != nil {
			if f, ok := fields[at+m[1]+"s[]"]; ok {
				at += m[1] + "s[]."
				parts[i] = l.typeset(f.label[l.Plain()]) + " " + m[2]
				if m[3] != "" {
					parts[i] += " " + l.quoted(m[3])
				}
				continue
			}
		}
		if f, ok := fields[at+part]; ok {
			parts[i] = l.typeset(f.label[l.Plain()])
			if _, named = fields[at+part+"[]"]; named {
				part += "[]"
			}
			at += part + "."
			continue
		}
		if e, ok := visitFields[at+part]; ok {
			at += part + "."
			parts[i] = e[l.Plain()]
			continue
		}
		if named {
			named = false
			continue
		}
		at += part + "."
		if said, ok := b.say(l, part, depth+1); ok {
			parts[i] = said
		} else {
			all = false
		}
	}
	return strings.Join(parts, " › "), all
}

// quoted puts a name into the quotation marks of the language.
func (l Language) quoted(name string) string {
	marks := [...][2]string{{"“", "”"}, {"« ", " »"}, {"«", "»"}, {"„", "“"}}[l.Plain()]
	return l.typeset(marks[0]) + name + l.typeset(marks[1])
}

// placed says a text that begins with where it is about, and a colon.
func (b *book) placed(l Language, text string, depth int) (string, bool) {
	for from := 0; ; {
		at := strings.Index(text[from:], ": ")
		if at < 0 {
			return "", false
		}
		at += from
		place, ok := b.where(l, text[:at], depth+1)
		if first, n := utf8.DecodeRuneInString(text); !ok && unicode.IsUpper(first) { // it begins a sentence
			place, ok = b.where(l, string(unicode.ToLower(first))+text[n:at], depth+1)
		}
		if ok {
			if said, ok := b.say(l, text[at+2:], depth+1); ok {
				return place + l.Colon() + said, true
			}
		}
		from = at + 2
	}
}
