package followup

// The result as text and as JSON.

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"curvewright/logs"
)

// WriteText prints what the log says, for a terminal.
func (r *Result) WriteText(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: log from %s to %s, %d rows every %s\n", r.Job, logs.Say(r.From), logs.Say(r.To), r.Rows, every(r.Step))
	if r.Signature.Source != "" {
		fmt.Fprintf(&b, "heat from the %s; supply taken for circuit %q\n", r.Signature.Source, r.Curve.Circuit)
	}
	if len(r.Log) > 0 {
		b.WriteString("\nAbout the log\n")
		for _, f := range r.Log {
			fmt.Fprintf(&b, "  %s\n", f.Text)
		}
	}
	b.WriteString("\nEstimates, with the interval that holds the truth in nine cases of ten\n")
	table := r.Table(r.System)
	width := 0
	for _, row := range table {
		width = max(width, utf8.RuneCountInString(row.Name))
	}
	for _, row := range table {
		fmt.Fprintf(&b, "  %s%s  %s\n", row.Name, strings.Repeat(" ", width-utf8.RuneCountInString(row.Name)), row.Text)
	}
	if r.Signature.Days > 0 {
		fmt.Fprintf(&b, "  scatter of the days about their line: CV(RMSE) %.1f %%, NMBE %.1f %%\n", 100*float64(r.Signature.CVRMSE), 100*float64(r.Signature.NMBE))
	}
	if r.Thermal.Model != "" {
		pattern := "leaves no pattern"
		if !r.Thermal.White {
			pattern = "leaves a pattern from hour to hour; the intervals are widened for it"
		}
		fmt.Fprintf(&b, "  model of inertia: %s; %s\n", r.Thermal.Model, pattern)
	}
	if len(r.Curve.Levels) > 0 {
		b.WriteString("\nLevels of the control\n")
		for _, l := range r.Curve.Levels {
			offset := ""
			if l.Kind == Lowered || l.Kind == Boosted {
				offset = ", supply " + signed(float64(l.Offset), r)
			}
			fmt.Fprintf(&b, "  %s %s%s (%.0f %% of the time)\n", l.Kind, l.Hours, offset, 100*float64(l.Share))
		}
	}
	r.writeFindings(&b)
	r.writeCorrection(&b)
	_, err := io.WriteString(w, b.String())
	return err
}

func signed(d float64, r *Result) string {
	if d < 0 {
		return "−" + r.roughly(-d)
	}
	return "+" + r.roughly(d)
}

func every(seconds int64) string {
	if seconds >= 60 && seconds%60 == 0 {
		return fmt.Sprintf("%d min", seconds/60)
	}
	return fmt.Sprintf("%d s", seconds)
}

func (r *Result) writeFindings(b *strings.Builder) {
	b.WriteString("\nFindings, in the order of repair\n")
	if len(r.Findings) == 0 {
		b.WriteString("  nothing that this log shows\n")
	}
	for i, f := range r.Findings {
		fmt.Fprintf(b, "  %d. %s: %s: %s\n     shown %s to %s\n     %s\n", i+1, f.Group, f.Name, f.Text, logs.Say(f.From), logs.Say(f.To), f.Remedy)
	}
}

func (r *Result) writeCorrection(b *strings.Builder) {
	c := r.Correction
	b.WriteString("\nCorrection\n")
	if !c.Known {
		fmt.Fprintf(b, "  %s\n", c.Why)
		return
	}
	if c.First != "" {
		fmt.Fprintf(b, "  First %s. The figures below hold after that.\n", c.First)
	}
	fmt.Fprintf(b, "  loss: %s of the survey's; emitters of %q: %s of the survey's\n  %s\n", c.Loss.Text(r.System), r.Curve.Circuit, c.Emitter.Text(r.System), c.Why)
	b.WriteString("  outdoors   runs now   survey alone   set now\n")
	for _, p := range c.Points {
		runs := "-"
		if p.Runs > 0 {
			runs = r.say(p.Runs)
		}
		fmt.Fprintf(b, "  %8s %10s %14s %9s\n", r.say(p.Outdoor), runs, r.say(p.Sheet), r.say(p.Set))
	}
	if c.First == "" && c.Fits() {
		b.WriteString("  What runs now lies so close to it that it can stay.\n")
	}
	fmt.Fprintf(b, "\nFor the household\n  %s\n", c.Message)
}

// jsonEstimate is an estimate for programs.
type jsonEstimate struct {
	Name  string `json:"name"`
	Known bool   `json:"known"`
	Text  string `json:"text"`
	How   string `json:"how"`
}

// WriteJSON writes the result for programs. Times are those of a clock on standard time.
func (r *Result) WriteJSON(w io.Writer) error {
	type finding struct {
		Group  string `json:"group"`
		Name   string `json:"name"`
		Text   string `json:"text"`
		Remedy string `json:"remedy"`
		From   string `json:"from"`
		To     string `json:"to"`
		Times  int    `json:"times"`
	}
	type point struct {
		Outdoor string `json:"outdoor"`
		Runs    string `json:"runs,omitempty"`
		Sheet   string `json:"sheet"`
		Set     string `json:"set"`
	}
	out := struct {
		Job         string         `json:"job"`
		From        string         `json:"from"`
		To          string         `json:"to"`
		Rows        int            `json:"rows"`
		StepSeconds int64          `json:"step_seconds"`
		Log         []string       `json:"about_the_log"`
		Estimates   []jsonEstimate `json:"estimates"`
		CVRMSE      float64        `json:"cv_rmse"`
		NMBE        float64        `json:"nmbe"`
		Levels      []string       `json:"levels"`
		Findings    []finding      `json:"findings"`
		First       string         `json:"mend_first,omitempty"`
		Correction  string         `json:"correction"`
		Curve       []point        `json:"curve"`
		Message     string         `json:"message,omitempty"`
	}{Job: r.Job, From: logs.Say(r.From), To: logs.Say(r.To), Rows: r.Rows, StepSeconds: r.Step, Log: []string{}, Levels: []string{}, Findings: []finding{}, Curve: []point{},
		CVRMSE: float64(r.Signature.CVRMSE), NMBE: float64(r.Signature.NMBE), First: r.Correction.First, Correction: r.Correction.Why, Message: r.Correction.Message}
	for _, f := range r.Log {
		out.Log = append(out.Log, f.Text)
	}
	for _, e := range r.Table(r.System) {
		out.Estimates = append(out.Estimates, e.forJSON())
	}
	for _, l := range r.Curve.Levels {
		out.Levels = append(out.Levels, fmt.Sprintf("%s %s", l.Kind, l.Hours))
	}
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, finding{f.Group.String(), f.Name, f.Text, f.Remedy, logs.Say(f.From), logs.Say(f.To), f.Times})
	}
	for _, p := range r.Correction.Points {
		q := point{Outdoor: r.say(p.Outdoor), Sheet: r.say(p.Sheet), Set: r.say(p.Set)}
		if p.Runs > 0 {
			q.Runs = r.say(p.Runs)
		}
		out.Curve = append(out.Curve, q)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

func (s Shown) forJSON() jsonEstimate {
	return jsonEstimate{Name: s.Name, Known: s.Known, Text: s.Text, How: s.How}
}
