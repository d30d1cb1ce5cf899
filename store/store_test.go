package store_test

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"curvewright/store"
	"curvewright/store/storetest"
)

func TestMemoryKeepsTheContract(t *testing.T) {
	storetest.Contract(t, func() store.Store { return store.NewMemory(storetest.Outside()) })
}

func TestNoIdentityWithoutChance(t *testing.T) {
	outside := storetest.Outside()
	outside.Random = iotest.ErrReader(errors.New("none left"))
	m := store.NewMemory(outside)
	if _, err := m.Create(t.Context(), store.Entry{Kind: store.Job}, nil, "", ""); err == nil {
		t.Error("an identity was made of nothing")
	}
}

func TestFold(t *testing.T) {
	for given, want := range map[string]string{
		"  Crème\u00a0 brûlée\n":  "creme brulee",
		"Größe ŒUVRE Łódź":        "grosse oeuvre lodz",
		"E\u0301bauche":           "ebauche",
		"SEÑOR O\u2019Neill 3–4":  "senor o'neill 3-4",
		"İstanbul ΑΒΓ 70 °F":      "istanbul αβγ 70 °f",
		"":                        "",
		" \u0301":                 "",
		"R-13, 12 ft × 9 ft @ 5%": "r-13, 12 ft × 9 ft @ 5%",
	} {
		if got := store.Fold(given); got != want {
			t.Errorf("%q folds to %q, not %q", given, got, want)
		}
		if again := store.Fold(store.Fold(given)); again != want {
			t.Errorf("%q folds to %q when folded twice", given, again)
		}
	}
}

// Whoever reads a trouble must learn that nothing is lost, and what to do.
func TestTroublesAreSentences(t *testing.T) {
	for _, trouble := range []error{
		store.NotFound, store.NotTrashed, store.Full, store.Busy, store.ReadOnly, store.Newer, store.Failed, store.Damaged, &store.Conflict{Newest: 7},
	} {
		text := trouble.Error()
		calms := strings.Contains(text, "safe") || strings.Contains(text, "left as it is") ||
			strings.Contains(text, "left as it was") || strings.Contains(text, "it was left") || strings.Contains(text, "nothing")
		if !calms || strings.HasSuffix(text, ".") || strings.ToLower(text[:1]) != text[:1] {
			t.Errorf("%q", text)
		}
	}
}

func ExampleStore() {
	var s store.Store = store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})
	ctx := context.Background()
	house, err := s.Create(ctx, store.Entry{Kind: store.Job, Title: "Quillon house"}, []byte("curvewright: 1\n"), "Orla", "begun")
	if err != nil {
		fmt.Println(err)
		return
	}
	change := store.Change{Title: "Quillon house", Document: []byte("curvewright: 1\njob: Quillon house\n"), By: "Bram", What: "name of the job set"}
	if _, err := s.Save(ctx, house.ID, 1, change); err != nil {
		fmt.Println(err)
		return
	}
	_, err = s.Save(ctx, house.ID, 1, change)
	fmt.Println(err)
	// Output: someone else has saved this in the meantime, as revision 2; both versions are safe, and have to be merged
}
