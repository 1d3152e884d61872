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

// yellow and bright are what a place looks like, mean of nine pixels. Set wax
// is pale, melted wax yellow; the wall above is darker than wax.
func yellow(img *image.RGBA, x, y float64) float64 {
	c := mean(img, x, y)
	return c[0] - c[2]
}

func bright(img *image.RGBA, x, y float64) float64 {
	c := mean(img, x, y)
	return c[0] + c[1] + c[2]
}

func mean(img *image.RGBA, x, y float64) (sum [3]float64) {
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			c := img.RGBAAt(int(math.Floor(x))+i, int(math.Floor(y))+j)
			sum[0], sum[1], sum[2] = sum[0]+float64(c.R)/9, sum[1]+float64(c.G)/9, sum[2]+float64(c.B)/9
		}
	}
	return sum
}

// stepFrom finds where the pixels change most on the way through a place, in
// pixels beyond it: the step that parts what is seen before from what is seen
// after (the split with the largest variance between two groups, as Otsu's
// threshold has it).
func stepFrom(look func(x, y float64) float64, x, y, dx, dy float64) float64 {
	const reach, step = 14, 0.5
	var tones []float64
	var whole float64
	for d := -reach + step/2; d < reach; d += step {
		v := look(x+d*dx, y+d*dy)
		tones, whole = append(tones, v), whole+v
	}
	best, cut, sum := 0.0, 0, 0.0
	for i, v := range tones[:len(tones)-1] {
		sum += v
		l, r := float64(i+1), float64(len(tones)-i-1)
		if between := l * r * math.Pow(sum/l-(whole-sum)/r, 2); between > best {
			best, cut = between, i+1
		}
	}
	return float64(cut)*step - reach
}

// What is drawn lies where the projection says: along rays from the middle,
// pixels change at the pool's edge all round, and at the wall's foot on the
// far side, where it can be seen; there the wax is darker, and the step softer.
func TestDrawnEdgesAreTheProjectedEdges(t *testing.T) {
	t.Parallel()
	for _, tilt := range []float64{0, 20, 35} {
		s := tumbler()
		s.Camera.Tilt, s.Vessel.Below = tilt*math.Pi/180, 22
		img := sketch.Draw(s, 5)
		off := func(look func(*image.RGBA, float64, float64) float64, x, y, fromX, fromY float64) float64 {
			mx, my := s.Place(fromX, fromY)
			n := math.Hypot(x-mx, y-my)
			at := func(x, y float64) float64 { return look(img, x, y) }
			return math.Abs(stepFrom(at, x, y, (x-mx)/n, (y-my)/n))
		}
		pool, wall, points := 0.0, 0.0, 0
		for i := range 24 {
			angle := 2 * math.Pi * float64(i) / 24
			if x, y := s.PoolPoint(angle); seen(s, x, y, tilt) {
				pool, points = max(pool, off(yellow, x, y, s.Pool.X, s.Pool.Y)), points+1
			}
			if facing := math.Sin(angle - s.Camera.Turn); facing > 0.5 && tilt > 0 {
				x, y := s.WallPoint(angle)
				wall = max(wall, off(bright, x, y, 0, 0))
			}
		}
		t.Logf("tilt %g°: the pool's edge lies up to %.1f px off, the wall's foot %.1f px", tilt, pool, wall)
		if pool > 2 || wall > 3 || points < 15 {
			t.Errorf("tilt %g°: of %d points an edge is drawn %.1f px and the wall's foot %.1f px from its place", tilt, points, pool, wall)
		}
	}
}

// seen reports whether a place of the wax is well clear of the near rim: a
// wall of 22 mm hides up to 22 tan(tilt) of the wax behind it.
func seen(s sketch.Scene, x, y, tilt float64) bool {
	hidden := s.Vessel.Below * math.Tan(tilt*math.Pi/180)
	sin, cos := math.Sincos(s.Camera.Turn)
	reach := s.Vessel.Width/2 - 1.3*hidden
	_, near := s.Place(reach*sin, -reach*cos)
	return y < near-16
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

// Wax on the wall makes it as pale as wax, soot makes it dark; where neither is,
// the wall stays as it was. The wax itself does not change.
func TestWallWaxAndSoot(t *testing.T) {
	t.Parallel()
	s := tumbler()
	s.Wide, s.High, s.Vessel.Below, s.Camera.Tilt, s.Camera.Turn = 600, 450, 40, 0.5, 0
	wall := func(clinging, soot float64) (low, high, wax int) {
		s.Vessel.Clinging, s.Vessel.Soot = clinging, soot
		img := sketch.Draw(s, 1)
		x, y := s.WallPoint(math.Pi / 2) // the far end, below the wall seen from inside
		at := func(up int) int {
			var sum int
			for dx := -4; dx <= 4; dx++ {
				sum += int(img.RGBAAt(int(x)+dx, int(y)-up).R)
			}
			return sum / 9
		}
		return at(8), at(34), at(-8)
	}
	low, high, wax := wall(0, 0)
	if hung, bare, same := wall(0.4, 0); hung < low+10 || bare > high+12 || same != wax {
		t.Errorf("a skin of wax turns %d, %d over %d into %d, %d over %d", low, high, wax, hung, bare, same)
	}
	if _, hung, _ := wall(1, 0); hung < high+20 {
		t.Errorf("a shaft of wax turns %d into %d below the rim", high, hung)
	}
	if _, black, same := wall(0, 1); black > high*2/3 || same != wax {
		t.Errorf("soot turns %d into %d below the rim", high, black)
	}
}

// A wick that was never lit has no black tip.
func TestNewWickIsPale(t *testing.T) {
	t.Parallel()
	s := tumbler()
	s.Camera = sketch.Camera{Distance: 330, Focal: 1.5}
	s.Wicks[0].New = true
	if c := sketch.Draw(s, 1).RGBAAt(600, 450); int(c.R)+int(c.G)+int(c.B) < 300 {
		t.Errorf("its tip is %v", c)
	}
}

func BenchmarkDraw(b *testing.B) {
	s := tumbler()
	s.Wicks[0].Flame = 22
	for b.Loop() {
		sketch.Draw(s, 1)
	}
}
