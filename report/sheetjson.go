package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"unicode"

	"curvewright/building"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/working"
)

// The sheet for another program. Every field of the sheet appears under its name in
// lower case with underscores, in the order of the types; a quantity is an object
// with its SI value, that unit, and the text a person would read. docs/report.md is
// the description, and the golden file of the tests holds the names still.

// SheetFormat names the form of the JSON. The number goes up when a name or a
// meaning changes; new names may come without.
const SheetFormat = "curvewright.sheet/1"

// siUnits are the units in which quantities are given. A temperature is in kelvins.
var siUnits = map[reflect.Type]string{
	reflect.TypeFor[units.Temperature]():            "K",
	reflect.TypeFor[units.Difference]():             "K",
	reflect.TypeFor[units.Power]():                  "W",
	reflect.TypeFor[units.Energy]():                 "J",
	reflect.TypeFor[units.Length]():                 "m",
	reflect.TypeFor[units.Area]():                   "m²",
	reflect.TypeFor[units.Volume]():                 "m³",
	reflect.TypeFor[units.Flow]():                   "m³/s",
	reflect.TypeFor[units.Pressure]():               "Pa",
	reflect.TypeFor[units.Transmittance]():          "W/m²K",
	reflect.TypeFor[units.Resistance]():             "m²K/W",
	reflect.TypeFor[units.Conductivity]():           "W/mK",
	reflect.TypeFor[units.LossCoefficient]():        "W/K",
	reflect.TypeFor[building.HeatCapacity]():        "J/K",
	reflect.TypeFor[units.Flux]():                   "W/m²",
	reflect.TypeFor[units.LinearPower]():            "W/m",
	reflect.TypeFor[units.AirChange]():              "1/s",
	reflect.TypeFor[units.DegreeDays]():             "K·s",
	reflect.TypeFor[units.Time]():                   "s",
	reflect.TypeFor[units.Fraction]():               "1",
	reflect.TypeFor[units.RadiatorArea]():           "sq ft EDR",
	reflect.TypeFor[units.Number]():                 "1",
	reflect.TypeFor[units.ElectricResistance]():     "Ω",
	reflect.TypeFor[units.Hardness]():               "mol/m³",
	reflect.TypeFor[units.Velocity]():               "m/s",
	reflect.TypeFor[units.FlowCoefficient]():        "m³/h at 1 bar",
	reflect.TypeFor[working.Water]():                "m³",
	reflect.TypeFor[units.HeatingValue]():           "J/m³",
	reflect.TypeFor[units.SpecificEnergy]():         "J/kg",
	reflect.TypeFor[units.MassFlow]():               "kg/s",
	reflect.TypeFor[units.Frequency]():              "1/s",
	reflect.TypeFor[units.Concentration]():          "1",
	reflect.TypeFor[units.PressureGradient]():       "Pa/m",
	reflect.TypeFor[units.ElectricalConductivity](): "S/m",
	reflect.TypeFor[units.Density]():                "kg/m³",
	reflect.TypeFor[units.SpecificHeat]():           "J/kgK",
	reflect.TypeFor[units.VolumetricHeat]():         "J/m³K",
	reflect.TypeFor[units.Viscosity]():              "Pa·s",
	reflect.TypeFor[units.KinematicViscosity]():     "m²/s",
}

// SheetJSON writes the sheet as indented JSON. Values are rounded to seven figures,
// which is finer than anything in it is known. A temperature that was left at zero
// was not computed and is null; so is a value that is no number.
//
// Errors: a failure of w.
func SheetJSON(w io.Writer, sheet *settings.Sheet) error {
	return JSON(w, SheetFormat, "sheet", *sheet, sheet.System)
}

// JSON writes any other result of the engine in the same way, under a format and a name of
// its own.
//
// Errors: a failure of w; a type without a form in JSON.
func JSON(w io.Writer, format, name string, result any, system units.System) error {
	var b bytes.Buffer
	e := encoder{b: &b, system: system}
	b.WriteString(`{"format":` + quoted(format) + `,` + quoted(name) + `:`)
	e.value(reflect.ValueOf(result))
	b.WriteString("}")
	if e.err != nil {
		return e.err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b.Bytes(), "", " "); err != nil {
		return fmt.Errorf("%s as JSON: %w", name, err)
	}
	out.WriteByte('\n')
	_, err := out.WriteTo(w)
	return err
}

type encoder struct {
	b      *bytes.Buffer
	system units.System
	err    error
}

func (e *encoder) value(v reflect.Value) {
	if v.IsValid() && v.Type() == reflect.TypeFor[units.System]() {
		e.b.WriteString(quoted(v.Interface().(units.System).String()))
		return
	}
	if v.IsValid() && v.Kind() == reflect.Float64 {
		e.quantity(v)
		return
	}
	switch v.Kind() {
	case reflect.Invalid:
		e.b.WriteString("null")
	case reflect.Interface, reflect.Pointer:
		e.value(v.Elem())
	case reflect.String:
		e.b.WriteString(quoted(v.String()))
	case reflect.Bool:
		e.b.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int:
		e.b.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Slice:
		e.b.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				e.b.WriteByte(',')
			}
			e.value(v.Index(i))
		}
		e.b.WriteByte(']')
	case reflect.Struct:
		e.b.WriteByte('{')
		before := ""
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue // for the package's own use
			}
			e.b.WriteString(before)
			before = ","
			e.b.WriteString(quoted(snake(v.Type().Field(i).Name)) + ":")
			e.value(v.Field(i))
		}
		e.b.WriteByte('}')
	default:
		e.err = fmt.Errorf("result as JSON: no form for a %s", v.Type())
	}
}

// quantity writes {"si": 339.2611, "unit": "K", "text": "151 °F"}.
func (e *encoder) quantity(v reflect.Value) {
	q, isQuantity := v.Interface().(units.Quantity)
	unit, known := siUnits[v.Type()]
	if !isQuantity || !known {
		e.err = fmt.Errorf("result as JSON: no unit for a %s", v.Type())
		return
	}
	x := v.Float()
	_, temperature := q.(units.Temperature)
	if math.IsNaN(x) || math.IsInf(x, 0) || temperature && x == 0 {
		e.b.WriteString("null")
		return
	}
	fmt.Fprintf(e.b, `{"si":%s,"unit":%s,"text":%s}`, sevenFigures(x), quoted(unit), quoted(q.Text(e.system)))
}

// sevenFigures rounds so that the last bits of another machine do not show, and
// writes no more digits than that leaves.
func sevenFigures(x float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 7, 64), 64) // what Format wrote parses
	out, _ := json.Marshal(rounded + 0)
	return string(out)
}

// snake turns TooHigh into too_high and ID into id.
func snake(name string) string {
	var out []rune
	r := []rune(name)
	for i, c := range r {
		if i > 0 && unicode.IsUpper(c) && !unicode.IsUpper(r[i-1]) {
			out = append(out, '_')
		}
		out = append(out, unicode.ToLower(c))
	}
	return string(out)
}

// quoted writes a JSON string with its letters as they are.
func quoted(s string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil { // a string always encodes
		return `""`
	}
	return string(bytes.TrimRight(b.Bytes(), "\n"))
}
