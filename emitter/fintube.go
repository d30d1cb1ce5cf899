package emitter

// What does fin-tube baseboard give in a real house? Its table is taken at high water
// temperatures, with air at 65 °F, and may hold 15 % that no thermometer ever finds.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

const (
	finTubeExponent     = 1.4172
	finTubeFlowExponent = 0.04
	heatingEffect       = 1.15

	// waterHeatCapacity turns a flow of heating water into heat capacity flow, J/(m³·K).
	// Water at 60 to 80 °C has 4.07e6 to 4.12e6; the flow correction's exponent of 0.04
	// makes one percent here worth 0.0004.
	waterHeatCapacity = 4.1e6
	gallonPerMinute   = 6.30901964e-5 * waterHeatCapacity // W/K

	// The flow correction is held below 0.25 gpm, where water in a 3/4 in tube turns
	// laminar (Re about 2,400 at 160 °F) and the law has nothing to say, and above
	// 10 gpm, faster than any such tube is run.
	leastFlowEffect = 0.25 * gallonPerMinute
	mostFlowEffect  = 10 * gallonPerMinute
)

// FinTubeAirOffset is how far the air that enters a baseboard at the floor usually
// lies below the room: 5 °F, common practice (a 70 °F room gives the 65 °F air of the
// rating).
const FinTubeAirOffset = units.Difference(5 * 5.0 / 9)

// FinTubeRating is one line of a baseboard's table.
type FinTubeRating struct {
	Length            units.Length      // active finned length, not the enclosure
	Output            units.LinearPower // as printed
	AverageWater      units.Temperature // of the table's column
	Flow              units.Flow        // of the table's line: 1 or 4 gpm
	EnteringAir       units.Temperature // zero means 65 °F, as the tables have it
	IncludesAllowance bool              // the printed output holds the 15 % heating-effect allowance
}

// FinTube makes the law of fin-tube baseboard from a line of its table. The
// heating-effect allowance is taken out where the table holds it.
//
//	q ∝ f^0.04·(Tw − Ta)^1.4172; K = L·Φ'/1.15/(Tw − Ta)^1.4172
//
// Units: as [FinTubeRating]; the offset in K.
// Range: length above 0 to 1,000 m; output above 0 to 5 kW/m; average water 10 to
// 150 K above the entering air; rated flow 0.25 to 10 gpm, and the flow correction is
// held at the ends of that range; offset 0 to 30 K.
// Source: output law from a hydronics textbook, from memory; the 15 % allowance from
// the ASHRAE Handbook, HVAC Systems and Equipment 2016, p. 36.3, as quoted in a trade
// article.
// Errors: a figure outside its range.
func FinTube(r FinTubeRating, airOffset units.Difference) (PowerLaw, error) {
	air := r.EnteringAir
	if air == 0 {
		air = units.Fahrenheit(65)
	}
	excess := r.AverageWater.Sub(air)
	rated := float64(r.Flow) * waterHeatCapacity
	switch {
	case !(r.Length > 0 && r.Length <= 1000):
		return PowerLaw{}, fmt.Errorf("baseboard: a finned length of %s is not usable; accepted: above 0 to 1,000 m", refuse.Both(r.Length))
	case !(r.Output > 0 && r.Output <= 5000):
		return PowerLaw{}, fmt.Errorf("baseboard: an output of %s is not usable; give the table's, for example 580 Btu/h·ft", refuse.Both(r.Output))
	case !(excess >= 10 && excess <= 150):
		return PowerLaw{}, fmt.Errorf("baseboard: average water at %s over entering air at %s is not usable; accepted: water 10 K to 150 K (18 °F to 270 °F) above the air", refuse.Both(r.AverageWater), refuse.Both(air))
	case !(rated >= leastFlowEffect*(1-1e-9) && rated <= mostFlowEffect*(1+1e-9)):
		return PowerLaw{}, fmt.Errorf("baseboard: a rated flow of %s is not usable; accepted: 0.25 gpm to 10 gpm, and tables use 1 gpm or 4 gpm", refuse.Both(r.Flow))
	}
	output := float64(r.Output) * float64(r.Length)
	if r.IncludesAllowance {
		output /= heatingEffect
	}
	law := PowerLaw{
		Coefficient: output / math.Pow(float64(excess), finTubeExponent),
		Exponent:    finTubeExponent,
		AirOffset:   airOffset,
		Water:       FlowEffect{Exponent: finTubeFlowExponent, Rated: units.LossCoefficient(rated)},
	}
	if err := law.Check(); err != nil {
		return PowerLaw{}, fmt.Errorf("baseboard: %w", err)
	}
	return law, nil
}
