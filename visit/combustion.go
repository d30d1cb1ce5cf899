package visit

import (
	"cmp"
	"errors"
	"fmt"

	"curvewright/attendance"
	"curvewright/boiler"
	"curvewright/units"
)

// What does the analyser's slip come to, against the maker's limits? Arithmetic, never a
// word on safety.

// CombustionRecord is a slip worked out.
type CombustionRecord struct {
	boiler.Combustion
	Known     bool           // whether flue and air temperature were given, and with them the loss
	LossGross units.Fraction // of the gross heat that leaves up the flue
	LossNet   units.Fraction // of the net heat, as stack losses are told; below 0 where more is won back by condensing
	Against   []AgainstLimit
	Within    bool // all limits that were entered are kept, and there was at least one
}

// AgainstLimit is a figure beside the maker's limit.
type AgainstLimit struct {
	What  string
	Value units.Quantity
	From  units.Quantity // nil for none
	To    units.Quantity
	Kept  bool
}

// fuels are the survey's in the engine's words.
var fuels = map[string]string{"": "natural-gas", "natural gas": "natural-gas", "propane": "propane", "heating oil": "oil"}

// Combustion works out a combustion record.
//
//	e from O2, or from CO2 where the oxygen was not read; CO air-free = CO·20.9/(20.9 − O2)
//	loss = 1 − heat that stays, by the heat balance of the flue gas, its water counted
//
// Units: those of the document; loss as a share.
// Range: as boiler.Fuel.Read; altitude that of the job.
// Source: boiler.Fuel.Read and boiler.FlueGas.Leaving; limits as entered from the maker's
// manual.
// Errors: as boiler.Fuel.Read; neither oxygen nor carbon dioxide.
func (h *House) Combustion(c attendance.Combustion) (CombustionRecord, error) {
	var out CombustionRecord
	fuel, err := boiler.FuelByKey(fuels[cmp.Or(c.Fuel, h.job.Boiler.Fuel)])
	if err != nil {
		return out, err
	}
	air := boiler.CellarAir()
	air.Altitude = h.job.Site.Elevation.Value
	if c.Air.Set {
		air.Temperature = c.Air.Value
	}
	oxygen := c.Oxygen.Value
	if !c.Oxygen.Set {
		if !c.CO2.Set {
			return out, errors.New("combustion: neither oxygen nor co2 is given; one of them is needed")
		}
		excess, err := fuel.ExcessFromCO2(c.CO2.Value)
		if err != nil {
			return out, err
		}
		gas, err := fuel.Burn(excess, air)
		if err != nil {
			return out, err
		}
		oxygen = gas.O2Dry
	}
	r := boiler.Reading{Oxygen: oxygen, Monoxide: c.Monoxide.Value, Exit: c.Flue.Or(units.Celsius(60)).Value, Air: air}
	if c.Oxygen.Set {
		r.CO2 = c.CO2.Value
	}
	if out.Combustion, err = fuel.Read(r); err != nil {
		return out, fmt.Errorf("combustion: %w", err)
	}
	if out.Known = c.Flue.Set && c.Air.Set; out.Known {
		out.LossGross = 1 - out.Balance.Gross
		out.LossNet = 1 - out.Balance.Net
	} else {
		out.Balance = boiler.Balance{}
	}
	out.limits(c)
	out.Cautions = append(out.Cautions, StopUnlessLicensed)
	return out, nil
}

// StopUnlessLicensed goes with every combustion record.
const StopUnlessLicensed = "This record is no clearance. Within or outside limits, the burner is judged, set and released by a licensed person after the maker's instructions."

func (r *CombustionRecord) limits(c attendance.Combustion) {
	l := c.Limits
	r.Within = true
	add := func(what string, has bool, v, from, to units.Quantity, kept bool) {
		if !has {
			return
		}
		r.Against = append(r.Against, AgainstLimit{What: what, Value: v, From: from, To: to, Kept: kept})
		r.Within = r.Within && kept
	}
	oxygen, co2 := r.Gas.O2Dry, r.Gas.CO2Dry
	if c.CO2.Set {
		co2 = c.CO2.Value
	}
	add("oxygen", l.OxygenFrom.Set, oxygen, l.OxygenFrom.Value, nil, oxygen >= l.OxygenFrom.Value)
	add("oxygen", l.OxygenTo.Set, oxygen, nil, l.OxygenTo.Value, oxygen <= l.OxygenTo.Value)
	add("carbon dioxide", l.CO2From.Set, co2, l.CO2From.Value, nil, co2 >= l.CO2From.Value)
	add("carbon dioxide", l.CO2To.Set, co2, nil, l.CO2To.Value, co2 <= l.CO2To.Value)
	add("carbon monoxide, as shown", l.Monoxide.Set && c.Monoxide.Set, c.Monoxide.Value, nil, l.Monoxide.Value, c.Monoxide.Value <= l.Monoxide.Value)
	add("carbon monoxide, air-free", l.AirFree.Set && c.Monoxide.Set, r.AirFree, nil, l.AirFree.Value, r.AirFree <= l.AirFree.Value)
	add("flue gas", l.Flue.Set && c.Flue.Set, c.Flue.Value, nil, l.Flue.Value, c.Flue.Value <= l.Flue.Value)
	r.Within = r.Within && len(r.Against) > 0
	if !r.Within && len(r.Against) > 0 {
		r.Cautions = append([]string{StopLicensed}, r.Cautions...)
	}
}
