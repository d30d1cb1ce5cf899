package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"slices"
	"testing"

	"curvewright/report"
)

// TestAPictureStandsUpright: a picture whose red corner is at the upper left when it is
// looked at keeps it there, however the telephone was held.
func TestAPictureStandsUpright(t *testing.T) {
	const w, h = 48, 32
	for how := byte(1); how <= 8; how++ {
		// Where the upper left corner of the upright picture is stored (Exif 2.3, tag 274).
		corner := map[byte][2]bool{1: {false, false}, 2: {true, false}, 3: {true, true}, 4: {false, true}, 5: {false, false}, 6: {false, true}, 7: {true, true}, 8: {true, false}}[how]
		stored := image.NewRGBA(image.Rect(0, 0, w, h))
		for y := range h {
			for x := range w {
				c := color.RGBA{255, 255, 255, 255}
				if (x >= w/2) == corner[0] && (y >= h/2) == corner[1] {
					c = color.RGBA{200, 0, 0, 255}
				}
				stored.SetRGBA(x, y, c)
			}
		}
		var b bytes.Buffer
		if err := jpeg.Encode(&b, stored, nil); err != nil {
			t.Fatal(err)
		}
		tiff := []byte{'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, how, 0, 0, 0, 0, 0, 0}
		exif := append([]byte{0xff, 0xe1, 0, byte(8 + len(tiff))}, append([]byte("Exif\x00\x00"), tiff...)...)
		p := report.PaperPicture{Data: slices.Concat(b.Bytes()[:2], exif, b.Bytes()[2:])}
		prepare(&p)
		ready, err := jpeg.Decode(bytes.NewReader(p.Data))
		if err != nil {
			t.Fatalf("%d: %v", how, err)
		}
		size := ready.Bounds().Size()
		if want := image.Pt(w, h); how >= 5 && size != image.Pt(h, w) || how < 5 && size != want {
			t.Errorf("%d: %v", how, size)
		}
		for _, at := range []struct {
			x, y int
			red  bool
		}{{4, 4, true}, {size.X - 5, 4, false}, {4, size.Y - 5, false}, {size.X - 5, size.Y - 5, false}} {
			_, g, _, _ := ready.At(at.x, at.y).RGBA()
			if (g < 0x8000) != at.red {
				t.Errorf("%d: the corner at %d, %d is not as it should be", how, at.x, at.y)
			}
		}
	}
}

func TestAPictureThatIsNoneIsLeftOut(t *testing.T) {
	for _, data := range []string{"", "no picture", "\xff\xd8\xff", "GIF89a\xff\xff\xff\xff"} {
		p := report.PaperPicture{Data: []byte(data), Caption: "x"}
		if prepare(&p); p.Data != nil || p.Caption != "x" {
			t.Errorf("%q came out as %d bytes", data, len(p.Data))
		}
	}
}
