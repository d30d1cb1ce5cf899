package followup

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Weekly gas (thousands of cubic feet) against outdoor temperature (°C) in one house of
// south-east England before its walls were filled.
var (
	whitesideTemp = []float64{-0.8, -0.7, 0.4, 2.5, 2.9, 3.2, 3.6, 3.9, 4.2, 4.3, 5.4, 6, 6, 6, 6.2, 6.3, 6.9, 7, 7.4, 7.5, 7.5, 7.6, 8, 8.5, 9.1, 10.2}
	whitesideGas  = []float64{7.2, 6.9, 6.4, 6, 5.8, 5.8, 5.6, 4.7, 5.8, 5.2, 4.9, 4.9, 4.3, 4.4, 4.5, 4.6, 3.7, 3.9, 4.2, 4, 3.9, 3.5, 4, 3.6, 3.1, 2.6}
)

func TestSignatureOfAPublishedHouse(t *testing.T) {
	f, err := Regress(whitesideGas, [][]float64{whitesideTemp}, false)
	if err != nil {
		t.Fatal(err)
	}
	const source = "Hand et al. 1993, p. 69; regression in Venables and Ripley 2002"
	for _, c := range []struct {
		what               string
		ours, want, within float64
	}{
		{"constant", f.Coefficients[0], 6.8538, 5e-5},
		{"slope", f.Coefficients[1], -0.3932, 5e-5},
	} {
		if math.Abs(c.ours-c.want) > c.within {
			t.Errorf("%s: %.5f, want %.4f (%s)", c.what, c.ours, c.want, source)
		}
	}
	// The published errors (0.1184, 0.0196) are those of independent weeks; ours may
	// only be wider.
	if f.Errors[0] < 0.1184-5e-5 || f.Errors[1] < 0.0196-5e-5 {
		t.Errorf("errors %.4f, %.4f are narrower than those of independent weeks", f.Errors[0], f.Errors[1])
	}
}

// CV(RMSE) and NMBE of ASHRAE Guideline 14 with n − p in the denominator. The published
// error of the slope is s/√Σ(x − mean)², so that s, the root mean square error, follows
// from it without our regression.
func TestGuideline14OfAPublishedHouse(t *testing.T) {
	f, err := Regress(whitesideGas, [][]float64{whitesideTemp}, false)
	if err != nil {
		t.Fatal(err)
	}
	mean, sum := average(whitesideTemp), 0.0
	for _, x := range whitesideTemp {
		sum += (x - mean) * (x - mean)
	}
	want := 0.0196 * math.Sqrt(sum) / average(whitesideGas)
	if math.Abs(f.CVRMSE/want-1) > 0.003 {
		t.Errorf("CV(RMSE) %.4f, want %.4f (error of the slope in Venables and Ripley 2002)", f.CVRMSE, want)
	}
	if math.Abs(f.NMBE) > 1e-9 {
		t.Errorf("NMBE %g of a least-squares line", f.NMBE)
	}
}

// Steam of a factory, pounds a month, against the month's mean outdoor temperature, °F.
// Data: Draper and Smith, Applied Regression Analysis, 1966, appendix A, as public data
// sets repeat them. Line, mean square of what is left and share explained as the book's
// first chapter prints them, from memory.
var (
	steamTemp = []float64{35.3, 29.7, 30.8, 58.8, 61.4, 71.3, 74.4, 76.7, 70.7, 57.5, 46.4, 28.9, 28.1, 39.1, 46.8, 48.5, 59.3, 70, 70, 74.5, 72.1, 58.1, 44.6, 33.4, 28.6}
	steamUsed = []float64{10.98, 11.13, 12.51, 8.4, 9.27, 8.73, 6.36, 8.5, 7.82, 9.14, 8.24, 12.19, 11.88, 9.57, 10.94, 9.58, 10.09, 8.11, 6.83, 8.88, 7.68, 8.47, 8.86, 10.36, 11.08}
)

func TestSignatureOfAPublishedFactory(t *testing.T) {
	f, err := Regress(steamUsed, [][]float64{steamTemp}, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what               string
		ours, want, within float64
	}{
		{"constant", f.Coefficients[0], 13.623, 5e-4},
		{"slope", f.Coefficients[1], -0.0798, 5e-5},
		{"mean square of what is left", f.Scale * f.Scale, 0.7923, 5e-5},
		{"share explained", f.RSquared, 0.7144, 5e-5},
		{"mean", average(steamUsed), 9.424, 5e-4},
		{"CV(RMSE) by Guideline 14 of the printed figures", f.CVRMSE, math.Sqrt(0.7923) / 9.424, 1e-5},
		{"NMBE", f.NMBE, 0, 1e-9},
	} {
		if math.Abs(c.ours-c.want) > c.within {
			t.Errorf("%s: %.5f, want %.5f (Draper and Smith 1966)", c.what, c.ours, c.want)
		}
	}
}

// Intervals of a slope hold the truth in nine cases of ten though errors and regressor
// both follow themselves.
func TestIntervalsHoldForReadingsThatFollowEachOther(t *testing.T) {
	for _, rho := range []float64{0, 0.4, 0.6} {
		rng := rand.New(rand.NewPCG(7, 1))
		hits, n := 0, 600
		for range n {
			x, y := make([]float64, 28), make([]float64, 28)
			w, e := rng.NormFloat64(), rng.NormFloat64()/math.Sqrt(1-rho*rho)
			for i := range x {
				w, e = 0.6*w+rng.NormFloat64(), rho*e+rng.NormFloat64()
				x[i], y[i] = w, 3+2*w+e
			}
			f, err := Regress(y, [][]float64{x}, true)
			if err != nil {
				t.Fatal(err)
			}
			if low, high := f.Interval(1); low <= 2 && 2 <= high {
				hits++
			}
		}
		if share := float64(hits) / float64(n); share < 0.85 || share > 0.97 {
			t.Errorf("correlation %.1f: %.1f %% of the intervals hold the truth", rho, 100*share)
		}
	}
}
