package settings

import (
	"fmt"

	"curvewright/boiler"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// What belongs beside the burner: what an analyser and the gas meter should show, and what
// the altitude takes.

// burnerFacts are the lines of the burner in the boiler room.
func (m *model) burnerFacts(s *BoilerSeason, b burner) ([]Line, error) {
	lines := m.condensingLines(s, b)
	if m.job.Boiler.Fuel != "" {
		l := m.flueLine(b)
		if m.job.Boiler.Kind == "non-condensing" {
			l.Working = append(l.Working, m.stackSteps(s, b)...) // else they stand at the condensing
		}
		lines = append(lines, l)
	}
	if m.job.Boiler.Gas != nil {
		l, err := m.gasLine(b)
		if err != nil {
			return nil, err
		}
		lines = append(lines, l)
	}
	if m.job.Boiler.Kind == "non-condensing" {
		lines = append(lines, m.returnLine(s, b))
		if l, known := m.coldStartLine(); known {
			lines = append(lines, l)
		}
	}
	// Above the range of the altitude rule only the maker knows the full fire: a time
	// worked out from the rating would lead to overfiring.
	_, tooHigh := boiler.AltitudeUS.Remains(m.job.Site.Elevation.Value)
	if m.job.Boiler.Output.Set && m.job.Boiler.Fuel != "" && !b.gas.Fuel.Liquid() && (tooHigh == nil || m.job.Boiler.AtSite == "yes") {
		l, err := m.meterLine(s, b)
		if err != nil {
			return nil, err
		}
		lines = append(lines, l)
	}
	return m.sizeLine(m.altitudeLine(lines)), nil
}

// sizeLine adds how large the boiler is for the house.
func (m *model) sizeLine(lines []Line) []Line {
	top, load := m.available(), units.Power(0)
	for _, r := range m.rooms {
		load += max(0, r.loss.At(r.setpoint, m.design))
	}
	size, err := boiler.SizeFor(top.Value, load)
	if !top.Set || err != nil {
		return lines
	}
	l := Line{ID: "boiler-size", Label: "Boiler against the house", Value: fmt.Sprintf("%.1f times the load", float64(size.Ratio)), Why: upper(size.Meaning) + ".",
		TooHigh: "Many starts and a hot return in mild weather; the next boiler may be smaller.", TooLow: "Rooms fall short in the coldest hours.",
		Working: []working.Step{{Name: "Size of the boiler", Formula: "output / load",
			Inputs: []working.Input{
				{Symbol: "output", Meaning: m.outputWords("highest output of the boiler"), Value: top.Value, Known: string(top.How())},
				{Symbol: "load", Meaning: "of all rooms on the design day", Value: load},
			},
			Result: working.Input{Symbol: "r", Meaning: "output to load", Value: size.Ratio},
			Range:  "heating alone", Source: "Bennett and Elwell 2020, doi 10.1177/0143624420927352; bands between common practice"}}}
	if m.onOff() && size.Ratio > 1.3 && size.Ratio <= 2 {
		l.Why = "Larger than needed, and one fire cannot be held down: water in the system and a buffer calm it."
	}
	if m.job.HotWater.By == "combi" && size.Ratio > 1.3 {
		l.Instead = "A combi is chosen by its hot water: see the flow that it heats before a smaller one is thought of."
	}
	return append(lines, l)
}

func (m *model) flueLine(b burner) Line {
	per := "without excess, volumes for one of fuel"
	if b.gas.Fuel.Liquid() {
		per = "without excess, standard cubic metres for a kilogram of fuel"
	}
	why := fmt.Sprintf("At %s excess air; the maker's figures for this burner come first.", m.say(b.excess.Value))
	if m.job.Boiler.Burner == "atmospheric" {
		why = fmt.Sprintf("Behind the draught hood, at %s excess air with what it draws in; in the boiler itself there is less. The maker's figures come first.", m.say(b.excess.Value))
	}
	return Line{ID: "flue-gas", Label: "Flue gas, dry", Value: fmt.Sprintf("%.1f %% CO2, %.1f %% O2", 100*float64(b.gas.CO2Dry), 100*float64(b.gas.O2Dry)),
		Why:     why,
		TooHigh: "Too little air: carbon monoxide and soot.", TooLow: "Too much air: a lower dew point, less condensing, more loss.",
		Caution: "Carbon monoxide kills without a smell. Combustion is set only by a licensed person with a calibrated analyser.",
		Working: []working.Step{{Name: "Flue gas at this excess air", Formula: "CO2 = C / dry gas; O2 = 0.2095 · e · air demand / dry gas",
			Inputs: []working.Input{
				{Symbol: "e", Meaning: "excess air", Value: b.excess.Value, Known: string(b.excess.How())},
				{Symbol: "air demand", Meaning: per, Value: b.gas.Fuel.AirDemand()},
				{Symbol: "O2", Meaning: "dry", Value: b.gas.O2Dry},
			},
			Result: working.Input{Symbol: "CO2", Meaning: "dry", Value: b.gas.CO2Dry},
			Range:  b.gas.Fuel.Name + ", complete combustion", Source: "element balance; " + b.gas.Fuel.Source}}}
}

// gasMeter is the meter with what it counts at full fire.
type gasMeter struct {
	meter boiler.Meter
	name  string // of a turn of its dial
	dial  job.Given[units.Volume]
	value job.Given[units.HeatingValue]
	full  units.Power // output, after altitude
}

func (m *model) gasMeter(b burner) (gasMeter, error) {
	// The meter on the wall is that of the house's country, in whatever units it is read about.
	base, usual, name := boiler.BaseMetric, units.Volume(0.01), "0.01 m³"
	if DefaultOptions(m.job).System == units.US {
		base, usual, name = boiler.BaseUS, units.CubicFeet(1), "1 ft³"
	}
	g := gasMeter{dial: m.job.Boiler.MeterDial.Or(usual), name: name, full: m.available().Value}
	if m.job.Boiler.MeterDial.Set {
		g.name = m.say(g.dial.Value)
	}
	g.meter = boiler.WatchedMeter(g.dial.Value, base)
	air, err := boiler.AirPressure(m.job.Site.Elevation.Value)
	if err != nil {
		return g, fmt.Errorf("site › elevation: %w", err)
	}
	g.meter.Air = air
	gross, _, err := b.gas.Fuel.HeatingValue(base)
	if err != nil {
		return g, fmt.Errorf("boiler: %w", err)
	}
	g.value = m.job.Boiler.HeatingValue.Or(gross)
	return g, nil
}

// meterLine is the time that the meter's dial should take at full fire.
func (m *model) meterLine(s *BoilerSeason, b burner) (Line, error) {
	g, err := m.gasMeter(b)
	if err != nil {
		return Line{}, err
	}
	name, dial, value, full := g.name, g.dial, g.value, g.full
	efficiency, err := b.model.Efficiency(s.Points[0].Return, 1, boiler.Gross)
	if err != nil {
		return Line{}, fmt.Errorf("boiler: %w", err)
	}
	why := "Full output of %s takes about %s of gas. Hold the burner at full fire and time the dial."
	if m.altitudeLeaves() < 1 {
		why = "The %s that the altitude rule leaves takes about %s of gas; the maker's own figure comes first."
	}
	input := full / units.Power(max(efficiency, 0.5))
	turn, err := g.meter.RevolutionTime(input, value.Value)
	if err != nil {
		return Line{}, fmt.Errorf("boiler: %w", err)
	}
	instead := ""
	if value.Set && m.job.Site.Elevation.Value > units.Feet(2000) {
		// Suppliers high up often bill the heat of a foot of thin gas.
		low := g.meter
		if low.Air, err = boiler.AirPressure(0); err != nil {
			return Line{}, fmt.Errorf("boiler: %w", err)
		}
		if thin, err := low.RevolutionTime(input, value.Value); err == nil {
			instead = fmt.Sprintf("The bill's %s counts as of gas at sea level. If the supplier gives it for this altitude, the dial takes %.0f s.", m.say(value.Value), float64(thin))
		}
	}
	return Line{ID: "meter", Label: "Gas meter at full fire", Value: fmt.Sprintf("%.0f s for %s", float64(turn), name),
		Why:     fmt.Sprintf(why, m.say(full), m.say(input)),
		Instead: instead,
		TooHigh: "More seconds: the burner fires less than it should.", TooLow: "Fewer seconds: it is overfired; stop and call a licensed person.",
		Caution: "Every other gas appliance off, pilot flames too. Gas pressure is for a licensed person; the rating plate comes first.",
		Working: []working.Step{{Name: "Time of a turn of the dial", Formula: "t = V · correction · H / Q, Q = output/η",
			Inputs: []working.Input{
				{Symbol: "V", Meaning: "gas for a turn", Value: dial.Value, Known: string(dial.How())},
				{Symbol: "H", Meaning: "gross heat in the gas", Value: value.Value, Known: string(value.How())},
				{Symbol: "Q", Meaning: "gross heat into the burner", Value: input},
				{Symbol: "η", Meaning: "at full fire and the design day's return", Value: efficiency},
			},
			Result: working.Input{Symbol: "t", Meaning: "time", Value: turn},
			Range:  "a meter without compensation at the usual house pressure", Source: "definition; pressure correction by the ideal gas law"}}}, nil
}

// oilAltitudeLine sends to the maker: an oil burner is set for the altitude with its own air
// and nozzle, and the rule for gas knows nothing of it.
func (m *model) oilAltitudeLine(top job.Given[units.Power]) Line {
	l := Line{ID: "altitude", Label: "Output at this altitude", Value: "ask the maker",
		Why:     "Nozzle and air of an oil burner are set for the altitude by its maker's table; no rule for gas is applied.",
		TooHigh: "A figure for sea level: house and hot water come short on the coldest days.",
		Caution: "The maker's rule for this burner outranks all else. Too much oil for the thin air makes soot and carbon monoxide: a licensed person sets it with an analyser.",
		Working: practice("Output at this altitude", "the maker's table outranks any rule")}
	if top.Set {
		l.Also = m.say(top.Value)
		l.Instead = "Until then the sheet reckons with the whole of it. The thin air also lowers the dew point, which is counted."
		if m.job.Boiler.AtSite == "yes" {
			l.Value, l.Also, l.Instead = m.say(top.Value), "", ""
			l.Why = "The maker's own figure for it, as surveyed: nothing is taken off. The thin air lowers the dew point, which is counted."
		}
	}
	return l
}

// altitudeLine adds what the altitude leaves of an atmospheric burner, where it takes
// anything.
func (m *model) altitudeLine(lines []Line) []Line {
	elevation := m.job.Site.Elevation
	if !elevation.Set || elevation.Value <= units.Feet(2000) {
		return lines
	}
	top := m.available()
	if m.job.Boiler.Fuel == "heating oil" {
		return append(lines, m.oilAltitudeLine(top))
	}
	if m.job.Boiler.AtSite == "yes" && top.Set {
		return append(lines, Line{ID: "altitude", Label: "Output at this altitude", Value: m.say(top.Value),
			Why:     "The maker's own figure for it, as surveyed: nothing is taken off. The thin air lowers the dew point, which is counted.",
			TooHigh: "A figure for sea level: house and hot water come short on the coldest days.",
			Working: practice("Output at this altitude", "the maker's table outranks any rule")})
	}
	l := Line{ID: "altitude", Label: "Output at this altitude", Why: "Only the maker's figures count this high.",
		Value: "ask the maker", Caution: "Fan-assisted and modulating burners follow their maker's own table, which outranks any rule; so does the local authority."}
	step := working.Step{Name: "What the altitude leaves of an atmospheric burner", Formula: "1 − 0.04 · h/1000 ft, counted from sea level, above 2000 ft",
		Inputs: []working.Input{{Symbol: "h", Meaning: "altitude", Value: elevation.Value, Known: string(elevation.How())}},
		Result: working.Input{Symbol: "h", Meaning: "altitude", Value: elevation.Value},
		Range:  "to 10,000 ft; burners without a maker's figure", Source: "NFPA 54/ANSI Z223.1 as quoted"}
	remains, err := boiler.AltitudeUS.Remains(elevation.Value)
	if err != nil && top.Set {
		l.Instead = "Until then the sheet reckons with " + m.say(top.Value) + ", which the rule leaves at " + m.say(altitudeRuleEnds) + "; this boiler gives less."
	}
	if err == nil {
		l.Value = m.say(remains) + " of the rating"
		l.Why = "The trade's rule for atmospheric burners; the thin air also lowers the dew point, which is counted."
		step.Result = working.Input{Symbol: "f", Meaning: "remains of the rated input", Value: remains}
		if top.Set {
			l.Also = m.say(top.Value)
			l.Instead = "The survey's output counts as rated at sea level; output limit, hot water and gas meter are worked out from what is left of it. " +
				"If it is the maker's figure for this altitude, say so: boiler › output_at_site."
		}
	}
	l.Working = []working.Step{step}
	return append(lines, l)
}
