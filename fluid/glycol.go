package fluid

// What is known of glycol in water: polynomials in temperature and mass fraction
// fitted to collected measurements.

import "math"

// glycol is one kind's set of polynomials. Each property is
//
//	ΣΣ c[i][j] · (T − baseTemperature)^i · (x − baseFraction)^j
//
// with T in kelvin and x the mass fraction; the viscosity table gives the natural
// logarithm of the viscosity in mPa·s.
type glycol struct {
	name            string
	baseTemperature float64 // K
	baseFraction    float64
	pureDensity     float64 // kg/m³ at 20 °C, undiluted
	freeze          [6]float64
	density         [4][6]float64
	specificHeat    [4][6]float64
	conductivity    [4][6]float64
	logViscosity    [4][6]float64
}

// most is the largest mass fraction that the polynomials were fitted to.
const most = 0.60

// glycols holds the sets of Å. Melinder, Properties of Secondary Working Fluids for
// Indirect Systems, International Institute of Refrigeration, 2010. The densities
// undiluted are those of a chemistry handbook, from memory. Of the ethylene glycol
// viscosity two of the coefficients circulate with either sign; those here are the
// ones that meet the viscosity of water where the glycol ends (0.473 mPa·s at 60 °C
// for the 0.466 of water; the other signs give 0.439).
var glycols = map[Kind]*glycol{
	PropyleneGlycol: {
		name: "propylene glycol", baseTemperature: 305.8583, baseFraction: 0.307031, pureDensity: 1036.1,
		freeze: [6]float64{259.9, -66.31, -109.4, -228.3, -340.9, 146.5},
		density: [4][6]float64{
			{1018, 76.04, -24.98, -155, -113.1, 234.2},
			{-0.5406, -0.945, 0.27, 2.829, -2.221},
			{-2.666e-3, 5.541e-3, -4.018e-3, -7.175e-3},
			{1.347e-5, -1.343e-5, 3.376e-5},
		},
		specificHeat: [4][6]float64{
			{3882, -1304, -1598, 353.9, 5000, -4959},
			{2.699, 5.07, 0.9534, 31.02, -71.35},
			{-1.659e-3, -4.752e-3, 0.1167, -0.295},
			{-1.032e-5, 1.522e-4, -4.87e-4},
		},
		conductivity: [4][6]float64{
			{0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104},
			{7.955e-4, -1.678e-3, 1.563e-3, -2.518e-3, -3.605e-3},
			{3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5},
			{-5.966e-9, 1.493e-8, 9.897e-8},
		},
		logViscosity: [4][6]float64{
			{0.6837, 3.328, 0.5453, -3.9, -1.587, 35.64},
			{-3.045e-2, -3.984e-2, -8.6e-4, 0.1054, 4.475e-2},
			{2.525e-4, 4.332e-4, -1.593e-4, -1.589e-3},
			{-1.399e-6, -1.86e-6, -4.465e-7},
		},
	},
	EthyleneGlycol: {
		name: "ethylene glycol", baseTemperature: 304.878, baseFraction: 0.308462, pureDensity: 1113.5,
		freeze: [6]float64{257.9, -80.8, -133.4, -72.93, 100.6, 11.4},
		density: [4][6]float64{
			{1034, 131.1, 0.749, -106.2, -96.23, 489.1},
			{-0.4781, -0.6876, 0.7855, 1.229, -7.211},
			{-2.692e-3, 4.805e-3, -3.995e-3, -1.153e-2},
			{4.725e-6, 1.69e-6, 4.982e-5},
		},
		specificHeat: [4][6]float64{
			{3737, -1799, -993.3, 2610, 1537, -16180},
			{2.93, 10.46, 3.516, -1.189, -42.72},
			{-4.675e-3, -4.147e-2, 5.109e-2, -0.1643},
			{-1.389e-5, 1.847e-5, -7.138e-4},
		},
		conductivity: [4][6]float64{
			{0.472, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678},
			{8.903e-4, -1.473e-3, 6.814e-4, -2.412e-3, 2.555e-3},
			{-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5},
			{-2.789e-9, -1.142e-8, 2.365e-8},
		},
		logViscosity: [4][6]float64{
			{0.4705, 2.471, 3.328e-2, 1.659, 3.089, -18.65},
			{-2.55e-2, -1.171e-2, 1.086e-2, 3.157e-3, 1.831e-2},
			{1.782e-4, 1.052e-4, 1.051e-4, 4.063e-4},
			{-7.669e-7, -1.634e-6, -6.475e-6},
		},
	},
}

func (g *glycol) value(c *[4][6]float64, T, x float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*(T-g.baseTemperature) + polynomial(c[i][:], x-g.baseFraction)
	}
	return sum
}

// viscosity gives Pa·s.
func (g *glycol) viscosity(T, x float64) float64 {
	return 1e-3 * math.Exp(g.value(&g.logViscosity, T, x))
}

// freezePoint gives kelvin.
func (g *glycol) freezePoint(x float64) float64 {
	return polynomial(g.freeze[:], x-g.baseFraction)
}
