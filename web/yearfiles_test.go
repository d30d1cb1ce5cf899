package web

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"curvewright/trial"
	"curvewright/units"
)

// keptYearJob keeps the example house and gives its address.
func keptYearJob(t *testing.T, h http.Handler) string {
	t.Helper()
	to := post(t, h, "/jobs", url.Values{"example": {"ridge-house"}}).Header().Get("Location")
	i := strings.Index(strings.TrimPrefix(to, "/jobs/"), "/")
	if i < 0 {
		t.Fatalf("the example was not kept: %q", to)
	}
	return to[:len("/jobs/")+i]
}

// TestYearFiles plays a kept job's year with weather that stays beside it, the control as
// it was found and a price, and fetches table and print of the same.
func TestYearFiles(t *testing.T) {
	h := handler(t)
	at := keptYearJob(t, h)
	post(t, h, "/preferences", url.Values{"price": {"0,12"}, "currency": {"$"}, "carbon": {"0.2"}, "units": {"us"}})
	form := url.Values{keepWeather: {"yes"}, "found-0": {"180 °F at 0 °F, 110 °F at 60 °F"}, "found-1": {"115 °F"}, foundCutOff: {"70 °F"}}
	w := postFiles(t, h, at+"/year/section", form, map[string][]byte{weatherFile: mildYear()})
	body := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %.600q", w.Code, body)
	}
	for _, want := range []string{"As-found", "Cost of the fuel", "Carbon dioxide", "year.csv?", "year.pdf?"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	link := regexp.MustCompile(`href="(/jobs/[^"]*year\.csv\?[^"]*)"`).FindStringSubmatch(body)
	if link == nil {
		t.Fatal("no table is offered")
	}
	table := get(t, h, link[1])
	if rows := strings.Count(table.Body.String(), "\n"); table.Code != http.StatusOK || rows != 8761 || !strings.HasPrefix(table.Body.String(), "time,") {
		t.Errorf("table: status %d, %d rows, %.80q", table.Code, rows, table.Body.String())
	}
	print := get(t, h, strings.Replace(link[1], "year.csv", "year.pdf", 1))
	if print.Code != http.StatusOK || !strings.HasPrefix(print.Body.String(), "%PDF") {
		t.Errorf("print: status %d, %.200q", print.Code, print.Body.String())
	}
	if page := get(t, h, at+"/year").Body.String(); !strings.Contains(page, `<select id="weather"`) || !strings.Contains(page, "weather-file.bin") {
		t.Error("the weather that was kept cannot be chosen")
	}
	// The same file once more is not kept twice.
	postFiles(t, h, at+"/year/section", url.Values{keepWeather: {"yes"}}, map[string][]byte{weatherFile: mildYear()})
	if page := get(t, h, at+"/year").Body.String(); strings.Count(page, "weather-file.bin") != 1 {
		t.Error("the same weather is kept twice")
	}
}

func TestYearAskedWrongly(t *testing.T) {
	h := handler(t)
	at := keptYearJob(t, h)
	for name, c := range map[string]struct {
		form url.Values
		want string
	}{
		"a curve that is none":  {url.Values{"found-0": {"warm"}, "found-1": {"115 °F"}}, "cannot be read"},
		"one circuit of two":    {url.Values{"found-0": {"160 °F"}}, "Say for every circuit"},
		"no temperature":        {url.Values{foundCutOff: {"spring"}}, "is no temperature"},
		"weather that has gone": {url.Values{keptWeather: {"nowhere"}}, "no longer lies beside this job"},
	} {
		w := post(t, h, at+"/year", c.form)
		if body := html.UnescapeString(w.Body.String()); w.Code != http.StatusUnprocessableEntity || !strings.Contains(body, c.want) {
			t.Errorf("%s: status %d, no %q", name, w.Code, c.want)
		}
	}
	if w := get(t, h, at+"/year.csv?"+url.Values{keptWeather: {"nowhere"}}.Encode()); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("a table on weather that has gone: status %d", w.Code)
	}
}

// TestFuelOfAReader: figures as they were typed, for a kilowatt-hour.
func TestFuelOfAReader(t *testing.T) {
	price, carbon := reader{preferences: preferences{Price: "0,12", Currency: "EUR", Carbon: "0.2"}}.fuel()
	if got := price.Text(units.KilowattHours(1000)); got != "120\u00a0EUR" {
		t.Errorf("a thousand cost %q", got)
	}
	if got := carbon.Text(units.KilowattHours(1000), units.SI); got != "200\u00a0kg" {
		t.Errorf("a thousand make %q", got)
	}
	if price, carbon := (reader{preferences: preferences{Price: "dear", Carbon: "-1"}}).fuel(); price != (trial.Price{}) || carbon != (trial.Carbon{}) {
		t.Errorf("no figures give %v, %v", price, carbon)
	}
}

// TestOneYearAtATime: a second one waits for the first.
func TestOneYearAtATime(t *testing.T) {
	s := &server{yearTurn: make(chan struct{}, 1)}
	end, ok := s.oneYear(t.Context())
	if !ok {
		t.Fatal("the first has to wait")
	}
	begun := make(chan bool)
	go func() {
		end, ok := s.oneYear(t.Context())
		if ok {
			end()
		}
		begun <- ok
	}()
	select {
	case <-begun:
		t.Fatal("the second did not wait")
	default:
	}
	end()
	if !<-begun {
		t.Error("the second was refused")
	}
}
