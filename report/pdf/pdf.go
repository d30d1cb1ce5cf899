// Package pdf prints a settings sheet as a PDF. What stands where is settled by package
// report; here are the typefaces and the file format.
package pdf

import (
	"io"
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"

	"curvewright/report"
	"curvewright/settings"
)

// Sheet writes the settings sheet as a PDF, as [report.Print] lays it out. The same
// sheet and options give the same bytes.
//
// Errors: a date that is not a day written as 2026-11-25; a failure of w.
func Sheet(w io.Writer, sheet *settings.Sheet, opts report.PDFOptions) error {
	return report.Print(w, sheet, opts, New)
}

// press is one document in the making.
type press struct {
	pdf     *fpdf.Fpdf
	letters *letters
}

// face is the family under which the letters are known inside the document.
const face = "sans"

// New begins a document.
//
// Errors: a typeface that cannot be read, which is a fault of the build.
func New(d report.Document) (report.Press, error) {
	letters, err := newLetters()
	if err != nil {
		return nil, err
	}
	width, height := d.Paper.Size()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width, Ht: height}})
	pdf.AddUTF8FontFromBytes(face, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(face, "B", liberationsansbold.TTF)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetLineJoinStyle("round")
	pdf.SetCreationDate(d.Date)
	pdf.SetModificationDate(d.Date)
	pdf.SetCatalogSort(true)
	pdf.SetLang(d.Lang)
	pdf.SetTitle(letters.printable(d.Title), true)
	pdf.SetAuthor(letters.printable(d.Author), true)
	pdf.SetSubject(d.Subject, true)
	pdf.SetCreator(d.Creator, true)
	pdf.SetProducer(d.Producer, true)
	pdf.SetDisplayMode("fullpage", "single")
	return &press{pdf, letters}, pdf.Error()
}

func (p *press) AddPage()    { p.pdf.AddPage() }
func (p *press) PageNo() int { return p.pdf.PageNo() }

func (p *press) Printable(text string) string { return p.letters.printable(text) }

func (p *press) TextWidth(f report.Font, text string) float64 {
	p.setFont(f)
	return p.pdf.GetStringWidth(text)
}

func (p *press) Text(f report.Font, colour string, x, y float64, text string) {
	p.setFont(f)
	c := rgb(colour)
	p.pdf.SetTextColor(c[0], c[1], c[2])
	p.pdf.Text(x, y, text)
}

func (p *press) setFont(f report.Font) {
	style := ""
	if f.Bold {
		style = "B"
	}
	p.pdf.SetFont(face, style, f.Size)
}

func (p *press) Line(ink report.Ink, points [][2]float64) {
	p.dip(ink)
	if len(ink.Dash) > 0 {
		p.pdf.SetDashPattern(ink.Dash, 0)
		defer p.pdf.SetDashPattern(nil, 0)
	}
	for i, at := range points {
		if i == 0 {
			p.pdf.MoveTo(at[0], at[1])
		} else {
			p.pdf.LineTo(at[0], at[1])
		}
	}
	p.pdf.DrawPath("D")
}

func (p *press) Area(ink report.Ink, corners [][2]float64) {
	points := make([]fpdf.PointType, len(corners))
	for i, at := range corners {
		points[i] = fpdf.PointType{X: at[0], Y: at[1]}
	}
	p.pdf.Polygon(points, p.dip(ink))
}

func (p *press) Circle(ink report.Ink, centre [2]float64, radius float64) {
	p.pdf.Circle(centre[0], centre[1], radius, p.dip(ink))
}

// dip takes the ink and says what is drawn with it: D for the edge, F for the inside.
func (p *press) dip(ink report.Ink) (drawn string) {
	if ink.Edge != "" {
		c := rgb(ink.Edge)
		p.pdf.SetDrawColor(c[0], c[1], c[2])
		p.pdf.SetLineWidth(ink.Width)
		drawn = "D"
	}
	if ink.Fill != "" {
		c := rgb(ink.Fill)
		p.pdf.SetFillColor(c[0], c[1], c[2])
		drawn += "F"
	}
	return drawn
}

// Output writes the document, and tells what went wrong on the way to it.
func (p *press) Output(w io.Writer) error { return p.pdf.Output(w) }

// rgb reads "#a8321a".
func rgb(hex string) [3]int {
	v, _ := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32) // colours are constants of the report
	return [3]int{int(v >> 16 & 255), int(v >> 8 & 255), int(v & 255)}
}
