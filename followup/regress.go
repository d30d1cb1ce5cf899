package followup

// A straight relation through scattered readings that follow each other in time.

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// confidence is that of every interval: nine cases of ten.
const confidence = 0.90

// Fit is a linear regression, and how far it can be trusted.
type Fit struct {
	Coefficients []float64 // of the constant, then of each regressor
	Errors       []float64 // standard error of each, for readings that follow each other
	Residuals    []float64
	Scale        float64 // standard deviation of the residuals
	CVRMSE       float64 // of the mean
	NMBE         float64
	RSquared     float64
	Lag          float64 // correlation of a residual with the next
	Freedom      float64 // degrees of freedom that an interval may count on
	loglik       float64
	weights      []float64
}

// Interval gives the low and high end of a coefficient's interval.
//
//	b ± t(0.95, freedom)·error
//
// Units: those of the coefficient.
// Range: a coefficient of the fit.
// Source: Student's t; standard errors as [Regress] says.
func (f Fit) Interval(i int) (low, high float64) {
	t := quantileT(f.Freedom)
	return f.Coefficients[i] - t*f.Errors[i], f.Coefficients[i] + t*f.Errors[i]
}

func quantileT(freedom float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: math.Max(2, freedom)}.Quantile(0.5 + confidence/2)
}

const (
	huber     = 1.345 // in standard deviations: 95 % as good as least squares where errors are normal
	mostTurns = 50
)

// Regress fits y = b0 + Σ b·x. Robust holds the weight of far readings down by Huber's
// rule; without it the fit is that of least squares.
//
//	CV(RMSE) = √(Σe²/(n−p))/ȳ,  NMBE = Σe/((n−p)·ȳ)
//
// The standard errors are those of least squares, widened by the factor by which
// readings that resemble their neighbours know less:
//
//	√((1 + ρe·ρx)/(1 − ρe·ρx)),  ρ from reading to reading, corrected for its bias
//
// and by the estimate of Newey and West if that is wider still.
//
// Units: those of x and y.
// Range: at least two readings more than coefficients; regressors that differ.
// Source: Huber 1964 with k = 1.345; CV(RMSE) and NMBE of ASHRAE Guideline 14-2014;
// Newey and West 1987; the factor is that of a sum of products of two first-order
// series (Bartlett 1935, from memory).
// Errors: too few readings; a regressor that does not change.
func Regress(y []float64, x [][]float64, robust bool) (Fit, error) {
	n, p := len(y), len(x)+1
	if n < p+2 {
		return Fit{}, fmt.Errorf("%d readings for %d figures; at least %d are needed", n, p, p+2)
	}
	rows := make([][]float64, n)
	for i := range rows {
		rows[i] = make([]float64, p)
		rows[i][0] = 1
		for k := range x {
			rows[i][k+1] = x[k][i]
		}
	}
	w := make([]float64, n)
	for i := range w {
		w[i] = 1
	}
	var f Fit
	var inverse *mat.Dense
	for turn := 0; turn < mostTurns; turn++ {
		b, inv, err := weighted(rows, y, w)
		if err != nil {
			return Fit{}, err
		}
		change := 0.0
		for i := range f.Coefficients {
			change = math.Max(change, math.Abs(b[i]-f.Coefficients[i])/(math.Abs(b[i])+1e-9))
		}
		f.Coefficients, inverse = b, inv
		f.Residuals = residuals(rows, y, b)
		if !robust || turn > 0 && change < 1e-7 {
			break
		}
		s := medianScale(f.Residuals)
		if s <= 0 {
			break
		}
		for i, e := range f.Residuals {
			w[i] = 1
			if a := math.Abs(e) / s; a > huber {
				w[i] = huber / a
			}
		}
	}
	f.weights = w
	f.judge(rows, y, inverse)
	return f, nil
}

// weighted solves the normal equations after scaling each regressor by its size.
func weighted(rows [][]float64, y, w []float64) ([]float64, *mat.Dense, error) {
	p := len(rows[0])
	size := make([]float64, p)
	for _, r := range rows {
		for k, v := range r {
			size[k] = math.Max(size[k], math.Abs(v))
		}
	}
	a, b := mat.NewSymDense(p, nil), mat.NewVecDense(p, nil)
	for i, r := range rows {
		for k := range p {
			if size[k] == 0 {
				return nil, nil, errors.New("a figure that does not change says nothing")
			}
			b.SetVec(k, b.AtVec(k)+w[i]*r[k]/size[k]*y[i])
			for l := k; l < p; l++ {
				a.SetSym(k, l, a.At(k, l)+w[i]*r[k]/size[k]*r[l]/size[l])
			}
		}
	}
	var c mat.Cholesky
	if !c.Factorize(a) || c.Cond() > 1e13 {
		return nil, nil, errors.New("two figures change together, so that neither can be told from the other")
	}
	var solved mat.VecDense
	if err := c.SolveVecTo(&solved, b); err != nil {
		return nil, nil, errors.New("two figures change together, so that neither can be told from the other")
	}
	var inv mat.SymDense
	if err := c.InverseTo(&inv); err != nil {
		return nil, nil, errors.New("two figures change together, so that neither can be told from the other")
	}
	out, dense := make([]float64, p), mat.NewDense(p, p, nil)
	for k := range p {
		out[k] = solved.AtVec(k) / size[k]
		for l := range p {
			dense.Set(k, l, inv.At(k, l)/size[k]/size[l])
		}
	}
	return out, dense, nil
}

func residuals(rows [][]float64, y, b []float64) []float64 {
	e := make([]float64, len(y))
	for i, r := range rows {
		e[i] = y[i]
		for k, v := range r {
			e[i] -= b[k] * v
		}
	}
	return e
}

// medianScale is a standard deviation by the median, which a tenth of wild readings does
// not move.
func medianScale(e []float64) float64 {
	a := make([]float64, len(e))
	for i, v := range e {
		a[i] = math.Abs(v)
	}
	return median(a) / 0.6745
}

// median sorts x.
func median(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	slices.Sort(x)
	if n := len(x); n%2 == 0 {
		return (x[n/2-1] + x[n/2]) / 2
	}
	return x[len(x)/2]
}

// judge works out statistics and standard errors.
func (f *Fit) judge(rows [][]float64, y []float64, inverse *mat.Dense) {
	n, p := float64(len(y)), float64(len(rows[0]))
	mean, sum, squares, weight := 0.0, 0.0, 0.0, 0.0
	for i, v := range y {
		mean += v / n
		sum += f.Residuals[i]
		squares += f.Residuals[i] * f.Residuals[i]
		weight += f.weights[i]
	}
	total := 0.0
	for _, v := range y {
		total += (v - mean) * (v - mean)
	}
	f.Scale = math.Sqrt(squares / (n - p))
	if mean != 0 {
		f.CVRMSE, f.NMBE = f.Scale/math.Abs(mean), sum/((n-p)*mean)
	}
	if total > 0 {
		f.RSquared = 1 - squares/total
	}
	f.loglik = -n / 2 * (math.Log(2*math.Pi*math.Max(squares, 1e-300)/n) + 1)
	f.Lag = lagged(f.Residuals)
	rho := f.Lag
	if rho > 0 {
		rho = math.Min(0.95, rho+(1+3*rho)/n) // its estimate is too small in short series
	}
	hac := neweyWest(rows, f.Residuals, f.weights, inverse)
	f.Errors = make([]float64, int(p))
	widest := 1.0
	plain := f.Scale * math.Sqrt(n/weight)
	for k := range f.Errors {
		column := make([]float64, len(rows))
		for i := range rows {
			column[i] = rows[i][k]
		}
		rx := 1.0 // a constant resembles itself
		if k > 0 {
			rx = math.Max(0, lagged(column))
		}
		widen := math.Max(1, (1+rho*rx)/(1-rho*rx))
		widest = math.Max(widest, widen)
		own := plain * plain * inverse.At(k, k) * n / weight * widen
		f.Errors[k] = math.Sqrt(math.Max(own, hac[k]))
	}
	f.Freedom = math.Max(3, n/widest-p)
}

// lagged is the correlation of each value with the next.
func lagged(x []float64) float64 {
	mean := 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	a, b := 0.0, 0.0
	for i, v := range x {
		b += (v - mean) * (v - mean)
		if i > 0 {
			a += (v - mean) * (x[i-1] - mean)
		}
	}
	if b <= 0 {
		return 0
	}
	return a / b
}

// neweyWest gives the variances of the coefficients from the residuals as they follow
// each other.
func neweyWest(rows [][]float64, e, w []float64, inverse *mat.Dense) []float64 {
	n, p := len(rows), len(rows[0])
	lags := int(4*math.Pow(float64(n)/100, 2.0/9)) + 1
	meat := mat.NewDense(p, p, nil)
	for lag := 0; lag <= min(lags, n-1); lag++ {
		share := 1 - float64(lag)/float64(lags+1)
		for i := lag; i < n; i++ {
			for k := range p {
				a := rows[i][k] * e[i] * w[i]
				for l := range p {
					v := share * a * rows[i-lag][l] * e[i-lag] * w[i-lag]
					meat.Set(k, l, meat.At(k, l)+v)
					if lag > 0 {
						meat.Set(l, k, meat.At(l, k)+v)
					}
				}
			}
		}
	}
	var half, whole mat.Dense
	half.Mul(inverse, meat)
	whole.Mul(&half, inverse)
	out := make([]float64, p)
	for k := range out {
		out[k] = math.Max(0, whole.At(k, k)) * float64(n) / float64(n-p)
	}
	return out
}
