package building

import (
	"math"

	"curvewright/units"
)

// Doubt is one reason why a loss coefficient may be wrong, as a standard error
// relative to the coefficient. The largest names the answer or measurement that
// would narrow the result most.
type Doubt struct {
	About string
	Share units.Fraction
}

// Together combines doubts that do not depend on each other.
//
//	s = √(Σ s²)
//
// Units: shares of one.
// Range: small independent errors, each not negative.
// Source: JCGM 100:2008 (GUM) clause 5.1.2.
func Together(doubts []Doubt) units.Fraction {
	sum := 0.0
	for _, d := range doubts {
		sum += float64(d.Share) * float64(d.Share)
	}
	return units.Fraction(math.Sqrt(sum))
}
