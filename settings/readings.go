package settings

import (
	"curvewright/curve"
	"curvewright/units"
	"curvewright/working"
)

// How does each expected reading come about: the supply by the curve's formula with its
// figures, the return by the heat taken, the heat by the rooms?

// curveInputs are the figures of a curve at an outdoor temperature, by the symbols of its
// formula.
func curveInputs(s curve.Setting, outdoor units.Temperature) []working.Input {
	to := working.Input{Symbol: "To", Meaning: "outdoor temperature", Value: outdoor}
	switch s.Kind {
	case curve.Table:
		return []working.Input{to}
	case curve.SlopeShift:
		return []working.Input{to, {Symbol: "Tr", Meaning: "room set-point of the control", Value: s.Room},
			{Symbol: "slope", Meaning: "supply for each degree that it gets colder", Value: units.Number(s.Slope)},
			{Symbol: "shift", Meaning: "parallel shift", Value: s.Shift}}
	}
	list := []working.Input{to,
		{Symbol: "Oc", Meaning: "outdoors at the cold point", Value: s.Cold.Outdoor}, {Symbol: "Tc", Meaning: "supply there", Value: s.Cold.Supply},
		{Symbol: "Om", Meaning: "outdoors at the mild point", Value: s.Mild.Outdoor}, {Symbol: "Tm", Meaning: "supply there", Value: s.Mild.Supply}}
	if s.Kind == curve.Bent {
		list = append(list, working.Input{Symbol: "e", Meaning: "exponent", Value: units.Number(s.Exponent)})
	}
	return list
}

// Reading is what the thermometers of a circuit should read in one weather, with how it
// comes about.
type Reading struct {
	Supply, Return, Heat []working.Step
}

// readings are the workings of the expected readings, in their order.
func (m *model) readings(s *Sheet, solved []solvedCircuit) []Reading {
	var list []Reading
	for _, e := range s.Expected {
		for i := range solved {
			if c := &m.circuits[i]; c.job.Name == e.Circuit {
				list = append(list, m.reading(c, solved[i], e))
			}
		}
	}
	return list
}

func (m *model) reading(c *circuit, s solvedCircuit, e Expected) Reading {
	supply := working.Step{Name: "Supply of " + c.job.Name + " at " + m.say(e.Outdoor) + " outdoors", Formula: fitFormula(c.shape.Kind),
		Inputs: curveInputs(s.setting, e.Outdoor),
		Result: working.Input{Symbol: "Ts", Meaning: "supply", Value: e.Supply},
		Range:  m.say(s.setting.Limit.From) + " to " + m.say(s.setting.Limit.To) + ", held there beyond",
		Source: "shape of the control's curve"}
	back := returnStep(c, "Return of "+c.job.Name+" at "+m.say(e.Outdoor)+" outdoors", e.Supply, e.Return)
	heat := working.Step{Name: "Heat that " + c.job.Name + " brings at " + m.say(e.Outdoor) + " outdoors", Formula: "Q = ΣQ",
		Result: working.Input{Symbol: "Q", Meaning: "heat to the rooms", Value: e.Heat},
		Range:  "steady weather, no sun; gains at night are taken off", Source: "EN 12831-1:2017 heat balance"}
	_, brought := m.carriedAt(c, e.Outdoor, e.Supply)
	for i, r := range c.solve.Rooms {
		heat.Inputs = append(heat.Inputs, working.Input{Symbol: "Q", Meaning: r.Name, Value: brought[i]})
	}
	if len(heat.Inputs) == 1 {
		r := c.solve.Rooms[0]
		heat.Formula = "Q = H · (Ti − To) + Hf · (Ti − Tf) − gains"
		heat.Inputs = []working.Input{{Symbol: "H", Meaning: "loss towards outdoors", Value: r.Loss.Outdoor},
			{Symbol: "Ti", Meaning: "room temperature", Value: min(r.Setpoint, c.solve.Reaches(0, e.Supply, e.Outdoor))}, {Symbol: "To", Meaning: "outdoor temperature", Value: e.Outdoor},
			{Symbol: "Hf", Meaning: "loss towards ground and neighbours", Value: r.Loss.Fixed}, {Symbol: "Tf", Meaning: "their temperature", Value: r.Loss.FixedAt},
			{Symbol: "gains", Meaning: "heat that can be relied on at night", Value: r.Gains}}
	}
	return Reading{Supply: []working.Step{supply}, Return: []working.Step{back}, Heat: []working.Step{heat}}
}
