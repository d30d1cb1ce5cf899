package proof

import (
	"curvewright/fluid"
	"curvewright/pipework"
	"curvewright/units"
)

// Sources of the pipework rows, each named once.
const (
	colebrookHand  = "Darcy–Weisbach with Colebrook's friction factor, worked by hand"
	fluidLibrary   = "test file of an open fluid-mechanics library, Colebrook"
	copperChart    = "ASTM B88 tube sizes, two published size charts"
	pexChart       = "PEX tube chart, US gallons per 100 ft"
	tubeGeometry   = "ASTM B88 tube sizes and the area of a circle, worked by hand"
	mixingBalance  = "balance of mass and energy, worked by hand"
	waterExpansion = "IAPWS R7-97(2012) region 1 at 0.2 MPa, ratio of densities, worked by hand"
	vesselAnnex    = "EN 12828 annex D, from memory, worked by hand"
	diaphragmTank  = "ASHRAE Handbook HVAC Systems and Equipment, diaphragm tank, from memory, worked by hand"
	fillSheets     = "VDI 2035 sheet 1, 2005-era, as quoted in installation sheets"
	fillExample    = "ÖNORM H 5195-1, worked example of an installation sheet"
)

// pipeworkRows checks pipes, mixing, the expansion vessel and the fill water.
func pipeworkRows() []Row {
	var rows []Row
	rows = append(rows, frictionRows()...)
	rows = append(rows, tubeRows()...)
	rows = append(rows, mixingRows()...)
	rows = append(rows, vesselRows()...)
	rows = append(rows, fillWaterRows()...)
	return append(rows, glycolCostRows()...)
}

func frictionRows() []Row {
	const subject = "Pressure drop"
	factor := func(re, relative units.Number) func() (float64, error) {
		return func() (float64, error) {
			f, err := pipework.FrictionFactor(re, relative)
			return float64(f), err
		}
	}
	// per gives the drop of water at 60 °C in a tube.
	per := func(standard pipework.Standard, size string, gpm float64) func() (float64, error) {
		return func() (float64, error) {
			pipe, err := pipework.Find(standard, size)
			if err != nil {
				return 0, err
			}
			liquid, err := pipework.NewLiquid(fluid.Water(), units.Celsius(60))
			if err != nil {
				return 0, err
			}
			g, err := pipework.Gradient(pipe, units.GallonsPerMinute(gpm), liquid)
			return float64(g), err
		}
	}
	const bore = "largest bore of the tube, as the figure was worked with"
	return []Row{
		{ID: "friction-1e5-rough", Subject: subject, What: "friction factor at Re 100,000, ε/D 0.0001", Ours: factor(1e5, 1e-4), Published: 0.018513866077, Rel: 1e-7, Source: fluidLibrary, Standing: Published},
		{ID: "friction-1e5-smooth", Subject: subject, What: "friction factor at Re 100,000, smooth", Ours: factor(1e5, 0), Published: 0.017989773, Rel: 1e-6, Source: fluidLibrary, Standing: Published},
		{ID: "friction-4e3-smooth", Subject: subject, What: "friction factor at Re 4,000, smooth", Ours: factor(4e3, 0), Published: 0.039907, Abs: 1e-6, Source: colebrookHand, Standing: Formula},
		{ID: "friction-1e4-blasius", Subject: subject, What: "friction factor at Re 10,000, smooth, against Blasius", Ours: factor(1e4, 0), Published: 0.03164, Rel: 0.03, Source: "Blasius friction factor, the same test file", Standing: Published, Note: "two laws: they differ by 2.4 %"},
		{ID: "friction-1e7-rough", Subject: subject, What: "friction factor at Re 10,000,000, ε/D 0.05", Ours: factor(1e7, 0.05), Published: 0.071553, Abs: 1e-6, Source: colebrookHand, Standing: Formula},
		{ID: "friction-laminar", Subject: subject, What: "friction factor at Re 128", Ours: factor(128, 0), Published: 0.5, Rel: 1e-9, Source: fluidLibrary + " (laminar)", Standing: Published},
		{ID: "drop-copper-34", Subject: subject, What: "3/4 copper type L, 4 gpm of water at 60 °C", Ours: per(pipework.CopperL, "3/4", 4), Published: 370.8, Unit: "Pa/m", Rel: 0.005, Source: colebrookHand, Standing: Formula},
		{ID: "drop-copper-1", Subject: subject, What: "1 copper type L, 8 gpm of water at 60 °C", Ours: per(pipework.CopperL, "1", 8), Published: 355.0, Unit: "Pa/m", Rel: 0.005, Source: colebrookHand, Standing: Formula},
		{ID: "drop-pex-12", Subject: subject, What: "1/2 PEX, 1 gpm of water at 60 °C", Ours: per(pipework.PEXLargest, "1/2", 1), Published: 320.3, Unit: "Pa/m", Rel: 0.005, Source: colebrookHand, Standing: Formula, Note: bore},
		{ID: "drop-pex-12-slow", Subject: subject, What: "1/2 PEX, 0.5 gpm of water at 60 °C", Ours: per(pipework.PEXLargest, "1/2", 0.5), Published: 96.0, Unit: "Pa/m", Rel: 0.005, Source: colebrookHand, Standing: Formula, Note: bore},
		{ID: "drop-minor", Subject: subject, What: "fitting of K 1.5 at 1 m/s, water at 60 °C", Published: 737.4, Unit: "Pa", Abs: 0.1, Source: "Δp = K·ρ·v²/2, worked by hand", Standing: Formula,
			Ours: func() (float64, error) {
				liquid, err := pipework.NewLiquid(fluid.Water(), units.Celsius(60))
				if err != nil {
					return 0, err
				}
				p, err := pipework.MinorLoss(1.5, 1, liquid)
				return float64(p), err
			}},
	}
}

func tubeRows() []Row {
	const subject = "Tube"
	bore := func(standard pipework.Standard, size string) func() (float64, error) {
		return func() (float64, error) {
			p, err := pipework.Find(standard, size)
			return float64(p.Outside-2*p.Wall) / 0.0254, err
		}
	}
	holds := func(standard pipework.Standard, size string) func() (float64, error) {
		return func() (float64, error) {
			p, err := pipework.Find(standard, size)
			return p.Volume(units.Feet(100)).Gallons(), err
		}
	}
	const average = "the average bore: the largest, printed in the same chart, would hold 4 % more"
	return []Row{
		{ID: "tube-copper-l-34", Subject: subject, What: "bore of 3/4 copper type L", Ours: bore(pipework.CopperL, "3/4"), Published: 0.785, Unit: "in", Abs: 0.0005, Source: copperChart, Standing: Published},
		{ID: "tube-copper-m-1", Subject: subject, What: "bore of 1 copper type M", Ours: bore(pipework.CopperM, "1"), Published: 1.055, Unit: "in", Abs: 0.0005, Source: copperChart, Standing: Published},
		{ID: "tube-pex-12", Subject: subject, What: "average bore of 1/2 PEX", Ours: bore(pipework.PEX, "1/2"), Published: 0.475, Unit: "in", Abs: 0.0005, Source: "PEX tube chart, ASTM F876", Standing: Published},
		{ID: "tube-steel-34", Subject: subject, What: "bore of 3/4 steel Schedule 40", Ours: bore(pipework.SteelSchedule40, "3/4"), Published: 0.824, Unit: "in", Abs: 0.0005, Source: "ASME B36.10M", Standing: FromMemory},
		{ID: "tube-volume-pex-12", Subject: subject, What: "water in 100 ft of 1/2 PEX", Ours: holds(pipework.PEX, "1/2"), Published: 0.92, Unit: "gal", Abs: 0.005, Source: pexChart, Standing: Published, Note: average},
		{ID: "tube-volume-pex-1", Subject: subject, What: "water in 100 ft of 1 PEX", Ours: holds(pipework.PEX, "1"), Published: 3.03, Unit: "gal", Abs: 0.005, Source: pexChart, Standing: Published, Note: average},
		{ID: "tube-volume-copper-l-34", Subject: subject, What: "water in 100 ft of 3/4 copper type L", Ours: holds(pipework.CopperL, "3/4"), Published: 2.514, Unit: "gal", Abs: 0.001, Source: tubeGeometry, Standing: Formula},
	}
}

func mixingRows() []Row {
	const subject = "Separator and mixing"
	couple := func(boiler, supply, system, ret float64, of func(pipework.Mixed) units.Temperature) func() (float64, error) {
		return func() (float64, error) {
			m, err := pipework.Couple(pipework.LowLossHeader, units.LossCoefficient(boiler), units.Fahrenheit(supply),
				pipework.Draw{Flow: units.LossCoefficient(system), Return: units.Fahrenheit(ret)})
			return of(m).Fahrenheit(), err
		}
	}
	supply := func(m pipework.Mixed) units.Temperature { return m.Supply }
	back := func(m pipework.Mixed) units.Temperature { return m.BoilerReturn }
	return []Row{
		{ID: "separator-backward", Subject: subject, What: "separator, boiler 6 gpm at 180 °F, circuits 10 gpm returning 140 °F: supply", Ours: couple(6, 180, 10, 140, supply), Published: 164, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula},
		{ID: "separator-backward-return", Subject: subject, What: "the same: boiler return", Ours: couple(6, 180, 10, 140, back), Published: 140, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula},
		{ID: "separator-backward-15", Subject: subject, What: "separator, boiler 10 gpm at 160 °F, circuits 15 gpm returning 120 °F: supply", Ours: couple(10, 160, 15, 120, supply), Published: 146.67, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula},
		{ID: "separator-forward", Subject: subject, What: "separator, boiler 8 gpm at 180 °F, circuits 5 gpm returning 110 °F: boiler return", Ours: couple(8, 180, 5, 110, back), Published: 136.25, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula},
		{ID: "separator-forward-8", Subject: subject, What: "separator, boiler 10 gpm at 180 °F, circuits 8 gpm returning 140 °F: boiler return", Ours: couple(10, 180, 8, 140, back), Published: 148, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula},
		{ID: "separator-offset", Subject: subject, What: "separator, boiler 6 gpm, circuits 10 gpm, 40 °F at the boiler: offset of the boiler's set-point", Published: 16, Unit: "°F", Abs: 0.01, Source: mixingBalance, Standing: Formula,
			Ours: func() (float64, error) {
				v, err := pipework.JudgeCoupling(pipework.LowLossHeader, pipework.Operation{Boiler: 6, System: 10, Heat: units.Power(6 * float64(units.FahrenheitDifference(40)))})
				return v.Offset.Fahrenheit(), err
			}},
		{ID: "mixing-valve-share", Subject: subject, What: "mixing valve, boiler 180 °F, return 90 °F, supply 110 °F: share of boiler water", Published: 0.2222, Abs: 0.0001, Source: mixingBalance, Standing: Formula,
			Ours: func() (float64, error) {
				x, err := pipework.HotShare(units.Fahrenheit(110), units.Fahrenheit(90), units.Fahrenheit(180))
				return float64(x), err
			}},
	}
}

func vesselRows() []Row {
	const subject = "Expansion vessel"
	swells := func(cold, hot units.Temperature) func() (float64, error) {
		return func() (float64, error) {
			e, err := pipework.Expansion(fluid.Water(), cold, hot)
			return 100 * float64(e), err
		}
	}
	size := func(rule pipework.Reserve, of func(pipework.Vessel) float64) func() (float64, error) {
		return func() (float64, error) {
			v, err := pipework.SizeVessel(pipework.VesselInput{
				Content: units.Litres(200), Cold: units.Celsius(4), Hot: units.Celsius(80), Static: units.Bar(1), Relief: units.Bar(3), Reserve: rule,
			})
			return of(v), err
		}
	}
	accepts := func(cold, hot float64) func() (float64, error) {
		return func() (float64, error) {
			a, err := pipework.AcceptanceFactor(units.PSI(cold), units.PSI(hot), units.PSI(14.7))
			return float64(a), err
		}
	}
	const readings = "by the other reading, 20 % of an expansion volume under 15 L, it would be 20.3 L"
	return []Row{
		{ID: "expansion-80", Subject: subject, What: "expansion of water from 4 °C to 80 °C", Ours: swells(units.Celsius(4), units.Celsius(80)), Published: 2.899, Unit: "%", Abs: 0.02, Source: waterExpansion, Standing: Formula},
		{ID: "expansion-60", Subject: subject, What: "expansion of water from 10 °C to 60 °C", Ours: swells(units.Celsius(10), units.Celsius(60)), Published: 1.678, Unit: "%", Abs: 0.02, Source: waterExpansion, Standing: Formula},
		{ID: "expansion-180f", Subject: subject, What: "expansion of water from 50 °F to 180 °F", Ours: swells(units.Fahrenheit(50), units.Fahrenheit(180)), Published: 3.019, Unit: "%", Abs: 0.02, Source: waterExpansion, Standing: Formula, Note: "a flat 3.5 % is in circulation"},
		{ID: "vessel-en-least", Subject: subject, What: "200 L at 80 °C, 1 bar static, 3 bar relief valve: least vessel, reserve of at least 3 L", Ours: size(pipework.ReserveOfVessel, func(v pipework.Vessel) float64 { return v.Least.Litres() }), Published: 25.66, Unit: "L", Abs: 0.03, Source: vesselAnnex, Standing: FromMemory, Note: readings},
		{ID: "vessel-en-fill", Subject: subject, What: "the same in a 35 L vessel: least cold filling pressure", Ours: size(pipework.ReserveOfVessel, func(v pipework.Vessel) float64 { return v.Fill.Bar() }), Published: 1.516, Unit: "bar", Abs: 0.001, Source: vesselAnnex, Standing: FromMemory},
		{ID: "acceptance-12-25", Subject: subject, What: "acceptance factor from 12 to 25 psi", Ours: accepts(12, 25), Published: 0.3275, Abs: 0.0001, Source: diaphragmTank, Standing: FromMemory},
		{ID: "acceptance-15-27", Subject: subject, What: "acceptance factor from 15 to 27 psi", Ours: accepts(15, 27), Published: 0.2878, Abs: 0.0001, Source: diaphragmTank, Standing: FromMemory},
		{ID: "acceptance-tank", Subject: subject, What: "40 gal from 50 °F to 180 °F, 12 to 25 psi: least tank", Published: 3.69, Unit: "gal", Abs: 0.005, Source: diaphragmTank, Standing: FromMemory,
			Ours: func() (float64, error) {
				e, err := pipework.Expansion(fluid.Water(), units.Fahrenheit(50), units.Fahrenheit(180))
				if err != nil {
					return 0, err
				}
				a, err := pipework.AcceptanceFactor(units.PSI(12), units.PSI(25), units.PSI(14.7))
				if err != nil {
					return 0, err
				}
				v, err := pipework.VesselByAcceptance(units.Gallons(40*float64(e)), a)
				return v.Gallons(), err
			}},
		{ID: "acceptance-sheet", Subject: subject, What: "600 L swelling 3.5 %, 1.3 to 3 bar: least vessel by V = e·C/(1 − Pi/Pf)", Published: 49.4, Unit: "L", Abs: 0.05, Source: "installation sheet's formula with its inputs, worked by hand", Standing: Formula,
			Ours: func() (float64, error) {
				a, err := pipework.AcceptanceFactor(units.Bar(1.3), units.Bar(3), units.Bar(1))
				if err != nil {
					return 0, err
				}
				v, err := pipework.VesselByAcceptance(units.Litres(0.035*600), a)
				return v.Litres(), err
			}},
		{ID: "static-23ft", Subject: subject, What: "pressure under 23 ft of cold water", Published: 9.96, Unit: "psi", Abs: 0.01, Source: "hydrostatics, 0.4333 psi/ft, worked by hand", Standing: Formula,
			Ours: func() (float64, error) {
				p, err := pipework.StaticPressure(fluid.Water(), units.Feet(23), units.Fahrenheit(60))
				return p.PSI(), err
			}},
	}
}

func fillWaterRows() []Row {
	const subject = "Fill water"
	limit := func(guide pipework.WaterGuide, kilowatts, litres, own float64) func() (float64, error) {
		return func() (float64, error) {
			l, err := pipework.HardnessOf(guide, pipework.Plant{Output: units.Power(kilowatts * 1000), Content: units.Litres(litres), BoilerContent: units.Litres(own)})
			return l.Limit.GermanDegrees(), err
		}
	}
	return []Row{
		{ID: "hardness-24kw-wide", Subject: subject, What: "24 kW, 33 L/kW, boiler of 0.4 L/kW: highest hardness", Ours: limit(pipework.VDI2035Of2005, 24, 800, 10), Published: 16.8, Unit: "°dH", Abs: 0.05, Source: fillSheets, Standing: Published},
		{ID: "hardness-24kw-small", Subject: subject, What: "24 kW, 33 L/kW, boiler of small content: highest hardness", Ours: limit(pipework.VDI2035Of2005, 24, 800, 3), Published: 11.2, Unit: "°dH", Abs: 0.05, Source: fillSheets, Standing: Published, Note: "columns run together in the one sheet; a second agrees"},
		{ID: "hardness-100kw", Subject: subject, What: "100 kW, 30 L/kW: highest hardness", Ours: limit(pipework.VDI2035Of2005, 100, 3000, 100), Published: 8.4, Unit: "°dH", Abs: 0.05, Source: fillSheets, Standing: Published},
		{ID: "hardness-2021-edge", Subject: subject, What: "24 kW, 45 L/kW by the 2021 edition: highest hardness", Ours: limit(pipework.VDI2035Of2021, 24, 1080, 10), Published: 0.28, Unit: "°dH", Abs: 0.005, Source: "VDI 2035 sheet 1, 2021", Standing: FromMemory, Note: "the older edition allows 16.8 °dH here: its band ends at 50 L/kW"},
		{ID: "hardness-45kw", Subject: subject, What: "45 kW, 1000 L, boiler of small content: highest hardness", Ours: limit(pipework.OENormH5195, 45, 1000, 10), Published: 5.6, Unit: "°dH", Abs: 0.05, Source: fillExample, Standing: Published},
		{ID: "hardness-treated", Subject: subject, What: "800 L, tap 18 °dH, limit 11.2 °dH: water to demineralise", Published: 304, Unit: "L", Abs: 1, Source: fillExample, Standing: Published,
			Ours: func() (float64, error) {
				x, err := pipework.TreatedShare(units.GermanDegrees(18), units.GermanDegrees(11.2))
				return 800 * float64(x), err
			}},
	}
}

func glycolCostRows() []Row {
	const supplier = "propylene glycol, flow for the same heat at 50 °F: chemical supplier's table"
	more := func(share units.Fraction) func() (float64, error) {
		return func() (float64, error) {
			m, err := fluid.GlycolByMass(fluid.PropyleneGlycol, share)
			if err != nil {
				return 0, err
			}
			p, err := pipework.GlycolCost(m, 5000, 10, units.Fahrenheit(50), pipework.Valve{Kv: 2.5})
			return float64(p.FlowRatio), err
		}
	}
	const other = "another table of specific heat; such tables differ by 2 to 3 %"
	return []Row{
		{ID: "glycol-flow-30", Subject: "Glycol", What: "flow with 30 % propylene glycol over flow with water", Ours: more(0.30), Published: 1.04, Rel: 0.03, Source: supplier, Standing: Published, Note: other},
		{ID: "glycol-flow-40", Subject: "Glycol", What: "flow with 40 % propylene glycol over flow with water", Ours: more(0.40), Published: 1.08, Rel: 0.03, Source: supplier, Standing: Published, Note: other},
	}
}
