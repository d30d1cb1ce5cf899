package boiler

// Which boilers must not condense, which should, and do they?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// UsualMargin keeps the return so far above the dew point where the boiler must stay
// dry (common practice: natural gas at 130 to 140 °F, 54 to 60 °C).
const UsualMargin = units.Difference(3)

// FlueApproachLimit is the most that the flue gas of a condensing boiler should be
// above the return (common practice: 40 to 50 °F).
const FlueApproachLimit = units.Difference(25)

// sensorDoubt is how far two clamp-on sensors may differ (common practice).
const sensorDoubt = units.Difference(2)

// LeastReturn gives the lowest return that a boiler may have which must not condense.
// The cold water meets the gas first where the iron is as cold as the water.
//
//	dew point + margin
//
// Units: temperatures in K.
// Range: margin 0 to 20 K.
// Source: dew point by [Fuel.Burn]; margin common practice. [CautionReturn] goes with
// it, for oil [CautionOil] too.
// Errors: no flue gas, a margin outside the range.
func (g FlueGas) LeastReturn(margin units.Difference) (units.Temperature, error) {
	if err := cmp.Or(g.check(), refuse.Within("margin above the dew point", margin, 0, 20)); err != nil {
		return 0, err
	}
	return g.DewPoint.Add(margin), nil
}

// Verdict is a judgement with what to do about it.
type Verdict struct {
	Good   bool
	Says   string
	Remedy string // empty if there is nothing to do
}

// startUp is how long after a start a cold return is no fault: iron and water must
// warm up first (common practice, 10 to 15 minutes).
const startUp = units.Time(12 * 60)

// ProtectsReturn judges a return temperature at a boiler that must not condense.
//
//	return ≥ least return, 12 minutes after the start
//
// Units: temperatures in K, time since the burner started in s.
// Range: return 1 to 120 °C, least return 20 to 80 °C, time 0 to 1 day.
// Source: common practice.
// Errors: a figure outside the range.
func ProtectsReturn(back, least units.Temperature, sinceStart units.Time) (Verdict, error) {
	err := cmp.Or(
		refuse.Within("return temperature at the boiler", back, units.Celsius(1), hottestLoop),
		refuse.Within("least return temperature", least, units.Celsius(20), units.Celsius(80)),
		refuse.Within("time since the burner started", sinceStart, 0, units.Hours(24)),
	)
	switch {
	case err != nil:
		return Verdict{}, err
	case back >= least:
		return Verdict{Good: true, Says: "the return of " + refuse.Both(back) + " keeps the boiler dry: at least " + refuse.Both(least) + " is wanted"}, nil
	case sinceStart < startUp:
		return Verdict{Says: "the return of " + refuse.Both(back) + " is below " + refuse.Both(least) + ", but the burner started only " + refuse.Both(sinceStart) + " ago",
			Remedy: "read again when it has run for " + refuse.Both(startUp)}, nil
	}
	return Verdict{
		Says: "the return of " + refuse.Both(back) + " is below " + refuse.Both(least) + " long after the start: water condenses in a boiler that is not made for it",
		Remedy: "fit return protection (a mixing valve or a bypass pump with its own sensor), keep the boiler at 60 °C (140 °F) or more, " +
			"and lower the supply of the circuits by mixing after the boiler; look under the flue collar for rust and scale",
	}, nil
}

// CondensesNow judges a condensing boiler by its return and its flue gas.
//
//	return and flue gas below the dew point, flue gas at most 25 K above the return
//
// Units: temperatures in K.
// Range: return 1 to 120 °C, flue gas 5 to 450 °C.
// Source: dew point by [Fuel.Burn]; 25 K common practice.
// Errors: no flue gas, a figure outside the range.
func (g FlueGas) CondensesNow(back, exit units.Temperature) (Verdict, error) {
	err := cmp.Or(
		g.check(),
		refuse.Within("return temperature at the boiler", back, units.Celsius(1), hottestLoop),
		refuse.Within("flue-gas temperature", exit, coolestGas, hottestGas),
	)
	if err != nil {
		return Verdict{}, err
	}
	balance := g.leaving(exit)
	switch above := exit.Sub(back); {
	case above < -sensorDoubt:
		return Verdict{
			Says:   "the flue gas of " + refuse.Both(exit) + " is colder than the water that comes back with " + refuse.Both(back) + ", which cannot be",
			Remedy: "check that the sensors are not swapped, and read again at steady fire",
		}, nil
	case above > FlueApproachLimit:
		return Verdict{
			Says:   "the flue gas leaves " + refuse.Both(above) + " hotter than the water comes back; more than " + refuse.Both(FlueApproachLimit) + " is too much for a condensing boiler",
			Remedy: "check the firing rate, the water flow and the setting of the burner, and have the heat exchanger cleaned",
		}, nil
	case back >= g.DewPoint:
		return Verdict{
			Says:   "the return of " + refuse.Both(back) + " is not below the dew point of " + refuse.Both(g.DewPoint) + ": nothing condenses",
			Remedy: "find out why the water comes back hot: a boiler pump faster than the system, too much flow through the emitters, a curve set too high, a tank being heated; then lower the curve",
		}, nil
	case !balance.Condensing:
		return Verdict{
			Says:   "the return of " + refuse.Both(back) + " is cool enough, but the flue gas at " + refuse.Both(exit) + " is above its dew point of " + refuse.Both(g.DewPoint) + ": next to nothing condenses",
			Remedy: "lower the firing rate or the return a little more",
		}, nil
	}
	return Verdict{Good: true, Says: "it condenses: about " + refuse.Both(balance.Condensed) + " of the water in the flue gas"}, nil
}

// CondensingShare is the part of a season in which a boiler condenses.
type CondensingShare struct {
	ByTime, ByHeat units.Fraction
}

// CondensingShare gives the part of a season's burner hours and heat that is made with
// flue gas below its dew point.
//
//	Σ time·load with (return + approach < dew point) / Σ time·load
//
// Hours without a load do not count.
//
// Units: season as hours by outdoor temperature with load and return.
// Range: as [Cycling.Season]; returns 1 to 120 °C; approach 0 to 250 K. A share of 0 in a
// season without load.
// Source: dew point by [Fuel.Burn].
// Errors: no flue gas, a figure outside the range.
func (g FlueGas) CondensingShare(weather []Weather, approach units.Difference) (CondensingShare, error) {
	err := cmp.Or(g.check(), checkWeather(weather), refuse.Within("flue gas above return", approach, 0, mostApproach))
	if err != nil {
		return CondensingShare{}, err
	}
	var time, heat, coolTime, coolHeat float64
	for _, w := range weather {
		if w.Load == 0 {
			continue
		}
		if err := refuse.Within("return temperature at the boiler", w.Return, units.Celsius(1), hottestLoop); err != nil {
			return CondensingShare{}, fmt.Errorf("season at %s outdoors: %w", refuse.Both(w.Outdoor), err)
		}
		q := float64(w.Time) * float64(w.Load)
		time, heat = time+float64(w.Time), heat+q
		if w.Return.Add(approach) < g.DewPoint {
			coolTime, coolHeat = coolTime+float64(w.Time), coolHeat+q
		}
	}
	if heat == 0 {
		return CondensingShare{}, nil
	}
	return CondensingShare{ByTime: units.Fraction(coolTime / time), ByHeat: units.Fraction(coolHeat / heat)}, nil
}
