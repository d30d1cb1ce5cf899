package words

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// The engine writes its sheet in English. Its sentences are put into the reader's
// language here, at the face, so that the engine knows nothing of languages: the sentence
// is recognised by the pattern that it was written after, its figures and names are taken
// out, and put into the pattern of the other language. What is not recognised stays in
// English; a test keeps the sheets of the examples complete.

// wording is a pattern in French, Spanish and German, beside the English by which it is
// found. Its holes are
//
//	%s  a figure, or words that are known here themselves
//	%v  a name that somebody gave, which stays as it is
//	%d  a bare number
//
// and where a language wants them in another order, %[2]s.
type wording [3]string

// Engine says a sentence of the engine in a language; in English, if it is not known.
func (l Language) Engine(text string) string {
	said, _ := l.Understand(text)
	return said
}

// Understand says a sentence of the engine in a language, and whether it is known. What is
// not comes back as it was.
func (l Language) Understand(text string) (said string, known bool) {
	if l == English || l == English|withPoint || strings.TrimSpace(text) == "" {
		return text, true
	}
	if one, more, several := strings.Cut(text, "\n"); several { // as errors that were joined
		said, known := l.Understand(one)
		rest, all := l.Understand(more)
		return said + "\n" + rest, known && all
	}
	if said, known := phrasebook().say(l, text, 0); known {
		return said, true
	}
	if bare, ended := strings.CutSuffix(text, "."); ended { // what usually stands within a sentence
		if said, known := phrasebook().say(l, bare, 0); known {
			return said + ".", true
		}
	}
	if l.Plain() == English {
		return l.figuresWithUnits(text), true
	}
	return text, false
}

// Writing says what is written in a drawing or on paper, where words may be tied together that
// the sentences of the engine part.
func (l Language) Writing(text string) string {
	said, known := l.Understand(text)
	if !known && strings.Contains(text, "\u00a0") {
		if loose, ok := l.Understand(strings.ReplaceAll(text, "\u00a0", " ")); ok {
			return loose
		}
	}
	if bare, broken := strings.CutSuffix(text, ","); !known && broken { // a line of several
		return l.Writing(bare) + ","
	}
	return said
}

// phrasebook is put in order once, when it is first opened.
var phrasebook = sync.OnceValue(func() *book {
	return newBook(engineCautions, engineRecords, engineHeadings, engineControl, enginePlant, engineDrive, engineTap, engineWater, engineValues,
		engineFindings, engineCures, engineFacts, engineSeldom, engineSeldomSteps, engineSteps, engineRanges, engineNotes, engineMeanings, engineRules, engineFaults, engineWeb, engineFollow, engineVisit, engineVisitMore, engineDrawn, enginePlayed, enginePrinted, engineVisited, engineFollowup, engineLogged, engineSeen, engineTroubles, engineRefused, engineUnits, engineSunned)
})

// deepest is how far phrases may lie within phrases.
const deepest = 4

func (b *book) say(l Language, text string, depth int) (string, bool) {
	if p, ok := b.exact[text]; ok {
		return p.with(l, nil), true
	}
	if isFigure(text) {
		return l.figures(text), true
	}
	if depth > deepest {
		return "", false
	}
	if said, ok := b.several(l, text, depth); ok {
		return said, true
	}
	for _, sign := range []string{"; ", ", ", " and ", " or "} {
		if strings.Contains(text, sign) {
			if said, ok := b.list(l, text, sign, depth); ok {
				return said, true
			}
		}
	}
	return b.placed(l, text, depth)
}

// one says a text that is one phrase. A text that begins a sentence may be a phrase that
// usually stands within one.
func (b *book) one(l Language, text string, depth int) (string, bool) {
	if said, ok := b.asItStands(l, text, depth); ok {
		return said, true
	}
	first, n := utf8.DecodeRuneInString(text)
	if !unicode.IsUpper(first) {
		return "", false
	}
	said, ok := b.asItStands(l, string(unicode.ToLower(first))+text[n:], depth)
	return capital(said), ok
}

func (b *book) asItStands(l Language, text string, depth int) (string, bool) {
	if p, ok := b.exact[text]; ok {
		return p.with(l, nil), true
	}
	if e, ok := choices[text]; ok { // a word of the survey that the engine passes on
		return e[l.Plain()], true
	}
	for _, p := range b.candidates(text) {
		var holes [8]string
		if b.fit(l, p, text[len(p.between[0]):], 0, holes[:], depth) {
			said := p.with(l, holes[:])
			if first, _ := utf8.DecodeRuneInString(text); unicode.IsUpper(first) {
				said = capital(said)
			}
			return said, true
		}
	}
	return "", false
}

// fit fills the holes of a phrase from the i-th on with what it finds between its words.
func (b *book) fit(l Language, p *phrase, text string, i int, holes []string, depth int) bool {
	if i == len(p.kinds) {
		return text == ""
	}
	after := p.between[i+1]
	if i == len(p.kinds)-1 { // the last hole reaches to what ends the phrase
		inside, ok := strings.CutSuffix(text, after)
		if !ok {
			return false
		}
		holes[i], ok = b.inside(l, p.kinds[i], inside, depth)
		return ok
	}
	for from := 0; ; {
		at := strings.Index(text[from:], after)
		if at < 0 {
			return false
		}
		at += from
		if said, ok := b.inside(l, p.kinds[i], text[:at], depth); ok {
			holes[i] = said
			if b.fit(l, p, text[at+len(after):], i+1, holes, depth) {
				return true
			}
		}
		from = at + max(1, len(after))
		if from > len(text) {
			return false
		}
	}
}

// longestName is longer than what anybody calls a room, a circuit or a wall.
const longestName = 600

// inside says what stands in a hole.
func (b *book) inside(l Language, kind byte, text string, depth int) (string, bool) {
	if text == "" || len(text) > longestName {
		return "", false
	}
	switch kind {
	case 'd':
		return l.figures(text), strings.Trim(text, "0123456789.,+−-") == ""
	case 'v':
		if strings.EqualFold(text, "the house") { // what the short way calls its only room
			return b.exact["the house"].with(l, nil), true
		}
		return l.figuresWithUnits(text), strings.TrimSpace(text) == text && len(text) <= longestName && !strings.Contains(text, "; ")
	}
	return b.say(l, text, depth+1)
}

// several says a text of one sentence or more, each for itself before it is taken together
// with those that follow: a name that stands in a sentence must not swallow the one before.
func (b *book) several(l Language, text string, depth int) (string, bool) {
	ends := sentenceEnds(text)
	var out []string
	for start, i := 0, 0; i < len(ends); {
		k := i
		for ; k < len(ends); k++ {
			if said, ok := b.one(l, strings.TrimSpace(text[start:ends[k]]), depth); ok {
				out = append(out, said)
				break
			}
		}
		if k == len(ends) {
			return "", false
		}
		start, i = ends[k], k+1
	}
	return strings.Join(out, " "), true
}

// sentenceEnds lists where the sentences of a text end: a full stop and a space, before a
// capital or a figure.
func sentenceEnds(text string) []int {
	var ends []int
	for i := 0; i+2 < len(text); i++ {
		if (text[i] != '.' && text[i] != '?' && text[i] != '!') || text[i+1] != ' ' {
			continue
		}
		if next, _ := utf8.DecodeRuneInString(text[i+2:]); unicode.IsUpper(next) || unicode.IsDigit(next) || next == '−' || next == '?' {
			ends = append(ends, i+1)
		}
	}
	return append(ends, len(text))
}

// list says a text whose parts are known each for itself.
func (b *book) list(l Language, text, sign string, depth int) (string, bool) {
	parts := strings.Split(text, sign)
	for i, part := range parts {
		said, ok := b.say(l, part, depth+1)
		if !ok {
			return "", false
		}
		parts[i] = said
	}
	switch {
	case sign == "; " && l.Plain() == French:
		sign = l.typeset(" ; ")
	case sign == " or ":
		sign = [...]string{" or ", " ou ", " o ", " oder "}[l.Plain()]
	case sign == " and ":
		sign = [...]string{" and ", " et ", " y ", " und "}[l.Plain()]
	}
	return strings.Join(parts, sign), true
}

func capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	if n == 0 || !unicode.IsLower(first) {
		return s
	}
	return string(unicode.ToUpper(first)) + s[n:]
}
