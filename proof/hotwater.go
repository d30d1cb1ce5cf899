package proof

import (
	"strings"

	"curvewright/hotwater"
	"curvewright/units"
)

// hotWaterRows checks draw patterns, heat-up, mixing, circulation and the guidance on
// hot-water temperatures.
func hotWaterRows() []Row {
	rows := patternRows()
	rows = append(rows, tankRows()...)
	return append(rows, loopRows()...)
}

func patternRows() []Row {
	const subject = "Hot-water draws"
	kWh := func(p hotwater.Pattern) func() (float64, error) {
		return func() (float64, error) { return float64(p.Energy() / units.KilowattHours(1)), nil }
	}
	gallons := func(p hotwater.Pattern) func() (float64, error) {
		return func() (float64, error) { return p.Volume().Gallons(), nil }
	}
	// litres gives the volume of the first draw of an energy.
	litres := func(p hotwater.Pattern, kWh float64) func() (float64, error) {
		return func() (float64, error) {
			for _, d := range p.Draws {
				if e := float64(d.Energy / units.KilowattHours(1)); e > kWh-1e-9 && e < kWh+1e-9 {
					return d.Volume.Litres(), nil
				}
			}
			return 0, nil
		}
	}
	at60 := func(p hotwater.Pattern) func() (float64, error) {
		return func() (float64, error) {
			// The flow of this heat over a second is its volume.
			flow, err := hotwater.Recovery(units.Power(p.Energy()/1000), units.Celsius(10), units.Celsius(60))
			return float64(flow) * 1e6, err
		}
	}
	const (
		eu    = "Regulation (EU) 812/2013 Annex VII table 3 (EN 16147)"
		us    = "10 CFR 430 subpart B appendix E"
		exact = "the profile as held in an open library's verification file, which asks for the total to 1e-7"
		litre = "worked out with 4.186 kJ/kgK, a litre for a kilogram; ours with the density"
	)
	return []Row{
		{ID: "dhw-eu-m", Subject: subject, What: "pattern M, total", Ours: kWh(hotwater.EUMedium()), Published: 5.845, Unit: "kWh", Abs: 1e-7, Source: eu, Standing: Published, Note: exact},
		{ID: "dhw-eu-l", Subject: subject, What: "pattern L, total", Ours: kWh(hotwater.EULarge()), Published: 11.655, Unit: "kWh", Abs: 1e-7, Source: eu, Standing: Published, Note: exact},
		{ID: "dhw-eu-xl", Subject: subject, What: "pattern XL, total", Ours: kWh(hotwater.EUExtraLarge()), Published: 19.07, Unit: "kWh", Abs: 1e-7, Source: eu, Standing: Published, Note: exact},
		{ID: "dhw-eu-shower", Subject: subject, What: "volume of a draw of 1.4 kWh", Ours: litres(hotwater.EUMedium(), 1.4), Published: 40.1, Unit: "L", Rel: .01, Source: eu, Standing: Formula, Note: litre},
		{ID: "dhw-eu-bath", Subject: subject, What: "volume of a draw of 3.605 kWh", Ours: litres(hotwater.EULarge(), 3.605), Published: 103.3, Unit: "L", Rel: .01, Source: eu, Standing: Formula, Note: litre},
		{ID: "dhw-eu-dishes", Subject: subject, What: "volume of a draw of 0.735 kWh at 45 K", Ours: litres(hotwater.EUMedium(), .735), Published: 14.05, Unit: "L", Rel: .01, Source: eu, Standing: Formula, Note: litre},
		{ID: "dhw-eu-l-60", Subject: subject, What: "pattern L as water of 60 °C from 10 °C", Ours: at60(hotwater.EULarge()), Published: 200.5, Unit: "L", Rel: .01, Source: eu, Standing: Formula, Note: litre},
		{ID: "dhw-us-low", Subject: subject, What: "low use, sum of the draws", Ours: gallons(hotwater.USLow()), Published: 38, Unit: "gal", Abs: 1e-6, Source: us, Standing: FromMemory},
		{ID: "dhw-us-medium", Subject: subject, What: "medium use, sum of the draws", Ours: gallons(hotwater.USMedium()), Published: 55, Unit: "gal", Abs: 1e-6, Source: us, Standing: FromMemory},
		{ID: "dhw-us-high", Subject: subject, What: "high use, sum of the draws", Ours: gallons(hotwater.USHigh()), Published: 84, Unit: "gal", Abs: 1e-6, Source: us, Standing: FromMemory},
	}
}

func tankRows() []Row {
	const (
		subject = "Hot-water tank"
		balance = "heat balance"
		density = "worked out with 8.25 lb/gal; ours with the density at the mean temperature"
	)
	// Primary water so plentiful that the boiler is the only limit.
	heatUp := func(v units.Volume, from, to units.Temperature, boiler units.Power) func() (float64, error) {
		return func() (float64, error) {
			h, err := hotwater.Tank{Volume: v}.HeatUp(hotwater.Charge{Boiler: boiler, Supply: units.Celsius(90), Flow: units.LitresPerMinute(100), Drop: 40}, from, to)
			return float64(h.Time) / 60, err
		}
	}
	recovery := func(q units.Power, cold, hot units.Temperature, per float64) func() (float64, error) {
		return func() (float64, error) {
			flow, err := hotwater.Recovery(q, cold, hot)
			return float64(flow) * per, err
		}
	}
	share := func(cold, hot, mix units.Temperature) func() (float64, error) {
		return func() (float64, error) {
			x, err := hotwater.HotShare(cold, hot, mix)
			return float64(x), err
		}
	}
	gph := 3600 / float64(units.Gallons(1))
	f, c := units.Fahrenheit, units.Celsius
	return []Row{
		{ID: "dhw-heatup-200", Subject: subject, What: "200 L from 10 to 60 °C with 24 kW", Ours: heatUp(units.Litres(200), c(10), c(60), 24e3), Published: 28.7, Unit: "min", Rel: .01,
			Source: balance, Standing: Formula},
		{ID: "dhw-heatup-50", Subject: subject, What: "50 gal from 50 to 140 °F with 100,000 Btu/h", Ours: heatUp(units.Gallons(50), f(50), f(140), units.BtuPerHour(100000)), Published: 22.3, Unit: "min", Rel: .01,
			Source: balance, Standing: Formula, Note: density},
		{ID: "dhw-recovery-us", Subject: subject, What: "recovery with 100,000 Btu/h, 50 to 140 °F", Ours: recovery(units.BtuPerHour(100000), f(50), f(140), gph), Published: 134.7, Unit: "gal/h", Rel: .01,
			Source: balance, Standing: Formula, Note: density},
		{ID: "dhw-recovery-si", Subject: subject, What: "recovery with 24 kW, 10 to 60 °C", Ours: recovery(24e3, c(10), c(60), 60000), Published: 6.96, Unit: "L/min", Rel: .01,
			Source: balance, Standing: Formula},
		{ID: "dhw-first-hour", Subject: subject, What: "first hour, 50 gal and 134.7 gal/h", Ours: func() (float64, error) {
			v, err := hotwater.Tank{Volume: units.Gallons(50)}.FirstHour(hotwater.UsableShare, units.GallonsPerMinute(134.7/60))
			return v.Gallons(), err
		}, Published: 169.7, Unit: "gal", Abs: .01, Source: "first-hour rule, 70 % of the tank usable", Standing: CommonPractice},
		{ID: "dhw-mix-120", Subject: subject, What: "hot share for 120 °F from 140 and 50 °F", Ours: share(f(50), f(140), f(120)), Published: .7778, Abs: 5e-5, Source: balance, Standing: Formula},
		{ID: "dhw-mix-49", Subject: subject, What: "hot share for 49 °C from 60 and 10 °C", Ours: share(c(10), c(60), c(49)), Published: .78, Abs: 5e-5, Source: balance, Standing: Formula},
		{ID: "dhw-mix-105", Subject: subject, What: "hot share for 105 °F from 140 and 50 °F", Ours: share(f(50), f(140), f(105)), Published: .6111, Abs: 5e-5, Source: balance, Standing: Formula},
		{ID: "dhw-missed", Subject: subject, What: "heat a house of 6 kW misses while a three-way valve heats 200 L", Ours: func() (float64, error) {
			a, err := hotwater.Advise(hotwater.Plan{By: hotwater.ThreeWay, Tank: hotwater.Tank{Volume: units.Litres(200)},
				Charge: hotwater.Charge{Boiler: 24e3, Flow: units.LitresPerMinute(100), Drop: 40}, Cold: c(10), MaxSupply: c(85), Heating: 6e3,
				Room: c(20), Outdoor: c(0), Constant: units.Hours(50)})
			return float64(a.Missed / units.KilowattHours(1)), err
		}, Published: 2.87, Unit: "kWh", Rel: .01, Source: balance, Standing: Formula, Note: "load times heat-up time; the priority's limit is longer here"},
	}
}

func loopRows() []Row {
	const subject = "Hot-water circulation and hygiene"
	pipe := func(mm, insulation, lambda float64) func() (float64, error) {
		return func() (float64, error) {
			q, err := hotwater.Run{Outside: units.Length(mm / 1000), Insulation: units.Length(insulation / 1000), Material: units.Conductivity(lambda),
				Around: units.Celsius(20)}.PerLength(units.Celsius(60), hotwater.Film)
			return float64(q), err
		}
	}
	// asked gives the temperature asked for at a place by the guideline whose name
	// begins so.
	asked := func(place hotwater.Place, from string) func() (float64, error) {
		return func() (float64, error) {
			for _, g := range hotwater.Guidances() {
				if g.Place == place && strings.HasPrefix(g.Source, from) {
					return g.Limit.Celsius(), nil
				}
			}
			return 0, nil
		}
	}
	scald := func(row int) func() (float64, error) {
		return func() (float64, error) { return hotwater.ScaldBands()[row].At.Celsius(), nil }
	}
	const ashrae = "ASHRAE Guideline 12-2000 clause 4.1.6, as quoted in the trade press"
	const burns = "public-health page of a US state on scald prevention"
	return []Row{
		{ID: "loop-22", Subject: subject, What: "22 mm pipe, 25 mm of 0.040 W/mK, 60 °C in 20 °C", Ours: pipe(22, 25, .04), Published: 7.75, Unit: "W/m", Abs: .005, Source: "ISO 12241, cylinder with outer film 10 W/m²K", Standing: Formula},
		{ID: "loop-28", Subject: subject, What: "28 mm pipe, 30 mm of 0.035 W/mK, 60 °C in 20 °C", Ours: pipe(28, 30, .035), Published: 7.18, Unit: "W/m", Abs: .005, Source: "ISO 12241, cylinder with outer film 10 W/m²K", Standing: Formula},
		{ID: "loop-flow", Subject: subject, What: "flow of a loop that loses 300 W at a drop of 5 K", Ours: func() (float64, error) {
			flow, err := hotwater.LoopFlow(300, hotwater.LoopDrop, units.Celsius(60))
			return float64(flow) * 60000, err
		}, Published: .875, Unit: "L/min", Abs: .001, Source: "heat balance", Standing: Formula},
		{ID: "hygiene-store", Subject: subject, What: "least storage temperature", Ours: asked(hotwater.Storage, "ASHRAE"), Published: 60, Unit: "°C", Abs: .05, Source: ashrae, Standing: Published},
		{ID: "hygiene-return", Subject: subject, What: "least return temperature of a circulation", Ours: asked(hotwater.Return, "ASHRAE"), Published: 51, Unit: "°C", Abs: .2, Source: ashrae, Standing: Published,
			Note: "124 °F, printed as 51 °C"},
		{ID: "hygiene-return-large", Subject: subject, What: "least temperature of the whole circuit, large systems", Ours: asked(hotwater.Return, "DVGW"), Published: 55, Unit: "°C", Abs: .05, Source: "DVGW W 551", Standing: FromMemory},
		{ID: "scald-first", Subject: subject, What: "row \"more than 5 minutes\" of the scald table", Ours: scald(0), Published: 48.9, Unit: "°C", Abs: .05, Source: burns, Standing: Published},
		{ID: "scald-5s", Subject: subject, What: "row \"less than 5 seconds\" of the scald table", Ours: scald(4), Published: 60, Unit: "°C", Abs: .05, Source: burns, Standing: Published},
	}
}
