package web

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"curvewright/store"
	"curvewright/web/words"
)

// Logs and remarks go with a job that is handed on: each log as the file that was sent, and
// beside it what its columns were confirmed to mean; each remark as it was said. They are
// numbered, the oldest first, so that they come back in their order.

// Names inside the file that holds everything.
const (
	zipLogs    = "logs/"    // 001.json: name, mapping, confirmed; 001/name.csv: the rows
	zipRemarks = "remarks/" // 001.json: date, room, felt …
)

// fileOfLog is the field of a log's document that names its rows in the store.
const fileOfLog = "file"

// oldestFirst lists what belongs to a job in the order in which it was kept.
func (s *server) oldestFirst(ctx context.Context, id string, kind store.Kind) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: kind, Parent: id, Sort: store.ByCreated})
	slices.Reverse(list)
	return list, err
}

// packRemarks packs the remarks of a job.
func (s *server) packRemarks(ctx context.Context, z *zip.Writer, id string) error {
	list, err := s.oldestFirst(ctx, id, store.Remark)
	for i, e := range list {
		_, revision, rerr := s.store.Read(ctx, e.ID)
		if rerr != nil {
			return rerr
		}
		if err := packTo(z, fmt.Sprintf("%s%03d.json", zipRemarks, i+1), zip.Deflate, bytes.NewReader(revision.Document)); err != nil {
			return err
		}
	}
	return err
}

// packLogs packs the logs of a job.
func (s *server) packLogs(ctx context.Context, z *zip.Writer, id string) error {
	list, err := s.oldestFirst(ctx, id, store.Log)
	for i, e := range list {
		if err := s.packLog(ctx, z, e, fmt.Sprintf("%s%03d", zipLogs, i+1)); err != nil {
			return err
		}
	}
	return err
}

func (s *server) packLog(ctx context.Context, z *zip.Writer, e store.Entry, name string) error {
	_, revision, err := s.store.Read(ctx, e.ID)
	if err != nil {
		return err
	}
	document, at, err := withoutFile(revision.Document)
	if err != nil {
		return err
	}
	file, err := s.store.ReadFile(ctx, e.ID, at)
	if errors.Is(err, store.NotFound) {
		return nil // a log whose rows were never kept
	}
	if err != nil {
		return err
	}
	rows, err := gzip.NewReader(bytes.NewReader(file.Data))
	if err != nil {
		return err
	}
	// What shrinks too well would be taken for a file that is made to burst.
	method, last := zip.Deflate, file.Data[len(file.Data)-4:]
	if int64(binary.LittleEndian.Uint32(last)) > 5*int64(len(file.Data)) {
		method = zip.Store
	}
	if err := packTo(z, name+".json", zip.Deflate, bytes.NewReader(document)); err != nil {
		return err
	}
	return packTo(z, name+"/"+plainFile(e.Title), method, rows)
}

func packTo(z *zip.Writer, name string, method uint16, in io.Reader) error {
	f, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
	if err == nil {
		_, err = io.Copy(f, in)
	}
	return err
}

// withoutFile is a log's document without the address of its rows, and that address.
func withoutFile(document []byte) (bare []byte, at string, err error) {
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(document, &fields); err != nil {
		return nil, "", fmt.Errorf("the log is not kept as it should be: %w", err)
	}
	_ = json.Unmarshal(fields[fileOfLog], &at) // none yet in an archive
	delete(fields, fileOfLog)
	bare, err = json.MarshalIndent(fields, "", "  ")
	return bare, at, err
}

// handedLog is a log in an archive.
type handedLog struct {
	title    string
	document []byte
	rows     *zip.File
}

// logsIn finds the logs of an archive, each with its rows.
func (a archive) logsIn() ([]handedLog, error) {
	var list []handedLog
	for _, name := range slices.Sorted(maps.Keys(a.logs)) {
		l := handedLog{}
		under := strings.TrimSuffix(name, ".json") + "/"
		for _, file := range slices.Sorted(maps.Keys(a.files)) {
			if rest, ok := strings.CutPrefix(file, under); ok && !strings.Contains(rest, "/") {
				l.rows = a.files[file]
			}
		}
		if l.rows == nil {
			return nil, fmt.Errorf("%s: its rows are missing in the archive", name)
		}
		document, _, err := withoutFile(a.logs[name])
		if err == nil {
			l.title, err = checkLog(document)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		l.title, l.document = oneLine(l.title), document
		list = append(list, l)
	}
	return list, nil
}

// keepLogs keeps the logs of an archive beside a job.
func (s *server) keepLogs(ctx context.Context, list []handedLog, id string) error {
	by := readerOf(ctx).by()
	for _, l := range list {
		in, err := l.rows.Open()
		if err != nil {
			return err
		}
		var rows bytes.Buffer
		z, _ := gzip.NewWriterLevel(&rows, gzip.BestSpeed) // a level that there is
		_, err = io.Copy(z, io.LimitReader(in, mostLog))
		in.Close()
		if err == nil {
			err = z.Close()
		}
		if err != nil {
			return err
		}
		entry, err := s.store.Create(ctx, store.Entry{Kind: store.Log, Parent: id, Title: l.title}, l.document, by, words.Say(ctx, "history.begun"))
		if err != nil {
			return err
		}
		at, err := s.store.PutFile(ctx, entry.ID, store.File{Name: l.title, Type: "application/gzip", Data: rows.Bytes()})
		if err != nil {
			return err
		}
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(l.document, &fields); err != nil {
			return err
		}
		fields[fileOfLog], _ = json.Marshal(at) // a text
		document, err := json.Marshal(fields)
		if err != nil {
			return err
		}
		if _, err := s.store.Save(ctx, entry.ID, entry.Revision, store.Change{Title: l.title, Document: document, By: by}); err != nil {
			return err
		}
	}
	return nil
}

// handedRemark is a remark in an archive.
type handedRemark struct {
	title, about string
	document     []byte
}

// remarksIn finds the remarks of an archive.
func (a archive) remarksIn() ([]handedRemark, error) {
	var list []handedRemark
	for _, name := range slices.Sorted(maps.Keys(a.remarks)) {
		title, about, err := checkRemark(a.remarks[name])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		list = append(list, handedRemark{oneLine(title), oneLine(about), a.remarks[name]})
	}
	return list, nil
}

// keepRemarks keeps the remarks of an archive beside a job.
func (s *server) keepRemarks(ctx context.Context, list []handedRemark, id string) error {
	for _, m := range list {
		if _, err := s.store.Create(ctx, store.Entry{Kind: store.Remark, Parent: id, Title: m.title, About: m.about}, m.document, readerOf(ctx).by(), words.Say(ctx, "history.begun")); err != nil {
			return err
		}
	}
	return nil
}

func oneLine(name string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return '_'
		}
		return r
	}, strings.ToValidUTF8(name, "_"))
}
