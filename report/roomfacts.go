package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/settings"
	"curvewright/units"
)

// What does the drawing of the boiler room say? Here are the facts behind it, and the
// same in sentences; boilerroom.go says where things go.

// BoilerRoomOutdoors lists the outdoor temperatures at which the boiler room can be
// drawn, cold first.
func BoilerRoomOutdoors(sheet *settings.Sheet) []units.Temperature {
	var out []units.Temperature
	for _, f := range flowPoints(sheet) {
		out = append(out, f.Outdoor)
	}
	return out
}

// flowPoints are the sheet's, or for a sheet without them what its curves say: then
// nothing is known about the boiler's flow.
func flowPoints(sheet *settings.Sheet) []settings.FlowPoint {
	if sheet == nil {
		return nil
	}
	if len(sheet.Flows) > 0 {
		return sheet.Flows
	}
	if len(sheet.Circuits) == 0 {
		return nil
	}
	var out []settings.FlowPoint
	for _, first := range drawable(&sheet.Circuits[0]) {
		f := settings.FlowPoint{Outdoor: first.Outdoor, Separated: separated(sheet.Plant.Separator)}
		for _, b := range sheet.Boiler.Points {
			if b.Outdoor == f.Outdoor {
				f.BoilerSupply, f.BoilerReturn = b.Supply, b.Return
			}
		}
		for i := range sheet.Circuits {
			ct := &sheet.Circuits[i]
			for _, p := range drawable(ct) {
				if p.Outdoor == f.Outdoor {
					f.Circuits = append(f.Circuits, settings.FlowCircuit{Name: ct.Name, Mixed: ct.Kind == "mixed", Supply: p.Set, Return: p.Return, Flow: ct.Flow})
				}
			}
		}
		out = append(out, f)
	}
	return out
}

// scene is the boiler room at one outdoor temperature.
type scene struct {
	plant  *settings.Plant
	flow   settings.FlowPoint
	system units.System
}

// sceneOf takes the outdoor temperature by its place in [BoilerRoomOutdoors]; one
// beyond its ends is taken at the end.
func sceneOf(sheet *settings.Sheet, outdoor int) (scene, bool) {
	points := flowPoints(sheet)
	if len(points) == 0 || len(sheet.Plant.Circuits) == 0 {
		return scene{}, false
	}
	return scene{besideTheirPumps(&sheet.Plant), points[min(max(outdoor, 0), len(points)-1)], sheet.System}, true
}

// besideTheirPumps puts circuits that have no pump of their own right after the circuit
// whose pump drives them.
func besideTheirPumps(p *settings.Plant) *settings.Plant {
	out := *p
	out.Circuits = nil
	for _, c := range p.Circuits {
		if c.PumpOf != "" {
			continue
		}
		out.Circuits = append(out.Circuits, c)
		for _, driven := range p.Circuits {
			if driven.PumpOf == c.Name {
				out.Circuits = append(out.Circuits, driven)
			}
		}
	}
	if len(out.Circuits) != len(p.Circuits) { // names that say nothing: each by itself
		out.Circuits = slices.Clone(p.Circuits)
		for i := range out.Circuits {
			out.Circuits[i].PumpOf = ""
		}
	}
	return &out
}

// driven says whether a circuit hangs on the pump of the one above it.
func (s scene) driven(i int) bool { return s.plant.Circuits[i].PumpOf != "" }

// lastDriven is the last circuit that the pump of circuit i drives: i itself if no other.
func (s scene) lastDriven(i int) int {
	for i+1 < len(s.plant.Circuits) && s.driven(i+1) {
		i++
	}
	return i
}

func separated(kind string) bool { return kind != "" && kind != "none" }

func (s scene) separated() bool { return separated(s.plant.Separator) }

// hasTank says whether water is heated in a tank.
func (s scene) hasTank() bool { return strings.HasPrefix(s.plant.HotWater, "tank") }

// boilerPump says whether the boiler has a pump beside those of the circuits.
func (s scene) boilerPump() bool {
	return s.separated() || s.plant.HotWater == "combi" || s.plant.HotWater == "tank with three-way valve"
}

// circuitPumps says whether the circuits have pumps: the only direct circuit of a
// boiler with a pump is served by that one.
func (s scene) circuitPumps() bool {
	return s.separated() || !s.boilerPump() || len(s.plant.Circuits) > 1 || s.plant.Circuits[0].Kind == "mixed"
}

// circuit is a circuit's water, by its place in the plant.
func (s scene) circuit(i int) settings.FlowCircuit {
	name := s.plant.Circuits[i].Name
	if i < len(s.flow.Circuits) && s.flow.Circuits[i].Name == name {
		return s.flow.Circuits[i]
	}
	if k := slices.IndexFunc(s.flow.Circuits, func(f settings.FlowCircuit) bool { return f.Name == name }); k >= 0 {
		return s.flow.Circuits[k]
	}
	return settings.FlowCircuit{}
}

// degrees is a temperature, or nothing where there is none.
func (s scene) degrees(t units.Temperature) string {
	if !isTemperature(t) {
		return ""
	}
	return whole(s.system, t)
}

func (s scene) flowText(f units.Flow) string {
	if !(f > 0) || math.IsInf(float64(f), 0) {
		return ""
	}
	return unbrokenText(f.Text(s.system))
}

func unbrokenText(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

func (s scene) tankVolume() string { return s.water(s.plant.TankVolume) }

// water is a volume of water, or nothing where there is none.
func (s scene) water(v units.Volume) string {
	if !(v > 0) || math.IsInf(float64(v), 0) {
		return ""
	}
	return unbrokenText(v.WaterText(s.system))
}

// familyWords names a family of emitters.
func familyWords(family string) string {
	if family == "floor" {
		return "heated floor"
	}
	return family
}

func (s scene) emitterWords(i int) string {
	words := familyWords(s.plant.Circuits[i].Family)
	if hot := s.circuit(i).Hot; s.plant.Circuits[i].Kind == "mixed" && hot > 0 && hot <= 1 {
		words = joined(" · ", words, "valve "+percent(hot)+" hot")
	}
	return words
}

// tooHot says that a circuit's supply is hotter than it may be, and by what limit.
func (s scene) tooHot(i int) string {
	const slack = 0.5 // K: rounding of a curve
	limit := s.plant.Circuits[i].Limit
	if limit <= 0 || !(s.circuit(i).Supply > limit+slack) || s.degrees(limit) == "" {
		return ""
	}
	return "too hot: limit " + s.degrees(limit)
}

func (s scene) sensorWords() string {
	place := s.plant.OutdoorPlace
	if place == "not known" {
		place = ""
	}
	switch s.plant.OutdoorSensor {
	case "no":
		return "no outdoor sensor"
	case "planned":
		return joined(": ", "sensor planned", place)
	}
	return prefixed("sensor: ", place)
}

// separatorWords names the separator, its water and its sensor, in the words of the sheet.
func (s scene) separatorWords() string {
	if !s.separated() {
		return ""
	}
	return joined(", ", s.plant.Separator, s.water(s.plant.BufferVolume), settings.SeparatorSensorWords(s.plant.SeparatorSensor))
}

func (s scene) hasSeparatorSensor() bool {
	return s.separated() && s.plant.SeparatorSensor != "" && s.plant.SeparatorSensor != "none"
}

// unsurveyed says whether anything is drawn that nobody surveyed.
func (s scene) unsurveyed() bool { return !s.plant.Vessel || !s.plant.Relief }

// legend says what the lines and letters of the drawing mean, as far as they occur.
func (s scene) legend() string {
	words := "Thick: supply. Dash-dot: return."
	if s.plant.HotWater == "combi" || s.hasTank() {
		words += " Thin: drinking water."
	}
	words += " T:\u00a0temperature sensor."
	mixed := slices.ContainsFunc(s.plant.Circuits, func(c settings.PlantCircuit) bool { return c.Kind == "mixed" })
	if mixed || s.plant.HotWater == "tank with three-way valve" {
		words += " M:\u00a0motor valve."
	}
	if s.unsurveyed() {
		words += " ?:\u00a0belongs there, not in the survey."
	}
	return words
}

// words describes the plant to a reader who cannot see it.
func (s scene) words() string {
	p, f := s.plant, s.flow
	said := []string{"At " + whole(s.system, f.Outdoor) + " outdoors" + prefixed(", ", s.sensorWords()) + "."}
	boiler := joined(" ", "The", p.BoilerKind, "boiler")
	if t := s.degrees(f.BoilerSupply); t != "" {
		boiler += " sends out " + t
		if back := s.degrees(f.BoilerReturn); back != "" {
			boiler += " and gets back " + back
		}
	} else {
		boiler += " heats the water"
	}
	said = append(said, boiler+prefixed(", ", s.flowText(f.BoilerFlow))+".")
	if s.separated() {
		said = append(said, "Between boiler and circuits: "+s.separatorWords()+prefixed("; behind it ", s.degrees(f.Secondary))+".")
	} else {
		said = append(said, "Nothing separates boiler and circuits.")
	}
	switch {
	case p.HotWater == "combi":
		said = append(said, "The boiler makes hot water itself"+prefixed(", at ", s.degrees(p.TankSetpoint))+".")
	case s.hasTank():
		tank := "Hot water: " + p.HotWater + prefixed(", ", s.tankVolume()) + prefixed(", kept at ", s.degrees(p.TankSetpoint))
		if p.MixingValveAtTank {
			tank += ", with a mixing valve at its outlet"
		}
		if p.Loop {
			tank += ", with a circulation loop"
		}
		said = append(said, tank+".")
	}
	for i, c := range p.Circuits {
		w := s.circuit(i)
		said = append(said, fmt.Sprintf("%s, %s: %s.", c.Name, c.Kind, joined(", ", s.emitterWords(i), prefixed("supply ", s.degrees(w.Supply)), s.tooHot(i),
			prefixed("return ", s.degrees(w.Return)), s.flowText(w.Flow), prefixed("pump at ", c.PumpMode), prefixed("on the pump of ", c.PumpOf))))
	}
	return strings.Join(said, " ")
}
