package units

// The quantities of the boiler room: what a fuel holds, what runs off as condensate,
// how often a burner starts, how much of a trace gas is in the flue.

// HeatingValue is the heat in a volume of fuel, in joules per cubic metre. Of a gas it
// means something only with the pressure and temperature at which the volume counts.
type HeatingValue float64

var heatingValueDimension = (&dimension{
	kind: HeatingValues, chosen: [][]rung{{{unit: "Btu/ft³"}, {unit: "Btu/gal", from: 1e9}}, {{unit: "MJ/m³"}, {unit: "MJ/L", from: 1e9}}, {{unit: "kWh/m³"}, {unit: "kWh/L", from: 1e9}}},
	name: "a heating value per volume", example: `1,037 Btu/ft³, 38.6 MJ/m³, 10.7 kWh/m³`,
	si: []rung{{unit: "MJ/m³"}, {unit: "MJ/L", from: 1e9}}, us: []rung{{unit: "Btu/ft³"}, {unit: "Btu/gal", from: 1e9}}, min: 0, max: 1e12,
	units: []unit{
		{name: "J/m³", figures: 4},
		{name: "MJ/m³", scale: 1e6, figures: 4},
		{name: "kWh/m³", scale: 1000 * hour, figures: 4},
		{name: "MJ/L", scale: 1e9, figures: 4},
		{name: "kWh/L", scale: 1e6 * hour, figures: 4},
		{name: "Btu/ft³", spellings: []string{"Btu/cu ft", "Btu/cf", "Btu per cubic foot"}, scale: btu / (foot * foot * foot), figures: 4},
		{name: "Btu/gal", spellings: []string{"Btu/US gal"}, scale: btu / usGallon, figures: 4},
	},
}).index()

func (HeatingValue) dimension() *dimension { return heatingValueDimension }

// Text prints the value with its unit for a reader of the system.
func (q HeatingValue) Text(s System) string { return heatingValueDimension.text(float64(q), s) }

// SpecificEnergy is the heat in a mass of fuel, in joules per kilogram.
type SpecificEnergy float64

var specificEnergyDimension = (&dimension{
	name: "a heating value per mass", example: `45.6 MJ/kg, 12.7 kWh/kg, 19,600 Btu/lb`, si: []rung{{unit: "MJ/kg"}}, us: []rung{{unit: "Btu/lb"}}, min: 0, max: 1e9,
	units: []unit{
		{name: "J/kg", figures: 4},
		{name: "kJ/kg", scale: 1e3, figures: 4},
		{name: "MJ/kg", scale: 1e6, figures: 4},
		{name: "kWh/kg", scale: 1000 * hour, figures: 4},
		{name: "Btu/lb", spellings: []string{"Btu/lbm"}, scale: btu / pound, figures: 4},
	},
}).index()

func (SpecificEnergy) dimension() *dimension { return specificEnergyDimension }

// Text prints the value with its unit for a reader of the system.
func (q SpecificEnergy) Text(s System) string { return specificEnergyDimension.text(float64(q), s) }

// MassFlow is a mass in a time, in kilograms per second.
type MassFlow float64

var massFlowDimension = (&dimension{
	name: "a mass flow", example: `1.2 kg/h, 0.3 kg/s, 2.6 lb/h`, si: []rung{{unit: "kg/h"}}, us: []rung{{unit: "lb/h"}}, min: 0, max: 1e5,
	units: []unit{
		{name: "kg/s", figures: 3},
		{name: "kg/h", spellings: []string{"kg/hr"}, scale: 1 / hour, figures: 3},
		{name: "lb/h", spellings: []string{"lb/hr", "lbm/h", "lbm/hr"}, scale: pound / hour, figures: 3},
	},
}).index()

func (MassFlow) dimension() *dimension { return massFlowDimension }

// Text prints the value with its unit for a reader of the system.
func (q MassFlow) Text(s System) string { return massFlowDimension.text(float64(q), s) }

// Frequency is how often something happens, per second: the starts of a burner.
type Frequency float64

var frequencyDimension = (&dimension{
	name: "a number of times in a time", example: `3 /h, 50 /d`, si: []rung{{unit: "/h"}}, us: []rung{{unit: "/h"}}, min: 0, max: 1e3,
	units: []unit{
		{name: "/h", spellings: []string{"1/h", "per hour", "h-1", "h⁻¹", "/hr", "1/hr", "starts/h", "starts per hour"}, scale: 1 / hour, figures: 3},
		{name: "/d", spellings: []string{"1/d", "per day", "/day", "starts per day"}, scale: 1 / day, figures: 3},
		{name: "/s", spellings: []string{"1/s", "s-1", "per second"}, figures: 3},
	},
}).index()

func (Frequency) dimension() *dimension { return frequencyDimension }

// Text prints the value with its unit for a reader of the system.
func (q Frequency) Text(s System) string { return frequencyDimension.text(float64(q), s) }

// Concentration is the share of a trace gas in a gas, by volume. It is not a Fraction,
// so that 50 ppm is never read as 50 %, and needs its unit.
type Concentration float64

var concentrationDimension = (&dimension{
	name: "a concentration of a gas", example: `50 ppm, 0.005 %`, si: []rung{{unit: "ppm"}}, us: []rung{{unit: "ppm"}}, min: 0, max: 1,
	units: []unit{
		{name: "ppm", spellings: []string{"parts per million"}, scale: 1e-6, figures: 3},
		{name: "%", spellings: []string{"percent", "pct"}, scale: 0.01, figures: 3},
		{name: "mol/mol", spellings: []string{"m³/m³"}, figures: 3},
	},
}).index()

func (Concentration) dimension() *dimension { return concentrationDimension }

// Text prints the value with its unit for a reader of the system.
func (q Concentration) Text(s System) string { return concentrationDimension.text(float64(q), s) }

// BtuPerCubicFoot makes a heating value from Btu per cubic foot.
func BtuPerCubicFoot(v float64) HeatingValue { return HeatingValue(v * btu / (foot * foot * foot)) }

// BtuPerCubicFoot gives the heating value in Btu per cubic foot.
func (q HeatingValue) BtuPerCubicFoot() float64 { return float64(q) * foot * foot * foot / btu }

// CubicFeet makes a volume from cubic feet.
func CubicFeet(v float64) Volume { return Volume(v * foot * foot * foot) }

// StartsPerHour makes a frequency from a number of times an hour.
func StartsPerHour(v float64) Frequency { return Frequency(v / hour) }

// PerHour gives how many times an hour.
func (q Frequency) PerHour() float64 { return float64(q) * hour }

// PartsPerMillion makes a concentration from parts per million by volume.
func PartsPerMillion(v float64) Concentration { return Concentration(v * 1e-6) }

// PartsPerMillion gives the concentration in parts per million by volume.
func (q Concentration) PartsPerMillion() float64 { return float64(q) * 1e6 }
