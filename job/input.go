package job

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"curvewright/sensor"
	"curvewright/units"
)

// input is what the reader, the writer and the schema need of a Given of any
// quantity. Only *Given implements it.
type input interface {
	// take reads the text of a value. The error is a *units.ParseError.
	take(text string) error
	// say notes how the value is known.
	say(known Known)
	// text is the value as written, or exact enough to be read back.
	text() string
	// entry tells what is held.
	entry() (value any, known Known, set bool)
}

// The words that a document may use after "known:", most trusted first.
var knownWords = []string{string(Measured), string(Drawings), string(Bills), string(Estimated)}

func (g *Given[T]) take(text string) error {
	text = strings.TrimSpace(text)
	if err := parse(&g.Value, text); err != nil {
		return err
	}
	g.Text, g.Set = text, true
	return nil
}

func (g *Given[T]) say(known Known) { g.Known = known }

func (g *Given[T]) entry() (any, Known, bool) { return g.Value, g.Known, g.Set }

// text trusts the value: a text that says something else is one left behind when the
// value was changed.
func (g *Given[T]) text() string {
	var written T
	if g.Text != "" && parse(&written, g.Text) == nil && any(written) == any(g.Value) {
		return g.Text
	}
	for _, system := range []units.System{units.SI, units.US} {
		rounded := typed(g.Value.Text(system))
		if parse(&written, rounded) == nil && any(written) == any(g.Value) {
			return rounded
		}
	}
	return typed(exact(g.Value))
}

// typed gives a printed value as people type it.
func typed(text string) string {
	return strings.NewReplacer("\u00a0", " ", "−", "-").Replace(text)
}

// parse reads text into the quantity that into points to. The reader meets the
// quantities as fields of a struct, so the choice falls when the program runs.
func parse(into any, text string) error {
	switch q := into.(type) {
	case *units.Temperature:
		return parseQuantity(q, units.Parse, text)
	case *units.Difference:
		return parseQuantity(q, units.Parse, text)
	case *units.Power:
		return parseQuantity(q, units.Parse, text)
	case *units.Energy:
		return parseQuantity(q, units.Parse, text)
	case *units.Length:
		return parseQuantity(q, units.Parse, text)
	case *units.Area:
		return parseQuantity(q, units.Parse, text)
	case *units.Volume:
		return parseQuantity(q, units.Parse, text)
	case *units.Flow:
		return parseQuantity(q, units.Parse, text)
	case *units.Transmittance:
		return parseQuantity(q, units.Parse, text)
	case *units.Resistance:
		return parseQuantity(q, units.Parse, text)
	case *units.Conductivity:
		return parseQuantity(q, units.Parse, text)
	case *units.LinearPower:
		return parseQuantity(q, units.Parse, text)
	case *units.AirChange:
		return parseQuantity(q, units.Parse, text)
	case *units.DegreeDays:
		return parseQuantity(q, units.Parse, text)
	case *units.Fraction:
		return parseQuantity(q, units.Parse, text)
	case *units.RadiatorArea:
		return parseQuantity(q, units.Parse, text)
	case *units.Time:
		return parseQuantity(q, units.Parse, text)
	case *units.Pressure:
		return parseQuantity(q, units.Parse, text)
	case *units.FlowCoefficient:
		return parseQuantity(q, units.Parse, text)
	case *units.HeatingValue:
		return parseQuantity(q, units.Parse, text)
	case *units.Hardness:
		return parseQuantity(q, units.Parse, text)
	case *units.ElectricResistance:
		return parseQuantity(q, sensor.ParseReading, text)
	case *units.MassFlow:
		return parseQuantity(q, units.Parse, text)
	case *units.Concentration:
		return parseQuantity(q, units.Parse, text)
	case *units.ElectricalConductivity:
		return parseQuantity(q, units.Parse, text)
	case *units.Number:
		return parseQuantity(q, parseNumber, text)
	}
	panic(fmt.Sprintf("job: no reader for %T", into)) // a new quantity in the document needs a line above
}

func parseQuantity[T any](into *T, read func(string) (T, error), text string) error {
	value, err := read(text)
	if err != nil {
		return err
	}
	*into = value
	return nil
}

// exact prints a quantity so that reading it gives the same value again.
func exact(value any) string {
	switch q := value.(type) {
	case units.Temperature:
		return units.Exact(q)
	case units.Difference:
		return units.Exact(q)
	case units.Power:
		return units.Exact(q)
	case units.Energy:
		return units.Exact(q)
	case units.Length:
		return units.Exact(q)
	case units.Area:
		return units.Exact(q)
	case units.Volume:
		return units.Exact(q)
	case units.Flow:
		return units.Exact(q)
	case units.Transmittance:
		return units.Exact(q)
	case units.Resistance:
		return units.Exact(q)
	case units.Conductivity:
		return units.Exact(q)
	case units.LinearPower:
		return units.Exact(q)
	case units.AirChange:
		return units.Exact(q)
	case units.DegreeDays:
		return units.Exact(q)
	case units.Fraction:
		return units.Exact(q)
	case units.RadiatorArea:
		return units.Exact(q)
	case units.Time:
		return units.Exact(q)
	case units.Pressure:
		return units.Exact(q)
	case units.FlowCoefficient:
		return units.Exact(q)
	case units.HeatingValue:
		return units.Exact(q)
	case units.Hardness:
		return units.Exact(q)
	case units.ElectricResistance:
		return units.Exact(q)
	case units.MassFlow:
		return units.Exact(q)
	case units.Concentration:
		return units.Exact(q)
	case units.ElectricalConductivity:
		return units.Exact(q)
	case units.Number:
		return strconv.FormatFloat(float64(q), 'f', -1, 64)
	}
	panic(fmt.Sprintf("job: no writer for %T", value))
}

// accepted says what the reader of a quantity accepts, in its own words.
func accepted(in input) string {
	var fault *units.ParseError
	if errors.As(in.take(""), &fault) {
		return fault.Accept
	}
	return ""
}

const numberAccept = "a plain number as 1.3"

var plainNumber = regexp.MustCompile(`^[-+−]?[0-9]{1,9}([.,][0-9]{1,17})?([eE][-+]?[0-9]{1,2})?$`)

// parseNumber reads a figure without a unit.
func parseNumber(text string) (units.Number, error) {
	if !plainNumber.MatchString(text) {
		return 0, &units.ParseError{Given: text, Reason: "is not a plain number", Accept: numberAccept}
	}
	v, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(text), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, &units.ParseError{Given: text, Reason: "is not a number that can be used", Accept: numberAccept}
	}
	return units.Number(v + 0), nil
}
