package boiler

// Is the boiler the right size, and how far should its output be held down?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// OutputFactor is how much more than the load the boiler is allowed (common practice).
const OutputFactor = units.Number(1.1)

// OutputLimit is what to set as the most that the boiler may give to heating.
type OutputLimit struct {
	Power units.Power
	Share units.Fraction // of the boiler's full output
	Why   string
}

// LimitOutput gives the heating output to allow for a load.
//
//	load · 1.1, but not below the boiler's least nor above its full output
//
// Units: powers of heat delivered, not of fuel.
// Range: load 100 W to 10 MW; least output above 0 and not above the full one.
// Source: factor 1.1 common practice. [CautionOutputLimit] goes with it.
// Errors: a figure outside the range.
func LimitOutput(load, least, full units.Power) (OutputLimit, error) {
	err := cmp.Or(
		refuse.Within("heat load", load, leastPower, mostPower),
		refuse.Within("full output of the boiler", full, leastPower, mostPower),
		refuse.Within("least output of the boiler", least, 1, full),
	)
	if err != nil {
		return OutputLimit{}, err
	}
	limit := OutputLimit{Power: load * units.Power(OutputFactor), Why: "the load and a tenth more: longer runs, cooler flue gas"}
	switch {
	case limit.Power < least:
		limit.Power, limit.Why = least, "the boiler cannot go lower: its least output is more than the load needs on the design day, so it cycles in any weather"
	case limit.Power > full:
		limit.Power, limit.Why = full, "the boiler cannot give more"
		if load > full {
			limit.Why = "the boiler cannot give more, and on the design day the load is higher: check the load, then the boiler"
		}
	}
	limit.Share = units.Fraction(limit.Power / full)
	return limit, nil
}

// Size is how large a boiler is for its house.
type Size struct {
	Ratio   units.Number // full output to load
	Meaning string
}

// SizeFor judges a boiler's full output against the load.
//
//	output / load
//
// Units: powers; a ratio without unit.
// Range: load and output 100 W to 10 MW.
// Source: cycling and loss by Bennett & Elwell, Building Serv. Eng. Res. Technol. 2020,
// doi 10.1177/0143624420927352 (simulated and measured British homes); the bands
// between are common practice.
// Errors: a figure outside the range.
func SizeFor(output, load units.Power) (Size, error) {
	err := cmp.Or(
		refuse.Within("full output of the boiler", output, leastPower, mostPower),
		refuse.Within("heat load", load, leastPower, mostPower),
	)
	if err != nil {
		return Size{}, err
	}
	r := float64(output / load)
	s := Size{Ratio: units.Number(r)}
	switch {
	case r < 1:
		s.Meaning = "too small for the design day: rooms fall short in the coldest hours unless the load is lower than thought"
	case r <= 1.3:
		s.Meaning = "fits the load"
	case r <= 2:
		s.Meaning = "larger than needed: hold the heating output down to the load and a tenth more"
	case r <= 3:
		s.Meaning = "much larger than needed: without deep modulation it cycles through most of the season"
	case r < 8.5:
		s.Meaning = "more than three times the load: a study of oversized boilers found 6 to 9 % less efficiency"
	default:
		s.Meaning = "more than eight times the load: a study of oversized boilers found more than 50 cycles a day at 8.5 times, and 6 to 9 % less efficiency from three times on"
	}
	return s, nil
}

// LoadAt gives the load at an outdoor temperature.
type LoadAt func(outdoor units.Temperature) units.Power

// StraightLoad is the load of a house that loses H per kelvin and gains a steady heat.
//
//	Q = H·(Ti − To) − gains, not below 0
//
// Units: W/K, K, W.
// Range: H 1 W/K to 1 MW/K, room 5 to 35 °C, gains 0 to 1 MW.
// Source: steady energy balance.
// Errors: a figure outside the range.
func StraightLoad(loss units.LossCoefficient, room units.Temperature, gains units.Power) (LoadAt, error) {
	err := cmp.Or(
		refuse.Within("loss coefficient of the house", loss, 1, 1e6),
		refuse.Within("room temperature", room, units.Celsius(5), units.Celsius(35)),
		refuse.Within("steady gains", gains, 0, 1e6),
	)
	if err != nil {
		return nil, err
	}
	return func(outdoor units.Temperature) units.Power {
		return max(0, units.Power(float64(loss)*float64(room-outdoor))-gains)
	}, nil
}

// Modulation is where between cold and warm a burner stops running through.
type Modulation struct {
	Below units.Temperature // runs without a stop below this outdoor temperature
	Never bool              // the least output is more than the load even in the coldest weather asked for
	Ever  bool              // it runs through even in the warmest weather asked for
}

// Words says it in a sentence.
//
// Range: any answer of [ContinuousBelow].
// Source: none: words only.
func (m Modulation) Words() string {
	switch {
	case m.Never:
		return "the burner's least output is more than the house needs in the coldest weather: it cycles all winter"
	case m.Ever:
		return "the burner runs without stopping in all the weather asked for"
	}
	return "below " + refuse.Both(m.Below) + " outdoors the burner runs without stopping; above it cycles"
}

const (
	loadSamples = 64
	halvings    = 60
)

// ContinuousBelow gives the outdoor temperature below which the burner runs without
// stopping, because the house takes at least its least output.
//
//	load(To) = least output
//
// Units: load of an outdoor temperature in W, least output in W, temperatures in K.
// Range: coldest and warmest −70 to 60 °C; the load must not rise with the outdoor
// temperature (65 temperatures are looked at).
// Source: energy balance; the root by halving.
// Errors: a figure outside the range, a load that is no number or rises.
func ContinuousBelow(load LoadAt, least units.Power, coldest, warmest units.Temperature) (Modulation, error) {
	if load == nil {
		return Modulation{}, fmt.Errorf("modulation: the load of the house is not given")
	}
	err := cmp.Or(
		refuse.Within("least output of the boiler", least, 1, mostPower),
		refuse.Within("coldest outdoor temperature", coldest, coldestAir, warmestAir),
		refuse.Within("warmest outdoor temperature", warmest, coldest, warmestAir),
	)
	if err != nil {
		return Modulation{}, err
	}
	last := mostPower
	for i := range loadSamples + 1 {
		at := coldest + (warmest-coldest)*units.Temperature(i)/loadSamples
		q := load(at)
		if err := refuse.Within("heat load", q, 0, mostPower); err != nil {
			return Modulation{}, fmt.Errorf("modulation at %s outdoors: %w", refuse.Both(at), err)
		}
		if q > last*(1+1e-9) {
			return Modulation{}, fmt.Errorf("modulation: the load rises to %s as it gets warmer, at %s outdoors; it must fall", refuse.Both(q), refuse.Both(at))
		}
		last = q
	}
	switch {
	case load(coldest) < least:
		return Modulation{Below: coldest, Never: true}, nil
	case last >= least:
		return Modulation{Below: warmest, Ever: true}, nil
	}
	low, high := coldest, warmest
	for range halvings {
		middle := (low + high) / 2
		if load(middle) >= least {
			low = middle
		} else {
			high = middle
		}
	}
	return Modulation{Below: low}, nil
}
