package fluid

// What is known of liquid water: the equations of the International Association for
// the Properties of Water and Steam, of which every steam table in use is a print.

import (
	"errors"
	"fmt"
	"math"

	"curvewright/units"
)

// systemPressure is the absolute pressure, Pa, at which the water of a heating
// system is taken. It keeps water liquid up to 120 °C.
const systemPressure = 0.2e6

// term is one n · (7.1 − π)^I · (τ − 1.222)^J of the Gibbs free energy.
type term struct {
	i, j int
	n    float64
}

// region1 is IAPWS R7-97(2012), Table 2.
var region1 = [34]term{
	{0, -2, 0.14632971213167}, {0, -1, -0.84548187169114}, {0, 0, -3.7563603672040},
	{0, 1, 3.3855169168385}, {0, 2, -0.95791963387872}, {0, 3, 0.15772038513228},
	{0, 4, -0.16616417199501e-1}, {0, 5, 0.81214629983568e-3},
	{1, -9, 0.28319080123804e-3}, {1, -7, -0.60706301565874e-3}, {1, -1, -0.18990068218419e-1},
	{1, 0, -0.32529748770505e-1}, {1, 1, -0.21841717175414e-1}, {1, 3, -0.52838357969930e-4},
	{2, -3, -0.47184321073267e-3}, {2, 0, -0.30001780793026e-3}, {2, 1, 0.47661393906987e-4},
	{2, 3, -0.44141845330846e-5}, {2, 17, -0.72694996297594e-15},
	{3, -4, -0.31679644845054e-4}, {3, 0, -0.28270797985312e-5}, {3, 6, -0.85205128120103e-9},
	{4, -5, -0.22425281908000e-5}, {4, -2, -0.65171222895601e-6}, {4, 10, -0.14341729937924e-12},
	{5, -8, -0.40516996860117e-6}, {8, -11, -0.12734301741641e-8}, {8, -6, -0.17424871230634e-9},
	{21, -29, -0.68762131295531e-18}, {23, -31, 0.14478307828521e-19}, {29, -38, 0.26335781662795e-22},
	{30, -39, -0.11947622640071e-22}, {31, -40, 0.18228094581404e-23}, {32, -41, -0.93537087292458e-25},
}

// gasConstant of water, J/(kg·K): IAPWS R7-97(2012), equation (1).
const gasConstant = 461.526

// liquid gives the specific volume, m³/kg, and the specific heat, J/(kg·K), of
// liquid water at T kelvin and p pascal:
//
//	v  = (R·T/p) · π · γπ
//	cp = −R · τ² · γττ        π = p/16.53 MPa, τ = 1386 K/T
func liquid(T, p float64) (v, cp float64) {
	pi, tau := p/16.53e6, 1386/T
	a, b := 7.1-pi, tau-1.222
	var gammaPi, gammaTauTau float64
	for _, t := range region1 {
		bj := power(b, t.j-2)
		gammaTauTau += t.n * power(a, t.i) * float64(t.j*(t.j-1)) * bj
		if t.i > 0 {
			gammaPi -= t.n * float64(t.i) * power(a, t.i-1) * bj * b * b
		}
	}
	return gasConstant * T / p * pi * gammaPi, -gasConstant * tau * tau * gammaTauTau
}

// power raises x to a whole power by squaring; the general power of the math
// package costs ten times as much, and the year of a house asks often.
func power(x float64, n int) float64 {
	if n < 0 {
		x, n = 1/x, -n
	}
	y := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			y *= x
		}
		x *= x
	}
	return y
}

// saturation is IAPWS R7-97(2012), Table 34.
var saturation = [10]float64{
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
}

// SaturationPressure gives the absolute pressure at which water of a temperature
// boils, which is also the pressure of its vapour at the dew point.
//
//	ϑ = T + n9/(T − n10); A, B, C quadratic in ϑ; p = (2C/(−B + √(B² − 4AC)))⁴ MPa
//
// Units: temperature in K; pressure in Pa, absolute, not on the gauge.
// Range: 0 °C to 373.9 °C (the critical point).
// Source: IAPWS R7-97(2012), region 4, equation (30).
// Errors: a temperature outside the range.
func SaturationPressure(at units.Temperature) (units.Pressure, error) {
	T := float64(at)
	if !(T >= freezing-slack && T <= 647.096) {
		return 0, fmt.Errorf("water has no boiling pressure at %s: give a temperature from 0 °C (32 °F) to 373.9 °C (705 °F)", both(at))
	}
	n := &saturation
	theta := T + n[8]/(T-n[9])
	a := theta*theta + n[0]*theta + n[1]
	b := n[2]*theta*theta + n[3]*theta + n[4]
	c := n[5]*theta*theta + n[6]*theta + n[7]
	return units.Pressure(1e6 * power(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4)), nil
}

// SaturationTemperature gives the temperature at which water boils under an
// absolute pressure: the reverse of SaturationPressure.
//
//	β = p^¼; D = 2G/(−F − √(F² − 4EG)); T = (n10 + D − √((n10 + D)² − 4(n9 + n10·D)))/2
//
// Units: pressure in Pa, absolute; temperature in K.
// Range: 611.2 Pa (0 °C) to 22.06 MPa (the critical point).
// Source: IAPWS R7-97(2012), region 4, equation (31).
// Errors: a pressure outside the range.
func SaturationTemperature(at units.Pressure) (units.Temperature, error) {
	if !(at >= 611.2 && at <= 22.064e6) {
		return 0, errors.New("water does not boil at the pressure given (" + at.Text(units.SI) +
			", " + at.Text(units.US) + ", absolute): give 0.0061 bar to 220 bar absolute")
	}
	n := &saturation
	beta := math.Pow(float64(at)/1e6, 0.25)
	e := beta*beta + n[2]*beta + n[5]
	f := n[0]*beta*beta + n[3]*beta + n[6]
	g := n[1]*beta*beta + n[4]*beta + n[7]
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return units.Temperature((n[9] + d - math.Sqrt((n[9]+d)*(n[9]+d)-4*(n[8]+n[9]*d))) / 2), nil
}

// The viscosity and the conductivity of water share a form: a thin-gas part in the
// temperature times an exponential in density and temperature. Both are used without
// the enhancement near the critical point, which is nil in a heating system.
const (
	criticalTemperature = 647.096 // K
	criticalDensity     = 322.0   // kg/m³
)

// viscosityGas and viscosityLiquid are IAPWS R12-08, Tables 1 and 2; the row is the
// power of (1/T̄ − 1), the column that of (ρ̄ − 1).
var (
	viscosityGas    = [4]float64{1.67752, 2.20462, 0.6366564, -0.241605}
	viscosityLiquid = [6][7]float64{
		{0.520094, 0.222531, -0.281378, 0.161913, -0.0325372, 0, 0},
		{0.0850895, 0.999115, -0.906851, 0.257399, 0, 0, 0},
		{-1.08374, 1.88797, -0.772479, 0, 0, 0, 0},
		{-0.289555, 1.26613, -0.489837, 0, 0.0698452, 0, -0.00435673},
		{0, 0, -0.257040, 0, 0, 0.00872102, 0},
		{0, 0.120573, 0, 0, 0, 0, -0.000593264},
	}
)

// waterViscosity gives the dynamic viscosity, Pa·s, at T kelvin and a density in
// kg/m³: μ = 100·√T̄/Σ(Hi/T̄^i) · exp(ρ̄·ΣΣ Hij·(1/T̄ − 1)^i·(ρ̄ − 1)^j) µPa·s.
func waterViscosity(T, density float64) float64 {
	t, rho := T/criticalTemperature, density/criticalDensity
	sum := 0.0
	for i := range viscosityLiquid {
		sum += power(1/t-1, i) * polynomial(viscosityLiquid[i][:], rho-1)
	}
	return 1e-6 * 100 * math.Sqrt(t) / polynomial(viscosityGas[:], 1/t) * math.Exp(rho*sum)
}

// conductivityGas and conductivityLiquid are IAPWS R15-11, Tables 1 and 2.
var (
	conductivityGas    = [5]float64{2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4}
	conductivityLiquid = [5][6]float64{
		{1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
		{2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
		{2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
		{-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
		{-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
	}
)

// waterConductivity gives the thermal conductivity, W/(m·K), at T kelvin and a
// density in kg/m³: λ = √T̄/Σ(Li/T̄^i) · exp(ρ̄·ΣΣ Lij·(1/T̄ − 1)^i·(ρ̄ − 1)^j) mW/(m·K).
func waterConductivity(T, density float64) float64 {
	t, rho := T/criticalTemperature, density/criticalDensity
	sum := 0.0
	for i := range conductivityLiquid {
		sum += power(1/t-1, i) * polynomial(conductivityLiquid[i][:], rho-1)
	}
	return 1e-3 * math.Sqrt(t) / polynomial(conductivityGas[:], 1/t) * math.Exp(rho*sum)
}

// polynomial gives Σ c[k]·x^k.
func polynomial(c []float64, x float64) float64 {
	sum := 0.0
	for k := len(c) - 1; k >= 0; k-- {
		sum = sum*x + c[k]
	}
	return sum
}
