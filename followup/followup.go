package followup

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"curvewright/job"
	"curvewright/logs"
	"curvewright/settings"
	"curvewright/units"
)

// Result is what a log says about a job.
type Result struct {
	Job        string
	System     units.System // of the sentences
	From, To   int64        // stamps of the log
	Rows       int
	Step       int64
	Log        []logs.Finding // about the file
	Signature  Signature
	Curve      Curve
	Cycles     Cycles
	HotWater   HotWater
	Rooms      []Room
	Capacity   Estimate[units.Fraction] // of the emitters against the survey
	Thermal    Thermal
	Sunned     Estimate[units.Fraction] // share of days on which the sun reaches the outdoor sensor
	Findings   []Finding                // in the order of repair
	Correction Correction
}

// Options say how a log is judged.
type Options struct {
	System units.System
	Cheap  bool // leaves out the models of the house's inertia, which take seconds
}

// Analyse holds a log against a job.
//
// Units: those of the job and the log.
// Range: jobs that can be solved; logs of three rows and more. What the log cannot tell
// is said in the estimate's place.
// Source: the functions of this package, each with its own.
// Errors: as settings.Prepare; a log without weather, water or rooms; the context's.
func Analyse(ctx context.Context, l *logs.Log, j *job.Job, o Options) (*Result, error) {
	if len(l.Stamps) < 3 || len(l.Series) == 0 {
		return nil, errors.New("the log holds no readings")
	}
	j = before(j, l)
	p, err := settings.Prepare(j, settings.Options{System: o.System, Samples: 100, Seed: 1})
	if err != nil {
		return nil, err
	}
	h := householdOf(p, j)
	h.logged = circuitOf(l, p)
	f := newFrame(l, h)
	if f.out == nil && f.supply == nil && len(f.rooms) == 0 && f.heat == nil {
		return nil, errors.New("the log has neither weather, water, rooms nor heat; name a column, as 3=outdoor")
	}
	r := &Result{Job: j.Name, System: o.System, From: l.Stamps[0], To: l.Stamps[len(l.Stamps)-1], Rows: l.Rows, Step: l.Step, Log: l.Findings}
	k := h.logged
	room := p.Sheet.Circuits[k].Setpoint
	r.Curve = readCurve(f, room, p.Circuits[k].Name, p.Differential)
	r.Signature = signature(f, float64(room))
	r.Cycles = readCycles(f, p.Sheet.Boiler.DewPoint)
	r.HotWater = readHotWater(f)
	r.Rooms = readRooms(f, r.Curve, setpoints(p, room))
	r.Capacity = capacity(f, p, k, r.Curve)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	r.Thermal = unmodelled("the models of the house's inertia were left out")
	if !o.Cheap {
		if r.Thermal, err = thermal(ctx, f); err != nil {
			return nil, err
		}
	}
	in := &inspection{f: f, plan: p, job: j, circuit: k, r: r}
	r.Findings = in.findings()
	r.Correction = correct(in, o)
	in.agree(&r.Correction)
	return r, nil
}

// before is the job as it was known before the log: what was learned from readings of the
// same time would count twice.
func before(j *job.Job, l *logs.Log) *job.Job {
	if j.Learned == nil || logs.Clock(l.Stamps[0]).Format(time.DateOnly) > j.Learned.Until {
		return j
	}
	alone := *j
	alone.Learned = nil
	return &alone
}

// circuitOf finds the circuit whose supply is logged: the one that the heading names,
// else the one with the largest load.
func circuitOf(l *logs.Log, p *settings.Plan) int {
	heading := ""
	for _, role := range []logs.Role{logs.Supply, logs.Wanted} {
		if s, ok := l.First(role); ok {
			heading += " " + plainName(s.Heading) + " " + plainName(s.Name)
		}
	}
	best := 0
	for i, c := range p.Circuits {
		if name := plainName(c.Name); name != "" && strings.Contains(heading, name) {
			return i
		}
		if p.Sheet.Circuits[i].Load > p.Sheet.Circuits[best].Load {
			best = i
		}
	}
	return best
}

// setpoints gives a room's own, else the circuit's.
func setpoints(p *settings.Plan, usual units.Temperature) func(string) (units.Temperature, bool) {
	return func(name string) (units.Temperature, bool) {
		plain := plainName(name)
		for _, r := range p.Rooms {
			if n := plainName(r.Name); n == plain || len(n) > 3 && strings.Contains(plain, n) {
				return r.Setpoint, true
			}
		}
		return usual, false
	}
}

// Shown is an estimate as text, for tables.
type Shown struct {
	Name  string
	Text  string // "198 W/K (185 to 212 W/K)", or why not
	Known bool
	How   string
}

// Table lists all estimates for a reader of the system.
//
// Units: those of the system, written into the texts.
// Range: a result of [Analyse].
// Source: own layout.
func (r *Result) Table(s units.System) []Shown {
	var out []Shown
	c := r.Curve
	out = append(out, show("heat loss towards outdoors", r.Signature.Loss, s), show("heating ends at", r.Signature.Balance, s), show("base load", r.Signature.Base, s), show("sun taken in by", r.Signature.Aperture, s),
		show("time constant", r.Thermal.Constant, s), show("loss by the model of inertia", r.Thermal.Loss, s),
		show("slope of the curve", c.Slope, s), show("shift of the curve", c.Shift, s))
	for _, p := range c.At {
		out = append(out, show("supply at "+p.Outdoor.Text(s)+" outdoors", p.Supply, s))
	}
	out = append(out, show("highest supply", c.Highest, s), show("lowest supply", c.Lowest, s), show("circuit rests above", c.CutOff, s), show("emitters against the survey", r.Capacity, s),
		show("starts of the burner a day", r.Cycles.StartsPerDay, s), show("run of the burner", r.Cycles.MedianRun, s), show("runs under 5 min", r.Cycles.ShortRuns, s),
		show("fire on, coldest days", r.Cycles.BurningCold, s), show("condensing", r.Cycles.Condensing, s),
		show("days with sun on the outdoor sensor", r.Sunned, s),
		show("charges of the tank a day", r.HotWater.Charges, s), show("a charge lasts", r.HotWater.Lasts, s), show("rooms fall in a long charge by", r.HotWater.Drop, s))
	for _, room := range r.Rooms {
		out = append(out, show(room.Name+", mean", room.Mean, s), show(room.Name+", for each degree outdoors", room.PerOutdoor, s))
	}
	return out
}

func show[T Quantity](name string, e Estimate[T], s units.System) Shown {
	return Shown{Name: name, Text: e.Text(s), Known: e.Known, How: e.Why}
}

// say prints a quantity for the reader.
func (r *Result) say(q units.Quantity) string { return q.Text(r.System) }

// roughly prints a difference to the half kelvin or whole degree Fahrenheit.
func (r *Result) roughly(d float64) string {
	if r.System.In(units.Temperatures) == units.US {
		return fmt.Sprintf("%.0f °F", d*1.8)
	}
	return fmt.Sprintf("%.1f K", d)
}
