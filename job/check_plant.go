package job

import (
	"fmt"
	"strings"

	"curvewright/boiler"
	"curvewright/units"
)

// Can this be the boiler of a house, and what stands between it and the circuits?

const (
	// mostFlow is more water than a house can move: 100 kW (340,000 Btu/h) at a drop of
	// 5 K (9 °F), rounded up; common practice.
	mostFlow = units.Flow(300.0 / 60000)
	// leastBoiler and mostBoiler are around any that heats a house; below lies a figure in
	// another unit than was meant. Common practice.
	leastBoiler, mostBoiler = units.Power(1000), units.Power(1e6)
	// mostTurndown is far beyond any burner, which turns down to a twentieth at best (common
	// practice), and finds watts where kilowatts were meant.
	mostTurndown = 500
	// leastEfficiency is below any boiler that makers declare.
	leastEfficiency = units.Fraction(0.5)
)

// mostNet are the largest efficiencies that there can be against net heat: the gross heat
// of the fuel over its net heat, by the fuels of package boiler.
var mostNet = map[string]units.Fraction{"": 1.11, "natural gas": 1.11, "propane": 1.09, "heating oil": 1.07}

// plant judges boiler, separator and hot water.
func (c *checker) plant() {
	b, at := c.job.Boiler, top("boiler")
	if b.MinOutput.Set && b.Output.Set && b.MinOutput.Value >= b.Output.Value {
		c.fault(at.at("min_output"), b.MinOutput.text(), "is not less than the highest output", "less than "+c.say(b.Output.Value), "")
	}
	outside(c, b.Output, leastBoiler, mostBoiler, at.at("output"), "is not the output of a house's boiler")
	if b.MinOutput.Set && b.Output.Set && b.MinOutput.Value < b.Output.Value/mostTurndown {
		c.fault(at.at("min_output"), b.MinOutput.text(), "is less than any burner turns down to", c.say(b.Output.Value/mostTurndown)+" to "+c.say(b.Output.Value), "the usual slip is the unit")
	}
	below(c, b.MinSupply, b.MaxSupply, at.at("min_supply"), "is not below the highest supply")
	outside(c, b.Electricity, 0.5, 1000, at.at("electricity"), "is not the electricity of a house's boiler")
	outside(c, b.Idle, 0.1, 200, at.at("electricity_idle"), "is not the electricity of a house's boiler")
	c.burner(b, at)
	for i, r := range b.Rated {
		c.rated(r, at.at("rated").entry(i, ""))
	}
	if b.Gas != nil {
		c.gas(*b.Gas, at.at("gas"))
	}
	c.separator()
	c.hotWater()
}

// mostExcessAir is the range of package boiler: behind a draught hood much air of the room
// is in the flue gas.
const mostExcessAir = units.Fraction(4)

// burner judges what only some boilers can have.
func (c *checker) burner(b Boiler, at *place) {
	if b.Burner == "atmospheric" && b.Kind == "condensing" {
		c.fault(at.at("burner"), b.Burner, "is not the burner of a condensing boiler", "premix, forced draught", "")
	}
	if b.Burner == "atmospheric" && b.Fuel == "heating oil" {
		c.fault(at.at("burner"), b.Burner, "does not burn heating oil", "forced draught", "")
	}
	c.only(b.Least.Set, b.Kind == "non-condensing", at.at("least_return"), "kind: non-condensing")
	outside(c, b.Least, units.Celsius(20), units.Celsius(75), at.at("least_return"), "is not the least return of a boiler")
}

// rated judges an efficiency against the heat that it counts against.
func (c *checker) rated(r RatedPoint, at *place) {
	most, p := mostNet[c.job.Boiler.Fuel], at.at("efficiency")
	accept := fmt.Sprintf("%s to 100%% with basis: gross (higher heating value), to %s with basis: net (lower heating value)", c.say(leastEfficiency), c.say(most))
	switch e := r.Efficiency; {
	case e.Value < leastEfficiency:
		c.fault(p, e.text(), "is not the efficiency of a boiler", accept, "")
	case e.Value > most:
		c.fault(p, e.text(), "is more than the fuel holds, even against its net heat", accept, "")
	case e.Value > 1 && r.Basis != "net":
		c.fault(p, e.text(), "is more than the gross heat of the fuel", accept, "a figure above 100% counts against net heat: add basis: net")
	}
}

// gas judges the composition of a fuel gas.
func (c *checker) gas(g GasMix, at *place) {
	if f := c.job.Boiler.Fuel; f == "heating oil" {
		c.fault(at, "", "has no meaning here", "a composition only with fuel: natural gas, or fuel: propane", "")
		return
	}
	sum := units.Fraction(0)
	for _, p := range g.Parts() {
		sum += p.Share
	}
	if sum < 0.995 || sum > 1.005 {
		c.fault(at, sum.Text(c.system), "is what its components add up to", "100%", "nitrogen and carbon dioxide count too")
		return
	}
	if _, err := boiler.GasOf("the gas", g.Parts()...); err != nil {
		c.fault(at, "", "does not burn", "at least half of it methane, ethane, propane, butane or hydrogen", "")
	}
}

// Parts are the components that are given, in the words of package boiler.
//
// Range: every composition.
// Source: the survey.
func (g GasMix) Parts() []boiler.Part {
	var out []boiler.Part
	for _, p := range []struct {
		component boiler.Component
		share     Given[units.Fraction]
	}{{boiler.Methane, g.Methane}, {boiler.Ethane, g.Ethane}, {boiler.Propane, g.Propane}, {boiler.Butane, g.Butane},
		{boiler.Hydrogen, g.Hydrogen}, {boiler.Nitrogen, g.Nitrogen}, {boiler.CarbonDioxide, g.CarbonDioxide}} {
		if p.share.Set {
			out = append(out, boiler.Part{Component: p.component, Share: p.share.Value})
		}
	}
	return out
}

// separator judges what stands between boiler and circuits.
func (c *checker) separator() {
	s, at := c.job.Separator, top("separator")
	separated := s.Kind != "" && s.Kind != "none"
	if !separated && s.Sensor != "" && s.Sensor != "none" {
		c.fault(at.at("sensor"), s.Sensor, "is a sensor without a separator", "none", "say which kind of separator there is")
	}
	c.only(s.Flow.Set, separated, at.at("boiler_flow"), "a kind of separator")
	outside(c, s.Flow, units.LitresPerMinute(0.5), mostFlow, at.at("boiler_flow"), "is not the flow of a house's boiler pump")
	c.buffer(s, at.at("volume"))
}

// buffer judges the water of a buffer against what is said to hold it.
func (c *checker) buffer(s Separator, at *place) {
	buffer := strings.HasSuffix(s.Kind, "buffer")
	c.only(s.Volume.Set, buffer, at, "kind: two-pipe buffer, three-pipe buffer or four-pipe buffer")
	if !s.Volume.Set || !buffer {
		return
	}
	c.volume(s.Volume, units.Litres(5), units.Litres(5000), at, "is not the water of a house's buffer")
	if w := c.job.System.Content; w.Set && w.Value <= s.Volume.Value {
		c.fault(top("system").at("content"), w.text(), "is not more than the buffer alone holds", "more than "+c.water(s.Volume.Value), "")
	}
	if w := c.job.Boiler.Water; w.Set && w.Value < s.Volume.Value {
		c.fault(top("boiler").at("water"), w.text(), "is less than the buffer alone holds, which warms and cools with the burner",
			"at least "+c.water(s.Volume.Value), "leave it out to have it estimated, buffer included")
	}
}
