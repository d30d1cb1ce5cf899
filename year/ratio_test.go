package year

import (
	"testing"

	"curvewright/units"
)

// TestOversizedBoilersCycle sweeps the plant size ratio (greatest output over design
// load) of a small house with thermostatic valves. A study of domestic boilers in use
// (Building Services Engineering Research and Technology, doi 10.1177/0143624420927352)
// found more than 50 cycles a day in the heating season at a ratio of 8.5, and an
// efficiency lower by 6 to 9 % above a ratio of 3. Starts with their purge, standby loss
// and a fixed least fire are what the model has of this; its figures are common practice.
func TestOversizedBoilersCycle(t *testing.T) {
	h, p, s := plainHouse(t, 4)
	for i := range p.Circuits[0].Radiators {
		p.Circuits[0].Radiators[i].Valve = Valve{Thermostatic, 2}
	}
	load := 0.0 // at −5 °C outdoors
	for _, r := range h.Rooms {
		f := r.Fabric[1]
		inRow := 1 / (1/float64(f.ToAir) + 1/float64(f.Loss.Outdoor))
		load += 25 * (float64(r.Loss.Outdoor) + inRow)
	}
	s.Circuits[0].Held = units.Celsius(65) // no outdoor reset, as found in most of them
	s.Differential, s.Rest = 8, 180
	for d := range 7 { // mornings and evenings, as is usual there
		day := units.Hours(24 * float64(d))
		s.Circuits[0].Program = append(s.Circuits[0].Program, Switch{From: day, Lower: 4, Off: true}, Switch{From: day + units.Hours(6)},
			Switch{From: day + units.Hours(9), Lower: 4, Off: true}, Switch{From: day + units.Hours(16)}, Switch{From: day + units.Hours(22), Lower: 4, Off: true})
	}
	w := wavyYear(365)
	type outcome struct{ perDay, efficiency float64 }
	var got []outcome
	ratios := []float64{1, 2, 3, 5, 8.5}
	for _, ratio := range ratios {
		p.Boiler.Most = units.Power(ratio * load)
		p.Boiler.Least = p.Boiler.Most * 0.3
		p.Boiler.Capacity, p.Boiler.Standby, p.Boiler.Start = 40e3, 4, units.KilowattHours(0.008)
		r, err := Run(h, p, s, w, Options{})
		if err != nil {
			t.Fatal(err)
		}
		days, starts := 0, 0
		for d, n := range r.StartsPerDay {
			if d < 120 || d >= 275 { // October to April
				days, starts = days+1, starts+n
			}
		}
		got = append(got, outcome{float64(starts) / float64(days), float64(r.Efficiency)})
		t.Logf("ratio %.1f: %.0f starts a day, efficiency %.3f, least fire %.1f kW", ratio, got[len(got)-1].perDay, float64(r.Efficiency), float64(p.Boiler.Least)/1000)
	}
	for i := 1; i < len(got); i++ {
		if got[i].efficiency > got[i-1].efficiency+0.002 {
			t.Errorf("efficiency rises from %.3f to %.3f as the ratio goes to %g", got[i-1].efficiency, got[i].efficiency, ratios[i])
		}
	}
	if last := got[len(got)-1]; last.perDay < 50 {
		t.Errorf("at a ratio of 8.5 only %.0f starts a day", last.perDay)
	}
}
