package emitter

import "curvewright/units"

// Scaled gives the same emitter with its output multiplied: more of it, or what it
// would be if its rating were wrong by a factor.
//
//	K' = f·K for a power law; UA' = f·UA for a fan coil; each part of a combination
//
// Units: f as a share of one.
// Range: f above 0. The loss below a floor keeps its own coefficients.
// Source: definition; for a fan coil twice the UA is less than twice the heat.
func Scaled(e Emitter, f units.Fraction) Emitter {
	switch e := e.(type) {
	case PowerLaw:
		e.Coefficient *= float64(f)
		return e
	case Coil:
		e.transmission *= float64(f)
		return e
	case Series:
		out := make(Series, len(e))
		for i := range e {
			out[i] = Scaled(e[i], f)
		}
		return out
	case Parallel:
		out := Parallel{branches: make([]Branch, len(e.branches))}
		for i, b := range e.branches {
			out.branches[i] = Branch{Emitter: Scaled(b.Emitter, f), Share: b.Share}
		}
		return out
	}
	return e
}
