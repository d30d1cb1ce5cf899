package settings

import (
	"fmt"
	"slices"
	"strings"
)

// What must stand beside figures that hold only under a condition which the survey does not
// meet yet: a mixing valve that is still to come, a pump that gives less than the flow.

// besideTheFigures writes such conditions into the lines of a sheet.
func (m *model) besideTheFigures(s *Sheet) {
	for i := range m.circuits {
		c := &m.circuits[i]
		if c.withheld {
			beside(s, fmt.Sprintf("Only once a mixing valve stands in front of %s; see the stop. Until then no boiler water may go in.", c.job.Name),
				c.key+".assign", c.key+".flow", c.key+".pump", c.key+".balance", c.key+".loops")
			beside(s, fmt.Sprintf("Reckoned as if %s had its mixing valve, which is not there yet.", c.job.Name),
				"differential", "rest", "least-return", "cold-start")
		}
		if c.weak != nil {
			m.besideWeakPump(s, c)
		}
	}
}

// besideWeakPump says beside the figures of a circuit that its pump's flow is less than it
// wants, and beside those of the curve what a right pump would allow.
func (m *model) besideWeakPump(s *Sheet, c *circuit) {
	reckoned := fmt.Sprintf("Reckoned with %s in %s, all that its pump gives. See the findings.", m.say(c.runs), c.job.Name)
	beside(s, reckoned, "condensing", "least-return")
	if m.streams.separated {
		beside(s, reckoned, "separator-sensor", "separator-offset")
	}
	set := m.control.step.Nearest(c.weak.right.setting.At(m.design))
	right := append(m.shapeLines(c, c.weak.right, nil, Line{}), Line{ID: c.key + ".design-supply", Value: m.control.step.Text(set)})
	for _, could := range right {
		for _, sec := range s.Sections {
			for _, l := range sec.Lines {
				if l.ID != could.ID || l.Value == could.Value {
					continue
				}
				beside(s, fmt.Sprintf("Reckoned with %s in %s, all that its pump gives; with %s it could be %s.",
					m.say(c.runs), c.job.Name, m.say(c.flow), could.Value), l.ID)
			}
		}
	}
}

// beside adds a sentence to what the lines of these names say instead.
func beside(s *Sheet, sentence string, names ...string) {
	for i := range s.Sections {
		for k := range s.Sections[i].Lines {
			if l := &s.Sections[i].Lines[k]; slices.Contains(names, l.ID) && l.Value != "not yet" {
				l.Instead = strings.TrimSpace(l.Instead + " " + sentence)
			}
		}
	}
}
