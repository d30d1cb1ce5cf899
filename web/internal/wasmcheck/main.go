//go:build js && wasm

// Wasmcheck is the page compiled for a browser, to see that it can be and how large
// it gets. It answers one request, so that nothing of the page is left out by the
// linker.
package main

import (
	"crypto/rand"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"curvewright/store"
	"curvewright/web"
)

// answer takes what the page writes, as a worker in a browser would to hand it on.
// Package httptest has one as well, and with it a client and a server.
type answer struct {
	header http.Header
	status int
	body   []byte
}

func (a *answer) Header() http.Header { return a.header }

func (a *answer) WriteHeader(status int) { a.status = status }

func (a *answer) Write(b []byte) (int, error) {
	a.body = append(a.body, b...)
	return len(b), nil
}

func main() {
	handler, err := web.New(web.Config{Store: store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})})
	if err != nil {
		panic(err)
	}
	a := &answer{header: http.Header{}, status: http.StatusOK}
	handler.ServeHTTP(a, &http.Request{Method: http.MethodGet, URL: &url.URL{Path: "/"}, Host: "localhost", Header: http.Header{}, Body: http.NoBody})
	fmt.Println(a.status, len(a.body))
}
