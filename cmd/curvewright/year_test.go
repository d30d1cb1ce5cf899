package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestYearFlags plays an example with money, as found, into files, and lets it fail.
func TestYearFlags(t *testing.T) {
	folder := t.TempDir()
	table, plots := filepath.Join(folder, "hours.csv"), filepath.Join(folder, "plots")
	status, out, errs := call("year", examplePath("combi-slab"), "--against", "as-found", "--found", "Slab: 45 °C at -10 °C, 30 °C at 15 °C", "--found-cut-off", "20 °C",
		"--fuel-price", "0.11 EUR/kWh", "--carbon", "0.2 kg/kWh", "--csv", table, "--plots", plots)
	if status != 0 {
		t.Fatal(errs)
	}
	for _, want := range []string{"as-found", "EUR", "carbon dioxide", "Runs of the burner", "worst day"} {
		if !strings.Contains(out, want) {
			t.Errorf("the year lacks %q:\n%s", want, out)
		}
	}
	if data, err := os.ReadFile(table); err != nil || strings.Count(string(data), "\n") != 8761 {
		t.Errorf("hours: %v, %d lines", err, strings.Count(string(data), "\n"))
	}
	for _, name := range []string{"day", "starts", "load", "week", "supply-1", "room-1"} {
		if data, err := os.ReadFile(filepath.Join(plots, name+".svg")); err != nil || !strings.HasSuffix(string(data), "</svg>\n") || strings.Contains(string(data), "NaN") {
			t.Errorf("%s: %v", name, err)
		}
	}
	print := filepath.Join(t.TempDir(), "year.pdf")
	if status, _, errs := call("year", examplePath("combi-slab"), "--against", "none", "--pdf", print); status != 0 {
		t.Errorf("print: status %d: %s", status, errs)
	} else if data, err := os.ReadFile(print); err != nil || !bytes.HasPrefix(data, []byte("%PDF")) || len(data) < 20_000 {
		t.Errorf("print: %v, %d bytes", err, len(data))
	}
	if status, out, _ := call("year", examplePath("ridge-house"), "--fail"); status != 0 || !strings.Contains(out, "garage") || !strings.Contains(out, "alarm in") {
		t.Errorf("failure: status %d: %s", status, out)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--fuel-price", "cheap"}, "--fuel-price: fuel price"},
		{[]string{"--carbon", "5 kg"}, "--carbon: carbon"},
		{[]string{"--found", "Slab"}, "--found: as found"},
		{[]string{"--found-cut-off", "warm"}, "--found-cut-off"},
		{[]string{"--against", "as-found"}, "nothing says"},
	} {
		if status, _, errs := call(append([]string{"year", examplePath("combi-slab")}, c.args...)...); status != 1 || !strings.Contains(errs, c.want) {
			t.Errorf("%v: status %d: %s", c.args, status, errs)
		}
	}
}

// TestDecide searches a few settings, for a person and for a program.
func TestDecide(t *testing.T) {
	args := []string{"decide", examplePath("combi-slab"), "--runs", "9", "--samples", "3"}
	status, out, errs := call(args...)
	if status != 0 || errs != "" {
		t.Fatalf("status %d: %s", status, errs)
	}
	for _, want := range []string{"years played", "recommended", "Slab, supply at", "Trade-off", "of 3 houses"} {
		if !strings.Contains(out, want) {
			t.Errorf("the text lacks %q:\n%s", want, out)
		}
	}
	_, out, _ = call(append(args, "--json")...)
	var answer struct {
		Complete bool
		Runs     int
		Best     struct{ FuelKWh float64 }
		Front    []struct{ ColdHours float64 }
		Advice   []string
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil || !answer.Complete || answer.Best.FuelKWh < 1000 || len(answer.Front) == 0 || len(answer.Advice) == 0 {
		t.Errorf("%v: %+v", err, answer)
	}
	if status, _, errs := call("decide", examplePath("combi-slab"), "--cold", "long"); status != 1 || !strings.Contains(errs, "--cold") {
		t.Errorf("status %d: %s", status, errs)
	}
	if status, _, errs := call("decide", examplePath("combi-slab"), "--runs", "-4"); status != 1 || !strings.Contains(errs, "runs") {
		t.Errorf("status %d: %s", status, errs)
	}
}
