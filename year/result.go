package year

// What came of it?

import (
	"math"

	"curvewright/units"
)

// Result is what a run came to.
type Result struct {
	Settings string // their name
	Time     units.Time
	Step     Steps

	Fuel        units.Energy // gross heat of all that was burnt, starts included
	Heat        units.Energy // from the burner to the boiler's water
	Delivered   units.Energy // from the boiler to circuits and tank
	Electricity units.Energy // of the three below
	Pumps       units.Energy
	OfBoiler    units.Energy // its burner's fan and its control
	Fans        units.Energy // of fan coils

	Efficiency units.Fraction // Delivered over Fuel
	Burning    units.Time
	Condensing units.Time // of Burning

	Starts       int
	StartsPerDay []int
	Runs         [RunClasses]int // finished runs of the burner by their length, see RunLimits
	ShortestRun  units.Time      // 0 if there was none
	LongestRun   units.Time

	Circuits []CircuitResult
	Rooms    []RoomResult
	WorstDay int   // from 0: with the most degree-hours below the set-points in all rooms
	Worst    Trace // of that day, every five minutes
	Tank     TankResult
	Balance  Balance
}

// RunClasses is the number of classes of [Result.Runs].
const RunClasses = 7

// RunLimits gives the length at which each class of [Result.Runs] but the last ends.
//
// Range: the classes of this package.
// Source: own choice.
func RunLimits() [RunClasses - 1]units.Time {
	return [...]units.Time{60, 180, 300, 600, 1200, 3600}
}

// Steps are the lengths of the steps that were taken.
type Steps struct{ Mass, Air, Radiators, Plant units.Time }

// CircuitResult is what a circuit did.
type CircuitResult struct {
	Name string
	Runs units.Time // of its pump
}

// RoomResult is how warm a room was, by its air.
type RoomResult struct {
	Name         string
	Low, High    units.Temperature
	HighHeated   units.Temperature // warmest in heating weather: a day's mean below 16 °C outdoors; 0 if there was none
	LowAt        units.Time        // since the first of January
	Mean         units.Temperature
	Below        units.Time // colder than the band below the set-point of the hour
	BelowDegrees units.DegreeDays
	Above        units.Time // warmer than the band above it in heating weather
	AboveDegrees units.DegreeDays
	DaysBelow    int // with any such moment
	DaysAbove    int

	Heated, Cooled units.Energy // by the ideal heater and cooler
}

// TankResult is how the household's draws were met, from a tank or a combi.
type TankResult struct {
	Water     units.Volume // drawn at the taps
	Wanted    units.Energy
	Delivered units.Energy
	Short     units.Volume // drawn cooler than wanted
	ShortFor  units.Time
	Coolest   units.Temperature // at a tap; 0 if nothing was drawn
	Lost      units.Energy
}

// Balance is all heat that came into the house and its plant, and where it went.
type Balance struct {
	Burner, Gains, Sun, Heated                        units.Energy // in; Heated by ideal heaters
	Cooled, Lost, Behind, Standby, TankLost, HotWater units.Energy // out; Behind is behind radiators and below slabs, Standby of boiler and buffer
	Stored                                            units.Energy // more at the end than at the start
	Open                                              units.Energy // what is missing
	OpenShare                                         units.Fraction
}

// sums are the accounts of a run, in J, s and m³.
type sums struct {
	fuel, burnt, delivered                 float64
	gains, sun, heated, cooled             float64
	lost, behind, standby, tankLost, drawn float64
	electricity, pumps                     float64
	burning, condensing                    float64
	starts, startsToday                    int
	startFuel                              float64
	runs                                   [RunClasses]int
	shortest, longest                      float64

	water, wanted, tapped, short, shortFor, coolest float64
}

// endRun counts a run of the burner.
func (s *sums) endRun(ran float64) {
	if s.shortest == 0 || ran < s.shortest {
		s.shortest = ran
	}
	s.longest = max(s.longest, ran)
	for i, limit := range RunLimits() {
		if ran < float64(limit) {
			s.runs[i]++
			return
		}
	}
	s.runs[RunClasses-1]++
}

// restart opens the accounts anew after the warm-up.
func (m *model) restart() {
	m.sums = sums{startFuel: m.sums.startFuel, coolest: math.Inf(1)}
	for i := range m.rooms {
		m.rooms[i].stat = roomStat{low: math.Inf(1), high: math.Inf(-1)}
	}
	for i := range m.circuits {
		m.circuits[i].runs, m.circuits[i].blown = 0, 0
	}
}

// book writes fuel and electricity down since it was last called, at the mean return and
// firing rate of the burner in that time.
func (m *model) book() {
	b, s := &m.boiler, &m.sums
	if b.burnFor > 0 {
		eta, condenses := m.burner.at(b.backSum/b.burnFor, b.burnt/b.burnFor/b.most)
		s.fuel += b.burnt / eta
		s.burnt += b.burnt
		s.burning += b.burnFor
		if condenses {
			s.condensing += b.burnFor
		}
		s.electricity += m.fan * b.burnFor
		b.burnt, b.burnFor, b.backSum = 0, 0, 0
	}
	s.pumps += m.boilerPump * m.ranFor
	m.ranFor = 0
}
