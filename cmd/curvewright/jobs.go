package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"curvewright/job"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/web/words"
)

// Commands that read a job document: settings, check, why, schema.

type settingsCommand struct {
	File    string `arg:"" help:"Job document, YAML or JSON; - reads from standard input."`
	Format  string `enum:"text,json,pdf" default:"text" help:"text, json or pdf."`
	Output  string `short:"o" placeholder:"FILE" help:"Write to this file; without it, to the terminal."`
	Units   string `enum:"job,us,si" default:"job" help:"Units of the sheet: us, si, or as the job says."`
	Paper   string `enum:"a4,letter,auto" default:"auto" help:"Paper of the PDF; auto takes letter for US units."`
	Samples int    `default:"500" help:"Samples of the survey's uncertainty; 0 leaves the bands out."`
	Seed    uint64 `default:"1" help:"Seed of the sampling."`
	Width   int    `default:"100" help:"Columns of the text."`
	Weather string `placeholder:"FILE" help:"Weigh outdoor temperatures by the hours of this year (see curvewright weather); without it, by a made-up one."`

	Language string `enum:"en,fr,es,de" default:"en" help:"Language of text and PDF: en, fr, es, de."`
}

// most documents are a few kilobytes; this is the reader's own limit with room to
// let it say so itself.
const largestFile = 2 << 20

func readFile(name string) ([]byte, error) {
	in := io.Reader(os.Stdin)
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			var p *os.PathError
			if errors.As(err, &p) {
				return nil, fmt.Errorf("cannot open %s: %w", name, p.Err)
			}
			return nil, err
		}
		defer f.Close()
		in = f
	}
	data, err := io.ReadAll(io.LimitReader(in, largestFile))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, err)
	}
	return data, nil
}

func readJob(name string) (*job.Job, error) {
	data, err := readFile(name)
	if err != nil {
		return nil, err
	}
	j, err := job.Read(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return j, nil
}

func solve(name, system string, samples int, seed uint64, hours settings.Hours) (*settings.Sheet, error) {
	j, err := readJob(name)
	if err != nil {
		return nil, err
	}
	o := settings.DefaultOptions(j)
	o.Seed, o.Hours = seed, hours
	switch {
	case samples < 0 || samples > 100000:
		return nil, fmt.Errorf("--samples %d cannot be used; accepted: 0 to 100,000", samples)
	default:
		o.Samples = samples
	}
	switch system {
	case "us":
		o.System = units.US
	case "si":
		o.System = units.SI
	}
	s, err := settings.Solve(j, o)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return s, nil
}

// Run writes the sheet. A file is written whole or not at all.
func (c settingsCommand) Run(p *program) error {
	hours, err := c.hours()
	if err != nil {
		return err
	}
	s, err := solve(c.File, c.Units, c.Samples, c.Seed, hours)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	switch c.Format {
	case "json":
		err = report.SheetJSON(&b, s)
	case "pdf":
		if c.Output == "" {
			return fmt.Errorf("a PDF needs a file to go to: add -o %s.pdf", strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File)))
		}
		err = pdf.Sheet(&b, s, report.PDFOptions{Paper: c.paper(s), Date: sheetDate(s), Version: version, Say: spoken(c.Language).Writing, Lang: c.Language})
	default:
		err = report.SheetTextIn(&b, s, c.Width, spoken(c.Language).Writing)
	}
	if err != nil {
		return err
	}
	if c.Output == "" {
		_, err = b.WriteTo(p.out)
		return err
	}
	if err := writeWhole(c.Output, b.Bytes()); err != nil {
		return err
	}
	_, err = fmt.Fprintln(p.out, "wrote", c.Output)
	return err
}

// hours reads the place's own year, if one is given.
func (c settingsCommand) hours() (settings.Hours, error) {
	if c.Weather == "" {
		return nil, nil
	}
	data, err := readWeather(c.Weather)
	if err != nil {
		return nil, err
	}
	y, err := weather.Parse(data, weather.Place{})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Weather, err)
	}
	return y, nil
}

func (c settingsCommand) paper(s *settings.Sheet) report.Paper {
	if c.Paper == "letter" || (c.Paper == "auto" && s.System == units.US) {
		return report.Letter
	}
	return report.A4
}

// sheetDate is the day of the survey, or today where the survey has none.
func sheetDate(s *settings.Sheet) string {
	if s.Surveyed != "" {
		return s.Surveyed
	}
	return time.Now().Format(time.DateOnly)
}

// writeWhole writes beside the file and renames, so that a full disk or a lost
// connection leaves what was there.
func writeWhole(name string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".curvewright-*")
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Chmod(f.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, err)
	}
	return nil
}

type checkCommand struct {
	Files []string `arg:"" name:"file" help:"Job documents."`
}

// Run checks each document, and that it can be solved.
func (c checkCommand) Run(p *program) error {
	bad := false
	for _, name := range c.Files {
		j, err := readJob(name)
		if err == nil {
			_, err = settings.Solve(j, settings.Options{System: settings.DefaultOptions(j).System})
			if err != nil {
				err = fmt.Errorf("%s: %w", name, err)
			}
		}
		if err != nil {
			bad = true
			fmt.Fprintln(p.errs, err)
			continue
		}
		fmt.Fprintf(p.out, "%s: in order\n", name)
	}
	if bad {
		return errQuiet
	}
	return nil
}

// spoken is the language with a tag.
func spoken(tag string) words.Language {
	l, _ := words.Tagged(tag)
	return l
}

type whyCommand struct {
	File  string `arg:"" help:"Job document."`
	Name  string `arg:"" optional:"" help:"Name of a line of the sheet; without one, the names are listed."`
	Units string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`

	Language string `enum:"en,fr,es,de" default:"en" help:"Language: en, fr, es, de."`
}

// Run shows one line's working.
func (c whyCommand) Run(p *program) error {
	s, err := solve(c.File, c.Units, 500, 1, nil)
	if err != nil {
		return err
	}
	var names []string
	for _, section := range s.Sections {
		for _, l := range section.Lines {
			if l.ID == c.Name {
				return report.WhyTextIn(p.out, l, s.System, spoken(c.Language).Writing)
			}
			names = append(names, fmt.Sprintf("%-28s %s: %s", l.ID, l.Label, l.Value))
		}
	}
	for _, f := range s.Figures {
		if f.ID == c.Name {
			return report.WhyTextIn(p.out, settings.Line{ID: f.ID, Label: f.Label, Value: f.Value.Text(s.System), Working: f.Working}, s.System, spoken(c.Language).Writing)
		}
		names = append(names, fmt.Sprintf("%-28s %s: %s", f.ID, f.Label, f.Value.Text(s.System)))
	}
	list := strings.Join(names, "\n  ")
	if c.Name == "" {
		_, err := fmt.Fprintf(p.out, "curvewright why %s NAME, with NAME one of\n  %s\n", c.File, list)
		return err
	}
	return fmt.Errorf("the sheet has no line %q; accepted:\n  %s", c.Name, list)
}

type schemaCommand struct{}

// Run prints the schema.
func (schemaCommand) Run(p *program) error {
	_, err := p.out.Write(job.Schema())
	return err
}
