package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"curvewright/settings"
	"curvewright/units"
)

// hardSheets are the empty, the long, the wordy and the broken.
func hardSheets() map[string]*settings.Sheet {
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
	return map[string]*settings.Sheet{"empty": {}, "long": long, "wordy": wordy, "broken": broken}
}

func TestHardSheetsStillRead(t *testing.T) {
	for name, sheet := range hardSheets() {
		var text, js bytes.Buffer
		if err := SheetText(&text, sheet, 80); err != nil {
			t.Errorf("%s: text: %v", name, err)
		}
		if strings.Contains(text.String(), "NaN") || strings.Contains(text.String(), "Inf") {
			t.Errorf("%s: the text holds what is no number", name)
		}
		if err := SheetJSON(&js, sheet); err != nil || !json.Valid(js.Bytes()) {
			t.Errorf("%s: JSON: %v, valid %v", name, err, json.Valid(js.Bytes()))
		}
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
		"text": SheetText(failing{}, sheet, 80), "json": SheetJSON(failing{}, sheet),
		"why": WhyText(failing{}, sheet.Sections[0].Lines[0], units.US),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: error %v, want %v", name, err, errFull)
		}
	}
}
