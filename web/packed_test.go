package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"
)

func TestPagesArePackedForThoseWhoTakeIt(t *testing.T) {
	h := handler(t)
	plain := get(t, h, "/new").Body.String()
	r := httptest.NewRequest(http.MethodGet, "/new", nil)
	r.Header.Set("Accept-Encoding", "br, gzip")
	w := httptest.NewRecorder()
	Packed(h).ServeHTTP(w, r)
	if w.Header().Get("Content-Encoding") != "gzip" || w.Body.Len() > len(plain)/3 {
		t.Fatalf("%q, %d of %d bytes", w.Header().Get("Content-Encoding"), w.Body.Len(), len(plain))
	}
	z, err := gzip.NewReader(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(z); err != nil || string(text) != plain {
		t.Errorf("unpacked it is another page: %v", err)
	}
	w = httptest.NewRecorder()
	Packed(h).ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/new", nil))
	if w.Header().Get("Content-Encoding") != "" || w.Body.String() != plain {
		t.Error("packed for a reader who did not ask for it")
	}
	r = httptest.NewRequest(http.MethodGet, "/jobs/x", nil)
	r.Header.Set("Accept-Encoding", "gzip")
	w = httptest.NewRecorder()
	Packed(h).ServeHTTP(w, r)
	if w.Code != http.StatusSeeOther {
		t.Errorf("a redirection became %d", w.Code)
	}
}
