package boiler

// What does the analyser's slip say, as arithmetic? It never says that a burner is
// safe: the cautions come with every answer.

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Carbon monoxide in flue gas, without its excess air.
const (
	AirFreeCeiling  = units.Concentration(100e-6) // service practice unless the maker says otherwise
	AirFreeStandard = units.Concentration(400e-6) // appliance standards, from memory
)

// AirFree gives the carbon monoxide that there would be without excess air, so that
// readings can be compared.
//
//	CO·20.9/(20.9 − O2), O2 in percent
//
// Units: carbon monoxide as a concentration, oxygen as a share, both of the dry gas.
// Range: carbon monoxide 0 to 10 %, oxygen 0 to 18 %: nearer to plain air the figure
// blows up any error.
// Source: form of the US appliance standards, from memory.
// Errors: a reading outside the range.
func AirFree(monoxide units.Concentration, oxygen units.Fraction) (units.Concentration, error) {
	err := cmp.Or(
		refuse.Within("carbon monoxide in the flue gas", monoxide, 0, 0.1),
		refuse.Within("oxygen in the flue gas", oxygen, 0, 0.18),
	)
	if err != nil {
		return 0, err
	}
	return monoxide * units.Concentration(oxygenOfCode/(oxygenOfCode-float64(oxygen))), nil
}

// Reading is an analyser's slip at steady fire. What was not measured is left out.
type Reading struct {
	Oxygen   units.Fraction
	CO2      units.Fraction // 0 if not measured, or worked out by the analyser from the oxygen
	Monoxide units.Concentration
	Exit     units.Temperature // flue gas
	Air      Air
}

// Combustion is what a reading comes to.
type Combustion struct {
	Gas       FlueGas
	Balance   Balance
	AirFree   units.Concentration
	Remarks   []string // what should be looked into
	Cautions  []string
	ExcessCO2 units.Fraction // by the carbon dioxide; 0 if not measured
}

// disagreement is how far oxygen and carbon dioxide may be apart, as a share of dry gas,
// before they cannot both be right (common practice: two analyser cells and the fuel's
// composition).
const disagreement = 0.007

// Read works a reading out.
//
//	excess by [Fuel.ExcessFromOxygen], heat by [FlueGas.Leaving], CO by [AirFree]
//
// Units: as the fields.
// Range: oxygen 0 to about 17 %; the rest as the functions named.
// Source: as the functions named; 100 ppm air-free is a service figure of trade
// journals (2015), 400 ppm that of appliance standards, from memory.
// Errors: no fuel, a reading outside the range.
func (f Fuel) Read(r Reading) (Combustion, error) {
	excess, err := f.ExcessFromOxygen(r.Oxygen)
	if err != nil {
		return Combustion{}, err
	}
	c := Combustion{Cautions: []string{CautionCombustion, CautionCarbonMonoxide, CautionGas}}
	if c.Gas, err = f.Burn(excess, r.Air); err != nil {
		return Combustion{}, err
	}
	if c.Balance, err = c.Gas.Leaving(r.Exit); err != nil {
		return Combustion{}, err
	}
	if c.AirFree, err = AirFree(r.Monoxide, r.Oxygen); err != nil {
		return Combustion{}, err
	}
	if r.CO2 != 0 {
		if c.ExcessCO2, err = f.ExcessFromCO2(r.CO2); err != nil {
			return Combustion{}, err
		}
		if math.Abs(float64(r.CO2-c.Gas.CO2Dry)) > disagreement {
			c.Remarks = append(c.Remarks, fmt.Sprintf("oxygen of %s and carbon dioxide of %s do not belong together for %s (%s would): check which fuel the analyser is set to, its hose and its last calibration",
				refuse.Both(r.Oxygen), refuse.Both(r.CO2), f.Name, refuse.Both(c.Gas.CO2Dry)))
		}
	}
	switch {
	case c.AirFree > AirFreeStandard:
		c.Remarks = append(c.Remarks, "carbon monoxide of "+refuse.Both(c.AirFree)+" air-free is above what appliance standards allow ("+refuse.Both(AirFreeStandard)+"): shut the burner off until a licensed person has found the cause")
	case c.AirFree > AirFreeCeiling:
		c.Remarks = append(c.Remarks, "carbon monoxide of "+refuse.Both(c.AirFree)+" air-free is above "+refuse.Both(AirFreeCeiling)+", the ceiling of service practice: a licensed person must find the cause unless the maker allows more")
	}
	return c, nil
}
