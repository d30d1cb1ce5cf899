package report

import (
	"fmt"
	"strings"
)

// Plots of a year that was played are drawn once, for a page and for paper. They hold
// thousands of marks, so that their canvas takes many at once.

// Plot is such a chart, ready to be drawn.
type Plot struct {
	id, title, said string // for a page
	none            string // why there is nothing to draw
	draw            func(c yearCanvas, width, height float64)
}

// Empty says why there is nothing to draw; nothing if there is.
func (p Plot) Empty() string { return p.none }

// SVG draws a plot as an SVG image of the given size in CSS pixels. One that has nothing
// to draw says so.
func (p Plot) SVG(width, height float64) string {
	width, height = usable(width, height)
	id := p.id + "-" + num(width)
	if p.draw == nil {
		return emptySVG(id, p.none, width, height)
	}
	c := newSVG(id, p.title, p.said, width, height)
	p.draw(c, width, height)
	return c.finish()
}

// yearCanvas is a canvas for many marks.
type yearCanvas interface {
	canvas
	dots(r role, points []xy)     // each as wide as the role's pen
	trail(r role, points []xy)    // a line in a role of these charts
	outline(r role, corners []xy) // an area in such a role
	carpet(class int, fields []field)
}

// field is a rectangle of one colour.
type field struct{ left, top, right, bottom float64 }

// penOf is how a role looks, be it of these charts or of all.
func penOf(r role) pen {
	if p, own := yearPens[r]; own {
		return p
	}
	return pens[r]
}

// path writes what has too many points for single marks as one element.
func (c *svgCanvas) path(r role, steps string) {
	p := yearPens[r]
	paint := themed(string(r), p.colour)
	if p.width == 0 {
		fmt.Fprintf(&c.b, `<path class="%s" d="%s" fill="%s"/>`+"\n", r, steps, paint)
		return
	}
	fmt.Fprintf(&c.b, `<path class="%s" d="%s" fill="none" stroke="%s" stroke-width="%s" stroke-linejoin="round"`, r, steps, paint, num(p.width))
	if len(p.dash) > 0 {
		fmt.Fprintf(&c.b, ` stroke-dasharray="%s"`, numList(p.dash))
	} else {
		c.b.WriteString(` stroke-linecap="round"`)
	}
	c.b.WriteString("/>\n")
}

func (c *svgCanvas) dots(r role, points []xy) {
	var b strings.Builder
	for _, p := range points {
		b.WriteString("M" + num(p.x) + " " + num(p.y) + "h0")
	}
	c.path(r, b.String())
}

func (c *svgCanvas) trail(r role, points []xy) {
	var b strings.Builder
	step := "M"
	for _, p := range points {
		b.WriteString(step + num(p.x) + " " + num(p.y))
		step = "L"
	}
	c.path(r, b.String())
}

func (c *svgCanvas) outline(r role, corners []xy) {
	var b strings.Builder
	for i, p := range corners {
		switch {
		case i == 0:
			b.WriteString("M" + num(p.x) + " " + num(p.y))
		case p.x == corners[i-1].x:
			b.WriteString("V" + num(p.y))
		case p.y == corners[i-1].y:
			b.WriteString("H" + num(p.x))
		default:
			b.WriteString("L" + num(p.x) + " " + num(p.y))
		}
	}
	c.path(r, b.String()+"z")
}

func (c *svgCanvas) carpet(class int, fields []field) {
	var b strings.Builder
	for _, f := range fields {
		fmt.Fprintf(&b, "M%s %sH%sV%sH%sz", num(f.left), num(f.top), num(f.right), num(f.bottom), num(f.left))
	}
	fmt.Fprintf(&c.b, `<path class="carpet-%d" d="%s" fill="%s"/>`+"\n", class, b.String(), themed(fmt.Sprintf("carpet-%d", class), carpetColours[class]))
}

func (c *pressCanvas) dots(r role, points []xy) {
	p := penOf(r)
	for _, at := range c.shift(points) {
		c.press.Circle(Ink{Fill: p.colour}, at, p.width/2*c.size/svgFont)
	}
}

func (c *pressCanvas) trail(r role, points []xy) {
	if len(points) < 2 {
		return
	}
	p, scale := penOf(r), c.size/svgFont
	dash := make([]float64, len(p.dash))
	for i, d := range p.dash {
		dash[i] = d * scale
	}
	c.press.Line(Ink{Edge: p.colour, Width: p.width * scale, Dash: dash}, c.shift(points))
}

func (c *pressCanvas) outline(r role, corners []xy) {
	if len(corners) > 2 {
		c.press.Area(Ink{Fill: penOf(r).colour}, c.shift(corners))
	}
}

func (c *pressCanvas) carpet(class int, fields []field) {
	for _, f := range fields {
		c.press.Area(Ink{Fill: carpetColours[class]}, c.shift([]xy{{f.left, f.top}, {f.right, f.top}, {f.right, f.bottom}, {f.left, f.bottom}}))
	}
}

// PaperPlot is a plot on paper with what it shows.
type PaperPlot struct {
	Plot    Plot
	High    float64 // in points
	Caption string
	Say     func(string) string // the writing in the reader's language; nil: as it is
}

// paperPlot sets one over the whole width, its caption beneath it.
func (p *printer) paperPlot(plot PaperPlot) {
	const letters = 7.5
	caption := p.wrap(p.quiet(), plot.Caption, p.width())
	if plot.Plot.draw == nil {
		p.paragraph(p.quiet(), plot.Plot.none+".")
		return
	}
	p.need(plot.High + float64(len(caption))*p.d.lead + p.d.pad)
	c := &pressCanvas{press: p.press, origin: xy{p.left, p.y}, size: letters, say: plot.Say}
	plot.Plot.draw(c, p.width(), plot.High)
	p.y = p.lines(p.quiet(), p.left, p.y+plot.High+2, p.d.lead, caption) + p.d.pad*1.5
}
