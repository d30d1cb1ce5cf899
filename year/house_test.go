package year

import (
	"fmt"
	"math"
	"testing"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/hotwater"
	"curvewright/pipework"
	"curvewright/units"
)

// must fails the test on an error.
func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func gasModel(t testing.TB) boiler.Model {
	fuel := must[boiler.Fuel](t)(boiler.FuelByKey("natural-gas"))
	return must[boiler.Model](t)(boiler.NewModel(fuel, 0.25, boiler.Air{Temperature: units.Celsius(20), Humidity: 0.4}, true, 0.2))
}

func radiator(t testing.TB, room int, watts, n float64, flow float64) Radiator {
	law := must[emitter.PowerLaw](t)(emitter.Radiator(units.Power(watts), emitter.RatedAtExcess(50), units.Number(n)))
	return Radiator{Room: room, Law: law, Flow: units.LossCoefficient(flow), Capacity: building.HeatCapacity(watts * 35), Radiant: 0.3}
}

// bent is a characteristic curve from 20 °C outdoors to a cold point.
func bent(cold, supply, most float64) curve.Setting {
	return curve.Setting{Kind: curve.Bent, Cold: curve.Point{Outdoor: units.Celsius(cold), Supply: units.Celsius(supply)},
		Mild: curve.Point{Outdoor: units.Celsius(20), Supply: units.Celsius(20)}, Exponent: 1.3,
		Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: units.Celsius(most)}}
}

// plainHouse is rooms with loss to outdoors, radiators of 1.6 times the load at −15 °C.
func plainHouse(t testing.TB, rooms int) (House, Plant, Settings) {
	h := House{}
	c := Circuit{Name: "radiators", Water: 40e3, Pump: 40}
	for i := range rooms {
		loss := 30 + 5*float64(i)
		h.Rooms = append(h.Rooms, Room{
			Name: fmt.Sprintf("room %d", i+1), Set: units.Celsius(20), Air: 200e3, Loss: building.Loss{Outdoor: units.LossCoefficient(loss * 0.6)},
			Fabric: []Fabric{{Capacity: 4e6, ToAir: 120}, {Capacity: 3e6, ToAir: 40, Loss: building.Loss{Outdoor: units.LossCoefficient(loss * 0.5)}}},
		})
		load := 35 * loss
		c.Radiators = append(c.Radiators, radiator(t, i, 1.6*load, 1.3, load/10))
	}
	p := Plant{
		Boiler:   Boiler{Model: gasModel(t), Least: 3000, Most: 15000, Capacity: 60e3, Hottest: units.Celsius(85), Standby: 3, Room: units.Celsius(15), Fan: 40, Always: 5},
		Coupling: pipework.Direct, Circuits: []Circuit{c},
	}
	s := Settings{
		Name: "as fitted", Circuits: []CircuitSettings{{Curve: bent(-15, 60, 80)}}, Differential: 6, Rest: 180,
		CutOff: CutOff{Above: units.Celsius(18), Width: 2, Damping: units.Hours(12)},
	}
	return h, p, s
}

// wholeHouse is eight rooms, a circuit of radiators with thermostatic valves, a heated
// slab behind a mixing valve, a separator, and a tank with priority.
func wholeHouse(t testing.TB) (House, Plant, Settings) {
	h, p, s := plainHouse(t, 8)
	for i := range h.Rooms {
		r := &h.Rooms[i]
		r.Windows = []Window{{Facade: i % 2, Aperture: 1.2}}
		r.SunRadiant, r.GainsShare = 0.7, 0.5
		r.Airing = Airing{Above: units.Celsius(24), Most: 100}
		for k := range r.Gains {
			r.Gains[k] = units.Power(40 + 10*(k%3))
		}
		if i > 0 {
			h.Doors = append(h.Doors, Door{i - 1, i, 15})
		}
	}
	radiators := &p.Circuits[0]
	radiators.Radiators = radiators.Radiators[:6]
	for i := range radiators.Radiators {
		radiators.Radiators[i].Valve = Valve{Thermostatic, 2}
	}
	slabs := Circuit{Name: "slab", Mixed: true, Travel: 120, Water: 40e3, Pump: 30}
	for room := 6; room < 8; room++ {
		slabs.Slabs = append(slabs.Slabs, Slab{
			Room: room, Up: 30 * 5, Tube: 1, Exchange: 0.83, Flow: 200, Down: building.Toward(30*0.4, units.Celsius(10)),
			Layers: []Layer{{Capacity: 30 * 70e3, Below: 30 * 40}, {Capacity: 30 * 60e3, Below: 30 * 40}, {Capacity: 30 * 60e3}},
		})
	}
	p.Circuits = append(p.Circuits, slabs)
	p.Coupling = pipework.LowLossHeader
	p.Boiler.Flow, p.Boiler.Pump = 700, 45
	p.Sensor = OutdoorSensor{Lag: units.Minutes(20), Offset: 0.5}
	p.Tank = &Tank{Tank: hotwater.Tank{Volume: units.Litres(200), Loss: 1.8, Room: units.Celsius(15)}, Coil: 700, Flow: 900, Water: 40e3, Pump: 45,
		Cold: units.Celsius(10), Draws: hotwater.EULarge()}
	s.Circuits = append(s.Circuits, CircuitSettings{Curve: bent(-15, 38, 42), Reference: 7, Influence: 2, InfluenceLimit: 5})
	s.Circuits[0].Program = Night(units.Hours(22), units.Hours(6), 3, false)
	s.AboveMixed, s.Frost = 4, units.Celsius(5)
	s.Tank = TankSettings{Set: units.Celsius(55), Differential: 6, Supply: units.Celsius(72), Priority: true, Limit: units.Hours(1)}
	return h, p, s
}

// wavyYear is a made-up year: waves of year and day, a slow beat for cold spells, and a
// sun that follows both.
func wavyYear(days int) Weather {
	w := Weather{Sun: make([][]float64, 2)}
	for i := range days * 24 {
		d, hr := float64(i)/24, float64(i%24)
		season := -math.Cos(2 * math.Pi * (d - 15) / 365)
		w.Outdoor = append(w.Outdoor, 8+11*season+4*math.Sin(2*math.Pi*(hr-9)/24)+5*math.Sin(2*math.Pi*d/9.3))
		sun := math.Max(0, math.Sin(math.Pi*(hr-6)/12)) * (250 + 100*season) * (1 + 0.8*math.Sin(2*math.Pi*d/5.1))
		w.Sun[0] = append(w.Sun[0], sun)
		w.Sun[1] = append(w.Sun[1], sun*0.5)
	}
	return w
}

func BenchmarkYear(b *testing.B) {
	h, p, s := wholeHouse(b)
	w := wavyYear(365)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(h, p, s, w, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
