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

// More plots of a year that was played: a room's temperature as a carpet of days and hours,
// the heat that was needed in order of size, and the worst week.

// carpetColours go from too cold to too warm; the middle is what was wanted.
var carpetColours = [...]string{"#123a63", "#3f77b0", "#a9c8e4", "#ece7dc", "#f2c99a", "#de8d4a", "#a8321a", "#5f1408"}

// carpetLimits divide them, in the reader's degrees off the set-point.
func carpetLimits(s units.System) [len(carpetColours) - 1]float64 {
	if s.In(units.Temperatures) == units.US {
		return [...]float64{-4, -2, -1, 1, 2, 4, 8}
	}
	return [...]float64{-2, -1, -0.5, 0.5, 1, 2, 4}
}

// YearCarpetSVG draws a room's temperature off its set-point through a year that was played,
// days across and hours upwards, as an SVG image of the given size in CSS pixels. The trace
// has a row an hour.
func YearCarpetSVG(sheet *settings.Sheet, room string, trace year.Trace, width, height float64) string {
	return YearCarpetPlot(sheet, room, trace).SVG(width, height)
}

// YearCarpetPlot is the same, to be drawn anywhere.
func YearCarpetPlot(sheet *settings.Sheet, room string, trace year.Trace) Plot {
	column := slices.IndexFunc(trace.Columns, func(c year.Column) bool { return c.Name == room && !c.Power })
	set := units.Temperature(0)
	circuit := -1
	if sheet != nil {
		for i, ct := range sheet.Circuits {
			for _, r := range ct.Rooms {
				if r.Name == room {
					set, circuit = r.Setpoint, i
				}
			}
		}
	}
	place := 0
	for i, c := range trace.Columns {
		if i < column && c.Name != "" {
			place++
		}
	}
	id := fmt.Sprintf("year-carpet-%d", place)
	days := trace.Rows / 24
	if column < 0 || circuit < 0 || !isTemperature(set) || days < 1 || trace.Every != 3600 {
		return Plot{id: id, none: "No hours to show for this room"}
	}
	s := sheet.System
	limits := carpetLimits(s)
	class := func(off float64) int {
		if s.In(units.Temperatures) == units.US {
			off *= 1.8
		}
		k := 0
		for k < len(limits) && off >= limits[k] {
			k++
		}
		return k
	}
	cold, warm := 0, 0
	for row := range days * 24 {
		switch k := class(trace.At(row, column) - float64(set)); {
		case k < len(carpetColours)/2-1:
			cold++
		case k > len(carpetColours)/2-1:
			warm++
		}
	}
	said := fmt.Sprintf("Days from left to right, hours upwards. It was colder than wanted in %s hours and warmer in %s, of %s.",
		figure(cold), figure(warm), figure(days*24))
	return Plot{id: id, title: "Temperature of " + room + " over the year", said: said, draw: func(c yearCanvas, width, height float64) {
		off := func(day, hour int) float64 { return trace.At(day*24+hour, column) - float64(set) }
		drawCarpet(c, s, days, off, class, width, height)
	}}
}

func drawCarpet(c yearCanvas, s units.System, days int, off func(day, hour int) float64, class func(float64) int, width, height float64) {
	size := c.textSize()
	f := frame{left: size * 2.5, top: size * 2, right: width - size*0.8, bottom: height - size*3.6, xHigh: float64(days), yHigh: 24}

	// Neighbouring hours of one class are one rectangle; on a narrow chart so are days.
	together := max(1, int(math.Ceil(float64(days)*1.5/(f.right-f.left))))
	fields := make([][]field, len(carpetColours))
	for h := range 24 {
		begun, at := -1, 0
		flush := func(to int) {
			if begun >= 0 {
				fields[begun] = append(fields[begun], field{f.x(float64(at)), f.y(float64(h + 1)), f.x(float64(to)) + 0.1, f.y(float64(h)) + 0.1})
			}
		}
		for d := 0; d < days; d += together {
			sum, n := 0.0, 0
			for k := d; k < min(d+together, days); k++ {
				sum += off(k, h)
				n++
			}
			if k := class(sum / float64(n)); k != begun {
				flush(d)
				begun, at = k, d
			}
		}
		flush(days)
	}
	for k := range fields {
		if len(fields[k]) > 0 {
			c.carpet(k, fields[k])
		}
	}
	for h := 0.0; h <= 24; h += 6 {
		c.line(axis, []xy{{f.left - size*0.35, f.y(h)}, {f.left, f.y(h)}})
		c.text(faint, xy{f.left - size*0.45, f.y(h) + size*0.35}, end, false, plain(h))
	}
	c.text(faint, xy{f.left - size*2, f.top - size*0.75}, start, false, "hour of the day")
	f.months(c, firstOf(make([]int, days)))
	c.line(axis, []xy{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}})
	carpetLegend(c, f, s, height)
}

func figure(n int) string { return units.Number(float64(n)).Text(units.US) }

// carpetLegend names the colours beneath a carpet.
func carpetLegend(c yearCanvas, f frame, s units.System, height float64) {
	size, limits := c.textSize(), carpetLimits(s)
	name := degree(s) + " off the set-point"
	y := height - size*0.5
	left := f.left + c.textWidth(false, name) + size
	step := min((f.right-left)/float64(len(carpetColours)), size*4)
	c.text(faint, xy{f.left, y}, start, false, name)
	for k := range carpetColours {
		x := left + step*float64(k)
		c.carpet(k, []field{{x, y - size*0.45, x + step, y + size*0.15}})
		if k < len(limits) {
			text := strings.Replace(fmt.Sprintf("%+g", limits[k]), "-", "−", 1)
			c.text(faint, xy{x + step, y - size*0.6}, middle, false, text)
		}
	}
}

// months writes the names of the months beneath a field whose days run from 0.
func (f frame) months(c canvas, january time.Time) {
	size := c.textSize()
	for m := range 12 {
		first, last := january.AddDate(0, m, 0), january.AddDate(0, m+1, -1)
		from, to := float64(first.YearDay()-1), float64(last.YearDay())
		if to > f.xHigh {
			break
		}
		name := first.Format("Jan")
		if f.x(28)-f.x(0) < c.textWidth(false, "May ") {
			name = name[:1]
		}
		c.text(faint, xy{f.x((from + to) / 2), f.bottom + size*1.4}, middle, false, name)
		c.line(axis, []xy{{f.x(to), f.bottom}, {f.x(to), f.bottom + size*0.35}})
	}
}

// YearLoadSVG draws the heat that the boiler gave in each hour of a year that was played, in
// order of size, against its least output, as an SVG image of the given size in CSS pixels.
// The trace has a row an hour.
func YearLoadSVG(sheet *settings.Sheet, trace year.Trace, least units.Power, width, height float64) string {
	return YearLoadPlot(sheet, trace, least).SVG(width, height)
}

// YearLoadPlot is the same, to be drawn anywhere.
func YearLoadPlot(sheet *settings.Sheet, trace year.Trace, least units.Power) Plot {
	const id = "year-load"
	column := slices.IndexFunc(trace.Columns, func(c year.Column) bool { return c.Name == year.HeatColumn })
	if sheet == nil || column < 0 || trace.Rows < 24 {
		return Plot{id: id, none: "No heat to show"}
	}
	s := sheet.System
	perRow := float64(trace.Every) / 3600
	var loads []float64
	below := 0
	for row := range trace.Rows {
		if v := trace.At(row, column); v > 1 {
			loads = append(loads, v)
			if v < float64(least) {
				below++
			}
		}
	}
	if len(loads) == 0 {
		return Plot{id: id, none: "The boiler gave no heat"}
	}
	slices.SortFunc(loads, func(a, b float64) int {
		switch {
		case a > b:
			return -1
		case a < b:
			return 1
		}
		return 0
	})
	hoursBelow := figure(int(math.Round(float64(below) * perRow)))
	said := fmt.Sprintf("It gave heat in %s hours of the year, at most %s. In %s of them it was less than the least output of %s, and the burner could not run through.",
		figure(int(math.Round(float64(len(loads))*perRow))), units.Power(loads[0]).Text(s), hoursBelow, least.Text(s))
	return Plot{id: id, title: "Heat from the boiler, hour by hour in order of size", said: said, draw: func(c yearCanvas, width, height float64) {
		drawLoads(c, s, loads, below, perRow, least, width, height)
	}}
}

func drawLoads(c yearCanvas, s units.System, loads []float64, below int, perRow float64, least units.Power, width, height float64) {
	scale, unit := 1e-3, "kW"
	if s.In(units.Powers) == units.US {
		scale, unit = units.Power(1).BtuPerHour()/1000, "thousand Btu/h"
	}
	hoursBelow := figure(int(math.Round(float64(below) * perRow)))
	size := c.textSize()
	f := frame{left: size * 2.5, top: size * 2, right: width - size*2.2, bottom: height - size*3.2}
	f.xHigh, f.yHigh = math.Ceil(float64(len(loads))*perRow/500)*500, max(loads[0], float64(least))*scale*1.08
	f.upright(c, unit, int((f.bottom-f.top)/(size*2.4)))
	// A thousand points are more than anybody sees.
	every := max(1, len(loads)/1000)
	var line []xy
	for i := 0; i < len(loads); i += every {
		line = append(line, f.at((float64(i)+0.5)*perRow, loads[i]*scale))
	}
	line = append(line, f.at((float64(len(loads))-0.5)*perRow, loads[len(loads)-1]*scale))
	minimum := f.y(float64(least) * scale)
	if below > 0 && least > 0 {
		from := float64(len(loads)-below) * perRow
		around := []xy{{f.x(from), f.bottom}, {f.x(from), minimum}}
		for _, p := range line {
			if p.y >= minimum {
				around = append(around, p)
			}
		}
		c.outline(cycles, append(around, xy{around[len(around)-1].x, f.bottom}))
	}
	for _, v := range ticks(0, f.xHigh, max(3, int((f.right-f.left)/(size*5)))) {
		c.line(axis, []xy{{f.x(v), f.bottom}, {f.x(v), f.bottom + size*0.35}})
		c.text(faint, xy{f.x(v), f.bottom + size*1.35}, middle, false, units.Number(v).Text(units.US))
	}
	c.line(axis, []xy{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}})
	c.text(faint, xy{(f.left + f.right) / 2, f.bottom + size*2.7}, middle, false, "hours of the year with so much heat or more")
	c.trail(load, line)
	labels := &placer{c: c, bounds: f}
	labels.avoid(line)
	if least > 0 {
		c.line(limit, []xy{{f.left, minimum}, {f.right, minimum}})
		labels.put(limit, false, "least output "+least.Text(s), true, []spot{{xy{f.right - size*0.3, minimum - size*0.5}, end}, {xy{f.left + size*0.5, minimum - size*0.5}, start}, {xy{f.left + size*0.5, minimum + size*1.1}, start}})
	}
	if below > 0 {
		labels.put(faint, false, hoursBelow+" h below it: on and off", true, []spot{{xy{f.right - size*0.3, minimum - size*1.7}, end}, {xy{f.left + size*0.5, minimum + size*2.4}, start}, {xy{f.left + size*0.5, minimum + size*1.1}, start}, {xy{f.left + size*0.5, f.bottom - size*0.5}, start}})
	}
}

// YearWeekSVG draws the week around the worst day of a year that was played, as YearDaySVG
// draws the day itself. The trace has a row an hour.
func YearWeekSVG(sheet *settings.Sheet, result year.Result, trace year.Trace, width, height float64) string {
	return YearWeekPlot(sheet, result, trace).SVG(width, height)
}

// YearWeekPlot is the same, to be drawn anywhere.
func YearWeekPlot(sheet *settings.Sheet, result year.Result, trace year.Trace) Plot {
	const id = "year-week"
	const week = 7
	days := trace.Rows / 24
	if sheet == nil || trace.Every != 3600 || days < week || len(result.Rooms) == 0 || len(trace.Columns) <= len(result.Rooms) {
		return Plot{id: id, none: "No week to show"}
	}
	first := min(max(0, result.WorstDay-week/2), days-week)
	n := len(trace.Columns)
	part := trace
	part.Values, part.Rows = trace.Values[first*24*n:(first+week)*24*n], week*24
	waters, rooms := thermometers(result, part, 1)
	if len(waters) == 0 || len(rooms) == 0 {
		return Plot{id: id, none: "No week to show"}
	}
	short := shortest(sheet, rooms)
	rooms[short].look, rooms[short].leads = ink, true
	january := firstOf(result.StartsPerDay)
	return hourly{id: id, title: "The week around " + YearDay(result, result.WorstDay), said: dayWords(sheet.System, waters, rooms[short]),
		under: fmt.Sprintf("%s to %s", january.AddDate(0, 0, first).Format("January 2"), january.AddDate(0, 0, first+week-1).Format("January 2")),
		span:  week * 24, tick: 24, between: true,
		name: func(h float64) string { return january.AddDate(0, 0, first+int(h/24)).Format("2") }}.plot(sheet, waters, rooms, part.Every)
}
