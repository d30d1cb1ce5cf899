package mathml

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is what a token is.
type kind int

const (
	number    kind = iota
	name           // a symbol or a word
	unit           // of the number before it
	operator       // + − · × / ^
	relation       // = ≤ ≥ …
	large          // Σ ∫
	root           // √
	power          // ² ³
	opens          // ( [
	closes         // ) ]
	separator      // , ; :
)

type token struct {
	kind     kind
	text     string
	from, to int  // in the text
	apart    bool // a space stands before it
}

// units are those that may follow a number, longest first where one begins another.
var (
	units  = regexp.MustCompile(`^[ \x{a0}]?(kWh/m³K|Wh/m³K|kJ/m²K|Btu/lb·°F|Btu/h|lb/gal|min/h|L/min|°dH|°C|°F|kW|K|bar|W|h|min|ft|m|s|%)`)
	digits = regexp.MustCompile(`^[0-9]+(?:[.,][0-9]+)*`)
	raised = map[string]string{"²": "2", "³": "3", "¹": "1"}
)

// inName tells whether a rune goes on with a name: letters, digits, marks upon letters,
// lowered digits.
func inName(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r) || r >= '₀' && r <= '₉' || r == '∞'
}

// lex cuts a text into tokens; no token at all stands for a sign that no formula has.
func lex(text string) ([]token, bool) {
	var list []token
	apart := false
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		if unicode.IsSpace(r) {
			apart = true
			at += size
			continue
		}
		t := token{from: at, to: at + size, apart: apart}
		apart = false
		switch {
		case r >= '0' && r <= '9':
			t.kind, t.to = number, at+len(digits.FindString(text[at:]))
		case strings.ContainsRune("+−-·×/^±", r):
			t.kind = operator
		case strings.ContainsRune("=≤≥<>≈≠∝", r):
			t.kind = relation
		case strings.ContainsRune("Σ∑∫", r):
			t.kind = large
		case r == '√':
			t.kind = root
		case raised[string(r)] != "":
			t.kind = power
		case r == '(' || r == '[':
			t.kind = opens
		case r == ')' || r == ']':
			t.kind = closes
		case strings.ContainsRune(",;:.", r):
			t.kind = separator
		case unicode.IsLetter(r):
			t.kind, t.to = name, at+nameLength(text[at:])
		case r == '°' || r == '%':
			t.kind = unit
			for t.to < len(text) && unicode.IsLetter(rune(text[t.to])) {
				t.to++
			}
		default:
			return nil, false
		}
		t.text = text[t.from:t.to]
		list = append(list, t)
		at = t.to
		if t.kind == number {
			if u, ok := unitAt(text, at); ok {
				list = append(list, u)
				at = u.to
			}
		}
	}
	return list, true
}

// unitAt is the unit right behind a number.
func unitAt(text string, at int) (token, bool) {
	m := units.FindStringSubmatch(text[at:])
	if m == nil {
		return token{}, false
	}
	to := at + len(m[0])
	if next, _ := utf8.DecodeRuneInString(text[to:]); inName(next) || next == '_' {
		return token{}, false
	}
	return token{kind: unit, text: m[1], from: to - len(m[1]), to: to, apart: m[0] != m[1]}, true
}

// nameLength is how far a name goes: with its index after an underscore, with a comma in
// that index, with a hyphen or an apostrophe between letters.
func nameLength(text string) int {
	end := 0
	for end < len(text) {
		r, size := utf8.DecodeRuneInString(text[end:])
		next, _ := utf8.DecodeRuneInString(text[end+size:])
		joins := (r == '_' || r == '\'' || r == '’' || r == '-' || r == ',') && unicode.IsLetter(next)
		if !inName(r) && !joins {
			break
		}
		end += size
	}
	return end
}

// form is what a node is.
type form int

const (
	numeral   form = iota
	symbol         // with its index
	words          // upright
	row            // one after the other
	terms          // parts of a sum
	product        // factors
	relations      // sides of an equation
	fenced         // in brackets; text holds both
	call           // a function and its arguments
	fraction
	raise
	square // root
	series // Σ or ∫ and what it runs over
	sign   // an operator between the parts of a row, a sum or a product
)

type node struct {
	form     form
	text     string
	kids     []*node
	from, to int // in the text
	solved   bool
}

type parser struct {
	text   string
	tokens []token
	at     int
	known  map[string][]string
}

// deepest bounds how far brackets and powers go into each other.
const deepest = 40

func (p *parser) peek() (token, bool) {
	if p.at < len(p.tokens) {
		return p.tokens[p.at], true
	}
	return token{}, false
}

func (p *parser) is(k kind, texts ...string) bool {
	t, ok := p.peek()
	if !ok || t.kind != k {
		return false
	}
	for _, text := range texts {
		if t.text == text {
			return true
		}
	}
	return len(texts) == 0
}

func (p *parser) take() token {
	t := p.tokens[p.at]
	p.at++
	return t
}

// joined makes one node of several, or gives back the only one.
func joined(f form, kids []*node) *node {
	if len(kids) == 1 {
		return kids[0]
	}
	return &node{form: f, kids: kids, from: kids[0].from, to: kids[len(kids)-1].to}
}

func signOf(t token) *node { return &node{form: sign, text: t.text, from: t.from, to: t.to} }

// chain is a = b = c. It gives nothing for what cannot be read.
func (p *parser) chain(depth int) *node {
	if depth > deepest {
		return nil
	}
	first := p.sum(depth)
	if first == nil {
		return nil
	}
	kids := []*node{first}
	for p.is(relation) {
		kids = append(kids, signOf(p.take()))
		next := p.sum(depth)
		if next == nil {
			return nil
		}
		kids = append(kids, next)
	}
	return joined(relations, kids)
}

func (p *parser) sum(depth int) *node {
	var kids []*node
	if p.is(operator, "−", "-", "+", "±") {
		kids = append(kids, signOf(p.take()))
	}
	for {
		next := p.product(depth)
		if next == nil {
			return nil
		}
		kids = append(kids, next)
		if !p.is(operator, "+", "−", "-", "±") {
			return joined(terms, kids)
		}
		kids = append(kids, signOf(p.take()))
	}
}

// product is factors with their signs between; of a division with spaces about its stroke
// all factors so far are the numerator, else the last one alone.
func (p *parser) product(depth int) *node {
	first := p.factor(depth)
	if first == nil {
		return nil
	}
	kids := []*node{first}
	for {
		switch t, ok := p.peek(); {
		case ok && t.kind == operator && (t.text == "·" || t.text == "×"):
			kids = append(kids, signOf(p.take()))
			next := p.factor(depth)
			if next == nil {
				return nil
			}
			kids = append(kids, next)
		case ok && t.kind == operator && t.text == "/":
			p.take()
			under := p.factor(depth)
			if under == nil {
				return nil
			}
			over := kids[len(kids)-1]
			kids = kids[:len(kids)-1]
			if t.apart {
				over, kids = joined(product, append(kids, over)), nil
			}
			kids = append(kids, &node{form: fraction, kids: []*node{over, under}, from: over.from, to: under.to})
		case ok && (t.kind == number || t.kind == name || t.kind == opens || t.kind == large || t.kind == root || t.kind == unit):
			next := p.factor(depth) // one beside the other
			if next == nil {
				return nil
			}
			kids = append(kids, next)
		default:
			return joined(product, kids)
		}
	}
}

// factor is a thing that can be multiplied, with its power.
func (p *parser) factor(depth int) *node {
	if depth > deepest {
		return nil
	}
	base := p.single(depth)
	for base != nil {
		switch {
		case p.is(power):
			t := p.take()
			two := &node{form: numeral, text: raised[t.text], from: t.from, to: t.to}
			base = &node{form: raise, kids: []*node{base, two}, from: base.from, to: t.to}
		case p.is(operator, "^"):
			p.take()
			var exponent *node
			if p.is(operator, "−", "-") {
				minus := signOf(p.take())
				if under := p.single(depth + 1); under != nil {
					exponent = joined(row, []*node{minus, under})
				}
			} else {
				exponent = p.single(depth + 1)
			}
			if exponent == nil {
				return nil
			}
			base = &node{form: raise, kids: []*node{base, bare(exponent)}, from: base.from, to: exponent.to}
		default:
			return base
		}
	}
	return nil
}

func (p *parser) single(depth int) *node {
	t, ok := p.peek()
	if !ok {
		return nil
	}
	switch t.kind {
	case number:
		p.take()
		n := &node{form: numeral, text: t.text, from: t.from, to: t.to}
		if p.is(unit) {
			u := p.take()
			n = joined(row, []*node{n, {form: words, text: " " + u.text, from: u.from, to: u.to}})
		}
		return n
	case unit:
		p.take()
		return &node{form: words, text: t.text, from: t.from, to: t.to}
	case large:
		p.take()
		over := p.factor(depth + 1)
		if over == nil {
			return nil
		}
		return &node{form: series, text: t.text, kids: []*node{over}, from: t.from, to: over.to}
	case root:
		p.take()
		under := p.factor(depth + 1)
		if under == nil {
			return nil
		}
		return &node{form: square, kids: []*node{bare(under)}, from: t.from, to: under.to}
	case opens:
		return p.brackets(depth + 1)
	case name:
		return p.named(depth)
	}
	return nil
}

// named is a symbol, a run of words, or either with its arguments.
func (p *parser) named(depth int) *node {
	isSymbol := p.symbol(p.at)
	t := p.take()
	n := &node{form: symbol, text: t.text, from: t.from, to: t.to}
	if !isSymbol {
		n.form = words
		for p.is(name) && !p.symbol(p.at) && p.tokens[p.at].apart {
			n.to = p.take().to
		}
		n.text = plain(p.text[n.from:n.to])
	}
	if next, ok := p.peek(); ok && next.kind == opens && !next.apart {
		arguments := p.brackets(depth + 1)
		if arguments == nil {
			return nil
		}
		return &node{form: call, kids: []*node{n, arguments}, from: n.from, to: arguments.to}
	}
	return n
}

// brackets holds one chain, or several parted by separators.
func (p *parser) brackets(depth int) *node {
	open := p.take()
	n := &node{form: fenced, text: open.text, from: open.from}
	for {
		inside := p.chain(depth)
		if inside == nil {
			return nil
		}
		n.kids = append(n.kids, inside)
		if !p.is(separator) {
			break
		}
		n.kids = append(n.kids, signOf(p.take()))
	}
	if !p.is(closes) {
		return nil
	}
	end := p.take()
	n.text += end.text
	n.to = end.to
	return n
}

// bare takes brackets off where the layout says the same.
func bare(n *node) *node {
	if n.form == fenced && len(n.kids) == 1 {
		return n.kids[0]
	}
	return n
}

// small are words of two letters that are no symbols.
var small = map[string]bool{"at": true, "by": true, "of": true, "no": true, "to": true, "in": true, "or": true, "is": true, "as": true,
	"if": true, "on": true, "be": true, "it": true, "an": true, "so": true, "up": true, "do": true, "we": true, "ln": true}

// symbol tells whether the name at a place is a symbol. What the figures are called is;
// so is what carries an index, a mark or a Greek letter, and a name of one or two letters
// that is no word.
func (p *parser) symbol(at int) bool {
	t := p.tokens[at].text
	if _, known := p.known[t]; known && !strings.ContainsAny(t, "-'’") {
		// A word that stands alone as a figure is still a word to look at.
		return utf8.RuneCountInString(t) <= 2 && !small[t] || strings.ContainsRune(t, '_')
	}
	if strings.ContainsAny(t, "_₀₁₂₃₄₅₆₇₈₉∞") {
		return true
	}
	letters, upper := 0, 0
	for _, r := range t {
		switch {
		case unicode.Is(unicode.Greek, r) || unicode.Is(unicode.Mn, r) || unicode.IsDigit(r):
			return true
		case unicode.IsUpper(r):
			upper++
		}
		letters++
	}
	if t == "a" || t == "A" {
		next := at + 1
		return !(next < len(p.tokens) && p.tokens[next].kind == name && p.tokens[next].apart)
	}
	return letters <= 2 && !small[t] || upper == letters && letters <= 4
}
