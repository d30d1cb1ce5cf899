package attendance

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"time"

	"curvewright/job"
	"curvewright/refuse"
	"curvewright/units"
)

// Version is the version of the document that this package writes.
const Version = 1

// Read reads a visit from YAML or JSON, strictly, and checks it.
//
// Units: every value carries its own; inside they are SI.
// Range: documents up to 1 MB; what [Visit.Check] accepts.
// Source: the format is our own.
// Errors: [*job.Faults], each with its place, or what [Visit.Check] finds.
func Read(data []byte) (*Visit, error) {
	v, err := job.ReadDocument[Visit](data, "visit")
	if err != nil {
		return nil, err
	}
	if err := v.Check(); err != nil {
		return nil, err
	}
	return v, nil
}

// Write writes a visit as YAML; reading it again gives the same.
//
// Units: values without a text of their own are written in SI.
// Range: any visit, finished or not.
// Source: the format is our own.
// Errors: text that is not UTF-8.
func Write(v *Visit) ([]byte, error) {
	newest := *v
	newest.Version = Version
	return job.WriteDocument(&newest)
}

// Check says everything that cannot be meant.
//
// Units: those of the document.
// Range: days of the calendar; temperatures −60 to 60 °C outdoors and of the air, 0 to
// 130 °C in water, to 450 °C in flue gas; shares 0 to 100 %; times to 30 days; a name once
// in each list.
// Source: own requirement.
// Errors: each figure with its place, what was given and what would be accepted.
func (v *Visit) Check() error {
	c := &checker{}
	c.day("visit", v.Date, true)
	c.day("corrects", v.Corrects, false)
	c.day("follow_up", v.Again, false)
	for i, s := range v.Signatures {
		c.day(fmt.Sprintf("signature %d › on", i+1), s.On, true)
	}
	if v.Corrects != "" && v.Reason != "" && v.Reason != "correction" {
		c.add(fmt.Errorf("reason: %q given; a visit that corrects another one is a correction", v.Reason))
	}
	outdoor := c.temperatures(units.Celsius(-60), units.Celsius(60))
	outdoor("conditions › outdoor", v.Conditions.Outdoor)
	outdoor("conditions › start", v.Conditions.Start)
	c.time("conditions › since", v.Conditions.Since, units.Hours(24*30))
	if v.Conditions.State == "fresh" && (!v.Conditions.Since.Set || !v.Conditions.Start.Set) {
		c.add(errors.New("conditions: a fresh house needs since, how long it has been on, and start, how warm it was then"))
	}
	c.readings(&v.Readings, outdoor)
	c.combustion(v.Combustion, outdoor)
	c.records(v)
	return errors.Join(c.found...)
}

type checker struct{ found []error }

func (c *checker) add(err error) {
	if err != nil {
		c.found = append(c.found, err)
	}
}

// day checks a day of the calendar.
func (c *checker) day(where, text string, need bool) {
	if text == "" && !need {
		return
	}
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		c.add(&refuse.Error{What: where, Given: fmt.Sprintf("%q", text), Accept: "a day of the calendar as 2026-11-25"})
	}
}

// within refuses an input outside its range.
func within[T refuse.Quantity](c *checker, where string, g job.Given[T], low, high T) {
	if g.Set {
		c.add(refuse.Within(where, g.Value, low, high))
	}
}

func (c *checker) temperatures(low, high units.Temperature) func(string, job.Given[units.Temperature]) {
	return func(where string, g job.Given[units.Temperature]) { within(c, where, g, low, high) }
}

func (c *checker) time(where string, g job.Given[units.Time], most units.Time) {
	within(c, where, g, 0, most)
}

func (c *checker) readings(r *Readings, outdoor func(string, job.Given[units.Temperature])) {
	water := c.temperatures(units.Celsius(0), units.Celsius(130))
	// A broken sensor shows anything.
	within(c, "readings › outdoor_shown", r.Outdoor, units.Celsius(-90), units.Celsius(120))
	b := &r.Boiler
	water("readings › boiler › supply", b.Supply)
	water("readings › boiler › supply_shown", b.Shown)
	water("readings › boiler › return", b.Return)
	c.temperatures(units.Celsius(0), units.Celsius(450))("readings › boiler › flue", b.Flue)
	within(c, "readings › boiler › rate", b.Rate, 0, 1.2)
	c.time("readings › boiler › run", b.Run, units.Hours(48))
	c.time("readings › boiler › pause", b.Pause, units.Hours(48))
	c.time("readings › boiler › meter", b.Meter, units.Hours(1))
	within(c, "readings › boiler › condensate", b.Condensate, 0, 0.1)
	within(c, "readings › boiler › pressure", b.Pressure, 0, units.Bar(10))
	within(c, "readings › boiler › filter_drop", b.Filter, 0, units.Bar(2))
	water("readings › separator › supply", r.Separator.Supply)
	water("readings › separator › return", r.Separator.Return)
	c.time("readings › tank_charge", r.Tank, units.Hours(48))
	once := map[string]bool{}
	for _, x := range r.Circuits {
		c.once(once, "readings › circuits", x.Name)
		where := "readings › circuits › " + x.Name + " › "
		water(where+"wanted", x.Wanted)
		water(where+"supply", x.Supply)
		water(where+"supply_shown", x.Shown)
		water(where+"return", x.Return)
		within(c, where+"flow", x.Flow, 0, 0.02)
		within(c, where+"pump_head", x.Head, 0, units.Bar(2))
	}
	once = map[string]bool{}
	for _, x := range r.Rooms {
		c.once(once, "readings › rooms", x.Name+" "+x.Circuit)
		outdoor("readings › rooms › "+x.Name+" › air", x.Air)
		water("readings › rooms › "+x.Name+" › return", x.Return)
	}
}

func (c *checker) once(seen map[string]bool, where, name string) {
	if seen[name] {
		c.add(fmt.Errorf("%s: %q is there twice; accepted: once", where, name))
	}
	seen[name] = true
}

func (c *checker) combustion(x *Combustion, outdoor func(string, job.Given[units.Temperature])) {
	if x == nil {
		return
	}
	if !x.Oxygen.Set && !x.CO2.Set {
		c.add(errors.New("combustion: neither oxygen nor co2 is given; one of them is needed"))
	}
	within(c, "combustion › oxygen", x.Oxygen, 0, 0.21)
	within(c, "combustion › co2", x.CO2, 0, 0.25)
	within(c, "combustion › co", x.Monoxide, 0, 0.1)
	c.temperatures(units.Celsius(5), units.Celsius(450))("combustion › flue", x.Flue)
	outdoor("combustion › air", x.Air)
}

func (c *checker) records(v *Visit) {
	if w := v.Water; w != nil {
		within(c, "water › filled", w.Filled, 0, 100)
		within(c, "water › ph", w.PH, 0, 14)
		within(c, "water › antifreeze", w.Antifreeze, 0, 1)
		within(c, "water › precharge", w.Precharge, 0, units.Bar(10))
		within(c, "water › fill", w.Fill, 0, units.Bar(10))
	}
	if p := v.Pressure; p != nil {
		within(c, "pressure_test › start", p.Start, 0, units.Bar(20))
		within(c, "pressure_test › end", p.End, 0, units.Bar(20))
		c.time("pressure_test › for", p.For, units.Hours(24*7))
	}
	once := map[string]bool{}
	for _, l := range v.Loops {
		c.once(once, "loops", l.Circuit+" "+l.Name)
		within(c, "loops › "+l.Name+" › wanted", l.Wanted, 0, 0.02)
		within(c, "loops › "+l.Name+" › set", l.Set, 0, 0.02)
	}
	once = map[string]bool{}
	for _, e := range v.Entered {
		c.once(once, "entered", e.Line)
		if e.As == "otherwise" && e.Value == "" {
			c.add(fmt.Errorf("entered › %s: it says otherwise and not what; give value", e.Line))
		}
	}
	once = map[string]bool{}
	for _, k := range v.Checks {
		c.once(once, "checks", k.Step)
	}
}

// Fingerprint is what tells a document from every other: a changed letter changes it.
//
// Range: any document.
// Source: SHA-256, FIPS 180-4.
func Fingerprint(document []byte) string {
	sum := sha256.Sum256(document)
	return hex.EncodeToString(sum[:])
}

// Seal gives the signed visit that no longer changes: with the engine's version, the job
// that it was judged against, and its own fingerprint.
//
// Range: a visit in order, with a signature and not sealed yet.
// Source: SHA-256 of the written document.
// Errors: no signature, a visit sealed already, what [Visit.Check] finds.
func (v Visit) Seal(engine string, document []byte) (Visit, error) {
	switch {
	case v.Sealed != "":
		return v, errors.New("this visit is signed and no longer changes; a correction is a new visit that names it under corrects")
	case len(v.Signatures) == 0:
		return v, errors.New("signatures: there is none; a visit is sealed once it is signed")
	}
	if err := v.Check(); err != nil {
		return v, err
	}
	v.Engine, v.Against = engine, Fingerprint(document)
	text, err := Write(&v)
	if err != nil {
		return v, err
	}
	v.Sealed = Fingerprint(text)
	return v, nil
}

// Intact tells whether a sealed visit is as it was signed.
//
// Range: a sealed visit; one that was never sealed is not intact.
// Source: SHA-256 of the written document.
func (v Visit) Intact() bool {
	sealed := v.Sealed
	v.Sealed = ""
	text, err := Write(&v)
	return err == nil && sealed != "" && bytes.Equal([]byte(Fingerprint(text)), []byte(sealed))
}
