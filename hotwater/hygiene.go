package hotwater

// How hot must stored water be against legionella, how hot may it be at a tap, and
// how does a mixing valve bring both together?

import (
	"cmp"

	"curvewright/units"
)

// Cautions that go with every hot-water setting.
const (
	CautionScald      = "water stored at 60 °C (140 °F) scalds in a few seconds: fit a mixing valve at the tank and deliver no more than 49 °C (120 °F)"
	CautionLegionella = "water stored below 60 °C (140 °F) lets legionella grow, fastest at 35 to 46 °C (95 to 115 °F)"
	CautionVulnerable = "children, old people and those who feel little burn faster, and old or ill people fall ill more easily: with them in the house keep 60 °C (140 °F) in the tank and limit every tap"
	CautionLocal      = "the local plumbing code and the health authority outrank these figures"
)

// Place is where in a hot-water system a temperature is asked for.
type Place string

// The places.
const (
	ColdWater Place = "cold water"
	Storage   Place = "storage"
	Return    Place = "circulation return"
	Tap       Place = "tap"
	TapScald  Place = "tap, against scalding"
)

// Guidance is one figure of a guideline.
type Guidance struct {
	Place  Place
	Limit  units.Temperature
	AtMost bool   // the temperature should not be above Limit; otherwise not below
	Says   string // for whom or when
	Source string
}

// Guidances gives the guidance on hot-water temperatures. It is advice, mostly written
// for large or public buildings; the local code comes first.
//
// Units: temperatures.
// Range: as each guideline says.
// Source: named with each figure.
func Guidances() []Guidance {
	const (
		ashrae = "ASHRAE Guideline 12-2000 clause 4.1.6, as quoted in the trade press"
		hsg    = "UK HSE HSG274 Part 2, from memory"
		dvgw   = "DVGW W 551, from memory"
		europe = "European guidelines on travel-associated legionnaires' disease, as quoted"
	)
	return []Guidance{
		{ColdWater, units.Celsius(20), true, "buildings with people at risk", ashrae},
		{Storage, units.Fahrenheit(140), false, "buildings with people at risk", ashrae},
		{Return, units.Fahrenheit(124), false, "buildings with people at risk", ashrae},
		{Storage, units.Celsius(60), false, "all", europe},
		{Tap, units.Celsius(50), false, "within a minute; preferably 55 °C (131 °F)", europe},
		{Storage, units.Celsius(60), false, "all", hsg},
		{Tap, units.Celsius(50), false, "within a minute; in health care 55 °C (131 °F)", hsg},
		{Return, units.Celsius(50), false, "all", hsg},
		{Storage, units.Celsius(60), false, "large systems", dvgw},
		{Return, units.Celsius(55), false, "large systems, the whole circuit", dvgw},
		{TapScald, units.Fahrenheit(120), true, "after a mixing valve at the heater (ASSE 1017) or at the point of use (ASSE 1070, 1016)", "application note on ASSE valves; common practice"},
	}
}

// Missed gives the guidance that a measured temperature does not meet.
//
// Units: a temperature.
// Range: water of 0 to 95 °C; none for a place without guidance.
// Source: [Guidances].
// Errors: a temperature outside the range.
func Missed(place Place, measured units.Temperature) ([]Guidance, error) {
	if err := checkWater("temperature at the "+string(place), measured); err != nil {
		return nil, err
	}
	const rounding = 0.05 // K: 124 °F and 51.1 °C are the same reading
	var out []Guidance
	for _, g := range Guidances() {
		if g.Place != place {
			continue
		}
		if g.AtMost && measured > g.Limit+rounding || !g.AtMost && measured < g.Limit-rounding {
			out = append(out, g)
		}
	}
	return out, nil
}

// ScaldBand is a row of the table of scald times: with water this hot a deep burn
// comes in about this time. Children burn faster.
type ScaldBand struct {
	At   units.Temperature
	Time string
}

// ScaldBands gives the table of scald times for adults. Its times are bands for a
// warning, not measurements.
//
// Units: temperatures; the times in words.
// Range: 120 to 155 °F (48.9 to 68.3 °C).
// Source: public-health page of a US state on scald prevention; the data behind it is
// Moritz and Henriques 1947, from memory.
func ScaldBands() []ScaldBand {
	return []ScaldBand{
		{units.Fahrenheit(120), "more than 5 minutes"},
		{units.Fahrenheit(125), "1.5 to 2 minutes"},
		{units.Fahrenheit(130), "30 seconds"},
		{units.Fahrenheit(135), "10 seconds"},
		{units.Fahrenheit(140), "less than 5 seconds"},
		{units.Fahrenheit(145), "less than 3 seconds"},
		{units.Fahrenheit(150), "1.5 seconds"},
		{units.Fahrenheit(155), "1 second"},
	}
}

// Scald gives the band for a water temperature: the row at or next above it, never
// anything between two rows. Water hotter than the table gets its last row.
//
// Units: a temperature.
// Range: 0 to 95 °C; below 115 °F (46 °C) the table has nothing to say and found is
// false.
// Source: [ScaldBands].
// Errors: a temperature outside the range.
func Scald(at units.Temperature) (band ScaldBand, found bool, err error) {
	if err := checkWater("water at the tap", at); err != nil {
		return ScaldBand{}, false, err
	}
	const rounding = 1e-6
	if at < units.Fahrenheit(115) {
		return ScaldBand{}, false, nil
	}
	rows := ScaldBands()
	for _, row := range rows {
		if at <= row.At+rounding {
			return row, true, nil
		}
	}
	return rows[len(rows)-1], true, nil
}

// HotShare gives the share of hot water in what a mixing valve delivers.
//
//	x = (T_mix − T_cold)/(T_hot − T_cold)
//
// Units: temperatures; the result is a share of one.
// Range: 0 to 95 °C, cold ≤ mix ≤ hot.
// Source: heat balance of mixing.
// Errors: a temperature outside the range.
func HotShare(cold, hot, mix units.Temperature) (units.Fraction, error) {
	err := cmp.Or(checkRise(cold, hot), within("mixed water", mix, cold, hot))
	if err != nil {
		return 0, err
	}
	return units.Fraction((mix - cold) / (hot - cold)), nil
}

// Disinfection is a charge to a higher temperature against legionella.
type Disinfection struct {
	Needed bool // false where the tank stands at 60 °C or more anyway
	Heating
	Every units.Time // how often, common practice
}

// HygieneCharge gives the charge that brings a tank which stands cooler to a hygienic
// temperature from time to time. It must come at an hour when nobody draws, with a
// mixing valve at the outlet ([CautionScald]).
//
//	heat-up as [Tank.HeatUp], once a week
//
// Units: temperatures.
// Range: normal 20 to 95 °C, target 60 to 80 °C; as HeatUp.
// Source: heat balance; once a week common practice; 60 °C by [Guidances].
// Errors: a figure outside the range, a charge that does not reach the target.
func (t Tank) HygieneCharge(c Charge, normal, target units.Temperature) (Disinfection, error) {
	err := cmp.Or(
		within("tank's usual temperature", normal, units.Celsius(20), hottest),
		within("temperature of the hygiene charge", target, SetPoint, units.Celsius(80)),
	)
	if err != nil || normal >= SetPoint {
		return Disinfection{}, err
	}
	heating, err := t.HeatUp(c, normal, target)
	if err != nil {
		return Disinfection{}, err
	}
	return Disinfection{Needed: true, Heating: heating, Every: 7 * 86400}, nil
}
