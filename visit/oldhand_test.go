package visit

import (
	"slices"
	"testing"

	"curvewright/units"
)

// What would somebody say who has stood in boiler rooms for thirty years? Readings as they are written on
// site, in whole degrees, with one fault each; none comes from the plant of this package.
func TestAnOldHandWouldSayTheSame(t *testing.T) {
	const ridge, baseboards, slab = "ridge-house", "short-survey", "combi-slab"
	f := func(x float64) float64 { return float64(units.Fahrenheit(x)) }
	psi := func(x float64) float64 { return x * 6894.757 }
	gpm := func(x float64) float64 { return x * 6.30902e-5 }
	type got map[Reading]float64
	one := func(m Measure) Reading { return Reading{Measure: m} }
	of := func(m Measure, circuit string) Reading { return Reading{Measure: m, Circuit: circuit} }
	// The boiler room of the first house as it should be at 20 °F; each case says what is otherwise.
	usual := got{one(OutdoorShown): f(20), one(BoilerSupply): f(135), one(BoilerReturn): f(125), one(SecondarySupply): f(134), one(SecondaryReturn): f(118),
		of(Wanted, "House"): f(135), of(Supply, "House"): f(134), of(Return, "House"): f(121), of(Wanted, "Slab"): f(94), of(Supply, "Slab"): f(94), of(Return, "Slab"): f(87)}
	for _, c := range []struct {
		says    string // by the old hand
		house   string
		outdoor float64
		calling []string
		reads   got // in place of the usual or beside it
		alone   bool
		fault   []Fault // any of these may stand first
		circuit string
		room    string
	}{
		{says: "nothing wrong here", house: ridge, outdoor: 20, fault: []Fault{Nothing}},
		{says: "the valve drives the floor hot: its motor turns the wrong way, or it hangs", house: ridge, outdoor: 20, fault: []Fault{ValveReversed, ValveStuck}, circuit: "Slab",
			reads: got{of(Supply, "Slab"): f(129), of(Return, "Slab"): f(106), one(SecondaryReturn): f(115), one(BoilerReturn): f(120)}},
		{says: "pipes cold with a call: that pump is not running", house: ridge, outdoor: 20, fault: []Fault{PumpOff}, circuit: "House",
			reads: got{of(Supply, "House"): f(133), of(Return, "House"): f(72), one(BoilerReturn): f(132), one(SecondaryReturn): f(88), of(Flow, "House"): 0}},
		{says: "supply right, return far too cold, little flow, head as set: air", house: ridge, outdoor: 20, fault: []Fault{AirInCircuit}, circuit: "House",
			reads: got{of(Return, "House"): f(98), of(Flow, "House"): gpm(1.2), of(PumpHead, "House"): psi(1.2), one(SecondaryReturn): f(95), one(BoilerReturn): f(127), one(FilterDrop): psi(0.2)}},
		{says: "control reads thirteen degrees too warm, both circuits too cool: sun on the sensor", house: ridge, outdoor: 20, fault: []Fault{WarmOutdoorSensor, WrongOutdoor},
			reads: got{one(OutdoorShown): f(33), one(BoilerSupply): f(121), one(BoilerReturn): f(113), one(SecondarySupply): f(120), one(SecondaryReturn): f(107),
				of(Wanted, "House"): f(120), of(Supply, "House"): f(120), of(Return, "House"): f(109), of(Wanted, "Slab"): f(88), of(Supply, "Slab"): f(88), of(Return, "Slab"): f(82)}},
		{says: "only the one circuit wants too much: somebody turned its curve up", house: ridge, outdoor: 20, fault: []Fault{WrongCurve}, circuit: "House",
			reads: got{one(BoilerSupply): f(155), one(BoilerReturn): f(143), one(SecondarySupply): f(154), one(SecondaryReturn): f(134), of(Wanted, "House"): f(155), of(Supply, "House"): f(154), of(Return, "House"): f(138)}},
		{says: "outdoors right, both circuits want less: it is in night mode", house: ridge, outdoor: 20, fault: []Fault{SetBack},
			reads: got{one(BoilerSupply): f(127), one(BoilerReturn): f(118), one(SecondarySupply): f(126), one(SecondaryReturn): f(112),
				of(Wanted, "House"): f(126), of(Supply, "House"): f(126), of(Return, "House"): f(114), of(Wanted, "Slab"): f(88), of(Supply, "Slab"): f(88), of(Return, "Slab"): f(82)}},
		{says: "the gauge is nearly at zero: no water, find the leak", house: ridge, outdoor: 20, fault: []Fault{LowPressure}, reads: got{one(Pressure): psi(8)}},
		{says: "the boiler is far above the header: its pump is on too low a step", house: ridge, outdoor: 20, fault: []Fault{BoilerPumpSlow},
			reads: got{one(BoilerSupply): f(158), one(BoilerReturn): f(119), one(FiringRate): 0.36}},
		{says: "everything hot but the heating: the tank has kept the boiler", house: ridge, outdoor: 20, fault: []Fault{PriorityStuck},
			reads: got{one(BoilerSupply): f(166), one(BoilerReturn): f(153), one(SecondarySupply): f(165), one(SecondaryReturn): f(153),
				of(Supply, "House"): f(72), of(Return, "House"): f(70), of(Supply, "Slab"): f(72), of(Return, "Slab"): f(71)}},
		{says: "one radiator's return is cold, the others are right: it is shut", house: ridge, outdoor: 20, fault: []Fault{BranchShut}, circuit: "House", room: "Parlour",
			reads: got{{Measure: BranchReturn, Circuit: "House", Room: "Parlour"}: f(72), {Measure: BranchReturn, Circuit: "House", Room: "Kitchen"}: f(122), {Measure: BranchReturn, Circuit: "House", Room: "Study"}: f(120)}},
		{says: "hardly any drop, more flow, three times the head: turn that pump down", house: ridge, outdoor: 20, fault: []Fault{PumpFast}, circuit: "House",
			reads: got{of(Return, "House"): f(127), of(Flow, "House"): gpm(6.4), of(PumpHead, "House"): psi(3.6), one(SecondaryReturn): f(124), one(BoilerReturn): f(124)}},
		{says: "little flow and little head: that pump is on its lowest step", house: ridge, outdoor: 20, fault: []Fault{PumpSlow}, circuit: "House",
			reads: got{of(Return, "House"): f(108), of(Flow, "House"): gpm(1.9), of(PumpHead, "House"): psi(0.35), one(FilterDrop): psi(0.2), one(SecondaryReturn): f(104), one(BoilerReturn): f(127)}},
		{says: "both circuits starve and the filter takes it all: clean it", house: ridge, outdoor: 20, fault: []Fault{DirtyFilter},
			reads: got{of(Return, "House"): f(107), of(Return, "Slab"): f(81), one(SecondaryReturn): f(102), one(BoilerReturn): f(127), of(Flow, "House"): gpm(1.8), of(Flow, "Slab"): gpm(0.7), one(FilterDrop): psi(2.2), of(PumpHead, "House"): psi(1.3)}},
		{says: "the loop's return is nearly its supply at a low fire: air or no flow would be cold, so the boiler's sensors are exchanged or the pump is far too strong", house: baseboards, outdoor: 30, alone: true, fault: []Fault{PumpFast}, circuit: "Baseboards",
			reads: got{one(OutdoorShown): f(30), one(BoilerSupply): f(120), one(BoilerReturn): f(116), of(Wanted, "Baseboards"): f(120), of(Supply, "Baseboards"): f(120), of(Return, "Baseboards"): f(116), of(Flow, "Baseboards"): gpm(8.5)}},
		{says: "wants what the sheet wants, gives twenty less at a low fire: the output is held down", house: baseboards, outdoor: 5, alone: true, fault: []Fault{LowOutput},
			reads: got{one(OutdoorShown): f(5), one(BoilerSupply): f(124), one(BoilerReturn): f(115), one(FiringRate): 0.21, of(Wanted, "Baseboards"): f(148), of(Supply, "Baseboards"): f(124), of(Return, "Baseboards"): f(115)}},
		{says: "the floor gets radiator water: that is not the sheet's curve", house: slab, outdoor: 20, alone: true, fault: []Fault{WrongCurve}, circuit: "Slab",
			reads: got{one(OutdoorShown): f(20), one(BoilerSupply): f(109), one(BoilerReturn): f(96), of(Wanted, "Slab"): f(109), of(Supply, "Slab"): f(109), of(Return, "Slab"): f(96)}},
	} {
		t.Run(c.says, func(t *testing.T) {
			h := example(t, c.house, units.US)
			reads := got{}
			if !c.alone {
				for r, v := range usual {
					reads[r] = v
				}
			}
			for r, v := range c.reads {
				reads[r] = v
			}
			var taken []Measured
			for r, v := range reads {
				taken = append(taken, Measured{Reading: r, Value: v})
			}
			j, err := h.Judge(Conditions{Outdoor: units.Fahrenheit(c.outdoor), Calling: c.calling}, taken)
			if err != nil {
				t.Fatal(err)
			}
			first := j.Causes[0]
			if !slices.Contains(c.fault, first.Fault) || first.Circuit != c.circuit || first.Room != c.room || j.Sound != (c.fault[0] == Nothing) {
				t.Errorf("sound %v", j.Sound)
				for _, x := range j.Causes[:4] {
					t.Errorf("%s: %.3f (%s)", x.Name(), float64(x.Share), x.Size)
				}
				for _, r := range j.Readings {
					t.Logf("%s: %v, expected %v ± %v: %s", r.Reading, r.Measured.Text(units.US), text(r.Expected, units.US), r.Tolerance.Text(units.US), r.Verdict)
				}
			}
		})
	}
}
