package web

import (
	"context"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"slices"
	"strings"

	"curvewright/attendance"
	"curvewright/store"
	"curvewright/web/words"
)

// Photographs of a visit: taken at a step of the walk, made smaller on the device, without
// place and time, and kept beside the visit. The visit's document names them.

// mostPhotos bounds what one visit holds.
const mostPhotos = 60

// photograph is one as it is shown.
type photograph struct {
	attendance.Photo
	At int // in the document
}

// photographs are those of a visit that are there.
func (s *server) photographs(ctx context.Context, a *attended) []photograph {
	if len(a.Visit.Photos) == 0 {
		return nil
	}
	files, err := s.store.Files(ctx, a.ID)
	if err != nil {
		return nil
	}
	var list []photograph
	for i, p := range a.Visit.Photos {
		if slices.ContainsFunc(files, func(f store.FileEntry) bool { return named(f, p.File) }) {
			list = append(list, photograph{p, i})
		}
	}
	return list
}

// named tells whether a file is the one that a document names: by its number, or, where it
// came from another place, by its name, which then begins with the number it had there.
func named(f store.FileEntry, name string) bool {
	return name != "" && (f.ID == name || f.Name == name || strings.HasPrefix(f.Name, name+"-"))
}

// beside reads a file that a visit's document names.
func (s *server) beside(ctx context.Context, id, name string) (store.File, error) {
	files, err := s.store.Files(ctx, id)
	if err != nil {
		return store.File{}, err
	}
	for _, f := range files {
		if named(f, name) {
			return s.store.ReadFile(ctx, id, f.ID)
		}
	}
	return store.File{}, store.NotFound
}

// of are the photographs of a step.
func (a *attended) of(step string) []photograph {
	var list []photograph
	for _, p := range a.Photos {
		if p.Step == step {
			list = append(list, p)
		}
	}
	return list
}

// caption says what a photograph shows.
func (p *page) caption(ctx context.Context, photo attendance.Photo) string {
	step := ""
	if photo.Reading != "" {
		step = p.readingCaption(ctx, photo)
	}
	if photo.Step != "" {
		step = p.engine(p.House.Visit.stepWords(photo.Step))
	}
	if photo.Of == "" || step == "" {
		return photo.Of + step
	}
	return photo.Of + " – " + step
}

// takePhotos keeps the photographs of a form with the step that they were taken at.
func (s *server) takePhotos(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, err := s.openVisit(withoutSection(r))
	if err == nil && p.House.Visit.Sealed {
		err = errSigned
	}
	var parts *multipart.Reader
	if err == nil {
		parts, err = r.MultipartReader()
	}
	to, of, section, place := attendance.Photo{}, "", "", false
	var refused []string
	status := http.StatusUnprocessableEntity
	for err == nil {
		part, problem := parts.NextPart()
		if errors.Is(problem, io.EOF) {
			break
		}
		var data []byte
		if problem == nil {
			data, problem = io.ReadAll(io.LimitReader(part, maxPaper+1))
		}
		if problem != nil {
			refused = append(refused, words.Say(ctx, "papers.broken", maxUpload>>20))
			if large := (*http.MaxBytesError)(nil); errors.As(problem, &large) {
				status = http.StatusRequestEntityTooLarge
			}
			break
		}
		switch part.FormName() {
		case "step":
			to = p.belongs(string(data))
		case "place":
			place = len(data) > 0
		case "of":
			of = plainName(string(data))
		case "section":
			section = slug(string(data))
		case "files":
			if len(data) == 0 && part.FileName() == "" {
				continue // none was chosen
			}
			var told string
			to.Of = of
			if told, err = s.takePhoto(ctx, p, part.FileName(), data, place, to); told != "" {
				refused = append(refused, told)
			}
		}
	}
	switch {
	case errors.Is(err, errSigned):
		s.write(w, r, http.StatusConflict, failed(refusal(ctx, err.Error()), s.framed(r)))
	case err != nil:
		s.trouble(w, r, err)
	case len(refused) > 0:
		s.write(w, r, status, failed(strings.Join(refused, " "), s.framed(r)))
	default:
		http.Redirect(w, r, p.House.Visit.at(p.House, section)+p.anchor(to), http.StatusSeeOther)
	}
}

// takePhoto keeps one, without what does not belong to the picture; the document names it
// by what it holds, so that a picture can be told from another one anywhere.
func (s *server) takePhoto(ctx context.Context, p *page, name string, data []byte, place bool, photo attendance.Photo) (refused string, err error) {
	file, problem := paperOf(ctx, plainName(name), data, place)
	switch {
	case problem != "":
		return problem, nil
	case !strings.HasPrefix(file.Type, "image/"):
		return words.Say(ctx, "papers.kind", name), nil
	case len(p.House.Visit.Visit.Photos) >= mostPhotos:
		return words.Say(ctx, "photos.full", mostPhotos), nil
	}
	file.Name = attendance.Fingerprint(file.Data)[:16] + paperKinds[file.Type]
	photo.File = file.Name
	if slices.ContainsFunc(p.House.Visit.Visit.Photos, func(x attendance.Photo) bool { return x == photo }) {
		return "", nil // sent twice
	}
	if _, err := s.beside(ctx, p.House.Visit.ID, file.Name); err != nil {
		if _, err := s.store.PutFile(ctx, p.House.Visit.ID, file); err != nil {
			return "", err
		}
	}
	return "", s.changeVisit(ctx, p.House.Visit.ID, func(v *attendance.Visit) error {
		v.Photos = append(v.Photos, photo)
		p.House.Visit.Visit = v
		return nil
	})
}
