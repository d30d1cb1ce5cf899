package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"curvewright/job"
	"curvewright/report"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/year"
)

// The year on the page: the settings played through a year when somebody asks for it,
// beside what else might be set. It takes a few tenths of a second, too long for an
// answer while typing.

// maxYear is the most that a request for a year may hold, and the most that its weather
// file may be when it is unpacked. A typical year takes 2 MB.
const maxYear = 16 << 20

// weatherFile is the form's name for a file of weather.
const weatherFile = "weather-file"

// yearSeed is that of the command line, so that both make up the same year.
const yearSeed = 1

// Year plays a job's settings through a year, on the weather of a file or, without one,
// on weather made up. It is handed in, since with the readers of weather it weighs much
// for a page that runs in a browser.
type Year func(j *job.Job, ask YearAsk) *PlayedYear

// PlayedYear is a year that was played, or why it was not.
type PlayedYear struct {
	Refused string

	trial   *trial.Trial
	results []year.Result // the sheet's first
	trace   year.Trace    // of the sheet's
	failure []string      // what happens when the boiler stops on the design night; none if it cannot be played
}

// year answers the form with a whole page that has the year in it.
func (s *server) year(w http.ResponseWriter, r *http.Request) {
	p, status := readForm(r, fullDoubt)
	if p.Sheet != nil {
		p.Year = s.play(p, r)
		if p.Year.Refused != "" {
			status = http.StatusUnprocessableEntity
		}
	}
	s.page(w, r, status, p)
}

// yearSection answers the script with the year alone.
func (s *server) yearSection(w http.ResponseWriter, r *http.Request) {
	p, status := readForm(r, noDoubt)
	switch {
	case p.Sheet != nil:
		// A slip in a field is told there; the year goes on with the value before, as
		// the settings do.
		status = http.StatusOK
		p.Year = s.play(p, r)
		if p.Year.Refused != "" {
			status = http.StatusUnprocessableEntity
		}
	case p.Trouble != "":
		p.Year = &PlayedYear{Refused: p.Trouble}
	default:
		p.Year = &PlayedYear{Refused: p.say("played.none")}
	}
	s.write(w, r, status, yearOf(p))
}

// play plays the page's job.
func (s *server) play(p *page, r *http.Request) *PlayedYear {
	ask, refused := s.askYear(p, r)
	if refused != "" {
		return &PlayedYear{Refused: refused}
	}
	end, ok := s.oneYear(r.Context())
	if !ok {
		return &PlayedYear{Refused: p.say("asked.busy")}
	}
	defer end()
	return s.config.Year(p.job, ask)
}

func unusable(err error) *PlayedYear {
	return &PlayedYear{Refused: "The weather file cannot be used: " + err.Error() + "."}
}

// PlayYear plays a job through a year on the weather of a file, or on weather made up for
// the job's place if there is none.
func PlayYear(j *job.Job, ask YearAsk) *PlayedYear {
	o := trial.Options{System: ask.System, Seed: yearSeed, Against: trial.Usual(j, ask.Found), Found: ask.Found, Price: ask.Price, Carbon: ask.Carbon}
	if ask.Weather != nil {
		w, err := weather.Parse(ask.Weather, weather.Place{})
		if err != nil {
			return unusable(err)
		}
		o.Weather = w
	}
	refused := func(err error) *PlayedYear {
		return &PlayedYear{Refused: "This house cannot be played through a year: " + err.Error() + "."}
	}
	t, err := trial.New(j, o)
	if err != nil {
		return refused(err)
	}
	y := &PlayedYear{trial: t}
	sheet, trace, err := t.Traced(units.Hours(1))
	if err != nil {
		return refused(err)
	}
	others := *t
	others.Settings = t.Settings[1:]
	results, err := others.Run(nil)
	if err != nil {
		return refused(err)
	}
	y.trace, y.results = trace, append([]year.Result{sheet}, results...)
	if failure, err := t.Fail(); err == nil { // some houses have no boiler that could
		y.failure = failure.Words(ask.System)
	}
	return y
}

// weatherOf reads the file of weather that came with a form, unpacked; nil if there is
// none.
func weatherOf(r *http.Request) ([]byte, error) {
	if r.MultipartForm == nil || len(r.MultipartForm.File[weatherFile]) == 0 || r.MultipartForm.File[weatherFile][0].Size == 0 {
		return nil, nil
	}
	f, err := r.MultipartForm.File[weatherFile][0].Open()
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil || !bytes.HasPrefix(data, []byte{0x1f, 0x8b}) {
		return data, err
	}
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, errors.New("it is packed in a way that cannot be read; accepted: gzip (.gz)")
	}
	data, err = io.ReadAll(io.LimitReader(z, maxYear+1))
	switch {
	case err != nil:
		return nil, errors.New("it cannot be unpacked; it may be damaged")
	case len(data) > maxYear:
		return nil, fmt.Errorf("unpacked it is larger than %d MB", maxYear>>20)
	}
	return data, nil
}

// jobMark changes with whatever changes the figures of a year, so that the script can
// tell a year that was played before a change.
func (p *page) jobMark() string {
	sum := sha256.Sum256([]byte(p.System.Word() + "\n" + p.Document))
	return hex.EncodeToString(sum[:6])
}

func (p *page) jobName() string {
	if p.job == nil {
		return ""
	}
	return p.job.Name
}

// yearButton asks for the year, or once more.
func (p *page) yearButton() string {
	if p.Year != nil && p.Year.Refused == "" {
		return p.say("played.again")
	}
	return p.say("played.play")
}

// yearWeather says on which weather it was played.
func (p *page) yearWeather() string {
	y := p.Year
	if y.trial.MadeUp {
		return p.say("played.madeup")
	}
	if y.trial.Place == "" {
		return p.say("played.offile")
	}
	return p.say("played.of", y.trial.Place)
}

// yearSpoken says the outcome in a sentence, for those who hear the page.
func (p *page) yearSpoken() string {
	y := p.Year
	switch {
	case y == nil:
		return ""
	case y.Refused != "":
		return p.engine(y.Refused)
	}
	var said []string
	for _, r := range y.results {
		said = append(said, p.engine(r.Settings)+" "+p.quantity(r.Fuel))
	}
	return p.say("played.spoken", strings.Join(said, ", "))
}

// yearRows are the lines that the command line prints.
func (p *page) yearRows() []trial.Row { return p.Year.trial.Rows(p.Year.results, p.System) }

// yearNotes say what a reader might stumble over.
func (p *page) yearNotes() []string { return p.Year.trial.Notes(p.Year.results, p.System) }

// yearCurve is a circuit’s supply over the year.
func (p *page) yearCurve(circuit int, s size) string {
	return p.drawn(report.YearCurveSVG(p.Year.trial.Plan.Sheet, circuit, p.Year.trace, s.width, s.height))
}

func (p *page) yearDay(s size) string {
	rooms := float64(len(p.Year.results[0].Rooms))
	return p.drawn(report.YearDaySVG(p.Year.trial.Plan.Sheet, p.Year.results[0], s.width, s.height+40+12*rooms))
}

func (p *page) yearStarts(s size) string {
	return p.drawn(report.YearStartsSVG(p.Year.results[0], s.width, s.height*0.7))
}

// yearDayWords say which day it is.
func (p *page) yearDayWords() string {
	r := p.Year.results[0]
	day := p.engine(report.YearDay(r, r.WorstDay))
	for _, room := range r.Rooms {
		if room.Below > 0 {
			return p.say("played.worst", day)
		}
	}
	return p.say("played.never", p.quantity(trial.ComfortBand), day)
}

func (p *page) yearStartsWords() string {
	r := p.Year.results[0]
	busiest := 0
	for day, n := range r.StartsPerDay {
		if n > r.StartsPerDay[busiest] {
			busiest = day
		}
	}
	if r.Starts == 0 {
		return p.say("played.starts")
	}
	return p.say("played.most", p.engine(report.YearDay(r, busiest)), r.StartsPerDay[busiest])
}
