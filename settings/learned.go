package settings

// What readings of the running house have taught about the survey's uncertain figures.

import (
	"curvewright/emitter"
	"curvewright/job"
	"curvewright/refuse"
	"curvewright/units"
)

// Learned corrects a survey by what the house was seen to do: factors on its losses and
// on the output of each circuit's emitters, and the doubt that is left of both.
type Learned struct {
	Loss         units.Fraction
	LossDoubt    units.Fraction
	Emitters     []units.Fraction // by circuit; none leaves the survey's
	EmitterDoubt []units.Fraction // below 0 leaves the survey's
}

// The widest corrections that can be taken for the same house.
const (
	leastLearned = units.Fraction(job.LeastLearned)
	mostLearned  = units.Fraction(job.MostLearned)
)

// LearnedOf is what a job says that it was taught; nil if nothing.
//
// Units: factors and shares.
// Range: a checked job.
// Source: definition.
func LearnedOf(j *job.Job) *Learned {
	if j.Learned == nil {
		return nil
	}
	l := &Learned{Loss: units.Fraction(j.Learned.Loss.Value), LossDoubt: j.Learned.LossDoubt.Value}
	for _, c := range j.Circuits {
		factor, doubt := units.Fraction(1), units.Fraction(-1)
		for _, e := range j.Learned.Emitters {
			if e.Circuit == c.Name {
				factor, doubt = units.Fraction(e.Factor.Value), e.Doubt.Value
			}
		}
		l.Emitters, l.EmitterDoubt = append(l.Emitters, factor), append(l.EmitterDoubt, doubt)
	}
	return l
}

// learn applies what was learned. A room keeps the gains and the flow that it had.
func (m *model) learn(l *Learned) error {
	if l == nil {
		return nil
	}
	if err := refuse.Within("learned factor on the heat loss", l.Loss, leastLearned, mostLearned); err != nil {
		return err
	}
	m.house.doubt = float64(l.LossDoubt)
	for i := range m.rooms {
		m.rooms[i].loss = m.rooms[i].loss.Scale(l.Loss)
	}
	for i := range m.circuits {
		c := &m.circuits[i]
		factor := units.Fraction(1)
		if i < len(l.Emitters) {
			factor = l.Emitters[i]
			if err := refuse.Within("learned factor on the emitters of "+c.job.Name, factor, leastLearned, mostLearned); err != nil {
				return err
			}
		}
		if i < len(l.EmitterDoubt) && l.EmitterDoubt[i] >= 0 {
			c.doubt = float64(l.EmitterDoubt[i])
		}
		c.load = 0
		for k := range c.solve.Rooms {
			r := &c.solve.Rooms[k]
			r.Loss = r.Loss.Scale(l.Loss)
			c.load += max(0, r.Load(m.design, r.Setpoint))
			for n := range r.Emitters {
				r.Emitters[n] = emitter.Scaled(r.Emitters[n], factor)
				c.feeds[k][n].emitter = r.Emitters[n]
			}
		}
	}
	return nil
}
