package web

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"curvewright/job"
	"curvewright/units"
	"curvewright/web/words"
)

// The survey as forms. They are made from the fields of the document themselves, so
// that whatever a document can say can be answered on a page, in the same words.

// surveyPart is one page of the survey.
type surveyPart struct {
	ID    string
	roots []string // fields of the document that belong to it, by their patterns
}

// surveyParts are the pages of the survey, in the order in which a person walks through
// a house. The first is the short way: ten answers that are spread over the others.
var surveyParts = []surveyPart{
	{"short", []string{
		"job", "place", "site.design_outdoor", "house.floor_area", "house.era", "house.insulation", "house.glazing", "house.tightness",
		"house.setpoint", "circuits[].name", "circuits[].emitters[].sized", "circuits[].emitters[].fin_tube.length", "circuits[].emitters[].cast_iron.edr",
		"circuits[].emitters[].radiator.output", "circuits[].emitters[].floor.area", "circuits[].max_supply",
		"boiler.kind", "boiler.output", "boiler.min_output", "hot_water.by", "program.wish",
	}},
	{"house", []string{"job", "place", "surveyed", "by", "notes", "site", "house", "constructions", "learned"}},
	{"rooms", []string{"rooms"}},
	{"circuits", []string{"circuits"}},
	{"boiler-room", []string{"boiler", "separator", "outdoor_sensor", "system", "sensors"}},
	{"hot-water", []string{"hot_water"}},
	{"habits", []string{"program", "frost"}},
	{"control", []string{"control", "as_found"}},
}

// parts are the pages of the survey of a job; a control on its own has but one.
func (h *house) parts() []surveyPart {
	if h.alone() {
		return nil
	}
	return surveyParts
}

// places are those of a job.
func (h *house) places() []string {
	if h.alone() {
		return nil
	}
	return jobPlaces
}

// partNamed finds a page of the survey.
func partNamed(id string) (surveyPart, bool) {
	for _, p := range surveyParts {
		if p.ID == id {
			return p, true
		}
	}
	return surveyPart{}, false
}

// holds tells whether a field belongs to the page, itself or as part of what does.
func (p surveyPart) holds(pattern string) bool {
	for _, r := range p.roots {
		if pattern == r || strings.HasPrefix(pattern, r+".") || strings.HasPrefix(pattern, r+"[]") {
			return true
		}
	}
	return false
}

// leads tells whether something beneath a group belongs to the page.
func (p surveyPart) leads(pattern string) bool {
	for _, r := range p.roots {
		if strings.HasPrefix(r, pattern+".") || strings.HasPrefix(r, pattern+"[]") {
			return true
		}
	}
	return false
}

// partOf finds the page on which a field of the document is asked for.
func partOf(path string) string {
	pattern := patternOf(path)
	for _, p := range surveyParts[1:] {
		if p.holds(pattern) {
			return p.ID
		}
	}
	return surveyParts[0].ID
}

// patternOf leaves the numbers of the list entries out of a path.
func patternOf(path string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(path, "[")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		_, rest, _ = strings.Cut(rest, "]")
		b.WriteString("[]")
		path = rest
	}
}

// one is the single entry of a list that a page is about, if it is.
func (p surveyPart) one() string {
	if len(p.roots) == 1 && strings.HasSuffix(p.roots[0], "]") {
		return p.roots[0]
	}
	return ""
}

// block is a group of fields under a heading, with the groups within it.
type block struct {
	Path, Pattern string
	Title         string
	Help          string
	List          bool // its blocks are the entries of a list, of which there can be more
	Entry         bool // one of such entries
	Absent        bool // it can be absent as a whole, and is
	Optional      bool // it can be absent, and is not
	Kinds         []kind
	Fields        []field
	Seldom        []field // asked for on request
	Blocks        []*block
	Open          bool
}

// kind is one of several things that an entry can be.
type kind struct {
	Path, Label string
	Chosen      bool
}

// ID is the block's name for the page.
func (b *block) ID() string { return "b-" + idOf(b.Path) }

// idOf makes a name for the page of a place in the document.
func idOf(path string) string { return idLetters.Replace(path) }

var idLetters = strings.NewReplacer(".", "-", "[", "-", "]", "")

// blocksOf are the fields of one page of the survey, as groups.
func blocksOf(ctx context.Context, j *job.Job, part surveyPart, s units.System) []*block {
	return blocksIn(ctx, job.Whole(j), "", part, s, func(pattern string) []string { return namesFor(j, pattern) })
}

// blocksIn are the fields of one page about any document, whose words are under a prefix.
func blocksIn(ctx context.Context, whole job.Spot, prefix string, part surveyPart, s units.System, names func(pattern string) []string) []*block {
	top := &block{}
	at := map[string]*block{"": top}
	if one := part.one(); one != "" {
		entry := &block{Path: one, Pattern: patternOf(one), Title: words.Label(ctx, prefix+patternOf(one)), Entry: true}
		top.Blocks, at[one] = []*block{entry}, entry
	}
	short := part.ID == surveyParts[0].ID
	for _, spot := range whole.All() {
		if one := part.one(); one != "" {
			if !strings.HasPrefix(spot.Path, one+".") {
				continue
			}
		} else if !part.holds(spot.Pattern) && !part.leads(spot.Pattern) {
			continue
		}
		parent := parentOf(ctx, at, spot.Path)
		switch spot.Kind {
		case job.GroupSpot:
			if short && spot.Absent {
				continue
			}
			if spot.OneOf {
				parent.Kinds = append(parent.Kinds, kind{spot.Path, words.Label(ctx, prefix+spot.Pattern), !spot.Absent})
				if spot.Absent {
					continue
				}
			}
			b := &block{Path: spot.Path, Pattern: spot.Pattern, Title: words.Label(ctx, prefix+spot.Pattern), Help: words.Help(ctx, prefix+spot.Pattern, spot.Doc),
				Absent: spot.Absent, Optional: spot.CanBeAbsent() && !spot.Absent && !spot.OneOf}
			parent.Blocks, at[spot.Path] = append(parent.Blocks, b), b
		case job.ListSpot:
			b := &block{Path: spot.Path, Pattern: spot.Pattern, Title: words.Label(ctx, prefix+spot.Pattern), Help: words.Help(ctx, prefix+spot.Pattern, spot.Doc), List: !short}
			parent.Blocks, at[spot.Path] = append(parent.Blocks, b), b
			for i := range spot.Items {
				path := spot.Path + "[" + strconv.Itoa(i) + "]"
				entry := &block{Path: path, Pattern: spot.Pattern + "[]", Title: words.Label(ctx, prefix+spot.Pattern+"[]") + " " + strconv.Itoa(i+1), Entry: !short}
				b.Blocks, at[path] = append(b.Blocks, entry), entry
			}
		default:
			f := fieldIn(ctx, spot, prefix, s)
			f.choose(names(spot.Pattern))
			if spot.Pattern == parent.Pattern+".name" && f.Figure != "" {
				parent.Title = f.Figure
			}
			if !short && prefix == "" && seldom(spot) {
				parent.Seldom = append(parent.Seldom, f)
			} else {
				parent.Fields = append(parent.Fields, f)
			}
		}
	}
	return prune(top.Blocks, top)
}

// prune leaves empty groups out, and puts fields that stand alone under a group of
// their own.
func prune(blocks []*block, top *block) []*block {
	var kept []*block
	if len(top.Fields) > 0 {
		kept = append(kept, &block{Path: "", Title: "", Fields: top.Fields, Seldom: top.Seldom})
	}
	for _, b := range blocks {
		b.Blocks = prune(b.Blocks, &block{})
		if len(b.Fields)+len(b.Seldom)+len(b.Blocks)+len(b.Kinds) > 0 || b.List || b.Absent || b.Entry {
			kept = append(kept, b)
		}
	}
	return kept
}

func parentOf(_ context.Context, at map[string]*block, path string) *block {
	cut := strings.LastIndexAny(path, ".")
	if cut < 0 {
		return at[""]
	}
	if b, ok := at[path[:cut]]; ok {
		return b
	}
	return at[""]
}

// seldom tells the fields that are asked for on request: those that can be left out,
// were, and do not belong to what one asks for first.
func seldom(s job.Spot) bool {
	return !s.Need && s.Text() == "" && !slices.Contains(first, s.Pattern)
}

// first are the fields that are shown although they can be left out.
var first = []string{
	"place", "surveyed", "by", "notes",
	"house.floor_area", "house.era", "house.insulation", "house.glazing", "house.tightness", "house.under", "house.setpoint", "house.load",
	"site.design_outdoor", "site.annual_mean", "site.elevation",
	"constructions[].u", "constructions[].facing",
	"rooms[].area", "rooms[].load", "rooms[].setpoint", "rooms[].elements[].name", "rooms[].elements[].u", "rooms[].elements[].construction", "rooms[].elements[].to",
	"rooms[].emitters[].name", "rooms[].emitters[].circuit", "rooms[].emitters[].count",
	"rooms[].emitters[].radiator.output", "circuits[].emitters[].radiator.output", "rooms[].emitters[].towel_rail.output", "circuits[].emitters[].towel_rail.output",
	"rooms[].emitters[].floor.spacing", "rooms[].emitters[].floor.covering_kind", "rooms[].emitters[].floor.covering",
	"circuits[].emitters[].name", "circuits[].emitters[].floor.spacing", "circuits[].emitters[].floor.covering_kind", "circuits[].emitters[].sized.supply",
	"rooms[].emitters[].sized.supply", "circuits[].kind", "circuits[].drop", "circuits[].flow", "circuits[].max_supply", "circuits[].share",
	"circuits[].pipes[].bends", "circuits[].pipes[].tees", "circuits[].pipes[].valves", "circuits[].pump.mode",
	"boiler.kind", "boiler.fuel", "boiler.output", "boiler.min_output", "boiler.max_supply", "boiler.water",
	"separator.kind", "separator.sensor", "outdoor_sensor.fitted", "outdoor_sensor.place",
	"system.content", "system.height", "system.vessel", "system.precharge", "system.relief", "system.antifreeze",
	"sensors[].r25", "sensors[].b", "sensors[].reads", "sensors[].beside",
	"hot_water.by", "hot_water.tank", "hot_water.setpoint", "hot_water.mixing_valve", "hot_water.recirculation", "hot_water.people",
	"program.wish", "program.lower", "program.wake_up", "program.bed", "frost.pipes_outside", "frost.room_sensor", "frost.left_alone",
	"control.scale", "control.clock", "control.step", "control.min_supply", "control.max_supply", "control.points_per_day",
	"control.room_influence", "control.frost_by", "control.output_limit", "control.circuit_limit",
	"as_found.cut_off", "as_found.curves[].circuit", "as_found.curves[].cold_outdoor", "as_found.curves[].cold_supply",
	"as_found.curves[].mild_outdoor", "as_found.curves[].mild_supply", "as_found.curves[].preset", "as_found.curves[].max_supply",
}

// namesFor are the names in the document that a field may refer to.
func namesFor(j *job.Job, pattern string) []string {
	var names []string
	switch pattern {
	case "rooms[].elements[].construction":
		for _, c := range j.Constructions {
			names = append(names, c.Name)
		}
	case "rooms[].elements[].room":
		for _, r := range j.Rooms {
			names = append(names, r.Name)
		}
	case "circuits[].pump_of":
		for _, c := range j.Circuits {
			if c.Kind != "mixed" && c.PumpOf == "" {
				names = append(names, c.Name)
			}
		}
	case "rooms[].emitters[].circuit", "learned.emitters[].circuit", "as_found.curves[].circuit":
		for _, c := range j.Circuits {
			names = append(names, c.Name)
		}
	}
	return names
}

// choose makes a field of text one that is chosen, keeping what stands in it.
func (f *field) choose(names []string) {
	if len(names) == 0 {
		return
	}
	if f.Figure != "" && !slices.Contains(names, f.Figure) {
		names = append(names, f.Figure)
	}
	f.Text = false
	for _, n := range names {
		f.Choices = append(f.Choices, pick{n, n})
	}
}

// waterVolumes are the volumes of water, which are gallons where other volumes are
// cubic feet.
var waterVolumes = []string{
	"boiler.water", "hot_water.tank", "system.content", "system.vessel", "system.boiler_water", "separator.volume",
}

// electricPowers are in watts for everyone, as on the plate.
var electricPowers = []string{"electricity", "electricity_idle", "fan"}

// longLengths are those of rooms and pipes, which are asked in metres or feet as long as
// they are not known; others are diameters and thicknesses.
var longLengths = []string{"elevation", "ceiling_height", "height", "perimeter", "depth", "length", "loop_length"}

func lastWord(pattern string) string { return pattern[strings.LastIndexByte(pattern, '.')+1:] }

// printedAt prints a quantity as its place in the document wants it, and of which kind that
// makes it.
func printedAt(pattern string, q units.Quantity, s units.System) (printed string, kind units.Kind) {
	kind, _ = units.KindOf(q)
	switch v := q.(type) {
	case units.Volume:
		if slices.Contains(waterVolumes, pattern) {
			return v.WaterText(s), units.Waters
		}
	case units.Power:
		if slices.Contains(electricPowers, lastWord(pattern)) {
			return v.Text(units.SI), kind
		}
	case units.Pressure:
		if strings.HasSuffix(pattern, ".head") || strings.HasSuffix(pattern, ".extra") {
			return v.HeadText(s), units.Heads
		}
	}
	return q.Text(s), kind
}

// fieldAt is the form's field for a spot of the document, in the reader's units.
func fieldAt(ctx context.Context, spot job.Spot, s units.System) field {
	return fieldIn(ctx, spot, "", s)
}

// fieldIn is the same for any document, whose words are under a prefix.
func fieldIn(ctx context.Context, spot job.Spot, prefix string, s units.System) field {
	f := field{
		Path: spot.Path, Label: words.Label(ctx, prefix+spot.Pattern), Help: words.Help(ctx, prefix+spot.Pattern, spot.Doc),
		Optional: !spot.Need, Signed: true,
	}
	switch spot.Kind {
	case job.QuantitySpot:
		q, known, given := spot.Value()
		if _, isLength := q.(units.Length); isLength && !given && slices.Contains(longLengths, lastWord(spot.Pattern)) {
			q = units.Length(1) // a bare figure is meant in metres or feet
		}
		if _, isPower := q.(units.Power); isPower && !given && strings.HasPrefix(spot.Pattern, "boiler.") && strings.HasSuffix(spot.Pattern, "output") {
			q = units.Power(10000) // a bare figure is meant in kilowatts
		}
		if _, isTime := q.(units.Time); isTime && !given && (spot.Pattern == "readings.boiler.run" || spot.Pattern == "readings.boiler.pause") {
			q = units.Time(600) // a bare figure is meant in minutes
		}
		printed, kind := printedAt(spot.Pattern, q, s)
		f.Before, f.Figure, f.Unit = parts(printed)
		f.Quantity, f.Known = true, string(known)
		f.Asked = prefix == "" && !strings.HasPrefix(spot.Pattern, "control.") // a manual is no matter of doubt
		if !given {
			f.Figure = ""
		} else if before, figure, unit, ok := asWritten(spot.Text(), kind, f.Before+f.Unit, s); ok {
			f.Before, f.Figure, f.Unit = before, figure, unit
		} else if text := spot.Text(); !strings.EqualFold(text, spaced(printed)) {
			f.Also = text
		}
		f.Figure = words.Figure(ctx, f.Figure)
		f.Accepts = spot.Accepts()
	case job.WordSpot:
		f.Figure = spot.Text()
		for _, w := range spot.Words {
			f.Choices = append(f.Choices, pick{w, words.Choice(ctx, w)})
		}
	case job.YesSpot:
		f.Figure = spot.Text()
		f.Choices = []pick{{"yes", words.Choice(ctx, "yes")}}
	case job.WordsSpot:
		f.Figure, f.Text = strings.Join(spot.Texts(), ", "), true
	case job.CountSpot:
		f.Figure = spot.Text()
	case job.TextSpot:
		f.Figure, f.Text, f.Long = spot.Text(), true, spot.Pattern == "notes"
	}
	f.Shown = f.Figure
	return f
}
