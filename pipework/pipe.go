package pipework

// Which bore, wall and volume has the tube that stands on the truck? Tables of the
// standards, each with where its figures come from.

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"curvewright/refuse"
	"curvewright/units"
)

// Standard names a table of tube sizes.
type Standard string

// The tables. American PEX stands in two: the tube is sold by its outside diameter and
// a least wall, so the bore printed from that wall is the largest it can have, and the
// tube on site has on average less.
const (
	CopperK         Standard = "copper type K"
	CopperL         Standard = "copper type L"
	CopperM         Standard = "copper type M"
	CopperMetric    Standard = "copper EN 1057"
	PEX             Standard = "PEX SDR9"
	PEXLargest      Standard = "PEX SDR9, largest bore"
	PEXMetric       Standard = "PE-X ISO 15875"
	PERT            Standard = "PE-RT ISO 22391"
	Multilayer      Standard = "multilayer ISO 21003"
	SteelSchedule40 Standard = "steel Schedule 40"
	SteelMetric     Standard = "steel EN 10255 medium"
)

// Pipe is one tube size.
type Pipe struct {
	Standard  Standard
	Size      string // as the trade calls it: "3/4", "16x2"
	Outside   units.Length
	Wall      units.Length
	Bore      units.Length
	Roughness units.Length
}

// Table is one standard's sizes.
type Table struct {
	Standard Standard
	Source   string // standard and how its figures were obtained
	Pipes    []Pipe
}

// Roughness of new tube, m (Moody 1944, from memory).
const (
	DrawnRoughness = units.Length(1.5e-6) // copper, plastics
	SteelRoughness = units.Length(45e-6)  // commercial steel
)

// Tables gives every table of tube sizes.
//
// Units: lengths in m.
// Range: sizes of house heating, 1/4 to 2 in and 10 to 63 mm, steel to 3 in.
// Source: as each table says.
func Tables() []Table {
	out := make([]Table, 0, len(tables))
	for _, t := range tables {
		pipes := make([]Pipe, 0, len(t.rows))
		for _, r := range t.rows {
			pipes = append(pipes, t.pipe(r))
		}
		out = append(out, Table{Standard: t.standard, Source: t.source, Pipes: pipes})
	}
	return out
}

// Find gives a tube by its table and size, "3/4" or "16x2".
//
// Units: lengths in m.
// Range: the sizes of [Tables].
// Source: as the table says.
// Errors: an unknown table or size; the message lists what there is.
func Find(standard Standard, size string) (Pipe, error) {
	var known []string
	for _, t := range tables {
		if t.standard != standard {
			known = append(known, string(t.standard))
			continue
		}
		var sizes []string
		if inches, found := steelDN[strings.ToLower(sizeKey(size))]; found && (standard == SteelSchedule40 || standard == SteelMetric) {
			size = inches
		}
		for _, r := range t.rows {
			if sizeKey(r.size) == sizeKey(size) {
				return t.pipe(r), nil
			}
			sizes = append(sizes, r.size)
		}
		return Pipe{}, &refuse.Error{What: "tube size of " + string(standard), Given: fmt.Sprintf("%q", size), Accept: strings.Join(sizes, ", ")}
	}
	return Pipe{}, &refuse.Error{What: "kind of tube", Given: fmt.Sprintf("%q", standard), Accept: strings.Join(known, ", ")}
}

// steelDN are the nominal sizes of steel pipe in millimetres, as ISO 6708 has them.
var steelDN = map[string]string{"dn10": "3/8", "dn15": "1/2", "dn20": "3/4", "dn25": "1", "dn32": "1-1/4", "dn40": "1-1/2", "dn50": "2", "dn65": "2-1/2", "dn80": "3"}

// sizeKey makes the ways of writing one size alike: 1 1/4 in, 1-1/4", 16 × 2 mm.
func sizeKey(size string) string {
	return strings.NewReplacer(" ", "", "\u00a0", "", "-", "", `"`, "", "in", "", "mm", "", "×", "x", "X", "x", ",", ".").Replace(size)
}

// OwnPipe makes a tube that stands in no table from its outside diameter, wall and
// roughness.
//
//	bore = outside − 2·wall
//
// Units: lengths in m.
// Range: outside 3 mm to 1 m, bore at least 2 mm, roughness 0 to a twentieth of the bore.
// Source: geometry.
// Errors: a figure outside the range.
func OwnPipe(size string, outside, wall, roughness units.Length) (Pipe, error) {
	bore := outside - 2*wall
	if err := cmp.Or(
		within("outside diameter of tube "+size, outside, units.Millimetres(3), 1),
		within("wall of tube "+size, wall, 0, outside/2),
		within("bore of tube "+size, bore, units.Millimetres(2), 1),
		within("roughness of tube "+size, roughness, 0, bore/20),
	); err != nil {
		return Pipe{}, err
	}
	return Pipe{Standard: "own", Size: size, Outside: outside, Wall: wall, Bore: bore, Roughness: roughness}, nil
}

// Volume gives the water in a length of the tube.
//
//	V = π/4·bore²·length
//
// Units: length in m; m³.
// Range: length from zero.
// Source: geometry.
func (p Pipe) Volume(length units.Length) units.Volume {
	return units.Volume(p.area() * math.Max(0, float64(length)))
}

// Velocity gives how fast a flow runs in the tube.
//
//	v = V̇/(π/4·bore²)
//
// Units: flow in m³/s; m/s.
// Range: a tube with a bore; otherwise 0.
// Source: continuity.
func (p Pipe) Velocity(flow units.Flow) units.Velocity {
	if p.Bore <= 0 {
		return 0
	}
	return units.Velocity(float64(flow) / p.area())
}

// String names the tube: "3/4 copper type L".
func (p Pipe) String() string { return p.Size + " " + string(p.Standard) }

func (p Pipe) area() float64 { return math.Pi / 4 * float64(p.Bore) * float64(p.Bore) }

func (p Pipe) check() error {
	return cmp.Or(
		within("bore of "+p.String(), p.Bore, units.Millimetres(2), 1),
		within("roughness of "+p.String(), p.Roughness, 0, p.Bore/20),
	)
}
