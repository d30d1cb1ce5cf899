package main

import (
	"bytes"
	"fmt"

	"curvewright/attendance"
	"curvewright/report"
	"curvewright/sensor"
	"curvewright/units"
	"curvewright/visit"
)

type judgeCommand struct {
	File     string `arg:"" help:"Job document."`
	Readings string `arg:"" help:"Document of the visit: conditions and readings, YAML or JSON; - reads from standard input."`
	Units    string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
	JSON     bool   `name:"json" help:"Print JSON."`
}

// judged is all that a visit's document comes to.
type judged struct {
	Judgement  *visit.Judgement
	Sensors    []visit.SensorReading
	Found      []visit.Found
	Otherwise  []visit.Consequence // of lines entered otherwise than the sheet says
	Water      []visit.Checked
	Pressure   []visit.Checked
	Loops      []visit.Checked
	Combustion *visit.CombustionRecord
}

// Run judges readings. It ends with status 1 if something is likely wrong.
func (c judgeCommand) Run(p *program) error {
	h, system, err := house(c.File, c.Units)
	if err != nil {
		return err
	}
	data, err := readFile(c.Readings)
	if err != nil {
		return err
	}
	v, err := attendance.Read(data)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Readings, err)
	}
	all, wrong, err := judgeVisit(h, v)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Readings, err)
	}
	var b bytes.Buffer
	if c.JSON {
		err = report.JSON(&b, "curvewright.judged/1", "judged", all, system)
	} else {
		err = all.writeText(&b, h.Plan().Sheet.Job, system)
	}
	if err != nil {
		return err
	}
	if _, err := b.WriteTo(p.out); err != nil {
		return err
	}
	if wrong {
		return errQuiet
	}
	return nil
}

// judgeVisit works everything out that the document holds.
func judgeVisit(h *visit.House, v *attendance.Visit) (judged, bool, error) {
	var out judged
	wrong := false
	conditions, readings, err := h.FromDocument(v)
	if err != nil {
		return out, false, err
	}
	if len(readings) > 0 {
		j, err := h.Judge(conditions, readings)
		if err != nil {
			return out, false, err
		}
		out.Judgement, wrong = &j, !j.Sound
	}
	if out.Sensors, err = h.JudgeSensors(v); err != nil {
		return out, false, err
	}
	for _, s := range out.Sensors {
		wrong = wrong || s.Verdict == sensor.Wrong
	}
	for _, c := range v.Curves {
		if _, err := h.AsFound(c); err != nil {
			return out, false, err
		}
	}
	out.Found, out.Otherwise = h.AsEntered(v), h.Consequences(v)
	if v.Water != nil {
		if out.Water, err = h.JudgeWater(*v.Water); err != nil {
			return out, false, err
		}
	}
	if t := v.Pressure; t != nil && t.Start.Set && t.End.Set {
		out.Pressure = h.JudgePressureTest(*t)
	}
	out.Loops = h.JudgeLoops(v.Loops)
	if v.Combustion != nil {
		r, err := h.Combustion(*v.Combustion)
		if err != nil {
			return out, false, err
		}
		out.Combustion, wrong = &r, wrong || len(r.Against) > 0 && !r.Within
	}
	return out, wrong, nil
}

func (j judged) writeText(b *bytes.Buffer, name string, s units.System) error {
	if j.Judgement != nil {
		if err := j.Judgement.WriteText(b, name, s); err != nil {
			return err
		}
	}
	for _, r := range j.Sensors {
		fmt.Fprintf(b, "\nSensor %s: %s\n%s\n", r.Name, r.Verdict, r.Text(s))
	}
	for _, f := range j.Found {
		fmt.Fprintf(b, "\nCurve of %s as entered: %s\n", f.Circuit, f.Says)
	}
	for _, c := range j.Otherwise {
		fmt.Fprintf(b, "\n%s, %s in place of %s: %s\n", c.Label, c.Entered, c.Sheet, c.Says)
		if c.Caution != "" {
			fmt.Fprintf(b, "CAUTION  %s\n", c.Caution)
		}
	}
	writeChecked(b, "Water", j.Water, s)
	writeChecked(b, "Test of the pipework", j.Pressure, s)
	writeChecked(b, "Flows set", j.Loops, s)
	if j.Combustion != nil {
		b.WriteByte('\n')
		return j.Combustion.WriteText(b, s)
	}
	return nil
}

// writeChecked prints records beside what they should be.
func writeChecked(b *bytes.Buffer, title string, list []visit.Checked, s units.System) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", title)
	for _, c := range list {
		what := c.What
		if c.Of != "" {
			what += ", " + c.Of
		}
		fmt.Fprintf(b, "  %s %s: %s. %s\n", what, c.Measured.Text(s), c.Verdict, c.Says)
	}
}
