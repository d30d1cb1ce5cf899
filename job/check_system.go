package job

// Can this be the closed system of a house, and can these be its sensors?

import (
	"fmt"
	"math"
	"reflect"

	"curvewright/sensor"
	"curvewright/units"
)

// outside tells a value that was given and lies outside what is possible.
func outside[T units.Quantity](c *checker, g Given[T], low, high T, p *place, problem string) {
	if !g.Set {
		return
	}
	const slack = 1e-9 // keeps a limit on its own side in every unit
	from, to := reflect.ValueOf(low).Float(), reflect.ValueOf(high).Float()
	if v := reflect.ValueOf(g.Value).Float(); v < from-slack*math.Abs(from) || v > to+slack*math.Abs(to) {
		c.fault(p, g.text(), problem, c.say(low)+" to "+c.say(high), "")
	}
}

// water prints a volume of water for a message.
func (c *checker) water(v units.Volume) string { return v.WaterText(c.system) }

func (c *checker) volume(g Given[units.Volume], low, high units.Volume, p *place, problem string) {
	if g.Set && (g.Value < low || g.Value > high) {
		c.fault(p, g.text(), problem, c.water(low)+" to "+c.water(high), "")
	}
}

// closedSystem judges water, vessel and antifreeze.
func (c *checker) closedSystem() {
	s, at := c.job.System, top("system")
	c.volume(s.Content, units.Litres(5), units.Litres(20000), at.at("content"), "is not the water of a house's heating")
	c.volume(s.Vessel, units.Litres(1), units.Litres(2000), at.at("vessel"), "is not the volume of an expansion vessel")
	c.volume(s.BoilerWater, units.Litres(0.1), units.Litres(2000), at.at("boiler_water"), "is not the water of a house's boiler")
	if s.BoilerWater.Set && s.Content.Set && s.BoilerWater.Value >= s.Content.Value {
		c.fault(at.at("boiler_water"), s.BoilerWater.text(), "is not less than the water of the whole system", "less than "+c.water(s.Content.Value), "")
	}
	outside(c, s.Height, 0.5, 45, at.at("height"), "is not the height of a house's heating")
	outside(c, s.Relief, units.Bar(1.5), units.Bar(10), at.at("relief"), "is not the setting of a heating system's relief valve")
	outside(c, s.Hardness, 0, 20, at.at("hardness"), "is not the hardness of tap water")
	if s.Relief.Set && s.Precharge.Set && s.Precharge.Value >= s.Relief.Value {
		c.fault(at.at("precharge"), s.Precharge.text(), "is not below the relief valve", "less than "+c.say(s.Relief.Value), "")
	}
	outside(c, s.Precharge, 0, units.Bar(10), at.at("precharge"), "is not the precharge of an expansion vessel")
	in := s.Antifreeze != "" && s.Antifreeze != "none"
	c.only(s.Share.Set, in, at.at("antifreeze_share"), "antifreeze: propylene glycol, or antifreeze: ethylene glycol")
	most := units.Fraction(0.59) // by volume, what the properties of the glycol reach
	if s.Antifreeze == "ethylene glycol" {
		most = 0.57
	}
	outside(c, s.Share, 0.01, most, at.at("antifreeze_share"), "is not a share of antifreeze in heating water")
	if s.Antifreeze == "none" && c.job.Frost.Glycol == "yes" {
		c.fault(at.at("antifreeze"), s.Antifreeze, "contradicts frost › glycol: yes", "the kind of glycol that is in, or glycol: no", "")
	}
	if in && c.job.Frost.Glycol == "no" {
		c.fault(at.at("antifreeze"), s.Antifreeze, "contradicts frost › glycol: no", "none, or glycol: yes", "")
	}
}

// sensors judges the sensors and what was read at them.
func (c *checker) sensors() {
	at := top("sensors")
	seen := map[string]bool{}
	for i, s := range c.job.Sensors {
		p := at.entry(i, s.Name)
		c.unique(seen, s.Name, p)
		thermistor, table := s.Type == "thermistor", s.Type == "table"
		c.only(s.R25.Set, thermistor, p.at("r25"), "type: thermistor")
		c.only(s.B.Set, thermistor, p.at("b"), "type: thermistor")
		c.only(len(s.Points) > 0, table, p.at("points"), "type: table")
		c.only(s.Sheet != "", table, p.at("sheet"), "type: table")
		c.only(s.Coefficients != nil, thermistor, p.at("coefficients"), "type: thermistor")
		switch {
		case !thermistor:
		case s.Coefficients != nil:
			c.coefficients(s, p)
		default:
			if !s.R25.Set {
				c.fault(p.at("r25"), "", "is missing", "the thermistor's resistance at 25 °C (77 °F), or its coefficients", "")
			}
			if !s.B.Set {
				c.fault(p.at("b"), "", "is missing", "the thermistor's B from its sheet, in kelvin, or its coefficients", "with the maker's table use type: table")
			}
		}
		outside(c, s.R25, 10, 1e7, p.at("r25"), "is not the resistance of a thermistor")
		outside(c, s.B, 1500, 7000, p.at("b"), "is not the B of a thermistor")
		points := s.Points
		if table {
			points = c.sensorRows(s, p)
		}
		alone := s.Reads.Set && (sensor.IsOpen(s.Reads.Value) || sensor.IsShort(s.Reads.Value))
		if s.Reads.Set != s.Beside.Set && !alone {
			c.fault(p, "", "tells half of a reading", "reads, and beside: the temperature beside it at that moment", "")
		}
		outside(c, s.Reads, 0, 1e9, p.at("reads"), "is not the resistance of a sensor")
		if low, high, ok := coldestAndHottest(points); table && ok && s.Beside.Set && (s.Beside.Value < low || s.Beside.Value > high) {
			c.fault(p.at("beside"), s.Beside.text(), "is outside the sensor's table", c.say(low)+" to "+c.say(high), "")
		}
	}
}

// coefficients judges those of a thermistor, which stand instead of its B.
func (c *checker) coefficients(s Sensor, p *place) {
	if s.R25.Set || s.B.Set {
		c.fault(p, "", "has both coefficients and r25 or b", "one of them; the coefficients tell more", "")
	}
	k, at := *s.Coefficients, p.at("coefficients")
	if _, err := sensor.FromSteinhartHart("thermistor", k.A.Value, k.B.Value, k.C.Value); err != nil {
		c.fault(at, "", "give no thermistor", "a, b and c for ohms and kelvins, as a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8",
			"look at the powers of ten, and whether the sheet means another form of the law")
	}
}

// sensorRows judges the table of a sensor, however it is given, and gives its rows.
func (c *checker) sensorRows(s Sensor, p *place) []SensorPoint {
	switch {
	case s.Sheet == "":
		c.sensorTable(s.Points, p.at("points"))
		return s.Points
	case len(s.Points) > 0:
		c.fault(p, "", "has both points and sheet", "one of them", "")
		return nil
	}
	rows, err := sensor.Rows(s.Sheet)
	if err == nil {
		_, err = sensor.FromTable("table", rows)
	}
	if err != nil {
		c.fault(p.at("sheet"), "", "cannot be used: "+err.Error(), "a temperature and a resistance in each line: 20 °C ; 12.5 kΩ", "")
		return nil
	}
	var out []SensorPoint
	for _, r := range rows {
		out = append(out, SensorPoint{At: Says(r.At, ""), Resistance: Says(r.Reads, "")})
	}
	return out
}

// sensorTable asks for a table that can be read both ways.
func (c *checker) sensorTable(points []SensorPoint, p *place) {
	if len(points) < 2 || len(points) > 1000 {
		c.fault(p, fmt.Sprint(len(points)), "is not a number of points for a table", "2 to 1000", "")
		return
	}
	for i, k := range points {
		outside(c, k.Resistance, 1, 1e7, p.entry(i, "").at("resistance"), "is not the resistance of a sensor")
		for _, other := range points[:i] {
			warmer, more := k.At.Value > other.At.Value, k.Resistance.Value > other.Resistance.Value
			switch first := points[1]; {
			case k.At.Value-other.At.Value < 0.01 && other.At.Value-k.At.Value < 0.01:
				c.fault(p.entry(i, "").at("at"), k.At.text(), "stands twice", "each temperature once", "")
			case k.Resistance.Value == other.Resistance.Value,
				(warmer == more) != ((first.At.Value > points[0].At.Value) == (first.Resistance.Value > points[0].Resistance.Value)):
				c.fault(p.entry(i, "").at("resistance"), k.Resistance.text(), "turns back", "a resistance that only rises or only falls with temperature", "look for a slip in this row or in one before")
			default:
				continue
			}
			return // one slip makes many rows look wrong
		}
	}
}

func coldestAndHottest(points []SensorPoint) (low, high units.Temperature, ok bool) {
	for i, k := range points {
		if i == 0 {
			low, high = k.At.Value, k.At.Value
		}
		low, high = min(low, k.At.Value), max(high, k.At.Value)
	}
	return low, high, len(points) > 0
}
