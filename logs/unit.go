package logs

// Units as headings write them, and what they make of a number.

import "strings"

// Kind is what sort of thing a column measures.
type Kind string

// The kinds. SI inside: K, W, J, m³, m³/s, Pa, W/m², and 1 for shares.
const (
	Temperature Kind = "temperature"
	Power       Kind = "power"
	Energy      Kind = "energy"
	Volume      Kind = "volume"
	Flow        Kind = "flow"
	Pressure    Kind = "pressure"
	Irradiance  Kind = "irradiance"
	Share       Kind = "share" // 0 to 1: on, a valve's or a burner's position
)

// Unit turns a written number into SI: v·Factor + Offset.
type Unit struct {
	Name   string  `json:"name"`
	Kind   Kind    `json:"kind"`
	Factor float64 `json:"-"`
	Offset float64 `json:"-"`
}

const (
	btu    = 1055.05585262
	gallon = 3.785411784e-3
	foot   = 0.3048
	cubic  = foot * foot * foot
	zero   = 273.15
	lost   = "\ufffd"
)

// known are the units, each with the ways to write it in small letters and without
// blanks. The first name of each is the one that is shown.
var known = []struct {
	names          string
	kind           Kind
	factor, offset float64
}{
	{"°C c degc °c deg_c celsius ºc gradc grad_c centigrade ℃ ?c øc &deg;c", Temperature, 1, zero},
	{"°F f degf °f deg_f fahrenheit ºf ℉ ?f øf &deg;f", Temperature, 5.0 / 9, zero - 160.0/9},
	{"0.1°C 0.1°c 0,1°c 1/10°c °c·10 °c/10 °cx10 °c×10 c·10 cx10 0.1k 0.1c", Temperature, 0.1, zero},
	{"0.1°F 0.1°f 1/10°f °f·10 °f/10 °fx10 °f×10 f·10 fx10 0.1f", Temperature, 0.5 / 9, zero - 160.0/9},
	{"K kelvin k", Temperature, 1, 0},
	{"W w watt watts", Power, 1, 0},
	{"kW kw kilowatt", Power, 1e3, 0},
	{"MW mw", Power, 1e6, 0},
	{"Btu/h btu/h btuh btu/hr btu_h btu_hr", Power, btu / 3600, 0},
	{"MBH mbh kbtu/h kbtu/hr kbtuh", Power, 1e3 * btu / 3600, 0},
	{"kWh kwh kw·h", Energy, 3.6e6, 0},
	{"Wh wh", Energy, 3600, 0},
	{"MWh mwh", Energy, 3.6e9, 0},
	{"MJ mj", Energy, 1e6, 0},
	{"GJ gj", Energy, 1e9, 0},
	{"kJ kj", Energy, 1e3, 0},
	{"Btu btu", Energy, btu, 0},
	{"kBtu kbtu", Energy, 1e3 * btu, 0},
	{"MMBtu mmbtu", Energy, 1e6 * btu, 0},
	{"therm therms thm therm(us)", Energy, 1e5 * btu, 0},
	{"m³ m3 cbm m^3 kubikmeter nm3", Volume, 1, 0},
	{"L l liter litre liters litres ltr", Volume, 1e-3, 0},
	{"gal gal gallon gallons", Volume, gallon, 0},
	{"ft³ ft3 cf cuft cubicfeet ft^3", Volume, cubic, 0},
	{"ccf ccf hcf", Volume, 100 * cubic, 0},
	{"gpm gpm gal/min usgpm", Flow, gallon / 60, 0},
	{"L/min l/min lpm l/m", Flow, 1e-3 / 60, 0},
	{"L/h l/h lph l/hr", Flow, 1e-3 / 3600, 0},
	{"L/s l/s", Flow, 1e-3, 0},
	{"m³/h m3/h m^3/h cbm/h", Flow, 1.0 / 3600, 0},
	{"ft³/h cfh ft3/h cf/h", Flow, cubic / 3600, 0},
	{"bar bar", Pressure, 1e5, 0},
	{"mbar mbar hpa", Pressure, 100, 0},
	{"psi psi psig", Pressure, 6894.757293168, 0},
	{"kPa kpa", Pressure, 1e3, 0},
	{"W/m² w/m2 w/m^2 w/qm w/sqm", Irradiance, 1, 0},
	{"% % pct percent prozent", Share, 0.01, 0},
	{"0/1 0/1 on/off ein/aus bool boolean", Share, 1, 0},
}

// UnitNamed finds a unit by any of its names.
//
// Range: the units that loggers write, in capitals or not.
// Source: factors exact by definition; the Btu of the International Table.
func UnitNamed(name string) (Unit, bool) {
	if strings.Contains(name, lost) { // a sign that some program could not write
		for _, sign := range []string{"°", "³", "²"} {
			if u, ok := UnitNamed(strings.Replace(name, lost, sign, 1)); ok {
				return u, true
			}
		}
		return Unit{}, false
	}
	plain := strings.ToLower(strings.NewReplacer(" ", "", "³", "3", "²", "2", "\u00a0", "", "*", "·").Replace(name))
	if plain == "" {
		return Unit{}, false
	}
	for _, k := range known {
		all := strings.Fields(k.names)
		if all[0] == name {
			return Unit{all[0], k.kind, k.factor, k.offset}, true
		}
		for _, n := range all[1:] {
			if n == plain {
				return Unit{all[0], k.kind, k.factor, k.offset}, true
			}
		}
	}
	return Unit{}, false
}

// unitIn looks for a unit in a heading: in brackets, else its last word.
func unitIn(heading string) (Unit, bool) {
	for rest := heading; ; {
		open := strings.LastIndexAny(rest, "([{<")
		if open < 0 {
			break
		}
		if end := strings.IndexAny(rest[open:], ")]}>"); end > 1 {
			if u, ok := UnitNamed(rest[open+1 : open+end]); ok {
				return u, true
			}
		}
		rest = rest[:open]
	}
	parts := strings.FieldsFunc(heading, func(r rune) bool {
		return r == ' ' || r == '_' || r == ',' || r == ';' || r == '.' || r == '(' || r == ')' || r == '-' || r == '|'
	})
	for n := min(2, len(parts)); n > 0; n-- {
		word := strings.Join(parts[len(parts)-n:], "")
		if n == 1 && (word == "a" || word == "l" || word == "f" && len(parts) == 1) {
			continue
		}
		if u, ok := UnitNamed(word); ok && (len(parts) > n || strings.ContainsAny(word, "°%")) {
			return u, true
		}
	}
	return Unit{}, false
}
