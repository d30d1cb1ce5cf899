package emitter

// How do several emitters on one circuit share the water? One after another they see
// ever cooler water; side by side each sees the supply but only its share of the flow.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Series is emitters one after another on the same water, in the order of flow.
type Series []Emitter

// Output gives the heat of all emitters in the row: each takes the return of the one
// before as its supply.
//
//	Room = Σ Room_i; Water = Σ Water_i; Ts_(i+1) = Tr_i
//
// Units: supply and room in K, flow in W/K; result in W and K.
// Range: that of the emitters; all stand in air of the one room temperature.
// Source: energy balance of the water.
func (s Series) Output(supply units.Temperature, flow units.LossCoefficient, room units.Temperature) Heat {
	total := idle(supply, room)
	for _, e := range s {
		if e == nil {
			continue
		}
		h := e.Output(total.Return, flow, room)
		total.Room += h.Room
		total.Water += h.Water
		total.Return = h.Return
	}
	return total
}

// Branch is one emitter of a parallel arrangement with its share of the flow.
type Branch struct {
	Emitter Emitter
	Share   units.Fraction
}

// Parallel is emitters side by side on one supply. Make one with [NewParallel].
type Parallel struct {
	branches []Branch
}

// NewParallel joins emitters side by side by their shares of the flow.
//
// Units: shares as parts of one.
// Range: each share from 0 to 1, their sum 1 within 0.001.
// Source: mass balance of the water.
// Errors: no branch, a branch without an emitter, shares that do not add up to 1.
func NewParallel(branches ...Branch) (Parallel, error) {
	sum := 0.0
	for i, b := range branches {
		if b.Emitter == nil {
			return Parallel{}, fmt.Errorf("parallel emitters: branch %d has no emitter; enter one or leave the branch out", i+1)
		}
		if !(b.Share >= 0 && b.Share <= 1) {
			return Parallel{}, fmt.Errorf("parallel emitters: branch %d has a flow share of %s; accepted: 0 %% to 100 %%", i+1, refuse.Both(b.Share))
		}
		sum += float64(b.Share)
	}
	if !(math.Abs(sum-1) <= 1e-3) {
		return Parallel{}, fmt.Errorf("parallel emitters: the flow shares add up to %s; they must add up to 100 %%", refuse.Both(units.Fraction(sum)))
	}
	kept := make([]Branch, len(branches))
	for i, b := range branches {
		kept[i] = Branch{Emitter: b.Emitter, Share: b.Share / units.Fraction(sum)}
	}
	return Parallel{branches: kept}, nil
}

// Output gives the heat of all branches and the temperature of their mixed return.
//
//	Room = Σ Room_i; Water = Σ Water_i; Tr = Ts − Water/C
//
// Units: supply and room in K, flow in W/K; result in W and K.
// Range: that of the emitters; all stand in air of the one room temperature.
// Source: energy balance of the water.
func (p Parallel) Output(supply units.Temperature, flow units.LossCoefficient, room units.Temperature) Heat {
	total := idle(supply, room)
	if !(flow > 0 && flow <= largestFlow) {
		return total
	}
	for _, b := range p.branches {
		h := b.Emitter.Output(supply, flow*units.LossCoefficient(b.Share), room)
		total.Room += h.Room
		total.Water += h.Water
	}
	total.Return -= units.Temperature(float64(total.Water) / float64(flow))
	return total
}
