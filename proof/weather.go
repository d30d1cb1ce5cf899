package proof

import (
	"math"
	"time"

	"curvewright/units"
	"curvewright/weather"
)

// weatherRows checks degree-days, design conditions and the sun.
func weatherRows() []Row {
	return append(yearRows(), sunRows()...)
}

func yearRows() []Row {
	const subject = "Weather"
	year := func(hour func(i int) float64) *weather.Year {
		y := &weather.Year{DryBulb: make([]float64, 8760)}
		for i := range y.DryBulb {
			y.DryBulb[i] = hour(i)
		}
		return y
	}
	perDay := func(base, mean float64) func() (float64, error) {
		return func() (float64, error) {
			y := year(func(int) float64 { return mean })
			return float64(y.DegreeDays(units.Celsius(base))) / 86400 / 365, nil
		}
	}
	colder := func(share units.Fraction) func() (float64, error) {
		return func() (float64, error) {
			y := year(func(i int) float64 { return float64(i) / 500 })
			return float64(y.HoursBetween(units.Celsius(-1), y.DesignTemperature(share))) / 3600, nil
		}
	}
	const (
		canada = "Canadian climate service, definition of heating degree-days"
		dutch  = "Dutch practice of degree-days, base 18 °C"
		ashrae = "ASHRAE Handbook Fundamentals, climatic design conditions (definition)"
	)
	return []Row{
		{ID: "degree-days-15.5", Subject: subject, What: "degree-days of a day of 15.5 °C, base 18 °C", Ours: perDay(18, 15.5),
			Published: 2.5, Unit: "K·d", Abs: 1e-9, Source: canada, Standing: Published},
		{ID: "degree-days-20.5", Subject: subject, What: "degree-days of a day of 20.5 °C, base 18 °C", Ours: perDay(18, 20.5),
			Published: 0, Unit: "K·d", Abs: 1e-9, Source: canada, Standing: Published},
		{ID: "degree-days-10", Subject: subject, What: "degree-days of a day of 10 °C, base 18 °C", Ours: perDay(18, 10),
			Published: 8, Unit: "K·d", Abs: 1e-9, Source: dutch, Standing: Published},
		{ID: "degree-days-minus-4", Subject: subject, What: "degree-days of a day of −4 °C, base 18 °C", Ours: perDay(18, -4),
			Published: 22, Unit: "K·d", Abs: 1e-9, Source: dutch, Standing: Published},
		{ID: "hours-below-99", Subject: subject, What: "hours of a year colder than its 99 % design temperature", Ours: colder(weather.Design99),
			Published: 87.6, Unit: "h", Abs: 1, Source: ashrae, Standing: Formula, Note: "1 % of 8,760 h, in whole hours"},
		{ID: "hours-below-99.6", Subject: subject, What: "hours of a year colder than its 99.6 % design temperature", Ours: colder(weather.Design996),
			Published: 35.04, Unit: "h", Abs: 1, Source: ashrae, Standing: Formula, Note: "0.4 % of 8,760 h, in whole hours"},
	}
}

func sunRows() []Row {
	const subject = "Sun"
	golden := weather.Place{Latitude: 39.742476, Longitude: -105.1786, Elevation: 1830.14}
	example := func(pick func(weather.Sun) float64) func() (float64, error) {
		return func() (float64, error) {
			return pick(weather.SunAt(time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC), golden)), nil
		}
	}
	// A wall towards the noon sun at 30° above the horizon.
	wall := weather.Surface{Tilt: 90, Azimuth: 180, Ground: 0.2}
	noon := weather.Sun{Zenith: 60, Azimuth: 180, Distance: 1}
	on := func(pick func(weather.Irradiance) float64) func() (float64, error) {
		return func() (float64, error) { return pick(wall.On(noon, 500, 100, 350)), nil }
	}
	const (
		report = "Reda & Andreas, NREL/TP-560-34302, worked example of 17 October 2003"
		simple = "the simple formulas leave out refraction, 0.02° here"
		davies = "Hay & Davies (1980), as in Duffie & Beckman, Solar Engineering of Thermal Processes, section 2.16"
	)
	return []Row{
		{ID: "sun-zenith", Subject: subject, What: "sun's zenith angle at 39.742476° N, 105.1786° W, 12:30:30 at UTC−7",
			Ours: example(func(s weather.Sun) float64 { return s.Zenith }), Published: 50.11162, Unit: "°", Abs: 0.1, Source: report, Standing: FromMemory, Note: simple},
		{ID: "sun-azimuth", Subject: subject, What: "sun's azimuth from north at the same moment",
			Ours: example(func(s weather.Sun) float64 { return s.Azimuth }), Published: 194.34024, Unit: "°", Abs: 0.1, Source: report, Standing: FromMemory, Note: simple},
		{ID: "sun-wall-direct", Subject: subject, What: "direct sun on a south wall, sun 30° high in the south with 500 W/m²",
			Ours: on(func(i weather.Irradiance) float64 { return i.Direct }), Published: 433.01, Unit: "W/m²", Abs: 0.01, Source: davies, Standing: Formula},
		{ID: "sun-wall-sky", Subject: subject, What: "sky on the same wall, 100 W/m² diffuse on the level",
			Ours: on(func(i weather.Irradiance) float64 { return i.Sky }), Published: 95.26, Unit: "W/m²", Abs: 0.01, Source: davies, Standing: Formula,
			Note: "100·(0.36738·1.73205 + 0.63262/2)"},
		{ID: "sun-wall-ground", Subject: subject, What: "reflected by the ground on the same wall, 350 W/m² global, reflectance 0.2",
			Ours: on(func(i weather.Irradiance) float64 { return i.Ground }), Published: 35, Unit: "W/m²", Abs: 1e-6, Source: davies, Standing: Formula},
		{ID: "sun-diffuse-share", Subject: subject, What: "diffuse share of global radiation at a clearness of 0.5",
			Ours: func() (float64, error) {
				global := 0.5 * noon.Extraterrestrial() * math.Cos(noon.Zenith*math.Pi/180)
				_, diffuse := weather.Decompose(noon, global)
				return diffuse / global, nil
			}, Published: 0.6592, Unit: "", Abs: 0.0001, Source: "Erbs, Klein & Duffie, Solar Energy 28 (1982), as in Duffie & Beckman eq. 2.10.1", Standing: Formula},
		{ID: "sun-pane-60", Subject: subject, What: "what a pane lets through at 60°, of what it lets through head on",
			Ours:      func() (float64, error) { return float64(weather.IncidenceModifier(60)), nil },
			Published: 0.9, Unit: "", Abs: 1e-9, Source: "form of ASHRAE Standard 93 with b0 = 0.1", Standing: Formula},
	}
}
