package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"curvewright/attendance"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web"
)

// What is handed over: the record for the file, the sheet for the household, the day of
// the return visit, the settings as a square, the readings as a spreadsheet.

type handoverCommand struct {
	File      string `arg:"" help:"Job document."`
	Visit     string `arg:"" optional:"" help:"Document of the visit, YAML or JSON; its pictures lie beside it."`
	Record    string `placeholder:"FILE" help:"Write the record for the file (PDF)."`
	Household string `placeholder:"FILE" help:"Write the sheet for the household, one page (PDF)."`
	Calendar  string `placeholder:"FILE" help:"Write the return visit for a calendar (.ics)."`
	Square    string `placeholder:"FILE" help:"Write the settings as a square that telephones read (SVG)."`
	Readings  string `placeholder:"FILE" help:"Write the readings as a spreadsheet (.xlsx)."`
	Language  string `enum:"en,fr,es,de" default:"en" help:"Language: en, fr, es or de."`
	Paper     string `enum:"job,a4,letter" default:"job" help:"Paper: a4, letter, or usual with the units."`
	Units     string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
}

// Run writes what was asked for.
func (c handoverCommand) Run(p *program) error {
	if c.Record+c.Household+c.Calendar+c.Square+c.Readings == "" {
		return errors.New("nothing to write: name a file for --record, --household, --calendar, --square or --readings")
	}
	h, opts, err := c.open()
	if err != nil {
		return err
	}
	for _, out := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{c.Record, func(w io.Writer) error { return pdf.Paperwork(w, h.Record(c.picture), opts) }},
		{c.Household, func(w io.Writer) error { return pdf.Household(w, h.Household(), opts) }},
		{c.Calendar, func(w io.Writer) error {
			file, err := h.Calendar()
			if err == nil {
				_, err = io.WriteString(w, file)
			}
			return err
		}},
		{c.Square, func(w io.Writer) error {
			_, err := io.WriteString(w, h.Square()+"\n")
			return err
		}},
		{c.Readings, h.Readings},
	} {
		if out.name == "" {
			continue
		}
		var b bytes.Buffer
		if err := out.write(&b); err != nil {
			return fmt.Errorf("%s: %w", out.name, err)
		}
		if err := writeWhole(out.name, b.Bytes()); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(p.out, "wrote", out.name); err != nil {
			return err
		}
	}
	return nil
}

// open reads job and visit.
func (c handoverCommand) open() (*web.Handover, report.PDFOptions, error) {
	opts := report.PDFOptions{Version: version}
	j, err := readJob(c.File)
	if err != nil {
		return nil, opts, err
	}
	system := settings.DefaultOptions(j).System
	switch c.Units {
	case "us":
		system = units.US
	case "si":
		system = units.SI
	}
	if c.Paper == "letter" || c.Paper == "job" && system == units.US {
		opts.Paper = report.Letter
	}
	var v *attendance.Visit
	if c.Visit != "" {
		data, err := readFile(c.Visit)
		if err != nil {
			return nil, opts, err
		}
		if v, err = attendance.Read(data); err != nil {
			return nil, opts, fmt.Errorf("%s: %w", c.Visit, err)
		}
	}
	h, err := web.NewHandover(j, v, system, c.Language)
	if err != nil {
		return nil, opts, fmt.Errorf("%s: %w", c.File, err)
	}
	opts.Date = h.Day()
	return h, opts, nil
}

// picture reads one that lies beside the visit's document; a name that leads elsewhere is
// none.
func (c handoverCommand) picture(name string) []byte {
	if !filepath.IsLocal(name) || filepath.Base(name) != name {
		return nil
	}
	data, err := os.ReadFile(filepath.Join(filepath.Dir(c.Visit), name))
	if err != nil {
		return nil
	}
	return data
}
