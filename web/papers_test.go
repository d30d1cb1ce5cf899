package web

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// upload sends one file as a form does.
func upload(t testing.TB, h http.Handler, address string, data []byte) *httptest.ResponseRecorder {
	t.Helper()
	return uploadAll(t, h, address, nil, sent{"file", "library.yaml", data})
}

// sent is one file of a form.
type sent struct {
	field, name string
	data        []byte
}

func uploadAll(t testing.TB, h http.Handler, address string, fields url.Values, files ...sent) *httptest.ResponseRecorder {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, formWith(t, address, fields, files...))
	return w
}

// formWith is a form with files, as a browser sends it.
func formWith(t testing.TB, address string, fields url.Values, files ...sent) *http.Request {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for name, v := range fields {
		_ = form.WriteField(name, v[0])
	}
	for _, f := range files {
		part, err := form.CreateFormFile(f.field, f.name)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = part.Write(f.data)
	}
	form.Close()
	r := httptest.NewRequest(http.MethodPost, address, &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	return r
}

const secret = "52.3105 N 13.4050 E"

// picture is something with colours that packing would change.
func picture() image.Image {
	m := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for x := range 40 {
		for y := range 30 {
			m.Set(x, y, color.RGBA{uint8(6 * x), uint8(8 * y), uint8(x * y), 255})
		}
	}
	return m
}

// photo is a JPEG with all that a telephone hides in it.
func photo(turned byte) []byte {
	var plain bytes.Buffer
	_ = jpeg.Encode(&plain, picture(), nil)
	segment := func(marker byte, content string) []byte {
		return append([]byte{0xff, marker, byte((len(content) + 2) >> 8), byte(len(content) + 2)}, content...)
	}
	exif := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x02\x00" +
		"\x12\x01\x03\x00\x01\x00\x00\x00" + string([]byte{turned}) + "\x00\x00\x00" +
		"\x25\x88\x04\x00\x01\x00\x00\x00\x26\x00\x00\x00" + "\x00\x00\x00\x00" + secret
	data := plain.Bytes()
	out := append([]byte{}, data[:2]...)
	out = append(out, segment(0xe1, exif)...)
	out = append(out, segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+secret)...)
	out = append(out, segment(0xe2, "MPF\x00"+secret)...)
	out = append(out, segment(0xe2, "ICC_PROFILE\x00\x01\x01 profile")...)
	out = append(out, segment(0xed, "Photoshop 3.0\x00"+secret)...)
	out = append(out, segment(0xfe, secret)...)
	out = append(out, data[2:]...)
	return append(out, "moving picture, taken at "+secret...)
}

// chunk is a part of a PNG.
func chunk(name, content string) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(content)))
	out = append(out, name+content...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE([]byte(name+content)))
}

func screenshot() []byte {
	var plain bytes.Buffer
	_ = png.Encode(&plain, picture())
	data := plain.Bytes()
	out := append([]byte{}, data[:33]...) // head and IHDR
	for _, name := range []string{"tEXt", "zTXt", "iTXt", "eXIf", "tIME"} {
		out = append(out, chunk(name, secret)...)
	}
	out = append(out, chunk("gAMA", "\x00\x00\xb1\x8f")...)
	return append(append(out, data[33:]...), secret...)
}

// webp is the frame of one; what is coded in it does not matter here.
func webp() []byte {
	part := func(name, content string) string {
		size := binary.LittleEndian.AppendUint32(nil, uint32(len(content)))
		if len(content)%2 == 1 {
			content += "\x00"
		}
		return name + string(size) + content
	}
	body := "WEBP" + part("VP8X", "\x2c\x00\x00\x00\x27\x00\x00\x1d\x00\x00") + part("ICCP", "profile") + part("VP8 ", "coded") + part("EXIF", secret) + part("XMP ", secret)
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func TestPlaceAndTimeAreTakenOutOfPictures(t *testing.T) {
	for _, turned := range []byte{1, 6} {
		bare, err := stripped("image/jpeg", photo(turned))
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(bare, []byte("52.3105")) || !bytes.Contains(bare, []byte("ICC_PROFILE")) {
			t.Error("the place is still in the JPEG, or its colours are gone")
		}
		if got := bytes.Contains(bare, []byte("Exif")); got != (turned != 1) {
			t.Errorf("turned by %d: Exif there: %v", turned, got)
		}
		if turned != 1 {
			if i := bytes.Index(bare, []byte("Exif")); turn(bare[i:]) != turned {
				t.Errorf("the picture is turned by %d, not by %d", turn(bare[i:]), turned)
			}
		}
		before, err1 := jpeg.Decode(bytes.NewReader(photo(turned)))
		after, err2 := jpeg.Decode(bytes.NewReader(bare))
		if err1 != nil || err2 != nil || !same(before, after) {
			t.Errorf("the picture changed: %v, %v", err1, err2)
		}
	}
	bare, err := stripped("image/png", screenshot())
	if err != nil || bytes.Contains(bare, []byte("52.3105")) || !bytes.Contains(bare, []byte("gAMA")) {
		t.Errorf("PNG: %v, or the place is still in it, or its colours are gone", err)
	}
	if after, err := png.Decode(bytes.NewReader(bare)); err != nil || !same(picture(), after) {
		t.Errorf("the PNG changed: %v", err)
	}
	bare, err = stripped("image/webp", webp())
	if err != nil || bytes.Contains(bare, []byte("52.3105")) || !bytes.Contains(bare, []byte("ICCP")) || bare[20] != 0x20 {
		t.Errorf("WebP: %v, %q", err, bare)
	}
	if size := binary.LittleEndian.Uint32(bare[4:]); int(size) != len(bare)-8 {
		t.Errorf("the WebP says %d bytes and has %d", size, len(bare)-8)
	}
	for kind, data := range map[string][]byte{"image/jpeg": photo(1)[:300], "image/png": screenshot()[:60], "image/webp": webp()[:30]} {
		if _, err := stripped(kind, data); err == nil {
			t.Errorf("half of a %s was taken", kind)
		}
	}
}

func same(a, b image.Image) bool {
	if a.Bounds() != b.Bounds() {
		return false
	}
	for x := range a.Bounds().Dx() {
		for y := range a.Bounds().Dy() {
			r1, g1, b1, a1 := a.At(x, y).RGBA()
			r2, g2, b2, a2 := b.At(x, y).RGBA()
			if r1 != r2 || g1 != g2 || b1 != b2 || a1 != a2 {
				return false
			}
		}
	}
	return true
}

// FuzzStripped: whatever comes, it is refused or comes back no larger than a turn's
// segment more, and stripping it once more changes nothing.
func FuzzStripped(f *testing.F) {
	f.Add(photo(6))
	f.Add(screenshot())
	f.Add(webp())
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, kind := range []string{"image/jpeg", "image/png", "image/webp"} {
			once, err := stripped(kind, data)
			if err != nil {
				continue
			}
			if len(once) > len(data)+len(orientation(6)) {
				t.Errorf("%s: %d bytes became %d", kind, len(data), len(once))
			}
			twice, err := stripped(kind, once)
			if err != nil || !bytes.Equal(once, twice) {
				t.Errorf("%s: stripping again gives %v and other bytes", kind, err)
			}
		}
	})
}

var paperLink = regexp.MustCompile(`/jobs/[^"]*/papers/[^"]+`)

func TestPhotosAndPapersLieBesideAJob(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	w := uploadAll(t, h, at+"/papers", url.Values{"name": {"Rating plate"}},
		sent{"files", "IMG_0001.JPG", photo(1)}, sent{"files", "screen.png", screenshot()}, sent{"files", "manual.pdf", []byte("%PDF-1.7\nx")}, sent{"files", "readings.csv", []byte("time,°C\n1,20\n")})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	page := get(t, h, at+"/papers").Body.String()
	for _, want := range []string{"Rating plate.jpg", "screen.png", "manual.pdf", "readings.csv", "4 files"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not show %s", want)
		}
	}
	links := map[string]bool{}
	for _, l := range paperLink.FindAllString(page, -1) {
		links[l] = true
	}
	if len(links) != 4 {
		t.Fatalf("%d links", len(links))
	}
	kinds := map[string]string{"image/jpeg": "inline", "image/png": "inline", "application/pdf": "attachment", "text/plain; charset=utf-8": "inline"}
	for l := range links {
		w := get(t, h, l)
		hd := w.Header()
		how, ok := kinds[hd.Get("Content-Type")]
		if w.Code != http.StatusOK || !ok || !strings.HasPrefix(hd.Get("Content-Disposition"), how+"; filename=") {
			t.Errorf("%s: %d %s, %s", l, w.Code, hd.Get("Content-Type"), hd.Get("Content-Disposition"))
		}
		if hd.Get("X-Content-Type-Options") != "nosniff" || !strings.Contains(hd.Get("Content-Security-Policy"), "sandbox") || !strings.Contains(hd.Get("Content-Security-Policy"), "default-src 'none'") {
			t.Errorf("%s: %v", l, hd)
		}
		if strings.Contains(w.Body.String(), "52.3105") {
			t.Errorf("%s still tells its place", l)
		}
		if hd.Get("Content-Type") == "application/pdf" {
			if w := post(t, h, l, url.Values{"name": {"Manual of the boiler"}}); w.Code != http.StatusSeeOther {
				t.Errorf("renaming: %d", w.Code)
			}
		}
		if hd.Get("Content-Type") == "image/png" {
			post(t, h, l, url.Values{"do": {"remove"}})
		}
	}
	page = get(t, h, at+"/papers").Body.String()
	if !strings.Contains(page, "Manual of the boiler.pdf") || strings.Contains(page, "screen.png") || !strings.Contains(page, "3 files") {
		t.Error("a file was not called otherwise, or not taken away")
	}
	other := begun(t, h, "combi-slab")
	for l := range links {
		if w := get(t, h, other+l[strings.Index(l, "/papers"):]); w.Code != http.StatusNotFound {
			t.Errorf("a file of another job is shown: %d", w.Code)
		}
	}
}

func TestThePlaceStaysOnlyIfThatIsWished(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	uploadAll(t, h, at+"/papers", url.Values{"place": {"yes"}}, sent{"files", "a.jpg", photo(1)})
	link := paperLink.FindString(get(t, h, at+"/papers").Body.String())
	if !bytes.Equal(get(t, h, link).Body.Bytes(), photo(1)) {
		t.Error("the photo is not as it was")
	}
}

func TestWhatABrowserCouldRunIsRefused(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	for name, data := range map[string]string{
		"plan.svg":    `<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`,
		"plan.txt":    "  \n<!DOCTYPE html><html></html>",
		"notes.html":  "just words",
		"photo.jpg":   "<script>alert(1)</script>",
		"program.exe": "MZ\x00\x01\x02",
		"picture.gif": "GIF89a\x01\x00\x01\x00",
		"broken.jpg":  "\xff\xd8\xff\xe0\x00\x10JFIF",
		"empty.txt":   "",
	} {
		w := uploadAll(t, h, at+"/papers", nil, sent{"files", name, []byte(data)}, sent{"files", "good.txt", []byte("a good one")})
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "“"+name+"”") {
			t.Errorf("%s: %d, or no sentence about it", name, w.Code)
		}
	}
	if page := get(t, h, at+"/papers").Body.String(); !strings.Contains(page, "8 files") {
		t.Error("the good files beside the refused ones were not kept")
	}
}

func TestFilesAreBounded(t *testing.T) {
	h := handler(t)
	at := begun(t, h, "short-survey")
	large := bytes.Repeat([]byte("many words\n"), maxPaper/11+2)
	if w := uploadAll(t, h, at+"/papers", nil, sent{"files", "large.txt", large}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "10 MB") {
		t.Errorf("a file of more than 10 MB: %d", w.Code)
	}
	just := large[:maxPaper-9]
	files := make([]sent, 10)
	for i := range files {
		files[i] = sent{"files", "words.txt", just}
	}
	for range 2 {
		if w := uploadAll(t, h, at+"/papers", nil, files...); w.Code != http.StatusSeeOther {
			t.Fatalf("ten files: %d", w.Code)
		}
	}
	if w := uploadAll(t, h, at+"/papers", nil, files[0]); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "200 MB") {
		t.Errorf("more than 200 MB beside a job: %d", w.Code)
	}
	if w := uploadAll(t, h, at+"/papers", nil, append(files, files[0])...); w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("too much at once: %d", w.Code)
	}
	if w := uploadAll(t, h, at+"/survey/house", nil, sent{"file", "large.txt", large}); w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("the bound elsewhere was raised too: %d", w.Code)
	}
}
