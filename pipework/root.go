package pipework

import "math"

// root finds where a function changes its sign between a and b by Chandrupatla's
// method (Advances in Engineering Software 28, 1997): inverse quadratic steps where
// they can be trusted, halving where not. It never leaves the bracket and takes at
// most a hundred steps. ok is false if the signs at the ends do not differ.
func root(f func(float64) float64, a, b, fa, fb, width float64) (x float64, ok bool) {
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case !(fa*fb < 0):
		return 0, false
	}
	// a is the newest point, b the one across the sign change, c the one before.
	a, b, fa, fb = b, a, fb, fa
	c, fc := b, fb
	step := 0.5
	for range 100 {
		x := a + step*(b-a)
		fx := f(x)
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		least := (0.5*width + 1e-14*math.Abs(best)) / math.Abs(b-a)
		if fbest == 0 || least > 0.5 {
			return best, true
		}
		step = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			step = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		step = math.Min(1-least, math.Max(least, step))
	}
	return a, true
}
