package words

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
)

// The phrasebook finds the patterns that a sentence could be written after by the longest
// word of each, so that of a thousand patterns only a few are tried on it.

// phrase is one pattern, taken apart at its holes.
type phrase struct {
	between []string   // what stands before, between and after the holes
	kinds   []byte     // of the holes: s, v, d
	said    [4][]piece // by the language
	weight  int        // of its letters: the heavier pattern is the closer one
	rank    int        // by weight, in the whole book
}

// piece is a text, or a hole if its kind is not zero.
type piece struct {
	text string
	hole int // which
	kind byte
}

// book finds phrases.
type book struct {
	exact map[string]*phrase
	words map[string][]*phrase // by the longest word of each
	open  []*phrase            // those without a word of their own
}

func newBook(parts ...map[string]wording) *book {
	b := &book{exact: map[string]*phrase{}, words: map[string][]*phrase{}}
	var holed []*phrase
	for _, part := range parts {
		for english, w := range part {
			if p := takeApart(english, w); len(p.kinds) == 0 {
				b.exact[english] = p
			} else {
				holed = append(holed, p)
			}
		}
	}
	slices.SortFunc(holed, func(p, q *phrase) int {
		return cmp.Or(q.weight-p.weight, slices.Compare(p.between, q.between), bytes.Compare(p.kinds, q.kinds))
	})
	for rank, p := range holed {
		p.rank = rank
		if word := p.longestWord(); word != "" {
			b.words[word] = append(b.words[word], p)
		} else {
			b.open = append(b.open, p)
		}
	}
	return b
}

// takeApart cuts a pattern and its wordings at their holes.
func takeApart(english string, w wording) *phrase {
	p := &phrase{between: []string{""}}
	for _, c := range pieces(english) {
		if c.kind == 0 {
			p.between[len(p.between)-1] = c.text
			p.weight += len(c.text)
			continue
		}
		p.between, p.kinds = append(p.between, ""), append(p.kinds, c.kind)
	}
	p.said[English] = pieces(english)
	for i, text := range w {
		p.said[i+1] = pieces(Language(i + 1).typeset(text))
	}
	return p
}

// pieces cuts a wording at its holes, which may be numbered: %s, %[2]s.
func pieces(text string) []piece {
	var out []piece
	start, next := 0, 0
	for i := 0; i < len(text); {
		number, kind, length := hole(text[i:])
		if length == 0 {
			i++
			continue
		}
		if start < i {
			out = append(out, piece{text: text[start:i]})
		}
		if number > 0 {
			next = number - 1
		}
		out = append(out, piece{hole: next, kind: kind})
		next++
		i += length
		start = i
	}
	if start < len(text) {
		out = append(out, piece{text: text[start:]})
	}
	return out
}

// hole reads a hole at the beginning of a text: its number, if it says one, its kind, and
// how long it is. A percent sign is none.
func hole(text string) (number int, kind byte, length int) {
	rest, ok := strings.CutPrefix(text, "%")
	if !ok {
		return 0, 0, 0
	}
	if len(rest) > 3 && rest[0] == '[' && rest[2] == ']' {
		number, rest = int(rest[1]-'0'), rest[3:]
	}
	if rest == "" || !strings.ContainsRune("svd", rune(rest[0])) || len(rest) > 1 && 'a' <= rest[1] && rest[1] <= 'z' {
		return 0, 0, 0
	}
	return number, rest[0], len(text) - len(rest) + 1
}

// longestWord is the longest of the words that stand free in the pattern, so that they
// stand free in its sentences too.
func (p *phrase) longestWord() string {
	longest := ""
	for i, piece := range p.between {
		words := strings.Split(piece, " ")
		if i > 0 { // the first may be tied to what fills the hole before it
			words = words[1:]
		}
		if i < len(p.between)-1 && len(words) > 0 {
			words = words[:len(words)-1]
		}
		for _, w := range words {
			if len(w) > len(longest) {
				longest = w
			}
		}
	}
	return longest
}

// candidates are the phrases that a text could be written after, the heaviest first.
func (b *book) candidates(text string) []*phrase {
	var out []*phrase
	for word := range strings.SplitSeq(text, " ") {
		for _, p := range b.words[word] {
			if p.mayFit(text) {
				out = append(out, p)
			}
		}
	}
	for _, p := range b.open {
		if p.mayFit(text) {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(p, q *phrase) int { return p.rank - q.rank })
	return out
}

// mayFit sees at a glance that most phrases do not fit.
func (p *phrase) mayFit(text string) bool {
	return strings.HasPrefix(text, p.between[0]) && strings.HasSuffix(text, p.between[len(p.between)-1])
}

// with is the wording of a phrase with its holes filled.
func (p *phrase) with(l Language, holes []string) string {
	said := p.said[l.Plain()]
	if len(said) == 1 && said[0].kind == 0 {
		return said[0].text
	}
	var s strings.Builder
	for _, c := range said {
		if c.kind == 0 {
			s.WriteString(c.text)
		} else if c.hole < len(holes) {
			s.WriteString(holes[c.hole])
		}
	}
	return s.String()
}
