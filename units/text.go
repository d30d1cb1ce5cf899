package units

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// part is one number with its unit; "12 ft 6 in" has two.
type part struct {
	value    float64
	negative bool
	written  string // the unit as it was written
	unit     string // the unit folded
	prefix   bool   // the unit stood before the number: "R-13"
}

var errNoNumber = errors.New("has no number")

// mostParts allows for days, hours and minutes.
const mostParts = 3

// split cuts text into numbers and the units that follow them, or says why it
// cannot be read.
func (d *dimension) split(text string) (parts []part, reason string) {
	s := strings.TrimSpace(plain(text))
	if s == "" {
		return nil, "is empty"
	}
	if isLetter(s[0]) {
		p, err := leadingUnit(s)
		if err != nil {
			return nil, err.Error()
		}
		return []part{p}, ""
	}
	parts = make([]part, 0, mostParts)
	for s != "" {
		if len(parts) == mostParts {
			return nil, "has too many numbers for one value"
		}
		value, negative, rest, err := readNumber(s)
		if err != nil {
			return nil, err.Error()
		}
		written, folded := strings.TrimSpace(rest), foldUnit(rest)
		s = ""
		if _, known := d.lookup[folded]; !known { // perhaps a second number follows
			written, s = cutUnit(rest)
			folded = foldUnit(written)
		}
		parts = append(parts, part{value: value, negative: negative, written: written, unit: folded})
	}
	return parts, ""
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }

// leadingUnit reads the few quantities whose unit stands first: R-13, U-0.30,
// RSI 2.3.
func leadingUnit(s string) (part, error) {
	letters := 0
	for letters < len(s) && isLetter(s[letters]) {
		letters++
	}
	rest := strings.TrimLeft(s[letters:], " ")
	rest = strings.TrimPrefix(rest, "-")
	value, negative, tail, err := readNumber(rest)
	if err != nil {
		return part{}, err
	}
	if strings.TrimSpace(tail) != "" {
		return part{}, errors.New("has text after its number")
	}
	return part{value: value, negative: negative, written: s[:letters], unit: foldUnit(s[:letters]), prefix: true}, nil
}

// cutUnit parts a unit from the number that follows it: a digit after a space, a
// foot mark or a hyphen begins the next number, a digit after a letter belongs to
// the unit (m2, ft3). A hyphen tied to the unit only joins (12'-6"); one standing
// before the digit alone is a sign.
func cutUnit(s string) (unit, rest string) {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			continue
		}
		switch {
		case i == 0 || s[i-1] == ' ' || s[i-1] == '\'':
			return strings.TrimSpace(s[:i]), s[i:]
		case s[i-1] == '-' && i > 1 && s[i-2] != ' ':
			return strings.TrimSpace(s[:i-1]), s[i:]
		case s[i-1] == '-':
			return strings.TrimSpace(s[:i-1]), s[i-1:]
		}
	}
	return strings.TrimSpace(s), ""
}

// readNumber takes a decimal number or a fraction ("3/4", "1 1/4", "1-1/2")
// from the front of s.
func readNumber(s string) (value float64, negative bool, rest string, err error) {
	s = strings.TrimLeft(s, " ")
	switch {
	case strings.HasPrefix(s, "-"):
		negative = true
		s = strings.TrimLeft(s[1:], " ")
	case strings.HasPrefix(s, "+"):
		s = strings.TrimLeft(s[1:], " ")
	}
	first, rest, err := readDecimal(s)
	if err != nil {
		return 0, false, s, err
	}
	if strings.HasPrefix(rest, "/") {
		den, after, derr := readDecimal(rest[1:])
		if derr == nil {
			if den == 0 {
				return 0, false, s, errors.New("divides by zero")
			}
			return first / den, negative, after, nil
		}
	}
	// "1 1/4" and "1-1/4": a whole number, then a fraction below one.
	if sep := strings.TrimLeft(strings.TrimPrefix(rest, "-"), " "); sep != rest && first == math.Trunc(first) {
		num, after, nerr := readDecimal(sep)
		if nerr == nil && strings.HasPrefix(after, "/") {
			den, after2, derr := readDecimal(after[1:])
			if derr == nil && den > num && num > 0 {
				return first + num/den, negative, after2, nil
			}
		}
	}
	return first, negative, rest, nil
}

func readDecimal(s string) (float64, string, error) {
	end := strings.IndexFunc(s, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	if end < 0 {
		end = len(s)
	}
	if !strings.ContainsAny(s[:end], "0123456789") {
		return 0, s, errNoNumber
	}
	spaced := spacedThousands(s)
	end = max(end, spaced)
	end += exponent(s[end:])
	num, rest := s[:end], s[end:]
	if spaced > 0 {
		num = strings.ReplaceAll(num, " ", "")
	}
	if strings.HasSuffix(num, ",") || strings.HasSuffix(num, ".") {
		return 0, s, errors.New("ends its number with a sign of punctuation")
	}
	plain, err := decimalPoint(num)
	if err != nil {
		return 0, s, err
	}
	v, perr := strconv.ParseFloat(plain, 64)
	if perr != nil {
		return 0, s, errors.New("is not a number that can be used")
	}
	return v, rest, nil
}

// spacedThousands counts the characters of a number whose thousands are parted by spaces
// ("38 000", "1 250 000,5") at the front of s; none if they are not. A group before a
// fraction is no thousands: "1 125/200".
func spacedThousands(s string) int {
	digits := func(s string) int {
		n := 0
		for n < len(s) && '0' <= s[n] && s[n] <= '9' {
			n++
		}
		return n
	}
	at := digits(s)
	if at < 1 || at > 3 || s[0] == '0' {
		return 0
	}
	end := 0
	for at < len(s) && s[at] == ' ' && digits(s[at+1:]) == 3 {
		at += 4
		end = at
	}
	switch {
	case end == 0 || end < len(s) && s[end] == '/':
		return 0
	case end+1 < len(s) && (s[end] == '.' || s[end] == ',') && digits(s[end+1:]) > 0:
		end += 1 + digits(s[end+1:])
	}
	return end
}

// exponent counts the characters of a power of ten ("e-5", "E+21") at the front
// of s.
func exponent(s string) int {
	if s == "" || s[0] != 'e' && s[0] != 'E' {
		return 0
	}
	digits := strings.TrimLeft(s[1:], "+-")
	n := 0
	for n < len(digits) && '0' <= digits[n] && digits[n] <= '9' {
		n++
	}
	if sign := len(s) - 1 - len(digits); n == 0 || sign > 1 {
		return 0
	}
	return len(s) - len(digits) + n
}

// decimalPoint settles what commas and points mean: groups of exactly three
// digits after a comma are thousands ("38,000"), any other single comma is a
// decimal comma ("12,5"). "0,500" can only be a decimal.
func decimalPoint(num string) (string, error) {
	commas, points := strings.Count(num, ","), strings.Count(num, ".")
	switch {
	case points > 1:
		return "", errors.New("has more than one decimal point")
	case commas == 0:
		return num, nil
	case points == 1 && strings.Index(num, ".") < strings.LastIndex(num, ","):
		return "", errors.New("mixes decimal point and comma")
	}
	whole, frac, hasFrac := strings.Cut(num, ".")
	groups := strings.Split(whole, ",")
	thousands := len(groups[0]) >= 1 && len(groups[0]) <= 3 && !strings.HasPrefix(groups[0], "0")
	for _, g := range groups[1:] {
		thousands = thousands && len(g) == 3
	}
	if thousands {
		whole = strings.Join(groups, "")
		if hasFrac {
			return whole + "." + frac, nil
		}
		return whole, nil
	}
	if commas == 1 && points == 0 {
		return strings.Replace(num, ",", ".", 1), nil
	}
	return "", errors.New("has commas that are neither thousands nor a decimal sign")
}

// plain turns the signs that a phone, a word processor or a standard writes into
// those of a keyboard.
func plain(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf || s[i] < ' ' {
			return keyboard.Replace(s)
		}
	}
	return s
}

var keyboard = strings.NewReplacer(
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ", "\n", " ", "\r", " ",
	"’", "'", "′", "'", "”", `"`, "″", `"`,
	"−", "-", "‐", "-", "‑", "-", "–", "-", "⁄", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
)

// foldUnit makes the many ways of typing one unit alike. Letters are lowered (no
// dimension here has two units that differ only in case), superscripts become
// digits, and spaces, brackets and every sign of multiplication go, the hyphen of
// "Btu/hr-ft²-F" among them: W/(m²·K), W/m2-K and W/m^2.K are one.
func foldUnit(s string) string {
	var buf [longestText]byte
	b := buf[:0]
	for _, r := range s {
		r = unicode.ToLower(r)
		switch r {
		case ' ', '·', '⋅', '•', '*', '×', '.', '(', ')', '^', '-', '⁻', '\u00a0', 'δ', '∆':
			continue
		case '¹':
			r = '1'
		case '²':
			r = '2'
		case '³':
			r = '3'
		case 'º', '˚':
			r = '°'
		case 'µ', 'μ':
			r = 'u'
		}
		b = utf8.AppendRune(b, r)
	}
	return string(b)
}
