package proof

import (
	"curvewright/fluid"
	"curvewright/units"
)

// fluidRows checks water and glycol mixtures. The engine takes water at 2 bar
// absolute; rows of the steam tables at other pressures are in the tests of the
// package, since no caller can ask for them.
func fluidRows() []Row {
	const (
		waterTables = "worked out from IAPWS R7-97(2012) region 1, R12-08 and R15-11 at 0.2 MPa"
		melinder    = "worked out from the polynomials of Melinder 2010, Properties of Secondary Working Fluids for Indirect Systems"
		handbook    = "chemistry handbook, 15th ed., Table 5.13, propylene glycol by volume"
		digits      = "half a unit of the last digit printed"
	)
	celsius, fahrenheit := units.Celsius, units.Fahrenheit
	density := func(m fluid.Mixture, at units.Temperature) func() (float64, error) {
		return func() (float64, error) { v, err := m.Density(at); return float64(v), err }
	}
	heat := func(m fluid.Mixture, at units.Temperature) func() (float64, error) {
		return func() (float64, error) { v, err := m.SpecificHeat(at); return float64(v), err }
	}
	viscosity := func(m fluid.Mixture, at units.Temperature) func() (float64, error) {
		return func() (float64, error) { v, err := m.Viscosity(at); return float64(v) * 1e3, err }
	}
	conductivity := func(m fluid.Mixture, at units.Temperature) func() (float64, error) {
		return func() (float64, error) { v, err := m.Conductivity(at); return float64(v), err }
	}
	factor := func(m fluid.Mixture, at units.Temperature) func() (float64, error) {
		unit := float64(units.BtuPerHour(1)) / float64(units.GallonsPerMinute(1)) / float64(units.FahrenheitDifference(1))
		return func() (float64, error) { v, err := m.HeatFactor(at); return float64(v) / unit, err }
	}
	freezes := func(make func(fluid.Kind, units.Fraction) (fluid.Mixture, error), k fluid.Kind, share units.Fraction) func() (float64, error) {
		return func() (float64, error) {
			m, err := make(k, share)
			if err != nil {
				return 0, err
			}
			t, err := m.FreezePoint()
			return t.Celsius(), err
		}
	}
	boils := func(at units.Temperature) func() (float64, error) {
		return func() (float64, error) { p, err := fluid.SaturationPressure(at); return float64(p) / 1e3, err }
	}
	boilsAt := func(p units.Pressure) func() (float64, error) {
		return func() (float64, error) { t, err := fluid.SaturationTemperature(p); return float64(t), err }
	}
	water := fluid.Water()
	pg := func(share units.Fraction) fluid.Mixture {
		return fluid.Mixture{Kind: fluid.PropyleneGlycol, Mass: share}
	}
	eg := func(share units.Fraction) fluid.Mixture {
		return fluid.Mixture{Kind: fluid.EthyleneGlycol, Mass: share}
	}
	rows := []Row{
		{ID: "water-boiling-300k", What: "pressure at which water boils at 300 K", Ours: boils(300), Published: 3.53658941, Unit: "kPa", Rel: 1e-8, Source: "IAPWS R7-97(2012), Table 35", Standing: Published},
		{ID: "water-boiling-500k", What: "pressure at which water boils at 500 K", Ours: boils(500), Published: 2638.89776, Unit: "kPa", Rel: 1e-8, Source: "IAPWS R7-97(2012), Table 35", Standing: Published},
		{ID: "water-boiling-1bar", What: "temperature at which water boils under 0.1 MPa absolute", Ours: boilsAt(0.1e6), Published: 372.755919, Unit: "K", Rel: 1e-8, Source: "IAPWS R7-97(2012), Table 36", Standing: Published},
		{ID: "water-boiling-10bar", What: "temperature at which water boils under 1 MPa absolute", Ours: boilsAt(1e6), Published: 453.035632, Unit: "K", Rel: 1e-8, Source: "IAPWS R7-97(2012), Table 36", Standing: Published},
		{ID: "water-density-20", What: "density of water at 20 °C", Ours: density(water, celsius(20)), Published: 998.25, Unit: "kg/m³", Abs: 0.005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-density-60", What: "density of water at 60 °C", Ours: density(water, celsius(60)), Published: 983.25, Unit: "kg/m³", Abs: 0.005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-density-110", What: "density of water at 110 °C", Ours: density(water, celsius(110)), Published: 950.98, Unit: "kg/m³", Abs: 0.005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-heat-40", What: "specific heat of water at 40 °C", Ours: heat(water, celsius(40)), Published: 4178.3, Unit: "J/kgK", Abs: 0.05, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-heat-80", What: "specific heat of water at 80 °C", Ours: heat(water, celsius(80)), Published: 4195.3, Unit: "J/kgK", Abs: 0.05, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-viscosity-20", What: "viscosity of water at 20 °C", Ours: viscosity(water, celsius(20)), Published: 1.0016, Unit: "mPa·s", Abs: 0.0002, Source: "ISO/TR 3666", Standing: FromMemory, Note: "the report is at the pressure of the air"},
		{ID: "water-viscosity-60", What: "viscosity of water at 60 °C", Ours: viscosity(water, celsius(60)), Published: 0.4661, Unit: "mPa·s", Abs: 0.00005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-conductivity-60", What: "conductivity of water at 60 °C", Ours: conductivity(water, celsius(60)), Published: 0.6511, Unit: "W/mK", Abs: 0.00005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-500-60f", What: "heat carried by 1 gpm of water for 1 °F at 60 °F", Ours: factor(water, fahrenheit(60)), Published: 500.4, Unit: "Btu/h", Abs: 0.05, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-500-140f", What: "heat carried by 1 gpm of water for 1 °F at 140 °F", Ours: factor(water, fahrenheit(140)), Published: 491.8, Unit: "Btu/h", Abs: 0.05, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "water-500-rule", What: "heat carried by 1 gpm of water for 1 °F at 180 °F, against the rule", Ours: factor(water, fahrenheit(180)), Published: 500, Unit: "Btu/h", Rel: 0.03, Source: "the rule of 500", Standing: CommonPractice, Note: "the rule is for cold water; hot water carries up to 3 % less per gallon"},
		{ID: "water-flow-100000", What: "flow for 100,000 Btu/h with a drop of 20 °F, measured at 140 °F", Ours: func() (float64, error) {
			f, err := water.FlowFor(units.BtuPerHour(100000), units.FahrenheitDifference(20), fahrenheit(140))
			return f.GallonsPerMinute(), err
		}, Published: 10.17, Unit: "gpm", Abs: 0.005, Source: waterTables, Standing: Formula, Note: digits},
		{ID: "propylene-freeze-30", What: "freezing point of propylene glycol 30 % by mass", Ours: freezes(fluid.GlycolByMass, fluid.PropyleneGlycol, 0.30), Published: -12.79, Unit: "°C", Abs: 0.02, Source: melinder, Standing: Formula},
		{ID: "ethylene-freeze-40", What: "freezing point of ethylene glycol 40 % by mass", Ours: freezes(fluid.GlycolByMass, fluid.EthyleneGlycol, 0.40), Published: -23.81, Unit: "°C", Abs: 0.02, Source: melinder, Standing: Formula},
		{ID: "propylene-freeze-volume-30", What: "freezing point of propylene glycol 30 % by volume", Ours: freezes(fluid.GlycolByVolume, fluid.PropyleneGlycol, 0.30), Published: -12.8, Unit: "°C", Abs: 1, Source: handbook, Standing: Published, Note: "tables of different makers' glycol differ by 1 K to 40 %"},
		{ID: "propylene-freeze-volume-40", What: "freezing point of propylene glycol 40 % by volume", Ours: freezes(fluid.GlycolByVolume, fluid.PropyleneGlycol, 0.40), Published: -20.6, Unit: "°C", Abs: 1, Source: handbook, Standing: Published, Note: "tables of different makers' glycol differ by 1 K to 40 %"},
		{ID: "propylene-freeze-volume-50", What: "freezing point of propylene glycol 50 % by volume", Ours: freezes(fluid.GlycolByVolume, fluid.PropyleneGlycol, 0.50), Published: -33.3, Unit: "°C", Abs: 2, Source: handbook, Standing: Published, Note: "tables of different makers' glycol differ by 2 K at 50 %"},
		{ID: "propylene-density-40", What: "density of propylene glycol 40 % by mass at 60 °C", Ours: density(pg(0.40), celsius(60)), Published: 1006.31, Unit: "kg/m³", Rel: 1e-3, Source: melinder, Standing: Formula},
		{ID: "propylene-heat-40", What: "specific heat of propylene glycol 40 % by mass at 60 °C", Ours: heat(pg(0.40), celsius(60)), Published: 3833.9, Unit: "J/kgK", Rel: 1e-3, Source: melinder, Standing: Formula},
		{ID: "propylene-viscosity-40", What: "viscosity of propylene glycol 40 % by mass at 50 °C", Ours: viscosity(pg(0.40), celsius(50)), Published: 1.623, Unit: "mPa·s", Rel: 1e-3, Source: melinder, Standing: Formula, Note: "the coefficients give the logarithm of the viscosity; read as a plain polynomial they give a negative one"},
		{ID: "ethylene-conductivity-30", What: "conductivity of ethylene glycol 30 % by mass at 40 °C", Ours: conductivity(eg(0.30), celsius(40)), Published: 0.4830, Unit: "W/mK", Rel: 1e-3, Source: melinder, Standing: Formula},
		{ID: "ethylene-viscosity-40", What: "viscosity of ethylene glycol 40 % by mass at 40 °C", Ours: viscosity(eg(0.40), celsius(40)), Published: 1.635, Unit: "mPa·s", Rel: 1e-3, Source: melinder, Standing: Formula},
		{ID: "propylene-500-50", What: "heat carried by 1 gpm of propylene glycol 50 % by mass for 1 °F at 60 °C", Ours: factor(pg(0.50), celsius(60)), Published: 445, Unit: "Btu/h", Rel: 0.01, Source: melinder, Standing: Formula},
	}
	for i := range rows {
		rows[i].Subject = "Water and glycol"
	}
	return rows
}
