//go:build !js

package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"mime/multipart"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"curvewright/followup"
	"curvewright/job"
	"curvewright/logs"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// Logs as they were read. A year by the minute takes a second to read and to judge, and
// whoever looks at it looks at many stretches of it; so the newest few stay in memory.

const (
	mostRead     = 3          // logs that are kept
	mostCells    = 24_000_000 // readings in them together, at 8 bytes
	mostVerdicts = 4          // of one log
)

// readLogs are the logs read last, the newest first.
type readLogs struct {
	lock sync.Mutex
	list []*readLog
}

// readLog is a log as one revision of its mapping reads it.
type readLog struct {
	id         string
	revision   int
	recognised *logs.Recognised
	rows       *logs.Log                   // nil until its columns are confirmed
	verdicts   map[string]*followup.Result // by what they rest on
}

func (l *readLog) cells() int {
	if l.rows == nil {
		return 0
	}
	return len(l.rows.Stamps) * (len(l.rows.Series) + 1)
}

// find gives a log that is still in memory.
func (q *readLogs) find(id string, revision int) *readLog {
	q.lock.Lock()
	defer q.lock.Unlock()
	for _, l := range q.list {
		if l.id == id && l.revision == revision {
			return l
		}
	}
	return nil
}

// keep puts a log first and lets go of the oldest.
func (q *readLogs) keep(l *readLog) {
	q.lock.Lock()
	defer q.lock.Unlock()
	list, cells := []*readLog{l}, l.cells()
	for _, old := range q.list {
		if cells += old.cells(); old.id != l.id && len(list) < mostRead && cells <= mostCells {
			list = append(list, old)
		}
	}
	q.list = list
}

// verdict gives what was made of a log before.
func (q *readLogs) verdict(l *readLog, key string) *followup.Result {
	q.lock.Lock()
	defer q.lock.Unlock()
	return l.verdicts[key]
}

func (q *readLogs) judged(l *readLog, key string, r *followup.Result) {
	q.lock.Lock()
	defer q.lock.Unlock()
	if l.verdicts == nil || len(l.verdicts) >= mostVerdicts {
		l.verdicts = map[string]*followup.Result{}
	}
	l.verdicts[key] = r
}

// openLog reads the job and the log of a request, without its rows.
func (s *server) openLog(r *http.Request) (*page, *followed, error) {
	ctx := r.Context()
	p, err := s.open(ctx, store.Job, r.PathValue("id"), "follow-up", noDoubt)
	if err != nil {
		return nil, nil, err
	}
	f, err := s.logEntry(ctx, p.House.ID, r.PathValue("log"))
	return p, f, err
}

func (s *server) logEntry(ctx context.Context, job, id string) (*followed, error) {
	entry, revision, err := s.kept(ctx, store.Log, id)
	if err == nil && entry.Parent != job {
		err = store.NotFound
	}
	if err != nil {
		return nil, err
	}
	f := &followed{Entry: entry, Script: s.assets.link("dist/series.js"), Style: s.assets.link("dist/series.css")}
	if err := json.Unmarshal(revision.Document, &f.Log); err != nil {
		return nil, fmt.Errorf("the log is not kept as it should be: %w", err)
	}
	return f, nil
}

func isSheet(f multipart.File) bool {
	var begin [2]byte
	_, err := f.ReadAt(begin[:], 0)
	return err == nil && string(begin[:]) == "PK"
}

// recognise looks at a log that was sent.
func recognise(f multipart.File, size int64, sheet bool) (*logs.Recognised, error) {
	if !sheet {
		in, err := logs.Sample(f, size)
		if err != nil {
			return nil, err
		}
		return logs.Recognise(in)
	}
	rows, err := logs.Sheet(f, size)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	return logs.Recognise(rows)
}

// unpacked gives the rows of a kept log as text.
func unpacked(packed []byte, sheet bool) (io.ReadCloser, error) {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil || !sheet {
		return z, err
	}
	data, err := io.ReadAll(io.LimitReader(z, maxLog+1))
	if err != nil {
		return nil, err
	}
	return logs.Sheet(bytes.NewReader(data), int64(len(data)))
}

// readRows reads a log, its rows only if their meaning was confirmed.
func (s *server) readRows(ctx context.Context, f *followed) (*readLog, error) {
	if l := s.read.find(f.ID, f.Revision); l != nil {
		return l, nil
	}
	file, err := s.store.ReadFile(ctx, f.ID, f.Log.File)
	if err != nil {
		return nil, err
	}
	l := &readLog{id: f.ID, revision: f.Revision}
	in, err := unpacked(file.Data, f.Log.Sheet)
	if err != nil {
		return nil, err
	}
	l.recognised, err = logs.Recognise(in)
	in.Close()
	if err == nil && f.Log.Sure {
		if in, err = unpacked(file.Data, f.Log.Sheet); err != nil {
			return nil, err
		}
		l.rows, err = logs.Read(ctx, in, f.Log.Mapping, logs.Options{MostBytes: mostUnpacked, MostRows: maxLogRows, Now: time.Now().Unix()})
		in.Close()
	}
	if err != nil {
		return l, err
	}
	s.read.keep(l)
	return l, nil
}

// look recognises a log, and judges it if its columns are confirmed.
func (s *server) look(ctx context.Context, p *page, f *followed, thorough bool) {
	l, err := s.readRows(ctx, f)
	if l != nil {
		f.Recognised, f.rows = l.recognised, l.rows
	}
	if err == nil && f.Log.Sure && p.Sheet != nil {
		key := fmt.Sprint(p.House.ID, p.House.Revision, p.System.Word(), thorough)
		if f.Result = s.read.verdict(l, key); f.Result == nil {
			if f.Result, err = followup.Analyse(ctx, l.rows, p.job, followup.Options{System: p.System, Cheap: !thorough}); err == nil {
				s.read.judged(l, key, f.Result)
			}
		}
	}
	if err != nil {
		f.Trouble = capital(err.Error())
	}
}

// logPage shows how the columns of a log are understood and, once that is confirmed, what
// it says.
func (s *server) logPage(w http.ResponseWriter, r *http.Request) {
	p, f, err := s.openLog(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	s.look(r.Context(), p, f, r.URL.Query().Has("thorough"))
	if r.Context().Err() != nil {
		return // whoever asked has gone
	}
	if f.rows != nil && len(f.rows.Stamps) > 0 {
		f.From, f.To = stretchAsked(r, f.rows)
	}
	s.write(w, r, http.StatusOK, logSheet(p, f, s.framed(r)))
}

// stretchAsked is the stretch of a log that a request names, or all of it.
func stretchAsked(r *http.Request, l *logs.Log) (from, to int64) {
	first, last := l.Stamps[0], l.Stamps[len(l.Stamps)-1]
	at := func(name string, otherwise int64) int64 {
		v, err := strconv.ParseInt(r.URL.Query().Get(name), 10, 64)
		if err != nil {
			return otherwise
		}
		return max(first, min(last, v))
	}
	if from, to = at("from", first), at("to", last); to <= from {
		return first, last
	}
	return from, to
}

const (
	usualParts = 1000 // of a stretch, where the request says nothing
	mostParts  = 4000
)

// logSeries gives a stretch of a log to the drawing, with no more points than it can show.
func (s *server) logSeries(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	f, err := s.logEntry(ctx, r.PathValue("id"), r.PathValue("log"))
	var l *readLog
	if err == nil {
		l, err = s.readRows(ctx, f)
	}
	if ctx.Err() != nil {
		return
	}
	if err != nil || l.rows == nil || len(l.rows.Stamps) == 0 {
		http.Error(w, "this log has no rows to draw", http.StatusNotFound)
		return
	}
	system, _ := systemNamed(r.URL.Query().Get("units"))
	parts, err := strconv.Atoi(r.URL.Query().Get("most"))
	if err != nil {
		parts = usualParts
	}
	from, to := stretchAsked(r, l.rows)
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(seriesJSON(ctx, l.rows, system, from, to, max(1, min(mostParts, parts))))
}

// seriesJSON writes a stretch by hand: most of it is figures, and some are missing.
func seriesJSON(ctx context.Context, l *logs.Log, system units.System, from, to int64, parts int) []byte {
	window := l.Window(from, to, parts)
	out := fmt.Appendf(nil, `{"first":%d,"last":%d,"from":%d,"to":%d,"columns":[`, l.Stamps[0], l.Stamps[len(l.Stamps)-1], from, to)
	for i, c := range l.Series {
		if i > 0 {
			out = append(out, ',')
		}
		m := measureOf(c.Column, system)
		name, _ := json.Marshal(columnName(ctx, c.Column))
		unit, _ := json.Marshal(m.unit)
		out = fmt.Appendf(out, `{"name":%s,"unit":%s,"warm":%t}`, name, unit, m.temperature)
	}
	out = append(out, `],"stamps":[`...)
	for i, at := range window.Stamps {
		if i > 0 {
			out = append(out, ',')
		}
		out = strconv.AppendInt(out, at, 10)
	}
	out = append(out, `],"values":[`...)
	for k, values := range window.Values {
		if k > 0 {
			out = append(out, ',')
		}
		out = append(out, '[')
		m := measureOf(l.Series[k].Column, system)
		for i, v := range values {
			if i > 0 {
				out = append(out, ',')
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				out = append(out, "null"...)
				continue
			}
			out = strconv.AppendFloat(out, math.Round((v*m.factor+m.offset)*100)/100+0, 'f', -1, 64)
		}
		out = append(out, ']')
	}
	return append(out, "]}"...)
}

// measure is how a column is shown.
type measure struct {
	unit           string
	factor, offset float64
	temperature    bool
}

func measureOf(c logs.Column, system units.System) measure {
	u, _ := logs.UnitNamed(c.Unit)
	of := map[logs.Kind]struct {
		kind   units.Kind
		si, us string
	}{
		logs.Temperature: {units.Temperatures, "°C", "°F"}, logs.Power: {units.Powers, "kW", "kBtu/h"}, logs.Energy: {units.Energies, "kWh", "kBtu"},
		logs.Volume: {units.Spaces, "m³", "ft³"}, logs.Flow: {units.Flows, "L/min", "gpm"}, logs.Pressure: {units.Pressures, "bar", "psi"},
		logs.Irradiance: {units.Fluxes, "W/m²", "W/m²"}, logs.Share: {units.Temperatures, "%", "%"},
	}[u.Kind]
	name := of.si
	if system.In(of.kind) == units.US {
		name = of.us
	}
	shown, known := logs.UnitNamed(name)
	if own, also := logs.UnitNamed(system.Chosen(of.kind)); also && own.Kind == u.Kind {
		name, shown, known = own.Name, own, true
	}
	if !known || shown.Factor == 0 {
		return measure{unit: c.Unit, factor: 1}
	}
	return measure{name, 1 / shown.Factor, -shown.Offset / shown.Factor, u.Kind == logs.Temperature}
}

// columnName is what a column is, with the room or, of what there may be several, with its
// heading.
func columnName(ctx context.Context, c logs.Column) string {
	name := words.Say(ctx, "role."+slug(string(c.Role)))
	switch {
	case c.Name != "":
		return name + " " + c.Name
	case c.Role == logs.Room:
		return name + " " + c.Heading
	}
	return name
}

// learnLog lets the survey learn what a log has taught.
func (s *server) learnLog(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	p, f, err := s.openLog(r)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	s.look(ctx, p, f, false)
	if f.Result == nil || f.Result.Correction.Learned == nil {
		s.write(w, r, http.StatusUnprocessableEntity, logSheet(p, f, s.framed(r)))
		return
	}
	p.job.Learned = learnedFrom(p.job, f)
	if _, err := s.save(ctx, p.House.Entry, p.job, words.Say(ctx, "follow.learned", f.Title), 0); err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, p.House.at("logs/"+f.ID)+"#correction-title", http.StatusSeeOther)
}

// learnedFrom is what goes into the job: the factors of the log's circuit, and those of
// others that were learned before.
func learnedFrom(j *job.Job, f *followed) *job.Learned {
	c := f.Result.Correction
	before := settings.LearnedOf(j)
	l := &job.Learned{From: f.Title, Until: logs.Clock(f.Result.To).Format(time.DateOnly),
		Loss: job.Says(figure(c.Learned.Loss), job.Measured), LossDoubt: job.Says(doubtOf(c.Learned.LossDoubt), job.Measured)}
	for i, circuit := range j.Circuits {
		if i >= len(c.Learned.Emitters) || i != c.Circuit && (before == nil || before.EmitterDoubt[i] < 0) {
			continue
		}
		l.Emitters = append(l.Emitters, job.LearnedEmitters{Circuit: circuit.Name, Factor: job.Says(figure(c.Learned.Emitters[i]), job.Measured),
			Doubt: job.Says(doubtOf(c.Learned.EmitterDoubt[i]), job.Measured)})
	}
	return l
}

func figure(f units.Fraction) units.Number { return units.Number(math.Round(float64(f)*1000) / 1000) }

func doubtOf(f units.Fraction) units.Fraction {
	return units.Fraction(math.Min(1, math.Max(0.001, math.Round(float64(f)*1000)/1000)))
}

// taught tells whether the survey has learned from this log.
func (f *followed) taught(p *page) bool {
	return p.job.Learned != nil && p.job.Learned.From == f.Title
}

// noteFor is what a visit should know of the log that it was prepared from.
func (s *server) noteFor(ctx context.Context, p *page, id string) (string, error) {
	f, err := s.logEntry(ctx, p.House.ID, id)
	if err != nil {
		return "", err
	}
	s.look(ctx, p, f, false)
	if f.Result == nil || !f.Result.Correction.Known {
		return "", nil
	}
	c := f.Result.Correction
	parts := []string{words.Say(ctx, "follow.note", f.Title)}
	if c.First != "" {
		parts = append(parts, words.Say(ctx, "follow.note.first", inOrder(ctx, c.First)))
	}
	for i, at := range c.Points {
		if i == 0 || i == len(c.Points)/2 || i == len(c.Points)-1 {
			parts = append(parts, words.Say(ctx, "follow.note.point", temperature(p.System, at.Outdoor), temperature(p.System, at.Set), temperature(p.System, at.Sheet)))
		}
	}
	return strings.Join(parts, " "), nil
}

// inOrder says a step of repair with what is found there.
func inOrder(ctx context.Context, first string) string {
	step, name, _ := strings.Cut(first, ": ")
	return words.Engine(ctx, step) + words.Of(ctx).Colon() + words.Engine(ctx, name)
}
