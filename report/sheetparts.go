package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"curvewright/settings"
	"curvewright/units"
)

// The parts of the printed sheet, from top to bottom.

// titleBlock says whose sheet it is and on what it rests. What must be put right
// before anything is switched on stands here too.
func (p *printer) titleBlock() {
	s, sheet := p.sheet.System, p.sheet
	p.write(style{8, true, faint}, p.left, p.y, start, "SETTINGS FOR THE HEATING CONTROL")

	// Figures at the right, the rest in what they leave.
	figures := []struct{ name, value string }{
		{"design outdoor", sheet.Design.Text(s)},
		{"heat loss then", sheet.Load.Total.Text(s)},
	}
	if sheet.Load.PerArea > 0 {
		figures = append(figures, struct{ name, value string }{"per floor area", sheet.Load.PerArea.Text(s)})
	}
	x := p.right
	big := style{14, true, ink}
	for i := len(figures) - 1; i >= 0; i-- {
		w := max(p.measure(big, figures[i].value), p.measure(p.quiet(), figures[i].name))
		x -= w
		p.write(p.quiet(), x, p.y+2, start, figures[i].name)
		p.write(big, x, p.y+12, start, figures[i].value)
		x -= 18
	}
	title := style{16, true, ink}
	name := p.wrap(title, sheet.Job, x-p.left)
	y := p.lines(title, p.left, p.y+11, 18, name) + 2
	who := joined(" · ", sheet.Place, prefixed("surveyed ", p.opts.written(sheet.Surveyed)), prefixed("by ", sheet.By))
	y = p.lines(p.body(), p.left, y, p.d.lead, p.wrap(p.body(), who, p.width()))
	load := joined("; ", prefixed("Heat loss: ", joined(", ", sheet.Load.Source, sheet.Load.Estimate)))
	if sheet.Load.Billed > 0 {
		load = joined("; ", load, "fuel bills suggest "+sheet.Load.Billed.Text(s))
	}
	if isTemperature(sheet.Load.Balance) {
		load = joined("; ", load, "heating begins below "+sheet.Load.Balance.Text(s)+" outdoors")
	}
	if load != "" {
		y = p.lines(p.quiet(), p.left, y, p.d.lead, p.wrap(p.quiet(), load+".", p.width()))
	}
	p.y = y + p.d.pad*1.5
	short := 0
	for _, f := range sheet.Findings {
		switch f.Severity {
		case "stop":
			p.finding(f)
		case "short":
			short++
		}
	}
	if short > 0 {
		p.write(p.strong(), p.left, p.y, start, fmt.Sprintf("%s short of what is wanted: see Findings.", counted(short, "place falls", "places fall")))
		p.y += p.d.lead + p.d.pad
	}
}

// columns of the settings table. What is allowed stands at the right of the value's.
type columns struct{ section, label, value, why float64 }

// continued stands behind the title of a section whose lines go on from another page.
func (p *printer) continued() string { return " " + p.clean("(continued)") }

// gutter is the white between two columns.
const gutter = 9.0

func (p *printer) columns() columns {
	w := p.width()
	section := w * 0.108
	for _, sec := range p.sheet.Sections { // no word of a title is broken
		section = max(section, p.longestWord(p.strong(), sec.Title)+gutter, p.longestWord(p.strong(), p.continued())+gutter)
	}
	c := columns{section: p.left, label: p.left + min(section, w*0.17)}
	c.value = c.label + w*0.2
	c.why = c.value + w*0.25
	return c
}

// valueWidth is the width of a value, and where what is allowed ends.
func (c columns) valueWidth() float64 { return c.why - c.value - gutter }

func (p *printer) settingsTable() {
	p.table(partOf(p.sheet, ""), "setting", "enter this")
	p.tablePage = p.press.PageNo()
}

// table prints sections of lines, under heads for what they are and what to do.
func (p *printer) table(sections []settings.Section, what, do string) {
	cols := p.columns()
	banded := false
	for _, sec := range sections {
		for _, l := range sec.Lines {
			banded = banded || l.Band.Known
		}
	}
	head := func() {
		p.rule(p.left, p.right, p.y, 1.2, ink)
		p.y += p.d.pad
		p.write(p.quiet(), cols.label, p.y, start, what)
		p.write(p.quiet(), cols.value, p.y, start, do)
		p.write(p.quiet(), cols.why-gutter, p.y, end, "allowed")
		p.write(p.quiet(), cols.why, p.y, start, "why")
		if banded {
			p.write(p.quiet(), p.right, p.y, end, "range under a value: nine cases of ten")
		}
		p.y += p.d.lead + p.d.pad*0.5
	}
	head()
	for _, sec := range sections {
		title := sec.Title
		// A section stays whole unless that would leave much of the page empty.
		if whole := p.sectionHeight(sec, cols); whole < 130 && p.need(whole) {
			head()
		}
		leads, titleEnds := leadingLine(sec), 0.0
		for i, l := range sec.Lines {
			row := p.row(l, cols, i == leads)
			height := row.height
			if i == 0 {
				height = max(height, float64(len(p.wrap(p.strong(), title, cols.label-cols.section-gutter)))*p.d.lead)
			}
			if p.need(height + p.d.pad*2) {
				head()
				if i > 0 {
					title = p.clean(title) + p.continued()
				}
			}
			first := i == 0 || title != sec.Title && strings.HasSuffix(title, p.continued())
			if first {
				p.rule(cols.section, p.right, p.y, 0.9, ink)
			} else {
				p.rule(cols.label, p.right, p.y, 0.4, grid)
			}
			p.y += p.d.pad * 1.3 // more than below: the value stands taller than its row
			if first {
				titleEnds = p.lines(p.strong(), cols.section, p.y, p.d.lead, p.wrap(p.strong(), title, cols.label-cols.section-gutter))
				title = sec.Title
			}
			p.printRow(row, cols)
			p.y += row.height + p.d.pad*0.3
		}
		p.y = max(p.y, titleEnds) // a long title beside a single short line
	}
	p.rule(p.left, p.right, p.y, 1.2, ink)
	p.y += p.d.pad
}

func (p *printer) sectionHeight(sec settings.Section, cols columns) float64 {
	height, leads := 0.0, leadingLine(sec)
	for i, l := range sec.Lines {
		height += p.row(l, cols, i == leads).height + p.d.pad*1.6
	}
	return height
}

// leadingLine is the first line of a section that says how sure its value is and what
// either side of it does; -1 if none. Lines that follow from it would only say it again.
func leadingLine(sec settings.Section) int {
	return slices.IndexFunc(sec.Lines, func(l settings.Line) bool {
		return l.Band.Known && l.TooHigh != "" && l.TooLow != ""
	})
}

// row is a line of the table, broken into lines of text.
type row struct {
	label, value, under, why, sides, caution []string
	allowed                                  string // beside the value
	big                                      style
	height                                   float64
}

// row breaks a line; leads asks for what happens on either side of its value.
func (p *printer) row(l settings.Line, cols columns, leads bool) row {
	var r row
	width := cols.valueWidth()
	whyWidth := p.right - cols.why
	r.label = p.wrap(p.strong(), l.Label, cols.value-cols.label-gutter)
	r.big, r.value = p.bigValue(l.Value, width)
	r.under = p.wrap(p.quiet(), joined("  ", prefixed("= ", p.said(l.Also)), p.said(bandWords(l.Band))), width)
	allowed := rangeWords(l.Allowed)
	if len(r.value) == 1 && p.measure(r.big, r.value[0])+gutter+p.measure(p.quiet(), allowed) <= width {
		r.allowed = allowed
	} else {
		r.under = append(r.under, p.wrap(p.quiet(), allowed, width)...)
	}
	r.why = p.wrap(p.body(), l.Why, whyWidth)
	if l.Instead != "" {
		r.why = append(r.why, p.wrap(p.body(), "Otherwise: "+l.Instead, whyWidth)...)
	}
	if leads && p.d.sides {
		r.sides = p.wrap(p.quiet(), joined(" ", prefixed("Too high: ", l.TooHigh), prefixed("Too low: ", l.TooLow)), whyWidth)
	}
	if l.Caution != "" {
		r.caution = p.wrap(p.strong(), "Caution: "+l.Caution, p.right-cols.label-p.d.body*1.6)
	}
	lead := p.d.lead
	value := lead + float64(len(r.value)-1)*r.big.size*1.05 + float64(len(r.under))*lead
	text := max(float64(len(r.label))*lead, value, float64(len(r.why)+len(r.sides))*lead)
	r.height = text + float64(len(r.caution))*lead
	if len(r.caution) > 0 {
		r.height += p.d.pad * 0.5
	}
	return r
}

// bigValue sets a value smaller before it breaks it, and breaks it at its commas.
func (p *printer) bigValue(value string, width float64) (style, []string) {
	value = p.said(value) // before its parts are tied together
	fitted := func(parts ...string) style {
		st := style{p.d.value, true, ink}
		for _, part := range parts {
			for st.size > p.d.body && p.measure(st, part) > width {
				st.size -= 0.5
			}
		}
		return st
	}
	st := fitted(value)
	if p.measure(st, value) <= width {
		return st, []string{value}
	}
	parts := strings.SplitAfter(value, ", ")
	st = fitted(parts...)
	for i, part := range parts {
		if p.measure(st, part) <= width {
			parts[i] = strings.ReplaceAll(strings.TrimSpace(part), " ", "\u00a0") + " "
		}
	}
	return st, p.wrap(st, strings.Join(parts, ""), width)
}

// printRow sets a row; the first lines of its columns stand on one baseline.
func (p *printer) printRow(r row, cols columns) {
	lead := p.d.lead
	p.lines(p.strong(), cols.label, p.y, lead, r.label)
	rise := (r.big.size - p.d.body) * 0.92
	y := p.lines(r.big, cols.value, p.y-rise, r.big.size*1.05, r.value)
	p.write(p.quiet(), cols.why-gutter, p.y, end, r.allowed)
	p.lines(p.quiet(), cols.value, y+rise+lead-r.big.size*1.05, lead, r.under)
	y = p.lines(p.body(), cols.why, p.y, lead, r.why)
	p.lines(p.quiet(), cols.why, y, lead, r.sides)
	if len(r.caution) > 0 {
		y := p.y + r.height - float64(len(r.caution))*lead
		p.warningSign(cols.label, y-0.3, p.d.body*1.05)
		p.lines(p.strong(), cols.label+p.d.body*1.6, y, lead, r.caution)
	}
}

// bandWords is how sure a value is: "145 – 157 °F, fair".
func bandWords(b settings.Band) string {
	if !b.Known {
		return ""
	}
	return joined(", ", span(b.Low, b.High), b.Words)
}

// rangeWords shortens "85 °F to 185 °F" to "85 – 185 °F" and keeps a range on one line.
func rangeWords(allowed string) string {
	low, high, ok := strings.Cut(allowed, " to ")
	if !ok || strings.Contains(high, " to ") || !startsWithFigure(low) || !startsWithFigure(high) {
		return strings.ReplaceAll(allowed, " – ", "\u00a0–\u00a0")
	}
	return span(low, high)
}

func startsWithFigure(s string) bool {
	s = strings.TrimLeft(s, "−-+")
	return s != "" && s[0] >= '0' && s[0] <= '9'
}

// span writes a range that is not broken, with its unit once, at the end.
func span(low, high string) string {
	if i := strings.LastIndexAny(low, " \u00a0"); i > 0 && strings.HasSuffix(high, low[i:]) {
		low = low[:i]
	}
	return strings.ReplaceAll(low+" – "+high, " ", "\u00a0")
}

// curves draws the chart of each circuit, up to three side by side.
func (p *printer) curves() {
	var shown []int
	for i := range p.sheet.Circuits {
		if hasCurve(p.sheet, i) {
			shown = append(shown, i)
		}
	}
	if len(shown) == 0 {
		return
	}
	across := min(3, len(shown))
	if len(shown) == 4 {
		across = 2
	}
	gap := 10.0
	width := (p.width() - gap*float64(across-1)) / float64(across)
	height := map[int]float64{1: 185, 2: 160, 3: 138}[across] * p.d.charts
	caption := p.d.lead*2 + 3
	p.heading("How the curves run", "", height+caption+p.d.lead)
	for len(shown) > 0 {
		n := min(across, len(shown))
		p.need(height + caption)
		for k, i := range shown[:n] {
			ct := &p.sheet.Circuits[i]
			x := p.left + float64(k)*(width+gap)
			p.write(p.strong(), x, p.y, start, p.cut(p.strong(), ct.Name+", "+ct.Kind, width))
			p.write(p.quiet(), x, p.y+p.d.lead, start, p.cut(p.quiet(), governs(ct, p.sheet.System), width))
			c := &pressCanvas{press: p.press, origin: xy{x, p.y + caption}, size: 8}
			drawCurve(c, p.sheet, ct, width, height, false)
		}
		shown = shown[n:]
		p.y += caption + height
	}
	key := p.said("Thick: set supply. Dash-dot: return. Dashed: need of the leading room; shaded: that need in nine cases of ten. Bars: hours of the year.")
	for _, ct := range p.sheet.Circuits {
		if ct.Lost != "" {
			key += " " + ct.Name + colonIn(p.opts.Lang) + lowered(p.said(ct.Lost))
		}
	}
	p.y = p.lines(p.quiet(), p.left, p.y+p.d.pad*0.5, p.d.lead, p.wrap(p.quiet(), key, p.width()))
}

// lowered lets a sentence go on after a colon.
func lowered(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[n:]
}

// governs names the room that leads a circuit.
func governs(ct *settings.Circuit, s units.System) string {
	for _, r := range ct.Rooms {
		if r.Governs {
			return fmt.Sprintf("%s leads: needs %s", r.Name, whole(s, r.Need))
		}
	}
	return ct.Shape
}

// cut shortens one line to a width.
func (p *printer) cut(st style, s string, width float64) string {
	c := &pressCanvas{press: p.press, size: st.size}
	return shorten(c, s, st.bold, width)
}

// expected is the table of readings, one row for each outdoor temperature and two
// columns for each circuit.
func (p *printer) expected() {
	table := readings(p.sheet)
	table.outdoor = fewer(table.outdoor, p.d.readings)
	const most = 4 // circuits side by side
	for len(table.circuits) > 0 {
		n := min(most, len(table.circuits))
		p.expectedPart(table, table.circuits[:n])
		table.circuits = table.circuits[n:]
	}
}

func (p *printer) expectedPart(t readingTable, circuits []string) {
	lead := p.d.lead
	p.heading("What the thermometers should read", "in "+degree(p.sheet.System)+", on a steady call", lead*float64(min(len(t.outdoor), 12)+3))
	first := p.width() * 0.14
	each := (p.width() - first) / float64(max(len(circuits), 2))
	heat := len(circuits) <= 2 // there is space for the heat that goes with it
	supplyAt, returnAt := each*0.36, each*0.70
	if heat {
		supplyAt, returnAt = each*0.2, each*0.42
	}
	head := func() {
		for i, name := range circuits {
			x := p.left + first + each*float64(i)
			p.write(p.strong(), x, p.y, start, p.cut(p.strong(), name, each-8))
			p.write(style{p.d.body, true, supply}, x+supplyAt, p.y+lead, end, "supply")
			p.write(style{p.d.body, false, returning}, x+returnAt, p.y+lead, end, "return")
			if heat {
				p.write(p.quiet(), x+each*0.82, p.y+lead, end, "heat")
			}
		}
		p.write(p.quiet(), p.left, p.y+lead, start, "outdoors")
		p.y += lead*2 + 1
	}
	head()
	condenses := false
	for _, o := range t.outdoor {
		if p.need(lead + 1) {
			head()
		}
		p.rule(p.left, p.right, p.y, 0.4, grid)
		p.y++
		p.write(p.strong(), p.left+first*0.45, p.y, end, o)
		for i, name := range circuits {
			e, ok := t.at[name][o]
			if !ok {
				continue
			}
			x := p.left + first + each*float64(i)
			p.write(style{p.d.body, true, supply}, x+supplyAt, p.y, end, p.sheet.SupplyText(p.sheet.System, e.Supply))
			p.write(style{p.d.body, false, returning}, x+returnAt, p.y, end, plain(degrees(p.sheet.System, e.Return)))
			if e.Condensing {
				p.write(p.quiet(), x+returnAt+5, p.y, start, "c")
				condenses = true
			}
			if heat && e.Heat > 0 {
				p.write(p.quiet(), x+each*0.82, p.y, end, e.Heat.Text(p.sheet.System))
			}
		}
		p.y += lead
	}
	if condenses {
		within := "1 K"
		if p.sheet.System.In(units.Temperatures) == units.US {
			within = "2 °F"
		}
		p.write(p.quiet(), p.left, p.y+1, start, "c: the return is cool enough for the boiler to condense. Clamp-on sensors read within "+within+": judge differences first.")
		p.y += lead + 1
	}
}

// readingTable holds the expected readings by circuit and outdoor temperature.
type readingTable struct {
	circuits []string
	outdoor  []string // as printed, cold first
	at       map[string]map[string]settings.Expected
}

func readings(sheet *settings.Sheet) readingTable {
	t := readingTable{at: map[string]map[string]settings.Expected{}}
	sorted := slices.Clone(sheet.Expected)
	slices.SortStableFunc(sorted, func(a, b settings.Expected) int {
		switch {
		case a.Outdoor < b.Outdoor:
			return -1
		case a.Outdoor > b.Outdoor:
			return 1
		}
		return 0
	})
	for _, e := range sheet.Expected {
		if !slices.Contains(t.circuits, e.Circuit) {
			t.circuits = append(t.circuits, e.Circuit)
			t.at[e.Circuit] = map[string]settings.Expected{}
		}
	}
	for _, e := range sorted {
		o := plain(degrees(sheet.System, e.Outdoor))
		if !slices.Contains(t.outdoor, o) {
			t.outdoor = append(t.outdoor, o)
		}
		t.at[e.Circuit][o] = e
	}
	return t
}

// fewer thins a long column of outdoor temperatures: of two neighbours one goes, but
// never the first, the last or a round ten.
func fewer(outdoor []string, enough int) []string {
	if len(outdoor) <= enough {
		return outdoor
	}
	var some []string
	dropped := false
	for i, o := range outdoor {
		dropped = !dropped && i > 0 && i < len(outdoor)-1 && !strings.HasSuffix(o, "0")
		if !dropped {
			some = append(some, o)
		}
	}
	return some
}

// rooms lists what each room needs, in two columns.
func (p *printer) rooms() {
	type entry struct {
		circuit string
		room    settings.CircuitRoom
	}
	var all []entry
	for _, ct := range p.sheet.Circuits {
		for _, r := range ct.Rooms {
			all = append(all, entry{ct.Name, r})
		}
	}
	if len(all) == 0 {
		return
	}
	s := p.sheet.System
	rows := (len(all) + 1) / 2
	gap := 18.0
	width := (p.width() - gap) / 2
	p.heading("What each room needs on the coldest day", "supply temperature", p.d.lead*float64(min(rows, 8)))
	for i := 0; i < rows; i++ {
		p.need(p.d.lead + 1)
		for k, j := range []int{i, i + rows} {
			if j >= len(all) {
				continue
			}
			x, r := p.left+float64(k)*(width+gap), all[j].room
			st := p.body()
			if r.Governs {
				st = p.strong()
			}
			p.rule(x, x+width, p.y, 0.4, grid)
			y := p.y + 1
			p.write(st, x, y, start, p.cut(st, r.Name, width*0.32))
			p.write(p.quiet(), x+width*0.34, y, start, p.cut(p.quiet(), all[j].circuit, width*0.26))
			p.write(st, x+width*0.72, y, end, whole(s, r.Need))
			p.write(st, x+width*0.75, y, start, p.cut(st, r.Condition, width*0.25))
		}
		p.y += p.d.lead + 1
	}
}

// findings are what the installer must know, worst first, with cures, but for those
// that head the sheet.
func (p *printer) findings() {
	var rest []settings.Finding
	for _, f := range worstFirst(p.sheet.Findings) {
		if f.Severity != "stop" { // those head the sheet
			rest = append(rest, f)
		}
	}
	if len(rest) == 0 {
		return
	}
	title := "Findings"
	if len(rest) < len(p.sheet.Findings) {
		title = "Further findings"
	}
	p.heading(title, "", p.d.lead*3)
	for _, f := range rest {
		p.finding(f)
	}
}

func worstFirst(findings []settings.Finding) []settings.Finding {
	rank := map[string]int{"stop": 0, "short": 1}
	order := func(f settings.Finding) int {
		if r, ok := rank[f.Severity]; ok {
			return r
		}
		return 2
	}
	sorted := slices.Clone(findings)
	slices.SortStableFunc(sorted, func(a, b settings.Finding) int { return order(a) - order(b) })
	return sorted
}

func (p *printer) finding(f settings.Finding) {
	indent := 42.0
	where := joined(", ", f.Circuit, f.Room)
	text := p.wrap(p.body(), joined(colonIn(p.opts.Lang), where, p.said(f.Text)), p.width()-indent)
	var cure []string
	if len(f.Cures) > 0 {
		cures := make([]string, len(f.Cures))
		for i, c := range f.Cures {
			cures[i] = p.said(c)
		}
		cure = p.wrap(p.strong(), "→ "+strings.Join(cures, semicolonIn(p.opts.Lang)), p.width()-indent)
	}
	p.need(float64(len(text)+len(cure))*p.d.lead + p.d.pad)
	switch f.Severity {
	case "stop", "short":
		p.tag(p.left, p.y, strings.ToUpper(f.Severity))
	default:
		p.write(p.quiet(), p.left, p.y, start, "note")
	}
	p.y = p.lines(p.body(), p.left+indent, p.y, p.d.lead, text)
	p.y = p.lines(p.strong(), p.left+indent, p.y, p.d.lead, cure)
	p.y += p.d.pad * 0.7
}

// surer says what to measure, with the share of the doubt that each would remove
// drawn as a bar.
func (p *printer) surer() {
	if len(p.sheet.Surer) == 0 {
		return
	}
	p.heading("To be surer, measure", "share of the doubt that comes from it", p.d.lead*2)
	for _, m := range p.sheet.Surer {
		indent := 92.0
		text := p.wrap(p.body(), joined(colonIn(p.opts.Lang), p.said(m.What), p.said(m.How)), p.width()-indent)
		p.need(float64(len(text)) * p.d.lead)
		share := min(max(float64(m.Share), 0), 1)
		p.write(p.strong(), p.left+26, p.y, end, percent(m.Share))
		p.fill(axis, p.left+32, p.y+2, 52*share, p.d.body-3)
		p.y = p.lines(p.body(), p.left+indent, p.y, p.d.lead, text)
	}
}

// percent is a share in whole per cent: more would promise too much.
func percent(share units.Fraction) string {
	if math.IsNaN(float64(share)) || math.IsInf(float64(share), 0) {
		return "–"
	}
	return fmt.Sprintf("%.0f\u00a0%%", 100*float64(share))
}

// cautions that belong to the whole sheet, in one paragraph.
func (p *printer) cautions() {
	if len(p.sheet.Cautions) == 0 {
		return
	}
	sign := p.d.body * 1.6
	indent := sign + p.measure(p.strong(), "Cautions") + gutter
	lines := p.wrap(p.body(), strings.Join(p.sheet.Cautions, " "), p.width()-indent)
	if !p.need(float64(len(lines))*p.d.lead + p.d.pad*3) {
		p.y += p.d.pad * 2
	}
	p.rule(p.left, p.right, p.y, 0.8, ink)
	p.y += p.d.pad
	p.warningSign(p.left, p.y-0.3, p.d.body*1.05)
	p.write(p.strong(), p.left+sign, p.y, start, "Cautions")
	p.y = p.lines(p.body(), p.left+indent, p.y, p.d.lead, lines)
}

// signature leaves a place for notes, date and name at the foot of the last page.
func (p *printer) signature() {
	const least, line = 44.0, 17.0 // at least a line to write on
	// A page of its own for nothing but notes is paper wasted: then the signature alone.
	if room := p.bottom - p.y; room >= least+2*p.d.lead || room < 2*p.d.lead {
		p.heading("Notes", "", least)
	}
	foot := p.bottom - 4
	if foot-p.y > 150 {
		foot = p.y + 150
	}
	for y := p.y + line; y < foot-line*1.4; y += line {
		p.rule(p.left, p.right, y, 0.4, leader)
	}
	third := p.width() / 3
	for i, word := range []string{"set on (date)", "by (name)", "signature"} {
		x := p.left + third*float64(i)
		p.rule(x, x+third-14, foot-p.d.lead, 0.8, ink)
		p.write(p.quiet(), x, foot-p.d.lead+1, start, word)
	}
	p.y = foot
}

// joined puts a separator between those texts that are not empty.
func joined(sep string, parts ...string) string {
	var some []string
	for _, s := range parts {
		if s != "" {
			some = append(some, s)
		}
	}
	return strings.Join(some, sep)
}

func prefixed(prefix, s string) string {
	if s == "" {
		return ""
	}
	return prefix + s
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
