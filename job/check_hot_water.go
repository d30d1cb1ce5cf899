package job

import (
	"strings"

	"curvewright/units"
)

// Does what is said of hot water fit together?

// waterHeat is a little less than the heat that water carries, J/m³K, so that a coil
// is refused only if its flow cannot carry its output.
const waterHeat = 4.0e6

// hotWater judges how hot water is made.
func (c *checker) hotWater() {
	w, at := c.job.HotWater, top("hot_water")
	tank, none := strings.HasPrefix(w.By, "tank"), w.By == "none"
	const tanks = "by: tank with own pump, or by: tank with three-way valve"
	c.only(w.Tank.Set, tank, at.at("tank"), tanks)
	c.only(w.Coil != nil, tank, at.at("coil"), tanks)
	c.only(w.StandLoss.Set, tank, at.at("standing_loss"), tanks)
	c.only(w.TakesFrom != "", tank, at.at("takes_from"), tanks)
	c.only(w.TakesFrom == "buffer", strings.HasSuffix(c.job.Separator.Kind, "buffer"), at.at("takes_from"), "a buffer as separator")
	c.only(w.Setpoint.Set, !none, at.at("setpoint"), "hot water")
	c.only(w.Loop == "yes", !none, at.at("recirculation"), "hot water")
	c.only(w.Mixing == "yes", !none, at.at("mixing_valve"), "hot water")
	c.only(w.Pattern != "", !none, at.at("pattern"), "hot water")
	for _, l := range []struct {
		name string
		set  bool
	}{{"loop_length", w.LoopLength.Set}, {"loop_tube", w.LoopTube.Set}, {"loop_insulation", w.LoopCover.Set}} {
		c.only(l.set, w.Loop == "yes", at.at(l.name), "recirculation: yes")
	}
	if w.Priority == "no" && w.By != "" && w.By != "tank with own pump" {
		c.fault(at.at("priority"), w.Priority, "cannot be: the heating gets nothing while hot water is made", "yes, or by: tank with own pump", "")
	}
	if w.People > 40 {
		c.fault(at.at("people"), units.Number(w.People).Text(c.system), "is more people than live in a house", "up to 40", "")
	}
	outside(c, w.Setpoint, units.Celsius(30), units.Celsius(90), at.at("setpoint"), "is not a hot water temperature")
	outside(c, w.Cold, units.Celsius(1), units.Celsius(29), at.at("cold"), "is not the temperature of cold water")
	c.volume(w.Tank, units.Litres(10), units.Litres(5000), at.at("tank"), "is not the size of a tank")
	outside(c, w.StandLoss, 1, 1000, at.at("standing_loss"), "is not what a tank loses")
	outside(c, w.LoopLength, 1, 300, at.at("loop_length"), "is not the length of a circulation")
	outside(c, w.LoopTube, units.Millimetres(6), units.Millimetres(60), at.at("loop_tube"), "is not the diameter of a circulation's tube")
	outside(c, w.LoopCover, 0, units.Millimetres(100), at.at("loop_insulation"), "is not a thickness of pipe insulation")
	if w.Coil != nil {
		c.coil(*w.Coil, at.at("coil"))
	}
}

// coil judges the rated point of a tank's coil.
func (c *checker) coil(k TankCoil, at *place) {
	outside(c, k.Output, 500, 200e3, at.at("output"), "is not the output of a tank's coil")
	outside(c, k.Flow, units.LitresPerMinute(1), units.LitresPerMinute(200), at.at("flow"), "is not the flow of a tank's coil")
	outside(c, k.Supply, units.Celsius(35), units.Celsius(105), at.at("supply"), "is not a primary supply that coils are rated at")
	outside(c, k.Tank, units.Celsius(5), units.Celsius(80), at.at("tank"), "is not a tank temperature that coils are rated at")
	tank := k.Tank.Or(units.Celsius(35)).Value
	if k.Supply.Value < tank+5 {
		c.fault(at.at("supply"), k.Supply.text(), "is not warmer than the tank of the rating", "more than "+c.say(tank+5), "")
		return
	}
	if most := units.Power(waterHeat * float64(k.Flow.Value) * float64(k.Supply.Value-tank)); k.Output.Value > most {
		c.fault(at.at("output"), k.Output.text(), "is more than its flow carries", "up to "+c.say(most), "look at flow and temperatures of the rating")
	}
}
