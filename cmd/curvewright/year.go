package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/web"
	"curvewright/web/words"
	"curvewright/year"
)

// played are the flags of every command that plays years.
type played struct {
	Weather string `placeholder:"FILE" help:"Weather to play (see curvewright weather); without it, a made-up year."`
	Units   string `enum:"job,us,si" default:"job" help:"Units: us, si, or as the job says."`
	Seed    uint64 `default:"1" help:"Seed of a made-up year."`
}

// options reads them for a job, and the job.
func (f played) trial(file string, o trial.Options) (*trial.Trial, error) {
	j, err := readJob(file)
	if err != nil {
		return nil, err
	}
	o.System, o.Seed = settings.DefaultOptions(j).System, f.Seed
	switch f.Units {
	case "us":
		o.System = units.US
	case "si":
		o.System = units.SI
	}
	if f.Weather != "" {
		data, err := readWeather(f.Weather)
		if err != nil {
			return nil, err
		}
		if o.Weather, err = weather.Parse(data, weather.Place{}); err != nil {
			return nil, fmt.Errorf("%s: %w", f.Weather, err)
		}
	}
	t, err := trial.New(j, o)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return t, nil
}

type yearCommand struct {
	File string `arg:"" help:"Job document."`
	played
	Against     []string `placeholder:"SETTINGS" help:"Play these beside the sheet: preset, as-found, fixed; none leaves them out. Without it preset and fixed, and as-found if the job says how the control was found."`
	Found       []string `sep:"none" placeholder:"CURVE" help:"A circuit as it was found, in place of what the job says: \"House: 180 °F at 0 °F, 110 °F at 60 °F\", or \"House: 160 °F\" held. Once for each circuit."`
	FoundCutOff string   `placeholder:"TEMPERATURE" help:"Warm-weather cut-off as it was found: \"70 °F\"; without it what the job says."`
	FuelPrice   string   `placeholder:"PRICE" help:"Price of the fuel: \"1.20/therm\", \"0.11 EUR/kWh\"."`
	Carbon      string   `placeholder:"FACTOR" help:"Carbon dioxide of the fuel: \"5.3 kg/therm\", \"0.2 kg/kWh\"."`
	CSV         string   `name:"csv" placeholder:"FILE" help:"Write the hours of the year under the sheet's settings to a table."`
	Plots       string   `placeholder:"FOLDER" help:"Write the plots of that year to a folder, as SVG."`
	PDF         string   `name:"pdf" placeholder:"FILE" help:"Write comparison, plots and what was assumed as a PDF."`
	Paper       string   `enum:"job,a4,letter" default:"job" help:"Paper of the PDF: a4, letter, or as usual with the units."`
	Fail        bool     `help:"Let the boiler stop on the design night instead: hours until each room and pipe space freezes."`
}

// Run plays the job's settings through a year.
func (c yearCommand) Run(p *program) error {
	o, err := c.options()
	if err != nil {
		return err
	}
	if len(c.Against) == 0 {
		j, err := readJob(c.File)
		if err != nil {
			return err
		}
		o.Against = trial.Usual(j, o.Found)
	}
	t, err := c.trial(c.File, o)
	if err != nil {
		return err
	}
	s := t.Plan.Sheet.System
	var b bytes.Buffer
	if c.Fail {
		f, err := t.Fail()
		if err != nil {
			return fmt.Errorf("%s: %w", c.File, err)
		}
		if err := f.WriteText(&b, s); err != nil {
			return err
		}
		_, err = b.WriteTo(p.out)
		return err
	}
	results, err := t.Run(nil)
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.CSV != "" || c.Plots != "" || c.PDF != "" {
		if err := c.writeHours(t, results); err != nil {
			return err
		}
	}
	if err := t.WriteText(&b, results, s); err != nil {
		return err
	}
	_, err = b.WriteTo(p.out)
	return err
}

// options reads the flags beside the weather.
func (c yearCommand) options() (o trial.Options, err error) {
	for _, a := range c.Against {
		if a != "none" {
			o.Against = append(o.Against, trial.Against(a))
		}
	}
	if len(c.Found) > 0 || c.FoundCutOff != "" {
		o.Found = &settings.Found{}
	}
	for _, text := range c.Found {
		one, err := trial.ParseFound(text)
		if err != nil {
			return o, fmt.Errorf("--found: %w", err)
		}
		o.Found.Circuits = append(o.Found.Circuits, one)
	}
	if c.FoundCutOff != "" {
		if o.Found.CutOff, err = units.Parse[units.Temperature](c.FoundCutOff); err != nil {
			return o, fmt.Errorf("--found-cut-off: %w", err)
		}
	}
	if c.FuelPrice != "" {
		if o.Price, err = trial.ParsePrice(c.FuelPrice); err != nil {
			return o, fmt.Errorf("--fuel-price: %w", err)
		}
	}
	if c.Carbon != "" {
		if o.Carbon, err = trial.ParseCarbon(c.Carbon); err != nil {
			return o, fmt.Errorf("--carbon: %w", err)
		}
	}
	return o, nil
}

// writeHours writes table, print and plots of the hours.
func (c yearCommand) writeHours(t *trial.Trial, results []year.Result) error {
	result, trace, err := t.Traced(units.Hours(1))
	if err != nil {
		return fmt.Errorf("%s: %w", c.File, err)
	}
	if c.CSV != "" {
		var b bytes.Buffer
		if err := trial.WriteCSV(&b, trace, t.Plan.Sheet.System); err != nil {
			return err
		}
		if err := os.WriteFile(c.CSV, b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	if c.PDF != "" {
		if err := c.print(t, results, trace); err != nil {
			return err
		}
	}
	if c.Plots == "" {
		return nil
	}
	if err := os.MkdirAll(c.Plots, 0o755); err != nil {
		return err
	}
	const width, height = 1100, 420
	sheet := t.Plan.Sheet
	plots := map[string]string{
		"day":    report.YearDaySVG(sheet, result, width, height+40+12*float64(len(result.Rooms))),
		"starts": report.YearStartsSVG(result, width, height*0.7),
		"load":   report.YearLoadSVG(sheet, trace, t.Plant.Boiler.Least, width, height),
		"week":   report.YearWeekSVG(sheet, result, trace, width, height+12*float64(len(result.Rooms))),
	}
	for i := range sheet.Circuits {
		plots[fmt.Sprintf("supply-%d", i+1)] = report.YearCurveSVG(sheet, i, trace, width, height)
	}
	for i, r := range result.Rooms {
		plots[fmt.Sprintf("room-%d", i+1)] = report.YearCarpetSVG(sheet, r.Name, trace, width, height)
	}
	for name, svg := range plots {
		if err := os.WriteFile(filepath.Join(c.Plots, name+".svg"), []byte(svg), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// print writes the year as a PDF, with the day of the survey.
func (c yearCommand) print(t *trial.Trial, results []year.Result, trace year.Trace) error {
	o := report.PDFOptions{Date: t.Plan.Sheet.Surveyed, Version: version}
	if c.Paper == "letter" || c.Paper == "job" && t.Plan.Sheet.System == units.US {
		o.Paper = report.Letter
	}
	var b bytes.Buffer
	if err := pdf.Paperwork(&b, web.YearPaper(words.English, t, results, trace), o); err != nil {
		return fmt.Errorf("%s: %w", c.PDF, err)
	}
	return os.WriteFile(c.PDF, b.Bytes(), 0o644)
}
