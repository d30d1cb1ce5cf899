package sensor

// Is the sensor sound? What the meter reads at its terminals, against a thermometer
// held beside it.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"curvewright/units"
)

// Reading is a measurement at the sensor's terminals, with the wires taken off the
// control.
type Reading struct {
	Reads      units.ElectricResistance
	Overload   bool // the meter shows overload; Reads is then not looked at
	True       units.Temperature
	Instrument units.Difference // how far the thermometer may be off; 0 means 1 K (2 °F)
	Outdoor    bool
}

// Verdict is how the reading fits.
type Verdict string

// The verdicts: within what sensor and thermometer may be off together, within twice
// that, and beyond.
const (
	Right    Verdict = "right"
	Doubtful Verdict = "doubtful"
	Wrong    Verdict = "wrong"
)

// Fault is the likeliest reason of a reading that does not fit.
type Fault string

// The faults.
const (
	NoFault    Fault = ""
	Open       Fault = "open circuit"
	Short      Fault = "short circuit"
	WrongCurve Fault = "another curve"
	BadContact Fault = "corroded contact or damaged wire"
	Damp       Fault = "damp in the sensor or its cable"
	FarOff     Fault = "another sensor or crossed wires"
	ReadsWarm  Fault = "reads too warm"
	ReadsCold  Fault = "reads too cold"
)

// Judgement is what a reading means.
type Judgement struct {
	Sensor  string
	Reading Reading
	Verdict Verdict
	Fault   Fault
	Shown   bool              // whether the reading is a temperature of this sensor at all
	Shows   units.Temperature // what the control would show
	Band    units.Difference  // by which a sound sensor may be off
	Off     units.Difference  // Shows above the true temperature
	Fits    []string          // other usual curves that fit the reading, the nearest first
}

// Beyond these a meter shows a broken wire or two that touch, whatever the sensor.
const (
	openFrom   = units.ElectricResistance(1e6)
	shortUntil = units.ElectricResistance(5)
	// unknownThermometer is what a household thermometer may be off.
	unknownThermometer = units.Difference(1)
	// farOff is more than sun, a warm wall or a badly seated sensor does: 25 °F.
	farOff = units.Difference(25 / 1.8)
	// worthTrying is from where another resistance at 25 °C is tried: twice or half of it
	// moves a reading by 12 K (22 °F) in the cold.
	worthTrying = units.Difference(10)
)

// usualR25 are the resistances at 25 °C in which thermistors for heating are mostly sold,
// from memory of makers' sheets.
var usualR25 = []units.ElectricResistance{1000, 2000, 3000, 5000, 10e3, 12e3, 15e3, 20e3, 30e3, 50e3, 100e3}

// NoEnd is the resistance that stands for a meter showing no end: an open line.
const NoEnd = units.ElectricResistance(1e9)

// ParseReading reads what a meter shows: a resistance with its unit, OL, open or
// overload for no end of it, short or a bare 0 for none.
//
// Units: those written; the result in Ω.
// Range: 0 to 1e9 Ω; [NoEnd] for an open line.
// Source: the signs of multimeters, common practice.
// Errors: as [units.Parse].
func ParseReading(text string) (units.ElectricResistance, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "ol", "o.l", "o.l.", "0l", "open", "open line", "open circuit", "overload", "infinite", "∞":
		return NoEnd, nil
	case "short", "short circuit", "shorted":
		return 0, nil
	}
	return units.Parse[units.ElectricResistance](text)
}

// IsOpen says that a reading is no sensor but a broken line.
//
// Range: any resistance.
// Source: limit common practice.
func IsOpen(r units.ElectricResistance) bool { return r >= openFrom }

// IsShort says that a reading is no sensor but wires that touch.
//
// Range: any resistance.
// Source: limit common practice.
func IsShort(r units.ElectricResistance) bool { return r <= shortUntil }

// Judge compares a reading with the temperature measured beside the sensor.
//
//	off = T(R) − T_true; right if |off| ≤ band + instrument, doubtful up to twice that
//
// Where it does not fit, the usual curves ([Common]) are tried in the sensor's place, and
// where it is off by more than 18 °F (10 K) also the sensor's own curve with another
// usual resistance at 25 °C. From 25 °F (14 K) off the place of the sensor is no longer
// blamed. An open or shorted line needs no temperature beside it.
// Near 25 °C (77 °F) curves of the same resistance agree; Fits then names them beside
// a right verdict as well, and only a colder or hotter reading tells them apart.
//
// Units: as [Reading].
// Range: true temperature within the sensor's range; thermometer off by 0 to 10 K;
// resistance 0 to 1e9 Ω. From 1 MΩ the circuit counts as open, to 5 Ω as short.
// Source: the law and tolerance of the sensor; limits and causes common practice.
// Errors: a figure outside the range, a sensor that was not made.
func Judge(s Sensor, r Reading) (Judgement, error) {
	if r.Instrument == 0 {
		r.Instrument = unknownThermometer
	}
	if r.Overload = r.Overload || r.Reads == NoEnd; r.Overload {
		r.Reads = 0
	}
	if s.law != nil && r.True == 0 && (r.Overload || IsOpen(r.Reads) || IsShort(r.Reads)) {
		r.True = min(s.High, max(s.Low, at25)) // not asked: the line tells it all
	}
	band, err := s.Band(r.True)
	if err == nil {
		err = cmp.Or(
			within("resistance read", r.Reads, 0, 1e9),
			within("how far the thermometer may be off", r.Instrument, 0, 10),
		)
	}
	if err != nil {
		return Judgement{}, err
	}
	j := Judgement{Sensor: s.Name, Reading: r, Verdict: Wrong, Band: band}
	switch {
	case r.Overload || IsOpen(r.Reads):
		j.Fault = Open
		return j, nil
	case IsShort(r.Reads):
		j.Fault = Short
		return j, nil
	}
	if shows, err := s.Temperature(r.Reads); err == nil {
		j.Shown, j.Shows, j.Off = true, shows, shows.Sub(r.True)
		j.Verdict = verdict(j.Off, band+r.Instrument)
	}
	var common bool
	j.Fits, common = fits(s, r)
	j.Fault = j.fault(s, common)
	return j, nil
}

func verdict(off, allowed units.Difference) Verdict {
	switch size := units.Difference(math.Abs(float64(off))); {
	case size <= allowed:
		return Right
	case size <= 2*allowed:
		return Doubtful
	}
	return Wrong
}

// fault is the likeliest reason; common says that a usual curve fits, and not only the
// sensor's own with another resistance.
func (j Judgement) fault(s Sensor, common bool) Fault {
	far := j.Shown && math.Abs(float64(j.Off)) > float64(farOff)
	switch {
	case j.Verdict == Right:
		return NoFault
	case j.Verdict == Wrong && (common || far && len(j.Fits) > 0):
		return WrongCurve
	case far:
		return FarOff
	case j.Shown && j.Off > 0:
		return ReadsWarm
	case j.Shown:
		return ReadsCold
	}
	if _, high := s.span(); j.Reading.Reads > high {
		return BadContact
	}
	return Damp
}

// fits names the usual curves, other than the sensor's own, by which the reading is
// right, the nearest first and those of other resistance last, and whether one of [Common] is among them.
func fits(s Sensor, r Reading) (names []string, common bool) {
	type candidate struct {
		name string
		off  float64
	}
	var found []candidate
	for _, c := range Common() {
		if same(s, c) {
			continue
		}
		shows, err := c.Temperature(r.Reads)
		if err != nil {
			continue
		}
		band, err := c.Band(r.True)
		if err != nil {
			continue
		}
		off := shows.Sub(r.True)
		if verdict(off, band+r.Instrument) == Right {
			found = append(found, candidate{c.Name, math.Abs(float64(off))})
		}
	}
	nearest := func(a, b candidate) int { return cmp.Compare(a.off, b.off) }
	slices.SortStableFunc(found, nearest)
	common = len(found) > 0
	if shows, err := s.Temperature(r.Reads); err == nil && math.Abs(float64(shows.Sub(r.True))) > float64(worthTrying) {
		var resized []candidate
		for _, r25 := range usualR25 {
			if name, off, ok := s.resized(r25, r); ok && !slices.ContainsFunc(found, func(c candidate) bool { return strings.HasPrefix(c.name, name) }) {
				resized = append(resized, candidate{name + " of the same curve", math.Abs(float64(off))})
			}
		}
		slices.SortStableFunc(resized, nearest)
		found = append(found, resized...)
	}
	for _, c := range found {
		names = append(names, c.name)
	}
	return names, common
}

// resized tries a thermistor's own curve with another resistance at 25 °C.
func (s Sensor) resized(r25 units.ElectricResistance, r Reading) (name string, off units.Difference, fits bool) {
	own, err := s.Resistance(at25)
	if err != nil || s.Basis == ByPlatinum || s.law.slope(at25) > 0 || math.Abs(float64(own/r25)-1) < 0.05 {
		return "", 0, false
	}
	shows, err := s.Temperature(r.Reads * own / r25)
	if err != nil {
		return "", 0, false
	}
	band, err := s.Band(r.True)
	if err != nil {
		return "", 0, false
	}
	off = shows.Sub(r.True)
	return "NTC " + strings.ReplaceAll(r25.Text(units.SI), "\u00a0", " "), off, verdict(off, band+r.Instrument) == Right
}

// same tells whether two curves are one: alike within 0.5 % where both are known.
func same(a, b Sensor) bool {
	for _, share := range []units.Temperature{0, 0.5, 1} {
		low, high := max(a.Low, b.Low), min(a.High, b.High)
		if low >= high {
			return false
		}
		at := low + share*(high-low)
		ra, errA := a.Resistance(at)
		rb, errB := b.Resistance(at)
		if errA != nil || errB != nil || math.Abs(float64(ra/rb)-1) > 0.005 {
			return false
		}
	}
	return true
}

// Text says the judgement in sentences for a reader of the system.
func (j Judgement) Text(s units.System) string {
	parts := []string{j.reading(s), j.compared(s), j.cause(s)}
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, ". ") + "."
}

func (j Judgement) reading(s units.System) string {
	if j.Reading.Overload {
		return "The meter shows overload: no current flows through the sensor"
	}
	text := "You read " + j.Reading.Reads.Text(s) + ": "
	if !j.Shown {
		return text + "that is no temperature of the sensor (" + j.Sensor + ")"
	}
	return text + "by the curve of " + j.Sensor + " that is " + j.Shows.Text(s) + " ± " + j.Band.Text(s)
}

func (j Judgement) compared(s units.System) string {
	if !j.Shown {
		return ""
	}
	text := "The thermometer says " + j.Reading.True.Text(s) + " ± " + j.Reading.Instrument.Text(s) + "; "
	off := units.Difference(math.Abs(float64(j.Off)))
	side := " too warm: "
	if j.Off < 0 {
		side = " too cold: "
	}
	if j.Verdict == Right {
		return text + "the two agree: right"
	}
	return text + "the sensor shows " + off.Text(s) + side + string(j.Verdict)
}

func (j Judgement) cause(s units.System) string {
	others := strings.Join(j.Fits, " or ")
	switch j.Fault {
	case Open:
		return "Open circuit: look for a broken wire or a loose terminal, at the sensor and at the control; then replace the sensor"
	case Short:
		return "Short circuit: look for wires that touch, a staple or nail through the cable, or water in the sensor; then replace the sensor"
	case WrongCurve:
		text := "The reading fits " + others + ": probably another sensor is fitted than the control is set for; compare the marking and the control's setting before changing anything"
		if math.Abs(float64(j.Off)) > float64(farOff) {
			text += ". If it is marked as the control says, look for crossed wires: a sensor at " + j.Shows.Text(s) + " reads the same"
		}
		return text
	case BadContact:
		return "The resistance is too high: look for a corroded terminal, a bad splice or a damaged cable"
	case Damp:
		return "The resistance is too low: look for damp in the sensor or its cable, or a second sensor on the same wires"
	case FarOff:
		text := "That is too far off for sun, a warm wall or a bad seat: probably the wires of two sensors are crossed (one at " + j.Shows.Text(s) + " reads so), or a sensor of another resistance at " + units.Celsius(25).Text(s) + " is fitted; none of the usual ones fits"
		if j.Off < 0 {
			text += ". A corroded terminal also adds resistance"
		}
		return text
	case ReadsWarm, ReadsCold:
		return j.place() + alternative(others)
	}
	if len(j.Fits) > 0 {
		ice := units.Celsius(0).Text(s)
		return "At this temperature the sensor cannot be told from " + others + ": if the curve is in doubt, read again in ice water (" + ice + ")"
	}
	return ""
}

// place tells where a sound sensor on the right curve gets another temperature than
// the thermometer.
func (j Judgement) place() string {
	switch {
	case j.Fault == ReadsWarm && j.Reading.Outdoor:
		return "An outdoor sensor that reads too warm sits in the sun, over a vent, window or meter, or on a wall warmed from inside: read again at night and look at its place"
	case j.Fault == ReadsWarm:
		return "It may sit against something warmer than what was measured: read again with sensor and thermometer at one place"
	case j.Reading.Outdoor:
		return "An outdoor sensor that reads too cold has a bad contact or is wet or under snow: look at its terminals first"
	}
	return "It may touch the pipe or the well badly: push it home, use paste and insulate it; then look at the terminals"
}

func alternative(others string) string {
	if others == "" {
		return ""
	}
	return ". The reading would also fit " + others + ", so compare the sensor's marking with the control's setting"
}
