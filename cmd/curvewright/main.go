// Command curvewright works out the weather-compensated control of a condensing
// boiler: from the survey of a house to the settings, with reasons.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// version is the engine's version, printed on sheets.
const version = "0.1.0"

// commands are the command line. Each has a file or a few lines of its own.
type commands struct {
	Settings settingsCommand `cmd:"" help:"Work out the settings of a job."`
	Check    checkCommand    `cmd:"" help:"Check a job document and list all its faults."`
	Why      whyCommand      `cmd:"" help:"Show the working of one line of the settings sheet."`
	Sensor   sensorCommand   `cmd:"" help:"Print the tables of the job's sensors, or judge what one reads."`
	Drawing  drawingCommand  `cmd:"" help:"Draw the boiler room with its flows and temperatures."`
	Expect   expectCommand   `cmd:"" help:"Say what every thermometer should read right now."`
	Judge    judgeCommand    `cmd:"" help:"Judge what was read on a visit: what is likeliest wrong, and what to read next."`
	Handover handoverCommand `cmd:"" help:"Write what is handed over: record, household's sheet, calendar, square, spreadsheet."`
	Weather  weatherCommand  `cmd:"" help:"Read a weather file: design temperatures, degree-days, months, hours by temperature."`
	Year     yearCommand     `cmd:"" help:"Play the settings through a year, minute by minute."`
	Followup followupCommand `cmd:"" help:"Learn from a logger's file: what the house is like, what is wrong, and the corrected curve."`
	Decide   decideCommand   `cmd:"" help:"Search the settings by playing years: least fuel that keeps everybody warm."`
	Proof    proofCommand    `cmd:"" help:"Check the engine against published values, here and now."`
	Schema   schemaCommand   `cmd:"" help:"Print the JSON Schema of the job document."`
	Serve    serveCommand    `cmd:"" help:"Open the page in a browser on this machine."`
	Version  versionCommand  `cmd:"" help:"Print the version."`
}

// program is what commands run with: nothing else reaches the outside.
type program struct {
	out  io.Writer
	errs io.Writer
}

// errQuiet ends a command with status 1 after it has said everything itself.
var errQuiet = errors.New("said already")

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run is main without the process around it.
func run(args []string, out, errs io.Writer) (status int) {
	var c commands
	parser, err := kong.New(&c, kong.Name("curvewright"), kong.Vars{"roles": logRoles()},
		kong.Description("From the survey of a house to the settings of its heating control, with reasons."),
		kong.WithHyphenPrefixedParameters(true), // --at "-3 °F"
		kong.Writers(out, errs), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(code int) { panic(exit(code)) }))
	if err != nil {
		fmt.Fprintln(errs, "curvewright:", err)
		return 2
	}
	defer func() {
		// --help ends the program from inside the parser.
		switch p := recover().(type) {
		case nil:
		case exit:
			status = int(p)
		default:
			panic(p)
		}
	}()
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(errs, "curvewright: %v\n", err)
		fmt.Fprintln(errs, "hint: curvewright --help lists the commands")
		return 2
	}
	err = ctx.Run(&program{out: out, errs: errs})
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errQuiet):
		return 1
	}
	fmt.Fprintf(errs, "curvewright: %v\n", err)
	return 1
}

type exit int

type versionCommand struct{}

// Run prints the version.
func (versionCommand) Run(p *program) error {
	_, err := fmt.Fprintln(p.out, "curvewright", version)
	return err
}
