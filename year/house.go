package year

// What of a house stores, loses and gains heat?

import (
	"cmp"
	"fmt"

	"curvewright/building"
	"curvewright/refuse"
	"curvewright/units"
)

// House is rooms and what joins them.
type House struct {
	Rooms []Room
	Doors []Door
}

// Door is any way by which heat goes from one room's air to another's: a wall between
// them, a door that stands open.
type Door struct {
	A, B int // rooms, from 0
	Loss units.LossCoefficient
}

// Room is one air node and up to two of fabric.
//
// Two fabrics may stand side by side (the outer walls and the inner ones, each to the
// air) or one behind the other (only the first to the air, Between joining them).
type Room struct {
	Name string
	Set  units.Temperature
	Air  building.HeatCapacity // air, furniture, surfaces: what follows within minutes
	Loss building.Loss         // from the air: windows, air change, whatever holds no heat

	Fabric  []Fabric
	Between units.LossCoefficient // from one fabric to the other

	// Radiant is how a radiant heat divides over air, first and second fabric. All zero
	// means by their conductance to the air, and to the air if there is no fabric.
	Radiant [3]units.Fraction

	Windows    []Window
	SunRadiant units.Fraction  // of the sun through the windows that falls on surfaces, the rest warms the air
	Gains      [24]units.Power // people and appliances, by hour of the day
	GainsShare units.Fraction  // of them that is radiant

	// Open joins the air with that of all other rooms that have it, through inner walls and
	// open doors: the conductance to their common mean.
	Open units.LossCoefficient

	Airing Airing
	Shade  Shade
	Ideal  Ideal
}

// Shade is what people do when the sun makes a room too warm: they draw blinds. It is
// decided by the hour. The zero value keeps them open.
type Shade struct {
	Above  units.Temperature // at the beginning of the hour
	Leaves units.Fraction    // of the sun
}

// Ideal is a heater and a cooler of any size that act on the air at once, as reference
// cases ask for. The zero value is none.
type Ideal struct{ Heat, Cool units.Temperature }

// Fabric is what of walls, floors and ceilings stores heat.
type Fabric struct {
	Capacity building.HeatCapacity
	ToAir    units.LossCoefficient
	Loss     building.Loss // from here to outdoors, ground or neighbours
}

// Window lets sun in.
type Window struct {
	Facade   int        // index into [Weather.Sun]
	Aperture units.Area // glass area × transmittance × what shading and dirt leave
}

// Airing is what people do when a room is too warm: they open windows as soon as it is
// cooler outside. The zero value keeps them shut.
type Airing struct {
	Above units.Temperature     // begins
	Most  units.LossCoefficient // 2 K further up
}

const airingBand = 2.0 // K

// airingSet tells whether anyone opens a window at all.
func (a Airing) airingSet() bool { return a.Most > 0 }

func (r Room) check() error {
	err := cmp.Or(
		refuse.Within("set-point", r.Set, units.Celsius(0), units.Celsius(40)),
		refuse.Within("capacity of the air", r.Air, leastCapacity, mostCapacity),
		checkLoss("loss from the air", r.Loss),
		refuse.Within("conductance from fabric to fabric", r.Between, 0, mostLoss),
		refuse.Within("conductance to the other rooms", r.Open, 0, mostLoss),
		refuse.Within("radiant share of the sun", r.SunRadiant, 0, 1),
		refuse.Within("radiant share of the gains", r.GainsShare, 0, 1),
	)
	for h, g := range r.Gains {
		err = cmp.Or(err, refuse.Within(fmt.Sprintf("gains from %d to %d o'clock", h, h+1), g, 0, mostPower))
	}
	if len(r.Fabric) > 2 {
		err = cmp.Or(err, fmt.Errorf("fabric: %d nodes given; accepted: none, one or two", len(r.Fabric)))
	}
	if r.Between > 0 && len(r.Fabric) != 2 {
		err = cmp.Or(err, fmt.Errorf("fabric: a conductance from fabric to fabric is given; accepted with two of them"))
	}
	for _, f := range r.Fabric {
		err = cmp.Or(err, refuse.Within("capacity of the fabric", f.Capacity, leastCapacity, mostCapacity),
			refuse.Within("conductance from fabric to air", f.ToAir, 0, mostLoss), checkLoss("loss from the fabric", f.Loss))
	}
	if r.Airing.airingSet() {
		err = cmp.Or(err, refuse.Within("room temperature for airing", r.Airing.Above, units.Celsius(15), units.Celsius(40)),
			refuse.Within("loss by airing", r.Airing.Most, 0, mostLoss))
	}
	if r.Shade.Above != 0 {
		err = cmp.Or(err, refuse.Within("room temperature for blinds", r.Shade.Above, units.Celsius(15), units.Celsius(40)),
			refuse.Within("what blinds leave of the sun", r.Shade.Leaves, 0, 1))
	}
	if r.Ideal.Heat != 0 {
		err = cmp.Or(err, refuse.Within("ideal heater", r.Ideal.Heat, units.Celsius(0), units.Celsius(40)))
	}
	if r.Ideal.Cool != 0 {
		err = cmp.Or(err, refuse.Within("ideal cooler", r.Ideal.Cool, r.Ideal.Heat, units.Celsius(60)))
	}
	sum := units.Fraction(0)
	for i, f := range r.Radiant {
		err = cmp.Or(err, refuse.Within("share of the radiant heat", f, 0, 1))
		if f > 0 && i > len(r.Fabric) {
			err = cmp.Or(err, fmt.Errorf("share of the radiant heat: given for a fabric that the room does not have"))
		}
		sum += f
	}
	if sum != 0 {
		err = cmp.Or(err, refuse.Within("shares of the radiant heat together", sum, 1-1e-9, 1+1e-9))
	}
	return err
}

func (h House) check(facades int) error {
	if len(h.Rooms) < 1 || len(h.Rooms) > mostRooms {
		return fmt.Errorf("house: %d rooms given; accepted: 1 to %d", len(h.Rooms), mostRooms)
	}
	for _, r := range h.Rooms {
		err := r.check()
		for _, w := range r.Windows {
			if w.Facade < 0 || w.Facade >= facades {
				err = cmp.Or(err, fmt.Errorf("window: façade %d given, but the weather has sun for %d façades", w.Facade, facades))
			}
			err = cmp.Or(err, refuse.Within("window", w.Aperture, 0, mostArea))
		}
		if err != nil {
			return fmt.Errorf("room %q: %w", r.Name, err)
		}
	}
	for _, d := range h.Doors {
		if d.A < 0 || d.A >= len(h.Rooms) || d.B < 0 || d.B >= len(h.Rooms) || d.A == d.B {
			return fmt.Errorf("doors: one joins rooms %d and %d; accepted: two of the house's %d rooms, counted from 0", d.A, d.B, len(h.Rooms))
		}
		if err := refuse.Within("conductance from room to room", d.Loss, 0, mostLoss); err != nil {
			return fmt.Errorf("doors: %w", err)
		}
	}
	return nil
}

// radiant gives how radiant heat divides, summing to one.
func (r Room) radiant() (share [3]float64) {
	sum := 0.0
	for i, f := range r.Radiant {
		share[i] = float64(f)
		sum += share[i]
	}
	if sum == 0 {
		for i, f := range r.Fabric {
			share[i+1] = float64(f.ToAir)
			sum += share[i+1]
		}
	}
	if sum == 0 {
		return [3]float64{1, 0, 0}
	}
	for i := range share {
		share[i] /= sum
	}
	return share
}
