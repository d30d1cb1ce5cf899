package trial

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"curvewright/units"
)

// What do fuel and its carbon dioxide cost? Both figures come from the installer: they
// differ from place to place and from year to year.

// Price is money for gross heat in the fuel, as the bill has it. The zero value is not
// known.
type Price struct {
	Currency string  // as it was written: "$", "EUR", or nothing
	Behind   bool    // the currency stands behind the amount
	PerJoule float64 // in it
}

// Carbon is the carbon dioxide for gross heat in the fuel, kg/J. The zero value is not
// known.
type Carbon struct{ PerJoule float64 }

// heats are the ways in which bills count heat.
var heats = []struct {
	name string
	of   units.Energy
}{{"therm", units.Therms(1)}, {"kWh", units.KilowattHours(1)}, {"MWh", units.KilowattHours(1000)}, {"MMBtu", units.Therms(10)}, {"GJ", 1e9}, {"MJ", 1e6}}

// perHeat reads "1.20/therm" and gives the number for a joule and what else was written
// around it.
func perHeat(what, example, text string) (perJoule float64, before, behind string, err error) {
	wrong := fmt.Errorf("%s: %q given; accepted: %s, per therm, kWh, MWh, MMBtu, MJ or GJ of gross heat", what, text, example)
	amount, per, both := strings.Cut(strings.TrimSpace(text), "/")
	if !both {
		return 0, "", "", wrong
	}
	isFigure := func(r rune) bool { return unicode.IsDigit(r) || r == '.' }
	from, to := strings.IndexFunc(amount, isFigure), strings.LastIndexFunc(amount, isFigure)
	if from < 0 {
		return 0, "", "", wrong
	}
	v, err := strconv.ParseFloat(amount[from:to+1], 64)
	if err != nil || !(v > 0 && v < 1e6) {
		return 0, "", "", wrong
	}
	for _, h := range heats {
		if strings.EqualFold(strings.TrimSpace(per), h.name) {
			return v / float64(h.of), strings.TrimSpace(amount[:from]), strings.TrimSpace(amount[to+1:]), nil
		}
	}
	return 0, "", "", wrong
}

// ParsePrice reads a price as it stands on a bill: "1.20/therm", "$1.20/therm", "0.11
// EUR/kWh".
//
// Units: as written, for gross heat.
// Range: above 0.
// Source: own notation.
// Errors: what was given and how it is written.
func ParsePrice(text string) (Price, error) {
	const example = `"1.20/therm", "$1.20/therm" or "0.11 EUR/kWh"`
	v, before, behind, err := perHeat("fuel price", example, text)
	if err != nil {
		return Price{}, err
	}
	if before != "" && behind != "" {
		return Price{}, fmt.Errorf("fuel price: %q names the money twice; accepted: %s", text, example)
	}
	return Price{Currency: before + behind, Behind: behind != "", PerJoule: v}, nil
}

// ParseCarbon reads a factor as "5.3 kg/therm" or "0.2 kg/kWh".
//
// Units: kg for gross heat as written.
// Range: above 0.
// Source: own notation.
// Errors: what was given and how it is written.
func ParseCarbon(text string) (Carbon, error) {
	const example = `"5.3 kg/therm" or "0.2 kg/kWh"`
	v, before, behind, err := perHeat("carbon", example, text)
	if err != nil {
		return Carbon{}, err
	}
	perKilogram := map[string]float64{"kg": 1, "": 1, "g": 1e-3, "lb": 0.45359237}
	f, known := perKilogram[behind]
	if before != "" || !known {
		return Carbon{}, fmt.Errorf("carbon: %q given; accepted: %s, in kg, g or lb", text, example)
	}
	return Carbon{v * f}, nil
}

// Text says what an amount of heat costs.
func (p Price) Text(heat units.Energy) string {
	figure := units.Number(math.Round(float64(heat) * p.PerJoule)).Text(units.US)
	switch {
	case p.Currency == "":
		return figure
	case p.Behind:
		return figure + "\u00a0" + p.Currency
	}
	return p.Currency + figure
}

// Text says how much carbon dioxide an amount of heat makes.
func (c Carbon) Text(heat units.Energy, s units.System) string {
	kg := float64(heat) * c.PerJoule
	if s.Family() == units.US {
		return units.Number(math.Round(kg/0.45359237)).Text(s) + "\u00a0lb"
	}
	return units.Number(math.Round(kg)).Text(s) + "\u00a0kg"
}
