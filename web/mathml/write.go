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
// cut at its relations, terms and factors, so that it can go on in the next line.
const fits = 28

// piece is what stands together in a line. What follows a sum or an integral within its
// product has no single value: it keeps its symbols.
type piece struct {
	nodes    []*node
	symbolic bool
}

// clause writes one relation, in as many pieces as its length asks for.
func (w *writer) clause(n *node) {
	for i, p := range w.packed(w.split(n, false)) {
		if i > 0 {
			w.b.WriteString(" ")
		}
		w.b.WriteString(`<math displaystyle="true"><mrow>`)
		for k, n := range p.nodes {
			if i > 0 && k == 0 && n.form == sign {
				// It stands between two pieces, though it is the first of its own.
				w.b.WriteString(`<mo form="infix">` + html.EscapeString(strings.ReplaceAll(n.text, "-", "−")) + `</mo>`)
				continue
			}
			if p.symbolic {
				w.symbolic(n)
			} else {
				w.node(n)
			}
		}
		w.b.WriteString(`</mrow></math>`)
	}
}

// split parts what is too long before each of its signs.
func (w *writer) split(n *node, symbolic bool) []piece {
	if w.width(n) <= fits || n.form != relations && n.form != terms && n.form != product {
		return []piece{{[]*node{n}, symbolic}}
	}
	var list []piece
	var before []*node // the sign that belongs to the next piece
	for _, k := range n.kids {
		if k.form == sign {
			before = append(before, k)
			continue
		}
		parts := w.split(k, symbolic)
		parts[0].nodes = append(before, parts[0].nodes...)
		before = nil
		list = append(list, parts...)
		symbolic = symbolic || n.form == product && k.form == series
	}
	return list
}

// packed puts pieces together again as far as a line holds them.
func (w *writer) packed(list []piece) []piece {
	out := list[:1]
	for _, p := range list[1:] {
		last := &out[len(out)-1]
		if last.symbolic == p.symbolic && w.widths(last.nodes)+w.widths(p.nodes) <= fits {
			last.nodes = append(last.nodes, p.nodes...)
			continue
		}
		out = append(out, p)
	}
	return out
}

func (w *writer) widths(list []*node) int {
	sum := 0
	for _, n := range list {
		sum += w.width(n)
	}
	return sum
}

// width is about how many letters wide a node is drawn.
func (w *writer) width(n *node) int {
	if texts := w.figuresOf(n); len(texts) > 0 {
		sum := 0
		for _, t := range texts {
			sum += utf8.RuneCountInString(t) + 1
		}
		return sum
	}
	switch n.form {
	case fraction:
		return max(w.width(n.kids[0]), w.width(n.kids[1])) + 1
	case fenced:
		return w.widths(n.kids) + 2
	case sign:
		return 2
	}
	return utf8.RuneCountInString(n.text) + w.widths(n.kids)
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

// put writes the figure of a symbol in its place; a sum over a symbol with several becomes
// their sum.
func (w *writer) put(n *node) bool {
	texts := w.figuresOf(n)
	switch len(texts) {
	case 0:
		return false
	case 1:
		w.figure(texts[0])
	default:
		w.b.WriteString("<mrow><mo>(</mo>")
		for i, t := range texts {
			if i > 0 {
				w.element("mo", "+")
			}
			w.figure(t)
		}
		w.b.WriteString("<mo>)</mo></mrow>")
	}
	w.filled = true
	return true
}

// figuresOf are the figures that take the place of a node: one for a symbol or for what
// is named like one, several for a sum over a symbol.
func (w *writer) figuresOf(n *node) []string {
	if w.values == nil || n.solved || n.to-n.from > longestSymbol {
		return nil
	}
	switch n.form {
	case series:
		over := n.kids[0]
		if texts := w.values[over.text]; n.text != "∫" && over.form == symbol && len(texts) > 1 && len(texts) <= 8 {
			return texts
		}
	case symbol, words, terms, product, fraction:
		if texts := w.values[source(n)]; len(texts) == 1 {
			return texts
		}
	}
	return nil
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
