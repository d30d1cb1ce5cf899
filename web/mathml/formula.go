// Package mathml turns the formulas of a working, which are plain text, into MathML, and
// again with the figures in place of the symbols. A text that is no formula, or that it
// cannot read, it leaves alone: the page then shows the text as it is.
//
// The formulas are written as an engineer types them: "Q = H · (Ti − To)", "Ts = Ti +
// ΔT^(1/n)", "η = Σheat / Σ(heat/η)". A name that is one letter and one more (Ts, p0) is a
// symbol with its index, as is one with an underscore (T_tank); longer names are words and
// stay upright. Between formulas, parted by comma, colon or semicolon, there may be prose.
package mathml

import (
	"html"
	"strings"
	"unicode/utf8"
)

// Value is a figure of the formula, as it is to be written.
type Value struct{ Symbol, Text string }

// Formula is a text that has been read.
type Formula struct {
	clauses []clause
	values  map[string][]string
}

// clause is a part of the text between its separators: prose, or a relation with the prose
// before it and the separator after it.
type clause struct {
	prose string
	math  *node
	after string
}

// longest bounds what is read: no formula of a working comes near it.
const longest = 2000

// Read reads a formula. It says no to a text without any operator, and to one whose
// operators lack what they act on.
func Read(text string, values []Value) (Formula, bool) {
	f := Formula{values: map[string][]string{}}
	for _, v := range values {
		name := plain(v.Symbol)
		f.values[name] = append(f.values[name], v.Text)
	}
	if len(text) > longest || !utf8.ValidString(text) {
		return f, false
	}
	tokens, ok := lex(text)
	if !ok {
		return f, false
	}
	some := false
	for len(tokens) > 0 {
		end, depth := 0, 0
		for end < len(tokens) && (depth > 0 || tokens[end].kind != separator) {
			switch tokens[end].kind {
			case opens:
				depth++
			case closes:
				depth--
			}
			end++
		}
		c, ok := f.clause(text, tokens[:end])
		if !ok {
			return f, false
		}
		if end < len(tokens) {
			c.after = tokens[end].text
			end++
		}
		some = some || c.math != nil
		f.clauses = append(f.clauses, c)
		tokens = tokens[end:]
	}
	return f, some
}

// clause reads one part of the text. Without an operator it is prose; words before a
// symbol are prose as well.
func (f Formula) clause(text string, tokens []token) (clause, bool) {
	if len(tokens) == 0 {
		return clause{}, true
	}
	from, to := tokens[0].from, tokens[len(tokens)-1].to
	acts := false
	for _, t := range tokens {
		acts = acts || t.kind == relation || t.kind == operator || t.kind == large || t.kind == root
	}
	if !acts {
		return clause{prose: text[from:to]}, true
	}
	p := parser{text: text, tokens: tokens, known: f.values}
	lead := 0
	for lead < len(tokens) && tokens[lead].kind == name && !p.symbol(lead) {
		lead++
	}
	c := clause{}
	if lead > 0 && lead < len(tokens) && tokens[lead].kind != operator && tokens[lead].kind != relation && tokens[lead].kind != opens {
		c.prose = text[from:tokens[lead].from]
		p.at = lead
	}
	if c.math = p.chain(0); c.math == nil || p.at < len(tokens) {
		return c, false
	}
	// What a formula is solved for keeps its symbol.
	if first := c.math; first.form == relations {
		first.kids[0].solved = first.kids[0].form == symbol || first.kids[0].form == words
	}
	return c, true
}

// Markup is the formula in MathML, with its prose between.
func (f Formula) Markup() string {
	var b strings.Builder
	w := writer{b: &b}
	for _, c := range f.clauses {
		b.WriteString(html.EscapeString(c.prose))
		if c.math != nil {
			w.clause(c.math)
		}
		if c.after != "" {
			b.WriteString(html.EscapeString(c.after) + " ")
		}
	}
	return strings.TrimSpace(b.String())
}

// Filled is the formula with the figures in place of its symbols. Clauses into which none
// goes are left out; nothing at all is an empty text.
func (f Formula) Filled() string {
	var all []string
	for _, c := range f.clauses {
		if c.math == nil {
			continue
		}
		var b strings.Builder
		w := writer{b: &b, values: f.values}
		w.clause(c.math)
		if w.filled {
			all = append(all, b.String())
		}
	}
	return strings.Join(all, "; ")
}

// plain is a name with its spaces alike.
func plain(s string) string { return strings.Join(strings.Fields(s), " ") }
