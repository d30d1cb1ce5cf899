package web

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"curvewright/examples"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/words"
	"curvewright/working"
)

// What the templates ask for, worked out here so that they stay plain.

// Charts are drawn at the size at which they are shown, so that their letters keep
// theirs; the style sheet shows the one that fits.
type size struct {
	class         string
	width, height float64
}

var chartSizes = []size{{"narrow", 300, 300}, {"wide", 680, 390}}

// headline is a circuit in two figures.
type headline struct {
	Circuit, Kind  string
	Supply, Return string
	Unit           string
	Band           settings.Band
	Also           string
}

// headlines are the circuits on the design day.
func (p *page) headlines() []headline {
	var list []headline
	for _, c := range p.Sheet.Circuits {
		if len(c.Points) == 0 {
			continue
		}
		cold := c.Points[0]
		h := headline{Circuit: c.Name, Kind: c.Kind, Supply: p.supply(cold.Set), Return: degrees(p.System, cold.Return), Unit: degree(p.System)}
		for _, e := range c.Rooms {
			if e.Governs {
				h.Also = e.Name
			}
		}
		for _, section := range p.part("") {
			for _, l := range section.Lines {
				if l.Circuit == c.Name && l.Band.Known && h.Band.Words == "" {
					h.Band = l.Band
				}
			}
		}
		if p.System != p.Sheet.Scale {
			h.Band.Low, h.Band.High = "", "" // written in the control's degrees, not the reader's
			if len(c.Band) > 0 {
				h.Band.Low, h.Band.High = temperature(p.System, c.Band[0].Low), temperature(p.System, c.Band[0].High)
			}
		}
		list = append(list, h)
	}
	return list
}

// spoken says the result in a sentence, for those who hear the page.
func (p *page) spoken() string {
	if p.Sheet == nil {
		return p.say("results.spoken.none")
	}
	var said []string
	for _, h := range p.headlines() {
		said = append(said, h.Circuit+" "+h.Supply+h.Unit)
	}
	return p.say("results.spoken", temperature(p.System, p.Sheet.Design), strings.Join(said, ", "))
}

// reading is one point of a curve for the read-out, in the reader's degrees.
type reading struct {
	Outdoor float64 `json:"outdoor"`
	Supply  float64 `json:"supply"`
	Return  float64 `json:"return"`
	Need    float64 `json:"need"`
}

// readings are the points of a curve as the script reads them.
func (p *page) readings(circuit int) string {
	var list []reading
	for _, at := range p.Sheet.Circuits[circuit].Points {
		list = append(list, reading{read(p.System, at.Outdoor), read(p.System, at.Set), read(p.System, at.Return), read(p.System, at.Ideal)})
	}
	text, err := json.Marshal(list)
	if err != nil { // a figure that is none
		return "[]"
	}
	return string(text)
}

func read(s units.System, t units.Temperature) float64 {
	v := t.Celsius()
	if s.In(units.Temperatures) == units.US {
		v = t.Fahrenheit()
	}
	return math.Round(v*100) / 100
}

// degrees is a temperature as a whole number with a true minus sign.
func degrees(s units.System, t units.Temperature) string {
	return strings.Replace(strconv.FormatFloat(math.Round(read(s, t))+0, 'f', 0, 64), "-", "−", 1)
}

func degree(s units.System) string {
	if s.In(units.Temperatures) == units.US {
		return "°F"
	}
	return "°C"
}

func temperature(s units.System, t units.Temperature) string {
	return degrees(s, t) + "\u00a0" + degree(s)
}

// supply is one of the sheet in the control's own step, as the reader writes figures.
func (p *page) supply(t units.Temperature) string {
	return p.Language.Writing(p.Sheet.SupplyText(p.System, t))
}

func (p *page) curve(circuit int, s size) string {
	return p.drawn(report.CurveSVG(p.Sheet, circuit, s.width, s.height))
}

// curveKey says what dashes, shade and bars of a curve mean.
func (p *page) curveKey(circuit int) string {
	c := p.Sheet.Circuits[circuit]
	key := p.say("circuit.key")
	if len(c.Band) > 1 {
		key += p.say("circuit.key.band")
	}
	most := 0.0
	for _, at := range c.Points {
		most = max(most, float64(at.Hours)/3600)
	}
	if most >= 1 {
		key += p.say("circuit.key.bars", most)
	}
	return key + "."
}

// rooms is the chart of a circuit's rooms. More rooms need more height.
func (p *page) rooms(circuit int, s size) string {
	n := float64(len(p.Sheet.Circuits[circuit].Rooms))
	return p.drawn(report.RoomsSVG(p.Sheet, circuit, s.width, max(s.height*0.75, 110+16*n)))
}

// row is one outdoor temperature of the expected readings, with every circuit.
type row struct {
	Outdoor string
	Cells   []settings.Expected
}

// expectedRows brings the circuits' readings side by side, at the outdoor
// temperatures that they share.
func (p *page) expectedRows() []row {
	var rows []row
	at := map[string]int{}
	for _, e := range p.Sheet.Expected {
		key := degrees(p.System, e.Outdoor)
		if _, known := at[key]; !known {
			at[key] = len(rows)
			rows = append(rows, row{Outdoor: key})
		}
		rows[at[key]].Cells = append(rows[at[key]].Cells, e)
	}
	var full []row
	for _, r := range rows {
		if len(r.Cells) == len(p.Sheet.Circuits) {
			full = append(full, r)
		}
	}
	return full
}

// surer are the measurements worth making, with their share of the doubt.
func (p *page) surer() []settings.Measurement {
	var list []settings.Measurement
	for _, m := range p.Sheet.Surer {
		if m.Share >= 0.02 && len(list) < 5 {
			list = append(list, m)
		}
	}
	return list
}

func share(f units.Fraction) string { return strconv.Itoa(int(math.Round(float64(f)*100))) + "\u00a0%" }

// bars is the share in tenths, as a class of the style sheet.
func bars(f units.Fraction) string {
	return fmt.Sprintf("tenths-%d", max(1, min(10, int(math.Round(float64(f)*10)))))
}

// inputs are those with something to show.
func inputs(s working.Step) []working.Input {
	var list []working.Input
	for _, in := range s.Inputs {
		if in.Value != nil {
			list = append(list, in)
		}
	}
	return list
}

func hasMore(l settings.Line) bool {
	return l.TooHigh != "" || l.TooLow != "" || l.Instead != "" || len(l.Working) > 0
}

// unfolding says what is beneath a line.
func unfolding(ctx context.Context, l settings.Line) string {
	if len(l.Working) > 0 {
		return words.Say(ctx, "working.both")
	}
	return words.Say(ctx, "working.wrong")
}

// unfolds says whether what is folded away is sent along. While somebody types, only
// what they have unfolded is: it is most of the page, and nobody looks at it.
func (p *page) unfolds(id string) bool { return !p.brief || p.open[id] }

// allowed says what can be set.
func allowed(ctx context.Context, l settings.Line) string {
	said := words.Engine(ctx, l.Allowed)
	if l.Allowed == "fixed" || strings.HasPrefix(l.Allowed, "up to") {
		return said
	}
	return words.Say(ctx, "settings.range", said)
}

// severity is a finding's mark.
func severity(f settings.Finding) string {
	if f.Severity == "stop" || f.Severity == "short" {
		return f.Severity
	}
	return "note"
}

// finds tells whether the sheet has notes, or something graver.
func (p *page) finds(notes bool) bool {
	return slices.ContainsFunc(p.Sheet.Findings, func(f settings.Finding) bool { return (severity(f) == "note") == notes })
}

func findingsTitle(notes bool) string {
	if notes {
		return "notes-title"
	}
	return "findings-title"
}

// lineID is a line's name for the page.
func lineID(l settings.Line) string {
	return "line-" + strings.NewReplacer(".", "-", " ", "-").Replace(l.ID)
}

// exampleLink keeps the reader's units where they chose others than the example's own.
func (p *page) exampleLink(e examples.Example) string {
	return "/try?example=" + e.Name
}

func (p *page) unitWord() string { return p.System.Word() }

func lines(n int) string { return strconv.Itoa(n) }

// documentRows is a height for the document: all of a short one, a window on a long one.
func documentRows(document string) string {
	return strconv.Itoa(min(28, max(12, strings.Count(document, "\n")+2)))
}

// plantAction is where the boiler room's choice of weather goes without the script.
func (p *page) plantAction() string {
	if p.House != nil {
		return p.House.at("boiler-room")
	}
	return "/try#boiler-room"
}

// yearAction is where the year is asked for without the script.
func (p *page) yearAction() string {
	if p.House != nil {
		return p.House.at("year#year")
	}
	return "/year#year"
}
