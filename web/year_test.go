package web

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"html"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/trial"
)

// postFiles sends a form with files, as a browser does.
func postFiles(t testing.TB, h http.Handler, address string, form url.Values, files map[string][]byte) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	for name, v := range form {
		if err := m.WriteField(name, v[0]); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range files {
		f, err := m.CreateFormFile(name, name+".bin")
		if err != nil {
			t.Fatal(err)
		}
		_, _ = f.Write(data)
	}
	m.Close()
	r := httptest.NewRequest(http.MethodPost, address, &body)
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// mildYear is a year of weather as a CSV: frost at night, mild by day.
func mildYear() []byte {
	var b bytes.Buffer
	b.WriteString("time,temperature_c\n")
	lengths := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	for month, days := range lengths {
		for day := range days {
			for hour := range 24 {
				fmt.Fprintf(&b, "2023-%02d-%02d %02d:00,%d.5\n", month+1, day+1, hour, hour%12-3)
			}
		}
	}
	return b.Bytes()
}

var spaces = strings.NewReplacer("\u00a0", " ", "−", "-", ",", "")

// TestTheYearOnThePageIsThatOfTheCommandLine compares every figure with the text.
func TestTheYearOnThePageIsThatOfTheCommandLine(t *testing.T) {
	h := handler(t)
	cell := regexp.MustCompile(`<t[dh][^>]*>([^<]*)</t[dh]>`)
	for _, e := range examples.List() {
		form := formOn(get(t, h, "/try?example="+e.Name).Body.String())
		w := post(t, h, "/year/section", form)
		body := w.Body.String()
		if w.Code != http.StatusOK || !strings.HasPrefix(body, `<section class="year"`) {
			t.Fatalf("%s: status %d, %.80q", e.Name, w.Code, body)
		}
		system, _ := systemNamed(form.Get("units"))
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		tr, err := trial.New(j, trial.Options{System: system, Seed: yearSeed, Against: []trial.Against{trial.Preset, trial.Fixed}})
		if err != nil {
			t.Fatal(err)
		}
		results, err := tr.Run(nil)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := tr.WriteText(&b, results, system); err != nil {
			t.Fatal(err)
		}
		text := spaces.Replace(strings.ToLower(b.String()))
		cells := cell.FindAllStringSubmatch(body, -1)
		if len(cells) < 10*4+5*len(results[0].Rooms) {
			t.Errorf("%s: only %d figures", e.Name, len(cells))
		}
		for _, m := range cells {
			said := strings.ToLower(spaces.Replace(html.UnescapeString(m[1])))
			if !strings.Contains(text, said) && !slices.Contains([]string{"room", "against the sheet"}, said) {
				t.Errorf("%s: %q is not what the command line says:\n%s", e.Name, m[1], text)
			}
		}
		if !strings.Contains(body, "nobody measured it") {
			t.Errorf("%s: the page does not say that the weather is made up", e.Name)
		}
		for _, a := range tr.Assumed {
			if !strings.Contains(html.UnescapeString(body), capital(a)) {
				t.Errorf("%s: the page does not say: %s", e.Name, a)
			}
		}
		if n := strings.Count(body, "<svg xmlns"); n != 2*(len(tr.Plan.Sheet.Circuits)+5) { // supply by circuit; day, starts, load, week, carpet
			t.Errorf("%s: %d charts", e.Name, n)
		}
	}
}

func TestTheYearComesWithTheWholePageToo(t *testing.T) {
	h := handler(t)
	id := regexp.MustCompile(` id="([^"]*)"`)
	for _, e := range examples.List() {
		page := get(t, h, "/try?example="+e.Name).Body.String()
		if strings.Contains(page, `id="played"`) || !strings.Contains(page, `formaction="/year#year"`) {
			t.Errorf("%s: a year that nobody asked for, or no button", e.Name)
		}
		w := post(t, h, "/year", formOn(page))
		body := w.Body.String()
		section := post(t, h, "/year/section", formOn(page)).Body.String()
		if w.Code != http.StatusOK || !strings.Contains(body, section) || supplies(body) != supplies(page) {
			t.Errorf("%s: status %d, or the page has another year, or other settings", e.Name, w.Code)
		}
		seen := map[string]bool{}
		for _, m := range id.FindAllStringSubmatch(body, -1) {
			if seen[m[1]] {
				t.Errorf("%s: two elements are called %q", e.Name, m[1])
			}
			seen[m[1]] = true
		}
		for _, banned := range []string{" style=", "<style", "javascript:", " onclick"} {
			if strings.Contains(body, banned) {
				t.Errorf("%s: the page has %q, which its own policy refuses", e.Name, banned)
			}
		}
	}
	if w := get(t, h, "/year"); w.Code != http.StatusNotFound {
		t.Errorf("GET /year: status %d", w.Code)
	}
}

func TestAYearFollowsWhatWasTyped(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	mark := regexp.MustCompile(`data-mark="([0-9a-f]+)"`)
	fuel := regexp.MustCompile(`Fuel, gross</th><td>([^<]*)<`)
	first := post(t, h, "/year/section", form).Body.String()
	form.Set("f.site.design_outdoor", "-20")
	next := post(t, h, "/year/section", form).Body.String()
	if a, b := fuel.FindStringSubmatch(first), fuel.FindStringSubmatch(next); a == nil || b == nil || a[1] == b[1] {
		t.Errorf("fuel %v and %v", a, b)
	}
	// The page with that change carries the same mark as the year.
	page := post(t, h, "/solve", form).Body.String()
	if a, b := mark.FindStringSubmatch(next), mark.FindStringSubmatch(page); a[1] != b[1] || a[1] == mark.FindStringSubmatch(first)[1] {
		t.Errorf("marks %v and %v", a, b)
	}
	// A slip in a field leaves the year with the value before.
	form.Set("f.house.setpoint", "hot")
	if w := post(t, h, "/year/section", form); w.Code != http.StatusOK || fuel.FindStringSubmatch(w.Body.String())[1] != fuel.FindStringSubmatch(next)[1] {
		t.Errorf("status %d", w.Code)
	}
	if w := post(t, h, "/year", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Not all that you typed") {
		t.Errorf("status %d", w.Code)
	}
}

const notPlayed = `curvewright: 1
job: Not <i>played</i>
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {%s load: 6 kW, setpoint: 21 °C}
circuits:
  - name: A
    emitters:
      - %s
%scontrol: {scale: celsius, curve: {two_points: {}}}
`

const noArea = `curvewright: 1
job: Not <i>played</i>
site: {design_outdoor: -20 °C, annual_mean: 6 °C}
house: {setpoint: 21 °C}
circuits:
  - {name: A}
rooms:
  - {name: Parlour, load: 6 kW, emitters: [{circuit: A, radiator: {output: 9 kW}}]}
control: {scale: celsius, curve: {two_points: {}}}
`

func TestAYearThatCannotBePlayedSaysWhy(t *testing.T) {
	h := handler(t)
	const area, radiator = "floor_area: 100 m²,", "radiator: {output: 9 kW}"
	for _, c := range []struct{ document, says string }{
		{fmt.Sprintf(notPlayed, area, radiator, "separator: {kind: two-pipe buffer}\n"), "has no volume"},
		{noArea, "no floor area"},
	} {
		form := url.Values{"document": {c.document}, "units": {"si"}}
		w := post(t, h, "/year/section", form)
		body := html.UnescapeString(w.Body.String())
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(body, "cannot be played through a year") || !strings.Contains(body, c.says) || strings.Contains(body, "<svg xmlns") {
			t.Errorf("%s: status %d, %s", c.says, w.Code, body)
		}
		whole := post(t, h, "/year", form)
		if whole.Code != http.StatusUnprocessableEntity || !strings.Contains(whole.Body.String(), w.Body.String()) || len(bigSupply.FindAllString(whole.Body.String(), -1)) == 0 {
			t.Errorf("%s: the page with it has status %d, or no settings", c.says, whole.Code)
		}
		if strings.Contains(whole.Body.String(), "<i>played") {
			t.Error("the document's text is markup on the page")
		}
	}
	for document, says := range map[string]string{"not a job": "to be put right", "": "to be put right"} {
		w := post(t, h, "/year/section", url.Values{"document": {document}})
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), says) {
			t.Errorf("%q: status %d", document, w.Code)
		}
		if w := post(t, h, "/year", url.Values{"document": {document}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `id="faults"`) {
			t.Errorf("%q: the page has status %d", document, w.Code)
		}
	}
}

func packed(t *testing.T, data []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	_, _ = z.Write(data)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestAWeatherFileIsPlayed(t *testing.T) {
	h := handler(t)
	page := get(t, h, "/try?example=short-survey").Body.String()
	form, data := formOn(page), mildYear()
	plain := postFiles(t, h, "/year/section", form, map[string][]byte{weatherFile: data})
	body := plain.Body.String()
	if plain.Code != http.StatusOK || strings.Contains(body, "made up for") || !strings.Contains(body, "Played on the weather of") || !strings.Contains(body, "o sun: the weather holds no radiation") {
		t.Errorf("status %d, %.600s", plain.Code, body)
	}
	if zipped := postFiles(t, h, "/year/section", form, map[string][]byte{weatherFile: packed(t, data)}); zipped.Body.String() != body {
		t.Error("packed, the file gives another year")
	}
	// A job's file and one of weather go together: the new job is played.
	e, _ := examples.Find("combi-slab")
	both := postFiles(t, h, "/year", form, map[string][]byte{weatherFile: data, "file": []byte(e.Document)})
	if both.Code != http.StatusOK || formOn(both.Body.String()).Get("document") != e.Document || !strings.Contains(both.Body.String(), `id="played"`) {
		t.Errorf("both files: status %d", both.Code)
	}
	for _, c := range []struct {
		what, says string
		data       []byte
	}{
		{"text", "weather file cannot be used", []byte("the sun shines\n")},
		{"half a year", "weather file cannot be used", data[:len(data)/2]},
		{"a damaged pack", "may be damaged", packed(t, data)[:2000]},
		{"no pack", "accepted: gzip", []byte{0x1f, 0x8b, 1, 2}},
		{"a pack of zeros", "larger than 16 MB", packed(t, make([]byte, maxYear+1))},
	} {
		w := postFiles(t, h, "/year/section", form, map[string][]byte{weatherFile: c.data})
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c.says) {
			t.Errorf("%s: status %d, %.900s", c.what, w.Code, w.Body.String())
		}
	}
}

func TestOnlyAYearMayBringALargeFile(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/try?example=short-survey").Body.String())
	large := bytes.Repeat([]byte("# weather\n"), 3*maxRequest/10)
	for _, address := range []string{"/try", "/solve", "/drawing", "/pdf", "/json"} {
		w := postFiles(t, h, address, form, map[string][]byte{weatherFile: large})
		if w.Code != http.StatusRequestEntityTooLarge || !strings.Contains(w.Body.String(), "1 MB at most") {
			t.Errorf("%s: status %d", address, w.Code)
		}
	}
	if w := postFiles(t, h, "/year/section", form, map[string][]byte{weatherFile: large}); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("a large file without weather: status %d", w.Code)
	}
	huge := make([]byte, maxYear)
	if w := postFiles(t, h, "/year/section", form, map[string][]byte{weatherFile: huge}); w.Code != http.StatusRequestEntityTooLarge || !strings.Contains(w.Body.String(), "16 MB at most") {
		t.Errorf("a huge file: status %d", w.Code)
	}
	// A job is no larger because weather may come along.
	if w := postFiles(t, h, "/year", form, map[string][]byte{"file": large}); w.Code != http.StatusRequestEntityTooLarge || !strings.Contains(w.Body.String(), "1 MB at most") {
		t.Errorf("a large job: status %d", w.Code)
	}
}

func BenchmarkYear(b *testing.B) {
	h := handler(b)
	for _, e := range examples.List() {
		form := formOn(get(b, h, "/try?example="+e.Name).Body.String())
		b.Run(e.Name, func(b *testing.B) {
			for b.Loop() {
				post(b, h, "/year/section", form)
			}
		})
	}
}
