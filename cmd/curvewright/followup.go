package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"time"

	"curvewright/followup"
	"curvewright/logs"
	"curvewright/settings"
	"curvewright/trial"
	"curvewright/units"
)

// Learning from a logger's file.

type followupCommand struct {
	File    string  `arg:"" help:"Job document."`
	Log     string  `arg:"" help:"Log: CSV of any logger, or a spreadsheet (.xlsx)."`
	Columns string  `placeholder:"LIST" help:"Meaning of columns, over what is recognised: \"2=outdoor °F,5=room Kitchen\". Roles: ${roles}."`
	Mapping string  `placeholder:"FILE" help:"Take columns, units and times from a kept mapping."`
	Keep    string  `placeholder:"FILE" help:"Keep the mapping in this file, for the next log."`
	Preview bool    `help:"Show what is recognised, and stop."`
	UTC     float64 `name:"utc-offset" placeholder:"HOURS" help:"Of the house's standard time from UTC, where the log's times are in UTC: -5."`
	JSON    bool    `name:"json" help:"Write JSON."`
	Quick   bool    `help:"Leave out the model of the house's inertia and the year's simulation."`
	Units   string  `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
}

// largestLog is what is read of a log at most.
const largestLog = 1 << 30

// Run recognises, reads and judges a log.
func (c followupCommand) Run(p *program) error {
	j, err := readJob(c.File)
	if err != nil {
		return err
	}
	system := settings.DefaultOptions(j).System
	switch c.Units {
	case "us":
		system = units.US
	case "si":
		system = units.SI
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	mapping, recognised, err := c.mapping()
	if err != nil {
		return fmt.Errorf("%s: %w", c.Log, err)
	}
	if c.Keep != "" {
		var b bytes.Buffer
		if err := mapping.Write(&b); err != nil {
			return err
		}
		if err := writeWhole(c.Keep, b.Bytes()); err != nil {
			return err
		}
	}
	if c.Preview {
		return writePreview(p.out, mapping, recognised)
	}
	l, err := c.read(ctx, mapping)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Log, err)
	}
	r, err := followup.Analyse(ctx, l, j, followup.Options{System: system, Cheap: c.Quick})
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.JSON {
		return r.WriteJSON(p.out)
	}
	if recognised != nil {
		for _, d := range recognised.Doubts {
			fmt.Fprintf(p.out, "to be confirmed: %s\n", d)
		}
	}
	if err := r.WriteText(p.out); err != nil {
		return err
	}
	if c.Quick || !r.Correction.Known || !r.Curve.Slope.Known {
		return nil
	}
	return writeEffect(p.out, c.File, r, system)
}

// mapping takes a kept one, or recognises the file.
func (c followupCommand) mapping() (logs.Mapping, *logs.Recognised, error) {
	var m logs.Mapping
	var found *logs.Recognised
	if c.Mapping != "" {
		data, err := readFile(c.Mapping)
		if err != nil {
			return m, nil, err
		}
		if m, err = logs.ReadMapping(data); err != nil {
			return m, nil, err
		}
	} else {
		in, done, err := c.open()
		if err != nil {
			return m, nil, err
		}
		defer done()
		if f, plain := in.(*os.File); plain {
			info, err := f.Stat()
			if err != nil {
				return m, nil, err
			}
			if in, err = logs.Sample(f, info.Size()); err != nil {
				return m, nil, err
			}
		}
		if found, err = logs.Recognise(in); err != nil {
			return m, nil, err
		}
		m = found.Mapping
	}
	if c.UTC != 0 {
		m.Offset = c.UTC
	}
	return m, found, m.Assign(c.Columns)
}

// open gives the rows of the log as text.
func (c followupCommand) open() (io.Reader, func(), error) {
	f, err := os.Open(c.Log)
	if err != nil {
		var p *os.PathError
		if errors.As(err, &p) {
			return nil, nil, fmt.Errorf("cannot be opened: %w", p.Err)
		}
		return nil, nil, err
	}
	done := func() { f.Close() }
	info, err := f.Stat()
	if err == nil && info.Size() > largestLog {
		err = fmt.Errorf("the log has %d MB; up to %d MB are read: export a year or less, or longer steps", info.Size()>>20, largestLog>>20)
	}
	if err != nil {
		done()
		return nil, nil, err
	}
	if strings.HasSuffix(strings.ToLower(c.Log), ".xlsx") {
		rows, err := logs.Sheet(f, info.Size())
		if err != nil {
			done()
			return nil, nil, err
		}
		return rows, func() { rows.Close(); done() }, nil
	}
	return f, done, nil
}

func (c followupCommand) read(ctx context.Context, m logs.Mapping) (*logs.Log, error) {
	in, done, err := c.open()
	if err != nil {
		return nil, err
	}
	defer done()
	return logs.Read(ctx, in, m, logs.Options{MostBytes: largestLog, Now: time.Now().Unix()})
}

// writePreview shows what each column was taken for.
func writePreview(w io.Writer, m logs.Mapping, r *logs.Recognised) error {
	var b strings.Builder
	fmt.Fprintf(&b, "delimiter %q, decimal comma %v, readings from line %d, times %s\n", m.Delimiter, m.Comma, m.DataLine, m.Times)
	for i, c := range m.Columns {
		what := string(c.Role)
		if c.Name != "" {
			what += " " + c.Name
		}
		if c.Unit != "" {
			what += " " + c.Unit
		}
		fmt.Fprintf(&b, "%3d  %-28s %-26s %3.0f %%  %s\n", i+1, c.Heading, what, 100*c.Confidence, c.Reason)
	}
	if r != nil {
		for _, d := range r.Doubts {
			fmt.Fprintf(&b, "to be confirmed: %s\n", d)
		}
		for _, row := range r.Preview {
			fmt.Fprintf(&b, "  %s\n", strings.Join(row, " | "))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// writeEffect plays a year with the curve as it runs and with the corrected one, in the
// house as it was learned.
func writeEffect(w io.Writer, file string, r *followup.Result, system units.System) error {
	j, err := readJob(file)
	if err != nil {
		return err
	}
	t, err := trial.New(j, trial.Options{System: system, Seed: 1, Learned: r.Correction.Learned})
	if err != nil {
		_, err = fmt.Fprintf(w, "\nthe year cannot be played: %v\n", err)
		return err
	}
	t.Settings = append(t.Settings[:1], r.AsItRuns(t.Settings[0]))
	results, err := t.Run(nil)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	fmt.Fprintf(w, "\nA year in the house as learned: with the corrected settings, and with the curve as it runs now\n")
	return t.WriteText(w, results, system)
}

// logRoles lists what a column can be, for the help.
func logRoles() string {
	var words []string
	for _, r := range logs.Roles() {
		words = append(words, string(r))
	}
	return strings.Join(words, ", ")
}
