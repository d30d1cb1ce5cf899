package report

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

// plantOf makes a sheet of a made-up boiler room.
func plantOf(system units.System, separator, hotWater string, circuits ...string) *settings.Sheet {
	f := units.Fahrenheit
	known := map[string]struct {
		plant        settings.PlantCircuit
		supply, back units.Temperature
		flow         units.Flow
		hot          units.Fraction
	}{
		"radiators": {settings.PlantCircuit{Name: "Radiators", Kind: "direct", Family: "radiators", PumpMode: "proportional pressure"}, f(151), f(131), units.GallonsPerMinute(4.8), 1},
		"slab":      {settings.PlantCircuit{Name: "Kitchen slab", Kind: "mixed", Family: "floor", PumpMode: "constant pressure"}, f(104), f(94), units.GallonsPerMinute(2.1), 0.18},
		"attic":     {settings.PlantCircuit{Name: "Attic baseboard and the bath under the roof", Kind: "mixed", Family: "fin-tube"}, f(149), f(130), units.GallonsPerMinute(12.6), 0.91},
		"old":       {settings.PlantCircuit{Name: "Old house", Kind: "direct", Family: "cast iron", PumpMode: "fixed speed"}, f(145), f(125), units.GallonsPerMinute(6.2), 1},
		"coil":      {settings.PlantCircuit{Name: "Workshop", Kind: "direct", Family: "fan coil"}, f(140), f(120), units.GallonsPerMinute(3), 1},
		"bath":      {settings.PlantCircuit{Name: "Bath and the hall beside it", Kind: "direct", Family: "towel rail", PumpOf: "Radiators"}, f(151), f(128), units.GallonsPerMinute(1.2), 1},
		"porch":     {settings.PlantCircuit{Name: "Porch", Kind: "direct", Family: "fin-tube", PumpOf: "Radiators"}, f(151), f(133), units.GallonsPerMinute(0.9), 1},
		"rails":     {settings.PlantCircuit{Name: "Bathrooms", Kind: "mixed", Family: "towel rail", PumpMode: "constant pressure"}, f(131), f(113), units.GallonsPerMinute(0.7), 0.7},
	}
	sheet := &settings.Sheet{System: system, Plant: settings.Plant{BoilerKind: "condensing", Separator: separator, HotWater: hotWater,
		OutdoorSensor: "yes", OutdoorPlace: "north-west wall"}}
	mild := settings.FlowPoint{Outdoor: f(62), BoilerSupply: f(95), BoilerReturn: f(88), BoilerFlow: units.GallonsPerMinute(8.4)}
	cold := settings.FlowPoint{Outdoor: f(5), BoilerSupply: f(156), BoilerReturn: f(129), BoilerFlow: units.GallonsPerMinute(8.4)}
	if separator != "none" {
		sheet.Plant.SeparatorSensor, cold.Separated, cold.Secondary = "on a module", true, f(151)
	}
	if strings.HasSuffix(separator, "buffer") {
		sheet.Plant.BufferVolume = units.Gallons(30)
	}
	if strings.HasPrefix(hotWater, "tank") {
		sheet.Plant.TankVolume, sheet.Plant.MixingValveAtTank, sheet.Plant.Loop = units.Gallons(50), true, true
	}
	if hotWater != "none" {
		sheet.Plant.TankSetpoint = f(140)
	}
	for _, name := range circuits {
		k := known[name]
		sheet.Plant.Circuits = append(sheet.Plant.Circuits, k.plant)
		cold.Circuits = append(cold.Circuits, settings.FlowCircuit{Name: k.plant.Name, Mixed: k.plant.Kind == "mixed", Supply: k.supply, Return: k.back, Flow: k.flow, Hot: k.hot})
	}
	sheet.Flows = []settings.FlowPoint{cold, mild}
	return sheet
}

var (
	separators = []string{"none", "low-loss header", "closely spaced tees", "two-pipe buffer", "three-pipe buffer", "four-pipe buffer"}
	hotWaters  = []string{"none", "combi", "tank with own pump", "tank with three-way valve"}
	houses     = [][]string{{"radiators"}, {"slab"}, {"radiators", "slab"}, {"old", "slab", "attic", "rails"}, {"radiators", "slab", "attic", "old", "coil", "rails"},
		{"bath", "radiators"}, {"slab", "radiators", "bath", "old", "porch", "rails"}}
)

func TestBoilerRoomsAreWhatWasAgreed(t *testing.T) {
	us, si := units.US, units.SI
	complete := plantOf(us, "low-loss header", "tank with own pump", "radiators", "slab")
	complete.Plant.Vessel, complete.Plant.Relief = true, true
	bare := plantOf(us, "none", "none", "old")
	bare.Plant.BoilerKind, bare.Plant.OutdoorSensor = "non-condensing", "no"
	scalding := plantOf(us, "none", "tank with own pump", "radiators", "slab")
	scalding.Plant.Circuits[1].Limit = units.Fahrenheit(95)
	for name, c := range map[string]struct {
		sheet *settings.Sheet
		width float64
	}{
		"header-2-phone":     {complete, 340},
		"header-2-wide":      {complete, 760},
		"bare-1-phone":       {bare, 340},
		"scalding-2-phone":   {scalding, 360},
		"combi-1-phone":      {plantOf(si, "none", "combi", "slab"), 340},
		"combi-1-wide":       {plantOf(si, "none", "combi", "radiators"), 760},
		"diverter-1-wide":    {plantOf(us, "none", "tank with three-way valve", "radiators"), 760},
		"tees-4-phone":       {plantOf(us, "closely spaced tees", "tank with three-way valve", "old", "slab", "attic", "rails"), 360},
		"tees-2-wide":        {plantOf(si, "closely spaced tees", "combi", "radiators", "slab"), 700},
		"two-pipe-4-wide":    {plantOf(us, "two-pipe buffer", "tank with own pump", houses[3]...), 760},
		"three-pipe-4-wide":  {plantOf(si, "three-pipe buffer", "tank with three-way valve", houses[3]...), 760},
		"three-pipe-1-phone": {plantOf(si, "three-pipe buffer", "none", "attic"), 340},
		"four-pipe-6-wide":   {plantOf(us, "four-pipe buffer", "tank with own pump", houses[4]...), 1000},
		"four-pipe-6-phone":  {plantOf(si, "four-pipe buffer", "tank with own pump", houses[4]...), 340},
		"one-pump-2-phone":   {plantOf(si, "none", "none", houses[5]...), 360},
		"one-pump-6-wide":    {plantOf(us, "low-loss header", "tank with own pump", houses[6]...), 1000},
		"two-pipe-2-middle":  {plantOf(si, "two-pipe buffer", "none", "radiators", "slab"), 480},
	} {
		golden(t, "room-"+name+".svg", BoilerRoomSVG(c.sheet, 0, c.width, 0))
	}
}

// drawn is a canvas that remembers what was drawn on it, to look for what a person
// would stumble over.
type drawn struct {
	canvas
	texts []written
	runs  []run
	rings []circle
}

type circle struct {
	at     xy
	radius float64
}

type written struct {
	box  box
	text string
}

// run is one straight piece of a line.
type run struct {
	r    role
	a, b xy
}

func (d *drawn) line(r role, points []xy) {
	for i := 1; i < len(points); i++ {
		d.runs = append(d.runs, run{r, points[i-1], points[i]})
	}
}

func (d *drawn) dashed(r role, points []xy, _ []float64) { d.line(r, points) }

func (d *drawn) area(r role, outline []xy) {
	if r != blank {
		d.line(ink, append(append([]xy{}, outline...), outline[0]))
	}
}

func (d *drawn) mark(_ role, m marker, at xy, radius float64) {
	if m == ring {
		d.rings = append(d.rings, circle{at, radius})
	}
}

func (d *drawn) text(_ role, at xy, a anchor, bold bool, s string) {
	p := placer{c: d.canvas}
	d.texts = append(d.texts, written{p.boxAt(spot{at, a}, bold, s), s})
}

// meets says whether a straight run passes through a box.
func (b box) meets(r run) bool {
	n := int(math.Hypot(r.b.x-r.a.x, r.b.y-r.a.y)) + 1
	for i := range n + 1 {
		t := float64(i) / float64(n)
		if b.holds(xy{r.a.x + (r.b.x-r.a.x)*t, r.a.y + (r.b.y-r.a.y)*t}) {
			return true
		}
	}
	return false
}

// crosses says whether two pipes cross where neither ends.
func (r run) crosses(o run) bool {
	const end = 1e-6
	x, y := xy{r.b.x - r.a.x, r.b.y - r.a.y}, xy{o.b.x - o.a.x, o.b.y - o.a.y}
	det := x.x*y.y - x.y*y.x
	if math.Abs(det) < end {
		return false
	}
	from := xy{o.a.x - r.a.x, o.a.y - r.a.y}
	t, u := (from.x*y.y-from.y*y.x)/det, (from.x*x.y-from.y*x.x)/det
	return t > end && t < 1-end && u > end && u < 1-end
}

func (r run) long(u float64) bool { return math.Hypot(r.b.x-r.a.x, r.b.y-r.a.y) > 0.3*u }

// faults lists what a person would stumble over: words on words, words on lines,
// things beyond the edge, pipes that cross without a bow.
func (d *drawn) faults(width, height float64) []string {
	var out []string
	u := d.textSize()
	for i, w := range d.texts {
		if w.box.left < -0.5 || w.box.top < -0.5 || w.box.right > width+0.5 || w.box.bottom > height+0.5 {
			out = append(out, fmt.Sprintf("%q is clipped", w.text))
		}
		for _, o := range d.texts[i+1:] {
			if w.box.overlap(o.box) > 0 {
				out = append(out, fmt.Sprintf("%q lies on %q", w.text, o.text))
			}
		}
		for _, r := range d.rings {
			if len(w.text) > 1 && w.box.overlap(box{r.at.x - r.radius, r.at.y - r.radius, r.at.x + r.radius, r.at.y + r.radius}) > 0 {
				out = append(out, fmt.Sprintf("%q lies on a round symbol", w.text))
			}
		}
		for _, r := range d.runs {
			if len(w.text) > 1 && w.box.meets(r) {
				out = append(out, fmt.Sprintf("%q lies on a line (%s at %.0f, %.0f)", w.text, r.r, r.a.x, r.a.y))
				break
			}
		}
	}
	for i, a := range d.rings {
		for _, b := range d.rings[i+1:] {
			if math.Hypot(a.at.x-b.at.x, a.at.y-b.at.y) < a.radius+b.radius {
				out = append(out, fmt.Sprintf("two round symbols overlap at %.0f, %.0f", a.at.x, a.at.y))
			}
		}
	}
	for i, a := range d.runs {
		if a.a.x < 0 || a.b.x > width || a.b.x < 0 || a.a.x > width || max(a.a.y, a.b.y) > height {
			out = append(out, "a line runs over the edge")
		}
		for _, b := range d.runs[i+1:] {
			pipes := (a.r == supply || a.r == returning) && (b.r == supply || b.r == returning)
			if pipes && a.long(u) && b.long(u) && a.crosses(b) {
				out = append(out, fmt.Sprintf("pipes cross without a bow at %.0f, %.0f", max(a.a.x, b.a.x), max(a.a.y, b.a.y)))
			}
		}
	}
	return out
}

func TestNothingInTheBoilerRoomCollides(t *testing.T) {
	for _, separator := range separators {
		for _, water := range hotWaters {
			for _, house := range houses {
				for _, width := range []float64{340, 420, 563, 565, 760, 1200} {
					for n := range 4 {
						system, hot := units.System(n%2), n > 1
						sheet := plantOf(system, separator, water, house...)
						for i := range sheet.Flows[0].Circuits {
							sheet.Flows[0].Circuits[i].Flow *= 2 // wide figures
							if hot {
								sheet.Plant.Circuits[i].Limit = units.Fahrenheit(92)
							}
						}
						if hot {
							sheet.Flows[0].BoilerFlow *= 4
							sheet.Plant.SeparatorSensor = strings.ReplaceAll(sheet.Plant.SeparatorSensor, "on a module", "at the boiler")
						}
						s, _ := sceneOf(sheet, 0)
						d := &drawn{canvas: &svgCanvas{size: svgFont}}
						k := newSketch(d)
						l := layOut(s, k, width/svgFont)
						drawBoilerRoom(k, s, l)
						for _, fault := range d.faults(width, l.height*svgFont) {
							t.Errorf("%s, %s, %v, %.0f px, %s: %s", separator, water, house, width, system, fault)
						}
						if t.Failed() {
							return
						}
					}
				}
			}
		}
	}
}

func TestBoilerRoomIsDescribedInWords(t *testing.T) {
	s, _ := sceneOf(plantOf(units.US, "low-loss header", "tank with own pump", "radiators", "slab"), 0)
	words := strings.ReplaceAll(s.words(), "\u00a0", " ")
	for _, want := range []string{"At 5 °F outdoors, sensor: north-west wall.", "The condensing boiler sends out 156 °F and gets back 129 °F, 8.4 gpm.",
		"low-loss header, sensor behind it, wired to a module; behind it 151 °F", "tank with own pump, 50 gal, kept at 140 °F, with a mixing valve at its outlet, with a circulation loop",
		"Kitchen slab, mixed: heated floor · valve 18 % hot, supply 104 °F, return 94 °F, 2.1 gpm, pump at constant pressure."} {
		if !strings.Contains(words, want) {
			t.Errorf("the description lacks %q: %s", want, words)
		}
	}
	if s, _ := sceneOf(plantOf(units.US, "none", "none", "bath", "radiators"), 0); !strings.Contains(strings.ReplaceAll(s.words(), "\u00a0", " "), "1.2 gpm, on the pump of Radiators.") {
		t.Errorf("the description lacks the pump of two circuits: %s", s.words())
	}
}

// Circuits on one pump are drawn with one pump, and none of those that have their own loses it.
func TestOnePumpOfSeveralCircuitsIsDrawnOnce(t *testing.T) {
	pumps := func(circuits ...string) int {
		d := &drawn{canvas: &svgCanvas{size: svgFont}}
		s, _ := sceneOf(plantOf(units.US, "none", "none", circuits...), 0)
		k := newSketch(d)
		drawBoilerRoom(k, s, layOut(s, k, 760/svgFont))
		n := 0
		for _, r := range d.rings {
			if math.Abs(r.radius-pumpRadius*k.u) < 1e-6 {
				n++
			}
		}
		return n
	}
	if all, one := pumps("radiators", "old", "slab"), pumps("radiators", "bath", "slab"); one != all-1 {
		t.Errorf("%d rings with three pumps, %d with two", all, one)
	}
	if lost := plantOf(units.US, "none", "none", "bath", "slab"); !strings.Contains(BoilerRoomSVG(lost, 0, 760, 0), "Kitchen slab") {
		t.Error("a circuit on a pump that is not there spoils the drawing")
	}
}

// What is too hot is told by a sign and by words, not by a colour.
func TestWaterTooHotForItsCircuitIsMarked(t *testing.T) {
	sheet := plantOf(units.US, "none", "none", "radiators", "slab")
	sheet.Plant.Circuits[0].Limit, sheet.Plant.Circuits[1].Limit = units.Fahrenheit(160), units.Fahrenheit(95)
	svg := strings.ReplaceAll(BoilerRoomSVG(sheet, 0, 360, 0), "\u00a0", " ")
	if strings.Count(svg, ">too hot: limit") != 1 || !strings.Contains(svg, ">too hot: limit 95 °F<") {
		t.Error("the slab gets water above its limit, and the drawing does not say so")
	}
	if s, _ := sceneOf(sheet, 0); !strings.Contains(strings.ReplaceAll(s.words(), "\u00a0", " "), "supply 104 °F, too hot: limit 95 °F, return") {
		t.Errorf("nor do the words: %s", s.words())
	}
}

func TestBoilerRoomIsWellFormedForAnyNameAndSize(t *testing.T) {
	sheet := plantOf(units.US, "four-pipe buffer", "tank with own pump", "radiators", "slab")
	sheet.Plant.Circuits[0].Name = `</text><script>alert(1)</script>` + "\x00\xff\ufffe"
	sheet.Flows[0].Circuits[1].Supply = units.Temperature(math.NaN())
	sheet.Flows[0].BoilerFlow = units.Flow(math.Inf(1))
	for _, size := range [][2]float64{{340, 0}, {0, 0}, {math.NaN(), math.Inf(1)}, {1e9, -4}} {
		for _, outdoor := range []int{-1, 0, 99} {
			svg := BoilerRoomSVG(sheet, outdoor, size[0], size[1])
			d := xml.NewDecoder(strings.NewReader(svg))
			for {
				tok, err := d.Token()
				if err == io.EOF {
					break
				}
				if err != nil {
					t.Fatalf("size %v: %v", size, err)
				}
				if e, ok := tok.(xml.StartElement); ok && (e.Name.Local == "script" || e.Name.Local == "style") {
					t.Errorf("size %v: the drawing has a <%s>", size, e.Name.Local)
				}
			}
			if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
				t.Errorf("size %v: a value is no number", size)
			}
		}
	}
	for what, none := range map[string]*settings.Sheet{"no sheet": nil, "empty sheet": {}, "no plant": fixture(units.US)} {
		if svg := BoilerRoomSVG(none, 0, 340, 0); !strings.Contains(svg, "No boiler room to draw") {
			t.Errorf("%s: the image does not say so", what)
		}
	}
}

func TestBoilerRoomWithoutFlowsComesFromTheCurves(t *testing.T) {
	sheet := fixture(units.US)
	for _, c := range sheet.Circuits {
		sheet.Plant.Circuits = append(sheet.Plant.Circuits, settings.PlantCircuit{Name: c.Name, Kind: c.Kind, Family: "radiators"})
	}
	outdoors := BoilerRoomOutdoors(sheet)
	if len(outdoors) != len(sheet.Circuits[0].Points) || outdoors[0] != sheet.Design {
		t.Fatalf("outdoor temperatures %v, want those of the curves", outdoors)
	}
	s, _ := sceneOf(sheet, 0)
	for i, c := range sheet.Circuits {
		if got := s.circuit(i); got.Supply != c.Points[0].Set || got.Return != c.Points[0].Return {
			t.Errorf("%s: %v, want the curve's first point", c.Name, got)
		}
	}
	if _, ok := sceneOf(sheet, 5); !ok || !bytes.Contains([]byte(BoilerRoomSVG(sheet, 0, 760, 0)), []byte("Kitchen slab")) {
		t.Error("the drawing lacks a circuit")
	}
}

// boilerRoomSheet is the made-up house with everything that the boiler room's page holds.
func boilerRoomSheet(system units.System) *settings.Sheet {
	sheet := fixture(system)
	drawn := plantOf(system, "low-loss header", "tank with own pump", "radiators", "slab", "attic")
	sheet.Plant, sheet.Flows = drawn.Plant, drawn.Flows
	sheet.Sections = append(sheet.Sections, settings.Section{Title: "Flows", Part: settings.BoilerRoom, Lines: []settings.Line{
		{ID: "flow.radiators", Label: "Flow of the radiators", Value: "4.8 gpm", Why: "Carries 48,000 Btu/h with a drop of 20 °F.", TooLow: "The last radiator stays cool."},
		{ID: "vessel.precharge", Label: "Precharge of the expansion vessel", Value: "12 psi", Allowed: "10 – 18 psi", Why: "The highest radiator stands 20 ft above it."},
	}})
	f := units.Fahrenheit
	sheet.Boiler = settings.BoilerSeason{Known: true, DewPoint: f(129), Condensing: 0.66, Efficiency: 0.91, Cycles: true, Modulation: "it runs through below 50 °F outdoors and cycles above",
		Starts: 1812, Worst: 1.5, WorstAt: f(60), WorstRun: units.Time(700), Points: []settings.BoilerPoint{
			{Outdoor: f(5), Supply: f(151), Return: f(131), Load: units.BtuPerHour(46200), Efficiency: 0.88},
			{Outdoor: f(60), Supply: f(92), Return: f(88), Load: units.BtuPerHour(3900), Efficiency: 0.97, Run: units.Time(700), Rest: units.Time(1900)}}}
	table := settings.SensorTable{Name: "outdoor", Kind: "thermistor, 10 kΩ at 25 °C, B 3977"}
	for t := -5.0; t < 80; t += 15 {
		r := 32650 * math.Exp(-t/24)
		table.Rows = append(table.Rows, settings.SensorRow{At: f(t), Resistance: units.ElectricResistance(r), Low: units.ElectricResistance(r * 0.96), High: units.ElectricResistance(r * 1.04)})
	}
	sheet.Sensors = []settings.SensorTable{table, table, table}
	return sheet
}

func TestBoilerRoomFollowsTheSettings(t *testing.T) {
	var text bytes.Buffer
	if err := SheetText(&text, boilerRoomSheet(units.US), 80); err != nil {
		t.Fatal(err)
	}
	_, room, _ := strings.Cut(text.String(), "BOILER ROOM")
	room, _, _ = strings.Cut(room, "Cautions ─")
	golden(t, "boilerroom-80.txt", room)
}
