package settings

import (
	"fmt"
	"slices"
	"strings"
)

// What must stand beside figures that hold only under a condition which the survey does not
// meet yet: a mixing valve that is still to come, a pump that does not give the flow.

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
		if c.short != "" {
			beside(s, fmt.Sprintf("Holds with %s in %s; at full speed its pump gives %s. See the findings.", m.say(c.flow), c.job.Name, c.short),
				c.key+".design-supply", c.key+".cold-supply", c.key+".slope", c.key+".point-1", c.key+".flow",
				"separator-sensor", "separator-offset", "condensing", "least-return")
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
