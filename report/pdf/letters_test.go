package pdf

import (
	"testing"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
)

func TestTypefaceHasTheLettersOfCustomers(t *testing.T) {
	var need []rune
	for r := 'A'; r <= 'Z'; r++ {
		need = append(need, r, r+32)
	}
	for r := rune(0xc0); r <= 0x17f; r++ { // western and central Europe
		need = append(need, r)
	}
	for r := rune(0x1ea0); r <= 0x1ef9; r++ { // Vietnamese
		need = append(need, r)
	}
	for r := rune(0x410); r <= 0x44f; r++ { // Cyrillic
		need = append(need, r)
	}
	need = append(need, []rune("ƠơƯưȘșȚțẞЁёІіЇїЄєҐґЎўЂђЋћЉљЊњЏџ")...)
	need = append(need, []rune("ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρστυφχψωςΆΈΉΊΌΎΏάέήίόύώϊϋΐΰ")...)
	need = append(need, []rune("°−–—±≤≥→←↑·²³½¼¾Δθ₂₀₁«»„“”‘’…€£×÷\u00a0"+string(noGlyph))...)
	for name, ttf := range map[string][]byte{"regular": liberationsansregular.TTF, "bold": liberationsansbold.TTF} {
		font, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		var buffer sfnt.Buffer
		for _, r := range need {
			if g, err := font.GlyphIndex(&buffer, r); err != nil || g == 0 {
				t.Errorf("%s lacks %q (%U)", name, r, r)
			}
		}
	}
}

func TestWhatCannotBePrintedBecomesABox(t *testing.T) {
	l, err := newLetters()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ in, want string }{
		{"Łukasz Żółć", "Łukasz Żółć"},
		{"Nguye\u0302\u0303n", "Nguyễn"}, // composed
		{"12\u202fgpm, non\u2011stop", "12\u00a0gpm, non-stop"},
		{"田中", "□□"},
		{"a😀b\xff", "a□b□"},
		{"a\x00b\u200bc", "abc"},
	} {
		if got := l.printable(c.in); got != c.want {
			t.Errorf("printable(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}
