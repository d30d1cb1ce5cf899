package weather_test

import (
	"os"
	"strings"
	"testing"

	"curvewright/weather"
)

// Whatever comes in, reading does not fall over; it gives a whole year or a sentence,
// never both. The place is one that could be given with any file.
func fuzzReader(f *testing.F, seeds string, read func([]byte, weather.Place) (*weather.Year, error)) {
	kept, err := os.ReadDir("testdata/fuzz/" + seeds)
	if err != nil || len(kept) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	at := weather.Place{Latitude: 44.5, Longitude: -73.2, UTCOffset: -5, Located: true}
	f.Fuzz(func(t *testing.T, data []byte) {
		y, err := read(data, at)
		if err != nil {
			if y != nil || err.Error() == "" {
				t.Fatalf("year %v with error %q", y, err)
			}
			return
		}
		sound(t, y)
		if y.Report.Rows == 0 || len(y.Report.Columns) == 0 {
			t.Fatalf("nothing reported: %+v", y.Report)
		}
	})
}

func FuzzParseEPW(f *testing.F) {
	fuzzReader(f, "FuzzParseEPW", func(b []byte, _ weather.Place) (*weather.Year, error) { return weather.ParseEPW(b) })
}

func FuzzParseTMY3(f *testing.F) {
	fuzzReader(f, "FuzzParseTMY3", func(b []byte, _ weather.Place) (*weather.Year, error) { return weather.ParseTMY3(b) })
}

func FuzzParseISDLite(f *testing.F) { fuzzReader(f, "FuzzParseISDLite", weather.ParseISDLite) }

func FuzzParseISD(f *testing.F) { fuzzReader(f, "FuzzParseISD", weather.ParseISD) }

func FuzzParseGHCNh(f *testing.F) { fuzzReader(f, "FuzzParseGHCNh", weather.ParseGHCNh) }

func FuzzParseCSV(f *testing.F) {
	f.Add([]byte("temp (C),wind (m/s)\n" + strings.Repeat("5,1\n", 8760)))
	fuzzReader(f, "FuzzParseCSV", weather.ParseCSV)
}
