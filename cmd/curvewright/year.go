package main

import (
	"bytes"
	"fmt"

	"curvewright/settings"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/weather"
)

type yearCommand struct {
	File    string   `arg:"" help:"Job document."`
	Weather string   `placeholder:"FILE" help:"Weather to play (see curvewright weather); without it, a made-up year."`
	Against []string `default:"preset,constant" help:"Play these beside the sheet: preset, constant; none leaves them out."`
	Units   string   `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
	Seed    uint64   `default:"1" help:"Seed of a made-up year."`
}

// Run plays the job's settings through a year.
func (c yearCommand) Run(p *program) error {
	j, err := readJob(c.File)
	if err != nil {
		return err
	}
	o := trial.Options{System: settings.DefaultOptions(j).System, Seed: c.Seed}
	switch c.Units {
	case "us":
		o.System = units.US
	case "si":
		o.System = units.SI
	}
	for _, a := range c.Against {
		if a != "none" {
			o.Against = append(o.Against, trial.Against(a))
		}
	}
	if c.Weather != "" {
		data, err := readWeather(c.Weather)
		if err != nil {
			return err
		}
		if o.Weather, err = weather.Parse(data, weather.Place{}); err != nil {
			return fmt.Errorf("%s: %w", c.Weather, err)
		}
	}
	t, err := trial.New(j, o)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	results, err := t.Run(nil)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	var b bytes.Buffer
	if err := t.WriteText(&b, results, o.System); err != nil {
		return err
	}
	_, err = b.WriteTo(p.out)
	return err
}
