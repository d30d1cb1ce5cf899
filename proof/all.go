package proof

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// All gives every row of every subject.
func All() []Row {
	var out []Row
	for _, rows := range [][]Row{
		unitsRows(), fluidRows(), buildingRows(), emitterRows(), pipeworkRows(), boilerRows(), hotWaterRows(), sensorRows(), weatherRows(), simulationRows(), curveRows(), houseRows(),
	} {
		out = append(out, rows...)
	}
	return out
}

// figure prints a value with as many digits as its tolerance makes sense of.
func figure(x, tolerance float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "no value"
	}
	digits := 2
	if tolerance > 0 {
		digits = int(math.Max(0, math.Min(9, 1-math.Floor(math.Log10(tolerance)))))
	}
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "0" && x != 0 {
		return strconv.FormatFloat(x, 'g', 4, 64)
	}
	return s
}

func (v Verdict) word() string {
	if v.Pass {
		return "holds"
	}
	return "FAILS"
}

// Summary counts the verdicts: "96 hold, 0 fail; 40 published, …".
func Summary(verdicts []Verdict) string {
	holds := 0
	by := map[Standing]int{}
	for _, v := range verdicts {
		if v.Pass {
			holds++
		}
		by[v.Standing]++
	}
	return fmt.Sprintf("%d rows: %d hold, %d fail. %d published, %d from a published formula, %d common practice, %d from memory.",
		len(verdicts), holds, len(verdicts)-holds, by[Published], by[Formula], by[CommonPractice], by[FromMemory])
}

// WriteText prints the verdicts for a terminal.
func WriteText(w io.Writer, verdicts []Verdict) error {
	var b strings.Builder
	subject := ""
	for _, v := range verdicts {
		if v.Subject != subject {
			subject = v.Subject
			fmt.Fprintf(&b, "\n%s\n%s\n", subject, strings.Repeat("-", len([]rune(subject))))
		}
		fmt.Fprintf(&b, "%s  %s\n", v.word(), v.What)
		fmt.Fprintf(&b, "       ours %s, published %s ± %s %s\n", figure(v.Value, v.Tolerance()), figure(v.Row.Published, v.Tolerance()), strconv.FormatFloat(v.Tolerance(), 'g', 2, 64), v.Unit)
		fmt.Fprintf(&b, "       %s: %s\n", v.Standing, v.Source)
		if v.Note != "" {
			fmt.Fprintf(&b, "       %s\n", v.Note)
		}
		if v.Err != nil {
			fmt.Fprintf(&b, "       error: %v\n", v.Err)
		}
	}
	fmt.Fprintf(&b, "\n%s\n", Summary(verdicts))
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteMarkdown prints the verdicts as the page docs/proof.md.
func WriteMarkdown(w io.Writer, verdicts []Verdict) error {
	var b strings.Builder
	b.WriteString("# Proof\n\nEvery check of the engine against something outside it, made by `curvewright proof --format markdown`.\n" +
		"*Published*: read in the source named. *Formula*: worked out by hand from the published formula named.\n" +
		"*Common practice*: a fact of the trade. *From memory*: recalled from the source named, not re-read.\n\n" + Summary(verdicts) + "\n")
	subject := ""
	for _, v := range verdicts {
		if v.Subject != subject {
			subject = v.Subject
			fmt.Fprintf(&b, "\n## %s\n\n| what | ours | published | tolerance | source | standing | verdict |\n|---|---|---|---|---|---|---|\n", subject)
		}
		source := v.Source
		if v.Note != "" {
			source += ". *" + v.Note + "*"
		}
		cells := []string{v.What, figure(v.Value, v.Tolerance()) + " " + v.Unit, figure(v.Row.Published, v.Tolerance()) + " " + v.Unit,
			"± " + strconv.FormatFloat(v.Tolerance(), 'g', 2, 64), source, string(v.Standing), v.word()}
		for i := range cells {
			cells[i] = strings.ReplaceAll(strings.TrimSpace(cells[i]), "|", "\\|")
		}
		fmt.Fprintf(&b, "| %s |\n", strings.Join(cells, " | "))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteJSON prints the verdicts for a program.
func WriteJSON(w io.Writer, verdicts []Verdict) error {
	type row struct {
		ID        string   `json:"id"`
		Subject   string   `json:"subject"`
		What      string   `json:"what"`
		Ours      *float64 `json:"ours"`
		Published float64  `json:"published"`
		Tolerance float64  `json:"tolerance"`
		Unit      string   `json:"unit"`
		Source    string   `json:"source"`
		Standing  Standing `json:"standing"`
		Note      string   `json:"note,omitempty"`
		Error     string   `json:"error,omitempty"`
		Holds     bool     `json:"holds"`
	}
	out := make([]row, len(verdicts))
	for i, v := range verdicts {
		out[i] = row{v.ID, v.Subject, v.What, nil, v.Row.Published, v.Tolerance(), v.Unit, v.Source, v.Standing, v.Note, "", v.Pass}
		if v.Err != nil {
			out[i].Error = v.Err.Error()
		} else if !math.IsNaN(v.Value) && !math.IsInf(v.Value, 0) {
			out[i].Ours = &verdicts[i].Value
		}
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}
