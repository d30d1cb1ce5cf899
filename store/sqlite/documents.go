package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"math"
	"strings"
	"time"

	"github.com/ncruces/go-sqlite3"

	"curvewright/store"
)

const columns = `id, kind, coalesce(parent, ''), title, about, state, revision, created, changed, changed_by`

// scanner is a row, of one or of several.
type scanner interface{ Scan(into ...any) error }

func scanEntry(row scanner) (e store.Entry, err error) {
	var created, changed int64
	err = row.Scan(&e.ID, &e.Kind, &e.Parent, &e.Title, &e.About, &e.State, &e.Revision, &created, &changed, &e.ChangedBy)
	e.Created, e.Changed = moment(created), moment(changed)
	return e, err
}

func moment(micro int64) time.Time { return time.UnixMicro(micro).UTC() }

// reading works on one state of the file, whatever others save meanwhile.
func (d *DB) reading(ctx context.Context, do func(*sql.Tx) error) error {
	return d.within(ctx, &sql.TxOptions{ReadOnly: true}, do)
}

// writing does all or nothing.
func (d *DB) writing(ctx context.Context, do func(*sql.Tx) error) error {
	d.lock.Lock()
	defer d.lock.Unlock()
	err := d.within(ctx, nil, do)
	if errors.Is(err, store.Failed) && noRoomIn(d.folder) {
		return &trouble{store.Full, err}
	}
	return err
}

func (d *DB) within(ctx context.Context, how *sql.TxOptions, do func(*sql.Tx) error) error {
	tx, err := d.db.BeginTx(ctx, how)
	if err != nil {
		return told(cmp.Or(ctx.Err(), err))
	}
	defer tx.Rollback() // nothing to do after a commit
	if err := do(tx); err != nil {
		return told(cmp.Or(ctx.Err(), err))
	}
	return told(tx.Commit())
}

func entryOf(ctx context.Context, tx *sql.Tx, id string) (store.Entry, error) {
	return scanEntry(tx.QueryRowContext(ctx, `SELECT `+columns+` FROM document WHERE id = ?`, id))
}

// List finds entries.
func (d *DB) List(ctx context.Context, q store.Query) (entries []store.Entry, all int, err error) {
	where, values := conditions(q)
	order := ` ORDER BY ` + cmp.Or(map[store.Order]string{store.ByTitle: "searched", store.ByCreated: "created DESC"}[q.Sort], "changed DESC") + `, id`
	// What is found is found in an index; only the page is looked up in the table.
	page := `SELECT ` + columns + ` FROM document WHERE id IN (SELECT id FROM document WHERE ` + where + order + ` LIMIT ? OFFSET ?)` + order
	limit := -1
	if q.Limit > 0 {
		limit = q.Limit
	}
	err = d.reading(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM document WHERE `+where, values...).Scan(&all); err != nil {
			return err
		}
		rows, err := tx.QueryContext(ctx, page, append(values, limit, max(q.Offset, 0))...)
		if err != nil {
			return err
		}
		defer rows.Close()
		entries = []store.Entry{}
		for rows.Next() {
			e, err := scanEntry(rows)
			if err != nil {
				return err
			}
			entries = append(entries, e)
		}
		return rows.Err()
	})
	if err != nil {
		return nil, 0, err
	}
	return entries, all, nil
}

// conditions are what a query asks for. Only values of ours stand in the text.
func conditions(q store.Query) (where string, values []any) {
	all := []string{"true"}
	ask := func(condition string, value any) {
		all, values = append(all, condition), append(values, value)
	}
	if q.Kind != "" {
		ask("kind = ?", q.Kind)
	}
	if q.Parent != "" {
		ask("parent = ?", q.Parent)
	}
	if q.State != store.Any {
		ask("state = ?", cmp.Or(q.State, store.Active))
	}
	for _, word := range store.Words(q.Text) {
		ask("instr(searched, ?) > 0", word)
	}
	return strings.Join(all, " AND "), values
}

// Read gives a document with its newest revision.
func (d *DB) Read(ctx context.Context, id string) (e store.Entry, r store.Revision, err error) {
	err = d.reading(ctx, func(tx *sql.Tx) error {
		if e, err = entryOf(ctx, tx, id); err != nil {
			return err
		}
		r, err = revisionOf(ctx, tx, id, e.Revision)
		return err
	})
	return e, r, err
}

// ReadRevision gives one revision of a document.
func (d *DB) ReadRevision(ctx context.Context, id string, number int) (r store.Revision, err error) {
	err = d.reading(ctx, func(tx *sql.Tx) error {
		r, err = revisionOf(ctx, tx, id, number)
		return err
	})
	return r, err
}

func revisionOf(ctx context.Context, tx *sql.Tx, id string, number int) (store.Revision, error) {
	r := store.Revision{Number: number}
	var saved int64
	var packing string
	var content []byte
	err := tx.QueryRowContext(ctx, `SELECT saved, by, what, undoes, typed, packing, content FROM revision WHERE document = ? AND number = ?`, id, number).
		Scan(&saved, &r.By, &r.What, &r.Undoes, &r.Typed, &packing, &content)
	if err != nil {
		return store.Revision{}, err
	}
	r.When = moment(saved)
	r.Document, err = unpack(packing, content)
	return r, err
}

// History lists the revisions of a document below a number, the newest first.
func (d *DB) History(ctx context.Context, id string, below, most int) (history []store.Revision, err error) {
	if below <= 0 {
		below = math.MaxInt32
	}
	if most <= 0 {
		most = -1 // no bound
	}
	err = d.reading(ctx, func(tx *sql.Tx) error {
		if _, err := entryOf(ctx, tx, id); err != nil {
			return err
		}
		rows, err := tx.QueryContext(ctx, `SELECT number, saved, by, what, undoes, typed FROM revision WHERE document = ? AND number < ? ORDER BY number DESC LIMIT ?`, id, below, most)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var r store.Revision
			var saved int64
			if err := rows.Scan(&r.Number, &saved, &r.By, &r.What, &r.Undoes, &r.Typed); err != nil {
				return err
			}
			r.When = moment(saved)
			history = append(history, r)
		}
		return rows.Err()
	})
	return history, err
}

// Create keeps a new document.
func (d *DB) Create(ctx context.Context, e store.Entry, document []byte, by, what string) (made store.Entry, err error) {
	if err := store.CheckEntry(e); err != nil {
		return store.Entry{}, err
	}
	err = d.writing(ctx, func(tx *sql.Tx) error {
		if e.Parent != "" {
			if _, err := entryOf(ctx, tx, e.Parent); err != nil {
				return err
			}
		}
		now := d.outside.Moment()
		made = store.Entry{
			Kind: e.Kind, Parent: e.Parent, Title: e.Title, About: e.About, State: store.Active,
			Revision: 1, Created: now, Changed: now, ChangedBy: by,
		}
		made.ID, err = d.unused(func(id string) error {
			_, err := tx.ExecContext(ctx, `INSERT INTO document
				(id, kind, parent, title, about, searched, state, revision, created, changed, changed_by)
				VALUES (?, ?, nullif(?, ''), ?, ?, ?, ?, 1, ?, ?, ?)`,
				id, e.Kind, e.Parent, e.Title, e.About, store.Searched(e.Title, e.About), store.Active, now.UnixMicro(), now.UnixMicro(), by)
			return err
		})
		if err != nil {
			return err
		}
		return addRevision(ctx, tx, made, document, what, 0, false)
	})
	if err != nil {
		return store.Entry{}, err
	}
	return made, nil
}

// unused draws until an identity is new.
func (d *DB) unused(insert func(id string) error) (string, error) {
	for {
		id, err := d.outside.NewID()
		if err != nil {
			return "", err
		}
		err = insert(id)
		if errors.Is(err, sqlite3.CONSTRAINT_PRIMARYKEY) || errors.Is(err, sqlite3.CONSTRAINT_UNIQUE) {
			continue
		}
		return id, err
	}
}

func addRevision(ctx context.Context, tx *sql.Tx, e store.Entry, document []byte, what string, undoes int, typed bool) error {
	packing, content, err := pack(document)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO revision (document, number, saved, by, what, undoes, typed, packing, content) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		e.ID, e.Revision, e.Changed.UnixMicro(), e.ChangedBy, what, undoes, typed, packing, content)
	return err
}

// Save keeps a new revision.
func (d *DB) Save(ctx context.Context, id string, base int, c store.Change) (e store.Entry, err error) {
	err = d.writing(ctx, func(tx *sql.Tx) error {
		if e, err = entryOf(ctx, tx, id); err != nil {
			return err
		}
		if base != e.Revision {
			return &store.Conflict{Newest: e.Revision}
		}
		if err := store.CheckChange(c, base); err != nil {
			return err
		}
		e.Title, e.About, e.Revision, e.Changed, e.ChangedBy = c.Title, c.About, base+1, d.outside.Moment(), c.By
		_, err = tx.ExecContext(ctx, `UPDATE document SET title = ?, about = ?, searched = ?, revision = ?, changed = ?, changed_by = ? WHERE id = ?`,
			e.Title, e.About, store.Searched(e.Title, e.About), e.Revision, e.Changed.UnixMicro(), e.ChangedBy, id)
		if err != nil {
			return err
		}
		return addRevision(ctx, tx, e, c.Document, c.What, c.Undoes, c.Typed)
	})
	if err != nil {
		return store.Entry{}, err
	}
	return e, nil
}

// SetState moves a document to the archive, the trash, or back.
func (d *DB) SetState(ctx context.Context, id string, s store.State) error {
	return d.writing(ctx, func(tx *sql.Tx) error {
		if _, err := entryOf(ctx, tx, id); err != nil {
			return err
		}
		if err := store.CheckState(s); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `UPDATE document SET state = ? WHERE id = ?`, s, id)
		return err
	})
}

// Erase removes a document from the trash, with all that belongs to it.
func (d *DB) Erase(ctx context.Context, id string) error {
	return d.writing(ctx, func(tx *sql.Tx) error {
		e, err := entryOf(ctx, tx, id)
		if err != nil {
			return err
		}
		if e.State != store.Trashed {
			return store.NotTrashed
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM document WHERE id = ?`, id)
		return err
	})
}
