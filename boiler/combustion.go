package boiler

// What leaves the burner: how much gas, of what, and at which temperature does its
// water begin to condense?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// Air is what the burner breathes.
type Air struct {
	Temperature units.Temperature
	Humidity    units.Fraction // relative
	Altitude    units.Length   // above sea level
}

// CellarAir is air of 20 °C and half its moisture at sea level, for when nothing is
// known (common practice).
//
// Range: no arguments.
// Source: common practice.
func CellarAir() Air { return Air{Temperature: units.Celsius(20), Humidity: 0.5} }

func (a Air) check() error {
	return cmp.Or(
		refuse.Within("temperature of the combustion air", a.Temperature, coldestAir, warmestAir),
		refuse.Within("relative humidity of the combustion air", a.Humidity, 0, 1),
		refuse.Within("altitude", a.Altitude, lowestSite, highestSite),
	)
}

// moisture gives the moles of vapour that come with a mole of dry air. Below freezing
// the vapour pressure at 0 °C stands in, held down by the ratio over ice; what is left
// is below 0.6 % of the air either way.
func (a Air) moisture(pressure units.Pressure) (float64, error) {
	const freezing = 273.15
	T := float64(a.Temperature)
	saturated, err := fluid.SaturationPressure(units.Temperature(max(T, freezing)))
	if err != nil {
		return 0, err
	}
	if T < freezing {
		saturated *= units.Pressure(math.Exp(6132 * (1/freezing - 1/T))) // sublimation heat 51.0 kJ/mol over the gas constant
	}
	part := float64(a.Humidity) * float64(saturated)
	return part / (float64(pressure) - part), nil
}

// FlueGas is what one unit of fuel becomes with so much excess air. [Fuel.Burn] makes
// it.
type FlueGas struct {
	Fuel   Fuel
	Excess units.Fraction // air beyond what the fuel needs
	Air    Air

	CO2Dry   units.Fraction // shares by volume of the gas without its water, as an analyser reads
	O2Dry    units.Fraction
	WaterWet units.Fraction // share by volume of the whole gas
	DewPoint units.Temperature

	// Volumes of air and flue gas for a volume of gas; for oil m³ at 0 °C and 1.01325 bar
	// for a kilogram. The air is dry.
	AirDemand, Dry, Wet units.Number

	// Moles for a unit of fuel: of the dry gas, of the water made and brought by the air.
	co2, so2, o2, n2, water, moisture float64
	pressure                          units.Pressure
}

// check refuses flue gas that was not made by burning.
func (g FlueGas) check() error {
	if g.pressure == 0 {
		return fmt.Errorf("flue gas: no fuel has been burnt; burn one first")
	}
	return nil
}

// dry gives the moles of gas without water for a unit of fuel.
func (g FlueGas) dry() float64 { return g.co2 + g.so2 + g.o2 + g.n2 }

// Burn burns a fuel completely with so much excess air.
//
//	air = (1 + e)·air demand; CO2 = C; SO2 = S; H2O = H/2 + moisture of the air;
//	O2 = 0.2095·e·air demand; N2 = N/2 + 0.7905·air
//	dew point: where the pressure of saturation is (share of water)·(air pressure)
//
// Units: excess as a share of the air demand (20 % is 0.2).
// Range: excess 0 to 400 %; air −70 to 60 °C, 0 to 100 % humid, −500 to 5000 m.
// Source: element balance; dry air with 20.95 % oxygen; IAPWS R7-97(2012) region 4.
// Errors: no fuel, air or excess outside the range. Too little air is refused: then
// there is carbon monoxide, and no balance tells how much.
func (f Fuel) Burn(excess units.Fraction, air Air) (FlueGas, error) {
	if excess < 0 {
		return FlueGas{}, fmt.Errorf("excess air: %s given; with less than 0%% the fuel does not burn out and makes carbon monoxide; accepted: 0%% to 400%%", refuse.Both(excess))
	}
	if err := cmp.Or(f.check(), refuse.Within("excess air", excess, 0, mostExcess), air.check()); err != nil {
		return FlueGas{}, err
	}
	pressure, err := AirPressure(air.Altitude)
	if err != nil {
		return FlueGas{}, err
	}
	moist, err := air.moisture(pressure)
	if err != nil {
		return FlueGas{}, err
	}
	e, need := float64(excess), f.airNeed()
	g := FlueGas{
		Fuel: f, Excess: excess, Air: air, pressure: pressure,
		co2: f.carbon, so2: f.sulphur, o2: oxygenInAir * e * need,
		n2:    f.nitrogen/2 + (1-oxygenInAir)*(1+e)*need,
		water: f.waterMade(), moisture: moist * (1 + e) * need,
	}
	dry, steam := g.dry(), g.water+g.moisture
	g.CO2Dry, g.O2Dry = units.Fraction(g.co2/dry), units.Fraction(g.o2/dry)
	g.WaterWet = units.Fraction(steam / (dry + steam))
	g.DewPoint, err = fluid.SaturationTemperature(units.Pressure(g.WaterWet) * pressure)
	if err != nil {
		return FlueGas{}, fmt.Errorf("dew point of the flue gas: %w", err)
	}
	scale := 1.0
	if f.Liquid() {
		scale = molarNormal
	}
	g.AirDemand = units.Number(scale * (1 + e) * need)
	g.Dry, g.Wet = units.Number(scale*dry), units.Number(scale*(dry+steam))
	return g, nil
}

// ExcessFromOxygen gives the excess air from the oxygen in dry flue gas.
//
//	e = O2/(0.2095 − O2) · (dry flue gas without excess)/(air demand)
//
// Units: oxygen as a share of the dry gas; the result a share of the air demand.
// Range: oxygen from 0 to what 400 % excess gives, about 17 %.
// Source: element balance, dry air with 20.95 % oxygen.
// Errors: no fuel, a reading outside the range.
func (f Fuel) ExcessFromOxygen(oxygen units.Fraction) (units.Fraction, error) {
	if err := cmp.Or(f.check(), refuse.Within("oxygen in the flue gas", oxygen, 0, 0.2)); err != nil {
		return 0, err
	}
	o := float64(oxygen)
	e := units.Fraction(o / (oxygenInAir - o) * f.dryGas() / f.airNeed())
	if e > mostExcess {
		return 0, fmt.Errorf("oxygen in the flue gas: %s is nearly plain air, more than 400%% excess; check the probe, its hose and the draught break", refuse.Both(oxygen))
	}
	return e, nil
}

// ExcessFromCO2 gives the excess air from the carbon dioxide in dry flue gas.
//
//	e = (CO2max/CO2 − 1) · (dry flue gas without excess)/(air demand)
//
// Units: carbon dioxide as a share of the dry gas; the result a share of the air demand.
// Range: carbon dioxide from what 400 % excess gives, about 2 %, to the fuel's CO2max.
// A reading just above CO2max (by 1 %, the doubt of a composition) counts as none.
// Source: element balance, dry air with 20.95 % oxygen.
// Errors: no fuel, a reading outside the range. Many analysers work their CO2 out from
// the oxygen and the fuel chosen: it is then no second witness.
func (f Fuel) ExcessFromCO2(reading units.Fraction) (units.Fraction, error) {
	if err := f.check(); err != nil {
		return 0, err
	}
	top := f.CO2Max()
	if top == 0 {
		return 0, fmt.Errorf("carbon dioxide in the flue gas: %s makes none; measure the oxygen", f.Name)
	}
	if err := refuse.Within("carbon dioxide in the flue gas", reading, 0.001, 0.25); err != nil {
		return 0, err
	}
	if reading > top*1.01 {
		return 0, fmt.Errorf("carbon dioxide in the flue gas: %s given, but %s cannot make more than %s; check which fuel the analyser is set to and whether the burner is short of air", refuse.Both(reading), f.Name, refuse.Both(top))
	}
	e := max(0, (top/reading-1)*units.Fraction(f.dryGas()/f.airNeed()))
	if e > mostExcess {
		return 0, fmt.Errorf("carbon dioxide in the flue gas: %s is nearly plain air, more than 400%% excess; check the probe, its hose and the draught break", refuse.Both(reading))
	}
	return e, nil
}
