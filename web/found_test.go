package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// foundJob begins an example and answers the form about its control as it was found.
func foundJob(t *testing.T, h http.Handler, example string, curves []url.Values, more map[string]string) string {
	t.Helper()
	at := begun(t, h, example)
	page := at + "/survey/control"
	for range curves {
		form := formOn(get(t, h, page).Body.String())
		form.Set("do", "add as_found.curves")
		if w := post(t, h, page, form); w.Code >= 400 {
			t.Fatalf("no curve could be added: %d", w.Code)
		}
	}
	form := formOn(get(t, h, page).Body.String())
	for i, c := range curves {
		for field, v := range c {
			name := "f.as_found.curves[" + lines(i) + "]." + field
			if _, asked := form[name]; !asked {
				t.Errorf("the form does not ask for %s", name)
			}
			form.Set(name, v[0])
		}
	}
	for name, v := range more {
		if _, asked := form[name]; !asked {
			t.Errorf("the form does not ask for %s", name)
		}
		form.Set(name, v)
	}
	w := post(t, h, page, form)
	if body := w.Body.String(); w.Code >= 400 || strings.Contains(body, `class="fault"`) {
		t.Fatalf("the control as found was not taken: %d", w.Code)
	}
	return at
}

// TestTheControlAsFoundIsSurveyed: it stands in the document, is drawn beside the
// recommended curve and played through the year.
func TestTheControlAsFoundIsSurveyed(t *testing.T) {
	h := handler(t)
	at := foundJob(t, h, "ridge-house", []url.Values{
		{"circuit": {"House"}, "cold_outdoor": {"0"}, "cold_supply": {"180"}, "mild_outdoor": {"60"}, "mild_supply": {"110"}},
		{"circuit": {"Slab"}, "preset": {"floor"}},
	}, map[string]string{"f.as_found.cut_off": "68", "f.as_found.lower": "62", "f.as_found.lowered_from": "22:00", "f.as_found.lowered_to": "05:30"})
	document := get(t, h, at+"/job.yaml").Body.String()
	for _, want := range []string{"as_found:", "cold_supply: 180 °F", "preset: floor", "lowered_to: \"05:30\""} {
		if !strings.Contains(document, want) && !strings.Contains(document, strings.ReplaceAll(want, `"`, "")) {
			t.Errorf("the document lacks %q", want)
		}
	}
	curve := get(t, h, at+"/curve").Body.String()
	if row := comparedOn(curve, "Supply at"); len(row) != 3 || !strings.Contains(curve, "The curve of the survey.") {
		t.Errorf("the curve as found is not beside the others: %v", row)
	}
	played := post(t, h, at+"/year", url.Values{})
	if body := played.Body.String(); played.Code != http.StatusOK || !strings.Contains(body, ">As-found<") || !strings.Contains(body, ">Preset<") {
		t.Errorf("the year is not played with it: %d", played.Code)
	}
	over := post(t, h, at+"/year", url.Values{"found-1": {"100 °F"}})
	if over.Code != http.StatusOK || over.Body.String() == played.Body.String() {
		t.Errorf("what is typed for one circuit does not go before the survey: %d", over.Code)
	}
}
