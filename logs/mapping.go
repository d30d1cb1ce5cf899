package logs

// What was recognised, in a form that is shown, corrected and kept for the next file.

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Mapping says how a log is to be read.
type Mapping struct {
	Delimiter string   `json:"delimiter"` // one character
	Comma     bool     `json:"decimal_comma"`
	DataLine  int      `json:"first_line"` // of the readings, from 1
	Times     Layout   `json:"times"`
	Offset    float64  `json:"utc_offset"` // of the house's standard time from UTC in hours, where the times are in UTC
	Ending    bool     `json:"hour_ending"`
	Columns   []Column `json:"columns"`

	// Where each row holds one reading of one sensor, Key is the column with the sensor's
	// name and Value that with its reading, from 1; Keys are the sensors.
	// Where the name is a device's and what it measures stands in a column of its own,
	// Beside is that one.
	Key    int      `json:"key_column,omitempty"`
	Beside int      `json:"beside_column,omitempty"`
	Value  int      `json:"value_column,omitempty"`
	Keys   []Column `json:"sensors,omitempty"`
}

// Column is one column of the file and what it is taken for.
type Column struct {
	Heading    string  `json:"heading"`
	Role       Role    `json:"role"`
	Name       string  `json:"name,omitempty"` // of a room
	Unit       string  `json:"unit,omitempty"`
	Confidence float64 `json:"confidence,omitempty"` // 0 to 1
	Reason     string  `json:"reason,omitempty"`
}

const largestMapping = 256 << 10

// ReadMapping reads a kept mapping.
//
// Units: none.
// Range: what [Mapping.Check] accepts; up to 256 kB.
// Source: own layout.
// Errors: not JSON, a field that is not known, what Check refuses.
func ReadMapping(data []byte) (Mapping, error) {
	var m Mapping
	if len(data) > largestMapping {
		return m, fmt.Errorf("column mapping: %d bytes given; accepted: up to %d", len(data), largestMapping)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&m); err != nil {
		return m, fmt.Errorf("column mapping cannot be read: %w", err)
	}
	return m, m.Check()
}

// Write writes the mapping as [ReadMapping] takes it.
//
// Range: any mapping.
// Source: own layout.
// Errors: a failure of w.
func (m Mapping) Write(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(m)
}

// Check says what of a mapping cannot be used.
//
// Range: one delimiter, one column of times, roles and units that fit each other.
// Source: own requirement.
// Errors: the first fault, with the column and what would be accepted.
func (m Mapping) Check() error {
	switch {
	case len(m.Delimiter) != 1 || strings.ContainsAny(m.Delimiter, "\r\n\"0123456789"):
		return fmt.Errorf("delimiter: %q given; accepted: one character, as a comma, a semicolon or a tab", clip([]byte(m.Delimiter)))
	case !slices.Contains(layouts, m.Times):
		return fmt.Errorf("form of the times: %q given; accepted: %s", clip([]byte(m.Times)), listed(layouts))
	case m.DataLine < 1:
		return fmt.Errorf("first line of readings: %d given; accepted: 1 and more", m.DataLine)
	case !(m.Offset >= -12 && m.Offset <= 14):
		return errors.New("offset from UTC: accepted: -12 to 14 hours")
	case len(m.Columns) > mostCells || len(m.Keys) > mostCells:
		return fmt.Errorf("columns: %d given; accepted: up to %d", max(len(m.Columns), len(m.Keys)), mostCells)
	case m.Key < 0 || m.Value < 0 || m.Beside < 0 || m.Beside > 0 && (m.Key == 0 || m.Beside == m.Key || m.Beside == m.Value) || max(m.Key, m.Beside, m.Value) > len(m.Columns) || (m.Key > 0) != (m.Value > 0) || m.Key > 0 && m.Key == m.Value:
		return fmt.Errorf("columns of sensors and readings: %d and %d given; accepted: two of the %d columns, or neither", m.Key, m.Value, len(m.Columns))
	}
	times := 0
	for i, c := range slices.Concat(m.Columns, m.Keys) {
		where := fmt.Sprintf("column %d (%s)", i+1, clip([]byte(c.Heading)))
		if !slices.Contains(Roles(), c.Role) {
			return fmt.Errorf("%s: role %q given; accepted: %s", where, clip([]byte(c.Role)), listed(Roles()))
		}
		if c.Role == Time {
			times++
		}
		accept, measures := kinds[c.Role]
		if !measures {
			continue
		}
		u, ok := UnitNamed(c.Unit)
		if !ok || !slices.Contains(accept, u.Kind) {
			return fmt.Errorf("%s: unit %q given; accepted for %s: %s", where, clip([]byte(c.Unit)), c.Role, unitsOf(accept))
		}
	}
	if times != 1 {
		return fmt.Errorf("%d columns of times are named; accepted: one with the role %q", times, Time)
	}
	return nil
}

func listed[T ~string](all []T) string {
	words := make([]string, len(all))
	for i, a := range all {
		words[i] = string(a)
	}
	return strings.Join(words, ", ")
}

func unitsOf(accept []Kind) string {
	var out []string
	for _, k := range known {
		if slices.Contains(accept, k.kind) {
			out = append(out, strings.Fields(k.names)[0])
		}
	}
	return strings.Join(out, ", ")
}

// Assign sets the meaning of columns from a text such as "3=outdoor °F, 5=room Kitchen,
// Supply T=supply": a number from 1 or a heading, the role, and a unit or a room's name.
//
// Units: by their names.
// Range: columns of the mapping.
// Source: own layout.
// Errors: a column or a role that is not there, then what [Mapping.Check] refuses.
func (m *Mapping) Assign(text string) error {
	m.Columns, m.Keys = slices.Clone(m.Columns), slices.Clone(m.Keys)
	for _, part := range strings.Split(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, what, ok := strings.Cut(part, "=")
		c := m.column(strings.TrimSpace(name))
		if !ok || c == nil {
			return fmt.Errorf("%q does not name a column; accepted: its number from 1 to %d or its heading, then = and a role", clip([]byte(strings.TrimSpace(part))), len(m.Columns)+len(m.Keys))
		}
		if err := c.assign(strings.TrimSpace(what)); err != nil {
			return err
		}
	}
	return m.Check()
}

// column finds a column by number or heading; sensors are counted on from the columns.
func (m *Mapping) column(name string) *Column {
	for i := range len(m.Columns) + len(m.Keys) {
		c := m.at(i)
		if fmt.Sprint(i+1) == name || c.Heading != "" && strings.EqualFold(c.Heading, name) {
			return c
		}
	}
	return nil
}

func (m *Mapping) at(i int) *Column {
	if i < len(m.Columns) {
		return &m.Columns[i]
	}
	return &m.Keys[i-len(m.Columns)]
}

func (c *Column) assign(what string) error {
	role := Role("")
	for _, r := range Roles() {
		if rest, ok := strings.CutPrefix(what, string(r)); ok && len(r) > len(role) && (rest == "" || rest[0] == ' ') {
			role = r
		}
	}
	if role == "" {
		return fmt.Errorf("%q is no role; accepted: %s", clip([]byte(what)), listed(Roles()))
	}
	rest := strings.TrimSpace(what[len(role):])
	accept := kinds[role]
	if old, ok := UnitNamed(c.Unit); !ok || !slices.Contains(accept, old.Kind) {
		c.Unit = ""
	}
	for word := range strings.FieldsSeq(rest) {
		if u, ok := UnitNamed(word); ok && slices.Contains(accept, u.Kind) {
			c.Unit = u.Name
			rest = strings.TrimSpace(strings.Replace(rest, word, "", 1))
		}
	}
	if u, ok := UnitNamed(rest); ok {
		return fmt.Errorf("column %q: unit %s given; accepted for %s: %s", clip([]byte(c.Heading)), u.Name, role, unitsOf(accept))
	}
	c.Role, c.Confidence, c.Reason = role, 1, "as told"
	if c.Name = rest; role == Room && rest == "" {
		c.Name = c.Heading
	}
	if c.Unit == "" && len(accept) > 0 {
		c.Unit = firstUnit(accept)
	}
	return nil
}

func firstUnit(accept []Kind) string {
	for _, k := range known {
		if k.kind == accept[0] {
			return strings.Fields(k.names)[0]
		}
	}
	return ""
}
