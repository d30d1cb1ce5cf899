package report

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"curvewright/settings"
)

// The sheet that stays with the people who live in the house: one page, print as large as
// it takes, a picture of the house in three weathers. Its words come from the caller.

// HouseholdSheet is that sheet in its reader's language.
type HouseholdSheet struct {
	Title string
	House string
	Lang  string
	Lead  string // how the system warms the house
	Days  []HouseholdDay
	Parts []HouseholdPart
	Call  HouseholdPart // whom to call, at the foot
}

// HouseholdDay is the house in one weather.
type HouseholdDay struct {
	Outdoors string // "−5 °C outside"
	Waters   []string
	Cold     float64 // 1 on the coldest day, 0 on the mildest
	Warmth   float64 // of the water, 0 to 1
	Floor    bool    // the house has no radiators
}

// HouseholdPart is a part under a heading.
type HouseholdPart struct {
	Title    string
	Text     []string
	Numbered bool
	Danger   bool // framed, with the sign
	Care     bool // with the sign
	Spare    int  // sentences at the end that are left out before the print gets too small
}

// The print is as large as one page allows. Below the least it would not be for old eyes: then
// words are left out instead.
const (
	largestPrint = 17.0
	leastPrint   = 14.0
)

// PrintHousehold sets the sheet on one page and writes it. The same sheet and options give
// the same bytes.
//
// Errors: a date that is not a day written as 2026-11-25; more words than one page takes;
// a failure of the press or of w.
func PrintHousehold(w io.Writer, sheet *HouseholdSheet, opts PDFOptions, newPress NewPress) error {
	if sheet == nil {
		return errors.New("there is no sheet for the household to print")
	}
	date, err := opts.day("household's sheet")
	if err != nil {
		return err
	}
	for size := largestPrint; ; size -= 0.25 {
		if size < leastPrint {
			fewer, ok := sheet.fewerWords()
			if !ok {
				return fmt.Errorf("the household's sheet has more words than one page takes at %.0f points", leastPrint)
			}
			sheet, size = fewer, leastPrint
		}
		width, height := opts.Paper.Size()
		press, err := newPress(Document{Paper: opts.Paper, Date: date, Title: sheet.Title + colonIn(sheet.Lang) + sheet.House, Subject: sheet.Title,
			Creator: "Curvewright " + opts.Version, Producer: "Curvewright", Lang: sheet.Lang})
		if err != nil {
			return err
		}
		press.AddPage()
		p := &printer{press: press, d: density{body: size, lead: size * 1.24, pad: size * 0.42}, sheet: &settings.Sheet{}, opts: opts,
			left: margin, right: width - margin, bottom: height - margin, y: margin}
		if p.household(sheet) {
			return press.Output(w)
		}
	}
}

// fewerWords is the sheet without one of its sentences that can be spared.
func (s *HouseholdSheet) fewerWords() (*HouseholdSheet, bool) {
	for i, part := range s.Parts {
		if part.Spare < 1 || part.Spare > len(part.Text) {
			continue
		}
		fewer := *s
		fewer.Parts = slices.Clone(s.Parts)
		part.Text, part.Spare = part.Text[:len(part.Text)-1], part.Spare-1
		fewer.Parts[i] = part
		if len(part.Text) == 0 {
			fewer.Parts = slices.Delete(fewer.Parts, i, i+1)
		}
		return &fewer, true
	}
	return s, false
}

// household sets it, and tells whether it fits.
func (p *printer) household(sheet *HouseholdSheet) bool {
	title := style{p.d.body * 1.75, true, ink}
	p.y = p.lines(title, p.left, p.y, title.size*1.15, p.wrap(title, sheet.Title, p.width()))
	p.write(p.quiet(), p.left, p.y, start, p.cut(p.quiet(), sheet.House, p.width()))
	p.y += p.d.lead
	p.rule(p.left, p.right, p.y, 2, ink)
	p.y += p.d.pad
	p.y = p.lines(p.body(), p.left, p.y, p.d.lead, p.wrap(p.body(), sheet.Lead, p.width())) + p.d.pad
	whole := p.weathers(sheet.Days)
	// Two columns, each part whole; the first takes parts until it is half of all.
	const gap = 18.0
	column := (p.width() - gap) / 2
	var wide []HouseholdPart
	heights, all := []float64{}, 0.0
	var halves []HouseholdPart
	for _, part := range sheet.Parts {
		if part.Danger {
			wide = append(wide, part)
			continue
		}
		halves = append(halves, part)
		heights = append(heights, p.partHeight(part, column))
		all += heights[len(heights)-1]
	}
	top, y, side := p.y, p.y, 0
	lowest := p.y
	for i, part := range halves {
		if side == 0 && y-top+heights[i]/2 > all/2 && i > 0 {
			side, y = 1, top
		}
		p.part(part, p.left+float64(side)*(column+gap), y, column)
		y += heights[i]
		lowest = max(lowest, y)
	}
	p.y = lowest
	for _, part := range append(wide, sheet.Call) {
		p.part(part, p.left, p.y, p.width())
		p.y += p.partHeight(part, p.width())
	}
	return p.y-p.d.pad <= p.bottom && (whole || p.d.body <= leastPrint)
}

// weathers draws the house on a cold, a middling and a mild day, and tells whether every word
// beside it is whole: the name of a circuit may be too long for the largest print.
func (p *printer) weathers(days []HouseholdDay) (whole bool) {
	whole = true
	if len(days) == 0 {
		return whole
	}
	each := p.width() / float64(len(days))
	tall := p.d.body * 4.4
	const beside = 1.24 // of the house's height, where the words begin
	most := 0
	for i, d := range days {
		x := p.left + each*float64(i)
		p.houseIn(d, x, p.y, tall)
		said := p.wrap(p.strong(), d.Outdoors, each-tall*beside-6)
		y := p.lines(p.strong(), x+tall*beside, p.y, p.d.lead, said)
		lines := len(said)
		for _, water := range d.Waters {
			text := p.cut(p.body(), water, each-tall*beside-6)
			p.write(p.body(), x+tall*beside, y, start, text)
			whole = whole && text == water
			y += p.d.lead
			lines++
		}
		most = max(most, lines)
	}
	p.y += max(tall, float64(most)*p.d.lead) + p.d.pad*1.4
	return whole
}

// houseIn draws a house with a radiator as full of warmth as its water, and snow or sun
// outside. It says with shapes what a black-and-white print would lose in colours.
func (p *printer) houseIn(d HouseholdDay, x, y, s float64) {
	edge := Ink{Edge: pens[ink].colour, Width: s * 0.025}
	at := func(fx, fy float64) [2]float64 { return [2]float64{x + fx*s, y + fy*s} }
	p.press.Area(Ink{Edge: edge.Edge, Fill: paper, Width: edge.Width}, [][2]float64{at(0.05, 0.98), at(0.05, 0.45), at(0.45, 0.12), at(0.85, 0.45), at(0.85, 0.98)})
	fill := min(1, max(0.08, d.Warmth))
	if d.Floor {
		p.floorIn(edge, at, s, fill)
	}
	// The radiator: columns, filled from below.
	for k := range 5 {
		if d.Floor {
			break
		}
		left := 0.2 + 0.1*float64(k)
		p.press.Area(Ink{Fill: pens[supply].colour}, [][2]float64{at(left, 0.86), at(left, 0.86-0.34*fill), at(left+0.07, 0.86-0.34*fill), at(left+0.07, 0.86)})
		p.press.Area(edge, [][2]float64{at(left, 0.86), at(left, 0.52), at(left+0.07, 0.52), at(left+0.07, 0.86)})
	}
	// The weather: a flake, or a sun whose rays are longer the milder it is.
	centre := [2]float64{1, 0.2}
	spokes := [][2]float64{{1, 0}, {0.5, 0.87}, {-0.5, 0.87}, {-1, 0}, {-0.5, -0.87}, {0.5, -0.87}}
	cold := d.Cold > 0.6
	for _, v := range spokes {
		from, to := 0.0, 0.15
		if !cold {
			from, to = 0.1, 0.17-0.05*d.Cold
		}
		p.press.Line(edge, [][2]float64{at(centre[0]+v[0]*from, centre[1]+v[1]*from), at(centre[0]+v[0]*to, centre[1]+v[1]*to)})
		if cold { // the barbs of a flake
			for _, turn := range []float64{-0.5, 0.5} {
				bx, by := v[0]*0.1+(-v[1]*turn)*0.07, v[1]*0.1+(v[0]*turn)*0.07
				p.press.Line(edge, [][2]float64{at(centre[0]+v[0]*0.07, centre[1]+v[1]*0.07), at(centre[0]+bx, centre[1]+by)})
			}
		}
	}
	if !cold {
		p.press.Circle(Ink{Edge: edge.Edge, Fill: paper, Width: edge.Width}, at(centre[0], centre[1]), s*0.07)
	}
}

// floorIn draws a floor with its pipes, and warmth that rises the higher the warmer it is.
func (p *printer) floorIn(edge Ink, at func(x, y float64) [2]float64, s, warmth float64) {
	p.press.Area(edge, [][2]float64{at(0.12, 0.92), at(0.12, 0.78), at(0.78, 0.78), at(0.78, 0.92)})
	for k := range 5 {
		x := 0.2 + 0.125*float64(k)
		p.press.Circle(Ink{Edge: edge.Edge, Fill: pens[supply].colour, Width: edge.Width}, at(x, 0.85), s*0.035)
		if k%2 == 0 {
			p.press.Line(Ink{Edge: pens[supply].colour, Width: 2 * edge.Width}, [][2]float64{at(x, 0.74), at(x, 0.74-0.32*warmth)})
		}
	}
}

func (p *printer) partStyle() style { return style{p.d.body * 1.14, true, ink} }

// inset is how far a framed part stands in.
func (p *printer) inset(part HouseholdPart) float64 {
	if part.Danger {
		return p.d.pad
	}
	return 0
}

func (p *printer) partHeight(part HouseholdPart, width float64) float64 {
	width -= 2 * p.inset(part)
	titled := width
	if part.Danger || part.Care {
		titled -= p.partStyle().size * 1.4
	}
	height := float64(len(p.wrap(p.partStyle(), part.Title, titled)))*p.partStyle().size*1.2 + p.d.pad*1.6 + 2*p.inset(part)
	for _, text := range part.Text {
		height += float64(len(p.wrap(p.body(), text, width-p.indent(part)))) * p.d.lead
	}
	return height
}

func (p *printer) indent(part HouseholdPart) float64 {
	if part.Numbered {
		return p.d.body * 1.3
	}
	return 0
}

func (p *printer) part(part HouseholdPart, x, y, width float64) {
	head := p.partStyle()
	if part.Danger {
		p.press.Area(Ink{Edge: pens[supply].colour, Width: 2}, [][2]float64{{x, y}, {x + width, y}, {x + width, y + p.partHeight(part, width) - p.d.pad}, {x, y + p.partHeight(part, width) - p.d.pad}})
		x, y, width = x+p.d.pad, y+p.d.pad, width-2*p.d.pad
	}
	at, titled := x, width
	if part.Danger || part.Care {
		p.warningSign(x, y, head.size)
		at, titled = x+head.size*1.4, width-head.size*1.4
	}
	y = p.lines(head, at, y, head.size*1.2, p.wrap(head, part.Title, titled))
	y += p.d.pad * 0.3
	for i, text := range part.Text {
		if part.Numbered {
			p.write(p.strong(), x, y, start, fmt.Sprintf("%d.", i+1))
		}
		y = p.lines(p.body(), x+p.indent(part), y, p.d.lead, p.wrap(p.body(), text, width-p.indent(part)))
	}
}
