package report

import "math"

// What do a pump, a valve, a tank look like? The symbols are drawn after the manner of
// ISO 14617 and EN 12792, as every installer reads them. Places and sizes are in
// heights of a letter, so that screen and paper share them.

// sketch draws symbols and pipes on a canvas.
type sketch struct {
	c canvas
	u float64 // a letter's height on the canvas
	// exact says that the letters' widths are known. On a page they are only guessed, and
	// its letters may be wider than most.
	exact bool
}

func newSketch(c canvas) *sketch { return &sketch{c: c, u: c.textSize()} }

func (k *sketch) scaled(points []xy) []xy {
	out := make([]xy, len(points))
	for i, p := range points {
		out[i] = xy{p.x * k.u, p.y * k.u}
	}
	return out
}

func (k *sketch) line(r role, points ...xy) { k.c.line(r, k.scaled(points)) }

func (k *sketch) fill(r role, corners ...xy) { k.c.area(r, k.scaled(corners)) }

// shape is a closed outline that hides what runs behind it.
func (k *sketch) shape(corners ...xy) {
	k.fill(blank, corners...)
	k.line(ink, append(corners, corners[0])...)
}

func (k *sketch) box(left, top, right, bottom float64) {
	k.shape(xy{left, top}, xy{right, top}, xy{right, bottom}, xy{left, bottom})
}

// vessel is a box with rounded ends: something under pressure.
func (k *sketch) vessel(left, top, right, bottom float64) {
	r := math.Min((right-left)/2, 0.9)
	corner := func(cx, cy, from float64) []xy { return arc(xy{cx, cy}, r, from, from+math.Pi/2) }
	outline := corner(left+r, top+r, math.Pi)
	outline = append(outline, corner(right-r, top+r, 1.5*math.Pi)...)
	outline = append(outline, corner(right-r, bottom-r, 0)...)
	k.shape(append(outline, corner(left+r, bottom-r, math.Pi/2)...)...)
}

func (k *sketch) ring(at xy, radius float64) {
	k.c.mark(ink, ring, xy{at.x * k.u, at.y * k.u}, radius*k.u)
}

func (k *sketch) dot(r role, at xy) { k.c.mark(r, disc, xy{at.x * k.u, at.y * k.u}, 0.2*k.u) }

func (k *sketch) text(r role, at xy, a anchor, bold bool, s string) {
	if s != "" {
		k.c.text(r, xy{at.x * k.u, at.y * k.u}, a, bold, s)
	}
}

func (k *sketch) width(bold bool, s string) float64 {
	return k.c.textWidth(bold, s) / k.u * k.wider(bold)
}

func (k *sketch) cut(s string, bold bool, width float64) string {
	return shorten(k.c, s, bold, width*k.u/k.wider(bold))
}

func (k *sketch) wider(bold bool) float64 {
	switch {
	case k.exact:
		return 1
	case bold:
		return 1.25
	}
	return 1.1
}

// hopRadius is the size of the bow with which a pipe passes over another.
const hopRadius = 0.5

// riser is a vertical pipe that passes over the pipes at the given heights.
func (k *sketch) riser(r role, x, from, to float64, over ...float64) {
	points := []xy{{x, from}}
	if from > to { // bows are listed downwards
		from, to = to, from
		points[0].y = from
	}
	for _, y := range over {
		if y > from && y < to {
			points = append(points, arc(xy{x, y}, hopRadius, -math.Pi/2, math.Pi/2)...)
		}
	}
	if points = append(points, xy{x, to}); to > from {
		k.line(r, points...)
	}
}

// arc gives points on a circle; angles run clockwise from the right.
func arc(centre xy, radius, from, to float64) []xy {
	const pieces = 10
	points := make([]xy, pieces+1)
	for i := range points {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/pieces)
		points[i] = xy{centre.x + radius*cos, centre.y + radius*sin}
	}
	return points
}

// Ways in which a symbol can point.
var (
	leftward  = xy{-1, 0}
	rightward = xy{1, 0}
	upward    = xy{0, -1}
	downward  = xy{0, 1}
)

// towards is a point at a distance ahead and another aside.
func towards(at, way xy, ahead, aside float64) xy {
	return xy{at.x + way.x*ahead - way.y*aside, at.y + way.y*ahead + way.x*aside}
}

// arrow shows which way the water runs.
func (k *sketch) arrow(r role, at, way xy) {
	k.fill(r, towards(at, way, 0.5, 0), towards(at, way, -0.35, 0.42), towards(at, way, -0.35, -0.42))
}

func (k *sketch) pump(at, way xy, radius float64) {
	k.ring(at, radius)
	k.fill(ink, towards(at, way, radius*0.92, 0), towards(at, way, -radius*0.5, radius*0.78), towards(at, way, -radius*0.5, -radius*0.78))
}

const pumpRadius = 0.95

// valve has an arm for each way that water takes.
func (k *sketch) valve(at xy, arms ...xy) {
	for _, way := range arms {
		k.shape(at, towards(at, way, 1, 0.6), towards(at, way, 1, -0.6))
	}
}

// motor drives a valve from above.
func (k *sketch) motor(at xy) {
	k.line(ink, at, xy{at.x, at.y - 1.2})
	k.lettered(xy{at.x, at.y - 1.9}, "M")
}

// sensor stands at a place and feels at another.
func (k *sketch) sensor(at, feels xy) {
	k.line(axis, at, feels)
	k.lettered(at, "T")
}

// warning is the triangle that every reader of a plan knows, with its sign.
func (k *sketch) warning(at xy) {
	k.shape(xy{at.x, at.y - 0.7}, xy{at.x + 0.68, at.y + 0.45}, xy{at.x - 0.68, at.y + 0.45})
	k.line(ink, xy{at.x, at.y - 0.3}, xy{at.x, at.y + 0.1})
	k.line(ink, xy{at.x, at.y + 0.22}, xy{at.x, at.y + 0.34})
}

const sensorRadius = 0.72

func (k *sketch) lettered(at xy, letter string) {
	k.ring(at, sensorRadius)
	k.text(ink, xy{at.x, at.y + 0.36}, middle, false, letter)
}

// expansion is a vessel with its membrane, hanging below a pipe.
func (k *sketch) expansion(at xy) {
	const radius = 1.1
	centre := xy{at.x, at.y + 2.3}
	k.line(ink, at, xy{at.x, centre.y - radius})
	k.ring(centre, radius)
	k.line(ink, xy{centre.x - radius, centre.y}, xy{centre.x - radius*0.5, centre.y + 0.25}, xy{centre.x + radius*0.5, centre.y - 0.25}, xy{centre.x + radius, centre.y})
}

// relief is a spring-loaded angle valve on top of something.
func (k *sketch) relief(at xy) {
	seat := xy{at.x, at.y - 1.1}
	k.line(ink, seat, xy{seat.x, seat.y - 0.4}, xy{seat.x - 0.4, seat.y - 0.55}, xy{seat.x + 0.4, seat.y - 0.85}, xy{seat.x - 0.4, seat.y - 1.15}, xy{seat.x, seat.y - 1.3})
	k.valve(seat, downward, rightward)
}

// flame fills the boiler's burner.
func (k *sketch) flame(at xy) {
	k.line(ink, xy{at.x, at.y - 1.1}, xy{at.x + 0.55, at.y - 0.25}, xy{at.x + 0.62, at.y + 0.35}, xy{at.x + 0.3, at.y + 0.85}, xy{at.x - 0.3, at.y + 0.85},
		xy{at.x - 0.62, at.y + 0.35}, xy{at.x - 0.5, at.y - 0.1}, xy{at.x - 0.2, at.y + 0.1}, xy{at.x, at.y - 1.1})
}

// coil is a tank's heating coil between two ports on its right.
func (k *sketch) coil(left, right, top, bottom float64) {
	const turns = 3
	points := []xy{{right, top}, {right - 1, top}}
	step := (bottom - top) / (2 * turns)
	for i := range turns {
		y := top + step*float64(2*i)
		points = append(points, xy{left, y + step}, xy{right - 1, y + 2*step})
	}
	k.line(ink, append(points, xy{right, bottom})...)
}

// emitter draws the kind of emitter between two heights of its pipes.
func (k *sketch) emitter(family string, left, right, supplyAt, returnAt float64) {
	top, bottom := supplyAt-0.5, returnAt+0.5
	across := func(n int, draw func(x float64)) {
		for i := 1; i < n; i++ {
			draw(left + (right-left)*float64(i)/float64(n))
		}
	}
	k.box(left, top, right, bottom)
	switch mid := (top + bottom) / 2; family {
	case "floor":
		// A loop of tube seen from above.
		points := []xy{}
		rows := 6
		for i := range rows {
			y := supplyAt + (returnAt-supplyAt)*float64(i)/float64(rows-1)
			a, b := left+0.6, right-0.6
			if i%2 == 1 {
				a, b = b, a
			}
			points = append(points, xy{a, y}, xy{b, y})
		}
		k.line(ink, points...)
	case "fan coil":
		centre := xy{(left + right) / 2, mid + 1.1}
		k.line(ink, xy{left + 0.4, top + 1.4}, xy{left + 0.9, top + 0.7}, xy{left + 1.5, top + 2.1}, xy{left + 2.1, top + 0.7}, xy{left + 2.6, top + 1.4}, xy{right - 0.4, top + 1.4})
		k.ring(centre, 1.15)
		for i := range 3 {
			sin, cos := math.Sincos(float64(i)*2*math.Pi/3 - math.Pi/2)
			way := xy{cos, sin}
			k.fill(ink, centre, towards(centre, way, 1, 0.3), towards(centre, way, 1, -0.3))
		}
	case "fin-tube":
		k.line(ink, xy{left, mid}, xy{right, mid})
		across(8, func(x float64) { k.line(ink, xy{x, mid - 1.1}, xy{x, mid + 1.1}) })
	case "towel rail":
		for i := 1; i < 7; i++ {
			y := top + (bottom-top)*float64(i)/7
			k.line(ink, xy{left, y}, xy{right, y})
		}
	case "cast iron":
		across(4, func(x float64) {
			k.line(ink, xy{x - 0.12, top}, xy{x - 0.12, bottom})
			k.line(ink, xy{x + 0.12, top}, xy{x + 0.12, bottom})
		})
	default:
		across(6, func(x float64) { k.line(ink, xy{x, top + 0.5}, xy{x, bottom - 0.5}) })
	}
}
