// Package sqlite keeps documents in one SQLite file: what is saved outlasts a power cut,
// and several programs may use the file at once. See package store for what is kept.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/driver"

	"curvewright/store"
)

// DB is a store in a file.
type DB struct {
	db      *sql.DB
	folder  string // in which the file lies
	outside store.Outside
	lock    sync.Mutex // one writer at a time, so that ours never wait for each other in SQLite
}

var _ store.Store = (*DB)(nil)

// Patience is how long to wait for another program that is writing to the file.
const patience = 5 * time.Second

// connections is how many readers there can be at once, beside one writer.
const connections = 4

// Open opens the file, or makes it with its folder. A file that is no file of jobs, or
// one of a newer version, is left as it is; an older one is brought up to date after a
// copy of it was put beside it.
func Open(path string, o store.Outside) (*DB, error) {
	return open(path, o, patience, migrations())
}

func open(path string, o store.Outside, patience time.Duration, steps []string) (*DB, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if err := prepare(path); err != nil {
		return nil, told(err)
	}
	db, err := driver.Open(address(path), func(c *sqlite3.Conn) error {
		// Waiting comes first: the others may have to.
		// Eight megabytes hold the list of ten thousand jobs.
		return errors.Join(c.BusyTimeout(patience), c.Exec(`PRAGMA foreign_keys = on; PRAGMA synchronous = full; PRAGMA cache_size = -8000`))
	})
	if err != nil {
		return nil, told(err)
	}
	db.SetMaxOpenConns(connections)
	db.SetMaxIdleConns(connections)
	if err := begin(db, path, steps); err != nil {
		return nil, told(errors.Join(err, db.Close()))
	}
	return &DB{db: db, folder: filepath.Dir(path), outside: o}, nil
}

// prepare makes the file, which nobody else may read: there are names and addresses in
// it.
func prepare(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

// address is the file as SQLite is told of it.
func address(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive's letter
	}
	return "file:" + strings.ReplaceAll(url.PathEscape(path), "%2F", "/")
}

// begin looks whether the file is one of ours, before anything of it is changed.
func begin(db *sql.DB, path string, steps []string) error {
	ctx := context.Background()
	var owner, version, tables int
	for pragma, into := range map[string]*int{
		"PRAGMA application_id": &owner, "PRAGMA user_version": &version, "SELECT count(*) FROM sqlite_schema": &tables,
	} {
		if err := db.QueryRowContext(ctx, pragma).Scan(into); err != nil {
			return err
		}
	}
	switch {
	case owner != applicationID && (tables > 0 || version != 0):
		return store.Damaged
	case version > len(steps):
		return store.Newer
	}
	if _, err := db.ExecContext(ctx, "PRAGMA journal_mode = wal"); err != nil {
		return err
	}
	return migrate(ctx, db, path, version, steps)
}

// Close writes everything into the one file and lets it go.
func (d *DB) Close() error { return told(d.db.Close()) }

// Path is where the file lies unless somebody wants it elsewhere: in the user's folder
// for what programs keep.
func Path() (string, error) {
	const file = "jobs.sqlite"
	if folder := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(folder) {
		return filepath.Join(folder, "curvewright", file), nil
	}
	if runtime.GOOS == "windows" {
		if folder := os.Getenv("LOCALAPPDATA"); folder != "" {
			return filepath.Join(folder, "Curvewright", file), nil
		}
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder of the user's own to keep jobs in: name a file: %w", err)
	}
	switch runtime.GOOS {
	case "darwin", "ios":
		return filepath.Join(home, "Library", "Application Support", "Curvewright", file), nil
	case "windows":
		return filepath.Join(home, "AppData", "Local", "Curvewright", file), nil
	}
	return filepath.Join(home, ".local", "share", "curvewright", file), nil
}
