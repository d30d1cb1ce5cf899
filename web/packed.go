package web

import (
	"compress/gzip"
	"net/http"
	"strings"
	"sync"
)

// Pages hold drawings and tables, which pack to a tenth. A telephone in a cellar is glad
// of it. Where the browser itself is the server nothing is packed, so this is put around
// the pages by the program that listens.

var packers = sync.Pool{New: func() any { return gzip.NewWriter(nil) }}

// Packed packs what an answer holds if the browser takes it packed.
func Packed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Add("Vary", "Accept-Encoding")
		if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			next.ServeHTTP(w, r)
			return
		}
		p := &packer{ResponseWriter: w}
		defer p.close()
		next.ServeHTTP(p, r)
	})
}

// packer packs text. What is packed already, or has no body, goes through as it is.
type packer struct {
	http.ResponseWriter
	z       *gzip.Writer
	decided bool
}

func (p *packer) decide(status int) {
	p.decided = true
	h := p.Header()
	kind := h.Get("Content-Type")
	text := strings.HasPrefix(kind, "text/") || strings.Contains(kind, "json") || strings.Contains(kind, "yaml") || strings.Contains(kind, "svg")
	if status == http.StatusNoContent || status == http.StatusNotModified || status/100 == 1 || !text || h.Get("Content-Encoding") != "" {
		return
	}
	h.Set("Content-Encoding", "gzip")
	h.Del("Content-Length")
	p.z = packers.Get().(*gzip.Writer)
	p.z.Reset(p.ResponseWriter)
}

func (p *packer) WriteHeader(status int) {
	if !p.decided {
		p.decide(status)
	}
	p.ResponseWriter.WriteHeader(status)
}

func (p *packer) Write(data []byte) (int, error) {
	if !p.decided {
		p.WriteHeader(http.StatusOK)
	}
	if p.z == nil {
		return p.ResponseWriter.Write(data)
	}
	return p.z.Write(data)
}

func (p *packer) close() {
	if p.z == nil {
		return
	}
	_ = p.z.Close() // a reader who went away is no fault of ours
	packers.Put(p.z)
}
