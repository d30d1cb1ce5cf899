package web

import (
	"archive/zip"
	"bytes"
	"image"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/units"
)

// aPhoto is a photograph that tells where it was taken.
func aPhoto(t testing.TB, shade uint8) []byte {
	t.Helper()
	picture := image.NewGray(image.Rect(0, 0, 60, 40))
	for i := range picture.Pix {
		picture.Pix[i] = shade
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, picture, nil); err != nil {
		t.Fatal(err)
	}
	secret := []byte("Exif\x00\x00MM\x00*\x00\x00\x00\x08 GPS 48.137 N")
	segment := append([]byte{0xff, 0xe1, 0, byte(len(secret) + 2)}, secret...)
	return slices.Concat(b.Bytes()[:2], segment, b.Bytes()[2:])
}

// shoot sends a photograph as the form of a visit does.
func shoot(t *testing.T, h http.Handler, visit, step, of, name string, data []byte) *httptest.ResponseRecorder {
	t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	_ = m.WriteField("section", "before-power")
	_ = m.WriteField("step", step)
	_ = m.WriteField("of", of)
	part, err := m.CreateFormFile("files", name)
	if err != nil {
		t.Fatal(err)
	}
	_, _ = part.Write(data)
	_ = m.Close()
	r := httptest.NewRequest(http.MethodPost, visit+"/photos", &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// aVisit is a job with a visit in which lines were entered otherwise and a photograph lies.
func aVisit(t *testing.T) (h http.Handler, at, visit string) {
	t.Helper()
	h = handler(t)
	at = begun(t, h, "ridge-house")
	visit = post(t, h, at+"/visits", nil).Header().Get("Location")
	form := formOn(get(t, h, visit+"/settings").Body.String())
	form.Set("l.cut-off", "otherwise")
	form.Set("v.cut-off", "45")
	form.Set("l.slab.max-supply", "otherwise")
	form.Set("v.slab.max-supply", "150 °F")
	if w := post(t, h, visit+"/settings", form); w.Code >= 400 {
		t.Fatalf("settings: %d", w.Code)
	}
	form = formOn(get(t, h, visit+"/readings").Body.String())
	form.Set("f.conditions.outdoor", "20 °F")
	form.Set("f.readings.boiler.supply", "135 °F")
	form.Set("f.readings.circuits[1].supply", "130 °F")
	if w := post(t, h, visit+"/readings", form); w.Code >= 400 {
		t.Fatalf("readings: %d", w.Code)
	}
	if w := shoot(t, h, visit, "air", "the vent", "IMG.JPG", aPhoto(t, 90)); w.Code != http.StatusSeeOther || !strings.HasSuffix(w.Header().Get("Location"), "/before-power#step-air") {
		t.Fatalf("photo: %d to %s: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	return h, at, visit
}

func TestAPhotoBelongsToAStepAndTellsNoPlace(t *testing.T) {
	h, at, visit := aVisit(t)
	page := get(t, h, visit+"/before-power").Body.String()
	_, rest, found := strings.Cut(page, visit+"/files/")
	if !found || !strings.Contains(page, "the vent") {
		t.Fatal("the photograph is not shown at its step")
	}
	name, _, _ := strings.Cut(rest, `"`)
	w := get(t, h, visit+"/files/"+name)
	if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/jpeg" || bytes.Contains(w.Body.Bytes(), []byte("GPS")) {
		t.Errorf("%s: %d %s, or with its place", name, w.Code, w.Header().Get("Content-Type"))
	}
	if !strings.Contains(get(t, h, at+"/record").Body.String(), name) {
		t.Error("the record does not show it")
	}
	// The same one again is no second one; what is no picture is refused.
	shoot(t, h, visit, "air", "the vent", "IMG.JPG", aPhoto(t, 90))
	if n := strings.Count(get(t, h, visit+"/visit.yaml").Body.String(), name); n != 1 {
		t.Errorf("it is named %d times", n)
	}
	for _, bad := range []string{"<html><script>", "plain words", "%PDF-1.7 x"} {
		if w := shoot(t, h, visit, "air", "", "a.jpg", []byte(bad)); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%q: %d", bad, w.Code)
		}
	}
	form := formOn(page)
	form.Set("do", "remove photos[0]")
	post(t, h, visit+"/before-power", form)
	if strings.Contains(get(t, h, visit+"/before-power").Body.String(), name) {
		t.Error("a removed photograph is still shown")
	}
	if strings.Contains(strings.Join(partsIn(t, get(t, h, at+"/everything.zip").Body.Bytes()), " "), name) {
		t.Error("a removed photograph is still handed on")
	}
}

func partsIn(t *testing.T, data []byte) []string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
	}
	return names
}

// TestEverythingComesBackWithItsPictures: a job handed on and taken in again shows the same
// photographs and signatures, twice over.
func TestEverythingComesBackWithItsPictures(t *testing.T) {
	h, at, visit := aVisit(t)
	sign := formOn(get(t, h, visit+"/sign-off").Body.String())
	sign.Set("who", "Orla Penhallow")
	sign.Set("as", "installer")
	sign.Set("picture", "data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==")
	sign.Set("seal", "yes")
	if w := post(t, h, visit+"/sign", sign); w.Code >= 400 {
		t.Fatalf("sign: %d %s", w.Code, w.Body)
	}
	if w := shoot(t, h, visit, "air", "", "late.jpg", aPhoto(t, 10)); w.Code != http.StatusConflict {
		t.Errorf("a photograph into a signed visit: %d", w.Code)
	}
	for round := range 2 {
		packed := get(t, h, at+"/everything.zip").Body.Bytes()
		var b bytes.Buffer
		m := multipart.NewWriter(&b)
		part, _ := m.CreateFormFile("file", "all.zip")
		_, _ = part.Write(packed)
		_ = m.Close()
		r := httptest.NewRequest(http.MethodPost, "/jobs", &b)
		r.Header.Set("Content-Type", m.FormDataContentType())
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusSeeOther {
			t.Fatalf("round %d: %d %s", round, w.Code, w.Body)
		}
		at = strings.TrimSuffix(w.Header().Get("Location"), "/survey")
		page := get(t, h, at+"/record").Body.String()
		shown := 0
		for _, rest := range strings.Split(page, `<img src="`)[1:] {
			address, _, _ := strings.Cut(rest, `"`)
			if w := get(t, h, address); w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "image/") {
				t.Errorf("round %d: %s is %d", round, address, w.Code)
			}
			shown++
		}
		if shown != 2 {
			t.Errorf("round %d: %d pictures, want the photograph and the signature", round, shown)
		}
		if strings.Contains(page, "not as it was when it was signed") {
			t.Errorf("round %d: the seal is broken", round)
		}
	}
}

func TestWhatIsEnteredOtherwiseHasItsConsequenceAtOnce(t *testing.T) {
	h, at, visit := aVisit(t)
	for _, page := range []string{visit + "/settings", at + "/record"} {
		body := get(t, h, page).Body.String()
		for _, want := range []string{"Heating stops at", "STOP.", "bears at most", "cracks screed"} {
			if !strings.Contains(body, want) {
				t.Errorf("%s lacks %q", page, want)
			}
		}
	}
}

func TestTheRecordsOfWaterAndPressureHaveVerdicts(t *testing.T) {
	h, at, visit := aVisit(t)
	for _, make := range []string{"make water", "make pressure_test", "add loops[0]"} {
		form := formOn(get(t, h, visit+"/before-power").Body.String())
		form.Set("do", make)
		post(t, h, visit+"/before-power", form)
	}
	form := formOn(get(t, h, visit+"/before-power").Body.String())
	for field, value := range map[string]string{"water.hardness": "40 gpg", "water.ph": "6.1", "water.precharge": "3 psi", "pressure_test.with": "water", "pressure_test.start": "60 psi", "pressure_test.end": "40 psi", "pressure_test.for": "2 h"} {
		form.Set("f."+field, value)
	}
	post(t, h, visit+"/before-power", form)
	for _, page := range []string{visit + "/before-power", at + "/record"} {
		body := get(t, h, page).Body.String()
		for _, want := range []string{"scale settles", "pH 6.1 lies outside", "precharge is too low", "It did not hold"} {
			if !strings.Contains(body, want) {
				t.Errorf("%s lacks %q", page, want)
			}
		}
	}
}

func TestRecordAndHouseholdAsPDF(t *testing.T) {
	api.DisableConfigDir()
	h, at, _ := aVisit(t)
	pages := func(address string) int {
		w := get(t, h, address)
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "application/pdf" {
			t.Fatalf("%s: %d %s", address, w.Code, w.Header().Get("Content-Type"))
		}
		n, err := api.PageCount(bytes.NewReader(w.Body.Bytes()), nil)
		if err != nil {
			t.Fatalf("%s: %v", address, err)
		}
		if again := get(t, h, address).Body.Bytes(); !bytes.Equal(again, w.Body.Bytes()) {
			t.Errorf("%s: other bytes the second time", address)
		}
		return n
	}
	if n := pages(at + "/record.pdf?paper=a4"); n < 4 || n > 9 {
		t.Errorf("the record has %d pages", n)
	}
	for _, language := range []string{"en", "fr", "es", "de"} {
		for _, paper := range []string{"a4", "letter"} {
			if n := pages(at + "/household/" + language + ".pdf?paper=" + paper); n != 1 {
				t.Errorf("%s on %s: %d pages", language, paper, n)
			}
		}
	}
	if w := get(t, h, at+"/household/la.pdf"); w.Code != http.StatusNotFound {
		t.Errorf("a language that is not spoken: %d", w.Code)
	}
	if body := get(t, h, at+"/handover").Body.String(); !strings.Contains(body, "/household/de.pdf") || !strings.Contains(body, "/record.pdf") || !strings.Contains(body, "/readings.xlsx") {
		t.Error("the page of the handover does not lead there")
	}
}

func TestReadingsAsASpreadsheet(t *testing.T) {
	h, at, _ := aVisit(t)
	w := get(t, h, at+"/readings.xlsx")
	z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
	if err != nil {
		t.Fatal(err)
	}
	cells := ""
	for _, f := range z.File {
		if strings.HasPrefix(f.Name, "xl/worksheets/") {
			part, err := contentOf(f, maxInArchive)
			if err != nil {
				t.Fatal(err)
			}
			cells += strings.Join(strings.FieldsFunc(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(string(part), "\t"), func(r rune) bool { return r == '\t' }), "\t")
		}
	}
	if !strings.Contains(cells, "supply of Slab\t130\t°F\t") || !strings.Contains(cells, "wrong") {
		t.Errorf("read %s", cells)
	}
}

func FuzzUnpack(f *testing.F) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range []string{zipJob, zipVisits + "a.yaml", zipVisits + "a/1-x.jpg", zipFiles + "2-y.pdf", "../up", ""} {
		part, _ := z.Create(name)
		_, _ = part.Write([]byte("curvewright: 1\n"))
	}
	_ = z.Close()
	f.Add(b.Bytes())
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := unpack(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			if err.Error() == "" {
				t.Fatal("refused without a word")
			}
			return
		}
		sum := int64(len(a.document))
		for _, part := range a.visits {
			sum += int64(len(part))
		}
		for name, f := range a.files {
			part, err := contentOf(f, maxInArchive)
			if err != nil {
				t.Fatalf("%s was counted and cannot be read: %v", name, err)
			}
			sum += int64(len(part))
			if !strings.HasPrefix(name, zipVisits) && !strings.HasPrefix(name, zipFiles) {
				t.Fatalf("%q was taken", name)
			}
		}
		if a.document == nil || sum > mayUnpackTo(int64(len(data))) {
			t.Fatalf("%d bytes unpacked, document %v", sum, a.document != nil)
		}
	})
}

func TestAPhotoBelongsToAReading(t *testing.T) {
	h, at, visit := aVisit(t)
	page := get(t, h, visit+"/readings").Body.String()
	if !strings.Contains(page, `data-shoot="reading boiler supply"`) || !strings.Contains(page, `<option value="reading supply of House">`) {
		t.Fatal("no photograph can be taken of a reading")
	}
	if w := shoot(t, h, visit, "reading boiler supply", "", "IMG.JPG", aPhoto(t, 40)); w.Code != http.StatusSeeOther || !strings.HasSuffix(w.Header().Get("Location"), "#f-readings-boiler-supply") {
		t.Fatalf("photo: %d to %s", w.Code, w.Header().Get("Location"))
	}
	shoot(t, h, visit, "reading supply of Nobody", "", "IMG.JPG", aPhoto(t, 10)) // belongs to nothing, and is kept all the same
	document := get(t, h, visit+"/visit.yaml").Body.String()
	if !strings.Contains(document, "reading: boiler supply") || strings.Contains(document, "Nobody") {
		t.Errorf("the document says %s", document)
	}
	name, _, _ := strings.Cut(document[strings.LastIndex(document[:strings.Index(document, "reading: boiler supply")], "file: ")+6:], "\n")
	if !strings.Contains(get(t, h, visit+"/readings").Body.String(), "files/"+name) {
		t.Error("it is not shown under its reading")
	}
	if record := get(t, h, at+"/record").Body.String(); !strings.Contains(record, name) || !strings.Contains(record, "Boiler supply: 135\u00a0°F") {
		t.Error("the record does not show it with what was read")
	}
	if !strings.Contains(strings.Join(partsIn(t, get(t, h, at+"/everything.zip").Body.Bytes()), " "), name) {
		t.Error("it is not handed on")
	}
	form := formOn(get(t, h, visit+"/readings").Body.String())
	form.Set("do", "remove photos[1]")
	post(t, h, visit+"/readings", form)
	if strings.Contains(get(t, h, visit+"/readings").Body.String(), "files/"+name) {
		t.Error("a removed photograph is still shown")
	}
}

// TestTheHouseholdsSheetIsLargePrintForEveryExample: one page in every language, with the
// units and the paper of every country; smaller print than 14 points is refused by the press.
func TestTheHouseholdsSheetIsLargePrintForEveryExample(t *testing.T) {
	for _, e := range examples.List() {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		for _, language := range []string{"en", "fr", "es", "de"} {
			for _, system := range []units.System{units.US, units.SI} {
				h, err := NewHandover(j, nil, system, language)
				if err != nil {
					t.Fatal(err)
				}
				for _, paper := range []report.Paper{report.Letter, report.A4} {
					if err := pdf.Household(io.Discard, h.Household(), report.PDFOptions{Date: "2026-11-25", Paper: paper}); err != nil {
						t.Errorf("%s in %s: %v", e.Name, language, err)
					}
				}
			}
		}
	}
}

// TestAVisitAsksOnlyWhatTheHouseHas: a combi on one slab has no separator, no tank, no second
// circuit and no antifreeze; a house with a separator and a tank has these.
func TestAVisitAsksOnlyWhatTheHouseHas(t *testing.T) {
	h := handler(t)
	asked := func(example, section string) string {
		visit := post(t, h, begun(t, h, example)+"/visits", nil).Header().Get("Location")
		return get(t, h, visit+"/"+section).Body.String()
	}
	for _, c := range []struct {
		example, section string
		no, yes          []string
	}{
		{"combi-slab", "readings", []string{"readings.separator", "conditions.calling", "conditions.tank"}, []string{"readings.boiler.supply", "readings.boiler.pressure", "readings.circuits[0].pump_head"}},
		{"combi-slab", "hot-water", []string{"readings.tank_charge"}, []string{"step-outlet"}},
		{"combi-slab", "before-power", []string{"step-antifreeze", "step-mixing", "step-separator-sensor"}, []string{"make water", "add loops", "step-loops-Slab"}},
		{"ridge-house", "readings", []string{"readings.circuits[0].supply_shown"}, []string{"readings.separator.supply", "conditions.calling", "conditions.tank", "readings.circuits[1].supply_shown"}},
		{"ridge-house", "first-firing", nil, []string{"make combustion", "step-meter"}},
		{"ridge-house", "before-power", []string{"step-antifreeze"}, []string{"make water", "make pressure_test"}},
		{"ridge-house", "hot-water", nil, []string{"readings.tank_charge"}},
		{"short-survey", "before-power", []string{"add loops", "step-loops", "step-antifreeze"}, []string{"step-valves-Baseboards"}},
		{"short-survey", "readings", []string{"readings.separator", "pump_head", "filter_drop", "conditions.calling"}, []string{"conditions.tank", "readings.boiler.meter"}},
	} {
		page := asked(c.example, c.section)
		for _, no := range c.no {
			if strings.Contains(page, no) {
				t.Errorf("%s, %s asks for %s", c.example, c.section, no)
			}
		}
		for _, yes := range c.yes {
			if !strings.Contains(page, yes) {
				t.Errorf("%s, %s does not ask for %s", c.example, c.section, yes)
			}
		}
	}
}
