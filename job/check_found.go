package job

import (
	"time"

	"curvewright/units"
)

// Can the control have stood like this?

// found judges the control as it was found.
func (c *checker) found() {
	f, at := c.job.Found, top("as_found")
	seen := map[string]bool{}
	for i, k := range f.Curves {
		p := at.at("curves").entry(i, k.Circuit)
		of := k.Circuit
		if of == "" && len(c.job.Circuits) == 1 {
			of = c.job.Circuits[0].Name
		}
		if seen[of] {
			c.fault(p.at("circuit"), k.Circuit, "has a curve already", "one curve for each circuit", "")
		}
		seen[of] = true
		if k.Circuit == "" && len(c.job.Circuits) > 1 {
			c.fault(p.at("circuit"), "", "is missing", "the name of a circuit, since there are several", "")
		}
		if k.Circuit != "" {
			c.exists(k.Circuit, c.circuitNames(), "circuit", p.at("circuit"))
		}
		c.foundCurve(k, p)
	}
	for _, t := range []struct{ name, text string }{{"lowered_from", f.LoweredFrom}, {"lowered_to", f.LoweredTo}} {
		if _, err := time.Parse("15:04", t.text); t.text != "" && (err != nil || len(t.text) != 5) {
			c.fault(at.at(t.name), t.text, "is not a time of day", "hours and minutes as 06:30 or 22:30", "")
		}
		c.only(t.text != "", f.Lower.Set, at.at(t.name), "lower")
		if f.Lower.Set && t.text == "" {
			c.fault(at.at(t.name), "", "is missing", "from when to when it lowered", "")
		}
	}
	hot := c.job.HotWater.By != "none"
	c.only(f.HotWater.Set, hot, at.at("hot_water"), "hot water")
	c.only(f.HotWaterDrop.Set, hot, at.at("hot_water_differential"), "hot water")
	outside(c, f.HotWater, units.Celsius(30), units.Celsius(90), at.at("hot_water"), "is not a hot water temperature")
	outside(c, f.HotWaterDrop, 0.5, 30, at.at("hot_water_differential"), "is not the differential of a tank")
	outside(c, f.Differential, 0.5, 40, at.at("differential"), "is not the differential of a burner")
	outside(c, f.Rest, 1, 7200, at.at("least_rest"), "is not the rest of a burner")
	if f.OutputLimit.Set && c.job.Boiler.MinOutput.Set && f.OutputLimit.Value < c.job.Boiler.MinOutput.Value {
		c.fault(at.at("output_limit"), f.OutputLimit.text(), "is less than the boiler's lowest output", "at least "+c.job.Boiler.MinOutput.text(), "")
	}
}

// foundCurve asks for one way in which the supply was made, and all of it.
func (c *checker) foundCurve(k FoundCurve, p *place) {
	anyPoint := k.ColdOutdoor.Set || k.ColdSupply.Set || k.MildOutdoor.Set || k.MildSupply.Set
	ways := 0
	for _, given := range []bool{k.Preset != "", k.Held.Set, anyPoint, k.Slope.Set, len(k.Points) > 0} {
		if given {
			ways++
		}
	}
	const accept = "one of preset, held, the cold and the mild point, slope, points"
	switch {
	case ways == 0:
		c.fault(p, "", "does not say what made the supply", accept, "")
		return
	case ways > 1:
		c.fault(p, "", "says in more than one way what made the supply", accept, "")
		return
	}
	c.only(k.Shift.Set, k.Slope.Set, p.at("shift"), "slope")
	c.only(k.Exponent.Set, anyPoint, p.at("exponent"), "a cold and a mild point")
	outside(c, k.Slope, 0.05, 10, p.at("slope"), "is not the slope of a curve")
	outside(c, k.Exponent, 0.5, 3, p.at("exponent"), "is not the exponent of a curve")
	outside(c, k.Shift, -40, 60, p.at("shift"), "is not the shift of a curve")
	below(c, k.MinSupply, k.MaxSupply, p.at("min_supply"), "is not below the highest supply")
	if anyPoint {
		for _, one := range []struct {
			name string
			set  bool
		}{{"cold_outdoor", k.ColdOutdoor.Set}, {"cold_supply", k.ColdSupply.Set}, {"mild_outdoor", k.MildOutdoor.Set}, {"mild_supply", k.MildSupply.Set}} {
			if !one.set {
				c.fault(p.at(one.name), "", "is missing", "all four figures of the cold and the mild point", "")
			}
		}
		below(c, k.ColdOutdoor, k.MildOutdoor, p.at("cold_outdoor"), "is not colder than the mild point")
	}
	if n := len(k.Points); n == 1 || n > 12 {
		c.fault(p.at("points"), units.Number(n).Text(c.system), "is not a number of points for a curve", "2 to 12", "")
	}
	for i := 1; i < len(k.Points); i++ {
		below(c, k.Points[i-1].Outdoor, k.Points[i].Outdoor, p.at("points").entry(i-1, "").at("outdoor"), "is not colder than the point after it")
	}
}
