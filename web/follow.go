//go:build !js

package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"

	"curvewright/followup"
	"curvewright/logs"
	"curvewright/store"
	"curvewright/web/words"
)

// The follow-up: what the household says and what a logger recorded, held against the
// job. It is work for a desk; where the browser itself is the server it is left out.

// maxLog is the most that a log may hold when it is sent.
const maxLog = mostLog

// mostUnpacked is the most that the rows of a spreadsheet may come to as text.
const mostUnpacked = 400 << 20

// maxLogRows is the most of it that is read: a year by the minute has half a million.
const maxLogRows = 1_200_000

// logFile is the form's name for a log.
const logFile = "log"

// keptLog is what is kept of a log beside its rows.
type keptLog struct {
	Name    string       `json:"name"`
	File    string       `json:"file"` // of the rows, packed
	Sheet   bool         `json:"sheet,omitempty"`
	Mapping logs.Mapping `json:"mapping"`
	Sure    bool         `json:"confirmed"` // the columns were confirmed by a person
}

// followed is a log as its page shows it.
type followed struct {
	store.Entry
	Log           keptLog
	Recognised    *logs.Recognised
	Result        *followup.Result
	Trouble       string
	From, To      int64  // the stretch that is drawn
	Script, Style string // of the drawing; empty if they were not built
	rows          *logs.Log
}

// grave tells what is wrong with a log from what merely was so: gaps and rows put in order
// change nothing that its reader has to do.
func grave(f logs.Finding) bool {
	switch f.Kind {
	case "swapped", "unit", "wrong year", "seasons", "stuck", "meter fell":
		return true
	}
	return false
}

// notes counts what is not.
func (f *followed) notes() int {
	n := 0
	for _, d := range f.Result.Log {
		if !grave(d) {
			n++
		}
	}
	return n
}

func (s *server) followRoutes(mux *http.ServeMux) {
	s.read = &readLogs{}
	mux.HandleFunc("GET /jobs/{id}/follow-up", s.followPage)
	mux.HandleFunc("POST /jobs/{id}/follow-up", s.takeRemarks)
	mux.HandleFunc("POST /jobs/{id}/remarks/{remark}/remove", s.removeRemark)
	mux.HandleFunc("POST /jobs/{id}/logs", s.takeLog)
	mux.HandleFunc("GET /jobs/{id}/logs/{log}", s.logPage)
	mux.HandleFunc("POST /jobs/{id}/logs/{log}", s.confirmLog)
	mux.HandleFunc("GET /jobs/{id}/logs/{log}/series", s.logSeries)
	mux.HandleFunc("POST /jobs/{id}/logs/{log}/learn", s.learnLog)
	mux.HandleFunc("POST /jobs/{id}/logs/{log}/remove", s.removeLog)
}

// logsOf lists the logs of a job.
func (s *server) logsOf(ctx context.Context, id string) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: store.Log, Parent: id, Sort: store.ByCreated, Limit: 100})
	return list, err
}

// takeLog keeps a log that was sent, with what is recognised in it.
func (s *server) takeLog(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	refuse := func(err error) {
		s.write(w, r, http.StatusUnprocessableEntity, failed("this log cannot be used: "+err.Error(), s.framed(r)))
	}
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "follow-up", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	if err := r.ParseMultipartForm(1 << 20); err != nil { // the rest waits on the disk
		refuse(fmt.Errorf("up to %d MB are taken", maxLog>>20))
		return
	}
	files := r.MultipartForm.File[logFile]
	if len(files) == 0 || files[0].Size == 0 {
		http.Redirect(w, r, p.House.at("follow-up"), http.StatusSeeOther)
		return
	}
	f, err := files[0].Open()
	if err != nil {
		refuse(err)
		return
	}
	defer f.Close()
	kept := keptLog{Name: files[0].Filename, Sheet: isSheet(f)}
	recognised, err := recognise(f, files[0].Size, kept.Sheet)
	if err != nil {
		refuse(err)
		return
	}
	kept.Mapping = recognised.Mapping
	if known, ok := s.sameColumns(ctx, p.House.ID, kept.Mapping); ok {
		kept.Mapping = known
	}
	var packed bytes.Buffer
	z, _ := gzip.NewWriterLevel(&packed, gzip.BestSpeed) // a level that there is
	_, err = io.Copy(z, io.NewSectionReader(f, 0, files[0].Size))
	err = errors.Join(err, z.Close())
	if err == nil {
		err = s.keepLog(w, r, p, kept, packed.Bytes())
	}
	if err != nil {
		s.trouble(w, r, err)
	}
}

func (s *server) keepLog(w http.ResponseWriter, r *http.Request, p *page, kept keptLog, packed []byte) error {
	ctx := r.Context()
	document, err := json.Marshal(kept)
	if err != nil {
		return err
	}
	entry, err := s.store.Create(ctx, store.Entry{Kind: store.Log, Parent: p.House.ID, Title: oneLine(kept.Name)}, document, readerOf(ctx).by(), words.Say(ctx, "history.begun"))
	if err != nil {
		return err
	}
	if kept.File, err = s.store.PutFile(ctx, entry.ID, store.File{Name: oneLine(kept.Name), Type: "application/gzip", Data: packed}); err != nil {
		return err
	}
	if document, err = json.Marshal(kept); err != nil {
		return err
	}
	if _, err = s.store.Save(ctx, entry.ID, entry.Revision, store.Change{Title: entry.Title, Document: document, By: readerOf(ctx).by()}); err != nil {
		return err
	}
	http.Redirect(w, r, p.House.at("logs/"+entry.ID), http.StatusSeeOther)
	return nil
}

// sameColumns finds how an earlier log of this job with the same columns was read.
func (s *server) sameColumns(ctx context.Context, id string, m logs.Mapping) (logs.Mapping, bool) {
	list, err := s.logsOf(ctx, id)
	if err != nil {
		return m, false
	}
	for _, e := range list {
		_, revision, err := s.store.Read(ctx, e.ID)
		var kept keptLog
		if err != nil || json.Unmarshal(revision.Document, &kept) != nil || !kept.Sure || len(kept.Mapping.Columns) != len(m.Columns) {
			continue
		}
		same := true
		for i, c := range kept.Mapping.Columns {
			same = same && c.Heading == m.Columns[i].Heading
		}
		if same {
			return kept.Mapping, true
		}
	}
	return m, false
}

// confirmLog takes what the columns mean.
func (s *server) confirmLog(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	p, f, err := s.openLog(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	m := &f.Log.Mapping
	columns := m.Columns
	if len(m.Keys) > 0 {
		columns = m.Keys
	}
	for i := range columns {
		at := strconv.Itoa(i)
		if role, sent := r.PostForm["role-"+at]; sent {
			columns[i].Role = logs.Role(role[0])
			columns[i].Name = strings.TrimSpace(r.PostFormValue("name-" + at))
			columns[i].Unit = strings.TrimSpace(r.PostFormValue("unit-" + at))
		}
	}
	m.Ending = r.PostFormValue("ending") != ""
	if offset := strings.Replace(strings.TrimSpace(r.PostFormValue("offset")), ",", ".", 1); offset != "" {
		if m.Offset, err = strconv.ParseFloat(offset, 64); err != nil {
			err = fmt.Errorf("%q is no number of hours from UTC", offset)
		}
	}
	if err == nil {
		err = m.Check()
	}
	if err != nil {
		f.Log.Sure = false
		s.look(ctx, p, f, false)
		f.Trouble = capital(err.Error())
		s.write(w, r, http.StatusUnprocessableEntity, logSheet(p, f, s.framed(r)))
		return
	}
	f.Log.Sure = true
	document, err := json.Marshal(f.Log)
	if err == nil {
		_, err = s.store.Save(ctx, f.ID, f.Revision, store.Change{Title: f.Title, Document: document, By: readerOf(ctx).by()})
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, p.House.at("logs/"+f.ID), http.StatusSeeOther)
}

// removeLog takes a log away for good.
func (s *server) removeLog(w http.ResponseWriter, r *http.Request) {
	p, f, err := s.openLog(r)
	if err == nil {
		err = errors.Join(s.store.SetState(r.Context(), f.ID, store.Trashed), s.store.Erase(r.Context(), f.ID))
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, p.House.at("follow-up"), http.StatusSeeOther)
}

// roomPicks are the rooms, or none for the whole house.
func roomPicks(p *page) []pick { return namePicks(p, "") }

// namePicks are the rooms of the job, and the name that is there already.
func namePicks(p *page, now string) []pick {
	list := []pick{{"", ""}}
	found := now == ""
	for _, r := range p.job.Rooms {
		list = append(list, pick{r.Name, r.Name})
		found = found || r.Name == now
	}
	if !found {
		list = append(list, pick{now, now})
	}
	return list
}

// offsetText is how far the clock of a log is from UTC.
func offsetText(m logs.Mapping) string {
	if m.Offset == 0 {
		return ""
	}
	return strconv.FormatFloat(m.Offset, 'f', -1, 64)
}

// roles are what a column can be.
var roles = []logs.Role{
	logs.Leave, logs.Time, logs.TimeOfDay, logs.Outdoor, logs.Supply, logs.Return, logs.Wanted, logs.Boiler, logs.BoilerBack, logs.Room, logs.Tank,
	logs.WaterFlow, logs.Heat, logs.HeatMeter, logs.Fuel, logs.FuelMeter, logs.Burner, logs.Pump, logs.Water, logs.Sun,
}

// columns are those to be confirmed.
func (f *followed) columns() []logs.Column {
	if len(f.Log.Mapping.Keys) > 0 {
		return f.Log.Mapping.Keys
	}
	return f.Log.Mapping.Columns
}

// shown are the estimates as text.
func (f *followed) shown(p *page) []followup.Shown { return f.Result.Table(p.System) }
