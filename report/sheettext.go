package report

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/working"
)

// The sheet for a terminal. What stops the work comes first, then what to enter.

// SheetText writes the sheet as plain text, wrapped to width columns (60 to 160;
// 100 is comfortable). Nothing depends on colour or on a control sequence.
//
// Errors: a failure of w.
func SheetText(w io.Writer, sheet *settings.Sheet, width int) error {
	return SheetTextIn(w, sheet, width, unchanged)
}

func unchanged(text string) string { return text }

// SheetTextIn is the same in another language: say puts a text of the sheet into it.
//
// Errors: a failure of w.
func SheetTextIn(w io.Writer, sheet *settings.Sheet, width int, say func(string) string) error {
	t := &typist{width: min(max(width, 60), 160), say: say}
	s := sheet.System
	t.para("", 0, strings.ToUpper(sheet.Job))
	t.para("", 0, joined(" · ", sheet.Place, prefixed(say("surveyed")+" ", sheet.Surveyed), prefixed(say("by")+" ", sheet.By)))
	t.para("", 0, say("Design outdoor "+sheet.Design.Text(s))+" · "+say("heat loss then "+sheet.Load.Total.Text(s))+" ("+joined(", ", say(sheet.Load.Source), say(sheet.Load.Estimate))+")")
	if sheet.Load.Billed > 0 {
		t.para("", 0, "Fuel bills suggest "+sheet.Load.Billed.Text(s)+".")
	}
	t.findings(sheet)
	t.settings(sheet)
	for i := range sheet.Circuits {
		if hasCurve(sheet, i) {
			t.curve(sheet, &sheet.Circuits[i])
		}
	}
	t.rooms(sheet)
	if len(sheet.Surer) > 0 {
		t.heading("To be surer, measure")
		for _, m := range sheet.Surer {
			t.para(pad(percent(m.Share), 5, true)+"  ", 7, joined(": ", say(m.What), say(m.How)))
		}
	}
	t.boilerRoom(sheet)
	if len(sheet.Cautions) > 0 {
		t.heading("Cautions")
		for _, c := range sheet.Cautions {
			t.para("! ", 2, c)
		}
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// WhyText writes how one line of the sheet came about: every step with its formula,
// the figures put in, where they come from, and the range in which the formula holds.
//
// Errors: a failure of w.
func WhyText(w io.Writer, line settings.Line, system units.System) error {
	return WhyTextIn(w, line, system, unchanged)
}

// WhyTextIn is the same in another language: say puts a text of the sheet into it.
//
// Errors: a failure of w.
func WhyTextIn(w io.Writer, line settings.Line, system units.System, say func(string) string) error {
	t := &typist{width: 90, say: say}
	t.para("", 0, say(line.Label)+": "+say(line.Value)+prefixed(" = ", say(line.Also)))
	for _, part := range []struct{ name, text string }{
		{"allowed", line.Allowed}, {"likely", t.band(line.Band)}, {"why", line.Why}, {"too high", line.TooHigh}, {"too low", line.TooLow},
		{"otherwise", line.Instead}, {"CAUTION", line.Caution},
	} {
		if part.text != "" {
			t.para("  "+pad(say(part.name), 11, false), 13, part.text)
		}
	}
	for i, step := range line.Working {
		t.blank()
		t.step(i+1, step, system)
	}
	if len(line.Working) == 0 {
		t.blank()
		t.para("", 0, "No calculation stands behind this line.")
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

func (t *typist) step(n int, step working.Step, s units.System) {
	t.para(fmt.Sprintf("%d. ", n), 3, step.Name)
	if step.Formula != "" {
		t.para("     ", 5, step.Formula)
	}
	symbols, values := 0, 0
	figure := func(in working.Input) string { return t.say(valueText(in, s)) }
	all := append(append([]working.Input{}, step.Inputs...), step.Result)
	for _, in := range all {
		symbols, values = max(symbols, columnsOf(in.Symbol)), max(values, columnsOf(figure(in)))
	}
	for i, in := range all {
		mark := "     "
		if i == len(all)-1 {
			mark = "   → "
		}
		known := in.Known
		if known != "" {
			known = "(" + t.say(known) + ")"
		}
		t.para(mark+pad(in.Symbol, symbols, false)+" = "+pad(figure(in), values, true)+"  ", 10+symbols+values, joined(" ", t.say(in.Meaning), known))
	}
	for _, part := range []struct{ name, text string }{{"range", step.Range}, {"source", step.Source}, {"note", step.Note}} {
		if part.text != "" {
			t.para("     "+pad(t.say(part.name), 8, false), 13, part.text)
		}
	}
}

func valueText(in working.Input, s units.System) string {
	if in.Value == nil {
		return "–"
	}
	return in.Value.Text(s)
}

// typist writes wrapped paragraphs.
type typist struct {
	b     strings.Builder
	width int
	say   func(string) string // puts a text into the reader's language
}

// band is how sure a value is.
func (t *typist) band(b settings.Band) string {
	if !b.Known {
		return ""
	}
	return joined(", ", t.say(span(b.Low, b.High)), t.say(b.Words))
}

func (t *typist) blank() { t.b.WriteByte('\n') }

func (t *typist) heading(title string) {
	title = t.say(title)
	t.blank()
	rest := max(t.width-columnsOf(title)-1, 0)
	t.raw(title + " " + strings.Repeat("─", rest))
}

func (t *typist) raw(line string) { t.b.WriteString(strings.TrimRight(line, " ") + "\n") }

// para writes text after lead; further lines are indented.
func (t *typist) para(lead string, indent int, text string) {
	for i, l := range fold(t.say(text), t.width-max(indent, columnsOf(lead))) {
		if i > 0 {
			lead = strings.Repeat(" ", indent)
		}
		t.raw(lead + l)
	}
}

func (t *typist) findings(sheet *settings.Sheet) {
	if len(sheet.Findings) == 0 {
		return
	}
	t.heading("Findings")
	for _, f := range worstFirst(sheet.Findings) {
		word := t.say(f.Severity)
		if f.Severity != "note" {
			word = strings.ToUpper(word)
		}
		t.para(pad(word, max(7, columnsOf(word)+1), false), 7, joined(": ", joined(", ", f.Circuit, f.Room), t.say(f.Text)))
		for _, c := range f.Cures {
			t.para("       → ", 9, c)
		}
	}
}

func (t *typist) settings(sheet *settings.Sheet) { t.sections(partOf(sheet, "")) }

func (t *typist) sections(sections []settings.Section) {
	label, value := 0, 0
	for _, sec := range sections {
		for _, l := range sec.Lines {
			label, value = max(label, columnsOf(t.say(l.Label))), max(value, columnsOf(t.say(l.Value)))
		}
	}
	label, value = min(label, t.width*2/5), min(value, t.width/4)
	for _, sec := range sections {
		t.heading(sec.Title)
		for _, l := range sec.Lines {
			t.parts(pad(t.say(l.Label), label, false)+"  "+pad(t.say(l.Value), value, false)+"  ", label+value+4,
				prefixed("= ", t.say(l.Also)), prefixed(t.say("likely")+" ", t.band(l.Band)), prefixed(t.say("allowed")+" ", t.say(rangeWords(l.Allowed))))
			t.para("    ", 4, l.Why)
			if l.Instead != "" {
				t.para("    "+t.say("Otherwise")+": ", 4, l.Instead)
			}
			if l.Caution != "" {
				t.para("  ! "+t.say("CAUTION")+": ", 4, l.Caution)
			}
		}
	}
}

// boilerRoom is what belongs beside the control: its sections, the boiler's season and
// the tables of the sensors.
func (t *typist) boilerRoom(sheet *settings.Sheet) {
	if sections := partOf(sheet, settings.BoilerRoom); len(sections) > 0 {
		t.blank()
		t.raw("BOILER ROOM " + strings.Repeat("═", t.width-12))
		t.sections(sections)
	}
	if sheet.Boiler.Known {
		t.heading("The boiler over a season")
		t.para("", 0, seasonWords(sheet))
	}
	for _, table := range sheet.Sensors {
		t.heading("Sensor: " + joined(", ", table.Name, table.Kind))
		for _, r := range table.Rows {
			t.raw(pad(whole(sheet.System, r.At), 8, true) + pad(r.Resistance.Text(sheet.System), 14, true) + "   " + span(r.Low.Text(sheet.System), r.High.Text(sheet.System)))
		}
	}
}

// parts writes what stands beside a value or a room: as many parts on a line as it
// holds, and a new line rather than one that breaks a part; a part longer than a line
// is broken where it must be.
func (t *typist) parts(lead string, indent int, parts ...string) {
	width := t.width - max(indent, columnsOf(lead))
	line := ""
	for _, part := range parts {
		both := joined(" · ", line, part)
		if line != "" && part != "" && columnsOf(both) > width && columnsOf(part) <= width {
			t.para(lead, indent, line)
			lead, both = strings.Repeat(" ", indent), part
		}
		line = both
	}
	if line == "" {
		line = " " // what leads stands alone
	}
	t.para(lead, indent, line)
}

// curve draws a circuit with one row for each outdoor temperature: figures at the
// left, their places on the scale at the right.
func (t *typist) curve(sheet *settings.Sheet, ct *settings.Circuit) {
	s := sheet.System
	t.heading("Curve: " + ct.Name)
	points := thinned(drawable(ct), 10)
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low = min(low, degrees(s, p.Return), degrees(s, p.Set), degrees(s, p.Ideal))
		high = max(high, degrees(s, p.Return), degrees(s, p.Set), degrees(s, p.Ideal))
	}
	limit := math.Inf(1)
	if isTemperature(ct.Limit) {
		limit = degrees(s, ct.Limit)
		if limit <= high+(high-low)*0.6 {
			high = max(high, limit)
		}
	}
	const figures = 34
	field := t.width - figures - 2
	column := func(v float64) int {
		return min(max(int(math.Round((v-low)/max(high-low, 1)*float64(field-1))), 0), field-1)
	}
	scale := plain(low) + " " + degree(s)
	top := plain(high) + " " + degree(s)
	t.raw("outdoors    need  supply  return   " + scale + strings.Repeat(" ", max(1, field-columnsOf(scale)-columnsOf(top))) + top)
	for _, p := range points {
		cells := []rune(strings.Repeat("·", field))
		if limit <= high {
			cells[column(limit)] = '|'
		}
		cells[column(degrees(s, p.Return))] = 'r'
		cells[column(degrees(s, p.Ideal))] = 'o'
		cells[column(degrees(s, p.Set))] = 'S'
		t.raw(pad(whole(s, p.Outdoor), 8, true) + pad(plain(degrees(s, p.Ideal)), 8, true) + pad(plain(degrees(s, p.Set)), 8, true) +
			pad(plain(degrees(s, p.Return)), 8, true) + "   " + string(cells))
	}
	key := "S set supply, o need of the leading room, r return"
	if limit <= high {
		key += ", | limit"
	}
	key += "; in " + degree(s) + "."
	if isTemperature(ct.Limit) {
		key += " Limit " + whole(s, ct.Limit) + because(ct.LimitedBy) + "."
	}
	t.para("", 0, joined(" ", key, ct.Lost))
}

// thinned keeps about n of the points, evenly, the first and the last among them.
func thinned(points []settings.Point, n int) []settings.Point {
	stride := max(1, (len(points)+n-1)/n)
	var some []settings.Point
	for i, p := range points {
		if i%stride == 0 || i == len(points)-1 {
			some = append(some, p)
		}
	}
	return some
}

func (t *typist) rooms(sheet *settings.Sheet) {
	name, circuit := 0, 0
	for _, ct := range sheet.Circuits {
		for _, r := range ct.Rooms {
			name, circuit = max(name, columnsOf(r.Name)), max(circuit, columnsOf(ct.Name))
		}
	}
	if name == 0 {
		return
	}
	name, circuit = min(name, t.width/3), min(circuit, t.width/4)
	t.heading("Supply that each room needs on the coldest day")
	for _, ct := range sheet.Circuits {
		for _, r := range ct.Rooms {
			lead := pad(r.Name, name, false) + "  " + pad(ct.Name, circuit, false) + "  " + pad(whole(sheet.System, r.Need), 7, true) + "  "
			t.parts(lead, columnsOf(lead), r.Condition, r.Emitters)
		}
	}
}

// fold breaks text into lines of at most width columns, at spaces.
func fold(text string, width int) []string {
	width = max(width, 12)
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(unbroken.Replace(plainText(text)), func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		word = strings.ReplaceAll(word, "\x01", "\u00a0")
		if line != "" && columnsOf(line)+1+columnsOf(word) > width {
			lines = append(lines, line)
			line = word
			continue
		}
		line = joined(" ", line, word)
	}
	if line != "" || text != "" && len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// plainText composes accents and drops control characters, which a terminal would
// obey.
func plainText(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(s, "?")))
}

// columnsOf counts the columns that a text takes: marks none, square scripts two.
func columnsOf(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Mn, r):
		case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul):
			n += 2
		default:
			n++
		}
	}
	return n
}

// pad fills a text to n columns, on the left for figures.
func pad(s string, n int, right bool) string {
	s = plainText(s)
	fill := strings.Repeat(" ", max(0, n-columnsOf(s)))
	if right {
		return fill + s
	}
	return s + fill
}
