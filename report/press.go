package report

import (
	"io"
	"time"
)

// What a sheet is printed with. The printer says what goes where; typefaces and the
// file format belong to the press, in a package of its own: they are larger than all
// the rest, and a page that runs in a browser does without them.

// Press sets text and shapes on pages of one size. Places are in points from the upper
// left corner of the page, x before y; colours are written as "#a8321a".
type Press interface {
	AddPage()
	PageNo() int
	Printable(text string) string // with what the typeface lacks replaced
	TextWidth(f Font, text string) float64
	Text(f Font, colour string, x, y float64, text string) // y of the line that it stands on
	Line(ink Ink, points [][2]float64)
	Area(ink Ink, corners [][2]float64)
	Circle(ink Ink, centre [2]float64, radius float64)
	Picture(data []byte, x, y, w, h float64) // JPEG or PNG
	Output(w io.Writer) error
}

// Font is how large and heavy letters are set.
type Font struct {
	Bold bool
	Size float64
}

// Ink is how a shape is drawn: its edge, its inside, or both. An empty colour leaves
// that out.
type Ink struct {
	Edge, Fill string
	Width      float64   // of the edge
	Dash       []float64 // of the edge; empty: unbroken
}

// Document is what a press is told before the first page.
type Document struct {
	Paper                   Paper
	Date                    time.Time
	Title, Author, Subject  string
	Creator, Producer, Lang string
}

// NewPress prepares a press for one document.
type NewPress func(Document) (Press, error)

// pressCanvas draws a chart into a rectangle of a page. Lines are thinner than on a
// screen in the proportion of the letters.
type pressCanvas struct {
	press  Press
	origin xy
	size   float64
	say    func(string) string // puts the writing into another language; nil leaves it
}

func (c *pressCanvas) line(r role, points []xy) { c.dashed(r, points, pens[r].dash) }

func (c *pressCanvas) dashed(r role, points []xy, dash []float64) {
	if len(points) < 2 {
		return
	}
	scale := c.size / svgFont
	scaled := make([]float64, len(dash))
	for i, d := range dash {
		scaled[i] = d * scale
	}
	c.press.Line(Ink{Edge: pens[r].colour, Width: pens[r].width * scale, Dash: scaled}, c.shift(points))
}

func (c *pressCanvas) area(r role, outline []xy) {
	if len(outline) < 3 {
		return
	}
	c.press.Area(Ink{Fill: pens[r].colour}, c.shift(outline))
}

func (c *pressCanvas) mark(r role, m marker, at xy, radius float64) {
	ink := Ink{Edge: pens[r].colour, Fill: pens[r].colour, Width: 1.2 * c.size / svgFont}
	if m.hollow() {
		ink.Fill = paper
	}
	if corners := m.outline(at, radius); corners != nil {
		c.press.Area(ink, c.shift(corners))
		return
	}
	c.press.Circle(ink, c.shift([]xy{at})[0], radius)
}

func (c *pressCanvas) shift(points []xy) [][2]float64 {
	moved := make([][2]float64, len(points))
	for i, p := range points {
		moved[i] = [2]float64{c.origin.x + p.x, c.origin.y + p.y}
	}
	return moved
}

func (c *pressCanvas) text(r role, at xy, a anchor, bold bool, s string) {
	s = c.press.Printable(c.said(s))
	x := c.origin.x + at.x
	w := c.press.TextWidth(Font{bold, c.size}, s)
	switch a {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	c.press.Text(Font{bold, c.size}, pens[r].colour, x, c.origin.y+at.y, s)
}

func (c *pressCanvas) textWidth(bold bool, s string) float64 {
	return c.press.TextWidth(Font{bold, c.size}, c.press.Printable(c.said(s)))
}

func (c *pressCanvas) said(s string) string {
	if c.say == nil {
		return s
	}
	return c.say(s)
}

func (c *pressCanvas) textSize() float64 { return c.size }
