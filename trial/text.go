package trial

import (
	"fmt"
	"io"
	"math"
	"strings"

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
	for _, r := range Table(results, s) {
		line(r.Name, r.Cells)
	}
	b.WriteString("\nToo cold: more than 1.8 °F (1 K) below the set-point; too warm: as much above it while the house is heated.\n\nRooms under the sheet's settings\n")
	for _, r := range results[0].Rooms {
		fmt.Fprintf(&b, "  %-20s coldest %-8s warmest %-8s %5.0f h too cold %5.0f h too warm\n", r.Name, r.Low.Text(s), r.High.Text(s), below(r), above(r))
	}
	b.WriteString("\nAssumed, since no survey asks it\n")
	for _, a := range t.Assumed {
		fmt.Fprintf(&b, "  - %s\n", a)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func below(r year.RoomResult) float64 { return float64(r.Below) / 3600 }
func above(r year.RoomResult) float64 { return float64(r.Above) / 3600 }

// Row is one figure of several years side by side.
type Row struct {
	Name  string // begins small
	Cells []string
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
	row("electricity", func(r year.Result) string { return fmt.Sprintf("%.0f\u00a0kWh", float64(r.Electricity)/3.6e6) })
	row("coldest hour in any room", func(r year.Result) string {
		low := r.Rooms[0].Low
		for _, room := range r.Rooms {
			low = min(low, room.Low)
		}
		return low.Text(s)
	})
	row("hours too cold, worst room", func(r year.Result) string { return worst(r, func(r year.RoomResult) units.Time { return r.Below }) })
	row("hours too warm, worst room", func(r year.Result) string { return worst(r, func(r year.RoomResult) units.Time { return r.Above }) })
	row("heat that got lost in the sums", func(r year.Result) string { return signed(fmt.Sprintf("%.0e", float64(r.Balance.OpenShare))) })
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
