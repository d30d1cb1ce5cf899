package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"runtime"
	"slices"
	"syscall"

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

// What Windows says of a full disk.
const (
	handleDiskFull = syscall.Errno(39)
	diskFull       = syscall.Errno(112)
)

func outOfRoom(err error) bool {
	return isAny(err, syscall.ENOSPC, syscall.EDQUOT) || runtime.GOOS == "windows" && isAny(err, handleDiskFull, diskFull)
}

// noRoomIn finds out whether a disk is full, by writing a little to it. SQLite tells of a
// full disk as of any other failure to write.
func noRoomIn(folder string) bool {
	f, err := os.CreateTemp(folder, "room-*")
	if err != nil {
		return outOfRoom(err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(make([]byte, 256<<10))
	return outOfRoom(errors.Join(err, f.Sync(), f.Close()))
}

func isAny(err error, reasons ...error) bool {
	return slices.ContainsFunc(reasons, func(reason error) bool { return errors.Is(err, reason) })
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
	case outOfRoom(err):
		return &trouble{store.Full, err}
	case isAny(err, fs.ErrPermission, syscall.EROFS):
		return &trouble{store.ReadOnly, err}
	}
	for _, c := range codes {
		if errors.Is(err, c.code) {
			return &trouble{c.trouble, err}
		}
	}
	return err
}
