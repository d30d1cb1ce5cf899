package visit

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"curvewright/job"
	"curvewright/units"
)

// houses draws houses of all sorts: what they lose, what heats them, how boiler and
// circuits are joined, and how large the boiler is. It knows nothing of faults.
type houses struct {
	r *rand.Rand
	b strings.Builder
}

func (h *houses) between(low, high float64) float64 { return low + (high-low)*h.r.Float64() }
func (h *houses) chance(p float64) bool             { return h.r.Float64() < p }
func (h *houses) pick(from ...string) string        { return from[h.r.IntN(len(from))] }
func (h *houses) write(format string, args ...any)  { fmt.Fprintf(&h.b, format, args...) }

// document writes a job. With least above 0 the boiler's least output is that share of
// the load, so that it runs through.
func document(r *rand.Rand, least float64, floors bool) string {
	h := &houses{r: r}
	design := h.between(-28, -4)
	h.write("curvewright: 1\njob: drawn\ndisplay: si\nsite: {design_outdoor: %.1f °C, annual_mean: %.1f °C, elevation: %.0f m}\n", design, design+h.between(17, 24), h.between(0, 600))
	rooms := 2 + h.r.IntN(7)
	two := floors && rooms > 1 && h.chance(0.6)
	three := two && rooms > 2 && h.chance(0.25)
	series := h.chance(0.15)
	load := 0.0
	circuitLoad := map[string]float64{}
	var lines []string
	kind := h.pick("radiator", "radiator", "cast_iron", "fin_tube")
	if series {
		kind = "fin_tube"
	}
	area := 0.0
	for i := range rooms {
		a := h.between(9, 32)
		q := a * h.between(30, 95)
		circuit := "A"
		if two && (i == rooms-1 || i > 0 && h.chance(0.35)) {
			circuit = "B"
			q = min(q, a*55)
		}
		if three && i == 1 {
			circuit = "C"
		}
		area, load = area+a, load+q
		circuitLoad[circuit] += q
		size := h.between(0.85, 2.2)
		set := 20 + float64(h.r.IntN(5))*0.5
		lines = append(lines, fmt.Sprintf("  - name: room %d\n    area: {value: %.1f m², known: measured}\n    setpoint: %.1f °C\n    load: {value: %.0f W, known: %s}\n    gains: %.0f W\n    emitters:\n      - circuit: %s\n        %s\n",
			i+1, a, set, q, h.pick("drawings", "estimated", "measured"), a*h.between(0.5, 3), circuit, h.emitter(circuit, kind, q, a, size)))
	}
	h.write("house: {floor_area: %.1f m², storeys: %d, setpoint: 21 °C}\nrooms:\n%s", area, 1+h.r.IntN(3), strings.Join(lines, ""))
	h.write("circuits:\n")
	flow := 0.0
	circuit := func(name, kind, layout string, drop float64) {
		known := h.pick("measured", "estimated", "drawings")
		h.write("  - {name: %s, kind: %s, layout: %s, drop: {value: %.1f K, known: %s}}\n", name, kind, layout, drop, known)
		flow += circuitLoad[name] / drop / 4.1e6 * 60000 // L/min
	}
	layout := "parallel"
	if series {
		layout = "series"
	}
	circuit("A", h.pick("direct", "direct", "direct", "mixed"), layout, h.between(6, 18))
	if two {
		circuit("B", "mixed", "parallel", h.between(4, 9))
	}
	if three {
		circuit("C", h.pick("direct", "mixed"), "parallel", h.between(6, 18))
	}
	output := load * h.between(1.1, 3)
	min := output * h.between(0.08, 0.3)
	if least > 0 {
		min = max(150, least*load)
	}
	h.write("boiler: {kind: condensing, fuel: %s, output: %.0f W, min_output: %.0f W, max_supply: 90 °C}\n", h.pick("natural gas", "natural gas", "propane"), output, min)
	if sep := h.pick("none", "low-loss header", "closely spaced tees"); sep != "none" {
		h.write("separator: {kind: %s, sensor: %s, boiler_flow: {value: %.2f L/min, known: %s}}\n", sep, h.pick("none", "on a module"), max(1, flow*h.between(0.55, 1.8)), h.pick("measured", "estimated"))
	}
	if h.chance(0.6) {
		h.write("hot_water: {by: tank with own pump, tank: %.0f L, setpoint: 60 °C, priority: yes, coil: {output: %.0f W, supply: 80 °C, flow: 25 L/min}}\n", h.between(120, 250), h.between(12e3, 30e3))
	}
	if h.chance(0.7) {
		h.write("system: {content: %.0f L, height: %.1f m, relief: 3 bar}\n", load/1000*h.between(8, 16), h.between(3, 9))
	}
	h.write("outdoor_sensor: {fitted: yes, place: %s}\n", h.pick("north wall", "west wall", "east wall", "not known"))
	h.write("control: {scale: celsius, step: 0.5 K, min_supply: 20 °C, max_supply: 90 °C, curve: {%s}, cut_off: {from: 10 °C, to: 22 °C, step: 1 K}}\n",
		h.pick("two_points: {}", "slope_shift: {slope: {from: 0.1, to: 4, step: 0.1}, shift: {from: -15 K, to: 25 K, step: 1 K}}", "bent: {exponent: {from: 1, to: 1.6, step: 0.1}}"))
	return h.b.String()
}

// emitter draws what heats a room of a load: size 1 just suits 65 °C, floors 45 °C.
func (h *houses) emitter(circuit, kind string, load, area, size float64) string {
	if circuit == "B" {
		return fmt.Sprintf("floor: {construction: wet slab, area: %.1f m², spacing: %.0f mm, tube: 16 mm, tube_material: pex, cover: 45 mm, conductivity: 1.2 W/m·K, covering: %.2f m²K/W, covering_kind: tile, insulation_below: 2.5 m²K/W, temperature_below: 10 °C}",
			area*h.between(0.8, 0.95), h.between(100, 250), h.between(0.01, 0.1))
	}
	known := h.pick("measured", "drawings", "estimated")
	switch kind {
	case "cast_iron":
		return fmt.Sprintf("cast_iron: {edr: {value: %.1f EDR, known: %s}}", load*size/70.3*1.5, known)
	case "fin_tube":
		return fmt.Sprintf("fin_tube: {length: {value: %.2f m, known: %s}, output: 560 Btu/h·ft, at: 180 °F}", load*size/538*1.9, known)
	}
	return fmt.Sprintf("radiator: {output: {value: %.0f W, known: %s}, kind: %s}", load*size*1.25, known, h.pick("panel", "column", "convector"))
}

// fataler is what both kinds of test can do.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// drawn gives a house of a seed; not every drawing can be solved, and then the next is taken.
func drawn(t fataler, seed uint64, least float64, floors bool) *House {
	t.Helper()
	for n := range uint64(40) {
		text := document(rand.New(rand.NewPCG(seed, n)), least, floors)
		j, err := job.Read([]byte(text))
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, text)
		}
		if h, err := New(j, units.SI); err == nil {
			return h
		}
	}
	t.Fatalf("seed %d: no house of forty can be solved", seed)
	return nil
}
