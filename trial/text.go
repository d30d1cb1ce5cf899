package trial

import (
	"fmt"
	"io"
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
	row := func(name string, value func(year.Result) string) {
		fmt.Fprintf(&b, "%-34s", name)
		for _, r := range results {
			fmt.Fprintf(&b, "%16s", value(r))
		}
		b.WriteByte('\n')
	}
	row("", func(r year.Result) string { return r.Settings })
	row("fuel, gross", func(r year.Result) string { return r.Fuel.Text(s) })
	if len(results) > 1 {
		row("against the sheet", func(r year.Result) string {
			return fmt.Sprintf("%+.1f %%", 100*(float64(r.Fuel)/float64(results[0].Fuel)-1))
		})
	}
	row("efficiency of the year", func(r year.Result) string { return fmt.Sprintf("%.1f %%", 100*float64(r.Efficiency)) })
	row("burner hours that condense", func(r year.Result) string {
		if r.Burning == 0 {
			return "–"
		}
		return fmt.Sprintf("%.0f %%", 100*float64(r.Condensing/r.Burning))
	})
	row("starts of the burner", func(r year.Result) string { return fmt.Sprint(r.Starts) })
	row("electricity", func(r year.Result) string { return fmt.Sprintf("%.0f kWh", float64(r.Electricity)/3.6e6) })
	row("coldest hour in any room", func(r year.Result) string { return coldest(r).Low.Text(s) })
	row("hours too cold, worst room", func(r year.Result) string { return fmt.Sprintf("%.0f h", worst(r, below)) })
	row("hours too warm, worst room", func(r year.Result) string { return fmt.Sprintf("%.0f h", worst(r, above)) })
	row("heat that got lost in the sums", func(r year.Result) string { return fmt.Sprintf("%.0e", float64(r.Balance.OpenShare)) })
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

func worst(r year.Result, hours func(year.RoomResult) float64) float64 {
	most := 0.0
	for _, room := range r.Rooms {
		most = max(most, hours(room))
	}
	return most
}

func coldest(r year.Result) year.RoomResult {
	out := r.Rooms[0]
	for _, room := range r.Rooms {
		if room.Low < out.Low {
			out = room
		}
	}
	return out
}
