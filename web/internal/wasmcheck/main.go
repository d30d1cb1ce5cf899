// Wasmcheck is the page compiled for a browser, to see that it can be, how large it
// gets, and that it says there what it says at a desk. It takes a job through the
// pages, so that nothing of them is left out by the linker.
package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"strings"
	"time"

	"curvewright/examples"
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
	if err := walk(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// counter stands in for chance, so that two walks give their jobs the same identities.
type counter struct{ n byte }

func (c *counter) Read(into []byte) (int, error) {
	for i := range into {
		c.n++
		into[i] = c.n
	}
	return len(into), nil
}

// walk writes for each step what was answered: the status, where it leads, and the page
// as its sum.
func walk(out io.Writer) error {
	noon := func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }
	handler, err := web.New(web.Config{Store: store.NewMemory(store.Outside{Now: noon, Random: &counter{}})})
	if err != nil {
		return err
	}
	w := &walker{handler: handler, out: out}
	w.get("/")
	for _, e := range examples.List() {
		at := w.send("/jobs", "multipart/form-data", url.Values{"units": {"us"}}, "file", e.Name+".yaml", e.Document)
		job := strings.TrimSuffix(at, "/survey")
		for _, place := range []string{"/survey", "/settings", "/curve", "/history", "/sheet.json", "/job.yaml", "/readings.csv", "/record", "/handover"} {
			w.get(job + place)
		}
		w.send(job+"/papers", "multipart/form-data", nil, "files", "note.txt", "Key under the mat.")
		w.get(job + "/papers")
		w.send(job+"/undo", form, url.Values{"to": {job + "/settings"}}, "", "", "")
		at = w.send(job+"/visits", form, url.Values{"by": {"Ada"}}, "", "", "")
		w.get(at)
		w.get(job + "/no-such-place")
	}
	for _, place := range []string{"/controls", "/library", "/help", "/preferences", "/new", "/try?example=ridge-house&units=si", "/nowhere"} {
		w.get(place)
	}
	w.send("/solve", form, url.Values{"document": {examples.List()[0].Document}}, "", "", "")
	w.send("/jobs", form, url.Values{"document": {strings.Repeat("x", 3<<20)}}, "", "", "")
	return w.err
}

const form = "application/x-www-form-urlencoded"

type walker struct {
	handler http.Handler
	out     io.Writer
	err     error
}

func (w *walker) get(address string) { w.ask(http.MethodGet, address, "", nil) }

// send gives fields, and a file where one is named.
func (w *walker) send(address, kind string, fields url.Values, field, file, data string) string {
	body := []byte(fields.Encode())
	if file != "" {
		var b bytes.Buffer
		parts := multipart.NewWriter(&b)
		problem := parts.SetBoundary("between-the-parts")
		for name := range fields {
			problem = errors.Join(problem, parts.WriteField(name, fields.Get(name)))
		}
		f, err := parts.CreateFormFile(field, file)
		if err == nil {
			_, err = io.WriteString(f, data)
		}
		w.err = errors.Join(w.err, problem, err, parts.Close())
		kind, body = parts.FormDataContentType(), b.Bytes()
	}
	return w.ask(http.MethodPost, address, kind, body)
}

func (w *walker) ask(method, address, kind string, body []byte) string {
	at, err := url.Parse(address)
	if err != nil {
		w.err = errors.Join(w.err, err)
		return ""
	}
	r := &http.Request{Method: method, URL: at, Host: "localhost", Header: http.Header{}, Body: io.NopCloser(bytes.NewReader(body))}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	a := &answer{header: http.Header{}, status: http.StatusOK}
	w.handler.ServeHTTP(a, r.WithContext(context.Background()))
	to := a.header.Get("Location")
	_, err = fmt.Fprintf(w.out, "%d %s %s %d bytes %x %s %s\n", a.status, method, address, len(a.body), sha256.Sum256(a.body), a.header.Get("Content-Type"), to)
	w.err = errors.Join(w.err, err)
	return to
}
