package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"curvewright/job"
	"curvewright/sensor"
	"curvewright/settings"
	"curvewright/units"
)

// Tables of the job's sensors, and a reading taken at a sensor's terminals.

type sensorCommand struct {
	File  string `arg:"" help:"Job document."`
	Name  string `arg:"" optional:"" help:"Name of a sensor of the job; without one, all of them."`
	Reads string `placeholder:"RESISTANCE" help:"What the meter reads at its terminals, wires off the control: \"12.3 kΩ\"; OL or open, 0 or short."`
	At    string `placeholder:"TEMPERATURE" help:"What a thermometer beside it says: \"-3 °F\"."`
	Units string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
}

// Run prints the tables, or judges one reading.
func (c sensorCommand) Run(p *program) error {
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
	chosen, err := c.choose(j.Sensors)
	if err != nil {
		return err
	}
	if c.Reads != "" || c.At != "" {
		return c.judge(p, chosen, system)
	}
	for i, s := range chosen {
		if i > 0 {
			fmt.Fprintln(p.out)
		}
		if err := printTable(p.out, s, system); err != nil {
			return fmt.Errorf("%s: %w", c.File, err)
		}
	}
	return nil
}

// choose takes the sensors that are meant.
func (c sensorCommand) choose(all []job.Sensor) ([]job.Sensor, error) {
	if len(all) == 0 {
		return nil, fmt.Errorf("%s lists no sensors; add a block sensors with name and type", c.File)
	}
	if c.Name == "" {
		return all, nil
	}
	var names []string
	for _, s := range all {
		if strings.EqualFold(s.Name, c.Name) {
			return []job.Sensor{s}, nil
		}
		names = append(names, s.Name)
	}
	return nil, fmt.Errorf("%s has no sensor %q; accepted: %s", c.File, c.Name, strings.Join(names, ", "))
}

// judge says what one reading means.
func (c sensorCommand) judge(p *program, chosen []job.Sensor, system units.System) error {
	switch {
	case len(chosen) > 1:
		var names []string
		for _, s := range chosen {
			names = append(names, s.Name)
		}
		return fmt.Errorf("the job has %d sensors; say which was read: %s", len(chosen), strings.Join(names, ", "))
	case c.Reads == "":
		return fmt.Errorf("a reading needs both --reads, the resistance, and --at, the temperature beside the sensor")
	}
	reads, err := sensor.ParseReading(c.Reads)
	if err != nil {
		return fmt.Errorf("--reads: %w", err)
	}
	var at units.Temperature
	switch {
	case c.At != "":
		if at, err = units.Parse[units.Temperature](c.At); err != nil {
			return fmt.Errorf("--at: %w", err)
		}
	case !sensor.IsOpen(reads) && !sensor.IsShort(reads):
		return fmt.Errorf("a reading needs both --reads, the resistance, and --at, the temperature beside the sensor")
	}
	j, err := settings.JudgeSensor(chosen[0], reads, at)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	fmt.Fprintf(p.out, "%s: %s\n%s\n", chosen[0].Name, j.Verdict, j.Text(system))
	if j.Verdict == sensor.Wrong {
		return errQuiet
	}
	return nil
}

// printTable writes a sensor's table for the inside of the boiler room's door.
func printTable(w io.Writer, s job.Sensor, system units.System) error {
	t, err := settings.TableOf(s, system)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s: %s\n", t.Name, t.Kind)
	cells := [][]string{{"at", "reads", "sound between", "and"}}
	for _, r := range t.Rows {
		cells = append(cells, []string{r.At.Text(system), r.Resistance.Text(system), r.Low.Text(system), r.High.Text(system)})
	}
	width := make([]int, len(cells[0]))
	for _, row := range cells {
		for k, cell := range row {
			width[k] = max(width[k], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range cells {
		line := ""
		for k, cell := range row {
			line += "  " + strings.Repeat(" ", width[k]-utf8.RuneCountInString(cell)) + cell
		}
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}
