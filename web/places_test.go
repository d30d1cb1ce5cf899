package web

import (
	"crypto/rand"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"curvewright/examples"
	"curvewright/store"
)

func memory() store.Store {
	return store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})
}

// begun keeps an example and gives its address.
func begun(t testing.TB, h http.Handler, example string) string {
	t.Helper()
	w := post(t, h, "/jobs", url.Values{"example": {example}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%s was not begun: %d %s", example, w.Code, w.Body)
	}
	return strings.TrimSuffix(w.Header().Get("Location"), "/survey")
}

func TestEveryPlaceOfEveryExampleIsShown(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		for _, place := range jobPlaces {
			w := get(t, h, at+"/"+place)
			if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), e.Title) {
				t.Errorf("%s %s: %d", e.Name, place, w.Code)
			}
		}
		for _, part := range surveyParts {
			w := get(t, h, at+"/survey/"+part.ID)
			if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "data-supply") {
				t.Errorf("%s %s: %d, or no results beside it", e.Name, part.ID, w.Code)
			}
		}
	}
	if w := get(t, h, "/jobs/nobody/survey"); w.Code != http.StatusNotFound {
		t.Errorf("a job that is not there: %d", w.Code)
	}
}

// Sending a page of the survey back as it came changes nothing.
func TestUntouchedSurveySavesNothing(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		for _, part := range surveyParts {
			form := formOn(get(t, h, at+"/survey/"+part.ID).Body.String())
			if w := post(t, h, at+"/survey/"+part.ID, form); w.Code != http.StatusSeeOther {
				t.Errorf("%s %s: %d", e.Name, part.ID, w.Code)
			}
		}
		if past := get(t, h, at+"/history").Body.String(); strings.Count(past, "<li><div>") != 1 {
			t.Errorf("%s: an untouched form was saved as a change", e.Name)
		}
	}
}

func TestAnswersAreSavedTakenBackAndBroughtAgain(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	page := func() url.Values { return formOn(get(t, h, at+"/survey/house").Body.String()) }
	form := page()
	form.Set("f.site.design_outdoor", "-20")
	form.Set("f.house.floor_area", "240 m2")
	if w := post(t, h, at+"/survey/house", form); w.Code != http.StatusSeeOther {
		t.Fatalf("not saved: %d %s", w.Code, w.Body)
	}
	if got := page().Get("f.site.design_outdoor"); got != "-20" {
		t.Errorf("design outdoor temperature is %q after saving -20", got)
	}
	post(t, h, at+"/undo", nil)
	if got := page().Get("f.site.design_outdoor"); got != "-6" {
		t.Errorf("design outdoor temperature is %q after taking it back", got)
	}
	post(t, h, at+"/redo", nil)
	if got := page().Get("f.site.design_outdoor"); got != "-20" {
		t.Errorf("design outdoor temperature is %q after bringing it again", got)
	}
}

// Two pages of one job, opened at the same time: different answers are both kept, and of
// two answers to one question the later waits for a decision.
func TestTwoPagesOfOneJobKeepBothAnswers(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	address := at + "/survey/house"
	one, two := formOn(get(t, h, address).Body.String()), formOn(get(t, h, address).Body.String())
	one.Set("f.site.design_outdoor", "-20")
	two.Set("f.house.setpoint", "68")
	post(t, h, address, one)
	post(t, h, address, two)
	now := formOn(get(t, h, address).Body.String())
	if now.Get("f.site.design_outdoor") != "-20" || now.Get("f.house.setpoint") != "68" {
		t.Errorf("one answer was lost: %q, %q", now.Get("f.site.design_outdoor"), now.Get("f.house.setpoint"))
	}
	two.Set("f.house.setpoint", "68")
	two.Set("f.site.design_outdoor", "-10")
	w := post(t, h, address, two)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Somebody changed this") {
		t.Errorf("two different answers to one question: %d, no word of it", w.Code)
	}
	if got := formOn(get(t, h, address).Body.String()).Get("f.site.design_outdoor"); got != "-20" {
		t.Errorf("the first answer was overwritten with %q", got)
	}
}

func TestFaultyAnswersStayAndTheRestIsSaved(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	address := at + "/survey/house"
	form := formOn(get(t, h, address).Body.String())
	form.Set("f.site.design_outdoor", "rather cold")
	form.Set("f.house.setpoint", "68")
	w := post(t, h, address, form)
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("status %d", w.Code)
	}
	there := formOn(w.Body.String())
	if there.Get("f.site.design_outdoor") != "rather cold" {
		t.Errorf("what was typed is gone: %q", there.Get("f.site.design_outdoor"))
	}
	now := formOn(get(t, h, address).Body.String())
	if now.Get("f.house.setpoint") != "68" || now.Get("f.site.design_outdoor") != "-6" {
		t.Errorf("saved: %q and %q", now.Get("f.house.setpoint"), now.Get("f.site.design_outdoor"))
	}
}

func TestTheShortWayMakesAJobWithSettings(t *testing.T) {
	h := handler(t)
	for _, heats := range emitterWords {
		for _, sh := range shapes {
			form := formOn(get(t, h, "/new?units=si").Body.String())
			form.Set("units", "si")
			form.Set("f.site.design_outdoor", "-18")
			form.Set("f.house.floor_area", "160")
			form.Set("f.house.era", "1980-1999")
			form.Set("f.heats", heats)
			form.Set("f.shape", sh.id)
			w := post(t, h, "/jobs", form)
			if w.Code != http.StatusSeeOther {
				t.Fatalf("%s, %s: %d %s", heats, sh.id, w.Code, w.Body)
			}
			page := get(t, h, strings.TrimSuffix(w.Header().Get("Location"), "survey")+"settings").Body.String()
			if !strings.Contains(page, "data-supply") {
				t.Errorf("%s, %s: no settings", heats, sh.id)
			}
		}
	}
	form := formOn(get(t, h, "/new").Body.String())
	if w := post(t, h, "/jobs", form); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("an empty short form: %d", w.Code)
	}
}

func TestJobsAreCopiedPutAwayAndErased(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	id := strings.TrimPrefix(at, "/jobs/")
	post(t, h, at+"/duplicate", nil)
	list := func(query string) string { return get(t, h, "/"+query).Body.String() }
	if n := strings.Count(list(""), `class="card"`); n != 2 {
		t.Errorf("%d jobs after copying one", n)
	}
	post(t, h, at+"/archive", nil)
	if strings.Contains(list(""), id) || !strings.Contains(list("?state=archived"), id) {
		t.Error("archiving did not put the job into the archive")
	}
	if post(t, h, at+"/erase", nil); get(t, h, at+"/survey").Code != http.StatusOK {
		t.Error("a job was erased that did not lie in the trash")
	}
	post(t, h, at+"/trash", nil)
	post(t, h, at+"/erase", nil)
	if get(t, h, at+"/survey").Code != http.StatusNotFound {
		t.Error("an erased job is still there")
	}
	if n := strings.Count(list("?text=quillon"), `class="card"`); n != 1 {
		t.Errorf("the search finds %d", n)
	}
}

func TestLanguageAndUnitsFollowThePreferences(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	post(t, h, "/preferences", url.Values{"language": {"de"}, "units": {"si"}})
	page := get(t, h, at+"/survey/house").Body.String()
	for _, want := range []string{`lang="de"`, "Aufnahme", "°C"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q on the page", want)
		}
	}
	form := formOn(page)
	form.Set("f.house.setpoint", "20,5")
	post(t, h, at+"/survey/house", form)
	if got := formOn(get(t, h, at+"/survey/house").Body.String()).Get("f.house.setpoint"); got != "20,5" {
		t.Errorf("20,5 came back as %q", got)
	}
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.Header.Set("Accept-Language", "fr-CA, en;q=0.8")
	w := httptest.NewRecorder()
	handler(t).ServeHTTP(w, r)
	if !strings.Contains(w.Body.String(), "Chantiers") {
		t.Error("the browser's language is not followed")
	}
}
