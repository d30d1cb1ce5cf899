package report

import (
	"errors"
	"io"

	"curvewright/settings"
)

// Paperwork is what goes into a file: parts with sentences, tables, pictures and the
// drawing. What it says comes from its caller, in the language of whoever keeps it; here
// is only where it stands on the paper.

// Paperwork is a document of several pages.
type Paperwork struct {
	Title   string
	Job     string
	Place   string
	Lead    []string // below the title
	Author  string
	Subject string
	Lang    string // en, fr, es, de
	PageOf  string // "page %d of %d"
	Parts   []PaperPart
}

// PaperPart is a part under a heading. What it has stands in this order.
type PaperPart struct {
	Title    string
	Text     []string
	Drawing  *PaperDrawing
	Columns  []string // heads of the table; none for a table that explains itself
	Rows     [][]PaperCell
	Widths   []float64 // of the columns, in parts of each other
	Cautions []string
	Pictures []PaperPicture
	Square   *PaperSquare
	Plots    []PaperPlot
}

// PaperCell is a cell of a table.
type PaperCell struct {
	Text string
	Bold bool
	Loud bool // white on black: what must not be passed over
}

// PaperPicture is a photograph or a signature. Data is JPEG or PNG; with none, the caption
// says what is missing.
type PaperPicture struct {
	Data          []byte
	Width, Height int
	Caption       string
	Small         bool // a signature
}

// PaperDrawing is the boiler room on the design day.
type PaperDrawing struct {
	Sheet *settings.Sheet
	Say   func(string) string // the writing in the reader's language; nil: as it is
}

// PaperSquare is a square that telephones read: Black says what is.
type PaperSquare struct {
	Side  int
	Black func(x, y int) bool
	Text  string // beside it
}

// PrintPaperwork sets it with a press and writes it. The same paperwork and options give
// the same bytes.
//
// Errors: a date that is not a day written as 2026-11-25; a failure of the press or of w.
func PrintPaperwork(w io.Writer, work *Paperwork, opts PDFOptions, newPress NewPress) error {
	if work == nil {
		return errors.New("there is no record to print")
	}
	date, err := opts.day("record")
	if err != nil {
		return err
	}
	width, height := opts.Paper.Size()
	// Once to count the pages, and once more to say how many there are.
	for pages := 1; ; {
		press, err := newPress(Document{Paper: opts.Paper, Date: date, Title: work.Title + colonIn(work.Lang) + work.Job, Author: work.Author,
			Subject: work.Subject, Creator: "Curvewright " + opts.Version, Producer: "Curvewright", Lang: work.Lang})
		if err != nil {
			return err
		}
		p := &printer{press: press, d: densities[0], sheet: &settings.Sheet{Job: work.Job, Place: work.Place}, opts: opts, pages: pages,
			left: margin, right: width - margin, bottom: height - margin - footer, running: work.Title + " – " + work.Job, pageOf: work.PageOf}
		p.paperwork(work)
		if n := press.PageNo(); n != pages {
			pages = n
			continue
		}
		return press.Output(w)
	}
}

func (p *printer) paperwork(work *Paperwork) {
	p.page()
	title := style{20, true, ink}
	p.y = p.lines(title, p.left, p.y, 24, p.wrap(title, work.Title, p.width()))
	name := style{12, true, ink}
	p.y = p.lines(name, p.left, p.y, 15, p.wrap(name, joined(" · ", work.Job, work.Place), p.width()))
	for _, text := range work.Lead {
		p.paragraph(p.quiet(), text)
	}
	p.y += p.d.pad
	for i := range work.Parts {
		p.paperPart(&work.Parts[i])
	}
}

// paragraph sets a text over the whole width, line by line over the pages.
func (p *printer) paragraph(st style, text string) {
	for _, line := range p.wrap(st, text, p.width()) {
		p.need(p.d.lead)
		p.write(st, p.left, p.y, start, line)
		p.y += p.d.lead
	}
}

func (p *printer) paperPart(part *PaperPart) {
	follows := p.d.lead * 3
	if part.Drawing != nil {
		follows = p.drawingHeight(part.Drawing)
	}
	if len(part.Pictures) > 0 && len(part.Rows) == 0 {
		_, _, height := p.besideEachOther(part.Pictures[:min(2, len(part.Pictures))])
		follows = height + p.d.pad + float64(len(part.Text))*p.d.lead
	}
	if part.Square != nil {
		follows = squareSide + p.d.pad
	}
	if len(part.Plots) > 0 && len(part.Rows) == 0 {
		follows = part.Plots[0].High
	}
	p.heading(part.Title, "", follows)
	for _, text := range part.Text {
		p.paragraph(p.body(), text)
	}
	if part.Drawing != nil {
		p.paperDrawing(part.Drawing)
	}
	p.paperTable(part)
	for _, plot := range part.Plots {
		p.paperPlot(plot)
	}
	if len(part.Cautions) > 0 && len(part.Rows) > 0 {
		p.y += p.d.pad
	}
	for _, text := range part.Cautions {
		p.paperCaution(text)
	}
	p.paperPictures(part.Pictures)
	if part.Square != nil {
		p.paperSquare(part.Square)
	}
	p.y += p.d.pad * 2
}

// drawn lays the boiler room out over the width of the paper.
func (p *printer) drawn(d *PaperDrawing) (*sketch, scene, layout, bool) {
	s, ok := sceneOf(d.Sheet, 0)
	if !ok {
		return nil, s, layout{}, false
	}
	k := newSketch(&pressCanvas{press: p.press, origin: xy{p.left, p.y}, size: 8, say: d.Say})
	k.exact = true
	return k, s, layOut(s, k, p.width()/k.u), true
}

func (p *printer) drawingHeight(d *PaperDrawing) float64 {
	k, _, l, ok := p.drawn(d)
	if !ok {
		return 0
	}
	return l.height * k.u
}

func (p *printer) paperDrawing(d *PaperDrawing) {
	p.need(p.drawingHeight(d))
	if k, s, l, ok := p.drawn(d); ok {
		drawBoilerRoom(k, s, l)
		p.y += l.height * k.u
	}
}

// paperTable sets the rows; a row stays on one page, and a page begins with the heads.
func (p *printer) paperTable(part *PaperPart) {
	if len(part.Rows) == 0 {
		return
	}
	lefts, wide := p.paperColumns(part)
	heads := func() {
		if len(part.Columns) == 0 {
			return
		}
		height := 0.0
		for i, c := range part.Columns {
			lines := p.wrap(p.quiet(), c, wide[i])
			p.lines(p.quiet(), lefts[i], p.y, p.d.lead, lines)
			height = max(height, float64(len(lines)))
		}
		p.y += height * p.d.lead
	}
	heads()
	for _, row := range part.Rows {
		lines := make([][]string, len(row))
		most := 1
		for i, c := range row {
			lines[i] = p.wrap(p.cell(c), c.Text, wide[i])
			most = max(most, len(lines[i]))
		}
		if height := float64(most)*p.d.lead + p.d.pad*0.6; p.need(height) {
			heads()
		}
		p.rule(p.left, p.right, p.y, 0.4, grid)
		p.y += p.d.pad * 0.3
		for i, c := range row {
			if c.Loud && c.Text != "" {
				p.tag(lefts[i], p.y+1, c.Text)
				continue
			}
			p.lines(p.cell(c), lefts[i], p.y, p.d.lead, lines[i])
		}
		p.y += float64(most)*p.d.lead + p.d.pad*0.3
	}
}

// paperColumns are where the columns begin and how wide they are: in the proportions wished,
// but wide enough for the longest word of each where the others can spare it.
func (p *printer) paperColumns(part *PaperPart) (lefts, wide []float64) {
	const gap = 6
	sum, lack, spare := 0.0, 0.0, 0.0
	for _, w := range part.Widths {
		sum += w
	}
	needs := make([]float64, len(part.Widths))
	for i, w := range part.Widths {
		wide = append(wide, p.width()*w/sum-gap)
		if i < len(part.Columns) {
			needs[i] = p.longestWord(p.quiet(), part.Columns[i])
		}
		for _, row := range part.Rows {
			if i < len(row) {
				needs[i] = max(needs[i], p.longestWord(p.cell(row[i]), row[i].Text))
			}
		}
		lack += max(0, needs[i]-wide[i])
		spare += max(0, wide[i]-needs[i])
	}
	x := p.left
	for i := range wide {
		switch {
		case lack > spare:
		case needs[i] > wide[i]:
			wide[i] = needs[i]
		case lack > 0:
			wide[i] -= (wide[i] - needs[i]) * lack / spare
		}
		lefts = append(lefts, x)
		x += wide[i] + gap
	}
	return lefts, wide
}

func (p *printer) cell(c PaperCell) style {
	if c.Bold || c.Loud {
		return p.strong()
	}
	return p.body()
}

func (p *printer) paperCaution(text string) {
	const sign = 14.0
	lines := p.wrap(p.strong(), text, p.width()-sign-4)
	p.need(float64(len(lines))*p.d.lead + p.d.pad)
	p.warningSign(p.left, p.y, p.d.body)
	p.y = p.lines(p.strong(), p.left+sign, p.y, p.d.lead, lines) + p.d.pad*0.6
}

// Pictures stand two beside each other, no higher than this.
const (
	pictureHigh   = 190.0
	signatureHigh = 60.0
	pictureGap    = 14.0
)

func (p *printer) paperPictures(pictures []PaperPicture) {
	for i := 0; i < len(pictures); i += 2 {
		pair := pictures[i:min(i+2, len(pictures))]
		sizes, captions, height := p.besideEachOther(pair)
		p.need(height + p.d.pad)
		for k, c := range pair {
			x := p.left + float64(k)*(p.pictureColumn()+pictureGap)
			if sizes[k][1] > 0 {
				p.press.Picture(c.Data, x, p.y, sizes[k][0], sizes[k][1])
			}
			p.lines(p.quiet(), x, p.y+sizes[k][1]+3, p.d.lead, captions[k])
		}
		p.y += height + p.d.pad
	}
}

func (p *printer) pictureColumn() float64 { return (p.width() - pictureGap) / 2 }

// besideEachOther gives the sizes of one or two pictures, their captions, and the height of both.
func (p *printer) besideEachOther(pair []PaperPicture) (sizes [][2]float64, captions [][]string, height float64) {
	column := p.pictureColumn()
	sizes, captions = make([][2]float64, len(pair)), make([][]string, len(pair))
	for k, c := range pair {
		captions[k] = p.wrap(p.quiet(), c.Caption, column)
		if len(c.Data) > 0 && c.Width > 0 && c.Height > 0 {
			high := pictureHigh
			if c.Small {
				high = signatureHigh
			}
			scale := min(column/float64(c.Width), high/float64(c.Height))
			sizes[k] = [2]float64{float64(c.Width) * scale, float64(c.Height) * scale}
		}
		height = max(height, sizes[k][1]+3+float64(len(captions[k]))*p.d.lead)
	}
	return sizes, captions, height
}

// squareSide is wide enough for a telephone's camera, in points.
const squareSide = 220.0

func (p *printer) paperSquare(s *PaperSquare) {
	p.need(squareSide + p.d.pad)
	p.square(s, p.left, p.y, squareSide)
	p.lines(p.body(), p.left+squareSide+16, p.y+8, p.d.lead, p.wrap(p.body(), s.Text, p.width()-squareSide-16))
	p.y += squareSide + p.d.pad
}

// square sets it with a quiet zone of four fields (ISO/IEC 18004), runs of black as one.
func (p *printer) square(s *PaperSquare, left, top, side float64) {
	const quiet = 4
	field := side / float64(s.Side+2*quiet)
	for y := range s.Side {
		for x := 0; x < s.Side; x++ {
			run := 0
			for x+run < s.Side && s.Black(x+run, y) {
				run++
			}
			if run > 0 {
				p.fill(ink, left+float64(x+quiet)*field, top+float64(y+quiet)*field, float64(run)*field, field)
				x += run
			}
		}
	}
}
