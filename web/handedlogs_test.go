//go:build !js

package web

import (
	"archive/zip"
	"bytes"
	"io"
	"net/http"
	"strings"
	"testing"
)

// inArchive is the content of everything in an archive.
func inArchive(t *testing.T, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		all[f.Name] = string(content)
	}
	return all
}

// archived packs files, as somebody else may.
func archived(t *testing.T, all map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, content := range all {
		if err := packTo(z, name, zip.Deflate, strings.NewReader(content)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestLogsAndRemarksAreHandedOn: a job handed on comes back with its logs, confirmed as they
// were, and with what the household said; handed on again it holds the same.
func TestLogsAndRemarksAreHandedOn(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	rows := aHeatedLog(200, nil)
	logged(t, h, at, "Winter at Orla's.csv", rows)
	last := rows[bytes.LastIndexByte(rows[:len(rows)-1], '\n')+1:]
	even := append(bytes.Clone(rows), bytes.Repeat(last, 40_000)...) // which shrinks to next to nothing
	if w := sendFile(t, h, at+"/logs", "log", "even.csv", even); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	for _, day := range []string{"2026-01-12", "2026-02-03"} {
		form := formOn(get(t, h, at+"/follow-up").Body.String())
		form.Set("felt-0", "too cold")
		form.Set("date-0", day)
		form.Set("outdoor-0", "0 °F")
		if w := post(t, h, at+"/follow-up", form); w.Code != http.StatusSeeOther {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	}
	data := get(t, h, at+"/everything.zip").Body.Bytes()
	all := inArchive(t, data)
	if all["logs/001/"+plainFile("Winter at Orla's.csv")] != string(rows) || !strings.Contains(all["logs/001.json"], `"confirmed": true`) || strings.Contains(all["logs/001.json"], `"file"`) {
		t.Errorf("the log is not in it as it was sent: %s", all["logs/001.json"])
	}
	if !strings.Contains(all["remarks/001.json"], "2026-01-12") || !strings.Contains(all["remarks/002.json"], "2026-02-03") {
		t.Errorf("the remarks are not in it: %q, %q", all["remarks/001.json"], all["remarks/002.json"])
	}
	other := handler(t)
	w := uploadAll(t, other, "/jobs", nil, sent{"file", "house.zip", data})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("not taken in: %d %s", w.Code, w.Body)
	}
	there := strings.TrimSuffix(w.Header().Get("Location"), "/survey")
	page := get(t, other, there+"/follow-up").Body.String()
	for _, want := range []string{"Winter at Orla", "2026-01-12", "2026-02-03"} {
		if !strings.Contains(page, want) {
			t.Errorf("%s did not come along", want)
		}
	}
	again := inArchive(t, get(t, other, there+"/everything.zip").Body.Bytes())
	for name, content := range all {
		if again[name] != content && !strings.HasPrefix(name, zipVisits) && !strings.HasPrefix(name, zipFiles) {
			t.Errorf("%s is not the same after a round", name)
		}
	}
	// What is damaged is refused whole, before anything is kept.
	for what, spoil := range map[string]func(map[string]string){
		"no rows":     func(all map[string]string) { delete(all, "logs/001/"+plainFile("Winter at Orla's.csv")) },
		"no log":      func(all map[string]string) { all["logs/001.json"] = "quuxly" },
		"no name":     func(all map[string]string) { all["logs/001.json"] = "{}" },
		"bad mapping": func(all map[string]string) { all["logs/001.json"] = `{"name":"a","confirmed":true}` },
		"no remark":   func(all map[string]string) { all["remarks/001.json"] = `{"felt":"quuxly"}` },
	} {
		bad := inArchive(t, data)
		spoil(bad)
		if w := uploadAll(t, other, "/jobs", nil, sent{"file", "house.zip", archived(t, bad)}); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", what, w.Code)
		}
	}
}

// TestRowsLieDirectlyBesideTheirLog: what lies in the archive under a log's folder is taken for
// rows only directly there.
func TestRowsLieDirectlyBesideTheirLog(t *testing.T) {
	a := archive{logs: map[string][]byte{"logs/001.json": []byte(`{"name":"a.csv"}`)}, files: map[string]*zip.File{"logs/001/deep/a.csv": {}, "logs/0010/a.csv": {}}}
	if _, err := a.logsIn(); err == nil {
		t.Error("rows from elsewhere are taken")
	}
}
