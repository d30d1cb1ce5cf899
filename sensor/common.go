package sensor

// The curves met most often in heating systems, to find out which one a reading
// belongs to.

import "curvewright/units"

// Common gives the usual curves. The names are those of the trade; pairings of
// resistance and B are from memory.
//
// Range: as each constructor.
// Source: platinum by IEC 60751; the others from memory of makers' sheets.
func Common() []Sensor {
	one, _ := Shares(0.01, 0.01)
	b := func(name string, r25 units.ElectricResistance, k units.Number) Sensor {
		return sure(FromB(name, r25, k)).With(one)
	}
	return []Sensor{
		b("NTC 10 kΩ, B 3435", 10e3, 3435),
		b("NTC 10 kΩ, B 3950", 10e3, 3950),
		b("NTC 10 kΩ, B 3977", 10e3, 3977),
		sure(FromSteinhartHart("NTC 10 kΩ, type 2", 1.129148e-3, 2.34125e-4, 8.76741e-8)).With(one),
		b("NTC 12 kΩ, B 3740", 12e3, 3740),
		sure(Platinum("Pt1000", 1000)),
		sure(Platinum("Pt100", 100)),
	}
}

// With gives the sensor with another tolerance.
//
// Range: every sensor.
// Source: the maker's sheet.
func (s Sensor) With(t Tolerance) Sensor {
	s.Tolerance = t
	return s
}

// sure is for the curves of this file, whose figures the tests check.
func sure(s Sensor, err error) Sensor {
	if err != nil {
		panic(err)
	}
	return s
}
