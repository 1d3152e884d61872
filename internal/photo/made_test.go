package photo

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The pictures that the tests send are made here.

var paints = []color.RGBA{{200, 30, 30, 255}, {30, 160, 40, 255}, {30, 40, 200, 255}, {230, 220, 200, 255}}

// corners is a picture whose four quarters are red, green, blue and cream: the
// first row left and right, the last row left and right.
func corners(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.SetRGBA(x, y, paints[2*(2*y/h)+2*x/w])
		}
	}
	return img
}

// noise is a picture of random samples.
func noise(w, h int, seed uint64) *image.RGBA {
	r := rand.New(rand.NewPCG(seed, 7))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = uint8(r.Uint32())
		if i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	return img
}

func asJPEG(img image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func asPNG(img image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// webpDot is the smallest lossy WebP, one pixel (from memory; that it decodes
// is part of the test).
func webpDot() []byte {
	b, err := base64.StdEncoding.DecodeString("UklGRiIAAABXRUJQVlA4IBYAAAAwAQCdASoBAAEADsD+JaQAA3AAAAAA")
	if err != nil {
		panic(err)
	}
	return b
}

// tiff is a directory of two tags: a maker's name, and the orientation (TIFF
// 6.0, section 2).
func tiff(order binary.AppendByteOrder, orientation uint16) []byte {
	mark := map[string]string{"BigEndian": "MM", "LittleEndian": "II"}[order.String()]
	b := order.AppendUint32(order.AppendUint16([]byte(mark), 42), 8)
	b = order.AppendUint16(b, 2)
	b = order.AppendUint32(order.AppendUint32(order.AppendUint16(order.AppendUint16(b, 271), 2), 4), 0x41424300)
	b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, 274), 3), 1)
	b = order.AppendUint16(order.AppendUint16(b, orientation), 0)
	return append(order.AppendUint32(b, 0), "GPSSECRET 38.7223N 9.1393W"...)
}

// withExif puts Exif data into a JPEG, after a JFIF segment and a comment.
func withExif(jpg, tiff []byte) []byte {
	out := []byte("\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00\xff\xfe\x00\x0bMADE HERE")
	body := append([]byte("Exif\x00\x00"), tiff...)
	out = binary.BigEndian.AppendUint16(append(out, 0xff, 0xe1), uint16(len(body)+2))
	return append(append(out, body...), jpg[2:]...)
}

// withChunk puts a chunk into a PNG, right after its first.
func withChunk(p []byte, name string, body []byte) []byte {
	chunk := append([]byte(name), body...)
	whole := append(binary.BigEndian.AppendUint32(nil, uint32(len(body))), chunk...)
	whole = binary.BigEndian.AppendUint32(whole, crc32.ChecksumIEEE(chunk))
	return append(append(append([]byte{}, p[:33]...), whole...), p[33:]...)
}

// hugePNG claims a size that it does not have.
func hugePNG(w, h uint32, depth, kind byte) []byte {
	p := asPNG(corners(4, 4))
	head := append([]byte("IHDR"), binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)...)
	head = append(head, depth, kind, 0, 0, 0)
	copy(p[12:], binary.BigEndian.AppendUint32(head, crc32.ChecksumIEEE(head)))
	return p
}

// progressiveJPEG claims a progressive frame of a size that it does not have.
func progressiveJPEG(w, h uint16) []byte {
	j := asJPEG(corners(16, 16))
	at := bytes.Index(j, []byte{0xff, 0xc0})
	j[at+1] = 0xc2
	binary.BigEndian.PutUint16(j[at+5:], h)
	binary.BigEndian.PutUint16(j[at+7:], w)
	return j
}

// before puts bytes before a marker of the large progressive JPEG.
func before(mark byte, bytesThere string) []byte {
	j := progressiveJPEG(7000, 7000)
	at := bytes.Index(j, []byte{0xff, mark})
	return append(append(append([]byte{}, j[:at]...), bytesThere...), j[at:]...)
}

// inPasses is a grey progressive JPEG of 16 × 16 in so many scans: one of the
// mean of each block, and the others of nothing more. Segments are as in ITU-T
// T.81, annex B; each of its tables has one code, a single 0, for the symbol 0.
func inPasses(scans int) []byte {
	table := string(append([]byte{1}, make([]byte, 16)...))
	j := "\xff\xd8\xff\xdb\x00\x43\x00" + strings.Repeat("\x01", 64) + "\xff\xc2\x00\x0b\x08\x00\x10\x00\x10\x01\x01\x11\x00"
	j += "\xff\xc4\x00\x14\x00" + table + "\xff\xc4\x00\x14\x10" + table
	j += "\xff\xda\x00\x08\x01\x01\x00\x00\x00\x00\x0f" + strings.Repeat("\xff\xda\x00\x08\x01\x01\x00\x01\x3f\x00\x0f", scans-1)
	return []byte(j + "\xff\xd9")
}

func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// newFolder is a folder that does not exist yet.
func newFolder(t testing.TB) *Folder {
	t.Helper()
	return At(filepath.Join(t.TempDir(), "my candles, [1]", "journal.db.photos"))
}

func fine(Kept) error { return nil }

// send keeps a picture that must be kept.
func (f *Folder) send(t testing.TB, sent []byte) Kept {
	t.Helper()
	k, err := f.Keep(t.Context(), bytes.NewReader(sent), fine)
	ok(t, err)
	return k
}

// picture opens what was kept.
func (f *Folder) picture(t testing.TB, name string) (image.Image, []byte) {
	t.Helper()
	b, err := f.read(name)
	ok(t, err)
	img, err := jpeg.Decode(bytes.NewReader(b))
	ok(t, err)
	return img, b
}

// files lists everything in the folder.
func (f *Folder) files(t testing.TB) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(f.path, func(path string, d os.DirEntry, err error) error {
		if os.IsNotExist(err) {
			return nil
		}
		if err == nil && !d.IsDir() {
			out = append(out, filepath.Base(path))
		}
		return err
	})
	ok(t, err)
	return out
}

// paintAt names the paint nearest to a pixel.
func paintAt(img image.Image, x, y int) string {
	r, g, b, _ := img.At(x, y).RGBA()
	best, least := "", 1<<30
	for i, name := range []string{"red", "green", "blue", "cream"} {
		p := paints[i]
		d := diff(int(r>>8), int(p.R)) + diff(int(g>>8), int(p.G)) + diff(int(b>>8), int(p.B))
		if d < least {
			best, least = name, d
		}
	}
	if least > 40 {
		return "none"
	}
	return best
}

func diff(a, b int) int { return max(a-b, b-a) }
