package year

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"testing"
	"time"

	"curvewright/building"
	"curvewright/units"
	"curvewright/weather"
)

// typicalYear reads one of the typical years that lie beside the project, and skips the
// test where they do not.
func typicalYear(t *testing.T, name string) *weather.Year {
	t.Helper()
	packed, err := os.ReadFile("../../shared/weather/" + name)
	if err != nil {
		t.Skip("no typical years beside the project")
	}
	unzip, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(unzip)
	if err != nil {
		t.Fatal(err)
	}
	return must[*weather.Year](t)(weather.ParseEPW(data))
}

// facing gives the sun on a surface, and what of it a pane lets through compared with a
// sun that stands square to it.
func facing(y *weather.Year, s weather.Surface, pane bool) []float64 {
	out := make([]float64, len(y.DryBulb))
	start := time.Date(2023, 1, 1, 0, 30, 0, 0, time.FixedZone("", int(3600*y.Place.UTCOffset)))
	for i := range out {
		sun := weather.SunAt(start.Add(time.Duration(i)*time.Hour), y.Place)
		on := s.On(sun, y.Direct[i], y.Diffuse[i], y.Global[i])
		if !pane {
			out[i] = on.Total()
			continue
		}
		out[i] = on.Direct*float64(weather.IncidenceModifier(s.Incidence(sun))) + (on.Sky+on.Ground)*float64(weather.IncidenceModifier(60))
	}
	return out
}

// TestFreeFloatOfTheEnvelopeCases plays cases 600FF and 900FF of ANSI/ASHRAE 140-2020 (IEA
// BESTEST): one room of 8 × 6 × 2.7 m with 12 m² of south glass and no heating, built
// light and heavy, in the weather of the suite. The ranges are spreads of the example
// programs, not truth.
//
// Left out: the cold sky, the angle at which each pane reflects (a common modifier
// instead), sun that leaves again through the windows, and every layer but one node for
// the floor and one for walls and roof. Nothing is tuned to the ranges; the slack says
// by how much the left-out parts may move a figure.
func TestFreeFloatOfTheEnvelopeCases(t *testing.T) {
	y := typicalYear(t, "725650TYCST.epw.gz")
	const absorbed, outside, inside, glassU, gain = 0.6, 29.3, 8.29, 3.0, 0.789
	south := weather.Surface{Tilt: 90, Azimuth: 180, Ground: 0.2}
	w := Weather{Outdoor: y.DryBulb, Sun: [][]float64{
		facing(y, south, true), facing(y, south, false), facing(y, weather.Surface{Tilt: 90, Azimuth: 0, Ground: 0.2}, false),
		facing(y, weather.Surface{Tilt: 90, Azimuth: 90, Ground: 0.2}, false), facing(y, weather.Surface{Tilt: 90, Azimuth: 270, Ground: 0.2}, false),
		facing(y, weather.Surface{}, false),
	}}
	for _, c := range []struct {
		name                  string
		floor, walls          float64 // capacity inside the insulation, J/m²K
		floorDepth, wallDepth float64 // resistance from the surface to its middle, m²K/W
		wallU                 float64
		low, high, mean       [2]float64
	}{
		{"600FF", .025 * 650 * 1200, .012 * 950 * 840, .025 / .14 / 2, .012 / .16 / 2, .514, [2]float64{-13.8, -9.9}, [2]float64{62.4, 68.4}, [2]float64{24.3, 26.1}},
		{"900FF", .080 * 1400 * 1000, .100 * 1400 * 1000, .080 / 1.13 / 2, .100 / .51 / 2, .512, [2]float64{0.6, 2.2}, [2]float64{43.3, 46.0}, [2]float64{24.5, 25.7}},
	} {
		const floor, roof, walls, roofU, floorU = 48.0, 48.0, 63.6, .318, .039
		toAir := func(area, depth float64) float64 { return area / (1/inside + depth) }
		// From the middle of a fabric to outdoors: what is left of the whole resistance.
		toOutdoor := func(area, u, depth float64) float64 { return area / (1/u - 1/inside - depth) }
		wallsAndRoof := toAir(walls, c.wallDepth) + toAir(roof, .010/.16/2)
		r := Room{
			Name: c.name, Set: units.Celsius(20), Air: 129.6 * 1.0 * 1006,
			Loss: building.Loss{Outdoor: units.LossCoefficient(129.6*0.5/3600*1.204*1006*0.828 + 12*glassU)}, // 0.828: thin air at the site
			Fabric: []Fabric{
				{Capacity: building.HeatCapacity(floor * c.floor), ToAir: units.LossCoefficient(toAir(floor, c.floorDepth)), Loss: building.Toward(units.LossCoefficient(toOutdoor(floor, floorU, c.floorDepth)), units.Celsius(10))},
				{Capacity: building.HeatCapacity(walls*c.walls + roof*.010*950*840), ToAir: units.LossCoefficient(wallsAndRoof),
					Loss: building.Loss{Outdoor: units.LossCoefficient(toOutdoor(walls, c.wallU, c.wallDepth) + toOutdoor(roof, roofU, .010/.16/2))}},
			},
			Radiant: [3]units.Fraction{0, 0.64, 0.36}, SunRadiant: 1, GainsShare: 0.6,
			Windows: []Window{{0, 12 * gain}},
		}
		for f, area := range []float64{9.6 * c.wallU, 21.6 * c.wallU, 16.2 * c.wallU, 16.2 * c.wallU, roof * roofU} {
			r.Windows = append(r.Windows, Window{f + 1, units.Area(area * absorbed / outside)})
		}
		for k := range r.Gains {
			r.Gains[k] = 200
		}
		_, p, s := plainHouse(t, 1)
		p.Circuits, s.Circuits = nil, nil
		got, err := Run(House{Rooms: []Room{r}}, p, s, w, Options{})
		if err != nil {
			t.Fatal(err)
		}
		room := got.Rooms[0]
		t.Logf("%s: %.1f to %.1f °C, mean %.1f; ranges %v, %v, %v", c.name, room.Low.Celsius(), room.High.Celsius(), room.Mean.Celsius(), c.low, c.high, c.mean)
		for _, x := range []struct {
			what  string
			got   float64
			in    [2]float64
			slack float64
		}{{"coldest", room.Low.Celsius(), c.low, 1}, {"warmest", room.High.Celsius(), c.high, 2}, {"mean", room.Mean.Celsius(), c.mean, 0.5}} {
			if x.got < x.in[0]-x.slack || x.got > x.in[1]+x.slack {
				t.Errorf("%s: %s %.1f °C, the example programs %.1f to %.1f", c.name, x.what, x.got, x.in[0], x.in[1])
			}
		}
	}
}
