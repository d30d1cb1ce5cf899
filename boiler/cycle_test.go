package boiler

import (
	"math"
	"testing"

	"curvewright/fluid"
	"curvewright/units"
	"pgregory.net/rapid"
)

// hundredLitres is water of 70 °C, 409.5 kJ/K by IAPWS R7-97(2012).
func hundredLitres() Cycling {
	return Cycling{Water: 0.1, At: units.Celsius(70), Least: 12e3, Differential: 10}
}

func TestCycleByHand(t *testing.T) { // energy balance worked by hand
	c := ok[Cycle](t)(hundredLitres().Under(4e3))
	near(t, "on, min", float64(c.On)/60, 8.53, 0.01)
	near(t, "off, min", float64(c.Off)/60, 17.06, 0.01)
	near(t, "starts per hour", c.Starts.PerHour(), 2.344, 0.001)
	near(t, "share", float64(c.Share), 1.0/3, 1e-12)
	most := ok[units.Frequency](t)(hundredLitres().MostStarts())
	near(t, "most starts", most.PerHour(), 2.637, 0.001)
	near(t, "by the parabola", 4*most.PerHour()*(1.0/3)*(2.0/3), c.Starts.PerHour(), 1e-9)

	if c := ok[Cycle](t)(hundredLitres().Under(12e3)); !c.Continuous || c.Starts != 0 {
		t.Errorf("at its least output the burner starts: %+v", c)
	}
	if c := ok[Cycle](t)(hundredLitres().Under(0)); !c.Idle || c.Starts != 0 || c.Off != 0 {
		t.Errorf("without load the burner starts: %+v", c)
	}
	held := hundredLitres()
	held.LeastOff = 1800
	c = ok[Cycle](t)(held.Under(4e3))
	near(t, "held off, min", float64(c.Off)/60, 30, 1e-9)
	near(t, "on after it, min", float64(c.On)/60, 15, 1e-9)
	near(t, "swing", float64(c.Swing), 1800*4e3/409.5e3, 0.01)
}

func TestCycleLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Cycling{
			Water: units.Volume(rapid.Float64Range(0.005, 2).Draw(t, "water")), At: units.Celsius(rapid.Float64Range(20, 90).Draw(t, "at")),
			Least: units.Power(rapid.Float64Range(500, 50e3).Draw(t, "least")), Differential: units.Difference(rapid.Float64Range(1, 30).Draw(t, "differential")),
			LeastOff: units.Time(rapid.SampledFrom([]float64{0, 180, 900}).Draw(t, "rest")),
		}
		load := c.Least * units.Power(rapid.Float64Range(0.001, 0.999).Draw(t, "share"))
		cycle, err := c.Under(load)
		if err != nil {
			t.Fatal(err)
		}
		made, taken := float64(c.Least)*float64(cycle.On), float64(load)*float64(cycle.On+cycle.Off)
		if math.Abs(made/taken-1) > 1e-9 {
			t.Fatalf("%v made, %v taken", made, taken)
		}
		most, err := c.MostStarts()
		if err != nil || cycle.Starts > most*(1+1e-9) {
			t.Fatalf("%v starts, at most %v", cycle.Starts, most)
		}
		if cycle.Off < c.LeastOff || cycle.Swing < c.Differential {
			t.Fatalf("%+v", cycle)
		}
		wider := c
		wider.Differential++
		if w, err := wider.Under(load); err != nil || w.Starts > cycle.Starts {
			t.Fatalf("a wider differential starts more often: %v, %v", w.Starts, cycle.Starts)
		}
		// There and back: the differential for this run is this differential.
		if run := cycle.On; c.LeastOff == 0 && run >= 10 && run <= 7200 {
			d, err := c.DifferentialFor(run, load)
			if err != nil || math.Abs(float64(d-c.Differential)) > 1e-6 {
				t.Fatalf("differential %v comes back as %v (%v)", c.Differential, d, err)
			}
			// A buffer of this size for this run is this water.
			if c.Least >= leastPower {
				v, err := Buffer(run, c.Least, load, c.Differential, c.Fluid, c.At)
				if err != nil || math.Abs(float64(v/c.Water)-1) > 1e-9 {
					t.Fatalf("buffer %v, water %v (%v)", v, c.Water, err)
				}
			}
		}
		// The rest that keeps to these starts does.
		if n := cycle.Starts.PerHour(); n > 0.5 && n < 30 {
			rest, err := AntiCyclingTime(load, c.Least, cycle.Starts)
			if err != nil || math.Abs(float64(rest/cycle.Off)-1) > 1e-9 {
				t.Fatalf("rest %v, off %v (%v)", rest, cycle.Off, err)
			}
		}
	})
}

func TestBufferByHand(t *testing.T) { // V = t·(Q − q)/(500·ΔT), the "500" of water at 60 °F
	const gallon = 3.785411784e-3
	at := units.Fahrenheit(60)
	for _, c := range []struct{ source, load, want float64 }{{60e3, 10e3, 50}, {8e3, 2e3, 6}, {10e3, 20e3, 0}, {10e3, 10e3, 0}} {
		v := ok[units.Volume](t)(Buffer(600, units.BtuPerHour(c.source), units.BtuPerHour(c.load), units.FahrenheitDifference(20), fluid.Water(), at))
		near(t, "gallons", float64(v)/gallon, c.want, 0.002*c.want)
	}
}

func TestSeasonAddsUp(t *testing.T) {
	weather := []Weather{
		{Outdoor: units.Celsius(-10), Time: units.Hours(500), Load: 14e3},
		{Outdoor: units.Celsius(5), Time: units.Hours(2000), Load: 4e3},
		{Outdoor: units.Celsius(10), Time: units.Hours(1000), Load: 6e3},
		{Outdoor: units.Celsius(20), Time: units.Hours(1000)},
	}
	s := ok[Season](t)(hundredLitres().Season(weather))
	near(t, "starts", float64(s.Starts), 2000*2.3441+1000*2.6371, 1)
	near(t, "hours on", float64(s.Burning)/3600, 500+2000.0/3+500, 1e-6)
	near(t, "hours of cycling", float64(s.Cycling)/3600, 3000, 1e-9)
	near(t, "hours without a stop", float64(s.Continuous)/3600, 500, 1e-9)
	near(t, "worst at", s.WorstAt.Celsius(), 10, 1e-9)
	_, err := hundredLitres().Season(nil)
	refused(t, "no weather", err, "0 classes")
	_, err = hundredLitres().Season([]Weather{{Outdoor: units.Celsius(0), Time: units.Hours(9000), Load: 1}})
	refused(t, "a long year", err, "hours")
	_, err = hundredLitres().Season([]Weather{{Outdoor: units.Celsius(0), Time: units.Hours(1), Load: -1}})
	refused(t, "negative load", err, "heat load")
}

func TestContinuousBelow(t *testing.T) {
	load := ok[LoadAt](t)(StraightLoad(200, units.Celsius(20), 600))
	// 200·(20 − To) − 600 = 3000 at 2 °C
	m := ok[Modulation](t)(ContinuousBelow(load, 3000, units.Celsius(-20), units.Celsius(20)))
	near(t, "outdoor", m.Below.Celsius(), 2, 1e-6)
	if m.Never || m.Ever {
		t.Errorf("%+v", m)
	}
	if m := ok[Modulation](t)(ContinuousBelow(load, 9000, units.Celsius(-20), units.Celsius(20))); !m.Never {
		t.Errorf("%+v", m)
	}
	if m := ok[Modulation](t)(ContinuousBelow(load, 100, units.Celsius(-20), units.Celsius(10))); !m.Ever {
		t.Errorf("%+v", m)
	}
	_, err := ContinuousBelow(func(o units.Temperature) units.Power { return units.Power(o) }, 250, units.Celsius(-20), units.Celsius(20))
	refused(t, "a rising load", err, "rises|must fall")
	_, err = ContinuousBelow(nil, 250, units.Celsius(-20), units.Celsius(20))
	refused(t, "no load", err, "not given")
	_, err = ContinuousBelow(func(units.Temperature) units.Power { return units.Power(math.NaN()) }, 250, units.Celsius(-20), units.Celsius(20))
	refused(t, "no number", err, "no number")
	_, err = StraightLoad(0, units.Celsius(20), 0)
	refused(t, "no loss", err, "loss coefficient")

	rapid.Check(t, func(t *rapid.T) {
		h := units.LossCoefficient(rapid.Float64Range(20, 500).Draw(t, "H"))
		gains := units.Power(rapid.Float64Range(0, 1500).Draw(t, "gains"))
		load, err := StraightLoad(h, units.Celsius(20), gains)
		if err != nil {
			t.Fatal(err)
		}
		least := units.Power(rapid.Float64Range(500, 20e3).Draw(t, "least"))
		m, err := ContinuousBelow(load, least, units.Celsius(-30), units.Celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		if !m.Never && !m.Ever && math.Abs(float64(load(m.Below)-least)) > 1e-3 {
			t.Fatalf("load %v at %v, least output %v", load(m.Below), m.Below, least)
		}
		if m.Words() == "" {
			t.Fatal("no words")
		}
	})
}

func TestOutputLimit(t *testing.T) {
	for _, c := range []struct {
		load, least, full, want units.Power
		words                   string
	}{
		{10e3, 3e3, 25e3, 11e3, "a tenth more"},
		{2e3, 5e3, 25e3, 5e3, "cannot go lower"},
		{24e3, 3e3, 25e3, 25e3, "cannot give more"},
		{30e3, 3e3, 25e3, 25e3, "check the load"},
	} {
		l := ok[OutputLimit](t)(LimitOutput(c.load, c.least, c.full))
		near(t, "limit", float64(l.Power), float64(c.want), 1e-6)
		near(t, "share", float64(l.Share), float64(c.want/c.full), 1e-9)
		if !contains(l.Why, c.words) {
			t.Errorf("%q does not say %q", l.Why, c.words)
		}
	}
	_, err := LimitOutput(10e3, 30e3, 25e3)
	refused(t, "least above full", err, "least output|25 kW")
}

func TestSize(t *testing.T) {
	for _, c := range []struct {
		output, load units.Power
		words        string
	}{
		{9e3, 10e3, "too small"}, {12e3, 10e3, "fits"}, {18e3, 10e3, "hold the heating output down"}, {25e3, 10e3, "much larger"},
		{40e3, 10e3, "6 to 9 %"}, {85e3, 10e3, "50 cycles a day"},
	} {
		s := ok[Size](t)(SizeFor(c.output, c.load))
		near(t, "ratio", float64(s.Ratio), float64(c.output/c.load), 1e-12)
		if !contains(s.Meaning, c.words) {
			t.Errorf("%q does not say %q", s.Meaning, c.words)
		}
	}
	_, err := SizeFor(12e3, 0)
	refused(t, "no load", err, "heat load")
}

func TestAltitude(t *testing.T) {
	for _, c := range []struct {
		rule AltitudeRule
		feet float64
		want float64
	}{
		// NFPA 54 as quoted: counted from sea level once past 2000 ft.
		{AltitudeUS, 0, 1}, {AltitudeUS, 2000, 1}, {AltitudeUS, 2001, 0.91996}, {AltitudeUS, 5000, 0.80}, {AltitudeUS, 10000, 0.60},
		// AGA 221.30-1964 as quoted.
		{AltitudeUSTable, 2000, 1}, {AltitudeUSTable, 2001, 0.92}, {AltitudeUSTable, 2500, 0.92}, {AltitudeUSTable, 2501, 0.88}, {AltitudeUSTable, 3500, 0.88},
		{AltitudeUSTable, 3501, 0.84}, {AltitudeUSTable, 4500, 0.84}, {AltitudeUSTable, 4501, 0.80}, {AltitudeUSTable, 5501, 0.76}, {AltitudeUSTable, 6501, 0.72}, {AltitudeUSTable, 7500, 0.72},
		// Canadian practice as quoted: 88,000 to 79,200 Btu/h.
		{AltitudeCanada, 1999, 1}, {AltitudeCanada, 2000, 0.90}, {AltitudeCanada, 4500, 0.90},
	} {
		got := ok[units.Fraction](t)(c.rule.Remains(units.Feet(c.feet)))
		near(t, string(c.rule), float64(got), c.want, 1e-9)
	}
	for _, c := range []struct{ feet, want float64 }{{2000, 0.9298}, {5000, 0.8320}, {7000, 0.7716}} { // ICAO standard atmosphere
		p := ok[units.Pressure](t)(AirPressure(units.Feet(c.feet)))
		near(t, "pressure ratio", float64(p)/101325, c.want, 1e-4)
	}
	_, err := AltitudeCanada.Remains(units.Feet(5000))
	refused(t, "high in Canada", err, "5,000 ft|local authority")
	_, err = AltitudeRule("moon").Remains(0)
	refused(t, "unknown rule", err, "moon|Canada")
}

func TestBadCyclesAreRefused(t *testing.T) {
	bad := hundredLitres()
	bad.Water = 0
	_, err := bad.Under(4e3)
	refused(t, "no water", err, "water that the burner warms")
	bad = hundredLitres()
	bad.At = units.Celsius(200)
	_, err = bad.Under(4e3)
	refused(t, "steam", err, "200.0 °C")
	_, err = hundredLitres().Under(units.Power(math.Inf(1)))
	refused(t, "endless load", err, "no number")
	_, err = hundredLitres().DifferentialFor(600, 12e3)
	refused(t, "no need", err, "any differential")
	small := hundredLitres()
	small.Water = 0.005
	_, err = small.DifferentialFor(1200, 1e3)
	refused(t, "too little water", err, "take a buffer")
	_, err = Buffer(600, 12e3, 4e3, 0, fluid.Water(), units.Celsius(50))
	refused(t, "no swing", err, "swing of the buffer|0 K")
	_, err = AntiCyclingTime(4e3, 12e3, 0)
	refused(t, "no starts", err, "starts of the burner")
}

func BenchmarkSeason(b *testing.B) {
	c := hundredLitres()
	weather := make([]Weather, 60)
	for i := range weather {
		weather[i] = Weather{Outdoor: units.Celsius(float64(i) - 35), Time: units.Hours(100), Load: units.Power(200 * (60 - i))}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Season(weather); err != nil {
			b.Fatal(err)
		}
	}
}
