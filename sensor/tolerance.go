package sensor

// How far may a sound sensor be off?

import (
	"cmp"
	"math"

	"curvewright/units"
)

// Tolerance is what the maker promises: a class of platinum sensors, or shares of a
// thermistor's resistance and B.
type Tolerance struct {
	class PlatinumClass
	r, b  float64
}

// PlatinumClass is an accuracy class.
type PlatinumClass string

// The classes of IEC 60751.
const (
	ClassA PlatinumClass = "A" // 0.15 K + 0.002·|t|
	ClassB PlatinumClass = "B" // 0.3 K + 0.005·|t|
)

// Class makes the tolerance of a platinum sensor.
//
// Range: classes A and B; others have no band.
// Source: IEC 60751, from memory.
func Class(c PlatinumClass) Tolerance { return Tolerance{class: c} }

// Shares makes the tolerance of a thermistor: of its resistance at 25 °C and of its B,
// each as a share of one (1 % is 0.01).
//
// Units: shares of one.
// Range: 0 to 20 % and 0 to 10 %.
// Source: form of makers' sheets.
// Errors: a share outside the range.
func Shares(r25, b units.Fraction) (Tolerance, error) {
	err := cmp.Or(within("tolerance of the resistance", r25, 0, 0.2), within("tolerance of B", b, 0, 0.1))
	if err != nil {
		return Tolerance{}, err
	}
	return Tolerance{r: float64(r25), b: float64(b)}, nil
}

// Band gives by how much a sound sensor may be off at a temperature, either way.
//
//	platinum: A: 0.15 K + 0.002·|t|; B: 0.3 K + 0.005·|t|, t in °C
//	thermistor: ΔT = (r + b·B·|1/T − 1/298.15 K|)/|α|, both at their worst;
//	α = d(ln R)/dT, B = |α|·T²
//
// A single B is off in itself away from the temperatures it was fitted to: 1 K is
// added at −20 and 100 °C, in proportion to the distance from the middle of 25 and
// 50 °C (common practice), until a table is entered.
//
// Units: K.
// Range: from Low to High of the sensor; class A −100 to 450 °C.
// Source: IEC 60751, from memory; thermistors by propagation of tolerances.
// Errors: a temperature outside the range, a sensor that was not made.
func (s Sensor) Band(at units.Temperature) (units.Difference, error) {
	if _, err := s.Resistance(at); err != nil {
		return 0, err
	}
	T := float64(at)
	t := math.Abs(at.Celsius())
	switch s.Tolerance.class {
	case ClassA:
		if err := within("temperature of a class A sensor", at, units.Celsius(-100), units.Celsius(450)); err != nil {
			return 0, err
		}
		return units.Difference(0.15 + 0.002*t), nil
	case ClassB:
		return units.Difference(0.3 + 0.005*t), nil
	}
	slope := math.Abs(s.law.slope(T))
	band := (s.Tolerance.r + s.Tolerance.b*slope*T*T*math.Abs(1/T-1/at25)) / slope
	if s.Basis == BySingleB {
		const (
			middle = at25 + 12.5 // K
			reach  = 57.5        // K from the middle to −20 °C
		)
		band += math.Abs(T-middle) / reach
	}
	return units.Difference(band), nil
}
