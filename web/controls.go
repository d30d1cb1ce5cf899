package web

import (
	"context"
	"net/http"
	"net/url"
	"strings"

	"curvewright/job"
	"curvewright/store"
	"curvewright/web/words"
)

// Controls are described once, from their manuals, and used in many jobs. One that is
// kept is a document with nothing in it but its name and the control.

// controlPart is the page that asks for a control.
var controlPart = surveyPart{"control", []string{"job", "control"}}

// keptControls are the controls that can be used, the last changed first.
func (s *server) keptControls(ctx context.Context) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: store.Control, Sort: store.ByTitle, Limit: 200})
	return list, err
}

// controls lists them.
func (s *server) controls(w http.ResponseWriter, r *http.Request) {
	list, err := s.keptControls(r.Context())
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	s.write(w, r, http.StatusOK, controlsPage(list, s.framed(r)))
}

// takeControl begins a control from a shape or takes one in from a file.
func (s *server) takeControl(w http.ResponseWriter, r *http.Request) {
	values, file, err := formOf(r)
	if err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read, or its file is larger than 1 MB. Nothing was changed", s.framed(r)))
		return
	}
	ctx := r.Context()
	j := &job.Job{Version: job.Version, Name: strings.TrimSpace(values.Get("name"))}
	if file != "" {
		from, err := job.Draft([]byte(file))
		if from == nil {
			s.write(w, r, http.StatusUnprocessableEntity, refusedFile(err, s.framed(r)))
			return
		}
		j.Control = from.Control
		if j.Name == "" {
			j.Name = from.Name
		}
	} else if err := shapeNamed(values.Get("shape")).into(&j.Control, readerOf(ctx).System); err != nil {
		s.trouble(w, r, err)
		return
	}
	if j.Name == "" {
		j.Name = words.Say(ctx, "controls.unnamed")
	}
	entry, err := s.keepControl(ctx, j)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/controls/"+entry.ID, http.StatusSeeOther)
}

// keepControl keeps a control as a document of its own.
func (s *server) keepControl(ctx context.Context, j *job.Job) (store.Entry, error) {
	document, err := job.Write(j)
	if err != nil {
		return store.Entry{}, err
	}
	return s.store.Create(ctx, store.Entry{Kind: store.Control, Title: j.Name, About: inALine(j)}, document, readerOf(ctx).by(), words.Say(ctx, "history.begun"))
}

// controlPage shows the questions about one.
func (s *server) controlPage(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Control, r.PathValue("id"), "survey", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.ask(r.Context(), controlPart, -1)
	s.write(w, r, http.StatusOK, inHouse(p, s.framed(r)))
}

// describe takes the answers.
func (s *server) describe(w http.ResponseWriter, r *http.Request) {
	s.answers(w, r, store.Control, controlPart)
}

// controlFile gives a control to be shared.
func (s *server) controlFile(w http.ResponseWriter, r *http.Request) {
	s.file(w, r, store.Control)
}

// file gives a document as it is kept.
func (s *server) file(w http.ResponseWriter, r *http.Request, kind store.Kind) {
	entry, revision, err := s.kept(r.Context(), kind, r.PathValue("id"))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	sendDocument(w, entry.Title, revision.Document)
}

// moveControl copies a control or puts it away.
func (s *server) moveControl(w http.ResponseWriter, r *http.Request) {
	s.move(w, r, store.Control, []string{"trash", "restore"}, "/controls", func(j *job.Job, title string) (string, error) {
		j.Name = words.Say(r.Context(), "jobs.copyof", title)
		_, err := s.keepControl(r.Context(), j)
		return "/controls", err
	})
}

// reshape changes the shape of the document, or brings a kept control or an entry of the
// library into it, or keeps one that is in it.
func (s *server) reshape(ctx context.Context, j *job.Job, what string, values url.Values) error {
	verb, id, _ := strings.Cut(what, " ")
	switch verb {
	case "use-control":
		_, revision, err := s.kept(ctx, store.Control, id)
		if err != nil {
			return err
		}
		from, err := job.Draft(revision.Document)
		if from == nil {
			return err
		}
		j.Control = from.Control
		return nil
	case "library":
		return s.takeEntry(ctx, j, id, values)
	case "keep-entry":
		return s.keepEntry(ctx, j, id)
	case "shape":
		return shapeNamed(id).into(&j.Control, readerOf(ctx).System)
	case "keep-control":
		_, err := s.keepControl(ctx, &job.Job{Version: job.Version, Name: words.Say(ctx, "controls.of", j.Name), Control: j.Control})
		return err
	}
	return do(j, what)
}

// useAddress is where a control's file is.
func useAddress(e store.Entry) string { return "/controls/" + url.PathEscape(e.ID) }
