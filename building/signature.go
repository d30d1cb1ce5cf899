package building

// What do the fuel bills say about the house?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Bills is a year of fuel with the weather of the same year.
type Bills struct {
	Fuel       units.Energy     // the year's fuel, gross heat
	BaseLoad   units.Energy     // of it, for hot water, cooking, dryer: HotWaterFuel if not known
	Efficiency units.Fraction   // of heating over the season, against gross heat
	DegreeDays units.DegreeDays // of the same twelve months if it can be had
	Base       units.Temperature
	Doubts     BillDoubts // the zero value takes the usual ones
}

// BillDoubts are the relative standard errors of what the bills are read with. A
// zero takes the usual figure, given in brackets (common practice).
type BillDoubts struct {
	Fuel       units.Fraction // of the fuel: meter 0.03 (0.03); deliveries into a tank 0.10
	BaseLoad   units.Fraction // of the baseload (0.30)
	Efficiency units.Fraction // of the efficiency (0.06)
	Weather    units.Fraction // of the degree-days (0.04); 0.12 when a normal year stands for the real one
	Balance    units.Fraction // of the degree-days, since the house's own balance is not the base (0.10)
}

func (d BillDoubts) usual() BillDoubts {
	or := func(v, usual units.Fraction) units.Fraction {
		if v == 0 {
			return usual
		}
		return v
	}
	return BillDoubts{
		Fuel: or(d.Fuel, 0.03), BaseLoad: or(d.BaseLoad, 0.30), Efficiency: or(d.Efficiency, 0.06),
		Weather: or(d.Weather, 0.04), Balance: or(d.Balance, 0.10),
	}
}

// Signature is what a year's bills say about a house.
type Signature struct {
	Loss   Loss              // all towards outdoors
	Heat   units.Energy      // given to the house in the year
	Base   units.Temperature // of the degree-days used
	Doubts []Doubt
	Error  units.Fraction // relative standard error, all doubts together
}

// Signature gives a house's loss coefficient from a year's fuel.
//
//	H = (fuel − baseload) · η / HDD
//
// The gains of people and sun are in it by way of the base: they are taken to carry
// the house from the base to the room temperature.
//
// Units: energies, degree-days; the result in W/K.
// Range: fuel 100 to 1,000,000 kWh, baseload below 90 % of it, efficiency 0.3 to
// 1.1, degree-days 300 to 12,000 K·d to a base of 10 to 22 °C.
// Source: energy signature by degree-days, common practice (ISO 15927-6 for the
// degree-days); errors combined as JCGM 100:2008.
// Errors: a figure outside the range, or a baseload that leaves no fuel to heat
// with.
func (b Bills) Signature() (Signature, error) {
	if err := b.check(); err != nil {
		return Signature{}, err
	}
	heat := (b.Fuel - b.BaseLoad) * units.Energy(b.Efficiency)
	coefficient := units.LossCoefficient(float64(heat) / float64(b.DegreeDays))
	if err := refuse.Within("loss coefficient that the bills come to", coefficient, 5, 1e5); err != nil {
		return Signature{}, fmt.Errorf("%w; check the units of the fuel and of the degree-days", err)
	}
	s := Signature{Loss: Loss{Outdoor: coefficient}, Heat: heat, Base: b.Base, Doubts: b.doubts()}
	s.Error = Together(s.Doubts)
	return s, nil
}

// AtOwnBalance gives a house's loss coefficient from a year's fuel by the degree-days to
// the temperature at which this house begins to need heat, which a house that is tight
// for its gains reaches well below the base in common use: with that base its loss, and
// with the loss the design load, would come out too small.
//
//	H · DD · f(Ti − gains/H)/f(base) = (fuel − baseload) · η
//
// where f is the degree-days of the place by base; H by halving the interval, since the
// left side grows with it.
//
// Units: a temperature and a power; days gives K·d for a base; the result in W/K.
// Range: as Signature; room 5 to 30 °C, gains 0 to 100 kW that keep the balance above
// 5 °C or are counted as far as that.
// Source: variable-base degree-days, ISO 15927-6:2007 and the ASHRAE Handbook
// Fundamentals, energy estimating (from memory).
// Errors: as Signature, or a place without degree-days to the base.
func (b Bills) AtOwnBalance(room units.Temperature, gains units.Power, days func(base units.Temperature) units.DegreeDays) (Signature, error) {
	s, err := b.Signature()
	if err != nil {
		return Signature{}, err
	}
	err = cmp.Or(
		refuse.Within("room temperature", room, units.Celsius(5), units.Celsius(30)),
		refuse.Within("gains", gains, 0, units.Power(100000)),
	)
	if err != nil {
		return Signature{}, err
	}
	toBase := days(b.Base)
	if err := refuse.Within("degree-days of the place to the base", toBase, units.KelvinDays(50), units.KelvinDays(15000)); err != nil {
		return Signature{}, err
	}
	balance := func(h float64) units.Temperature {
		return max(units.Celsius(5), Loss{Outdoor: units.LossCoefficient(h)}.BalanceOutdoor(room, gains))
	}
	low, high := 0.2*float64(s.Loss.Outdoor), 10*float64(s.Loss.Outdoor)
	for range 50 {
		h := (low + high) / 2
		if h*float64(b.DegreeDays)*float64(days(balance(h))/toBase) < float64(s.Heat) {
			low = h
		} else {
			high = h
		}
	}
	s.Loss.Outdoor, s.Base = units.LossCoefficient(low), balance(low)
	return s, nil
}

func (b Bills) check() error {
	d := b.Doubts
	err := cmp.Or(
		refuse.Within("year's fuel", b.Fuel, units.KilowattHours(100), mostFuel),
		refuse.Within("fuel for hot water and cooking", b.BaseLoad, 0, b.Fuel*9/10),
		refuse.Within("seasonal efficiency", b.Efficiency, 0.3, 1.1),
		refuse.Within("degree-days", b.DegreeDays, units.KelvinDays(300), units.KelvinDays(12000)),
		refuse.Within("base of the degree-days", b.Base, units.Celsius(10), units.Celsius(22)),
	)
	for _, share := range []units.Fraction{d.Fuel, d.BaseLoad, d.Efficiency, d.Weather, d.Balance} {
		err = cmp.Or(err, refuse.Within("relative error", share, 0, 1))
	}
	return err
}

// doubts carries each input's error to the coefficient; errors of fuel and baseload
// grow as the baseload eats up the fuel.
func (b Bills) doubts() []Doubt {
	d := b.Doubts.usual()
	heating := b.Fuel - b.BaseLoad
	return []Doubt{
		{"fuel used", d.Fuel * units.Fraction(b.Fuel/heating)},
		{"fuel for hot water and cooking", d.BaseLoad * units.Fraction(b.BaseLoad/heating)},
		{"seasonal efficiency", d.Efficiency},
		{"degree-days of the year", d.Weather},
		{"balance temperature of the house", d.Balance},
	}
}

// DesignLoad gives the load at a design outdoor temperature with the band of one
// standard error.
//
//	Q = H · (Ti − To), Q·(1 ± s)
//
// Units: temperatures; results are powers.
// Range: room at least 1 K above outdoor, temperatures −70 to 60 °C. With the room
// temperature no gains help; with the base in its place the usual gains do.
// Source: as Signature.
// Errors: temperatures outside the range.
func (s Signature) DesignLoad(room, outdoor units.Temperature) (load, low, high units.Power, err error) {
	err = cmp.Or(
		checkTemperature("room temperature", room),
		checkTemperature("design outdoor temperature", outdoor),
		refuse.Within("room above design outdoor temperature", room.Sub(outdoor), 1, 130),
	)
	if err != nil {
		return 0, 0, 0, err
	}
	load = s.Loss.At(room, outdoor)
	return load, load * units.Power(max(0, 1-s.Error)), load * units.Power(1+s.Error), nil
}

// FuelForLoss gives the year's fuel of a house with a known loss coefficient.
//
//	fuel = H · HDD / η + baseload
//
// Units: W/K, degree-days, a share; energies in gross heat.
// Range: H 0 to 100,000 W/K, degree-days 0 to 12,000 K·d, efficiency 0.3 to 1.1,
// baseload 0 to 1,000,000 kWh. Degree-days must be to the base at which the house
// needs no heat.
// Source: as Signature.
// Errors: a figure outside the range.
func FuelForLoss(coefficient units.LossCoefficient, days units.DegreeDays, efficiency units.Fraction, baseLoad units.Energy) (units.Energy, error) {
	err := cmp.Or(
		refuse.Within("loss coefficient of the house", coefficient, 0, 1e5),
		refuse.Within("degree-days", days, 0, units.KelvinDays(12000)),
		refuse.Within("seasonal efficiency", efficiency, 0.3, 1.1),
		refuse.Within("fuel for hot water and cooking", baseLoad, 0, mostFuel),
	)
	if err != nil {
		return 0, err
	}
	return units.Energy(float64(coefficient)*float64(days)/float64(efficiency)) + baseLoad, nil
}
