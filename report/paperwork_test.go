package report_test

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/units"
)

// The record and the household's sheet, printed.

func pictureOf(t *testing.T, kind string, w, h int) []byte {
	t.Helper()
	p := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			p.SetNRGBA(x, y, color.NRGBA{R: uint8(255 * x / w), G: uint8(255 * y / h), B: 90, A: 255})
		}
	}
	var b bytes.Buffer
	var err error
	if kind == "png" {
		err = png.Encode(&b, p)
	} else {
		err = jpeg.Encode(&b, p, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func aRecord(t *testing.T) *report.Paperwork {
	cells := func(texts ...string) []report.PaperCell {
		var row []report.PaperCell
		for i, s := range texts {
			row = append(row, report.PaperCell{Text: s, Bold: i == 1})
		}
		return row
	}
	rows := [][]report.PaperCell{}
	for range 70 {
		rows = append(rows, cells("Boiler supply", "135 °F", "134 °F ± 4 °F", "right"))
	}
	rows[3][3] = report.PaperCell{Text: "wrong", Loud: true}
	return &report.Paperwork{Title: "Record for the file", Job: "Brânduș & Nguyễn house", Place: "Saint-Åsgarð", Lead: []string{"Content as EN 14336, from memory."},
		Lang: "en", PageOf: "page %d of %d", Parts: []report.PaperPart{
			{Title: "Readings and verdicts", Columns: []string{"Reading", "Read", "Should be", ""}, Widths: []float64{3, 1, 2, 1}, Rows: rows, Cautions: []string{"Hot water scalds."}},
			{Title: "Boiler room", Drawing: &report.PaperDrawing{Sheet: report.BoilerRoomSheet(units.US), Say: strings.ToUpper}},
			{Title: "Photos", Pictures: []report.PaperPicture{
				{Data: pictureOf(t, "jpeg", 640, 480), Caption: "The label of the boiler"},
				{Data: pictureOf(t, "png", 300, 900), Caption: "The vent"},
				{Data: []byte("no picture"), Caption: "A damaged one"},
			}},
			{Title: "Signed", Pictures: []report.PaperPicture{{Data: pictureOf(t, "png", 960, 320), Caption: "Orla Penhallow, installer", Small: true}}},
			{Title: "Square", Square: &report.PaperSquare{Side: 21, Black: func(x, y int) bool { return (x*y+x)%3 == 0 }, Text: "These are the settings."}},
		}}
}

func printed(t *testing.T, opts report.PDFOptions) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Paperwork(&b, aRecord(t), opts); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestARecordIsPrinted(t *testing.T) {
	for _, paper := range []report.Paper{report.A4, report.Letter} {
		opts := options
		opts.Paper = paper
		data := printed(t, opts)
		if n := pagesOf(t, data); n < 3 || n > 6 {
			t.Errorf("paper %d: %d pages", paper, n)
		}
		if !bytes.Equal(data, printed(t, opts)) {
			t.Errorf("paper %d: the same record gives other bytes", paper)
		}
		text := textOf(t, data)
		for _, want := range []string{"Brânduș & Nguyễn house", "EN 14336", "wrong", "A damaged one", "The label of the boiler", "BOILER", "page 2 of ", "Orla Penhallow"} {
			if text != "" && !strings.Contains(text, want) {
				t.Errorf("paper %d: the record lacks %q", paper, want)
			}
		}
	}
	if err := pdf.Paperwork(&bytes.Buffer{}, nil, options); err == nil {
		t.Error("nothing was printed")
	}
	if err := pdf.Paperwork(&bytes.Buffer{}, aRecord(t), report.PDFOptions{Date: "yesterday"}); err == nil || !strings.Contains(err.Error(), "record") {
		t.Errorf("a day that is none: %v", err)
	}
	if err := pdf.Paperwork(failing{}, aRecord(t), options); err == nil {
		t.Error("a failure to write was kept quiet")
	}
}

func aHousehold() *report.HouseholdSheet {
	part := func(title string) report.HouseholdPart {
		return report.HouseholdPart{Title: title, Text: []string{strings.Repeat("The rooms are warm all the same, and this is how the boiler burns least. ", 2)}}
	}
	sheet := &report.HouseholdSheet{Title: "How your heating works", House: "Brânduș & Nguyễn house", Lang: "en", Lead: strings.Repeat("The colder it is outside, the warmer the water. ", 2),
		Days: []report.HouseholdDay{
			{Outdoors: "5 °F outside", Waters: []string{"water", "158 °F House", "100 °F Slab"}, Cold: 1, Warmth: 0.9},
			{Outdoors: "35 °F outside", Waters: []string{"water", "120 °F House"}, Cold: 0.5, Warmth: 0.5},
			{Outdoors: "60 °F outside", Waters: []string{"water", "90 °F House"}, Warmth: 0.1}},
		Parts: []report.HouseholdPart{part("Lukewarm is right"), part("When the house is warm"), part("What you may turn"), part("What to leave alone"), part("Hot water"), part("If it is cold"), part("At once")},
		Call:  report.HouseholdPart{Title: "Whom to call", Text: []string{"your installer ________"}}}
	sheet.Parts[4].Care, sheet.Parts[5].Numbered, sheet.Parts[6].Danger = true, true, true
	return sheet
}

func TestTheHouseholdsSheetIsOnePage(t *testing.T) {
	for _, paper := range []report.Paper{report.A4, report.Letter} {
		opts := options
		opts.Paper = paper
		var b, again bytes.Buffer
		if err := pdf.Household(&b, aHousehold(), opts); err != nil {
			t.Fatal(err)
		}
		if n := pagesOf(t, b.Bytes()); n != 1 {
			t.Errorf("paper %d: %d pages", paper, n)
		}
		if err := pdf.Household(&again, aHousehold(), opts); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("paper %d: the same sheet gives other bytes", paper)
		}
	}
	// Words are left out before the print gets too small.
	full := aHousehold()
	full.Parts[0].Text, full.Parts[0].Spare = append(full.Parts[0].Text, strings.Repeat("A sentence that can be spared. ", 40)), 1
	var spared bytes.Buffer
	if err := pdf.Household(&spared, full, options); err != nil || pagesOf(t, spared.Bytes()) != 1 || strings.Contains(textOf(t, spared.Bytes()), "can be spared") {
		t.Errorf("a sheet with a sentence too many: %v", err)
	}
	wordy := aHousehold()
	wordy.Lead = strings.Repeat("word ", 4000)
	if err := pdf.Household(&bytes.Buffer{}, wordy, options); err == nil || !strings.Contains(err.Error(), "one page") {
		t.Errorf("more words than a page: %v", err)
	}
	if err := pdf.Household(&bytes.Buffer{}, nil, options); err == nil {
		t.Error("nothing was printed")
	}
}

func textOf(t *testing.T, data []byte) string {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Log("pdftotext is not installed: the text of the PDF was not read back")
		return ""
	}
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(out), "\u00a0", " ")
}

// TestPaperLooksAsItDid compares small pictures of the pages with those that were looked at.
func TestPaperLooksAsItDid(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed: the pages were not compared as pictures")
	}
	update := flag.Lookup("update").Value.String() == "true"
	var household bytes.Buffer
	if err := pdf.Household(&household, aHousehold(), options); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"record": printed(t, options), "household": household.Bytes()} {
		dir := t.TempDir()
		path := filepath.Join(dir, name+".pdf")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(tool, "-r", "36", "-gray", "-png", path, filepath.Join(dir, name)).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		pages, _ := filepath.Glob(filepath.Join(dir, name+"-*.png"))
		if len(pages) == 0 {
			t.Fatalf("%s: no pages", name)
		}
		for _, page := range pages {
			golden := filepath.Join("testdata", "page-"+filepath.Base(page))
			now, err := os.ReadFile(page)
			if err != nil {
				t.Fatal(err)
			}
			if update {
				if err := os.WriteFile(golden, now, 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			was, err := os.ReadFile(golden)
			if err != nil {
				t.Fatalf("%v; make it with -update and look at it", err)
			}
			// Other versions of the tool smooth edges otherwise.
			if off := difference(t, now, was); off > 4 {
				t.Errorf("%s differs by %.1f of 255 in the mean; see whether it is meant, then -update", golden, off)
			}
		}
	}
}

// difference is the mean over the dots of how far two pictures are apart.
func difference(t *testing.T, a, b []byte) float64 {
	t.Helper()
	one, err := png.Decode(bytes.NewReader(a))
	if err != nil {
		t.Fatal(err)
	}
	two, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if one.Bounds() != two.Bounds() {
		return 255
	}
	sum, n := 0.0, 0
	for y := range one.Bounds().Dy() {
		for x := range one.Bounds().Dx() {
			p, q := color.GrayModel.Convert(one.At(x, y)).(color.Gray), color.GrayModel.Convert(two.At(x, y)).(color.Gray)
			sum += math.Abs(float64(p.Y) - float64(q.Y))
			n++
		}
	}
	return sum / float64(n)
}
