package decide

// What is searched, and what counts as comfort?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// Case is a house whose settings are to be searched.
type Case struct {
	Plan    *settings.Plan
	House   year.House
	Plant   year.Plant
	Base    year.Settings // of the sheet: where the search begins
	Weather year.Weather
	Wanted  []year.Switch // by the household, as [year.Options.Wanted]
}

// Comfort is what must be kept. The zero value asks for the usual.
type Comfort struct {
	Band  units.Difference // below the set-point before a room counts as cold; 0 means 1 K
	Hours units.Time       // a year that any room may be so; 0 means 1 % of the weather
}

// Options say how much is played.
type Options struct {
	Comfort  Comfort
	Runs     int // years that the search may play; 0 means 180
	Samples  int // houses in which the recommendation is tried; 0 means 40, below 0 none
	Workers  int // years side by side; 0 means as many as there are cores
	Seed     uint64
	Progress func(done, of int) // never twice at once; may be nil
}

const (
	usualRuns    = 180
	usualSamples = 40
	usualBand    = units.Difference(1)
	usualShare   = 0.01 // of the hours: what a design temperature of 99 % leaves colder
	leastGain    = 0.9  // of the cold that is left, for a candidate to stand on the front
)

// sure is the share of the sampled houses in which a recommendation must hold.
const sure = units.Fraction(0.9)

// wear is what a start of the burner counts beside the fuel that it takes, so that among
// equals the calmer burner wins (own choice).
const wear = units.Energy(0.02 * 3.6e6)

func (c Case) check(o Options) error {
	switch {
	case c.Plan == nil:
		return fmt.Errorf("search: no plan given; accepted: a solved job")
	case len(c.Plan.Circuits) != len(c.Base.Circuits) || len(c.Plan.Circuits) != len(c.Plant.Circuits) || len(c.Plan.Year.Circuits) != len(c.Plan.Circuits):
		return fmt.Errorf("search: the plan has %d circuits, the settings %d, the plant %d; accepted: the same number", len(c.Plan.Circuits), len(c.Base.Circuits), len(c.Plant.Circuits))
	case o.Runs < 0 || o.Runs > 10000:
		return fmt.Errorf("search: %d runs given; accepted: 1 to 10,000, or 0 for %d", o.Runs, usualRuns)
	case o.Samples > 1000:
		return fmt.Errorf("search: %d sampled houses given; accepted: up to 1,000", o.Samples)
	case o.Workers < 0 || o.Workers > 256:
		return fmt.Errorf("search: %d workers given; accepted: 1 to 256, or 0 for one for each core", o.Workers)
	}
	return cmp.Or(refuse.Within("comfort: band below the set-point", o.Comfort.Band, 0, 5), refuse.Within("comfort: hours a year", o.Comfort.Hours, 0, units.Hours(8784)))
}

// worthTurning is what another figure must save to be preferred: below it lies what nobody
// could tell, and the sheet's own stays (own choice).
const worthTurning = 0.001

// Candidate is a set of settings with what came of them in the surveyed house.
type Candidate struct {
	Settings    year.Settings
	Choice      Choice
	Fuel        units.Energy
	Electricity units.Energy
	Starts      int
	Cold        units.DegreeDays // of the coldest room below its band
	ColdFor     units.Time       // of the room that is cold longest
	ColdRoom    string           // that room; empty if none is ever cold
	WarmFor     units.Time       // of the room that is too warm longest, while the house is heated
	Keeps       bool             // comfort
}

// Choice is a candidate in the words of a control.
type Choice struct {
	Circuits     []CircuitChoice
	Lower        units.Difference // of the circuits that are lowered
	Preheat      units.Time       // before the household wants it warm
	Influence    units.Number
	CutOff       units.Temperature
	Differential units.Difference
	Rest         units.Time
	FullOutput   bool // the sheet's limit of the heating output is lifted
}

// CircuitChoice is one circuit of it.
type CircuitChoice struct {
	Name    string
	Raised  units.Fraction // excess of the supply over the rooms, more than the sheet's
	Lowered bool           // whether the program lowers it
}

// judge reads a result.
func (c Case) judge(r year.Result, comfort Comfort) Candidate {
	out := Candidate{Fuel: r.Fuel, Electricity: r.Electricity, Starts: r.Starts}
	for _, room := range r.Rooms {
		out.Cold = max(out.Cold, room.BelowDegrees)
		out.WarmFor = max(out.WarmFor, room.Above)
		if room.Below > out.ColdFor {
			out.ColdFor, out.ColdRoom = room.Below, room.Name
		}
	}
	out.Keeps = out.ColdFor <= comfort.Hours
	return out
}

// better tells which of two is to be preferred: comfort first, then fuel.
func (a Candidate) better(b Candidate) bool {
	switch {
	case a.Keeps != b.Keeps:
		return a.Keeps
	case !a.Keeps && a.Cold != b.Cold:
		return a.Cold < b.Cold
	}
	return a.counts() < b.counts()*(1-worthTurning)
}

func (a Candidate) counts() units.Energy { return a.Fuel + units.Energy(a.Starts)*wear }
