package sensor

// What does a resistance mean? The laws of thermistors and platinum sensors, both
// ways.

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Basis is what a sensor's curve rests on.
type Basis string

// The bases, by how far they can be trusted.
const (
	ByTable         Basis = "its table"
	ByPlatinum      Basis = "the platinum standard"
	BySteinhartHart Basis = "three coefficients"
	BySingleB       Basis = "a single B"
)

// gap is what rounding may put beyond the ends of a range, K.
const gap = 1e-9

// Sensor is a curve of resistance over temperature. Make one with [FromB],
// [FromSteinhartHart], [FromTable] or [Platinum].
type Sensor struct {
	Name      string
	Basis     Basis
	Low, High units.Temperature // between which the curve is known
	Tolerance Tolerance         // how far the sensor itself may be off
	law       law
}

// law is a strictly monotone curve; both ways take and give SI figures within the
// sensor's range.
type law interface {
	ohms(kelvin float64) float64
	kelvin(ohms float64) float64
	// slope gives d(ln R)/dT, 1/K.
	slope(kelvin float64) float64
}

// Resistance gives the resistance at a temperature.
//
// Units: K; result in Ω.
// Range: from Low to High of the sensor.
// Source: the law of the sensor, see [FromB], [FromSteinhartHart], [FromTable],
// [Platinum].
// Errors: a temperature outside the range, a sensor that was not made.
func (s Sensor) Resistance(at units.Temperature) (units.ElectricResistance, error) {
	if s.law == nil {
		return 0, notMade()
	}
	if !(at >= s.Low-gap && at <= s.High+gap) {
		return 0, within("temperature of the "+s.Name+" sensor", at, s.Low, s.High)
	}
	return units.ElectricResistance(s.law.ohms(float64(at))), nil
}

// Temperature gives the temperature at which the sensor has a resistance.
//
// Units: Ω; result in K.
// Range: resistances between those at Low and High.
// Source: reverse of [Sensor.Resistance].
// Errors: a resistance outside the range, a sensor that was not made.
func (s Sensor) Temperature(reads units.ElectricResistance) (units.Temperature, error) {
	if s.law == nil {
		return 0, notMade()
	}
	low, high := s.span()
	const rounding = 1e-12
	if !(reads >= low*(1-rounding) && reads <= high*(1+rounding)) {
		return 0, within("resistance of the "+s.Name+" sensor", reads, low, high)
	}
	at := units.Temperature(s.law.kelvin(float64(reads)))
	return min(s.High, max(s.Low, at)), nil
}

// span gives the least and the largest resistance of the range.
func (s Sensor) span() (low, high units.ElectricResistance) {
	a, b := units.ElectricResistance(s.law.ohms(float64(s.Low))), units.ElectricResistance(s.law.ohms(float64(s.High)))
	return min(a, b), max(a, b)
}

func notMade() error {
	return &refuse.Error{Subject: subject, What: "sensor", Given: "nothing", Accept: "a sensor by B, coefficients, table or platinum standard"}
}

// Where thermistors of heating systems are used, and so far a B or three coefficients
// may be believed at all.
const (
	thermistorLow  = units.Temperature(273.15 - 50)
	thermistorHigh = units.Temperature(273.15 + 150)
	at25           = 298.15
)

// FromB makes a thermistor from its resistance at 25 °C and its B.
//
//	R = R25·exp(B·(1/T − 1/298.15 K)); T = 1/(1/298.15 K + ln(R/R25)/B)
//
// Units: Ω; B in kelvin.
// Range: −50 to 150 °C; R25 10 Ω to 10 MΩ; B 1500 to 7000 K. A single B is fitted
// between two temperatures, often 25 and 85 °C; at −20 and 100 °C the true table
// departs by 1 to 2 K.
// Source: definition of B, IEC 60539-1, from memory.
// Errors: a figure outside the range.
func FromB(name string, r25 units.ElectricResistance, b units.Number) (Sensor, error) {
	err := cmp.Or(
		within("resistance at 25 °C (77 °F)", r25, 10, most),
		within("B of the thermistor in kelvin", b, 1500, 7000),
	)
	if err != nil {
		return Sensor{}, err
	}
	return Sensor{Name: name, Basis: BySingleB, Low: thermistorLow, High: thermistorHigh, law: singleB{float64(r25), float64(b)}}, nil
}

type singleB struct{ r25, b float64 }

func (l singleB) ohms(T float64) float64   { return l.r25 * math.Exp(l.b*(1/T-1/at25)) }
func (l singleB) kelvin(R float64) float64 { return 1 / (1/at25 + math.Log(R/l.r25)/l.b) }
func (l singleB) slope(T float64) float64  { return -l.b / (T * T) }

// FromSteinhartHart makes a thermistor from its three coefficients.
//
//	1/T = A + B·ln R + C·(ln R)³, R in Ω, T in K
//
// The reverse is the real root of the cubic in ln R, polished once by Newton.
//
// Units: A, B, C for ohms and kelvins.
// Range: −50 to 150 °C, where the coefficients must give 1 Ω to 10 MΩ; B above 0, C not
// negative, so that the curve falls throughout.
// Source: Steinhart and Hart 1968, Deep-Sea Research 15, from memory.
// Errors: coefficients that give no falling curve or no resistance of a thermistor.
func FromSteinhartHart(name string, a, b, c units.Number) (Sensor, error) {
	no := func(why string) (Sensor, error) {
		return Sensor{}, &refuse.Error{Subject: subject, What: "coefficients of the thermistor", Given: fmt.Sprintf("A %g, B %g, C %g", float64(a), float64(b), float64(c)),
			Accept: why + ", for example A 1.129148e-3, B 2.34125e-4, C 8.76741e-8"}
	}
	const largest = 1 // 1/K; real ones are a thousand times smaller
	if !(math.Abs(float64(a)) < largest && b > 0 && b < largest && c >= 0 && c < largest) {
		return no("B above 0 and C not negative")
	}
	l := steinhartHart{float64(a), float64(b), float64(c)}
	low, high := l.ohms(float64(thermistorHigh)), l.ohms(float64(thermistorLow))
	if !(low >= float64(least) && high <= float64(most)) {
		return no("coefficients for ohms and kelvins that give 1 Ω to 10,000 kΩ between −50 °C and 150 °C")
	}
	return Sensor{Name: name, Basis: BySteinhartHart, Low: thermistorLow, High: thermistorHigh, law: l}, nil
}

type steinhartHart struct{ a, b, c float64 }

func (l steinhartHart) kelvin(R float64) float64 {
	x := math.Log(R)
	return 1 / (l.a + l.b*x + l.c*x*x*x)
}

func (l steinhartHart) ohms(T float64) float64 {
	y := 1/T - l.a
	x := y / l.b
	if l.c > 0 {
		// p³ + q² > 0 always, since b and c are not negative: one real root.
		p, q := l.b/(3*l.c), y/(2*l.c)
		r := math.Sqrt(p*p*p + q*q)
		x = math.Cbrt(q+r) - math.Cbrt(r-q)
		x -= (l.b*x + l.c*x*x*x - y) / (l.b + 3*l.c*x*x)
	}
	return math.Exp(x)
}

func (l steinhartHart) slope(T float64) float64 {
	x := math.Log(l.ohms(T))
	return -1 / (T * T * (l.b + 3*l.c*x*x))
}

// Platinum makes a platinum sensor from its resistance at 0 °C: 100 Ω for Pt100,
// 1000 Ω for Pt1000.
//
//	t ≥ 0: R = R0·(1 + A·t + B·t²)
//	t < 0: R = R0·(1 + A·t + B·t² + C·(t − 100)·t³)
//	A = 3.9083e-3, B = −5.775e-7, C = −4.183e-12, t in °C
//
// The reverse is closed above 0 °C and by Newton's method below.
//
// Units: Ω.
// Range: −200 to 850 °C; R0 10 Ω to 100 kΩ.
// Source: IEC 60751.
// Errors: a resistance outside the range.
func Platinum(name string, r0 units.ElectricResistance) (Sensor, error) {
	if err := within("resistance at 0 °C (32 °F)", r0, 10, 1e5); err != nil {
		return Sensor{}, err
	}
	return Sensor{Name: name, Basis: ByPlatinum, Low: units.Celsius(-200), High: units.Celsius(850), Tolerance: Class(ClassB), law: platinum{float64(r0)}}, nil
}

type platinum struct{ r0 float64 }

// IEC 60751.
const (
	platinumA = 3.9083e-3
	platinumB = -5.775e-7
	platinumC = -4.183e-12
)

func (l platinum) ratio(t float64) (r, perKelvin float64) {
	r, perKelvin = 1+t*(platinumA+t*platinumB), platinumA+2*platinumB*t
	if t < 0 {
		r += platinumC * (t - 100) * t * t * t
		perKelvin += platinumC * (4*t - 300) * t * t
	}
	return r, perKelvin
}

func (l platinum) ohms(T float64) float64 {
	r, _ := l.ratio(T - 273.15)
	return l.r0 * r
}

func (l platinum) kelvin(R float64) float64 {
	ratio := R / l.r0
	// Written so that nothing cancels near 0 °C.
	t := 2 * (ratio - 1) / (platinumA + math.Sqrt(platinumA*platinumA-4*platinumB*(1-ratio)))
	if t < 0 {
		// The curve is smooth and nearly straight; three steps do it, the rest is for
		// the unforeseen.
		for range 10 {
			r, perKelvin := l.ratio(t)
			t -= (r - ratio) / perKelvin
		}
	}
	return t + 273.15
}

func (l platinum) slope(T float64) float64 {
	r, perKelvin := l.ratio(T - 273.15)
	return perKelvin / r
}
