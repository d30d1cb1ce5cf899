package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"curvewright/job"
	"curvewright/store"
)

// clocked is a store whose clock the test moves, counting what is read of histories.
type clocked struct {
	store.Store
	told int // revisions read of histories
}

func (c *clocked) History(ctx context.Context, id string, below, most int) ([]store.Revision, error) {
	list, err := c.Store.History(ctx, id, below, most)
	c.told += len(list)
	return list, err
}

type zeros struct{ n byte }

func (z *zeros) Read(into []byte) (int, error) {
	for i := range into {
		z.n++
		into[i] = z.n*31 + byte(i)
	}
	return len(into), nil
}

func clockedHandler(t testing.TB, now *time.Time) (http.Handler, *clocked) {
	t.Helper()
	st := &clocked{Store: store.NewMemory(store.Outside{Now: func() time.Time { return *now }, Random: &zeros{}})}
	h, err := New(Config{Version: "test", Store: st})
	if err != nil {
		t.Fatal(err)
	}
	return h, st
}

// What one person types within a few minutes is one save of the history; a pause, another
// person or anything but typing begins a new one.
func TestTypingIsOneSaveOfTheHistory(t *testing.T) {
	now := time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)
	h, _ := clockedHandler(t, &now)
	at := begun(t, h, "short-survey")
	form := at + "/survey/house"
	typed := func(design string) {
		t.Helper()
		values := formOn(get(t, h, form).Body.String())
		values.Set(typedPrefix+"site.design_outdoor", design)
		if w := post(t, h, form+"?live=save", values); w.Code != http.StatusOK {
			t.Fatalf("answered %d", w.Code)
		}
	}
	saves := func() int { return strings.Count(get(t, h, at+"/history").Body.String(), "<li><div>") }
	for i, design := range []string{"1", "2", "3"} {
		now = now.Add(time.Duration(20+i) * time.Second)
		typed(design)
	}
	page := get(t, h, at+"/history").Body.String()
	if saves() != 2 || !strings.Contains(page, "3 steps") || !strings.Contains(page, "→ 3 °F") || strings.Contains(page, "→ 2 °F") {
		t.Errorf("three answers in a minute are %d saves", saves()-1)
	}
	now = now.Add(6 * time.Minute)
	typed("4")
	if saves() != 3 {
		t.Errorf("after a pause there are %d saves", saves()-1)
	}
	post(t, h, "/preferences", url.Values{"name": {"Quux"}})
	now = now.Add(time.Second)
	typed("5")
	if saves() != 4 {
		t.Errorf("another person's answer makes %d saves", saves()-1)
	}
	// An undo takes back one answer, not all that was typed.
	post(t, h, at+"/undo", url.Values{})
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "design_outdoor: 4 °F") {
		t.Error("the undo did not take the last answer back")
	}
	post(t, h, at+"/undo", url.Values{})
	post(t, h, at+"/redo", url.Values{})
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "design_outdoor: 4 °F") {
		t.Error("the redo did not bring it again")
	}
	// The save in which the three answers were typed can be brought back.
	if w := post(t, h, at+"/history/4", url.Values{}); w.Code != http.StatusSeeOther {
		t.Fatalf("answered %d", w.Code)
	}
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, "design_outdoor: 3 °F") {
		t.Error("the save was not brought back")
	}
}

// However long a job has been worked on, a page reads no more of its history than it shows.
func TestAPageReadsAPartOfALongHistory(t *testing.T) {
	now := time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)
	h, st := clockedHandler(t, &now)
	at := begun(t, h, "short-survey")
	id := strings.TrimPrefix(at, "/jobs/")
	ctx := context.Background()
	entry, revision, err := st.Read(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	j, _ := job.Draft(revision.Document)
	const all = 5000
	for n := entry.Revision; n < all; n++ {
		now = now.Add(7 * time.Second)
		j.Site.DesignOutdoor = job.Says(j.Site.DesignOutdoor.Value+0.001, job.Measured)
		document, err := job.Write(j)
		if err != nil {
			t.Fatal(err)
		}
		if entry, err = st.Save(ctx, id, n, store.Change{Title: j.Name, Document: document, What: fmt.Sprint("step ", n+1), Typed: n%2 == 0 || n%400 > 200}); err != nil {
			t.Fatal(err)
		}
	}
	for _, place := range append([]string{"job.yaml", "history?below=2500"}, jobPlaces...) {
		st.told = 0
		if w := get(t, h, at+"/"+place); w.Code != http.StatusOK {
			t.Errorf("%s: %d", place, w.Code)
		}
		if st.told > 3*historyPart {
			t.Errorf("%s reads %d revisions of the history", place, st.told)
		}
	}
	// From part to part, the history is told to its end.
	seen, next := 0, at+"/history"
	for range all {
		page := get(t, h, next).Body.String()
		seen += strings.Count(page, "<li><div>")
		_, rest, more := strings.Cut(page, at+"/history?below=")
		if !more {
			break
		}
		next = at + "/history?below=" + rest[:strings.IndexByte(rest, '"')]
	}
	revisions, err := st.History(ctx, id, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if seen < len(joined(revisions)) || seen > len(joined(revisions))*11/10 {
		t.Errorf("%d saves are told of %d", seen, len(joined(revisions)))
	}
}

// A long row of undoing needs more of the history than a page reads at first.
func TestUndoFindsItsWayThroughALongHistory(t *testing.T) {
	now := time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)
	h, _ := clockedHandler(t, &now)
	at := begun(t, h, "short-survey")
	form := at + "/survey/house"
	const answers = 2*historyPart + 5
	for i := range answers {
		now = now.Add(time.Second)
		values := formOn(get(t, h, form).Body.String())
		values.Set(typedPrefix+"site.design_outdoor", fmt.Sprint(i%20))
		post(t, h, form+"?live=save", values)
	}
	for range answers {
		post(t, h, at+"/undo", url.Values{})
	}
	example := begun(t, h, "short-survey")
	if got, want := get(t, h, at+"/job.yaml").Body.String(), get(t, h, example+"/job.yaml").Body.String(); got != want {
		t.Error("undoing all does not lead back to the beginning")
	}
	for range answers {
		post(t, h, at+"/redo", url.Values{})
	}
	if document := get(t, h, at+"/job.yaml").Body.String(); !strings.Contains(document, fmt.Sprintf("design_outdoor: %d °F", (answers-1)%20)) {
		t.Error("bringing all again does not lead to the end")
	}
}

func BenchmarkSurveyOfFiveThousandRevisions(b *testing.B) {
	now := time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)
	h, st := clockedHandler(b, &now)
	at := begun(b, h, "short-survey")
	id := strings.TrimPrefix(at, "/jobs/")
	ctx := context.Background()
	_, revision, err := st.Read(ctx, id)
	if err != nil {
		b.Fatal(err)
	}
	for n := 1; n < 5000; n++ {
		if _, err := st.Save(ctx, id, n, store.Change{Title: "short", Document: revision.Document, Typed: true}); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		get(b, h, at+"/survey/house")
	}
}
