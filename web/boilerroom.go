package web

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"

	"curvewright/report"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/words"
)

// The boiler room on the page: its drawing in a weather that the reader chooses, and
// what belongs beside the control.

// roomSizes are the sizes of its drawing. It is as high as it must be.
var roomSizes = []size{{"narrow", 340, 0}, {"wide", 720, 0}}

// weatherField is the form's name for the chosen outdoor temperature, in °C whatever
// the reader's units; empty for the design day.
const weatherField = "outdoors"

// outdoorChoice is one weather that can be chosen.
type outdoorChoice struct {
	Value, Words string
	Chosen       bool
}

// weathers are the outdoor temperatures in which the boiler room can be drawn.
func (p *page) weathers() []outdoorChoice {
	var list []outdoorChoice
	chosen := p.weatherAt()
	for i, t := range report.BoilerRoomOutdoors(p.Sheet) {
		w := outdoorChoice{strconv.FormatFloat(t.Celsius(), 'f', 1, 64), temperature(p.System, t), i == chosen}
		if i == 0 {
			w.Value, w.Words = "", p.say("plant.design", w.Words)
		}
		list = append(list, w)
	}
	return list
}

// weatherAt is the place of the chosen temperature among those that can be drawn: the
// nearest one, since they move with the design day and with the reader's units.
func (p *page) weatherAt() int {
	if p.Outdoors == nil {
		return 0
	}
	best, least := 0, math.Inf(1)
	for i, t := range report.BoilerRoomOutdoors(p.Sheet) {
		if d := math.Abs(float64(t - *p.Outdoors)); d < least {
			best, least = i, d
		}
	}
	return best
}

// readWeather reads the chosen outdoor temperature; nil is the design day.
func readWeather(l words.Language, text string) (*units.Temperature, error) {
	if text == "" {
		return nil, nil
	}
	const coldest, hottest = -80, 60
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= coldest && v <= hottest) {
		return nil, errors.New(l.Say("plant.weather", coldest, hottest))
	}
	t := units.Celsius(v)
	return &t, nil
}

// drawing answers the script with the drawing alone. Doubt changes nothing in it.
func (s *server) drawing(w http.ResponseWriter, r *http.Request) {
	p, status := readForm(r, noDoubt)
	switch {
	case p.weather != nil:
		s.write(w, r, http.StatusUnprocessableEntity, noDrawing(p.weather.Error()))
	case p.Sheet == nil && p.Trouble != "":
		s.write(w, r, status, noDrawing(p.Trouble))
	case p.Sheet == nil:
		s.write(w, r, status, noDrawing(p.say("plant.none")))
	default:
		s.write(w, r, http.StatusOK, plantDrawing(p))
	}
}

// part are the sheet's sections with something in them, by where they belong.
func (p *page) part(name string) []settings.Section {
	var some []settings.Section
	for _, s := range p.Sheet.Sections {
		if s.Part == name && len(s.Lines) > 0 {
			some = append(some, s)
		}
	}
	return some
}

func (p *page) boilerRoom(s size) string {
	return p.drawn(report.BoilerRoomSVG(p.Sheet, p.weatherAt(), s.width, s.height))
}

// flow is the boiler room in the chosen weather, in a sentence.
func (p *page) flow() string {
	i := p.weatherAt()
	if i >= len(p.Sheet.Flows) {
		return ""
	}
	f := p.Sheet.Flows[i]
	said := p.say("plant.flow", temperature(p.System, f.Outdoor),
		temperature(p.System, f.BoilerSupply), temperature(p.System, f.BoilerReturn))
	for _, c := range f.Circuits {
		said += p.say("plant.circuit", c.Name, temperature(p.System, c.Supply), temperature(p.System, c.Return))
	}
	return said + "."
}

// fact is a figure with its name; Why says what it means, where that helps.
type fact struct{ Name, Value, Why string }

// season is what the boiler does from autumn to spring, in a few figures.
func (p *page) season() []fact {
	b := p.Sheet.Boiler
	if !b.Known {
		return nil
	}
	list := []fact{{p.say("season.efficiency"), share(b.Efficiency), p.say("season.gross")}}
	if p.Sheet.CondensesBelow > 0 {
		list = append(list, fact{p.say("season.condensing"), share(b.Condensing), p.say("season.below", temperature(p.System, b.DewPoint))})
	}
	if !b.Cycles {
		return list
	}
	list = append(list, fact{p.say("season.starts"), p.about(float64(b.Starts)), p.say("season.in", p.engine(strings.Replace(b.Modulation, "it ", "the burner ", 1)))})
	if b.WaterStarts > 0 {
		list = append(list, fact{p.say("season.water"), p.about(float64(b.WaterStarts)), p.say("season.year")})
	}
	if b.Worst > 0 {
		list = append(list, fact{p.say("season.hour"), p.engine(fmt.Sprintf("%.1f", float64(b.Worst))), p.say("season.worst", temperature(p.System, b.WorstAt), p.engine(minutes(b.WorstRun)))})
	}
	if b.Buffer > 0 {
		list = append(list, fact{p.say("season.lacking"), p.engine(p.enough(b.Buffer)), p.say("season.shortest")})
	}
	return list
}

// enough is a volume of water rounded up.
func (p *page) enough(v units.Volume) string {
	unit := units.WaterUnit(p.System)
	return (units.Volume(math.Ceil(float64(v/unit))) * unit).WaterText(p.System)
}

// about writes a count to two figures: more would promise too much.
func (p *page) about(v float64) string {
	if !(v >= 1) || math.IsInf(v, 0) {
		return p.say("season.hardly")
	}
	step := math.Pow(10, max(0, math.Floor(math.Log10(v))-1))
	return p.engine(units.Number(math.Round(v/step) * step).Text(units.US))
}

func minutes(t units.Time) string {
	m := float64(t) / 60
	switch {
	case !(m > 0) || math.IsInf(m, 0):
		return "–"
	case m < 10:
		return fmt.Sprintf("%.1f\u00a0min", m)
	case m >= 180:
		return fmt.Sprintf("%.0f\u00a0h", m/60)
	}
	return fmt.Sprintf("%.0f\u00a0min", m)
}

// runs is how long the burner runs at a time.
func (p *page) runs(at settings.BoilerPoint) string {
	switch {
	case !p.Sheet.Boiler.Cycles:
		return "–"
	case at.Run > 0:
		return p.engine(minutes(at.Run))
	}
	return p.say("season.through")
}

// rests is how long it rests in between.
func (p *page) rests(at settings.BoilerPoint) string {
	if p.Sheet.Boiler.Cycles && at.Run > 0 {
		return p.engine(minutes(at.Rest))
	}
	return "–"
}

// sound is the range of a sound sensor, with its unit once.
func (p *page) sound(r settings.SensorRow) string {
	low, high := p.quantity(r.Low), p.quantity(r.High)
	if i := strings.LastIndexAny(low, " \u00a0"); i > 0 && strings.HasSuffix(high, low[i:]) {
		low = low[:i]
	}
	return low + " – " + high
}
