package visit

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"curvewright/units"
)

// WriteText prints what everything should read.
//
// Units: those of the system.
// Range: an expectation of [House.Expect].
// Source: own layout.
// Errors: a failure of w.
func (e Expectation) WriteText(w io.Writer, job string, s units.System) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nWhat everything should read at %s outdoors, %s.\n\n", strings.ToUpper(job), e.Conditions.Outdoor.Text(s), e.Conditions.State)
	rows := [][]string{{"", "reads", "right within", "survey", "instrument"}}
	for _, i := range e.Items {
		rows = append(rows, []string{i.Label, i.Value.Text(s), "± " + i.Tolerance.Text(s), "± " + i.Survey.Text(s), "± " + i.Instrument.Text(s)})
	}
	columns(&b, rows)
	if len(e.Sensors) > 0 {
		b.WriteString("\nResistances at the sensors' terminals, wires off the control\n")
		rows = [][]string{{"", "at", "reads", "sound between", "and"}}
		for _, r := range e.Sensors {
			rows = append(rows, []string{r.Sensor, r.At.Text(s), r.Value.Text(s), r.Low.Text(s), r.High.Text(s)})
		}
		columns(&b, rows)
	}
	b.WriteByte('\n')
	for _, n := range e.Notes {
		fmt.Fprintf(&b, "- %s\n", n)
	}
	b.WriteByte('\n')
	for _, c := range e.Cautions {
		fmt.Fprintf(&b, "CAUTION  %s\n", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// columns prints a table: names to the left, figures to the right.
func columns(b *strings.Builder, rows [][]string) {
	width := make([]int, len(rows[0]))
	for _, row := range rows {
		for k, cell := range row {
			width[k] = max(width[k], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		line := "  "
		for k, cell := range row {
			space := strings.Repeat(" ", width[k]-utf8.RuneCountInString(cell))
			if k == 0 {
				line += cell + space
				continue
			}
			line += "  " + space + cell
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// shown is how many causes the text tells.
const shown = 4

// WriteText prints a judgement with its reasons.
//
// Units: those of the system.
// Range: a judgement of [House.Judge].
// Source: own layout.
// Errors: a failure of w.
func (j Judgement) WriteText(w io.Writer, job string, s units.System) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", strings.ToUpper(job))
	for _, c := range j.Cautions {
		fmt.Fprintf(&b, "CAUTION  %s\n", c)
	}
	switch off, again := j.Again(); {
	case !j.Sound:
		fmt.Fprintf(&b, "Likeliest: %s.\n", j.Causes[0].Name())
	case off == Wrong:
		fmt.Fprintf(&b, "Readings are wrong, and no single known fault explains them. Measure again: %s.\n", names(again))
	case off == Doubtful:
		fmt.Fprintf(&b, "Readings are doubtful, and none points to a fault. Measure again: %s.\n", names(again))
	default:
		b.WriteString("The readings together fit a sound plant.\n")
	}
	b.WriteString("\nReadings\n")
	rows := [][]string{{"", "read", "expected", "right within", "off", "verdict"}}
	for _, r := range j.Readings {
		rows = append(rows, []string{upper(r.String()), r.Measured.Text(s), text(r.Expected, s), "± " + r.Tolerance.Text(s), text(r.Off, s), string(r.Verdict)})
	}
	columns(&b, rows)
	b.WriteString("\nCauses, by how well each explains all readings together\n")
	told := 0
	for k, c := range j.Causes {
		if k == shown || k > 0 && c.Share < 0.005 {
			break
		}
		told++
		fmt.Fprintf(&b, "%d. %s, %s\n   %s\n   %s\n", k+1, upper(c.Name()), percent(c.Share), c.Says, c.Remedy)
		for _, x := range c.Explains {
			if z := math.Abs(float64(x.Deviation)); z > rightTo {
				fmt.Fprintf(&b, "   does not fit: %s reads %s, this cause gives %s\n", x.String(), x.Measured.Text(s), text(x.Predicted, s))
			}
		}
	}
	b.WriteString("\nPredicted by each\n")
	head := []string{"", "read"}
	top := min(3, told) // a column without its cause tells nothing
	for k := range top {
		head = append(head, fmt.Sprintf("by %d", k+1))
	}
	rows = [][]string{head}
	for i, r := range j.Readings {
		row := []string{upper(r.String()), r.Measured.Text(s)}
		for k := range top {
			row = append(row, text(j.Causes[k].Explains[i].Predicted, s))
		}
		rows = append(rows, row)
	}
	columns(&b, rows)
	if n := j.Next; n != nil {
		fmt.Fprintf(&b, "\nRead next: %s. It would be %s with %q, %s with %q.\n", n.String(), text(n.IfFirst, s), n.First, text(n.IfSecond, s), n.Second)
	}
	if j.Next == nil && len(j.Causes) > 1 && j.Causes[1].Share > 0.05 {
		b.WriteString("\nNo other reading in this state tells the first two apart: see to the one that is earlier in the order of repair, or read in other weather.\n")
	}
	b.WriteString("\nOrder of repair: flow and air, then pumps and valves, sensors, curve, program, emitters, hot water. One change at a time.\nOne fault may hide another: measure everything again after each remedy.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func text(q units.Quantity, s units.System) string {
	if q == nil {
		return "none"
	}
	return q.Text(s)
}

func percent(f units.Fraction) string {
	switch {
	case f > 0.99:
		return "over 99 %"
	case f < 0.01:
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*float64(f))
}

// WriteText prints a combustion record.
//
// Units: those of the system.
// Range: a record of [House.Combustion].
// Source: own layout.
// Errors: a failure of w.
func (r CombustionRecord) WriteText(w io.Writer, s units.System) error {
	var b strings.Builder
	b.WriteString("Combustion\n")
	rows := [][]string{{"excess air", r.Gas.Excess.Text(s)}, {"oxygen, dry", r.Gas.O2Dry.Text(s)}, {"carbon dioxide, dry", r.Gas.CO2Dry.Text(s)},
		{"carbon monoxide, air-free", r.AirFree.Text(s)}, {"dew point", r.Gas.DewPoint.Text(s)}}
	if r.Known {
		condenses := "no"
		if r.Balance.Condensing {
			condenses = "yes"
		}
		rows = append(rows, []string{"loss of gross heat", r.LossGross.Text(s)}, []string{"loss of net heat", r.LossNet.Text(s)}, []string{"condenses", condenses})
	}
	columns(&b, rows)
	for _, a := range r.Against {
		word := "within"
		if !a.Kept {
			word = "OUTSIDE"
		}
		limit := "at most " + text(a.To, s)
		if a.To == nil {
			limit = "at least " + text(a.From, s)
		}
		fmt.Fprintf(&b, "  %s %s: %s the maker's limit, %s\n", a.What, a.Value.Text(s), word, limit)
	}
	for _, m := range r.Remarks {
		fmt.Fprintf(&b, "- %s\n", upper(m))
	}
	for _, c := range r.Cautions {
		fmt.Fprintf(&b, "CAUTION  %s\n", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func names(list []Reading) string {
	var said []string
	for _, r := range list {
		said = append(said, r.String())
	}
	return strings.Join(said, ", ")
}
