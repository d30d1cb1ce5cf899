package sqlite

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"

	"curvewright/store"
	"curvewright/store/storetest"
)

func TestKeepsTheContract(t *testing.T) {
	storetest.Contract(t, func() store.Store {
		d, err := Open(filepath.Join(t.TempDir(), "folder", "jobs ?#%41 ä.sqlite"), storetest.Outside())
		if err != nil {
			t.Fatal(err)
		}
		return d
	})
}

func opened(t testing.TB, path string) *DB {
	t.Helper()
	d, err := Open(path, storetest.Outside())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

// fresh gives the path of a file that is not there yet.
func fresh(t testing.TB) string { return filepath.Join(t.TempDir(), "jobs.sqlite") }

func created(t testing.TB, s store.Store) store.Entry {
	t.Helper()
	e, err := s.Create(t.Context(), store.Entry{Kind: store.Job, Title: "Quillon house"}, []byte("first"), "Orla", "begun")
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func runSQL(t testing.TB, d *DB, text string) {
	t.Helper()
	if _, err := d.db.ExecContext(t.Context(), text); err != nil {
		t.Fatal(err)
	}
}

func pragma(t testing.TB, db *sql.DB, name string) (value string) {
	t.Helper()
	if err := db.QueryRowContext(t.Context(), "PRAGMA "+name).Scan(&value); err != nil {
		t.Fatal(err)
	}
	return value
}

func TestIsThereAfterOpeningAgain(t *testing.T) {
	path := fresh(t)
	d := opened(t, path)
	made := created(t, d)
	for name, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "user_version": strconv.Itoa(len(migrations()))} {
		if got := pragma(t, d.db, name); got != want {
			t.Errorf("%s is %s, not %s", name, got, want)
		}
	}
	if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("the file may be read by others: %v, %v", info.Mode(), err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	left, err := filepath.Glob(path + "*")
	if err != nil || len(left) != 1 {
		t.Errorf("after closing there are %v", left)
	}
	if e, r, err := opened(t, path).Read(t.Context(), made.ID); err != nil || e != made || string(r.Document) != "first" {
		t.Errorf("%+v, %q, %v", e, r.Document, err)
	}
}

// What is not ours, or not for this version, is told and left as it is to the byte.
func TestLeavesOtherFilesAlone(t *testing.T) {
	foreign := func(path string) {
		db, err := sql.Open("sqlite3", address(path))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := db.Exec("CREATE TABLE bookmark (address TEXT)"); err != nil {
			t.Fatal(err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		what string
		make func(path string)
		want store.Trouble
	}{
		{"a letter", func(path string) { write(t, path, strings.Repeat("Dear Sir or Madam, ", 300)) }, store.Damaged},
		{"three letters", func(path string) { write(t, path, "abc") }, store.Damaged},
		{"a torn header", func(path string) { created(t, closing(t, path)); overwrite(t, path, 20, 60) }, store.Damaged},
		{"half of a file", func(path string) { created(t, closing(t, path)); cut(t, path, 5000) }, store.Damaged},
		{"another program's file", foreign, store.Damaged},
		{"a newer version's file", func(path string) { runSQL(t, closing(t, path), "PRAGMA user_version = 99") }, store.Newer},
	} {
		path := fresh(t)
		c.make(path)
		closeAll(t)
		before := content(t, path)
		d, err := Open(path, storetest.Outside())
		if err == nil {
			_, _, err = d.List(t.Context(), store.Query{})
			d.Close()
		}
		if !errors.Is(err, c.want) || err.Error() != c.want.Error() {
			t.Errorf("%s: %v", c.what, err)
		}
		if !bytes.Equal(before, content(t, path)) {
			t.Errorf("%s was changed", c.what)
		}
	}
}

// open files of a test that are to be closed before it goes on
var toClose []*DB

func closing(t *testing.T, path string) *DB {
	d := opened(t, path)
	toClose = append(toClose, d)
	return d
}

func closeAll(t *testing.T) {
	for _, d := range toClose {
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
	}
	toClose = nil
}

func write(t *testing.T, path, text string) {
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func content(t *testing.T, path string) []byte {
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func overwrite(t *testing.T, path string, from, to int) {
	closeAll(t)
	data := content(t, path)
	copy(data[from:to], bytes.Repeat([]byte("?"), to-from))
	write(t, path, string(data))
}

func cut(t *testing.T, path string, length int) {
	closeAll(t)
	write(t, path, string(content(t, path)[:length]))
}

func TestAFullDiskLosesNothing(t *testing.T) {
	d := opened(t, fresh(t))
	d.db.SetMaxOpenConns(1) // the limit below is one of a connection
	made := created(t, d)
	runSQL(t, d, "PRAGMA max_page_count = 1") // as many as there are already
	noise := make([]byte, 1<<20)
	if _, err := io.ReadFull(storetest.Outside().Random, noise); err != nil {
		t.Fatal(err)
	}
	_, save := d.Save(t.Context(), made.ID, 1, store.Change{Title: "lost", Document: noise})
	_, put := d.PutFile(t.Context(), made.ID, store.File{Data: noise})
	for _, err := range []error{save, put} {
		if !errors.Is(err, store.Full) || err.Error() != store.Full.Error() {
			t.Errorf("%v", err)
		}
	}
	runSQL(t, d, "PRAGMA max_page_count = 4294967294")
	if e, r, err := d.Read(t.Context(), made.ID); err != nil || e != made || string(r.Document) != "first" {
		t.Errorf("%+v, %q, %v", e, r.Document, err)
	}
	if _, err := d.Save(t.Context(), made.ID, 1, store.Change{Document: noise}); err != nil {
		t.Errorf("after making room: %v", err)
	}
	if got := pragma(t, d.db, "integrity_check"); got != "ok" {
		t.Error(got)
	}
}

func TestReasonsOfTheSystemAreTold(t *testing.T) {
	for _, c := range []struct {
		reason error
		want   error
	}{
		{&fs.PathError{Op: "write", Path: "jobs.sqlite-wal", Err: syscall.ENOSPC}, store.Full},
		{&fs.PathError{Op: "write", Path: "jobs.sqlite-wal", Err: syscall.EDQUOT}, store.Full},
		{&fs.PathError{Op: "open", Path: "jobs.sqlite", Err: syscall.EACCES}, store.ReadOnly},
		{&fs.PathError{Op: "open", Path: "jobs.sqlite", Err: syscall.EROFS}, store.ReadOnly},
		{sqlite3.IOERR_READ, store.Failed},
		{sqlite3.CORRUPT_INDEX, store.Damaged},
		{sqlite3.BUSY_SNAPSHOT, store.Busy},
		{fmt.Errorf("save: %w", sqlite3.FULL), store.Full},
		{sql.ErrNoRows, store.NotFound},
		{sqlite3.INTERRUPT, context.Canceled},
	} {
		err := told(c.reason)
		if !errors.Is(err, c.want) || err.Error() != c.want.Error() {
			t.Errorf("%v is told as %v", c.reason, err)
		}
	}
}

func TestALockedFileIsTold(t *testing.T) {
	path := fresh(t)
	other := opened(t, path)
	made := created(t, other)
	d, err := open(path, storetest.Outside(), 20*time.Millisecond, migrations())
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	tx, err := other.db.BeginTx(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.Save(t.Context(), made.ID, 1, store.Change{}); !errors.Is(err, store.Busy) || err.Error() != store.Busy.Error() {
		t.Errorf("%v", err)
	}
	if e, _, err := d.Read(t.Context(), made.ID); err != nil || e != made {
		t.Errorf("reading while another writes: %+v, %v", e, err)
	}
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Save(t.Context(), made.ID, 1, store.Change{}); err != nil {
		t.Errorf("after the other is done: %v", err)
	}
}

func TestWhatMayNotBeWrittenIsTold(t *testing.T) {
	d := opened(t, fresh(t))
	d.db.SetMaxOpenConns(1)
	made := created(t, d)
	runSQL(t, d, "PRAGMA query_only = on")
	if err := d.SetState(t.Context(), made.ID, store.Trashed); !errors.Is(err, store.ReadOnly) || err.Error() != store.ReadOnly.Error() {
		t.Errorf("%v", err)
	}
	folder := t.TempDir()
	if _, err := Open(folder, storetest.Outside()); err == nil {
		t.Error("a folder was opened as a file")
	}
	if os.Geteuid() <= 0 {
		return // nothing is forbidden to root
	}
	if err := os.Chmod(folder, 0o500); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(filepath.Join(folder, "jobs.sqlite"), storetest.Outside()); !errors.Is(err, store.ReadOnly) {
		t.Errorf("%v", err)
	}
}

func TestOlderFilesAreBroughtUpToDate(t *testing.T) {
	path := fresh(t)
	d := opened(t, path)
	made := created(t, d)
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	wrong := append(migrations(), "CREATE TABLE tool (name TEXT) STRICT", "no such statement")
	if _, err := open(path, storetest.Outside(), time.Second, wrong); err == nil {
		t.Fatal("a step that fails passed")
	}
	d, err := open(path, storetest.Outside(), time.Second, wrong[:len(wrong)-1])
	if err != nil {
		t.Fatal(err)
	}
	runSQL(t, d, "INSERT INTO tool VALUES ('saw')")
	if e, _, err := d.Read(t.Context(), made.ID); err != nil || e != made || pragma(t, d.db, "user_version") != strconv.Itoa(len(wrong)-1) {
		t.Errorf("%+v, %v", e, err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, storetest.Outside()); !errors.Is(err, store.Newer) {
		t.Errorf("the old program opens it: %v", err)
	}
	if e, r, err := opened(t, fmt.Sprintf("%s.version-%d", path, len(migrations()))).Read(t.Context(), made.ID); err != nil || e != made || string(r.Document) != "first" {
		t.Errorf("the copy from before holds %+v, %q, %v", e, r.Document, err)
	}
}

// A file saved by every version that there has been is kept, and opens.
func TestStoredVersionsOpen(t *testing.T) {
	versions, err := filepath.Glob("testdata/versions/*.sqlite")
	if err != nil || len(versions) != len(migrations()) {
		t.Fatalf("there are files of the versions %v; keep one of each", versions)
	}
	for _, version := range versions {
		path := fresh(t)
		write(t, path, string(content(t, version)))
		d := opened(t, path)
		entries, all, err := d.List(t.Context(), store.Query{State: store.Any, Sort: store.ByTitle})
		if err != nil || all != 2 || entries[1].Title != "Quillon house" {
			t.Errorf("%s: %+v, %v", version, entries, err)
			continue
		}
		history, err := d.History(t.Context(), entries[1].ID, 0, 0)
		if err != nil || len(history) != 2 {
			t.Errorf("%s: %+v, %v", version, history, err)
		}
		if _, r, err := d.Read(t.Context(), entries[1].ID); err != nil || !bytes.HasPrefix(r.Document, []byte("curvewright: 1\n")) {
			t.Errorf("%s: %q, %v", version, r.Document, err)
		}
		if files, err := d.Files(t.Context(), entries[1].ID); err != nil || len(files) != 1 {
			t.Errorf("%s: %+v, %v", version, files, err)
		}
	}
}

// twice gives every identity again until it was refused.
type twice struct{ n int }

func (r *twice) Read(into []byte) (int, error) {
	for i := range into {
		into[i] = byte(r.n / 3)
	}
	r.n++
	return len(into), nil
}

func TestDrawsAgainWhenAnIdentityIsTaken(t *testing.T) {
	outside := storetest.Outside()
	outside.Random = &twice{}
	d, err := Open(fresh(t), outside)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	first, second := created(t, d), created(t, d)
	if first.ID == second.ID {
		t.Errorf("two documents are called %s", first.ID)
	}
}

func TestPath(t *testing.T) {
	data := t.TempDir()
	t.Setenv("XDG_DATA_HOME", data)
	if got, err := Path(); err != nil || got != filepath.Join(data, "curvewright", "jobs.sqlite") {
		t.Errorf("%s, %v", got, err)
	}
	t.Setenv("XDG_DATA_HOME", "relative")
	t.Setenv("HOME", data)
	if got, err := Path(); err != nil || runtime.GOOS == "linux" && got != filepath.Join(data, ".local", "share", "curvewright", "jobs.sqlite") {
		t.Errorf("%s, %v", got, err)
	}
}

// many fills a file with that many jobs.
func many(b *testing.B, n int) *DB {
	d := opened(b, fresh(b))
	runSQL(b, d, "PRAGMA synchronous = off")
	streets := []string{"Lower Road", "Rue de l'Église", "Hauptstraße", "Calle Mayor"}
	tx, err := d.db.BeginTx(b.Context(), nil)
	if err != nil {
		b.Fatal(err)
	}
	for i := range n {
		title, about := fmt.Sprintf("House of family %d Müller", i), fmt.Sprintf("%s %d, Tamarack Hollow · radiators · slab", streets[i%4], i)
		id, err := d.outside.NewID()
		if err != nil {
			b.Fatal(err)
		}
		_, err = tx.Exec(`INSERT INTO document (id, kind, title, about, searched, state, revision, created, changed, changed_by) VALUES (?, 'job', ?, ?, ?, 'active', 1, ?, ?, 'Orla')`,
			id, title, about, store.Searched(title, about), i, i)
		if err != nil {
			b.Fatal(err)
		}
	}
	if err := tx.Commit(); err != nil {
		b.Fatal(err)
	}
	return d
}

// Ten thousand jobs, a page of fifty: to be under 50 ms.
func BenchmarkSearch(b *testing.B) {
	d := many(b, 10_000)
	for _, q := range []store.Query{
		{Kind: store.Job, Limit: 50},
		{Kind: store.Job, Limit: 50, Text: "eglise 777"},
		{Kind: store.Job, Limit: 50, Text: "muller", Sort: store.ByTitle},
		{Kind: store.Job, Limit: 50, Text: "hauptstrasse muller slab 9", Offset: 100},
		{State: store.Any, Text: "nowhere"},
	} {
		b.Run(fmt.Sprintf("%q by %s", q.Text, q.Sort), func(b *testing.B) {
			for b.Loop() {
				if _, _, err := d.List(context.Background(), q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func document(t testing.TB) []byte {
	data, err := os.ReadFile("../../examples/ridge-house.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func BenchmarkSave(b *testing.B) {
	d := opened(b, fresh(b))
	e := created(b, d)
	data := document(b)
	for b.Loop() {
		saved, err := d.Save(context.Background(), e.ID, e.Revision, store.Change{Title: "House", Document: data})
		if err != nil {
			b.Fatal(err)
		}
		e = saved
	}
}

func BenchmarkRead(b *testing.B) {
	d := opened(b, fresh(b))
	e := created(b, d)
	if _, err := d.Save(context.Background(), e.ID, 1, store.Change{Document: document(b)}); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, _, err := d.Read(context.Background(), e.ID); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPack(b *testing.B) {
	data := document(b)
	for b.Loop() {
		_, packed, err := pack(data)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(packed))/float64(len(data)), "of-its-size")
	}
}
