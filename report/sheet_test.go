package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"golang.org/x/image/font/sfnt"

	"curvewright/settings"
	"curvewright/units"
)

func pdfOf(t *testing.T, sheet *settings.Sheet, opts PDFOptions) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := SheetPDF(&b, sheet, opts); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pagesOf(t *testing.T, pdf []byte) int {
	t.Helper()
	api.DisableConfigDir()
	if err := api.Validate(bytes.NewReader(pdf), nil); err != nil {
		t.Fatalf("the PDF is not valid: %v", err)
	}
	n, err := api.PageCount(bytes.NewReader(pdf), nil)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

var options = PDFOptions{Paper: A4, Date: "2026-11-25", Version: "0.1.0"}

func TestNormalJobFillsOneSheetOfPaper(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		for _, system := range []units.System{units.SI, units.US} {
			opts := options
			opts.Paper = paper
			if n := pagesOf(t, pdfOf(t, fixture(system), opts)); n != 2 {
				t.Errorf("paper %d, %s: %d pages, want 2", paper, system, n)
			}
		}
	}
}

func TestPrintHoldsWhatThePersonNeeds(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed: the text of the PDF was not read back")
	}
	for _, paper := range []Paper{A4, Letter} {
		opts := options
		opts.Paper = paper
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, pdfOf(t, fixture(units.US), opts), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(tool, "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(out), "\u00a0", " ")
		for _, want := range []string{
			"Brânduș & Nguyễn house", "Ελένη Παπαδοπούλου", "Łukasz Żółć", "Спальня Ольги", "Bedroom Ștefan", "Saint-Åsgarð",
			"151 °F", "145 – 157 °F, fair", "−22 – 32 °F", "STOP", "SHORT", "Caution:", "scalds", "page 1 of 2", "page 2 of 2",
			"What each room needs", "signature", "Curvewright 0.1.0",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("paper %d: the print lacks %q", paper, want)
			}
		}
		if strings.ContainsRune(text, noGlyph) {
			t.Errorf("paper %d: the print has a character without a glyph", paper)
		}
	}
}

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

func TestSameSheetGivesTheSameBytes(t *testing.T) {
	want := pdfOf(t, fixture(units.US), options)
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			var b bytes.Buffer
			if err := SheetPDF(&b, fixture(units.US), options); err != nil || !bytes.Equal(b.Bytes(), want) {
				t.Errorf("the bytes differ (error %v)", err)
			}
		})
	}
	wait.Wait()
}

func TestHardSheetsStillPrint(t *testing.T) {
	long := fixture(units.US)
	for i := range 60 {
		long.Circuits[0].Rooms = append(long.Circuits[0].Rooms, settings.CircuitRoom{Name: fmt.Sprintf("Room %d", i), Need: units.Fahrenheit(120)})
		long.Sections = append(long.Sections, long.Sections[i%9])
		long.Findings = append(long.Findings, long.Findings[1])
	}
	wordy := fixture(units.SI)
	wordy.Job = strings.Repeat("Donaudampfschifffahrtsgesellschaftshaus", 6)
	wordy.Sections[0].Lines[0].Value = strings.Repeat("very ", 30) + "long"
	wordy.Sections[0].Lines[0].Why = strings.Repeat("because ", 2000) + strings.Repeat("x", 900)
	wordy.Circuits[0].Name = "😀 مرحبا 田中 " + strings.Repeat("W", 90)
	broken := fixture(units.US)
	nan := units.Temperature(math.NaN())
	for i := range broken.Circuits {
		c := &broken.Circuits[i]
		c.Limit = nan
		for k := range c.Points {
			c.Points[k].Hours = units.Time(math.Inf(1))
			if k%2 == 0 {
				c.Points[k].Return, c.Points[k].Rooms = nan, nil
			}
			c.Band[k].High = nan
		}
	}
	for name, c := range map[string]struct {
		sheet *settings.Sheet
		pages func(int) bool
	}{
		"empty":  {&settings.Sheet{}, func(n int) bool { return n == 1 }},
		"long":   {long, func(n int) bool { return n > 2 && n < 20 }},
		"wordy":  {wordy, func(n int) bool { return n >= 2 }},
		"broken": {broken, func(n int) bool { return n == 2 }},
	} {
		pdf := pdfOf(t, c.sheet, options)
		if n := pagesOf(t, pdf); !c.pages(n) {
			t.Errorf("%s: %d pages", name, n)
		}
		var text, js bytes.Buffer
		if err := SheetText(&text, c.sheet, 80); err != nil {
			t.Errorf("%s: text: %v", name, err)
		}
		if strings.Contains(text.String(), "NaN") || strings.Contains(text.String(), "Inf") {
			t.Errorf("%s: the text holds what is no number", name)
		}
		if err := SheetJSON(&js, c.sheet); err != nil || !json.Valid(js.Bytes()) {
			t.Errorf("%s: JSON: %v, valid %v", name, err, json.Valid(js.Bytes()))
		}
	}
}

func TestDateThatIsNoDayIsRefused(t *testing.T) {
	err := SheetPDF(&bytes.Buffer{}, fixture(units.US), PDFOptions{Date: "25.11.2026"})
	if err == nil || !strings.Contains(err.Error(), "25.11.2026") || !strings.Contains(err.Error(), "2026-11-25") {
		t.Errorf("error %v, want one with what was given and what would be accepted", err)
	}
}

func TestTextIsWhatWasAgreed(t *testing.T) {
	sheet := fixture(units.US)
	for _, width := range []int{80, 100} {
		var b bytes.Buffer
		if err := SheetText(&b, sheet, width); err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(b.String(), "\n") {
			if columnsOf(l) > width {
				t.Errorf("a line is wider than %d: %s", width, l)
			}
		}
		golden(t, fmt.Sprintf("sheet-%d.txt", width), b.String())
	}
	var b bytes.Buffer
	if err := WhyText(&b, sheet.Sections[3].Lines[2], units.US); err != nil {
		t.Fatal(err)
	}
	golden(t, "why-us.txt", b.String())
	b.Reset()
	if err := WhyText(&b, sheet.Sections[3].Lines[2], units.SI); err != nil {
		t.Fatal(err)
	}
	golden(t, "why-si.txt", b.String())
}

func TestRangeSaysItsUnitOnce(t *testing.T) {
	for _, c := range []struct{ allowed, want string }{
		{"85 °F to 185 °F", "85 – 185 °F"},
		{"−30 °F to 32 °F", "−30 – 32 °F"},
		{"10,000 Btu/h to 85,000 Btu/h", "10,000 – 85,000 Btu/h"},
		{"800 W to 20 kW", "800 W – 20 kW"},
		{"1 to 1.6", "1 – 1.6"},
		{"up to 185 °F", "up to 185 °F"},
		{"wired to the boiler", "wired to the boiler"},
		{"2 to 6 points, 1 to 7 days", "2 to 6 points, 1 to 7 days"},
		{"fixed", "fixed"},
		{"", ""},
	} {
		if got := strings.ReplaceAll(rangeWords(c.allowed), "\u00a0", " "); got != c.want {
			t.Errorf("rangeWords(%q) = %q, want %q", c.allowed, got, c.want)
		}
	}
}

func TestLongTableOfReadingsKeepsEndsAndTens(t *testing.T) {
	for _, c := range []struct{ outdoor, want string }{
		{"−6 0 5 10 15 20 25 30 35", "−6 0 10 20 30 35"},
		{"−21 −20 −16 −12 −8 −4 0 4 8", "−21 −20 −12 −4 0 8"},
		{"1 2 3", "1 2 3"},
	} {
		if got := strings.Join(fewer(strings.Fields(c.outdoor), 4), " "); got != c.want {
			t.Errorf("fewer(%s) = %s, want %s", c.outdoor, got, c.want)
		}
	}
}

func TestNoLineBreaksWithinARange(t *testing.T) {
	sheet := fixture(units.US)
	for width := 60; width <= 100; width++ {
		var b bytes.Buffer
		if err := SheetText(&b, sheet, width); err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(b.String(), "\n") {
			l = strings.TrimSpace(l)
			if strings.HasSuffix(l, "–") {
				t.Errorf("width %d: a range is broken: %s", width, l)
			}
		}
	}
}

func TestTextCarriesNoControlSequence(t *testing.T) {
	sheet := fixture(units.US)
	sheet.Job = "\x1b[2J\x07house"
	sheet.Circuits[0].Rooms[0].Name = "\x1b]0;title\x07room"
	var b bytes.Buffer
	if err := SheetText(&b, sheet, 80); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsAny(b.String(), "\x1b\x07") || !utf8.Valid(b.Bytes()) {
		t.Error("a name could steer the terminal")
	}
}

func TestJSONIsWhatWasAgreed(t *testing.T) {
	sheet := fixture(units.US)
	sheet.Circuits, sheet.Sections, sheet.Load.Rooms, sheet.Expected = sheet.Circuits[1:2], sheet.Sections[3:4], sheet.Load.Rooms[:1], sheet.Expected[:1]
	c := &sheet.Circuits[0]
	c.Points, c.Band = slices.Clone(c.Points[:2]), c.Band[:2]
	sheet.Load.Balance = 0 // not computed
	var b bytes.Buffer
	if err := SheetJSON(&b, sheet); err != nil {
		t.Fatal(err)
	}
	golden(t, "sheet.json", b.String())
}

// failing is a place that cannot be written to.
type failing struct{}

var errFull = errors.New("disk full")

func (failing) Write([]byte) (int, error) { return 0, errFull }

func TestFailureToWriteIsPassedOn(t *testing.T) {
	sheet := fixture(units.US)
	for name, err := range map[string]error{
		"pdf": SheetPDF(failing{}, sheet, options), "text": SheetText(failing{}, sheet, 80), "json": SheetJSON(failing{}, sheet),
		"why": WhyText(failing{}, sheet.Sections[0].Lines[0], units.US),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: error %v, want %v", name, err, errFull)
		}
	}
}
