package boiler

// How hard is the burner firing, by the hand of the gas meter and a watch?

import (
	"cmp"

	"curvewright/refuse"
	"curvewright/units"
)

// Meter is how a gas meter counts.
type Meter struct {
	PerRevolution units.Volume   // of the dial that is watched: ½, 1, 2 or 5 ft³; 0.01 m³
	Gauge         units.Pressure // of the gas in the meter, above the air's
	Air           units.Pressure // absolute, of the place: [AirPressure]
	Gas           units.Temperature
	Compensated   bool // the meter counts at the base already, so nothing is corrected
	Base          Base // at which the supplier's heating value counts
}

// WatchedMeter is a meter at sea level, at the usual 7 in w.c. (17.4 mbar) or 20 mbar,
// with gas at the base temperature.
//
// Units: volume of a revolution of the dial in m³.
// Range: as [Meter.Correction].
// Source: usual house pressures, common practice.
func WatchedMeter(perRevolution units.Volume, base Base) Meter {
	gauge := units.Pressure(2000)
	if base == BaseUS {
		gauge = 7 * 249.08891 // 7 in w.c.
	}
	return Meter{PerRevolution: perRevolution, Gauge: gauge, Air: 101325, Gas: base.Temperature, Base: base}
}

// Correction gives the volume at the base for a volume that the meter shows.
//
//	(p_air + p_gauge)/p_base · T_base/T_gas; 1 for a meter that compensates
//
// Units: a ratio without unit.
// Range: air 50 to 110 kPa, gauge 0 to 1 bar, gas −40 to 60 °C, base as [Base].
// Source: ideal gas law.
// Errors: a figure outside the range.
func (m Meter) Correction() (units.Number, error) {
	if m.Compensated {
		return 1, nil
	}
	err := cmp.Or(
		m.Base.check(),
		refuse.Within("air pressure at the meter (absolute)", m.Air, 5e4, 1.1e5),
		refuse.Within("gas pressure at the meter (gauge)", m.Gauge, 0, 1e5),
		refuse.Within("gas temperature at the meter", m.Gas, units.Celsius(-40), units.Celsius(60)),
	)
	if err != nil {
		return 0, err
	}
	return units.Number(float64((m.Air+m.Gauge)/m.Base.Pressure) * float64(m.Base.Temperature/m.Gas)), nil
}

func (m Meter) check(value units.HeatingValue) error {
	return cmp.Or(
		refuse.Within("volume of a revolution of the dial", m.PerRevolution, 1e-5, 10),
		refuse.Within("heating value of the gas", value, 5e6, 1.5e8),
	)
}

// Flow gives the gas that the meter shows.
//
//	V = revolutions·(volume of one)/time
//
// Units: time in s; result in m³/s as the meter counts it.
// Range: revolutions above 0 to 1000, time 1 s to 2 h, dial 0.01 L to 10 m³. A count of
// less than 30 s is rough: let the hand go round more often.
// Source: definition.
// Errors: a figure outside the range.
func (m Meter) Flow(revolutions units.Number, in units.Time) (units.Flow, error) {
	err := cmp.Or(
		refuse.Within("volume of a revolution of the dial", m.PerRevolution, 1e-5, 10),
		refuse.Within("revolutions of the dial", revolutions, 0.01, 1000),
		refuse.Within("time of the count", in, 1, mostRest),
	)
	if err != nil {
		return 0, err
	}
	return units.Flow(float64(revolutions) * float64(m.PerRevolution) / float64(in)), nil
}

// FiringRate gives the heat that goes into the burner: gross if the heating value is.
// [CautionClocking] goes with it.
//
//	Q = V·correction·H
//
// Units: revolutions, time in s, heating value in J/m³ at the base; result in W.
// Range: as [Meter.Flow] and [Meter.Correction]; heating value 5 to 150 MJ/m³.
// Source: definition.
// Errors: a figure outside the range.
func (m Meter) FiringRate(revolutions units.Number, in units.Time, value units.HeatingValue) (units.Power, error) {
	flow, err := m.Flow(revolutions, in)
	if err != nil {
		return 0, err
	}
	correction, err := m.Correction()
	if err := cmp.Or(err, m.check(value)); err != nil {
		return 0, err
	}
	return units.Power(float64(flow) * float64(correction) * float64(value)), nil
}

// RevolutionTime gives the time that a revolution of the dial should take at a firing
// rate: the reverse of FiringRate.
//
//	t = (volume of a revolution)·correction·H/Q
//
// Units: firing rate in W, heating value in J/m³ at the base, both gross or both net;
// result in s.
// Range: firing rate 100 W to 10 MW; the rest as [Meter.FiringRate].
// Source: definition.
// Errors: a figure outside the range.
func (m Meter) RevolutionTime(rate units.Power, value units.HeatingValue) (units.Time, error) {
	correction, err := m.Correction()
	if err := cmp.Or(err, m.check(value), refuse.Within("firing rate", rate, leastPower, mostPower)); err != nil {
		return 0, err
	}
	return units.Time(float64(m.PerRevolution) * float64(correction) * float64(value) / float64(rate)), nil
}
