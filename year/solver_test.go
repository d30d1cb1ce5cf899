package year

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"testing"

	"curvewright/units"
)

//go:embed testdata/ode.csv
var solved string

// TestAgainstAGeneralSolver holds three rooms against what a general-purpose solver gives
// for the same network: testdata/ode.csv, made by testdata/ode.py.
func TestAgainstAGeneralSolver(t *testing.T) {
	h, _, _ := plainHouse(t, 3)
	h.Doors = []Door{{0, 1, 20}, {1, 2, 35}}
	for i, open := range []units.LossCoefficient{25, 30, 40} {
		h.Rooms[i].Open, h.Rooms[i].Between = open, units.LossCoefficient(12*i)
	}
	for k := 8; k < 20; k++ {
		h.Rooms[1].Gains[k] = 700
	}
	w := wavyYear(6)
	w.Sun = nil
	worst := map[units.Time]float64{}
	for _, step := range []units.Time{60, 30} {
		got := bare(t, h, w, step)
		rows := 0
		for _, line := range strings.Split(strings.TrimSpace(solved), "\n") {
			cells := strings.Split(line, ",")
			hr, err := strconv.Atoi(cells[0])
			if err != nil {
				continue // the heading
			}
			for r := range 3 {
				want := must[float64](t)(strconv.ParseFloat(cells[r+1], 64))
				worst[step] = math.Max(worst[step], math.Abs(got[hr-1][r]-want))
			}
			rows++
		}
		if rows != len(w.Outdoor) {
			t.Fatalf("%d hours in the table, want %d", rows, len(w.Outdoor))
		}
	}
	t.Logf("the rooms are up to %.3f K off in steps of a minute, %.3f K in half of it", worst[60], worst[30])
	if worst[60] > 0.05 || worst[30] > worst[60] {
		t.Errorf("the rooms are up to %.3f K off, %.3f K in half the step", worst[60], worst[30])
	}
}
