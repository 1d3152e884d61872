package sketch_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"rimward/internal/sketch"
)

// tumbler is a glass of 80 mm with a pool of 61 by 56 mm, seen from 330 mm.
func tumbler() sketch.Scene {
	return sketch.Scene{Wide: 1200, High: 900,
		Camera: sketch.Camera{Distance: 330, Tilt: 0.35, Turn: 0.5, AimX: 4, AimY: -3, Focal: 1.5},
		Vessel: sketch.Vessel{Length: 80, Width: 80, Wall: 3, Height: 90, Below: 8, Material: sketch.Glass},
		Pool:   sketch.Pool{X: 2, Y: -1.5, Along: 61, Across: 56, Turn: 0.4},
		Wicks:  []sketch.Wick{{Height: 6, Thick: 2}},
	}
}

// Straight above, a pinhole draws everything in one plane in the scale of
// focal length over distance: 0.75 × 1200 px / 300 mm = 3 px/mm.
func TestPlaceStraightAbove(t *testing.T) {
	t.Parallel()
	s := sketch.Scene{Wide: 1200, High: 900, Camera: sketch.Camera{Distance: 300}, Vessel: sketch.Vessel{Length: 80, Width: 60, Height: 90, Below: 10},
		Pool: sketch.Pool{X: 10, Along: 40, Across: 20}}
	for _, c := range []struct {
		name         string
		x, y         float64
		wantX, wantY float64
	}{
		{"middle", 0, 0, 600, 450}, {"to the right", 10, 0, 630, 450}, {"farther away stands higher", 0, 10, 600, 420},
	} {
		if x, y := s.Place(c.x, c.y); math.Hypot(x-c.wantX, y-c.wantY) > 1e-9 {
			t.Errorf("%s: (%g, %g), want (%g, %g)", c.name, x, y, c.wantX, c.wantY)
		}
	}
	if x, y := s.WallPoint(math.Pi / 2); math.Hypot(x-600, y-360) > 1e-9 {
		t.Errorf("the wall's side lies at (%g, %g)", x, y)
	}
	if x, y := s.PoolPoint(0); math.Hypot(x-690, y-450) > 1e-9 {
		t.Errorf("the pool's end lies at (%g, %g)", x, y)
	}
	s.Pool.X = 30 // 50 mm from the middle: cut off by the wall at 40
	if x, y := s.PoolPoint(0); math.Hypot(x-720, y-450) > 1e-9 {
		t.Errorf("the pool leaves the vessel: (%g, %g)", x, y)
	}
}

// At a tilt the middle of a length stays the middle of nothing: its near half
// looks larger. By hand, 60° from straight down at 400 mm, f 900 px: a point
// 40 mm farther lies 40 cos 60° = 20 mm up and 40 sin 60° = 34.64 mm deeper:
// 900 · 20 / 434.64 = 41.414 px; one 40 mm nearer 900 · 20 / 365.36 = 49.267 px.
func TestPlaceAtATilt(t *testing.T) {
	t.Parallel()
	s := sketch.Scene{Wide: 1200, High: 900, Camera: sketch.Camera{Distance: 400, Tilt: math.Pi / 3}, Vessel: sketch.Vessel{Length: 80, Width: 80, Height: 50}}
	if _, y := s.Place(0, 40); math.Abs(450-y-41.414) > 1e-3 {
		t.Errorf("far end %g px up", 450-y)
	}
	if _, y := s.Place(0, -40); math.Abs(y-450-49.267) > 1e-3 {
		t.Errorf("near end %g px down", y-450)
	}
	s.Camera.Turn = math.Pi / 2 // from the end of the length: what was across is now to the right, and so on
	if x, y := s.Place(0, 40); math.Abs(y-450) > 1e-9 || x <= 600 {
		t.Errorf("after a quarter turn (%g, %g)", x, y)
	}
}

// yellow is how yellow a place is, mean of a few pixels: set wax is pale,
// melted wax is not.
func yellow(img *image.RGBA, x, y float64) float64 {
	var sum float64
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			c := img.RGBAAt(int(x)+i, int(y)+j)
			sum += float64(c.R) - float64(c.B)
		}
	}
	return sum / 9
}

// stepAlong finds where a picture turns from yellow to pale on the way from
// one place to another: the place that parts the two best.
func stepAlong(img *image.RGBA, x0, y0, x1, y1 float64) (x, y float64) {
	n := int(2 * math.Hypot(x1-x0, y1-y0))
	at := func(i int) (float64, float64) {
		k := float64(i) / float64(n)
		return x0 + k*(x1-x0), y0 + k*(y1-y0)
	}
	var tones []float64
	var whole float64
	for i := range n {
		v := yellow(img, first(at(i)), second(at(i)))
		tones, whole = append(tones, v), whole+v
	}
	best, cut, sum := 0.0, 0, 0.0
	for i, v := range tones[:n-1] {
		sum += v
		l, r := float64(i+1), float64(n-i-1)
		if between := l * r * math.Pow(sum/l-(whole-sum)/r, 2); between > best {
			best, cut = between, i+1
		}
	}
	return at(cut)
}

func first(x, _ float64) float64  { return x }
func second(_, y float64) float64 { return y }

// What is drawn lies where the projection says: the colour of the pixels
// changes at the pool's edge, all round.
func TestDrawnEdgeIsTheProjectedEdge(t *testing.T) {
	t.Parallel()
	s := tumbler()
	img := sketch.Draw(s, 5)
	worst := 0.0
	for i := range 24 {
		px, py := s.PoolPoint(2 * math.Pi * float64(i) / 24)
		mx, my := s.Place(s.Pool.X, s.Pool.Y)
		dx, dy := (px-mx)/math.Hypot(px-mx, py-my), (py-my)/math.Hypot(px-mx, py-my)
		x, y := stepAlong(img, px-22*dx, py-22*dy, px+18*dx, py+18*dy)
		worst = max(worst, math.Hypot(x-px, y-py))
	}
	t.Logf("the farthest edge lies %.1f px off", worst)
	if worst > 3 {
		t.Errorf("an edge is drawn %.1f px from its place", worst)
	}
}

// The picture is the same for the same seed; another seed changes the grain
// and the planks alone.
func TestSeedDecidesTheGrain(t *testing.T) {
	t.Parallel()
	s := tumbler()
	s.Wide, s.High = 240, 180
	a, b, c := sketch.Draw(s, 1), sketch.Draw(s, 1), sketch.Draw(s, 2)
	if !bytes.Equal(a.Pix, b.Pix) {
		t.Error("the same seed gives another picture")
	}
	if bytes.Equal(a.Pix, c.Pix) {
		t.Error("another seed gives the same picture")
	}
	var far int
	for y := 60; y < 120; y++ { // the candle; the planks of the bench may lie elsewhere
		for x := 90; x < 150; x++ {
			far = max(far, int(a.RGBAAt(x, y).G)-int(c.RGBAAt(x, y).G))
		}
	}
	if far > 30 {
		t.Errorf("another seed changes the candle by %d of 255", far)
	}
}

// A flame is the brightest place; a cold candle has a dark wick there. Without
// a pool the wax is as pale in the middle as at the wall.
func TestFlameWickAndPool(t *testing.T) {
	t.Parallel()
	s := tumbler()
	s.Camera.Tilt, s.Camera.Turn, s.Camera.AimX, s.Camera.AimY = 0, 0, 0, 0
	bright := func(img *image.RGBA, x, y int) int {
		c := img.RGBAAt(x, y)
		return int(c.R) + int(c.G) + int(c.B)
	}
	cold := sketch.Draw(s, 1)
	if got := bright(cold, 600, 450); got > 250 {
		t.Errorf("the tip of a cold wick has brightness %d", got)
	}
	s.Wicks[0].Flame = 22
	lit := sketch.Draw(s, 1)
	if got := bright(lit, 600, 450); got < 700 {
		t.Errorf("the flame has brightness %d", got)
	}
	if melted := yellow(cold, 600, 400); melted < 40 {
		t.Errorf("melted wax is as pale as %g", melted)
	}
	s.Pool, s.Wicks = sketch.Pool{}, nil
	if set := yellow(sketch.Draw(s, 1), 600, 400); set > 35 {
		t.Errorf("set wax is as yellow as %g", set)
	}
}

// Every material is drawn, also in a vessel that is not round, in any light;
// given colours are used.
func TestMaterialsLookDifferent(t *testing.T) {
	t.Parallel()
	seen := map[color.RGBA]sketch.Material{}
	for _, m := range []sketch.Material{sketch.Glass, sketch.Ceramic, sketch.Tin} {
		s := tumbler()
		s.Wide, s.High, s.Vessel.Length, s.Vessel.Material, s.Camera.Tilt = 400, 300, 95, m, 0.6
		img := sketch.Draw(s, 1)
		c := img.RGBAAt(200, 270)
		if seen[c] != "" {
			t.Errorf("%s looks like %s", m, seen[c])
		}
		seen[c] = m
	}
	s := tumbler()
	s.Wide, s.High, s.Bench, s.Camera.Distance = 120, 90, color.RGBA{20, 40, 200, 255}, 900
	if c := sketch.Draw(s, 1).RGBAAt(5, 5); c.B < 2*c.R {
		t.Errorf("a blue bench is %v", c)
	}
}

func BenchmarkDraw(b *testing.B) {
	s := tumbler()
	s.Wicks[0].Flame = 22
	for b.Loop() {
		sketch.Draw(s, 1)
	}
}
