package report

import (
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// A real house with two circuits has longer words than a made-up one: the examples
// are solved and printed, in their own units and in the others.

func TestEveryExamplePrintsItsSettingsOnTwoPages(t *testing.T) {
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
			for name, paper := range map[string]Paper{"A4": A4, "Letter": Letter} {
				p, err := layOutSheet(sheet, PDFOptions{Paper: paper, Date: "2026-11-25", Version: "0.1.0"})
				if err != nil {
					t.Errorf("%s on %s: %v", e.Name, name, err)
					continue
				}
				if all := p.pdf.PageNo(); p.settingsPages > 2 || all > 5 {
					t.Errorf("%s on %s in %s: settings on %d pages of %d, want 2 of 5 at most", e.Name, name, system, p.settingsPages, all)
				}
			}
		}
	}
}
