package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Quantity is any value of this package: it can print itself for a person.
type Quantity interface {
	// Text prints the value rounded to sensible figures, with its unit.
	Text(System) string
}

// quantity is the constraint behind Parse: every type of this package.
type quantity interface {
	~float64
	Quantity
	dimension() *dimension
}

// Readable is what Parse and Exact work on, every type of this package, for generic
// code elsewhere.
type Readable interface{ quantity }

// unit is one way to write a quantity: SI value = (written + offset) · scale.
type unit struct {
	name      string   // as printed
	spellings []string // as accepted, folded by foldUnit; the name is always accepted too
	scale     float64
	offset    float64
	decimals  int     // printed decimals, unless figures is set
	wholeFrom float64 // if set, from this printed value up no decimals are printed, and below none that is zero
	figures   int     // significant figures printed, if > 0; trailing zeros are dropped
	prefix    bool
	capital   string // if set, how it is written: with a small m it would be a thousandth
}

// rung is the unit printed from a value (in SI) upwards. A ladder of rungs, the
// smallest first, keeps a pipe in millimetres and a house in metres.
type rung struct {
	unit string
	from float64
}

// dimension is everything the package knows about one type.
type dimension struct {
	name     string // "a temperature", for messages
	example  string // what would be accepted, for messages
	units    []unit
	si, us   []rung
	kind     Kind     // by which its unit is chosen, if it can be
	chosen   [][]rung // the ladder of each of the kind's units, in their order
	compound bool     // "12 ft 6 in": a larger unit followed by smaller ones
	bareZero bool     // 0 needs no unit
	min, max float64  // SI bounds of what can be meant at all
	lookup   map[string]int
}

func (d *dimension) index() *dimension {
	d.lookup = make(map[string]int)
	for i := range d.units {
		u := &d.units[i]
		if u.scale == 0 {
			u.scale = 1
		}
		d.lookup[foldUnit(u.name)] = i
		for _, s := range u.spellings {
			d.lookup[foldUnit(s)] = i
		}
	}
	return d
}

// named finds a unit by its printed name.
func (d *dimension) named(name string) *unit {
	return &d.units[d.lookup[foldUnit(name)]]
}

// base is the unit in which the value is kept: scale one, no offset.
func (d *dimension) base() *unit {
	for i := range d.units {
		if u := &d.units[i]; u.scale == 1 && u.offset == 0 && !u.prefix {
			return u
		}
	}
	return &d.units[0]
}

// printed is the unit in which a value is shown to a reader of the system: the
// highest rung that the value, as it would be printed below, has reached. So
// 999.7 W is 1 kW and not 1,000 W.
func (d *dimension) printed(v float64, s System) *unit {
	ladder := d.ladder(s)
	u := d.named(ladder[0].unit)
	for _, r := range ladder[1:] {
		if math.Abs(u.from(u.round(v))) < r.from*(1-1e-9) {
			break
		}
		u = d.named(r.unit)
	}
	return u
}

func (d *dimension) text(v float64, s System) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return noValue
	}
	return d.printed(v, s).print(v)
}

// ladder is that of the reader: of the unit chosen, or of the family.
func (d *dimension) ladder(s System) []rung {
	if d == lengthDimension && s > US {
		return lengthLadder(s)
	}
	switch c := s.chosen(d.kind); {
	case c > 0:
		return d.chosen[c-1]
	case s.Family() == US:
		return d.us
	}
	return d.si
}

// in prints a value in a unit of its own, off the ladder.
func (d *dimension) in(v float64, name string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return noValue
	}
	return d.named(name).print(v)
}

// noValue is printed for what is not a number. The engine returns no such value;
// a page must still not break, nor show "NaN" to an installer, if one slips through.
const noValue = "no value"

func (u *unit) from(v float64) float64 { return (v+u.offset)*u.scale + 0 }
func (u *unit) to(v float64) float64   { return v/u.scale - u.offset }

// round gives the value in this unit, rounded as printed.
func (u *unit) round(v float64) float64 {
	x, _ := strconv.ParseFloat(u.digits(v), 64)
	return x
}

func (u *unit) print(v float64) string { return u.join(grouped(u.digits(v))) }

// digits gives the rounded number in this unit as plain digits.
func (u *unit) digits(v float64) string {
	x := u.to(v)
	if u.figures > 0 {
		return significant(x, u.figures)
	}
	s := strconv.FormatFloat(x, 'f', u.decimals, 64)
	if u.wholeFrom > 0 {
		if r, _ := strconv.ParseFloat(s, 64); math.Abs(r) >= u.wholeFrom {
			return strconv.FormatFloat(x, 'f', 0, 64)
		}
		return strings.TrimSuffix(s, ".0")
	}
	return s
}

// mostDecimals keeps a trace of something from printing as a row of zeros.
const mostDecimals = 6

// significant rounds to a count of significant figures, at most six decimals,
// and drops trailing zeros: 85 %, R-13, 0.35 W/m²K.
func significant(x float64, figures int) string {
	var buf [32]byte
	rounded, _ := strconv.ParseFloat(string(strconv.AppendFloat(buf[:0], x, 'e', figures-1, 64)), 64)
	s := strconv.FormatFloat(rounded, 'f', -1, 64)
	if point := strings.IndexByte(s, '.'); point >= 0 && len(s)-point-1 > mostDecimals {
		s = strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', mostDecimals, 64), "0"), ".")
	}
	return s
}

func (u *unit) join(n string) string {
	switch {
	case u.prefix:
		return u.name + n
	case u.name == "%" || u.name == "":
		return n + u.name
	}
	return n + "\u00a0" + u.name // no-break space: a value never parts from its unit
}

// grouped sets thousands separators and a true minus sign into plain digits, and
// never leaves a negative zero.
func grouped(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		s = s[1:]
		if strings.Trim(s, "0.") != "" {
			sign = "−"
		}
	}
	whole := len(s)
	if point := strings.IndexByte(s, '.'); point >= 0 {
		whole = point
	}
	if whole <= 3 {
		return sign + s
	}
	out := make([]byte, 0, len(s)+len(sign)+whole/3)
	out = append(out, sign...)
	for i := 0; i < whole; i++ {
		if i > 0 && (whole-i)%3 == 0 {
			out = append(out, ',')
		}
		out = append(out, s[i])
	}
	return string(append(out, s[whole:]...))
}

// Exact writes a value so that Parse reads back the very same float64: the
// shortest such number, in the SI unit in which the type is kept ("294.15 K",
// "11137 W"). It is the form for a document, where nothing may be lost; Text is the
// form for people.
//
// Units: any type of this package; the text is in its SI unit.
// Range: every value that Parse accepts for the type.
// Source: shortest round-trip decimal of an IEEE 754 binary64.
// Errors: none; what is not a number gives text that Parse refuses.
func Exact[T quantity](v T) string {
	if x := float64(v); math.IsNaN(x) || math.IsInf(x, 0) {
		return noValue
	}
	n := strconv.FormatFloat(float64(v)+0, 'g', -1, 64)
	if u := v.dimension().base(); u.name != "" {
		return n + " " + u.name
	}
	return n
}

// ParseError says what was given for a quantity and what would be accepted.
type ParseError struct {
	Given  string // the text as it was given
	Reason string // what is wrong with it
	Accept string // what would be accepted
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%q %s; accepted: %s", e.Given, e.Reason, e.Accept)
}

// Parse reads a quantity with its unit, in US customary or SI, as people write
// it: "70 °F", "21.1 C", "38,000 Btu/h", "38 MBH", "3/4 in", "12 ft 6 in",
// "R-13". A comma followed by exactly three digits separates thousands; any other
// single comma is a decimal comma. A number without a unit is refused, since 20
// may be meant in either system.
//
// Units: those of the type asked for; the result is in SI.
// Range: what the quantity can physically be (no temperature below absolute
// zero, no negative length).
// Source: conversion factors exact by definition (inch 0.0254 m, pound
// 0.45359237 kg, US gallon 231 in³) and the International Table Btu 1055.05585262 J.
// Errors: a *ParseError with what was given and what would be accepted.
func Parse[T quantity](text string) (T, error) {
	var zero T
	v, err := zero.dimension().parse(text)
	return T(v), err
}

// longestText is more than any value needs; longer text is not worth reading.
const longestText = 64

func (d *dimension) parse(text string) (float64, error) {
	fail := func(reason string) (float64, error) {
		return 0, &ParseError{Given: text, Reason: reason, Accept: d.example}
	}
	if len(text) > longestText {
		text = strings.ToValidUTF8(text[:longestText], "") + "…"
		return fail("is too long for a value")
	}
	if d.bareZero && strings.TrimSpace(text) == "0" {
		return 0, nil
	}
	parts, reason := d.split(text)
	if reason != "" {
		return fail(reason)
	}
	total, last := 0.0, math.Inf(1)
	for i, p := range parts {
		u, known := d.lookup[p.unit]
		switch {
		case !known && p.unit == "":
			return fail("has no unit for " + d.name)
		case !known:
			return fail(fmt.Sprintf("has the unit %q, which is not a unit of %s", p.written, d.name))
		case d.units[u].capital != "" && strings.HasPrefix(p.written, "m") && !strings.HasPrefix(p.written, "meg"):
			return fail(fmt.Sprintf("has the unit %q, which would be thousandths; write %s for millions", p.written, d.units[u].capital))
		case d.units[u].prefix != p.prefix:
			return fail("is not written the way " + d.name + " is")
		}
		unit := &d.units[u]
		if len(parts) > 1 && (!d.compound || p.negative && i > 0 || unit.scale >= last) {
			return fail("has two numbers that do not add up to one value")
		}
		last = unit.scale
		// The sign before the first number holds for the whole: -12 ft 6 in is
		// twelve and a half feet down.
		v := p.value
		if parts[0].negative {
			v = -v
		}
		total += unit.from(v)
	}
	switch {
	case math.IsNaN(total) || math.IsInf(total, 0):
		return fail("is not a number that can be used")
	case total < d.min || total > d.max:
		return fail("is outside what " + d.name + " can be")
	}
	return total, nil
}

// trimmed prints a plain number without trailing zeros.
func trimmed(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return noValue
	}
	if math.Abs(x) < 1e11 { // above it there are no decimals to round away
		x = math.Round(x*1e4) / 1e4
	}
	return grouped(strconv.FormatFloat(x, 'f', -1, 64))
}
