//go:build !js

package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"curvewright/followup"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// What the household says is kept beside the job, remark by remark with its day: a cold
// week in January and a stuffy one in April together say more than either.

// remarked is the form of remarks with what came of those that are kept.
type remarked struct {
	Rows    []remarkRow
	Kept    []keptRemark // the newest first
	Circuit int
	Advice  *followup.Advice
	Trouble string
}

// remarkRow is one remark as typed.
type remarkRow struct {
	Date, Room, Felt, When, Outdoor, Often, By string
	Shower, Sunny                              bool
}

// keptRemark is a remark that is kept.
type keptRemark struct {
	store.Entry
	followup.Remark
}

const (
	remarkRows  = 4   // that a form offers
	mostRemarks = 200 // that are weighed, the newest
)

// remarksOf lists the remarks of a job.
func (s *server) remarksOf(ctx context.Context, id string) ([]keptRemark, error) {
	entries, _, err := s.store.List(ctx, store.Query{Kind: store.Remark, Parent: id, Sort: store.ByCreated, Limit: mostRemarks})
	if err != nil {
		return nil, err
	}
	var list []keptRemark
	for _, e := range entries {
		_, revision, err := s.store.Read(ctx, e.ID)
		if err != nil {
			return nil, err
		}
		k := keptRemark{Entry: e}
		if err := json.Unmarshal(revision.Document, &k.Remark); err != nil {
			return nil, fmt.Errorf("a remark is not kept as it should be: %w", err)
		}
		list = append(list, k)
	}
	return list, nil
}

// openFollow reads a job with its logs and its remarks.
func (s *server) openFollow(ctx context.Context, id string) (*page, remarked, error) {
	said := remarked{Rows: make([]remarkRow, remarkRows)}
	for i := range said.Rows {
		said.Rows[i].Date = s.today()
	}
	p, err := s.open(ctx, store.Job, id, "follow-up", noDoubt)
	if err == nil {
		p.House.Logs, err = s.logsOf(ctx, id)
	}
	if err == nil {
		said.Kept, err = s.remarksOf(ctx, id)
	}
	return p, said, err
}

// weigh asks what the kept remarks come to.
func (m *remarked) weigh(p *page) {
	if p.Sheet == nil || len(m.Kept) == 0 {
		return
	}
	if m.Circuit < 0 || m.Circuit >= len(p.Sheet.Circuits) {
		m.Circuit = 0
	}
	var list []followup.Remark
	for _, k := range m.Kept {
		list = append(list, k.Remark)
	}
	o := settings.DefaultOptions(p.job)
	o.System, o.Samples = p.System, 0
	plan, err := settings.Prepare(p.job, o)
	if err == nil {
		var advice followup.Advice
		if advice, err = followup.Weigh(plan, p.job, m.Circuit, list); err == nil {
			m.Advice = &advice
		}
	}
	if err != nil {
		m.Trouble = capital(err.Error())
	}
}

// followPage shows the logs of a job, its remarks, and the form for more.
func (s *server) followPage(w http.ResponseWriter, r *http.Request) {
	p, said, err := s.openFollow(r.Context(), r.PathValue("id"))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	said.Circuit, _ = strconv.Atoi(r.URL.Query().Get("circuit"))
	said.weigh(p)
	s.write(w, r, http.StatusOK, followPage(p, said, s.framed(r)))
}

// takeRemarks keeps what the household says; nothing is kept of a form with a fault.
func (s *server) takeRemarks(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	if err := r.ParseForm(); err != nil {
		s.write(w, r, http.StatusBadRequest, failed("The form could not be read. Go back one page and try again", s.framed(r)))
		return
	}
	p, said, err := s.openFollow(ctx, r.PathValue("id"))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	var list []followup.Remark
	for i := range said.Rows {
		get := func(name string) string { return strings.TrimSpace(r.PostFormValue(name + "-" + strconv.Itoa(i))) }
		row := remarkRow{Date: get("date"), Room: get("room"), Felt: get("felt"), When: get("when"), Outdoor: get("outdoor"),
			Often: get("often"), By: get("by"), Shower: get("shower") != "", Sunny: get("sunny") != ""}
		said.Rows[i] = row
		if row.Felt == "" {
			continue
		}
		remark, err := row.read(p.System)
		if err == nil {
			err = remark.Check()
		}
		if err != nil && said.Trouble == "" {
			said.Trouble = capital(err.Error())
		}
		list = append(list, remark)
	}
	said.Circuit, _ = strconv.Atoi(r.PostFormValue("circuit"))
	if said.Trouble != "" {
		s.write(w, r, http.StatusUnprocessableEntity, followPage(p, said, s.framed(r)))
		return
	}
	for _, remark := range list {
		document, err := json.Marshal(remark)
		if err == nil {
			_, err = s.store.Create(ctx, store.Entry{Kind: store.Remark, Parent: p.House.ID, Title: titleOf(remark), About: oneLine(remark.Room)}, document, readerOf(ctx).by(), words.Say(ctx, "history.begun"))
		}
		if err != nil {
			s.trouble(w, r, err)
			return
		}
	}
	http.Redirect(w, r, p.House.at("follow-up")+"?"+url.Values{"circuit": {strconv.Itoa(said.Circuit)}}.Encode()+"#remarks-title", http.StatusSeeOther)
}

// removeRemark takes a remark away for good.
func (s *server) removeRemark(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	entry, _, err := s.kept(ctx, store.Remark, r.PathValue("remark"))
	if err == nil && entry.Parent != r.PathValue("id") {
		err = store.NotFound
	}
	if err == nil {
		err = s.store.SetState(ctx, entry.ID, store.Trashed)
	}
	if err == nil {
		err = s.store.Erase(ctx, entry.ID)
	}
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	http.Redirect(w, r, "/jobs/"+url.PathEscape(entry.Parent)+"/follow-up#remarks-title", http.StatusSeeOther)
}

// read makes a remark of what was typed.
func (row remarkRow) read(system units.System) (followup.Remark, error) {
	remark := followup.Remark{Date: row.Date, Room: row.Room, Felt: followup.Felt(row.Felt), When: followup.When(row.When), Shower: row.Shower, Sunny: row.Sunny}
	var err error
	if row.Date != "" {
		if _, err := time.Parse(time.DateOnly, row.Date); err != nil {
			return remark, fmt.Errorf("%q is no day; accepted: year, month and day as 2026-01-17", row.Date)
		}
	}
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
			text += " " + degreeApart(system)
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

// degreeApart is the unit of a difference of temperatures.
func degreeApart(s units.System) string {
	if s.In(units.Temperatures) == units.US {
		return "°F"
	}
	return "K"
}

// inWords is a kept remark in a line.
func (k keptRemark) inWords(ctx context.Context, p *page) string {
	parts := []string{words.Say(ctx, "felt."+slug(string(k.Felt)))}
	if k.Room != "" {
		parts = append(parts, k.Room)
	}
	if k.When != followup.AllDay {
		parts = append(parts, words.Say(ctx, "when."+slug(string(k.When))))
	}
	if k.Outdoor > 0 {
		parts = append(parts, words.Say(ctx, "follow.outdoors")+" "+temperature(p.System, k.Outdoor))
	}
	if k.By != 0 {
		parts = append(parts, words.Say(ctx, "follow.offby", p.quantity(k.By)))
	}
	if k.Often > 1 {
		parts = append(parts, words.Say(ctx, "follow.weekly", k.Often))
	}
	if k.Shower {
		parts = append(parts, words.Say(ctx, "follow.shower"))
	}
	if k.Sunny {
		parts = append(parts, words.Say(ctx, "follow.sunny"))
	}
	return strings.Join(parts, " · ")
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
