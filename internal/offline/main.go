// Offline is the engine and the printed sheet as one program that also runs in a
// browser without a network. Nobody runs it by hand: make test builds it to see that
// it compiles for a browser, gives the same sheet there, and stays small enough for a
// phone in a cellar. A job comes in on standard input; its sheet goes out as JSON,
// followed by the PDF.
package main

import (
	"fmt"
	"io"
	"os"

	"curvewright/job"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
)

func main() {
	if err := run(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(in io.Reader, out io.Writer) error {
	document, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	j, err := job.Read(document)
	if err != nil {
		return err
	}
	sheet, err := settings.Solve(j, settings.DefaultOptions(j))
	if err != nil {
		return err
	}
	if err := report.SheetJSON(out, sheet); err != nil {
		return err
	}
	return pdf.Sheet(out, sheet, report.PDFOptions{})
}
