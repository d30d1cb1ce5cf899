package year

// Does the control do what is set in it, and does the plant obey?

import (
	"math"
	"strings"
	"sync/atomic"
	"testing"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/curve"
	"curvewright/hotwater"
	"curvewright/pipework"
	"curvewright/units"
)

// traced runs and gives a trace of every so many minutes.
func traced(t testing.TB, h House, p Plant, s Settings, w Weather, every float64) (Result, Trace) {
	t.Helper()
	trace := Trace{Every: units.Minutes(every), Values: make([]float64, int(float64(w.hours())*60/every)*len(Columns(h, p)))}
	r, err := Run(h, p, s, w, Options{Trace: &trace})
	if err != nil {
		t.Fatal(err)
	}
	if r.Balance.OpenShare > 1e-10 {
		t.Errorf("balance open by %.2g", float64(r.Balance.OpenShare))
	}
	return r, trace
}

// column gives a column by name, temperatures in °C.
func (t Trace) column(name string) []float64 {
	for k, c := range t.Columns {
		if c.Name == name {
			out := make([]float64, t.Rows)
			for i := range out {
				out[i] = t.At(i, k)
				if !c.Power {
					out[i] -= zeroCelsius
				}
			}
			return out
		}
	}
	panic("no column " + name)
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

func TestHoursAndDaysAddUp(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	s.Circuits[0].Curve = bent(-15, 40, 80) // too low
	r, trace := traced(t, h, p, s, Steady(units.Celsius(-10), 6, 2), 5)
	room := r.Rooms[0]
	if room.Below != r.Time || room.DaysBelow != 6 || room.Above != 0 || room.DaysAbove != 0 {
		t.Errorf("%+v", room)
	}
	sum := 0.0
	for _, x := range trace.column("room 1") {
		sum += (20 - x) * 300
	}
	if math.Abs(float64(room.BelowDegrees)-sum) > 1e-6*sum {
		t.Errorf("%.6g K·s below, the trace has %.6g", float64(room.BelowDegrees), sum)
	}
	if r.Worst.Rows != 288 || len(r.StartsPerDay) != 6 {
		t.Errorf("the worst day has %d rows, %d days of starts", r.Worst.Rows, len(r.StartsPerDay))
	}
	starts, runs := 0, 0
	for _, n := range r.StartsPerDay {
		starts += n
	}
	for _, n := range r.Runs {
		runs += n
	}
	if starts != r.Starts || runs > starts+1 || runs < starts-1 {
		t.Errorf("%d starts, %d by day, %d runs", r.Starts, starts, runs)
	}
}

func TestHalfTheStepMovesLittle(t *testing.T) {
	h, p, s := wholeHouse(t)
	w := wavyYear(365)
	whole, err := Run(h, p, s, w, Options{})
	if err != nil {
		t.Fatal(err)
	}
	half, err := Run(h, p, s, w, Options{Step: 30})
	if err != nil {
		t.Fatal(err)
	}
	if d := math.Abs(float64(half.Fuel/whole.Fuel) - 1); d > 0.002 {
		t.Errorf("fuel moves by %.2f %%", 100*d)
	}
	if d := math.Abs(float64(half.Starts)/float64(whole.Starts) - 1); d > 0.05 {
		t.Errorf("starts move by %.1f %%", 100*d)
	}
	for i, r := range whole.Rooms {
		for _, d := range []units.Temperature{half.Rooms[i].Mean - r.Mean, half.Rooms[i].Low - r.Low, half.Rooms[i].High - r.High} {
			if math.Abs(float64(d)) > 0.1 {
				t.Errorf("%s: mean, coldest or warmest moves by %.3f K", r.Name, float64(d))
			}
		}
	}
}

func TestStepsDoNotAllocate(t *testing.T) {
	h, p, s := wholeHouse(t)
	w := wavyYear(365)
	m, err := newModel(h, p, s, 60)
	if err != nil {
		t.Fatal(err)
	}
	m.settleAt(w.Outdoor[0] + zeroCelsius)
	m.restart()
	play := newTape(m, h, p, w, Options{Band: 0.5})
	i := 0
	if n := testing.AllocsPerRun(100, func() { play.playHour(i, true); i++ }); n != 0 {
		t.Errorf("%g allocations in an hour", n)
	}
}

func TestSupplyFollowsTheCurve(t *testing.T) {
	h, p, s := plainHouse(t, 3)
	for _, outdoor := range []float64{-15, 0, 8} {
		_, trace := traced(t, h, p, s, Steady(units.Celsius(outdoor), 2, 2), 5)
		want := s.Circuits[0].Curve.At(units.Celsius(outdoor)).Celsius()
		if got := mean(trace.column("radiators, supply wanted")); math.Abs(got-want) > 0.05 {
			t.Errorf("at %g °C the supply wanted is %.2f °C, the curve has %.2f", outdoor, got, want)
		}
		if got := mean(trace.column("radiators, supply")); math.Abs(got-want) > 2 {
			t.Errorf("at %g °C the supply is %.2f °C, wanted %.2f", outdoor, got, want)
		}
	}
}

func TestSensorErrorMovesTheCurve(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	p.Sensor.Offset = 3
	_, trace := traced(t, h, p, s, Steady(units.Celsius(-5), 1, 2), 5)
	if got, want := mean(trace.column("radiators, supply wanted")), s.Circuits[0].Curve.At(units.Celsius(-2)).Celsius(); math.Abs(got-want) > 0.05 {
		t.Errorf("%.2f °C, want that of −2 °C: %.2f", got, want)
	}
}

func TestRoomInfluenceLiftsAShortRoom(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	s.Circuits[0].Curve = bent(-15, 45, 80) // too low
	plain, _ := traced(t, h, p, s, Steady(units.Celsius(-10), 10, 2), 60)
	s.Circuits[0].Influence, s.Circuits[0].InfluenceLimit = 6, 20
	helped, _ := traced(t, h, p, s, Steady(units.Celsius(-10), 10, 2), 60)
	if short, less := 20-plain.Rooms[0].Mean.Celsius(), 20-helped.Rooms[0].Mean.Celsius(); !(short > 3 && less > 0 && less < short/2) {
		t.Errorf("short by %.2f K without, %.2f K with the room's influence", short, less)
	}
}

func TestThermostaticValveHoldsItsRoom(t *testing.T) {
	h, p, s := plainHouse(t, 2)
	s.Circuits[0].Curve = bent(-15, 75, 80) // too hot
	open, _ := traced(t, h, p, s, Steady(units.Celsius(-5), 10, 2), 60)
	p.Circuits[0].Radiators[0].Valve = Valve{Thermostatic, 2}
	held, trace := traced(t, h, p, s, Steady(units.Celsius(-5), 10, 2), 5)
	if !(open.Rooms[0].Mean.Celsius() > 23) {
		t.Errorf("without a valve %.2f °C", open.Rooms[0].Mean.Celsius())
	}
	if got := held.Rooms[0].Mean.Celsius(); !(got > 20 && got < 22) {
		t.Errorf("with a valve of 2 K %.2f °C", got)
	}
	room := trace.column("room 1")
	if last, before := room[len(room)-1], room[len(room)-30]; math.Abs(last-before) > 0.2 {
		t.Errorf("the valve hunts: %.2f and %.2f °C", before, last)
	}
}

func TestRoomThermostatSwitches(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	s.Circuits[0].Held = units.Celsius(60)
	p.Circuits[0].Radiators[0].Valve = Valve{OnOff, 1}
	r, trace := traced(t, h, p, s, Steady(units.Celsius(0), 8, 2), 5)
	room := trace.column("room 1")
	for _, x := range room[len(room)/2:] {
		if x < 19.2 || x > 21.5 {
			t.Fatalf("the room is at %.2f °C", x)
		}
	}
	if share := float64(r.Circuits[0].Runs / r.Time); !(share > 0.2 && share < 0.9) {
		t.Errorf("the pump runs %.0f %% of the time", 100*share)
	}
}

func TestCutOffEndsTheSeason(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	warm, _ := traced(t, h, p, s, Steady(units.Celsius(19), 4, 2), 60)
	mild, _ := traced(t, h, p, s, Steady(units.Celsius(15), 4, 2), 60)
	if warm.Starts != 0 || warm.Circuits[0].Runs != 0 {
		t.Errorf("at 19 °C %d starts, the pump ran %v", warm.Starts, warm.Circuits[0].Runs)
	}
	if mild.Circuits[0].Runs < mild.Time {
		t.Errorf("at 15 °C the pump ran only %v", mild.Circuits[0].Runs)
	}
}

func TestProgramLowersTheRooms(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	w := Steady(units.Celsius(0), 7, 2)
	for _, off := range []bool{false, true} {
		s.Circuits[0].Program = Night(units.Hours(22), units.Hours(6), 4, off)
		_, trace := traced(t, h, p, s, w, 60)
		wanted := trace.column("radiators, supply wanted")
		day, night := s.Circuits[0].Curve.At(units.Celsius(0)).Celsius(), s.Circuits[0].Curve.At(units.Celsius(4)).Celsius()-4
		for i, x := range wanted[:24] {
			hr := i + 1 // the sample stands at the end of the hour
			want := day
			if hr <= 6 || hr > 22 {
				want = night
			}
			if !off && math.Abs(x-want) > 0.05 {
				t.Errorf("at %d o'clock %.2f °C wanted, want %.2f", hr, x, want)
			}
		}
		burner := trace.column("burner")
		if off && mean(burner[22:28]) != 0 {
			t.Errorf("switched off, the burner gives %.0f W after 22 h", mean(burner[22:28]))
		}
		if room := trace.column("room 1"); !(room[5] < room[20]-0.3) {
			t.Errorf("off %v: %.2f °C in the morning, %.2f in the evening", off, room[5], room[20])
		}
	}
}

func TestProgramTakesTheWeekdayOfTheFirst(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	s.Circuits[0].Program = []Switch{{From: 0}, {From: 5 * 86400, Lower: 5}} // from Saturday on
	for monday, lowered := range map[int]bool{0: false, 4: false, 5: true, 6: true} {
		trace := Trace{Every: units.Hours(1), Values: make([]float64, 24*len(Columns(h, p)))}
		if _, err := Run(h, p, s, Steady(units.Celsius(0), 1, 2), Options{Monday: monday, Trace: &trace, WarmUp: -1}); err != nil {
			t.Fatal(err)
		}
		wanted, day := mean(trace.column("radiators, supply wanted")), s.Circuits[0].Curve.At(units.Celsius(0)).Celsius()
		if got := wanted < day-1; got != lowered {
			t.Errorf("weekday %d: %.1f °C wanted, by day %.1f", monday, wanted, day)
		}
	}
}

func TestFrostGuardRunsInSummerMode(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	h.Rooms[0].Set = units.Celsius(8)
	s.CutOff.Above = units.Celsius(-10)
	w := Steady(units.Celsius(-5), 12, 2)
	cold, _ := traced(t, h, p, s, w, 60)
	s.Frost = units.Celsius(5)
	guarded, _ := traced(t, h, p, s, w, 60)
	if !(cold.Rooms[0].Low < units.Celsius(1)) || !(guarded.Rooms[0].Low > units.Celsius(3.5)) {
		t.Errorf("coldest %.2f °C without, %.2f with the guard", cold.Rooms[0].Low.Celsius(), guarded.Rooms[0].Low.Celsius())
	}
}

func TestMixingValveKeepsTheSlabCool(t *testing.T) {
	h, p, s := wholeHouse(t)
	_, trace := traced(t, h, p, s, Steady(units.Celsius(-15), 3, 2), 5)
	wanted, supply, main := trace.column("slab, supply wanted"), trace.column("slab, supply"), trace.column("radiators, supply")
	for i := range wanted {
		if supply[i] > wanted[i]+2 {
			t.Fatalf("the slab gets %.2f °C, wanted %.2f", supply[i], wanted[i])
		}
	}
	if mean(main) < mean(supply)+7 {
		t.Errorf("radiators %.1f °C, slab %.1f", mean(main), mean(supply))
	}
	if math.Abs(mean(wanted)-mean(supply)) > 1.5 {
		t.Errorf("slab wants %.2f °C and gets %.2f", mean(wanted), mean(supply))
	}
}

// TestSlabHoldsBackHeat: layers make the room feel a change of the water hours later.
func TestSlabSettlesWhereItsResistancesSay(t *testing.T) {
	h, p, s := wholeHouse(t)
	h.Rooms, h.Doors = h.Rooms[7:], nil
	h.Rooms[0].Windows, h.Rooms[0].Gains, h.Rooms[0].Airing = nil, [24]units.Power{}, Airing{}
	h.Rooms[0].Fabric = nil
	h.Rooms[0].Loss = building.Loss{Outdoor: 70}
	slab := p.Circuits[1].Slabs[1]
	slab.Room = 0
	p.Circuits = []Circuit{{Name: "slab", Water: 40e3, Slabs: []Slab{slab}}}
	p.Tank, p.Coupling = nil, pipework.Direct
	s.Circuits = []CircuitSettings{{Held: units.Celsius(35)}}
	r, trace := traced(t, h, p, s, Steady(units.Celsius(0), 30, 2), 60)
	// Core from water: ε·W; up through one layer and the covering; down through one layer.
	const w = 200 * 0.83
	up, down := 1/(1/1200.0+1/150.0), 1/(1/1200.0+1/12.0)
	// core: w·(35 − c) = up·(c − a) + down·(c − 10); room: up·(c − a) = 70·a
	k := up / (up + 70)
	core := (w*35 + down*10) / (w + up*(1-k) + down)
	room := trace.column("room 8")
	if got := room[len(room)-1]; math.Abs(got-k*core) > 0.3 {
		t.Errorf("the room settles at %.2f °C, want %.2f (%+v)", got, k*core, r.Balance)
	}
}

func TestPriorityStopsTheCircuits(t *testing.T) {
	h, p, s := wholeHouse(t)
	first, _ := traced(t, h, p, s, Steady(units.Celsius(-10), 2, 2), 5)
	s.Tank.Priority = false
	beside, _ := traced(t, h, p, s, Steady(units.Celsius(-10), 2, 2), 5)
	if !(first.Circuits[0].Runs < first.Time) || beside.Circuits[0].Runs != beside.Time {
		t.Errorf("pump of the radiators: %v with priority, %v without, of %v", first.Circuits[0].Runs, beside.Circuits[0].Runs, first.Time)
	}
	if first.Tank.Short > 0.1*first.Tank.Water {
		t.Errorf("with priority %v of %v ran too cool", first.Tank.Short, first.Tank.Water)
	}
}

// TestTankDayAgrees holds a tank with nothing else on the boiler against the day of
// package hotwater, which plays the same balance with a boiler that is always hot.
func TestTankDayAgrees(t *testing.T) {
	h, p, s := wholeHouse(t)
	p.Circuits, s.Circuits = nil, nil
	p.Boiler.Least, p.Boiler.Most, p.Boiler.Standby = 3000, 20000, 0
	p.Tank.Layers = 10
	r, _ := traced(t, h, p, s, Steady(units.Celsius(15), 3, 2), 5)
	line, err := hotwater.EULarge().Timeline()
	if err != nil {
		t.Fatal(err)
	}
	day, err := hotwater.TankDay(line, hotwater.TankSetup{
		Tank: p.Tank.Tank, Layers: 10, Cold: p.Tank.Cold, Set: s.Tank.Set, Differential: s.Tank.Differential, Priority: true,
		Charge: hotwater.Charge{Boiler: 20000, Supply: s.Tank.Supply, Flow: units.LitresPerMinute(13), Drop: 25},
	})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := float64(r.Tank.Wanted)/3, float64(day.Wanted); math.Abs(got/want-1) > 1e-6 {
		t.Errorf("wanted %.4g J a day, package hotwater %.4g", got, want)
	}
	if got, want := float64(r.Tank.Delivered)/3, float64(day.Delivered); math.Abs(got/want-1) > 0.03 {
		t.Errorf("delivered %.4g J a day, package hotwater %.4g", got, want)
	}
	if got, want := float64(r.Tank.Lost)/3, float64(day.Lost); math.Abs(got/want-1) > 0.1 {
		t.Errorf("lost %.4g J a day, package hotwater %.4g", got, want)
	}
}

func TestSeparatorThatRecirculatesCoolsTheSupply(t *testing.T) {
	h, p, s := plainHouse(t, 3)
	p.Coupling = pipework.LowLossHeader
	p.Boiler.Flow = p.Circuits[0].Radiators[0].Flow // a third or less of what the circuit draws
	_, boilerSide := traced(t, h, p, s, Steady(units.Celsius(-10), 4, 2), 5)
	s.Beyond = true
	_, beyond := traced(t, h, p, s, Steady(units.Celsius(-10), 4, 2), 5)
	wanted := mean(beyond.column("radiators, supply wanted"))
	if got := mean(boilerSide.column("radiators, supply")); !(got < wanted-2) {
		t.Errorf("sensor in the boiler: the circuit gets %.2f °C, wanted %.2f", got, wanted)
	}
	if got := mean(beyond.column("radiators, supply")); math.Abs(got-wanted) > 1 {
		t.Errorf("sensor beyond: the circuit gets %.2f °C, wanted %.2f", got, wanted)
	}
}

func TestEfficiencyIsTheModels(t *testing.T) {
	h, p, s := plainHouse(t, 3)
	p.Boiler.Standby, p.Boiler.Start = 0, 0
	r, trace := traced(t, h, p, s, Steady(units.Celsius(-10), 4, 2), 5)
	rate := units.Fraction(mean(trace.column("burner")) / float64(p.Boiler.Most))
	back := units.Celsius(mean(trace.column("boiler return")))
	want, err := p.Boiler.Model.Efficiency(back, rate, boiler.Gross)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(r.Heat / r.Fuel); math.Abs(got-float64(want)) > 0.002 {
		t.Errorf("efficiency %.4f, the model has %.4f at %v and %v", got, float64(want), back.Celsius(), rate)
	}
	p.Boiler.Start = units.KilowattHours(0.1)
	more, _ := traced(t, h, p, s, Steady(units.Celsius(8), 4, 2), 5)
	if extra := float64(more.Starts) * 0.1 * 3.6e6; more.Starts == 0 || float64(more.Fuel) < float64(more.Heat)+extra*0.5 {
		t.Errorf("%d starts and fuel %v for heat %v", more.Starts, more.Fuel, more.Heat)
	}
}

func TestLowerCurveBurnsLess(t *testing.T) {
	h, p, s := wholeHouse(t)
	w := wavyYear(90)
	low, fixed := s, s
	low.Name, fixed.Name = "low", "fixed"
	low.Circuits = append([]CircuitSettings(nil), s.Circuits...)
	fixed.Circuits = append([]CircuitSettings(nil), s.Circuits...)
	low.Circuits[0].Curve = bent(-15, 55, 80)
	fixed.Circuits[0].Held = units.Celsius(75)
	var told atomic.Int32
	got, err := Compare(h, p, []Settings{s, low, fixed}, w, Options{}, 2, func(int) { told.Add(1) }, nil)
	if err != nil {
		t.Fatal(err)
	}
	if told.Load() != 3 {
		t.Errorf("told %d times of progress", told.Load())
	}
	if !(got[1].Fuel < got[0].Fuel && got[0].Fuel < got[2].Fuel) {
		t.Errorf("fuel %v, %v, %v for the curve, a lower one and a held supply", got[0].Fuel, got[1].Fuel, got[2].Fuel)
	}
	alone, err := Run(h, p, low, w, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if alone.Fuel != got[1].Fuel || alone.Starts != got[1].Starts {
		t.Errorf("alone %v and %d starts, side by side %v and %d", alone.Fuel, alone.Starts, got[1].Fuel, got[1].Starts)
	}
	stopped, err := Compare(h, p, []Settings{s, low}, w, Options{}, 1, nil, func() bool { return true })
	if err != nil || stopped[0].Time != 0 || stopped[1].Time != 0 {
		t.Errorf("stopped at once: %v, %v", stopped, err)
	}
}

func TestFailureIsTheExponential(t *testing.T) {
	h, p, s := plainHouse(t, 1)
	h.Rooms[0].Loss, h.Rooms[0].Fabric, h.Rooms[0].Air = building.Loss{Outdoor: 60}, nil, 8e6
	p.Circuits[0].Radiators[0] = radiator(t, 0, 4500, 1.3, 200)
	p.Circuits[0].Radiators[0].Capacity, p.Circuits[0].Water = 2000, 2000
	got, err := Fail(h, p, s, Outage{Outdoor: units.Celsius(-20)})
	if err != nil {
		t.Fatal(err)
	}
	r := got[0]
	if !r.IsChilly || !r.IsFrozen {
		t.Fatalf("%+v", r)
	}
	for _, c := range []struct {
		got   units.Time
		limit float64
	}{{r.Chilly, 5}, {r.Freezes, 0}} {
		want := 8e6 / 60 * math.Log((r.Start.Celsius()+20)/(c.limit+20)) / 3600
		if math.Abs(float64(c.got)/3600-want) > 0.15 {
			t.Errorf("%g °C after %.2f h, want %.2f", c.limit, float64(c.got)/3600, want)
		}
	}
	heavy, p2, s2 := wholeHouse(t)
	long, err := Fail(heavy, p2, s2, Outage{Outdoor: units.Celsius(-20), Longest: units.Hours(5)})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range long {
		if x.IsFrozen {
			t.Errorf("%s freezes within five hours", x.Name)
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name string
		bend func(h *House, p *Plant, s *Settings, w *Weather, o *Options)
		says string
	}{
		{"no rooms", func(h *House, _ *Plant, _ *Settings, _ *Weather, _ *Options) { h.Rooms = nil }, "1 to 100"},
		{"half a day", func(_ *House, _ *Plant, _ *Settings, w *Weather, _ *Options) { w.Outdoor = w.Outdoor[:36] }, "whole days"},
		{"missing value", func(_ *House, _ *Plant, _ *Settings, w *Weather, _ *Options) { w.Outdoor[30] = -999 }, "hour 31"},
		{"no number", func(_ *House, _ *Plant, _ *Settings, w *Weather, _ *Options) { w.Outdoor[3] = math.NaN() }, "no number"},
		{"sun too short", func(_ *House, _ *Plant, _ *Settings, w *Weather, _ *Options) { w.Sun[1] = w.Sun[1][:24] }, "façade 1"},
		{"window without sun", func(h *House, _ *Plant, _ *Settings, _ *Weather, _ *Options) { h.Rooms[0].Windows[0].Facade = 7 }, "façade 7"},
		{"radiator in no room", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Circuits[0].Radiators[2].Room = 9 }, "radiator 3"},
		{"no header pump", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Boiler.Flow = 0 }, "its own pump"},
		{"buffer", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Coupling = pipework.StirredBuffer }, "one must be given"},
		{"coupling", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Coupling = "magic" }, "accepted: \"direct\""},
		{"no water", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Circuits[0].Radiators[0].Capacity = 0 }, "capacity"},
		{"hardly any water", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) {
			p.Circuits[0].Radiators[0].Capacity, p.Circuits[0].Radiators[0].Flow = 500, 5000
		}, "stores so little heat"},
		{"tank hotter than its water", func(_ *House, _ *Plant, s *Settings, _ *Weather, _ *Options) { s.Tank.Supply = units.Celsius(50) }, "boiler supply for the tank"},
		{"no curve", func(_ *House, _ *Plant, s *Settings, _ *Weather, _ *Options) { s.Circuits[0].Curve = curve.Setting{} }, "curve"},
		{"step", func(_ *House, _ *Plant, _ *Settings, _ *Weather, o *Options) { o.Step = 45 }, "whole part"},
		{"long step", func(_ *House, _ *Plant, _ *Settings, _ *Weather, o *Options) { o.Step = 120 }, "whole part"},
		{"program out of order", func(_ *House, _ *Plant, s *Settings, _ *Weather, _ *Options) {
			s.Circuits[0].Program = []Switch{{From: 7200}, {From: 3600}}
		}, "order of the week"},
		{"boiler without a model", func(_ *House, p *Plant, _ *Settings, _ *Weather, _ *Options) { p.Boiler.Model = boiler.Model{} }, "fuel"},
		{"settings for one circuit", func(_ *House, _ *Plant, s *Settings, _ *Weather, _ *Options) { s.Circuits = s.Circuits[:1] }, "the plant has 2"},
	} {
		h, p, s := wholeHouse(t)
		w, o := wavyYear(2), Options{}
		c.bend(&h, &p, &s, &w, &o)
		_, err := Run(h, p, s, w, o)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; want it to say %q", c.name, err, c.says)
		}
	}
}
