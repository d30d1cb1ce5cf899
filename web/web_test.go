package web

import (
	"bytes"
	"fmt"
	"html"
	"io"
	"math"
	"math/rand/v2"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/words"
)

func handler(t testing.TB) http.Handler {
	t.Helper()
	h, err := New(Config{Version: "test", Print: pdf.Sheet, Record: pdf.Paperwork, Household: pdf.Household, Year: PlayYear, Store: memory(), Today: func() string { return "2026-11-25" }})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func get(t testing.TB, h http.Handler, address string) *httptest.ResponseRecorder {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
	return w
}

func post(t testing.TB, h http.Handler, address string, form url.Values) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(http.MethodPost, address, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

var (
	inputTag  = regexp.MustCompile(`<input[^>]*>`)
	attribute = regexp.MustCompile(`([a-z-]+)="([^"]*)"`)
	selectTag = regexp.MustCompile(`(?s)<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>`)
	optionTag = regexp.MustCompile(`<option value="([^"]*)" selected`)
	textTag   = regexp.MustCompile(`(?s)<textarea[^>]*>(.*?)</textarea>`)
	bigSupply = regexp.MustCompile(`data-supply="([^"]*)">(?:<a[^>]*>)?([^<]*)<`)
)

// formOn reads the form of a page as a browser would send it.
func formOn(page string) url.Values {
	form := url.Values{}
	for _, tag := range inputTag.FindAllString(page, -1) {
		a := map[string]string{}
		for _, m := range attribute.FindAllStringSubmatch(tag, -1) {
			a[m[1]] = html.UnescapeString(m[2])
		}
		if a["type"] == "file" || a["type"] == "radio" && !strings.Contains(tag, " checked") {
			continue
		}
		form.Add(a["name"], a["value"])
	}
	for _, m := range selectTag.FindAllStringSubmatch(page, -1) {
		value := ""
		if o := optionTag.FindStringSubmatch(m[2]); o != nil {
			value = html.UnescapeString(o[1])
		}
		form.Add(html.UnescapeString(m[1]), value)
	}
	if m := textTag.FindStringSubmatch(page); m != nil {
		form.Set("document", html.UnescapeString(m[1]))
	}
	return form
}

func supplies(page string) string { return fmt.Sprint(bigSupply.FindAllStringSubmatch(page, -1)) }

func TestEveryExampleShowsItsSettings(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		w := get(t, h, "/try?example="+e.Name)
		page := w.Body.String()
		if w.Code != http.StatusOK || len(bigSupply.FindAllString(page, -1)) == 0 {
			t.Errorf("%s: status %d, supplies %s", e.Name, w.Code, supplies(page))
		}
		if form := formOn(page); form.Get("document") != e.Document {
			t.Errorf("%s: the document on the page is not the example", e.Name)
		}
		// Sent back unchanged it must give the same, and the same document.
		again := post(t, h, "/try", formOn(page))
		if again.Code != http.StatusOK || again.Body.String() != page {
			t.Errorf("%s: sent back unchanged, the page is another (status %d)", e.Name, again.Code)
		}
	}
}

func TestAnEditedNumberChangesDocumentAndSettings(t *testing.T) {
	h := handler(t)
	first := get(t, h, "/try?example=short-survey").Body.String()
	form := formOn(first)
	form.Set("f.site.design_outdoor", "-20")
	w := post(t, h, "/solve", form)
	if w.Code != http.StatusOK || supplies(w.Body.String()) == supplies(first) {
		t.Fatalf("status %d, supplies still %s", w.Code, supplies(first))
	}
	next := formOn(w.Body.String())
	if got := next.Get("f.site.design_outdoor"); got != "-20" {
		t.Errorf("the field says %q", got)
	}
	if !strings.Contains(next.Get("document"), "design_outdoor: -20 °F") {
		t.Errorf("the document does not have it:\n%s", next.Get("document"))
	}
}

func TestAUnitMayBeTypedWithTheFigure(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	form.Set("f.circuits[0].emitters[0].fin_tube.length", "36 m")
	form.Set("f.house.setpoint", "21 °C")
	next := formOn(post(t, h, "/solve", form).Body.String())
	for _, want := range []string{"36 m", "setpoint: 21 °C"} {
		if !strings.Contains(next.Get("document"), want) {
			t.Errorf("no %q in the document:\n%s", want, next.Get("document"))
		}
	}
}

func TestSwitchingUnitsThereAndBackChangesNothing(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		page := get(t, h, "/try?example="+e.Name).Body.String()
		form := formOn(page)
		own, other := form.Get("units"), "si"
		if own == "si" {
			other = "us"
		}
		form.Set("units", other)
		there := post(t, h, "/try", form).Body.String()
		if there == page {
			t.Errorf("%s: the switch did nothing", e.Name)
		}
		back := formOn(there)
		if back.Get("document") != e.Document {
			t.Errorf("%s: showing other units changed the document", e.Name)
		}
		back.Set("units", own)
		if got := post(t, h, "/try", back).Body.String(); got != page {
			t.Errorf("%s: back again, the page is another", e.Name)
		}
	}
}

func TestAFaultStandsAtItsFieldAndKeepsWhatWasTyped(t *testing.T) {
	h := handler(t)
	page := get(t, h, "/try?example=short-survey").Body.String()
	for _, c := range []struct{ field, typed, says string }{
		{"f.site.design_outdoor", "cold", "Accepted: 70 °F"},
		{"f.site.design_outdoor", "", "needed"},
		{"f.site.design_outdoor", "90", "Accepted:"},
		{"f.house.setpoint", "-40", "Accepted:"},
		{"f.house.floor_area", "1850 gpm", "not a unit of"},
		{"f.house.era", "long ago", "Accepted: before 1946"},
		{"f.house.floor_area", `<script>alert("x")</script>`, "Accepted:"},
	} {
		form := formOn(page)
		form.Set(c.field, c.typed)
		form.Set("f.boiler.output", "70,000") // a good change beside it is kept
		w := post(t, h, "/try", form)
		body := w.Body.String()
		next := formOn(body)
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(html.UnescapeString(body), c.says) {
			t.Errorf("%s %q: status %d, and no word of %q", c.field, c.typed, w.Code, c.says)
		}
		if !strings.Contains(c.field, "era") && next.Get(c.field) != c.typed {
			t.Errorf("%s: typed %q, kept %q", c.field, c.typed, next.Get(c.field))
		}
		if !strings.Contains(next.Get("document"), "output: 70,000 Btu/h") {
			t.Errorf("%s %q: the good change beside it is lost", c.field, c.typed)
		}
		if strings.Contains(body, "<script>alert") {
			t.Error("what was typed runs on the page")
		}
		if len(bigSupply.FindAllString(body, -1)) == 0 {
			t.Errorf("%s %q: the settings are gone", c.field, c.typed)
		}
	}
}

func TestABadDocumentShowsEveryFaultAndKeepsTheText(t *testing.T) {
	h := handler(t)
	bad := "curvewright: 1\njob: A & B <i>house</i>\nsite:\n  design_outdoor: -6\ncircuits:\n  - name: One\n    lenght: 3 ft\n"
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	form.Set("document", bad)
	form.Set("f.house.setpoint", "71")
	w := post(t, h, "/try", form)
	body := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d", w.Code)
	}
	for _, want := range []string{"line 4", "site › design_outdoor", "-6", "has no unit", "70 °F", "line 7", "lenght", "is not a field here"} {
		if !strings.Contains(body, want) {
			t.Errorf("no word of %q", want)
		}
	}
	next := formOn(w.Body.String())
	if next.Get("document") != bad {
		t.Errorf("the text was changed to\n%s", next.Get("document"))
	}
	if next.Get("f.house.setpoint") != "71" {
		t.Error("what was typed in a field is lost")
	}
	if strings.Contains(w.Body.String(), "<i>house") {
		t.Error("the document's text is markup on the page")
	}
}

func TestAHandEditedDocumentIsNotOverruledByFields(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	form.Set("document", strings.Replace(form.Get("document"), "design_outdoor: -6 °F", "design_outdoor: -11 °F", 1))
	next := formOn(post(t, h, "/try", form).Body.String())
	if got := next.Get("f.site.design_outdoor"); got != "-11" {
		t.Errorf("the field says %q", got)
	}
	if next.Get("document") != form.Get("document") {
		t.Error("the document was changed")
	}
}

func TestAFileIsRead(t *testing.T) {
	h := handler(t)
	e, _ := examples.Find("combi-slab")
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	for name, v := range form {
		if err := m.WriteField(name, v[0]); err != nil {
			t.Fatal(err)
		}
	}
	f, err := m.CreateFormFile("file", "my house.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, _ = io.WriteString(f, e.Document)
	m.Close()
	r := httptest.NewRequest(http.MethodPost, "/try", &body)
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	next := formOn(w.Body.String())
	if w.Code != http.StatusOK || next.Get("document") != e.Document || next.Get("units") != "si" {
		t.Errorf("status %d, units %q", w.Code, next.Get("units"))
	}
}

func TestDownloads(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=ridge-house").Body.String())
	form.Set("f.house.setpoint", "69")
	for _, c := range []struct{ address, kind, name, begins string }{
		{"/pdf?paper=a4", "application/pdf", "marchbanks-house.pdf", "%PDF-"},
		{"/pdf?paper=letter", "application/pdf", "marchbanks-house.pdf", "%PDF-"},
		{"/json", "application/json", "marchbanks-house.json", "{"},
		{"/document", "application/yaml; charset=utf-8", "marchbanks-house.yaml", "curvewright: 1"},
	} {
		w := post(t, h, c.address, form)
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != c.kind || !strings.HasPrefix(w.Body.String(), c.begins) {
			t.Errorf("%s: status %d, %s, %.20q", c.address, w.Code, w.Header().Get("Content-Type"), w.Body.String())
		}
		if got := w.Header().Get("Content-Disposition"); !strings.Contains(got, `"`+c.name+`"`) {
			t.Errorf("%s: named %s", c.address, got)
		}
	}
	kept := post(t, h, "/document", form).Body.Bytes()
	j, err := job.Read(kept)
	if err != nil || j.House.Setpoint.Text != "69 °F" {
		t.Errorf("the kept job: %v", err)
	}
	form.Set("document", "not a job")
	if w := post(t, h, "/pdf", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `id="faults"`) {
		t.Errorf("a bad document as a PDF: status %d", w.Code)
	}
}

func TestWhatIsTooLargeIsRefused(t *testing.T) {
	h := handler(t)
	form := url.Values{"document": {strings.Repeat("# a long comment\n", maxRequest/16)}}
	for _, address := range []string{"/try", "/solve", "/drawing", "/pdf", "/year", "/year/section"} {
		w := post(t, h, address, form)
		if w.Code != http.StatusRequestEntityTooLarge || !strings.Contains(w.Body.String(), "1 MB at most") {
			t.Errorf("%s: status %d", address, w.Code)
		}
	}
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	h := handler(t)
	for _, address := range []string{"/try", "/try?example=nobody", "/nowhere", "/assets/style.css", "/assets/../web.go"} {
		w := get(t, h, address)
		if w.Header().Get("Content-Security-Policy") != contentPolicy || w.Header().Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: headers %v", address, w.Header())
		}
	}
	page := get(t, h, "/try").Body.String()
	for _, banned := range []string{" style=", "<style", "javascript:", " onclick", "http://"} {
		if strings.Contains(strings.ReplaceAll(page, "http://www.w3.org/2000/svg", ""), banned) {
			t.Errorf("the page has %q, which its own policy refuses", banned)
		}
	}
	r := httptest.NewRequest(http.MethodPost, "/try", strings.NewReader(""))
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusForbidden {
		t.Errorf("a form on another site: status %d", w.Code)
	}
	if w := get(t, h, "/solve"); w.Code != http.StatusNotFound {
		t.Errorf("GET /solve: status %d", w.Code)
	}
}

func TestNamesOfThePageAreUnique(t *testing.T) {
	h := handler(t)
	id := regexp.MustCompile(` id="([^"]*)"`)
	for _, e := range examples.List() {
		seen := map[string]bool{}
		for _, m := range id.FindAllStringSubmatch(get(t, h, "/try?example="+e.Name).Body.String(), -1) {
			if seen[m[1]] {
				t.Errorf("%s: two elements are called %q", e.Name, m[1])
			}
			seen[m[1]] = true
		}
	}
}

func TestTheBoilerRoomIsDrawnInTheChosenWeather(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		page := get(t, h, "/try?example="+e.Name).Body.String()
		form := formOn(page)
		first := post(t, h, "/drawing", form)
		if first.Code != http.StatusOK || strings.Count(first.Body.String(), "<svg xmlns") != len(roomSizes) || strings.Contains(first.Body.String(), "<form") {
			t.Errorf("%s: the drawing alone: status %d, %.80q", e.Name, first.Code, first.Body.String())
		}
		if !strings.Contains(page, first.Body.String()) {
			t.Errorf("%s: the drawing on the page is another", e.Name)
		}
		form.Set(weatherField, "4.4") // near 40 °F and 4 °C
		words := "40\u00a0°F outdoors"
		if form.Get("units") == "si" {
			words = "4\u00a0°C outdoors"
		}
		mild := post(t, h, "/drawing", form).Body.String()
		if !strings.Contains(mild, "At "+words+" the boiler sends out") || !strings.Contains(mild, ">"+words+"<") {
			t.Errorf("%s: the drawing is not for %s: %.300s", e.Name, words, mild)
		}
		// Without script the same comes with the page, and the choice stays.
		whole := post(t, h, "/try", form)
		if whole.Code != http.StatusOK || !strings.Contains(whole.Body.String(), mild) || supplies(whole.Body.String()) != supplies(page) {
			t.Errorf("%s: the page has another drawing, or other settings", e.Name)
		}
		again := formOn(whole.Body.String())
		if at, err := strconv.ParseFloat(again.Get(weatherField), 64); err != nil || math.Abs(at-4.4) > 1 {
			t.Errorf("%s: the choice is now %q", e.Name, again.Get(weatherField))
		}
	}
}

func TestADrawingThatCannotBeIsRefused(t *testing.T) {
	h := handler(t)
	page := get(t, h, "/try?example=ridge-house").Body.String()
	for _, c := range []struct{ field, value, says string }{
		{weatherField, "warm", "accepted: -80 to 60 in °C"},
		{weatherField, "NaN", "accepted: -80 to 60 in °C"},
		{weatherField, "-300", "accepted: -80 to 60 in °C"},
		{weatherField, "1e99", "accepted: -80 to 60 in °C"},
		{weatherField, "<script>", "accepted: -80 to 60 in °C"},
		{"document", "not a job", "to be put right"},
		{"document", "", "to be put right"},
	} {
		form := formOn(page)
		form.Set(c.field, c.value)
		w := post(t, h, "/drawing", form)
		body := w.Body.String()
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(body, c.says) || strings.Contains(body, "<svg xmlns") || strings.Contains(body, "<script>") {
			t.Errorf("%s %q: status %d, %s", c.field, c.value, w.Code, body)
		}
		// The page itself goes on, with the design day for a weather that is none.
		if c.field == weatherField {
			if w := post(t, h, "/try", form); w.Code != http.StatusOK || formOn(w.Body.String()).Get(weatherField) != "" {
				t.Errorf("%s %q: the page has status %d", c.field, c.value, w.Code)
			}
		}
	}
	if w := get(t, h, "/drawing"); w.Code != http.StatusNotFound {
		t.Errorf("GET: status %d", w.Code)
	}
}

// solved is a page as the templates get it.
func solved(t *testing.T, e examples.Example) *page {
	t.Helper()
	p := readDocument(words.English, e.Document, units.US, false)
	p.solve(noDoubt)
	if p.Sheet == nil {
		t.Fatalf("%s: %s", e.Name, p.Trouble)
	}
	return p
}

func TestWhatBelongsInTheBoilerRoomStandsThere(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		page := get(t, h, "/try?example="+e.Name).Body.String()
		from := strings.Index(page, `id="boiler-room"`)
		to := strings.Index(page, `id="expected-title"`)
		for _, section := range solved(t, e).Sheet.Sections {
			for _, l := range section.Lines {
				at := strings.Index(page, `id="`+lineID(l)+`"`)
				if there := at > from && at < to; at < 0 || there != (section.Part == settings.BoilerRoom) {
					t.Errorf("%s: %s, of %q, stands in the wrong place", e.Name, l.ID, section.Part)
				}
			}
		}
	}
}

func TestEveryFigureShowsItsWorking(t *testing.T) {
	for _, e := range examples.List() {
		p := solved(t, e)
		shown := 1 // the whole load
		if len(p.loadWorking()) == 0 {
			t.Errorf("%s: the load has no working", e.Name)
		}
		for _, r := range p.roomLoads() {
			shown++
			if n := len(r.Working); n == 0 || r.Working[n-1].Result.Value != r.Load {
				t.Errorf("%s: the working of the load of %s ends in another figure", e.Name, r.Name)
			}
		}
		for i := range p.Sheet.Circuits {
			for _, r := range p.roomNeeds(i) {
				shown++
				if n := len(r.Working); n == 0 || r.Working[n-1].Result.Value != r.Need {
					t.Errorf("%s: the working of the need of %s ends in another figure", e.Name, r.Name)
				}
			}
			shown++
			if len(p.returnWorking(i)) == 0 {
				t.Errorf("%s: the return of circuit %d has no working", e.Name, i)
			}
		}
		if shown != len(p.Sheet.Figures) {
			t.Errorf("%s: %d figures are shown of %d", e.Name, shown, len(p.Sheet.Figures))
		}
	}
}

func TestAQuickAnswerIsBriefAndHasTheSameFigures(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		form := formOn(get(t, h, "/try?example="+e.Name).Body.String())
		full := post(t, h, "/solve", form).Body.String()
		form["open"] = []string{"load", "nothing-of-the-kind"}
		quick := post(t, h, "/solve?doubt=quick", form).Body.String()
		if supplies(quick) != supplies(full) || len(quick) > len(full)*3/4 {
			t.Errorf("%s: %d bytes of %d, supplies %s", e.Name, len(quick), len(full), supplies(quick))
		}
		if strings.Contains(full, "data-later") || !strings.Contains(quick, `<details id="return-0" data-later>`) {
			t.Errorf("%s: what was left out is not marked, or something is that was not", e.Name)
		}
		load := regexp.MustCompile(`(?s)<details id="load">.*?</details>`)
		if got := load.FindString(quick); got == "" || got != load.FindString(full) {
			t.Errorf("%s: what is unfolded was left out", e.Name)
		}
	}
}

func TestPeopleAreCounted(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	for _, c := range []struct {
		typed, document string
		status          int
	}{{"5", "people: 5", 200}, {"0", "", 422}, {"-2", "", 422}, {"2.5", "", 422}, {"100", "", 422}, {"", "", 200}} {
		form.Set("f.hot_water.people", c.typed)
		w := post(t, h, "/try", form)
		if w.Code != c.status || !strings.Contains(formOn(w.Body.String()).Get("document"), c.document) {
			t.Errorf("%q: status %d", c.typed, w.Code)
		}
	}
}

// FuzzSolve sends forms that nobody would type, and some that somebody might.
func FuzzSolve(f *testing.F) {
	h, err := New(Config{Store: memory()})
	if err != nil {
		f.Fatal(err)
	}
	forms := map[string]url.Values{}
	var names []string
	for _, e := range examples.List() {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/try?example="+e.Name, nil))
		forms[e.Name] = formOn(w.Body.String())
		names = append(names, e.Name)
	}
	for i, text := range []string{"-300", "1e9", "0", "", "NaN", "70 °F", "999999999", "0.0000001", "-1", "R-", "1/0", "☃", "\x00", "40 °C", "500 ft", "120,000"} {
		f.Add(uint8(i), uint64(i), text, "us")
	}
	f.Fuzz(func(t *testing.T, which uint8, seed uint64, text, system string) {
		form := url.Values{}
		for k, v := range forms[names[int(which)%len(names)]] {
			form[k] = v
		}
		var fields []string
		for k := range form {
			if strings.HasPrefix(k, typedPrefix) {
				fields = append(fields, k)
			}
		}
		// Map order is random; the choice must not be.
		slices.Sort(fields)
		random := rand.New(rand.NewPCG(seed, 1))
		for range 1 + random.IntN(4) {
			form.Set(fields[random.IntN(len(fields))], text)
		}
		form.Set("units", system)
		if random.IntN(4) == 0 {
			document := form.Get("document")
			cut := random.IntN(len(document))
			form.Set("document", document[:cut]+text+document[min(len(document), cut+random.IntN(40)):])
		}
		r := httptest.NewRequest(http.MethodPost, "/solve", strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			t.Fatalf("status %d", w.Code)
		}
		if body := w.Body.String(); strings.Contains(body, "NaN") && !strings.Contains(text, "NaN") || strings.Contains(body, "no value") {
			t.Error("a figure that is none")
		}
	})
}

func BenchmarkSolve(b *testing.B) {
	h := handler(b)
	for _, e := range examples.List() {
		form := formOn(get(b, h, "/try?example="+e.Name).Body.String())
		for _, address := range []string{"/solve", "/solve?doubt=quick", "/drawing"} {
			b.Run(e.Name+address, func(b *testing.B) {
				for b.Loop() {
					post(b, h, address, form)
				}
			})
		}
	}
}
