package emitter

// How hot must the water in a floor be, and how hot may it be? EN 1264-2 and ISO
// 11855-2 answer both: a characteristic straight line for what the floor gives, and a
// limit curve for where its surface grows too warm. The terms here are theirs, with
// the trade's names.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Construction is how the tube lies in the floor.
type Construction string

// The constructions.
const (
	WetSlab   Construction = "wet slab"   // tube in screed or concrete: type A
	DryPlates Construction = "dry plates" // tube in conducting plates under a dry or wet layer: type B
	UnderDeck Construction = "under deck" // tube under a wooden deck, reckoned as type B: rough
)

// Zone is where in the room the floor lies, which sets how warm its surface may be.
type Zone string

// The zones.
const (
	Occupied Zone = "occupied" // 29 °C: room at 20 °C and 9 K
	Edge     Zone = "edge"     // 35 °C: within 1 m of the outer wall
	Bathroom Zone = "bathroom" // 33 °C: room at 24 °C and 9 K
)

// SurfaceLimit gives how warm the surface of the zone may be.
//
// Units: result in K.
// Range: the three zones; 0 for another.
// Source: EN 1264-2 (room 20 °C and 9 or 15 K; bathroom 24 °C and 9 K), as quoted.
func (z Zone) SurfaceLimit() units.Temperature {
	switch z {
	case Occupied:
		return units.Celsius(29)
	case Edge:
		return units.Celsius(35)
	case Bathroom:
		return units.Celsius(33)
	}
	return 0
}

// Floor is a heated floor as it was built.
type Floor struct {
	Construction Construction
	Area         units.Area

	Spacing      units.Length       // tube to tube
	Cover        units.Length       // of the layer over the tube; the deck's thickness under a deck
	Conductivity units.Conductivity // of that layer
	Covering     units.Resistance   // of carpet, wood or tile on top

	TubeDiameter     units.Length       // outside
	TubeWall         units.Length       // zero wall and conductivity: the standard's tube, 2 mm of 0.35 W/(m·K)
	TubeConductivity units.Conductivity // about 0.35 W/(m·K) for cross-linked polyethylene

	PlateThickness    units.Length       // zero: no plates
	PlateWidth        units.Length       // across the tube
	PlateConductivity units.Conductivity // aluminium about 200 W/(m·K)

	Down  units.Resistance  // from the tube downward, with the surface below (0.17 m²K/W under a ceiling)
	Below units.Temperature // of the space or ground below

	Zone          Zone
	CoveringLimit units.Temperature // the covering's own limit, such as 27 °C (80 °F) for wood; zero: none
}

// Factors shows the working of a floor's transmission, in the symbols of EN 1264-2.
type Factors struct {
	Base             units.Transmittance // B, corrected for the tube
	Covering         units.Number        // a_B
	Spacing          units.Number        // a_T
	SpacingExponent  units.Number        // m_T
	Cover            units.Number        // a_u
	CoverExponent    units.Number        // m_u; 1 for type B
	Diameter         units.Number        // a_D; type A only
	DiameterExponent units.Number        // m_D; type A only
	PlateValue       units.Number        // K_WL; type B only
	Plate            units.Number        // a_WL; type B only
	Contact          units.Number        // a_K; type B only
	Product          units.Number        // Π of the factors, each to its exponent
	Transmission     units.Transmittance // K_H
	Notes            []string            // where the standard was stretched
}

// Limit is where a floor's surface reaches the highest temperature allowed.
type Limit struct {
	Surface    units.Temperature // θ_F,max: the lower of zone and covering limit
	Curve      units.Flux        // q_G as the limit curve has it
	Flux       units.Flux        // q_G, but never more than an evenly warm floor may give
	Excess     units.Difference  // Δθ_H,G = Flux/K_H: mean water excess at the limit
	UpperBound bool              // no limit curve covers this floor; Flux is that of an evenly warm surface
	Note       string
}

// HeatedFloor is a floor ready for use.
type HeatedFloor struct {
	Emitter PowerLaw // n = 1, K = K_H·A, with the loss below
	Factors Factors
	Limit   Limit
}

const (
	surfaceCoefficient = 8.92 // W/(m²·K^1.1)
	surfaceExponent    = 1.1
	surfaceResistance  = 1 / 10.8 // m²K/W, of the warm surface inside the factors

	wetBase   = 6.7 // W/(m²·K)
	plateBase = 6.5

	referenceTubeWall         = 0.002 // m
	referenceTubeConductivity = 0.35  // W/(m·K)

	widestTabled       = 0.375 // m of spacing
	widestWet          = 0.6
	widestPlates       = 0.45
	thickestTabled     = 0.15   // m²K/W of covering
	thickestCovering   = 0.40   // m²K/W
	thickestCover      = 0.25   // m²K/W of slab over the tube
	coverResistanceTop = 0.0792 // m²K/W, end of the first limit table
)

// FloorFlux gives the heat of a floor from its mean surface temperature, however it
// is built.
//
//	q = 8.92·(θ_F − θ_i)^1.1
//
// Units: temperatures in K; result in W/m².
// Range: surface above the room to about 15 K; 0 below the room.
// Source: EN 1264-2 basic characteristic; ISO 11855-2 formula (1).
func FloorFlux(surface, room units.Temperature) units.Flux {
	if !(surface > room) {
		return 0
	}
	return units.Flux(surfaceCoefficient * math.Pow(float64(surface-room), surfaceExponent))
}

// FloorSurface gives the mean surface temperature of a floor from its heat.
//
//	θ_F = θ_i + (q/8.92)^(1/1.1)
//
// Units: flux in W/m², room in K; result in K.
// Range: 0 to about 175 W/m²; the room's temperature below 0.
// Source: EN 1264-2 basic characteristic; ISO 11855-2 formula (1).
func FloorSurface(flux units.Flux, room units.Temperature) units.Temperature {
	if !(flux > 0) {
		return room
	}
	return room + units.Temperature(math.Pow(float64(flux)/surfaceCoefficient, 1/surfaceExponent))
}

// Check says what of a floor lies outside what the standard covers.
//
// Units: as the fields.
// Range: wet slab: spacing 50 to 600 mm, cover 10 to 300 mm of 0.5 to 5 W/(m·K) and up
// to 0.25 m²K/W, tube 8 to 30 mm. Plates and under deck: spacing 50 to 450 mm, tube 14 to 22 mm, cover
// resistance 0.01 to 0.18 m²K/W. All: covering to 0.40 m²K/W, though the standard's
// table ends at 0.15.
// Source: EN 1264-2, ISO 11855-2 Annex A; the upper ends of spacing over 375 mm,
// cover and covering are our own, and so are the bounds on a slab's conductivity:
// beyond them the standard's factors let deep tubes give more under thicker carpet.
// Errors: the first figure outside, with the range.
func (f Floor) Check() error {
	type bound struct {
		what     string
		value    units.Quantity
		x        float64
		from, to float64
		accepted string
	}
	wet := f.Construction == WetSlab
	bounds := []bound{
		{"area", f.Area, float64(f.Area), 0.01, 1e5, "0.01 m² to 100,000 m²"},
		{"covering", f.Covering, float64(f.Covering), 0, thickestCovering, "0 to 0.40 m²K/W (R-2.3)"},
		{"resistance downward", f.Down, float64(f.Down), 0.05, 100, "0.05 m²K/W or more (R-0.3)"},
		{"temperature below", f.Below, float64(f.Below), 220, 330, "−53 °C to 57 °C (−64 °F to 134 °F)"},
	}
	switch f.Construction {
	case WetSlab:
		bounds = append(bounds,
			bound{"tube spacing", f.Spacing, float64(f.Spacing), 0.05, widestWet, "50 mm to 600 mm (2 in to 24 in)"},
			bound{"cover over the tube", f.Cover, float64(f.Cover), 0.010, 0.3, "10 mm to 300 mm (0.4 in to 12 in)"},
			bound{"tube diameter", f.TubeDiameter, float64(f.TubeDiameter), 0.008, 0.030, "8 mm to 30 mm outside"},
			bound{"conductivity over the tube", f.Conductivity, float64(f.Conductivity), 0.5, 5, "0.5 to 5 W/mK (screed 1.2)"})
	case DryPlates, UnderDeck:
		bounds = append(bounds,
			bound{"tube spacing", f.Spacing, float64(f.Spacing), 0.05, widestPlates, "50 mm to 450 mm (2 in to 17.7 in)"},
			bound{"tube diameter", f.TubeDiameter, float64(f.TubeDiameter), 0.014, 0.022, "14 mm to 22 mm outside"},
			bound{"conductivity over the tube", f.Conductivity, float64(f.Conductivity), 0.05, 5, "0.05 to 5 W/mK (plywood 0.13, gypsum board 0.25)"})
	default:
		return fmt.Errorf("floor: the construction %q is not known; accepted: %s, %s, %s", f.Construction, WetSlab, DryPlates, UnderDeck)
	}
	for _, b := range bounds {
		if !(b.x >= b.from*(1-1e-9) && b.x <= b.to*(1+1e-9)) {
			return fmt.Errorf("floor: %s of %s is outside the range; accepted: %s", b.what, refuse.Both(b.value), b.accepted)
		}
	}
	if r := f.coverResistance(); !wet && !(f.Cover > 0 && r >= 0.01*(1-1e-9) && r <= 0.18*(1+1e-9)) {
		return fmt.Errorf("floor: %s over the tube at %s is outside the range; accepted: thickness by conductivity from 0.01 to 0.18 m²K/W (R-0.06 to R-1.0)", refuse.Both(f.Cover), refuse.Both(f.Conductivity))
	}
	if wet && f.coverResistance() > thickestCover*(1+1e-9) {
		return fmt.Errorf("floor: %s over the tube at %s is outside the range; accepted: thickness by conductivity up to 0.25 m²K/W (300 mm of screed at 1.2 W/mK)", refuse.Both(f.Cover), refuse.Both(f.Conductivity))
	}
	return f.checkParts()
}

// checkParts looks at the tube, the plates and the limits.
func (f Floor) checkParts() error {
	wall, conductivity := f.tube()
	switch {
	case (f.TubeWall == 0) != (f.TubeConductivity == 0):
		return fmt.Errorf("floor: the tube has a wall of %s and a conductivity of %s; give both, or neither for 2 mm of 0.35 W/mK", refuse.Both(f.TubeWall), refuse.Both(f.TubeConductivity))
	case !(wall > 0 && 2*wall < 0.9*float64(f.TubeDiameter)):
		return fmt.Errorf("floor: a tube wall of %s does not fit a tube of %s; accepted: above 0 and less than 45 %% of the outside diameter", refuse.Both(f.TubeWall), refuse.Both(f.TubeDiameter))
	case !(conductivity >= 0.1 && conductivity <= 500):
		return fmt.Errorf("floor: a tube conductivity of %s is outside the range; accepted: 0.1 to 500 W/mK", refuse.Both(f.TubeConductivity))
	case !(f.PlateThickness >= 0 && f.PlateThickness <= 0.005):
		return fmt.Errorf("floor: a plate thickness of %s is outside the range; accepted: 0 (no plates) to 5 mm", refuse.Both(f.PlateThickness))
	case f.PlateThickness > 0 && f.Construction == WetSlab:
		return fmt.Errorf("floor: plates of %s do not belong in a wet slab; accepted: none, or the construction %q", refuse.Both(f.PlateThickness), DryPlates)
	case f.PlateThickness > 0 && !(f.PlateWidth > 0 && f.PlateWidth <= 2 && f.PlateConductivity >= 1 && f.PlateConductivity <= 500):
		return fmt.Errorf("floor: plates %s wide of %s are outside the range; accepted: a width above 0 and 1 to 500 W/mK (aluminium 200)", refuse.Both(f.PlateWidth), refuse.Both(f.PlateConductivity))
	case f.PlateThickness == 0 && f.Construction == DryPlates:
		return fmt.Errorf("floor: dry plates without a plate thickness; give it, for example 0.5 mm")
	case f.Zone.SurfaceLimit() == 0:
		return fmt.Errorf("floor: the zone %q is not known; accepted: %s, %s, %s", f.Zone, Occupied, Edge, Bathroom)
	case f.CoveringLimit != 0 && !(f.CoveringLimit >= units.Celsius(20) && f.CoveringLimit <= units.Celsius(60)):
		return fmt.Errorf("floor: a covering limit of %s is outside the range; accepted: 20 °C to 60 °C (wood 27 °C, 80 °F)", refuse.Both(f.CoveringLimit))
	}
	return nil
}

// Factors gives the transmission of the floor with every factor of its working.
//
//	type A: K_H = B·a_B·a_T^mT·a_u^mu·a_D^mD
//	type B: K_H = B·a_B·a_T^mT·a_u·a_WL·a_K
//	spacing over 375 mm (type A): K_H = K_H(375 mm)·375 mm/T
//	cover over s_u* (100 mm, or T/2 over 200 mm) and 65 mm: 1/K_H = 1/K_H* + (s_u − s_u*)/λ_E
//	covering over 0.15: K_H = K_0/(1 + R/0.15·(K_0/K_0.15 − 1))
//
// Units: as [Factors].
// Range: as [Floor.Check]; beyond the standard's own tables a note says so.
// Source: EN 1264-2 clause 6 and annex A; ISO 11855-2 Annex A, formulas A.3 to A.18,
// A.26, A.33, tables A.2 to A.4, A.9 to A.17; read in public transcriptions. B of type
// B from memory and one transcription.
// Errors: those of Check.
func (f Floor) Factors() (Factors, error) {
	if err := f.Check(); err != nil {
		return Factors{}, err
	}
	if float64(f.Covering) <= thickestTabled*(1+1e-9) {
		return f.factors(), nil
	}
	// The standard carries a floor to other surface resistances along 1/K_H = a + b·R
	// (A.33). The same line serves carpet thicker than its table.
	bare, covered := f, f
	bare.Covering, covered.Covering = 0, thickestTabled
	out := covered.factors()
	k0, k15 := float64(bare.factors().Transmission), float64(out.Transmission)
	out.Transmission = units.Transmittance(k0 / (1 + float64(f.Covering)/thickestTabled*(k0/k15-1)))
	out.Notes = append(out.Notes, "covering above 0.15 m²K/W (R-0.85): beyond the standard's tables, carried on along its own law for surface resistances; the factors shown are those at 0.15")
	return out, nil
}

func (f Floor) factors() Factors {
	if f.Construction == WetSlab {
		return f.wetFactors()
	}
	return f.plateFactors()
}

func (f Floor) wetFactors() Factors {
	spacing := math.Min(float64(f.Spacing), widestTabled)
	covering, conductivity, diameter := float64(f.Covering), float64(f.Conductivity), float64(f.TubeDiameter)
	cover, extra := f.countedCover()

	aB := (surfaceResistance + 0.045/1.0) / (surfaceResistance + 0.045/conductivity + covering)
	aT := along(coveringNodes, wetSpacingFactor, covering)
	aU := wetCoverFactor.at(spacing, covering)
	aD := wetDiameterFactor.at(spacing, covering)
	mT := 1 - spacing/0.075
	mU := 100 * (0.045 - cover)
	mD := 250 * (diameter - 0.020)
	product := aB * math.Pow(aT, mT) * math.Pow(aU, mU) * math.Pow(aD, mD)
	base := f.tubeCorrected(wetBase, product, spacing)

	k := 1 / (1/(base*product) + extra/conductivity)
	out := Factors{
		Base: units.Transmittance(base), Covering: units.Number(aB),
		Spacing: units.Number(aT), SpacingExponent: units.Number(mT),
		Cover: units.Number(aU), CoverExponent: units.Number(mU),
		Diameter: units.Number(aD), DiameterExponent: units.Number(mD),
		Product: units.Number(product),
	}
	if extra > 0 {
		out.Notes = append(out.Notes, "deep tube: the cover beyond the standard's s_u* counts as a plain resistance")
	}
	if float64(f.Spacing) > widestTabled {
		k *= widestTabled / float64(f.Spacing)
		out.Notes = append(out.Notes, "spacing above 375 mm: output falls with the spacing, and the floor shows warm and cool stripes")
	}
	out.Transmission = units.Transmittance(k)
	return out
}

// countedCover splits a deep cover into what the factors take and what counts as a
// plain resistance.
func (f Floor) countedCover() (counted, extra float64) {
	cover, star := float64(f.Cover), 0.100
	if float64(f.Spacing) > 0.200 {
		star = 0.5 * math.Min(float64(f.Spacing), widestTabled)
	}
	if cover > star && cover > 0.065 {
		return star, cover - star
	}
	return cover, 0
}

func (f Floor) plateFactors() Factors {
	spacing, covering := float64(f.Spacing), float64(f.Covering)
	cover := f.coverResistance()

	aU := (surfaceResistance + 0.045/1.0) / (surfaceResistance + cover)
	aT := along(plateCoverNodes, plateSpacingFactor, cover)
	mT := 1 - spacing/0.075
	aK := along(plateSpacings, contactFactor, spacing)
	value := f.plateValue()
	aWL := f.plateFactor(value)
	inner := aU * math.Pow(aT, mT) * aWL * aK
	aB := 1 / (1 + plateBase*inner*covering*(1+0.44*math.Sqrt(spacing)))
	product := aB * inner
	base := f.tubeCorrected(plateBase, product, spacing)

	out := Factors{
		Base: units.Transmittance(base), Covering: units.Number(aB),
		Spacing: units.Number(aT), SpacingExponent: units.Number(mT),
		Cover: units.Number(aU), CoverExponent: 1,
		PlateValue: units.Number(value), Plate: units.Number(aWL), Contact: units.Number(aK),
		Product: units.Number(product), Transmission: units.Transmittance(base * product),
	}
	if f.Construction == UnderDeck {
		out.Notes = append(out.Notes, "tube under a deck: rough. The law for plates is used with the deck as the layer above; contact between tube, plate and deck decides and varies by a third")
		if f.PlateThickness == 0 {
			out.Notes = append(out.Notes, "no plates: tube fixed to the underside of the deck is assumed; hanging tube in an air space gives less")
		}
	}
	return out
}

// plateValue is K_WL, how well plates and layer spread the heat.
func (f Floor) plateValue() float64 {
	share := along(plateSpacings, coverShare, float64(f.Spacing))
	return (float64(f.PlateThickness)*float64(f.PlateConductivity) + share*float64(f.Cover)*float64(f.Conductivity)) / 0.125
}

// plateFactor is a_WL, for plates narrower than the spacing too.
func (f Floor) plateFactor(value float64) float64 {
	full := f.fullPlateFactor(value)
	if f.PlateThickness == 0 || f.PlateWidth >= f.Spacing {
		return full
	}
	x := float64(f.PlateWidth / f.Spacing)
	bare := f.fullPlateFactor(0)
	return full - (full-bare)*(1-3.2*x+3.4*x*x-1.2*x*x*x)
}

// fullPlateFactor is a_WL for plates as wide as the spacing.
func (f Floor) fullPlateFactor(value float64) float64 {
	spacing := float64(f.Spacing)
	if value > 1 {
		endless := along(plateSpacings, endlessPlateFactor, spacing)
		bare := f.tabledPlateFactor(0)
		return endless - (endless-bare)*math.Pow((endless-1)/(endless-bare), value)
	}
	if value >= 0.5 {
		return goodPlateFactors.at(spacing, value)
	}
	level := min(int(value*10+1e-9), 4)
	u := value*10 - float64(level)
	lower := f.tabledPlateFactor(level)
	upper := goodPlateFactors.at(spacing, 0.5)
	if level < 4 {
		upper = f.tabledPlateFactor(level + 1)
	}
	return lower + u*(upper-lower)
}

// tabledPlateFactor reads one of the tables A.11 to A.15.
func (f Floor) tabledPlateFactor(level int) float64 {
	i, u := place(plateSpacings, float64(f.Spacing))
	read := func(row []float64) float64 {
		if len(row) == 1 {
			return row[0]
		}
		return along(diameterNodes, row, float64(f.TubeDiameter))
	}
	lower := read(plateFactors[level][i])
	if u == 0 {
		return lower
	}
	return lower + u*(read(plateFactors[level][i+1])-lower)
}

// tubeCorrected is B for a tube other than the standard's (formula A.26).
func (f Floor) tubeCorrected(base, product, spacing float64) float64 {
	wall, conductivity := f.tube()
	outside := float64(f.TubeDiameter)
	this := math.Log(outside/(outside-2*wall)) / (2 * conductivity)
	reference := math.Log(outside/(outside-2*referenceTubeWall)) / (2 * referenceTubeConductivity)
	return 1 / (1/base + 1.1/math.Pi*product*spacing*(this-reference))
}

func (f Floor) tube() (wall, conductivity float64) {
	if f.TubeWall == 0 && f.TubeConductivity == 0 {
		return referenceTubeWall, referenceTubeConductivity
	}
	return float64(f.TubeWall), float64(f.TubeConductivity)
}

func (f Floor) coverResistance() float64 { return float64(f.Cover) / float64(f.Conductivity) }

// SurfaceLimit gives the highest surface temperature of this floor: that of its zone
// or of its covering, whichever is lower. Under wood or carpet the layer beneath is
// warmer than the surface; a covering's maker may mean that layer.
//
// Units: result in K.
// Range: the zones; a covering limit of zero sets none.
// Source: EN 1264-2; covering limits from the covering's maker (wood 27 °C or 80 °F is
// common practice).
func (f Floor) SurfaceLimit() units.Temperature {
	limit := f.Zone.SurfaceLimit()
	if f.CoveringLimit > 0 {
		limit = min(limit, f.CoveringLimit)
	}
	return limit
}

// Limit gives the heat and the mean water excess at which the warmest part of the
// surface reaches its highest temperature.
//
//	φ = ((θ_F,max − θ_i)/9 K)^1.1
//	Δθ_H,G = φ·(B_G/K_H)^(1/(1 − n_G)); q_G = K_H·Δθ_H,G
//	spacing over 375 mm (type A): q_G = q_G(375 mm)·375 mm/T·f_G
//	plates narrower than the spacing: q_G in proportion to a_WL
//
// No floor may give more than an evenly warm one, 8.92·(θ_F,max − θ_i)^1.1; low
// transmissions would carry the limit curve a few percent past that, so Flux stops
// there. Where no table covers the floor, that bound stands alone, marked UpperBound:
// the real limit is lower.
//
// Units: room in K; result as [Limit].
// Range: type A: cover resistance from 0.01 m²K/W, and cover by spacing from 0.173
// above 0.0792 m²K/W; type B: plate value from 0.1 (above 1.5 that of 1.5), spacing to
// 375 mm.
// Source: EN 1264-2; ISO 11855-2 Annex A, formulas A.19 to A.25, tables A.5 to A.8,
// A.18, A.19 (the last two from one transcription).
// Errors: those of Check; a room at or above the surface limit.
func (f Floor) Limit(room units.Temperature) (Limit, error) {
	factors, err := f.Factors()
	if err != nil {
		return Limit{}, err
	}
	surface := f.SurfaceLimit()
	if !(room > 250 && room < surface) {
		return Limit{}, fmt.Errorf("floor: a room at %s leaves nothing below the surface limit of %s; accepted: a cooler room", refuse.Both(room), refuse.Both(surface))
	}
	out := Limit{Surface: surface}
	even := float64(FloorFlux(surface, room))
	phi := math.Pow(float64(surface-room)/9, surfaceExponent)
	curve, ok := f.limitFlux(phi, even, factors)
	if !ok {
		curve = even
		out.UpperBound = true
		out.Note = "no limit curve covers this floor: the limit is that of an evenly warm surface; directly above the tube the limit comes sooner"
	}
	out.Curve = units.Flux(curve)
	out.Flux = units.Flux(math.Min(curve, even))
	out.Excess = units.Difference(float64(out.Flux) / float64(factors.Transmission))
	return out, nil
}

// limitFlux is q_G, and whether the tables cover the floor.
func (f Floor) limitFlux(phi, even float64, factors Factors) (float64, bool) {
	k := float64(factors.Transmission)
	if f.Construction != WetSlab {
		return f.plateLimitFlux(phi, factors)
	}
	spacing := math.Min(float64(f.Spacing), widestTabled)
	cover, slack := f.coverResistance(), 1e-9
	bySpacing := float64(f.Cover) / spacing
	var coefficient, exponent float64
	switch {
	case cover < 0.01-slack:
		return 0, false
	case cover <= coverResistanceTop+slack:
		coefficient, exponent = wetLimit.at(spacing, cover), wetLimitExponent.at(spacing, cover)
	case bySpacing >= 0.173-slack:
		coefficient, exponent = along(coverBySpacing, thickLimit, bySpacing), along(coverBySpacing, thickLimitExponent, bySpacing)
	default:
		return 0, false
	}
	wide := float64(f.Spacing) / spacing
	tabled := intersection(phi, coefficient, exponent, k*wide)
	if wide <= 1 {
		return tabled, true
	}
	share := tabled / wide
	if beyond := float64(f.Cover/f.Spacing) - 0.173; beyond > 0 {
		share = even - (even-share)*math.Exp(-20*beyond*beyond)
	}
	return share, true
}

func (f Floor) plateLimitFlux(phi float64, factors Factors) (float64, bool) {
	value, spacing := float64(factors.PlateValue), float64(f.Spacing)
	if value < 0.1-1e-9 || spacing > widestTabled*(1+1e-9) {
		return 0, false
	}
	coefficient, exponent := plateLimit.at(value, spacing), plateLimitExponent.at(value, spacing)
	full := f.fullPlateFactor(value)
	ratio := float64(factors.Plate) / full
	k := float64(factors.Transmission)
	if ratio < 1 {
		wide := f
		wide.PlateWidth = f.Spacing
		k = float64(wide.mustFactors().Transmission)
	}
	return ratio * intersection(phi, coefficient, exponent, k), true
}

// mustFactors is Factors for a floor that has been checked.
func (f Floor) mustFactors() Factors {
	out, _ := f.Factors()
	return out
}

// intersection is the heat where the straight characteristic k meets the limit curve.
func intersection(phi, coefficient, exponent, k float64) float64 {
	return k * phi * math.Pow(coefficient/k, 1/(1-exponent))
}

// Downward gives the heat that leaves the floor downward while it gives q upward.
//
//	q_u = (R_o·q + θ_i − θ_u)/R_u; R_o = 1/10.8 + R_λB + s_u/λ_u
//
// Units: flux in W/m², room in K; result in W/m².
// Range: flux from 0; never below 0 (a warmer space below does not heat the water).
// Source: EN 1264-2; ISO 11855-2 Annex A, formulas A.29 to A.31.
// Errors: those of Check, a negative flux.
func (f Floor) Downward(flux units.Flux, room units.Temperature) (units.Flux, error) {
	if err := f.Check(); err != nil {
		return 0, err
	}
	if !(flux >= 0 && finite(float64(flux), float64(room))) {
		return 0, fmt.Errorf("floor: a heat of %s upward is not usable; accepted: 0 W/m² or more", refuse.Both(flux))
	}
	return units.Flux(math.Max(0, (f.upward()*float64(flux)+float64(room-f.Below))/float64(f.Down))), nil
}

// upward is R_o, from the tube to the room.
func (f Floor) upward() float64 {
	return surfaceResistance + float64(f.Covering) + f.coverResistance()
}

// Rate makes the floor ready for use: its emitter, its working and its limit in a
// room of the given temperature.
//
//	q = K_H·Δθ_H, Δθ_H logarithmic; K = K_H·A
//	loss below = R_o/R_u·q·A + A/R_u·(θ_i − θ_u)
//
// The second part of the loss below is what the room would lose through an unheated
// floor as well: leave it out of the room's own heat loss (EN 12831 counts it with the
// floor heating).
//
// Units: room in K; result as [HeatedFloor].
// Range: as [Floor.Check] and [Floor.Limit].
// Source: EN 1264-2; ISO 11855-2 Annex A.
// Errors: those of Check and Limit.
func (f Floor) Rate(room units.Temperature) (HeatedFloor, error) {
	limit, err := f.Limit(room)
	if err != nil {
		return HeatedFloor{}, err
	}
	factors := f.mustFactors()
	law := PowerLaw{
		Coefficient: float64(factors.Transmission) * float64(f.Area),
		Exponent:    1,
		Down: Behind{
			PerRoom:     units.Fraction(f.upward() / float64(f.Down)),
			Conductance: units.LossCoefficient(float64(f.Area) / float64(f.Down)),
			Temperature: f.Below,
		},
	}
	return HeatedFloor{Emitter: law, Factors: factors, Limit: limit}, nil
}
