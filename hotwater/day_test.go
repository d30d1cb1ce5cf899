package hotwater

import (
	"math"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func TestPatternsHoldTheirTotals(t *testing.T) {
	for _, c := range []struct {
		pattern     Pattern
		draws       int
		kWh         float64 // exact totals
		gallons     float64
		litresAt60  float64 // from 10 °C
		source, tag string
	}{
		{EUMedium(), 23, 5.845, 0, 100.5, "EU 812/2013 Annex VII table 3", "M"},
		{EULarge(), 24, 11.655, 0, 200.5, "EU 812/2013 Annex VII table 3", "L"},
		{EUExtraLarge(), 30, 19.07, 0, 328, "EU 812/2013 Annex VII table 3", "XL"},
		{USLow(), 11, 0, 38, 0, "10 CFR 430 appendix E, from memory", "low"},
		{USMedium(), 12, 0, 55, 0, "10 CFR 430 appendix E, from memory", "medium"},
		{USHigh(), 14, 0, 84, 0, "10 CFR 430 appendix E, from memory", "high"},
	} {
		if len(c.pattern.Draws) != c.draws {
			t.Errorf("%s: %d draws, want %d (%s)", c.tag, len(c.pattern.Draws), c.draws, c.source)
		}
		if c.kWh > 0 {
			near(t, c.tag+" kWh", float64(c.pattern.Energy())/3.6e6, c.kWh, 1e-7)
			near(t, c.tag+" litres at 60 °C", float64(c.pattern.Energy())/(50*perVolume(units.Celsius(10), units.Celsius(60)))*1000, c.litresAt60, 0.01*c.litresAt60)
		}
		if c.gallons > 0 {
			near(t, c.tag+" gal", c.pattern.Volume().Gallons(), c.gallons, 1e-9)
		}
		last := units.Time(-1)
		for _, d := range c.pattern.Draws {
			if d.At <= last {
				t.Errorf("%s: the draw at %v is out of order", c.tag, d.At)
			}
			last = d.At
			near(t, c.tag+" energy of a draw", float64(d.Energy), float64(d.Volume)*perVolume(c.pattern.Cold, d.Wanted)*float64(d.Wanted-c.pattern.Cold), 1e-3)
		}
	}
	if len(Patterns()) != 6 {
		t.Error("patterns are missing")
	}
}

func TestLitresOfTheEuropeanDraws(t *testing.T) { // 4.186 kJ/(kg·K), litre for kilogram
	for _, c := range []struct{ kWh, litres float64 }{{0.105, 3.01}, {1.4, 40.1}, {1.82, 52.2}, {3.605, 103.3}, {4.42, 126.7}, {0.315, 6.02}, {0.735, 14.05}} {
		found := false
		for _, p := range []Pattern{EUMedium(), EULarge(), EUExtraLarge()} {
			for _, d := range p.Draws {
				if math.Abs(float64(d.Energy)/3.6e6-c.kWh) < 1e-9 {
					found = true
					near(t, "litres", d.Volume.Litres(), c.litres, 0.01*c.litres)
				}
			}
		}
		if !found {
			t.Errorf("no draw of %v kWh", c.kWh)
		}
	}
}

func TestTimelineHoldsEveryDraw(t *testing.T) {
	for _, p := range append(Patterns(), Pattern{Name: "midnight", Cold: units.Celsius(10), Draws: []Draw{
		{At: units.Hours(23.95), Volume: 0.05, Flow: units.LitresPerMinute(8), Wanted: units.Celsius(40)},
		{At: units.Hours(23.96), Volume: 0.03, Flow: units.LitresPerMinute(5), Wanted: units.Celsius(55)},
	}}) {
		line := ok[*Timeline](t)(p.Timeline())
		volume, heat, open := 0.0, 0.0, 0.0
		for i := range minutesOfDay {
			volume += line.volume[i]
			heat += line.volume[i] * (line.wanted[i] - float64(p.Cold))
			open += line.open[i]
			if line.open[i] > 1+1e-12 {
				t.Errorf("%s: a tap is open for %v of minute %d", p.Name, line.open[i], i)
			}
		}
		want := 0.0
		for _, d := range p.Draws {
			want += float64(d.Volume) * float64(d.Wanted-p.Cold)
		}
		near(t, p.Name+" volume", volume, float64(p.Volume()), 1e-12)
		near(t, p.Name+" heat", heat, want, 1e-9)
		if p.Name != "midnight" {
			took := 0.0
			for _, d := range p.Draws {
				took += float64(d.Volume) / float64(d.Flow) / 60
			}
			near(t, p.Name+" minutes", open, took, 1e-9)
		} else if line.volume[0] == 0 {
			t.Error("the draw over midnight stops there")
		}
	}
	for _, d := range []Draw{{}, {Volume: 0.05, Flow: units.LitresPerMinute(8), Wanted: units.Celsius(9)}, {At: 86400, Volume: 0.05, Flow: units.LitresPerMinute(8), Wanted: units.Celsius(40)}} {
		_, err := Pattern{Cold: units.Celsius(10), Draws: []Draw{d}}.Timeline()
		if err == nil {
			t.Errorf("%+v is accepted", d)
		}
	}
	if _, err := (Pattern{}).Timeline(); err == nil {
		t.Error("a pattern without draws is accepted")
	}
}

func house(t *testing.T) TankSetup {
	return TankSetup{Tank: Tank{Volume: 0.2, Loss: 2, Room: units.Celsius(15)}, Charge: charge24(t), Cold: units.Celsius(10), Set: units.Celsius(60),
		Differential: 5, Priority: true, Heating: 8e3}
}

func TestATankServesTheDayOfAFamily(t *testing.T) {
	line := ok[*Timeline](t)(EUMedium().Timeline())
	day := ok[Day](t)(TankDay(line, house(t)))
	if day.Short != 0 || day.ShortTime != 0 || day.EnergyMissed() > 1 {
		t.Errorf("short by %v L, %v s, %v J", day.Short.Litres(), day.ShortTime, day.EnergyMissed())
	}
	near(t, "wanted, kWh", float64(day.Wanted)/3.6e6, 5.845, 0.06) // ρ·c at another mean than the pattern's
	near(t, "water", float64(day.Water), float64(EUMedium().Volume()), 1e-12)
	near(t, "lost, kWh", float64(day.Lost)/3.6e6, 2*45*24/1000.0, 0.4) // as if at 60 °C all day
	if len(day.Charges) < 2 || len(day.Charges) > 12 {
		t.Errorf("%d charges", len(day.Charges))
	}
	sum := units.Time(0)
	for i, c := range day.Charges {
		if c.To <= c.From || i > 0 && c.From < day.Charges[i-1].To {
			t.Errorf("charge from %v to %v", c.From, c.To)
		}
		sum += c.To - c.From
	}
	near(t, "interrupted", float64(day.Interrupted), float64(sum), 0)
	near(t, "house missed", float64(day.Missed), 8e3*float64(sum), 1e-6)
	if day.Longest <= 0 || day.Longest > day.Interrupted {
		t.Errorf("longest %v of %v", day.Longest, day.Interrupted)
	}
	free := house(t)
	free.Priority = false
	if day := ok[Day](t)(TankDay(line, free)); day.Interrupted != 0 || day.Missed != 0 {
		t.Error("without priority the heating is interrupted")
	}
}

func TestASmallTankFallsShort(t *testing.T) {
	line := ok[*Timeline](t)(EUExtraLarge().Timeline())
	small := house(t)
	small.Tank.Volume, small.Charge.Boiler = 0.08, 10e3
	day := ok[Day](t)(TankDay(line, small))
	if day.Short <= 0 || day.ShortTime <= 0 || day.EnergyMissed() <= 0 || day.Coolest >= units.Celsius(40) {
		t.Errorf("an 80 L tank at 10 kW serves pattern XL: %+v", day)
	}
	near(t, "energy missed", float64(day.EnergyMissed()), float64(day.Wanted-day.Delivered), 1e-9)
}

func TestChargeHoursAndLimit(t *testing.T) {
	line := ok[*Timeline](t)(EULarge().Timeline())
	s := house(t)
	s.Hours = []Window{{units.Hours(22), units.Hours(6)}}
	for _, c := range ok[Day](t)(TankDay(line, s)).Charges {
		if c.From >= units.Hours(6) && c.To <= units.Hours(22) {
			t.Errorf("charged from %v h to %v h", c.From/3600, c.To/3600)
		}
	}
	s.Hours, s.Limit = nil, 600
	s.Charge.Boiler = 8e3
	day := ok[Day](t)(TankDay(line, s))
	near(t, "longest", float64(day.Longest), 600, 0)
	for i, c := range day.Charges {
		if i > 0 && day.Charges[i-1].To-day.Charges[i-1].From == 600 && c.From-day.Charges[i-1].To < 600 {
			t.Errorf("the heating has its turn for %v s only", c.From-day.Charges[i-1].To)
		}
	}
}

// The usable share of a tank grows with its layers, towards the 70 % and more that
// the first-hour rule counts with.
func TestLayersStandForMixing(t *testing.T) {
	usable := func(layers int) float64 {
		s := house(t)
		s.Layers, s.Tank.Loss, s.Hours = layers, 0, []Window{{0, 60}} // never charged
		p := Pattern{Cold: s.Cold, Draws: []Draw{{At: 3600, Volume: 0.2, Flow: units.LitresPerMinute(4), Wanted: units.Celsius(60)}}}
		prep, err := s.Charge.prepare()
		if err != nil {
			t.Fatal(err)
		}
		s.defaults()
		m := newTankModel(s, prep)
		line := ok[*Timeline](t)(p.Timeline())
		var day Day
		drawn := 0.0
		for i := 60; i < 120 && m.layer[m.n-1] > float64(units.Celsius(60-15)); i++ {
			m.draw(line, i, &day)
			drawn += line.volume[i]
		}
		return drawn / 0.2
	}
	last := 0.0
	for _, layers := range []int{1, 2, 5, 10, 20} {
		share := usable(layers)
		if share < last {
			t.Errorf("%d layers: %v usable, fewer layers %v", layers, share, last)
		}
		last = share
	}
	near(t, "ten layers", usable(10), 0.84, 0.02) // a pin of the model, not a published figure
}

func drawSetup(t *rapid.T) TankSetup {
	number := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	set := units.Celsius(number(40, 80, "set"))
	s := TankSetup{
		Tank:   Tank{Volume: units.Litres(number(5, 1000, "litres")), Loss: units.LossCoefficient(number(0, 20, "loss")), Room: units.Celsius(number(-10, 35, "room"))},
		Layers: rapid.IntRange(1, 20).Draw(t, "layers"), CoilTop: units.Fraction(number(0.1, 1, "coil")), SensorAt: units.Fraction(number(0.05, 1, "sensor")),
		Charge: Charge{Boiler: units.Power(number(1e3, 1e5, "boiler")), Supply: set + units.Temperature(number(1, 25, "above")), Flow: units.LitresPerMinute(number(2, 50, "flow")),
			Coil: Coil{transmission: number(50, 5000, "UA")}},
		Cold: units.Celsius(number(2, 25, "cold")), Set: set, Differential: units.Difference(number(1, 15, "differential")),
		Priority: rapid.Bool().Draw(t, "priority"), Limit: units.Time(number(0, 7200, "limit")), Heating: units.Power(number(0, 2e4, "heating")),
	}
	if rapid.Bool().Draw(t, "hours") {
		s.Hours = []Window{{units.Time(number(0, 86400, "from")), units.Time(number(0, 86400, "to"))}}
	}
	return s
}

func TestEveryDayBalances(t *testing.T) {
	var lines []*Timeline
	for _, p := range Patterns() {
		lines = append(lines, ok[*Timeline](t)(p.Timeline()))
	}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t)
		line := rapid.SampledFrom(lines).Draw(t, "pattern")
		day, err := TankDay(line, s)
		if err != nil {
			t.Fatal(err)
		}
		scale := math.Max(float64(day.Supplied+day.Delivered), 1e6)
		if gap := float64(day.Supplied - day.Delivered - day.Lost - day.Stored); math.Abs(gap) > 1e-9*scale {
			t.Fatalf("supplied %v, delivered %v, lost %v, stored %v: %v J are missing", day.Supplied, day.Delivered, day.Lost, day.Stored, gap)
		}
		if day.Delivered > day.Wanted*(1+1e-12) || day.Short > day.Water*(1+1e-12) {
			t.Fatalf("more than wanted: %+v", day)
		}
		if (day.Short == 0) != (day.ShortTime == 0) {
			t.Fatalf("short by %v for %v", day.Short, day.ShortTime)
		}
		if s.Priority && s.Limit > 0 && float64(day.Longest) > float64(s.Limit)+minute {
			t.Fatalf("interrupted for %v, limit %v", day.Longest, s.Limit)
		}
	})
}

func TestNoLayerIsWarmerThanTheOneAbove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := tankModel{n: rapid.IntRange(1, 20).Draw(t, "n")}
		sum := 0.0
		for i := range m.n {
			m.layer[i] = rapid.Float64Range(280, 370).Draw(t, "layer")
			sum += m.layer[i]
		}
		m.settle()
		for i := range m.n {
			sum -= m.layer[i]
			if i > 0 && m.layer[i] < m.layer[i-1]-1e-9 {
				t.Fatalf("layers %v", m.layer[:m.n])
			}
		}
		if math.Abs(sum) > 1e-9 {
			t.Fatalf("mixing changes the heat by %v", sum)
		}
	})
}

func TestCombiDay(t *testing.T) {
	line := ok[*Timeline](t)(EULarge().Timeline())
	s := CombiSetup{Output: 24e3, Least: units.LitresPerMinute(2), Cold: units.Celsius(10), Set: units.Celsius(55), Heating: 6e3}
	day := ok[Day](t)(CombiDay(line, s))
	near(t, "supplied", float64(day.Supplied), float64(day.Delivered), 1e-3)
	// 24 kW warm 10 L/min by 34.6 K, enough for 40 °C; 3 L/min at 40 °C are 2 L/min hot.
	if day.Short != 0 {
		t.Errorf("short by %v L, coolest %v °C", day.Short.Litres(), day.Coolest.Celsius())
	}
	near(t, "longest", float64(day.Longest), 621, 8) // the bath of 103.3 L at 10 L/min
	near(t, "missed", float64(day.Missed), 6e3*float64(day.Interrupted), 1e-6)

	s.Output = 12e3
	weak := ok[Day](t)(CombiDay(line, s))
	if weak.Short.Litres() < 2*103 || weak.Coolest >= units.Celsius(30) {
		t.Errorf("12 kW: short by %v L, coolest %v", weak.Short.Litres(), weak.Coolest.Celsius())
	}
	s.Output, s.Least = 24e3, units.LitresPerMinute(2.5)
	idle := ok[Day](t)(CombiDay(line, s))
	near(t, "cold taps where it does not fire", idle.Coolest.Celsius(), 10, 1e-9)
	_, err := CombiDay(line, CombiSetup{})
	refused(t, err, "combi output")
}

func TestSetupsThatCannotBe(t *testing.T) {
	line := ok[*Timeline](t)(EUMedium().Timeline())
	for says, change := range map[string]func(*TankSetup){
		"tank volume":           func(s *TankSetup) { s.Tank.Volume = 0 },
		"layers":                func(s *TankSetup) { s.Layers = 21 },
		"differential":          func(s *TankSetup) { s.Differential = 0 },
		"15 K":                  func(s *TankSetup) { s.Set = units.Celsius(80) },
		"charge hours":          func(s *TankSetup) { s.Hours = []Window{{-1, 5}} },
		"boiler output":         func(s *TankSetup) { s.Charge.Boiler = 0 },
		"temperature around":    func(s *TankSetup) { s.Tank.Room = 0 },
		"height of the coil":    func(s *TankSetup) { s.CoilTop = 2 },
		"height of the tank's":  func(s *TankSetup) { s.SensorAt = units.Fraction(math.NaN()) },
		"above the cold water":  func(s *TankSetup) { s.Cold = s.Set },
		"one rated point":       func(s *TankSetup) { s.Charge.Coil = Coil{} },
		"heating load":          func(s *TankSetup) { s.Heating = -1 },
		"limit of the priority": func(s *TankSetup) { s.Limit = -1 },
	} {
		s := house(t)
		change(&s)
		_, err := TankDay(line, s)
		refused(t, err, says)
	}
}

func TestADayNeedsNoMemoryInItsLoop(t *testing.T) {
	line := ok[*Timeline](t)(EUExtraLarge().Timeline())
	s := house(t)
	charge := s.Charge
	s.defaults()
	p, err := charge.prepare()
	if err != nil {
		t.Fatal(err)
	}
	day := Day{Charges: make([]Period, 0, usualCharges)}
	m := newTankModel(s, p)
	if n := testing.AllocsPerRun(20, func() { day.Charges = day.Charges[:0]; m.play(line, &day) }); n != 0 {
		t.Errorf("%v allocations in the loop of a tank's day", n)
	}
	if n := testing.AllocsPerRun(20, func() {
		_, _ = CombiDay(line, CombiSetup{Output: 24e3, Cold: units.Celsius(10), Set: units.Celsius(55)})
	}); n != 0 {
		t.Errorf("%v allocations in a combi's day", n)
	}
}

func BenchmarkTankDay(b *testing.B) {
	line, _ := EUExtraLarge().Timeline()
	coil, _ := NewCoil(CoilRating{Output: 25e3, Supply: units.Celsius(80), Flow: units.LitresPerMinute(25), Cold: units.Celsius(10), Hot: units.Celsius(45)})
	s := TankSetup{Tank: Tank{Volume: 0.2, Loss: 2, Room: units.Celsius(15)}, Layers: 20, Cold: units.Celsius(10), Set: units.Celsius(60), Differential: 5, Priority: true,
		Charge: Charge{Boiler: 24e3, Supply: units.Celsius(75), Flow: units.LitresPerMinute(25), Coil: coil}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := TankDay(line, s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCombiDay(b *testing.B) {
	line, _ := EUExtraLarge().Timeline()
	s := CombiSetup{Output: 24e3, Cold: units.Celsius(10), Set: units.Celsius(55)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := CombiDay(line, s); err != nil {
			b.Fatal(err)
		}
	}
}
