package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"strings"
	"syscall"
	"time"

	"curvewright/report/pdf"
	"curvewright/store"
	"curvewright/store/sqlite"
	"curvewright/web"
)

type serveCommand struct {
	Listen string `default:"127.0.0.1:8090" help:"Address and port; port 0 takes a free one."`
	Open   bool   `help:"Open the page in the default browser."`
	Jobs   string `placeholder:"FILE" help:"Where jobs are kept; a file in your own data folder if left out."`
	Demo   bool   `help:"Begin with the example houses if there is no job yet; open the newest."`
}

// Run serves the page until it is interrupted.
func (c serveCommand) Run(p *program) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return c.serve(ctx, p)
}

func (c serveCommand) serve(ctx context.Context, p *program) error {
	jobs, err := c.open()
	if err != nil {
		return err
	}
	defer jobs.Close()
	handler, err := web.New(web.Config{Version: version, Print: pdf.Sheet, Record: pdf.Paperwork, Household: pdf.Household, Year: web.PlayYear, Store: jobs, Today: func() string { return time.Now().Format(time.DateOnly) }})
	if err != nil {
		return err
	}
	page := "/"
	if c.Demo {
		if page, err = demo(ctx, jobs, handler); err != nil {
			return err
		}
	}
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		var op *net.OpError
		if errors.As(err, &op) && errors.Is(op.Err, syscall.EADDRINUSE) {
			return fmt.Errorf("%s is in use, perhaps by another Curvewright; choose another with --listen 127.0.0.1:0", c.Listen)
		}
		return fmt.Errorf("cannot listen on %s: %w", c.Listen, err)
	}
	url := "http://" + listener.Addr().String() + strings.TrimSuffix(page, "/")
	fmt.Fprintln(p.out, "Curvewright is open at", url)
	if c.Open {
		if err := openBrowser(url); err != nil {
			fmt.Fprintln(p.errs, "no browser could be opened; go to the address yourself")
		}
	}
	server := &http.Server{Handler: web.Packed(handler), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second,
		WriteTimeout: 60 * time.Second, IdleTimeout: 2 * time.Minute}
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	return server.Shutdown(wait)
}

// open opens the file of jobs.
func (c serveCommand) open() (store.Store, error) {
	path := c.Jobs
	if path == "" {
		own, err := sqlite.Path()
		if err != nil {
			return nil, err
		}
		path = own
	}
	jobs, err := sqlite.Open(path, store.Outside{Now: time.Now, Random: rand.Reader})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return jobs, nil
}

func openBrowser(url string) error {
	switch runtime.GOOS {
	case "darwin":
		return exec.Command("open", url).Start()
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", url).Start()
	}
	return exec.Command("xdg-open", url).Start()
}
