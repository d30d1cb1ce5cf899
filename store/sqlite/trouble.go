package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"

	"github.com/ncruces/go-sqlite3"

	"curvewright/store"
)

// trouble is what went wrong in words, with SQLite's own reason for whoever looks for
// it.
type trouble struct {
	store.Trouble
	cause error
}

func (t *trouble) Unwrap() []error { return []error{t.Trouble, t.cause} }

// codes are SQLite's reasons and ours.
var codes = []struct {
	code    sqlite3.ErrorCode
	trouble store.Trouble
}{
	{sqlite3.FULL, store.Full},
	{sqlite3.BUSY, store.Busy},
	{sqlite3.LOCKED, store.Busy},
	{sqlite3.READONLY, store.ReadOnly},
	{sqlite3.PERM, store.ReadOnly},
	{sqlite3.CANTOPEN, store.ReadOnly},
	{sqlite3.CORRUPT, store.Damaged},
	{sqlite3.NOTADB, store.Damaged},
	{sqlite3.IOERR, store.Failed},
}

// told puts an error into words that a person can do something with.
func told(err error) error {
	var known store.Trouble
	switch {
	case err == nil:
		return nil
	case errors.As(err, &known):
		return err
	case errors.Is(err, sql.ErrNoRows):
		return store.NotFound
	case errors.Is(err, sqlite3.INTERRUPT):
		return context.Canceled
	case errors.Is(err, fs.ErrPermission):
		return &trouble{store.ReadOnly, err}
	}
	for _, c := range codes {
		if errors.Is(err, c.code) {
			return &trouble{c.trouble, err}
		}
	}
	return err
}
