package photo

import (
	"image"
	"image/color"
	"math"
	"testing"
)

// areaMean is the slow way: each pixel of the result is the mean of the source
// over its area, pixel by pixel with its share.
func areaMean(src *image.RGBA, w, h, x, y, c int) float64 {
	sw, sh := float64(src.Rect.Dx()), float64(src.Rect.Dy())
	x0, x1 := float64(x)*sw/float64(w), float64(x+1)*sw/float64(w)
	y0, y1 := float64(y)*sh/float64(h), float64(y+1)*sh/float64(h)
	sum, area := 0.0, 0.0
	for j := int(y0); float64(j) < y1 && j < src.Rect.Dy(); j++ {
		for i := int(x0); float64(i) < x1 && i < src.Rect.Dx(); i++ {
			share := (math.Min(x1, float64(i+1)) - math.Max(x0, float64(i))) * (math.Min(y1, float64(j+1)) - math.Max(y0, float64(j)))
			sum, area = sum+share*float64(src.Pix[src.PixOffset(i, j)+c]), area+share
		}
	}
	return sum / area
}

func TestReducingTakesTheMeanOfAnArea(t *testing.T) {
	for _, c := range []struct{ sw, sh, w, h int }{{7, 5, 7, 5}, {8, 8, 4, 4}, {10, 7, 3, 2}, {13, 11, 12, 10}, {97, 3, 5, 1}, {3, 97, 1, 5}, {5, 5, 1, 1}, {64, 48, 33, 47}} {
		src := noise(c.sw, c.sh, 11)
		got := reduced(src, c.w, c.h)
		for y := range c.h {
			for x := range c.w {
				for k := range 3 {
					want := areaMean(src, c.w, c.h, x, y, k)
					if is := float64(got.Pix[got.PixOffset(x, y)+k]); math.Abs(is-want) > 0.5+1e-6 {
						t.Fatalf("%v: sample %d of (%d, %d) is %g, want %g", c, k, x, y, is, want)
					}
				}
			}
		}
	}
}

// Clear parts show white, and a picture need not begin at (0, 0).
func TestReducingOtherKindsOfPicture(t *testing.T) {
	clear := image.NewNRGBA(image.Rect(10, 20, 14, 24))
	clear.SetNRGBA(10, 20, color.NRGBA{255, 0, 0, 255})
	got := reduced(clear, 4, 4)
	if a, b := got.RGBAAt(0, 0), got.RGBAAt(3, 3); a != (color.RGBA{255, 0, 0, 255}) || b != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("got %v and %v", a, b)
	}
}
