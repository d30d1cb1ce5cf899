package weather

// The sun on a wall, a roof or a window, from what fell on the horizontal.

import (
	"errors"
	"math"

	"curvewright/units"
)

// Surface is a flat piece of the building's outside.
type Surface struct {
	Tilt    float64        // degrees from horizontal: 0 a flat roof, 90 a wall
	Azimuth float64        // degrees from north, clockwise: 180 faces south
	Ground  units.Fraction // reflectance of the ground before it: 0.2 usual, 0.6 to 0.8 under fresh snow
}

// Irradiance is the sun on a surface, by where it comes from, in W/m².
type Irradiance struct {
	Direct float64 // from the sun's disc
	Sky    float64 // from the sky, with the bright ring about the sun
	Ground float64 // reflected by the ground
}

// Total is the sum of the three.
//
// Units: W/m².
// Range: every irradiance.
// Source: sum.
func (i Irradiance) Total() float64 { return i.Direct + i.Sky + i.Ground }

// leastCosine keeps the ratio of beams near sunrise from running away: the cosine of
// 89°, as is usual with this model.
const leastCosine = 0.01745

// Incidence gives the angle between the sun and the surface's outward normal.
//
//	cos θ = cos z·cos β + sin z·sin β·cos(sun's azimuth − surface's azimuth)
//
// Units: degrees.
// Range: every position; above 90° the sun is behind the surface.
// Source: geometry; Duffie & Beckman, Solar Engineering of Thermal Processes, eq. 1.6.3.
func (s Surface) Incidence(sun Sun) float64 {
	return math.Acos(s.cosIncidence(sun)) / degree
}

func (s Surface) cosIncidence(sun Sun) float64 {
	c := cosDegrees(sun.Zenith)*cosDegrees(s.Tilt) +
		math.Sin(sun.Zenith*degree)*math.Sin(s.Tilt*degree)*cosDegrees(sun.Azimuth-s.Azimuth)
	return math.Max(-1, math.Min(1, c))
}

// On gives the sun on a surface from direct, diffuse and global radiation.
//
//	direct = B·max(0, cos θ)
//	A = B/E,  R = max(0, cos θ)/max(cos z, cos 89°)
//	sky = D·(A·R + (1−A)·(1+cos β)/2)
//	ground = G·ρ·(1−cos β)/2
//
// Units: W/m².
// Range: direct, diffuse and global not negative; tilt 0 to 180°. With no direct sun
// it is the sky of even brightness. The bright horizon is left out.
// Source: Hay & Davies, Calculation of the solar radiation incident on an inclined
// surface, First Canadian Solar Radiation Data Workshop (1980), from memory; Duffie &
// Beckman, section 2.16.
func (s Surface) On(sun Sun, direct, diffuse, global float64) Irradiance {
	towards := math.Max(0, s.cosIncidence(sun))
	up := cosDegrees(sun.Zenith)
	if up <= 0 {
		direct = 0
	}
	a := math.Min(1, direct/sun.Extraterrestrial())
	r := towards / math.Max(up, leastCosine)
	cosβ := cosDegrees(s.Tilt)
	return Irradiance{
		Direct: direct * towards,
		Sky:    diffuse * (a*r + (1-a)*(1+cosβ)/2),
		Ground: global * float64(s.Ground) * (1 - cosβ) / 2,
	}
}

// Decompose splits global radiation into direct and diffuse.
//
//	k = G/(E·cos z)
//	D/G = 1 − 0.09·k                                            k ≤ 0.22
//	    = 0.9511 − 0.1604·k + 4.388·k² − 16.638·k³ + 12.336·k⁴   k ≤ 0.8
//	    = 0.165                                                  beyond
//	B = (G − D)/cos z
//
// Units: W/m².
// Range: hourly means; with the sun lower than 3° above the horizon all is diffuse.
// Source: Erbs, Klein & Duffie, Solar Energy 28 (1982) 293–302, as in Duffie & Beckman,
// eq. 2.10.1.
func Decompose(sun Sun, global float64) (direct, diffuse float64) {
	up := cosDegrees(sun.Zenith)
	if up < 0.0523 || global <= 0 {
		return 0, math.Max(0, global)
	}
	k := global / (sun.Extraterrestrial() * up)
	share := 0.165
	switch {
	case k <= 0.22:
		share = 1 - 0.09*k
	case k <= 0.8:
		share = 0.9511 + k*(-0.1604+k*(4.388+k*(-16.638+k*12.336)))
	}
	diffuse = share * global
	direct = (global - diffuse) / up
	// What lies above the sun's own strength is a fault of the data near the horizon.
	if most := 0.9 * sun.Extraterrestrial(); direct > most {
		direct = most
		diffuse = global - direct*up
	}
	return direct, diffuse
}

// IncidenceModifier gives what a pane lets through at an angle, as a share of what it
// lets through head on.
//
//	K = 1 − 0.1·(1/cos θ − 1), down to 0 at 84.8°
//
// Units: degrees.
// Range: 0 to 90°, one or two panes; beyond, nothing passes.
// Source: form of ASHRAE Standard 93 (Souka & Safwat 1966); the coefficient 0.1 from
// memory for clear glass.
func IncidenceModifier(angle float64) units.Fraction {
	c := cosDegrees(angle)
	if c <= 0 {
		return 0
	}
	return units.Fraction(math.Min(1, math.Max(0, 1-0.1*(1/c-1))))
}

// diffuseAngle is the angle at which a pane treats the light of sky and ground alike:
// about 60° (Brandemuehl & Beckman, Solar Energy 24 (1980) 511–513).
const diffuseAngle = 60

var errNoSun = errors.New("the year has no solar radiation, or no place with latitude, longitude and UTC offset: sun on a surface cannot be worked out")

// OnSurface gives the sun on a surface hour by hour. Where the year holds only global
// radiation, it is split by [Decompose].
//
// Units: W/m².
// Range: as [Surface.On].
// Source: as [Surface.On].
// Errors: a year without radiation or without a place.
func (y *Year) OnSurface(s Surface) ([]float64, error) {
	return y.sunThrough(s, func(i Irradiance, _ float64) float64 { return i.Total() })
}

// ThroughWindow gives the sun's heat through a window of a square metre of glass, hour
// by hour, with nothing shading it.
//
//	q = g·(direct·K(θ) + (sky + ground)·K(60°))
//
// Units: W/m²; the factor g (SHGC) of the glass head on.
// Range: as [Surface.On]; factor 0 to 1.
// Source: as [Surface.On] and [IncidenceModifier].
// Errors: a year without radiation or without a place.
func (y *Year) ThroughWindow(s Surface, factor units.Fraction) ([]float64, error) {
	scattered := float64(IncidenceModifier(diffuseAngle))
	return y.sunThrough(s, func(i Irradiance, angle float64) float64 {
		return float64(factor) * (i.Direct*float64(IncidenceModifier(angle)) + (i.Sky+i.Ground)*scattered)
	})
}

func (y *Year) sunThrough(s Surface, heat func(Irradiance, float64) float64) ([]float64, error) {
	split := y.Direct != nil && y.Diffuse != nil
	if !y.Place.Located || (y.Global == nil && !split) {
		return nil, errNoSun
	}
	out := make([]float64, len(y.DryBulb))
	for i := range out {
		sun := y.Sun(i)
		var b, d, g float64
		if split {
			b, d = y.Direct[i], y.Diffuse[i]
			g = d + b*math.Max(0, cosDegrees(sun.Zenith))
		}
		if y.Global != nil {
			g = y.Global[i]
		}
		if g <= 0 && d <= 0 {
			continue
		}
		if !split {
			b, d = Decompose(sun, g)
		}
		out[i] = heat(s.On(sun, b, d, g), s.Incidence(sun))
	}
	return out, nil
}
