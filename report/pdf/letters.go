package pdf

import (
	"strings"

	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// The letters that paper needs.

// letters knows which characters the typeface has. A name in a script that it lacks
// must not stop the sheet from printing.
type letters struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
}

// noGlyph stands for a character that the typeface lacks.
const noGlyph = '□'

func newLetters() (*letters, error) {
	font, err := sfnt.Parse(liberationsansregular.TTF)
	return &letters{font: font}, err
}

// printable composes accents and replaces what cannot be printed: look-alikes first,
// an empty box for the rest.
func (l *letters) printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case '\u2010', '\u2011':
			return '-'
		case '\u202f', '\u2007', '\u2009':
			return '\u00a0'
		case '\n', '\t', '\r':
			return ' '
		case '\u00ad', '\u200b', '\ufeff':
			return -1
		}
		if r < ' ' || r == 0x7f {
			return -1
		}
		// The PDF library keeps widths for the basic plane only.
		if r >= 0xffff {
			return noGlyph
		}
		if g, err := l.font.GlyphIndex(&l.buffer, r); err != nil || g == 0 {
			return noGlyph
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(s, string(noGlyph))))
}
