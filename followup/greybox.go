package followup

// The inertia of the house: models of one and of two heat stores, fitted to the hours by
// maximum likelihood.

import (
	"context"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat/distuv"

	"curvewright/units"
)

// Thermal is the house as a few heat stores.
type Thermal struct {
	Model    string // that was chosen: "one store", "two stores, loss from the air", "two stores, loss through the mass"
	Loss     Estimate[units.LossCoefficient]
	Constant Estimate[units.Time] // in which the rooms cool by 63 % of the way to outdoors, unheated
	Aperture Estimate[units.Area] // towards the sun as logged
	White    bool                 // what remains from hour to hour is without pattern
	Tried    []ThermalTry
	Hours    int
	Residual []ResidualPoint // of the chosen one: what each hour came out beside the forecast
}

// ThermalTry is a model that was tried.
type ThermalTry struct {
	Model         string
	LogLikelihood float64
	AIC           float64
	Gain          float64 // chance that the next simpler one would look so much worse by luck
	White         float64 // chance that noise alone would leave such a pattern
}

// ResidualPoint is an hour's forecast less what was read.
type ResidualPoint struct {
	At    int64
	Error units.Difference
}

const (
	mostHours   = 1500 // of the log: the coldest stretch of two months
	leastModel  = 240
	leastSwing  = 0.5  // K of the rooms from low to high: less tells nothing of stores
	tooWide     = 0.95 // of the logarithm: a factor of two either way
	whiteLags   = 24
	whiteChance = 0.05
	stores      = 0.05 // of the loss: the same for it
	structure   = 0.36 // of the time constant, one standard deviation: two stores stand for many, and what radiates where is not known
	sharper     = 2.0  // by which the likelihood's peak is too sharp for it: what nobody logs comes in hours that follow each other
	moves       = 0.8  // K between the 5th and the 95th percentile of the rooms: less shows no time constant
	flattest    = 0.05 // curvature below which nothing is known
)

func unmodelled(why string) Thermal {
	return Thermal{Loss: unknown[units.LossCoefficient](why), Constant: unknown[units.Time](why), Aperture: unknown[units.Area](why)}
}

// thermalData is hours with room, weather and heat, without a break in the inputs.
type thermalData struct {
	at              []int64
	room, out, heat []float64 // heat NaN begins a new stretch
	sun             []float64 // nil without
}

// thermal fits the models in turn.
//
// The heat reaches the rooms through the emitters, which follow with a lag of their own.
//
//	one store:   C·dTi/dt = H·(To − Ti) + Q + A·S + g
//	two stores:  Ci·dTi/dt = Hm·(Tm − Ti) + H·(To − Ti) + Q + A·S + g, Cm·dTm/dt = Hm·(Ti − Tm)
//	  or, the loss through the mass:  Cm·dTm/dt = Hm·(Ti − Tm) + Ho·(To − Tm), 1/H = 1/Hm + 1/Ho
//
// Each hour is forecast from the last by a Kalman filter; the likelihood of the errors
// of the forecasts is made largest. The simplest model is kept unless a larger one is
// better beyond luck (likelihood ratio, 5 %) and by Akaike's measure.
func thermal(ctx context.Context, f *frame) (Thermal, error) {
	d, why := newThermalData(f)
	if why != "" {
		return unmodelled("these data cannot tell: " + why), nil
	}
	var t Thermal
	t.Hours = len(d.at)
	var best *thermalFit
	for order := range 3 {
		if err := ctx.Err(); err != nil {
			return t, err
		}
		fit := fitThermal(d, order, best)
		if fit == nil {
			continue
		}
		try := ThermalTry{Model: thermalNames[order], LogLikelihood: fit.loglik, AIC: fit.aic(), White: ljungBox(fit.errors)}
		if best != nil {
			gain := 2 * (fit.loglik - best.loglik)
			more := float64(len(fit.x) - len(best.x))
			try.Gain = 1
			if gain > 0 && more > 0 {
				try.Gain = 1 - distuv.ChiSquared{K: more}.CDF(gain)
			}
			if more > 0 && try.Gain < 0.05 && fit.aic() < best.aic() || more <= 0 && fit.aic() < best.aic()-2 {
				best = fit
			}
		} else {
			best = fit
		}
		t.Tried = append(t.Tried, try)
	}
	if best == nil {
		return unmodelled("these data cannot tell: no model could be fitted to the rooms"), nil
	}
	t.describe(d, best, f)
	return t, nil
}

var thermalNames = [...]string{"one store", "two stores, loss from the air", "two stores, loss through the mass"}

// newThermalData takes the coldest stretch of the hours.
func newThermalData(f *frame) (*thermalData, string) {
	hs := &f.hours
	switch {
	case hs.room == nil:
		return nil, "no room is logged"
	case hs.heat == nil:
		return nil, "no column gives heat or fuel"
	case hs.out == nil:
		return nil, "no column gives the outdoor temperature"
	case f.source.hidden && f.tank == nil:
		return nil, "hot water is in the heat, and no column shows when the tank is charged"
	}
	from := 0
	if n := len(hs.out); n > mostHours {
		coldest := math.Inf(1)
		for k := 0; k+mostHours <= n; k += 24 {
			sum, count := 0.0, 0.0
			for i := k; i < k+mostHours; i++ {
				if !math.IsNaN(hs.out[i] + hs.room[i] + hs.heat[i]) {
					sum, count = sum+hs.out[i], count+1
				}
			}
			if count > mostHours/2 && sum/count < coldest {
				coldest, from = sum/count, k
			}
		}
	}
	d := &thermalData{}
	sunny := hs.sun != nil
	low, high, n := math.Inf(1), math.Inf(-1), 0
	for k := from; k < min(len(hs.out), from+mostHours); k++ {
		heat := hs.heat[k]
		if math.IsNaN(hs.out[k]) || sunny && math.IsNaN(hs.sun[k]) {
			heat = math.NaN()
		}
		d.at = append(d.at, hs.begin+int64(k)*hour)
		d.room, d.out, d.heat = append(d.room, hs.room[k]), append(d.out, hs.out[k]), append(d.heat, heat)
		if sunny {
			d.sun = append(d.sun, hs.sun[k])
		}
		if !math.IsNaN(heat) && !math.IsNaN(hs.room[k]) {
			low, high, n = math.Min(low, hs.room[k]), math.Max(high, hs.room[k]), n+1
		}
	}
	switch {
	case n < leastModel:
		return nil, fmt.Sprintf("%d hours with room, weather and heat; %d are needed", n, leastModel)
	case high-low < leastSwing:
		return nil, "the rooms hardly move, so that nothing shows what the house stores"
	}
	return d, ""
}

// thermalFit is one model at its best. Parameters are logarithms, but for the free heat.
type thermalFit struct {
	order  int
	x      []float64
	loglik float64
	cov    *mat.Dense // nil where the likelihood has no proper peak
	errors []float64  // of the forecasts, each by its own standard deviation
	raw    []float64  // K
}

func (f *thermalFit) aic() float64 { return 2*float64(len(f.x)) - 2*f.loglik }

// The places of the parameters.
const (
	pLoss = iota
	pStore
	pGain  // free heat, kW, not a logarithm
	pNoise // of the room from hour to hour
	pRead  // of reading it
	pLag   // of the emitters behind the heat that goes into their water
	pAwake // more free heat from 6 to 22 h, kW, not a logarithm
	pMass  // two stores: capacity of the mass
	pLink  // and its link to the air
)

func fitThermal(d *thermalData, order int, before *thermalFit) *thermalFit {
	start := []float64{math.Log(200), math.Log(3e7), 0.3, math.Log(0.05), math.Log(0.05), math.Log(1200), 0.1}
	if order > 0 {
		start = append(start, math.Log(3e7), math.Log(1000))
		start[pStore] = math.Log(6e6)
	}
	if before != nil {
		copy(start[:pMass], before.x[:pMass])
		start[pStore] = math.Log(6e6)
	}
	if d.sun != nil {
		start = append(start, math.Log(2))
	}
	cost := func(x []float64) float64 {
		l, _, _ := likelihood(d, order, x, false)
		if math.IsNaN(l) {
			return math.Inf(1)
		}
		return -l
	}
	var best []float64
	least := math.Inf(1)
	for range 3 { // begun anew from the best, a simplex escapes where it had shrunk too soon
		r, err := optimize.Minimize(optimize.Problem{Func: cost}, start, &optimize.Settings{FuncEvaluations: 1200, Converger: &optimize.FunctionConverge{Absolute: 1e-4, Iterations: 60}}, &optimize.NelderMead{SimplexSize: 0.3})
		if r == nil || math.IsInf(r.F, 0) || err != nil && r.X == nil {
			return nil
		}
		if r.F > least-1e-3 {
			break
		}
		least, best, start = r.F, r.X, r.X
	}
	if best == nil {
		return nil
	}
	f := &thermalFit{order: order, x: best, loglik: -least}
	_, f.errors, f.raw = likelihood(d, order, best, true)
	f.cov = curvature(cost, best)
	return f
}

// curvature inverts the matrix of second differences of a function at its least.
func curvature(cost func([]float64) float64, x []float64) *mat.Dense {
	n := len(x)
	const h = 0.02
	at := func(i, k int, a, b float64) float64 {
		y := append([]float64{}, x...)
		y[i] += a
		y[k] += b
		return cost(y)
	}
	m := mat.NewSymDense(n, nil)
	for i := range n {
		for k := i; k < n; k++ {
			v := (at(i, k, h, h) - at(i, k, h, -h) - at(i, k, -h, h) + at(i, k, -h, -h)) / (4 * h * h)
			if i == k {
				v = (at(i, i, h, 0) - 2*cost(x) + at(i, i, -h, 0)) / (h * h)
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil
			}
			m.SetSym(i, k, v)
		}
	}
	// A direction in which the likelihood hardly falls, or rises for rounding, is one
	// that the data say nothing about: it gets a wide spread, not a negative one.
	var e mat.EigenSym
	if !e.Factorize(m, true) {
		return nil
	}
	var v mat.Dense
	e.VectorsTo(&v)
	out := mat.NewDense(n, n, nil)
	for d, lambda := range e.Values(nil) {
		lambda = math.Max(lambda, flattest)
		for i := range n {
			for k := range n {
				out.Set(i, k, out.At(i, k)+v.At(i, d)*v.At(k, d)/lambda)
			}
		}
	}
	return out
}

// ljungBox is the chance that noise alone would leave such correlations (Ljung and Box
// 1978).
func ljungBox(e []float64) float64 {
	n := float64(len(e))
	if n < 3*whiteLags {
		return 1
	}
	q, square := 0.0, 0.0
	for _, v := range e {
		square += v * v
	}
	for lag := 1; lag <= whiteLags; lag++ {
		sum := 0.0
		for i := lag; i < len(e); i++ {
			sum += e[i] * e[i-lag]
		}
		r := sum / square
		q += r * r / (n - float64(lag))
	}
	return 1 - distuv.ChiSquared{K: whiteLags}.CDF(n*(n+2)*q)
}

// describe writes the figures of the chosen model. Where its forecasts leave a pattern
// the intervals are widened by what the pattern hides.
func (t *Thermal) describe(d *thermalData, f *thermalFit, frame *frame) {
	t.Model = thermalNames[f.order]
	t.White = ljungBox(f.errors) > whiteChance
	k := 0
	for i := range d.at {
		if !math.IsNaN(d.room[i]) && !math.IsNaN(d.heat[i]) && k < len(f.raw) {
			t.Residual = append(t.Residual, ResidualPoint{d.at[i], units.Kelvins(f.raw[k])})
			k++
		}
	}
	if f.cov == nil {
		why := "these data cannot tell: several houses would have warmed and cooled like this one"
		t.Loss, t.Constant, t.Aperture = unknown[units.LossCoefficient](why), unknown[units.Time](why), unknown[units.Area](why)
		return
	}
	widen := 1.0
	if rho := math.Min(0.9, math.Max(0, lagged(f.errors))); rho > 0 {
		widen = math.Sqrt((1 + rho) / (1 - rho))
	}
	if !t.White {
		widen *= 1.5
	}
	how := fmt.Sprintf("%s, %d hours", t.Model, t.Hours)
	half := 1.645 * math.Hypot(widen*math.Sqrt(f.cov.At(pLoss, pLoss)), math.Hypot(frame.source.doubt, math.Hypot(stores, unseen(d.sun != nil, true))))
	loss := math.Exp(f.x[pLoss])
	t.Loss = unknown[units.LossCoefficient]("these data cannot tell: the rooms' course does not fix the loss")
	if half < tooWide {
		t.Loss = estimate[units.LossCoefficient](loss, loss*math.Exp(-half), loss*math.Exp(half), how)
	}
	t.Constant = unknown[units.Time]("these data cannot tell: the rooms cool and warm too little to show what the house stores")
	if spreadOf(d.room) > moves {
		t.Constant = f.cools(widen, how)
	}
	t.Aperture = unknown[units.Area]("these data cannot tell: the sun is not logged")
	if d.sun != nil {
		last := len(f.x) - 1
		half := 1.645 * widen * math.Sqrt(f.cov.At(last, last))
		if t.Aperture = unknown[units.Area]("these data cannot tell: the rooms hardly follow the sun"); half < 1.2 {
			a := math.Exp(f.x[last])
			t.Aperture = estimate[units.Area](a, a*math.Exp(-half), a*math.Exp(half), how)
		}
	}
}

// spreadOf is the range of the middle nine tenths.
func spreadOf(x []float64) float64 {
	var v []float64
	for _, y := range x {
		if !math.IsNaN(y) {
			v = append(v, y)
		}
	}
	if len(v) < 20 {
		return 0
	}
	median(v)
	return v[len(v)*19/20] - v[len(v)/20]
}

// cools gives the time constant, with its error by small changes of each parameter.
func (f *thermalFit) cools(widen float64, how string) Estimate[units.Time] {
	tau := timeConstant(f.order, f.x)
	slope := make([]float64, len(f.x))
	variance := 0.0
	for i := range f.x {
		y := append([]float64{}, f.x...)
		y[i] += 0.01
		slope[i] = (math.Log(timeConstant(f.order, y)) - math.Log(tau)) / 0.01
	}
	for i := range f.x {
		for k := range f.x {
			variance += slope[i] * slope[k] * f.cov.At(i, k)
		}
	}
	half := 1.645 * math.Hypot(sharper*widen*math.Sqrt(math.Max(0, variance)), structure)
	if !(half < tooWide) {
		return unknown[units.Time]("these data cannot tell: the rooms cool and warm too little to show what the house stores")
	}
	return estimate[units.Time](tau, tau*math.Exp(-half), tau*math.Exp(half), how)
}

// Words tells which models were tried.
func (t *Thermal) Words() string {
	var out []string
	for _, m := range t.Tried {
		out = append(out, fmt.Sprintf("%s: log likelihood %.1f, Akaike %.1f", m.Model, m.LogLikelihood, m.AIC))
	}
	return strings.Join(out, "; ")
}
