package fluid

// What a system is filled with, and what it carries at a temperature.

import (
	"errors"
	"fmt"

	"curvewright/units"
)

// Kind is what is mixed into the water.
type Kind int

// The kinds of fill. The zero value is water alone.
const (
	PureWater Kind = iota
	PropyleneGlycol
	EthyleneGlycol
)

// String names the kind.
func (k Kind) String() string {
	if g := glycols[k]; g != nil {
		return g.name
	}
	return "water"
}

// Mixture is the fill of a system. The zero value is water.
type Mixture struct {
	Kind Kind
	Mass units.Fraction // share of glycol by mass, 0 to 0.60
}

// Water is a system filled with water alone.
func Water() Mixture { return Mixture{} }

const (
	freezing  = 273.15 // K
	waterMost = 383.15 // K, 110 °C
	mixMost   = 373.15 // K, 100 °C
	slack     = 1e-6   // K, rounding of 32 °F
)

// GlycolByMass makes a mixture from the share of glycol in the mass of the fill.
//
// Units: share of one.
// Range: 0 to 60 % by mass; zero is water.
// Source: Melinder 2010, Properties of Secondary Working Fluids for Indirect
// Systems (the range of its polynomials).
// Errors: an unknown kind, a share outside the range.
func GlycolByMass(kind Kind, share units.Fraction) (Mixture, error) {
	m := Mixture{Kind: kind, Mass: share}
	if _, err := m.glycol(); err != nil {
		return Mixture{}, err
	}
	return m, nil
}

// GlycolByVolume makes a mixture from the share of glycol in the volume poured
// together at 20 °C, as cans and refractometers give it.
//
//	x = φ·ρg / (φ·ρg + (1 − φ)·ρw)
//
// Units: share of one.
// Range: 0 to about 59 % (propylene) or 57 % (ethylene) by volume, which is 60 % by
// mass; the small loss of volume on mixing does not enter.
// Source: definition of the volume share before mixing; density of propylene glycol
// 1036.1 kg/m³ and ethylene glycol 1113.5 kg/m³ at 20 °C from memory of a chemistry
// handbook, water by IAPWS R7-97(2012).
// Errors: an unknown kind, a share outside the range.
func GlycolByVolume(kind Kind, share units.Fraction) (Mixture, error) {
	g := glycols[kind]
	if kind != PureWater && g == nil {
		return Mixture{}, fmt.Errorf("the fluid is of no known kind (%d): choose water, propylene glycol or ethylene glycol", int(kind))
	}
	if !(share >= 0 && share <= 1) {
		return Mixture{}, fmt.Errorf("the share of glycol by volume is %s: give 0%% to 100%%", share.Text(units.SI))
	}
	if g == nil || share == 0 {
		return GlycolByMass(kind, share)
	}
	v, _ := liquid(293.15, systemPressure)
	mass := share * units.Fraction(g.pureDensity)
	m, err := GlycolByMass(kind, mass/(mass+(1-share)*units.Fraction(1/v)))
	if err != nil {
		return Mixture{}, fmt.Errorf("%s by volume: %w", share.Text(units.SI), err)
	}
	return m, nil
}

// glycol gives the polynomials of a sound mixture, nil for water.
func (m Mixture) glycol() (*glycol, error) {
	g := glycols[m.Kind]
	switch {
	case m.Kind != PureWater && g == nil:
		return nil, fmt.Errorf("the fluid is of no known kind (%d): choose water, propylene glycol or ethylene glycol", int(m.Kind))
	case m.Kind == PureWater && m.Mass != 0:
		return nil, fmt.Errorf("the fluid is called water but has %s glycol by mass: name the glycol or give 0%%", m.Mass.Text(units.SI))
	case !(m.Mass >= 0 && m.Mass <= most+1e-9):
		return nil, fmt.Errorf("the share of %s is %s by mass: known from 0%% to 60%%", m.Kind, m.Mass.Text(units.SI))
	case m.Mass == 0:
		return nil, nil
	}
	return g, nil
}

// String names the mixture for a person: "propylene glycol 30% by mass".
func (m Mixture) String() string {
	if m.Kind == PureWater || m.Mass == 0 {
		return "water"
	}
	return m.Kind.String() + " " + m.Mass.Text(units.SI) + " by mass"
}

// FreezePoint gives the temperature at which the first ice crystals form.
//
//	Tf = Σ c[j]·(x − xb)^j
//
// Units: K.
// Range: 0 to 60 % glycol by mass.
// Source: Melinder 2010; water 0 °C at the pressure of the air.
// Errors: a mixture outside the range.
func (m Mixture) FreezePoint() (units.Temperature, error) {
	g, err := m.glycol()
	if err != nil {
		return 0, err
	}
	if g == nil {
		return freezing, nil
	}
	return units.Temperature(g.freezePoint(float64(m.Mass))), nil
}

// Range gives the temperatures between which the properties are known.
//
// Units: K.
// Range: water 0 °C to 110 °C; glycol from its freezing point to 100 °C.
// Source: IAPWS R7-97(2012) with the water kept at 2 bar absolute; Melinder 2010.
// Errors: a mixture outside 0 to 60 % by mass.
func (m Mixture) Range() (low, high units.Temperature, err error) {
	low, err = m.FreezePoint()
	if err != nil {
		return 0, 0, err
	}
	if m.Kind == PureWater || m.Mass == 0 {
		return low, waterMost, nil
	}
	return low, mixMost, nil
}

// known refuses a temperature outside the range and gives the polynomials, nil for
// water.
func (m Mixture) known(at units.Temperature) (*glycol, error) {
	low, high, err := m.Range()
	if err != nil {
		return nil, err
	}
	if !(at >= low-slack && at <= high+slack) {
		return nil, fmt.Errorf("%s is not known at %s: give a temperature from %s to %s", m, both(at), both(low), both(high))
	}
	return m.glycol()
}

// both prints a temperature in °C and °F, since the reader is not known here.
func both(t units.Temperature) string {
	return t.Text(units.SI) + " (" + t.Text(units.US) + ")"
}

// Density gives the mass of one volume of the fill.
//
//	water: ρ = p/(R·T·π·γπ);  glycol: ρ = ΣΣ c[i][j]·(T − Tb)^i·(x − xb)^j
//
// Units: temperature in K; kg/m³.
// Range: water 0 °C to 110 °C; glycol from its freezing point to 100 °C, to 60 % by mass.
// Source: IAPWS R7-97(2012), region 1, at 2 bar absolute; Melinder 2010.
// Errors: a temperature or mixture outside the range.
func (m Mixture) Density(at units.Temperature) (units.Density, error) {
	g, err := m.known(at)
	if err != nil {
		return 0, err
	}
	density, _ := m.caloric(g, at)
	return units.Density(density), nil
}

// SpecificHeat gives the heat that warms one mass of the fill by one degree.
//
//	water: cp = −R·τ²·γττ;  glycol: cp = ΣΣ c[i][j]·(T − Tb)^i·(x − xb)^j
//
// Units: temperature in K; J/(kg·K).
// Range: as Density.
// Source: IAPWS R7-97(2012), region 1, at 2 bar absolute; Melinder 2010.
// Errors: a temperature or mixture outside the range.
func (m Mixture) SpecificHeat(at units.Temperature) (units.SpecificHeat, error) {
	g, err := m.known(at)
	if err != nil {
		return 0, err
	}
	_, heat := m.caloric(g, at)
	return units.SpecificHeat(heat), nil
}

// caloric gives the density, kg/m³, and the specific heat, J/(kg·K).
func (m Mixture) caloric(g *glycol, at units.Temperature) (density, heat float64) {
	T, x := float64(at), float64(m.Mass)
	if g == nil {
		v, cp := liquid(T, systemPressure)
		return 1 / v, cp
	}
	return g.value(&g.density, T, x), g.value(&g.specificHeat, T, x)
}

// Viscosity gives the dynamic viscosity of the fill.
//
//	water: μ = μ0(T)·μ1(T, ρ);  glycol: ln(μ/mPa·s) = ΣΣ c[i][j]·(T − Tb)^i·(x − xb)^j
//
// Units: temperature in K; Pa·s.
// Range: as Density.
// Source: IAPWS R12-08, equations (11) and (12); Melinder 2010.
// Errors: a temperature or mixture outside the range.
func (m Mixture) Viscosity(at units.Temperature) (units.Viscosity, error) {
	g, err := m.known(at)
	if err != nil {
		return 0, err
	}
	if g == nil {
		density, _ := m.caloric(g, at)
		return units.Viscosity(waterViscosity(float64(at), density)), nil
	}
	return units.Viscosity(g.viscosity(float64(at), float64(m.Mass))), nil
}

// KinematicViscosity gives the dynamic viscosity divided by the density.
//
//	ν = μ/ρ
//
// Units: temperature in K; m²/s.
// Range: as Density.
// Source: definition; viscosity and density as above.
// Errors: a temperature or mixture outside the range.
func (m Mixture) KinematicViscosity(at units.Temperature) (units.KinematicViscosity, error) {
	viscosity, err := m.Viscosity(at)
	if err != nil {
		return 0, err
	}
	density, err := m.Density(at)
	if err != nil {
		return 0, err
	}
	return units.KinematicViscosity(float64(viscosity) / float64(density)), nil
}

// Conductivity gives the thermal conductivity of the fill.
//
//	water: λ = λ0(T)·λ1(T, ρ);  glycol: λ = ΣΣ c[i][j]·(T − Tb)^i·(x − xb)^j
//
// Units: temperature in K; W/(m·K).
// Range: as Density.
// Source: IAPWS R15-11, equations (16) and (17); Melinder 2010.
// Errors: a temperature or mixture outside the range.
func (m Mixture) Conductivity(at units.Temperature) (units.Conductivity, error) {
	g, err := m.known(at)
	if err != nil {
		return 0, err
	}
	if g == nil {
		density, _ := m.caloric(g, at)
		return units.Conductivity(waterConductivity(float64(at), density)), nil
	}
	return units.Conductivity(g.value(&g.conductivity, float64(at), float64(m.Mass))), nil
}

// HeatFactor gives the heat that one volume of the fill carries per degree: the
// "500" of the trade when printed in Btu/h per gpm and °F.
//
//	k = ρ·cp
//
// Units: temperature in K, that of the fill where its flow is measured; J/(m³·K).
// Range: as Density.
// Source: definition; density and specific heat as above.
// Errors: a temperature or mixture outside the range.
func (m Mixture) HeatFactor(at units.Temperature) (units.VolumetricHeat, error) {
	g, err := m.known(at)
	if err != nil {
		return 0, err
	}
	density, heat := m.caloric(g, at)
	return units.VolumetricHeat(density * heat), nil
}

// CapacityFlow gives the heat that a flow carries per degree.
//
//	W = ρ·cp·V̇
//
// Units: flow in m³/s; temperature in K, that of the fill where the flow is measured; W/K.
// Range: flow from zero; temperature as Density.
// Source: definition of the heat capacity of a stream.
// Errors: a negative flow, a temperature or mixture outside the range.
func (m Mixture) CapacityFlow(flow units.Flow, at units.Temperature) (units.LossCoefficient, error) {
	if !(flow >= 0 && flow < 1e6) {
		return 0, fmt.Errorf("the flow is %s (%s): give zero or more", flow.Text(units.SI), flow.Text(units.US))
	}
	k, err := m.HeatFactor(at)
	if err != nil {
		return 0, err
	}
	return units.LossCoefficient(float64(k) * float64(flow)), nil
}

// VolumeFlow gives the flow that carries a heat per degree: the reverse of
// CapacityFlow.
//
//	V̇ = W/(ρ·cp)
//
// Units: heat per degree in W/K; temperature in K, that of the fill where the flow is measured; m³/s.
// Range: heat per degree from zero; temperature as Density.
// Source: definition of the heat capacity of a stream.
// Errors: a negative heat per degree, a temperature or mixture outside the range.
func (m Mixture) VolumeFlow(capacity units.LossCoefficient, at units.Temperature) (units.Flow, error) {
	if !(capacity >= 0 && capacity < 1e12) {
		return 0, fmt.Errorf("the heat carried per degree is %s (%s): give zero or more", capacity.Text(units.SI), capacity.Text(units.US))
	}
	k, err := m.HeatFactor(at)
	if err != nil {
		return 0, err
	}
	return units.Flow(float64(capacity) / float64(k)), nil
}

// FlowFor gives the flow that carries a heat load with a drop from supply to return.
//
//	V̇ = Q/(ρ·cp·ΔT)
//
// Units: load in W; drop in K; temperature in K, that of the fill where the flow is
// measured; m³/s.
// Range: load from zero, drop above zero; temperature as Density.
// Source: heat balance of a stream.
// Errors: a negative load, a drop of zero or less, a temperature or mixture outside the range.
func (m Mixture) FlowFor(load units.Power, drop units.Difference, at units.Temperature) (units.Flow, error) {
	if !(load >= 0 && load < 1e12) {
		return 0, fmt.Errorf("the heat load is %s (%s): give zero or more", load.Text(units.SI), load.Text(units.US))
	}
	if !(drop >= smallestDrop && drop < 1e6) {
		return 0, errors.New("the drop from supply to return is " + drop.Text(units.SI) + " (" + drop.Text(units.US) +
			"): no flow carries heat without a drop, give more than zero, commonly 5 K to 20 K (10 °F to 40 °F)")
	}
	return m.VolumeFlow(units.LossCoefficient(float64(load)/float64(drop)), at)
}

// smallestDrop, K, is below what any thermometer on a pipe can tell.
const smallestDrop = 1e-3
