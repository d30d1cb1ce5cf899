package weather

// What the readers of text files share.

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"curvewright/units"
)

// readable strips what editors put before a text and refuses what is none.
func readable(data []byte) (string, error) {
	if len(data) == 0 {
		return "", errors.New("the file is empty")
	}
	if len(data) > 1 && data[0] == 0x1f && data[1] == 0x8b || strings.HasPrefix(string(data[:min(4, len(data))]), "PK\x03\x04") {
		return "", errors.New("the file is packed: unpack it first")
	}
	s := string(data)
	if strings.IndexByte(s[:min(len(s), 4000)], 0) >= 0 {
		return "", errors.New("the file is not plain text")
	}
	return strings.TrimPrefix(s, "\ufeff"), nil
}

// nextLine cuts the first line off, whatever the system that wrote it ends lines with.
func nextLine(s string) (line, rest string) {
	i := strings.IndexAny(s, "\r\n")
	if i < 0 {
		return s, ""
	}
	line, rest = s[:i], s[i+1:]
	if s[i] == '\r' && strings.HasPrefix(rest, "\n") {
		rest = rest[1:]
	}
	return line, rest
}

// cells splits a line into buf, taking a separator within quotes as text.
func cells(line string, sep byte, buf []string) []string {
	buf = buf[:0]
	for {
		if t := strings.TrimLeft(line, " "); strings.HasPrefix(t, `"`) {
			if end := strings.IndexByte(t[1:], '"'); end >= 0 {
				buf = append(buf, t[1:1+end])
				i := strings.IndexByte(t[end+2:], sep)
				if i < 0 {
					return buf
				}
				line = t[end+2+i+1:]
				continue
			}
		}
		i := strings.IndexByte(line, sep)
		if i < 0 {
			return append(buf, strings.TrimSpace(line))
		}
		buf = append(buf, strings.TrimSpace(line[:i]))
		line = line[i+1:]
	}
}

// number reads a plain decimal; NaN stands for a cell that holds none.
func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsInf(v, 0) {
		return math.NaN()
	}
	return v
}

func whole(s string) int {
	v, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil {
		return -1
	}
	return v
}

// located sets where a place lies, if the figures can be.
func (p *Place) located(latitude, longitude, elevation, utc float64) error {
	switch {
	case !(latitude >= -90 && latitude <= 90):
		return fmt.Errorf("latitude %s is not between −90 and 90°", shown(latitude))
	case !(longitude >= -180 && longitude <= 180):
		return fmt.Errorf("longitude %s is not between −180 and 180° (west is negative)", shown(longitude))
	case !(utc >= -12 && utc <= 14):
		return fmt.Errorf("UTC offset %s is not between −12 and 14 h", shown(utc))
	case !(elevation >= -450 && elevation <= 9000):
		return fmt.Errorf("elevation %s is not between −450 and 9,000 m", shown(elevation))
	}
	p.Latitude, p.Longitude, p.Elevation, p.UTCOffset, p.Located = latitude, longitude, units.Length(elevation), utc, true
	return nil
}

func shown(x float64) string {
	if math.IsNaN(x) {
		return "that cannot be read"
	}
	return plainNumber(x)
}

// clip keeps a text from a file short enough to be shown in a message.
func clip(s string) string {
	const most = 40
	s = strings.ToValidUTF8(strings.TrimSpace(s), "?")
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "…"
}

// offsetMeridian notes a UTC offset far from what the longitude suggests.
func (g *grid) offsetMeridian(p Place) {
	if d := p.UTCOffset - p.Longitude/15; p.Located && math.Abs(d) > 2.5 && math.Abs(math.Abs(d)-24) > 2.5 {
		g.note("UTC offset %s h does not fit longitude %s°: is a sign wrong?", plainNumber(p.UTCOffset), plainNumber(p.Longitude))
	}
}
