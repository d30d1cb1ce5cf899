package logs

// How bytes become lines and cells, whatever program wrote them.

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

const (
	longestLine = 64 << 10
	quoteAhead  = 1 << 10 // within which a quoted cell with line breaks ends
	mostCells   = 256
)

// plain gives a reader of single-byte or UTF-8 text without a byte order mark.
func plain(r io.Reader) (*bufio.Reader, error) {
	b := bufio.NewReaderSize(r, 256<<10)
	head, err := b.Peek(4)
	if len(head) == 0 {
		if err == nil || err == io.EOF {
			err = errors.New("the file is empty")
		}
		return nil, err
	}
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		_, err = b.Discard(3)
		return b, err
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		big := head[0] == 0xfe
		if _, err = b.Discard(2); err != nil {
			return nil, err
		}
		return bufio.NewReaderSize(&wide{from: b, big: big}, 64<<10), nil
	case len(head) == 4 && head[1] == 0 && head[3] == 0 && head[0] != 0:
		return bufio.NewReaderSize(&wide{from: b}, 64<<10), nil
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return nil, errors.New("the file is packed: a spreadsheet (.xlsx) must be opened as one, an archive unpacked first")
	case bytes.HasPrefix(head, []byte("\x1f\x8b")):
		return nil, errors.New("the file is packed: unpack it first")
	case bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0")):
		return nil, errors.New("the file is an old binary spreadsheet: save it as CSV first")
	}
	head, _ = b.Peek(4000)
	if err := noTable(head); err != nil {
		return nil, err
	}
	if bytes.IndexByte(head, '\r') >= 0 && bytes.IndexByte(head, '\n') < 0 {
		return bufio.NewReaderSize(returns{b}, 64<<10), nil
	}
	return b, nil
}

// noTable tells what a file is that is no table of text.
func noTable(head []byte) error {
	begin := bytes.TrimSpace(head)
	switch {
	case bytes.IndexByte(head, 0) >= 0:
		return errors.New("the file is not plain text")
	case bytes.HasPrefix(begin, []byte("<")):
		return errors.New("the file is a page of the web or XML, not a table: export the readings as CSV")
	case bytes.HasPrefix(begin, []byte("{")), bytes.HasPrefix(begin, []byte("[{")), bytes.HasPrefix(begin, []byte("[[")):
		return errors.New("the file is JSON, not a table: export the readings as CSV")
	}
	return nil
}

// returns makes line feeds of carriage returns, where nothing else ends the lines.
type returns struct{ from io.Reader }

// Read gives the next bytes.
func (r returns) Read(p []byte) (int, error) {
	n, err := r.from.Read(p)
	for i, c := range p[:n] {
		if c == '\r' {
			p[i] = '\n'
		}
	}
	return n, err
}

// wide turns UTF-16 into UTF-8.
type wide struct {
	from *bufio.Reader
	big  bool
	rest []byte
	high rune // first half of a pair
}

// Read gives the next bytes.
func (w *wide) Read(p []byte) (int, error) {
	for len(w.rest) < len(p) {
		a, err := w.from.ReadByte()
		if err != nil {
			break
		}
		b, err := w.from.ReadByte()
		if err != nil {
			break
		}
		r := rune(a) | rune(b)<<8
		if w.big {
			r = rune(a)<<8 | rune(b)
		}
		switch {
		case w.high != 0:
			r, w.high = utf16.DecodeRune(w.high, r), 0
		case utf16.IsSurrogate(r):
			w.high = r
			continue
		}
		w.rest = utf8.AppendRune(w.rest, r)
	}
	n := copy(p, w.rest)
	w.rest = w.rest[:copy(w.rest, w.rest[n:])]
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

// lines hands out one line after another, whatever ends them, and counts.
type lines struct {
	from  *bufio.Reader
	count int
	bytes int64
	buf   []byte
}

// next gives the next line without its end. It is good until the next call.
func (l *lines) next() ([]byte, error) {
	l.buf = l.buf[:0]
	for {
		part, err := l.from.ReadSlice('\n')
		l.bytes += int64(len(part))
		if err == nil && len(l.buf) == 0 && bytes.IndexByte(part, '"') < 0 {
			l.count++
			return trimEnd(part), nil
		}
		l.buf = append(l.buf, part...)
		switch {
		case err == nil && quoteOpen(l.buf) && l.closes():
			l.buf[len(l.buf)-1] = ' '
			l.buf = append(bytes.TrimRight(l.buf, " \r"), ' ')
		case err == nil:
			l.count++
			return trimEnd(l.buf), nil
		case err == bufio.ErrBufferFull:
			if len(l.buf) > longestLine {
				return nil, fmt.Errorf("line %d is longer than %d characters; a log has one reading of all sensors in each line", l.count+1, longestLine)
			}
		case err == io.EOF && len(l.buf) > 0:
			l.count++
			return trimEnd(l.buf), nil
		default:
			return nil, err
		}
	}
}

// quoteOpen tells whether a line ends within a quoted cell: a quote that begins a cell
// has no end.
func quoteOpen(line []byte) bool {
	open := false
	for i, c := range line {
		switch {
		case c != '"':
		case open:
			open = false
		case i == 0 || bytes.IndexByte([]byte(",;\t| \""), line[i-1]) >= 0:
			open = true
		}
	}
	return open
}

// closes tells whether a quoted cell that goes on ends within the next lines. A stray
// quote, as for inches, does not.
func (l *lines) closes() bool {
	ahead, _ := l.from.Peek(quoteAhead)
	for i, c := range ahead {
		if c == '"' && (i+1 == len(ahead) || bytes.IndexByte([]byte(",;\t| \r\n\""), ahead[i+1]) >= 0) {
			return true
		} else if c == '"' {
			return false
		}
	}
	return false
}

func trimEnd(b []byte) []byte { return bytes.TrimRight(b, "\r\n") }

// cells splits a line; a delimiter within quotes is text.
func cells(line []byte, delimiter byte, buf [][]byte) [][]byte {
	buf = buf[:0]
	for len(buf) < mostCells {
		if t := bytes.TrimLeft(line, " "); len(t) > 0 && t[0] == '"' && delimiter != '"' {
			if end := quoteEnd(t[1:]); end >= 0 {
				buf = append(buf, bytes.TrimSpace(t[1:1+end]))
				i := bytes.IndexByte(t[end+2:], delimiter)
				if i < 0 {
					return buf
				}
				line = t[end+2+i+1:]
				continue
			}
		}
		i := bytes.IndexByte(line, delimiter)
		if i < 0 {
			return append(buf, bytes.TrimSpace(line))
		}
		buf = append(buf, bytes.TrimSpace(line[:i]))
		line = line[i+1:]
		if delimiter == ' ' {
			line = bytes.TrimLeft(line, " ")
		}
	}
	return buf
}

// quoteEnd finds the quote that ends a cell; two of them are one within the text.
func quoteEnd(b []byte) int {
	for i := 0; i < len(b); i++ {
		if b[i] == '"' {
			if i+1 == len(b) || b[i+1] != '"' {
				return i
			}
			i++
		}
	}
	return -1
}

// windows are the signs that Windows has where Latin-1 has none, and that stand for bytes
// of letters here.
var windows = map[rune]byte{'€': 0x80, '„': 0x84, 'ˆ': 0x88, '‰': 0x89, 'Š': 0x8a, '–': 0x96, 'œ': 0x9c, 'Ÿ': 0x9f}

// mended gives a heading that was UTF-8, taken for Latin-1 and written as UTF-8 again.
func mended(b []byte) []byte {
	if !bytes.Contains(b, []byte("Ã")) && !bytes.Contains(b, []byte("Â")) || !utf8.Valid(b) {
		return b
	}
	out := make([]byte, 0, len(b))
	for _, r := range string(b) {
		c, ok := windows[r]
		switch {
		case ok:
			out = append(out, c)
		case r < 0x100:
			out = append(out, byte(r))
		default:
			return b
		}
	}
	if !utf8.Valid(out) {
		return b
	}
	return out
}

// clip makes a text from a file short and safe enough to be shown.
func clip(b []byte) string {
	const most = 60
	s := make([]rune, 0, most)
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && n <= 1 {
			r = rune(b[i]) // Latin-1: its bytes are the code points
		}
		i += max(1, n)
		if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 || r >= 0x202a && r <= 0x202e {
			r = ' '
		}
		if s = append(s, r); len(s) == most {
			break
		}
	}
	return string(s)
}

// figure reads a number with a decimal point or comma, digits perhaps grouped in
// threes by the other sign, a blank or an apostrophe. A cell without a number gives
// false.
func figure(b []byte, comma bool) (float64, bool) {
	b = bytes.TrimSpace(b)
	if len(b) == 0 || len(b) > 40 {
		return 0, false
	}
	negative := false
	switch {
	case b[0] == '-' || b[0] == '+':
		negative, b = b[0] == '-', b[1:]
	case bytes.HasPrefix(b, []byte("−")):
		negative, b = true, b[len("−"):]
	}
	point, group := byte('.'), byte(',')
	if comma {
		point, group = ',', '.'
	}
	v, scale, digits, seen := 0.0, 1.0, 0, false
	for i := 0; i < len(b); i++ {
		switch c := b[i]; {
		case c >= '0' && c <= '9':
			digits++
			v = v*10 + float64(c-'0')
			if seen {
				scale *= 10
			}
		case c == point && !seen:
			seen = true
		case !seen && digits > 0 && apart(b[i:], group) > 0:
			i += apart(b[i:], group) - 1
		case (c == 'e' || c == 'E') && digits > 0:
			e, ok := exponent(b[i+1:])
			if !ok {
				return 0, false
			}
			v *= e
			i = len(b)
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > 25 {
		return 0, false
	}
	if v /= scale; negative {
		v = -v
	}
	return v, true
}

// apart gives the length of a sign that parts thousands, if three digits follow it.
func apart(b []byte, group byte) int {
	n := 0
	switch {
	case b[0] == group, b[0] == '\'', b[0] == ' ', b[0] == 0xa0:
		n = 1
	case bytes.HasPrefix(b, []byte("\u00a0")):
		n = 2
	case bytes.HasPrefix(b, []byte("\u202f")), bytes.HasPrefix(b, []byte("\u2009")), bytes.HasPrefix(b, []byte("’")):
		n = 3
	}
	if n == 0 || !threeDigits(b[n:]) {
		return 0
	}
	return n
}

func threeDigits(b []byte) bool {
	for i := range 3 {
		if i >= len(b) || b[i] < '0' || b[i] > '9' {
			return false
		}
	}
	return len(b) == 3 || b[3] < '0' || b[3] > '9'
}

// exponent gives the power of ten written after an e.
func exponent(b []byte) (float64, bool) {
	negative := false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		negative, b = b[0] == '-', b[1:]
	}
	if len(b) == 0 || len(b) > 2 {
		return 0, false
	}
	n := 0
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	if n > 30 {
		return 0, false
	}
	e := 1.0
	for range n {
		e *= 10
	}
	if negative {
		e = 1 / e
	}
	return e, true
}
