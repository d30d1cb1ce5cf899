package web

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"curvewright/store"
)

// FuzzSurvey sends random forms to every page of the survey: none may break the server,
// and whatever happens the job can still be opened.
func FuzzSurvey(f *testing.F) {
	h := handler(f)
	at := begun(f, h, "short-survey") // the quickest to work out
	for _, seed := range []struct{ part, form string }{
		{"house", "f.site.design_outdoor=-20&w.site.design_outdoor=-6&units=us"},
		{"rooms", "f.rooms[11].name=Attic&e.rooms[11]=floor&s.rooms[11]=20&units=si"},
		{"rooms", "do=paste&paste=a%09b%09c%0A1;2;3&paste-at=0,0"},
		{"rooms", "do=share"},
		{"circuits", "do=add+circuits"},
		{"circuits", "do=remove+circuits[0]"},
		{"control", "do=shape+table"},
		{"boiler-room", "do=make+rooms[0].emitters[0].floor&k.boiler.output=measured&x.boiler.output="},
		{"short", "f.house.floor_area=1e999+m2&w.house.floor_area=&units=xx"},
	} {
		f.Add(seed.part, seed.form)
	}
	f.Fuzz(func(t *testing.T, part, form string) {
		values, err := url.ParseQuery(form)
		if err != nil || strings.ContainsAny(part, "/?#%\x00 ") {
			return
		}
		address := (&url.URL{Path: at + "/survey/" + part}).String()
		r, err := http.NewRequest(http.MethodPost, address+"?live=try", strings.NewReader(values.Encode()))
		if err != nil {
			return
		}
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code >= http.StatusInternalServerError {
			t.Fatalf("status %d: %s", w.Code, w.Body)
		}
		post(t, h, address, values)
		if w := get(t, h, at+"/survey/rooms"); w.Code != http.StatusOK {
			t.Fatalf("the job cannot be opened any more: %d", w.Code)
		}
		for range 3 { // so that the next form finds a house
			post(t, h, at+"/undo", nil)
		}
	})
}

// failing is a store whose saves fail in one way.
type failing struct {
	store.Store
	how error
}

func (f *failing) Save(ctx context.Context, id string, base int, c store.Change) (store.Entry, error) {
	if f.how != nil {
		return store.Entry{}, f.how
	}
	return f.Store.Save(ctx, id, base, c)
}

func (f *failing) Create(ctx context.Context, e store.Entry, document []byte, by, what string) (store.Entry, error) {
	if f.how != nil {
		return store.Entry{}, f.how
	}
	return f.Store.Create(ctx, e, document, by, what)
}

// A full disk, a locked file, a file that may not be written: a sentence each, and nothing
// is lost.
func TestASaveThatFailsSaysWhyAndLosesNothing(t *testing.T) {
	s := &failing{Store: memory()}
	h, err := New(Config{Store: s})
	if err != nil {
		t.Fatal(err)
	}
	at := begun(t, h, "short-survey")
	form := formOn(get(t, h, at+"/survey/house").Body.String())
	form.Set("f.house.setpoint", "66")
	for _, how := range []error{store.Full, store.Busy, store.ReadOnly, errors.New("something else went wrong")} {
		s.how = how
		for _, address := range []string{at + "/survey/house", at + "/survey/house?live=save", at + "/undo", "/preferences"} {
			if strings.HasSuffix(address, "/undo") {
				continue // there is nothing to take back yet
			}
			w := post(t, h, address, form)
			if w.Code < 500 || !strings.Contains(w.Body.String(), strings.TrimSuffix(capital(how.Error()), ".")[:20]) {
				t.Errorf("%v, %s: status %d, and the page does not say it", how, address, w.Code)
			}
		}
		s.how = nil
		if got := formOn(get(t, h, at+"/survey/house").Body.String()).Get("f.house.setpoint"); got != "70" {
			t.Errorf("%v: the set-point is %q", how, got)
		}
	}
	if w := post(t, h, at+"/survey/house", form); w.Code != http.StatusSeeOther {
		t.Errorf("it cannot be saved afterwards: %d", w.Code)
	}
}
