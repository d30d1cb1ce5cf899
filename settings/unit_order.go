package settings

import (
	"regexp"
	"strings"

	"curvewright/units"
)

// Sentences of the trade name a temperature in both systems, so that anybody can read a
// caution. The reader's own comes first.

const figure = `[−-]?\d[\d.,]*(?: (?:to|and) [−-]?\d[\d.,]*)?[ \x{a0}]`

var (
	usFirst = regexp.MustCompile(`(` + figure + `(?:°F|gpm|psi|ft/s)) \((` + figure + `(?:°C|K|L/min|bar|m/s))\)`)
	siFirst = regexp.MustCompile(`(` + figure + `(?:°C|K|L/min|bar|m/s)) \((` + figure + `(?:°F|gpm|psi|ft/s))\)`)
)

// ownFirst turns pairs of a sentence so that the reader's unit leads.
func ownFirst(text string, sys units.System) string {
	for _, unit := range [...]string{"°F", "gpm", "psi", "ft/s"} { // looks before it searches: most sentences name no pair
		if strings.Contains(text, unit) {
			text = turned(usFirst, text, sys, units.SI)
			return turned(siFirst, text, sys, units.US)
		}
	}
	return text
}

// turned turns the pairs that one system leads where the reader reads the other.
func turned(pairs *regexp.Regexp, text string, sys, wanted units.System) string {
	return pairs.ReplaceAllStringFunc(text, func(pair string) string {
		if sys.In(kindOfPair(pair)) != wanted {
			return pair
		}
		return pairs.ReplaceAllString(pair, "$2 ($1)")
	})
}

// kindOfPair tells by its US unit what a pair is about.
func kindOfPair(text string) units.Kind {
	switch {
	case strings.Contains(text, "gpm"):
		return units.Flows
	case strings.Contains(text, "psi"):
		return units.Pressures
	case strings.Contains(text, "ft/s"):
		return units.Velocities
	}
	return units.Temperatures
}

// pair names one value in both systems for a working, the reader's first.
func (m *model) pair(us, si string) string {
	if m.sys.In(kindOfPair(us)) == units.US {
		return us + " (" + si + ")"
	}
	return si + " (" + us + ")"
}

// ownUnitsFirst turns the sentences of a whole sheet.
func (s *Sheet) ownUnitsFirst() {
	turn := func(texts ...*string) {
		for _, t := range texts {
			*t = ownFirst(*t, s.System)
		}
	}
	for i := range s.Sections {
		for k := range s.Sections[i].Lines {
			l := &s.Sections[i].Lines[k]
			turn(&l.Value, &l.Why, &l.TooHigh, &l.TooLow, &l.Caution, &l.Instead)
		}
	}
	for i := range s.Findings {
		f := &s.Findings[i]
		turn(&f.Text)
		for k := range f.Cures {
			turn(&f.Cures[k])
		}
	}
	for i := range s.Cautions {
		turn(&s.Cautions[i])
	}
}
