package sensor

// A table from the maker's sheet: what to believe first. And a table to print for the
// sensor of the job.

import (
	"cmp"
	"fmt"
	"math"
	"sort"
	"strings"

	"curvewright/refuse"
	"curvewright/units"
)

// Point is one row of a sensor's table.
type Point struct {
	At    units.Temperature
	Reads units.ElectricResistance
}

// mostPoints bounds a table; a sheet in steps of 1 °F has about 350.
const mostPoints = 1000

// FromTable makes a sensor from the rows of the maker's sheet, in any order.
//
//	ln R straight in 1/T between two rows
//
// With rows 10 K apart the error is below 0.1 K for a thermistor, 5 K apart below
// 0.03 K.
//
// Units: K and Ω.
// Range: between the first and the last row, never beyond; 2 to 1000 rows of −200 to
// 850 °C and 1 Ω to 10 MΩ; resistance throughout rising or throughout falling.
// Source: rows by the maker; between them the law of a thermistor, piece by piece.
// Errors: too few rows, a temperature that stands twice, a resistance that turns back,
// a figure outside the range.
func FromTable(name string, rows []Point) (Sensor, error) {
	if len(rows) < 2 || len(rows) > mostPoints {
		return Sensor{}, &refuse.Error{Subject: subject, What: "rows of the table", Given: fmt.Sprint(len(rows)), Accept: fmt.Sprintf("2 to %d", mostPoints)}
	}
	sorted := append([]Point(nil), rows...)
	sort.SliceStable(sorted, func(i, k int) bool { return sorted[i].At < sorted[k].At })
	t := make(table, len(sorted))
	for i, p := range sorted {
		err := cmp.Or(
			within("temperature in the table", p.At, units.Celsius(-200), units.Celsius(850)),
			within("resistance in the table", p.Reads, least, most),
		)
		if err != nil {
			return Sensor{}, err
		}
		t[i] = knot{inverse: 1 / float64(p.At), log: math.Log(float64(p.Reads))}
		if i == 0 {
			continue
		}
		before := sorted[i-1]
		const apart = 1e-3 // K
		if p.At-before.At < apart {
			return Sensor{}, &refuse.Error{Subject: subject, What: "temperature in the table", Given: refuse.Both(p.At) + " twice", Accept: "each temperature once"}
		}
		if p.Reads == before.Reads || (p.Reads > before.Reads) != (sorted[1].Reads > sorted[0].Reads) {
			return Sensor{}, &refuse.Error{Subject: subject, What: "resistance in the table", Given: refuse.Both(before.Reads) + " at " + refuse.Both(before.At) + " and " + refuse.Both(p.Reads) + " at " + refuse.Both(p.At),
				Accept: "one that only rises or only falls with temperature; look for a slip in one of the two rows"}
		}
	}
	return Sensor{Name: name, Basis: ByTable, Low: sorted[0].At, High: sorted[len(sorted)-1].At, law: t}, nil
}

// table holds the rows as ln R over 1/T, the coldest first.
type table []knot

type knot struct{ inverse, log float64 }

func (t table) ohms(T float64) float64 {
	i := t.cell(func(k knot) bool { return k.inverse <= 1/T })
	a, b := t[i], t[i+1]
	return math.Exp(a.log + (b.log-a.log)*(1/T-a.inverse)/(b.inverse-a.inverse))
}

func (t table) kelvin(R float64) float64 {
	x := math.Log(R)
	rising := t[1].log > t[0].log
	i := t.cell(func(k knot) bool { return rising == (k.log >= x) || k.log == x })
	a, b := t[i], t[i+1]
	return 1 / (a.inverse + (b.inverse-a.inverse)*(x-a.log)/(b.log-a.log))
}

func (t table) slope(T float64) float64 {
	i := t.cell(func(k knot) bool { return k.inverse <= 1/T })
	return -(t[i+1].log - t[i].log) / (t[i+1].inverse - t[i].inverse) / (T * T)
}

// cell gives the interval whose upper end is the first row that has passed.
func (t table) cell(passed func(knot) bool) int {
	i := sort.Search(len(t), func(i int) bool { return passed(t[i]) })
	return min(len(t)-2, max(0, i-1))
}

// ParseTable reads a table as it is copied from a sheet or typed: one row a line, a
// temperature and a resistance with their units, parted by a tab, a semicolon, a bar,
// an equals sign or two spaces. A first line of two units ("°C kΩ") spares them in the
// rows. Empty lines and lines that begin with # are passed over.
//
// Units: those written; the result in K and Ω.
// Range: as [FromTable]; text to 100 kB.
// Source: the maker's sheet.
// Errors: a line that cannot be read, with its number; what FromTable refuses.
func ParseTable(name, text string) (Sensor, error) {
	rows, err := Rows(text)
	if err != nil {
		return Sensor{}, err
	}
	return FromTable(name, rows)
}

// Rows reads the rows of a table as [ParseTable] does, without making a sensor of them.
//
// Units: those written; the result in K and Ω.
// Range: text to 100 kB.
// Source: the maker's sheet.
// Errors: a line that cannot be read, with its number.
func Rows(text string) ([]Point, error) {
	const longest = 100_000
	if len(text) > longest {
		return nil, &refuse.Error{Subject: subject, What: "table", Given: fmt.Sprintf("%d bytes", len(text)), Accept: fmt.Sprintf("up to %d bytes", longest)}
	}
	var (
		rows []Point
		unit [2]string
	)
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		cells := split(line)
		if len(rows) == 0 && len(cells) == 2 && !strings.ContainsAny(line, "0123456789") {
			unit = [2]string{cells[0], cells[1]}
			continue
		}
		if len(cells) != 2 {
			return nil, &refuse.Error{Subject: subject, What: fmt.Sprintf("line %d of the table", i+1), Given: fmt.Sprintf("%.40q", line),
				Accept: "a temperature and a resistance parted by a tab, a semicolon or two spaces: 20 °C ; 12.5 kΩ"}
		}
		at, err := units.Parse[units.Temperature](written(cells[0], unit[0]))
		if err != nil {
			return nil, fmt.Errorf("line %d of the sensor's table: %w", i+1, err)
		}
		reads, err := units.Parse[units.ElectricResistance](written(cells[1], unit[1]))
		if err != nil {
			return nil, fmt.Errorf("line %d of the sensor's table: %w", i+1, err)
		}
		rows = append(rows, Point{At: at, Reads: reads})
	}
	return rows, nil
}

// written adds the unit of the head line to a plain number.
func written(cell, unit string) string {
	if unit == "" || strings.ContainsFunc(cell, func(r rune) bool { return !strings.ContainsRune("0123456789.,-−+ ", r) }) {
		return cell
	}
	return cell + " " + unit
}

// split parts a line in its cells. Single spaces part only where that gives two.
func split(line string) []string {
	line = strings.NewReplacer("\t", "\x00", ";", "\x00", "|", "\x00", "=", "\x00", "  ", "\x00").Replace(line)
	var cells []string
	for _, c := range strings.Split(line, "\x00") {
		if c = strings.TrimSpace(c); c != "" {
			cells = append(cells, c)
		}
	}
	if len(cells) == 1 {
		if words := strings.Fields(line); len(words) == 2 {
			return words
		}
	}
	return cells
}

// Printed gives the table of a sensor at the round steps of a reader's thermometer,
// within the sensor's range.
//
//	temperatures: whole multiples of the step from low to high
//
// Units: K and Ω; a step in °F or °C.
// Range: low below high; at most 1000 rows.
// Source: the law of the sensor.
// Errors: a sensor that was not made, temperatures in the wrong order or wholly outside
// the sensor's range, too many rows.
func (s Sensor) Printed(low, high units.Temperature, step units.Step) ([]Point, error) {
	if s.law == nil {
		return nil, notMade()
	}
	from, to := step.Up(max(low, s.Low)), step.Down(min(high, s.High))
	if !(from <= to) || !(float64(to-from) < 1e4) {
		return nil, &refuse.Error{Subject: subject, What: "temperatures of the table", Given: refuse.Both(low) + " to " + refuse.Both(high), Accept: refuse.Both(s.Low) + " to " + refuse.Both(s.High) + ", and the lower one first"}
	}
	count := int(math.Round(float64(to-from)/float64(step.Difference()))) + 1
	if count > mostPoints {
		return nil, &refuse.Error{Subject: subject, What: "rows of the table", Given: fmt.Sprint(count), Accept: fmt.Sprintf("up to %d; take a larger step", mostPoints)}
	}
	rows := make([]Point, 0, count)
	for i := range count {
		at := step.Nearest(from + units.Temperature(float64(i)*float64(step.Difference())))
		reads, err := s.Resistance(min(s.High, max(s.Low, at)))
		if err != nil {
			return nil, err
		}
		rows = append(rows, Point{At: at, Reads: reads})
	}
	return rows, nil
}
