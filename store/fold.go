package store

import (
	"strings"
	"unicode"
)

// Fold makes text alike that a search should not tell apart: capitals, accents, and the
// space around and between words.
func Fold(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	space := false
	for _, r := range text {
		switch {
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		case unicode.Is(unicode.Mn, r): // an accent that follows its letter
			continue
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		r = unicode.ToLower(r)
		if r < 0x80 {
			b.WriteByte(byte(r))
		} else if plain, accented := plainLetters[r]; accented {
			b.WriteString(plain)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Searched is the text of an entry in which a search looks. Sorted, it sorts by title.
func Searched(title, about string) string { return Fold(title) + "\n" + Fold(about) }

// Words are the words of a search, folded.
func Words(text string) []string { return strings.Fields(Fold(text)) }

// plainLetters are the letters of languages written in Latin script, without what a
// keyboard may not have.
var plainLetters = plain(
	"a", "àáâãäåāăąǎ", "c", "çćĉċč", "d", "ďđð", "e", "èéêëēĕėęě", "g", "ĝğġģ", "h", "ĥħ",
	"i", "ìíîïĩīĭįıǐ", "j", "ĵ", "k", "ķ", "l", "ĺļľŀł", "n", "ñńņňŉ", "o", "òóôõöøōŏőǒ",
	"r", "ŕŗř", "s", "śŝşšș", "t", "ţťŧț", "u", "ùúûüũūŭůűųǔ", "w", "ŵ", "y", "ýÿŷ",
	"z", "źżž", "ae", "æ", "oe", "œ", "ss", "ß", "th", "þ", "'", "’‘ʼ", "-", "‐‑–—",
)

func plain(pairs ...string) map[rune]string {
	all := map[rune]string{}
	for i := 0; i < len(pairs); i += 2 {
		for _, r := range pairs[i+1] {
			all[r] = pairs[i]
		}
	}
	return all
}
