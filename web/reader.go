package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// Who reads the pages: language, units, clock, paper, and what fuel costs there. It is
// kept beside the jobs and holds for all of them.

// preferences are kept as JSON. An empty word follows the browser or the job.
type preferences struct {
	Name     string `json:"name,omitempty"`     // who is named beside what is saved
	Language string `json:"language,omitempty"` // en, fr, es, de
	Units    string `json:"units,omitempty"`    // us, si, ca
	Decimal  string `json:"decimal,omitempty"`  // point, comma
	Clock    string `json:"clock,omitempty"`    // 12, 24
	Dates    string `json:"dates,omitempty"`    // ymd, dmy, mdy
	Paper    string `json:"paper,omitempty"`    // letter, a4
	Price    string `json:"price,omitempty"`    // of a kWh of fuel, as typed
	Currency string `json:"currency,omitempty"` // its sign
	Carbon   string `json:"carbon,omitempty"`   // kg CO2 in a kWh of fuel, as typed

	Quantities map[string]string `json:"quantities,omitempty"` // units apart from the set: flow to L/min
}

// reader is who looks at a page.
type reader struct {
	preferences
	Language words.Language
	System   units.System
	Chosen   bool // the units were chosen, so that a job does not choose them
}

type readerKey struct{}

// readerOf is who looks at the page of a context.
func readerOf(ctx context.Context) reader {
	r, _ := ctx.Value(readerKey{}).(reader)
	return r
}

// preferencesID is where the preferences are kept.
const preferencesTitle = "preferences"

// preferred reads what was kept. What cannot be read is as good as not said.
func (s *server) preferred(ctx context.Context) (preferences, store.Entry, error) {
	var p preferences
	found, _, err := s.store.List(ctx, store.Query{Kind: store.Preferences, Limit: 1})
	if err != nil || len(found) == 0 {
		return p, store.Entry{}, err
	}
	entry, revision, err := s.store.Read(ctx, found[0].ID)
	if err != nil {
		return p, store.Entry{}, err
	}
	if err := json.Unmarshal(revision.Document, &p); err != nil {
		return preferences{}, entry, nil
	}
	return p, entry, nil
}

// keepPreferences saves them.
func (s *server) keepPreferences(ctx context.Context, p preferences) error {
	document, err := json.Marshal(p)
	if err != nil {
		return err
	}
	for range 3 { // somebody else may save at the same moment
		_, entry, err := s.preferred(ctx)
		if err != nil {
			return err
		}
		if entry.ID == "" {
			_, err = s.store.Create(ctx, store.Entry{Kind: store.Preferences, Title: preferencesTitle}, document, p.Name, "")
			return err
		}
		_, err = s.store.Save(ctx, entry.ID, entry.Revision, store.Change{Title: preferencesTitle, Document: document, By: p.Name})
		var conflict *store.Conflict
		if !errors.As(err, &conflict) {
			return err
		}
	}
	return fmt.Errorf("the preferences are being saved elsewhere at the same time; save once more")
}

// known finds out who reads, before a page is made.
func (s *server) known(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/assets/") {
			next.ServeHTTP(w, r)
			return
		}
		who := reader{Language: words.Wanted(r.Header.Get("Accept-Language"))}
		if p, _, err := s.preferred(r.Context()); err == nil {
			who.preferences = p
		}
		if l, ok := words.Tagged(who.preferences.Language); ok {
			who.Language = l
		}
		who.Language = who.Language.Writes(who.Decimal)
		who.System, who.Chosen, _ = who.system()
		if set, ok := setNamed(who.Units); ok && who.Paper == "" {
			who.Paper = set.paper
		}
		ctx := context.WithValue(words.In(r.Context(), who.Language), readerKey{}, who)
		next.ServeHTTP(w, r.WithContext(ctx))
	})
}

// by is who is named beside what is saved.
func (r reader) by() string { return r.Name }
