package web

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"mime/multipart"
	"net/http"
	"slices"
	"strings"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/store"
	"curvewright/web/words"
)

// A file with everything is taken in again: the job, its visits, photographs, papers, logs
// and remarks. It may be large, so it waits on the disk and is read piece by piece; and it
// may be made to burst, so all of it is unpacked once to be counted before anything is kept.

const (
	maxArchive    = 2 << 30 // of the file
	maxInArchive  = maxYear // of one file within it: a paper, a photograph, a year's weather
	mostInArchive = 20_000
)

// mayUnpackTo is how long all of an archive may become. Photographs and scans hardly shrink
// when they are packed; of papers that do, a job keeps no more than maxPapers.
func mayUnpackTo(size int64) int64 { return maxPapers + 64<<20 + 20*size }

// archive is what a file with everything holds.
type archive struct {
	document []byte
	visits   map[string][]byte
	logs     map[string][]byte // what their columns mean
	remarks  map[string][]byte
	files    map[string]*zip.File
}

// unpack looks through a file with everything in it, and unpacks its documents.
func unpack(data io.ReaderAt, size int64) (archive, error) {
	var a archive
	z, err := zip.NewReader(data, size)
	if err != nil {
		return a, fmt.Errorf("the file is no archive of a job: %w", err)
	}
	if len(z.File) > mostInArchive {
		return a, fmt.Errorf("the archive holds %d files; %d at most", len(z.File), mostInArchive)
	}
	a.visits, a.logs, a.remarks, a.files = map[string][]byte{}, map[string][]byte{}, map[string][]byte{}, map[string]*zip.File{}
	left := mayUnpackTo(size)
	for _, f := range z.File {
		within := func(folder, ending string) bool {
			return strings.HasPrefix(f.Name, folder) && strings.HasSuffix(f.Name, ending) && strings.Count(f.Name, "/") == 1
		}
		document := f.Name == zipJob || within(zipVisits, ".yaml") || within(zipLogs, ".json") || within(zipRemarks, ".json")
		var content []byte
		var length int64
		if document {
			content, err = contentOf(f, maxRequest)
			length = int64(len(content))
		} else {
			length, err = counted(f, mostOf(f.Name))
		}
		if err != nil {
			return a, err
		}
		if left -= length; left < 0 {
			return a, fmt.Errorf("the archive is damaged, or unpacked larger than %d MB", mayUnpackTo(size)>>20)
		}
		switch {
		case f.Name == zipJob:
			a.document = content
		case within(zipVisits, ".yaml"):
			a.visits[f.Name] = content
		case within(zipLogs, ".json"):
			a.logs[f.Name] = content
		case within(zipRemarks, ".json"):
			a.remarks[f.Name] = content
		case strings.HasPrefix(f.Name, zipVisits), strings.HasPrefix(f.Name, zipFiles), strings.HasPrefix(f.Name, zipLogs):
			a.files[f.Name] = f
		}
	}
	if a.document == nil {
		return a, fmt.Errorf("the archive holds no %s", zipJob)
	}
	return a, nil
}

// contentOf is the content of one file in an archive, which must not be longer than most.
func contentOf(f *zip.File, most int64) ([]byte, error) {
	in, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("%s in the archive cannot be read: %w", f.Name, err)
	}
	defer in.Close()
	content, err := io.ReadAll(io.LimitReader(in, most+1))
	if err == nil && int64(len(content)) > most {
		err = fmt.Errorf("larger than %d MB", most>>20)
	}
	if err != nil {
		return nil, fmt.Errorf("%s in the archive cannot be read: %w", f.Name, err)
	}
	return content, nil
}

// mostOf is how large a file in an archive may be: the rows of a log as large as they may be
// sent.
func mostOf(name string) int64 {
	if strings.HasPrefix(name, zipLogs) {
		return mostLog
	}
	return maxInArchive
}

// counted unpacks a file in an archive for its length alone.
func counted(f *zip.File, most int64) (int64, error) {
	in, err := f.Open()
	if err != nil {
		return 0, fmt.Errorf("%s in the archive cannot be read: %w", f.Name, err)
	}
	defer in.Close()
	n, err := io.Copy(io.Discard, io.LimitReader(in, most+1))
	if err == nil && n > most {
		err = fmt.Errorf("larger than %d MB", most>>20)
	}
	if err != nil {
		return 0, fmt.Errorf("%s in the archive cannot be read: %w", f.Name, err)
	}
	return n, nil
}

// archiveOf is the file with everything that a form brings, if it brings one.
func archiveOf(r *http.Request) (multipart.File, int64, bool) {
	if r.MultipartForm == nil || len(r.MultipartForm.File["file"]) == 0 {
		return nil, 0, false
	}
	header := r.MultipartForm.File["file"][0]
	f, err := header.Open()
	if err != nil {
		return nil, 0, false
	}
	var begin [2]byte
	if n, _ := f.ReadAt(begin[:], 0); n < 2 || string(begin[:]) != "PK" {
		f.Close()
		return nil, 0, false
	}
	return f, header.Size, true
}

// takeArchive keeps a job with its visits from a file that holds everything. Whether it can
// be read is found out before anything is kept.
func (s *server) takeArchive(w http.ResponseWriter, r *http.Request, data io.ReaderAt, size int64) {
	a, err := unpack(data, size)
	var j *job.Job
	if err == nil {
		j, err = job.Read(a.document)
	}
	read := map[string]*attendance.Visit{}
	for _, name := range slices.Sorted(maps.Keys(a.visits)) {
		v, verr := job.DraftDocument[attendance.Visit](a.visits[name], "visit")
		if v == nil && err == nil {
			err = fmt.Errorf("%s: %w", name, verr)
		}
		read[name] = v
	}
	var kept []handedLog
	if err == nil {
		kept, err = a.logsIn()
	}
	var said []handedRemark
	if err == nil {
		said, err = a.remarksIn()
	}
	if err != nil {
		s.write(w, r, http.StatusUnprocessableEntity, refusedFile(err, s.framed(r)))
		return
	}
	entry, err := s.keepArchive(r.Context(), a, j, read, kept, said)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/jobs/"+entry.ID+"/survey", http.StatusSeeOther)
}

// keepArchive keeps what was read. Where that breaks off, the disk being full, what was
// kept of it is taken away again.
func (s *server) keepArchive(ctx context.Context, a archive, j *job.Job, visits map[string]*attendance.Visit, kept []handedLog, said []handedRemark) (store.Entry, error) {
	by := readerOf(ctx).by()
	entry, err := s.store.Create(ctx, store.Entry{Kind: store.Job, Title: j.Name, About: inALine(j)}, a.document, by, words.Say(ctx, "history.begun"))
	if err != nil {
		return entry, err
	}
	err = s.keepFiles(ctx, a, entry.ID, zipFiles, false)
	for _, name := range slices.Sorted(maps.Keys(visits)) {
		if err != nil {
			break
		}
		v := visits[name]
		var beside store.Entry
		beside, err = s.store.Create(ctx, store.Entry{Kind: store.Visit, Parent: entry.ID, Title: v.Date, About: v.By}, a.visits[name], by, words.Say(ctx, "history.begun"))
		if err == nil {
			err = s.keepFiles(ctx, a, beside.ID, strings.TrimSuffix(name, ".yaml")+"/", true)
		}
	}
	if err == nil {
		err = s.keepLogs(ctx, kept, entry.ID)
	}
	if err == nil {
		err = s.keepRemarks(ctx, said, entry.ID)
	}
	if err != nil {
		err = errors.Join(err, s.store.SetState(ctx, entry.ID, store.Trashed))
		if rest := s.store.Erase(ctx, entry.ID); rest != nil {
			err = errors.Join(err, rest)
		}
	}
	return entry, err
}

// keepFiles keeps the files of one folder of the archive beside a document: those of a visit
// under the whole name, as its document calls them.
func (s *server) keepFiles(ctx context.Context, a archive, id, under string, whole bool) error {
	for _, name := range slices.Sorted(maps.Keys(a.files)) {
		title, ok := strings.CutPrefix(name, under)
		if !ok || strings.Contains(title, "/") {
			continue
		}
		content, err := contentOf(a.files[name], maxInArchive)
		if err != nil {
			return err
		}
		if !whole {
			_, title, _ = strings.Cut(title, "-")
		}
		if _, err := s.store.PutFile(ctx, id, store.File{Name: title, Type: mediaType(content), Data: content}); err != nil {
			return err
		}
	}
	return nil
}
