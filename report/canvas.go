package report

// What a chart may draw, without knowing whether it ends up on a page or on paper.
// A mark is named by what it means (a role); how a role looks is settled once, in
// pens, for both.

// role names what a mark stands for. It is also its class in the SVG.
type role string

const (
	supply     role = "supply"     // the set supply
	returning  role = "return"     // the return at that supply
	ideal      role = "ideal"      // the supply that just holds the governing room
	band       role = "band"       // the spread of that need
	limit      role = "limit"      // a highest supply
	condensing role = "condensing" // return below which the boiler condenses
	hours      role = "hours"      // hours of the year
	grid       role = "grid"
	axis       role = "axis"
	room       role = "room"
	governing  role = "governing" // the room that leads
	setpoint   role = "setpoint"
	leader     role = "leader"      // from a line to its label
	ink        role = "ink"         // plain text
	faint      role = "faint"       // text that explains
	advised    role = "recommended" // the curve of the sheet beside one that is tried
	found      role = "found"       // a curve as it was found in the control
	blank      role = "paper"       // what covers a line that runs behind a symbol
)

// pen is how a role looks. Lines differ in width and dash as well as in colour, so
// that a black-and-white print and a colour-blind reader lose nothing.
type pen struct {
	colour string // on paper, and on a page that sets no colour of its own
	width  float64
	dash   []float64
}

var pens = map[role]pen{
	supply:     {colour: "#a8321a", width: 2.6},
	returning:  {colour: "#1d5c96", width: 1.6, dash: []float64{9, 2.5, 2, 2.5}},
	ideal:      {colour: "#33302c", width: 1.3, dash: []float64{5, 3}},
	band:       {colour: "#f3ddd0"},
	limit:      {colour: "#33302c", width: 1.1},
	condensing: {colour: "#1d5c96", width: 1, dash: []float64{1, 3}},
	hours:      {colour: "#e4e1db"},
	grid:       {colour: "#dcd8d0", width: 0.6},
	axis:       {colour: "#57534d", width: 1},
	room:       {colour: "#57534d", width: 1},
	governing:  {colour: "#a8321a", width: 2.4},
	setpoint:   {colour: "#33302c", width: 1.2, dash: []float64{5, 3}},
	leader:     {colour: "#8c877f", width: 0.5},
	ink:        {colour: "#1c1a17", width: 1.3},
	faint:      {colour: "#57534d"},
	advised:    {colour: "#10574f", width: 1.8, dash: []float64{12, 4}},
	found:      {colour: "#6a4a8c", width: 1.8, dash: []float64{2, 3}},
	blank:      {colour: paper},
}

// paper is what lies under everything.
const paper = "#ffffff"

// xy is a place on the canvas, y downwards.
type xy struct{ x, y float64 }

// anchor says which end of a text its place means.
type anchor int

const (
	start anchor = iota
	middle
	end
)

// marker is the shape of a single mark.
type marker int

const (
	disc marker = iota
	square
	triangle
	diamond
	ring
	hollowSquare
	hollowTriangle
	hollowDiamond
	markers // how many there are
)

// canvas is what a chart draws on.
type canvas interface {
	line(r role, points []xy)
	dashed(r role, points []xy, dash []float64) // with a dash other than the role's own
	area(r role, outline []xy)
	mark(r role, m marker, at xy, radius float64)
	text(r role, at xy, a anchor, bold bool, s string)
	textWidth(bold bool, s string) float64
	textSize() float64
}

// outline gives the corners of a marker that has any.
func (m marker) outline(at xy, r float64) []xy {
	switch m {
	case square, hollowSquare:
		s := r * 0.9
		return []xy{{at.x - s, at.y - s}, {at.x + s, at.y - s}, {at.x + s, at.y + s}, {at.x - s, at.y + s}}
	case triangle, hollowTriangle:
		return []xy{{at.x, at.y - r*1.15}, {at.x + r*1.1, at.y + r*0.85}, {at.x - r*1.1, at.y + r*0.85}}
	case diamond, hollowDiamond:
		s := r * 1.25
		return []xy{{at.x, at.y - s}, {at.x + s, at.y}, {at.x, at.y + s}, {at.x - s, at.y}}
	}
	return nil
}

func (m marker) hollow() bool { return m >= ring }
