package building

// What is the U-value of a wall, roof or floor made of layers?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// HeatFlow is the way heat goes through a surface, on which the still air at it
// depends.
type HeatFlow int

// The directions. Walls and slopes steeper than about 60° count as horizontal flow.
const (
	Horizontal HeatFlow = iota
	Upward              // through a ceiling or roof
	Downward            // through a floor
)

// OutsideSurface is the resistance of the outer surface (ISO 6946, table 7).
const OutsideSurface units.Resistance = 0.04

// InsideSurface gives the resistance of the inner surface.
//
//	0.13 horizontal, 0.10 upward, 0.17 downward
//
// Units: m²K/W.
// Range: plain surfaces of ordinary emissivity.
// Source: ISO 6946, table 7.
func InsideSurface(flow HeatFlow) units.Resistance {
	switch flow {
	case Upward:
		return 0.10
	case Downward:
		return 0.17
	}
	return 0.13
}

// Layer is one layer of a construction: thickness with conductivity, or a
// resistance in their place, as for a cavity or a product sold by its R-value.
type Layer struct {
	Name         string
	Thickness    units.Length
	Conductivity units.Conductivity
	Resistance   units.Resistance // if set, thickness and conductivity are not used
	Bridges      []Bridge         // what runs through the layer: studs, mortar
}

// Bridge is a part of a layer's area taken by something else of the same depth.
type Bridge struct {
	Name         string
	Share        units.Fraction     // of the layer's area
	Conductivity units.Conductivity // with the layer's thickness
	Resistance   units.Resistance   // in place of the conductivity
}

// Assembly is a construction from the inside to the outside.
type Assembly struct {
	Name    string
	Flow    HeatFlow
	Layers  []Layer
	Outside units.Resistance // outer surface; zero means open air, 0.04 m²K/W
}

// UValue is the result for an assembly, with the two limits between which the true
// resistance lies.
type UValue struct {
	Transmittance units.Transmittance
	Resistance    units.Resistance // mean of the limits, surfaces included
	Upper, Lower  units.Resistance
	Spread        units.Fraction // half the distance of the limits as a share of their mean
	Beyond        bool           // limits more than 1.5 apart: the method does not hold, a detailed calculation is due
}

const (
	mostCombinations  = 4096 // of bridged parts; a real wall has a dozen
	widestLimits      = 1.5
	smallestLayerR    = units.Resistance(1e-5)
	thickestLayer     = units.Length(5)
	bestConductor     = units.Conductivity(500)
	poorestConductor  = units.Conductivity(0.001)
	smallestBridge    = units.Fraction(0.0001)
	largestBridgePart = units.Fraction(0.9999)
)

// section is one part of a layer's area.
type section struct {
	share      float64
	resistance float64
}

// Transmittance gives the U-value by the combined method.
//
//	1/R_upper = Σ over every combination of parts of (share / R of that path)
//	R_lower   = R_si + Σ over layers of 1/Σ(share/R of part) + R_se
//	R = (R_upper + R_lower)/2, U = 1/R
//
// Units: the result in W/m²K, limits in m²K/W.
// Range: thickness up to 5 m, conductivity 0.001 to 500 W/mK, at most 4096
// combinations of bridged parts; not for insulation bridged by metal. Limits more
// than a factor 1.5 apart are flagged as Beyond. Air gaps in insulation and
// fasteners are not corrected for.
// Source: ISO 6946, combined method for inhomogeneous layers.
// Errors: no layers, or a layer that has neither resistance nor thickness with
// conductivity, or bridges that fill it.
func (a Assembly) Transmittance() (UValue, error) {
	layers, err := a.sections()
	if err != nil {
		return UValue{}, err
	}
	surfaces := float64(InsideSurface(a.Flow) + a.outside())
	upper := 1 / conductance(layers, surfaces)
	lower := surfaces
	for _, parts := range layers {
		g := 0.0
		for _, p := range parts {
			g += p.share / p.resistance
		}
		lower += 1 / g
	}
	mean := (upper + lower) / 2
	return UValue{
		Transmittance: units.Transmittance(1 / mean),
		Resistance:    units.Resistance(mean),
		Upper:         units.Resistance(upper),
		Lower:         units.Resistance(lower),
		Spread:        units.Fraction((upper - lower) / (2 * mean)),
		Beyond:        upper/lower > widestLimits,
	}, nil
}

// conductance sums 1/R over every combination of parts, each weighted by its share.
func conductance(layers [][]section, resistance float64) float64 {
	if len(layers) == 0 {
		return 1 / resistance
	}
	sum := 0.0
	for _, p := range layers[0] {
		sum += p.share * conductance(layers[1:], resistance+p.resistance)
	}
	return sum
}

func (a Assembly) outside() units.Resistance {
	if a.Outside == 0 {
		return OutsideSurface
	}
	return a.Outside
}

func (a Assembly) sections() ([][]section, error) {
	if len(a.Layers) == 0 {
		return nil, fmt.Errorf("%s: no layers given; accepted: at least one layer", a.name())
	}
	if err := refuse.Within(a.name()+", outer surface", a.outside(), smallestLayerR, largestR); err != nil {
		return nil, err
	}
	combinations := 1
	var out [][]section
	for i, l := range a.Layers {
		where := fmt.Sprintf("%s, layer %d from inside", a.name(), i+1)
		if l.Name != "" {
			where += " (" + l.Name + ")"
		}
		parts, err := l.sections(where)
		if err != nil {
			return nil, err
		}
		combinations *= len(parts)
		if combinations > mostCombinations {
			return nil, fmt.Errorf("%s: bridged layers make more than %d combinations; accepted: fewer bridges", a.name(), mostCombinations)
		}
		out = append(out, parts)
	}
	return out, nil
}

func (a Assembly) name() string {
	if a.Name == "" {
		return "construction"
	}
	return a.Name
}

func (l Layer) sections(where string) ([]section, error) {
	main, err := resistanceOf(where, l.Thickness, l.Conductivity, l.Resistance)
	if err != nil {
		return nil, err
	}
	left := units.Fraction(1)
	parts := []section{{resistance: main}}
	for _, b := range l.Bridges {
		name := where + ", bridge"
		if b.Name != "" {
			name += " " + b.Name
		}
		if err := refuse.Within(name+", share of area", b.Share, smallestBridge, largestBridgePart); err != nil {
			return nil, err
		}
		r, err := resistanceOf(name, l.Thickness, b.Conductivity, b.Resistance)
		if err != nil {
			return nil, err
		}
		left -= b.Share
		parts = append(parts, section{share: float64(b.Share), resistance: r})
	}
	if err := refuse.Within(where+", share left beside the bridges", left, smallestBridge, 1); err != nil {
		return nil, err
	}
	parts[0].share = float64(left)
	return parts, nil
}

func resistanceOf(where string, thickness units.Length, conductivity units.Conductivity, resistance units.Resistance) (float64, error) {
	if resistance != 0 {
		return float64(resistance), refuse.Within(where+", resistance", resistance, smallestLayerR, largestR)
	}
	err := cmp.Or(
		refuse.Within(where+", thickness", thickness, 0.0001, thickestLayer),
		refuse.Within(where+", conductivity", conductivity, poorestConductor, bestConductor),
	)
	if err != nil {
		return 0, err
	}
	r := units.Resistance(float64(thickness) / float64(conductivity))
	return float64(r), refuse.Within(where+", thickness over conductivity", r, 1e-7, largestR*100)
}

// cavityRow is one line of the table of still air layers.
type cavityRow struct {
	thickness                    units.Length
	upward, horizontal, downward units.Resistance
}

var cavities = []cavityRow{
	{0, 0, 0, 0},
	{0.005, 0.11, 0.11, 0.11},
	{0.007, 0.13, 0.13, 0.13},
	{0.010, 0.15, 0.15, 0.15},
	{0.015, 0.16, 0.17, 0.17},
	{0.025, 0.16, 0.18, 0.19},
	{0.050, 0.16, 0.18, 0.21},
	{0.100, 0.16, 0.18, 0.22},
	{0.300, 0.16, 0.18, 0.23},
}

func (c cavityRow) resistance(flow HeatFlow) units.Resistance {
	switch flow {
	case Upward:
		return c.upward
	case Downward:
		return c.downward
	}
	return c.horizontal
}

// CavityResistance gives the resistance of a closed air layer, between table
// entries by straight line.
//
// Units: thickness as a length; the result in m²K/W.
// Range: 1 to 300 mm, not ventilated, ordinary surfaces (no foil). For a well
// ventilated layer leave it and everything outside it away and set the outer
// surface to the resistance of an inner one.
// Source: ISO 6946, table 8; 0.18 re-read elsewhere, the rest from memory.
// Errors: a thickness outside the range.
func CavityResistance(thickness units.Length, flow HeatFlow) (units.Resistance, error) {
	if err := refuse.Within("cavity thickness", thickness, 0.001, 0.3); err != nil {
		return 0, err
	}
	low := cavities[0]
	for _, high := range cavities[1:] {
		if thickness <= high.thickness {
			x := float64((thickness - low.thickness) / (high.thickness - low.thickness))
			a, b := low.resistance(flow), high.resistance(flow)
			return a + units.Resistance(x)*(b-a), nil
		}
		low = high
	}
	return low.resistance(flow), nil
}
