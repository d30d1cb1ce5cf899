package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"slices"

	"codeberg.org/go-pdf/fpdf"
	scaled "golang.org/x/image/draw"
	_ "golang.org/x/image/webp" // telephones and browsers pack photographs so

	"curvewright/report"
)

// Pictures of a record: made as small as paper needs, turned the right way up, and packed
// so that every reader of PDF can show them.

// Paperwork writes a record as a PDF, as [report.PrintPaperwork] lays it out. A picture
// that cannot be read is left out; its caption stays. The same record and options give the
// same bytes.
//
// Errors: as [report.PrintPaperwork].
func Paperwork(w io.Writer, work *report.Paperwork, opts report.PDFOptions) error {
	if work != nil {
		ready := *work
		ready.Parts = slices.Clone(work.Parts)
		for i := range ready.Parts {
			ready.Parts[i].Pictures = slices.Clone(ready.Parts[i].Pictures)
			for k := range ready.Parts[i].Pictures {
				prepare(&ready.Parts[i].Pictures[k])
			}
		}
		work = &ready
	}
	return report.PrintPaperwork(w, work, opts, New)
}

// Household writes the household's sheet as a PDF, as [report.PrintHousehold] lays it out.
//
// Errors: as [report.PrintHousehold].
func Household(w io.Writer, sheet *report.HouseholdSheet, opts report.PDFOptions) error {
	return report.PrintHousehold(w, sheet, opts, New)
}

// Bounds of a picture: more dots than these are no photograph, and more than the last are
// of no use on half a page.
const (
	mostDots  = 60 << 20
	enough    = 1100
	packed    = 82
	whiteness = 0xff
)

// prepare makes a picture ready for paper; one that cannot be read is emptied.
func prepare(p *report.PaperPicture) {
	data := p.Data
	p.Data = nil
	head, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || head.Width <= 0 || head.Height <= 0 || head.Width > mostDots/head.Height {
		return
	}
	picture, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return
	}
	size := picture.Bounds().Size()
	if longest := max(size.X, size.Y); longest > enough {
		size = image.Pt(max(1, size.X*enough/longest), max(1, size.Y*enough/longest))
	}
	flat := image.NewRGBA(image.Rect(0, 0, size.X, size.Y))
	draw.Draw(flat, flat.Bounds(), image.NewUniform(color.Gray{Y: whiteness}), image.Point{}, draw.Src)
	scaled.ApproxBiLinear.Scale(flat, flat.Bounds(), picture, picture.Bounds(), scaled.Over, nil)
	if kind == "jpeg" {
		flat = turned(flat, orientation(data))
	}
	var out bytes.Buffer
	if p.Small { // strokes of a pen blur in a JPEG
		grey := image.NewGray(flat.Bounds())
		draw.Draw(grey, grey.Bounds(), flat, image.Point{}, draw.Src)
		err = png.Encode(&out, grey)
	} else {
		err = jpeg.Encode(&out, flat, &jpeg.Options{Quality: packed})
	}
	if err == nil {
		p.Data, p.Width, p.Height = out.Bytes(), flat.Bounds().Dx(), flat.Bounds().Dy()
	}
}

// orientation reads from the only Exif that is kept beside a photograph how it is turned,
// 1 to 8 (Exif 2.3, tag 274). It looks where stripping puts it: a segment at the very
// beginning, in the order of Motorola.
func orientation(data []byte) byte {
	head := []byte("Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00")
	at := bytes.Index(data[:min(len(data), 64)], head)
	if at < 0 || at+len(head) >= len(data) {
		return 1
	}
	return data[at+len(head)]
}

// turned turns and mirrors a picture as its orientation says.
func turned(p *image.RGBA, how byte) *image.RGBA {
	if how < 2 || how > 8 {
		return p
	}
	w, h := p.Bounds().Dx(), p.Bounds().Dy()
	size := image.Rect(0, 0, w, h)
	if how >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	out := image.NewRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			from := [...][2]int{2: {w - 1 - x, y}, 3: {w - 1 - x, h - 1 - y}, 4: {x, h - 1 - y},
				5: {y, x}, 6: {y, h - 1 - x}, 7: {w - 1 - y, h - 1 - x}, 8: {w - 1 - y, x}}[how]
			out.SetRGBA(x, y, p.RGBAAt(from[0], from[1]))
		}
	}
	return out
}

// Picture sets a picture that is ready.
func (p *press) Picture(data []byte, x, y, w, h float64) {
	kind := fpdf.ImageOptions{ImageType: "JPG"}
	if bytes.HasPrefix(data, []byte("\x89PNG")) {
		kind.ImageType = "PNG"
	}
	sum := sha256.Sum256(data)
	name := hex.EncodeToString(sum[:])
	p.pdf.RegisterImageOptionsReader(name, kind, bytes.NewReader(data))
	p.pdf.ImageOptions(name, x, y, w, h, false, kind, 0, "")
}
