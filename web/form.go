package web

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/words"
)

// What the form says. Each field travels with the text that the page had put into it,
// so that only what a person changed is put into the document: values that were merely
// shown in other units stay as they were written, and a document edited by hand is not
// overruled by fields that nobody touched.

// page is one job as the page shows it.
type page struct {
	Example     string // name of the example it began with, if any
	System      units.System
	Language    words.Language // of who reads it
	Document    string         // as typed, with the changes of the fields in it
	Faults      []job.Fault
	MoreFaults  bool
	Trouble     string // why there are no settings though the document can be read
	Groups      []group
	FieldFaults int
	Unread      []pair // fields as typed while the document they belong to cannot be read
	Sheet       *settings.Sheet
	Prints      bool // the sheet can be had as a PDF
	Records     bool // and so can the record and the household's sheet

	Outdoors *units.Temperature // weather of the boiler room's drawing; nil: the design day
	weather  error              // what is wrong with that choice

	brief bool            // leaves out what is folded away
	open  map[string]bool // but for these

	curves *settings.Judge // nil as long as there is no sheet
	Curve  *curvePage      // the curves that are tried on its place

	Year   *PlayedYear // nil until somebody asks for it
	Asked  *yearAsked  // how it was asked for
	NoYear bool        // none can be played here

	House *house // where the job is kept; nil for one that is only tried

	job *job.Job
}

// pair is a hidden field.
type pair struct{ Name, Value string }

// Names of the form.
const (
	openField   = "open" // names of what is unfolded, for a brief answer
	typedPrefix = "f."   // what stands in a field
	shownPrefix = "w."   // what the page had put there
)

// readForm reads a form into a page and works it out, with the status that a whole
// page should have.
func readForm(r *http.Request, d doubt) (*page, int) {
	p, status := readFields(r)
	if status != http.StatusOK {
		return p, status
	}
	p.solve(d)
	p.brief = d == quickDoubt
	if p.Sheet == nil || p.FieldFaults > 0 {
		return p, http.StatusUnprocessableEntity
	}
	return p, http.StatusOK
}

// readFields reads a form; its status is for a request that could not be read.
func readFields(r *http.Request) (*page, int) {
	values, file, err := formOf(r)
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return &page{System: units.US, Language: words.Of(r.Context()), Trouble: tooLargeFor(tooLarge.Limit)}, http.StatusRequestEntityTooLarge
	case err != nil:
		return &page{System: units.US, Language: words.Of(r.Context()), Trouble: "The form could not be read. Go back one page and try again."}, http.StatusBadRequest
	}
	system, chosen := systemNamed(values.Get("units"))
	if file != "" {
		// A new job comes with its own units, and with nothing typed into its fields.
		return readDocument(words.Of(r.Context()), file, system, false), http.StatusOK
	}
	document := strings.ReplaceAll(values.Get("document"), "\r\n", "\n")
	p := readDocument(words.Of(r.Context()), document, system, chosen)
	if e, ok := examples.Find(values.Get("example")); ok && (p.job == nil || p.job.Name == e.Title) {
		p.Example = e.Name
	}
	p.open = map[string]bool{}
	for _, id := range values[openField] {
		p.open[id] = true
	}
	p.Outdoors, p.weather = readWeather(p.Language, values.Get(weatherField))
	if p.job == nil {
		p.keepTyped(values)
	} else {
		p.change(values)
	}
	return p, http.StatusOK
}

// tooLargeFor says what a request may hold.
func tooLargeFor(limit int64) string {
	if limit == maxYear {
		return fmt.Sprintf("That is too large for a year: %d MB at most, with its weather. The job that you had is still there: go back one page.", maxYear>>20)
	}
	return "That is too large for a job: 1 MB at most. The job that you had is still there: go back one page. " +
		"A weather file can only go with the button beneath it."
}

// formOf reads the fields and the text of an uploaded file. The body is bounded, so
// that all of it fits in memory. Where a large file of weather may come along, the
// fields may hold no more than elsewhere.
func formOf(r *http.Request) (url.Values, string, error) {
	if !strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		err := r.ParseForm()
		return r.PostForm, "", cmp.Or(err, slender(r.PostForm))
	}
	if err := r.ParseMultipartForm(inMemory); err != nil {
		return nil, "", err
	}
	values := url.Values(r.MultipartForm.Value)
	if err := slender(values); err != nil {
		return nil, "", err
	}
	files := r.MultipartForm.File["file"]
	if len(files) == 0 || files[0].Size == 0 {
		return values, "", nil
	}
	const most = maxRequest
	if files[0].Size > most && !packedFile(files[0].Filename) {
		return nil, "", &http.MaxBytesError{Limit: most}
	}
	f, err := files[0].Open()
	if err != nil {
		return nil, "", err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most))
	return values, strings.ToValidUTF8(string(data), "\ufffd"), err
}

// packedFile tells a file with everything in it from a document by its name.
func packedFile(name string) bool { return strings.HasSuffix(strings.ToLower(name), ".zip") }

// slender refuses fields that hold more than a request elsewhere may.
func slender(values url.Values) error {
	all := 0
	for _, list := range values {
		for _, v := range list {
			all += len(v)
		}
	}
	if all > maxRequest {
		return &http.MaxBytesError{Limit: maxRequest}
	}
	return nil
}

// keepTyped keeps the fields while the document cannot be read, so that they are
// there again once it can.
func (p *page) keepTyped(values url.Values) {
	for name, v := range values {
		if (strings.HasPrefix(name, typedPrefix) || strings.HasPrefix(name, shownPrefix)) && len(p.Unread) < 200 && len(v) > 0 {
			p.Unread = append(p.Unread, pair{name, v[0]})
		}
	}
}

// change puts what was typed into the job: all of it, or what is wrong left out and
// told at its field.
func (p *page) change(values url.Values) {
	typed := map[string]string{}
	for _, g := range p.Groups {
		for _, f := range g.Fields {
			text, sent := values[typedPrefix+f.Path]
			was, shown := values[shownPrefix+f.Path]
			if sent && (!shown || text[0] != was[0]) {
				typed[f.Path] = strings.TrimSpace(text[0])
			}
		}
	}
	if len(typed) == 0 {
		return
	}
	faults := p.apply(typed)
	if len(faults) > 0 {
		p.applySingly(typed, faults)
	}
	if document, err := job.Write(p.job); err == nil {
		p.Document = string(document)
	} else {
		p.refuse(err)
	}
	p.Groups = fieldsOf(p.job, p.System)
	for i := range p.Groups {
		for k := range p.Groups[i].Fields {
			f := &p.Groups[i].Fields[k]
			if fault, wrong := faults[f.Path]; wrong {
				f.Figure, f.Fault = typed[f.Path], fault
				p.FieldFaults++
			}
		}
	}
}

// apply puts typed texts into the job and tells what is wrong with which.
func (p *page) apply(typed map[string]string) map[string]string {
	faults := map[string]string{}
	for _, g := range p.Groups {
		for _, f := range g.Fields {
			text, changed := typed[f.Path]
			if !changed {
				continue
			}
			if err := f.put(text); err != nil {
				faults[f.Path] = sentence(p.Language, err)
			}
		}
	}
	if len(faults) > 0 {
		return faults
	}
	var list *job.Faults
	if errors.As(job.Check(p.job), &list) {
		for _, f := range list.List {
			faults[f.Path] = told(p.Language, f)
		}
	}
	return faults
}

// applySingly begins again with the job as it was and keeps each change that makes
// sense, so that one slip does not undo the rest.
func (p *page) applySingly(typed, faults map[string]string) {
	clear(faults)
	good := map[string]string{}
	restart := func() {
		j, err := job.Read([]byte(p.Document))
		if err != nil {
			return // it was read a moment ago
		}
		p.job, p.Groups = j, fieldsOf(j, p.System)
		p.apply(good)
	}
	var order []string
	for _, g := range p.Groups {
		for _, f := range g.Fields {
			if _, changed := typed[f.Path]; changed {
				order = append(order, f.Path)
			}
		}
	}
	for _, path := range order {
		restart()
		wrong := p.apply(map[string]string{path: typed[path]})
		if len(wrong) == 0 {
			good[path] = typed[path]
			continue
		}
		text, own := wrong[path]
		for _, other := range wrong {
			if !own {
				text = other
				break
			}
		}
		faults[path] = text
	}
	restart()
}

// sentence says what is wrong with a typed value, without repeating it: it stands in
// the field above.
func sentence(l words.Language, err error) string {
	var fault *units.ParseError
	if errors.As(err, &fault) {
		return l.Engine(capital(fault.Reason)) + l.Say("faults.accept", l.Engine(fault.Accept))
	}
	return l.Engine(capital(err.Error()))
}

func told(l words.Language, f job.Fault) string {
	text := l.Engine(capital(f.Problem))
	if f.Accept != "" {
		text += l.Say("faults.accept", l.Engine(f.Accept))
	}
	if f.Hint != "" {
		text += ". " + l.Engine(capital(f.Hint))
	}
	return text
}

func capital(text string) string {
	for i, r := range text {
		if i == 0 {
			return strings.ToUpper(string(r)) + text[len(string(r)):]
		}
	}
	return text
}
