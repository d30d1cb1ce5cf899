package year

// How is a whole year played, and several side by side?

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"sync"

	"curvewright/refuse"
	"curvewright/units"
)

// Options say how a year is played. The zero value is right for most.
type Options struct {
	Step   units.Time       // 60 s or a whole part of it; 0 means 60 s
	WarmUp units.Time       // the end of the weather is played ahead for so long, in whole days; 0 means 10 days, below 0 none
	Monday int              // day of the week of the first of January, 0 for a Monday
	Band   units.Difference // about the set-point before a room counts as cold or warm; 0 means 0.5 K
	Trace  *Trace           // to be filled, if not nil
	// Wanted is what the household asks for through the week. Rooms are then judged by it
	// and not by the program of their circuit, so that a program that warms too late shows.
	Wanted []Switch
}

const (
	usualWarmUp = 10 * 24 // h
	usualBand   = 0.5     // K
	hour        = 3600.0
	dayHours    = 24
	lookEvery   = 5   // minutes, between two looks of the control; a whole part of an hour
	traceEvery  = 5   // minutes, of the worst day
	judgeEvery  = 5   // minutes, between two judgements of the rooms
	traceADay   = 288 // rows

	heatingWeather = zeroCelsius + 16 // a day's mean, whatever the control's cut-off (own choice)
)

func (o Options) check() error {
	if o.Step != 0 {
		parts := minute / float64(o.Step)
		if !(parts >= 1 && parts <= 60 && math.Abs(parts-math.Round(parts)) < 1e-9) {
			return fmt.Errorf("step: %s given; accepted: a minute or a whole part of it, down to one second", refuse.Both(o.Step))
		}
	}
	if o.Monday < 0 || o.Monday > 6 {
		return fmt.Errorf("weekday of the first of January: %d given; accepted: 0 (Monday) to 6", o.Monday)
	}
	if t := o.Trace; t != nil && !(t.Every >= 60 && math.Mod(float64(t.Every), 60) == 0) {
		return fmt.Errorf("trace: a row every %s given; accepted: whole minutes", refuse.Both(t.Every))
	}
	if err := checkWeek(o.Wanted); err != nil {
		return fmt.Errorf("what the household wants: %w", err)
	}
	return cmp.Or(refuse.Within("band about the set-point", o.Band, 0, 5), refuse.Within("warm-up", o.WarmUp, -units.Hours(8784), units.Hours(8784)))
}

// Run plays a house and its plant under settings through a weather.
//
//	C·ΔT = Δt·ΣQ for every node, Q from the temperatures at the beginning of the step
//
// The rooms begin at their set-points with their fabric settled, and the end of the
// weather is played once ahead, unbooked.
//
// Units: as the types; the results in J, s, K.
// Range: what the checks of house, plant, settings and weather accept; steps to a
// minute, cut shorter where a node would go more than half its way in one.
// Source: heat balance of each node, explicit steps; radiators by the characteristic
// equation of EN 442-2 at their logarithmic mean excess; [boiler.Model] for the fuel.
// Accuracy: heat is conserved to rounding; half the step moves the fuel by less than
// 1 % and no room by more than 0.1 K (tests).
// Errors: what is wrong, where, and what would be accepted.
func Run(h House, p Plant, s Settings, w Weather, o Options) (Result, error) {
	return run(h, p, s, w, o, nil)
}

func check(h House, p Plant, s Settings, w Weather, o Options) error {
	return cmp.Or(w.Check(), h.check(len(w.Sun)), p.check(len(h.Rooms)), s.check(p, len(h.Rooms)), o.check())
}

// errStopped tells Compare of a run that was stopped; no caller sees it.
var errStopped = errors.New("stopped")

func run(h House, p Plant, s Settings, w Weather, o Options, stop func() bool) (Result, error) {
	if err := check(h, p, s, w, o); err != nil {
		return Result{}, err
	}
	if o.Step == 0 {
		o.Step = minute
	}
	if o.Band == 0 {
		o.Band = usualBand
	}
	m, err := newModel(h, p, s, float64(o.Step))
	if err != nil {
		return Result{}, err
	}
	t := newTape(m, h, p, w, o)
	warmUp := usualWarmUp
	if o.WarmUp != 0 {
		warmUp = max(0, int(math.Round(float64(o.WarmUp)/86400))*dayHours)
	}
	m.settleAt(w.Outdoor[0] + zeroCelsius)
	m.restart()
	for i := -warmUp; i < 0; i++ {
		t.playHour(i, false)
	}
	m.restart()
	begin := m.stored()
	for i := range w.hours() {
		if i%dayHours == 0 && stop != nil && stop() {
			return Result{}, errStopped
		}
		t.playHour(i, true)
	}
	return t.result(h, p, s, begin), nil
}

// tape is the weather on which a model is played, and what is written down by day.
type tape struct {
	m         *model
	w         Weather
	band      float64
	monday    int
	perMinute int
	wanted    weekly
	outdoor   float64 // of the moment
	mean      float64 // outdoors, as a day's
	meanPart  float64 // by which a judgement moves it

	startsPerDay []int
	belowToday   float64
	mostBelow    float64
	worstDay     int
	today, worst Trace
	trace        *Trace
	traceEvery   int
}

func newTape(m *model, h House, p Plant, w Weather, o Options) *tape {
	t := &tape{
		m: m, w: w, band: float64(o.Band), monday: o.Monday, wanted: weekly{points: o.Wanted}, mean: w.Outdoor[0] + zeroCelsius, meanPart: part(judgeEvery*minute, dayHours*hour), perMinute: int(math.Round(minute / m.dt)),
		startsPerDay: make([]int, 0, w.hours()/dayHours), mostBelow: -1,
	}
	columns := Columns(h, p)
	t.today = Trace{Every: traceEvery * minute, Columns: columns, Values: make([]float64, traceADay*len(columns))}
	t.worst = t.today
	t.worst.Values = make([]float64, traceADay*len(columns))
	if o.Trace != nil {
		t.trace, t.traceEvery = o.Trace, int(o.Trace.Every/minute)
		t.trace.Columns, t.trace.Rows = columns, 0
	}
	return t
}

// playHour plays hour i of the weather, counted from the end if below 0.
func (t *tape) playHour(i int, counted bool) {
	m, n := t.m, t.w.hours()
	k := ((i % n) + n) % n
	before, after := t.w.Outdoor[(k+n-1)%n]+zeroCelsius, t.w.Outdoor[k]+zeroCelsius
	m.takeHour(t.w, k)
	day := ((i-((i%dayHours)+dayHours)%dayHours)/dayHours + t.monday) % 7
	begin := float64((day+7)%7)*86400 + float64(k%dayHours)*hour
	steps := 60 * t.perMinute
	slope := (after - before) / float64(steps)
	step := 0
	for minuteOfHour := range 60 {
		m.minute = k%dayHours*60 + minuteOfHour
		for part := range t.perMinute {
			m.minuteBegins = part == 0
			m.slow = part == 0 && minuteOfHour%lookEvery == 0
			outdoor := before + slope*(float64(step)+0.5)
			m.step(begin+float64(step)*m.dt, outdoor)
			step++
		}
		if (minuteOfHour+1)%lookEvery == 0 {
			m.book()
		}
		if !counted {
			continue
		}
		if (minuteOfHour+1)%judgeEvery == 0 {
			t.outdoor = before + slope*float64(step)
			t.judge(float64(i)*hour+float64(step)*m.dt, math.Mod(begin+float64(step)*m.dt, weekSeconds))
		}
		outdoor := before + slope*float64(step)
		if (minuteOfHour+1)%traceEvery == 0 {
			m.sample(&t.today, outdoor)
		}
		if t.trace != nil && (i*60+minuteOfHour+1)%t.traceEvery == 0 {
			m.sample(t.trace, outdoor)
		}
	}
	if counted && k%dayHours == dayHours-1 {
		t.endDay()
	}
}

// takeHour lays the hour's sun and gains on the rooms.
func (m *model) takeHour(w Weather, k int) {
	for i := range m.rooms {
		r := &m.rooms[i]
		sun := 0.0
		for _, s := range m.suns[i] {
			sun += w.Sun[s.facade][k] * s.aperture
		}
		if r.air > r.shadeAbove {
			sun *= r.shadeLeaves
		}
		gains := m.gains[i][k%dayHours]
		radiant := sun*m.sunRadiant[i] + gains*m.gainsRadiant[i]
		r.airGain = sun + gains - radiant + radiant*r.airPart
		r.nearGain, r.farGain = radiant*r.nearPart, radiant*r.farPart
		m.sums.sun += sun * hour
		m.sums.gains += gains * hour
	}
}

// judge holds the rooms against their set-points.
func (t *tape) judge(now, ofWeek float64) {
	m := t.m
	t.mean += t.meanPart * (t.outdoor - t.mean)
	if t.wanted.points != nil {
		t.wanted.moves(ofWeek)
	}
	for i := range m.rooms {
		r := &m.rooms[i]
		s, air := &r.stat, r.air
		s.sum += air
		if air < s.low {
			s.low, s.lowAt = air, now
		}
		s.high = max(s.high, air)
		lower := r.lower
		if t.wanted.now != nil {
			lower = float64(t.wanted.now.Lower)
		}
		off := air - (r.set - lower)
		if off < -t.band {
			s.below++
			s.belowToday = true
			s.belowDegrees -= off
			t.belowToday -= off
		}
		if t.mean > heatingWeather {
			continue
		}
		s.highHeated = max(s.highHeated, air)
		if air > r.set+t.band {
			s.above++
			s.aboveToday = true
			s.aboveDegrees += air - r.set
		}
	}
}

func (t *tape) endDay() {
	if t.belowToday > t.mostBelow {
		t.mostBelow, t.worstDay = t.belowToday, len(t.startsPerDay)
		t.today, t.worst = t.worst, t.today
	}
	t.today.Rows, t.belowToday, t.today.delivered = 0, 0, t.m.sums.delivered
	for i := range t.m.rooms {
		s := &t.m.rooms[i].stat
		if s.belowToday {
			s.daysBelow++
		}
		if s.aboveToday {
			s.daysAbove++
		}
		s.belowToday, s.aboveToday = false, false
	}
	t.startsPerDay = append(t.startsPerDay, t.m.sums.startsToday)
	t.m.sums.startsToday = 0
}

func (t *tape) result(h House, p Plant, s Settings, begin float64) Result {
	m, sums := t.m, &t.m.sums
	total := float64(t.w.hours()) * hour
	fuel := sums.fuel + float64(sums.starts)*sums.startFuel
	r := Result{
		Settings: s.Name, Time: units.Time(total), Step: Steps{units.Time(m.massDt), units.Time(m.dt), units.Time(m.emitterDt), units.Time(m.plantDt)},
		Fuel: units.Energy(fuel), Heat: units.Energy(sums.burnt), Delivered: units.Energy(sums.delivered),
		OfBoiler: units.Energy(sums.electricity + m.always*total), Pumps: units.Energy(sums.pumps), Burning: units.Time(sums.burning), Condensing: units.Time(sums.condensing),
		Starts: sums.starts, StartsPerDay: t.startsPerDay, Runs: sums.runs, ShortestRun: units.Time(sums.shortest), LongestRun: units.Time(sums.longest),
		WorstDay: t.worstDay, Worst: t.worst,
	}
	if fuel > 0 {
		r.Efficiency = units.Fraction(sums.delivered / fuel)
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		r.Pumps += units.Energy(c.pump * c.runs)
		r.Fans += units.Energy(c.blown)
		if !c.isTank {
			r.Circuits = append(r.Circuits, CircuitResult{Name: p.Circuits[i].Name, Runs: units.Time(c.runs)})
		}
	}
	r.Electricity = r.Pumps + r.OfBoiler + r.Fans
	const each = judgeEvery * minute
	for i := range m.rooms {
		st := &m.rooms[i].stat
		r.Rooms = append(r.Rooms, RoomResult{
			Name: h.Rooms[i].Name, Low: units.Temperature(st.low), High: units.Temperature(st.high), HighHeated: units.Temperature(st.highHeated), LowAt: units.Time(st.lowAt), Mean: units.Temperature(st.sum * each / total),
			Below: units.Time(float64(st.below) * each), BelowDegrees: units.DegreeDays(st.belowDegrees * each),
			DaysBelow: st.daysBelow, DaysAbove: st.daysAbove, Heated: units.Energy(st.heated), Cooled: units.Energy(st.cooled),
			Above: units.Time(float64(st.above) * each), AboveDegrees: units.DegreeDays(st.aboveDegrees * each),
		})
	}
	r.Tank = TankResult{Water: units.Volume(sums.water), Wanted: units.Energy(sums.wanted), Delivered: units.Energy(sums.tapped),
		Short: units.Volume(sums.short), ShortFor: units.Time(sums.shortFor), Lost: units.Energy(sums.tankLost)}
	if sums.water > 0 {
		r.Tank.Coolest = units.Temperature(sums.coolest)
	}
	r.Balance = sums.balance(m.stored() - begin)
	return r
}

func (s *sums) balance(stored float64) Balance {
	in := s.burnt + s.gains + s.sun + s.heated
	out := s.cooled + s.lost + s.behind + s.standby + s.tankLost + s.drawn
	b := Balance{
		Burner: units.Energy(s.burnt), Gains: units.Energy(s.gains), Sun: units.Energy(s.sun), Heated: units.Energy(s.heated), Cooled: units.Energy(s.cooled),
		Lost: units.Energy(s.lost), Behind: units.Energy(s.behind), Standby: units.Energy(s.standby), TankLost: units.Energy(s.tankLost), HotWater: units.Energy(s.drawn),
		Stored: units.Energy(stored), Open: units.Energy(in - out - stored),
	}
	if scale := math.Max(in, math.Abs(out)); scale > 0 {
		b.OpenShare = units.Fraction(math.Abs(in-out-stored) / scale)
	}
	return b
}

// Compare plays several settings on the same house and weather, side by side.
//
// After each of them progress is told how many are done; stop is asked once a day of
// each run, and a true ends it all. Results that are ready by then are kept; the others
// have no time. Progress and stop may be nil; both are called from several goroutines,
// progress never twice at once.
//
// Units: as [Run].
// Range: 1 to 10,000 settings, 1 to 256 workers.
// Source: as [Run].
// Errors: as [Run], for the first settings that are refused; a [Trace] in the options.
func Compare(h House, p Plant, settings []Settings, w Weather, o Options, workers int, progress func(done int), stop func() bool) ([]Result, error) {
	if len(settings) < 1 || len(settings) > 10000 {
		return nil, fmt.Errorf("comparison: %d settings given; accepted: 1 to 10,000", len(settings))
	}
	if workers < 1 || workers > 256 {
		return nil, fmt.Errorf("comparison: %d workers given; accepted: 1 to 256", workers)
	}
	if o.Trace != nil {
		return nil, fmt.Errorf("comparison: a trace given; accepted with a single run")
	}
	for _, s := range settings {
		if err := check(h, p, s, w, o); err != nil {
			return nil, fmt.Errorf("settings %q: %w", s.Name, err)
		}
	}
	results, errs := make([]Result, len(settings)), make([]error, len(settings))
	next := make(chan int)
	var wait sync.WaitGroup
	var telling sync.Mutex
	done := 0
	for range min(workers, len(settings)) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for i := range next {
				results[i], errs[i] = run(h, p, settings[i], w, o, stop)
				telling.Lock()
				if done++; progress != nil && errs[i] == nil {
					progress(done)
				}
				telling.Unlock()
			}
		}()
	}
	for i := range settings {
		next <- i
	}
	close(next)
	wait.Wait()
	for i, err := range errs {
		if err != nil && err != errStopped {
			return results, fmt.Errorf("settings %q: %w", settings[i].Name, err)
		}
	}
	return results, nil
}
