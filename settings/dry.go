package settings

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/boiler"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// How hot must the water of a boiler be that must not condense, which return do the settings
// leave it, and how long does it take from cold until it is dry? What such a boiler may not
// do hangs on its return, not on its supply: the supply follows from the return and the drop.

const (
	// usualLeastReturn is what boilers that must not condense are given for gas and oil alike,
	// 130 to 140 °F (common practice): below it oil's sulphur and cool corners of the iron
	// tell, though the water dew point may be lower.
	usualLeastReturn = units.Temperature((130.0-32)/1.8 + 273.15)
	// undiluted is the most excess air in the boiler itself under a draught hood (common
	// practice): what comes in at the hood thins the flue gas, not the gas at the iron.
	undiluted = units.Fraction(0.5)
	// longColdStart is how long a start may lie below the least return (common practice, ten
	// to fifteen minutes).
	longColdStart = units.Time(15 * 60)
	// coldWater is a system that stood for a night without heat (common practice).
	coldWater = units.Temperature(18 + 273.15)
)

// dryBoiler is what a boiler that must not condense asks of its water.
type dryBoiler struct {
	must  bool
	least job.Given[units.Temperature] // of the return
	dew   units.Temperature            // of the gas in the boiler
	air   units.Fraction               // excess, with which that counts
}

// readDry finds the least return: the maker's, else common practice or a margin above the
// dew point, whichever is more.
func (m *model) readDry() error {
	b := m.job.Boiler
	if b.Kind != "non-condensing" {
		return nil
	}
	fuel, err := m.fuel()
	if err != nil {
		return err
	}
	d := dryBoiler{must: true, air: m.excessAir().Value}
	if b.Burner == "atmospheric" {
		d.air = min(d.air, undiluted)
	}
	air := boiler.CellarAir()
	air.Altitude = m.job.Site.Elevation.Value
	gas, err := fuel.Burn(d.air, air)
	if err != nil {
		return err
	}
	least, err := gas.LeastReturn(boiler.UsualMargin)
	if err != nil {
		return err
	}
	d.dew, d.least = gas.DewPoint, b.Least.Or(max(least, usualLeastReturn))
	m.dry = d
	return nil
}

// dryFloor is the supply at which a direct circuit brings back the least return: that and
// the drop at the load of the hour. In a loop the drop grows with the supply.
func (m *model) dryFloor(c *circuit, outdoor units.Temperature) units.Temperature {
	least := m.dry.least.Value
	supply := least
	for range 12 {
		next := least.Add(max(0, supply.Sub(m.returnsAt(c, outdoor, supply))))
		if math.Abs(float64(next-supply)) < 0.01 {
			return next
		}
		supply = next
	}
	return supply
}

// mustStayHot tells a circuit that draws its water from such a boiler as it comes.
func (m *model) mustStayHot(c *circuit) bool {
	return m.dry.must && c.kind() != "mixed" && !c.withheld
}

// keptHot is the supply at which a boiler is kept that must not condense while all circuits
// mix: the least return and what a fire warms the water by.
func (m *model) keptHot() units.Temperature {
	if !m.dry.must {
		return 0
	}
	for i := range m.circuits {
		if m.mustStayHot(&m.circuits[i]) {
			return m.dry.least.Value // its curve keeps the boiler hot
		}
	}
	return m.dry.least.Value.Add(usualRise)
}

// condensateFollows is what too cool a supply leads to.
const condensateFollows = "Condensate in boiler and flue: rust, soot, carbon monoxide."

const rotsCaution = "Cold return rots a boiler not built to condense and soots its flue: carbon monoxide. The maker's least return comes first."

// returnLine says how cool the return may be and how cool it becomes, and reports a season
// that is too cool.
func (m *model) returnLine(s *BoilerSeason, b burner) Line {
	d := m.dry
	l := Line{ID: "least-return", Label: "Least return at the boiler", Value: m.control.step.Text(m.control.step.Up(d.least.Value)),
		TooHigh: "Needless loss up the flue.", TooLow: "Rust and soot under the flue collar, carbon monoxide.",
		Caution: "The maker's least return temperature outranks this figure; the vent must suit the flue gas.",
		Working: []working.Step{{Name: "Least return of a boiler that must not condense", Formula: "t_r = the maker's; else max(dew point + margin, 130 °F (54.4 °C))",
			Inputs: []working.Input{
				{Symbol: "t_dew", Meaning: "dew point of the flue gas in the boiler", Value: d.dew},
				{Symbol: "e", Meaning: "excess air in the boiler", Value: d.air},
				{Symbol: "margin", Meaning: "above it", Value: boiler.UsualMargin},
			},
			Result: working.Input{Symbol: "t_r", Meaning: "least return", Value: d.least.Value, Known: string(d.least.How())},
			Range:  b.gas.Fuel.Name, Source: "dew point: IAPWS R7-97(2012) region 4; margin and 130 °F common practice"}}}
	coolest := s.Points[0]
	for _, p := range s.Points {
		if p.Return < coolest.Return {
			coolest = p
		}
	}
	l.Why = fmt.Sprintf("From a quarter hour after a start. With these settings it comes back at %s or more, the least at %s outdoors.", m.say(coolest.Return), m.say(coolest.Outdoor))
	reached := working.Step{Name: "Return that the settings leave", Formula: "Tr = Ts − drop; a bypass that sends x straight back lifts it to Tr + x·(Ts − Tr)",
		Inputs: []working.Input{
			{Symbol: "To", Meaning: "outdoors, where it is the coolest", Value: coolest.Outdoor},
			{Symbol: "Ts", Meaning: "supply of the boiler there", Value: coolest.Supply},
			{Symbol: "t_r", Meaning: "least return", Value: d.least.Value},
		},
		Result: working.Input{Symbol: "Tr", Meaning: "return there", Value: coolest.Return},
		Range:  "steady; no bypass or mixing for the boiler's return is in the survey", Source: "mass and heat balance of the water"}
	const slack = units.Difference(0.05)
	if coolest.Return < d.least.Value.Add(-slack) {
		l.Why = fmt.Sprintf("Not reached with these settings: it comes back at %s at %s outdoors.", m.say(coolest.Return), m.say(coolest.Outdoor))
		if supply := max(coolest.Supply, d.least.Value.Add(usualRise)); supply > coolest.Return {
			share := units.Fraction(d.least.Value.Sub(coolest.Return) / supply.Sub(coolest.Return))
			reached.Inputs = append(reached.Inputs, working.Input{Symbol: "Ts", Meaning: "supply of the boiler with a bypass", Value: supply},
				working.Input{Symbol: "x", Meaning: "share of the boiler's water that goes straight back", Value: share})
			l.Instead = fmt.Sprintf("With the boiler at %s a bypass that sends %.0f %% of its water straight back lifts the return to %s.", m.say(supply), 100*float64(share), m.say(d.least.Value))
		}
		m.tooCoolReturn(coolest, l)
	}
	l.Working = append(l.Working, reached)
	return l
}

// tooCoolReturn reports the coolest return of the season.
func (m *model) tooCoolReturn(coolest BoilerPoint, l Line) {
	protection := "return protection: a mixing valve or a bypass pump with a sensor of its own"
	f := Finding{Severity: "stop", Text: fmt.Sprintf(
		"The boiler must stay dry and its return falls to %s at %s outdoors; it should not be below %s.",
		m.say(coolest.Return), m.say(coolest.Outdoor), l.Value),
		Cures:   []string{protection, "with that protection the circuits mixed behind the boiler, and the boiler itself kept at " + m.say(m.dry.least.Value.Add(usualRise)) + " or more"},
		Working: l.Working}
	if coolest.Return >= m.dry.dew && !m.dry.least.Set {
		// Dry by the figures, with less to spare than is usual.
		f.Severity = "note"
		f.Text = fmt.Sprintf("The boiler must stay dry: its return falls to %s at %s outdoors, and the flue gas begins to condense at %s. It should not be below %s.",
			m.say(coolest.Return), m.say(coolest.Outdoor), m.say(m.dry.dew), l.Value)
		f.Cures = []string{protection, "a look under the flue collar for rust and soot every year"}
	}
	m.findings = append(m.findings, f)
}

// coldStart is how long the return of a boiler that must not condense stays below its least
// after a cold night, with all circuits open.
func (m *model) coldStart() (t units.Time, never, known bool) {
	output, capacity := m.available(), 0.0
	factor, err := m.fluid().HeatFactor((coldWater + m.dry.least.Value) / 2)
	if capacity = float64(factor) * float64(m.startWater().Value); !output.Set || err != nil || capacity <= 0 {
		return 0, false, false
	}
	const steps = 40
	step := m.dry.least.Value.Sub(coldWater) / steps
	for i := range steps {
		water := coldWater.Add(step * (units.Difference(i) + 0.5))
		left := output.Value - m.emittedAt(water)
		if left <= output.Value/50 {
			return 0, true, true
		}
		t += units.Time(capacity * float64(step) / float64(left))
	}
	return t, false, true
}

// startWater is the water that must come up to temperature: all of the system.
func (m *model) startWater() job.Given[units.Volume] {
	water := m.content()
	if b := m.job.Boiler.Water; b.Set && b.Value > water.Value {
		return b
	}
	return water
}

// emittedAt is what the circuits take of water at a temperature, of which a mixed circuit and
// one that may not see the boiler's water take no more than their own supply on the design
// day gives.
func (m *model) emittedAt(water units.Temperature) units.Power {
	sum := units.Power(0)
	for i := range m.circuits {
		c := &m.circuits[i]
		taken, _ := c.solve.Water(min(water, c.limits[0].supply))
		if c.kind() == "mixed" {
			taken = min(taken, cmp.Or(c.taken, c.load))
		}
		sum += max(0, taken)
	}
	return sum
}

// coldStartLine tells how long the boiler condenses after a cold start.
func (m *model) coldStartLine() (Line, bool) {
	t, never, known := m.coldStart()
	if !known {
		return Line{}, false
	}
	water := m.startWater()
	l := Line{ID: "cold-start", Label: "Cold start", Value: minutes(t) + " too cool",
		Why:     fmt.Sprintf("%s of water from %s to %s at full fire, all circuits open.", m.about(water.Value, false), m.say(coldWater), m.say(m.dry.least.Value)),
		TooHigh: "Longer: the boiler condenses at every start, most after a night that was lowered.",
		Caution: rotsCaution,
		Working: []working.Step{{Name: "Time below the least return after a cold start", Formula: "t = Σ V·ρ·c·dT/(Q − Q_emitters(T))",
			Inputs: []working.Input{
				{Symbol: "V", Meaning: "water of the whole system", Value: water.Value, Known: string(water.How())},
				{Symbol: "Q", Meaning: m.outputWords("highest output of the boiler"), Value: m.available().Value, Known: string(m.available().How())},
				{Symbol: "T", Meaning: "at the start", Value: coldWater, Known: string(job.Assumed)},
				{Symbol: "t_r", Meaning: "least return", Value: m.dry.least.Value},
				{Symbol: "Q_emitters", Meaning: "taken by the emitters there, rooms at their set-points", Value: m.emittedAt(m.dry.least.Value)},
			},
			Result: working.Input{Symbol: "t", Meaning: "below the least return", Value: t},
			Range:  "an estimate: all water mixed; iron and cold rooms, which make it longer, are not counted", Source: "heat balance of the water"}}}
	cures := []string{"return protection: a mixing valve or a bypass pump with a sensor of its own", "the circuits' pumps held back until the boiler is warm", "no lowering at night, so that the water stays warm"}
	switch {
	case never:
		l.Value = "never warm enough"
		l.Why = fmt.Sprintf("At %s the emitters already take all of the boiler's %s.", m.say(m.dry.least.Value), m.say(m.available().Value))
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"With all circuits open a cold start never ends: before the return is at %s the emitters take all that the boiler gives, %s. It condenses until valves close.",
			m.say(m.dry.least.Value), m.say(m.available().Value)), Cures: cures, Working: l.Working})
	case t > longColdStart:
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"After a cold start the boiler condenses for about %s, until %s of water are at %s. Ten to fifteen minutes are usual.",
			minutes(t), m.about(water.Value, false), m.say(m.dry.least.Value)), Cures: cures, Working: l.Working})
	}
	return l, true
}
