package job

import (
	"strings"
	"testing"

	houses "curvewright/examples"
)

// Every field that a document of ours writes is a spot, with the text as written.
func TestSpotsFindEveryField(t *testing.T) {
	for _, e := range houses.List() {
		j, err := Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		filled := 0
		for _, s := range Spots(j) {
			if s.Doc == "" && !strings.HasSuffix(s.Path, "]") {
				t.Errorf("%s: %s says nothing of what it is", e.Name, s.Path)
			}
			if text := s.Text(); text != "" {
				filled++
				if !strings.Contains(e.Document, strings.Split(text, " ")[0]) {
					t.Errorf("%s: %s is %q, which the document does not say", e.Name, s.Path, text)
				}
			}
		}
		if filled < 10 {
			t.Errorf("%s: only %d fields are filled", e.Name, filled)
		}
	}
}

func TestDraftKeepsWhatIsThere(t *testing.T) {
	j, err := Draft([]byte("curvewright: 1\njob: Half a house\nsite: {}\ncircuits:\n  - name: Floors\n"))
	if err == nil {
		t.Fatal("a job without a design outdoor temperature passed as finished")
	}
	if j == nil || j.Name != "Half a house" || len(j.Circuits) != 1 {
		t.Fatalf("the draft lost what was there: %+v", j)
	}
	if !strings.Contains(err.Error(), "design_outdoor") {
		t.Errorf("does not say what is missing: %v", err)
	}
	// However much is missing, all that is there is kept.
	rooms := strings.Repeat("  - {area: 100 ft²}\n", 2*maxFaults)
	if j, _ := Draft([]byte("curvewright: 1\nrooms:\n" + rooms)); j == nil || len(j.Rooms) != 2*maxFaults || !j.Rooms[2*maxFaults-1].Area.Set {
		t.Errorf("the draft of many unnamed rooms lost some")
	}
	if j, err := Draft([]byte("- not a job\n")); j != nil && err == nil {
		t.Errorf("took a list for a job: %+v", j)
	}
}
