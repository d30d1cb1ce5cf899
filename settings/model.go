package settings

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/fluid"
	"curvewright/job"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/working"
)

// model is a job made ready to calculate with: losses, emitters and circuits, with
// everything that was left out filled in and remembered as assumed.
type model struct {
	job      *job.Job
	sys      units.System
	control  control
	design   units.Temperature
	annual   units.Temperature
	year     Hours
	house    house
	rooms    []room
	circuits []circuit
	findings []Finding
	fill     fluid.Mixture
	dry      dryBoiler
	streams  streams             // between boiler and circuits, once the circuits are solved
	outdoor  []units.Temperature // of the curves, from the design day to the heating limit
	hours    []units.Time        // of the year near each
	pauses   units.Time          // of the heating in the design day, while hot water has the boiler
	// Bands of the house's figures, from the sample.
	loadBand, cutOffBand Band
}

// circuit is one circuit with its rooms, as the curve engine wants it and as the
// sheet describes it.
type circuit struct {
	job      job.Circuit
	key      string // for the names of lines
	solve    curve.Circuit
	rooms    []int // index into model.rooms, by index in solve.Rooms
	feeds    [][]feed
	family   string   // the emitters that carry most
	families []string // these and all that carry a quarter or more
	shape    curve.Shape
	limits   []limit           // on the supply, lowest first
	flow     units.Flow        // wanted
	runs     units.Flow        // that really passes: less where the pump is too weak
	flowAt   units.Temperature // at which its volume counts
	flowHow  job.Known
	drop     units.Difference
	load     units.Power // to the rooms on the design day
	taken    units.Power // from the water for that, with what floors lose below
	setpoint units.Temperature
	doubt    float64           // of its emitters
	weak     *weakPump         // nil where the pump gives the flow wanted, or is not known
	pipesAt  units.Temperature // mean water on the design day, for which the pipes are reckoned
	withheld bool              // its figures would do harm: the boiler must stay dry and it must stay cool
}

// limit is something that holds the supply temperature down.
type limit struct {
	supply  units.Temperature
	why     string // what sets it: "the floor covering in Kitchen, 27 °C at most"
	room    string
	working []working.Step
}

func (m *model) say(q units.Quantity) string { return q.Text(m.sys) }

// newModel reads the job. Its errors name the block of the document.
func newModel(j *job.Job, sys units.System) (*model, error) {
	m := &model{job: j, sys: sys, control: readControl(j.Control, sys), design: j.Site.DesignOutdoor.Value}
	m.annual = j.Site.AnnualMean.Or(weather.EstimateAnnualMean(m.design)).Value
	var err error
	if m.year, err = weather.NewSpread(m.design, m.annual); err != nil {
		return nil, fmt.Errorf("site: %w", err)
	}
	if err := m.readFill(); err != nil {
		return nil, err
	}
	if err := m.readDry(); err != nil {
		return nil, fmt.Errorf("boiler: %w", err)
	}
	if err := m.readHouse(); err != nil {
		return nil, err
	}
	if err := m.readRooms(); err != nil {
		return nil, err
	}
	if len(j.Circuits) == 0 {
		return nil, fmt.Errorf("circuits: there is none; a job needs at least one heating circuit")
	}
	for _, c := range j.Circuits {
		m.circuits = append(m.circuits, circuit{job: c, key: key(c.Name)})
	}
	if len(j.Rooms) == 0 {
		err = m.shortWay()
	} else {
		err = m.connectRooms()
	}
	if err != nil {
		return nil, err
	}
	for i := range m.circuits {
		if err := m.finish(&m.circuits[i]); err != nil {
			return nil, fmt.Errorf("circuit %q: %w", m.circuits[i].job.Name, err)
		}
	}
	return m, nil
}

// key makes a name for the lines of a circuit from the circuit's own.
func key(name string) string {
	out := []rune{}
	for _, r := range name {
		switch {
		case r >= 'A' && r <= 'Z':
			out = append(out, r+'a'-'A')
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r > 127:
			out = append(out, r)
		case len(out) > 0 && out[len(out)-1] != '-':
			out = append(out, '-')
		}
	}
	for len(out) > 0 && out[len(out)-1] == '-' {
		out = out[:len(out)-1]
	}
	if len(out) == 0 {
		return "circuit"
	}
	return string(out)
}

// shortWay lets each circuit stand for the rooms that it heats.
func (m *model) shortWay() error {
	if m.house.loss.Coefficient() == 0 {
		return fmt.Errorf("house: nothing says how much heat the house needs; give load, fuel, or floor_area with era")
	}
	shares, err := m.circuitShares()
	if err != nil {
		return err
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		name := "the house"
		if len(m.circuits) > 1 {
			name = "the area on " + c.job.Name
		}
		f := units.Fraction(shares[i])
		r := room{name: name, setpoint: m.house.setpoint, area: units.Area(shares[i] * float64(m.house.area)),
			loss: m.house.loss.Scale(f), source: m.house.source,
			gains: units.Power(shares[i] * float64(m.houseGains()))}
		m.rooms = append(m.rooms, r)
		if err := m.attach(i, len(m.rooms)-1, c.job.Emitters, 1); err != nil {
			return err
		}
	}
	m.house.source = m.rooms[0].source
	return nil
}

func (m *model) houseGains() units.Power {
	return m.job.House.Gains.Or(units.Power(float64(building.DependableGains) * float64(m.house.area))).Value
}

// circuitShares splits the house's load over circuits without rooms: as given, else
// by floor area, else equally.
func (m *model) circuitShares() ([]float64, error) {
	out := make([]float64, len(m.circuits))
	left, open := 1.0, 0
	for i, c := range m.circuits {
		switch {
		case c.job.Share.Set:
			out[i] = float64(c.job.Share.Value)
		case c.job.Area.Set && m.house.area > 0:
			out[i] = float64(c.job.Area.Value) / float64(m.house.area)
		default:
			open++
		}
		left -= out[i]
	}
	if left < -0.001 {
		return nil, fmt.Errorf("circuits: their shares add up to %.0f %% of the house; they can be at most 100 %%", 100*(1-left))
	}
	for i := range out {
		if out[i] == 0 && open > 0 {
			out[i] = left / float64(open)
		}
		if out[i] <= 0 {
			return nil, fmt.Errorf("circuit %q: nothing of the house's load is left for it; look at the shares of the circuits", m.circuits[i].job.Name)
		}
	}
	return out, nil
}

// connectRooms puts every room on the circuits of its emitters.
func (m *model) connectRooms() error {
	for ri, jr := range m.job.Rooms {
		byCircuit := make(map[int][]job.Emitter)
		var order []int
		for _, e := range jr.Emitters {
			ci := 0
			if e.Circuit != "" || len(m.circuits) > 1 {
				ci = slices.IndexFunc(m.circuits, func(c circuit) bool { return c.job.Name == e.Circuit })
			}
			if ci < 0 {
				return fmt.Errorf("room %q: its emitter is on the circuit %q, which is not in the list of circuits", jr.Name, e.Circuit)
			}
			if !slices.Contains(order, ci) {
				order = append(order, ci)
			}
			byCircuit[ci] = append(byCircuit[ci], e)
		}
		if len(order) == 0 {
			m.findings = append(m.findings, Finding{Severity: "note", Room: jr.Name, Text: fmt.Sprintf(
				"%s has no emitter. Its loss of %s on the design day is not carried by any circuit; the rooms around it will have to warm it.",
				jr.Name, m.say(m.rooms[ri].loss.At(m.rooms[ri].setpoint, m.design)))})
			continue
		}
		shares, err := m.split(ri, jr, order, byCircuit)
		if err != nil {
			return err
		}
		for k, ci := range order {
			if err := m.attach(ci, ri, byCircuit[ci], shares[k]); err != nil {
				return err
			}
		}
	}
	for _, c := range m.circuits {
		if len(c.rooms) == 0 {
			return fmt.Errorf("circuit %q: no room has an emitter on it", c.job.Name)
		}
	}
	return nil
}

// split shares a room's load between its circuits: as given, else by what their
// emitters give at usual water temperatures.
func (m *model) split(ri int, jr job.Room, order []int, byCircuit map[int][]job.Emitter) ([]float64, error) {
	shares := make([]float64, len(order))
	if len(order) == 1 {
		shares[0] = 1
		return shares, nil
	}
	total, left, open := 0.0, 1.0, 0.0
	r := &m.rooms[ri]
	for k, ci := range order {
		given := false
		for _, e := range byCircuit[ci] {
			if e.Carries.Set {
				shares[k] += float64(e.Carries.Value)
				given = true
			}
		}
		if given {
			left -= shares[k]
			continue
		}
		for _, e := range byCircuit[ci] {
			f, err := m.readEmitter(e, r, r.loss.At(r.setpoint, m.design)/units.Power(len(order)))
			if err != nil {
				return nil, fmt.Errorf("room %q: %w", jr.Name, err)
			}
			shares[k] -= float64(f.emitter.Output(f.probe(), 500, r.setpoint).Room) // negative: still to be scaled
		}
		open += -shares[k]
	}
	if open > 0 {
		m.findings = append(m.findings, Finding{Severity: "note", Room: jr.Name, Text: fmt.Sprintf(
			"%s is fed by several circuits and the survey does not say how much each carries; its load is split by what their emitters usually give. Each circuit is judged with its share alone: where one falls short, another may make up for it.", jr.Name),
			Cures: []string{"carries on each of its emitters, for example carries: 60 %"}})
	}
	for k := range shares {
		if shares[k] < 0 {
			if left <= 0 {
				return nil, fmt.Errorf("room %q: the shares that its emitters carry leave nothing for the rest", jr.Name)
			}
			shares[k] = -shares[k] / open * left
		}
		total += shares[k]
	}
	if total > 1.001 || total < 0.999 {
		return nil, fmt.Errorf("room %q: its emitters carry %.0f %% of its load together; it should be 100 %%", jr.Name, 100*total)
	}
	return shares, nil
}

// attach puts a room's emitters on a circuit that carries a share of the room's load.
func (m *model) attach(ci, ri int, emitters []job.Emitter, share float64) error {
	c, r := &m.circuits[ci], &m.rooms[ri]
	if len(emitters) == 0 {
		return fmt.Errorf("circuit %q: nothing says what heats on it; give its emitters", c.job.Name)
	}
	load := units.Power(share) * r.loss.At(r.setpoint, m.design) / units.Power(len(emitters))
	solve := curve.Room{Name: r.name, Setpoint: r.setpoint, Loss: r.loss.Scale(units.Fraction(share)), Gains: units.Power(share) * r.gains}
	var feeds []feed
	for k, e := range emitters {
		f, err := m.readEmitter(e, r, load)
		if err != nil {
			return fmt.Errorf("room %q, emitter %d on %q: %w", r.name, k+1, c.job.Name, err)
		}
		f.room = ri
		feeds = append(feeds, f)
		solve.Emitters = append(solve.Emitters, f.emitter)
	}
	c.rooms = append(c.rooms, ri)
	c.feeds = append(c.feeds, feeds)
	c.solve.Rooms = append(c.solve.Rooms, solve)
	return nil
}

// finish gives a circuit its flow, its limits and its shape.
func (m *model) finish(c *circuit) error {
	c.solve.Name = c.job.Name
	weights := make(map[string]float64)
	for i, r := range c.solve.Rooms {
		q := max(0, r.Load(m.design, r.Setpoint))
		c.load += q
		for _, f := range c.feeds[i] {
			weights[f.family] += math.Max(float64(q), 1) / float64(len(c.feeds[i]))
			c.doubt = math.Max(c.doubt, f.doubt)
			if c.drop == 0 || f.usualDrop() < c.drop {
				c.drop = f.usualDrop()
			}
		}
	}
	for name, w := range weights {
		if c.family == "" || w > weights[c.family] || (w == weights[c.family] && name < c.family) {
			c.family = name
		}
	}
	c.families = []string{c.family}
	for _, name := range slices.Sorted(maps.Keys(weights)) {
		if name != c.family && weights[name] >= float64(c.load)/4 {
			c.families = append(c.families, name)
		}
	}
	c.setpoint = m.commonSetpoint(c)
	if c.load <= 0 {
		return fmt.Errorf("its rooms need no heat on the design day; look at set-points and gains")
	}
	if err := m.flows(c); err != nil {
		return err
	}
	return m.limitSupply(c)
}

// mostDrop is the largest cooling of the water in a circuit that anyone means.
const mostDrop = units.Difference(80)

// commonSetpoint is the set-point of most of the circuit's load.
func (m *model) commonSetpoint(c *circuit) units.Temperature {
	weight := make(map[units.Temperature]float64)
	best := c.solve.Rooms[0].Setpoint
	for _, r := range c.solve.Rooms {
		weight[r.Setpoint] += math.Max(float64(r.Load(m.design, r.Setpoint)), 1)
		if w := weight[r.Setpoint]; w > weight[best] || (w == weight[best] && r.Setpoint > best) {
			best = r.Setpoint
		}
	}
	return best
}

// flows gives the circuit its flow: as surveyed, or the one that loses the wanted drop.
func (m *model) flows(c *circuit) error {
	water := m.fluid()
	middle := units.Celsius(60)
	if c.family == "floor" {
		middle = units.Celsius(40)
	}
	c.flowAt = middle
	if c.job.Drop.Set {
		c.drop = c.job.Drop.Value
	}
	c.flowHow = job.Assumed
	capacity := units.LossCoefficient(float64(c.load) / float64(c.drop))
	var err error
	if c.job.Flow.Set {
		c.flow, c.flowHow = c.job.Flow.Value, c.job.Flow.How()
		if capacity, err = water.CapacityFlow(c.flow, middle); err != nil {
			return fmt.Errorf("flow: %w", err)
		}
		if !(capacity > 0) {
			return fmt.Errorf("flow: %s moves no heat", m.say(c.flow))
		}
	}
	m.shareFlow(c, capacity)
	if err := c.solve.Check(); err != nil {
		return err
	}
	c.taken = m.takenFromWater(c)
	if !c.job.Flow.Set {
		if c.job.Drop.Set {
			c.flowHow = c.job.Drop.How()
		}
		// The drop is that of the water, so its flow carries what floors lose below as well.
		if c.taken > c.load {
			capacity = units.LossCoefficient(float64(c.taken) / float64(c.drop))
			m.shareFlow(c, capacity)
			c.taken = m.takenFromWater(c)
		}
		if c.flow, err = water.VolumeFlow(capacity, middle); err != nil {
			return fmt.Errorf("drop: %w", err)
		}
	}
	c.drop = units.Difference(float64(c.taken) / float64(capacity))
	if c.drop > mostDrop {
		return fmt.Errorf("flow: %s is too little for the %s of the design day: the water would have to cool by %s; accepted: a drop of up to %s",
			m.say(c.flow), m.say(c.taken), m.say(c.drop), m.say(mostDrop))
	}
	c.runs = c.flow
	return c.solve.Check()
}

// takenFromWater is the heat that the water gives off while the rooms get their load on the
// design day: a floor also warms what lies below it.
func (m *model) takenFromWater(c *circuit) units.Power {
	if !hasFloor(c) {
		return c.load
	}
	water, rooms := c.solve.Water(c.solve.Ideal([]units.Temperature{m.design})[0])
	if rooms <= 0 {
		return c.load
	}
	return max(c.load, c.load*water/rooms)
}

// shareFlow gives the circuit its heat capacity flow and shares it: by load among rooms in
// parallel, by output among the emitters of a room.
func (m *model) shareFlow(c *circuit, capacity units.LossCoefficient) {
	c.solve.Flow, c.solve.Loop = capacity, nil
	series := c.job.Layout == "series"
	total := 0.0
	loads := make([]float64, len(c.solve.Rooms))
	for i, r := range c.solve.Rooms {
		// A room that needs next to nothing still has a branch with some flow in it.
		loads[i] = math.Max(float64(r.Load(m.design, r.Setpoint)), 0.02*float64(c.load)/float64(len(loads)))
		total += loads[i]
	}
	for i := range c.solve.Rooms {
		r := &c.solve.Rooms[i]
		r.Flows = make([]units.LossCoefficient, len(r.Emitters))
		sum := 0.0
		out := make([]float64, len(r.Emitters))
		for k, e := range r.Emitters {
			out[k] = float64(e.Output(c.feeds[i][k].probe(), capacity, r.Setpoint).Room)
			sum += out[k]
			if series {
				c.solve.Loop = append(c.solve.Loop, curve.Stop{Room: i, Emitter: k})
			}
		}
		for k := range r.Emitters {
			if series {
				r.Flows[k] = capacity
				continue
			}
			share := 1 / float64(len(r.Emitters))
			if sum > 0 {
				share = out[k] / sum
			}
			r.Flows[k] = units.LossCoefficient(float64(capacity) * loads[i] / total * share)
		}
	}
}

// floorSupply is the supply at which a floor reaches its surface limit with its room
// at the set-point.
func floorSupply(f feed, flow units.LossCoefficient, r room) (units.Temperature, error) {
	most := units.Power(float64(f.floor.Limit.Flux) * float64(f.survey.Area))
	return emitter.SupplyFor(f.emitter, most, flow, r.setpoint)
}
