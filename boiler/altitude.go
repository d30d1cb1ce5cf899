package boiler

// What does the altitude of the house take from a burner?

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

const (
	lowestSite  = units.Length(-500)
	highestSite = units.Length(5000)
	foot        = 0.3048
)

// AirPressure gives the absolute pressure of the air at an altitude.
//
//	p = 101325 Pa · (1 − 2.25577·10⁻⁵·h)^5.2559, h in m
//
// Units: altitude in m; pressure in Pa, absolute.
// Range: −500 to 5000 m.
// Source: ICAO standard atmosphere (ISO 2533). The weather moves it by 3 %.
// Errors: an altitude outside the range.
func AirPressure(altitude units.Length) (units.Pressure, error) {
	if err := refuse.Within("altitude", altitude, lowestSite, highestSite); err != nil {
		return 0, err
	}
	return units.Pressure(101325 * math.Pow(1-2.25577e-5*float64(altitude), 5.2559)), nil
}

// AltitudeRule is a rule for burners whose maker gives no figure of his own.
type AltitudeRule string

// The rules.
const (
	AltitudeUS      AltitudeRule = "US, 4 % per 1000 ft"
	AltitudeUSTable AltitudeRule = "US, steps of 1000 ft"
	AltitudeCanada  AltitudeRule = "Canada"
)

// Remains gives what remains of an atmospheric burner's rated input at an altitude.
//
//	US: 1 up to 2000 ft; above, 1 − 0.04·h/1000 ft, counted from sea level: 0.92 at once
//	US in steps: the same, h rounded to the nearest 1000 ft
//	Canada: 1 below 2000 ft, 0.90 from there to 4500 ft
//
// Units: altitude in m; the result a share of the rated input.
// Range: sea level (−500 m) to 10,000 ft; the steps to 7500 ft; Canada to 4500 ft.
// Source: NFPA 54/ANSI Z223.1 as quoted; table of AGA 221.30-1964 as quoted; Canadian
// practice as quoted. A maker's own figures outrank all of them ([CautionAltitude]).
// Errors: an unknown rule, an altitude outside its range.
func (r AltitudeRule) Remains(altitude units.Length) (units.Fraction, error) {
	thousands := float64(altitude) / (1000 * foot)
	top := units.Length(0)
	switch r {
	case AltitudeUS:
		top = 10000 * foot
	case AltitudeUSTable:
		top = 7500 * foot
	case AltitudeCanada:
		top = 4500 * foot
	default:
		return 0, fmt.Errorf("altitude rule: %q given; accepted: %q, %q, %q", string(r), string(AltitudeUS), string(AltitudeUSTable), string(AltitudeCanada))
	}
	if err := refuse.Within("altitude for the rule "+string(r), altitude, lowestSite, top*(1+1e-9)); err != nil {
		return 0, fmt.Errorf("%w; beyond it only the maker's figures and the local authority decide", err)
	}
	const slack = 1e-9 // keeps a limit entered in feet on its own side
	switch {
	case thousands < 2-slack, r != AltitudeCanada && thousands <= 2+slack:
		return 1, nil
	case r == AltitudeCanada:
		return 0.90, nil
	case r == AltitudeUSTable:
		thousands = max(2, math.Ceil(thousands-0.5-slack)) // 2501 to 3500 ft is 3
	}
	return units.Fraction(1 - 0.04*thousands), nil
}
