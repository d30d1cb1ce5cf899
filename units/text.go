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
	unit     string
	prefix   bool // the unit stood before the number: "R-13"
}

var errNoNumber = errors.New("has no number")

// split cuts text into numbers and the units that follow them.
func split(text string) ([]part, error) {
	s := strings.TrimSpace(strings.Map(plainSpace, text))
	if s == "" {
		return nil, errors.New("is empty")
	}
	if p, ok, err := leadingUnit(s); ok || err != nil {
		return []part{p}, err
	}
	var parts []part
	for s != "" {
		value, negative, rest, err := readNumber(s)
		if err != nil {
			return nil, err
		}
		end := unitEnd(rest)
		parts = append(parts, part{value: value, negative: negative, unit: strings.TrimSpace(rest[:end])})
		s = strings.TrimSpace(rest[end:])
		if len(parts) > 3 {
			return nil, errors.New("has too many numbers for one value")
		}
	}
	return parts, nil
}

// leadingUnit reads the few quantities whose unit stands first: R-13, U-0.30,
// RSI 2.3.
func leadingUnit(s string) (part, bool, error) {
	letters := 0
	for letters < len(s) && s[letters] < utf8.RuneSelf && unicode.IsLetter(rune(s[letters])) {
		letters++
	}
	if letters == 0 {
		return part{}, false, nil
	}
	rest := strings.TrimLeft(s[letters:], " ")
	rest = strings.TrimPrefix(rest, "-")
	value, negative, tail, err := readNumber(rest)
	if err != nil {
		return part{}, false, err
	}
	if strings.TrimSpace(tail) != "" {
		return part{}, false, errors.New("has text after its number")
	}
	return part{value: value, negative: negative, unit: s[:letters], prefix: true}, true, nil
}

// unitEnd finds where a unit stops: at a digit that begins the next number. A
// digit inside a unit (m2, ft3) follows a letter directly.
func unitEnd(s string) int {
	for i, r := range s {
		if !unicode.IsDigit(r) {
			continue
		}
		before, _ := utf8.DecodeLastRuneInString(s[:i])
		if i == 0 || unicode.IsSpace(before) || before == '\'' || before == '-' {
			if before == '-' {
				i-- // 12 ft-6 in
			}
			return i
		}
	}
	return len(s)
}

// readNumber takes a decimal number or a fraction ("3/4", "1 1/4", "1-1/2")
// from the front of s.
func readNumber(s string) (value float64, negative bool, rest string, err error) {
	s = strings.TrimLeft(s, " ")
	switch {
	case strings.HasPrefix(s, "-"), strings.HasPrefix(s, "−"):
		negative = true
		_, n := utf8.DecodeRuneInString(s)
		s = strings.TrimLeft(s[n:], " ")
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
	end, seen := 0, false
	for end < len(s) {
		c := s[end]
		switch {
		case c >= '0' && c <= '9':
			seen = true
		case c == '.' || c == ',':
		case (c == 'e' || c == 'E') && seen && exponentFollows(s[end+1:]):
			end++ // its sign or first digit
		default:
			goto done
		}
		end++
	}
done:
	if !seen {
		return 0, s, errNoNumber
	}
	num, rest := s[:end], s[end:]
	// A trailing comma or full stop belongs to the sentence, not to the number.
	for strings.HasSuffix(num, ",") || strings.HasSuffix(num, ".") {
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

func exponentFollows(s string) bool {
	s = strings.TrimPrefix(strings.TrimPrefix(s, "+"), "-")
	return s != "" && s[0] >= '0' && s[0] <= '9'
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

func plainSpace(r rune) rune {
	switch r {
	case '\u00a0', '\u202f', '\u2009', '\t', '\n', '\r':
		return ' '
	case '’', '′':
		return '\''
	case '”', '″':
		return '"'
	}
	return r
}

// foldUnit makes the many ways of typing one unit alike: case of letters is
// kept where it distinguishes (none here does within one dimension), spaces,
// middle dots and superscripts are flattened.
func foldUnit(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch r {
		case ' ', '·', '⋅', '*', '.', '(', ')', '^', '\u00a0':
			continue
		case '²':
			r = '2'
		case '³':
			r = '3'
		case 'º', '˚':
			r = '°'
		case 'Δ', '∆':
			continue
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
