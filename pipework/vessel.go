package pipework

// How far does the water swell, which vessel takes it up, and to which pressures are gas
// and water filled?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

const gravity = 9.80665 // m/s²

// Expansion gives how much a fill swells from cold to hot, as a share of its cold volume.
// The swelling of the pipes is left out, which is on the safe side.
//
//	e = ρ(cold)/ρ(hot) − 1
//
// Units: temperatures in K; a share of one.
// Range: water 4 to 110 °C; glycol from its freezing point to 100 °C; hot above cold.
// Source: densities of package fluid.
// Errors: a temperature outside the range, hot not above cold.
func Expansion(fill fluid.Mixture, cold, hot units.Temperature) (units.Fraction, error) {
	if !(hot > cold) {
		return 0, &refuse.Error{What: "hottest temperature of the system", Given: tell(hot), Accept: "above the cold one of " + tell(cold)}
	}
	if fill.Mass == 0 {
		// Water is densest at 4 °C: from there it swells both ways.
		cold = max(cold, units.Celsius(4))
	}
	full, err := fill.Density(cold)
	if err != nil {
		return 0, fmt.Errorf("expansion, cold: %w", err)
	}
	empty, err := fill.Density(hot)
	if err != nil {
		return 0, fmt.Errorf("expansion, hot: %w", err)
	}
	return units.Fraction(math.Max(0, float64(full/empty-1))), nil
}

// StaticPressure gives the pressure of standing water.
//
//	p = ρ·g·h
//
// Units: height in m, of the highest point above the gauge; temperature in K; Pa.
// Range: height 0 to 100 m.
// Source: hydrostatics; density of package fluid.
// Errors: a figure outside the range.
func StaticPressure(fill fluid.Mixture, height units.Length, at units.Temperature) (units.Pressure, error) {
	if err := within("height of the system above the gauge", height, 0, 100); err != nil {
		return 0, err
	}
	density, err := fill.Density(at)
	if err != nil {
		return 0, err
	}
	return units.Pressure(float64(density) * gravity * float64(height)), nil
}

// FillPressure gives the cold pressure at the gauge that keeps a pressure at the highest
// point.
//
//	p = ρ·g·h + margin
//
// Units: height in m; margin in Pa; Pa, gauge.
// Range: height 0 to 100 m; margin 0 to 1 bar, usually 0.2 to 0.35 bar (3 to 5 psi) in US
// practice, 0.3 bar with EN 12828.
// Source: hydrostatics; margins: common practice and EN 12828, from memory.
// Errors: a figure outside the range.
func FillPressure(fill fluid.Mixture, height units.Length, margin units.Pressure, at units.Temperature) (units.Pressure, error) {
	if err := within("pressure kept at the highest point", margin, 0, 1e5); err != nil {
		return 0, err
	}
	static, err := StaticPressure(fill, height, at)
	if err != nil {
		return 0, err
	}
	return static + margin, nil
}

// Reserve is the rule for the water that a vessel holds cold, so that a little leakage
// does not empty it. Two readings of the rule for small vessels are in circulation, and
// the standard could not be read; the choice is therefore the caller's.
type Reserve string

// The readings. The zero value means ReserveOfVessel.
const (
	// 0.5 % of the system, at least 3 litres; a vessel under 15 litres holds 20 % of its own volume.
	ReserveOfVessel Reserve = "20 % of a vessel under 15 litres"
	// 0.5 % of the system, at least 3 litres; an expansion volume under 15 litres takes 20 % of that volume.
	ReserveOfExpansion Reserve = "20 % of an expansion under 15 litres"
)

// VesselInput is what the vessel of a system is sized from.
type VesselInput struct {
	Content units.Volume
	Fill    fluid.Mixture
	Cold    units.Temperature // when filled; 10 °C or 50 °F is usual
	Hot     units.Temperature // hottest that the whole system gets
	Static  units.Pressure    // of the height above the vessel
	Relief  units.Pressure    // setting of the relief valve, gauge
	Reserve Reserve
	Chosen  units.Volume // a vessel at hand; zero: the next usual size
}

// Vessel is a sized expansion vessel; pressures are on the gauge.
type Vessel struct {
	Share     units.Fraction // by which the water swells
	Swelling  units.Volume
	Held      units.Volume // reserve of water when cold, by the rule named
	Rule      Reserve
	Precharge units.Pressure // of the gas, no water pressure on it
	Fill      units.Pressure // least cold filling pressure with the chosen vessel
	End       units.Pressure // highest in operation
	Least     units.Volume
	Chosen    units.Volume
	Judgement []Judgement
	Cautions  []string
	Source    string
}

// usualVessels are litres in the shops, common practice.
var usualVessels = []float64{8, 12, 18, 25, 35, 50, 80, 105, 140, 200, 250, 300, 400, 500, 600, 800, 1000}

const (
	bar         = units.Pressure(1e5)
	smallVessel = 0.015 // m³
	leastHeld   = 0.003 // m³
)

// SizeVessel sizes an expansion vessel with a diaphragm.
//
//	Ve = e·Vs; p0 = max(static + 0.3, 0.7); pe = psv − 0.5 (above 5 bar: 0.9·psv)
//	F = (pe + 1)/(pe − p0); V ≥ (Ve + Vwr)·F; Vwr = max(0.5 %·Vs, 3 L), for small vessels:
//	  of the vessel:    Vwr = 0.2·V, V = Ve·F/(1 − 0.2·F), if that is under 15 L
//	  of the expansion: Vwr = 0.2·Ve, if Ve is under 15 L
//	pa ≥ V·(p0 + 1)/(V − Vwr) − 1, p in bar
//
// Units: m³, K, Pa on the gauge.
// Range: content above 0 to 10,000 m³; hot to 100 °C (no vapour pressure); static 0 to
// 5 bar; relief valve 1.5 to 10 bar.
// Source: EN 12828 annex D, from memory; both readings of the reserve, see [Reserve].
// Errors: a figure outside the range; a relief valve too low for the height.
func SizeVessel(in VesselInput) (Vessel, error) {
	if err := cmp.Or(above("water content of the system", in.Content, mostVolume), within("hottest temperature of the system", in.Hot, units.Celsius(5), units.Celsius(100)),
		within("static pressure at the vessel", in.Static, 0, 5*bar), within("setting of the relief valve", in.Relief, 1.5*bar, 10*bar), within("expansion vessel at hand", in.Chosen, 0, mostVolume)); err != nil {
		return Vessel{}, err
	}
	e, err := Expansion(in.Fill, in.Cold, in.Hot)
	if err != nil {
		return Vessel{}, err
	}
	v := Vessel{Share: e, Swelling: in.Content * units.Volume(e), Rule: in.Reserve, Source: "EN 12828 annex D, from memory"}
	v.Precharge = max(in.Static+0.3*bar, 0.7*bar)
	v.End = in.Relief - 0.5*bar
	if in.Relief > 5*bar {
		v.End = 0.9 * in.Relief
	}
	if v.End < v.Precharge+0.2*bar {
		return Vessel{}, &refuse.Error{What: "setting of the relief valve", Given: tell(in.Relief), Accept: "at least " + tell(v.Precharge+0.7*bar) + " for this height, if boiler and emitters bear it"}
	}
	factor := units.Volume((v.End + bar) / (v.End - v.Precharge))
	v.Held = max(in.Content*0.005, leastHeld)
	v.Least = (v.Swelling + v.Held) * factor
	switch in.Reserve {
	case "", ReserveOfVessel:
		v.Rule = ReserveOfVessel
		if small := v.Swelling * factor / (1 - 0.2*factor); 0.2*factor < 1 && small < smallVessel {
			v.Least, v.Held = small, 0.2*small
		}
	case ReserveOfExpansion:
		if v.Swelling < smallVessel {
			v.Held = 0.2 * v.Swelling
			v.Least = (v.Swelling + v.Held) * factor
		}
	default:
		return Vessel{}, &refuse.Error{What: "rule for the water reserve", Given: fmt.Sprintf("%q", in.Reserve), Accept: fmt.Sprintf("%q or %q", ReserveOfVessel, ReserveOfExpansion)}
	}
	if v.Chosen = in.Chosen; v.Chosen == 0 {
		v.Chosen = nextVessel(v.Least)
	}
	if v.Rule == ReserveOfVessel && v.Chosen < smallVessel && v.Held < leastHeld {
		v.Held = 0.2 * v.Chosen
	}
	v.Judgement = append(v.Judgement, Judgement{Subject: "size of the expansion vessel", Fits: v.Chosen >= v.Least*(1-1e-9), Source: v.Source,
		Text: fmt.Sprintf("a vessel of %s takes up %s of swelling with a reserve; %s would be the least", tell(v.Chosen), tell(v.Swelling), tell(v.Least))})
	if j := &v.Judgement[0]; !j.Fits {
		j.Text = fmt.Sprintf("a vessel of %s is too small: the relief valve will weep when the system is hot; take at least %s", tell(v.Chosen), tell(v.Least))
	}
	if v.Chosen > v.Held {
		v.Fill = units.Pressure(v.Chosen)*(v.Precharge+bar)/units.Pressure(v.Chosen-v.Held) - bar
	} else { // it cannot even hold the reserve
		v.Fill = v.Precharge
	}
	v.Cautions = []string{CautionRelief, CautionVessel, CautionBackflow, CautionDraining}
	if in.Fill.Mass > 0 {
		v.Cautions = append(v.Cautions, CautionGlycol)
	}
	return v, nil
}

func nextVessel(least units.Volume) units.Volume {
	for _, litres := range usualVessels {
		if units.Litres(litres) >= least {
			return units.Litres(litres)
		}
	}
	return least
}

// AcceptanceFactor gives the share of a vessel's volume that water can enter between the
// cold and the hot pressure, with the gas filled to the cold pressure.
//
//	a = 1 − (pf + pa)/(po + pa)
//
// Units: pressures in Pa, cold and hot on the gauge, atmospheric absolute; a share of one.
// Range: cold 0 to 10 bar, hot above cold to 10 bar; atmosphere 0.5 to 1.1 bar.
// Source: ASHRAE Handbook HVAC Systems and Equipment, diaphragm tank, from memory; Boyle's
// law at one temperature.
// Errors: a pressure outside the range, hot not above cold.
func AcceptanceFactor(cold, hot, atmosphere units.Pressure) (units.Fraction, error) {
	if err := cmp.Or(within("cold pressure", cold, 0, 10*bar), within("atmospheric pressure", atmosphere, 0.5*bar, 1.1*bar)); err != nil {
		return 0, err
	}
	if !(hot > cold && hot <= 10*bar) {
		return 0, &refuse.Error{What: "hot pressure", Given: tell(hot), Accept: "above the cold one of " + tell(cold) + ", to " + tell(10*bar)}
	}
	return units.Fraction(1 - (cold+atmosphere)/(hot+atmosphere)), nil
}

// VesselByAcceptance gives the least vessel whose acceptance takes the swelling, without
// a reserve.
//
//	V = Ve/a
//
// Units: m³; share of one, from [AcceptanceFactor].
// Range: swelling from 0; factor 0.02 to 0.9.
// Source: ASHRAE Handbook HVAC Systems and Equipment, diaphragm tank, from memory. An
// installation sheet's V = e·C/(1 − Pi/Pf) is the same.
// Errors: a figure outside the range.
func VesselByAcceptance(swelling units.Volume, factor units.Fraction) (units.Volume, error) {
	if err := cmp.Or(within("swelling of the water", swelling, 0, mostVolume), within("acceptance factor of the vessel", factor, 0.02, 0.9)); err != nil {
		return 0, err
	}
	return swelling / units.Volume(factor), nil
}
