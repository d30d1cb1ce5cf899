package units

// The quantities of water in pipes: what a valve lets through, how fast it runs, what
// a length of pipe costs in pressure, and what is dissolved in the water.

import "math"

// FlowCoefficient is what a valve lets through, as the kv of its data sheet: cubic
// metres per hour of water at a pressure difference of 1 bar. The US Cv, gallons per
// minute at 1 psi, is the same thing in other units.
type FlowCoefficient float64

// cvUnit is one Cv as a kv, 0.865.
var cvUnit = usGallon / 60 * hour / math.Sqrt(psi/1e5)

var flowCoefficientDimension = (&dimension{
	kind: Valves, chosen: [][]rung{{{unit: "Cv"}}, {{unit: "kv"}}},
	name: "a flow coefficient", example: `kv 2.5, Cv 2.9`, si: []rung{{unit: "kv"}}, us: []rung{{unit: "Cv"}}, min: 0, max: 1e5,
	units: []unit{
		{name: "kv\u00a0", spellings: []string{"kvs"}, figures: 3, prefix: true},
		{name: "Cv\u00a0", scale: cvUnit, figures: 3, prefix: true},
		{name: "m³/h/√bar", spellings: []string{"m³/h"}, figures: 3},
		{name: "gpm/√psi", spellings: []string{"gpm"}, scale: cvUnit, figures: 3},
	},
}).index()

func (FlowCoefficient) dimension() *dimension { return flowCoefficientDimension }

// Text prints the value with its unit for a reader of the system.
func (q FlowCoefficient) Text(s System) string { return flowCoefficientDimension.text(float64(q), s) }

// Velocity is how fast water runs, in metres per second.
type Velocity float64

var velocityDimension = (&dimension{
	kind: Velocities, chosen: [][]rung{{{unit: "ft/s"}}, {{unit: "m/s"}}},
	name: "a velocity", example: `2.5 ft/s, 0.8 m/s`, si: []rung{{unit: "m/s"}}, us: []rung{{unit: "ft/s"}}, min: 0, max: 1e3,
	units: []unit{
		{name: "m/s", figures: 3},
		{name: "ft/s", spellings: []string{"fps"}, scale: foot, figures: 3},
		{name: "ft/min", spellings: []string{"fpm"}, scale: foot / 60, figures: 3},
	},
}).index()

func (Velocity) dimension() *dimension { return velocityDimension }

// Text prints the value with its unit for a reader of the system.
func (q Velocity) Text(s System) string { return velocityDimension.text(float64(q), s) }

// PressureGradient is the pressure that a length of pipe takes, in pascals per metre.
type PressureGradient float64

var pressureGradientDimension = (&dimension{
	kind: PipeDrops, chosen: [][]rung{{{unit: "ft/100 ft"}}, {{unit: "Pa/m"}}, {{unit: "mbar/m"}}},
	name: "a pressure drop per length", example: `150 Pa/m, 1.5 ft/100 ft`, si: []rung{{unit: "Pa/m"}}, us: []rung{{unit: "ft/100 ft"}}, min: 0, max: 1e8,
	units: []unit{
		{name: "Pa/m", figures: 3},
		{name: "kPa/m", scale: 1e3, figures: 3},
		{name: "mbar/m", scale: 100, figures: 3},
		{name: "ft/100 ft", spellings: []string{"ft w.c./100 ft", "ft of water/100 ft"}, scale: waterFoot / (100 * foot), figures: 3},
		{name: "psi/100 ft", scale: psi / (100 * foot), figures: 3},
	},
}).index()

func (PressureGradient) dimension() *dimension { return pressureGradientDimension }

// Text prints the value with its unit for a reader of the system.
func (q PressureGradient) Text(s System) string { return pressureGradientDimension.text(float64(q), s) }

// Hardness is the sum of the alkaline earths dissolved in water, in moles per cubic
// metre. One mole per cubic metre counts as 100.09 mg/L of lime, 5.6 German or 10
// French degrees.
type Hardness float64

// limeMass is a mole of calcium carbonate in grams; a grain is 64.79891 mg.
const (
	limeMass = 100.09
	grainUS  = 64.79891e-3 / (usGallon * 1e3) // grams per litre in one grain per US gallon
)

var hardnessDimension = (&dimension{
	kind: Hardnesses, chosen: [][]rung{{{unit: "gpg"}}, {{unit: "mg/L"}}, {{unit: "mol/m³"}}, {{unit: "°dH"}}, {{unit: "°fH"}}},
	name: "a water hardness", example: `12 gpg, 200 mg/L, 11 °dH, 2 mol/m³`, si: []rung{{unit: "mol/m³"}}, us: []rung{{unit: "gpg"}}, min: 0, max: 1e3,
	units: []unit{
		{name: "mol/m³", spellings: []string{"mmol/L"}, figures: 3},
		{name: "°dH", spellings: []string{"dH", "dGH", "deg dH"}, scale: 1 / 5.6, figures: 3},
		{name: "°fH", spellings: []string{"fH", "deg fH"}, scale: 0.1, figures: 3},
		{name: "mg/L", spellings: []string{"ppm", "mg/L CaCO3", "g/m³"}, scale: 1 / limeMass, figures: 3},
		{name: "gpg", spellings: []string{"grains/gal", "gr/gal", "grains per gallon"}, scale: grainUS * 1e3 / limeMass, figures: 3},
	},
}).index()

func (Hardness) dimension() *dimension { return hardnessDimension }

// Text prints the value with its unit for a reader of the system.
func (q Hardness) Text(s System) string { return hardnessDimension.text(float64(q), s) }

// ElectricalConductivity says how much salt water holds, in siemens per metre.
type ElectricalConductivity float64

var electricalConductivityDimension = (&dimension{
	name: "an electrical conductivity", example: `100 µS/cm, 0.1 mS/cm`, si: []rung{{unit: "µS/cm"}}, us: []rung{{unit: "µS/cm"}}, min: 0, max: 100,
	units: []unit{
		{name: "S/m", figures: 3},
		{name: "mS/cm", scale: 0.1, figures: 3},
		{name: "µS/cm", scale: 1e-4, figures: 3},
		{name: "mS/m", scale: 1e-3, figures: 3},
	},
}).index()

func (ElectricalConductivity) dimension() *dimension { return electricalConductivityDimension }

// Text prints the value with its unit for a reader of the system.
func (q ElectricalConductivity) Text(s System) string {
	return electricalConductivityDimension.text(float64(q), s)
}

// Kv makes a flow coefficient from the kv of a data sheet, m³/h at 1 bar.
func Kv(v float64) FlowCoefficient { return FlowCoefficient(v) }

// Cv makes a flow coefficient from a Cv, gpm at 1 psi.
func Cv(v float64) FlowCoefficient { return FlowCoefficient(v * cvUnit) }

// Cv gives the flow coefficient in gpm at 1 psi.
func (q FlowCoefficient) Cv() float64 { return float64(q) / cvUnit }

// FeetPerSecond makes a velocity from feet per second.
func FeetPerSecond(v float64) Velocity { return Velocity(v * foot) }

// FeetPerSecond gives the velocity in feet per second.
func (q Velocity) FeetPerSecond() float64 { return float64(q) / foot }

// GermanDegrees makes a hardness from °dH.
func GermanDegrees(v float64) Hardness { return Hardness(v / 5.6) }

// GermanDegrees gives the hardness in °dH.
func (q Hardness) GermanDegrees() float64 { return float64(q) * 5.6 }

// MicrosiemensPerCentimetre makes a conductivity from µS/cm.
func MicrosiemensPerCentimetre(v float64) ElectricalConductivity {
	return ElectricalConductivity(v * 1e-4)
}

// Millimetres makes a length from millimetres.
func Millimetres(v float64) Length { return Length(v / 1000) }

// CubicMetresPerHour makes a flow from m³/h.
func CubicMetresPerHour(v float64) Flow { return Flow(v / hour) }

// CubicMetresPerHour gives the flow in m³/h.
func (q Flow) CubicMetresPerHour() float64 { return float64(q) * hour }

// PSI makes a pressure from pounds per square inch.
func PSI(v float64) Pressure { return Pressure(v * psi) }

// PSI gives the pressure in pounds per square inch.
func (q Pressure) PSI() float64 { return float64(q) / psi }

// Bar makes a pressure from bar.
func Bar(v float64) Pressure { return Pressure(v * 1e5) }

// Bar gives the pressure in bar.
func (q Pressure) Bar() float64 { return float64(q) / 1e5 }

// FeetOfWater makes a pressure from feet of water at 4 °C, the head of a US pump chart.
func FeetOfWater(v float64) Pressure { return Pressure(v * waterFoot) }

// FeetOfWater gives the pressure in feet of water at 4 °C.
func (q Pressure) FeetOfWater() float64 { return float64(q) / waterFoot }
