package building

// How much heat goes into the ground, through a slab, a basement or a floor over a
// ventilated space?

import (
	"cmp"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Conductivity of the ground by its kind (ISO 13370). Where nothing is known, take
// sand or gravel.
const (
	ClayOrSilt   units.Conductivity = 1.5
	SandOrGravel units.Conductivity = 2.0
	Rock         units.Conductivity = 3.5
)

// Constants of the loss to the ground (EN 12831-1:2017).
const (
	GroundYear      units.Fraction = 1.45 // f_θann: the year's swing of the outdoor temperature on the design day
	GroundWaterNear units.Fraction = 1.15 // f_GW: water table within 1 m below the floor
)

// Both surfaces of a floor on the ground, and of a basement wall, together.
var (
	floorSurfaces = InsideSurface(Downward) + OutsideSurface
	wallSurfaces  = InsideSurface(Horizontal) + OutsideSurface
)

// CharacteristicDimension gives B', the area of a ground floor over half its exposed
// perimeter.
//
//	B' = A / (P/2)
//
// Units: an area and a length; the result is a length.
// Range: area 0.01 to 100,000 m²; perimeter 0.1 to 10,000 m, only the edges that
// face outdoors; B' 0.5 to 200 m.
// Source: ISO 13370:2007 clause 8.1.
// Errors: a figure outside the range.
func CharacteristicDimension(area units.Area, perimeter units.Length) (units.Length, error) {
	err := cmp.Or(
		checkArea("ground floor area", area),
		refuse.Within("exposed perimeter of the ground floor", perimeter, 0.1, 1e4),
	)
	if err != nil {
		return 0, err
	}
	b := units.Length(2 * float64(area) / float64(perimeter))
	return b, refuse.Within("ground floor area over half its exposed perimeter (B')", b, 0.5, 200)
}

// groundU is the U-value of a floor whose whole resistance equals that of d metres
// of ground.
func groundU(ground units.Conductivity, dimension, equivalent units.Length) units.Transmittance {
	λ, B, d := float64(ground), float64(dimension), float64(equivalent)
	if d < B {
		return units.Transmittance(2 * λ / (math.Pi*B + d) * math.Log(math.Pi*B/d+1))
	}
	return units.Transmittance(λ / (0.457*B + d))
}

// equivalentThickness is d_t = w + λ·R.
func equivalentThickness(wall units.Length, ground units.Conductivity, r units.Resistance) units.Length {
	return wall + units.Length(float64(ground)*float64(r))
}

func checkSite(wall units.Length, ground units.Conductivity) error {
	return cmp.Or(
		refuse.Within("thickness of the outer wall at the floor", wall, 0, 2),
		refuse.Within("conductivity of the ground", ground, 0.3, 5),
	)
}

// Edge is insulation along the edge of a slab, lying flat or standing down the
// foundation. A zero thickness means none.
type Edge struct {
	Vertical     bool         // down the foundation; otherwise flat under or beside the slab
	Width        units.Length // width of the strip, or depth below the ground's surface
	Thickness    units.Length
	Conductivity units.Conductivity
}

// Slab is a floor on the ground.
type Slab struct {
	Area      units.Area
	Perimeter units.Length       // exposed to outdoors
	Wall      units.Length       // full thickness of the outer walls
	Ground    units.Conductivity // of the soil
	Floor     units.Resistance   // all-over insulation and covering; a bare dense slab is 0
	Edge      Edge
}

// Transmittance gives the U-value of a slab on the ground, edge insulation counted
// in.
//
//	d_t = w + λ·(R_si + R_f + R_se)
//	d_t < B':  U = 2λ/(πB' + d_t) · ln(πB'/d_t + 1)
//	else:      U = λ/(0.457·B' + d_t)
//	edge:      U − (P/A)·(λ/π)·[ln(x/d_t + 1) − ln(x/(d_t + d') + 1)],
//	           d' = λ·R_n − d_n, x = width flat, twice the depth upright
//
// Units: the result in W/m²K.
// Range: B' 0.5 to 200 m, wall 0 to 2 m, soil 0.3 to 5 W/mK, R_f 0 to 20 m²K/W,
// edge strip 0.1 to 5 m wide.
// Source: ISO 13370:2007 clause 9.1 and annex B (edge insulation).
// Errors: a figure outside the range, or edge insulation that conducts more than
// the soil that it replaces.
func (s Slab) Transmittance() (units.Transmittance, error) {
	b, err := CharacteristicDimension(s.Area, s.Perimeter)
	if err == nil {
		err = cmp.Or(checkSite(s.Wall, s.Ground), refuse.Within("resistance of the slab's insulation", s.Floor, 0, 20))
	}
	if err != nil {
		return 0, err
	}
	d := equivalentThickness(s.Wall, s.Ground, floorSurfaces+s.Floor)
	u := groundU(s.Ground, b, d)
	saved, err := s.Edge.factor(s.Ground, d)
	if err != nil {
		return 0, err
	}
	u -= units.Transmittance(saved * float64(s.Perimeter) / float64(s.Area))
	return u, refuse.Within("U-value of the slab with its edge insulation", u, 0.01, largestU)
}

// factor is what a metre of edge saves, in W/mK.
func (e Edge) factor(ground units.Conductivity, dt units.Length) (float64, error) {
	if e.Thickness == 0 {
		return 0, nil
	}
	err := cmp.Or(
		refuse.Within("thickness of the edge insulation", e.Thickness, 0.001, 0.5),
		refuse.Within("width or depth of the edge insulation", e.Width, 0.1, 5),
		refuse.Within("conductivity of the edge insulation", e.Conductivity, 0.01, ground),
	)
	if err != nil {
		return 0, err
	}
	λ, d := float64(ground), float64(dt)
	extra := λ*float64(e.Thickness)/float64(e.Conductivity) - float64(e.Thickness)
	if extra <= 0 {
		return 0, nil
	}
	x := float64(e.Width)
	if e.Vertical {
		x *= 2
	}
	return λ / math.Pi * (math.Log(x/d+1) - math.Log(x/(d+extra)+1)), nil
}

// Basement is a heated basement.
type Basement struct {
	Area       units.Area
	Perimeter  units.Length // exposed to outdoors
	Depth      units.Length // of its floor below the ground's surface
	Wall       units.Length // full thickness of the walls at ground level
	Ground     units.Conductivity
	Floor      units.Resistance // of the floor's insulation
	BelowGrade units.Resistance // of the basement wall, without surfaces
}

// BasementU is the result for a heated basement below the ground's surface.
type BasementU struct {
	Floor, Wall units.Transmittance
	Coefficient units.LossCoefficient // floor and buried walls together
	Mean        units.Transmittance   // over floor and buried walls
}

// Transmittance gives the U-values of a heated basement's floor and buried walls.
//
//	floor: as a slab with d_t + z/2 in place of d_t in both formulas
//	wall:  U = 2λ/(πz) · (1 + 0.5·d_t/(d_t + z)) · ln(z/d_w + 1),
//	       d_w = λ·(R_si + R_w + R_se); where d_w < d_t, d_w takes the place of d_t
//	H = A·U_floor + z·P·U_wall
//
// Units: U-values in W/m²K, the coefficient in W/K.
// Range: depth 0.1 to 5 m, otherwise as a slab.
// Source: ISO 13370:2007 clause 9.3; the wall formula from memory.
// Errors: a figure outside the range.
func (b Basement) Transmittance() (BasementU, error) {
	dimension, err := CharacteristicDimension(b.Area, b.Perimeter)
	if err == nil {
		err = cmp.Or(
			checkSite(b.Wall, b.Ground),
			refuse.Within("depth of the basement floor below ground", b.Depth, 0.1, 5),
			refuse.Within("resistance of the basement floor's insulation", b.Floor, 0, 20),
			refuse.Within("resistance of the basement wall", b.BelowGrade, 0, 20),
		)
	}
	if err != nil {
		return BasementU{}, err
	}
	dt := equivalentThickness(b.Wall, b.Ground, floorSurfaces+b.Floor)
	dw := equivalentThickness(0, b.Ground, wallSurfaces+b.BelowGrade)
	walls := float64(b.Depth) * float64(b.Perimeter)

	out := BasementU{
		Floor: groundU(b.Ground, dimension, dt+b.Depth/2),
		Wall:  buriedWallU(b.Ground, b.Depth, dt, dw),
	}
	out.Coefficient = through(b.Area, out.Floor) + through(units.Area(walls), out.Wall)
	out.Mean = units.Transmittance(float64(out.Coefficient) / (float64(b.Area) + walls))
	return out, nil
}

func buriedWallU(ground units.Conductivity, depth, dt, dw units.Length) units.Transmittance {
	dt = min(dt, dw)
	λ, z := float64(ground), float64(depth)
	spread := 1 + 0.5*float64(dt/(dt+depth))
	return units.Transmittance(2 * λ / (math.Pi * z) * spread * math.Log(z/float64(dw)+1))
}

// SuspendedFloor is a floor over a low space with vents to outdoors.
type SuspendedFloor struct {
	Area      units.Area
	Perimeter units.Length // exposed to outdoors
	Wall      units.Length // thickness of the outer walls
	Ground    units.Conductivity
	Floor     units.Resistance    // deck and insulation, without surfaces; a bare timber deck 0.2
	Height    units.Length        // of the floor's upper side above the ground outside
	LowWall   units.Transmittance // of the walls round the space
	Vents     units.Length        // opening area per length of perimeter, m²/m
	Wind      units.Number        // mean wind speed at 10 m height, m/s
	Shelter   units.Number        // wind shelter factor: town 0.02, suburb 0.05, open 0.10
}

// Transmittance gives the U-value of a floor over a ventilated space.
//
//	1/U = 2·R_si + R_f + 1/(U_g + U_x)
//	U_g = 2λ/(πB' + d_g) · ln(πB'/d_g + 1), d_g = w + λ·(R_si + R_se)
//	U_x = 2·h·U_w/B' + 1450·ε·v·f_w/B'
//
// Units: the result in W/m²K.
// Range: height 0 to 0.5 m above ground, vents 0 to 0.02 m²/m, wind 0 to 15 m/s,
// shelter factor 0.02 to 0.10, otherwise as a slab; natural ventilation only.
// Source: ISO 13370:2007 clause 9.2.
// Errors: a figure outside the range.
func (s SuspendedFloor) Transmittance() (units.Transmittance, error) {
	b, err := CharacteristicDimension(s.Area, s.Perimeter)
	if err == nil {
		err = cmp.Or(
			checkSite(s.Wall, s.Ground),
			refuse.Within("resistance of the suspended floor", s.Floor, 0, 20),
			refuse.Within("height of the suspended floor above ground", s.Height, 0, 0.5),
			refuse.Within("U-value of the walls below the suspended floor", s.LowWall, 0, largestU),
			refuse.Within("vent area per length of wall (m²/m)", s.Vents, 0, 0.02),
			refuse.Within("wind speed in m/s", s.Wind, 0, 15),
			refuse.Within("wind shelter factor", s.Shelter, 0.02, 0.10),
		)
	}
	if err != nil {
		return 0, err
	}
	ground := groundU(s.Ground, b, equivalentThickness(s.Wall, s.Ground, floorSurfaces))
	air := (2*float64(s.Height)*float64(s.LowWall) +
		1450*float64(s.Vents)*float64(s.Wind)*float64(s.Shelter)) / float64(b)
	r := 2*float64(InsideSurface(Downward)) + float64(s.Floor) + 1/(float64(ground)+air)
	return units.Transmittance(1 / r), nil
}

// EquivalentFloor gives the U-value of a heated room's floor with the ground counted
// in, from the U-value of the floor alone.
//
//	U_eq = a/[b + (c1 + B')^n1 + (c2 + z)^n2 + (c3 + U)^n3] + d
//
// with a 0.9671, b −7.455, c 10.76, 9.773, 0.0265, n 0.5532, 0.6027, −0.9296,
// d −0.0203; not above U, which holds thermal bridges, if any.
//
// Units: B' and depth z as lengths, U-values in W/m²K.
// Range: no range given; held here to B' 2 to 50 m, z 0 to 5 m, U 0.1 to 3 W/m²K.
// Source: EN 12831-1:2017, equivalent U-value of elements against the ground.
// Errors: a figure outside the range.
func EquivalentFloor(dimension, depth units.Length, u units.Transmittance) (units.Transmittance, error) {
	err := cmp.Or(
		refuse.Within("ground floor area over half its exposed perimeter (B')", dimension, 2, 50),
		refuse.Within("depth of the floor below ground", depth, 0, 5),
		refuse.Within("U-value of the floor", u, 0.1, 3),
	)
	if err != nil {
		return 0, err
	}
	sum := -7.455 + math.Pow(10.76+float64(dimension), 0.5532) +
		math.Pow(9.773+float64(depth), 0.6027) + math.Pow(0.0265+float64(u), -0.9296)
	// The fit runs past the floor's own U-value when that is very low; the ground
	// never makes a floor lose more.
	return min(u, units.Transmittance(0.9671/sum-0.0203)), nil
}

// GroundLoss turns a floor or wall against the ground into a loss towards the
// year's mean outdoor temperature.
//
//	Fixed = f_θann · f_GW · A · U, FixedAt = annual mean outdoor temperature
//
// It is meant for the design day: f_θann = 1.45 stands for the ground being colder
// in winter than the year's mean. For a year's energy scale it by 1/1.45.
//
// Units: area, U-value with the ground counted in, temperature; the result in W/K.
// Range: area 0.01 to 100,000 m², U 0 to 10 W/m²K, annual mean −20 to 30 °C.
// Source: EN 12831-1:2017, transmission to the ground; the split into coefficient and temperature is
// the same formula rearranged, (Ti − To)·f_ig = Ti − Tm.
// Errors: a figure outside the range.
func GroundLoss(area units.Area, u units.Transmittance, annualMean units.Temperature, waterNear bool) (Loss, error) {
	err := cmp.Or(
		checkArea("area against the ground", area),
		refuse.Within("U-value against the ground", u, 0, largestU),
		refuse.Within("annual mean outdoor temperature", annualMean, units.Celsius(-20), units.Celsius(30)),
	)
	if err != nil {
		return Loss{}, err
	}
	f := GroundYear
	if waterNear {
		f *= GroundWaterNear
	}
	return Toward(through(area, u)*units.LossCoefficient(f), annualMean), nil
}
