package photo

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
)

// The markers of a JPEG that are told apart (ITU-T T.81, table B.1).
const (
	markSOF0 = 0xc0 // baseline frame
	markSOF2 = 0xc2 // progressive frame
	markRST0 = 0xd0 // restart, the first of eight
	markRST7 = 0xd7
	markEOI  = 0xd9 // end of the picture
	markSOS  = 0xda // scan
)

// frame is what the markers of a JPEG tell before it is decoded.
type frame struct {
	progressive bool // also when no frame was found
	scans       int
}

// frameOf walks the markers of a JPEG from its start to its end, or to where
// it breaks off. As image/jpeg does, it passes over stray bytes, fill bytes
// and restart markers, so that none of them hides a frame or a scan.
func frameOf(file io.ReaderAt) frame {
	f, found := frame{progressive: true}, false
	r := bufio.NewReaderSize(io.NewSectionReader(file, 2, MaxBytes), 64<<10)
	for {
		mark, err := nextMarker(r)
		if err != nil || mark == markEOI {
			return f
		}
		if mark >= markRST0 && mark <= markRST7 {
			continue
		}
		if mark >= markSOF0 && mark <= markSOF2 && !found {
			f.progressive, found = mark == markSOF2, true
		}
		if mark == markSOS {
			f.scans++
		}
		if skipSegment(r) != nil {
			return f
		}
	}
}

// nextMarker reads to the next marker and past it. The 0xff 0 within a scan's
// data is none.
func nextMarker(r *bufio.Reader) (byte, error) {
	for {
		_, err := r.ReadSlice(0xff)
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = r.ReadSlice(0xff)
		}
		mark := byte(0xff)
		for err == nil && mark == 0xff {
			mark, err = r.ReadByte()
		}
		if err != nil || mark != 0 {
			return mark, err
		}
	}
}

// skipSegment reads past what belongs to a marker; its length counts itself.
func skipSegment(r *bufio.Reader) error {
	var size [2]byte
	if _, err := io.ReadFull(r, size[:]); err != nil {
		return err
	}
	n := int(binary.BigEndian.Uint16(size[:])) - len(size)
	if n < 0 {
		return io.ErrUnexpectedEOF
	}
	_, err := r.Discard(n)
	return err
}
