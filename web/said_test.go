package web

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"curvewright/web/words"
)

func TestTheWritingInADrawingIsSaid(t *testing.T) {
	svg := `<svg><title id="a">Heating curve of Kitchen &amp; hall</title><text x="1">set supply</text><text>` + "limit 75\u00a0°C" + `</text><path d="M0 0"/><text>T:` + "\u00a0" + `temperature sensor.</text></svg>`
	want := `<svg><title id="a">Heizkurve von Kitchen &amp; hall</title><text x="1">Vorlauf-Soll</text><text>` + "Grenze 75\u00a0°C" + `</text><path d="M0 0"/><text>T: Temperaturfühler.</text></svg>`
	if got := inLanguage(words.German, svg); got != want {
		t.Errorf("the drawing became\n%s, not\n%s", got, want)
	}
	for _, broken := range []string{"", "<text", "<text>", "<text></title>", "<svg><text>needed"} {
		if got := inLanguage(words.French, broken); got != broken {
			t.Errorf("%q became %q", broken, got)
		}
		if got := inLanguage(words.English, svg); got != svg {
			t.Errorf("English became %q", got)
		}
	}
}

func TestTheHistoryIsToldInTheReadersLanguage(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	form := formOn(get(t, h, at+"/survey/house").Body.String())
	form.Set("f.site.design_outdoor", "-20")
	if w := post(t, h, at+"/survey/house", form); w.Code != http.StatusSeeOther {
		t.Fatalf("not saved: %d", w.Code)
	}
	for l, want := range map[words.Language]string{
		words.German: "Norm-Außentemperatur ", words.English: "outdoor",
	} {
		page := pageIn(h, at+"/history", l)
		if !strings.Contains(strings.ToLower(page), strings.ToLower(want)) || !strings.Contains(page, l.Say("history.begun")) {
			t.Errorf("the history in %s does not say %q", l.Name(), want)
		}
	}
}

func TestAFieldWithThousandsIsReadAsItIsShown(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	for _, typed := range []string{"125 000", "125\u202f000", "125\u00a0000"} {
		form := formOn(pageIn(h, at+"/survey/boiler-room", words.German))
		form.Set("f.boiler.output", typed)
		r := httptest.NewRequest(http.MethodPost, at+"/survey/boiler-room", strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Accept-Language", "de")
		w := httptest.NewRecorder()
		if h.ServeHTTP(w, r); w.Code != http.StatusSeeOther {
			t.Fatalf("%q was not taken: %d", typed, w.Code)
		}
		if got := formOn(pageIn(h, at+"/survey/boiler-room", words.German)).Get("f.boiler.output"); strings.NewReplacer("\u202f", "").Replace(got) != "125000" {
			t.Errorf("%q is shown as %q", typed, got)
		}
	}
}
