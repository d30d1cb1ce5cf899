package logs

// A look into a long file without reading all of it.

import (
	"bytes"
	"io"
)

const (
	headBytes   = 512 << 10
	headRows    = 2500
	peeks       = 8
	peekBytes   = 8 << 10
	peeksMatter = 2 << 20
)

// Sample gives the beginning of a file and some rows from further on, for [Recognise]:
// sensors that come later in a table of single readings, and days beyond the twelfth,
// which tell day from month.
//
// Units: size in bytes.
// Range: any file; of one in UTF-16 the beginning only.
// Source: own method.
// Errors: a failure of r.
func Sample(r io.ReaderAt, size int64) (io.Reader, error) {
	whole := io.NewSectionReader(r, 0, size)
	if size < peeksMatter {
		return whole, nil
	}
	head := make([]byte, headBytes)
	n, err := r.ReadAt(head, 0)
	if err != nil && err != io.EOF {
		return nil, err
	}
	head = head[:n]
	if bytes.IndexByte(head[:min(n, 4000)], 0) >= 0 {
		return whole, nil
	}
	end := 0
	for range headRows {
		i := bytes.IndexByte(head[end:], '\n')
		if i < 0 {
			break
		}
		end += i + 1
	}
	if end == 0 {
		return whole, nil
	}
	out := append([]byte{}, head[:end]...)
	peek := make([]byte, peekBytes)
	for k := 1; k <= peeks; k++ {
		at := size/(peeks+1)*int64(k) - peekBytes/2
		if at < int64(end) {
			continue
		}
		n, err := r.ReadAt(peek, at)
		if err != nil && err != io.EOF {
			return nil, err
		}
		first, last := bytes.IndexByte(peek[:n], '\n'), bytes.LastIndexByte(peek[:n], '\n')
		if first >= 0 && last > first {
			out = append(out, peek[first+1:last+1]...)
		}
	}
	return bytes.NewReader(out), nil
}
