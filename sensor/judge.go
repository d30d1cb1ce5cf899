package sensor

// Is the sensor sound? What the meter reads at its terminals, against a thermometer
// held beside it.

import (
	"cmp"
	"math"
	"sort"
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
)

// Judge compares a reading with the temperature measured beside the sensor.
//
//	off = T(R) − T_true; right if |off| ≤ band + instrument, doubtful up to twice that
//
// Where it does not fit, the usual curves ([Common]) are tried in the sensor's place.
// Near 25 °C (77 °F) curves of the same resistance agree; Fits then names them beside
// a right verdict as well, and only a colder or hotter reading tells them apart.
//
// Units: as [Reading].
// Range: true temperature within the sensor's range; thermometer off by 0 to 10 K;
// resistance 0 to 1e9 Ω. From 1000 kΩ the circuit counts as open, to 5 Ω as short.
// Source: the law and tolerance of the sensor; limits and causes common practice.
// Errors: a figure outside the range, a sensor that was not made.
func Judge(s Sensor, r Reading) (Judgement, error) {
	if r.Instrument == 0 {
		r.Instrument = unknownThermometer
	}
	if r.Overload {
		r.Reads = 0
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
	case r.Overload || r.Reads >= openFrom:
		j.Fault = Open
		return j, nil
	case r.Reads <= shortUntil:
		j.Fault = Short
		return j, nil
	}
	if shows, err := s.Temperature(r.Reads); err == nil {
		j.Shown, j.Shows, j.Off = true, shows, shows.Sub(r.True)
		j.Verdict = verdict(j.Off, band+r.Instrument)
	}
	j.Fits = fits(s, r)
	j.Fault = j.fault(s)
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

func (j Judgement) fault(s Sensor) Fault {
	switch {
	case j.Verdict == Right:
		return NoFault
	case j.Verdict == Wrong && len(j.Fits) > 0:
		return WrongCurve
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
// right.
func fits(s Sensor, r Reading) []string {
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
	sort.SliceStable(found, func(i, k int) bool { return found[i].off < found[k].off })
	var names []string
	for _, c := range found {
		names = append(names, c.name)
	}
	return names
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
		return "The reading fits " + others + ": probably another sensor is fitted than the control is set for; compare the marking and the control's setting before changing anything"
	case BadContact:
		return "The resistance is too high: look for a corroded terminal, a bad splice or a damaged cable"
	case Damp:
		return "The resistance is too low: look for damp in the sensor or its cable, or a second sensor on the same wires"
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
