package year

import (
	"math"
	"testing"

	"curvewright/pipework"
	"curvewright/units"
)

// TestAFrostGuardOutdoorsMovesTheWater: in a house that is warm enough its pump stands,
// unless it is colder outdoors than the guard; the boiler comes on only where it says so.
func TestAFrostGuardOutdoorsMovesTheWater(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	h.Rooms[0].Set = units.Celsius(5) // nobody calls: sun and people keep it warmer
	for k := range h.Rooms[0].Gains {
		h.Rooms[0].Gains[k] = 900
	}
	p.Circuits[0].Thermostat = 1
	week := units.Hours(7 * 24)
	for _, c := range []struct {
		name          string
		outdoor       float64 // °C
		below, supply units.Temperature
		pump, burner  bool
	}{
		{"no guard", -10, 0, 0, false, false},
		{"mild", 6, units.Celsius(3), 0, false, false},
		{"pump alone", -10, units.Celsius(3), 0, true, false},
		{"pump and boiler", -10, units.Celsius(3), units.Celsius(35), true, true},
	} {
		s.FrostOutdoor, s.FrostSupply = c.below, c.supply
		r := must[Result](t)(Run(h, p, s, Steady(units.Celsius(c.outdoor), 7, 0), Options{}))
		if ran := r.Circuits[0].Runs; ran > 0 != c.pump || c.pump && math.Abs(float64(ran/week)-1) > 0.01 {
			t.Errorf("%s: the pump ran %.0f of %.0f h", c.name, float64(ran)/3600, float64(week)/3600)
		}
		if r.Starts > 0 != c.burner {
			t.Errorf("%s: %d starts", c.name, r.Starts)
		}
		if r.Balance.OpenShare > 1e-9 {
			t.Errorf("%s: balance open by %g", c.name, float64(r.Balance.OpenShare))
		}
	}
}

// TestATankAtOrPastABuffer: past it the household has as much hot water, heat is conserved,
// and the buffer stays as cool as the circuits want it; at it the whole buffer is heated for
// the tank and loses more.
func TestATankAtOrPastABuffer(t *testing.T) {
	h, p, s := wholeHouse(t)
	w := wavyYear(365)
	for _, priority := range []bool{true, false} {
		s.Tank.Priority = priority
		p.Coupling, p.Buffer, p.Tank.AtBuffer = pipework.LowLossHeader, nil, false
		header := must[Result](t)(Run(h, p, s, w, Options{}))
		plain := float64(header.Tank.Short / header.Tank.Water)
		for _, c := range []pipework.Coupling{pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer} {
			p.Coupling, p.Buffer = c, &Buffer{Water: 1.2e6, Loss: 3, Room: units.Celsius(15)}
			play := func(atBuffer bool) Result {
				p.Tank.AtBuffer = atBuffer
				r := must[Result](t)(Run(h, p, s, w, Options{}))
				if r.Balance.OpenShare > 1e-9 {
					t.Errorf("%s, at the buffer %v: %g of the heat is missing", c, atBuffer, float64(r.Balance.OpenShare))
				}
				if short := float64(r.Tank.Short / r.Tank.Water); math.Abs(short-plain) > 0.005 {
					t.Errorf("%s, at the buffer %v: %.1f %% of the water too cool, behind a header %.1f %%", c, atBuffer, 100*short, 100*plain)
				}
				return r
			}
			past, at := play(false), play(true)
			t.Logf("%s, priority %v: past %.0f kWh of fuel, %d starts, standby %.0f kWh; at %.0f, %d, %.0f", c, priority,
				float64(past.Fuel)/3.6e6, past.Starts, float64(past.Balance.Standby)/3.6e6, float64(at.Fuel)/3.6e6, at.Starts, float64(at.Balance.Standby)/3.6e6)
			if past.Balance.Standby >= at.Balance.Standby {
				t.Errorf("%s: the buffer loses no more although it is heated for the tank", c)
			}
		}
	}
	p.Coupling, p.Buffer, p.Tank.AtBuffer = pipework.LowLossHeader, nil, true
	if _, err := Run(h, p, s, w, Options{}); err == nil {
		t.Error("a tank at a buffer that is not there is played")
	}
}

// TestElectricityAddsUp: a fan coil's fan runs while its valve lets water through.
func TestElectricityAddsUp(t *testing.T) {
	h, p, s := plainHouse(t, 2)
	for i := range p.Circuits[0].Radiators {
		r := &p.Circuits[0].Radiators[i]
		r.Valve, r.Fan = Valve{OnOff, 1}, 25
	}
	r := must[Result](t)(Run(h, p, s, wavyYear(365), Options{}))
	if d := float64(r.Electricity - r.Pumps - r.OfBoiler - r.Fans); math.Abs(d) > 1 {
		t.Errorf("%g J of electricity are nobody's", d)
	}
	most := 2 * 25 * float64(r.Time)
	if f := float64(r.Fans) / most; !(f > 0.1 && f < 0.95) {
		t.Errorf("the fans ran %.0f %% of the time", 100*f)
	}
	for i := range p.Circuits[0].Radiators {
		p.Circuits[0].Radiators[i].Valve = Valve{}
	}
	open := must[Result](t)(Run(h, p, s, Steady(units.Celsius(0), 14, 0), Options{}))
	if want := 2 * 25 * float64(open.Circuits[0].Runs); math.Abs(float64(open.Fans)-want) > 1e-6*want {
		t.Errorf("without valves the fans took %.0f J, not %.0f", float64(open.Fans), want)
	}
}
