package catalogue

import (
	"math"
	"strings"
	"testing"

	"curvewright/building"
	"curvewright/job"
	"curvewright/units"
)

// around gives a house with one entry in it, so that the strict check sees it.
func around(t *testing.T, c *job.Construction, e *job.Emitter) *job.Job {
	t.Helper()
	j, err := job.Read([]byte("curvewright: 1\njob: a house\nsite: {design_outdoor: -10 °C}\nhouse: {floor_area: 120 m², era: 1946-1979}\ncircuits:\n  - {name: all, emitters: [{sized: {like: fin-tube}}]}\n"))
	if err != nil {
		t.Fatal(err)
	}
	if c != nil {
		j.Constructions = []job.Construction{*c}
	}
	if e != nil {
		j.Circuits[0].Emitters = []job.Emitter{*e}
	}
	return j
}

func TestEveryEntryCanBeUsedInAJob(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range List() {
		if seen[e.ID] {
			t.Errorf("%s is there twice", e.ID)
		}
		seen[e.ID] = true
		if found, ok := Find(e.ID); !ok || found.ID != e.ID {
			t.Errorf("%s is not found", e.ID)
		}
		if e.Source == "" || e.Kind == "" || (e.Construction == nil) == (e.Emitter == nil) {
			t.Errorf("%s is not whole: %+v", e.ID, e)
		}
		var j *job.Job
		if e.Emitter != nil {
			made, err := e.Sized(Size{Length: 1.5, Area: 12, Pieces: 8})
			if err != nil {
				t.Errorf("%s: %v", e.ID, err)
				continue
			}
			j = around(t, nil, &made)
		} else {
			j = around(t, e.Construction, nil)
		}
		document, err := job.Write(j)
		if err != nil {
			t.Errorf("%s: %v", e.ID, err)
			continue
		}
		if _, err := job.Read(document); err != nil {
			t.Errorf("%s: %v", e.ID, err)
		}
	}
	if _, ok := Find("nothing of the kind"); ok {
		t.Error("found an entry that is not there")
	}
}

// U-values worked out by hand with the sums of resistances of ISO 6946; bridged ones
// only between the walls of what is plausible.
func TestUValuesFollowFromLayers(t *testing.T) {
	for _, row := range []struct {
		id          string
		low, high   units.Transmittance
		howReckoned string
	}{
		{"wall-brick-solid", 2.074, 2.076, "1/(0.13 + 0.015/0.57 + 0.22/0.77 + 0.04)"},
		{"wall-brick-cavity", 1.567, 1.569, "1/(0.13 + 0.013/0.57 + 2·0.102/0.77 + 0.18 + 0.04)"},
		{"wall-aerated", 0.234, 0.240, "1/(0.13 + 0.01/0.57 + 0.365/0.09 + 0.015/1 + 0.04)"},
		{"wall-frame-90", 0.45, 0.60, "between 0.089/0.040 alone and the same with 23 % timber"},
		{"wall-frame-140", 0.30, 0.42, "as above, 0.140/0.040"},
		{"roof-loft-bare", 2.46, 2.48, "1/(0.10 + 0.20 + 0.016/0.25 + 0.04)"},
		{"roof-loft-400", 0.095, 0.11, "0.3/0.04 + 0.1/0.04 bridged"},
		{"floor-concrete-100", 0.302, 0.318, "1/(0.17 + 0.09 + 0.1/0.035 + 0.043 + 0.04)"},
	} {
		e, ok := Find(row.id)
		if !ok {
			t.Errorf("%s is not there", row.id)
			continue
		}
		a := building.Assembly{Name: e.ID}
		switch e.Construction.Facing {
		case "roof":
			a.Flow = building.Upward
		case "floor":
			a.Flow = building.Downward
		}
		for _, l := range e.Construction.Layers {
			b := building.Layer{Name: l.Material, Thickness: l.Thickness.Value, Conductivity: l.Conductivity.Value, Resistance: l.Resistance.Value}
			if l.BridgedBy.Set {
				b.Bridges = []building.Bridge{{Share: l.BridgeShare.Value, Conductivity: l.BridgedBy.Value}}
			}
			a.Layers = append(a.Layers, b)
		}
		u, err := a.Transmittance()
		if err != nil || u.Transmittance < row.low || u.Transmittance > row.high {
			t.Errorf("%s: U = %.4f (%v), by %s between %.3f and %.3f", row.id, float64(u.Transmittance), err, row.howReckoned, float64(row.low), float64(row.high))
		}
	}
}

func TestEmittersGrowWithTheirSize(t *testing.T) {
	panel, _ := Find("panel-22-600")
	made, err := panel.Sized(Size{Length: 1.4})
	if err != nil || math.Abs(float64(made.Radiator.Output.Value)-1.4*1710) > 0.1 {
		t.Errorf("1.4 m of panel: %v, %v", made.Radiator, err)
	}
	if panel.Emitter.Radiator.Output.Value != 1710 {
		t.Error("taking an entry changed it")
	}
	iron, _ := Find("cast-iron-3-columns-38")
	if made, err = iron.Sized(Size{Pieces: 10}); err != nil || made.CastIron.EDR.Value != 50 {
		t.Errorf("ten sections of 5 EDR: %v, %v", made.CastIron, err)
	}
	rail, _ := Find("towel-rail-1800-600")
	if made, err = rail.Sized(Size{}); err != nil || made.Count != 0 {
		t.Errorf("one towel rail: %+v, %v", made, err)
	}
	floor, _ := Find("floor-screed-150")
	for _, e := range []Entry{panel, iron, floor} {
		if _, err := e.Sized(Size{}); err == nil || !strings.Contains(err.Error(), "accepted") {
			t.Errorf("%s without a size: %v", e.ID, err)
		}
	}
	if _, err := panel.Sized(Size{Length: 4000}); err == nil {
		t.Error("a panel of 4 km was made")
	}
	wall, _ := Find("wall-log")
	if _, err := wall.Sized(Size{Length: 1}); err == nil {
		t.Error("a wall was made an emitter")
	}
}
