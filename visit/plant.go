package visit

import (
	"math"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// What stands in the house, as a network of streams in steady flow? Judging tries the
// network some thousand times, so its figures are plain: K, W and W/K.

// House is a job made ready to be read. Make one with [New].
type House struct {
	plan     *settings.Plan
	job      *job.Job
	system   units.System
	plant    plant
	readings []reading // all that could be read
}

// New makes a house from a job.
//
// Units: those of the job; sentences in the given system.
// Range: as settings.Prepare.
// Source: as settings.Prepare.
// Errors: as settings.Prepare.
func New(j *job.Job, sys units.System) (*House, error) {
	p, err := settings.Prepare(j, settings.Options{System: sys})
	if err != nil {
		return nil, err
	}
	h := &House{plan: p, job: j, system: sys, plant: layOut(p)}
	h.readings = h.list()
	return h, nil
}

// Plan is the solved job behind the house.
//
// Range: any house.
// Source: settings.Prepare.
func (h *House) Plan() *settings.Plan { return h.plan }

// plant is the house as it should be.
type plant struct {
	rooms    []roomNode
	circuits []circuitNode
	coupling pipework.Coupling

	boilerFlow           float64 // of its own pump; 0 joined directly
	beyond               bool    // the control holds the supply behind the separator
	offset, above        float64
	minSupply, maxSupply float64
	least, most, rated   float64
	model                boiler.Model
	tank                 *settings.PlanTank
	tankFlow             float64

	stores       float64 // J/K of the boiler
	differential float64
	pause        float64 // shortest of the burner
}

type roomNode struct {
	name  string
	set   float64
	loss  building.Loss
	gains float64
	area  float64
}

type circuitNode struct {
	name          string
	mixed, series bool
	floor         bool
	curve         curve.Setting
	flow          float64
	water         float64 // J/K of all its water
	head          float64 // Pa at its flow; 0 where it is not known
	emitters      []emitterNode
}

type emitterNode struct {
	room  int
	law   emitter.Emitter
	flow  float64
	slab  *year.Slab // of a heated floor
	tamed bool       // by a thermostatic valve, where the house is left to hold itself
	zoned bool       // by a thermostat, of the room or of the circuit
}

// layOut makes the plant of a plan.
func layOut(p *settings.Plan) plant {
	s := p.Site
	out := plant{coupling: p.Coupling, boilerFlow: float64(p.BoilerFlow), beyond: p.Beyond, offset: float64(s.Offset), above: float64(s.Above),
		minSupply: float64(s.MinSupply), maxSupply: float64(s.MaxSupply), least: float64(p.Least), most: float64(p.Most), rated: float64(p.Most),
		model: p.Boiler, tank: s.Tank, stores: float64(p.Stores), differential: float64(p.Differential), pause: float64(p.Year.Rest)}
	if s.Known {
		out.rated = math.Max(float64(s.Rated), out.most)
	}
	if s.Tank != nil {
		out.tankFlow = float64(s.Tank.Charge.Flow) * float64(s.Carries)
	}
	for _, r := range p.Rooms {
		out.rooms = append(out.rooms, roomNode{name: r.Name, set: float64(r.Setpoint), loss: r.Loss, gains: float64(r.Gains), area: float64(r.Area)})
	}
	for i, c := range p.Circuits {
		family := p.Sheet.Plant.Circuits[i].Family
		own := !c.Series && (family == "radiators" || family == "towel rail") // valves of their own
		node := circuitNode{name: c.Name, mixed: c.Mixed, series: c.Series, floor: c.Floor, curve: c.Setting, flow: float64(c.Flow), water: float64(c.Water) * float64(s.Carries), head: float64(s.Heads[i])}
		for _, e := range c.Emitters {
			n := emitterNode{room: e.Room, law: e.Emitter, flow: float64(e.Flow), tamed: own && e.Floor == nil, zoned: !own || e.Floor != nil}
			if c.Series {
				n.flow = float64(c.Flow)
			}
			if e.Floor != nil {
				if slab, err := year.FloorSlab(e.Room, *e.Floor, year.MasonryHeat, e.Flow); err == nil {
					n.slab = &slab
				}
			}
			node.emitters = append(node.emitters, n)
		}
		out.circuits = append(out.circuits, node)
	}
	return out
}

// change is what differs from the plant as it should be: a fault, or a figure of the
// survey that was off. Factors are 1 and everything else 0 where nothing differs.
type change struct {
	outdoor  float64 // the sensor reads so much warmer
	setback  float64 // the curve lowered as for rooms so much cooler
	summer   bool    // no heating
	priority bool    // hot water keeps the heating waiting
	ignored  bool    // the sensor behind the separator is not used
	turned   bool    // supply and return sensor of the boiler swapped

	boilerFlow float64 // factor
	output     float64 // factor on the heating output limit
	gas        float64 // factor on the gas rate
	coil       float64 // factor on what charges the tank
	filter     float64 // factor on all flows beyond the boiler
	pressure   float64 // of the cold pressure, factor

	circuits []circuitChange
	rooms    []roomChange
	curves   []int // which circuit's curve each circuit has; nil for its own
}

type circuitChange struct {
	curve float64 // added to the supply wanted
	limit float64 // highest supply; 0 for none
	flow  float64 // factor
	head  float64 // factor on what its pump makes: with its speed, not with what is in its way
	gives float64 // factor on its emitters
	ghost float64 // share of its flow while it rests
	stuck float64 // of the mixing valve, from 0 to 1; below 0 it works
	swap  bool    // supply and return sensor swapped
}

type roomChange struct {
	loss  float64 // factor
	gives float64 // factor on its emitters
	flow  float64 // factor on its branches
}

// asDrawn is no change.
func (p *plant) asDrawn() change {
	c := change{boilerFlow: 1, output: 1, gas: 1, coil: 1, filter: 1, pressure: 1,
		circuits: make([]circuitChange, len(p.circuits)), rooms: make([]roomChange, len(p.rooms))}
	for i := range c.circuits {
		c.circuits[i] = circuitChange{flow: 1, head: 1, gives: 1, stuck: -1}
	}
	for i := range c.rooms {
		c.rooms[i] = roomChange{loss: 1, gives: 1, flow: 1}
	}
	return c
}

// together gives both changes at once.
func (c change) together(d *change) change {
	out := c
	out.outdoor += d.outdoor
	out.setback += d.setback
	out.summer, out.priority, out.ignored, out.turned = c.summer || d.summer, c.priority || d.priority, c.ignored || d.ignored, c.turned || d.turned
	out.boilerFlow *= d.boilerFlow
	out.output *= d.output
	out.gas *= d.gas
	out.coil *= d.coil
	out.filter *= d.filter
	out.pressure *= d.pressure
	out.circuits, out.rooms = make([]circuitChange, len(c.circuits)), make([]roomChange, len(c.rooms))
	for i, a := range c.circuits {
		b := d.circuits[i]
		a.curve += b.curve
		a.flow *= b.flow
		a.head *= b.head
		a.gives *= b.gives
		a.ghost += b.ghost
		a.swap = a.swap || b.swap
		if b.limit > 0 {
			a.limit = b.limit
		}
		if b.stuck >= 0 {
			a.stuck = b.stuck
		}
		out.circuits[i] = a
	}
	for i, a := range c.rooms {
		b := d.rooms[i]
		out.rooms[i] = roomChange{loss: a.loss * b.loss, gives: a.gives * b.gives, flow: a.flow * b.flow}
	}
	if d.curves != nil {
		out.curves = d.curves
	}
	return out
}

// tankMean is how warm the tank is on the way.
func (p *plant) tankMean() float64 {
	if p.tank == nil {
		return 0
	}
	return float64(p.tank.Set.Add(-p.tank.Differential / 2))
}

// coilReturn is the primary return of the tank's coil at a supply.
func coilReturn(t *settings.PlanTank, supply, flow, tank float64) float64 {
	_, back := t.Charge.Coil.Output(units.Temperature(supply), units.LossCoefficient(flow), units.Temperature(tank))
	return float64(back)
}

// chargeTime is how long the tank takes from its start to its set-point, with so much of
// the boiler's output and of what coil and pump pass on.
func chargeTime(t *settings.PlanTank, gas, coil float64) (units.Time, error) {
	charge := t.Charge
	charge.Boiler = units.Power(float64(charge.Boiler) * gas)
	h, err := t.Tank.HeatUp(charge, t.Set.Add(-t.Differential), t.Set)
	return h.Time / units.Time(coil), err
}
