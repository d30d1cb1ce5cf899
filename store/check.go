package store

import (
	"encoding/base32"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// What every store does in the same way: judge what it is given, make identities and
// moments, fold text for the search.

// Outside is what a store needs from outside, so that a test can know it beforehand.
type Outside struct {
	Now    func() time.Time // the clock
	Random io.Reader        // for identities
}

// Moment is the time now as stores keep it: to the microsecond, in UTC.
func (o Outside) Moment() time.Time { return o.Now().UTC().Truncate(time.Microsecond) }

// idBytes make identities of 12 letters: among a million documents, the chance that two
// are alike is one in two million, and then a store draws again.
const idBytes = 8

// letters have no i, l, o or u, so that an identity can be read out and spells nothing.
var letters = base32.NewEncoding("0123456789abcdefghjkmnpqrstvwxyz").WithPadding(base32.NoPadding)

// NewID makes an identity that is fit for an address.
func (o Outside) NewID() (string, error) {
	var drawn [idBytes]byte
	if _, err := io.ReadFull(o.Random, drawn[:]); err != nil {
		return "", fmt.Errorf("no identity could be made for a new document: %w", err)
	}
	return letters.EncodeToString(drawn[:])[:12], nil
}

// CheckEntry refuses an entry that no program of ours makes.
func CheckEntry(e Entry) error {
	if !e.Kind.known() {
		return fmt.Errorf("%q is no kind of document", e.Kind)
	}
	return checkLines(e.Title, e.About)
}

// CheckChange refuses a change that cannot be one of a document whose newest revision
// is given.
func CheckChange(c Change, newest int) error {
	if c.Undoes < 0 || c.Undoes > newest {
		return fmt.Errorf("revision %d cannot be taken back; the newest is %d", c.Undoes, newest)
	}
	return checkLines(c.Title, c.About)
}

// CheckState refuses what is no state of a document.
func CheckState(s State) error {
	if !s.known() {
		return fmt.Errorf("%q is no state of a document", s)
	}
	return nil
}

// CheckFile refuses a file whose name is none.
func CheckFile(f File) error { return checkLines(f.Name, f.Type) }

func checkLines(lines ...string) error {
	for _, line := range lines {
		if !utf8.ValidString(line) || strings.ContainsAny(line, "\n\x00") {
			return fmt.Errorf("%q is not one line of text", line)
		}
	}
	return nil
}
