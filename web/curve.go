package web

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"curvewright/curve"
	"curvewright/report"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/units"
	"curvewright/web/words"
)

// The curve on a page of its own, to be tried: its points are dragged or typed, and the
// engine says what the rooms, the limits and the boiler make of it. Nothing here is kept.
// All figures that are entered are in the control's own degrees and steps.

// curvePage is what the page shows.
type curvePage struct {
	Circuits []*tryCircuit
	Tried    *settings.Verdict
	Sheet    *settings.Verdict // of the recommended curves
	Found    *settings.Verdict // of those found in the control; nil if none was entered
	scale    units.System      // of the control
}

// tryCircuit is one circuit with the curve that is tried on it.
type tryCircuit struct {
	Index      int
	Choice     settings.Choice
	Tried      curve.Setting
	Found      *curve.Setting
	Groups     []tryGroup // of fields, one for each point
	AsFound    []tryGroup
	Surveyed   bool   // the curve as found stands in the survey
	Fault      string // of the curve as a whole
	FoundFault string
}

// tryGroup are the fields of one point, or of slope and shift. Handle is its number for
// dragging; -1 if it cannot be dragged.
type tryGroup struct {
	Name   string
	Handle int
	Fields []tryField
}

// tryField is one figure of a curve.
type tryField struct {
	Name, Key, Label, Unit string
	Value, Min, Max, Step  string
	Fault                  string
}

// figureOf is a figure of a curve's setting: how it is read and written.
type figureOf struct {
	key       string
	label     func(ctx context.Context) string
	unit      string
	low, high float64
	step      float64
	get       func(curve.Setting) float64
	set       func(*curve.Setting, float64)
}

// figureGroup are the figures of one point.
type figureGroup struct {
	name    string
	handle  int
	figures []figureOf
}

// figuresOf are the figures of a shape in the control's degrees.
func figuresOf(ctx context.Context, shape curve.Shape) []figureGroup {
	sys := shape.Step.System
	say := func(key string) func(context.Context) string {
		return func(ctx context.Context) string { return words.Say(ctx, key) }
	}
	at := func(key, label string, span curve.Span[units.Temperature], place func(*curve.Setting) *units.Temperature) figureOf {
		low, high := shape.Step.Up(span.From), shape.Step.Down(span.To)
		if low > high {
			low, high = span.From, span.From
		}
		return figureOf{key: key, label: say(label), unit: degree(sys), low: onScale(sys, low), high: onScale(sys, high), step: onStep(shape.Step),
			get: func(s curve.Setting) float64 { return onScale(sys, *place(&s)) },
			set: func(s *curve.Setting, v float64) { *place(s) = fromScale(sys, v) }}
	}
	point := func(key string, outdoor, supply curve.Span[units.Temperature], place func(*curve.Setting) *curve.Point) []figureOf {
		return []figureOf{
			at(key+"-outdoor", "curve.outdoor", outdoor, func(s *curve.Setting) *units.Temperature { return &place(s).Outdoor }),
			at(key+"-supply", "curve.supply", supply, func(s *curve.Setting) *units.Temperature { return &place(s).Supply }),
		}
	}
	switch shape.Kind {
	case curve.SlopeShift:
		return []figureGroup{{words.Say(ctx, "curve.slope-shift"), -1, []figureOf{
			{"slope", say("curve.slope"), "", shape.Slope.From, shape.Slope.To, shape.Slope.Step,
				func(s curve.Setting) float64 { return s.Slope }, func(s *curve.Setting, v float64) { s.Slope = v }},
			{"shift", say("curve.shift"), degree(sys), difference(sys, shape.Shift.From), difference(sys, shape.Shift.To), difference(sys, shape.Shift.Step),
				func(s curve.Setting) float64 { return difference(sys, float64(s.Shift)) },
				func(s *curve.Setting, v float64) { s.Shift = units.Difference(v / difference(sys, 1)) }},
		}}}
	case curve.Table:
		var groups []figureGroup
		for i := range shape.Points {
			groups = append(groups, figureGroup{words.Say(ctx, "curve.point", i+1), i,
				point("point-"+strconv.Itoa(i+1), shape.ColdOutdoor, shape.ColdSupply, func(s *curve.Setting) *curve.Point {
					if len(s.Points) < shape.Points {
						s.Points = append(s.Points, make([]curve.Point, shape.Points-len(s.Points))...)
					}
					return &s.Points[i]
				})})
		}
		return groups
	}
	groups := []figureGroup{
		{words.Say(ctx, "curve.cold"), 0, point("cold", shape.ColdOutdoor, shape.ColdSupply, func(s *curve.Setting) *curve.Point { return &s.Cold })},
		{words.Say(ctx, "curve.mild"), 1, point("mild", shape.MildOutdoor, shape.MildSupply, func(s *curve.Setting) *curve.Point { return &s.Mild })},
	}
	if shape.Kind == curve.Bent {
		groups = append(groups, figureGroup{words.Say(ctx, "curve.bend"), -1, []figureOf{
			{"exponent", say("curve.exponent"), "", shape.Exponent.From, shape.Exponent.To, shape.Exponent.Step,
				func(s curve.Setting) float64 { return s.Exponent }, func(s *curve.Setting, v float64) { s.Exponent = v }}}})
	}
	return groups
}

func onScale(s units.System, t units.Temperature) float64 {
	if s.In(units.Temperatures) == units.US {
		return t.Fahrenheit()
	}
	return t.Celsius()
}

func fromScale(s units.System, v float64) units.Temperature {
	if s.In(units.Temperatures) == units.US {
		return units.Fahrenheit(v)
	}
	return units.Celsius(v)
}

// difference is a difference of so many kelvin in the control's degrees.
func difference(s units.System, kelvin float64) float64 {
	if s.In(units.Temperatures) == units.US {
		return kelvin * 1.8
	}
	return kelvin
}

func onStep(s units.Step) float64 { return difference(s.System, float64(s.Difference())) }

// bare writes a figure for a field of numbers, which wants a point in every language.
func bare(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000+0, 'f', -1, 64)
}

// fieldsFor writes the fields of a curve; typed are the texts that a reader sent.
func fieldsFor(ctx context.Context, prefix string, shape curve.Shape, s *curve.Setting, typed url.Values, faults map[string]string) []tryGroup {
	var list []tryGroup
	for _, g := range figuresOf(ctx, shape) {
		group := tryGroup{Name: g.name, Handle: g.handle}
		for _, f := range g.figures {
			field := tryField{Name: prefix + f.key, Key: f.key, Label: f.label(ctx), Unit: f.unit, Min: bare(f.low), Max: bare(f.high), Step: bare(f.step)}
			if !(f.step > 0) {
				field.Step = "any"
			}
			if s != nil {
				field.Value = bare(f.get(*s))
			} else {
				field.Value = typed.Get(field.Name)
			}
			if fault, wrong := faults[field.Name]; wrong {
				field.Value, field.Fault = typed.Get(field.Name), fault
			}
			group.Fields = append(group.Fields, field)
		}
		list = append(list, group)
	}
	return list
}

// readCurve reads a curve from the fields that a reader sent, beginning from another one:
// a field that was not sent keeps its figure. It says how many fields had a text in them.
func readCurve(ctx context.Context, prefix string, shape curve.Shape, from curve.Setting, typed url.Values, faults map[string]string) (set curve.Setting, given, asked int) {
	set = from
	set.Points = append([]curve.Point(nil), from.Points...)
	for _, g := range figuresOf(ctx, shape) {
		for _, f := range g.figures {
			asked++
			text := strings.TrimSpace(typed.Get(prefix + f.key))
			if text == "" {
				continue
			}
			given++
			v, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(text), 64)
			if err != nil || math.IsNaN(v) || math.Abs(v) > 1000 {
				faults[prefix+f.key] = words.Say(ctx, "curve.nonumber", bare(f.low), bare(f.high))
				continue
			}
			f.set(&set, v)
		}
	}
	return set, given, asked
}

// try works out the page for the curves that a reader sent.
func (p *page) try(ctx context.Context, typed url.Values) {
	if p.curves == nil {
		return
	}
	c := &curvePage{scale: p.Sheet.Scale}
	faults := map[string]string{}
	var tried, recommended, found []curve.Setting
	anyFound := false
	for i, choice := range p.curves.Circuits {
		t := &tryCircuit{Index: i, Choice: choice, Tried: choice.Recommended}
		prefix, foundPrefix := fmt.Sprintf("c%d.", i), fmt.Sprintf("f%d.", i)
		set, _, _ := readCurve(ctx, prefix, choice.Shape, choice.Recommended, typed, faults)
		if snapped, err := choice.Shape.Snap(set); err != nil {
			t.Fault = capital(words.Engine(ctx, err.Error())) + "."
		} else {
			t.Tried = snapped
		}
		t.Groups = fieldsFor(ctx, prefix, choice.Shape, &t.Tried, typed, faults)

		was, given, asked := readCurve(ctx, foundPrefix, choice.Own, curve.Setting{Kind: choice.Own.Kind, Room: choice.Recommended.Room, Limit: choice.Own.Limit}, typed, faults)
		shown := &t.Found
		switch {
		case given == 0:
			surveyed, known := p.curves.Found.Curve(p.Sheet.Circuits[i].Name)
			if !known {
				break
			}
			t.Found, t.Surveyed, anyFound = &surveyed, true, true
			if surveyed.Kind != choice.Own.Kind || len(surveyed.Points) != choice.Own.Points {
				shown = new(*curve.Setting) // another shape than the fields have
			}
		case given < asked:
			t.FoundFault = words.Say(ctx, "curve.found.all")
		default:
			if snapped, err := choice.Own.Snap(was); err != nil {
				t.FoundFault = capital(words.Engine(ctx, err.Error())) + "."
			} else {
				t.Found, anyFound = &snapped, true
			}
		}
		t.AsFound = fieldsFor(ctx, foundPrefix, choice.Own, *shown, typed, faults)
		tried, recommended = append(tried, t.Tried), append(recommended, choice.Recommended)
		if t.Found != nil {
			found = append(found, *t.Found)
		} else {
			found = append(found, choice.Recommended)
		}
		c.Circuits = append(c.Circuits, t)
	}
	p.FieldFaults = len(faults)
	var err error
	judged := func(set []curve.Setting, doubt bool) (v *settings.Verdict) {
		if err == nil {
			v, err = p.curves.Curves(set, doubt)
		}
		return v
	}
	c.Tried, c.Sheet = judged(tried, true), judged(recommended, false)
	if anyFound {
		c.Found = judged(found, false)
	}
	if err != nil {
		p.Trouble = words.Say(ctx, "curve.nojudgement", err.Error())
		return
	}
	p.Curve = c
}

// tryCurve answers the script with the part of the page that a curve changes.
func (s *server) tryCurve(w http.ResponseWriter, r *http.Request) {
	values, _, err := formOf(r)
	if err != nil {
		http.Error(w, "the form could not be read", http.StatusBadRequest)
		return
	}
	p, err := s.open(r.Context(), store.Job, r.PathValue("id"), "curve", quickDoubt)
	if err != nil {
		s.trouble(w, r, err)
		return
	}
	p.try(r.Context(), values)
	s.write(w, r, http.StatusOK, curveWork(p))
}

// verdictOf is what one curve does, for a column of the comparison.
type verdictOf struct {
	settings.CurveVerdict
	Name string
	All  *settings.Verdict
}

// columns are the curves of a circuit beside each other: tried, recommended, found.
func (c *curvePage) columns(ctx context.Context, circuit int) []verdictOf {
	list := []verdictOf{
		{c.Tried.Circuits[circuit], words.Say(ctx, "curve.tried"), c.Tried},
		{c.Sheet.Circuits[circuit], words.Say(ctx, "curve.recommended"), c.Sheet},
	}
	if c.Circuits[circuit].Found != nil {
		list = append(list, verdictOf{c.Found.Circuits[circuit], words.Say(ctx, "curve.found"), c.Found})
	}
	return list
}

// comparison is one row: what is compared, and each curve's figure.
type comparison struct {
	Name   string
	Why    string
	Values []compared
}

// compared is a figure with what it means; Mark is set where it is bad.
type compared struct {
	Value, Also string
	Mark        bool
}

// some below which a room is neither short nor too warm to speak of.
const some = units.Difference(0.3)

// compare puts a circuit's curves side by side.
func (p *page) compare(ctx context.Context, circuit int) []comparison {
	columns := p.Curve.columns(ctx, circuit)
	row := func(key string, value func(v verdictOf) compared, args ...any) comparison {
		r := comparison{Name: words.Say(ctx, key, args...)}
		for _, v := range columns {
			r.Values = append(r.Values, value(v))
		}
		return r
	}
	points := columns[0].Circuit.Points
	first, last := 0, len(points)-1
	rows := []comparison{
		row("curve.row.supply", func(v verdictOf) compared {
			return compared{Value: temperature(p.System, v.Circuit.Points[first].Set), Also: words.Say(ctx, "curve.row.needed", temperature(p.System, v.Circuit.Points[first].Ideal))}
		}, temperature(p.System, points[first].Outdoor)),
		row("curve.row.short", func(v verdictOf) compared {
			if v.Short <= some {
				return compared{Value: words.Say(ctx, "curve.none")}
			}
			return compared{Value: p.quantity(v.Short), Also: v.Rooms[v.Coldest].Name, Mark: true}
		}),
		row("curve.row.mild", func(v verdictOf) compared {
			at := v.Circuit.Points[last]
			return compared{Value: temperature(p.System, at.Set), Also: words.Say(ctx, "curve.row.needed", temperature(p.System, at.Ideal))}
		}, temperature(p.System, points[last].Outdoor)),
		row("curve.row.excess", func(v verdictOf) compared {
			if v.Excess <= some {
				return compared{Value: words.Say(ctx, "curve.none")}
			}
			return compared{Value: p.quantity(v.Excess), Also: v.Rooms[v.Circuit.Points[last].Leads].Name, Mark: v.Excess > 3}
		}),
		row("curve.row.lost", func(v verdictOf) compared { return compared{Value: p.quantity(v.Circuit.LostMean)} }),
	}
	if p.Sheet.CondensesBelow > 0 {
		rows = append(rows,
			row("curve.row.heat", func(v verdictOf) compared { return compared{Value: share(v.All.Boiler.Condensing)} }),
			row("curve.row.hours", func(v verdictOf) compared { return compared{Value: share(v.All.CondensingHours)} }))
	}
	if p.Curve.Tried.Boiler.Known {
		rows = append(rows, row("curve.row.efficiency", func(v verdictOf) compared { return compared{Value: share(v.All.Boiler.Efficiency)} }))
	}
	return rows
}

// glance is a circuit's curve in three figures, to watch while a point is dragged.
func (p *page) glance(ctx context.Context, circuit int) []compared {
	v := p.Curve.Tried.Circuits[circuit]
	cold := v.Circuit.Points[0]
	list := []compared{{Value: temperature(p.System, cold.Set), Also: words.Say(ctx, "curve.row.supply", temperature(p.System, cold.Outdoor))}}
	short := compared{Value: words.Say(ctx, "curve.none"), Also: words.Say(ctx, "curve.row.short")}
	if v.Short > some {
		short = compared{Value: p.quantity(v.Short), Also: short.Also + ", " + v.Rooms[v.Coldest].Name, Mark: true}
	}
	list = append(list, short)
	if p.Sheet.CondensesBelow > 0 {
		list = append(list, compared{Value: share(p.Curve.Tried.Boiler.Condensing), Also: words.Say(ctx, "curve.row.heat")})
	}
	return list
}

// limits says which limits the tried curve meets.
func (p *page) limits(ctx context.Context, circuit int) []string {
	var list []string
	for _, l := range p.Curve.Tried.Circuits[circuit].Limits {
		key, why := "curve.limit.down", words.Engine(ctx, l.Why)
		switch l.Kind {
		case settings.RunsBeyond:
			key = "curve.limit.beyond"
		case settings.HeldUp:
			list = append(list, words.Say(ctx, "curve.limit.up", temperature(p.System, l.Supply), temperature(p.System, l.Outdoor)))
			continue
		}
		list = append(list, words.Say(ctx, key, temperature(p.System, l.Supply), temperature(p.System, l.Outdoor), why))
	}
	if c := p.Curve.Circuits[circuit]; c.Found != nil {
		for _, l := range p.Curve.Found.Circuits[circuit].Limits {
			if l.Kind == settings.RunsBeyond {
				list = append(list, words.Say(ctx, "curve.limit.found", temperature(p.System, l.Supply), temperature(p.System, l.Outdoor), words.Engine(ctx, l.Why)))
			}
		}
	}
	return list
}

// spokenCurve sums up what the tried curves do, for those who hear the page.
func (p *page) spokenCurve(ctx context.Context) string {
	if p.Curve == nil {
		return p.Trouble
	}
	var said []string
	for i := range p.Curve.Circuits {
		v := p.Curve.Tried.Circuits[i]
		text := v.Circuit.Name + words.Of(ctx).Colon() + words.Say(ctx, "curve.said", p.supply(v.Circuit.Points[0].Set)+"\u00a0"+degree(p.System))
		if v.Short > some {
			text += ", " + words.Say(ctx, "curve.said.short", v.Rooms[v.Coldest].Name, p.quantity(v.Short))
		}
		said = append(said, text)
	}
	if p.Sheet.CondensesBelow > 0 {
		said = append(said, words.Say(ctx, "curve.said.condenses", share(p.Curve.Tried.Boiler.Condensing)))
	}
	return strings.Join(said, words.Of(ctx).Semicolon())
}

// roomBand is a room of the tried circuit with its drawing.
type roomBand struct {
	settings.RoomVerdict
	Short   bool
	Drawing string
}

// bands are the rooms of a circuit under the tried curve, on one scale.
func (p *page) bands(circuit int) []roomBand {
	rooms := p.Curve.Tried.Circuits[circuit].Rooms
	low, high := rooms[0].Setpoint, rooms[0].Setpoint
	for _, r := range rooms {
		low, high = min(low, r.Setpoint, r.Coolest, r.Low), max(high, r.Setpoint, r.Warmest, r.High)
	}
	var list []roomBand
	for _, r := range rooms {
		list = append(list, roomBand{r, r.Setpoint.Sub(r.Design) > some, p.drawn(report.RoomBandSVG(r, low, max(high, low.Add(5)), 220, 26))})
	}
	return list
}

// drawnTrial is a circuit's chart in one size, with where a script finds its points on it.
type drawnTrial struct{ Class, SVG, Frame string }

// trials draws a circuit's chart in every size.
func (p *page) trials(ctx context.Context, circuit int) []drawnTrial {
	c := p.Curve.Circuits[circuit]
	t := report.Trial{Tried: c.Tried, Recommended: c.Choice.Recommended, Found: c.Found, Words: report.TrialWords{
		Title: words.Say(ctx, "curve.chart", p.Sheet.Circuits[circuit].Name), Tried: words.Say(ctx, "curve.line.tried"),
		Recommended: words.Say(ctx, "curve.line.recommended"), Found: words.Say(ctx, "curve.line.found"), Need: words.Say(ctx, "curve.line.need"), Lang: words.Of(ctx).Tag()}}
	scale := p.Curve.scale
	var list []drawnTrial
	for _, s := range chartSizes {
		svg, field := report.TrialSVG(p.Sheet, circuit, t, s.width, s.height)
		svg = p.drawn(svg)
		frame, err := json.Marshal(map[string]float64{
			"width": s.width, "height": s.height, "left": field.Left, "top": field.Top, "right": field.Right, "bottom": field.Bottom,
			"cold": onScale(scale, field.Cold), "mild": onScale(scale, field.Mild), "low": onScale(scale, field.Low), "high": onScale(scale, field.High),
		})
		if err != nil { // a figure that is none
			frame = []byte("{}")
		}
		list = append(list, drawnTrial{s.class, svg, string(frame)})
	}
	return list
}

// turns are the temperatures about which a curve of slope and shift is dragged, in the
// control's degrees: the set-point, the design day, the heating limit.
func (p *page) turns(c *tryCircuit) string {
	ct := p.Sheet.Circuits[c.Index]
	return strings.Join([]string{bare(onScale(p.Curve.scale, c.Choice.Recommended.Room)), bare(onScale(p.Curve.scale, p.Sheet.Design)), bare(onScale(p.Curve.scale, ct.CutOff))}, " ")
}

// shapeWord names a shape for the script.
func (c *tryCircuit) shapeWord() string {
	switch c.Choice.Shape.Kind {
	case curve.SlopeShift:
		return "slope-shift"
	case curve.Table:
		return "table"
	}
	return "points"
}

// startsAt are the recommended figures of a circuit in the order of its fields, so that a
// script can say how far a curve was shifted.
func (p *page) startsAt(ctx context.Context, c *tryCircuit) string {
	var list []string
	for _, g := range figuresOf(ctx, c.Choice.Shape) {
		for _, f := range g.figures {
			list = append(list, bare(f.get(c.Choice.Recommended)))
		}
	}
	return strings.Join(list, " ")
}
