package report

import (
	"fmt"
	"math"
	"strings"

	"curvewright/settings"
)

// Where does everything in the drawing of the boiler room go? On a wide canvas the
// boiler stands at the left and the circuits lie at its right, one below the other; on
// a narrow one they lie beneath it. All lengths are in heights of a letter.

// narrowest is the least width of the drawing, in heights of a letter.
const narrowest = 28.3

// BoilerRoomSVG draws the boiler room as surveyed, with its flows and temperatures at
// one outdoor temperature, given by its place in [BoilerRoomOutdoors], as an SVG image
// in CSS pixels. It is meant to be drawn at the width at which it is shown: 340 is the
// least, from about 570 the circuits stand beside the boiler. It is as high as it must
// be, and no lower than height. A sheet without circuits gives an image that says so.
func BoilerRoomSVG(sheet *settings.Sheet, outdoor int, width, height float64) string {
	width, height = usable(width, height)
	width = max(width, narrowest*svgFont)
	s, ok := sceneOf(sheet, outdoor)
	if !ok {
		return emptySVG("boiler-room-"+num(width), "No boiler room to draw", width, height)
	}
	l := layOut(s, newSketch(&svgCanvas{size: svgFont}), width/svgFont)
	id := fmt.Sprintf("boiler-room-%d-%s", max(outdoor, 0), num(width))
	c := newSVG(id, "Boiler room at "+whole(s.system, s.flow.Outdoor)+" outdoors", s.words(), width, max(height, l.height*svgFont))
	drawBoilerRoom(newSketch(c), s, l)
	return c.finish()
}

// Heights and places that both layouts share, from the left end of the boiler.
const (
	boilerLeft, boilerRight = 0.4, 6.8
	boilerTop, boilerBottom = 5.6, 13.8
	supplyAt, returnAt      = 7.2, 12.2 // of the boiler's pipes
	pipeGap                 = returnAt - supplyAt
	pumpAt                  = 9.6        // of the boiler's pump, where all its water passes
	toTank, fromTank        = 11.9, 13.7 // pipes of the tank's coil
	heatingPumpAt           = 15.7       // of the boiler's pump, where the tank has its own
	tankTop, tankBottom     = 17.8, 26.2
	tankLeft, tankRight     = 5.4, 10.4
	separatorLeft           = 18.2
	separatorRight          = 20.8
	separatorMiddle         = (separatorLeft + separatorRight) / 2
	behind                  = 24.6 // where the risers to the circuits may begin
	betweenRisers           = 2.0
	rowHeight               = pipeGap + 3.2 // from one circuit to the next
	emitterWidth            = 3.4
	lineHeight              = 1.3
)

// layout is what depends on the width and on the plant.
type layout struct {
	width, height float64
	left          float64 // of everything, where the canvas is wider than the drawing
	supplyRiser   float64
	returnRiser   float64
	far           float64 // where the circuits end
	way           xy      // in which the circuits lead away from the risers
	rows          []float64
	legend        []string
	legendTop     float64
	separator     []string // what stands under it
}

func layOut(s scene, k *sketch, width float64) layout {
	const widest, wide = 66.0, 47.0
	l := layout{width: width}
	n := len(s.plant.Circuits)
	l.separator = k.fold(s.separatorWords(), 8.6)
	under := boilerBottom + 1.8
	if s.plant.HotWater == "combi" {
		under = boilerBottom + 4.4
	}
	under = max(under, returnAt+3.8) // the expansion vessel
	if len(l.separator) > 0 {
		under = max(under, returnAt+2.9+lineHeight*float64(len(l.separator)-1))
	}
	if s.hasTank() {
		under = max(under, tankBottom+0.4)
	}
	first := supplyAt
	if width >= wide {
		l.left = max(0, width-widest) / 2
		l.returnRiser, l.supplyRiser, l.way = behind, behind+betweenRisers, rightward
		l.far = min(width, widest) - 0.4
	} else {
		first = under + 3
		l.returnRiser, l.supplyRiser, l.way = width-1.7, width-1.7-betweenRisers, leftward
		l.far = 0.4
	}
	for i := range n {
		l.rows = append(l.rows, first+rowHeight*float64(i))
	}
	l.legend = k.fold(s.legend(), width-0.8)
	l.legendTop = max(under, l.rows[n-1]+pipeGap+0.9) + 0.6
	l.height = l.legendTop + lineHeight*float64(len(l.legend)) + 0.5
	return l
}

// fold breaks a text into lines of at most width.
func (k *sketch) fold(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(text, " ") {
		if both := joined(" ", line, word); line != "" && k.width(false, both) > width {
			lines = append(lines, line)
			line = word
		} else {
			line = both
		}
	}
	if line == "" {
		return lines
	}
	return append(lines, line)
}

func drawBoilerRoom(k *sketch, s scene, l layout) {
	if l.left > 0 {
		k = &sketch{c: shifted{k.c, l.left * k.u}, u: k.u, exact: k.exact}
		l.width -= 2 * l.left
	}
	// Pipes first, then what stands on them, then what is written.
	k.mains(s, l)
	k.boiler(s)
	if s.separated() {
		k.separator(s, l)
	}
	if s.hasTank() {
		k.tank(s)
	}
	for i := range s.plant.Circuits {
		k.circuit(s, l, i)
	}
	k.heading(s, l)
	for i, line := range l.legend {
		k.text(faint, xy{boilerLeft, l.legendTop + lineHeight*float64(i+1)}, start, false, line)
	}
}

// heading says for which weather the figures are, beside the outdoor sensor.
func (k *sketch) heading(s scene, l layout) {
	x := boilerLeft
	if s.plant.OutdoorSensor != "no" {
		at := xy{1.4, 1.5}
		k.c.dashed(axis, k.scaled([]xy{{at.x, at.y + sensorRadius}, {at.x, boilerTop}}), []float64{1.5, 3})
		k.lettered(at, "T")
		x = 2.7
	}
	outdoors := whole(s.system, s.flow.Outdoor) + " outdoors"
	k.text(ink, xy{x, 1.9}, start, true, outdoors)
	x += k.width(true, outdoors) + 0.6
	k.text(faint, xy{x, 1.9}, start, false, k.cut(s.sensorWords(), false, l.width-0.3-x))
}

// mains are the pipes from the boiler to the risers, and these.
func (k *sketch) mains(s scene, l layout) {
	last := len(l.rows) - 1
	lastOwn := last // the supply's riser ends at the last circuit with a pump of its own
	for s.driven(lastOwn) {
		lastOwn--
	}
	k.between(s, l)
	// The supply's riser passes over the returns that lead through it.
	var over []float64
	for i, y := range l.rows {
		if i < lastOwn {
			over = append(over, y+pipeGap)
		}
	}
	below := l.way == leftward // the circuits lie beneath the boiler
	if below {
		over = append([]float64{returnAt}, over...)
	}
	k.riser(supply, l.supplyRiser, supplyAt, l.rows[lastOwn], over...)
	from := l.rows[0] + pipeGap
	if below {
		from = returnAt
	}
	k.riser(returning, l.returnRiser, l.rows[last]+pipeGap, from)
	for i, y := range l.rows {
		if i < last {
			if i < lastOwn && (below || i > 0) && !s.driven(i) {
				k.dot(supply, xy{l.supplyRiser, y})
			}
			k.dot(returning, xy{l.returnRiser, y + pipeGap})
		}
	}
	if !below && lastOwn > 0 {
		k.dot(supply, xy{l.supplyRiser, supplyAt})
	}

	if s.flow.Secondary > 0 && s.separated() {
		k.text(supply, xy{separatorRight + 1, supplyAt - 0.7}, start, true, s.degrees(s.flow.Secondary))
	}
	at := xy{pumpAt, returnAt}
	if s.plant.HotWater == "tank with own pump" {
		at.x = heatingPumpAt
	}
	if s.boilerPump() {
		k.pump(at, leftward, pumpRadius)
	}
	t := s.degrees(s.flow.BoilerSupply)
	k.text(supply, xy{boilerRight + 0.5, supplyAt + 1.5}, start, true, t)
	k.text(returning, xy{boilerRight + 0.5, returnAt - 1.4}, start, true, s.degrees(s.flow.BoilerReturn))
	// The flow stands beside the supply where no tank branches off, and else behind the
	// branch, clear of its pipe: it is not the tank's.
	if s.hasTank() {
		y := supplyAt + 1.6
		if s.plant.HotWater == "tank with three-way valve" {
			y++ // clear of the valve's arm
		}
		k.text(ink, xy{toTank + 0.75, y}, start, false, s.flowText(s.flow.BoilerFlow))
	} else {
		k.text(ink, xy{boilerRight + 1.1 + k.width(true, t), supplyAt + 1.5}, start, false, s.flowText(s.flow.BoilerFlow))
	}
	k.arrow(supply, xy{pumpAt, supplyAt}, rightward)
	if s.separated() {
		k.arrow(supply, xy{23.2, supplyAt}, rightward)
		k.arrow(returning, xy{23.2, returnAt}, leftward)
	}
}

// between are the pipes between boiler and risers, by what separates them.
func (k *sketch) between(s scene, l layout) {
	const teesApart = 0.8 // each from the middle
	mid := (supplyAt + returnAt) / 2
	x := separatorMiddle
	switch s.plant.Separator {
	case "low-loss header", "four-pipe buffer":
		half := separatorHalf(s.plant.Separator)
		k.line(supply, xy{boilerRight, supplyAt}, xy{x - half, supplyAt})
		k.line(returning, xy{x - half, returnAt}, xy{boilerRight, returnAt})
		k.line(supply, xy{x + half, supplyAt}, xy{l.supplyRiser, supplyAt})
		k.line(returning, xy{l.returnRiser, returnAt}, xy{x + half, returnAt})
	case "closely spaced tees":
		k.line(supply, xy{boilerRight, supplyAt}, xy{x - 1, supplyAt}, xy{x - 1, mid + teesApart})
		k.line(returning, xy{x - 1, mid + teesApart}, xy{x - 1, returnAt}, xy{boilerRight, returnAt})
		k.line(supply, xy{x - 1, mid - teesApart}, xy{x + 1, mid - teesApart}, xy{x + 1, supplyAt}, xy{l.supplyRiser, supplyAt})
		k.line(returning, xy{l.returnRiser, returnAt}, xy{x + 1, returnAt}, xy{x + 1, mid + teesApart}, xy{x - 1, mid + teesApart})
		k.dot(supply, xy{x - 1, mid - teesApart})
		k.dot(returning, xy{x - 1, mid + teesApart})
	case "three-pipe buffer":
		k.line(supply, xy{boilerRight, supplyAt}, xy{l.supplyRiser, supplyAt})
		k.line(supply, xy{x, supplyAt}, xy{x, supplyAt + 1.2})
		k.dot(supply, xy{x, supplyAt})
		k.line(returning, xy{separatorLeft, returnAt}, xy{boilerRight, returnAt})
		k.line(returning, xy{l.returnRiser, returnAt}, xy{separatorRight, returnAt})
	case "two-pipe buffer":
		k.line(supply, xy{boilerRight, supplyAt}, xy{l.supplyRiser, supplyAt})
		k.line(supply, xy{x, supplyAt}, xy{x, supplyAt + 1})
		k.dot(supply, xy{x, supplyAt})
		k.line(returning, xy{l.returnRiser, returnAt}, xy{boilerRight, returnAt})
		k.line(returning, xy{x, returnAt - 1}, xy{x, returnAt})
		k.dot(returning, xy{x, returnAt})
	default:
		k.line(supply, xy{boilerRight, supplyAt}, xy{l.supplyRiser, supplyAt})
		k.line(returning, xy{l.returnRiser, returnAt}, xy{boilerRight, returnAt})
	}
}

func separatorHalf(kind string) float64 {
	if kind == "low-loss header" {
		return 0.9
	}
	return (separatorRight - separatorLeft) / 2
}

// separator draws what stands between boiler and circuits, with its sensor.
func (k *sketch) separator(s scene, l layout) {
	x := separatorMiddle
	half := separatorHalf(s.plant.Separator)
	bottom := returnAt + 1.2
	switch s.plant.Separator {
	case "closely spaced tees":
		bottom = returnAt + 0.8
	case "three-pipe buffer":
		k.vessel(x-half, supplyAt+1.2, x+half, bottom)
	case "two-pipe buffer":
		k.vessel(x-half, supplyAt+1, x+half, returnAt-1)
		bottom = returnAt + 0.8
	default:
		k.vessel(x-half, supplyAt-1.2, x+half, bottom)
	}
	if s.hasSeparatorSensor() { // behind it, whatever it is wired to
		k.sensor(xy{separatorRight + 0.6, supplyAt - 3.1}, xy{separatorRight + 0.6, supplyAt})
	}
	for i, line := range l.separator {
		k.text(faint, xy{x, bottom + 1.3 + lineHeight*float64(i)}, middle, false, line)
	}
}

func (k *sketch) boiler(s scene) {
	k.expansion(xy{8, returnAt})
	if !s.plant.Vessel {
		k.text(faint, xy{9.3, returnAt + 2.7}, start, false, "?")
	}
	k.relief(xy{4.2, boilerTop})
	if !s.plant.Relief {
		k.text(faint, xy{5.6, boilerTop - 0.8}, start, false, "?")
	}
	k.box(boilerLeft, boilerTop, boilerRight, boilerBottom)
	x := (boilerLeft + boilerRight) / 2
	k.text(ink, xy{x, boilerTop + 1.4}, middle, true, "boiler")
	y := boilerTop + 2.7
	for _, part := range strings.SplitAfter(s.plant.BoilerKind, "-") {
		k.text(faint, xy{x, y}, middle, false, part)
		y += lineHeight * 0.95
	}
	k.flame(xy{x, y + 0.6})
	if s.plant.HotWater == "combi" {
		k.combi(s)
	}
}

// combi shows the heat exchanger for hot water in the boiler, and its drinking water.
func (k *sketch) combi(s scene) {
	const top, bottom, hot, cold = boilerBottom - 2, boilerBottom - 0.5, 2.0, 5.2
	k.box(hot-0.6, top, cold+0.6, bottom)
	k.line(ink, xy{hot - 0.6, bottom}, xy{cold + 0.6, top})
	k.line(ink, xy{hot, bottom}, xy{hot, boilerBottom + 1.6})
	k.line(ink, xy{cold, boilerBottom + 1.6}, xy{cold, bottom})
	k.arrow(ink, xy{hot, boilerBottom + 1.3}, downward)
	k.arrow(ink, xy{cold, boilerBottom + 1}, upward)
	k.text(faint, xy{hot, boilerBottom + 2.8}, middle, false, "hot")
	k.text(faint, xy{cold, boilerBottom + 2.8}, middle, false, "cold")
	k.text(ink, xy{hot, boilerBottom + 4.1}, middle, true, s.degrees(s.plant.TankSetpoint))
}

// tank draws the hot water tank beneath the boiler, fed by its own pump or through a
// diverting valve.
func (k *sketch) tank(s scene) {
	const in, out = tankTop + 3.9, tankBottom - 1.1
	k.riser(supply, toTank, supplyAt, in, returnAt)
	k.line(supply, xy{toTank, in}, xy{tankRight, in})
	k.line(returning, xy{tankRight, out}, xy{fromTank, out}, xy{fromTank, returnAt})
	k.dot(returning, xy{fromTank, returnAt})
	if s.plant.HotWater == "tank with three-way valve" {
		k.valve(xy{toTank, supplyAt}, leftward, rightward, downward)
		k.motor(xy{toTank, supplyAt})
		k.arrow(supply, xy{toTank, returnAt + 3}, downward)
	} else {
		k.dot(supply, xy{toTank, supplyAt})
		k.pump(xy{toTank, returnAt + 2.8}, downward, pumpRadius)
	}
	k.arrow(returning, xy{fromTank, returnAt + 3}, upward)

	k.drinkingWater(s)
	k.vessel(tankLeft, tankTop, tankRight, tankBottom)
	k.coil(tankLeft+1.1, tankRight, in, out)
	x := (tankLeft + tankRight) / 2
	k.sensor(xy{tankLeft + 1.1, tankTop - 1.5}, xy{tankLeft + 1.1, tankTop + 0.5})
	k.text(ink, xy{x, tankTop + 1.7}, middle, true, s.degrees(s.plant.TankSetpoint))
	k.text(ink, xy{x, tankTop + 3}, middle, false, s.tankVolume())
}

// drinkingWater are the thin pipes at the left of the tank.
func (k *sketch) drinkingWater(s scene) {
	const hot, cold, end, valve, loop, back = tankTop + 1.2, tankBottom - 1, 0.5, 3.6, 1.7, tankTop + 5
	k.line(ink, xy{tankLeft, hot}, xy{end, hot})
	k.line(ink, xy{end, cold}, xy{tankLeft, cold})
	k.arrow(ink, xy{end + 0.4, hot}, leftward)
	k.arrow(ink, xy{tankLeft - 0.6, cold}, rightward)
	k.text(faint, xy{end, hot - 0.8}, start, false, "hot")
	k.text(faint, xy{end, cold - 0.8}, start, false, "cold")
	if s.plant.Loop {
		k.line(ink, xy{loop, hot}, xy{loop, back}, xy{tankLeft, back})
		k.dot(ink, xy{loop, hot})
		k.pump(xy{loop, (hot + back) / 2}, downward, 0.8)
	}
	if s.plant.MixingValveAtTank {
		var over []float64
		if s.plant.Loop {
			over = append(over, back)
		}
		k.riser(ink, valve, hot, cold, over...)
		k.dot(ink, xy{valve, cold})
		k.valve(xy{valve, hot}, leftward, rightward, downward)
	}
}

// circuit draws one circuit: the supply above, the return below, and between them what
// the thermometers show.
func (k *sketch) circuit(s scene, l layout, i int) {
	ct, water := s.plant.Circuits[i], s.circuit(i)
	up, down := l.rows[i], l.rows[i]+pipeGap
	near := l.far - l.way.x*emitterWidth
	at := func(d float64) float64 { return l.supplyRiser + l.way.x*d }
	from := func(d float64) float64 { return near - l.way.x*d }
	valveAt, pumpAt := at(2.7), at(5.4)
	mixed := ct.Kind == "mixed"
	// Behind a pump of several circuits the supply parts: the pump makes room for that.
	branch, comes, title, edge := at(5.2), l.supplyRiser, at(3.8), at(3.3)
	lastDriven := s.lastDriven(i)
	shared := s.driven(i) || lastDriven > i
	if shared {
		pumpAt, edge = at(2.9), at(5.8)
	}
	if s.driven(i) {
		comes, title = branch, at(5.9)
	}

	k.line(supply, xy{comes, up}, xy{near, up})
	if lastDriven > i && !s.driven(i) {
		var over []float64
		for n := i; n < lastDriven; n++ {
			over = append(over, l.rows[n]+pipeGap)
			if n > i {
				k.dot(supply, xy{branch, l.rows[n]})
			}
		}
		k.dot(supply, xy{branch, up})
		k.riser(supply, branch, up, l.rows[lastDriven], over...)
	}
	k.line(returning, xy{near, down}, xy{l.returnRiser, down})
	k.arrow(supply, xy{from(3), up}, l.way)
	k.arrow(returning, xy{from(3), down}, xy{-l.way.x, 0})
	if mixed {
		k.line(returning, xy{valveAt, down}, xy{valveAt, up})
		k.dot(returning, xy{valveAt, down})
		k.valve(xy{valveAt, up}, leftward, rightward, downward)
		k.motor(xy{valveAt, up})
		k.sensor(xy{from(1.4), up - 1.8}, xy{from(1.4), up})
	}
	if s.circuitPumps() && !s.driven(i) {
		k.pump(xy{pumpAt, up}, l.way, pumpRadius)
	}
	k.emitter(ct.Family, math.Min(near, l.far), math.Max(near, l.far), up, down)

	// What is written keeps clear of the motor, the sensor and the pump.
	left, right := math.Min(title, from(2.4)), math.Max(title, from(2.4))
	name := k.cut(ct.Name, true, right-left)
	k.text(ink, xy{left, up - 1.4}, start, true, name)
	left += k.width(true, name) + 0.6
	kind := ct.Kind
	if s.circuitPumps() {
		kind = joined(" · ", kind, prefixed("pump at ", ct.PumpMode))
	}
	for _, more := range []string{kind, ct.Kind} {
		if left+k.width(false, more) <= right {
			k.text(faint, xy{left, up - 1.4}, start, false, more)
			break
		}
	}
	left, right = math.Min(at(6.8), from(0.6)), math.Max(edge, from(0.6))
	t := s.degrees(water.Supply)
	k.text(supply, xy{left, up + 1.5}, start, true, t)
	k.text(ink, xy{left + k.width(true, t) + 0.6, up + 1.5}, start, false, s.flowText(water.Flow))
	words, beneath := s.emitterWords(i), xy{left, up + 2.9}
	if hot := s.tooHot(i); hot != "" {
		k.warning(xy{left + 0.6, up + 2.6})
		beneath.x += 1.6
		k.text(ink, beneath, start, true, k.cut(hot, true, right-beneath.x))
		beneath.x += k.width(true, hot) + 0.6
		words = familyWords(ct.Family)
	}
	if beneath.x == left || beneath.x+k.width(false, words) <= right {
		k.text(faint, beneath, start, false, k.cut(words, false, right-beneath.x))
	}
	k.text(returning, xy{left, down - 0.85}, start, true, s.degrees(water.Return))
}

// shifted is a canvas moved to the right.
type shifted struct {
	canvas
	by float64
}

func (s shifted) moved(points []xy) []xy {
	out := make([]xy, len(points))
	for i, p := range points {
		out[i] = xy{p.x + s.by, p.y}
	}
	return out
}

func (s shifted) line(r role, points []xy) { s.canvas.line(r, s.moved(points)) }

func (s shifted) dashed(r role, points []xy, dash []float64) {
	s.canvas.dashed(r, s.moved(points), dash)
}

func (s shifted) area(r role, outline []xy) { s.canvas.area(r, s.moved(outline)) }

func (s shifted) mark(r role, m marker, at xy, radius float64) {
	s.canvas.mark(r, m, xy{at.x + s.by, at.y}, radius)
}

func (s shifted) text(r role, at xy, a anchor, bold bool, text string) {
	s.canvas.text(r, xy{at.x + s.by, at.y}, a, bold, text)
}
