package trial

import (
	"errors"
	"fmt"
	"math"

	"curvewright/building"
	"curvewright/emitter"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/year"
)

// What no survey asks, all common practice or as named.
const (
	airPerArea     = 12e3  // J/K for a square metre of floor: air and furniture
	fabricPerArea  = 165e3 // medium weight, ISO 13790 table 12, from memory
	fabricToAir    = 9.2   // W/K: h_ms·2.5 and h_is·4.5 of ISO 13790 in series, from memory
	glassShare     = 0.12  // of the floor, where no surfaces are surveyed
	aperture       = 0.5   // of the glass: pane, frame, dirt, curtains
	radiantShare   = 0.3   // of a radiator's heat
	valveBand      = units.Difference(1)
	thermostatBand = units.Difference(1)
	pumpPower      = units.Power(30)
	boilerPower    = units.Power(30)    // while it burns, without pumps
	idlePower      = units.Power(5)     // with its control, all year
	startFuel      = units.Energy(36e3) // 10 Wh: purge and ignition

	partition   = 2.0                      // W/K for a square metre of floor, to all other rooms: inner walls and doors
	openWindow  = 3.4                      // W/K for a square metre of floor: four air changes an hour
	openAbove   = units.Difference(3)      // above the set-point
	shadeAbove  = units.Difference(3)      // above the set-point
	shadeLeaves = units.Fraction(0.4)      // of the sun, behind blinds indoors
	bufferLoss  = units.LossCoefficient(2) // of a well lagged one
	coilWater   = 30e3                     // J/K, of a tank's coil and its pipes
)

// surroundings are the sentences about all that.
var surroundings = []string{
	"a house of medium weight, windows facing all ways alike",
	"windows opened by the household from 3 K above the set-points whenever it is cooler outside, and blinds drawn that leave 40 % of the sun; no cooling",
	"every room joined to every other by inner walls and doors",
	"thermostatic valves on radiators rated to EN 442, set by hand so that no program moves them; a circuit of baseboards or cast iron runs while any of its rooms is below the set-point, as the household would set its thermostat; a room thermostat for each heated floor",
}

// facades are the ways that windows face; those of a room are taken to face all alike.
var facades = []float64{0, 90, 180, 270}

// rooms makes the house of a plan.
func rooms(p *settings.Plan) (year.House, error) {
	var h year.House
	for _, r := range p.Rooms {
		if r.Area <= 0 {
			return h, fmt.Errorf("room %q has no floor area; give it, since the year needs to know how much the room can store", r.Name)
		}
		glass := float64(r.Glass)
		if glass == 0 {
			glass = glassShare * float64(r.Area)
		}
		room := year.Room{Name: r.Name, Set: r.Setpoint, Air: building.HeatCapacity(airPerArea * float64(r.Area)), Loss: r.Loss,
			Fabric:     []year.Fabric{{Capacity: building.HeatCapacity(fabricPerArea * float64(r.Area)), ToAir: units.LossCoefficient(fabricToAir * float64(r.Area))}},
			SunRadiant: 0.7, GainsShare: 0.5, Open: units.LossCoefficient(partition * float64(r.Area)),
			Airing: year.Airing{Above: r.Setpoint.Add(openAbove), Most: units.LossCoefficient(openWindow * float64(r.Area))},
			Shade:  year.Shade{Above: r.Setpoint.Add(shadeAbove), Leaves: shadeLeaves}}
		for hour := range room.Gains {
			room.Gains[hour] = r.Gains
			if hour >= 6 && hour < 22 {
				room.Gains[hour] = 2 * r.Gains
			}
		}
		for f := range facades {
			room.Windows = append(room.Windows, year.Window{Facade: f, Aperture: units.Area(glass * aperture / float64(len(facades)))})
		}
		h.Rooms = append(h.Rooms, room)
	}
	return h, nil
}

// plant makes the plant of a plan.
func plant(p *settings.Plan, j *job.Job) (year.Plant, error) {
	carries := p.Site.Carries // of the fill, with its antifreeze
	out := year.Plant{
		Coupling: p.Coupling, Sensor: year.OutdoorSensor{Lag: 1200},
		Boiler: year.Boiler{Model: p.Boiler, Least: p.Least, Most: max(p.Most, p.Site.Rated), Capacity: p.Stores, Flow: p.BoilerFlow,
			Standby: 1, Room: units.Celsius(18), Start: startFuel, Hottest: units.Celsius(95), Fan: j.Boiler.Electricity.Or(boilerPower).Value, Always: j.Boiler.Idle.Or(idlePower).Value},
	}
	if p.Coupling != pipework.Direct {
		out.Boiler.Pump = pumpPower
	}
	switch p.Coupling {
	case pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer:
		if !j.Separator.Volume.Set {
			return out, errors.New("separator › volume: the buffer has no volume; give it, since the year needs to know how much it can store")
		}
		out.Buffer = &year.Buffer{Water: building.HeatCapacity(float64(j.Separator.Volume.Value) * float64(carries)), Loss: bufferLoss, Room: out.Boiler.Room}
	}
	if t := p.Site.Tank; t != nil && len(p.Year.Draws.Draws) > 0 {
		out.Tank = &year.Tank{Tank: t.Tank, Coil: t.Charge.Coil.Transmission(), Flow: units.LossCoefficient(float64(t.Charge.Flow) * float64(carries)),
			Water: coilWater, Pump: pumpPower, Cold: t.Cold, Draws: p.Year.Draws,
			AtBuffer: out.Buffer != nil && j.HotWater.TakesFrom == "buffer"}
	}
	if hotwater.Arrangement(j.HotWater.By) == hotwater.Combi && len(p.Year.Draws.Draws) > 0 {
		out.Combi = &year.Combi{Cold: p.Year.Cold, Draws: p.Year.Draws}
	}
	for i, c := range p.Circuits {
		family := p.Sheet.Plant.Circuits[i].Family
		own := !c.Series && (family == "radiators" || family == "towel rail") // valves of their own
		pc := year.Circuit{Name: c.Name, Series: c.Series, Mixed: c.Mixed, Pump: pumpPower / units.Power(1+len(c.Beside)), Water: building.HeatCapacity(max(2e4, 0.2*float64(c.Water)*float64(carries)))}
		if c.Mixed {
			pc.Travel = 120
		}
		total := units.Power(0)
		for _, e := range c.Emitters {
			total += e.Load
		}
		for _, e := range c.Emitters {
			water := 0.8 * float64(c.Water) * float64(carries) * float64(e.Load/total)
			switch law := e.Emitter.(type) {
			case emitter.PowerLaw:
				if e.Floor != nil {
					slab, err := year.FloorSlab(e.Room, *e.Floor, year.MasonryHeat, e.Flow)
					if err != nil {
						return out, fmt.Errorf("circuit %q: %w", c.Name, err)
					}
					slab.Valve = year.Valve{Kind: year.OnOff, Band: thermostatBand}
					pc.Slabs = append(pc.Slabs, slab)
					continue
				}
				r := year.Radiator{Room: e.Room, Law: law, Flow: e.Flow, Capacity: building.HeatCapacity(max(5e3, 1.2*water)), Radiant: radiantShare}
				if own {
					r.Valve = year.Valve{Kind: year.Thermostatic, Band: valveBand}
				} else {
					pc.Thermostat = thermostatBand
				}
				if c.Series {
					r.Flow = c.Flow
				}
				pc.Radiators = append(pc.Radiators, r)
			default:
				coil, err := fanCoil(e)
				if err != nil {
					return out, fmt.Errorf("circuit %q: %w", c.Name, err)
				}
				coil.Capacity = building.HeatCapacity(max(5e3, 1.2*water))
				if c.Series {
					coil.Valve = year.Valve{} // its water runs on to the next
				}
				pc.Radiators = append(pc.Radiators, coil)
			}
		}
		out.Circuits = append(out.Circuits, pc)
	}
	return out, nil
}

// coilSpan is between water and air where a fan coil is asked what it gives. Its heat goes
// in proportion, so that any will do.
const coilSpan = units.Difference(30)

// fanCoil is a fan coil as an emitter with an exponent of one that gives the same at its
// flow, switched by its own thermostat.
//
//	K = −W·ln(1 − q/(W·span))
func fanCoil(e settings.PlanEmitter) (year.Radiator, error) {
	room := units.Celsius(20)
	given := e.Emitter.Output(room.Add(coilSpan), e.Flow, room)
	share := float64(given.Room) / (float64(e.Flow) * float64(coilSpan))
	if !(share > 0 && share < 1) {
		return year.Radiator{}, fmt.Errorf("a fan coil with a flow of %s gives no heat that could be played", e.Flow.Text(units.US))
	}
	law := emitter.PowerLaw{Coefficient: -float64(e.Flow) * math.Log1p(-share), Exponent: 1}
	return year.Radiator{Room: e.Room, Law: law, Flow: e.Flow, Fan: e.Fan, Valve: year.Valve{Kind: year.OnOff, Band: thermostatBand}}, nil
}

// tankAssumed says what of the hot water is played.
func (t *Trial) tankAssumed(j *job.Job) []string {
	switch {
	case t.Plant.Tank != nil:
		return []string{"hot water drawn every day alike: " + t.Plan.Year.Draws.Name}
	case t.Plant.Combi != nil:
		return []string{"hot water drawn every day alike: " + t.Plan.Year.Draws.Name + "; no heating while it flows"}
	case j.HotWater.By == "" || j.HotWater.By == "none":
		return nil
	}
	return []string{"no hot water: the survey does not allow it to be worked out"}
}

// madeUp makes a year from what every job has: design temperature and annual mean.
func madeUp(p *settings.Plan, seed uint64) (*weather.Year, error) {
	spread, err := weather.NewSpread(p.Design, p.AnnualMean)
	if err != nil {
		return nil, fmt.Errorf("site: %w", err)
	}
	c := weather.Climate{Design: p.Design, Monthly: spread.MonthlyMeans(),
		Place: weather.Place{Name: "made up", Latitude: 45, Longitude: -75, UTCOffset: -5, Elevation: p.Elevation, Located: true}}
	for m := range c.Range {
		c.Range[m] = 9
	}
	y, err := c.MakeUp(seed)
	if err != nil {
		return nil, fmt.Errorf("site: %w", err)
	}
	return y, nil
}

// sky gives a year as package year plays it.
func sky(y *weather.Year) (year.Weather, bool, error) {
	w := year.Weather{Outdoor: y.DryBulb, Sun: make([][]float64, len(facades))}
	sunny := true
	for i, azimuth := range facades {
		sun, err := y.OnSurface(weather.Surface{Tilt: 90, Azimuth: azimuth, Ground: 0.3})
		if err != nil {
			sunny = false
			sun = make([]float64, len(y.DryBulb))
		}
		w.Sun[i] = sun
	}
	if len(w.Outdoor)%24 != 0 {
		return w, sunny, fmt.Errorf("the weather has %d hours, which are not whole days", len(w.Outdoor))
	}
	return w, sunny, nil
}
