package job

import (
	"errors"
	"fmt"
	"strings"

	"curvewright/pipework"
	"curvewright/refuse"
	"curvewright/units"
)

// Do pipes, pump, valve and floor loops of a circuit make sense?

// tubes are the kinds of tube of the document in the words of package pipework.
var tubes = map[string]pipework.Standard{
	"copper K": pipework.CopperK, "copper L": pipework.CopperL, "copper M": pipework.CopperM, "copper EN 1057": pipework.CopperMetric,
	"pex ASTM F876": pipework.PEX, "pex ISO 15875": pipework.PEXMetric, "pe-rt": pipework.PERT, "multilayer": pipework.Multilayer,
	"steel schedule 40": pipework.SteelSchedule40, "steel EN 10255": pipework.SteelMetric,
}

// Pipe finds the tube of a run in the tables of its kind.
//
// Units: lengths in m.
// Range: the sizes of pipework.Tables.
// Source: as the table says.
// Errors: an unknown kind or size; the message lists what there is.
func (r PipeRun) Pipe() (pipework.Pipe, error) {
	return pipework.Find(tubes[r.Tube], strings.TrimSuffix(strings.TrimSpace(r.Size), " in"))
}

// floorTubes are the tables in which a floor's tube is looked for, by its material.
var floorTubes = map[string][]pipework.Standard{
	"": {pipework.PEX, pipework.PEXMetric}, "pex": {pipework.PEX, pipework.PEXMetric}, "pe-rt": {pipework.PEX, pipework.PERT},
	"pp": {pipework.PEXMetric}, "multilayer": {pipework.PEX, pipework.Multilayer}, "copper": {pipework.CopperL, pipework.CopperMetric},
}

// SoldTube finds the tube of a floor by the size under which it is sold. Sizes in inches
// are nominal: 1/2 measures 5/8 in outside. Sizes in millimetres name outside and wall.
//
// Units: lengths in m.
// Range: the sizes of pipework.Tables for the floor's material.
// Source: as the table says; PE-RT and multilayer in inches measure as PEX (ASTM F876).
// Errors: no such size; the message lists what there is.
func (f Floor) SoldTube() (pipework.Pipe, error) {
	size := strings.TrimSuffix(strings.TrimSpace(f.Sold), " in")
	var accept []string
	for _, standard := range floorTubes[f.Material] {
		pipe, err := pipework.Find(standard, size)
		if err == nil {
			return pipe, nil
		}
		var refused *refuse.Error
		if errors.As(err, &refused) {
			accept = append(accept, refused.Accept)
		}
	}
	return pipework.Pipe{}, &refuse.Error{What: "tube size of a floor", Given: fmt.Sprintf("%q", f.Sold), Accept: strings.Join(accept, ", ")}
}

// soldTube judges the size under which a floor's tube is sold.
func (c *checker) soldTube(f Floor, p *place) {
	if f.Sold == "" {
		return
	}
	for _, twice := range []struct {
		name string
		set  bool
	}{{"tube", f.Tube.Set}, {"tube_wall", f.Wall.Set}} {
		if twice.set {
			c.fault(p.at(twice.name), "", "is given beside tube_size, from which it follows", "one of the two", "")
		}
	}
	pipe, err := f.SoldTube()
	var refused *refuse.Error
	switch {
	case errors.As(err, &refused):
		c.fault(p.at("tube_size"), f.Sold, "is not a size in which tube for floors is sold", refused.Accept, "")
	case err == nil && pipe.Outside > 0.04:
		c.fault(p.at("tube_size"), f.Sold, "is not the tube of a heated floor", "up to "+c.say(units.Length(0.04))+" outside", "")
	}
}

// pipework judges what the water of a circuit runs through.
func (c *checker) pipework(k Circuit, p *place) {
	moving(c, k.Flow, p.at("flow"))
	if k.Flow.Value > mostFlow {
		c.fault(p.at("flow"), k.Flow.text(), "is more water than any circuit of a house takes", "up to "+c.say(mostFlow), "")
	}
	for i, r := range k.Pipes {
		at := p.at("pipes").entry(i, "")
		if _, err := r.Pipe(); err != nil {
			accept := "a size of this kind of tube"
			var refused *refuse.Error
			if errors.As(err, &refused) {
				accept = refused.Accept
			}
			c.fault(at.at("size"), r.Size, "is not a size of "+r.Tube, accept, "")
		}
		outside(c, r.Length, units.Length(0.05), units.Length(1000), at.at("length"), "is not a length of tube in a house")
		outside(c, r.Extra, units.Pressure(1), units.Bar(2), at.at("extra"), "is not the drop of a part of a house's pipework")
		outside(c, r.Share, 0.01, 1, at.at("share"), "is not the share of a run")
		for _, n := range []struct {
			name  string
			count int
		}{{"bends", r.Bends}, {"tees", r.Tees}, {"valves", r.Valves}} {
			if n.count > 200 {
				c.fault(at.at(n.name), fmt.Sprint(n.count), "is more than one run has", "0 to 200", "")
			}
		}
	}
	c.only(k.Valve.Set, k.Kind == "mixed", p.at("valve"), "kind: mixed")
	outside(c, k.Valve, units.Kv(0.1), units.Kv(200), p.at("valve"), "is not the flow coefficient of a mixing valve in a house")
	if k.Pump != nil {
		c.pump(*k.Pump, p.at("pump").at("points"))
	}
	c.pumpOf(k, p)
}

// pumpOf judges a circuit that is driven by the pump of another one.
func (c *checker) pumpOf(k Circuit, p *place) {
	if k.PumpOf == "" {
		return
	}
	at := p.at("pump_of")
	if k.Kind == "mixed" {
		c.fault(at, k.PumpOf, "cannot drive a mixed circuit", "nothing: behind its valve it has a pump of its own", "")
		return
	}
	if k.Pump != nil {
		c.fault(p.at("pump"), "", "is given beside pump_of, which says that there is none", "one of the two", "")
	}
	if k.PumpOf == k.Name {
		c.fault(at, k.PumpOf, "is the circuit itself", "another circuit, or nothing", "")
		return
	}
	for _, other := range c.job.Circuits {
		switch {
		case other.Name != k.PumpOf:
			continue
		case other.Kind == "mixed":
			c.fault(at, k.PumpOf, "is a mixed circuit, whose pump stands behind its valve", "a direct circuit", "")
		case other.PumpOf != "":
			c.fault(at, k.PumpOf, "has no pump of its own", other.PumpOf+", or another circuit with a pump", "")
		}
		return
	}
	c.exists(k.PumpOf, c.circuitNames(), "circuit", at)
}

// moving asks for a flow that moves something.
func moving(c *checker, flow Given[units.Flow], p *place) {
	if flow.Set && flow.Value == 0 {
		c.fault(p, flow.text(), "is not more than zero", accepted(&flow), "")
	}
}

// pump judges the points of a pump's curve.
func (c *checker) pump(k Pump, at *place) {
	if n := len(k.Points); n != 0 && (n < 3 || n > 50) {
		given := fmt.Sprintf("%d points", n)
		if n == 1 {
			given = "one point"
		}
		c.fault(at, given, "does not make a curve", "3 to 50 points, the first at no flow", "read them off the curve in the pump's data sheet; without them leave points out: the pump is then set by the drop")
		return
	}
	for i, q := range k.Points {
		p := at.entry(i, "")
		outside(c, q.Flow, 0, units.LitresPerMinute(2000), p.at("flow"), "is not the flow of a house's pump")
		outside(c, q.Head, 0, units.Bar(3), p.at("head"), "is not the head of a house's pump")
		if i == 0 {
			if q.Flow.Value > 0 {
				c.fault(p.at("flow"), q.Flow.text(), "is not where a pump curve begins", "no flow, and the head there", "")
			}
			if q.Head.Value <= 0 {
				c.fault(p.at("head"), q.Head.text(), "is no head to begin with", "more than zero", "")
			}
			continue
		}
		before := k.Points[i-1]
		if q.Flow.Value <= before.Flow.Value {
			c.fault(p.at("flow"), q.Flow.text(), "is not more than at the point before", "more than "+before.Flow.text(), "")
		}
		if q.Head.Value > before.Head.Value {
			c.fault(p.at("head"), q.Head.text(), "is more than at the point before", "up to "+before.Head.text(), "a pump's head falls as its flow rises")
		}
	}
}

// floorLoops judges the loops of a heated floor.
func (c *checker) floorLoops(f Floor, p *place) {
	if f.Loops > 60 {
		c.fault(p.at("loops"), fmt.Sprint(f.Loops), "is more loops than one floor has", "1 to 60", "")
	}
	outside(c, f.LoopLength, 5, 300, p.at("loop_length"), "is not the length of a floor loop")
}
