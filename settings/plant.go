package settings

import (
	"cmp"
	"fmt"
	"strings"

	"curvewright/units"
)

// What stands in the boiler room, and can it be so? The drawing needs it in words that no
// longer hang on the survey's form.

const (
	// leastRise and mostRise are by how much a boiler at full fire warms its water: common
	// practice, with the maker's own limits inside them.
	leastRise = units.Difference(4)
	mostRise  = units.Difference(35)
	// usualRise is what a boiler pump is chosen for (common practice, 20 °F).
	usualRise = units.Difference(20 / 1.8)
	// leastDrop of a circuit is within what two thermometers differ.
	leastDrop = units.Difference(2)
)

// plant takes from the survey what a drawing of the boiler room shows. What nobody
// surveyed stays empty; the drawing says so.
func (m *model) plant() Plant {
	j := m.job
	p := Plant{BoilerKind: j.Boiler.Kind, Separator: j.Separator.Kind, SeparatorSensor: j.Separator.Sensor, BufferVolume: j.Separator.Volume.Value,
		HotWater: j.HotWater.By, TankVolume: j.HotWater.Tank.Value, TankSetpoint: j.HotWater.Setpoint.Value,
		Vessel: j.System.Vessel.Set, Relief: j.System.Relief.Set, OutdoorSensor: j.OutdoorSensor.Fitted, OutdoorPlace: j.OutdoorSensor.Place,
		Loop: j.HotWater.Loop == "yes", MixingValveAtTank: j.HotWater.Mixing == "yes"}
	for i := range m.circuits {
		c := &m.circuits[i]
		drawn := PlantCircuit{Name: c.job.Name, Kind: c.kind(), Family: c.family, Limit: c.limits[0].supply, PumpOf: c.job.PumpOf}
		if c.job.Pump != nil {
			drawn.PumpMode = cmp.Or(c.job.Pump.Mode, "fixed speed")
		}
		p.Circuits = append(p.Circuits, drawn)
	}
	return p
}

// SeparatorSensorWords says where the sensor of a separator sits and to what it is wired,
// for the sheet and the drawing alike.
//
// Range: the words of the survey; nothing for others.
// Source: common practice: it belongs where the circuits draw.
func SeparatorSensorWords(wired string) string {
	switch wired {
	case "at the boiler":
		return "sensor behind it, wired to the boiler"
	case "on a module":
		return "sensor behind it, wired to a module"
	}
	return ""
}

// plantFindings tell what in the survey of the boiler room cannot well be so.
func (m *model) plantFindings() {
	m.riseFinding()
	for i := range m.circuits {
		c := &m.circuits[i]
		if c.job.Flow.Set && c.drop < leastDrop {
			m.findings = append(m.findings, Finding{Severity: "note", Circuit: c.job.Name, Text: fmt.Sprintf(
				"%s of water in %s would lose only %s on the design day: that is far more water than the rooms need, or a slip in the survey.", m.say(c.flow), c.job.Name, m.say(c.drop)),
				Cures: []string{"measure supply and return in steady cold: their difference gives the flow", "a slower pump, until the drop is near " + m.roughly(usualRise)}})
		}
	}
	if s := m.job.Separator; strings.HasSuffix(s.Kind, "buffer") && !s.Volume.Set && m.job.Boiler.MinOutput.Set && !m.job.Boiler.Water.Set {
		m.findings = append(m.findings, Finding{Severity: "note",
			Text:  "The survey does not say how much water the " + s.Kind + " holds: runs and starts of the burner are reckoned as if there were none in it.",
			Cures: []string{"separator › volume, from its rating plate"}})
	}
}

// riseFinding weighs the flow of the boiler's pump against what the boiler puts into it.
func (m *model) riseFinding() {
	s := &m.streams
	if !s.separated || !m.job.Separator.Flow.Set || s.boiler.Value <= 0 {
		return
	}
	heat, words := m.available().Value, "at its full output of "
	if heat <= 0 {
		heat, words = s.states[0].mixed.SystemHeat, "on the design day, with "
	}
	rise := units.Difference(float64(heat) / float64(s.boiler.Value))
	f := Finding{Severity: "note", Working: m.couplingWorking()}
	usual := m.roughly(leastRise) + " to " + m.roughly(mostRise)
	flow := m.say(s.flow(units.LossCoefficient(float64(heat) / float64(usualRise))))
	switch {
	case rise < leastRise && m.job.Boiler.Output.Set, rise < leastDrop:
		f.Text = fmt.Sprintf("The boiler's pump is said to move %s: %s%s the boiler would warm that by only %s. Usual are %s; the flow is a slip in the survey, or the pump is far too large.",
			m.say(m.job.Separator.Flow.Value), words, m.say(heat), m.say(rise), usual)
		f.Cures = []string{"measure supply and return at the boiler at full fire: their difference gives the flow", "a slower pump: about " + flow + " warms by " + m.roughly(usualRise) + ", the boiler's least flow in its manual comes first"}
	case rise > mostRise:
		f.Text = fmt.Sprintf("The boiler's pump is said to move %s: %s%s the boiler would warm that by %s, and stop on its own limit. Usual are %s.",
			m.say(m.job.Separator.Flow.Value), words, m.say(heat), m.say(rise), usual)
		f.Cures = []string{"measure supply and return at the boiler at full fire: their difference gives the flow", "a larger boiler pump: about " + flow + " warms by " + m.roughly(usualRise), "a lower heating output limit"}
	default:
		return
	}
	m.findings = append(m.findings, f)
}
