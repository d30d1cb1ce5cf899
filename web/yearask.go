package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"curvewright/settings"
	"curvewright/store"
	"curvewright/trial"
	"curvewright/units"
)

// What a year is played with beside the job: weather, price and carbon of the fuel, and
// the control as somebody found it.

// YearAsk is how a year is played.
type YearAsk struct {
	System  units.System
	Weather []byte // a file, unpacked; none makes the weather up
	Price   trial.Price
	Carbon  trial.Carbon
	Found   *settings.Found // what was typed of the control as it was found; nil for what the job says
}

// Names in the form and in the addresses of a year's files.
const (
	keptWeather  = "weather"      // a file beside the job
	keepWeather  = "keep-weather" // whether the file that comes along is kept
	foundCutOff  = "found-cut-off"
	foundCircuit = "found-" // with the number of the circuit
)

// yearAsked is what was chosen, to be shown again.
type yearAsked struct {
	Weather string // the file beside the job
	Query   url.Values
	Lost    bool // the weather came along and was not kept: there is nothing to play again
}

// found is what was typed for a circuit.
func (a *yearAsked) found(name string) string {
	if a == nil {
		return ""
	}
	return a.Query.Get(name)
}

// chosen tells whether a file beside the job is the one to play.
func (a *yearAsked) chosen(id string) bool { return a != nil && a.Weather == id }

// at is where the year's table or print is, with what it was played with.
func (p *page) yearFile(ending string) string {
	to := p.House.at("year." + ending)
	if p.Asked != nil && len(p.Asked.Query) > 0 {
		to += "?" + p.Asked.Query.Encode()
	}
	return to
}

// yearFiles tells whether what was played can be played again for a file.
func (p *page) yearFiles() bool { return p.House != nil && (p.Asked == nil || !p.Asked.Lost) }

// askYear reads a form, or the address of a file of the year.
func (s *server) askYear(p *page, r *http.Request) (ask YearAsk, refused string) {
	ask = YearAsk{System: p.System}
	ask.Price, ask.Carbon = readerOf(r.Context()).fuel()
	p.Asked = &yearAsked{Query: url.Values{}}
	var err error
	if ask.Weather, err = s.askWeather(p, r); err != nil {
		return ask, unusable(err).Refused
	}
	if p.Sheet == nil {
		return ask, ""
	}
	surveyed := trial.KnowsFound(p.job)
	for i, c := range p.Sheet.Circuits {
		name := foundCircuit + strconv.Itoa(i)
		text := strings.TrimSpace(r.FormValue(name))
		if text == "" {
			continue
		}
		p.Asked.Query.Set(name, text)
		one, err := trial.ParseFound("circuit:" + text)
		if err != nil {
			return ask, p.say("found.wrong", c.Name, text)
		}
		one.Name = c.Name
		if ask.Found == nil {
			ask.Found = &settings.Found{}
		}
		ask.Found.Circuits = append(ask.Found.Circuits, one)
	}
	if text := strings.TrimSpace(r.FormValue(foundCutOff)); text != "" {
		p.Asked.Query.Set(foundCutOff, text)
		t, err := units.Parse[units.Temperature](text)
		if err != nil {
			return ask, p.say("found.cutoff.wrong", text)
		}
		if ask.Found == nil && surveyed {
			ask.Found = &settings.Found{}
		}
		if ask.Found != nil {
			ask.Found.CutOff = t
		}
	}
	if f := ask.Found; f != nil && !surveyed && len(f.Circuits) < len(p.Sheet.Circuits) {
		return ask, p.say("found.all")
	}
	return ask, ""
}

// askWeather is the file that came along, which is kept beside the job if that is wished,
// or one that lies there already.
func (s *server) askWeather(p *page, r *http.Request) ([]byte, error) {
	data, err := weatherOf(r)
	if err != nil {
		return nil, err
	}
	if data != nil {
		p.Asked.Lost = true
		if p.House != nil && r.FormValue(keepWeather) != "" {
			id, err := s.keepWeather(r.Context(), p, plainName(r.MultipartForm.File[weatherFile][0].Filename), data)
			if err != nil {
				return nil, err
			}
			p.Asked.Weather, p.Asked.Lost = id, false
			p.Asked.Query.Set(keptWeather, id)
		}
		return data, nil
	}
	id := r.FormValue(keptWeather)
	if id == "" || p.House == nil {
		return nil, nil
	}
	f, err := s.store.ReadFile(r.Context(), p.House.ID, id)
	if err != nil {
		return nil, fmt.Errorf("it no longer lies beside this job")
	}
	p.Asked.Weather = id
	p.Asked.Query.Set(keptWeather, id)
	return f.Data, nil
}

// keepWeather puts a file of weather beside the job, as its other papers.
func (s *server) keepWeather(ctx context.Context, p *page, name string, data []byte) (string, error) {
	name = strings.TrimSuffix(name, ".gz")
	file, problem := paperOf(ctx, name, data, true)
	if problem != "" {
		return "", fmt.Errorf("%s", strings.TrimSuffix(problem, "."))
	}
	for _, f := range p.weatherFiles() {
		if f.Name == file.Name && f.Size == len(file.Data) {
			return f.ID, nil // it lies there already
		}
	}
	if p.House.Papers != nil && p.House.Papers.Size+len(file.Data) > maxPapers {
		return "", fmt.Errorf("%s", p.say("papers.full", name, maxPapers>>20))
	}
	return s.store.PutFile(ctx, p.House.ID, file)
}

// weatherFiles are the files beside the job that may hold weather.
func (p *page) weatherFiles() []store.FileEntry {
	if p.House == nil || p.House.Papers == nil {
		return nil
	}
	var list []store.FileEntry
	for _, f := range p.House.Papers.Files {
		if strings.HasPrefix(f.Type, "text/") {
			list = append(list, f)
		}
	}
	return list
}

// fuel is what the reader's fuel costs, and its carbon dioxide, as far as they were told.
func (r reader) fuel() (trial.Price, trial.Carbon) {
	figure := func(text string) float64 {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
		if err != nil || !(v > 0 && v < 1e4) {
			return 0
		}
		return v / float64(units.KilowattHours(1))
	}
	currency := strings.TrimSpace(r.Currency)
	return trial.Price{Currency: currency, Behind: len([]rune(currency)) > 1 || currency == "€" && r.preferences.Language != "" && r.preferences.Language != "en", PerJoule: figure(r.Price)},
		trial.Carbon{PerJoule: figure(r.Carbon)}
}

// yearWait is how long a year waits for the one before it.
const yearWait = 30 * time.Second

// oneYear lets one year be played at a time: it takes the machine's cores. It gives what
// ends it, or nothing if the wait was too long.
func (s *server) oneYear(ctx context.Context) (end func(), ok bool) {
	timer := time.NewTimer(yearWait)
	defer timer.Stop()
	select {
	case s.yearTurn <- struct{}{}:
		return func() { <-s.yearTurn }, true
	case <-timer.C:
	case <-ctx.Done():
	}
	return nil, false
}
