package year

// What did every thermometer say, for a plot?

import "curvewright/units"

// Trace is a table of samples. Give it to [Run] in [Options] with Every and Values; it
// is filled until Values is full.
type Trace struct {
	Every   units.Time // between two rows, a whole number of minutes
	Columns []Column   // filled in by Run
	Values  []float64  // row after row, in K and W
	Rows    int        // that were filled in

	delivered float64 // by the boiler up to the last row, J
}

// HeatColumn is the column with the mean heat from the boiler since the row before; all
// other columns are of the moment.
const HeatColumn = "heat from the boiler"

// Column says what a column of a [Trace] holds.
type Column struct {
	Name  string
	Power bool // in W; otherwise a temperature in K
}

// At gives a value.
//
// Units: K or W, by the column.
// Range: rows from 0 to Rows−1, columns as Columns.
// Source: definition.
func (t Trace) At(row, column int) float64 { return t.Values[row*len(t.Columns)+column] }

// Columns gives the columns that a house and its plant make, so that a buffer can be
// sized.
//
// Range: any house and plant.
// Source: definition.
func Columns(h House, p Plant) []Column {
	out := []Column{{Name: "outdoors"}, {Name: "boiler supply"}, {Name: "boiler return"}, {Name: "burner", Power: true}}
	for _, c := range p.Circuits {
		out = append(out, Column{Name: c.Name + ", supply wanted"}, Column{Name: c.Name + ", supply"}, Column{Name: c.Name + ", return"})
	}
	if p.Tank != nil {
		out = append(out, Column{Name: "tank, top"})
	}
	out = append(out, Column{Name: HeatColumn, Power: true})
	for _, r := range h.Rooms {
		out = append(out, Column{Name: r.Name})
	}
	return out
}

// sample writes a row, if there is room for it.
func (m *model) sample(t *Trace, outdoor float64) {
	n := len(t.Columns)
	if (t.Rows+1)*n > len(t.Values) {
		return
	}
	row := t.Values[t.Rows*n : (t.Rows+1)*n]
	row[0], row[1], row[2], row[3] = outdoor, m.boiler.t, m.boiler.back, m.boiler.output
	k := 4
	for i := range m.circuits {
		if c := &m.circuits[i]; !c.isTank {
			row[k], row[k+1], row[k+2] = c.set, c.supply, c.back
			k += 3
		}
	}
	if m.tank.n > 0 {
		row[k] = m.tank.t[m.tank.n-1]
		k++
	}
	row[k] = (m.sums.delivered - t.delivered) / float64(t.Every)
	t.delivered = m.sums.delivered
	k++
	for i := range m.rooms {
		row[k+i] = m.rooms[i].air
	}
	t.Rows++
}
