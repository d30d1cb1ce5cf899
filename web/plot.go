package web

import (
	"context"
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
	"time"

	"curvewright/web/words"
)

// Plots of many points, in the classes of the style sheet.

// dot is one point of a plot.
type dot struct {
	X, Y  float64
	Class string
}

// curveLine is a line through a plot.
type curveLine struct {
	Name, Class string
	Points      [][2]float64
}

// stretch is a part of the horizontal axis that is marked.
type stretch struct {
	From, To float64
	Name     string
}

// plot is dots and lines between two axes.
type plot struct {
	width, height float64
	x, y          string // what the axes are
	dots          []dot
	lines         []curveLine // of those without a name, the line before goes on
	area          [][2]float64
	marked        []stretch
	times         bool            // the horizontal axis counts seconds on the house's clock
	ctx           context.Context // of who looks: decimal sign and clock
}

// bounds are the ends of both axes with a little air.
func (g plot) bounds() (x0, x1, y0, y1 float64) {
	x0, x1, y0, y1 = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	see := func(x, y float64) {
		x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
	}
	for _, d := range g.dots {
		see(d.X, d.Y)
	}
	for _, l := range g.lines {
		for _, p := range l.Points {
			see(p[0], p[1])
		}
	}
	for _, p := range g.area {
		see(p[0], p[1])
	}
	if !(x1 > x0) || !(y1 > y0) {
		return 0, 1, 0, 1
	}
	pad := (y1 - y0) * 0.05
	return x0, x1, y0 - pad, y1 + pad
}

// marks are round figures between two ends, about as many as wanted.
func marks(from, to, wanted float64) []float64 {
	raw := (to - from) / wanted
	step := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*step >= raw {
			step *= m
			break
		}
	}
	var list []float64
	for k := math.Ceil(from / step); k*step <= to; k++ {
		list = append(list, k*step)
	}
	return list
}

// steps of an axis of time, s.
var timeSteps = []float64{3600, 2 * 3600, 6 * 3600, 12 * 3600, 86400, 2 * 86400, 7 * 86400, 14 * 86400, 28 * 86400, 91 * 86400}

// timeMarks are round times between two, and whether hours part them.
func timeMarks(from, to, wanted float64) (list []float64, hours bool) {
	step := timeSteps[len(timeSteps)-1]
	for _, s := range timeSteps {
		if s >= (to-from)/wanted {
			step = s
			break
		}
	}
	for k := math.Ceil(from / step); k*step <= to; k++ {
		list = append(list, k*step)
	}
	return list, step < 86400
}

// svg draws the plot; about says in words what it shows.
func (g plot) svg(about string) string {
	const left, right, top, bottom = 46, 10, 22, 40
	x0, x1, y0, y1 := g.bounds()
	w, h := g.width-left-right, g.height-top-bottom
	px := func(x float64) float64 { return left + (x-x0)/(x1-x0)*w }
	py := func(y float64) float64 { return top + (y1-y)/(y1-y0)*h }
	number := func(v float64) string {
		return words.Figure(g.ctx, strings.Replace(strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64), "-", "−", 1))
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="chart plot" viewBox="0 0 %.0f %.0f" role="img" aria-label="%s" font-size="13">`, g.width, g.height, html.EscapeString(about))
	for _, m := range g.marked {
		from, to := px(max(m.From, x0)), px(min(m.To, x1))
		if to > from {
			fmt.Fprintf(&b, `<rect class="plot-marked" x="%.1f" y="%d" width="%.1f" height="%.1f"/><text class="plot-number" x="%.1f" y="%.1f">%s</text>`, from, top, max(2, to-from), h, from+3, top+h-5, html.EscapeString(m.Name))
		}
	}
	if len(g.area) > 2 {
		fmt.Fprintf(&b, `<polygon class="plot-area" points="%s"/>`, pointsOf(g.area, px, py))
	}
	for _, y := range marks(y0, y1, h/45) {
		fmt.Fprintf(&b, `<path class="plot-grid" d="M%d %.1fh%.1f"/><text class="plot-text" x="%d" y="%.1f" text-anchor="end">%s</text>`, left, py(y), w, left-6, py(y)+4, number(y))
	}
	along, hours := marks(x0, x1, w/60), false
	if g.times {
		along, hours = timeMarks(x0, x1, w/60)
	}
	for _, x := range along {
		text := number(x)
		if g.times {
			at := time.Unix(int64(x), 0).UTC()
			text = shortDay(g.ctx, at)
			if hours {
				text = clock(g.ctx, at)
			}
		}
		fmt.Fprintf(&b, `<path class="plot-axis" d="M%.1f %.1fv5"/><text class="plot-text" x="%.1f" y="%.1f" text-anchor="middle">%s</text>`, px(x), top+h, px(x), top+h+19, text)
	}
	fmt.Fprintf(&b, `<path class="plot-axis" d="M%d %dv%.1fh%.1f"/>`, left, top, h, w)
	fmt.Fprintf(&b, `<text class="plot-text" x="4" y="14">%s</text><text class="plot-text" x="%.1f" y="%.1f" text-anchor="end">%s</text>`, html.EscapeString(g.y), g.width-right, g.height-4, html.EscapeString(g.x))
	for _, d := range g.dots {
		fmt.Fprintf(&b, `<circle class="plot-dot %s" cx="%.1f" cy="%.1f" r="2"/>`, d.Class, px(d.X), py(d.Y))
	}
	named := 0
	for _, l := range g.lines {
		if l.Name != "" {
			fmt.Fprintf(&b, `<text class="plot-name %s" x="%.1f" y="%.1f" text-anchor="end">%s</text>`, l.Class, g.width-right-4, float64(top+14+18*named), html.EscapeString(l.Name))
			named++
		}
		if len(l.Points) > 1 {
			fmt.Fprintf(&b, `<polyline class="plot-line %s" points="%s"/>`, l.Class, pointsOf(l.Points, px, py))
		}
	}
	b.WriteString("</svg>")
	return b.String()
}

func pointsOf(list [][2]float64, px, py func(float64) float64) string {
	var b strings.Builder
	for _, p := range list {
		fmt.Fprintf(&b, "%.1f,%.1f ", px(p[0]), py(p[1]))
	}
	return strings.TrimSpace(b.String())
}
