package photo

import (
	"bytes"
	"encoding/binary"
	"io"
)

// exifMost is how much of a file is looked through for its orientation.
const exifMost = 256 << 10

// orientation is how a picture must be turned to stand upright, 1 to 8, as its
// Exif data says (CIPA DC-008, tag 274 "Orientation"); 1 when nothing does.
func orientation(kind string, file io.ReaderAt) int {
	switch kind {
	case "jpeg":
		head := make([]byte, exifMost)
		n, _ := file.ReadAt(head, 0)
		return jpegOrientation(head[:n])
	case "png":
		return chunkOrientation(file, 8, pngChunk)
	}
	return chunkOrientation(file, 12, riffChunk)
}

// jpegOrientation walks the segments before the picture's data (ITU-T T.81
// annex B) to the first APP1 that holds Exif.
func jpegOrientation(b []byte) int {
	for at := 2; at+4 <= len(b) && b[at] == 0xff; {
		marker, size := b[at+1], int(binary.BigEndian.Uint16(b[at+2:]))
		if marker == 0xda || size < 2 || at+2+size > len(b) {
			return 1
		}
		if tiff, is := bytes.CutPrefix(b[at+4:at+2+size], []byte("Exif\x00\x00")); marker == 0xe1 && is {
			return tiffOrientation(tiff)
		}
		at += 2 + size
	}
	return 1
}

// chunk is one chunk of a PNG or a WebP: its name, its length, and how many
// bytes stand around its data.
type chunk struct {
	name          string
	size          int64
	before, after int64
}

// pngChunk reads the head of a chunk of a PNG (W3C PNG, 5.3).
func pngChunk(b []byte) chunk {
	return chunk{string(b[4:8]), int64(binary.BigEndian.Uint32(b)), 8, 4}
}

// riffChunk reads the head of a chunk of a WebP (RFC 9649, 2.3).
func riffChunk(b []byte) chunk {
	size := int64(binary.LittleEndian.Uint32(b[4:]))
	return chunk{string(b[:4]), size, 8, size & 1}
}

// chunkOrientation walks chunks to the first that holds Exif data.
func chunkOrientation(file io.ReaderAt, at int64, read func([]byte) chunk) int {
	for head := make([]byte, 8); ; {
		if _, err := file.ReadAt(head, at); err != nil {
			return 1
		}
		c := read(head)
		if c.name == "eXIf" || c.name == "EXIF" {
			tiff := make([]byte, min(c.size, exifMost))
			n, _ := file.ReadAt(tiff, at+c.before)
			return tiffOrientation(bytes.TrimPrefix(tiff[:n], []byte("Exif\x00\x00")))
		}
		at += c.before + c.size + c.after
	}
}

// tiffOrientation reads tag 274 of the first directory (TIFF 6.0, section 2).
func tiffOrientation(b []byte) int {
	if len(b) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if b[0] == 'I' {
		order = binary.LittleEndian
	}
	dir := int64(order.Uint32(b[4:]))
	if string(b[:2]) != "II" && string(b[:2]) != "MM" || dir+2 > int64(len(b)) {
		return 1
	}
	entries := b[dir+2:]
	for n := order.Uint16(b[dir:]); n > 0 && len(entries) >= 12; n, entries = n-1, entries[12:] {
		if order.Uint16(entries) != 274 {
			continue
		}
		if o := int(order.Uint16(entries[8:])); order.Uint16(entries[2:]) == 3 && o >= 1 && o <= 8 {
			return o
		}
		return 1
	}
	return 1
}
