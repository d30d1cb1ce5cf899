package visit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/boiler"
	"curvewright/pipework"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/working"
)

// Expectation is what everything should read now.
type Expectation struct {
	Conditions Conditions
	Items      []Item
	Sensors    []Resistance
	// Of a fresh house: when the slabs, and when the rooms, will be nearly there.
	Slabs, Rooms units.Time
	Notes        []string // sentences about the state
	Cautions     []string
}

// Item is one expected reading. Tolerances are two standard errors: nineteen readings of
// twenty lie within.
type Item struct {
	Reading
	Label      string
	Value      units.Quantity
	Tolerance  units.Quantity // of survey, plant and instrument together
	Survey     units.Quantity // part of survey and plant
	Instrument units.Quantity // part of the instrument
	Working    []working.Step
	Caution    string
}

// Resistance is what a temperature sensor should read at its terminals.
type Resistance struct {
	Sensor    string
	At        units.Temperature
	Value     units.ElectricResistance
	Low, High units.ElectricResistance // of a sound sensor
}

// More that can be told from the readings, without being read itself.
const (
	Spread Measure = "spread" // supply less return
	Starts Measure = "starts"
)

// Expect gives the expected readings.
//
//	each stream by its balance of mass and heat; each emitter by its law; the supply as the
//	entered curve makes it at this outdoor temperature, or as far as the boiler's output goes
//	tolerance = 2·√(survey² + plant² + instrument²)
//
// Units: those of the conditions; values typed.
// Range: outdoors −50 to 40 °C; calls of half an hour and more, but for [Fresh].
// Source: heat balance; emitter laws of package emitter; separator of package pipework;
// instruments' accuracies common practice.
// Errors: conditions outside the range, circuits or rooms that the job does not have.
func (h *House) Expect(c Conditions) (Expectation, error) {
	s, err := h.prepare(c)
	if err != nil {
		return Expectation{}, err
	}
	none := h.plant.asDrawn()
	out := h.plant.run(&s, &none)
	values := h.values(&s, &none, &out)
	moves := h.moves(&s, h.doubts(&s), &none)
	standards := h.standards(&s, values, moves)
	if s.State == Fresh {
		h.widen(&s, &out, standards)
	}
	e := Expectation{Conditions: s.Conditions}
	for i, v := range values {
		r := &h.readings[i]
		if math.IsNaN(v) || r.Measure == MeanFire { // which nobody reads
			continue
		}
		e.Items = append(e.Items, h.item(r, v, standards[i], &s, &out))
		switch r.Measure {
		case Return:
			e.Items = append(e.Items, h.spread(i, values, standards, moves, &out))
		case BurnerPause:
			e.Items = append(e.Items, h.starts(i, values))
		}
	}
	e.Sensors = h.resistances(&s, &out)
	if s.State == Fresh {
		e.Slabs, e.Rooms = h.lookAgain(&s, &out)
	}
	e.Notes = h.notes(&s, &out, &e)
	e.Cautions = []string{boiler.CautionCombustion, boiler.CautionGas}
	return e, nil
}

// widen allows for a warming slab: its exponential is only about right on the way.
func (h *House) widen(s *state, out *at, standards []standard) {
	there := *s
	there.Since = units.Hours(24 * 365)
	none := h.plant.asDrawn()
	end := h.predict(&there, &none)
	now := h.values(s, &none, out)
	for i := range standards {
		if d := math.Abs(end[i] - now[i]); d > 0 {
			standards[i].model = math.Hypot(standards[i].model, 0.15*d)
		}
	}
}

func (h *House) item(r *reading, v float64, e standard, s *state, out *at) Item {
	item := Item{Reading: r.Reading, Label: upper(r.String()), Value: r.kind.quantity(v), Tolerance: r.kind.width(2 * e.all()),
		Survey: r.kind.width(2 * math.Hypot(e.survey, e.model)), Instrument: r.kind.width(2 * e.instrument)}
	item.Working = h.working(r, item, s, out)
	switch r.Measure {
	case FlueGas, MeterTime, FiringRate:
		item.Caution = boiler.CautionGas
	case Condensate:
		item.Caution = boiler.CautionCondensate
	case Pressure:
		item.Caution = "Hot water under pressure: open only cold and without pressure. Never plug or cap the relief valve."
	case TankCharge:
		item.Caution = "Hot water scalds: a mixing valve at the tank's outlet keeps taps at 120 °F (49 °C)."
	}
	return item
}

// spread is the supply less the return of a circuit: both move together with much of what
// is doubtful, so its tolerance is narrower than theirs.
func (h *House) spread(ret int, values []float64, standards []standard, moves [][]float64, out *at) Item {
	r := &h.readings[ret]
	supply := slices.IndexFunc(h.readings, func(x reading) bool { return x.Measure == Supply && x.Circuit == r.Circuit })
	survey := 0.0
	for k := range moves {
		survey = math.Hypot(survey, moves[k][supply]-moves[k][ret])
	}
	instrument := math.Hypot(standards[supply].instrument, standards[ret].instrument)
	survey = math.Hypot(survey, math.Hypot(standards[supply].model, standards[ret].model)/2)
	c := &out.circuits[r.circuit]
	item := Item{Reading: Reading{Measure: Spread, Circuit: r.Circuit}, Value: units.Difference(values[supply] - values[ret]),
		Tolerance: units.Difference(2 * math.Hypot(survey, instrument)), Survey: units.Difference(2 * survey), Instrument: units.Difference(2 * instrument)}
	item.Label = upper(item.String())
	item.Working = []working.Step{{Name: item.Label, Formula: "ΔT = Ts − Tr = Q/C",
		Inputs: []working.Input{{Symbol: "Q", Meaning: "heat that the water leaves in the emitters", Value: units.Power(c.heat)},
			{Symbol: "C", Meaning: "water, heat per degree", Value: units.LossCoefficient(c.flow)}},
		Result: working.Input{Symbol: "ΔT", Meaning: "spread", Value: item.Value}, Range: "steady", Source: "heat balance of the water"}}
	return item
}

func (h *House) starts(pause int, values []float64) Item {
	run := slices.IndexFunc(h.readings, func(x reading) bool { return x.Measure == BurnerRun })
	n := units.Frequency(1 / (values[run] + values[pause]))
	doubt := units.Frequency(cycleModel * float64(n))
	return Item{Reading: Reading{Measure: Starts}, Label: "Starts of the burner", Value: n, Tolerance: doubt, Survey: doubt, Instrument: units.Frequency(0),
		Working: []working.Step{{Name: "Starts of the burner", Formula: "N = 1/(t_on + t_off)",
			Inputs: []working.Input{{Symbol: "t_on", Meaning: "run", Value: units.Time(values[run])}, {Symbol: "t_off", Meaning: "pause", Value: units.Time(values[pause])}},
			Result: working.Input{Symbol: "N", Meaning: "starts", Value: n}, Range: "a mixing valve keeps its circuit out of the swing; sensor delay not counted", Source: "heat balance of boiler and emitters"}}}
}

// resistances reads the job's sensors at the temperatures of now.
func (h *House) resistances(s *state, out *at) []Resistance {
	var list []Resistance
	for _, survey := range h.job.Sensors {
		t, ok := h.where(survey.Name, s, out)
		if !ok {
			continue
		}
		made, err := settings.ReadSensor(survey)
		if err != nil {
			continue
		}
		r := Resistance{Sensor: survey.Name, At: t}
		band, err := made.Band(t)
		if err != nil {
			continue
		}
		if r.Value, err = made.Resistance(t); err != nil {
			continue
		}
		r.Low, r.High = r.Value, r.Value
		for _, at := range []units.Temperature{t.Add(-band), t.Add(band)} {
			if x, err := made.Resistance(min(made.High, max(made.Low, at))); err == nil {
				r.Low, r.High = min(r.Low, x), max(r.High, x)
			}
		}
		list = append(list, r)
	}
	return list
}

// where tells by a sensor's name how warm it is there.
func (h *House) where(name string, s *state, out *at) (units.Temperature, bool) {
	name = strings.ToLower(name)
	if strings.Contains(name, "outdoor") || strings.Contains(name, "outside") {
		return s.Outdoor, true
	}
	for i := range h.plant.circuits {
		if !strings.Contains(name, strings.ToLower(h.plant.circuits[i].name)) {
			continue
		}
		if strings.Contains(name, "return") {
			return units.Temperature(out.circuits[i].back), true
		}
		return units.Temperature(out.circuits[i].supply), true
	}
	switch {
	case strings.Contains(name, "tank") && h.plant.tank != nil:
		return h.plant.tank.Set, true
	case strings.Contains(name, "boiler") && strings.Contains(name, "return"):
		return units.Temperature(out.back), true
	case strings.Contains(name, "boiler"):
		return units.Temperature(out.boiler), true
	case strings.Contains(name, "separator") || strings.Contains(name, "header"):
		return units.Temperature(out.supply), true
	}
	return 0, false
}

// notes are what belongs to the state as a whole.
func (h *House) notes(s *state, out *at, e *Expectation) []string {
	say := func(q units.Quantity) string { return q.Text(h.system) }
	var notes []string
	if s.Outdoor >= h.plan.CutOff {
		notes = append(notes, fmt.Sprintf("It is warmer than the cut-off of %s: as the settings are, the heating rests once the day's mean is, and these readings come only with the cut-off raised for the test.", say(h.plan.CutOff)))
	}
	switch s.State {
	case Steady:
		notes = append(notes, "Every valve and thermostat fully up, the same calls for "+say(steadyAfter)+" or longer.")
	case Settled:
		notes = append(notes, "As it ends after days with every valve open.")
	case Held:
		notes = append(notes, "As it ends after days with valves and thermostats holding the rooms; a heated floor reads so only while it calls.")
	case Fresh:
		notes = append(notes, h.onTheWay(e)...)
	}
	if out.limited {
		notes = append(notes, fmt.Sprintf("The boiler gives all that it may, %s, and the supply stays below what the curve wants.", say(units.Power(h.plant.most))))
	}
	if out.heating && out.heat < h.plant.least && out.heat > 1 {
		notes = append(notes, fmt.Sprintf("The house takes %s, less than the burner's least: it runs and rests, and supplies swing by %s about these means.", say(units.Power(out.heat)), say(h.plan.Differential)))
	}
	if h.plant.coupling != pipework.Direct && out.heating {
		switch {
		case out.drawn > out.pumped*1.02:
			notes = append(notes, "The circuits draw more than the boiler sends: their supply is cooler than the boiler's, both returns are alike.")
		case out.pumped > out.drawn*1.02:
			notes = append(notes, "The boiler sends more than the circuits draw: both supplies are alike, and its return is warmer than theirs.")
		}
	}
	return notes
}

// onTheWay says what a house just switched on does, and when to look again.
func (h *House) onTheWay(e *Expectation) []string {
	say := func(q units.Quantity) string { return q.Text(h.system) }
	notes := []string{"Just switched on: cold rooms take more heat than later and send cooler water back. What is no longer cold reads as it will; judge the rest later."}
	if e.Slabs > 0 {
		notes = append(notes, "The slab still warms: its return rises for hours while its supply stands. Look again in "+say(e.Slabs)+".")
	}
	if e.Rooms > 0 {
		notes = append(notes, "Walls and furniture take days; the rooms can be judged in "+say(e.Rooms)+".")
	}
	return notes
}

func upper(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
