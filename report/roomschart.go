package report

import (
	"fmt"
	"math"
	"slices"

	"curvewright/settings"
	"curvewright/units"
)

// The chart of a circuit's rooms: where each would settle at the set supply with its
// valves open. A room below its line is cold; one far above it will be throttled.

// RoomsSVG draws the temperature that each room of a circuit would reach at the set
// supply, against the outdoor temperature, as an SVG image of the given size in CSS
// pixels. A circuit without rooms gives an image that says so.
func RoomsSVG(sheet *settings.Sheet, circuit int, width, height float64) string {
	width, height = usable(width, height)
	id := fmt.Sprintf("rooms-%d-%s", circuit, num(width))
	if !hasCurve(sheet, circuit) || len(roomLines(&sheet.Circuits[circuit])) == 0 {
		return emptySVG(id, "No rooms to show for this circuit", width, height)
	}
	ct := &sheet.Circuits[circuit]
	c := newSVG(id, "Rooms on "+ct.Name, roomsWords(sheet, ct), width, height)
	drawRooms(c, sheet, ct, width, height)
	return c.finish()
}

// roomLine is one room's line.
type roomLine struct {
	room    settings.CircuitRoom
	outdoor []units.Temperature
	reaches []units.Temperature
}

// roomLines gathers the rooms that have a reading at two outdoor temperatures or more.
func roomLines(ct *settings.Circuit) []roomLine {
	var lines []roomLine
	points := drawable(ct)
	for i, r := range ct.Rooms {
		l := roomLine{room: r}
		for _, p := range points {
			if i < len(p.Rooms) && isTemperature(p.Rooms[i].Reaches) {
				l.outdoor = append(l.outdoor, p.Outdoor)
				l.reaches = append(l.reaches, p.Rooms[i].Reaches)
			}
		}
		if len(l.outdoor) >= 2 {
			lines = append(lines, l)
		}
	}
	return lines
}

func roomsWords(sheet *settings.Sheet, ct *settings.Circuit) string {
	words := "With all valves open on the coldest day:"
	for i, l := range roomLines(ct) {
		if i > 0 {
			words += ";"
		}
		words += fmt.Sprintf(" %s reaches %s", l.room.Name, l.reaches[0].Text(sheet.System))
		if isTemperature(l.room.Setpoint) {
			words += " of " + l.room.Setpoint.Text(sheet.System)
		}
	}
	return words + "."
}

func drawRooms(c canvas, sheet *settings.Sheet, ct *settings.Circuit, width, height float64) {
	s, size := sheet.System, c.textSize()
	rooms := roomLines(ct)

	names := 0.0
	for _, r := range rooms {
		names = max(names, c.textWidth(r.room.Governs, r.room.Name))
	}
	names = min(names, width*0.3)
	f := newFrame(width, height, size, names+size*2.4)
	roomsRange(&f, s, rooms)
	f.axes(c, s, "room")

	drawSetpoints(c, f, s, rooms)

	type tag struct {
		from xy
		y    float64
		line int
	}
	var tags []tag
	for i, r := range rooms {
		line := make([]xy, len(r.outdoor))
		for k := range r.outdoor {
			line[k] = f.at(degrees(s, r.outdoor[k]), degrees(s, r.reaches[k]))
		}
		look := roleOf(r.room)
		c.dashed(look, line, dashes[i%len(dashes)])
		last := line[len(line)-1]
		c.mark(look, marker(i%int(markers)), line[0], size*0.28)
		c.mark(look, marker(i%int(markers)), last, size*0.28)
		tags = append(tags, tag{last, last.y, i})
	}

	// Names at the right, in the order of the lines, pushed apart to a line of text.
	slices.SortStableFunc(tags, func(a, b tag) int {
		switch {
		case a.y < b.y:
			return -1
		case a.y > b.y:
			return 1
		}
		return 0
	})
	ys := make([]float64, len(tags))
	for i, t := range tags {
		ys[i] = t.y
	}
	apart(ys, size*1.15, f.top, f.bottom)
	for i, t := range tags {
		r := rooms[t.line].room
		x := f.right + size*1.5
		c.line(leader, []xy{{t.from.x + size*0.4, t.from.y}, {x - size*0.75, ys[i]}, {x - size*0.25, ys[i]}})
		c.text(roleOf(r), xy{x, ys[i] + size*0.35}, start, r.Governs, shorten(c, r.Name, r.Governs, names))
	}
}

// dashes tell rooms apart that run close together.
var dashes = [][]float64{nil, {6, 2}, {2, 2}, {8, 2, 2, 2}, {1, 2}, {10, 3}, {4, 1.5, 1, 1.5, 1, 1.5}}

func roleOf(r settings.CircuitRoom) role {
	if r.Governs {
		return governing
	}
	return room
}

func roomsRange(f *frame, s units.System, rooms []roomLine) {
	low, high := math.Inf(1), math.Inf(-1)
	f.xLow, f.xHigh = low, high
	for _, r := range rooms {
		for k := range r.outdoor {
			f.xLow, f.xHigh = min(f.xLow, degrees(s, r.outdoor[k])), max(f.xHigh, degrees(s, r.outdoor[k]))
			low, high = min(low, degrees(s, r.reaches[k])), max(high, degrees(s, r.reaches[k]))
		}
		if isTemperature(r.room.Setpoint) {
			low, high = min(low, degrees(s, r.room.Setpoint)), max(high, degrees(s, r.room.Setpoint))
		}
	}
	step := niceStep(max(high-low, 4) / 6)
	f.yLow, f.yHigh = math.Floor((low-step*0.3)/step)*step, math.Ceil((high+step*0.3)/step)*step
}

// drawSetpoints draws each temperature that is wanted once, with its value inside
// the field at the cold end, where the lines of the rooms have not yet spread.
func drawSetpoints(c canvas, f frame, s units.System, rooms []roomLine) {
	var wanted []units.Temperature
	for _, r := range rooms {
		if isTemperature(r.room.Setpoint) {
			wanted = append(wanted, r.room.Setpoint)
		}
	}
	slices.Sort(wanted)
	wanted = slices.CompactFunc(wanted, func(a, b units.Temperature) bool { return a.Text(s) == b.Text(s) })
	size := c.textSize()
	labels := &placer{c: c, bounds: f}
	for _, r := range rooms {
		line := make([]xy, len(r.outdoor))
		for k := range r.outdoor {
			line[k] = f.at(degrees(s, r.outdoor[k]), degrees(s, r.reaches[k]))
		}
		labels.avoid(line)
	}
	for _, w := range wanted {
		y := f.y(degrees(s, w))
		c.line(setpoint, []xy{{f.left, y}, {f.right, y}})
		labels.avoid([]xy{{f.left, y}, {f.right, y}})
		text := "wanted " + w.Text(s)
		var spots []spot
		for _, t := range []float64{0.03, 0.2, 0.4, 0.6, 0.8, 0.97} {
			x := f.left + (f.right-f.left)*t
			a := start
			if t > 0.9 {
				a = end
			}
			spots = append(spots, spot{xy{x, y + size*1.05}, a}, spot{xy{x, y - size*0.4}, a})
		}
		labels.put(setpoint, false, text, false, spots)
	}
}

// apart moves ascending positions so that they keep a distance, staying as near as
// they can to where they were and between low and high where there is space.
func apart(v []float64, distance, low, high float64) {
	for i := range v {
		v[i] = max(v[i], low)
		if i > 0 {
			v[i] = max(v[i], v[i-1]+distance)
		}
	}
	for i := len(v) - 1; i >= 0; i-- {
		ceiling := high
		if i < len(v)-1 {
			ceiling = v[i+1] - distance
		}
		v[i] = min(v[i], ceiling)
	}
}
