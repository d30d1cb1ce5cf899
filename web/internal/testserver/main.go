// Testserver serves the page alone, for the walks of the browser tests. It prints its
// address and ends with its standard input.
package main

import (
	"crypto/rand"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"time"

	"curvewright/report/pdf"
	"curvewright/store"
	"curvewright/web"
)

func main() {
	handler, err := web.New(web.Config{Version: "test", Print: pdf.Sheet, Record: pdf.Paperwork, Household: pdf.Household, Year: web.PlayYear, Store: store.NewMemory(store.Outside{Now: time.Now, Random: rand.Reader})})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Printf("http://%s\n", listener.Addr())
	go func() {
		_, _ = io.Copy(io.Discard, os.Stdin) // ends when whoever started us does
		os.Exit(0)
	}()
	server := &http.Server{Handler: web.Packed(handler), ReadHeaderTimeout: 10 * time.Second}
	if err := server.Serve(listener); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
