package visit

import (
	"fmt"
	"strings"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/refuse"
	"curvewright/sensor"
	"curvewright/settings"
)

// What does the document of a visit say, in the terms of a house?

// FromDocument gives conditions and readings of a visit's document.
//
// Units: those of the document.
// Range: a document in order ([attendance.Visit.Check]).
// Source: definition.
// Errors: rooms or circuits that the job does not have, where the document does not tell
// which is meant.
func (h *House) FromDocument(v *attendance.Visit) (Conditions, []Measured, error) {
	d := v.Conditions
	c := Conditions{Outdoor: d.Outdoor.Value, State: State(d.State), Calling: d.Calling, Tank: d.Tank == "yes", Since: d.Since.Value, Start: d.Start.Value}
	var t taker
	r := &v.Readings
	take(&t, Reading{Measure: OutdoorShown}, r.Outdoor, 0)
	water := float64(v.Instruments.Thermometer.Value)
	b := &r.Boiler
	take(&t, Reading{Measure: BoilerSupply}, b.Supply, water)
	take(&t, Reading{Measure: BoilerShown}, b.Shown, 0)
	take(&t, Reading{Measure: BoilerReturn}, b.Return, water)
	take(&t, Reading{Measure: FiringRate}, b.Rate, 0)
	take(&t, Reading{Measure: BurnerRun}, b.Run, 0)
	take(&t, Reading{Measure: BurnerPause}, b.Pause, 0)
	take(&t, Reading{Measure: MeterTime}, b.Meter, 0)
	take(&t, Reading{Measure: FlueGas}, b.Flue, float64(v.Instruments.Flue.Value))
	take(&t, Reading{Measure: Condensate}, b.Condensate, 0)
	take(&t, Reading{Measure: Pressure}, b.Pressure, float64(v.Instruments.Gauge.Value))
	take(&t, Reading{Measure: FilterDrop}, b.Filter, 0)
	take(&t, Reading{Measure: SecondarySupply}, r.Separator.Supply, water)
	take(&t, Reading{Measure: SecondaryReturn}, r.Separator.Return, water)
	take(&t, Reading{Measure: TankCharge}, r.Tank, 0)
	for _, x := range r.Circuits {
		of := func(m Measure) Reading { return Reading{Measure: m, Circuit: x.Name} }
		take(&t, of(Wanted), x.Wanted, 0)
		take(&t, of(Supply), x.Supply, water)
		take(&t, of(SupplyShown), x.Shown, 0)
		take(&t, of(Return), x.Return, water)
		take(&t, of(Flow), x.Flow, float64(v.Instruments.Flow.Value)*float64(x.Flow.Value))
		take(&t, of(PumpHead), x.Head, 0)
	}
	long := c.State == Settled || c.State == Held
	for _, x := range r.Rooms {
		if x.Air.Set {
			c.Rooms = append(c.Rooms, RoomAir{Room: x.Name, Air: x.Air.Value})
			if long {
				take(&t, Reading{Measure: Air, Room: x.Name}, x.Air, float64(v.Instruments.Room.Value))
			}
		}
		if !x.Return.Set {
			continue
		}
		on, err := h.feeds(x.Name, x.Circuit)
		if err != nil {
			return c, nil, err
		}
		take(&t, Reading{Measure: BranchReturn, Circuit: on, Room: x.Name}, x.Return, water)
	}
	return c, t.taken, nil
}

type taker struct{ taken []Measured }

func take[T refuse.Quantity](t *taker, r Reading, g job.Given[T], accuracy float64) {
	if g.Set {
		t.taken = append(t.taken, Measured{Reading: r, Value: float64(g.Value), Accuracy: accuracy})
	}
}

// feeds names the circuit of a room's emitters.
func (h *House) feeds(room, named string) (string, error) {
	var on []string
	for _, r := range h.readings {
		if r.Measure == BranchReturn && strings.EqualFold(r.Room, room) && (named == "" || strings.EqualFold(r.Circuit, named)) {
			on = append(on, r.Circuit)
		}
	}
	switch len(on) {
	case 0:
		return "", fmt.Errorf("readings › rooms: %q has no return of its own on a circuit of this job", room)
	case 1:
		return on[0], nil
	}
	return "", fmt.Errorf("readings › rooms: %q is fed by %s; say under circuit whose return it is", room, strings.Join(on, " and "))
}

// SensorReading is a sensor's judgement.
type SensorReading struct {
	Name string
	sensor.Judgement
}

// JudgeSensors judges the resistances of a visit's document against the thermometer held
// beside each sensor; without one, outdoor sensors against the outdoor temperature.
//
// Units: those of the document.
// Range: sensors of the job, as settings.JudgeSensor.
// Source: settings.JudgeSensor.
// Errors: a sensor that the job does not list, one without a temperature beside it.
func (h *House) JudgeSensors(v *attendance.Visit) ([]SensorReading, error) {
	var out []SensorReading
	for _, r := range v.Readings.Sensors {
		var survey *job.Sensor
		for i := range h.job.Sensors {
			if strings.EqualFold(h.job.Sensors[i].Name, r.Name) {
				survey = &h.job.Sensors[i]
			}
		}
		if survey == nil {
			return nil, fmt.Errorf("readings › sensors: the job has no sensor %q", r.Name)
		}
		beside := r.Beside
		if !beside.Set && strings.Contains(strings.ToLower(r.Name), "outdoor") {
			beside = v.Conditions.Outdoor
		}
		if !beside.Set {
			return nil, fmt.Errorf("readings › sensors: %s has no temperature beside it", r.Name)
		}
		j, err := settings.JudgeSensor(*survey, r.Reads.Value, beside.Value)
		if err != nil {
			return nil, err
		}
		out = append(out, SensorReading{Name: survey.Name, Judgement: j})
	}
	return out, nil
}
