package sketch

import (
	"image"
	"math/rand/v2"
	"runtime"
	"sync"
)

// Draw draws the scene. The seed decides the planks and the grain of wood, wax and film, and
// nothing that could be measured.
func Draw(s Scene, seed uint64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, s.Wide, s.High))
	t := newStudio(s, seed)
	hands := runtime.GOMAXPROCS(0)
	var all sync.WaitGroup
	for h := range hands {
		all.Go(func() {
			from, to := s.High*h/hands, s.High*(h+1)/hands
			t.rows(img, from, to, seed)
		})
	}
	all.Wait()
	return img
}

// rows draws some rows of the picture. Pixels through which an edge runs are
// looked at in nine places.
func (t *studio) rows(img *image.RGBA, from, to int, seed uint64) {
	above, _ := t.row(from - 1)
	here, tones := t.row(from)
	for y := from; y < to; y++ {
		below, next := t.row(y + 1)
		rng := rand.New(rand.NewPCG(seed, uint64(y)+77))
		for x := range tones {
			c := tones[x]
			if id := here[x]; above[x] != id || below[x] != id || here[max(x-1, 0)] != id || here[min(x+1, t.Wide-1)] != id {
				c = t.nine(x, y)
			}
			c = t.shine(float64(x)+0.5, float64(y)+0.5, c).lit(t.corner(x, y))
			c.put(img.Pix[img.PixOffset(x, y):], grained(rng.Uint64()))
		}
		above, here, tones = here, below, next
	}
}

// grain is the strength of the film's grain: a standard deviation of about
// three steps of 255.
const grain = 0.022

// grained is one grain, the sum of three even draws.
func grained(r uint64) float64 {
	const each = 1 << 21
	return grain * (float64(r%each+r>>21%each+r>>42%each)/each - 1.5)
}

// row is what the pixels of one row meet.
func (t *studio) row(y int) ([]int, []tone) {
	ids, tones := make([]int, t.Wide), make([]tone, t.Wide)
	for x := range ids {
		ids[x], tones[x] = t.see(float64(x)+0.5, float64(y)+0.5)
	}
	return ids, tones
}

// nine is the mean of nine places of one pixel.
func (t *studio) nine(x, y int) tone {
	var c tone
	for i := range 9 {
		_, one := t.see(float64(x)+(float64(i%3)+0.5)/3, float64(y)+(float64(i/3)+0.5)/3)
		c = c.add(one, 1.0/9)
	}
	return c
}

// corner darkens the picture towards its corners, as small lenses do.
func (t *studio) corner(x, y int) float64 {
	r := hypot(float64(x)-t.midX, float64(y)-t.midY) / hypot(t.midX, t.midY)
	return 1.02 - 0.20*r*r*r
}
