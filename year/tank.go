package year

// The tank as a stack of layers: draws take from the top and let cold water in below,
// the coil heats the layers in which it stands, warm water rises. The same balance as
// [hotwater.TankDay], joined to a boiler whose water is not always hot.

import (
	"math"

	"curvewright/hotwater"
	"curvewright/units"
)

const (
	minute      = 60.0
	minutesADay = 1440
	tapSlack    = 0.05 // K, so that rounding is not counted as cool water
)

// draws is a pattern by the minutes of a day.
type draws struct {
	volume [minutesADay]float64 // at the taps, m³
	wanted [minutesADay]float64 // K
	open   [minutesADay]float64 // share of the minute
}

// spread lays the draws of a pattern over the minutes; what runs past midnight ends in
// the morning of the same pattern.
func spread(p hotwater.Pattern) (*draws, error) {
	if len(p.Draws) == 0 {
		return &draws{}, nil
	}
	if _, err := p.Timeline(); err != nil { // judges the pattern
		return nil, err
	}
	d := &draws{}
	for _, one := range p.Draws {
		begin := float64(one.At) / minute
		end := begin + float64(one.Volume)/float64(one.Flow)/minute
		for i := int(begin); float64(i) < end; i++ {
			share := min(end, float64(i+1)) - max(begin, float64(i))
			volume := share * minute * float64(one.Flow)
			k := i % minutesADay
			d.wanted[k] = (d.wanted[k]*d.volume[k] + float64(one.Wanted)*volume) / (d.volume[k] + volume)
			d.volume[k] += volume
			d.open[k] = max(d.open[k], share)
		}
	}
	return d, nil
}

// advanceTank moves the tank by one outer step.
func (m *model) advanceTank() {
	t := &m.tank
	moved := t.heat != 0
	if m.slow {
		t.lose(m) // leaves their order as it is
		t.findCoilMean()
	}
	if t.heat != 0 {
		each := t.heat / float64(t.coil) * t.inv
		for i := range t.coil {
			t.t[i] += each
		}
		t.heat = 0
	}
	if k := m.minute; m.minuteBegins && t.draws.volume[k] > 0 {
		m.draw(t.draws.volume[k], max(t.cold, t.draws.wanted[k]), t.draws.open[k])
		moved = true
	}
	if moved {
		t.settle()
		t.findCoilMean()
	}
}

// lose takes the heat that leaves through the tank's coat until the next look.
func (t *tankNode) lose(m *model) {
	dt := lookEvery * minute
	for i := range t.n {
		lost := dt * t.loss * (t.t[i] - t.room)
		t.t[i] -= lost * t.inv
		m.sums.tankLost += lost
	}
}

func (t *tankNode) findCoilMean() {
	sum := 0.0
	for i := range t.coil {
		sum += t.t[i]
	}
	t.coilMean = sum / float64(t.coil)
}

// draw lets the taps of a minute run. No portion moves more than one layer.
func (m *model) draw(volume, wanted, open float64) {
	t, s := &m.tank, &m.sums
	portions := math.Ceil(volume / t.volume)
	portion := volume / portions
	for range int(portions) {
		top := t.t[t.n-1]
		hot, tap := portion, top
		if top > wanted {
			hot, tap = portion*(wanted-t.cold)/(top-t.cold), wanted
		}
		s.water += portion
		s.wanted += portion * t.perVolume * (wanted - t.cold)
		s.tapped += portion * t.perVolume * (tap - t.cold)
		s.drawn += hot * t.perVolume * (top - t.cold)
		s.coolest = min(s.coolest, tap)
		if tap < wanted-tapSlack {
			s.short += portion
			s.shortFor += open * minute / portions
		}
		f := hot / t.volume
		for k := t.n - 1; k > 0; k-- {
			t.t[k] += f * (t.t[k-1] - t.t[k])
		}
		t.t[0] += f * (t.cold - t.t[0])
	}
}

// settle mixes what is warmer below than above.
func (t *tankNode) settle() {
	for i := 1; i < t.n; i++ {
		if t.t[i] >= t.t[i-1] {
			continue
		}
		// Widen the heap downwards while the layer beneath it is warmer than its mean.
		from, sum := i-1, t.t[i]+t.t[i-1]
		for from > 0 && t.t[from-1] > sum/float64(i-from+1) {
			from--
			sum += t.t[from]
		}
		mean := sum / float64(i-from+1)
		for k := from; k <= i; k++ {
			t.t[k] = mean
		}
	}
}

// makeTank turns a tank and its settings into nodes; the pattern is already judged.
func makeTank(t Tank, s TankSettings, d *draws, perVolume units.VolumetricHeat) tankNode {
	if t.Layers == 0 {
		t.Layers = 5
	}
	if t.CoilTop == 0 {
		t.CoilTop = 0.5
	}
	if t.SensorAt == 0 {
		t.SensorAt = 0.4
	}
	n := float64(t.Layers)
	node := tankNode{
		n: t.Layers, coil: max(1, int(math.Round(float64(t.CoilTop)*n))), sensor: min(t.Layers-1, int(float64(t.SensorAt)*n)),
		loss: float64(t.Tank.Loss) / n, room: float64(t.Tank.Room), cold: float64(t.Cold), perVolume: float64(perVolume),
		volume: float64(t.Tank.Volume) / n, set: float64(s.Set), low: float64(s.Set - units.Temperature(s.Differential)),
		supply: float64(s.Supply), priority: s.Priority, limit: float64(s.Limit), draws: d,
		phi: -math.Exp(-float64(t.Coil) / float64(t.Flow)),
	}
	node.inv = 1 / (node.volume * node.perVolume)
	for i := range node.n {
		node.t[i] = node.set
	}
	node.findCoilMean()
	return node
}
