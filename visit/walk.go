package visit

import (
	"fmt"

	"curvewright/boiler"
	"curvewright/pipework"
	"curvewright/settings"
)

// In which order is a visit walked, and what of it does this job need?

// Section is a part of the walk.
type Section struct {
	Title string
	Steps []Step
}

// Step is one thing to do or to enter. Its name is that of a check, or of a line of the
// settings sheet.
type Step struct {
	Name    string
	Do      string
	Value   string // of a line of the sheet: what to enter
	Line    bool   // a line of the sheet, ticked or entered otherwise
	Why     string
	Caution string
}

const (
	pressureCaution = "Hot water under pressure: open only cold and without pressure. Never plug or cap the relief valve."
	powerCaution    = "Electricity: switch off and lock out before opening a cover; wiring is for a qualified person."
	frostCaution    = "Water that freezes bursts pipes and boiler: never leave a filled house without heat in frost."
	scaldCaution    = "Hot water scalds: check the mixing valve before anybody bathes."
)

// Walk gives the steps of a visit for this house, in the order of the work. What the house
// does not have is not asked.
//
// Range: any house.
// Source: order of commissioning: common practice (content as EN 14336, from memory).
func (h *House) Walk() []Section {
	var out []Section
	for _, s := range []Section{
		{"Before power", h.beforePower()}, {"Settings", h.entering()}, {"First firing", h.firstFiring()},
		{"Readings", h.readingSteps()}, {"Hot water", h.hotWater()}, {"Safety devices", h.safety()},
		{"Sign-off", []Step{
			{Name: "left-right", Do: "Covers on, valves and thermostats as the household uses them, the control in its normal mode."},
			{Name: "explained", Do: "Explain to the household what to touch and what not, and why radiators are only lukewarm in mild weather."},
			{Name: "return-visit", Do: "Agree on a day in real cold to read again."},
			{Name: "signed", Do: "Sign, and have it signed."},
		}},
	} {
		if len(s.Steps) > 0 {
			out = append(out, s)
		}
	}
	return out
}

func (h *House) beforePower() []Step {
	j := h.job
	steps := []Step{
		{Name: "flushed", Do: "Flush the pipework; clean filter and dirt separator."},
		{Name: "tightness", Do: "Test the pipework for tightness and write the pressures down.", Caution: pressureCaution},
		{Name: "precharge", Do: "Set the vessel's precharge with no water pressure on it.", Caution: pressureCaution},
		{Name: "fill", Do: "Fill to the cold pressure of the sheet with water as the sheet says; note hardness, pH and amount."},
	}
	if h.plan.Site.Filled {
		steps[3].Value = h.plan.Site.Fill.Text(h.system)
	}
	if j.System.Antifreeze != "" && j.System.Antifreeze != "none" {
		steps = append(steps, Step{Name: "antifreeze", Do: "Measure the antifreeze with a refractometer.", Caution: "Never mix kinds; the maker's sheet outranks. Ethylene glycol is poisonous."})
	}
	steps = append(steps, Step{Name: "air", Do: "Vent from the bottom up, loop by loop, pumps off; then again with them on."})
	for _, c := range h.plant.circuits {
		switch {
		case c.floor:
			steps = append(steps, Step{Name: "loops." + c.name, Do: "Purge each loop of " + c.name + " alone and set its flow; write wanted and set flow down."},
				Step{Name: "high-limit." + c.name, Do: "See that the high limit of " + c.name + " stops its pump.", Why: "For the day its valve sticks."})
		default:
			steps = append(steps, Step{Name: "valves." + c.name, Do: "Open every valve on " + c.name + " and balance it."})
		}
		if c.mixed {
			steps = append(steps, Step{Name: "mixing." + c.name, Do: "Turn the mixing valve of " + c.name + " by hand from end to end; ports as its arrow says."})
		}
	}
	steps = append(steps, Step{Name: "gas-and-flue", Do: "Gas tightness, flue, combustion air and clearances by the maker's instructions and the local code.", Caution: boiler.CautionGas})
	if h.plan.Site.Condenses {
		steps = append(steps, Step{Name: "condensate", Do: "Fill the trap; see the drain fall, neutralised where asked, inside or kept from frost.", Caution: boiler.CautionCondensate})
	}
	if j.OutdoorSensor.Fitted != "no" {
		steps = append(steps, Step{Name: "outdoor-sensor", Do: "Outdoor sensor on a shaded wall, away from vents and windows, connected; its resistance fits the temperature.", Caution: powerCaution})
	}
	if h.plant.coupling != pipework.Direct && h.plant.beyond {
		steps = append(steps, Step{Name: "separator-sensor", Do: "Sensor behind the separator in its well and connected where the sheet says.", Caution: powerCaution})
	}
	return steps
}

// entering is the settings sheet, line by line.
func (h *House) entering() []Step {
	var steps []Step
	for _, section := range h.plan.Sheet.Sections {
		if section.Part == settings.BoilerRoom {
			continue
		}
		for _, l := range section.Lines {
			steps = append(steps, Step{Name: l.ID, Do: l.Label, Value: l.Value, Line: true, Why: l.Why, Caution: l.Caution})
		}
	}
	return steps
}

func (h *House) firstFiring() []Step {
	steps := []Step{
		{Name: "fire", Do: "Fire by the maker's instructions; listen, smell, look.", Caution: boiler.CautionGas},
		{Name: "combustion", Do: "Record oxygen or carbon dioxide, carbon monoxide, flue and air temperature at full and least fire, beside the maker's limits.", Caution: boiler.CautionCombustion},
	}
	if h.plan.Site.Meter != nil {
		if t := h.meterTime(); t == t {
			steps = append(steps, Step{Name: "meter", Do: "Clock the gas meter at full fire.", Value: fmt.Sprintf("%.0f s a turn", t), Caution: boiler.CautionClocking})
		}
	}
	for _, c := range h.plant.circuits {
		steps = append(steps, Step{Name: "runs." + c.name, Do: "Call for " + c.name + " alone: its pump runs, its pipes warm, no other's do."})
	}
	return steps
}

func (h *House) readingSteps() []Step {
	steps := []Step{
		{Name: "open", Do: "Every valve and thermostat fully up, half an hour of the same calls."},
		{Name: "outdoor", Do: "Measure the outdoor temperature in the shade; compare what the control shows."},
		{Name: "boiler", Do: "Boiler supply and return; firing rate, or run and pause."},
	}
	if h.plant.coupling != pipework.Direct {
		steps = append(steps, Step{Name: "separator", Do: "Supply and return on both sides of the separator."})
	}
	for _, c := range h.plant.circuits {
		steps = append(steps, Step{Name: "read." + c.name, Do: "Supply wanted, supply and return of " + c.name + "."})
	}
	return append(steps, Step{Name: "judge", Do: "Judge the readings; repair flow and air first, then hydraulics, sensors, curve, program."})
}

func (h *House) hotWater() []Step {
	switch by := h.job.HotWater.By; by {
	case "", "none":
		return nil
	case "combi":
		return []Step{{Name: "outlet", Do: "Measure the hot water at the nearest and the furthest tap.", Caution: scaldCaution}}
	}
	steps := []Step{
		{Name: "charge", Do: "Let the tank call; time it from its start to its set-point; the boiler returns to the curve afterwards."},
		{Name: "store", Do: "Measure what the tank holds, top and outlet.", Caution: "Below 140 °F (60 °C) legionella may grow; the local code comes first."},
		{Name: "tap", Do: "Measure at the furthest tap, and at the mixing valve's outlet.", Caution: scaldCaution},
	}
	if h.job.HotWater.Loop == "yes" {
		steps = append(steps, Step{Name: "circulation", Do: "Circulation: its return, its timer, its check valve."})
	}
	return steps
}

func (h *House) safety() []Step {
	steps := []Step{
		{Name: "relief", Do: "Relief valve: setting, free drain to a safe place; lift it once.", Caution: pressureCaution},
		{Name: "limit", Do: "High limit and low-water cut-off of the boiler by the maker's test.", Caution: boiler.CautionGas},
		{Name: "monoxide-alarm", Do: "Carbon monoxide alarms where the code asks, tested.", Caution: boiler.CautionCarbonMonoxide},
		{Name: "switch", Do: "Emergency switch and isolating valves marked and shown.", Caution: powerCaution},
	}
	if len(h.job.Frost.PipesOutside) > 0 {
		steps = append(steps, Step{Name: "frost", Do: "Frost guard: it starts the pump first; pipes outside the shell are insulated.", Caution: frostCaution})
	}
	return steps
}
