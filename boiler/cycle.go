package boiler

// How long does a burner run and rest when the house takes less than its least output,
// how often does it start, and how much water would calm it?

import (
	"cmp"
	"fmt"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// Cycling is a burner at its least output on a body of water.
type Cycling struct {
	Water        units.Volume // that warms and cools with the burner: boiler, pipes and emitters in flow, buffer
	Fluid        fluid.Mixture
	At           units.Temperature // of that water
	Least        units.Power       // output below which the burner must stop
	Differential units.Difference  // between start and stop
	LeastOff     units.Time        // anti-cycling time: the shortest rest, 0 for none
}

// Cycle is one run and one rest.
type Cycle struct {
	On, Off    units.Time // of one cycle; both 0 if Continuous; On without Off if Idle
	Starts     units.Frequency
	Share      units.Fraction   // of the time that the burner runs
	Swing      units.Difference // of the water: more than the differential when the rest is forced to be long
	Continuous bool             // the house takes all that the burner gives
	Idle       bool             // the house takes nothing: one run, then rest
}

const (
	mostDifferential = units.Difference(60)
	mostRest         = units.Time(7200)
)

// capacity gives the heat that a kelvin of the water takes, J/K.
func (c Cycling) capacity() (float64, error) {
	err := cmp.Or(
		refuse.Within("water that the burner warms", c.Water, 1e-4, mostVolume),
		refuse.Within("least output of the boiler", c.Least, 1, mostPower),
		refuse.Within("differential", c.Differential, 0.1, mostDifferential),
		refuse.Within("shortest rest of the burner", c.LeastOff, 0, mostRest),
	)
	if err != nil {
		return 0, err
	}
	factor, err := c.Fluid.HeatFactor(c.At)
	if err != nil {
		return 0, fmt.Errorf("water that the burner warms: %w", err)
	}
	return float64(factor) * float64(c.Water), nil
}

// Under gives the cycle under a load.
//
//	t_off = max(C·ΔT/Q_load, shortest rest); swing = t_off·Q_load/C
//	t_on = C·swing/(Q_least − Q_load); N = 1/(t_on + t_off)
//
// Metal is not counted: a cast-iron boiler holds as much again as its own water or
// more, so the real burner starts less often. Nor is delay of sensor and pump.
//
// Units: load in W; times in s, starts per second.
// Range: water 0.1 L to 100 m³, differential 0.1 to 60 K, rest to 2 h, load from 0.
// Source: energy balance; same as N = 4·Nmax·x·(1 − x), NEMA DC 3 and ASHRAE from
// memory.
// Errors: a figure outside the range.
func (c Cycling) Under(load units.Power) (Cycle, error) {
	capacity, err := c.capacity()
	if err != nil {
		return Cycle{}, err
	}
	if err := refuse.Within("heat load", load, 0, mostPower); err != nil {
		return Cycle{}, err
	}
	swing := float64(c.Differential)
	switch {
	case load >= c.Least:
		return Cycle{Continuous: true, Share: 1}, nil
	case float64(load) < float64(c.Least)*1e-6:
		return Cycle{Idle: true, On: units.Time(capacity * swing / float64(c.Least)), Swing: c.Differential}, nil
	}
	off := capacity * swing / float64(load)
	if off < float64(c.LeastOff) {
		off = float64(c.LeastOff)
		swing = off * float64(load) / capacity
	}
	on := capacity * swing / float64(c.Least-load)
	return Cycle{
		On: units.Time(on), Off: units.Time(off), Starts: units.Frequency(1 / (on + off)),
		Share: units.Fraction(on / (on + off)), Swing: units.Difference(swing),
	}, nil
}

// MostStarts gives the most starts that any load can bring: at half the least output,
// or where the shortest rest begins to tell, if that is at a lower load.
//
//	Nmax = Q_least/(4·C·ΔT) at Q_least/2; with a shortest rest r at most that at C·ΔT/r
//
// Units: starts per second.
// Range: as [Cycling.Under].
// Source: energy balance; NEMA DC 3 and ASHRAE from memory.
// Errors: a figure outside the range.
func (c Cycling) MostStarts() (units.Frequency, error) {
	capacity, err := c.capacity()
	if err != nil {
		return 0, err
	}
	load := c.Least / 2
	if c.LeastOff > 0 {
		load = min(load, units.Power(capacity*float64(c.Differential)/float64(c.LeastOff)))
	}
	worst, err := c.Under(load)
	return worst.Starts, err
}

// DifferentialFor gives the differential at which the burner runs so long under a load.
//
//	ΔT = t_on·(Q_least − Q_load)/C
//
// Units: run in s, load in W, result in K.
// Range: run 10 s to 2 h; the answer must lie within 0.1 to 60 K.
// Source: energy balance.
// Errors: a figure outside the range, a load at which the burner runs through.
func (c Cycling) DifferentialFor(run units.Time, load units.Power) (units.Difference, error) {
	c.Differential = 1 // is asked for, not given
	capacity, err := c.capacity()
	if err != nil {
		return 0, err
	}
	if err := cmp.Or(refuse.Within("shortest run of the burner", run, 10, mostRest), refuse.Within("heat load", load, 0, mostPower)); err != nil {
		return 0, err
	}
	if load >= c.Least {
		return 0, fmt.Errorf("differential: the load of %s keeps the burner of at least %s running; any differential will do", refuse.Both(load), refuse.Both(c.Least))
	}
	d := units.Difference(float64(run) * float64(c.Least-load) / capacity)
	if d > mostDifferential {
		return 0, fmt.Errorf("differential: %s would be needed for runs of %s with %s of water; take a buffer instead", refuse.Both(d), refuse.Both(run), refuse.Both(c.Water))
	}
	return max(d, 0.1), nil
}

// AntiCyclingTime gives the shortest rest that keeps the starts to a number an hour
// under a load.
//
//	t_off = (1 − Q_load/Q_least)/N
//
// With no load to speak of it is 1/N, which holds for every load.
//
// Units: load and least output in W, starts per second, result in s.
// Range: 0.5 to 30 starts an hour, load from 0. 0 when the burner runs through.
// Source: energy balance. Common practice: 3 to 10 minutes.
// Errors: a figure outside the range.
func AntiCyclingTime(load, least units.Power, starts units.Frequency) (units.Time, error) {
	err := cmp.Or(
		refuse.Within("heat load", load, 0, mostPower),
		refuse.Within("least output of the boiler", least, 1, mostPower),
		refuse.Within("starts of the burner", starts, units.StartsPerHour(0.5), units.StartsPerHour(30)),
	)
	if err != nil {
		return 0, err
	}
	return units.Time(max(0, 1-float64(load/least)) / float64(starts)), nil
}

// Buffer gives the water that keeps a burner running so long while a load takes less
// than it gives. Water that is in flow anyway counts towards it.
//
//	V = t_on·(Q_source − Q_load)/(ρ·c·ΔT), 0 if the load takes it all
//
// Units: run in s, powers in W, swing in K; result in m³.
// Range: run 10 s to 2 h, source 100 W to 10 MW, load from 0, swing 1 to 60 K.
// Source: energy balance; 10 to 20 minutes and a swing of 10 to 20 K (20 to 40 °F) are
// common practice. The trade's "500" in place of ρ·c is right at 60 °F and 2 % high at
// 140 °F.
// Errors: a figure outside the range, or a buffer above 100 m³.
func Buffer(run units.Time, source, load units.Power, swing units.Difference, of fluid.Mixture, at units.Temperature) (units.Volume, error) {
	err := cmp.Or(
		refuse.Within("shortest run of the burner", run, 10, mostRest),
		refuse.Within("least output of the source", source, leastPower, mostPower),
		refuse.Within("heat load", load, 0, mostPower),
		refuse.Within("swing of the buffer", swing, 1, mostDifferential),
	)
	if err != nil {
		return 0, err
	}
	factor, err := of.HeatFactor(at)
	if err != nil {
		return 0, fmt.Errorf("buffer: %w", err)
	}
	v := units.Volume(float64(run) * max(0, float64(source-load)) / (float64(factor) * float64(swing)))
	return v, refuse.Within("buffer that the run needs", v, 0, mostVolume)
}

// Weather is a class of outdoor temperature in a season with the house's load in it.
type Weather struct {
	Outdoor units.Temperature
	Time    units.Time // how long it lasts in the season
	Load    units.Power
	Return  units.Temperature // of the water at the boiler, only for CondensingShare
}

// Season is what a burner does from autumn to spring.
type Season struct {
	Starts     units.Number
	Burning    units.Time
	Cycling    units.Time // hours in which it starts and stops
	Continuous units.Time // hours in which it runs through
	Worst      Cycle      // with the most starts an hour
	WorstAt    units.Temperature
}

// Season adds up the starts of a season.
//
//	Σ N(load)·time
//
// Units: hours by outdoor temperature with loads.
// Range: 1 to 10,000 classes, together at most 366 days; loads as [Cycling.Under].
// Source: energy balance.
// Errors: a figure outside the range.
func (c Cycling) Season(weather []Weather) (Season, error) {
	if err := checkWeather(weather); err != nil {
		return Season{}, err
	}
	var s Season
	for _, w := range weather {
		cycle, err := c.Under(w.Load)
		if err != nil {
			return Season{}, fmt.Errorf("season at %s outdoors: %w", refuse.Both(w.Outdoor), err)
		}
		s.Burning += w.Time * units.Time(cycle.Share)
		switch {
		case cycle.Continuous:
			s.Continuous += w.Time
		case !cycle.Idle:
			s.Cycling += w.Time
			s.Starts += units.Number(float64(cycle.Starts) * float64(w.Time))
			if cycle.Starts > s.Worst.Starts {
				s.Worst, s.WorstAt = cycle, w.Outdoor
			}
		}
	}
	return s, nil
}

func checkWeather(weather []Weather) error {
	if len(weather) < 1 || len(weather) > 10000 {
		return fmt.Errorf("season: %d classes of outdoor temperature given; accepted: 1 to 10,000", len(weather))
	}
	total := units.Time(0)
	for _, w := range weather {
		err := cmp.Or(
			refuse.Within("outdoor temperature", w.Outdoor, coldestAir, warmestAir),
			refuse.Within("hours in the class", w.Time, 0, units.Hours(8784)),
			refuse.Within("heat load", w.Load, 0, mostPower),
		)
		if err != nil {
			return fmt.Errorf("season at %s outdoors: %w", refuse.Both(w.Outdoor), err)
		}
		total += w.Time
	}
	return refuse.Within("season: hours together", total, 0, units.Hours(8784.001))
}
