package web

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"time"

	"rsc.io/qr"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/visit"
	"curvewright/web/words"
)

// The handover: the record for the file, the sheet that stays with the household in its
// own language, the settings as a square that any telephone reads, a day for the calendar,
// and everything in one file.

// newestVisit reads the last visit of a job with its judgement; nil if there is none.
func (s *server) newestVisit(ctx context.Context, p *page) error {
	list, err := s.visits(ctx, p.House.ID)
	if err != nil || len(list) == 0 || p.Sheet == nil {
		return err
	}
	p.House.Visits = list
	_, revision, err := s.store.Read(ctx, list[0].ID)
	if err != nil {
		return err
	}
	v, err := job.DraftDocument[attendance.Visit](revision.Document, "visit")
	if v == nil {
		return err
	}
	p.House.Visit = &attended{Entry: list[0], Visit: v, Sealed: v.Sealed != ""}
	p.House.Visit.Photos = s.photographs(ctx, p.House.Visit)
	if err := p.walk(""); err != nil {
		return err
	}
	p.judge(ctx)
	return nil
}

// handoverPage shows what can be handed over.
func (s *server) handoverPage(w http.ResponseWriter, r *http.Request) {
	s.handed(w, r, func(p *page) { s.write(w, r, http.StatusOK, inHouse(p, s.framed(r))) })
}

// handed opens the job with its newest visit.
func (s *server) handed(w http.ResponseWriter, r *http.Request, show func(*page)) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "handover", noDoubt)
	if err == nil {
		err = s.newestVisit(r.Context(), p)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.Records = s.config.Record != nil && s.config.Household != nil
	show(p)
}

// recordPage is the record, to be printed.
func (s *server) recordPage(w http.ResponseWriter, r *http.Request) {
	s.handed(w, r, func(p *page) { s.write(w, r, http.StatusOK, recordSheet(p, s.framed(r))) })
}

// householdPage is the sheet for the household, in its language and the units of there.
func (s *server) householdPage(w http.ResponseWriter, r *http.Request) {
	tag, pdf := strings.CutSuffix(r.PathValue("language"), ".pdf")
	language, ok := words.Tagged(tag)
	language = language.Writes(readerOf(r.Context()).Decimal)
	if !ok || pdf && s.config.Household == nil {
		s.notFound(w, r)
		return
	}
	s.handed(w, r, func(p *page) {
		if chosen, ok := systemNamed(r.URL.Query().Get("units")); ok {
			p.System = chosen
		} else if language.Plain() != words.English && !readerOf(r.Context()).Chosen {
			p.System = p.System.On(units.SI)
		}
		p.Language = language
		r = r.WithContext(words.In(r.Context(), language))
		if pdf {
			s.householdPDF(w, r, p)
			return
		}
		s.write(w, r, http.StatusOK, householdSheet(p, s.framed(r)))
	})
}

// weatherWords is the house in one weather, for people who know no figures.
type weatherWords struct {
	Outdoor string
	Waters  []string
	Tenths  string // how high the bar stands
}

// threeDays are a day as cold as the house is built for, one in between, a mild one.
func (p *page) threeDays() []weatherWords {
	var list []weatherWords
	first := p.Sheet.Circuits[0].Points
	if len(first) == 0 {
		return nil
	}
	for _, share := range []float64{0, 0.5, 0.9} {
		at := first[int(share*float64(len(first)-1))]
		w := weatherWords{Outdoor: temperature(p.System, at.Outdoor)}
		for _, c := range p.Sheet.Circuits {
			for _, point := range c.Points {
				if point.Outdoor == at.Outdoor {
					text := temperature(p.System, point.Set)
					if len(p.Sheet.Circuits) > 1 {
						text += " " + c.Name
					}
					w.Waters = append(w.Waters, text)
				}
			}
		}
		w.Tenths = fmt.Sprintf("height-%d", max(2, min(10, int((at.Set.Celsius()-15)/6))))
		list = append(list, w)
	}
	return list
}

// hasFloor tells whether some of the house is heated by its floor.
func (p *page) hasFloor() bool {
	return slices.ContainsFunc(p.Sheet.Plant.Circuits, func(c settings.PlantCircuit) bool { return c.Family == "floor" })
}

var leadingPressure = regexp.MustCompile(`^[0-9.]+[\s\x{a0}]*(psi|bar|kPa)`)

// onlyFloor tells whether the whole house is: then there are no radiators to speak of.
func (p *page) onlyFloor() bool {
	return !slices.ContainsFunc(p.Sheet.Plant.Circuits, func(c settings.PlantCircuit) bool { return c.Family != "floor" })
}

// lukewarm and mayTurn are what the household is told of radiators or floors, by what the
// house has.
func (p *page) lukewarm(ctx context.Context) string {
	return p.byWhatHeats(words.Say(ctx, "home.lukewarm.p"), words.Say(ctx, "home.lukewarm.p.floor"), words.Say(ctx, "home.lukewarm.p.radiators"))
}

func (p *page) mayTurn(ctx context.Context) string {
	return p.byWhatHeats(words.Say(ctx, "home.touch.p"), words.Say(ctx, "home.touch.p.floor"), words.Say(ctx, "home.touch.p.radiators"))
}

func (p *page) byWhatHeats(both, floor, radiators string) string {
	switch {
	case p.onlyFloor():
		return floor
	case !p.hasFloor():
		return radiators
	}
	return both
}

// coldFill is the pressure that the gauge should show cold; empty if it is not known.
func (p *page) coldFill() string {
	for _, s := range p.Sheet.Sections {
		for _, l := range s.Lines {
			if l.ID != "fill-pressure" {
				continue
			}
			if fill, err := units.Parse[units.Pressure](spaced(leadingPressure.FindString(l.Value))); err == nil {
				return p.engine(idleZeros.ReplaceAllString(fill.Text(p.System), "$1"))
			}
		}
	}
	return ""
}

// idleZeros are those behind a decimal point that say nothing on a gauge.
var idleZeros = regexp.MustCompile(`(\.[0-9]*[1-9]|\b)\.?0+\b`)

// warmth says when the house is warm.
func (p *page) warmth(ctx context.Context) []string {
	j := p.job
	day := temperature(p.System, j.House.Setpoint.Or(units.Celsius(21)).Value)
	if j.Program.Wish != "night" && j.Program.Wish != "away" || !j.Program.Lower.Set {
		return []string{words.Say(ctx, "home.hold", day)}
	}
	said := []string{words.Say(ctx, "home.night", day, temperature(p.System, j.Program.Lower.Value))}
	if j.Program.WakeUp != "" && j.Program.Bed != "" {
		said = append(said, words.Say(ctx, "home.times", timeOfDay(ctx, j.Program.WakeUp), timeOfDay(ctx, j.Program.Bed)))
	}
	return said
}

// timeOfDay writes 06:30 as the reader's clock does.
func timeOfDay(ctx context.Context, text string) string {
	t, err := time.Parse("15:04", text)
	if err != nil {
		return text
	}
	return clock(ctx, t)
}

// installer is who is to be called.
func (p *page) installer(ctx context.Context) string {
	if p.job.By != "" {
		return p.job.By
	}
	return words.Say(ctx, "home.installer")
}

// maxSquare bounds the text in the square, so that it can still be printed and read.
const maxSquare = 1100

// squareText is the settings in the fewest words: what a telephone shows without us.
func (p *page) squareText() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", p.Sheet.Job, p.Sheet.Surveyed)
	for _, s := range p.Sheet.Sections {
		if s.Part != "" {
			continue
		}
		for _, l := range s.Lines {
			line := l.Label + ": " + l.Value + "\n"
			if l.Circuit != "" && !strings.Contains(l.Label, l.Circuit) {
				line = l.Circuit + ", " + line
			}
			if b.Len()+len(line) > maxSquare {
				return b.String()
			}
			b.WriteString(line)
		}
	}
	return b.String()
}

// square draws the settings as a QR code (ISO/IEC 18004).
func (p *page) square() string {
	return squareSVG(p.squareText())
}

func squareSVG(text string) string {
	code, err := qr.Encode(text, qr.L)
	if err != nil {
		return ""
	}
	var b strings.Builder
	const quiet = 4
	side := code.Size + 2*quiet
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="square" viewBox="0 0 %d %d" role="img" aria-label="QR"><path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="`, side, side, side, side)
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			run := 0
			for x+run < code.Size && code.Black(x+run, y) {
				run++
			}
			if run > 0 {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", x+quiet, y+quiet, run, run)
				x += run
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return b.String()
}

// calendar gives the return visit as a file for calendars (RFC 5545).
func (s *server) calendar(w http.ResponseWriter, r *http.Request) {
	s.handed(w, r, func(p *page) {
		out, ok := p.calendar(r.Context())
		if !ok {
			s.notFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/calendar; charset=utf-8")
		w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+`.ics"`)
		_, _ = io.WriteString(w, out)
	})
}

// calendar is the return visit as a file for calendars (RFC 5545), if a day is agreed.
func (p *page) calendar(ctx context.Context) (file string, ok bool) {
	day, id := "", ""
	if p.House.Visit != nil {
		day, id = p.House.Visit.Visit.Again, p.House.Visit.ID
	}
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return "", false
	}
	escape := strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`)
	var out strings.Builder
	for _, l := range []string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Curvewright//EN", "BEGIN:VEVENT",
		"UID:" + id + "@curvewright.invalid",
		"DTSTAMP:" + t.Format("20060102") + "T000000Z",
		"DTSTART;VALUE=DATE:" + t.Format("20060102"), "DTEND;VALUE=DATE:" + t.AddDate(0, 0, 1).Format("20060102"),
		"SUMMARY:" + escape.Replace(words.Say(ctx, "handover.follow", p.job.Name)),
		"LOCATION:" + escape.Replace(p.job.Place), "END:VEVENT", "END:VCALENDAR",
	} {
		out.WriteString(folded75(l))
	}
	return out.String(), true
}

// folded75 breaks a line of a calendar after 75 octets, never inside a letter.
func folded75(line string) string {
	var b strings.Builder
	n := 0
	for _, r := range line {
		if size := len(string(r)); n+size > 74 {
			b.WriteString("\r\n ")
			n = 1
		}
		b.WriteRune(r)
		n += len(string(r))
	}
	return b.String() + "\r\n"
}

// readingsTable gives the readings of all visits as a table. A cell that a spreadsheet
// would take for a formula is made text.
func (s *server) readingsTable(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "handover", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	list, err := s.visits(ctx, p.House.ID)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	var out bytes.Buffer
	table := csv.NewWriter(&out)
	_ = table.Write([]string{"visit", "field", "value"})
	for _, e := range list {
		_, revision, err := s.store.Read(ctx, e.ID)
		if err != nil {
			continue
		}
		v, _ := job.DraftDocument[attendance.Visit](revision.Document, "visit")
		if v == nil {
			continue
		}
		for _, spot := range job.WholeOf(v).All() {
			if text := spot.Text(); text != "" && spot.Kind != job.GroupSpot && spot.Kind != job.ListSpot {
				_ = table.Write([]string{v.Date, spot.Path, harmless(text)})
			}
		}
	}
	table.Flush()
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+`-readings.csv"`)
	_, _ = out.WriteTo(w)
}

// harmless keeps a spreadsheet from taking a text for a formula; a number may begin with
// a sign.
func harmless(text string) string {
	if strings.HasPrefix(text, "=") || strings.HasPrefix(text, "@") || strings.HasPrefix(text, "\t") {
		return "'" + text
	}
	if (strings.HasPrefix(text, "+") || strings.HasPrefix(text, "-")) && !written.MatchString(text) {
		return "'" + text
	}
	return text
}

// Names inside the file that holds everything.
const (
	zipJob    = "job.yaml"
	zipVisits = "visits/"
	zipFiles  = "files/"
)

// everything packs the job, its visits, logs and remarks, and what lies beside them into one
// file.
func (s *server) everything(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "handover", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	// It may be hundreds of megabytes, so it is made on the disk; nothing is sent of one that
	// could not be made whole.
	out, err := newSpool()
	if err != nil {
		s.trouble(w, r, fmt.Errorf("the file could not be written: %w", err))
		return
	}
	defer out.done()
	z := zip.NewWriter(out)
	put := func(name string, data []byte) error {
		f, err := z.Create(name)
		if err == nil {
			_, err = f.Write(data)
		}
		return err
	}
	err = put(zipJob, []byte(p.Document))
	files := func(id, under string) error {
		list, err := s.store.Files(ctx, id)
		for _, f := range list {
			file, ferr := s.store.ReadFile(ctx, id, f.ID)
			if ferr != nil {
				return ferr
			}
			if ferr := put(under+f.ID+"-"+plainFile(f.Name), file.Data); ferr != nil {
				return ferr
			}
		}
		return err
	}
	// Beside a visit only what it still names, under that name.
	namedFiles := func(e store.Entry, document []byte) error {
		v, err := job.DraftDocument[attendance.Visit](document, "visit")
		if v == nil {
			return err
		}
		for _, name := range namesOf(v) {
			file, err := s.beside(ctx, e.ID, name)
			if errors.Is(err, store.NotFound) {
				continue
			}
			if err == nil {
				err = put(zipVisits+e.ID+"/"+name+"-"+plainFile(strings.TrimPrefix(file.Name, name+"-")), file.Data)
			}
			if err != nil {
				return err
			}
		}
		return nil
	}
	if err == nil {
		err = files(p.House.ID, zipFiles)
	}
	list, lerr := s.visits(ctx, p.House.ID)
	if err == nil {
		err = lerr
	}
	for _, e := range list {
		_, revision, rerr := s.store.Read(ctx, e.ID)
		if err == nil {
			err = rerr
		}
		if err == nil {
			err = put(zipVisits+e.ID+".yaml", revision.Document)
		}
		if err == nil {
			err = namedFiles(e, revision.Document)
		}
	}
	if err == nil {
		err = s.packLogs(ctx, z, p.House.ID)
	}
	if err == nil {
		err = s.packRemarks(ctx, z, p.House.ID)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/zip")
	w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(p.job.Name)+`.zip"`)
	_, _ = out.WriteTo(w) // a reader who went away is no fault of ours
}

// namesOf are the files that a visit's document names, each once.
func namesOf(v *attendance.Visit) []string {
	var list []string
	add := func(name string) {
		if name != "" && !strings.ContainsAny(name, `/\`) && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	for _, p := range v.Photos {
		add(p.File)
	}
	for _, g := range v.Signatures {
		add(g.File)
	}
	return list
}

// plainFile makes a file's name fit for any system, its ending kept.
func plainFile(name string) string {
	stem, ending := name, ""
	if i := strings.LastIndex(name, "."); i > 0 && len(name)-i < 7 {
		stem, ending = name[:i], strings.ToLower(name[i:])
	}
	return fileName(stem) + ending
}

// mediaType tells pictures by how they begin; all else is plain data.
func mediaType(data []byte) string {
	switch kind := http.DetectContentType(data); kind {
	case "image/png", "image/jpeg", "image/webp", "application/pdf":
		return kind
	}
	return "application/octet-stream"
}

// differs are the lines that were entered otherwise than the sheet says.
func (a *attended) differs() []attendance.Entered {
	var list []attendance.Entered
	for _, e := range a.Visit.Entered {
		if e.As == "otherwise" {
			list = append(list, e)
		}
	}
	return list
}

// label is what the sheet calls a line.
func (p *page) label(id string) string {
	for _, s := range p.Sheet.Sections {
		for _, l := range s.Lines {
			if l.ID == id {
				return l.Label
			}
		}
	}
	return id
}

// stepWords is what a step of the walk asks for.
func (a *attended) stepWords(name string) string {
	for _, s := range a.Sections {
		if i := slices.IndexFunc(s.Steps, func(x visit.Step) bool { return x.Name == name }); i >= 0 {
			return s.Steps[i].Do
		}
	}
	return name
}
