package sqlite

import (
	"bytes"
	"compress/flate"
	"fmt"
	"io"
)

// Revisions are kept whole, so that each can be read without the others, and packed: the
// job of a house of ten rooms takes a quarter of its room then, which counts when every
// pause in typing makes a revision.

const (
	unpacked = "none"
	deflated = "deflate"
)

// pack makes a document small, if it can be made smaller.
func pack(document []byte) (packing string, content []byte, err error) {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.DefaultCompression)
	if err != nil {
		return "", nil, err
	}
	if _, err := w.Write(document); err != nil {
		return "", nil, err
	}
	if err := w.Close(); err != nil {
		return "", nil, err
	}
	if b.Len() >= len(document) {
		return unpacked, append([]byte{}, document...), nil
	}
	return deflated, b.Bytes(), nil
}

func unpack(packing string, content []byte) ([]byte, error) {
	switch packing {
	case unpacked:
		return append([]byte{}, content...), nil
	case deflated:
		return io.ReadAll(flate.NewReader(bytes.NewReader(content)))
	}
	return nil, fmt.Errorf("a revision is packed in the way %q, which is not known", packing)
}
