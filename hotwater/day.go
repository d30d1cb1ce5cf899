package hotwater

// Is the household's day of hot water met, and what does the heating lose by it? The
// draws are played minute by minute through a tank or a combi.

import (
	"cmp"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Window is a time of day in which a tank may be charged. It may run over midnight.
type Window struct{ From, To units.Time }

// TankSetup is a tank with its control, for a day without other change.
type TankSetup struct {
	Tank         Tank
	Layers       int            // 1 (mixed throughout) to 20 (hardly mixed); 0 means 10
	CoilTop      units.Fraction // height to which the coil reaches, share of the tank; 0 means 0.5
	SensorAt     units.Fraction // height of the sensor, share of the tank; 0 means 0.4
	Charge       Charge         // Boiler is the boiler's whole output
	Cold         units.Temperature
	Set          units.Temperature
	Differential units.Difference // a charge starts this much below Set
	Hours        []Window         // when it may be charged; none means the whole day
	Priority     bool             // hot water takes the whole boiler and the heating nothing
	Limit        units.Time       // after so long the heating has its turn for as long; 0 means no limit
	Heating      units.Power      // what the house takes meanwhile
}

// CombiSetup is a combi for a day without other change.
type CombiSetup struct {
	Output  units.Power // for hot water
	Least   units.Flow  // below this flow of hot water it does not fire
	Cold    units.Temperature
	Set     units.Temperature
	Heating units.Power // what the house takes meanwhile
}

// Period is a stretch of the day.
type Period struct{ From, To units.Time }

// Day is the outcome of a day of draws.
type Day struct {
	Water     units.Volume      // drawn at the taps
	Wanted    units.Energy      // above the cold water
	Delivered units.Energy      // above the cold water
	Short     units.Volume      // drawn cooler than wanted
	ShortTime units.Time        // for which a tap ran cooler than wanted
	Coolest   units.Temperature // at a tap; 0 where nothing was drawn

	Charges     []Period     // of the tank
	Supplied    units.Energy // from the boiler's water
	Lost        units.Energy // to the surroundings of the tank
	Stored      units.Energy // gained by the tank from midnight to midnight
	Interrupted units.Time   // of the heating, in all
	Longest     units.Time   // interruption in one piece
	Missed      units.Energy // heat that the house did not get in that time
}

// EnergyMissed gives the heat that the taps did not get.
//
// Range: every day.
// Source: wanted less delivered.
func (d Day) EnergyMissed() units.Energy { return max(0, d.Wanted-d.Delivered) }

const (
	mostLayers = 20
	// tapSlack keeps rounding from counting as cool water at the tap, K.
	tapSlack = 0.05
	// minute is the step of a day in seconds.
	minute = 60.0
	// usualCharges is room for the charges of a day, set aside beforehand.
	usualCharges = 48
)

func (s *TankSetup) defaults() {
	if s.Layers == 0 {
		s.Layers = 10
	}
	if s.CoilTop == 0 {
		s.CoilTop = 0.5
	}
	if s.SensorAt == 0 {
		s.SensorAt = 0.4
	}
}

func (s TankSetup) check() error {
	err := cmp.Or(
		s.Tank.check(),
		within("layers of the tank", units.Number(s.Layers), 1, mostLayers),
		within("height of the coil", s.CoilTop, 0.05, 1),
		within("height of the tank's sensor", s.SensorAt, 0.01, 1),
		checkRise(s.Cold, s.Set),
		within("differential of the tank", s.Differential, 0.5, 30),
		within("time limit of the priority", s.Limit, 0, 86400),
		within("heating load", s.Heating, 0, largestPower),
	)
	for _, w := range s.Hours {
		err = cmp.Or(err, within("charge hours", w.From, 0, 86400), within("charge hours", w.To, 0, 86400))
	}
	if err == nil && s.Set > s.Charge.Supply-1 {
		err = &refuse.Error{Subject: subject, What: "tank's target", Given: tell(s.Set), Accept: "less than the primary supply of " + tell(s.Charge.Supply) + "; common practice is 15 K (27 °F) less"}
	}
	return err
}

// TankDay plays a day of draws through a tank that is full and at its set-point at
// midnight.
//
// The tank is a stack of layers of equal volume. A draw takes from the top and lets
// cold water in below; within a layer water mixes, so that few layers mean a tank
// that mixes much. The tap mixes hot and cold to the temperature wanted. The coil
// heats the layers it stands in; a layer warmer than the one above mixes with it.
// Heat does not creep from layer to layer otherwise. Every layer loses heat alike.
//
//	per minute: V·ρ·c·ΔT = heat from the coil − heat drawn − heat lost
//
// Without priority the tank gets what the house leaves of the boiler's output.
//
// Units: as the types; ρ·c at the mean of cold water and set-point.
// Range: 1 to 20 layers, tank 1 L to 10 m³, set-point to 95 °C and at least 1 K below
// the primary supply, differential 0.5 to 30 K.
// Source: heat balance of each layer; the draws of the pattern; layers as in
// multi-node tank models of the solar heating literature.
// Errors: a figure outside the range.
func TankDay(t *Timeline, s TankSetup) (Day, error) {
	s.defaults()
	if err := s.check(); err != nil {
		return Day{}, err
	}
	charge := s.Charge
	if !s.Priority {
		charge.Boiler = max(1, charge.Boiler-s.Heating)
	}
	p, err := charge.prepare()
	if err != nil {
		return Day{}, err
	}
	day := Day{Charges: make([]Period, 0, usualCharges)}
	newTankModel(s, p).play(t, &day)
	return day, nil
}

// tankModel is a tank in the middle of its day. All figures are SI.
type tankModel struct {
	s        TankSetup
	p        prepared
	layer    [mostLayers]float64 // temperature, K, the lowest first
	n        int
	coil     int     // layers with coil
	sensor   int     // layer of the sensor
	volume   float64 // of a layer, m³
	perUnit  float64 // ρ·c, J/(m³·K)
	capacity float64 // of a layer, J/K
	taken    float64 // share of the coil's span that a minute takes
	decay    float64 // share of its excess over the room that a layer keeps for a minute
}

func newTankModel(s TankSetup, p prepared) *tankModel {
	m := &tankModel{s: s, p: p, n: s.Layers, perUnit: perVolume(s.Cold, s.Set)}
	m.coil = max(1, int(math.Round(float64(s.CoilTop)*float64(m.n))))
	m.sensor = min(m.n-1, int(float64(s.SensorAt)*float64(m.n)))
	m.volume = float64(s.Tank.Volume) / float64(m.n)
	m.capacity = m.volume * m.perUnit
	m.taken = -math.Expm1(-p.perKelvin * minute / (m.capacity * float64(m.coil)))
	m.decay = math.Exp(-float64(s.Tank.Loss) / float64(m.n) * minute / m.capacity)
	for i := range m.n {
		m.layer[i] = float64(s.Set)
	}
	return m
}

func (m *tankModel) play(t *Timeline, day *Day) {
	control := control{}
	var heating interruption
	begin := m.stored()
	for i := range minutesOfDay {
		now := units.Time(i) * minute
		charging := control.decide(&m.s, now, m.layer[m.sensor])
		if charging && !control.before {
			day.Charges = append(day.Charges, Period{From: now})
		}
		control.before = charging
		m.draw(t, i, day)
		if charging {
			day.Charges[len(day.Charges)-1].To = now + minute
			day.Supplied += units.Energy(m.heat())
		}
		if charging && m.s.Priority {
			heating.extend(minute)
		} else {
			heating.end()
		}
		day.Lost += units.Energy(m.lose())
		m.settle()
	}
	heating.end()
	day.Stored = units.Energy(m.stored() - begin)
	heating.report(day, m.s.Heating)
}

func (m *tankModel) stored() float64 {
	sum := 0.0
	for i := range m.n {
		sum += m.layer[i]
	}
	return sum * m.capacity
}

// draw lets the taps of a minute run. No step moves more than one layer.
func (m *tankModel) draw(t *Timeline, i int, day *Day) {
	cold := float64(m.s.Cold)
	volume, wanted := t.volume[i], max(cold, t.wanted[i])
	if volume == 0 {
		return
	}
	steps := math.Ceil(volume / m.volume)
	portion := volume / steps
	for range int(steps) {
		top := m.layer[m.n-1]
		hot, tap := portion, top
		if top > wanted { // and so above the cold water
			hot, tap = portion*(wanted-cold)/(top-cold), wanted
		}
		day.tap(portion, wanted, tap, cold, m.perUnit, t.open[i]*minute/steps)
		f := hot / m.volume
		for k := m.n - 1; k > 0; k-- {
			m.layer[k] += f * (m.layer[k-1] - m.layer[k])
		}
		m.layer[0] += f * (cold - m.layer[0])
	}
}

// tap books water that ran for a time.
func (d *Day) tap(volume, wanted, got, cold, perUnit, time float64) {
	d.Water += units.Volume(volume)
	d.Wanted += units.Energy(volume * perUnit * (wanted - cold))
	d.Delivered += units.Energy(volume * perUnit * (got - cold))
	if d.Coolest == 0 || got < float64(d.Coolest) {
		d.Coolest = units.Temperature(got)
	}
	if got < wanted-tapSlack {
		d.Short += units.Volume(volume)
		d.ShortTime += units.Time(time)
	}
}

// heat lets the coil work for a minute and gives the energy.
func (m *tankModel) heat() float64 {
	mean := 0.0
	for i := range m.coil {
		mean += m.layer[i]
	}
	mean /= float64(m.coil)
	span := m.p.supply - mean
	if span <= 0 {
		return 0
	}
	energy := min(m.taken*span*m.capacity*float64(m.coil), m.p.boiler*minute, m.p.pump*minute)
	for i := range m.coil {
		m.layer[i] += energy / (m.capacity * float64(m.coil))
	}
	return energy
}

func (m *tankModel) lose() float64 {
	if m.decay == 1 {
		return 0
	}
	room, lost := float64(m.s.Tank.Room), 0.0
	for i := range m.n {
		drop := (m.layer[i] - room) * (1 - m.decay)
		m.layer[i] -= drop
		lost += drop * m.capacity
	}
	return lost
}

// settle mixes what is warmer below than above: layers join from the bottom up while
// the heap below is the warmer one.
func (m *tankModel) settle() {
	var (
		heap [mostLayers]float64 // mean temperature
		size [mostLayers]int
		top  = -1
	)
	for i := range m.n {
		top++
		heap[top], size[top] = m.layer[i], 1
		for top > 0 && heap[top-1] > heap[top] {
			a, b := float64(size[top-1]), float64(size[top])
			heap[top-1] = (heap[top-1]*a + heap[top]*b) / (a + b)
			size[top-1] += size[top]
			top--
		}
	}
	at := 0
	for h := range top + 1 {
		for range size[h] {
			m.layer[at] = heap[h]
			at++
		}
	}
}

// control decides about charging.
type control struct {
	wants  bool
	before bool    // charged in the minute before
	ran    float64 // s in one piece
	rests  float64 // s still to rest
}

func (c *control) decide(s *TankSetup, now units.Time, sensor float64) bool {
	switch {
	case sensor >= float64(s.Set):
		c.wants = false
	case sensor < float64(s.Set)-float64(s.Differential):
		c.wants = true
	}
	c.wants = c.wants && allowed(s.Hours, now)
	if c.rests > 0 {
		c.rests -= minute
		return false
	}
	if !c.wants {
		c.ran = 0
		return false
	}
	if s.Priority && s.Limit > 0 && c.ran >= float64(s.Limit) {
		c.ran, c.rests = 0, float64(s.Limit)-minute
		return false
	}
	c.ran += minute
	return true
}

func allowed(hours []Window, now units.Time) bool {
	for _, w := range hours {
		inside := now >= w.From && now < w.To
		if w.From > w.To {
			inside = now >= w.From || now < w.To
		}
		if inside {
			return true
		}
	}
	return len(hours) == 0
}

// interruption adds up the time for which the heating stands still, in seconds.
type interruption struct{ run, longest, total float64 }

func (h *interruption) extend(seconds float64) { h.run += seconds }

func (h *interruption) end() {
	h.longest = max(h.longest, h.run)
	h.total += h.run
	h.run = 0
}

func (h *interruption) report(day *Day, load units.Power) {
	day.Interrupted, day.Longest = units.Time(h.total), units.Time(h.longest)
	day.Missed = units.Energy(float64(load) * h.total)
}

// CombiDay plays a day of draws through a combi. While a tap runs, the heating stands
// still. The seconds until hot water flows, and the heat left in the pipes, are left
// out.
//
//	T = min(T_wanted, T_cold + Q/(ρ·c·V̇)); cold water where the hot share of the flow
//	is below the least flow
//
// Units: as the types; ρ·c at the mean of cold water and set-point.
// Range: output 1 W to 1 MW, set-point to 95 °C and above the cold water, least flow 0
// to 300 L/min.
// Source: heat balance of a stream; the draws of the pattern.
// Errors: a figure outside the range.
func CombiDay(t *Timeline, s CombiSetup) (Day, error) {
	err := cmp.Or(
		within("combi output", s.Output, 1, largestPower),
		within("least flow of the combi", s.Least, 0, largestDraw),
		checkRise(s.Cold, s.Set),
		within("heating load", s.Heating, 0, largestPower),
	)
	if err != nil {
		return Day{}, err
	}
	var day Day
	var heating interruption
	perUnit, cold := perVolume(s.Cold, s.Set), float64(s.Cold)
	for i := range minutesOfDay {
		if t.volume[i] == 0 {
			heating.end()
			continue
		}
		open, wanted := t.open[i]*minute, max(cold, t.wanted[i])
		aim := min(wanted, float64(s.Set))
		flow := t.volume[i] / open
		hotFlow := flow * (aim - cold) / (float64(s.Set) - cold)
		tap := cold
		if hotFlow >= float64(s.Least) && aim > cold {
			tap = min(aim, cold+float64(s.Output)/(perUnit*flow))
			heating.extend(open)
		} else {
			heating.end()
		}
		before := day.Delivered
		day.tap(t.volume[i], wanted, tap, cold, perUnit, open)
		day.Supplied += day.Delivered - before
	}
	heating.end()
	heating.report(&day, s.Heating)
	return day, nil
}
