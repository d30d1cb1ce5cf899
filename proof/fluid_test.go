package proof

import "testing"

// holds runs a subject's rows: each must pass and have its own name, source and
// standing.
func holds(t *testing.T, rows []Row) {
	t.Helper()
	seen := map[string]bool{}
	for _, v := range Run(rows) {
		if seen[v.ID] || v.Subject == "" || v.What == "" || v.Unit == "" || v.Source == "" || v.Standing == "" {
			t.Errorf("%q is named twice or incomplete", v.ID)
		}
		seen[v.ID] = true
		if !v.Pass {
			t.Errorf("%s: %.10g %s, published %.10g, allowed ±%.3g (%v)", v.ID, v.Value, v.Unit, v.Published, v.Tolerance(), v.Err)
		}
	}
}

func TestWaterAndGlycolRowsHold(t *testing.T) { holds(t, fluidRows()) }

func TestUnitRowsHold(t *testing.T) { holds(t, unitsRows()) }
