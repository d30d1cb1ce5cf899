package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"curvewright/logs"
)

func TestHandover(t *testing.T) {
	dir := t.TempDir()
	visit, err := os.ReadFile("../../attendance/testdata/ridge.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 30, 20))); err != nil {
		t.Fatal(err)
	}
	at := func(name string) string { return filepath.Join(dir, name) }
	for name, data := range map[string][]byte{"visit.yaml": visit, "3f2a.jpg": picture.Bytes()} {
		if err := os.WriteFile(at(name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	status, out, errs := call("handover", examplePath("ridge-house"), at("visit.yaml"), "--record", at("r.pdf"), "--household", at("h.pdf"),
		"--calendar", at("c.ics"), "--square", at("s.svg"), "--readings", at("r.xlsx"), "--language", "de", "--paper", "a4")
	if status != 0 || strings.Count(out, "wrote") != 5 {
		t.Fatalf("status %d, %s%s", status, out, errs)
	}
	for name, begins := range map[string]string{"r.pdf": "%PDF", "h.pdf": "%PDF", "c.ics": "BEGIN:VCALENDAR", "s.svg": "<svg", "r.xlsx": "PK"} {
		data, err := os.ReadFile(at(name))
		if err != nil || !bytes.HasPrefix(data, []byte(begins)) {
			t.Errorf("%s: %v, begins with %q", name, err, data[:min(len(data), 8)])
		}
	}
	if data, _ := os.ReadFile(at("r.pdf")); !bytes.Contains(data, []byte("/Subtype /Image")) {
		t.Error("the record lacks the photograph")
	}
	if data, _ := os.ReadFile(at("c.ics")); !bytes.Contains(data, []byte("DTSTART;VALUE=DATE:20270115")) || !bytes.Contains(data, []byte("Nächster Besuch")) {
		t.Errorf("the calendar says %s", data)
	}
	book, err := os.Open(at("r.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	size, _ := book.Stat()
	if _, err := logs.Sheet(book, size.Size()); err != nil {
		t.Error(err)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "nothing to write"},
		{[]string{"--calendar", at("d.ics")}, "follow_up"},
		{[]string{"--readings", at("d.xlsx")}, "no visit"},
		{[]string{"--record", at("d.pdf"), "--language", "la"}, "language"},
	} {
		if status, _, errs := call(append([]string{"handover", examplePath("ridge-house")}, c.args...)...); status == 0 || !strings.Contains(errs, c.want) {
			t.Errorf("%v: status %d, %s", c.args, status, errs)
		}
	}
	if status, _, errs := call("handover", examplePath("short-survey"), "--household", at("only.pdf")); status != 0 {
		t.Errorf("without a visit: %s", errs)
	}
}
