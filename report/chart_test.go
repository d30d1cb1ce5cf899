package report

import (
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file in testdata, or writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs from what was agreed; look at it, then run with -update", path)
	}
}

func TestChartsAreWhatWasAgreed(t *testing.T) {
	us, si := fixture(units.US), fixture(units.SI)
	for name, svg := range map[string]string{
		"curve-radiators-phone.svg":    CurveSVG(us, 0, 360, 300),
		"curve-radiators-wide.svg":     CurveSVG(us, 0, 760, 420),
		"curve-radiators-celsius.svg":  CurveSVG(si, 0, 760, 420),
		"curve-slab-wide.svg":          CurveSVG(us, 1, 760, 420),
		"curve-slab-phone.svg":         CurveSVG(us, 1, 360, 300),
		"curve-attic-wide.svg":         CurveSVG(us, 2, 760, 420),
		"curve-attic-phone.svg":        CurveSVG(us, 2, 360, 300),
		"rooms-radiators-phone.svg":    RoomsSVG(us, 0, 360, 300),
		"rooms-radiators-wide.svg":     RoomsSVG(us, 0, 760, 420),
		"rooms-attic-celsius-wide.svg": RoomsSVG(si, 2, 760, 420),
	} {
		golden(t, name, svg)
	}
}

func TestChartIsWellFormedForAnyNameAndSize(t *testing.T) {
	sheet := fixture(units.US)
	sheet.Circuits[0].Name = `<script>"&' ` + "\x00\xff\ufffe"
	sheet.Circuits[0].Rooms[0].Name = `</text><script>alert(1)</script>`
	for _, size := range [][2]float64{{360, 300}, {0, 0}, {math.NaN(), math.Inf(1)}, {1e9, -4}} {
		for _, svg := range []string{CurveSVG(sheet, 0, size[0], size[1]), RoomsSVG(sheet, 0, size[0], size[1])} {
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
					t.Errorf("size %v: the chart has a <%s>", size, e.Name.Local)
				}
			}
			if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
				t.Errorf("size %v: a coordinate is no number", size)
			}
		}
	}
}

func TestChartWithoutDataSaysSo(t *testing.T) {
	broken := fixture(units.US)
	for i := range broken.Circuits[0].Points {
		broken.Circuits[0].Points[i].Set = units.Temperature(math.NaN())
	}
	for what, svg := range map[string]string{
		"no sheet":            CurveSVG(nil, 0, 360, 300),
		"no circuit":          CurveSVG(&settings.Sheet{}, 0, 360, 300),
		"circuit -1":          CurveSVG(fixture(units.US), -1, 360, 300),
		"not one temperature": CurveSVG(broken, 0, 360, 300),
	} {
		if !strings.Contains(svg, "No curve for this circuit") {
			t.Errorf("%s: the image does not say that there is no curve", what)
		}
	}
}

func TestTicksAreRoundAndInside(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		count     int
		want      []float64
	}{
		{5, 62.5, 7, []float64{10, 20, 30, 40, 50, 60}},
		{-15, 16.9, 6, []float64{-10, 0, 10}},
		{60, 160, 6, []float64{60, 80, 100, 120, 140, 160}},
		{20, 22, 20, []float64{20, 21, 22}},
		{5, 5, 6, nil},
	} {
		got := ticks(c.low, c.high, c.count)
		if len(got) != len(c.want) {
			t.Errorf("ticks(%v, %v, %d) = %v, want %v", c.low, c.high, c.count, got, c.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("ticks(%v, %v, %d) = %v, want %v", c.low, c.high, c.count, got, c.want)
			}
		}
	}
}
