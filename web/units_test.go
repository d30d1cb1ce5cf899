package web

import (
	"context"
	"encoding/json"
	"html"
	"maps"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

func TestEverySetOfUnitsIsMadeOfUnitsThatCanBeChosen(t *testing.T) {
	for _, set := range unitSets {
		for k, unit := range set.apart {
			if got := set.system().Chosen(k); got != unit {
				t.Errorf("%s wants %s in %q and gets %q", set.word, k.Word(), unit, got)
			}
		}
	}
	canada, _ := setNamed("ca")
	for _, c := range []struct {
		of   units.Quantity
		want string
	}{
		{units.Celsius(21), "21.0 °C"}, {units.SquareFeet(1000), "92.9 m²"}, {units.Inches(0.5), "0.5 in"},
		{units.GallonsPerMinute(3), "3 gpm"}, {units.PSI(18), "18.0 psi"}, {units.BtuPerHour(80000), "80,000 Btu/h"},
	} {
		if got := spaced(c.of.Text(canada.system())); got != c.want {
			t.Errorf("in Canada %q, want %q", got, c.want)
		}
	}
}

// Preferences that an earlier version stored hold as before, and what is not known of
// later ones is left out and told, never a reason to lose the rest.
func TestStoredPreferencesStayReadable(t *testing.T) {
	flow, _ := units.US.With(units.Flows, "L/min")
	for _, c := range []struct {
		stored  string
		want    units.System
		chosen  bool
		unknown int
	}{
		{`{}`, units.US, false, 0},
		{`{"units":"us"}`, units.US, true, 0},
		{`{"units":"si","clock":"24"}`, units.SI, true, 0},
		{`{"units":"us","quantities":{"flow":"L/min"}}`, flow, true, 0},
		{`{"quantities":{"flow":"L/min"}}`, flow, false, 0},
		{`{"units":"us","quantities":{"flow":"L/min","head":"furlong","colour":"red"}}`, flow, true, 2},
		{`{"units":"imperial"}`, units.US, false, 1},
	} {
		var p preferences
		if err := json.Unmarshal([]byte(c.stored), &p); err != nil {
			t.Fatal(err)
		}
		got, chosen, unknown := p.system()
		if got != c.want || chosen != c.chosen || len(unknown) != c.unknown {
			t.Errorf("%s: %s, %t, %v", c.stored, got.Word(), chosen, unknown)
		}
	}
}

func TestAnUnknownStoredUnitIsToldOnThePage(t *testing.T) {
	st := memory()
	h, err := New(Config{Version: "test", Store: st})
	if err != nil {
		t.Fatal(err)
	}
	document := []byte(`{"units":"us","quantities":{"head":"furlong"}}`)
	if _, err := st.Create(context.Background(), store.Entry{Kind: store.Preferences, Title: preferencesTitle}, document, "", ""); err != nil {
		t.Fatal(err)
	}
	if body := get(t, h, "/preferences").Body.String(); !strings.Contains(body, "furlong") || !strings.Contains(body, "left out") {
		t.Error("a unit that is not known is not told")
	}
	w := post(t, h, "/preferences", url.Values{"unit.head": {"furlong"}})
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "accepted: ft, m, kPa, mbar") {
		t.Errorf("a unit that is not known is stored: %d", w.Code)
	}
}

// Whoever chooses litres a minute sees the flows of a US job so, on the sheet and in the
// form, and a bare figure typed there is kept as litres a minute.
func TestAChosenUnitHoldsOnSheetAndForm(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	form := at + "/survey/circuits"
	if body := get(t, h, at+"/settings").Body.String(); !strings.Contains(body, "gpm") {
		t.Fatal("the example says no flow in gallons a minute")
	}
	post(t, h, "/preferences", url.Values{"unit.flow": {"L/min"}})
	body := get(t, h, at+"/settings").Body.String()
	if !strings.Contains(body, "L/min") || !strings.Contains(body, "°F") {
		t.Error("the sheet is not in litres a minute, or not in °F any more")
	}
	values := formOn(get(t, h, form).Body.String())
	if got := values.Get("units"); got != "us;flow=L/min" {
		t.Errorf("the form is in %q", got)
	}
	path := "circuits[0].flow"
	if values.Get(shownPrefix+path) != "" {
		t.Fatalf("the example's first circuit has a flow of %s", values.Get(shownPrefix+path))
	}
	values.Set(typedPrefix+path, "5")
	if w := post(t, h, form, values); w.Code != http.StatusSeeOther {
		t.Fatalf("answered %d", w.Code)
	}
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "flow: 5 L/min") {
		t.Error("5 was not kept as litres a minute")
	}
	// Gallons again: the same flow, as it was written beside it.
	post(t, h, "/preferences", url.Values{})
	values = formOn(get(t, h, form).Body.String())
	if got := values.Get(shownPrefix + path); got != "1.32" {
		t.Errorf("5 L/min shows as %q gpm", got)
	}
	if w := post(t, h, form, values); w.Code != http.StatusSeeOther {
		t.Fatalf("answered %d", w.Code)
	}
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "flow: 5 L/min") {
		t.Error("switching units changed what was written")
	}
}

func TestTheDecimalSignIsTheReaders(t *testing.T) {
	for _, c := range []struct {
		language words.Language
		want     string
	}{
		{words.English, "1,250.5\u00a0L"}, {words.English.Writes("comma"), "1250,5\u00a0L"},
		{words.German, "1250,5\u00a0L"}, {words.German.Writes("point"), "1,250.5\u00a0L"},
		{words.German.Writes("anything"), "1250,5\u00a0L"},
	} {
		if got := c.language.Engine("1,250.5\u00a0L"); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	h := handler(t)
	at := begun(t, h, "ridge-house")
	post(t, h, "/preferences", url.Values{"units": {"si"}, "decimal": {"comma"}})
	form := at + "/survey/circuits"
	values := formOn(get(t, h, form).Body.String())
	values.Set(typedPrefix+"circuits[0].flow", "5,5")
	post(t, h, form, values)
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "flow: 5.5 L/min") {
		t.Error("5,5 is not read as five and a half")
	}
	if got := formOn(get(t, h, form).Body.String()).Get(shownPrefix + "circuits[0].flow"); got != "5,5" {
		t.Errorf("shown as %q", got)
	}
}

// inBrackets is a value said once more in the other system.
var inBrackets = regexp.MustCompile(`\([−-]?[\d.,]+(?: (?:to|and) [−-]?[\d.,]+)?[ \x{a0}](?:°F|gpm|psi|ft/s|ft²|Btu/h)\)`)

// Every page of a job says its figures in the units chosen: none of the others' is left
// but where a sentence names both, or the job itself was written so.
func TestChosenUnitsHoldOnEveryPlace(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "bills-house") // written in metric units throughout
	chosen := url.Values{"units": {"us"}}
	for k, unit := range map[string]string{"temperature": "°C", "power": "kW", "flow": "m³/h", "pressure": "kPa", "head": "mbar", "length": "m", "pipe": "cm",
		"area": "m²", "space": "m³", "water": "L", "energy": "MWh", "u-value": "W/m²K", "r-value": "RSI", "loss": "W/K", "per-length": "W/m", "flux": "W/m²",
		"velocity": "m/s", "pipe-drop": "mbar/m", "valve": "kv", "hardness": "°fH", "heating-value": "kWh/m³"} {
		chosen.Set("unit."+k, unit)
	}
	if len(chosen) != 1+len(units.Kinds()) {
		t.Fatalf("%d units chosen of %d", len(chosen)-1, len(units.Kinds()))
	}
	post(t, h, "/preferences", chosen)
	foreign := []string{"\u00a0°F", "\u00a0Btu/h", "\u00a0gpm", "\u00a0psi", "\u00a0L/min", "\u00a0bar", "\u00a0ft²", "\u00a0gal", "\u00a0therm", "\u00a0ft/s"}
	places := append([]string{"sheet.txt", "household/en"}, jobPlaces...)
	for _, place := range places {
		w := get(t, h, at+"/"+place)
		if w.Code == http.StatusNotFound {
			continue
		}
		body := inBrackets.ReplaceAllString(html.UnescapeString(w.Body.String()), "")
		body = strings.ReplaceAll(body, "<mtext>\u00a0bar</mtext>", "") // a formula's own figure, 1 bar of air
		for _, unit := range foreign {
			if i := strings.Index(body, unit); i >= 0 {
				t.Errorf("%s: %q", place, body[max(0, i-80):min(len(body), i+30)])
			}
		}
	}
	stored := maps.Clone(chosen)
	page := formOn(get(t, h, "/preferences").Body.String())
	for name := range stored {
		if page.Get(name) != stored.Get(name) {
			t.Errorf("%s comes back as %q", name, page.Get(name))
		}
	}
}
