package report

import (
	"fmt"
	"math"
	"strings"

	"curvewright/curve"
	"curvewright/settings"
	"curvewright/units"
)

// The chart of a curve that somebody tries: beside what the house needs, what the sheet
// recommends and what was found in the control. Its field keeps its scales while a point
// is dragged, so that nothing slides away beneath the finger.

// Trial is a curve tried on a circuit, and what it is compared with.
type Trial struct {
	Tried       curve.Setting
	Recommended curve.Setting
	Found       *curve.Setting // nil if it is not known
	Words       TrialWords
}

// TrialWords name the lines in the reader's language, which Lang tells: en, fr, es, de.
type TrialWords struct{ Title, Tried, Recommended, Found, Need, Lang string }

// TrialField is where the chart's field lies within the image, in pixels, and which
// temperatures its edges stand for: what a page needs in order to drag points on it.
type TrialField struct {
	Left, Top, Right, Bottom float64
	Cold, Mild               units.Temperature // outdoors at the left and the right edge
	Low, High                units.Temperature // supply at the lower and the upper edge
}

// TrialSVG draws a curve that is tried as an SVG image of the given size in CSS pixels,
// and says where its field lies. A circuit that is not there gives an image that says so
// and an empty field.
func TrialSVG(sheet *settings.Sheet, circuit int, t Trial, width, height float64) (string, TrialField) {
	width, height = usable(width, height)
	id := fmt.Sprintf("trial-%d-%s", circuit, num(width))
	if !hasCurve(sheet, circuit) {
		return emptySVG(id, "No curve for this circuit", width, height), TrialField{}
	}
	ct := &sheet.Circuits[circuit]
	c := newSVG(id, t.Words.Title, trialWords(sheet, ct, t), width, height)
	f := newFrame(width, height, c.textSize(), c.textSize()*1.2)
	field := trialRange(sheet, ct, t)
	field.Left, field.Top, field.Right, field.Bottom = f.left, f.top, f.right, f.bottom
	s := sheet.System
	f.xLow, f.xHigh = degrees(s, field.Cold), degrees(s, field.Mild)
	f.yLow, f.yHigh = degrees(s, field.Low), degrees(s, field.High)
	drawTrial(c, f, sheet, ct, t)
	return c.finish(), field
}

// trialWords says the ends of each line, for a reader who cannot see them.
func trialWords(sheet *settings.Sheet, ct *settings.Circuit, t Trial) string {
	s, words := sheet.System, ""
	points := drawable(ct)
	cold, mild := points[0], points[len(points)-1]
	for _, l := range t.lines() {
		if words != "" {
			words += semicolonIn(t.Words.Lang)
		}
		words += l.name + strings.TrimSuffix(colonIn(t.Words.Lang), " ")
		for i, p := range []settings.Point{cold, mild} {
			if i > 0 {
				words += ","
			}
			words += fmt.Sprintf(" %s → %s", whole(s, p.Outdoor), whole(s, l.set.At(p.Outdoor)))
		}
	}
	return words
}

// trialLine is one curve of the chart.
type trialLine struct {
	role role
	name string
	set  curve.Setting
}

// lines are the curves from behind to the front. A recommended curve that is tried as it
// is needs no line of its own.
func (t Trial) lines() []trialLine {
	var list []trialLine
	if t.Found != nil {
		list = append(list, trialLine{found, t.Words.Found, *t.Found})
	}
	if same(t.Tried, t.Recommended) {
		return append(list, trialLine{supply, t.Words.Recommended, t.Recommended})
	}
	return append(list, trialLine{advised, t.Words.Recommended, t.Recommended}, trialLine{supply, t.Words.Tried, t.Tried})
}

// same tells whether two curves give the same supply in every weather.
func same(a, b curve.Setting) bool {
	for c := -40.0; c <= 25; c += 0.5 {
		if math.Abs(float64(a.At(units.Celsius(c))-b.At(units.Celsius(c)))) > 0.01 {
			return false
		}
	}
	return true
}

// trialRange chooses the scales. They follow from the recommended curve, the need and the
// curve found; the tried one moves them only where it would lie outside.
func trialRange(sheet *settings.Sheet, ct *settings.Circuit, t Trial) TrialField {
	points := drawable(ct)
	cold, mild := points[0].Outdoor, points[len(points)-1].Outdoor
	low, high := ct.Setpoint, points[0].Set
	reach := func(s curve.Setting) {
		for _, p := range setPoints(s) {
			if isTemperature(p.Outdoor) && isTemperature(p.Supply) {
				cold, mild, low, high = min(cold, p.Outdoor), max(mild, p.Outdoor), min(low, p.Supply), max(high, p.Supply)
			}
		}
		for _, p := range points {
			low, high = min(low, s.At(p.Outdoor)), max(high, s.At(p.Outdoor))
		}
	}
	reach(t.Recommended)
	if t.Found != nil {
		reach(*t.Found)
	}
	for _, p := range points {
		if p.Ideal < curve.Hottest {
			high = max(high, p.Ideal)
		}
	}
	for _, b := range ct.Band {
		if isTemperature(b.High) && b.High < curve.Hottest {
			high = max(high, b.High)
		}
	}
	// Space to drag into: beyond both points, and above them as far as the limit leaves any.
	cold, mild, low = cold.Add(-2), mild.Add(2), low.Add(-2)
	if above := high.Add(12); !isTemperature(ct.Limit) || ct.Limit > high.Add(20) {
		high = above
	} else {
		high = max(high, ct.Limit).Add(2)
	}
	reach(t.Tried)
	grid := units.Step{System: sheet.System, Size: 5}
	return TrialField{Cold: grid.Down(cold), Mild: grid.Up(mild), Low: grid.Down(low), High: grid.Up(high)}
}

// setPoints are the points by which a curve is set.
func setPoints(s curve.Setting) []curve.Point {
	switch s.Kind {
	case curve.SlopeShift:
		return nil
	case curve.Table:
		return s.Points
	}
	return []curve.Point{s.Cold, s.Mild}
}

func drawTrial(c canvas, f frame, sheet *settings.Sheet, ct *settings.Circuit, t Trial) {
	s, size := sheet.System, c.textSize()
	points := drawable(ct)
	c.area(band, bandOutline(f, s, ct))
	hourBars(c, f, s, points)
	f.axes(c, s, "water")
	labels := &placer{c: c, bounds: f}

	var need []xy
	for _, p := range points {
		if p.Ideal < curve.Hottest {
			need = append(need, f.at(degrees(s, p.Outdoor), degrees(s, p.Ideal)))
		}
	}
	lines := t.lines()
	drawn := make([][]xy, len(lines))
	for i, l := range lines {
		drawn[i] = trialPoints(f, s, l.set)
		labels.avoid(drawn[i])
	}
	labels.avoid(need)
	drawLimit(c, labels, f, s, ct)
	c.line(ideal, need)
	for i, l := range lines {
		c.line(l.role, drawn[i])
	}
	for i := len(lines) - 1; i >= 0; i-- {
		above := i == len(lines)-1
		labels.put(lines[i].role, above, lines[i].name, false, append(along(drawn[i], size, above), along(drawn[i], size, !above)...))
	}
	labels.put(ideal, false, t.Words.Need, true, append(along(need, size, false), along(need, size, true)...))
}

// trialPoints follows a curve through the field, closely enough to show its bends.
func trialPoints(f frame, s units.System, set curve.Setting) []xy {
	const pieces = 120
	var line []xy
	for k := 0; k <= pieces; k++ {
		x := f.xLow + (f.xHigh-f.xLow)*float64(k)/pieces
		outdoor := units.Celsius(x)
		if s.In(units.Temperatures) == units.US {
			outdoor = units.Fahrenheit(x)
		}
		y := degrees(s, set.At(outdoor))
		if y >= f.yLow-1e-9 && y <= f.yHigh+1e-9 {
			line = append(line, f.at(x, y))
		}
	}
	return line
}

// RoomBandSVG draws how warm a room gets over a season with its valves open, from its
// coolest to its warmest, with a mark where the design night leaves it and a line where it
// is wanted. The rooms of a table share the scale from low to high.
func RoomBandSVG(r settings.RoomVerdict, low, high units.Temperature, width, height float64) string {
	c := &svgCanvas{size: svgFont}
	fmt.Fprintf(&c.b, `<svg xmlns="http://www.w3.org/2000/svg" class="chart" viewBox="0 0 %s %s" width="%s" height="%s" aria-hidden="true" focusable="false">`+"\n",
		num(width), num(height), num(width), num(height))
	edge := height * 0.4
	x := func(t units.Temperature) float64 {
		share := float64(t-low) / float64(high-low)
		if !(share >= 0) { // also where there is no scale at all
			share = 0
		}
		return edge + min(share, 1)*(width-2*edge)
	}
	middle := height / 2
	c.line(grid, []xy{{0, middle}, {width, middle}})
	from, to, half := x(r.Coolest), x(r.Warmest), height*0.3
	c.area(band, []xy{{from, middle - half}, {to + 1, middle - half}, {to + 1, middle + half}, {from, middle + half}})
	c.line(ink, []xy{{x(r.Low), middle}, {x(r.High), middle}})
	c.line(setpoint, []xy{{x(r.Setpoint), 0}, {x(r.Setpoint), height}})
	c.mark(supply, disc, xy{x(r.Design), middle}, height*0.2)
	return c.finish()
}
