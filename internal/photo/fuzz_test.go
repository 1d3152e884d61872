package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"testing"
)

// Whatever comes is kept whole or refused with a sentence; nothing panics and
// nothing else stays.
func FuzzKeep(f *testing.F) {
	jpg := withExif(asJPEG(corners(24, 16)), tiff(binary.BigEndian, 6))
	for _, seed := range [][]byte{jpg, jpg[:100], asPNG(corners(9, 9)), withChunk(asPNG(corners(9, 9)), "eXIf", tiff(binary.LittleEndian, 3)),
		webpDot(), progressiveJPEG(20, 20), hugePNG(20, 20, 8, 6), []byte("\x00\x00\x00\x18ftypheic"), nil} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, sent []byte) {
		folder := newFolder(t)
		k, err := folder.Keep(t.Context(), bytes.NewReader(sent), fine)
		var refused *Refused
		switch {
		case err == nil:
			if fault := folder.Fault(k.Hash); fault != "" {
				t.Error(fault)
			}
		case !errors.As(err, &refused) || refused.Sentence == "":
			t.Errorf("got %v", err)
		case len(folder.files(t)) > 0:
			t.Errorf("left behind: %v", folder.files(t))
		}
	})
}

func FuzzOrientation(f *testing.F) {
	f.Add([]byte("\xff\xd8"), int8(0))
	f.Add(tiff(binary.BigEndian, 6), int8(1))
	f.Add(withExif(asJPEG(corners(8, 8)), tiff(binary.LittleEndian, 8)), int8(0))
	f.Add(withChunk(asPNG(corners(9, 9)), "eXIf", tiff(binary.LittleEndian, 3)), int8(2))
	f.Add(append(webpDot()[:12], "EXIF\x08\x00\x00\x00II*\x00\x08\x00\x00\x00"...), int8(3))
	f.Fuzz(func(t *testing.T, b []byte, as int8) {
		kind := []string{"jpeg", "png", "webp"}[uint8(as)%3]
		for _, o := range []int{orientation(kind, bytes.NewReader(b)), tiffOrientation(b), jpegOrientation(b)} {
			if o < 1 || o > 8 {
				t.Errorf("orientation %d", o)
			}
		}
		frameOf(bytes.NewReader(b))
	})
}
