package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// System is the family of units in which a person reads and writes.
type System int

// The two families. The zero value is SI, the same as inside.
const (
	SI System = iota
	US
)

// String gives the word used for the system in a job document.
func (s System) String() string {
	if s == US {
		return "us"
	}
	return "si"
}

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

// unit is one way to write a quantity: SI value = (written + offset) · scale.
type unit struct {
	name      string   // as printed
	spellings []string // as accepted, folded by foldUnit; the name is always accepted too
	scale     float64
	offset    float64
	decimals  int // printed decimals, unless figures is set
	figures   int // significant figures printed, if > 0
	prefix    bool
}

// dimension is everything the package knows about one type.
type dimension struct {
	name     string // "a temperature", for messages
	example  string // what would be accepted, for messages
	units    []unit
	si, us   string // names of the units printed
	siLarge  string // unit printed above largeFrom (SI value), if set
	usLarge  string
	large    float64
	min, max float64 // SI bounds of what can be meant at all
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

func (d *dimension) named(name string) unit {
	return d.units[d.lookup[foldUnit(name)]]
}

// printed is the unit in which a value is shown to a reader of the system.
func (d *dimension) printed(v float64, s System) unit {
	name, large := d.si, d.siLarge
	if s == US {
		name, large = d.us, d.usLarge
	}
	if large != "" && math.Abs(v) >= d.large {
		name = large
	}
	return d.named(name)
}

func (d *dimension) text(v float64, s System) string {
	return d.printed(v, s).print(v)
}

func (u unit) from(v float64) float64 { return (v+u.offset)*u.scale + 0 }
func (u unit) to(v float64) float64   { return v/u.scale - u.offset }

func (u unit) print(v float64) string {
	x := u.to(v)
	dec := u.decimals
	if u.figures > 0 && x != 0 {
		dec = u.figures - 1 - int(math.Floor(math.Log10(math.Abs(x))))
		if dec < 0 {
			p := math.Pow(10, float64(-dec))
			x, dec = math.Round(x/p)*p, 0
		}
		dec = min(dec, 6)
	}
	return u.join(number(x, dec))
}

func (u unit) join(n string) string {
	switch {
	case u.prefix:
		return u.name + n
	case u.name == "%" || u.name == "":
		return n + u.name
	}
	return n + "\u00a0" + u.name // no-break space: a value never parts from its unit
}

// number prints with thousands separators and a fixed count of decimals, and
// never prints a negative zero.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "−", s[1:]
	}
	whole, frac, hasFrac := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if hasFrac {
		whole += "." + frac
	}
	return sign + whole
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

func (d *dimension) parse(text string) (float64, error) {
	fail := func(reason string) (float64, error) {
		return 0, &ParseError{Given: text, Reason: reason, Accept: d.example}
	}
	if len(text) > 64 {
		return fail("is too long for a value")
	}
	parts, err := split(text)
	if err != nil {
		return fail(err.Error())
	}
	total, negative := 0.0, false
	for i, p := range parts {
		idx, known := d.lookup[foldUnit(p.unit)]
		switch {
		case p.unit == "" && (d.lookup == nil || !known):
			return fail("has no unit for " + d.name)
		case !known:
			return fail(fmt.Sprintf("has the unit %q, which is not a unit of %s", strings.TrimSpace(p.unit), d.name))
		}
		u := d.units[idx]
		if u.prefix != p.prefix {
			return fail("is not written the way " + d.name + " is")
		}
		if i > 0 && (p.negative || u.offset != 0) {
			return fail("has two numbers that do not add up to one value")
		}
		if p.negative {
			negative = true
			v := u.from(-p.value)
			if len(parts) > 1 {
				v = -u.from(p.value)
			}
			total += v
			continue
		}
		if negative {
			total -= u.from(p.value)
		} else {
			total += u.from(p.value)
		}
	}
	if math.IsNaN(total) || math.IsInf(total, 0) {
		return fail("is not a number that can be used")
	}
	if total < d.min || total > d.max {
		return fail(fmt.Sprintf("is outside what %s can be", d.name))
	}
	return total, nil
}

// trimmed prints a plain number without trailing zeros.
func trimmed(x float64) string {
	return strings.ReplaceAll(strconv.FormatFloat(math.Round(x*1e4)/1e4, 'f', -1, 64), "-", "−")
}
