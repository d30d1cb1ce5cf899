package units

import (
	"fmt"
	"slices"
	"strings"
)

// In which units a person reads and writes. Two families go together from country to
// country; where a trade mixes them (a metric house with pipes in inches), single
// quantities take a unit of their own. A System is a plain value that is handed along, so
// that two readers of one program never see each other's units.

// System is a family of units, and for some quantities a unit apart from it. The zero
// value is SI, the same as inside. It may be compared; whoever asks for °F or gallons
// asks In of the quantity, never whether the whole is US.
type System uint64

// The two families.
const (
	SI System = iota
	US
)

// Kind is a quantity whose unit can be chosen apart from the others.
type Kind int

// The kinds, in the order in which a page asks for them.
const (
	noKind         Kind = iota
	Temperatures        // and differences, degree-days
	Powers              // of heat
	Losses              // of heat for each degree; heat capacities
	Transmittances      // U-values, conductivities
	Resistances         // R-values
	Fluxes              // heat through a surface
	LinearPowers        // heat per length
	Energies            // fuel in a year, heat of a day
	HeatingValues       // of fuel
	Flows               // of water
	Heads               // of pumps
	Pressures           // on a gauge
	PipeDrops           // pressure per length of pipe
	Velocities          // of water
	Valves              // what they let through
	Pipes               // diameters, spacings: what is less than a foot
	Lengths             // what is longer
	Areas               //
	Spaces              // of rooms; gas
	Waters              // content of tanks and pipes
	Hardnesses          // of water
	lastKind
)

// unitChoice is a unit that can be chosen for a kind, and the family it is of.
type unitChoice struct {
	word   string
	family System
}

var (
	kindWords = [lastKind]string{Temperatures: "temperature", Powers: "power", Losses: "loss", Transmittances: "u-value", Resistances: "r-value",
		Fluxes: "flux", LinearPowers: "per-length", Energies: "energy", HeatingValues: "heating-value", Flows: "flow", Heads: "head", Pressures: "pressure",
		PipeDrops: "pipe-drop", Velocities: "velocity", Valves: "valve", Pipes: "pipe", Lengths: "length", Areas: "area", Spaces: "space", Waters: "water",
		Hardnesses: "hardness"}

	kindChoices = [lastKind][]unitChoice{
		Temperatures:   {{"°F", US}, {"°C", SI}},
		Powers:         {{"Btu/h", US}, {"MBH", US}, {"W", SI}, {"kW", SI}},
		Losses:         {{"Btu/h·°F", US}, {"W/K", SI}},
		Transmittances: {{"Btu/h·ft²·°F", US}, {"W/m²K", SI}},
		Resistances:    {{"R-", US}, {"m²K/W", SI}, {"RSI", SI}},
		Fluxes:         {{"Btu/h·ft²", US}, {"W/m²", SI}},
		LinearPowers:   {{"Btu/h·ft", US}, {"W/m", SI}},
		Energies:       {{"therm", US}, {"MMBtu", US}, {"kWh", SI}, {"MWh", SI}, {"MJ", SI}, {"GJ", SI}},
		HeatingValues:  {{"Btu/ft³", US}, {"MJ/m³", SI}, {"kWh/m³", SI}},
		Flows:          {{"gpm", US}, {"L/min", SI}, {"L/h", SI}, {"m³/h", SI}, {"L/s", SI}},
		Heads:          {{"ft", US}, {"m", SI}, {"kPa", SI}, {"mbar", SI}},
		Pressures:      {{"psi", US}, {"bar", SI}, {"kPa", SI}, {"mbar", SI}},
		PipeDrops:      {{"ft/100 ft", US}, {"Pa/m", SI}, {"mbar/m", SI}},
		Velocities:     {{"ft/s", US}, {"m/s", SI}},
		Valves:         {{"Cv", US}, {"kv", SI}},
		Pipes:          {{"in", US}, {"mm", SI}, {"cm", SI}},
		Lengths:        {{"ft", US}, {"m", SI}},
		Areas:          {{"ft²", US}, {"m²", SI}},
		Spaces:         {{"ft³", US}, {"m³", SI}},
		Waters:         {{"gal", US}, {"L", SI}},
		Hardnesses:     {{"gpg", US}, {"mg/L", US}, {"mol/m³", SI}, {"°dH", SI}, {"°fH", SI}},
	}
)

// Of each kind three bits say which of its units was chosen, above the one of the family.
const bitsOfKind, maskOfKind = 3, 1<<3 - 1

func (k Kind) shift() int { return 1 + bitsOfKind*int(k-1) }

// chosen is the number of the unit chosen for a kind, from 1; 0 for that of the family.
func (s System) chosen(k Kind) int {
	if k == noKind || s <= US {
		return 0
	}
	return min(int(s>>k.shift())&maskOfKind, len(kindChoices[k]))
}

// Kinds lists the quantities whose unit can be chosen.
func Kinds() []Kind {
	var all []Kind
	for k := noKind + 1; k < lastKind; k++ {
		all = append(all, k)
	}
	return all
}

// Word names a kind in a stored choice: "flow".
func (k Kind) Word() string { return kindWords[k] }

// Units lists the units that can be chosen for a kind.
func (k Kind) Units() []string {
	var names []string
	for _, c := range kindChoices[k] {
		names = append(names, c.word)
	}
	return names
}

// KindOf tells of which kind a quantity is, if its unit can be chosen.
func KindOf(q Quantity) (Kind, bool) {
	of, ok := q.(interface{ dimension() *dimension })
	if !ok || of.dimension().kind == noKind {
		return noKind, false
	}
	return of.dimension().kind, true
}

// String gives the word used for the family in a job document.
func (s System) String() string {
	if s.Family() == US {
		return "us"
	}
	return "si"
}

// Family is the system without the units chosen apart from it: what decides where no
// unit is meant, the size of paper or the meter of a country.
func (s System) Family() System { return s & US }

// On is the same choices over another family.
func (s System) On(family System) System { return s&^US | family.Family() }

// In is the family of the unit in which a kind is read and written.
func (s System) In(k Kind) System {
	if c := s.chosen(k); c > 0 {
		return kindChoices[k][c-1].family
	}
	return s.Family()
}

// Chosen is the unit chosen for a kind apart from the family; empty if none was.
func (s System) Chosen(k Kind) string {
	if c := s.chosen(k); c > 0 {
		return kindChoices[k][c-1].word
	}
	return ""
}

// With is the system with a unit chosen for a kind; none goes back to that of the family.
func (s System) With(k Kind, unit string) (System, error) {
	if k <= noKind || k >= lastKind {
		return s, fmt.Errorf("there is no such quantity to choose a unit for")
	}
	s &^= maskOfKind << k.shift()
	if unit == "" {
		return s, nil
	}
	i := slices.IndexFunc(kindChoices[k], func(c unitChoice) bool { return c.word == unit })
	if i < 0 {
		return s, fmt.Errorf("%q is no unit for %s; accepted: %s", unit, k.Word(), strings.Join(k.Units(), ", "))
	}
	return s | System(i+1)<<k.shift(), nil
}

// Word writes the whole system so that [SystemNamed] reads it back: "us", "si",
// "si;flow=gpm;pipe=in".
func (s System) Word() string {
	word := s.String()
	for _, k := range Kinds() {
		if unit := s.Chosen(k); unit != "" {
			word += ";" + k.Word() + "=" + unit
		}
	}
	return word
}

// SystemNamed reads a system as Word writes it. What is known of it is kept beside the
// error, so that one unit that is not known costs no other.
func SystemNamed(word string) (System, error) {
	parts := strings.Split(word, ";")
	var s System
	switch parts[0] {
	case "us":
		s = US
	case "si":
	default:
		return US, fmt.Errorf("%q is no family of units; accepted: us, si", parts[0])
	}
	var wrong error
	for _, part := range parts[1:] {
		name, unit, _ := strings.Cut(part, "=")
		k, err := KindNamed(name)
		if err == nil {
			s, err = s.With(k, unit)
		}
		if err != nil && wrong == nil {
			wrong = err
		}
	}
	return s, wrong
}

// KindNamed finds a kind by its word.
func KindNamed(word string) (Kind, error) {
	if i := slices.Index(kindWords[:], word); i > 0 {
		return Kind(i), nil
	}
	return noKind, fmt.Errorf("%q is no quantity to choose a unit for; accepted: %s", word, strings.Join(kindWords[1:], ", "))
}

// UnitFor is the unit in which a value of this size is printed for a reader: how large it
// is, and its name. It is for scales and tables, which name their unit once.
//
// Range: quantities without an offset; of temperatures it gives the size of a degree.
// Source: the unit's conversion factor.
func UnitFor[T quantity](near T, s System) (size T, name string) {
	u := near.dimension().printed(float64(near), s)
	return T(u.scale), u.name
}
