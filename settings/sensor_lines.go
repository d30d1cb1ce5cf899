package settings

import (
	"fmt"
	"math"
	"strings"

	"curvewright/job"
	"curvewright/sensor"
	"curvewright/units"
	"curvewright/working"
)

// What should each sensor read, and does it?

// usualTolerance is what a thermistor may be off in resistance and in B where its sheet
// is not at hand (common practice).
const usualTolerance = units.Fraction(0.01)

// ReadSensor makes a sensor from its survey.
//
// Units: those of the job.
// Range: as package sensor; thermistors with 1 % of resistance and of B, platinum of
// class B, a table as the one of both that it falls or rises like.
// Source: package sensor; the 1 % common practice.
// Errors: a figure that no sensor has, or one that is missing, with the field.
func ReadSensor(s job.Sensor) (sensor.Sensor, error) {
	var out sensor.Sensor
	var err error
	ntc := true
	switch s.Type {
	case "Pt100", "Pt1000":
		ntc = false
		r0 := units.Ohms(100)
		if s.Type == "Pt1000" {
			r0 = units.Ohms(1000)
		}
		out, err = sensor.Platinum(s.Type, r0)
	case "thermistor":
		switch k := s.Coefficients; {
		case k != nil:
			out, err = sensor.FromSteinhartHart(sensorKind(s), k.A.Value, k.B.Value, k.C.Value)
		case !s.R25.Set:
			return out, fmt.Errorf("sensors › %s › r25: is missing; a thermistor needs its resistance at 25 °C", s.Name)
		case !s.B.Set:
			return out, fmt.Errorf("sensors › %s › b: is missing; a thermistor needs its B, or give its coefficients or its table", s.Name)
		default:
			out, err = sensor.FromB(sensorKind(s), s.R25.Value, s.B.Value)
		}
	case "table":
		var rows []sensor.Point
		if rows, err = sensorRows(s); err != nil {
			return out, fmt.Errorf("sensors › %s › sheet: %w", s.Name, err)
		}
		coldest, hottest := 0, 0
		for i := range rows {
			if rows[i].At < rows[coldest].At {
				coldest = i
			}
			if rows[i].At > rows[hottest].At {
				hottest = i
			}
		}
		if out, err = sensor.FromTable("maker's table", rows); err == nil {
			ntc = rows[coldest].Reads > rows[hottest].Reads
		}
	default:
		return out, fmt.Errorf("sensors › %s › type: %q is not known; accepted: Pt100, Pt1000, thermistor, table", s.Name, s.Type)
	}
	if err != nil {
		return out, fmt.Errorf("sensors › %s: %w", s.Name, err)
	}
	if !ntc {
		return out.With(sensor.Class(sensor.ClassB)), nil
	}
	t, err := sensor.Shares(usualTolerance, usualTolerance)
	if err != nil {
		return out, fmt.Errorf("sensors › %s: %w", s.Name, err)
	}
	return out.With(t), nil
}

// sensorRows are the rows of a maker's table, as points or as the text of its sheet.
func sensorRows(s job.Sensor) ([]sensor.Point, error) {
	if s.Sheet != "" {
		return sensor.Rows(s.Sheet)
	}
	rows := make([]sensor.Point, len(s.Points))
	for i, p := range s.Points {
		rows[i] = sensor.Point{At: p.At.Value, Reads: p.Resistance.Value}
	}
	return rows, nil
}

// outdoors tells a sensor of the outdoor air by its name.
func outdoors(name string) bool {
	return strings.Contains(strings.ToLower(name), "outdoor") || strings.Contains(strings.ToLower(name), "outside")
}

func sensorKind(s job.Sensor) string {
	switch s.Type {
	case "thermistor":
		if k := s.Coefficients; k != nil {
			return fmt.Sprintf("thermistor by coefficients %g, %g, %g", float64(k.A.Value), float64(k.B.Value), float64(k.C.Value))
		}
		return fmt.Sprintf("thermistor %s at 25 °C, B %.0f", s.R25.Value.Text(units.SI), float64(s.B.Value))
	case "table":
		rows, err := sensorRows(s)
		if err != nil {
			return "table" // which nobody can read
		}
		return fmt.Sprintf("table of %d points", len(rows))
	}
	return s.Type
}

// TableOf prints the table of a sensor: outdoor sensors through the weather of a year,
// others through the temperatures of a heating system, every 10 °F or 5 °C.
//
// Units: the reader's.
// Range: −40 to 110 °F for outdoor sensors, 32 to 212 °F for others, within what the
// sensor's curve covers; a table that covers none of it is printed at its own points.
// Source: package sensor; the ranges common practice.
// Errors: as [ReadSensor].
func TableOf(s job.Sensor, sys units.System) (SensorTable, error) {
	out := SensorTable{Name: s.Name, Kind: sensorKind(s)}
	made, err := ReadSensor(s)
	if err != nil {
		return out, err
	}
	low, high := units.Fahrenheit(32), units.Fahrenheit(212)
	if outdoors(s.Name) {
		low, high = units.Fahrenheit(-40), units.Fahrenheit(110)
	}
	step := units.Step{System: units.SI, Size: 5}
	if sys.In(units.Temperatures) == units.US {
		step = units.Step{System: units.US, Size: 10}
	}
	rows, err := made.Printed(low, high, step)
	if err != nil {
		if rows, err = sensorRows(s); err != nil {
			return out, fmt.Errorf("sensors › %s › sheet: %w", s.Name, err)
		}
	}
	for _, p := range rows {
		row := SensorRow{At: p.At, Resistance: p.Reads, Low: p.Reads, High: p.Reads}
		at := min(made.High, max(made.Low, p.At))
		band, err := made.Band(at)
		if err != nil {
			return out, fmt.Errorf("sensors › %s: %w", s.Name, err)
		}
		for _, t := range []units.Temperature{max(made.Low, at.Add(-band)), min(made.High, at.Add(band))} {
			r, err := made.Resistance(t)
			if err != nil {
				return out, fmt.Errorf("sensors › %s: %w", s.Name, err)
			}
			row.Low, row.High = min(row.Low, r), max(row.High, r)
		}
		out.Rows = append(out.Rows, row)
	}
	return out, nil
}

// JudgeSensor holds what a sensor reads against the temperature beside it.
//
// Units: Ω and K; [sensor.NoEnd] is a meter that shows no end of resistance. An open or
// shorted line needs no temperature: 0 K says that there is none.
// Range: temperatures that the sensor's curve covers.
// Source: [sensor.Judge].
// Errors: as [ReadSensor]; a temperature that the curve does not cover.
func JudgeSensor(s job.Sensor, reads units.ElectricResistance, beside units.Temperature) (sensor.Judgement, error) {
	made, err := ReadSensor(s)
	if err != nil {
		return sensor.Judgement{}, err
	}
	j, err := sensor.Judge(made, sensor.Reading{Reads: reads, True: beside, Outdoor: outdoors(s.Name)})
	if err != nil {
		return j, fmt.Errorf("sensors › %s: %w", s.Name, err)
	}
	return j, nil
}

// addSensors puts the tables on the sheet and judges what was read. Without sensors in
// the survey there is nothing.
func (m *model) addSensors(s *Sheet) error {
	var lines []Line
	taken := make(map[string]bool)
	for _, survey := range m.job.Sensors {
		table, err := TableOf(survey, m.sys)
		if err != nil {
			return err
		}
		s.Sensors = append(s.Sensors, table)
		if !survey.Reads.Set || !survey.Beside.Set && !lineFault(survey.Reads.Value) {
			continue
		}
		j, err := JudgeSensor(survey, survey.Reads.Value, survey.Beside.Value)
		if err != nil {
			return err
		}
		id := "sensor." + key(survey.Name)
		for n := 2; taken[id]; n++ {
			id = fmt.Sprintf("sensor.%s-%d", key(survey.Name), n)
		}
		taken[id] = true
		l := m.sensorLine(id, survey, table.Kind, j)
		if len(lines) == 0 { // once is enough
			l.Caution = "Electricity: switch off and lock out before taking a sensor's wires off the control."
		}
		lines = append(lines, l)
	}
	if len(lines) > 0 {
		s.Sections = append(s.Sections, Section{Title: "Sensors", Part: BoilerRoom, Lines: lines})
	}
	return nil
}

// lineFault says that a reading is no sensor but an open or shorted line.
func lineFault(r units.ElectricResistance) bool { return sensor.IsOpen(r) || sensor.IsShort(r) }

func (m *model) sensorLine(id string, s job.Sensor, kind string, j sensor.Judgement) Line {
	l := Line{ID: id, Label: "Sensor: " + s.Name, Value: string(j.Verdict), Why: m.sensorWords(j),
		TooHigh: "It reads too warm: the control sends too little heat.", TooLow: "It reads too cold: the control sends too much."}
	if !outdoors(s.Name) {
		l.TooHigh, l.TooLow = "It reads too warm: the water is cooler than the control thinks.", "It reads too cold: the water is hotter than the control thinks."
	}
	step := working.Step{Name: "Reading of the sensor " + s.Name, Formula: "off = T(R) − T beside it; right within band + thermometer, doubtful to twice that",
		Inputs: []working.Input{
			{Symbol: "R", Meaning: "read at its terminals, wires off the control", Value: s.Reads.Value, Known: string(s.Reads.How())},
		},
		Range: kind, Source: sensorSource(s), Note: j.Text(m.sys)}
	if s.Beside.Set {
		step.Inputs = append(step.Inputs,
			working.Input{Symbol: "T", Meaning: "beside it, by a thermometer", Value: s.Beside.Value, Known: string(s.Beside.How())},
			working.Input{Symbol: "band", Meaning: "by which a sound sensor may be off", Value: j.Band},
			working.Input{Symbol: "thermometer", Meaning: "may be off", Value: j.Reading.Instrument})
	}
	switch {
	case lineFault(s.Reads.Value):
		step.Formula, l.TooHigh, l.TooLow = "1 MΩ and more is an open line, 5 Ω and less a shorted one",
			"Open: the control shows a fault, or takes it for an extreme temperature.", "Shorted: the same, at the other extreme."
		step.Result = step.Inputs[0]
	case j.Shown:
		step.Result = working.Input{Symbol: "off", Meaning: "the sensor shows more than the thermometer", Value: j.Off}
	}
	l.Working = []working.Step{step}
	if j.Verdict == sensor.Wrong {
		f := Finding{Severity: "note", Text: upper(s.Name) + " sensor: " + j.Text(m.sys), Cures: sensorCures(j), Working: l.Working}
		if outdoors(s.Name) && lineFault(s.Reads.Value) {
			f.Severity = "short"
			f.Text += " Until then no curve works: the control knows no outdoor temperature, or takes one that is far off."
		}
		m.findings = append(m.findings, f)
	}
	return l
}

func sensorSource(s job.Sensor) string {
	switch s.Type {
	case "thermistor":
		if s.Coefficients != nil {
			return "Steinhart and Hart 1968, from memory; tolerance of 1 % and causes common practice"
		}
		return "definition of B, IEC 60539-1, from memory; tolerance of 1 % and causes common practice"
	case "table":
		return "the maker's table; tolerance and causes common practice"
	}
	return "IEC 60751, class B; causes common practice"
}

// sensorWords is the judgement in one short sentence.
func (m *model) sensorWords(j sensor.Judgement) string {
	reads := m.say(j.Reading.Reads)
	switch {
	case j.Reading.Overload:
		return "The meter shows no end of resistance, an open circuit: a broken wire or a loose terminal."
	case j.Fault == sensor.Open:
		return reads + " is an open circuit: a broken wire or a loose terminal."
	case j.Fault == sensor.Short:
		return reads + " is a short circuit: wires that touch, or water in the sensor."
	case !j.Shown:
		return reads + " is no temperature of this sensor; beside it " + m.say(j.Reading.True) + "."
	case j.Verdict == sensor.Right:
		return fmt.Sprintf("%s is %s by its curve; the thermometer says %s.", reads, m.say(j.Shows), m.say(j.Reading.True))
	}
	way := "warm"
	if j.Off < 0 {
		way = "cold"
	}
	return fmt.Sprintf("%s is %s by its curve, %s too %s against %s beside it.", reads, m.say(j.Shows),
		m.say(units.Difference(math.Abs(float64(j.Off)))), way, m.say(j.Reading.True))
}

// sensorCures are what to do, the likeliest first.
func sensorCures(j sensor.Judgement) []string {
	switch j.Fault {
	case sensor.Open, sensor.Short:
		return []string{"read again at the sensor itself with the cable off: it tells sensor from cable", "a new sensor or cable"}
	case sensor.WrongCurve:
		return []string{"compare the marking on the sensor with the control's setting", "set the control to " + j.Fits[0] + ", if the sensor is one", "a sensor of the kind that the control expects"}
	case sensor.FarOff:
		return []string{"follow the wires from this sensor to its terminals, and those of the others: two may be crossed",
			"compare the marking on the sensor with the control's setting", "clean and tighten its terminals, then read again"}
	case sensor.BadContact:
		return []string{"clean and tighten terminals and splices, then read again", "a new cable"}
	case sensor.Damp:
		return []string{"dry it, seal the cable's entry, then read again", "take off any second sensor on the same wires"}
	case sensor.ReadsCold:
		if j.Reading.Outdoor {
			return []string{"clean and tighten its terminals, see that it is dry and free of snow, then read again", "a new sensor, if it still differs"}
		}
	case sensor.ReadsWarm:
		if j.Reading.Outdoor {
			return []string{"read again at night", "move it to the shaded north wall, away from vents, windows and meters"}
		}
		return []string{"read again with sensor and thermometer at one place", "a new sensor, if it still differs"}
	}
	return []string{"push it home in its well, with paste, and insulate it; look at its terminals", "a new sensor, if it still differs"}
}
