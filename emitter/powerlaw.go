package emitter

// What do a radiator, a baseboard and a heated floor have in common? Their heat is a
// power of the water's mean excess over the air. This file solves that law with the
// water's own energy balance, in both directions. A simulated year asks for it a
// million times, so the forward solution is short and does not allocate.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// PowerLaw is an emitter whose heat to the room is a power of the logarithmic excess
// temperature of its water over its air.
//
//	q = K · f · M^n, with M the logarithmic mean of the water's excess over the air
//
// It is an [Emitter]. A law that fails [PowerLaw.Check] gives no heat.
type PowerLaw struct {
	Coefficient float64          // K, in W/K^n
	Exponent    units.Number     // n, from 1 to 2
	AirOffset   units.Difference // entering air below the room: cold air along the floor at a baseboard
	Water       FlowEffect       // what the water's speed does to K
	Down        Behind           // heat that leaves the water but not into the room
}

// FlowEffect makes the coefficient follow the flow: f = (flow/Rated)^Exponent. The
// zero value has no effect.
type FlowEffect struct {
	Exponent units.Number
	Rated    units.LossCoefficient // heat capacity flow at the rating, W/K
}

// Behind is the heat that the water loses behind or below, beside what the room
// gets: loss = PerRoom·q + Conductance·(room − Temperature), never below zero. The
// zero value loses nothing.
type Behind struct {
	PerRoom     units.Fraction        // for each watt to the room
	Conductance units.LossCoefficient // to the space below, W/K
	Temperature units.Temperature     // of the space below
}

const (
	highestSupply = units.Temperature(273.15 + 150) // no house heats with hotter water
	largestFlow   = 1e7                             // W/K, far beyond a house: about 2.4 m³/s of water
	largestExcess = 1000.0                          // K
	newtonSteps   = 40                              // two or three do it; the bound is for the unforeseen
	lastStep      = 5e-4                            // share of M; its square or less, below 1e-6, is left
)

// Check says what is wrong with a law, if anything.
//
// Units: as the fields.
// Range: K above 0; n from 1 to 2; air offset 0 to 30 K; flow exponent 0 to 0.5 with
// a rated flow above 0; shares and conductances not negative.
// Source: bounds of sense around EN 442 exponents (1.0 to 1.5); common practice.
// Errors: the first field outside its range.
func (p PowerLaw) Check() error {
	switch {
	case !(p.Coefficient > 0 && p.Coefficient < 1e9):
		return fmt.Errorf("emitter: the coefficient of %g W/K^n is not usable; it must lie above 0", p.Coefficient)
	case !(p.Exponent >= 1 && p.Exponent <= 2):
		return fmt.Errorf("emitter: the exponent of %g is not usable; accepted: 1 to 2 (panel radiator 1.3)", float64(p.Exponent))
	case !(p.AirOffset >= 0 && p.AirOffset <= 30):
		return fmt.Errorf("emitter: entering air %s below the room is not usable; accepted: 0 to 30 K", refuse.Both(p.AirOffset))
	case !(p.Water.Exponent >= 0 && p.Water.Exponent <= 0.5):
		return fmt.Errorf("emitter: the flow exponent of %g is not usable; accepted: 0 to 0.5", float64(p.Water.Exponent))
	case p.Water.Exponent > 0 && !(p.Water.Rated > 0 && p.Water.Rated <= largestFlow):
		return fmt.Errorf("emitter: the rated flow of %s is not usable; it must lie above 0", refuse.Both(p.Water.Rated))
	case !(p.Down.PerRoom >= 0 && p.Down.PerRoom < 100):
		return fmt.Errorf("emitter: a loss behind of %s of the room's heat is not usable; accepted: 0 or more", refuse.Both(p.Down.PerRoom))
	case !(p.Down.Conductance >= 0 && p.Down.Conductance <= largestFlow):
		return fmt.Errorf("emitter: a conductance behind of %s is not usable; accepted: 0 or more", refuse.Both(p.Down.Conductance))
	case p.Down.Conductance > 0 && !(p.Down.Temperature > 150 && p.Down.Temperature < 500):
		return fmt.Errorf("emitter: the space behind at %s is not usable; give its temperature, for example 10 °C", refuse.Both(p.Down.Temperature))
	}
	return nil
}

// AtExcess gives the heat to the room at a mean excess of the water over the
// emitter's air, as a rating table would print it.
//
//	q = K · f · M^n
//
// Units: excess in K, flow in W/K; result in W.
// Range: excess above 0, else 0; the flow matters only where the law has a
// [FlowEffect].
// Source: EN 442-2 characteristic equation; for floors EN 1264-2.
func (p PowerLaw) AtExcess(excess units.Difference, flow units.LossCoefficient) units.Power {
	if !(excess > 0 && excess <= largestExcess && flow > 0 && flow <= largestFlow) || p.Check() != nil {
		return 0
	}
	return units.Power(p.Coefficient * p.flowFactor(float64(flow)) * math.Pow(float64(excess), float64(p.Exponent)))
}

// Output gives the heat at a supply temperature, flow and room temperature. The
// return is where the emitter's law and the water's energy balance agree:
//
//	K·f·M^n·(1 + PerRoom) + Conductance·(room − below) = C·(Ts − Tr)
//	Tr − Ta = (Ts − Ta)·e^(−N), N = C·(Ts − Tr)/(C·M)
//
// Solved for M by Newton's method; n = 1 without a steady loss is closed:
// Tr − Ta = (Ts − Ta)·e^(−K/C). The water never leaves cooler than the room: where
// air below room temperature, or a cold space below, would take more than the water
// carries, it takes what there is.
//
// Units: supply and room in K, flow in W/K; result in W and K.
// Range: supply above the room, flow above 0 to 1e7 W/K; otherwise no heat.
// Source: characteristic equation of EN 442-2, EN 1264-2; energy balance.
func (p PowerLaw) Output(supply units.Temperature, flow units.LossCoefficient, room units.Temperature) Heat {
	air := room - units.Temperature(p.AirOffset)
	excess, capacity := float64(supply-air), float64(flow)
	if !(supply > room && excess <= largestExcess && capacity > 0 && capacity <= largestFlow) || p.Check() != nil {
		return idle(supply, room)
	}
	perUnit := p.Coefficient * p.flowFactor(capacity) / capacity
	exponent := float64(p.Exponent)
	share, steady := float64(p.Down.PerRoom), p.steadyLoss(room)

	given := cooling(excess, perUnit*(1+share), exponent, steady/capacity)
	if steady < 0 {
		// A space below that is warmer than the room may spare the water its loss but
		// must not heat it, so the law without a loss is the other bound.
		given = max(given, cooling(excess, perUnit, exponent, 0))
	}
	drop := min(excess*given, float64(supply-room))
	water := capacity * drop
	return Heat{
		Room:   units.Power(max(0, min(water, (water-steady)/(1+share)))),
		Water:  units.Power(water),
		Return: supply - units.Temperature(drop),
	}
}

// SupplyFor gives the supply temperature at which the room gets the heat q.
//
//	Q = q + loss behind; D = Q/C; M = (q/(K·f))^(1/n); Ts = Ta + D/(1 − e^(−D/M))
//
// Where the entering air is colder than the room, a small heat could be had from water
// that leaves cooler than the room, which [PowerLaw.Output] does not count: the answer
// is then at least the room temperature and the drop.
//
// Units: q in W, flow in W/K, room in K; result in K.
// Range: q from 0; flow above 0; answers to 150 °C (302 °F).
// Source: inverse of the characteristic equation of EN 442-2, EN 1264-2.
// Errors: a law that fails Check, a negative heat, no flow, a supply above 150 °C.
func (p PowerLaw) SupplyFor(q units.Power, flow units.LossCoefficient, room units.Temperature) (units.Temperature, error) {
	if err := p.Check(); err != nil {
		return 0, err
	}
	if err := checkDemand(q, flow, room); err != nil || q == 0 {
		return room, err
	}
	capacity := float64(flow)
	loss := max(0, float64(p.Down.PerRoom)*float64(q)+p.steadyLoss(room))
	drop := (float64(q) + loss) / capacity
	mean := math.Pow(float64(q)/(p.Coefficient*p.flowFactor(capacity)), 1/float64(p.Exponent))
	supply := room - units.Temperature(p.AirOffset) + units.Temperature(inletExcess(mean, drop))
	return withinHouse(max(supply, room+units.Temperature(drop)), q, flow)
}

// flowFactor is f, with the flow held within the range of the law.
func (p PowerLaw) flowFactor(capacity float64) float64 {
	if p.Water.Exponent == 0 {
		return 1
	}
	held := min(max(capacity, leastFlowEffect), mostFlowEffect)
	return math.Exp(float64(p.Water.Exponent) * math.Log(held/float64(p.Water.Rated)))
}

func (p PowerLaw) steadyLoss(room units.Temperature) float64 {
	return float64(p.Down.Conductance) * float64(room-p.Down.Temperature)
}

// cooling gives the share of its excess that the water gives up, from 0 to 1, when
// its drop is a·M^n + g. G(M) = M·ψ(N) − D, with N = a·M^(n−1) + g/M, rises and is
// convex in M for n ≥ 1, so Newton's method comes down on the root from above and
// needs no bracket; the guard against M ≤ 0 serves only the first step.
func cooling(excess, a, n, g float64) float64 {
	if g >= excess {
		return 1
	}
	if n == 1 && g == 0 {
		return -math.Expm1(-a)
	}
	mean := firstMean(excess, a, n, g)
	given := 0.0 // 1 − e^(−N) = N/ψ
	for range newtonSteps {
		power := a
		if n != 1 {
			power *= math.Exp((n - 1) * math.Log(mean))
		}
		transfer := power + g/mean
		ratio, slope := inletRatio(transfer)
		step := (mean*ratio - excess) / (ratio + slope*(n*power-transfer))
		step = min(step, mean/2)
		// The last step carries N and ψ along by their slopes instead of a new round.
		change := -step * (n*power - transfer) / mean
		given = max(0, (transfer+change)/(ratio+slope*change))
		if math.Abs(step) < lastStep*mean {
			break
		}
		mean -= step
	}
	return given
}

// firstMean is a guess of M within a percent or so for usual flows: N from M as if N
// were small, then M from N by x·coth x ≈ √(1 + 2x²/3), x = N/2.
func firstMean(excess, a, n, g float64) float64 {
	power := a
	if n != 1 {
		power *= math.Exp((n - 1) * math.Log(excess))
	}
	if g != 0 {
		mean := (excess - g/2) / (1 + power/2)
		if g < 0 {
			mean = max(mean, math.Pow(-g/a, 1/n)) // from here on the drop, and N, is not negative
		}
		return mean
	}
	half := power / (2 + (n-1)*power)
	return excess / (half + math.Sqrt(1+half*half*(2.0/3)))
}

// inletRatio gives ψ(N) = N/(1 − e^(−N)), the inlet excess over the mean excess, and
// its derivative. Near zero both are 0/0 and the series takes over.
func inletRatio(n float64) (ratio, slope float64) {
	if math.Abs(n) < 1e-3 {
		return 1 + n/2 + n*n/12, 0.5 + n/6
	}
	e := math.Exp(-n)
	ratio = n / (1 - e)
	return ratio, (1 - ratio*e) / (1 - e)
}

// idle is the answer where there is no heat to give.
func idle(supply, room units.Temperature) Heat {
	switch {
	case finite(float64(supply)):
		return Heat{Return: supply}
	case finite(float64(room)):
		return Heat{Return: room}
	}
	return Heat{}
}
