package sqlite

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"curvewright/store"
	"curvewright/store/storetest"
)

// A second program that saves to the same file is this test's own, run again.
const (
	saverFile = "CURVEWRIGHT_TEST_SAVER_FILE"
	saverJob  = "CURVEWRIGHT_TEST_SAVER_JOB"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(saverFile); path != "" {
		if err := saveForEver(path, os.Getenv(saverJob)); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// saveForEver saves revision after revision and says the number of each when it is kept.
func saveForEver(path, id string) error {
	d, err := Open(path, storetest.Outside())
	if err != nil {
		return err
	}
	ctx := context.Background()
	e, _, err := d.Read(ctx, id)
	for err == nil {
		var saved store.Entry
		saved, err = d.Save(ctx, id, e.Revision, store.Change{Title: e.Title, Document: largeDocument(e.Revision + 1), By: "saver"})
		var conflict *store.Conflict
		switch {
		case errors.As(err, &conflict):
			e.Revision, err = conflict.Newest, nil
		case err == nil:
			e = saved
			fmt.Println(e.Revision)
		}
	}
	return err
}

// largeDocument takes several pages of the file, and tells whether it is whole.
func largeDocument(revision int) []byte {
	return []byte(strings.Repeat(fmt.Sprintf("revision %d of the document; ", revision), 4000))
}

// Programs are killed while they save, as by a power cut of the program alone. What they
// had said to be kept is there, whole, and the file is in order.
func TestKilledWhileSavingKeepsWhatWasSaved(t *testing.T) {
	path := fresh(t)
	d := opened(t, path)
	made := created(t, d)
	acknowledged := 1
	for round := range 6 {
		last := killedSaver(t, path, made.ID, func() { time.Sleep(time.Duration(60+23*round) * time.Millisecond) })
		acknowledged = max(acknowledged, last)
		again := opened(t, path) // another server finds it as it was left
		e, r, err := again.Read(t.Context(), made.ID)
		if err != nil || e.Revision < acknowledged || r.Number != e.Revision {
			t.Fatalf("revision %d was said to be kept; there is %d, %v", acknowledged, e.Revision, err)
		}
		if got := pragma(t, again.db, "integrity_check"); got != "ok" {
			t.Fatal(got)
		}
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if acknowledged < 3 {
		t.Errorf("only %d revisions were saved: this tested nothing", acknowledged)
	}
	e, _, err := d.Read(t.Context(), made.ID)
	if err != nil {
		t.Fatal(err)
	}
	for number := 2; number <= e.Revision; number++ {
		r, err := d.ReadRevision(t.Context(), made.ID, number)
		if err != nil || string(r.Document) != string(largeDocument(number)) {
			t.Fatalf("revision %d is not whole: %d bytes, %v", number, len(r.Document), err)
		}
	}
}

// killedSaver runs a saver, from its first save on waits, then kills it and gives the last
// revision that it said to be kept.
func killedSaver(t *testing.T, path, id string, wait func()) (last int) {
	t.Helper()
	saver := exec.Command(os.Args[0])
	saver.Env = append(os.Environ(), saverFile+"="+path, saverJob+"="+id)
	out, err := saver.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := saver.Start(); err != nil {
		t.Fatal(err)
	}
	waits := false
	lines := bufio.NewReader(out)
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			break // killed; a line without its end was not said
		}
		if last, err = strconv.Atoi(strings.TrimSpace(line)); err != nil {
			t.Errorf("the saver says %q", line)
		}
		if !waits {
			waits = true
			go func() {
				wait()
				saver.Process.Kill()
			}()
		}
	}
	if saver.Wait() == nil {
		t.Error("the saver ended of its own accord")
	}
	return last
}

// Two servers on one file: both save, and nothing is lost.
func TestASecondServerOnTheSameFile(t *testing.T) {
	path := fresh(t)
	d := opened(t, path)
	made := created(t, d)
	enough, done := make(chan struct{}), make(chan int, 1)
	kill := sync.OnceFunc(func() { close(enough) })
	t.Cleanup(kill)
	go func() { done <- killedSaver(t, path, made.ID, func() { <-enough }) }()
	ours := map[int]bool{}
	base := 1
	for ended := false; !ended; {
		saved, err := d.Save(t.Context(), made.ID, base, store.Change{Title: "ours", Document: []byte("ours"), By: "server"})
		var conflict *store.Conflict
		switch {
		case errors.As(err, &conflict):
			base = conflict.Newest
			continue // at once: it is hard to come between two saves of the other
		case err != nil:
			t.Fatal(err)
		}
		base = saved.Revision
		ours[base] = true
		if theirs := base - 1 - len(ours); len(ours) >= 5 && theirs >= 5 {
			kill()
		}
		select {
		case <-done:
			ended = true
		case <-time.After(2 * time.Millisecond):
		}
	}
	history, err := d.History(t.Context(), made.ID, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	theirs := 0
	for i, r := range history {
		if r.Number != len(history)-i || (r.By == "server") != ours[r.Number] {
			t.Errorf("%+v, ours: %v", r, ours[r.Number])
		}
		if r.By == "saver" {
			theirs++
		}
	}
	if len(ours) < 5 || theirs < 5 {
		t.Errorf("%d revisions of ours and %d of theirs: this tested nothing", len(ours), theirs)
	}
}
