package settings

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"curvewright/boiler"
	"curvewright/emitter"
	"curvewright/fluid"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/refuse"
	"curvewright/units"
	"curvewright/working"
)

// What does the closed system need to hold its pressure, stay clean and not freeze?

const (
	coldFill = units.Temperature(10 + 273.15) // of water from the main, common practice
	// precharges closer to each other than this are one and the same on a tyre gauge.
	gaugeDoubt = units.Pressure(15e3)
	// A relief valve may weep from a tenth below its setting (common practice).
	weepsFrom = 0.9
	// usualRelief is the highest setting of a relief valve that boilers of houses mostly bear,
	// 50 psi (common practice).
	usualRelief = units.Pressure(3.5e5)
	// leanGlycol is the share below which inhibitors are too thin and germs grow.
	leanGlycol = units.Fraction(0.25)
	// richGlycol is by how much more than needed a share may be before it is a fault.
	richGlycol = units.Fraction(0.08)
	// usualStorey is a clear height with the floor above it.
	usualStorey, floorBuild = units.Length(2.5), units.Length(0.3)
	// quickest is the water's speed for which a tube is taken to price antifreeze.
	quickest = units.Velocity(1.2)
)

const (
	pressureCaution = "Hot water under pressure: open only cold and without pressure. Never plug or cap the relief valve."
	drainCaution    = "Draining and venting hot water scalds: let it cool below 122 °F (50 °C) first."
	fillCaution     = "Fill only through the backflow preventer that local code asks for; leave no fill hose connected."
	glycolCaution   = "Ethylene glycol is poisonous: nowhere near drinking water. Never mix kinds; the maker's sheet outranks."
)

// content is the water of the whole system: as surveyed, else by emitters and load.
func (m *model) content() job.Given[units.Volume] {
	return m.job.System.Content.Or(m.contentByEmitters().Likely)
}

// heats is what an emitter counts as where water is estimated.
func (f feed) heats() pipework.Heats {
	switch f.family {
	case "cast iron":
		return pipework.CastIronSystem
	case "floor":
		return pipework.FloorSystem
	case "fin-tube":
		return pipework.FinTubeSystem
	case "fan coil":
		return pipework.FanCoilSystem
	}
	switch f.radiator {
	case emitter.Column:
		return pipework.ColumnSystem
	case emitter.Convector:
		return pipework.FinTubeSystem
	}
	return pipework.PanelSystem
}

// contentByEmitters adds up the usual water of all emitters with their pipes, by the load
// that each carries, and the boiler's own and the buffer's where they are known.
func (m *model) contentByEmitters() pipework.Content {
	var out pipework.Content
	for i := range m.circuits {
		c := &m.circuits[i]
		for k, r := range c.solve.Rooms {
			load := max(1, r.Load(m.design, r.Setpoint)) / units.Power(len(c.feeds[k]))
			for _, f := range c.feeds[k] {
				part, err := pipework.EstimateContent(f.heats(), load)
				if err != nil {
					continue // a load that no house has
				}
				out.Likely, out.Low, out.High, out.Source = out.Likely+part.Likely, out.Low+part.Low, out.High+part.High, part.Source
			}
		}
	}
	own := m.job.System.BoilerWater.Value + m.job.Separator.Volume.Value
	out.Likely, out.Low, out.High = out.Likely+own, out.Low+own, out.High+own
	return out
}

// antifreeze is what keeps the fill from freezing, as found and as it should be.
type antifreeze struct {
	kind   fluid.Kind
	in     fluid.Mixture // what is in the system; water if its share is not known
	share  units.Fraction
	known  bool // whether the share of what is in is known
	target job.Given[units.Temperature]
	wanted bool // whether there is anything to keep from freezing
	need   pipework.GlycolFill
	least  units.Fraction // by volume, with enough inhibitor, in whole percent
	fill   fluid.Mixture  // what vessel and pressures are reckoned with
}

func (m *model) readAntifreeze() (antifreeze, error) {
	s := m.job.System
	a := antifreeze{kind: fluid.PropyleneGlycol, target: s.FrostTarget, wanted: s.FrostTarget.Set}
	in := s.Antifreeze == "propylene glycol" || s.Antifreeze == "ethylene glycol"
	if s.Antifreeze == "ethylene glycol" {
		a.kind = fluid.EthyleneGlycol
	}
	if in {
		a.fill = m.fluid()
	}
	if in && s.Share.Set {
		a.known, a.share, a.in = true, s.Share.Value, a.fill
	}
	if in && !a.wanted && m.design < units.Celsius(0) {
		// Somebody filled it for a pipe that sees the design day.
		a.target, a.wanted = a.target.Or(max(m.design, units.Celsius(-45))), true
	}
	if !a.wanted {
		return a, nil
	}
	var err error
	if a.need, err = pipework.GlycolFor(a.kind, a.target.Value); err != nil {
		return a, fmt.Errorf("system › frost_target: %w", err)
	}
	a.least = leastGlycol(a.need)
	if !in {
		a.fill, err = fluid.GlycolByVolume(a.kind, a.least)
	}
	return a, err
}

// leastGlycol is a share that stands a frost and keeps its inhibitor, in whole percent.
func leastGlycol(need pipework.GlycolFill) units.Fraction {
	return units.Fraction(math.Ceil(100*float64(max(leanGlycol, need.ByVolume))-1e-6) / 100)
}

// addSystemWater writes the lines of the closed system. Without a word about it in the
// survey there are none.
func (m *model) addSystemWater(s *Sheet, solved []solvedCircuit) error {
	if m.job.System == (job.System{}) {
		return nil
	}
	a, err := m.readAntifreeze()
	if err != nil {
		return err
	}
	lines := []Line{m.contentLine()}
	pressure, err := m.pressureLines(a, solved)
	if err != nil {
		return err
	}
	lines = append(lines, pressure...)
	water, err := m.fillWaterLines(s)
	if err != nil {
		return err
	}
	lines = append(append(lines, water...), m.antifreezeLine(a, solved))
	s.Sections = append(s.Sections, Section{Title: "System water", Part: BoilerRoom, Lines: lines})
	return nil
}

func (m *model) contentLine() Line {
	content, guess := m.content(), m.contentByEmitters()
	l := Line{ID: "content", Label: "Water in the system", Value: m.amount(content.Value),
		Why:     "Vessel, fill water and antifreeze are reckoned from it.",
		TooHigh: "A vessel larger than needed, which does no harm.", TooLow: "A vessel too small and antifreeze thinner than thought."}
	step := working.Step{Name: "Water in the system by its emitters", Formula: "V = Σ load · litres per kilowatt + boiler's own + buffer",
		Result: working.Input{Symbol: "V", Meaning: "water, if nobody measured it", Value: working.Water(guess.Likely)},
		Range:  "fin-tube, convectors, fan coils 6, panels 10, cast iron 14, columns 18, floors 20 L/kW; −40 % to +60 %", Source: guess.Source}
	for i := range m.circuits {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "load", Meaning: m.circuits[i].job.Name, Value: m.circuits[i].load})
	}
	if own := m.job.System.BoilerWater; own.Set {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "boiler", Meaning: "its own water", Value: working.Water(own.Value), Known: string(own.How())})
	}
	if buffer := m.job.Separator.Volume; buffer.Set {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "buffer", Meaning: "its water", Value: working.Water(buffer.Value), Known: string(buffer.How())})
	}
	l.Working = []working.Step{step}
	if !m.job.System.Content.Set {
		l.Why = "Guessed from emitters and load. Read the meter when filling: vessel, fill water and antifreeze hang on it."
		l.Value = m.about(content.Value, false)
		l.Band = Band{Known: true, Low: m.about(guess.Low, false), High: m.about(guess.High, false), Words: "rough"}
		return l
	}
	l.Working = append(l.Working, working.Step{Name: "Water in the system", Formula: "as surveyed",
		Result: working.Input{Symbol: "V", Meaning: "water", Value: working.Water(content.Value), Known: string(content.How())},
		Range:  "any system", Source: "the survey"})
	if content.Value < guess.Low || content.Value > guess.High {
		why := "buffer or old pipes? Else check it."
		if content.Value < guess.Low {
			why = "check it, too little makes the vessel too small."
		}
		l.Why = fmt.Sprintf("Outside the usual %s to %s for these emitters: %s", m.about(guess.Low, false), m.about(guess.High, false), why)
	}
	return l
}

// height is from the vessel to the highest water: as surveyed, else by the storeys.
func (m *model) height() job.Given[units.Length] {
	h := m.job.House
	storeys := h.Storeys
	if storeys == 0 {
		storeys = 2
	}
	if h.Under == "unheated basement" || h.Under == "heated basement" {
		storeys++ // the boiler room below
	}
	return m.job.System.Height.Or(units.Length(storeys) * (h.Height.Or(usualStorey).Value + floorBuild))
}

// relief is where the relief valve opens: as surveyed, else what is usual where the
// survey was written, 30 psi or 3 bar.
func (m *model) relief() job.Given[units.Pressure] {
	if m.job.Display == "si" {
		return m.job.System.Relief.Or(units.Bar(3))
	}
	return m.job.System.Relief.Or(units.PSI(30))
}

// atmosphere is the pressure of the air at the house.
func (m *model) atmosphere() units.Pressure {
	p, err := boiler.AirPressure(max(-500, min(5000, m.job.Site.Elevation.Value)))
	if err != nil {
		return units.Bar(1)
	}
	return p
}

// about prints an amount of water in two figures of the reader's unit; up takes the next
// one, for what must not be less.
func (m *model) about(v units.Volume, up bool) string {
	if up {
		return rounded(v, m.sys, 2, func(x float64) float64 { return math.Ceil(x - 1e-9) })
	}
	return rounded(v, m.sys, 2, math.Round)
}

// rounded prints an amount of water in so many figures of the reader's unit.
func rounded(v units.Volume, sys units.System, figures float64, round func(float64) float64) string {
	unit := units.WaterUnit(sys)
	x := float64(v / unit)
	if x <= 0 {
		return units.Volume(0).WaterText(sys)
	}
	p := math.Pow(10, math.Floor(math.Log10(x))-figures+1)
	return (units.Volume(round(x/p)*p) * unit).WaterText(sys)
}

// amount prints an amount of water that somebody measured or bought, in three figures.
func (m *model) amount(v units.Volume) string { return rounded(v, m.sys, 3, math.Round) }

// onGauge rounds a pressure to set up to what a gauge shows. What follows from it is worked
// out from the rounded one: that is what will be set.
func (m *model) onGauge(p units.Pressure) units.Pressure {
	mark := m.gaugeMark()
	return units.Pressure(math.Ceil(float64(p/mark)-1e-6)) * mark
}

// gaugeMark is from one mark of a gauge to the next.
func (m *model) gaugeMark() units.Pressure {
	if m.sys.In(units.Pressures) == units.US {
		return units.PSI(1)
	}
	return units.Bar(0.1)
}

func (m *model) gauge(p units.Pressure) string { return m.say(m.onGauge(p)) }

// vessel is the expansion vessel with the pressures that go with it.
type vessel struct {
	sized      pipework.Vessel // for the vessel found if it will do, else for the next usual one
	hot        units.Temperature
	heatedBy   string // what may make the water so hot
	height     job.Given[units.Length]
	static     units.Pressure
	relief     job.Given[units.Pressure]
	air        units.Pressure
	ifHotter   units.Volume   // least for the usual highest supply, where the survey gives none; else 0
	acceptance units.Volume   // least by the acceptance volume, 0 if that method does not reach
	precharge  units.Pressure // this and the next on the next mark of the gauge
	fill       units.Pressure // cold
	top        units.Pressure // hot
	bare       bool           // the vessel found takes the swelling but keeps no reserve
	// small: the vessel found does not even take the swelling. The pressures above are then
	// those of a new one; the precharge is the same for both.
	small     bool
	smallHot  units.Pressure // with the one found, filled to its precharge
	smallFull bool           // it is full before that
}

// usualHottest is what boilers can mostly be set to: where the survey does not give the
// highest supply, the sheet says what vessel that would ask for (common practice).
const usualHottest = units.Temperature(80 + 273.15)

// hottestVessel is the hottest water for which vessels are sized by EN 12828.
const hottestVessel = units.Temperature(100 + 273.15)

// hottestWater is the hottest that the boiler may make the system's water, and what lets it:
// the curves, the charging of a tank, or the highest supply that can be set at the boiler.
func (m *model) hottestWater(solved []solvedCircuit) (hot units.Temperature, by string) {
	take := func(t units.Temperature, what string) {
		if t > hot {
			hot, by = t, what
		}
	}
	for i := range m.circuits {
		t := solved[i].maxSet
		if m.circuits[i].kind() == "mixed" {
			t = t.Add(mixedAbove)
		}
		take(t, "highest supply of "+m.circuits[i].job.Name)
	}
	for _, s := range m.streams.states {
		take(s.boiler, "supply that the boiler must send")
	}
	switch hotwater.Arrangement(m.job.HotWater.By) {
	case hotwater.OwnPump, hotwater.ThreeWay:
		take(m.chargeSupply(m.job.HotWater.Setpoint.Or(hotwater.SetPoint).Value), "boiler while the tank is charged")
	}
	if b := m.job.Boiler.MaxSupply; b.Set {
		take(min(b.Value, hottestVessel), "highest supply that can be set at the boiler")
	}
	return hot, by
}

// climb gives the pressure when hot of a vessel with a precharge, filled cold to a
// pressure.
func (v *vessel) climb(volume units.Volume, precharge, fill units.Pressure) (hot units.Pressure, full bool) {
	gas := float64(volume) * float64((precharge+v.air)/(max(fill, precharge)+v.air))
	left := gas - float64(v.sized.Swelling)
	if left <= 0.02*float64(volume) {
		return 0, true
	}
	return units.Pressure(float64(precharge+v.air)*float64(volume)/left) - v.air, false
}

func (m *model) readVessel(a antifreeze, solved []solvedCircuit) (vessel, error) {
	v := vessel{height: m.height(), relief: m.relief(), air: m.atmosphere()}
	v.hot, v.heatedBy = m.hottestWater(solved)
	var err error
	if v.static, err = pipework.StaticPressure(a.fill, v.height.Value, coldFill); err != nil {
		return v, fmt.Errorf("system › height: %w", err)
	}
	in := pipework.VesselInput{Content: m.content().Value, Fill: a.fill, Cold: coldFill, Hot: v.hot, Static: v.static, Relief: v.relief.Value}
	if v.sized, err = pipework.SizeVessel(in); err != nil {
		return v, err
	}
	if hotter := in; !m.job.Boiler.MaxSupply.Set && v.hot < usualHottest-0.5 {
		hotter.Hot = usualHottest
		if sized, err := pipework.SizeVessel(hotter); err == nil {
			v.ifHotter = sized.Least
		}
	}
	v.precharge = m.onGauge(v.sized.Precharge)
	if f, err := pipework.AcceptanceFactor(v.sized.Precharge, weepsFrom*v.relief.Value, max(0.5e5, v.air)); err == nil {
		if v.acceptance, err = pipework.VesselByAcceptance(v.sized.Swelling, f); err != nil {
			v.acceptance = 0
		}
	}
	if in.Chosen = m.job.System.Vessel.Value; in.Chosen > 0 {
		found, err := pipework.SizeVessel(in)
		if err != nil {
			return v, err
		}
		switch bare, full := v.climb(in.Chosen, found.Precharge, found.Precharge); {
		case full || bare > weepsFrom*v.relief.Value:
			v.small = true
		case in.Chosen < found.Least*(1-1e-9):
			v.sized, v.bare = found, true
		default:
			v.sized = found
		}
	}
	// From here on with the pressures as they are printed and will be set.
	v.fill = v.precharge
	if held := v.sized.Held; !v.bare && v.sized.Chosen > held {
		const bar = units.Pressure(1e5)
		v.fill = m.onGauge(units.Pressure(v.sized.Chosen)*(v.precharge+bar)/units.Pressure(v.sized.Chosen-held) - bar)
	}
	v.top, _ = v.climb(v.sized.Chosen, v.precharge, v.fill)
	if below := v.fill - m.gaugeMark(); v.top > v.sized.End && below > v.precharge-1 {
		// A vessel that is just enough: rather a little less reserve than a weeping valve.
		v.fill = below
		v.top, _ = v.climb(v.sized.Chosen, v.precharge, v.fill)
	}
	if v.small {
		v.smallHot, v.smallFull = v.climb(in.Chosen, v.precharge, v.precharge)
		m.vesselTooSmall(&v)
	}
	return v, nil
}

// vesselTooSmall reports a vessel that cannot take the swelling even if it holds no water
// when cold.
func (m *model) vesselTooSmall(v *vessel) {
	found := m.job.System.Vessel.Value
	hot := "it is full before the water is hot"
	if !v.smallFull {
		hot = "hot, the pressure climbs to " + m.say(v.smallHot)
	}
	m.findings = append(m.findings, Finding{Severity: "short", Text: fmt.Sprintf(
		"The expansion vessel of %s is too small for %s of water heated to %s: %s, and the relief valve of %s weeps.",
		m.amount(found), m.about(m.content().Value, false), m.say(v.hot), hot, m.say(v.relief.Value)),
		Cures: []string{fmt.Sprintf("a vessel of at least %s: for the usual %s precharge %s, fill to %s", m.about(v.sized.Least, true),
			m.amount(v.sized.Chosen), m.gauge(v.precharge), m.gauge(v.fill)),
			"a second vessel of " + m.about(v.sized.Least-found, true) + " beside it, with the same precharge"},
		Working: m.vesselWorking(v)})
}

// pressureLines are vessel, precharge and fill pressure. Where they cannot be, a finding
// says why.
func (m *model) pressureLines(a antifreeze, solved []solvedCircuit) ([]Line, error) {
	v, err := m.readVessel(a, solved)
	var refused *refuse.Error
	switch {
	case errors.As(err, &refused):
		m.findings = append(m.findings, Finding{Severity: "stop", Text: fmt.Sprintf(
			"No expansion vessel can be sized: %s is %s; it would have to be %s.", refused.What, refused.Given, refused.Accept),
			Cures: []string{"check height, relief valve and highest supply in the survey", "a relief valve of higher setting, only if every part of the system bears it"}})
		return nil, nil
	case err != nil:
		return nil, fmt.Errorf("system: %w", err)
	}
	if v.relief.Value > usualRelief {
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"The relief valve opens at %s; boilers of houses mostly bear 30 to 50 psi (2.1 to 3.4 bar). One set above the weakest part protects nothing.", m.say(v.relief.Value)),
			Cures: []string{"the highest pressure on the rating plates of boiler, vessel and emitters: the relief valve must not open above the least of them", "a relief valve of 30 psi (2.1 bar) or 3 bar (43.5 psi), as the boiler's maker says"}})
	}
	return []Line{m.vesselLine(&v), m.prechargeLine(&v), m.fillPressureLine(&v)}, nil
}

func (m *model) vesselLine(v *vessel) Line {
	found := m.job.System.Vessel
	l := Line{ID: "vessel", Label: "Expansion vessel", Value: "at least " + m.about(v.sized.Least, true),
		TooHigh: "No harm but its price.", TooLow: "The relief valve weeps when hot; fresh water follows and brings scale and oxygen.",
		Caution: pressureCaution, Working: m.vesselWorking(v)}
	l.Why = fmt.Sprintf("%s of swelling up to %s; the least by EN 12828.", m.about(v.sized.Swelling, true), m.say(v.hot))
	if v.acceptance > 0 {
		l.Why = fmt.Sprintf("%s of swelling up to %s; EN 12828 asks %s, bare acceptance %s.", m.about(v.sized.Swelling, true), m.say(v.hot),
			m.about(v.sized.Least, true), m.about(v.acceptance, true))
	}
	if v.small {
		l.Instead = fmt.Sprintf("The one found, %s, is too small. The precharge on this sheet is right for both, the fill pressure for a new one of %s.",
			m.amount(found.Value), m.amount(v.sized.Chosen))
	}
	if v.ifHotter > 0 && (!found.Set || found.Value < v.ifHotter) {
		l.Instead = strings.TrimSpace(l.Instead + fmt.Sprintf(" Where the boiler can be set to %s it should be %s: say boiler › max_supply.", m.say(usualHottest), m.about(v.ifHotter, true)))
	}
	if !found.Set || v.small {
		return l
	}
	l.Value = m.amount(found.Value) + ", enough"
	if v.bare {
		l.Value = m.amount(found.Value) + ", barely enough"
		f := Finding{Severity: "note", Text: fmt.Sprintf(
			"The expansion vessel of %s takes the swelling only if it holds no water when cold: the first leak lets air in.", m.amount(found.Value)),
			Cures: []string{"a vessel of at least " + m.about(v.sized.Least, true), "a look at the gauge every month until then"}, Working: l.Working}
		if v.top > v.sized.End {
			f.Text += fmt.Sprintf(" Hot, the pressure climbs to %s, too close to the relief valve of %s: it should stay below %s.", m.say(v.top), m.say(v.relief.Value), m.say(v.sized.End))
		}
		m.findings = append(m.findings, f)
	}
	return l
}

func (m *model) prechargeLine(v *vessel) Line {
	found, want := m.job.System.Precharge, v.precharge
	l := Line{ID: "precharge", Label: "Precharge of the vessel", Value: m.gauge(want),
		Why: fmt.Sprintf("%s stand on %s of height, and %s more at the top.",
			m.say(v.static), m.say(v.height.Value), m.say(want-v.static)),
		TooHigh: "The cold vessel holds no water: the pressure drops as it cools and air is drawn in.",
		TooLow:  "The vessel is half full of cold water and has no room for the swelling.",
		Caution: "Check the gas with no water pressure on the vessel, the system cold.",
		Working: []working.Step{m.staticStep(v), {Name: "Precharge", Formula: "p0 = max(static + 0.3 bar, 0.7 bar)",
			Inputs: []working.Input{{Symbol: "static", Meaning: "of the standing water", Value: v.static}},
			Result: working.Input{Symbol: "p0", Meaning: "precharge, gauge, up to its next mark", Value: want},
			Range:  "up to 5 bar static", Source: v.sized.Source}}}
	if !found.Set || math.Abs(float64(found.Value-v.sized.Precharge)) <= float64(gaugeDoubt) {
		return l
	}
	volume, fill, which := v.sized.Chosen, v.fill, "The vessel's precharge"
	if v.small {
		volume, fill, which = m.job.System.Vessel.Value, want, "The found vessel's precharge"
	}
	f := Finding{Severity: "note", Working: l.Working,
		Cures: []string{"let the system cool, take the pressure off the vessel, set its gas to " + m.gauge(want) + ", then fill to " + m.gauge(fill)}}
	if v.small {
		f.Cures[0] = "until the vessel found is replaced: " + f.Cures[0]
		f.Cures = append(f.Cures, fmt.Sprintf("a new vessel of %s gets the same precharge and is filled to %s", m.amount(v.sized.Chosen), m.gauge(v.fill)))
	}
	switch top, full := v.climb(volume, found.Value, fill); {
	case found.Value > want:
		f.Text = fmt.Sprintf("%s of %s is higher than the %s that the height asks: cold, it holds no water, so the pressure falls and air is drawn in.",
			which, m.say(found.Value), m.gauge(want))
	case full || top >= v.relief.Value:
		f.Text = fmt.Sprintf("%s of %s is lower than the %s that the height asks: cold water fills it, and the relief valve opens when hot.",
			which, m.say(found.Value), m.gauge(want))
	default:
		f.Text = fmt.Sprintf("%s of %s is lower than the %s that the height asks: hot, the pressure climbs to %s instead of %s.",
			which, m.say(found.Value), m.gauge(want), m.say(top), m.say(v.top))
	}
	if found.Value < units.Bar(0.2) {
		f.Cures = append(f.Cures, "if water comes out of its gas valve or the pressure does not hold: a new vessel")
	}
	m.findings = append(m.findings, f)
	return l
}

func (m *model) fillPressureLine(v *vessel) Line {
	steps := append(m.vesselWorking(v), working.Step{Name: "Cold fill and hot pressure", Formula: "fill = V · (p0 + 1 bar)/(V − reserve) − 1 bar; hot = (p0 + pa) · V/(V·(p0 + pa)/(fill + pa) − Ve) − pa",
		Inputs: []working.Input{
			{Symbol: "V", Meaning: "vessel", Value: working.Water(v.sized.Chosen), Known: string(m.job.System.Vessel.Or(0).How())},
			{Symbol: "reserve", Meaning: "water held cold, " + string(v.sized.Rule), Value: working.Water(v.sized.Held)},
			{Symbol: "pa", Meaning: "air pressure at this height above the sea", Value: v.air},
			{Symbol: "fill", Meaning: "cold fill, gauge; without a reserve the precharge", Value: v.fill},
		},
		Result: working.Input{Symbol: "hot", Meaning: "hot pressure, gauge", Value: v.top},
		Range:  "gas at one temperature", Source: v.sized.Source + "; Boyle's law"})
	value, why := m.gauge(v.fill), fmt.Sprintf("Hot it climbs to about %s; the relief valve opens at %s.", m.say(v.top), m.say(v.relief.Value))
	if v.small {
		value += " with a new vessel"
		why = fmt.Sprintf("New, %s: %s hot. The one found, filled to %s: %s hot, and the relief valve weeps.",
			m.amount(v.sized.Chosen), m.say(v.top), m.gauge(v.precharge), m.say(v.smallHot))
		if v.smallFull {
			why = fmt.Sprintf("New, %s: %s hot. The one found is full before the water is hot, and the relief valve weeps.",
				m.amount(v.sized.Chosen), m.say(v.top))
		}
	}
	return Line{ID: "fill-pressure", Label: "Fill pressure, cold", Value: value,
		Why:     why,
		TooHigh: "The vessel has no room left: the relief valve weeps when hot.", TooLow: "Air is drawn in at the top, pumps grumble, upper rooms stay cold.",
		Caution: drainCaution, Working: steps}
}

func (m *model) staticStep(v *vessel) working.Step {
	return working.Step{Name: "Pressure of the standing water", Formula: "static = ρ·g·h",
		Inputs: []working.Input{{Symbol: "h", Meaning: "from the vessel to the highest water", Value: v.height.Value, Known: string(v.height.How())}},
		Result: working.Input{Symbol: "static", Meaning: "at the vessel", Value: v.static},
		Range:  "height to 50 m", Source: "hydrostatics"}
}

func (m *model) vesselWorking(v *vessel) []working.Step {
	content := m.content()
	steps := []working.Step{
		{Name: "Swelling of the water", Formula: "Ve = V · (ρ(cold)/ρ(hot) − 1)",
			Inputs: []working.Input{
				{Symbol: "V", Meaning: "water in the system", Value: working.Water(content.Value), Known: string(content.How())},
				{Symbol: "cold", Meaning: "when filled", Value: coldFill, Known: string(job.Assumed)},
				{Symbol: "hot", Meaning: v.heatedBy, Value: v.hot},
				{Symbol: "e", Meaning: "share by which it swells", Value: v.sized.Share},
			},
			Result: working.Input{Symbol: "Ve", Meaning: "swelling", Value: working.Water(v.sized.Swelling)},
			Range:  "to 100 °C", Source: "densities by IAPWS R7-97(2012), with glycol by Melinder 2010"},
		m.staticStep(v),
		{Name: "Least vessel with a reserve", Formula: "V ≥ (Ve + reserve) · (pe + 1 bar)/(pe − p0), pe = relief − 0.5 bar",
			Inputs: []working.Input{
				{Symbol: "p0", Meaning: "precharge, gauge", Value: v.sized.Precharge},
				{Symbol: "relief", Meaning: "setting of the relief valve", Value: v.relief.Value, Known: string(v.relief.How())},
				{Symbol: "pe", Meaning: "highest pressure wanted", Value: v.sized.End},
			},
			Result: working.Input{Symbol: "V", Meaning: "least vessel", Value: working.Water(v.sized.Least)},
			Range:  "to 100 °C; above 5 bar pe = 0.9 · relief", Source: v.sized.Source, Note: "reserve: 0.5 % of the system, 3 litres or " + string(v.sized.Rule)},
	}
	if v.acceptance > 0 {
		steps = append(steps, working.Step{Name: "Least vessel by acceptance volume", Formula: "V = Ve/(1 − (p0 + pa)/(0.9 · relief + pa))",
			Inputs: []working.Input{{Symbol: "pa", Meaning: "air pressure at this height above the sea", Value: v.air}},
			Result: working.Input{Symbol: "V", Meaning: "least vessel, without a reserve", Value: working.Water(v.acceptance)},
			Range:  "filled cold to the precharge", Source: "ASHRAE Handbook HVAC Systems and Equipment, diaphragm tank, from memory; 0.9 common practice"})
	}
	return steps
}

// fillWaterLines say how hard the fill may be and which pH suits the metals.
func (m *model) fillWaterLines(s *Sheet) ([]Line, error) {
	sys := m.job.System
	output := m.job.Boiler.Output.Or(s.Load.Total)
	content := m.content()
	limit, err := pipework.HardnessOf(pipework.VDI2035Of2021, pipework.Plant{Output: output.Value, Content: content.Value, BoilerContent: sys.BoilerWater.Value})
	if err != nil {
		return nil, fmt.Errorf("system › boiler_water: %w", err)
	}
	plant := fmt.Sprintf("for %s on %s", m.about(content.Value, false), m.say(output.Value))
	l := Line{ID: "fill-water", Label: "Hardness of the fill water", Value: "no limit",
		TooHigh: "Scale on the hottest surface: boiling noise, then a cracked exchanger.",
		TooLow:  "Demineralised is mild; merely softened water keeps its salt and its pH climbs.",
		Caution: fillCaution}
	step := working.Step{Name: "Hardness that the fill may have", Formula: "by output of the boiler and litres per kilowatt",
		Inputs: []working.Input{
			{Symbol: "Q", Meaning: "output of the boiler", Value: output.Value, Known: string(output.How())},
			{Symbol: "V", Meaning: "water in the system", Value: working.Water(content.Value), Known: string(content.How())},
			{Symbol: "V/Q", Meaning: "litres per kilowatt", Value: units.Number(math.Round(10*limit.PerPower) / 10)},
		},
		Result: working.Input{Symbol: "limit", Meaning: "highest hardness", Value: limit.Limit},
		Range:  "one boiler; top-up over the life within three contents", Source: limit.Source, Note: limit.Text}
	if limit.None {
		step.Result = working.Input{}
	} else {
		l.Value = "no harder than " + m.hardness(limit.Limit)
	}
	l.Working = []working.Step{step}
	l.Why = fmt.Sprintf("VDI 2035 sheet 1 (2021) %s.", plant)
	if !sys.Hardness.Set {
		l.Why += " Yours is not surveyed: use a test strip."
		return append([]Line{l}, m.acidLines()...), nil
	}
	share := units.Fraction(0)
	if !limit.None {
		if share, err = pipework.TreatedShare(sys.Hardness.Value, limit.Limit); err != nil {
			return nil, fmt.Errorf("system › hardness: %w", err)
		}
		l.Working = append(l.Working, working.Step{Name: "Share of the fill to treat", Formula: "share = (tap − limit)/(tap − 0.1 °dH)",
			Inputs: []working.Input{{Symbol: "tap", Meaning: "hardness of the tap water", Value: sys.Hardness.Value, Known: string(sys.Hardness.How())}},
			Result: working.Input{Symbol: "share", Meaning: "to demineralise", Value: share},
			Range:  "none if the tap is soft enough", Source: "mixing balance"})
	}
	if share <= 0 {
		l.Why += fmt.Sprintf(" Yours has %s: fill untreated.", m.hardness(sys.Hardness.Value))
		return append([]Line{l}, m.acidLines()...), nil
	}
	percent := math.Min(100, math.Ceil(100*float64(share)-1e-9))
	l.Why = fmt.Sprintf("VDI 2035 sheet 1 (2021). Yours has %s: demineralise %.0f %% of the fill.", m.hardness(sys.Hardness.Value), percent)
	cures := []string{fmt.Sprintf("demineralise %.0f %% of the fill, about %s, and mix", percent, m.about(content.Value*units.Volume(percent/100), true))}
	if m.fill.Mass > 0 {
		// The hardness is that of the water alone, and suppliers ask for none in the mix.
		l.Why = fmt.Sprintf("VDI 2035 sheet 1 (2021). Yours has %s: mix the antifreeze with demineralised water.", m.hardness(sys.Hardness.Value))
		cures = []string{"demineralised water for all that is mixed with the antifreeze, as its suppliers ask"}
	} else if sys.Aluminium != "yes" {
		cures = append(cures, "soften it, if the boiler's maker allows softened water")
	}
	m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
		"The fill water of %s is too hard: VDI 2035 sheet 1 (2021) allows %s %s. Scale would settle on the boiler's exchanger.",
		m.hardness(sys.Hardness.Value), m.hardness(limit.Limit), plant), Cures: cures, Working: l.Working})
	return append([]Line{l}, m.acidLines()...), nil
}

// hardness prints as test strips do.
func (m *model) hardness(h units.Hardness) string {
	if m.sys.In(units.Hardnesses) == units.US || m.sys.Chosen(units.Hardnesses) != "" {
		return h.Text(m.sys)
	}
	return fmt.Sprintf("%.3g\u00a0°dH (%s)", h.GermanDegrees(), h.Text(m.sys))
}

// acidLines give the pH where the survey says what the exchanger is made of.
func (m *model) acidLines() []Line {
	l := Line{ID: "water-ph", Label: "pH of the heating water", Value: "8.2 to 10.0",
		Why:     "Measure eight to twelve weeks after filling, then every year; the maker's band comes first.",
		TooHigh: "Attacks brass and, above all, aluminium.", TooLow: "Steel rusts and the water turns black.",
		Working: []working.Step{{Name: "pH", Formula: "8.2 to 10.0; with aluminium 8.2 to 8.5", Range: "eight to twelve weeks after filling, at 25 °C",
			Source: "VDI 2035 sheet 2 as quoted (with aluminium to 8.5); its 2021 edition (8.2 to 9.0 with aluminium) and BS 7593:2019 (7.0 to 8.5), both from memory"}}}
	switch m.job.System.Aluminium {
	case "yes":
		l.Value = "8.2 to 8.5"
		l.Why = "Aluminium: the band on which all guides agree. No softened water; measure 8 to 12 weeks after filling."
	case "no":
	default:
		return nil
	}
	return []Line{l}
}

func (m *model) antifreezeLine(a antifreeze, solved []solvedCircuit) Line {
	l := Line{ID: "antifreeze", Label: "Antifreeze", Value: "none", Why: "The survey names no antifreeze and no frost target; water freezes at " + m.say(units.Celsius(0)) + ".",
		TooHigh: "Thick in the pump: less flow, less heat, more current.", TooLow: "Ice in the coldest pipe; under 25 % the inhibitor is too thin and germs grow.",
		Working: practice("Antifreeze", "water alone where nothing can freeze")}
	s := m.job.System
	in := s.Antifreeze == "propylene glycol" || s.Antifreeze == "ethylene glycol"
	if !in && !a.wanted {
		if m.job.Frost.Glycol == "yes" {
			l.Value, l.Why = "not known", "The survey says glycol, but not which and how much: measure with a refractometer."
			l.Caution = glycolCaution
		}
		return l
	}
	l.Caution = glycolCaution
	l.Working = m.antifreezeWorking(a)
	switch {
	case a.known:
		l.Value = fmt.Sprintf("%s %s by volume", a.kind, m.say(a.share))
		l.Why = fmt.Sprintf("Freezes at %s.", m.say(m.freezes(a.in)))
		if a.wanted {
			l.Why = fmt.Sprintf("Freezes at %s; %s asks for %s.", m.say(m.freezes(a.in)), m.say(a.target.Value), m.say(a.least))
		}
		m.judgeAntifreeze(a, l.Working)
	case in:
		l.Value = fmt.Sprintf("%s, share not known", a.kind)
		l.Why = "Measure it with a refractometer."
		if a.wanted {
			l.Why = fmt.Sprintf("Measure it with a refractometer; %s asks for %s by volume.", m.say(a.target.Value), m.say(a.least))
		}
	default:
		l.Value = fmt.Sprintf("%s %s by volume", a.kind, m.say(a.least))
		l.Why = fmt.Sprintf("None is in; the least that keeps from freezing at %s.", m.say(a.target.Value))
	}
	if words, step, ok := m.priceAntifreeze(a.fill, solved); ok && (a.known || !in) {
		l.Why += " " + words
		l.Working = append(l.Working, step)
	}
	return l
}

func (m *model) freezes(x fluid.Mixture) units.Temperature {
	t, err := x.FreezePoint()
	if err != nil {
		return units.Celsius(0)
	}
	return t
}

func (m *model) antifreezeWorking(a antifreeze) []working.Step {
	const source = "freezing points of Melinder 2010; pure glycol, the supplier's table outranks"
	var steps []working.Step
	if a.known {
		steps = append(steps, working.Step{Name: "Freezing point of what is in", Formula: "Tf = Σ c·(x − xb)^j, x by mass from the share by volume",
			Inputs: []working.Input{{Symbol: "φ", Meaning: a.kind.String() + " by volume", Value: a.share, Known: string(m.job.System.Share.How())}},
			Result: working.Input{Symbol: "Tf", Meaning: "first ice; the burst point lies lower", Value: m.freezes(a.in)},
			Range:  "to 60 % by mass", Source: source})
	}
	if a.wanted {
		steps = append(steps, working.Step{Name: "Antifreeze that the frost asks for", Formula: "Tf(φ) = target, at least 25 %, in whole percent",
			Inputs: []working.Input{{Symbol: "target", Meaning: "coldest that the fill should stand", Value: a.target.Value, Known: string(a.target.How())}},
			Result: working.Input{Symbol: "φ", Meaning: a.kind.String() + " by volume", Value: a.least},
			Range:  "0 to −48 °C", Source: source + "; 25 % common practice"})
	}
	if len(steps) == 0 {
		return practice("Antifreeze", "kind and share by refractometer")
	}
	return steps
}

// judgeAntifreeze holds what is in against what the frost asks.
func (m *model) judgeAntifreeze(a antifreeze, steps []working.Step) {
	content := m.content().Value
	// swap is what must be drained and replaced to bring a share to another: by pure
	// glycol to raise it, by water to lower it.
	swap := func(to units.Fraction) string {
		part := (a.share - to) / a.share
		if to > a.share {
			part = (to - a.share) / (1 - a.share)
		}
		return m.about(content*units.Volume(part), true)
	}
	least := max(a.least, leanGlycol)
	f := Finding{Severity: "note", Working: steps}
	thin := a.wanted && m.freezes(a.in) > a.target.Value.Add(0.5)
	switch {
	case thin && len(m.job.Frost.PipesOutside) > 0 && m.freezes(a.in) > m.design:
		return // frost protection says it, with the pipes by name
	case thin:
		f.Text = fmt.Sprintf("The antifreeze is too thin: %s of %s freezes at %s, not at %s.", m.say(a.share), a.kind, m.say(m.freezes(a.in)), m.say(a.target.Value))
		if a.target.Known == job.Assumed {
			f.Text += " The target is taken from the design day."
		}
	case a.share < leanGlycol:
		f.Text = fmt.Sprintf("The antifreeze is too thin: under %s its inhibitor no longer protects the metal and germs grow.", m.say(leanGlycol))
	case a.wanted && a.share > least+richGlycol:
		f.Text = fmt.Sprintf("The antifreeze is thicker than needed: %s where %s keep from freezing at %s. Each percent costs flow and heat.", m.say(a.share), m.say(least), m.say(a.target.Value))
		f.Cures = []string{fmt.Sprintf("drain %s and refill with water to come to %s, if the supplier's inhibitor bears it", swap(least), m.say(least))}
		m.findings = append(m.findings, f)
		return
	default:
		return
	}
	f.Cures = []string{fmt.Sprintf("drain %s and refill with the same %s to come to %s", swap(least), a.kind, m.say(least))}
	if a.share < leanGlycol && !m.job.System.FrostTarget.Set {
		f.Cures = append(f.Cures, "flush it out and run on water, if nothing can freeze")
	}
	m.findings = append(m.findings, f)
}

// priceAntifreeze says what a fill costs against water: flow and pressure for the same
// heat, heat for the same flow. It looks at the circuit with the largest load.
func (m *model) priceAntifreeze(fill fluid.Mixture, solved []solvedCircuit) (string, working.Step, bool) {
	if fill.Mass == 0 {
		return "", working.Step{}, false
	}
	ci := 0
	for i := range m.circuits {
		if m.circuits[i].load > m.circuits[ci].load {
			ci = i
		}
	}
	c, p := &m.circuits[ci], solved[ci].out.Points[0]
	at := (p.Set + p.Return) / 2
	price, tube, err := glycolPrice(fill, c.taken, c.drop, at)
	if err != nil {
		return "", working.Step{}, false
	}
	kept := c.keeps(fill, p.Set, at)
	flow, pressure := 100*(float64(price.FlowRatio)-1), 100*(float64(price.PressureRatio)-1)
	words := fmt.Sprintf("Costs %.0f %% flow and %.0f %% pressure, or %.0f %% heat.", flow, pressure, 100*(1-float64(kept)))
	return words, working.Step{Name: "What antifreeze costs on " + c.job.Name, Formula: "V̇ = Q/(ρ·cp·ΔT); Δp = f · L/D · ρ·v²/2; heat with the flow of water: Σ output(Ts, C · ρcp/ρcp,water)",
		Inputs: []working.Input{
			{Symbol: "Q", Meaning: "load", Value: c.load},
			{Symbol: "ΔT", Meaning: "drop", Value: c.drop, Known: string(c.flowHow)},
			{Symbol: "T", Meaning: "mean water on the design day", Value: at},
			{Symbol: "V̇/V̇w", Meaning: "flow against water, same heat", Value: price.FlowRatio},
			{Symbol: "Δp/Δpw", Meaning: "pressure against water, same heat", Value: price.PressureRatio},
		},
		Result: working.Input{Symbol: "Q/Qw", Meaning: "heat against water, same flow and supply", Value: kept},
		Range:  "straight " + tube + "; a thicker film inside the emitters is not counted", Source: "properties by Melinder 2010; Darcy–Weisbach with Colebrook 1939"}, true
}

// glycolPrice prices a fill in the copper tube that one would take for the flow.
func glycolPrice(fill fluid.Mixture, heat units.Power, drop units.Difference, at units.Temperature) (pipework.Price, string, error) {
	flow, err := fluid.Water().FlowFor(heat, drop, at)
	if err != nil {
		return pipework.Price{}, "", err
	}
	var tube pipework.Pipe
	for _, t := range pipework.Tables() {
		if t.Standard != pipework.CopperL {
			continue
		}
		for _, p := range t.Pipes {
			if tube = p; p.Velocity(flow) <= quickest {
				break
			}
		}
	}
	price, err := pipework.GlycolCost(fill, heat, drop, at, pipework.Run{Pipe: tube, Length: 10})
	return price, tube.String(), err
}

// keeps is the share of its heat that a circuit gives with a fill in place of water, at
// the same flow and supply.
func (c *circuit) keeps(fill fluid.Mixture, supply, at units.Temperature) units.Fraction {
	with, err := fill.HeatFactor(at)
	if err != nil {
		return 1
	}
	plain, err := fluid.Water().HeatFactor(at)
	if err != nil {
		return 1
	}
	heat := func(factor units.LossCoefficient) (sum units.Power) {
		for _, r := range c.solve.Rooms {
			for k, e := range r.Emitters {
				sum += e.Output(supply, r.Flows[k]*factor, r.Setpoint).Room
			}
		}
		return sum
	}
	before := heat(1)
	if before <= 0 {
		return 1
	}
	return units.Fraction(heat(units.LossCoefficient(with/plain)) / before)
}
