package year

// What makes the heat, and by which ways does it reach the rooms?

import (
	"cmp"
	"fmt"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/emitter"
	"curvewright/hotwater"
	"curvewright/pipework"
	"curvewright/refuse"
	"curvewright/units"
)

// Plant is a boiler and what hangs on it.
type Plant struct {
	Boiler   Boiler
	Coupling pipework.Coupling // direct, a low-loss header, closely spaced tees or a buffer
	Buffer   *Buffer           // with a coupling that is one
	Circuits []Circuit
	Tank     *Tank  // none if hot water is made elsewhere
	Combi    *Combi // or as it flows
	Sensor   OutdoorSensor
}

// Buffer is a tank of heating water between boiler and circuits.
type Buffer struct {
	Water building.HeatCapacity
	Loss  units.LossCoefficient
	Room  units.Temperature // around it
}

// OutdoorSensor is the sensor by which the control knows how cold it is.
type OutdoorSensor struct {
	Lag    units.Time       // time constant of sensor and housing
	Offset units.Difference // reads so much warmer, as over a vent or in the sun
}

// Boiler is a boiler with its pump.
type Boiler struct {
	Model    boiler.Model // efficiency by return and firing rate
	Least    units.Power  // to the water
	Most     units.Power
	Capacity building.HeatCapacity // of its water and metal
	// Flow is that of the boiler's pump. Joined directly, the circuits' pumps move the
	// water and Flow is the least that a bypass keeps up; 0 for no bypass.
	Flow    units.LossCoefficient
	Standby units.LossCoefficient // to the boiler room while the burner rests
	Room    units.Temperature     // of the boiler room
	Start   units.Energy          // fuel that goes with each start, unburnt or purged away
	Hottest units.Temperature     // at which its own limit stops it
	Pump    units.Power           // electricity of the boiler's pump, 0 if joined directly
	Fan     units.Power           // and of the burner while it runs
	Always  units.Power           // and of the control, all year
}

// Circuit is emitters on one supply.
type Circuit struct {
	Name      string
	Radiators []Radiator
	Slabs     []Slab
	Series    bool                  // the radiators stand on one loop, in their order
	Water     building.HeatCapacity // in its pipes
	Mixed     bool                  // behind a mixing valve
	Travel    units.Time            // of the valve from shut to open
	Pump      units.Power           // electricity
	// Thermostat is the band of room thermostats that let the whole circuit run while any
	// of its rooms is below the set-point of the hour, and stand still otherwise; 0 for none.
	Thermostat units.Difference
}

// ValveKind is what stands in an emitter's pipe.
type ValveKind string

// The kinds.
const (
	Open         ValveKind = ""             // nothing that moves
	Thermostatic ValveKind = "thermostatic" // shuts in proportion from the set-point up to a band above; set by hand, so no program moves it
	OnOff        ValveKind = "on and off"   // a room thermostat with a zone valve
)

// Valve lets water into an emitter as its room wants it.
type Valve struct {
	Kind ValveKind
	Band units.Difference // from open to shut, or between on and off
}

// Radiator is a radiator, a baseboard, or any emitter that follows the power law.
type Radiator struct {
	Room     int
	Law      emitter.PowerLaw
	Flow     units.LossCoefficient // with its valve open; on a loop that of the loop
	Capacity building.HeatCapacity // water and metal
	Radiant  units.Fraction        // of its heat
	Valve    Valve
	Fan      units.Power // electricity of a fan coil while its water runs
}

// Slab is a heated floor in layers, from the top down.
type Slab struct {
	Room   int
	Up     units.LossCoefficient // from the top layer through the covering to the room
	Layers []Layer
	Tube   int // the layer with the tube, from 0
	// Exchange is the share of its excess over that layer that the water gives up on its
	// way: 1 − e^(−UA/W) for a layer as warm at the end of the tube as at its beginning.
	Exchange units.Fraction
	Down     building.Loss // from the lowest layer
	Flow     units.LossCoefficient
	Valve    Valve
}

// Layer is one node of a slab.
type Layer struct {
	Capacity building.HeatCapacity
	Below    units.LossCoefficient // to the next layer; of no meaning in the last
}

// Tank is a hot-water tank with a coil, on a pump of its own.
type Tank struct {
	Tank     hotwater.Tank
	Layers   int            // 1 to 10, 0 means 5
	CoilTop  units.Fraction // height to which the coil reaches; 0 means half the tank
	SensorAt units.Fraction // height of the sensor; 0 means 0.4
	Coil     units.LossCoefficient
	Flow     units.LossCoefficient // through the coil
	Water    building.HeatCapacity // in pipes and coil
	Pump     units.Power
	Cold     units.Temperature // of the cold water
	Draws    hotwater.Pattern  // of every day
	// AtBuffer lets the tank draw from a buffer as the circuits do. Otherwise it draws from
	// the boiler itself, past the buffer.
	AtBuffer bool
}

const (
	mostLayers     = 4  // of a slab
	mostTankLayers = 10 // of a tank
)

func (b Boiler) check() error {
	err := cmp.Or(
		refuse.Within("least output", b.Least, 100, mostPower),
		refuse.Within("most output", b.Most, b.Least, mostPower),
		refuse.Within("capacity", b.Capacity, leastCapacity, mostCapacity),
		refuse.Within("flow", b.Flow, 0, mostInflow),
		refuse.Within("standby loss", b.Standby, 0, 1000),
		refuse.Within("hottest water", b.Hottest, units.Celsius(30), hottest),
		refuse.Within("fuel with each start", b.Start, 0, units.KilowattHours(1)),
		refuse.Within("electricity of the pump", b.Pump, 0, mostWattage),
		refuse.Within("electricity of the burner", b.Fan, 0, mostWattage),
		refuse.Within("electricity of the control", b.Always, 0, mostWattage),
	)
	if err == nil && b.Standby > 0 {
		err = refuse.Within("boiler room", b.Room, units.Celsius(-20), units.Celsius(50))
	}
	return err
}

func (v Valve) check() error {
	switch v.Kind {
	case Open:
		return nil
	case Thermostatic, OnOff:
		return refuse.Within("band of the valve", v.Band, 0.1, 10)
	}
	return fmt.Errorf("valve: %q given; accepted: nothing, %q or %q", v.Kind, Thermostatic, OnOff)
}

func (r Radiator) check() error {
	return cmp.Or(
		r.Law.Check(),
		refuse.Within("flow", r.Flow, 0.1, mostInflow),
		refuse.Within("capacity", r.Capacity, leastCapacity, mostCapacity),
		refuse.Within("radiant share", r.Radiant, 0, 1),
		refuse.Within("electricity of its fan", r.Fan, 0, mostWattage),
		r.Valve.check(),
	)
}

func (s Slab) check() error {
	if len(s.Layers) < 1 || len(s.Layers) > mostLayers {
		return fmt.Errorf("layers: %d given; accepted: 1 to %d", len(s.Layers), mostLayers)
	}
	if s.Tube < 0 || s.Tube >= len(s.Layers) {
		return fmt.Errorf("layers: the tube lies in layer %d; accepted: 0 to %d", s.Tube, len(s.Layers)-1)
	}
	err := cmp.Or(
		refuse.Within("conductance to the room", s.Up, 0.01, mostLoss),
		refuse.Within("exchange with the water", s.Exchange, 0.001, mostExchange),
		checkLoss("loss below", s.Down),
		refuse.Within("flow", s.Flow, 0.1, mostInflow),
		s.Valve.check(),
	)
	for i, l := range s.Layers {
		err = cmp.Or(err, refuse.Within("capacity of a layer", l.Capacity, leastCapacity, mostCapacity))
		if i+1 < len(s.Layers) {
			err = cmp.Or(err, refuse.Within("conductance from layer to layer", l.Below, 0.01, mostInflow))
		}
	}
	if s.Valve.Kind == Thermostatic {
		err = cmp.Or(err, fmt.Errorf("valve: a thermostatic valve given; on a slab accepted: none, or %q", OnOff))
	}
	return err
}

func (c Circuit) check(rooms int) error {
	err := cmp.Or(
		refuse.Within("capacity of the water in its pipes", c.Water, leastCapacity, mostCapacity),
		refuse.Within("electricity of its pump", c.Pump, 0, mostWattage),
	)
	if c.Mixed {
		err = cmp.Or(err, refuse.Within("travel of the mixing valve", c.Travel, 1, 1800))
	}
	if c.Thermostat != 0 {
		err = cmp.Or(err, refuse.Within("band of the room thermostats", c.Thermostat, 0.1, 10))
	}
	n := len(c.Radiators) + len(c.Slabs)
	if n < 1 || n > mostEmitters {
		err = cmp.Or(err, fmt.Errorf("emitters: %d given; accepted: 1 to %d", n, mostEmitters))
	}
	for i, r := range c.Radiators {
		if r.Room < 0 || r.Room >= rooms {
			err = cmp.Or(err, fmt.Errorf("radiator %d: stands in room %d; accepted: 0 to %d", i+1, r.Room, rooms-1))
		}
		if e := r.check(); e != nil {
			err = cmp.Or(err, fmt.Errorf("radiator %d: %w", i+1, e))
		}
		if c.Series && (r.Valve.Kind != Open || r.Flow != c.Radiators[0].Flow) {
			err = cmp.Or(err, fmt.Errorf("radiator %d: on a loop all have the same flow and no valve", i+1))
		}
	}
	for i, s := range c.Slabs {
		if s.Room < 0 || s.Room >= rooms {
			err = cmp.Or(err, fmt.Errorf("slab %d: lies in room %d; accepted: 0 to %d", i+1, s.Room, rooms-1))
		}
		if e := s.check(); e != nil {
			err = cmp.Or(err, fmt.Errorf("slab %d: %w", i+1, e))
		}
	}
	if c.Series && len(c.Slabs) > 0 {
		err = cmp.Or(err, fmt.Errorf("slabs: %d given on a loop; accepted: none", len(c.Slabs)))
	}
	return err
}

func (t Tank) check() error {
	return cmp.Or(
		refuse.Within("volume", t.Tank.Volume, units.Litres(10), units.Litres(10000)),
		refuse.Within("heat loss", t.Tank.Loss, 0, 100),
		refuse.Within("surroundings", t.Tank.Room, units.Celsius(-20), units.Celsius(60)),
		refuse.Within("layers", units.Number(t.Layers), 0, mostTankLayers),
		refuse.Within("height of the coil", t.CoilTop, 0, 1),
		refuse.Within("height of the sensor", t.SensorAt, 0, 1),
		refuse.Within("coil", t.Coil, 1, mostInflow),
		refuse.Within("flow", t.Flow, 1, mostInflow),
		refuse.Within("capacity of pipes and coil", t.Water, leastCapacity, mostCapacity),
		refuse.Within("electricity of the pump", t.Pump, 0, mostWattage),
		refuse.Within("cold water", t.Cold, units.Celsius(0.1), units.Celsius(40)),
	)
}

func (p Plant) check(rooms int) error {
	if err := p.Boiler.check(); err != nil {
		return fmt.Errorf("boiler: %w", err)
	}
	switch p.Coupling {
	case pipework.Direct:
	case pipework.LowLossHeader, pipework.CloselySpacedTees, pipework.TwoPipeBuffer, pipework.ThreePipeBuffer, pipework.FourPipeBuffer, pipework.StirredBuffer:
		if p.Boiler.Flow <= 0 {
			return fmt.Errorf("boiler: no flow given; with a %s its own pump moves the water", p.Coupling)
		}
	default:
		return fmt.Errorf("coupling: %q given; accepted: %q, %q, %q or a buffer", p.Coupling, pipework.Direct, pipework.LowLossHeader, pipework.CloselySpacedTees)
	}
	if isBuffer(p.Coupling) != (p.Buffer != nil) {
		return fmt.Errorf("buffer: one must be given with a coupling that is a buffer, and only then; the coupling is %q", p.Coupling)
	}
	if p.Buffer != nil {
		if err := p.Buffer.check(); err != nil {
			return fmt.Errorf("buffer: %w", err)
		}
	}
	if len(p.Circuits) > mostCircuits {
		return fmt.Errorf("circuits: %d given; accepted: up to %d", len(p.Circuits), mostCircuits)
	}
	for _, c := range p.Circuits {
		if err := c.check(rooms); err != nil {
			return fmt.Errorf("circuit %q: %w", c.Name, err)
		}
	}
	if p.Tank != nil {
		if err := p.Tank.check(); err != nil {
			return fmt.Errorf("tank: %w", err)
		}
		if p.Tank.AtBuffer && p.Buffer == nil {
			return fmt.Errorf("tank: it draws from a buffer, but there is none; the coupling is %q", p.Coupling)
		}
	}
	if p.Combi != nil {
		if p.Tank != nil {
			return fmt.Errorf("hot water: a tank and a combi given; accepted: one of them")
		}
		if err := p.Combi.check(); err != nil {
			return fmt.Errorf("combi: %w", err)
		}
	}
	return cmp.Or(
		refuse.Within("lag of the outdoor sensor", p.Sensor.Lag, 0, units.Hours(24)),
		refuse.Within("error of the outdoor sensor", p.Sensor.Offset, -15, 15),
	)
}
