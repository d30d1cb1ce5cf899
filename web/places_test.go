package web

import (
	"archive/zip"
	"bytes"
	"crypto/rand"
	"fmt"
	"math"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/store"
	"curvewright/units"
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

func TestRoomsAreTypedIntoBlankLinesAndPasted(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey") + "/survey/rooms"
	form := formOn(get(t, h, at).Body.String())
	form.Set("f.rooms[0].name", "Kitchen")
	form.Set("f.rooms[0].area", "14 m²")
	form.Set("f.rooms[0].load", "900 W")
	form.Set("e.rooms[0]", "fin_tube")
	form.Set("s.rooms[0]", "9")
	if w := post(t, h, at, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	form = formOn(get(t, h, at).Body.String())
	if form.Get("f.rooms[0].name") != "Kitchen" || form.Get("s.rooms[0]") != "9" || form.Get("e.rooms[0]") != "fin_tube" {
		t.Errorf("the room came back as %q, %q of %q", form.Get("f.rooms[0].name"), form.Get("s.rooms[0]"), form.Get("e.rooms[0]"))
	}
	if _, blank := form["f.rooms[1].name"]; !blank {
		t.Error("no blank line for the next room")
	}
	form.Set("do", "paste")
	form.Set("paste", "Room\tArea\tSet\tLoad\tEmitter\tSize\nParlour\t20 m²\t70\t4,200 Btu/h\tCast-iron radiator\t30\r\nBath\t6 m2\t72\t1800\ttowel rail\t400 W\nHall\t8 m2\t\t600 W\tbaseboard\t6 ft\n")
	if w := post(t, h, at, form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	form = formOn(get(t, h, at).Body.String())
	for i, want := range []string{"Kitchen", "Parlour", "Bath", "Hall"} {
		path := "rooms[" + strconv.Itoa(i) + "]"
		if form.Get("f."+path+".name") != want || form.Get("s."+path) == "" {
			t.Errorf("room %d is %q with %q of %q", i, form.Get("f."+path+".name"), form.Get("s."+path), form.Get("e."+path))
		}
	}
	form.Set("do", "paste")
	form.Set("paste-at", "1,1")
	form.Set("paste", "25 m2\n7 m2")
	post(t, h, at, form)
	form = formOn(get(t, h, at).Body.String())
	if form.Get("f.rooms[1].area") != "269.1" || form.Get("f.rooms[1].name") != "Parlour" {
		t.Errorf("pasting into the middle: %q has %q", form.Get("f.rooms[1].name"), form.Get("f.rooms[1].area"))
	}
	form.Set("s.rooms[1]", "many")
	w := post(t, h, at, form)
	if w.Code != http.StatusUnprocessableEntity || formOn(w.Body.String()).Get("s.rooms[1]") != "many" || !strings.Contains(w.Body.String(), "row-note") {
		t.Errorf("a size that is none: %d; typed text kept: %q", w.Code, formOn(w.Body.String()).Get("s.rooms[1]"))
	}
}

// A control that counts in °C is not given the ranges and steps of one that counts in °F.
func TestAControlInCelsiusHasRoundFigures(t *testing.T) {
	for _, sh := range shapes {
		var c job.Control
		if err := sh.into(&c, units.SI); err != nil {
			t.Fatalf("%s: %v", sh.id, err)
		}
		if text := fmt.Sprintf("%+v", c); strings.Contains(text, "°F") {
			t.Errorf("%s: %s", sh.id, text)
		}
	}
}

// Whoever began with ten answers and then goes through the rooms need not first look for
// the emitter that the short way had put there; empty lines and the sum of a spreadsheet
// are no rooms.
func TestRoomsReplaceWhatTheShortWayGuessed(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/new?units=si").Body.String())
	for name, v := range map[string]string{"f.site.design_outdoor": "-14", "f.house.floor_area": "60", "f.house.era": "2012 on", "f.heats": "heated slab", "f.also": "fan coil"} {
		form.Set(name, v)
	}
	at := strings.TrimSuffix(post(t, h, "/jobs", form).Header().Get("Location"), "/survey")
	form = formOn(get(t, h, at+"/survey/rooms").Body.String())
	form.Set("do", "paste")
	form.Set("paste", "Room;Area;Set;Load;Heated by;Size\nLiving;42;21;1850;floor;38\n\nBath;9;24;520;floor;6\nTotal;51;;2370;;")
	post(t, h, at+"/survey/rooms", form)
	form = formOn(get(t, h, at+"/survey/rooms").Body.String())
	if form.Get("f.rooms[0].name") != "Living" || form.Get("f.rooms[1].name") != "Bath" || form.Get("f.rooms[2].name") != "" {
		t.Errorf("rooms: %q, %q, %q", form.Get("f.rooms[0].name"), form.Get("f.rooms[1].name"), form.Get("f.rooms[2].name"))
	}
	circuits := formOn(get(t, h, at+"/survey/circuits").Body.String())
	for name := range circuits {
		if strings.Contains(name, ".sized.") {
			t.Errorf("%s is still asked", name)
		}
	}
	if got := form.Get("f.rooms[1].emitters[0].circuit"); got == "" {
		t.Error("a room of a house with two circuits is on none")
	}
}

func TestASecondCircuitLeavesTheRoomsOnTheFirst(t *testing.T) {
	h := handler(t)
	form := formOn(get(t, h, "/new?units=si").Body.String())
	for name, v := range map[string]string{"f.site.design_outdoor": "-14", "f.house.floor_area": "60", "f.house.era": "2012 on", "f.heats": "heated slab"} {
		form.Set(name, v)
	}
	at := strings.TrimSuffix(post(t, h, "/jobs", form).Header().Get("Location"), "/survey")
	form = formOn(get(t, h, at+"/survey/rooms").Body.String())
	form.Set("do", "paste")
	form.Set("paste", "Living\t42\t21\t1850\tfloor\t38")
	post(t, h, at+"/survey/rooms", form)
	form = formOn(get(t, h, at+"/survey/circuits").Body.String())
	name := form.Get("f.circuits[0].name")
	form.Set("do", "add circuits")
	post(t, h, at+"/survey/circuits", form)
	if got := formOn(get(t, h, at+"/survey/rooms").Body.String()).Get("f.rooms[0].emitters[0].circuit"); got != name || got == "" {
		t.Errorf("the room is on %q, not on %q", got, name)
	}
}

// A figure is read in the unit that stands beside it, also after the other units were
// chosen: the page holds both, and shows the one that is chosen.
func TestTheShortWayShowsTheUnitsThatAreChosen(t *testing.T) {
	h := handler(t)
	for _, address := range []string{"/new?units=us", "/new?units=si"} {
		page := get(t, h, address).Body.String()
		for _, want := range []string{
			`<span class="in-us">°F</span><span class="in-si">°C</span>`,
			`<span class="in-us">ft²</span><span class="in-si">m²</span>`,
			`<span class="in-us">Btu/h</span><span class="in-si">kW</span>`,
		} {
			if !strings.Contains(page, want) {
				t.Errorf("%s without %s", address, want)
			}
		}
	}
	form := formOn(get(t, h, "/new").Body.String())
	for name, v := range map[string]string{"units": "si", "f.site.design_outdoor": "-3", "f.house.floor_area": "130", "f.house.era": "before 1946", "f.heats": "cast-iron", "f.boiler.output": "30", "f.boiler.min_output": "6"} {
		form.Set(name, v)
	}
	at := post(t, h, "/jobs", form).Header().Get("Location")
	answers := formOn(get(t, h, at).Body.String())
	if got := answers.Get("f.boiler.min_output"); got != "6" {
		t.Errorf("the lowest output of 6 kW came back as %q", got)
	}
	if !strings.Contains(get(t, h, strings.TrimSuffix(at, "survey")+"settings").Body.String(), "data-supply") {
		t.Error("no settings")
	}
}

func TestTheHousesLoadIsSharedAmongRooms(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey") + "/survey/rooms"
	form := formOn(get(t, h, at).Body.String())
	form.Set("do", "paste")
	form.Set("paste", "Parlour\t800 ft²\t\t\tbaseboard\t50\nKitchen\t400 ft²\t\t\tbaseboard\t30")
	post(t, h, at, form)
	form = formOn(get(t, h, at).Body.String())
	form.Set("do", "share")
	post(t, h, at, form)
	form = formOn(get(t, h, at).Body.String())
	one, two := form.Get("f.rooms[0].load"), form.Get("f.rooms[1].load")
	a, err := units.Parse[units.Power](one + " Btu/h")
	b, err2 := units.Parse[units.Power](two + " Btu/h")
	if err != nil || err2 != nil || math.Abs(float64(a)/float64(b)-2) > 0.05 {
		t.Errorf("loads %q and %q for twice the area", one, two)
	}
}

func TestControlsAreDescribedKeptAndUsed(t *testing.T) {
	h := handler(t)
	for _, sh := range shapes {
		w := post(t, h, "/controls", url.Values{"name": {"Box " + sh.id}, "shape": {sh.id}})
		at := w.Header().Get("Location")
		page := get(t, h, at).Body.String()
		if w.Code != http.StatusSeeOther || !strings.Contains(page, "All that is needed is said") {
			t.Errorf("%s: %d, not whole as it begins", sh.id, w.Code)
		}
		form := formOn(page)
		form.Set("f.control.points_per_day", "3")
		if w := post(t, h, at, form); w.Code != http.StatusSeeOther {
			t.Errorf("%s: %d", sh.id, w.Code)
		}
		id := strings.TrimPrefix(at, "/controls/")
		part := begun(t, h, "bills-house") + "/survey/control"
		form = formOn(get(t, h, part).Body.String())
		form.Set("do", "use-control "+id)
		if w := post(t, h, part, form); w.Code != http.StatusSeeOther {
			t.Errorf("%s: using it: %d", sh.id, w.Code)
		}
		used := get(t, h, part).Body.String()
		if formOn(used).Get("f.control.points_per_day") != "3" || !strings.Contains(used, "data-supply") {
			t.Errorf("%s: the job does not have the control, or no settings with it", sh.id)
		}
		file := get(t, h, at+"/control.yaml").Body.String()
		if !strings.Contains(file, "points_per_day: 3") {
			t.Errorf("%s: the file says %s", sh.id, file)
		}
	}
	part := begun(t, h, "short-survey") + "/survey/control"
	form := formOn(get(t, h, part).Body.String())
	form.Set("do", "keep-control")
	post(t, h, part, form)
	if page := get(t, h, "/controls").Body.String(); strings.Count(page, `class="card"`) != len(shapes)+1 {
		t.Error("the job's control was not kept")
	}
	if w := get(t, h, "/jobs/"+strings.TrimPrefix(part, "/jobs/")); w.Code == http.StatusInternalServerError {
		t.Error(w.Code)
	}
}

func TestAVisitIsWalkedJudgedAndSigned(t *testing.T) {
	h := handler(t)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		w := post(t, h, at+"/visits", nil)
		visit := w.Header().Get("Location")
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d %s", e.Name, w.Code, w.Body)
		}
		for _, section := range []string{"", "/before-power", "/settings", "/first-firing", "/readings", "/safety-devices", "/sign-off"} {
			if w := get(t, h, visit+section); w.Code != http.StatusOK {
				t.Errorf("%s%s: %d", e.Name, section, w.Code)
			}
		}
		form := formOn(get(t, h, visit+"/readings").Body.String())
		form.Set("f.conditions.outdoor", "20 °F")
		form.Set("f.readings.circuits[0].supply", "60 °F")
		form.Set("f.readings.circuits[0].return", "60 °F")
		if w := post(t, h, visit+"/readings", form); w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d %s", e.Name, w.Code, w.Body)
		}
		page := get(t, h, visit+"/readings").Body.String()
		if !strings.Contains(page, "everything should read") || !strings.Contains(page, `class="wrong"`) {
			t.Errorf("%s: no expected readings, or a stone-cold circuit passes", e.Name)
		}
		form = formOn(get(t, h, visit+"/settings").Body.String())
		line := ""
		for name := range form {
			if rest, ok := strings.CutPrefix(name, "j."); ok && strings.HasSuffix(rest, "cold-supply") {
				line = rest
			}
		}
		if line == "" {
			continue
		}
		form.Set("v."+line, "120")
		post(t, h, visit+"/settings", form)
		if page := get(t, h, visit+"/settings").Body.String(); !strings.Contains(page, "as it was entered") {
			t.Errorf("%s: %s entered otherwise has no consequence", e.Name, line)
		}
		if w := post(t, h, visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"installer"}, "seal": {"yes"}}); w.Code != http.StatusSeeOther {
			t.Errorf("%s: not signed: %d %s", e.Name, w.Code, w.Body)
		}
		form.Set("v."+line, "130")
		if w := post(t, h, visit+"/settings", form); w.Code != http.StatusConflict {
			t.Errorf("%s: a signed visit was changed: %d", e.Name, w.Code)
		}
		if file := get(t, h, visit+"/visit.yaml").Body.String(); !strings.Contains(file, "sealed:") || !strings.Contains(file, "120") {
			t.Errorf("%s: the file lacks the seal or the value", e.Name)
		}
	}
}

func TestTheHandoverHoldsEverything(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	visit := post(t, h, at+"/visits", nil).Header().Get("Location")
	form := formOn(get(t, h, visit+"/readings").Body.String())
	form.Set("f.conditions.outdoor", "20 °F")
	form.Set("f.readings.boiler.supply", "135 °F")
	post(t, h, visit+"/readings", form)
	form = formOn(get(t, h, visit+"/sign-off").Body.String())
	form.Set("f.follow_up", "2027-01-15")
	post(t, h, visit+"/sign-off", form)
	post(t, h, visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"installer"}, "picture": {"data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="}})

	if page := get(t, h, at+"/handover").Body.String(); !strings.Contains(page, `class="square"`) || !strings.Contains(page, "return.ics") {
		t.Error("the handover lacks the square or the calendar")
	}
	for language, want := range map[string]string{"en": "How your heating works", "fr": "Comment marche votre chauffage", "es": "Cómo funciona su calefacción", "de": "So arbeitet Ihre Heizung"} {
		w := get(t, h, at+"/household/"+language)
		if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) || !strings.Contains(w.Body.String(), `lang="`+language+`"`) {
			t.Errorf("the household's sheet in %s: %d", language, w.Code)
		}
	}
	if record := get(t, h, at+"/record").Body.String(); !strings.Contains(record, "Orla Penhallow") || !strings.Contains(record, "135") || !strings.Contains(record, "<img") {
		t.Error("the record lacks the signature or the reading")
	}
	ics := get(t, h, at+"/return.ics").Body.String()
	for _, line := range strings.Split(ics, "\r\n") {
		if len(line) > 75 {
			t.Errorf("a line of %d octets in the calendar", len(line))
		}
	}
	if !strings.Contains(ics, "DTSTART;VALUE=DATE:20270115\r\n") || !strings.HasSuffix(ics, "END:VCALENDAR\r\n") {
		t.Errorf("the calendar says %s", ics)
	}
	if table := get(t, h, at+"/readings.csv").Body.String(); !strings.Contains(table, "readings.boiler.supply,135 °F") {
		t.Errorf("the table says %s", table)
	}

	archive := get(t, h, at+"/everything.zip").Body.Bytes()
	var body bytes.Buffer
	form2 := multipart.NewWriter(&body)
	part, _ := form2.CreateFormFile("file", "house.zip")
	_, _ = part.Write(archive)
	form2.Close()
	r := httptest.NewRequest(http.MethodPost, "/jobs", &body)
	r.Header.Set("Content-Type", form2.FormDataContentType())
	w := httptest.NewRecorder()
	other := handler(t) // another machine
	other.ServeHTTP(w, r)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("not taken in: %d %s", w.Code, w.Body)
	}
	there := strings.TrimSuffix(w.Header().Get("Location"), "/survey")
	if record := get(t, other, there+"/record").Body.String(); !strings.Contains(record, "Orla Penhallow") || !strings.Contains(record, "135") {
		t.Error("the visit did not come along")
	}
}

// TestAFileOfEverythingIsBounded: damaged ones, foreign ones and ones made to burst are
// refused, and nothing is kept of them.
func TestAFileOfEverythingIsBounded(t *testing.T) {
	burst := func() []byte {
		var out bytes.Buffer
		z := zip.NewWriter(&out)
		f, _ := z.Create("files/zeros")
		zeros := make([]byte, 1<<20)
		for range 17 {
			_, _ = f.Write(zeros)
		}
		z.Close()
		return out.Bytes()
	}()
	many := func() []byte {
		var out bytes.Buffer
		z := zip.NewWriter(&out)
		zeros := make([]byte, 16<<20)
		for i := range 18 { // none of them too large, all of them together
			f, _ := z.Create(fmt.Sprint("files/zeros-", i))
			_, _ = f.Write(zeros)
		}
		z.Close()
		return out.Bytes()
	}()
	for name, data := range map[string][]byte{"damaged": []byte("PK\x03\x04 no archive"), "burst": burst, "many": many} {
		if _, err := unpack(bytes.NewReader(data), int64(len(data))); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

func TestTablesHoldNoFormulas(t *testing.T) {
	for given, want := range map[string]string{"=1+1": "'=1+1", "@x": "'@x", "-6 °F": "-6 °F", "+cmd": "'+cmd", "plain": "plain"} {
		if got := harmless(given); got != want {
			t.Errorf("%q became %q, want %q", given, got, want)
		}
	}
}

// sendFile sends a file with a form.
func sendFile(t *testing.T, h http.Handler, address, field, name string, data []byte) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile(field, name)
	if err == nil {
		_, err = part.Write(data)
	}
	if err != nil {
		t.Fatal(err)
	}
	form.Close()
	r := httptest.NewRequest(http.MethodPost, address, &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// aLog is four weeks of a house whose control runs a line of slope 1.2 about 70 °F.
func aLog() []byte {
	var b strings.Builder
	b.WriteString("time;outdoor °F;supply °F;return °F;room °F\n")
	at := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	for i := range 4 * 7 * 24 {
		out := 15 + 12*math.Sin(float64(i)/24*2*math.Pi-2) + 8*math.Sin(float64(i)/190)
		supply := 70 + 1.2*(70-out) + math.Sin(float64(i)*12.9898)*1.5
		fmt.Fprintf(&b, "%s;%.1f;%.1f;%.1f;%.1f\n", at.Add(time.Duration(i)*time.Hour).Format("2006-01-02 15:04"), out, supply, supply-14, 70+math.Sin(float64(i))*0.4)
	}
	return []byte(b.String())
}

func TestALogIsConfirmedAndJudged(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	w := sendFile(t, h, at+"/logs", "log", "winter.csv", aLog())
	if w.Code != http.StatusSeeOther {
		t.Fatalf("not taken: %d %s", w.Code, w.Body)
	}
	log := w.Header().Get("Location")
	page := get(t, h, log).Body.String()
	if !strings.Contains(page, "What the columns mean") || strings.Contains(page, "estimates-title") {
		t.Error("judged before its columns were confirmed")
	}
	if w := post(t, h, log, formOn(page)); w.Code != http.StatusSeeOther {
		t.Fatalf("not confirmed: %d %s", w.Code, w.Body)
	}
	page = get(t, h, log).Body.String()
	for _, want := range []string{"estimates-title", "plot-line", "correction-title"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s on the page", want)
		}
	}
	// The next log with the same columns is read in the same way.
	w = sendFile(t, h, at+"/logs", "log", "spring.csv", aLog())
	if w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	if w := post(t, h, log+"/remove", nil); w.Code != http.StatusSeeOther || get(t, h, log).Code != http.StatusNotFound {
		t.Errorf("a removed log is still there: %d", w.Code)
	}
	for name, data := range map[string]string{"no.csv": "hello", "bad.xlsx": "PK\x03\x04 nothing"} {
		if w := sendFile(t, h, at+"/logs", "log", name, []byte(data)); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", name, w.Code)
		}
	}
}

func TestRemarksAreWeighed(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "ridge-house")
	form := formOn(get(t, h, at+"/follow-up").Body.String())
	form.Set("felt-0", "too cold")
	form.Set("outdoor-0", "-5")
	form.Set("felt-1", "too cold")
	form.Set("outdoor-1", "0")
	w := post(t, h, at+"/follow-up", form)
	if w.Code != http.StatusSeeOther || !strings.Contains(get(t, h, at+"/follow-up").Body.String(), "What it comes to") {
		t.Errorf("%d: no advice", w.Code)
	}
	form.Set("outdoor-1", "chilly")
	if w := post(t, h, at+"/follow-up", form); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "chilly") {
		t.Errorf("%d: a figure that is none", w.Code)
	}
}

func TestSettingsAreSearchedAndTheSearchCanBeStopped(t *testing.T) {
	if testing.Short() {
		t.Skip("plays a hundred years")
	}
	h := handler(t)
	at := begun(t, h, "short-survey")
	if page := get(t, h, at+"/decide").Body.String(); !strings.Contains(page, "Search (about") {
		t.Error("a search cannot be begun")
	}
	post(t, h, at+"/decide", nil)
	running := false
	for range 600 {
		page := get(t, h, at+"/decide?live=yes").Body.String()
		if strings.Contains(page, "data-running") {
			running = true
			if strings.Contains(page, `value="0"`) {
				time.Sleep(50 * time.Millisecond)
				continue
			}
			post(t, h, at+"/decide/stop", nil)
			time.Sleep(50 * time.Millisecond)
			continue
		}
		if !running || !strings.Contains(page, "stopped before its end") && !strings.Contains(page, "Recommended") {
			t.Errorf("it ended without an answer: %s", page)
		}
		return
	}
	t.Error("a stopped search did not end")
}

// BenchmarkTyping is the answer to a key pressed in the survey of the largest example.
func BenchmarkTyping(b *testing.B) {
	h := handler(b)
	at := begun(b, h, "ridge-house") + "/survey/house"
	form := formOn(get(b, h, at).Body.String())
	for i := 0; b.Loop(); i++ {
		form.Set("f.site.design_outdoor", strconv.Itoa(-6-i%9))
		if w := post(b, h, at+"?live=try", form); w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}

// TestTheAddressOfAJobLeadsToNothingElse: with the name of a signed visit in it, it can
// neither put the visit away nor change it.
func TestTheAddressOfAJobLeadsToNothingElse(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	visit := post(t, h, at+"/visits", nil).Header().Get("Location")
	form := formOn(get(t, h, visit+"/readings").Body.String())
	form.Set("f.conditions.outdoor", "20 °F")
	post(t, h, visit+"/readings", form)
	post(t, h, visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"installer"}, "seal": {"yes"}})
	before := get(t, h, visit+"/visit.yaml").Body.String()
	id := visit[strings.LastIndex(visit, "/")+1:]
	for _, address := range []string{
		"/jobs/" + id + "/trash", "/jobs/" + id + "/erase", "/jobs/" + id + "/archive", "/jobs/" + id + "/undo", "/jobs/" + id + "/history/1",
		"/jobs/" + id + "/duplicate", "/controls/" + id + "/trash", "/controls/" + id + "/undo", "/library/" + id + "/erase",
	} {
		if w := post(t, h, address, nil); w.Code != http.StatusNotFound {
			t.Errorf("%s: status %d", address, w.Code)
		}
	}
	if after := get(t, h, visit+"/visit.yaml").Body.String(); after != before || !strings.Contains(before, "sealed:") {
		t.Errorf("the signed visit was changed:\n%s", after)
	}
}

// TestWordsDoNotRunTogether: what is set in bold or quoted stands apart from what follows.
func TestWordsDoNotRunTogether(t *testing.T) {
	h := handler(t)
	joined := regexp.MustCompile(`[^<>]{0,20}</(?:b|q|em|strong)>\p{L}[^<>]{0,20}`)
	for _, e := range examples.List() {
		at := begun(t, h, e.Name)
		visit := post(t, h, at+"/visits", nil).Header().Get("Location")
		form := formOn(get(t, h, visit+"/readings").Body.String())
		form.Set("f.conditions.outdoor", "20 °F")
		form.Set("f.readings.circuits[0].supply", "60 °F")
		post(t, h, visit+"/readings", form)
		for _, address := range []string{
			"/try?example=" + e.Name, at + "/survey/house", at + "/survey/rooms", at + "/settings", at + "/curve", at + "/boiler-room",
			at + "/handover", at + "/record", at + "/household/de", visit + "/before-power", visit + "/readings", visit + "/sign-off",
		} {
			for _, found := range joined.FindAllString(get(t, h, address).Body.String(), -1) {
				t.Errorf("%s: %q", address, found)
			}
		}
	}
	faulty := post(t, h, "/try", url.Values{"document": {"curvewright: 1\njob: x\nsite: {design_outdoor: 5 parsecs}\ncircuits: [{name: A}]\n"}}).Body.String()
	for _, found := range joined.FindAllString(faulty, -1) {
		t.Errorf("faults: %q", found)
	}
}
