package report_test

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/units"
)

// What is printed, tested as a PDF. These tests stand outside the package, since the
// PDF is made by one that imports it.

func pdfOf(t *testing.T, sheet *settings.Sheet, opts report.PDFOptions) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Sheet(&b, sheet, opts); err != nil {
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

var options = report.PDFOptions{Paper: report.A4, Date: "2026-11-25", Version: "0.1.0"}

func TestNormalJobFillsOneSheetOfPaper(t *testing.T) {
	for _, paper := range []report.Paper{report.A4, report.Letter} {
		for _, system := range []units.System{units.SI, units.US} {
			opts := options
			opts.Paper = paper
			if n := pagesOf(t, pdfOf(t, report.Fixture(system), opts)); n != 2 {
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
	for _, paper := range []report.Paper{report.A4, report.Letter} {
		opts := options
		opts.Paper = paper
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, pdfOf(t, report.Fixture(units.US), opts), 0o600); err != nil {
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
		if strings.ContainsRune(text, '□') {
			t.Errorf("paper %d: the print has a character without a glyph", paper)
		}
	}
}

func TestSameSheetGivesTheSameBytes(t *testing.T) {
	want := pdfOf(t, report.Fixture(units.US), options)
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			var b bytes.Buffer
			if err := pdf.Sheet(&b, report.Fixture(units.US), options); err != nil || !bytes.Equal(b.Bytes(), want) {
				t.Errorf("the bytes differ (error %v)", err)
			}
		})
	}
	wait.Wait()
}

func TestDateThatIsNoDayIsRefused(t *testing.T) {
	err := pdf.Sheet(&bytes.Buffer{}, report.Fixture(units.US), report.PDFOptions{Date: "25.11.2026"})
	if err == nil || !strings.Contains(err.Error(), "25.11.2026") || !strings.Contains(err.Error(), "2026-11-25") {
		t.Errorf("error %v, want one with what was given and what would be accepted", err)
	}
}

func TestHardSheetsStillPrint(t *testing.T) {
	pages := map[string]func(int) bool{
		"empty":  func(n int) bool { return n == 1 },
		"long":   func(n int) bool { return n > 2 && n < 20 },
		"wordy":  func(n int) bool { return n >= 2 },
		"broken": func(n int) bool { return n == 2 },
	}
	for name, sheet := range report.HardSheets() {
		if n := pagesOf(t, pdfOf(t, sheet, options)); !pages[name](n) {
			t.Errorf("%s: %d pages", name, n)
		}
	}
}

// failing is a place that cannot be written to.
type failing struct{}

var errFull = errors.New("disk full")

func (failing) Write([]byte) (int, error) { return 0, errFull }

func TestFailureToWriteThePrintIsPassedOn(t *testing.T) {
	if err := pdf.Sheet(failing{}, report.Fixture(units.US), options); !errors.Is(err, errFull) {
		t.Errorf("error %v, want %v", err, errFull)
	}
}

func TestBoilerRoomIsPrintedAfterTheSettings(t *testing.T) {
	plain := pagesOf(t, pdfOf(t, report.Fixture(units.US), options))
	for _, paper := range []report.Paper{report.A4, report.Letter} {
		opts := options
		opts.Paper = paper
		sheet := report.BoilerRoomSheet(units.US)
		if n := pagesOf(t, pdfOf(t, sheet, opts)); n != plain+1 {
			t.Errorf("paper %d: %d pages, want the boiler room on one after %d", paper, n, plain)
		}
	}
	long := report.BoilerRoomSheet(units.SI)
	for range 40 {
		long.Sections = append(long.Sections, long.Sections[len(long.Sections)-1])
		long.Sensors[0].Rows = append(long.Sensors[0].Rows, long.Sensors[0].Rows...)[:min(6*1000, len(long.Sensors[0].Rows)*2)]
	}
	if n := pagesOf(t, pdfOf(t, long, options)); n < plain+2 || n > plain+20 {
		t.Errorf("a long one: %d pages", n)
	}
}

// A real house with two circuits has longer words than a made-up one: the examples
// are solved and printed, in their own units and in the others.

func TestEveryExamplePrintsItsSettingsOnTwoPages(t *testing.T) {
	for _, e := range examples.List() {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		with := settings.DefaultOptions(j)
		for _, system := range []units.System{units.US, units.SI} {
			with.System = system
			sheet, err := settings.Solve(j, with)
			if err != nil {
				t.Fatalf("%s: %v", e.Name, err)
			}
			for name, paper := range map[string]report.Paper{"A4": report.A4, "Letter": report.Letter} {
				opts := options
				opts.Paper = paper
				set, all, err := report.SettingsPages(sheet, opts, pdf.New)
				if err != nil {
					t.Errorf("%s on %s: %v", e.Name, name, err)
					continue
				}
				if set > 2 || all > 5 {
					t.Errorf("%s on %s in %s: settings on %d pages of %d, want 2 of 5 at most", e.Name, name, system, set, all)
				}
			}
		}
	}
}
