package year

import (
	"math"
	"strings"
	"testing"

	"curvewright/hotwater"
	"curvewright/pipework"
	"curvewright/units"
)

// TestABufferConservesHeatAndCalmsTheBurner plays a house with a burner that is far too
// large in mild weather: behind any buffer no heat is lost, the rooms stay as warm, and the
// burner starts less often than behind a header.
func TestABufferConservesHeatAndCalmsTheBurner(t *testing.T) {
	h, p, s := plainHouse(t, 3)
	p.Boiler.Least, p.Boiler.Flow = 6000, 700
	p.Coupling = pipework.LowLossHeader
	w := Steady(units.Celsius(6), 20, 0)
	header := must[Result](t)(Run(h, p, s, w, Options{}))
	for _, c := range []pipework.Coupling{pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer} {
		p.Coupling, p.Buffer = c, &Buffer{Water: 1.2e6, Loss: 2, Room: units.Celsius(15)}
		got := must[Result](t)(Run(h, p, s, w, Options{}))
		t.Logf("%s: %d starts (header %d), room %.2f °C (%.2f), efficiency %.3f (%.3f)", c, got.Starts, header.Starts,
			got.Rooms[0].Mean.Celsius(), header.Rooms[0].Mean.Celsius(), got.Efficiency, header.Efficiency)
		if got.Balance.OpenShare > 1e-9 {
			t.Errorf("%s: %g of the heat is missing", c, float64(got.Balance.OpenShare))
		}
		if got.Starts > header.Starts*2/3 {
			t.Errorf("%s: %d starts, behind a header %d", c, got.Starts, header.Starts)
		}
		if d := float64(got.Rooms[0].Mean - header.Rooms[0].Mean); math.Abs(d) > 0.5 {
			t.Errorf("%s: the room is %+.2f K off", c, d)
		}
	}
	p.Buffer = nil
	if _, err := Run(h, p, s, w, Options{}); err == nil || !strings.Contains(err.Error(), "buffer") {
		t.Errorf("a buffer of no size: %v", err)
	}
}

// TestAWiderDifferentialCalmsABuffer: the burner must not stop by a bottom that is no warmer
// than what comes back from the circuits.
func TestAWiderDifferentialCalmsABuffer(t *testing.T) {
	h, p, s := plainHouse(t, 3)
	p.Boiler.Least, p.Boiler.Flow = 6000, 700
	w := Steady(units.Celsius(6), 20, 0)
	for _, c := range []pipework.Coupling{pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer} {
		p.Coupling, p.Buffer = c, &Buffer{Water: 1.2e6, Loss: 2, Room: units.Celsius(15)}
		before := math.MaxInt
		for _, d := range []units.Difference{4, 8, 16} {
			s.Differential = d
			r := must[Result](t)(Run(h, p, s, w, Options{}))
			if r.Starts >= before || r.Runs[0] > 0 {
				t.Errorf("%s: %d starts with a differential of %v K, %d of them under a minute; with half of it %d", c, r.Starts, float64(d), r.Runs[0], before)
			}
			before = r.Starts
		}
	}
}

// TestTheSameHouseIsJudgedByWhatItsPeopleWant: a program that warms only when they rise is
// short in the morning, and one that never lowers is not.
func TestTheSameHouseIsJudgedByWhatItsPeopleWant(t *testing.T) {
	h, p, s := plainHouse(t, 2)
	w := Steady(units.Celsius(-2), 14, 0)
	wanted := Night(units.Hours(22), units.Hours(6), 3, false)
	cold := func(program []Switch, holdBelow units.Temperature) units.DegreeDays {
		s.Circuits[0].Program, s.Circuits[0].HoldBelow = program, holdBelow
		r := must[Result](t)(Run(h, p, s, w, Options{Wanted: wanted}))
		return r.Rooms[0].BelowDegrees
	}
	held, late, early := cold(nil, 0), cold(wanted, 0), cold(Night(units.Hours(22), units.Hours(2), 3, false), 0)
	if !(held == 0 && late > early && early >= 0) {
		t.Errorf("cold: held %v, warmed late %v, early %v", held, late, early)
	}
	if left := cold(wanted, units.Celsius(0)); left != held {
		t.Errorf("below 0 °C nothing is lowered, yet %v against %v", left, held)
	}
}

// TestBlindsAndIdealHeater: blinds keep a sunny room cooler; an ideal heater holds its
// temperature and its heat is in the balance.
func TestBlindsAndIdealHeater(t *testing.T) {
	h, p, s := wholeHouse(t)
	w := wavyYear(365)
	open := must[Result](t)(Run(h, p, s, w, Options{}))
	for i := range h.Rooms {
		h.Rooms[i].Shade = Shade{Above: units.Celsius(24), Leaves: 0.4}
	}
	drawn := must[Result](t)(Run(h, p, s, w, Options{}))
	if drawn.Rooms[0].High >= open.Rooms[0].High || drawn.Balance.Sun >= open.Balance.Sun {
		t.Errorf("with blinds up to %v and %v of sun, without %v and %v", drawn.Rooms[0].High, drawn.Balance.Sun, open.Rooms[0].High, open.Balance.Sun)
	}
	p.Circuits, s.Circuits, p.Tank = nil, nil, nil
	for i := range h.Rooms {
		h.Rooms[i].Ideal = Ideal{Heat: units.Celsius(20), Cool: units.Celsius(22)}
	}
	r := must[Result](t)(Run(h, p, s, w, Options{}))
	for _, room := range r.Rooms {
		if room.Low.Celsius() < 20-1e-9 || room.High.Celsius() > 22+1e-9 || !(room.Heated > 0) {
			t.Errorf("%s: %.2f to %.2f °C with %v", room.Name, room.Low.Celsius(), room.High.Celsius(), room.Heated)
		}
	}
	if r.Balance.OpenShare > 1e-9 || !(r.Balance.Heated > 0 && r.Balance.Cooled > 0) {
		t.Errorf("balance: %+v", r.Balance)
	}
}

// TestPipesOutsideFreezeFirst: water in a pipe outdoors follows the exponential from where
// it was, one in a space halfway warm is later, and while the pumps run neither freezes
// before the house. An alarm leaves the notice that was asked for.
func TestPipesOutsideFreezeFirst(t *testing.T) {
	h, p, s := plainHouse(t, 2)
	f := Outage{Outdoor: units.Celsius(-20), Spaces: []PipeSpace{{"outdoors", 1, 3600}, {"garage", 0.6, 3600}}}
	got := must[[]RoomOutage](t)(Fail(h, p, s, f))
	if len(got) != 4 {
		t.Fatalf("%d places", len(got))
	}
	outdoors, garage := got[2], got[3]
	want := math.Log((outdoors.Start.Celsius() + 20) / 20)
	if math.Abs(float64(outdoors.Freezes)/3600-want) > 0.01 {
		t.Errorf("outdoors frozen after %.3f h, want %.3f", float64(outdoors.Freezes)/3600, want)
	}
	if !(garage.Freezes > outdoors.Freezes && garage.Freezes < got[0].Freezes) {
		t.Errorf("garage after %v, outdoors %v, room %v", garage.Freezes, outdoors.Freezes, got[0].Freezes)
	}
	if garage.Alarm != garage.Start {
		t.Errorf("no alarm leaves 12 h in the garage, yet %v is named", garage.Alarm)
	}
	if r := got[0]; !(r.Alarm > units.Celsius(5) && r.Alarm < r.Start) {
		t.Errorf("alarm at %v for a room that falls from %v", r.Alarm, r.Start)
	}
	f.Pumps = true
	if pumped := must[[]RoomOutage](t)(Fail(h, p, s, f)); pumped[2].Freezes < pumped[0].Chilly {
		t.Errorf("with the pumps running the pipe outdoors freezes after %v, the room is chilly after %v", pumped[2].Freezes, pumped[0].Chilly)
	}
	f.Spaces[0].Colder = 2
	if _, err := Fail(h, p, s, f); err == nil || !strings.Contains(err.Error(), "pipe space") {
		t.Errorf("colder than outdoors: %v", err)
	}
}

// TestACombiHeatsTheTaps: what the pattern asks for is delivered and burnt, heating stands
// still meanwhile, and a boiler too small for it makes lukewarm water.
func TestACombiHeatsTheTaps(t *testing.T) {
	h, p, s := plainHouse(t, 2)
	w := Steady(units.Celsius(0), 10, 0)
	dry := must[Result](t)(Run(h, p, s, w, Options{}))
	p.Boiler.Most = 24000
	p.Combi = &Combi{Cold: units.Celsius(10), Draws: hotwater.EUMedium()}
	wet := must[Result](t)(Run(h, p, s, w, Options{}))
	day := float64(hotwater.EUMedium().Energy()) * float64(wet.Time) / 86400
	if got := float64(wet.Tank.Delivered); math.Abs(got/day-1) > 0.02 || wet.Tank.Short > 0 {
		t.Errorf("%.1f kWh at the taps, the pattern has %.1f; %v short", got/3.6e6, day/3.6e6, wet.Tank.Short)
	}
	if more := float64(wet.Fuel - dry.Fuel); more < day || more > 1.3*day {
		t.Errorf("%.1f kWh more fuel for %.1f kWh at the taps", more/3.6e6, day/3.6e6)
	}
	if wet.Balance.OpenShare > 1e-10 || wet.Starts <= dry.Starts || wet.Circuits[0].Runs >= dry.Circuits[0].Runs {
		t.Errorf("open by %g, %d starts after %d, pump %v after %v", float64(wet.Balance.OpenShare), wet.Starts, dry.Starts, wet.Circuits[0].Runs, dry.Circuits[0].Runs)
	}
	runs := 0
	for _, n := range wet.Runs {
		runs += n
	}
	if runs < wet.Starts-1 || runs > wet.Starts+1 {
		t.Errorf("%d starts but %d runs", wet.Starts, runs)
	}
	p.Boiler.Most = 9000
	if small := must[Result](t)(Run(h, p, s, w, Options{})); small.Tank.Short == 0 || small.Tank.Coolest >= wet.Tank.Coolest {
		t.Errorf("a small boiler: %v short, coolest %v", small.Tank.Short, small.Tank.Coolest)
	}
	p.Tank = &Tank{}
	if _, err := Run(h, p, s, w, Options{}); err == nil {
		t.Error("a tank and a combi are not refused")
	}
}
