package trial

import (
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"time"

	"curvewright/units"
	"curvewright/year"
)

// WriteCSV writes a traced year as a table for a spreadsheet: a row for each sample, the
// unit behind each name. The first of January is that of a common year, whatever the
// weather.
//
// Units: those of the system for temperatures and heat: °F and Btu/h, °C and W.
// Range: a trace of [Trial.Traced].
// Source: RFC 4180.
// Errors: a trace without rows; a failure of w.
func WriteCSV(w io.Writer, t year.Trace, s units.System) error {
	if t.Rows == 0 || len(t.Columns) == 0 {
		return errors.New("hourly series: there is none")
	}
	power, powerName := units.UnitFor(units.Power(0), s)
	powerDigits := 0
	if power > 100 { // kW, thousand Btu/h
		powerDigits = 3
	}
	out := csv.NewWriter(w)
	head := []string{"time"}
	for _, c := range t.Columns {
		unit := "°C"
		switch {
		case c.Power:
			unit = powerName
		case s.In(units.Temperatures) == units.US:
			unit = "°F"
		}
		head = append(head, c.Name+" ("+unit+")")
	}
	if err := out.Write(head); err != nil {
		return err
	}
	begin := time.Date(2023, time.January, 1, 0, 0, 0, 0, time.UTC)
	row := make([]string, len(head))
	for i := range t.Rows {
		row[0] = begin.Add(time.Duration(float64(i+1)*float64(t.Every)) * time.Second).Format("01-02 15:04")
		for k, c := range t.Columns {
			v, digits := t.At(i, k), 2
			switch {
			case c.Power:
				v, digits = v/float64(power), powerDigits
			case s.In(units.Temperatures) == units.US:
				v = units.Temperature(v).Fahrenheit()
			default:
				v = units.Temperature(v).Celsius()
			}
			row[k+1] = strconv.FormatFloat(v, 'f', digits, 64)
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
