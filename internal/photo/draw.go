package photo

import (
	"bytes"
	"context"
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
func redraw(ctx context.Context, file *os.File) (drawn, error) {
	src, turn, err := open(ctx, file)
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
// says how it must be turned. It gives up when ctx ends.
func open(ctx context.Context, file *os.File) (img image.Image, turn int, err error) {
	head := make([]byte, 4096)
	n, err := file.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, 0, fmt.Errorf("read photo: %w", err)
	}
	kind, err := kindOf(head[:n])
	if err != nil {
		return nil, 0, err
	}
	whole := func() io.Reader { return until(ctx, io.NewSectionReader(file, 0, MaxBytes)) }
	cfg, err := decoders[kind].look(whole())
	if err != nil {
		return nil, 0, unopened(ctx)
	}
	if err := workable(kind, cfg, file); err != nil {
		return nil, 0, err
	}
	img, err = decoded(decoders[kind].open, whole())
	if err != nil {
		return nil, 0, unopened(ctx)
	}
	return img, orientation(kind, file), nil
}

// unopened is why a decoder failed: nobody waits any more, or the picture.
func unopened(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("open photo: %w", err)
	}
	return refuse(trouble)
}

// reading is a reader made of its one method.
type reading func([]byte) (int, error)

// Read is the method.
func (r reading) Read(p []byte) (int, error) { return r(p) }

// until reads r, and fails once ctx has ended.
func until(ctx context.Context, r io.Reader) io.Reader {
	return reading(func(p []byte) (int, error) {
		if err := ctx.Err(); err != nil {
			return 0, err
		}
		return r.Read(p)
	})
}

// workable refuses pictures whose opening would take too much memory or time.
func workable(kind string, c image.Config, file io.ReaderAt) error {
	if kind != "jpeg" {
		return bearable(kind, c, false)
	}
	f := frameOf(file)
	if f.scans > maxScans {
		return refuse("Opening it would take too long: it is a JPEG that is written in more than %d passes. Save it anew as an ordinary JPEG.", maxScans)
	}
	return bearable(kind, c, f.progressive)
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
func bearable(kind string, c image.Config, progressive bool) error {
	if c.Width < 1 || c.Height < 1 {
		return refuse(trouble)
	}
	pixels := int64(c.Width) * int64(c.Height)
	if c.Width > maxSide || c.Height > maxSide || pixels > maxPixels {
		return refuse("It has %d × %d pixels; at most %d megapixels and %d pixels on one side can be opened here. Send a smaller copy of it.",
			c.Width, c.Height, maxPixels/1_000_000, maxSide)
	}
	if pixels*bytesEach(kind, c.ColorModel, progressive) > maxWork {
		return refuse("Opening it would take too much memory: it has %d × %d pixels in a form that needs much of it. Send a smaller copy, or save it as an ordinary JPEG.", c.Width, c.Height)
	}
	return nil
}

// bytesEach is how much memory a pixel takes at most while it is decoded. A
// JPEG in CMYK or RGB, and the clear parts of a WebP, are decoded into planes
// first and put together from them. A progressive JPEG holds a 32-bit
// coefficient for each sample until its end.
func bytesEach(kind string, m color.Model, progressive bool) int64 {
	each, samples := int64(4), int64(3)
	switch {
	case m == color.YCbCrModel:
		each = 3
	case m == color.GrayModel:
		each, samples = 1, 1
	case m == color.CMYKModel:
		each, samples = 8, 4
	case m == color.NYCbCrAModel, kind == "jpeg":
		each = 7
	case m == color.RGBA64Model, m == color.NRGBA64Model:
		each = 8
	}
	if progressive {
		return each + 4*samples
	}
	return each
}
