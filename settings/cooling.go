package settings

import (
	"math"

	"curvewright/building"
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// How fast does the house, or one room, cool when no heat comes? Frost protection and
// the pauses of the heating for hot water both hang on it.

// usualFlux is a design load by floor area, taken where the survey has no area (common
// practice).
const usualFlux = units.Flux(50)

// leftCold is the house or one room with the heating off.
type leftCold struct {
	name     string
	loss     building.Loss
	start    units.Temperature
	area     job.Given[units.Area]
	constant units.Time
}

// cools makes a room ready to cool, with the capacity of a house of medium weight.
func (m *model) cools(name string, loss building.Loss, start units.Temperature, area units.Area) (leftCold, error) {
	c := leftCold{name: name, loss: loss, start: start, area: job.Given[units.Area]{Value: area, Known: job.Estimated, Set: area > 0}}
	c.area = c.area.Or(units.Area(math.Max(1, float64(loss.At(start, m.design))/float64(usualFlux))))
	capacity, err := building.Capacity(building.Medium, max(1, c.area.Value))
	if err != nil {
		return c, err
	}
	if c.constant, err = building.TimeConstant(capacity, loss); err != nil {
		return c, err
	}
	c.constant = max(units.Hours(1), min(units.Hours(1e4), c.constant))
	return c, nil
}

// houseCools is the house as one room.
func (m *model) houseCools() (leftCold, error) {
	var loss building.Loss
	area, setpoint := units.Area(0), 0.0
	for _, r := range m.rooms {
		loss = loss.Plus(r.loss)
		area += r.area
		setpoint += float64(r.setpoint) * float64(r.loss.Coefficient())
	}
	if m.house.area > area {
		area = m.house.area
	}
	return m.cools("the house", loss, units.Temperature(setpoint/float64(loss.Coefficient())), area)
}

// reaches gives the time until it has cooled to a temperature on the design day without
// any gains; false if it never does. It is [building.FreeCooling] solved for the time.
func (c leftCold) reaches(t, outdoor units.Temperature) (units.Time, bool) {
	end, err := c.loss.RoomWith(0, outdoor)
	if err != nil || end >= t-0.01 {
		return 0, false
	}
	if t >= c.start {
		return 0, true
	}
	after := c.constant * units.Time(math.Log(float64(c.start-end)/float64(t-end)))
	return after, after < units.Hours(1e4)
}

// working is the chain up to the time constant.
func (c leftCold) working() working.Step {
	return working.Step{Name: "Time constant of " + c.name, Formula: "τ = C / H, C = 165 kJ/m²K · A, a house of medium weight assumed",
		Inputs: []working.Input{
			{Symbol: "A", Meaning: "heated floor area", Value: c.area.Value, Known: string(c.area.How())},
			{Symbol: "H", Meaning: "heat loss per degree", Value: c.loss.Coefficient()},
		},
		Result: working.Input{Symbol: "τ", Meaning: "time constant", Value: c.constant},
		Range:  "one capacity: the air cools faster in the first half hour", Source: "ISO 13790 clause 12.2.1.3; capacity of its table 12, from memory",
		Note: "the weight of the house is not in the survey: light timber cools in two thirds of the time, masonry in one and a half times"}
}
