package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// reduced is a picture drawn smaller, each pixel the mean of the area that it
// stands for, on white where it is clear. It goes through the source row by
// row: beside the two pictures it needs a few rows of memory.
func reduced(src image.Image, w, h int) *image.RGBA {
	b := src.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	row := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	sums := newSums(b.Dx(), b.Dy(), w)
	for y := range b.Dy() {
		draw.Draw(row, row.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.Draw(row, row.Rect, src, image.Pt(b.Min.X, b.Min.Y+y), draw.Over)
		sums.across(row.Pix)
		// A source row is h high where a row of the result is b.Dy() high.
		to := (y * h) / b.Dy()
		here := min(h, (to+1)*b.Dy()-y*h)
		sums.down(uint64(here))
		if (y+1)*h >= (to+1)*b.Dy() {
			sums.finish(out.Pix[to*out.Stride : to*out.Stride+4*w])
			sums.down(uint64(h - here))
		}
	}
	return out
}

// sums gathers weighted sums of samples for one row of the result.
type sums struct {
	from, to int      // widths of the source and of the result
	area     uint64   // of a pixel of the result
	line     []uint64 // of the source row in hand, three samples a pixel
	rows     []uint64 // of the rows so far
}

func newSums(from, height, to int) *sums {
	return &sums{from: from, to: to, area: uint64(from) * uint64(height), line: make([]uint64, 3*to), rows: make([]uint64, 3*to)}
}

// across sums one source row: a source pixel is s.to wide where a pixel of the
// result is s.from wide, and lies in one or two of those.
func (s *sums) across(pix []byte) {
	clear(s.line)
	left, at := s.from, 0 // left of the pixel of the result in hand
	for i := 0; i < len(pix); i += 4 {
		p := pix[i : i+3 : i+3]
		here := min(s.to, left)
		s.add(at, p, uint64(here))
		if left -= s.to; left <= 0 {
			at += 3
			if left < 0 {
				s.add(at, p, uint64(-left))
			}
			left += s.from
		}
	}
}

func (s *sums) add(at int, p []byte, weight uint64) {
	l := s.line[at : at+3 : at+3]
	l[0] += weight * uint64(p[0])
	l[1] += weight * uint64(p[1])
	l[2] += weight * uint64(p[2])
}

// down adds the row in hand with a weight.
func (s *sums) down(weight uint64) {
	if weight == 0 {
		return
	}
	for i, v := range s.line {
		s.rows[i] += weight * v
	}
}

// finish writes the means of the rows so far and begins anew.
func (s *sums) finish(pix []byte) {
	for i := range s.to {
		for c := range 3 {
			pix[4*i+c] = uint8((s.rows[3*i+c] + s.area/2) / s.area)
		}
		pix[4*i+3] = 255
	}
	clear(s.rows)
}

// turned is a picture turned and mirrored as an Exif orientation asks for
// (CIPA DC-008, tag 274; the picture that each of them shows is in its table).
func turned(src *image.RGBA, orientation int) *image.RGBA {
	if orientation < 2 || orientation > 8 {
		return src
	}
	w, h := src.Rect.Dx(), src.Rect.Dy()
	at := func(x, y int) (int, int) { return x, y }
	switch orientation {
	case 2:
		at = func(x, y int) (int, int) { return w - 1 - x, y }
	case 3:
		at = func(x, y int) (int, int) { return w - 1 - x, h - 1 - y }
	case 4:
		at = func(x, y int) (int, int) { return x, h - 1 - y }
	case 5:
		at = func(x, y int) (int, int) { return y, x }
	case 6:
		at = func(x, y int) (int, int) { return y, h - 1 - x }
	case 7:
		at = func(x, y int) (int, int) { return w - 1 - y, h - 1 - x }
	case 8:
		at = func(x, y int) (int, int) { return w - 1 - y, x }
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation >= 5 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sx, sy := at(x, y)
			copy(out.Pix[out.PixOffset(x, y):][:4], src.Pix[src.PixOffset(sx, sy):][:4])
		}
	}
	return out
}
