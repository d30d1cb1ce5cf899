package settings

import (
	"fmt"
	"math"

	"curvewright/boiler"
	"curvewright/units"
	"curvewright/working"
)

// What does the gas of this supplier do, where its composition is in the survey, and
// against which heat do the maker's efficiencies count?

// fuel is the fuel of the survey: a usual one, or a gas by its composition.
func (m *model) fuel() (boiler.Fuel, error) {
	if g := m.job.Boiler.Gas; g != nil {
		fuel, err := boiler.GasOf("gas as surveyed", g.Parts()...)
		if err != nil {
			return fuel, fmt.Errorf("gas: %w", err)
		}
		return fuel, nil
	}
	return boiler.FuelByKey(fuelKey(m.job.Boiler.Fuel))
}

// ratedAgainst says against which heat the maker's efficiencies were taken to count.
func (m *model) ratedAgainst() string {
	net := 0
	for _, r := range m.job.Boiler.Rated {
		if r.Basis == "net" {
			net++
		}
	}
	switch net {
	case 0:
		return "taken as shares of gross heat (higher heating value)"
	case len(m.job.Boiler.Rated):
		return "taken as shares of net heat (lower heating value)"
	}
	return fmt.Sprintf("%d of them taken as shares of net heat (lower heating value)", net)
}

// strangeGas is by how much the heat in a gas may differ from a usual one of its kind
// before a burner set for that can hardly burn it safely (common practice).
const strangeGas = 0.10

// strangeFinding doubts a gas that burners for this fuel are not made for.
func (m *model) strangeFinding(gross units.HeatingValue, base boiler.Base) {
	usual, err := boiler.FuelByKey(fuelKey(m.job.Boiler.Fuel))
	if err != nil {
		return
	}
	kept, _, err := usual.HeatingValue(base)
	if err != nil || math.Abs(float64(gross/kept)-1) <= strangeGas {
		return
	}
	m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
		"The gas of the survey holds %s, a usual %s %s: a burner set for the one does not burn the other safely.", m.say(gross), m.job.Boiler.Fuel, m.say(kept)),
		Cures: []string{"look whether the components are right, and shares by volume", "ask supplier and boiler maker whether this burner may burn it; a licensed person sets it"}})
}

// gasLine tells what follows from the composition of the gas.
func (m *model) gasLine(b burner) (Line, error) {
	fuel := b.gas.Fuel
	base, at := boiler.BaseMetric, "at 15 °C and 1.01325 bar"
	if m.sys.In(units.HeatingValues) == units.US {
		base, at = boiler.BaseUS, "at 60 °F and 14.73 psi"
	}
	gross, net, err := fuel.HeatingValue(base)
	if err != nil {
		return Line{}, fmt.Errorf("boiler › gas: %w", err)
	}
	most, err := fuel.Burn(0, b.gas.Air)
	if err != nil {
		return Line{}, fmt.Errorf("boiler › gas: %w", err)
	}
	m.strangeFinding(gross, base)
	l := Line{ID: "fuel-gas", Label: "Gas by its composition", Value: fmt.Sprintf("CO2 %.1f %% at most", 100*float64(fuel.CO2Max())),
		Why:     fmt.Sprintf("It holds %s gross and takes %.1f volumes of air. Dew point %s.", m.say(gross), float64(fuel.AirDemand()), m.say(b.gas.DewPoint)),
		TooHigh: "More CO2 in the flue gas than this cannot be: look at the analyser and the fuel chosen in it.",
		TooLow:  "Less is excess air.",
		Working: []working.Step{
			{Name: "Air and flue gas of the gas", Formula: "air = (C + H/4 − O/2)/0.2095; CO2max = C/(C + N/2 + 0.7905 · air)",
				Inputs: []working.Input{{Symbol: "air", Meaning: "volumes for one of gas", Value: fuel.AirDemand()}},
				Result: working.Input{Symbol: "CO2max", Meaning: "of dry flue gas without excess air", Value: fuel.CO2Max()},
				Range:  "complete combustion in dry air", Source: "element balance; dry air with 20.95 % oxygen"},
			{Name: "Heat in the gas", Formula: "H = Σ share · H of the component",
				Inputs: []working.Input{{Symbol: "Hn", Meaning: "net, " + at, Value: net}},
				Result: working.Input{Symbol: "Hg", Meaning: "gross, " + at, Value: gross},
				Range:  "gases taken as ideal", Source: "heats of combustion of ISO 6976:1995, from memory"},
			{Name: "Dew point of its flue gas", Formula: "share of water vapour · air pressure = saturation pressure",
				Inputs: []working.Input{
					{Symbol: "t_dew", Meaning: "without excess air", Value: most.DewPoint},
					{Symbol: "e", Meaning: "excess air", Value: b.excess.Value, Known: string(b.excess.How())},
				},
				Result: working.Input{Symbol: "t_dew", Meaning: "dew point", Value: b.gas.DewPoint},
				Range:  "complete combustion", Source: "element balance; saturation: IAPWS R7-97(2012) region 4"},
		}}
	for _, p := range m.job.Boiler.Gas.Parts() {
		l.Working[0].Inputs = append(l.Working[0].Inputs, working.Input{Symbol: string(p.Component), Meaning: "share by volume", Value: p.Share})
	}
	return l, nil
}
