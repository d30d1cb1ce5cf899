package sensor

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"curvewright/refuse"
	"curvewright/units"
	"pgregory.net/rapid"
)

func ok[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v ± %v", what, got, want, tolerance)
	}
}

func refused(t *testing.T, err error, says string) {
	t.Helper()
	var re *refuse.Error
	if !errors.As(err, &re) || !strings.Contains(err.Error(), says) || re.Accept == "" || strings.Contains(err.Error(), "NaN") {
		t.Errorf("error %v; should say %q and what is accepted", err, says)
	}
}

func spaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestPlatinum(t *testing.T) { // IEC 60751
	pt100, pt1000 := ok[Sensor](t)(Platinum("Pt100", 100)), ok[Sensor](t)(Platinum("Pt1000", 1000))
	for _, c := range []struct {
		s                   Sensor
		at, ohms, tolerance float64
	}{
		{pt100, 0, 100, 1e-4}, {pt100, 100, 138.5055, 1e-4}, {pt100, 200, 175.856, 5e-4}, {pt100, -20, 92.1599, 1e-4}, {pt100, -50, 80.31, 0.005},
		{pt100, -100, 60.2558, 1e-4}, {pt1000, -40, 842.707, 0.001}, {pt1000, -20, 921.599, 0.001}, {pt1000, 20, 1077.935, 0.001},
		{pt1000, 25, 1097.347, 0.001}, {pt1000, 40, 1155.408, 0.001}, {pt1000, 50, 1193.971, 0.001}, {pt1000, 60, 1232.419, 0.001},
		{pt1000, 80, 1308.968, 0.001}, {pt1000, 100, 1385.055, 0.001}, {pt1000, 110, 1422.925, 0.001},
	} {
		near(t, fmt.Sprint(c.s.Name, " at ", c.at), float64(ok[units.ElectricResistance](t)(c.s.Resistance(units.Celsius(c.at)))), c.ohms, c.tolerance)
	}
	near(t, "108.5 Ω", ok[units.Temperature](t)(pt100.Temperature(108.5)).Celsius(), 21.8189, 0.001)
	near(t, "class B at 100 °C", float64(ok[units.Difference](t)(pt100.Band(units.Celsius(100)))), 0.8, 1e-12)
	near(t, "class A at −50 °C", float64(ok[units.Difference](t)(pt100.With(Class(ClassA)).Band(units.Celsius(-50)))), 0.25, 1e-12)
	_, err := pt100.With(Class(ClassA)).Band(units.Celsius(500))
	refused(t, err, "class A")
	_, err = pt100.Temperature(500)
	refused(t, err, "resistance of the Pt100 sensor")
	_, err = Platinum("x", 0)
	refused(t, err, "0 °C")
}

// bValues are R = R25·exp(B·(1/T − 1/298.15)), worked out.
var bValues = []struct{ at, b3435, b3950, b3977, b3740 float64 }{
	{-20, 77522.5, 105384.7, 107094.9, 111579.2}, {-10, 46290.2, 58245.7, 58951.5, 63644.4}, {0, 28704.3, 33620.6, 33900.4, 37826.0},
	{10, 18410.4, 20174.6, 20271.6, 23322.8}, {20, 12171.4, 12535.3, 12554.7, 14862.8}, {25, 10000, 10000, 10000, 12000},
	{40, 5758.8, 5301.5, 5278.5, 6580.1}, {60, 2980.9, 2486.2, 2462.6, 3212.5}, {80, 1662.4, 1270.3, 1252.5, 1701.1}, {100, 987.0, 697.5, 684.9, 964.3},
}

func TestSingleB(t *testing.T) {
	for _, row := range bValues {
		for _, c := range []struct{ r25, b, want float64 }{{10e3, 3435, row.b3435}, {10e3, 3950, row.b3950}, {10e3, 3977, row.b3977}, {12e3, 3740, row.b3740}} {
			s := ok[Sensor](t)(FromB("NTC", units.Ohms(c.r25), units.Number(c.b)))
			near(t, fmt.Sprint(c.b, " at ", row.at), float64(ok[units.ElectricResistance](t)(s.Resistance(units.Celsius(row.at)))), c.want, 0.1)
		}
	}
	_, err := FromB("NTC", 10e3, 39)
	refused(t, err, "B of the thermistor")
	_, err = FromB("NTC", units.ElectricResistance(math.NaN()), 3950)
	refused(t, err, "resistance at 25 °C")
}

func type2(t *testing.T) Sensor {
	return ok[Sensor](t)(FromSteinhartHart("type 2", 1.129148e-3, 2.34125e-4, 8.76741e-8))
}

func TestThreeCoefficients(t *testing.T) { // "type 2" table, from memory
	s := type2(t)
	for _, c := range []struct{ ohms, at float64 }{{32650, 0}, {19903, 10}, {10000, 25}, {3602, 49.993}, {1256, 80.002}, {679, 99.971}} {
		near(t, "temperature", ok[units.Temperature](t)(s.Temperature(units.Ohms(c.ohms))).Celsius(), c.at, 0.01)
	}
	// Without the cubic term it is the B-equation: A = 1/298.15 − ln(R25)/B, B' = 1/B.
	plain := ok[Sensor](t)(FromSteinhartHart("plain", units.Number(1/298.15-math.Log(10e3)/3950), 1.0/3950, 0))
	near(t, "no cubic term", float64(ok[units.ElectricResistance](t)(plain.Resistance(units.Celsius(0)))), 33620.6, 0.1)
	for _, c := range [][3]units.Number{{0, 0, 0}, {1.1e-3, -2e-4, 8e-8}, {1.1e-3, 2.3e-4, -1e-7}, {5e-3, 2.3e-4, 8e-8}, {units.Number(math.NaN()), 2e-4, 8e-8}, {-0.5, 2.3e-4, 8e-8}} {
		_, err := FromSteinhartHart("x", c[0], c[1], c[2])
		var re *refuse.Error
		if !errors.As(err, &re) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

func rows(t *testing.T, s Sensor, low, high, step float64) []Point {
	var out []Point
	for at := low; at <= high; at += step {
		out = append(out, Point{units.Celsius(at), ok[units.ElectricResistance](t)(s.Resistance(units.Celsius(at)))})
	}
	return out
}

func TestTableBetweenItsRows(t *testing.T) {
	for _, c := range []struct {
		s         Sensor
		step, off float64
	}{{type2(t), 10, 0.1}, {type2(t), 5, 0.03}, {ok[Sensor](t)(Platinum("Pt1000", 1000)), 10, 0.1}} {
		table := ok[Sensor](t)(FromTable("sheet", rows(t, c.s, -30, 110, c.step)))
		for at := -30.0; at <= 110; at++ {
			r := ok[units.ElectricResistance](t)(c.s.Resistance(units.Celsius(at)))
			near(t, fmt.Sprint(c.s.Name, " at ", at), ok[units.Temperature](t)(table.Temperature(r)).Celsius(), at, c.off)
		}
		near(t, "slope", table.law.slope(300)/c.s.law.slope(300), 1, 0.05)
	}
}

func TestTablesThatCannotBe(t *testing.T) {
	at := func(pairs ...float64) (out []Point) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, Point{units.Celsius(pairs[i]), units.Ohms(pairs[i+1])})
		}
		return out
	}
	for _, c := range []struct {
		rows []Point
		says string
	}{
		{at(0, 30e3), "rows of the table"},
		{at(0, 30e3, 10, 20e3, 20, 25e3), "rises or only falls"},
		{at(0, 30e3, 10, 30e3), "rises or only falls"},
		{at(0, 30e3, 0, 20e3), "twice"},
		{at(0, 30e3, 10, 0), "resistance in the table"},
		{at(0, 30e3, 1000, 10), "temperature in the table"},
		{make([]Point, 1001), "rows of the table"},
	} {
		_, err := FromTable("sheet", c.rows)
		refused(t, err, c.says)
	}
	s := ok[Sensor](t)(FromTable("sheet", at(10, 20e3, 0, 30e3)))
	_, err := s.Resistance(units.Celsius(11))
	refused(t, err, "0.0\u00a0°C")
	_, err = s.Temperature(31e3)
	refused(t, err, "30\u00a0kΩ")
	_, err = Sensor{}.Resistance(units.Celsius(20))
	refused(t, err, "sensor")
}

func TestParseTable(t *testing.T) {
	for _, text := range []string{
		"0 °C\t30 kΩ\n10 °C\t20 kΩ\n",
		"# from the sheet\r\n32 °F ; 30,000 ohm\r\n50 °F | 20k\r\n\r\n",
		"°C kΩ\n0 30\n10 20",
		"C\tohm\n10\t20000\n0\t30000",
		"0 °C = 30 kΩ\n10 °C  20 kΩ",
	} {
		s := ok[Sensor](t)(ParseTable("sheet", text))
		near(t, text, float64(ok[units.ElectricResistance](t)(s.Resistance(units.Celsius(10)))), 20e3, 1e-6)
		near(t, text, ok[units.Temperature](t)(s.Temperature(30e3)).Celsius(), 0, 1e-6)
	}
	for text, says := range map[string]string{
		"":                             "rows of the table",
		"0 °C 30 kΩ x\n":               "line 1 of the table",
		"0 30":                         "has no unit",
		"°C kΩ\n0 warm\n":              "line 2",
		"0 °C\t30 kΩ\n10 °C\t20 W\n":   "line 2",
		"°C kΩ\n0 30\n10 20 5\n":       "line 3 of the table",
		strings.Repeat("0 30\n", 3e4):  "up to 100000 bytes",
		"0 °C\t30 kΩ\n10 °C\t-20 kΩ\n": "line 2",
	} {
		if _, err := ParseTable("sheet", text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.30q: %v; should say %q", text, err, says)
		}
	}
}

func TestBackAndForth(t *testing.T) {
	curves := append(Common(), ok[Sensor](t)(FromTable("sheet", rows(t, type2(t), -30, 110, 7))),
		ok[Sensor](t)(FromTable("rising", rows(t, Common()[5], -30, 110, 7))))
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(curves).Draw(t, "sensor")
		at := units.Temperature(rapid.Float64Range(float64(s.Low), float64(s.High)).Draw(t, "at"))
		reads, err := s.Resistance(at)
		if err != nil {
			t.Fatal(err)
		}
		back, err := s.Temperature(reads)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(back-at)) > 1e-8 {
			t.Fatalf("%s: %v becomes %v", s.Name, at, back)
		}
		warmer := min(s.High, at+units.Temperature(rapid.Float64Range(0.01, 50).Draw(t, "more")))
		other, err := s.Resistance(warmer)
		if err != nil {
			t.Fatal(err)
		}
		if rises := s.law.slope(float64(at)) > 0; warmer > at && (other > reads) != rises {
			t.Fatalf("%s: %v at %v and %v at %v", s.Name, reads, at, other, warmer)
		}
		// The slope is that of the curve itself. A table has corners: look well inside a cell.
		if s.Basis != ByTable {
			const h = 0.01
			if at-h > s.Low && at+h < s.High {
				want := (math.Log(s.law.ohms(float64(at)+h)) - math.Log(s.law.ohms(float64(at)-h))) / (2 * h)
				if got := s.law.slope(float64(at)); math.Abs(got-want) > 1e-5*math.Abs(want)+1e-9 {
					t.Fatalf("%s at %v: slope %v, differences give %v", s.Name, at, got, want)
				}
			}
		}
	})
}

func TestRandomCoefficientsGoBackAndForth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(1.5e-4, 4e-4).Draw(t, "B")
		c := rapid.Float64Range(0, 3e-7).Draw(t, "C")
		x := math.Log(rapid.Float64Range(1e3, 1e5).Draw(t, "R25"))
		s, err := FromSteinhartHart("x", units.Number(1/298.15-b*x-c*x*x*x), units.Number(b), units.Number(c))
		if err != nil {
			t.Skip("not a thermistor")
		}
		at := units.Celsius(rapid.Float64Range(-50, 150).Draw(t, "at"))
		reads, _ := s.Resistance(at)
		if back, err := s.Temperature(reads); err != nil || math.Abs(float64(back-at)) > 1e-8 {
			t.Fatalf("%v becomes %v (%v)", at, back, err)
		}
	})
}

func TestBand(t *testing.T) {
	one := ok[Tolerance](t)(Shares(0.01, 0.01))
	s := type2(t).With(one)
	alpha := math.Abs(s.law.slope(298.15))
	near(t, "1 % at 25 °C", float64(ok[units.Difference](t)(s.Band(units.Celsius(25)))), 0.01/alpha, 1e-12)
	if cold := ok[units.Difference](t)(s.Band(units.Celsius(-20))); float64(cold) <= 0.01/alpha {
		t.Errorf("the tolerance of B widens nothing: %v", cold)
	}
	b := ok[Sensor](t)(FromB("B", 10e3, 3977))
	near(t, "a single B at −20 °C", float64(ok[units.Difference](t)(b.Band(units.Celsius(-20)))), 1, 1e-12)
	near(t, "a table", float64(ok[units.Difference](t)(type2(t).Band(units.Celsius(-20)))), 0, 0)
	_, err := Shares(0.5, 0)
	refused(t, err, "tolerance of the resistance")

	// The trap: type 2 at 0 °C reads 32,650 Ω, which B 3977 takes for 0.75 K more.
	shows := ok[units.Temperature](t)(b.Temperature(32650))
	near(t, "B 3977 for type 2", shows.Celsius(), 0.75, 0.05)
	if band := ok[units.Difference](t)(b.Band(units.Celsius(0))); float64(band) < 0.6 {
		t.Errorf("the band %v of a single B hides its departure", band)
	}
}

func TestJudge(t *testing.T) {
	b3977, b3435, pt := Common()[2], Common()[0], Common()[5]
	short := ok[Sensor](t)(FromTable("sheet", rows(t, type2(t), -30, 60, 10)))
	for _, c := range []struct {
		name    string
		s       Sensor
		reads   float64
		true    float64 // °C
		verdict Verdict
		fault   Fault
		says    string
	}{
		{"right", b3977, 33900, 0, Right, NoFault, "the two agree: right"},
		{"right in the warm", b3977, 10000, 25, Right, NoFault, "cannot be told from"},
		{"doubtful", b3977, 28000, 0, Doubtful, ReadsWarm, "would also fit NTC 10 kΩ, B 3435"},
		{"warm", b3977, 22000, 0, Wrong, ReadsWarm, "in the sun"},
		{"cold", b3977, 55000, 0, Wrong, ReadsCold, "bad contact or is wet"},
		{"platinum in place of a thermistor", b3977, 1000, 0, Wrong, WrongCurve, "fits Pt1000"},
		{"thermistor in place of platinum", pt, 33900, 0, Wrong, WrongCurve, "NTC 10 kΩ, B 3977"},
		{"12 kΩ in place of 10 kΩ", b3435, 37826, 0, Wrong, WrongCurve, "12 kΩ"},
		{"far too warm", b3977, 8300, 0, Wrong, FarOff, "wires of two sensors are crossed (one at 85 °F reads so)"},
		{"far too cold", b3977, 130e3, 0, Wrong, FarOff, "A corroded terminal also adds resistance"},
		{"5 kΩ in place of 10 kΩ", b3977, 16200, 0, Wrong, WrongCurve, "fits NTC 5 kΩ of the same curve"},
		{"20 kΩ in place of 10 kΩ", b3977, 67500, 0, Wrong, ReadsCold, "would also fit NTC 20 kΩ of the same curve"},
		{"open", b3977, 2e6, 0, Wrong, Open, "broken wire"},
		{"short", b3977, 1, 0, Wrong, Short, "wires that touch"},
		{"high", short, 800e3, 0, Wrong, BadContact, "corroded"},
		{"low", short, 20, 0, Wrong, Damp, "damp"},
	} {
		j := ok[Judgement](t)(Judge(c.s, Reading{Reads: units.Ohms(c.reads), True: units.Celsius(c.true), Outdoor: true}))
		if text := spaces(j.Text(units.US)); j.Verdict != c.verdict || j.Fault != c.fault || !strings.Contains(text, c.says) {
			t.Errorf("%s: %s, %q: %s", c.name, j.Verdict, j.Fault, text)
		}
		for _, s := range []units.System{units.SI, units.US} {
			if text := j.Text(s); strings.Contains(text, "no value") || strings.Contains(text, "..") {
				t.Errorf("%s: %s", c.name, text)
			}
		}
	}
	j := ok[Judgement](t)(Judge(b3977, Reading{Overload: true, Reads: units.ElectricResistance(math.NaN()), True: units.Celsius(0)}))
	if j.Fault != Open || !strings.Contains(j.Text(units.SI), "overload") {
		t.Errorf("overload: %+v", j)
	}
	// No thermometer is needed to see that a line is open or shorted.
	for _, reads := range []units.ElectricResistance{NoEnd, 5e6, 0, 2} {
		if j := ok[Judgement](t)(Judge(b3977, Reading{Reads: reads})); j.Verdict != Wrong || j.Fault != Open && j.Fault != Short {
			t.Errorf("%v without a thermometer: %+v", reads, j)
		}
	}
	_, err := Judge(b3977, Reading{Reads: -1, True: units.Celsius(0)})
	refused(t, err, "resistance read")
	_, err = Judge(b3977, Reading{Reads: 1e4, True: units.Celsius(400)})
	refused(t, err, "temperature of the")
	_, err = Judge(b3977, Reading{Reads: 1e4, True: units.Celsius(20), Instrument: -1})
	refused(t, err, "thermometer")
	_, err = Judge(Sensor{}, Reading{Reads: 1e4, True: units.Celsius(20)})
	refused(t, err, "sensor")
	for _, indoor := range []float64{22000, 55000} {
		j := ok[Judgement](t)(Judge(b3977, Reading{Reads: units.Ohms(indoor), True: units.Celsius(0)}))
		if !strings.Contains(j.Text(units.SI), "It may") {
			t.Errorf("indoors: %s", j.Text(units.SI))
		}
	}
}

func TestWhatAMeterShowsIsRead(t *testing.T) {
	for text, want := range map[string]units.ElectricResistance{"OL": NoEnd, "O.L": NoEnd, "open": NoEnd, "short": 0, "0": 0, "0 Ω": 0, "5 MΩ": 5e6, "5 megohm": 5e6, "2.2M": 2.2e6, "12.3 kΩ": 12300} {
		if got, err := ParseReading(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "5", "5 mΩ", "oil", "-1 Ω"} {
		if got, err := ParseReading(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

func TestTheWordsOfAJudgement(t *testing.T) {
	j := ok[Judgement](t)(Judge(Common()[5], Reading{Reads: 1020, True: units.Celsius(5), Instrument: 0.5}))
	if got, want := spaces(j.Text(units.SI)), "You read 1.02 kΩ: by the curve of Pt1000 that is 5.1 °C ± 0.3 K. The thermometer says 5.0 °C ± 0.5 K; the two agree: right."; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if got, want := spaces(j.Text(units.US)), "You read 1.02 kΩ: by the curve of Pt1000 that is 41 °F ± 0.6 °F. The thermometer says 41 °F ± 0.9 °F; the two agree: right."; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// Whatever a sound sensor reads, it is judged right, and what is right is not called
// faulty.
func TestASoundSensorIsJudgedRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(Common()).Draw(t, "sensor")
		at := units.Celsius(rapid.Float64Range(-40, 100).Draw(t, "at"))
		band, err := s.Band(at)
		if err != nil {
			t.Fatal(err)
		}
		off := units.Temperature(rapid.Float64Range(-0.99, 0.99).Draw(t, "off")) * units.Temperature(band+1)
		reads, err := s.Resistance(at + off)
		if err != nil {
			t.Fatal(err)
		}
		j, err := Judge(s, Reading{Reads: reads, True: at})
		if err != nil || j.Verdict != Right || j.Fault != NoFault {
			t.Fatalf("%s at %v, off %v: %+v %v", s.Name, at, off, j, err)
		}
	})
}

func TestPrinted(t *testing.T) {
	s := Common()[2]
	for _, c := range []struct {
		step  units.Step
		first string
		count int
	}{{units.Step{System: units.US, Size: 10}, "−10 °F", 11}, {units.Step{System: units.SI, Size: 5}, "−20 °C", 12}} {
		table := ok[[]Point](t)(s.Printed(units.Celsius(-24), units.Celsius(35), c.step))
		if len(table) != c.count || spaces(c.step.Text(table[0].At)) != c.first {
			t.Errorf("%d rows from %s", len(table), c.step.Text(table[0].At))
		}
		for i, p := range table {
			if i > 0 && p.Reads >= table[i-1].Reads {
				t.Errorf("the table does not fall at %v", p.At)
			}
			near(t, "row", float64(p.Reads), s.law.ohms(float64(p.At)), 1e-6)
		}
	}
	_, err := s.Printed(units.Celsius(20), units.Celsius(0), units.Step{Size: 5})
	refused(t, err, "temperatures of the table")
	_, err = s.Printed(units.Celsius(-40), units.Celsius(100), units.Step{Size: 0.01})
	refused(t, err, "larger step")
	_, err = s.Printed(units.Celsius(200), units.Celsius(300), units.Step{Size: 5})
	refused(t, err, "temperatures of the table")
	_, err = Sensor{}.Printed(units.Celsius(0), units.Celsius(30), units.Step{Size: 5})
	refused(t, err, "sensor")
}
