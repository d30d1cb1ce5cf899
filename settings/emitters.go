package settings

import (
	"fmt"
	"math"
	"strings"

	"curvewright/emitter"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// feed is one emitter on its circuit.
type feed struct {
	room    int
	emitter emitter.Emitter
	count   int
	words   string
	family  string // "fin-tube", "cast iron", "radiators", "towel rail", "floor", "fan coil"
	// radiator is the kind of a radiator or towel rail, for the water in it.
	radiator emitter.RadiatorKind
	doubt    float64
	fan      units.Power // electricity of a fan coil
	carries  job.Given[units.Fraction]
	floor    *emitter.HeatedFloor
	survey   *emitter.Floor // the floor as surveyed, to try other coverings on it
	laid     job.Floor      // the same in the document, for its loops
	working  working.Step
}

// usualDrop is supply minus return on the design day where neither drop nor flow is
// given: common practice.
func (f feed) usualDrop() units.Difference {
	if f.family == "floor" {
		return units.FahrenheitDifference(10)
	}
	return units.FahrenheitDifference(20)
}

// probe is a supply temperature at which outputs of unlike emitters are compared to
// share a room's load between two circuits or a flow between branches.
func (f feed) probe() units.Temperature {
	if f.family == "floor" {
		return units.Celsius(40)
	}
	return units.Celsius(65)
}

// readEmitter makes an emitter from its survey. load is what the room needs of it,
// used only where its size is not known.
func (m *model) readEmitter(e job.Emitter, r *room, load units.Power) (feed, error) {
	f := feed{count: max(1, e.Count), carries: e.Carries}
	var law emitter.PowerLaw
	var err error
	switch {
	case e.FinTube != nil:
		law, err = m.finTube(*e.FinTube, &f)
	case e.CastIron != nil:
		c := *e.CastIron
		f.family, f.doubt = "cast iron", outputDoubt[c.EDR.How()]
		f.words = "cast iron, " + m.say(c.EDR.Value)
		law, err = emitter.CastIron(c.EDR.Value)
		f.working = working.Step{Name: "Output of the cast-iron radiator", Formula: "Q = 240 Btu/h · EDR · (ΔT / 145 °F)^1.3",
			Inputs: []working.Input{{Symbol: "EDR", Meaning: "rating", Value: c.EDR.Value, Known: string(c.EDR.How())}},
			Range:  "average water 110 to 215 °F",
			Source: "definition of EDR (240 Btu/h at 215 °F in a 70 °F room); exponent 1.3, EN 442 handbooks from memory"}
	case e.Radiator != nil:
		law, err = m.radiator(*e.Radiator, emitter.RadiatorKind(e.Radiator.Kind), "radiators", &f)
	case e.TowelRail != nil:
		law, err = m.radiator(*e.TowelRail, emitter.TowelBars, "towel rail", &f)
	case e.Floor != nil:
		return m.floor(*e.Floor, r, f)
	case e.FanCoil != nil:
		return m.fanCoil(*e.FanCoil, f)
	case e.Sized != nil:
		law, err = m.sized(*e.Sized, r, load, &f)
	default:
		return f, fmt.Errorf("the emitter %q says of no kind what it is; give one of fin_tube, cast_iron, radiator, towel_rail, floor, fan_coil, sized", e.Name)
	}
	if err != nil {
		return f, err
	}
	law.Coefficient *= float64(f.count)
	f.emitter = law
	if f.count > 1 {
		f.words = fmt.Sprintf("%d × %s", f.count, f.words)
	}
	f.working.Result = working.Input{Symbol: "Q", Meaning: "output at 50 K above the air", Value: law.AtExcess(50, 500)}
	return f, nil
}

func (m *model) finTube(t job.FinTube, f *feed) (emitter.PowerLaw, error) {
	output := t.Output.Or(units.BtuPerHourFoot(560))
	at := t.At.Or(units.Fahrenheit(180))
	flow := t.RatedFlow.Or(units.GallonsPerMinute(1))
	offset := t.EnteringOffset.Or(emitter.FinTubeAirOffset)
	f.family, f.doubt = "fin-tube", math.Hypot(outputDoubt[t.Length.How()]/2, outputDoubt[output.How()])
	f.words = m.say(t.Length.Value) + " of fin-tube"
	f.working = working.Step{Name: "Output of the fin-tube", Formula: "Q = L · q / 1.15 · (ΔT / ΔT_rated)^1.4172 · (flow / flow_rated)^0.04",
		Inputs: []working.Input{
			{Symbol: "L", Meaning: "finned length", Value: t.Length.Value, Known: string(t.Length.How())},
			{Symbol: "q", Meaning: "rated output per length", Value: output.Value, Known: string(output.How())},
			{Symbol: "t", Meaning: "average water of the rating, air 65 °F", Value: at.Value, Known: string(at.How())},
			{Symbol: "flow_rated", Meaning: "flow of the rating", Value: flow.Value, Known: string(flow.How())},
			{Symbol: "δ", Meaning: "entering air below the room", Value: offset.Value, Known: string(offset.How())},
		},
		Range: "average water 100 to 240 °F", Source: "output law of a hydronics textbook, from memory; 15 % heating-effect allowance per ASHRAE Handbook, HVAC Systems and Equipment 2016, p. 36.3"}
	if t.HeatingEffect == "not included" {
		f.working.Formula = strings.Replace(f.working.Formula, " / 1.15", "", 1)
	}
	return emitter.FinTube(emitter.FinTubeRating{Length: t.Length.Value, Output: output.Value, AverageWater: at.Value,
		Flow: flow.Value, IncludesAllowance: t.HeatingEffect != "not included"}, offset.Value)
}

func (m *model) radiator(t job.Radiator, kind emitter.RadiatorKind, family string, f *feed) (emitter.PowerLaw, error) {
	if kind == "" {
		kind = emitter.Panel
	}
	n := t.Exponent.Or(kind.Exponent())
	excess, output := t.RatedExcess(), t.Rated()
	f.family, f.radiator, f.doubt = family, kind, outputDoubt[output.How()]
	f.words = fmt.Sprintf("%s of %s at ΔT %.0f K", string(kind), m.say(output.Value), float64(excess.Value))
	if family != "towel rail" && kind == emitter.Panel {
		f.words = "panel radiator" + strings.TrimPrefix(f.words, "panel")
	}
	f.working = working.Step{Name: "Output of the radiator", Formula: "Q = Q_rated · (ΔT_log / ΔT_log,rated)^n",
		Inputs: []working.Input{
			{Symbol: "Q_rated", Meaning: "rated output", Value: output.Value, Known: string(output.How())},
			{Symbol: "ΔT", Meaning: "excess temperature of the rating", Value: excess.Value, Known: string(excess.How())},
			{Symbol: "n", Meaning: "exponent", Value: n.Value, Known: string(n.How())},
		},
		Range: "excess 10 to 60 K", Source: "EN 442-2 characteristic equation"}
	rest := f.working.Inputs[1:]
	switch {
	case t.Output.Set:
	case t.PerLength.Set:
		f.working.Formula = "Q = q · L · (ΔT_log / ΔT_log,rated)^n"
		f.working.Inputs = append([]working.Input{{Symbol: "q", Meaning: "rated output per length", Value: t.PerLength.Value, Known: string(t.PerLength.How())},
			{Symbol: "L", Meaning: "length of the radiator", Value: t.Length.Value, Known: string(t.Length.How())}}, rest...)
	case t.PerSection.Set:
		f.working.Formula = "Q = N · q · (ΔT_log / ΔT_log,rated)^n"
		f.working.Inputs = append([]working.Input{{Symbol: "N", Meaning: "sections of the radiator", Value: units.Number(t.Sections)},
			{Symbol: "q", Meaning: "rated output of a section", Value: t.PerSection.Value, Known: string(t.PerSection.How())}}, rest...)
	}
	return emitter.Radiator(output.Value, emitter.RatedAtExcess(excess.Value), n.Value)
}

// fanShare is the electricity of a fan coil's fan for its output where nobody read its
// plate: 15 W for each kilowatt (common practice).
const fanShare = 0.015

func (m *model) fanCoil(t job.FanCoil, f feed) (feed, error) {
	c, err := emitter.NewCoil(emitter.CoilRating{Output: t.Output.Value * units.Power(f.count), EnteringWater: t.EnteringWater.Value,
		EnteringAir: t.EnteringAir.Value, WaterFlow: t.WaterFlow.Value * units.Flow(f.count), AirFlow: t.AirFlow.Value * units.Flow(f.count)})
	f.emitter, f.family, f.doubt = c, "fan coil", outputDoubt[t.Output.How()]
	f.fan = t.Fan.Or(t.Output.Value*fanShare).Value * units.Power(f.count)
	f.words = "fan coil, " + m.say(t.Output.Value) + " rated"
	f.working = working.Step{Name: "Output of the fan coil", Formula: "Q = ε · Cmin · (t_water − t_air), ε from UA of the rated point",
		Inputs: []working.Input{
			{Symbol: "Q_rated", Meaning: "rated output", Value: t.Output.Value, Known: string(t.Output.How())},
			{Symbol: "t_water", Meaning: "entering water of the rating", Value: t.EnteringWater.Value},
			{Symbol: "t_air", Meaning: "entering air of the rating", Value: t.EnteringAir.Value},
		},
		Result: working.Input{Symbol: "Q", Meaning: "rated output", Value: t.Output.Value},
		Range:  "the fan speed of the rating", Source: "effectiveness and transfer units, crossflow; heat-transfer textbooks"}
	return f, err
}

// tubes are conductivities of tube materials, EN 1264-2 annex, from memory.
var tubes = map[string]units.Conductivity{"pex": 0.35, "pe-rt": 0.35, "multilayer": 0.43, "copper": 380, "pp": 0.22}

// coverings are the limit and the usual resistance of floor coverings: common
// practice, wood 27 °C by flooring makers' guides; the maker's own limit outranks it.
var coverings = map[string]struct {
	resistance units.Resistance
	limit      units.Temperature
}{
	"bare": {0, 0}, "tile": {0.012, 0}, "vinyl": {0.025, units.Celsius(27)},
	"wood": {0.11, units.Celsius(27)}, "laminate": {0.08, units.Celsius(27)}, "carpet": {0.15, 0},
}

func (m *model) floor(t job.Floor, r *room, f feed) (feed, error) {
	kind := coverings[t.CoveringKind]
	covering := t.Covering.Or(kind.resistance)
	s := emitter.Floor{Area: t.Area.Value * units.Area(f.count), Spacing: t.Spacing.Or(0.20).Value,
		Covering: covering.Value, TubeDiameter: t.Tube.Or(0.016).Value, TubeWall: t.Wall.Or(0.002).Value,
		TubeConductivity: 0.35, Zone: emitter.Zone(t.Zone), CoveringLimit: kind.limit,
		Down: t.Under.Or(1.25).Value + 0.17, Below: t.Below.Or(m.annual).Value}
	if t.Sold != "" {
		pipe, err := t.SoldTube()
		if err != nil {
			return f, err
		}
		s.TubeDiameter, s.TubeWall = pipe.Outside, pipe.Wall
	} else {
		m.tubeFinding(t.Tube)
	}
	if c, ok := tubes[t.Material]; ok {
		s.TubeConductivity = c
	}
	if s.Zone == "" {
		s.Zone = emitter.Occupied
		if r.wet {
			s.Zone = emitter.Bathroom
		}
	}
	switch t.Construction {
	case "wet slab":
		s.Construction = emitter.WetSlab
		s.Cover, s.Conductivity = t.Cover.Or(0.045).Value, t.Conductivity.Or(1.2).Value
	case "dry plates":
		s.Construction = emitter.DryPlates
		s.Cover, s.Conductivity = t.Cover.Or(0.025).Value, t.Conductivity.Or(0.28).Value
	default:
		s.Construction = emitter.UnderDeck
		s.Cover, s.Conductivity = t.Cover.Or(0.019).Value, t.Conductivity.Or(0.13).Value
	}
	if t.Construction == "dry plates" || t.Construction == "under deck with plates" {
		s.PlateThickness, s.PlateWidth, s.PlateConductivity = 0.0005, s.Spacing*0.8, 200
	}
	f.family, f.survey, f.laid = "floor", &s, t
	f.doubt = math.Hypot(outputDoubt[covering.How()], 0.05)
	f.words = fmt.Sprintf("heated floor, %s, %s, tube at %s", m.say(s.Area), t.Construction, m.say(s.Spacing))
	h, err := s.Rate(r.setpoint)
	if err != nil {
		return f, err
	}
	f.floor, f.emitter = &h, h.Emitter
	f.working = working.Step{Name: "Output of the heated floor of " + r.name, Formula: "q = K_H · Δθ_H, K_H = B · a_B · a_T^mT · a_u^mu · a_D^mD",
		Inputs: []working.Input{
			{Symbol: "B", Meaning: "with this tube", Value: h.Factors.Base},
			{Symbol: "D", Meaning: m.tubeWords(s.TubeDiameter), Value: s.TubeDiameter, Known: string(tubeKnown(t))},
			{Symbol: "T", Meaning: "tube spacing", Value: s.Spacing, Known: string(t.Spacing.Or(0).How())},
			{Symbol: "s_u", Meaning: "cover over the tube", Value: s.Cover, Known: string(t.Cover.Or(0).How())},
			{Symbol: "λ_E", Meaning: "conductivity of the cover", Value: s.Conductivity, Known: string(t.Conductivity.Or(0).How())},
			{Symbol: "R_λB", Meaning: "covering", Value: covering.Value, Known: string(covering.How())},
			{Symbol: "a_B", Meaning: "covering factor", Value: h.Factors.Covering},
			{Symbol: "a_T", Meaning: "spacing factor", Value: h.Factors.Spacing},
		},
		Result: working.Input{Symbol: "K_H", Meaning: "heat per area and kelvin of mean water above the room", Value: h.Factors.Transmission},
		Range:  "EN 1264-2 table limits; R_λB up to 0.15 m²K/W", Source: "EN 1264-2 / ISO 11855-2 Annex A",
		Note: strings.Join(h.Factors.Notes, " ")}
	return f, nil
}

// usuals are the supply temperatures for which emitters of unknown size were
// probably chosen: common practice. Old cast iron was sized for a leakier house and
// is mostly generous.
var usuals = map[string]struct {
	family string
	supply units.Temperature
	drop   units.Difference
	n      units.Number
}{
	"fin-tube":        {"fin-tube", units.Fahrenheit(180), units.FahrenheitDifference(20), 1.4172},
	"cast-iron":       {"cast iron", units.Fahrenheit(160), units.FahrenheitDifference(20), 1.3},
	"panel radiators": {"radiators", units.Celsius(70), 15, 1.3},
	"heated slab":     {"floor", units.Celsius(45), units.FahrenheitDifference(10), 1},
	"fan coil":        {"fan coil", units.Celsius(60), 10, 1},
}

func (m *model) sized(t job.Sized, r *room, load units.Power, f *feed) (emitter.PowerLaw, error) {
	u, ok := usuals[t.Like]
	if !ok {
		return emitter.PowerLaw{}, fmt.Errorf("emitters sized like %q are not known", t.Like)
	}
	supply := t.Supply.Or(u.supply)
	f.family, f.doubt = u.family, outputDoubt[job.Assumed]
	f.words = fmt.Sprintf("%s of unknown size, taken as chosen for %s", t.Like, m.say(supply.Value))
	excess, err := emitter.LogarithmicExcess(supply.Value, supply.Value.Add(-u.drop), r.setpoint)
	if err != nil {
		return emitter.PowerLaw{}, fmt.Errorf("sized for a supply of %s with a drop of %s: %w", m.say(supply.Value), m.say(u.drop), err)
	}
	f.working = working.Step{Name: "Output of emitters of unknown size", Formula: "Q = Q_design · (ΔT_log / ΔT_log,design)^n",
		Inputs: []working.Input{
			{Symbol: "Q_design", Meaning: "load that they were chosen for", Value: load},
			{Symbol: "Ts", Meaning: "supply that they were chosen for", Value: supply.Value, Known: string(supply.How())},
			{Symbol: "n", Meaning: "exponent", Value: u.n},
		},
		Range: "a guess until somebody measures them", Source: "common practice"}
	return emitter.PowerLaw{Coefficient: float64(load) / math.Pow(float64(excess), float64(u.n)), Exponent: u.n}, nil
}

// coveringCure finds the covering resistance with which a floor would give the heat q
// at a supply temperature, if any would.
func (f feed) coveringCure(q units.Power, supply units.Temperature, flow units.LossCoefficient, inside units.Temperature) (units.Resistance, bool) {
	if f.survey == nil {
		return 0, false
	}
	enough := func(r float64) bool {
		s := *f.survey
		s.Covering = units.Resistance(r)
		h, err := s.Rate(inside)
		return err == nil && h.Emitter.Output(supply, flow, inside).Room >= q && q <= units.Power(h.Limit.Flux)*units.Power(s.Area)
	}
	if !enough(0) {
		return 0, false
	}
	lo, hi := 0.0, float64(f.survey.Covering)
	for range 30 {
		if mid := (lo + hi) / 2; enough(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return units.Resistance(math.Floor(lo*100) / 100), true
}
