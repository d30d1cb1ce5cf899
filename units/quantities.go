package units

// absoluteZero is 0 K, the floor of every temperature; the tops of the ranges
// below lie far beyond anything in a house and exist to catch slips of the keyboard.
const (
	celsiusOffset    = 273.15
	fahrenheitOffset = 459.67
	fahrenheitScale  = 5.0 / 9.0

	inch       = 0.0254
	foot       = 12 * inch
	usGallon   = 231 * inch * inch * inch
	pound      = 0.45359237
	btu        = 1055.05585262 // International Table
	hour       = 3600.0
	day        = 24 * hour
	psi        = pound * 9.80665 / (inch * inch)
	waterFoot  = 2989.06692 // 1 ft of water at 4 °C
	rValueUnit = fahrenheitScale * foot * foot * hour / btu
)

// Temperature is a point on the thermometer, in kelvin.
type Temperature float64

var temperatureDimension = (&dimension{
	kind: Temperatures, chosen: [][]rung{{{unit: "°F"}}, {{unit: "°C"}}},
	name: "a temperature", example: `70 °F, 21.1 °C, 294 K`, si: []rung{{unit: "°C"}}, us: []rung{{unit: "°F"}}, min: 0, max: 2000,
	units: []unit{
		{name: "°C", spellings: []string{"C", "deg C", "degC", "celsius", "℃"}, offset: celsiusOffset, decimals: 1},
		{name: "°F", spellings: []string{"F", "deg F", "degF", "fahrenheit", "℉"}, scale: fahrenheitScale, offset: fahrenheitOffset},
		{name: "K", spellings: []string{"kelvin"}, decimals: 1},
	},
}).index()

func (Temperature) dimension() *dimension { return temperatureDimension }

// Text prints the value with its unit for a reader of the system.
func (q Temperature) Text(s System) string { return temperatureDimension.text(float64(q), s) }

// Difference is the distance between two temperatures, in kelvin.
type Difference float64

var differenceDimension = (&dimension{
	kind: Temperatures, chosen: [][]rung{{{unit: "°F"}}, {{unit: "K"}}},
	name: "a temperature difference", example: `20 °F, 11 K`, si: []rung{{unit: "K"}}, us: []rung{{unit: "°F"}}, min: -1500, max: 1500,
	units: []unit{
		{name: "K", spellings: []string{"kelvin", "kelvins", "°C", "C", "deg C", "degC", "C°"}, decimals: 1, wholeFrom: 10},
		{name: "°F", spellings: []string{"F", "deg F", "degF", "F°"}, scale: fahrenheitScale, decimals: 1, wholeFrom: 10},
	},
}).index()

func (Difference) dimension() *dimension { return differenceDimension }

// Text prints the value with its unit for a reader of the system.
func (q Difference) Text(s System) string { return differenceDimension.text(float64(q), s) }

// Power is a rate of heat, in watts.
type Power float64

var powerDimension = (&dimension{
	kind: Powers, chosen: [][]rung{{{unit: "Btu/h"}}, {{unit: "MBH"}}, {{unit: "W"}}, {{unit: "kW"}}},
	name: "a heat output", example: `38,000 Btu/h, 38 MBH, 11.1 kW, 900 W`, si: []rung{{unit: "W"}, {unit: "kW", from: 1000}}, us: []rung{{unit: "Btu/h"}}, min: -1e9, max: 1e9,
	units: []unit{
		{name: "W", spellings: []string{"watt", "watts"}, figures: 3},
		{name: "kW", spellings: []string{"kilowatt"}, scale: 1000, figures: 3},
		{name: "Btu/h", spellings: []string{"Btuh", "Btu/hr", "BTU per hour"}, scale: btu / hour, figures: 3},
		{name: "MBH", spellings: []string{"kBtu/h", "MBtu/h"}, scale: 1000 * btu / hour, figures: 3},
		{name: "MJ/h", scale: 1e6 / hour, figures: 3},
		{name: "kcal/h", scale: 4186.8 / hour, figures: 3},
	},
}).index()

func (Power) dimension() *dimension { return powerDimension }

// Text prints the value with its unit for a reader of the system.
func (q Power) Text(s System) string { return powerDimension.text(float64(q), s) }

// Energy is an amount of heat, in joules.
type Energy float64

var energyDimension = (&dimension{
	kind: Energies, chosen: [][]rung{{{unit: "therm"}}, {{unit: "MMBtu"}}, {{unit: "kWh"}}, {{unit: "MWh"}}, {{unit: "MJ"}}, {{unit: "GJ"}}},
	name: "an amount of energy", example: `900 therm, 95 MMBtu, 14,000 kWh`, si: []rung{{unit: "kWh"}}, us: []rung{{unit: "therm"}}, min: 0, max: 1e15,
	units: []unit{
		{name: "kWh", scale: 1000 * hour, figures: 4},
		{name: "MWh", scale: 1e6 * hour, figures: 4},
		{name: "Wh", scale: hour, figures: 4},
		{name: "J", figures: 4},
		{name: "kJ", scale: 1e3, figures: 4},
		{name: "MJ", scale: 1e6, figures: 4},
		{name: "GJ", scale: 1e9, figures: 4},
		{name: "Btu", scale: btu, figures: 4},
		{name: "kBtu", scale: 1e3 * btu, figures: 4},
		{name: "MMBtu", scale: 1e6 * btu, figures: 4},
		{name: "therm", spellings: []string{"therms", "thm"}, scale: 1e5 * btu, figures: 4},
	},
}).index()

func (Energy) dimension() *dimension { return energyDimension }

// Text prints the value with its unit for a reader of the system.
func (q Energy) Text(s System) string { return energyDimension.text(float64(q), s) }

// Length is a distance, in metres.
type Length float64

var lengthDimension = (&dimension{
	kind: Lengths,
	name: "a length", example: `12 ft 6 in, 3/4 in, 2.4 m, 16 mm`, min: -1e5, max: 1e6, compound: true,
	si: []rung{{unit: "mm"}, {unit: "m", from: 0.1}}, us: []rung{{unit: "in"}, {unit: "ft", from: foot}},
	units: []unit{
		{name: "m", spellings: []string{"metre", "meter", "metres", "meters"}, figures: 3},
		{name: "cm", scale: 0.01, figures: 3},
		{name: "mm", scale: 0.001, figures: 3},
		{name: "km", scale: 1000, figures: 3},
		{name: "in", spellings: []string{"\"", "inch", "inches"}, scale: inch, figures: 3},
		{name: "ft", spellings: []string{"'", "foot", "feet"}, scale: foot, figures: 3},
		{name: "yd", scale: 3 * foot, figures: 3},
	},
}).index()

func (Length) dimension() *dimension { return lengthDimension }

// lengthLadder goes from the unit of pipes and spacings to that of rooms, where one of
// them was chosen.
func lengthLadder(s System) []rung {
	long := "m"
	if s.In(Lengths) == US {
		long = "ft"
	}
	switch {
	case s.In(Pipes) == US:
		return []rung{{unit: "in"}, {unit: long, from: foot}}
	case s.Chosen(Pipes) == "cm":
		return []rung{{unit: "cm"}, {unit: long, from: 1}}
	}
	return []rung{{unit: "mm"}, {unit: long, from: 0.1}}
}

// Text prints the value with its unit for a reader of the system.
func (q Length) Text(s System) string { return lengthDimension.text(float64(q), s) }

// Area is a surface, in square metres.
type Area float64

var areaDimension = (&dimension{
	kind: Areas, chosen: [][]rung{{{unit: "ft²"}}, {{unit: "m²"}}},
	name: "an area", example: `1,850 ft², 172 m²`, si: []rung{{unit: "m²"}}, us: []rung{{unit: "ft²"}}, min: 0, max: 1e6,
	units: []unit{
		{name: "m²", spellings: []string{"sq m", "sqm", "m2"}, figures: 4},
		{name: "cm²", scale: 1e-4, figures: 4},
		{name: "ft²", spellings: []string{"sq ft", "sqft", "square feet", "sf"}, scale: foot * foot, figures: 4},
		{name: "in²", spellings: []string{"sq in"}, scale: inch * inch, figures: 4},
	},
}).index()

func (Area) dimension() *dimension { return areaDimension }

// Text prints the value with its unit for a reader of the system.
func (q Area) Text(s System) string { return areaDimension.text(float64(q), s) }

// Volume is a space or an amount of water, in cubic metres.
type Volume float64

var volumeDimension = (&dimension{
	kind: Spaces, chosen: [][]rung{{{unit: "ft³"}}, {{unit: "m³"}}},
	name: "a volume", example: `40 gal, 200 L, 12,000 ft³`, si: []rung{{unit: "m³"}}, us: []rung{{unit: "ft³"}}, min: 0, max: 1e6,
	units: []unit{
		{name: "m³", spellings: []string{"cbm", "cu m"}, figures: 4},
		{name: "L", spellings: []string{"l", "liter", "litre", "liters", "litres"}, scale: 0.001, figures: 4},
		{name: "ft³", spellings: []string{"cu ft", "cubic feet", "cf"}, scale: foot * foot * foot, figures: 4},
		{name: "gal", spellings: []string{"US gal", "gallon", "gallons"}, scale: usGallon, figures: 4},
	},
}).index()

func (Volume) dimension() *dimension { return volumeDimension }

// Text prints the value with its unit for a reader of the system.
func (q Volume) Text(s System) string { return volumeDimension.text(float64(q), s) }

// Flow is a volume of water or air in a time, in cubic metres per second.
type Flow float64

var flowDimension = (&dimension{
	kind: Flows, chosen: [][]rung{{{unit: "gpm"}}, {{unit: "L/min"}}, {{unit: "L/h"}}, {{unit: "m³/h"}}, {{unit: "L/s"}}},
	name: "a flow", example: `1.2 gpm, 4.5 L/min, 0.3 m³/h, 120 cfm`, si: []rung{{unit: "L/min"}}, us: []rung{{unit: "gpm"}}, min: 0, max: 1e3,
	units: []unit{
		{name: "m³/s", figures: 3},
		{name: "m³/h", scale: 1 / hour, figures: 3},
		{name: "L/s", scale: 1e-3, figures: 3},
		{name: "L/min", spellings: []string{"lpm", "l/m"}, scale: 1e-3 / 60, figures: 3},
		{name: "L/h", scale: 1e-3 / hour, figures: 3},
		{name: "gpm", spellings: []string{"US gpm", "gal/min"}, scale: usGallon / 60, figures: 3},
		{name: "cfm", spellings: []string{"ft³/min"}, scale: foot * foot * foot / 60, figures: 3},
	},
}).index()

func (Flow) dimension() *dimension { return flowDimension }

// Text prints the value with its unit for a reader of the system.
func (q Flow) Text(s System) string { return flowDimension.text(float64(q), s) }

// Pressure is a gauge pressure or a pressure difference, in pascals.
type Pressure float64

var pressureDimension = (&dimension{
	kind: Pressures, chosen: [][]rung{{{unit: "psi"}}, {{unit: "bar"}}, {{unit: "kPa"}}, {{unit: "mbar"}}},
	name: "a pressure", example: `18 psi, 1.2 bar, 25 kPa`, si: []rung{{unit: "bar"}}, us: []rung{{unit: "psi"}}, min: -1e8, max: 1e8,
	units: []unit{
		{name: "bar", scale: 1e5, decimals: 2},
		{name: "mbar", scale: 100, figures: 3},
		{name: "Pa", figures: 3},
		{name: "kPa", scale: 1e3, figures: 3},
		{name: "psi", spellings: []string{"psig", "lb/in²", "lbf/in²"}, scale: psi, decimals: 1},
		{name: "ft w.c.", spellings: []string{"ft of head", "ft head", "ftwc", "ft of water"}, scale: waterFoot, figures: 3},
		{name: "in w.c.", spellings: []string{"in of water", "inwc"}, scale: waterFoot / 12, figures: 3},
		{name: "m w.c.", spellings: []string{"mwc", "mWS", "m of water"}, scale: waterFoot / foot, figures: 3},
	},
}).index()

func (Pressure) dimension() *dimension { return pressureDimension }

// Text prints the value with its unit for a reader of the system.
func (q Pressure) Text(s System) string { return pressureDimension.text(float64(q), s) }

// Transmittance is a U-value, in watts per square metre and kelvin.
type Transmittance float64

var transmittanceDimension = (&dimension{
	kind: Transmittances, chosen: [][]rung{{{unit: "Btu/h·ft²·°F"}}, {{unit: "W/m²K"}}},
	name: "a U-value", example: `0.35 W/m²K, 0.06 Btu/h·ft²·°F, U-0.06`, si: []rung{{unit: "W/m²K"}}, us: []rung{{unit: "Btu/h·ft²·°F"}}, min: 0, max: 100,
	units: []unit{
		{name: "W/m²K", spellings: []string{"W/(m²·K)", "W/m2K", "W/m²/K", "W/m2/K"}, figures: 3},
		{name: "Btu/h·ft²·°F", spellings: []string{"Btu/(h·ft²·°F)", "Btu/hr·ft²·°F", "Btu/h/ft²/°F", "Btu/hft²F", "Btu/h·ft²·F", "Btu/hr·ft²·F"}, scale: 1 / rValueUnit, figures: 3},
		{name: "U", spellings: []string{"U"}, scale: 1 / rValueUnit, figures: 3, prefix: true},
	},
}).index()

func (Transmittance) dimension() *dimension { return transmittanceDimension }

// Text prints the value with its unit for a reader of the system.
func (q Transmittance) Text(s System) string { return transmittanceDimension.text(float64(q), s) }

// Resistance is a thermal resistance of a surface, in square metre kelvin per watt.
type Resistance float64

var resistanceDimension = (&dimension{
	kind: Resistances, chosen: [][]rung{{{unit: "R-"}}, {{unit: "m²K/W"}}, {{unit: "RSI"}}},
	name: "a thermal resistance", example: `R-13, 2.3 m²K/W, RSI 2.3`, si: []rung{{unit: "m²K/W"}}, us: []rung{{unit: "R-"}}, min: 0, max: 1000,
	units: []unit{
		{name: "m²K/W", spellings: []string{"m²·K/W", "m2K/W", "m²·°C/W"}, figures: 3},
		{name: "h·ft²·°F/Btu", spellings: []string{"hft²F/Btu", "hr·ft²·°F/Btu", "h·ft²·F/Btu"}, scale: rValueUnit, figures: 3},
		{name: "R-", spellings: []string{"R"}, scale: rValueUnit, figures: 3, prefix: true},
		{name: "RSI\u00a0", spellings: []string{"RSI"}, figures: 3, prefix: true},
	},
}).index()

func (Resistance) dimension() *dimension { return resistanceDimension }

// Text prints the value with its unit for a reader of the system.
func (q Resistance) Text(s System) string { return resistanceDimension.text(float64(q), s) }

// Conductivity is the thermal conductivity of a material, in watts per metre and kelvin.
type Conductivity float64

var conductivityDimension = (&dimension{
	kind: Transmittances, chosen: [][]rung{{{unit: "Btu/h·ft·°F"}}, {{unit: "W/mK"}}},
	name: "a conductivity", example: `1.2 W/mK, 0.7 Btu/h·ft·°F`, si: []rung{{unit: "W/mK"}}, us: []rung{{unit: "Btu/h·ft·°F"}}, min: 0, max: 1000,
	units: []unit{
		{name: "W/mK", spellings: []string{"W/(m·K)", "W/m/K"}, figures: 3},
		{name: "Btu/h·ft·°F", spellings: []string{"Btu/(h·ft·°F)", "Btu/hr·ft·°F", "Btu/h·ft·F", "Btu/hr·ft·F"}, scale: btu / hour / foot / fahrenheitScale, figures: 3},
		{name: "Btu·in/h·ft²·°F", spellings: []string{"Btu·in/(h·ft²·°F)", "Btu in/h ft² F"}, scale: btu / hour / foot / foot * inch / fahrenheitScale, figures: 3},
	},
}).index()

func (Conductivity) dimension() *dimension { return conductivityDimension }

// Text prints the value with its unit for a reader of the system.
func (q Conductivity) Text(s System) string { return conductivityDimension.text(float64(q), s) }

// LossCoefficient is heat per kelvin of difference: of a house, of a room, or carried by a stream of water; in watts per kelvin.
type LossCoefficient float64

var lossCoefficientDimension = (&dimension{
	kind: Losses, chosen: [][]rung{{{unit: "Btu/h·°F"}}, {{unit: "W/K"}}},
	name: "a heat loss per degree", example: `180 W/K, 340 Btu/h·°F`, si: []rung{{unit: "W/K"}}, us: []rung{{unit: "Btu/h·°F"}}, min: -1e7, max: 1e7,
	units: []unit{
		{name: "W/K", spellings: []string{"W/°C"}, figures: 3},
		{name: "kW/K", scale: 1000, figures: 3},
		{name: "Btu/h·°F", spellings: []string{"Btu/(h·°F)", "Btu/hr·°F", "Btu/h·F", "Btu/hr·F", "Btu/h/°F"}, scale: btu / hour / fahrenheitScale, figures: 3},
	},
}).index()

func (LossCoefficient) dimension() *dimension { return lossCoefficientDimension }

// Text prints the value with its unit for a reader of the system.
func (q LossCoefficient) Text(s System) string { return lossCoefficientDimension.text(float64(q), s) }

// Flux is heat through a surface, in watts per square metre.
type Flux float64

var fluxDimension = (&dimension{
	kind: Fluxes, chosen: [][]rung{{{unit: "Btu/h·ft²"}}, {{unit: "W/m²"}}},
	name: "a heat flux", example: `60 W/m², 19 Btu/h·ft²`, si: []rung{{unit: "W/m²"}}, us: []rung{{unit: "Btu/h·ft²"}}, min: -1e6, max: 1e6,
	units: []unit{
		{name: "W/m²", spellings: []string{"W/m2"}, figures: 3},
		{name: "Btu/h·ft²", spellings: []string{"Btu/(h·ft²)", "Btu/hr·ft²", "Btu/h/ft²"}, scale: btu / hour / foot / foot, figures: 3},
	},
}).index()

func (Flux) dimension() *dimension { return fluxDimension }

// Text prints the value with its unit for a reader of the system.
func (q Flux) Text(s System) string { return fluxDimension.text(float64(q), s) }

// LinearPower is heat per length of an emitter, in watts per metre.
type LinearPower float64

var linearPowerDimension = (&dimension{
	kind: LinearPowers, chosen: [][]rung{{{unit: "Btu/h·ft"}}, {{unit: "W/m"}}},
	name: "an output per length", example: `560 Btu/h·ft, 540 W/m`, si: []rung{{unit: "W/m"}}, us: []rung{{unit: "Btu/h·ft"}}, min: 0, max: 1e5,
	units: []unit{
		{name: "W/m", figures: 3},
		{name: "Btu/h·ft", spellings: []string{"Btu/(h·ft)", "Btu/hr·ft", "Btu/h/ft", "Btu/h per ft"}, scale: btu / hour / foot, figures: 3},
	},
}).index()

func (LinearPower) dimension() *dimension { return linearPowerDimension }

// Text prints the value with its unit for a reader of the system.
func (q LinearPower) Text(s System) string { return linearPowerDimension.text(float64(q), s) }

// AirChange is how often the air of a space is replaced, per second.
type AirChange float64

var airChangeDimension = (&dimension{
	name: "an air change", example: `0.5 /h, 7 ach`, si: []rung{{unit: "/h"}}, us: []rung{{unit: "/h"}}, min: 0, max: 0.1,
	units: []unit{
		{name: "/h", spellings: []string{"1/h", "per hour", "ach", "h-1", "h⁻¹", "ach50", "ac/h", "/hr", "1/hr"}, scale: 1 / hour, decimals: 2},
		{name: "/s", spellings: []string{"1/s", "s-1", "per second"}, figures: 3},
	},
}).index()

func (AirChange) dimension() *dimension { return airChangeDimension }

// Text prints the value with its unit for a reader of the system.
func (q AirChange) Text(s System) string { return airChangeDimension.text(float64(q), s) }

// DegreeDays is the sum of daily temperature differences below a base, in kelvin seconds.
type DegreeDays float64

var degreeDaysDimension = (&dimension{
	kind: Temperatures, chosen: [][]rung{{{unit: "°F·d"}}, {{unit: "K·d"}}},
	name: "degree-days", example: `7,200 °F·d, 4000 K·d`, si: []rung{{unit: "K·d"}}, us: []rung{{unit: "°F·d"}}, min: 0, max: 1e10,
	units: []unit{
		{name: "K·s", figures: 4},
		{name: "K·d", spellings: []string{"Kd", "°C·d", "K day", "K days", "°C day", "°C days"}, scale: day, figures: 4},
		{name: "°F·d", spellings: []string{"°F day", "°F days", "F day", "F days", "HDD"}, scale: fahrenheitScale * day, figures: 4},
	},
}).index()

func (DegreeDays) dimension() *dimension { return degreeDaysDimension }

// Text prints the value with its unit for a reader of the system.
func (q DegreeDays) Text(s System) string { return degreeDaysDimension.text(float64(q), s) }

// Time is a length of time, in seconds.
type Time float64

var timeDimension = (&dimension{
	name: "a length of time", example: `10 min, 2 h, 90 s, 3 d`, min: 0, max: 1e10, compound: true,
	si: []rung{{unit: "s"}, {unit: "min", from: 60}, {unit: "h", from: hour}},
	us: []rung{{unit: "s"}, {unit: "min", from: 60}, {unit: "h", from: hour}},
	units: []unit{
		{name: "s", spellings: []string{"sec", "second", "seconds"}, figures: 3},
		{name: "min", spellings: []string{"minute", "minutes"}, scale: 60, figures: 3},
		{name: "h", spellings: []string{"hr", "hour", "hours"}, scale: hour, figures: 3},
		{name: "d", spellings: []string{"day", "days"}, scale: day, figures: 3},
	},
}).index()

func (Time) dimension() *dimension { return timeDimension }

// Text prints the value with its unit for a reader of the system.
func (q Time) Text(s System) string { return timeDimension.text(float64(q), s) }

// Fraction is a share of one.
type Fraction float64

var fractionDimension = (&dimension{
	name: "a share", example: `85 %, 0.85`, si: []rung{{unit: "%"}}, us: []rung{{unit: "%"}}, min: -10, max: 100,
	units: []unit{
		{name: "%", spellings: []string{"percent", "pct"}, scale: 0.01, figures: 3},
		{name: "", scale: 1, figures: 3},
	},
}).index()

func (Fraction) dimension() *dimension { return fractionDimension }

// Text prints the value with its unit for a reader of the system.
func (q Fraction) Text(s System) string { return fractionDimension.text(float64(q), s) }

// Number is a plain figure without a unit: an exponent, a slope, a count.
type Number float64

var numberDimension = (&dimension{
	name: "a number", example: `1.3, 0.95, 3/4`, si: []rung{{unit: ""}}, us: []rung{{unit: ""}}, min: -1e12, max: 1e12,
	units: []unit{{name: ""}},
}).index()

func (Number) dimension() *dimension { return numberDimension }

// Text prints the figure with up to four decimals.
func (q Number) Text(System) string { return trimmed(float64(q)) }

// Density is mass per volume, in kilograms per cubic metre.
type Density float64

var densityDimension = (&dimension{
	name: "a density", example: `998 kg/m³, 62.3 lb/ft³, 8.33 lb/gal`, si: []rung{{unit: "kg/m³"}}, us: []rung{{unit: "lb/ft³"}}, min: 0, max: 3e4,
	units: []unit{
		{name: "kg/m³", figures: 4},
		{name: "g/cm³", spellings: []string{"g/ml", "kg/L"}, scale: 1000, figures: 4},
		{name: "lb/ft³", spellings: []string{"lb/cu ft", "lbm/ft³", "pcf"}, scale: pound / (foot * foot * foot), figures: 4},
		{name: "lb/gal", spellings: []string{"lb/US gal"}, scale: pound / usGallon, figures: 4},
	},
}).index()

func (Density) dimension() *dimension { return densityDimension }

// Text prints the value with its unit for a reader of the system.
func (q Density) Text(s System) string { return densityDimension.text(float64(q), s) }

// SpecificHeat is the heat that warms one mass by one degree, in joules per kilogram and kelvin.
type SpecificHeat float64

var specificHeatDimension = (&dimension{
	name: "a specific heat", example: `4180 J/kgK, 4.18 kJ/kgK, 1.0 Btu/lb·°F`, si: []rung{{unit: "kJ/kgK"}}, us: []rung{{unit: "Btu/lb·°F"}}, min: 0, max: 1e5,
	units: []unit{
		{name: "J/kgK", spellings: []string{"J/kg/K", "J/kg·°C"}, figures: 4},
		{name: "kJ/kgK", spellings: []string{"kJ/kg/K", "kJ/kg·°C"}, scale: 1000, figures: 4},
		{name: "Wh/kgK", scale: hour, figures: 4},
		{name: "Btu/lb·°F", spellings: []string{"Btu/lb·F", "Btu/lb/°F", "Btu/lbm·°F", "Btu/lbm·F"}, scale: btu / pound / fahrenheitScale, figures: 4},
		{name: "kcal/kgK", spellings: []string{"kcal/kg·°C"}, scale: 4186.8, figures: 4},
	},
}).index()

func (SpecificHeat) dimension() *dimension { return specificHeatDimension }

// Text prints the value with its unit for a reader of the system.
func (q SpecificHeat) Text(s System) string { return specificHeatDimension.text(float64(q), s) }

// VolumetricHeat is the heat that warms one volume by one degree, in joules per
// cubic metre and kelvin. In US units, per flow instead of per volume, it is the
// "500" of the trade.
type VolumetricHeat float64

var volumetricHeatDimension = (&dimension{
	name: "a heat capacity per volume", example: `1.163 kWh/m³K, 4.18 MJ/m³K, 500 Btu/h·gpm·°F`,
	kind: Flows, chosen: [][]rung{{{unit: "Btu/h·gpm·°F"}}, {{unit: "kWh/m³K"}}, {{unit: "kWh/m³K"}}, {{unit: "kWh/m³K"}}, {{unit: "kWh/m³K"}}},
	si: []rung{{unit: "kWh/m³K"}}, us: []rung{{unit: "Btu/h·gpm·°F"}}, min: 0, max: 1e8,
	units: []unit{
		{name: "J/m³K", spellings: []string{"J/m³/K"}, figures: 4},
		{name: "kJ/m³K", spellings: []string{"kJ/m³/K"}, scale: 1e3, figures: 4},
		{name: "MJ/m³K", spellings: []string{"MJ/m³/K"}, scale: 1e6, figures: 4},
		{name: "kWh/m³K", spellings: []string{"kWh/m³/K"}, scale: 1000 * hour, figures: 4},
		{name: "Btu/h·gpm·°F", spellings: []string{"Btu/h/gpm/°F", "Btu/hr·gpm·°F", "Btu/h·gpm·F", "Btu/hr·gpm·F"}, scale: btu / hour / (usGallon / 60) / fahrenheitScale, figures: 4},
		{name: "Btu/gal·°F", spellings: []string{"Btu/gal·F"}, scale: btu / usGallon / fahrenheitScale, figures: 4},
	},
}).index()

func (VolumetricHeat) dimension() *dimension { return volumetricHeatDimension }

// Text prints the value with its unit for a reader of the system.
func (q VolumetricHeat) Text(s System) string { return volumetricHeatDimension.text(float64(q), s) }

// Viscosity is the dynamic viscosity, in pascal seconds.
type Viscosity float64

var viscosityDimension = (&dimension{
	name: "a dynamic viscosity", example: `0.001 Pa·s, 1 mPa·s, 1 cP`, si: []rung{{unit: "mPa·s"}}, us: []rung{{unit: "cP"}}, min: 0, max: 1e4,
	units: []unit{
		{name: "Pa·s", figures: 4},
		{name: "mPa·s", scale: 1e-3, figures: 4},
		{name: "µPa·s", scale: 1e-6, figures: 4},
		{name: "cP", spellings: []string{"centipoise"}, scale: 1e-3, figures: 4},
		{name: "lb/ft·s", spellings: []string{"lbm/ft·s"}, scale: pound / foot, figures: 4},
		{name: "lb/ft·h", spellings: []string{"lbm/ft·h", "lb/ft·hr", "lbm/ft·hr"}, scale: pound / foot / hour, figures: 4},
	},
}).index()

func (Viscosity) dimension() *dimension { return viscosityDimension }

// Text prints the value with its unit for a reader of the system.
func (q Viscosity) Text(s System) string { return viscosityDimension.text(float64(q), s) }

// KinematicViscosity is dynamic viscosity by density, in square metres per second.
type KinematicViscosity float64

var kinematicViscosityDimension = (&dimension{
	name: "a kinematic viscosity", example: `1 mm²/s, 1 cSt`, si: []rung{{unit: "mm²/s"}}, us: []rung{{unit: "cSt"}}, min: 0, max: 10,
	units: []unit{
		{name: "m²/s", figures: 4},
		{name: "mm²/s", scale: 1e-6, figures: 4},
		{name: "cSt", spellings: []string{"centistokes"}, scale: 1e-6, figures: 4},
		{name: "ft²/s", scale: foot * foot, figures: 4},
	},
}).index()

func (KinematicViscosity) dimension() *dimension { return kinematicViscosityDimension }

// Text prints the value with its unit for a reader of the system.
func (q KinematicViscosity) Text(s System) string {
	return kinematicViscosityDimension.text(float64(q), s)
}

// RadiatorArea is the rated surface of a cast-iron radiator, in square feet of equivalent direct radiation: a rating, not a measured area.
type RadiatorArea float64

var radiatorAreaDimension = (&dimension{
	name: "a radiator rating in EDR", example: `45 EDR, 45 sq ft EDR`, si: []rung{{unit: "sq ft EDR"}}, us: []rung{{unit: "sq ft EDR"}}, min: 0, max: 1e4,
	units: []unit{
		{name: "sq ft EDR", spellings: []string{"EDR", "ft² EDR", "sqft EDR"}, figures: 3},
	},
}).index()

func (RadiatorArea) dimension() *dimension { return radiatorAreaDimension }

// Text prints the value with its unit for a reader of the system.
func (q RadiatorArea) Text(s System) string { return radiatorAreaDimension.text(float64(q), s) }

// ElectricResistance is what a meter reads across a sensor, in ohms. A bare 0 is read,
// being nothing in every unit; megohms need their capital, since written small they
// would be milliohms.
type ElectricResistance float64

var electricResistanceDimension = (&dimension{
	name: "an electrical resistance", example: `12.3 kΩ, 10k ohm, 1078 Ω`, si: []rung{{unit: "Ω"}, {unit: "kΩ", from: 1000}, {unit: "MΩ", from: 1e6}}, us: []rung{{unit: "Ω"}, {unit: "kΩ", from: 1000}, {unit: "MΩ", from: 1e6}}, min: 0, max: 1e9, bareZero: true,
	units: []unit{
		{name: "Ω", spellings: []string{"ohm", "ohms", "R"}, figures: 4},
		{name: "kΩ", spellings: []string{"kohm", "kohms", "kiloohm", "k", "k ohm"}, scale: 1000, figures: 4},
		{name: "MΩ", spellings: []string{"Mohm", "Mohms", "megohm", "megohms", "megaohm", "M", "M ohm", "meg"}, scale: 1e6, figures: 4, capital: "MΩ"},
	},
}).index()

func (ElectricResistance) dimension() *dimension { return electricResistanceDimension }

// Text prints the value with its unit for a reader of the system.
func (q ElectricResistance) Text(s System) string {
	return electricResistanceDimension.text(float64(q), s)
}

// Celsius makes a temperature from degrees Celsius.
func Celsius(v float64) Temperature { return Temperature(v + celsiusOffset) }

// Fahrenheit makes a temperature from degrees Fahrenheit.
func Fahrenheit(v float64) Temperature {
	return Temperature((v + fahrenheitOffset) * fahrenheitScale)
}

// Celsius gives the temperature in degrees Celsius.
func (q Temperature) Celsius() float64 { return float64(q) - celsiusOffset }

// Fahrenheit gives the temperature in degrees Fahrenheit.
func (q Temperature) Fahrenheit() float64 { return float64(q)/fahrenheitScale - fahrenheitOffset }

// Add moves a temperature by a difference.
func (q Temperature) Add(d Difference) Temperature { return q + Temperature(d) }

// Sub gives the difference by which q lies above other.
func (q Temperature) Sub(other Temperature) Difference { return Difference(q - other) }

// Kelvins makes a difference from kelvins (the same as degrees Celsius).
func Kelvins(v float64) Difference { return Difference(v) }

// FahrenheitDifference makes a difference from degrees Fahrenheit.
func FahrenheitDifference(v float64) Difference { return Difference(v * fahrenheitScale) }

// Fahrenheit gives the difference in degrees Fahrenheit.
func (q Difference) Fahrenheit() float64 { return float64(q) / fahrenheitScale }

// BtuPerHour makes a power from Btu/h.
func BtuPerHour(v float64) Power { return Power(v * btu / hour) }

// BtuPerHour gives the power in Btu/h.
func (q Power) BtuPerHour() float64 { return float64(q) * hour / btu }

// Feet makes a length from feet.
func Feet(v float64) Length { return Length(v * foot) }

// Inches makes a length from inches.
func Inches(v float64) Length { return Length(v * inch) }

// SquareFeet makes an area from square feet.
func SquareFeet(v float64) Area { return Area(v * foot * foot) }

// SquareFeet gives the area in square feet.
func (q Area) SquareFeet() float64 { return float64(q) / (foot * foot) }

// GallonsPerMinute makes a flow from US gallons per minute.
func GallonsPerMinute(v float64) Flow { return Flow(v * usGallon / 60) }

// GallonsPerMinute gives the flow in US gallons per minute.
func (q Flow) GallonsPerMinute() float64 { return float64(q) * 60 / usGallon }

// LitresPerMinute makes a flow from litres per minute.
func LitresPerMinute(v float64) Flow { return Flow(v / 60000) }

// BtuPerHourFoot makes an output per length from Btu/h per foot.
func BtuPerHourFoot(v float64) LinearPower { return LinearPower(v * btu / hour / foot) }

// BtuPerHourFoot gives the output per length in Btu/h per foot.
func (q LinearPower) BtuPerHourFoot() float64 { return float64(q) * hour * foot / btu }

// RValue makes a thermal resistance from the US R-value, h·ft²·°F/Btu.
func RValue(v float64) Resistance { return Resistance(v * rValueUnit) }

// RValue gives the thermal resistance as the US R-value, h·ft²·°F/Btu.
func (q Resistance) RValue() float64 { return float64(q) / rValueUnit }

// PerHour makes an air change from changes per hour.
func PerHour(v float64) AirChange { return AirChange(v / hour) }

// PerHour gives the changes per hour.
func (q AirChange) PerHour() float64 { return float64(q) * hour }

// KilowattHours makes an energy from kilowatt hours.
func KilowattHours(v float64) Energy { return Energy(v * 1000 * hour) }

// Therms makes an energy from therms (100,000 Btu).
func Therms(v float64) Energy { return Energy(v * 1e5 * btu) }

// KelvinDays makes degree-days from kelvin days.
func KelvinDays(v float64) DegreeDays { return DegreeDays(v * day) }

// Hours makes a time from hours.
func Hours(v float64) Time { return Time(v * hour) }

// Minutes makes a time from minutes.
func Minutes(v float64) Time { return Time(v * 60) }

// Gallons makes a volume from US gallons.
func Gallons(v float64) Volume { return Volume(v * usGallon) }

// Gallons gives the volume in US gallons.
func (q Volume) Gallons() float64 { return float64(q) / usGallon }

// Litres makes a volume from litres.
func Litres(v float64) Volume { return Volume(v / 1000) }

// Litres gives the volume in litres.
func (q Volume) Litres() float64 { return float64(q) * 1000 }

// WaterText prints the volume as one of water, in litres or US gallons, where Text
// prints a space.
func (q Volume) WaterText(s System) string {
	return volumeDimension.in(float64(q), waterUnit(s))
}

func waterUnit(s System) string {
	if s.In(Waters) == US {
		return "gal"
	}
	return "L"
}

// WaterUnit is a gallon or a litre: the unit of WaterText.
func WaterUnit(s System) Volume { return Volume(volumeDimension.named(waterUnit(s)).scale) }

// HeatText prints an amount of heat of a day or less, in kilowatt hours or Btu,
// where Text prints a year's fuel.
func (q Energy) HeatText(s System) string {
	return energyDimension.in(float64(q), heatUnit(s))
}

// heatUnit is the smaller unit that goes with the one of a year's fuel.
func heatUnit(s System) string {
	switch {
	case s.In(Energies) == US:
		return "Btu"
	case s.Chosen(Energies) == "MJ", s.Chosen(Energies) == "GJ":
		return "MJ"
	}
	return "kWh"
}

// HeatUnit is the unit of HeatText.
func HeatUnit(s System) Energy { return Energy(energyDimension.named(heatUnit(s)).scale) }

// HeadText prints a pressure as pumps are told: in feet or metres of water where they
// are, of which pressures on a gauge are told otherwise.
func (q Pressure) HeadText(s System) string {
	return pressureDimension.in(float64(q), headUnit(s))
}

func headUnit(s System) string {
	switch unit := s.Chosen(Heads); {
	case unit == "kPa", unit == "mbar":
		return unit
	case s.In(Heads) == US:
		return "ft w.c."
	}
	return "m w.c."
}

// Ohms makes an electrical resistance from ohms.
func Ohms(v float64) ElectricResistance { return ElectricResistance(v) }

// Kiloohms makes an electrical resistance from kiloohms.
func Kiloohms(v float64) ElectricResistance { return ElectricResistance(v * 1000) }
