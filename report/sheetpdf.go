package report

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"curvewright/settings"
)

// The settings sheet as it hangs in the boiler room: first what to enter, in order;
// then how the curves run, what the thermometers should read and what to mind.

// Paper is the size of the page.
type Paper int

// The two papers that people have.
const (
	A4 Paper = iota
	Letter
)

func (p Paper) size() (name string, width, height float64) {
	if p == Letter {
		return "Letter", 612, 792
	}
	return "A4", 595.28, 841.89
}

// PDFOptions say how the sheet is printed.
type PDFOptions struct {
	Paper   Paper
	Date    string // of the sheet, as 2026-11-25; it is also the document's date
	Version string // of the engine, for the footer
}

// density is how close a page is set, from the one that reads best to the closest
// that is still fit for a boiler room. Sizes in points.
type density struct {
	body, value, lead, pad float64
	rooms                  bool // with the table of rooms
}

var densities = []density{
	{body: 9, value: 12, lead: 11, pad: 4, rooms: true},
	{body: 8.5, value: 11.5, lead: 10.2, pad: 3.2, rooms: true},
	{body: 8, value: 11, lead: 9.3, pad: 2.6, rooms: true},
	{body: 8, value: 11, lead: 9.2, pad: 1.8, rooms: true},
	{body: 8, value: 11, lead: 9.2, pad: 1.8},
}

// pagesWanted is what fits on one sheet of paper, front and back.
const pagesWanted = 2

// SheetPDF writes the settings sheet as a PDF. It sets the text as large as two pages
// allow, never below 8 points, and closer where that brings the whole table of
// settings onto the first page; where even that does not do, the table of rooms is
// left out, and where that is not enough the sheet runs to further pages, set
// comfortably and with the rooms. The same sheet and options give the same bytes.
//
// Errors: a date that is not a day written as 2026-11-25; a failure of w.
func SheetPDF(w io.Writer, sheet *settings.Sheet, opts PDFOptions) error {
	date := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // for a sheet without a date
	if opts.Date != "" {
		var err error
		if date, err = time.Parse("2006-01-02", opts.Date); err != nil {
			return fmt.Errorf("date of the settings sheet: %q is not a day; accepted: 2026-11-25", opts.Date)
		}
	}
	var best *printer
	for _, d := range densities {
		p, err := printSheet(sheet, opts, date, d, pagesWanted)
		if err != nil {
			return err
		}
		fits := p.pdf.PageNo() <= pagesWanted
		if fits && (best == nil || p.tablePage == 1 && d.rooms) {
			best = p
		}
		if best != nil && best.tablePage == 1 {
			break
		}
	}
	if best == nil {
		d := densities[1]
		long, err := printSheet(sheet, opts, date, d, pagesWanted)
		if err != nil {
			return err
		}
		if best, err = printSheet(sheet, opts, date, d, long.pdf.PageNo()); err != nil {
			return err
		}
	}
	return best.pdf.Output(w)
}

// printSheet lays the whole sheet out at one density. The count of pages has to be
// known beforehand for "page 1 of 2".
func printSheet(sheet *settings.Sheet, opts PDFOptions, date time.Time, d density, pages int) (*printer, error) {
	letters, err := newLetters()
	if err != nil {
		return nil, err
	}
	name, width, height := opts.Paper.size()
	pdf := fpdf.New("P", "pt", name, "")
	addFonts(pdf)
	p := &printer{pdf: pdf, letters: letters, d: d, sheet: sheet, opts: opts, pages: pages,
		left: margin, right: width - margin, bottom: height - margin - footer}
	pdf.SetMargins(margin, margin, margin)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCreationDate(date)
	pdf.SetModificationDate(date)
	pdf.SetCatalogSort(true)
	pdf.SetLang("en")
	pdf.SetTitle(p.clean("Heating settings: "+sheet.Job), true)
	pdf.SetAuthor(p.clean(sheet.By), true)
	pdf.SetSubject("Settings for a weather-compensated heating control", true)
	pdf.SetCreator("Curvewright "+opts.Version, true)
	pdf.SetProducer("Curvewright", true)
	pdf.SetDisplayMode("fullpage", "single")

	p.page()
	p.titleBlock()
	p.settingsTable()
	p.curves()
	p.expected()
	if d.rooms {
		p.rooms()
	}
	p.findings()
	p.surer()
	p.cautions()
	p.signature()
	return p, pdf.Error()
}

const (
	margin = 32.0
	footer = 14.0
)
