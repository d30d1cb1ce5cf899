package followup

import "strings"

// plainName makes the names of rooms in a log and in a survey comparable.
func plainName(name string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		case r == ' ' || r == '_' || r == '-' || r == '.':
			return -1
		}
		return r
	}, strings.TrimSpace(name))
}
