package web

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"curvewright/catalogue"
	"curvewright/job"
	"curvewright/units"
	"curvewright/web/words"
)

// keptJob is the job as it is kept.
func keptJob(t testing.TB, h http.Handler, at string) *job.Job {
	t.Helper()
	j, err := job.Draft(get(t, h, at+"/job.yaml").Body.Bytes())
	if j == nil {
		t.Fatal(err)
	}
	return j
}

func TestAUsualConstructionIsTakenIntoAJob(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	address := at + "/survey/house"
	before := len(keptJob(t, h, at).Constructions)
	take := func(id string) *http.Response {
		form := formOn(get(t, h, address).Body.String())
		form.Set("lib.constructions", id)
		form.Set("do", "library constructions")
		return post(t, h, address, form).Result()
	}
	if r := take("wall-brick-cavity"); r.StatusCode != http.StatusSeeOther {
		t.Fatalf("status %d", r.StatusCode)
	}
	j := keptJob(t, h, at)
	if len(j.Constructions) != before+1 {
		t.Fatalf("%d constructions, %d before", len(j.Constructions), before)
	}
	c := j.Constructions[before]
	if len(c.Layers) != 4 || c.Layers[0].Material != "brick" || c.Facing != "wall" {
		t.Errorf("taken: %+v", c)
	}
	if page := get(t, h, at+"/survey/rooms?room=0").Body.String(); !strings.Contains(page, `<option value="`+c.Name+`"`) {
		t.Error("the room does not offer the construction that was taken")
	}
	for _, id := range []string{"wall-brick-cavity", "", "panel-22-600", "no such"} {
		if r := take(id); r.StatusCode < 400 {
			t.Errorf("%q was taken, status %d", id, r.StatusCode)
		}
	}
	if n := len(keptJob(t, h, at).Constructions); n != before+1 {
		t.Errorf("refused entries left %d constructions", n)
	}
}

func TestUsualEmittersAreTakenIntoARoomAndACircuit(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	address := at + "/survey/rooms?room=0"
	for _, c := range []struct {
		id, size string
		fits     func(e job.Emitter) bool
	}{
		{"panel-22-600", "1.4 m", func(e job.Emitter) bool {
			return e.Radiator != nil && e.Radiator.Output.Value > 2390 && e.Radiator.Output.Value < 2398
		}},
		{"fin-tube-usual", "9", func(e job.Emitter) bool {
			return e.FinTube != nil && float64(e.FinTube.Length.Value-units.Feet(9)) < 1e-6
		}},
		{"cast-iron-3-columns-38", "10", func(e job.Emitter) bool { return e.CastIron != nil && e.CastIron.EDR.Value == 50 }},
		{"floor-screed-150", "130 ft2", func(e job.Emitter) bool { return e.Floor != nil && e.Floor.Construction == "wet slab" }},
		{"towel-rail-1200-500", "2", func(e job.Emitter) bool { return e.TowelRail != nil && e.Count == 2 }},
	} {
		form := formOn(get(t, h, address).Body.String())
		form.Set("lib.rooms[0].emitters", c.id)
		form.Set("lib-size.rooms[0].emitters", c.size)
		form.Set("do", "library rooms[0].emitters")
		if w := post(t, h, address, form); w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d %s", c.id, w.Code, w.Body)
		}
		emitters := keptJob(t, h, at).Rooms[0].Emitters
		if e := emitters[len(emitters)-1]; !c.fits(e) || e.Circuit != "House" || e.Name == "" {
			t.Errorf("%s, %s: %+v", c.id, c.size, e)
		}
	}
	for id, size := range map[string]string{"panel-22-600": "", "fin-tube-usual": "rather long", "cast-iron-3-columns-38": "2.5", "floor-screed-150": "3 ft"} {
		form := formOn(get(t, h, address).Body.String())
		form.Set("lib.rooms[0].emitters", id)
		form.Set("lib-size.rooms[0].emitters", size)
		form.Set("do", "library rooms[0].emitters")
		w := post(t, h, address, form)
		back := formOn(w.Body.String())
		if w.Code != http.StatusUnprocessableEntity || back.Get("lib-size.rooms[0].emitters") != size || !strings.Contains(w.Body.String(), `aria-invalid="true"`) {
			t.Errorf("%s of %q: status %d, %q stands in the field", id, size, w.Code, back.Get("lib-size.rooms[0].emitters"))
		}
	}
	short := begun(t, h, "short-survey")
	form := formOn(get(t, h, short+"/survey/circuits").Body.String())
	form.Set("lib.circuits[0].emitters", "fin-tube-high")
	form.Set("lib-size.circuits[0].emitters", "20")
	form.Set("do", "library circuits[0].emitters")
	post(t, h, short+"/survey/circuits", form)
	if e := keptJob(t, h, short).Circuits[0].Emitters; len(e) != 2 || e[1].FinTube == nil {
		t.Errorf("the circuit has %+v", e)
	}
}

// An entry of the installer's own is described, used, shared and put away.
func TestOwnEntriesAreDescribedUsedAndShared(t *testing.T) {
	h := handler(t)
	w := post(t, h, "/library", url.Values{"kind": {"radiator"}, "name": {"Long panel"}})
	own := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(own, "/library/") {
		t.Fatalf("%d to %q", w.Code, own)
	}
	form := formOn(get(t, h, own).Body.String())
	const output = "f.circuits[0].emitters[0].radiator.output"
	if _, asked := form[output]; !asked {
		t.Fatal("the output is not asked for")
	}
	if _, asked := form["f.circuits[0].emitters[0].circuit"]; asked {
		t.Error("an entry of the library is asked for its circuit")
	}
	form.Set(output, "1800 W")
	form.Set("f.circuits[0].emitters[0].name", "Long flat panel")
	if w := post(t, h, own, form); w.Code != http.StatusSeeOther || w.Header().Get("Location") != own {
		t.Fatalf("%d to %q: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	list := get(t, h, "/library").Body.String()
	if !strings.Contains(list, "Long flat panel") {
		t.Error("the library does not list the new name")
	}

	at := begun(t, h, "ridge-house")
	address := at + "/survey/rooms?room=1"
	form = formOn(get(t, h, address).Body.String())
	form.Set("lib.rooms[1].emitters", "own "+strings.TrimPrefix(own, "/library/"))
	form.Set("lib-size.rooms[1].emitters", "3")
	form.Set("do", "library rooms[1].emitters")
	post(t, h, address, form)
	emitters := keptJob(t, h, at).Rooms[1].Emitters
	if e := emitters[len(emitters)-1]; e.Radiator == nil || e.Radiator.Output.Value != 1800 || e.Count != 3 || e.Name != "Long flat panel" {
		t.Errorf("used: %+v", e)
	}

	// A construction of the job is kept, and a usual one copied.
	form = formOn(get(t, h, at+"/survey/house").Body.String())
	form.Set("do", "keep-entry constructions[0]")
	if w := post(t, h, at+"/survey/house", form); w.Code != http.StatusSeeOther {
		t.Errorf("keeping a construction: %d %s", w.Code, w.Body)
	}
	post(t, h, "/library", url.Values{"copy": {"roof-loft-250"}})
	list = get(t, h, "/library").Body.String()
	if n := strings.Count(list, `class="card"`); n != 3 {
		t.Errorf("%d entries of the installer's own", n)
	}

	// All in one file, and back into another library.
	file := get(t, h, "/library/library.yaml")
	if file.Code != http.StatusOK || !strings.Contains(file.Header().Get("Content-Disposition"), "attachment") {
		t.Fatalf("file: %d", file.Code)
	}
	other := handler(t)
	if w := upload(t, other, "/library", file.Body.Bytes()); w.Code != http.StatusSeeOther {
		t.Fatalf("taken in: %d %s", w.Code, w.Body)
	}
	if n := strings.Count(get(t, other, "/library").Body.String(), `class="card"`); n != 3 {
		t.Errorf("%d entries came through the file", n)
	}
	if w := upload(t, other, "/library", []byte("curvewright: 1\njob: nothing\n")); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("an empty file was taken in: %d", w.Code)
	}

	post(t, h, own+"/duplicate", nil)
	post(t, h, own+"/trash", nil)
	if page := get(t, h, at+"/survey/rooms?room=1").Body.String(); strings.Contains(page, `"own `+strings.TrimPrefix(own, "/library/")+`"`) {
		t.Error("the survey offers an entry that lies in the trash")
	}
	post(t, h, own+"/restore", nil)
	if n := strings.Count(get(t, h, "/library").Body.String(), `class="card"`); n != 4 {
		t.Errorf("%d entries after copying and bringing back", n)
	}
	if w := get(t, h, "/controls/"+strings.TrimPrefix(own, "/library/")); w.Code != http.StatusNotFound {
		t.Errorf("an entry of the library is shown as a control: %d", w.Code)
	}
	post(t, h, own+"/undo", nil)
	if page := get(t, h, own).Body.String(); strings.Contains(page, "1800 W") {
		t.Error("the answer was not taken back")
	}
}

func TestAnOwnConstructionShowsItsUValue(t *testing.T) {
	h := handler(t)
	own := post(t, h, "/library", url.Values{"kind": {"construction"}, "name": {"Straw wall"}}).Header().Get("Location")
	if page := get(t, h, own).Body.String(); !strings.Contains(page, "gaps-title") {
		t.Error("an empty construction is said to be whole")
	}
	form := formOn(get(t, h, own).Body.String())
	form.Set("f.constructions[0].u", "0.15 W/m²K")
	post(t, h, own, form)
	page := get(t, h, own).Body.String()
	if strings.Contains(page, "gaps-title") || !strings.Contains(page, "own-figure") {
		t.Error("the construction is whole, and the page does not say so")
	}
	for _, k := range ownKinds {
		if w := post(t, h, "/library", url.Values{"kind": {k}}); w.Code != http.StatusSeeOther {
			t.Errorf("%s: %d", k, w.Code)
		} else if page := get(t, h, w.Header().Get("Location")); page.Code != http.StatusOK {
			t.Errorf("%s: %d", k, page.Code)
		}
	}
	if w := post(t, h, "/library", url.Values{"kind": {"sized"}}); w.Code == http.StatusSeeOther {
		t.Error("a kind was begun that the library does not hold")
	}
}

func TestEveryUsualEntryHasItsWordsInEveryLanguage(t *testing.T) {
	for _, l := range words.Languages() {
		ctx := words.In(context.Background(), l)
		seen := map[string]string{}
		for _, e := range catalogue.List() {
			for _, s := range []units.System{units.US, units.SI} {
				name := entryName(ctx, e, s)
				if strings.Contains(name, "library.") || strings.Contains(name, "%!") || entryFigure(ctx, e, s) == "" {
					t.Errorf("%s in %s is %q, %q", e.ID, l.Name(), name, entryFigure(ctx, e, s))
				}
				if other, twice := seen[name]; twice && other != e.ID {
					t.Errorf("%s and %s are both %q in %s", other, e.ID, name, l.Name())
				}
				seen[name] = e.ID
			}
			if key := "library.source." + e.Source; words.Say(ctx, key) == key {
				t.Errorf("nobody says where %s comes from", e.ID)
			}
			if e.Construction != nil {
				for _, layer := range e.Construction.Layers {
					if key := "library.material." + layer.Material; words.Say(ctx, key) == key {
						t.Errorf("%s has no name in %s", layer.Material, l.Name())
					}
				}
			}
		}
	}
}

func TestTheTourLeadsThroughEveryStation(t *testing.T) {
	h := handler(t)
	w := post(t, h, "/help/tour", nil)
	next := w.Header().Get("Location")
	for n := 1; n <= len(tourSteps); n++ {
		page := get(t, h, next)
		body := page.Body.String()
		if page.Code != http.StatusOK || strings.Count(body, `class="tour"`) != 1 {
			t.Fatalf("station %d, %s: %d", n, next, page.Code)
		}
		_, after, found := strings.Cut(body, `rel="next" href="`)
		if found != (n < len(tourSteps)) {
			t.Fatalf("station %d leads on: %v", n, found)
		}
		next, _, _ = strings.Cut(after, `"`)
		next = strings.ReplaceAll(next, "&amp;", "&")
	}
	at := begun(t, h, "ridge-house")
	for _, odd := range []string{"", "?tour=0", "?tour=99", "?tour=x"} {
		if strings.Contains(get(t, h, at+"/survey"+odd).Body.String(), `class="tour"`) {
			t.Errorf("%q shows a note of the tour", odd)
		}
	}
	help := get(t, h, "/help").Body.String()
	if strings.Count(help, "<dt>") != len(terms) || strings.Contains(help, "help.") {
		t.Error("a term or a sentence is missing on the page of help")
	}
}

// A radiator as its data sheet has it, so much per metre, is kept in the library and used
// in a survey by its length.
func TestAnOwnRadiatorPerMetreIsUsedByLength(t *testing.T) {
	h := handler(t)
	post(t, h, "/preferences", url.Values{"units": {"si"}})
	for _, c := range []struct {
		per, figure, size, want, shown string
	}{
		{"per_length", "1120", "1.4", "length: 1.4 m", "1,120\u00a0W/m"},
		{"per_section", "128", "10", "sections: 10", "128\u00a0W"},
	} {
		w := post(t, h, "/library", url.Values{"kind": {"radiator"}, "name": {"Quux 22 " + c.per}})
		if w.Code != http.StatusSeeOther {
			t.Fatalf("not begun: %d %s", w.Code, w.Body)
		}
		own := w.Header().Get("Location")
		page := get(t, h, own).Body.String()
		at := "circuits[0].emitters[0].radiator."
		values := formOn(page)
		for _, path := range []string{"output", "per_length", "per_section", "excess", "at", "air", "exponent"} {
			if _, asked := values[typedPrefix+at+path]; !asked {
				t.Fatalf("the library does not ask for %s", path)
			}
		}
		if _, asked := values[typedPrefix+at+"length"]; asked {
			t.Error("the library asks for the length of one house's radiator")
		}
		values.Set(typedPrefix+at+c.per, c.figure)
		values.Set(typedPrefix+at+"exponent", "1.33")
		if w := post(t, h, own, values); w.Code != http.StatusSeeOther {
			t.Fatalf("answered %d", w.Code)
		}
		if page = get(t, h, own).Body.String(); !strings.Contains(page, c.shown) {
			t.Errorf("the entry does not show %q", c.shown)
		}
		id := strings.TrimPrefix(own, "/library/")
		house := begun(t, h, "bills-house")
		form := house + "/survey/circuits"
		values = formOn(get(t, h, form).Body.String())
		list := "circuits[0].emitters"
		values.Set(entryPrefix+list, ownPrefix+id)
		values.Set("do", "library "+list)
		if w := post(t, h, form, values); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("taken without its size: %d", w.Code)
		}
		values.Set(entrySizePrefix+list, c.size)
		if w := post(t, h, form, values); w.Code != http.StatusSeeOther {
			t.Fatalf("not taken: %d", w.Code)
		}
		if document := get(t, h, house+"/job.yaml").Body.String(); !strings.Contains(document, c.want) || !strings.Contains(document, "exponent: 1.33") {
			t.Errorf("%s is not in the job:\n%s", c.want, document)
		}
		if sheet := get(t, h, house+"/settings"); sheet.Code != http.StatusOK || !strings.Contains(sheet.Body.String(), "data-supply") {
			t.Errorf("there is no sheet with the radiator: %d", sheet.Code)
		}
	}
}
