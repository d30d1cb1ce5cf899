package proof

import "curvewright/units"

// unitsRows checks the conversions that everything else stands on, through the same
// reading of text that a person's entry goes through.
func unitsRows() []Row {
	const sp811 = "NIST SP 811, Appendix B"
	rows := []Row{
		{ID: "unit-btu", What: "1 Btu (International Table) in joules", Ours: reading[units.Energy]("1 Btu", 1), Published: 1055.05585262, Unit: "J", Rel: 1e-12, Source: sp811},
		{ID: "unit-therm", What: "1 therm (100,000 Btu) in megajoules", Ours: reading[units.Energy]("1 therm", 1e-6), Published: 105.5056, Unit: "MJ", Rel: 1e-6, Source: sp811},
		{ID: "unit-mbh", What: "1 MBH in watts", Ours: reading[units.Power]("1 MBH", 1), Published: 293.0711, Unit: "W", Rel: 1e-6, Source: sp811},
		{ID: "unit-psi", What: "1 psi in pascals", Ours: reading[units.Pressure]("1 psi", 1), Published: 6894.757, Unit: "Pa", Rel: 1e-6, Source: sp811},
		{ID: "unit-foot-of-water", What: "1 foot of water in pascals", Ours: reading[units.Pressure]("1 ft w.c.", 1), Published: 2989.067, Unit: "Pa", Rel: 1e-6, Source: sp811},
		{ID: "unit-gallon", What: "1,000 US gallons in cubic metres", Ours: reading[units.Volume]("1,000 gal", 1), Published: 3.785411784, Unit: "m³", Rel: 1e-12, Source: sp811},
		{ID: "unit-r-1", What: "R-1 in SI", Ours: reading[units.Resistance]("R-1", 1), Published: 0.1761102, Unit: "m²K/W", Rel: 1e-6, Source: sp811},
		{ID: "unit-u-1", What: "a U-value of 1 Btu/h·ft²·°F in SI", Ours: reading[units.Transmittance]("1 Btu/h·ft²·°F", 1), Published: 5.678263, Unit: "W/m²K", Rel: 1e-6, Source: sp811},
		{ID: "unit-conductivity", What: "1 Btu/h·ft·°F in SI", Ours: reading[units.Conductivity]("1 Btu/h·ft·°F", 1), Published: 1.730735, Unit: "W/mK", Rel: 1e-6, Source: sp811},
		{ID: "unit-btu-per-foot", What: "1 Btu/h·ft in watts per metre", Ours: reading[units.LinearPower]("1 Btu/h·ft", 1), Published: 0.9615, Unit: "W/m", Abs: 0.00005, Source: "worked out from the Btu and the foot of " + sp811, Standing: Formula},
		{ID: "unit-fahrenheit", What: "70 °F in kelvin", Ours: reading[units.Temperature]("70 °F", 1), Published: 294.2611, Unit: "K", Abs: 0.00005, Source: sp811},
		{ID: "unit-fahrenheit-difference", What: "a difference of 20 °F in kelvin", Ours: reading[units.Difference]("20 °F", 1), Published: 11.11111, Unit: "K", Abs: 0.00001, Source: sp811},
	}
	for i := range rows {
		rows[i].Subject = "Units"
		if rows[i].Standing == "" {
			rows[i].Standing = FromMemory
		}
	}
	return rows
}

// reading gives the SI figure of a text, times a factor.
func reading[T units.Readable](text string, times float64) func() (float64, error) {
	return func() (float64, error) {
		v, err := units.Parse[T](text)
		return float64(v) * times, err
	}
}
