package visit

import "math"

// By how much may each reading be off because the survey is? Every doubtful figure of it
// is moved up and down, and the plant settled anew.

// doubt is one figure of the survey, or the thermometer by which it is judged how cold it
// is outside.
type doubt struct {
	name  string
	error float64 // standard, relative but for the outdoor temperature
	move  func(s *state, c *change, by float64)
}

const (
	outdoorThermometer = 0.5  // K, standard error
	balancing          = 0.10 // of the flow through a room's branches (common practice)
	roomsOwn           = 0.5  // of a circuit's doubt about its emitters, each room's own
	sameThermometer    = 0.25 // K, standard error that all readings of one thermometer share (common practice)
)

func (h *House) doubts(s *state) []doubt {
	d := h.plan.Site.Doubts
	out := []doubt{
		{"the outdoor thermometer", outdoorThermometer, func(s *state, _ *change, by float64) { s.outdoor += by }},
	}
	if h.plant.boilerFlow > 0 {
		out = append(out, doubt{"the flow of the boiler's pump", float64(d.Boiler), func(_ *state, c *change, by float64) { c.boilerFlow *= 1 + by }})
	}
	long := s.State == Settled || s.State == Held
	if long {
		out = append(out, doubt{"the heat loss of the house", float64(d.House), func(_ *state, c *change, by float64) {
			for r := range c.rooms {
				c.rooms[r].loss *= 1 + by
			}
		}})
	}
	for i := range h.plant.circuits {
		out = append(out, doubt{"the emitters on " + h.plant.circuits[i].name, float64(d.Emitters[i]), func(_ *state, c *change, by float64) { c.circuits[i].gives *= 1 + by }},
			doubt{"the flow of " + h.plant.circuits[i].name, float64(d.Flows[i]), func(_ *state, c *change, by float64) { c.circuits[i].flow *= 1 + by }})
	}
	for r := range h.plant.rooms {
		own := 0.0
		for i := range h.plant.circuits {
			for _, e := range h.plant.circuits[i].emitters {
				if e.room == r {
					own = math.Max(own, roomsOwn*float64(d.Emitters[i]))
				}
			}
		}
		out = append(out, doubt{"the emitters in " + h.plant.rooms[r].name, own, func(_ *state, c *change, by float64) { c.rooms[r].gives *= 1 + by }},
			doubt{"the balancing of " + h.plant.rooms[r].name, balancing, func(_ *state, c *change, by float64) { c.rooms[r].flow *= 1 + by }})
		if long {
			out = append(out, doubt{"the heat loss of " + h.plant.rooms[r].name, float64(d.Rooms[r]), func(_ *state, c *change, by float64) { c.rooms[r].loss *= 1 + by }})
		}
	}
	return out
}

// far is how many standard errors a doubtful figure is moved to see what it does: a valve
// that holds a room hides a small error and not a large one.
const far = 1.5

// moves gives for each doubt how far one standard error moves every reading of a plant, by
// the side on which it moves it more.
func (h *House) moves(s *state, doubts []doubt, plant *change) [][]float64 {
	out := make([][]float64, len(doubts)+1)
	base := h.predict(s, plant)
	for k, d := range doubts {
		read := func(by float64) []float64 {
			c, moved := h.plant.asDrawn(), *s
			d.move(&moved, &c, by)
			c = c.together(plant)
			return h.predict(&moved, &c)
		}
		up, down := read(far*d.error), read(-far*d.error)
		out[k] = make([]float64, len(up))
		for i := range up {
			above, below := (up[i]-base[i])/far, (base[i]-down[i])/far
			switch {
			case math.IsNaN(above) && math.IsNaN(below):
			case math.IsNaN(below) || math.Abs(above) > math.Abs(below):
				out[k][i] = above
			default:
				out[k][i] = below
			}
		}
	}
	thermometer := make([]float64, len(h.readings))
	for i := range h.readings {
		if h.readings[i].accuracy == clampOn {
			thermometer[i] = sameThermometer
		}
	}
	out[len(doubts)] = thermometer
	return out
}

// standard are the standard errors of a reading: of the instrument, of the plant as drawn,
// and of the survey.
type standard struct{ instrument, model, survey float64 }

func (e standard) all() float64 { return math.Hypot(math.Hypot(e.instrument, e.model), e.survey) }

// standards gives them for every reading at its value.
func (h *House) standards(s *state, values []float64, moves [][]float64) []standard {
	out := make([]standard, len(values))
	for i, v := range values {
		r := &h.readings[i]
		out[i] = standard{instrument: r.instrument(v), model: (r.model + r.modelShare*math.Abs(v)) / 2}
		for k := range moves {
			out[i].survey = math.Hypot(out[i].survey, moves[k][i])
		}
	}
	return out
}

func (r *reading) instrument(v float64) float64 {
	return (r.accuracy + r.accuracyShare*math.Abs(v)) / 2
}
