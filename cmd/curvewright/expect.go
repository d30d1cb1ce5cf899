package main

import (
	"bytes"
	"fmt"

	"curvewright/report"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/visit"
)

type expectCommand struct {
	File    string   `arg:"" help:"Job document."`
	Outdoor string   `required:"" placeholder:"TEMPERATURE" help:"Outdoor temperature now, in the shade: \"35 °F\"."`
	Calling []string `placeholder:"CIRCUIT" help:"Circuits that call; all of them if left out. tank for the hot-water tank."`
	State   string   `enum:"steady,settled,held,fresh" default:"steady" help:"steady: all valves up, the same calls for half an hour; settled: for days; held: left to itself; fresh: just switched on."`
	Since   string   `placeholder:"TIME" help:"Of a fresh house: how long it has been on, as \"3 h\"."`
	Start   string   `placeholder:"TEMPERATURE" help:"Of a fresh house: how warm it was then."`
	Why     string   `placeholder:"READING" help:"Show the working of one reading: \"return of House\"."`
	Units   string   `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
	JSON    bool     `name:"json" help:"Print JSON."`
}

// house reads a job and makes it ready to be read.
func house(file, system string) (*visit.House, units.System, error) {
	j, err := readJob(file)
	if err != nil {
		return nil, 0, err
	}
	s := settings.DefaultOptions(j).System
	switch system {
	case "us":
		s = units.US
	case "si":
		s = units.SI
	}
	h, err := visit.New(j, s)
	if err != nil {
		return nil, s, fmt.Errorf("%s: %w", file, err)
	}
	return h, s, nil
}

// conditions takes what the flags say.
func (c expectCommand) conditions() (visit.Conditions, error) {
	var out visit.Conditions
	var err error
	if out.Outdoor, err = units.Parse[units.Temperature](c.Outdoor); err != nil {
		return out, fmt.Errorf("--outdoor: %w", err)
	}
	out.State = visit.State(c.State)
	if out.State == visit.Fresh {
		if c.Since == "" || c.Start == "" {
			return out, fmt.Errorf("--state fresh needs --since, how long the house has been on, and --start, how warm it was then")
		}
		if out.Since, err = units.Parse[units.Time](c.Since); err != nil {
			return out, fmt.Errorf("--since: %w", err)
		}
		if out.Start, err = units.Parse[units.Temperature](c.Start); err != nil {
			return out, fmt.Errorf("--start: %w", err)
		}
	}
	for _, name := range c.Calling {
		if name == "tank" {
			out.Tank = true
			continue
		}
		out.Calling = append(out.Calling, name)
	}
	return out, nil
}

// Run prints what everything should read.
func (c expectCommand) Run(p *program) error {
	h, system, err := house(c.File, c.Units)
	if err != nil {
		return err
	}
	conditions, err := c.conditions()
	if err != nil {
		return err
	}
	e, err := h.Expect(conditions)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	var b bytes.Buffer
	switch {
	case c.Why != "":
		for _, i := range e.Items {
			if i.String() == c.Why {
				return report.WhyText(p.out, settings.Line{Label: i.Label, Value: i.Value.Text(system), Caution: i.Caution, Working: i.Working}, system)
			}
		}
		return fmt.Errorf("nothing is read under the name %q; accepted are the names of the table, as %q", c.Why, e.Items[0].String())
	case c.JSON:
		err = report.JSON(&b, "curvewright.expected/1", "expected", e, system)
	default:
		err = e.WriteText(&b, h.Plan().Sheet.Job, system)
	}
	if err != nil {
		return err
	}
	_, err = b.WriteTo(p.out)
	return err
}
