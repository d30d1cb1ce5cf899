package report

import (
	"fmt"
	"strings"

	"curvewright/settings"
)

// The printer sets text on paper: it measures before it writes, keeps what belongs
// together on one page, and knows where the page ends.

type printer struct {
	press               Press
	d                   density
	sheet               *settings.Sheet
	opts                PDFOptions
	pages               int
	left, right, bottom float64
	y                   float64 // top of what comes next
	tablePage           int     // on which the table of settings ends
	settingsPages       int     // how many the settings take, with all but the boiler room

	running string // at the head of every page from the second on
	pageOf  string // "page %d of %d" in the reader's language
}

func (p *printer) clean(s string) string { return p.press.Printable(s) }

// said puts a text that becomes part of a longer one into the reader's language.
func (p *printer) said(s string) string {
	if p.opts.Say == nil {
		return s
	}
	return p.opts.Say(s)
}

func (p *printer) width() float64 { return p.right - p.left }

// style is how a run of text looks.
type style struct {
	size float64
	bold bool
	role role
}

func (p *printer) body() style   { return style{p.d.body, false, ink} }
func (p *printer) strong() style { return style{p.d.body, true, ink} }
func (p *printer) quiet() style  { return style{p.d.body, false, faint} }

func (st style) font() Font { return Font{st.bold, st.size} }

func (p *printer) measure(st style, s string) float64 {
	return p.press.TextWidth(st.font(), p.clean(s))
}

// write sets one line with its top at y.
func (p *printer) write(st style, x, y float64, a anchor, s string) {
	s = p.clean(s)
	if s == "" {
		return
	}
	switch w := p.measure(st, s); a {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	p.press.Text(st.font(), pens[st.role].colour, x, y+st.size*0.92, s)
}

// wrap breaks text into lines of at most width. It breaks at spaces, never at a
// no-break space, and cuts only a word that is longer than a line.
func (p *printer) wrap(st style, s string, width float64) []string {
	fits := func(s string) bool { return p.press.TextWidth(st.font(), s) <= width }
	var lines []string
	line := ""
	for _, word := range strings.Fields(unbroken.Replace(p.clean(s))) {
		word = strings.ReplaceAll(word, "\x01", "\u00a0")
		if line != "" && fits(line+" "+word) {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for !fits(word) {
			r := []rune(word)
			n := len(r) - 1
			for n > 1 && !fits(string(r[:n])) {
				n--
			}
			if n < 1 {
				break
			}
			lines = append(lines, string(r[:n]))
			word = string(r[n:])
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// longestWord is how wide the widest piece of a text is that is not broken.
func (p *printer) longestWord(st style, s string) float64 {
	widest := 0.0
	for _, word := range strings.Fields(unbroken.Replace(p.clean(s))) {
		widest = max(widest, p.press.TextWidth(st.font(), strings.ReplaceAll(word, "\x01", "\u00a0")))
	}
	return widest
}

// unbroken keeps a value with its unit.
var unbroken = strings.NewReplacer("\u00a0", "\x01", " °", "\x01°", " %", "\x01%", " Btu/h", "\x01Btu/h")

// lines writes lines below each other and gives the y below the last.
func (p *printer) lines(st style, x, y, lead float64, lines []string) float64 {
	for _, l := range lines {
		p.write(st, x, y, start, l)
		y += lead
	}
	return y
}

func (p *printer) rule(x1, x2, y, width float64, r role) {
	p.press.Line(Ink{Edge: pens[r].colour, Width: width}, [][2]float64{{x1, y}, {x2, y}})
}

// page begins a page with its footer, and from the second on with a header.
func (p *printer) page() {
	p.press.AddPage()
	n := p.press.PageNo()
	small := style{8, false, faint}
	y := p.bottom + 6
	p.rule(p.left, p.right, y-2, 0.5, axis)
	foot := "Curvewright"
	if p.opts.Version != "" {
		foot += " " + p.opts.Version
	}
	if p.opts.Date != "" {
		foot += " · " + p.opts.written(p.opts.Date)
	}
	p.write(small, p.left, y+1, start, foot)
	p.write(small, p.right, y+1, end, fmt.Sprintf(p.pageOf, n, p.pages))
	p.y = margin
	if n > 1 {
		p.write(style{8, true, ink}, p.left, p.y-10, start, p.running)
		p.write(small, p.right, p.y-10, end, p.sheet.Place)
		p.rule(p.left, p.right, p.y+2, 0.5, axis)
		p.y += 8
	}
}

// need makes sure of a height on this page, or goes to the next.
func (p *printer) need(height float64) bool {
	if p.y+height <= p.bottom || p.y <= margin+10 {
		return false
	}
	p.page()
	return true
}

// heading begins a part of the sheet, together with the height that must follow it.
func (p *printer) heading(title, aside string, follows float64) {
	st := style{p.d.body + 1.5, true, ink}
	height := st.size*1.25 + p.d.pad
	if !p.need(height + p.d.pad*2 + follows) {
		p.y += p.d.pad * 2
	}
	p.write(st, p.left, p.y, start, title)
	if aside != "" {
		x := p.left + p.measure(st, title) + 8
		p.write(p.quiet(), x, p.y+(st.size-p.d.body)*0.92, start, aside)
	}
	p.y += st.size * 1.2
	p.rule(p.left, p.right, p.y, 0.8, ink)
	p.y += p.d.pad
}

// warningSign draws a triangle with its stroke and dot, since a typeface may lack it.
func (p *printer) warningSign(x, y, size float64) {
	colour := pens[ink].colour
	p.press.Area(Ink{Edge: colour, Width: size * 0.09}, [][2]float64{{x + size/2, y}, {x + size, y + size*0.9}, {x, y + size*0.9}})
	p.press.Line(Ink{Edge: colour, Width: size * 0.1}, [][2]float64{{x + size/2, y + size*0.34}, {x + size/2, y + size*0.6}})
	p.press.Circle(Ink{Fill: colour}, [2]float64{x + size/2, y + size*0.75}, size*0.055)
}

// tag writes a word in white on black, the loudest thing that a black-and-white
// print can say, and gives its width.
func (p *printer) tag(x, y float64, word string) float64 {
	st := p.strong()
	w := p.measure(st, word) + 6
	p.fill(ink, x, y-1, w, st.size+2)
	p.press.Text(st.font(), paper, x+3, y+st.size*0.88, p.clean(word))
	return w
}

// fill covers a rectangle.
func (p *printer) fill(r role, x, y, w, h float64) {
	p.press.Area(Ink{Fill: pens[r].colour}, [][2]float64{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}})
}

// colonIn and semicolonIn are these signs with their spaces. French sets one before them
// that does not break.
func colonIn(lang string) string {
	if lang == "fr" {
		return "\u00a0: "
	}
	return ": "
}

func semicolonIn(lang string) string {
	if lang == "fr" {
		return "\u00a0; "
	}
	return "; "
}
