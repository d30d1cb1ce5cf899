//go:build !js

package web

import (
	"context"
	"math"
	"strconv"

	"curvewright/followup"
	"curvewright/logs"
	"curvewright/units"
	"curvewright/web/words"
)

// What a log shows, drawn. The course of time is drawn twice: here for who has no script,
// and by the script where it can be looked into.

// curvePlot draws what the control did, what it should have done, and what to set now.
func (f *followed) curvePlot(ctx context.Context, p *page, s size) string {
	g := plot{ctx: ctx, width: s.width, height: s.height, x: words.Say(ctx, "follow.outdoors") + ", " + degree(p.System), y: words.Say(ctx, "follow.supply") + ", " + degree(p.System)}
	every := max(1, len(f.Result.Curve.Hours)/1500)
	for i, h := range f.Result.Curve.Hours {
		if i%every == 0 {
			g.dots = append(g.dots, dot{read(p.System, h.Outdoor), read(p.System, h.Supply), "level-" + slug(string(h.Level)) + " at-" + partOfDay(h.At)})
		}
	}
	lines := []curveLine{{Name: words.Say(ctx, "follow.runs"), Class: "runs"}, {Name: words.Say(ctx, "follow.old"), Class: "old"}, {Name: words.Say(ctx, "follow.new"), Class: "new"}}
	for _, at := range f.Result.Correction.Points {
		x := read(p.System, at.Outdoor)
		for i, t := range []units.Temperature{at.Runs, at.Sheet, at.Set} {
			if t > 0 {
				lines[i].Points = append(lines[i].Points, [2]float64{x, read(p.System, t)})
			}
		}
	}
	for _, l := range lines {
		if len(l.Points) > 1 {
			g.lines = append(g.lines, l)
		}
	}
	return g.svg(words.Say(ctx, "follow.plot"))
}

// partsOfDay are the colours of the hours.
var partsOfDay = []string{"night", "morning", "afternoon", "evening"}

func partOfDay(at int64) string {
	switch h := logs.Clock(at).Hour(); {
	case h < 6 || h >= 22:
		return partsOfDay[0]
	case h < 11:
		return partsOfDay[1]
	case h < 17:
		return partsOfDay[2]
	}
	return partsOfDay[3]
}

// signaturePlot draws the heat of each day against its weather.
func (f *followed) signaturePlot(ctx context.Context, p *page, s size) string {
	unit, scale := "kW", 1e-3
	if p.System.In(units.Powers) == units.US {
		unit, scale = "kBtu/h", units.Power(1).BtuPerHour()/1000
	}
	g := plot{ctx: ctx, width: s.width, height: s.height, x: words.Say(ctx, "follow.outdoors") + ", " + degree(p.System), y: words.Say(ctx, "follow.heat") + ", " + unit}
	for _, at := range f.Result.Signature.Points {
		g.dots = append(g.dots, dot{read(p.System, at.Outdoor), float64(at.Heat) * scale, "level-warm"})
	}
	line := curveLine{Name: words.Say(ctx, "follow.fitted"), Class: "new"}
	band := f.Result.Signature.Band()
	var back [][2]float64
	for i, at := range band {
		x := read(p.System, at.Outdoor)
		line.Points = append(line.Points, [2]float64{x, float64(at.Heat) * scale})
		g.area = append(g.area, [2]float64{x, float64(at.High) * scale})
		low := band[len(band)-1-i]
		back = append(back, [2]float64{read(p.System, low.Outdoor), float64(low.Low) * scale})
	}
	g.area = append(g.area, back...)
	if len(line.Points) > 1 {
		g.lines = []curveLine{line}
	}
	return g.svg(words.Say(ctx, "follow.signature"))
}

// roomPlot draws the days of each room against the weather.
func (f *followed) roomPlot(ctx context.Context, p *page, s size) string {
	g := plot{ctx: ctx, width: s.width, height: s.height, x: words.Say(ctx, "follow.outdoors") + ", " + degree(p.System), y: words.Say(ctx, "follow.room") + ", " + degree(p.System)}
	for k, room := range f.Result.Rooms {
		class := "series-" + strconv.Itoa(k%seriesClasses)
		line := curveLine{Name: room.Name, Class: class}
		low, high := math.Inf(1), math.Inf(-1)
		for _, at := range room.Points {
			x := read(p.System, at.Outdoor)
			low, high = math.Min(low, x), math.Max(high, x)
			g.dots = append(g.dots, dot{x, read(p.System, at.Room), class})
		}
		if set := read(p.System, room.Set); high > low {
			line.Points = [][2]float64{{low, set}, {high, set}}
		}
		g.lines = append(g.lines, line)
	}
	return g.svg(words.Say(ctx, "follow.roomplot"))
}

func (f *followed) roomDays() int {
	n := 0
	for _, r := range f.Result.Rooms {
		n += len(r.Points)
	}
	return n
}

const (
	seriesClasses = 6
	drawnColumns  = 5 // of the course of time without the script
)

// coursePlot draws the temperatures of a stretch of the log.
func (f *followed) coursePlot(ctx context.Context, p *page, s size) string {
	g := plot{ctx: ctx, width: s.width, height: s.height, y: degree(p.System), times: true}
	window := f.rows.Window(f.From, f.To, int(s.width/2))
	n := 0
	for k, c := range f.rows.Series {
		m := measureOf(c.Column, p.System)
		if !m.temperature || n == drawnColumns {
			continue
		}
		line := curveLine{Name: columnName(ctx, c.Column), Class: "course series-" + strconv.Itoa(n%seriesClasses)}
		for i, v := range window.Values[k] {
			if math.IsNaN(v) {
				if len(line.Points) > 0 {
					g.lines = append(g.lines, line)
					line = curveLine{Class: line.Class}
				}
				continue
			}
			line.Points = append(line.Points, [2]float64{float64(window.Stamps[i]), v*m.factor + m.offset})
		}
		g.lines = append(g.lines, line)
		n++
	}
	for i, x := range f.Result.Findings {
		if f.marks(x) {
			g.marked = append(g.marked, stretch{float64(x.From), float64(x.To), strconv.Itoa(i + 1)})
		}
	}
	return g.svg(words.Say(ctx, "follow.course"))
}

// marks tells whether a finding has a stretch of its own, and not only the whole log.
func (f *followed) marks(x followup.Finding) bool {
	return x.To > x.From && x.To-x.From < (f.Result.To-f.Result.From)*3/4
}

// around is a stretch with as much before and after it.
func around(x followup.Finding) (from, to int64) {
	air := max(x.To-x.From, 6*3600)
	return x.From - air, x.To + air
}

// stretchLink is where a stretch is drawn without the script.
func stretchLink(x followup.Finding) string {
	from, to := around(x)
	return "?from=" + stamp(from) + "&to=" + stamp(to) + "#series"
}

func stamp(at int64) string { return strconv.FormatInt(at, 10) }
