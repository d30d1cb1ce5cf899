package sqlite

import (
	"context"
	"database/sql"

	"curvewright/store"
)

// PutFile keeps a file beside a document.
func (d *DB) PutFile(ctx context.Context, id string, f store.File) (fileID string, err error) {
	err = d.writing(ctx, func(tx *sql.Tx) error {
		if _, err := entryOf(ctx, tx, id); err != nil {
			return err
		}
		if err := store.CheckFile(f); err != nil {
			return err
		}
		now := d.outside.Moment().UnixMicro()
		fileID, err = d.unused(func(fileID string) error {
			_, err := tx.ExecContext(ctx, `INSERT INTO file (id, document, name, type, size, added, content) VALUES (?, ?, ?, ?, ?, ?, ?)`,
				fileID, id, f.Name, f.Type, len(f.Data), now, append([]byte{}, f.Data...))
			return err
		})
		return err
	})
	if err != nil {
		return "", err
	}
	return fileID, nil
}

// Files lists the files beside a document.
func (d *DB) Files(ctx context.Context, id string) (files []store.FileEntry, err error) {
	err = d.reading(ctx, func(tx *sql.Tx) error {
		if _, err := entryOf(ctx, tx, id); err != nil {
			return err
		}
		rows, err := tx.QueryContext(ctx, `SELECT id, name, type, size, added FROM file WHERE document = ? ORDER BY place`, id)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var f store.FileEntry
			var added int64
			if err := rows.Scan(&f.ID, &f.Name, &f.Type, &f.Size, &added); err != nil {
				return err
			}
			f.Added = moment(added)
			files = append(files, f)
		}
		return rows.Err()
	})
	return files, err
}

// ReadFile gives a file.
func (d *DB) ReadFile(ctx context.Context, id, fileID string) (f store.File, err error) {
	err = d.reading(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `SELECT name, type, content FROM file WHERE document = ? AND id = ?`, id, fileID).Scan(&f.Name, &f.Type, &f.Data)
	})
	return f, err
}

// RenameFile calls a file otherwise.
func (d *DB) RenameFile(ctx context.Context, id, fileID, name string) error {
	return d.writing(ctx, func(tx *sql.Tx) error {
		if err := store.CheckFile(store.File{Name: name}); err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, `UPDATE file SET name = ? WHERE document = ? AND id = ?`, name, id, fileID)
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return store.NotFound
	})
}

// RemoveFile removes a file for good.
func (d *DB) RemoveFile(ctx context.Context, id, fileID string) error {
	return d.writing(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `DELETE FROM file WHERE document = ? AND id = ?`, id, fileID)
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return store.NotFound
	})
}
