package visit

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"curvewright/attendance"
	"curvewright/hotwater"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// A line that was entered otherwise than the sheet says: what does that lead to?

// Consequence is what a line entered otherwise leads to.
type Consequence struct {
	Line    string // name on the sheet
	Label   string
	Circuit string
	Sheet   string
	Entered string
	Verdict Verdict
	Stop    bool // something is damaged or somebody hurt if it stays
	Says    string
	Caution string
}

// curveFields are the lines of a sheet that make up a curve, by the ends of their names,
// with the fields of the document that hold them as found.
var curveFields = map[string]string{
	"cold-supply": "cold_supply", "mild-supply": "mild_supply", "cold-outdoor": "cold_outdoor", "mild-outdoor": "mild_outdoor",
	"slope": "slope", "shift": "shift", "exponent": "exponent", "max-supply": "max_supply", "min-supply": "min_supply",
}

// AsEntered gives every circuit whose curve was found or entered so that its supply is
// another one than the sheet's, worked out anew. A curve that cannot be is among the consequences instead.
//
// Units: those of the document; a figure without a unit has that of its line.
// Range: lines of the sheet that make up a curve.
// Source: [House.AsFound].
func (h *House) AsEntered(v *attendance.Visit) []Found {
	var list []Found
	for _, c := range h.enteredCurves(v) {
		found, err := h.AsFound(c)
		if err == nil && slices.ContainsFunc(found.Points, func(p FoundPoint) bool { return math.Abs(float64(p.Found.Sub(p.Sheet))) > float64(near) }) {
			list = append(list, found)
		}
	}
	return list
}

// enteredCurves puts the curves of a document together with the lines entered otherwise.
func (h *House) enteredCurves(v *attendance.Visit) []attendance.Curve {
	list := append([]attendance.Curve{}, v.Curves...)
	for _, e := range otherwise(v) {
		l, known := h.line(e.Line)
		name, ofCurve := curveFields[ending(l.ID)]
		if !known || !ofCurve || l.Circuit == "" {
			continue
		}
		i := 0
		for i < len(list) && list[i].Circuit != l.Circuit {
			i++
		}
		if i == len(list) {
			list = append(list, attendance.Curve{Circuit: l.Circuit})
		}
		if spot, ok := job.WholeOf(&list[i]).Find(name); ok {
			_ = spot.Take(likeThe(l.Value, e.Value)) // what cannot be read is kept as words
		}
	}
	return list
}

// otherwise are the lines that were entered otherwise.
func otherwise(v *attendance.Visit) []attendance.Entered {
	var list []attendance.Entered
	for _, e := range v.Entered {
		if e.As == "otherwise" && e.Value != "" {
			list = append(list, e)
		}
	}
	return list
}

func (h *House) line(id string) (settings.Line, bool) {
	for _, s := range h.plan.Sheet.Sections {
		for _, l := range s.Lines {
			if l.ID == id {
				return l, true
			}
		}
	}
	return settings.Line{}, false
}

func ending(id string) string { return id[strings.LastIndex(id, ".")+1:] }

var (
	figureAlone = regexp.MustCompile(`^[−+-]?[0-9]+([.,][0-9]+)?$`)
	unitBehind  = regexp.MustCompile(`[^0-9.,\s\x{a0}−+-].*$`)
	firstFigure = regexp.MustCompile(`^[−+-]?[0-9]+(?:[.,][0-9]+)?`)
)

// likeThe gives a bare figure the unit of the value that it stands for.
func likeThe(sheet, value string) string {
	value = strings.TrimSpace(value)
	if !figureAlone.MatchString(value) {
		return value
	}
	return strings.TrimSpace(strings.Replace(value, ",", ".", 1) + " " + unitBehind.FindString(strings.TrimSpace(sheet)))
}

// Consequences works out what each line leads to that was entered otherwise: the cut-off,
// the output limit, hot water, the highest supply, frost. Of any other line it is what the
// sheet says of a figure that is too high or too low. Curves are [House.AsEntered]'s.
//
// Units: those of the document; a figure without a unit has that of its line.
// Range: lines of the sheet that were entered otherwise.
// Source: the sheet's own figures; hotwater.Missed and hotwater.Scald for hot water.
func (h *House) Consequences(v *attendance.Visit) []Consequence {
	var list []Consequence
	curves := h.AsEntered(v)
	for _, e := range otherwise(v) {
		l, known := h.line(e.Line)
		if !known {
			continue
		}
		_, ofCurve := curveFields[ending(l.ID)]
		told := ofCurve && slices.ContainsFunc(curves, func(f Found) bool { return f.Circuit == l.Circuit })
		c := Consequence{Line: l.ID, Label: l.Label, Circuit: l.Circuit, Sheet: cmp.Or(e.Sheet, l.Value), Entered: e.Value, Verdict: Doubtful}
		value := likeThe(l.Value, e.Value)
		switch {
		case l.ID == "cut-off":
			temperatureIn(&c, value, h.cutOffAt)
		case l.ID == "output-limit":
			h.limitAt(&c, value)
		case l.ID == "hot-water.setpoint":
			temperatureIn(&c, value, h.tankAt)
		case l.ID == "frost.outdoor":
			temperatureIn(&c, value, h.frostOutdoorsAt)
		case l.ID == "frost.room":
			temperatureIn(&c, value, h.frostRoomAt)
		case ending(l.ID) == "max-supply" || ending(l.ID) == "cold-supply" || ending(l.ID) == "design-supply":
			temperatureIn(&c, value, h.supplyAt)
		}
		if c.Says == "" && !told { // the sheet's words are of a step that nobody entered
			plain(&c, l, value)
		}
		if c.Says != "" {
			list = append(list, c)
		}
	}
	for _, curve := range h.enteredCurves(v) {
		if _, err := h.AsFound(curve); err != nil {
			list = append(list, Consequence{Label: "Curve", Circuit: curve.Circuit, Verdict: Wrong, Says: upper(err.Error()) + "."})
		}
	}
	return list
}

// temperatureIn judges a temperature that was entered; one that cannot be read is left to words.
func temperatureIn(c *Consequence, value string, judge func(*Consequence, units.Temperature)) {
	if t, err := units.Parse[units.Temperature](value); err == nil {
		judge(c, t)
	}
}

// plain takes the sheet's own words where two figures can be compared.
func plain(c *Consequence, l settings.Line, value string) {
	number := func(text string) (float64, bool) {
		figure := strings.NewReplacer("−", "-", ",", ".").Replace(firstFigure.FindString(strings.TrimSpace(text)))
		x, err := strconv.ParseFloat(figure, 64)
		return x, err == nil
	}
	entered, ok := number(value)
	sheet, also := number(l.Value)
	switch {
	case !ok || !also || unitBehind.FindString(value) != unitBehind.FindString(l.Value):
	case entered > sheet:
		c.Says = l.TooHigh
	case entered < sheet:
		c.Says = l.TooLow
	}
	c.Caution = l.Caution
}

// near is how close two temperatures are for a control to mean the same.
const near = units.Difference(0.3)

// cutOffAt settles the house without heat at the outdoor temperature from which it is off.
func (h *House) cutOffAt(c *Consequence, t units.Temperature) {
	sheet := h.plan.CutOff
	switch d := t.Sub(sheet); {
	case d > near:
		c.Says = fmt.Sprintf("The house needs no heat above %s; between there and %s burner and pumps run for nobody.", sheet.Text(h.system), t.Text(h.system))
	case d < -near:
		coldest, at, short := "", units.Temperature(0), units.Difference(math.Inf(-1))
		for _, r := range h.plan.Rooms {
			air, err := r.Loss.RoomWith(r.Gains, t)
			if err != nil {
				continue // a room that loses nothing stays as it is
			}
			if s := r.Setpoint.Sub(air); s > short {
				coldest, at, short = r.Name, air, s
			}
		}
		if coldest == "" {
			return
		}
		c.Says = fmt.Sprintf("Heating stops at %s outdoors; without it %s ends at %s in that weather, without sun.", t.Text(h.system), coldest, at.Text(h.system))
		if short > 3 {
			c.Verdict = Wrong
		}
	default:
		c.Verdict, c.Says = Right, asSheet
	}
}

const asSheet = "As good as the sheet."

// limitAt says down to which weather an output limit heats the house.
func (h *House) limitAt(c *Consequence, value string) {
	limit, err := units.Parse[units.Power](value)
	if err != nil {
		share, serr := units.Parse[units.Fraction](value)
		if serr != nil || !h.plan.Site.Known {
			return
		}
		limit = units.Power(float64(share) * float64(h.plan.Site.Rated))
	}
	need, sheet := h.plan.Sheet.Load.Total, h.plan.Most
	switch {
	case limit < need:
		share := float64(limit) / float64(need)
		until := h.plan.CutOff - units.Temperature(share*float64(h.plan.CutOff-h.plan.Design))
		c.Says = fmt.Sprintf("%s is less than the %s of the design day: below about %s outdoors the house cools.", limit.Text(h.system), need.Text(h.system), until.Text(h.system))
		if share < 0.95 {
			c.Verdict = Wrong
		}
	case limit > units.Power(1.1*float64(sheet)):
		c.Says = fmt.Sprintf("%s is more than the %s of the sheet: the house is warm, but the burner makes shorter runs and a hotter return.", limit.Text(h.system), sheet.Text(h.system))
	default:
		c.Verdict, c.Says = Right, asSheet
	}
}

// tankAt holds stored water against hygiene and scalding.
func (h *House) tankAt(c *Consequence, t units.Temperature) {
	if t < units.Celsius(0) || t > units.Celsius(95) {
		c.Verdict, c.Says = Wrong, fmt.Sprintf("%s is no temperature of hot water.", t.Text(h.system))
		return
	}
	stored := h.job.HotWater.By != "combi"
	missed, err := hotwater.Missed(hotwater.Storage, t)
	if err != nil {
		return
	}
	if stored && len(missed) > 0 {
		least := missed[0].Limit
		for _, g := range missed {
			least = max(least, g.Limit)
		}
		c.Says = fmt.Sprintf("Legionella may grow in water stored at %s; guidance asks for %s.", t.Text(h.system), least.Text(h.system))
		c.Caution = "Below 140 °F (60 °C) legionella may grow; the local code comes first."
		if c.Verdict = Doubtful; t < units.Celsius(50) {
			c.Verdict = Wrong
		}
		return
	}
	band, found, err := hotwater.Scald(t)
	if err != nil || !found {
		c.Verdict, c.Says = Right, "No scald table has anything against it."
		return
	}
	c.Says = fmt.Sprintf("Water of %s at the tap burns deeply within %s; it may reach nobody without a mixing valve.", t.Text(h.system), band.Time)
	c.Caution = scaldCaution
	if t > units.Celsius(49) && h.job.HotWater.Mixing != "yes" {
		c.Verdict, c.Stop = Wrong, true
	} else if stored {
		c.Verdict = Right
	}
}

// Where frost protection comes too late; common practice.
var (
	frostOutdoorsLeast = units.Celsius(1)
	frostRoomLeast     = units.Celsius(5) // pipes in outer walls are near freezing then
)

func (h *House) frostOutdoorsAt(c *Consequence, t units.Temperature) {
	sheet, err := units.Parse[units.Temperature](c.Sheet)
	switch {
	case t < frostOutdoorsLeast:
		c.Verdict, c.Says = Wrong, fmt.Sprintf("At %s outdoors a pipe in the wind may be frozen before its pump starts.", t.Text(h.system))
	case err == nil && t > sheet:
		c.Verdict, c.Says = Right, "Pumps run through mild nights."
	}
}

func (h *House) frostRoomAt(c *Consequence, t units.Temperature) {
	sheet, err := units.Parse[units.Temperature](c.Sheet)
	switch {
	case t < frostRoomLeast:
		c.Verdict, c.Says = Wrong, fmt.Sprintf("With %s in the room, pipes in outer walls are near freezing.", t.Text(h.system))
	case err == nil && t > sheet:
		c.Verdict, c.Says = Right, "An empty house burns fuel for nobody."
	}
}

// supplyAt stops water that is hotter than a circuit bears.
func (h *House) supplyAt(c *Consequence, t units.Temperature) {
	for i, circuit := range h.plan.Sheet.Circuits {
		if circuit.Name != c.Circuit || t.Sub(circuit.Limit) <= near {
			continue
		}
		c.Verdict = Wrong
		c.Says = fmt.Sprintf("%s bears at most %s (%s).", circuit.Name, circuit.Limit.Text(h.system), circuit.LimitedBy)
		if h.plan.Circuits[i].Floor {
			c.Stop = true
			c.Caution = floorCaution
		}
	}
}

const floorCaution = "Too hot a floor burns feet and cracks screed and covering: set the limit back before anything runs, and see that the high limit stops the pump."
