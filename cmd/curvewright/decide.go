package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"curvewright/curve"
	"curvewright/decide"
	"curvewright/trial"
	"curvewright/units"
)

// The settings searched by playing years: what takes the least fuel and keeps comfort.

type decideCommand struct {
	File string `arg:"" help:"Job document."`
	played
	Runs    int    `default:"0" help:"Years that the search may play; 0 for the usual number."`
	Samples int    `default:"0" help:"Houses about the survey in which the recommendation is tried; 0 for the usual number, below 0 for none."`
	Cold    string `placeholder:"TIME" help:"Time a year that a room may be colder than it should: \"88 h\"; without it, 1 % of the year."`
	JSON    bool   `name:"json" help:"Print as JSON."`
}

// Run searches the settings of a job. An interrupt ends the search; what was found by then
// is printed.
func (c decideCommand) Run(p *program) error {
	o := decide.Options{Runs: c.Runs, Samples: c.Samples, Seed: c.Seed}
	if c.Cold != "" {
		hours, err := units.Parse[units.Time](c.Cold)
		if err != nil {
			return fmt.Errorf("--cold: %w", err)
		}
		o.Comfort.Hours = hours
	}
	t, err := c.trial(c.File, trial.Options{})
	if err != nil {
		return err
	}
	if isTerminal(p.errs) {
		o.Progress = func(done, of int) { fmt.Fprintf(p.errs, "\r%d of about %d years ", done, of) }
		defer fmt.Fprint(p.errs, "\r\033[K")
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	a, err := decide.Search(ctx, decide.Case{Plan: t.Plan, House: t.House, Plant: t.Plant, Base: t.Settings[0], Weather: t.Weather, Wanted: t.Wanted}, o)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.JSON {
		return writeAnswer(p.out, a, t.Plan.Sheet.System)
	}
	_, err = io.WriteString(p.out, answerText(t, a))
	return err
}

// isTerminal tells whether somebody looks on.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// answerText prints an answer for a person.
func answerText(t *trial.Trial, a decide.Answer) string {
	s := t.Plan.Sheet.System
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nSettings by %d years played.\n\n", strings.ToUpper(t.Plan.Sheet.Job), a.Runs)
	for _, line := range a.Advice(s) {
		b.WriteString(line + "\n")
	}
	if a.Sheet.Fuel == 0 {
		return b.String()
	}
	columns, heads := []decide.Candidate{a.Sheet, a.Best}, []string{"the sheet", "recommended"}
	if a.Surer != nil {
		columns, heads = append(columns, *a.Surer), append(heads, "surer")
	}
	fmt.Fprintf(&b, "\n%-36s", "")
	for _, h := range heads {
		fmt.Fprintf(&b, "%26s", h)
	}
	b.WriteByte('\n')
	row := func(name string, of func(decide.Candidate) string) {
		fmt.Fprintf(&b, "%-36s", name)
		for _, c := range columns {
			fmt.Fprintf(&b, "%26s", of(c))
		}
		b.WriteByte('\n')
	}
	for i := range a.Best.Choice.Circuits {
		i := i
		for _, outdoor := range []units.Temperature{t.Plan.Design, t.Plan.CutOff} {
			row(fmt.Sprintf("%s, supply at %s", a.Best.Choice.Circuits[i].Name, outdoor.Text(s)), func(c decide.Candidate) string {
				return c.Settings.Circuits[i].Curve.At(outdoor).Text(s)
			})
		}
		row(a.Best.Choice.Circuits[i].Name+", control", func(c decide.Candidate) string { return curveText(c.Settings.Circuits[i].Curve, s) })
		row(a.Best.Choice.Circuits[i].Name+", program", func(c decide.Candidate) string {
			if !c.Choice.Circuits[i].Lowered {
				return "hold"
			}
			return fmt.Sprintf("−%s, %.0f h early", c.Choice.Lower.Text(s), float64(c.Choice.Preheat)/3600)
		})
	}
	row("room influence", func(c decide.Candidate) string { return fmt.Sprintf("%g", float64(c.Choice.Influence)) })
	row("warm-weather cut-off", func(c decide.Candidate) string { return c.Choice.CutOff.Text(s) })
	row("burner differential", func(c decide.Candidate) string { return c.Choice.Differential.Text(s) })
	row("shortest pause", func(c decide.Candidate) string { return fmt.Sprintf("%.0f min", float64(c.Choice.Rest)/60) })
	row("limit of the heating output", func(c decide.Candidate) string {
		if c.Settings.HeatingLimit == 0 {
			return "none"
		}
		return c.Settings.HeatingLimit.Text(s)
	})
	row("fuel of the year", func(c decide.Candidate) string { return c.Fuel.Text(s) })
	row("starts of the burner", func(c decide.Candidate) string { return units.Number(float64(c.Starts)).Text(s) })
	row("cold, worst room", func(c decide.Candidate) string { return trial.Hours(c.ColdFor) + " " + c.ColdRoom })
	row("too warm, worst room", func(c decide.Candidate) string { return trial.Hours(c.WarmFor) })
	fmt.Fprintf(&b, "\nTrade-off: least fuel first, then less cold for more fuel\n  %16s%16s%16s%10s   %s\n", "fuel", "cold hours", "cold K·h", "comfort", "supplies on the design day")
	for _, f := range a.Front {
		keeps := "no"
		if f.Keeps {
			keeps = "kept"
		}
		fmt.Fprintf(&b, "  %16s%16s%16.0f%10s  ", f.Fuel.Text(s), trial.Hours(f.ColdFor), float64(f.Cold)/3600, keeps)
		for i := range f.Settings.Circuits {
			fmt.Fprintf(&b, " %s", f.Settings.Circuits[i].Curve.At(t.Plan.Design).Text(s))
		}
		fmt.Fprintf(&b, ", cut-off %s", f.Choice.CutOff.Text(s))
		if f.Choice.Influence > 0 {
			fmt.Fprintf(&b, ", influence %g", float64(f.Choice.Influence))
		}
		if f.Choice.Lower > 0 {
			fmt.Fprintf(&b, ", −%s at night", f.Choice.Lower.Text(s))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// curveText is a curve as it is entered.
func curveText(c curve.Setting, s units.System) string {
	switch c.Kind {
	case curve.SlopeShift:
		return fmt.Sprintf("slope %.1f, shift %s", c.Slope, c.Shift.Text(s))
	case curve.Table:
		return fmt.Sprintf("table, %d points", len(c.Points))
	}
	text := fmt.Sprintf("%s / %s", c.Cold.Supply.Text(s), c.Mild.Supply.Text(s))
	if c.Kind == curve.Bent {
		text += fmt.Sprintf(", exp. %.1f", c.Exponent)
	}
	return text
}

// candidateJSON is a candidate for another program.
type candidateJSON struct {
	FuelKWh, ElectricityKWh float64
	Starts                  int
	ColdHours, ColdKelvinH  float64
	ColdRoom                string
	WarmHours               float64
	Keeps                   bool
	Circuits                []circuitJSON
	LowerK, PreheatHours    float64
	Influence               float64
	CutOffC, DifferentialK  float64
	RestMinutes             float64
	FullOutput              bool
}

type circuitJSON struct {
	Name           string
	Raised         float64
	Lowered        bool
	Supplies       []supplyJSON
	Slope          float64 `json:",omitempty"`
	ShiftK         float64 `json:",omitempty"`
	Exponent       float64 `json:",omitempty"`
	LowestHighestC [2]float64
}

type supplyJSON struct{ OutdoorC, SupplyC float64 }

func asJSON(c decide.Candidate) candidateJSON {
	kWh := func(e units.Energy) float64 { return float64(e) / 3.6e6 }
	out := candidateJSON{FuelKWh: kWh(c.Fuel), ElectricityKWh: kWh(c.Electricity), Starts: c.Starts, ColdHours: float64(c.ColdFor) / 3600,
		ColdKelvinH: float64(c.Cold) / 3600, ColdRoom: c.ColdRoom, WarmHours: float64(c.WarmFor) / 3600, Keeps: c.Keeps,
		LowerK: float64(c.Choice.Lower), PreheatHours: float64(c.Choice.Preheat) / 3600, Influence: float64(c.Choice.Influence),
		CutOffC: c.Choice.CutOff.Celsius(), DifferentialK: float64(c.Choice.Differential), RestMinutes: float64(c.Choice.Rest) / 60, FullOutput: c.Choice.FullOutput}
	for i, one := range c.Choice.Circuits {
		set := c.Settings.Circuits[i].Curve
		j := circuitJSON{Name: one.Name, Raised: float64(one.Raised), Lowered: one.Lowered, LowestHighestC: [2]float64{set.Limit.From.Celsius(), set.Limit.To.Celsius()},
			Slope: set.Slope, ShiftK: float64(set.Shift), Exponent: set.Exponent}
		for o := -30.0; o <= 20; o += 10 {
			j.Supplies = append(j.Supplies, supplyJSON{o, set.At(units.Celsius(o)).Celsius()})
		}
		out.Circuits = append(out.Circuits, j)
	}
	return out
}

// writeAnswer prints an answer for another program.
func writeAnswer(w io.Writer, a decide.Answer, s units.System) error {
	out := struct {
		Complete    bool
		Runs        int
		Advice      []string
		Sheet, Best candidateJSON
		Least       candidateJSON
		Front       []candidateJSON
		Sure        decide.Sure
		Surer       *candidateJSON `json:",omitempty"`
		SurerIn     decide.Sure
		Slabs       []decide.Slab
	}{Complete: a.Complete, Runs: a.Runs, Advice: a.Advice(s), Sheet: asJSON(a.Sheet), Best: asJSON(a.Best), Least: asJSON(a.Least), Sure: a.Sure, SurerIn: a.SurerIn, Slabs: a.Slabs}
	if a.Surer != nil {
		surer := asJSON(*a.Surer)
		out.Surer = &surer
	}
	for _, f := range a.Front {
		out.Front = append(out.Front, asJSON(f))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(out)
}
