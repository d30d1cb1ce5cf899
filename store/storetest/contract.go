// Package storetest proves of a store that it keeps what package store promises. Every
// store runs [Contract] in its tests.
package storetest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"curvewright/store"
)

// Outside gives a clock that moves on by a second with each look, and chance that is
// the same in every run. Both may be used from several goroutines.
func Outside() store.Outside {
	var lock sync.Mutex
	now := time.Date(2026, 11, 25, 6, 30, 0, 0, time.FixedZone("", -5*3600))
	return store.Outside{
		Now: func() time.Time {
			lock.Lock()
			defer lock.Unlock()
			now = now.Add(time.Second)
			return now
		},
		Random: &locked{reader: rand.NewChaCha8([32]byte{1})},
	}
}

type locked struct {
	lock   sync.Mutex
	reader io.Reader
}

func (l *locked) Read(into []byte) (int, error) {
	l.lock.Lock()
	defer l.lock.Unlock()
	return l.reader.Read(into)
}

// Contract tests a store. Each call of open gives an empty one that works with
// [Outside]; the test closes it.
func Contract(t *testing.T, open func() store.Store) {
	for _, claim := range []struct {
		name string
		test func(*testing.T, *checked)
	}{
		{"keeps every revision", revisions},
		{"saves only on the newest", conflicts},
		{"saves from many at once lose nothing", manyAtOnce},
		{"lists what is asked for", lists},
		{"searches without regard to accents", searches},
		{"pages through a list", pages},
		{"erases only from the trash", erases},
		{"keeps files", files},
		{"knows what is not there", missing},
		{"refuses what no program of ours asks", refuses},
		{"gives nobody its own memory", ownMemory},
		{"stops when told", stops},
	} {
		t.Run(claim.name, func(t *testing.T) {
			s := open()
			claim.test(t, &checked{t, s})
			if err := s.Close(); err != nil {
				t.Errorf("does not close: %v", err)
			}
		})
	}
}

// checked is a store whose errors end the test.
type checked struct {
	t *testing.T
	store.Store
}

func (c *checked) ok(err error) {
	c.t.Helper()
	if err != nil {
		c.t.Fatal(err)
	}
}

func (c *checked) create(e store.Entry) store.Entry {
	c.t.Helper()
	made, err := c.Create(c.t.Context(), e, []byte("first"), "Orla", "begun")
	c.ok(err)
	return made
}

func (c *checked) save(e store.Entry, document string) store.Entry {
	c.t.Helper()
	saved, err := c.Save(c.t.Context(), e.ID, e.Revision, store.Change{
		Title: e.Title, About: e.About, Document: []byte(document), By: "Bram", What: "wrote " + document,
	})
	c.ok(err)
	return saved
}

func (c *checked) list(q store.Query) []string {
	c.t.Helper()
	entries, all, err := c.List(c.t.Context(), q)
	c.ok(err)
	if q.Limit == 0 && q.Offset == 0 && all != len(entries) {
		c.t.Errorf("%d entries, said to be %d", len(entries), all)
	}
	titles := []string{}
	for _, e := range entries {
		titles = append(titles, e.Title)
	}
	return titles
}

func (c *checked) lists(q store.Query, want ...string) {
	c.t.Helper()
	if got := c.list(q); !slices.Equal(got, append([]string{}, want...)) {
		c.t.Errorf("%+v lists %q, not %q", q, got, want)
	}
}

func revisions(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "Quillon house", About: "Lower Road"})
	if made.ID == "" || strings.Trim(made.ID, "0123456789abcdefghijklmnopqrstuvwxyz-_") != "" {
		t.Errorf("the identity %q does not fit into an address", made.ID)
	}
	if made.Revision != 1 || made.State != store.Active || made.ChangedBy != "Orla" || made.Changed.IsZero() || !made.Created.Equal(made.Changed) {
		t.Errorf("a new entry is %+v", made)
	}
	if made.Created.Location() != time.UTC {
		t.Errorf("%v is not in UTC", made.Created)
	}
	saved, err := c.Save(t.Context(), made.ID, 1, store.Change{
		Title: "Quillon", About: "Upper Road", Document: []byte("second\x00\xff"), By: "Bram", What: "site: elevation 0 ft → 9 ft", Undoes: 1, Typed: true,
	})
	c.ok(err)
	want := store.Entry{
		ID: made.ID, Kind: store.Job, Title: "Quillon", About: "Upper Road", State: store.Active, Revision: 2,
		Created: made.Created, Changed: saved.Changed, ChangedBy: "Bram",
	}
	if saved != want || !saved.Changed.After(made.Changed) {
		t.Errorf("saved as %+v, not %+v", saved, want)
	}
	entry, newest, err := c.Read(t.Context(), made.ID)
	c.ok(err)
	if entry != want {
		t.Errorf("read as %+v, not %+v", entry, want)
	}
	same(t, newest, store.Revision{
		Number: 2, When: saved.Changed, By: "Bram", What: "site: elevation 0 ft → 9 ft", Undoes: 1, Typed: true, Document: []byte("second\x00\xff"),
	})
	first, err := c.ReadRevision(t.Context(), made.ID, 1)
	c.ok(err)
	same(t, first, store.Revision{Number: 1, When: made.Created, By: "Orla", What: "begun", Document: []byte("first")})
	c.save(saved, "")
	history, err := c.History(t.Context(), made.ID, 0, 0)
	c.ok(err)
	if len(history) != 3 {
		t.Fatalf("%d revisions, not 3", len(history))
	}
	for i, r := range history {
		if r.Number != 3-i || r.Document != nil {
			t.Errorf("the history has at %d %+v", i, r)
		}
	}
	for _, part := range []struct{ below, most, first, count int }{
		{0, 2, 3, 2}, {3, 0, 2, 2}, {3, 1, 2, 1}, {1, 0, 0, 0}, {1000, 1000, 3, 3}, {-1, -1, 3, 3},
	} {
		got, err := c.History(t.Context(), made.ID, part.below, part.most)
		if err != nil || len(got) != part.count || part.count > 0 && got[0].Number != part.first {
			t.Errorf("below %d, %d at most: %+v, %v", part.below, part.most, got, err)
		}
	}
	if !history[1].Typed || history[0].Typed || history[2].Typed {
		t.Errorf("the history does not tell what was typed: %+v", history)
	}
	if _, empty, err := c.Read(t.Context(), made.ID); err != nil || len(empty.Document) != 0 {
		t.Errorf("an empty document came back as %q, %v", empty.Document, err)
	}
}

func same(t *testing.T, got, want store.Revision) {
	t.Helper()
	if !bytes.Equal(got.Document, want.Document) || !got.When.Equal(want.When) {
		t.Errorf("revision %+v, not %+v", got, want)
	}
	if got.Number != want.Number || got.By != want.By || got.What != want.What || got.Undoes != want.Undoes || got.Typed != want.Typed {
		t.Errorf("revision %+v, not %+v", got, want)
	}
}

func conflicts(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "Quillon house"})
	second := c.save(made, "second")
	for _, base := range []int{0, 1, 3, -1} {
		_, err := c.Save(t.Context(), made.ID, base, store.Change{Document: []byte("lost")})
		var conflict *store.Conflict
		if !errors.As(err, &conflict) || conflict.Newest != 2 {
			t.Errorf("on revision %d: %v", base, err)
		}
	}
	if entry, newest, err := c.Read(t.Context(), made.ID); err != nil || entry != second || string(newest.Document) != "second" {
		t.Errorf("after conflicts: %+v, %q, %v", entry, newest.Document, err)
	}
}

func manyAtOnce(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "Quillon house"})
	const writers, each = 4, 8
	var group sync.WaitGroup
	for w := range writers {
		group.Go(func() {
			for n := range each {
				for {
					entry, _, err := c.Read(t.Context(), made.ID)
					if err != nil {
						t.Error(err)
						return
					}
					_, err = c.Save(t.Context(), made.ID, entry.Revision, store.Change{What: fmt.Sprint(w, " ", n), Document: []byte("x")})
					var conflict *store.Conflict
					if errors.As(err, &conflict) {
						continue
					}
					if err != nil {
						t.Error(err)
						return
					}
					break
				}
			}
		})
	}
	group.Wait()
	history, err := c.History(t.Context(), made.ID, 0, 0)
	c.ok(err)
	seen := map[string]bool{}
	for _, r := range history {
		seen[r.What] = true
	}
	if len(history) != 1+writers*each || len(seen) != len(history) {
		t.Errorf("%d revisions with %d contents, not %d", len(history), len(seen), 1+writers*each)
	}
}

func lists(t *testing.T, c *checked) {
	c.lists(store.Query{})
	a := c.create(store.Entry{Kind: store.Job, Title: "Ébène", About: "Rue Haute"})
	b := c.create(store.Entry{Kind: store.Job, Title: "alder", About: "Lower Road"})
	v := c.create(store.Entry{Kind: store.Visit, Parent: a.ID, Title: "first visit"})
	c.create(store.Entry{Kind: store.Control, Title: "wall control"})
	z := c.create(store.Entry{Kind: store.Job, Title: "Zinnia"})
	a = c.save(a, "second")
	if v.Parent != a.ID {
		t.Errorf("the visit belongs to %q", v.Parent)
	}

	c.lists(store.Query{Kind: store.Job}, "Ébène", "Zinnia", "alder")
	c.lists(store.Query{Kind: store.Job, Sort: store.ByTitle}, "alder", "Ébène", "Zinnia")
	c.lists(store.Query{Kind: store.Job, Sort: store.ByCreated}, "Zinnia", "alder", "Ébène")
	c.lists(store.Query{Parent: a.ID}, "first visit")
	c.lists(store.Query{Parent: b.ID})
	c.lists(store.Query{Sort: store.ByTitle}, "alder", "Ébène", "first visit", "wall control", "Zinnia")

	c.ok(c.SetState(t.Context(), b.ID, store.Archived))
	c.ok(c.SetState(t.Context(), z.ID, store.Trashed))
	c.lists(store.Query{Kind: store.Job}, "Ébène")
	c.lists(store.Query{Kind: store.Job, State: store.Archived}, "alder")
	c.lists(store.Query{Kind: store.Job, State: store.Trashed}, "Zinnia")
	c.lists(store.Query{Kind: store.Job, State: store.Any, Sort: store.ByTitle}, "alder", "Ébène", "Zinnia")
	moved, _, err := c.Read(t.Context(), z.ID)
	c.ok(err)
	if moved.State != store.Trashed || moved.Revision != 1 || !moved.Changed.Equal(z.Changed) {
		t.Errorf("moving to the trash made %+v of %+v", moved, z)
	}
	c.ok(c.SetState(t.Context(), z.ID, store.Active))
	c.lists(store.Query{Kind: store.Job}, "Ébène", "Zinnia")
}

func searches(_ *testing.T, c *checked) {
	c.create(store.Entry{Kind: store.Job, Title: "Crème  Brûlée", About: "Straße 3, 50 % done"})
	c.create(store.Entry{Kind: store.Job, Title: "Müller", About: "O\u2019Neill's_road"})
	c.create(store.Entry{Kind: store.Job, Title: "Mu\u0308hle", About: "Niño"})
	for text, want := range map[string][]string{
		"creme":            {"Crème  Brûlée"},
		"CRÈME strasse":    {"Crème  Brûlée"},
		"brulee creme":     {"Crème  Brûlée"},
		"creme muller":     nil,
		"mu":               {"Mu\u0308hle", "Müller"},
		"%":                {"Crème  Brûlée"},
		"_":                {"Müller"},
		"o'neill":          {"Müller"},
		"nino":             {"Mu\u0308hle"},
		" \t ":             {"Mu\u0308hle", "Müller", "Crème  Brûlée"},
		"'; DROP TABLE x;": nil,
		"\x00":             nil,
	} {
		c.lists(store.Query{Text: text}, want...)
	}
	made := c.create(store.Entry{Kind: store.Job, Title: "Before"})
	made.Title = "After"
	c.save(made, "x")
	c.lists(store.Query{Text: "before"})
	c.lists(store.Query{Text: "after"}, "After")
}

func pages(t *testing.T, c *checked) {
	for i := range 7 {
		c.create(store.Entry{Kind: store.Job, Title: fmt.Sprint("house ", i)})
	}
	c.create(store.Entry{Kind: store.Control, Title: "control"})
	for _, p := range []struct {
		limit, offset int
		want          []string
	}{
		{3, 0, []string{"house 0", "house 1", "house 2"}},
		{3, 3, []string{"house 3", "house 4", "house 5"}},
		{3, 6, []string{"house 6"}},
		{3, 9, nil},
		{0, 5, []string{"house 5", "house 6"}},
		{100, 6, []string{"house 6"}},
	} {
		q := store.Query{Kind: store.Job, Text: "house", Sort: store.ByTitle, Limit: p.limit, Offset: p.offset}
		c.lists(q, p.want...)
		if _, all, err := c.List(t.Context(), q); err != nil || all != 7 {
			t.Errorf("%+v is one page of %d, %v", q, all, err)
		}
	}
}

func erases(t *testing.T, c *checked) {
	house := c.create(store.Entry{Kind: store.Job, Title: "house"})
	visit := c.create(store.Entry{Kind: store.Visit, Parent: house.ID, Title: "visit"})
	other := c.create(store.Entry{Kind: store.Job, Title: "other"})
	photo, err := c.PutFile(t.Context(), visit.ID, store.File{Name: "boiler.jpg", Data: []byte{1}})
	c.ok(err)
	for _, state := range []store.State{store.Active, store.Archived} {
		c.ok(c.SetState(t.Context(), house.ID, state))
		if err := c.Erase(t.Context(), house.ID); !errors.Is(err, store.NotTrashed) {
			t.Errorf("erased from %s: %v", state, err)
		}
	}
	c.ok(c.SetState(t.Context(), house.ID, store.Trashed))
	c.ok(c.Erase(t.Context(), house.ID))
	for _, id := range []string{house.ID, visit.ID} {
		if _, _, err := c.Read(t.Context(), id); !errors.Is(err, store.NotFound) {
			t.Errorf("an erased document is read: %v", err)
		}
		if _, err := c.ReadRevision(t.Context(), id, 1); !errors.Is(err, store.NotFound) {
			t.Errorf("an erased revision is read: %v", err)
		}
	}
	if _, err := c.ReadFile(t.Context(), visit.ID, photo); !errors.Is(err, store.NotFound) {
		t.Errorf("an erased file is read: %v", err)
	}
	c.lists(store.Query{State: store.Any}, other.Title)
}

func files(t *testing.T, c *checked) {
	house := c.create(store.Entry{Kind: store.Job, Title: "house"})
	other := c.create(store.Entry{Kind: store.Job, Title: "other"})
	photo := store.File{Name: "Kessel.jpg", Type: "image/jpeg", Data: bytes.Repeat([]byte{0, 0xff, 'x'}, 100_000)}
	first, err := c.PutFile(t.Context(), house.ID, photo)
	c.ok(err)
	second, err := c.PutFile(t.Context(), house.ID, store.File{Name: "empty.txt", Type: "text/plain"})
	c.ok(err)
	listed, err := c.Files(t.Context(), house.ID)
	c.ok(err)
	if len(listed) != 2 || listed[0].ID != first || listed[1].ID != second ||
		listed[0].Name != "Kessel.jpg" || listed[0].Type != "image/jpeg" || listed[0].Size != 300_000 || listed[0].Added.IsZero() {
		t.Errorf("the files are %+v", listed)
	}
	got, err := c.ReadFile(t.Context(), house.ID, first)
	c.ok(err)
	if got.Name != photo.Name || got.Type != photo.Type || !bytes.Equal(got.Data, photo.Data) {
		t.Errorf("%s came back as %s, %s, %d bytes", photo.Name, got.Name, got.Type, len(got.Data))
	}
	if _, err := c.ReadFile(t.Context(), other.ID, first); !errors.Is(err, store.NotFound) {
		t.Errorf("a file of one house is read from another: %v", err)
	}
	if err := c.RemoveFile(t.Context(), other.ID, first); !errors.Is(err, store.NotFound) {
		t.Errorf("a file of one house is removed from another: %v", err)
	}
	before, err := c.Files(t.Context(), house.ID)
	c.ok(err)
	if err := c.RenameFile(t.Context(), other.ID, first, "stolen"); !errors.Is(err, store.NotFound) {
		t.Errorf("a file of another document was renamed: %v", err)
	}
	if err := c.RenameFile(t.Context(), house.ID, first, "two\nlines"); err == nil {
		t.Error("a file has a name of two lines")
	}
	c.ok(c.RenameFile(t.Context(), house.ID, first, "bill of 2025"))
	after, err := c.Files(t.Context(), house.ID)
	c.ok(err)
	before[0].Name = "bill of 2025"
	if !slices.Equal(before, after) {
		t.Errorf("renamed: %+v, not %+v", after, before)
	}
	c.ok(c.RemoveFile(t.Context(), house.ID, first))
	if listed, err := c.Files(t.Context(), house.ID); err != nil || len(listed) != 1 {
		t.Errorf("after removing one: %+v, %v", listed, err)
	}
	if err := c.RemoveFile(t.Context(), house.ID, first); !errors.Is(err, store.NotFound) {
		t.Errorf("a file is removed twice: %v", err)
	}
	if entry, _, err := c.Read(t.Context(), house.ID); err != nil || entry.Revision != 1 {
		t.Errorf("files made a revision: %+v, %v", entry, err)
	}
}

func missing(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "house"})
	ctx := t.Context()
	for _, id := range []string{"", "nothing", made.ID + "x", "'"} {
		_, _, read := c.Read(ctx, id)
		_, revision := c.ReadRevision(ctx, id, 1)
		_, history := c.History(ctx, id, 0, 0)
		_, save := c.Save(ctx, id, 1, store.Change{})
		_, put := c.PutFile(ctx, id, store.File{})
		_, files := c.Files(ctx, id)
		_, file := c.ReadFile(ctx, id, "nothing")
		for i, err := range []error{read, revision, history, save, put, files, file, c.SetState(ctx, id, store.Trashed), c.Erase(ctx, id), c.RemoveFile(ctx, id, "nothing"), c.RenameFile(ctx, id, "nothing", "name")} {
			if !errors.Is(err, store.NotFound) {
				t.Errorf("%q, method %d: %v", id, i, err)
			}
		}
	}
	for _, number := range []int{-1, 0, 2} {
		if _, err := c.ReadRevision(ctx, made.ID, number); !errors.Is(err, store.NotFound) {
			t.Errorf("revision %d: %v", number, err)
		}
	}
	if _, err := c.Create(ctx, store.Entry{Kind: store.Visit, Parent: "nothing"}, nil, "", ""); !errors.Is(err, store.NotFound) {
		t.Errorf("a visit to a house that is not there: %v", err)
	}
}

func refuses(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "house"})
	ctx := t.Context()
	_, kind := c.Create(ctx, store.Entry{Kind: "recipe"}, nil, "", "")
	_, title := c.Create(ctx, store.Entry{Kind: store.Job, Title: "two\nlines"}, nil, "", "")
	_, undoes := c.Save(ctx, made.ID, 1, store.Change{Undoes: 2})
	_, about := c.Save(ctx, made.ID, 1, store.Change{About: "\xff"})
	_, file := c.PutFile(ctx, made.ID, store.File{Name: "two\nlines"})
	for i, err := range []error{kind, title, undoes, about, file, c.SetState(ctx, made.ID, store.Any), c.SetState(ctx, made.ID, "lost")} {
		if err == nil {
			t.Errorf("request %d was granted", i)
		}
	}
	c.lists(store.Query{State: store.Any}, "house")
	if entry, _, err := c.Read(ctx, made.ID); err != nil || entry != made {
		t.Errorf("refusals changed %+v to %+v, %v", made, entry, err)
	}
}

func ownMemory(t *testing.T, c *checked) {
	document, data := []byte("document"), []byte("file")
	made, err := c.Create(t.Context(), store.Entry{Kind: store.Job}, document, "", "")
	c.ok(err)
	photo, err := c.PutFile(t.Context(), made.ID, store.File{Data: data})
	c.ok(err)
	document[0], data[0] = '!', '!'
	for range 2 {
		_, newest, err := c.Read(t.Context(), made.ID)
		c.ok(err)
		file, err := c.ReadFile(t.Context(), made.ID, photo)
		c.ok(err)
		if string(newest.Document) != "document" || string(file.Data) != "file" {
			t.Errorf("kept %q and %q", newest.Document, file.Data)
		}
		newest.Document[1], file.Data[1] = '!', '!'
	}
}

func stops(t *testing.T, c *checked) {
	made := c.create(store.Entry{Kind: store.Job, Title: "house"})
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, _, err := c.Read(ctx, made.ID); !errors.Is(err, context.Canceled) {
		t.Errorf("read: %v", err)
	}
	if _, err := c.Save(ctx, made.ID, 1, store.Change{}); !errors.Is(err, context.Canceled) {
		t.Errorf("save: %v", err)
	}
	if entry, _, err := c.Read(t.Context(), made.ID); err != nil || entry != made {
		t.Errorf("a save that was called off left %+v, %v", entry, err)
	}
}
