package main

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"

	"curvewright/examples"
	"curvewright/store"
)

// The example house is kept by the forms that a person fills in, so that what it shows is
// what a person would see: jobs, a visit that comes with its job, a log, remarks.

// demo gives the page of the newest job; if there is none, it keeps the examples first,
// the ridge house with all that followed its survey.
func demo(ctx context.Context, jobs store.Store, page http.Handler) (string, error) {
	newest := store.Query{Kind: store.Job, Sort: store.ByChanged, Limit: 1}
	list, _, err := jobs.List(ctx, newest)
	if err != nil {
		return "", err
	}
	if len(list) > 0 {
		return "/jobs/" + list[0].ID + "/survey", nil
	}
	d := demonstration{ctx: ctx, page: page}
	for _, e := range examples.List() {
		if e.Name != attendedHouse {
			d.fill("/jobs", url.Values{"example": {e.Name}})
		}
	}
	at := d.send("/jobs", "file", "everything.zip", d.archive())
	job := strings.TrimSuffix(at, "/survey")
	log := d.send(job+"/logs", "log", "ridge-house-winter.csv", examples.RidgeHouseWinter)
	d.fill(log, url.Values{}) // its columns are as they were recognised
	for _, said := range attendedRemarks {
		d.fill(job+"/follow-up", said)
	}
	if d.err != nil {
		return "", fmt.Errorf("the example house: %w", d.err)
	}
	return at, nil
}

// attendedHouse is the example that was visited and logged.
const attendedHouse = "ridge-house"

// attendedRemarks are what its household said since.
var attendedRemarks = []url.Values{
	{"date-0": {"2026-11-06"}, "room-0": {"Hall"}, "felt-0": {"too warm"}, "when-0": {"afternoon"}, "outdoor-0": {"46 °F"}, "often-0": {"2"}, "sunny-0": {"yes"}},
	{"date-0": {"2026-11-18"}, "room-0": {"Kitchen"}, "felt-0": {"too cold"}, "when-0": {"morning"}, "outdoor-0": {"10 °F"}, "by-0": {"4 °F"}, "often-0": {"5"}},
}

// demonstration sends forms one after another until one is not taken.
type demonstration struct {
	ctx  context.Context
	page http.Handler
	err  error
}

// archive is the file with everything of the ridge house, as the handover packs it.
func (d *demonstration) archive() []byte {
	house, ok := examples.Find(attendedHouse)
	if !ok {
		d.err = errors.Join(d.err, fmt.Errorf("%s is missing", attendedHouse))
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range []struct {
		name    string
		content []byte
	}{{"job.yaml", []byte(house.Document)}, {"visits/first.yaml", examples.RidgeHouseVisit}} {
		w, err := z.Create(f.name)
		if err == nil {
			_, err = w.Write(f.content)
		}
		d.err = errors.Join(d.err, err)
	}
	d.err = errors.Join(d.err, z.Close())
	return b.Bytes()
}

// fill sends the answers of a form.
func (d *demonstration) fill(address string, answers url.Values) {
	d.post(address, "application/x-www-form-urlencoded", []byte(answers.Encode()))
}

// send sends a form with a file, and gives the address that it leads to.
func (d *demonstration) send(address, field, name string, content []byte) string {
	var b bytes.Buffer
	form := multipart.NewWriter(&b)
	w, err := form.CreateFormFile(field, name)
	if err == nil {
		_, err = w.Write(content)
	}
	d.err = errors.Join(d.err, err, form.Close())
	return d.post(address, form.FormDataContentType(), b.Bytes())
}

// post gives the address that an answer leads to.
func (d *demonstration) post(address, kind string, body []byte) string {
	if d.err != nil {
		return ""
	}
	r, err := http.NewRequestWithContext(d.ctx, http.MethodPost, address, bytes.NewReader(body))
	if err != nil {
		d.err = err
		return ""
	}
	r.Header.Set("Content-Type", kind)
	a := answer{header: http.Header{}}
	d.page.ServeHTTP(&a, r)
	if a.status != http.StatusSeeOther {
		d.err = fmt.Errorf("%s was answered with status %d", address, a.status)
	}
	return a.header.Get("Location")
}

// answer keeps of what the page answers where it leads to.
type answer struct {
	header http.Header
	status int
}

func (a *answer) Header() http.Header { return a.header }

func (a *answer) WriteHeader(status int) {
	if a.status == 0 {
		a.status = status
	}
}

func (a *answer) Write(b []byte) (int, error) {
	a.WriteHeader(http.StatusOK)
	return io.Discard.Write(b)
}
