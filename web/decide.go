//go:build !js

package web

import (
	"context"
	"crypto/sha256"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"time"

	"curvewright/curve"
	"curvewright/decide"
	"curvewright/store"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/web/words"
)

// Settings searched by playing years. A search takes some ten seconds of all the machine's
// cores, so that there is one at a time, and the page looks in on it.

// search is one that runs or has ended.
type search struct {
	job    string
	mark   [32]byte // of the document that was searched
	system units.System
	cancel context.CancelFunc

	lock     sync.Mutex
	done, of int
	ended    bool
	err      error
	trial    *trial.Trial
	answer   decide.Answer
}

// searches holds the newest search of each job that had one, and lets one run at a time.
type searches struct {
	lock  sync.Mutex
	byJob map[string]*search
	turn  sync.Mutex
}

// mostSearches bounds how many ended ones are remembered.
const mostSearches = 20

// searchLimit ends a search that takes too long.
const searchLimit = 3 * time.Minute

func (s *server) decideRoutes(mux *http.ServeMux) {
	s.searches = &searches{byJob: map[string]*search{}}
	mux.HandleFunc("GET /jobs/{id}/decide", s.decidePage)
	mux.HandleFunc("POST /jobs/{id}/decide", s.beginSearch)
	mux.HandleFunc("POST /jobs/{id}/decide/stop", s.stopSearch)
}

// sought is what the page shows of a search.
type sought struct {
	Done, Of       int
	Running, Ended bool
	Old            bool // the survey was changed since
	Err            error
	Trial          *trial.Trial
	Answer         decide.Answer
}

func (q *searches) of(job string) *search {
	q.lock.Lock()
	defer q.lock.Unlock()
	return q.byJob[job]
}

func (q *search) look(document string) sought {
	q.lock.Lock()
	defer q.lock.Unlock()
	return sought{Done: q.done, Of: q.of, Running: !q.ended, Ended: q.ended, Old: q.mark != sha256.Sum256([]byte(document)), Err: q.err, Trial: q.trial, Answer: q.answer}
}

// decidePage shows the search of a job.
func (s *server) decidePage(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "year", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	var now sought
	if q := s.searches.of(p.House.ID); q != nil {
		now = q.look(p.Document)
		if now.Trial != nil {
			p.System = q.system
		}
	}
	if r.URL.Query().Has("live") {
		s.write(w, r, http.StatusOK, decideState(p, now))
		return
	}
	s.write(w, r, http.StatusOK, decideSheet(p, now, s.framed(r)))
}

// beginSearch starts one, unless one runs for this job already.
func (s *server) beginSearch(w http.ResponseWriter, r *http.Request) {
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "year", noDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	to := p.House.at("decide")
	if old := s.searches.of(p.House.ID); p.Sheet == nil || old != nil && old.look(p.Document).Running {
		http.Redirect(w, r, to, http.StatusSeeOther)
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), searchLimit)
	q := &search{job: p.House.ID, mark: sha256.Sum256([]byte(p.Document)), system: p.System, cancel: cancel}
	s.searches.lock.Lock()
	if len(s.searches.byJob) >= mostSearches {
		for id, old := range s.searches.byJob {
			if old.look("").Ended {
				delete(s.searches.byJob, id)
				break
			}
		}
	}
	s.searches.byJob[q.job] = q
	s.searches.lock.Unlock()
	t, err := trial.New(p.job, trial.Options{System: p.System, Seed: yearSeed})
	if err != nil {
		q.end(nil, decide.Answer{}, err)
	} else {
		go s.run(ctx, q, t)
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

func (s *server) run(ctx context.Context, q *search, t *trial.Trial) {
	defer q.cancel()
	s.searches.turn.Lock()
	defer s.searches.turn.Unlock()
	answer, err := decide.Search(ctx, decide.Case{Plan: t.Plan, House: t.House, Plant: t.Plant, Base: t.Settings[0], Weather: t.Weather, Wanted: t.Wanted},
		decide.Options{Seed: yearSeed, Progress: func(done, of int) {
			q.lock.Lock()
			q.done, q.of = done, of
			q.lock.Unlock()
		}})
	q.end(t, answer, err)
}

func (q *search) end(t *trial.Trial, answer decide.Answer, err error) {
	q.lock.Lock()
	defer q.lock.Unlock()
	q.trial, q.answer, q.err, q.ended = t, answer, err, true
}

// stopSearch ends a search; what it found by then is shown.
func (s *server) stopSearch(w http.ResponseWriter, r *http.Request) {
	if q := s.searches.of(r.PathValue("id")); q != nil {
		q.cancel()
	}
	http.Redirect(w, r, "/jobs/"+r.PathValue("id")+"/decide", http.StatusSeeOther)
}

// advice is the answer in sentences.
func (n sought) advice(p *page) []string { return n.Answer.Advice(p.System) }

// chosenFacts are a candidate in the words of a control.
func (n sought) chosenFacts(ctx context.Context, p *page, c decide.Candidate) []fact {
	s := p.System
	var list []fact
	for i, one := range c.Choice.Circuits {
		list = append(list, fact{Name: one.Name, Value: curveWords(c.Settings.Circuits[i].Curve, s), Why: words.Say(ctx, "decide.supply",
			temperature(s, c.Settings.Circuits[i].Curve.At(n.Trial.Plan.Design)), temperature(s, n.Trial.Plan.Design))})
		if one.Lowered {
			list = append(list, fact{Name: one.Name, Value: words.Say(ctx, "decide.lowered", c.Choice.Lower.Text(s)),
				Why: words.Say(ctx, "decide.preheat", words.Engine(ctx, hoursText(c.Choice.Preheat)))})
		}
	}
	list = append(list,
		fact{Name: words.Say(ctx, "decide.cutoff"), Value: temperature(s, c.Choice.CutOff)},
		fact{Name: words.Say(ctx, "decide.influence"), Value: fmt.Sprintf("%g", float64(c.Choice.Influence))},
		fact{Name: words.Say(ctx, "decide.differential"), Value: c.Choice.Differential.Text(s)},
		fact{Name: words.Say(ctx, "decide.pause"), Value: minutes(c.Choice.Rest)},
		fact{Name: words.Say(ctx, "decide.fuel"), Value: c.Fuel.Text(s)},
		fact{Name: words.Say(ctx, "decide.starts"), Value: units.Number(float64(c.Starts)).Text(s)},
		fact{Name: words.Say(ctx, "decide.cold"), Value: trial.Hours(c.ColdFor), Why: words.Given(ctx, c.ColdRoom)},
	)
	for i := range list {
		list[i].Value = words.Engine(ctx, list[i].Value)
	}
	return list
}

func hoursText(t units.Time) string { return fmt.Sprintf("%.1f\u00a0h", float64(t)/3600) }

// curveWords is a curve as it is entered.
func curveWords(c curve.Setting, s units.System) string {
	switch c.Kind {
	case curve.SlopeShift:
		return fmt.Sprintf("%.1f, %s", c.Slope, c.Shift.Text(s))
	case curve.Table:
		var points []string
		for _, at := range c.Points {
			points = append(points, degrees(s, at.Outdoor)+" → "+degrees(s, at.Supply))
		}
		return strings.Join(points, ", ")
	}
	text := temperature(s, c.Cold.Supply) + " / " + temperature(s, c.Mild.Supply)
	if c.Kind == curve.Bent {
		text += fmt.Sprintf(", ^%.1f", c.Exponent)
	}
	return text
}

// frontWords is a point of the trade-off in a line.
func (n sought) frontWords(ctx context.Context, p *page, c decide.Candidate) string {
	text := words.Say(ctx, "decide.point", p.quantity(c.Fuel), words.Engine(ctx, trial.Hours(c.ColdFor)))
	if c.Keeps {
		text += " · " + words.Say(ctx, "decide.keeps")
	}
	return text
}
