package visit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/refuse"
)

// How well does a cause explain what was measured, when much of what is off is off
// together?

// evidence is what was measured, made ready to weigh causes.
type evidence struct {
	index    []int // into House.readings
	measured []float64
	own      []float64 // accuracy given with a reading, or 0
	sound    []float64 // all readings of the sound plant
	errors   []float64 // standard, of all readings of the sound plant
	counts   []bool
	taken    map[int]bool
	doubts   []doubt
	base     scale // of the sound plant
}

// scale is by how much readings may be off together: the lower triangle L of S = L·Lᵀ, in
// units of the sound plant's errors, and ln|S|.
type scale struct {
	factor [][]float64
	logDet float64
	own    []float64 // part of each reading's error that is its own
}

func (h *House) evidence(s *state, readings []Measured) (*evidence, error) {
	if len(readings) == 0 {
		return nil, &refuse.Error{What: "readings", Given: "none", Accept: "at least one"}
	}
	e := &evidence{taken: map[int]bool{}, doubts: h.doubts(s)}
	for _, m := range readings {
		i := slices.IndexFunc(h.readings, func(r reading) bool {
			return r.Measure == m.Measure && strings.EqualFold(r.Circuit, m.Circuit) && strings.EqualFold(r.Room, m.Room)
		})
		switch {
		case i < 0:
			return nil, fmt.Errorf("readings: this house has no %q; accepted: %s", m.String(), h.readable())
		case e.taken[i]:
			return nil, fmt.Errorf("readings: %s is given twice", m.String())
		case math.IsNaN(m.Value) || math.IsInf(m.Value, 0) || !(m.Accuracy >= 0) || math.IsInf(m.Accuracy, 0):
			return nil, fmt.Errorf("readings: %s is no number", m.String())
		}
		e.taken[i] = true
		e.index, e.measured, e.own = append(e.index, i), append(e.measured, m.Value), append(e.own, m.Accuracy)
		e.counts = append(e.counts, h.readings[i].counts())
	}
	none := h.plant.asDrawn()
	e.sound = h.predict(s, &none)
	standards, moves := h.errorsOf(s, e, &none, e.sound)
	e.errors = make([]float64, len(standards))
	for i := range standards {
		e.errors[i] = standards[i].all()
	}
	e.base = e.scale(standards, moves)
	return e, nil
}

// errorsOf gives the standard errors of all readings of a plant, and what each doubt moves.
func (h *House) errorsOf(s *state, e *evidence, d *change, values []float64) ([]standard, [][]float64) {
	filled := slices.Clone(values)
	for a, i := range e.index {
		if math.IsNaN(filled[i]) {
			filled[i] = e.measured[a]
		}
	}
	moves := h.moves(s, e.doubts, d)
	standards := h.standards(s, filled, moves)
	if s.State == Fresh {
		out := h.plant.run(s, d)
		h.widen(s, &out, standards)
	}
	for a, i := range e.index {
		if e.own[a] > 0 {
			standards[i].instrument = e.own[a] / 2
		}
	}
	return standards, moves
}

func (e *evidence) scale(standards []standard, moves [][]float64) scale {
	n := len(e.index)
	sigma := make([][]float64, n)
	single := make([]float64, n)
	for a, i := range e.index {
		sigma[a] = make([]float64, n)
		single[a] = math.Hypot(standards[i].instrument, standards[i].model) / e.errors[i]
		if sigma[a][a] = 1; !e.counts[a] {
			continue
		}
		sigma[a][a] = 0
		for b, k := range e.index {
			for m := range moves {
				if !e.counts[b] {
					break
				}
				sigma[a][b] += moves[m][i] / e.errors[i] * moves[m][k] / e.errors[k]
			}
		}
		sigma[a][a] += single[a]*single[a] + 1e-9
	}
	out := scale{factor: cholesky(sigma), own: single}
	for a := range n {
		out.logDet += 2 * math.Log(out.factor[a][a])
	}
	return out
}

func (h *House) readable() string {
	var names []string
	for _, r := range h.readings {
		names = append(names, r.String())
	}
	return strings.Join(names, ", ")
}

// cholesky gives the lower triangle L with L·Lᵀ = S, of a positive matrix.
func cholesky(s [][]float64) [][]float64 {
	n := len(s)
	l := make([][]float64, n)
	for i := range n {
		l[i] = make([]float64, i+1)
		for k := 0; k <= i; k++ {
			sum := s[i][k]
			for m := range k {
				sum -= l[i][m] * l[k][m]
			}
			if i == k {
				l[i][i] = math.Sqrt(math.Max(sum, 1e-9))
				continue
			}
			l[i][k] = sum / l[k][k]
		}
	}
	return l
}

// misfit gives rᵀS⁻¹r for a cause's predictions.
func (e *evidence) misfit(values []float64, by *scale) float64 {
	sum := 0.0
	for _, y := range e.whitened(values, by) {
		sum += y * y
	}
	return sum
}

// whitened gives L⁻¹r.
func (e *evidence) whitened(values []float64, by *scale) []float64 {
	y := make([]float64, len(e.index))
	for a, i := range e.index {
		r := (e.measured[a] - values[i]) / e.errors[i]
		switch {
		case !e.counts[a]:
			r = 0
		case math.IsNaN(r):
			r = missed
		}
		for b := range a {
			r -= by.factor[a][b] * y[b]
		}
		y[a] = r / by.factor[a][a]
	}
	return y
}

// left gives what of each deviation remains, in the reading's own errors, once the doubtful
// figures of the survey are moved as all readings together ask.
//
//	left = D·S⁻¹r, D the readings' own variances
func (e *evidence) left(values []float64, by *scale) []float64 {
	x := e.whitened(values, by)
	for a := len(x) - 1; a >= 0; a-- {
		for b := a + 1; b < len(x); b++ {
			x[a] -= by.factor[b][a] * x[b]
		}
		x[a] /= by.factor[a][a]
	}
	for a := range x {
		x[a] *= by.own[a]
	}
	return x
}
