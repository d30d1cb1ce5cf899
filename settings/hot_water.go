package settings

import (
	"fmt"
	"math"
	"strings"
	"time"

	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// How is hot water made without scalding anybody, without growing bacteria and without
// starving the house? What is entered at the control stands here; what tank, coil and
// loop then do stands in the file on delivery.

// What is taken where the survey is silent; all common practice.
const (
	usualCold     = units.Temperature(283.15) // 50 °F
	usualPeople   = 3
	usualAround   = units.Temperature(291.15) // 18 °C around tank and loop
	usualCoilTank = units.Temperature(308.15) // 95 °F, tank temperature of a coil's rating
	tapWater      = units.Temperature(322.15) // 49 °C, 120 °F: no tap gets more through a mixing valve
	tankReach     = units.Difference(2)       // the least by which the boiler must be hotter than the tank
)

// usualTank is a tank as most small houses have it, and usualCoil its coil by litre.
var (
	usualTank     = units.Gallons(50)
	usualCoilFlow = units.LitresPerMinute(25)
	usualCoil     = 150e3 // W per m³ of tank, at usualCoilAt and usualCoilFlow
	usualCoilAt   = units.Celsius(82)
	combiLeast    = units.GallonsPerMinute(0.5)
)

// hotWater is the hot water made ready to calculate with.
type hotWater struct {
	by      hotwater.Arrangement
	set     job.Given[units.Temperature]
	cold    job.Given[units.Temperature]
	top     units.Temperature // that the boiler can give to the tank
	house   leftCold
	load    units.Power // heating on the design day
	wake    units.Time
	bed     units.Time
	tank    tank
	loop    *loop // nil without a circulation
	advice  hotwater.Advice
	waits   bool        // whether the heating waits while the tank is charged
	left    units.Power // of the boiler's output for the tank on the design day: all of it where the heating waits
	because string      // why it does or does not, where there is a choice
	pattern hotwater.Pattern
	people  string // "4 people", "3 people assumed"
	day     hotwater.Day
}

// tank is the tank of the survey with its coil.
type tank struct {
	hotwater.Tank
	volume  job.Given[units.Volume]
	loss    job.Given[units.Power]
	rating  hotwater.CoilRating
	coilHow job.Known
	flow    job.Given[units.Flow] // primary
	charge  hotwater.Charge
}

// hotWaterSections writes both parts: what is entered at the control and what belongs
// beside it. What cannot be worked out is said in a finding; the heating's settings do
// not hang on it.
func (m *model) hotWaterSections() (enter, delivery []Line) {
	by := m.job.HotWater.By
	if by == "" || by == "none" {
		return []Line{m.noHotWater()}, nil
	}
	h, loopErr, err := m.readHotWater()
	enter = m.hotWaterLines(&h)
	if err == nil && m.job.Boiler.Output.Set && h.set.Value <= h.top.Add(-tankReach) {
		delivery, err = m.deliveryLines(&h)
	}
	if err != nil {
		m.findings = append(m.findings, Finding{Severity: "note", Text: "hot_water: what the hot water does could not be worked out: " + err.Error() + "."})
		delivery = nil
	}
	if delivery == nil && h.by != hotwater.Combi {
		delivery = m.mixingLines(&h)
	}
	if loopErr != nil {
		m.findings = append(m.findings, Finding{Severity: "note", Text: "hot_water › loop_length, loop_tube, loop_insulation: " + loopErr.Error() + "."})
	}
	if h.loop != nil {
		delivery = append(delivery, m.loopLines(&h)...)
	}
	return enter, delivery
}

func (m *model) noHotWater() Line {
	l := Line{ID: "hot-water.by", Label: "Hot water", Value: "none",
		Why:     "The boiler makes no hot water; nothing may interrupt the heating.",
		TooHigh: "Set to a tank that is not there, the boiler runs hot for nothing and shows a sensor fault."}
	if m.job.HotWater.By == "" {
		l.Why = "The survey does not say how hot water is made; taken as not by this boiler."
	}
	l.Working = practice("Hot-water arrangement", "as surveyed")
	return l
}

// readHotWater fills in what the survey leaves out. A circulation that cannot be worked
// out leaves the tank's figures standing.
func (m *model) readHotWater() (h hotWater, loop, err error) {
	j := m.job.HotWater
	h = hotWater{by: hotwater.Arrangement(j.By), cold: j.Cold.Or(usualCold), set: j.Setpoint.Or(hotwater.SetPoint),
		wake: timeOfDay(m.job.Program.WakeUp, "06:30"), bed: timeOfDay(m.job.Program.Bed, "22:30")}
	for _, r := range m.rooms {
		h.load += max(0, r.loss.At(r.setpoint, m.design))
	}
	h.top = m.hottestSupply()
	if h.by == hotwater.Combi {
		h.set = j.Setpoint.Or(units.Celsius(49))
		h.top = units.Celsius(110) // heats the tap water itself
	}
	loop = m.readLoop(&h)
	if h.house, err = m.houseCools(); err != nil {
		return h, loop, err
	}
	if h.by == hotwater.Combi || !m.job.Boiler.Output.Set || h.set.Value > h.top.Add(-tankReach) {
		return h, loop, nil
	}
	if err = m.readTank(&h); err != nil {
		return h, loop, err
	}
	return h, loop, m.advise(&h)
}

// hottestSupply is what the boiler can be set to give a tank.
func (m *model) hottestSupply() units.Temperature {
	return max(units.Celsius(30), min(units.Celsius(110), m.job.Boiler.MaxSupply.Or(m.control.limit.To).Value))
}

// chargeSupply is the boiler's supply while a tank is charged to a temperature.
func (m *model) chargeSupply(set units.Temperature) units.Temperature {
	return min(set.Add(hotwater.AboveTarget), m.hottestSupply())
}

// timeOfDay reads a time of day, and takes the usual one if it is none.
func timeOfDay(text, usual string) units.Time {
	t, err := time.Parse("15:04", text)
	if err != nil {
		t, _ = time.Parse("15:04", usual)
	}
	return units.Time(t.Hour()*3600 + t.Minute()*60)
}

// clockAt writes a time of day as the control shows it.
func (m *model) clockAt(t units.Time) string {
	minute := int(math.Round(float64(t)/60)) % 1440
	return m.clockText(fmt.Sprintf("%02d:%02d", minute/60, minute%60), 0)
}

// readTank takes tank and coil from the survey, or the usual ones.
func (m *model) readTank(h *hotWater) error {
	j := m.job.HotWater
	t := &h.tank
	t.volume = j.Tank.Or(usualTank)
	// The limit of class C, by which a tank without a figure is judged.
	litres := t.volume.Value.Litres()
	t.loss = j.StandLoss.Or(units.Power(16.66 + 8.33*math.Pow(litres, 0.4)))
	loss, err := hotwater.LossFromRating(t.loss.Value, units.Celsius(65), units.Celsius(20))
	if err != nil {
		return err
	}
	t.Tank = hotwater.Tank{Volume: t.volume.Value, Loss: loss, Room: usualAround}
	size := max(units.Litres(100), min(units.Litres(300), t.volume.Value))
	t.rating, t.coilHow = hotwater.CoilRating{Output: units.Power(usualCoil * float64(size)), Supply: usualCoilAt, Flow: usualCoilFlow, Cold: usualCoilTank}, job.Assumed
	if c := j.Coil; c != nil {
		t.rating = hotwater.CoilRating{Output: c.Output.Value, Supply: c.Supply.Value, Flow: c.Flow.Value, Cold: c.Tank.Or(usualCoilTank).Value}
		t.coilHow = c.Output.How()
	}
	t.rating.Hot = t.rating.Cold
	t.flow = job.Given[units.Flow]{Value: t.rating.Flow, Known: t.coilHow}
	if s := m.job.Separator.Flow; s.Set && h.by == hotwater.ThreeWay {
		t.flow = s
	}
	coil, err := hotwater.NewCoil(t.rating)
	if err != nil {
		return fmt.Errorf("coil: %w", err)
	}
	t.charge = hotwater.Charge{Boiler: m.available().Value, Flow: t.flow.Value, Fill: m.fluid(), Coil: coil}
	return nil
}

// advise works out what to set, and whether the heating waits.
func (m *model) advise(h *hotWater) error {
	plan := hotwater.Plan{By: h.by, Tank: h.tank.Tank, Charge: h.tank.charge, Cold: h.cold.Value, Set: h.set.Value, MaxSupply: h.top,
		Heating: h.load, Room: h.house.start, Outdoor: m.design, Constant: h.house.constant, WakeUp: h.wake, Bed: h.bed}
	var err error
	if h.advice, err = hotwater.Advise(plan); err != nil {
		return err
	}
	h.tank.charge.Supply = h.advice.Supply
	h.waits, h.because = m.heatingWaits(h)
	h.left = h.tank.charge.Boiler
	switch {
	case !h.waits:
		m.leaveToHouse(h)
		plan.Charge = h.charge()
		h.advice, err = hotwater.Advise(plan)
	case !h.advice.Priority:
		plan.By = hotwater.ThreeWay // the heating stands still as behind a valve
		h.advice, err = hotwater.Advise(plan)
	}
	if h.loop != nil {
		h.advice.Hours = nil // the circulation cools the tank at night as well
	}
	return err
}

// leastLeft is the share of the boiler that a tank must at least be left with where the
// heating goes on; with less it is hardly charged at all (common practice).
const leastLeft = 0.05

// leaveToHouse takes the house's share off what the boiler has for the tank.
func (m *model) leaveToHouse(h *hotWater) {
	whole := h.tank.charge.Boiler
	h.left = whole - h.load
	if h.left >= leastLeft*whole {
		return
	}
	h.left = leastLeft * whole
	m.once(Finding{Severity: "short", Text: fmt.Sprintf(
		"Without priority the house takes %s of the boiler's %s on the design day: next to nothing is left to charge the tank. Times and water are reckoned with %s.",
		m.say(h.load), m.say(whole), m.say(h.left)),
		Cures: []string{"priority for hot water"}})
}

// once reports what may be come upon twice while a sheet is written.
func (m *model) once(f Finding) {
	for _, other := range m.findings {
		if other.Text == f.Text {
			return
		}
	}
	m.findings = append(m.findings, f)
}

// charge is the tank's charge with what the boiler has for it on the design day.
func (h *hotWater) charge() hotwater.Charge {
	c := h.tank.charge
	c.Boiler = h.left
	return c
}

// outputFor names the output that a tank is charged with.
func (m *model) outputFor(h *hotWater) string {
	if h.waits {
		return m.outputWords("its output")
	}
	return "what the house leaves of its output on the design day"
}

// heatingWaits decides about priority where the survey leaves it open. A circuit
// without a mixing valve would get the tank's hot water.
func (m *model) heatingWaits(h *hotWater) (bool, string) {
	direct := m.directCircuits()
	switch given := m.job.HotWater.Priority; {
	case h.by == hotwater.ThreeWay:
		return true, ""
	case given == "no":
		if len(direct) > 0 {
			m.findings = append(m.findings, Finding{Severity: "stop", Text: fmt.Sprintf(
				"Without priority the %s water that charges the tank also runs into %s, which has no mixing valve.", m.say(h.advice.Supply), strings.Join(direct, " and ")),
				Cures: []string{"priority for hot water", "a mixing valve on " + strings.Join(direct, " and ")}})
		}
		return false, "Its own pump; heating goes on meanwhile, as surveyed."
	case given == "yes":
		return true, "Its own pump; heating waits, as surveyed."
	case len(direct) > 0:
		return true, "Its own pump; heating waits: " + direct[0] + " has no mixing valve."
	case h.advice.Priority:
		return true, "Its own pump; heating waits: the boiler cannot carry both."
	}
	return false, "Its own pump; the boiler carries house and tank together."
}

func (m *model) directCircuits() []string {
	var out []string
	for i := range m.circuits {
		if m.circuits[i].kind() != "mixed" {
			out = append(out, m.circuits[i].job.Name)
		}
	}
	return out
}

// hotWaterLines are the lines to enter at the control.
func (m *model) hotWaterLines(h *hotWater) []Line {
	first := Line{ID: "hot-water.by", Label: "Hot water", Value: string(h.by), Why: map[hotwater.Arrangement]string{
		hotwater.OwnPump:  "Its own pump; priority decides whether heating goes on.",
		hotwater.ThreeWay: "The valve gives the tank all the water; heating waits.",
		hotwater.Combi:    "Heated as it flows; heating waits while a tap is open.",
	}[h.by],
		TooLow: "The wrong arrangement leaves the tank cold or drives boiler-hot water into the heating circuits."}
	if h.because != "" {
		first.Why = h.because
	}
	meaning, err := h.by.Meaning()
	if err != nil {
		meaning = string(h.by)
	}
	first.Working = practice("Hot-water arrangement", meaning)
	lines := []Line{first, m.setpointLine(h)}
	if h.by == hotwater.Combi {
		m.combiSafety(h)
		return lines
	}
	m.tankSafety(h)
	lines = append(lines, m.differentialLine(h), m.primaryLine(h))
	if h.advice.Supply > 0 {
		lines = append(lines, m.priorityLine(h), m.hoursLine(h))
	}
	return lines
}

const (
	scaldCaution      = "Scald: 140 °F (60 °C) burns in under 5 s, a child sooner. Listed mixing valve; local code first."
	tankCaution       = "Scald: 140 °F (60 °C) burns in under 5 s; below it legionella grow. Listed mixing valve, local code first."
	legionellaCaution = "Legionella grow in water stored below 140 °F (60 °C), fastest at 95 to 115 °F (35 to 46 °C)."
)

func (m *model) setpointLine(h *hotWater) Line {
	l := Line{ID: "hot-water.setpoint", Label: "Hot-water temperature", TooHigh: "Scalding at the tap, more lime and more standing loss.",
		TooLow:  "Bacteria grow in stored water between about 68 and 122 °F (20 and 50 °C).",
		Why:     "Hot against legionella; taps get 120 °F (49 °C) at most.",
		Caution: tankCaution}
	if h.by == hotwater.Combi {
		l.Caution = scaldCaution
		l.Why = "Nothing is stored: no hotter than the hand wants."
		l.TooLow = "Lukewarm showers at full flow in winter."
		if h.set.Value > tapWater+0.05 {
			l.Why = "Nothing is stored, so no hygiene asks for it: " + both(tapWater) + " is enough at any tap."
		}
	} else if h.set.Value < hotwater.SetPoint-0.05 {
		l.Caution = legionellaCaution
		l.Why = "As surveyed. " + both(hotwater.SetPoint) + " keeps legionella down, with a mixing valve behind it."
	} else if m.job.HotWater.Mixing != "yes" {
		l.Why = "Hot against legionella; only a mixing valve makes it safe, with " + both(tapWater) + " at most for the taps."
	}
	m.temperature(&l, m.control.step.Nearest(h.set.Value))
	scald := working.Step{Name: "Scald at the tap", Formula: "the row at or next above the temperature; nothing between two rows",
		Range: "adults; children burn faster", Source: "a US state public-health page on scald prevention; after Moritz and Henriques 1947, from memory"}
	for _, b := range hotwater.ScaldBands() {
		scald.Inputs = append(scald.Inputs, working.Input{Symbol: "t", Meaning: "a deep burn in " + b.Time, Value: b.At})
	}
	if b, found, err := hotwater.Scald(h.set.Value); err == nil && found {
		scald.Result = working.Input{Symbol: "t", Meaning: "row that counts here: " + b.Time, Value: b.At}
	} else {
		scald.Result = working.Input{Symbol: "t", Meaning: "below the table", Value: h.set.Value}
	}
	l.Working = []working.Step{{Name: "Storage temperature", Formula: "store ≥ 60 °C, deliver ≤ 49 °C through a mixing valve",
		Inputs: []working.Input{{Symbol: "t", Meaning: "temperature", Value: h.set.Value, Known: string(h.set.How())}},
		Range:  "dwellings", Source: "ASHRAE Guideline 12-2000 §4.1.6 as quoted; local code and health authority first"}, scald}
	return l
}

// hottestTank is the hottest that a tank of a house is usefully kept (common practice).
const hottestTank = units.Temperature(70 + 273.15)

// poison stops ethylene glycol behind a single wall from the drinking water.
func (m *model) poison(through string) {
	if m.job.System.Antifreeze == "ethylene glycol" {
		m.findings = append(m.findings, Finding{Severity: "stop",
			Text:  "The heating water holds ethylene glycol, which is poisonous, and it runs through " + through + ": a leak would reach the taps.",
			Cures: []string{"propylene glycol in its place, as makers and local code say", "a double-walled coil or exchanger that local code accepts"}})
	}
}

// hottestCharge is the hottest supply that is advised for a tank: common practice.
const hottestCharge = units.Temperature(85 + 273.15)

// combiSafety stops water that leaves a combi hotter than a hand can bear: nothing is
// stored, so no hygiene asks for it.
func (m *model) combiSafety(h *hotWater) {
	m.poison("the combi's exchanger")
	if m.job.HotWater.Mixing != "yes" && h.set.Value > tapWater+0.05 {
		m.findings = append(m.findings, Finding{Severity: "stop",
			Text:  "The combi is to deliver " + m.say(h.set.Value) + " and the survey shows no mixing valve at its outlet: the taps would scald.",
			Cures: []string{"set it to 120 °F (49 °C) or less, as local code says", "a listed mixing valve at its outlet"}})
	}
}

// tankSafety looks for what could hurt: scalding, bacteria, a tank that never gets hot.
func (m *model) tankSafety(h *hotWater) {
	if m.job.HotWater.Mixing != "yes" && h.set.Value > tapWater+0.05 {
		m.findings = append(m.findings, Finding{Severity: "stop",
			Text:  "The tank is to be kept at " + m.say(h.set.Value) + " and the survey shows no mixing valve at its outlet: the taps would scald.",
			Cures: []string{"fit a listed mixing valve at the tank's outlet and set it to 120 °F (49 °C) or less, as local code says"}})
	}
	hygienic := h.top >= hotwater.SetPoint.Add(tankReach) // whether the boiler can bring it to 60 °C
	if h.set.Value < hotwater.SetPoint-0.05 {
		f := Finding{Severity: "note",
			Text: "The tank is to be kept at " + m.say(h.set.Value) + ": below 140 °F (60 °C) legionella can grow in it, which is worst for old and ill people.",
			Cures: []string{"keep 140 °F (60 °C) in the tank, with a mixing valve at its outlet",
				"charge it to 140 °F (60 °C) once a week at an hour when nobody draws, with a mixing valve"}}
		if !hygienic {
			f.Text += " The boiler gives only " + m.say(h.top) + " and cannot heat it out."
			f.Cures = []string{"a higher limit of the boiler for hot water, " + m.say(hotwater.SetPoint.Add(hotwater.AboveTarget)) + " or more; then 140 °F (60 °C) with a mixing valve", "another way to heat the tank to 140 °F (60 °C)"}
		}
		m.findings = append(m.findings, f)
	}
	if h.set.Value > hottestTank+0.05 {
		m.findings = append(m.findings, Finding{Severity: "note",
			Text:  "The tank is to be kept at " + m.say(h.set.Value) + ": that burns in less than a second where the mixing valve fails, limes the coil and is more than many tanks and valves bear.",
			Cures: []string{"140 °F (60 °C) in the tank, and a larger tank if that is too little", "the highest temperature on the rating plates of tank, mixing valve and relief valve first"}})
	}
	m.poison("the tank's coil")
	if h.set.Value > h.top.Add(-tankReach) {
		var cures []string
		if hygienic {
			cures = []string{"a lower set-point of the tank: 140 °F (60 °C) is enough against legionella"}
		}
		if needs := h.set.Value.Add(hotwater.AboveTarget); needs <= hottestCharge {
			cures = append(cures, "a higher limit of the boiler for hot water, "+m.say(needs)+" or more")
		}
		m.findings = append(m.findings, Finding{Severity: "short",
			Text:  "The boiler gives at most " + m.say(h.top) + ": it cannot bring the tank to " + m.say(h.set.Value) + ". The charge has no end, and with priority the heating waits for it.",
			Cures: append(cures, "another way to heat the tank to the end")})
	}
}

func (m *model) differentialLine(h *hotWater) Line {
	d := max(m.control.step.Difference(), hotwater.Differential)
	return Line{ID: "hot-water.differential", Label: "Tank differential", Value: strings.TrimPrefix(m.difference(d), "+"),
		Why:     "Charging starts at " + m.control.step.Text(m.control.step.Nearest(h.set.Value.Add(-d))) + " at the tank's sensor.",
		TooHigh: "A tank that stands lukewarm, and long charges.", TooLow: "Many short charges that interrupt the heating.",
		Working: practice("Tank differential", m.pair("9 °F", "5 K"))}
}

func (m *model) primaryLine(h *hotWater) Line {
	supply := m.chargeSupply(h.set.Value)
	set := m.control.step.Nearest(supply)
	if set > h.top {
		set = m.control.step.Down(h.top)
	}
	l := Line{ID: "hot-water.primary", Label: "Boiler while charging",
		Why:     "Target and " + m.say(hotwater.AboveTarget) + ", so that the coil still heats at the end.",
		TooHigh: "The boiler condenses less and limes the coil.", TooLow: "The last degrees take for ever and the heating waits.",
		Working: []working.Step{{Name: "Primary supply while the tank is charged", Formula: "Tp = T_tank + 15 K, at most what the boiler gives",
			Inputs: []working.Input{
				{Symbol: "T_tank", Meaning: "tank's target", Value: h.set.Value, Known: string(h.set.How())},
				{Symbol: "Tmax", Meaning: "highest supply of boiler or control", Value: h.top},
			},
			Result: working.Input{Symbol: "Tp", Meaning: "primary supply", Value: supply},
			Range:  "tanks with a coil", Source: "common practice"}}}
	m.temperature(&l, set)
	for i := range m.circuits {
		if c := &m.circuits[i]; c.kind() != "mixed" && hasFloor(c) {
			l.Caution = slabCaution
		}
	}
	if supply < h.set.Value.Add(hotwater.AboveTarget-0.5) {
		l.Why = "All that the boiler gives: the last degrees are slow."
	}
	if !m.job.Boiler.Output.Set {
		l.Instead = "For priority, charge hours and delivery the survey must give the boiler's output."
	}
	return l
}

func (m *model) priorityLine(h *hotWater) Line {
	a := h.advice
	l := Line{ID: "hot-water.priority", Label: "Hot-water priority", TooHigh: "On the coldest days the rooms cool before the tank is hot.",
		TooLow: "The boiler changes over for ever and the tank stays lukewarm."}
	if !h.waits {
		l.Value, l.Why = "off", "The tank takes what the house leaves of the boiler."
		l.Working = practice("Priority for hot water", "off only if the tank has its own pump, all circuits are mixed, and the boiler carries house and coil together; or as surveyed")
		return l
	}
	l.Value = fmt.Sprintf("on, %.0f min at most", float64(a.Limit)/60)
	l.Why = "Rooms lose " + m.say(a.RoomDrop) + " in " + minutes(a.Without) + " on the design day."
	l.Working = []working.Step{h.house.working(), {Name: "Time limit of the priority", Formula: "t = −τ·ln(1 − ΔT/(Ti − To)), in steps of 5 min, 20 to 45 min",
		Inputs: []working.Input{
			{Symbol: "τ", Meaning: "time constant of the house", Value: h.house.constant},
			{Symbol: "ΔT", Meaning: "what the rooms may lose", Value: units.Kelvins(0.5), Known: string(job.Assumed)},
			{Symbol: "Ti", Meaning: "rooms", Value: h.house.start},
			{Symbol: "To", Meaning: "design outdoor temperature", Value: m.design},
		},
		Result: working.Input{Symbol: "t", Meaning: "limit", Value: a.Limit},
		Range:  "one capacity, no gains; air falls faster in the first half hour, most with fan coils and fin-tube", Source: "ISO 13790, one capacity; bounds common practice",
		Note: m.adviceNotes(a)}}
	return l
}

// adviceNotes are the remarks on the advice, without the cautions that stand beside
// the lines.
func (m *model) adviceNotes(a hotwater.Advice) string {
	var out []string
	for _, n := range a.Notes {
		if s := n(m.sys); s != hotwater.CautionScald && !strings.Contains(s, hotwater.CautionLegionella) {
			out = append(out, s)
		}
	}
	return strings.Join(out, "; ")
}

func (m *model) hoursLine(h *hotWater) Line {
	l := Line{ID: "hot-water.hours", Label: "Charge hours", Value: "all day",
		Why:     "A cold tank takes " + minutes(h.advice.HeatUp) + ": the night is needed as well.",
		TooHigh: "Night charges lose heat that nobody draws.", TooLow: "The first showers are cool, or the tank is charged when the house warms up."}
	if len(h.advice.Hours) > 0 {
		w := h.advice.Hours[0]
		l.Value = m.clockAt(w.From) + " to " + m.clockAt(w.To)
		l.Why = "A cold tank takes " + minutes(h.advice.HeatUp) + "; hot before waking at " + m.clockAt(h.wake) + "."
	}
	if h.loop != nil {
		l.Why = "The circulation cools the tank day and night."
	}
	l.Working = []working.Step{m.heatUpWorking(h), {Name: "Charge hours", Formula: "from waking − heat-up − 15 min, in quarter hours, until bed-time",
		Inputs: []working.Input{
			{Symbol: "t", Meaning: "waking, after midnight", Value: h.wake},
			{Symbol: "t", Meaning: "bed-time, after midnight", Value: h.bed},
		},
		Result: working.Input{Symbol: "t", Meaning: "heat-up of a cold tank", Value: h.advice.HeatUp},
		Range:  "households that sleep at night, without a circulation", Source: "common practice"}}
	return l
}

func (m *model) heatUpWorking(h *hotWater) working.Step {
	t := h.tank
	note := ""
	if t.coilHow == job.Assumed {
		note = "the coil is not in the survey: a usual one for a tank of this size, 150 W/L at " + m.pair("180 °F", "82 °C") + " and " + m.pair("6.6 gpm", "25 L/min")
	}
	return working.Step{Name: "Heat-up of the whole tank", Formula: "t = ∫ V·ρ·c/(Q − H·(T − T_room)) dT, Q = min(boiler, ε·C·(Tp − T)), ε = 1 − e^(−UA/C)",
		Inputs: []working.Input{
			{Symbol: "V", Meaning: "tank", Value: t.volume.Value, Known: string(t.volume.How())},
			{Symbol: "boiler", Meaning: m.outputFor(h), Value: h.left, Known: string(m.job.Boiler.Output.How())},
			{Symbol: "UA", Meaning: "coil, from its rated point", Value: t.charge.Coil.Transmission(), Known: string(t.coilHow)},
			{Symbol: "C", Meaning: "primary flow", Value: t.flow.Value, Known: string(t.flow.How())},
			{Symbol: "Tp", Meaning: "primary supply, of " + t.charge.Fill.String(), Value: h.advice.Supply},
			{Symbol: "Tc", Meaning: "cold water", Value: h.cold.Value, Known: string(h.cold.How())},
			{Symbol: "Ts", Meaning: "tank's target", Value: h.set.Value, Known: string(h.set.How())},
			{Symbol: "P", Meaning: "standing loss of the tank, rated at 65 °C in 20 °C", Value: t.loss.Value, Known: string(t.loss.How())},
		},
		Result: working.Input{Symbol: "t", Meaning: "from cold to the target", Value: h.advice.HeatUp},
		Range:  "mixed tank; a stratified one is hot at the top sooner", Source: "heat balance; effectiveness of an exchanger, heat-transfer textbooks, from memory; standing loss not surveyed: class C of EU 812/2013, from memory",
		Note: note}
}
