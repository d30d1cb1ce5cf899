package report

import (
	"fmt"
	"math"
	"strings"

	"curvewright/settings"
	"curvewright/units"
)

// The page about the boiler room follows the settings: the drawing on the design day,
// what belongs beside the control, what the boiler does over a season, and the tables
// of the sensors.

// partOf gives the sections of one part of the sheet.
func partOf(sheet *settings.Sheet, part string) []settings.Section {
	var some []settings.Section
	for _, sec := range sheet.Sections {
		if sec.Part == part {
			some = append(some, sec)
		}
	}
	return some
}

// hasBoilerRoom says whether there is anything to print about the boiler room.
func hasBoilerRoom(sheet *settings.Sheet) bool {
	_, drawn := sceneOf(sheet, 0)
	return drawn || len(partOf(sheet, settings.BoilerRoom)) > 0
}

// boilerRoom begins with a page of its own.
func (p *printer) boilerRoom() {
	p.d = densities[2]
	p.page()
	p.drawing()
	if sections := partOf(p.sheet, settings.BoilerRoom); len(sections) > 0 {
		p.heading("In the boiler room", "", p.d.lead*6)
		p.table(sections, "what", "set or check")
	}
	p.season()
	p.sensors()
}

func (p *printer) drawing() {
	s, ok := sceneOf(p.sheet, 0)
	if !ok {
		return
	}
	p.heading("Boiler room", "as surveyed, on the design day", 0)
	k := newSketch(&pressCanvas{press: p.press, origin: xy{p.left, p.y}, size: 8})
	k.exact = true
	l := layOut(s, k, p.width()/k.u)
	drawBoilerRoom(k, s, l)
	p.y += l.height * k.u
}

// season says what the boiler does from autumn to spring.
func (p *printer) season() {
	b := p.sheet.Boiler
	if !b.Known || len(b.Points) == 0 {
		return
	}
	words := seasonWords(p.sheet)
	points := fewerPoints(b.Points, 8)
	p.heading("The boiler over a season", "runs and rests in steady weather, with all valves open", p.d.lead*float64(len(points)+3))
	p.y = p.lines(p.body(), p.left, p.y, p.d.lead, p.wrap(p.body(), words, p.width()))
	p.y += p.d.pad * 0.5
	columns := []string{"outdoors", "supply", "return", "heat", "efficiency", "burner runs", "and rests"}
	each := p.width() / float64(len(columns))
	row := func(st style, cells []string) {
		for i, c := range cells {
			p.write(st, p.left+each*(float64(i)+0.7), p.y, end, c)
		}
		p.y += p.d.lead
	}
	row(p.quiet(), columns)
	for _, c := range points {
		p.need(p.d.lead + 1)
		p.rule(p.left, p.right, p.y, 0.4, grid)
		p.y++
		run, rest := "through", "–"
		switch {
		case !b.Cycles:
			run = "–"
		case c.Run > 0:
			run, rest = minutesText(c.Run), minutesText(c.Rest)
		}
		s := p.sheet.System
		row(p.body(), []string{whole(s, c.Outdoor), whole(s, c.Supply), whole(s, c.Return), c.Load.Text(s), percent(c.Efficiency), run, rest})
	}
}

// seasonWords are the season's figures in sentences.
func seasonWords(sheet *settings.Sheet) string {
	b, s := sheet.Boiler, sheet.System
	said := []string{"Efficiency of the season " + percent(b.Efficiency) + " against gross heat."}
	if sheet.CondensesBelow > 0 {
		said = append(said, percent(b.Condensing)+" of the heat is made condensing, with a return below "+whole(s, b.DewPoint)+".")
	}
	if b.Cycles {
		said = append(said, fmt.Sprintf("About %s starts for heating, at worst %.1f an hour at %s outdoors%s.", b.StartsText(s), float64(b.Worst), whole(s, b.WorstAt), prefixed("; ", b.Modulation)))
		if b.WaterStarts > 0 {
			said = append(said, "About "+b.WaterStartsText(s)+" more for hot water in the year.")
		}
		if b.Buffer > 0 {
			said = append(said, "For the shortest run wanted it lacks "+b.BufferText(s)+" of water in steady weather with all valves open.")
		}
	}
	return strings.Join(said, " ")
}

func minutesText(t units.Time) string {
	m := float64(t) / 60
	switch {
	case math.IsNaN(m) || math.IsInf(m, 0):
		return "–"
	case m < 10:
		return fmt.Sprintf("%.1f\u00a0min", m)
	case m >= 180:
		return fmt.Sprintf("%.0f\u00a0h", m/60)
	}
	return fmt.Sprintf("%.0f\u00a0min", m)
}

// fewerPoints thins a list, keeping its ends.
func fewerPoints(points []settings.BoilerPoint, n int) []settings.BoilerPoint {
	stride := max(1, (len(points)+n-2)/n)
	var some []settings.BoilerPoint
	for i, c := range points {
		if i%stride == 0 || i == len(points)-1 {
			some = append(some, c)
		}
	}
	return some
}

// sensors prints the sensors' tables side by side.
func (p *printer) sensors() {
	const across, gap = 3, 14.0
	width := (p.width() - gap*(across-1)) / across
	tables := p.sheet.Sensors
	for len(tables) > 0 {
		n := min(across, len(tables))
		rows := 0
		for _, t := range tables[:n] {
			rows = max(rows, len(t.Rows))
		}
		height := p.d.lead*float64(rows+3) + float64(rows)
		p.heading("Sensors", "resistance at the terminals, unplugged; a sound sensor lies within the range", min(height, p.bottom-margin-40))
		top := p.y
		for i, t := range tables[:n] {
			p.y = top
			p.sensor(t, p.left+(width+gap)*float64(i), width)
		}
		p.y = top + height
		tables = tables[n:]
	}
}

func (p *printer) sensor(t settings.SensorTable, x, width float64) {
	lead := p.d.lead
	p.write(p.strong(), x, p.y, start, p.cut(p.strong(), t.Name, width))
	p.write(p.quiet(), x, p.y+lead, start, p.cut(p.quiet(), t.Kind, width))
	p.y += lead * 2
	for _, r := range t.Rows {
		if p.y+lead > p.bottom {
			return // a table longer than a page
		}
		p.rule(x, x+width, p.y, 0.4, grid)
		p.y++
		p.write(p.strong(), x+width*0.18, p.y, end, whole(p.sheet.System, r.At))
		p.write(p.body(), x+width*0.5, p.y, end, r.Resistance.Text(p.sheet.System))
		p.write(p.quiet(), x+width, p.y, end, span(r.Low.Text(p.sheet.System), r.High.Text(p.sheet.System)))
		p.y += lead
	}
}
