package web

import (
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"curvewright/attendance"
	"curvewright/units"
	"curvewright/visit"
	"curvewright/web/words"
)

// TestTheHeadingOfTheVisitFollowsItsReadings: nobody reads that all fits above a reading that
// is wrong.
func TestTheHeadingOfTheVisitFollowsItsReadings(t *testing.T) {
	ctx := t.Context()
	row := func(m visit.Measure, v visit.Verdict) visit.Judged {
		return visit.Judged{Reading: visit.Reading{Measure: m}, Measured: units.Celsius(40), Verdict: v}
	}
	for want, readings := range map[string][]visit.Judged{
		"visit.sound":    {row(visit.BoilerSupply, visit.Right)},
		"visit.doubtful": {row(visit.BoilerSupply, visit.Right), row(visit.BoilerReturn, visit.Doubtful)},
		"visit.wrong":    {row(visit.BoilerSupply, visit.Doubtful), row(visit.BoilerReturn, visit.Wrong)},
	} {
		a := &attended{Visit: &attendance.Visit{}, Judged: &visit.Judgement{Sound: true, Readings: readings}}
		if got := a.verdict(ctx); got != words.Say(ctx, want) {
			t.Errorf("%s: %q", want, got)
		}
		if again := a.remeasure(ctx); (want == "visit.sound") != (again == "") || again != "" && !strings.Contains(again, "boiler return") {
			t.Errorf("%s: %q", want, again)
		}
	}
}

// TestAnUnsignedVisitIsNotClosedAndSaysSoAtTheForm: what is missing stands beside the button,
// with what was typed; how much is answered as well, and it forbids nothing.
func TestAnUnsignedVisitIsNotClosedAndSaysSoAtTheForm(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	visit := post(t, h, at+"/visits", nil).Header().Get("Location")
	if page := get(t, h, visit+"/sign-off").Body.String(); !strings.Contains(page, "0 of ") || !strings.Contains(page, "steps answered. ") {
		t.Error("it is not said that nothing is answered")
	}
	w := post(t, h, visit+"/sign", url.Values{"as": {"installer"}, "seal": {"yes"}})
	page := html.UnescapeString(w.Body.String())
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, words.Say(t.Context(), "visit.unsigned")) || !strings.Contains(page, visit+"/sign") || !strings.Contains(page, visit+"/readings") {
		t.Fatalf("%d: not said at the form", w.Code)
	}
	// What the document itself lacks is said there too, the name kept.
	form := formOn(get(t, h, visit+"/sign-off").Body.String())
	form.Set("f.follow_up", "quuxly")
	post(t, h, visit+"/sign-off", form)
	w = post(t, h, visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"owner"}, "seal": {"yes"}})
	page = html.UnescapeString(w.Body.String())
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, words.Say(t.Context(), "visit.notclosed")) || !strings.Contains(page, `value="Orla Penhallow"`) || !strings.Contains(page, `value="owner" selected`) {
		t.Errorf("%d: what is wrong with the visit is not said at the form", w.Code)
	}
	form = formOn(get(t, h, visit+"/sign-off").Body.String())
	form.Set("f.follow_up", "")
	post(t, h, visit+"/sign-off", form)
	if w = post(t, h, visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"owner"}, "seal": {"yes"}}); w.Code != http.StatusSeeOther {
		t.Errorf("a signed visit with no step answered: %d", w.Code)
	}
}
