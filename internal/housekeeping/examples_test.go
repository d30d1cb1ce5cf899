package housekeeping

import (
	"path"
	"slices"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// An example that cannot be solved would be the first thing a newcomer sees.
func TestEveryExampleIsSolvedAndListed(t *testing.T) {
	const index = "examples/README.md"
	listed := links(t, index)
	for _, name := range files(t, ".yaml", ".yml", ".json") {
		if path.Dir(name) != "examples" {
			continue
		}
		t.Run(path.Base(name), func(t *testing.T) {
			if !slices.Contains(listed, name) {
				t.Errorf("it is not in %s", index)
			}
			if strings.HasSuffix(name, "-visit.yaml") {
				return // the tests of the folder judge it
			}
			j, err := job.Read([]byte(read(t, name)))
			if err != nil {
				t.Fatal(err)
			}
			for _, system := range []units.System{units.US, units.SI} {
				o := settings.DefaultOptions(j)
				o.System = system
				sheet, err := settings.Solve(j, o)
				if err != nil {
					t.Fatalf("in units of %v: %v", system, err)
				}
				if len(sheet.Sections) == 0 || len(sheet.Circuits) != len(j.Circuits) {
					t.Errorf("in units of %v the sheet has %d sections, and %d circuits for the job's %d",
						system, len(sheet.Sections), len(sheet.Circuits), len(j.Circuits))
				}
			}
		})
	}
}
