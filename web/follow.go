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
	"time"

	"curvewright/followup"
	"curvewright/logs"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// The follow-up: what the household says and what a logger recorded, held against the
// job. It is work for a desk; where the browser itself is the server it is left out.

// maxLog is the most that a log may hold when it is sent.
const maxLog = mostLog

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
	Log        keptLog
	Recognised *logs.Recognised
	Result     *followup.Result
	Trouble    string
}

// remarked is the form of remarks with what came of it.
type remarked struct {
	Rows    []remarkRow
	Circuit int
	Advice  *followup.Advice
	Trouble string
}

// remarkRow is one remark as typed.
type remarkRow struct {
	Date, Room, Felt, When, Outdoor, Often, By string
	Shower, Sunny                              bool
}

// remarkRows are as many as a form offers.
const remarkRows = 4

func (s *server) followRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /jobs/{id}/follow-up", s.followPage)
	mux.HandleFunc("POST /jobs/{id}/follow-up", s.remarks)
	mux.HandleFunc("POST /jobs/{id}/logs", s.takeLog)
	mux.HandleFunc("GET /jobs/{id}/logs/{log}", s.logPage)
	mux.HandleFunc("POST /jobs/{id}/logs/{log}", s.confirmLog)
	mux.HandleFunc("POST /jobs/{id}/logs/{log}/remove", s.removeLog)
}

// logsOf lists the logs of a job.
func (s *server) logsOf(ctx context.Context, id string) ([]store.Entry, error) {
	list, _, err := s.store.List(ctx, store.Query{Kind: store.Log, Parent: id, Sort: store.ByCreated, Limit: 100})
	return list, err
}

// followPage shows the logs of a job and the form for remarks.
func (s *server) followPage(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "follow-up", noDoubt)
	if err == nil {
		p.House.Logs, err = s.logsOf(r.Context(), p.House.ID)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	said := remarked{Rows: make([]remarkRow, remarkRows)}
	s.write(w, r, http.StatusOK, followPage(p, said, s.framed(r)))
}

// remarks weighs what the household says.
func (s *server) remarks(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "follow-up", noDoubt)
	if err == nil {
		p.House.Logs, err = s.logsOf(ctx, p.House.ID)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	said := remarked{}
	var list []followup.Remark
	for i := range remarkRows {
		get := func(name string) string { return strings.TrimSpace(r.PostFormValue(name + "-" + strconv.Itoa(i))) }
		row := remarkRow{Date: get("date"), Room: get("room"), Felt: get("felt"), When: get("when"), Outdoor: get("outdoor"),
			Often: get("often"), By: get("by"), Shower: get("shower") != "", Sunny: get("sunny") != ""}
		said.Rows = append(said.Rows, row)
		if row.Felt == "" {
			continue
		}
		remark, err := row.read(p.System)
		if err != nil && said.Trouble == "" {
			said.Trouble = capital(err.Error())
		}
		list = append(list, remark)
	}
	said.Circuit, _ = strconv.Atoi(r.PostFormValue("circuit"))
	status := http.StatusOK
	if said.Trouble == "" && p.Sheet != nil {
		if said.Circuit < 0 || said.Circuit >= len(p.Sheet.Circuits) {
			said.Circuit = 0
		}
		o := settings.DefaultOptions(p.job)
		o.System, o.Samples = p.System, 0
		plan, err := settings.Prepare(p.job, o)
		if err == nil {
			var advice followup.Advice
			if advice, err = followup.Weigh(plan, said.Circuit, list); err == nil {
				said.Advice = &advice
			}
		}
		if err != nil {
			said.Trouble = capital(err.Error())
		}
	}
	if said.Trouble != "" {
		status = http.StatusUnprocessableEntity
	}
	s.write(w, r, status, followPage(p, said, s.framed(r)))
}

// read makes a remark of what was typed.
func (row remarkRow) read(system units.System) (followup.Remark, error) {
	remark := followup.Remark{Date: row.Date, Room: row.Room, Felt: followup.Felt(row.Felt), When: followup.When(row.When), Shower: row.Shower, Sunny: row.Sunny}
	var err error
	if row.Outdoor != "" {
		text := row.Outdoor
		if bareFigure.MatchString(text) {
			text += " " + degree(system)
		}
		if remark.Outdoor, err = units.Parse[units.Temperature](text); err != nil {
			return remark, err
		}
	}
	if row.By != "" {
		text := row.By
		if bareFigure.MatchString(text) {
			text += map[bool]string{true: " °F", false: " K"}[system == units.US]
		}
		if remark.By, err = units.Parse[units.Difference](text); err != nil {
			return remark, err
		}
	}
	if row.Often != "" {
		if remark.Often, err = strconv.Atoi(row.Often); err != nil || remark.Often < 0 || remark.Often > 100 {
			return remark, fmt.Errorf("%q times in a week; accepted: a whole number to 100", row.Often)
		}
	}
	return remark, nil
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
	if err := r.ParseMultipartForm(maxLog); err != nil {
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
	data, err := io.ReadAll(f)
	if err != nil {
		refuse(err)
		return
	}
	kept := keptLog{Name: files[0].Filename, Sheet: bytes.HasPrefix(data, []byte("PK"))}
	in, done, err := rowsOf(data, kept.Sheet)
	var recognised *logs.Recognised
	if err == nil {
		recognised, err = logs.Recognise(in)
		done()
	}
	if err != nil {
		refuse(err)
		return
	}
	kept.Mapping = recognised.Mapping
	if known, ok := s.sameColumns(ctx, p.House.ID, kept.Mapping); ok {
		kept.Mapping = known
	}
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	_, err = z.Write(data)
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

func oneLine(name string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return '_'
		}
		return r
	}, strings.ToValidUTF8(name, "_"))
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

// rowsOf gives the rows of a log as text.
func rowsOf(data []byte, sheet bool) (io.Reader, func(), error) {
	if !sheet {
		return bytes.NewReader(data), func() {}, nil
	}
	rows, err := logs.Sheet(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, nil, err
	}
	return rows, func() { rows.Close() }, nil
}

// openLog reads the job and the log of a request.
func (s *server) openLog(r *http.Request) (*page, *followed, []byte, error) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "follow-up", noDoubt)
	if err != nil {
		return nil, nil, nil, err
	}
	entry, revision, err := s.store.Read(ctx, r.PathValue("log"))
	if err != nil {
		return nil, nil, nil, err
	}
	if entry.Kind != store.Log || entry.Parent != p.House.ID {
		return nil, nil, nil, store.NotFound
	}
	f := &followed{Entry: entry}
	if err := json.Unmarshal(revision.Document, &f.Log); err != nil {
		return nil, nil, nil, fmt.Errorf("the log is not kept as it should be: %w", err)
	}
	file, err := s.store.ReadFile(ctx, entry.ID, f.Log.File)
	if err != nil {
		return nil, nil, nil, err
	}
	z, err := gzip.NewReader(bytes.NewReader(file.Data))
	if err != nil {
		return nil, nil, nil, err
	}
	data, err := io.ReadAll(io.LimitReader(z, maxLog+1))
	return p, f, data, err
}

// logPage shows how the columns of a log are understood and, once that is confirmed, what
// it says.
func (s *server) logPage(w http.ResponseWriter, r *http.Request) {
	p, f, data, err := s.openLog(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	f.look(r.Context(), p, data, r.URL.Query().Has("thorough"))
	s.write(w, r, http.StatusOK, logSheet(p, f, s.framed(r)))
}

// look recognises a log, and judges it if its columns are confirmed.
func (f *followed) look(ctx context.Context, p *page, data []byte, thorough bool) {
	in, done, err := rowsOf(data, f.Log.Sheet)
	if err == nil {
		f.Recognised, err = logs.Recognise(in)
		done()
	}
	if err == nil && f.Log.Sure && p.Sheet != nil {
		if in, done, err = rowsOf(data, f.Log.Sheet); err == nil {
			var l *logs.Log
			l, err = logs.Read(ctx, in, f.Log.Mapping, logs.Options{MostRows: maxLogRows, Now: time.Now().Unix()})
			done()
			if err == nil {
				f.Result, err = followup.Analyse(ctx, l, p.job, followup.Options{System: p.System, Cheap: !thorough})
			}
		}
	}
	if err != nil {
		f.Trouble = capital(err.Error())
	}
}

// confirmLog takes what the columns mean.
func (s *server) confirmLog(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	p, f, data, err := s.openLog(r)
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
		f.look(ctx, p, data, false)
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
	p, f, _, err := s.openLog(r)
	if err == nil {
		err = errors.Join(s.store.SetState(r.Context(), f.ID, store.Trashed), s.store.Erase(r.Context(), f.ID))
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, p.House.at("follow-up"), http.StatusSeeOther)
}

// feltPicks are what a household can say.
func feltPicks(ctx context.Context) []pick {
	list := []pick{{"", words.Say(ctx, "follow.nofelt")}}
	for _, f := range []followup.Felt{followup.TooCold, followup.TooWarm, followup.NoHotWater, followup.Noise, followup.HighBills} {
		list = append(list, pick{string(f), words.Say(ctx, "felt."+slug(string(f)))})
	}
	return list
}

// whenPicks are the parts of the day.
func whenPicks(ctx context.Context) []pick {
	list := []pick{{string(followup.AllDay), words.Say(ctx, "when.all-day")}}
	for _, w := range []followup.When{followup.Morning, followup.Afternoon, followup.Evening, followup.Night} {
		list = append(list, pick{string(w), words.Say(ctx, "when."+slug(string(w)))})
	}
	return list
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

// curvePlot draws what the control did, what it should have done, and what to set now.
func (f *followed) curvePlot(ctx context.Context, p *page, s size) string {
	g := plot{width: s.width, height: s.height, x: words.Say(ctx, "follow.outdoors") + ", " + degree(p.System), y: words.Say(ctx, "follow.supply") + ", " + degree(p.System)}
	every := max(1, len(f.Result.Curve.Hours)/1500)
	for i, h := range f.Result.Curve.Hours {
		if i%every == 0 {
			g.dots = append(g.dots, dot{read(p.System, h.Outdoor), read(p.System, h.Supply), "level-" + slug(string(h.Level))})
		}
	}
	lines := []curveLine{{Name: words.Say(ctx, "follow.runs"), Class: "runs"}, {Name: words.Say(ctx, "follow.old"), Class: "old"}, {Name: words.Say(ctx, "follow.new"), Class: "new"}}
	for _, at := range f.Result.Correction.Points {
		x := read(p.System, at.Outdoor)
		for i, t := range []units.Temperature{at.Runs, at.Sheet, at.Set} {
			if t > 0 {
				lines[i].Points = append(lines[i].Points, [2]float64{x, read(p.System, t)})
			}
		}
	}
	g.lines = lines
	return g.svg(words.Say(ctx, "follow.plot"))
}

// signaturePlot draws the heat of each day against its weather.
func (f *followed) signaturePlot(ctx context.Context, p *page, s size) string {
	unit, scale := "kW", 1e-3
	if p.System == units.US {
		unit, scale = "kBtu/h", 1/293.071
	}
	g := plot{width: s.width, height: s.height, x: words.Say(ctx, "follow.outdoors") + ", " + degree(p.System), y: words.Say(ctx, "follow.heat") + ", " + unit}
	fit := curveLine{Name: words.Say(ctx, "follow.fitted"), Class: "new"}
	for _, at := range f.Result.Signature.Points {
		x := read(p.System, at.Outdoor)
		g.dots = append(g.dots, dot{x, float64(at.Heat) * scale, "level-warm"})
		fit.Points = append(fit.Points, [2]float64{x, float64(at.Fitted) * scale})
	}
	sortPoints(fit.Points)
	g.lines = []curveLine{fit}
	return g.svg(words.Say(ctx, "follow.signature"))
}
