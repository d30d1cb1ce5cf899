package trial

import (
	"fmt"

	"curvewright/curve"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/year"
)

// Against is what the sheet's settings are played against.
type Against string

// The others.
const (
	// Preset is what controls commonly hold before anyone thinks: 167 °F at 14 °F for
	// radiators and baseboards, 113 °F at 14 °F for floors (common practice).
	Preset Against = "preset"
	// Constant holds the supply of the design day all year.
	Constant Against = "constant"
)

// Trial is a job made ready to be played.
type Trial struct {
	Plan     *settings.Plan
	House    year.House
	Plant    year.Plant
	Settings []year.Settings // the sheet's first
	Weather  year.Weather
	Place    string   // of the weather
	MadeUp   bool     // nobody measured it
	Assumed  []string // sentences
}

// Options say how a job is played.
type Options struct {
	System  units.System
	Weather *weather.Year // nil makes one up
	Seed    uint64        // of a made-up year
	Against []Against
}

// New prepares a job: its sheet is solved, and house, plant and settings are made from
// it.
//
// Units: those of the job.
// Range: as settings.Solve; rooms with a floor area; no fan coils, no buffers.
// Source: what the survey does not ask is common practice, listed in Assumed.
// Errors: as settings.Solve; what cannot be played, in a sentence.
func New(j *job.Job, o Options) (*Trial, error) {
	so := settings.Options{System: o.System}
	if o.Weather != nil {
		so.Hours = o.Weather
	}
	p, err := settings.Prepare(j, so)
	if err != nil {
		return nil, err
	}
	t := &Trial{Plan: p, Assumed: append([]string{}, p.Assumed...)}
	if t.House, err = rooms(p); err != nil {
		return nil, err
	}
	if t.Plant, err = plant(p); err != nil {
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
	t.Assumed = append(t.Assumed,
		"a house of medium weight, windows facing all ways alike and opened 3 K above the set-points",
		"thermostatic valves on radiators, room thermostats on floors, no program, no hot water")
	t.Settings = append(t.Settings, t.sheet())
	for _, a := range o.Against {
		s, err := t.against(a)
		if err != nil {
			return nil, err
		}
		t.Settings = append(t.Settings, s)
	}
	return t, nil
}

// sheet is what the settings sheet says.
func (t *Trial) sheet() year.Settings {
	s := t.common("the sheet")
	for _, c := range t.Plan.Circuits {
		s.Circuits = append(s.Circuits, year.CircuitSettings{Curve: c.Setting})
	}
	s.CutOff = year.CutOff{Above: t.Plan.CutOff, Width: 2, Damping: units.Hours(24)}
	return s
}

func (t *Trial) common(name string) year.Settings {
	return year.Settings{Name: name, Differential: t.Plan.Differential, Rest: 300, AboveMixed: 3, Beyond: t.Plan.Beyond}
}

func (t *Trial) against(a Against) (year.Settings, error) {
	s := t.common(string(a))
	for _, c := range t.Plan.Circuits {
		var cs year.CircuitSettings
		switch a {
		case Preset:
			cold, top := units.Fahrenheit(167), units.Celsius(85)
			if c.Floor {
				cold, top = units.Fahrenheit(113), units.Fahrenheit(118)
			}
			cs.Curve = curve.Setting{Kind: curve.TwoPoints, Cold: curve.Point{Outdoor: units.Fahrenheit(14), Supply: cold},
				Mild:  curve.Point{Outdoor: units.Fahrenheit(68), Supply: units.Fahrenheit(68)},
				Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: top}}
		case Constant:
			cs.Held = c.Setting.At(t.Plan.Design)
		default:
			return s, fmt.Errorf("played against %q; accepted: %s, %s", string(a), Preset, Constant)
		}
		s.Circuits = append(s.Circuits, cs)
	}
	// A control left as it came heats until the household switches it off.
	s.CutOff = year.CutOff{Above: units.Fahrenheit(70), Width: 2, Damping: units.Hours(24)}
	return s, nil
}

// comfortBand is how far a room may be off its set-point before anyone says so: common
// practice.
const comfortBand = units.Difference(1)

// Run plays all settings on the same weather, two at a time.
//
// Units: as package year.
// Range: as package year.
// Source: year.Compare.
// Errors: as year.Compare.
func (t *Trial) Run(progress func(done int)) ([]year.Result, error) {
	return year.Compare(t.House, t.Plant, t.Settings, t.Weather, year.Options{Band: comfortBand}, 2, progress, nil)
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
	r, err := year.Run(t.House, t.Plant, t.Settings[0], t.Weather, year.Options{Band: comfortBand, Trace: &trace})
	return r, trace, err
}
