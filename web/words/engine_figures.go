package words

import (
	"strings"
	"unicode/utf8"
)

// unitWords are the letters of units and of what stands beside figures in every
// language alike.
var unitWords = func() map[string]bool {
	known := map[string]bool{}
	for _, w := range strings.Fields(`F C K R U W kW MW Wh kWh MWh kJ MJ J Btu kBtu MBH h min s ms d m mm cm km ft in sq EDR
		gal gpm gpd gpg cfm therm MMBtu RSI ohm L l mL lb kg g psi bar mbar kPa Pa hPa am pm dH fH mol ppm kv Cv Ω kΩ MΩ CO O Pt B x ΔT mK mol ach ASSE EN ISO SDR
		NTC PEX DIN kgK mg GJ kcal k`) {
		known[w] = true
	}
	return known
}()

// isFigure tells a text that holds figures with their units and no words.
func isFigure(text string) bool {
	word := 0 // where the run of letters began
	for i := 0; i <= len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if n == 0 || strings.ContainsRune("0123456789.,:;%°²³()[]/·×–−-+±=<> \u00a0\u202f'\"", r) {
			if i > word && !isUnit(text, word, i) {
				return false
			}
			if n == 0 {
				return text != ""
			}
			word = i + n
		}
		i += n
	}
	return true
}

// isUnit tells whether the letters from one place to another are a unit. Inches follow a
// figure at once; elsewhere "in" is a word.
func isUnit(text string, from, to int) bool {
	w := text[from:to]
	if w == "in" {
		before := strings.TrimRight(text[:from], " \u00a0")
		return isDigit(before, len(before)-1)
	}
	return unitWords[w]
}

// figures writes the figures of a text as the language does. With a comma before the
// decimals stands a narrow space between the thousands of five digits and more (ISO
// 80000-1); both can be typed again as they are read. A percent sign stands apart but in
// English.
func (l Language) figures(text string) string {
	if l.Comma() {
		text = rewrite(text, func(string) bool { return true })
	}
	if l.Plain() == English {
		return text
	}
	return percent.Replace(text)
}

var percent = strings.NewReplacer("0%", "0\u00a0%", "1%", "1\u00a0%", "2%", "2\u00a0%", "3%", "3\u00a0%", "4%", "4\u00a0%",
	"5%", "5\u00a0%", "6%", "6\u00a0%", "7%", "7\u00a0%", "8%", "8\u00a0%", "9%", "9\u00a0%")

// figuresWithUnits does so only where a unit follows, behind the space that does not
// break: other figures belong to a name.
func (l Language) figuresWithUnits(text string) string {
	if !l.Comma() {
		return text
	}
	return rewrite(text, func(rest string) bool { return strings.HasPrefix(rest, "\u00a0") })
}

// rewrite writes each figure anew that the text behind it allows.
func rewrite(text string, allowed func(rest string) bool) string {
	if !strings.ContainsAny(text, ".,") {
		return text
	}
	var s strings.Builder
	for i := 0; i < len(text); {
		if !isDigit(text, i) {
			next := strings.IndexAny(text[i:], "0123456789")
			if next < 0 {
				next = len(text) - i
			}
			s.WriteString(text[i : i+next])
			i += next
			continue
		}
		end := i
		for isDigit(text, end) || (end+1 < len(text) && (text[end] == '.' || text[end] == ',') && isDigit(text, end+1)) {
			end++
		}
		figure := text[i:end]
		if allowed(text[end:]) {
			figure = localFigure(figure)
		}
		s.WriteString(figure)
		i = end
	}
	return s.String()
}

func isDigit(s string, i int) bool { return 0 <= i && i < len(s) && '0' <= s[i] && s[i] <= '9' }

func localFigure(figure string) string {
	parted := strings.Contains(figure, ",")
	whole, decimals, more := strings.Cut(strings.ReplaceAll(figure, ",", ""), ".")
	if n := len(whole); parted && n > 4 {
		var s strings.Builder
		for i := range n {
			if i > 0 && (n-i)%3 == 0 {
				s.WriteString("\u202f")
			}
			s.WriteByte(whole[i])
		}
		whole = s.String()
	}
	if more {
		return whole + "," + strings.ReplaceAll(decimals, ".", ",")
	}
	return whole
}
