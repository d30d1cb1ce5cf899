package report_test

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/units"
)

// A real house with two circuits has longer words than a made-up one: the examples
// are solved and printed, in their own units and in the others.

func TestEveryExamplePrintsOnTwoPages(t *testing.T) {
	api.DisableConfigDir()
	for _, e := range examples.List() {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		opts := settings.DefaultOptions(j)
		for _, system := range []units.System{units.US, units.SI} {
			opts.System = system
			sheet, err := settings.Solve(j, opts)
			if err != nil {
				t.Fatalf("%s: %v", e.Name, err)
			}
			for name, paper := range map[string]report.Paper{"A4": report.A4, "Letter": report.Letter} {
				var pdf bytes.Buffer
				if err := report.SheetPDF(&pdf, sheet, report.PDFOptions{Paper: paper, Date: "2026-11-25", Version: "0.1.0"}); err != nil {
					t.Errorf("%s on %s: %v", e.Name, name, err)
					continue
				}
				if n, err := api.PageCount(bytes.NewReader(pdf.Bytes()), nil); err != nil || n > 2 {
					t.Errorf("%s on %s in %s: %d pages (error %v), want 2 at most", e.Name, name, system, n, err)
				}
			}
		}
	}
}
