package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"curvewright/examples"
)

// figuresOn are the fields of a tried curve as a page has them.
func figuresOn(page string) url.Values {
	form := formOn(page)
	for name := range form {
		if !strings.HasPrefix(name, "c") && !strings.HasPrefix(name, "f") || !strings.Contains(name, ".") {
			delete(form, name)
		}
	}
	return form
}

var rowOf = regexp.MustCompile(`(?s)<tr><th scope="row">([^<]*)</th>(.*?)</tr>`)

// compared are the figures of a row of the first comparison on a page.
func comparedOn(page, row string) []string {
	for _, m := range rowOf.FindAllStringSubmatch(page, -1) {
		if strings.HasPrefix(html.UnescapeString(m[1]), row) {
			var list []string
			for _, b := range regexp.MustCompile(`<b>([^<]*)</b>`).FindAllStringSubmatch(m[2], -1) {
				list = append(list, html.UnescapeString(b[1]))
			}
			return list
		}
	}
	return nil
}

func TestACurveIsTriedWithAndWithoutScript(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		before := get(t, h, at+"/curve").Body.String()
		form := figuresOn(before)
		if row := comparedOn(before, "Supply at"); len(row) != 2 || row[0] != row[1] {
			t.Errorf("%s: before anything is tried, tried and recommended are %v", e.Name, row)
		}
		field, lower := "c0.cold-supply", "100"
		switch {
		case form.Get("c0.slope") != "":
			field, lower = "c0.slope", "0.1"
		case form.Get("c0.point-1-supply") != "":
			field, lower = "c0.point-1-supply", "40" // °C
			form.Set("c0.point-2-supply", lower)
		}
		form.Set(field, lower)
		plain := get(t, h, at+"/curve?"+form.Encode()).Body.String()
		scripted := post(t, h, at+"/curve/try", form)
		for how, page := range map[string]string{"by form": plain, "by script": scripted.Body.String()} {
			if row := comparedOn(page, "Supply at"); len(row) != 2 || row[0] == row[1] {
				t.Errorf("%s %s: with %s at %s the supply is %v", e.Name, how, field, lower, row)
			}
			if row := comparedOn(page, "Short on"); len(row) != 2 || row[0] == "none" {
				t.Errorf("%s %s: with %s at %s nobody is short: %v", e.Name, how, field, lower, row)
			}
		}
		if strings.Contains(scripted.Body.String(), "<html") || !strings.Contains(scripted.Body.String(), `id="curve-work"`) {
			t.Errorf("%s: the script is to get its part of the page alone", e.Name)
		}
		if past := get(t, h, at+"/history").Body.String(); strings.Count(past, "<li><div>") != 1 {
			t.Errorf("%s: a trial was saved", e.Name)
		}
	}
}

func TestTheCurveAsFoundStandsBesideTheOthers(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	form := figuresOn(get(t, h, at+"/curve").Body.String())
	form.Set("f0.cold-supply", "200")
	part := get(t, h, at+"/curve?"+form.Encode()).Body.String()
	if row := comparedOn(part, "Supply at"); len(row) != 2 || !strings.Contains(part, "Fill in all figures") {
		t.Errorf("a curve of which only one figure is known is compared: %v", row)
	}
	if figuresOn(part).Get("f0.cold-supply") != "200" {
		t.Error("what was typed is gone")
	}
	form.Set("f0.cold-outdoor", "-10")
	form.Set("f0.mild-outdoor", "70")
	form.Set("f0.mild-supply", "110")
	form.Set("f0.exponent", "1")
	whole := get(t, h, at+"/curve?"+form.Encode()).Body.String()
	if row := comparedOn(whole, "Supply at"); len(row) != 3 || row[2] <= row[1] {
		t.Errorf("the curve as found is not compared: %v", row)
	}
	if !strings.Contains(whole, "As found it runs beyond") {
		t.Error("the curve as found runs beyond a limit, and nobody says so")
	}
}

func TestFiguresOfACurveThatCannotBeReadAreTold(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	good := figuresOn(get(t, h, at+"/curve").Body.String())
	for _, c := range []struct{ field, typed, want string }{
		{"c0.cold-supply", "warm", "A number is needed here"},
		{"c0.cold-supply", "1e99", "A number is needed here"},
		{"c0.mild-supply", "NaN", "A number is needed here"},
		{"c0.cold-supply", "5000000", "A number is needed here"},
		{"c0.cold-supply", "<script>", "A number is needed here"},
	} {
		form := url.Values{}
		for name, v := range good {
			form[name] = slices.Clone(v)
		}
		form.Set(c.field, c.typed)
		page := post(t, h, at+"/curve/try", form).Body.String()
		if !strings.Contains(page, c.want) || figuresOn(page).Get(c.field) != c.typed {
			t.Errorf("%s as %q: not told, or what was typed is gone", c.field, c.typed)
		}
		if row := comparedOn(page, "Supply at"); len(row) != 2 {
			t.Errorf("%s as %q: there is no result any more", c.field, c.typed)
		}
	}
	for typed, want := range map[string]string{"500": "190", "−500": "90", "140,4": "140"} {
		form := url.Values{"c0.cold-supply": {typed}}
		if got := figuresOn(post(t, h, at+"/curve/try", form).Body.String()).Get("c0.cold-supply"); got != want {
			t.Errorf("%s becomes %s, the control holds %s", typed, got, want)
		}
	}
	if w := get(t, h, "/jobs/nobody/curve"); w.Code != http.StatusNotFound {
		t.Errorf("a job that is not there: %d", w.Code)
	}
	if w := post(t, h, "/jobs/nobody/curve/try", nil); w.Code != http.StatusNotFound {
		t.Errorf("a try of a job that is not there: %d", w.Code)
	}
}

// A dragged point needs its answer before the eye misses it.
func TestATriedCurveIsAnsweredAtOnce(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	best := time.Hour
	for range 5 {
		begin := time.Now()
		post(t, h, at+"/curve/try", url.Values{"c0.cold-supply": {"150"}})
		best = min(best, time.Since(begin))
	}
	if best > 100*time.Millisecond {
		t.Errorf("an answer takes %v, at most 100 ms are wanted", best)
	}
}

var (
	whyLink = regexp.MustCompile(`<a class="asks-why"[^>]*href="([^"]*)"`)
	anyID   = regexp.MustCompile(` id="([^"]*)"`)
)

// Every figure that can be tapped leads to a working on the page.
func TestFiguresLeadToTheirWorkings(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		for _, address := range []string{"/try?example=" + e.Name, at + "/settings", at + "/survey/house"} {
			page := get(t, h, address).Body.String()
			ids := map[string]int{}
			for _, m := range anyID.FindAllStringSubmatch(page, -1) {
				if ids[m[1]]++; ids[m[1]] == 2 {
					t.Errorf("%s: %s stands there twice", address, m[1])
				}
			}
			links := whyLink.FindAllStringSubmatch(page, -1)
			if len(links) < 4 {
				t.Errorf("%s: only %d figures can be asked", address, len(links))
			}
			for _, m := range links {
				elsewhere, id, _ := strings.Cut(m[1], "#")
				where := ids
				if elsewhere != "" {
					where = map[string]int{}
					for _, m := range anyID.FindAllStringSubmatch(get(t, h, elsewhere).Body.String(), -1) {
						where[m[1]]++
					}
				}
				if where[id] == 0 {
					t.Errorf("%s: a figure leads to %s, which is not there", address, m[1])
				}
			}
			if address == at+"/settings" && (!strings.Contains(page, "<math") || strings.Count(page, `class="formula filled"`) < 10) {
				t.Errorf("%s: workings without mathematics, or without figures in it", address)
			}
		}
	}
}

func TestTheCurveIsSaidInEveryLanguage(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	for tag, want := range map[string]string{"fr": "Point froid", "es": "Punto frío", "de": "Kalter Punkt"} {
		r := httptest.NewRequest(http.MethodGet, at+"/curve?f0.cold-supply=100", nil)
		r.Header.Set("Accept-Language", tag)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if page := w.Body.String(); !strings.Contains(page, want) || strings.Contains(page, "curve.") || strings.Contains(page, "%!") {
			t.Errorf("%s: the page does not say %q, or says the key of a message", tag, want)
		}
	}
}

func FuzzTryCurve(f *testing.F) {
	h := handler(f)
	var at []string
	for _, e := range examples.List() {
		at = append(at, begun(f, h, e.Name))
	}
	f.Add(0, "c0.cold-supply", "140", "f0.cold-supply", "200")
	f.Add(1, "c0.slope", "-1", "c0.shift", "1e300")
	f.Add(3, "c1.mild-outdoor", "-60", "c1.cold-outdoor", "90")
	f.Fuzz(func(t *testing.T, which int, name, value, other, more string) {
		form := url.Values{name: {value}, other: {more}}
		w := post(t, h, at[((which%len(at))+len(at))%len(at)]+"/curve/try", form)
		if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `class="judged"`) {
			t.Fatalf("%v: %d %.300s", form, w.Code, w.Body.String())
		}
		if strings.Contains(w.Body.String(), "NaN") && !strings.Contains(value+more, "NaN") {
			t.Fatalf("%v: a figure that is none", form)
		}
	})
}
