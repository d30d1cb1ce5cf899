package emitter

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

// wet is a slab with the standard's tube over a well insulated cellar.
func wet(spacing, diameter, cover, conductivity, covering float64) Floor {
	return Floor{
		Construction: WetSlab, Area: 10,
		Spacing: units.Length(spacing), Cover: units.Length(cover), Conductivity: units.Conductivity(conductivity), Covering: units.Resistance(covering),
		TubeDiameter: units.Length(diameter), Down: 2, Below: celsius(20), Zone: Occupied,
	}
}

func plates() Floor {
	return Floor{
		Construction: DryPlates, Area: 10,
		Spacing: 0.20, Cover: 0.020, Conductivity: 0.25, Covering: 0.05,
		TubeDiameter: 0.016, PlateThickness: 0.0005, PlateWidth: 0.18, PlateConductivity: 200,
		Down: 2, Below: celsius(20), Zone: Occupied,
	}
}

func mustFactors(t *testing.T, f Floor) Factors {
	t.Helper()
	out, err := f.Factors()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func mustLimit(t *testing.T, f Floor) Limit {
	t.Helper()
	out, err := f.Limit(celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Worked examples, type A, at the nodes of the tables.
func TestWetFloorWorkedExamples(t *testing.T) {
	const source = "EN 1264-2 / ISO 11855-2 Annex A, worked by hand"
	warm, _ := LogarithmicExcess(celsius(40), celsius(35), celsius(20))
	mild, _ := LogarithmicExcess(celsius(35), celsius(30), celsius(20))
	near(t, "Δθ_H 40/35/20", float64(warm), 17.380, 0.001)
	for _, c := range []struct {
		spacing, mm, cover, conductivity, covering float64
		k, q40, surface, q35, limit, excess        float64
		source                                     string
	}{
		{.15, 16, 45, 1.2, 0, 5.5396, 96.28, 28.70, 68.31, 94.67, 17.09, source},
		{.15, 16, 45, 1.2, .10, 3.3682, 58.54, 25.53, 41.54, 98.62, 29.28, source},
		{.15, 16, 45, 1.2, .15, 2.8344, 49.26, 24.73, 34.95, 100.03, 35.29, source},
		{.15, 20, 45, 1.0, .10, 3.3564, 58.34, 25.51, 41.39, 99.59, 29.67, source},
		{.10, 16, 45, 1.2, .015, 5.7895, 100.62, 29.05, 71.39, 98.04, 16.93, source},
		{.20, 17, 45, 1.2, .05, 3.7300, 64.83, 26.07, 46.00, 93.82, 25.15, source},
		{.30, 16, 45, 1.2, .10, 2.4842, 43.18, 24.19, 30.63, 86.98, 35.01, source},
		{.30, 20, 65, 1.2, .15, 2.1651, 37.63, 23.70, 26.70, 100.4, 46.36, source},
		{.10, 16, 20, 1.0, .05, 5.1140, 88.88, 28.09, 63.06, 84.32, 16.49, source},
	} {
		f := wet(c.spacing, c.mm/1000, c.cover/1000, c.conductivity, c.covering)
		factors, limit := mustFactors(t, f), mustLimit(t, f)
		k := float64(factors.Transmission)
		near(t, "K_H", k, c.k, 0.002*c.k)
		near(t, "q 40/35/20", k*float64(warm), c.q40, 0.002*c.q40)
		near(t, "q 35/30/20", k*float64(mild), c.q35, 0.002*c.q35)
		near(t, "θ_F", FloorSurface(units.Flux(k)*units.Flux(warm), celsius(20)).Celsius(), c.surface, 0.02)
		near(t, "q_G", float64(limit.Curve), c.limit, 0.002*c.limit)
		near(t, "Δθ_H,G", float64(limit.Curve)/k, c.excess, 0.002*c.excess)
		if limit.UpperBound || limit.Flux > FloorFlux(limit.Surface, celsius(20)) {
			t.Errorf("limit %+v passes an evenly warm surface", limit)
		}
		if len(factors.Notes) != 0 {
			t.Errorf("inside the tables, yet: %v", factors.Notes)
		}
	}
}

func TestWetFloorEveryFactorOfTheFirstExample(t *testing.T) {
	f := wet(.15, .016, .045, 1.2, .10)
	g := mustFactors(t, f)
	for _, c := range []struct {
		what      string
		got, want float64
		abs       float64
	}{
		{"a_B", float64(g.Covering), 0.5980, 5e-5}, {"a_T", float64(g.Spacing), 1.156, 1e-9}, {"m_T", float64(g.SpacingExponent), -1, 1e-9},
		{"a_u", float64(g.Cover), 1.035, 1e-9}, {"m_u", float64(g.CoverExponent), 0, 1e-9}, {"a_D", float64(g.Diameter), 1.029, 1e-9},
		{"m_D", float64(g.DiameterExponent), -1, 1e-9}, {"Π", float64(g.Product), 0.50271, 1e-5}, {"B", float64(g.Base), 6.7, 1e-9},
	} {
		near(t, c.what, c.got, c.want, c.abs)
	}
	f.Zone = Edge
	edge := mustLimit(t, f)
	near(t, "q_G edge", float64(edge.Flux), 173.0, 0.3)
	near(t, "Δθ_H,G edge", float64(edge.Excess), 51.36, 0.1)
}

func TestTubeCorrection(t *testing.T) {
	const source = "EN 1264-2 tube correction, worked by hand"
	for _, c := range []struct {
		what                         string
		diameter, wall, conductivity float64
		base, k                      float64
		source                       string
	}{
		{"copper 16×1", .016, .001, 380, 7.225, 3.632, source},
		{"multilayer 16×2", .016, .002, 0.43, 6.792, 3.414, source},
		{"polypropylene 20×2.3", .020, .0023, 0.22, 6.380, 3.301, source},
		{"the standard's own", .016, .002, 0.35, 6.7, 3.3682, source},
	} {
		f := wet(.15, c.diameter, .045, 1.2, .10)
		f.TubeWall, f.TubeConductivity = units.Length(c.wall), units.Conductivity(c.conductivity)
		g := mustFactors(t, f)
		near(t, c.what+" B", float64(g.Base), c.base, 0.002*c.base)
		near(t, c.what+" K_H", float64(g.Transmission), c.k, 0.002*c.k)
	}
}

// Every cell of the limit and factor tables must rise or fall as its physics asks: this
// found the misprint of 51.5 for 41.5.
func TestTablesAreMonotonic(t *testing.T) {
	for name, c := range map[string]struct {
		table       table
		byRow, byCo float64 // +1 rises, −1 falls
	}{
		"A.3 cover factor":        {wetCoverFactor, -1, -1},
		"A.4 diameter factor":     {wetDiameterFactor, 1, -1},
		"A.5 limit":               {wetLimit, -1, 1},
		"A.7 limit exponent":      {wetLimitExponent, 1, -1},
		"A.16 good plates":        {goodPlateFactors, -1, 1},
		"A.18 plate limit":        {plateLimit, 1, -1},
		"A.19 plate limit expon.": {plateLimitExponent, -1, 1},
	} {
		if len(c.table.cells) != len(c.table.rows) {
			t.Fatalf("%s: %d rows for %d nodes", name, len(c.table.cells), len(c.table.rows))
		}
		for i, row := range c.table.cells {
			if len(row) != len(c.table.columns) {
				t.Fatalf("%s row %d: %d cells", name, i, len(row))
			}
			for j := range row {
				if i > 0 && c.byRow*(row[j]-c.table.cells[i-1][j]) < 0 {
					t.Errorf("%s: row %d column %d turns back", name, i, j)
				}
				if j > 0 && c.byCo*(row[j]-row[j-1]) < 0 {
					t.Errorf("%s: row %d column %d turns back", name, i, j)
				}
			}
		}
	}
	for level := range plateFactors {
		if len(plateFactors[level]) != len(plateSpacings) {
			t.Fatalf("plate level %d: %d rows", level, len(plateFactors[level]))
		}
	}
}

// Spot cells of every table, so that a slip in typing shows.
func TestTableCells(t *testing.T) {
	plate := func(spacing, diameter, value float64) float64 {
		f := Floor{Spacing: units.Length(spacing), TubeDiameter: units.Length(diameter)}
		return f.fullPlateFactor(value)
	}
	const iso = "ISO 11855-2:2021 Annex A as transcribed"
	for _, c := range []struct {
		what      string
		got, want float64
		source    string
	}{
		{"A.2 at 0.05", along(coveringNodes, wetSpacingFactor, .05), 1.188, iso},
		{"A.3 0.225/0.10", wetCoverFactor.at(.225, .10), 1.0295, iso},
		{"A.4 0.30/0.05", wetDiameterFactor.at(.30, .05), 1.049, iso},
		{"A.5 0.30/0.0458", wetLimit.at(.30, .0458), 41.5, iso},
		{"A.5 0.15/0.0375", wetLimit.at(.15, .0375), 76.3, iso},
		{"A.7 0.2625/0.0625", wetLimitExponent.at(.2625, .0625), .110, iso},
		{"A.6 0.40", along(coverBySpacing, thickLimit, .40), 84.4, iso},
		{"A.6 beyond 0.75", along(coverBySpacing, thickLimit, .9), 100, iso},
		{"A.8 0.25", along(coverBySpacing, thickLimitExponent, .25), .145, iso},
		{"A.9 0.10", along(plateCoverNodes, plateSpacingFactor, .10), 1.075, iso},
		{"A.10 0.225", along(plateSpacings, coverShare, .225), .43, iso},
		{"A.17 0.30", along(plateSpacings, contactFactor, .30), .82, iso},
		{"A.11 0.15/18", plate(.15, .018, 0), .444, iso},
		{"A.12 0.375/22", plate(.375, .022, .1), .46, iso},
		{"A.13 0.10/16", plate(.10, .016, .2), .821, iso},
		{"A.14 0.20", plate(.20, .016, .3), .80, iso},
		{"A.15 0.05/14", plate(.05, .014, .4), .97, iso},
		{"A.16 0.20/0.5", plate(.20, .016, .5), .894, iso},
		{"A.16 0.20/0.8", plate(.20, .016, .8), .961, iso},
		{"A.16 1.0", plate(.30, .016, 1), 1, iso},
		{"A.16 just over 1.0", plate(.30, .016, 1+1e-9), 1, iso},
		{"A.16 endless", plate(.30, .016, 60), 1.09, iso},
		{"A.18 0.4/0.15", plateLimit.at(.4, .15), 72.9, iso},
		{"A.19 0.4/0.15", plateLimitExponent.at(.4, .15), .044, iso},
	} {
		near(t, c.what, c.got, c.want, 1e-6)
	}
}

func TestBasicCharacteristicAndZoneLimits(t *testing.T) {
	const source = "EN 1264-2 basic characteristic"
	for _, c := range []struct {
		excess, flux, abs float64
		source            string
	}{{5, 52.4, .05, source}, {7, 75.9, .05, source}, {9, 100, .05, source}, {15, 175.4, .05, source}} {
		got := FloorFlux(celsius(20+c.excess), celsius(20))
		near(t, "q", float64(got), c.flux, c.abs)
		near(t, "θ_F back", FloorSurface(got, celsius(20)).Celsius(), 20+c.excess, 1e-9)
	}
	for zone, want := range map[Zone]float64{Occupied: 29, Edge: 35, Bathroom: 33} {
		near(t, string(zone), zone.SurfaceLimit().Celsius(), want, 1e-9)
	}
	if FloorFlux(celsius(15), celsius(20)) != 0 || FloorSurface(-5, celsius(20)) != celsius(20) {
		t.Error("a cold floor must give nothing")
	}
	bath := wet(.15, .016, .045, 1.2, 0)
	bath.Zone = Bathroom
	limit, err := bath.Limit(celsius(24))
	if err != nil {
		t.Fatal(err)
	}
	plain := mustLimit(t, wet(.15, .016, .045, 1.2, 0))
	near(t, "a bathroom at 24 °C has the limit of a room at 20 °C", float64(limit.Flux), float64(plain.Flux), 1e-9)
}

func TestCoveringLimitLowersTheFloor(t *testing.T) {
	f := wet(.15, .016, .045, 1.2, .10)
	free := mustLimit(t, f)
	f.CoveringLimit = celsius(27)
	wood := mustLimit(t, f)
	near(t, "surface", wood.Surface.Celsius(), 27, 1e-9)
	near(t, "share of the flux", float64(wood.Flux/free.Flux), math.Pow(7.0/9, 1.1), 1e-9)
	supply, err := SupplyForExcess(wood.Excess, 5, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	back, _ := LogarithmicExcess(supply, supply-5, celsius(20))
	near(t, "supply has the limit excess", float64(back), float64(wood.Excess), 1e-9)
	if isothermal, _ := SupplyForExcess(wood.Excess, 0, celsius(20)); isothermal != celsius(20).Add(wood.Excess) {
		t.Error("without a drop the supply is room plus excess")
	}
}

func TestWideSpacingAndDeepCover(t *testing.T) {
	at := mustFactors(t, wet(.375, .016, .045, 1.2, .1))
	wide := mustFactors(t, wet(.45, .016, .045, 1.2, .1))
	near(t, "q(0.375)·0.375/T (A.10)", float64(wide.Transmission), float64(at.Transmission)*.375/.45, 1e-9)
	if len(wide.Notes) == 0 {
		t.Error("wide spacing without a note")
	}
	a, b := mustLimit(t, wet(.375, .016, .045, 1.2, .1)), mustLimit(t, wet(.45, .016, .045, 1.2, .1))
	near(t, "q_G beyond 0.375 with f_G = 1 (A.22)", float64(b.Curve), float64(a.Curve)*.375/.45, 1e-9)

	star := mustFactors(t, wet(.15, .016, .100, 1.2, .1))
	deep := mustFactors(t, wet(.15, .016, .160, 1.2, .1))
	near(t, "1/K_H = 1/K_H* + Δs/λ (A.8)", 1/float64(deep.Transmission), 1/float64(star.Transmission)+.06/1.2, 1e-9)
	if len(deep.Notes) == 0 {
		t.Error("deep tube without a note")
	}
}

func TestThickCarpetCarriesOnAlongTheLine(t *testing.T) {
	edge := mustFactors(t, wet(.15, .016, .045, 1.2, .15))
	beyond := mustFactors(t, wet(.15, .016, .045, 1.2, .15001))
	near(t, "no step at 0.15", float64(beyond.Transmission), float64(edge.Transmission), 1e-3)
	thick := mustFactors(t, wet(.15, .016, .045, 1.2, .30))
	near(t, "1/K_H straight in R (A.33)", 1/float64(thick.Transmission), 2/float64(edge.Transmission)-1/5.5396, 1e-3)
	if len(thick.Notes) == 0 {
		t.Error("thick carpet without a note")
	}
}

func TestPlatesFollowTheirLaw(t *testing.T) {
	f := plates()
	f.PlateWidth = f.Spacing
	g := mustFactors(t, f)
	// By hand from the tables: s_u/λ 0.08, K_WL (0.1 + 0.5·0.005)/0.125 = 0.82.
	near(t, "K_WL", float64(g.PlateValue), 0.82, 1e-9)
	near(t, "a_WL", float64(g.Plate), 0.961+0.2*0.019, 1e-9)
	near(t, "a_u", float64(g.Cover), (1/10.8+.045)/(1/10.8+.08), 1e-9)
	inner := float64(g.Cover) * math.Pow(1.082, 1-.2/.075) * float64(g.Plate) * 0.92
	aB := 1 / (1 + 6.5*inner*.05*(1+.44*math.Sqrt(.2)))
	near(t, "K_H", float64(g.Transmission), 6.5*aB*inner, 1e-9)

	narrow := f
	narrow.PlateWidth = 0.1
	n := mustFactors(t, narrow)
	full, bare := float64(g.Plate), .357
	near(t, "a_WL of half-width plates", float64(n.Plate), full-(full-bare)*(1-1.6+.85-.15), 1e-9)
	a, b := mustLimit(t, f), mustLimit(t, narrow)
	near(t, "q_G in proportion to a_WL (A.25)", float64(b.Curve/a.Curve), float64(n.Plate/g.Plate), 1e-9)
}

func TestUnderDeckIsFlaggedAndWeaker(t *testing.T) {
	deck := plates()
	deck.Construction, deck.Cover, deck.Conductivity = UnderDeck, 0.019, 0.13
	with := mustFactors(t, deck)
	deck.PlateThickness = 0
	without := mustFactors(t, deck)
	if with.Transmission >= mustFactors(t, plates()).Transmission || without.Transmission >= with.Transmission {
		t.Errorf("under deck %v, without plates %v: each must be weaker", with.Transmission, without.Transmission)
	}
	if len(with.Notes) == 0 || len(without.Notes) <= len(with.Notes) {
		t.Error("under deck without its notes")
	}
	limit := mustLimit(t, deck)
	if !limit.UpperBound || limit.Note == "" {
		t.Errorf("no limit table covers a deck without plates, yet: %+v", limit)
	}
	near(t, "evenly warm", float64(limit.Flux), float64(FloorFlux(celsius(29), celsius(20))), 1e-9)
}

func TestDownwardLoss(t *testing.T) {
	f := wet(.15, .016, .045, 1.2, .10)
	f.Below = celsius(10)
	// R_o = 1/10.8 + 0.10 + 0.0375 = 0.23009; (0.23009·58.54 + 10)/2
	got, err := f.Downward(58.54, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "q_u (EN 1264-2)", float64(got), 11.735, 0.001)
	rated, err := f.Rate(celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	h := rated.Emitter.Output(celsius(40), 150, celsius(20))
	down, _ := f.Downward(units.Flux(h.Room)/units.Flux(f.Area), celsius(20))
	near(t, "the emitter loses the same", float64(h.Water-h.Room), float64(down)*float64(f.Area), 1e-6)
	f.Below = celsius(50)
	if down, _ := f.Downward(10, celsius(20)); down != 0 {
		t.Errorf("warm space below: %v", down)
	}
}

func TestFloorEmitterFollowsTheCharacteristic(t *testing.T) {
	rated, err := wet(.15, .016, .045, 1.2, .10).Rate(celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	for _, flow := range []units.LossCoefficient{20, 100, 500} {
		h := rated.Emitter.Output(celsius(40), flow, celsius(20))
		m, err := LogarithmicExcess(celsius(40), h.Return, celsius(20))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "q = K_H·Δθ_H·A", float64(h.Room), 3.3682*float64(m)*10, 0.01)
	}
}

func TestFloorRefusesWhatTheStandardDoesNotCover(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Floor)
		says   string
	}{
		"spacing small":     {func(f *Floor) { f.Spacing = 0.04 }, "spacing"},
		"spacing large":     {func(f *Floor) { f.Spacing = 0.7 }, "spacing"},
		"cover":             {func(f *Floor) { f.Cover = 0.005 }, "cover"},
		"tube small":        {func(f *Floor) { f.TubeDiameter = 0.006 }, "tube diameter"},
		"tube large":        {func(f *Floor) { f.TubeDiameter = 0.04 }, "tube diameter"},
		"covering":          {func(f *Floor) { f.Covering = 0.5 }, "covering"},
		"not a number":      {func(f *Floor) { f.Covering = units.Resistance(math.NaN()) }, "covering"},
		"cover too poor":    {func(f *Floor) { f.Cover, f.Conductivity = 0.2, 0.5 }, "over the tube"},
		"conductivity":      {func(f *Floor) { f.Conductivity = 0 }, "conductivity"},
		"area":              {func(f *Floor) { f.Area = 0 }, "area"},
		"down":              {func(f *Floor) { f.Down = 0 }, "downward"},
		"below":             {func(f *Floor) { f.Below = 0 }, "below"},
		"zone":              {func(f *Floor) { f.Zone = "" }, "zone"},
		"construction":      {func(f *Floor) { f.Construction = "ceiling" }, "construction"},
		"half a tube":       {func(f *Floor) { f.TubeWall = 0.002 }, "tube"},
		"tube all wall":     {func(f *Floor) { f.TubeWall, f.TubeConductivity = 0.008, 0.35 }, "wall"},
		"plates in a slab":  {func(f *Floor) { f.PlateThickness = 0.0005 }, "plates"},
		"covering limit":    {func(f *Floor) { f.CoveringLimit = celsius(10) }, "covering limit"},
		"plates forgotten":  {func(f *Floor) { *f = plates(); f.PlateThickness = 0 }, "plate"},
		"plates no width":   {func(f *Floor) { *f = plates(); f.PlateWidth = 0 }, "wide"},
		"plates wide tube":  {func(f *Floor) { *f = plates(); f.TubeDiameter = 0.025 }, "tube diameter"},
		"plates thick deck": {func(f *Floor) { *f = plates(); f.Cover = 0.1 }, "over the tube"},
	} {
		f := wet(.15, .016, .045, 1.2, .10)
		c.change(&f)
		_, err := f.Factors()
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := wet(.15, .016, .045, 1.2, .10).Limit(celsius(30)); err == nil {
		t.Error("a room above the surface limit accepted")
	}
}

// drawFloor is any floor that the checks accept.
func drawFloor(r *rapid.T) Floor {
	f := wet(rapid.Float64Range(.05, .6).Draw(r, "T"), rapid.Float64Range(.008, .03).Draw(r, "D"), rapid.Float64Range(.01, .3).Draw(r, "s_u"), rapid.Float64Range(.5, 2.5).Draw(r, "λ_E"), rapid.Float64Range(0, .4).Draw(r, "R"))
	f.Cover = min(f.Cover, units.Length(thickestCover*float64(f.Conductivity)))
	if rapid.Bool().Draw(r, "plates") {
		f.Construction = DryPlates
		f.Spacing = units.Length(rapid.Float64Range(.05, .45).Draw(r, "T plates"))
		f.TubeDiameter = units.Length(rapid.Float64Range(.014, .022).Draw(r, "D plates"))
		f.Cover = units.Length(rapid.Float64Range(.01, .18).Draw(r, "s_u/λ_E") * float64(f.Conductivity))
		f.PlateThickness = units.Length(rapid.Float64Range(1e-4, .005).Draw(r, "s_WL"))
		f.PlateWidth = units.Length(rapid.Float64Range(.01, 1).Draw(r, "L"))
		f.PlateConductivity = units.Conductivity(rapid.Float64Range(1, 400).Draw(r, "λ_WL"))
	}
	f.Zone = rapid.SampledFrom([]Zone{Occupied, Edge, Bathroom}).Draw(r, "zone")
	return f
}

func TestEveryAcceptedFloorWorks(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		f := drawFloor(r)
		h, err := f.Rate(celsius(20))
		if err != nil {
			r.Fatal(err)
		}
		k, l := float64(h.Factors.Transmission), h.Limit
		if !(k > 0.05 && k < 12) {
			r.Fatalf("K_H %v", k)
		}
		if !(l.Flux > 0 && l.Flux <= FloorFlux(l.Surface, celsius(20)) && l.Curve >= l.Flux && finite(float64(l.Curve), float64(l.Excess))) {
			r.Fatalf("limit %+v", l)
		}
		if err := h.Emitter.Check(); err != nil {
			r.Fatal(err)
		}
		thicker := f
		thicker.Covering = min(thickestCovering, f.Covering+0.02)
		if g := mustFactorsOf(r, thicker); g.Transmission > h.Factors.Transmission+1e-12 {
			r.Fatalf("more covering, yet K_H %v after %v", g.Transmission, k)
		}
	})
}

func mustFactorsOf(r *rapid.T, f Floor) Factors {
	out, err := f.Factors()
	if err != nil {
		r.Fatal(err)
	}
	return out
}
