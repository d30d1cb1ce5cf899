package settings

import (
	"fmt"
	"math"
	"strings"

	"curvewright/boiler"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// What does the boiler do under these settings: does it condense, and how often does
// it start?

const (
	usualDifferential = units.Difference(5)
	usualLeastRun     = units.Time(600)
	// usualExcess is that of a burner with a fan: about 9 % CO2 with natural gas. An
	// atmospheric one has 80 to 100 % behind its draught hood. Both common practice.
	usualExcess       = units.Fraction(0.25)
	atmosphericExcess = units.Fraction(0.90)
	// atReturn counts heat as made condensing where the return is below the dew point, as the
	// sheet says it: water falls out first where the exchanger is as cold as the return. How
	// much of it does, and so the approach of a rated boiler, is in the efficiency.
	atReturn = units.Difference(0)
	// leastWater is what the smallest boiler and its pipes hold, m³ (common practice).
	leastWater = units.Volume(0.01)
)

// burner is the boiler made ready to calculate with.
type burner struct {
	model   boiler.Model
	gas     boiler.FlueGas
	fit     *boiler.Fit
	water   job.Given[units.Volume]
	swing   job.Given[units.Difference]
	run     job.Given[units.Time]
	excess  job.Given[units.Fraction]
	least   job.Given[units.Power]
	cycling boiler.Cycling
}

func fuelKey(name string) string {
	switch name {
	case "propane":
		return "propane"
	case "heating oil":
		return "oil"
	}
	return "natural-gas"
}

// excessAir is the excess air: from the analyser, else as usual for the kind of burner.
func (m *model) excessAir() job.Given[units.Fraction] {
	if m.job.Boiler.Burner == "atmospheric" {
		return m.job.Boiler.ExcessAir.Or(atmosphericExcess)
	}
	return m.job.Boiler.ExcessAir.Or(usualExcess)
}

func (m *model) readBurner() (burner, error) {
	b := m.job.Boiler
	out := burner{swing: b.Differential.Or(usualDifferential), run: b.LeastRun.Or(usualLeastRun), excess: m.excessAir()}
	fuel, err := m.fuel()
	if err != nil {
		return out, err
	}
	air := boiler.CellarAir()
	air.Altitude = m.job.Site.Elevation.Value
	least := units.Fraction(1)
	if b.Output.Set && b.MinOutput.Set {
		least = max(0.02, units.Fraction(b.MinOutput.Value/b.Output.Value))
	}
	if out.model, err = boiler.NewModel(fuel, out.excess.Value, air, b.Kind != "non-condensing", least); err != nil {
		return out, err
	}
	if len(b.Rated) > 0 {
		points := make([]boiler.RatedPoint, len(b.Rated))
		for i, r := range b.Rated {
			points[i] = boiler.RatedPoint{Return: r.Return.Value, Rate: r.Rate.Or(1).Value, Efficiency: r.Efficiency.Value}
			if r.Basis == "net" {
				points[i].Basis = boiler.Net
			}
		}
		model, fit, err := out.model.Calibrated(points)
		if err != nil {
			return out, fmt.Errorf("rated: %w", err)
		}
		out.model, out.fit = model, &fit
	}
	out.gas = out.model.FlueGas()
	if out.water = b.Water; !b.Water.Set {
		out.water = m.content()
		out.water.Value = max(out.water.Value, leastWater)
	}
	out.least = m.leastOutput()
	out.cycling = boiler.Cycling{Water: out.water.Value, Fluid: m.fluid(), Least: out.least.Value, Differential: out.swing.Value}
	if out.least.Set {
		out.cycling.LeastOff = shortestPause()
	}
	return out, nil
}

// boilerSeason works out the season. A boiler whose survey does not allow it leaves
// Known unset: the settings do not hang on it.
func (m *model) boilerSeason(solved []solvedCircuit) (BoilerSeason, burner, error) {
	b, err := m.readBurner()
	if err != nil {
		return BoilerSeason{}, b, fmt.Errorf("boiler: %w", err)
	}
	s := BoilerSeason{Known: true, DewPoint: b.gas.DewPoint, Water: b.water.Value, Cycles: b.least.Set}
	weather := make([]boiler.Weather, len(solved[0].at))
	heat, fuel := 0.0, 0.0
	for k, a := range solved[0].at {
		water := m.streams.states[k]
		supply, ret, load := water.boiler, water.mixed.BoilerReturn, max(0, water.mixed.SystemHeat)
		weather[k] = boiler.Weather{Outdoor: a.Outdoor, Time: a.Hours, Load: load, Return: ret}
		p := BoilerPoint{Outdoor: a.Outdoor, Supply: supply, Return: ret, Load: load}
		rate := units.Fraction(1)
		if m.job.Boiler.Output.Set {
			rate = min(m.altitudeLeaves(), units.Fraction(load/m.job.Boiler.Output.Value))
		}
		rate = max(b.model.LeastRate, min(1, rate))
		p.rate = rate
		if p.Efficiency, err = b.model.Efficiency(ret, rate, boiler.Gross); err != nil {
			return BoilerSeason{}, b, fmt.Errorf("boiler: %w", err)
		}
		heat += float64(load) * float64(a.Hours)
		fuel += float64(load) * float64(a.Hours) / math.Max(0.3, float64(p.Efficiency))
		if s.Cycles {
			b.cycling.At = (supply + ret) / 2
			cycle, err := b.cycling.Under(load)
			if err != nil {
				return BoilerSeason{}, b, fmt.Errorf("boiler: %w", err)
			}
			p.Run, p.Rest = cycle.On, cycle.Off
		}
		s.Points = append(s.Points, p)
	}
	if fuel > 0 {
		s.Efficiency = units.Fraction(heat / fuel)
	}
	if m.job.Boiler.Kind != "non-condensing" {
		share, err := b.gas.CondensingShare(weather, atReturn)
		if err != nil {
			return BoilerSeason{}, b, fmt.Errorf("boiler: %w", err)
		}
		s.Condensing = share.ByHeat
	}
	if s.Cycles {
		if err = m.cycles(&s, &b, weather); err == nil {
			err = m.yearStarts(&s, &b, solved)
		}
	}
	return s, b, err
}

// cycles adds the starts of the season and the buffer that would calm the worst of it.
func (m *model) cycles(s *BoilerSeason, b *burner, weather []boiler.Weather) error {
	season, err := b.cycling.Season(weather)
	if err != nil {
		return fmt.Errorf("boiler: %w", err)
	}
	s.Steady, s.SteadyAt = units.Number(season.Worst.Starts.PerHour()), season.WorstAt
	shortest := weather[len(weather)-1]
	for _, w := range weather {
		if w.Load < b.cycling.Least && w.Load < shortest.Load && w.Load > 0 {
			shortest = w
		}
	}
	if shortest.Load < b.cycling.Least {
		total, err := boiler.Buffer(b.run.Value, b.cycling.Least, shortest.Load, b.swing.Value, m.fluid(), b.cycling.At)
		if err != nil {
			return fmt.Errorf("boiler: %w", err)
		}
		if s.shortestRun() < b.run.Value {
			s.Buffer = max(0, total-b.water.Value)
		}
	}
	load := func(to units.Temperature) units.Power {
		sum := units.Power(0)
		for _, r := range m.rooms {
			sum += max(0, r.loss.At(r.setpoint, to)-r.gains)
		}
		return sum
	}
	modulation, err := boiler.ContinuousBelow(load, b.cycling.Least, m.design, weather[len(weather)-1].Outdoor)
	if err != nil {
		return fmt.Errorf("boiler: %w", err)
	}
	switch {
	case modulation.Never:
		s.Modulation = "it cycles in any weather"
	case modulation.Ever:
		s.Modulation = "it runs through in all heating weather"
	default:
		s.Modulation = "it runs through below " + m.say(modulation.Below) + " outdoors and cycles above"
	}
	return nil
}

// condensingLines say how much of the season's heat is made condensing.
func (m *model) condensingLines(s *BoilerSeason, b burner) []Line {
	if m.job.Boiler.Kind == "non-condensing" {
		return nil
	}
	if b.fit != nil && b.model.Approach > boiler.FlueApproachLimit {
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"The maker's efficiencies fit only flue gas that leaves %s hotter than the water comes back; a condensing boiler keeps below %s.",
			m.say(b.model.Approach), m.say(boiler.FlueApproachLimit)),
			Cures: []string{"look whether the figures count gross or net heat", "look whether they are for this boiler, and at which return"}, Working: m.seasonWorking(s, b)})
	}
	return []Line{{ID: "condensing", Label: "Condensing", Value: fmt.Sprintf("%.0f %% of the season", 100*float64(s.Condensing)),
		Why:     fmt.Sprintf("Share of the heat made with a return below %s; about %.0f %% efficient over the season, against gross heat.", m.say(s.DewPoint), 100*float64(s.Efficiency)),
		TooLow:  "A hot return condenses nothing: look for a curve too high, a boiler pump faster than the system, too much flow.",
		Caution: "Condensate is acid: drain, neutraliser and frost protection as maker and local code say.",
		Working: m.seasonWorking(s, b)}}
}

// burnerLines are what is set on the burner against needless starts.
func (m *model) burnerLines(s *BoilerSeason, b burner) []Line {
	if !s.Cycles {
		return nil
	}
	d := Line{ID: "differential", Label: "Burner differential", Value: strings.TrimPrefix(m.difference(b.swing.Value), "+"),
		Why: fmt.Sprintf("The burner %s; about %s starts a season, %.1f an hour at worst.",
			strings.TrimPrefix(s.Modulation, "it "), s.StartsText(m.sys), float64(s.Worst)) + m.waterWords(s),
		TooHigh: "The supply swings and the return is hotter than it need be.", TooLow: "Short runs, many starts, wear and soot."}
	if b.least.Known == job.Assumed {
		d.Instead = "The survey names no lowest output: taken as a burner that knows only on and off."
	}
	d.Working = m.cycleWorking(s, b)
	rest := Line{ID: "rest", Label: "Shortest burner pause", TooHigh: "Rooms feel the pause in mild weather.", TooLow: "The burner answers every small call.",
		Why: "Holds the starts to six an hour with hardly any load.", Working: d.Working}
	rest.Value = fmt.Sprintf("%.0f min", float64(b.cycling.LeastOff)/60)
	if float64(s.Worst) > 6.05 {
		rest.Why = fmt.Sprintf("Holds the starts to %.1f an hour with runs of %s; calmer only with more water.", float64(s.Worst), minutes(s.WorstRun))
	}
	if text, water := m.lackingWater(s, b); text != "" {
		m.findings = append(m.findings, Finding{Severity: "note", Text: text,
			Cures:   []string{"a buffer of about " + water, "a wider differential and a longer pause", "leaving one large circuit always open"},
			Working: d.Working})
	}
	return []Line{d, rest}
}

// lackingWater says how much water is missing for the runs wanted, with all valves open and
// where the most demanding circuit calls alone, and the larger of both.
func (m *model) lackingWater(s *BoilerSeason, b burner) (text, water string) {
	const matters = units.Volume(0.005)
	fire := "the burner's least output of "
	if m.onOff() {
		fire = "the burner's one fire of "
	}
	if s.Buffer > matters {
		water = s.BufferText(m.sys)
		text = fmt.Sprintf("In mild weather %s%s is more than the house takes: with %s of water its runs are as short as %s. For runs of %s about %s more water would be needed in steady weather with all valves open.",
			fire, m.say(b.cycling.Least), m.about(s.Water, false), minutes(s.shortestRun()), minutes(b.run.Value), water)
	}
	if alone := (BoilerSeason{Buffer: s.AloneBuffer}); s.AloneBuffer > max(matters, s.Buffer*1.1) {
		water = alone.BufferText(m.sys)
		if text == "" {
			return fmt.Sprintf("Where %s calls alone, %s%s is more than it takes. For runs of %s about %s more water would be needed then.", s.Alone, fire, m.say(b.cycling.Least), minutes(b.run.Value), water), water
		}
		text += fmt.Sprintf(" Where %s calls alone, it is about %s.", s.Alone, water)
	}
	return text, water
}

func (s *BoilerSeason) shortestRun() units.Time {
	run := units.Time(math.Inf(1))
	for _, p := range s.Points {
		if p.Run > 0 {
			run = min(run, p.Run)
		}
	}
	if math.IsInf(float64(run), 1) {
		return 0
	}
	return run
}

func (m *model) seasonWorking(s *BoilerSeason, b burner) []working.Step {
	last, first := s.Points[len(s.Points)-1], s.Points[0]
	steps := []working.Step{
		{Name: "Dew point of the flue gas", Formula: "share of water vapour · air pressure = saturation pressure",
			Inputs: []working.Input{
				{Symbol: "e", Meaning: "excess air", Value: b.excess.Value, Known: string(b.excess.How())},
				{Symbol: "H2O", Meaning: "share of water vapour in the flue gas", Value: b.gas.WaterWet},
			},
			Result: working.Input{Symbol: "t_dew", Meaning: "dew point", Value: s.DewPoint},
			Range:  b.gas.Fuel.Name, Source: "element balance of the fuel (" + b.gas.Fuel.Source + "); saturation: IAPWS R7-97(2012) region 4"},
		{Name: "Return at the boiler", Formula: "Tr = ΣC·Tr / ΣC; a mixed circuit draws C · (Ts − Tr)/(Tb − Tr); a separator may send some supply straight back",
			Inputs: []working.Input{
				{Symbol: "Tr", Meaning: "on the design day", Value: first.Return},
				{Symbol: "Tr", Meaning: "where heating ends", Value: last.Return},
			},
			Result: working.Input{Symbol: "share", Meaning: "of the season's heat made below the dew point", Value: s.Condensing},
			Range:  "steady; flows as surveyed or assumed", Source: "mass and heat balance of the water; hours of a made-up year"},
	}
	steps = append(steps, m.stackSteps(s, b)...)
	note := "the maker's efficiencies are not in the survey: a usual boiler of its kind"
	if b.fit != nil {
		note = fmt.Sprintf("calibrated on the maker's %d points, %s, which it misses by %.1f points of efficiency in the mean", len(m.job.Boiler.Rated), m.ratedAgainst(), 100*float64(b.fit.Mean))
	}
	return append(steps, working.Step{Name: "Efficiency of the season", Formula: "η = Σheat / Σ(heat/η(return, firing rate)), against gross heat",
		Inputs: []working.Input{
			{Symbol: "η", Meaning: "on the design day", Value: first.Efficiency},
			{Symbol: "η", Meaning: "where heating ends", Value: last.Efficiency},
		},
		Result: working.Input{Symbol: "η", Meaning: "over the season", Value: s.Efficiency},
		Range:  "steady fire; starts, standby and purge are not counted", Source: "heat balance of the flue gas; approach and jacket loss common practice", Note: note})
}

// stackSteps is what goes up the flue on the design day: by the published coefficients of
// the fuel, which know no condensing, and by the full balance.
func (m *model) stackSteps(s *BoilerSeason, b burner) []working.Step {
	first, air := s.Points[0], b.gas.Air.Temperature
	exit, err := b.model.ExitGas(first.Return, first.rate)
	if err != nil {
		return nil
	}
	balance, err := b.gas.Leaving(exit)
	if err != nil {
		return nil
	}
	full := working.Step{Name: "Loss up the flue by the full balance", Formula: "loss = 1 − η; t_G = return + approach · rate^exponent",
		Inputs: []working.Input{
			{Symbol: "approach", Meaning: "flue gas above the return at full fire", Value: b.model.Approach},
			{Symbol: "rate", Meaning: "of full fire on the design day", Value: first.rate},
			{Symbol: "t_G", Meaning: "flue gas", Value: exit},
			{Symbol: "t_L", Meaning: "combustion air", Value: air, Known: string(job.Assumed)},
		},
		Result: working.Input{Symbol: "loss", Meaning: "of the gross heat, latent heat included", Value: 1 - balance.Gross},
		Range:  b.gas.Fuel.Name, Source: "heat and element balance of the flue gas"}
	coefficients := b.gas.Fuel.Siegert
	if coefficients.A2 <= 0 {
		return []working.Step{full}
	}
	published := working.Step{Name: "Loss up the flue by Siegert's formula",
		Formula: fmt.Sprintf("qA = (t_G − t_L) · (%.2f/(21 − O2) + %.3f), temperatures in °C, in %%", float64(coefficients.A2), float64(coefficients.B)),
		Inputs: []working.Input{
			{Symbol: "t_G", Meaning: "flue gas on the design day", Value: exit},
			{Symbol: "t_L", Meaning: "combustion air", Value: air, Known: string(job.Assumed)},
			{Symbol: "O2", Meaning: "dry", Value: b.gas.O2Dry},
		},
		Range: "dry flue gas of 65 to 450 °C", Source: "1. BImSchV, annex 2; form as quoted in glossaries, coefficients from memory"}
	if loss, err := coefficients.LossByOxygen(exit, air, b.gas.O2Dry); err == nil {
		published.Result = working.Input{Symbol: "qA", Meaning: "of the net heat", Value: loss}
	} else {
		coolest := units.Celsius(65)
		published.Inputs[0] = working.Input{Symbol: "t_G", Meaning: "flue gas, the coolest for which the formula is meant", Value: coolest}
		published.Note = "the flue gas leaves with " + m.say(exit) + " and may condense, which the formula does not count: the full balance does"
		if loss, err = coefficients.LossByOxygen(coolest, air, b.gas.O2Dry); err != nil {
			return []working.Step{full}
		}
		published.Result = working.Input{Symbol: "qA", Meaning: "of the net heat, at that", Value: loss}
	}
	return []working.Step{published, full}
}

func (m *model) cycleWorking(s *BoilerSeason, b burner) []working.Step {
	return []working.Step{{Name: "Runs and rests of the burner", Formula: "t_off = max(C·ΔT/Q, pause), t_on = t_off·Q/(Q_least − Q), N = 1/(t_on + t_off)",
		Inputs: []working.Input{
			{Symbol: "Q_least", Meaning: "least output", Value: b.cycling.Least, Known: string(b.least.How())},
			{Symbol: "pause", Meaning: "shortest, as on this sheet", Value: b.cycling.LeastOff},
			{Symbol: "V", Meaning: "water that warms and cools with the burner", Value: b.water.Value, Known: string(b.water.How())},
			{Symbol: "ΔT", Meaning: "differential", Value: b.swing.Value, Known: string(b.swing.How())},
			{Symbol: "To", Meaning: "weather with the most starts", Value: s.SteadyAt},
		},
		Result: working.Input{Symbol: "N", Meaning: "starts an hour there", Value: s.Steady},
		Range:  "steady weather with all valves open; metal and sensor delay not counted",
		Source: "energy balance; the form N = 4·Nmax·x·(1 − x) is NEMA DC 3 and ASHRAE, from memory"},
		m.startsWorking(s, b)}
}

// minutes writes a time as a person with a watch would.
func minutes(t units.Time) string {
	x := float64(t) / 60
	if x < 10 {
		return fmt.Sprintf("%.1f\u00a0min", x)
	}
	return fmt.Sprintf("%.0f\u00a0min", x)
}
