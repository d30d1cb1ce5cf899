package boiler

// How well does a boiler turn fuel into hot water at a return temperature and a firing
// rate? The flue gas leaves a little hotter than the water comes back, the less so the
// lower the fire; the jacket loses the same at any fire. Makers' points tune both.

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Basis is the heat that an efficiency is counted against.
type Basis int

// The two bases. North America and the gas bill count gross, most European catalogues
// net.
const (
	Gross Basis = iota
	Net
)

// Model is a boiler in steady fire. Make one with [NewModel]; the zero value is refused
// by its methods.
type Model struct {
	// Approach is by how much the flue gas leaves hotter than the water comes back, at
	// full fire; at a lower firing rate it is Approach·rate^Exponent.
	Approach units.Difference
	Exponent units.Number
	// Jacket is lost through the jacket when the water comes back 50 K above the room, as
	// a share of the gross input at full fire. At other temperatures it goes with their
	// difference, and it does not shrink with the fire.
	Jacket units.Fraction
	// LeastRate is the lowest firing rate, as a share of the full one.
	LeastRate units.Fraction

	gas FlueGas
}

// Usual figures of boilers about which nothing is known, all common practice.
const (
	UsualApproach        = units.Difference(8)   // condensing boiler, full fire
	UsualApproachDry     = units.Difference(110) // cast iron or steel, not condensing
	UsualExponent        = units.Number(1)
	UsualJacket          = units.Fraction(0.005)
	jacketExcess         = 50.0 // K
	mostApproach         = units.Difference(250)
	mostExponent         = units.Number(2)
	mostJacket           = units.Fraction(0.05)
	coolestReturn        = units.Temperature(278.15) // 5 °C
	hottestReturn        = units.Temperature(383.15) // 110 °C
	leastRate            = units.Fraction(0.02)
	doubtfulFit          = units.Fraction(0.05)
	refusedEfficiencyLow = units.Fraction(0.5)
)

// NewModel makes a boiler that burns a fuel with so much excess air, with the usual
// figures for its kind.
//
//	exit gas = return + Approach·rate^Exponent
//	η = η(exit gas, heat balance) − Jacket·(return − room)/50 K/rate
//
// The room is as warm as the combustion air, but not below 5 °C. Real burners often
// take more excess air at low fire; the model keeps one figure.
//
// Units: excess air a share, least firing rate a share of full fire.
// Range: excess 0 to 400 %, least rate 2 to 100 % (100 % for on and off).
// Source: heat balance, [FlueGas.Leaving]; the law of the approach is an assumption
// after heat-exchanger theory, tuned with [Model.Calibrated]; starting figures common
// practice.
// Errors: a figure outside the range.
func NewModel(fuel Fuel, excess units.Fraction, air Air, condensing bool, least units.Fraction) (Model, error) {
	gas, err := fuel.Burn(excess, air)
	if err != nil {
		return Model{}, err
	}
	m := Model{Approach: UsualApproach, Exponent: UsualExponent, Jacket: UsualJacket, LeastRate: least, gas: gas}
	if !condensing {
		m.Approach = UsualApproachDry
	}
	return m, m.check()
}

func (m Model) check() error {
	if m.gas.check() != nil {
		return fmt.Errorf("efficiency: the boiler has no fuel; choose one first")
	}
	return cmp.Or(
		refuse.Within("flue gas above return at full fire", m.Approach, 0, mostApproach),
		refuse.Within("exponent of the approach", m.Exponent, 0, mostExponent),
		refuse.Within("jacket loss", m.Jacket, 0, mostJacket),
		refuse.Within("least firing rate", m.LeastRate, leastRate, 1),
	)
}

// FlueGas gives the gas that the boiler burns to.
//
// Range: any model.
// Source: [Fuel.Burn].
func (m Model) FlueGas() FlueGas { return m.gas }

// ExitGas gives the temperature at which the flue gas leaves.
//
//	return + Approach·rate^Exponent
//
// Units: return in K, firing rate as a share of full fire.
// Range: return 5 to 110 °C, firing rate from the least to 1.
// Source: as [NewModel].
// Errors: a figure outside the range.
func (m Model) ExitGas(back units.Temperature, rate units.Fraction) (units.Temperature, error) {
	if err := cmp.Or(m.check(), m.checkPoint(back, rate)); err != nil {
		return 0, err
	}
	return m.exitGas(back, rate), nil
}

func (m Model) checkPoint(back units.Temperature, rate units.Fraction) error {
	return cmp.Or(
		refuse.Within("return temperature at the boiler", back, coolestReturn, hottestReturn),
		refuse.Within("firing rate", rate, m.LeastRate, 1),
	)
}

func (m Model) exitGas(back units.Temperature, rate units.Fraction) units.Temperature {
	approach := float64(m.Approach)
	if rate != 1 {
		approach *= math.Pow(float64(rate), float64(m.Exponent))
	}
	return back + units.Temperature(approach)
}

// Efficiency gives the steady efficiency at a return temperature and firing rate. It
// falls as the return rises, about ten times as fast just below the dew point as above.
//
//	η = η(exit gas) − Jacket·(return − room)/50 K/rate, not below 0
//
// Units: return in K, firing rate as a share of full fire; the result a share of gross
// or net heat.
// Range: return 5 to 110 °C, firing rate from the least to 1.
// Source: as [NewModel].
// Errors: a figure outside the range.
func (m Model) Efficiency(back units.Temperature, rate units.Fraction, basis Basis) (units.Fraction, error) {
	if err := cmp.Or(m.check(), m.checkPoint(back, rate)); err != nil {
		return 0, err
	}
	return m.efficiency(back, rate, basis), nil
}

func (m Model) efficiency(back units.Temperature, rate units.Fraction, basis Basis) units.Fraction {
	room := max(m.gas.Air.Temperature, units.Celsius(5))
	jacket := float64(m.Jacket) * max(0, float64(back-room)) / jacketExcess / float64(rate)
	gross := max(0, m.gas.leaving(m.exitGas(back, rate)).Gross-units.Fraction(jacket))
	if basis == Net {
		return gross * units.Fraction(m.gas.Fuel.GrossToNet())
	}
	return gross
}

// RatedPoint is an efficiency that the maker declares.
type RatedPoint struct {
	Return     units.Temperature
	Rate       units.Fraction // of full fire
	Efficiency units.Fraction
	Basis      Basis
}

// Fit tells how well the model meets the points.
type Fit struct {
	Mean  units.Fraction // root of the mean square of what is left, gross
	Worst units.Fraction // the largest of them
	At    RatedPoint     // where
}

// How far a figure may stray from where it started for the price of one thousandth of
// efficiency: it matters only for figures about which the points say nothing.
var fitPrior = [3]float64{200, 5, 0.10}

const (
	fitRounds = 300
	fitShrink = 0.6
	fitFinest = 1e-5 // share of the range
)

// Calibrated bends approach, exponent and jacket loss to a maker's points.
//
//	least Σ (η − η maker)² + 0.001²·Σ ((x − x start)/s)², s = 200 K, 5, 10 %
//
// The second sum keeps a figure about which the points say nothing (the exponent, if
// all are at full fire) where it was. The search lays a grid of 5 × 5 × 5 around the best
// so far and narrows it whenever no point of it is better, 300 rounds at most: bounded,
// and the same answer each time.
//
// Units: points with return temperature, firing rate and efficiency on either basis.
// Range: 1 to 50 points; return and rate as [Model.Efficiency], efficiency 50 to 115 %.
// Approach stays within 0 to 250 K, exponent 0 to 2, jacket loss 0 to 5 %.
// Source: least squares with bounds.
// Errors: no points, a point outside the range, or a point that the best fit misses by
// more than 5 points of efficiency: mostly a net efficiency entered as gross.
func (m Model) Calibrated(points []RatedPoint) (Model, Fit, error) {
	if err := m.check(); err != nil {
		return Model{}, Fit{}, err
	}
	if len(points) < 1 || len(points) > 50 {
		return Model{}, Fit{}, fmt.Errorf("maker's efficiencies: %d points given; accepted: 1 to 50", len(points))
	}
	for i, p := range points {
		err := cmp.Or(m.checkPoint(p.Return, p.Rate), refuse.Within("efficiency", p.Efficiency, refusedEfficiencyLow, 1.15))
		if err != nil {
			return Model{}, Fit{}, fmt.Errorf("maker's efficiencies: point %d: %w", i+1, err)
		}
	}
	fitted := m.search(points)
	fit := fitted.fit(points)
	if fit.Worst > doubtfulFit {
		return Model{}, fit, fmt.Errorf("maker's efficiencies: %s at a return of %s does not fit a boiler for %s with %s excess air, off by %s; check whether the figure counts gross or net heat, and the return temperature",
			refuse.Both(fit.At.Efficiency), refuse.Both(fit.At.Return), m.gas.Fuel.Name, refuse.Both(m.gas.Excess), refuse.Both(fit.Worst))
	}
	return fitted, fit, nil
}

// search narrows the grid.
func (m Model) search(points []RatedPoint) Model {
	start := [3]float64{float64(m.Approach), float64(m.Exponent), float64(m.Jacket)}
	top := [3]float64{float64(mostApproach), float64(mostExponent), float64(mostJacket)}
	with := func(x [3]float64) Model {
		m.Approach, m.Exponent, m.Jacket = units.Difference(x[0]), units.Number(x[1]), units.Fraction(x[2])
		return m
	}
	cost := func(x [3]float64) float64 {
		sum := 0.0
		for i := range x {
			d := 0.001 * (x[i] - start[i]) / fitPrior[i]
			sum += d * d
		}
		trial := with(x)
		for _, p := range points {
			d := trial.miss(p)
			sum += d * d
		}
		return sum
	}
	best, least := start, cost(start)
	scale := 0.5
	for range fitRounds {
		centre, before := best, least
		for k := range 125 {
			var x [3]float64
			for i, step := range [3]int{k%5 - 2, k/5%5 - 2, k/25 - 2} {
				x[i] = min(top[i], max(0, centre[i]+float64(step)/2*scale*top[i]))
			}
			if c := cost(x); c < least {
				best, least = x, c
			}
		}
		if least == before {
			scale *= fitShrink
		}
		if scale < fitFinest {
			break
		}
	}
	return with(best)
}

// miss gives what the model makes more than a point, gross.
func (m Model) miss(p RatedPoint) float64 {
	declared := p.Efficiency
	if p.Basis == Net {
		declared /= units.Fraction(m.gas.Fuel.GrossToNet())
	}
	return float64(m.efficiency(p.Return, p.Rate, Gross) - declared)
}

func (m Model) fit(points []RatedPoint) Fit {
	f, sum := Fit{At: points[0]}, 0.0
	for _, p := range points {
		d := m.miss(p)
		sum += d * d
		if w := units.Fraction(math.Abs(d)); w > f.Worst {
			f.Worst, f.At = w, p
		}
	}
	f.Mean = units.Fraction(math.Sqrt(sum / float64(len(points))))
	return f
}
