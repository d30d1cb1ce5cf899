package visit

import (
	"fmt"
	"math"

	"curvewright/attendance"
	"curvewright/curve"
	"curvewright/units"
)

// What becomes of the house with the curve as it was found or entered?

// Found is a circuit under a curve that is not the sheet's.
type Found struct {
	Circuit string
	Setting curve.Setting
	Points  []FoundPoint // from the design day to where heating ends
	Says    string
}

// FoundPoint is one outdoor temperature.
type FoundPoint struct {
	Outdoor units.Temperature
	Sheet   units.Temperature // supply by the sheet's curve
	Found   units.Temperature // and by this one
	Worst   string            // room that ends furthest below its set-point with its valve open
	Reaches units.Temperature // where it ends
	Short   units.Difference
	Return  units.Temperature // of the circuit then
}

// AsFound gives what a curve as found in the control leads to, worked out anew: what is not
// given is as on the sheet.
//
// Units: those of the document.
// Range: the kind of curve that the control of the job holds.
// Source: the curve's definition; rooms where heat and loss meet, as [House.Expect] of a
// settled house.
// Errors: a circuit that the job does not have, a curve whose points exclude each other.
func (h *House) AsFound(c attendance.Curve) (Found, error) {
	i := -1
	for k, name := range h.circuitNames() {
		if name == c.Circuit {
			i = k
		}
	}
	if i < 0 {
		return Found{}, fmt.Errorf("curves: there is no circuit %q", c.Circuit)
	}
	set := h.plant.circuits[i].curve
	set.Cold = curve.Point{Outdoor: c.Cold.Or(set.Cold.Outdoor).Value, Supply: c.ColdAt.Or(set.Cold.Supply).Value}
	set.Mild = curve.Point{Outdoor: c.Mild.Or(set.Mild.Outdoor).Value, Supply: c.MildAt.Or(set.Mild.Supply).Value}
	set.Exponent = float64(c.Exponent.Or(units.Number(set.Exponent)).Value)
	set.Slope = float64(c.Slope.Or(units.Number(set.Slope)).Value)
	set.Shift = c.Shift.Or(set.Shift).Value
	set.Limit = curve.Span[units.Temperature]{From: c.Least.Or(set.Limit.From).Value, To: c.Most.Or(set.Limit.To).Value}
	switch {
	case (set.Kind == curve.TwoPoints || set.Kind == curve.Bent) && !(set.Cold.Outdoor < set.Mild.Outdoor):
		return Found{}, fmt.Errorf("curves › %s: the cold point at %s is not colder than the mild one at %s", c.Circuit, set.Cold.Outdoor.Text(h.system), set.Mild.Outdoor.Text(h.system))
	case set.Kind == curve.Bent && !(set.Exponent >= 1 && set.Exponent <= 3):
		return Found{}, fmt.Errorf("curves › %s: an exponent of %g; accepted: 1 to 3", c.Circuit, set.Exponent)
	case !(set.Limit.From <= set.Limit.To):
		return Found{}, fmt.Errorf("curves › %s: the lowest supply of %s is above the highest of %s", c.Circuit, set.Limit.From.Text(h.system), set.Limit.To.Text(h.system))
	}
	changed := *h
	changed.plant.circuits = append([]circuitNode{}, h.plant.circuits...)
	changed.plant.circuits[i].curve = set
	out := Found{Circuit: c.Circuit, Setting: set}
	worst, hottest := units.Difference(math.Inf(-1)), units.Difference(0)
	var coldAt units.Temperature
	coldRoom := ""
	for _, p := range h.plan.Sheet.Circuits[i].Points {
		f, err := changed.foundAt(i, p.Outdoor)
		if err != nil {
			return Found{}, err
		}
		f.Sheet = p.Set
		if f.Short > worst {
			worst, coldAt, coldRoom = f.Short, p.Outdoor, f.Worst
		}
		if d := f.Found.Sub(f.Sheet); math.Abs(float64(d)) > math.Abs(float64(hottest)) {
			hottest = d
		}
		out.Points = append(out.Points, f)
	}
	say := func(d units.Difference) string { return units.Difference(math.Abs(float64(d))).Text(h.system) }
	way := "hotter"
	if hottest < 0 {
		way = "cooler"
	}
	out.Says = fmt.Sprintf("Up to %s %s than the sheet.", say(hottest), way)
	if worst > 0.5 {
		out.Says += fmt.Sprintf(" At %s outdoors %s ends %s below its set-point with its valve open.", coldAt.Text(h.system), coldRoom, say(worst))
	} else {
		out.Says += " Every room reaches its set-point."
	}
	return out, nil
}

// foundAt settles the house at one outdoor temperature.
func (h *House) foundAt(circuit int, outdoor units.Temperature) (FoundPoint, error) {
	s, err := h.prepare(Conditions{Outdoor: outdoor, State: Settled})
	if err != nil {
		return FoundPoint{}, err
	}
	none := h.plant.asDrawn()
	at := h.plant.run(&s, &none)
	f := FoundPoint{Outdoor: outdoor, Found: units.Temperature(at.circuits[circuit].wanted), Return: units.Temperature(at.circuits[circuit].back), Short: units.Difference(math.Inf(-1))}
	for _, e := range h.plant.circuits[circuit].emitters {
		n := h.plant.rooms[e.room]
		if short := units.Difference(n.set - at.rooms[e.room].air); short > f.Short {
			f.Worst, f.Reaches, f.Short = n.name, units.Temperature(at.rooms[e.room].air), short
		}
	}
	return f, nil
}
