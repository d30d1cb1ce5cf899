package trial

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"curvewright/units"
	"curvewright/year"
)

// WriteText prints the results side by side, what they rest on, and each room's coldest
// hour.
//
// Units: those of the system.
// Range: results of [Trial.Run].
// Source: own layout.
// Errors: a failure of w.
func (t *Trial) WriteText(w io.Writer, results []year.Result, s units.System) error {
	var b strings.Builder
	from := "a made-up year for this design day and annual mean; nobody measured it"
	if !t.MadeUp {
		from = "the weather of " + t.Place
	}
	fmt.Fprintf(&b, "%s\nA year, minute by minute, on %s.\n\n", strings.ToUpper(t.Plan.Sheet.Job), from)
	line := func(name string, cells []string) {
		fmt.Fprintf(&b, "%-34s", name)
		for _, c := range cells {
			fmt.Fprintf(&b, "%16s", c)
		}
		b.WriteByte('\n')
	}
	names := make([]string, len(results))
	for i, r := range results {
		names[i] = r.Settings
	}
	line("", names)
	for _, r := range t.Rows(results, s) {
		line(r.Name, r.Cells)
	}
	degree, warm := "1 K (1.8 °F)", "16 °C (61 °F)"
	if s.In(units.Temperatures) == units.US {
		degree, warm = "1.8 °F (1 K)", "61 °F (16 °C)"
	}
	fmt.Fprintf(&b, "\nToo cold: more than %s below what the household wants at that hour; too warm: as much above the\nset-point in heating weather (a day's mean outdoors below %s), mostly by sun and people.\n", degree, warm)
	for _, note := range t.Notes(results, s) {
		b.WriteString("\n" + wrapped(note, 110) + "\n")
	}
	fmt.Fprintf(&b, "\nRooms under the sheet's settings\n  %-20s%10s%16s%20s%22s%18s\n", "", "coldest", "warmest heated", "too cold", "too warm", "warmest, summer")
	for _, r := range results[0].Rooms {
		fmt.Fprintf(&b, "  %-20s%10s%16s%20s%22s%18s\n", r.Name, r.Low.Text(s), r.HighHeated.Text(s), hoursAnd(r.Below, r.BelowDegrees, s), hoursAnd(r.Above, r.AboveDegrees, s), r.High.Text(s))
	}
	t.writeRuns(&b, results)
	t.writeWorst(&b, results[0], s)
	b.WriteString("\nAssumed, since no survey asks it\n")
	for _, a := range t.Assumed {
		fmt.Fprintf(&b, "  - %s\n", a)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// hoursAnd writes a sum of hours and, where there is any, its degree-hours.
func hoursAnd(t units.Time, sum units.DegreeDays, s units.System) string {
	if t == 0 {
		return "0\u00a0h"
	}
	return Hours(t) + ", " + degreeHours(sum, s)
}

func degreeHours(sum units.DegreeDays, s units.System) string {
	h, unit := float64(sum)/3600, "K·h"
	if s.In(units.Temperatures) == units.US {
		h, unit = h*1.8, "°F·h"
	}
	return units.Number(math.Round(h)).Text(units.US) + "\u00a0" + unit
}

// writeRuns prints how long the burner ran.
func (t *Trial) writeRuns(b *strings.Builder, results []year.Result) {
	b.WriteString("\nRuns of the burner by their length\n")
	limits := year.RunLimits()
	for k := range year.RunClasses {
		name := fmt.Sprintf("%.0f min and more", float64(limits[len(limits)-1])/60)
		if k < len(limits) {
			name = fmt.Sprintf("under %.0f min", float64(limits[k])/60)
		}
		fmt.Fprintf(b, "  %-32s", name)
		for _, r := range results {
			fmt.Fprintf(b, "%16s", units.Number(r.Runs[k]).Text(units.US))
		}
		b.WriteByte('\n')
	}
}

// writeWorst prints the worst day every three hours.
func (t *Trial) writeWorst(b *strings.Builder, r year.Result, s units.System) {
	w := r.Worst
	if w.Rows == 0 {
		return
	}
	day := time.Date(2023, time.January, 1+r.WorstDay, 0, 0, 0, 0, time.UTC)
	fmt.Fprintf(b, "\nThe worst day, %s: most degree-hours below the set-points in all rooms\n  %-32s", day.Format("January 2"), "")
	const every = 3 * 3600
	step := int(every / float64(w.Every))
	for h := 3; h <= 24; h += 3 {
		fmt.Fprintf(b, "%8d:00", h)
	}
	b.WriteByte('\n')
	for k, c := range w.Columns {
		if c.Power || strings.HasSuffix(c.Name, "return") || strings.HasSuffix(c.Name, "supply wanted") {
			continue
		}
		fmt.Fprintf(b, "  %-32s", c.Name)
		for row := step - 1; row < w.Rows; row += step {
			fmt.Fprintf(b, "%11s", units.Temperature(w.At(row, k)).Text(s))
		}
		b.WriteByte('\n')
	}
}

// Row is one figure of several years side by side.
type Row struct {
	Name  string // begins small
	Cells []string
}

// Rows gives the results side by side with what the fuel costs and the carbon dioxide
// that it makes, where a price and a factor are known.
//
// Units: those of the system, written into the cells.
// Range: results of [Trial.Run], the sheet's first.
// Source: own layout.
func (t *Trial) Rows(results []year.Result, s units.System) []Row {
	rows := Table(results, s)
	var more []Row
	add := func(name string, known bool, text func(units.Energy) string) {
		if !known {
			return
		}
		r := Row{Name: name}
		for _, of := range results {
			r.Cells = append(r.Cells, text(of.Fuel))
		}
		more = append(more, r)
	}
	add("cost of the fuel", t.Price.PerJoule > 0, t.Price.Text)
	add("carbon dioxide", t.Carbon.PerJoule > 0, func(e units.Energy) string { return t.Carbon.Text(e, s) })
	return slices.Insert(rows, 1, more...)
}

// Table gives the results side by side, as page and command line print them.
//
// Units: those of the system, written into the cells.
// Range: results of [Trial.Run], the sheet's first.
// Source: own layout.
func Table(results []year.Result, s units.System) []Row {
	var rows []Row
	row := func(name string, value func(year.Result) string) {
		r := Row{Name: name}
		for _, of := range results {
			r.Cells = append(r.Cells, value(of))
		}
		rows = append(rows, r)
	}
	row("fuel, gross", func(r year.Result) string { return r.Fuel.Text(s) })
	if len(results) > 1 {
		row("against the sheet", func(r year.Result) string {
			return signed(fmt.Sprintf("%+.1f\u00a0%%", 100*(float64(r.Fuel)/float64(results[0].Fuel)-1)))
		})
	}
	row("efficiency of the year", func(r year.Result) string { return fmt.Sprintf("%.1f\u00a0%%", 100*float64(r.Efficiency)) })
	row("burner hours that condense", func(r year.Result) string {
		if r.Burning == 0 {
			return "–"
		}
		return fmt.Sprintf("%.0f\u00a0%%", 100*float64(r.Condensing/r.Burning))
	})
	row("starts of the burner", func(r year.Result) string { return units.Number(float64(r.Starts)).Text(s) })
	row("runs shorter than 5 min", func(r year.Result) string {
		short := 0
		for k, limit := range year.RunLimits() {
			if limit <= 300 {
				short += r.Runs[k]
			}
		}
		return units.Number(float64(short)).Text(s)
	})
	row("electricity", func(r year.Result) string { return fmt.Sprintf("%.0f\u00a0kWh", float64(r.Electricity)/3.6e6) })
	power := func(name string, of func(year.Result) units.Energy) {
		row(name, func(r year.Result) string { return fmt.Sprintf("%.0f\u00a0kWh", float64(of(r))/3.6e6) })
	}
	power("of it pumps", func(r year.Result) units.Energy { return r.Pumps })
	power("of it the boiler", func(r year.Result) units.Energy { return r.OfBoiler })
	if slices.ContainsFunc(results, func(r year.Result) bool { return r.Fans > 0 }) {
		power("of it fans of fan coils", func(r year.Result) units.Energy { return r.Fans })
	}
	row("coldest hour in any room", func(r year.Result) string {
		low := r.Rooms[0].Low
		for _, room := range r.Rooms {
			low = min(low, room.Low)
		}
		return low.Text(s)
	})
	row("hours too cold, worst room", func(r year.Result) string { return worst(r, func(r year.RoomResult) units.Time { return r.Below }) })
	row("hours too warm, worst room", func(r year.Result) string { return worst(r, func(r year.RoomResult) units.Time { return r.Above }) })
	row("cold degree-hours, worst room", func(r year.Result) string {
		most := units.DegreeDays(0)
		for _, room := range r.Rooms {
			most = max(most, room.BelowDegrees)
		}
		return degreeHours(most, s)
	})
	if results[0].Tank.Water > 0 {
		row("hot water, coolest at a tap", func(r year.Result) string { return r.Tank.Coolest.Text(s) })
		row("hot water, cooler than wanted", func(r year.Result) string {
			return fmt.Sprintf("%.1f\u00a0%%", 100*float64(r.Tank.Short/r.Tank.Water))
		})
	}
	row("heat that got lost in the sums", func(r year.Result) string {
		return fmt.Sprintf("%.3f\u00a0%%", 100*math.Abs(float64(r.Balance.OpenShare)))
	})
	return rows
}

func worst(r year.Result, of func(year.RoomResult) units.Time) string {
	most := units.Time(0)
	for _, room := range r.Rooms {
		most = max(most, of(room))
	}
	return Hours(most)
}

// Hours writes a sum of hours.
//
// Units: the time in seconds.
// Range: any.
// Source: own layout.
func Hours(t units.Time) string {
	return units.Number(math.Round(float64(t)/3600)).Text(units.US) + "\u00a0h"
}

// signed writes a true minus sign.
func signed(figure string) string { return strings.ReplaceAll(figure, "-", "−") }
