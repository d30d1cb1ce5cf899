package emitter

// What does a radiator give away from the temperatures it was rated at? Its maker
// declares an output at one set of temperatures and an exponent; the rest follows.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// RadiatorKind is a family of radiators with one usual exponent.
type RadiatorKind string

// The kinds.
const (
	Panel     RadiatorKind = "panel"      // steel panel radiator
	Column    RadiatorKind = "column"     // column or sectional radiator, cast iron included
	TowelBars RadiatorKind = "towel rail" // towel rail, bare
	Convector RadiatorKind = "convector"  // convector without a fan
)

// Exponent gives the usual exponent of a kind, for when its maker declares none.
//
// Units: none.
// Range: panel 1.25–1.35, column 1.28–1.33, towel rail 1.2–1.3, convector 1.3–1.45;
// the middle of each is given. 0 for a kind that is not listed.
// Source: EN 442 test reports and handbooks, from memory.
func (k RadiatorKind) Exponent() units.Number {
	switch k {
	case Panel, Column:
		return 1.3
	case TowelBars:
		return 1.25
	case Convector:
		return 1.4
	}
	return 0
}

// Rating is the temperatures at which an output was declared.
type Rating struct {
	Supply, Return, Room units.Temperature
}

// RatedAtExcess gives the rating for an output declared at a mean excess alone, such
// as ΔT50, ΔT30 or ΔT60. The drop is taken as a fifth of the excess, as at 75/65/20 °C,
// so that ratings at several excesses keep their ratio.
//
//	supply = 20 °C + 1.1·ΔT; return = 20 °C + 0.9·ΔT; room = 20 °C
//
// Units: excess in K.
// Range: excess above 0; [Radiator] refuses the rest.
// Source: EN 442-1 (ΔT50 is 75/65/20 °C); the same shape at other excesses is an
// assumption, worth at most 0.5 %.
func RatedAtExcess(excess units.Difference) Rating {
	room := units.Celsius(20)
	return Rating{Supply: room + units.Temperature(1.1*excess), Return: room + units.Temperature(0.9*excess), Room: room}
}

// Radiator makes the law of a radiator from one declared output. The rating enters by
// its logarithmic excess (75/65/20 °C: 49.833 K, not 50), the mean by which the law
// is used afterwards.
//
//	K = Φ/ΔT_log^n
//
// Units: output in W, rating in K.
// Range: output above 0 to 1 MW; return above the room; exponent 1 to 2.
// Source: EN 442-2 characteristic equation.
// Errors: an output, rating or exponent outside its range.
func Radiator(output units.Power, at Rating, exponent units.Number) (PowerLaw, error) {
	if !(output > 0 && output <= 1e6) {
		return PowerLaw{}, fmt.Errorf("radiator: an output of %s is not usable; give the declared output, for example 1.5 kW or 5,100 Btu/h", refuse.Both(output))
	}
	excess, err := LogarithmicExcess(at.Supply, at.Return, at.Room)
	if err != nil {
		return PowerLaw{}, fmt.Errorf("radiator: rating: %w", err)
	}
	law := PowerLaw{Coefficient: float64(output) / math.Pow(float64(excess), float64(exponent)), Exponent: exponent}
	if err := law.Check(); err != nil {
		return PowerLaw{}, fmt.Errorf("radiator: %w", err)
	}
	return law, nil
}

// TowelRail makes the law of a bare towel rail from one declared output, with the
// usual exponent. Towels on it cost output that no rating counts.
//
//	K = Φ/ΔT_log^1.25
//
// Units: output in W, rating in K.
// Range: as [Radiator].
// Source: EN 442-2 characteristic equation; the exponent from memory.
// Errors: as [Radiator].
func TowelRail(output units.Power, at Rating) (PowerLaw, error) {
	return Radiator(output, at, TowelBars.Exponent())
}

// ExponentFromOutputs gives the exponent from two declared outputs.
//
//	n = ln(Φ1/Φ2)/ln(ΔT1/ΔT2)
//
// Units: outputs in W, excesses in K; result without unit.
// Range: two different excesses above 0; the answer must lie from 1 to 2.
// Source: EN 442-2 characteristic equation.
// Errors: outputs or excesses not above 0 or equal, an exponent outside 1 to 2.
func ExponentFromOutputs(first units.Power, firstExcess units.Difference, second units.Power, secondExcess units.Difference) (units.Number, error) {
	if !(first > 0 && second > 0 && firstExcess > 0 && secondExcess > 0) || firstExcess == secondExcess ||
		!finite(float64(first), float64(second), float64(firstExcess), float64(secondExcess)) {
		return 0, fmt.Errorf("radiator exponent: %s at %s and %s at %s do not give one; two outputs at two different excesses are needed, for example 1 kW at 50 K and 515 W at 30 K",
			refuse.Both(first), refuse.Both(firstExcess), refuse.Both(second), refuse.Both(secondExcess))
	}
	n := math.Log(float64(first/second)) / math.Log(float64(firstExcess/secondExcess))
	if !(n >= 1 && n <= 2) {
		return 0, fmt.Errorf("radiator exponent: %s at %s and %s at %s give %.2f; accepted: 1 to 2, so check that both outputs belong to the same radiator",
			refuse.Both(first), refuse.Both(firstExcess), refuse.Both(second), refuse.Both(secondExcess), n)
	}
	return units.Number(n), nil
}
