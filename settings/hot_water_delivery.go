package settings

import (
	"fmt"
	"math"

	"curvewright/fluid"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// What do tank, coil, combi and circulation give, and what does the house lose while
// they take the boiler?

// Usual figures of a circulation loop that nobody measured (common practice), and by
// how much a pause may cool the rooms before it is told.
const (
	usualLoop      = units.Length(30)
	usualLoopTube  = units.Length(0.0222) // 7/8 in outside
	usualLoopCover = units.Length(0.013)  // half an inch of foam
	loopFoam       = units.Conductivity(0.040)
	feltDrop       = units.Difference(0.6)
)

// shortShare is the part of a day's water that may come cooler than wanted before the
// sheet speaks of it, the others the part of its heat that may be missing before it is a
// finding (common practice).
const (
	shortShare  = 0.02
	tankMisses  = 0.01
	combiMisses = 0.05
)

func (m *model) deliveryLines(h *hotWater) ([]Line, error) {
	if err := m.readPattern(h); err != nil {
		return nil, err
	}
	if h.by == hotwater.Combi {
		return m.combiLines(h)
	}
	lines, err := m.tankLines(h)
	if err != nil {
		return nil, err
	}
	timeline, err := h.pattern.Timeline()
	if err != nil {
		return nil, err
	}
	setup := h.setup()
	if h.day, err = hotwater.TankDay(timeline, setup); err != nil {
		return nil, err
	}
	lines = append(lines, m.dayLine(h))
	if h.waits {
		m.pauses = h.day.Interrupted
		pause, err := m.pauseLine(h, h.day.Longest)
		if err != nil {
			return nil, err
		}
		lines = append(lines, pause)
		m.starved(h, pause)
	}
	m.tooSmall(h, timeline, setup)
	return append(lines, m.valveLines(h)...), nil
}

// readPattern takes the day of draws of the survey, or one by people and place, and
// lets it begin half an hour after waking. No tap gets hotter water than a mixing
// valve or the tank's own differential leaves.
func (m *model) readPattern(h *hotWater) error {
	j := m.job.HotWater
	people := j.People
	if people == 0 && m.job.House.Fuel != nil {
		people = m.job.House.Fuel.People
	}
	h.people = fmt.Sprintf("%d people", people)
	if people == 1 {
		h.people = "1 person"
	}
	if people == 0 {
		people, h.people = usualPeople, fmt.Sprintf("%d people, assumed", usualPeople)
	}
	name := j.Pattern
	if name == "" {
		name = usualPattern(people, m.job.Display == "si")
	}
	switch name {
	case "EU M":
		h.pattern = hotwater.EUMedium()
	case "EU L":
		h.pattern = hotwater.EULarge()
	case "EU XL":
		h.pattern = hotwater.EUExtraLarge()
	case "US low":
		h.pattern = hotwater.USLow()
	case "US medium":
		h.pattern = hotwater.USMedium()
	case "US high":
		h.pattern = hotwater.USHigh()
	default:
		return fmt.Errorf("pattern: %q is not a day of draws that is known", name)
	}
	top := min(tapWater, h.set.Value)
	if h.by != hotwater.Combi {
		top = min(tapWater, h.set.Value.Add(-hotwater.Differential))
	}
	if top <= h.cold.Value {
		return fmt.Errorf("cold: %s is not colder than what the taps want, %s", m.say(h.cold.Value), m.say(top))
	}
	h.pattern.Cold = h.cold.Value
	shift := h.wake + 1800 - h.pattern.Draws[0].At
	for i := range h.pattern.Draws {
		d := &h.pattern.Draws[i]
		d.At = units.Time(math.Mod(float64(d.At+shift)+2*86400, 86400))
		d.Wanted = min(d.Wanted, top)
	}
	return nil
}

// usualPattern is common practice: the patterns were made for rating, not for people.
func usualPattern(people int, european bool) string {
	names := []string{"US low", "US medium", "US high"}
	if european {
		names = []string{"EU M", "EU L", "EU XL"}
	}
	switch {
	case people <= 2:
		return names[0]
	case people <= 4:
		return names[1]
	}
	return names[2]
}

// setup is the tank under the recommended settings on the design day.
// The circulation cools the tank like a thinner insulation would.
func (h *hotWater) setup() hotwater.TankSetup {
	s := hotwater.TankSetup{Tank: h.tank.Tank, Charge: h.tank.charge, Cold: h.cold.Value, Set: h.set.Value,
		Differential: hotwater.Differential, Hours: h.advice.Hours, Priority: h.waits, Heating: h.load}
	if h.waits {
		s.Limit = h.advice.Limit
	} else {
		s.Charge.Boiler = h.left + h.load // of which the day takes the house's share
	}
	if h.loop != nil {
		s.Tank.Loss = min(100, s.Tank.Loss+units.LossCoefficient(float64(h.loop.loss)/float64(h.set.Value-usualAround)))
	}
	return s
}

// tankLines say what coil and tank can do.
func (m *model) tankLines(h *hotWater) ([]Line, error) {
	charge := h.charge()
	begin, err := charge.At(h.cold.Value)
	if err != nil {
		return nil, err
	}
	end, err := charge.At(h.set.Value)
	if err != nil {
		return nil, err
	}
	steps := []working.Step{m.heatUpWorking(h)}
	coil := Line{ID: "hot-water.coil", Label: "Heat into the tank", Value: m.say(begin.Heat) + " cold, " + m.say(end.Heat) + " at the end",
		Why:    fmt.Sprintf("Held first by %s, last by %s.", begin.Limit, end.Limit),
		TooLow: "Less than this: scale in the coil, a pump too slow, air, or an output limit that also binds hot water.", Working: steps}
	if begin.Limit == end.Limit {
		coil.Why = fmt.Sprintf("Held by %s from beginning to end.", begin.Limit)
	}
	if h.tank.coilHow == job.Assumed {
		coil.Why += " A usual coil is assumed."
	}
	heat := Line{ID: "hot-water.heat-up", Label: "Heat-up from cold", Value: minutes(h.advice.HeatUp),
		Why:     fmt.Sprintf("From %s to %s; the differential alone takes %s.", m.say(h.cold.Value), m.say(h.set.Value), minutes(h.advice.Reheat)),
		TooHigh: "Time it once and note it: a longer time later means scale or a weak pump.", Caution: legionellaCaution, Working: steps}
	flow, charging, err := charge.Continuous(h.cold.Value, h.set.Value)
	if err != nil {
		return nil, err
	}
	first, err := h.tank.FirstHour(hotwater.UsableShare, flow)
	if err != nil {
		return nil, err
	}
	hour := Line{ID: "hot-water.first-hour", Label: "Hot water in the first hour", Value: m.water(first),
		Why:     fmt.Sprintf("At %s from a full tank; after that %s without end.", m.say(h.set.Value), m.say(flow)),
		TooLow:  "Taps that together draw more run cool until the tank has recovered.",
		Caution: scaldCaution,
		Working: append(steps, working.Step{Name: "First hour and continuous flow", Formula: "V = 0.7·V_tank + V̇·1 h; V̇ = Q/(ρ·c·(Th − Tc))",
			Inputs: []working.Input{
				{Symbol: "V_tank", Meaning: "tank", Value: h.tank.volume.Value, Known: string(h.tank.volume.How())},
				{Symbol: "Q", Meaning: "heat with water running through, held by " + string(charging.Limit), Value: charging.Heat},
				{Symbol: "V̇", Meaning: "without end", Value: flow},
			},
			Result: working.Input{Symbol: "V", Meaning: "in the first hour", Value: first},
			Range:  "with the heat into the tank of this sheet", Source: "heat balance; 70 % usable share common practice"})}
	hour.Working = append(hour.Working, m.carriesStep(fluid.Water(), (h.cold.Value+h.set.Value)/2)...)
	return []Line{coil, heat, hour}, nil
}

// dayLine says whether a day of draws is met.
func (m *model) dayLine(h *hotWater) Line {
	d := h.day
	l := Line{ID: "hot-water.day", Label: "A day of hot water", Value: "met",
		TooLow: "More people, a bath tub or a colder winter ask for a hotter or larger tank.", Caution: scaldCaution}
	switch {
	case h.short():
		l.Value = m.water(d.Short) + " too cool"
	case h.cooler():
		l.Value = "met, " + m.water(d.Short) + " a little cool"
	}
	l.Why = fmt.Sprintf("%s: %s, %s; coolest tap %s", h.pattern.Name, h.people, m.water(d.Water), m.say(d.Coolest))
	if n := len(d.Charges); n > 0 && h.by != hotwater.Combi {
		l.Why += fmt.Sprintf("; %d charges", n)
	}
	l.Why += "."
	step := working.Step{Name: "A day of draws, minute by minute", Formula: "V·ρ·c·ΔT = heat from the coil − heat drawn − heat lost, in ten layers",
		Inputs: []working.Input{
			{Symbol: "V", Meaning: "drawn at the taps", Value: d.Water},
			{Symbol: "Ts", Meaning: "tank's target", Value: h.set.Value, Known: string(h.set.How())},
			{Symbol: "Tc", Meaning: "cold water", Value: h.cold.Value, Known: string(h.cold.How())},
			{Symbol: "E", Meaning: "heat wanted", Value: d.Wanted},
			{Symbol: "E", Meaning: "heat delivered", Value: d.Delivered},
			{Symbol: "E", Meaning: "heat lost by tank and loop", Value: d.Lost},
		},
		Result: working.Input{Symbol: "V", Meaning: "cooler than wanted", Value: d.Short},
		Range:  "the design day; taps want no more than " + m.pair("120 °F", "49 °C"), Source: h.pattern.Source + "; heat balance of each layer",
		Note: "the day begins half an hour after waking; pattern by people: common practice"}
	if h.by == hotwater.Combi {
		step.Formula, step.Source = "T = min(T_set, Tc + Q/(ρ·c·V̇))", h.pattern.Source+"; heat balance of a stream"
		step.Inputs = step.Inputs[:5]
		step.Inputs[1].Meaning = "set-point"
	} else {
		for _, c := range d.Charges {
			step.Inputs = append(step.Inputs, working.Input{Symbol: "t", Meaning: "charge that begins at " + m.clockAt(c.From), Value: c.To - c.From})
		}
	}
	l.Working = []working.Step{step}
	return l
}

// cooler tells whether more than a trifle of the water comes cooler than wanted, and
// short whether it lacks heat that is missed. At a combi people open the tap less.
func (h *hotWater) cooler() bool { return coolerThanWanted(h.day) }

func coolerThanWanted(d hotwater.Day) bool {
	return d.Short > units.Litres(1) && float64(d.Short) > shortShare*float64(d.Water)
}

func (h *hotWater) short() bool {
	missed := tankMisses
	if h.by == hotwater.Combi {
		missed = combiMisses
	}
	return h.cooler() && float64(h.day.EnergyMissed()) > missed*float64(h.day.Wanted)
}

// pauseLine says how long the heating stands still and what the rooms lose meanwhile.
func (m *model) pauseLine(h *hotWater, pause units.Time) (Line, error) {
	drop, err := hotwater.RoomDrop(pause, h.house.constant, h.house.start, m.design)
	if err != nil {
		return Line{}, err
	}
	l := Line{ID: "hot-water.pause", Label: "Longest pause of the heating", Value: minutes(pause),
		Why: fmt.Sprintf("Rooms lose %s in it on the design day; %s of pauses in the whole day.", m.say(drop), minutes(h.day.Interrupted)),
		Working: []working.Step{h.house.working(), {Name: "What the rooms lose in a pause", Formula: "ΔT = (Ti − To)·(1 − e^(−t/τ))",
			Inputs: []working.Input{
				{Symbol: "t", Meaning: "pause", Value: pause},
				{Symbol: "τ", Meaning: "time constant of the house", Value: h.house.constant},
				{Symbol: "Ti", Meaning: "rooms", Value: h.house.start},
				{Symbol: "To", Meaning: "design outdoor temperature", Value: m.design},
				{Symbol: "E", Meaning: "heat that the house misses in the day", Value: h.day.Missed},
			},
			Result: working.Input{Symbol: "ΔT", Meaning: "loss of room temperature", Value: drop},
			Range:  "one capacity, no gains", Source: "solution of C·dT/dt = −H·(T − To), as ISO 13790"}}}
	if h.day.Interrupted == 0 {
		l.Why = "No charge falls into the day."
	}
	return l, nil
}

// starved tells where hot water takes so much of the boiler that the house cools.
func (m *model) starved(h *hotWater, pause Line) {
	output := float64(m.available().Value)
	made, needed := output*(86400-float64(h.day.Interrupted)), float64(h.load)*86400
	drop, err := hotwater.RoomDrop(h.day.Longest, h.house.constant, h.house.start, m.design)
	if err != nil || output < float64(h.load) {
		return // a boiler too small for the house alone is told elsewhere
	}
	cures := []string{"a limit of " + minutes(hotwater.ShortestPriority) + " to the priority", "charging at night, before the house warms up"}
	if begin, err := h.tank.charge.At(h.cold.Value); err == nil && begin.Limit == hotwater.ByCoil {
		cures = append(cures, "a larger coil or more primary flow: the boiler could give more")
	}
	switch {
	case made < needed:
		m.findings = append(m.findings, Finding{Severity: "short", Text: fmt.Sprintf(
			"On the design day hot water takes the boiler for %s: in the time left it makes %s, and the house needs %s. The rooms cool.",
			minutes(h.day.Interrupted), m.dayHeat(units.Energy(made)), m.dayHeat(units.Energy(needed))), Cures: cures, Working: pause.Working})
	case drop > feltDrop:
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"Charging the tank stops the heating for up to %s at a stretch; on the design day the rooms lose %s meanwhile.",
			minutes(h.day.Longest), m.say(drop)), Cures: cures, Working: pause.Working})
	}
}

// tooSmall tells where the tank does not carry the day, and which remedies would: each
// is played before it is named.
func (m *model) tooSmall(h *hotWater, timeline *hotwater.Timeline, setup hotwater.TankSetup) {
	if !h.short() {
		return
	}
	cures := func(s hotwater.TankSetup) bool {
		d, err := hotwater.TankDay(timeline, s)
		return err == nil && !coolerThanWanted(d)
	}
	f := Finding{Severity: "note", Text: fmt.Sprintf(
		"The tank does not carry the day: of %s drawn %s comes cooler than wanted, at worst %s.",
		m.water(h.day.Water), m.water(h.day.Short), m.say(h.day.Coolest)), Working: m.dayLine(h).Working}
	if hotter := setup; h.set.Value < hotwater.SetPoint-0.05 && h.top > hotwater.SetPoint.Add(tankReach) {
		hotter.Set = hotwater.SetPoint
		hotter.Charge.Supply = min(h.top, hotwater.SetPoint.Add(hotwater.AboveTarget))
		if cures(hotter) {
			f.Cures = append(f.Cures, "140 °F (60 °C) in the tank, with a mixing valve")
		}
	}
	for _, factor := range []units.Volume{1.3, 1.7, 2.5} {
		larger := setup
		larger.Tank.Volume *= factor
		if cures(larger) {
			f.Cures = append(f.Cures, "a tank of about "+m.water(larger.Tank.Volume))
			break
		}
	}
	f.Cures = append(f.Cures, "less at once: slower taps, draws further apart")
	if !h.waits {
		f.Cures = append(f.Cures, "priority for hot water")
	}
	m.findings = append(m.findings, f)
}

// valveLines are the mixing valve and, for a cooler tank, the charge against bacteria.
func (m *model) valveLines(h *hotWater) []Line {
	out := m.mixingLines(h)
	if h.set.Value < hotwater.SetPoint-0.05 {
		out = append(out, m.hygieneLine(h))
	}
	return out
}

// mixingLines are the valve at the outlet of a tank that is hotter than a tap may be. It
// hangs on nothing that the survey may lack.
func (m *model) mixingLines(h *hotWater) []Line {
	var out []Line
	if h.set.Value > tapWater+0.05 {
		l := Line{ID: "hot-water.mixing-valve", Label: "Mixing valve", Value: both(tapWater) + " at most",
			TooHigh: "Scalding.", TooLow: "Lukewarm taps, and water that stands in the growth range behind the valve.",
			Caution: scaldCaution}
		share, err := hotwater.HotShare(h.cold.Value, h.set.Value, tapWater)
		if err != nil {
			return nil
		}
		l.Why = fmt.Sprintf("It lets in %.0f %% of tank water at %s. Measure at the tap and write it down.", 100*float64(share), m.say(h.set.Value))
		l.Working = []working.Step{{Name: "Share of hot water", Formula: "x = (Tm − Tc)/(Th − Tc)",
			Inputs: []working.Input{
				{Symbol: "Tm", Meaning: "mixed", Value: tapWater},
				{Symbol: "Tc", Meaning: "cold", Value: h.cold.Value, Known: string(h.cold.How())},
				{Symbol: "Th", Meaning: "tank", Value: h.set.Value, Known: string(h.set.How())},
			},
			Result: working.Input{Symbol: "x", Meaning: "share of hot water", Value: share},
			Range:  "listed valves: at the heater ASSE 1017, at the tap ASSE 1070 or 1016", Source: "heat balance; " + m.pair("120 °F", "49 °C") + ": application note on ASSE valves, common practice"}}
		out = append(out, l)
	}
	return out
}

func (m *model) hygieneLine(h *hotWater) Line {
	l := Line{ID: "hot-water.hygiene", Label: "Charge against legionella", Value: "not possible",
		Why:     "The boiler gives only " + m.say(h.top) + ": the tank cannot be brought to 140 °F (60 °C).",
		TooLow:  "A tank that never reaches 140 °F (60 °C) can grow legionella for months.",
		Caution: "Scald: at that hour the taps get 140 °F (60 °C) unless a listed mixing valve holds it back."}
	step := working.Step{Name: "Charge against legionella", Formula: "heat-up from the usual temperature to 60 °C, once a week",
		Inputs: []working.Input{{Symbol: "T", Meaning: "usual temperature of the tank", Value: h.set.Value, Known: string(h.set.How())}},
		Result: working.Input{Symbol: "T", Meaning: "of the charge", Value: hotwater.SetPoint},
		Range:  "tanks kept below 60 °C", Source: "heat balance; 60 °C: ASHRAE Guideline 12-2000 §4.1.6 as quoted; once a week common practice"}
	charge := h.charge()
	charge.Supply = min(h.top, hotwater.SetPoint.Add(hotwater.AboveTarget))
	if d, err := h.tank.HygieneCharge(charge, h.set.Value, hotwater.SetPoint); err == nil && d.Needed {
		l.Value = both(hotwater.SetPoint) + " once a week"
		l.Why = fmt.Sprintf("Takes %s more at the boiler's full heat, at an hour when nobody draws.", minutes(d.Time))
		step.Result = working.Input{Symbol: "t", Meaning: "time to 60 °C", Value: d.Time}
	}
	l.Working = []working.Step{step}
	return l
}

// both writes a temperature in both systems: a caution must be read by anybody.
func both(t units.Temperature) string {
	return fmt.Sprintf("%.0f\u00a0°F (%.0f\u00a0°C)", t.Fahrenheit(), t.Celsius())
}

// water writes an amount of water to two figures of the reader's.
func (m *model) water(v units.Volume) string {
	unit := units.WaterUnit(m.sys)
	return (units.Volume(twoFigures(float64(v/unit))) * unit).WaterText(m.sys)
}

// dayHeat writes the heat of a day to two figures of the reader's.
func (m *model) dayHeat(e units.Energy) string {
	unit := units.HeatUnit(m.sys)
	return (units.Energy(twoFigures(float64(e/unit))) * unit).HeatText(m.sys)
}

func twoFigures(x float64) float64 {
	if x <= 0 {
		return 0
	}
	p := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Round(x/p) * p
}

// combiLines say what flow a combi heats and how long the heating waits.
func (m *model) combiLines(h *hotWater) ([]Line, error) {
	b := m.available()
	flow, err := hotwater.CombiFlow(b.Value, h.cold.Value, h.set.Value)
	if err != nil {
		return nil, err
	}
	timeline, err := h.pattern.Timeline()
	if err != nil {
		return nil, err
	}
	if h.day, err = hotwater.CombiDay(timeline, hotwater.CombiSetup{Output: b.Value, Least: combiLeast, Cold: h.cold.Value, Set: h.set.Value, Heating: h.load}); err != nil {
		return nil, err
	}
	m.pauses = h.day.Interrupted
	advice, err := hotwater.Advise(hotwater.Plan{By: h.by, Cold: h.cold.Value, Set: h.set.Value, Heating: h.load,
		Room: h.house.start, Outdoor: m.design, Constant: h.house.constant})
	if err != nil {
		return nil, err
	}
	l := Line{ID: "hot-water.flow", Label: "Hot water in flow", Value: m.say(flow),
		Why:     fmt.Sprintf("%s warms so much from %s to %s in winter.", m.say(b.Value), m.say(h.cold.Value), m.say(h.set.Value)),
		TooHigh: "Taps opened wider than this run cooler.", TooLow: "Scale in the exchanger or a strainer: measure with a bucket and a watch.",
		Caution: scaldCaution,
		Working: []working.Step{{Name: "Flow that a combi heats", Formula: "V̇ = Q/(ρ·c·(Th − Tc))",
			Inputs: []working.Input{
				{Symbol: "Q", Meaning: m.outputWords("output") + "; the survey's for heating stands for hot water too", Value: b.Value, Known: string(b.How())},
				{Symbol: "Th", Meaning: "set-point", Value: h.set.Value, Known: string(h.set.How())},
				{Symbol: "Tc", Meaning: "cold water", Value: h.cold.Value, Known: string(h.cold.How())},
			},
			Result: working.Input{Symbol: "V̇", Meaning: "flow", Value: flow},
			Range:  "above its least flow, here " + m.pair("0.5 gpm", "1.9 L/min") + " assumed", Source: "heat balance of a stream"}}}
	l.Working = append(l.Working, m.carriesStep(fluid.Water(), (h.cold.Value+h.set.Value)/2)...)
	pause, err := m.pauseLine(h, max(advice.Without, h.day.Longest))
	if err != nil {
		return nil, err
	}
	if h.short() {
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"In a day of draws %s of %s comes cooler than wanted: the combi heats %s in winter, and needs about %s to fire at all.",
			m.water(h.day.Short), m.water(h.day.Water), m.say(flow), m.say(combiLeast)),
			Cures: []string{"one tap at a time, shower heads of " + m.say(flow) + " or less", "a tank"}})
	}
	return []Line{l, m.dayLine(h), pause}, nil
}

// loop is the circulation of hot water.
type loop struct {
	run    hotwater.Run
	length job.Given[units.Length]
	cover  job.Given[units.Length]
	supply units.Temperature
	loss   units.Power
	flow   units.Flow
}

func (m *model) readLoop(h *hotWater) error {
	j := m.job.HotWater
	if j.Loop != "yes" {
		return nil
	}
	l := loop{length: j.LoopLength.Or(usualLoop), cover: j.LoopCover.Or(usualLoopCover), supply: h.set.Value}
	if j.Mixing == "yes" {
		l.supply = min(l.supply, tapWater)
	}
	l.run = hotwater.Run{Outside: j.LoopTube.Or(usualLoopTube).Value, Insulation: l.cover.Value, Material: loopFoam, Length: l.length.Value, Around: usualAround}
	var err error
	if l.loss, err = hotwater.LoopLoss([]hotwater.Run{l.run}, l.supply.Add(-hotwater.LoopDrop/2)); err != nil {
		return err
	}
	if l.flow, err = hotwater.LoopFlow(l.loss, hotwater.LoopDrop, l.supply); err != nil {
		return err
	}
	h.loop = &l
	return nil
}

// loopLines are the circulation's pump and its hours.
func (m *model) loopLines(h *hotWater) []Line {
	l := h.loop
	back := l.supply.Add(-hotwater.LoopDrop)
	night := units.Time(math.Mod(float64(h.wake-h.bed)+86400, 86400))
	timer, err := hotwater.LoopTimer(l.loss, night, m.sys)
	if err != nil {
		timer = "hygiene comes first"
	}
	day := units.Energy(float64(l.loss) * 86400)
	steps := []working.Step{{Name: "Loss and flow of the circulation", Formula: "Q = L·2π·(T − Ta)/(ln(r2/r1)/λ + 1/(h·r2)); V̇ = Q/(ρ·c·5 K)",
		Inputs: []working.Input{
			{Symbol: "L", Meaning: "length there and back", Value: l.length.Value, Known: string(l.length.How())},
			{Symbol: "2·r1", Meaning: "tube", Value: l.run.Outside, Known: string(m.job.HotWater.LoopTube.Or(usualLoopTube).How())},
			{Symbol: "r2 − r1", Meaning: "insulation", Value: l.cover.Value, Known: string(l.cover.How())},
			{Symbol: "λ", Meaning: "of the insulation", Value: loopFoam, Known: string(job.Assumed)},
			{Symbol: "T", Meaning: "water leaving", Value: l.supply},
			{Symbol: "Ta", Meaning: "around the pipe", Value: usualAround, Known: string(job.Assumed)},
			{Symbol: "Q", Meaning: "loss", Value: l.loss},
		},
		Result: working.Input{Symbol: "V̇", Meaning: "flow of the loop's pump", Value: l.flow},
		Range:  "all pipes alike; hangers and valves not counted", Source: "cylinder, ISO 12241; drop of 5 K: DVGW W 551, from memory", Note: timer}}
	steps = append(steps, m.carriesStep(fluid.Water(), l.supply)...)
	pump := Line{ID: "hot-water.loop", Label: "Circulation pump", Value: m.say(l.flow),
		Why:     fmt.Sprintf("The loop loses %s, %s a day; the return is then %s.", m.say(l.loss), m.dayHeat(day), m.say(back)),
		TooHigh: "It wears the pipe and stirs up the tank.", TooLow: "Far taps stay cool and the return grows bacteria.",
		Caution: legionellaCaution, Working: steps}
	hours := Line{ID: "hot-water.loop-timer", Label: "Circulation hours", Value: "all day",
		Why:     fmt.Sprintf("Off from bed to waking saves at most %s a day; hygiene comes first, insulate instead.", m.dayHeat(units.Energy(float64(l.loss)*float64(night)))),
		TooHigh: "The loop's loss runs all day.", TooLow: "Pipes that stand cool through the range in which legionella grow.",
		Caution: legionellaCaution, Working: steps}
	if missed, err := hotwater.Missed(hotwater.Return, back); err == nil && len(missed) > 0 {
		cures := []string{"a thicker insulation or more flow, so that it comes back warmer", "no loop where the taps are near"}
		if h.by != hotwater.Combi {
			cures = append([]string{"the loop at the tank's 140 °F (60 °C), with mixing valves at the taps"}, cures...)
		}
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"The circulation comes back at %s; guidance asks for %s or more, since legionella grow in cooler loops.", m.say(back), both(missed[0].Limit)),
			Cures: cures, Working: steps})
	}
	if h.by == hotwater.Combi {
		m.findings = append(m.findings, Finding{Severity: "note", Text: "A circulation on a combi fires it all day for " + m.say(l.loss) + " and stops the heating each time.",
			Cures: []string{"no circulation", "a small tank that the loop draws from"}})
	}
	return []Line{pump, hours}
}
