package main

import (
	"crypto/rand"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"curvewright/attendance"
	"curvewright/examples"
	"curvewright/report/pdf"
	"curvewright/store"
	"curvewright/web"
)

// demoed is an empty store and its page, with the demonstration kept once.
func demoed(t *testing.T) (entries store.Store, page http.Handler, at string) {
	t.Helper()
	entries = store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})
	page, err := web.New(web.Config{Version: version, Print: pdf.Sheet, Record: pdf.Paperwork, Household: pdf.Household, Year: web.PlayYear, Store: entries})
	if err != nil {
		t.Fatal(err)
	}
	began := time.Now()
	if at, err = demo(t.Context(), entries, page); err != nil {
		t.Fatal(err)
	}
	if took := time.Since(began); took > 2*time.Second {
		t.Errorf("keeping the examples took %s", took)
	}
	return entries, page, at
}

// kept lists what is kept of a kind, the newest first.
func kept(t *testing.T, entries store.Store, kind store.Kind, parent string) []store.Entry {
	t.Helper()
	list, _, err := entries.List(t.Context(), store.Query{Kind: kind, Parent: parent, Sort: store.ByChanged, Limit: 20})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestTheDemoTellsTheWholeStory: every example is a job; the newest, which it opens, has a
// signed visit, a confirmed log and what the household said. A second start adds nothing.
func TestTheDemoTellsTheWholeStory(t *testing.T) {
	entries, page, at := demoed(t)
	for range 2 {
		list := kept(t, entries, store.Job, "")
		if len(list) != len(examples.List()) || list[0].Title != "Marchbanks house" || at != "/jobs/"+list[0].ID+"/survey" {
			t.Fatalf("opens %s, of %+v", at, list)
		}
		house := list[0].ID
		visits, logs, remarks := kept(t, entries, store.Visit, house), kept(t, entries, store.Log, house), kept(t, entries, store.Remark, house)
		if len(visits) != 1 || len(logs) != 1 || len(remarks) != 2 {
			t.Fatalf("%d visits, %d logs, %d remarks", len(visits), len(logs), len(remarks))
		}
		_, revision, err := entries.Read(t.Context(), visits[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		v, err := attendance.Read(revision.Document)
		if err != nil || !v.Intact() {
			t.Errorf("the visit: %v, as it was signed: %v", err, err == nil && v.Intact())
		}
		if _, revision, err = entries.Read(t.Context(), logs[0].ID); err != nil {
			t.Fatal(err)
		}
		var log struct {
			Confirmed bool `json:"confirmed"`
		}
		if err := json.Unmarshal(revision.Document, &log); err != nil || !log.Confirmed {
			t.Errorf("the columns of the log are not confirmed: %v", err)
		}
		for address, wants := range map[string][]string{
			"/jobs/" + house + "/visit":                               {"2026-10-29"},
			"/jobs/" + house + "/visit/" + visits[0].ID + "/readings": {"ixing valve"},
			"/jobs/" + house + "/visit/" + visits[0].ID + "/sign-off": {"Tobias Marchbanks"},
			"/jobs/" + house + "/handover":                            {"2026-10-29"},
			"/jobs/" + house + "/follow-up":                           {"ridge-house-winter.csv", "Kitchen"},
			"/jobs/" + house + "/logs/" + logs[0].ID:                  {"Kitchen", "short while other rooms are warm"},
			"/":                                                       {"Marchbanks house", "bills"},
		} {
			w := httptest.NewRecorder()
			page.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
			for _, want := range wants {
				if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) {
					t.Errorf("%s: status %d, no %q", address, w.Code, want)
				}
			}
		}
		again, err := demo(t.Context(), entries, page)
		if err != nil || again != at {
			t.Errorf("the second start opens %s: %v", again, err)
		}
	}
}

// TestTheExamplesOfAVisitAndALogRun: the commands of the readme.
func TestTheExamplesOfAVisitAndALogRun(t *testing.T) {
	status, out, errs := call("judge", examplePath("ridge-house"), examplePath("ridge-house-visit"))
	if status != 1 || errs != "" {
		t.Fatalf("judge: status %d, %s", status, errs)
	}
	for _, want := range []string{"Likeliest: mixing valve stuck: Slab.", "Curve of House as entered", "Precharge 14.0", "condenses                       yes"} {
		if !strings.Contains(out, want) {
			t.Errorf("judge does not say %q:\n%s", want, out)
		}
	}
	if strings.Contains(out, "by 2") {
		t.Errorf("a column without its cause:\n%s", out)
	}
	status, out, errs = call("followup", examplePath("ridge-house"), strings.TrimSuffix(examplePath("ridge-house-winter"), ".yaml")+".csv")
	if status != 0 || errs != "" {
		t.Fatalf("followup: status %d, %s", status, errs)
	}
	for _, want := range []string{"one room short: Kitchen", "the days' heat shows", "nothing from 2026-11-14", "A year in the house as learned"} {
		if !strings.Contains(out, want) {
			t.Errorf("followup does not say %q:\n%s", want, out)
		}
	}
}
