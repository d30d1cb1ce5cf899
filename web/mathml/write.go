package mathml

import (
	"html"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// writer writes nodes as MathML. With values it puts figures in place of symbols.
type writer struct {
	b      *strings.Builder
	values map[string][]string
	filled bool
}

// fits is how many letters wide a formula may be on the narrowest screen. A longer one is
// cut at its relations and terms, so that it can go on in the next line.
const fits = 30

// clause writes one relation, in as many pieces as its length asks for.
func (w *writer) clause(n *node) {
	pieces := [][]*node{{n}}
	if width(n) > fits && (n.form == relations || n.form == terms) {
		pieces = split(n)
	}
	for i, piece := range pieces {
		if i > 0 {
			w.b.WriteString(" ")
		}
		w.b.WriteString(`<math displaystyle="true"><mrow>`)
		w.all(piece)
		w.b.WriteString(`</mrow></math>`)
	}
}

// split parts a relation before each sign: a, = b, = c; and a side that is too long still
// before each of its terms.
func split(n *node) [][]*node {
	var pieces [][]*node
	var now []*node
	for _, kid := range n.kids {
		if kid.form == sign && len(now) > 0 {
			pieces, now = append(pieces, now), nil
		}
		if kid.form == terms && n.form == relations && width(kid) > fits {
			for _, part := range split(kid) {
				pieces = append(pieces, append(now, part...))
				now = nil
			}
			continue
		}
		now = append(now, kid)
	}
	if len(now) > 0 {
		pieces = append(pieces, now)
	}
	return pieces
}

// width is about how many letters wide a node is drawn.
func width(n *node) int {
	wide := func(kids []*node) int {
		sum := 0
		for _, k := range kids {
			sum += width(k)
		}
		return sum
	}
	switch n.form {
	case fraction:
		return max(width(n.kids[0]), width(n.kids[1])) + 1
	case fenced:
		return wide(n.kids) + 2
	case sign:
		return 2
	}
	return utf8.RuneCountInString(n.text) + wide(n.kids)
}

func (w *writer) element(name, text string) {
	w.b.WriteString("<" + name + ">" + html.EscapeString(text) + "</" + name + ">")
}

func (w *writer) all(kids []*node) {
	for _, k := range kids {
		w.node(k)
	}
}

func (w *writer) wrapped(name string, kids ...*node) {
	w.b.WriteString("<" + name + ">")
	for _, k := range kids {
		w.b.WriteString("<mrow>")
		w.node(k)
		w.b.WriteString("</mrow>")
	}
	w.b.WriteString("</" + name + ">")
}

// symbolic writes a node with its symbols, whatever their values.
func (w *writer) symbolic(n *node) {
	values := w.values
	w.values = nil
	w.node(n)
	w.values = values
}

func (w *writer) node(n *node) {
	if w.put(n) {
		return
	}
	switch n.form {
	case numeral:
		w.element("mn", n.text)
	case symbol:
		w.symbol(n.text)
	case words:
		w.element("mtext", strings.ReplaceAll(n.text, " ", "\u00a0"))
	case sign:
		w.element("mo", strings.ReplaceAll(n.text, "-", "−"))
	case row, terms, relations:
		w.all(n.kids)
	case product:
		w.product(n)
	case fenced:
		open, size := utf8.DecodeRuneInString(n.text)
		w.b.WriteString("<mrow>")
		w.element("mo", string(open))
		w.all(n.kids)
		w.element("mo", n.text[size:])
		w.b.WriteString("</mrow>")
	case call:
		w.symbolic(n.kids[0])
		w.element("mo", "\u2061") // applied to
		w.node(n.kids[1])
	case fraction:
		w.wrapped("mfrac", bare(n.kids[0]), bare(n.kids[1]))
	case raise:
		w.wrapped("msup", n.kids...)
	case square:
		w.wrapped("msqrt", n.kids...)
	case series:
		w.element("mo", strings.ReplaceAll(n.text, "Σ", "∑"))
		w.symbolic(n.kids[0])
	}
}

// product writes factors. What a sum or an integral runs over has no single value.
func (w *writer) product(n *node) {
	values := w.values
	for i, k := range n.kids {
		if i > 0 && k.form != sign && n.kids[i-1].form != sign {
			w.b.WriteString(`<mspace width="0.25em"></mspace>`)
		}
		w.node(k)
		if k.form == series {
			w.values = nil
		}
	}
	w.values = values
}

// longestSymbol bounds, in bytes, what a figure may be called.
const longestSymbol = 60

// put writes the figure of a symbol in its place, if there is exactly one; a sum over a
// symbol with several becomes their sum.
func (w *writer) put(n *node) bool {
	if w.values == nil || n.solved {
		return false
	}
	if n.form == series && n.text != "∫" {
		texts := w.values[n.kids[0].text]
		if n.kids[0].form != symbol || len(texts) < 2 || len(texts) > 8 {
			return false
		}
		w.b.WriteString("<mrow><mo>(</mo>")
		for i, t := range texts {
			if i > 0 {
				w.element("mo", "+")
			}
			w.figure(t)
		}
		w.b.WriteString("<mo>)</mo></mrow>")
		w.filled = true
		return true
	}
	if n.form != symbol && n.form != words && n.form != terms && n.form != product && n.form != fraction {
		return false
	}
	if n.to-n.from > longestSymbol {
		return false
	}
	texts := w.values[source(n)]
	if len(texts) != 1 {
		return false
	}
	w.figure(texts[0])
	w.filled = true
	return true
}

// source is a node as the figures' symbols would write it.
func source(n *node) string {
	if n.form == symbol || n.form == words {
		return n.text
	}
	var parts []string
	for _, k := range n.kids {
		parts = append(parts, source(k))
	}
	switch n.form {
	case fraction:
		return strings.Join(parts, "/")
	case product:
		return strings.Join(parts, "")
	case terms:
		return strings.Join(parts, " ")
	case sign, numeral:
		return n.text
	}
	return ""
}

var figures = regexp.MustCompile(`^[−+-]?[0-9](?:[0-9., \x{a0}\x{202f}]*[0-9])?`)

// figure writes a figure with its unit. One below zero gets brackets.
func (w *writer) figure(text string) {
	digits := figures.FindString(text)
	below := strings.HasPrefix(digits, "−") || strings.HasPrefix(digits, "-")
	w.b.WriteString("<mrow>")
	if below {
		w.element("mo", "(")
	}
	if digits != "" {
		w.element("mn", strings.ReplaceAll(digits, "-", "−"))
	}
	if rest := text[len(digits):]; rest != "" {
		w.element("mtext", strings.ReplaceAll(rest, " ", "\u00a0"))
	}
	if below {
		w.element("mo", ")")
	}
	w.b.WriteString("</mrow>")
}

// symbol writes a letter with its index: Ts, p0, θ_F,max, ΔT_log.
func (w *writer) symbol(text string) {
	letter, index := parts(text)
	if index == "" {
		w.element("mi", letter)
		return
	}
	w.b.WriteString("<msub>")
	w.element("mi", letter)
	kind := "mtext"
	if strings.Trim(index, "0123456789") == "" {
		kind = "mn"
	}
	w.element(kind, index)
	w.b.WriteString("</msub>")
}

// parts are a symbol's letter, with the Δ before it and the mark upon it, and its index.
func parts(text string) (letter, index string) {
	for i, r := range text {
		if r >= '₀' && r <= '₉' {
			return text[:i], string('0'+r-'₀') + text[i+utf8.RuneLen(r):]
		}
	}
	if head, tail, cut := strings.Cut(text, "_"); cut {
		return head, tail
	}
	end := 0
	for i, r := range text {
		if i > 0 && !unicode.Is(unicode.Mn, r) && text[:i] != "Δ" {
			break
		}
		end = i + utf8.RuneLen(r)
	}
	// Capitals together are one thing: UA, EDR, CO2.
	capitals := 0
	for capitals < len(text) && text[capitals] >= 'A' && text[capitals] <= 'Z' {
		capitals++
	}
	end = max(end, capitals)
	return text[:end], text[end:]
}
