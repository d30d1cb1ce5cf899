package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/ncruces/go-sqlite3/driver"

	"curvewright/store"
)

// A file of an older version is brought up to date, step by step. A step is never edited
// after release.

//go:embed migrations/*.sql
var embedded embed.FS

// applicationID marks a file of ours: "CvWr".
const applicationID = 0x43765772

// migrations are all the steps, oldest first; a file's version is how many it has had.
func migrations() []string {
	files, err := fs.Glob(embedded, "migrations/*.sql") // sorted by number
	if err != nil {
		panic(err) // the pattern is our own
	}
	steps := make([]string, len(files))
	for i, name := range files {
		text, err := embedded.ReadFile(name)
		if err != nil {
			panic(err) // it was listed above
		}
		steps[i] = string(text)
	}
	return steps
}

// migrate takes the steps that a file has not had. A copy from before is kept, unless
// there is nothing in it.
func migrate(ctx context.Context, db *sql.DB, path string, version int, steps []string) error {
	if version == len(steps) {
		return nil
	}
	if version > 0 {
		if err := copyFile(ctx, db, fmt.Sprintf("%s.version-%d", path, version)); err != nil {
			return err
		}
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // nothing to do after a commit
	// Another program may have been quicker.
	if err := tx.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version > len(steps) {
		return store.Newer
	}
	for _, step := range steps[version:] {
		if _, err := tx.ExecContext(ctx, step); err != nil {
			return err
		}
	}
	mark := fmt.Sprintf("PRAGMA user_version = %d; PRAGMA application_id = %d", len(steps), applicationID)
	if _, err := tx.ExecContext(ctx, mark); err != nil {
		return err
	}
	return tx.Commit()
}

// copyFile copies the file as it is, with what is still beside it. A copy made before is
// of the same version and is kept.
func copyFile(ctx context.Context, db *sql.DB, to string) error {
	if _, err := os.Stat(to); err == nil {
		return nil
	}
	c, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	unfinished := to + ".unfinished"
	if err := os.Remove(unfinished); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := prepare(unfinished); err != nil {
		return err
	}
	err = c.Raw(func(c any) error {
		return c.(driver.Conn).Raw().Backup("main", address(unfinished))
	})
	if err := errors.Join(err, c.Close()); err != nil {
		return err
	}
	return os.Rename(unfinished, to)
}
