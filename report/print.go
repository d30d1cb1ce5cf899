package report

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"time"

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

// Size is the width and height in points.
func (p Paper) Size() (width, height float64) {
	if p == Letter {
		return 612, 792
	}
	return 595.28, 841.89
}

// PDFOptions say how the sheet is printed.
type PDFOptions struct {
	Paper   Paper
	Date    string // of the sheet, as 2026-11-25; it is also the document's date
	Version string // of the engine, for the footer

	Say  func(string) string // puts what the sheet says into another language; nil: English
	Lang string              // which, as en or de; empty: English

	Day func(iso string) string // writes a day as the reader does; nil: as 2026-11-25
}

// written writes a day for the reader.
func (o PDFOptions) written(iso string) string {
	if o.Day == nil || iso == "" {
		return iso
	}
	return o.Day(iso)
}

// spoken is a press that puts what it is given into another language. It is asked for whole
// texts before they are broken into lines.
type spoken struct {
	Press
	say func(string) string
}

func (s spoken) Printable(text string) string { return s.Press.Printable(s.say(text)) }

// once remembers what was said: a sheet is laid out many times until it fits.
func once(say func(string) string) func(string) string {
	known := map[string]string{}
	return func(text string) string {
		said, ok := known[text]
		if !ok {
			said = say(text)
			known[text], known[said] = said, said
		}
		return said
	}
}

// day reads the date, which is also the document's.
func (o PDFOptions) day(of string) (time.Time, error) {
	if o.Date == "" {
		return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC), nil
	}
	date, err := time.Parse(time.DateOnly, o.Date)
	if err != nil {
		return date, fmt.Errorf("date of the %s: %q is not a day; accepted: 2026-11-25", of, o.Date)
	}
	return date, nil
}

// density is how close the text is set, from the one that reads best to the closest
// that is still fit for a boiler room. Sizes in points. The table of settings and what
// follows it are set each at its own.
type density struct {
	body, value, lead, pad float64
	sides                  bool    // in the table: with what too high and too low would do
	charts                 float64 // height of the charts, against the usual
	readings               int     // rows of expected readings, from which on they are thinned
	rooms                  bool    // after the table: with what each room needs
}

var densities = []density{
	{body: 9, value: 13, lead: 11.2, pad: 4.4, sides: true, charts: 1.1, readings: 12, rooms: true},
	{body: 8.5, value: 12.5, lead: 10.4, pad: 3.6, sides: true, charts: 1, readings: 12, rooms: true},
	{body: 8, value: 12, lead: 9.6, pad: 3, sides: true, charts: 0.95, readings: 12, rooms: true},
	{body: 8, value: 11.5, lead: 9.4, pad: 2.7, sides: true, charts: 0.9, readings: 12, rooms: true},
	{body: 8, value: 11.5, lead: 9.4, pad: 2.9, charts: 0.85, readings: 12, rooms: true},
	{body: 8, value: 11.5, lead: 9.3, pad: 2.4, charts: 0.85, readings: 12, rooms: true},
	{body: 8, value: 11, lead: 9.2, pad: 1.8, charts: 0.75, readings: 9, rooms: true},
	{body: 8, value: 11, lead: 9.2, pad: 1.8, charts: 0.65, readings: 7},
}

// pagesWanted is what fits on one sheet of paper, front and back. The boiler room has
// pages of its own after it.
const pagesWanted = 2

// Print sets the settings sheet with a press and writes it. It sets the text as large as two pages
// allow, never below 8 points, and the table closer where that brings all of it onto
// the first page; where even that does not do, the table of rooms is left out, and
// where that is not enough the sheet runs to further pages, set comfortably and with
// the rooms. What there is to say about the boiler room follows on pages of its own,
// and the place to sign after it. The same sheet and options give the same bytes.
//
// Errors: a date that is not a day written as 2026-11-25; a failure of the press or of w.
func Print(w io.Writer, sheet *settings.Sheet, opts PDFOptions, newPress NewPress) error {
	p, err := layOutSheet(sheet, opts, newPress)
	if err != nil {
		return err
	}
	return p.press.Output(w)
}

// layOutSheet finds the densities and prints with them.
func layOutSheet(sheet *settings.Sheet, opts PDFOptions, newPress NewPress) (*printer, error) {
	date, err := opts.day("settings sheet")
	if err != nil {
		return nil, err
	}
	if opts.Say != nil {
		opts.Say = once(opts.Say)
	}
	// A trial leaves the boiler room out: it comes after what has to fit.
	trial := func(table, rest density) (*printer, error) {
		return printSheet(sheet, opts, newPress, date, table, rest, 0)
	}
	table, fits, err := tableDensity(trial)
	if err != nil {
		return nil, err
	}
	rest := table
	if fits {
		for _, rest = range densities { // the last ones are known to fit
			p, err := trial(table, rest)
			if err != nil {
				return nil, err
			}
			if p.press.PageNo() <= pagesWanted {
				break
			}
		}
	}
	// Once to count the pages, and once more to say how many there are.
	p := &printer{pages: pagesWanted}
	for range 2 {
		pages := p.pages
		if p, err = printSheet(sheet, opts, newPress, date, table, rest, pages); err != nil {
			return nil, err
		}
		if p.pages = p.press.PageNo(); p.pages == pages {
			break
		}
	}
	return p, nil
}

// tableDensity is the loosest density at which the table stays on the first page and
// the sheet within its pages; or else the loosest that keeps the pages. It asks for
// the rooms first, then goes without. If nothing fits, it gives a comfortable one.
func tableDensity(trial func(table, rest density) (*printer, error)) (best density, fits bool, err error) {
	closest := densities[len(densities)-2:] // with the rooms, and without
	for _, rest := range closest {
		for _, d := range densities {
			p, err := trial(d, rest)
			if err != nil {
				return density{}, false, err
			}
			if p.press.PageNo() > pagesWanted {
				continue
			}
			if p.tablePage == 1 {
				d, err := airier(d, rest, trial)
				return d, true, err
			}
			if !fits {
				best, fits = d, true
			}
		}
		if fits {
			return best, true, nil
		}
	}
	return densities[1], false, nil
}

// airier gives the rows of a table that stays on the first page what is left of it.
func airier(d, rest density, trial func(table, rest density) (*printer, error)) (density, error) {
	for range 5 {
		wider := d
		wider.pad += 0.4
		p, err := trial(wider, rest)
		if err != nil || p.tablePage != 1 || p.press.PageNo() > pagesWanted {
			return d, err
		}
		d = wider
	}
	return d, nil
}

// printSheet lays the whole sheet out, the table and the rest each at its density. The
// count of pages has to be known beforehand for "page 1 of 2"; without one the boiler
// room is left out.
func printSheet(sheet *settings.Sheet, opts PDFOptions, newPress NewPress, date time.Time, table, rest density, pages int) (*printer, error) {
	width, height := opts.Paper.Size()
	said := opts.Say
	if said == nil {
		said = func(text string) string { return text }
	}
	press, err := newPress(Document{Paper: opts.Paper, Date: date, Title: said("Heating settings: " + sheet.Job), Author: sheet.By,
		Subject: said("Settings for a weather-compensated heating control"), Creator: "Curvewright " + opts.Version, Producer: "Curvewright", Lang: cmp.Or(opts.Lang, "en")})
	if err != nil {
		return nil, err
	}
	if opts.Say != nil {
		press = spoken{press, opts.Say}
	}
	p := &printer{press: press, d: table, sheet: sheet, opts: opts, pages: pages,
		left: margin, right: width - margin, bottom: height - margin - footer,
		running: "Heating settings: " + sheet.Job, pageOf: "page %d of %d"}

	p.page()
	p.titleBlock()
	p.settingsTable()
	p.d = rest
	short := slices.ContainsFunc(sheet.Findings, func(f settings.Finding) bool { return f.Severity == "short" })
	if short {
		p.findings()
	}
	p.curves()
	p.expected()
	if rest.rooms {
		p.rooms()
	}
	if !short {
		p.findings()
	}
	p.surer()
	p.cautions()
	p.settingsPages = press.PageNo()
	switch room := hasBoilerRoom(sheet); {
	case !room:
		p.signature()
		p.settingsPages = press.PageNo()
	case pages > 0:
		p.boilerRoom()
		p.signature()
	}
	return p, nil
}

const (
	margin = 32.0
	footer = 14.0
)
