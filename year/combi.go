package year

// A boiler that heats the taps' water as it flows: meanwhile nobody's heating runs.

import (
	"fmt"

	"curvewright/fluid"
	"curvewright/hotwater"
	"curvewright/refuse"
	"curvewright/units"
)

// Combi is hot water made as it flows.
type Combi struct {
	Cold  units.Temperature // of the cold water
	Draws hotwater.Pattern  // of every day
}

func (c Combi) check() error {
	return refuse.Within("cold water", c.Cold, units.Celsius(0.1), units.Celsius(40))
}

// combiNode is a combi in the middle of a run.
type combiNode struct {
	draws     *draws // nil without a combi
	cold      float64
	perVolume float64 // J/(m³·K)
	drawing   bool    // in this minute
	ran       float64 // s, of the draw so far
}

func makeCombi(c Combi) (combiNode, error) {
	d, err := spread(c.Draws)
	if err != nil {
		return combiNode{}, fmt.Errorf("combi: %w", err)
	}
	perVolume, err := fluid.Water().HeatFactor(c.Cold + 15)
	if err != nil {
		return combiNode{}, fmt.Errorf("combi: %w", err)
	}
	return combiNode{draws: d, cold: float64(c.Cold), perVolume: float64(perVolume)}, nil
}

// tap lets the taps of a minute run. All heat that the boiler has goes there; what is
// missing makes the water cooler than wanted. The return is taken halfway between cold and
// hot water (common practice: the exchanger for the taps is small).
func (m *model) tap() {
	c, b, s := &m.combi, &m.boiler, &m.sums
	volume := c.draws.volume[m.minute]
	if c.drawing = volume > 0; !c.drawing {
		if c.ran > 0 {
			s.endRun(c.ran)
			c.ran = 0
		}
		return
	}
	wanted, open := max(c.cold, c.draws.wanted[m.minute]), c.draws.open[m.minute]*minute
	asked := volume * c.perVolume * (wanted - c.cold)
	heat := min(asked, b.most*open)
	if b.dead || m.unpowered {
		heat = 0
	}
	tap := c.cold + heat/(volume*c.perVolume)
	s.water += volume
	s.wanted += asked
	s.tapped += heat
	s.coolest = min(s.coolest, tap)
	if tap < wanted-tapSlack {
		s.short += volume
		s.shortFor += open
	}
	if heat == 0 {
		return
	}
	if c.ran == 0 {
		s.starts++
		s.startsToday++
	}
	c.ran += open
	eta, condenses := m.burner.at((c.cold+tap)/2, heat/open/b.most)
	s.fuel += heat / eta
	s.burnt += heat
	s.delivered += heat
	s.drawn += heat
	s.burning += open
	if condenses {
		s.condensing += open
	}
	s.electricity += m.fan * open
}
