package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestDrawingTakesTheNearestWeather(t *testing.T) {
	file := filepath.Join(t.TempDir(), "room.svg")
	for _, c := range []struct {
		args   []string
		want   string // in the drawing's title
		remark string
	}{
		{nil, "Boiler room at −6 °F outdoors", ""},
		{[]string{"--outdoor", "35 °F"}, "Boiler room at 35 °F outdoors", ""},
		{[]string{"--outdoor", "33.9 °F"}, "Boiler room at 35 °F outdoors", "drawn at 35 °F outdoors"},
		{[]string{"--outdoor", "-60 °F"}, "Boiler room at −6 °F outdoors", "drawn at −6 °F outdoors"},
		{[]string{"--outdoor", "35 °F", "--units", "si"}, "Boiler room at 2 °C outdoors", "drawn at 2.0 °C outdoors, the nearest to 1.7 °C"},
		{[]string{"-o", file}, "Boiler room at −6 °F outdoors", ""},
	} {
		status, out, errs := call(append([]string{"drawing", examplePath("ridge-house")}, c.args...)...)
		if status != 0 {
			t.Fatalf("%v: status %d: %s", c.args, status, errs)
		}
		if strings.HasPrefix(out, "wrote") {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			out = string(data)
		}
		if !strings.Contains(strings.ReplaceAll(out, "\u00a0", " "), c.want) || !strings.Contains(out, "low-loss header") {
			t.Errorf("%v: the drawing lacks %q or the header", c.args, c.want)
		}
		if !strings.HasPrefix(strings.ReplaceAll(errs, "\u00a0", " "), c.remark) || c.remark == "" && errs != "" {
			t.Errorf("%v: says %q, want %q", c.args, errs, c.remark)
		}
	}
	for _, wrong := range []string{"35", "35 W"} {
		if status, _, errs := call("drawing", examplePath("ridge-house"), "--outdoor="+wrong); status != 1 || !strings.Contains(errs, "--outdoor") {
			t.Errorf("--outdoor %q: status %d: %s", wrong, status, errs)
		}
	}
}
