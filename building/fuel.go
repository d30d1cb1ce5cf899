package building

// How much heat is in a year's fuel?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Fuel is a fuel in the unit in which it is billed.
type Fuel struct {
	Key    string       // short and stable: "gas-therm"
	Name   string       // "natural gas"
	Unit   string       // "therm"
	Gross  units.Energy // gross (higher) heat content of one unit
	Source string
}

const (
	btu      = 1055.05585262 // J, International Table
	usGallon = 3.785411784   // L
)

// Fuels lists the fuels with their gross heat content. Gas differs by supplier: a
// bill in therms or kWh already holds the supplier's own figure.
//
// Units: energy for one unit of the fuel.
// Range: fuels for houses in North America and Europe.
// Source: each fuel's own Source.
func Fuels() []Fuel {
	const (
		propane = 91452 * btu
		oil     = 138500 * btu
		memory  = "typical of energy statistics, from memory; the bill's own figure is better"
	)
	return []Fuel{
		{"gas-therm", "natural gas", "therm", units.Therms(1), "definition: 100,000 Btu"},
		{"gas-100ft3", "natural gas", "100 ft³", units.Energy(103700 * btu), "1,037 Btu/ft³: " + memory},
		{"gas-ft3", "natural gas", "ft³", units.Energy(1037 * btu), "1,037 Btu/ft³: " + memory},
		{"gas-m3", "natural gas", "m³", units.Energy(38.6e6), "38.6 MJ/m³: " + memory},
		{"gas-kwh", "natural gas", "kWh", units.KilowattHours(1), "definition; the bill counts gross heat"},
		{"propane-gal", "propane", "gal", units.Energy(propane), "91,452 Btu/gal: " + memory},
		{"propane-L", "propane", "L", units.Energy(propane / usGallon), "91,452 Btu/gal: " + memory},
		{"oil-gal", "heating oil", "gal", units.Energy(oil), "138,500 Btu/gal: " + memory},
		{"oil-L", "heating oil", "L", units.Energy(oil / usGallon), "138,500 Btu/gal: " + memory},
	}
}

// FuelByKey finds a fuel of the list.
//
// Units: none but the fuel's own.
// Range: the keys of Fuels.
// Source: each fuel's own Source.
// Errors: a key that is not in the list, with those that are.
func FuelByKey(key string) (Fuel, error) {
	accept := ""
	for _, f := range Fuels() {
		if f.Key == key {
			return f, nil
		}
		accept += ", " + f.Key
	}
	return Fuel{}, &refuse.Error{What: "fuel", Given: fmt.Sprintf("%q", key), Accept: accept[2:]}
}

// Energy gives the gross heat of an amount of fuel.
//
//	Q = amount · gross heat content
//
// Units: amount in the fuel's own unit; the result is an energy.
// Range: amount 0 to 10 million, heat not above 1,000,000 kWh a year.
// Source: the fuel's own Source.
// Errors: an amount outside the range.
func (f Fuel) Energy(amount units.Number) (units.Energy, error) {
	if err := refuse.Within(fmt.Sprintf("amount of %s in %s", f.Name, f.Unit), amount, 0, 1e7); err != nil {
		return 0, err
	}
	q := units.Energy(amount) * f.Gross
	return q, refuse.Within("heat in the "+f.Name, q, 0, mostFuel)
}

var mostFuel = units.KilowattHours(1e6)

// HotWaterFuel gives the fuel that a household's hot water takes in a year when
// nothing better is known.
//
//	Q = 2.5 kWh · people · 365 / η
//
// Units: people as a number, efficiency of making hot water with its standing
// losses as a share; the result is a year's gross energy.
// Range: 0 to 20 people; efficiency 0.2 to 1.1. Households differ by a factor of
// two either way.
// Source: 2.5 kWh a person and day, about 15 gal raised by 70 °F (57 L by 39 K):
// common practice.
// Errors: a figure outside the range.
func HotWaterFuel(people units.Number, efficiency units.Fraction) (units.Energy, error) {
	err := cmp.Or(
		refuse.Within("people in the house", people, 0, 20),
		refuse.Within("efficiency of making hot water", efficiency, 0.2, 1.1),
	)
	if err != nil {
		return 0, err
	}
	return units.KilowattHours(2.5 * 365 * float64(people) / float64(efficiency)), nil
}
