package main

import (
	"fmt"
	"io"
	"math"

	"curvewright/report"
	"curvewright/settings"
	"curvewright/units"
)

// The drawing of the boiler room, with its flows and temperatures in one weather.

type drawingCommand struct {
	File    string `arg:"" help:"Job document."`
	Outdoor string `placeholder:"TEMPERATURE" help:"Weather to draw it in: \"35 °F\"; without it, the design day."`
	Output  string `short:"o" placeholder:"FILE" help:"Write the SVG to this file; without it, to the terminal."`
	Units   string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
}

// drawingWidth is comfortable on a screen and on paper, in CSS pixels.
const drawingWidth = 760

// Run writes the drawing. It says so where it had to take another weather.
func (c drawingCommand) Run(p *program) error {
	s, err := solve(c.File, c.Units, 0, 1, nil)
	if err != nil {
		return err
	}
	outdoors := report.BoilerRoomOutdoors(s)
	chosen := 0
	if c.Outdoor != "" {
		wanted, err := units.Parse[units.Temperature](c.Outdoor)
		if err != nil {
			return fmt.Errorf("--outdoor: %w", err)
		}
		chosen = nearest(outdoors, wanted)
		if len(outdoors) > 0 && math.Abs(float64(outdoors[chosen]-wanted)) > 0.3 {
			fmt.Fprintf(p.errs, "drawn at %s outdoors, the nearest to %s that the sheet holds\n", outdoors[chosen].Text(s.System), wanted.Text(s.System))
		}
	}
	return c.write(p, s, chosen)
}

func (c drawingCommand) write(p *program, s *settings.Sheet, outdoor int) error {
	svg := report.BoilerRoomSVG(s, outdoor, drawingWidth, 0)
	if c.Output == "" {
		_, err := io.WriteString(p.out, svg)
		return err
	}
	if err := writeWhole(c.Output, []byte(svg)); err != nil {
		return err
	}
	_, err := fmt.Fprintln(p.out, "wrote", c.Output)
	return err
}

// nearest is the place of the temperature that lies closest.
func nearest(all []units.Temperature, wanted units.Temperature) int {
	best := 0
	for i, t := range all {
		if math.Abs(float64(t-wanted)) < math.Abs(float64(all[best]-wanted)) {
			best = i
		}
	}
	return best
}
