package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/settings"
	"curvewright/units"
)

// The chart of one circuit: what the house needs, what is set, what comes back, and
// what stands in the way, against the outdoor temperature.

// CurveSVG draws one circuit's heating curve as an SVG image of the given size in
// CSS pixels. It is meant to be drawn at the size at which it is shown, so that its
// letters keep theirs: about 360 by 300 on a phone, 760 by 420 beside text. Below 480
// wide it leaves out what dashes, shade and bars mean: that belongs into a caption.
// A circuit that is not there, or that has no points, gives an image that says so.
func CurveSVG(sheet *settings.Sheet, circuit int, width, height float64) string {
	width, height = usable(width, height)
	id := fmt.Sprintf("curve-%d-%s", circuit, num(width))
	if !hasCurve(sheet, circuit) {
		return emptySVG(id, "No curve for this circuit", width, height)
	}
	ct := &sheet.Circuits[circuit]
	c := newSVG(id, "Heating curve of "+ct.Name, curveWords(sheet, ct), width, height)
	drawCurve(c, sheet, ct, width, height, width >= explainedFrom)
	return c.finish()
}

// explainedFrom is the width that leaves space for a key between the lines.
const explainedFrom = 480

// usable keeps a size within what can be drawn at all.
func usable(width, height float64) (float64, float64) {
	clamp := func(v, low, high float64) float64 {
		if !(v >= low) {
			return low
		}
		return min(v, high)
	}
	return clamp(width, 240, 4000), clamp(height, 180, 4000)
}

func emptySVG(id, words string, width, height float64) string {
	c := newSVG(id, words, words, width, height)
	c.text(faint, xy{width / 2, height / 2}, middle, false, words)
	return c.finish()
}

// hasCurve says whether there is a circuit with a line to draw.
func hasCurve(sheet *settings.Sheet, circuit int) bool {
	return sheet != nil && circuit >= 0 && circuit < len(sheet.Circuits) && len(drawable(&sheet.Circuits[circuit])) >= 2
}

// drawable leaves out points with a value that is no temperature.
func drawable(ct *settings.Circuit) []settings.Point {
	var ok []settings.Point
	for _, p := range ct.Points {
		if isTemperature(p.Outdoor) && isTemperature(p.Set) && isTemperature(p.Return) && isTemperature(p.Ideal) {
			if n := len(ok); n == 0 || p.Outdoor > ok[n-1].Outdoor {
				ok = append(ok, p)
			}
		}
	}
	return ok
}

func isTemperature(t units.Temperature) bool { return t > 0 && t < 2000 }

// curveWords says in a sentence what the chart shows, for a reader who cannot see it.
func curveWords(sheet *settings.Sheet, ct *settings.Circuit) string {
	p := drawable(ct)
	s, cold, mild := sheet.System, p[0], p[len(p)-1]
	words := fmt.Sprintf("At %s outdoors the supply is set to %s and comes back at %s; the governing room needs %s. At %s outdoors it is set to %s and comes back at %s.",
		whole(s, cold.Outdoor), whole(s, cold.Set), whole(s, cold.Return), whole(s, cold.Ideal),
		whole(s, mild.Outdoor), whole(s, mild.Set), whole(s, mild.Return))
	if isTemperature(ct.Limit) {
		words += fmt.Sprintf(" The supply may not exceed %s%s.", whole(s, ct.Limit), because(ct.LimitedBy))
	}
	if ct.Withheld {
		words = "Not to be set: no mixing valve stands in front of this circuit yet. " + words
	}
	return words
}

func because(reason string) string {
	if reason == "" {
		return ""
	}
	return " (" + reason + ")"
}

// drawCurve draws the chart; explained puts into it what a key beside it would say
// otherwise.
func drawCurve(c canvas, sheet *settings.Sheet, ct *settings.Circuit, width, height float64, explained bool) {
	s, size := sheet.System, c.textSize()
	points := drawable(ct)
	f := newFrame(width, height, size, size*1.2)
	curveRange(&f, s, ct, points)

	value := func(read func(settings.Point) units.Temperature) []xy {
		line := make([]xy, len(points))
		for i, p := range points {
			line[i] = f.at(degrees(s, p.Outdoor), degrees(s, read(p)))
		}
		return line
	}
	set := value(func(p settings.Point) units.Temperature { return p.Set })
	back := value(func(p settings.Point) units.Temperature { return p.Return })
	need := value(func(p settings.Point) units.Temperature { return p.Ideal })

	spread := bandOutline(f, s, ct)
	c.area(band, spread)
	most, mostAt := hourBars(c, f, s, points)
	f.axes(c, s, "water")

	labels := &placer{c: c, bounds: f}
	labels.avoid(set)
	labels.avoid(back)
	labels.avoid(need)
	drawLimit(c, labels, f, s, ct)
	drawCondensing(c, labels, f, s, sheet, points)

	c.line(ideal, need)
	c.line(returning, back)
	c.line(supply, set)

	// The figures at both ends come first: they are what a person looks up.
	last := len(points) - 1
	ends := func(r role, line []xy, read func(settings.Point) units.Temperature, offsets []float64) {
		for _, i := range []int{0, last} {
			c.mark(r, disc, line[i], size*0.27)
			x, a := line[i].x+size*0.3, start
			if i == last {
				x, a = line[i].x, end
			}
			var spots []spot
			for _, dy := range offsets {
				spots = append(spots, spot{xy{x, line[i].y + size*dy}, a})
			}
			labels.put(r, true, whole(s, read(points[i])), false, spots)
		}
	}
	above, below := []float64{-0.55, -0.9, -1.3, -1.8, -2.3, -2.8, 1.3, 1.8}, []float64{1.25, 1.6, 2, 2.4, 2.8, -0.55, -1.3}
	ends(supply, set, func(p settings.Point) units.Temperature { return p.Set }, above)
	ends(returning, back, func(p settings.Point) units.Temperature { return p.Return }, below)

	name := "set supply"
	if ct.Withheld {
		name = "not to be set"
		c.text(supply, xy{(f.left + f.right) / 2, f.top + size*1.3}, middle, true, "Not to be set: no mixing valve yet")
	}
	labels.put(supply, true, name, false, append(along(set, size, true), along(set, size, false)...))
	labels.put(returning, true, "return", false, append(along(back, size, false), along(back, size, true)...))
	if !explained {
		return
	}
	if t, ok := farthest(need, set); ok {
		spots := append(along(need, size, need[t].y < set[t].y), along(need, size, need[t].y >= set[t].y)...)
		labels.put(ideal, false, "dashed: need of the leading room", true, spots)
	}
	if len(spread) > 0 {
		lower := spread[len(spread)/2:]
		slices.Reverse(lower)
		labels.put(faint, false, "shaded: need in 9 cases of 10", true, append(along(lower, size, false), corner(f, size)...))
	}
	if most > 0 {
		text := fmt.Sprintf("bars: hours of the year, most %s", plain(most))
		y := f.bottom - (f.bottom-f.top)*barShare - size*0.4
		labels.put(faint, false, text, true, []spot{{xy{mostAt, y}, middle}, {xy{f.left + size*0.4, y}, start}, {xy{f.right, y}, end},
			{xy{f.left + size*0.4, f.bottom - size*0.5}, start}})
	}
}

// barShare is the part of the field's height that the bars of hours may take.
const barShare = 0.13

// curveRange sets the scales: from the coldest to the mildest point, and from below
// the return, with space for the bars, to above the supply or its limit.
func curveRange(f *frame, s units.System, ct *settings.Circuit, points []settings.Point) {
	low, high := math.Inf(1), math.Inf(-1)
	take := func(t units.Temperature) {
		if isTemperature(t) {
			low, high = min(low, degrees(s, t)), max(high, degrees(s, t))
		}
	}
	for _, p := range points {
		take(p.Set)
		take(p.Return)
		take(p.Ideal)
	}
	for _, b := range ct.Band {
		take(b.Low)
		take(b.High)
	}
	span := max(high-low, 5)
	if l := degrees(s, ct.Limit); isTemperature(ct.Limit) && l > high && l <= high+span*0.5 {
		high = l
	}
	f.yLow, f.yHigh = low-span*0.24, high+span*0.12
	f.xLow, f.xHigh = degrees(s, points[0].Outdoor), degrees(s, points[len(points)-1].Outdoor)
}

// bandOutline goes out along the upper edge of the spread and back along the lower.
func bandOutline(f frame, s units.System, ct *settings.Circuit) []xy {
	var high, low []xy
	for _, b := range ct.Band {
		x := degrees(s, b.Outdoor)
		if !isTemperature(b.Low) || !isTemperature(b.High) || x < f.xLow-1e-9 || x > f.xHigh+1e-9 {
			continue
		}
		high = append(high, f.at(x, degrees(s, b.High)))
		low = append(low, f.at(x, degrees(s, b.Low)))
	}
	if len(high) < 2 {
		return nil
	}
	for i := len(low) - 1; i >= 0; i-- {
		high = append(high, low[i])
	}
	return high
}

// hourBars draws how much of the year lies near each outdoor temperature, and gives
// the most of them and where they stand.
func hourBars(c canvas, f frame, s units.System, points []settings.Point) (most, at float64) {
	for _, p := range points {
		most = max(most, float64(p.Hours)/3600)
	}
	if !(most > 0) || math.IsInf(most, 0) {
		return 0, 0
	}
	full := (f.bottom - f.top) * barShare
	for i, p := range points {
		h := float64(p.Hours) / 3600
		if !(h > 0) {
			continue
		}
		x := f.x(degrees(s, p.Outdoor))
		left, right := x, x
		if i > 0 {
			left = (x + f.x(degrees(s, points[i-1].Outdoor))) / 2
		}
		if i < len(points)-1 {
			right = (x + f.x(degrees(s, points[i+1].Outdoor))) / 2
		}
		gap := min(1, (right-left)*0.15)
		top := f.bottom - full*h/most
		c.area(hours, []xy{{left + gap, top}, {right - gap, top}, {right - gap, f.bottom}, {left + gap, f.bottom}})
		if h == most {
			at = x
		}
	}
	return most, at
}

func drawLimit(c canvas, labels *placer, f frame, s units.System, ct *settings.Circuit) {
	if !isTemperature(ct.Limit) {
		return
	}
	size := c.textSize()
	words := "limit " + whole(s, ct.Limit)
	full := words
	if ct.LimitedBy != "" {
		full += ": " + ct.LimitedBy
	}
	full = fitting(c, full, words, (f.right-f.left)*0.8)
	l := degrees(s, ct.Limit)
	if l > f.yHigh {
		labels.put(limit, false, "↑ "+full, false, corner(f, size))
		return
	}
	y := f.y(l)
	line := []xy{{f.left, y}, {f.right, y}}
	c.line(limit, line)
	// Short strokes upwards: what lies beyond the line is closed.
	for x := f.left + size*0.5; x < f.right; x += size * 2 {
		c.line(leader, []xy{{x, y}, {x + size*0.4, y - size*0.4}})
	}
	labels.avoid(line)
	labels.put(limit, false, full, false, []spot{{xy{f.right, y - size*0.5}, end}, {xy{f.right, y + size*1.1}, end}})
}

func drawCondensing(c canvas, labels *placer, f frame, s units.System, sheet *settings.Sheet, points []settings.Point) {
	dewPoint := sheet.CondensesBelow
	if dewPoint == 0 {
		return
	}
	size, d := c.textSize(), degrees(s, dewPoint)
	if d >= f.yHigh || points[0].Return < dewPoint && d > degrees(s, points[0].Set) {
		text := fitting(c, "return always below "+whole(s, dewPoint)+": condenses", "always condenses", (f.right-f.left)*0.8)
		labels.put(condensing, false, text, true, corner(f, size))
		return
	}
	if d <= f.yLow {
		return
	}
	y := f.y(d)
	line := []xy{{f.left, y}, {f.right, y}}
	c.line(condensing, line)
	labels.avoid(line)
	text := fitting(c, "return below "+whole(s, dewPoint)+": boiler condenses", "below "+whole(s, dewPoint)+": condenses", (f.right-f.left)*0.5)
	labels.put(condensing, false, text, true, []spot{{xy{f.right, y + size*1.1}, end}, {xy{f.right, y - size*0.4}, end}})
}

// corner is the upper right corner of the field, which a falling line leaves free.
func corner(f frame, size float64) []spot {
	var spots []spot
	for row := 0.0; row < 5; row++ {
		spots = append(spots, spot{xy{f.right - size*0.2, f.top + size*(1.1+1.35*row)}, end})
	}
	return spots
}

// fitting chooses the long text where it fits into width.
func fitting(c canvas, long, short string, width float64) string {
	if c.textWidth(false, long) <= width {
		return long
	}
	return short
}

// farthest is where two lines lie most apart.
func farthest(a, b []xy) (int, bool) {
	best, at := 0.0, 0
	for i := range a {
		if d := abs(a[i].y - b[i].y); d > best {
			best, at = d, i
		}
	}
	return at, len(a) > 1
}

// shorten cuts a name to a width, with dots for what is missing.
func shorten(c canvas, name string, bold bool, width float64) string {
	if c.textWidth(bold, name) <= width {
		return name
	}
	r := []rune(name)
	for len(r) > 1 && c.textWidth(bold, string(r)+"…") > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}
