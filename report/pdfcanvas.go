package report

import (
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// The PDF side of the canvas, and the letters that paper needs.

// face is the family under which the letters are known inside the document.
const face = "sans"

// letters knows which characters the typeface has. A name in a script that it lacks
// must not stop the sheet from printing.
type letters struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
}

// noGlyph stands for a character that the typeface lacks.
const noGlyph = '□'

func newLetters() (*letters, error) {
	font, err := sfnt.Parse(liberationsansregular.TTF)
	return &letters{font: font}, err
}

// printable composes accents and replaces what cannot be printed: look-alikes first,
// an empty box for the rest.
func (l *letters) printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case '\u2010', '\u2011':
			return '-'
		case '\u202f', '\u2007', '\u2009':
			return '\u00a0'
		case '\n', '\t', '\r':
			return ' '
		case '\u00ad', '\u200b', '\ufeff':
			return -1
		}
		if r < ' ' || r == 0x7f {
			return -1
		}
		// The PDF library keeps widths for the basic plane only.
		if r >= 0xffff {
			return noGlyph
		}
		if g, err := l.font.GlyphIndex(&l.buffer, r); err != nil || g == 0 {
			return noGlyph
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(s, string(noGlyph))))
}

func addFonts(pdf *fpdf.Fpdf) {
	pdf.AddUTF8FontFromBytes(face, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(face, "B", liberationsansbold.TTF)
}

// pdfCanvas draws a chart into a rectangle of a page. Lines are thinner than on a
// screen in the proportion of the letters.
type pdfCanvas struct {
	pdf     *fpdf.Fpdf
	letters *letters
	origin  xy
	size    float64
}

func (c *pdfCanvas) line(r role, points []xy) { c.dashed(r, points, pens[r].dash) }

func (c *pdfCanvas) dashed(r role, points []xy, dash []float64) {
	if len(points) < 2 {
		return
	}
	scale := c.size / svgFont
	ink := rgb(pens[r].colour)
	c.pdf.SetDrawColor(ink[0], ink[1], ink[2])
	c.pdf.SetLineWidth(pens[r].width * scale)
	scaled := make([]float64, len(dash))
	for i, d := range dash {
		scaled[i] = d * scale
	}
	c.pdf.SetDashPattern(scaled, 0)
	c.pdf.SetLineJoinStyle("round")
	for i, p := range points {
		if i == 0 {
			c.pdf.MoveTo(c.origin.x+p.x, c.origin.y+p.y)
		} else {
			c.pdf.LineTo(c.origin.x+p.x, c.origin.y+p.y)
		}
	}
	c.pdf.DrawPath("D")
	c.pdf.SetDashPattern(nil, 0)
}

func (c *pdfCanvas) area(r role, outline []xy) {
	if len(outline) < 3 {
		return
	}
	fill := rgb(pens[r].colour)
	c.pdf.SetFillColor(fill[0], fill[1], fill[2])
	c.pdf.Polygon(c.shift(outline), "F")
}

func (c *pdfCanvas) mark(r role, m marker, at xy, radius float64) {
	fill, edge := rgb(pens[r].colour), rgb(pens[r].colour)
	if m.hollow() {
		fill = rgb(paper)
	}
	c.pdf.SetFillColor(fill[0], fill[1], fill[2])
	c.pdf.SetDrawColor(edge[0], edge[1], edge[2])
	c.pdf.SetLineWidth(1.2 * c.size / svgFont)
	if corners := m.outline(at, radius); corners != nil {
		c.pdf.Polygon(c.shift(corners), "DF")
		return
	}
	c.pdf.Circle(c.origin.x+at.x, c.origin.y+at.y, radius, "DF")
}

func (c *pdfCanvas) shift(points []xy) []fpdf.PointType {
	moved := make([]fpdf.PointType, len(points))
	for i, p := range points {
		moved[i] = fpdf.PointType{X: c.origin.x + p.x, Y: c.origin.y + p.y}
	}
	return moved
}

func (c *pdfCanvas) text(r role, at xy, a anchor, bold bool, s string) {
	s = c.letters.printable(s)
	x := c.origin.x + at.x
	w := c.textWidth(bold, s)
	switch a {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	ink := rgb(pens[r].colour)
	c.pdf.SetTextColor(ink[0], ink[1], ink[2])
	c.pdf.Text(x, c.origin.y+at.y, s)
}

func (c *pdfCanvas) textWidth(bold bool, s string) float64 {
	setFont(c.pdf, bold, c.size)
	return c.pdf.GetStringWidth(c.letters.printable(s))
}

func (c *pdfCanvas) textSize() float64 { return c.size }

func setFont(pdf *fpdf.Fpdf, bold bool, size float64) {
	style := ""
	if bold {
		style = "B"
	}
	pdf.SetFont(face, style, size)
}

// rgb reads "#a8321a".
func rgb(hex string) [3]int {
	v, _ := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32) // pens are constants
	return [3]int{int(v >> 16 & 255), int(v >> 8 & 255), int(v & 255)}
}
