package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The SVG side of the canvas. Colours are custom properties with a fallback, set as
// attributes: a page can theme them, or override a class, without the chart carrying
// a style sheet or anything that a strict content policy refuses.

type svgCanvas struct {
	b    strings.Builder
	size float64
}

// svgFont is the size of chart text in CSS pixels.
const svgFont = 12

func newSVG(id, title, description string, width, height float64) *svgCanvas {
	c := &svgCanvas{size: svgFont}
	fmt.Fprintf(&c.b, `<svg xmlns="http://www.w3.org/2000/svg" class="chart" role="img" viewBox="0 0 %s %s" width="%s" height="%s" aria-labelledby="%s-title %s-desc" font-family="system-ui, 'Liberation Sans', Arial, sans-serif" font-size="%s">`,
		num(width), num(height), num(width), num(height), id, id, num(c.size))
	fmt.Fprintf(&c.b, "\n<title id=\"%s-title\">%s</title>\n<desc id=\"%s-desc\">%s</desc>\n", id, escape(title), id, escape(description))
	return c
}

func (c *svgCanvas) finish() string { return c.b.String() + "</svg>\n" }

func (c *svgCanvas) line(r role, points []xy) { c.dashed(r, points, pens[r].dash) }

func (c *svgCanvas) dashed(r role, points []xy, dash []float64) {
	if len(points) < 2 {
		return
	}
	p := pens[r]
	fmt.Fprintf(&c.b, `<polyline class="%s" points="%s" fill="none" stroke="%s" stroke-width="%s" stroke-linejoin="round"`,
		r, pointList(points), colour(r), num(p.width))
	if len(dash) > 0 {
		fmt.Fprintf(&c.b, ` stroke-dasharray="%s"`, numList(dash))
	}
	c.b.WriteString("/>\n")
}

func (c *svgCanvas) area(r role, outline []xy) {
	if len(outline) < 3 {
		return
	}
	fmt.Fprintf(&c.b, `<polygon class="%s" points="%s" fill="%s"/>`+"\n", r, pointList(outline), colour(r))
}

func (c *svgCanvas) mark(r role, m marker, at xy, radius float64) {
	fill := colour(r)
	if m.hollow() {
		fill = themed("paper", paper)
	}
	look := fmt.Sprintf(`fill="%s" stroke="%s" stroke-width="1.2"`, fill, colour(r))
	if corners := m.outline(at, radius); corners != nil {
		fmt.Fprintf(&c.b, `<polygon class="%s" points="%s" %s/>`+"\n", r, pointList(corners), look)
		return
	}
	fmt.Fprintf(&c.b, `<circle class="%s" cx="%s" cy="%s" r="%s" %s/>`+"\n", r, num(at.x), num(at.y), num(radius), look)
}

func (c *svgCanvas) text(r role, at xy, a anchor, bold bool, s string) {
	fmt.Fprintf(&c.b, `<text class="%s" x="%s" y="%s" fill="%s" stroke="%s" stroke-width="3" stroke-linejoin="round" paint-order="stroke"`,
		r, num(at.x), num(at.y), colour(r), themed("paper", paper))
	switch a {
	case middle:
		c.b.WriteString(` text-anchor="middle"`)
	case end:
		c.b.WriteString(` text-anchor="end"`)
	}
	if bold {
		c.b.WriteString(` font-weight="700"`)
	}
	fmt.Fprintf(&c.b, ">%s</text>\n", escape(s))
}

// textWidth is close, not exact: the page's font is not known here. It errs on the
// wide side so that labels keep clear of each other.
func (c *svgCanvas) textWidth(bold bool, s string) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case strings.ContainsRune("ijl.,:;'|!()[]tfr·I", r), r == ' ', r == '\u00a0':
			w += 0.32
		case strings.ContainsRune("mwMW—→%", r):
			w += 0.9
		case r >= 'A' && r <= 'Z':
			w += 0.7
		case r > 0x2e80: // scripts written in squares
			w += 1
		default:
			w += 0.57
		}
	}
	if bold {
		w *= 1.06
	}
	return w * c.size
}

func (c *svgCanvas) textSize() float64 { return c.size }

// colour is a role's colour as a page may set it: --chart-supply and so on.
func colour(r role) string { return themed(string(r), pens[r].colour) }

func themed(name, fallback string) string {
	return "var(--chart-" + name + ", " + fallback + ")"
}

func pointList(points []xy) string {
	parts := make([]string, len(points))
	for i, p := range points {
		parts[i] = num(p.x) + "," + num(p.y)
	}
	return strings.Join(parts, " ")
}

func numList(v []float64) string {
	parts := make([]string, len(v))
	for i, x := range v {
		parts[i] = num(x)
	}
	return strings.Join(parts, " ")
}

// num writes a coordinate to a tenth of a pixel, which the last bits of a
// calculation on another machine cannot change.
func num(v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64)
}

var xmlEscape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes any text safe in markup. Characters that XML does not allow at all
// are dropped.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return xmlEscape.Replace(s)
}
