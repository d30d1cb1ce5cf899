package web

import (
	"net/http"
	"strconv"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/web/words"
)

// Help: how it is done in a page, a tour through a worked example, and what the words of
// the trade mean here.

// howSteps are the steps of a job from the first answers to the visit, with where each is
// done.
var howSteps = []string{"answers", "rooms", "control", "settings", "curve", "boiler-room", "year", "papers", "visit", "handover"}

// terms are the words of the glossary, in the order in which one meets them.
var terms = []string{
	"survey", "known", "heat-load", "design-day", "balance", "degree-days", "air-change", "u-value", "construction",
	"emitter", "edr", "exponent", "excess", "supply", "return", "drop", "flow", "circuit", "series", "separator", "governing",
	"curve", "shape", "ends", "slope", "cut-off", "setback", "condensing", "cycling", "priority", "scald", "precharge",
	"sheet", "working", "band", "finding",
}

// tourStep is a place of the example with a note.
type tourStep struct{ At, Key string }

// tourExample is the house that is walked through.
const tourExample = "ridge-house"

// tourSteps are the stations in their order.
var tourSteps = []tourStep{
	{"survey", "short"},
	{"survey/house", "house"},
	{"survey/rooms", "rooms"},
	{"survey/rooms?room=0", "room"},
	{"survey/control", "control"},
	{"settings", "settings"},
	{"curve", "curve"},
	{"boiler-room", "boiler-room"},
	{"year", "year"},
	{"papers", "papers"},
	{"visit", "visit"},
	{"handover", "handover"},
	{"history", "history"},
}

// tourOf is the station that a page's address asks for, counted from one; 0 for none.
func tourOf(r *http.Request) int {
	n, err := strconv.Atoi(r.URL.Query().Get("tour"))
	if err != nil || n < 1 || n > len(tourSteps) {
		return 0
	}
	return n
}

// tourAt is the address of a station.
func (h *house) tourAt(n int) string {
	at := h.at(tourSteps[n-1].At)
	mark := "?"
	for _, c := range at {
		if c == '?' {
			mark = "&"
		}
	}
	return at + mark + "tour=" + strconv.Itoa(n)
}

// help shows the page.
func (s *server) help(w http.ResponseWriter, r *http.Request) {
	s.write(w, r, http.StatusOK, helpPage(s.framed(r)))
}

// beginTour begins the worked example as a job of its own, and goes to its first station.
func (s *server) beginTour(w http.ResponseWriter, r *http.Request) {
	ctx := r.Context()
	example, ok := examples.Find(tourExample)
	if !ok {
		s.notFound(w, r)
		return
	}
	j, err := job.Read([]byte(example.Document))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	entry, err := s.begunWith(ctx, j, words.Say(ctx, "history.begun"))
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	h := &house{Entry: entry}
	http.Redirect(w, r, h.tourAt(1), http.StatusSeeOther)
}
