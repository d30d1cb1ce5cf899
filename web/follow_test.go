//go:build !js

package web

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// logged sends a log to a job and confirms its columns as they were recognised.
func logged(t *testing.T, h http.Handler, at, name string, data []byte) string {
	t.Helper()
	w := sendFile(t, h, at+"/logs", "log", name, data)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%s is not taken: %d %s", name, w.Code, w.Body)
	}
	log := w.Header().Get("Location")
	if w := post(t, h, log, formOn(get(t, h, log).Body.String())); w.Code != http.StatusSeeOther {
		t.Fatalf("%s is not confirmed: %d %s", name, w.Code, w.Body)
	}
	return log
}

// aHeatedLog is five weeks of a house that loses so many W/K, with a heat meter.
func aHeatedLog(loss float64, change func(hour int, out, supply, back, room, power *float64)) []byte {
	var b strings.Builder
	b.WriteString("time;outdoor °C;supply °C;return °C;room °C;heat W\n")
	at := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	for i := range 5 * 7 * 24 {
		day := float64(i / 24)
		out := -3 + 5*math.Sin(day*1.7) + 3*math.Sin(float64(i)/24*2*math.Pi-2)
		supply, room := 21+1.2*(21-out)+math.Sin(float64(i)*12.9898), 21+math.Sin(float64(i))*0.2
		back, power := supply-8, loss*(room-out)*(1+0.03*math.Sin(float64(i)*7.3))
		if change != nil {
			change(i, &out, &supply, &back, &room, &power)
		}
		fmt.Fprintf(&b, "%s;%.1f;%.1f;%.1f;%.1f;%.0f\n", at.Add(time.Duration(i)*time.Hour).Format("2006-01-02 15:04"), out, supply, back, room, power)
	}
	return []byte(b.String())
}

type sentSeries struct {
	First, Last, From, To int64
	Columns               []struct {
		Name, Unit string
		Warm       bool
	}
	Stamps []int64
	Values [][]*float64
}

func seriesOf(t *testing.T, h http.Handler, address string) sentSeries {
	t.Helper()
	w := get(t, h, address)
	var s sentSeries
	if w.Code != http.StatusOK {
		t.Fatalf("%s: %d %s", address, w.Code, w.Body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &s); err != nil {
		t.Fatalf("%s: %v", address, err)
	}
	return s
}

func TestAStretchOfALogIsSentThinned(t *testing.T) {
	h := handler(t)
	log := logged(t, h, begun(t, h, "short-survey"), "winter.csv", aHeatedLog(200, nil))
	all := seriesOf(t, h, log+"/series?most=100&units=si")
	if len(all.Stamps) != 200 || len(all.Columns) != 5 || len(all.Values) != 5 || all.Columns[0].Unit != "°C" || all.Columns[4].Unit != "kW" {
		t.Fatalf("%d points of %+v", len(all.Stamps), all.Columns)
	}
	day := seriesOf(t, h, fmt.Sprintf("%s/series?most=100&units=us&from=%d&to=%d", log, all.First+86400, all.First+2*86400))
	if len(day.Stamps) != 25 || day.Columns[0].Unit != "°F" || *day.Values[1][0] < 100 {
		t.Errorf("a day: %d points, %+v", len(day.Stamps), day.Columns)
	}
	for _, odd := range []string{"?from=x&to=y&most=z", "?from=9&to=3", "?most=-4", "?most=99999999"} {
		if s := seriesOf(t, h, log+"/series"+odd); len(s.Stamps) == 0 || len(s.Stamps) > 8000 {
			t.Errorf("%s: %d points", odd, len(s.Stamps))
		}
	}
	if w := get(t, h, strings.Replace(log, "/logs/", "/logs/none-", 1)+"/series"); w.Code != http.StatusNotFound {
		t.Errorf("a log that is not there: %d", w.Code)
	}
	other := begun(t, h, "ridge-house")
	if w := get(t, h, other+log[strings.Index(log, "/logs/"):]+"/series"); w.Code != http.StatusNotFound {
		t.Errorf("a log of another job: %d", w.Code)
	}
}

// Without the script a finding leads to a drawing of its stretch.
func TestAFindingLeadsToItsStretch(t *testing.T) {
	h := handler(t)
	log := logged(t, h, begun(t, h, "short-survey"), "winter.csv", aHeatedLog(200, func(i int, out, _, back, _, _ *float64) {
		if i >= 400 && i < 404 {
			*back = 2
		}
	}))
	page := get(t, h, log).Body.String()
	link := regexp.MustCompile(`<a class="stretch" href="(\?[^"]*)#series"`).FindStringSubmatch(page)
	if link == nil || !strings.Contains(page, "plot-marked") || !strings.Contains(page, "Pipe close to freezing") {
		t.Fatal("no stretch to be shown")
	}
	near := get(t, h, log+strings.ReplaceAll(link[1], "&amp;", "&")).Body.String()
	if !strings.Contains(near, "All of it") || strings.Count(near, "plot-marked") == 0 {
		t.Error("the stretch is not drawn")
	}
	for _, want := range []string{"plot-area", "at-morning", "series-0"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s on the page", want)
		}
	}
}

func TestRemarksAreKeptWithTheirDay(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	say := func(day, felt, outdoor string) {
		t.Helper()
		form := formOn(get(t, h, at+"/follow-up").Body.String())
		form.Set("felt-0", felt)
		form.Set("date-0", day)
		form.Set("outdoor-0", outdoor)
		if w := post(t, h, at+"/follow-up", form); w.Code != http.StatusSeeOther {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	}
	say("2026-01-12", "too cold", "0 °F")
	first := get(t, h, at+"/follow-up").Body.String()
	say("2026-02-03", "too cold", "5 °F")
	both := get(t, h, at+"/follow-up").Body.String()
	chance := regexp.MustCompile(`Slope too low</b> <span class="share">(\d+)`)
	a, b := chance.FindStringSubmatch(first), chance.FindStringSubmatch(both)
	if a == nil || b == nil {
		t.Fatal("no advice from what is kept")
	}
	if x, _ := strconv.Atoi(a[1]); true {
		if y, _ := strconv.Atoi(b[1]); y <= x {
			t.Errorf("a second remark of the same kind makes %d %% of %d %%", y, x)
		}
	}
	for _, want := range []string{"2026-01-12", "2026-02-03"} {
		if !strings.Contains(both, want) {
			t.Errorf("the remark of %s is not there", want)
		}
	}
	remove := regexp.MustCompile(`action="([^"]*/remarks/[^"]*/remove)"`).FindAllStringSubmatch(both, -1)
	if len(remove) != 2 {
		t.Fatalf("%d remarks can be removed", len(remove))
	}
	if w := post(t, h, remove[0][1], nil); w.Code != http.StatusSeeOther || strings.Contains(get(t, h, at+"/follow-up").Body.String(), "2026-02-03") {
		t.Errorf("a removed remark is still there: %d", w.Code)
	}
	elsewhere := strings.Replace(remove[1][1], at, begun(t, h, "short-survey"), 1)
	if w := post(t, h, elsewhere, nil); w.Code != http.StatusNotFound {
		t.Errorf("a remark was removed from another job: %d", w.Code)
	}
	form := formOn(both)
	form.Set("felt-0", "too cold")
	form.Set("date-0", "soon")
	if w := post(t, h, at+"/follow-up", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "soon") {
		t.Errorf("a day that is none: %d", w.Code)
	}
}

func TestTheSurveyLearnsFromALog(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	log := logged(t, h, at, "winter.csv", aHeatedLog(260, nil))
	before := get(t, h, at+"/settings").Body.String()
	if w := post(t, h, log+"/learn", nil); w.Code != http.StatusSeeOther {
		t.Fatalf("not learned: %d %s", w.Code, w.Body)
	}
	document := get(t, h, at+"/job.yaml").Body.String()
	if !strings.Contains(document, "learned:") || !strings.Contains(document, "2026-02-08") || !strings.Contains(document, "loss:") {
		t.Errorf("the job says\n%s", document)
	}
	if get(t, h, at+"/settings").Body.String() == before {
		t.Error("the sheet is as before")
	}
	page := get(t, h, log).Body.String()
	if !strings.Contains(page, "The survey has learned from this log") || strings.Contains(page, "/learn\"") {
		t.Error("it can be learned twice")
	}
	if !strings.Contains(get(t, h, at+"/history").Body.String(), "learned from winter.csv") {
		t.Error("the history does not tell")
	}
	if post(t, h, at+"/undo", nil); strings.Contains(get(t, h, at+"/job.yaml").Body.String(), "learned:") {
		t.Error("it cannot be undone")
	}
	// A visit that is prepared from the log knows what was corrected.
	w := post(t, h, at+"/visits", url.Values{"log": {log[strings.LastIndex(log, "/")+1:]}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("no visit: %d %s", w.Code, w.Body)
	}
	if visit := get(t, h, w.Header().Get("Location")+"/visit.yaml").Body.String(); !strings.Contains(visit, "From the log winter.csv") || !strings.Contains(visit, "return visit") {
		t.Errorf("the visit says\n%s", visit)
	}
}

// sheetOf is a spreadsheet of one sheet.
func sheetOf(t *testing.T, sheet string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range map[string]string{
		"[Content_Types].xml":        `<Types/>`,
		"xl/workbook.xml":            `<workbook xmlns:r="r"><sheets><sheet name="log" sheetId="1" r:id="a"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="a" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   sheet,
	} {
		f, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprint(f, text)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Logs that cannot be what they are sent as: named on the page, refused or bounded, and
// nothing that is kept is touched.
func TestBadLogsOnThePage(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	good := logged(t, h, at, "good.csv", aHeatedLog(200, nil))
	document, page := get(t, h, at+"/job.yaml").Body.String(), get(t, h, good).Body.String()

	for name, c := range map[string]struct {
		data []byte
		want []string
	}{
		"another house":  {aHeatedLog(1900, nil), []string{"Another house"}},
		"a year to come": {bytes.ReplaceAll(aHeatedLog(200, nil), []byte("2026-"), []byte("2036-")), []string{"still to come", "future"}},
		"°F read as °C": {aHeatedLog(200, func(_ int, out, supply, back, room, _ *float64) {
			for _, v := range []*float64{out, supply, back, room} {
				*v = *v*1.8 + 32
			}
		}), []string{"°F"}},
		"outdoor and room exchanged": {aHeatedLog(200, func(_ int, out, _, _, room, _ *float64) { *out, *room = *room, *out }), []string{"exchanged", "swapped"}},
		"a cell that is a formula":   {bytes.Replace(aHeatedLog(200, nil), []byte(";heat W\n"), []byte(";heat W;note\n"), 1), nil},
	} {
		if name == "a cell that is a formula" {
			c.data = bytes.ReplaceAll(c.data, []byte("\n2026"), []byte(";=HYPERLINK(\"http://x\";\"<script>alert(1)</script>\")\n2026"))
		}
		w := sendFile(t, h, at+"/logs", "log", name+".csv", c.data)
		if w.Code != http.StatusSeeOther {
			if name != "a cell that is a formula" {
				t.Errorf("%s: %d %s", name, w.Code, w.Body)
			}
			continue
		}
		log := w.Header().Get("Location")
		preview := get(t, h, log).Body.String()
		post(t, h, log, formOn(preview))
		said := preview + get(t, h, log).Body.String()
		found := len(c.want) == 0
		for _, want := range c.want {
			found = found || strings.Contains(said, want)
		}
		if !found {
			t.Errorf("%s: the page says none of %q", name, c.want)
		}
		if strings.Contains(said, "<script>alert") {
			t.Errorf("%s: the cell became part of the page", name)
		}
	}

	bomb := sheetOf(t, "<worksheet><sheetData>"+strings.Repeat(" ", 80<<20)+"</sheetData></worksheet>")
	if len(bomb) > 1<<20 {
		t.Fatal("the bomb is not packed")
	}
	for name, c := range map[string]struct {
		file string
		data []byte
		want string
	}{
		"a bomb":    {"bomb.xlsx", bomb, "cannot be used"},
		"too large": {"large.csv", bytes.Repeat([]byte("2026-01-05 00:00;1;2;3\n"), mostLog/23+10), "96 MB"},
		"empty":     {"empty.xlsx", sheetOf(t, "<worksheet/>"), "cannot be used"},
	} {
		began := time.Now()
		w := sendFile(t, h, at+"/logs", "log", c.file, c.data)
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: %d", name, w.Code)
		}
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("%s: refused after %v", name, took)
		}
	}
	if get(t, h, at+"/job.yaml").Body.String() != document || get(t, h, good).Body.String() != page {
		t.Error("what was kept before has changed")
	}
}

// A year by the minute is taken, judged and looked into while somebody waits.
func TestAYearOfMinutesOnThePage(t *testing.T) {
	if testing.Short() {
		t.Skip("a year by the minute")
	}
	h := handler(t)
	at := begun(t, h, "short-survey")
	var b bytes.Buffer
	b.WriteString("time;outdoor °C;supply °C;return °C;room A °C;room B °C;burner 0/1;heat meter kWh;tank °C\n")
	begin := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	meter := 1000.0
	for i := range 525_600 {
		x := float64(i) / 1440
		out := 8 - 12*math.Cos(x/365*2*math.Pi) + 4*math.Sin(x*2*math.Pi-2) + 3*math.Sin(x*1.3)
		supply := 21 + 1.2*math.Max(0, 20-out)
		meter += 0.2 * math.Max(0, 17-out) / 60
		fmt.Fprintf(&b, "%s;%.1f;%.1f;%.1f;%.1f;%.1f;%d;%.1f;%.1f\n", begin.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04"),
			out, supply, supply-6, 20.5+0.3*math.Sin(x*6), 21+0.2*math.Sin(x*5), i/7%2, meter, 50+5*math.Sin(x*9))
	}
	began := time.Now()
	log := logged(t, h, at, "year.csv", b.Bytes())
	taken := time.Since(began)
	began = time.Now()
	first := get(t, h, log)
	judged := time.Since(began)
	began = time.Now()
	second := get(t, h, log)
	again := time.Since(began)
	began = time.Now()
	s := seriesOf(t, h, log+"/series?most=1400&units=si")
	drawn := time.Since(began)
	t.Logf("%d MB taken in %v, judged in %v, again in %v, a stretch of %d points in %v", b.Len()>>20, taken, judged, again, len(s.Stamps), drawn)
	if !strings.Contains(first.Body.String(), "estimates-title") || first.Body.String() != second.Body.String() {
		t.Error("the page is not judged, or not the same twice")
	}
	if again > 3*time.Second || drawn > 2*time.Second {
		t.Errorf("slow: judged in %v, again in %v, a stretch in %v", judged, again, drawn)
	}
}

// Whoever goes away does not keep the server at work, and what is remembered is bounded.
func TestReadLogsAreBounded(t *testing.T) {
	var q readLogs
	for i := range 10 {
		q.keep(&readLog{id: strconv.Itoa(i)})
	}
	if len(q.list) != mostRead || q.find("9", 0) == nil || q.find("1", 0) != nil {
		t.Errorf("%d logs are kept", len(q.list))
	}
	h := handler(t)
	log := logged(t, h, begun(t, h, "short-survey"), "winter.csv", aHeatedLog(200, nil))
	r := httptest.NewRequest(http.MethodGet, log, nil)
	ctx, end := context.WithCancel(r.Context())
	end()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r.WithContext(ctx))
	if strings.Contains(w.Body.String(), "estimates-title") {
		t.Error("judged for nobody")
	}
}

// The remark's figures stand beside their units, as the reader has them.
func TestARemarkShowsItsUnits(t *testing.T) {
	h := handler(t)
	field := regexp.MustCompile(`name="by-0"[^>]*>\s*<span class="unit">([^<]*)</span>`)
	for house, want := range map[string]string{"ridge-house": "°F", "bills-house": "K"} {
		page := get(t, h, begun(t, h, house)+"/follow-up").Body.String()
		if got := field.FindStringSubmatch(page); got == nil || got[1] != want {
			t.Errorf("%s: %v, want %s", house, got, want)
		}
	}
}
