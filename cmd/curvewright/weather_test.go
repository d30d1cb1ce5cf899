package main

import (
	"compress/gzip"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// coldYear is a year of an invented place as a table, some hours missing.
func coldYear(heading string) string {
	var b strings.Builder
	b.WriteString(heading)
	for h := range 8760 {
		day, hour := float64(h)/24, float64(h%24)
		c := 6 - 15*math.Cos(2*math.Pi*(day-15)/365) - 4*math.Cos(2*math.Pi*(hour-4)/24)
		if h >= 500 && h < 504 {
			b.WriteString("-999\n")
			continue
		}
		fmt.Fprintf(&b, "%.2f\n", c*1.8+32)
	}
	return b.String()
}

func weatherFile(t *testing.T, name, data string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, []byte(data), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestWeatherSaysWhatAFileHolds(t *testing.T) {
	file := weatherFile(t, "cold.csv", coldYear("place: Tamarack Hollow\nlatitude: 46.5\nlongitude: -91.5\nutc offset: -6\nelevation: 430 m\noutdoor temperature (°F)\n"))
	status, out, errs := call("weather", file)
	if status != 0 || errs != "" {
		t.Fatalf("status %d, %s", status, errs)
	}
	for _, want := range []string{
		"Tamarack Hollow\nCSV file, 8760 hours, latitude 46.50°, longitude -91.50°, elevation 1,410 ft (430 m), UTC offset -6 h",
		"dry bulb: 4 of 8760 hours missing, at most 4 in a row; 4 bridged by a straight line; 4 values were a mark for missing",
		"99 % of the hours are warmer than", "10 °F (−12.5 °C)",
		"Degree-days below 65 °F (18.3 °C)", "K·d)",
		"January", "Hours by outdoor temperature",
		"site:\n  design_outdoor: 10 °F\n  annual_mean: 43 °F\n  elevation: \"1,410 ft\"\n",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	status, out, _ = call("weather", file, "--units", "si", "--base", "15 °C")
	if status != 0 || strings.Contains(out, "°F") || !strings.Contains(out, "Degree-days below 15.0 °C") || !strings.Contains(out, "design_outdoor: -12.5 °C") {
		t.Errorf("in SI: status %d\n%s", status, out)
	}
}

// What it prints for a job is what a job takes.
func TestWeatherLinesFitIntoAJob(t *testing.T) {
	file := weatherFile(t, "cold.csv", coldYear("latitude: 46.5\nlongitude: -91.5\nelevation: 430\ntemp (F)\n"))
	for _, system := range []string{"us", "si", "both"} {
		_, out, _ := call("weather", file, "--units", system)
		_, site, found := strings.Cut(out, "\nsite:\n")
		example, err := os.ReadFile(examplePath("ridge-house"))
		if err != nil || !found {
			t.Fatalf("%v\n%s", err, out)
		}
		before, after, _ := strings.Cut(string(example), "site:\n")
		_, after, _ = strings.Cut(after, "\nhouse:\n")
		job := weatherFile(t, "job.yaml", before+"site:\n"+site+"\nhouse:\n"+after)
		if status, _, errs := call("check", job); status != 0 {
			t.Errorf("%s: %s", system, errs)
		}
	}
}

func TestWeatherRefusals(t *testing.T) {
	short := weatherFile(t, "short.csv", "time,temp (F)\n2001-01-01 00:00,12\n")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"nowhere.epw"}, "cannot open nowhere.epw"},
		{[]string{short}, "8759 of 8760 hours have no dry bulb"},
		{[]string{short, "--base", "65"}, "--base: \"65\" has no unit"},
		{[]string{short, "--latitude", "45"}, "a place needs all three"},
		{[]string{short, "--latitude=95", "--longitude=-73", "--utc=-5"}, "--latitude 95 cannot be used"},
		{[]string{short, "--latitude=45", "--longitude=-273", "--utc=-5"}, "--longitude -273 cannot be used"},
		{[]string{short, "--latitude=45", "--longitude=-73", "--utc=-50"}, "--utc -50 cannot be used"},
	} {
		status, out, errs := call(append([]string{"weather"}, c.args...)...)
		if status == 0 || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%v: status %d, %q, want %q", c.args, status, errs, c.want)
		}
	}
}

func TestWeatherReadsPackedFiles(t *testing.T) {
	file := filepath.Join(t.TempDir(), "cold.csv.gz")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	z := gzip.NewWriter(f)
	if _, err := z.Write([]byte(coldYear("temp (F)\n"))); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	status, out, errs := call("weather", file)
	if status != 0 || !strings.Contains(out, "place not named\nCSV file, 8760 hours\n") {
		t.Errorf("status %d, %s\n%s", status, errs, out)
	}
}

func TestWeatherOfATypicalYear(t *testing.T) {
	file := filepath.Join("..", "..", "..", "shared", "weather", "USA_MN_Duluth.727450_TMY3.epw.gz")
	if _, err := os.Stat(file); err != nil {
		t.Skip("no typical year beside the project: what needs it is left out")
	}
	status, out, errs := call("weather", file, "--units", "si", "--base", "18.33 °C")
	if status != 0 {
		t.Fatal(errs)
	}
	for _, want := range []string{"Duluth International Arpt, MN, USA", "dry bulb: complete", "−25.4 °C", "Climate Design Data 2009", "5,313 K·d", "1342 kWh/m²", "design_outdoor: -25.4 °C"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}
