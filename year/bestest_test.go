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

// envelope is a case of the suite: one room of 8 × 6 × 2.7 m with 12 m² of south glass, built
// light (600) or heavy (900).
type envelope struct {
	name                  string
	floor, walls          float64 // capacity inside the insulation, J/m²K
	floorDepth, wallDepth float64 // resistance from the surface to its middle, m²K/W
	wallU                 float64
}

var envelopes = []envelope{
	{"600", .025 * 650 * 1200, .012 * 950 * 840, .025 / .14 / 2, .012 / .16 / 2, .514},
	{"900", .080 * 1400 * 1000, .100 * 1400 * 1000, .080 / 1.13 / 2, .100 / .51 / 2, .512},
}

// room makes the case's room for the thin air of the site.
func (c envelope) room(density float64) Room {
	const absorbed, outside, inside, glassU, gain = 0.6, 29.3, 8.29, 3.0, 0.789
	const floor, roof, walls, roofU, floorU = 48.0, 48.0, 63.6, .318, .039
	toAir := func(area, depth float64) float64 { return area / (1/inside + depth) }
	// From the middle of a fabric to outdoors: what is left of the whole resistance.
	toOutdoor := func(area, u, depth float64) float64 { return area / (1/u - 1/inside - depth) }
	wallsAndRoof := toAir(walls, c.wallDepth) + toAir(roof, .010/.16/2)
	r := Room{
		Name: c.name, Set: units.Celsius(20), Air: 129.6 * 1.0 * 1006,
		Loss: building.Loss{Outdoor: units.LossCoefficient(129.6*0.5/3600*1.204*1006*density + 12*glassU)},
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
	return r
}

// suiteWeather is a weather of the suite with the sun on its surfaces.
func suiteWeather(t *testing.T, file string) Weather {
	y := typicalYear(t, file)
	south := weather.Surface{Tilt: 90, Azimuth: 180, Ground: 0.2}
	return Weather{Outdoor: y.DryBulb, Sun: [][]float64{
		facing(y, south, true), facing(y, south, false), facing(y, weather.Surface{Tilt: 90, Azimuth: 0, Ground: 0.2}, false),
		facing(y, weather.Surface{Tilt: 90, Azimuth: 90, Ground: 0.2}, false), facing(y, weather.Surface{Tilt: 90, Azimuth: 270, Ground: 0.2}, false),
		facing(y, weather.Surface{}, false),
	}}
}

// thinAir is the density at the site against sea level: 0.414 air changes count for 0.5.
const thinAir = 0.828

// playEnvelope plays a room without any plant.
func playEnvelope(t *testing.T, r Room, w Weather) RoomResult {
	_, p, s := plainHouse(t, 1)
	p.Circuits, s.Circuits = nil, nil
	return must[Result](t)(Run(House{Rooms: []Room{r}}, p, s, w, Options{})).Rooms[0]
}

// inRange holds a figure against the spread of the example programs.
func inRange(t *testing.T, what string, got float64, in [2]float64, slack float64) {
	t.Helper()
	t.Logf("%s: %.3f, the example programs %.3f to %.3f", what, got, in[0], in[1])
	if got < in[0]-slack || got > in[1]+slack {
		t.Errorf("%s: %.3f, the example programs %.3f to %.3f", what, got, in[0], in[1])
	}
}

// TestFreeFloatOfTheEnvelopeCases plays cases 600FF and 900FF of ANSI/ASHRAE 140-2020 (IEA
// BESTEST): no heating and no cooling, in the weather of the suite. The ranges are spreads
// of the example programs, not truth.
//
// Left out: the cold sky, the angle at which each pane reflects (a common modifier
// instead), sun that leaves again through the windows, and every layer but one node for
// the floor and one for walls and roof. Nothing is tuned to the ranges; the slack says
// by how much the left-out parts may move a figure.
func TestFreeFloatOfTheEnvelopeCases(t *testing.T) {
	w := suiteWeather(t, "725650TYCST.epw.gz")
	for i, ranges := range [][3][2]float64{{{-13.8, -9.9}, {62.4, 68.4}, {24.3, 26.1}}, {{0.6, 2.2}, {43.3, 46.0}, {24.5, 25.7}}} {
		c := envelopes[i]
		room := playEnvelope(t, c.room(thinAir), w)
		inRange(t, c.name+"FF coldest, °C", room.Low.Celsius(), ranges[0], 1)
		inRange(t, c.name+"FF warmest, °C", room.High.Celsius(), ranges[1], 2)
		inRange(t, c.name+"FF mean, °C", room.Mean.Celsius(), ranges[2], 0.5)
	}
}

// TestHeatOfTheEnvelopeCases plays cases 600 and 900 with their ideal heater (20 °C) and
// cooler (27 °C), in both weathers of the suite: that of the editions up to 2017 and that
// of 2020. The same is left out as in free float, which warms the room and so makes cooling
// too large.
//
// Of the earlier editions every figure lies in the spread or within a tenth of its middle.
// Of 2020 none does: heating comes out a seventh to a quarter above it, cooling a quarter.
// Window and surfaces here are those of the earlier editions (U 3.0 W/m²K, g 0.789); that of
// 2020 changed them. The wide slack of these rows only notices a change.
func TestHeatOfTheEnvelopeCases(t *testing.T) {
	for _, e := range []struct {
		file       string
		edition    string
		slack      float64       // of the middle of the range
		heat, cool [2][2]float64 // MWh, by case
	}{
		{"725650TYCST.epw.gz", "2020", 0.4, [2][2]float64{{3.993, 4.504}, {1.379, 1.814}}, [2][2]float64{{}, {2.267, 2.714}}},
		{"DRYCOLDTMY.epw.gz", "to 2017", 0.1, [2][2]float64{{4.296, 5.709}, {1.170, 2.041}}, [2][2]float64{{6.137, 7.964}, {2.132, 3.415}}},
	} {
		w := suiteWeather(t, e.file)
		for i, c := range envelopes {
			r := c.room(thinAir)
			r.Ideal = Ideal{Heat: units.Celsius(20), Cool: units.Celsius(27)}
			got := playEnvelope(t, r, w)
			name := "case " + c.name + ", edition " + e.edition
			inRange(t, name+": heating, MWh", float64(got.Heated)/3.6e9, e.heat[i], e.slack*(e.heat[i][0]+e.heat[i][1])/2)
			if e.cool[i][1] > 0 {
				inRange(t, name+": cooling, MWh", float64(got.Cooled)/3.6e9, e.cool[i], e.slack*(e.cool[i][0]+e.cool[i][1])/2)
			}
		}
	}
}
