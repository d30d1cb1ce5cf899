package boiler

// What goes up the flue of a boiler that does not condense, as chimney sweeps and
// service people work it out from two temperatures and one gas.

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Siegert holds a fuel's coefficients: of carbon dioxide, of oxygen, the steady part,
// and the most carbon dioxide in percent.
type Siegert struct {
	A1, A2, B units.Number
	CO2Max    units.Number
}

// 1. BImSchV, annex 2, from memory.
var (
	siegertGas       = Siegert{A1: 0.37, A2: 0.66, B: 0.009, CO2Max: 11.9}
	siegertLiquefied = Siegert{A1: 0.42, A2: 0.63, B: 0.008, CO2Max: 13.9}
	siegertOil       = Siegert{A1: 0.50, A2: 0.68, B: 0.007, CO2Max: 15.4}
)

// The coolest flue gas that the formula is used for: above the dew point of every fuel
// listed. And the hottest that a boiler lets go.
const (
	coolestDry = units.Temperature(273.15 + 65)
	hottestGas = units.Temperature(273.15 + 450)
)

func (s Siegert) check(gas, air units.Temperature) error {
	if s.A1 <= 0 || s.A2 <= 0 {
		return fmt.Errorf("stack loss: the fuel has no published coefficients; use the heat balance of the flue gas")
	}
	if gas < coolestDry && gas > 0 {
		return fmt.Errorf("stack loss: flue gas of %s may condense, which the formula does not count; use the heat balance of the flue gas; accepted: %s to %s", refuse.Both(gas), refuse.Both(coolestDry), refuse.Both(hottestGas))
	}
	return cmp.Or(
		refuse.Within("flue-gas temperature", gas, coolestDry, hottestGas),
		refuse.Within("temperature of the combustion air", air, coldestAir, warmestAir),
	)
}

// LossByOxygen gives the heat lost up the flue, from the oxygen.
//
//	qA = (tG − tL)·(A2/(21 − O2) + B), in percent, O2 in percent
//
// Units: temperatures; oxygen as a share of the dry gas; the result a share of the net
// heat.
// Range: flue gas 65 to 450 °C, not condensing; air −70 to 60 °C; oxygen 0 to 18 %.
// Source: 1. BImSchV, annex 2; form as quoted in glossaries, coefficients from memory.
// Errors: a fuel without coefficients, a figure outside the range.
func (s Siegert) LossByOxygen(gas, air units.Temperature, oxygen units.Fraction) (units.Fraction, error) {
	if err := cmp.Or(s.check(gas, air), refuse.Within("oxygen in the flue gas", oxygen, 0, 0.18)); err != nil {
		return 0, err
	}
	return units.Fraction(float64(gas-air) * (float64(s.A2)/(21-100*float64(oxygen)) + float64(s.B)) / 100), nil
}

// LossByCO2 gives the heat lost up the flue, from the carbon dioxide.
//
//	qA = (tG − tL)·(A1/CO2 + B), in percent, CO2 in percent
//
// Units: temperatures; carbon dioxide as a share of the dry gas; the result a share of
// the net heat.
// Range: as [Siegert.LossByOxygen]; carbon dioxide 2 % to the fuel's most and 3 % more
// of it.
// Source: as [Siegert.LossByOxygen].
// Errors: a fuel without coefficients, a figure outside the range.
func (s Siegert) LossByCO2(gas, air units.Temperature, reading units.Fraction) (units.Fraction, error) {
	if err := cmp.Or(s.check(gas, air), refuse.Within("carbon dioxide in the flue gas", reading, 0.02, units.Fraction(s.CO2Max)*0.0103)); err != nil {
		return 0, err
	}
	return units.Fraction(float64(gas-air) * (float64(s.A1)/(100*float64(reading)) + float64(s.B)) / 100), nil
}

// CO2At gives the carbon dioxide that the coefficients put beside a reading of oxygen.
//
//	CO2 = CO2max · (21 − O2)/21
//
// Units: shares of the dry gas.
// Range: oxygen 0 to 18 %.
// Source: as [Siegert.LossByOxygen].
// Errors: a fuel without coefficients, a reading outside the range.
func (s Siegert) CO2At(oxygen units.Fraction) (units.Fraction, error) {
	if s.CO2Max <= 0 {
		return 0, fmt.Errorf("carbon dioxide from oxygen: the fuel has no published coefficients")
	}
	if err := refuse.Within("oxygen in the flue gas", oxygen, 0, 0.18); err != nil {
		return 0, err
	}
	return units.Fraction(float64(s.CO2Max) / 100 * (21 - 100*float64(oxygen)) / 21), nil
}

// StackLossLimit gives the most that a boiler in Germany may lose up the flue, a
// figure to compare with elsewhere.
//
//	4 to 25 kW: 11 %; to 50 kW: 10 %; above: 9 %
//
// Units: rated output in W; the result a share of the net heat.
// Range: 4 kW to 10 MW; not for boilers that condense.
// Source: 1. BImSchV as quoted in glossaries.
// Errors: an output outside the range.
func StackLossLimit(output units.Power) (units.Fraction, error) {
	if err := refuse.Within("rated output", output, 4e3, mostPower); err != nil {
		return 0, err
	}
	switch {
	case output <= 25e3:
		return 0.11, nil
	case output <= 50e3:
		return 0.10, nil
	}
	return 0.09, nil
}
