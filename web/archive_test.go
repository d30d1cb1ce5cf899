package web

import (
	"bytes"
	"math/rand/v2"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// paperAddress is where a paper lies.
var paperAddress = regexp.MustCompile(`/jobs/[^/"]+/papers/([^/"]+)"`)

// noise is data that does not shrink, under the head of a PDF.
func noise(seed uint64, size int) []byte {
	data := make([]byte, size)
	r := rand.New(rand.NewPCG(seed, 1125))
	for i := range data {
		data[i] = byte(r.Uint32())
	}
	copy(data, "%PDF-1.7\n")
	return data
}

// A file with everything that we wrote is taken in again, however large it is.
func TestALargeFileOfEverythingComesBack(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	for i := range 3 {
		if w := uploadAll(t, h, at+"/papers", nil, sent{"files", "scan.pdf", noise(uint64(i), 9<<20)}); w.Code != http.StatusSeeOther {
			t.Fatalf("a paper was refused: %d", w.Code)
		}
	}
	archive := get(t, h, at+"/everything.zip").Body.Bytes()
	if len(archive) < maxYear {
		t.Fatalf("it has %d bytes", len(archive))
	}
	other := handler(t)
	w := uploadAll(t, other, "/jobs", nil, sent{"file", "house.zip", archive})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("not taken in: %d %s", w.Code, w.Body)
	}
	there := strings.TrimSuffix(w.Header().Get("Location"), "/survey")
	same := 0
	for _, m := range paperAddress.FindAllStringSubmatch(get(t, other, there+"/papers").Body.String(), -1) {
		data := get(t, other, there+"/papers/"+m[1]).Body.Bytes()
		for i := range 3 {
			if bytes.Equal(data, noise(uint64(i), 9<<20)) {
				same |= 1 << i
			}
		}
	}
	if same != 7 {
		t.Error("not all papers came along as they were")
	}
}

// A paper that is called otherwise stays where it is.
func TestARenamedPaperKeepsItsAddress(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	uploadAll(t, h, at+"/papers", nil, sent{"files", "bill.txt", []byte("900 therms")})
	before := paperAddress.FindStringSubmatch(get(t, h, at+"/papers").Body.String())
	if before == nil {
		t.Fatal("the paper has no address")
	}
	post(t, h, at+"/papers/"+before[1], url.Values{"name": {"bill of 2025.txt"}})
	w := get(t, h, at+"/papers/"+before[1])
	if w.Code != http.StatusOK || w.Body.String() != "900 therms" || !strings.Contains(w.Header().Get("Content-Disposition"), "bill of 2025.txt") {
		t.Errorf("under its address: %d %s %s", w.Code, w.Header().Get("Content-Disposition"), w.Body)
	}
	if page := get(t, h, at+"/papers").Body.String(); strings.Count(page, at+"/papers/"+before[1]+`"`) == 0 || !strings.Contains(page, "bill of 2025") {
		t.Error("the list does not show the paper under its new name")
	}
}
