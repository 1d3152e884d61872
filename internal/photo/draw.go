package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"

	"golang.org/x/image/webp"

	"rimward/internal/journal"
)

// The quality of what is kept, as image/jpeg counts it.
const (
	pictureQuality = 85
	smallQuality   = 80
)

// drawn is a picture as it will be kept.
type drawn struct {
	kept           Kept
	picture, small []byte // JPEG
}

// redraw opens a received picture and draws the two that are kept.
func redraw(file *os.File) (drawn, error) {
	src, turn, err := open(file)
	if err != nil {
		return drawn{}, err
	}
	size := src.Bounds()
	w, h := journal.Within(size.Dx(), size.Dy(), journal.PhotoSide)
	upright := turned(reduced(src, w, h), turn)
	size = upright.Bounds()
	w, h = journal.Within(size.Dx(), size.Dy(), journal.SmallSide)
	d := drawn{kept: Kept{Width: size.Dx(), Height: size.Dy()}}
	if d.picture, err = encoded(upright, pictureQuality); err != nil {
		return d, err
	}
	d.small, err = encoded(reduced(upright, w, h), smallQuality)
	sum := sha256.Sum256(d.picture)
	d.kept.Hash = hex.EncodeToString(sum[:])
	return d, err
}

func encoded(img image.Image, quality int) ([]byte, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("encode photo: %w", err)
	}
	return b.Bytes(), nil
}

// decoders open the kinds that are kept.
var decoders = map[string]struct {
	look func(io.Reader) (image.Config, error)
	open func(io.Reader) (image.Image, error)
}{
	"jpeg": {jpeg.DecodeConfig, jpeg.Decode},
	"png":  {png.DecodeConfig, png.Decode},
	"webp": {webp.DecodeConfig, webp.Decode},
}

// trouble is said of a picture that does not open.
const trouble = "It is damaged or incomplete, or of an unusual kind. Send it again, or save it anew as a JPEG."

// open decodes a received picture once its size is known to be bearable, and
// says how it must be turned.
func open(file *os.File) (img image.Image, turn int, err error) {
	head := make([]byte, 4096)
	n, err := file.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, 0, fmt.Errorf("read photo: %w", err)
	}
	kind, err := kindOf(head[:n])
	if err != nil {
		return nil, 0, err
	}
	whole := func() io.Reader { return io.NewSectionReader(file, 0, MaxBytes) }
	cfg, err := decoders[kind].look(whole())
	if err != nil {
		return nil, 0, refuse(trouble)
	}
	if err := bearable(cfg, kind == "jpeg" && progressive(file)); err != nil {
		return nil, 0, err
	}
	img, err = decoded(decoders[kind].open, whole())
	if err != nil {
		return nil, 0, refuse(trouble)
	}
	return img, orientation(kind, file), nil
}

// decoded calls a decoder; one that panics over a hostile file fails.
func decoded(open func(io.Reader) (image.Image, error), r io.Reader) (img image.Image, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("decode photo: %v", p)
		}
	}()
	if img, err = open(r); err == nil && img.Bounds().Empty() {
		err = errors.New("decode photo: no pixels")
	}
	return img, err
}

// bearable refuses pictures whose opening would take too much memory, however
// small their file is.
func bearable(c image.Config, progressive bool) error {
	if c.Width < 1 || c.Height < 1 {
		return refuse(trouble)
	}
	pixels := int64(c.Width) * int64(c.Height)
	if c.Width > maxSide || c.Height > maxSide || pixels > maxPixels {
		return refuse("It has %d × %d pixels; at most %d megapixels and %d pixels on one side can be opened here. Send a smaller copy of it.",
			c.Width, c.Height, maxPixels/1_000_000, maxSide)
	}
	if pixels*bytesEach(c.ColorModel, progressive) > maxWork {
		return refuse("Opening it would take too much memory: it has %d × %d pixels in a form that needs much of it. Send a smaller copy, or save it as an ordinary JPEG.", c.Width, c.Height)
	}
	return nil
}

// bytesEach is how much memory a pixel takes at most while it is decoded. A
// progressive JPEG holds a 32-bit coefficient for each sample until its end.
func bytesEach(m color.Model, progressive bool) int64 {
	each := int64(4)
	switch m {
	case color.YCbCrModel:
		each = 3
	case color.GrayModel:
		each = 1
	case color.RGBA64Model, color.NRGBA64Model:
		each = 8
	}
	if progressive {
		return each * 5
	}
	return each
}

// progressive reports whether a JPEG's frame is progressive (ITU-T T.81, SOF2).
func progressive(file io.ReaderAt) bool {
	head := make([]byte, 4)
	for at := int64(2); ; {
		if _, err := file.ReadAt(head, at); err != nil || head[0] != 0xff || head[1] == 0xda {
			return false
		}
		if head[1] == 0xc2 {
			return true
		}
		at += 2 + int64(head[2])<<8 + int64(head[3])
	}
}
