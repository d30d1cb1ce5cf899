package web

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
)

// A photograph tells more than it shows: where it was taken, when, with which telephone.
// Before one is kept beside a job, all of that is taken out. The picture itself is left
// as it is, bit by bit, so that nothing is lost by packing it anew.

// errPicture is why a picture is refused.
var errPicture = errors.New("this picture is damaged")

// stripped gives a picture without what is not picture. Other files come back as they are.
func stripped(kind string, data []byte) ([]byte, error) {
	switch kind {
	case "image/jpeg":
		return stripJPEG(data)
	case "image/png":
		return stripPNG(data)
	case "image/webp":
		return stripWebP(data)
	}
	return data, nil
}

// Markers of a JPEG (ITU-T T.81, table B.1).
const (
	jpegStart   = 0xd8
	jpegEnd     = 0xd9
	jpegScan    = 0xda
	jpegApp0    = 0xe0 // what a viewer needs to read it
	jpegApp1    = 0xe1 // Exif and XMP
	jpegApp2    = 0xe2 // colour profile
	jpegApp14   = 0xee // how its colours are coded
	jpegApp15   = 0xef
	jpegComment = 0xfe
)

// stripJPEG keeps the segments that the picture needs. What follows its end goes too:
// telephones hide moving pictures there, with their own place and time. How the picture
// is turned is written anew.
func stripJPEG(data []byte) ([]byte, error) {
	if len(data) < 4 || data[0] != 0xff || data[1] != jpegStart {
		return nil, errPicture
	}
	var rest []byte
	turned := byte(1)
	for at := 2; ; {
		if at+2 > len(data) || data[at] != 0xff {
			return nil, errPicture
		}
		marker := data[at+1]
		switch {
		case marker == 0xff: // padding
			at++
			continue
		case marker == jpegEnd:
			out := append([]byte{0xff, jpegStart}, orientation(turned)...)
			return append(append(out, rest...), 0xff, jpegEnd), nil
		case marker == 0 || marker == 1 || marker >= 0xd0 && marker <= jpegStart:
			return nil, errPicture
		}
		if at+4 > len(data) {
			return nil, errPicture
		}
		end := at + 2 + int(binary.BigEndian.Uint16(data[at+2:]))
		if end < at+4 || end > len(data) {
			return nil, errPicture
		}
		segment := data[at+4 : end]
		switch {
		case marker == jpegApp1:
			if t := turn(segment); t != 0 {
				turned = t
			}
		case marker == jpegApp2 && !bytes.HasPrefix(segment, []byte("ICC_PROFILE\x00")):
		case marker == jpegApp0, marker == jpegApp2, marker == jpegApp14:
			rest = append(rest, data[at:end]...)
		case marker > jpegApp0 && marker <= jpegApp15, marker == jpegComment:
		default:
			rest = append(rest, data[at:end]...)
		}
		at = end
		if marker != jpegScan {
			continue
		}
		// The coded picture: until a marker that is neither a stuffed byte nor a restart.
		for at+1 < len(data) && (data[at] != 0xff || data[at+1] == 0 || data[at+1] >= 0xd0 && data[at+1] <= 0xd7) {
			at++
		}
		rest = append(rest, data[end:at]...)
	}
}

// Exif is a small TIFF; of it only this tag is kept.
const (
	exifHead       = "Exif\x00\x00"
	orientationTag = 0x0112
)

// turn reads from Exif how a picture is turned, 2 to 8; 0 for not at all.
func turn(segment []byte) byte {
	tiff, ok := bytes.CutPrefix(segment, []byte(exifHead))
	if !ok || len(tiff) < 14 {
		return 0
	}
	var order binary.ByteOrder = binary.LittleEndian
	if tiff[0] == 'M' {
		order = binary.BigEndian
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 0
	}
	entries := uint64(order.Uint16(tiff[at:]))
	for i := range entries {
		e := at + 2 + 12*i
		if e+12 > uint64(len(tiff)) {
			return 0
		}
		if order.Uint16(tiff[e:]) == orientationTag {
			if v := order.Uint16(tiff[e+8:]); v >= 2 && v <= 8 {
				return byte(v)
			}
			return 0
		}
	}
	return 0
}

// orientation is a segment that says how a picture is turned, and nothing else.
func orientation(turned byte) []byte {
	if turned == 1 {
		return nil
	}
	tiff := []byte{'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, turned, 0, 0, 0, 0, 0, 0}
	segment := []byte{0xff, jpegApp1, 0, byte(2 + len(exifHead) + len(tiff))}
	return append(append(segment, exifHead...), tiff...)
}

var pngHead = []byte("\x89PNG\r\n\x1a\n")

// pngNeeded are the chunks that are no frame of the picture but change how it looks
// (PNG specification, chapter 11). All others that a reader may skip are left out: text,
// Exif, the time.
var pngNeeded = []string{"tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "cICP", "bKGD", "pHYs", "acTL", "fcTL", "fdAT"}

// stripPNG keeps the chunks that the picture needs.
func stripPNG(data []byte) ([]byte, error) {
	if !bytes.HasPrefix(data, pngHead) {
		return nil, errPicture
	}
	out := slices.Clone(pngHead)
	for at := len(pngHead); ; {
		if at+12 > len(data) {
			return nil, errPicture
		}
		size := uint64(binary.BigEndian.Uint32(data[at:]))
		if uint64(at)+12+size > uint64(len(data)) {
			return nil, errPicture
		}
		end := at + 12 + int(size)
		name := string(data[at+4 : at+8])
		critical := name[0] >= 'A' && name[0] <= 'Z'
		if critical || slices.Contains(pngNeeded, name) {
			out = append(out, data[at:end]...)
		}
		if at = end; name == "IEND" {
			return out, nil
		}
	}
}

// Bits of a WebP's extended head (RFC 9649, section 2.7).
const (
	webpExif = 0x08
	webpXMP  = 0x04
)

// stripWebP leaves out Exif and XMP, and says in the head that they are not there.
func stripWebP(data []byte) ([]byte, error) {
	if len(data) < 20 || string(data[:4]) != "RIFF" || string(data[8:12]) != "WEBP" {
		return nil, errPicture
	}
	out := slices.Clone(data[:12])
	whole := 8 + uint64(binary.LittleEndian.Uint32(data[4:]))
	if whole > uint64(len(data)) {
		return nil, errPicture
	}
	for at := uint64(12); at+8 <= whole; {
		size := uint64(binary.LittleEndian.Uint32(data[at+4:]))
		end := at + 8 + size + size%2
		if end > whole {
			return nil, errPicture
		}
		switch name := string(data[at : at+4]); name {
		case "EXIF", "XMP ":
		case "VP8X":
			if size < 10 {
				return nil, errPicture
			}
			out = append(out, data[at:end]...)
			out[len(out)-int(end-at)+8] &^= webpExif | webpXMP
		case "VP8 ", "VP8L", "ALPH", "ANIM", "ANMF", "ICCP":
			out = append(out, data[at:end]...)
		}
		at = end
	}
	if len(out) == 12 {
		return nil, errPicture
	}
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return out, nil
}
