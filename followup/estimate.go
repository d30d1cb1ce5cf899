package followup

// A figure that was estimated, or the reason why it cannot be.

import (
	"math"
	"strconv"
	"strings"

	"curvewright/units"
)

// Quantity is what can be estimated.
type Quantity interface {
	~float64
	units.Quantity
}

// Estimate is a figure with the interval that holds the truth in nine cases of ten.
type Estimate[T Quantity] struct {
	Known            bool
	Value, Low, High T
	Why              string // how it was found, or why these data cannot tell
}

func unknown[T Quantity](why string) Estimate[T] { return Estimate[T]{Why: why} }

func estimate[T Quantity](value, low, high float64, why string) Estimate[T] {
	for _, v := range []float64{value, low, high} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return unknown[T]("these data cannot tell: the calculation finds no finite value")
		}
	}
	return Estimate[T]{Known: true, Value: T(value), Low: T(math.Min(low, value)), High: T(math.Max(high, value)), Why: why}
}

// Text prints value and interval for a reader of the system.
func (e Estimate[T]) Text(s units.System) string {
	if !e.Known {
		return e.Why
	}
	say := func(v T) string {
		if n, plain := any(v).(units.Number); plain {
			return plainNumber(float64(n))
		}
		return v.Text(s)
	}
	return say(e.Value) + " (" + say(e.Low) + " to " + say(e.High) + ")"
}

// plainNumber has three figures, and none beyond thousandths.
func plainNumber(v float64) string {
	if math.Abs(v) < 0.1 {
		v = math.Round(v*1000)/1000 + 0 // no negative nought
	}
	return strings.Replace(strconv.FormatFloat(v, 'g', 3, 64), "-", "−", 1)
}

// Half is half of the interval as a share of the value.
func (e Estimate[T]) half() float64 {
	if !e.Known || e.Value == 0 {
		return math.Inf(1)
	}
	return float64(e.High-e.Low) / 2 / math.Abs(float64(e.Value))
}
