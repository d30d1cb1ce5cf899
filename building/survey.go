package building

// What does a house lose, from ten answers and no drawing? A square box of the same
// floor area gets the usual U-values of its age, and everything assumed is laid open.

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Era is when the house was built.
type Era string

// The eras.
const (
	Before1946 Era = "before 1946"
	From1946   Era = "1946–1979"
	From1980   Era = "1980–1999"
	From2000   Era = "2000–2011"
	From2012   Era = "2012 on"
)

// Insulation is what was done to the house since.
type Insulation string

// The states of insulation.
const (
	AsBuilt       Insulation = "as built"
	Improved      Insulation = "improved"       // attic and most walls filled
	WellInsulated Insulation = "well insulated" // rebuilt to a good present standard
)

// Glazing is what most windows are.
type Glazing string

// The kinds of glazing.
const (
	SingleGlazing Glazing = "single"
	DoubleGlazing Glazing = "double" // or single with storm windows
	DoubleLowE    Glazing = "double low-e"
	TripleGlazing Glazing = "triple"
)

// Tightness is how draughty the house is.
type Tightness string

// The classes of tightness.
const (
	Leaky   Tightness = "leaky"
	Average Tightness = "average"
	Tight   Tightness = "tight"
)

// Under is what lies below the lowest heated floor.
type Under string

// What may lie below.
const (
	UnheatedBasement Under = "unheated basement"
	HeatedBasement   Under = "heated basement"
	OnSlab           Under = "slab"
	OverCrawlSpace   Under = "crawl space"
)

// Survey is the short description of a house. What is not known is left empty; the
// estimate then assumes the usual and says so.
type Survey struct {
	FloorArea     units.Area   // heated, all storeys, without a basement
	Storeys       units.Number // above ground: 1, 1.5, 2 …; 0 not known
	SharedSides   int          // of four, against heated neighbours
	Era           Era
	Insulation    Insulation
	Glazing       Glazing
	Tightness     Tightness
	N50           units.AirChange // from a blower door; stands above Tightness
	Under         Under
	CeilingHeight units.Length      // 0 takes 8 ft, 2.44 m
	AnnualMean    units.Temperature // of the outdoor air, for the ground; 0 takes 9 °C
	Altitude      units.Length
}

// Element is one part of the box.
type Element struct {
	Name          string
	Area          units.Area          // zero for air
	Transmittance units.Transmittance // zero for air
	Factor        units.Fraction      // b of an unheated space, f_θann of the ground, else 1
	Coefficient   units.LossCoefficient
	Ground        bool // towards the year's mean instead of the day's temperature
}

// Estimate is the loss of the box with everything that led to it.
type Estimate struct {
	Loss      Loss
	Elements  []Element
	Volume    units.Volume    // of the heated air
	AirChange units.AirChange // in heating weather
	Assumed   []string        // a sentence each
	Doubts    []Doubt
	Error     units.Fraction // relative standard deviation, all doubts together
}

// usual holds the typical figures of an era; each trio is as built, improved, well
// insulated (common practice for cold-climate houses of North America and northern
// Europe: whole walls with their studs, ceilings with their attic).
type usual struct {
	wall, ceiling, floor [3]units.Transmittance
	slab, basementWall   [3]units.Resistance
	door                 units.Transmittance
	glazing              Glazing
	n50                  float64
	state                Insulation // the likeliest
}

var usualByEra = map[Era]usual{
	Before1946: {
		wall: [3]units.Transmittance{1.50, 0.55, 0.25}, ceiling: [3]units.Transmittance{1.00, 0.25, 0.12},
		floor: [3]units.Transmittance{1.30, 0.45, 0.22}, slab: [3]units.Resistance{0, 0, 1.8},
		basementWall: [3]units.Resistance{0.15, 1.4, 2.6}, door: 3.0, glazing: DoubleGlazing, n50: 11, state: Improved,
	},
	From1946: {
		wall: [3]units.Transmittance{0.90, 0.50, 0.25}, ceiling: [3]units.Transmittance{0.50, 0.22, 0.12},
		floor: [3]units.Transmittance{1.20, 0.45, 0.22}, slab: [3]units.Resistance{0, 0, 1.8},
		basementWall: [3]units.Resistance{0.15, 1.4, 2.6}, door: 3.0, glazing: DoubleGlazing, n50: 9, state: Improved,
	},
	From1980: {
		wall: [3]units.Transmittance{0.45, 0.38, 0.22}, ceiling: [3]units.Transmittance{0.25, 0.18, 0.11},
		floor: [3]units.Transmittance{0.60, 0.35, 0.20}, slab: [3]units.Resistance{0.9, 0.9, 1.8},
		basementWall: [3]units.Resistance{0.9, 1.8, 2.6}, door: 2.0, glazing: DoubleGlazing, n50: 7, state: AsBuilt,
	},
	From2000: {
		wall: [3]units.Transmittance{0.35, 0.30, 0.20}, ceiling: [3]units.Transmittance{0.18, 0.15, 0.10},
		floor: [3]units.Transmittance{0.40, 0.30, 0.20}, slab: [3]units.Resistance{1.5, 1.5, 2.5},
		basementWall: [3]units.Resistance{1.8, 2.3, 3.0}, door: 1.8, glazing: DoubleLowE, n50: 5, state: AsBuilt,
	},
	From2012: {
		wall: [3]units.Transmittance{0.27, 0.24, 0.16}, ceiling: [3]units.Transmittance{0.13, 0.12, 0.09},
		floor: [3]units.Transmittance{0.30, 0.25, 0.17}, slab: [3]units.Resistance{1.8, 1.8, 3.5},
		basementWall: [3]units.Resistance{2.3, 2.6, 3.5}, door: 1.5, glazing: DoubleLowE, n50: 3, state: AsBuilt,
	},
}

var glazingU = map[Glazing]units.Transmittance{
	SingleGlazing: 4.8, DoubleGlazing: 2.8, DoubleLowE: 1.8, TripleGlazing: 1.1,
}

var tightnessN50 = map[Tightness]float64{Leaky: 12, Average: 7, Tight: 3}

var insulationColumn = map[Insulation]int{AsBuilt: 0, Improved: 1, WellInsulated: 2}

// The box (common practice, rounded).
const (
	windowShare     = 0.15 // of the floor area
	mostWindow      = 0.40 // of the outer wall
	doorArea        = units.Area(3.8)
	floorDepth      = 0.30 // m, of the floor between two storeys
	outerWall       = units.Length(0.3)
	basementDepth   = units.Length(2.0)
	basementAbove   = 0.4 // m of basement wall above ground
	basementWallR   = 0.2 // m²K/W of the bare concrete above ground
	basementHeight  = 2.2 // m of air
	usualCeiling    = units.Length(2.4384)
	usualStoreys    = units.Number(2)
	leastAirHourly  = 0.25 // people air a house, however tight
	usualAnnualMean = units.Temperature(282.15)
)

// box is the survey with every gap filled.
type box struct {
	Survey
	usual
	column    int
	n50Hourly float64
	assumed   []string
	doubts    []Doubt
}

// Estimate gives a house's loss from a short description.
//
//	H = Σ A·U·b + A_ground·U_ground·1.45 + 0.34·n·V for a square box of the floor
//	area and storeys: windows 15 % of the floor, two doors, n = n50/20 but not below
//	0.25 per hour
//
// Units: the survey's; the result in W/K, with each part.
// Range: floor area 20 to 2000 m², 1 to 4 storeys, 0 to 3 shared sides, ceilings 2
// to 5 m, annual mean −20 to 30 °C, altitude −500 to 5000 m. Single houses of common
// shape; not for glass fronts, long wings, log or earth walls.
// Source: U-values, air tightness and shape: common practice; ground: ISO 13370:2007
// and EN 12831-1:2017; unheated spaces: EN 12831:2003 annex D, from memory.
// Errors: a figure outside the range or a word that is not in its list.
func (s Survey) Estimate() (Estimate, error) {
	b, err := s.fill()
	if err != nil {
		return Estimate{}, err
	}
	return b.estimate()
}

func (s Survey) fill() (*box, error) {
	b := &box{Survey: s}
	b.doubt("shape of the house and usual U-values", 0.20)
	if s.Storeys == 0 {
		b.Storeys = usualStoreys
		b.assume("storeys", "two", 0.07)
	}
	if s.Era == "" {
		b.Era = From1946
		b.assume("year of building", string(From1946), 0.20)
	}
	u, known := usualByEra[b.Era]
	if !known {
		return nil, unknownWord("era", b.Era, Before1946, From1946, From1980, From2000, From2012)
	}
	b.usual = u
	if err := b.fillWords(); err != nil {
		return nil, err
	}
	if s.CeilingHeight == 0 {
		b.CeilingHeight = usualCeiling
		b.assume("ceiling height", "8 ft (2.44 m)", 0.03)
	}
	if s.AnnualMean == 0 {
		b.AnnualMean = usualAnnualMean
		if b.Under == OnSlab || b.Under == HeatedBasement {
			b.assume("annual mean outdoor temperature", "9 °C (48 °F)", 0.02)
		}
	}
	if s.SharedSides < 0 || s.SharedSides > 3 {
		return nil, &refuse.Error{What: "sides shared with heated neighbours", Given: fmt.Sprint(s.SharedSides), Accept: "0 to 3"}
	}
	return b, cmp.Or(
		refuse.Within("heated floor area", s.FloorArea, 20, 2000),
		refuse.Within("storeys", b.Storeys, 1, 4),
		refuse.Within("ceiling height", b.CeilingHeight, 2, 5),
		refuse.Within("annual mean outdoor temperature", b.AnnualMean, units.Celsius(-20), units.Celsius(30)),
		refuse.Within("altitude", s.Altitude, -500, 5000),
		checkN50(s.N50),
	)
}

// fillWords settles the answers chosen from lists.
func (b *box) fillWords() error {
	if b.Insulation == "" {
		b.Insulation = b.state
		b.assume("state of insulation", string(b.state), 0.20)
	} else {
		b.doubt("thickness and condition of the insulation", 0.08)
	}
	column, known := insulationColumn[b.Insulation]
	if !known {
		return unknownWord("state of insulation", b.Insulation, AsBuilt, Improved, WellInsulated)
	}
	b.column = column

	if b.Glazing == "" {
		b.Glazing = b.glazing
		b.assume("glazing", string(b.glazing), 0.07)
	}
	if _, known := glazingU[b.Glazing]; !known {
		return unknownWord("glazing", b.Glazing, SingleGlazing, DoubleGlazing, DoubleLowE, TripleGlazing)
	}

	hourly, known := tightnessN50[b.Tightness]
	switch {
	case b.Tightness != "" && !known:
		return unknownWord("tightness", b.Tightness, Leaky, Average, Tight)
	case b.N50 > 0:
		b.n50Hourly = b.N50.PerHour()
		b.doubt("air change in heating weather, from the blower door", 0.07)
	case known:
		b.n50Hourly = hourly
		b.doubt("air change in heating weather, by class of tightness", 0.10)
	default:
		b.n50Hourly = b.n50
		b.assume("tightness", fmt.Sprintf("%g air changes per hour at 50 Pa, usual for its era", b.n50), 0.15)
	}

	if b.Under == "" {
		b.Under = UnheatedBasement
		b.assume("what lies below the lowest floor", string(UnheatedBasement), 0.08)
	}
	switch b.Under {
	case UnheatedBasement, HeatedBasement, OnSlab, OverCrawlSpace:
		return nil
	}
	return unknownWord("what lies below the lowest floor", b.Under, UnheatedBasement, HeatedBasement, OnSlab, OverCrawlSpace)
}

func (b *box) doubt(about string, share units.Fraction) {
	b.doubts = append(b.doubts, Doubt{About: about, Share: share})
}

func (b *box) assume(what, taken string, share units.Fraction) {
	b.assumed = append(b.assumed, fmt.Sprintf("%s not given, taken as %s", what, taken))
	b.doubt(what+" not given", share)
}

func unknownWord[T ~string](what string, given T, accepted ...T) error {
	accept := ""
	for _, a := range accepted {
		accept += ", " + string(a)
	}
	return &refuse.Error{What: what, Given: fmt.Sprintf("%q", string(given)), Accept: accept[2:]}
}

func (b *box) estimate() (Estimate, error) {
	footprint := float64(b.FloorArea) / float64(b.Storeys)
	outline := 4 * math.Sqrt(footprint) * float64(4-b.SharedSides) / 4
	height := float64(b.CeilingHeight)*float64(b.Storeys) + floorDepth*math.Max(0, float64(b.Storeys)-1)
	wall := outline * height
	window := min(windowShare*float64(b.FloorArea), mostWindow*wall)
	opaque := wall - window - float64(doorArea)
	if opaque <= 0 {
		return Estimate{}, fmt.Errorf("outer wall of the house: only %s left beside windows and doors; accepted: fewer shared sides or a larger house",
			refuse.Both(units.Area(max(0, wall-window))))
	}
	volume := float64(b.FloorArea) * float64(b.CeilingHeight)

	out := Estimate{Doubts: b.doubts, Error: Together(b.doubts)}
	out.Assumed = append(b.assumed,
		"a square plan with windows of 15 % of the floor area, two outside doors, and typical U-values of its era")
	out.Elements = []Element{
		outdoor("outer walls", opaque, b.wall[b.column]),
		outdoor("windows", window, glazingU[b.Glazing]),
		outdoor("outside doors", float64(doorArea), b.door),
		outdoor("ceiling under the roof", footprint, b.ceiling[b.column]),
		outdoor("heat bridges at joints", wall+footprint, BridgesNew),
	}

	below, err := b.below(footprint, outline)
	if err != nil {
		return Estimate{}, err
	}
	out.Elements = append(out.Elements, below...)
	if b.Under == HeatedBasement {
		volume += footprint * basementHeight
		out.Assumed = append(out.Assumed, "the heated basement comes on top of the floor area given, 2 m in the ground")
	}

	out.Volume = units.Volume(volume)
	infiltration, err := InfiltrationFromN50(units.PerHour(b.n50Hourly))
	if err != nil {
		return Estimate{}, err
	}
	out.AirChange = max(infiltration.Likely, units.PerHour(leastAirHourly))
	air, err := AirLoss(out.Volume, out.AirChange, b.Altitude)
	if err != nil {
		return Estimate{}, err
	}
	out.Elements = append(out.Elements, Element{Name: "air", Factor: 1, Coefficient: air.Outdoor})

	for _, e := range out.Elements {
		if e.Ground {
			out.Loss = out.Loss.Plus(Toward(e.Coefficient, b.AnnualMean))
		} else {
			out.Loss.Outdoor += e.Coefficient
		}
	}
	return out, nil
}

func outdoor(name string, area float64, u units.Transmittance) Element {
	return Element{Name: name, Area: units.Area(area), Transmittance: u, Factor: 1, Coefficient: through(units.Area(area), u)}
}

func ground(name string, area float64, u units.Transmittance) Element {
	return Element{Name: name, Area: units.Area(area), Transmittance: u, Factor: GroundYear, Ground: true,
		Coefficient: through(units.Area(area), u) * units.LossCoefficient(GroundYear)}
}

// below gives the parts under the lowest heated floor, or the basement itself.
func (b *box) below(footprint, outline float64) ([]Element, error) {
	area, perimeter := units.Area(footprint), units.Length(outline)
	switch b.Under {
	case OnSlab:
		u, err := Slab{Area: area, Perimeter: perimeter, Wall: outerWall, Ground: SandOrGravel, Floor: b.slab[b.column]}.Transmittance()
		return []Element{ground("slab on the ground", footprint, u)}, err
	case HeatedBasement:
		r := b.basementWall[b.column]
		u, err := Basement{Area: area, Perimeter: perimeter, Depth: basementDepth, Wall: outerWall,
			Ground: SandOrGravel, BelowGrade: r}.Transmittance()
		bare := 1 / float64(wallSurfaces+basementWallR+r)
		return []Element{
			ground("basement floor", footprint, u.Floor),
			ground("basement walls in the ground", outline*float64(basementDepth), u.Wall),
			outdoor("basement walls above ground", outline*basementAbove, units.Transmittance(bare)),
		}, err
	}
	place, name := CellarClosed, "floor over the unheated basement"
	if b.Under == OverCrawlSpace {
		place, name = CrawlSpace, "floor over the crawl space"
	}
	factor, err := place.ReductionFactor()
	e := outdoor(name, footprint, b.floor[b.column])
	e.Factor = factor
	e.Coefficient *= units.LossCoefficient(factor)
	return []Element{e}, err
}
