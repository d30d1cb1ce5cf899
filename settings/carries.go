package settings

import (
	"curvewright/fluid"
	"curvewright/units"
	"curvewright/working"
)

// How much heat does a flow carry: the "500" of the trade, exactly, for the fluid and the
// temperature at hand?

// coldRule is the temperature for which the 500 is right: 60 °F.
const coldRule = units.Temperature(288.70556)

// carriesStep is the factor between flow, drop and heat with which a flow was worked out.
func (m *model) carriesStep(fill fluid.Mixture, at units.Temperature) []working.Step {
	density, err := fill.Density(at)
	if err != nil {
		return nil
	}
	heat, err := fill.SpecificHeat(at)
	if err != nil {
		return nil
	}
	step := working.Step{Name: "Heat that the flow carries", Formula: "Q = k · V̇ · ΔT, k = ρ·cp; k = 1.16 kWh/m³K, 0.070 kW for 1 L/min and 1 K, with cold water",
		Inputs: []working.Input{
			{Symbol: "T", Meaning: "at which the flow is told", Value: at},
			{Symbol: "ρ", Meaning: "density there", Value: density},
			{Symbol: "cp", Meaning: "specific heat there", Value: heat},
		},
		Result: working.Input{Symbol: "k", Meaning: "here", Value: units.VolumetricHeat(float64(density) * float64(heat))},
		Range:  fill.String(), Source: "definition; water: IAPWS R7-97(2012)"}
	if m.sys.In(units.Flows) == units.US {
		step.Formula = "Q = k · V̇ · ΔT, k = ρ·cp; the trade's k = 8.33 lb/gal · 60 min/h · 1.0 Btu/lb·°F = 500 with cold water"
	}
	if fill.Mass > 0 {
		step.Source = "definition; glycol: Melinder 2010, water: IAPWS R7-97(2012)"
		if water, err := fluid.Water().HeatFactor(at); err == nil {
			step.Inputs = append(step.Inputs, working.Input{Symbol: "k", Meaning: "of water there", Value: water})
		}
	}
	if cold, err := fluid.Water().HeatFactor(coldRule); err == nil {
		step.Inputs = append(step.Inputs, working.Input{Symbol: "k", Meaning: "of water at " + m.say(coldRule), Value: cold})
	}
	return []working.Step{step}
}
