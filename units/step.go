package units

import (
	"math"
	"strconv"
)

// Step is the grid of temperatures that a control can be set to: whole multiples
// of Size counted from zero on the control's own scale.
type Step struct {
	System System  // US counts in °F, SI in °C
	Size   float64 // in °F or K, positive
}

// gridSlack, as a share of a step, keeps a value that is on the grid but for
// rounding from moving a whole step.
const gridSlack = 1e-6

// Nearest moves a temperature to the closest grid value; halfway goes away from
// zero.
func (s Step) Nearest(t Temperature) Temperature { return s.move(t, math.Round, 0) }

// Up moves t to the first grid value not below it.
func (s Step) Up(t Temperature) Temperature { return s.move(t, math.Ceil, -gridSlack) }

// Down moves t to the first grid value not above it.
func (s Step) Down(t Temperature) Temperature { return s.move(t, math.Floor, gridSlack) }

func (s Step) move(t Temperature, round func(float64) float64, slack float64) Temperature {
	return s.At(int(round(s.read(t)/s.size() + slack)))
}

// At gives the grid value number k.
func (s Step) At(k int) Temperature {
	v := float64(k) * s.size()
	if s.System.In(Temperatures) == US {
		return Fahrenheit(v)
	}
	return Celsius(v)
}

// Difference gives one step as a temperature difference.
func (s Step) Difference() Difference {
	if s.System.In(Temperatures) == US {
		return FahrenheitDifference(s.size())
	}
	return Kelvins(s.size())
}

// Text prints a temperature on the control's own scale with as many decimals as
// its step needs: 1 °F prints whole degrees, 0.5 °C one decimal.
func (s Step) Text(t Temperature) string {
	name := "°C"
	if s.System.In(Temperatures) == US {
		name = "°F"
	}
	if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
		return noValue
	}
	u := temperatureDimension.named(name)
	return u.join(grouped(strconv.FormatFloat(s.read(t), 'f', s.decimals(), 64)))
}

func (s Step) decimals() int {
	for d := 0; d < 3; d++ {
		x := s.size() * math.Pow(10, float64(d))
		if math.Abs(x-math.Round(x)) < 1e-9 {
			return d
		}
	}
	return 3
}

func (s Step) read(t Temperature) float64 {
	if s.System.In(Temperatures) == US {
		return t.Fahrenheit()
	}
	return t.Celsius()
}

func (s Step) size() float64 {
	if s.Size > 0 {
		return s.Size
	}
	return 1
}
