package job

import (
	"time"

	"curvewright/units"
)

// What a log has taught: factors that can still be the same house.
const (
	LeastLearned = units.Number(0.2)
	MostLearned  = units.Number(5)
)

func (c *checker) learned() {
	l := c.job.Learned
	if l == nil {
		return
	}
	at := top("learned")
	if _, err := time.Parse(time.DateOnly, l.Until); err != nil {
		c.fault(at.at("until"), l.Until, "is not a day", "a day as 2027-02-14", "")
	}
	c.learnedFactor(l.Loss, at.at("loss"))
	circuits, seen := c.circuitNames(), map[string]bool{}
	for i, e := range l.Emitters {
		p := at.at("emitters").entry(i, e.Circuit)
		c.exists(e.Circuit, circuits, "circuit", p.at("circuit"))
		if seen[e.Circuit] {
			c.fault(p.at("circuit"), e.Circuit, "has its factor already", "one entry for each circuit", "")
		}
		seen[e.Circuit] = true
		c.learnedFactor(e.Factor, p.at("factor"))
	}
}

func (c *checker) learnedFactor(g Given[units.Number], p *place) {
	if g.Set && (g.Value < LeastLearned || g.Value > MostLearned) {
		c.fault(p, g.Text, "cannot be the same house", c.say(LeastLearned)+" to "+c.say(MostLearned), "see that log and job belong together")
	}
}
