package followup

// One and two heat stores, forecast from hour to hour.

import "math"

// two is a 2×2 matrix, row by row.
type two [4]float64

func (a two) times(b two) two {
	return two{a[0]*b[0] + a[1]*b[2], a[0]*b[1] + a[1]*b[3], a[2]*b[0] + a[3]*b[2], a[2]*b[1] + a[3]*b[3]}
}

func (a two) turned() two { return two{a[0], a[2], a[1], a[3]} }

// dynamics is a model written for steps of an hour:
//
//	x' = F·x + G·(To, heat into the air)
type dynamics struct {
	f         two
	out       [2]float64
	heat      [2]float64
	noise     two
	read      float64 // variance of a reading
	gain      float64 // W
	awake     float64 // W, more by day
	sun       float64 // m²
	sunOnMass float64
	mass      [2]float64 // what heat that falls on the mass adds
	one       bool
	lag       float64 // share of the last hour's heat that the emitters still give in this one
}

// rates gives the matrix of the change per second, and what outdoors and heat add.
func rates(order int, x []float64) (a two, out, heat [2]float64) {
	loss, store := math.Exp(x[pLoss]), math.Exp(x[pStore])
	heat[0] = 1 / store
	if order == 0 {
		return two{-loss / store, 0, 0, 0}, [2]float64{loss / store, 0}, heat
	}
	mass, link := math.Exp(x[pMass]), math.Exp(x[pLink])
	if order == 1 {
		return two{-(loss + link) / store, link / store, link / mass, -link / mass}, [2]float64{loss / store, 0}, heat
	}
	// Through the mass: the whole conductance is that of both links in series.
	outer := 1 / math.Max(1e-9, 1/loss-1/link)
	return two{-link / store, link / store, link / mass, -(link + outer) / mass}, [2]float64{0, outer / mass}, heat
}

// timeConstant is the time in which the rooms of a model that was heated evenly for long
// cool by 1 − 1/e of the way to outdoors, s. Of one store it is C/H.
func timeConstant(order int, x []float64) float64 {
	a, _, _ := rates(order, x)
	if order == 0 {
		return -1 / a[0]
	}
	// The rates of both modes, and what each has of the rooms' excess over outdoors: the
	// mass is as warm as the air, or on the way to outdoors.
	trace, det := a[0]+a[3], a[0]*a[3]-a[1]*a[2]
	root := math.Sqrt(math.Max(1e-30, trace*trace-4*det))
	slow, fast := (trace+root)/2, (trace-root)/2
	mass := 1.0
	if order == 2 {
		mass = 1 - math.Exp(x[pLoss]-x[pLink])
	}
	begin := a[0] + a[1]*mass // the rooms' change at first
	ofSlow := (begin - fast) / (slow - fast)
	left := func(t float64) float64 { return ofSlow*math.Exp(slow*t) + (1-ofSlow)*math.Exp(fast*t) }
	low, high := 0.0, -20/slow
	for range 80 {
		if mid := (low + high) / 2; left(mid) > 1/math.E {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

const (
	substeps   = 60  // of an hour
	sunOnMass  = 0.7 // share of the sun that falls on floors and walls first, own choice
	heatOnMass = 0.3 // share of the heat that radiates there, of radiators: common practice
)

// newDynamics carries the rates through an hour in a minute's steps of the fourth order.
func newDynamics(order int, x []float64, sun bool) (dynamics, bool) {
	a, out, heat := rates(order, x)
	if order == 2 && x[pLoss] >= x[pLink]-0.01 {
		return dynamics{}, false // more through both links than through one of them
	}
	const dt = float64(hour) / substeps
	if -(a[0]+a[3])*dt > 2 {
		return dynamics{}, false // faster than a minute: no house
	}
	// One step: the sums of the exponential series up to the fourth power.
	step, integral := two{1, 0, 0, 1}, two{dt, 0, 0, dt}
	power := two{1, 0, 0, 1}
	factor := 1.0
	for n := 1; n <= 4; n++ {
		power = power.times(a)
		factor *= dt / float64(n)
		for i := range step {
			step[i] += power[i] * factor
			integral[i] += power[i] * factor * dt / float64(n+1)
		}
	}
	d := dynamics{f: two{1, 0, 0, 1}, one: order == 0}
	s := math.Exp(2*x[pNoise]) / hour // variance per second
	spectral := two{s, 0, 0, s / 4}
	if d.one {
		spectral[3] = 0
	}
	for range substeps {
		carried := func(v [2]float64, in [2]float64) [2]float64 {
			return [2]float64{step[0]*v[0] + step[1]*v[1] + integral[0]*in[0] + integral[1]*in[1], step[2]*v[0] + step[3]*v[1] + integral[2]*in[0] + integral[3]*in[1]}
		}
		d.out, d.heat = carried(d.out, out), carried(d.heat, heat)
		if order > 0 {
			d.mass = carried(d.mass, [2]float64{0, 1 / math.Exp(x[pMass])})
		}
		d.noise = step.times(d.noise).times(step.turned())
		for i := range d.noise {
			d.noise[i] += spectral[i] * dt
		}
		d.f = step.times(d.f)
	}
	d.read = math.Exp(2 * x[pRead])
	d.gain, d.awake = 1000*x[pGain], 1000*x[pAwake]
	d.lag = math.Exp(-hour / math.Exp(x[pLag]))
	if sun {
		d.sun = math.Exp(x[len(x)-1])
		if order > 0 {
			d.sunOnMass = sunOnMass
		}
	}
	return d, true
}

// likelihood forecasts every hour's room from the hours before, and adds up how likely
// the errors are. Means of an hour are taken as values at its end: the shift is the same
// for rooms and inputs.
func likelihood(d *thermalData, order int, x []float64, keep bool) (sum float64, standard, raw []float64) {
	for i, v := range x {
		if math.IsNaN(v) || i != pGain && i != pAwake && (v < -9 || v > 25) || (i == pGain || i == pAwake) && math.Abs(v) > 10 {
			return math.Inf(-1), nil, nil
		}
	}
	m, ok := newDynamics(order, x, d.sun != nil)
	if !ok {
		return math.Inf(-1), nil, nil
	}
	var state [2]float64
	p := two{}
	lost := true
	given := 0.0 // by the emitters
	for i := range d.at {
		if lost {
			if math.IsNaN(d.room[i]) || math.IsNaN(d.heat[i]) {
				continue
			}
			state = [2]float64{d.room[i], d.room[i]}
			if order == 2 {
				share := math.Exp(x[pLoss] - x[pLink]) // of the whole difference, between room and mass
				state[1] = d.room[i] - share*(d.room[i]-d.out[i])
			}
			p = two{1, 0, 0, 4}
			lost, given = false, d.heat[i]
			continue
		}
		if math.IsNaN(d.heat[i]) {
			lost = true
			continue
		}
		given = m.lag*given + (1-m.lag)*d.heat[i]
		q, onMass := given+m.gain, 0.0
		if h := d.at[i] / hour % 24; h >= 6 && h < 22 {
			q += m.awake
		}
		if d.sun != nil {
			sun := m.sun * d.sun[i]
			q += (1 - m.sunOnMass) * sun
			onMass = m.sunOnMass * sun
		}
		if order > 0 {
			onMass += heatOnMass * given
			q -= heatOnMass * given
		}
		state = [2]float64{
			m.f[0]*state[0] + m.f[1]*state[1] + m.out[0]*d.out[i] + m.heat[0]*q + m.mass[0]*onMass,
			m.f[2]*state[0] + m.f[3]*state[1] + m.out[1]*d.out[i] + m.heat[1]*q + m.mass[1]*onMass,
		}
		p = m.f.times(p).times(m.f.turned())
		for k := range p {
			p[k] += m.noise[k]
		}
		if m.one {
			p[1], p[2], p[3], state[1] = 0, 0, 0, 0
		}
		if math.IsNaN(d.room[i]) {
			continue
		}
		variance := p[0] + m.read
		e := d.room[i] - state[0]
		// A wild hour, a window or a door, counts as one of four standard deviations.
		z := e * e / variance
		if z > 16 {
			z = 16 + math.Log(z/16)
		}
		sum -= 0.5 * (math.Log(2*math.Pi*variance) + z)
		if keep {
			standard, raw = append(standard, math.Max(-4, math.Min(4, e/math.Sqrt(variance)))), append(raw, e)
		}
		k0, k1 := p[0]/variance, p[2]/variance
		state[0] += k0 * e
		state[1] += k1 * e
		p = two{p[0] - k0*p[0], p[1] - k0*p[1], p[2] - k1*p[0], p[3] - k1*p[1]}
	}
	if math.IsNaN(sum) {
		return math.Inf(-1), nil, nil
	}
	return sum, standard, raw
}
