package proof

import (
	"curvewright/boiler"
	"curvewright/fluid"
	"curvewright/units"
)

// Sources of the boiler rows, each named once.
const (
	elementBalance = "element balance of combustion, dry air with 20.95 % oxygen, worked by hand"
	dewPointByHand = "element balance and IAPWS R7-97(2012) region 4, worked by hand, 101.325 kPa"
	condensingHand = "energy balance at 25 °C with heats of combustion of ISO 6976, worked by hand"
	siegertMemory  = "1. BImSchV, annex 2, coefficients"
	siegertQuoted  = "1. BImSchV, as quoted in two glossaries"
	clockTable     = "published table for clocking a gas meter, 1 ft³ dial, 1000 Btu/ft³"
	agaTable       = "AGA 221.30-1964, altitude multipliers, as quoted"
	cycleByHand    = "energy balance of a cycle, worked by hand"
)

// boilerRows checks combustion, condensing, stack loss, altitude, clocking and cycles.
func boilerRows() []Row {
	rows := combustionRows()
	rows = append(rows, condensingRows()...)
	rows = append(rows, stackRows()...)
	rows = append(rows, burnerRows()...)
	return append(rows, cycleRows()...)
}

// burnt burns a fuel of the list with dry air of 25 °C.
func burnt(key string, excess units.Fraction) (boiler.FlueGas, error) {
	f, err := boiler.FuelByKey(key)
	if err != nil {
		return boiler.FlueGas{}, err
	}
	return f.Burn(excess, boiler.Air{Temperature: units.Celsius(25)})
}

func combustionRows() []Row {
	of := func(key string, excess units.Fraction, pick func(boiler.FlueGas) float64) func() (float64, error) {
		return func() (float64, error) {
			g, err := burnt(key, excess)
			return pick(g), err
		}
	}
	co2 := func(g boiler.FlueGas) float64 { return 100 * float64(g.CO2Dry) }
	oxygen := func(g boiler.FlueGas) float64 { return 100 * float64(g.O2Dry) }
	water := func(g boiler.FlueGas) float64 { return 100 * float64(g.WaterWet) }
	dew := func(g boiler.FlueGas) float64 { return g.DewPoint.Celsius() }
	air := func(g boiler.FlueGas) float64 { return float64(g.AirDemand) }
	heats := func(g boiler.FlueGas) float64 { return float64(g.Fuel.GrossToNet()) }
	const (
		subject = "Combustion"
		two     = "half a unit of the last digit printed"
	)
	row := func(id, what string, ours func() (float64, error), published float64, unit string, abs float64, source string) Row {
		return Row{ID: "burn-" + id, Subject: subject, What: what, Ours: ours, Published: published, Unit: unit, Abs: abs, Source: source, Standing: Formula}
	}
	moist := func() (float64, error) {
		f, err := boiler.FuelByKey("methane")
		if err != nil {
			return 0, err
		}
		g, err := f.Burn(0.2, boiler.Air{Temperature: units.Celsius(25), Humidity: 0.01 * 101.325 / 3.1697})
		return g.DewPoint.Celsius(), err
	}
	excess := func() (float64, error) {
		f, err := boiler.FuelByKey("propane")
		if err != nil {
			return 0, err
		}
		e, err := f.ExcessFromOxygen(0.0375)
		return 100 * float64(e), err
	}
	rows := []Row{
		row("methane-air", "air for methane, volume for volume", of("methane", 0, air), 9.547, "", 0.0005, elementBalance),
		row("propane-air", "air for propane, volume for volume", of("propane", 0, air), 23.866, "", 0.0005, elementBalance),
		row("methane-co2max", "most carbon dioxide in dry flue gas, methane", of("methane", 0, co2), 11.70, "%", 0.005, elementBalance),
		row("propane-co2max", "most carbon dioxide in dry flue gas, propane", of("propane", 0, co2), 13.72, "%", 0.005, elementBalance),
		row("methane-co2-20", "carbon dioxide, methane with 20 % excess air", of("methane", 0.2, co2), 9.56, "%", 0.005, elementBalance),
		row("methane-o2-20", "oxygen, methane with 20 % excess air", of("methane", 0.2, oxygen), 3.83, "%", 0.005, elementBalance),
		row("propane-o2-30", "oxygen, propane with 30 % excess air", of("propane", 0.3, oxygen), 5.17, "%", 0.005, elementBalance),
		row("methane-water-30", "water in the wet flue gas, methane with 30 % excess air", of("methane", 0.3, water), 14.91, "%", 0.005, elementBalance),
		row("propane-water-20", "water in the wet flue gas, propane with 20 % excess air", of("propane", 0.2, water), 13.05, "%", 0.005, elementBalance),
		row("methane-dew-0", "dew point, methane without excess air", of("methane", 0, dew), 59.2, "°C", 0.05, dewPointByHand),
		row("methane-dew-20", "dew point, methane with 20 % excess air", of("methane", 0.2, dew), 55.7, "°C", 0.05, dewPointByHand),
		row("methane-dew-50", "dew point, methane with 50 % excess air", of("methane", 0.5, dew), 51.4, "°C", 0.05, dewPointByHand),
		row("propane-dew-0", "dew point, propane without excess air", of("propane", 0, dew), 54.9, "°C", 0.05, dewPointByHand),
		row("propane-dew-40", "dew point, propane with 40 % excess air", of("propane", 0.4, dew), 48.5, "°C", 0.05, dewPointByHand),
		row("methane-dew-moist", "dew point, methane with 20 % excess air that holds 1 % vapour", moist, 56.6, "°C", 0.1, dewPointByHand),
		row("propane-excess", "excess air of propane at 3.75 % oxygen", excess, 20, "%", 0.05, elementBalance),
	}
	for i := range rows {
		rows[i].Note = two
	}
	return append(rows,
		Row{ID: "burn-methane-heats", Subject: subject, What: "gross to net heat, methane", Ours: of("methane", 0, heats), Published: 1.110, Abs: 0.001, Source: "heats of combustion of chemistry handbooks, 890.4 and 802.3 kJ/mol", Standing: FromMemory},
		Row{ID: "burn-propane-heats", Subject: subject, What: "gross to net heat, propane", Ours: of("propane", 0, heats), Published: 1.086, Abs: 0.001, Source: "heats of combustion of chemistry handbooks, 2219.2 and 2043.1 kJ/mol", Standing: FromMemory},
		Row{ID: "burn-gas-dew", Subject: subject, What: "dew point, typical natural gas with 20 % excess air, against \"around 55 °C (130 °F)\"", Ours: of("natural-gas", 0.2, dew), Published: 55, Unit: "°C", Abs: 1, Source: "paper on condensing boilers in buildings; a state energy office has \"roughly 130 °F\"", Standing: Published, Note: "a round figure without excess air named"},
		Row{ID: "burn-gas-co2max", Subject: subject, What: "most carbon dioxide, typical natural gas", Ours: of("natural-gas", 0, co2), Published: 11.9, Unit: "%", Abs: 0.2, Source: "1. BImSchV, annex 2; 11.7 to 12.1 % by gas", Standing: FromMemory},
	)
}

func condensingRows() []Row {
	leaving := func(excess units.Fraction, exit float64, pick func(boiler.Balance) float64) func() (float64, error) {
		return func() (float64, error) {
			g, err := burnt("methane", excess)
			if err != nil {
				return 0, err
			}
			b, err := g.Leaving(units.Celsius(exit))
			return pick(b), err
		}
	}
	gross := func(b boiler.Balance) float64 { return 100 * float64(b.Gross) }
	condensed := func(b boiler.Balance) float64 { return 100 * float64(b.Condensed) }
	row := func(id, what string, ours func() (float64, error), published, abs float64) Row {
		return Row{ID: "condensing-" + id, Subject: "Condensing", What: what, Ours: ours, Published: published, Unit: "%", Abs: abs,
			Source: condensingHand, Standing: Formula, Note: "an ideal: exit gas saturated, no jacket loss, dry air at 25 °C"}
	}
	return []Row{
		row("30", "gross efficiency, methane, 20 % excess air, gas leaving at 30 °C", leaving(0.2, 30, gross), 97.5, 0.1),
		row("40", "gross efficiency, methane, 20 % excess air, gas leaving at 40 °C", leaving(0.2, 40, gross), 95.2, 0.1),
		row("50", "gross efficiency, methane, 20 % excess air, gas leaving at 50 °C", leaving(0.2, 50, gross), 91.7, 0.1),
		row("55", "gross efficiency, methane, 20 % excess air, gas leaving at 55 °C", leaving(0.2, 55, gross), 89.2, 0.1),
		row("80", "gross efficiency, methane, 20 % excess air, gas leaving at 80 °C", leaving(0.2, 80, gross), 87.8, 0.1),
		row("45-lean", "gross efficiency, methane, 30 % excess air, gas leaving at 45 °C", leaving(0.3, 45, gross), 93.1, 0.1),
		row("water-30", "share of the water condensed, methane, 20 % excess air, gas leaving at 30 °C", leaving(0.2, 30, condensed), 77, 0.5),
		row("water-45", "share of the water condensed, methane, 20 % excess air, gas leaving at 45 °C", leaving(0.2, 45, condensed), 45, 0.5),
	}
}

func stackRows() []Row {
	loss := func(key string, by func(boiler.Siegert) (units.Fraction, error)) func() (float64, error) {
		return func() (float64, error) {
			f, err := boiler.FuelByKey(key)
			if err != nil {
				return 0, err
			}
			v, err := by(f.Siegert)
			return 100 * float64(v), err
		}
	}
	gas, air := units.Celsius(120), units.Celsius(20)
	oxygen := func(s boiler.Siegert) (units.Fraction, error) { return s.LossByOxygen(gas, air, 0.04) }
	co2 := func(s boiler.Siegert) (units.Fraction, error) {
		at, err := s.CO2At(0.04)
		if err != nil {
			return 0, err
		}
		return s.LossByCO2(gas, air, at)
	}
	limit := func(output units.Power) func() (float64, error) {
		return func() (float64, error) {
			v, err := boiler.StackLossLimit(output)
			return 100 * float64(v), err
		}
	}
	const (
		subject = "Stack loss"
		forms   = "the two forms differ by 0.05 points at most"
	)
	return []Row{
		{ID: "stack-gas-o2", Subject: subject, What: "stack loss of natural gas by oxygen, 120/20 °C, 4 % oxygen", Ours: loss("natural-gas", oxygen), Published: 4.78, Unit: "%", Abs: 0.01, Source: siegertMemory, Standing: FromMemory, Note: forms},
		{ID: "stack-gas-co2", Subject: subject, What: "the same by carbon dioxide, 9.63 %", Ours: loss("natural-gas", co2), Published: 4.74, Unit: "%", Abs: 0.01, Source: siegertMemory, Standing: FromMemory, Note: forms},
		{ID: "stack-propane-o2", Subject: subject, What: "stack loss of propane by oxygen, 120/20 °C, 4 % oxygen", Ours: loss("propane", oxygen), Published: 4.51, Unit: "%", Abs: 0.01, Source: siegertMemory, Standing: FromMemory, Note: forms},
		{ID: "stack-propane-co2", Subject: subject, What: "the same by carbon dioxide", Ours: loss("propane", co2), Published: 4.53, Unit: "%", Abs: 0.01, Source: siegertMemory, Standing: FromMemory, Note: forms},
		{ID: "stack-limit-20", Subject: subject, What: "German limit of the stack loss at 20 kW", Ours: limit(20e3), Published: 11, Unit: "%", Abs: 1e-9, Source: siegertQuoted, Standing: Published},
		{ID: "stack-limit-60", Subject: subject, What: "German limit of the stack loss at 60 kW", Ours: limit(60e3), Published: 9, Unit: "%", Abs: 1e-9, Source: siegertQuoted, Standing: Published},
	}
}

func burnerRows() []Row {
	remains := func(r boiler.AltitudeRule, feet float64) func() (float64, error) {
		return func() (float64, error) { v, err := r.Remains(units.Feet(feet)); return float64(v), err }
	}
	pressure := func(feet float64) func() (float64, error) {
		return func() (float64, error) {
			p, err := boiler.AirPressure(units.Feet(feet))
			return float64(p) / 101325, err
		}
	}
	clock := func(seconds, value float64) func() (float64, error) {
		return func() (float64, error) {
			q, err := boiler.Meter{PerRevolution: units.CubicFeet(1), Compensated: true}.FiringRate(1, units.Time(seconds), units.BtuPerCubicFoot(value))
			return q.BtuPerHour(), err
		}
	}
	const (
		altitude = "Altitude"
		clocking = "Clocking the gas meter"
		sealevel = "the rule counts from sea level: a step to 0.92 at 2000 ft"
		icao     = "ICAO standard atmosphere, worked by hand"
	)
	return []Row{
		{ID: "altitude-2001", Subject: altitude, What: "input that remains at 2001 ft, in steps", Ours: remains(boiler.AltitudeUSTable, 2001), Published: 0.92, Abs: 1e-9, Source: agaTable, Standing: Published, Note: sealevel},
		{ID: "altitude-3000", Subject: altitude, What: "input that remains at 3000 ft, in steps", Ours: remains(boiler.AltitudeUSTable, 3000), Published: 0.88, Abs: 1e-9, Source: agaTable, Standing: Published},
		{ID: "altitude-7000", Subject: altitude, What: "input that remains at 7000 ft, in steps", Ours: remains(boiler.AltitudeUSTable, 7000), Published: 0.72, Abs: 1e-9, Source: agaTable, Standing: Published},
		{ID: "altitude-rule-5000", Subject: altitude, What: "input that remains at 5000 ft, 4 % per 1000 ft", Ours: remains(boiler.AltitudeUS, 5000), Published: 0.80, Abs: 1e-9, Source: "NFPA 54/ANSI Z223.1, as quoted", Standing: Published, Note: sealevel},
		{ID: "altitude-canada", Subject: altitude, What: "input that remains at 3000 ft in Canada", Ours: remains(boiler.AltitudeCanada, 3000), Published: 0.90, Abs: 1e-9, Source: "worked example as quoted: 88,000 to 79,200 Btu/h between 2000 and 4500 ft", Standing: Published},
		{ID: "altitude-pressure-5000", Subject: altitude, What: "air pressure at 5000 ft as a share of that at sea level", Ours: pressure(5000), Published: 0.8320, Abs: 0.00005, Source: icao, Standing: Formula},
		{ID: "altitude-pressure-7000", Subject: altitude, What: "air pressure at 7000 ft as a share of that at sea level", Ours: pressure(7000), Published: 0.7716, Abs: 0.00005, Source: icao, Standing: Formula},
		{ID: "clock-36", Subject: clocking, What: "a revolution in 36 s", Ours: clock(36, 1000), Published: 100000, Unit: "Btu/h", Abs: 1, Source: clockTable, Standing: Published},
		{ID: "clock-80", Subject: clocking, What: "a revolution in 80 s", Ours: clock(80, 1000), Published: 45000, Unit: "Btu/h", Abs: 1, Source: clockTable, Standing: Published},
		{ID: "clock-1030", Subject: clocking, What: "a revolution of 1 ft³ in 36 s, 1030 Btu/ft³", Ours: clock(36, 1030), Published: 103000, Unit: "Btu/h", Abs: 1, Source: "volume by time and heating value, worked by hand", Standing: Formula},
		{ID: "clock-metric", Subject: clocking, What: "a revolution of 0.01 m³ in 16 s, 38.7 MJ/m³", Ours: func() (float64, error) {
			q, err := boiler.Meter{PerRevolution: 0.01, Compensated: true}.FiringRate(1, 16, 38.7e6)
			return float64(q) / 1000, err
		}, Published: 24.19, Unit: "kW", Abs: 0.005, Source: "volume by time and heating value, worked by hand", Standing: Formula},
		{ID: "co-air-free", Subject: "Carbon monoxide", What: "50 ppm at 5 % oxygen, air-free", Ours: func() (float64, error) {
			c, err := boiler.AirFree(units.PartsPerMillion(50), 0.05)
			return c.PartsPerMillion(), err
		}, Published: 65.7, Unit: "ppm", Abs: 0.05, Source: "CO·20.9/(20.9 − O2), form of the US appliance standards from memory, worked by hand", Standing: Formula},
	}
}

func cycleRows() []Row {
	burner := boiler.Cycling{Water: 0.1, At: units.Celsius(70), Least: 12e3, Differential: 10}
	of := func(pick func(boiler.Cycle) float64) func() (float64, error) {
		return func() (float64, error) {
			c, err := burner.Under(4e3)
			return pick(c), err
		}
	}
	buffer := func(source, load float64, at units.Temperature) func() (float64, error) {
		return func() (float64, error) {
			v, err := boiler.Buffer(600, units.BtuPerHour(source), units.BtuPerHour(load), units.FahrenheitDifference(20), fluid.Water(), at)
			return float64(v) / 3.785411784e-3, err
		}
	}
	const (
		subject = "Cycling and buffer"
		what    = ", 100 L at 70 °C, differential 10 K, least output 12 kW, load 4 kW"
		rule    = "V = t·(Q − q)/(500·ΔT), published guide to buffer tanks, worked by hand"
	)
	return []Row{
		{ID: "cycle-on", Subject: subject, What: "run" + what, Ours: of(func(c boiler.Cycle) float64 { return float64(c.On) / 60 }), Published: 8.53, Unit: "min", Abs: 0.005, Source: cycleByHand, Standing: Formula},
		{ID: "cycle-off", Subject: subject, What: "rest" + what, Ours: of(func(c boiler.Cycle) float64 { return float64(c.Off) / 60 }), Published: 17.06, Unit: "min", Abs: 0.01, Source: cycleByHand, Standing: Formula},
		{ID: "cycle-starts", Subject: subject, What: "starts" + what, Ours: of(func(c boiler.Cycle) float64 { return c.Starts.PerHour() }), Published: 2.344, Unit: "/h", Abs: 0.001, Source: cycleByHand, Standing: Formula},
		{ID: "cycle-most", Subject: subject, What: "most starts that any load brings" + what, Ours: func() (float64, error) {
			n, err := burner.MostStarts()
			return n.PerHour(), err
		}, Published: 2.637, Unit: "/h", Abs: 0.001, Source: cycleByHand, Standing: Formula},
		{ID: "buffer-50", Subject: subject, What: "buffer for 10 min, 60,000 against 10,000 Btu/h, 20 °F, water at 60 °F", Ours: buffer(60e3, 10e3, units.Fahrenheit(60)), Published: 50, Unit: "gal", Abs: 0.1, Source: rule, Standing: Formula, Note: "the 500 is right for water of 60 °F"},
		{ID: "buffer-50-hot", Subject: subject, What: "the same with water at 140 °F", Ours: buffer(60e3, 10e3, units.Fahrenheit(140)), Published: 50, Unit: "gal", Rel: 0.02, Source: rule, Standing: Formula, Note: "at 140 °F the 500 is 491.8: a rule of thumb, 1.7 % off"},
		{ID: "buffer-6", Subject: subject, What: "buffer for 10 min, 8,000 against 2,000 Btu/h, 20 °F, water at 60 °F", Ours: buffer(8e3, 2e3, units.Fahrenheit(60)), Published: 6, Unit: "gal", Abs: 0.02, Source: rule, Standing: Formula},
	}
}
