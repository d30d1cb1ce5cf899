package weather_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"curvewright/units"
	"curvewright/weather"

	"pgregory.net/rapid"
)

func TestSunStandsWhereItIsPublished(t *testing.T) {
	golden := weather.Place{Latitude: 39.742476, Longitude: -105.1786, UTCOffset: -7, Located: true}
	for _, c := range []struct {
		when                    time.Time
		at                      weather.Place
		zenith, azimuth, within float64
		source                  string
	}{
		{time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC), golden, 50.11162, 194.34024, 0.03, "Reda & Andreas, NREL/TP-560-34302, worked example"},
		{time.Date(2003, 10, 17, 12, 30, 30, 0, time.FixedZone("", -7*3600)), golden, 50.11162, 194.34024, 0.03, "the same in local time"},
		{time.Date(2024, 6, 20, 20, 51, 0, 0, time.UTC), weather.Place{Latitude: 23.436}, math.NaN(), math.NaN(), 0, "solstice: the declination below"},
	} {
		s := weather.SunAt(c.when, c.at)
		if !math.IsNaN(c.zenith) {
			within(t, c.source+": zenith", s.Zenith, c.zenith, c.within)
			within(t, c.source+": azimuth", s.Azimuth, c.azimuth, c.within)
		}
	}
	// At the pole the sun's height is its declination: 23.44° at the solstice, 0 at the
	// equinox of 20 March 2024, 03:06 UTC (Astronomical Almanac, from memory).
	pole := weather.Place{Latitude: 90}
	within(t, "declination at the solstice", 90-weather.SunAt(time.Date(2024, 6, 20, 20, 51, 0, 0, time.UTC), pole).Zenith, 23.436, 0.01)
	within(t, "declination at the equinox", 90-weather.SunAt(time.Date(2024, 3, 20, 3, 6, 0, 0, time.UTC), pole).Zenith, 0, 0.01)
	within(t, "distance early in January", weather.SunAt(time.Date(2024, 1, 3, 0, 0, 0, 0, time.UTC), pole).Distance, 0.9833, 0.0002)
}

func TestHoursOfTheYearHaveTheirSun(t *testing.T) {
	y := &weather.Year{Place: weather.Place{Latitude: 45, Longitude: -75, UTCOffset: -5, Located: true}, DryBulb: make([]float64, 8760)}
	hour := 24*(31+28+16) + 11 // 17 March 2001, from 11 to 12
	want := weather.SunAt(time.Date(2001, 3, 17, 16, 30, 0, 0, time.UTC), y.Place)
	got := y.Sun(hour)
	within(t, "zenith", got.Zenith, want.Zenith, 1e-6)
	within(t, "azimuth", got.Azimuth, want.Azimuth, 1e-6)
	y.DryBulb = make([]float64, 8784)
	want = weather.SunAt(time.Date(2004, 12, 31, 17, 30, 0, 0, time.UTC), y.Place)
	within(t, "zenith on the last day of a leap year", y.Sun(24*365+12).Zenith, want.Zenith, 1e-6)
}

func drawSun(t *rapid.T) weather.Sun {
	return weather.Sun{Zenith: rapid.Float64Range(0, 100).Draw(t, "zenith"), Azimuth: rapid.Float64Range(0, 360).Draw(t, "azimuth"), Distance: rapid.Float64Range(0.983, 1.017).Draw(t, "distance")}
}

func TestLawsOfSurfaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sun := drawSun(t)
		global := rapid.Float64Range(0, 1000).Draw(t, "global")
		b, d := weather.Decompose(sun, global)
		up := math.Max(0, math.Cos(sun.Zenith*math.Pi/180))
		if b < 0 || d < 0 || b > sun.Extraterrestrial() {
			t.Fatalf("direct %v, diffuse %v", b, d)
		}
		if sum := d + b*up; math.Abs(sum-global) > 1e-9 {
			t.Fatalf("the parts add up to %v, not %v", sum, global)
		}
		if sun.Zenith < 89 {
			flat := weather.Surface{}.On(sun, b, d, global)
			if math.Abs(flat.Total()-global) > 1e-6 {
				t.Fatalf("a level surface gets %v of %v", flat.Total(), global)
			}
		}
		s := weather.Surface{Tilt: rapid.Float64Range(0, 180).Draw(t, "tilt"), Azimuth: rapid.Float64Range(0, 360).Draw(t, "faces"), Ground: 0.2}
		on := s.On(sun, b, d, global)
		if !(on.Direct >= 0 && on.Sky >= 0 && on.Ground >= 0) || on.Direct > b+1e-9 {
			t.Fatalf("%+v of direct %v, diffuse %v", on, b, d)
		}
		if s.Incidence(sun) > 90 && on.Direct > 1e-9 {
			t.Fatal("the sun shines through the building")
		}
		if k := weather.IncidenceModifier(s.Incidence(sun)); !(k >= 0 && k <= 1) {
			t.Fatalf("a pane lets through %v", k)
		}
	})
}

// A wall that faces the noon sun, worked out by hand from the formula.
func TestHayDaviesByHand(t *testing.T) {
	on := weather.Surface{Tilt: 90, Azimuth: 180, Ground: 0.2}.On(weather.Sun{Zenith: 60, Azimuth: 180, Distance: 1}, 500, 100, 350)
	within(t, "direct", on.Direct, 433.01, 0.01)
	within(t, "sky", on.Sky, 95.26, 0.01)
	within(t, "ground", on.Ground, 35, 1e-9)
}

// The split of global radiation against years that hold all three.
func TestDecomposeAgainstTypicalYears(t *testing.T) {
	for _, c := range typical {
		t.Run(c.file, func(t *testing.T) {
			y := readTypical(t, c.file)
			ours, theirs, all := 0.0, 0.0, 0.0
			for i, g := range y.Global {
				_, d := weather.Decompose(y.Sun(i), g)
				ours, theirs, all = ours+d, theirs+y.Diffuse[i], all+g
			}
			within(t, "diffuse share of the year", ours/all, theirs/all, 0.06)

			south := weather.Surface{Tilt: 90, Azimuth: 180, Ground: 0.2}
			north := weather.Surface{Tilt: 90, Azimuth: 0, Ground: 0.2}
			split, err := y.OnSurface(south)
			if err != nil {
				t.Fatal(err)
			}
			lone := *y
			lone.Direct, lone.Diffuse = nil, nil
			guessed, err := lone.OnSurface(south)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "south wall from global radiation alone", average(guessed), average(split), 0.12*average(split))
			shade, _ := y.OnSurface(north)
			if average(shade) > 0.6*average(split) {
				t.Errorf("a north wall gets %.0f W/m², a south wall %.0f", average(shade), average(split))
			}
			through, err := y.ThroughWindow(south, 0.5)
			if err != nil || !(average(through) > 0.35*average(split) && average(through) < 0.5*average(split)) {
				t.Errorf("through a window %.0f W/m² of %.0f: %v", average(through), average(split), err)
			}
		})
	}
}

func TestNoSunWithoutRadiationOrPlace(t *testing.T) {
	y := &weather.Year{DryBulb: make([]float64, 8760), Global: make([]float64, 8760)}
	_, err := y.OnSurface(weather.Surface{})
	if err == nil || !strings.Contains(err.Error(), "no solar radiation, or no place") {
		t.Errorf("without a place: %v", err)
	}
	y.Place.Located, y.Global = true, nil
	if _, err = y.ThroughWindow(weather.Surface{}, units.Fraction(0.5)); err == nil {
		t.Error("without radiation: no error")
	}
}
