//go:build !js

package web

import (
	"io"
	"os"
)

// Files too large for the memory wait on the disk.

// inMemory is how much of a form is kept in the memory.
const inMemory = maxRequest

// spool is a file that is written and then read from its beginning.
type spool struct{ file *os.File }

func newSpool() (*spool, error) {
	f, err := os.CreateTemp("", "curvewright-*.zip")
	return &spool{f}, err
}

func (s *spool) Write(p []byte) (int, error) { return s.file.Write(p) }

// WriteTo sends all that was written.
func (s *spool) WriteTo(w io.Writer) (int64, error) {
	if _, err := s.file.Seek(0, io.SeekStart); err != nil {
		return 0, err
	}
	return io.Copy(w, s.file)
}

// done takes the file away.
func (s *spool) done() {
	s.file.Close()
	os.Remove(s.file.Name())
}
