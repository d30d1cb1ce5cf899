package settings

import (
	"curvewright/boiler"
	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/units"
)

// Plan is a solved job in figures instead of sentences: what a simulation of the house
// needs to play the settings.
type Plan struct {
	Sheet    *Sheet
	Rooms    []PlanRoom
	Circuits []PlanCircuit

	Boiler       boiler.Model
	Least, Most  units.Power           // of the boiler; Most is the limit that the sheet sets
	Stores       building.HeatCapacity // of the boiler's water and metal
	Differential units.Difference
	Coupling     pipework.Coupling
	BoilerFlow   units.LossCoefficient // of the boiler's own pump; 0 where it is joined directly
	Beyond       bool                  // the sensor that leads the boiler sits behind the coupling
	CutOff       units.Temperature
	Design       units.Temperature
	AnnualMean   units.Temperature
	Elevation    units.Length
	Assumed      []string // what the simulation must assume because no survey asks it
	Site         PlanSite
	Year         PlanYear
	Found        Found // the control as it was found, as far as the survey says
}

// PlanRoom is a room with its whole loss.
type PlanRoom struct {
	Name     string
	Setpoint units.Temperature
	Area     units.Area
	Loss     building.Loss
	Gains    units.Power // that can be relied on at night
	Glass    units.Area  // 0 if the survey has no surfaces
}

// PlanCircuit is a circuit with its emitters and its setting.
type PlanCircuit struct {
	Name     string
	Mixed    bool
	Series   bool
	Floor    bool                  // heated floors carry most of it
	Flow     units.LossCoefficient // that really passes, by its pump
	Beside   []int                 // other circuits on the same pump, by their place
	Borrows  bool                  // whether that pump is another circuit's
	Water    units.Volume          // in emitters and pipes
	Setting  curve.Setting
	Shape    curve.Shape // what the control can hold
	Emitters []PlanEmitter
}

// PlanEmitter is one emitter.
type PlanEmitter struct {
	Room    int
	Emitter emitter.Emitter
	Flow    units.LossCoefficient
	Load    units.Power    // of its room's load on the design day
	Floor   *emitter.Floor // of a heated floor
	Fan     units.Power    // electricity of a fan coil
}

// Prepare solves a job and gives it as a plan. The sheet is that of [Solve] with the
// same options.
//
// Units: those of the job.
// Range: as [Solve].
// Source: as [Solve].
// Errors: as [Solve].
func Prepare(j *job.Job, o Options) (*Plan, error) {
	s, m, solved, b, err := work(j, o)
	if err != nil {
		return nil, err
	}
	p := &Plan{Sheet: s, Boiler: b.model, Differential: b.swing.Value, Coupling: m.streams.coupling,
		BoilerFlow: m.streams.boiler.Value, Beyond: m.streams.sensor, CutOff: solved[0].cutOff,
		Design: m.design, AnnualMean: m.annual, Elevation: j.Site.Elevation.Value,
		Least: m.leastOutput().Value, Most: m.available().Value}
	if p.Most == 0 {
		p.Most = units.Power(2 * float64(s.Load.Total))
		p.Assumed = append(p.Assumed, "a boiler of "+m.say(p.Most)+", since the survey names none")
	}
	if p.Least == 0 {
		p.Least = p.Most / 5
		p.Assumed = append(p.Assumed, "a lowest output of "+m.say(p.Least))
	}
	if limit := m.wantedOutput(s); j.Control.OutputLimit != "none" && !m.onOff() && limit < p.Most {
		p.Most = max(limit, p.Least)
	}
	for i, r := range m.rooms {
		room := PlanRoom{Name: r.name, Setpoint: r.setpoint, Area: r.area, Loss: r.loss, Gains: r.gains}
		if len(j.Rooms) > 0 {
			room.Glass = glass(j.Rooms[i])
		}
		p.Rooms = append(p.Rooms, room)
	}
	content := m.content().Value
	for i := range m.circuits {
		c := &m.circuits[i]
		out := PlanCircuit{Name: c.job.Name, Mixed: c.kind() == "mixed", Series: len(c.solve.Loop) > 0, Floor: c.family == "floor",
			Flow: c.solve.Flow, Setting: solved[i].setting, Shape: c.shape,
			Water: units.Volume(float64(content) * float64(c.load) / float64(max(1, s.Load.Total)))}
		for k, r := range c.solve.Rooms {
			load := max(1, r.Load(m.design, r.Setpoint))
			for n, f := range c.feeds[k] {
				if f.family == "fan coil" && f.fan == 0 {
					f.fan = fanShare * load / units.Power(len(c.feeds[k]))
				}
				out.Emitters = append(out.Emitters, PlanEmitter{Room: c.rooms[k], Emitter: f.emitter, Flow: r.Flows[n],
					Load: load / units.Power(len(c.feeds[k])), Floor: f.survey, Fan: f.fan})
			}
		}
		p.Circuits = append(p.Circuits, out)
	}
	for _, d := range m.drives() {
		for k, i := range d.circuits {
			p.Circuits[i].Borrows = k > 0
			for _, other := range d.circuits {
				if other != i {
					p.Circuits[i].Beside = append(p.Circuits[i].Beside, other)
				}
			}
		}
	}
	p.Stores = m.boilerStores()
	p.Year, p.Found = m.yearly(solved, b), m.found()
	if p.Site, err = m.site(s, solved, b); err != nil {
		return nil, err
	}
	return p, nil
}

// glass adds up the surfaces of a room that lose as only windows do.
func glass(r job.Room) units.Area {
	const window = units.Transmittance(1.0)
	sum := units.Area(0)
	for _, e := range r.Elements {
		if (e.To == "" || e.To == "outdoors") && e.U.Set && e.U.Value >= window {
			sum += e.Area.Value
		}
	}
	return sum
}
