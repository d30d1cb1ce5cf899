package settings

import "cmp"

// What stands in the boiler room? The drawing needs it in words that no longer hang on
// the survey's form.

// plant takes from the survey what a drawing of the boiler room shows. What nobody
// surveyed stays empty; the drawing says so.
func (m *model) plant() Plant {
	j := m.job
	p := Plant{BoilerKind: j.Boiler.Kind, Separator: j.Separator.Kind, SeparatorSensor: j.Separator.Sensor,
		HotWater: j.HotWater.By, TankVolume: j.HotWater.Tank.Value, TankSetpoint: j.HotWater.Setpoint.Value,
		Vessel: j.System.Vessel.Set, Relief: j.System.Relief.Set, OutdoorSensor: j.OutdoorSensor.Fitted, OutdoorPlace: j.OutdoorSensor.Place,
		Loop: j.HotWater.Loop == "yes", MixingValveAtTank: j.HotWater.Mixing == "yes"}
	for i := range m.circuits {
		c := &m.circuits[i]
		drawn := PlantCircuit{Name: c.job.Name, Kind: c.kind(), Family: c.family}
		if c.job.Pump != nil {
			drawn.PumpMode = cmp.Or(c.job.Pump.Mode, "fixed speed")
		}
		p.Circuits = append(p.Circuits, drawn)
	}
	return p
}
