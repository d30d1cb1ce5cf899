//go:build js && wasm

// Wasmcheck is the page compiled for a browser, to see that it can be and how large
// it gets. It answers one request, so that nothing of the page is left out by the
// linker.
package main

import (
	"crypto/rand"
	"fmt"
	"net/http"
	"net/http/httptest"
	"time"

	"curvewright/store"
	"curvewright/web"
)

func main() {
	handler, err := web.New(web.Config{Store: store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})})
	if err != nil {
		panic(err)
	}
	answer := httptest.NewRecorder()
	handler.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/", nil))
	fmt.Println(answer.Code, answer.Body.Len())
}
