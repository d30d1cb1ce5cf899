package boiler

// What is the fuel made of, how much heat is in it, and how much air does it need?

import (
	"cmp"
	"fmt"
	"strings"

	"curvewright/refuse"
	"curvewright/units"
)

// Component is a gas that fuel gases are mixed from.
type Component string

// The components.
const (
	Methane       Component = "CH4"
	Ethane        Component = "C2H6"
	Propane       Component = "C3H8"
	Butane        Component = "C4H10"
	Hydrogen      Component = "H2"
	Nitrogen      Component = "N2"
	CarbonDioxide Component = "CO2"
)

// Part is a component with its share of the volume.
type Part struct {
	Component Component
	Share     units.Fraction
}

// element counts for one molecule, and its gross heat of combustion at 25 °C, J/mol:
// ISO 6976:1995 table 3, from memory.
type molecule struct {
	carbon, hydrogen, oxygen, nitrogen float64
	gross                              float64
}

func (c Component) molecule() (molecule, bool) {
	switch c {
	case Methane:
		return molecule{carbon: 1, hydrogen: 4, gross: 890.63e3}, true
	case Ethane:
		return molecule{carbon: 2, hydrogen: 6, gross: 1560.69e3}, true
	case Propane:
		return molecule{carbon: 3, hydrogen: 8, gross: 2219.17e3}, true
	case Butane:
		return molecule{carbon: 4, hydrogen: 10, gross: 2877.40e3}, true
	case Hydrogen:
		return molecule{hydrogen: 2, gross: 285.83e3}, true
	case Nitrogen:
		return molecule{nitrogen: 2}, true
	case CarbonDioxide:
		return molecule{carbon: 1, oxygen: 2}, true
	}
	return molecule{}, false
}

// Molar masses, kg/mol: IUPAC, abridged.
const (
	massCarbon   = 12.011e-3
	massHydrogen = 1.008e-3
	massOxygen   = 15.999e-3
	massNitrogen = 14.007e-3
	massSulphur  = 32.06e-3
	massWater    = 2*massHydrogen + massOxygen
)

const (
	gasConstant  = 8.314462618 // J/(mol·K)
	latentMolar  = 44.016e3    // heat of vaporisation of water at 25 °C, J/mol, ISO 6976
	referenceAt  = 298.15      // K: heats of combustion and enthalpies count from here
	oxygenInAir  = 0.2095      // dry air, by volume; argon and the rest count as nitrogen
	oxygenOfCode = 0.209       // oxygen of air as instruments and codes round it
	molarNormal  = gasConstant * 273.15 / 101325
)

// Fuel is what a boiler burns. Make one with [GasOf], [OilOf] or [FuelByKey]; the zero
// value burns not.
type Fuel struct {
	Key     string  // short and stable: "natural-gas"
	Name    string  // "natural gas, North America, typical"
	Source  string  // of the composition
	Siegert Siegert // published coefficients of its stack loss; zero if there are none

	// Moles of atoms and gross heat in one unit of fuel: a mole of gas or a kilogram of oil.
	carbon, hydrogen, oxygen, nitrogen, sulphur float64
	gross                                       float64
	density                                     float64 // of a liquid, kg/m³; 0 for a gas
}

// GasOf makes a fuel gas from its composition.
//
//	atoms and heat of a mole = Σ share · atoms and heat of the component
//
// Units: shares of the volume (equal to moles: gases are taken as ideal, which costs
// 0.2 % with natural gas and 2 % with propane in volumes, nothing in shares).
// Range: the components listed, shares that add up to 1 within 0.5 % (they are scaled
// to 1), at least half of it combustible.
// Source: heats of combustion at 25 °C of ISO 6976:1995, from memory.
// Errors: an unknown component, a share outside 0 to 1, a wrong sum, too little to
// burn.
func GasOf(name string, parts ...Part) (Fuel, error) {
	f := Fuel{Key: "own-gas", Name: name, Source: "composition given"}
	sum, burns := 0.0, 0.0
	for _, p := range parts {
		m, known := p.Component.molecule()
		if !known {
			return Fuel{}, fmt.Errorf("composition of %s: the component %q is not known; accepted: CH4, C2H6, C3H8, C4H10, H2, N2, CO2", name, string(p.Component))
		}
		if err := refuse.Within(fmt.Sprintf("composition of %s: share of %s", name, p.Component), p.Share, 0, 1); err != nil {
			return Fuel{}, err
		}
		x := float64(p.Share)
		sum += x
		if m.gross > 0 {
			burns += x
		}
		f.carbon += x * m.carbon
		f.hydrogen += x * m.hydrogen
		f.oxygen += x * m.oxygen
		f.nitrogen += x * m.nitrogen
		f.gross += x * m.gross
	}
	if !(sum >= 0.995 && sum <= 1.005) {
		return Fuel{}, fmt.Errorf("composition of %s: the shares add up to %s; they must add up to 100%%", name, refuse.Both(units.Fraction(sum)))
	}
	if burns < 0.5*sum {
		return Fuel{}, fmt.Errorf("composition of %s: only %s of it burns; at least 50%% must", name, refuse.Both(units.Fraction(burns/sum)))
	}
	for _, v := range []*float64{&f.carbon, &f.hydrogen, &f.oxygen, &f.nitrogen, &f.gross} {
		*v /= sum
	}
	return f, nil
}

// OilOf makes a liquid fuel from its composition by mass. What carbon, hydrogen and
// sulphur leave of the mass is taken as nitrogen.
//
//	moles of atoms in a kilogram = share / molar mass
//
// Units: shares of the mass; gross heating value in J/kg; density in kg/m³.
// Range: carbon 80 to 90 %, hydrogen 8 to 16 %, sulphur 0 to 2 %, together 97 to 100 %;
// gross heating value 40 to 50 MJ/kg; density 700 to 1000 kg/m³.
// Source: element balance.
// Errors: a figure outside the range.
func OilOf(name string, carbon, hydrogen, sulphur units.Fraction, gross units.SpecificEnergy, density units.Density) (Fuel, error) {
	rest := 1 - carbon - hydrogen - sulphur
	err := cmp.Or(
		refuse.Within(name+": share of carbon", carbon, 0.80, 0.90),
		refuse.Within(name+": share of hydrogen", hydrogen, 0.08, 0.16),
		refuse.Within(name+": share of sulphur", sulphur, 0, 0.02),
		refuse.Within(name+": share of carbon, hydrogen and sulphur together", 1-rest, 0.97, 1+1e-9),
		refuse.Within(name+": gross heating value", gross, 40e6, 50e6),
		refuse.Within(name+": density", density, 700, 1000),
	)
	if err != nil {
		return Fuel{}, err
	}
	return Fuel{
		Key: "own-oil", Name: name, Source: "composition given",
		carbon: float64(carbon) / massCarbon, hydrogen: float64(hydrogen) / massHydrogen,
		sulphur: float64(sulphur) / massSulphur, nitrogen: max(0, float64(rest)) / massNitrogen,
		gross: float64(gross), density: float64(density),
	}, nil
}

// Fuels lists the fuels whose composition is known well enough to be chosen by name.
// A supplier's own analysis, entered with [GasOf], is better.
//
// Units: none.
// Range: fuels for houses in North America and Europe.
// Source: each fuel's own Source; Siegert coefficients of the German small-firing
// ordinance, 1. BImSchV, annex 2, from memory.
func Fuels() []Fuel {
	const typical = "typical composition, from memory; the supplier's analysis is better"
	gas := func(key, name, source string, s Siegert, parts ...Part) Fuel {
		f, _ := GasOf(name, parts...) // the compositions below are covered by a test
		f.Key, f.Source, f.Siegert = key, source, s
		return f
	}
	oil, _ := OilOf("light heating oil", 0.865, 0.133, 0.001, 45.6e6, 845)
	oil.Key, oil.Source, oil.Siegert = "oil", typical, siegertOil
	return []Fuel{
		gas("natural-gas", "natural gas, North America", typical, siegertGas,
			Part{Methane, 0.943}, Part{Ethane, 0.036}, Part{Propane, 0.004}, Part{Butane, 0.002}, Part{Nitrogen, 0.010}, Part{CarbonDioxide, 0.005}),
		gas("natural-gas-h", "natural gas H, Europe", typical, siegertGas,
			Part{Methane, 0.905}, Part{Ethane, 0.050}, Part{Propane, 0.012}, Part{Butane, 0.004}, Part{Nitrogen, 0.015}, Part{CarbonDioxide, 0.014}),
		gas("natural-gas-l", "natural gas L, Europe", typical, siegertGas,
			Part{Methane, 0.835}, Part{Ethane, 0.036}, Part{Propane, 0.007}, Part{Butane, 0.003}, Part{Nitrogen, 0.105}, Part{CarbonDioxide, 0.014}),
		gas("methane", "pure methane", "by definition", siegertGas, Part{Methane, 1}),
		gas("propane", "propane", "taken as pure propane", siegertLiquefied, Part{Propane, 1}),
		oil,
	}
}

// FuelByKey finds a fuel of the list.
//
// Units: none.
// Range: the keys of [Fuels].
// Source: each fuel's own Source.
// Errors: a key that is not in the list, with those that are.
func FuelByKey(key string) (Fuel, error) {
	var keys []string
	for _, f := range Fuels() {
		if f.Key == key {
			return f, nil
		}
		keys = append(keys, f.Key)
	}
	return Fuel{}, fmt.Errorf("fuel: %q given; accepted: %s", key, strings.Join(keys, ", "))
}

// Liquid tells whether the fuel is an oil.
//
// Range: any fuel.
// Source: the fuel's own density.
func (f Fuel) Liquid() bool { return f.density > 0 }

func (f Fuel) check() error {
	if !(f.gross > 0) {
		return fmt.Errorf("fuel: none is chosen; choose one of the list or give a composition")
	}
	return nil
}

// water, oxygen demand, dry stoichiometric gas: moles for one unit of fuel.
func (f Fuel) waterMade() float64 { return f.hydrogen / 2 }
func (f Fuel) oxygenNeed() float64 {
	return f.carbon + f.hydrogen/4 + f.sulphur - f.oxygen/2
}
func (f Fuel) airNeed() float64 { return f.oxygenNeed() / oxygenInAir }
func (f Fuel) dryGas() float64 {
	return f.carbon + f.sulphur + f.nitrogen/2 + f.airNeed()*(1-oxygenInAir)
}
func (f Fuel) net() float64 { return f.gross - latentMolar*f.waterMade() }
func (f Fuel) mass() float64 {
	return f.carbon*massCarbon + f.hydrogen*massHydrogen + f.oxygen*massOxygen + f.nitrogen*massNitrogen + f.sulphur*massSulphur
}

// GrossToNet gives the ratio of gross to net heat: 100 % on the gross basis is so much
// on the net basis.
//
//	Hg/Hn, Hn = Hg − 44.016 kJ/mol · moles of water made
//
// Units: a ratio without unit.
// Range: any fuel made here; methane 1.110, propane 1.086, light oil about 1.07. 0 for
// no fuel.
// Source: definition; heat of vaporisation at 25 °C of ISO 6976, from memory.
func (f Fuel) GrossToNet() units.Number {
	if f.check() != nil {
		return 0
	}
	return units.Number(f.gross / f.net())
}

// CO2Max gives the carbon dioxide in dry flue gas when not a molecule of air is too
// much, the highest reading that there can be. Sulphur dioxide is not counted.
//
//	CO2max = C / (C + S + N/2 + 0.7905·air)
//
// Units: a share of dry gas by volume.
// Range: any fuel made here. 0 for no fuel.
// Source: element balance, dry air with 20.95 % oxygen.
func (f Fuel) CO2Max() units.Fraction {
	if f.check() != nil {
		return 0
	}
	return units.Fraction(f.carbon / f.dryGas())
}

// AirDemand gives the dry air that burns a fuel with nothing left over.
//
//	air = (C + H/4 + S − O/2) / 0.2095
//
// Units: volumes of air for a volume of gas; for oil m³ of air at 0 °C and 1.01325 bar
// for a kilogram.
// Range: any fuel made here. 0 for no fuel.
// Source: element balance, dry air with 20.95 % oxygen.
func (f Fuel) AirDemand() units.Number {
	if f.check() != nil {
		return 0
	}
	if f.Liquid() {
		return units.Number(f.airNeed() * molarNormal)
	}
	return units.Number(f.airNeed())
}

// Base is the pressure and temperature at which a volume of gas is counted.
type Base struct {
	Pressure    units.Pressure // absolute
	Temperature units.Temperature
}

// The usual bases, from memory of the gas trade's conventions.
var (
	BaseUS     = Base{Pressure: 14.73 * 6894.757293168, Temperature: units.Fahrenheit(60)} // 14.73 psi, 60 °F
	BaseMetric = Base{Pressure: 101325, Temperature: units.Celsius(15)}
	BaseNormal = Base{Pressure: 101325, Temperature: units.Celsius(0)}
)

func (b Base) check() error {
	return cmp.Or(
		refuse.Within("pressure at which the gas volume counts (absolute)", b.Pressure, 5e4, 2e5),
		refuse.Within("temperature at which the gas volume counts", b.Temperature, units.Celsius(-40), units.Celsius(60)),
	)
}

// HeatingValue gives gross and net heat in a volume of the fuel: of a gas at the base,
// of an oil as a liquid, whatever the base.
//
//	gas: H / (R·T/p); oil: H · density
//
// Units: J/m³.
// Range: base 0.5 to 2 bar absolute, −40 to 60 °C; ideal gas, see [GasOf].
// Source: ideal gas law; heats of combustion as [GasOf].
// Errors: no fuel, a base outside the range.
func (f Fuel) HeatingValue(at Base) (gross, net units.HeatingValue, err error) {
	if err := cmp.Or(f.check(), at.check()); err != nil {
		return 0, 0, err
	}
	perVolume := float64(at.Pressure) / (gasConstant * float64(at.Temperature))
	if f.Liquid() {
		perVolume = f.density
	}
	return units.HeatingValue(f.gross * perVolume), units.HeatingValue(f.net() * perVolume), nil
}

// HeatPerMass gives gross and net heat in a mass of the fuel.
//
//	H / mass of a unit of fuel
//
// Units: J/kg.
// Range: any fuel made here.
// Source: heats of combustion as [GasOf].
// Errors: no fuel.
func (f Fuel) HeatPerMass() (gross, net units.SpecificEnergy, err error) {
	if err := f.check(); err != nil {
		return 0, 0, err
	}
	return units.SpecificEnergy(f.gross / f.mass()), units.SpecificEnergy(f.net() / f.mass()), nil
}
