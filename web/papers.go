package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"unicode/utf8"

	"curvewright/store"
	"curvewright/web/words"
)

// Photographs and papers beside a job: the rating plate, the manual's page, the plan. They
// are looked at, never run: what a browser could take for a program is refused.

// Bounds of what lies beside a job.
const (
	maxPaper  = 10 << 20  // one file
	maxPapers = 200 << 20 // all of a job
	maxUpload = 10*maxPaper + maxRequest
)

// paperPolicy lets a file that is opened on its own do nothing at all.
const paperPolicy = "default-src 'none'; img-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"

// paperKinds are the kinds that are kept, with the ending of a name that has none.
var paperKinds = map[string]string{
	"image/jpeg": ".jpg", "image/png": ".png", "image/webp": ".webp", "application/pdf": ".pdf", "text/plain": ".txt", "text/csv": ".csv",
}

// paperList is what the page of a job's files shows.
type paperList struct {
	Files   []store.FileEntry
	Size    int
	Refused []string
}

// papers are the files beside a job.
func (s *server) papers(ctx context.Context, id string) (*paperList, error) {
	files, err := s.store.Files(ctx, id)
	list := &paperList{Files: files}
	for _, f := range files {
		list.Size += f.Size
	}
	return list, err
}

// papersPage shows them.
func (s *server) papersPage(w http.ResponseWriter, r *http.Request) {
	s.showPapers(w, r, http.StatusOK, nil)
}

func (s *server) showPapers(w http.ResponseWriter, r *http.Request, status int, refused []string) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "papers", noDoubt)
	if err == nil {
		p.House.Papers, err = s.papers(r.Context(), p.House.ID)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.House.Papers.Refused = refused
	s.write(w, r, status, inHouse(p, s.framed(r)))
}

// takePapers keeps the files of a form, one after the other as they come in. Files that
// are refused are told; the others are kept.
func (s *server) takePapers(w http.ResponseWriter, r *http.Request) {
	ctx, id := r.Context(), r.PathValue("id")
	if _, _, err := s.kept(ctx, store.Job, id); err != nil {
		s.trouble(w, r, err)
		return
	}
	parts, err := r.MultipartReader()
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	list, err := s.papers(ctx, id)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	var refused []string
	status := http.StatusUnprocessableEntity
	called, place := "", false
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		var data []byte
		if err == nil {
			data, err = io.ReadAll(io.LimitReader(part, maxPaper+1))
		}
		if err != nil {
			status = http.StatusBadRequest
			if large := (*http.MaxBytesError)(nil); errors.As(err, &large) {
				status = http.StatusRequestEntityTooLarge
			}
			refused = append(refused, words.Say(ctx, "papers.broken", maxUpload>>20))
			break
		}
		switch part.FormName() {
		case "name":
			called = plainName(string(data))
		case "place":
			place = len(data) > 0
		case "files":
			if len(data) == 0 && part.FileName() == "" {
				continue // no file was chosen
			}
			name := plainName(part.FileName())
			file, problem := paperOf(ctx, name, data, place)
			if problem == "" && list.Size+len(file.Data) > maxPapers {
				problem = words.Say(ctx, "papers.full", name, maxPapers>>20)
			}
			if problem != "" {
				refused = append(refused, problem)
				continue
			}
			if called != "" {
				file.Name, called = withEnding(called, file.Type), "" // the first of several
			}
			if _, err := s.store.PutFile(ctx, id, file); err != nil {
				s.trouble(w, r, err)
				return
			}
			list.Size += len(file.Data)
		}
	}
	if len(refused) > 0 {
		s.showPapers(w, r, status, refused)
		return
	}
	http.Redirect(w, r, "/jobs/"+id+"/papers", http.StatusSeeOther)
}

// paperOf looks at what a file holds, whatever its name says, and takes out of a picture
// what does not belong to it unless its place shall stay.
func paperOf(ctx context.Context, name string, data []byte, place bool) (file store.File, problem string) {
	if len(data) > maxPaper {
		return file, words.Say(ctx, "papers.large", name, maxPaper>>20)
	}
	kind := paperKind(name, data)
	if kind == "" {
		return file, words.Say(ctx, "papers.kind", name)
	}
	if !place {
		bare, err := stripped(kind, data)
		if err != nil {
			return file, words.Say(ctx, "papers.damaged", name)
		}
		data = bare
	}
	return store.File{Name: withEnding(name, kind), Type: kind, Data: data}, ""
}

// paperKind is the kind of a file by how it begins; empty for one that is not taken.
func paperKind(name string, data []byte) string {
	switch kind := mediaType(data); kind {
	case "image/png", "image/jpeg", "image/webp", "application/pdf":
		return kind
	}
	if len(data) == 0 || !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return ""
	}
	lower := strings.ToLower(name)
	for _, ending := range []string{".svg", ".svgz", ".htm", ".html", ".xhtml", ".xml", ".mhtml", ".js", ".mjs"} {
		if strings.HasSuffix(lower, ending) {
			return ""
		}
	}
	begin := strings.ToLower(string(data[:min(len(data), 1024)]))
	for _, mark := range []string{"<svg", "<html", "<!doctype", "<script", "<?xml", "<body", "<iframe"} {
		if strings.Contains(begin, mark) {
			return ""
		}
	}
	if !strings.HasPrefix(http.DetectContentType(data), "text/plain") {
		return ""
	}
	if strings.HasSuffix(lower, ".csv") {
		return "text/csv"
	}
	return "text/plain"
}

// plainName is a file's name in one line, without folders, not too long.
func plainName(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	name = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == utf8.RuneError {
			return -1
		}
		return r
	}, name))
	if runes := []rune(name); len(runes) > 100 {
		name = string(runes[:100])
	}
	return name
}

// withEnding gives a name the ending of its kind if it has another.
func withEnding(name, kind string) string {
	ending := paperKinds[kind]
	lower := strings.ToLower(name)
	if strings.HasSuffix(lower, ending) || kind == "image/jpeg" && strings.HasSuffix(lower, ".jpeg") || kind == "text/plain" && strings.Contains(lower, ".") {
		return name
	}
	if name == "" {
		name = "file"
	}
	return name + ending
}

// paper sends one file, to be looked at.
func (s *server) paper(w http.ResponseWriter, r *http.Request) {
	file, err := s.paperNamed(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	kind, how := file.Type, "attachment"
	switch {
	case paperKinds[kind] == "":
		kind = "application/octet-stream"
	case strings.HasPrefix(kind, "image/"):
		how = "inline"
	case strings.HasPrefix(kind, "text/"):
		kind, how = "text/plain; charset=utf-8", "inline"
	}
	h := w.Header()
	h.Set("Content-Security-Policy", paperPolicy)
	h.Set("Cache-Control", "private, max-age=300") // what it holds never changes, but its name may
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", mime.FormatMediaType(how, map[string]string{"filename": file.Name}))
	_, _ = bytes.NewReader(file.Data).WriteTo(w) // a reader who went away is no fault of ours
}

func (s *server) paperNamed(r *http.Request) (store.File, error) {
	entry, _, err := s.kept(r.Context(), store.Job, r.PathValue("id"))
	if err != nil {
		return store.File{}, err
	}
	return s.store.ReadFile(r.Context(), entry.ID, r.PathValue("file"))
}

// changePaper calls a file otherwise or takes it away.
func (s *server) changePaper(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	ctx, id := r.Context(), r.PathValue("id")
	file, err := s.paperNamed(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	name := plainName(r.PostForm.Get("name"))
	renamed := r.PostForm.Get("do") != "remove"
	if renamed && (name == "" || withEnding(name, file.Type) == file.Name) {
		http.Redirect(w, r, "/jobs/"+id+"/papers", http.StatusSeeOther)
		return
	}
	if renamed {
		err = s.store.RenameFile(ctx, id, r.PathValue("file"), withEnding(name, file.Type))
	} else {
		err = s.store.RemoveFile(ctx, id, r.PathValue("file"))
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/jobs/"+id+"/papers", http.StatusSeeOther)
}

// weight is the size of a file for a reader.
func weight(ctx context.Context, bytes int) string {
	if bytes < 1_000_000 {
		return fmt.Sprintf("%d kB", max(1, bytes/1000))
	}
	return words.Figure(ctx, fmt.Sprintf("%.1f MB", float64(bytes)/1e6))
}

// stem is a file's name without its ending, to be changed.
func stem(name string) string {
	if i := strings.LastIndex(name, "."); i > 0 {
		return name[:i]
	}
	return name
}

// paperAt is the address of a file.
func (h *house) paperAt(f store.FileEntry) string { return h.at("papers/" + f.ID) }
