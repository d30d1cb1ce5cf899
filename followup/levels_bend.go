package followup

// A curve that is no line.

import "math"

// bendOf asks whether the hours follow a bent curve, as an exponent or a table makes it,
// rather than a line. Slope and middle stay those of the line.
func (c *Curve) bendOf(y, x, outs []float64) {
	n := len(outs)
	c.from, c.to = outs[n/20]-c.middle, outs[n*19/20]-c.middle
	square := make([]float64, len(x))
	for i, v := range x {
		square[i] = v * v
	}
	bent, err := Regress(y, [][]float64{x, square}, true)
	if err != nil {
		return
	}
	// Hours that follow each other make a bend look surer than it is.
	rho := math.Min(0.95, math.Max(0, bent.Lag))
	gain := 2 * (bent.loglik - c.fit.loglik) * (1 - rho) / (1 + rho)
	across := math.Abs(bent.Coefficients[2]) * squared(c.to-c.from) / 4 // what the bend makes in the middle
	if math.Abs(bent.Coefficients[2]) < 3*bent.Errors[2] || across < leastBend || gain < 12 {
		return
	}
	c.fit, c.bend = bent, bent.Coefficients[2]
}

func squared(x float64) float64 { return x * x }

// free gives the curve without its limits. Beyond the weather of the log it goes on
// straight.
func (c *Curve) free(out float64) float64 {
	x := out - c.middle
	v := c.fit.Coefficients[0] + c.fit.Coefficients[1]*x
	if c.bend == 0 {
		return v
	}
	edge := math.Min(math.Max(x, c.from), c.to)
	return v + c.bend*edge*edge + 2*c.bend*edge*(x-edge)
}
