package report

import (
	"math"
	"strconv"
	"strings"

	"curvewright/units"
)

// Axes in the reader's degrees: round ticks in °F for one reader and round ticks in
// °C for the other, from the same kelvins.

// degrees reads a temperature on the reader's scale.
func degrees(s units.System, t units.Temperature) float64 {
	if s.In(units.Temperatures) == units.US {
		return t.Fahrenheit()
	}
	return t.Celsius()
}

// degree is the name of the reader's degree.
func degree(s units.System) string {
	if s.In(units.Temperatures) == units.US {
		return "°F"
	}
	return "°C"
}

// whole prints a temperature without decimals, for a chart or a table in which
// tenths would only be noise.
func whole(s units.System, t units.Temperature) string {
	return plain(degrees(s, t)) + "\u00a0" + degree(s)
}

// plain prints a whole number with a true minus sign.
func plain(v float64) string {
	return strings.Replace(strconv.FormatFloat(math.Round(v)+0, 'f', 0, 64), "-", "−", 1)
}

// ticks gives round values from low to high, at most count of them.
func ticks(low, high float64, count int) []float64 {
	if !(high > low) || count < 2 {
		return nil
	}
	step := niceStep((high - low) / float64(count-1))
	var v []float64
	for k := math.Ceil(low/step - 1e-9); k*step <= high+step*1e-9; k++ {
		v = append(v, k*step)
	}
	return v
}

// niceStep is the first of 1, 2, 5, 10, 20, 50… that is not below least.
func niceStep(least float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= least*(1-1e-9) {
			return max(m*p, 1) // parts of a degree are no use on a chart
		}
	}
	return 10 * p
}

// frame is the field that the lines are drawn in.
type frame struct {
	left, top, right, bottom float64
	xLow, xHigh, yLow, yHigh float64
}

func (f frame) x(v float64) float64 {
	return f.left + (v-f.xLow)/(f.xHigh-f.xLow)*(f.right-f.left)
}

func (f frame) y(v float64) float64 {
	return f.bottom - (v-f.yLow)/(f.yHigh-f.yLow)*(f.bottom-f.top)
}

func (f frame) at(x, y float64) xy { return xy{f.x(x), f.y(y)} }

// axes draws grid, ticks and the names of both axes. Cold is at the left.
func (f frame) axes(c canvas, s units.System, yName string) {
	size := c.textSize()
	for _, v := range ticks(f.yLow, f.yHigh, max(8, int((f.bottom-f.top)/(size*2.6)))) {
		y := f.y(v)
		c.line(grid, []xy{{f.left, y}, {f.right, y}})
		c.text(faint, xy{f.left - size*0.45, y + size*0.35}, end, false, plain(v))
	}
	for _, v := range ticks(f.xLow, f.xHigh, max(3, int((f.right-f.left)/(size*3.6)))) {
		x := f.x(v)
		c.line(axis, []xy{{x, f.bottom}, {x, f.bottom + size*0.35}})
		c.text(faint, xy{x, f.bottom + size*1.35}, middle, false, plain(v))
	}
	c.line(axis, []xy{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}})
	c.text(faint, xy{f.left - size*2, f.top - size*0.75}, start, false, yName+", "+degree(s))

	under := f.bottom + size*2.7
	name := "outdoors, " + degree(s)
	c.text(faint, xy{f.left, under}, start, false, "← cold")
	c.text(faint, xy{(f.left + f.right) / 2, under}, middle, false, name)
	c.text(faint, xy{f.right, under}, end, false, "mild →")
}

// room around the field, in text heights.
func newFrame(width, height, size, rightMargin float64) frame {
	return frame{left: size * 2.5, top: size * 2, right: width - rightMargin, bottom: height - size*3.2}
}
