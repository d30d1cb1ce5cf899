package settings

import (
	"curvewright/units"
	"curvewright/working"
)

// figures are the figures behind the lines that a person may ask about: the load of the
// house and of every room, what each room needs, the flows and the expected return.
func (m *model) figures(s *Sheet, solved []solvedCircuit) []Figure {
	total := working.Step{Name: "Heat load of the house on the design day", Formula: "Q = ΣQ of the rooms, without gains",
		Result: working.Input{Symbol: "Q", Meaning: "heat load", Value: s.Load.Total},
		Range:  "steady cold, no sun", Source: "EN 12831-1:2017 without reheat; " + s.Load.Source}
	for i := range m.rooms {
		total.Inputs = append(total.Inputs, working.Input{Symbol: "Q", Meaning: m.rooms[i].name, Value: s.Load.Rooms[i].Load})
	}
	out := []Figure{{ID: "load", Label: "Heat load of the house", Value: s.Load.Total, Working: append(append([]working.Step{}, m.house.working...), total)}}
	for i, r := range m.rooms {
		q := s.Load.Rooms[i].Load
		out = append(out, Figure{ID: "load." + key(r.name), Label: "Heat load of " + r.name, Value: q,
			Working: append(append([]working.Step{}, r.working...), working.Step{
				Name: "Heat load of " + r.name + " on the design day", Formula: "Q = H · (Ti − To) + Hf · (Ti − Tf)",
				Inputs: []working.Input{
					{Symbol: "H", Meaning: "loss towards outdoors", Value: r.loss.Outdoor},
					{Symbol: "Hf", Meaning: "loss towards ground and neighbours", Value: r.loss.Fixed},
					{Symbol: "Ti", Meaning: "room temperature", Value: r.setpoint},
					{Symbol: "To", Meaning: "design outdoor temperature", Value: m.design, Known: string(m.job.Site.DesignOutdoor.How())},
				},
				Result: working.Input{Symbol: "Q", Meaning: "heat load", Value: q},
				Range:  "steady cold, no sun", Source: "EN 12831-1:2017"})})
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		for k, r := range c.solve.Rooms {
			need := solved[i].at[0].Needs[k]
			out = append(out, Figure{ID: c.key + ".need." + key(r.Name), Label: "Supply that " + r.Name + " needs on the design day",
				Value: need, Working: m.needWorking(c, solved[i], k)})
		}
		p := solved[i].out.Points[0]
		out = append(out, Figure{ID: c.key + ".return", Label: "Return of " + c.job.Name + " on the design day", Value: p.Return,
			Working: []working.Step{returnStep(c, "Return on the design day", p.Set, p.Return)}})
	}
	return out
}

// returnStep is how the return of a circuit follows from its supply.
func returnStep(c *circuit, name string, supply, back units.Temperature) working.Step {
	return working.Step{Name: name, Formula: "Tr = Ts − Q/C",
		Inputs: []working.Input{
			{Symbol: "Ts", Meaning: "supply set", Value: supply},
			{Symbol: "Q", Meaning: "heat that the rooms take, with what is lost below floors", Value: units.Power(float64(supply-back) * float64(c.solve.Flow))},
			{Symbol: "C", Meaning: "water, heat per degree", Value: c.solve.Flow, Known: string(c.flowHow)},
		},
		Result: working.Input{Symbol: "Tr", Meaning: "return", Value: back},
		Range:  "rooms at their set-points, valves holding back the rest", Source: "heat balance of the water"}
}
