package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// The charts of a year that was played: the supply of its hours against the curve that
// is set, the worst day hour by hour, and the starts of the burner.

// Roles that only these charts have.
const (
	played  role = "played"  // an hour of the year
	outside role = "outside" // the outdoor temperature
	starts  role = "starts"  // starts of the burner
	load    role = "load"    // heat of an hour
	cycles  role = "cycles"  // of it, below the burner's least output
)

// yearPens are their looks.
var yearPens = map[role]pen{
	played:  {colour: "#8c877f", width: 2.2},
	outside: {colour: "#1d5c96", width: 1.6, dash: []float64{9, 2.5, 2, 2.5}},
	starts:  {colour: "#7d6b52"},
	load:    {colour: "#a8321a", width: 2},
	cycles:  {colour: "#f3ddd0"},
}

// mostMarks is the most that a scatter holds: more would only be a smear.
const mostMarks = 1500

// YearCurveSVG draws the supply of a circuit in the hours of a year that was played
// over the curve that the sheet sets, as an SVG image of the given size in CSS pixels.
// The trace is one of package year with a row an hour; hours in which the circuit gave
// no heat are left out. Without any the image says so.
func YearCurveSVG(sheet *settings.Sheet, circuit int, trace year.Trace, width, height float64) string {
	return YearCurvePlot(sheet, circuit, trace).SVG(width, height)
}

// YearCurvePlot is the same, to be drawn anywhere.
func YearCurvePlot(sheet *settings.Sheet, circuit int, trace year.Trace) Plot {
	id := fmt.Sprintf("year-curve-%d", circuit)
	if !hasCurve(sheet, circuit) {
		return Plot{id: id, none: "No curve for this circuit"}
	}
	ct, s := &sheet.Circuits[circuit], sheet.System
	heated := heatedHours(trace, ct.Name)
	if len(heated) == 0 {
		return Plot{id: id, none: "This circuit gave no heat in the year"}
	}
	points := drawable(ct)
	low, high := heated[0], heated[0]
	for _, h := range heated {
		low = moment{min(low.outdoor, h.outdoor), min(low.supply, h.supply)}
		high = moment{max(high.outdoor, h.outdoor), max(high.supply, h.supply)}
	}
	said := fmt.Sprintf("The circuit gave heat in weather from %s to %s, with a supply from %s to %s. %s", whole(s, low.outdoor), whole(s, high.outdoor),
		whole(s, low.supply), whole(s, high.supply), setWords(s, points))
	return Plot{id: id, title: "Supply of " + ct.Name + " over the year", said: said, draw: func(c yearCanvas, width, height float64) {
		drawYearCurve(c, s, points, heated, low, high, width, height)
	}}
}

func drawYearCurve(c yearCanvas, s units.System, points []settings.Point, heated []moment, low, high moment, width, height float64) {
	size := c.textSize()
	f := newFrame(width, height, size, size*1.2)
	var waters []float64
	for _, p := range points {
		waters = append(waters, degrees(s, p.Set))
	}
	yLow := min(slices.Min(waters), degrees(s, low.supply))
	yHigh := max(slices.Max(waters), degrees(s, high.supply))
	span := max(yHigh-yLow, 5)
	f.yLow, f.yHigh = yLow-span*0.08, yHigh+span*0.12
	f.xLow = min(degrees(s, points[0].Outdoor), degrees(s, low.outdoor))
	f.xHigh = max(degrees(s, points[len(points)-1].Outdoor), degrees(s, high.outdoor))
	f.axes(c, s, "water")

	dots := make([]xy, len(heated))
	for i, h := range heated {
		dots[i] = f.at(degrees(s, h.outdoor), degrees(s, h.supply))
	}
	set := make([]xy, len(points))
	for i, p := range points {
		set[i] = f.at(degrees(s, p.Outdoor), waters[i])
	}
	needed := make([]xy, len(points))
	for i, p := range points {
		needed[i] = f.at(degrees(s, p.Outdoor), min(degrees(s, p.Ideal), f.yHigh))
	}
	c.dots(played, dots)
	c.line(ideal, needed)
	c.line(supply, set)
	labels := &placer{c: c, bounds: f, ink: dots}
	labels.avoid(set)
	labels.avoid(needed)
	for _, e := range []struct {
		point int
		a     anchor
	}{{0, start}, {len(points) - 1, end}} {
		i := e.point
		c.mark(supply, disc, set[i], size*0.27)
		var spots []spot
		for _, dy := range []float64{-0.6, -1.2, -1.8, -2.6, -3.4, 1.3, 2, 2.8} {
			spots = append(spots, spot{xy{set[i].x, set[i].y + size*dy}, e.a})
		}
		labels.put(supply, true, whole(s, points[i].Set), false, spots)
	}
	labels.put(supply, true, "set supply", false, append(along(set, size, true), along(set, size, false)...))
	labels.put(ideal, false, "needed", false, append(along(needed, size, false), along(needed, size, true)...))
}

// moment is a circuit's supply in a weather.
type moment struct{ outdoor, supply units.Temperature }

// heatedHours are the rows of a trace in which a circuit gave heat, thinned to what a
// chart can show. The steps share no factor with the day, so that every hour of it has
// its turn.
func heatedHours(trace year.Trace, circuit string) []moment {
	column := slices.IndexFunc(trace.Columns, func(c year.Column) bool { return c.Name == circuit+", supply" })
	if column < 1 || column+1 >= len(trace.Columns) {
		return nil
	}
	step := (trace.Rows + mostMarks - 1) / mostMarks
	for step > 1 && (step%2 == 0 || step%3 == 0) {
		step++
	}
	var list []moment
	for row := 0; row < trace.Rows; row += max(1, step) {
		out, back := units.Temperature(trace.At(row, column)), units.Temperature(trace.At(row, column+1))
		m := moment{units.Temperature(trace.At(row, 0)), out}
		// A circuit that rests has the same water before and behind its radiators.
		if isTemperature(m.outdoor) && isTemperature(m.supply) && out-back > 0.05 {
			list = append(list, m)
		}
	}
	return list
}

func setWords(s units.System, points []settings.Point) string {
	cold, mild := points[0], points[len(points)-1]
	return fmt.Sprintf("It is set to %s at %s outdoors and to %s at %s.", whole(s, cold.Set), whole(s, cold.Outdoor), whole(s, mild.Set), whole(s, mild.Outdoor))
}

// YearStartsSVG draws how often the burner started on each day of a year that was
// played, as an SVG image of the given size in CSS pixels.
func YearStartsSVG(result year.Result, width, height float64) string {
	return YearStartsPlot(result).SVG(width, height)
}

// YearStartsPlot is the same, to be drawn anywhere.
func YearStartsPlot(result year.Result) Plot {
	const id = "year-starts"
	days := result.StartsPerDay
	if result.Starts == 0 || len(days) == 0 {
		return Plot{id: id, none: "The burner never started"}
	}
	most := slices.Max(days)
	busiest := slices.Index(days, most)
	said := fmt.Sprintf("%s in the year; at most %d in a day, on %s.", units.Number(float64(result.Starts)).Text(units.US), most, YearDay(result, busiest))
	return Plot{id: id, title: "Starts of the burner, day by day", said: said, draw: func(c yearCanvas, width, height float64) {
		drawYearStarts(c, days, most, width, height)
	}}
}

func drawYearStarts(c yearCanvas, days []int, most int, width, height float64) {
	size := c.textSize()
	f := frame{left: size * 2.5, top: size * 2, right: width - size*0.8, bottom: height - size*1.9}
	f.xHigh, f.yHigh = float64(len(days)), float64(max(4, most))*1.06
	f.upright(c, "starts a day", int((f.bottom-f.top)/(size*2.6)))

	around := []xy{{f.left, f.bottom}}
	for i, n := range days {
		around = append(around, xy{f.x(float64(i)), f.y(float64(n))}, xy{f.x(float64(i + 1)), f.y(float64(n))})
	}
	c.outline(starts, append(around, xy{f.right, f.bottom}))

	f.months(c, firstOf(days))
	c.line(axis, []xy{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}})
}

// firstOf is the first of January of a year as long as the days that were played.
func firstOf(days []int) time.Time {
	const common, leap = 2023, 2024
	if len(days) > 365 {
		return time.Date(leap, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	return time.Date(common, time.January, 1, 0, 0, 0, 0, time.UTC)
}

// YearDay names a day of a year that was played, counted from 0.
func YearDay(result year.Result, day int) string {
	return firstOf(result.StartsPerDay).AddDate(0, 0, day).Format("January 2")
}

// upright draws the grid and the ticks of a vertical axis with its name.
func (f frame) upright(c canvas, name string, count int) {
	size := c.textSize()
	for _, v := range ticks(f.yLow, f.yHigh, max(3, count)) {
		y := f.y(v)
		c.line(grid, []xy{{f.left, y}, {f.right, y}})
		c.text(faint, xy{f.left - size*0.45, y + size*0.35}, end, false, plain(v))
	}
	c.text(faint, xy{f.left - size*2, f.top - size*0.75}, start, false, name)
}

// YearDaySVG draws the worst day of a year that was played: above outdoor temperature
// and supplies, below the rooms, hour by hour, as an SVG image of the given size in CSS
// pixels. More rooms want more height.
func YearDaySVG(sheet *settings.Sheet, result year.Result, width, height float64) string {
	return YearDayPlot(sheet, result).SVG(width, height)
}

// YearDayPlot is the same, to be drawn anywhere.
func YearDayPlot(sheet *settings.Sheet, result year.Result) Plot {
	const id = "year-day"
	t := result.Worst
	if sheet == nil || t.Rows <= roomsEvery || len(result.Rooms) == 0 || len(t.Columns) <= len(result.Rooms) {
		return Plot{id: id, none: "No day to show"}
	}
	s := sheet.System
	waters, rooms := thermometers(result, t, roomsEvery)
	if len(waters) == 0 || len(rooms) == 0 {
		return Plot{id: id, none: "No day to show"}
	}
	short := shortest(sheet, rooms)
	rooms[short].look, rooms[short].leads = ink, true

	day := YearDay(result, result.WorstDay)
	return hourly{id: id, title: "Hour by hour on " + day, said: dayWords(s, waters, rooms[short]), under: day, span: 24, tick: 6,
		name: func(h float64) string { return plain(h) + ":00" }}.plot(sheet, waters, rooms, t.Every)
}

// thermometers are the lines of a trace: outdoors and supplies, and rooms, which go ahead by
// so many samples at once.
func thermometers(result year.Result, t year.Trace, every int) (waters, rooms []dayLine) {
	waters = dayLines(nil, dayLine{name: "outdoors", look: outside, every: 1}, t, 0)
	for i, ct := range result.Circuits {
		l := dayLine{name: ct.Name, look: supply, every: 1, dash: dashes[i%len(dashes)]}
		if len(result.Circuits) == 1 {
			l.name = "supply"
		}
		waters = dayLines(waters, l, t, slices.IndexFunc(t.Columns, func(c year.Column) bool { return c.Name == ct.Name+", supply" }))
	}
	for i, r := range result.Rooms {
		rooms = dayLines(rooms, dayLine{name: r.Name, look: room, every: every, dash: dashes[i%len(dashes)]}, t, len(t.Columns)-len(result.Rooms)+i)
	}
	return waters, rooms
}

// hourly is a chart of outdoor temperature and supplies above and rooms below, over hours.
type hourly struct {
	id, title, said, under string
	span, tick             float64 // hours
	name                   func(hour float64) string
	between                bool // the names stand between two ticks
}

func (h hourly) plot(sheet *settings.Sheet, waters, rooms []dayLine, every units.Time) Plot {
	return Plot{id: h.id, title: h.title, said: h.said, draw: func(c yearCanvas, width, height float64) {
		h.draw(c, sheet, waters, rooms, every, width, height)
	}}
}

func (h hourly) draw(c yearCanvas, sheet *settings.Sheet, waters, rooms []dayLine, every units.Time, width, height float64) {
	s := sheet.System
	size := c.textSize()
	names := 0.0
	for _, l := range append(slices.Clone(waters), rooms...) {
		names = max(names, c.textWidth(true, l.name))
	}
	names = min(names, width*0.28)
	// The rooms need a line of text each, the waters no more than they have.
	right, bottom := width-names-size*2.4, height-size*3.2
	field := bottom - size*2 - size*2.4
	lower := min(max(field*0.5, float64(len(rooms))*size*1.15), field*0.72)
	up := frame{left: size * 2.5, top: size * 2, right: right, bottom: bottom - lower - size*2.4, xHigh: h.span}
	down := frame{left: size * 2.5, top: bottom - lower, right: right, bottom: bottom, xHigh: h.span}
	up.fit(s, waters)
	down.fit(s, rooms)
	up.upright(c, "outdoors and water, "+degree(s), int((up.bottom-up.top)/(size*2.2)))
	down.upright(c, "rooms, "+degree(s), int((down.bottom-down.top)/(size*2.2)))
	for _, f := range []frame{up, down} {
		for x := 0.0; x <= h.span; x += h.tick {
			c.line(grid, []xy{{f.x(x), f.top}, {f.x(x), f.bottom}})
			c.line(axis, []xy{{f.x(x), f.bottom}, {f.x(x), f.bottom + size*0.35}})
		}
		c.line(axis, []xy{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}})
	}
	for x := 0.0; x <= h.span; x += h.tick {
		at := x
		if h.between {
			if at += h.tick / 2; at > h.span {
				break
			}
		}
		c.text(faint, xy{down.x(at), bottom + size*1.35}, middle, false, h.name(x))
	}
	c.text(faint, xy{(down.left + down.right) / 2, bottom + size*2.7}, middle, false, h.under)
	up.draw(c, s, waters, every, names)
	down.draw(c, s, rooms, every, names)
	down.wanted(c, sheet, rooms, every)
}

// roomsEvery is how many samples a room's line goes ahead at once: it is slow.
const roomsEvery = 3

// dayLine is a thermometer through a day.
type dayLine struct {
	name      string
	values    []units.Temperature
	low, high units.Temperature
	look      role
	every     int
	dash      []float64
	leads     bool
}

// dayLines adds a line with the values of a column, if those are temperatures.
func dayLines(lines []dayLine, l dayLine, t year.Trace, column int) []dayLine {
	if column < 0 {
		return lines
	}
	for row := range t.Rows {
		v := units.Temperature(t.At(row, column))
		if !isTemperature(v) {
			return lines
		}
		l.values = append(l.values, v)
	}
	l.low, l.high = slices.Min(l.values), slices.Max(l.values)
	return append(lines, l)
}

// shortest is the place of the room that falls farthest below its set-point.
func shortest(sheet *settings.Sheet, rooms []dayLine) int {
	set := map[string]units.Temperature{}
	for _, ct := range sheet.Circuits {
		for _, r := range ct.Rooms {
			set[r.Name] = r.Setpoint
		}
	}
	place, least := 0, math.Inf(1)
	for i, l := range rooms {
		if d := float64(l.low - set[l.name]); set[l.name] > 0 && d < least {
			place, least = i, d
		}
	}
	return place
}

func dayWords(s units.System, waters []dayLine, short dayLine) string {
	var said []string
	for _, l := range waters {
		said = append(said, fmt.Sprintf("%s from %s to %s", l.name, whole(s, l.low), whole(s, l.high)))
	}
	return fmt.Sprintf("%s. Farthest below its set-point falls %s, to %s.", strings.Join(said, "; "), short.name, short.low.Text(s))
}

// fit sets the scale to whole steps around all lines.
func (f *frame) fit(s units.System, lines []dayLine) {
	low, high := degrees(s, lines[0].low), degrees(s, lines[0].high)
	for _, l := range lines {
		low, high = min(low, degrees(s, l.low)), max(high, degrees(s, l.high))
	}
	step := niceStep(max(high-low, 3) / 5)
	f.yLow, f.yHigh = math.Floor(low/step-0.1)*step, math.Ceil(high/step+0.1)*step
}

// points gives the points of a line; its first value is at the end of the first interval.
func (f frame) points(s units.System, l dayLine, every units.Time) []xy {
	var points []xy
	for i := 0; i < len(l.values); i += l.every {
		points = append(points, f.at(float64(i+1)*float64(every)/3600, degrees(s, l.values[i])))
	}
	return points
}

// draw draws the lines and their names at the right, pushed apart to a line of text.
func (f frame) draw(c yearCanvas, s units.System, lines []dayLine, every units.Time, names float64) {
	size := c.textSize()
	type tag struct {
		from xy
		line dayLine
	}
	var tags []tag
	for _, l := range lines {
		points := f.points(s, l, every)
		if _, own := yearPens[l.look]; own {
			c.trail(l.look, points)
		} else {
			c.dashed(l.look, points, l.dash)
		}
		tags = append(tags, tag{points[len(points)-1], l})
	}
	slices.SortStableFunc(tags, func(a, b tag) int {
		switch {
		case a.from.y < b.from.y:
			return -1
		case a.from.y > b.from.y:
			return 1
		}
		return 0
	})
	ys := make([]float64, len(tags))
	for i, t := range tags {
		ys[i] = t.from.y
	}
	apart(ys, size*1.15, f.top, f.bottom)
	for i, t := range tags {
		x := f.right + size*1.5
		c.line(leader, []xy{{t.from.x + size*0.2, t.from.y}, {x - size*0.75, ys[i]}, {x - size*0.25, ys[i]}})
		look := t.line.look
		if look == outside {
			look = faint
		}
		c.text(look, xy{x, ys[i] + size*0.35}, start, t.line.leads, shorten(c, t.line.name, t.line.leads, names))
	}
}

// wanted draws each set-point of the rooms that lies in the field once.
func (f frame) wanted(c yearCanvas, sheet *settings.Sheet, rooms []dayLine, every units.Time) {
	size, s := c.textSize(), sheet.System
	labels := &placer{c: c, bounds: f}
	for _, l := range rooms {
		labels.avoid(f.points(s, l, every))
	}
	seen := map[string]bool{}
	for _, ct := range sheet.Circuits {
		for _, r := range ct.Rooms {
			text := "wanted " + r.Setpoint.Text(s)
			v := degrees(s, r.Setpoint)
			if !isTemperature(r.Setpoint) || seen[text] || v < f.yLow || v > f.yHigh {
				continue
			}
			seen[text] = true
			y := f.y(v)
			c.line(setpoint, []xy{{f.left, y}, {f.right, y}})
			var spots []spot
			for _, x := range []float64{0.02, 0.25, 0.5, 0.7} {
				spots = append(spots, spot{xy{f.left + (f.right-f.left)*x, y - size*0.4}, start}, spot{xy{f.left + (f.right-f.left)*x, y + size*1.05}, start})
			}
			labels.put(setpoint, false, text, true, spots)
		}
	}
}
