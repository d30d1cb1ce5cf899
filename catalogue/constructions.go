package catalogue

import (
	"curvewright/job"
	"curvewright/units"
)

// Constructions as layers from outside to inside, as they were usual in their time. The
// U-value follows by ISO 6946. Conductivities and air layers are design values after
// ISO 10456 and ISO 6946, from memory.

// material is what a layer is made of, with its conductivity in W/(m·K).
type material struct {
	id     string
	lambda units.Conductivity
}

var (
	brick     = material{"brick", 0.77}
	oldBrick  = material{"hollow-brick", 0.45}
	blocks    = material{"concrete-block", 1.10}
	aerated   = material{"aerated-block", 0.18}
	light     = material{"light-aerated", 0.09}
	stone     = material{"stone", 2.30}
	concrete  = material{"concrete", 2.00}
	screed    = material{"screed", 1.40}
	render    = material{"render", 1.00}
	plaster   = material{"plaster", 0.57}
	gypsum    = material{"gypsum-board", 0.25}
	wood      = material{"wood", 0.13}
	woodPanel = material{"wood-panel", 0.13}
	wool      = material{"mineral-wool", 0.040}
	foam      = material{"foam", 0.035}
)

// studs is the conductivity of the timber that bridges a layer.
const studs = 0.13

// of is a layer of a material.
func (m material) of(millimetres float64) job.Layer {
	return job.Layer{
		Material:     m.id,
		Thickness:    job.Says(units.Millimetres(millimetres), job.Estimated),
		Conductivity: job.Says(m.lambda, job.Estimated),
	}
}

// between is a layer of a material between timber that takes a share of the area.
func (m material) between(millimetres float64, share units.Fraction) job.Layer {
	l := m.of(millimetres)
	l.BridgedBy = job.Says(units.Conductivity(studs), job.Estimated)
	l.BridgeShare = job.Says(share, job.Estimated)
	return l
}

// still is a layer of still air, by its resistance.
func still(id string, r units.Resistance) job.Layer {
	return job.Layer{Material: id, Resistance: job.Says(r, job.Estimated)}
}

// Resistances of air layers of 25 mm and more, heat flowing sideways and down, and of
// a ventilated loft under tiles with boards or felt (ISO 6946).
const (
	cavity     units.Resistance = 0.18
	cavityDown units.Resistance = 0.21
	loft       units.Resistance = 0.20
)

func layered(group Group, facing, id string, layers ...job.Layer) Entry {
	return Entry{ID: id, Kind: id, Group: group, Source: FromLayers, Construction: &job.Construction{Name: id, Facing: facing, Layers: layers}}
}

func pane(id string, u units.Transmittance) Entry {
	return Entry{ID: id, Kind: id, Group: Windows, Source: UsualWindow, Construction: &job.Construction{Name: id, Facing: "wall", U: job.Says(u, job.Estimated)}}
}

// constructions are from the oldest to the newest within their group.
func constructions() []Entry {
	wall := func(id string, layers ...job.Layer) Entry { return layered(Walls, "wall", id, layers...) }
	roof := func(id string, layers ...job.Layer) Entry { return layered(Roofs, "roof", id, layers...) }
	floor := func(id string, layers ...job.Layer) Entry { return layered(Floors, "floor", id, layers...) }
	return []Entry{
		wall("wall-stone", stone.of(500), plaster.of(20)),
		wall("wall-brick-solid", brick.of(220), plaster.of(15)),
		wall("wall-brick-thick", brick.of(360), plaster.of(15)),
		wall("wall-brick-cavity", brick.of(102), still("air", cavity), brick.of(102), plaster.of(13)),
		wall("wall-brick-cavity-filled", brick.of(102), wool.of(65), aerated.of(100), plaster.of(13)),
		wall("wall-log", wood.of(200)),
		wall("wall-frame-empty", wood.of(19), woodPanel.of(19), bridgedAir(), gypsum.of(16)),
		wall("wall-frame-90", wood.of(19), woodPanel.of(12), wool.between(89, 0.23), gypsum.of(13)),
		wall("wall-frame-140", wood.of(19), woodPanel.of(12), wool.between(140, 0.23), gypsum.of(13)),
		wall("wall-frame-140-foam", wood.of(19), foam.of(50), woodPanel.of(12), wool.between(140, 0.23), gypsum.of(13)),
		wall("wall-block", render.of(15), blocks.of(200), plaster.of(13)),
		wall("wall-hollow-brick", render.of(20), oldBrick.of(300), plaster.of(15)),
		wall("wall-block-outside", render.of(10), foam.of(120), blocks.of(200), plaster.of(13)),
		wall("wall-aerated", render.of(15), light.of(365), plaster.of(10)),

		roof("roof-loft-bare", still("loft", loft), gypsum.of(16)),
		roof("roof-loft-100", still("loft", loft), wool.between(100, 0.10), gypsum.of(13)),
		roof("roof-loft-250", still("loft", loft), wool.of(150), wool.between(100, 0.10), gypsum.of(13)),
		roof("roof-loft-400", still("loft", loft), wool.of(300), wool.between(100, 0.10), gypsum.of(13)),
		roof("roof-rafters-100", wool.between(100, 0.12), gypsum.of(13)),
		roof("roof-rafters-180", wool.between(180, 0.12), gypsum.of(13)),
		roof("roof-rafters-300", wool.between(300, 0.10), gypsum.of(13)),
		roof("roof-flat-bare", concrete.of(180), plaster.of(10)),
		roof("roof-flat-100", foam.of(100), concrete.of(180), plaster.of(10)),
		roof("roof-flat-200", foam.of(200), concrete.of(180), plaster.of(10)),

		floor("floor-joists-bare", still("air", cavityDown), wood.of(22)),
		floor("floor-joists-100", wool.between(100, 0.12), wood.of(22)),
		floor("floor-joists-200", wool.between(200, 0.12), wood.of(22)),
		floor("floor-concrete-bare", concrete.of(150), screed.of(50)),
		floor("floor-concrete-40", concrete.of(160), foam.of(40), screed.of(50)),
		floor("floor-concrete-100", concrete.of(180), foam.of(100), screed.of(60)),

		pane("window-single", 4.8),
		pane("window-double", 2.8),
		pane("window-low-e", 1.8),
		pane("window-low-e-argon", 1.3),
		pane("window-triple", 0.9),
		pane("door-wood", 2.6),
		pane("door-insulated", 1.4),
	}
}

// bridgedAir is the empty space between the studs of an old frame wall.
func bridgedAir() job.Layer {
	l := still("air", cavity)
	l.Thickness = job.Says(units.Millimetres(89), job.Estimated)
	l.BridgedBy = job.Says(units.Conductivity(studs), job.Estimated)
	l.BridgeShare = job.Says(units.Fraction(0.23), job.Estimated)
	return l
}
