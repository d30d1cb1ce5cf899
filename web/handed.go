package web

import (
	"context"
	"errors"
	"io"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/report"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// Handover is a job with a visit, ready to be handed over without a server: what the page
// of the handover offers, for the command line.
type Handover struct {
	page *page
	ctx  context.Context
}

// NewHandover works a job out, and its visit if there is one. The language is one of the
// page's: en, fr, es, de.
//
// Errors: a language that is not spoken here, a job that cannot be worked out.
func NewHandover(j *job.Job, v *attendance.Visit, system units.System, language string) (*Handover, error) {
	l, ok := words.Tagged(language)
	if !ok {
		return nil, errors.New("the language " + language + " is not spoken here; accepted: en, fr, es or de")
	}
	ctx := words.In(context.Background(), l)
	p := &page{job: j, System: system, Language: l, House: &house{}}
	p.solve(noDoubt)
	if p.Sheet == nil {
		return nil, errors.New(p.Trouble)
	}
	if v != nil {
		document, err := attendance.Write(v)
		if err != nil {
			return nil, err
		}
		a := &attended{Entry: store.Entry{ID: shortPrint(attendance.Fingerprint(document))}, Visit: v, Sealed: v.Sealed != ""}
		for i, photo := range v.Photos {
			a.Photos = append(a.Photos, photograph{photo, i})
		}
		p.House.Visit = a
		if err := p.walk(""); err != nil {
			return nil, err
		}
		p.judge(ctx)
	}
	return &Handover{p, ctx}, nil
}

// Record is the record for the file; seen gives the pictures that the visit names, and
// nothing for one that is not there.
func (h *Handover) Record(seen func(name string) []byte) *report.Paperwork {
	return h.page.paperwork(h.ctx, seen)
}

// Household is the sheet that stays in the house.
func (h *Handover) Household() *report.HouseholdSheet { return h.page.forHousehold(h.ctx) }

// Day is the day of the visit, else that of the survey.
func (h *Handover) Day() string { return h.page.handedOn(h.page.Sheet.Surveyed) }

// Calendar is the return visit as a file for calendars.
//
// Errors: no day is agreed.
func (h *Handover) Calendar() (string, error) {
	file, ok := h.page.calendar(h.ctx)
	if !ok {
		return "", errors.New("no day of a return visit is agreed; give follow_up in the visit's document, as 2026-11-25")
	}
	return file, nil
}

// Square is the settings as a drawing that telephones read (SVG).
func (h *Handover) Square() string { return h.page.square() }

// Readings writes them as a spreadsheet.
//
// Errors: no visit; a failure of w.
func (h *Handover) Readings(w io.Writer) error {
	if h.page.House.Visit == nil {
		return errors.New("there is no visit, so there are no readings")
	}
	b := newBook(h.page)
	b.add(h.ctx)
	return report.Spreadsheet(w, b.judged, b.all)
}
