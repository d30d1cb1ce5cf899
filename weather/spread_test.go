package weather_test

import (
	"bufio"
	"compress/gzip"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"curvewright/units"
	"curvewright/weather"
)

// stations are typical years of cold places (Wilcox & Marion 2008, NREL/TP-581-43156).
// The allowances state how far a made-up spread is from a real year, not how far it
// may be.
var stations = []struct {
	file                 string
	degreeDays, freezing float64 // allowed relative difference
}{
	{"USA_MN_Duluth.727450_TMY3.epw.gz", 0.06, 0.08},
	{"USA_VT_Burlington.726170_TMY3.epw.gz", 0.08, 0.13},
	{"USA_MT_Helena.727720_TMY3.epw.gz", 0.06, 0.15},
	{"725650TYCST.epw.gz", 0.06, 0.09},
}

func TestSpreadAgainstTypicalYears(t *testing.T) {
	for _, s := range stations {
		t.Run(s.file, func(t *testing.T) {
			dry := dryBulb(t, s.file)
			mean, design := average(dry), percentile(dry, 0.01)
			spread, err := weather.NewSpread(units.Celsius(design), units.Celsius(mean))
			if err != nil {
				t.Fatal(err)
			}
			base, real := 18.333, 0.0
			for d := range len(dry) / 24 {
				real += math.Max(0, base-average(dry[24*d:24*d+24]))
			}
			ours := float64(spread.DegreeDays(units.Celsius(base))) / 86400
			within(t, "degree-days, K·d", ours, real, s.degreeDays*real)

			cold := 0.0
			for _, x := range dry {
				if x < 0 {
					cold++
				}
			}
			got := float64(spread.HoursBetween(units.Celsius(-80), units.Celsius(0))) / 3600
			within(t, "hours below freezing", got, cold, s.freezing*cold)
			belowDesign := float64(spread.HoursBetween(units.Celsius(-80), units.Celsius(design))) / 3600
			within(t, "hours below design", belowDesign, 87.6, 0.5)

			within(t, "estimated annual mean, °C", weather.EstimateAnnualMean(units.Celsius(design)).Celsius(), mean, 2.5)
		})
	}
}

func TestSpreadHoursAddUpToAYear(t *testing.T) {
	s, err := weather.NewSpread(units.Celsius(-25), units.Celsius(4))
	if err != nil {
		t.Fatal(err)
	}
	total := 0.0
	for c := -70.0; c < 70; c += 2 {
		h := float64(s.HoursBetween(units.Celsius(c), units.Celsius(c+2))) / 3600
		if h < 0 {
			t.Errorf("%g hours between %g and %g °C", h, c, c+2)
		}
		total += h
	}
	within(t, "hours of a year", total, 8760, 1e-6)
	if h := s.HoursBetween(units.Celsius(5), units.Celsius(0)); h != 0 {
		t.Errorf("an interval turned round holds %v s, want none", h)
	}
}

func TestSpreadRefusals(t *testing.T) {
	for _, c := range []struct {
		design, mean float64
		want         string
	}{
		{-20, 40, "annual mean outdoor temperature"},
		{10, 8, "is not 5 to 60 K"},
		{math.NaN(), 8, "is not 5 to 60 K"},
	} {
		_, err := weather.NewSpread(units.Celsius(c.design), units.Celsius(c.mean))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("design %g, mean %g: got %v, want a sentence with %q", c.design, c.mean, err, c.want)
		}
	}
}

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.4g, want %.4g ± %.3g", what, got, want, tol)
	}
}

// dryBulb reads the dry bulb column of an hourly file that lies beside the project.
func dryBulb(t *testing.T, name string) []float64 {
	path := filepath.Join("..", "..", "shared", "weather", name)
	f, err := os.Open(path)
	if err != nil {
		t.Skipf("no typical year %s beside the project: the comparison with it is left out", name)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	var out []float64
	sc := bufio.NewScanner(z)
	for line := 1; sc.Scan(); line++ {
		cols := strings.Split(sc.Text(), ",")
		if line <= 8 || len(cols) < 7 {
			continue
		}
		v, err := strconv.ParseFloat(cols[6], 64)
		if err != nil {
			t.Fatalf("line %d: %v", line, err)
		}
		out = append(out, v)
	}
	if len(out) != 8760 {
		t.Fatalf("%d hours, want 8760", len(out))
	}
	return out
}

func average(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

func percentile(x []float64, p float64) float64 {
	s := slices.Sorted(slices.Values(x))
	return s[int(p*float64(len(s)))]
}
