package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func plain(s string) string {
	return strings.NewReplacer("\u00a0", " ", "−", "-").Replace(s)
}

func TestSensorTables(t *testing.T) {
	status, out, errs := call("sensor", examplePath("ridge-house"))
	if status != 0 || errs != "" {
		t.Fatalf("status %d: %s", status, errs)
	}
	for _, want := range []string{"outdoor: thermistor 10 kΩ at 25 °C, B 3977", "supply of Slab: Pt1000", "tank: table of 5 points", "-10 °F"} {
		if !strings.Contains(plain(out), want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	status, one, _ := call("sensor", examplePath("ridge-house"), "Tank", "--units", "si")
	if status != 0 || strings.Contains(one, "outdoor") || !strings.Contains(plain(one), "50.0 °C") || !strings.Contains(one, "4.62") {
		t.Errorf("status %d:\n%s", status, one)
	}
}

func TestSensorReadings(t *testing.T) {
	ridge := examplePath("ridge-house")
	for _, c := range []struct {
		args   []string
		status int // 1: the sensor is wrong
		want   string
	}{
		{[]string{ridge, "outdoor", "--reads", "99.1 kΩ", "--at", "-3 °F"}, 0, "outdoor: right"},
		{[]string{ridge, "outdoor", "--reads=99.1 kΩ", "--at=-3 °F"}, 0, "outdoor: right"},
		{[]string{ridge, "outdoor", "--reads", "60 kΩ", "--at", "-3 °F"}, 1, "in the sun, over a vent"},
		{[]string{ridge, "outdoor", "--reads", "OL", "--at", "-3 °F"}, 1, "Open circuit"},
		{[]string{ridge, "outdoor", "--reads", "0 Ω", "--at", "-3 °F"}, 1, "Short circuit"},
		{[]string{ridge, "tank", "--reads", "1214 Ω", "--at", "131 °F"}, 1, "fits Pt1000"},
		{[]string{examplePath("bills-house"), "--reads", "33 kΩ", "--at", "4 °C"}, 0, "outdoor: right"},
	} {
		status, out, errs := call(append([]string{"sensor"}, c.args...)...)
		if status != c.status || !strings.Contains(plain(out), c.want) || errs != "" {
			t.Errorf("%v: status %d, %s%s; want %d and %q", c.args, status, out, errs, c.status, c.want)
		}
	}
}

func TestSensorRefusals(t *testing.T) {
	ridge := examplePath("ridge-house")
	broken := filepath.Join(t.TempDir(), "broken.yaml")
	if err := os.WriteFile(broken, []byte("curvewright: 1\njob: x\nsensors: [{name: tank, type: thermistor, r25: 10 kΩ}]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{examplePath("short-survey")}, 1, "lists no sensors"},
		{[]string{ridge, "tnak"}, 1, "no sensor \"tnak\"; accepted: outdoor, supply of Slab, tank"},
		{[]string{ridge, "--reads", "10 kΩ", "--at", "77 °F"}, 1, "say which was read: outdoor, supply of Slab, tank"},
		{[]string{ridge, "tank", "--reads", "10 kΩ"}, 1, "--at"},
		{[]string{ridge, "tank", "--at", "77 °F"}, 1, "--reads"},
		{[]string{ridge, "tank", "--reads", "10", "--at", "77 °F"}, 1, "--reads: \"10\" has no unit"},
		{[]string{ridge, "tank", "--reads", "10 kΩ", "--at", "77"}, 1, "--at: \"77\" has no unit"},
		{[]string{ridge, "tank", "--reads", "10 kΩ", "--at", "-3 °F"}, 1, "sensors › tank"},
		{[]string{broken}, 1, "site"},
		{nil, 2, "<file>"},
	} {
		status, out, errs := call(append([]string{"sensor"}, c.args...)...)
		if status != c.status || !strings.Contains(plain(errs), c.want) || out != "" && status == 1 {
			t.Errorf("%v: status %d, %q, %q; want %d and %q", c.args, status, out, errs, c.status, c.want)
		}
	}
}
