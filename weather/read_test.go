package weather_test

import (
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"testing"

	"curvewright/units"
	"curvewright/weather"
)

// typicalYear reads a file that lies beside the project.
func typicalYear(t testing.TB, name string) []byte {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "shared", "weather", name))
	if err != nil {
		t.Skipf("no typical year %s beside the project: what needs it is left out", name)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func readTypical(t testing.TB, name string) *weather.Year {
	t.Helper()
	y, err := weather.Parse(typicalYear(t, name), weather.Place{})
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// typical are counts from the files themselves, made apart from this package: TMY3
// typical years (Wilcox & Marion 2008, NREL/TP-581-43156) and two of the weather files
// of ANSI/ASHRAE 140.
var typical = []struct {
	file                      string
	origin                    weather.Origin
	latitude, longitude, utc  float64
	elevation                 float64
	mean, lowest, highest     float64 // °C
	degreeDays, kilowattHours float64 // K·d below 18.33 °C; kWh/m² on the level, 0 where not counted
	quoted99, quoted996       float64 // °C, in the file's own heading
}{
	{"USA_MN_Duluth.727450_TMY3.epw.gz", weather.FromEPW, 46.83, -92.22, -6, 433, 4.02, -30.6, 32.8, 5313, 1342, -25.4, -28.6},
	{"USA_VT_Burlington.726170_TMY3.epw.gz", weather.FromEPW, 44.47, -73.15, -5, 101, 7.87, -27.8, 37.2, 4054, 1341, -19.7, -22.4},
	{"USA_MT_Helena.727720_TMY3.epw.gz", weather.FromEPW, 46.60, -111.97, -7, 1167, 7.16, -24.4, 35.0, 4252, 1459, -22.3, -26.3},
	{"DRYCOLDTMY.epw.gz", weather.FromEPW, 39.76, -104.86, -7, 1611, 9.71, -24.4, 35.0, 3470, 1832, -16, -20},
	{"725650TYCST.epw.gz", weather.FromEPW, 39.83, -104.65, -7, 1650, 10.88, -19.4, 40.0, 3212, 1670, -14.1, -17.5},
	{"703165TY_SandPoint_AK_TMY3.csv.gz", weather.FromTMY3, 55.317, -160.517, -9, 7, 4.42, -10.6, 19.4, 5077, 0, 0, 0},
}

func TestTypicalYearsReadBack(t *testing.T) {
	for _, c := range typical {
		t.Run(c.file, func(t *testing.T) {
			y := readTypical(t, c.file)
			if y.Origin != c.origin || y.MadeUp() || y.Report.Rows != 8760 || len(y.DryBulb) != 8760 || y.Report.Gaps() {
				t.Errorf("origin %q, %d rows, %d hours, gaps %t", y.Origin, y.Report.Rows, len(y.DryBulb), y.Report.Gaps())
			}
			for _, f := range y.Report.Findings {
				t.Errorf("a sound file is suspected: %s", f)
			}
			within(t, "latitude", y.Place.Latitude, c.latitude, 1e-9)
			within(t, "longitude", y.Place.Longitude, c.longitude, 1e-9)
			within(t, "UTC offset", y.Place.UTCOffset, c.utc, 0)
			within(t, "elevation", float64(y.Place.Elevation), c.elevation, 1e-9)
			within(t, "mean", y.Mean().Celsius(), c.mean, 0.005)
			low, high := y.Extremes()
			within(t, "lowest", low.Celsius(), c.lowest, 1e-9)
			within(t, "highest", high.Celsius(), c.highest, 1e-9)
			degreeDays := kelvinDays(y.DegreeDays(units.Celsius(18.33)))
			within(t, "degree-days", degreeDays, c.degreeDays, 0.5)
			within(t, "degree-days from maximum and minimum", kelvinDays(y.DegreeDaysMaxMin(units.Celsius(18.33))), degreeDays, 0.03*degreeDays)
			if c.kilowattHours > 0 {
				within(t, "sun", y.SunOfYear()/3.6e6, c.kilowattHours, 0.5)
			}
			if c.quoted99 == 0 {
				return
			}
			within(t, "99 % quoted", y.Quoted.Heating99.Celsius(), c.quoted99, 1e-9)
			within(t, "99.6 % quoted", y.Quoted.Heating996.Celsius(), c.quoted996, 1e-9)
			// How much milder one typical year is than the record of decades.
			within(t, "99 %", y.DesignTemperature(weather.Design99).Celsius(), c.quoted99, 5.5)
			within(t, "99.6 %", y.DesignTemperature(weather.Design996).Celsius(), c.quoted996, 6.5)
		})
	}
}

func kelvinDays(d units.DegreeDays) float64 { return float64(d) / 86400 }
func inHours(x units.Time) float64          { return float64(x) / 3600 }

func BenchmarkParseEPW8760Hours(b *testing.B) {
	data := typicalYear(b, typical[0].file)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := weather.ParseEPW(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseTMY3Of8760Hours(b *testing.B) {
	data := typicalYear(b, typical[5].file)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := weather.ParseTMY3(data); err != nil {
			b.Fatal(err)
		}
	}
}
