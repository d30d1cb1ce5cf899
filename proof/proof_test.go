package proof_test

import (
	"testing"

	"curvewright/proof"
)

// TestEveryRowHolds runs what curvewright proof prints.
func TestEveryRowHolds(t *testing.T) {
	seen := map[string]bool{}
	for _, v := range proof.Run(proof.All()) {
		switch {
		case v.ID == "" || seen[v.ID]:
			t.Errorf("row %q (%s): its name is empty or stands twice", v.ID, v.What)
		case v.Subject == "" || v.What == "" || v.Source == "" || v.Standing == "":
			t.Errorf("row %s lacks subject, words, source or standing", v.ID)
		case v.Tolerance() <= 0:
			t.Errorf("row %s has no tolerance", v.ID)
		case v.Err != nil:
			t.Errorf("row %s: %v", v.ID, v.Err)
		case !v.Pass:
			t.Errorf("row %s: %s: ours %g, published %g ± %g %s (%s)", v.ID, v.What, v.Value, v.Published, v.Tolerance(), v.Unit, v.Source)
		}
		seen[v.ID] = true
	}
	if len(seen) < 30 {
		t.Errorf("%d rows; at least thirty are wanted", len(seen))
	}
}

// TestWrongEngineFails shows that a row can fail.
func TestWrongEngineFails(t *testing.T) {
	rows := proof.All()
	for i := range rows {
		ours := rows[i].Ours
		rows[i].Ours = func() (float64, error) {
			v, err := ours()
			return v + 3*rows[i].Tolerance(), err
		}
	}
	for _, v := range proof.Run(rows) {
		if v.Pass {
			t.Errorf("row %s holds though our value was moved by three tolerances: %g against %g ± %g", v.ID, v.Value, v.Published, v.Tolerance())
		}
	}
}
