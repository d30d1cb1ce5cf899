package weather

// Where the sun stands, and how strong it is above the air.

import (
	"math"
	"time"
)

// Sun is the position of the sun's centre, without refraction.
type Sun struct {
	Zenith   float64 // degrees from straight up
	Azimuth  float64 // degrees from north, clockwise
	Distance float64 // astronomical units
}

const (
	degree = math.Pi / 180
	// solarConstant is the sun's strength at the mean distance, W/m²: Kopp and Lean,
	// Geophysical Research Letters 38 (2011) L01706, rounded. Typical years of the
	// 1990s were made with 1367.
	solarConstant = 1361.0
)

// SunAt gives the position of the sun from a place at a moment.
//
//	n = days since noon of 1 January 2000 (universal time)
//	L = 280.460 + 0.9856474·n,  g = 357.528 + 0.9856003·n
//	λ = L + 1.915·sin g + 0.020·sin 2g,  ε = 23.439 − 0.0000004·n
//	right ascension = atan2(cos ε·sin λ, cos λ),  sin δ = sin ε·sin λ
//	hour angle h = 15·(6.697375 + 0.0657098242·n + UT) + longitude − right ascension
//	cos z = sin φ·sin δ + cos φ·cos δ·cos h
//
// Units: degrees; the distance in astronomical units.
// Range: years 1950 to 2050, to 0.01°; any place. Refraction, which lifts the sun by
// 0.5° at the horizon and by less than 0.1° above 10° of altitude, is left out.
// Source: Astronomical Almanac, low-precision formulas, as by Michalsky, Solar Energy 40
// (1988) 227–235; checked against the worked example of Reda & Andreas,
// NREL/TP-560-34302.
// Errors: none.
func SunAt(t time.Time, at Place) Sun {
	t = t.UTC()
	j2000 := time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)
	n := float64(t.Unix()-j2000.Unix()) / 86400
	ut := float64(t.Hour()) + float64(t.Minute())/60 + float64(t.Second())/3600
	return sunAt(n, ut, at)
}

func sunAt(n, ut float64, at Place) Sun {
	g := (357.528 + 0.9856003*n) * degree
	λ := (280.460 + 0.9856474*n + 1.915*math.Sin(g) + 0.020*math.Sin(2*g)) * degree
	ε := (23.439 - 0.0000004*n) * degree
	sinλ, cosλ := math.Sincos(λ)
	sinε, cosε := math.Sincos(ε)
	ascension := math.Atan2(cosε*sinλ, cosλ)
	sinδ := sinε * sinλ
	cosδ := math.Sqrt(1 - sinδ*sinδ)
	h := (15*(6.697375+0.0657098242*n+ut)+at.Longitude)*degree - ascension
	sinφ, cosφ := math.Sincos(at.Latitude * degree)
	sinh, cosh := math.Sincos(h)
	up := sinφ*sinδ + cosφ*cosδ*cosh
	north := cosφ*sinδ - sinφ*cosδ*cosh
	east := -cosδ * sinh
	azimuth := math.Atan2(east, north) / degree
	if azimuth < 0 {
		azimuth += 360
	}
	return Sun{
		Zenith:   math.Acos(math.Max(-1, math.Min(1, up))) / degree,
		Azimuth:  azimuth,
		Distance: 1.00014 - 0.01671*math.Cos(g) - 0.00014*math.Cos(2*g),
	}
}

// Extraterrestrial gives the sun's strength above the air, on a surface facing it.
//
//	E = 1361 / distance²
//
// Units: W/m².
// Range: a position from [SunAt].
// Source: solar constant of Kopp and Lean 2011; inverse square of the distance.
func (s Sun) Extraterrestrial() float64 {
	return solarConstant / (s.Distance * s.Distance)
}

// Sun gives the position of the sun in the middle of an hour of the year.
//
// Units: degrees, astronomical units.
// Range: hours of the year; beyond, the year goes on. Leap years are taken as 2004,
// others as 2001: from year to year the sun differs by up to 0.4° near the equinoxes.
// Source: as [SunAt].
func (y *Year) Sun(hour int) Sun {
	n := 366 - 0.5 // noon of 1 January 2000 to the start of 2001
	if y.leap() {
		n += 3 * 365
	}
	ut := float64(hour) + 0.5 - y.Place.UTCOffset
	n += ut / 24
	return sunAt(n, ut-24*math.Floor(ut/24), y.Place)
}

func cosDegrees(x float64) float64 { return math.Cos(x * degree) }
