package trial

import (
	"fmt"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/year"
)

// Trial is a job made ready to be played.
type Trial struct {
	Plan     *settings.Plan
	House    year.House
	Plant    year.Plant
	Settings []year.Settings // the sheet's first
	Weather  year.Weather
	Wanted   []year.Switch // by the household; rooms are judged by it
	Place    string        // of the weather
	MadeUp   bool          // nobody measured it
	Assumed  []string      // sentences
	Price    Price
	Carbon   Carbon

	bill job.FuelUse // of the survey
}

// Options say how a job is played.
type Options struct {
	System  units.System
	Weather *weather.Year // nil makes one up
	Seed    uint64        // of a made-up year
	Against []Against
	Found   *settings.Found   // what was typed of the control as it was found, for AsFound; nil for what the job says
	Price   Price             // of fuel, if known
	Carbon  Carbon            // of fuel, if known
	Learned *settings.Learned // what the running house has taught; nil for what the job says of it
}

// New prepares a job: its sheet is solved, and house, plant and settings are made from
// it.
//
// Units: those of the job.
// Range: as settings.Solve; rooms with a floor area.
// Source: what the survey does not ask is common practice, listed in Assumed.
// Errors: as settings.Solve; what cannot be played, in a sentence.
func New(j *job.Job, o Options) (*Trial, error) {
	so := settings.Options{System: o.System, Learned: o.Learned}
	if o.Weather != nil {
		so.Hours = o.Weather
	}
	p, err := settings.Prepare(j, so)
	if err != nil {
		return nil, err
	}
	t := &Trial{Plan: p, Assumed: append([]string{}, p.Assumed...), Price: o.Price, Carbon: o.Carbon}
	if j.House.Fuel != nil {
		t.bill = *j.House.Fuel
	}
	if t.House, err = rooms(p); err != nil {
		return nil, err
	}
	if t.Plant, err = plant(p, j); err != nil {
		return nil, err
	}
	y := o.Weather
	if y == nil {
		if y, err = madeUp(p, o.Seed); err != nil {
			return nil, err
		}
	}
	var sunny bool
	if t.Weather, sunny, err = sky(y); err != nil {
		return nil, err
	}
	t.Place, t.MadeUp = y.Place.Name, y.MadeUp()
	if !sunny {
		t.Assumed = append(t.Assumed, "no sun: the weather holds no radiation or no place")
	}
	t.Wanted = week(p.Year.Wanted)
	t.Assumed = append(t.Assumed, surroundings...)
	t.Assumed = append(t.Assumed, t.tankAssumed(j)...)
	t.Settings = append(t.Settings, t.sheet())
	for _, a := range o.Against {
		s, err := t.against(a, o.Found)
		if err != nil {
			return nil, err
		}
		t.Settings = append(t.Settings, s)
	}
	return t, nil
}

// ComfortBand is how far a room may be off its set-point before anyone says so: common
// practice.
const ComfortBand = units.Difference(1)

// options are those of every run.
func (t *Trial) options() year.Options { return year.Options{Band: ComfortBand, Wanted: t.Wanted} }

// Run plays all settings on the same weather, two at a time.
//
// Units: as package year.
// Range: as package year.
// Source: year.Compare.
// Errors: as year.Compare.
func (t *Trial) Run(progress func(done int)) ([]year.Result, error) {
	return year.Compare(t.House, t.Plant, t.Settings, t.Weather, t.options(), 2, progress, nil)
}

// Traced plays the sheet's settings alone and writes down every thermometer on the way,
// for a plot.
//
// Units: every in s; the trace in K and W.
// Range: as package year; whole minutes between two rows.
// Source: year.Run.
// Errors: as year.Run.
func (t *Trial) Traced(every units.Time) (year.Result, year.Trace, error) {
	if !(every >= 60) {
		return year.Result{}, year.Trace{}, fmt.Errorf("trace: a row every %s given; accepted: whole minutes", every.Text(t.Plan.Sheet.System))
	}
	hours := units.Hours(float64(len(t.Weather.Outdoor)))
	trace := year.Trace{Every: every, Values: make([]float64, int(hours/every)*len(year.Columns(t.House, t.Plant)))}
	o := t.options()
	o.Trace = &trace
	r, err := year.Run(t.House, t.Plant, t.Settings[0], t.Weather, o)
	return r, trace, err
}
